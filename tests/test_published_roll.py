"""Published figures and the known traps of moving a rig, each with its source."""

from __future__ import annotations

import math

import numpy as np
import pytest
from test_published import ask, number, verdict_on

from calc import units as u
from calc.check import GO, NO, NOT_KNOWN, TIGHT, Answer
from calc.laws import backing

G = 9.80665


# --- push --------------------------------------------------------------------------------------------------------------


def push(**typed: str) -> Answer:
    level = {"mass": "100 kg", "grade": "0", "stretch": "15 m", "handle_height": "950 mm"}
    return ask("roll/push", **{**level, **typed})


@pytest.mark.parametrize(
    ("wheel", "diameter", "surface", "flat", "at_one_in_twelve"),
    [
        ("hard rubber", "100 mm", "asphalt", 65, 146),
        ("hard rubber", "153 mm", "smooth concrete", 28, 110),
        ("pneumatic", "330 mm", "smooth concrete", 29, 111),
        ("pneumatic", "330 mm", "grass", 59, 140),
        ("pneumatic", "330 mm", "soft soil", 343, 423),
    ],
)
def test_trap_the_force_per_100_kg(wheel: str, diameter: str, surface: str, flat: int, at_one_in_twelve: int) -> None:
    """Newtons per 100 kg: F = M·g·(sin θ + c·cos θ), by the trigonometric form; c = f/r (Applied Ergonomics 30, 1999,
    abstract: f = 3.3 mm asphalt, 2.2 mm concrete) or by tyre tables (0.03, 0.06, 0.35)."""
    typed = {"wheel_kind": wheel, "wheel_diameter": diameter, "surface": surface}
    assert number(push(**typed), "steady_force", u.N) == pytest.approx(flat, abs=0.51)
    steep = number(push(**typed, grade="8.33333 %"), "steady_force", u.N)
    angle = math.atan(1 / 12)
    share = number(push(**typed), "rolling_share", u.one)
    assert steep == pytest.approx(100 * G * (math.sin(angle) + share * math.cos(angle)), rel=1e-5)
    assert steep == pytest.approx(at_one_in_twelve, abs=1)


def test_trap_a_small_hard_wheel_on_asphalt_is_not_a_small_matter() -> None:
    """Applied Ergonomics 30, 1999, abstract: force is inverse to the diameter, the width is without effect."""
    small, large = (
        number(push(wheel_kind="hard rubber", surface="asphalt", wheel_diameter=d), "steady_force", u.N)
        for d in ("100 mm", "200 mm")
    )
    assert small == pytest.approx(2 * large)


def test_trap_a_grade_equal_to_the_rolling_share_doubles_the_push() -> None:
    """115 kg up 1:12 take what 592 kg take on the flat at c = 0.02 (own derivation): measured force 0.02·M·g."""
    share = 0.02
    up_mass, flat_mass = 115.0, 592.0
    up = push(
        mass=f"{up_mass} kg",
        rolling_known="measured with a scale",
        measured_force=f"{share * up_mass * G:.9g} N",
        grade="8.33333 %",
    )
    flat = push(
        mass=f"{flat_mass} kg", rolling_known="measured with a scale", measured_force=f"{share * flat_mass * G:.9g} N"
    )
    assert number(up, "steady_force", u.N) == pytest.approx(116, abs=0.6)
    assert number(flat, "steady_force", u.N) == pytest.approx(116, abs=0.6)


def test_both_forces_are_held_against_the_filter() -> None:
    """HSE L23: to set moving 15 and 20 kgf; to keep moving 7 and 10 kgf (the latter from memory)."""
    rolled = {"rolling_known": "measured with a scale", "wheel_kind": "hard rubber"}
    assert push(**rolled, measured_force="68 N").verdict == GO
    assert push(**rolled, measured_force="69 N").verdict == TIGHT
    assert push(**rolled, measured_force="98 N").verdict == TIGHT
    assert push(**rolled, measured_force="99 N").verdict == NO
    caster = push(rolling_known="measured with a scale", wheel_kind="swivel caster, hard", measured_force="99 N")
    assert verdict_on(caster, "Setting it moving") == NO


def test_where_the_filter_says_nothing_there_is_no_go() -> None:
    """HSE L23: hands between knuckle and shoulder, about 20 m. Hard wheels were measured on hard floors only."""
    assert push(handle_height="1500 mm").verdict == NOT_KNOWN
    assert verdict_on(push(stretch="25 m"), "Distance") == NO
    assert push(wheel_kind="hard rubber", surface="grass").verdict == NOT_KNOWN
    assert push(wheel_kind="pneumatic", wheel_diameter="250 mm").verdict == NOT_KNOWN


def test_the_heaviest_that_is_told_is_where_easy_ends() -> None:
    """The inverse of the same force: at that mass it is a go, a kilogram more is tight (HSE L23)."""
    ramp = {"wheel_kind": "pneumatic", "wheel_diameter": "400 mm", "surface": "smooth concrete", "grade": "5"}
    heaviest = number(push(**ramp), "heaviest", u.kg)
    assert push(**ramp, mass=f"{heaviest:.4f} kg").verdict == GO
    assert push(**ramp, mass=f"{heaviest + 1:.4f} kg").verdict == TIGHT


