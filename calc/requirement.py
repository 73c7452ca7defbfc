"""What must hold, how it came out, and how much room makes a go."""

from __future__ import annotations

from dataclasses import dataclass

from calc.printing import figures, pair
from calc.quantity import Condition, Statement

GO, TIGHT, NO, NOT_KNOWN, TOLD = "go", "tight", "no", "not known", "told"
VERDICTS = (GO, TIGHT, NO, NOT_KNOWN, TOLD)


@dataclass(frozen=True)
class Rule:
    """How much room makes a go: use = demand / limit."""

    go_up_to: float
    says: str


ELECTRICAL = Rule(0.90, "go up to 90 % of the limit, tight up to the limit")
PHYSICAL = Rule(0.80, "go where there is 1.25 times what is needed, tight where there is just enough")


@dataclass(frozen=True)
class Requirement:
    """One thing that must hold, how it came out and what that means in words."""

    label: str
    condition: Condition | Statement
    verdict: str
    words: str
    use: float | None
    rule: str

    @property
    def sentence(self) -> str:
        """What it means in words. Put together only when it is read: trials ask for verdicts alone."""
        if isinstance(self.condition, Statement):
            return self.words
        left, right = pair(self.condition.left, self.condition.right)
        return self.words.replace("{left}", left).replace("{right}", right)

    @property
    def margin(self) -> str:
        """Room left in words, where the two sides make a ratio."""
        if self.use is None:
            return ""
        spare = 1 - self.use
        if abs(spare) < 0.0005:
            return "nothing to spare"
        share = figures(abs(spare) * 100, 2, rounds=-1 if spare > 0 else 1)
        return f"{share} % to spare" if spare > 0 else f"{share} % over"


def require(
    condition: Condition | Statement,
    *,
    label: str,
    yes: str,
    no: str,
    tight: str = "",
    comfortable: Condition | Statement | None = None,
    rule: Rule = ELECTRICAL,
    exact: bool = False,
) -> Requirement:
    """What must hold. `{left}` and `{right}` in a sentence become the two sides, told apart in print.

    comfortable: what must hold as well for a go. exact: holding is a go, there is no tight.
    """
    use = _use(condition)
    if not condition.holds:
        verdict = NO
    elif comfortable is not None:
        verdict = GO if comfortable.holds else TIGHT
    elif exact or use is None:
        verdict = GO
    else:
        verdict = GO if use <= rule.go_up_to + 1e-12 else TIGHT
    says = {GO: yes, TIGHT: tight or yes, NO: no}[verdict]
    how = "" if exact or use is None and comfortable is None else "" if comfortable is not None else rule.says
    return Requirement(label, condition, verdict, says, use, how)


def _use(condition: Condition | Statement) -> float | None:
    if isinstance(condition, Statement) or condition.left.unit.point:
        return None
    demand, room = (condition.left, condition.right) if condition.sign in "≤<" else (condition.right, condition.left)
    if demand.si < 0 or room.si <= 0:
        return None
    return demand.si / room.si
