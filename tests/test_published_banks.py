"""Precharge, tied banks and parallel batteries against ngspice, scipy and hand-worked networks, each with its source."""

from __future__ import annotations

import math
import shutil
import subprocess

import pytest

from calc import units as u
from calc.catalogue import check_called
from calc.check import GO, NO, Answer
from calc.form import fill
from calc.quantity import Quantity


def ask(check: str, **typed: str) -> Answer:
    asked = fill(check_called(check), typed)
    assert not asked.problems, asked.problems
    return asked.answer()


def number(answer: Answer, name: str, unit: u.Unit) -> float:
    result = answer.results[name]
    assert isinstance(result, Quantity)
    return result.number_in(unit)


def verdict_on(answer: Answer, label: str) -> str:
    return next(requirement.verdict for requirement in answer.requirements if requirement.label == label)


needs_ngspice = pytest.mark.skipif(shutil.which("ngspice") is None, reason="ngspice is not installed")


def simulated(circuit: str, *control: str) -> dict[str, float]:
    """Run a deck; what it measures, by name."""
    deck = "\n".join(["deck", circuit, ".control", *control, ".endc", ".end", ""])
    said = subprocess.run(["ngspice", "-b"], input=deck, capture_output=True, text=True, check=False).stdout
    found = {}
    for line in said.splitlines():
        name, equals, rest = line.partition("=")
        if equals and rest.split():
            try:
                found[name.strip()] = float(rest.split()[0])
            except ValueError:
                continue
    return found


# --- precharge ---------------------------------------------------------------------------------------------------

STANDING = {
    "highest_volts": "51.2 V",
    "capacitance": "20 mF",
    "resistor": "25 ohm",
    "resistance": "12 mohm",
    "inductance": "3 uH",
    "pulse": "60 J",
    "allowed_time": "10 s",
}


@needs_ngspice
def test_a_bare_capacitor_fills_as_a_simulator_says() -> None:
    """ngspice: 51.2 V, 25 Ω, 20 mF; 1 V missing after 1.97 s."""
    found = simulated(
        "V1 a 0 51.2\nR1 a b 25\nC1 b 0 20m ic=0",
        "tran 1m 4 0 1m uic",
        "meas tran t when v(b)=50.2",
    )
    answer = ask("choose/precharge", residual="1 V", standby="nothing", **STANDING)
    assert number(answer, "time", u.s) == pytest.approx(found["t"], rel=2e-3)
    assert number(answer, "resistor_energy", u.J) == pytest.approx(26.2, abs=0.05)


@needs_ngspice
def test_trap_17_a_resistance_left_on_stops_it_at_46_6_volts() -> None:
    """ngspice: 256 Ω beside the capacitor. The naive five RC says full after 2.5 s."""
    # trap 17: five time constants never fill it while something draws: it stops short, or hangs where the electronics wake.
    found = simulated("V1 a 0 51.2\nR1 a b 25\nR2 b 0 256\nC1 b 0 20m ic=0", "op", "print v(b)")
    answer = ask(
        "choose/precharge",
        residual="2 V",
        standby="a resistance: lamp, bleeder, heater",
        standby_power="10.24",
        **STANDING,
    )
    assert number(answer, "final_volts", u.V) == pytest.approx(found["v(b)"], rel=1e-4)
    assert number(answer, "final_volts", u.V) == pytest.approx(46.6, abs=0.05)
    assert verdict_on(answer, "Near enough in the end") == NO and "time" not in answer.results
    assert any("Five time constants" in note for note in answer.notes)
    assert number(answer, "closing_current", u.A) == pytest.approx(205, rel=0.02)


def test_trap_17_sixty_watts_hang_it_where_they_wake() -> None:
    """By hand: 20 V · (51.2 − 20) V / 25 Ω = 25 W come through; 60 W are taken."""
    awake = {"standby": "electronics that wake up", "wakes_at": "20 V", "residual": "12 V"}
    hung = ask("choose/precharge", standby_power="60", **awake, **STANDING)
    assert verdict_on(hung, "Past the waking") == NO and number(hung, "final_volts", u.V) == 20
    assert verdict_on(ask("choose/precharge", standby_power="10", **awake, **STANDING), "Past the waking") == GO


