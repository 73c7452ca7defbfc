"""How much warmer than the air a box becomes: by its walls, by two openings, by a fan, and in the sun."""

from __future__ import annotations

from calc.laws.slope import gravity
from calc.quantity import Quantity, constant, exponential, log, root, step
from calc.sources import COMMON_PRACTICE, DEFINITION, FROM_MEMORY, OWN_DERIVATION, Source
from calc.units import J_per_kgK, K, W, W_per_K, W_per_m2K, degC, one

VENTILATION = Source("Flow through openings by buoyancy, in a handbook of building ventilation", "", FROM_MEMORY)
SOL_AIR = Source("Sol-air temperature, in a handbook of air conditioning", "", FROM_MEMORY)
PAINTED, BARE = "painted, or plastic", "bare bright metal"
FINISHES = (PAINTED, BARE)
COLOURS = {"white": 0.25, "grey or red": 0.7, "dark": 0.9}


def still_film(finish: str) -> Quantity:
    """Heat through still air at a wall [W/(m²·K)], radiation included: bright metal hardly radiates."""
    value = 8.5 if finish == PAINTED else 5.0
    return constant("h_s", f"Heat through still air at a wall, {finish}", value * W_per_m2K, COMMON_PRACTICE)


def through_walls(area: Quantity, film: Quantity) -> Quantity:
    """Heat that leaves through the walls for each degree [W/K]: still air inside and out, half each."""
    return step("UA", "Heat through the walls, per degree", area * film / 2, W_per_K, OWN_DERIVATION, rounds=-1)


def rise_by_openings(heat: Quantity, opening: Quantity, height: Quantity, air: Quantity, dense: Quantity) -> Quantity:
    """The rise at which two like openings, one above the other, carry the heat away by buoyancy alone [K].

    Q = ρ·c·C_d·(A/√2)·√(2·g·H·ΔT/T)·ΔT, solved for ΔT.
    """
    discharge = constant("C_d", "Share of an opening that flows", 0.6 * one, VENTILATION)
    capacity = constant("c_p", "Heat that air takes up", 1006 * J_per_kgK, VENTILATION)
    bottom = constant("θ_k", "Absolute zero", -273.15 * degC, DEFINITION)
    kelvin = constant("K_1", "One kelvin", 1 * K, DEFINITION)
    speed = root(2 * gravity() * height * kelvin / (air - bottom))
    one_degree = step(
        "Q_1",
        "Heat two such openings carry at a rise of one kelvin",
        dense * capacity * discharge * (opening / root(2 * one)) * speed * kelvin,
        W,
        VENTILATION,
        rounds=-1,
    )
    two_thirds = constant("n_v", "Exponent: flow grows with the root of the rise", 2 / (2 + 1) * one, VENTILATION)
    return step(
        "ΔT_o",
        "Rise with the openings alone",
        kelvin * exponential(two_thirds * log(heat / one_degree)),
        K,
        VENTILATION,
        rounds=1,
    )


def lid_in_the_sun(air: Quantity, colour: str, sun: Quantity) -> Quantity:
    """How hot a lid gets by itself in the sun [°C]: the sol-air temperature."""
    return step(
        "θ_lid", "The lid by itself in this sun", air + _absorbed(colour, sun) / _outside(), degC, SOL_AIR, rounds=1
    )


def heat_from_the_sun(area: Quantity, colour: str, sun: Quantity, film: Quantity) -> Quantity:
    """What the sun on the lid adds inside [W]: through the lid, as far as the film inside lets it."""
    outside = _outside()
    return step(
        "Q_s",
        "Heat from the sun on its lid",
        area * _absorbed(colour, sun) * film / (film + outside),
        W,
        SOL_AIR,
        rounds=1,
    )


def _absorbed(colour: str, sun: Quantity) -> Quantity:
    return sun * constant("α_s", f"Share of the sun that a {colour} lid takes up", COLOURS[colour] * one, SOL_AIR)


def _outside() -> Quantity:
    return constant("h_o", "Heat from a hot lid to outside air and sky", 17 * W_per_m2K, SOL_AIR)
