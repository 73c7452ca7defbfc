"""What every test in a browser starts from: the built site, a server that can be stopped, a phone."""

from __future__ import annotations

import shutil
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import BrowserContext, Page, Playwright, expect, sync_playwright
from server import Server

ROOT = Path(__file__).resolve().parents[1]
CHROMIUM = ["--no-sandbox", "--disable-quic", "--disable-background-networking", "--disable-component-update", "--no-first-run"]
PHONE = {"viewport": {"width": 390, "height": 844}, "device_scale_factor": 3, "is_mobile": True, "has_touch": True}
SAVED = "Saved on this phone."

expect.set_options(timeout=15_000)


@pytest.fixture(scope="session")
def dist(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The site as `python build.py` makes it."""
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
        self.beforehand: list[str] = []

    @property
    def context(self) -> BrowserContext:
        assert self._context, "the phone is off"
        return self._context

    def open(self, path: str = "") -> Page:
        """A page; the browser is started if it is not running."""
        if self._context is None:
            self._context = self._playwright.chromium.launch_persistent_context(
                self._profile, executable_path=shutil.which("chromium"), headless=True, args=CHROMIUM, **PHONE
            )
            self._context.on("request", lambda request: self.requests.append(request.url))
            for script in self.beforehand:
                self._context.add_init_script(script)
            page = self._context.pages[0]
        else:
            page = self._context.new_page()
        page.on("console", lambda message: self.complaints.append(message.text) if message.type == "error" else None)
        page.on("pageerror", lambda error: self.complaints.append(str(error)))
        page.goto(self._server.address + path)
        return page

    def close(self) -> None:
        if self._context:
            self._context.close()
            self._context = None

    def install(self) -> Page:
        """A first visit, to the end: everything saved."""
        page = self.open()
        expect(page.locator("#state")).to_contain_text(SAVED)
        return page


@pytest.fixture
def phone(playwright: Playwright, tmp_path: Path, server: Server) -> Iterator[Phone]:
    made = Phone(playwright, tmp_path / "profile", server)
    yield made
    made.close()


def eventually(look: Callable[[], bool], seconds: float = 15) -> None:
    """The page's policy forbids evaluating strings in the page, as wait_for_function does; so it is asked again and again."""
    deadline = time.monotonic() + seconds
    while not look():
        assert time.monotonic() < deadline, f"not so within {seconds} s"
        time.sleep(0.05)
