"""Breakers before circuits, motors and welders: published figures and the traps of the trade, each with its source."""

from __future__ import annotations

import pytest

from calc import units as u
from calc.catalogue import check_called
from calc.check import GO, NO, TIGHT, Answer
from calc.form import defaults, fill
from calc.quantity import Quantity


def ask(check: str, rules: str = "nec", **typed: str) -> Answer:
    """A check answered from what is typed and the defaults of its asks; the example rig has no say."""
    kind = check_called(check)
    asked = fill(kind, defaults(kind, rules) | typed, rules=rules)
    assert not asked.problems, asked.problems
    return asked.answer()


def number(answer: Answer, name: str, unit: u.Unit) -> float:
    result = answer.results[name]
    assert isinstance(result, Quantity)
    return result.number_in(unit)


def verdict_on(answer: Answer, label: str) -> str:
    return next(requirement.verdict for requirement in answer.requirements if requirement.label == label)


def said(answer: Answer) -> str:
    return " ".join(answer.notes).replace("\u00a0", " ")


# --- which breaker -----------------------------------------------------------------------------------------------


def circuit(rules: str = "nec", **typed: str) -> Answer:
    return ask("protect/breaker-for-circuit", rules, **typed)


def motor(horsepower: str, motor_volts: str = "230 V", **typed: str) -> Answer:
    return circuit(feeds="one motor", motor_size=horsepower, motor_volts=motor_volts, terminals="75 °C", **typed)


def test_trap_3_ten_gauge_may_sit_behind_70_amps_before_a_motor_of_five_horsepower() -> None:
    """NEC 2023, 430.22, 430.52: 28 A; wire for 35 A, which 10 AWG is at 75 °C; 250 % is 70 A.

    The naive answer is the 30 A of 240.4(D), behind which this motor would not start.
    """
    # trap 3: 12 AWG is 25 A in the table and 20 A on its breaker, yet before a motor 10 AWG stands behind 70 A.
    five = motor("5", size="10 AWG", breaker="70")
    assert five.verdict == GO and number(five, "largest_breaker", u.A) == 70
    assert number(five, "wire_needed", u.A) == pytest.approx(35)
    assert "30 A" in said(five) and "430.52" in said(five)
    assert verdict_on(motor("5", size="12 AWG", breaker="70"), "Wire") == NO
    assert verdict_on(circuit(size="10 AWG", breaker="70", terminals="75 °C"), "Breaker protects the wire") == NO


@pytest.mark.parametrize(
    ("size", "volts", "device", "amps"),
    [
        ("1", "115 V", "inverse-time breaker", 40),  # a trade magazine: 16 A, 250 %
        ("2", "230 V", "inverse-time breaker", 30),  # 12 A, 250 %
        ("1 1/2", "115 V", "inverse-time breaker", 50),  # 20 A, 250 %
        ("3", "230 V", "inverse-time breaker", 45),  # 17 A, 42.5 A, the next size up
        ("5", "230 V", "time-delay fuse", 50),  # 28 A, 49 A, the next size up
        ("5", "230 V", "non-time-delay fuse", 90),  # 28 A, 84 A, the next size up
        ("1/6", "230 V", "time-delay fuse", 6),  # 2.2 A, 3.85 A: the fuses' list has 6 A, the breakers' begins at 10 A
        ("1/6", "230 V", "inverse-time breaker", 10),
    ],
)
def test_the_largest_device_before_a_motor(size: str, volts: str, device: str, amps: int) -> None:
    """NEC 2023, Tables 430.248, 430.52(C)(1), 240.6(A)."""
    assert number(motor(size, volts, device=device), "largest_breaker", u.A) == amps


@pytest.mark.parametrize(
    ("device", "allowed", "top"),
    [("inverse-time breaker", 70, 110), ("time-delay fuse", 50, 60), ("non-time-delay fuse", 90, 110)],
)
def test_where_it_will_not_start_there_is_a_ceiling_and_no_size_up(device: str, allowed: int, top: int) -> None:
    """NEC 2023, 430.52(C)(1)(b): 400, 225 and 400 % of 28 A are 112, 63 and 112 A; the standard sizes below them."""
    typed = {"device": device, "size": "10 AWG"}
    assert number(motor("5", breaker=str(allowed), **typed), "largest_for_hard_start", u.A) == top
    label = "Short circuits of a motor"
    for breaker, verdict in ((allowed, GO), (allowed + 1, TIGHT), (top, TIGHT), (top + 1, NO)):
        assert verdict_on(motor("5", breaker=str(breaker), **typed), label) == verdict, breaker


