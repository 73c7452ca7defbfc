"""What is damaged, cut short, foreign or made to do harm is refused in a sentence, and nothing of it kept."""

from __future__ import annotations

import json
import time
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.opening import MARK, MOST_THINGS, VERSION
from calc.rig import DamagedRig, Rig, document, read_rig
from calc.sharing import Unfinished, letters, packed, unpacked, walk
from calc.sharing.coder import Endless, Reader
from tests.any_rig import rigs
from tests.test_sharing import EXAMPLE, PARTS, known, refusal


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


def test_more_things_than_a_rig_holds_are_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    crowd = {MARK: VERSION, "name": "", "cars": [{"name": "van"}] * (MOST_THINGS + 1)}
    assert f"can hold {MOST_THINGS}" in refusal(letters.whole(walk.as_bytes(crowd)))
    crowd["cars"] *= 100
    with pytest.raises(Endless):
        walk.as_bytes(crowd)
    monkeypatch.setattr(walk, "_MOST", 10**6)
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
