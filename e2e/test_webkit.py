"""The iPhone's engine, as WebKitGTK: a first visit, and then without signal. Needs webkit2gtk-driver and xvfb."""

from __future__ import annotations

import re
import shutil
from collections.abc import Iterator

import pytest

import build
from engines import SNAPSHOT_CHECKED, WebKit
from server import Server, site_files

CHECK = "wire/wire-for-run/"
MISSING = [name for name in ("WebKitWebDriver", "Xvfb") if not shutil.which(name)]
pytestmark = pytest.mark.skipif(bool(MISSING), reason=f"not installed: {', '.join(MISSING)}")
# All that a worker says until it is ready.
START = """(script) => new Promise((resolve) => {
  const heard = [];
  const worker = new Worker(script, { type: "module" });
  worker.onmessage = ({ data }) => {
    heard.push(data);
    if (data.ready || data.failed) resolve(heard);
  };
  worker.postMessage({ start: "quick" });
})"""


@pytest.fixture
def webkit() -> Iterator[WebKit]:
    """A session of this browser starts empty, and what it stores goes with it."""
    with WebKit() as browser:
        yield browser


def wait_for_state(webkit: WebKit, line: str, state: str) -> None:
    webkit.wait_for(f"() => document.getElementById('{line}').dataset.state === '{state}'", 120)


def expect_answer_to(webkit: WebKit, length: str) -> None:
    webkit.wait_for(f"() => document.querySelector('main').textContent.replaceAll('\u00a0', ' ').includes('{length} ft')", 60)
    webkit.wait_for("() => !document.documentElement.classList.contains('out-of-date')", 60)


def test_a_first_visit_then_without_signal_a_link_a_new_answer_and_a_quick_start(webkit: WebKit, server: Server) -> None:
    # A page without a policy, from which the test may start workers of its own.
    build.publish(site_files(server.folder) | {"empty.html": b"<!doctype html><title>Empty</title>"}, server.folder)
    worker = next(server.folder.glob("worker-*.js")).name

    webkit.open(server.address + CHECK)
    wait_for_state(webkit, "state", "saved")
    wait_for_state(webkit, "state-python", "ready")
    webkit.wait_for(SNAPSHOT_CHECKED, 180)
    server.stop()

    webkit.open(server.address + CHECK + "?run_length=43.7&units=us&rules=nec")
    wait_for_state(webkit, "state", "saved")
    wait_for_state(webkit, "state-python", "ready")
    expect_answer_to(webkit, "43.7")
    said = webkit.evaluate("() => document.getElementById('state').textContent.trim()")
    assert re.fullmatch(r"Saved on this phone\. Works without signal\. Version [0-9a-f]{8}\.", said)

    webkit.evaluate(
        """() => {
          const field = document.querySelector("[name=run_length]");
          field.value = "41.3";
          field.dispatchEvent(new Event("input", { bubbles: true }));
        }"""
    )
    expect_answer_to(webkit, "41.3")

    webkit.open(server.address + "empty.html")
    assert webkit.evaluate(START, worker) == [{"starting": "snapshot"}, {"ready": "snapshot"}]