def test_a_dc_motor_has_150_per_cent_and_a_large_one_three_times_at_most() -> None:
    """NEC 2023, Table 430.52(C)(1): 40 A, 60 A; 120 A, 180 A and so 200 A; 430.52(C)(1)(b): 300 % above 100 A, 350 A."""
    typed = {"feeds": "one dc motor", "size": "4/0 AWG", "terminals": "75 °C"}
    small, large = (circuit(dc_amps=amps, breaker="60", **typed) for amps in ("40", "120"))
    assert number(small, "largest_breaker", u.A) == 60
    assert number(large, "largest_breaker", u.A) == 200 and number(large, "largest_for_hard_start", u.A) == 350
    assert verdict_on(circuit(dc_amps="40", dc_volts="48", **typed), "Volts dc") == NO


@pytest.mark.parametrize(
    ("factor", "amps"), [("1.15 or more, or a rise of 40 °C or less", 25), ("less, or not stated", 23)]
)
def test_overload_goes_by_the_plate(factor: str, amps: float) -> None:
    """NEC 2023, 430.32(A)(1): 125 % of the plate's 20 A with a service factor of 1.15, 115 % without."""
    answer = motor("5", motor_plate="20", service_factor=factor)
    assert number(answer, "overload_setting", u.A) == pytest.approx(amps)
    kind = check_called("protect/breaker-for-circuit")
    for feeds, warned in (("one motor", True), ("one load", False)):
        filled = fill(kind, defaults(kind, "nec") | {"feeds": feeds}).check
        assert filled is not None
        assert any("overload" in caution.hazard for caution in filled.warnings()) == warned


def test_a_welders_breaker_may_be_twice_its_wire() -> None:
    """NEC 2023, 630.12: 50 A at a duty of 20 % heats as 22.5 A: 10 AWG (30 A at 60 °C), and up to 60 A before it."""
    load = {"feeds": "one welder", "welder_largest": "50", "welder_effective": "22.5", "size": "10 AWG"}
    assert circuit(breaker="60", **load).verdict == GO
    assert "630.12" in said(circuit(breaker="60", **load)) and "30 A" in said(circuit(breaker="60", **load))
    assert verdict_on(circuit(breaker="70", **load), "Short circuits of a welder") == NO


def test_where_load_and_wire_leave_no_rating_between_them() -> None:
    """NEC 2023, 210.20(A), 240.4: 24 A for hours asks for 30 A; 12 AWG allows 20 A."""
    answer = circuit(continuous_current="24", size="12 AWG", breaker="30")
    assert verdict_on(answer, "A rating for load and wire") == NO
    assert str(answer.results["ratings_that_serve"]) == "none"
    found = circuit(continuous_current="24", size="10 AWG", breaker="30")
    assert found.verdict == TIGHT and str(found.results["ratings_that_serve"]).replace("\u00a0", " ") == "30 A"


def test_a_device_marked_for_all_of_its_rating_is_loaded_to_it_with_nothing_to_spare() -> None:
    """NEC 2023, 210.20(A), Exception: 80 A for hours behind 80 A where marked, behind 100 A otherwise."""
    load = {"continuous_current": "80", "size": "3 AWG", "terminals": "75 °C", "breaker": "80"}
    assert verdict_on(circuit(full_rated="no", **load), "Breaker holds the load") == NO
    assert verdict_on(circuit(full_rated="yes", **load), "Breaker holds the load") == TIGHT


def test_several_receptacles_take_no_size_up() -> None:
    """NEC 2023, 240.4(B)(1): 8 AWG at 45 °C with four carrying is 38.3 A: 40 A for one load, 35 A for receptacles."""
    load = {"other_current": "20", "size": "8 AWG", "terminals": "75 °C", "ambient": "45 °C", "carrying": "4"}
    assert number(circuit(feeds="one load", **load), "largest_breaker", u.A) == 40
    assert number(circuit(feeds="several receptacles", **load), "largest_breaker", u.A) == 35


def test_an_unmarked_breaker_interrupts_5000_amps() -> None:
    """NEC 2023, 110.9, 240.83(C)."""
    assert verdict_on(circuit(ac_fault="4000"), "Interrupting") == GO
    assert verdict_on(circuit(ac_fault="6000"), "Interrupting") == NO
    assert verdict_on(circuit(ac_fault="6000", ac_interrupting="10000"), "Interrupting") == GO


