"""Weight on a slope: its part along the slope, its part onto it, and what gravity does with a thing that is let go.

A slope is rise over run, as a grade in per cent: what a phone laid on it shows, and what signs at ramps say.
"""

from __future__ import annotations

from calc.quantity import Quantity, constant, root, step
from calc.sources import DEFINITION, OWN_DERIVATION
from calc.units import N, m_per_s2, one


def gravity() -> Quantity:
    """Standard gravity [m/s²]."""
    return constant("g", "Standard gravity", 9.80665 * m_per_s2, DEFINITION)


def weight(mass: Quantity) -> Quantity:
    """What a mass weighs [N]."""
    return step("W", "Weight", mass * gravity(), N)


def sine(slope: Quantity) -> Quantity:
    """The part of the weight that pulls down the slope [-]."""
    return step("s_θ", "Part of the weight that pulls downhill", slope / root(1 + slope**2), one, OWN_DERIVATION)


def cosine(slope: Quantity) -> Quantity:
    """The part of the weight that presses on the slope [-]."""
    return step("c_θ", "Part of the weight that presses on the ground", 1 / root(1 + slope**2), one, OWN_DERIVATION)


def downhill_pull(mass: Quantity, slope: Quantity) -> Quantity:
    """Force that pulls a thing down a slope [N], with no credit for anything that rolls hard: rounded up."""
    return step("F_s", "Pull downhill, if it rolls freely", weight(mass) * sine(slope), N, OWN_DERIVATION, rounds=1)
