"""What a day tells besides its verdict: numbers to take along, and what to mind."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from calc.check import Named, Result
from calc.facts.job import EVERY_DAY, THE_WALL
from calc.planning.course import SECONDS, Course, Run
from calc.planning.sun_by_clock import GOOD, TYPICAL
from calc.quantity import Quantity, stepped
from calc.sources import MERRA_2
from calc.units import kWh, percent

_HARDLY_CHARGE = 0.01


def results(course: Course, runs: Mapping[str, Run], rests_on: tuple[Quantity, ...]) -> dict[str, Result]:
    """The numbers of the plan, read off its steps."""
    found: dict[str, Result] = {}
    for run in runs.values():
        found[f"lowest_{run.kind}"] = _charge(f"q_l{run.kind[0]}", "Lowest charge", run, run.lowest + 1, rests_on)
        found[f"charge_at_end_{run.kind}"] = _charge(f"q_e{run.kind[0]}", "Charge at the end", run, -1, rests_on)
        found[f"missing_{run.kind}"] = stepped(
            f"E_m{run.kind[0]}", f"Energy that is missing, {run.kind} sun", run.unserved, kWh, rests_on, rounds=1
        )
    typical = runs[TYPICAL]
    found |= _energies(course, typical, rests_on)
    if course.site is not None:
        found["sun_data"] = _data(course)
    return found


def _charge(symbol: str, label: str, run: Run, index: int, rests_on: tuple[Quantity, ...]) -> Quantity:
    return stepped(symbol, f"{label}, {run.kind} sun", run.bank.charges[index], percent, rests_on, rounds=-1)


def _energies(course: Course, typical: Run, rests_on: tuple[Quantity, ...]) -> dict[str, Result]:
    drawn = sum(drawn for drawn, _ in course.flows) * SECONDS
    heat = sum(course.cells[1]) * SECONDS
    return {
        "sun_taken": stepped("E_sun", "Sun that is taken, typical sun", typical.sun_taken, kWh, rests_on, rounds=-1),
        "sun_not_taken": stepped("E_not", "Sun not taken, typical sun", typical.sun_not_taken, kWh, rests_on),
        "from_outlet": stepped("E_out", "Into the bank from outlets, typical sun", typical.wall_taken, kWh, rests_on, rounds=-1),
        "taken_by_loads": stepped("E_dc", "Taken by loads and inverter, at the bank", drawn, kWh, rests_on, rounds=1),
        "taken_by_heater": stepped("E_h", "Taken by the bank's heater", heat, kWh, rests_on, rounds=1),
    }


def _data(course: Course) -> Named:
    site = course.site
    assert site is not None
    label, grid = "Where the sun's data is from", site.on_map(course.first_day[0])
    if site.hours is not None or grid is None:
        return Named("sun hours typed in", label)
    return Named(grid.mark, label, "cells of 3 by 3 degrees", MERRA_2)


def notes(course: Course, runs: Mapping[str, Run]) -> tuple[str, ...]:
    """What to mind."""
    return tuple(_notes(course, runs))


def _notes(course: Course, runs: Mapping[str, Run]) -> Iterator[str]:
    if course.site is not None:
        yield (
            "Of ten days like these one has less sun than poor, five less than typical, nine less than good. "
            "Three poor days in a row are rarer than one."
        )
    typical = runs[TYPICAL]
    yield _trend(typical)
    if typical.sun_not_taken > 0.1 * kWh.factor:
        lost = Quantity(typical.sun_not_taken, kWh)
        yield f"{lost} of sun finds no room on typical days: a load that can wait is best run then."
    if runs[GOOD].cells_refuse:
        yield "For a while the cells are too cold or too hot to be charged, whatever is offered."
    if any(window.what == THE_WALL for window in course.plan.windows):
        yield "While it is plugged in, the outlet feeds the tools and the inverter's own draw; what it may draw for hours is another page's question."
    left_out = _left_out(course)
    if left_out:
        yield f"Not in the plan, so not counted: {', '.join(left_out)}."


def _trend(run: Run) -> str:
    """And after these days? Foretold only where each day is like the other."""
    course = run.course
    change = run.bank.charges[-1] - run.bank.charges[0]
    if any(window.days != EVERY_DAY for window in course.plan.windows):
        ends = Quantity(run.bank.charges[-1], percent)
        return f"With typical sun it ends at {ends}; it began at {course.facts.number('q', 'now.charge')}."
    if abs(change) < _HARDLY_CHARGE:
        return "With typical sun it ends as full as it began: it could go on like this."
    share = Quantity(abs(change) / course.days, percent)
    if change > 0:
        return f"With typical sun it gains {share} a day: it could go on like this."
    more = int(max(0.0, run.bank.charges[-1] - max(course.floors)) * course.days / -change)
    lasts = f"lasts {more} more of them" if more else "does not last another one"
    return f"With typical sun it loses {share} a day: after these {course.days} days it {lasts}."


def _left_out(course: Course) -> list[str]:
    rig, planned = course.facts.rig, {window.thing for window in course.plan.windows}
    names = [rig.facts.get(f"loads.{place}.name") for place in range(rig.count("loads"))]
    return [name for name in names if isinstance(name, str) and name not in planned]
