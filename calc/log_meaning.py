"""What the readings of a test mean for the rig in use, next to what its facts foretell, and the fact they could stand for.

A reading is turned into what it means by the question that asks for it, which draws on the log: nothing is worked here.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property

from calc.asks import Ask
from calc.check import NEC, NO, Check
from calc.facts import TITLES, fact_at
from calc.form import Asked, fill, subject_name, subjects
from calc.logbook import Noted, Texts, question_of, spec_of, whats_of
from calc.measurable import STANDS_FOR
from calc.printing import printed
from calc.quantity import Quantity
from calc.readings import Reading, latest_test, replacing, worked_out
from calc.readings import measured as measured_fact
from calc.rendering import Answered
from calc.rig import Rig


@dataclass(frozen=True)
class Taken:
    """A value that a test has worked out, and the fact whose place it could take. stands: what is there now, in words."""

    reading: Reading
    stands: str

    @property
    def label(self) -> str:
        return fact_at(STANDS_FOR[self.reading.what]).label

    @property
    def value(self) -> str:
        return printed(self.reading.value)


@dataclass(frozen=True)
class Meaning:
    """The last test's readings, held against what the rig's facts foretell."""

    rig: Rig
    asked: Asked
    of: str
    test: Mapping[str, Reading]

    @cached_property
    def answered(self) -> Answered:
        return Answered(self.asked, self.asked.plain_answer(), [])

    @property
    def question(self) -> type[Check]:
        return self.asked.kind

    @property
    def address(self) -> str:
        which = f"?subject={self.asked.subject}" if self.of else ""
        return f"{self.question.id}/{which}"

    @property
    def read(self) -> list[Noted]:
        return [Noted(reading, 0) for reading in self.test.values()]

    @property
    def wanted(self) -> list[tuple[str, str]]:
        """What this test still wants: (what, its label)."""
        specs = (self.question.asks[missing.name] for missing in self.answered.answer.missing)
        return [(spec.reading, spec.label) for spec in specs if isinstance(spec, Ask) and spec.reading]

    @property
    def unknown(self) -> list[tuple[str, str, str]]:
        """The facts of the rig without which it says nothing: (label, the part's key, the part's title)."""
        specs = (self.question.asks[missing.name] for missing in self.answered.answer.missing)
        groups = ((spec.label, spec.fact.split(".")[0]) for spec in specs if spec.fact)
        return [(label, group, TITLES[group]) for label, group in groups if group in TITLES]

    @property
    def missed(self) -> bool:
        return self.answered.answer.verdict == NO

    @cached_property
    def taken(self) -> list[Taken]:
        """What may take the place of a fact, unless it does already."""
        if not self.test:
            return []
        when = max(reading.when for reading in self.test.values())
        found = worked_out(self.question.measures, self.answered.answer.results, when)
        return [Taken(reading, self._stands(reading)) for reading in found if not self._stands_already(reading)]

    def _stands(self, reading: Reading) -> str:
        known = self.rig.facts.get(STANDS_FOR[reading.what])
        return printed(known) if isinstance(known, Quantity) else ""

    def _stands_already(self, reading: Reading) -> bool:
        before = measured_fact(self.rig, STANDS_FOR[reading.what])
        return before is not None and before.value.si == reading.value.si and before.day == reading.day


def meaning(rig: Rig, what: str, of: str, rules: str = NEC) -> Meaning | None:
    """What the last test that took this reading, of this thing, says; None where there was none."""
    check = question_of(what)
    test = latest_test(rig, whats_of(check), of)
    if not test:
        return None
    places = [place for place in subjects(check, rig) if subject_name(check, rig, place) == of]
    picks = _picks_that_ask([*test, *({what} & test.keys())])
    return Meaning(rig, fill(check, picks, rig, rules, next(iter(places), None)), of, test)


def _picks_that_ask(whats: Iterable[str]) -> dict[str, str]:
    """The choices under which a question draws on these readings: what was measured says how. The last of them wins."""
    picks: dict[str, str] = {}
    for what in whats:
        for case in spec_of(what).cases[:1]:
            picks |= {name: options[0] for name, options in case.items()}
    return picks


def with_taken(rig: Rig, form: Texts, rules: str = NEC) -> tuple[Rig, Taken]:
    """The rig with a measured value in the place of its fact."""
    found = meaning(rig, form["what"], form.get("of", ""), rules)
    taken = next((one for one in found.taken if one.reading.what == form["stands"]), None) if found else None
    if taken is None:
        raise LookupError("The readings that this was worked out of are not in the log any more.")
    return replacing(rig, taken.reading), taken
