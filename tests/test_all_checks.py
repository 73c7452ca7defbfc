"""What holds for every check, whoever writes it."""

from __future__ import annotations

import math
from collections.abc import Iterator

import pytest

from calc import as_json, units
from calc.catalogue import all_checks
from calc.check import GO, NO, NOT_KNOWN, TIGHT, Ask, Check, Example, Named, Pick, ask, ask_fact
from calc.facts import fact_at
from calc.form import Asked, defaults, fill, published
from calc.quantity import Quantity
from calc.reading import read_number
from tests.hand_check import assert_stands

CHECKS = all_checks()
RULED = [(check, rules) for check in CHECKS for rules in check.rule_sets]
EXAMPLES = [(check, example) for check in CHECKS for example in check.examples]

ruled = pytest.mark.parametrize(
    ("check", "rules"), RULED, ids=lambda value: value if isinstance(value, str) else value.id
)


def states(check: type[Check], rules: str) -> Iterator[Asked]:
    """A spread of ways to fill the form: as it stands, every example, every option, every end of every range."""
    yield fill(check, {}, rules=rules)
    yield fill(check, defaults(check, rules), rules=rules)
    for example in check.examples:
        if example.rules == rules:
            yield published(check, example)
    for name, spec in check.asks.items():
        if rules not in spec.rules:
            continue
        for text in ends(spec) if isinstance(spec, Ask) else spec.options(rules):
            yield fill(check, {name: text}, rules=rules)
            yield fill(check, defaults(check, rules) | {name: text}, rules=rules)


def ends(spec: Ask) -> tuple[str, str]:
    return tuple(f"{bound.shown:.12g} {bound.unit.sign}" for bound in (spec.low, spec.high))  # type: ignore[return-value]


def filled(asked: Asked) -> Check:
    assert not asked.problems, asked.problems
    assert asked.check is not None
    return asked.check


@ruled
def test_the_form_as_it_stands_is_answered(check: type[Check], rules: str) -> None:
    answer = fill(check, {}, rules=rules).answer()
    assert answer.verdict in (GO, TIGHT, NO)
    assert check.headline in answer.results


@ruled
def test_every_printed_line_can_be_worked_by_hand(check: type[Check], rules: str) -> None:
    for asked in states(check, rules):
        for line in filled(asked).answer().working():
            assert_stands(line)


@ruled
def test_every_printed_line_can_be_worked_by_hand_in_metric(check: type[Check], rules: str) -> None:
    with units.shown_to(units.METRIC):
        for line in filled(fill(check, {}, rules=rules)).answer().working():
            assert_stands(line)


@ruled
def test_the_ends_of_every_range_and_every_option_are_answered_in_finite_numbers(
    check: type[Check], rules: str
) -> None:
    for asked in states(check, rules):
        answer = asked.answer()
        assert answer.say
        for result in answer.results.values():
            assert isinstance(result, Named) or math.isfinite(result.si)


@ruled
def test_every_fix_offered_clears_the_no(check: type[Check], rules: str) -> None:
    for asked in states(check, rules):
        answer = asked.answer()
        for offer in asked.offers(answer):
            assert answer.verdict == NO
            assert filled(asked).changed(offer.change).answer().verdict == offer.verdict in (GO, TIGHT)


@ruled
def test_both_sides_of_the_verdict_are_reached(check: type[Check], rules: str) -> None:
    verdicts = {asked.answer().verdict for asked in states(check, rules)}
    assert verdicts & {GO, TIGHT} and NO in verdicts


@ruled
def test_every_number_and_choice_matters_in_some_state(check: type[Check], rules: str) -> None:
    bases = [filled(asked) for asked in states(check, rules)]
    for name, spec in check.asks.items():
        if rules in spec.rules:
            assert any(_changes_the_answer(base, name, spec) for base in bases), f"{name} never changes anything"


def _changes_the_answer(base: Check, name: str, spec: Ask | Pick) -> bool:
    if not base.asked(name):
        return False
    others: tuple[Quantity | str, ...] = (spec.low, spec.high) if isinstance(spec, Ask) else spec.options(base.rules)
    return any(_outcome(base.changed({name: other})) != _outcome(base) for other in others)


def _outcome(check: Check) -> object:
    answer = check.answer()
    results = {name: value.text if isinstance(value, Named) else value.si for name, value in answer.results.items()}
    return answer.verdict, results, [requirement.use for requirement in answer.requirements]


