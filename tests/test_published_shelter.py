"""Published figures and the known traps of heat, cold and wet, each with its source."""

from __future__ import annotations

import math

import pytest
from test_published import ask, number

from calc import units as u
from calc.check import GO, NO, NOT_KNOWN, Answer

# --- weather rating ----------------------------------------------------------------------------------------------------


def weather(*ratings: str, **typed: str) -> Answer:
    parts = {f"part_{number}": rating for number, rating in enumerate(ratings, 1)}
    return ask("shelter/weather-rating", **{"parts": str(len(ratings)), "standing": "in the rain", **parts, **typed})


@pytest.mark.parametrize(
    ("parts", "whole"),
    [
        (("IP66", "IP68", "IP44", "IP20"), "IP20"),
        (("IP65", "IP56", "IP44"), "IP44"),
        (("IP65", "IP54"), "IP54"),
        (("NEMA 3R",), "IP14"),
        (("NEMA 4X",), "IP56"),
        (("NEMA 12", "NEMA 5"), "IP52"),
        (("NEMA 1",), "IP10"),
        (("IP20", "IPX6"), "IP00"),
    ],
)
def test_each_digit_is_a_minimum_of_its_own(parts: tuple[str, ...], whole: str) -> None:
    """IEC 60529: the numerals are met separately. NEMA 250, annex: the lower printing of the conversion."""
    assert str(weather(*parts).results["rating"]) == whole


def test_trap_a_part_that_is_worse_in_one_digit_leaves_the_other_alone() -> None:
    """IEC 60529: IP65 and IP56 make IP55, and each digit names its own part."""
    mixed = weather("IP65", "IP56")
    assert str(mixed.results["rating"]) == "IP55"
    assert mixed.results["weakest_against_solids"].text == "Part 2"
    assert mixed.results["weakest_against_water"].text == "Part 1"


def test_trap_x7_is_not_a_jet_rating() -> None:
    """IEC 60529, clause 6: numeral 7 or 8 alone is unsuitable for jets unless marked for both."""
    assert weather("IP67", standing="in road spray").verdict == NO
    assert weather("IP68", standing="in road spray").verdict == NO
    assert weather("IP65 and IP67", standing="in road spray").verdict == GO
    assert weather("IP67", standing="in the rain").verdict == GO
    assert weather("IP66 and IP67", standing="washed down").verdict == GO
    assert weather("IP65", standing="washed down").verdict == NO


def test_no_ip_code_makes_a_nema_type() -> None:
    """NEMA 250: the conversion holds one way only; no type is ever told."""
    told = weather("IP66", "IP68").results.values()
    assert not any("NEMA" in str(value) for value in told)


def test_a_gap_facing_up_lets_rain_in_whatever_the_parts_are_marked() -> None:
    """IEC 60529, Tables 1 and 2 (from memory): 12.5 mm keeps a finger out, 2.5 mm a tool, 1.0 mm a wire."""
    for gap, digit in (("1", 4), ("2.5", 3), ("12.5", 2), ("12.6", 1), ("51", 0)):
        answer = weather("IP66", opening="a gap facing up", gap=f"{gap} mm")
        assert number(answer, "solids", u.one) == digit
        assert answer.verdict == NO
    down = weather("IP66", opening="a gap facing down behind a drip edge", gap="2 mm", standing="under a roof outdoors")
    assert down.verdict == GO
    assert (
        weather("IP66", opening="a gap facing down behind a drip edge", gap="2 mm", standing="in road spray").verdict
        == NO
    )


def test_no_marking_is_no_protection() -> None:
    """Unknown is an answer: what is not marked counts as 0 (common practice)."""
    assert weather("unmarked", standing="indoors").verdict == NO


# --- warm-up -----------------------------------------------------------------------------------------------------------


def warm(**typed: str) -> Answer:
    bare = {"bank_mass": "47 kg", "heat_loss": "1.6", "cells": "-15 °C", "air": "-15 °C", "target": "5 °C"}
    return ask("shelter/warm-up", **{**bare, "heater": "100 W", **typed})


