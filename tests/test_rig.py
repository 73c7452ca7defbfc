"""A rig's document: every fact survives it, and what is damaged, foreign or impossible is refused with the reason."""

from __future__ import annotations

import json
import re
from importlib.resources import files
from typing import Any

import jsonschema
import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from calc import units as u
from calc.facts import FACTS, Fact
from calc.quantity import Quantity
from calc.rig import MARK, VERSION, DamagedRig, as_typed, document, example_rig, read_rig, schema

Document = dict[str, Any]

SCHEMA = jsonschema.Draft202012Validator(schema())
# What holds for the log of readings is in test_readings.py.
FACT_GROUPS = {group: facts for group, facts in FACTS.items() if group != "readings[]"}
EVERY_FACT = [(group, name, fact) for group, facts in FACT_GROUPS.items() for name, fact in facts.items()]
every_fact = pytest.mark.parametrize(("group", "name", "fact"), EVERY_FACT, ids=[f"{g}.{n}" for g, n, _ in EVERY_FACT])


def a_rig(**groups: Any) -> Document:
    return {MARK: VERSION, **groups}


def holding(group: str, name: str, value: Any) -> Document:
    """A rig that knows one thing."""
    content: Any = {name: value}
    return a_rig(**{group.removesuffix("[]"): [content] if group.endswith("[]") else content})


def path(group: str, name: str) -> str:
    return f"{group.removesuffix('[]')}.{name}"


def number(value: object, unit: object) -> Document:
    return {"value": value, "unit": unit}


def written(fact: Any) -> Any:
    if isinstance(fact, Quantity):
        return number(fact.shown, fact.unit.sign)
    return list(fact) if isinstance(fact, tuple) else fact


def same(value: Any) -> Any:
    """Alike but for the last binary digit, which a fact kept in SI units may lose."""
    return number(pytest.approx(value["value"], rel=1e-12), value["unit"]) if isinstance(value, dict) else value


def refusal(text: str | Document) -> str:
    with pytest.raises(DamagedRig) as problem:
        read_rig(text if isinstance(text, str) else json.dumps(text))
    return str(problem.value)


def some_values(fact: Fact) -> list[Any]:
    if fact.low is None or fact.high is None:
        texts = [*fact.options] or ([fact.example] if fact.pattern else ["Left outlet, by the handle", ""])
        return [texts, texts[:1], []] if fact.many else texts
    low, high, unit = fact.low.shown, fact.high.shown, fact.low.unit
    between = round((low + high) / 3) if fact.whole else low + (high - low) / 3
    return [number(int(value) if fact.whole else value, unit.sign) for value in (low, between, high)]


# --- what is kept --------------------------------------------------------------------------------------------------


@every_fact
def test_every_fact_comes_back_as_it_was_written(group: str, name: str, fact: Fact) -> None:
    for value in some_values(fact):
        rig = holding(group, name, value)
        SCHEMA.validate(rig)
        found = read_rig(json.dumps(rig)).value(path(group, name))
        assert found is not None and written(found) == same(value)


@every_fact
def test_a_fact_may_be_written_in_any_unit_that_the_schema_lists(group: str, name: str, fact: Fact) -> None:
    if fact.low is None or fact.high is None:
        return
    middle = round((fact.low.si + fact.high.si) / 2) if fact.whole else (fact.low.si + fact.high.si) / 2
    listed = SCHEMA.schema["properties"][group.removesuffix("[]")]  # type: ignore[index]
    listed = listed.get("items", listed)["properties"][name]["anyOf"][1]["properties"]["unit"]["enum"]
    for sign in listed:
        (unit,) = [unit for unit in u.ALL if unit.sign == sign]
        written_so = int(middle) if fact.whole else unit.from_si(middle)
        rig = holding(group, name, number(written_so, sign))
        SCHEMA.validate(rig)
        found = read_rig(json.dumps(rig)).value(path(group, name))
        assert isinstance(found, Quantity) and found.si == pytest.approx(middle) and found.unit is unit


@every_fact
def test_a_fact_may_be_unknown(group: str, name: str, fact: Fact) -> None:
    SCHEMA.validate(holding(group, name, None))
    assert read_rig(json.dumps(holding(group, name, None))).value(path(group, name)) is None


def test_nothing_need_be_known() -> None:
    assert not read_rig(json.dumps(a_rig())).facts


def test_every_fact_has_a_name_for_people_and_says_where_to_read_it() -> None:
    for _, name, fact in EVERY_FACT:
        assert re.fullmatch(r"[a-z]+(_[a-z0-9]+)*", name)
        assert fact.label[0].isupper() and len(fact.help) > 5, name


def test_of_several_things_the_first_answers_and_all_are_kept() -> None:
    rig = read_rig(json.dumps(a_rig(loads=[{"amps": number(5, "A")}, {"amps": number(6, "A")}])))
    first, second = rig.value("loads.amps"), rig.facts["loads.1.amps"]
    assert isinstance(first, Quantity) and isinstance(second, Quantity)
    assert (first.shown, second.shown) == (5, 6)


# --- what is written -----------------------------------------------------------------------------------------------


