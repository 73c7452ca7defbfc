"""Measures what the site promises, on this machine: `python e2e/benchmark.py` (not a test; some minutes).

Starts are measured with the server stopped, everything coming from the device; in Chromium each in a new browser
process, in WebKit, whose sessions start empty, each in a new worker. Beside each stands, from the same run, bare
`loadPyodide()` of Pyodide's own files kept in the same way, which imports nothing and answers nothing. Machines
differ and are noisy: the ratios to bare are what counts.
"""

from __future__ import annotations

import argparse
import statistics
import subprocess
import sys
import tempfile
from collections import defaultdict
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
sys.path.insert(0, str(ROOT))

import build  # noqa: E402
from engines import SNAPSHOT_CHECKED, Chromium, WebKit, slowed  # noqa: E402
from server import Server, site_files  # noqa: E402

STOCK = ("pyodide.mjs", "pyodide.asm.mjs", "pyodide.asm.wasm", "python_stdlib.zip", "pyodide-lock.json")
BARE_WORKER = b"""
import { loadPyodide } from "./bare/pyodide.mjs";
self.onmessage = async () => { await loadPyodide(); self.postMessage({ ready: "bare" }); };
"""
# Worker created -> first answer back (bare: -> loaded), in ms.
START = """([script, how, question]) => new Promise((resolve) => {
  const begun = performance.now();
  const worker = new Worker(script, { type: "module" });
  worker.onmessage = ({ data }) => {
    if (data.ready && question) worker.postMessage({ ask: question });
    if (data.failed || data.reply || (data.ready && !question)) {
      resolve(data.failed ?? performance.now() - begun);
      worker.terminate();
    }
  };
  worker.postMessage({ start: how });
})"""
# One key after another, each a fast finger's pause after the last is answered: input event -> the answer is on the
# page, in ms.
KEYSTROKES = """async ([field, texts]) => {
  const page = document.documentElement;
  const input = document.querySelector(`[name="${field}"]`);
  const times = [];
  for (const text of texts) {
    const begun = performance.now();
    input.value = text;
    input.dispatchEvent(new Event("input", { bubbles: true }));
    while (page.classList.contains("out-of-date")) await new Promise((seen) => new MutationObserver((_, o) => (o.disconnect(), seen())).observe(page, { attributes: true }));
    times.push(performance.now() - begun);
    await new Promise((next) => setTimeout(next, 60));
  }
  return times;
}"""
# The same on the board: a fact of the panel changes, and every row that rests on it is answered anew.
BOARD = KEYSTROKES.replace('new Event("input", { bubbles: true })', 'new Event("change", { bubbles: true })')
# WebKit's driver answers before the event is over: an entry is waited for.
PAINTED = """async () => {
  const at = () => performance.getEntriesByType("navigation")[0].domContentLoadedEventEnd;
  while (!at()) await new Promise((soon) => setTimeout(soon, 20));
  return at();
}"""
BOARD_IS_ANSWERED = "() => !document.getElementById('now')?.hidden && document.getElementById('stale')?.hidden"
READY = "() => document.getElementById('state-python').dataset.state === 'ready'"
CHECK, FIELD = "wire/wire-for-run/", "run_length"


def main() -> None:
    arguments = read_arguments()
    with tempfile.TemporaryDirectory() as folder:
        server = Server(Path(folder) / "site")
        write_site(server.folder)
        for engine in arguments.engines:
            measure(engine, server, Path(folder) / engine.name, arguments.runs)
        if arguments.slow:
            measure_slowed(0.25, server, Path(folder) / "slowed", arguments.runs)


def read_arguments() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description="Measures starts, keystrokes, paint and bytes.")
    parser.add_argument("--runs", type=int, default=7, help="starts of each kind")
    parser.add_argument("--engines", nargs="*", type={"chromium": Chromium, "webkit": WebKit}.__getitem__, default=[Chromium, WebKit])
    parser.add_argument("--slow", action="store_true", help="also with the browser held to a quarter of a core (needs a CPU cgroup, version 1)")
    return parser.parse_args()


