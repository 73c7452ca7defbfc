"""From the clock on the wall to the sun's own: noon is when the sun stands highest, not when the clock says twelve.

Plain floats: minutes, degrees, hours. Spencer 1971 for the equation of time, as for the declination in `calc/sun.py`.
"""

from __future__ import annotations

import math

MINUTES_PER_DEGREE = 4.0  # the earth turns once in 1440 minutes
_MINUTES_PER_RADIAN = 24 * 60 / (2 * math.pi)


def equation_of_time(day: int) -> float:
    """Minutes by which a sundial is ahead of a clock of even hours, at the meridian of its zone; Spencer 1971."""
    b = 2 * math.pi * (day - 1) / 365
    return _MINUTES_PER_RADIAN * (
        0.0000075 + 0.001868 * math.cos(b) - 0.032077 * math.sin(b) - 0.014615 * math.cos(2 * b) - 0.040849 * math.sin(2 * b)
    )


def solar_minutes(clock_minutes: float, day: int, longitude: float, utc_offset: float) -> float:
    """Solar time in minutes after solar midnight, of a clock that is so many hours ahead of UTC. East is positive."""
    return clock_minutes - utc_offset * 60 + MINUTES_PER_DEGREE * longitude + equation_of_time(day)
