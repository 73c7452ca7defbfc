"""What a check answers: what must hold, the results by name, the sentence, and the working on which they rest."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from calc.printing import Line, working
from calc.quantity import Quantity, ancestry
from calc.requirement import GO, NO, NOT_KNOWN, TIGHT, TOLD, Requirement
from calc.sources import Source

_WORST_FIRST = (NOT_KNOWN, NO, TIGHT, GO, TOLD)


@dataclass(frozen=True)
class Missing:
    """A fact without which the question has no answer, and where to find it."""

    name: str
    label: str
    where: str


@dataclass(frozen=True)
class Named:
    """A result in words (a wire size), with what it is called, why it is this one, and the source."""

    text: str
    label: str
    note: str = ""
    source: Source | None = None

    def __str__(self) -> str:
        return self.text


Result = Quantity | Named


@dataclass(frozen=True)
class Answer:
    """Verdict, results, what it rests on. `say` is the sentence for a go or a told; otherwise what rules speaks.

    trials: the names of the results that were found by asking again with other values.
    wishes: what nobody has said that they want. What rests on it is left out, and a go without it is a mere number.
    """

    requirements: tuple[Requirement, ...]
    results: Mapping[str, Result]
    go_sentence: str
    notes: tuple[str, ...] = ()
    missing: tuple[Missing, ...] = ()
    trials: tuple[str, ...] = ()
    wishes: tuple[Missing, ...] = ()

    @property
    def verdict(self) -> str:
        if self.missing or not self.results:
            return NOT_KNOWN
        verdicts = {requirement.verdict for requirement in self.requirements}
        worst = next((verdict for verdict in _WORST_FIRST if verdict in verdicts), TOLD)
        return TOLD if worst == GO and self.wishes else worst

    @property
    def ruling(self) -> Requirement | None:
        """The requirement that decides: of the worst verdict, the one with least room."""
        worst = [requirement for requirement in self.requirements if requirement.verdict == self.verdict]
        return max(worst, key=lambda requirement: requirement.use if requirement.use is not None else 2.0, default=None)

    @property
    def say(self) -> str:
        ruling = self.ruling
        return ruling.sentence if ruling and self.verdict in (NO, TIGHT) else self.go_sentence

    def without(self, wishes: tuple[Missing, ...], wanted: Iterable[Quantity]) -> Answer:
        """The answer where nobody has said what is wanted: nothing is held to it, and nothing that rests on it told."""
        steps = [quantity.step for quantity in wanted]

        def rests_on_it(*roots: Quantity) -> bool:
            return any(quantity.step is step for quantity in ancestry(roots) for step in steps)

        held = (one for one in self.requirements if not rests_on_it(*one.condition.quantities))
        told = {name: one for name, one in self.results.items() if isinstance(one, Named) or not rests_on_it(one)}
        return replace(self, requirements=tuple(held), results=told, wishes=wishes)

    def working(self) -> list[Line]:
        """The working: the ancestry of what was compared and told, then what was told in words."""
        in_words = [
            Line(
                "read" if said.source else "worked",
                "",
                said.label,
                "",
                "",
                said.text,
                None,
                str(said.source or ""),
                said.note,
            )
            for said in self.results.values()
            if isinstance(said, Named)
        ]
        return working(self.roots) + in_words

    @property
    def roots(self) -> tuple[Quantity, ...]:
        """What was compared and what is told: the working is their ancestry."""
        compared = [quantity for requirement in self.requirements for quantity in requirement.condition.quantities]
        told = [result for result in self.results.values() if isinstance(result, Quantity)]
        return (*compared, *told)


def answer(*requirements: Requirement, say: str, notes: Iterable[str] = (), **results: Result) -> Answer:
    """What `solve` returns: what must hold, the sentence, and the results by name."""
    return Answer(requirements, results, say, tuple(notes))


def not_known(say: str, missing: Iterable[Missing] = ()) -> Answer:
    return Answer((), {}, say, (), tuple(missing))
