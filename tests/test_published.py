"""Published figures and the known traps of the trade, each with its source.

These are claims about the world at their published precision; regression digits have no place here.
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


def ask(check: str, rules: str = "nec", **typed: str) -> Answer:
    """A check answered from what is typed and the defaults of its asks; the example rig has no say."""
    kind = check_called(check)
    asked = fill(kind, defaults(kind, rules) | typed, rules=rules)
    assert not asked.problems, asked.problems
    return asked.answer()


def wire(rules: str = "nec", **typed: str) -> Answer:
    return ask("wire/wire-for-run", rules, **typed)


def tool(**typed: str) -> Answer:
    return ask("run/tool-on-outlet", **typed)


def car(**typed: str) -> Answer:
    return ask("run/car-distance", **typed)


def number(answer: Answer, name: str, unit: u.Unit) -> float:
    result = answer.results[name]
    assert isinstance(result, Quantity)
    return result.number_in(unit)


def verdict_on(answer: Answer, label: str) -> str:
    return next(requirement.verdict for requirement in answer.requirements if requirement.label == label)


# --- wire --------------------------------------------------------------------------------------------------------


def test_trap_1_a_75_degree_lug_does_not_take_the_90_degree_column() -> None:
    """NEC 2023, 110.14(C) and Table 310.16: 4 AWG is 85 A at 75 °C, 95 A at 90 °C; 70 A continuous needs 87.5 A."""
    # trap 1: the 90 °C column at a 75 °C lug says 95 A for 4 AWG; it is 85 A, and 70 A for hours need 3 AWG.
    load = {"continuous_current": "70", "breaker": "90", "terminals": "75 °C", "volts": "240", "run_length": "10"}
    naive = wire(size="4 AWG", **load)
    assert verdict_on(naive, "Lugs") == NO
    assert any("95" in note and "85" in note for note in naive.notes)
    assert verdict_on(wire(size="3 AWG", **load), "Lugs") == GO
    assert naive.results["smallest_size"].text == "3 AWG"


def test_trap_2_the_continuous_factor_is_not_stacked_on_heat() -> None:
    """NEC 2023, 210.19(A)(1), 310.14: the greater of 1.25 times before correction, or the load after it.

    24 A continuous and 6 A, 45 °C, four carrying, 75 °C lugs: 8 AWG (50 A at 75 °C; 55·0.87·0.80 = 38.3 A);
    stacking 36/0.87/0.8 = 51.7 A would ask for 6 AWG.
    """
    # trap 2: 125 % stacked on the factors for heat and crowding asks for a wire that the code does not.
    load = {
        "continuous_current": "24",
        "other_current": "6",
        "breaker": "40",
        "terminals": "75 °C",
        "ambient": "45 °C",
        "carrying": "4",
        "volts": "240",
        "run_length": "10",
    }
    assert wire(size="10 AWG", **load).verdict == NO
    assert wire(size="8 AWG", **load).verdict == TIGHT
    assert wire(size="8 AWG", **load).results["smallest_size"].text == "8 AWG"
    assert number(wire(size="8 AWG", **load), "corrected_ampacity", u.A) == pytest.approx(38.28, abs=0.005)


def test_trap_2_in_the_heat_the_greater_of_two_and_not_their_product() -> None:
    """NEC 2023, Tables 310.16, 310.15(B)(1)(1): 133.7 A for hours at 45 °C, 60 °C wire (0.71): the greater of 167.1 A and
    188.3 A is 4/0 AWG (195 A); their product, 235 A, would be 300 kcmil (240 A)."""
    typed = {"continuous_current": "133.7", "insulation": "60 °C", "ambient": "45 °C", "breaker": "175", "volts": "240", "run_length": "10"}
    answer = wire(size="4/0 AWG", **typed)
    assert verdict_on(answer, "Lugs") != NO and verdict_on(answer, "Insulation") != NO
    assert verdict_on(wire(size="3/0 AWG", **typed), "Insulation") == NO
    stacked = next(note for note in answer.notes if "laid on top" in note).replace("\u00a0", " ")
    assert "236 A" in stacked and "189 A" in stacked, "the naive 235.4 A and the code's 188.3 A, rounded up"


def test_trap_3_small_conductors_have_a_cap() -> None:
    """NEC 2023, 240.4(D): 12 AWG behind 20 A at most, though its 75 °C column says 25 A."""
    load = {"size": "12 AWG", "terminals": "75 °C", "other_current": "20", "continuous_current": "0"}
    assert verdict_on(wire(breaker="25", **load), "Breaker protects the wire") == NO
    assert verdict_on(wire(breaker="20", **load), "Breaker protects the wire") == GO


def test_trap_5_a_cold_reel_reads_less_than_the_wire_at_work() -> None:
    """NEC 2023, Chapter 9, Table 8, note 2: 12 AWG 1.98 Ω/kft at 75 °C is 1.63 at 20 °C."""
    at_work, cold = (
        number(wire(hot=hot, circuit="dc", ambient="20 °C"), "volts_lost", u.V) for hot in ("75 °C", "20 °C")
    )
    assert cold / at_work == pytest.approx(1.63 / 1.98, abs=0.003)


def test_trap_6_equal_legs_lose_half_and_an_idle_leg_costs_the_whole_loop() -> None:
    """Kirchhoff: the neutral carries the difference of the legs."""
    # trap 6: a leg does not lose twice the resistance of its wire: the neutral carries the difference, and the light leg may rise.
    two_wire = number(wire(circuit="one-phase", other_current="15", continuous_current="0"), "volts_lost", u.V)
    equal = number(
        wire(circuit="split-phase", other_current="15", continuous_current="0", lighter_leg="15"), "volts_lost", u.V
    )
    idle = number(
        wire(circuit="split-phase", other_current="15", continuous_current="0", lighter_leg="0"), "volts_lost", u.V
    )
    assert equal == pytest.approx(two_wire / 2) and idle == pytest.approx(two_wire)


@pytest.mark.parametrize(("size", "feet"), [("14 AWG", 38), ("12 AWG", 61), ("10 AWG", 97), ("8 AWG", 154)])
def test_how_far_15_amps_go_at_120_volts_for_3_percent(size: str, feet: int) -> None:
    """NEC 2023, Chapter 9, Table 8, stranded copper: 3 % of 120 V over 2·15 A·r."""
    found = number(
        wire(size=size, other_current="15", continuous_current="0", most_drop="3", wanted_drop="3"), "longest_run", u.ft
    )
    assert math.floor(found + 0.5) == feet


def test_trap_12_the_ground_wire_grows_by_the_unrounded_ratio() -> None:
    """NEC 2023, 250.122(B): 40 A, 8 AWG grown to 6 AWG: 10380·26240/16510 = 16 497 cmil: 8 AWG, not 6."""
    grown = wire(
        size="6 AWG",
        continuous_current="0",
        other_current="38",
        breaker="40",
        terminals="75 °C",
        insulation="75 °C",
        volts="240",
        run_length="10",
    )
    assert grown.results["ground_wire"].text == "8 AWG"
    thick = wire(size="8 AWG", continuous_current="0", other_current="16", breaker="20", run_length="10")
    assert thick.results["ground_wire"].text == "8 AWG"
    assert wire(size="12 AWG", breaker="20").results["ground_wire"].text == "12 AWG"


def test_trap_14_the_table_is_the_current_one() -> None:
    """NEC 2008 gave 12 AWG 25 A and 3 AWG 110 A at 60 and 90 °C; since 2011 Table 310.16 gives 20 A and 115 A."""
    # trap 14: old reprints of the table say 25 A for 12 AWG at 60 °C and 110 A for 3 AWG at 90 °C; it is 20 A and 115 A.
    assert number(wire(size="12 AWG", terminals="60 °C"), "usable_ampacity", u.A) == 20
    assert (
        number(wire(size="3 AWG", terminals="75 °C", carrying="2", ambient="30 °C"), "corrected_ampacity", u.A) == 115
    )


def test_several_receptacles_allow_no_next_size_up() -> None:
    """NEC 2023, 240.4(B)(1)."""
    load = {
        "continuous_current": "0",
        "other_current": "30",
        "size": "8 AWG",
        "breaker": "40",
        "terminals": "75 °C",
        "ambient": "45 °C",
        "carrying": "4",
        "volts": "240",
        "run_length": "10",
    }
    assert verdict_on(wire(feeds="one load", **load), "Breaker protects the wire") == TIGHT
    assert verdict_on(wire(feeds="several receptacles", **load), "Breaker protects the wire") == NO


def test_cold_air_earns_a_wire_no_credit() -> None:
    """NEC 2023, Table 310.15(B)(1)(1) would give 1.15 at 10 °C; it is counted as 1.00, on the safe side."""
    assert number(wire(ambient="10 °C"), "corrected_ampacity", u.A) == number(
        wire(ambient="30 °C"), "corrected_ampacity", u.A
    )


def test_insulation_may_not_be_used_in_air_as_hot_as_itself() -> None:
    """NEC 2023, 310.14(A)(3); Table 310.15(B)(1)(1) has no factor for 60 °C insulation above 55 °C."""
    assert wire(insulation="60 °C", ambient="62 °C").verdict == NO
    assert wire(insulation="90 °C", ambient="62 °C", run_length="20").verdict in (GO, TIGHT)


def test_a_lighter_leg_is_not_heavier_and_a_leg_is_not_240_volts() -> None:
    """Kirchhoff; ANSI C84.1: one leg of a 120/240 V service is 120 V to neutral."""
    assert wire(circuit="split-phase", lighter_leg="40").verdict == "not known"
    assert wire(circuit="split-phase", volts="240").verdict == "not known"


def test_no_wire_at_work_is_colder_than_its_air() -> None:
    """Second law of thermodynamics: 50 °C air, a wire said to be at 20 °C is worked at 50 °C."""
    said_cold, said_hot = (number(wire(hot=hot, ambient="50 °C"), "volts_lost", u.V) for hot in ("20 °C", "50 °C"))
    assert said_cold == said_hot


def test_several_receptacles_stand_on_circuits_of_a_few_ratings_only() -> None:
    """NEC 2023, 210.18: 15, 20, 30, 40 and 50 A."""
    load = {
        "continuous_current": "0",
        "other_current": "15",
        "size": "8 AWG",
        "terminals": "75 °C",
        "run_length": "10",
        "feeds": "several receptacles",
    }
    assert wire(breaker="25", **load).verdict == NO
    assert wire(breaker="30", **load).verdict == GO


def test_under_iec_rules_factors_multiply_and_the_coordination_decides() -> None:
    """IEC 60364-5-52:2009, B.52.5, B.52.14, B.52.17: 30·0.87·0.70 = 18.27 A: 16 A passes, 20 A fails; 4 mm² 24.4 A."""
    load = {"continuous_current": "16", "ambient": "45 °C", "circuits": "3", "volts": "230", "run_length": "10 m"}
    assert wire("iec", size="2.5 mm2", breaker="16", **load).verdict in (GO, TIGHT)
    assert wire("iec", size="2.5 mm2", breaker="20", **load).verdict == NO
    assert number(wire("iec", size="4 mm2", breaker="20", **load), "usable_ampacity", u.A) == pytest.approx(24.36)


def test_trap_28_the_reactance_is_not_divided_by_the_area() -> None:
    """IEC 60364-5-52, Annex G: u = b·(ρ₁·L/S·cos φ + λ·L·sin φ)·I. 95 mm², 100 m, 150 A, cos φ 0.8: 7.13 V."""
    # trap 28: a published transcription divides the reactance by the area; the standard does not.
    lost = number(
        wire(
            "iec",
            size="95 mm2",
            continuous_current="150",
            breaker="160",
            power_factor="0.8",
            run_length="100 m",
            volts="230",
        ),
        "volts_lost",
        u.V,
    )
    assert lost == pytest.approx(2 * (0.0225 * 100 / 95 * 0.8 + 0.08e-3 * 100 * 0.6) * 150, rel=1e-6)


def test_trap_28_a_supply_of_ones_own_may_lose_more_than_the_mains() -> None:
    """IEC 60364-5-52, Table G.52.1: 3 and 5 % from the mains; 6 % for lights and 8 % for others from a private supply."""
    load = {"continuous_current": "16", "size": "2.5 mm2", "breaker": "16", "volts": "230", "run_length": "50 m"}
    assert verdict_on(wire("iec", **load, most_drop="5"), "Volts lost") == NO
    assert verdict_on(wire("iec", **load, most_drop="8"), "Volts lost") == TIGHT
    asked = check_called("wire/wire-for-run").asks["most_drop"]
    assert "6 (lights) or 8 %" in asked.help and any(value.number_in(u.percent) == 8 for value in asked.common)  # type: ignore[union-attr]


# --- tool --------------------------------------------------------------------------------------------------------


def test_trap_7_a_split_phase_inverter_refuses_on_one_leg_what_it_could_give_on_two() -> None:
    """10 kW split-phase: 5000 W a leg, 41.7 A; 45 A at 120 V is 5.4 kW (common practice, no published source)."""
    # trap 7: 10 kW on two legs look enough for a 5.4 kW heater of 120 V; one leg gives 41.7 A and the heater takes 45 A.
    heater = {
        "plate": "amps",
        "plate_amps": "45",
        "start": "heater or resistive",
        "outlet": "14-50",
        "breaker": "50",
        "continuous": "10000",
        "surge": "20000",
        "source_resistance": "0.005",
    }
    assert verdict_on(tool(one_leg="no", **heater), "One leg while it runs") == NO
    assert verdict_on(tool(one_leg="yes", **heater), "One leg while it runs") == GO


def test_trap_8_a_tool_of_constant_power_draws_more_where_the_volts_fall() -> None:
    """1800 W on 100 ft of 14 AWG (0.614 to 0.628 Ω loop): 109.9 V, 16.4 A, not 15; by V² − E·V + R·P = 0."""
    # trap 8: 1800 W over 120 V look like 15 A; at the end of a long cord an electronic tool takes 16.4 A.
    answer = tool(
        plate="watts",
        plate_watts="1800",
        plate_power_factor="1",
        cord="14 AWG",
        cord_length="100 ft",
        start="universal motor with soft start",
        outlet="5-15",
        breaker="15",
        source_resistance="0.005",
        fed_by="a wall outlet",
    )
    assert number(answer, "running_current", u.A) == pytest.approx(16.4, abs=0.06)
    assert number(answer, "volts_while_running", u.V) == pytest.approx(109.9, abs=0.4)
    assert verdict_on(answer, "Outlet") == NO


def test_trap_9_what_an_outlet_gives_is_in_its_pattern() -> None:
    """ANSI/NEMA WD 6: TT-30 is 125 V; 6-50 has no neutral, so no 120 V; 14-50 has both."""
    # trap 9: a TT-30 looks like a dryer outlet and has 120 V; a 10-30 has no ground, a 6-50 no neutral.
    volts = {
        ("TT-30", "240 V"): NO,
        ("TT-30", "120 V"): GO,
        ("6-50", "120 V"): NO,
        ("6-50", "240 V"): GO,
        ("14-50", "120 V"): GO,
        ("14-50", "240 V"): GO,
    }
    for (outlet, wanted), expected in volts.items():
        assert verdict_on(tool(outlet=outlet, tool_volts=wanted, breaker="30", plate_amps="5"), "Volts") == expected, (
            outlet
        )


def test_trap_24_the_top_of_the_code_letter_band_and_the_square_of_the_volts() -> None:
    """NEC 2023, Table 430.7(B): 2 hp, K: 8.99·2/230 V = 78.2 A. Turning force at 110 V of 230 V is 23 %."""
    # trap 24: the table's amps are for wires; a start goes by the top of the letter's band, and turning force by the square of the volts.
    answer = tool(
        tool_volts="240 V",
        plate="horsepower",
        motor_size="2",
        start="by its code letter",
        code_letter="K",
        outlet="6-20",
        breaker="20",
        source_resistance="0.005",
        fed_by="a wall outlet",
    )
    # The supply is 240 V where the letter counts at 230: what flows is 240/230 of it, less what the wall takes.
    assert number(answer, "start_current", u.A) == pytest.approx(78.2 * 240 / 230, rel=0.005)
    assert pytest.approx(0.23, abs=0.005) == (110 / 230) ** 2
    assert number(answer, "torque_at_start", u.one) == pytest.approx((number(answer, "volts_at_start", u.V) / 230) ** 2)
    # The naive start is that of the bottom of the band, 8.0 kVA/hp: 69.6 A.
    assert any("69.5" in note and "78.2" in note for note in answer.notes)


def test_a_15_amp_outlet_may_stand_on_20_amps_and_no_other_may_exceed_its_rating() -> None:
    """NEC 2023, Table 210.21(B)(3)."""
    assert verdict_on(tool(outlet="5-15", breaker="20", plate_amps="5"), "Breaker before the outlet") == GO
    assert verdict_on(tool(outlet="5-20", breaker="30", plate_amps="5"), "Breaker before the outlet") == NO


def test_a_lasting_load_counts_for_125_percent_of_its_outlet() -> None:
    """NEC 2023, 210.20(A): 12 A on a 15 A circuit for hours, 13 A is too much."""
    lasting = {
        "lasting": "yes",
        "outlet": "5-15",
        "breaker": "15",
        "start": "heater or resistive",
        "source_resistance": "0.005",
    }
    assert verdict_on(tool(plate_amps="11.9", **lasting), "Outlet") == TIGHT
    assert verdict_on(tool(plate_amps="13", **lasting), "Outlet") == NO


def test_the_table_current_of_a_motor() -> None:
    """NEC 2023, Table 430.248: 3/4 hp at 115 V 13.8 A, 1-1/2 hp at 230 V 10 A."""
    stiff = {"source_resistance": "0.005", "plate": "horsepower", "outlet": "14-50", "breaker": "50"}
    assert number(tool(tool_volts="120 V", motor_size="3/4", **stiff), "running_current", u.A) == pytest.approx(
        13.8, rel=0.002
    )
    assert number(tool(tool_volts="240 V", motor_size="1-1/2", **stiff), "running_current", u.A) == pytest.approx(
        10, rel=0.002
    )


needs_ngspice = pytest.mark.skipif(
    shutil.which("ngspice") is None, reason="ngspice is installed by .ci/run; without it the phasors go unconfirmed"
)


@needs_ngspice
def test_the_dip_at_a_start_is_what_a_circuit_simulator_finds() -> None:
    """ngspice, ac analysis of the same circuit: 240 V, 0.05 + j0.05 Ω, 100 ft of 10 AWG, 3 hp letter J."""
    answer = tool(
        tool_volts="240 V",
        plate="horsepower",
        motor_size="3",
        start="by its code letter",
        code_letter="J",
        cord="10 AWG",
        cord_length="100 ft",
        outlet="6-30",
        breaker="30",
        fed_by="a wall outlet",
    )
    z = 230 / (7.99e3 * 3 / 230)
    reactance = (0.05 + z * 0.8) / (2 * math.pi * 60)
    deck = f"""dip at a start