def soft(**typed: str) -> Answer:
    ground = {
        "rolling_known": "by the firmness of soft ground",
        "wheel_kind": "pneumatic",
        "wheel_diameter": "400 mm",
        "tyre_width": "100 mm",
        "wheels": "4",
        "firmness": "450 kPa",
    }
    return push(**{**ground, **typed})


@pytest.mark.parametrize(("firmness", "numeric"), [(450, 73.4), (100, 16.3), (40, 6.5)])
def test_soft_ground_by_the_wheel_numeric(firmness: int, numeric: float) -> None:
    """Transactions of the ASAE 17, 1974 (from memory): 1.2/C_n + 0.04; above the 1/C_n + 0.04 of ASAE D497 at no slip."""
    answer = soft(firmness=f"{firmness} kPa")
    by_hand = firmness * 1000 * 0.1 * 0.4 / (100 * G / 4)
    assert number(answer, "wheel_numeric", u.one) == pytest.approx(by_hand, rel=1e-9)
    assert by_hand == pytest.approx(numeric, abs=0.05)
    share = number(answer, "rolling_share", u.one)
    assert share == pytest.approx(1.2 / by_hand + 0.04, rel=1e-9)
    assert share > 1 / by_hand + 0.04
    assert number(answer, "steady_force", u.N) == pytest.approx(share * 100 * G, rel=1e-9)


def test_trap_on_ground_too_soft_it_sinks_and_a_hard_wheel_is_not_known() -> None:
    """The relation ends at C_n = 5: below it one lays boards. Half the tyre, or twice the load, halves the numeric."""
    assert verdict_on(soft(firmness="31 kPa"), "Ground") == GO
    assert verdict_on(soft(firmness="30 kPa"), "Ground") == NO
    assert verdict_on(soft(firmness="60 kPa", tyre_width="50 mm"), "Ground") == NO
    assert verdict_on(soft(firmness="60 kPa", mass="200 kg"), "Ground") == NO
    assert soft(wheel_kind="hard rubber").verdict == NOT_KNOWN


# --- tipping -----------------------------------------------------------------------------------------------------------

TRAILER = {
    "kind": "trailer, single axle",
    "track": "700 mm",
    "prop_ahead": "1250 mm",
    "cg_ahead": "69.3 mm",
    "cg_aside": "0 mm",
    "cg_height": "393 mm",
    "grade": "0",
}


def tip(**typed: str) -> Answer:
    return ask("roll/ramp-tip", **{**TRAILER, **typed})


def test_trap_it_tips_backward_at_10_degrees_and_not_at_42() -> None:
    """Statics: 5.5 % on the tongue of a 1.25 m drawbar is 69 mm ahead of the axle; atan(69.3/393) = 10.0°.
    Half the track over the height says 41.7°. With 12 % on the tongue, 150 mm, it is 21°."""
    answer = tip()
    assert number(answer, "weakest_angle", u.degree) == pytest.approx(10.0, abs=0.05)
    assert str(answer.results["weakest_way"]) == "backward"
    assert any("41.7" in note for note in answer.notes)
    assert number(tip(cg_ahead="150 mm"), "weakest_angle", u.degree) == pytest.approx(20.9, abs=0.05)


@pytest.mark.parametrize(("backward", "verdict"), [(9.9, NO), (10.1, TIGHT), (14.9, TIGHT), (15.1, GO)])
def test_ten_degrees_every_way_at_least_and_fifteen_to_be_good(backward: float, verdict: str) -> None:
    """Common practice: a 1:8 ramp is 7.1°, and a bump and a soft tyre come on top."""
    ahead = 393 * math.tan(math.radians(backward))
    answer = tip(cg_ahead=f"{ahead:.6f} mm", track="1200 mm")
    assert number(answer, "weakest_angle", u.degree) == pytest.approx(backward, abs=1e-6)
    assert verdict_on(answer, "Every way") == verdict
    assert math.degrees(math.atan(1 / 8)) == pytest.approx(7.1, abs=0.05)


def test_a_rear_prop_takes_the_axle_out_of_the_weakest_way() -> None:
    """Statics: distance from a point to the line through two supports, by Hesse's normal form."""
    a, b = 400.0, 350.0
    expected = math.degrees(math.atan((1 + 69.3 / a) / math.hypot(1 / a, 1 / b) / 393))
    answer = tip(rear_prop="down", prop_behind="400 mm")
    front = math.degrees(math.atan((1 - 69.3 / 1250) / math.hypot(1 / 1250, 1 / b) / 393))
    assert number(answer, "weakest_angle", u.degree) == pytest.approx(min(expected, front), abs=1e-6)


