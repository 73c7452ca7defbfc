"""The day: a plan foretold. Held to a solver of differential equations, to the first law, and to what a plan says."""

from __future__ import annotations

import json
import math
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any

import jsonschema
import numpy as np
import pytest
from scipy.integrate import quad, solve_ivp

from calc import as_json, units
from calc import units as u
from calc.__main__ import main
from calc.check import GO, NO, NOT_KNOWN, TIGHT
from calc.day import Day, day_of
from calc.facts import fact_at
from calc.laws.cells_in_air import Box, air_at, charging_limits, floors
from calc.laws.declination import declination_at
from calc.planning.course import SECONDS, Course
from calc.planning.plan import Facts, copied_from_loads, missing, plan_of
from calc.planning.sun_by_clock import KINDS, POOR, TYPICAL
from calc.planning.worked_step import busiest, worked_step
from calc.quantity import Quantity
from calc.rig import Known, Rig, example_rig, read_rig
from tests.hand_check import assert_stands

ROOT = Path(__file__).resolve().parents[1]
SCHEMA = jsonschema.Draft202012Validator(json.loads((ROOT / "docs/schemas/day.json").read_text(encoding="utf-8")))


# A rig of our own making for these tests alone, so that the numbers below stay those of one and the same plan.
BASE = read_rig(Path(__file__).with_name("day_rig.json").read_text(encoding="utf-8"))


def rig(changes: Mapping[str, Known] = {}, without: str = "") -> Rig:  # noqa: B006  (only read)
    """That rig with some facts changed, and those under a prefix taken away."""
    facts = {path: known for path, known in BASE.facts.items() if not (without and path.startswith(without))}
    return Rig("", facts | dict(changes))


def windows(*stated: Mapping[str, Known]) -> dict[str, Known]:
    """A plan of these windows and no others."""
    return {f"windows.{place}.{name}": value for place, window in enumerate(stated) for name, value in window.items()}


def planned(*stated: Mapping[str, Known], **changes: Known) -> Rig:
    facts = {path.replace("__", "."): known for path, known in changes.items()}
    return rig(windows(*stated) | facts, without="windows.")


def load(name: str, begins: str, ends: str, days: str = "every day", **more: Known) -> dict[str, Known]:
    return {"name": name, "what": "a load runs", "load": name, "begins": begins, "ends": ends, "days": days, **more}


def wall(outlet: str, begins: str, ends: str, amps: float = 12, days: str = "every day") -> dict[str, Known]:
    return {"name": "wall", "what": "it refills from an outlet", "outlet": outlet, "amps": amps * u.A, "begins": begins, "ends": ends, "days": days}


def day(of: Rig) -> Day:
    return Day(of, "from the rig")


def course(of: Rig) -> Course:
    return Course(Facts(of, ""))


NOTHING_RUNS = load("camp lights", "20:00", "20:10", hours=0 * u.h)
# Each of a kind of its own: as it is, in winter, plugged in all day, no panels, frozen, nearly nothing.
RIGS = {
    "the example": rig(),
    "in December": rig({"plan.date": "2027-12-10", "plan.coldest": -12 * u.degC, "plan.warmest": -2 * u.degC, "now.cells": -3 * u.degC}),
    "plugged in all day": planned(wall("L5-30", "00:00", "00:00", 24), load("camp lights", "20:00", "23:00")),
    "without panels": planned(load("camp lights", "18:00", "23:00"), without_panels="yes"),
    "the mill all day": planned(load("chain-saw mill", "07:00", "19:00", hours=10 * u.h)),
    "nothing runs": planned(NOTHING_RUNS),
    "from Sydney": rig({"place.latitude": -33.9 * u.degree, "place.longitude": 151.2 * u.degree, "plan.utc_offset": 10 * u.h, "panels.tilt": 30 * u.degree, "panels.facing": 0 * u.degree}),
}
RIGS["without panels"] = Rig("", {path: known for path, known in RIGS["without panels"].facts.items() if not path.startswith(("panels.", "without"))})
every_rig = pytest.mark.parametrize("name", RIGS)


@cache
def foretold(name: str) -> Day:
    return day(RIGS[name])


# --- energy ------------------------------------------------------------------------------------------------------