V1 a 0 dc 0 ac 240
R1 a b {0.05 + 2 * 100 * 1.24 / 1000}
L1 b c {0.05 / (2 * math.pi * 60)}
R2 c d {z * 0.6}
L2 d 0 {reactance - 0.05 / (2 * math.pi * 60)}
.control
ac lin 1 60 60
print vm(c) mag(i(v1))
.endc
.end
"""
    said = subprocess.run(["ngspice", "-b"], input=deck, capture_output=True, text=True, check=False).stdout
    found = {
        line.split("=")[0].strip(): float(line.split("=")[1])
        for line in said.splitlines()
        if line.startswith(("vm(c)", "mag(i(v1))"))
    }
    assert number(answer, "volts_at_start", u.V) == pytest.approx(found["vm(c)"], rel=1e-4)
    assert number(answer, "start_current_through_cord", u.A) == pytest.approx(found["mag(i(v1))"], rel=1e-4)


# --- car ---------------------------------------------------------------------------------------------------------


def test_what_is_stated_at_the_wall_holds_the_charging_loss_already() -> None:
    """40 CFR 600.311-12 and the EPA's label rule: kWh per 100 mi and MPGe include it; 33.7 kWh to the gallon."""
    mild = {"air": "24 °C", "cells": "25 °C"}
    label = car(consumption="33.7 MPGe", consumption_kind="label (at the wall)", **mild)
    dash = car(
        consumption="1 mi/kWh",
        consumption_kind="dash (at the battery)",
        charger_known="measured",
        charger_efficiency="88 %",
        **mild,
    )
    assert number(label, "distance", u.mi) == pytest.approx(number(label, "energy_from_outlet", u.kWh))
    assert number(dash, "distance", u.mi) == pytest.approx(0.88 * number(label, "distance", u.mi))