@pytest.mark.parametrize("swing", [5, 30, 60, 90])
@pytest.mark.parametrize("aside", [0, 60])
def test_a_wagon_stands_on_less_as_it_steers(swing: int, aside: int) -> None:
    """The same polygon by numpy: signed distances from half-planes, each side of the turn tried."""
    import numpy as np

    track, base, x, z = 760.0, 1100.0, 544.0, 542.0
    least = math.inf
    for turned in (swing, -swing):
        angle = math.radians(turned)
        turn = np.array([[math.cos(angle), -math.sin(angle)], [math.sin(angle), math.cos(angle)]])
        front = [np.array([base, 0]) + turn @ np.array([0, side * track / 2]) for side in (-1, 1)]
        corners = [np.array([0, -track / 2]), *front, np.array([0, track / 2])]
        for start, end in zip(corners, corners[1:] + corners[:1], strict=True):
            along = (end - start) / np.linalg.norm(end - start)
            least = min(least, float(np.dot(np.array([-along[1], along[0]]), np.array([x, aside]) - start)))
    answer = tip(
        kind="wagon, four wheels, steered by the drawbar",
        front_axle="both its wheels carry",
        track="760 mm",
        wheelbase="1100 mm",
        cg_ahead="544 mm",
        cg_aside=f"{aside} mm",
        cg_height="542 mm",
        swing=f"{swing}",
    )
    assert number(answer, "weakest_angle", u.degree) == pytest.approx(math.degrees(math.atan(least / z)), abs=1e-6)


def test_turning_adds_to_the_lean() -> None:
    """Statics: atan(v²/(g·r)) at 10 mph (4.4704 m/s) on 4 m is 27.0°."""
    answer = tip(cg_ahead="300 mm", turn_speed="10 mph", turn_radius="4 m")
    turn = next(each for each in answer.requirements if each.label == "In the turn")
    lean = turn.condition.quantities[0].number_in(u.degree)
    assert lean == pytest.approx(math.degrees(math.atan(4.4704**2 / (G * 4))), abs=1e-6)
    assert turn.verdict == NO
    assert all(each.label != "In the turn" for each in tip(turn_speed="0 mph").requirements)


# --- parking -----------------------------------------------------------------------------------------------------------


def park(**typed: str) -> Answer:
    bare = {"mass": "100 kg", "grade": "8", "brake": "none", "chocks": "none", "roll_out": "10 m"}
    return ask("roll/parking", **{**bare, **typed})


def test_trap_rolling_resistance_earns_no_credit() -> None:
    """Mechanics: 100 kg on 8 % pull 78.2 N; 64 N would be the answer with a rolling resistance of 0.015."""
    answer = park()
    angle = math.atan(0.08)
    assert number(answer, "downhill_pull", u.N) == pytest.approx(100 * G * math.sin(angle), rel=1e-9)
    assert number(answer, "downhill_pull", u.N) > 64 * 1.2
    assert answer.verdict == NO


def test_the_runaway_is_what_an_integration_of_motion_gives() -> None:
    """scipy, solve_ivp of s'' = g·sin θ to the event s = 10 m."""
    from scipy.integrate import solve_ivp

    pull = G * math.sin(math.atan(0.08))

    def arrived(_t: float, state: list[float]) -> float:
        return state[0] - 10

    arrived.terminal = True  # type: ignore[attr-defined]
    run = solve_ivp(lambda _t, state: [state[1], pull], (0, 60), [0, 0], events=arrived, rtol=1e-10, atol=1e-12)
    assert number(park(), "runaway_speed", u.m_per_s) == pytest.approx(run.y_events[0][0][1], rel=1e-6)


def test_level_ground_is_not_level() -> None:
    """Common practice: 2 % at least."""
    assert number(park(grade="0"), "downhill_pull", u.N) == pytest.approx(100 * G * 0.02)
    assert park(grade="0").verdict == NO


def test_a_chock_holds_until_the_tyre_climbs_or_it_slides() -> None:
    """Moments about the chock's edge: F/N = tan(acos(1 − h/r)); friction from the table of grounds, from memory."""
    held = {"chocks": "two wheels", "wheels": "2", "wheel_diameter": "400 mm"}
    low = park(**held, chock_height="20 mm", ground="dry")
    climbs = math.tan(math.acos(1 - 20 / 200))
    assert number(low, "chock_hold", u.N) == pytest.approx(100 * G * climbs, rel=1e-9)
    assert verdict_on(low, "Chock") == NO
    slides = park(**held, chock_height="120 mm", ground="mud")
    assert number(slides, "chock_hold", u.N) == pytest.approx(100 * G * 0.2, rel=1e-9)


def test_an_overrun_brake_does_not_park() -> None:
    """Common practice: it needs the push of the hitch."""
    assert park(brake="overrun brake").verdict == NO
    assert park(brake="parking brake", brake_holds="200 N").verdict == GO
    assert park(brake="parking brake", brake_holds="120 N").verdict == TIGHT
    assert park(brake="parking brake", brake_holds="100 N").verdict == NO


def test_what_one_person_holds_back() -> None:
    """Common practice, 150 N: 160 kg are at the limit at 10 %; the runaway then has its weight times the drop, 1.6 kJ."""
    answer = park(mass="160 kg", grade="9.6")
    assert number(answer, "heaviest_by_hand", u.kg) == pytest.approx(160, abs=0.5)
    drop = 10 * math.sin(math.atan(0.096))
    assert number(answer, "runaway_energy", u.J) == pytest.approx(160 * G * drop, rel=1e-9)


