"""Energy over time: published figures, the known traps, and independent solvers, each with its source.

These are claims about the world at their published precision; regression digits have no place here.
"""

from __future__ import annotations

import math

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from calc import units as u
from calc.catalogue import check_called
from calc.check import GO, NO, TIGHT, Answer
from calc.form import fill
from calc.laws import stepping
from calc.laws.open_circuit import rest_volts, stepped_bank
from calc.quantity import Quantity
from calc.tables import table


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


# --- the kernel --------------------------------------------------------------------------------------------------

CHARGES = np.array([float(row) / 100 for row in table("lfp_open_circuit").rows])
VOLTS = np.array([float(table("lfp_open_circuit").text(row, "volts")) for row in table("lfp_open_circuit").rows])


def bank(amp_hours: float, ohms: float) -> stepping.Bank:
    return stepped_bank("LFP", amp_hours * u.Ah, ohms * u.ohm, 16 * u.one)


def filled_by_solver(
    amp_hours: float, ohms: float, watts: float, amps: float, volts: float, start: float, tail: float
) -> tuple[float, float]:
    """Hours and charge at the end: scipy's adaptive Runge-Kutta (4, 5) on the same curve, to 1e-9."""

    def flows(charge: float) -> float:
        rest = float(np.interp(charge, CHARGES, VOLTS))
        by_power = (-rest + math.sqrt(rest * rest + 4 * ohms * watts)) / (2 * ohms)
        return min(amps, by_power, (volts - rest) / ohms)

    tailed = lambda _, y: flows(y[0]) - tail  # noqa: E731
    topped = lambda _, y: y[0] - 1  # noqa: E731
    tailed.terminal = topped.terminal = True
    run = solve_ivp(lambda _, y: [flows(y[0]) / (amp_hours * 3600)], (0, 4e5), [start], events=[tailed, topped], rtol=1e-9, atol=1e-11, max_step=60)  # fmt: skip
    return run.t[-1] / 3600, float(run.y[0, -1])


@pytest.mark.parametrize(
    "case",
    [
        (280, 0.020, 1e6, 140, 56.8, 0.2, 14),
        (280, 0.012, 1e6, 100, 54.4, 0.2, 14),
        (280, 0.020, 1e6, 140, 56.0, 0.2, 14),
        (200, 0.014, 1500, 80, 57.6, 0.0, 10),
        (100, 0.100, 3000, 50, 55.0, 0.5, 5),
    ],
)
def test_filling_by_steps_agrees_with_a_solver_of_differential_equations(case: tuple[float, ...]) -> None:
    amp_hours, ohms, watts, amps, volts, start, tail = case
    hours, end = filled_by_solver(*case)
    rows = stepping.fill(bank(amp_hours, ohms), start, watts, amps, volts, tail)
    assert rows[-1].charge == pytest.approx(end, abs=0.0011)
    assert rows[-1].seconds / 3600 == pytest.approx(hours, rel=0.006)


@pytest.mark.parametrize(("watts", "cutoff"), [(3000.0, 46.0), (500.0, 46.0), (9000.0, 50.5)])
def test_emptying_by_steps_agrees_with_a_solver_of_differential_equations(watts: float, cutoff: float) -> None:
    ohms, coulombs = 0.012, 280 * 3600.0

    def flows(charge: float) -> float:
        rest = float(np.interp(charge, CHARGES, VOLTS))
        return (rest - math.sqrt(rest * rest - 4 * ohms * watts)) / (2 * ohms)

    stops = lambda _, y: float(np.interp(y[0], CHARGES, VOLTS)) - flows(y[0]) * ohms - cutoff  # noqa: E731
    floor = lambda _, y: y[0]  # noqa: E731
    stops.terminal = floor.terminal = True
    run = solve_ivp(lambda _, y: [-flows(y[0]) / coulombs], (0, 1e6), [1.0], events=[stops, floor], rtol=1e-9, atol=1e-11, max_step=60)  # fmt: skip
    rows = stepping.empty(bank(280, ohms), 1.0, 0.0, watts, cutoff)
    assert rows[-1].seconds == pytest.approx(run.t[-1], rel=0.003)
    assert rows[-1].joules == pytest.approx(watts * rows[-1].seconds, rel=1e-9)  # the dimension: watts times seconds