@every_rig
def test_energy_is_conserved_in_every_step_and_over_the_days(name: str) -> None:
    """First law: sun and outlet less loads and heater, less what found no room, with what was missing, is stored or

    heats the bank's resistance; in every step and in all, to 1e-9.
    """
    found = foretold(name).course
    for kind in KINDS:
        run = found.run(kind)
        sums = dict.fromkeys(("in", "out", "stored", "heat"), 0.0)
        for index, (drawn, outlet) in enumerate(found.flows):
            amps = run.bank.amps[index]
            comes_in = run.sun[index] + outlet + run.bank.short[index]
            goes_out = drawn + found.cells[1][index] + run.bank.spilled[index]
            stored, heat = amps * found.bank.rest_volts(run.bank.charges[index]), amps**2 * found.bank.ohms
            assert comes_in - goes_out == pytest.approx(stored + heat, rel=1e-9, abs=1e-9)
            for side, watts in (("in", comes_in), ("out", goes_out), ("stored", stored), ("heat", heat)):
                sums[side] += watts
        assert sums["in"] - sums["out"] == pytest.approx(sums["stored"] + sums["heat"], rel=1e-9)
        held = quad(found.bank.rest_volts, run.bank.charges[0], run.bank.charges[-1], limit=200)[0] * found.bank.coulombs
        thrown = max(sums["in"], sums["out"]) * SECONDS
        assert sums["stored"] * SECONDS == pytest.approx(held, abs=0.002 * thrown), "the charge is what the steps stored"
        moved = sum(run.bank.amps) * SECONDS / found.bank.coulombs
        assert run.bank.charges[-1] - run.bank.charges[0] == pytest.approx(moved, abs=1e-9)


@every_rig
def test_nothing_is_taken_that_is_not_there_nor_given_more_than_the_cells_bear(name: str) -> None:
    found = foretold(name).course
    for kind in KINDS:
        run = found.run(kind)
        for index, amps in enumerate(run.bank.amps):
            assert amps <= found.most_amps[index] + 1e-9
            assert amps >= 0 or run.bank.charges[index + 1] >= found.floors[index] - 1e-9
            assert min(run.bank.short[index], run.bank.spilled[index]) >= -1e-6
        assert 0 <= run.sun_not_taken <= sum(run.sun) * SECONDS + 1 and run.wall_taken >= 0


@every_rig
def test_the_step_that_is_worked_is_the_step_of_the_kernel(name: str) -> None:
    for kind in KINDS:
        run = foretold(name).course.run(kind)
        assert worked_step(run).si == pytest.approx(run.bank.charges[busiest(run) + 1], rel=1e-12, abs=1e-12)


# --- against a solver ----------------------------------------------------------------------------------------------


def test_three_days_agree_with_a_solver_of_differential_equations() -> None:
    """Loads, wall and losses written down here a second time; scipy's Runge-Kutta on the same curve and sun.

    Charge to 0.006 all through, the lowest charge to 0.003, and the moment it is full to 20 minutes.
    """
    found = foretold("the example")
    run = found.runs[TYPICAL]
    b = ((1 / 0.93 - 1.03) / 2) ** 2 / 55

    def drawn(hour: float) -> float:
        loads = [(1500, 0.5, 9 <= hour % 24 < 12), (700, 0.5, 13 <= hour % 24 < 14), (85, 1.0, hour % 24 >= 20.5 or hour % 24 < 0.5)]
        loads += [(3500, 0.3, 38.5 <= hour < 39.5), (3840, 1.0, 15.5 <= hour < 16.5)]
        running = [(watts, share) for watts, share, on in loads if on]
        mean = sum(watts * share for watts, share in running)
        square = mean**2 + sum(watts**2 * share * (1 - share) for watts, share in running)
        return 55 + 1.03 * mean + b * square

    charges, volts = np.array(found.course.bank.charges), np.array(found.course.bank.volts)
    middles = 6 + (np.arange(432) + 0.5) / 6
    coulombs, ohms = 200 * 0.97 * 3600, 0.014

    def slope(hour: float, y: list[float]) -> list[float]:
        on_wall = 41 <= hour < 44
        watts = float(np.interp(hour, middles, run.sun)) + (12 * 120 * 0.92 if on_wall else -drawn(hour))
        rest = float(np.interp(y[0], charges, volts))
        amps = (-rest + math.sqrt(rest**2 + 4 * ohms * watts)) / (2 * ohms)
        amps = min(amps, (57.6 - rest) / ohms, 100.0)
        return [amps * 3600 / coulombs if y[0] < 1 or amps < 0 else 0.0]

    solved = solve_ivp(slope, (6, 78), [0.9], rtol=1e-7, atol=1e-9, max_step=1 / 30)
    theirs = np.interp(6 + np.arange(433) / 6, solved.t, solved.y[0])
    assert run.bank.charges == pytest.approx(list(theirs), abs=0.006)
    assert min(run.bank.charges) == pytest.approx(float(solved.y[0].min()), abs=0.003)
    full = next(moment for moment in found.moments if (moment.kind, moment.what) == (TYPICAL, "full"))
    assert full.minute / 60 == pytest.approx(float(solved.t[np.argmax(solved.y[0] >= 1 - 1e-6)]), abs=1 / 3)