@pytest.mark.parametrize(("cells", "air", "heater"), [(-15, -15, 100), (-5, -20, 150), (-18, 0, 60)])
def test_the_warm_up_is_what_an_integration_gives(cells: int, air: int, heater: int) -> None:
    """scipy, solve_ivp of m·c·θ' = P − UA·(θ − θ_air) to the event θ = 5 °C; 1130 J/(kg·K) read in an abstract."""
    from scipy.integrate import solve_ivp

    def warmed(_t: float, state: list[float]) -> float:
        return state[0] - 5

    warmed.terminal = True  # type: ignore[attr-defined]
    run = solve_ivp(
        lambda _t, state: [(heater - 1.6 * (state[0] - air)) / (47 * 1130)],
        (0, 1e6),
        [cells],
        events=warmed,
        rtol=1e-11,
        atol=1e-11,
    )
    answer = warm(cells=f"{cells} °C", air=f"{air} °C", heater=f"{heater} W")
    assert number(answer, "warm_up_time", u.s) == pytest.approx(run.t_events[0][0], rel=1e-8)


def test_trap_25_watts_never_get_there() -> None:
    """Heat balance: they reach +0.6 °C from −15 °C at 1.6 W/K, however long they run."""
    answer = warm(heater="25 W")
    assert answer.verdict == NO
    assert number(answer, "settles_at", u.degC) == pytest.approx(0.6, abs=0.03)
    assert warm(heater="32 W").verdict == NO


def test_a_hundred_watts_take_three_and_a_half_hours() -> None:
    """47 kg from −15 to +5 °C: 208 min at 1100 J/(kg·K), 214 at the 1130 used here; holding takes 32 W, 0.77 kWh a day."""
    answer = warm()
    assert number(answer, "warm_up_time", u.minutes) * 1100 / 1130 == pytest.approx(208, abs=1)
    assert answer.verdict == "tight"
    assert number(answer, "holding_power", u.W) == pytest.approx(32)
    assert number(answer, "holding_energy", u.kWh_per_day) == pytest.approx(0.768)


def test_trap_unheated_it_keeps_above_freezing_for_a_night_shift_and_no_longer() -> None:
    """scipy, solve_ivp of m·c·θ' = −UA·(θ − θ_air): 47 kg from 20 °C in −15 °C, 7.6 h at 1100 J/(kg·K), 7.8 at 1130."""
    from scipy.integrate import solve_ivp

    def frozen(_t: float, state: list[float]) -> float:
        return state[0]

    frozen.terminal = True  # type: ignore[attr-defined]
    run = solve_ivp(
        lambda _t, state: [-1.6 * (state[0] + 15) / (47 * 1130)],
        (0, 1e6),
        [20.0],
        events=frozen,
        rtol=1e-11,
        atol=1e-11,
    )
    answer = warm(cells="20 °C")
    assert number(answer, "above_freezing", u.s) == pytest.approx(run.t_events[0][0], rel=1e-8)
    assert number(answer, "above_freezing", u.h) * 1100 / 1130 == pytest.approx(7.6, abs=0.05)
    assert "above_freezing" not in warm(cells="20 °C", air="5 °C").results


# --- dew ---------------------------------------------------------------------------------------------------------------


def sweat(**typed: str) -> Answer:
    return ask("shelter/sweat", **{"air": "20 °C", "humidity": "75", "surface": "18 °C", **typed})


