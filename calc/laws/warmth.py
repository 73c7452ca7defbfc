"""A body that warms or cools as one piece through its box: one mass, one heat loss, one heater."""

from __future__ import annotations

from calc.quantity import Quantity, constant, log, step
from calc.sources import OWN_DERIVATION, Source
from calc.units import J_per_kgK, W, degC, h, kWh_per_day

CELL_HEAT = Source(
    "Heat capacity of a lithium iron phosphate pouch cell, in Thermochimica Acta",
    "2015",
    "read in its abstract: 1130 J/(kg·K), the same at every charge",
)


def heat_capacity(mass: Quantity) -> Quantity:
    """Heat that warms the bank by one degree [J/K]: cells of lithium iron phosphate, case and all."""
    return mass * constant("c_p", "Heat capacity of cells and case", 1130 * J_per_kgK, CELL_HEAT)


def settles_at(air: Quantity, power: Quantity, loss: Quantity) -> Quantity:
    """The temperature at which heater and loss balance, after a very long time."""
    return step("θ_∞", "Temperature it would settle at", air + power / loss, degC, OWN_DERIVATION, rounds=-1)


def warming_time(
    capacity: Quantity, loss: Quantity, heater: Quantity, air: Quantity, start: Quantity, end: Quantity
) -> Quantity:
    """Time from start to end by the exponential law [h]: t = C/U · ln(1 + U·(end − start)/(P − U·(end − air))).

    Only where the heater gives more than leaks away at the end.
    """
    left = step("P_m", "What the heater has over the loss at the end", heater - loss * (end - air), W, OWN_DERIVATION)
    return step(
        "t",
        "Time until it is warm",
        capacity / loss * log(1 + loss * (end - start) / left),
        h,
        OWN_DERIVATION,
        rounds=1,
    )


def holding(loss: Quantity, target: Quantity, air: Quantity) -> Quantity:
    """Power that holds a temperature against this air [W]."""
    return step("P_hold", "Power to hold it there", loss * (target - air), W, OWN_DERIVATION, rounds=1)


def in_a_day(power: Quantity) -> Quantity:
    """The same power as energy a day [kWh/day]."""
    return step("E_hold", "Energy to hold it for a day", power, kWh_per_day, rounds=1)


def cooling_time(capacity: Quantity, loss: Quantity, air: Quantity, start: Quantity, end: Quantity) -> Quantity:
    """Time in which it cools by itself from start to end [h]: t = C/U · ln((start − air)/(end − air)).

    Only where the air is colder than the end, and the end no warmer than the start.
    """
    return step(
        "t_0",
        "Time without heat until it freezes",
        capacity / loss * log((start - air) / (end - air)),
        h,
        OWN_DERIVATION,
        rounds=-1,
    )
