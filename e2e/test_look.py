"""Gloves, sun and large text: what is measured on every page, in one visit each, and what a person switches.

T and S are rows of the page's conventions: WCAG 2.2 (W3C, 2024) for target sizes 2.5.5 and 2.5.8, reflow 1.4.10,
text size 1.4.4, text spacing 1.4.12, contrast 1.4.6 and 1.4.11. Gloves ask for more than WCAG: 64 px is 10.2 mm at the
nominal 160 px to the inch.
"""

from __future__ import annotations

import re
from typing import Any

import pytest
from playwright.sync_api import expect

from hands import CHECKS, LOOKS, PAGES, CheckPage, Visit

pytest_plugins = ("visits",)
WIRE, TOOL = "wire/wire-for-run/", "run/tool-on-outlet/"
MM = 25.4 / 160

# What can be tapped and is shown: not the little circle in a label, and not a link in a running sentence.
TARGETS = """() => [...document.querySelectorAll("a, button, input, textarea, select, summary, label.option, .looks label")]
  .filter((one) => one.checkVisibility() && !one.matches("label input") && one.getClientRects().length)
  .map((one) => {
    const { width, height, right } = one.getBoundingClientRect();
    const kind = one.closest("form") && !one.matches("summary, .finder a") ? "form" : "page";
    return { words: (one.getAttribute("aria-label") ?? one.textContent ?? one.name).trim().slice(0, 40) || one.name, kind,
             tag: one.tagName, step: one.matches(".step"), pick: one.matches(".option, .value"), width, height, right };
  })"""

OPEN_ALL = "() => document.querySelectorAll('details').forEach((folded) => (folded.open = true))"
WIDER = "() => document.documentElement.scrollWidth - innerWidth"
# A browser draws its own field for a file.
CLIPPED = """() => [...document.querySelectorAll("body *")].filter((one) => {
    const { overflowX, overflowY } = getComputedStyle(one);
    const hides = /hidden|clip/;
    return one.checkVisibility() && !one.closest(".spoken") && one.type !== "file" && ((hides.test(overflowY) && one.scrollHeight > one.clientHeight + 1)
      || (hides.test(overflowX) && one.scrollWidth > one.clientWidth + 1));
  }).map((one) => one.outerHTML.slice(0, 90))"""
# An input scrolls its text by itself: what a value needs beyond its box is not seen.
CUT_VALUES = """() => [...document.querySelectorAll(".box input")].filter((one) => one.checkVisibility() && one.scrollWidth > one.clientWidth + 1)
  .map((one) => `${one.name}: ${one.value}`)"""
SPACING = """() => {
  for (const one of document.querySelectorAll("body *")) {
    one.style.lineHeight = "1.5"; one.style.letterSpacing = "0.12em"; one.style.wordSpacing = "0.16em";
    if (one.matches("p")) one.style.marginBottom = "2em";
  } }"""
# What stands in a drawing is measured in its own units, and is told beside it in words and tables.
STYLES = """() => [...document.querySelectorAll("body *")].filter((one) => one.checkVisibility() && !one.closest("svg")
    && [...one.childNodes].some((node) => node.nodeType === 3 && node.data.trim())).map((one) => {
      const { color, fontSize, fontWeight } = getComputedStyle(one);
      return { words: one.textContent.trim().slice(0, 40), color, size: parseFloat(fontSize), weight: Number(fontWeight),
               number: one.matches("input, select, b, #say, dd") };
    })"""
FIELDS = """() => [...document.querySelectorAll("form :is(input[type=text], textarea, select, button, .option), .fix, #print, .row")]
  .filter((one) => one.checkVisibility()).map((one) => {
    const { borderTopWidth, borderTopColor, fontSize, borderTopStyle } = getComputedStyle(one);
    return { words: one.name || one.textContent.trim().slice(0, 30), width: parseFloat(borderTopWidth), colour: borderTopColor,
             style: borderTopStyle, text: parseFloat(fontSize) };
  })"""


def luminance(colour: str) -> float:
    shares = [int(part) / 255 for part in re.findall(r"\d+", colour)[:3]]
    red, green, blue = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in shares)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    dark, light = sorted((luminance(one), luminance(other)))
    return (light + 0.05) / (dark + 0.05)


def ground(seen: CheckPage) -> str:
    return str(seen.page.evaluate("() => getComputedStyle(document.body).backgroundColor"))


# --- every page, measured in one visit ----------------------------------------------------------------------------------


