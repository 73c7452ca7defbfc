"""The day: a rig's plan foretold for three days with poor, typical and good sun. Does the charge carry it through?

`day_of(rig)` is the door: an answer like that of a check, the moments that matter, the hours as a table, and what would
carry it through. It knows no clock: the plan says when it begins. Asked of a rig with a fact changed, it answers anew.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from calc.check import NO, TIGHT, Answer, Caution, Missing, answer, not_known
from calc.clock import month_of
from calc.form import EXAMPLE, FROM_RIG
from calc.planning.carry import Carrier, carriers
from calc.planning.course import Course, Run
from calc.planning.holds import all_that_must_hold
from calc.planning.moments import LOWEST, Hour, Moment, at_clock, hours, moments
from calc.planning.outlook import notes, results
from calc.planning.plan import Facts, missing
from calc.planning.sun_by_clock import KINDS, POOR, TYPICAL
from calc.planning.worked_step import worked_step
from calc.quantity import OutsideValidity
from calc.rig import Rig, example_rig

QUESTION = "Does the charge carry the plan through?"
CAUTIONS = (
    Caution(
        "WARNING",
        "Charging frozen cells plates metal lithium inside them",
        "The cell can short and burn days later",
        "Go by the coldest cell on the monitor, not by this forecast; below 0 °C nothing may charge, panels included",
    ),
    Caution(
        "CAUTION",
        "When the bank is empty everything stops at once",
        "Lights, pumps and tools stop in the middle of the work",
        "Keep a light of its own; never hang a medical device or a sump pump on a forecast",
    ),
    Caution(
        "NOTICE",
        "This is weather of five past years, not of this week",
        "Snow on the panels, shade, a colder night or a longer job end it sooner",
        "Look at the monitor at noon and in the evening, and ask again from what it says",
    ),
)


@dataclass
class Day:
    """A plan foretold. Nothing is worked before it is asked for."""

    rig: Rig
    origin: str

    @cached_property
    def missing(self) -> list[Missing]:
        return missing(self.rig)

    @cached_property
    def course(self) -> Course:
        return Course(Facts(self.rig, self.origin))

    @cached_property
    def runs(self) -> dict[str, Run]:
        """The plan on each kind of day, poor sun first."""
        return {kind: self.course.run(kind) for kind in KINDS}

    @cached_property
    def answer(self) -> Answer:
        """Verdict, results, what it rests on. Outside the range of a law or a table it is not known, and says why."""
        if self.missing:
            names = "; ".join(one.label[0].lower() + one.label[1:] for one in self.missing[:_NAMED])
            more = f"; and {len(self.missing) - _NAMED} more" if len(self.missing) > _NAMED else ""
            return not_known(f"Not answered without: {names}{more}.", self.missing)
        try:
            return self._answer()
        except OutsideValidity as outside:
            return not_known(str(outside))

    def _answer(self) -> Answer:
        held = all_that_must_hold(self.course, self.runs)
        rests_on = (worked_step(self.runs[TYPICAL]),)
        told = results(self.course, self.runs, rests_on)
        return answer(*held, say=self._say(), notes=notes(self.course, self.runs), **told)

    def _say(self) -> str:
        lowest = {moment.kind: moment for moment in self.moments if moment.what == LOWEST}
        charge = {kind: self.runs[kind].charge_shown(self.runs[kind].lowest + 1) for kind in (POOR, TYPICAL)}
        return (
            f"It carries through: with typical sun {charge[TYPICAL]} at the lowest, at {at_clock(lowest[TYPICAL].minute)}; "
            f"with poor sun {charge[POOR]}."
        )

    @property
    def month(self) -> str | None:
        """The month whose sun counts: that of the date, where the plan has one."""
        date, month = (self.rig.facts.get(path) for path in ("plan.date", "now.month"))
        return month_of(date) if isinstance(date, str) else month if isinstance(month, str) else None

    @property
    def is_known(self) -> bool:
        return bool(self.answer.results)

    @cached_property
    def moments(self) -> list[Moment]:
        """What happens, in order: on poor, typical and good days."""
        found = [moment for run in self.runs.values() for moment in moments(run)]
        return sorted(found, key=lambda moment: (moment.minute, list(KINDS).index(moment.kind)))

    @cached_property
    def hours(self) -> list[Hour]:
        return hours(self.course, self.runs)

    @cached_property
    def carriers(self) -> list[Carrier]:
        """What would carry it through, or with more to spare: each found by asking again."""
        if self.answer.verdict not in (NO, TIGHT):
            return []
        return carriers(self.rig, lambda changed: Day(changed, self.origin).answer.verdict, self.answer.verdict)


_NAMED = 4


def day_of(rig: Rig | None = None, date: str | None = None) -> Day:
    """The day of a rig; without one, of the example. date: of the first day, where it is another than the plan's."""
    whole = rig or example_rig()
    return Day(whole.changed({"plan.date": date}) if date else whole, FROM_RIG if rig else EXAMPLE)
