"""Python starts on the phone: plainly or from its snapshot, and when something is wrong, plainly or not at all, in words."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import pytest
from conftest import Phone, eventually, expect_ready, heard
from playwright.sync_api import Page, expect

from calc.pages import PAGES
from server import Server

CHECK = "wire/wire-for-run/"
# What a start says of itself: the first word of the first worker.
FROM_SNAPSHOT, PLAINLY = {"starting": "snapshot"}, {"starting": "plain"}
# A page's ten seconds of patience with a silent worker, made short.
HASTE = """
const unhurried = setTimeout;
window.setTimeout = (task, time, ...words) => unhurried(task, time === 10_000 ? 1_500 : time, ...words);
"""


def description(page: Page) -> dict[str, Any] | None:
    """What is written about the stored snapshot, without its memory."""
    found: dict[str, Any] | None = page.evaluate(
        """async () => {
          if (!(await indexedDB.databases()).some(({ name }) => name === "snapshot")) return null;
          const done = (request) => new Promise((resolve) => (request.onsuccess = () => resolve(request.result)));
          const database = await done(indexedDB.open("snapshot"));
          const found = await done(database.transaction("snapshot").objectStore("snapshot").get("description"));
          database.close();
          return found ? { checked: found.checked, failures: found.failures } : null;
        }"""
    )
    return found


def change_snapshot(page: Page, key: str, change: str) -> None:
    """change: JavaScript that alters `stored`."""
    page.evaluate(
        """async ([key, change]) => {
          const done = (request) => new Promise((resolve) => (request.onsuccess = () => resolve(request.result)));
          const database = await done(indexedDB.open("snapshot"));
          const stored = await done(database.transaction("snapshot").objectStore("snapshot").get(key));
          const changes = {
            truncated: () => (stored.bytes = stored.bytes.slice(0, stored.bytes.length / 2)),
            flipped: () => stored.bytes.fill(255, 4_000_000, 4_400_000),
            beheaded: () => stored.head.fill(0),
          };
          changes[change]();
          const writing = database.transaction("snapshot", "readwrite", { durability: "strict" });
          writing.objectStore("snapshot").put(stored, key);
          await new Promise((committed) => (writing.oncomplete = committed)); // the phone may be shut right after
          database.close();
        }""",
        [key, change],
    )


def with_snapshot(phone: Phone) -> Page:
    page = phone.install(CHECK)
    eventually(lambda: (description(page) or {}).get("checked"), 90)
    return page


def test_every_known_answer_is_the_same_bytes_here_and_in_cpython(phone: Phone, server: Server, site: Path) -> None:
    from calc.reply import reply
    from packing.questions import known_questions

    (site / "empty.html").write_text("<!doctype html><title>Empty</title>")
    worker = next(site.glob("worker-*.js")).name
    page = phone.open("empty.html")
    questions = known_questions()
    answers = page.evaluate(
        """([script, questions]) => new Promise((resolve, reject) => {
          const worker = new Worker(script, { type: "module" });
          const answers = [];
          worker.onmessage = ({ data }) => {
            if (data.failed) return reject(new Error(data.failed));
            if (data.reply) answers.push(data.reply);
            if (answers.length === questions.length) return resolve(answers);
            if (data.ready || data.reply) worker.postMessage({ ask: questions[answers.length] });
          };
          worker.postMessage({ start: "plain" });
        })""",
        [worker, questions],
    )
    assert len(questions) >= 18
    for question, answer in zip(questions, answers, strict=True):
        assert answer == reply(question), question


def test_the_second_start_is_from_the_snapshot_made_here(phone: Phone, server: Server) -> None:
    page = with_snapshot(phone)
    assert heard(page)[0][0] == PLAINLY
    server.stop()
    again = phone.reopen(CHECK)
    expect_ready(again)
    assert heard(again)[0] == [FROM_SNAPSHOT, {"ready": "snapshot"}]
    assert len(heard(again)) == 1, "a snapshot that works is not made again"


def test_every_page_of_a_rig_is_answered_from_a_snapshot_that_was_made_before_anybody_asked_for_it(phone: Phone, server: Server) -> None:
    """A pack that Python held open when its memory was stored is shut when that is restored."""
    with_snapshot(phone)
    server.stop()
    page = phone.reopen("start/")
    page.get_by_role("button", name="Or begin with a copy of the example").tap()
    expect(page.locator("#now")).to_be_visible(timeout=60_000)
    for address in (address for address, found in PAGES.items() if "of-rig" in found.pieces):
        page = phone.open(address)
        expect(page.locator("#stale")).to_be_hidden()
        expect(page.locator("main")).not_to_contain_text("Shown with the example's numbers")
        assert heard(page)[0][:2] == [FROM_SNAPSHOT, {"ready": "snapshot"}]
        assert not any("failed" in said for worker in heard(page) for said in worker)
        page.close()


@pytest.mark.parametrize(("key", "change"), [("heap", "truncated"), ("heap", "flipped"), ("description", "beheaded")])
def test_a_damaged_snapshot_gives_way_to_a_plain_start_in_a_new_worker(phone: Phone, server: Server, key: str, change: str) -> None:
    change_snapshot(with_snapshot(phone), key, change)
    phone.close()
    server.stop()
    page = phone.open(CHECK)
    expect_ready(page)
    first, second = heard(page)[:2]
    assert first[0] == FROM_SNAPSHOT
    assert not any("ready" in said for said in first)
    assert second == [PLAINLY, {"ready": "plain"}]
    assert (description(page) or {})["failures"] == 1
    answer_changes_with(page, "run_length", "31.7")


def test_after_two_failures_no_snapshot_is_made_for_this_build(phone: Phone) -> None:
    page = phone.install(CHECK)
    script = page.evaluate("() => performance.getEntriesByType('resource').map(({ name }) => name).find((name) => name.includes('/snapshot-'))")
    worth = "async (script) => { const { snapshotIsWorthMaking } = await import(script); return snapshotIsWorthMaking(); }"
    spoil = "async (script) => { const { spoilSnapshot } = await import(script); await spoilSnapshot(); }"
    page.evaluate(spoil, script)
    assert page.evaluate(worth, script)
    page.evaluate(spoil, script)
    assert not page.evaluate(worth, script)


def test_without_wasm_the_page_reads_and_says_that_it_cannot_work(phone: Phone, server: Server, site: Path) -> None:
    wasm = next(site.glob("python-*/pyodide.asm.wasm")).relative_to(site).as_posix()
    server.spoilt[wasm] = None
    for pack in (site / "pack").iterdir():
        if pack.stat().st_size > 3_000_000:
            server.spoilt[f"pack/{pack.name}"] = None
    page = phone.open(CHECK)
    expect(page.locator("#state")).to_have_attribute("data-state", "unfinished")
    expect(page.locator("#state-python")).to_have_attribute("data-state", "failed")
    expect(page.locator("#state-python")).to_contain_text("can't run")
    expect(page.locator("h1")).to_be_visible()
    expect(page.locator("#say")).not_to_be_empty()


def test_a_worker_that_falls_silent_is_replaced_and_asked_again(phone: Phone, server: Server) -> None:
    phone.beforehand += [HASTE, SILENT_FIRST_WORKER]
    page = phone.install(CHECK)
    page.locator("[name=run_length]").fill("33.7")
    eventually(lambda: page.evaluate("() => window.saidOfPython.includes('restarting')"))
    expect_ready(page)
    eventually(lambda: not page.evaluate("() => document.documentElement.classList.contains('out-of-date')"))
    assert len(heard(page)) >= 2


SILENT_FIRST_WORKER = """
window.saidOfPython = [];
addEventListener("DOMContentLoaded", () => {
  const line = document.getElementById("state-python");
  new MutationObserver(() => window.saidOfPython.push(line.dataset.state)).observe(line, { attributes: true });
});
{
  const send = Worker.prototype.postMessage;
  Worker.prototype.postMessage = function (message) {
    if (message.ask && this === window.workers[0]) return;
    send.call(this, message);
  };
}
"""


def test_the_latest_question_wins(phone: Phone) -> None:
    page = phone.install(CHECK)
    form = page.locator("form[data-check]")
    script = page.evaluate("() => performance.getEntriesByType('resource').map(({ name }) => name).find((name) => /python-\\w+\\.js/.test(name))")
    settled = page.evaluate(
        """async ([script, check]) => {
          const { Python } = await import(script);
          const python = new Python();
          python.start();
          const form = { check, units: "us", rules: "nec" };
          const waiting = ["10", "20", "30"].map((run_length) => python.ask("typing", { ...form, run_length }));
          return (await Promise.all(waiting)).map((reply) => reply && reply.id);
        }""",
        [script, form.get_attribute("data-check")],
    )
    assert settled == [None, None, 3]


def test_nothing_is_evaluated_from_text_in_page_or_worker(phone: Phone) -> None:
    phone.install(CHECK)
    page = phone.reopen(CHECK)  # the keeper adds the worker's policy: a static host may not be able to
    expect_ready(page)
    assert not phone.complaints
    # Later, and so out of the driver's hands, which may evaluate what the page may not.
    evaluate = """() => new Promise((resolve) => setTimeout(() => {
      try { resolve(String(eval("1 + 1"))); } catch (problem) { resolve(problem.name); }
    }))"""
    assert page.evaluate(evaluate) == "EvalError"
    assert page.workers[0].evaluate(evaluate) == "EvalError"


def test_nobody_else_is_ever_asked(phone: Phone, server: Server) -> None:
    page = with_snapshot(phone)
    answer_changes_with(page, "run_length", "29.7")
    strangers = [address for address in phone.requests if not address.startswith((server.address, "blob:" + server.address))]
    assert strangers == []


def test_on_a_page_that_is_not_secure_python_runs_and_nothing_is_said_to_be_saved(phone: Phone, server: Server) -> None:
    phone.options.append("--host-resolver-rules=MAP cart.test 127.0.0.1")
    page = phone.open_at(f"http://cart.test:{server.port}/{CHECK}")
    expect(page.locator("#state")).to_have_attribute("data-state", "insecure")
    expect_ready(page)
    answer_changes_with(page, "run_length", "34.7")


def answer_changes_with(page: Page, field: str, text: str) -> None:
    """A new answer, worked here: the page is no longer out of date after the field was filled."""
    page.locator(f"[name={field}]").fill(text)
    expect(page.locator("html")).not_to_have_class(re.compile("out-of-date"))
    expect(page.locator("main")).to_contain_text(f"{text} ft")
