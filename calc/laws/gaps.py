"""Air through a narrow gap before a grille: how fast it goes there, and what pressure that costs the fan."""

from __future__ import annotations

from calc.quantity import Quantity, constant, need, step
from calc.sources import COMMON_PRACTICE, FROM_MEMORY, OWN_DERIVATION, Source
from calc.units import Pa, m_per_s, mm, one

LOSSES = Source("Pressure losses of fittings, a handbook of hydraulic resistance", "", FROM_MEMORY)


def gap_for(flow: Quantity, edge: Quantity) -> Quantity:
    """The gap through which this flow goes slowly enough not to burden a small fan [m]."""
    slow = constant("v_g", "Speed in a gap that a small fan does not notice", 1.5 * m_per_s, COMMON_PRACTICE)
    return need("w_v", "Gap that the air needs", flow / (slow * edge), mm, OWN_DERIVATION)


def speed_in(flow: Quantity, gap: Quantity, edge: Quantity) -> Quantity:
    """How fast the air goes in the gap [m/s]."""
    return step("v", "Speed of the air in the gap", flow / (gap * edge), m_per_s, OWN_DERIVATION, rounds=1)


def pressure_lost(speed: Quantity, dense: Quantity) -> Quantity:
    """What entering a gap, the turn into the grille and the exit take from the fan [Pa]: ζ·½·ρ·v²."""
    entry = constant("ζ_1", "Loss of a sharp entry, in velocity heads", 0.57 * one, LOSSES)
    turn = constant("ζ_2", "Loss of a square turn", 1.2 * one, LOSSES)
    exit = constant("ζ_3", "Loss where the stream ends", 1 * one, LOSSES)
    head = dense * speed**2 / 2
    return step("Δp", "Pressure lost in the gap", (entry + turn + exit) * head, Pa, LOSSES, rounds=1)