@pytest.mark.parametrize(("kind", "starts", "far"), [("B", 48, 80), ("C", 80, 160), ("D", 160, 320)])
def test_the_types_hold_and_open_at_their_multiples(kind: str, starts: int, far: int) -> None:
    """IEC 60898-1, Table 7, for 16 A: B 3 to 5, C 5 to 10, D 10 to 20 times."""
    load = {"device": f"circuit-breaker, type {kind}", "breaker": "16", "far_fault_known": "measured or worked out"}
    for amps, verdict in ((starts, GO), (starts + 1, NO)):
        assert verdict_on(circuit("iec", start_current=str(amps), far_fault="9999", **load), "Starts") == verdict
    for amps, verdict in ((far / 0.9, GO), (far, TIGHT), (far - 1, NO)):
        assert verdict_on(circuit("iec", far_fault=str(amps), **load), "Fault at the far end") == verdict


def test_a_fault_loop_that_nobody_measured_is_never_a_go() -> None:
    """IEC 60364-4-41, 411.4.4."""
    answer = circuit("iec", continuous_current="8", breaker="16")
    assert answer.verdict == TIGHT and "not known" in answer.say


def test_a_gg_fuse_is_held_lower_than_a_breaker() -> None:
    """IEC 60364-4-43, 433.1: 2.5 mm² XLPE, B2, 70 °C lugs 23 A: breaker 20 A, and 20 A fuse against 0.9 · 23 = 20.7 A."""
    typed = {"continuous_current": "10", "terminals": "70 °C"}
    assert number(circuit("iec", **typed), "usable_ampacity", u.A) == pytest.approx(23)
    fuse = circuit("iec", device="gG fuse", breaker="25", **typed)
    assert verdict_on(fuse, "Device protects the wire") == NO and number(fuse, "largest_breaker", u.A) == 20


# --- on inverter power -------------------------------------------------------------------------------------------


def shorted(rules: str = "nec", **typed: str) -> Answer:
    return ask("protect/breaker-on-inverter", rules, **{"loop": "0.1"} | typed)


SIX_KW = {"breaker": "20", "continuous": "6000", "fault_times": "2", "one_leg": "no"}


def test_trap_16_fifty_amps_into_a_20_amp_breaker_do_not_move_its_magnet() -> None:
    """6 kW over two legs, twice its rating for 0.1 s: 50 A, 2.5 times; makers' curves need five to ten times.

    The naive answer is that a dead short always trips the breaker.
    """
    # trap 16: 50 A from the inverter into a 20 A breaker is 2.5 times its rating: no trip, the inverter goes dark.
    answer = shorted(**SIX_KW)
    assert number(answer, "fault_current", u.A) == pytest.approx(50)
    assert number(answer, "multiple", u.one) == pytest.approx(2.5)
    assert answer.verdict == TIGHT and "the breaker stays closed" in answer.say
    assert str(answer.results["cleared_by"]) == "the inverter's electronics"
    assert "dead short trips the breaker" in said(answer)


def test_a_wall_opens_the_breaker_that_the_inverter_does_not() -> None:
    """Ten times 20 A is 200 A: a wall of 250 A opens it at once; 150 A do so by heat, within two minutes (UL 489)."""
    assert str(shorted(**SIX_KW, wall_current="250").results["on_pass_through"]) == "the breaker opens at once"
    assert "120" in str(shorted(**SIX_KW, wall_current="150").results["on_pass_through"])


def test_without_a_ground_fault_device_people_rest_on_electronics_and_no_longer_than_the_table_says() -> None:
    """IEC 60364-4-41, Table 41.1: 0.8 s at 120 V, 0.4 s at 230 V to earth."""
    bare = SIX_KW | {"ground_fault": "none"}
    for seconds, verdict in (("0.1", TIGHT), ("0.8", TIGHT), ("0.81", NO)):
        assert verdict_on(shorted(**bare, fault_time=seconds), "A fault to the frame") == verdict
    for seconds, verdict in (("0.4", TIGHT), ("0.41", NO)):
        answer = shorted("iec", ground_fault="none", kind="type C", fault_time=seconds)
        assert verdict_on(answer, "A fault to the frame") == verdict
    # A 240 V outlet of split-phase has 120 V to the frame.
    assert verdict_on(shorted(**bare, outlet="6-20", fault_time="0.8"), "A fault to the frame") == TIGHT
    assert verdict_on(shorted(**SIX_KW, fault_time="1"), "A fault to the frame") == GO


@pytest.mark.parametrize(("kilowatts", "expected"), [(1000, NO), (4000, NO), (5000, TIGHT), (20000, TIGHT)])
def test_an_inverter_that_holds_its_limit_feeds_a_short_for_good_or_until_the_breaker_is_hot(
    kilowatts: int, expected: str
) -> None:
    """UL 489: within 120 s at twice the rating of 20 A; below that there is no bound worth waiting for."""
    answer = shorted(
        **SIX_KW | {"continuous": str(kilowatts)}, behaviour="it holds its limit and goes on", kind="US, inverse-time"
    )
    assert verdict_on(answer, "A short between wires") == expected


