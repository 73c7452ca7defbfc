"""A rig as a text, a link or several codes is that rig again, exactly; what does not fit is named."""

from __future__ import annotations

import json
import random
from pathlib import Path
from typing import Any

import jsonschema
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.__main__ import main
from calc.measurable import MOST_READINGS
from calc.opening import MOST_THINGS
from calc.quantity import Quantity
from calc.rig import DamagedRig, Rig, document, example_rig, read_rig, schema
from calc.sharing import TooLarge, Unfinished, packed, shared, unpacked
from calc.sharing.coder import Reader, Writer
from tests.any_rig import documents, rigs

ROOT = Path(__file__).parent.parent
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
    link = shared(example_rig(), ADDRESS).link
    assert link.startswith(ADDRESS + "#")
    broken = "\n".join(link[at : at + 76] for at in range(0, len(link), 76)) + "\r\n"
    assert known(unpacked(link)) == known(unpacked(broken)) == known(example_rig())


def test_the_text_is_made_of_signs_that_nothing_on_the_way_changes() -> None:
    """RFC 3986, 2.3: unreserved; ISO/IEC 18004, table 5: of the alphanumeric mode; and no sign that ends a sentence."""
    assert set(EXAMPLE) <= set("0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ-") and EXAMPLE[-1].isalnum()


def test_the_example_takes_a_tenth_of_its_document() -> None:
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


# --- several codes ---------------------------------------------------------------------------------------------------


LARGE = large_rig()
PARTS = shared(LARGE, ADDRESS).texts


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
    other = shared(LARGE.changed({"bank.frame_bond": "at one point"}), ADDRESS).texts
    assert len(other) == len(PARTS) and other[0] != PARTS[0]
    assert "different rigs" in refusal(PARTS[0], *other[1:])
    assert "different rigs" in refusal(PARTS[0], EXAMPLE)
    assert "different rigs" in refusal(packed(LARGE), EXAMPLE)


def test_codes_of_one_rig_that_were_printed_twice_are_not_mixed() -> None:
    short, long = shared(LARGE), shared(LARGE, "https://example.org/" + "x" * 200)
    assert short.count != long.count
    assert "printed twice" in refusal(short.texts[0], long.texts[1])


def without(rig: Rig, *groups: str) -> dict[str, object]:
    return {path: fact for path, fact in known(rig).items() if path.split(".")[0] not in groups}


PLAN = ("plan", "windows")


def test_a_rig_that_is_too_large_leaves_its_readings_behind_and_then_its_plan_and_says_so(monkeypatch: pytest.MonkeyPatch) -> None:
    rig = example_rig()
    whole = shared(rig)
    assert whole.left_out == () and known(unpacked(whole.text)) == known(rig)
    monkeypatch.setattr("calc.sharing._MOST_BYTES", len(whole.body) - 1)
    less = shared(rig)
    assert less.left_out == ("the readings",) and known(unpacked(less.text)) == without(rig, "readings")
    monkeypatch.setattr("calc.sharing._MOST_BYTES", len(less.body) - 1)
    least = shared(rig)
    assert least.left_out == ("the readings", "the plan")
    assert known(unpacked(least.text)) == without(rig, "readings", *PLAN)
    monkeypatch.setattr("calc.sharing._MOST_BYTES", len(least.body) - 1)
    with pytest.raises(TooLarge, match="file"):
        shared(rig)


def with_a_long_log(rig: Rig) -> Rig:
    """So many readings that codes without them are fewer."""
    written = document(rig)
    return read_rig(json.dumps(written | {"readings": written["readings"] * 6}))


def test_for_fewer_codes_readings_stay_behind_and_where_that_does_not_help_there_are_more() -> None:
    rig = with_a_long_log(example_rig())
    whole = shared(rig, ADDRESS)
    fewer = shared(rig, ADDRESS, whole.count - 1)
    assert not whole.left_out and fewer.count < whole.count and fewer.left_out[0] == "the readings"
    assert shared(LARGE, ADDRESS, 1) == shared(LARGE, ADDRESS) and shared(LARGE, ADDRESS).count > 1


def test_a_log_of_a_thousand_readings_is_no_reason_not_to_share_a_rig() -> None:
    """Ten years of a careful crew. Its rig is shared, and the log as far as a link goes."""
    written = document(example_rig())
    few = written["readings"]
    written["readings"] = [few[place % len(few)] | {"when": f"20{place // 50 + 10}-05-{place % 28 + 1:02}"} for place in range(MOST_READINGS)]
    rig = read_rig(json.dumps(written))
    assert known(unpacked(packed(rig))) in (known(rig), without(rig, "readings"))
    assert shared(rig, ADDRESS, 4).count <= 4


def test_the_largest_rig_by_number_of_things_still_fits() -> None:
    assert not shared(LARGE).left_out


def test_an_address_too_long_for_a_code_is_refused_for_codes_and_not_for_a_link() -> None:
    long = shared(LARGE, "https://example.org/" + "x" * 600)
    assert known(unpacked(long.link)) == known(LARGE)
    with pytest.raises(TooLarge, match="address"):
        assert long.texts


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


def test_the_shell_prints_the_bare_text_first_and_then_what_each_code_says(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["share"]) == 0
    told = capsys.readouterr().out.splitlines()
    texts = shared(example_rig()).texts
    assert told == [EXAMPLE, "", f"In {len(texts)} codes:", *texts]
    assert main(["share", "--address", ADDRESS]) == 0
    assert capsys.readouterr().out.splitlines()[0] == f"{ADDRESS}#rig={EXAMPLE}"


@pytest.mark.parametrize("words", [["share", "x"], ["read-shared"], ["read-shared", EXAMPLE[:-1]], ["share", "--rig", "none.json"]])
def test_the_shell_refuses_in_words(words: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    assert main(words) == 2
    written = capsys.readouterr()
    assert not written.out and json.loads(written.err)["error"]
