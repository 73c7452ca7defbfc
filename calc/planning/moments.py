"""The moments of a plan that matter, in words, and the hours between them as rows of a table."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby

from calc.clock import DAY, clock_at
from calc.planning.course import Course, Run
from calc.planning.sun_by_clock import STEP, TYPICAL

EMPTY, FULL, LOWEST, COLD = "empty", "full", "lowest", "takes no charge"
_ORDINALS = ("first", "second", "third", "fourth")
_HAIR = 1e-6
# What a charger leaves undone and still calls full.
_NEARLY = 0.95
_HOUR = 60


@dataclass(frozen=True)
class Moment:
    """Something that happens: in minutes after the first midnight, on which kind of day, and how long it lasts."""

    minute: int
    kind: str
    what: str
    until: int | None = None

    @property
    def say(self) -> str:
        lasts = f", until {at_clock(self.until)}" if self.until is not None else ""
        return f"{self.what} at {at_clock(self.minute)}{lasts}"


def at_clock(minute: int) -> str:
    """A time of the plan in words: `03:40 on the second day`."""
    return f"{clock_at(minute)} on the {_ORDINALS[minute // DAY]} day"


def moments(run: Run) -> list[Moment]:
    """What happens on one kind of day, in order: when it is empty, when it is full, when it is lowest.

    Empty is told at the start of the step in which it happens, full at the end: each on the safe side.
    """
    at = run.course.minute
    empty = [Moment(at(first), run.kind, EMPTY, at(last + 1)) for first, last in _stretches(run.bank.short)]
    full = [Moment(at(first + 1), run.kind, FULL) for first, _ in _stretches(_at_the_top(run))]
    first_of_day = {moment.minute // DAY: moment for moment in reversed(full)}
    found = [*empty, *first_of_day.values(), Moment(at(run.lowest + 1), run.kind, LOWEST)]
    if run.kind == TYPICAL:
        found += [Moment(at(first), run.kind, COLD, at(last + 1)) for first, last in _stretches(_refused(run))]
    return sorted(found, key=lambda moment: moment.minute)


def _stretches(values: list[float]) -> Iterator[tuple[int, int]]:
    """The first and last index of each stretch of values above nothing."""
    for above, run in groupby(enumerate(values), key=lambda pair: pair[1] > _HAIR):
        indices = [index for index, _ in run]
        if above:
            yield indices[0], indices[-1]


def _at_the_top(run: Run) -> list[float]:
    """1 for each step at whose end the charge is the highest that the volts allow, where that passes for full."""
    top = run.course.bank.charge_at(run.course.most_volts)
    full = top >= _NEARLY
    return [float(full and charge >= top - _HAIR) for charge in run.bank.charges[1:]]


def _refused(run: Run) -> list[float]:
    """Watts on offer in each step in which the cells take no charge at all: too cold, or too hot."""
    return [max(0.0, net) if most == 0 else 0.0 for net, most in zip(run.net, run.course.most_amps, strict=True)]


@dataclass(frozen=True)
class Hour:
    """One row of the table: the charge at its start on each kind of day, and mean watts in it, typical sun."""

    minute: int
    charges: dict[str, float]
    sun: float
    taken: float
    wall: float
    cells: float

    @property
    def clock(self) -> str:
        return at_clock(self.minute)


def hours(course: Course, runs: dict[str, Run]) -> list[Hour]:
    """The plan by the hour. taken: by loads, inverter and heater; cells: their temperature [K]."""
    steps = _HOUR // STEP
    rows = []
    for index in range(0, course.count, steps):
        span = slice(index, index + steps)
        flows = course.flows[span]
        drawn = sum(drawn for drawn, _ in flows) + sum(course.cells[1][span])
        rows.append(
            Hour(
                course.minute(index),
                {kind: run.bank.charges[index] for kind, run in runs.items()},
                sum(runs[TYPICAL].sun[span]) / steps,
                drawn / steps,
                sum(wall for _, wall in flows) / steps,
                course.cells[0][index],
            )
        )
    return rows
