"""Typing a reading, as the page of the log does it: read like every field, turned into its meaning, put in a fact's place."""

from __future__ import annotations

import json
from typing import Any

import pytest
from page_tree import read

from calc import units as u
from calc.board import LiveBoard
from calc.catalogue import all_checks, check_called
from calc.check import Ask
from calc.editing import removed, text_of, with_fact
from calc.form import fill, lists_asked
from calc.log_meaning import meaning
from calc.logbook import Entry, by_question, entry, newest_first, question_of, with_noted
from calc.measurable import MEASURABLE, TAKEN_OF
from calc.reading import Unreadable
from calc.readings import Reading, latest_test, log, noted, replacing
from calc.reply import reply
from calc.rig import SUBJECTS, Rig, example_rig, read_rig
from calc.rig_form import field_of

NOW = "2025-05-17T10:20"
BANK = ("bank volts, small load", "bank amps, small load", "bank volts, large load", "bank amps, large load")


def a_rig(**facts: Any) -> Rig:
    return read_rig(json.dumps({"barrowatt_rig": example_document()["barrowatt_rig"], "name": "Cart", **facts}))


def example_document() -> dict[str, Any]:
    found: dict[str, Any] = json.loads(text_of(example_rig()))
    return found


def number(value: float, unit: str) -> dict[str, Any]:
    return {"value": value, "unit": unit}


def typed(rig: Rig, what: str, value: str, now: str = NOW, **more: str) -> Rig:
    return with_noted(rig, {"what": what, "value": value, "now": now, **more})[0]


def two_loads(rig: Rig, *values: str, now: str = NOW) -> Rig:
    for what, value in zip(BANK, values, strict=False):
        rig = typed(rig, what, value, now)
    return rig


def ask_page(question: str, rig: Rig, **form: str) -> dict[str, Any]:
    told: dict[str, Any] = json.loads(reply(json.dumps({"id": 1, "what": question, "form": form, "rig": text_of(rig)})))
    return told


# --- typing ----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("what", "text", "value", "unit"),
    [
        ("bank volts, small load", "53.3", 53.3, u.V),
        ("bank volts, small load", " 53,3 v ", 53.3, u.V),
        ("millivolts across the joint", "0.009 V", 9, u.mV),
        ("temperature of the spot", "140 °F", 60, u.degC),
        ("air in the test", "−20", -28.89, u.degC),  # in °F, as these people use
        ("pull forth", "172 N", 172, u.N),
        ("hours idled", "1/2", 0.5, u.h),
    ],
)
def test_a_reading_is_read_like_any_typed_number(what: str, text: str, value: float, unit: u.Unit) -> None:
    rig = typed(a_rig(cables=[{"name": "post to fuse", "use": "battery cable"}]), what, text)
    assert log(rig)[-1].value.number_in(unit) == pytest.approx(value, abs=0.01)


@pytest.mark.parametrize(
    ("form", "why"),
    [
        ({"value": "lots"}, "Bank volts, small load must be a number"),
        ({"value": "1,500"}, "can be read two ways"),
        ({"value": "53 A"}, "is not read here"),
        ({"value": "5000"}, "must be between"),
        ({"value": ""}, "must be filled in"),
        ({"value": "53", "when": "yesterday"}, "When it was read must be written like"),
        ({"value": "53", "when": "2025-05-18"}, "lies ahead"),
        ({"value": "53", "when": "10:21"}, "lies ahead"),
        ({"value": "53", "note": "x" * 500}, "Note"),
    ],
)
def test_what_cannot_be_read_is_refused_in_words_and_nothing_is_noted(form: dict[str, str], why: str) -> None:
    rig = a_rig()
    with pytest.raises(Unreadable, match=why):
        typed(rig, "bank volts, small load", **form)
    told = ask_page("note", rig, what="bank volts, small load", now=NOW, **form)
    assert "rig" not in told and why in read(told["html"]).text


@pytest.mark.parametrize(
    ("when", "kept"),
    [("", NOW), ("9:05", "2025-05-17T09:05"), ("2025-04-01", "2025-04-01"), ("2025-04-01 08:30", "2025-04-01T08:30")],
)
def test_the_time_is_now_or_as_it_was_typed(when: str, kept: str) -> None:
    assert log(typed(a_rig(), "volts on leg A", "120", when=when))[-1].when == kept


def test_everything_that_can_be_measured_can_be_chosen() -> None:
    assert {what for _, whats in by_question() for what, _ in whats} == MEASURABLE.keys()
    for what in MEASURABLE:
        assert entry(None, {"what": what}).what == what
    assert entry(None, {"what": "the moon"}).what == BANK[0]


def test_of_which_list_a_reading_s_thing_is_agrees_with_the_question_that_asks_it() -> None:
    for check in all_checks():
        lists = sorted(lists_asked(check), key=SUBJECTS.index)
        for spec in check.asks.values():
            if isinstance(spec, Ask) and spec.reading:
                assert TAKEN_OF.get(spec.reading, "") == (lists[0] if lists else "")
                assert question_of(spec.reading) is check


