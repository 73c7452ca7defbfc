"""Where a compass points: the magnetic declination from the World Magnetic Model, degree 12, in plain floats.

Valid from 2025.0 to 2030.0, at the surface, outside the zones around the magnetic poles where a compass is of no use.
"""

from __future__ import annotations

import math
from functools import cache

from calc.clock import year_of
from calc.quantity import OutsideValidity, Quantity, read
from calc.sources import WMM_2025
from calc.tables import table
from calc.units import degree

DEGREES = 12
BEGINS, ENDS = 2025.0, 2030.0
# The middle of what is left of it: the needle moves by a tenth or two of a degree in a year.
MIDDLE = 2027.5
# The model's own sphere, and the ellipsoid of WGS 84 [km].
_SPHERE, _EQUATOR, _POLE = 6371.2, 6378.137, 6356.7523142
# Where the horizontal field is weaker than this [nT], the model's makers call it a blackout zone.
_WEAKEST = 2000.0


@cache
def _coefficients() -> dict[tuple[int, int], tuple[float, float, float, float]]:
    listed, columns = table("wmm_2025"), ("g", "h", "change of g", "change of h")
    found = {}
    for row in listed.rows:
        n, m = row.split("/")
        g, h, g_dot, h_dot = (float(listed.text(row, column)) for column in columns)
        found[int(n), int(m)] = (g, h, g_dot, h_dot)
    return found


def _legendre(colatitude: float) -> tuple[dict[tuple[int, int], float], dict[tuple[int, int], float]]:
    """Schmidt quasi-normalised associated Legendre functions of the cosine, and their derivatives by the angle."""
    c, s = math.cos(colatitude), math.sin(colatitude)
    p, dp = {(0, 0): 1.0}, {(0, 0): 0.0}
    for n in range(1, DEGREES + 1):
        k = math.sqrt((2 * n - 1) / (2 * n)) if n > 1 else 1.0
        p[n, n], dp[n, n] = k * s * p[n - 1, n - 1], k * (s * dp[n - 1, n - 1] + c * p[n - 1, n - 1])
        for m in range(n):
            a, b = 2 * n - 1, math.sqrt(max(0, (n - 1) ** 2 - m**2))
            before, slope = p.get((n - 2, m), 0.0), dp.get((n - 2, m), 0.0)
            over = math.sqrt(n**2 - m**2)
            p[n, m] = (a * c * p[n - 1, m] - b * before) / over
            dp[n, m] = (a * (c * dp[n - 1, m] - s * p[n - 1, m]) - b * slope) / over
    return p, dp


def horizontal_field(latitude: float, longitude: float, km: float, year: float) -> tuple[float, float]:
    """The field to the north and to the east [nT], at geodetic degrees and km above the ellipsoid."""
    phi, lam = math.radians(latitude), math.radians(longitude)
    across = _EQUATOR**2 / math.hypot(_EQUATOR * math.cos(phi), _POLE * math.sin(phi))
    out, up = (across + km) * math.cos(phi), (across * (_POLE / _EQUATOR) ** 2 + km) * math.sin(phi)
    radius, centric = math.hypot(out, up), math.atan2(up, out)
    p, dp = _legendre(math.pi / 2 - centric)
    north = east = down = 0.0
    for (n, m), (g, h, g_dot, h_dot) in _coefficients().items():
        g_now, h_now = g + g_dot * (year - BEGINS), h + h_dot * (year - BEGINS)
        scale = (_SPHERE / radius) ** (n + 2)
        along = g_now * math.cos(m * lam) + h_now * math.sin(m * lam)
        north += scale * along * dp[n, m]
        east += scale * m * (g_now * math.sin(m * lam) - h_now * math.cos(m * lam)) * p[n, m] / math.cos(centric)
        down -= scale * (n + 1) * along * p[n, m]
    tilt = centric - phi
    return north * math.cos(tilt) - down * math.sin(tilt), east


def declination(latitude: float, longitude: float, km: float, year: float) -> float:
    """Degrees by which a compass points east of true north. Raises OutsideValidity where it is of no use."""
    if not BEGINS <= year < ENDS:
        raise OutsideValidity(f"The magnetic model holds from {BEGINS:g} to {ENDS:g}: take the heading from a map.")
    north, east = horizontal_field(latitude, longitude, km, year)
    if math.hypot(north, east) < _WEAKEST:
        raise OutsideValidity("So near a magnetic pole a compass does not serve: take the heading from a map.")
    return math.degrees(math.atan2(east, north))


def declination_at(latitude: Quantity, longitude: Quantity, date: str = "") -> Quantity:
    """The magnetic declination at a place [°], east positive, to a tenth of a degree. Raises OutsideValidity.

    date: like 2027-06-18; without one, in the middle of what is left of the model's years.
    """
    year = year_of(date) if date else MIDDLE
    found = declination(latitude.number_in(degree), longitude.number_in(degree), 0.0, year)
    when = f"on {date}" if date else f"in {MIDDLE:g}, as no date is asked"
    return read(
        "δ_m", "Compass needle east of true north there", round(found, 1) * degree,
        WMM_2025.at(f"at the surface, {when}; it holds from {BEGINS:g} to {ENDS:g}"),
        note="from the 90 pairs of the model's coefficients",
    )  # fmt: skip