@pytest.mark.parametrize("path", PAGES)
def test_every_page_fits_gloves_and_large_text(sight: Visit, path: str) -> None:
    seen = sight(path)
    seen.page.evaluate(OPEN_ALL)
    for width in (320, 360, 412):
        seen.page.set_viewport_size({"width": width, "height": 844})
        expect_targets(seen.page.evaluate(TARGETS), width)
        assert seen.page.evaluate(WIDER) <= 0, width
    for look in LOOKS:
        seen.wear(look)
        expect_readable(seen)
        expect_edges(seen)
    seen.wear("day")
    seen.page.set_viewport_size({"width": 360, "height": 740})
    assert seen.page.evaluate(CUT_VALUES) == []
    seen.page.evaluate(SPACING)
    assert seen.page.evaluate(CLIPPED) == []
    seen.page.set_viewport_size({"width": 320, "height": 740})
    seen.page.evaluate("() => document.querySelectorAll('body *').forEach((one) => one.removeAttribute('style'))")
    seen.page.evaluate("() => (document.documentElement.style.fontSize = '200%')")
    assert seen.page.evaluate(WIDER) <= 0, "text at 200 %, 320 px wide"
    assert seen.page.evaluate(CLIPPED) == []


def expect_targets(targets: list[dict[str, Any]], width: int) -> None:
    """T1: 48 px for all, 64 px high for a form's; T4: choices near 20 mm; a stepper at least 11 mm, 14 where there is room."""
    for target in targets:
        said = f"{target['words']!r} is {target['width'] * MM:.1f} x {target['height'] * MM:.1f} mm at {width} px"
        assert target["height"] >= 47.9 and target["width"] >= 47.9, said
        assert target["right"] <= width + 0.5, said
        if target["kind"] == "form":
            assert target["height"] >= 63.9, said
        if target["pick"]:
            assert target["width"] >= 90, said


def expect_readable(seen: CheckPage) -> None:
    """S1, S2, N12: contrast 7 for all text and 15 for the body; no text under 16 px, the verdict 28, a field 19, numbers not thin."""
    behind = ground(seen)
    assert contrast(seen.page.evaluate("() => getComputedStyle(document.body).color"), behind) >= 15
    for text in seen.page.evaluate(STYLES):
        assert text["size"] >= 15.9, text
        if text["number"]:
            assert text["weight"] >= 500, text
    for field in seen.page.locator("form .box input, form select").all()[:3]:
        assert field.evaluate("one => parseFloat(getComputedStyle(one).fontSize)") >= 19
    if seen.say.count():
        size, weight = seen.say.evaluate("one => [parseFloat(getComputedStyle(one).fontSize), Number(getComputedStyle(one).fontWeight)]")
        assert size >= 28 and weight >= 700


def expect_edges(seen: CheckPage) -> None:
    """S5: 2 px and 4.5:1 round everything that is tapped."""
    behind = ground(seen)
    for edge in seen.page.evaluate(FIELDS):
        if edge["style"] != "none" and edge["width"] > 0:
            assert edge["width"] >= 2, edge
            assert contrast(edge["colour"], behind) >= 4.5, edge


MOVES = """(boxes) => boxes.filter((field) => field.checkVisibility()).filter((field) => {
    const before = field.value;
    const steps = [...document.querySelectorAll(`.step[data-for="${field.name}"]`)];
    return !steps.some((step) => { step.click(); return field.value !== before; });
  }).map((field) => field.name)"""


@pytest.mark.parametrize("path", CHECKS)
def test_every_number_is_moved_without_the_phones_keyboard(sight: Visit, path: str) -> None:
    """T5: its buttons move each number and each list, and no text field is ever entered."""
    seen = sight(path)
    seen.page.evaluate(OPEN_ALL)
    seen.page.evaluate(
        """() => {
          window.entered = [];
          addEventListener("focusin", ({ target }) => target.matches("input[type=text]") && window.entered.push(target.name));
        }"""
    )
    assert seen.page.locator("form :is(.box input, select)").evaluate_all(MOVES) == []
    assert seen.page.evaluate("() => window.entered") == []


# --- what a person switches, turns and sees -----------------------------------------------------------------------------


def test_a_phone_set_to_dark_still_shows_black_on_white(visit: Visit) -> None:
    """S3: outdoors black on white reads longest; dark is the person's own choice."""
    seen = visit(WIRE)
    seen.page.emulate_media(color_scheme="dark")
    assert ground(seen) == "rgb(255, 255, 255)"
    assert seen.page.evaluate("() => getComputedStyle(document.documentElement).colorScheme") != "dark"


