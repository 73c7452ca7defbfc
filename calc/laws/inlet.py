"""What an inlet leaves for the charger."""

from __future__ import annotations

from calc.quantity import Quantity, largest, limit, need
from calc.tables import table
from calc.units import A, V, W

OUTLETS = table("outlets").rows


def power_for_charger(outlet: str, set_to: Quantity, tools: Quantity) -> tuple[Quantity, Quantity]:
    """The power left for the charger [W], and the current the tools take of the busier leg [A]."""
    known = table("outlets")
    volts = known.read("V", f"Nominal volts of a {outlet}", outlet, "volts", V)
    if known.has(outlet, "volts to neutral") and known.text(outlet, "volts") == "240":
        leg = known.read("V_leg", "Volts of one leg", outlet, "volts to neutral", V)
    else:
        leg = volts
    taken = need("I_t", "Current that the tools take", tools / leg, A)
    left = limit("P_ac", "Power left for the charger", volts * largest(set_to - taken, 0 * A), W)
    return left, taken
