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

from calc.opening import DamagedRig, Document
from calc.rig import Rig, document, read_rig
from calc.sharing import qr, walk
from calc.sharing.coder import Endless
from calc.sharing.letters import MOST_PARTS, Unfinished, body_of, letters_of_part, part, whole

__all__ = ["DamagedRig", "Shared", "TooLarge", "Unfinished", "codes", "packed", "shared", "unpacked"]

# Behind a #, a browser keeps the text to itself; no server is told.
IN_LINK = "#rig="
# What the person who gets the rig needs least goes first where not all of it fits, and is named.
_LEFT_OUT_FIRST = (("the plan", ("plan", "windows")),)
# So much fits into MOST_PARTS codes with any address that a person would print.
_MOST_BYTES = 8_000


class TooLarge(ValueError):
    """The rig is too large to be shared so. The message says what to do instead."""


@dataclass(frozen=True)
class Shared:
    """A rig packed. left_out: what of it did not fit, in words."""

    body: bytes
    left_out: tuple[str, ...]

    @property
    def text(self) -> str:
        return whole(self.body)

    def link(self, address: str) -> str:
        return _beginning(address) + self.text

    def texts(self, address: str = "") -> list[str]:
        """What each code says: one, or as many as it takes, all of one size."""
        beginning = _beginning(address)
        room = qr.letters_beside(beginning)
        if len(self.text) <= room:
            return [beginning + self.text]
        most = max((size for size in range(room) if letters_of_part(size) <= room), default=0)
        parts = -(-len(self.body) // most) if most else MOST_PARTS + 1
        if parts > MOST_PARTS:
            raise TooLarge("The address of these pages is too long for a code to hold it and a rig.")
        size = -(-len(self.body) // parts)
        return [beginning + part(self.body, number, parts, size) for number in range(1, parts + 1)]

    def code(self, number: int, address: str = "") -> str:
        """One of the codes as SVG, from 1; its number is its name for who cannot see it.

        On a slow phone drawing one takes a second or two: there, ask for one at a time.
        """
        texts, beginning = self.texts(address), _beginning(address)
        return qr.drawn(beginning, texts[number - 1].removeprefix(beginning), f"Code {number} of {len(texts)}")


def _beginning(address: str) -> str:
    return address + IN_LINK if address else ""


def shared(rig: Rig) -> Shared:
    """The rig packed, whole where it fits. Raises TooLarge where it does not fit however little goes along."""
    written = document(rig)
    left_out: list[str] = []
    for words, groups in (("", ()), *_LEFT_OUT_FIRST):
        if any(group in written for group in groups):
            left_out.append(words)
            written = {group: content for group, content in written.items() if group not in groups}
        body = _fitting(written)
        if body is not None:
            return Shared(body, tuple(left_out))
    raise TooLarge("The rig is too large for a link or codes: share its file.")


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
    """The rig as codes, SVG each; they hold links to the address, that open it there."""
    packed_rig = shared(rig)
    return [packed_rig.code(number, address) for number, _ in enumerate(packed_rig.texts(address), 1)]


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
