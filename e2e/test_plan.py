"""The plan changed on the day's own page: under a thumb, kept in one's rig, and foretold anew at once."""

from __future__ import annotations

import re

from playwright.sync_api import Page, expect

from hands import CheckPage, Visit

pytest_plugins = ("visits",)
DAY = "day/"


def foretold(page: Page) -> str:
    expect(page.locator("#stale")).to_be_hidden(timeout=60_000)
    expect(page.locator("html")).not_to_have_class(re.compile("out-of-date"))
    return page.locator("#say").inner_text() + page.locator("#hours").inner_text()


def way(page: Page, words: str) -> None:
    page.locator("#ways").get_by_role("link", name=words).tap()


def test_a_window_is_changed_on_the_page_and_the_curve_follows(visit: Visit) -> None:
    """The example, for as long as the page is open: what is changed is said to be kept nowhere."""
    seen = visit(DAY)
    before = foretold(seen.page)
    way(seen.page, "When loads run")
    seen.page.locator("#part .row").first.tap()
    seen.page.get_by_label("Begins").fill("05:00")
    seen.page.get_by_label("Begins").blur()
    expect(seen.page.locator("#rig-done")).to_contain_text("This is the example")
    expect(seen.page.locator("#plan")).to_contain_text("05:00")
    assert foretold(seen.page) != before
    assert seen.axe() == []
    seen.page.locator("#part .way").tap()
    seen.page.get_by_role("link", name="Back: the plan").tap()
    expect(seen.page.locator("#part")).to_be_empty()


def test_in_ones_own_rig_it_is_kept_and_may_be_undone(visit: Visit) -> None:
    page = visit("start/").page
    page.get_by_role("button", name="Or begin with a copy of the example").tap()
    expect(page.locator("#whose")).to_contain_text("facts, other rigs", timeout=60_000)
    seen = visit(DAY)
    before = foretold(seen.page)
    way(seen.page, "Charge and cells")
    seen.field("Charge left now").fill("21")
    seen.field("Charge left now").blur()
    expect(seen.page.locator("#rig-done")).to_contain_text("Kept in your rig")
    changed = foretold(seen.page)
    assert changed != before
    seen.page.reload()
    expect(seen.field("Charge left now")).to_have_value("21")
    assert foretold(seen.page) == changed, "it is a fact of the rig now"
    way(seen.page, "When loads run")
    seen.page.get_by_role("button", name="Add one more time").tap()
    expect(seen.page.get_by_label("Begins")).to_be_visible()
    seen.page.locator("#rig-undo").tap()
    expect(seen.page.locator("#rig-done")).to_have_text("Undone.")
    assert foretold(seen.page) == changed


def test_the_ways_are_as_large_as_a_thumb_and_are_not_there_without_a_script(visit: Visit, without_scripts: Page) -> None:
    seen = visit(DAY)
    links = seen.page.locator("#ways a")
    assert links.count() == 4
    assert all(box["height"] >= 60 for box in (link.bounding_box() for link in links.all()) if box)
    without_scripts.goto(without_scripts.url + DAY)
    expect(without_scripts.locator("#ways")).to_be_hidden()


def test_the_parts_of_a_rig_still_open_and_undo_on_their_own_page(visit: Visit) -> None:
    page = visit("start/").page
    page.get_by_role("button", name="Or begin with a copy of the example").tap()
    expect(page.locator("#whose")).to_contain_text("facts, other rigs", timeout=60_000)
    seen: CheckPage = visit("rig/?part=loads.0")
    name = seen.page.locator("#part h2").inner_text()
    seen.page.get_by_role("button", name="Remove this load").tap()
    expect(seen.page.locator("#part .done")).to_contain_text("Removed")
    expect(seen.page.locator("#part .rows")).not_to_contain_text(name)
    seen.page.locator("#part [data-undo]").tap()
    expect(seen.page.locator("#rig-done")).to_have_text("Undone.")
    expect(seen.page.locator("#part .rows")).to_contain_text(name)
    seen.page.get_by_role("link", name="Back: all parts").tap()
    expect(seen.page.get_by_role("heading", name="Its parts")).to_be_visible()
