"""What a welding machine draws: the largest current, and the one that heats the wire."""

from __future__ import annotations

from calc.quantity import Quantity, need, root
from calc.sources import IEC_60974
from calc.tables import table
from calc.units import A, one, percent

MACHINES = {"transformer or inverter machine": "non-motor-generator", "motor-generator machine": "motor-generator"}


def effective_by_duty(largest: Quantity, duty: Quantity, machine: str) -> Quantity:
    """The current a supply wire must carry [A]: the primary current times the table's factor for the duty.

    Between two rows the higher duty stands, on the safe side; 20 % and less are one row.
    """
    listed = table("welder_duty")
    factor = listed.read(
        "k_X", f"Factor for a duty of {duty}", listed.row_covering(duty, percent), MACHINES[machine], one
    )
    return need("I_1eff", "Current that heats the supply wire", largest * factor, A)


def effective_by_law(largest: Quantity, duty: Quantity, idle: Quantity) -> Quantity:
    """The same from its definition [A]: the root of the mean square over the duty cycle, idle current included."""
    return need(
        "I_1eff",
        "Current that heats the supply wire",
        root(largest**2 * duty + idle**2 * (1 - duty)),
        A,
        IEC_60974.at("3.41"),
    )
