"""From what was typed to a filled check: a field that is not asked has no say, whatever stands in it."""

from __future__ import annotations

import json

import pytest

from calc.catalogue import all_checks, check_called
from calc.check import RULE_SETS, Check
from calc.form import fill
from calc.reply import reply

UNREADABLE = "12 x 12"
every_check = pytest.mark.parametrize("check", all_checks(), ids=lambda check: check.id)


@every_check
@pytest.mark.parametrize("rules", RULE_SETS)
def test_unreadable_text_in_a_field_that_is_not_asked_changes_nothing(check: type[Check], rules: str) -> None:
    """A shared link carries every field; one that another choice put away may hold anything."""
    plain = fill(check, {}, rules=rules)
    assert plain.check
    put_away = {name: UNREADABLE for name in check.asks if not plain.check.asked(name)}
    spoilt = fill(check, put_away, rules=rules)
    assert not spoilt.problems
    assert spoilt.answer().say == plain.answer().say and spoilt.answer().verdict == plain.answer().verdict


@every_check
def test_unreadable_text_in_a_field_that_is_asked_is_named(check: type[Check]) -> None:
    plain = fill(check, {})
    assert plain.check
    for name in check.asks:
        if plain.check.asked(name):
            assert name in fill(check, {name: UNREADABLE}).problems


def test_a_field_is_heard_again_once_it_is_asked() -> None:
    tool = check_called("run/tool-on-outlet")
    assert not fill(tool, {"plate_watts": "far"}).problems
    assert fill(tool, {"plate_watts": "far", "plate": "watts"}).problems.keys() == {"plate_watts"}


def test_a_page_answers_though_a_field_that_was_put_away_is_unreadable() -> None:
    form = {"check": "run/tool-on-outlet", "plate": "amps", "plate_watts": "far"}
    html = json.loads(reply(json.dumps({"id": 1, "what": "button", "form": form})))["html"]
    assert 'data-piece="say"' in html