def test_steps_of_ten_minutes_agree_with_a_solver_over_a_day() -> None:
    """Sun as half a sine, a steady load: charge to 0.002 and the hour of full to 10 minutes (the annex: 3 minutes)."""
    ohms, coulombs, load = 0.014, 200 * 3600.0, 150.0
    stepped = bank(200, ohms)

    def watts(seconds: float) -> float:
        return 1200 * max(0.0, math.sin(math.pi * (seconds / 3600 - 6) / 12)) * (6 < seconds / 3600 < 18) - load

    def slope(seconds: float, y: list[float]) -> list[float]:
        power, rest = watts(seconds), float(np.interp(y[0], CHARGES, VOLTS))
        amps = (-rest + math.sqrt(rest * rest + 4 * ohms * power)) / (2 * ohms)
        return [min(amps, (57.6 - rest) / ohms) / coulombs]

    full = lambda _, y: y[0] - 1  # noqa: E731
    full.terminal = True
    run = solve_ivp(slope, (0, 86400), [0.5], events=full, rtol=1e-9, atol=1e-11, max_step=60)
    day = [(watts(index * 600 + 300), 100.0, 0.0) for index in range(144)]
    charges = stepping.march(stepped, 0.5, 600, 57.6, day).charges
    for index, charge in enumerate(charges):
        if index * 600 <= run.t[-1]:
            assert charge == pytest.approx(float(np.interp(index * 600, run.t, run.y[0])), abs=0.002)
    when = 600 * next(index for index, charge in enumerate(charges) if charge >= 1 - 1e-9)
    assert when == pytest.approx(run.t[-1], abs=600)


def one_step(charge: float, watts: float, ohms: float = 0.02, floor: float = 0.1) -> tuple[float, float, float]:
    course = stepping.march(bank(100, ohms), charge, 600, 57.6, [(watts, 100.0, floor)])
    return course.charges[1], course.spilled[0], course.short[0]


def test_what_found_no_room_and_what_was_not_there_make_up_the_balance() -> None:
    charge, spilled, short = one_step(0.999, 5000)
    assert charge == pytest.approx(1, abs=1e-12) and short == 0 and 0 < spilled < 5000
    charge, spilled, short = one_step(0.101, -5000)
    assert charge == pytest.approx(0.1) and spilled == 0 and 0 < short < 5000
    charge, spilled, short = one_step(0.5, -500)
    assert spilled == 0 and short == pytest.approx(0, abs=1e-6)


def test_power_that_a_bank_cannot_give_at_any_voltage_is_not_given() -> None:
    """A source of E behind R gives E²/(4R) at most (maximum power transfer): 50 V behind 1 Ω gives 625 W, not 700 W."""
    assert one_step(0.5, -600, ohms=1.0)[0] < 0.5
    assert one_step(0.5, -750, ohms=1.0) == (0.5, 0.0, 750)


def test_each_step_balances_to_the_last_figures() -> None:
    """Kirchhoff: what comes in less what finds no room is stored at the rest voltage or heats the resistance."""
    of, steps = bank(100, 0.02), [(3000 * math.sin(index / 7), 100.0 - index % 3, 0.1) for index in range(2000)]
    course = stepping.march(of, 0.5, 600, 57.6, steps)
    for (watts, most, floor), charge, amps, spilled, short in zip(steps, course.charges, course.amps, course.spilled, course.short, strict=False):  # fmt: skip
        rest = of.rest_volts(charge)
        assert watts + short - spilled == pytest.approx(amps * rest + amps**2 * of.ohms, rel=1e-9, abs=1e-9)
        assert amps <= most and floor - 1e-12 <= charge <= 1 + 1e-12 and spilled >= -1e-9 and short >= -1e-9