@pytest.mark.parametrize(
    ("typed", "miles_per_kwh"),
    [
        ("112 MPGe", 112 / 33.7),
        ("30 kWh/100 mi", 100 / 30),
        ("186.4 Wh/km", 1 / (0.1864 * 1.609344)),
        ("300 Wh/mi", 1 / 0.3),
    ],
)
def test_every_way_of_saying_what_a_car_uses_is_the_same_number(typed: str, miles_per_kwh: float) -> None:
    """40 CFR 600.311-12 (33.7 kWh/gal); NIST SP 811 (1.609344 km/mi)."""
    base = {"air": "24 °C", "consumption_kind": "label (at the wall)"}
    answer = car(consumption=typed, **base)
    assert number(answer, "distance", u.mi) == pytest.approx(
        miles_per_kwh * number(answer, "energy_from_outlet", u.kWh)
    )


def test_a_loss_of_41_percent_is_1_69_times_the_consumption_not_1_41() -> None:
    """AAA 2019, 20 °F with the cabin heated: what was 100 mi is 59."""
    cold, mild = (number(car(air=air, cabin="on"), "distance", u.mi) for air in ("-7 °C", "24 °C"))
    assert mild / cold == pytest.approx(1.69, abs=0.01)


def test_colder_than_was_measured_is_not_known() -> None:
    """AAA 2019 measured at 20, 75 and 95 °F."""
    assert car(air="-18 °C", trip="1").verdict == "not known"
    assert car(air="40 °C", trip="1").verdict == "not known"


