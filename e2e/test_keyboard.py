"""A check from end to end with a keyboard alone."""

from __future__ import annotations

from hands import Visit

pytest_plugins = ("visits",)


def test_a_whole_check_with_the_keyboard_alone(visit: Visit) -> None:
    """WCAG 2.2, 2.1.1, 2.4.3, 2.4.7: every control is reached, seen where it is, and worked."""
    seen = visit("wire/wire-for-run/")
    page = seen.page
    for _ in range(120):
        page.keyboard.press("Tab")
        if page.evaluate("() => document.activeElement.id") == "run_length":
            break
    assert page.evaluate("() => document.activeElement.id") == "run_length"
    assert page.evaluate("() => parseFloat(getComputedStyle(document.activeElement).outlineWidth) >= 2 || parseFloat(getComputedStyle(document.activeElement.closest('.box')).outlineWidth) >= 2")
    page.keyboard.press("Control+A")
    page.keyboard.type("300")
    page.keyboard.press("Enter")
    page.locator("#say:focus").wait_for()
    seen.expect_verdict("no", "of the volts are lost")
    for _ in range(12):
        page.keyboard.press("Tab")
        if page.evaluate("() => document.activeElement.classList.contains('fix')"):
            break
    page.keyboard.press("Enter")
    page.locator("#say:focus").wait_for()
    assert page.locator("#say").get_attribute("data-verdict") in ("go", "tight")


def test_focus_is_never_hidden_behind_something(visit: Visit) -> None:
    """WCAG 2.2, 2.4.11."""
    seen = visit("run/car-distance/")
    for _ in range(40):
        seen.page.keyboard.press("Tab")
        assert seen.page.evaluate(
            """() => { const box = document.activeElement.getBoundingClientRect();
                 return box.width === 0 || (box.bottom > 0 && box.top < innerHeight); }"""
        )