def test_cells_in_their_box_agree_with_a_solver_and_the_heater_holds_them() -> None:
    """m·c·dT/dt = P − U·(T − T_air), air as one wave: temperature to 0.1 K while the heater rests, and never under 5 °C."""
    coldest, warmest = u.degC.__rmul__(-10), u.degC.__rmul__(8)
    airs = [air_at(coldest, warmest, (index + 0.5) * 10) for index in range(288)]
    capacity, loss = 92 * 1130.0, 1.6
    cold, idle = Box(capacity, loss, 0.0, 278.15).through(285.15, airs, 600)

    def slope(seconds: float, y: list[float]) -> list[float]:
        return [-loss * (y[0] - air_at(coldest, warmest, seconds / 60)) / capacity]

    solved = solve_ivp(slope, (0, 288 * 600), [285.15], rtol=1e-9, max_step=600)
    assert cold == pytest.approx(list(np.interp(np.arange(289) * 600, solved.t, solved.y[0])), abs=0.1)
    assert not any(idle)
    warm, watts = Box(capacity, loss, 120.0, 278.15).through(285.15, airs, 600)
    assert min(warm) == pytest.approx(278.15, abs=1e-9) and 0 < max(watts) < 120
    held = [(air, heat) for air, heat, start in zip(airs, watts, warm, strict=False) if heat and abs(start - 278.15) < 1e-9]
    assert [heat for _, heat in held] == pytest.approx([loss * (278.15 - air) for air, _ in held], rel=1e-6)  # it gives what leaks
    assert len(held) > 100


def test_the_air_is_coldest_and_warmest_as_said_and_the_middle_between() -> None:
    coldest, warmest = u.degC.__rmul__(4), u.degC.__rmul__(21)
    airs = [air_at(coldest, warmest, minute) for minute in range(1440)]
    assert (min(airs), max(airs)) == (pytest.approx(coldest.si), pytest.approx(warmest.si))
    assert airs.index(max(airs)) == 15 * 60 and airs.index(min(airs)) == 3 * 60


def test_cold_cells_take_little_or_nothing_and_give_less() -> None:
    """The table of the battery-limit page, band by band, and the floor of the cold-capacity page."""
    cells = [273.15 + celsius for celsius in (-1, 0, 4.9, 5, 9.9, 10, 14.9, 15, 44.9, 45, 60)]
    amps = charging_limits("LFP", 100 * u.Ah, 2 * u.one, 50 * u.A, cells)
    assert amps == [0, 10, 10, 20, 20, 40, 40, 100, 100, 0, 0]
    assert floors(15 * u.percent, [273.15 + 25, 273.15 + 12, 273.15 - 5]) == pytest.approx([0.15, 1 - 0.95 * 0.85, 1 - 0.77 * 0.85])


def test_colder_than_anybody_has_measured_is_not_known() -> None:
    frozen = rig({"plan.coldest": u.degC.__rmul__(-45), "plan.warmest": u.degC.__rmul__(-38), "now.cells": u.degC.__rmul__(-19), "bank.heater": 0 * u.W})
    assert day(frozen).answer.verdict == NOT_KNOWN and "colder than" in day(frozen).answer.say


# --- what the plan says ----------------------------------------------------------------------------------------------


