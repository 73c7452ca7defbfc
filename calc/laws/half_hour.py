"""One half hour of the sun worked by hand: the one after solar noon, on a typical day, from the day's sum to watts.

The kernel in `calc/sun.py` does the same forty-eight times a day in plain floats; a test holds it to the last line.
"""

from __future__ import annotations

import math
from typing import Any

from calc import sun
from calc.clock import MONTHS
from calc.laws.panels import ALBEDO, flat_sun
from calc.quantity import Quantity, arccosine, constant, cosine, largest, sine, smallest, step, stepped, tangent
from calc.sources import FROM_MEMORY, IEC_60904, OWN_DERIVATION, SOLAR_DAY, Source
from calc.units import K, W, W_per_m2, degC, degree, h, kWh_per_m2, one

RADIOMETRIC = Source("World Radiometric Reference, the solar constant", "1981", FROM_MEMORY)
SPENCER = Source("Fourier series of the sun's position, in Search 2", "1971", SOLAR_DAY.had)
HOURS = Source("The hours of a mean day (Collares-Pereira, Rabl 1979; Liu, Jordan 1960)", "", SOLAR_DAY.had)
SKY = Source("The sky over a tilted plane (Hay, Davies 1980)", "", SOLAR_DAY.had)
# Half an hour turns the earth by this much; its middle stands half of it after noon.
_TURN = 360 / sun.HALF_HOURS
# The first half hour after solar noon, counted from solar midnight.
NOON = sun.HALF_HOURS // 2


def worked_half_hour(form: Any, array: Any, month: sun.Month) -> dict[str, Quantity]:
    """The one row of the stepping that an answer of the sun works: the half hour after noon on a typical day."""
    index = MONTHS.index(form.month)
    noon = power_at_noon(array, flat_sun(array, "50", "a typical day", month), sun.MONTHS[index], ALBEDO[form.ground])
    return {} if noon is None else {"power_at_noon": noon}


def power_at_noon(array: Any, flat: Quantity, day: int, albedo: float) -> Quantity | None:
    """Mean power in that half hour [W], on a day with this sun on flat ground; None where the sun does not rise or set."""
    sunset = sun.sunset_angle(array.latitude.number_in(degree), day)
    if not 0 < sunset < math.pi or flat.si <= 0:
        return None
    turn = step("ω", "Middle of the half hour after noon, as an angle", constant("ω_1", "Turn of the earth in half an hour", _TURN * degree, OWN_DERIVATION) / 2, degree)
    decl = stepped("δ", "Declination of the sun on that day", sun.declination(day), degree, (), SPENCER)
    total, diffuse = _on_flat(array, flat, turn, decl, day)
    over_flat = sine(array.latitude) * sine(decl) + cosine(array.latitude) * cosine(decl) * cosine(turn)
    height = step("c_z", "Sun over flat ground, as the cosine of its angle to straight up", over_flat, one)
    light = _on_plane(array, total, diffuse, height, _over_plane(array, decl, turn, height), day, albedo)
    return _power(array, light)


def _on_flat(array: Any, flat: Quantity, turn: Quantity, decl: Quantity, day: int) -> tuple[Quantity, Quantity]:
    """Sun on flat ground in the half hour, all of it and what comes from the whole sky [kWh/m²]."""
    latitude = array.latitude.number_in(degree)
    down = step("ω_s", "Sunset, as an angle after noon", arccosine(-(tangent(array.latitude) * tangent(decl))), degree)
    late = step("s_n", "Height of the half hour's sun above sunset's", cosine(turn) - cosine(down), one)
    third = constant("ω_60", "A sixth of a turn", 60 * degree, HOURS)
    lean = step("s_60", "Sine of sunset less that", sine(down - third), one)
    a = step("a_h", "First coefficient of the hours", constant("a_1", "First of four", 0.409 * one, HOURS) + constant("a_2", "Second of four", 0.5016 * one, HOURS) * lean, one, HOURS)
    b = step("b_h", "Second coefficient of the hours", constant("b_1", "Third of four", 0.6609 * one, HOURS) - constant("b_2", "Last of four", 0.4767 * one, HOURS) * lean, one, HOURS)
    whole, whole_total = sun.sums_of_shapes(latitude, day)
    of_all = stepped("S_t", "Sum of such shapes through the day", whole_total, one, (down, a, b), HOURS)
    of_sky = stepped("S_d", "Sum of the heights through the day", whole, one, (down,), HOURS)
    share = sun.diffuse_share(flat.number_in(kWh_per_m2) / sun.above_on(latitude, day), sun.sunset_angle(latitude, day))
    sky = stepped("f_d", "Share of the day's sun that comes from the whole sky", share, one, (flat,), SOLAR_DAY)
    total = step("T_n", "Sun on flat ground in the half hour", flat * (a + b * cosine(turn)) * late / of_all, kWh_per_m2, HOURS)
    diffuse = step("D_n", "Of that from the whole sky", smallest(flat * sky * late / of_sky, total), kWh_per_m2, HOURS)
    return total, diffuse


