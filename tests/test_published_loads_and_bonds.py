"""Published figures and traps for what runs from the rig, what is plugged into it, and where it is bonded.

Claims about the world at their published precision, each with its source.
"""

from __future__ import annotations

import itertools
import math
import random
from xml.etree import ElementTree

import pytest

from calc import units as u
from calc.catalogue import check_called
from calc.check import GO, NO, NOT_KNOWN, TIGHT, Answer
from calc.drawing.outlet_faces import drawn, how_drawn, industrial_face, outlet_face
from calc.form import fill
from calc.laws import pilot
from calc.laws.loads import Load, Supply, Together
from calc.quantity import OutsideValidity, Quantity
from calc.tables import table


def ask(check: str, rules: str = "nec", **typed: str) -> Answer:
    asked = fill(check_called(check), typed, rules=rules)
    assert not asked.problems, asked.problems
    return asked.answer()


def number(answer: Answer, name: str, unit: u.Unit) -> float:
    result = answer.results[name]
    assert isinstance(result, Quantity)
    return result.number_in(unit)


def verdict_on(answer: Answer, label: str) -> str:
    return next(requirement.verdict for requirement in answer.requirements if requirement.label == label)


# --- a car's current ---------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("duty", "amps"), [(8.5, 6), (10, 6), (16.67, 10), (30, 18), (50, 30), (85, 51), (86, 55), (96, 80), (96.5, 80)]
)
def test_trap_11_the_pilot_is_not_one_straight_line(duty: float, amps: float) -> None:
    """SAE J1772 and IEC 61851-1, Annex A: 0.6 A per per cent to 85 %, then 2.5 A per per cent less 64."""
    # trap 11: the pilot is not one straight line: 85 % is 51 A, 86 % is 55 A, and 5 % is no 3 A but a message.
    assert pilot.current_offered(duty * u.percent).number_in(u.A) == pytest.approx(amps, abs=0.01)


@pytest.mark.parametrize("duty", [1, 2.9, 5, 6.9, 7.5, 97.5, 100])
def test_trap_11_five_per_cent_is_no_three_amps_but_a_message(duty: float) -> None:
    """SAE J1772: 3 to 7 % asks for digital signalling; under 3 %, 7 to 8 % and above 97 % nothing may be drawn."""
    with pytest.raises(OutsideValidity):
        pilot.current_offered(duty * u.percent)
    assert ask("run/car-current", set_by="the pilot, measured", duty="5 %").verdict == NOT_KNOWN


@pytest.mark.parametrize("amps", [6, 12, 16, 32, 40, 48, 51, 56, 64, 80])
def test_the_duty_that_is_set_offers_the_current_that_was_meant(amps: int) -> None:
    """SAE J1772, the table read one way and then the other."""
    there = pilot.duty_for(amps * u.A)
    assert pilot.current_offered(there).number_in(u.A) == pytest.approx(amps)


def test_a_car_of_48_amps_is_too_much_for_a_50_amp_range_outlet() -> None:
    """NEC 2023, 625.42: four fifths of 50 A is 40 A."""
    car = {"fed_by": "a wall outlet", "outlet": "14-50", "breaker": "50", "cord_rating": "48"}
    assert verdict_on(ask("run/car-current", charging_amps="48", **car), "Outlet") == NO
    assert verdict_on(ask("run/car-current", charging_amps="40", **car), "Outlet") == GO


def test_under_six_amps_no_car_charges() -> None:
    """SAE J1772, IEC 61851-1: 6 A is the least that the pilot offers. 5000 W less 3700 W is 5.4 A at 240 V."""
    answer = ask("run/car-current", outlet="14-30", breaker="30", running="3200", kept_free="500", charging_amps="6")
    assert answer.verdict == NO and verdict_on(answer, "Least current") == NO


def test_a_car_at_120_volts_is_held_against_one_leg() -> None:
    """Common practice, no published source: a 5 kW split-phase inverter gives 2500 W on one leg, 20.8 A."""
    at_120 = {"charging_volts": "120 V", "outlet": "L5-30", "breaker": "30", "kept_free": "0", "charging_amps": "24"}
    assert verdict_on(ask("run/car-current", one_leg="no", **at_120), "One leg") == NO
    assert verdict_on(ask("run/car-current", one_leg="yes", **at_120), "One leg") == GO
    assert number(ask("run/car-current", one_leg="no", **at_120), "amps_to_set", u.A) == 20


def test_an_outlet_gives_no_more_to_the_car_for_what_else_hangs_on_it() -> None:
    """NEC 2023, 625.42 with 210.20(A): 24 A of a 30 A circuit, less 10 A: 14 A."""
    answer = ask(
        "run/car-current", fed_by="a wall outlet", outlet="14-30", breaker="30", other_amps="10", charging_amps="14"
    )
    assert number(answer, "amps_to_set", u.A) == 14 and answer.verdict in (GO, TIGHT)


def test_a_car_needs_the_ground_that_an_old_dryer_outlet_has_not() -> None:
    """ANSI/NEMA WD 6: 10-30 is two hots and a neutral."""
    assert verdict_on(ask("run/car-current", fed_by="a wall outlet", outlet="10-30"), "Ground") == NO


