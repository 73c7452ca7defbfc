"""The fault finder: from what is seen, through two or three things to look at, to the likely cause and its page.

Nothing in it is done on live parts. Each look says how it is taken, and the ways are these few: by eye, on a display, by
unplugging, with a meter that is plugged in or a thermometer that is held outside. What needs a cover off is mended
switched off, and is no look.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

EYE, DISPLAY, PLUG, METER, THERMOMETER = "eye", "display", "plug", "meter", "thermometer"
WAYS = {
    EYE: "By eye, covers closed",
    DISPLAY: "On a display or in the settings",
    PLUG: "By plugging and unplugging",
    METER: "With a plug-in meter, covers closed",
    THERMOMETER: "With a thermometer, from outside",
}


@dataclass(frozen=True)
class Cause:
    """A likely cause, the page that works it out, and what to do about it."""

    says: str
    check: str
    mend: str


@dataclass(frozen=True)
class Look:
    """One thing to look at or read, how it is done, and where each finding leads."""

    asks: str
    how: str
    found: tuple[tuple[str, Look | Cause], ...]


@dataclass(frozen=True)
class Symptom:
    """What somebody sees. first: what is done before any looking, where it must be."""

    key: str
    title: str
    look: Look
    first: str = ""


def causes(of: Look | Cause) -> Iterator[Cause]:
    """Every cause that a look can end in."""
    if isinstance(of, Cause):
        yield of
        return
    for _, leads_to in of.found:
        yield from causes(leads_to)
