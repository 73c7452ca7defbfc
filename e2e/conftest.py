"""What every test in a browser starts from: the built site, a server that can be stopped, a phone."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import BrowserContext, Page, Playwright, expect, sync_playwright

from engines import CHROMIUM, PHONE
from server import Server

ROOT = Path(__file__).resolve().parents[1]
sys.path.insert(0, str(ROOT))

# Every worker that a page starts, and what it has told the page, for tests to read.
WATCHED_WORKERS = """
window.workers = [];
window.Worker = class extends Worker {
  heard = [];
  constructor(...words) {
    super(...words);
    window.workers.push(this);
    this.addEventListener("message", ({ data }) => this.heard.push(data));
  }
};
"""

expect.set_options(timeout=20_000)


@pytest.fixture(scope="session")
def dist(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The site as `python build.py` makes it: just now, where whoever runs all tests says where, or here."""
    just_built = os.environ.get("BARROWATT_BUILT")
    if just_built:
        return Path(just_built).resolve()
    folder = tmp_path_factory.mktemp("built") / "dist"
    subprocess.run([sys.executable, ROOT / "build.py", "--output", folder], check=True, stdout=subprocess.DEVNULL)
    return folder


@pytest.fixture
def site(dist: Path, tmp_path: Path) -> Path:
    """The test's own copy of the site, to spoil or to change."""
    return Path(shutil.copytree(dist, tmp_path / "site"))


@pytest.fixture
def server(site: Path) -> Iterator[Server]:
    made = Server(site)
    yield made
    made.stop()


@pytest.fixture(scope="session")
def playwright() -> Iterator[Playwright]:
    with sync_playwright() as made:
        yield made


class Phone:
    """A browser with storage of its own, which can be closed and opened again."""

    def __init__(self, playwright: Playwright, profile: Path, server: Server) -> None:
        self._playwright, self._profile, self._server = playwright, profile, server
        self._context: BrowserContext | None = None
        self.requests: list[str] = []
        self.complaints: list[str] = []
        # Run in every page before its own scripts.
        self.beforehand: list[str] = [WATCHED_WORKERS]
        self.options: list[str] = []
        self.locale = "en-US"

    @property
    def context(self) -> BrowserContext:
        assert self._context, "the phone is off"
        return self._context

    def open(self, path: str = "", before: str = "") -> Page:
        """A page; the browser is started if it is not running. before: a script that runs before the page's own."""
        return self.open_at(self._server.address + path, before)

    def open_at(self, address: str, before: str = "") -> Page:
        page = self.context.new_page() if self._context else self._switch_on()
        if before:
            page.add_init_script(before)
        page.on("console", lambda message: self.complaints.append(message.text) if message.type == "error" else None)
        page.on("pageerror", lambda error: self.complaints.append(str(error)))
        page.goto(address)
        return page

    def _switch_on(self) -> Page:
        self._context = self._playwright.chromium.launch_persistent_context(
            self._profile, executable_path=shutil.which("chromium"), headless=True,
            args=[*CHROMIUM, *self.options], locale=self.locale, **PHONE,
        )  # fmt: skip
        self._context.on("request", lambda request: self.requests.append(request.url))
        for script in self.beforehand:
            self._context.add_init_script(script)
        return self._context.pages[0]

    def close(self) -> None:
        if self._context:
            self._context.close()
            self._context = None

    def reopen(self, path: str = "") -> Page:
        """Later: the browser has been away in the meantime."""
        self.close()
        return self.open(path)

    def install(self, path: str = "") -> Page:
        """A first visit, to the end: everything saved, Python ready."""
        page = self.open(path)
        expect_saved(page)
        expect_ready(page)
        return page


@pytest.fixture
def phone(playwright: Playwright, tmp_path: Path, server: Server) -> Iterator[Phone]:
    made = Phone(playwright, tmp_path / "profile", server)
    yield made
    made.close()


def expect_saved(page: Page) -> None:
    expect(page.locator("#state")).to_have_attribute("data-state", "saved")


def expect_ready(page: Page) -> None:
    expect(page.locator("#state-python")).to_have_attribute("data-state", "ready", timeout=60_000)


def heard(page: Page) -> list[list[dict[str, Any]]]:
    """What each worker of the page has said so far, the first worker's words first."""
    told: list[list[dict[str, Any]]] = page.evaluate("() => window.workers.map((worker) => worker.heard)")
    return told


def eventually(look: Callable[[], object], seconds: float = 30) -> None:
    """The page's policy forbids evaluating strings in it, as wait_for_function does; so it is asked again and again."""
    deadline = time.monotonic() + seconds
    while not look():
        assert time.monotonic() < deadline, f"not so within {seconds} s"
        time.sleep(0.05)