def test_the_inverter_loss_peaks_where_the_plate_says() -> None:
    """P_dc = P0 + (1+a)·P + b·P²: at P = √(P0/b) the efficiency is the plate's (own derivation, by calculus)."""
    idle, peak, a = 60.0, 0.93, 0.03
    b = ((1 / peak - 1 - a) / 2) ** 2 / idle
    watts = math.sqrt(idle / b)
    answer = car(
        running=f"{watts - 1440:.6f} W",
        charging_volts="120 V",
        charging_amps="12",
        system="120 V",
        idle="60",
        peak_efficiency="93",
        continuous="5000",
        air="24 °C",
    )
    assert watts / number(answer, "power_from_bank", u.W) == pytest.approx(peak, abs=1e-6)


def test_the_inverse_agrees_with_the_question() -> None:
    """The energy that the trip needs, put into the bank, takes the car exactly that far."""
    answer = car(trip="9", air="24 °C")
    share = 9 / number(answer, "distance", u.mi)
    assert number(answer, "energy_needed_for_trip", u.kWh) == pytest.approx(
        share * number(answer, "energy_to_hand", u.kWh)
    )


def test_a_car_on_one_leg_is_held_to_that_leg() -> None:
    """A 5 kW split-phase inverter gives 2.5 kW on a leg: 24 A at 120 V is 2.88 kW (common practice)."""
    assert (
        car(outlet="L5-30", charging_volts="120 V", charging_amps="24", breaker="30", one_leg="no", trip="1").verdict
        == NO
    )
    assert car(
        outlet="L5-30", charging_volts="120 V", charging_amps="24", breaker="30", one_leg="yes", trip="1"
    ).verdict in (GO, TIGHT)


