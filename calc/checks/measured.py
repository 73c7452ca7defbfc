"""What the pages on readings share: how a miss names its causes, and what the next reading must be after the mending."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from calc.check import GO, TOLD, Caution, Change, Fix, Requirement
from calc.quantity import Quantity

# What is left of a step by binary fractions.
_HAIR = 1e-9

QUALIFIED = Caution(
    "DANGER",
    "Readings under load are taken on live parts: an outlet, an inlet or an inverter's terminals kill at mains volts",
    "A slipped probe arcs across them or puts the volts on you",
    "Fit rated leads or a plug-in meter while it is all off, close the covers, then switch on and read; where a cover must stay open it is a qualified person's work",
)
BANK_ARC = Caution(
    "DANGER",
    "A battery can't be switched off: a probe that slips between its posts makes an arc of thousands of amps",
    "It burns to the bone, blinds and throws molten metal",
    "No rings or loose tools; cover one pole before you touch the other; never short a bank to test it",
)
HOT_PARTS = Caution(
    "CAUTION",
    "What is worth measuring for heat is hot",
    "Metal of 60 °C and more burns the skin within seconds",
    "Read it with a thermometer and not with the hand; switch off and let it cool before you mend it",
)


def likely(requirements: list[Requirement], *causes: str) -> tuple[str, ...]:
    """For a miss: its likely causes, the most likely first, as one note; none where the reading is as it should be."""
    if all(requirement.verdict in (GO, TOLD) for requirement in requirements):
        return ()
    numbered = "; ".join(f"{number}. {cause}" for number, cause in enumerate(causes, 1))
    return (f"Likely causes, the most likely first: {numbered}.",)


def must_read(name: str, step: Quantity, say: str, down: bool, until: str = "") -> Fix:
    """After the mending: the reading that clears it, by steps of a round figure, smallest change first.

    down: it must fall. until: the field that it may not pass.
    """

    def changes(check: Any) -> Iterator[Change]:
        unit, size = step.unit, step.shown
        start, spec = getattr(check, name).number_in(unit), check.asks[name]
        end = getattr(check, until).number_in(unit) if until else (spec.low if down else spec.high).number_in(unit)
        count = int((start - _HAIR) // size) if down else int((start + _HAIR) // size) + 1
        while count * size >= end - _HAIR if down else count * size <= end + _HAIR:
            yield {name: round(count * size, 9) * unit}
            count += -1 if down else 1

    return Fix(say, changes, in_order=True)
