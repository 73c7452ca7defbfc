"""The same answers from a shell: what others test through, and what a script may rely on."""

from __future__ import annotations

import csv
import json
import re
import subprocess
import sys
from collections.abc import Iterator, Mapping
from importlib.resources import files
from pathlib import Path
from typing import Any

import pytest
from choices import picks_that_ask

from calc import units as u
from calc.__main__ import main
from calc.catalogue import all_checks, check_called
from calc.check import IEC, NEC, RULE_SETS, Ask, Check, Pick
from calc.facts import WORKED_OUT
from calc.form import ASSUMED, EXAMPLE, FROM_RIG, TYPED, fill
from calc.quantity import Quantity
from calc.reading import read_quantity
from calc.units import Unit

CHECKS = all_checks()
WIRE, CAR, TOOL = "wire/wire-for-run", "run/car-distance", "run/tool-on-outlet"
EXAMPLE_RIG: dict[str, Any] = json.loads((files("calc") / "example_rig.json").read_text(encoding="utf-8"))
ROOT = Path(__file__).parent.parent
BANNED = re.compile(r"\b(please|sorry|invalid|oops|traceback|errno|argument)\b", re.IGNORECASE)

every_check = pytest.mark.parametrize("check", CHECKS, ids=lambda check: check.id)


class Shell:
    """Runs the command in this process and keeps what it wrote."""

    def __init__(self, capsys: pytest.CaptureFixture[str], folder: Path) -> None:
        self.capsys, self.folder = capsys, folder

    def says(self, *words: str) -> str:
        assert main(list(words)) == 0, self.capsys.readouterr().err
        written = self.capsys.readouterr()
        assert not written.err
        return written.out

    def answers(self, *words: str) -> dict[str, Any]:
        found: dict[str, Any] = json.loads(self.says(*words, "--json"))
        return found

    def refuses(self, *words: str) -> tuple[str, str | None]:
        assert main(list(words)) == 2
        written = self.capsys.readouterr()
        assert not written.out
        told = json.loads(written.err)
        assert told.keys() == {"error", "field"}
        assert told["error"].strip() and not BANNED.search(told["error"])
        return told["error"], told["field"]

    def rig(self, document: object) -> str:
        file = self.folder / "rig.json"
        file.write_text(document if isinstance(document, str) else json.dumps(document), encoding="utf-8")
        return str(file)


@pytest.fixture
def shell(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> Shell:
    return Shell(capsys, tmp_path)


def words(values: Mapping[str, Any]) -> list[str]:
    """A `given` of an answer, typed again."""
    return [f"{name}={value if isinstance(value, str) else as_text(value)}" for name, value in values.items()]


def as_text(number: Mapping[str, Any]) -> str:
    return f"{number['value']!r} {number['unit']}".strip()


def si(number: Mapping[str, Any]) -> float:
    (unit,) = [unit for unit in u.ALL if unit.sign == number["unit"]]
    return unit.to_si(number["value"])


def physical(result: Mapping[str, Any]) -> Any:
    """A result as a thing of the world: what is left when the unit it is shown in is taken away."""
    return result["value"] if isinstance(result["value"], str) else pytest.approx(si(result), rel=1e-9)


def assert_same_things(one: Mapping[str, Any], other: Mapping[str, Any]) -> None:
    assert one["results"].keys() == other["results"].keys()
    for name, result in one["results"].items():
        found = other["results"][name]
        assert (found["value"] if isinstance(found["value"], str) else si(found)) == physical(result), name


# --- as a process -------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("line", "status"),
    [
        ([], 0),
        (["--json"], 0),
        (["facts"], 0),
        ([CAR, "trip=400 mi", "--json"], 0),
        ([TOOL, "--rules", "iec"], 0),
        (["--units", "metric", WIRE, "run_length=75 ft", "--json"], 0),
        ([WIRE, "run_length=far"], 2),
        ([WIRE, "--rig", "no-such-file.json"], 2),
    ],
    ids=lambda value: " ".join(value) if isinstance(value, list) else str(value),
)
def test_the_status_says_whether_the_words_could_be_read(line: list[str], status: int) -> None:
    ran = subprocess.run([sys.executable, "-m", "calc", *line], cwd=ROOT, capture_output=True, text=True, timeout=30)
    assert ran.returncode == status, ran.stderr
    assert bool(ran.stdout) == (status == 0) and bool(ran.stderr) == (status == 2)
    if "--json" in line or line == ["facts"]:
        json.loads(ran.stdout)
    if status == 2:
        assert json.loads(ran.stderr).keys() == {"error", "field"}


