"""How the facts of a rig become the numbers of a question: one thing or all of a list, another's words, what follows."""

from __future__ import annotations

from collections.abc import Mapping

import pytest

from calc import units as u
from calc.board import board
from calc.catalogue import check_called
from calc.facts import WORKED_OUT, fact_at
from calc.form import fill, to_keep
from calc.quantity import Quantity
from calc.rig import Known, Rig, example_rig

RIG = example_rig()


def without(*paths: str) -> Rig:
    return Rig("less", {path: fact for path, fact in RIG.facts.items() if path not in paths})


def stands(check: str, name: str, rig: Rig = RIG, subject: int | None = None) -> object:
    """What stands in a field by the rig alone; None where it is not known."""
    asked = fill(check_called(check), {}, rig, subject=subject)
    value = None if name in asked.unknown else getattr(asked.check, name)
    return value.shown if isinstance(value, Quantity) else value


def rows(check: str, rig: Rig = RIG) -> list[str]:
    return [row.subject for row in board(rig, checks=[check_called(check)])]


# --- lists ------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "check", ["run/hours-for-loads", "run/loads-together", "roll/weights", "shelter/weather-rating"]
)
def test_a_question_about_all_of_a_list_has_one_row(check: str) -> None:
    assert rows(check) == [""]


def test_every_load_counts_and_one_that_is_not_known_is_missed() -> None:
    last = RIG.count("loads")
    added = RIG.changed({f"loads.{last}.name": "fridge", f"loads.{last}.hours": 8 * u.h})
    assert stands("run/hours-for-loads", "count", added) == str(last + 1)
    missing = fill(check_called("run/hours-for-loads"), {}, added).missing
    assert [one.name for one in missing] == [f"watts_{last + 1}"]


def test_more_things_than_a_question_can_count_are_not_known_and_none_is_left_out() -> None:
    crowd = RIG.changed({f"loads.{place}.name": f"lamp {place}" for place in range(4, 20)})
    assert "count" in fill(check_called("run/hours-for-loads"), {}, crowd).unknown


def test_a_load_without_a_cord_is_not_asked_for_its_cord() -> None:
    assert rows("wire/extension-cord") == ["chain-saw mill"]


def test_only_a_welder_is_asked_what_welders_are_asked() -> None:
    assert rows("run/welder") == ["stick welder"]
    assert rows("run/welder", without("loads.2.welder")) == [], "no load is a welder unless somebody says so"


def test_what_may_be_a_battery_cable_is_asked_as_one() -> None:
    assert "bank to inverter" in rows("wire/battery-cable", without("cables.0.use"))


# --- what hangs together ------------------------------------------------------------------------------------------------


def test_the_wire_of_a_load_is_the_one_that_feeds_its_outlet() -> None:
    """The welder hangs on an outlet; of the cables, one feeds it."""
    assert stands("run/welder", "size", subject=2) == "10 AWG"
    assert stands("run/welder", "size", RIG.changed({"cables.3.size": "8 AWG"}), subject=2) == "8 AWG"


def test_of_two_wires_that_are_said_to_feed_one_outlet_neither_is_taken() -> None:
    assert stands("run/welder", "size", RIG.changed({"cables.1.feeds": ("van and welder",)}), subject=2) is None


@pytest.mark.parametrize(
    ("facts", "fed_by"),
    [({"now.plugged_into": "nothing"}, "the rig's inverter"), ({"now.plugged_into": "L5-30"}, "a wall outlet")],
)
def test_what_feeds_the_outlets_follows_from_what_is_plugged_in(facts: Mapping[str, Known], fed_by: str) -> None:
    assert stands("run/car-current", "fed_by", RIG.changed(facts)) == fed_by


@pytest.mark.parametrize(
    ("bond", "open_"),
    [
        ("none", "yes, or the wall does not feed it"),
        ("relay, closed while inverting", "yes, or the wall does not feed it"),
        ("fixed", "no, or not known"),
    ],
)
def test_a_fixed_bond_stays_closed_while_the_wall_feeds_it(bond: str, open_: str) -> None:
    assert stands("protect/ground-fault", "own_bond", RIG.changed({"inverter.bond": bond})) == open_


def test_a_lead_acid_bank_is_not_counted_by_the_resistance_of_its_cells() -> None:
    lead = RIG.changed({"bank.chemistry": "lead-acid (flooded)"})
    assert stands("protect/short-circuit", "known_by", lead) == "lead-acid, by its amp-hours"
    assert stands("protect/short-circuit", "known_by", without("bank.chemistry")) is None


def test_an_answer_that_several_facts_give_is_not_kept_as_one_of_them() -> None:
    """A wall feeds the outlets through any of its patterns; nothing plugged in is nothing."""
    kind = check_called("run/car-current")
    plugged = RIG.changed({"now.plugged_into": "5-15"})
    assert to_keep(fill(kind, {"fed_by": "a wall outlet"}, RIG), RIG) == []
    assert to_keep(fill(kind, {"fed_by": "the rig's inverter"}, plugged), plugged) == ["fed_by"]


# --- what follows from facts ----------------------------------------------------------------------------------------------


def test_a_bank_has_the_amp_hours_and_limits_of_all_its_strings() -> None:
    """Two strings of 100 Ah that give 100 A and take 50 A each."""
    three = RIG.changed({"bank.strings": 3 * u.one})
    for rig, whole in ((RIG, (200, 200, 100)), (three, (300, 300, 150))):
        assert tuple(stands("protect/tie-banks", name, rig) for name in ("capacity_1", "out_1", "in_1")) == whole


def test_the_bond_wire_goes_by_the_largest_breaker_of_all() -> None:
    def largest(rig: Rig) -> object:
        return stands("protect/bond-and-ground", "largest_breaker", rig)

    assert largest(RIG) == 30
    assert largest(RIG.changed({"outlets.0.breaker": 40 * u.A})) == 40
    assert largest(RIG.changed({"inlet.breaker": 50 * u.A})) == 50
    assert largest(without("outlets.1.breaker")) is None, "the one that is not known may be the largest"
    assert largest(without("inlet.breaker")) is None
    assert largest(without(*(path for path in RIG.facts if path.startswith("inlet.")))) == 30, "a rig without an inlet"


@pytest.mark.parametrize("path", WORKED_OUT)
def test_what_is_worked_out_is_held_by_no_rig_and_rests_on_what_rigs_hold(path: str) -> None:
    assert path not in RIG.facts and RIG.path_of(path, {}) is None
    kinds = {fact_at(rest).unit is not None for rest in WORKED_OUT[path].rests_on}
    assert kinds == {True} and RIG.value(path) is not None


# --- what is not known ------------------------------------------------------------------------------------------------------


def test_what_hangs_on_a_choice_that_is_not_known_is_asked_for_only_when_it_is() -> None:
    """Nobody has said how the box breathes: whether there is a fan is not known, and its air is not missed yet."""
    asked = fill(check_called("shelter/box-heat"), {}, without("box.breathing", "box.fan_flow"))
    assert [one.name for one in asked.missing] == ["breathing"] and {"breathing", "flow"} <= asked.unknown
    fanned = fill(check_called("shelter/box-heat"), {"breathing": "a fan"}, without("box.breathing", "box.fan_flow"))
    assert [one.name for one in fanned.missing] == ["flow"]