# --- legs and neutral --------------------------------------------------------------------------------------------


def legs(**typed: str) -> Answer:
    standing = {"both": "0", "shared": "yes, and they hang on opposite legs", "one_leg": "no"}
    return ask("run/legs-and-neutral", **(standing | typed))


def test_trap_6_the_lighter_leg_rises_and_the_heavier_one_falls_by_more_than_half() -> None:
    """NEC 2023, Chapter 9, Table 8, 14 AWG solid 3.07 Ω/kft: 100 ft, 13 A and 6 A: 113.9 V and 120.3 V."""
    answer = legs(leg_a="13", leg_b="6", size="14 AWG", run_length="100 ft")
    wire = 0.314
    assert number(answer, "volts_on_a", u.V) == pytest.approx(120 - 13 * wire - 7 * wire)
    assert number(answer, "volts_on_a", u.V) == pytest.approx(113.9, abs=0.2)
    assert number(answer, "volts_on_b", u.V) == pytest.approx(120.3, abs=0.05)


def test_trap_6_volts_of_unequal_legs_against_a_nodal_solve() -> None:
    """Kirchhoff's current law at three nodes, solved by numpy: constant-current loads, equal wires."""
    import numpy

    g = 1 / (0.1 * 3.14)
    currents = numpy.array([-13.0, 13.0 - 6.0, 6.0])  # out of the hot A, into the neutral, into the hot B
    lift = numpy.linalg.solve(numpy.eye(3) * g, currents)
    a, n, b = numpy.array([120.0, 0.0, -120.0]) + lift
    answer = legs(leg_a="13", leg_b="6", size="14 AWG", run_length="100 ft")
    assert number(answer, "volts_on_a", u.V) == pytest.approx(a - n)
    assert number(answer, "volts_on_b", u.V) == pytest.approx(n - b)


def test_trap_6_a_lost_neutral_gives_15_and_225_volts() -> None:
    """Voltage divider: 240 V over 9.6 Ω (12.5 A at 120 V) and 144 Ω (0.833 A)."""
    answer = legs(leg_a="12.5", leg_b="0.83333", continuous="10000")
    assert number(answer, "open_neutral_volts_a", u.V) == pytest.approx(15, abs=0.01)
    assert number(answer, "open_neutral_volts_b", u.V) == pytest.approx(225, abs=0.01)
    assert "open_neutral_volts_b" not in legs(shared="no, each has its own").results


def test_trap_7_ten_kilowatts_on_two_legs_refuse_5_4_on_one() -> None:
    """Common practice, no published source: 10 kW split-phase is 41.7 A a leg; 45 A at 120 V is 5.4 kW."""
    heater = {"leg_a": "45", "leg_b": "0", "continuous": "10000", "size": "4 AWG"}
    assert verdict_on(legs(**heater), "The heavier leg") == NO
    assert verdict_on(legs(**heater), "Both legs together") == GO
    assert verdict_on(legs(**(heater | {"one_leg": "yes"})), "The heavier leg") == GO
    assert any("plate says" in note for note in legs(**heater).notes)


def test_two_hots_of_one_leg_add_up_in_their_neutral() -> None:
    """NEC 2023, 210.4: hots of a multiwire circuit have volts between them; 16 A and 16 A of one leg make 32 A."""
    wrong = legs(leg_a="10", leg_b="9", shared="yes, and both hang on one leg")
    assert wrong.verdict == NO and number(wrong, "neutral_current", u.A) == 19
    assert number(legs(leg_a="10", leg_b="9"), "neutral_current", u.A) == 1


# --- loads together ----------------------------------------------------------------------------------------------

FOUR = {
    "count": "4",
    "run_1": "1500",
    "start_1": "6000",
    "run_2": "1800",
    "start_2": "5400",
    "run_3": "200",
    "start_3": "200",
    "run_4": "1440",
    "start_4": "1440",
    "continuous": "5000",
    "surge": "10000",
}


def test_the_load_started_last_meets_all_the_others() -> None:
    """Common practice, no published source: 4940 W and 9440 VA on 5 kW and 10 kVA; without the charger 8000 VA."""
    answer = ask("run/loads-together", system="240 V", **FOUR)
    assert answer.verdict == TIGHT
    assert number(answer, "worst_start", u.VA) == 9440
    without = ask("run/loads-together", system="240 V", **(FOUR | {"run_4": "0", "start_4": "0"}))
    assert without.verdict == GO and number(without, "worst_start", u.VA) == 8000


def test_the_largest_surplus_starts_first() -> None:
    """By hand: 6000, then 1500 + 5400 = 6900, is the least worst moment of all orders."""
    answer = ask("run/loads-together", system="240 V", starts="by hand, one after the other", **FOUR)
    assert number(answer, "worst_start", u.VA) == 6900
    assert str(answer.results["start_order"]).startswith("1, then 2")


