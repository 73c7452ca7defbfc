"""The rest voltage of a bank by its charge, and the bank that is stepped through with it."""

from __future__ import annotations

from itertools import pairwise

from calc.laws.stepping import Bank
from calc.quantity import OutsideValidity, Quantity, constant, read, step
from calc.sources import OWN_DERIVATION
from calc.tables import Table, table
from calc.units import V, one, percent

# The listed curve is that of sixteen cells.
LISTED_CELLS = 16


def _curve(chemistry: str) -> Table:
    if chemistry != "LFP":
        raise OutsideValidity(
            f"The rest voltage by charge is listed for LFP only; for {chemistry} it is not known here."
        )
    return table("lfp_open_circuit")


def rest_volts(chemistry: str, charge: Quantity, series: Quantity) -> Quantity:
    """The rest voltage at a charge [V], on the straight line between two listed points, for this many cells in series."""
    below, above, q_1, q_2, cells = _points(chemistry, charge)
    line = below + (above - below) * ((charge - q_1) / (q_2 - q_1))
    return step("V_o", "Rest voltage of the bank", line * (series / cells), V, OWN_DERIVATION)


def slope_there(chemistry: str, charge: Quantity, series: Quantity) -> Quantity:
    """How the rest voltage rises from empty to full as steeply as it does at this charge [V]."""
    below, above, q_1, q_2, cells = _points(chemistry, charge)
    rise = (above - below) / (q_2 - q_1) * (series / cells)
    return step("k_o", "Rise of the rest voltage for a whole charge, as steep as there", rise, V, OWN_DERIVATION)


def _points(chemistry: str, charge: Quantity) -> tuple[Quantity, Quantity, Quantity, Quantity, Quantity]:
    """The two listed points on whose straight line a charge lies, and the cells that the list is for."""
    listed = _curve(chemistry)
    low, high = next(
        pair
        for pair in pairwise(listed.rows)
        if float(pair[1]) >= charge.number_in(percent) or pair[1] == listed.rows[-1]
    )
    return (
        listed.read("V_1", f"Rest volts of sixteen cells at {low} %", low, "volts", V),
        listed.read("V_2", f"Rest volts of sixteen cells at {high} %", high, "volts", V),
        read("q_1", "Charge of that point", float(low) * percent, listed.source),
        read("q_2", "Charge of the next point", float(high) * percent, listed.source),
        constant("N_16", "Cells of the listed curve", LISTED_CELLS * one, listed.source),
    )


def stepped_bank(chemistry: str, capacity: Quantity, resistance: Quantity, series: Quantity) -> Bank:
    """The bank as the float kernel steps through it: coulombs, ohms, and the listed curve for this many cells."""
    listed = _curve(chemistry)
    each = series.si / LISTED_CELLS
    return Bank(
        capacity.si,
        resistance.si,
        tuple(float(row) * percent.factor for row in listed.rows),
        tuple(listed.value(row, "volts", V).si * each for row in listed.rows),
    )