def test_a_window_runs_past_midnight_and_covers_parts_of_steps() -> None:
    """From 23:55 to 00:20 two and a half steps a night: half of one, then two; the plan from 06:00 holds three nights."""
    found = course(planned(load("camp lights", "23:55", "00:20", hours=u.h.__rmul__(25 / 60))))
    parts = [on[0][1] for on, _ in found.states if on]
    assert parts == [0.5, 1, 1] * 3
    taken = sum(drawn - 55 for drawn, _ in found.flows) * SECONDS / 3600
    assert taken == pytest.approx(3 * 85 * 1.03 * 25 / 60, rel=0.01)


def test_a_window_that_reaches_in_from_the_evening_before_is_counted() -> None:
    found = course(planned(load("camp lights", "20:30", "08:00"), plan__begins="06:00"))
    assert found.states[0][0] and found.states[11][0] and not found.states[12][0]


def test_a_load_runs_its_own_hours_in_its_windows_and_never_more_than_all_of_them() -> None:
    """1.5 h a day in two windows of 3 h and 1 h: 0.375 of each. Hours of the window itself go first. At most all of it."""
    two = plan_of(Facts(planned(load("chain-saw mill", "08:00", "11:00"), load("chain-saw mill", "13:00", "14:00")), ""))
    assert [window.share.si for window in two.windows if window.share is not None] == pytest.approx([0.375, 0.375])
    own = plan_of(Facts(planned(load("chain-saw mill", "08:00", "11:00", hours=1 * u.h), load("chain-saw mill", "13:00", "13:30")), ""))
    assert [window.share.si for window in own.windows if window.share is not None] == pytest.approx([1 / 3, 1.5 / 3.5])
    short = plan_of(Facts(planned(load("chain-saw mill", "08:00", "09:00")), ""))
    assert short.windows[0].share is not None and short.windows[0].share.si == 1


def test_a_window_of_one_day_does_not_take_hours_from_the_other_days() -> None:
    plan = plan_of(Facts(planned(load("chain-saw mill", "08:00", "11:00"), load("chain-saw mill", "13:00", "14:00", "second day")), ""))
    every, second = (window.share for window in plan.windows)
    assert every is not None and second is not None
    assert every.si == pytest.approx(0.5)
    assert second.si == pytest.approx(1.5 / 4)


def test_a_plan_copied_from_the_loads_is_a_plan() -> None:
    bare = rig(without="windows.")
    copied = bare.changed(copied_from_loads(bare))
    assert missing(copied) == [] and len(plan_of(Facts(copied, "")).windows) == 4
    assert day(copied).answer.verdict in (GO, TIGHT, NO)


def test_the_idle_draw_is_paid_day_and_night() -> None:
    """55 W for three days are 3.96 kWh, though nothing runs."""
    found = foretold("nothing runs")
    assert sum(drawn for drawn, _ in found.course.flows) * SECONDS / 3.6e6 == pytest.approx(3.96, rel=1e-9)


def test_the_wall_gives_what_the_page_on_inlets_says_and_feeds_the_inverter_itself() -> None:
    """12 A at 120 V and 92 %: 1325 W (the inlet's page, its first example, at 52 V); 700 W of tools leave 681 W."""
    alone = course(planned(wall("5-15", "08:00", "10:00")))
    assert alone.flows[12:24] == [(0.0, pytest.approx(1324.8))] * 12 and alone.flows[11][1] == alone.flows[24][1] == 0
    beside = course(planned(wall("5-15", "08:00", "10:00"), load("small compressor", "08:00", "10:00", hours=2 * u.h)))
    assert beside.flows[12][1] == pytest.approx((1440 - 700) * 0.92)


def test_the_charger_and_the_controller_give_no_more_than_their_amps() -> None:
    fast = course(planned(wall("14-50", "08:00", "10:00", 40)))
    assert fast.flows[12][1] == pytest.approx(40 * 51.2)
    weak = course(rig({"panels.controller_amps": 5 * u.A}))
    assert max(weak.sun("good")) == pytest.approx(5 * 51.2)