@needs_ngspice
def test_electronics_of_constant_power_slow_it_as_a_simulator_says() -> None:
    """ngspice: a current source of 10 W over its own volts from 20 V up."""
    found = simulated(
        "V1 a 0 51.2\nR1 a b 25\nC1 b 0 20m ic=0\nB1 b 0 I=(v(b) > 20) ? 10/v(b) : 0",
        "tran 0.5m 6 0 0.5m uic",
        "meas tran t when v(b)=44",
        "meas tran vf find v(b) at=6",
    )
    answer = ask(
        "choose/precharge",
        standby="electronics that wake up",
        standby_power="10",
        wakes_at="20 V",
        residual="7.2 V",
        **STANDING,
    )
    assert number(answer, "time", u.s) == pytest.approx(found["t"], rel=5e-3)
    assert number(answer, "final_volts", u.V) == pytest.approx(found["vf"], rel=2e-3)


@needs_ngspice
def test_trap_18_a_bare_closing_is_not_volts_over_resistance() -> None:
    """ngspice: 54 V, 12 mΩ, 3 µH, 20 mF: 2432 A, not 4500 A, and 63.2 V on capacitors of 63 V."""
    # trap 18: a bare closing is not volts over resistance: 2432 A and not 4500 A, but 63.2 V on capacitors of 63 V.
    found = simulated(
        "V1 a 0 54\nR1 a b 12m\nL1 b c 3u ic=0\nC1 c 0 20m ic=0",
        "tran 0.2u 3m 0 0.2u uic",
        "meas tran imax min i(v1)",
        "meas tran vmax max v(c)",
    )
    answer = ask("choose/precharge", standby="nothing", residual="1 V", **(STANDING | {"highest_volts": "54 V"}))
    assert number(answer, "bare_current", u.A) == pytest.approx(-found["imax"], rel=1e-3)
    assert number(answer, "bare_volts", u.V) == pytest.approx(found["vmax"], rel=1e-3)
    assert number(answer, "bare_current", u.A) == pytest.approx(2432, abs=1)
    assert number(answer, "bare_volts", u.V) == pytest.approx(63.2, abs=0.05)


@needs_ngspice
def test_a_damped_loop_is_bounded_by_volts_over_resistance() -> None:
    """ngspice: 60 mΩ, 1 µH, 10 mF, overdamped: what flows stays under V/R."""
    found = simulated(
        "V1 a 0 48\nR1 a b 60m\nL1 b c 1u ic=0\nC1 c 0 10m ic=0", "tran 0.2u 1m 0 0.2u uic", "meas tran imax min i(v1)"
    )
    answer = ask(
        "choose/precharge",
        highest_volts="48 V",
        resistance="60 mohm",
        inductance="1 uH",
        capacitance="10 mF",
        residual="1 V",
        standby="nothing",
    )
    assert -found["imax"] < number(answer, "bare_current", u.A) == pytest.approx(800)
    assert math.isclose(number(answer, "bare_volts", u.V), 48)


# --- two banks tied ----------------------------------------------------------------------------------------------

EQUAL = {
    "resistance_1": "8 mohm",
    "resistance_2": "8 mohm",
    "capacity_1": "280 Ah",
    "capacity_2": "280 Ah",
    "in_1": "140",
    "in_2": "140",
    "out_1": "280",
    "out_2": "280",
}


def test_trap_19_the_first_second_goes_by_the_ohmic_resistance() -> None:
    """Ohm's law: 1.6 V over 16 mΩ is 100 A at once; the 28 mΩ of half a minute would say 57 A."""
    # trap 19: 0.8 V between two lithium banks look like nothing and are half the charge; the first second goes by the ohmic part.
    apart = {"volts_1": "53.6 V", "volts_2": "52 V", "in_2": "70"}
    ohmic = ask("protect/tie-banks", resistance_1="6 mohm", resistance_2="6 mohm", cable="4 mohm", **apart)
    slow = ask("protect/tie-banks", resistance_1="12 mohm", resistance_2="12 mohm", cable="4 mohm", **apart)
    assert number(ohmic, "first_rush", u.A) == pytest.approx(100)
    assert number(slow, "first_rush", u.A) == pytest.approx(57.1, abs=0.1)
    assert verdict_on(ohmic, "First rush") == NO
    assert any("half of the charge" in note for note in ohmic.notes)


def test_trap_19_a_small_difference_of_volts_is_half_the_charge() -> None:
    """80 against 30 %: 0.8 V, 40 A, and 70 Ah in all, of 280 Ah each."""
    answer = ask(
        "protect/tie-banks", volts_1="53.4 V", volts_2="52.6 V", charge_1="80", charge_2="30", cable="4 mohm", **EQUAL
    )
    assert number(answer, "first_rush", u.A) == pytest.approx(40)
    assert number(answer, "charge_moved", u.Ah) == pytest.approx(70)
    assert verdict_on(answer, "Charge that moves") == "tight"


