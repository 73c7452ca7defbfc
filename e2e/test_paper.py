"""An answer on paper: everything that proves it, and nothing that can only be tapped.

The text is taken from the printed page by pypdf, a general-purpose library.
"""

from __future__ import annotations

import io
import re
import unicodedata
from datetime import date

import pytest
from conftest import Phone
from playwright.sync_api import Page
from pypdf import PdfReader

from hands import CHECKS, CheckPage, Visit

pytest_plugins = ("visits",)
WIRE, TOOL = "wire/wire-for-run/", "run/tool-on-outlet/"
# The sun's own working is a chapter of a textbook, and printed whole.
LONG = ("refill/days-from-sun/", "refill/sun-today/")


def squeezed(text: str) -> str:
    """A printed line breaks where it likes, and a ligature is one sign: only the letters count."""
    return re.sub(r"\s+", "", unicodedata.normalize("NFKC", text)).casefold()


def printed(page: Page, paper: str = "A4") -> list[str]:
    """The text of each sheet."""
    sheets = PdfReader(io.BytesIO(page.pdf(format=paper))).pages
    return [sheet.extract_text() for sheet in sheets]


def shown(seen: CheckPage, selector: str) -> list[str]:
    """The words of each such element; of a line's label without its kind, before which a dot is printed."""
    words = "all => all.map((one) => one.matches('.line-label') ? one.firstChild.data : one.textContent)"
    return [text for text in seen.page.locator(selector).evaluate_all(words) if text.strip()]


@pytest.mark.parametrize("path", CHECKS)
def test_paper_holds_question_inputs_verdict_all_working_and_all_sources(sight: Visit, path: str) -> None:
    seen = sight(path)
    sheets = printed(seen.page)
    assert len(sheets) <= (3 if path in LONG else 2)
    paper = squeezed(" ".join(sheets))
    proof = ["h1", "#say", ".given", ".fix", ".caution p", ".tests li", ".results dt", ".results dd", ".line-label", ".line-note", ".line-source", "#sources li", "footer p"]
    for selector in proof:
        for text in shown(seen, selector):
            assert squeezed(text) in paper, f"{selector}: {text.strip()}"
    assert len(shown(seen, ".line-sum")) >= 3
    for text in shown(seen, ".line-sum b"):
        assert squeezed(text) in paper, text


def test_paper_carries_the_date_and_what_worked_the_answer(visit: Visit, saved_phone: Phone) -> None:
    seen = visit(WIRE)
    text = " ".join(" ".join(printed(seen.page)).split())
    found = re.search(r"Printed (\w+ \d+, \d{4})\. Worked by calculator ([0-9a-f]{8})\.", text)
    assert found
    today = date.today()
    assert found[1] == f"{today:%B} {today.day}, {today.year}"
    assert any(f"/python-{found[2]}/" in address for address in saved_phone.requests)


def test_paper_shows_the_answer_to_my_numbers(visit: Visit) -> None:
    seen = visit(WIRE)
    seen.tell("Length of the run, one way", "400")
    seen.expect_verdict("no")
    paper = squeezed(" ".join(printed(seen.page)))
    assert squeezed(seen.say.inner_text()) in paper
    assert squeezed("Length of the run, one way 400 ft") in paper


def test_paper_says_so_when_the_answer_is_out_of_date(visit: Visit) -> None:
    """A sheet outlives the page: numbers that do not belong together must not leave the printer unmarked."""
    seen = visit(WIRE)
    seen.tell("Length of the run, one way", "12x")
    seen.expect_stale()
    assert squeezed("Not worked out for these numbers yet.") in squeezed(" ".join(printed(seen.page)))


def test_paper_has_nothing_to_tap(visit: Visit) -> None:
    seen = visit("roll/push/")
    paper = squeezed(" ".join(printed(seen.page)))
    for words in ("Work it out", "Print this answer", "Start again", "Find a number to change", "Saved on this phone", "Sunlight"):
        assert squeezed(words) not in paper, words
    assert squeezed("What would fix it Take load off until it weighs") in paper.replace("▪", ""), "a fix is an answer too"


def test_a_step_is_never_split_between_sheets(visit: Visit) -> None:
    seen = visit(WIRE)
    sheets = [squeezed(sheet) for sheet in printed(seen.page, "A5")]
    assert len(sheets) > 2, "a small sheet, so that there is something to split"
    for line in seen.page.locator(".line").all():
        label = squeezed(line.locator(".line-label").evaluate("label => label.firstChild.data"))
        result = squeezed(line.locator(".line-sum b").last.evaluate("result => result.textContent"))
        assert any(label in sheet and result in sheet.split(label, 1)[1] for sheet in sheets if label in sheet), label
    for caution in seen.page.locator(".caution").all():
        first, last = (squeezed(caution.locator("p").nth(i).inner_text()) for i in (0, -1))
        assert any(first in sheet and last in sheet for sheet in sheets)


@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize("path", [WIRE, TOOL, "run/car-distance/"])
def test_an_answer_takes_few_sheets_of_either_paper(sight: Visit, path: str, paper: str) -> None:
    assert len(printed(sight(path).page, paper)) <= 2


@pytest.mark.parametrize("look", ["sun", "night"])
def test_paper_is_black_on_white_and_as_small_in_every_look(visit: Visit, look: str) -> None:
    seen = visit(WIRE)
    sheets = len(printed(seen.page))
    seen.wear(look)
    assert len(printed(seen.page)) == sheets
    seen.page.emulate_media(media="print")
    colours = seen.page.evaluate(
        "() => [...document.querySelectorAll('main *')].filter((one) => one.checkVisibility() && one.textContent.trim()).map((one) => getComputedStyle(one).color)"
    )
    assert set(colours) == {"rgb(0, 0, 0)"}
    assert seen.page.evaluate("() => getComputedStyle(document.body).backgroundColor") == "rgb(255, 255, 255)"