def stands_by_brute_force(rows: list[tuple[float, float, bool]], supply: Supply) -> bool:
    """Every order of starts and every way to hang them, tried one by one: no formula of the search is used."""
    sides = [("both",) if two_legs else ("A", "B") for _, _, two_legs in rows]
    for hung in itertools.product(*sides):
        orders = list(itertools.permutations(range(len(rows))))
        worst = min if supply.in_order else max
        moments = []
        for order in orders:
            peaks = []
            for leg in ("all", "A", "B"):
                on, peak = supply.already, supply.already
                for i in order:
                    part = 1.0 if leg == "all" else 0.5 if hung[i] == "both" else 1.0 if hung[i] == leg else 0.0
                    peak = max(peak, on + max(rows[i][1], rows[i][0]) * part)
                    on += rows[i][0] * part
                top = supply.surge if leg == "all" else supply.leg_surge or 1e9
                most = supply.continuous if leg == "all" else supply.leg or 1e9
                peaks.append(max(peak / top, on / most))
            moments.append(max(peaks))
        if worst(moments) <= 1 + 1e-9:
            return True
    return False


@pytest.mark.parametrize("seed", range(12))
def test_the_sets_are_what_trying_every_order_and_every_leg_finds(seed: int) -> None:
    """Own derivation: four random loads, all 24 orders of all 15 sets on all ways to hang them."""
    chance = random.Random(seed)
    rows = [(run, run * chance.choice((1, 2, 4)), chance.random() < 0.3) for run in chance.sample(range(100, 3000), 4)]
    supply = Supply(5000, 10_000, 2500, 5000, already=chance.choice((0, 300)), in_order=False)
    search = Together(tuple(Load(*row) for row in rows), supply)
    found = set(search.maximal_sets)
    allowed = {
        chosen
        for size in range(1, 5)
        for chosen in itertools.combinations(range(4), size)
        if stands_by_brute_force([rows[i] for i in chosen], supply)
    }
    maximal = {chosen for chosen in allowed if not any(set(chosen) < set(other) for other in allowed)}
    assert found == maximal


def test_in_order_nothing_is_called_possible_that_no_order_can_do() -> None:
    """Own derivation: the order by surplus, held against all orders of random loads."""
    for seed in range(12):
        chance = random.Random(seed)
        rows = [(float(run), run * chance.choice((1.0, 3.0)), False) for run in chance.sample(range(100, 2000), 4)]
        supply = Supply(5000, 7000, None, None, in_order=True)
        search = Together(tuple(Load(*row) for row in rows), supply)
        for size in range(1, 5):
            for chosen in itertools.combinations(range(4), size):
                assert search.may_run(chosen) == stands_by_brute_force([rows[i] for i in chosen], supply)


def test_the_legs_leave_the_least_in_the_neutral() -> None:
    """Own derivation: 13, 11, 7, 5 and 4 A on two legs: 20 against 20 is the best, and three ways are told."""
    loads = tuple(Load(amps * 120, amps * 120) for amps in (13, 11, 7, 5, 4))
    ways = Together(loads, Supply(9600, 20_000, 4800, 10_000)).best_legs(range(5), 3)
    every = [
        abs(sum(amps * side for amps, side in zip((13, 11, 7, 5, 4), sides, strict=True)))
        for sides in itertools.product((1, -1), repeat=4)
        for sides in ((1, *sides),)
    ]
    assert [way.neutral / 120 for way in ways] == sorted(every)[:3]
    assert ways[0].neutral == 0 and all(way.fits for way in ways)


def test_twelve_loads_are_searched_in_full_and_thirteen_are_said_not_to_be() -> None:
    """Own derivation: the sets of twelve equal loads of which five fit are the 792 fives."""
    twelve = Together(tuple(Load(900, 900) for _ in range(12)), Supply(4500, 9000))
    assert twelve.exact and len(twelve.maximal_sets) == math.comb(12, 5)
    thirteen = Together(tuple(Load(900, 900) for _ in range(13)), Supply(4500, 9000))
    assert not thirteen.exact
    assert thirteen.maximal_sets and all(thirteen.may_run(chosen) for chosen in thirteen.maximal_sets)


def test_a_120_volt_load_is_held_against_its_leg_however_it_is_hung() -> None:
    """5.4 kVA at 120 V on 10 kVA of two legs (common practice, no published source)."""
    heater = {"count": "2", "run_1": "5400", "start_1": "5400", "run_2": "0", "start_2": "0", "continuous": "10000"}
    assert ask("run/loads-together", surge="20000", one_leg="no", volts_1="120 V", **heater).verdict == NO
    assert ask("run/loads-together", surge="20000", one_leg="no", volts_1="240 V", **heater).verdict == GO


# --- adapters ----------------------------------------------------------------------------------------------------


def adapter(**typed: str) -> Answer:
    return ask("protect/adapter", **typed)


