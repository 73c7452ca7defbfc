"""Battery cables, fuses, breakers, cords and ground wires: published figures and the traps of the trade, by number.

Each stands with its source; what a circuit simulator or another library finds is named where it is used.
"""

from __future__ import annotations

import math
import shutil
import subprocess

import pytest

from calc import units as u
from calc.catalogue import check_called
from calc.check import GO, NO, TIGHT, Answer
from calc.form import defaults, fill
from calc.quantity import Quantity
from calc.tables import table

needs_ngspice = pytest.mark.skipif(shutil.which("ngspice") is None, reason="ngspice is installed by .ci/run")


def ask(check: str, rules: str = "nec", **typed: str) -> Answer:
    asked = fill(check_called(check), typed, rules=rules)
    assert not asked.problems, asked.problems
    return asked.answer()


def number(answer: Answer, name: str, unit: u.Unit) -> float:
    result = answer.results[name]
    assert isinstance(result, Quantity)
    return result.number_in(unit)


def verdict_on(answer: Answer, label: str) -> str:
    return next(requirement.verdict for requirement in answer.requirements if requirement.label == label)


def simulated(deck: str) -> dict[str, float]:
    """What ngspice measures on a deck: the `name = value` lines of its batch output."""
    said = subprocess.run(["ngspice", "-b"], input=deck, capture_output=True, text=True, check=False).stdout
    found = {}
    for line in said.splitlines():
        name, sign, rest = line.partition("=")
        if sign and rest.split():
            try:
                found[name.strip().lower()] = float(rest.split()[0])
            except ValueError:
                continue
    return found


# --- the current from the bank -----------------------------------------------------------------------------------

BANK = {
    "efficiency_known": "measured at full load",
    "strings": "2",
    "string_limit": "100",
    "cutoff": "46",
    "resting_volts": "51.2",
}


def test_trap_4_watts_over_nominal_volts_is_too_low_for_cables() -> None:
    """V² − E·V + R·P = 0 and i = I·(1 − cos 2ωt), worked by hand: 6 kW at 93 %, 51.2 V, 15 mΩ.

    The naive 6452 W over 51.2 V says 126.0 A; it is 131.0 A under load, 140.3 A at the cut-off of 46 V, and with the
    ripple of a one-phase output 160.5 A under load heat the cable (√1.5 of the average).
    """
    # trap 4: watts over the nominal volts say 126 A; it is 131 A under load, 140 A at the cut-off, 160 A for the cable's heat.
    answer = ask(
        "choose/bank-current", continuous="6000", surge="6000", measured_efficiency="93", resistance="15 mohm", **BANK
    )
    under = number(answer, "current_under_load", u.A)
    assert number(answer, "naive_current", u.A) == pytest.approx(126.0, abs=0.05)
    assert under == pytest.approx(131.0, abs=0.07)
    assert number(answer, "current_at_cutoff", u.A) == pytest.approx(140.3, abs=0.05)
    assert under * math.sqrt(1.5) == pytest.approx(160.5, abs=0.1)
    assert number(answer, "design_current", u.A) > 175
    assert any("126" in note for note in answer.notes), "the naive figure is named"


@pytest.mark.parametrize(("millifarads", "share"), [("5", 1.00), ("40", 1.01), ("100", 0.86), ("200", 0.59)])
def test_large_capacitors_take_part_of_the_ripple(millifarads: str, share: float) -> None:
    """Current divider at 120 Hz worked by hand for 10 mΩ and 2 µH; the capacitors of most inverters take none."""
    answer = ask("choose/bank-current", resistance="10 mohm", capacitance=f"{millifarads} mF", inductance="2 uH")
    assert number(answer, "ripple_share", u.one) == pytest.approx(share, abs=0.02)


