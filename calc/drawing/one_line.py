"""The rig's one-line diagram: each part a row, what feeds it above and to the left, as inline SVG.

Rows keep it readable on a phone and on paper. Every wire carries the keys of the two parts that it joins, so that the
tree can be read back from the drawing. Classes for the page's own colours: `one-line` the drawing, `part` with its
kind, `wire`, `join` where a second source meets a tree, and `name` and `detail` for the words. What a person typed
stands only in text and titles, escaped.
"""

from __future__ import annotations

import textwrap
from collections.abc import Iterator
from dataclasses import dataclass

from markupsafe import escape

from calc.rig import Rig
from calc.wiring import Branch, Part, wiring

WIDTH = 400
_INDENT, _LEFT, _HALF = 17, 26, 11
_LINE, _GAP = 17, 12
_LETTER = 7.6  # a broad letter of the 14 px type


@dataclass(frozen=True)
class _Row:
    """A part at its place: x and y of its sign, its words in lines."""

    part: Part
    feeder: str
    x: float
    y: float
    lines: tuple[str, ...]

    @property
    def foot(self) -> float:
        return self.y - _LINE / 2 + len(self.lines) * _LINE + _GAP


def one_line(rig: Rig) -> str:
    """The diagram; empty where no source is known."""
    found = wiring(rig)
    if not found.trees:
        return ""
    rows = _rows(found.trees)
    places = {row.part.key: row for row in rows}
    wires = "".join(_wire(places[row.feeder], row) for row in rows if row.feeder)
    joins = "".join(_join(places[a], places[b], 2 + 5 * n) for n, (a, b) in enumerate(found.joins))
    height = rows[-1].foot
    title = "One-line diagram: what feeds what, from the bank to the outlets"
    return (
        f'<svg class="one-line" viewBox="0 0 {WIDTH} {height:.0f}" role="img" aria-label="{title}">'
        f"<title>{title}</title>{wires}{joins}{''.join(_drawn(row) for row in rows)}</svg>"
    )


def _rows(trees: tuple[Branch, ...]) -> list[_Row]:
    rows: list[_Row] = []

    def place(branch: Branch, feeder: str, depth: int) -> None:
        x, y = _LEFT + depth * _INDENT, (rows[-1].foot if rows else _GAP / 2) + _LINE / 2
        rows.append(_Row(branch.part, feeder, x, y, tuple(_words(branch.part, x))))
        for below in branch.branches:
            place(below, branch.part.key, depth + 1)

    for tree in trees:
        place(tree, "", 0)
    return rows


def _words(part: Part, x: float) -> Iterator[str]:
    """Name and details in as few lines as hold them; the first line is the name."""
    room = max(12, int((WIDTH - x - 2 * _HALF) / _LETTER))
    details = ", ".join(detail.replace("\u00a0", " ") for detail in part.details)
    yield from textwrap.wrap(part.name, room) or [part.kind]
    yield from textwrap.wrap(details, room)


def _wire(feeder: _Row, fed: _Row) -> str:
    keys = f'data-from="{feeder.part.key}" data-to="{fed.part.key}"'
    return f'<path class="wire" {keys} d="M{feeder.x:.0f} {feeder.y:.0f}V{fed.y:.0f}H{fed.x - _HALF:.0f}"/>'


def _join(source: _Row, meets: _Row, edge: int) -> str:
    """Along the left edge, dashed: the second source and the place where it meets the tree."""
    keys = f'data-from="{source.part.key}" data-to="{meets.part.key}"'
    return (
        f'<path class="join" {keys} d="M{source.x - _HALF:.0f} {source.y:.0f}H{edge}V{meets.y:.0f}'
        f'H{meets.x - _HALF:.0f}"/>'
    )


def _drawn(row: _Row) -> str:
    kind = row.part.kind
    words = "".join(
        f'<tspan class="{"name" if line in row.part.name else "detail"}" x="{row.x + _HALF + 8:.0f}" '
        f'y="{row.y + 5 + index * _LINE:.0f}">{escape(line)}</tspan>'
        for index, line in enumerate(row.lines)
    )
    sign = _SIGNS.get(kind, _SIGNS["load"])
    return (
        f'<g class="part {escape(kind)}" data-key="{row.part.key}">'
        f'<g transform="translate({row.x:.0f} {row.y:.0f})">{sign}</g><text font-size="14">{words}</text></g>'
    )


_FRAME = '<rect x="-11" y="-11" width="22" height="22"/>'
_SIGNS = {
    # Long and short plates; a strip through a box; a contact that opens; direct into alternating; two slots; pins.
    "bank": '<path d="M-11 -6H11M-6 -1H6M-11 5H11M-6 10H6"/>',
    "fuse": '<rect x="-11" y="-5" width="22" height="10"/><path d="M-11 0H11"/>',
    "breaker": '<path d="M-11 0H-5L6 -8M6 0H11M2 -3L10 3M10 -3L2 3"/>',
    "device": '<rect x="-11" y="-5" width="22" height="10"/>',
    "cable": '<path class="run" d="M-11 0H11"/>',
    "inverter": f'{_FRAME}<path d="M-11 11L11 -11M-8 -6H-1M-8 -3H-1M2 6q2 -5 4 0t4 0"/>',
    "outlet": '<circle r="10"/><path d="M-4 -5V2M4 -5V2M0 5V7"/>',
    "inlet": '<path d="M-11 0H-4M11 -9H2A6 9 0 0 0 2 9H11M4 -4H11M4 4H11"/>',
    "panel": f'{_FRAME}<path d="M-11 -4H11M-11 4H11M0 -11V11"/>',
    "load": '<circle r="9"/>',
    "car": '<path d="M-11 4V-1L-6 -2L-3 -7H5L8 -2L11 -1V4Z"/><circle cx="-5" cy="5" r="3"/><circle cx="6" cy="5" r="3"/>',
}
