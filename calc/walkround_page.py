"""What the page of the walk-round shows of each thing that was found: its word, its sign, where its question is asked."""

from __future__ import annotations

import json
from dataclasses import dataclass

from calc.as_json import fact_as_json
from calc.catalogue import check_called
from calc.check import GO, NEC, NO, NOT_KNOWN, TIGHT, Caution
from calc.rendering import RULE_NAMES, VERDICT_SIGNS, VERDICT_WORDS, Answered, BoardRow
from calc.rig import Rig
from calc.walkround import Finding, Proposal, Unknown, WalkRound, walk_round

# So many of the facts that are not known are shown at once; the others wait in a fold.
MATTER_MOST = 8


@dataclass(frozen=True)
class ShownProposal:
    """A change as a link to its question with the change put in, and as facts that a page can keep."""

    say: str
    address: str
    facts: str


@dataclass(frozen=True)
class ShownFinding:
    """One thing that was found, as it stands on the page."""

    finding: Finding

    @property
    def title(self) -> str:
        return f"{self.finding.title}: {self.finding.subject}" if self.finding.subject else self.finding.title

    @property
    def word(self) -> str:
        return VERDICT_WORDS[self.finding.verdict]

    @property
    def sign(self) -> str:
        return VERDICT_SIGNS[self.finding.verdict]

    @property
    def verdict(self) -> str:
        return self.finding.verdict

    @property
    def say(self) -> str:
        return self.finding.say

    @property
    def margin(self) -> str:
        return self.finding.margin

    @property
    def cautions(self) -> list[Caution]:
        return [self.finding.hazard] if self.finding.hazard else []

    @property
    def address(self) -> str:
        """The question's page; empty for a fault that no single question asks for."""
        return BoardRow(self.finding.row).address if self.finding.row else ""

    @property
    def proposals(self) -> list[ShownProposal]:
        return [
            ShownProposal(proposal.say, _with(proposal), json.dumps(facts, ensure_ascii=False))
            for proposal in self.finding.proposals
            if (facts := {path: fact_as_json(fact) for path, fact in proposal.facts.items()})
        ]


def _with(proposal: Proposal) -> str:
    """The question that offers a change, with the change put in."""
    row = proposal.row
    if row is None or proposal.change is None:
        return ""
    return f"{row.check.id}/{Answered(row.asked, row.answer, []).link(proposal.change)}"


@dataclass(frozen=True)
class ShownUnknown:
    """A fact of the rig that is not known."""

    unknown: Unknown

    @property
    def label(self) -> str:
        label, subject = self.unknown.label, self.unknown.subject
        return f"{label} ({subject})" if subject else label

    @property
    def stop(self) -> str:
        return "" if self.label.endswith("?") else "."

    @property
    def waiting(self) -> str:
        return _counted(self.unknown.waiting, "answer waits for it", "answers wait for it")


@dataclass(frozen=True)
class ShownPage:
    """A question that also asks what no rig holds: it is answered on its own page."""

    title: str
    address: str
    asks: tuple[str, ...]


@dataclass(frozen=True)
class ShownRound:
    """A whole walk-round, as it stands on the page."""

    found: WalkRound
    is_example: bool

    @property
    def rules(self) -> str:
        return RULE_NAMES[self.found.rules]

    @property
    def verdict(self) -> str:
        """The word for the whole: a rig of whose parts something is not known is never a go."""
        found = self.found
        if found.faults:
            return NO
        if self._open or not (found.tight or found.fine):
            return NOT_KNOWN
        return TIGHT if found.tight else GO

    @property
    def word(self) -> str:
        return VERDICT_WORDS[self.verdict]

    @property
    def sign(self) -> str:
        return VERDICT_SIGNS[self.verdict]

    @property
    def say(self) -> str:
        found = self.found
        if found.faults:
            return f"{_counted(len(found.faults), 'fault', 'faults')} found: put right what comes first, then walk round again."
        if self.verdict == NOT_KNOWN:
            return f"No fault in what is known. {_counted(self._open, 'thing is', 'things are')} not known."
        if found.tight:
            return f"No fault found. {_counted(len(found.tight), 'thing is', 'things are')} tight."
        return "No fault found, and room to spare in all that was asked."

    @property
    def _open(self) -> int:
        """What is not known of the parts that the rig has, or that every rig has."""
        return sum(1 for one in self.found.unknown if one.fact and one.matters) + len(self.found.unanswered)

    @property
    def counts(self) -> str:
        found = self.found
        return f"{_counted(len(found.faults), 'fault', 'faults')}, {len(found.tight)} tight, {len(found.fine)} fine"

    @property
    def faults(self) -> list[ShownFinding]:
        return [ShownFinding(finding) for finding in self.found.faults]

    @property
    def tight(self) -> list[ShownFinding]:
        return [ShownFinding(finding) for finding in self.found.tight]

    @property
    def unanswered(self) -> list[ShownFinding]:
        return [ShownFinding(finding) for finding in self.found.unanswered]

    @property
    def fine(self) -> list[ShownFinding]:
        return [ShownFinding(finding) for finding in self.found.fine]

    @property
    def matter_most(self) -> list[ShownUnknown]:
        return self._facts[:MATTER_MOST]

    @property
    def matter_less(self) -> list[ShownUnknown]:
        return self._facts[MATTER_MOST:]

    @property
    def _facts(self) -> list[ShownUnknown]:
        return [ShownUnknown(unknown) for unknown in self.found.unknown if unknown.fact]

    @property
    def pages(self) -> list[ShownPage]:
        asked: dict[str, list[str]] = {}
        for unknown in self.found.unknown:
            if not unknown.fact:
                asked.setdefault(unknown.check, []).append(unknown.label)
        return [
            ShownPage(check_called(check).title, f"{check}/", tuple(dict.fromkeys(labels)))
            for check, labels in asked.items()
        ]


def shown_round(rig: Rig | None, rules: str = NEC) -> ShownRound:
    return ShownRound(walk_round(rig, rules), rig is None)


def _counted(count: int, one: str, several: str) -> str:
    return f"{count} {one if count == 1 else several}"