@needs_ngspice
@pytest.mark.parametrize("millifarads", [10, 100, 300])
def test_the_ripple_in_the_cable_is_what_a_circuit_simulator_finds(millifarads: int) -> None:
    """ngspice, ac analysis at 120 Hz: 1 A drawn at the capacitors, the share that comes through R and L."""
    found = simulated(f"""ripple
I1 a 0 dc 0 ac 1
C1 a 0 {millifarads}m
R1 a b 10m
L1 b 0 2u
.control
ac lin 1 120 120
let share = mag(i(l1))
print share
.endc
.end
""")
    answer = ask("choose/bank-current", resistance="10 mohm", capacitance=f"{millifarads} mF", inductance="2 uH")
    assert number(answer, "ripple_share", u.one) == pytest.approx(found["share"], rel=1e-4)


@needs_ngspice
def test_the_root_mean_square_is_what_a_circuit_simulator_finds_over_whole_periods() -> None:
    """ngspice, transient of i = 100·(1 − cos 2ωt) through a bank of 12 mΩ and no capacitors: 122.5 A."""
    found = simulated("""pulses
B1 a 0 I=100*(1-cos(2*pi*120*time))
R1 a 0 12m
.control
tran 10u 100m 50m 10u
meas tran heats rms v(a)
print heats
.endc
.end
""")
    assert found["heats"] / 12e-3 == pytest.approx(100 * math.sqrt(1.5), rel=1e-3)
    answer = ask("choose/bank-current", resistance="12 mohm", capacitance="0.1 mF")
    ratio = number(answer, "heating_current", u.A) / number(answer, "current_at_cutoff", u.A)
    assert ratio == pytest.approx(math.sqrt(1.5), rel=1e-3)


def test_a_surge_that_no_voltage_carries_is_a_no() -> None:
    """Maximum power transfer: E²/4R, here 51.2²/(4·30 mΩ) = 21.8 kW."""
    answer = ask(
        "choose/bank-current", surge="25000", measured_efficiency="90", continuous="6000", resistance="30 mohm", **BANK
    )
    assert verdict_on(answer, "Power in a surge") == NO


# --- the fuse at the battery -------------------------------------------------------------------------------------

FUSE = {
    "highest_volts": "58.4", "short_known": "stated by the maker", "short_stated": "7361", "strings": "1",
    "load": "amps known", "amps": "130", "ambient": "30 °C",
}  # fmt: skip


@pytest.mark.parametrize(
    ("family", "volts", "amps", "label"),
    [
        ("bolt-down ANL-style", "32", "6000", "Volts dc"),
        ("cube on the battery post", "58", "2000", "Volts dc"),
        ("bolt-down ANL-style", "80", "2500", "Interrupting"),
        ("bolt-down ANL-style", "80", "6000", "Interrupting"),
        ("UL 248-15 Class T", "0", "20000", "Volts dc"),
    ],
)
def test_trap_13_a_fuse_must_break_these_volts_and_this_short_on_dc(
    family: str, volts: str, amps: str, label: str
) -> None:
    """58 V on a 58.4 V bank; 6 kA at 7.4 kA; a fuse with ac volts only. Ratings as printed on such parts."""
    # trap 13: a fuse of 58 V on a bank of 58.4 V, of 6 kA at a short of 7.4 kA, or with 200 kA for ac and nothing for dc.
    answer = ask("protect/battery-fuse", family=family, dc_volts=volts, interrupting=amps, **FUSE)
    assert verdict_on(answer, label) == NO and answer.verdict == NO


def test_trap_13_an_ac_figure_of_200_kiloamps_is_not_credited_on_dc() -> None:
    """A Class T fuse breaks 200 kA on ac; on dc its family breaks 20 to 50 kA (from memory, makers' sheets rule)."""
    answer = ask("protect/battery-fuse", interrupting="200000", dc_volts="125", **FUSE | {"short_stated": "60000"})
    assert verdict_on(answer, "Interrupting") == NO
    assert any("200000" in note.replace(" ", "").replace("\u00a0", "") and "ac" in note for note in answer.notes)
    assert ask("protect/battery-fuse", interrupting="20000", dc_volts="125", **FUSE).verdict == GO


def test_a_fuse_misses_the_design_current_by_a_third_of_an_amp() -> None:
    """NEC 2023, 215.3: 1.25 · 140.3 A = 175.4 A; 175 A is too small, 200 A on 2/0 AWG too large: 3/0 AWG with 200 A."""
    load = FUSE | {"amps": "140.3"}
    assert verdict_on(ask("protect/battery-fuse", rating="175", **load), "Fuse holds the load") == NO
    assert verdict_on(ask("protect/battery-fuse", rating="200", **load), "Fuse protects the cable") == NO
    assert ask("protect/battery-fuse", rating="200", size="3/0 AWG", **load).verdict == GO


