"""A rig as a text or as codes is that rig again, exactly; anything else is refused, and nothing of it kept."""

from __future__ import annotations

import json
import random
import sys
import time
from pathlib import Path
from typing import Any

import jsonschema
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.__main__ import main
from calc.facts import FACTS
from calc.opening import MARK, MOST_THINGS, VERSION
from calc.quantity import Quantity
from calc.rig import DamagedRig, Rig, document, example_rig, read_rig, schema
from calc.sharing import TooLarge, Unfinished, letters, packed, shared, unpacked, walk
from calc.sharing.book import NUMBER, book, read_book
from calc.sharing.coder import Endless, Reader, Writer
from tests.any_rig import documents, rigs

ROOT = Path(__file__).parent.parent
sys.path.insert(0, str(ROOT / "docs"))

from make_book import BOOK, SEALS, kind, seal, what_is_new  # type: ignore[import-not-found]  # noqa: E402

ADDRESS = "https://somewhere.example.org/barrowatt/rig/"
EXAMPLE = packed(example_rig())


def known(rig: Rig) -> dict[str, object]:
    """All that a rig holds: each number by its exact value and its unit."""
    facts = {path: (fact.si, fact.unit.sign) if isinstance(fact, Quantity) else fact for path, fact in rig.facts.items()}
    return {"name": rig.name, **facts}


def refusal(*texts: str) -> str:
    with pytest.raises(DamagedRig) as problem:
        unpacked(*texts)
    assert str(problem.value).endswith(".") and len(str(problem.value)) < 400
    return str(problem.value)


def large_rig(things: int = MOST_THINGS) -> Rig:
    """A yard full of tools: as many things of each kind as a rig may hold, no two alike."""
    dice = random.Random(7)
    written = document(example_rig())
    for group in ("outlets", "cables", "devices", "loads", "parts"):
        few, written[group] = written[group], []
        for number in range(things):
            thing = json.loads(json.dumps(dice.choice(few))) | {"name": f"{dice.choice(['Säge', 'pump', 'oven'])} {dice.choice(['links', 'for the barn'])} {number}"}
            for value in thing.values():
                if isinstance(value, dict) and value["value"] and value["unit"] in ("A", "ft", "kg", "mm"):
                    value["value"] = round(value["value"] * dice.uniform(0.9, 1.1), 2)
            written[group].append(thing)
    return read_rig(json.dumps(written))


# --- what was packed comes back ---------------------------------------------------------------------------------------


@given(rigs())
@settings(deadline=None)
def test_any_rig_comes_back_exactly(rig: Rig) -> None:
    assert known(unpacked(packed(rig))) == known(rig)


@given(documents())
@settings(deadline=None)
def test_the_document_comes_back_as_it_was_typed(written: dict[str, Any]) -> None:
    """5 ft is 5 ft again, and not 1.524 m or 4.999999999999999 ft."""
    rig = read_rig(json.dumps(written))
    assert document(unpacked(packed(rig))) == document(rig)


def test_the_example_and_a_rig_of_nothing_come_back() -> None:
    assert known(unpacked(EXAMPLE)) == known(example_rig())
    assert known(unpacked(packed(Rig("", {})))) == known(Rig("", {}))


def test_a_link_with_the_rig_behind_its_sign_opens_it_and_a_mail_may_have_broken_it_into_lines() -> None:
    link = shared(example_rig()).link(ADDRESS)
    assert link.startswith(ADDRESS + "#")
    broken = "\n".join(link[at : at + 76] for at in range(0, len(link), 76)) + "\r\n"
    assert known(unpacked(link)) == known(unpacked(broken)) == known(example_rig())


def test_the_text_is_made_of_signs_that_nothing_on_the_way_changes() -> None:
    """RFC 3986, 2.3: unreserved; ISO/IEC 18004, table 5: of the alphanumeric mode; and no sign that ends a sentence."""
    assert set(EXAMPLE) <= set("0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ-") and EXAMPLE[-1].isalnum()


