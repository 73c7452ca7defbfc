"""Bits written by their likelihood (arithmetic coding): what was to be expected costs a fraction of a bit.

How likely a bit is, is learned on the way, in each context apart. Writer and reader learn the same from the same bits,
in whole numbers only, so that they agree on every machine. Whoever walks over a document calls the same functions for
both: the writer gives back the bit it was given, the reader the bit it reads.
"""

from __future__ import annotations

from collections.abc import Hashable, Mapping

_BITS = 32
_ALL = (1 << _BITS) - 1
_BYTE = _BITS - 8
_CERTAIN = 1 << 16
# However often a bit was the same: the next may differ, and must not cost more than six bits.
_LEAST = _CERTAIN >> 6
# After so many bits the oldest begin to be forgotten.
_MEMORY = 32
_UNKNOWN = (_CERTAIN // 2, 0)
# Several times what the largest rig takes; a few bytes that unfold without end are stopped here.
_MOST_STEPS = 200_000

Learned = Mapping[Hashable, tuple[int, int]]


class Endless(ValueError):
    """The bits unfold into more than a document can hold, or go on behind their end."""


class Coder:
    """What writer and reader have in common: the interval that all bits so far have narrowed, and what was learned.

    learned: the chance of a 1 in each context, and how often it was seen; what is learned beforehand is given.
    """

    def __init__(self, learned: Learned) -> None:
        self._low, self._high = 0, _ALL
        self.learned = dict(learned)
        self._steps = 0

    def bit(self, where: Hashable, bit: bool = False) -> bool:
        """One bit, in a context. The writer writes `bit`, the reader pays no heed to it; both return what it is."""
        self._steps += 1
        if self._steps > _MOST_STEPS:
            raise Endless
        chance, seen = self.learned.get(where, _UNKNOWN)
        # The lower part of the interval stands for a 1; it is as large as a 1 is likely.
        end = self._low + ((self._high - self._low) * chance // _CERTAIN)
        bit = self._found(bit, end)
        if bit:
            self._high = end
        else:
            self._low = end + 1
        chance += (bit * _CERTAIN - chance) // min(seen + 2, _MEMORY)
        self.learned[where] = min(max(chance, _LEAST), _CERTAIN - _LEAST), seen + 1
        while self._low >> _BYTE == self._high >> _BYTE:
            self._move_on()
            self._low, self._high = self._low << 8 & _ALL, self._high << 8 & _ALL | 0xFF
        return bit

    def _found(self, bit: bool, end: int) -> bool:
        """The bit as it is given, or as it is read: whether it lies in the lower part, up to `end`."""
        raise NotImplementedError

    def _move_on(self) -> None:
        """The first byte of the interval's ends is settled."""
        raise NotImplementedError


class Writer(Coder):
    def __init__(self, learned: Learned) -> None:
        super().__init__(learned)
        self._written = bytearray()

    def written(self) -> bytes:
        """All bits so far: as few bytes as will do, for behind the last one a reader finds zeros."""
        for size in range(0, _BITS + 1, 8):
            step = 1 << (_BITS - size)
            number = -(-self._low // step) * step
            if number <= self._high:
                break
        return bytes(self._written) + (number >> (_BITS - size)).to_bytes(size // 8, "big")

    def _found(self, bit: bool, end: int) -> bool:
        return bit

    def _move_on(self) -> None:
        self._written.append(self._low >> _BYTE)


class Reader(Coder):
    def __init__(self, learned: Learned, body: bytes) -> None:
        super().__init__(learned)
        self._body = body
        self._taken = 0
        self._number = 0
        for _ in range(_BITS // 8):
            self._move_on()

    def has_read_all(self) -> bool:
        return self._taken >= len(self._body)

    def _found(self, bit: bool, end: int) -> bool:
        return self._number <= end

    def _move_on(self) -> None:
        if self._taken >= len(self._body) + _BITS // 8:
            raise Endless
        byte = self._body[self._taken] if self._taken < len(self._body) else 0
        self._number = self._number << 8 & _ALL | byte
        self._taken += 1