def test_strings_side_by_side_each_have_their_own_fuse() -> None:
    """Kirchhoff: a short inside one of three strings is fed by the other two, and the main fuse never sees it."""
    three = FUSE | {"strings": "3", "short_stated": "9000"}
    assert verdict_on(ask("protect/battery-fuse", string_fuses="no", **three), "Fuse of each string") == NO
    assert number(
        ask("protect/battery-fuse", place="fuse of one string", **three), "fault_current", u.A
    ) == pytest.approx(6000)


# --- the battery cable -------------------------------------------------------------------------------------------

CABLE = {"load": "amps known", "ambient": "30 °C", "nominal_volts": "48"}


def test_trap_26_one_current_three_cables_and_why() -> None:
    """NEC 2023, Table 310.16: 2/0 AWG, 175 A at 75 °C lugs; 33 CFR 183.425, Table 5: 2 AWG, 170 A at 75 °C.

    1.25 · 131 A = 163.8 A. The 105 °C column for boats would say 3 AWG (180 A): its 75 °C lugs do not allow it.
    """
    # trap 26: the same 131 A ask for 2/0, 2 or 3 AWG by three tables: the page says which and why.
    answer = ask("wire/battery-cable", amps="131", **CABLE)
    code, boat = answer.results["smallest_size"], answer.results["smallest_on_a_boat"]
    assert (code.text, boat.text) == ("2/0 AWG", "2 AWG")
    assert "310.16" in str(code.source) and "75 °C lugs" in code.note and "183.425" in str(boat.source)
    naive = ask("wire/battery-cable", amps="131", size="3 AWG", judged_by="the rule for boats", **CABLE)
    assert verdict_on(naive, "Lugs") == NO
    assert any("180" in note and "145" in note for note in naive.notes)


def test_trap_4_the_cable_takes_the_current_at_the_cut_off() -> None:
    """6 kW at 93 % is 131 A under load and 140.3 A at 46 V: 175.4 A is asked of lugs that take 175 A of 2/0 AWG."""
    assert ask("wire/battery-cable", amps="131", size="2/0 AWG", **CABLE).verdict == TIGHT
    assert verdict_on(ask("wire/battery-cable", amps="140.3", size="2/0 AWG", **CABLE), "Lugs") == NO


def test_six_feet_of_loop_lose_76_millivolts() -> None:
    """NEC 2023, Chapter 9, Table 8: 2/0 AWG 0.0967 Ω/kft; 6 ft out and back, 131 A: 0.076 V."""
    assert number(ask("wire/battery-cable", amps="131", length="3 ft", **CABLE), "volts_lost", u.V) == pytest.approx(
        0.0760, abs=5e-5
    )


def test_only_large_cables_share_a_current_and_four_of_them_crowd() -> None:
    """NEC 2023, 310.10(G) (from memory) and Table 310.15(C)(1): four carrying, 0.80."""
    assert verdict_on(ask("wire/battery-cable", amps="100", size="2 AWG", parallel="2", **CABLE), "Side by side") == NO
    alone, shared = (ask("wire/battery-cable", amps="100", parallel=n, insulation="75 °C", **CABLE) for n in ("1", "2"))
    assert number(shared, "usable_ampacity", u.A) == pytest.approx(0.8 * number(alone, "usable_ampacity", u.A))


# --- a dead short ------------------------------------------------------------------------------------------------