def write_site(folder: Path) -> None:
    """The built site, with Pyodide's own files and an empty page beside it, kept by the same keeper."""
    subprocess.run([sys.executable, ROOT / "build.py", "--output", folder], check=True)
    files = site_files(folder)
    files |= {f"bare/{name}": (build.PYODIDE / name).read_bytes() for name in STOCK}
    files |= {"bare.js": BARE_WORKER, "empty.html": b"<!doctype html><title>Empty</title>"}
    build.publish(files, folder)


def measure(engine: type[Chromium] | type[WebKit], server: Server, profile: Path, runs: int) -> None:
    server.start()
    with engine(profile) as browser:
        visit_first(browser, server)
        print_table(profile.name, times_of(browser, server, runs))


def measure_slowed(cores: float, server: Server, profile: Path, runs: int) -> None:
    """A phone's first visit may take its time; what is measured is every later one."""
    server.start()
    with Chromium(profile) as browser:
        visit_first(browser, server)
    with slowed(cores), Chromium(profile) as browser:
        browser.open(server.address + "empty.html")
        print_table(f"{profile.name}, {cores:g} of a core", times_of(browser, server, runs))


def visit_first(browser: Chromium | WebKit, server: Server) -> None:
    """Everything is saved, the snapshot made; then there is no signal."""
    browser.open(server.address)
    browser.wait_for("() => document.getElementById('state').dataset.state === 'saved'", 180)
    browser.wait_for(SNAPSHOT_CHECKED, 180)
    server.stop()


def times_of(browser: Chromium | WebKit, server: Server, runs: int) -> dict[str, list[float]]:
    """All times [ms] by what was measured."""
    worker = next(file.name for file in server.folder.glob("worker-*.js"))
    question = build.start_questions()[0]
    starts = {"bare loadPyodide()": ["bare.js", "", ""], "plain start": [worker, "plain", question], "start from the snapshot": [worker, "quick", question]}
    times: dict[str, list[float]] = defaultdict(list)
    for _ in range(runs):
        for name, start in starts.items():
            browser.renew()
            browser.open(server.address + "empty.html")
            times[name].append(browser.evaluate(START, start))
        browser.renew()
        browser.open(server.address + CHECK)
        times["paint: DOMContentLoaded"].append(browser.evaluate(PAINTED))
    browser.wait_for(READY, 180)
    keys = [str(50 + step % 90) for step in range(550)]
    times["key to answer"] = browser.evaluate(KEYSTROKES, [FIELD, keys])[50:]
    browser.open(server.address + "start/")
    browser.wait_for(READY, 180)
    browser.evaluate("() => document.getElementById('start-example').click()")
    browser.wait_for(BOARD_IS_ANSWERED, 180)
    charges = [str(20 + step % 70) for step in range(150)]
    times["board answered again"] = browser.evaluate(BOARD, ["now.charge", charges])[20:]
    for _ in range(runs):
        browser.renew()
        browser.open(server.address)
        browser.wait_for("() => performance.getEntriesByName('last board').length > 0", 30)
        times["last board painted"].append(browser.evaluate("() => performance.getEntriesByName('last board')[0].startTime"))
    return times


def print_table(title: str, times: dict[str, list[float]]) -> None:
    bare = statistics.median(times["bare loadPyodide()"])
    print(f"\n{title:<28}{'n':>5}{'median ms':>11}{'p95 ms':>9}{'of bare':>9}")
    for name, values in times.items():
        middle = statistics.median(values)
        p95 = statistics.quantiles(values, n=20)[-1] if len(values) > 1 else middle
        ratio = f"{middle / bare:>9.2f}" if "start" in name or "bare" in name else ""
        print(f"{name:<28}{len(values):>5}{middle:>11.1f}{p95:>9.1f}{ratio}")


if __name__ == "__main__":
    main()
