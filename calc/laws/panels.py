"""What panels give at a place in a month: the float kernel of the sun, with its results in quantities that remember."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from calc import sun
from calc.check import Named
from calc.clock import MONTHS
from calc.facts.filling import COMPASS
from calc.facts.job import TYPED_HOURS
from calc.laws.declination import declination_at
from calc.quantity import OutsideValidity, Quantity, constant, limit, read, step, stepped
from calc.sources import COMMON_PRACTICE, IEC_60904, MERRA_2, OWN_DERIVATION, SOLAR_DAY
from calc.units import W, W_per_m2, degC, degree, kWh, kWh_per_m2, one

ALBEDO = {"grass or earth": 0.2, "snow": 0.6}
_KINDS = {"10": ("a poor day", 0), "50": ("a typical day", 2), "90": ("a good day", 4)}
_STANDARD_SUN = 1000.0


@dataclass(frozen=True)
class Array:
    """Panels and how they lie, where and when."""

    watts: Quantity
    slope: Quantity
    losses: Quantity
    left: Quantity  # what those losses leave
    unshaded: Quantity
    tilt: Quantity
    facing: Quantity
    ground: str
    latitude: Quantity
    longitude: Quantity
    month: str
    air: Quantity
    hours: tuple[Quantity, Quantity] | None = None  # typed sun hours of a poor and a typical day

    def stepped(self, tilt: float | None = None, facing: float | None = None) -> sun.Month:
        """The month by the float kernel. Raises OutsideValidity where the grid has no data."""
        panel = sun.Panel(self.watts.si, self.slope.si, self.losses.si, self.unshaded.si)
        plane = sun.Plane(
            self.tilt.number_in(degree) if tilt is None else tilt,
            self.facing.number_in(degree) if facing is None else facing,
            ALBEDO[self.ground],
        )
        month, where = MONTHS.index(self.month), (self.latitude.number_in(degree), self.longitude.number_in(degree))
        if self.hours is not None:
            poor, typical = self.hours
            if (poor > typical).holds:
                raise OutsideValidity(f"A poor day cannot have more sun, {poor}, than a typical one, {typical}.")
            of_hours = (poor.number_in(kWh_per_m2), typical.number_in(kWh_per_m2))
            return sun.month_of_hours(where[0], month, *of_hours, panel, plane, self.air.number_in(degC))
        found = sun.month_on_panel(*where, month, panel, plane, self.air.number_in(degC))
        if found is None:
            raise OutsideValidity(
                "There is no sun data near this place: it is a small island, or the sea, or beyond 57 S or 72 N. Type the sun hours in instead."
            )
        return found

    @property
    def rests_on(self) -> tuple[Quantity, ...]:
        return (self.latitude, self.longitude, self.tilt, self.facing)


def array_of(form: Any) -> Array:
    """The panels as the form of a check of the sun has them."""
    power = step("P_pv", "Rated watts of all panels", form.count * form.watts, W)
    hours = (form.poor_sun_hours, form.sun_hours) if form.sun_from == TYPED_HOURS else None
    return Array(
        power, form.slope, form.losses, left_by(form.losses), form.unshaded, form.tilt, true_heading(form), form.ground,
        form.latitude, form.longitude, form.month, form.air, hours,
    )  # fmt: skip


def left_by(losses: Quantity) -> Quantity:
    """The part of the panels' power that dirt, wires and the controller leave [-]."""
    return step("k_ℓ", "Part that dirt, wires and controller leave", 1 - losses, one, COMMON_PRACTICE)


def true_heading(form: Any) -> Quantity:
    """The heading from true north [°]: of a compass, with the declination there."""
    if not form.asked("heading_by") or form.heading_by != COMPASS:
        return form.facing  # type: ignore[no-any-return]
    off = declination_at(form.latitude, form.longitude)
    return step("α_t", "Heading it faces, from true north", form.facing + off, degree)


def energy_of_days(array: Array, month: sun.Month) -> dict[str, Quantity]:
    """kWh that the panels give on a poor (1 in 10 is worse), a typical and a good day, each worked in lines."""
    standard = constant("G_1", "Sun at which panels are rated", _STANDARD_SUN * W_per_m2, IEC_60904)
    found = {}
    for kind, (words, index) in _KINDS.items():
        flat = flat_sun(array, kind, words, month)
        tilted = stepped(
            f"G_{kind}", f"Sun on the panels, {words}", month.plane[index] * kWh.factor, kWh_per_m2, (flat, *array.rests_on),
            note=f"half an hour at a time, ground: {array.ground}; {SOLAR_DAY.work}",
        )  # fmt: skip
        heat = stepped(
            f"f_{kind}",
            f"Share that the cells' heat leaves, {words}",
            _share_left(array, month, index),
            one,
            (array.slope, array.air),
        )
        found[kind] = limit(
            f"E_{kind}", f"Energy on {words}",
            array.watts * (tilted / standard) * heat * array.left * array.unshaded, kWh,
        )  # fmt: skip
    return found


def flat_sun(array: Array, kind: str, words: str, month: sun.Month) -> Quantity:
    """Sun on flat ground on this kind of day [kWh/m²]: by the map, or as it was typed."""
    if array.hours is not None:
        poor, typical = array.hours
        if kind in ("10", "50"):
            return poor if kind == "10" else typical
        return step("H_90", "Sun on flat ground, a good day: counted as a typical one", typical, kWh_per_m2)
    above = stepped(
        "H_0", f"Sun above the air on flat ground, {array.month}", month.above * kWh.factor, kWh_per_m2, (array.latitude,)
    )
    dimmed = constant("k_b", "Cure for a source that is too bright", sun.TOO_BRIGHT * one, OWN_DERIVATION)
    share = round(month.clear[_KINDS[kind][1]], 4) * one
    clear = read(f"K_{kind}", f"Share that reaches the ground on {words}", share, MERRA_2, note=month.mark)
    return step(f"H_{kind}", f"Sun on flat ground, {words}", dimmed * clear * above, kWh_per_m2)


def where_from(month: sun.Month) -> Named:
    """Where the sun's data is from, in words."""
    label = "Where the sun's data is from"
    return Named(month.mark, label) if month.mark == sun.TYPED else Named(month.mark, label, "cells of 3 by 3 degrees", MERRA_2)


def _share_left(array: Array, month: sun.Month, index: int) -> float:
    rated = array.watts.si * month.plane[index] / _STANDARD_SUN * (1 - array.losses.si) * array.unshaded.si
    return month.energy[index] / rated if rated else 1.0