@pytest.mark.parametrize("line", [["facts"], ["--json"], [WIRE]], ids=" ".join)
def test_who_stops_reading_is_not_shouted_at(line: list[str]) -> None:
    """`python -m calc facts | head -0`: the pipe is closed before anything is written to it."""
    ran = subprocess.Popen(
        [sys.executable, "-m", "calc", *line], cwd=ROOT, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True
    )
    assert ran.stdout and ran.stderr
    ran.stdout.close()
    assert ran.stderr.read() == "" and ran.wait(30) == 0
    ran.stderr.close()


# --- every verdict is an answer -------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("line", "verdict"),
    [
        ([WIRE], "go"),
        ([WIRE, "run_length=75 ft", "continuous_current=0", "other_current=15"], "tight"),
        ([WIRE, "breaker=30"], "no"),
        ([CAR], "go"),
        ([CAR, "trip=400 mi"], "no"),
        ([CAR, "cells=-40 °C"], "not known"),
        ([TOOL, "plate_amps=5"], "go"),
        ([TOOL, "outlet=5-15", "breaker=30"], "no"),
        (["run/welder", "--rules", "iec"], "not known"),
    ],
    ids=lambda value: " ".join(value) if isinstance(value, list) else value,
)
def test_a_no_is_an_answer_and_no_failure(line: list[str], verdict: str, shell: Shell) -> None:
    answer = shell.answers(*line)
    assert answer["verdict"] == verdict and answer["say"]
    spoken = shell.says(*line)
    assert spoken.startswith(answer["question"]) and f"{verdict.upper()}. {answer['say']}" in spoken


@every_check
def test_the_spoken_answer_holds_fixes_cautions_working_and_who_decides(check: type[Check], shell: Shell) -> None:
    answer, spoken = shell.answers(check.id), shell.says(check.id)
    for fix in answer["fixes"]:
        assert fix["say"] in spoken
    for caution in answer["cautions"]:
        assert all(caution[part] in spoken for part in ("signal", "hazard", "consequence", "avoid"))
    for line in answer["working"]:
        assert line["label"] in spoken and line["source"] in spoken
    assert "a licensed person decide" in spoken


def test_the_list_names_every_question_in_the_order_of_the_job(shell: Shell) -> None:
    spoken = shell.says()
    places = [spoken.index(f"{check.id} ") for check in CHECKS]
    assert places == sorted(places)
    assert all(check.question in spoken for check in CHECKS)


def test_options_may_stand_anywhere(shell: Shell) -> None:
    for line in (
        ["--json", "--units", "metric", WIRE, "breaker=15", "size=10 AWG"],
        [WIRE, "--units", "metric", "breaker=15", "--json", "size=10 AWG"],
        [WIRE, "breaker=15", "size=10 AWG", "--units=metric", "--json"],
    ):
        assert json.loads(shell.says(*line))["given"]["breaker"] == {"value": 15.0, "unit": "A"}