def test_trap_15_ten_times_the_amp_hours_is_for_lead_acid_alone() -> None:
    """E/R with 16 cells of 0.18 mΩ and 0.5 mΩ of links, 52.8 V: 15.6 kA from 280 Ah, 56 times, not ten."""
    # trap 15: ten times the amp-hours is a rule for lead-acid; a lithium bank of 280 Ah gives 56 times.
    lithium = ask(
        "protect/short-circuit", cell_resistance="0.18 mohm", series="16", strings="1", leads="0.5 mohm",
        highest_volts="52.8", capacity="280",
    )  # fmt: skip
    assert number(lithium, "fault_current", u.A) == pytest.approx(15_600, rel=0.005)
    assert any("2800" in note.replace("\u00a0", "") and "times" in note for note in lithium.notes)
    assert round(number(lithium, "fault_current", u.A) / 280) == 56
    lead_acid = ask(
        "protect/short-circuit", known_by="lead-acid, by its amp-hours", capacity="100", strings="1", leads="0"
    )
    assert number(lead_acid, "fault_current", u.A) >= 20 * 100


@needs_ngspice
def test_a_short_rises_as_a_circuit_simulator_finds() -> None:
    """ngspice, transient: 53 V closed on 7.2 mΩ and 5 µH: 7.36 kA in the end, 5.62 kA after 1 ms."""
    found = simulated("""short
V1 a 0 pwl(0 0 1n 53)
R1 a b 7.2m
L1 b 0 5u ic=0
.control
tran 1u 20m uic
meas tran early find i(l1) at=1m
meas tran late find i(l1) at=20m
print early late
.endc
.end
""")
    answer = ask(
        "protect/short-circuit", cell_resistance="0.45 mohm", series="16", strings="1", leads="0",
        highest_volts="53", inductance="5 uH",
    )  # fmt: skip
    assert number(answer, "after_a_millisecond", u.A) == pytest.approx(found["early"], rel=1e-3)
    assert number(answer, "fault_current", u.A) == pytest.approx(found["late"], rel=1e-3)


def test_cable_before_the_device_takes_some_of_the_short() -> None:
    """Ohm: 20 ft of 6 AWG out and back, cold, is about 15 mΩ; a breaker of 5 kA there stands what it could not at the bank."""
    near = ask("protect/short-circuit", interrupting="5000")
    far = ask("protect/short-circuit", interrupting="5000", where="at the end of a cable", length="20 ft", size="6 AWG")
    assert near.verdict == NO and far.verdict == GO


# --- a cable in a short ------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("metal", "insulation", "made_of", "row"),
    [
        ("copper", "60 °C", "rubber", "Cu rubber 60"),
        ("copper", "90 °C", "XLPE or EPR", "Cu XLPE"),
        ("aluminium", "90 °C", "XLPE or EPR", "Al XLPE"),
    ],
)
def test_the_factor_k_is_that_of_the_published_table(metal: str, insulation: str, made_of: str, row: str) -> None:
    """IEC 60364-4-43, Table 43A, against IEC 60949's K² · ln((θf − θβ)/(θi − θβ))."""
    answer = ask("wire/cable-in-a-short", metal=metal, insulation=insulation, made_of=made_of, size="1/0 AWG")
    published = float(table("short_circuit_k").text(row, "k"))
    assert math.sqrt(number(answer, "k_squared", u.A2s_per_mm4)) == pytest.approx(published, abs=0.6)


@pytest.mark.parametrize(("insulation", "row"), [("PVC 70 °C", "PVC"), ("XLPE 90 °C", "XLPE")])
@pytest.mark.parametrize(("metal", "sign"), [("copper", "Cu"), ("aluminium", "Al")])
def test_the_factor_k_under_the_international_rules(insulation: str, row: str, metal: str, sign: str) -> None:
    """IEC 60364-4-43, Table 43A."""
    answer = ask("wire/cable-in-a-short", "iec", insulation=insulation, metal=metal)
    published = float(table("short_circuit_k").text(f"{sign} {row}", "k"))
    assert math.sqrt(number(answer, "k_squared", u.A2s_per_mm4)) == pytest.approx(published, abs=0.6)


def test_under_the_us_rules_thermoplastic_stands_less_in_a_short() -> None:
    """ICEA P-32-382: 75 °C thermoplastic ends at 150 °C, (I/A)²·t = 0.0297·log₁₀((150 + 234)/(75 + 234)), A in cmil."""
    answer = ask("wire/cable-in-a-short", insulation="75 °C", made_of="PVC", size="2/0 AWG")
    most = 0.0297 * math.log10(384 / 309) * 133_100**2
    assert number(answer, "k_squared", u.A2s_per_mm4) * 67.44**2 == pytest.approx(most, rel=0.02)


