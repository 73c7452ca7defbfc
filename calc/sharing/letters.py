"""Bytes as letters that a link, a message and the smallest kind of printed code all carry unharmed: 0 to 9, A to Z.

A code is `1-LETTERS`, or one of several, `1-2-3-LETTERS` for the second of three. Its check sum covers what stands before
the letters too. Each of several also carries the check sum of the whole, so that no two rigs get mixed.
"""

from __future__ import annotations

import math
import re
import zlib
from dataclasses import dataclass

from calc.opening import DamagedRig

FORMAT = 1
MOST_PARTS = 16
_DIGITS = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ"
_BYTES, _LETTERS = 31, 48  # a block: 256 ** 31 < 36 ** 48, and hardly less
_LONGEST = 20_000
_CHECK = 4
_FORM = re.compile(r"(?P<head>(?P<format>[0-9]{1,3})-(?:(?P<part>[0-9]{1,2})-(?P<of>[0-9]{1,2})-)?)(?P<letters>[0-9A-Z]+)")


class Unfinished(DamagedRig):
    """Some of several codes are still to be read. `have` of `of` were there."""

    def __init__(self, have: set[int], of: int) -> None:
        self.have, self.of = frozenset(have), of
        missing = [str(part) for part in range(1, of + 1) if part not in have]
        super().__init__(f"This rig is in {of} codes; still to be read: {', '.join(missing)}.")


def whole(body: bytes) -> str:
    return _sealed(f"{FORMAT}-", body)


def part(body: bytes, number: int, of: int, size: int) -> str:
    """One of several codes, with its share of the body: `size` bytes, the last one what is left."""
    share = body[(number - 1) * size : number * size]
    return _sealed(f"{FORMAT}-{number}-{of}-", _check_sum(body) + share)


def letters_of_part(size: int) -> int:
    """How many letters one of several codes takes, its head with them, if it holds so many bytes of the body."""
    blocks, rest = divmod(size + 2 * _CHECK, _BYTES)
    return len(f"{FORMAT}-{MOST_PARTS}-{MOST_PARTS}-") + blocks * _LETTERS + _letters_of_rest(rest)


def body_of(codes: list[str]) -> bytes:
    """What one whole code holds, or several of one rig, in any order. Raises DamagedRig with the reason."""
    read = {_opened(code) for code in codes}
    if not read:
        raise DamagedRig("There is no code here.")
    if len({one.rig for one in read}) > 1:
        raise DamagedRig("These codes are of different rigs.")
    if len({one.of for one in read}) > 1:
        raise DamagedRig("These codes are of one rig, printed twice and not alike: read those of one printing.")
    of = next(iter(read)).of
    shares = {one.number: one.share for one in read}
    if len(shares) < len(read):
        raise DamagedRig("The codes are damaged: two of them have the same number, and differ.")
    if len(shares) < of:
        raise Unfinished(set(shares), of)
    body = b"".join(shares[number] for number in sorted(shares))
    if any(one.rig != _check_sum(body) for one in read):
        raise DamagedRig("The codes are damaged: together they do not have the check sum that each of them names.")
    return body


@dataclass(frozen=True)
class _Part:
    """One of several codes, or the only one. rig: the check sum of the whole."""

    number: int
    of: int
    rig: bytes
    share: bytes


def _opened(code: str) -> _Part:
    if len(code) > _LONGEST:
        raise DamagedRig(f"The code is longer than a rig's code can be ({_LONGEST} letters).")
    found = _FORM.fullmatch(code)
    if not found:
        raise DamagedRig("This is not the code of a rig.")
    if int(found["format"]) != FORMAT:
        raise DamagedRig(f"The code is of format {found['format']}; format {FORMAT} is read here.")
    body = _unsealed(found["head"], found["letters"])
    if found["of"] is None:
        return _Part(1, 1, _check_sum(body), body)
    number, of = int(found["part"]), int(found["of"])
    if not 1 <= number <= of <= MOST_PARTS or of == 1 or len(body) < _CHECK:
        raise DamagedRig("This is not the code of a rig.")
    return _Part(number, of, body[:_CHECK], body[_CHECK:])


def _sealed(head: str, body: bytes) -> str:
    sealed = body + _check_sum(head.encode() + body)
    return head + "".join(_letters(sealed[at : at + _BYTES]) for at in range(0, len(sealed), _BYTES))


def _unsealed(head: str, letters: str) -> bytes:
    try:
        sealed = b"".join(_bytes(letters[at : at + _LETTERS]) for at in range(0, len(letters), _LETTERS))
    except (ValueError, OverflowError):
        sealed = b""
    body, check = sealed[:-_CHECK], sealed[-_CHECK:]
    if check != _check_sum(head.encode() + body):
        raise DamagedRig("The code is damaged or cut short: its check sum does not fit.")
    return body


def _check_sum(content: bytes) -> bytes:
    """CRC-32 finds every single changed letter, for sure: a letter lies within its 32 bits."""
    return zlib.crc32(content).to_bytes(_CHECK, "little")


def _letters(block: bytes) -> str:
    number, found = int.from_bytes(block, "big"), ""
    for _ in range(_letters_of_rest(len(block))):
        number, digit = divmod(number, len(_DIGITS))
        found = _DIGITS[digit] + found
    return found


def _bytes(letters: str) -> bytes:
    """Raises ValueError or OverflowError where no bytes have these letters."""
    size = next((size for size in range(1, _BYTES + 1) if _letters_of_rest(size) == len(letters)), None)
    if size is None:
        raise ValueError
    return int(letters, len(_DIGITS)).to_bytes(size, "big")


def _letters_of_rest(size: int) -> int:
    return math.ceil(size * 8 / math.log2(len(_DIGITS)))
