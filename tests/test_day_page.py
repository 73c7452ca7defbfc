"""The day's page and its curve: what the drawing shows is what was worked, and it needs neither colour nor sight."""

from __future__ import annotations

import re
from pathlib import Path
from xml.etree import ElementTree

import pytest
from page_tree import Element, read
from test_day import RIGS, day, rig

from calc.day import QUESTION, day_of
from calc.drawing.day_curve import curve
from calc.editing import with_fact
from calc.planning.sun_by_clock import KINDS
from calc.reading import Unreadable
from calc.rendering import Renderer
from calc.rig import Rig, example_rig

ROOT = Path(__file__).resolve().parents[1]
ASSETS = {path.name: path.name for path in (ROOT / "site").rglob("*") if "node_modules" not in path.parts and path.is_file()}
RENDERER = Renderer()
PAGE: Element = read(RENDERER.page("day/", ASSETS))


def drawn(text: str) -> ElementTree.Element:
    return ElementTree.fromstring(text)


def shapes(svg: ElementTree.Element, kind: str) -> list[ElementTree.Element]:
    return [element for element in svg.iter() if element.get("class") == kind]


def test_the_page_is_built_with_the_examples_day_worked_and_the_home_page_leads_to_it() -> None:
    assert "day/" in RENDERER.addresses()
    assert [e.text for e in PAGE.all("h1")] == [QUESTION]
    [say] = PAGE.having("id", "say")
    assert " ".join(day_of().answer.say.split()) in say.text and say.get("data-verdict") == day_of().answer.verdict
    assert [a for a in read(RENDERER.page("", ASSETS)).all("a") if a.get("href") == "./day/"]


def test_the_pieces_are_those_of_the_page() -> None:
    """What a browser puts in place of a piece is what the page was built with, byte for byte but for blank ends."""
    page, pieces = RENDERER.page("day/", ASSETS), RENDERER.day_pieces(day_of())
    found = re.findall(r'<div data-piece="([a-z]+)"[^>]*>(.*?)</div>(?=\n<div data-piece|\n?$)', pieces, re.S)
    assert [name for name, _ in found] == ["say", "whose", "drawing", "carriers", "moments", "plan", "rests", "hours", "working", "sources"]
    for name, html in found:
        assert f'id="{name}"' in page and html.strip() in page, name


def test_the_curve_goes_through_the_charges_that_were_worked() -> None:
    svg, found = drawn(curve(day_of())), day_of()
    for kind in KINDS:
        [line] = [shape for shape in shapes(svg, kind) if shape.tag.endswith("polyline")]
        points = [tuple(map(float, point.split(","))) for point in line.attrib["points"].split()]
        charges = found.runs[kind].bank.charges[::2]
        assert len(points) == len(charges) == 217
        assert [(158 - y) / 150 for _, y in points] == pytest.approx(charges, abs=0.0004)
        assert [x for x, _ in points] == pytest.approx([46 + 308 * index / 216 for index in range(217)], abs=0.06)


def test_the_windows_stand_at_their_times() -> None:
    """Nine to noon from a plan that begins at six: 3 to 6 of 72 hours; the lights reach past midnight."""
    svg = drawn(curve(day(rig())))
    spans = sorted((float(r.attrib["x"]), float(r.attrib["width"])) for r in shapes(svg, "load"))
    assert spans[0] == pytest.approx((46 + 308 * 3 / 72, 308 * 3 / 72), abs=0.06)
    assert len(spans) == 10 and len(shapes(svg, "car")) == len(shapes(svg, "wall")) == 1


def test_nothing_is_told_by_hue_and_all_of_it_in_words() -> None:
    """WCAG 2.2, 1.1.1 and 1.4.1: a name for who cannot see it; told apart by dashes, weight and filling; no styles."""
    svg = drawn(curve(day_of()))
    assert svg.get("role") == "img" and "lowest" in svg.attrib["aria-label"] and svg.get("style") is None
    assert not [e for e in svg.iter() if e.get("style") or e.get("fill") or e.get("stroke")]
    look = (ROOT / "site/styles/look.css").read_text(encoding="utf-8")
    rules = [re.search(rf"\.day-curve \.{kind} {{(.*?)}}", look) for kind in (*KINDS, "floor")]
    assert len({rule[1] for rule in rules if rule}) == 4
    assert not re.search(r"\.day-curve[^}]*#[0-9a-f]{3}", look)
    words = [e.text for e in svg.iter() if e.tag.endswith("text")]
    assert {"poor", "typical", "good", "kept back", "Sun", "Loads", "Cars", "Outlet", "0 %", "100 %"} <= set(words)


def test_a_table_stands_behind_the_curve() -> None:
    [table] = PAGE.with_class("hours")
    rows = table.all("tr")
    assert len(rows) == 37 and [len(row.all("td")) for row in rows[1:]] == [6] * 36
    assert all(cell.get("scope") for cell in table.all("th"))
    first = [cell.text for cell in rows[1].all("td")]
    assert first[:3] == ["90 %"] * 3


def test_a_bank_that_runs_out_is_marked_and_one_that_does_not_is_not() -> None:
    empty = drawn(curve(day(RIGS["the mill all day"])))
    assert shapes(empty, "empty") and not shapes(drawn(curve(day(RIGS["nothing runs"]))), "empty")


def test_a_day_that_is_not_known_says_what_is_missing_and_draws_nothing() -> None:
    page = read(RENDERER.day_pieces(day(Rig("", {}))))
    [drawing] = page.having("data-piece", "drawing")
    [carriers] = page.having("data-piece", "carriers")
    assert drawing.text == "" and "What is missing" in carriers.text and "Charge left now" in carriers.text


def test_what_a_person_typed_becomes_no_markup() -> None:
    nasty = example_rig().changed({"windows.0.name": "<b>mill</b>", "loads.0.name": "<i>saw</i>", "windows.0.load": "<i>saw</i>"})
    pieces = RENDERER.day_pieces(day(nasty))
    assert "<b>mill" not in pieces and "<i>saw" not in pieces and "&lt;b&gt;mill" in pieces


def test_a_window_is_changed_as_it_is_typed_and_the_day_answers_anew() -> None:
    later = with_fact(example_rig(), "windows.0.begins", "9:30")
    assert later.facts["windows.0.begins"] == "09:30"
    assert day(later).runs["poor"].spare != day_of().runs["poor"].spare
    for text in ("25:00", "half past nine", "9.30"):
        with pytest.raises(Unreadable, match="written like 07:30"):
            with_fact(example_rig(), "windows.0.begins", text)
    more = with_fact(rig(), "bank.capacity", "130 Ah")
    assert (day(rig()).answer.verdict, day(more).answer.verdict) == ("tight", "go")
