"""Charge that stays on a filter after the plug is out, and how soon it is gone."""

from __future__ import annotations

from calc.quantity import Quantity, constant, exponential, need, root
from calc.sources import IEC_60335, OWN_DERIVATION
from calc.units import V, ms, one, s


def volts_left(rms: Quantity, capacitance: Quantity, resistance: Quantity) -> Quantity:
    """Volts between the pins one second after the plug is out [V]: the worst moment is the peak of the wave."""
    peak = need("V_pk", "Peak of the wave, the worst moment to unplug", root(2 * one) * rms, V, OWN_DERIVATION)
    after = constant("t_1", "Time after which the pins must be safe", 1 * s, IEC_60335.at("22.5"))
    tau = need("τ", "Time constant of filter and bleeder", resistance * capacitance, ms, OWN_DERIVATION)
    return need("V_1s", "Volts between the pins one second later", peak * exponential(-after / tau), V, OWN_DERIVATION)


def safe_volts() -> Quantity:
    """Volts that may be left on pins that can be touched [V]."""
    return constant("V_safe", "Volts that may be left on pins that can be touched", 34 * V, IEC_60335.at("22.5"))