@pytest.mark.parametrize(("full", "low"), [(100, 30), (80, 30), (95, 60)])
def test_levelling_out_is_what_an_adaptive_solver_finds(full: int, low: int) -> None:
    """scipy solve_ivp (LSODA): dq/dt = ∓(E(q₁) − E(q₂))/(R·Q) with numpy's interpolation of the same curve."""
    import numpy
    from scipy.integrate import solve_ivp

    from calc.tables import table

    curve = table("lfp_open_circuit")
    at = [float(row) / 100 for row in curve.rows]
    volts = [float(curve.text(row, "volts")) for row in curve.rows]
    ohms, coulombs = 0.020, 280 * 3600

    def flows(charges: list[float]) -> float:
        return float(numpy.interp(charges[0], at, volts) - numpy.interp(charges[1], at, volts)) / ohms

    run = solve_ivp(
        lambda _, q: [-flows(q) / coulombs, flows(q) / coulombs],
        (0, 3600),
        [full / 100, low / 100],
        t_eval=[60, 600, 3600],
        method="LSODA",
        rtol=1e-8,
        atol=1e-10,
        max_step=2,
    )
    answer = ask("protect/tie-banks", charge_1=str(full), charge_2=str(low), cable="4 mohm", **EQUAL)
    names = ("amps_after_a_minute", "amps_after_ten_minutes", "amps_after_an_hour")
    for name, charges in zip(names, run.y.T, strict=True):
        assert number(answer, name, u.A) == pytest.approx(flows(list(charges)), rel=0.01, abs=0.05), name


@needs_ngspice
@pytest.mark.parametrize(("full", "low"), [(100, 30), (80, 30)])
def test_levelling_out_is_what_a_circuit_simulator_finds(full: int, low: int) -> None:
    """ngspice, transient of an hour: two charges on capacitors, each behind the curve of its rest volts, over 20 mΩ."""
    from calc.tables import table

    curve = table("lfp_open_circuit")
    points = ",".join(f"{float(row) / 100},{curve.text(row, 'volts')}" for row in curve.rows)
    times = {"minute": 60, "ten": 600, "hour": 3599}
    found = simulated(
        f"""C1 q1 0 1 ic={full / 100}
C2 q2 0 1 ic={low / 100}
R1 q1 0 1e12
R2 q2 0 1e12
BE1 e1 0 V=pwl(v(q1),{points})
BE2 e2 0 V=pwl(v(q2),{points})
BF1 q1 0 I=(v(e1)-v(e2))/0.020/{280 * 3600}
BF2 0 q2 I=(v(e1)-v(e2))/0.020/{280 * 3600}
BI i 0 V=(v(e1)-v(e2))/0.020""",
        "tran 1 3600 0 1 uic",
        *(f"meas tran {name} find v(i) at={at}" for name, at in times.items()),
    )
    answer = ask("protect/tie-banks", charge_1=str(full), charge_2=str(low), cable="4 mohm", **EQUAL)
    names = ("amps_after_a_minute", "amps_after_ten_minutes", "amps_after_an_hour")
    for name, when in zip(names, times, strict=True):
        assert number(answer, name, u.A) == pytest.approx(found[when], rel=0.01, abs=0.05), name


@needs_ngspice
def test_a_driven_load_is_shared_as_a_simulator_says() -> None:
    """ngspice, operating point: 14 mΩ at the load, 20 mΩ behind 3 mΩ of cable, 0.2 V apart, 120 A: each bank's amps."""
    found = simulated("V1 a 0 53.2\nR1 a l 14m\nV2 b 0 53\nR2 b l 23m\nI1 l 0 120", "op", "print i(v1)", "print i(v2)")
    answer = ask(
        "protect/tie-banks",
        use="a vehicle or loads, from the first bank's side",
        peak="120",
        volts_1="53.2 V",
        volts_2="53 V",
        resistance_1="14 mohm",
        resistance_2="20 mohm",
        cable="3 mohm",
    )
    compared = {
        requirement.label: requirement.condition.quantities[0].number_in(u.A)
        for requirement in answer.requirements
        if requirement.label.endswith("at the peak")
    }
    assert compared["First bank at the peak"] == pytest.approx(-found["i(v1)"], rel=1e-4)
    # The second bank's own share is not credited with what the first one pushes toward it: never less than it gives.
    assert compared["Second bank at the peak"] >= -found["i(v2)"] - 1e-6


