"""Every page as it is built, read without a browser: what its HTML says to a phone, a keyboard and a screen reader.

The rows are those of the page's own conventions: the Web Content Accessibility Guidelines 2.2 (W3C, 2024), the GOV.UK
Design System's guidance on text inputs, error messages and details, and ANSI Z535.4 on signal words as label makers quote it.
"""

from __future__ import annotations

import json
import re
from functools import cache
from pathlib import Path

import pytest
from choices import picks_that_ask
from page_tree import Element, read

from calc import units
from calc.catalogue import all_checks
from calc.check import NEC, RULE_SETS, Ask, Check, Named, Pick
from calc.form import fill
from calc.rendering import Renderer
from calc.reply import reply

ROOT = Path(__file__).resolve().parents[1]
SCRIPTS = sorted((ROOT / "site" / "scripts").glob("*.js"))
SIGNALS = ["DANGER", "WARNING", "CAUTION", "NOTICE"]
BANNED = re.compile(r"\b(please|sorry|invalid|oops|illegal|forbidden|error occurred|must enter)\b", re.IGNORECASE)


RENDERER = Renderer()
ADDRESSES = RENDERER.addresses()
CHECK_ADDRESSES = [f"{check.id}/" for check in all_checks()]
# What a template asks of the assets is their names; the build stamps them.
ASSETS = {path.name: path.name for path in (ROOT / "site").rglob("*") if "node_modules" not in path.parts and path.is_file()}


@cache
def built(address: str) -> Element:
    return read(RENDERER.page(address, ASSETS))


def number_fields(address: str) -> list[tuple[Element, Ask]]:
    check = next(check for check in all_checks() if f"{check.id}/" == address)
    fields = [e for e in built(address).all("input") if e.get("type") == "text"]
    return [(e, spec) for e in fields if isinstance(spec := check.asks[e.get("name")], Ask)]


every_page = pytest.mark.parametrize("address", ADDRESSES)
every_check_page = pytest.mark.parametrize("address", CHECK_ADDRESSES)


# --- all pages ----------------------------------------------------------------------------------------------------


@every_page
def test_ids_are_unique_and_what_is_named_is_there(address: str) -> None:
    page = built(address)
    ids = [e.get("id") for e in page.having("id")]
    assert len(ids) == len(set(ids))
    for name in ("for", "aria-describedby", "aria-labelledby", "data-for"):
        for element in page.having(name):
            assert set(element.get(name).split()) <= set(ids), f"{name} of {element}"
    for link in page.all("a"):
        if link.get("href").startswith("#"):
            assert link.get("href")[1:] in ids


@every_page
def test_a_page_can_be_zoomed_and_turned(address: str) -> None:
    """WCAG 2.2, 1.4.4 (text to 200 %) and 1.3.4 (orientation)."""
    [viewport] = built(address).having("name", "viewport")
    assert viewport.get("content").replace(" ", "") == "width=device-width,initial-scale=1"


def test_no_orientation_is_asked_for_in_the_manifest() -> None:
    """WCAG 2.2, 1.3.4."""
    assert "orientation" not in (ROOT / "site" / "manifest.webmanifest").read_text(encoding="utf-8")


@every_page
def test_every_page_has_one_question_and_the_same_landmarks(address: str) -> None:
    """WCAG 2.2, 3.2.3 and 3.2.6: the same things at the same places."""
    page = built(address)
    assert len(page.all("h1")) == 1
    [body] = page.all("body")
    assert [child.tag for child in body.children if isinstance(child, Element)] == ["header", "main", "footer"]
    assert page.all("html")[0].get("lang") == "en"
    assert page.all("title")[0].text.endswith(" · Barrowatt")


@every_page
def test_nothing_is_asked_of_another_origin_or_written_inline(address: str) -> None:
    page = built(address)
    for name in ("src", "href", "action", "srcset"):
        for element in page.having(name):
            assert not re.match(r"[a-z]+:|//", element.get(name)), element
    assert not page.having("style")
    assert not page.all("style")
    assert all(script.get("src") for script in page.all("script"))


