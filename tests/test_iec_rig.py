"""A rig under the international rules: what is known of how its wires lie answers its wires, and nothing is guessed."""

from __future__ import annotations

import pytest
from planted_faults import FEN, sound

from calc.board import Row, board
from calc.check import IEC, NEC
from calc.checks.choose.outlet import Outlet
from calc.checks.protect.breaker_for_circuit import BreakerForCircuit
from calc.checks.wire.wire_for_run import WireForRun
from calc.form import fill, to_keep
from calc.quantity import Quantity
from calc.rig import Known, Rig
from calc.units import A, degC, wires

LEFT = 1  # the wire to the left socket


def rows(rig: Rig) -> list[Row]:
    return [row for row in board(rig, IEC) if row.chapter in ("wire", "protect")]


def wire(facts: dict[str, Known | None], page: type[WireForRun] | type[BreakerForCircuit] = WireForRun, rules: str = IEC):
    """The page of the wire to the left socket, with some facts changed, or not known (None)."""
    whole = {**sound(FEN).facts, **facts}
    rig = Rig("changed", {path: fact for path, fact in whole.items() if fact is not None})
    return fill(page, {}, rig, rules, LEFT)


def usable(facts: dict[str, Known | None]) -> float:
    found = wire(facts).answer().results["usable_ampacity"]
    assert isinstance(found, Quantity)
    return found.number_in(A)


def test_every_question_on_wires_and_protection_is_answered_from_the_rig() -> None:
    left = {row.check.id for row in rows(sound(FEN)) if row.answer.verdict == "not known"}
    only_us = {row.check.id for row in rows(sound(FEN)) if "Only the US rule" in row.answer.say}
    assert left == only_us == {"protect/adapter", "protect/panel-fuses"}
    assert len(rows(sound(FEN))) >= 25


def test_the_rows_say_what_the_tables_say() -> None:
    """IEC 60364-5-52:2009, Tables B.52.4, B.52.14, B.52.17: 2.5 mm2, PVC, two cores in conduit, 23 A; 0.94 at 35 °C, 0.80 for two."""
    assert usable({}) == pytest.approx(23 * 0.94 * 0.80)
    assert usable({"cables.1.grouped": 3 * wires}) == pytest.approx(23 * 0.94 * 0.70)
    assert usable({"cables.1.method": "C"}) == pytest.approx(27 * 0.94 * 0.80)
    assert usable({"cables.1.method": "A2"}) == pytest.approx(18.5 * 0.94 * 0.80)
    assert usable({"cables.1.loaded": "3"}) == pytest.approx(20 * 0.94 * 0.80)
    assert usable({"cables.1.ambient": 50 * degC}) == pytest.approx(23 * 0.71 * 0.80)


@pytest.mark.parametrize("fact", ["method", "loaded", "grouped"])
def test_how_it_lies_is_never_guessed(fact: str) -> None:
    found = wire({f"cables.1.{fact}": None}).answer()
    assert found.verdict == "not known"
    assert [missing.name for missing in found.missing] == ["circuits" if fact == "grouped" else fact]


def test_a_fuse_of_the_same_rating_asks_for_a_thicker_wire_than_a_breaker() -> None:
    """IEC 60364-4-43, 433.1: a gG fuse of 16 A opens at 1.6 times, so it may have 0.9 of what the wire carries."""
    assert wire({}).answer().verdict == "go"
    assert wire({"devices.1.opens": "gG fuse"}).answer().verdict == "no"


@pytest.mark.parametrize("page", [WireForRun, BreakerForCircuit])
@pytest.mark.parametrize("kind", ["time-delay fuse", "inverse-time breaker", None])
def test_a_device_that_these_rules_do_not_know_is_not_taken_for_another(page: type[WireForRun], kind: str | None) -> None:
    found = wire({"devices.1.opens": kind}, page).answer()
    assert found.verdict == "not known" and [missing.name for missing in found.missing] == ["device"]


def test_under_the_us_rules_a_breaker_that_says_nothing_is_inverse_time_but_a_known_other_is_not_assumed_away() -> None:
    size = {"cables.1.size": "12 AWG", "cables.1.insulation": "90 °C", "cables.1.terminals": "60 °C", "cables.1.carrying": 2 * wires}
    said_nothing = wire({**size, "cables.1.lay": "raceway or cable", "devices.1.opens": None}, BreakerForCircuit, NEC)
    assert said_nothing.origins["device"].startswith("assumed")
    european = wire({**size, "cables.1.lay": "raceway or cable"}, BreakerForCircuit, NEC)
    assert "device" not in european.origins and "device" in [missing.name for missing in european.answer().missing]


def test_a_connector_answers_from_the_rig_and_half_of_it_is_not_kept_as_the_whole() -> None:
    """A blue 32 A socket is a colour and amps; 63 A typed beside another colour must not become a blue 63 A socket."""
    answered = fill(Outlet, {}, sound(FEN), IEC, 2)
    assert answered.answer().verdict == "go" and answered.check is not None
    assert (answered.check.connector, answered.check.connector_rating) == ("blue", "32 A")
    typed = fill(Outlet, {"connector": "red", "connector_rating": "63 A", "wanted": "10 A"}, sound(FEN), IEC, 2)
    assert to_keep(typed, sound(FEN)) == ["wanted"]
