"""What the pages ask to pass a rig on and to take one in, through the door that they ask at."""

from __future__ import annotations

import html
import json
import re
from typing import Any

import pytest

from calc.catalogue import all_checks
from calc.reply import reply
from calc.rig import Rig, document, example_rig, read_rig
from calc.rig_form import parts_of
from calc.sharing import ENOUGH_CODES, shared
from tests.test_sharing import ADDRESS, LARGE, known, with_a_long_log, without


def told(what: str, rig: Rig | None = None, **form: str) -> dict[str, Any]:
    message = {"id": 1, "what": what, "form": form, "rig": json.dumps(document(rig)) if rig else None}
    answer: dict[str, Any] = json.loads(reply(json.dumps(message)))
    return answer


@pytest.mark.parametrize("rig", [example_rig(), LARGE, Rig("", {})], ids=["example", "large", "nothing known"])
def test_a_rig_is_shown_as_codes_and_as_a_link_that_is_read_again(rig: Rig) -> None:
    shown = told("share", rig, address=ADDRESS)["html"]
    assert shown.count("<svg") == shared(rig, ADDRESS, ENOUGH_CODES).count
    (link,) = re.findall(r'href="([^"]+)"', shown)
    taken = told("read", text=html.unescape(link))
    assert known(read_rig(taken["rig"])) == known(rig)


def test_of_several_codes_each_is_read_by_itself_until_all_are_there() -> None:
    texts = shared(LARGE, ADDRESS).texts
    first = told("read", text="\n".join(texts[1:]))
    assert first["unfinished"] and "still to be read: 1." in first["problem"]
    assert known(read_rig(told("read", text="\n".join(texts))["rig"])) == known(LARGE)


def test_what_the_codes_leave_out_is_said_beside_them(monkeypatch: pytest.MonkeyPatch) -> None:
    rig = with_a_long_log(example_rig())
    monkeypatch.setattr("calc.rig_desk.ENOUGH_CODES", shared(rig, ADDRESS).count - 1)
    shown = told("share", rig, address=ADDRESS)["html"]
    assert "the readings" in shown
    (link,) = re.findall(r'href="([^"]+)"', shown)
    assert known(read_rig(told("read", text=link)["rig"])) == known(rig), "the link has room for them"
    assert known(rig) != without(rig, "readings")


def test_what_is_no_code_is_refused_in_words() -> None:
    assert "not the code" in told("read", text="hello")["problem"]


def test_every_part_of_the_rig_that_is_listed_can_be_opened() -> None:
    listed = told("part", example_rig(), part="")["html"]
    keys = re.findall(r'href="\?part=([^"]+)"', listed)
    assert keys == [part.key for part in parts_of(example_rig())]
    for key in keys:
        assert told("part", example_rig(), part=key).get("html"), key


@pytest.mark.parametrize("check", all_checks()[::7], ids=lambda check: check.id)
def test_an_answer_is_shown_as_a_code(check: Any) -> None:
    assert told("proof", check=check.id, address=f"{ADDRESS}{check.id}/")["html"].count("<svg") == 1