def test_the_kernel_has_its_dimensions_right() -> None:
    """In other units of volt, ampere and second the same day comes out: a formula with a wrong dimension does not."""
    volt, ampere, second = 3.0, 7.0, 11.0
    plain = bank(100, 0.02)
    other = stepping.Bank(plain.coulombs * ampere * second, plain.ohms * volt / ampere, plain.charges, tuple(v * volt for v in plain.volts))
    steps = [(4000 * math.sin(index / 9), 60.0, 0.15) for index in range(500)]
    scaled = [(watts * volt * ampere, amps * ampere, floor) for watts, amps, floor in steps]
    one = stepping.march(plain, 0.5, 600, 56.5, steps)
    two = stepping.march(other, 0.5, 600 * second, 56.5 * volt, scaled)
    assert two.charges == pytest.approx(one.charges, rel=1e-9)
    assert two.amps == pytest.approx([amps * ampere for amps in one.amps], rel=1e-9, abs=1e-9)
    assert two.spilled == pytest.approx([watts * volt * ampere for watts in one.spilled], rel=1e-9, abs=1e-6)
    assert two.short == pytest.approx([watts * volt * ampere for watts in one.short], rel=1e-9, abs=1e-6)
    assert max(one.spilled) > 0 and max(one.short) > 0


@pytest.mark.parametrize("volts", [57.6, 55.0, 54.4])
def test_the_taper_by_steps_of_ten_minutes_agrees_with_the_solver(volts: float) -> None:
    """Held at the highest volts: charge to 0.004 all through, though the top of the curve relaxes in two minutes."""
    ohms, coulombs = 0.014, 200 * 3600.0

    def slope(_: float, y: list[float]) -> list[float]:
        rest = float(np.interp(y[0], CHARGES, VOLTS))
        amps = (-rest + math.sqrt(rest * rest + 4 * ohms * 3000)) / (2 * ohms)
        return [max(0.0, min(amps, (volts - rest) / ohms)) / coulombs * (y[0] < 1)]

    run = solve_ivp(slope, (0, 6 * 3600), [0.6], rtol=1e-9, atol=1e-11, max_step=10)
    charges = stepping.march(bank(200, ohms), 0.6, 600, volts, [(3000.0, 100.0, 0.0)] * 36).charges
    theirs = np.interp(np.arange(37) * 600, run.t, run.y[0])
    assert charges == pytest.approx(list(theirs), abs=0.004)


def test_the_rest_voltage_of_the_working_is_the_rest_voltage_of_the_kernel() -> None:
    for charge in (0, 3, 5, 12.5, 64, 97, 98.6, 100):
        written = rest_volts("LFP", charge * u.percent, 15 * u.one)
        kernel = stepped_bank("LFP", 100 * u.Ah, 1 * u.ohm, 15 * u.one).rest_volts(charge / 100)
        assert written.number_in(u.V) == pytest.approx(kernel, rel=1e-12)


# --- refill ------------------------------------------------------------------------------------------------------

BIG = {"capacity": "280", "strings": "1", "cells": "20 °C", "charge_limit": "140", "outlet": "14-60", "set_to": "60",
       "charge": "20", "time_there_is": "24 h"}  # fmt: skip


def test_trap_21_hours_are_not_amp_hours_over_amps() -> None:
    """The charger holds its volts and the current falls: 2.24 h for 80 % of 280 Ah at 100 A is 2.57 h at 54.4 V and 12 mΩ.

    By scipy on the same curve; the charge where the current begins to fall is 64 %, where 53.2 V + 1.2 V are 54.4 V.
    """
    # trap 21: amp-hours over amps leave out that the current falls once the charger holds its volts.
    slow = ask("refill/hours-to-full", **BIG, charger_set="100", charge_volts="54.4", resistance="12")
    hours, end = filled_by_solver(280, 0.012, 14400 * 0.92, 100, 54.4, 0.2, 14)
    assert number(slow, "time_to_mark", u.h) == pytest.approx(hours, rel=0.006) and hours > 1.1 * 2.24
    assert number(slow, "charge_at_end", u.percent) == pytest.approx(100 * end, abs=0.11)
    assert number(slow, "falls_from", u.percent) == pytest.approx(64, abs=0.2)
    assert any("2.24" in note for note in slow.notes)


