"""Documents that were damaged on the way, or made to do harm: each is refused in plain words, or is kept and harmless."""

from __future__ import annotations

import json
import re
import sys
from pathlib import Path
from typing import Any

import pytest

from calc.__main__ import main
from calc.opening import MARK, MOST_THINGS, DamagedRig
from calc.rig import example_rig, read_rig

KWH = {"value": 10, "unit": "kWh"}


def rig(**parts: Any) -> str:
    return json.dumps({MARK: 1, **parts})


def with_number(text: str) -> str:
    return f'{{"{MARK}": 1, "bank": {{"energy": {{"value": {text}, "unit": "kWh"}}}}}}'


# What is wrong with it, the document, and words that the refusal must hold.
REFUSED: list[tuple[str, str, str]] = [
    ("nothing", "", "not JSON"),
    ("cut off on the way", rig(bank={"energy": KWH})[:-4], "not JSON"),
    ("two documents in a row", rig() * 2, "not JSON"),
    ("a page instead of a document", "<!doctype html><title>404</title>", "not JSON"),
    ("bytes of a picture", "\x89PNG\r\n\x1a\n\x00\x00", "not JSON"),
    ("a comment", f'{{"{MARK}": 1 /* mine */}}', "not JSON"),
    ("a list", "[1]", "no “barrowatt_rig” number"),
    ("a text", '"rig"', "no “barrowatt_rig” number"),
    ("some other program's document", '{"version": 1, "bank": {}}', "no “barrowatt_rig” number"),
    ("lists in lists, 90,000 deep", "[" * 90_000, "nested deeper"),
    ("parts in parts, 20,000 deep", '{"a":' * 20_000, "nested deeper"),
    ("deep, and closed again", f'{{"{MARK}": 1, "bank": ' + "[" * 500 + "]" * 500 + "}", "nested deeper"),
    ("deep behind a quotation mark", f'{{"{MARK}": 1, "name": "\\"", "bank": ' + "[" * 500, "nested deeper"),
    ("a megabyte of name", rig(name="x" * 1_000_000), "larger than a rig can be"),
    ("a megabyte of blanks", rig() + " " * 1_000_000, "larger than a rig can be"),
    ("a megabyte of quotation marks", '"' * 1_000_000, "larger than a rig can be"),
    ("a part twice", f'{{"{MARK}": 1, "bank": {{}}, "bank": {{}}}}', "twice"),
    ("a fact twice", f'{{"{MARK}": 1, "bank": {{"mass": null, "mass": null}}}}', "twice"),
    ("a unit twice", f'{{"{MARK}": 1, "bank": {{"mass": {{"value": 1, "unit": "kg", "unit": "lb"}}}}}}', "twice"),
    ("the mark twice", f'{{"{MARK}": 1, "{MARK}": 2}}', "twice"),
    ("not a number", with_number("NaN"), "finite"),
    ("infinity", with_number("Infinity"), "finite"),
    ("minus infinity", with_number("-Infinity"), "finite"),
    ("a power beyond bounds", with_number("1e999"), "finite"),
    ("a number of 400 figures", with_number("9" * 400), "finite"),
    ("a number of 5000 figures", with_number("9" * 5000), "not JSON"),
    ("a huge number", with_number("1e300"), "must be between"),
    ("a tiny number", with_number("1e-300"), "must be between"),
    ("below zero", with_number("-10"), "must be between"),
    ("a number as a text", with_number('"10"'), "must be written"),
    ("a truth as a number", with_number("true"), "must be written"),
    ("nothing as a number", with_number("null"), "must be written"),
    ("a list as a number", with_number("[10]"), "must be written"),
    ("a part as a text", rig(bank="LFP"), "no rig has"),
    ("a part as nothing", rig(bank=None), "no rig has"),
    ("a list as a part", rig(bank=[]), "no rig has"),
    ("a part as a list", rig(cars={}), "must be a list of cars"),
    ("texts in a list of things", rig(cars=["van"]), "must be a list of cars"),
    ("nothings in a list of things", rig(cars=[None]), "must be a list of cars"),
    ("a choice as a number", rig(bank={"chemistry": 4}), "must be a text"),
    ("a name as a list", rig(cars=[{"name": ["van"]}]), "must be a text"),
    ("a name as a part", rig(name={"first": "van"}), "must be a text"),
    ("10,000 things", rig(cars=[{}] * 10_000), f"holds 10000 cars; a rig can hold {MOST_THINGS}"),
    ("10,000 names", rig(cables=[{"feeds": ["a"] * 10_000}]), f"a rig can hold {MOST_THINGS}"),
    ("a name of 10,000 letters", rig(cars=[{"name": "x" * 10_000}]), "at most 80"),
    ("half of a sign", f'{{"{MARK}": 1, "name": "\\ud800"}}', "plain text"),
    ("halves the wrong way round", f'{{"{MARK}": 1, "cars": [{{"name": "\\udc00\\ud800"}}]}}', "plain text"),
    ("a nought in a name", rig(name="van\0"), "plain text"),
    ("a line break in a name", rig(name="van\n9 faults, all clear"), "plain text"),
    ("a line break at the end", rig(name="van\n"), "plain text"),
    ("signs that steer a terminal", rig(name="\x1b[2J\x1b[32mGO"), "plain text"),
    ("signs that steer an old terminal", rig(name="\x9b2J"), "plain text"),
    ("writing turned around", rig(devices=[{"name": "A 57\u202e"}]), "plain text"),
    ("writing turned around, in a cage", rig(devices=[{"name": "\u2067A 57"}]), "plain text"),
    ("a line of a kind that few know", rig(name="one\u2028two"), "plain text"),
    ("a part with a name of its makers' own", rig(__proto__={"energy": KWH}), "“__proto__”"),
    ("a fact called __proto__", rig(bank={"__proto__": {"energy": KWH}}), "bank.__proto__"),
    ("a fact called constructor", rig(bank={"constructor": KWH}), "bank.constructor"),
    ("a part called facts[]", rig(**{"cars[]": []}), "cars[]"),
    ("a thing's place as a part", rig(**{"cars.0.name": "van"}), "cars.0.name"),
    ("a part of half a sign", f'{{"{MARK}": 1, "\\ud800": 1}}', "\\ud800"),
    ("a fact that steers a terminal", rig(bank={"\x1b[2J": KWH}), "\\x1b[2J"),
    ("a part that turns the writing around", rig(**{"\u202eknab": {}}), "\\u202eknab"),
    ("a version that is no number", f'{{"{MARK}": "\\u001b[2J"}}', "no such version"),
    ("version 0", f'{{"{MARK}": 0}}', "no such version"),
    ("a version with a point", f'{{"{MARK}": 1.0}}', "no such version"),
]