# --- words that cannot be read -----------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("line", "field", "says"),
    [
        ([WIRE, "run_length=12x"], "run_length", "Length of the run"),
        ([WIRE, "run_length="], "run_length", "filled in"),
        ([WIRE, "run_length=1,500"], "run_length", "write 1500 or 1.5"),
        ([WIRE, "run_length=5 kg"], "run_length", "kg"),
        ([WIRE, "run_length=-5 ft"], "run_length", "between"),
        ([WIRE, "run_length=" + "9" * 400 + "/2"], "run_length", "Length of the run"),
        ([WIRE, "breaker=1e6"], "breaker", "between"),
        ([WIRE, "ambient=-300 °C"], "ambient", "between"),
        ([WIRE, "power_factor=1.2"], "power_factor", "between"),
        ([WIRE, "carrying=2.5"], "carrying", "whole"),
        ([WIRE, "size=13 AWG"], "size", "Conductor size"),
        ([WIRE, "size=12 AWG", "--rules", "iec"], "size", "2.5 mm2"),
        ([WIRE, "depth=3 ft"], "depth", "run_length"),
        ([WIRE, "Run_length=3 ft"], "Run_length", "run_length"),
        ([WIRE, "run_length"], None, "NAME=VALUE"),
        ([WIRE, "run_length=3 ft", "run_length=4 ft"], "run_length", "twice"),
        ([WIRE, "carrying=4", "--rules", "iec"], "carrying", "not asked"),
        ([TOOL, "plate_watts=3000"], "plate_watts", "not asked"),
        ([TOOL, "plate_watts=far", "plate=watts"], "plate_watts", "Watts"),
        ([CAR, "consumption=0 kWh/100 mi"], "consumption", "kWh/100"),
        (["wire/nothing"], None, "wire/nothing"),
        (["wire"], None, "wire"),
        ([WIRE, "--units", "yards"], "units", "us or metric"),
        ([WIRE, "--rules", "house"], "rules", "nec or iec"),
        ([WIRE, "--colour"], None, "--help"),
        (["facts", "breaker=5"], None, "facts"),
    ],
    ids=lambda value: " ".join(value)[:50] if isinstance(value, list) else "",
)
def test_what_cannot_be_read_is_refused_by_name(line: list[str], field: str | None, says: str, shell: Shell) -> None:
    error, named = shell.refuses(*line)
    assert named == field and says in error


@pytest.mark.parametrize(
    "document",
    [
        "",
        "not JSON",
        "[]",
        "{}",
        {"barrowatt_rig": 2},
        {"barrowatt_rig": True},
        {"barrowatt_rig": 1, "bank": {"colour": "red"}},
        {"barrowatt_rig": 1, "bank": {"energy": {"value": 1e9, "unit": "kWh"}}},
        {"barrowatt_rig": 1, "bank": {"energy": {"value": 10, "unit": "kg"}}},
        '{"barrowatt_rig": 1, "bank": {"energy": {"value": NaN, "unit": "kWh"}}}',
    ],
    ids=lambda document: str(document)[:40] or "nothing",
)
def test_a_damaged_rig_is_refused_for_every_check(document: object, shell: Shell) -> None:
    file = shell.rig(document)
    for check in CHECKS:
        assert shell.refuses(check.id, "--rig", file)[1] == "rig"


def test_a_file_that_is_no_text_or_not_there_is_refused(shell: Shell, tmp_path: Path) -> None:
    (tmp_path / "photo.json").write_bytes(bytes(range(256)))
    for file in (tmp_path / "photo.json", tmp_path / "absent.json", tmp_path):
        assert shell.refuses(CAR, "--rig", str(file))[1] == "rig"


# --- units ------------------------------------------------------------------------------------------------------------


def stated(check: type[Check]) -> Iterator[tuple[str, list[str]]]:
    for rules in check.rule_sets:
        yield rules, []
        for example in check.examples:
            if example.rules == rules:
                filled = fill(check, example.given, rules=rules).check
                assert filled is not None
                yield rules, [f"{name}={text}" for name, text in example.given.items() if filled.asked(name)]


@every_check
def test_whoever_reads_it_the_same_numbers_get_the_same_answer(check: type[Check], shell: Shell) -> None:
    """--units changes what is shown, never what is worked."""
    for rules, line in stated(check):
        us = shell.answers(check.id, *line, "--rules", rules, "--units", "us")
        metric = shell.answers(check.id, *words(us["given"]), "--rules", rules, "--units", "metric")
        assert metric["verdict"] == us["verdict"]
        assert_same_things(metric, us)
        assert [rests["verdict"] for rests in metric["rests_on"]] == [rests["verdict"] for rests in us["rests_on"]]


