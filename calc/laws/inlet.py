"""What an inlet leaves for the charger."""

from __future__ import annotations

from calc.quantity import Quantity, largest, limit, need
from calc.tables import table
from calc.units import A, V, W

OUTLETS = table("outlets").rows


def power_for_charger(outlet: str, set_to: Quantity, tools: Quantity, mark: str = "") -> tuple[Quantity, Quantity]:
    """The power left for the charger [W], and the current the tools take of the busier leg [A].

    mark: set behind each symbol, where an answer asks more than once.
    """
    known = table("outlets")
    volts = known.read(f"V{mark}", f"Nominal volts of a {outlet}", outlet, "volts", V)
    if known.has(outlet, "volts to neutral") and known.text(outlet, "volts") == "240":
        leg = known.read(f"V_leg{mark}", "Volts of one leg", outlet, "volts to neutral", V)
    else:
        leg = volts
    taken = need(f"I_t{mark}", "Current that the tools take", tools / leg, A)
    left = limit(f"P_ac{mark}", "Power left for the charger", volts * largest(set_to - taken, 0 * A), W)
    return left, taken
