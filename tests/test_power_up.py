"""The first power-up goes from dead to live gate by gate; the load test reads what its pages ask, at equal times."""

from __future__ import annotations

import re
from pathlib import Path

from page_tree import read

from calc import units as u
from calc.catalogue import all_checks, check_called
from calc.check import Ask
from calc.filling import facts_in, filled
from calc.measurable import MEASURABLE
from calc.pages import tickable
from calc.power_up import GATES, LOAD_TEST, STOP
from calc.readings import Reading, noted
from calc.rendering import Renderer
from calc.rig import Rig, example_rig

# What a template asks of the assets is their names; the build stamps them.
ASSETS = {
    path.name: path.name
    for path in (Path(__file__).resolve().parents[1] / "site").rglob("*")
    if "node_modules" not in path.parts and path.is_file()
}
SENTENCES = [
    *STOP,
    *(sentence for gate in GATES for sentence in (*gate.steps, gate.must_see, gate.otherwise)),
    *(m.does for m in LOAD_TEST),
]


def test_every_gate_names_a_page_that_there_is_and_what_to_do_when_it_is_not_passed() -> None:
    for gate in GATES:
        assert check_called(gate.check).id == gate.check
        assert gate.steps and gate.must_see and gate.otherwise


def test_what_is_read_is_in_the_words_of_the_log_and_makes_whole_tests() -> None:
    """At the end of the half hour each page whose readings were begun has all that it needs."""
    read_then = [what for moment in LOAD_TEST for what in moment.readings]
    assert set(read_then) <= MEASURABLE.keys() and len(read_then) == len(set(read_then))
    for check in all_checks():
        needed = {
            spec.reading for spec in check.asks.values() if isinstance(spec, Ask) and spec.reading and not spec.when
        }
        assert not needed & set(read_then) or needed <= set(read_then), check.id


def test_the_three_temperatures_are_read_at_equal_times() -> None:
    minutes = {what: moment.minute for moment in LOAD_TEST for what in moment.readings}
    first, second, third = (minutes[f"temperature, {nth} reading"] for nth in ("first", "second", "third"))
    assert second - first == third - second > 0
    assert [moment.minute for moment in LOAD_TEST] == [0, 10, 20, 30]


def test_insulation_is_tested_by_a_qualified_person_on_isolated_wires_only() -> None:
    [said] = [sentence for sentence in SENTENCES if "insulation at" in sentence]
    assert "qualified" in said and "electronics disconnected" in said and "bank isolated" in said and "permits" in said


def test_what_is_dead_comes_before_what_is_live() -> None:
    titles = [gate.title for gate in GATES]
    assert titles[0] == "By eye, everything off"
    assert (
        titles.index("No short, sound insulation")
        < titles.index("Precharge, then the bank's switch")
        < titles.index("Inverter on, no load")
    )


def test_every_number_in_it_is_a_fact_of_the_rig_or_left_to_write_in() -> None:
    for sentence in SENTENCES:
        assert "{" not in filled(example_rig(), sentence)
        for path in facts_in([sentence]):
            assert "not known" in filled(Rig("", {}), "{" + path + "}")


def test_the_stop_rules_stand_in_plain_sight_before_the_first_gate() -> None:
    page = read(Renderer().page("first-power-up/", ASSETS))
    rules = page.having("id", "stop-rules")[0]
    assert all(re.sub(r"\W", "", filled(example_rig(), rule)) in re.sub(r"\W", "", rules.text) for rule in STOP)
    assert "details" not in [above.tag for above in rules.ancestors()]
    order = [e.get("id") for e in page.having("id") if e.get("id") in ("stop-rules", "gates", "load-test")]
    assert order == ["stop-rules", "gates", "load-test"]


def test_the_moments_carry_their_minutes_for_a_timer() -> None:
    page = read(Renderer().page("first-power-up/", ASSETS))
    assert [e.get("data-minute") for e in page.having("data-minute")] == ["0", "10", "20", "30"]
    assert page.having("id", "timer")


def test_what_was_noted_since_the_half_hour_began_stands_where_it_was_due() -> None:
    rig = noted(Rig("Cart", {}), Reading("volts on leg A", 119 * u.V, "2025-05-17T10:10"))
    for began, shown in (("2025-05-17T10:00", True), ("2025-05-17T10:11", False), ("", False)):
        pieces = read(Renderer().page_pieces("first-power-up/", rig, form={"began": began}))
        [slot] = pieces.having("data-reading", "volts on leg A")
        assert bool(slot.with_class("noted-value")) is shown
        assert bool(slot.with_class("blank")) is not shown


def test_each_step_has_a_tick_of_its_own_which_a_changed_step_loses() -> None:
    """A tick says that this was done: a step that asks for something new has not been done."""
    page = read(Renderer().page("first-power-up/", ASSETS))
    keys = [e.get("data-tick") for e in page.having("data-tick")]
    assert len(keys) == len(set(keys)) == sum(len(gate.steps) for gate in GATES)
    assert tickable(example_rig(), "Look").key != tickable(example_rig(), "Look twice").key
    assert tickable(example_rig(), "{place.main_switch}").key == tickable(Rig("", {}), "{place.main_switch}").key


def test_the_stop_rules_stand_beside_the_running_timer_as_well() -> None:
    [beside] = read(Renderer().page("first-power-up/", ASSETS)).having("id", "stop-again")
    assert all(re.sub(r"\W", "", filled(example_rig(), rule)) in re.sub(r"\W", "", beside.text) for rule in STOP)
    assert "timer" in [above.get("id") for above in beside.ancestors()]