@pytest.mark.parametrize("air", [-25, -10, 0, 5, 20, 35, 50])
@pytest.mark.parametrize("humidity", [20, 50, 75, 95])
def test_the_dew_and_frost_points_are_psychrolibs(air: int, humidity: int) -> None:
    """PsychroLib 2.5 (ASHRAE Fundamentals 2017, ch. 1): frost point below freezing. Magnus is good to 0.1 K here.

    Hygrometers count humidity over water also below freezing (WMO); the pressure is Sonntag's of 1990, from memory.
    """
    import psychrolib

    psychrolib.SetUnitSystem(psychrolib.SI)
    kelvin = air + 273.15
    over_water = -6096.9385 / kelvin + 21.2409642 - 2.711193e-2 * kelvin + 1.673952e-5 * kelvin**2
    vapour = humidity / 100 * math.exp(over_water + 2.433502 * math.log(kelvin))
    expected = psychrolib.GetTDewPointFromVapPres(min(air + 20.0, 60.0), vapour)
    answer = sweat(air=f"{air} °C", humidity=f"{humidity}")
    assert number(answer, "dew_point", u.degC) == pytest.approx(expected, abs=0.1)


def test_below_freezing_frost_comes_before_dew() -> None:
    """The frost point lies above the dew point: −7.6 and not −7.9 °C would be too low a guess of the first wet."""
    answer = sweat(air="0 °C", humidity="55", surface="-7.9 °C")
    assert number(answer, "dew_point", u.degC) > -7.9
    assert answer.verdict == NO


def test_warming_by_3_7_kelvin_dries_75_per_cent_to_60() -> None:
    """PsychroLib: the same vapour pressure at 20 °C, 75 % and at 23.7 °C, 60 %."""
    import psychrolib

    psychrolib.SetUnitSystem(psychrolib.SI)
    warming = number(sweat(), "warm_to", u.degC) - 20
    assert warming == pytest.approx(3.7, abs=0.05)
    vapour = psychrolib.GetVapPresFromRelHum(20.0, 0.75)
    assert psychrolib.GetRelHumFromVapPres(20 + warming, vapour) == pytest.approx(0.60, abs=0.001)


def test_a_warm_box_hosed_cold_pulls_at_its_seals() -> None:
    """Gas law at constant volume: from 50 to 20 °C, 9.4 kPa."""
    assert number(sweat(air="50 °C", surface="20 °C"), "suction", u.kPa) == pytest.approx(9.41, abs=0.01)
    assert number(sweat(air="20 °C", surface="25 °C"), "suction", u.kPa) == 0


# --- air ---------------------------------------------------------------------------------------------------------------


def breathe(**typed: str) -> Answer:
    bare = {"output": "2500 W", "idle": "60 W", "peak_efficiency": "93", "continuous": "5000 W", "other_heat": "0 W"}
    return ask("shelter/air", **{**bare, "hottest": "25 °C", "altitude": "0 m", "rise": "10 K", **typed})


@pytest.mark.parametrize(("altitude", "hottest", "per_100_watts"), [("0 m", "25 °C", 30.2), ("2000 m", "40 °C", 40.5)])
def test_thirty_cubic_metres_an_hour_for_100_watts(altitude: str, hottest: str, per_100_watts: float) -> None:
    """Heat balance: Q/(ρ·c·ΔT) at 10 K; thin hot air takes 34 % more."""
    answer = breathe(altitude=altitude, hottest=hottest)
    flow, heat = number(answer, "air_needed", u.m3_per_h), number(answer, "heat", u.W)
    assert 100 * flow / heat == pytest.approx(per_100_watts, abs=0.1)


@pytest.mark.parametrize(
    ("altitude", "pascals"), [(0, 101325), (1000, 89874), (2000, 79495), (3000, 70108), (5000, 54020)]
)
def test_the_standard_atmosphere(altitude: int, pascals: float) -> None:
    """ISO 2533 (also ICAO): published pressures; density by the gas law at 15 °C."""
    dense = number(breathe(altitude=f"{altitude} m", hottest="15 °C"), "air_density", u.kg_per_m3)
    assert dense == pytest.approx(pascals / (287.05 * 288.15), rel=2e-4)


def test_trap_the_best_efficiency_tells_too_little_heat() -> None:
    """The loss law P₀ + a·P + b·P²: at 2500 W the plate's best efficiency is met or the heat is more than it says."""
    lost = number(breathe(output="4500 W"), "heat", u.W)
    assert lost > 4500 * (1 / 0.93 - 1)


