"""The fixtures `visit` and `sight`: pages opened on one phone, on which the site was saved at a first visit.

Python starts anew for every page that is visited, which is most of what a visit costs. What is only looked at, as it
was built, is opened with `sight`: there its worker never answers.
"""

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

# A worker that never says a word, as before a slow phone has started one.
SILENT = "Worker = class extends EventTarget { postMessage() {} terminate() {} };"


@pytest.fixture(scope="session")
def saved_phone(playwright: Playwright, dist: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Phone]:
    """Kept for all tests of a process, because a first visit takes seconds."""
    server = Server(dist)
    phone = Phone(playwright, tmp_path_factory.mktemp("profile"), server)
    phone.install()
    yield phone
    phone.close()
    server.stop()


@pytest.fixture
def visit(saved_phone: Phone) -> Iterator[Visit]:
    """Open a page, as wide as is asked. Nothing may be complained of in the console meanwhile."""
    yield from _opening(saved_phone)


@pytest.fixture
def sight(saved_phone: Phone) -> Iterator[Visit]:
    """Open a page to look at it as it comes, before Python has started."""
    yield from _opening(saved_phone, SILENT)


def _opening(phone: Phone, before: str = "") -> Iterator[Visit]:
    opened: list[Page] = []
    phone.complaints.clear()

    def open_page(path: str = "", width: int = 390, height: int = 844, beforehand: str = before) -> CheckPage:
        page = phone.open(path, beforehand)
        opened.append(page)
        page.set_viewport_size({"width": width, "height": height})
        return CheckPage(page)

    yield open_page
    for page in opened:
        page.evaluate("() => localStorage.clear()")
        page.close()
    assert phone.complaints == []


@pytest.fixture
def without_scripts(playwright: Playwright, saved_phone: Phone) -> Iterator[Page]:
    """The first page in a browser of its own with scripts switched off."""
    browser = playwright.chromium.launch(executable_path=shutil.which("chromium"), args=CHROMIUM)
    page = browser.new_context(java_script_enabled=False, viewport=PHONE["viewport"]).new_page()
    page.goto(saved_phone.context.pages[0].url)
    yield page
    browser.close()
