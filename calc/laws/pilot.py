"""The control pilot of a charging cord: the share of each pulse that is high says how many amps a car may take."""

from __future__ import annotations

from calc.quantity import OutsideValidity, Quantity, choose, constant, limit
from calc.sources import SAE_J1772
from calc.tables import table
from calc.units import A, one, percent

# The rows of the two straight lines in the table, by their upper end.
_LOWER, _UPPER = "85", "96"


def least_current() -> Quantity:
    """The least current that the pilot can offer [A]: below it a car does not charge."""
    return table("pilot_current").read("I_6", "Least current that a car charges with", "10", "amps", A)


def most_current() -> Quantity:
    """The most current that the pilot can offer [A]."""
    return table("pilot_current").read("I_80", "Most current that the pilot can offer", "97", "amps", A)


def current_offered(duty: Quantity) -> Quantity:
    """What a measured duty offers [A]. Not one straight line: 85 % is 51 A, 86 % is 55 A.

    Raises OutsideValidity where the duty offers nothing, or asks for a message in its place.
    """
    listed = table("pilot_current")
    row = listed.row_covering(duty, percent)
    kind = listed.text(row, "kind")
    if kind == "digital":
        raise OutsideValidity(
            f"A duty of {duty} is not an amount of amps: it says that car and cord agree by digital messages. "
            "What they agree on stands on the car's charge screen."
        )
    if kind == "none":
        raise OutsideValidity(f"A duty of {duty} offers no current: the car does not charge.")
    if kind == "fixed":
        return listed.read("I", f"Amps that a duty of {duty} offers", row, "amps", A)
    factor, offset = _line(row)
    return limit("I", f"Amps that a duty of {duty} offers", factor * (duty - offset), A, SAE_J1772)


def duty_for(current: Quantity) -> Quantity:
    """The duty that offers a current [%]: the table turned over, by two lines that do not meet."""
    factor, offset = _line(_LOWER)
    steep, beyond = _line(_UPPER)
    end = constant("I_51", "Where the first line ends", 51 * A, SAE_J1772.at("control pilot duty cycle: 85 %"))
    return choose(
        "D",
        "Duty of the pilot that offers this",
        (current <= end, lambda: current / factor + offset, "on the first line, up to 51 A"),
        (lambda: current / steep + beyond, "on the second line, above 51 A"),
        unit=percent,
        source=SAE_J1772,
    )


def _line(row: str) -> tuple[Quantity, Quantity]:
    listed = table("pilot_current")
    per_share = constant("A_%", "One amp for each per cent, taken over the whole", 100 * A, SAE_J1772)
    slope = listed.read(f"k_{row}", f"Amps per per cent, up to {row} %", row, "factor", one)
    offset = listed.value(row, "offset", percent)
    return slope * per_share, offset