@pytest.mark.parametrize(
    ("outlet", "plug", "needs", "label", "expected"),
    [
        ("TT-30", "6-30", "240 V", "Volts of the outlet", NO),
        ("TT-30", "L5-30", "120 V", "Volts of the outlet", GO),
        ("10-30", "14-30", "120 and 240 V", "Ground", NO),
        ("10-30", "14-30", "120 and 240 V", "Volts of the outlet", GO),
        ("6-50", "5-20", "120 V", "Volts of the outlet", NO),
        ("6-50", "6-30", "240 V", "Volts of the outlet", GO),
        ("14-30", "5-20", "120 V", "Ground", GO),
        ("5-15", "14-50", "240 V", "Volts of the outlet", NO),
        ("14-50", "5-15", "240 V", "Volts of the plug", NO),
    ],
)
def test_trap_9_an_adapter_makes_no_volts_no_ground_and_no_neutral(
    outlet: str, plug: str, needs: str, label: str, expected: str
) -> None:
    """ANSI/NEMA WD 6: TT-30 is 125 V; 10-30 has no ground; 6-50 has no neutral; 5-15 has one hot."""
    assert verdict_on(adapter(outlet=outlet, plug=plug, needs=needs), label) == expected


def test_trap_10_the_breaker_in_the_wall_never_sees_it() -> None:
    """NEC 2023, 240.5 and 210.21(B): 50 A before 14 AWG and a 15 A pattern; with 15 A in the box it passes."""
    # trap 10: a plain adapter makes a small plug fit a 50 A outlet, whose breaker never sees a fault in the thin cord.
    plain = {"outlet": "14-50", "plug": "5-15", "breaker": "50", "cord": "14 AWG", "load_amps": "12"}
    alone = adapter(own_breaker="none", **plain)
    assert verdict_on(alone, "Breaker before the plug") == NO
    assert verdict_on(alone, "Breaker before the cord") == NO
    assert any("never sees" in note for note in alone.notes)
    boxed = adapter(own_breaker="15 A", lasting="no", **plain)
    assert boxed.verdict == GO and number(boxed, "most_current", u.A) == 15
    offered = fill(check_called("protect/adapter"), plain | {"own_breaker": "none"}).offers(alone)
    assert any(offer.change == {"own_breaker": "15 A"} for offer in offered)


def test_a_large_inlet_on_a_small_outlet_is_capped_to_the_outlet() -> None:
    """ANSI/NEMA WD 6: a 5-15 has 15 A, whatever a 14-50 would take; NEC 2023, 210.20(A): 12 A of it for hours."""
    small = {"outlet": "5-15", "plug": "14-50", "needs": "120 V", "breaker": "15", "cord": "10 AWG"}
    assert adapter(load_amps="12", lasting="yes", **small).verdict == TIGHT
    assert number(adapter(load_amps="12", lasting="yes", **small), "most_current", u.A) == pytest.approx(12)
    assert verdict_on(adapter(load_amps="16", **small), "Current") == NO


def test_an_outlet_on_too_large_a_breaker_is_no_source() -> None:
    """NEC 2023, Table 210.21(B)(3): a 15 A outlet stands on 20 A at most."""
    load = {"outlet": "5-15", "plug": "5-15", "load_amps": "5", "cord": "12 AWG", "own_breaker": "15 A"}
    assert verdict_on(adapter(breaker="30", **load), "Breaker before the outlet") == NO
    assert verdict_on(adapter(breaker="20", **load), "Breaker before the outlet") == GO


# --- outlets -----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("outlet", "volts", "breaker", "hours", "kilowatts"),
    [
        ("5-15", "120 V", "15", 12, 1.44),
        ("5-20", "120 V", "20", 16, 1.92),
        ("TT-30", "120 V", "30", 24, 2.88),
        ("6-50", "240 V", "50", 40, 9.6),
        ("14-50", "240 V", "50", 40, 9.6),
        ("14-60", "240 V", "60", 48, 11.52),
    ],
)
def test_trap_9_what_a_pattern_gives_for_hours(
    outlet: str, volts: str, breaker: str, hours: float, kilowatts: float
) -> None:
    """ANSI/NEMA WD 6 for volts and amps; NEC 2023, 210.20(A): four fifths for hours."""
    answer = ask("choose/outlet", outlet=outlet, wanted_volts=volts, breaker=breaker, wanted="12", lasting="yes")
    assert answer.verdict == GO
    assert number(answer, "for_hours", u.A) == pytest.approx(hours)
    assert number(answer, "power", u.kW) == pytest.approx(kilowatts)


def test_a_large_outlet_on_a_small_breaker_is_a_small_outlet() -> None:
    """NEC 2023, 210.20: the overcurrent device rules."""
    answer = ask("choose/outlet", outlet="5-20", breaker="15", wanted="16", lasting="no")
    assert verdict_on(answer, "Current") == NO and number(answer, "most_current", u.A) == 15


def test_208_volts_give_a_240_volt_heater_three_quarters() -> None:
    """ANSI C84.1 lists 208 V; 208 of 240 V heats three quarters, and 165 V at 120 V contacts is no supply."""
    commercial = ask(
        "choose/outlet", outlet="6-20", wanted_volts="240 V", measured="yes", volts="208", lasting="no", wanted="12"
    )
    assert verdict_on(commercial, "Volts under load") == TIGHT
    open_neutral = ask("choose/outlet", outlet="5-20", measured="yes", volts="165", lasting="no")
    assert verdict_on(open_neutral, "Not too many volts") == NO


