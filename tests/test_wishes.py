"""What somebody wants is no fact of the rig: where nobody has said it, the number is told, and no go without it."""

from __future__ import annotations

import random

import pytest

from calc.as_json import answer as as_json
from calc.as_words import answer as as_words
from calc.board import board
from calc.catalogue import all_checks, check_called
from calc.check import GO, NO, NOT_KNOWN, TOLD, Ask, Check, Pick
from calc.form import fill
from calc.quantity import Quantity, ancestry
from calc.rig import Rig, example_rig
from calc.units import degC

WISHES = [(kind, name, spec) for kind in all_checks() for name, spec in kind.asks.items() if isinstance(spec, Ask) and spec.wish]
CASES = pytest.mark.parametrize(("kind", "name", "spec"), WISHES, ids=[f"{kind.id}:{name}" for kind, name, _ in WISHES])


def without(fact: str, **facts: Quantity | str) -> Rig:
    """The example rig, where nobody has said what is wanted."""
    whole = example_rig()
    return Rig(whole.name, {path: known for path, known in whole.facts.items() if path != fact} | facts)


@CASES
def test_without_the_wish_the_number_is_the_same_and_nothing_is_a_go(kind: type[Check], name: str, spec: Ask) -> None:
    told, wished = fill(kind, {}, without(spec.fact)).answer(), fill(kind, {}, example_rig()).plain_answer()
    assert [wish.name for wish in told.wishes] == [name]
    assert told.verdict not in (GO, NOT_KNOWN)
    assert str(told.results[kind.headline]) == str(wished.results[kind.headline])
    assert wished.wishes == ()


@CASES
def test_nothing_that_is_told_without_the_wish_rests_on_it(kind: type[Check], name: str, spec: Ask) -> None:
    told = fill(kind, {}, without(spec.fact)).answer()
    assert spec.symbol not in {quantity.step.symbol for quantity in ancestry(told.roots) if quantity.step}
    assert spec.label not in " ".join((told.say, *told.notes))


@CASES
def test_what_is_a_no_without_the_wish_is_a_no_whatever_is_wished(kind: type[Check], name: str, spec: Ask) -> None:
    """A bank at its reserve, or a vehicle that may not pull it, is a no before anybody wants anything."""
    poor = {"now.charge": example_rig().facts["bank.reserve"], "tow.rating": example_rig().facts["inverter.mass"]}
    asked = fill(kind, {}, without(spec.fact, **poor))
    if asked.answer().verdict == NO:
        for wish in (spec.low, spec.default, spec.high):
            whole = without(spec.fact, **poor, **{spec.fact: wish})
            assert fill(kind, {}, whole).plain_answer().verdict in (NO, NOT_KNOWN)
        assert all(name not in offer.change for offer in asked.offers(asked.answer()))
    else:
        assert asked.answer().verdict not in (GO,)


def test_no_fix_is_a_go_while_nobody_has_said_what_is_wanted() -> None:
    """Less charge kept back leaves a distance to tell; whether it is far enough, only a trip can say."""
    offers = []
    for kind, _, spec in WISHES:
        asked = fill(kind, {}, without(spec.fact, **{"now.charge": example_rig().facts["bank.reserve"]}))
        offers += asked.offers(asked.answer())
    assert offers and all(offer.verdict in (TOLD, "tight") for offer in offers)


@pytest.mark.parametrize("seed", range(60))
def test_whatever_else_is_known_no_wish_makes_the_answer_better_or_its_numbers_other(seed: int) -> None:
    """Without it nothing is a go, what is a no stays one under each wish, and each number told is the one with any wish."""
    chance = random.Random(seed)
    kind, name, spec = chance.choice(WISHES)
    rules, typed = chance.choice(kind.rule_sets), {}
    for other, asked_for in kind.asks.items():
        if other != name and rules in asked_for.rules and chance.random() < 0.4:
            typed[other] = _anything(chance, asked_for, rules)
    rig = without(spec.fact)
    told = fill(kind, typed, rig, rules).answer()
    assert told.verdict != GO
    for wish in (spec.low, spec.default, spec.high):
        wished = fill(kind, typed | {name: f"{wish.shown:.9g} {wish.unit.sign}"}, rig, rules).plain_answer()
        assert told.verdict != NO or wished.verdict in (NO, NOT_KNOWN)
        assert told.verdict != "tight" or wished.verdict not in (GO, TOLD)
        shared = told.results.keys() & wished.results.keys()
        assert {one: str(told.results[one]) for one in shared} == {one: str(wished.results[one]) for one in shared}


def _anything(chance: random.Random, asked_for: Ask | Pick, rules: str) -> str:
    """One of a field's options, or a number within its range: often one of its ends, or near its usual size."""
    if isinstance(asked_for, Pick):
        return chance.choice(asked_for.options(rules))
    low, high, usual = asked_for.low.shown, asked_for.high.shown, asked_for.default.shown
    number = chance.choice((low, high, chance.uniform(low, high), min(max(usual * chance.uniform(0.3, 3), low), high)))
    return f"{round(number) if asked_for.whole else number:.6g} {asked_for.unit.sign}"


def test_some_of_those_are_a_no() -> None:
    poor = {"now.charge": example_rig().facts["bank.reserve"], "tow.rating": example_rig().facts["inverter.mass"]}
    verdicts = [fill(kind, {}, without(spec.fact, **poor)).answer().verdict for kind, _, spec in WISHES]
    assert verdicts.count(NO) >= 3


@CASES
def test_the_easiest_wish_is_the_one_that_every_other_is_harder_than(kind: type[Check], name: str, spec: Ask) -> None:
    """What a wish's word says of its easiest end: there the answer is never worse than at the other end."""
    order = [TOLD, GO, "tight", NO, NOT_KNOWN]
    verdicts = {wish: fill(kind, {}, without(spec.fact, **{spec.fact: wish})).plain_answer().verdict for wish in (spec.low, spec.high)}
    hardest = spec.high if spec.easiest is spec.low else spec.low
    assert order.index(verdicts[spec.easiest]) < order.index(verdicts[hardest])


def test_a_wish_is_told_in_words_as_json_and_on_the_page() -> None:
    asked = fill(check_called("run/car-distance"), {}, without("place.trip"))
    label = asked.wishes[0].label
    assert f"wanted, for a verdict: {label}" in as_words(asked)
    told = as_json(asked)
    assert told["wishes"][0]["label"] == label and "trip" not in told["given"] and told["verdict"] == TOLD
    assert "wishes" not in as_json(fill(asked.kind, {}, example_rig()))


def test_a_row_without_its_wish_tells_its_number_on_the_board() -> None:
    row = next(row for row in board(without("place.trip")) if row.check.id == "run/car-distance")
    assert row.answer.verdict == TOLD and "distance" in row.answer.results
    assert not row.needs_attention


def test_the_most_that_is_possible_is_no_number_to_tell_alone() -> None:
    """Colder than the range was ever measured, the distance is known only to be no more than a number."""
    whole = without("place.trip", **{"now.air": -17 * degC})
    assert fill(check_called("run/car-distance"), {"cabin": "on"}, whole).answer().verdict == NOT_KNOWN