@every_check
def test_the_example_numbers_are_the_same_for_both_peoples(check: type[Check], shell: Shell) -> None:
    us, metric = (shell.answers(check.id, "--units", people) for people in u.PEOPLE)
    assert us["verdict"] == metric["verdict"]
    assert_same_things(metric, us)


@pytest.mark.parametrize("charge", [85.0, 85.1, 87.3, 90.0, 92.2])
def test_a_rig_gets_one_verdict_whoever_reads_it(charge: float, shell: Shell) -> None:
    """A trip a hair longer than the car goes must not shrink into reach by being rounded to kilometres."""
    rig = json.loads(json.dumps(EXAMPLE_RIG))
    rig["now"]["charge"]["value"] = charge
    goes = shell.answers(CAR, "--rig", shell.rig(rig))["results"]["distance"]["value"]
    for share, verdict in ((1.0003, "no"), (0.9997, "tight"), (0.8003, "tight"), (0.7997, "go")):
        rig["place"]["trip"]["value"] = goes * share
        for people in u.PEOPLE:
            assert shell.answers(CAR, "--rig", shell.rig(rig), "--units", people)["verdict"] == verdict


def test_people_are_shown_their_own_units(shell: Shell) -> None:
    for people, length, distance, air in (("us", "ft", "mi", "°F"), ("metric", "m", "km", "°C")):
        wire, car = shell.answers(WIRE, "--units", people), shell.answers(CAR, "--units", people)
        assert wire["results"]["longest_run"]["unit"] == length and wire["given"]["run_length"]["unit"] == length
        assert car["results"]["distance"]["unit"] == distance and car["given"]["air"]["unit"] == air


def test_a_bare_number_is_in_the_unit_these_people_use(shell: Shell) -> None:
    for people, unit in (("us", "mi"), ("metric", "km")):
        assert shell.answers(CAR, "trip=10", "--units", people)["given"]["trip"] == {"value": 10.0, "unit": unit}


def _units_to_type(spec: Ask) -> list[Unit]:
    """The first and the last of the units that fit: enough to see that a unit is kept, over many checks."""
    kind = (spec.unit.dimension, spec.unit.point, spec.unit.kind)
    fitting = [unit for unit in u.TYPED if unit.sign and (unit.dimension, unit.point, unit.kind) == kind]
    return fitting[:1] + fitting[1:][-1:]


@every_check
def test_a_number_is_given_back_in_the_unit_it_was_typed_in(check: type[Check], shell: Shell) -> None:
    for name, spec in check.asks.items():
        if not isinstance(spec, Ask):
            continue
        rules = next(rules for rules in check.rule_sets if rules in spec.rules)
        for unit, people in zip(_units_to_type(spec), u.PEOPLE, strict=False):
            middle = unit.from_si((spec.low.si + spec.high.si) / 2)
            if spec.whole and unit is not spec.unit:
                continue
            number = str(round(middle)) if unit is u.wires or spec.whole else f"{middle:.6g}"
            line = [*words(picks_that_ask(check, name, rules)), f"{name}={number} {unit.sign}"]
            given = shell.answers(check.id, *line, "--rules", rules, "--units", people)["given"][name]
            assert given == {"value": pytest.approx(float(number), rel=1e-9), "unit": unit.sign}


@pytest.mark.parametrize("text", ["32 kWh/100 mi", "320 Wh/mi", "199 Wh/km", "20 kWh/100 km", "105 MPGe"])
def test_consumption_is_given_back_as_it_was_typed(text: str, shell: Shell) -> None:
    number, sign = text.split(" ", 1)
    for people in u.PEOPLE:
        given = shell.answers(CAR, f"consumption={text}", "--units", people)["given"]["consumption"]
        assert given == {"value": pytest.approx(float(number)), "unit": sign}


