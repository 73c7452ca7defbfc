"""Which way up, and how much room: held to general libraries of heat, flow and air, and to the known traps."""

from __future__ import annotations

import math

import pytest
from test_published import ask, number, verdict_on

from calc import units as u
from calc.check import GO, NO, TIGHT, Answer

G = 9.80665
ATMOSPHERE = 101325.0


def viscosity(celsius: float, pascals: float = ATMOSPHERE) -> float:
    """Kinematic viscosity of dry air by the reference equations that CoolProp carries [m²/s]."""
    from CoolProp.CoolProp import PropsSI

    at = ("T", celsius + 273.15, "P", pascals, "Air")
    return float(PropsSI("V", *at) / PropsSI("D", *at))


# --- which way up ------------------------------------------------------------------------------------------------------


def mounted(**typed: str) -> Answer:
    bare = {
        "mounted": "flat, its fins or fan looking down",
        "position_rule": "any position",
        "cooling": "a fan that always runs",
        "fan_flow": "90 m³/h",
        "inlet_area": "125 cm²",
        "fan_pressure": "40 Pa",
        "cooled_height": "400 mm",
        "rise": "15 K",
        "hottest": "25 °C",
        "altitude": "0 m",
        "used": "40",
        "looks_up": "closed metal",
        "standing": "under a roof outdoors",
    }
    return ask("shelter/orientation", **{**bare, **typed})


@pytest.mark.parametrize("air", [0, 25, 45])
@pytest.mark.parametrize("rise", [5, 45])
def test_grashof_and_reynolds_are_those_of_other_libraries(air: int, rise: int) -> None:
    """fluids.core.Grashof and Reynolds, with CoolProp's viscosity of air at the film's temperature. Within 1.5 %: it counts twice."""
    from fluids.core import Grashof, Reynolds

    film = air + rise / 2
    nu = viscosity(film)
    answer = mounted(hottest=f"{air} °C", rise=f"{rise} K")
    expected = Grashof(L=0.4, beta=1 / (film + 273.15), T1=air + rise, T2=air, nu=nu)
    assert number(answer, "grashof", u.one) == pytest.approx(expected, rel=0.015)
    assert number(answer, "reynolds", u.one) == pytest.approx(Reynolds(V=2.0, D=0.4, nu=nu), rel=0.01)
    assert number(answer, "richardson", u.one) == pytest.approx(
        number(answer, "grashof", u.one) / number(answer, "reynolds", u.one) ** 2, rel=1e-9
    )


def test_trap_with_the_fan_running_the_position_does_not_matter_to_the_air() -> None:
    """Ri = g·ΔT·L/(T·v²) = 0.05 at 2 m/s; the column of warm air pulls 0.22 Pa, 0.6 % of a fan of 40 Pa."""
    answer = mounted()
    assert number(answer, "air_speed", u.m_per_s) == pytest.approx(2.0)
    assert number(answer, "richardson", u.one) == pytest.approx(G * 15 * 0.4 / (305.65 * 4), rel=1e-9)
    assert number(answer, "richardson", u.one) < 0.1
    assert number(answer, "stack_pressure", u.Pa) == pytest.approx(0.22, abs=0.01)
    assert number(answer, "stack_over_fan", u.percent) == pytest.approx(0.6, abs=0.05)
    assert answer.verdict == GO


def test_trap_without_the_fan_it_does() -> None:
    """At a draught of 0.2 m/s Ri is about 5; a face that looks down loses a third and more of an upright one's heat."""
    still = mounted(fan_flow="9 m³/h")
    assert number(still, "richardson", u.one) == pytest.approx(4.8, abs=0.1)
    assert verdict_on(still, "Fan's stream") == TIGHT
    assert mounted(cooling="no fan", used="100").verdict == NO
    assert mounted(cooling="no fan", used="100", mounted="as its manual shows").verdict == TIGHT
    assert mounted(cooling="a fan that stops at light load", used="40").verdict == GO


@pytest.mark.parametrize(("height", "rise"), [(0.4, 15), (0.4, 20), (0.2, 30)])
def test_a_face_looking_down_against_an_upright_one(height: float, rise: float) -> None:
    """ht: McAdams for the level face, Churchill and Chu for the upright one; the upright figure is 5 to 15 % above
    McAdams' own, so the share told is at the upper end, and never above what the trade reckons, 65 %."""
    from ht.conv_free_immersed import Nu_horizontal_plate_McAdams, Nu_vertical_plate_Churchill

    def grashof(length: float) -> float:
        film = 25 + rise / 2
        return G * rise * length**3 / ((film + 273.15) * viscosity(film) ** 2)

    down = Nu_horizontal_plate_McAdams(0.71, grashof(height / 4), buoyancy=False) / (height / 4)
    upright = Nu_vertical_plate_Churchill(0.71, grashof(height)) / height
    told = number(mounted(cooling="no fan"), "cooling_left", u.percent) / 100
    assert told == pytest.approx(0.27 / 0.59 * math.sqrt(2), rel=1e-6)
    assert told <= 0.65
    assert down / upright == pytest.approx(told, rel=0.12)


