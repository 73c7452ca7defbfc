"""What the command prints is held to the schemas in docs/schemas, which others build on."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from calc import as_json, units
from calc.__main__ import main
from calc.catalogue import all_checks, check_called
from calc.check import RULE_SETS, VERDICTS, Ask, Check
from calc.form import fill
from calc.rig import Rig

FOLDER = Path(__file__).parent.parent / "docs" / "schemas"
CHECKS = all_checks()
NOTHING_KNOWN = Rig("", {})


def schema(name: str) -> dict[str, Any]:
    found: dict[str, Any] = json.loads((FOLDER / f"{name}.json").read_text(encoding="utf-8"))
    return found


ANSWER = jsonschema.Draft202012Validator(schema("answer"))


def answers(check: type[Check]) -> Iterator[dict[str, Any]]:
    """As it stands, with nothing known, every published example, and each number and choice at its end."""
    for rules in RULE_SETS:
        for people in units.PEOPLE:
            with units.shown_to(people):
                yield as_json.answer(fill(check, {}, rules=rules))
                yield as_json.answer(fill(check, {}, NOTHING_KNOWN, rules))
        for example in check.examples:
            if example.rules == rules:
                yield as_json.answer(fill(check, example.given, rules=rules))
    for name, spec in check.asks.items():
        rules = next(rules for rules in check.rule_sets if rules in spec.rules)
        text = as_text(spec.high) if isinstance(spec, Ask) else spec.options(rules)[-1]
        yield as_json.answer(fill(check, {name: text}, rules=rules))


def as_text(bound: Any) -> str:
    return f"{bound.shown:.12g} {bound.unit.sign}"


@pytest.mark.parametrize("name", ["answer", "error", "facts", "list"])
def test_a_schema_is_itself_sound_and_of_the_2020_12_draft(name: str) -> None:
    jsonschema.Draft202012Validator.check_schema(schema(name))
    assert schema(name)["$schema"] == "https://json-schema.org/draft/2020-12/schema"


def test_every_schema_in_the_folder_is_held_to_something() -> None:
    """The walk-round's, the day's and a shared rig's are held to in test_walkround.py, test_day.py and test_sharing.py."""
    assert {file.stem for file in FOLDER.iterdir()} == {"answer", "day", "error", "facts", "list", "shared", "walk-round"}


def _not_held_yet(lines: list[Any], held: set[str]) -> list[Any]:
    """Of the working, whose lines the schema holds one by one, those that no answer before had; one at least where there are any."""
    new = [line for line in lines if json.dumps(line) not in held]
    held.update(map(json.dumps, new))
    return new or lines[:1]


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check.id)
def test_every_answer_is_an_answer_by_the_schema(check: type[Check]) -> None:
    seen, held = set(), set()
    for answer in answers(check):
        told = json.loads(json.dumps(answer, allow_nan=False))
        ANSWER.validate(told | {"working": _not_held_yet(told["working"], held)})
        seen.add(answer["verdict"])
    assert "not known" in seen and (check.told or "no" in seen and seen & {"go", "tight"})


def test_the_verdicts_of_the_schema_are_those_of_the_program() -> None:
    assert set(schema("answer")["properties"]["verdict"]["enum"]) == set(VERDICTS)


@pytest.mark.parametrize("people", units.PEOPLE)
def test_the_list_is_a_list_by_the_schema(people: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["--json", "--units", people]) == 0
    told = json.loads(capsys.readouterr().out)
    jsonschema.Draft202012Validator(schema("list")).validate(told)
    assert [check["id"] for check in told["checks"]] == [check.id for check in CHECKS]
    assert [id for chapter in told["chapters"] for id in chapter["checks"]] == [check.id for check in CHECKS]


def test_the_schema_of_a_rig_in_the_docs_is_what_the_command_prints(capsys: pytest.CaptureFixture[str]) -> None:
    """Written anew with: python -m calc facts > docs/schemas/facts.json"""
    assert main(["facts"]) == 0
    assert capsys.readouterr().out == (FOLDER / "facts.json").read_text(encoding="utf-8")


@pytest.mark.parametrize(
    "words",
    [
        ["no/such-check"],
        ["wire/wire-for-run", "run_length=12x"],
        ["wire/wire-for-run", "nothing"],
        ["--units", "yards"],
        ["--rig", "no-such-file.json", "wire/wire-for-run"],
    ],
    ids=" ".join,
)
def test_a_refusal_is_a_refusal_by_the_schema(words: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    assert main(words) == 2
    told = capsys.readouterr()
    assert not told.out
    jsonschema.Draft202012Validator(schema("error")).validate(json.loads(told.err))


def _sound() -> dict[str, Any]:
    return json.loads(json.dumps(as_json.answer(fill(check_called("run/car-distance"), {}))))


@pytest.mark.parametrize(
    "spoil",
    [
        lambda answer: answer.update(verdict="passes"),
        lambda answer: answer.update(verdict="no"),
        lambda answer: answer.update(verdict="not known"),
        lambda answer: answer.update(results={}),
        lambda answer: answer.update(missing=[{"name": "trip", "label": "Trip", "where": "On a map"}]),
        lambda answer: answer.pop("working"),
        lambda answer: answer.update(working=[]),
        lambda answer: answer["rests_on"][0].update(verdict="no"),
        lambda answer: answer.update(more="words"),
        lambda answer: answer["results"].update(distance={"label": "Distance", "value": 2.85}),
        lambda answer: answer["given"].update(trip=10),
        lambda answer: answer["cautions"][0].pop("avoid"),
        lambda answer: answer["cautions"][0].update(signal="Warning"),
        lambda answer: answer.update(fixes=[{"say": "Plan less", "set": {}, "verdict": "go"}]),
        lambda answer: [line.update(source="") for line in answer["working"]],
    ],
)
def test_the_schema_refuses_what_contradicts_itself(spoil: Any) -> None:
    """A schema that takes anything would prove nothing about the answers."""
    answer = _sound()
    assert answer["verdict"] == "go" and ANSWER.is_valid(answer)
    spoil(answer)
    assert not ANSWER.is_valid(answer)
