"""Pushing a rig backward with the vehicle that pulls it: angles that grow by themselves, and how far that goes.

Kinematics without slip, at a walk. φ is the angle at the hitch, χ that between a wagon's drawbar and its body. With the
wheels straight φ grows as tan(φ/2) = tan(φ₀/2)·exp(s/D); χ has no closed form and is stepped in floats.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from calc.quantity import Quantity, arcsine, arctangent, limit, log, root, step, tangent
from calc.sources import OWN_DERIVATION
from calc.units import degree, m, mm, per_m

STEPS_PER_DRAWBAR = 1000


@dataclass(frozen=True)
class Turning:
    """The tightest circle of the vehicle: its curvature at the rear axle [1/m] and the hitch behind that axle [m]."""

    curve: Quantity
    overhang: Quantity


def tightest(wheelbase: Quantity, steering: Quantity, overhang: Quantity) -> Turning:
    """The tightest circle by wheelbase and steering angle."""
    return Turning(
        step("k", "Curve of the rear axle, wheels hard over", tangent(steering) / wheelbase, per_m), overhang
    )


def recovers_always_from(turning: Turning) -> Quantity:
    """The drawbar from which on the wheels hard over bring back any angle [m]."""
    return step(
        "D_∞", "Drawbar that never jackknifes", root((1 / turning.curve) ** 2 + turning.overhang**2), mm, OWN_DERIVATION
    )


def critical_angle(turning: Turning, drawbar: Quantity) -> Quantity:
    """The angle at the hitch past which not even the wheels hard over bring it back [°].

    Only for a drawbar shorter than `recovers_always_from`.
    """
    behind = turning.overhang * turning.curve
    return limit(
        "φ_c",
        "Angle at the hitch past which nothing brings it back",
        arctangent(behind) + arcsine(drawbar * turning.curve / root(1 + behind**2)),
        degree,
        OWN_DERIVATION,
    )


def body_angle(turning: Turning, drawbar: Quantity, wheelbase: Quantity) -> Quantity | None:
    """The angle between a wagon's drawbar and body past which the tightest steady circle no longer brings it back [°].

    None where the front axle's circle is so tight that the body always follows.
    """
    square = (1 / turning.curve) ** 2 + turning.overhang**2 - drawbar**2
    if square.si <= wheelbase.si**2:
        return None
    circle = step("R_f", "Tightest steady circle of the wagon's front axle", root(square), m, OWN_DERIVATION, rounds=1)
    return limit(
        "χ_c", "Angle of drawbar to body past which it folds", arcsine(wheelbase / circle), degree, OWN_DERIVATION
    )


def metres_straight(symbol: str, label: str, drawbar: Quantity, start: Quantity, end: Quantity) -> Quantity:
    """How far it goes back, wheels straight, while the angle at the hitch grows from start to end [m]."""
    return limit(symbol, label, drawbar * log(tangent(end / 2) / tangent(start / 2)), m, OWN_DERIVATION)


# --- the float kernel: metres and radians ------------------------------------------------------------------------------


def hitch_after(start: float, drawbar: float, distance: float) -> float:
    """The angle at the hitch after so many metres back with the wheels straight."""
    return 2 * math.atan(math.tan(start / 2) * math.exp(distance / drawbar))


def body_after(start: float, drawbar: float, wheelbase: float, distance: float) -> float:
    """The angle of a wagon's drawbar to its body after so many metres, from in line; it lags, so it is below zero."""
    count = max(1, math.ceil(distance / drawbar * STEPS_PER_DRAWBAR))
    size, angle = distance / count, 0.0
    for index in range(count):
        angle = _stepped(angle, index * size, size, start, drawbar, wheelbase)
    return angle


def _stepped(angle: float, at: float, size: float, start: float, drawbar: float, wheelbase: float) -> float:
    """One step by the classical Runge-Kutta rule of fourth order."""

    def slope(distance: float, body: float) -> float:
        hitch = hitch_after(start, drawbar, distance)
        return math.cos(hitch) * math.sin(body) / wheelbase - math.sin(hitch) / drawbar

    first = slope(at, angle)
    second = slope(at + size / 2, angle + size / 2 * first)
    third = slope(at + size / 2, angle + size / 2 * second)
    fourth = slope(at + size, angle + size * third)
    return angle + size * (first + 2 * second + 2 * third + fourth) / _SIXTH


_SIXTH = 6


def body_reaches(start: float, drawbar: float, wheelbase: float, most: float, farthest: float) -> float:
    """The metres after which a wagon's body is at this angle to its drawbar; `farthest` if it never is before that."""
    size, angle, at = drawbar / STEPS_PER_DRAWBAR, 0.0, 0.0
    while at < farthest:
        after = _stepped(angle, at, size, start, drawbar, wheelbase)
        if -after >= most:
            return min(farthest, _within(angle, at, size, start, drawbar, wheelbase, most))
        angle, at = after, at + size
    return farthest


def _within(angle: float, at: float, size: float, start: float, drawbar: float, wheelbase: float, most: float) -> float:
    """Halve the step in which the angle is reached."""
    low, high = 0.0, size
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        reached = -_stepped(angle, at, middle, start, drawbar, wheelbase) >= most
        low, high = (low, middle) if reached else (middle, high)
    return at + high


_HALVINGS = 50
