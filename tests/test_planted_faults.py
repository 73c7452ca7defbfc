"""The walk-round finds every planted fault by its name, none in a sound rig, and proposes nothing that does not serve."""

from __future__ import annotations

from functools import cache

import pytest
from planted_faults import LIST, PLANTED, SOUND, Planted, page, sound, spoilt

from calc.board import board
from calc.check import NO
from calc.inspection import faults_of_the_whole
from calc.rig import Rig
from calc.walkround import WalkRound, walk_round

every_sound_rig = pytest.mark.parametrize("name", SOUND)
every_planted = pytest.mark.parametrize("planted", PLANTED, ids=lambda planted: planted.wrong)


@cache
def inspected(planted: Planted) -> WalkRound:
    return walk_round(spoilt(planted), planted.rules)


def named(rig: Rig, rules: str) -> set[tuple[str, str]]:
    """Every fault of a rig by its title and what it is about, without what would clear it."""
    asked = {(row.check.title, row.subject) for row in board(rig, rules) if row.answer.verdict == NO}
    return asked | {(fault.title, fault.subject) for fault in faults_of_the_whole(rig)}


@every_sound_rig
def test_a_sound_rig_has_no_fault_and_is_known_well_enough_to_say_so(name: str) -> None:
    found = walk_round(sound(name), SOUND[name])
    assert [(fault.title, fault.say) for fault in found.faults] == []
    assert len(found.tight) + len(found.fine) >= 30


def test_the_sound_rigs_are_really_different() -> None:
    rigs = [sound(name) for name in SOUND]
    assert len({str(rig.facts["bank.nominal_volts"]) for rig in rigs}) >= 3
    assert {rig.facts["inverter.system"] for rig in rigs} >= {"120 V", "230 V", "120/240 V split-phase"}
    assert len({rig.facts["chassis.kind"] for rig in rigs}) >= 3


def test_there_are_enough_faults_and_of_enough_kinds() -> None:
    assert len(PLANTED) >= 25 and len({planted.found_as for planted in PLANTED}) >= 25
    assert len({planted.wrong for planted in PLANTED}) == len(PLANTED)
    assert {planted.rig for planted in PLANTED} == set(SOUND)


@every_planted
def test_a_planted_fault_is_named_with_its_hazard(planted: Planted) -> None:
    faults = [fault for fault in inspected(planted).faults if fault.title == planted.found_as]
    assert faults, [fault.title for fault in inspected(planted).faults]
    for fault in faults:
        assert fault.hazard and fault.say.endswith((".", "!")), fault.say


@every_planted
def test_every_change_that_is_proposed_clears_its_fault_and_makes_no_other(planted: Planted) -> None:
    rig = spoilt(planted)
    before = named(rig, planted.rules)
    for fault in inspected(planted).faults:
        for proposal in fault.proposals:
            after = named(rig.changed(proposal.facts), planted.rules)
            assert (fault.title, fault.subject) not in after, proposal.say
            assert after < before, proposal.say


def test_for_most_faults_a_change_is_found_that_clears_them() -> None:
    """What is left needs a look with the eyes: two things of one name, a load plugged into nothing."""
    cleared = [planted for planted in PLANTED if any(f.proposals for f in inspected(planted).faults if f.title == planted.found_as)]
    assert len(cleared) >= len(PLANTED) / 2, sorted({planted.wrong for planted in PLANTED} - {planted.wrong for planted in cleared})


def test_the_list_in_the_documents_is_this_list() -> None:
    assert LIST.read_text(encoding="utf-8") == page(), "python tests/planted_faults.py writes it"
