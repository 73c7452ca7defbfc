"""The log of readings: what one test is, what a damaged log is, and how a measured value takes the place of a fact."""

from __future__ import annotations

import json
from typing import Any

import jsonschema
import pytest

from calc import units as u
from calc.catalogue import all_checks, check_called
from calc.check import NOT_KNOWN, Ask
from calc.facts import fact_at, measured
from calc.form import FROM_RIG, fill
from calc.measurable import MEASURABLE, READING, STANDS_FOR
from calc.quantity import Quantity
from calc.readings import Reading, latest_test, log, noted, origin, replacing, worked_out
from calc.readings import measured as measured_fact
from calc.rig import MARK, VERSION, DamagedRig, Rig, document, example_rig, read_rig, schema

SCHEMA = jsonschema.Draft202012Validator(schema())
BANK = ("bank volts, small load", "bank amps, small load", "bank volts, large load", "bank amps, large load")


def number(value: float, unit: str) -> dict[str, Any]:
    return {"value": value, "unit": unit}


def reading(**more: Any) -> dict[str, Any]:
    return {"what": "bank volts, small load", "value": number(53.3, "V"), "when": "2025-05-17", **more}


def a_rig(*readings: Any, **groups: Any) -> dict[str, Any]:
    return {MARK: VERSION, **groups, "readings": list(readings)}


def read(*readings: Any, **groups: Any) -> Rig:
    text = json.dumps(a_rig(*readings, **groups))
    SCHEMA.validate(json.loads(text))
    return read_rig(text)


def refused(*readings: Any) -> str:
    with pytest.raises(DamagedRig) as problem:
        read_rig(json.dumps(a_rig(*readings)))
    assert not SCHEMA.is_valid(a_rig(*readings)), "refused by the reader, and taken by the published schema"
    return str(problem.value)


# --- the log as part of the document ---------------------------------------------------------------------------------


@pytest.mark.parametrize("what", READING["what"].options)
def test_everything_that_can_be_measured_comes_back_as_it_was_noted(what: str) -> None:
    fact = measured(what)
    assert fact.low is not None and fact.high is not None
    for value in (fact.low, fact.high):
        noted_so = reading(what=what, value=number(value.shown, value.unit.sign), of="left one", note="in the shade")
        rig = read(noted_so)
        [found] = log(rig)
        assert (found.what, found.of, found.when, found.note) == (what, "left one", "2025-05-17", "in the shade")
        assert found.value.si == pytest.approx(value.si)
        assert document(rig)["readings"] == [noted_so]


@pytest.mark.parametrize(
    "when", ["2025-05-17", "2025-05-17T10:20", "2025-05-17T10:20:33.125Z", "2025-05-17T10:20+02:00"]
)
def test_the_time_is_a_day_or_a_day_and_a_time_as_iso_8601_writes_them(when: str) -> None:
    [found] = log(read(reading(when=when)))
    assert found.when == when and found.day == "2025-05-17"


@pytest.mark.parametrize(
    "when", ["17.5.2025", "2025-13-01", "2025-05-32", "2025-05-17 10:20", "yesterday", "", "2025-05-17T25:00"]
)
def test_another_way_of_writing_the_time_is_refused(when: str) -> None:
    assert "When it was read" in refused(reading(when=when))


def test_a_time_with_a_line_end_is_refused() -> None:
    """Python's `$` forgives it, a browser's does not: the reader must not."""
    with pytest.raises(DamagedRig):
        read_rig(json.dumps(a_rig(reading(when="2025-05-17\n"))))


@pytest.mark.parametrize("lacking", ["what", "value", "when"])
def test_a_reading_without_its_thing_its_value_or_its_time_is_no_reading(lacking: str) -> None:
    half = {name: value for name, value in reading().items() if name != lacking}
    assert "missing" in refused(half)
    with pytest.raises(DamagedRig):
        read_rig(json.dumps(a_rig({**reading(), lacking: None})))


@pytest.mark.parametrize(
    "damaged",
    [
        reading(what="the weather"),
        reading(what=["bank volts, small load"]),
        reading(value=53.3),
        reading(value=number(53.3, "A")),
        reading(value={"value": 53.3}),
        reading(value="53.3 V"),
        reading(colour="red"),
        "a reading",
    ],
    ids=str,
)
def test_what_nobody_can_have_read_is_refused_by_both(damaged: Any) -> None:
    assert refused(damaged)


def test_a_reading_beyond_what_can_be_is_refused_with_the_range() -> None:
    with pytest.raises(DamagedRig, match="between"):
        read_rig(json.dumps(a_rig(reading(value=number(5000, "V")))))


# --- one test ----------------------------------------------------------------------------------------------------------


def two_loads(when: str, *volts_and_amps: float, of: str = "") -> list[dict[str, Any]]:
    units = ("V", "A", "V", "A")
    return [
        {"what": what, "value": number(value, unit), "when": when} | ({"of": of} if of else {})
        for what, value, unit in zip(BANK, volts_and_amps, units, strict=False)
    ]


def test_the_last_test_answers_and_an_older_one_never_helps_out() -> None:
    """The volts of spring and the amps of autumn make no resistance."""
    spring, autumn = two_loads("2025-04-01", 53.3, 5, 51.9, 120), two_loads("2025-10-01", 53.0, 5)
    whole = fill(check_called("prove/bank-resistance"), {}, read(*spring, bank={"resistance": number(14, "mΩ")}))
    assert whole.answer().verdict == "go"
    assert whole.origins["volts_small"] == "measured on 2025-04-01"
    torn = fill(
        check_called("prove/bank-resistance"), {}, read(*spring, *autumn, bank={"resistance": number(14, "mΩ")})
    )
    assert torn.answer().verdict == NOT_KNOWN
    assert {missing.name for missing in torn.missing} == {"volts_large", "amps_large"}