# --- one test --------------------------------------------------------------------------------------------------------


def test_readings_typed_one_after_another_make_one_test_and_each_keeps_its_own_time() -> None:
    rig = a_rig(bank={"resistance": number(14, "mΩ")})
    for minute, what, value in zip(("10:20", "10:21", "10:24", "10:25"), BANK, ("53.3", "5", "51.9", "120"), strict=True):
        rig = typed(rig, what, value, now=f"2025-05-17T{minute}")
    found = meaning(rig, BANK[3], "")
    assert found and found.answered.answer.verdict == "go" and not found.wanted
    assert [reading.when[-5:] for reading in found.test.values()] == ["10:20", "10:21", "10:24", "10:25"]


def test_what_is_read_again_begins_another_test_that_wants_all_its_readings() -> None:
    """After the mending one number is new and three are of the joint that was bad: they make no resistance."""
    rig = two_loads(a_rig(), "53.3", "5", "50.1", "120")
    rig = typed(rig, BANK[2], "51.9", now="2025-05-17T10:40")
    found = meaning(rig, BANK[2], "")
    assert found and found.answered.answer.verdict == "not known"
    assert {what for what, _ in found.wanted} == {BANK[0], BANK[1], BANK[3]}


def test_what_was_typed_wrong_is_put_right_within_its_test() -> None:
    rig = two_loads(a_rig(bank={"resistance": number(14, "mΩ")}), "53.3", "5", "5.19", "120")
    assert entry(rig, {"what": BANK[2], "now": "2025-05-17T10:22"}).before
    rig = typed(rig, BANK[2], "51.9", now="2025-05-17T10:22", instead="1")
    found = meaning(rig, BANK[2], "")
    assert found and found.answered.answer.verdict == "go" and len(log(rig)) == 4


def test_an_hour_later_is_another_test_and_the_slow_warming_of_a_box_is_not() -> None:
    rig = two_loads(a_rig(), "53.3", "5", now="2025-05-17T10:00")
    assert len(latest_test(typed(rig, BANK[2], "51.9", now="2025-05-17T11:01"), BANK, "")) == 1
    warm = ("temperature, first reading", "temperature, second reading")
    rig = typed(typed(rig, warm[0], "90", now="2025-05-17T10:00"), warm[1], "95", now="2025-05-17T13:00")
    assert len(latest_test(rig, warm, "")) == 2
    assert entry(rig, {"what": BANK[0], "now": "2025-05-17T12:00"}).before is None


def test_a_test_over_midnight_is_one_and_a_day_without_a_time_joins_no_time() -> None:
    rig = typed(a_rig(), BANK[0], "53.3", now="2025-05-17T23:50")
    assert len(latest_test(typed(rig, BANK[1], "5", now="2025-05-18T00:10"), BANK, "")) == 2
    assert len(latest_test(typed(rig, BANK[1], "5", when="2025-05-17", now="2025-05-18T00:10"), BANK, "")) == 1


# --- what it means ---------------------------------------------------------------------------------------------------


def test_a_miss_names_its_causes_in_order() -> None:
    """Twice the resistance that was expected, and more: a joint before a cell, as a tradesman would look."""
    rig = two_loads(a_rig(bank={"resistance": number(10, "mΩ")}), "53.3", "5", "49.9", "120")
    told = read(ask_page("readings", rig, what=BANK[0], now=NOW)["html"])
    [said] = told.having("data-piece", "meaning")
    assert said.with_class("meaning")[0].get("data-verdict") == "no"
    causes = next(note.text for note in said.with_class("note") if "Likely causes" in note.text)
    assert causes.index("1. a joint that is loose") < causes.index("a weak cell")


def test_a_missing_fact_is_named_with_the_part_where_it_stands() -> None:
    found = meaning(two_loads(a_rig(), "53.3", "5", "51.9", "120"), BANK[0], "")
    assert found and ("Resistance of the whole bank", "bank", "Battery bank") in found.unknown


def test_what_was_measured_says_how_it_was_measured() -> None:
    """Volts and amps at one moment, though a night's amp-hours are what is asked by habit."""
    rig = a_rig(inverter={"idle": number(50, "W")}, bank={"energy": number(10, "kWh")})
    rig = typed(typed(rig, "inverter volts, idling", "52.8"), "inverter amps, idling", "1.0")
    found = meaning(rig, "inverter amps, idling", "")
    assert found and found.answered.answer.verdict == "go"


def test_a_reading_of_a_thing_is_held_against_that_thing() -> None:
    rig = typed(example_rig(), "volts hot to neutral", "119", of="to the compressor side", now="2026-01-01T10:00")
    found = meaning(rig, "volts hot to neutral", "to the compressor side")
    assert found and found.asked.subject_name == "to the compressor side" and len(found.test) == 1
    other = meaning(rig, "volts hot to neutral", "to the saw side")
    assert other and len(other.test) == 4


