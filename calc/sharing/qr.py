"""A text as a printed code that phones read (ISO/IEC 18004, a QR code), drawn as SVG: black on white, whatever the look."""

from __future__ import annotations

from itertools import groupby

from qrcodegen import QrCode, QrSegment

# A code of 97 modules each way is as fine as a phone reads well from paper or from another phone.
LARGEST = 20
# ISO/IEC 18004:2015, table 7: version 20 at level M has 669 codewords of data; clause 7.4: heads of the segments.
_BITS = 669 * 8
_HEAD_OF_BYTES, _HEAD_OF_LETTERS = 4 + 16, 4 + 11
_BITS_OF_TWO_LETTERS, _BITS_OF_LAST_LETTER = 11, 6
# Clause 9.1: the quiet zone, in modules.
QUIET = 4


def letters_beside(address: str) -> int:
    """How many letters (0 to 9, A to Z, -) the largest code holds after an address."""
    before = _HEAD_OF_BYTES + 8 * len(address.encode()) if address else 0
    pairs, rest = divmod(_BITS - before - _HEAD_OF_LETTERS, _BITS_OF_TWO_LETTERS)
    return 2 * pairs + (rest >= _BITS_OF_LAST_LETTER)


def drawn(address: str, letters: str, label: str) -> str:
    """The code of an address with letters behind it. Raises ValueError where it does not fit."""
    segments = [QrSegment.make_bytes(address.encode())] if address else []
    segments += [QrSegment.make_alphanumeric(letters)] if letters else []
    code = QrCode.encode_segments(segments, QrCode.Ecc.MEDIUM, maxversion=LARGEST)
    size = code.get_size() + 2 * QUIET
    rows = "".join(_row(code, row) for row in range(code.get_size()))
    return (
        f'<svg class="code" xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {size} {size}" role="img" aria-label="{label}"'
        f' shape-rendering="crispEdges"><path fill="#fff" d="M0 0h{size}v{size}h-{size}z"/><path fill="#000" d="{rows}"/></svg>'
    )


def _row(code: QrCode, row: int) -> str:
    """The dark runs of a row, each a rectangle."""
    path, column = "", 0
    for dark, run in groupby(code.get_module(column, row) for column in range(code.get_size())):
        length = len(list(run))
        if dark:
            path += f"M{column + QUIET} {row + QUIET}h{length}v1h-{length}z"
        column += length
    return path
