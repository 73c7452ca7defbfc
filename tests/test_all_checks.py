"""What holds for every check, whoever writes it."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property

import pytest

from calc import as_json, units
from calc.catalogue import all_checks
from calc.check import GO, NO, NOT_KNOWN, TIGHT, Answer, Ask, Check, Example, Named, Pick, ask, ask_fact
from calc.facts import fact_at
from calc.form import Asked, defaults, fill, published
from calc.quantity import Quantity
from calc.reading import read_number
from tests.hand_check import assert_stands

CHECKS = all_checks()
RULED = [(check, rules) for check in CHECKS for rules in check.rule_sets]
EXAMPLES = [(check, example) for check in CHECKS for example in check.examples]


@dataclass(frozen=True)
class Spread:
    """A check under some rules, and a spread of ways to fill its form, each answered once for all claims about it."""

    check: type[Check]
    rules: str

    @cached_property
    def states(self) -> list[Asked]:
        """As it stands, every example, every option, every end of every range."""
        published_here = [published(self.check, example) for example in self.check.examples if example.rules == self.rules]
        return [*self.bare, *published_here, *itertools.chain.from_iterable(self.with_one_changed.values())]

    @cached_property
    def bare(self) -> tuple[Asked, Asked]:
        """As the example rig fills it, and as its own defaults do."""
        return self._filled({}), self._filled(defaults(self.check, self.rules))

    @cached_property
    def with_one_changed(self) -> dict[str, list[Asked]]:
        """For each number and choice, both of those with it changed."""
        bases: tuple[dict[str, str], ...] = ({}, defaults(self.check, self.rules))
        return {
            name: [self._filled(base | {name: text}) for text in self._others(spec) for base in bases]
            for name, spec in self.check.asks.items()
            if self.rules in spec.rules
        }

    def _others(self, spec: Ask | Pick) -> tuple[str, ...]:
        return ends(spec) if isinstance(spec, Ask) else spec.options(self.rules)

    def _filled(self, typed: Mapping[str, str]) -> Asked:
        return fill(self.check, typed, rules=self.rules)

    @cached_property
    def answers(self) -> list[tuple[Asked, Answer]]:
        return [(asked, asked.answer()) for asked in self.states]

    @cached_property
    def outcomes(self) -> dict[int, object]:
        """What an answer comes to, by the identity of its state."""
        return {id(asked): outcome(answer) for asked, answer in self.answers}


@pytest.fixture(scope="module", params=RULED, ids=lambda value: f"{value[0].id}-{value[1]}")
def spread(request: pytest.FixtureRequest) -> Spread:
    """Of the module, so that all claims about one check come in a row, and its answers are kept no longer."""
    return Spread(*request.param)


def ends(spec: Ask) -> tuple[str, str]:
    return tuple(f"{bound.shown:.12g} {bound.unit.sign}" for bound in (spec.low, spec.high))  # type: ignore[return-value]


def filled(asked: Asked) -> Check:
    assert not asked.problems, asked.problems
    assert asked.check is not None
    return asked.check


def test_the_form_as_it_stands_is_answered(spread: Spread) -> None:
    answer = spread.bare[0].answer()
    assert answer.verdict in (GO, TIGHT, NO)
    assert spread.check.headline in answer.results


def test_every_printed_line_can_be_worked_by_hand(spread: Spread) -> None:
    for asked, answer in spread.answers:
        filled(asked)
        for line in answer.working():
            assert_stands(line)


def test_every_printed_line_can_be_worked_by_hand_in_metric(spread: Spread) -> None:
    with units.shown_to(units.METRIC):
        for line in filled(fill(spread.check, {}, rules=spread.rules)).answer().working():
            assert_stands(line)


def test_the_ends_of_every_range_and_every_option_are_answered_in_finite_numbers(spread: Spread) -> None:
    for _, answer in spread.answers:
        assert answer.say
        for result in answer.results.values():
            assert isinstance(result, Named) or math.isfinite(result.si)


def test_every_fix_offered_clears_the_no(spread: Spread) -> None:
    for asked, answer in spread.answers:
        for offer in asked.offers(answer):
            assert answer.verdict == NO
            assert filled(asked).changed(offer.change).answer().verdict == offer.verdict in (GO, TIGHT)


def test_both_sides_of_the_verdict_are_reached(spread: Spread) -> None:
    verdicts = {answer.verdict for _, answer in spread.answers}
    assert verdicts & {GO, TIGHT} and NO in verdicts


def test_every_number_and_choice_matters_in_some_state(spread: Spread) -> None:
    for name, spec in spread.check.asks.items():
        if spread.rules in spec.rules:
            assert matters_as_it_stands(spread, name) or matters_elsewhere(spread, name, spec), f"{name} never changes anything"


def matters_as_it_stands(spread: Spread, name: str) -> bool:
    """Whether one of the states that were answered anyway shows it."""
    changed = {spread.outcomes[id(asked)] for asked in spread.with_one_changed[name]}
    return not changed <= {spread.outcomes[id(asked)] for asked in spread.bare}


def matters_elsewhere(spread: Spread, name: str, spec: Ask | Pick) -> bool:
    others: tuple[Quantity | str, ...] = (spec.low, spec.high) if isinstance(spec, Ask) else spec.options(spread.rules)
    return any(
        outcome(base.changed({name: other}).answer()) != spread.outcomes[id(asked)]
        for asked in spread.states
        if (base := filled(asked)).asked(name)
        for other in others
    )


def outcome(answer: Answer) -> object:
    results = tuple((name, value.text if isinstance(value, Named) else value.si) for name, value in answer.results.items() if name not in answer.trials)
    return answer.verdict, results, tuple(requirement.use for requirement in answer.requirements)


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
    """All of the fact's options or some of them; more only where every one of the fact's is among them.

    Where a fact is read as other words, all that it is read as; a household socket is no connector of any colour.
    """
    for check, name, spec in asks_of_facts():
        if isinstance(spec, Pick):
            offered = set(spec.options(spec.rules[0]))
            known = {spec.from_fact(option) for option in fact_at(spec.fact).options}
            assert set(spec.means) <= set(fact_at(spec.fact).options), f"{check.id}: {name}"
            read = set(spec.means.values())
            assert known <= offered or offered <= known or (read and read <= offered), f"{check.id}: {name}"


def test_what_is_worked_is_told_to_a_machine_unrounded(spread: Spread) -> None:
    told = as_json.answer(spread.bare[0])
    for result in told["results"].values():
        assert isinstance(result["value"], (float, str)) and isinstance(result["unit"], str)