def test_the_manual_stands_above_the_arithmetic_and_its_silence_is_no_yes() -> None:
    """NFPA 70, 110.3(B): installed by the instructions."""
    assert mounted(position_rule="only as shown").verdict == NO
    assert mounted(position_rule="nothing").verdict == TIGHT
    assert mounted(position_rule="only as shown", mounted="as its manual shows").verdict == GO


def test_openings_that_look_up() -> None:
    """IEC 60529: an opening that faces up keeps nothing out, whatever the marking was for."""
    assert mounted(looks_up="slots, a grille or a fan").verdict == NO
    assert mounted(looks_up="slots, a grille or a fan", standing="indoors").verdict == TIGHT


# --- room for air ------------------------------------------------------------------------------------------------------


def room(**typed: str) -> Answer:
    bare = {
        "cooling": "a fan that always runs",
        "air_gap": "60 mm",
        "stated_gap": "0 mm",
        "fan_flow": "60 m³/h",
        "grille_edge": "300 mm",
        "fan_pressure": "40 Pa",
        "cooled_height": "400 mm",
        "rise": "20 K",
        "altitude": "0 m",
        "hottest": "25 °C",
        "exhaust": "away from every inlet",
    }
    return ask("shelter/clearance", **{**bare, **typed})


def test_trap_60_cubic_metres_an_hour_past_a_face_of_300_mm_need_37() -> None:
    """V/(v·w) at 1.5 m/s (common practice), where the dynamic pressure is 1.3 Pa."""
    answer = room()
    assert number(answer, "gap_needed", u.mm) == pytest.approx(37.0, abs=0.05)
    assert [verdict_on(room(air_gap=f"{gap} mm"), "Gap") for gap in (36, 38, 47)] == [NO, TIGHT, GO]
    assert pytest.approx(1.3, abs=0.05) == 1.184 * 1.5**2 / 2


@pytest.mark.parametrize("gap", [10, 20, 60])
def test_the_pressure_that_a_gap_costs(gap: int) -> None:
    """fluids: sharp entry, mitred bend of 90° by Rennels, exit, times half ρ·v²; CoolProp's density."""
    from CoolProp.CoolProp import PropsSI
    from fluids.core import dP_from_K
    from fluids.fittings import bend_miter, entrance_sharp, exit_normal

    speed = 60 / 3600 / (0.3 * gap / 1000)
    loss = entrance_sharp() + bend_miter(angle=90) + exit_normal()
    expected = dP_from_K(loss, rho=PropsSI("D", "T", 298.15, "P", ATMOSPHERE, "Air"), V=speed)
    answer = room(air_gap=f"{gap} mm")
    assert number(answer, "air_speed", u.m_per_s) == pytest.approx(speed, rel=1e-9)
    assert number(answer, "pressure_lost", u.Pa) == pytest.approx(expected, rel=0.002)


def test_the_best_gap_between_warm_faces_is_where_most_heat_leaves() -> None:
    """Bar-Cohen and Rohsenow 1984, their composite of a narrow channel and a free plate, greatest h/S by scipy:
    11 mm for 0.4 m and 20 K. Twice that is nearly free air: each face then gives 97 % of what it would alone."""
    from scipy.optimize import minimize_scalar

    film = 35.0
    nu = viscosity(film)

    def heat(spacing: float) -> float:
        elenbaas = G * 20 * spacing**4 * 0.71 / ((film + 273.15) * nu**2 * 0.4)
        return (576 / elenbaas**2 + 2.87 / math.sqrt(elenbaas)) ** -0.5 / spacing

    best = minimize_scalar(lambda s: -heat(s) / s, bounds=(0.002, 0.05), method="bounded", options={"xatol": 1e-9}).x
    answer = room(cooling="no fan")
    assert number(answer, "best_spacing", u.mm) == pytest.approx(best * 1000, rel=0.005)
    assert number(answer, "best_spacing", u.mm) == pytest.approx(11, abs=0.5)
    assert heat(2 * best) > 0.97 * heat(0.5)
    gaps = (20, 25, 35)
    assert [verdict_on(room(cooling="no fan", air_gap=f"{gap} mm"), "Gap") for gap in gaps] == [NO, TIGHT, GO]