def test_trap_a_free_air_rating_is_not_the_flow_through_a_grille() -> None:
    """Common practice: half of it."""
    free, grille = (breathe(fan_flow="80 m³/h", through=share) for share in ("100", "50"))
    assert number(free, "air_moved", u.m3_per_h) == pytest.approx(2 * number(grille, "air_moved", u.m3_per_h))
    assert (free.verdict, grille.verdict) == (GO, NO)


# --- heat in the box ---------------------------------------------------------------------------------------------------


def box(**typed: str) -> Answer:
    bare = {"heat": "60 W", "length": "500 mm", "width": "400 mm", "height": "500 mm", "sun": "0", "altitude": "0 m"}
    return ask("shelter/box-heat", **{**bare, "hottest": "25 °C", "finish": "painted, or plastic", **typed})


def test_trap_the_walls_of_a_small_box_beat_two_small_openings() -> None:
    """Ventilation by buoyancy: 60 W through two openings of 100 cm², 0.4 m apart: 17.5 K; the walls alone about 13 K."""
    from scipy.optimize import brentq

    dense = 101325 / (287.05 * 298.15)

    def carried(rise: float) -> float:
        return dense * 1006 * 0.6 * 0.01 / math.sqrt(2) * math.sqrt(2 * 9.80665 * 0.4 * rise / 298.15) * rise - 60

    openings = brentq(carried, 0.1, 100)
    assert openings == pytest.approx(17.5, abs=0.1)
    tiny = {"length": "100 mm", "width": "100 mm", "height": "100 mm"}
    vented = box(**tiny, breathing="two openings, one low, one high", opening="100 cm²", between="400 mm")
    assert number(vented, "rise", u.K) == pytest.approx(openings, rel=1e-4)
    walls = number(box(), "rise_by_walls", u.K)
    assert walls == pytest.approx(13, abs=0.5)
    assert (
        number(box(breathing="two openings, one low, one high", opening="100 cm²", between="400 mm"), "rise", u.K)
        == walls
    )


def test_trap_paint_before_fans() -> None:
    """Sol-air: at 35 °C and 900 W/m² a dark lid reaches 82.6 °C, a white one 48.2."""
    sunny = {"sun": "900", "hottest": "35 °C"}
    assert number(box(**sunny, colour="dark"), "lid", u.degC) == pytest.approx(82.6, abs=0.05)
    assert number(box(**sunny, colour="white"), "lid", u.degC) == pytest.approx(48.2, abs=0.05)
    assert number(box(**sunny, colour="dark"), "rise", u.K) > number(box(**sunny, colour="white"), "rise", u.K) * 1.4


def test_a_small_fan_beats_both() -> None:
    """Heat balance: 60 W warm 20 m³/h of air at 25 °C by 9 K, less than walls or openings do."""
    assert number(box(breathing="a fan", flow="20 m³/h"), "rise", u.K) == pytest.approx(
        60 / (1.184 * 1006 * 20 / 3600), rel=2e-3
    )


# --- derating ----------------------------------------------------------------------------------------------------------


def derated(**typed: str) -> Answer:
    bare = {"plate_rating": "5000 W", "wanted": "3000 W", "hottest": "25 °C", "warmer": "0 K", "altitude": "0 m"}
    return ask("shelter/derating", **{**bare, "free_up_to": "40 °C", "slope": "2", **typed})


def test_heat_and_altitude_are_multiplied() -> None:
    """Drive manuals: 1 % for each 100 m above 1000 m; the slope is the maker's. 45 °C at 2 %/K and 2000 m: 0.9 · 0.9."""
    answer = derated(hottest="35 °C", warmer="10 K", altitude="2000 m")
    assert number(answer, "rating_here", u.W) == pytest.approx(5000 * 0.9 * 0.9)


