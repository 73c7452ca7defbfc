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

# To the shorter of drawbar and wheelbase; held to an adaptive solver in the tests, within a thousandth of a millimetre.
STEPS_TO_A_LENGTH = 40


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
#
# With T = tan(φ/2) and y = tan(lag/2), the body lagging behind the drawbar, everything is rational: T grows as exp(s/D)
# and y' = (T·(1 + y²)/D + (1 − T²)·y/b)/(1 + T²). Short of a right angle at the hitch y only grows.


def hitch_after(start: float, drawbar: float, distance: float) -> float:
    """The angle at the hitch after so many metres back with the wheels straight."""
    return 2 * math.atan(math.tan(start / 2) * math.exp(distance / drawbar))


def body_after(start: float, drawbar: float, wheelbase: float, distance: float) -> float:
    """The angle of a wagon's drawbar to its body after so many metres, from in line; it lags, so it is below zero."""
    count = math.ceil(distance / _step_size(drawbar, wheelbase))
    lag, turn = 0.0, math.tan(start / 2)
    for _ in range(count):
        lag, turn = _stepped(lag, turn, distance / count, drawbar, wheelbase)
    return -2 * math.atan(lag)


def body_reaches(start: float, drawbar: float, wheelbase: float, most: float, farthest: float) -> float:
    """The metres after which a wagon's body is at this angle to its drawbar; `farthest` if it never is before that."""
    size, goal = _step_size(drawbar, wheelbase), math.tan(most / 2)
    lag, turn, at = 0.0, math.tan(start / 2), 0.0
    while at < farthest:
        after, turned = _stepped(lag, turn, size, drawbar, wheelbase)
        if after >= goal:
            return min(farthest, at + _part_of_a_step(lag, turn, size, drawbar, wheelbase, goal))
        lag, turn, at = after, turned, at + size
    return farthest


def _step_size(drawbar: float, wheelbase: float) -> float:
    return min(drawbar, wheelbase) / STEPS_TO_A_LENGTH


def _stepped(lag: float, turn: float, size: float, drawbar: float, wheelbase: float) -> tuple[float, float]:
    """One step by the classical Runge-Kutta rule of fourth order: both half-angle tangents after it."""

    def rate(turn: float, lag: float) -> float:
        square = turn * turn
        return (turn * (1 + lag * lag) / drawbar + (1 - square) * lag / wheelbase) / (1 + square)

    grows = math.exp(size / 2 / drawbar)
    middle, end = turn * grows, turn * grows * grows
    first = rate(turn, lag)
    second = rate(middle, lag + size / 2 * first)
    third = rate(middle, lag + size / 2 * second)
    fourth = rate(end, lag + size * third)
    return lag + size * (first + 2 * second + 2 * third + fourth) / _SIXTH, end


_SIXTH = 6


def _part_of_a_step(lag: float, turn: float, size: float, drawbar: float, wheelbase: float, goal: float) -> float:
    """Halve the step in which the goal is reached."""
    low, high = 0.0, size
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        reached = _stepped(lag, turn, middle, drawbar, wheelbase)[0] >= goal
        low, high = (low, middle) if reached else (middle, high)
    return high


_HALVINGS = 26
