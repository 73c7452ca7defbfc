"""What a battery holds, and what of it can be had."""

from __future__ import annotations

from calc.quantity import OutsideValidity, Quantity, limit, step
from calc.sources import OWN_DERIVATION
from calc.tables import table
from calc.units import degC, kWh, percent


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


def share_when_tested(cells: Quantity, chemistry: str) -> Quantity:
    """The share of its charge that a bank is excused for at this temperature of a test [-].

    The warmer listed row, so that the cold excuses no more than it takes; from the warmest row on, nothing is excused.
    The curve is that of lithium iron phosphate; others are answered from there on only: OutsideValidity.
    """
    known = table("capacity_temperature")
    warmest = known.rows[-1]
    if (cells >= float(warmest) * degC).holds:
        return known.read("f_test", f"Share that cells at {cells} give", warmest, "share")
    if chemistry != "LFP":
        raise OutsideValidity(f"What cold does to {chemistry} is not listed here: test it at {float(warmest) * degC} or warmer.")
    if (cells < float(known.rows[0]) * degC).holds:
        raise OutsideValidity(f"Below {float(known.rows[0]) * degC} nothing is listed.")
    return known.read("f_test", f"Share that cells at {cells} give", known.row_covering(cells, degC), "share")


def energy_to_hand(
    nameplate: Quantity, health: Quantity, charge: Quantity, reserve: Quantity, cold: Quantity
) -> Quantity:
    """The energy that may be taken out now [kWh]: what is in it, less what is kept back, as the cold allows."""
    return limit("E", "Energy to hand, at the battery", nameplate * health * (charge - reserve) * cold, kWh)


def floor_in_the_cold(reserve: Quantity, cold: Quantity) -> Quantity:
    """The charge below which nothing is given [-]: the reserve, and above it what the cold holds back of the rest.

    For a full bank this is the same energy as `energy_to_hand`; for one that is part empty it is less, since what the
    cold holds back stays at the bottom. It comes back with warmth.
    """
    return step("q_f", "Charge below which nothing is given", 1 - cold * (1 - reserve), percent, OWN_DERIVATION, rounds=1)
