"""Rig and vehicle from above, to scale, at three moments of backing up: now, half way and at the point of no return.

Classes for the page's own colours: `backing` the drawing, `vehicle`, `body`, `drawbar`, `wheel`, `hitch`, and `moment`
for each of the three with `now`, `half` or `end`. Nothing but classes and attributes of shape; millimetres throughout.
"""

from __future__ import annotations

import math

from calc.checks.roll.backing import Backing
from calc.drawing.shapes import Point, box, line, polygon
from calc.laws import backing, support
from calc.quantity import Quantity
from calc.units import m, mm

# The vehicle beyond its axles and half its width, where no fact says: for the eye only.
_NOSE, _HALF_VEHICLE, _HALF_RIG = 450.0, 600.0, 420.0
_WHEEL = (300.0, 110.0)
_ROOM = 300.0
MOMENTS = (("now", "Now", 0.0), ("half", "Half way", 0.5), ("end", "No return", 1.0))


def plan(check: Backing) -> str:
    """The three moments side by side, as inline SVG; empty where the question has no metres."""
    metres = check.answer().results.get("metres")
    if not isinstance(metres, Quantity) or metres.si <= 0:
        return ""
    shapes = [_moment(check, metres.number_in(m) * share) for _, _, share in MOMENTS]
    corners = [point for moment in shapes for _, points in moment for point in points]
    left, right = min(x for x, _ in corners) - _ROOM, max(x for x, _ in corners) + _ROOM
    top, foot = min(y for _, y in corners) - _ROOM, max(y for _, y in corners) + _ROOM
    width = right - left
    drawn = "".join(
        f'<g class="moment {key}" transform="translate({index * width - left:.0f} {-top:.0f})">'
        f'<text x="{(left + right) / 2:.0f}" y="{top + 200:.0f}" text-anchor="middle" font-size="180">{word}</text>'
        + "".join((line if kind == "drawbar" else polygon)(kind, points) for kind, points in shapes[index])
        + "</g>"
        for index, (key, word, _) in enumerate(MOMENTS)
    )
    title = f"From above, to scale: now, half way and after {metres}, where nothing brings it back"
    return (
        f'<svg class="backing" viewBox="0 0 {width * len(MOMENTS):.0f} {foot - top:.0f}" role="img" '
        f'aria-label="{title}"><title>{title}</title>{drawn}</svg>'
    )


def angles(check: Backing, distance: float) -> tuple[float, float]:
    """The angle at the hitch and of drawbar to body after so many metres back, in radians."""
    hitch = backing.hitch_after(check.start.si, check.drawbar.si, distance)
    if check.kind != support.WAGON:
        return hitch, 0.0
    body = backing.body_after(check.start.si, check.drawbar.si, check.wheelbase.si, distance) if distance else 0.0
    return hitch, body


def _moment(check: Backing, distance: float) -> list[tuple[str, list[Point]]]:
    """Outlines with the hitch at the origin and the vehicle's nose up; y grows downward, as on the page."""
    hitch, body = angles(check, distance)
    overhang, wheelbase = check.overhang.number_in(mm), check.vehicle_wheelbase.number_in(mm)
    drawbar = check.drawbar.number_in(mm)
    axle: Point = (drawbar * math.sin(hitch), drawbar * math.cos(hitch))
    shapes = [
        ("vehicle", box((0.0, -overhang - wheelbase / 2), 0.0, wheelbase / 2 + _NOSE, _HALF_VEHICLE)),
        *_wheels((0.0, -overhang), 0.0, _HALF_VEHICLE),
        *_wheels((0.0, -overhang - wheelbase), 0.0, _HALF_VEHICLE),
        ("drawbar", [(0.0, 0.0), axle]),
        *_wheels(axle, hitch, _HALF_RIG),
    ]
    if check.kind != support.WAGON:
        shapes.append(("body", box(axle, hitch, _HALF_RIG * 1.4, _HALF_RIG)))
    else:
        length, heading = check.wheelbase.number_in(mm), hitch + body
        rear: Point = (axle[0] + length * math.sin(heading), axle[1] + length * math.cos(heading))
        middle: Point = ((axle[0] + rear[0]) / 2, (axle[1] + rear[1]) / 2)
        shapes += [
            ("body", box(middle, heading, length / 2 + _WHEEL[0] / 2, _HALF_RIG)),
            *_wheels(rear, heading, _HALF_RIG),
        ]
    return [*shapes, ("hitch", box((0.0, 0.0), math.pi / 4, 40.0, 40.0))]


def _wheels(axle: Point, heading: float, half_track: float) -> list[tuple[str, list[Point]]]:
    across = (math.cos(heading), -math.sin(heading))
    return [
        (
            "wheel",
            box(
                (axle[0] + side * half_track * across[0], axle[1] + side * half_track * across[1]),
                heading,
                _WHEEL[0] / 2,
                _WHEEL[1] / 2,
            ),
        )
        for side in (-1, 1)
    ]
