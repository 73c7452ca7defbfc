"""A temperature that settles by the exponential law: where it ends, from three readings at equal times."""

from __future__ import annotations

from calc.quantity import OutsideValidity, Quantity, constant, step
from calc.sources import COMMON_PRACTICE, IEC_60076_2
from calc.units import K, degC, one


def settles_at(first: Quantity, second: Quantity, third: Quantity, digit: Quantity) -> Quantity:
    """The final temperature [°C]: θ₃ + (θ₃ − θ₂)² / ((θ₂ − θ₁) − (θ₃ − θ₂)).

    Three readings at equal intervals of a first-order rise; the form is that of the transformer standard with the third
    reading taken out, so that it divides small numbers only. Where the second rise is within two digits of the meter
    it has settled. Raises OutsideValidity where it is too early to tell: each rise must be clearly smaller than the last.
    """
    early = step("ΔT_1", "Rise from the first reading to the second", second - first, K)
    late = step("ΔT_2", "Rise from the second reading to the third", third - second, K)
    digits = constant("n_s", "Digits of the meter within which it has settled", 2 * one, COMMON_PRACTICE)
    if (late <= digits * digit).holds:
        return step("θ_∞", "Temperature it settles at: it has settled", third + late, degC, COMMON_PRACTICE, rounds=1)
    slows = constant("k_s", "Times the later rise that the earlier one must be to tell", 1.3 * one, COMMON_PRACTICE)
    if (early < slows * late).holds:
        raise OutsideValidity(
            f"It rose by {early} and then by {late}: it is too early to tell where it settles. Wait longer between "
            "readings, or go on and read again; if each rise is larger than the last, stop the test."
        )
    return step("θ_∞", "Temperature it settles at", third + late**2 / (early - late), degC, IEC_60076_2, rounds=1)
