"""The walk-round: the whole rig inspected in one go, as a careful colleague would.

Every fault first, each with the smallest change that clears it and makes no other; then what is tight, what is not
known and matters most, and what is fine. A change is only proposed after the whole board was asked again with it.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, replace

from calc.board import Row, board
from calc.check import GO, NEC, NO, NOT_KNOWN, SIGNALS, TIGHT, TOLD, Caution, Change
from calc.inspection import Fault, faults_of_the_whole
from calc.quantity import Quantity
from calc.rig import Rig, example_rig


@dataclass(frozen=True)
class Proposal:
    """A change of the rig's facts that clears a fault and makes no other."""

    say: str
    facts: Mapping[str, Quantity | str]


@dataclass(frozen=True)
class Finding:
    """Something found on the walk-round: an answer of the board, or a fault of the whole that no question asks for."""

    title: str
    subject: str
    verdict: str
    say: str
    check: str
    margin: str = ""
    hazard: Caution | None = None
    proposals: tuple[Proposal, ...] = ()


@dataclass(frozen=True)
class Unknown:
    """A fact that is not known, and how many answers wait for it."""

    label: str
    where: str
    waiting: int


@dataclass(frozen=True)
class WalkRound:
    """What was found, in the order in which it is read."""

    rig: str
    rules: str
    faults: tuple[Finding, ...]
    tight: tuple[Finding, ...]
    unknown: tuple[Unknown, ...]
    fine: tuple[Finding, ...]


def walk_round(rig: Rig | None, rules: str = NEC) -> WalkRound:
    """Inspect a rig; without one, the example."""
    whole = rig or example_rig()
    rows = board(rig, rules)
    faults = [_of_whole(fault) for fault in faults_of_the_whole(whole)]
    faults += [_fault(row, rows, whole, rules) for row in rows if row.answer.verdict == NO]
    faults.sort(key=lambda fault: SIGNALS.index(fault.hazard.signal) if fault.hazard else len(SIGNALS))
    return WalkRound(
        whole.name,
        rules,
        tuple(faults),
        tuple(_finding(row) for row in rows if row.answer.verdict == TIGHT),
        tuple(_unknown(rows)),
        tuple(_finding(row) for row in rows if row.answer.verdict in (GO, TOLD)),
    )


def _of_whole(fault: Fault) -> Finding:
    return Finding(fault.title, fault.subject, NO, fault.say, "", "", fault.hazard)


def _finding(row: Row) -> Finding:
    ruling = row.answer.ruling
    return Finding(
        row.check.title, row.subject, row.answer.verdict, row.answer.say, row.check.id, ruling.margin if ruling else ""
    )


def _fault(row: Row, rows: list[Row], rig: Rig, rules: str) -> Finding:
    warnings = row.asked.check.warnings() if row.asked.check else []
    proposals = tuple(_proposals(row, rows, rig, rules))
    return replace(_finding(row), hazard=warnings[0] if warnings else None, proposals=proposals)


def _proposals(row: Row, rows: list[Row], rig: Rig, rules: str) -> list[Proposal]:
    """The offers of the check that are changes of facts, each asked again on the whole rig."""
    found: list[Proposal] = []
    before = {other.key: other.answer.verdict for other in rows}
    for offer in row.asked.offers(row.answer):
        facts = _as_facts(row, offer.change, rig)
        if facts is None:
            continue
        groups = {path.split(".")[0] for path in facts}
        affected = [other.check for other in rows if other.facts & groups]
        after = {other.key: other.answer.verdict for other in board(rig.changed(facts), rules, dict.fromkeys(affected))}
        worse = [key for key, verdict in after.items() if verdict == NO and before.get(key) != NO]
        if not worse and after.get(row.key) in (GO, TIGHT):
            found.append(Proposal(offer.say, facts))
    return found


def _as_facts(row: Row, change: Change, rig: Rig) -> dict[str, Quantity | str] | None:
    """The change as facts of the rig; None where part of it is no fact, so that the rig cannot hold it."""
    facts: dict[str, Quantity | str] = {}
    for name, value in change.items():
        fact = row.check.asks[name].fact
        path = rig.path_of(fact, row.asked.things) if fact else None
        if path is None:
            return None
        facts[path] = value
    return facts


def _unknown(rows: list[Row]) -> list[Unknown]:
    """The facts that are missing, those for which most answers wait first."""
    waiting: Counter[tuple[str, str]] = Counter()
    for row in rows:
        if row.answer.verdict == NOT_KNOWN:
            waiting.update({(missing.label, missing.where): 1 for missing in row.answer.missing})
    return [Unknown(label, where, count) for (label, where), count in waiting.most_common()]