@pytest.mark.parametrize(("what", "text", "says"), REFUSED, ids=[what for what, *_ in REFUSED])
def test_a_damaged_document_is_refused_in_plain_words(what: str, text: str, says: str) -> None:
    with pytest.raises(DamagedRig) as refused:
        read_rig(text)
    said = str(refused.value)
    assert says in said
    assert said.replace("\u00a0", " ").isprintable() and said.endswith(".") and len(said) < 300
    assert not re.search(r"\b(invalid|error|exception|traceback|sorry|please)\b", said, re.IGNORECASE)


def test_the_shell_refuses_it_too(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    file = tmp_path / "rig.json"
    for _, text, _ in REFUSED:
        file.write_text(text, encoding="utf-8")
        assert main(["walk-round", "--rig", str(file)]) == 2
        written = capsys.readouterr()
        assert not written.out and json.loads(written.err)["field"] == "rig"


def test_a_mark_of_byte_order_before_a_rig_is_no_damage() -> None:
    """As some editors write it at the head of every file."""
    assert read_rig("\ufeff" + rig(name="van")).name == "van"


def test_what_is_deep_only_inside_a_name_is_not_deep() -> None:
    name = "[{" * 40
    assert read_rig(rig(name=name)).name == name


def test_as_many_things_as_a_rig_can_hold_are_read() -> None:
    assert read_rig(rig(cars=[{"name": f"van {place}"} for place in range(MOST_THINGS)])).count("cars") == MOST_THINGS


def test_a_document_never_reaches_what_it_does_not_name() -> None:
    """Reading leaves nothing behind: neither in Python's own classes nor in the next rig."""
    before = set(vars(type(example_rig())))
    for _, text, _ in REFUSED:
        with pytest.raises(DamagedRig):
            read_rig(text)
    assert set(vars(type(example_rig()))) == before
    assert not read_rig(rig()).facts and sys.getrecursionlimit() > 100
