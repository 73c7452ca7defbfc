"""The walk-round: what it says of a rig of which little is known, in which order, and to whom.

That it finds what is wrong, and nothing else, is tried in test_planted_faults.py.
"""

from __future__ import annotations

import json
from pathlib import Path

import jsonschema
import pytest
from planted_faults import PLANTED, Planted, sound, spoilt

from calc import as_json
from calc import units as u
from calc.check import IEC, NEC
from calc.inspection import faults_of_the_whole
from calc.reply import reply
from calc.rig import Rig, document, example_rig, read_rig
from calc.walkround import walk_round

SCHEMA = json.loads((Path(__file__).resolve().parent.parent / "docs/schemas/walk-round.json").read_text())
NOTHING_KNOWN = Rig("nothing known", {})


def planted(wrong: str) -> Planted:
    return next(one for one in PLANTED if one.wrong == wrong)


def without(rig: Rig, *paths: str) -> Rig:
    """The same rig, of which nobody said these facts."""
    return Rig(rig.name, {path: fact for path, fact in rig.facts.items() if not path.startswith(paths)})


def test_the_example_has_no_fault_of_the_whole() -> None:
    assert faults_of_the_whole(example_rig()) == []


# --- what is not known -----------------------------------------------------------------------------------------------


def test_what_is_not_known_is_no_fault_and_is_named_as_unknown() -> None:
    found = walk_round(NOTHING_KNOWN)
    assert found.faults == () and found.tight == () and found.fine == () and found.unknown


def test_each_unknown_fact_is_named_once_however_many_questions_wait_for_it() -> None:
    facts = [unknown.fact for unknown in walk_round(NOTHING_KNOWN).unknown if unknown.fact]
    assert len(facts) == len(set(facts)) > 50


def test_the_fact_for_which_most_questions_wait_is_asked_for_first() -> None:
    """Of the inverter's rating and where its notes are kept, the rating; what may be no part of the rig comes last."""
    rig = without(sound("cart-24v"), "inverter.continuous", "inverter.air_gap", "panels.")
    facts = [unknown.fact for unknown in walk_round(rig).unknown if unknown.fact]
    assert facts[0] == "inverter.continuous"
    assert facts.index("inverter.air_gap") < facts.index("panels.watts")


def test_a_fact_taken_out_makes_an_answer_unknown_and_never_better() -> None:
    """Whatever the rig does not say is not taken for good."""
    rig = spoilt(planted("a wire is too thin for its breaker"))
    found = walk_round(without(rig, "cables.1.size"))
    assert not [finding for finding in (*found.fine, *found.tight) if finding.subject == "to the bench outlet" and finding.check == "wire/wire-for-run"]
    assert "cables.1.size" in [unknown.fact for unknown in found.unknown]


def test_a_rig_half_entered_is_not_scolded_for_what_nobody_said_yet() -> None:
    """Its breakers are listed, its wires not yet tied to them."""
    untied = without(example_rig(), "cables.1.device")
    assert "Device that protects nothing" not in {fault.title for fault in faults_of_the_whole(untied)}


def test_what_rules_do_not_answer_is_said_and_not_left_out() -> None:
    found = walk_round(example_rig(), IEC)
    assert any("Only the US rule" in finding.say for finding in found.unanswered)


# --- the order, and who is told -------------------------------------------------------------------------------------------


def test_the_gravest_hazard_comes_first_and_of_alike_ones_what_is_furthest_over() -> None:
    found = walk_round(example_rig().changed({"inlet.shows_live_pins": "yes", "bank.highest_volts": 62 * u.V}))
    signals = [fault.hazard.signal for fault in found.faults if fault.hazard]
    assert signals == sorted(signals, key=["DANGER", "WARNING", "CAUTION", "NOTICE"].index)
    assert [fault.gravity for fault in found.faults] == sorted(fault.gravity for fault in found.faults)


def test_room_to_the_limit_is_not_told_where_something_else_makes_it_tight() -> None:
    """"98 % to spare" would make light of an outlet without a ground-fault device."""
    tight = walk_round(sound("trailer-48v")).tight
    assert all(not finding.margin or finding.row.answer.ruling.rule for finding in tight)  # type: ignore[union-attr]
    assert [finding.margin for finding in tight if finding.title == "Breaker on inverter power"] == ["", "", ""]


@pytest.mark.parametrize(
    ("rig", "rules"),
    [(None, NEC), (NOTHING_KNOWN, NEC), (sound("cart-230v"), IEC), (example_rig(), IEC)]
    + [(spoilt(one), one.rules) for one in PLANTED[::6]],
    ids=lambda value: value.name if isinstance(value, Rig) else str(value),
)
def test_what_is_told_to_a_machine_is_by_the_schema(rig: Rig | None, rules: str) -> None:
    jsonschema.Draft202012Validator.check_schema(SCHEMA)
    jsonschema.validate(as_json.walk_round(walk_round(rig, rules)), SCHEMA)


# --- what is proposed can be kept ------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "wrong", ["a wire is too thin for its breaker", "the breaker before a wire was taken out", "the battery opens before the inverter stops"]
)
def test_a_change_made_on_a_page_clears_the_fault_in_the_stored_rig(wrong: str) -> None:
    """A new breaker is a new thing in its list; the document with it is read again like any other."""
    fault = planted(wrong)
    rig = spoilt(fault)
    [found] = [one for one in walk_round(rig).faults if one.title == fault.found_as]
    facts = as_json.walk_round(walk_round(rig))["faults"]
    [told] = [one["proposals"][0]["facts"] for one in facts if one["title"] == fault.found_as]
    question = {"id": 1, "what": "facts", "rig": json.dumps(document(rig)), "form": {"facts": json.dumps(told)}}
    mended = read_rig(json.loads(reply(json.dumps(question)))["rig"])
    assert mended.facts.keys() >= found.proposals[0].facts.keys()
    assert fault.found_as not in [one.title for one in walk_round(mended).faults]
