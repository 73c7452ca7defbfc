"""What a fact is: one thing that can be known, with where on the real thing to read it."""

from __future__ import annotations

from dataclasses import dataclass

from calc.quantity import Quantity
from calc.units import Unit

# What a phone can tell of where it is and how it lies.
SENSES = LATITUDE, LONGITUDE, TILT, HEADING, SLOPE = ("latitude", "longitude", "tilt", "heading", "slope")


@dataclass(frozen=True)
class Fact:
    """One thing known: a number with its range, one of a few options, the name of a thing, or a reference to one.

    pattern, example: how a text must be written, where it is not free.
    sensed: what of a phone's own senses tells it (`SENSES`); of a choice, the option that such a reading means.
    """

    label: str
    help: str
    low: Quantity | None = None
    high: Quantity | None = None
    options: tuple[str, ...] = ()
    refers_to: str = ""
    whole: bool = False
    either_way: bool = False  # its reciprocal is read too, and kept turned over
    many: bool = False  # more than one option, or reference, may hold
    unsaid: str = ""  # what a thing of a list is taken for where nobody said: no load is a welder unless it is said
    pattern: str = ""
    example: str = ""
    sensed: str = ""

    @property
    def unit(self) -> Unit | None:
        return self.low.unit if self.low is not None else None

    @property
    def is_text(self) -> bool:
        return self.low is None and not self.options and not self.refers_to