def test_a_rig_is_written_as_it_was_read() -> None:
    text = (files("calc") / "example_rig.json").read_text(encoding="utf-8")
    assert document(example_rig()) == json.loads(text)


@every_fact
def test_every_fact_is_written_as_the_schema_wants_it(group: str, name: str, fact: Fact) -> None:
    for value in some_values(fact):
        rig = read_rig(json.dumps(holding(group, name, value)))
        SCHEMA.validate(document(rig))
        again = read_rig(json.dumps(document(rig))).value(path(group, name))
        assert again is not None and written(again) == same(value)


@given(st.integers(-10**12, 10**12), st.integers(-9, 3), st.sampled_from(u.TYPED))
def test_a_number_is_written_with_the_figures_that_were_typed(digits: int, power: int, unit: u.Unit) -> None:
    """Though it is kept in SI units: 5 ft is 1.524 m, and 5 again, not 4.999999999999999."""
    typed = float(f"{digits}e{power}")
    assert as_typed(typed * unit) == typed


def test_a_thing_of_which_nothing_is_known_keeps_its_place() -> None:
    rig = a_rig(name="", cars=[{}, {"name": "van"}])
    assert document(read_rig(json.dumps(rig))) == rig


# --- the demonstration rig ------------------------------------------------------------------------------------------


def test_the_example_rig_is_a_rig_by_the_schema_and_by_the_reader() -> None:
    text = (files("calc") / "example_rig.json").read_text(encoding="utf-8")
    SCHEMA.validate(json.loads(text))
    assert read_rig(text).facts.keys() == example_rig().facts.keys() and example_rig().name


# --- what is refused ------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "text",
    [
        "",
        "{",
        '{"barrowatt_rig": 1',
        '{"barrowatt_rig": 1}}',
        "[]",
        "null",
        "1",
        '"barrowatt_rig"',
        "\x00\x01",
        "{}",
        '{"version": 1}',
        '{"barrowatt_rig": null}',
        "[" * 100_000,
        '{"a":' * 30_000,
        '{"barrowatt_rig":' + "[" * 500 + "]" * 500 + "}",
        '{"barrowatt_rig":1,"bank":{"energy":' + '{"value":' * 500 + "1" + "}" * 500 + "}}",
        '{"barrowatt_rig":1,"bank":{"energy":{"value":' + "9" * 5000 + ',"unit":"kWh"}}}',
    ],
    ids=lambda text: text[:24] or "nothing",
)
def test_what_is_no_rig_is_refused(text: str) -> None:
    assert refusal(text)


@pytest.mark.parametrize("version", [VERSION + 1, 0, -1, 10**30, "1", 1.5, True, [1], {"of": 1}])
def test_another_version_is_refused_and_named(version: Any) -> None:
    assert str(version)[:10] in refusal({MARK: version})


def test_a_document_larger_than_a_rig_can_be_is_refused_unread() -> None:
    assert "larger" in refusal(json.dumps(a_rig(name="x" * 300_000)))


def test_a_refusal_is_short_however_long_the_damage() -> None:
    long = "x" * 100_000
    for damaged in (
        {MARK: long},
        a_rig(**{long: {}}),
        a_rig(bank={long: 1}),
        a_rig(bank={"energy": number(1, long)}),
        a_rig(inverter={"system": long}),
        a_rig(name=long),
    ):
        assert len(refusal(damaged)) < 400


@pytest.mark.parametrize(
    "damaged",
    [
        a_rig(bench={}),
        a_rig(bank=[]),
        a_rig(bank=None),
        a_rig(bank=5),
        a_rig(cars={}),
        a_rig(cars=[[]]),
        a_rig(cars=[None]),
        a_rig(**{"cars[]": []}),
        a_rig(**{"outlets[]": {"breaker": number(20, "A")}}),
        a_rig(bank={"colour": "red"}),
        a_rig(cars=[{"colour": "red"}]),
        a_rig(name=5),
        a_rig(name="x" * 81),
        a_rig(name=None),
        a_rig(inverter={"system": 120}),
        a_rig(inverter={"system": "three-phase"}),
        a_rig(inverter={"one_leg": True}),
        a_rig(inverter={"one_leg": "#"}),
    ],
    ids=lambda damaged: json.dumps(damaged)[20:60],
)
def test_a_part_a_fact_or_an_option_that_no_rig_has_is_refused_by_both(damaged: Document) -> None:
    """By the reader and by the published schema alike."""
    assert refusal(damaged)
    assert not SCHEMA.is_valid(damaged)


@pytest.mark.parametrize(
    "value",
    [
        10,
        "10 kWh",
        [10, "kWh"],
        {},
        {"value": 10},
        {"unit": "kWh"},
        {"value": 10, "unit": "kWh", "note": "new"},
        number(True, "kWh"),
        number("10", "kWh"),
        number(None, "kWh"),
        number([10], "kWh"),
        number(10, ""),
        number(10, None),
        number(10, ["kWh"]),
        number(10, "kWH"),
        number(10, "kW"),
        number(10, "Ah"),
        number(10, "°C"),
        number(10, "bananas"),
    ],
    ids=json.dumps,
)
def test_a_number_that_is_none_or_measures_something_else_is_refused_by_both(value: Any) -> None:
    damaged = a_rig(bank={"energy": value})
    assert "bank.energy" in refusal(damaged)
    assert not SCHEMA.is_valid(damaged)