def test_a_car_is_a_continuous_load_on_its_breaker() -> None:
    """NEC 2023, 625.42: 17 A on a 20 A breaker is 21.25 A."""
    assert car(outlet="6-20", charging_amps="17", breaker="20", trip="1").verdict == NO
    assert car(outlet="6-20", charging_amps="16", breaker="20", trip="1").verdict in (GO, TIGHT)


def test_lugs_are_judged_by_the_raceway_table_also_where_the_wire_lies_free() -> None:
    """NEC 2023, 110.14(C)(1): equipment's terminals go by Table 310.16. 4 AWG at 75 °C: 85 A, though 125 A in free air."""
    load = {"lay": "single in free air", "size": "4 AWG", "terminals": "75 °C", "breaker": "110", "run_length": "20"}
    assert verdict_on(wire(continuous_current="80", **load), "Lugs") == NO
    assert verdict_on(wire(continuous_current="60", **load), "Lugs") == GO


def test_an_empty_bank_takes_the_car_nowhere() -> None:
    """What is kept back is not for the car (own derivation)."""
    assert car(charge="0 %").verdict == NO
    assert car(charge="10 %", reserve="15 %").verdict == NO


def test_a_split_phase_leg_bears_half_of_240_volts_and_what_else_hangs_on_it() -> None:
    """Kirchhoff: 2400 VA at 240 V is 1200 on a leg; with 2000 beside it 3200, and the leg gives 2500 (common practice)."""
    load = {
        "tool_volts": "240 V",
        "outlet": "6-20",
        "plate_amps": "10",
        "running": "2000",
        "start": "heater or resistive",
    }
    assert verdict_on(tool(**load), "One leg while it runs") == NO
    assert verdict_on(tool(running_leg="both legs alike", **load), "One leg while it runs") == GO
    assert verdict_on(car(running="1000 W", trip="1"), "One leg while it runs") == NO