# --- the verdict -----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("of", "verdict", "words"),
    [
        (planned(NOTHING_RUNS), GO, "carries through"),
        (rig(), TIGHT, "little is left"),
        (rig({"now.charge": 70 * u.percent}), TIGHT, "with poor sun it is empty at"),
        (RIGS["the mill all day"], NO, "With typical sun it is empty at"),
        (rig({"now.charge": 15 * u.percent}), NO, "empty at 06:00 on the first day"),
        (planned(load("stick welder", "10:00", "11:00"), load("chain-saw mill", "10:30", "12:00"), inverter__one_leg="yes"), TIGHT, "together"),
        (planned(load("stick welder", "10:00", "11:00"), load("chain-saw mill", "10:30", "12:00"), inverter__continuous=4500 * u.W, inverter__one_leg="yes"), NO, "take 5000"),
        (planned(load("stick welder", "10:00", "11:00"), load("chain-saw mill", "10:30", "12:00")), NO, "put 3250"),
        (planned(load("chain-saw mill", "10:00", "12:00"), load("small compressor", "10:00", "11:00"), inverter__continuous=2800 * u.W), NO, "on one leg"),
        (planned(wall("5-15", "08:00", "12:00"), load("stick welder", "09:00", "10:00")), NO, "has no 240 V"),
        (planned(wall("5-15", "08:00", "12:00"), load("chain-saw mill", "09:00", "10:00")), NO, "trips"),
        (rig({"bank.chemistry": "NMC"}), NOT_KNOWN, "rule is for LFP"),
        (rig({"plan.coldest": u.degC.__rmul__(25)}), NOT_KNOWN, "above the warmest"),
        (rig({"place.latitude": 21 * u.degree, "place.longitude": -158 * u.degree}), NOT_KNOWN, "no sun data"),
        (Rig("", {}), NOT_KNOWN, "Not answered without"),
    ],
    ids=lambda value: value if isinstance(value, str) else "",
)  # fmt: skip
def test_the_verdict_and_its_reason(of: Rig, verdict: str, words: str) -> None:
    answer = day(of).answer
    assert answer.verdict == verdict and words in answer.say, answer.say


@pytest.mark.parametrize("path", sorted({one.name for one in missing(Rig("", {}))} - {"windows"} | {"panels.watts", "panels.tilt", "panels.facing", "panels.count", "panels.power_slope", "panels.controller_amps", "place.latitude", "place.longitude", "plan.utc_offset", "inverter.one_leg", "windows.0.begins", "windows.0.ends", "windows.0.what", "windows.0.load", "windows.0.days", "windows.4.car", "windows.5.outlet", "loads.0.running_watts", "cars.0.charging_amps", "cars.0.charging_volts", "inverter.charger_set", "inverter.charger_efficiency"}))
def test_what_is_not_known_is_never_guessed(path: str) -> None:
    found = day(Rig("", {where: known for where, known in rig().facts.items() if where != path}))
    assert found.answer.verdict == NOT_KNOWN and path in [one.name for one in found.missing]
    assert not found.is_known and not found.carriers
    SCHEMA.validate(json.loads(json.dumps(as_json.day(found), allow_nan=False)))


def test_without_date_and_month_there_is_no_sun_to_tell_and_with_a_month_there_is() -> None:
    facts = {path: known for path, known in rig().facts.items() if path not in ("plan.date", "now.month")}
    assert [one.name for one in missing(Rig("", facts))] == ["now.month"]
    assert day(Rig("", facts | {"now.month": "June"})).answer.verdict == TIGHT


def test_a_window_that_names_what_the_rig_does_not_have_is_not_known() -> None:
    found = day(planned(load("welder of the neighbour", "10:00", "11:00")))
    assert found.answer.verdict == NOT_KNOWN and "“welder of the neighbour”" in found.missing[0].where


def test_a_plan_without_windows_is_not_known() -> None:
    assert [one.name for one in day(rig(without="windows.")).missing] == ["windows"]


def test_more_is_never_worse() -> None:
    """More charge, a larger bank, more panels, fewer hours: the charge to spare on poor days grows."""

    def spare(**changes: Known) -> float:
        return day(rig({path.replace("__", "."): known for path, known in changes.items()})).runs[POOR].spare

    assert spare(now__charge=60 * u.percent) < spare(now__charge=80 * u.percent) < spare(now__charge=100 * u.percent)
    assert spare(bank__capacity=80 * u.Ah) < spare(bank__capacity=100 * u.Ah) < spare(bank__capacity=130 * u.Ah)
    assert spare(panels__watts=100 * u.W) < spare(panels__watts=300 * u.W) < spare(panels__watts=500 * u.W)
    assert spare(windows__0__hours=3 * u.h) < spare(windows__0__hours=2 * u.h) < spare(windows__0__hours=0 * u.h)
    assert spare(plan__date="2027-12-10") < spare(plan__date="2027-03-10") < spare(plan__date="2027-06-18")


