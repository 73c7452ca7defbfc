"""The board: every question answered for a rig as it stands, worst first inside each chapter."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property

from calc import units
from calc.catalogue import all_checks
from calc.check import GO, NEC, NO, NOT_KNOWN, TIGHT, TOLD, Answer, Check
from calc.facts import paths_behind
from calc.form import Asked, fill, subjects
from calc.quantity import Quantity
from calc.readings import MEASURED
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

    @cached_property
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
    def rests_on(self) -> frozenset[str]:
        """The facts that this row draws on, as rigs hold them: a change of any other leaves it as it is."""
        return frozenset(path for spec in self.check.asks.values() if spec.fact for path in paths_behind(spec.fact))

    @cached_property
    def parts(self) -> frozenset[str]:
        """The parts of the rig in which they are."""
        return frozenset(path.split(".")[0] for path in self.rests_on)

    @cached_property
    def urgency(self) -> tuple[int, int]:
        return _WORST_FIRST.index(self.answer.verdict), len(self.answer.missing)

    @property
    def measured(self) -> list[str]:
        """The days on which numbers behind this row were measured, each as `measured on 2025-05-17`."""
        return sorted({origin for origin in self.asked.origins.values() if origin.startswith(MEASURED)})

    @property
    def needs_attention(self) -> bool:
        return self.answer.verdict in (NO, TIGHT, NOT_KNOWN)


def board(rig: Rig | None, rules: str = NEC, checks: Iterable[type[Check]] | None = None) -> list[Row]:
    """Every check that bears on the rig, once for each thing it is about; in the order of the job, worst first."""
    return _in_order(_answered(rig, rules, all_checks() if checks is None else checks))


def _answered(rig: Rig | None, rules: str, checks: Iterable[type[Check]]) -> list[Row]:
    """The rows as they come: by check, and by the thing that each is about."""
    whole = rig or example_rig()
    return [_row(kind, rig, rules, subject) for kind in checks if bears_on_a_rig(kind) for subject in subjects(kind, whole)]


def _in_order(rows: list[Row]) -> list[Row]:
    """The order of the job; inside a chapter the worst first, and of what is not known, what lacks least."""
    chapters = {chapter: place for place, chapter in enumerate(dict.fromkeys(row.chapter for row in rows))}
    return sorted(rows, key=lambda row: (chapters[row.chapter], *row.urgency))


def bears_on_a_rig(kind: type[Check]) -> bool:
    """Whether a check asks for any fact at all; one that does not is answered from what is typed alone."""
    return any(spec.fact for spec in kind.asks.values())


def _row(kind: type[Check], rig: Rig | None, rules: str, subject: int) -> Row:
    asked = fill(kind, {}, rig, rules, subject)
    return Row(asked, asked.plain_answer())


class LiveBoard:
    """The rows of a rig that changes under somebody's hands: a row is answered anew where its own facts have changed."""

    def __init__(self) -> None:
        self._rows: list[Row] = []  # as they come, not in order
        self._terms: tuple[object, ...] = ()
        self._facts: Mapping[str, Known] = {}
        self._told: tuple[str, list[Row]] = "", []

    def told(self, number: str) -> list[Row] | None:
        """The rows that were told under this number, if they were the last."""
        return self._told[1] if number and number == self._told[0] else None

    def tell(self, rig: Rig | None, rules: str, number: str) -> list[Row]:
        """The rows, in order, under the number by which whoever asks will call them."""
        rows = self.rows(rig, rules)
        self._told = number, rows
        return rows

    def rows(self, rig: Rig | None, rules: str) -> list[Row]:
        facts, terms = (rig or example_rig()).facts, (rig is None, rules, units.people())
        changed = _differing(self._facts, facts)
        if terms != self._terms or any(path.count(".") > 1 for path in changed):
            self._rows = _answered(rig, rules, all_checks())
        elif changed:
            # No list has changed: the same questions stand, about the same things.
            self._rows = [
                row if row.rests_on.isdisjoint(changed) else _row(row.check, rig, rules, row.asked.subject)
                for row in self._rows
            ]
        self._terms, self._facts = terms, facts
        return _in_order(self._rows)


def _differing(one: Mapping[str, Known], other: Mapping[str, Known]) -> set[str]:
    """The paths at which two rigs do not know the same."""
    return {path for path in one.keys() | other.keys() if not _alike(one.get(path), other.get(path))}


def _alike(one: Known | None, other: Known | None) -> bool:
    """Two quantities are the same fact where they print alike."""
    if isinstance(one, Quantity) and isinstance(other, Quantity):
        return one is other or (one.si, one.unit) == (other.si, other.unit)
    return one == other
