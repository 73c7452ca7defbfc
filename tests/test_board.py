"""The board that answers again only what has changed shows what a board answered afresh would."""

from __future__ import annotations

import json
import re
from collections.abc import Iterable

import pytest

from calc import units
from calc.board import LiveBoard, Row, board
from calc.editing import added, removed, rig_of, text_of, with_fact
from calc.quantity import Quantity
from calc.readings import Reading, noted
from calc.rendering import Renderer
from calc.reply import reply
from calc.rig import Rig, example_rig
from calc.rig_form import NOW_SHOWN
from calc.units import mohm

PANEL = {"charge": ("22", "81"), "cells": ("41 °F", "90 °F"), "air": ("20 °F", "104 °F"), "running": ("0", "1500")}
ELSEWHERE = {"bank.resistance": "31", "bank.strings": "1", "inlet.breaker": "20", "place.altitude": "9000 ft", "loads.0.hours": "3", "name": "Another"}


def shown(rows: Iterable[Row]) -> list[tuple[object, ...]]:
    """All that can be seen of a board's rows."""
    told = []
    for row in rows:
        results = [value.si if isinstance(value, Quantity) else value.text for value in row.answer.results.values()]
        told.append((row.key, row.subject, row.answer.verdict, row.answer.say, results, row.answer.missing))
    return told


CHANGES = [(f"now.{name}", text) for name, texts in PANEL.items() for text in texts] + [*ELSEWHERE.items()]


def test_the_panel_holds_the_facts_that_are_changed_here() -> None:
    assert set(PANEL) <= set(NOW_SHOWN)


@pytest.mark.parametrize("rules", ["nec", "iec"])
def test_one_change_after_another_shows_what_a_fresh_board_shows(rules: str) -> None:
    live, rig = LiveBoard(), example_rig()
    assert shown(live.rows(rig, rules)) == shown(board(rig, rules))
    for path, text in CHANGES:
        rig = with_fact(rig, path, text)
        assert shown(live.rows(rig, rules)) == shown(board(rig, rules)), f"{path} = {text}"


def test_a_fact_that_is_forgotten_and_things_that_come_and_go_show_what_a_fresh_board_shows() -> None:
    live, rig = LiveBoard(), example_rig()
    live.rows(rig, "nec")
    forgotten = with_fact(rig, "now.charge", "")
    more = added(rig, "loads")
    for changed in (forgotten, rig, more, removed(more, "cars", 0), _read(rig), Rig("Bare", {})):
        assert shown(live.rows(changed, "nec")) == shown(board(changed, "nec"))


def _read(rig: Rig) -> Rig:
    return noted(rig, Reading("bank resistance", 18 * mohm, "2026-05-17"))


def test_other_people_and_other_rules_show_what_a_fresh_board_shows() -> None:
    live, rig = LiveBoard(), example_rig()
    live.rows(rig, "nec")
    assert shown(live.rows(rig, "iec")) == shown(board(rig, "iec"))
    with units.shown_to(units.METRIC):
        assert shown(live.rows(rig, "iec")) == shown(board(rig, "iec"))
    assert shown(live.rows(None, "iec")) == shown(board(None, "iec"))


def test_a_row_whose_facts_stand_is_not_worked_again() -> None:
    live, rig = LiveBoard(), example_rig()
    before = {row.key: row for row in live.rows(rig, "nec")}
    after = {row.key: row for row in live.rows(with_fact(rig, "now.charge", "33"), "nec")}
    assert before.keys() == after.keys()
    anew = {key for key in after if after[key] is not before[key]}
    assert ("refill/hours-to-full", 0) in anew and len(anew) < len(after) / 4


# --- what a page is told that shows a board already ------------------------------------------------------------------


class Page:
    """A page as the browser keeps it: each piece stands where its name says."""

    def __init__(self) -> None:
        self.form = {"root": "./", "whose": "own"}
        self.rig, self.number, self.shows = text_of(example_rig()), 0, ""
        self.rows: dict[str, list[str]] = {}
        self.html: dict[str, str] = {}
        self.said = ""

    def change(self, path: str, text: str, lost: bool = False) -> None:
        self.number += 1
        form = self.form | {"shows": self.shows, "asks": str(self.number), "path": path, "text": text, "then": "board"}
        answer = json.loads(reply(json.dumps({"id": 1, "what": "fact", "form": form, "rig": self.rig})))
        self.rig, self.said = answer["rig"], answer["html"]
        if not lost:
            self.place(answer["html"])
            self.shows = str(self.number)

    def place(self, html: str) -> None:
        if '<div data-piece="rows">' in html:
            self.rows.clear()
        for chapter, inside in re.findall(r'<ul (?:class="rows" id|data-piece)="(rows-[\w-]+)">(.*?)</ul>', html, re.S):
            rows = re.findall(r'<li id="([\w-]+)" data-verdict="[\w ]+">(.*?)</li>', inside, re.S)
            self.rows[chapter] = [key for key, _ in rows]
            self.html |= dict(rows)
        self.html |= dict(re.findall(r'<div data-piece="(row-[\w-]+)" data-verdict="[\w ]+">(.*?)</div>', html, re.S))

    def shown(self) -> list[tuple[str, str]]:
        return [(key, self.html[key]) for keys in self.rows.values() for key in keys]


def fresh(rig: str) -> list[tuple[str, str]]:
    page = Page()
    page.place(Renderer().board_pieces(board(rig_of(rig)), rig_of(rig), "own", "./"))
    return page.shown()


def test_a_page_that_is_told_only_what_changes_shows_what_it_would_show_afresh() -> None:
    page, sizes = Page(), []
    for path, text in CHANGES[:-1]:
        page.change(path, text)
        assert page.shown() == fresh(page.rig), f"{path} = {text}"
        sizes.append(len(page.said))
    assert min(sizes) < max(sizes) / 5, "most of it is not told again"


def test_a_page_that_has_lost_an_answer_is_told_all() -> None:
    page = Page()
    page.change("now.charge", "33")
    page.change("now.charge", "44", lost=True)
    page.change("now.charge", "55")
    assert '<div data-piece="rows">' in page.said and page.shown() == fresh(page.rig)
