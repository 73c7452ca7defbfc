"""What would carry a plan through: the least more of the bank, of panels, or the fewest hours less of one load.

Each is found by asking the whole day again with that one thing changed, so that what is offered cannot disagree.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from functools import cache

from calc.check import GO, TIGHT
from calc.facts import fact_at
from calc.planning.plan import Facts, has_panels, plan_of
from calc.printing import printed
from calc.quantity import Quantity
from calc.rig import Rig
from calc.units import Ah, W, h, kWh, one

Change = Mapping[str, Quantity]
# Steps that a person can act on, and how far it is worth looking.
_KWH, _MOST_KWH = 0.1, 20.0
_WATTS, _MOST_WATTS = 10.0, 4000.0
_HOURS = 0.25
# A panel of more watts than this is no one panel.
_LARGEST = 800.0


@dataclass(frozen=True)
class Way:
    """One kind of change in steps, from the least on; words for a step, and the facts that it changes."""

    count: int
    say: Callable[[int], str]
    facts: Callable[[int], Change]


@dataclass(frozen=True)
class Carrier:
    """What would carry it through: in words, as facts, and the verdict that it leads to."""

    say: str
    facts: Change
    verdict: str


def carriers(rig: Rig, verdict_of: Callable[[Rig], str], verdict: str) -> list[Carrier]:
    """For a no: the least of each kind that clears it, and the least that makes it a go; for a tight the latter."""
    wanted = ((GO,),) if verdict == TIGHT else ((GO, TIGHT), (GO,))
    return [carrier for way in _ways(rig) for carrier in _tried(rig, way, verdict_of, wanted)]


def _tried(
    rig: Rig, way: Way, verdict_of: Callable[[Rig], str], wanted: tuple[tuple[str, ...], ...]
) -> Iterator[Carrier]:
    @cache
    def at(index: int) -> str:
        return verdict_of(rig.changed(way.facts(index)))

    def first(verdicts: tuple[str, ...]) -> int | None:
        return _least(way.count, lambda index: at(index) in verdicts)

    for index in dict.fromkeys(map(first, wanted)):
        if index is not None:
            yield Carrier(way.say(index), way.facts(index), at(index))


def _least(count: int, serves: Callable[[int], bool]) -> int | None:
    """The first of `count` steps that serves, by halving: a larger one is never worse."""
    low, high = 0, count - 1
    if count <= 0 or not serves(high):
        return None
    while low < high:
        middle = (low + high) // 2
        low, high = (low, middle) if serves(middle) else (middle + 1, high)
    return low


# --- the kinds of change -----------------------------------------------------------------------------------------


def _ways(rig: Rig) -> Iterator[Way]:
    yield _more_bank(rig)
    if has_panels(rig):
        yield _more_panels(rig)
    yield from _fewer_hours(rig)


def _number(rig: Rig, path: str) -> Quantity:
    known = rig.facts[path]
    assert isinstance(known, Quantity)
    return known


def _more_bank(rig: Rig) -> Way:
    """More of the same cells. That the larger bank has less resistance is not counted."""
    energy, capacity = _number(rig, "bank.energy").number_in(kWh), _number(rig, "bank.capacity").number_in(Ah)
    high = fact_at("bank.energy").high
    assert high is not None
    room = min(_MOST_KWH, high.number_in(kWh) - energy)

    def facts(index: int) -> Change:
        more = round(energy + (index + 1) * _KWH, 6)
        return {"bank.energy": more * kWh, "bank.capacity": round(capacity * more / energy, 6) * Ah}

    return Way(
        int(room / _KWH), lambda index: f"Carry {printed(round((index + 1) * _KWH, 6) * kWh)} more in the bank", facts
    )


def _more_panels(rig: Rig) -> Way:
    """Stronger panels, or more of the same, lying the same way."""
    count, each = _number(rig, "panels.count").si, _number(rig, "panels.watts").number_in(W)

    def facts(index: int) -> Change:
        watts = count * each + (index + 1) * _WATTS
        panels = count if watts / count <= _LARGEST else math.ceil(watts / each - 1e-9)
        return {"panels.count": panels * one, "panels.watts": round(watts / panels, 6) * W}

    return Way(int(_MOST_WATTS / _WATTS), lambda index: f"Fit {printed((index + 1) * _WATTS * W)} more of panels", facts)


def _fewer_hours(rig: Rig) -> Iterator[Way]:
    """Each window in which a load or a car takes power, run for a quarter of an hour less, and less again."""
    for window in plan_of(Facts(rig, "")).windows:
        if window.share is None:
            continue
        hours = window.share.si * (window.ends - window.begins) / 60
        count = math.ceil(hours / _HOURS - 1e-9)

        def left(index: int, hours: float = hours) -> float:
            return round(max(0.0, hours - (index + 1) * _HOURS), 6)

        def say(index: int, thing: str = window.thing, name: str = window.name, left: Callable[[int], float] = left) -> str:
            if not left(index):
                return f"Leave out {name}"
            hours, minutes = divmod(round(left(index) * 60), 60)
            return f"Run {thing} for {hours} h {minutes:02} min at most in {name}"

        def facts(index: int, place: int = window.place, left: Callable[[int], float] = left) -> Change:
            return {f"windows.{place}.hours": left(index) * h}

        yield Way(count, say, facts)
