"""Where the two rule sets differ, a page says which of them answered and what the other says."""

from __future__ import annotations

import pytest

from calc.catalogue import all_checks, check_called
from calc.check import NEC, NO, TIGHT, Answer, Check
from calc.form import defaults, fill
from calc.side_by_side import counterpart

COMPARED = [check for check in all_checks() if check.compared]


def ask(check: str, rules: str = "nec", **typed: str) -> Answer:
    kind = check_called(check)
    asked = fill(kind, defaults(kind, rules) | typed, rules=rules)
    assert not asked.problems, asked.problems
    return asked.answer()


def filled(check: str, rules: str = "nec", **typed: str) -> Check:
    kind = check_called(check)
    form = fill(kind, defaults(kind, rules) | typed, rules=rules).check
    assert form is not None
    return form


def said(answer: Answer) -> str:
    return " ".join(answer.notes).replace("\u00a0", " ")


def test_the_pages_on_wires_and_breakers_compare() -> None:
    compared = {check.id for check in COMPARED}
    assert compared >= {"wire/wire-for-run", "wire/longest-run", "wire/ground-wire", "protect/breaker-for-circuit"}


@pytest.mark.parametrize("rules", ["nec", "iec"])
@pytest.mark.parametrize("check", COMPARED, ids=lambda check: check.id)
def test_each_says_which_rules_answered_and_what_the_others_say(check: type[Check], rules: str) -> None:
    answer = fill(check, {}, rules=rules).answer()
    first, other = ("The NEC", "IEC rules") if rules == NEC else ("IEC rules", "The NEC")
    assert f"{first} answered." in said(answer) and other in said(answer)


def test_what_the_others_say_is_what_they_say_when_they_are_asked() -> None:
    """12 AWG and 2.5 mm², the same 16 A at 45 °C: the sentence is that of the other page, word for word."""
    here = filled("wire/wire-for-run", other_current="4", ambient="45 °C")
    twin, _ = counterpart(here, "iec")
    assert twin.rules == "iec" and twin.size == "2.5 mm2" and twin.ambient.si == here.ambient.si  # type: ignore[attr-defined]
    assert twin.answer().say.replace("\u00a0", " ") in said(here.full_answer())
    for name in ("usable_ampacity", "largest_breaker"):
        assert f"{twin.answer().results[name]} there".replace("\u00a0", " ") in said(here.full_answer())


@pytest.mark.parametrize(
    ("size", "there"),
    [("14 AWG", "1.5 mm2"), ("12 AWG", "2.5 mm2"), ("10 AWG", "4 mm2"), ("8 AWG", "6 mm2"), ("6 AWG", "10 mm2"), ("4 AWG", "16 mm2"), ("1/0 AWG", "50 mm2"), ("4/0 AWG", "95 mm2")],
)  # fmt: skip
def test_a_size_is_carried_over_to_none_that_is_thicker(size: str, there: str) -> None:
    """ASTM B258 and IEC 60228: 14 AWG 2.08 mm², 12 3.31, 10 5.26, 8 8.37, 6 13.3, 4 21.2, 1/0 53.5, 4/0 107."""
    twin, _ = counterpart(filled("wire/wire-for-run", size=size), "iec")
    assert twin.size == there  # type: ignore[attr-defined]


def test_a_metric_size_goes_to_the_gauge_below() -> None:
    twin, _ = counterpart(filled("wire/wire-for-run", "iec", size="2.5 mm2"), "nec")
    assert twin.size == "14 AWG"  # type: ignore[attr-defined]


def test_what_has_no_counterpart_is_not_known_and_says_why() -> None:
    """60 °C insulation is no class of the international tables; a motor's circuit has no such rule there."""
    assert "is not known: no wire for 60 °C" in said(ask("wire/wire-for-run", insulation="60 °C"))
    assert "is not known: a motor's" in said(ask("protect/breaker-for-circuit", feeds="one motor"))


def test_a_go_here_may_be_a_no_there() -> None:
    """2.5 mm² behind 20 A is sound by IEC 60364-4-43 (23 A as laid); NEC 240.4(D) holds the nearest gauge to 15 A."""
    answer = ask("wire/wire-for-run", "iec", size="2.5 mm2", breaker="20", continuous_current="16", run_length="10 m")
    assert answer.verdict != NO and "The NEC says no" in said(answer) and "20 A here, 15 A there" in said(answer)