def test_the_other_leg_is_seen_too() -> None:
    """4700 VA on the other leg of a 5 kW split-phase inverter is more than its 2500 VA."""
    assert (
        verdict_on(
            tool(running="4700", running_leg="the other leg", plate_amps="1", start="heater or resistive"),
            "The other leg",
        )
        == NO
    )


def test_the_seconds_of_the_surge_count_where_only_a_leg_calls_on_it() -> None:
    """A start of 4.1 kVA on a leg that gives 2.5 kVA for long needs the surge, though the two legs give 5 kVA."""
    assert (
        verdict_on(tool(start="capacitor-start motor", plate_amps="5", surge_time="0.005"), "Seconds of the surge")
        == NO
    )


def test_a_compressor_under_pressure_does_not_start_and_no_soft_start_helps_it() -> None:
    """Turning force falls with the square of the current; a full compressor needs all of it (common practice)."""
    kind = check_called("run/tool-on-outlet")
    pressed = {"start": "compressor under pressure", "plate_amps": "9", "fed_by": "a wall outlet"}
    answer = fill(kind, defaults(kind, "nec") | pressed)
    found = answer.answer()
    assert verdict_on(found, "Turning force") == NO
    offers = [offer.say for offer in answer.offers(found)]
    assert any("Bleed the tank" in say for say in offers) and not any("soft start" in say for say in offers)