# --- weights -----------------------------------------------------------------------------------------------------------


def weights(**typed: str) -> Answer:
    """A 160 kg trailer, 1.25 m from hitch to axle, its parts' middle `mm` ahead of the axle."""
    bare = {
        "kind": "trailer, single axle",
        "parts": "1",
        "chassis_mass": "113 kg",
        "mass_1": "47 kg",
        "drawbar": "1250 mm",
        "lifted": "on a jack wheel",
        "tongue_rating": "50 kg",
        "wheel_rating": "200 kg",
        "axle_rating": "400 kg",
    }
    return ask("roll/weights", **{**bare, **typed})


def test_trap_a_few_centimetres_decide_the_tongue() -> None:
    """Moments: 5.5 % of 160 kg on 1.25 m is too little; moving 47 kg ahead by 0.276 m makes it 12 %."""
    light = {"chassis_ahead": "0 mm", "ahead_1": f"{0.0551 * 160 * 1250 / 47:.6f} mm"}
    answer = weights(**light)
    assert number(answer, "tongue_share", u.percent) == pytest.approx(5.51, abs=0.01)
    assert verdict_on(answer, "Tongue heavy enough") == NO
    shift = number(answer, "shift", u.mm)
    assert shift == pytest.approx(276, abs=0.5)
    moved = weights(chassis_ahead="0 mm", ahead_1=f"{0.0551 * 160 * 1250 / 47 + shift:.6f} mm")
    assert number(moved, "tongue_share", u.percent) == pytest.approx(12, abs=1e-6)
    assert moved.verdict == GO


@pytest.mark.parametrize(("share", "verdict"), [(6.9, NO), (8, TIGHT), (12, GO), (16, TIGHT), (18.1, NO)])
def test_ten_to_fifteen_per_cent_on_the_tongue(share: float, verdict: str) -> None:
    """Common practice, no published source; one page read says 9 to 15 %."""
    ahead = f"{share / 100 * 160 * 1250 / 47:.6f} mm"
    assert weights(chassis_ahead="0 mm", ahead_1=ahead).verdict == verdict


def test_trap_12_per_cent_of_250_kg_is_too_much_to_lift() -> None:
    """NIOSH 94-110: the load constant is 23 kg (from memory); 30 kg need a jack wheel."""
    heavy = {"chassis_mass": "203 kg", "chassis_ahead": "0 mm", "ahead_1": f"{0.12 * 250 * 1250 / 47:.6f} mm"}
    by_hand = weights(**heavy, lifted="by hand")
    assert number(by_hand, "tongue_load", u.kg) == pytest.approx(30, abs=1e-6)
    assert verdict_on(by_hand, "Lifting") == NO
    assert weights(**heavy).verdict == GO


def test_the_middle_of_the_weight_is_what_numpy_says() -> None:
    """numpy.average with the masses as weights, over seven things."""
    import numpy as np

    masses = [85.0, 92, 21, 44, 9, 10, 10]
    ahead = [550.0, 560, 250, 550, 980, 500, 500]
    aside = [0.0, 0, 0, 0, 250, 0, 0]
    height = [350.0, 420, 720, 1050, 700, 500, 500]
    columns = (("mass", "kg", masses), ("ahead", "mm", ahead), ("aside", "mm", aside), ("height", "mm", height))
    typed = {f"{name}_{n}": f"{values[n]} {unit}" for name, unit, values in columns for n in range(1, 7)}
    answer = ask("roll/weights", parts="6", **typed)
    for name, values in (("cg_ahead", ahead), ("cg_aside", aside), ("cg_height", height)):
        assert number(answer, name, u.mm) == pytest.approx(float(np.average(values, weights=masses)), rel=1e-12)
    front = sum(masses) * float(np.average(ahead, weights=masses)) / 1100
    assert number(answer, "front_axle", u.kg) == pytest.approx(front, rel=1e-12)


def test_each_of_four_wheels_carries_a_tenth() -> None:
    """Common practice: a wheel with less lifts at a bump. 100 kg, its middle a fifth of the base ahead: 40 and 10 kg."""
    four = {"kind": "hand cart, four wheels", "wheelbase": "1000 mm", "mass_1": "47 kg", "chassis_mass": "53 kg"}
    told = weights(**four, chassis_ahead="200 mm", ahead_1="200 mm")
    assert number(told, "lightest_wheel", u.kg) == pytest.approx(10)
    assert number(told, "heaviest_wheel", u.kg) == pytest.approx(40)
    assert verdict_on(told, "Lightest wheel") == GO
    assert verdict_on(weights(**four, chassis_ahead="190 mm", ahead_1="190 mm"), "Lightest wheel") == NO


# --- step --------------------------------------------------------------------------------------------------------------


def over(**typed: str) -> Answer:
    bare = {"mass": "100 kg", "wheels": "4", "at_once": "2", "handle_height": "950 mm"}
    return ask("roll/step", **{**bare, **typed})