def test_poor_typical_and_good_are_in_that_order() -> None:
    for name in RIGS:
        runs = foretold(name).runs
        assert [sum(run.sun) for run in runs.values()] == sorted(sum(run.sun) for run in runs.values())
        spares = [run.spare for run in runs.values()]
        assert spares == sorted(spares)


# --- what would carry it through -------------------------------------------------------------------------------------


@pytest.mark.parametrize("of", [rig(), rig({"now.charge": 70 * u.percent}), RIGS["the mill all day"], rig({"now.charge": 40 * u.percent})], ids=["tight", "poor sun", "no", "low"])
def test_what_is_offered_carries_it_through_and_less_does_not(of: Rig) -> None:
    found = day(of)
    assert found.carriers
    for one in found.carriers:
        assert day(of.changed(one.facts)).answer.verdict == one.verdict in (GO, TIGHT)
        assert found.answer.verdict == NO or one.verdict == GO
        less = day(of.changed(_one_step_less(of, one.facts))).answer.verdict
        assert less != one.verdict and less in (NO, TIGHT), one.say


def _one_step_less(of: Rig, facts: Mapping[str, Quantity]) -> dict[str, Known]:
    """0.1 kWh, 10 W or a quarter of an hour short of what was offered."""
    if "bank.energy" in facts:
        energy = facts["bank.energy"].number_in(u.kWh)
        return {path: (known.si * (energy - 0.1) / energy / known.unit.factor) * known.unit for path, known in facts.items()}
    if "panels.watts" in facts:
        count = facts["panels.count"].si
        return dict(facts) | {"panels.watts": (facts["panels.watts"].number_in(u.W) - 10 / count) * u.W}
    ((path, hours),) = facts.items()
    return {path: (hours.number_in(u.h) + 0.25) * u.h}


def test_where_nothing_carries_it_nothing_is_offered() -> None:
    """A fault of something else than energy is not cleared by more of it."""
    found = day(planned(wall("5-15", "08:00", "12:00"), load("stick welder", "09:00", "10:00")))
    assert found.answer.verdict == NO and found.carriers == []


# --- as it is told -----------------------------------------------------------------------------------------------------


@every_rig
def test_every_printed_line_can_be_worked_by_hand(name: str) -> None:
    for people in units.PEOPLE:
        with units.shown_to(people):
            for line in day(RIGS[name]).answer.working():
                assert_stands(line)


@every_rig
def test_what_is_told_to_a_machine_is_a_day_by_the_schema(name: str) -> None:
    for people in units.PEOPLE:
        with units.shown_to(people):
            SCHEMA.validate(json.loads(json.dumps(as_json.day(day(RIGS[name])), allow_nan=False)))


@pytest.mark.parametrize(
    "spoil",
    [
        lambda told: told.update(verdict="passes"),
        lambda told: told.update(verdict="go"),
        lambda told: told.update(verdict="not known"),
        lambda told: told.update(results={}),
        lambda told: told["moments"][0].update(sun="mean"),
        lambda told: told["hours"].pop(),
        lambda told: told["hours"][0]["charge"].pop("poor"),
        lambda told: told["fixes"][0].update(set={}),
        lambda told: told["fixes"][0].update(verdict="tight"),
        lambda told: told.update(begins="24:00"),
        lambda told: told["windows"][0].pop("share"),
    ],
)
def test_the_schema_refuses_what_contradicts_itself(spoil: Any) -> None:
    told = json.loads(json.dumps(as_json.day(foretold("the example"))))
    assert SCHEMA.is_valid(told)
    spoil(told)
    assert not SCHEMA.is_valid(told)


def test_the_schema_is_itself_sound() -> None:
    jsonschema.Draft202012Validator.check_schema(SCHEMA.schema)