def test_a_thin_cord_does_not_spare_the_inverter() -> None:
    """The surge is held against the outlet: a longer cord never turns a no of the inverter into a go."""
    verdicts = {
        verdict_on(tool(cord=cord, cord_length="100 ft"), "One leg at the start")
        for cord in ("none", "16 AWG", "10 AWG")
    }
    assert verdicts == {NO}


def test_a_heater_takes_less_where_the_volts_fall() -> None:
    """Ohm: 16 A at 120 V is 7.5 Ω; through 0.05 Ω it takes 15.9 A, and 125 % of that is 19.9 A of 20 A."""
    answer = tool(plate_amps="16", lasting="yes", start="heater or resistive", fed_by="a wall outlet")
    assert number(answer, "running_current", u.A) == pytest.approx(120 / (7.5 + 0.05))
    assert verdict_on(answer, "Outlet") == TIGHT


def test_an_outlet_without_a_ground_is_no_place_for_a_tool() -> None:
    """ANSI/NEMA WD 6: the 10 series has two hots and a neutral and no ground (trap 9)."""
    assert verdict_on(tool(outlet="10-30", breaker="30", tool_volts="240 V", plate_amps="10"), "Ground") == NO


def test_a_cord_behind_a_large_breaker_is_not_protected() -> None:
    """NEC 2023, 240.5: 16 AWG carries 13 A; a 50 A breaker never feels its fault. Trap 10: nor does a plain adapter help."""
    assert (
        verdict_on(
            tool(outlet="14-50", breaker="50", tool_volts="240 V", plate_amps="8", cord="16 AWG", cord_length="25"),
            "Breaker protects the cord",
        )
        == NO
    )
    assert (
        verdict_on(tool(outlet="14-50", breaker="50", plate_amps="10", plug="through a plain adapter"), "Adapter") == NO
    )


