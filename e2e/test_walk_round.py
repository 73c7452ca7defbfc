"""The walk-round as it comes, on the screen and on paper: two sheets that hold every fault and what clears it."""

from __future__ import annotations

import pytest
from test_paper import printed, shown, squeezed

from hands import Visit

pytest_plugins = ("visits",)
WALK_ROUND = "walk-round/"


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_a_walk_round_takes_two_sheets_and_leaves_nothing_out(visit: Visit, paper: str) -> None:
    seen = visit(WALK_ROUND)
    sheets = printed(seen.page, paper)
    assert len(sheets) <= 2
    text = squeezed(" ".join(sheets))
    for selector in ("h1", "#say", ".whose", "#walk-round h2", ".finding h3", ".finding > p", ".caution p", ".fix", ".found b", ".found-say", ".unknown li", ".note", "footer p"):
        said = shown(seen, selector)
        assert said, selector
        for words in said:
            assert squeezed(words) in text, f"{selector}: {words.strip()}"
    assert squeezed("Printed") in text and squeezed("Open the question") not in text


def test_a_fault_is_never_split_between_sheets(visit: Visit) -> None:
    seen = visit(WALK_ROUND)
    sheets = [squeezed(sheet) for sheet in printed(seen.page, "A5")]
    assert len(sheets) > 2, "a small sheet, so that there is something to split"
    for fault in seen.page.locator(".finding").all():
        first, last = (squeezed(fault.locator(part).evaluate("one => one.textContent")) for part in ("h3", ":scope > :nth-last-child(2)"))
        assert any(first in sheet and last in sheet for sheet in sheets), first


def test_a_proposal_opens_its_question_with_the_change_put_in(visit: Visit) -> None:
    seen = visit(WALK_ROUND)
    fix = seen.page.locator(".finding a.fix").first
    fix.tap()
    seen.page.wait_for_url("**/?*")
    seen.say.wait_for()
    assert seen.page.locator("form[data-check]").count() == 1
    seen.expect_fresh()
    assert seen.say.get_attribute("data-verdict") in ("go", "tight")
