"""Names as bits: the letters that people give to the things of a rig, each by what stands before it.

What is likely after what is learned beforehand from a few names as there might be. They are part of the format: to change
one is to make a new format, or old codes are read wrongly.
"""

from __future__ import annotations

from functools import cache

from calc.opening import LONGEST_NAME
from calc.sharing.coder import Coder, Endless, Learned, Writer

_MOST_BYTES = 4 * LONGEST_NAME
_END = 0  # no plain text has it
_SUCH_AS = (
    "bank|battery box|left outlet|right outlet|main breaker|fuse at the bank|cable to the inverter|lead|cord|charger|"
    "panels|lights|lamp|water pump|fan|fridge|heater|table saw|drill|grinder|air compressor|welder|mixer|coffee|radio|"
    "car|truck|cart|trailer|07:30|12:00|16:45|2027-05-20|morning|evening work|shop|camp|house|spare|for the|big|small"
)


def spelled(coder: Coder, given: str) -> str:
    """A name, up to its end. Raises Endless where it has none, and UnicodeDecodeError where it is no text."""
    wanted = given.encode() + bytes([_END])
    found = bytearray()
    while not found or found[-1] != _END:
        if len(found) > _MOST_BYTES:
            raise Endless
        before = (_kind(found[-2:-1]), _kind(found[-1:]))
        found.append(_byte(coder, before, wanted[len(found)] if len(found) < len(wanted) else _END))
    return found[:-1].decode()


@cache
def learned() -> Learned:
    """What the names above teach."""
    writer = Writer({})
    for such in _SUCH_AS.split("|"):
        spelled(writer, such)
    return writer.learned


def _kind(before: bytes | bytearray) -> str:
    """What stands before: nothing, a vowel, a consonant, a figure, another sign, or part of a letter beyond ASCII."""
    letter = before.decode("ascii", "replace")
    if letter.isalpha():
        return "vowel" if letter in "aeiou" else "consonant"
    return "figure" if letter.isdigit() else "beyond" if not letter.isascii() else "sign" if letter else "nothing"


def _byte(coder: Coder, before: tuple[str, str], given: int) -> int:
    found = 1
    for place in reversed(range(8)):
        found = found << 1 | coder.bit(("byte", before, found), bool(given >> place & 1))
    return found - (1 << 8)