def test_a_cable_is_hot_when_the_short_comes() -> None:
    """7361 A on 6 AWG XLPE: from the 90 °C of its rating 250 °C is reached in 67 ms, not in the 94 ms from 40 °C."""
    short = {
        "short_known": "stated by the maker", "short_stated": "7361", "size": "6 AWG", "insulation": "90 °C",
        "made_of": "XLPE or EPR", "inductance": "0.1 uH",
    }  # fmt: skip
    assert ask("wire/cable-in-a-short", clearing_time="0.066 s", **short).verdict == TIGHT
    assert ask("wire/cable-in-a-short", clearing_time="0.068 s", **short).verdict == NO
    assert number(
        ask("wire/cable-in-a-short", clearing_time="0.0667 s", **short), "end_temperature", u.degC
    ) == pytest.approx(250, abs=2)


@needs_ngspice
@pytest.mark.parametrize("milliseconds", [2, 5, 20])
def test_what_is_let_through_is_what_a_circuit_simulator_sums(milliseconds: int) -> None:
    """ngspice: the square of the current of 53 V on 7.2 mΩ and 5 µH, summed over the clearing time."""
    found = simulated(f"""let through
V1 a 0 pwl(0 0 1n 53)
R1 a b 7.2m
L1 b 0 5u ic=0
B1 0 q I=i(L1)*i(L1)*1e-6
C1 q 0 1 ic=0
.control
tran 1u {milliseconds}m 0 1u uic
meas tran summed find v(q) at={milliseconds * 0.999}m
print summed
.endc
.end
""")
    answer = ask(
        "wire/cable-in-a-short", cell_resistance="0.45 mohm", series="16", strings="1", leads="0",
        highest_volts="53", inductance="5 uH", clearing_time=f"{milliseconds * 0.001} s",
    )  # fmt: skip
    assert number(answer, "let_through", u.A2s) == pytest.approx(found["summed"] * 1e6, rel=0.005)


# --- an extension cord -------------------------------------------------------------------------------------------


def cord(rules: str = "nec", **typed: str) -> Answer:
    return ask("wire/extension-cord", rules, **{"tool_volts": "120 V"} | typed if rules == "nec" else typed)


@pytest.mark.parametrize(
    ("size", "lost", "verdict"), [("14 AWG", 8.2, NO), ("12 AWG", 5.1, TIGHT), ("10 AWG", 3.2, GO)]
)
def test_a_13_amp_saw_at_the_end_of_100_feet(size: str, lost: float, verdict: str) -> None:
    """NEC 2023, Chapter 9, Table 8: 3.14, 1.98 and 1.24 Ω/kft, out and back."""
    answer = cord(cord=size, cord_length="100 ft", plate="amps", plate_amps="13", plug="20", breaker="20")
    assert number(answer, "volts_lost", u.V) == pytest.approx(lost, abs=0.06)
    assert answer.verdict == verdict


def test_trap_8_an_electronic_tool_draws_more_when_the_volts_fall() -> None:
    """V² − E·V + R·P = 0 worked by hand: 1800 W on 100 ft of 14 AWG takes 16.4 A, not 1800/120 = 15.0 A."""
    answer = cord(cord="14 AWG", cord_length="100 ft", plate="watts", plate_watts="1800", power_factor="1")
    assert number(answer, "current", u.A) == pytest.approx(16.4, abs=0.1)
    assert verdict_on(answer, "Plug and breaker") == NO
    assert any("more amps" in note for note in answer.notes)


def test_trap_27_the_cord_table_is_not_the_wire_table_and_a_drum_takes_two_thirds() -> None:
    """NEC 2023, Table 400.5(A)(1): 12 AWG 25 A with two carrying, 20 A with three; BS 7671, 4F1A note: four layers 0.35."""
    # trap 27: the cord table is not the wire table; three carrying wires have a column of their own, and a full drum leaves a third.
    load = {"cord": "12 AWG", "plug": "50", "breaker": "50", "plate": "amps", "plate_amps": "5"}
    assert number(cord(carrying="two", **load), "allowed_current", u.A) == 25
    assert number(cord(carrying="three: 120/240 V with unequal legs", **load), "allowed_current", u.A) == 20
    assert number(cord(carrying="four to six", **load), "allowed_current", u.A) == pytest.approx(16)
    assert number(cord(carrying="two", lies="4 layers", **load), "allowed_current", u.A) == pytest.approx(25 * 0.35)


