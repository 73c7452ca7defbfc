"""The walk-round: what it must find, what it must not say, and that what it proposes does clear the fault."""

from __future__ import annotations

import json
from collections.abc import Mapping
from pathlib import Path

import jsonschema
import pytest

from calc import as_json
from calc import units as u
from calc.board import board
from calc.check import NO
from calc.inspection import faults_of_the_whole
from calc.quantity import Quantity
from calc.rig import Known, Rig, example_rig
from calc.walkround import walk_round

# One fault of the whole planted in the example rig, and the title under which it must be found.
PLANTED: list[tuple[str, Mapping[str, Known]]] = [
    ("Wire without protection", {"cables.1.device": "a breaker that was taken out"}),
    ("Breaker too large for its outlet", {"outlets.0.breaker": 30 * u.A}),
    ("Breaker too large for its outlet", {"outlets.2.configuration": "6-20"}),
    ("Outlet with volts that are not there", {"inverter.system": "120 V"}),
    ("Two legs on a supply that has one", {"inverter.system": "120 V"}),
    ("Plugged into nothing", {"loads.0.outlet": "an outlet that was taken out"}),
    ("Refers to nothing", {"cables.1.feeds": ("saw side", "an outlet that was taken out")}),
    ("Refers to nothing", {"devices.1.behind": "a breaker that was taken out"}),
    ("Two things of one name", {"devices.1.name": "main fuse"}),
    ("Device that protects nothing", {"cables.1.device": "main fuse"}),
    ("Too many volts for the inverter", {"bank.highest_volts": 62 * u.V}),
    ("The battery opens before the inverter stops", {"bank.lowest_volts": 48 * u.V}),
    ("Device that cannot break the bank", {"devices.0.dc_volts": 32 * u.V}),
    ("Neutral bonded twice", {"inverter.bond": "fixed", "inverter.switches_neutral": "no"}),
    ("Live pins at the inlet", {"inlet.shows_live_pins": "yes"}),
    ("Two bonds when it feeds a building", {"place.feeds": "a building", "inverter.switches_neutral": "no"}),
    ("Battery minus bonded at several points", {"bank.frame_bond": "at several points"}),
]

# Faults that single questions find, planted one by one: the fact, and the check that must say no.
ASKED: list[tuple[str, Mapping[str, Quantity | str]]] = [
    ("wire/wire-for-run", {"cables.3.size": "14 AWG"}),
    ("wire/wire-for-run", {"cables.1.length": 400 * u.ft}),
    ("run/car-distance", {"place.trip": 60 * u.mi}),
    ("run/car-distance", {"cars.0.charging_amps": 30 * u.A}),
    ("refill/battery-limit", {"now.cells": -4 * u.degC}),
    ("choose/bank-from-cells", {"bank.series": 20 * u.one}),
    ("wire/cable-in-a-short", {"devices.0.clearing_time": 0.5 * u.s}),
    ("protect/bond-and-ground", {"wiring.bond_wire": "14 AWG"}),
    ("protect/inlet-backfeed", {"inlet.transfer": "one pole only, or nothing"}),
    ("protect/ground-fault", {"outlets.0.ground_fault": "none"}),
    ("choose/precharge", {"precharge.pulse": 20 * u.J}),
    ("run/welder", {"cables.3.size": "14 AWG", "loads.2.duty": 100 * u.percent}),
    ("roll/parking", {"chassis.brake_force": 0 * u.N, "chassis.chocks": "none"}),
    ("roll/tyres", {"chassis.rated_speed": 3 * u.mph}),
    ("shelter/box-heat", {"box.fan_flow": 1 * u.m3_per_h, "box.colour": "dark"}),
    ("shelter/weather-rating", {"box.openings": "a gap facing up"}),
]


def noes(rig: Rig) -> set[tuple[str, int]]:
    return {row.key for row in board(rig) if row.answer.verdict == NO}


def test_the_example_has_no_fault_of_the_whole() -> None:
    assert faults_of_the_whole(example_rig()) == []


@pytest.mark.parametrize(("title", "facts"), PLANTED, ids=[title for title, _ in PLANTED])
def test_a_fault_of_the_whole_is_found_by_its_name_with_its_hazard(title: str, facts: Mapping[str, Known]) -> None:
    found = walk_round(example_rig().changed(facts))
    [fault, *_] = [fault for fault in found.faults if fault.title == title]
    assert fault.say and fault.hazard is not None


@pytest.mark.parametrize(("check", "facts"), ASKED, ids=[f"{check} {next(iter(facts))}" for check, facts in ASKED])
def test_a_planted_fault_is_found_by_the_question_that_asks_for_it(
    check: str, facts: Mapping[str, Quantity | str]
) -> None:
    sound = {key for key in noes(example_rig()) if key[0] == check}
    assert {key for key in noes(example_rig().changed(facts)) if key[0] == check} > sound


def test_a_device_is_no_fault_where_it_is_not_known_what_stands_before_each_wire() -> None:
    """A rig half entered: its breakers are listed, its wires not yet tied to them."""
    rig = example_rig()
    untied = Rig("half entered", {path: fact for path, fact in rig.facts.items() if path != "cables.1.device"})
    assert "Device that protects nothing" not in {fault.title for fault in faults_of_the_whole(untied)}


def test_what_is_not_known_is_no_fault_and_is_named_as_unknown() -> None:
    found = walk_round(Rig("nothing known", {}))
    assert found.faults == () and found.fine == () and found.unknown
    assert found.unknown[0].waiting >= found.unknown[-1].waiting


@pytest.mark.parametrize("facts", [facts for _, facts in ASKED], ids=[next(iter(facts)) for _, facts in ASKED])
def test_every_change_proposed_clears_its_fault_and_makes_no_other(facts: Mapping[str, Quantity | str]) -> None:
    rig = example_rig().changed(facts)
    before = noes(rig)
    for fault in walk_round(rig).faults:
        for proposal in fault.proposals:
            after = noes(rig.changed(proposal.facts))
            assert after < before, proposal.say


def test_some_planted_faults_can_be_cleared_by_one_change() -> None:
    """The proposals are not all empty: thin wire asks for a thicker one."""
    found = walk_round(example_rig().changed({"cables.3.size": "12 AWG"}))
    [thin] = [fault for fault in found.faults if fault.check == "wire/wire-for-run"]
    assert any("10 AWG" in proposal.say for proposal in thin.proposals)


@pytest.mark.parametrize("facts", [{}, *(facts for _, facts in ASKED)], ids=str)
def test_what_is_told_to_a_machine_is_by_the_schema(facts: Mapping[str, Quantity | str]) -> None:
    schema = json.loads((Path(__file__).resolve().parent.parent / "docs/schemas/walk-round.json").read_text())
    jsonschema.Draft202012Validator.check_schema(schema)
    jsonschema.validate(as_json.walk_round(walk_round(example_rig().changed(facts))), schema)


def test_each_unknown_fact_is_named_once_however_many_questions_wait_for_it() -> None:
    facts = [unknown.fact for unknown in walk_round(Rig("nothing known", {})).unknown if unknown.fact]
    assert len(facts) == len(set(facts)) > 50


def test_the_gravest_hazard_comes_first() -> None:
    found = walk_round(example_rig().changed({"inlet.shows_live_pins": "yes", "bank.highest_volts": 62 * u.V}))
    signals = [fault.hazard.signal for fault in found.faults if fault.hazard]
    assert signals == sorted(signals, key=["DANGER", "WARNING", "CAUTION", "NOTICE"].index)