def test_nothing_is_gained_by_cold_or_depth_and_below_half_nothing_is_known() -> None:
    """Common practice: a rating is never raised; no maker's line goes on below half."""
    assert number(derated(hottest="0 °C", altitude="-400 m"), "rating_here", u.W) == 5000
    assert derated(hottest="60 °C", slope="10", wanted="100 W").verdict == NOT_KNOWN
    assert derated(hottest="60 °C", slope="2.5").verdict == NO


def test_trap_the_box_counts_and_not_the_shade() -> None:
    """34 °C in the shade and 15 K of rise in the box are 49 °C at the inlet (own derivation)."""
    assert number(derated(hottest="34 °C", warmer="15 K"), "left_in_heat", u.percent) == pytest.approx(82)


# --- bolted on ---------------------------------------------------------------------------------------------------------


def bolted(**typed: str) -> Answer:
    bare = {"mass": "20 kg", "held": "screwed to an upright", "screws": "4", "diameter": "4.8 mm", "wall": "1.5 mm"}
    return ask("shelter/bolted-on", **{**bare, "metal": "mild steel", "depth": "100 mm", "spread": "300 mm", **typed})


@pytest.mark.parametrize(("wall", "diameter"), [(0.8, 4.2), (1.5, 4.8), (3.0, 6.3)])
def test_screws_in_thin_metal(wall: float, diameter: float) -> None:
    """AISI S100-16, J4.3.1 and J4.4.1 (from memory): tilting, bearing, pull-out, safety factor 3.0."""
    answer = bolted(wall=f"{wall} mm", diameter=f"{diameter} mm")
    pull = 0.85 * wall * diameter * 310 / 3
    shear = min(4.2 * math.sqrt(wall**3 * diameter) * 310, 2.7 * wall * diameter * 310, 140 * diameter**2) / 3
    assert number(answer, "pull_allowed", u.N) == pytest.approx(pull, rel=1e-9)
    assert number(answer, "shear_allowed", u.N) == pytest.approx(shear, rel=1e-9)


def test_trap_the_depth_of_the_box_is_a_lever() -> None:
    """Statics: 2·m·g·e/a on the upper two of four screws, beside what pulls straight out."""
    force = 2 * 20 * 9.80665
    assert number(bolted(), "pull", u.N) == pytest.approx(force * 100 / 300 / 2 + force / 4, rel=1e-9)
    assert bolted(depth="20 mm", mass="40 kg").verdict != NO
    assert bolted(depth="400 mm", mass="40 kg").verdict == NO


def test_a_bump_doubles_the_weight() -> None:
    """Common practice: two straps of 100 kg hold a part of 80 kg well, 100 kg just, 101 kg not."""
    strapped = {"held": "strapped down", "straps": "2", "strap_limit": "100 kg"}
    assert bolted(**strapped, mass="80 kg").verdict == GO
    assert bolted(**strapped, mass="99 kg").verdict == "tight"
    assert bolted(**strapped, mass="101 kg").verdict == NO


# --- cold --------------------------------------------------------------------------------------------------------------


def cold(**typed: str) -> Answer:
    bare = {"bank_energy": "10 kWh", "health": "100", "charge": "100", "reserve": "0", "wanted": "1 kWh"}
    return ask("shelter/cold-capacity", **{**bare, **typed})


@pytest.mark.parametrize(
    ("cells", "share"), [("25 °C", 1.0), ("10 °C", 0.95), ("0 °C", 0.88), ("-10 °C", 0.77), ("-20 °C", 0.6)]
)
def test_what_cold_cells_give(cells: str, share: float) -> None:
    """A generic curve of lithium iron phosphate at 0.2 to 0.5 C, from memory, give or take 0.08."""
    assert number(cold(cells=cells), "energy_to_hand", u.kWh) == pytest.approx(10 * share)


def test_between_two_rows_the_colder_one_counts_and_below_the_last_nothing_is_known() -> None:
    """Rounded toward safety."""
    assert number(cold(cells="-1 °C"), "energy_to_hand", u.kWh) == pytest.approx(7.7)
    assert cold(cells="-21 °C").verdict == NOT_KNOWN
