"""What the pages on an inverter's cooling air ask alike: one wording, one range and one symbol for each."""

from __future__ import annotations

from typing import Any

from calc.check import ask, ask_fact, pick_fact
from calc.laws import mounting
from calc.units import K, Pa, degC, m, m3_per_h, mm


def cooling() -> Any:
    return pick_fact("inverter.cooling", mounting.STOPS)


def fan_flow(**more: Any) -> Any:
    return ask_fact("V_f", "inverter.air_flow", 90 * m3_per_h, **more)


def fan_pressure(**more: Any) -> Any:
    return ask(
        "p_f",
        "Most pressure of its fan",
        40 * Pa,
        low=2 * Pa,
        high=1000 * Pa,
        habit=True,
        common=(20 * Pa, 40 * Pa, 80 * Pa),
        help="On the fan's sheet, with no flow; a flat fan of 120 mm makes 40",
        **more,
    )


def cooled_height(**more: Any) -> Any:
    return ask_fact("L_w", "inverter.cooled_height", 400 * mm, **more)


def rise_without_a_fan(**more: Any) -> Any:
    return ask(
        "ΔT",
        "Warmer than the air before it",
        20 * K,
        low=2 * K,
        high=80 * K,
        habit=True,
        common=(10 * K, 20 * K, 40 * K),
        help="Its fins, by a thermometer",
        **more,
    )


def rise_of_what_leaves(**more: Any) -> Any:
    return ask(
        "ΔT",
        "Warmer than the air before it",
        15 * K,
        low=2 * K,
        high=80 * K,
        habit=True,
        common=(10 * K, 15 * K, 30 * K, 45 * K),
        help="Its fins or the air that leaves it, by a thermometer",
        **more,
    )


def hottest(**more: Any) -> Any:
    return ask_fact("θ_max", "place.hottest", 34 * degC, **more)


def altitude(**more: Any) -> Any:
    return ask_fact("H", "place.altitude", 1900 * m, **more)
