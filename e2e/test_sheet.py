"""The hand-over sheet as it leaves the printer: two sheets of either paper, in black, with all its limits and its code."""

from __future__ import annotations

import io
import re

import pypdfium2
import pytest
import zxingcpp
from conftest import Phone
from playwright.sync_api import Page, expect
from pypdf import PdfReader
from test_paper import squeezed
from test_rig import copy_of_example

from calc.board import board
from calc.handover import limits_of_the_round, sheet
from calc.rig import example_rig
from calc.sharing import unpacked
from hands import Visit

pytest_plugins = ("visits",)


def paper_of(page: Page, size: str) -> bytes:
    pdf: bytes = page.pdf(format=size)
    return pdf


def codes_on(pdf: bytes) -> list[str]:
    """What a decoder reads off the sheets, printed at 300 dots to the inch."""
    sheets = (page.render(scale=300 / 72).to_pil() for page in pypdfium2.PdfDocument(pdf))
    return [code.text for sheet in sheets for code in zxingcpp.read_barcodes(sheet)]


def text_of(pdf: bytes) -> str:
    return squeezed(" ".join(sheet.extract_text() for sheet in PdfReader(io.BytesIO(pdf)).pages))


@pytest.mark.parametrize("size", ["A4", "Letter"])
def test_the_sheet_takes_two_sheets_and_holds_every_limit_and_the_example_s_code(visit: Visit, size: str) -> None:
    pdf = paper_of(visit("hand-over/").page, size)
    assert len(PdfReader(io.BytesIO(pdf)).pages) <= 2
    text = text_of(pdf)
    for group in limits_of_the_round(board(example_rig())):
        for label, limits in group.limits:
            for words in (label, *limits):
                assert squeezed(words) in text, words
    told = sheet(None)
    for words in (*told.emergency, *(step for _, steps in told.procedures for step in steps), *(one.hazard for one in told.cautions)):
        assert squeezed(words) in text, words
    for row in told.device_rows:
        assert all(squeezed(cell) in text for cell in row)
    assert str(unpacked(*codes_on(pdf)).facts["bank.energy"]) == str(example_rig().facts["bank.energy"])


@pytest.mark.parametrize("size", ["A4", "Letter"])
def test_the_sheet_of_one_s_own_rig_is_dated_and_its_code_opens_the_rig_at_this_address(visit: Visit, saved_phone: Phone, size: str) -> None:
    home = copy_of_example(visit)
    page = visit("hand-over/").page
    expect(page.locator("#stale")).to_be_hidden(timeout=60_000)
    pdf = paper_of(page, size)
    assert len(PdfReader(io.BytesIO(pdf)).pages) <= 2
    codes = codes_on(pdf)
    assert {code.partition("#rig=")[0] for code in codes} == {home.url + "rig/"}
    assert str(unpacked(*codes).facts["bank.energy"]) == str(example_rig().facts["bank.energy"])
    head = page.locator("#sheet-head").inner_text()
    [version] = re.findall(r"Version ([0-9a-f]{8})", head)
    assert re.search(r"Date: \w+ \d+, \d{4}", head)
    assert any(f"/python-{version}/" in request for request in saved_phone.requests)
    assert squeezed(f"Worked by calculator {version}") in text_of(pdf)


def test_the_sheet_is_printed_in_black_alone(visit: Visit) -> None:
    """A black-and-white printer turns a colour into a grey that nobody can tell."""
    page = visit("hand-over/").page
    page.emulate_media(media="print")
    colours = page.evaluate(
        "() => [...document.querySelectorAll('.sheet *')].filter((one) => one.checkVisibility() && one.textContent.trim()).flatMap((one) => [getComputedStyle(one).color, getComputedStyle(one).borderLeftColor])"
    )
    assert set(colours) <= {"rgb(0, 0, 0)"}