@pytest.mark.parametrize(("diameter", "times"), [("100 mm", 1.73), ("330 mm", 0.62)])
def test_trap_a_25_mm_step_by_the_size_of_the_wheel(diameter: str, times: float) -> None:
    """Statics, moments about the edge: tan(acos(1 − h/r))."""
    answer = over(wheel_diameter=diameter, step_height="25 mm")
    assert number(answer, "force_over_weight", u.one) == pytest.approx(times, abs=0.005)


@pytest.mark.parametrize(("diameter", "height"), [("100 mm", 2), ("330 mm", 7)])
def test_trap_gaps_and_cords_count(diameter: str, height: float) -> None:
    """With 0.3 of the wheels' load a 100 mm wheel climbs 2 mm and a 330 mm one 7 mm: 147.1 N is 0.3 of 490.3 N."""
    assert number(over(wheel_diameter=diameter), "highest_step", u.mm) == pytest.approx(height, abs=0.2)


def test_what_a_ramp_or_a_larger_wheel_would_take() -> None:
    """A ramp of 1:12 up 25 mm is 0.3 m long; the least radius for a share of the load is h/(1 − cos(atan share))."""
    answer = over(wheel_diameter="100 mm", step_height="25 mm")
    assert number(answer, "ramp_length", u.m) == pytest.approx(0.3)
    least = 10 / (1 - math.cos(math.atan(0.3)))
    share = number(over(wheel_diameter=f"{2 * least:.6f} mm", step_height="10 mm"), "force_over_weight", u.one)
    assert share == pytest.approx(0.3, abs=1e-6)


def test_no_push_climbs_a_step_as_high_as_the_axle() -> None:
    """Statics: the arm of the push about the edge is gone."""
    assert over(wheel_diameter="200 mm", step_height="100 mm").verdict == NO
    assert over(wheel_diameter="200 mm", obstacle="a gap across", gap_width="250 mm").verdict == NOT_KNOWN


# --- towing ------------------------------------------------------------------------------------------------------------


def tow(**typed: str) -> Answer:
    bare = {
        "mass": "160 kg",
        "vehicle": "620 kg",
        "surface": "asphalt",
        "wheel_kind": "pneumatic",
        "wheel_diameter": "400 mm",
        "speed": "15 mph",
        "grade": "0",
        "drive_share": "55 %",
        "wheelbase": "1650 mm",
        "overhang": "600 mm",
        "power": "20 kW",
    }
    return ask("roll/tow", **{**bare, **typed})


def test_trap_a_quarter_more_mass_costs_more_than_a_quarter_of_the_range() -> None:
    """Road load by hand: 72 Wh/mi alone, 99 with 160 kg on small tyres: +37 % for +26 % of mass."""
    answer = tow(use="72 Wh/mi", energy="7.2 kWh")
    ratio = number(answer, "use_towing", u.Wh_per_mi) / 72
    assert ratio == pytest.approx(1.37, abs=0.005)
    assert number(answer, "modelled_use", u.Wh_per_mi) == pytest.approx(99.5, abs=0.5)


def test_ten_per_cent_need_934_newtons_and_6_3_kilowatts() -> None:
    """Road load; the grade's part uses the sine, and rolling is not lessened on the slope (safe by 0.7 N)."""
    answer = tow(grade="10 %", drive_efficiency="95 %")
    assert number(answer, "pull_slope", u.N) == pytest.approx(934, abs=2)
    assert number(answer, "power_slope", u.kW) * 0.95 == pytest.approx(6.3, abs=0.05)


def test_trap_on_wet_grass_the_wheels_spin_long_before_the_motor_stalls() -> None:
    """μ = 0.35 from memory. Moments give 15.8 % with all transfer counted; without it the limit lies lower, so safe."""

    def grips(grade: float) -> bool:
        answer = tow(grade=f"{grade} %", ground="wet grass", tongue="19.2 kg")
        return verdict_on(answer, "Grip") != NO

    assert grips(13.5)
    assert not grips(15.8)


def test_a_tongue_presses_a_rear_axle_and_lifts_a_front_one() -> None:
    """Moments about the other axle."""
    level = {"grade": "6 %", "ground": "wet grass", "wheelbase": "1650 mm", "overhang": "600 mm"}

    def grip(**typed: str) -> float:
        found = next(each for each in tow(**level, **typed).requirements if each.label == "Grip")
        return found.condition.quantities[1].number_in(u.N)

    assert grip(driven="rear", tongue="40 kg") - grip(driven="rear", tongue="0 kg") == pytest.approx(
        0.35 * 40 * G * 2250 / 1650
    )
    assert grip(driven="front", tongue="0 kg") - grip(driven="front", tongue="40 kg") == pytest.approx(
        0.35 * 40 * G * 600 / 1650
    )


# --- backing up --------------------------------------------------------------------------------------------------------


def back(**typed: str) -> Answer:
    bare = {
        "kind": "trailer, single axle",
        "vehicle_wheelbase": "1650 mm",
        "steering": "30",
        "overhang": "600 mm",
        "drawbar": "1250 mm",
        "contact": "70",
        "start": "5",
    }
    return ask("roll/backing", **{**bare, **typed})