def test_the_size_of_the_text_is_chosen_at_the_top_and_remembered(visit: Visit) -> None:
    size = "() => parseFloat(getComputedStyle(document.querySelector('#say')).fontSize)"
    seen = visit(CHECKS[0])
    usual = seen.page.evaluate(size)
    seen.tap("Look")
    seen.page.get_by_label("Largest").check()
    assert seen.page.evaluate(size) == pytest.approx(1.5 * usual)
    seen.page.reload()
    assert seen.page.evaluate(size) == pytest.approx(1.5 * usual)


@pytest.mark.parametrize("look", ["Night", "Sunlight"])
def test_a_look_is_chosen_at_the_top_and_remembered(visit: Visit, look: str) -> None:
    seen = visit(WIRE)
    day = ground(seen)
    seen.tap("Look")
    seen.page.get_by_text(look, exact=True).tap()
    chosen = seen.page.evaluate("() => document.documentElement.dataset.look")
    assert chosen != "day"
    seen.page.reload()
    assert seen.page.evaluate("() => document.documentElement.dataset.look") == chosen
    assert (ground(seen) != day) == (look == "Night")
    other = visit("about/")
    assert other.page.evaluate("() => document.documentElement.dataset.look") == chosen
    other.tap("Look")
    expect(other.page.get_by_role("radio", name=look)).to_be_checked()
    other.page.get_by_text("Day", exact=True).tap()
    assert ground(other) == day


def test_a_night_page_is_dark_from_its_first_paint(visit: Visit) -> None:
    """No white flash in the dark: the look is put on before anything is painted."""
    seen = visit(WIRE)
    seen.page.evaluate("() => localStorage.setItem('look', 'night')")
    seen.page.add_init_script(
        """new PerformanceObserver((list) => {
          for (const { name } of list.getEntries()) if (name === "first-paint") window.firstLook = document.documentElement.dataset.look ?? "none";
        }).observe({ type: "paint", buffered: true })"""
    )
    seen.page.reload()
    seen.page.wait_for_timeout(500)
    look, painted = seen.page.evaluate("() => [performance.getEntriesByType('resource').find(({ name }) => /look-.*js/.test(name))?.renderBlockingStatus, window.firstLook]")
    assert look == "blocking"
    assert painted == "night"


def test_the_verdict_does_not_hang_on_its_colour(visit: Visit) -> None:
    """S4: with all hues gone, and with the system's own few colours, word, sign and edge stay."""
    seen = visit("roll/backing/")
    debugger = seen.page.context.new_cdp_session(seen.page)
    debugger.send("Emulation.setEmulatedVisionDeficiency", {"type": "achromatopsia"})
    expect_word_and_sign(seen)
    debugger.send("Emulation.setEmulatedVisionDeficiency", {"type": "none"})
    seen.page.emulate_media(forced_colors="active")
    expect_word_and_sign(seen)
    styles = {seen.page.evaluate("word => { say.dataset.verdict = word; return getComputedStyle(say).borderLeftStyle }", word) for word in ("go", "no", "not known")}
    assert len(styles) == 3, "also the edge tells them apart without a hue"


def expect_word_and_sign(seen: CheckPage) -> None:
    expect(seen.say.locator("strong")).to_have_text("No.")
    expect(seen.say.locator(".sign")).to_be_visible()
    edge = seen.say.evaluate("say => parseFloat(getComputedStyle(say).borderLeftWidth)")
    assert edge >= 12


def test_the_page_may_be_turned_while_asking(visit: Visit) -> None:
    """T8: what was typed and answered stays, and it fits."""
    seen = visit(WIRE)
    seen.tell("Length of the run, one way", "400")
    seen.expect_verdict("no")
    seen.page.set_viewport_size({"width": 844, "height": 390})
    seen.expect_verdict("no")
    expect(seen.field("Length of the run, one way")).to_have_value("400")
    assert seen.page.evaluate(WIDER) <= 0


def test_nothing_sticks_over_a_field(visit: Visit) -> None:
    """T8, WCAG 2.2, 2.4.11."""
    seen = visit(WIRE)
    stuck = seen.page.evaluate(
        "() => [...document.querySelectorAll('body *')].filter((one) => /fixed|sticky/.test(getComputedStyle(one).position)).map((one) => one.outerHTML.slice(0, 80))"
    )
    assert stuck == []


def test_nothing_moves_for_who_wants_no_motion(visit: Visit) -> None:
    """O7, WCAG 2.2, 2.2.2."""
    seen = visit(WIRE)
    seen.page.emulate_media(reduced_motion="reduce")
    seen.tell("Length of the run, one way", "400")
    assert seen.page.evaluate("() => document.getAnimations().length") == 0
