"""What axe-core cannot measure: how large things are to a glove, what is left without hue, and what a glance finds."""

from __future__ import annotations

import pytest
from playwright.sync_api import expect

from hands import CHECKS, Visit

pytest_plugins = ("visits",)
SOME = [CHECKS[0], "wire/wire-for-run/", "run/car-distance/", "run/tool-on-outlet/"]

_SMALL = """least => [...document.querySelectorAll('a, button, input:not([type=radio]):not([type=checkbox]), select, summary, label.option')]
  .filter((one) => one.checkVisibility() && !one.closest('p, li:not(:has(> a:only-child))') )
  .map((one) => [one, one.getBoundingClientRect()])
  .filter(([, box]) => box.width > 0 && (box.height < least - 0.5 || box.width < least - 0.5))
  .map(([one, box]) => `${one.outerHTML.slice(0, 80)} ${box.width} x ${box.height}`)"""


@pytest.mark.parametrize("width", [320, 360, 412])
@pytest.mark.parametrize("path", ["", *SOME])
def test_what_is_tapped_is_large_enough_and_nothing_runs_off_the_side(visit: Visit, path: str, width: int) -> None:
    """WCAG 2.2, 2.5.5 and more: 48 px for every target; 1.4.10: no scrolling sideways at 320 px."""
    seen = visit(path)
    seen.page.set_viewport_size({"width": width, "height": 780})
    assert seen.page.evaluate(_SMALL, 48) == []
    assert seen.page.evaluate("() => document.documentElement.scrollWidth <= innerWidth")


@pytest.mark.parametrize("path", SOME)
def test_controls_of_a_form_are_ten_millimetres_high(visit: Visit, path: str) -> None:
    """64 px at the nominal 160 px to the inch is 10.2 mm: a gloved finger."""
    seen = visit(path)
    low = seen.page.evaluate(
        """() => [...document.querySelectorAll('#form .box, #form select, #form .step, #form .option, #form .work')]
             .filter((one) => one.checkVisibility() && one.getBoundingClientRect().height < 63.5).map((one) => one.outerHTML.slice(0, 90))"""
    )
    assert low == []


def test_the_page_is_light_though_the_phone_is_dark_until_the_person_asks_for_night(visit: Visit) -> None:
    """Outdoors only black on white reads; dark is the person's own switch and is remembered."""
    seen = visit(SOME[0])
    seen.page.emulate_media(color_scheme="dark")
    ground = "() => getComputedStyle(document.body).backgroundColor"
    assert seen.page.evaluate(ground) == "rgb(255, 255, 255)"
    seen.tap("Look")
    seen.page.get_by_text("Night").tap()
    assert seen.page.evaluate(ground) != "rgb(255, 255, 255)"
    seen.page.reload()
    expect(seen.page.locator("html")).to_have_attribute("data-look", "night")


def test_text_twice_as_large_still_fits(visit: Visit) -> None:
    """WCAG 2.2, 1.4.4: 200 % text without loss."""
    for path in SOME:
        seen = visit(path)
        seen.page.set_viewport_size({"width": 390, "height": 780})
        seen.page.evaluate("() => (document.documentElement.style.fontSize = '200%')")
        assert seen.page.evaluate("() => document.documentElement.scrollWidth <= innerWidth + 1"), path


def test_word_and_sign_are_left_without_colours(visit: Visit) -> None:
    """WCAG 2.2, 1.4.1: with the system's own few colours the verdict is still said."""
    seen = visit(SOME[1])
    seen.page.emulate_media(forced_colors="active")
    expect(seen.say).to_contain_text("Go.")
    assert seen.page.locator("#say .sign").inner_text().strip()


def test_nothing_listens_for_drags_or_swipes() -> None:
    """WCAG 2.2, 2.5.1 and 2.5.7: taps only."""
    from conftest import ROOT

    for script in (ROOT / "site" / "scripts").glob("*.js"):
        text = script.read_text(encoding="utf-8")
        assert not any(event in text for event in ("pointerdown", "touchstart", "touchmove", "dragstart", "mousedown", "dblclick"))