def test_more_resistance_and_lower_volts_never_fill_sooner() -> None:
    def hours(resistance: str, volts: str) -> float:
        return number(ask("refill/hours-to-full", **BIG, charger_set="140", charge_volts=volts, resistance=resistance), "time_to_90", u.h)  # fmt: skip

    assert hours("5", "57.6") <= hours("20", "57.6") <= hours("40", "57.6")
    assert hours("20", "57.6") <= hours("20", "56") <= hours("20", "55")


def test_a_charger_that_stops_early_has_not_filled() -> None:
    """54 V over 60 mΩ: the tail current is reached long before full, and a clock would call it a go."""
    early = ask("refill/hours-to-full", **BIG, charger_set="100", charge_volts="54", resistance="60")
    assert early.verdict == NO and verdict_on(early, "Fills") == NO


def test_the_row_that_is_printed_is_the_row_of_the_kernel() -> None:
    answer = ask("refill/hours-to-full", **BIG, charger_set="100", charge_volts="57.6", resistance="12")
    printed = {line.symbol: line.quantity for line in answer.working() if line.quantity is not None}
    rows = stepping.fill(bank(280, 0.012), 0.2, printed["P"].si, 100, 57.6, 14)
    assert printed["Δt"].si == pytest.approx(rows[1].seconds, rel=1e-9)
    assert printed["I_1"].si == pytest.approx(rows[1].amps, rel=1e-9)


def test_16_kwh_at_6_kw_is_two_and_two_thirds_hours_before_losses_and_taper() -> None:
    """The trade's own check figure (common practice, no published source): 16 kWh at 6 kW, 2.7 h."""
    rows = stepping.fill(stepping.Bank(16 * 3.6e6 / 51.2, 1e-9, (0.0, 1.0), (51.2, 51.2)), 0.0, 6000, 1e9, 1e9, 0)
    assert rows[-1].seconds / 3600 == pytest.approx(2.7, abs=0.05)


def test_cells_are_held_to_the_stricter_of_two_patterns_in_every_band() -> None:
    """None below 0 °C, 0.05 C to 5 °C, 0.1 C to 10 °C, 0.2 C to 15 °C, rated to 45 °C, none above."""
    expected = {"-1": 0, "0": 14, "4.9": 14, "5": 28, "9.9": 28, "10": 56, "14.9": 56, "15": 140, "44.9": 140, "45": 0}
    for cells, amps in expected.items():
        answer = ask("refill/battery-limit", cells=f"{cells} °C", capacity="280", strings="1", charge_limit="140")
        assert number(answer, "allowed", u.A) == pytest.approx(amps), cells


def test_the_makers_table_wins_and_never_lifts_the_plate() -> None:
    typed = {"rule": "the maker's own, at this temperature", "strings": "1", "charge_limit": "50", "charger_set": "20"}
    assert ask("refill/battery-limit", cells="50 °C", makers="25", **typed).verdict == GO
    assert number(ask("refill/battery-limit", makers="90", **typed), "allowed", u.A) == 50


def test_tools_that_pass_through_are_taken_first() -> None:
    """Kirchhoff: a 20 A tool on one leg of a 40 A setting leaves 20 A at 240 V, 4.8 kW, and not 40 A less 10 A."""
    typed = {"outlet": "14-50", "breaker": "50", "inlet": "50", "cord": "6 AWG", "set_to": "40"}
    assert number(ask("refill/inlet-rate", running="2400", **typed), "charger_input", u.W) == 4800
    assert number(ask("refill/inlet-rate", running="0", **typed), "charger_input", u.W) == 9600


def test_a_large_inlet_on_a_small_outlet_is_a_no() -> None:
    """NEC 2023, 210.20(A), 210.23: the building's smallest breaker rules, whatever the inlet's face says."""
    assert ask("refill/inlet-rate", outlet="5-15", breaker="15", set_to="24").verdict == NO
    assert ask("refill/inlet-rate", outlet="5-15", breaker="15", set_to="13").verdict == TIGHT
    assert number(ask("refill/inlet-rate", outlet="5-15", breaker="15", set_to="12"), "best_setting", u.A) == 12


# --- choose ------------------------------------------------------------------------------------------------------


