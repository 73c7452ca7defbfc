"""What an electric car takes, and what it makes of the energy it is given."""

from __future__ import annotations

from calc.quantity import Quantity, choose, constant, step
from calc.sources import AAA_2019, OWN_DERIVATION
from calc.tables import table
from calc.units import degC, kW, one


def charging_efficiency(power: Quantity) -> Quantity:
    """The share of what leaves the outlet that reaches the car's battery [-]: the less power, the more is overhead."""
    known = table("charging_by_power")
    return known.read(
        "η_car", f"Share that the car's charger lets through at {power}", known.row_reached(power, kW), "efficiency"
    )


def range_left(air: Quantity, cabin: str) -> tuple[Quantity, str]:
    """The share of the mild-weather distance that is left at this air temperature [-], and why that may be too much.

    Straight lines between three measured temperatures. Beyond them nothing was measured: the nearest one's share is
    then the most that can be left, and the second value says so. cabin: `on` or `off`, its heating or cooling.
    """
    measured = table("winter")
    mild = constant("θ_mild", "Air at which nothing is lost", 24 * degC, AAA_2019)
    cold = constant("θ_cold", "Coldest air that was measured", -7 * degC, AAA_2019)
    hot = constant("θ_hot", "Hottest air that was measured", 35 * degC, AAA_2019)
    colder = air <= mild
    end, row = (cold, "-7") if colder.holds else (hot, "35")
    worst = measured.read("ℓ", f"Distance lost at {end}, cabin {cabin}", row, f"cabin {cabin}")
    beyond = not (cold <= air).holds or not (air <= hot).holds
    at_most = (
        f"What heat and cold take off the distance was measured from {cold} to {hot} only; {air} is outside."
        if beyond
        else ""
    )
    share = choose(
        "f_θ",
        "Part of that loss at this air temperature",
        (air <= cold, 1 * one, "at least as cold as was measured: the loss is this much or more"),
        (air >= hot, 1 * one, "at least as hot as was measured: the loss is this much or more"),
        (colder, lambda: (mild - air) / (mild - cold), "on the straight line from mild to cold"),
        (lambda: (air - mild) / (hot - mild), "on the straight line from mild to hot"),
        unit=one,
        source=OWN_DERIVATION,
    )
    return step("f_air", "Share of the mild-weather distance that is left", 1 - worst * share, one, AAA_2019), at_most
