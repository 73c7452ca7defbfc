"""What heat and altitude take off a rating."""

from __future__ import annotations

from calc.quantity import OutsideValidity, Quantity, largest, step
from calc.sources import COMMON_PRACTICE
from calc.tables import table
from calc.units import K, m, one, percent

_LEAST = 50 * percent


def left_in_heat(over: Quantity, slope: Quantity) -> Quantity:
    """Share of the rating left this far over where it begins to give less [-]; never more than all.

    OutsideValidity below half: no maker's straight line goes on that far, and most units have stopped.
    """
    lost = slope * largest(over, 0 * K)
    left = step("k_θ", "Left of the rating in this heat", 1 - lost, percent, COMMON_PRACTICE, rounds=-1)
    if (left < _LEAST).holds:
        raise OutsideValidity(
            f"The straight line would leave less than {_LEAST} of the rating. No maker's line goes on that far: "
            "count on nothing there, and cool its inlet air."
        )
    return left


def left_at_altitude(altitude: Quantity) -> Quantity:
    """Share of the rating left at this altitude [-]: thin air cools less."""
    known, row = table("derating"), "altitude m"
    free = known.read("H_0", "Altitude up to which nothing is lost", row, "free up to", m)
    each = known.read("ΔH", "Height of one step of loss", row, "step", m)
    lost = known.read("ℓ_H", "Lost at each step", row, "loss per step %", percent)
    return step(
        "k_H",
        "Left of the rating at this altitude",
        1 - lost * largest((altitude - free) / each, 0 * one),
        percent,
        known.source,
        rounds=-1,
    )
