"""The rig from above and from the side, to scale: where each part's middle is, and where all of it balances.

Classes for the page's own colours: `balance-views` the drawing; `beam`, `axle`, `wheel`, `ground`, `part` a disc whose
area is its mass, `balance` with `quarters` the centre of gravity, `plumb` the line down from it, `carries` what stands
on the ground. Places are to scale; wheels are for the eye, as no fact of this page tells their size.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from calc.check import Answer
from calc.checks.roll.weights import Weights
from calc.drawing.shapes import Point, balance, box, disc, drawing, line, polygon, scale_bar, words
from calc.laws import support
from calc.printing import printed
from calc.quantity import Quantity
from calc.units import kg, mm

_WHEEL, _TYRE, _ROOM = 165.0, 90.0, 160.0
_SIDEWAYS = math.pi / 2


@dataclass(frozen=True)
class _Thing:
    """A part, or as number 0 the bare chassis: mass in kilograms, place in millimetres, and the same in words."""

    number: int
    mass: float
    ahead: float
    left: float
    height: float
    told: str


@dataclass(frozen=True)
class _Support:
    """What stands on the ground: where along the rig, what it carries in words, and whether on two wheels."""

    ahead: float
    carries: str
    wheels: bool = True


def two_views(check: Weights, answer: Answer) -> str:
    """Plan above, side below, as inline SVG; empty where the weights are not known."""
    ahead, height = answer.results.get("cg_ahead"), answer.results.get("cg_height")
    if not isinstance(ahead, Quantity) or not isinstance(height, Quantity):
        return ""
    things, supports = _things(check), _supports(check, answer)
    total = sum(thing.mass for thing in things)
    left = sum(thing.mass * thing.left for thing in things) / total
    middle = (ahead.number_in(mm), left, height.number_in(mm))
    half = check.track.number_in(mm) / 2
    reach = [support.ahead for support in supports] + [thing.ahead for thing in things]
    west, east = min(reach) - _WHEEL - _ROOM, max(reach) + _WHEEL + _ROOM
    size = (east - west) / 22
    wide = max(half + _TYRE, *(abs(thing.left) + _radius(thing, total, half) for thing in things)) + 1.5 * size
    # The ground lies so far down that the highest part stays clear of the plan.
    ground = wide + max(2 * _WHEEL, *(thing.height + _radius(thing, total, half) for thing in things)) + 2.5 * size
    views = _plan(things, supports, middle, half, size) + _side(
        things, supports, middle, half, size, ground, (west, east)
    )
    foot = ground + 5 * size
    views += scale_bar(west + size / 2, foot - size / 2, size)
    views += words("0: the bare chassis", (east - size / 2, foot - size / 2), size, "end")
    return drawing("balance-views", _TITLE, _told(things, supports, answer), (west, -wide - size, east, foot), views)


_TITLE = "From above and, below it, from its right side, front to the right; places to scale, discs by mass"


def _things(check: Weights) -> list[_Thing]:
    bare = (check.chassis_mass, check.chassis_ahead, 0 * mm, check.chassis_height)
    columns = (check.of_each(name) for name in ("mass", "ahead", "aside", "height"))
    return [_thing(number, *row) for number, row in enumerate((bare, *zip(*columns, strict=True)))]


def _thing(number: int, mass: Quantity, ahead: Quantity, aside: Quantity, height: Quantity) -> _Thing:
    name = f"Part {number}" if number else "The bare chassis"
    side = "on the middle line" if aside.si == 0 else f"{printed(aside)} left of the middle line"
    told = f"{name}: {printed(mass)}, {printed(ahead)} ahead of the axle, {side}, {printed(height)} high."
    x, y, z = (each.number_in(mm) for each in (ahead, aside, height))
    return _Thing(number, mass.number_in(kg), x, y, z, told)


def _supports(check: Weights, answer: Answer) -> list[_Support]:
    loads = {name: printed(value) for name, value in answer.results.items() if isinstance(value, Quantity)}
    if check.kind in support.ON_FOUR:
        return [_Support(0, loads["rear_axle"]), _Support(check.wheelbase.number_in(mm), loads["front_axle"])]
    return [_Support(0, loads["axle_load"]), _Support(check.drawbar.number_in(mm), loads["tongue_load"], wheels=False)]


def _radius(thing: _Thing, total: float, half_track: float) -> float:
    return 0.6 * half_track * math.sqrt(thing.mass / total)


def _plan(
    things: list[_Thing], supports: list[_Support], middle: tuple[float, float, float], half: float, size: float
) -> str:
    """From above: the left side is up, where the front is to the right."""
    drawn = line("beam", [(support.ahead, 0) for support in supports])
    for each in supports:
        if each.wheels:
            drawn += line("axle", [(each.ahead, -half), (each.ahead, half)])
            drawn += "".join(
                polygon("wheel", box((each.ahead, side * half), _SIDEWAYS, _WHEEL, _TYRE / 2)) for side in (-1, 1)
            )
    return (
        drawn
        + _discs(things, [(thing.ahead, -thing.left) for thing in things], half, size, above=True)
        + balance((middle[0], -middle[1]), size / 2)
    )


def _side(
    things: list[_Thing],
    supports: list[_Support],
    middle: tuple[float, float, float],
    half: float,
    size: float,
    ground: float,
    ends: tuple[float, float],
) -> str:
    """From its right side: heights above the ground line, and under it what each support carries."""
    drawn = line("ground", [(end, ground) for end in ends])
    for each in supports:
        if each.wheels:
            drawn += disc("wheel-side", (each.ahead, ground - _WHEEL), _WHEEL)
        foot = (each.ahead, ground + size / 4)
        drawn += polygon(
            "carries", [foot, (each.ahead - size / 2, foot[1] + size), (each.ahead + size / 2, foot[1] + size)]
        )
        drawn += words(each.carries, (each.ahead, foot[1] + 2.2 * size), size)
    drawn += line("plumb", [(middle[0], ground - middle[2]), (middle[0], ground)])
    places: list[Point] = [(thing.ahead, ground - thing.height) for thing in things]
    return drawn + _discs(things, places, half, size, above=False) + balance((middle[0], ground - middle[2]), size / 2)


def _discs(things: list[_Thing], places: list[Point], half: float, size: float, above: bool) -> str:
    """Each thing as a disc with its number above it, or to its left; numbers that would meet stand together."""
    total = sum(thing.mass for thing in things)
    drawn = "".join(disc("part", at, _radius(each, total, half)) for each, at in zip(things, places, strict=True))
    groups: list[tuple[Point, list[int]]] = []
    for each, (x, y) in zip(things, places, strict=True):
        out = _radius(each, total, half) + size / 4
        beside = (x, y - out) if above else (x - out, y + size * 0.35)
        place, numbers = next((group for group in groups if _meet(group[0], beside, size)), (beside, []))
        if numbers:
            groups.remove((place, numbers))
        groups.append(((min(place[0], beside[0]), min(place[1], beside[1])), [*numbers, each.number]))
    return drawn + "".join(
        words(", ".join(map(str, numbers)), at, size, "middle" if above else "end") for at, numbers in groups
    )


def _meet(one: Point, other: Point, size: float) -> bool:
    return abs(one[0] - other[0]) < 2 * size and abs(one[1] - other[1]) < 1.5 * size


def _told(things: list[_Thing], supports: list[_Support], answer: Answer) -> str:
    results = {name: printed(value) for name, value in answer.results.items() if isinstance(value, Quantity)}
    behind, before = (each.carries for each in supports)
    front = "the front axle" if supports[1].wheels else "the tongue or handle"
    said = [thing.told for thing in things]
    said.append(
        f"All of it: {results['total_mass']}, its middle {results['cg_ahead']} ahead of the axle and "
        f"{results['cg_height']} high; {behind} on the rear or only axle, {before} on {front}."
    )
    return " ".join(said)
