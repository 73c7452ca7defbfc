"""The board: every question answered for a rig as it stands, worst first inside each chapter."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from functools import cached_property

from calc import units
from calc.catalogue import all_checks
from calc.check import GO, NEC, NO, NOT_KNOWN, TIGHT, TOLD, Answer, Check
from calc.facts import groups_behind
from calc.form import Asked, fill, lists_asked, subject_name, subjects
from calc.quantity import Quantity
from calc.rig import Known, Rig, example_rig

_WORST_FIRST = (NO, TIGHT, NOT_KNOWN, GO, TOLD)


@dataclass(frozen=True)
class Row:
    """One question about one thing of the rig, answered."""

    asked: Asked
    answer: Answer

    @property
    def check(self) -> type[Check]:
        return self.asked.kind

    @property
    def chapter(self) -> str:
        return self.check.id.split("/")[0]

    @property
    def subject(self) -> str:
        """Which load, car or cable; empty where the question is about the rig as a whole."""
        return self.asked.subject_name

    @property
    def key(self) -> tuple[str, int]:
        return self.check.id, self.asked.subject

    @cached_property
    def facts(self) -> frozenset[str]:
        """The facts that this row rests on: a change of any other leaves it as it is."""
        return frozenset().union(*(groups_behind(spec.fact) for spec in self.check.asks.values() if spec.fact))

    @property
    def needs_attention(self) -> bool:
        return self.answer.verdict in (NO, TIGHT, NOT_KNOWN)


Answering = Callable[[type[Check], Rig | None, str, int], Row]


def board(
    rig: Rig | None, rules: str = NEC, checks: Iterable[type[Check]] | None = None, answering: Answering | None = None
) -> list[Row]:
    """Every check that bears on the rig, once for each thing it is about; in the order of the job, worst first.

    answering: what answers a row, where rows that were answered before may serve again.
    """
    whole = rig or example_rig()
    answer = answering or _row
    rows = [
        answer(kind, rig, rules, subject)
        for kind in (all_checks() if checks is None else checks)
        if bears_on_a_rig(kind)
        for subject in subjects(kind, whole)
    ]
    order = {chapter: place for place, chapter in enumerate(dict.fromkeys(row.chapter for row in rows))}
    return sorted(rows, key=lambda row: (order[row.chapter], _WORST_FIRST.index(row.answer.verdict), len(row.answer.missing)))


def bears_on_a_rig(kind: type[Check]) -> bool:
    """Whether a check asks for any fact at all; one that does not is answered from what is typed alone."""
    return any(spec.fact for spec in kind.asks.values())


def _row(kind: type[Check], rig: Rig | None, rules: str, subject: int) -> Row:
    asked = fill(kind, {}, rig, rules, subject)
    return Row(asked, asked.plain_answer())


class LiveBoard:
    """The rows of a rig that changes under somebody's hands: a row is answered anew where its own facts have changed."""

    def __init__(self) -> None:
        self._rows: dict[tuple[str, int], tuple[tuple[object, ...], Row]] = {}

    def rows(self, rig: Rig | None, rules: str) -> list[Row]:
        return board(rig, rules, answering=self._row)

    def _row(self, kind: type[Check], rig: Rig | None, rules: str, subject: int) -> Row:
        key, rests_on = (kind.id, subject), _rests_on(kind, rig, rules, subject)
        before = self._rows.get(key)
        if before is None or before[0] != rests_on:
            before = self._rows[key] = rests_on, _row(kind, rig, rules, subject)
        return before[1]


def _rests_on(kind: type[Check], rig: Rig | None, rules: str, subject: int) -> tuple[object, ...]:
    """All that a row's answer hangs on: the rules, the units it is printed in, and the facts that its form draws."""
    whole = rig or example_rig()
    things = whole.things(lists_asked(kind), subject)
    known = (_alike(whole.value(spec.fact, things)) for spec in kind.asks.values() if spec.fact)
    about = subject_name(kind, whole, subject), *subjects(kind, whole)
    return rig is None, rules, units.people(), about, *known


def _alike(known: Known | None) -> object:
    """Two quantities are the same fact where they print alike."""
    return (known.si, known.unit.sign) if isinstance(known, Quantity) else known
