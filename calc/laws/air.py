"""Air that carries heat away: how dense it is at a height and a temperature, and how much of it is needed."""

from __future__ import annotations

from calc.laws.traction import STANDARD_ATMOSPHERE
from calc.quantity import Quantity, constant, exponential, log, need, step
from calc.sources import DEFINITION, FROM_MEMORY, OWN_DERIVATION, Source
from calc.units import J_per_kgK, degC, kg_per_m3, kPa, m3_per_h, one, per_m

AIR_TABLES = Source("Properties of dry air, tables of a text of heat transfer", "", FROM_MEMORY)


def pressure(altitude: Quantity) -> Quantity:
    """Pressure of the standard atmosphere at this altitude [Pa]: p₀·(1 − L·H/T₀)^5.2559."""
    sea = constant("p_0", "Pressure at sea level", 101.325 * kPa, STANDARD_ATMOSPHERE)
    lapse = constant("ℓ", "Fall of temperature over temperature, per height", 2.25577e-5 * per_m, STANDARD_ATMOSPHERE)
    power = constant("n_p", "Exponent of the pressure", 5.25588 * one, STANDARD_ATMOSPHERE)
    return step(
        "p",
        "Pressure of the air here",
        sea * exponential(power * log(1 - lapse * altitude)),
        kPa,
        STANDARD_ATMOSPHERE,
        rounds=-1,
    )


def density(altitude: Quantity, air: Quantity, symbol: str = "ρ", label: str = "Density of the air") -> Quantity:
    """Density of dry air [kg/m³]."""
    gas = constant("R_s", "Gas constant of dry air", 287.05 * J_per_kgK, STANDARD_ATMOSPHERE)
    bottom = constant("θ_k", "Absolute zero", -273.15 * degC, DEFINITION)
    return step(symbol, label, pressure(altitude) / (gas * (air - bottom)), kg_per_m3, OWN_DERIVATION, rounds=-1)


def flow_for(heat: Quantity, rise: Quantity, dense: Quantity) -> Quantity:
    """The air that carries this heat away while it warms by `rise` [m³/h]."""
    capacity = constant("c_p", "Heat that air takes up", 1006 * J_per_kgK, AIR_TABLES)
    return need("V", "Air that is needed", heat / (dense * capacity * rise), m3_per_h, OWN_DERIVATION)
