"""axe-core on every page, in every look, before an answer, with errors and after an answer: nothing found.

axe-core is the general-purpose checker of the W3C's Web Content Accessibility Guidelines. Its rule for contrast at
level AAA is switched on in place of the one at level AA. What it cannot measure is in test_look.py.
"""

from __future__ import annotations

import pytest

from hands import CHECKS, LOOKS, CheckPage, Visit

pytest_plugins = ("visits",)
THROUGH_ALL = (CHECKS[0], "wire/wire-for-run/", "run/tool-on-outlet/", "roll/backing/")
CONTRAST = "color-contrast-enhanced"
EVERYTHING = {"rules": {CONTRAST: {"enabled": True}, "color-contrast": {"enabled": False}}}


def expect_nothing_found(seen: CheckPage, looks: tuple[str, ...] = LOOKS) -> None:
    """Everything in the first of the looks; in the others only what changes with a look, the contrast."""
    seen.page.evaluate("() => document.querySelectorAll('details').forEach((folded) => (folded.open = true))")
    for look in looks:
        seen.wear(look)
        assert seen.axe(**EVERYTHING if look == looks[0] else {"runOnly": [CONTRAST]}) == [], look


@pytest.mark.parametrize("path", ["", "about/", "walk-round/"])
def test_a_page_without_a_form(visit: Visit, path: str) -> None:
    expect_nothing_found(visit(path))


@pytest.mark.parametrize("path", CHECKS)
def test_a_check_as_it_comes(sight: Visit, path: str) -> None:
    expect_nothing_found(sight(path), LOOKS[:1])


@pytest.mark.parametrize("path", THROUGH_ALL)
def test_a_check_in_every_look_with_an_error_and_answered(visit: Visit, path: str) -> None:
    """One stylesheet and one template serve all: the other looks and states are gone through on a few pages."""
    seen = visit(path)
    expect_nothing_found(seen)
    looks = LOOKS if path == CHECKS[0] else LOOKS[:1]
    numbers = seen.page.locator("#fields .ask:not([hidden]) .box input")
    if numbers.count():
        typed = numbers.first.input_value()
        numbers.first.fill("12x")
        seen.work_out()
        seen.problems.get_by_role("link").first.wait_for()
        expect_nothing_found(seen, looks)
        numbers.first.fill(typed)
    seen.work_out()
    seen.page.locator("#say:focus").wait_for()
    seen.expect_fresh()
    expect_nothing_found(seen, looks)


def test_axe_itself_is_listening(visit: Visit) -> None:
    """A grey that is too light is found, so an empty list means something."""
    seen = visit()
    seen.page.locator(".lead").evaluate("lead => (lead.style.color = '#666')")
    assert any(found.startswith(CONTRAST) for found in seen.axe(**EVERYTHING))
