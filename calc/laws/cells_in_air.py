"""A bank in its box through days and nights: the air, the cells, what the heater takes, what cold and heat allow.

Plain floats in SI (kelvins, watts, joules, seconds) for the steps; the laws behind them are those of one moment.
"""

from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass

from calc.laws.battery import floor_in_the_cold, share_in_the_cold
from calc.laws.charging import charge_allowed
from calc.quantity import OutsideValidity, Quantity, constant
from calc.sources import COMMON_PRACTICE
from calc.tables import table
from calc.units import degC, minutes

# By the clock; in summer time it lies rather later.
WARMEST = 15 * 60
_DAY = 24 * 60
_HAIR = 1e-9


def kept_at() -> Quantity:
    """The temperature at which a heater keeps the cells, so that they may be charged [°C]."""
    return constant("θ_t", "Temperature at which the heater keeps the cells", 5 * degC, COMMON_PRACTICE)


def air_at(coldest: Quantity, warmest: Quantity, clock: float) -> float:
    """Air temperature [K] so many minutes after midnight: one wave, warmest in mid-afternoon, coldest before dawn."""
    middle, swing = (warmest.si + coldest.si) / 2, (warmest.si - coldest.si) / 2
    return middle + swing * math.cos(2 * math.pi * (clock - WARMEST) / _DAY)


@dataclass(frozen=True, slots=True)
class Box:
    """Cells as one mass [J/K] in a box that loses heat [W/K], with a heater [W] that keeps them at a temperature [K]."""

    capacity: float
    loss: float
    heater: float
    kept: float

    def through(self, start: float, airs: Sequence[float], seconds: float) -> tuple[list[float], list[float]]:
        """Cells' temperature at the start of each step and after the last, and the heater's mean watts in each.

        Within a step the temperature falls or rises exponentially; the heater gives just what ends it warm enough.
        """
        left = math.exp(-seconds * self.loss / self.capacity)
        cells, watts = [start], []
        for air in airs:
            wanted = self.loss * ((self.kept - air) - (cells[-1] - air) * left) / (1 - left)
            watts.append(min(max(0.0, wanted), self.heater))
            settles = air + watts[-1] / self.loss
            cells.append(settles + (cells[-1] - settles) * left)
        return cells, watts


def charging_limits(
    chemistry: str, capacity: Quantity, strings: Quantity, rated: Quantity, cells: Sequence[float]
) -> list[float]:
    """The current that the whole bank takes at each temperature [A], by the table of one string."""
    listed = [float(row) * degC for row in table("charge_temperature").rows]
    amps = [strings.si * min(rated.si, charge_allowed(chemistry, row, capacity, rated)[0].si) for row in listed]
    return [amps[at] for at in _rows_reached(listed, cells)]


def floors(reserve: Quantity, cells: Sequence[float]) -> list[float]:
    """The charge below which a bank gives nothing, at each temperature of its cells; the colder listed row counts."""
    listed = [float(row) * degC for row in table("capacity_temperature").rows]
    charges = [floor_in_the_cold(reserve, share_in_the_cold(row)).si for row in listed]
    return [charges[at] for at in _rows_reached(listed, cells)]


def _rows_reached(listed: Sequence[Quantity], cells: Sequence[float]) -> list[int]:
    marks = [row.si - _HAIR for row in listed]
    if min(cells) < marks[0]:
        raise OutsideValidity(f"The cells would get colder than {listed[0]}: what they give and take there is not known.")
    return [bisect_right(marks, kelvins) - 1 for kelvins in cells]


def a_step(length: float) -> Quantity:
    """The length of one step, as the working shows it."""
    return constant("Δt", "Length of one step", length * minutes, COMMON_PRACTICE)