def test_one_cell_more_or_less_is_found() -> None:
    """16 cells of 3.65 V are 58.4 V; 15 of them 54.75 V, which 57.6 V overcharge by 0.19 V each (3.84 V)."""
    assert verdict_on(ask("choose/bank-from-cells", series="15"), "Charge voltage and the cells") == NO
    assert verdict_on(ask("choose/bank-from-cells", series="16"), "Charge voltage and the cells") == GO
    assert verdict_on(ask("choose/bank-from-cells", series="19"), "Cut-off and the cells") == NO
    assert verdict_on(ask("choose/bank-from-cells", series="14", cutoff="46"), "Cut-off and the charge") == NO


# --- run ---------------------------------------------------------------------------------------------------------

STEADY = {
    "reserve": "0",
    "charge": "100",
    "health": "100",
    "cells": "25 °C",
    "running": "0",
    "count": "1",
    "hours_1": "24",
}


def test_trap_22_hours_are_not_energy_times_efficiency_over_watts() -> None:
    """3 kW from 14.336 kWh at 92 %: 4.40 h by the short sum; less with the idle draw, the square and the bank's heat.

    Against a constant-power discharge of a flat 51.2 V behind 12 mΩ, by scipy.
    """
    # trap 22: energy times efficiency over watts leaves out the idle draw, the square of the load and the bank's own heat.
    answer = ask("run/hours-for-loads", **STEADY, watts_1="3000", bank_energy="14.336", idle="60", continuous="6000", peak_efficiency="92", resistance="12", bank_volts="51.2")  # fmt: skip
    drawn = number(answer, "power_from_bank", u.W)
    amps = (51.2 - math.sqrt(51.2**2 - 4 * 0.012 * drawn)) / 0.024
    run = solve_ivp(lambda _, y: [-amps], (0, 24), [280.0], events=[_empty], rtol=1e-10)
    assert number(answer, "hours", u.h) == pytest.approx(run.t[-1], rel=0.001)
    assert number(answer, "hours", u.h) < 0.985 * 4.40
    assert any("4.40" in note for note in answer.notes)


def _empty(_: float, amp_hours: list[float]) -> float:
    return amp_hours[0]


_empty.terminal = True  # type: ignore[attr-defined]


def test_the_idle_draw_rules_small_loads() -> None:
    """20 W on an inverter that idles at 55 W: 61 h from 4.608 kWh, not the 207 h of energy times 90 % over watts."""
    answer = ask("run/hours-for-loads", **(STEADY | {"reserve": "10"}), watts_1="20", bank_energy="5.12", idle="55", continuous="4500", peak_efficiency="90")  # fmt: skip
    assert number(answer, "hours", u.h) == pytest.approx(61, abs=0.5)
    assert any("207" in note for note in answer.notes)
    assert number(answer, "idle_share", u.percent) > 70


def test_the_resistive_loss_goes_with_the_mean_of_the_square() -> None:
    """Three loads on and off by chance, each of the eight states weighed by how often it stands: b times the mean of P²."""
    loads = ((1500.0, 6.0), (700.0, 3.0), (200.0, 12.0))
    mean, square = 0.0, 0.0
    for state in range(8):
        on = [bool(state >> k & 1) for k in range(3)]
        weight = math.prod(hours / 24 if is_on else 1 - hours / 24 for (_, hours), is_on in zip(loads, on, strict=True))
        watts = sum(watts for (watts, _), is_on in zip(loads, on, strict=True) if is_on)
        mean, square = mean + weight * watts, square + weight * watts**2
    typed = {f"watts_{k}": f"{watts}" for k, (watts, _) in enumerate(loads, 1)} | {f"hours_{k}": f"{hours}" for k, (_, hours) in enumerate(loads, 1)}  # fmt: skip
    answer = ask(
        "run/hours-for-loads", **typed, between="stays on", count="3", running="0", idle="60", continuous="5000", peak_efficiency="93"
    )
    room = 1 / 0.93 - 1.03
    drawn = 60 + 1.03 * mean + (room / 2) ** 2 / 60 * square
    assert number(answer, "power_from_bank", u.W) == pytest.approx(drawn, rel=1e-9)
    assert square > 2 * mean**2  # the square of the mean would miss more than half of it


