"""A whole check by the keyboard alone, and where the focus is meanwhile.

WCAG 2.2 (W3C, 2024): 2.1.1 keyboard, 2.4.3 focus order, 2.4.7 and 2.4.13 focus seen, 2.4.11 focus not covered.
"""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import expect

from hands import LOOKS, CheckPage, Visit

pytest_plugins = ("visits",)
WIRE, TOOL = "wire/wire-for-run/", "run/tool-on-outlet/"
FOCUSED = """() => {
  const one = document.activeElement;
  const { top, bottom, left, right, width, height } = one.getBoundingClientRect();
  const style = getComputedStyle(one);
  const inside = document.elementFromPoint(left + width / 2, Math.max(top, 0) + Math.min(height, innerHeight) / 2);
  return { name: one.name || one.id || one.textContent.trim().slice(0, 30), tag: one.tagName, type: one.type ?? "",
           seen: bottom > 0 && top < innerHeight && right > 0 && left < innerWidth,
           topmost: one.contains(inside) || inside?.contains(one), outline: parseFloat(style.outlineWidth), line: style.outlineStyle,
           colour: style.outlineColor, ground: getComputedStyle(document.body).backgroundColor, inner: style.boxShadow };
}"""


def press_until(seen: CheckPage, name: str, key: str = "Tab", limit: int = 150) -> None:
    """On with the key until the focus is on what has this name."""
    for _ in range(limit):
        seen.page.keyboard.press(key)
        if seen.page.evaluate(FOCUSED)["name"] == name:
            return
    raise AssertionError(f"{limit} times {key}, and {name} was never reached")


def test_a_whole_check_by_the_keyboard(visit: Visit) -> None:
    seen = visit(WIRE)
    press_until(seen, "run_length")
    seen.page.keyboard.press("Control+a")
    seen.page.keyboard.type("400")
    seen.expect_verdict("no")
    press_until(seen, "size")
    seen.page.keyboard.press("ArrowDown")
    seen.expect_fresh()
    press_until(seen, "Work it out")
    seen.page.keyboard.press("Enter")
    expect(seen.say).to_be_focused()
    seen.expect_verdict("no")

    fix = seen.page.locator("#fixes a").first
    words = fix.inner_text()
    press_until(seen, words.strip()[:30])
    seen.page.keyboard.press("Enter")
    expect(seen.say).to_have_attribute("data-verdict", re.compile("go|tight"))
    expect(seen.say).to_be_focused()

    press_until(seen, "Show the working, line by line")
    seen.page.keyboard.press("Enter")
    expect(seen.page.locator("#working .line").first).to_be_visible()


def test_enter_in_a_field_works_it_out(visit: Visit) -> None:
    seen = visit(WIRE)
    press_until(seen, "run_length")
    seen.page.keyboard.press("Control+a")
    seen.page.keyboard.type("12x")
    seen.page.keyboard.press("Enter")
    expect(seen.problems).to_be_focused()
    seen.page.keyboard.press("Tab")
    seen.page.keyboard.press("Enter")
    expect(seen.page.locator("#run_length")).to_be_focused()


def test_switching_units_leaves_the_focus_on_the_switch(visit: Visit) -> None:
    """The form is written anew; the person stays where they were, and what was unfolded stays so."""
    seen = visit(WIRE)
    folded = seen.page.locator("details.assumed")
    folded.locator("summary").focus()
    seen.page.keyboard.press("Enter")
    press_until(seen, "units")
    seen.page.keyboard.press("ArrowDown")
    expect(seen.page.locator("label[for=run_length]")).to_have_text(re.compile("in metres$"))
    expect(seen.page.locator("[name=units][value=metric]")).to_be_focused()
    expect(folded).to_have_attribute("open", "")


def test_the_focus_goes_through_the_page_from_top_to_bottom_and_is_always_seen(visit: Visit) -> None:
    """Every stop has a ring of 4 px, is in view and is covered by nothing."""
    seen = visit(TOOL)
    stops = []
    for _ in range(200):
        seen.page.keyboard.press("Tab")
        stop = seen.page.evaluate(FOCUSED)
        if stop["tag"] == "BODY":
            break
        assert stop["seen"] and stop["topmost"], stop
        assert stop["line"] == "solid" and stop["outline"] >= 4, stop
        stops.append(stop["name"])
    order = [stops.index(name) for name in ("Barrowatt", "Find a number to change", "plate_amps", "Work it out", "Show the working, line by line")]
    assert order == sorted(order)


@pytest.mark.parametrize("look", LOOKS)
def test_the_ring_has_two_colours_that_differ(visit: Visit, look: str) -> None:
    seen = visit(WIRE)
    seen.wear(look)
    press_until(seen, "run_length")
    ring = seen.page.evaluate(FOCUSED)
    assert ring["colour"] != ring["ground"]
    inner = re.search(r"rgb\([^)]*\)", ring["inner"])
    assert inner and inner[0] != ring["colour"]


def test_a_choice_of_few_is_moved_by_arrows(visit: Visit) -> None:
    seen = visit(TOOL)
    press_until(seen, "plate")
    seen.page.keyboard.press("ArrowDown")
    expect(seen.page.locator("#plate_watts")).to_be_visible()
    expect(seen.page.locator("#plate_amps")).to_be_hidden()
    seen.expect_fresh()
