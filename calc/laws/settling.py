"""A temperature that settles by the exponential law: where it ends, from three readings at equal times."""

from __future__ import annotations

from calc.quantity import Condition, OutsideValidity, Quantity, constant, log, step
from calc.sources import COMMON_PRACTICE, FROM_MEMORY, IEC_60076_2, Source
from calc.units import K, degC, minutes, one

HEATING = Source("Heating of electric machines, θ = θ_F·(1 − e^(−t/τ)), a text of electric drives", "", FROM_MEMORY)


def rises(first: Quantity, second: Quantity, third: Quantity) -> tuple[Quantity, Quantity]:
    """The rise over the first interval and over the second [K]."""
    early = step("ΔT_1", "Rise from the first reading to the second", second - first, K)
    return early, step("ΔT_2", "Rise from the second reading to the third", third - second, K)


def has_settled(late: Quantity, digit: Quantity) -> Condition:
    """Whether the last rise is within two of the least steps that the thermometer shows."""
    digits = constant("n_s", "Steps of the thermometer within which it has settled", 2 * one, COMMON_PRACTICE)
    return late <= digits * digit


def settles_at(third: Quantity, early: Quantity, late: Quantity, digit: Quantity) -> Quantity:
    """The final temperature [°C]: θ₃ + ΔT₂²/(ΔT₁ − ΔT₂), of a first-order rise read three times at equal intervals.

    The form of the transformer standard with the third reading taken out, so that it divides small numbers only.
    Raises OutsideValidity where it is too early to tell: each rise must be clearly smaller than the last.
    """
    if has_settled(late, digit).holds:
        return step("θ_∞", "Temperature it settles at: it has settled", third + late, degC, COMMON_PRACTICE, rounds=1)
    slows = constant("k_s", "Times the later rise that the earlier one must be to tell", 1.3 * one, COMMON_PRACTICE)
    if (early < slows * late).holds:
        raise OutsideValidity(
            f"It rose by {early} and then by {late}: it is too early to tell where it settles. Wait longer between "
            "readings, or go on and read again; if each rise is larger than the last, stop the test."
        )
    return step("θ_∞", "Temperature it settles at", third + late**2 / (early - late), degC, IEC_60076_2, rounds=1)


def time_constant(interval: Quantity, early: Quantity, late: Quantity) -> Quantity:
    """The time in which it covers 63 % of the way [min]: Δt/ln(ΔT₁/ΔT₂)."""
    return step("τ", "Time in which it covers 63 % of what is left", interval / log(early / late), minutes, HEATING)