def test_a_load_that_pulls_the_volts_under_the_cutoff_is_a_no_however_much_is_stored() -> None:
    """Ohm: 9 kW through 40 mΩ takes about 200 A and 8 V off 51.2 V."""
    answer = ask("run/hours-for-loads", **STEADY, watts_1="9000", resistance="40", bank_energy="100", continuous="12000", idle="150", time_wanted="2 h")  # fmt: skip
    assert verdict_on(answer, "Time") == GO and answer.verdict == NO
    assert verdict_on(answer, "Volts under the largest load") == NO


def test_a_generator_that_idles_burns_twice_the_fuel_for_the_same_charge() -> None:
    """A small set measured in public: 0.074 gal/h to turn and 0.127 gal/kWh: 0.76 L/kWh at 1 kW, 1.60 at a quarter of it."""
    typed = {"rating": "1000", "fuel_full": "0.201", "fuel_idle": "0.074", "bank_volts": "50", "charger_efficiency": "96", "tank": "50"}  # fmt: skip
    full = ask("refill/generator", **typed, charger_set="19.2")
    light = ask("refill/generator", **typed, charger_set="4.8")
    per_kwh = [number(answer, "fuel_rate", u.L_per_h) / number(answer, "load", u.kW) for answer in (full, light)]
    assert per_kwh == [pytest.approx(0.76, abs=0.005), pytest.approx(1.60, abs=0.005)]
    assert full.verdict == TIGHT and number(light, "fuel", u.gal) > 2 * number(full, "fuel", u.gal)


@pytest.mark.parametrize(("kilowatts", "chart"), [(5, 0.6), (10, 0.9), (15, 1.3), (20, 1.6)])
def test_a_straight_line_meets_the_trades_chart_of_fuel(kilowatts: float, chart: float) -> None:
    """Approximate fuel consumption of diesel generators, 20 kW, the same in three public pages."""
    answer = ask("refill/generator", rating="20000", fuel_full="1.6", fuel_idle="0.267", tank="50", running=f"{kilowatts * 1000 - 2000}", charger_set="40", bank_volts="48", charger_efficiency="96")  # fmt: skip
    assert number(answer, "fuel_rate", u.gal_per_h) == pytest.approx(chart, abs=0.05)


def test_a_large_inverter_costs_a_third_of_a_small_bank_on_a_small_day() -> None:
    """25 W and 90 W of idling on the same 1.5 kWh: 2.16 and 3.71 kWh, 1.55 kWh apart, 30 % of 5.12 kWh."""
    typed = {"hours_on": "24", "loads_energy": "1.5", "bank_energy": "5.12"}
    small = ask("choose/inverter-too-big", idle="25", continuous="2000", **typed)
    large = ask("choose/inverter-too-big", idle="90", continuous="8000", **typed)
    apart = number(large, "energy_from_bank", u.kWh) - number(small, "energy_from_bank", u.kWh)
    assert apart == pytest.approx(1.55, abs=0.02) and apart / 5.12 == pytest.approx(0.30, abs=0.005)
    assert large.verdict == NO


def test_fewer_amps_lose_more_than_their_share() -> None:
    """12 A to 8 A at 120 V: a third less current, two fifths less distance in an hour (280 W overhead, recalled)."""
    typed = {"charging_volts": "120 V", "lead": "0.25", "overhead": "280", "breaker": "15", "consumption": "3.4"}
    high, low = (ask("run/time-to-add", charging_amps=amps, **typed) for amps in ("12", "8"))
    rates = [number(answer, "miles_per_hour", u.mph_added) for answer in (high, low)]
    assert rates[0] == pytest.approx(3.5, abs=0.1) and 1 - rates[1] / rates[0] == pytest.approx(0.41, abs=0.01)


def test_a_loose_contact_is_a_no_before_any_miles() -> None:
    """ANSI C84.1: 110 V of 120 V; 12 A through 0.9 ohm leave 109.2 V, and 130 W heat the contact."""
    typed = {"charging_volts": "120 V", "charging_amps": "12", "breaker": "15", "time_wanted": "50 h"}
    assert verdict_on(ask("run/time-to-add", lead="0.9", **typed), "Volts at the plug") == NO
    assert verdict_on(ask("run/time-to-add", lead="0.6", **typed), "Volts at the plug") == TIGHT
    assert verdict_on(ask("run/time-to-add", lead="0.1", **typed), "Volts at the plug") == GO