def test_a_choice_is_given_back_as_the_trade_writes_it(shell: Shell) -> None:
    assert shell.answers(WIRE, "size=10 ga", "circuit=DC")["given"]["size"] == "10 AWG"
    assert shell.answers(WIRE, "size=10 ga", "circuit=DC")["given"]["circuit"] == "dc"


# --- rule sets --------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("check", [check for check in CHECKS if IEC not in check.rule_sets], ids=lambda check: check.id)
def test_a_us_rule_never_answers_for_iec(check: type[Check], shell: Shell) -> None:
    for _, line in stated(check):
        answer = shell.answers(check.id, *line, "--rules", "iec")
        assert answer["verdict"] == "not known" and answer["rules"] == "iec"
        assert "US rule" in answer["say"] and "not known" in answer["say"]
        assert not answer["results"] and not answer["working"] and not answer["fixes"]


def test_an_answer_says_by_which_rules_it_was_found(shell: Shell) -> None:
    for check in CHECKS:
        for rules in RULE_SETS:
            assert shell.answers(check.id, "--rules", rules)["rules"] == rules


# --- the facts of a rig ------------------------------------------------------------------------------------------------


def everything(check: type[Check], shell: Shell) -> dict[str, Any]:
    """All that the example holds for a check, facts and defaults, as if the person had typed it."""
    found: dict[str, Any] = shell.answers(check.id)["given"]
    return found


def without(path: str) -> dict[str, Any]:
    """The example rig, one fact less; of every thing in a list, unless the path names one."""
    path = WORKED_OUT[path].rests_on[0] if path in WORKED_OUT else path
    rig = json.loads(json.dumps(EXAMPLE_RIG))
    group, *place, name = path.split(".")
    held = rig.get(group, {})
    things = held if isinstance(held, list) else [held]
    for thing in [things[int(place[0])]] if place else things:
        thing.pop(name, None)
    return rig


@every_check
def test_one_nameplate_number_short_is_never_a_go(check: type[Check], shell: Shell) -> None:
    """Whichever it is: what is not typed and not in the rig is missing, unless it is a habit printed as assumed."""
    typed = everything(check, shell)
    empty = shell.rig({"barrowatt_rig": 1})
    for name in typed:
        rest = {other: value for other, value in typed.items() if other != name}
        answer = shell.answers(check.id, *words(rest), "--rig", empty)
        if check.asks[name].habit:
            assert name not in [missing["name"] for missing in answer["missing"]]
        elif is_wish(check, name):
            assert answer["verdict"] != "go" and [wish["name"] for wish in answer["wishes"]] == [name]
            assert name not in answer["given"]
        else:
            assert answer["verdict"] == "not known" and not answer["results"]
            assert [missing["name"] for missing in answer["missing"]] == [name]
            assert name not in answer["given"]
            assert answer["missing"][0]["where"] == check.asks[name].help
            assert check.asks[name].label in shell.says(check.id, *words(rest), "--rig", empty)


def is_wish(check: type[Check], name: str) -> bool:
    """What somebody wants, and no nameplate says."""
    spec = check.asks[name]
    return isinstance(spec, Ask) and bool(spec.wish)


@every_check
def test_a_fact_taken_out_of_the_rig_is_missed(check: type[Check], shell: Shell) -> None:
    typed = everything(check, shell)
    no_fact = {name: value for name, value in typed.items() if not check.asks[name].fact}
    for name in typed:
        spec = check.asks[name]
        if spec.fact and not spec.habit and not spec.fact.endswith(".#"):
            answer = shell.answers(check.id, *words(no_fact), "--rig", shell.rig(without(spec.fact)))
            missing = {missing["name"] for missing in answer["missing"]}
            hangs_on = {other for case in spec.cases for other in case}
            if is_wish(check, name):
                assert answer["verdict"] != "go" and answer["wishes"][0]["where"] == spec.help
            else:
                assert answer["verdict"] == "not known" and (name in missing or hangs_on & missing)