# --- check pages --------------------------------------------------------------------------------------------------


def test_every_check_page_has_its_parts_in_the_same_order() -> None:
    """WCAG 2.2, 3.2.3; our own order: question, verdict, finder, fixes, serious cautions, form, other cautions, working."""
    parts = ["problems", "say", "stale", "echo", "finder", "fixes", "dangers", "form", "cautions", "rests", "trials", "working", "sources"]
    for address in CHECK_ADDRESSES:
        ids = [e.get("id") for e in built(address).having("id")]
        assert [name for name in ids if name in parts] == parts
        fixed = [e.text for e in built(address).all("h2") if not any(a.get("id") in ("fixes", "rests", "trials") for a in e.ancestors())]
        assert fixed == ["Your numbers"]


@every_check_page
def test_a_number_is_a_text_field_whose_keyboard_follows_its_range(address: str) -> None:
    """GOV.UK text input: no type=number; inputmode numeric or decimal; a phone's number pad may have no minus key."""
    page = built(address)
    assert not [e for e in page.all("input") if e.get("type") not in ("text", "radio")]
    assert number_fields(address)
    for element, spec in number_fields(address):
        low = units.usual(spec.unit).from_si(spec.low.si)
        wanted = "" if low < 0 else "numeric" if spec.unit is units.wires else "decimal"
        assert element.get("inputmode") == wanted, spec.label


def test_some_field_takes_a_negative_number_and_so_has_the_whole_keyboard() -> None:
    modes = {e.get("inputmode") for address in CHECK_ADDRESSES for e, _ in number_fields(address)}
    assert {"", "decimal"} <= modes


@every_check_page
def test_the_browser_neither_judges_nor_fills_nor_corrects_a_field(address: str) -> None:
    """GOV.UK validation pattern: novalidate, no required, no maxlength. WCAG 1.3.5; a gauge is no word to correct."""
    page = built(address)
    [form] = page.all("form")
    assert "novalidate" in form.attributes
    assert form.get("autocomplete") == "off", "a browser that restores fields on reload would part them from the answer"
    for name in ("required", "maxlength", "pattern", "placeholder", "min", "max", "autofocus"):
        assert not page.having(name), name
    for element, _ in number_fields(address):
        wanted = {"autocomplete": "off", "spellcheck": "false", "autocapitalize": "off"}
        assert wanted.items() <= element.attributes.items()


@every_check_page
def test_a_label_stands_above_its_field_names_the_unit_and_is_followed_by_a_hint(address: str) -> None:
    """GOV.UK text input: visible label above, one short hint without a full stop or a link, tied to the field."""
    page = built(address)
    for element, spec in number_fields(address):
        [label] = [e for e in page.all("label") if e.get("for") == element.get("id")]
        assert spec.label in label.text
        assert label.text[0] == label.text[0].upper()
        unit = units.usual(spec.unit)
        if spec.unit.sign:
            assert unit.word.removeprefix("in ") in label.text, f"{spec.label}: a suffix is not read out, so the label says it"
        [hint] = page.having("id", element.get("aria-describedby").split()[0])
        assert hint.text
        assert not hint.text.endswith(".")
        assert not hint.all("a")


@every_check_page
def test_a_unit_is_also_seen_after_its_field(address: str) -> None:
    for element, spec in number_fields(address):
        sign = units.usual(spec.unit).sign
        shown = [e.text for e in element.parent.with_class("unit")] if element.parent else []
        assert shown == ([sign] if sign else [])


@every_check_page
def test_every_number_can_be_set_by_buttons_alone(address: str) -> None:
    """The phone's own keyboard is the smallest thing a glove has to hit: a minus and a plus for every number and list."""
    page = built(address)
    for element in [e for e, _ in number_fields(address)] + page.all("select"):
        buttons = page.having("data-for", element.get("name"))
        moves = [float(b.get("data-by") or b.get("data-move")) for b in buttons if "step" in b.get("class").split()]
        assert len(moves) == 2
        assert moves[0] == -moves[1] < 0
        for button in buttons:
            assert button.get("type") == "button"
            assert button.text
    for element, _ in number_fields(address):
        assert float(element.get("data-low")) < float(element.get("data-high"))


