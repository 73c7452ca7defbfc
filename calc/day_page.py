"""The day as its page shows it: everything that the template needs, from one answer."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from markupsafe import Markup

from calc.check import Answer, Caution
from calc.day import CAUTIONS, QUESTION, Day
from calc.drawing.day_curve import curve
from calc.form import EXAMPLE
from calc.planning.moments import Hour, Moment
from calc.planning.plan import Window
from calc.printing import Line, printed
from calc.quantity import Quantity
from calc.rendering import VERDICT_SIGNS, VERDICT_WORDS, result_label, shown_result
from calc.units import W, percent

# Of the hours, those that stand in the page's table.
_EVERY = 2


@dataclass(frozen=True)
class Foretold:
    """A day for the page. Its parts are named as those of a check's answer, where they are the same."""

    day: Day

    @property
    def question(self) -> str:
        return QUESTION

    @property
    def answer(self) -> Answer:
        return self.day.answer

    @property
    def word(self) -> str:
        return VERDICT_WORDS[self.answer.verdict]

    @property
    def sign(self) -> str:
        return VERDICT_SIGNS[self.answer.verdict]

    @property
    def whose(self) -> str:
        return f"the example, {self.day.rig.name}" if self.day.origin == EXAMPLE else self.day.rig.name or "your rig"

    @property
    def begins(self) -> str:
        when = self.day.rig.facts.get("plan.date") or self.day.month
        return f"{when}, {self.day.rig.facts.get('plan.begins')}"

    @property
    def drawing(self) -> Markup:
        """The curve, made of numbers and our own words only."""
        return Markup(curve(self.day)) if self.day.is_known else Markup("")

    @property
    def windows(self) -> tuple[Window, ...]:
        return self.day.course.plan.windows if self.day.is_known else ()

    @property
    def moments(self) -> list[Moment]:
        return self.day.moments if self.day.is_known else []

    @property
    def hours(self) -> list[tuple[str, list[str]]]:
        """Rows of the table behind the curve: the time, the charges, the watts."""
        return [(hour.clock, _cells(hour)) for hour in self.day.hours[::_EVERY]] if self.day.is_known else []

    @property
    def results(self) -> list[tuple[str, str]]:
        return [(result_label(name, value), shown_result(value)) for name, value in self.answer.results.items()]

    @cached_property
    def lines(self) -> list[Line]:
        return self.answer.working() if self.answer.results else []

    @property
    def sources(self) -> list[str]:
        return list(dict.fromkeys(line.source for line in self.lines if line.source))

    @property
    def serious(self) -> list[Caution]:
        return [caution for caution in CAUTIONS if caution.serious]

    @property
    def lesser(self) -> list[Caution]:
        return [caution for caution in CAUTIONS if not caution.serious]


def _cells(hour: Hour) -> list[str]:
    charges = [printed(Quantity(charge, percent), 2) for charge in hour.charges.values()]
    return [*charges, *(printed(Quantity(round(watts), W)) for watts in (hour.sun, hour.taken, hour.wall))]