@pytest.mark.parametrize(
    ("check", "example"), EXAMPLES, ids=lambda value: value.id if isinstance(value, type) else value.verdict
)
def test_a_published_case_is_met(check: type[Check], example: Example) -> None:
    answer = published(check, example).answer()
    if example.verdict:
        assert answer.verdict == example.verdict, answer.say
    for name, text in example.expect.items():
        result = answer.results[name]
        assert isinstance(result, Quantity)
        stated, sign = read_number(text)
        unit = next((unit for unit in units.ALL if unit.sign == sign), units.one)
        half_a_figure = 0.5 * 10.0 ** -len(text.split()[0].partition(".")[2])
        assert result.number_in(unit) == pytest.approx(stated, abs=max(half_a_figure, example.within * stated)), (
            name
        )


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check.id)
def test_the_examples_stand_on_published_work_and_on_both_sides(check: type[Check]) -> None:
    assert any(
        "own derivation" not in example.source.had and "no published" not in example.source.had
        for example in check.examples
    )
    if not check.told:
        verdicts = {published(check, example).answer().verdict for example in check.examples}
        assert verdicts & {GO, TIGHT} and NO in verdicts


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check.id)
def test_a_rule_set_that_is_not_worked_is_not_known_and_says_so(check: type[Check]) -> None:
    for rules in {"nec", "iec"} - set(check.rule_sets):
        answer = fill(check, {}, rules=rules).answer()
        assert answer.verdict == NOT_KNOWN and "US rule" in answer.say


def test_an_ask_of_a_fact_that_no_rig_has_or_that_measures_something_else_is_refused() -> None:
    with pytest.raises(TypeError, match="ask_fact"):
        ask("c", "Colour", 1 * units.one, low=0 * units.one, high=2 * units.one, help="Look", fact="bank.series")
    with pytest.raises(LookupError, match="bank.colour"):
        ask_fact("c", "bank.colour", 1 * units.one)
    with pytest.raises(TypeError, match="another kind of unit"):
        type("Odd", (Check,), {"__doc__": "Is it odd?", "__module__": "checks.wire.odd", "title": "Odd", "headline": "x",
             "told": True, "cautions": CHECKS[0].cautions, "examples": CHECKS[0].examples, "solve": CHECKS[0].solve,
             "air": ask_fact("θ", "now.air", 5 * units.K)})  # fmt: skip


def asks_of_facts() -> Iterator[tuple[type[Check], str, Ask | Pick]]:
    for check in CHECKS:
        for name, spec in check.asks.items():
            if spec.fact and not spec.fact.endswith(".#"):
                yield check, name, spec


def test_a_fact_has_one_symbol_wherever_it_is_asked() -> None:
    symbols: dict[str, set[str]] = {}
    for _, _, spec in asks_of_facts():
        if isinstance(spec, Ask) and spec.label == fact_at(spec.fact).label:
            symbols.setdefault(spec.fact, set()).add(spec.symbol)
    assert {fact: used for fact, used in symbols.items() if len(used) > 1} == {}


def test_a_fact_keeps_its_label_though_whose_it_is_may_stand_before_it() -> None:
    """Another question may be read from a fact (what feeds the outlets, from what is plugged in): it has its own."""
    for check, name, spec in asks_of_facts():
        if isinstance(spec, Ask) or not spec.means:
            label = fact_at(spec.fact).label
            of_one = f": {label[0].lower()}{label[1:]}"
            assert spec.label == label or spec.label.endswith(of_one), f"{check.id}: {name}"


def test_a_choice_that_is_a_fact_takes_what_the_rig_can_hold() -> None:
    """All of the fact's options or some of them; more only where every one of the fact's is among them."""
    for check, name, spec in asks_of_facts():
        if isinstance(spec, Pick):
            offered = set(spec.options(spec.rules[0]))
            known = {spec.from_fact(option) for option in fact_at(spec.fact).options}
            assert set(spec.means) <= set(fact_at(spec.fact).options), f"{check.id}: {name}"
            assert known <= offered or offered <= known, f"{check.id}: {name}"


@ruled
def test_what_is_worked_is_told_to_a_machine_unrounded(check: type[Check], rules: str) -> None:
    told = as_json.answer(fill(check, {}, rules=rules))
    for result in told["results"].values():
        assert isinstance(result["value"], (float, str)) and isinstance(result["unit"], str)