@pytest.mark.parametrize("text", ["NaN", "Infinity", "-Infinity", "1e400", "-1e400", "9" * 400])
def test_a_number_that_is_not_finite_is_refused(text: str) -> None:
    assert "bank.energy" in refusal(f'{{"{MARK}": 1, "bank": {{"energy": {{"value": {text}, "unit": "kWh"}}}}}}')


def test_a_temperature_is_not_a_difference_of_temperatures() -> None:
    for damaged in (a_rig(now={"air": number(20, "K")}), a_rig(now={"air": number(20, "°F apart")})):
        assert "now.air" in refusal(damaged) and not SCHEMA.is_valid(damaged)


def test_a_share_is_not_some_other_plain_ratio() -> None:
    damaged = a_rig(bank={"health": number(0.5, "kVA/hp")})
    assert "bank.health" in refusal(damaged) and not SCHEMA.is_valid(damaged)


def test_a_time_of_day_is_written_in_one_way_and_a_date_in_one_way() -> None:
    for name, text in (("begins", "7:30"), ("begins", "24:00"), ("date", "2027-02-30"), ("date", "June")):
        damaged = a_rig(plan={name: text})
        assert f"plan.{name}" in refusal(damaged) and "written like" in refusal(damaged)
        assert not SCHEMA.is_valid(damaged)


def test_a_fact_named_twice_is_refused() -> None:
    """JSON readers keep the last one without a word; here nobody can say which of the two batteries it is."""
    one, other = '{"value": 10, "unit": "kWh"}', '{"value": 99, "unit": "kWh"}'
    assert refusal(f'{{"{MARK}": 1, "bank": {{"energy": {one}}}, "bank": {{"energy": {other}}}}}')
    assert refusal(f'{{"{MARK}": 1, "bank": {{"energy": {one}, "energy": {other}}}}}')


@every_fact
def test_a_fact_out_of_its_range_is_refused_with_the_range(group: str, name: str, fact: Fact) -> None:
    if fact.low is None or fact.high is None:
        return
    unit, hair = fact.unit, 1 if fact.whole else (fact.high.shown - fact.low.shown) / 1000
    for beyond in (fact.low.shown - hair, fact.high.shown + hair, -1e300, 1e300):
        problem = refusal(holding(group, name, number(beyond, unit.sign)))  # type: ignore[union-attr]
        assert fact.label in problem and "between" in problem and name in problem


# --- any document at all --------------------------------------------------------------------------------------------

scalars = st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=8)
json_values = st.recursive(
    scalars,
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text(max_size=8), inner, max_size=4),
    max_leaves=12,
)
names = st.sampled_from(sorted({name for _, name, _ in EVERY_FACT})) | st.text(max_size=6)
signs = st.sampled_from([unit.sign for unit in u.ALL]) | scalars
nearly_facts = (
    json_values
    | st.sampled_from(sorted({option for *_, fact in EVERY_FACT for option in fact.options}))
    | st.fixed_dictionaries({"value": st.floats() | st.integers() | scalars, "unit": signs})
)
contents = st.dictionaries(names, nearly_facts, max_size=4)
groups = st.sampled_from([name for group in FACTS for name in {group, group.removesuffix("[]")}]) | st.text(max_size=6)
nearly_rigs = st.builds(
    lambda mark, parts: {MARK: mark, **parts},
    st.sampled_from([VERSION] * 8 + [2, True, None, "1", 1.0]),
    st.dictionaries(groups, contents | st.lists(contents, max_size=3) | json_values, max_size=4),
)


@given(nearly_rigs | json_values)
@example({MARK: True})
@example({MARK: VERSION, "outlets[]": {"breaker": {"value": 20.0, "unit": "A"}}})
def test_any_json_is_a_rig_within_bounds_or_is_refused(anything: Any) -> None:
    text = json.dumps(anything)
    try:
        rig = read_rig(text)
    except DamagedRig as problem:
        assert str(problem).endswith(".")
    else:
        for where, fact in rig.facts.items():
            group, *_, name = where.split(".")
            known = (FACTS.get(group) or FACTS[f"{group}[]"])[name]
            if not isinstance(fact, Quantity):
                texts = fact if known.many else (fact,)
                assert all(text in known.options or not known.options and len(text) <= 80 for text in texts)
            else:
                assert known.low and known.high and known.low.si <= fact.si <= known.high.si


@given(nearly_rigs)
def test_what_the_reader_takes_the_schema_takes(anything: Document) -> None:
    """The schema that others build on must not refuse what is read here."""
    try:
        read_rig(json.dumps(anything))
    except DamagedRig:
        return
    assert SCHEMA.is_valid(anything)


@given(st.text(max_size=60))
def test_any_text_is_a_rig_or_is_refused(text: str) -> None:
    assert refusal(text)