def test_the_example_takes_a_tenth_of_its_document() -> None:
    """So that it fits one code beside an address of ordinary length."""
    as_json = json.dumps(document(example_rig()), ensure_ascii=False, separators=(",", ":")).encode()
    assert len(shared(example_rig()).body) < len(as_json) / 10


@given(st.lists(st.tuples(st.integers(0, 3), st.booleans()), max_size=300))
def test_bits_come_back_whatever_they_are(bits: list[tuple[int, bool]]) -> None:
    writer = Writer({})
    for where, bit in bits:
        writer.bit(where, bit)
    reader = Reader({}, writer.written())
    assert [reader.bit(where) for where, _ in bits] == [bit for _, bit in bits]
    assert reader.has_read_all()


def test_what_is_expected_costs_less_than_a_bit() -> None:
    """Shannon, 1948: a bit that is 1 with a chance of 63/64 is worth 0.023 bits."""
    writer = Writer({})
    for _ in range(8000):
        writer.bit("always", True)
    assert len(writer.written()) < 8000 * 0.024 / 8 + 8


# --- what is damaged, foreign or made to do harm ------------------------------------------------------------------------


def test_every_changed_letter_of_a_code_is_noticed() -> None:
    """Every place, every other letter."""
    for code in (EXAMPLE, packed(Rig("a", {}))):
        for place, was in enumerate(code):
            for letter in "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ-":
                if letter != was:
                    with pytest.raises(DamagedRig):
                        letters.body_of([code[:place] + letter + code[place + 1 :]])


@given(rigs(), st.data())
@settings(deadline=None)
def test_a_letter_that_is_lost_added_changed_or_swapped_is_noticed(rig: Rig, data: st.DataObject) -> None:
    code = packed(rig)
    place = data.draw(st.integers(0, len(code) - 2))
    other = data.draw(st.characters(exclude_categories=("Cs", "Z", "Cc")))
    spoilt = {
        code[:place] + code[place + 1 :],
        code[:place] + other + code[place:],
        code[:place] + other + code[place + 1 :],
        code[:place] + code[place + 1] + code[place] + code[place + 2 :],
        code[:place],
        code.lower(),
        code + code,
    }
    for text in spoilt - {code}:
        assert refusal(text)


@given(st.text(max_size=200))
def test_any_other_text_is_refused(text: str) -> None:
    assert refusal(text)


@pytest.mark.parametrize("text", ["", "1-", "https://example.org/", "#rig=", "1-2-3-", "{}", "１-ABC", "1-ABC\x00", "-1-AB", "99-ABC"])
def test_what_is_no_code_is_refused(text: str) -> None:
    assert refusal(text)


def test_no_code_at_all_is_refused() -> None:
    assert refusal()


def test_a_later_format_is_named() -> None:
    assert "format 2" in refusal("2" + EXAMPLE[1:])


def test_a_code_longer_than_any_rigs_is_refused_unread() -> None:
    assert "longer" in refusal("1-" + "A" * 1_000_000)


@given(st.binary(max_size=400))
@settings(deadline=None)
def test_a_whole_code_of_any_bytes_is_a_rig_or_is_refused(body: bytes) -> None:
    """Somebody who knows the check sum can make a whole code of anything."""
    try:
        rig = unpacked(letters.whole(body))
    except DamagedRig as problem:
        assert str(problem).endswith(".")
    else:
        assert known(read_rig(json.dumps(document(rig)))) == known(rig)


def bomb() -> bytes:
    """The most that a few bytes can be made to unfold into: lists of things of which everything is known and alike."""
    thing = {"name": "x", "mass": {"value": 1, "unit": "kg"}, "height": {"value": 1, "unit": "mm"}}
    return walk.as_bytes({MARK: VERSION, "name": "", "parts": [thing] * MOST_THINGS})


