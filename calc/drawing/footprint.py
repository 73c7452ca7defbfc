"""What a rig stands on, from above and to scale: its wheels and props joined up, and the edge over which it tips first.

Classes for the page's own colours: `footprint` the drawing; `stands` the figure, `edge` the weakest side of it, `reach`
the way to it from the centre of gravity, `wheel` and `prop` what stands, `balance` with `quarters` the centre of gravity.
"""

from __future__ import annotations

import math

from calc.check import Answer
from calc.checks.roll.ramp_tip import DOWN, ROCKS, RampTip
from calc.drawing.shapes import Point, balance, box, disc, drawing, line, polygon, scale_bar, words
from calc.laws import support
from calc.printing import printed
from calc.quantity import Quantity
from calc.units import mm

_WHEEL, _TYRE, _ROOM = 165.0, 90.0, 120.0
_SIDEWAYS = math.pi / 2


def from_above(check: RampTip, answer: Answer) -> str:
    """The figure with its weakest edge, front to the right, the heavy side up; empty where nothing is known."""
    weakest, way = answer.results.get("weakest_angle"), answer.results.get("weakest_way")
    if not isinstance(weakest, Quantity):
        return ""
    points = corners(check)
    middle: Point = (check.cg_ahead.number_in(mm), -check.cg_aside.number_in(mm))
    edge = min(_sides(points), key=lambda side: _distance(middle, side))
    xs, ys = [x for x, _ in (*points, middle)], [y for _, y in (*points, middle)]
    west, east, top, foot = min(xs) - _WHEEL - _ROOM, max(xs) + _WHEEL + _ROOM, min(ys) - _WHEEL, max(ys) + _WHEEL
    size = (east - west) / 22
    top, foot = top - size, foot + size
    shapes = polygon("stands", points) + "".join(_standing(check))
    shapes += line("edge", edge) + line("reach", [middle, _nearest(middle, edge)]) + balance(middle, size / 2)
    shapes += words(printed(weakest), _beyond(middle, _nearest(middle, edge), 0.9 * size), size)
    shapes += scale_bar(west + size / 2, foot + 2 * size, size)
    falls = f"{weakest}, {way}" if way else f"{weakest}"
    told = (
        f"It stands on {len(points)} points. Its centre of gravity is {printed(check.cg_ahead)} ahead of the axle, "
        f"{printed(check.cg_aside)} off the middle line and {printed(check.cg_height)} high. It tips at {falls}."
    )
    title = "From above, to scale, front to the right: what it stands on, and as the thick line the edge over which it tips first"
    return drawing("footprint", title, told, (west, top - size, east, foot + 3 * size), shapes)


def corners(check: RampTip) -> list[Point]:
    """Where it touches the ground, in order round it; the heavy side is up."""
    half = check.track.number_in(mm) / 2
    axle: list[Point] = [(0.0, half), (0.0, -half)]
    if check.kind == support.FOUR:
        front = check.wheelbase.number_in(mm)
        return [*axle, (front, -half), (front, half)]
    if check.kind == support.WAGON:
        front = check.wheelbase.number_in(mm)
        if check.front_axle == ROCKS:
            return [*axle, (front, 0.0)]
        along, aside = half * math.sin(check.swing.si), half * math.cos(check.swing.si)
        return [*axle, (front - along, -aside), (front + along, aside)]
    points = [axle[1], (check.prop_ahead.number_in(mm), 0.0), axle[0]]
    return [*points, (-check.prop_behind.number_in(mm), 0.0)] if check.rear_prop == DOWN else points


def _standing(check: RampTip) -> list[str]:
    """Wheels where wheels are, and a small disc for a prop."""
    half = check.track.number_in(mm) / 2
    turned = check.swing.si if check.kind == support.WAGON and check.front_axle != ROCKS else 0.0
    axles = [(0.0, 0.0)]
    if check.kind in support.ON_FOUR:
        axles.append((check.wheelbase.number_in(mm), turned))
    wheels = [
        polygon("wheel", box(_turned(along, turn, side * half), _SIDEWAYS + turn, _WHEEL, _TYRE / 2))
        for along, turn in axles
        for side in (-1, 1)
    ]
    props = [disc("prop", point, _TYRE / 2) for point in corners(check) if point[1] == 0.0]
    return wheels + props


def _turned(along: float, turn: float, aside: float) -> Point:
    """A wheel of an axle that is turned about its middle, the upper one coming back."""
    return along + aside * math.sin(turn), aside * math.cos(turn)


def _sides(points: list[Point]) -> list[tuple[Point, Point]]:
    return list(zip(points, points[1:] + points[:1], strict=True))


def _distance(point: Point, side: tuple[Point, Point]) -> float:
    """How far inside a side of the figure, by its line; below zero outside. The corners go round clockwise."""
    (ax, ay), (bx, by) = side
    return ((bx - ax) * (point[1] - ay) - (by - ay) * (point[0] - ax)) / math.dist(*side)


def _nearest(point: Point, side: tuple[Point, Point]) -> Point:
    (ax, ay), (bx, by) = side
    share = ((point[0] - ax) * (bx - ax) + (point[1] - ay) * (by - ay)) / math.dist(*side) ** 2
    return ax + share * (bx - ax), ay + share * (by - ay)


def _beyond(start: Point, end: Point, further: float) -> Point:
    """So far past the end of a way; at its end where it has no length."""
    length = math.dist(start, end) or 1.0
    return tuple(b + (b - a) / length * further for a, b in zip(start, end, strict=True))  # type: ignore[return-value]
