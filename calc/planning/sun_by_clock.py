"""Watts of panels through the day by the clock on the wall, on a poor, a typical and a good day of sun.

Plain floats, ten minutes at a time. The sun of `calc/sun.py` runs by its own noon; the clock does not.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache

from calc import sun
from calc.solar_clock import solar_minutes

STEP = 10  # minutes
STEPS = 24 * 60 // STEP
POOR, TYPICAL, GOOD = "poor", "typical", "good"
KINDS = {POOR: 0, TYPICAL: 2, GOOD: 4}


@dataclass(frozen=True)
class Site:
    """Where and how panels lie, by which clock; hours: typed sun hours of a poor and a typical day, else the map's."""

    latitude: float
    longitude: float
    utc_offset: float
    panel: sun.Panel
    plane: sun.Plane
    hours: tuple[float, float] | None = None

    def on_map(self, month: int) -> sun.Clearness | None:
        """What the map on board knows of the place in a month; month: 0 for January."""
        return sun.clearness(self.latitude, self.longitude, month)

    def flat(self, kind: str, month: int, day: int) -> float | None:
        """The day's sun on flat ground [kWh/m²]; None where the map has no data. month: 0 for January."""
        if self.hours is not None:
            return self.hours[kind != POOR]
        grid = self.on_map(month)
        if grid is None:
            return None
        return sun.TOO_BRIGHT * grid.days[KINDS[kind]] * sun.above_on(self.latitude, day)

    def watts(self, kind: str, month: int, day: int, airs: tuple[float, ...]) -> list[float] | None:
        """Watts in each ten minutes from midnight by the clock. airs: the air's temperature in each [°C]."""
        one_watt = _of_one_watt(replace(self, panel=replace(self.panel, watts=1.0)), kind, month, day, airs)
        return None if one_watt is None else [self.panel.watts * each for each in one_watt]


@lru_cache(maxsize=32)
def _of_one_watt(site: Site, kind: str, month: int, day: int, airs: tuple[float, ...]) -> list[float] | None:
    """Kept, because the same place and days are asked for again and again while something else is changed."""
    flat = site.flat(kind, month, day)
    if flat is None:
        return None
    by_sun = sun.day_on_plane(site.latitude, day, flat, sun.above_on(site.latitude, day), site.plane, STEPS)
    ahead = solar_minutes(0, day, site.longitude, site.utc_offset) / STEP
    whole = int(ahead // 1)
    part, hours = ahead - whole, STEP / 60
    shifted = [
        (1 - part) * by_sun[(step + whole) % STEPS] + part * by_sun[(step + whole + 1) % STEPS] for step in range(STEPS)
    ]
    return [sun.power(site.panel, kwh, hours, air) / hours * 1000 for kwh, air in zip(shifted, airs, strict=True)]