def test_trap_30_a_chargers_table_allows_a_cord_that_the_code_does_not() -> None:
    """15 A over 25 ft: the manuals of chargers print 16 AWG; NEC 2023, Table 400.5(A)(1) gives it 13 A."""
    # trap 30: a charger's manual allows 16 AWG for 15 A over 25 ft; the code's table for cords gives it 13 A.
    answer = cord(cord="16 AWG", cord_length="25 ft", plate="amps", plate_amps="15")
    assert verdict_on(answer, "Cord") == NO
    assert any("16 AWG" in note and "13" in note for note in answer.notes)


def test_cold_air_gives_a_cord_no_more_than_the_table() -> None:
    """The ambient factors reach 1.29 at 10 °C; counted as 1.00, the table is the most."""
    load = {"cord": "14 AWG", "plug": "50", "breaker": "50", "plate": "amps", "plate_amps": "5"}
    assert number(cord(air="-10 °C", **load), "allowed_current", u.A) == 18
    assert number(cord(air="40 °C", **load), "allowed_current", u.A) == pytest.approx(18 * 0.82)


def test_lengths_add_up_and_each_joint_costs() -> None:
    """Ohm: two cords of 50 ft lose what one of 100 ft loses, and the joint's contacts."""
    one_cord, two_cords = (
        cord(cord_length="100 ft", cords=count, plate="amps", plate_amps="13") for count in ("1", "2")
    )
    assert number(two_cords, "volts_lost", u.V) - number(one_cord, "volts_lost", u.V) == pytest.approx(13 * 0.020)


@pytest.mark.parametrize("air", [35, 40, 45, 50])
def test_heat_factors_of_a_cord_under_the_international_rules(air: int) -> None:
    """BS 7671, Table 4C1 (from memory) for 60 °C rubber: 0.91, 0.82, 0.71, 0.58; they follow √((60 − θ)/30)."""
    warm, cool = (
        number(
            cord("iec", cord="4 mm2", air=f"{degrees} °C", plug="125", breaker="100", plate_amps="5"),
            "allowed_current",
            u.A,
        )
        for degrees in (air, 30)
    )
    assert warm / cool == pytest.approx({35: 0.91, 40: 0.82, 45: 0.71, 50: 0.58}[air], abs=0.006)


# --- the ground wire ---------------------------------------------------------------------------------------------


def ground(rules: str = "nec", **typed: str) -> Answer:
    kind = check_called("wire/ground-wire")
    asked = fill(kind, defaults(kind, rules) | typed, rules=rules)
    assert not asked.problems, asked.problems
    return asked.answer()


def test_trap_12_the_ratio_of_a_ground_wire_is_not_rounded() -> None:
    """NEC 2023, 250.122(B): 40 A, 8 AWG grown to 6 AWG: 10380 · 1.5893 = 16 497 cmil: 8 AWG; with 1.6 it would be 6 AWG."""
    # trap 12: rounding 1.589 to 1.6 turns 8 AWG into 6 AWG.
    answer = ground(breaker="40", size="6 AWG", terminals="75 °C", ground_size="8 AWG")
    assert answer.verdict == GO and str(answer.results["ground_needed"]) == "8 AWG"
    assert number(answer, "grown_area", u.cmil) == pytest.approx(16_497, abs=0.5)
    assert any("6 AWG" in note and "rounded" in note for note in answer.notes)


@pytest.mark.parametrize(("breaker", "size"), [("15", "14"), ("20", "12"), ("60", "10"), ("100", "8"), ("101", "6"), ("200", "6")])  # fmt: skip
def test_the_ground_wire_by_the_breaker(breaker: str, size: str) -> None:
    """NEC 2023, Table 250.122, read a second time in a code magazine: to 15 A 14, 20 A 12, 60 A 10, 100 A 8, 200 A 6 AWG."""
    assert str(ground(breaker=breaker, size="4/0 AWG").results["by_breaker"]) == f"{size} AWG"


