"""What stands beside an answer: cautions, and cases that somebody else has worked and published."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any

from calc.asks import NEC
from calc.sources import Source

SIGNALS = ("DANGER", "WARNING", "CAUTION", "NOTICE")


@dataclass(frozen=True)
class Caution:
    """Signal word in the sense of ANSI Z535.6, what the hazard is, what it does, how to avoid it.

    only: the filled forms to which it applies; all of them, if it is not said.
    """

    signal: str
    hazard: str
    consequence: str
    avoid: str
    only: Callable[[Any], bool] | None = None

    def __post_init__(self) -> None:
        if self.signal not in SIGNALS or not (self.hazard and self.consequence and self.avoid):
            raise ValueError(
                f"a caution needs one of {', '.join(SIGNALS)}, a hazard, a consequence and what to do: {self}"
            )

    @property
    def serious(self) -> bool:
        return self.signal in ("DANGER", "WARNING")


@dataclass(frozen=True)
class Example:
    """A published case. Results are written with their published figures: `4.46 V` is met within half of 0.01 V."""

    given: Mapping[str, str]
    source: Source
    expect: Mapping[str, str] = field(default_factory=dict)
    verdict: str = ""
    rules: str = NEC
    within: float = 0.0  # a relative tolerance, where the source's own rounding is coarser than its figures