def grows(hitch: float, drawbar: float, curve: float, behind: float) -> float:
    """The growth of the angle per metre backed, from the velocities of hitch and axle, written down apart."""
    across = math.sin(hitch) - behind * curve * math.cos(hitch)
    return across / drawbar - curve


@pytest.mark.parametrize(
    ("drawbar", "angle", "metres"),
    [(0.6, 23.7, 0.94), (0.9, 29.8, 1.63), (1.25, 37.2, 2.55), (1.6, 45.1, 3.60), (2.0, 55.1, 4.96)],
)
def test_trap_a_short_drawbar_jackknifes_at_once(drawbar: float, angle: float, metres: float) -> None:
    """Critical angle and metres, to 1e-6 against scipy: a root of the kinematics, and solve_ivp with an event."""
    from scipy.integrate import solve_ivp
    from scipy.optimize import brentq

    answer = back(drawbar=f"{drawbar * 1000:.0f} mm")
    curve = math.tan(math.radians(30)) / 1.65
    critical = brentq(lambda hitch: grows(hitch, drawbar, curve, 0.6), 1e-3, math.pi / 2, xtol=1e-14)
    assert number(answer, "no_return", u.degree) == pytest.approx(math.degrees(critical), rel=1e-9)
    assert number(answer, "no_return", u.degree) == pytest.approx(angle, abs=0.06)

    def lost(_s: float, state: list[float]) -> float:
        return state[0] - critical

    lost.terminal = True  # type: ignore[attr-defined]
    run = solve_ivp(
        lambda _s, state: [grows(state[0], drawbar, 0.0, 0.6)],
        (0, 50),
        [math.radians(5)],
        events=lost,
        rtol=1e-12,
        atol=1e-14,
    )
    assert number(answer, "metres", u.m) == pytest.approx(run.t_events[0][0], abs=1e-6)
    assert number(answer, "metres", u.m) == pytest.approx(metres, abs=0.006)


def test_a_drawbar_long_enough_never_jackknifes() -> None:
    """√((1.65/tan 30°)² + 0.6²) = 2.92 m; from there on the angle shrinks at every angle, wheels hard over."""
    assert number(back(), "drawbar_that_never", u.m) == pytest.approx(2.92, abs=0.005)
    curve = math.tan(math.radians(30)) / 1.65
    assert all(grows(math.radians(angle), 2.93, curve, 0.6) < 0 for angle in range(1, 130))
    assert any(grows(math.radians(angle), 2.90, curve, 0.6) > 0 for angle in range(1, 130))
    assert number(back(drawbar="3000 mm"), "no_return", u.degree) == pytest.approx(70)


@pytest.mark.parametrize(("drawbar", "wheelbase"), [(0.95, 1.1), (1.4, 0.9), (1.1, 1.1), (2.5, 1.5)])
@pytest.mark.parametrize("start", [2, 5, 10])
def test_a_wagon_folds_at_two_angles(drawbar: float, wheelbase: float, start: int) -> None:
    """The positions themselves, integrated by scipy: vehicle straight back, front axle and rear axle rolling without
    slip; the metres until hitch or body is at its end, to 1e-6."""
    from scipy.integrate import solve_ivp

    curve = math.tan(math.radians(30)) / 1.65
    square = 1 / curve**2 + 0.6**2 - drawbar**2
    hitch_end = math.radians(70)
    if square > 0:
        hitch_end = min(hitch_end, math.atan(0.6 * curve) + math.asin(drawbar * curve / math.hypot(1, 0.6 * curve)))
    body_end = math.radians(60)
    if square > wheelbase**2:
        body_end = min(body_end, math.asin(wheelbase / math.sqrt(square)))

    def headings(_s: float, state: list[float]) -> list[float]:
        bar, body = state
        # The hitch moves by −1 along x. Across the bar it drives the front axle's turn; along it, the body's.
        along = -math.cos(bar)
        turn_of_bar = math.sin(bar) / drawbar
        across_body = along * math.sin(bar - body)
        return [turn_of_bar, across_body / wheelbase]

    def hitch_ends(_s: float, state: list[float]) -> float:
        return state[0] - hitch_end

    def body_ends(_s: float, state: list[float]) -> float:
        return state[0] - state[1] - body_end

    hitch_ends.terminal = body_ends.terminal = True  # type: ignore[attr-defined]
    begin = math.radians(start)
    run = solve_ivp(headings, (0, 50), [begin, begin], events=(hitch_ends, body_ends), rtol=1e-12, atol=1e-14)
    answer = back(
        kind="wagon, four wheels, steered by the drawbar",
        drawbar=f"{drawbar * 1000:.0f} mm",
        wheelbase=f"{wheelbase * 1000:.0f} mm",
        swing="60",
        start=f"{start}",
    )
    assert number(answer, "metres", u.m) == pytest.approx(float(run.t[-1]), abs=1e-6)


