"""The book only grows: a code that was once handed out is read for good, whatever facts have come since."""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import Any

import pytest

from calc.facts import FACTS
from calc.opening import MARK, VERSION
from calc.rig import example_rig, read_rig
from calc.sharing import letters, packed, unpacked, walk
from calc.sharing.book import NUMBER, book, read_book
from tests.test_sharing import EXAMPLE, ROOT, known, refusal

sys.path.insert(0, str(ROOT / "docs"))

from make_book import BOOK, SEALS, kind, seal, what_is_new  # type: ignore[import-not-found]  # noqa: E402

LATER = BOOK.read_text(encoding="utf-8") + (
    "bank.colour | choice | red | blue\ncars[].nickname | text\nunits | more | furlong\nbank.chemistry | more | sodium\n"
)


def test_every_fact_option_and_unit_is_in_the_book() -> None:
    assert what_is_new(book()) == [], "run `python docs/make_book.py`"


def test_the_book_only_grows() -> None:
    """Codes on paper are read by the lines they were written with: every seal that was ever set must still hold."""
    text = BOOK.read_text(encoding="utf-8")
    seals = [line.split() for line in SEALS.read_text(encoding="utf-8").splitlines()]
    assert [seal(text, int(lines)) for lines, _ in seals] == [sealed for _, sealed in seals]
    assert int(seals[-1][0]) == len(text.splitlines()), "run `python docs/make_book.py`"


def test_a_fact_never_becomes_one_of_another_kind() -> None:
    """Its numbers would be read as choices. What changes its kind takes a new name, and a step in calc/opening.py."""
    facts = {f"{group}.{name}": fact for group, named in FACTS.items() for name, fact in named.items()}
    for entry in book().entries:
        if entry.path in facts:
            assert entry.kind == kind(facts[entry.path]), entry.path


def test_no_line_of_the_book_says_a_thing_twice() -> None:
    paths = [entry.path for entry in book().entries]
    assert len(set(paths)) == len(paths)
    for words in book().options.values():
        assert len(set(words)) == len(words)


def test_a_fact_option_or_unit_added_later_changes_no_code(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(walk, "book", lambda: read_book(LATER))
    assert packed(example_rig()) == EXAMPLE
    assert known(unpacked(EXAMPLE)) == known(example_rig())


@pytest.mark.parametrize(
    "part",
    [
        {"bank": {"colour": "blue"}},
        {"bank": {"chemistry": "sodium"}},
        {"tow": {"speed": {"value": 3, "unit": "furlong"}}},
        {"cars": [{}, {"nickname": "x"}]},
    ],
)
def test_a_code_by_a_later_book_is_read_by_it_and_refused_by_an_older_one(part: dict[str, Any], monkeypatch: pytest.MonkeyPatch) -> None:
    written = {MARK: VERSION, "name": "", **part}
    with monkeypatch.context() as patched:
        patched.setattr(walk, "book", lambda: read_book(LATER))
        body = walk.as_bytes(written)
        assert walk.as_document(body) == written
    assert "later version" in refusal(letters.whole(body))


def test_what_the_book_does_not_have_cannot_be_written() -> None:
    for part in ({"bank": {"colour": "red"}}, {"bank": {"chemistry": "sodium"}}, {"bank": {"energy": {"value": 1, "unit": "x"}}}):
        with pytest.raises(walk.Senseless):
            walk.as_bytes({MARK: VERSION, "name": "", **part})


def test_the_usual_unit_of_each_number_is_a_unit() -> None:
    units = {"", *book().options["units"]}
    assert all(entry.unit in units for entry in book().entries if entry.kind == NUMBER)


OLD = json.loads((Path(__file__).parent / "old_codes.json").read_text(encoding="utf-8"))


@pytest.mark.parametrize("old", OLD, ids=[old["of"] for old in OLD])
def test_a_code_that_was_once_handed_out_is_read_for_good(old: dict[str, Any]) -> None:
    """tests/old_codes.json only grows: codes as they were written, and the documents they were written from."""
    assert known(unpacked(*old["texts"])) == known(read_rig(json.dumps(old["document"])))