@pytest.mark.parametrize("kind", ["dash (at the battery)", "label (at the wall)"])
def test_the_bank_a_trip_needs_is_the_bank_that_goes_that_far(kind: str) -> None:
    """Two pages, one from the plate to the wheels and one back: they meet."""
    typed = {"consumption_kind": kind, "trip": "14", "air": "0 °C", "cabin": "on", "cells": "5 °C", "reserve": "15", "health": "95"}  # fmt: skip
    wanted = number(ask("run/bank-for-trip", **typed), "bank_needed", u.kWh)
    answer = ask("run/car-distance", **typed, bank_energy=f"{wanted:.9f}", charge="100", running="0")
    assert number(answer, "distance", u.mi) == pytest.approx(14, rel=1e-6)


def test_16_kwh_at_4_5_miles_each_is_72_miles_before_losses() -> None:
    """The trade's own check figure (common practice, no published source), and the label's rule of 40 CFR 600.311-12."""
    assert number(
        ask("run/bank-for-trip", trip="72", consumption="4.5", air="24 °C"), "energy_at_car", u.kWh
    ) == pytest.approx(16)


def test_the_price_in_each_kwh_pays_the_loan_off_to_the_cent() -> None:
    """Paid back year by year at 6 % with what the kWh bring in, nothing is owed at the end of the rig's life."""
    typed = {"price": "6000", "bank_energy": "10", "reserve": "10", "cycles": "4000", "end": "80", "life": "12", "uses": "100", "interest": "6"}  # fmt: skip
    answer, owed = ask("run/cost", **typed), 6000.0
    for _ in range(12):
        owed = owed * 1.06 - number(answer, "wear", u.dollars_per_kWh) * 10 * 0.9 * 0.9 * 100
    assert owed == pytest.approx(0, abs=0.01)


def test_age_ends_a_bank_that_is_seldom_used_and_cycles_one_that_is_used_daily() -> None:
    years = {
        uses: number(ask("run/cost", uses=uses, cycles="4000", life="12"), "years", u.one) for uses in ("50", "500")
    }
    assert years == {"50": 12, "500": 8}


TIED = {"coupling": "directly in parallel", "charge": "80", "trip": "10", "cells": "20 °C"}


def test_tied_banks_share_by_their_resistances() -> None:
    """Kirchhoff: 12 and 18 mΩ share 60 and 40 %: of 150 A the stiffer one gives 90 A, whatever its size."""
    answer = ask("run/range-extender", **TIED, resistance="12", vehicle_resistance="18", peak="150", strings="1", discharge_limit="85", charge_limit="50")  # fmt: skip
    assert verdict_on(answer, "Driving") == NO
    assert verdict_on(ask("run/range-extender", **TIED, resistance="18", vehicle_resistance="12", peak="150", strings="1", discharge_limit="85", charge_limit="50"), "Driving") == GO  # fmt: skip


def test_braking_into_a_full_or_a_frozen_bank_is_a_no() -> None:
    assert verdict_on(ask("run/range-extender", **(TIED | {"charge": "100"})), "Room for braking") == NO
    cold = ask("run/range-extender", **(TIED | {"cells": "-5 °C"}), braking="0", volts_apart="0")
    assert cold.verdict == NO and verdict_on(cold, "Cold or hot cells") == NO


def test_twice_the_energy_is_not_twice_the_range() -> None:
    """5.12 kWh and 5.12 kWh at 95 Wh/mi: 48.5 mi alone, 91.4 mi with both, not 97."""
    answer = ask("run/range-extender", vehicle_energy="5.12", vehicle_charge="90", use="95", vehicle_mass="620 kg", rig_mass="54.4 kg", coupling="directly in parallel", bank_energy="5.12", health="100", charge="90", reserve="0", cells="25 °C", trip="60")  # fmt: skip
    assert number(answer, "distance_alone", u.mi) == pytest.approx(48.5, abs=0.05)
    assert number(answer, "distance", u.mi) == pytest.approx(91.4, abs=0.05) and any(
        "97" in note for note in answer.notes
    )