@pytest.mark.parametrize(
    ("colour", "amps", "volts", "kilowatts"),
    [
        ("blue", "16 A", "230", 3.68),
        ("blue", "32 A", "230", 7.36),
        ("red", "32 A", "400", 22.17),
        ("yellow", "16 A", "110", 1.76),
    ],
)
def test_what_an_industrial_connector_gives(colour: str, amps: str, volts: str, kilowatts: float) -> None:
    """IEC 60309-2: colours and rated currents; three phases by the root of three."""
    answer = ask(
        "choose/outlet",
        "iec",
        connector=colour,
        connector_rating=amps,
        connector_volts=volts,
        breaker=amps.removesuffix(" A"),
        wanted="12",
    )
    assert answer.verdict in (GO, TIGHT)
    assert number(answer, "power", u.kW) == pytest.approx(kilowatts, abs=0.005)


def test_faces_are_drawn_by_the_dimensions_of_the_standard() -> None:
    """ANSI/NEMA WD 6, 5-15: slots half an inch apart, the ground 0.468 in from their line, the neutral the longer."""
    listed = table("outlet_slots")
    for pattern in ("5-15", "5-20"):
        at = {
            part: (float(listed.text(f"{pattern} {part}", "x")), float(listed.text(f"{pattern} {part}", "y")))
            for part in ("hot", "neutral", "ground")
        }
        assert at["hot"][0] - at["neutral"][0] == pytest.approx(0.5)
        assert at["ground"][1] - at["hot"][1] == pytest.approx(0.468)
    assert listed.value("5-15 neutral", "height").si > listed.value("5-15 hot", "height").si


def test_a_drawing_shows_the_contacts_that_the_pattern_has() -> None:
    """The table of outlets says which contacts there are; the drawing has those, a title, and no styles."""
    for pattern in drawn():
        face = ElementTree.fromstring(outlet_face(pattern))
        kinds = [part.get("class", "").split()[-1] for part in face if "slot" in part.get("class", "").split()]
        listed = table("outlets")
        assert ("neutral" in kinds) == (listed.text(pattern, "neutral") == "yes"), pattern
        assert ("ground" in kinds) == (listed.text(pattern, "ground") == "yes"), pattern
        assert kinds.count("hot") == (2 if listed.text(pattern, "volts") == "240" else 1), pattern
        assert "style" not in outlet_face(pattern) and face[0].tag.endswith("title")
    assert set(drawn()) == set(table("outlets").rows), "every pattern has its face"
    assert outlet_face("a pattern that nobody knows") == ""


def contact(pattern: str, part: str) -> tuple[float, ...]:
    """Where a curved contact reaches, in degrees from the right and upward, and how far out."""
    listed = table("outlet_slots")
    span, middle, radius = (float(listed.text(f"{pattern} {part}", column)) for column in ("height", "turn", "x"))
    return middle - span / 2, middle + span / 2, radius


def test_a_locking_face_is_that_of_the_standard() -> None:
    """ANSI/NEMA WD 6, L6-20: radius 0.437 in; slots of 57° and 42.5° that end 152° and 262° on from the ground's side."""
    wide, narrow = contact("L6-20", "hot"), contact("L6-20", "second hot")
    assert wide[2] == narrow[2] == 0.437
    assert wide[1] - wide[0] == pytest.approx(57) and narrow[1] - narrow[0] == pytest.approx(42.5)
    # The standard turns with the clock from the left where the ground is at the left; here the ground is below.
    assert wide[0] == pytest.approx(270 - 152) and narrow[0] == pytest.approx(270 - 262)


@pytest.mark.parametrize(("pattern", "other"), [("5-15", "6-15"), ("5-20", "6-20"), ("5-30", "6-30"), ("L5-30", "L6-30"), ("L5-20", "L6-20"), ("14-30", "14-50"), ("14-50", "14-60"), ("10-30", "10-50"), ("SS2-50", "CS 50"), ("L14-20", "L14-30"), ("TT-30", "10-30")])  # fmt: skip
def test_patterns_that_must_not_mate_do_not_look_alike(pattern: str, other: str) -> None:
    """ANSI/NEMA WD 6: no plug of one voltage or rating enters an outlet of another, but for 5-15 in 5-20 and 6-15 in 6-20."""
    faces = [outlet_face(name).partition("</title>")[2] for name in (pattern, other)]
    assert faces[0] != faces[1]


def test_a_20_amp_240_volt_face_takes_the_15_amp_plug_and_not_the_120_volt_one() -> None:
    """ANSI/NEMA WD 6: both flat slots of 6-15 lie in those of 6-20, one of them a T; the upright hot of 5-20 has no place."""
    listed = table("outlet_slots")
    assert listed.text("6-20 hot", "shape") == "T" and listed.text("5-20 neutral", "shape") == "T"
    flat = [listed.text("6-20 second hot", column) for column in ("x", "width", "height")]
    assert flat == [listed.text("6-15 second hot", column) for column in ("x", "width", "height")]
    upright = [float(listed.text("5-20 hot", column)) for column in ("width", "height")]
    assert upright[0] < upright[1] and float(flat[1]) > float(flat[2])