@every_check_page
def test_the_verdict_alone_is_spoken(address: str) -> None:
    """WCAG 2.2, 4.1.3 with ARIA's role=status: read whole at each change, so it holds nothing but the verdict's sentence."""
    page = built(address)
    status, *of_sensors = page.having("role", "status")
    assert status.get("id") == "say"
    assert all(said.text == "" for said in of_sensors), "what a phone's own sensor says, once it is asked"
    check = next(check for check in all_checks() if f"{check.id}/" == address)
    word, said = status.text.split(". ", 1)
    assert word[0] in "✓!✕?=" and word[2:] in ("Go", "Tight", "No", "Not known", "Here it is")
    assert said == " ".join(fill(check, {}).answer().say.split())
    assert not page.having("aria-live")
    [sign] = status.with_class("sign")
    assert sign.get("aria-hidden") == "true"


@every_check_page
def test_only_working_and_sources_and_what_is_assumed_are_folded(address: str) -> None:
    """GOV.UK details: some people never open one. Verdict, fixes and cautions are never inside."""
    page = built(address)
    for element in [*page.with_class("caution"), *page.having("role", "status"), *page.with_class("fix")]:
        assert "details" not in [ancestor.tag for ancestor in element.ancestors()]
    for details in page.all("details"):
        assert details.children


@every_check_page
def test_a_caution_says_signal_hazard_consequence_and_what_to_do(address: str) -> None:
    """ANSI Z535.4 (as label makers quote it): DANGER before WARNING before CAUTION before NOTICE; no alert sign with NOTICE."""
    page = built(address)
    check = next(check for check in all_checks() if f"{check.id}/" == address)
    shown = page.with_class("caution")
    applying = fill(check, {}).check.warnings()  # type: ignore[union-attr]
    assert len(shown) == len(applying) > 0
    signals = [e.get("data-signal") for e in shown]
    assert signals == sorted(signals, key=SIGNALS.index)
    for element in shown:
        [word] = element.with_class("signal")
        assert word.text == element.get("data-signal"), "the signal word is text, not a picture"
        assert bool(word.all("svg")) == (word.text != "NOTICE")
        assert all(svg.get("aria-hidden") == "true" for svg in word.all("svg"))
        [caution] = [c for c in applying if c.hazard in element.text]
        assert caution.consequence in element.text and caution.avoid in element.text


@every_page
def test_the_alert_triangle_warns_of_harm_to_people_and_of_nothing_else(address: str) -> None:
    """ISO 3864-1, 4.2 (extract): safety signs serve only the safety and health of people."""
    for sign in [svg for svg in built(address).all("svg") if "alert" in svg.get("class").split()]:
        assert any("caution" in ancestor.get("class").split() for ancestor in sign.ancestors())


@every_check_page
def test_the_finder_lists_what_is_asked_in_the_order_of_the_form(address: str) -> None:
    page = built(address)
    check = next(check for check in all_checks() if f"{check.id}/" == address)
    filled = fill(check, {})
    assert filled.check
    asked = {name: spec.label for name, spec in check.asks.items() if filled.check.asked(name)}
    [finder] = page.having("id", "finder")
    shown = [item for item in finder.all("li") if "hidden" not in item.attributes]
    assert {link.get("href")[1:]: link.text for item in shown for link in item.all("a")} == asked


