"""Inflated tyres on soft ground: the wheel numeric sets the firmness of the ground against the load on the tyre.

Fitted to farm tyres of usual shape. For a small tyre it tells the order of the thing; a pull with a scale tells better.
"""

from __future__ import annotations

from calc.quantity import Quantity, constant, step
from calc.sources import FROM_MEMORY, Source
from calc.units import one

WHEEL_NUMERIC = Source(
    "Off-road traction prediction for wheeled vehicles, in Transactions of the ASAE 17",
    "1974",
    FROM_MEMORY,
    "towed wheel",
)


def wheel_numeric(firmness: Quantity, width: Quantity, diameter: Quantity, load: Quantity) -> Quantity:
    """Cone index times width times diameter, over the load on the wheel [-]."""
    return step(
        "C_n",
        "Wheel numeric: firmness under the tyre, over its load",
        firmness * width * diameter / load,
        one,
        WHEEL_NUMERIC,
        rounds=-1,
    )


def least_numeric() -> Quantity:
    """Under this the relation no longer holds: the wheel sinks [-]."""
    return constant("C_5", "Least wheel numeric for which it holds", 5 * one, WHEEL_NUMERIC)


def towed_share(numeric: Quantity) -> Quantity:
    """The force that keeps it rolling on the level, over the weight [-]: 1.2/C_n + 0.04."""
    sinking = constant("k_n", "Factor of the ground's giving way", 1.2 * one, WHEEL_NUMERIC)
    tyre = constant("k_4", "Share lost in tyre and bearing", 0.04 * one, WHEEL_NUMERIC)
    return step("c", "Share of the weight it takes to roll", sinking / numeric + tyre, one, WHEEL_NUMERIC, rounds=1)