def test_where_the_ground_is_a_shell_it_is_drawn_round_the_others() -> None:
    """Boat connectors of 50 A: three contacts, the ground on the sleeve; read in a trade's article."""
    listed = table("outlet_slots")
    for pattern in ("SS2-50", "CS 50"):
        assert listed.text(f"{pattern} ground", "shape") == "ring"
        assert float(listed.text(f"{pattern} ground", "x")) > contact(pattern, "hot")[2]
    assert "not for measuring" in how_drawn("SS2-50") and "memory" in how_drawn("CS 50")
    assert "dimensions" in how_drawn("L6-20")


@pytest.mark.parametrize(("hour", "x", "y"), [(6, 0, 550), (9, -550, 0), (12, 0, -550), (3, 550, 0)])
def test_the_earth_of_an_industrial_connector_stands_at_its_hour(hour: int, x: float, y: float) -> None:
    """IEC 60309-2: the hour of the earth contact, the keyway at six o'clock."""
    face = ElementTree.fromstring(industrial_face(hour, 3))
    earth = next(part for part in face if part.get("class") == "slot ground")
    assert (float(earth.get("cx", "")), float(earth.get("cy", ""))) == pytest.approx((x, y), abs=1)


# --- bonds -------------------------------------------------------------------------------------------------------


def bonds(rules: str = "nec", **typed: str) -> Answer:
    standing = {"frame": "yes", "feeds": "its own outlets only", "switches_neutral": "yes", "frame_bond": "no"}
    return ask("protect/bond-and-ground", rules, **(standing | typed))


@pytest.mark.parametrize(
    ("bond", "switches", "alone", "plugged", "passing", "expected"),
    [
        ("none", "yes", 0, 0, 1, NO),
        ("none", "no", 0, 1, 1, NO),
        ("fixed", "yes", 1, 1, 2, NO),
        ("fixed", "no", 1, 2, 2, NO),
        ("relay, closed while inverting", "yes", 1, 1, 1, GO),
        ("relay, closed while inverting", "no", 1, 2, 1, NO),
    ],
)
def test_trap_29_bonds_are_counted_in_every_mode(
    bond: str, switches: str, alone: int, plugged: int, passing: int, expected: str
) -> None:
    """NEC 2023, 250.30 and 250.142(B), from memory: the rig's own, and the one upstream that the neutral reaches."""
    # trap 29: the rig's own bond left closed while the wall feeds it makes two bonds, and the wall's device trips.
    answer = bonds(bond=bond, switches_neutral=switches)
    counted = tuple(number(answer, name, u.one) for name in ("bonds_alone", "bonds_plugged_in", "bonds_passing"))
    assert counted == (alone, plugged, passing)
    assert answer.verdict == expected
    if bond == "fixed":
        assert verdict_on(answer, "Passing through: no second bond") == NO
        assert any("second one" in note for note in answer.notes)


def test_a_bonded_rig_feeds_a_building_only_through_a_transfer_that_opens_the_neutral() -> None:
    """NEC 2023, 250.30, from memory: a separately derived system has its neutral switched, or floats."""
    relay = {"bond": "relay, closed while inverting", "feeds": "a building"}
    assert number(bonds(building_switches="no", **relay), "bonds_feeding", u.one) == 2
    assert bonds(building_switches="no", **relay).verdict == NO
    assert bonds(building_switches="yes", **relay).verdict == GO
    assert str(bonds(building_switches="yes", **relay).results["rod"]) == "the building's own electrode"


def test_no_rod_where_all_metal_is_bonded_and_it_feeds_what_is_plugged_into_it() -> None:
    """29 CFR 1926.404(f)(3)(i)."""
    assert str(bonds().results["rod"]) == "not required"
    assert str(bonds(frame="no").results["rod"]) == "not decided" and bonds(frame="no").verdict == NO


@pytest.mark.parametrize(
    ("breaker", "enough", "thin"),
    [("20", "12 AWG", "14 AWG"), ("60", "10 AWG", "12 AWG"), ("100", "8 AWG", "10 AWG"), ("200", "6 AWG", "8 AWG")],
)
def test_the_bond_wire_goes_by_the_largest_breaker(breaker: str, enough: str, thin: str) -> None:
    """NEC 2023, Table 250.122."""
    assert verdict_on(bonds(largest_breaker=breaker, bond_size=enough), "Bond wire") == GO
    assert verdict_on(bonds(largest_breaker=breaker, bond_size=thin), "Bond wire") == NO


def test_one_tool_on_one_outlet_may_be_separated_and_two_may_not() -> None:
    """IEC 60364-4-41, 413 and 411.4, from memory."""
    separated = {"arrangement": "one outlet for one tool, separated, no bond"}
    assert bonds("iec", bond="none", **separated).verdict == GO
    assert bonds("iec", bond="fixed", **separated).verdict == NO
    assert bonds("iec", bond="none").verdict == NO