@every_check_page
def test_a_number_is_printed_as_an_engineer_writes_it(address: str) -> None:
    """SI Brochure, 9th edition, 5.4.3: a space between number and unit, here one that does not break; a true minus sign."""
    page = built(address)
    check = next(check for check in all_checks() if f"{check.id}/" == address)
    # A choice is spelled as the trade spells it: 12 AWG.
    chosen = {option for spec in check.asks.values() if isinstance(spec, Pick) for options in spec.options_by_rules.values() for option in options}
    printed = [e for block in page.with_class("results") for e in block.all("dd")]
    printed += [e for line in page.with_class("line-sum") for e in line.all("b")]
    assert printed
    said = {str(result) for result in fill(check, {}).answer().results.values() if isinstance(result, Named)}
    plain = {" ".join(text.split()) for text in chosen | said}
    for element in [e for e in printed if " ".join(e.text.split()) not in plain]:
        [text] = [child for child in element.children if isinstance(child, str)]
        assert not re.search(r"\d (?![\d×+−])", text), repr(text)
        assert not re.search(r"(?<![\w-])-\d", text), repr(text)


# --- what a person reads when a number cannot be read ----------------------------------------------------------------


def problems_of(check: type[Check], text: str) -> list[tuple[Ask, str]]:
    """What each number field of a check says to the same text."""
    asks = {name: spec for name, spec in check.asks.items() if isinstance(spec, Ask)}
    said = []
    for rules in RULE_SETS:
        for name, spec in ((name, spec) for name, spec in asks.items() if rules in spec.rules):
            typed = picks_that_ask(check, name, rules) | {name: text}
            if problem := fill(check, typed, rules=rules).problems.get(name):
                said.append((spec, problem))
    return said


@pytest.mark.parametrize("text", ["abc", "1,500", "12x", "", "-1e9", "1e9", "..", "½½"])
def test_an_error_begins_with_the_label_and_begs_no_pardon(text: str) -> None:
    """GOV.UK error message: the label's words, what is wanted; no please, sorry, invalid."""
    for check in all_checks():
        said = problems_of(check, text)
        assert said, f"{check.id}: every field reads {text!r}"
        for spec, problem in said:
            assert problem.startswith(spec.label)
            assert problem.endswith(".")
            assert not BANNED.search(problem), problem
            assert len(problem) < 160, problem


@pytest.mark.parametrize("text", ["-1e9", "1e9"])
def test_an_error_of_range_names_both_ends_of_it(text: str) -> None:
    for check in all_checks():
        for spec, problem in problems_of(check, text):
            assert len(re.findall(r"[−\d][\d.,]*", problem.removeprefix(spec.label))) >= 2, problem


def test_the_words_beside_a_field_are_those_of_the_summary() -> None:
    """GOV.UK error summary: the same words, and a link to the field."""
    for check in all_checks():
        name = next(name for name, spec in check.asks.items() if isinstance(spec, Ask))
        question = {"id": 1, "what": "button", "form": {"check": check.id, **picks_that_ask(check, name, NEC), name: "12x"}}
        pieces = read(json.loads(reply(json.dumps(question)))["html"])
        [summary] = pieces.having("data-piece", "problems")
        [link] = summary.all("a")
        [beside] = pieces.having("data-piece", f"{name}-error")
        assert link.get("href") == f"#{name}"
        assert beside.text == f"Error: {link.text}"
        assert summary.all("h2")[0].text == "There is a problem"


# --- the scripts ------------------------------------------------------------------------------------------------------


def test_no_gesture_but_a_tap() -> None:
    """WCAG 2.2, 2.5.1, 2.5.2 and 2.5.7: nothing on pressing, dragging, holding, swiping or hovering."""
    gestures = re.compile(r"pointer(down|move|over|enter)|touch(start|move|end)|mouse(down|move|over|enter)|drag|dblclick|contextmenu|wheel")
    for script in SCRIPTS:
        assert not gestures.search(script.read_text(encoding="utf-8")), script.name
    for address in ADDRESSES:
        assert not [e for e in built(address).all("input") if e.get("type") == "range"]


def test_scripts_write_no_sentences_of_their_own() -> None:
    """What a person reads is written in Python or in a template: a sentence in a script would escape every check of words."""
    sentence = re.compile(r"""textContent\s*=\s*["'`][^"'`]*\w""")
    for script in SCRIPTS:
        assert not sentence.search(script.read_text(encoding="utf-8")), script.name
