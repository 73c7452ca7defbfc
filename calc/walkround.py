"""The walk-round: the whole rig inspected in one go, as a careful colleague would.

Every fault first, the gravest hazard before the rest, each with the smallest change that clears it and makes no other;
then what is tight, what is not known and matters most, and what is fine. A change is only proposed after everything
that it touches was asked again with it. Nothing is taken for known: what the rig does not say is asked for, not guessed.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cached_property

from calc.board import Row, board
from calc.check import GO, NEC, NO, NOT_KNOWN, SIGNALS, TIGHT, TOLD, Caution, Change, Check, Missing, Pick
from calc.facts import fact_at
from calc.form import fill, lists_asked
from calc.inspection import faults_of_the_whole
from calc.quantity import Quantity
from calc.rig import Known, Rig, example_rig
from calc.rig_faults import Fault, Remedy

Facts = Mapping[str, Known]
# Many a rig has none of these; what every rig has, or what hides a danger where nobody spoke of it, is not among them.
MAY_BE_ABSENT = ("panels", "generator", "tow", "tie", "second_bank", "cars", "prices", "readings", "plan", "windows")
# A fault by its name: of the whole by title and subject, of a question by its id and the thing's place in its list.
Key = tuple[str, str | int]


@dataclass(frozen=True)
class Proposal:
    """A change of the rig's facts that clears a fault and makes no other; and the question that offers it, if one does."""

    say: str
    facts: Facts
    row: Row | None = None
    change: Change | None = None


@dataclass(frozen=True)
class Finding:
    """Something found on the walk-round: an answer of the board, or a fault of the whole that no question asks for."""

    title: str
    subject: str
    verdict: str
    say: str
    check: str = ""
    margin: str = ""
    hazard: Caution | None = None
    proposals: tuple[Proposal, ...] = ()
    row: Row | None = None

    @property
    def gravity(self) -> tuple[int, float]:
        """The worst first: by the signal word of its hazard, then by how far it is over its limit."""
        ruling = self.row.answer.ruling if self.row else None
        over = ruling.use if ruling and ruling.use is not None else 0.0
        return SIGNALS.index(self.hazard.signal) if self.hazard else len(SIGNALS), -over


@dataclass(frozen=True)
class Unknown:
    """Something that is not known, and how many answers wait for it.

    fact: its path in the rig, and subject the thing it is a fact of; or else the check on whose page it is asked.
    matters: some question waits for it that is about a part the rig has, and not only about panels that it may lack.
    """

    label: str
    where: str
    waiting: int
    fact: str = ""
    subject: str = ""
    check: str = ""
    matters: bool = True


@dataclass(frozen=True)
class WalkRound:
    """What was found, in the order in which it is read."""

    rig: str
    rules: str
    faults: tuple[Finding, ...]
    tight: tuple[Finding, ...]
    unknown: tuple[Unknown, ...]
    unanswered: tuple[Finding, ...]
    fine: tuple[Finding, ...]


def walk_round(rig: Rig | None, rules: str = NEC) -> WalkRound:
    """Inspect a rig; without one, the example."""
    return _Round(rig or example_rig(), rules).found()