# --- ground-fault devices ----------------------------------------------------------------------------------------


@pytest.mark.parametrize(("milliamps", "seconds"), [(6, 5.59), (20, 1.0), (100, 0.100), (264, 0.025), (1000, 0.025)])
def test_a_class_a_device_opens_by_its_curve(milliamps: float, seconds: float) -> None:
    """UL 943: T = (20/I)^1.43 seconds, 5.59 s at 6 mA, 25 ms at 264 mA and above."""
    answer = ask("protect/ground-fault", fault=f"{milliamps} mA", leakage="0")
    assert number(answer, "longest_time", u.s) == pytest.approx(seconds, rel=0.01)


@pytest.mark.parametrize(("milliamps", "seconds"), [(30, 0.3), (59, 0.3), (60, 0.15), (149, 0.15), (150, 0.04)])
def test_a_30_milliamp_device_opens_in_three_steps(milliamps: float, seconds: float) -> None:
    """IEC 61008-1, Table 1, from memory: 0.3, 0.15 and 0.04 s at one, two and five times the rating."""
    answer = ask("protect/ground-fault", "iec", device="RCD type A, 30 mA", fault=f"{milliamps} mA", leakage="0")
    assert number(answer, "longest_time", u.s) == pytest.approx(seconds)


@pytest.mark.parametrize(
    ("outlet", "site", "expected"),
    [
        ("5-20", "anywhere else", NO),
        ("5-15", "a job site with employees", NO),
        ("L5-30", "a job site with employees", NO),
        ("L5-30", "anywhere else", TIGHT),
        ("14-50", "anywhere else", TIGHT),
    ],
)
def test_where_a_device_is_demanded(outlet: str, site: str, expected: str) -> None:
    """NEC 2023, 445.20 and 590.6(A); 29 CFR 1926.404(b)(1)."""
    answer = ask("protect/ground-fault", outlet=outlet, site=site, device="none")
    assert verdict_on(answer, "Protection of people") == expected


@pytest.mark.parametrize(("leakage", "expected"), [("3.5", GO), ("5", TIGHT), ("6", NO)])
def test_what_leaks_adds_up_to_a_trip(leakage: str, expected: str) -> None:
    """UL 943: below 4 mA it may not open, from 6 mA it must."""
    assert verdict_on(ask("protect/ground-fault", leakage=leakage), "Leakage") == expected


def test_trap_29_a_bond_left_closed_trips_the_wall() -> None:
    """NEC 2023, 250.142(B), from memory."""
    closed = ask("protect/ground-fault", own_bond="no, or not known")
    assert closed.verdict == NO and verdict_on(closed, "Second bond") == NO


def test_30_milliamps_protect_nobody_by_the_american_rule() -> None:
    """UL 943: Class A is 6 mA; a 30 mA device is for equipment."""
    assert verdict_on(ask("protect/ground-fault", device="RCD type A, 30 mA"), "Protection of people") == NO


# --- out of the inlet --------------------------------------------------------------------------------------------


def test_what_a_filter_keeps_a_second_after_the_plug_is_out() -> None:
    """IEC 60335-1, 22.5, from memory: 34 V after one second. RC against scipy's solver of dv/dt = -v/RC."""
    from scipy.integrate import solve_ivp

    for farads, ohms in ((2.2e-6, 470e3), (1e-6, 220e3)):
        fall = solve_ivp(lambda _, v, rc=farads * ohms: -v / rc, (0, 1), [230 * math.sqrt(2)], rtol=1e-10, atol=1e-12)
        answer = ask(
            "protect/inlet-backfeed",
            line_volts="230",
            filter=f"{farads * 1e6} uF",
            bleeder=f"{ohms / 1e3} kohm",
        )
        assert number(answer, "volts_left", u.V) == pytest.approx(fall.y[0][-1], rel=1e-6)
        assert (verdict_on(answer, "Charge left on the pins") == GO) == (fall.y[0][-1] <= 34)


@pytest.mark.parametrize(
    ("said", "label"),
    [
        ({"live_pins": "yes"}, "Pins"),
        ({"entry": "a cord with a plug at both ends, or an outlet used as inlet"}, "Inlet"),
        ({"transfer": "one pole only, or nothing"}, "Transfer"),
        ({"export": "it feeds the line, or is not known"}, "Certified to stop"),
        ({"export": "it feeds the line, certified", "permission": "yes", "stops_within": "5 s"}, "Stops in time"),
        ({"export": "it feeds the line, certified", "permission": "no"}, "Agreed with the line's owner"),
        ({"feeds": "a building", "into_building": "a breaker in the panel, or an outlet"}, "Into the building"),
    ],
)
def test_each_way_back_is_a_no(said: dict[str, str], label: str) -> None:
    """NEC 2023, 406.7, 702.5, 705; IEEE 1547-2018, 8.1: two seconds; all from memory."""
    answer = ask("protect/inlet-backfeed", **said)
    assert answer.verdict == NO and verdict_on(answer, label) == NO
    assert ask("protect/inlet-backfeed").verdict == GO