def test_a_cord_in_hot_air_carries_less() -> None:
    """NEC 2023, Tables 400.5(A)(1), 310.15(B)(1)(1): 12 AWG, two carrying, 25 A; 0.71 of it at 45 °C."""
    load = {
        "cord": "12 AWG",
        "outlet": "L5-30",
        "breaker": "20",
        "plate_amps": "19",
        "start": "heater or resistive",
        "fed_by": "a wall outlet",
        "cord_length": "10",
    }
    assert verdict_on(tool(**load), "Cord") == GO
    assert verdict_on(tool(cord_air="45 °C", **load), "Cord") == NO


def test_the_outlet_counts_and_not_only_its_breaker() -> None:
    """NEC 2023, 210.21(B)(3), 210.20(A): a 5-15 behind 20 A gives a car 12 A, not 16."""
    load = {"charging_volts": "120 V", "outlet": "5-15", "breaker": "20", "trip": "1"}
    assert car(charging_amps="16", **load).verdict == NO
    assert car(charging_amps="12", **load).verdict in (GO, TIGHT)


def test_under_iec_rules_a_household_socket_is_not_for_hours_at_16_amps() -> None:
    """Common practice, no published source: 10 A for hours on a household socket, all of it on IEC 60309."""
    load = {"charging_volts": "230 V", "system": "230 V", "breaker": "16", "trip": "1", "charging_amps": "16"}
    asked = {
        socket: fill(check_called("run/car-distance"), load | {"outlet": socket}, rules="iec").answer()
        for socket in ("household, 16 A", "IEC 60309, 16 A")
    }
    assert verdict_on(asked["household, 16 A"], "Socket") == NO
    assert verdict_on(asked["IEC 60309, 16 A"], "Socket") == GO


def test_terminals_made_for_70_degrees_hold_a_90_degree_wire_down() -> None:
    """IEC 60364-5-52, 523.1; BS 7671, 512.1.5: 2.5 mm² XLPE by B2 is 30 A, its 70 °C terminals 23 A."""
    load = {"size": "2.5 mm2", "breaker": "25", "continuous_current": "22", "volts": "230", "run_length": "10 m"}
    assert verdict_on(wire("iec", terminals="70 °C", **load), "Device protects the wire") == NO
    assert verdict_on(wire("iec", terminals="90 °C", **load), "Device protects the wire") == GO


def test_small_gg_fuses_open_later() -> None:
    """IEC 60269-1, Table 2: 1.9 times below 16 A: 1.45/1.9 = 0.763 of the capacity; 1.6 times from 16 A up: 0.906."""
    load = {
        "device": "gG fuse",
        "insulation": "PVC 70 °C",
        "method": "A2",
        "circuits": "3",
        "size": "2.5 mm2",
        "continuous_current": "9.1",
        "volts": "230",
        "run_length": "10 m",
    }
    assert verdict_on(wire("iec", breaker="10", **load), "Device protects the wire") == NO
    assert 0.69 <= 1.45 / 2.1 and 0.76 <= 1.45 / 1.9 and 0.9 <= 1.45 / 1.6


def test_the_ground_wire_never_falls_below_the_table() -> None:
    """NEC 2023, Table 250.122: 12 AWG for 20 A, also where the wires are too thin for their load."""
    assert (
        wire(size="12 AWG", breaker="20", continuous_current="12", other_current="20").results["ground_wire"].text
        == "12 AWG"
    )


def test_hot_cells_may_not_give() -> None:
    """Common practice, no published source: lithium iron phosphate stops giving at 55 to 60 °C."""
    assert car(cells="60 °C", trip="1").verdict == NO


def test_beyond_what_was_measured_a_no_is_still_a_no() -> None:
    """AAA 2019 ends at 20 °F: colder leaves no more than there. A trip that fails there fails."""
    assert car(air="-18 °C", trip="30").verdict == NO
    assert car(air="-18 °C", trip="1").verdict == "not known"


def test_idle_and_best_efficiency_that_do_not_fit_are_not_known() -> None:
    """Calculus: the best point lies at 2·P₀/g; 0.5 W and 93 % would put it at 22 W of 5 kW."""
    assert car(idle="0.5", trip="1").verdict == "not known"