def test_the_magnet_needs_a_moment() -> None:
    """IEC 60898-1, Table 7: under 0.1 s. An inverter that is off after 20 ms has cleared the short itself."""
    strong = {"kind": "type B", "breaker": "10", "continuous": "10000", "fault_times": "2"}
    assert shorted("iec", **strong, fault_time="0.2").verdict == GO
    quick = shorted("iec", **strong, fault_time="0.02")
    assert quick.verdict == TIGHT and "before the magnet" in quick.say


def test_a_long_thin_cord_holds_the_current_down() -> None:
    """Ohm: 230 V through 5 Ω is 46 A, whatever the inverter would give."""
    assert number(shorted("iec", continuous="20000", loop="5"), "fault_current", u.A) == pytest.approx(46)


def test_one_leg_gives_half_unless_its_plate_says_more() -> None:
    """Common practice: 6 kW over two legs is 3 kW on one."""
    assert number(shorted(**SIX_KW | {"one_leg": "yes"}), "fault_current", u.A) == pytest.approx(100)
    assert number(shorted(**SIX_KW, outlet="14-50"), "fault_current", u.A) == pytest.approx(50)
    assert shorted(**SIX_KW, system="230 V").verdict == "not known"


@pytest.mark.parametrize(
    ("feeds", "breaker", "seconds"),
    [
        ("one load", "32", 0.4),
        ("one load", "40", 5),
        ("several receptacles", "40", 0.4),
        ("several receptacles", "80", 5),
    ],
)
def test_how_soon_a_fault_to_earth_must_be_off(feeds: str, breaker: str, seconds: float) -> None:
    """IEC 60364-4-41, 411.3.2.2: final circuits up to 63 A with sockets and up to 32 A without; 411.3.2.3: 5 s in others."""
    answer = circuit("iec", feeds=feeds, breaker=breaker, size="25 mm2")
    assert number(answer, "disconnect_within", u.s) == seconds


# --- several welders ---------------------------------------------------------------------------------------------


def group(**typed: str) -> Answer:
    return ask("run/welder-group", **{"fed_by": "a wall outlet", "size": "4/0 AWG", "breaker": "150"} | typed)


@pytest.mark.parametrize(("count", "times"), [(1, 1), (2, 2), (3, 2.85), (4, 3.55), (5, 4.15), (8, 5.95)])
def test_a_group_of_welders_counts_for_less_than_its_sum(count: int, times: float) -> None:
    """NEC 2023, 630.11(B): the two largest in full, then 85, 70 and 60 % for all that follow."""
    alike = group(count=str(count), largest="20", duty="100")
    assert number(alike, "group_current", u.A) == pytest.approx(20 * times)
    assert number(alike, "added_up", u.A) == pytest.approx(20 * count)


def test_the_largest_come_first_in_a_group_of_two_kinds() -> None:
    """NEC 2023, 630.11: 50 A at 60 % is 39 A; 30 A at 20 % 13.5 A: 39 + 13.5 + 0.85 · 13.5 + 0.70 · 13.5 A."""
    two = {"kinds": "two kinds", "count": "1", "largest": "50", "duty": "60"}
    small = {"other_count": "3", "other_largest": "30", "other_duty": "20"}
    assert number(group(**two, **small), "group_current", u.A) == pytest.approx(39 + 13.5 * 2.55)
    turned = {"kinds": "two kinds", "count": "3", "largest": "30", "duty": "20"}
    large = {"other_count": "1", "other_largest": "50", "other_duty": "60"}
    assert group(**turned, **large).verdict == "not known"


def test_the_inverter_carries_all_arcs_and_not_the_group() -> None:
    """Kirchhoff: three of 20 A at 240 V are 14.4 kVA at once, though 36 A heat the feeder as 8.2 kVA would."""
    three = {"count": "3", "largest": "20", "duty": "40", "fed_by": "the rig's inverter"}
    assert verdict_on(group(**three, continuous="14000"), "Inverter with all arcs burning") == NO
    assert verdict_on(group(**three, continuous="16000"), "Inverter with all arcs burning") == GO


def test_a_feeders_breaker_guards_no_single_welder() -> None:
    """NEC 2023, 630.12(A): 200 % of I1max of each: 40 A for 20 A; (B): twice the wire, 55 A of 6 AWG, 110 A."""
    three = {"count": "3", "largest": "20", "duty": "40", "size": "6 AWG", "breaker": "60"}
    assert verdict_on(group(**three, guards="no, they share the feeder's"), "Each welder guarded") == NO
    assert number(group(**three), "largest_breaker", u.A) == 110
