"""The log of what was measured on a rig: which readings make one test, and which facts they stand behind.

A reading says what was read, of which thing, the value, when, and a note. The time is given by whoever notes it; the
readings of one test follow one another within the time that it takes, and none of them is taken twice. A measured value that takes the place of a fact stands in both: in
the fact, where every question finds it, and in the log, which says on what day it was measured.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from calc.clock import minutes_of
from calc.facts import fact_at
from calc.measurable import STANDS_FOR, TEST_MINUTES, USUAL_MINUTES
from calc.printing import number_text
from calc.quantity import Quantity
from calc.rig import Known, Rig

MEASURED = "measured on"
_SAME = 1e-9
# Asked of every fact of every question: most facts are of no kind that is ever measured.
_MEASURABLE = frozenset(STANDS_FOR.values())


@dataclass(frozen=True)
class Reading:
    """One reading. when: a day, or a day and a time, as ISO 8601 writes them; of: a thing's name, or nothing."""

    what: str
    value: Quantity
    when: str
    of: str = ""
    note: str = ""

    @property
    def day(self) -> str:
        return self.when[:10]


def log(rig: Rig) -> list[Reading]:
    """All readings, the oldest first; of one time, in the order in which they were noted."""
    return [reading for _, reading in with_places(rig)]


def with_places(rig: Rig) -> list[tuple[int, Reading]]:
    """All readings as `log` has them, each with its place in the rig's list."""
    if "log" not in rig.worked:
        found = ((place, _reading(rig, place)) for place in range(rig.count("readings")))
        rig.worked["log"] = sorted(((place, one) for place, one in found if one), key=lambda found: found[1].when)
    kept: list[tuple[int, Reading]] = rig.worked["log"]
    return kept


def _reading(rig: Rig, index: int) -> Reading | None:
    what, of, value, when, note = (
        rig.facts.get(f"readings.{index}.{name}", "") for name in ("what", "of", "value", "when", "note")
    )
    known = isinstance(value, Quantity) and all(isinstance(text, str) for text in (what, of, when, note))
    return Reading(str(what), value, str(when), str(of), str(note)) if known and isinstance(value, Quantity) else None


def noted(rig: Rig, reading: Reading) -> Rig:
    """The rig with one more reading in its log."""
    place = f"readings.{rig.count('readings')}"
    facts: dict[str, Known] = {
        f"{place}.what": reading.what,
        f"{place}.value": reading.value,
        f"{place}.when": reading.when,
    }
    facts |= {f"{place}.{name}": text for name, text in (("of", reading.of), ("note", reading.note)) if text}
    return rig.changed(facts)


def latest_test(rig: Rig, whats: Iterable[str], of: str) -> dict[str, Reading]:
    """The readings of the last test that took any of these, of this thing.

    Never of two tests: the volts of spring say nothing about the amps of autumn, and what is read again after the
    mending begins a test of its own.
    """
    asked = set(whats)
    test: dict[str, Reading] = {}
    for reading in log(rig):
        if reading.what in asked and reading.of == of:
            first = next(iter(test.values()), reading)
            test = test if reading.what not in test and of_one_test(first, reading) else {}
            test[reading.what] = reading
    return test


def of_one_test(first: Reading, later: Reading) -> bool:
    """Whether the later follows the first within the time that such a test takes; what has only a day, on one day."""
    began, taken = _minute(first.when), _minute(later.when)
    if began is None or taken is None:
        return first.when == later.when
    return 0 <= taken - began <= TEST_MINUTES.get(first.what, USUAL_MINUTES)


def _minute(when: str) -> int | None:
    """A day with its time as minutes, to be told apart; between two months lies a gap, never an overlap."""
    day, with_time, clock = when.partition("T")
    year, month, number = day.split("-")
    return ((int(year) * 12 + int(month)) * 31 + int(number)) * 24 * 60 + minutes_of(clock[:5]) if with_time else None


# --- facts that were measured --------------------------------------------------------------------------------------


def replacing(rig: Rig, reading: Reading) -> Rig:
    """The rig with a measured value in the place of the fact that it stands for, and its day in the log."""
    return noted(rig, reading).changed({STANDS_FOR[reading.what]: reading.value})


def measured(rig: Rig, path: str) -> Reading | None:
    """The reading that a fact was taken from; None where it was not measured, or has been changed by hand since."""
    value = rig.facts.get(path)
    if path not in _MEASURABLE or not isinstance(value, Quantity):
        return None
    taken = [reading for reading in log(rig) if STANDS_FOR.get(reading.what) == path]
    return taken[-1] if taken and math.isclose(taken[-1].value.si, value.si, rel_tol=_SAME) else None


def origin(reading: Reading) -> str:
    """Where a number comes from, for the page: `measured on 2025-05-17`."""
    return f"{MEASURED} {reading.day}"


def worked_out(measures: Mapping[str, str], results: Mapping[str, object], when: str) -> list[Reading]:
    """What a test has worked out that a fact of the rig could be taken from, to the figures that were printed.

    measures: the result's name, and what it is noted as. What no rig can hold is left out.
    """
    found = ((what, results.get(name)) for name, what in measures.items())
    readings = (Reading(what, _as_printed(value), when) for what, value in found if isinstance(value, Quantity))
    return [reading for reading in readings if _may_stand(reading)]


def _may_stand(reading: Reading) -> bool:
    low, high = fact_at(STANDS_FOR[reading.what]).low, fact_at(STANDS_FOR[reading.what]).high
    assert low is not None and high is not None
    return low.si <= reading.value.si <= high.si


def _as_printed(value: Quantity) -> Quantity:
    return float(number_text(value).replace("−", "-")) * value.unit
