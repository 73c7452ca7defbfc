"""Water in the air: at what temperature it settles as dew, or as frost."""

from __future__ import annotations

from calc.quantity import Quantity, choose, constant, log, step
from calc.sources import FROM_MEMORY, Source
from calc.units import K, degC, kPa, one

MAGNUS = Source(
    "Improved Magnus form approximation of saturation vapor pressure, in Journal of Applied Meteorology 35",
    "1996",
    FROM_MEMORY,
)
_ZERO = 0 * degC


def vapour_exponent(air: Quantity, humidity: Quantity) -> Quantity:
    """Logarithm of the vapour pressure over that of water at 0 °C [-]."""
    a, b = _over_water()
    warm = air - _ZERO
    return step("γ", "Logarithm of the vapour's pressure", log(humidity) + a * warm / (b + warm), one, MAGNUS)


def _over_water() -> tuple[Quantity, Quantity]:
    return (
        constant("a_w", "Magnus factor over water", 17.625 * one, MAGNUS),
        constant("b_w", "Magnus temperature over water", 243.04 * K, MAGNUS),
    )


def temperature_of(symbol: str, label: str, exponent: Quantity) -> Quantity:
    """The temperature at which water's vapour has this pressure [°C]."""
    a, b = _over_water()
    return step(symbol, label, _ZERO + b * exponent / (a - exponent), degC, MAGNUS, rounds=1)


def settling_point(exponent: Quantity) -> Quantity:
    """The dew point, or below freezing the frost point, which lies higher and so comes first [°C]."""
    dew = temperature_of("θ_w", "Dew point", exponent)

    def frost() -> Quantity:
        a = constant("a_i", "Magnus factor over ice", 22.587 * one, MAGNUS)
        b = constant("b_i", "Magnus temperature over ice", 273.86 * K, MAGNUS)
        over_ice = step(
            "γ_i",
            "The same, over that of ice at 0 °C",
            exponent
            + log(
                constant("e_w", "Vapour pressure of water at 0 °C", 0.61094 * kPa, MAGNUS)
                / constant("e_i", "Vapour pressure of ice at 0 °C", 0.61121 * kPa, MAGNUS)
            ),
            one,
            MAGNUS,
        )
        return step("θ_f", "Frost point", _ZERO + b * over_ice / (a - over_ice), degC, MAGNUS, rounds=1)

    return choose(
        "θ_d",
        "Temperature at which water settles",
        (dew >= _ZERO, dew, "as dew"),
        (frost, "as frost, which comes before dew below freezing"),
        unit=degC,
    )
