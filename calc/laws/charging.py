"""What a battery may be charged with."""

from __future__ import annotations

from calc.quantity import OutsideValidity, Quantity, alternative, step
from calc.tables import table
from calc.units import A, degC, h, one

_RATED = "rated"


def charge_allowed(chemistry: str, cells: Quantity, capacity: Quantity, rated: Quantity) -> tuple[Quantity, str]:
    """The current that one string of this capacity takes at this temperature of its cells [A], and why no more.

    One table, for lithium iron phosphate; other chemistries raise OutsideValidity.
    """
    if chemistry != "LFP":
        raise OutsideValidity(f"The general rule is for LFP. What {chemistry} takes is in its maker's table only.")
    known = table("charge_temperature")
    row = known.row_reached(cells, degC)
    if known.text(row, "current") == _RATED:
        return alternative("I_r", "By the general rule", rated, f"cells at {cells} take the rated current", A), (
            "More than the maker's limit ages or breaks them."
        )
    share = known.read("c", f"Charge current at {cells}, in multiples of the capacity", row, "current", one)
    an_hour = 1 * h
    why = (
        "Below 0 °C lithium plates as metal and the cell may short later."
        if float(row) < 0
        else (
            "Hotter cells age and may vent; wait until they are cooler."
            if share.si == 0
            else "More plates lithium on cold cells."
        )
    )
    return step("I_r", "By the general rule", share * capacity / an_hour, A, known.source), why