def test_the_moments_are_told_in_order_on_the_safe_side_and_agree_with_the_table() -> None:
    found = day(rig({"now.charge": 70 * u.percent}))
    told = [moment.minute for moment in found.moments]
    assert told == sorted(told)
    run = found.runs[POOR]
    empty = next(moment for moment in found.moments if moment.what == "empty")
    index = (empty.minute - found.course.plan.begins) // 10
    assert run.bank.short[index] > 1 and max(run.bank.short[:index]) < 1e-6
    assert found.hours[0].charges[POOR] == pytest.approx(0.7) and len(found.hours) == 72
    assert [hour.charges[POOR] for hour in found.hours] == run.bank.charges[:-1:6]


def test_the_door_of_the_day_takes_a_rig_a_date_or_nothing() -> None:
    assert day_of().answer.say == day_of(example_rig()).answer.say
    assert day_of(None, "2027-12-10").month == "December"
    assert day_of(rig(), "2027-12-10").answer.verdict == NO


# --- from a shell --------------------------------------------------------------------------------------------------


def test_the_command_tells_the_day_and_takes_another_date(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    assert main(["day"]) == 0
    assert capsys.readouterr().out.splitlines()[1].startswith(f"{day_of().answer.verdict.upper()}. ")
    own = str(ROOT / "tests/day_rig.json")
    assert main(["day", "--date", "2027-12-10", "--rig", own, "--json", "--units", "metric"]) == 0
    told = json.loads(capsys.readouterr().out)
    SCHEMA.validate(told)
    assert (told["verdict"], told["date"], told["month"]) == ("no", "2027-12-10", "December")
    file = tmp_path / "rig.json"
    file.write_text('{"barrowatt_rig": 1}', encoding="utf-8")
    assert main(["day", "--rig", str(file), "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["verdict"] == "not known"
    assert main(["day", "--rig", str(file)]) == 0
    assert "missing: Charge left now" in capsys.readouterr().out


@pytest.mark.parametrize("words", [["day", "--date", "2027-02-30"], ["day", "--date", "June"], ["day", "load=5"], ["walk-round", "--date", "2027-06-18"], ["day", "--rig", "no-such.json"]], ids=" ".join)
def test_words_that_cannot_be_read_are_refused(words: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    assert main(words) == 2
    told = capsys.readouterr()
    assert not told.out and json.loads(told.err).keys() == {"error", "field"}


def test_the_example_rig_is_read_with_its_plan() -> None:
    assert {path.split(".")[0] for path in read_rig((ROOT / "calc/example_rig.json").read_text(encoding="utf-8")).facts} >= {"plan", "windows"}
    assert all(fact_at(path) for path in copied_from_loads(rig()))


def test_a_compass_heading_and_typed_sun_hours_count_in_the_day_as_on_the_pages_of_the_sun() -> None:
    """A compass's 168.6° there is a map's 180°: the needle stands 11.4° east. On an island the hours are typed in."""
    tilted = {"panels.tilt": 45 * u.degree, "plan.date": "2027-12-10"}
    turned = {"panels.heading_by": "a compass: magnetic north"}
    off = declination_at(44.2 * u.degree, u.degree.__rmul__(-110.6), "2027-12-10").number_in(u.degree)
    by_map, by_compass = (course(rig({**tilted, **more})).sun(TYPICAL) for more in ({}, {**turned, "panels.facing": (180 - off) * u.degree}))
    assert by_compass == pytest.approx(by_map, rel=1e-9) and 9 < off < 13
    beyond = day(rig({**tilted, **turned, "plan.date": "2031-06-18"})).answer
    assert beyond.verdict == "not known" and "holds from 2025 to 2030" in beyond.say
    island = {"place.latitude": 21 * u.degree, "place.longitude": u.degree.__rmul__(-158), "plan.utc_offset": u.h.__rmul__(-10), "place.sun_from": "sun hours typed in"}
    assert [one.name for one in missing(rig(island))] == ["place.poor_sun_hours", "place.sun_hours"]
    hours = {"place.sun_hours": 5 * u.kWh_per_m2, "place.poor_sun_hours": 2 * u.kWh_per_m2}
    found = day(rig({**island, **hours}))
    assert found.answer.verdict in (TIGHT, NO) and str(found.answer.results["sun_data"]) == "sun hours typed in"
    poor, typical = (sum(found.runs[kind].sun) for kind in (POOR, TYPICAL))
    assert poor / typical == pytest.approx(2 / 5, rel=0.05)  # cooler cells on a poor day