def test_heat_and_crowding_alone_grow_no_ground_wire() -> None:
    """NEC 2023, 250.122(B): a run of 8 AWG for heat, behind 30 A, keeps 10 AWG; grown for volts it takes 8 AWG."""
    run = {"breaker": "30", "size": "8 AWG", "ground_size": "10 AWG"}
    listed = ground(least="the page on wire for a run says it", least_size="8 AWG", **run)
    assert listed.verdict == GO
    assert ground(**run).verdict == NO


def test_a_ground_wire_is_never_larger_than_the_circuit_and_a_thin_cord_has_a_full_one() -> None:
    """NEC 2023, 250.122(A), (E): 20 A on 12 AWG asks 12 AWG; a cord of 10 AWG behind 20 A has 10 AWG in it."""
    assert str(ground(breaker="100", size="12 AWG").results["ground_needed"]) == "8 AWG"  # too thin a wire earns nothing
    assert str(ground(use="extension cord", breaker="20", size="10 AWG").results["ground_needed"]) == "10 AWG"
    assert ground(use="extension cord", breaker="30", size="10 AWG", ground_size="12 AWG").verdict == NO


@pytest.mark.parametrize(("line", "square"), [("2.5", 2.5), ("16", 16), ("25", 16), ("35", 16), ("50", 25), ("95", 47.5)])
def test_the_protective_conductor_by_the_line_conductor(line: str, square: float) -> None:
    """IEC 60364-5-54, 543.1.2: as large to 16 mm², 16 to 35, half above."""
    answer = ground("iec", size=f"{line} mm2", ground_size="95 mm2")
    assert number(answer, "area_needed", u.mm2) == pytest.approx(square)


@pytest.mark.parametrize(
    ("insulation", "runs", "k"),
    [
        ("PVC 70 °C", "a core of the same cable", 115),
        ("XLPE 90 °C", "a core of the same cable", 143),
        ("PVC 70 °C", "a wire of its own, in pipe or channel", 143),
        ("XLPE 90 °C", "a wire of its own, in pipe or channel", 176),
    ],
)
def test_the_factor_of_a_protective_conductor_follows_from_its_metal_and_limits(
    insulation: str, runs: str, k: int
) -> None:
    """IEC 60364-5-54, Annex A: Q·(β + 20)/ρ·ln((β + θf)/(β + θi)), from 30 °C beside a cable and from its rating in it."""
    cold = (70 if "PVC" in insulation else 90) if runs.startswith("a core") else 30
    hot = 160 if "PVC" in insulation else 250
    derived = math.sqrt(3.45e-3 * 254.5 / 17.241e-6 * math.log((234.5 + hot) / (234.5 + cold)))
    answer = ground("iec", sized="by the faults it must survive", insulation=insulation, runs=runs, wall_fault="2000")
    assert number(answer, "for_the_wall", u.mm2) == pytest.approx(2000 * math.sqrt(0.4) / k, rel=1e-6)
    assert k == pytest.approx(derived, abs=0.6)


def test_both_faults_are_survived_and_a_wire_of_its_own_is_not_too_thin_to_last() -> None:
    """IEC 60364-5-54, 543.1.2, 543.1.3: 60 A for 5 s is 1.17 mm² at k = 115; alone 2.5 mm² guarded and 4 mm² unguarded."""
    faults = {"sized": "by the faults it must survive", "insulation": "PVC 70 °C", "wall_fault": "50", "wall_time": "0.1 s"}
    own = ground("iec", inverter_time="5 s", **faults)
    assert number(own, "area_needed", u.mm2) == pytest.approx(60 * math.sqrt(5) / 115, rel=1e-6)
    for runs, least in (("a wire of its own, in pipe or channel", 2.5), ("a wire of its own, unguarded", 4)):
        assert number(ground("iec", runs=runs, **faults), "area_needed", u.mm2) == least
