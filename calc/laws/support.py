"""On what a rig stands: the polygon of its wheels and props, and the slope on which its weight leaves that polygon.

A thing tips over an edge when the centre of gravity stands above that edge: at the angle whose tangent is the distance
to the edge over the height. The half-track formula knows two edges only; a single axle on its prop stands on a
triangle, and a wagon's front wheels move inward as it steers.
"""

from __future__ import annotations

from dataclasses import dataclass

from calc.quantity import Quantity, arctangent, cosine, limit, root, sine, step
from calc.sources import OWN_DERIVATION
from calc.units import degree, mm

FOUR, TWO, SINGLE, WAGON = (
    "hand cart, four wheels",
    "hand cart, two wheels",
    "trailer, single axle",
    "wagon, four wheels, steered by the drawbar",
)
KINDS = (FOUR, TWO, SINGLE, WAGON)
ON_A_PROP, ON_FOUR = (TWO, SINGLE), (FOUR, WAGON)
HEAVY, LIGHT, FORWARD, BACKWARD = "to its heavy side", "to its light side", "forward", "backward"
SIDEWAYS = (HEAVY, LIGHT)


@dataclass(frozen=True)
class Edge:
    """A line from one support to the next: which way it tips over it, and how far the weight's middle is inside [m]."""

    way: str
    mark: str
    inside: Quantity


@dataclass(frozen=True)
class Middle:
    """Where the centre of gravity is: ahead of the axle, and off the middle line toward the heavy side [m]."""

    ahead: Quantity
    aside: Quantity


def _edge(way: str, mark: str, inside: Quantity) -> Edge:
    return Edge(way, mark, limit(f"e_{mark}", f"To the edge over which it tips {way}", inside, mm, OWN_DERIVATION))


def _narrowing(length: Quantity, wide: Quantity, narrow: Quantity, off: Quantity, ahead: Quantity) -> Quantity:
    """Distance to the line from a wheel `wide` off the middle to a support `length` farther on, `narrow` off it."""
    gives = wide - narrow
    return (length * off - gives * ahead) / root(length**2 + gives**2)


def rectangle(track: Quantity, wheelbase: Quantity, middle: Middle) -> list[Edge]:
    """Four wheels that stay where they are."""
    return [
        _edge(HEAVY, "h", track / 2 - middle.aside),
        _edge(LIGHT, "l", track / 2 + middle.aside),
        _edge(FORWARD, "f", wheelbase - middle.ahead),
        _edge(BACKWARD, "b", middle.ahead),
    ]


def steered(track: Quantity, wheelbase: Quantity, swing: Quantity, middle: Middle) -> list[Edge]:
    """A front axle turned by the drawbar about its middle, so that the wheel on the heavy side comes back."""
    half = track / 2
    back = step("t_x", "A front wheel moves along by", half * sine(swing), mm, OWN_DERIVATION)
    narrow = step("t_y", "A front wheel stays off the middle by", half * cosine(swing), mm, OWN_DERIVATION)
    return [
        _edge(HEAVY, "h", _narrowing(wheelbase - back, half, narrow, half - middle.aside, middle.ahead)),
        _edge(LIGHT, "l", _narrowing(wheelbase + back, half, narrow, half + middle.aside, middle.ahead)),
        _edge(FORWARD, "f", (wheelbase - middle.ahead) * cosine(swing) - middle.aside * sine(swing)),
        _edge(BACKWARD, "b", middle.ahead),
    ]


def on_a_prop(track: Quantity, ahead: Quantity, middle: Middle) -> list[Edge]:
    """Two wheels and one support ahead, in the middle: a triangle."""
    return [*_to_a_point(track, ahead, middle), _edge(BACKWARD, "b", middle.ahead)]


def on_two_props(track: Quantity, ahead: Quantity, behind: Quantity, middle: Middle) -> list[Edge]:
    """Two wheels, one support ahead and one behind."""
    return [
        *_to_a_point(track, ahead, middle),
        *_to_a_point(track, behind, Middle(-middle.ahead, middle.aside), f"{BACKWARD} and ", "b"),
    ]


def _to_a_point(track: Quantity, reach: Quantity, middle: Middle, toward: str = "", mark: str = "") -> list[Edge]:
    half = track / 2
    length = root(reach**2 + half**2)
    return [
        _edge(f"{toward}{HEAVY}", f"{mark}h", (reach * (half - middle.aside) - half * middle.ahead) / length),
        _edge(f"{toward}{LIGHT}", f"{mark}l", (reach * (half + middle.aside) - half * middle.ahead) / length),
    ]


def tipping_angle(edge: Edge, height: Quantity) -> Quantity:
    """The slope on which it tips over this edge [°]."""
    return limit(
        f"α_{edge.mark}", f"Slope on which it tips {edge.way}", arctangent(edge.inside / height), degree, OWN_DERIVATION
    )
