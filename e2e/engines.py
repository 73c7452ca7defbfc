"""Two browsers behind the same few verbs, for what is measured or tried in both."""

from __future__ import annotations

import os
import shutil
import subprocess
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from playwright.sync_api import BrowserContext, Error, Page, sync_playwright
from selenium import webdriver
from selenium.webdriver.webkitgtk.options import Options
from selenium.webdriver.webkitgtk.service import Service

CHROMIUM = ["--no-sandbox", "--disable-quic", "--disable-background-networking", "--disable-component-update", "--no-first-run"]
PHONE = {"viewport": {"width": 390, "height": 844}, "device_scale_factor": 3, "is_mobile": True, "has_touch": True}

# Whether a snapshot of Python is stored that another worker has started from.
SNAPSHOT_CHECKED = """() => new Promise((resolve) => {
  const opening = indexedDB.open("snapshot");
  opening.onupgradeneeded = () => opening.transaction.abort();
  opening.onerror = () => resolve(false);
  opening.onsuccess = () => {
    const asked = opening.result.transaction("snapshot").objectStore("snapshot").get("description");
    asked.onsuccess = () => { opening.result.close(); resolve(Boolean(asked.result?.checked)); };
  };
})"""


class Browser:
    """open, evaluate, wait_for, renew."""

    def open(self, address: str) -> None:
        raise NotImplementedError

    def evaluate(self, function: str, argument: Any = None) -> Any:
        raise NotImplementedError

    def renew(self) -> None:
        """As if it had just been started, with what it had stored."""

    def wait_for(self, function: str, seconds: float) -> None:
        """The pages' policy forbids evaluating strings in them, as drivers' own waiting does: so it is asked again and again."""
        deadline = time.monotonic() + seconds
        while not self._holds(function):
            if time.monotonic() > deadline:
                raise TimeoutError(f"not within {seconds} s: {function}")
            time.sleep(0.1)

    def _holds(self, function: str) -> bool:
        return bool(self.evaluate(function))


class Chromium(Browser):
    """As a phone would show it; renewed by a new process with the same profile."""

    name = "Chromium"

    def __init__(self, profile: Path) -> None:
        self._profile = profile

    def __enter__(self) -> Chromium:
        self._playwright = sync_playwright().start()
        self._context = self._launch()
        return self

    def __exit__(self, *_: object) -> None:
        self._context.close()
        self._playwright.stop()

    def _launch(self) -> BrowserContext:
        return self._playwright.chromium.launch_persistent_context(
            self._profile, executable_path=shutil.which("chromium"), headless=True, args=CHROMIUM, **PHONE
        )

    @property
    def _page(self) -> Page:
        return self._context.pages[0]

    def renew(self) -> None:
        self._context.close()
        self._context = self._launch()

    def open(self, address: str) -> None:
        self._page.goto(address)

    def evaluate(self, function: str, argument: Any = None) -> Any:
        return self._page.evaluate(function, argument)

    def _holds(self, function: str) -> bool:
        try:
            return super()._holds(function)
        except Error:  # the page is just being left for another
            return False


class WebKit(Browser):
    """WebKitGTK, under a display of its own. A session starts empty, so it is never renewed."""

    name = "WebKit"

    def __init__(self, profile: Path | None = None) -> None:
        """profile: not used; nothing outlasts a session."""

    def __enter__(self) -> WebKit:
        self._display = VirtualDisplay()
        options = Options()
        options.binary_location = mini_browser()
        options.add_argument("--automation")
        self._driver = webdriver.WebKitGTK(options=options, service=Service(shutil.which("WebKitWebDriver"), env=self._display.environment))
        self._driver.set_script_timeout(120)
        return self

    def __exit__(self, *_: object) -> None:
        self._driver.quit()
        self._display.close()

    def open(self, address: str) -> None:
        self._driver.get(address)

    def evaluate(self, function: str, argument: Any = None) -> Any:
        done = "arguments[arguments.length - 1]"
        script = f"const done = {done}; Promise.resolve(({function})(arguments[0])).then(done, (problem) => done(`failed: ${{problem}}`))"
        return self._driver.execute_async_script(script, argument)


def mini_browser() -> str:
    listed = subprocess.run(["dpkg", "-L", "libwebkit2gtk-4.1-0"], check=True, capture_output=True, text=True).stdout.splitlines()
    return next(line for line in listed if line.endswith("/MiniBrowser"))


class VirtualDisplay:
    """An X server that shows nothing, and a private place for a session's sockets."""

    def __init__(self) -> None:
        reading, writing = os.pipe()
        self._server = subprocess.Popen(
            ["Xvfb", "-displayfd", str(writing), "-screen", "0", "1280x1024x24", "-nolisten", "tcp", "-noreset"],
            pass_fds=[writing], stderr=subprocess.DEVNULL,
        )  # fmt: skip
        os.close(writing)
        # The whole line: a server whose listener has gone after the number dies of writing the line's end.
        with os.fdopen(reading) as told:
            number = told.readline().strip()
        self._runtime = tempfile.mkdtemp()
        self.environment = os.environ | {"DISPLAY": f":{number}", "XDG_RUNTIME_DIR": self._runtime}

    def close(self) -> None:
        self._server.terminate()
        self._server.wait()
        shutil.rmtree(self._runtime, ignore_errors=True)


@contextmanager
def slowed(cores: float) -> Iterator[None]:
    """This process and the browsers it starts share so much of a core (CPU cgroup, version 1)."""
    group = Path("/sys/fs/cgroup/cpu/barrowatt-benchmark")
    group.mkdir(exist_ok=True)  # one that was broken off leaves its group
    try:
        (group / "cpu.cfs_period_us").write_text("10000")
        (group / "cpu.cfs_quota_us").write_text(str(int(10000 * cores)))
        (group / "cgroup.procs").write_text(str(os.getpid()))
        yield
    finally:
        (group.parent / "cgroup.procs").write_text(str(os.getpid()))
        time.sleep(1)
        group.rmdir()