# --- welder ------------------------------------------------------------------------------------------------------


def test_trap_23_the_wire_goes_by_the_duty_and_the_inverter_by_the_whole_current() -> None:
    """NEC 2023, Table 630.11(A): 40 A at 50 % is 28.4 A, 10 AWG; 40 A at 240 V is 9.6 kVA all the same."""
    # trap 23: the wire of a welder goes by 28.4 A that heat it, the inverter by the whole 40 A.
    welder = {"largest": "40", "duty": "50", "size": "10 AWG", "breaker": "30", "surge": "24000"}
    answer = ask("run/welder", continuous="5000", **welder)
    assert number(answer, "effective_current", u.A) == pytest.approx(28.4)
    assert verdict_on(answer, "Wire") == TIGHT and verdict_on(answer, "Inverter while it welds") == NO
    assert any("all 40" in note for note in answer.notes)
    assert verdict_on(ask("run/welder", continuous="12000", **welder), "Inverter while it welds") == GO


@pytest.mark.parametrize("duty", range(20, 101, 10))
def test_the_duty_table_is_the_root_of_the_duty(duty: int) -> None:
    """NEC 2023, Table 630.11(A), against IEC 60974-1: I1eff = √(I1²·X + I0²·(1 − X)), which is √X without idle."""
    by_table = number(ask("run/welder", largest="30", duty=str(duty)), "effective_current", u.A)
    by_law = number(
        ask("run/welder", largest="30", duty=str(duty), known="its duty and idle current", idle="0"),
        "effective_current",
        u.A,
    )
    assert by_table == pytest.approx(by_law, rel=0.012)
    assert by_law == pytest.approx(30 * math.sqrt(duty / 100))


def test_a_welders_breaker_may_be_twice_but_not_its_outlets() -> None:
    """NEC 2023, 630.12 and 210.21(B): 20 A machine on 12 AWG, 40 A; a 6-20 stands on 20 A all the same."""
    load = {"largest": "20", "duty": "20", "size": "12 AWG", "breaker": "40", "alone": "yes", "fed_by": "a wall outlet"}
    assert verdict_on(ask("run/welder", outlet="6-50", **load), "Breaker protects") == GO
    assert verdict_on(ask("run/welder", outlet="6-20", **load), "Breaker before the outlet") == NO
    assert verdict_on(ask("run/welder", outlet="6-50", **(load | {"alone": "no"})), "Breaker protects") == NO


# --- several loads through the inlet -----------------------------------------------------------------------------


def through(inlet: str, **typed: str) -> Answer:
    """Two loads of 1500 and 1440 VA that start as they run, with the rig plugged in."""
    loads = {"count": "2", "run_1": "1500", "start_1": "1500", "run_2": "1440", "start_2": "1440"}
    wall = {"fed_by": "a wall outlet", "inlet": inlet, "inlet_rating": "50", "inlet_breaker": "30", "relay": "50"}
    return ask("run/loads-together", **{**loads, **wall, **typed})


def test_the_least_on_the_way_through_the_inlet_rules_and_the_inverter_has_no_say() -> None:
    """Kirchhoff, NEC 2023, 210.23: 2940 VA at 120 V are 24.5 A: through 30 A yes, behind 20 A or a relay of 20 A no."""
    assert verdict_on(through("L5-30"), "While they run") == TIGHT  # over 24 A for hours
    for least in ({"inlet_breaker": "20"}, {"relay": "20"}, {"inlet_rating": "20"}):
        assert verdict_on(through("L5-30", **least), "While they run") == NO, least
    assert through("L5-30", continuous="500").verdict == through("L5-30").verdict


def test_an_inlet_of_two_hots_passes_them_on_two_legs() -> None:
    """12.5 A and 12 A on two legs of 30 A: a go, where one hot of 30 A is tight."""
    assert through("14-30").verdict == GO
    both = through("14-30", run_1="3400", start_1="3400")
    assert any(rest.verdict == TIGHT and "Leg" in rest.label for rest in both.requirements)


def test_an_inlet_without_the_volts_feeds_no_such_load() -> None:
    """ANSI/NEMA WD 6: L5-30 has no 240 V and 6-50 no neutral, whatever the rig's own outlets look like."""
    assert verdict_on(through("L5-30", volts_1="240 V"), "Volts of load 1") == NO
    assert verdict_on(through("6-50", volts_1="240 V"), "Volts of load 2") == NO
    assert through("14-50", volts_1="240 V").verdict == GO


def test_a_start_passes_through_to_the_walls_breaker() -> None:
    """Common practice: a breaker surely holds five times its rating for a moment, 100 A of 20 A at 120 V: 12 kVA."""
    start = {"inlet_breaker": "20", "run_2": "0", "start_2": "0", "run_1": "1500"}
    for amps, expected in (("89", GO), ("99", TIGHT), ("101", NO)):
        answer = through("5-20", **start, start_1=str(120 * int(amps)))
        assert verdict_on(answer, "At the worst start") == expected, amps