def test_trap_the_neighbours_warm_air() -> None:
    """40 % of 12 K make the inlet 4.8 K warmer: 34 °C in the shade are 38.8 at the inlet, 36 are over a limit of 40."""
    beside = {"exhaust": "toward the inlet of another unit", "drawn_again": "40", "through_rise": "12 K"}
    answer = room(**beside, hottest="34 °C", inlet_limit="40 °C")
    assert number(answer, "inlet_air", u.degC) == pytest.approx(38.8)
    assert verdict_on(answer, "Drawn again") == TIGHT
    assert verdict_on(room(**beside, hottest="36 °C", inlet_limit="40 °C"), "Drawn again") == NO
    assert verdict_on(room(**beside, hottest="25 °C", inlet_limit="40 °C"), "Drawn again") == GO


def test_the_makers_gap_wins_both_ways() -> None:
    """NFPA 70, 110.3(B): wider than the arithmetic it is asked, narrower it is enough, as it was tried."""
    assert room(air_gap="60 mm", stated_gap="100 mm").verdict == NO
    assert room(air_gap="25 mm", stated_gap="25 mm", fan_pressure="100 Pa").verdict == GO
    assert room(air_gap="25 mm").verdict == NO
    assert room(air_gap="0 mm").verdict == NO


# --- the air of the pages on heat, by other libraries --------------------------------------------------------------------


@pytest.mark.parametrize(("metres", "share"), [(0, 1.0), (1000, 0.907), (2000, 0.82), (2400, 0.79)])
def test_trap_air_thins_faster_than_the_rule_of_one_per_cent(metres: int, share: float) -> None:
    """The atmosphere of 1976 by fluids: density 0.82 at 2000 m, 0.79 at 2400, where 1 % for 100 m above 1000 says 0.86."""
    from fluids.atmosphere import ATMOSPHERE_1976

    there, sea = ATMOSPHERE_1976(Z=metres), ATMOSPHERE_1976(Z=0)
    assert there.rho / sea.rho == pytest.approx(share, abs=0.006)
    answer = ask("shelter/air", altitude=f"{metres} m", hottest="15 °C")
    assert number(answer, "air_density", u.kg_per_m3) == pytest.approx(there.rho * there.T / 288.15, rel=5e-4)


@pytest.mark.parametrize(("celsius", "metres"), [(25, 0), (40, 2000)])
def test_the_air_that_carries_100_watts_away(celsius: int, metres: int) -> None:
    """CoolProp: density and heat of real air at this height's pressure; 10 K of rise."""
    from CoolProp.CoolProp import PropsSI
    from fluids.atmosphere import ATMOSPHERE_1976

    at = ("T", celsius + 273.15, "P", ATMOSPHERE_1976(Z=metres).P, "Air")
    expected = 100 / (PropsSI("D", *at) * PropsSI("C", *at) * 10) * 3600
    answer = ask("shelter/air", hottest=f"{celsius} °C", altitude=f"{metres} m", rise="10 K")
    per_100 = 100 * number(answer, "air_needed", u.m3_per_h) / number(answer, "heat", u.W)
    assert per_100 == pytest.approx(expected, rel=0.003)


def test_heat_through_still_air_at_a_painted_wall() -> None:
    """ht: Churchill and Chu on 0.5 m at 7 K, plus what paint radiates: 8.5 W/(m²·K) is used, the books say about 9."""
    from ht.conv_free_immersed import Nu_vertical_plate_Churchill
    from ht.radiation import q_rad

    warm, cool = 298.15 + 7, 298.15
    nu = viscosity(28.5)
    grashof = G * 7 * 0.5**3 / (301.65 * nu**2)
    convected = Nu_vertical_plate_Churchill(0.71, grashof) * 0.0262 / 0.5
    radiated = q_rad(emissivity=0.9, T=warm, T2=cool) / 7
    assert convected + radiated == pytest.approx(9, abs=0.6)
    assert convected + radiated > 8.5


@pytest.mark.parametrize(
    ("air", "humidity"),
    [(5, 75), (5, 95), (20, 50), (20, 75), (20, 95), (35, 20), (35, 75), (50, 20), (50, 50), (50, 95)],
)
def test_the_dew_point_is_that_of_real_moist_air(air: int, humidity: int) -> None:
    """CoolProp's mixture of real air and water (after ASHRAE RP-1485), beside PsychroLib: within 0.1 K above freezing."""
    from CoolProp.HumidAirProp import HAPropsSI

    dew = HAPropsSI("Tdp", "T", air + 273.15, "P", ATMOSPHERE, "R", humidity / 100) - 273.15
    assert dew > 0, "below freezing it is frost, to which PsychroLib holds the page"
    told = number(ask("shelter/sweat", air=f"{air} °C", humidity=f"{humidity}", surface="10 °C"), "dew_point", u.degC)
    assert told == pytest.approx(dew, abs=0.1)
