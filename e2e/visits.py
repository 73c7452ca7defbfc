"""The fixture `visit`: pages opened on one phone per test file, on which the site was saved at a first visit."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from conftest import Phone
from playwright.sync_api import Page, Playwright

from engines import CHROMIUM, PHONE
from hands import CheckPage, Visit
from server import Server


@pytest.fixture(scope="module")
def saved_phone(playwright: Playwright, dist: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Phone]:
    """Kept for all tests of a file, because a first visit takes seconds."""
    server = Server(dist)
    phone = Phone(playwright, tmp_path_factory.mktemp("profile"), server)
    phone.install()
    yield phone
    phone.close()
    server.stop()


@pytest.fixture
def visit(saved_phone: Phone) -> Iterator[Visit]:
    """Open a page, as wide as is asked. Nothing may be complained of in the console meanwhile."""
    opened: list[Page] = []
    saved_phone.complaints.clear()

    def open_page(path: str = "", width: int = 390, height: int = 844) -> CheckPage:
        page = saved_phone.open(path)
        opened.append(page)
        page.set_viewport_size({"width": width, "height": height})
        return CheckPage(page)

    yield open_page
    for page in opened:
        page.evaluate("() => localStorage.clear()")
        page.close()
    assert saved_phone.complaints == []


@pytest.fixture
def without_scripts(playwright: Playwright, saved_phone: Phone) -> Iterator[Page]:
    """The first page in a browser of its own with scripts switched off."""
    browser = playwright.chromium.launch(executable_path=shutil.which("chromium"), args=CHROMIUM)
    page = browser.new_context(java_script_enabled=False, viewport=PHONE["viewport"]).new_page()
    page.goto(saved_phone.context.pages[0].url)
    yield page
    browser.close()
