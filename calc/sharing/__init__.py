"""A rig shared without a network: as a short text, behind a link's #, or as codes for another phone's camera.

    packed(rig)                the text
    codes(rig, address)        the codes, as SVG; each holds a link to the address
    unpacked(*texts)           the rig again: of the text, of its link, or of several codes' texts in any order

What is damaged, cut short, foreign or made by nobody's rig is refused with the reason, a `DamagedRig`, and nothing of it
is kept.
"""

from __future__ import annotations

import json
from dataclasses import dataclass
from functools import cached_property

from calc.opening import DamagedRig, Document
from calc.rig import Rig, document, read_rig
from calc.sharing import qr, walk
from calc.sharing.coder import Endless
from calc.sharing.letters import MOST_PARTS, Unfinished, body_of, letters_of_part, part, whole

__all__ = ["DamagedRig", "Shared", "TooLarge", "Unfinished", "codes", "packed", "shared", "unpacked"]

# Behind a #, a browser keeps the text to itself; no server is told.
IN_LINK = "#rig="
# What the person who gets the rig needs least goes first where not all of it fits, and is named.
_LEFT_OUT_FIRST = (("the readings", ("readings",)), ("the plan", ("plan", "windows")))
# So much fits into MOST_PARTS codes with any address that a person would print.
_MOST_BYTES = 8_000
# Nobody likes to hold a phone before more of them than this.
ENOUGH_CODES = 4


class TooLarge(ValueError):
    """The rig is too large to be shared so. The message says what to do instead."""


@dataclass(frozen=True)
class Shared:
    """A rig packed, for links to an address, or none. left_out: what of it did not fit, in words."""

    body: bytes
    address: str
    left_out: tuple[str, ...]

    @property
    def text(self) -> str:
        return whole(self.body)

    @property
    def link(self) -> str:
        return self._beginning + self.text

    @property
    def _beginning(self) -> str:
        return self.address + IN_LINK if self.address else ""

    @cached_property
    def count(self) -> int:
        """How many codes it takes; more than there may be where the address leaves too little room."""
        room = qr.letters_beside(self._beginning)
        if len(self.text) <= room:
            return 1
        most = max((size for size in range(room) if letters_of_part(size) <= room), default=0)
        return -(-len(self.body) // most) if most else len(self.body)

    @property
    def texts(self) -> list[str]:
        """What each code says: one says it all, or several of one size."""
        if self.count == 1:
            return [self.link]
        if self.count > MOST_PARTS:
            raise TooLarge("The address of these pages is too long for a code to hold it and a rig.")
        size = -(-len(self.body) // self.count)
        return [self._beginning + part(self.body, number, self.count, size) for number in range(1, self.count + 1)]

    def code(self, number: int) -> str:
        """One of the codes as SVG, from 1; its number is its name for who cannot see it.

        On a slow phone drawing one takes a second or two: there, ask for one at a time.
        """
        letters = self.texts[number - 1].removeprefix(self._beginning)
        return qr.drawn(self._beginning, letters, f"Code {number} of {self.count}")


def shared(rig: Rig, address: str = "", most_codes: int = MOST_PARTS) -> Shared:
    """The rig packed, whole where it fits and takes no more codes than wanted; else without its readings, or its plan too.

    Where it takes more codes even so, nothing is left out for that. Raises TooLarge where it does not fit at all.
    """
    fitting: list[Shared] = []
    written = document(rig)
    left_out: list[str] = []
    for words, groups in (("", ()), *_LEFT_OUT_FIRST):
        if any(group in written for group in groups):
            left_out.append(words)
            written = {group: content for group, content in written.items() if group not in groups}
        body = _fitting(written)
        fitting += [Shared(body, address, tuple(left_out))] if body is not None else []
        if fitting and fitting[-1].count <= most_codes:
            return fitting[-1]
    if not fitting:
        raise TooLarge("The rig is too large for a link or codes: share its file.")
    return fitting[0]


def _fitting(written: Document) -> bytes | None:
    try:
        body = walk.as_bytes(written)
    except Endless:
        return None
    return body if len(body) <= _MOST_BYTES else None


def packed(rig: Rig) -> str:
    """The rig as a text of 0 to 9, A to Z and -."""
    return shared(rig).text


def codes(rig: Rig, address: str) -> list[str]:
    """The rig as codes, SVG each, that open it at the address; without its readings or plan if those take many more."""
    packed_rig = shared(rig, address, ENOUGH_CODES)
    return [packed_rig.code(number) for number in range(1, packed_rig.count + 1)]


def unpacked(*texts: str) -> Rig:
    """The rig of a text or link, or of several codes' in any order. Raises DamagedRig with the reason; Unfinished where
    some of several are still to be read."""
    body = body_of(["".join(text.split()).rpartition(IN_LINK)[2] for text in texts])
    try:
        found = walk.as_document(body)
    except walk.Newer:
        raise DamagedRig("The code was written by a later version of these pages: bring this one up to date.") from None
    except (walk.Senseless, Endless):
        raise DamagedRig("The code is whole, but no rig has what it says: it was not made here.") from None
    return read_rig(json.dumps(found, ensure_ascii=False))