@every_check
def test_an_empty_rig_answers_nothing_and_names_what_it_lacks(check: type[Check], shell: Shell) -> None:
    for rules in check.rule_sets:
        answer = shell.answers(check.id, "--rig", shell.rig({"barrowatt_rig": 1}), "--rules", rules)
        assert answer["verdict"] == "not known" and answer["missing"]
        for missing in answer["missing"]:
            spec = check.asks[missing["name"]]
            assert not spec.may_be_assumed(rules) and missing["label"] == spec.label
        assert all(check.asks[name].may_be_assumed(rules) for name in answer["given"])


@every_check
def test_a_habit_may_carry_an_answer_only_as_printed_as_assumed(check: type[Check], shell: Shell) -> None:
    typed = {name: value for name, value in everything(check, shell).items() if not check.asks[name].habit}
    line = [*words(typed), "--rig", shell.rig({"barrowatt_rig": 1})]
    answer = shell.answers(check.id, *line)
    assert answer["verdict"] in ("go", "tight", "no") and not answer["missing"]
    habits = {spec.label for spec in check.asks.values() if spec.habit}
    assumed = {line["label"] for line in answer["working"] if line["note"] == ASSUMED}
    given = {line["label"] for line in answer["working"] if line["kind"] == "given"}
    assert assumed == habits & given
    for name, origin in answer["origins"].items():
        assert origin == (ASSUMED if check.asks[name].habit else TYPED)
    if assumed:
        assert ASSUMED in shell.says(check.id, *line)


@every_check
def test_a_choice_that_was_assumed_is_printed_as_assumed(check: type[Check], shell: Shell) -> None:
    typed = {name: value for name, value in everything(check, shell).items() if not check.asks[name].habit}
    line = [*words(typed), "--rig", shell.rig({"barrowatt_rig": 1})]
    answer, spoken = shell.answers(check.id, *line), shell.says(check.id, *line)
    printed = {found["label"]: found["note"] for found in answer["working"]}
    for name in answer["given"]:
        spec = check.asks[name]
        if isinstance(spec, Pick) and spec.habit:
            assert printed[spec.label] == ASSUMED and spec.label in spoken, name


def test_typed_goes_before_the_rig_and_the_rig_before_the_example(shell: Shell) -> None:
    rig = json.loads(json.dumps(EXAMPLE_RIG))
    rig["place"]["trip"] = {"value": 7, "unit": "mi"}
    trip = {}
    for how, line in (
        (EXAMPLE, []),
        (FROM_RIG, ["--rig", shell.rig(rig)]),
        (TYPED, ["--rig", shell.rig(rig), "trip=5 mi"]),
    ):
        (found,) = [found for found in shell.answers(CAR, *line)["working"] if found["label"] == CAR_TRIP]
        trip[how] = found["note"]
        assert found["note"] == how
    assert len(trip) == 3


CAR_TRIP = check_called(CAR).asks["trip"].label


def test_a_fact_in_another_unit_is_the_same_fact(shell: Shell) -> None:
    rig = json.loads(json.dumps(EXAMPLE_RIG))
    before = shell.answers(CAR, "--rig", shell.rig(rig))
    rig["bank"]["energy"] = {"value": 10200, "unit": "Wh"}
    rig["place"]["trip"] = {"value": 16.09344, "unit": "km"}
    rig["now"]["air"] = {"value": 46.4, "unit": "°F"}
    after = shell.answers(CAR, "--rig", shell.rig(rig))
    assert after["verdict"] == before["verdict"]
    assert_same_things(after, before)


def test_what_is_typed_stands_over_a_fact_that_cannot_serve(shell: Shell) -> None:
    """An empty bank is a state, not a mistake; and typing over it answers for what was typed."""
    rig = json.loads(json.dumps(EXAMPLE_RIG))
    rig["now"]["charge"] = {"value": 0, "unit": "%"}
    assert shell.answers(CAR, "--rig", shell.rig(rig), "charge=90 %")["verdict"] == "go"
    assert shell.answers(CAR, "--rig", shell.rig(rig))["verdict"] == "no"


