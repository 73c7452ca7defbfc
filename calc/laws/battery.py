"""What a battery holds, and what of it can be had."""

from __future__ import annotations

from calc.quantity import Quantity, limit
from calc.tables import table
from calc.units import degC, kWh


def share_in_the_cold(cells: Quantity) -> Quantity:
    """The share of the charge that cells at this temperature give [-]; the colder listed row stands for those between.

    Raises OutsideValidity below the coldest row: nothing is known there.
    """
    known = table("capacity_temperature")
    return known.read(
        "f_cell",
        f"Share that cells at {cells} give; it comes back when they are warm",
        known.row_reached(cells, degC),
        "share",
    )


def energy_to_hand(
    nameplate: Quantity, health: Quantity, charge: Quantity, reserve: Quantity, cold: Quantity
) -> Quantity:
    """The energy that may be taken out now [kWh]: what is in it, less what is kept back, as the cold allows."""
    return limit("E", "Energy to hand, at the battery", nameplate * health * (charge - reserve) * cold, kWh)
