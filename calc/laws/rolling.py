"""What it takes to keep wheels rolling, by wheel and ground, as a share of the weight on them.

Hard wheels: force proportional to weight and inverse to the diameter, measured from rest. Inflated tyres: small ones
roll worse than a car's; where only a car's figure is published it is raised by what small tyres cost on a hard road.
"""

from __future__ import annotations

from calc.quantity import OutsideValidity, Quantity, constant, step
from calc.sources import CART_FORCES_1999, COMMON_PRACTICE, OWN_DERIVATION
from calc.tables import table
from calc.units import mm, one

PNEUMATIC, HARD, CASTER = "pneumatic", "hard rubber", "swivel caster, hard"
WHEELS = (PNEUMATIC, HARD, CASTER)
SURFACES = ("smooth concrete", "asphalt", "packed gravel", "loose gravel", "grass", "soft soil", "loose sand")
HARD_ROAD = "hard road"
_PNEUMATIC_ROW = {
    "smooth concrete": HARD_ROAD,
    "asphalt": HARD_ROAD,
    "packed gravel": "packed gravel",
    "loose gravel": "loose gravel",
    "grass": "sod",
    "soft soil": "tilled loam",
    "loose sand": "loose sand",
}
_SMALLEST_TYRE = 300 * mm


def rolling_share(kind: str, diameter: Quantity, surface: str) -> Quantity:
    """The force that keeps it rolling on the level, over the weight [-].

    Raises OutsideValidity for hard wheels on soft ground and for tyres smaller than were measured.
    """
    return _inflated(diameter, surface) if kind == PNEUMATIC else _hard(diameter, surface)


def _hard(diameter: Quantity, surface: str) -> Quantity:
    known = table("rolling_hard")
    if surface not in known.rows:
        raise OutsideValidity(
            f"Hard wheels were measured on hard floors only. On {surface} they dig in: measure it, or lay boards."
        )
    f = known.read("f", f"Rolling resistance length of hard rubber on {surface}", surface, "f")
    return step("c", "Share of the weight it takes to roll", f / (diameter / 2), one, CART_FORCES_1999, rounds=1)


def _inflated(diameter: Quantity, surface: str) -> Quantity:
    if (diameter < _SMALLEST_TYRE).holds:
        raise OutsideValidity(
            f"No inflated tyre under {_SMALLEST_TYRE} was measured; a smaller one rolls harder. Measure this one."
        )
    known, row = table("rolling_pneumatic"), _PNEUMATIC_ROW[surface]
    if known.has(row, "small tyre"):
        share = known.read("c_t", f"Rolling resistance of a small tyre on {row}", row, "small tyre")
        return step("c", "Share of the weight it takes to roll", share, one, rounds=1)
    car = known.read("c_car", f"Rolling resistance of a car's tyre on {row}", row, "car-size tyre")
    small_road = known.read("c_r", "Rolling resistance of a small tyre on a hard road", HARD_ROAD, "small tyre")
    car_road = known.read("c_cr", "Rolling resistance of a car's tyre on a hard road", HARD_ROAD, "car-size tyre")
    return step(
        "c",
        "Share of the weight it takes to roll, raised as small tyres are on a road",
        car * (small_road / car_road),
        one,
        OWN_DERIVATION,
        rounds=1,
    )


def times_to_start(kind: str) -> Quantity:
    """How many times the rolling force it takes to set it moving [-]."""
    if kind == HARD:
        return constant("k_s", "Hard wheels in line were measured from rest", 1 * one, CART_FORCES_1999)
    if kind == CASTER:
        return constant("k_s", "Casters that point across must swing first: times the force", 2 * one, COMMON_PRACTICE)
    return constant("k_s", "Inflated tyres flatten at rest: times the rolling force", 1.5 * one, COMMON_PRACTICE)