def _over_plane(array: Any, decl: Quantity, turn: Quantity, height: Quantity) -> Quantity:
    """The sun over the panels, as the cosine of its angle to straight out of them."""
    phi, tilt, facing = array.latitude, array.tilt, array.facing
    east = step("e_s", "How far the sun stands to the east", -(cosine(decl) * sine(turn)), one)
    north = step("n_s", "How far it stands to the north", sine(decl) * cosine(phi) - cosine(decl) * sine(phi) * cosine(turn), one)
    level = sine(tilt) * (sine(facing) * east + cosine(facing) * north)
    return step("c_p", "Sun over the panels, likewise", largest(level + cosine(tilt) * height, 0 * one), one)


def _on_plane(
    array: Any, total: Quantity, diffuse: Quantity, height: Quantity, over: Quantity, day: int, albedo: float
) -> Quantity:
    """Sun on the panels in the half hour [kWh/m²]."""
    least = constant("c_1", "Height below which a ratio means nothing: a degree", 0.0175 * one, OWN_DERIVATION)
    solar = constant("I_0", "Sun above the air", 1367 * W_per_m2, RADIOMETRIC)
    near = stepped("ε_0", "Mean over actual distance of the sun, squared", sun.distance_factor(day), one, (), SPENCER)
    up = step("c_h", "Height that counts", largest(height, least), one)
    outside = step("H_n", "Sun above the air in the half hour", solar * near * _long() * up, kWh_per_m2)
    bright = step("A_i", "Part of the sky's that stands where the sun does", smallest((total - diffuse) / outside, 1 * one), one, SKY)
    back = constant("ρ", f"What the ground throws back, {array.ground}", albedo * one, SOLAR_DAY)
    seen = step("u_s", "Part of the sky that the panels see", (1 + cosine(array.tilt)) / 2, one)
    beam = (total - diffuse + diffuse * bright) * (over / up)
    light = beam + diffuse * (1 - bright) * seen + total * back * (1 - seen)
    return step("G_n", "Sun on the panels in the half hour", light, kWh_per_m2, SKY)


def _long() -> Quantity:
    return constant("t_n", "Length of the half hour", 0.5 * h, OWN_DERIVATION)


def _power(array: Any, light: Quantity) -> Quantity:
    """What the panels make of it [W]: their cells are warmer than the air."""
    standard = constant("G_1", "Sun at which panels are rated", 1000 * W_per_m2, IEC_60904)
    half_sun = constant("G_N", "Sun at which the cells' warmth is measured", 800 * W_per_m2, IEC_60904)
    warmer = constant("Δ_N", "Cells above the air in that sun", 25 * K, IEC_60904)
    rated_at = constant("θ_1", "Cells' temperature at which panels are rated", 25 * degC, IEC_60904)
    strength = step("G_m", "Mean sun on the panels meanwhile", light / _long(), W_per_m2)
    cells = step("θ_n", "Temperature of their cells", array.air + warmer * (strength / half_sun), degC)
    warmth = largest(1 + array.slope * (cells - rated_at), 0 * one)
    made = array.watts * (strength / standard) * warmth * array.left * array.unshaded
    return step("P_noon", "Power in the half hour after solar noon, typical day", made, W, rounds=-1)

