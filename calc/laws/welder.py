"""What a welding machine draws: the largest current, and the one that heats the wire."""

from __future__ import annotations

from functools import reduce

from calc.quantity import Quantity, need, root, step
from calc.sources import IEC_60974
from calc.tables import table
from calc.units import A, one, percent

MACHINES = {"transformer or inverter machine": "non-motor-generator", "motor-generator machine": "motor-generator"}


def effective_by_duty(largest: Quantity, duty: Quantity, machine: str, which: str = "") -> Quantity:
    """The current a supply wire must carry [A]: the primary current times the table's factor for the duty.

    Between two rows the higher duty stands, on the safe side; 20 % and less are one row.
    """
    listed = table("welder_duty")
    factor = listed.read(
        f"k_X{which}", f"Factor for a duty of {duty}", listed.row_covering(duty, percent), MACHINES[machine], one
    )
    return need(f"I_1eff{which}", "Current that heats the supply wire", largest * factor, A)


def effective_by_law(largest: Quantity, duty: Quantity, idle: Quantity) -> Quantity:
    """The same from its definition [A]: the root of the mean square over the duty cycle, idle current included."""
    return need(
        "I_1eff",
        "Current that heats the supply wire",
        root(largest**2 * duty + idle**2 * (1 - duty)),
        A,
        IEC_60974.at("3.41"),
    )


def factors_of_group(symbol: str, label: str, first: int, count: int) -> Quantity:
    """What `count` welders alike count for together, the first of them standing at place `first` of the group [-]."""
    listed = table("welder_group")
    places = [int(row) for row in listed.rows]
    terms = []
    for place in places:
        last = first + count if place == places[-1] else place + 1
        many = min(last, first + count) - max(place, first)
        if many > 0:
            share = listed.read(f"g_{place}", f"Share of the welder at place {place}", str(place), "share", percent)
            terms.append(many * share)
    return step(symbol, label, reduce(lambda left, right: left + right, terms), one, listed.source)