@pytest.mark.parametrize("drawbar", [0.2, 0.95, 5.0])
@pytest.mark.parametrize("wheelbase", [0.2, 1.1, 5.0])
@pytest.mark.parametrize(("start", "end"), [(0.5, 5), (0.5, 90), (5, 60), (45, 90)])
def test_the_few_steps_of_the_reversing_wagon_are_enough_everywhere(
    drawbar: float, wheelbase: float, start: float, end: float
) -> None:
    """scipy, DOP853 at 1e-12, at the ends of every range: metres and angle of the body to 1e-6."""
    from scipy.integrate import solve_ivp

    begin, goal = math.radians(start), math.radians(end)
    farthest = drawbar * math.log(math.tan(math.radians(45)) / math.tan(begin / 2))

    def folds(_s: float, state: list[float]) -> list[float]:
        bar, body = state
        return [math.sin(bar) / drawbar, -math.cos(bar) * math.sin(bar - body) / wheelbase]

    def reached(_s: float, state: list[float]) -> float:
        return state[0] - state[1] - goal

    reached.terminal = True  # type: ignore[attr-defined]
    run = solve_ivp(folds, (0, farthest), [begin, begin], method="DOP853", events=reached, rtol=1e-12, atol=1e-14)
    metres = float(run.t[-1])
    assert backing.body_reaches(begin, drawbar, wheelbase, goal, farthest) == pytest.approx(metres, abs=1e-6)
    lags = float(run.y[0, -1] - run.y[1, -1])
    assert -backing.body_after(begin, drawbar, wheelbase, metres) == pytest.approx(lags, abs=1e-6)


def test_past_the_bodys_limit_the_tightest_steady_circle_does_not_bring_it_back() -> None:
    """Geometry of concentric circles: the body's growth is nothing at asin(b/R_f), outward past it, inward before."""
    drawbar, wheelbase, behind = 0.95, 1.1, 0.6
    curve = math.tan(math.radians(30)) / 1.65
    circle = math.sqrt(1 / curve**2 + behind**2 - drawbar**2)
    speed = circle * curve
    end = math.asin(wheelbase / circle)
    assert speed * math.sin(end + 0.01) / wheelbase - curve > 0 > speed * math.sin(end - 0.01) / wheelbase - curve
    answer = back(kind="wagon, four wheels, steered by the drawbar", drawbar="950 mm", wheelbase="1100 mm", swing="90")
    assert number(answer, "body_no_return", u.degree) == pytest.approx(math.degrees(end), rel=1e-9)


# --- tyres -------------------------------------------------------------------------------------------------------------


def tyres(**typed: str) -> Answer:
    bare = {"axle_load": "150 kg", "track": "700 mm", "cg_aside": "0 mm", "cg_height": "393 mm", "grade": "0"}
    return ask("roll/tyres", **{**bare, "speed": "3 mph", "way": "pushed over rough ground", **typed})


def test_a_cross_slope_of_8_degrees_puts_58_per_cent_on_the_downhill_wheel() -> None:
    """Moments: of what presses on the ground, ½ + z·tan 8°/t = 57.9 %; of the weight 57.3 %, as the slope takes 1 %."""
    share = number(tyres(grade=f"{100 * math.tan(math.radians(8)):.9g}"), "downhill_share", u.one)
    assert share == pytest.approx(math.cos(math.radians(8)) * (0.5 + 393 / 700 * math.tan(math.radians(8))), rel=1e-9)
    assert share / math.cos(math.radians(8)) == pytest.approx(0.58, abs=0.002)


def test_a_soft_tyre_carries_less_and_a_hard_one_no_more() -> None:
    """Common practice: no credit over the rating; under it by the pressure, which is steeper than tyres are."""
    base = {"wheel_rating": "180 kg", "stated_pressure": "30 psi"}
    assert number(tyres(**base, pressure="15 psi"), "wheel_carries", u.kg) == pytest.approx(90)
    assert number(tyres(**base, pressure="32 psi"), "wheel_carries", u.kg) == pytest.approx(180)
    assert verdict_on(tyres(**base, pressure="40 psi"), "Pressure") == NO


@pytest.mark.parametrize(("way", "times"), [("pushed over rough ground", 1.3), ("towed off road", 2.0)])
def test_trap_a_bump_counts_beside_the_slope(way: str, times: float) -> None:
    """Common practice: 1.3 times at a walk over rough ground, twice when towed off the road."""
    level = tyres(way=way, wheel_rating="180 kg", stated_pressure="30 psi", pressure="30 psi")
    load = next(each for each in level.requirements if each.label == "Wheel" or "wheel" in each.words)
    assert load.condition.quantities[0].number_in(u.kg) == pytest.approx(times * 75)


def test_small_cart_wheels_have_a_speed() -> None:
    """Common practice: an unmarked cart wheel is for a walk."""
    assert verdict_on(tyres(way="towed on a road", speed="12 mph", rated_speed="3 mph"), "Speed") == NO
    assert verdict_on(tyres(rated_speed="6 mph"), "Speed") == GO