def test_nothing_is_driven_into_cold_or_full_cells() -> None:
    """Every published table of charge against temperature: none below 0 °C."""
    assert ask("protect/tie-banks", cells="-3 °C").verdict == NO
    driven = {"use": "a vehicle or loads, from the first bank's side", "peak": "60", "braking": "40"}
    assert verdict_on(ask("protect/tie-banks", charge_1="100", **driven), "First bank while braking") == NO
    assert verdict_on(ask("protect/tie-banks", charge_1="70", **driven), "First bank while braking") == GO


def test_what_one_protection_drops_falls_on_the_other() -> None:
    """Kirchhoff: 180 A shared by 200 and 150 A banks; alone, the weaker cannot carry it."""
    driven = {"use": "a vehicle or loads, from the first bank's side", "peak": "180"}
    assert verdict_on(ask("protect/tie-banks", **driven), "One protection opens") == "tight"
    assert verdict_on(ask("protect/tie-banks", fuses="at one end only"), "Fuses") == NO


# --- batteries side by side --------------------------------------------------------------------------------------


def currents(answer: Answer) -> list[float]:
    return [float(text.split()[0]) for text in str(answer.results["currents"]).replace("\u00a0", " ").split(", ")]


@needs_ngspice
@pytest.mark.parametrize(
    ("takeoff", "count", "first"),
    [
        ("both wires at the same end", 4, 3.0),
        ("one wire at each end, across", 4, 3.0),
        ("both wires at the same end", 6, 2.0),
        ("one wire at each end, across", 6, 2.0),
        ("one wire at each end, across", 3, 2.5),
    ],
)
def test_the_shares_are_those_of_a_circuit_simulator(takeoff: str, count: int, first: float) -> None:
    """ngspice, operating point: equal sources behind their resistances between two rails of links."""
    lines = []
    for k in range(1, count + 1):
        lines += [f"V{k} m{k} n{k} 50", f"R{k} m{k} p{k} {first if k == 1 else 3.0}m"]
        if k > 1:
            lines += [f"RP{k} p{k - 1} p{k} 0.25m", f"RN{k} n{k - 1} n{k} 0.25m"]
    back = "n1" if takeoff.startswith("both") else f"n{count}"
    lines += [f"I1 p1 {back} 200", f"VG {back} 0 0"]
    found = simulated("\n".join(lines), "op", *(f"print i(v{k})" for k in range(1, count + 1)))
    answer = ask(
        "choose/parallel-takeoff",
        count=str(count),
        battery="3 mohm",
        link="0.25 mohm",
        takeoff=takeoff,
        strongest=f"{first} mohm",
        load_amps="200",
        each="200",
    )
    simulated_amps = [-found[f"i(v{k})"] for k in range(1, count + 1)]
    assert currents(answer) == pytest.approx(simulated_amps, abs=0.1)
    assert number(answer, "hardest", u.A) == pytest.approx(max(simulated_amps), rel=1e-5)


def test_trap_20_four_alike_from_one_end_are_not_alike() -> None:
    """By hand, from the far end: 1, 1.167, 1.528, 2.143: 73, 52, 40 and 34 of 200 A; across 54, 46, 46, 54."""
    # trap 20: two batteries of 100 A do not make 200 A, and four taken off at one end do not share alike.
    row = {"count": "4", "load_amps": "200", "each": "200", "battery": "3 mohm", "strongest": "3 mohm"}
    row |= {"link": "0.25 mohm"}
    same = ask("choose/parallel-takeoff", takeoff="both wires at the same end", **row)
    assert [round(amps) for amps in currents(same)] == [73, 52, 40, 34] and same.verdict == NO
    across = ask("choose/parallel-takeoff", takeoff="one wire at each end, across", **row)
    assert [round(amps) for amps in currents(across)] == [54, 46, 46, 54] and across.verdict == GO


def test_trap_20_two_hundred_amp_batteries_give_167() -> None:
    """Conductances of 12 and 18 mΩ: 60 and 40 %; the first is at 100 A when both give 166.7."""
    pair = ask(
        "choose/parallel-takeoff",
        count="2",
        takeoff="equal leads to a bus bar",
        strongest="12 mohm",
        battery="18 mohm",
        each="100",
        load_amps="180",
    )
    assert number(pair, "most_current", u.A) == pytest.approx(166.7, abs=0.05)
    assert verdict_on(pair, "The hardest working one") == NO
    assert any("added up say 200" in note.replace("\u00a0", " ") for note in pair.notes)