def test_a_few_bytes_do_not_unfold_without_end() -> None:
    """Bits that are ever likelier cost ever less; there is an end to what is read, and soon."""
    assert len(unpacked(letters.whole(bomb())).facts) == 3 * MOST_THINGS
    reader = Reader({}, bytes(9000))
    with pytest.raises(Endless):
        while True:
            reader.bit("ever the same")
    begun = time.perf_counter()
    for filling in range(0, 256, 5):
        assert refusal(letters.whole(bytes([filling]) * 9000))
    assert time.perf_counter() - begun < 20


def test_more_things_than_a_rig_holds_are_neither_written_nor_read(monkeypatch: pytest.MonkeyPatch) -> None:
    crowd = {MARK: VERSION, "name": "", "cars": [{"name": "van"}] * (MOST_THINGS + 1)}
    with pytest.raises(Endless):
        walk.as_bytes(crowd)
    monkeypatch.setattr(walk, "MOST_THINGS", 10**6)
    body = walk.as_bytes(crowd)
    monkeypatch.undo()
    assert "not made here" in refusal(letters.whole(body))


@pytest.mark.parametrize(
    ("part", "why"),
    [
        ({"bank": {"energy": {"value": 1e30, "unit": "kWh"}}}, "bank.energy"),
        ({"bank": {"energy": {"value": 10, "unit": "V"}}}, "bank.energy"),
        ({"bank": {"series": {"value": 1.5, "unit": ""}}}, "bank.series"),
        ({"plan": {"begins": "soon"}}, "plan.begins"),
        ({"cars": [{"name": "x" * 200}]}, "cars.0.name"),
        ({MARK: 9}, "version 9"),
    ],
)
def test_a_whole_code_of_what_no_rig_can_be_is_refused_as_its_document_would_be(part: dict[str, Any], why: str) -> None:
    body = walk.as_bytes({MARK: VERSION, "name": "x", **part})
    assert why in refusal(letters.whole(body))


# --- several codes ---------------------------------------------------------------------------------------------------


LARGE = large_rig()
PARTS = shared(LARGE).texts(ADDRESS)


def test_a_large_rig_takes_several_codes_and_any_order_will_do() -> None:
    assert len(PARTS) > 3
    for seed in range(5):
        shuffled = random.Random(seed).sample(PARTS, len(PARTS))
        assert known(unpacked(*shuffled)) == known(LARGE)
    assert known(unpacked(*PARTS, *PARTS[:2])) == known(LARGE), "one may be read twice"


def test_while_some_are_missing_it_is_said_which() -> None:
    with pytest.raises(Unfinished) as unfinished:
        unpacked(PARTS[2], PARTS[0])
    assert unfinished.value.have == {1, 3} and unfinished.value.of == len(PARTS)
    assert f"in {len(PARTS)} codes; still to be read: 2, 4" in str(unfinished.value)


def test_codes_of_two_rigs_are_not_mixed() -> None:
    other = shared(LARGE.changed({"bank.frame_bond": "at one point"})).texts(ADDRESS)
    assert len(other) == len(PARTS) and other[0] != PARTS[0]
    assert "different rigs" in refusal(PARTS[0], *other[1:])
    assert "different rigs" in refusal(PARTS[0], EXAMPLE)
    assert "different rigs" in refusal(packed(LARGE), EXAMPLE)


def test_codes_of_one_rig_that_were_printed_twice_are_not_mixed() -> None:
    other = shared(LARGE).texts()
    assert len(other) != len(shared(LARGE).texts("https://example.org/" + "x" * 200))
    assert "printed twice" in refusal(other[0], shared(LARGE).texts("https://example.org/" + "x" * 200)[1])


def test_every_changed_letter_of_one_of_several_codes_is_noticed() -> None:
    code = PARTS[1].partition("#rig=")[2]
    for place, was in enumerate(code):
        for letter in "019AZ-":
            if letter != was:
                with pytest.raises(DamagedRig) as problem:
                    letters.body_of([code[:place] + letter + code[place + 1 :]])
                assert not isinstance(problem.value, Unfinished)