# --- what the answer says about itself ----------------------------------------------------------------------------------


@every_check
def test_every_fix_does_what_it_says_when_it_is_typed(check: type[Check], shell: Shell) -> None:
    for rules, line in stated(check):
        answer = shell.answers(check.id, *line, "--rules", rules)
        for fix in answer["fixes"]:
            typed = answer["given"] | fix["set"]
            changed = fill(check, dict(word.split("=", 1) for word in words(typed)), rules=rules).check
            assert changed is not None
            # A changed choice may make other numbers pointless; nobody types those.
            still_asked = {name: value for name, value in typed.items() if changed.asked(name)}
            again = shell.answers(check.id, *words(still_asked), "--rules", rules)
            assert again["verdict"] == fix["verdict"] in ("go", "tight")


@every_check
def test_the_numbers_are_unrounded(check: type[Check], shell: Shell) -> None:
    worked = fill(check, {}).answer().results
    for name, result in shell.answers(check.id)["results"].items():
        quantity = worked[name]
        if isinstance(quantity, Quantity):
            assert result["value"] == quantity.shown, name


def test_what_is_said_can_be_typed_again(shell: Shell) -> None:
    """The question an answer repeats, typed in its own words, is the same question."""
    for check in CHECKS:
        for rules in check.rule_sets:
            first = shell.answers(check.id, "--rules", rules)
            for name, value in first["given"].items():
                if not isinstance(value, str):
                    spec = check.asks[name]
                    assert isinstance(spec, Ask)
                    read = read_quantity(as_text(value), spec.unit, "5", spec.either_way)
                    assert read.si == pytest.approx(si(value), rel=1e-12)
            again = shell.answers(check.id, *words(first["given"]), "--rules", rules)
            assert again["given"] == first["given"] and again["verdict"] == first["verdict"]
            assert_same_things(again, first)


def test_the_default_rules_and_units_are_us(shell: Shell) -> None:
    plain = shell.says(WIRE, "--json")
    assert plain == shell.says(WIRE, "--json", "--units", "us", "--rules", NEC)


def test_the_sheet_for_a_borrower_is_said_as_text_as_a_page_and_as_json(shell: Shell, tmp_path: Path) -> None:
    mine = tmp_path / "mine.json"
    mine.write_text(json.dumps({**EXAMPLE_RIG, "name": "mine"}), encoding="utf-8")
    said = shell.says("hand-over", "--rig", str(mine), "--date", "2027-06-18")
    assert said.startswith("mine\nDate: 2027-06-18\n") and "What may be plugged in" in said
    page = shell.says("hand-over", "--rig", str(mine), "--date", "2027-06-18", "--html")
    assert page.startswith("<!doctype html>") and "Date: 2027-06-18" in page and "<svg" in page
    told = shell.answers("hand-over", "--rig", str(mine), "--date", "2027-06-18")
    assert (told["rig"], told["date"]) == ("mine", "2027-06-18") and len(told["outlets"]) == len(EXAMPLE_RIG["outlets"])


def test_the_parts_are_said_as_csv_and_as_json_with_the_torques(shell: Shell) -> None:
    rows = list(csv.DictReader(shell.says("parts").splitlines()))
    told = shell.answers("parts")
    assert [row["item"] for row in rows] == [part["item"] for part in told["parts"]] and len(rows) > 10
    assert told["torques"]


@pytest.mark.parametrize(
    "words",
    [
        ("hand-over", "x=1"),
        ("parts", "x=1"),
        ("parts", "--date", "2027-06-18"),
        ("hand-over", "--date", "tomorrow"),
        ("day", "--html"),
        ("hand-over", "--html", "--json"),
    ],
)
def test_a_sheet_refuses_what_it_does_not_take(shell: Shell, words: tuple[str, ...]) -> None:
    shell.refuses(*words)