# --- turning -----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("kind", ["trailer, single axle", "wagon, four wheels, steered by the drawbar"])
def test_the_circles_are_those_that_driving_round_settles_on(kind: str) -> None:
    """scipy: headings of drawbar and body integrated forward, hard over, until they are steady; the axle's radius is
    its speed over the turn rate."""
    from scipy.integrate import solve_ivp

    curve, behind, drawbar, wheelbase = math.tan(math.radians(30)) / 1.65, 0.55, 0.95, 1.1

    def speeds(bar: float, body: float) -> tuple[float, float, float, float]:
        along = math.cos(bar) + behind * curve * math.sin(bar)
        turn = (math.sin(bar) - behind * curve * math.cos(bar)) / drawbar
        return along, turn, along * math.cos(body), along * math.sin(body) / wheelbase

    def rates(_s: float, state: list[float]) -> list[float]:
        _, turn, _, body_turn = speeds(*state)
        return [curve - turn, turn - body_turn]

    bar, body = solve_ivp(rates, (0, 200), [0.0, 0.0], rtol=1e-10, atol=1e-12).y[:, -1]
    along, _, rear, _ = speeds(bar, body)
    answer = ask(
        "roll/turning",
        kind=kind,
        vehicle_wheelbase="1650 mm",
        steering="30",
        overhang="550 mm",
        drawbar="950 mm",
        wheelbase="1100 mm",
    )
    expected = (along if kind.startswith("trailer") else rear) / curve
    assert number(answer, "rig_circle", u.m) == pytest.approx(expected, abs=1e-6)


# --- the hitch, braking downhill -----------------------------------------------------------------------------------------


@pytest.mark.parametrize("brake", ["none", "overrun brake"])
@pytest.mark.parametrize(("braking", "grade"), [(3.0, 0.0), (5.0, 0.08), (2.0, 0.2)])
@pytest.mark.parametrize("height", [300.0, 450.0, 900.0])
def test_the_hitch_braking_downhill_is_the_equilibrium_of_the_free_body(brake: str, braking: float, grade: float, height: float) -> None:
    """D'Alembert's principle: forces along and across the slope and moments about the axle, solved as three equations
    by NumPy. What the page tells at most is the case that its brake is meant for; at least, that of the hitch alone."""
    mass, tongue, drawbar, hitch = 395.0, 36.0, 2.4, 0.45
    lean = math.atan(grade)
    ahead = tongue / mass * drawbar  # of the axle, so that on the level and at rest 36 kg are on the hitch
    on = mass * (braking + G * math.sin(lean))  # forward at the middle; down across the slope: mass·G·cos

    def on_the_hitch(held_back_at: float) -> float:
        """kg; held back at the hitch's height, or by its own wheels at the ground."""
        down = mass * G * math.cos(lean)
        # What holds it back, what lifts the hitch, what lifts the axle: forces along, forces across, moments about the
        # axle's line on the ground.
        forces = np.array([[1, 0, 0], [0, 1, 1], [held_back_at, drawbar, 0]])
        return float(np.linalg.solve(forces, np.array([on, down, down * ahead + on * height / 1000]))[1]) / G

    typed = {"brake": brake, "braking": f"{braking}", "grade": f"{100 * grade}", "cg_height": f"{height} mm"}
    found = ask(
        "roll/tow", kind="trailer, single axle", mass="395 kg", tongue="36 kg", tongue_rating="75 kg", drawbar="2400 mm",
        hitch_height="450 mm", **typed,
    )  # fmt: skip
    assert number(found, "hitch_push", u.N) == pytest.approx(on, rel=1e-9)
    assert number(found, "hitch_least", u.kg) == pytest.approx(on_the_hitch(hitch), rel=1e-9)
    most = on_the_hitch(0 if brake == "overrun brake" else hitch)
    # At most, the level's 36 kg count whole: a slope takes a little off them.
    assert number(found, "hitch_braking", u.kg) == pytest.approx(most + tongue * (1 - math.cos(lean)), rel=1e-9)


def test_a_low_middle_on_a_high_hitch_lifts_it_and_is_no_go() -> None:
    """5 kg on the hitch, the middle 0.3 m below it: 400 kg braked at 6 m/s² take 400·6·0.3/2/9.80665 = 36.7 kg off."""
    found = ask(
        "roll/tow", kind="trailer, single axle", mass="400 kg", tongue="5 kg", tongue_rating="75 kg", drawbar="2 m", hitch_height="600 mm",
        cg_height="300 mm", braking="6", grade="0", brake="none", vehicle="1500 kg", tow_rating="750 kg", power="60 kW", energy="40 kWh",
    )  # fmt: skip
    assert number(found, "hitch_least", u.kg) == pytest.approx(5 - 400 * 6 * 0.3 / 2 / G)
    assert found.verdict == NO and "lifts the vehicle's rear wheels" in found.say


def test_four_wheels_carry_themselves_and_tell_their_push_alone() -> None:
    found = ask("roll/tow", kind="wagon, four wheels, steered by the drawbar", mass="251 kg", braking="3", grade="0")
    assert number(found, "hitch_push", u.N) == pytest.approx(753) and "hitch_braking" not in found.results