@pytest.mark.parametrize("head", ["1-0-3-", "1-4-3-", "1-1-1-", "1-1-17-", "1-00-00-"])
def test_a_number_that_cannot_be_is_refused(head: str) -> None:
    assert refusal(letters._sealed(head, b"12345678"))  # noqa: SLF001  (a whole code, though of nobody's making)


def test_a_share_that_does_not_belong_to_the_others_is_refused() -> None:
    one = [letters.part(b"abcdef", number, 2, 3) for number in (1, 2)]
    forged = letters._sealed("1-1-2-", letters._check_sum(b"abcdef") + b"xyz")
    assert "damaged" in refusal(one[1], forged)
    assert "damaged" in refusal(*one, forged)


def test_a_rig_that_is_too_large_leaves_its_plan_behind_and_says_so(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("calc.sharing._MOST_BYTES", len(shared(example_rig()).body) - 1)
    found = shared(example_rig())
    assert found.left_out == ("the plan",)
    kept = {path: fact for path, fact in known(example_rig()).items() if not path.startswith(("plan.", "windows."))}
    assert known(unpacked(found.text)) == kept


def test_a_rig_that_is_too_large_without_it_is_not_shared_so(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("calc.sharing._MOST_BYTES", 100)
    with pytest.raises(TooLarge, match="file"):
        shared(example_rig())


def test_the_largest_rig_by_number_of_things_still_fits() -> None:
    assert not shared(LARGE).left_out


def test_an_address_too_long_for_a_code_is_refused_for_codes_and_not_for_a_link() -> None:
    with pytest.raises(TooLarge, match="address"):
        shared(LARGE).texts("https://example.org/" + "x" * 600)
    assert shared(LARGE).link("https://example.org/" + "x" * 600)


# --- the book ----------------------------------------------------------------------------------------------------------


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
    later = BOOK.read_text(encoding="utf-8") + (
        "bank.colour | choice | red | blue\ncars[].nickname | text\nunits | more | furlong\nbank.chemistry | more | sodium\n"
    )
    monkeypatch.setattr(walk, "book", lambda: read_book(later))
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
    later = BOOK.read_text(encoding="utf-8") + (
        "bank.colour | choice | red | blue\ncars[].nickname | text\nunits | more | furlong\nbank.chemistry | more | sodium\n"
    )
    written = {MARK: VERSION, "name": "", **part}
    with monkeypatch.context() as patched:
        patched.setattr(walk, "book", lambda: read_book(later))
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


# --- from a shell ------------------------------------------------------------------------------------------------------


def test_the_shell_shares_a_rig_and_reads_it_again(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    file = tmp_path / "rig.json"
    file.write_text(json.dumps(document(LARGE)), encoding="utf-8")
    assert main(["share", "--rig", str(file), "--address", ADDRESS, "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    shape = json.loads((ROOT / "docs" / "schemas" / "shared.json").read_text(encoding="utf-8"))
    jsonschema.Draft202012Validator.check_schema(shape)
    jsonschema.Draft202012Validator(shape).validate(told)
    assert told["codes"] == PARTS and told["left_out"] == []
    for texts in ([told["text"]], told["codes"][::-1]):
        assert main(["read-shared", *texts]) == 0
        found = json.loads(capsys.readouterr().out)
        jsonschema.Draft202012Validator(schema()).validate(found)
        assert found == document(LARGE)


def test_the_shell_prints_the_bare_text_first(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["share"]) == 0
    assert capsys.readouterr().out.splitlines() == [EXAMPLE]
    assert main(["share", "--address", ADDRESS]) == 0
    assert capsys.readouterr().out.splitlines()[0] == f"{ADDRESS}#rig={EXAMPLE}"


@pytest.mark.parametrize("words", [["share", "x"], ["read-shared"], ["read-shared", EXAMPLE[:-1]], ["share", "--rig", "none.json"]])
def test_the_shell_refuses_in_words(words: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    assert main(words) == 2
    written = capsys.readouterr()
    assert not written.out and json.loads(written.err)["error"]
