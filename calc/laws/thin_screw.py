"""Screws in thin metal: they tear the metal, tilt out of it or pull out of it long before they break."""

from __future__ import annotations

from calc.quantity import Quantity, constant, limit, root, smallest, step
from calc.sources import AISI_S100, COMMON_PRACTICE
from calc.units import MPa, N, one

STRENGTHS = {"mild steel": 310, "aluminium 6063-T5": 150, "aluminium 6061-T6": 260, "stainless steel": 515}


def metal_strength(metal: str) -> Quantity:
    """The strength at which the metal of the tube tears [Pa]."""
    return constant("F_u", f"Tensile strength of {metal}, at least", STRENGTHS[metal] * MPa, COMMON_PRACTICE)


def _safety() -> Quantity:
    return constant("Ω", "Safety factor of a screw in thin metal", 3 * one, AISI_S100)


def shear_allowed(wall: Quantity, diameter: Quantity, strength: Quantity) -> Quantity:
    """Shear that one screw may carry [N]: tilting, tearing of the hole, or the screw itself, over the safety factor.

    The part's own plate is taken as no thinner than the wall, which is the worse case for tilting.
    """
    tilts = constant("k_t", "Factor of tilting", 4.2 * one, AISI_S100)
    tears = constant("k_b", "Factor of bearing", 2.7 * one, AISI_S100)
    own = constant("F_s", "Shear strength of a screw, over the square of its diameter", 140 * MPa, COMMON_PRACTICE)
    least = smallest(
        tilts * root(wall**2 * wall * diameter) * strength, tears * wall * diameter * strength, own * diameter**2
    )
    return limit("V_a", "Shear that one screw may carry", least / _safety(), N, AISI_S100)


def pull_allowed(wall: Quantity, diameter: Quantity, strength: Quantity) -> Quantity:
    """Pull that one screw may carry out of the wall [N], over the safety factor."""
    pulls = constant("k_p", "Factor of pull-out", 0.85 * one, AISI_S100)
    return limit("T_a", "Pull that one screw may carry", pulls * wall * diameter * strength / _safety(), N, AISI_S100)


def use(shear: Quantity, shear_most: Quantity, pull: Quantity, pull_most: Quantity) -> Quantity:
    """Both at once, added in a straight line, which errs to the safe side [-]."""
    return step(
        "u",
        "Shear and pull together, over what they may be",
        shear / shear_most + pull / pull_most,
        one,
        AISI_S100,
        rounds=1,
    )