def test_readings_of_one_thing_say_nothing_of_another() -> None:
    rig = read(*two_loads("2025-04-01", 53.3, 5, 51.9, 120, of="the other bank"))
    assert latest_test(rig, BANK, "") == {}
    assert set(latest_test(rig, BANK, "the other bank")) == set(BANK)


def test_a_test_that_is_typed_in_part_is_not_filled_up_from_the_log() -> None:
    rig = read(*two_loads("2025-04-01", 53.3, 5, 51.9, 120), bank={"resistance": number(14, "mΩ")})
    asked = fill(check_called("prove/bank-resistance"), {"volts_small": "50"}, rig)
    assert {missing.name for missing in asked.missing} == {"amps_small", "volts_large", "amps_large"}


def test_the_log_is_told_in_the_order_of_time() -> None:
    rig = read(*(reading(when=when) for when in ("2025-05-17T09:00", "2024-01-02", "2025-05-17T08:00")))
    assert [found.when for found in log(rig)] == ["2024-01-02", "2025-05-17T08:00", "2025-05-17T09:00"]


def test_everything_that_can_be_measured_is_asked_by_a_page_or_stands_for_a_fact() -> None:
    asked = {
        spec.reading for check in all_checks() for spec in check.asks.values() if isinstance(spec, Ask) and spec.reading
    }
    assert asked == MEASURABLE.keys()
    kept = {what for check in all_checks() for what in check.measures.values()}
    assert kept == STANDS_FOR.keys()


def test_a_page_asks_a_reading_in_the_range_and_words_that_the_log_knows() -> None:
    for check in all_checks():
        for name, spec in check.asks.items():
            if isinstance(spec, Ask) and spec.reading:
                known = MEASURABLE[spec.reading]
                assert (spec.low, spec.high, spec.label) == (known.low, known.high, known.label), name


# --- in the place of a fact ----------------------------------------------------------------------------------------------


def test_a_measured_value_takes_the_place_of_a_fact_and_the_board_says_on_what_day() -> None:
    rig = read(bank={"resistance": number(14, "mΩ")})
    asked = fill(check_called("choose/bank-current"), {}, rig)
    assert asked.origins["resistance"] == FROM_RIG
    kept = replacing(rig, Reading("bank resistance, measured", 12.2 * u.mohm, "2025-05-17T10:20"))
    SCHEMA.validate(document(kept))
    again = fill(check_called("choose/bank-current"), {}, read_rig(json.dumps(document(kept))))
    assert again.origins["resistance"] == "measured on 2025-05-17"
    assert again.check and again.check.resistance.number_in(u.mohm) == pytest.approx(12.2)  # type: ignore[attr-defined]


def test_a_fact_changed_by_hand_since_is_no_longer_called_measured() -> None:
    kept = replacing(read(), Reading("idle draw, measured", 55 * u.W, "2025-05-17"))
    assert measured_fact(kept, "inverter.idle")
    assert measured_fact(kept.changed({"inverter.idle": 40 * u.W}), "inverter.idle") is None


def test_the_later_of_two_measurements_stands() -> None:
    rig = replacing(read(), Reading("idle draw, measured", 55 * u.W, "2025-05-17"))
    rig = replacing(rig, Reading("idle draw, measured", 58 * u.W, "2026-05-17"))
    stands = measured_fact(rig, "inverter.idle")
    assert stands and origin(stands) == "measured on 2026-05-17"
    assert len(log(rig)) == 2, "the older one is kept: a history tells more than a number"


def test_what_a_page_works_out_can_be_kept_to_the_figures_that_it_printed() -> None:
    kind = check_called("prove/bank-resistance")
    results = (
        fill(kind, {"volts_small": "53.30", "amps_small": "5", "volts_large": "51.90", "amps_large": "120"})
        .answer()
        .results
    )
    [found] = worked_out(kind.measures, results, "2025-05-17")
    assert (found.what, str(found.value)) == ("bank resistance, measured", "12.2\u00a0mΩ")
    kept = replacing(example_rig(), found)
    assert document(kept)["bank"]["resistance"] == number(12.2, "mΩ")


def test_what_no_rig_can_hold_is_not_offered() -> None:
    assert worked_out({"x": "health of the bank, measured"}, {"x": 130 * u.percent}, "2025-05-17") == []


@pytest.mark.parametrize(("what", "path"), STANDS_FOR.items())
def test_what_stands_for_a_fact_measures_what_the_fact_measures(what: str, path: str) -> None:
    fact = fact_at(path)
    assert fact.low is not None
    for check in all_checks():
        for name, noted_as in check.measures.items():
            if noted_as == what:
                results = [
                    fill(check, given).answer().results.get(name) for given in ({}, *(e.given for e in check.examples))
                ]
                found = [result for result in results if isinstance(result, Quantity)]
                assert found and all(result.unit.dimension == fact.low.unit.dimension for result in found)


def test_noting_changes_no_fact() -> None:
    before = example_rig()
    after = noted(before, Reading("volts on leg A", 120 * u.V, "2025-07-01", note="at the saw side"))
    assert before.facts.items() <= after.facts.items()
    assert log(after)[-1].note == "at the saw side"
