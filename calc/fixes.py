"""What would fix a no: the same question asked again with one thing changed, the smallest change first."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from calc.quantity import Quantity

if TYPE_CHECKING:
    from calc.check import Check

Change = dict[str, "Quantity | str"]


@dataclass(frozen=True)
class Fix:
    """A kind of change. `changes` lists them, smallest first; `say` holds `{field}` for what is set.

    in_order: a larger change is never worse, so the smallest that serves may be found by halving.
    """

    say: str
    changes: Callable[[Any], Iterable[Change]]  # of the filled form, a check of any kind
    costs: str = ""
    in_order: bool = False


@dataclass(frozen=True)
class Offer:
    """A change that was tried and found to serve."""

    say: str
    change: Change
    verdict: str


def next_option(name: str, say: str, costs: str = "") -> Fix:
    """Try the options that come after the present one in their order (the next thicker wire)."""

    def changes(check: Check) -> Iterator[Change]:
        options = check.asks[name].options(check.rules)  # type: ignore[union-attr]
        for option in options[options.index(getattr(check, name)) + 1 :]:
            yield {name: option}

    return Fix(say, changes, costs)


def option(name: str, value: str, say: str, costs: str = "") -> Fix:
    """Try one other option, where the rules that answer have it."""

    def changes(check: Check) -> Iterator[Change]:
        if check.asked(name) and getattr(check, name) != value and value in check.asks[name].options(check.rules):  # type: ignore[union-attr]
            yield {name: value}

    return Fix(say, changes, costs)


def less(name: str, step: Quantity, say: str, costs: str = "") -> Fix:
    """Try smaller values, by steps of a round figure, down to the least the form takes."""

    def changes(check: Check) -> Iterator[Change]:
        unit, low = step.unit, check.asks[name].low.number_in(step.unit)  # type: ignore[union-attr]
        size, start = step.shown, getattr(check, name).number_in(unit)
        count = int((start - 1e-9) // size)
        while count * size >= low and count > 0:
            yield {name: round(count * size, 9) * unit}
            count -= 1

    return Fix(say, changes, costs, in_order=True)


def more(name: str, step: Quantity, say: str, costs: str = "") -> Fix:
    """Try larger values, by steps of a round figure, up to the most the form takes."""

    def changes(check: Check) -> Iterator[Change]:
        unit, high = step.unit, check.asks[name].high.number_in(step.unit)  # type: ignore[union-attr]
        size, start = step.shown, getattr(check, name).number_in(unit)
        count = int((start + 1e-9) // size) + 1
        while count * size <= high + 1e-9:
            yield {name: round(count * size, 9) * unit}
            count += 1

    return Fix(say, changes, costs, in_order=True)


def first_that(count: int, serves: Callable[[int], bool], in_order: bool) -> int | None:
    """The first of `count` trials that serves: each in turn, or by halving where a larger one is never worse."""
    if not in_order:
        return next((index for index in range(count) if serves(index)), None)
    low, high = 0, count
    while low < high:
        middle = (low + high) // 2
        low, high = (low, middle) if serves(middle) else (middle + 1, high)
    return low if low < count and serves(low) else None
