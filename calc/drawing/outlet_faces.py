"""Faces of outlets, drawn from the tables: what somebody sees who stands before them.

Classes for the page's own colours: `outlet-face` the drawing, `face` its outline, `slot` a contact with one of `hot`,
`neutral` and `ground`, `key` the notch of an industrial connector. Every drawing has a title, read out in its place.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from calc.tables import Table, table

# The drawing is in thousandths of an inch, or of the face's radius for an industrial connector.
_SCALE = 1000
_ROOM = 60
_SLOT_WIDTH = 0.075
_BEND_WIDTH = 0.11
_HOOK = 13  # degrees of the arc that the hook is wide

TO_SCALE = "to the standard's dimensions"
IN_PROPORTION = "after a chart, to tell patterns apart and not for measuring"
FROM_MEMORY = "from memory, to tell patterns apart and not for measuring"


def drawn() -> tuple[str, ...]:
    """The patterns that are drawn."""
    return tuple(row.removesuffix(" face") for row in table("outlet_slots").rows if row.endswith(" face"))


def how_drawn(configuration: str) -> str:
    """What a drawing is good for: only what stands in the standard's own dimensions may be measured."""
    listed = table("outlet_slots")
    rows = [row for row in listed.rows if row.rpartition(" ")[0].removesuffix(" second") == configuration]
    if any(listed.cells[row, column].endswith("?") for row in rows for column in listed.columns):
        return FROM_MEMORY
    return TO_SCALE if listed.text(f"{configuration} face", "shape") == "face" else IN_PROPORTION


def outlet_face(configuration: str) -> str:
    """The face of an outlet as it is looked at, as inline SVG; empty where its slots are not known."""
    listed = table("outlet_slots")
    if configuration not in drawn():
        return ""
    radius = _number(listed, f"{configuration} face", "width") * _SCALE / 2
    slots = "".join(_slot(listed, row) for row in _rows(listed, configuration))
    return _drawing(radius, f"Face of a {configuration}, {how_drawn(configuration)}", slots)


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
        if named != row and named in ("hot", "second hot", "neutral", "ground", "spike"):
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
    if shape == "ring":
        path = "".join(_round((x + part * width) * _SCALE) for part in (0.5, -0.5))
        return f'<path class="slot {contact}" fill-rule="evenodd" d="{path}"/>'
    if shape == "spike":
        return f'<circle class="{contact}" cx="{x * _SCALE:.0f}" cy="{y * _SCALE:.0f}" r="{width * _SCALE / 2:.0f}"/>'
    drawing = {"slot": _straight, "T": _tee, "L": _bent, "D": _half_round}.get(shape)
    if drawing is None:
        path = _arc(x, width, height, turn, _HOOKS[shape])
        return f'<path class="slot {contact}" d="{path}"/>'
    place = f"translate({x * _SCALE:.0f} {y * _SCALE:.0f})" + (f" rotate({turn:g})" if turn else "")
    return f'<path class="slot {contact}" transform="{place}" d="{drawing(width * _SCALE, height * _SCALE)}"/>'


def _round(radius: float) -> str:
    half = f"a{radius:.0f} {radius:.0f} 0 0 1"
    return f"M{-radius:.0f} 0{half} {2 * radius:.0f} 0{half} {-2 * radius:.0f} 0z"


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


@dataclass(frozen=True)
class _Hook:
    """A foot at one end of a curved slot: at its first or last end, counted against the clock, inward or outward."""

    there: bool = True
    last: bool = False
    out: bool = False


_HOOKS = {
    "arc": _Hook(there=False),
    "hooked arc": _Hook(),
    "arc hooked last": _Hook(last=True),
    "arc hooked out": _Hook(out=True),
    "arc hooked out last": _Hook(last=True, out=True),
}


def _arc(radius: float, thick: float, span: float, middle: float, hook: _Hook) -> str:
    """A curved slot about the middle of the face; angles in degrees from the right, upward. It begins at its hook."""
    reach = -span / 2 if hook.last else span / 2
    start, end = math.radians(middle - reach), math.radians(middle + reach)
    bend = start + math.radians(math.copysign(_HOOK, reach)) if hook.there else start
    there, back = ("1", "0") if hook.last else ("0", "1")
    outer, inner, deep = ((radius + part * thick) * _SCALE for part in (0.5, -0.5, 1.5 if hook.out else -1.5))
    foot = [_at(deep, start), _at(deep, bend)] if hook.there else []
    # From the near side of the foot round the far side of the slot, and home on the side that has no foot.
    near, far = (outer, inner) if hook.out else (inner, outer)
    begins, turns = (_at(far, start), _at(near, bend))
    corners = "".join(f"L{x:.0f} {y:.0f}" for x, y in reversed(foot))
    return (
        f"M{_point(begins)}A{far:.0f} {far:.0f} 0 0 {there} {_point(_at(far, end))}L{_point(_at(near, end))}"
        f"A{near:.0f} {near:.0f} 0 0 {back} {_point(turns)}{corners}z"
    )


def _point(at: tuple[float, float]) -> str:
    return f"{at[0]:.0f} {at[1]:.0f}"


def _at(radius: float, angle: float) -> tuple[float, float]:
    return radius * math.cos(angle), -radius * math.sin(angle)