def test_a_tool_says_where_the_rules_differ() -> None:
    """NEC 2023, 210.20(A): 125 % for hours; IEC 60309: none on an industrial socket, and a 30 mA device before each."""
    here = ask("run/tool-on-outlet", lasting="yes", plate_amps="5")
    assert "The NEC answered" in said(here) and "125 %" in said(here) and "IEC rules" in said(here)
    there = ask("run/tool-on-outlet", "iec", lasting="yes", plate_amps="5", breaker="16")
    assert "IEC rules answered" in said(there) and "125 %" in said(there)


# --- a tool on a socket under the international rules ----------------------------------------------------------------


SOCKET = {"fed_by": "a wall outlet", "start": "heater or resistive", "source_resistance": "0.005", "breaker": "16"}


def verdict_on(answer: Answer, label: str) -> str:
    return next(requirement.verdict for requirement in answer.requirements if requirement.label == label)


def tool(**typed: str) -> Answer:
    return ask("run/tool-on-outlet", "iec", **SOCKET | typed)


def test_a_household_socket_does_not_carry_its_amps_for_hours_and_an_industrial_one_does() -> None:
    """IEC 60309: 16 A for hours; a household socket of 16 A about 10 A (from memory)."""
    for socket, lasting, expected in (
        ("blue 16 A", "yes", TIGHT),
        ("household 16 A", "no", TIGHT),
        ("household 16 A", "yes", NO),
    ):
        assert verdict_on(tool(socket=socket, lasting=lasting, plate_amps="15"), "Outlet") == expected, socket


def test_a_socket_has_the_volts_of_its_colour() -> None:
    """IEC 60309: yellow 100 to 130 V, blue 200 to 250 V."""
    assert verdict_on(tool(socket="yellow 16 A", tool_volts="230 V", plate_amps="5"), "Volts") == NO
    assert verdict_on(tool(socket="yellow 16 A", tool_volts="110 V", plate_amps="5"), "Volts") != NO
    on_inverter = tool(socket="yellow 16 A", tool_volts="110 V", plate_amps="5", fed_by="the rig's inverter")
    assert verdict_on(on_inverter, "Inverter's volts") == NO


def test_a_breaker_of_its_type_holds_a_start_or_opens() -> None:
    """IEC 60898-1, Table 7, 16 A: B holds 48 A and opens at 80 A; C holds 80 A; D 160 A."""
    start = {"start": "amps stated or measured", "start_time": "0.05 s", "plate_amps": "8"}
    for kind, amps, expected in (
        ("B", "46", "go"),
        ("B", "60", TIGHT),
        ("B", "90", NO),
        ("C", "75", "go"),
        ("D", "150", "go"),
    ):
        answer = tool(**start, start_current=amps, breaker_type=f"type {kind}")
        assert verdict_on(answer, "Breaker at the start") == expected, (kind, amps)


def test_a_start_that_lasts_warms_the_breaker() -> None:
    """IEC 60898-1: at 2.55 times its rating none opens within a second and all do within a minute: 6.5 s and 390 s."""
    long = {"start": "amps stated or measured", "start_current": "41", "plate_amps": "8", "breaker_type": "type D"}
    for seconds, expected in (("0.9 s", "go"), ("5 s", TIGHT)):
        assert verdict_on(tool(**long, start_time=seconds), "Breaker's heat at the start") == expected
    twice = long | {"start_current": "120", "start_time": "30 s"}
    assert verdict_on(tool(**twice), "Breaker's heat at the start") == NO


def test_a_fuse_in_the_plug_guards_a_thin_cord_behind_a_ring() -> None:
    """BS 7671, 433: 1.25 mm² carries 13 A; behind the 32 A of a ring the fuse in the plug guards it, a bare breaker not."""
    thin = {"plate_amps": "5", "cord": "1.5 mm2", "cord_length": "10 m", "breaker": "32"}
    assert verdict_on(tool(socket="household 13 A with a fused plug", **thin), "Breaker protects the cord") == "go"
    assert verdict_on(tool(socket="blue 32 A", **thin), "Breaker protects the cord") == NO
