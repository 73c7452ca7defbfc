"""Warm air that rises by itself against air that a fan drives, at a warm face: which of the two moves it, by numbers.

Gr is buoyancy over friction, Re the fan's push over friction; Gr/Re² is buoyancy over the fan. Air's properties are
taken halfway between the face and the air before it.
"""

from __future__ import annotations

from dataclasses import dataclass

from calc.laws import air as airs
from calc.laws.slope import gravity
from calc.quantity import Quantity, constant, root, step
from calc.sources import DEFINITION, FROM_MEMORY, OWN_DERIVATION, Source
from calc.units import K, Pa, degC, mm, mm2_per_s, one, percent, uPa_s

VISCOSITY = Source("ISO 2533, Standard Atmosphere", "1975", FROM_MEMORY, "viscosity by Sutherland's law")
MIXED_FLOW = Source("Combined free and forced convection, a text of heat transfer", "", FROM_MEMORY)
PLATES = Source("Heat transmission from plates by free convection, laminar, in a handbook", "", FROM_MEMORY)
CHANNELS = Source(
    "Thermally optimum spacing of vertical, natural convection cooled, parallel plates, in Journal of Heat Transfer 106",
    "1984",
    FROM_MEMORY,
)


@dataclass(frozen=True)
class Film:
    """Air at a warm face: from absolute zero [K], its density [kg/m³], its kinematic viscosity [m²/s]."""

    kelvin: Quantity
    density: Quantity
    viscosity: Quantity


def film(air: Quantity, rise: Quantity, altitude: Quantity) -> Film:
    """The air at a face so much warmer than the air before it, taken halfway between the two."""
    middle = step("θ_f", "Air at the face, halfway", air + rise / 2, degC)
    bottom = constant("θ_k", "Absolute zero", -273.15 * degC, DEFINITION)
    kelvin = middle - bottom
    dense = airs.density(altitude, middle, "ρ_f", "Density of the air at the face")
    viscous = _dynamic_viscosity(kelvin)
    return Film(kelvin, dense, step("ν", "Kinematic viscosity of it", viscous / dense, mm2_per_s))


def _dynamic_viscosity(kelvin: Quantity) -> Quantity:
    """Sutherland's law [Pa·s]: μ₀·(T/T₀)·√(T/T₀)·(T₀ + S)/(T + S)."""
    known = constant("μ_0", "Viscosity of air at 0 °C", 17.16 * uPa_s, VISCOSITY)
    freezing = constant("T_0", "0 °C from absolute zero", 273.15 * K, DEFINITION)
    sutherland = constant("S_v", "Sutherland's temperature of air", 110.4 * K, VISCOSITY)
    over = kelvin / freezing
    return step(
        "μ",
        "Viscosity of the air at the face",
        known * over * root(over) * (freezing + sutherland) / (kelvin + sutherland),
        uPa_s,
        VISCOSITY,
    )


def grashof(film: Film, rise: Quantity, height: Quantity) -> Quantity:
    """Buoyancy over friction at a face of this height [-]."""
    pull = gravity() * rise * height**2 * height / (film.kelvin * film.viscosity**2)
    return step("Gr", "Grashof number: buoyancy over friction", pull, one, MIXED_FLOW)


def reynolds(film: Film, speed: Quantity, height: Quantity) -> Quantity:
    """The stream over friction along a face of this height [-]."""
    return step(
        "Re", "Reynolds number: the fan's stream over friction", speed * height / film.viscosity, one, MIXED_FLOW
    )


def richardson(buoyancy: Quantity, stream: Quantity) -> Quantity:
    """Buoyancy over the fan's stream [-]: well under 1 the fan rules, well over it the warm air."""
    return step("Ri", "Gr/Re²: buoyancy over the fan's stream", buoyancy / stream**2, one, MIXED_FLOW, rounds=1)


def stack_pressure(film: Film, rise: Quantity, height: Quantity) -> Quantity:
    """What a column of warm air pulls [Pa]: ρ·g·H·ΔT/T."""
    pull = film.density * gravity() * height * rise / film.kelvin
    return step("p_s", "Pull of the column of warm air", pull, Pa, OWN_DERIVATION, rounds=1)


def face_down_share() -> Quantity:
    """Heat that a level square face looking down gives off, over the same face upright [-]; in laminar free air.

    Nu = 0.27·Ra^¼ on a quarter of its side against 0.59·Ra^¼ on its side: the ratio is 0.27/0.59·√2 for any size.
    """
    down = constant("C_↓", "Factor of a level face looking down", 0.27 * one, PLATES)
    upright = constant("C_↕", "Factor of an upright face", 0.59 * one, PLATES)
    return step(
        "k_↓", "Left with the warm face looking down", down / upright * root(2 * one), percent, PLATES, rounds=-1
    )


def best_spacing(film: Film, rise: Quantity, height: Quantity) -> Quantity:
    """The gap between two upright warm faces that carries most heat for its width [m]: 2.714·(H·ν²/(g·β·ΔT·Pr))^¼."""
    factor = constant("k_S", "Factor of the best gap between two warm faces", 2.714 * one, CHANNELS)
    prandtl = constant("Pr", "Prandtl number of air", 0.71 * one, airs.AIR_TABLES)
    fourth = height * film.viscosity**2 * film.kelvin / (gravity() * rise * prandtl)
    return step("S", "Best gap between two warm upright faces", factor * root(root(fourth)), mm, CHANNELS)
