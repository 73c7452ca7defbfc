"""Faces of outlets, drawn from the tables: what somebody sees who stands before them.

Classes for the page's own colours: `outlet-face` the drawing, `face` its outline, `slot` a contact with one of `hot`,
`neutral` and `ground`, `key` the notch of an industrial connector. Every drawing has a title, read out in its place.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from calc.tables import Table, table

# The drawing is in thousandths of an inch, or of the face's radius for an industrial connector.
_SCALE = 1000
_ROOM = 60
_SLOT_WIDTH = 0.075
_BEND_WIDTH = 0.11
_HOOK = 13  # degrees of the arc that the hook is wide


def drawn() -> tuple[str, ...]:
    """The patterns that are drawn."""
    return tuple(row.removesuffix(" face") for row in table("outlet_slots").rows if row.endswith(" face"))


def from_memory(configuration: str) -> bool:
    """Whether the drawing shows an arrangement that was recalled: then it tells patterns apart and no more."""
    listed = table("outlet_slots")
    return any(
        cell.endswith("?")
        for (row, _), cell in listed.cells.items()
        if row.rpartition(" ")[0].startswith(configuration)
    )


def outlet_face(configuration: str) -> str:
    """The face of an outlet as it is looked at, as inline SVG; empty where its slots are not known."""
    listed = table("outlet_slots")
    if configuration not in drawn():
        return ""
    radius = _number(listed, f"{configuration} face", "width") * _SCALE / 2
    slots = "".join(_slot(listed, row) for row in _rows(listed, configuration))
    scale = "arrangement only, not to scale" if from_memory(configuration) else "to the standard's dimensions"
    return _drawing(radius, f"Face of a {configuration}, {scale}", slots)


def industrial_face(hour: int, contacts: int) -> str:
    """The face of an industrial socket: contacts evenly round, the earth at its hour, the keyway at six.

    contacts: with the earth, 3 for one phase, 4 or 5 for three. The thick one is the earth.
    """
    radius = _SCALE
    pins = []
    for place in range(contacts):
        angle = math.radians(hour * 30 + place * 360 / contacts)
        x, y = (0.55 * radius * part for part in (math.sin(angle), -math.cos(angle)))
        kind, size = ("ground", 150) if place == 0 else ("hot", 110)
        pins.append(f'<circle class="slot {kind}" cx="{x:.0f}" cy="{y:.0f}" r="{size}"/>')
    key = f'<rect class="key" x="-120" y="{radius - 90:.0f}" width="240" height="150" rx="30"/>'
    return _drawing(
        radius, f"Face of a connector with {contacts} contacts, earth at {hour} o'clock", key + "".join(pins)
    )


def _rows(listed: Table, configuration: str) -> Iterator[str]:
    for row in listed.rows:
        named = row.removeprefix(f"{configuration} ")
        if named != row and named in ("hot", "second hot", "neutral", "ground"):
            yield row


def _number(listed: Table, row: str, column: str) -> float:
    return float(listed.text(row, column))


def _drawing(radius: float, title: str, inside: str) -> str:
    edge = radius + _ROOM
    return (
        f'<svg class="outlet-face" viewBox="{-edge:.0f} {-edge:.0f} {2 * edge:.0f} {2 * edge:.0f}" role="img" '
        f'xmlns="http://www.w3.org/2000/svg"><title>{title}</title>'
        f'<circle class="face" cx="0" cy="0" r="{radius:.0f}" fill="none" stroke="currentColor" stroke-width="24"/>'
        f"{inside}</svg>"
    )


def _slot(listed: Table, row: str) -> str:
    shape, contact = listed.text(row, "shape"), listed.text(row, "contact")
    x, y, width, height, turn = (_number(listed, row, column) for column in ("x", "y", "width", "height", "turn"))
    drawing = {"slot": _straight, "T": _tee, "L": _bent, "D": _half_round}.get(shape)
    if drawing is None:
        path = _arc(x, width, height, turn, hooked=shape == "hooked arc")
        return f'<path class="slot {contact}" d="{path}"/>'
    place = f"translate({x * _SCALE:.0f} {y * _SCALE:.0f})" + (f" rotate({turn:g})" if turn else "")
    return f'<path class="slot {contact}" transform="{place}" d="{drawing(width * _SCALE, height * _SCALE)}"/>'


def _straight(width: float, height: float) -> str:
    return f"M{-width / 2:.0f} {-height / 2:.0f}h{width:.0f}v{height:.0f}h{-width:.0f}z"


def _tee(width: float, height: float) -> str:
    """An upright slot with a bar outward, to the left, from its middle."""
    slot = _SLOT_WIDTH * _SCALE
    reach = width - slot
    return (
        f"M{-slot / 2:.0f} {-height / 2:.0f}h{slot:.0f}v{height:.0f}h{-slot:.0f}v{(slot - height) / 2:.0f}"
        f"h{-reach:.0f}v{-slot:.0f}h{reach:.0f}z"
    )


def _bent(width: float, height: float) -> str:
    slot = _BEND_WIDTH * _SCALE
    return (
        f"M{-width / 2:.0f} {-height / 2:.0f}h{width:.0f}v{slot:.0f}h{slot - width:.0f}"
        f"v{height - slot:.0f}h{-slot:.0f}z"
    )


def _half_round(width: float, height: float) -> str:
    """Flat above, round below."""
    side = height - width / 2
    return (
        f"M{-width / 2:.0f} {-height / 2:.0f}h{width:.0f}v{side:.0f}"
        f"a{width / 2:.0f} {width / 2:.0f} 0 0 1 {-width:.0f} 0z"
    )


def _arc(radius: float, thick: float, span: float, middle: float, hooked: bool) -> str:
    """A curved slot about the middle of the face; angles in degrees from the right, upward. The hook turns inward."""
    start, end = math.radians(middle - span / 2), math.radians(middle + span / 2)
    outer, inner = (radius + thick / 2) * _SCALE, (radius - thick / 2) * _SCALE
    (ax, ay), (bx, by) = _at(outer, start), _at(outer, end)
    (cx, cy), (dx, dy) = _at(inner, end), _at(inner, start)
    hook = ""
    if hooked:
        bend = start + math.radians(_HOOK)
        (ex, ey), (fx, fy) = _at(inner - thick * _SCALE, bend), _at(inner - thick * _SCALE, start)
        (dx, dy) = _at(inner, bend)
        hook = f"L{ex:.0f} {ey:.0f}L{fx:.0f} {fy:.0f}"
    return (
        f"M{ax:.0f} {ay:.0f}A{outer:.0f} {outer:.0f} 0 0 0 {bx:.0f} {by:.0f}L{cx:.0f} {cy:.0f}"
        f"A{inner:.0f} {inner:.0f} 0 0 1 {dx:.0f} {dy:.0f}{hook}z"
    )


def _at(radius: float, angle: float) -> tuple[float, float]:
    return radius * math.cos(angle), -radius * math.sin(angle)
