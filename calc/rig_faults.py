"""A fault of the whole rig: what is wrong, what it can do, and the changes that may put it right."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from calc.check import Caution
from calc.quantity import Quantity
from calc.rig import Known, Rig


@dataclass(frozen=True)
class Remedy:
    """A change that may clear a fault; the walk-round tries it before it says so.

    held_by: the questions, by id and the thing's place, that must be answered with a go or a tight once it is made.
    """

    say: str
    facts: Mapping[str, Known]
    held_by: tuple[tuple[str, int], ...] = ()


@dataclass(frozen=True)
class Fault:
    """A fault of the whole: where, what is wrong, and what it can do. Of each kind of remedy the smallest comes first."""

    title: str
    subject: str
    say: str
    hazard: Caution
    remedies: tuple[tuple[Remedy, ...], ...] = ()


FIRE = Caution(
    "WARNING",
    "A wire without protection burns",
    "A short in it is fed without end, and sets fire to the cart",
    "Fit a fuse or breaker of the wire's size where it is fed",
)
SHOCK = Caution(
    "DANGER",
    "Live metal kills",
    "Neutral and frame can stand at mains voltage",
    "Switch it all off and have it put right before anybody touches it",
)
STILL_LIVE = Caution(
    "DANGER",
    "What is fed twice is live when one of its breakers is off",
    "Whoever works on it is killed; two sources out of step destroy each other",
    "Feed it by one wire only, or through a transfer switch that opens the one before it closes the other",
)
BURST = Caution(
    "WARNING",
    "A fuse that cannot break the volts or the amps bursts",
    "An arc burns on in it and throws molten metal",
    "Fit a fuse marked for the bank's highest dc volts and its short-circuit current",
)
MISFIT = Caution(
    "CAUTION",
    "Parts that do not fit each other fail or shut down",
    "The inverter trips, or is destroyed by too many volts",
    "Fit parts whose windows meet",
)
UNSURE = Caution(
    "CAUTION",
    "What the rig is said to be does not hang together",
    "An answer rests on a part that is not there, or on the wrong one of two",
    "Look at the rig itself, and put its facts right",
)


# --- reading a rig -----------------------------------------------------------------------------------------------------


def text(rig: Rig, path: str) -> str:
    """A choice or a name; empty where it is not known."""
    value = rig.facts.get(path)
    return value if isinstance(value, str) else ""


def called(rig: Rig, group: str, place: int) -> str:
    """What a thing of a list is called, or which one it is."""
    return text(rig, f"{group}.{place}.name") or f"{group.removesuffix('s')} {place + 1}"


def names(rig: Rig, path: str) -> tuple[str, ...]:
    """The names of the things that a fact refers to, one or several."""
    value = rig.facts.get(path)
    return value if isinstance(value, tuple) else (value,) if isinstance(value, str) and value else ()


def number(rig: Rig, path: str) -> Quantity | None:
    value = rig.facts.get(path)
    return value if isinstance(value, Quantity) else None


def wires(rig: Rig) -> Iterator[int]:
    """The cables that are part of the rig: an extension cord is not, it is plugged in."""
    return (place for place in range(rig.count("cables")) if text(rig, f"cables.{place}.use") != "extension cord")