# --- in a fact's place -----------------------------------------------------------------------------------------------


def test_one_tap_puts_the_measured_value_in_the_place_of_the_fact_and_everybody_says_since_when() -> None:
    rig = two_loads(a_rig(bank={"resistance": number(14, "mΩ")}), "53.3", "5", "51.9", "120")
    told = ask_page("take", rig, what=BANK[0], stands="bank resistance, measured", now=NOW)
    after = read_rig(told["rig"])
    assert str(after.facts["bank.resistance"]).replace("\u00a0", " ") == "12.2 mΩ"
    assert field_of(after, "bank.resistance").measured == "measured on 2025-05-17"
    assert "Measured on 2025-05-17" in read(ask_page("part", after, part="bank")["html"]).text
    rows = {row.check.id: row for row in LiveBoard().rows(after, "nec")}
    assert rows["choose/bank-current"].measured == ["measured on 2025-05-17"]
    assert "Measured on 2025-05-17." in read(ask_page("board", after, root="./", whose="own")["html"]).text
    again = meaning(after, BANK[0], "")
    assert again and not again.taken, "it stands there already"


def test_a_board_that_is_kept_open_is_answered_anew_when_a_reading_is_noted() -> None:
    rig = a_rig(bank={"resistance": number(10, "mΩ")})
    kept = LiveBoard()
    verdicts = [
        next(row.answer.verdict for row in kept.rows(rig, "nec") if row.check.id == "prove/bank-resistance")
        for rig in (rig, two_loads(rig, "53.3", "5", "51.9", "120"), two_loads(rig, "53.3", "5", "49.9", "120"))
    ]
    assert verdicts == ["not known", "go", "no"]
    same = replacing(rig, Reading("bank resistance, measured", 10 * u.mohm, "2025-05-17"))
    kept.rows(rig, "nec")
    [row] = [row for row in kept.rows(same, "nec") if row.check.id == "choose/bank-current"]
    assert row.measured == ["measured on 2025-05-17"]


def test_a_bad_value_is_taken_with_a_warning() -> None:
    rig = two_loads(a_rig(bank={"resistance": number(10, "mΩ")}), "53.3", "5", "49.9", "120")
    [said] = read(ask_page("readings", rig, what=BANK[0], now=NOW)["html"]).having("data-piece", "meaning")
    assert "mend it and measure again first" in said.text


# --- the list --------------------------------------------------------------------------------------------------------


def test_the_newest_comes_first_and_is_removed_by_its_place_and_its_time() -> None:
    rig = typed(typed(a_rig(), "volts on leg A", "120", now="2025-05-17T10:20"), "volts on leg B", "121", when="9:00")
    first, second = newest_first(rig)
    assert (first.reading.what, second.reading.what) == ("volts on leg A", "volts on leg B")
    gone = ask_page("strike", rig, place=str(first.place), what=first.reading.what, when=first.reading.when)
    assert [reading.what for reading in log(read_rig(gone["rig"]))] == ["volts on leg B"]
    twice = ask_page("strike", read_rig(gone["rig"]), place=str(first.place), what=first.reading.what, when=first.reading.when)
    assert "rig" not in twice and "not in the log any more" in twice["problem"]


def test_a_renamed_thing_keeps_its_readings_and_a_removed_one_takes_them_along() -> None:
    """A new thing of an old name has not been measured: the old one's readings must not say that it is good."""
    joint = ("millivolts across the joint", "amps through the joint")
    rig = example_rig()
    place = next(n for n in range(rig.count("cables")) if rig.facts[f"cables.{n}.name"] == "bank to inverter")
    renamed = with_fact(rig, f"cables.{place}.name", "main cable")
    assert set(latest_test(renamed, joint, "main cable")) == set(joint)
    assert latest_test(renamed, joint, "bank to inverter") == {}
    asked = fill(check_called("prove/joint-drop"), {}, renamed, subject=place)
    assert asked.subject_name == "main cable" and not asked.missing
    gone = removed(rig, "cables", place)
    assert latest_test(gone, joint, "bank to inverter") == {}
    assert len(log(gone)) == len(log(rig)) - 2
    read_rig(text_of(gone))


def test_a_thing_of_another_list_that_bears_the_same_name_keeps_its_own_readings() -> None:
    rig = a_rig(cables=[{"name": "saw", "use": "battery cable"}], loads=[{"name": "saw"}])
    rig = noted(rig, Reading("amps in the cord", 12 * u.A, NOW, "saw"))
    rig = noted(rig, Reading("amps through the joint", 100 * u.A, NOW, "saw"))
    renamed = with_fact(rig, "cables.0.name", "main")
    assert [reading.of for reading in log(renamed)] == ["saw", "main"]


def test_a_reading_without_its_thing_says_which_part_to_fill_in() -> None:
    assert Entry(a_rig(), "amps through the joint", "").wants_a_thing == "cables"
    assert Entry(a_rig(), "volts on leg A", "").wants_a_thing == ""