@dataclass(frozen=True)
class _Round:
    """One walk round one rig: what is asked of it once, and asked again with a change."""

    rig: Rig
    rules: str

    def found(self) -> WalkRound:
        silent = (row for row in self._rows if row.answer.verdict == NOT_KNOWN and not row.answer.missing)
        return WalkRound(
            self.rig.name,
            self.rules,
            tuple(sorted(self._faults(), key=lambda fault: fault.gravity)),
            tuple(_finding(row) for row in self._rows if row.answer.verdict == TIGHT),
            tuple(self._unknown()),
            tuple(_finding(row) for row in silent),
            tuple(_finding(row) for row in self._rows if row.answer.verdict in (GO, TOLD)),
        )

    def _faults(self) -> list[Finding]:
        """Every fault with what clears it: its own remedies, or else what was found for another and clears it too."""
        whole = [(_key(fault), _of_whole(fault), self._remedies(fault)) for fault in self._faults_of_the_whole]
        asked = [(row.key, _fault(row), self._proposals(row)) for row in self._rows if row.answer.verdict == NO]
        found = [proposal for *_, proposals in (*whole, *asked) for proposal in proposals]
        return [
            replace(fault, proposals=tuple(own or [one for one in found if key in self._cleared_by(one.facts)]))
            for key, fault, own in (*whole, *asked)
        ]

    @cached_property
    def _rows(self) -> list[Row]:
        return board(self.rig, self.rules)

    @cached_property
    def _faults_of_the_whole(self) -> list[Fault]:
        return faults_of_the_whole(self.rig)

    def _remedies(self, fault: Fault) -> list[Proposal]:
        """Of each kind of remedy the smallest that serves."""
        serving = (next((one for one in kind if self._serves(fault, one)), None) for kind in fault.remedies)
        return [Proposal(remedy.say, remedy.facts) for remedy in serving if remedy]

    def _serves(self, fault: Fault, remedy: Remedy) -> bool:
        if _key(fault) not in self._cleared_by(remedy.facts):
            return False
        changed = self.rig.changed(remedy.facts)
        held = (row for row in self._rows if row.key in remedy.held_by)
        return all(self._verdict_after(row, changed) in (GO, TIGHT) for row in held)

    def _proposals(self, row: Row) -> list[Proposal]:
        """The offers of the check that are changes of facts, each asked again on the whole rig."""
        offers = row.asked.offers(row.answer)
        tried = [
            Proposal(offer.say, facts, row, offer.change)
            for offer in offers
            if (facts := self._as_facts(row, offer.change))
        ]
        return [proposal for proposal in tried if row.key in self._cleared_by(proposal.facts)]

    def _as_facts(self, row: Row, change: Change) -> dict[str, Known] | None:
        """The change as facts of the rig; None where part of it is no fact, so that the rig cannot hold it."""
        facts: dict[str, Known] = {}
        for name, value in change.items():
            spec = row.check.asks[name]
            path = self.rig.path_of(spec.fact, row.asked.things) if spec.fact else None
            known = spec.as_fact(value) if isinstance(spec, Pick) and isinstance(value, str) else value
            if path is None or known is None or isinstance(known, str) and fact_at(path).low is not None:
                return None
            facts[path] = known
        return facts

    def _cleared_by(self, facts: Facts) -> set[Key]:
        made = frozenset(facts.items())
        if made not in self._tried:
            self._tried[made] = self._clears(facts)
        return self._tried[made]

    @cached_property
    def _tried(self) -> dict[frozenset[tuple[str, Known]], set[Key]]:
        return {}

    def _clears(self, facts: Facts) -> set[Key]:
        """The faults that a change clears; none where it makes another, or an answer that was known unknown."""
        changed = self.rig.changed(facts)
        whole, whole_after = set(map(_key, self._faults_of_the_whole)), set(map(_key, faults_of_the_whole(changed)))
        if whole_after - whole:
            return set()
        cleared: set[Key] = set(whole - whole_after)
        groups = {path.split(".")[0] for path in facts}
        for row in (row for row in self._rows if row.parts & groups):
            before, after = row.answer.verdict, self._verdict_after(row, changed)
            if (after == NO and before != NO) or (after == NOT_KNOWN and before != NOT_KNOWN):
                return set()
            if before == NO and after != NO:
                cleared.add(row.key)
        return cleared

    def _verdict_after(self, row: Row, changed: Rig) -> str:
        """Asked again where the change touches what the question draws from the rig; else it stands."""
        kind, subject = row.check, row.asked.subject
        if self._drawn_now[row.key] == _drawn(kind, changed, subject):
            return row.answer.verdict
        return fill(kind, {}, changed, self.rules, subject).plain_answer().verdict

    @cached_property
    def _drawn_now(self) -> dict[tuple[str, int], list[object]]:
        return {row.key: _drawn(row.check, self.rig, row.asked.subject) for row in self._rows}

    def _unknown(self) -> list[Unknown]:
        """What is missing: first what lets most questions be answered, a fact among five that are missing as a fifth."""
        waiting: dict[Unknown, list[tuple[float, bool]]] = defaultdict(list)
        for row in self._rows:
            share = 1 / len(row.answer.missing) if row.answer.missing else 0.0
            of_the_rig = not self._about_what_it_may_lack(row)
            for unknown in filter(None, (self._unknown_of(row, missing) for missing in row.answer.missing)):
                waiting[unknown].append((share, of_the_rig))
        found = [
            replace(unknown, waiting=len(rows), matters=any(of_the_rig for _, of_the_rig in rows))
            for unknown, rows in sorted(waiting.items(), key=lambda item: _weight(item[1]), reverse=True)
        ]
        return sorted(found, key=lambda unknown: not unknown.fact)

    def _about_what_it_may_lack(self, row: Row) -> bool:
        """Whether a question waits for a part of which the rig says nothing at all, and may well have none."""
        groups = {row.check.asks[missing.name].fact.split(".")[0] for missing in row.answer.missing}
        return any(group in MAY_BE_ABSENT and group not in self._groups for group in groups)

    @cached_property
    def _groups(self) -> set[str]:
        return {path.split(".")[0] for path in self.rig.facts}

    def _unknown_of(self, row: Row, missing: Missing) -> Unknown | None:
        """What is missing, where the rig does not say it; a fact that is known and does not fit is no unknown."""
        fact = row.check.asks[missing.name].fact
        path = self.rig.path_of(fact, row.asked.things) if fact else None
        if path is None or path.endswith(".#"):
            return Unknown(missing.label, missing.where, 0, subject=row.subject if fact else "", check=row.check.id)
        if path in self.rig.facts:
            return None
        thing = self.rig.facts.get(path.rpartition(".")[0] + ".name") if path.count(".") == 2 else None
        known_as = fact_at(path)
        return Unknown(known_as.label, known_as.help, 0, path, thing if isinstance(thing, str) else "")


def _finding(row: Row) -> Finding:
    ruling = row.answer.ruling
    # Where something else than the limit itself makes it tight, the room to the limit would mislead.
    margin = ruling.margin if ruling and (ruling.rule or ruling.verdict != TIGHT) else ""
    return Finding(row.check.title, row.subject, row.answer.verdict, row.answer.say, row.check.id, margin, row=row)


def _of_whole(fault: Fault) -> Finding:
    return Finding(fault.title, fault.subject, NO, fault.say, hazard=fault.hazard)


def _fault(row: Row) -> Finding:
    warnings = row.asked.check.warnings() if row.asked.check else []
    return replace(_finding(row), hazard=warnings[0] if warnings else None)


def _key(fault: Fault) -> Key:
    return fault.title, fault.subject


def _drawn(kind: type[Check], rig: Rig, subject: int) -> list[object]:
    """What a question about a thing draws from the rig, to be compared."""
    things = rig.things(lists_asked(kind), subject)
    known = (rig.value(spec.fact, things) for spec in kind.asks.values() if spec.fact)
    return [(one.si, one.unit.sign) if isinstance(one, Quantity) else one for one in known]


def _weight(waiting: list[tuple[float, bool]]) -> tuple[float, float]:
    """What a missing fact weighs: by the questions about parts that the rig has, and then by the others."""
    return sum(share for share, of_the_rig in waiting if of_the_rig), sum(share for share, _ in waiting)
