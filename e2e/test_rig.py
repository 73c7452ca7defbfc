"""A rig of one's own: made in eight answers, kept on the phone, answered for on every page, and never lost."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
import zxingcpp
from conftest import Phone, eventually, expect_ready
from PIL import Image
from playwright.sync_api import Page, Playwright, expect

from calc.board import board
from calc.rendering import BoardRow
from calc.rig import example_rig
from calc.start_lines import LINES
from hands import Visit
from server import Server

pytest_plugins = ("visits",)

EIGHT = {"name": "Orchard cart", **{plate.key: plate.example for plate in LINES}}
CAR = "run/car-distance/"
# Everything that a page says of its store, in the words of its state lines.
SAID_OF_RIG = "#rig-problem"
READ_STORE = """(change) => new Promise((resolve, reject) => {
  const opening = indexedDB.open("rigs");
  opening.onsuccess = () => {
    const store = opening.result.transaction("rigs", "readwrite").objectStore("rigs");
    const all = store.getAll();
    all.onsuccess = () => {
      for (const rig of all.result) if (change) store.put({ ...rig, ...change });
      store.transaction.oncomplete = () => { opening.result.close(); resolve(all.result); };
    };
  };
  opening.onerror = () => reject(opening.error);
})"""
# The phone is full: nothing can be put into a store any more.
FULL = """() => { IDBObjectStore.prototype.put = () => { throw new DOMException("full", "QuotaExceededError"); }; }"""
# What each thing is called.
HOSTILE = {
    "loads.0": "<img src=x onerror=alert(1)>",
    "loads.1": "<script>alert(1)</script>",
    "loads.2": "\"><svg onload=alert(1)>",
    "loads.3": "javascript:alert(1)",
    "cars.0": "{{ 7 * 7 }}",
    "cables.1": "&lt;b&gt;",
}


def expect_board_of(page: Page, name: str) -> None:
    """A first start answers every row, and may take its time."""
    expect(page.locator("#whose")).to_contain_text(name, timeout=60_000)
    expect(page.locator("#stale")).to_be_hidden()


def copy_of_example(visit: Visit) -> Page:
    """A copy of the example, in use."""
    page = visit("start/").page
    page.get_by_role("button", name="Or begin with a copy of the example").tap()
    expect_board_of(page, "facts, other rigs")
    return page


def verdicts(page: Page) -> list[str]:
    expect(page.locator("#stale")).to_be_hidden()
    rows: list[str] = page.locator(".rows .row strong").all_inner_texts()
    return [f"{row}: {page.locator('.rows .row').nth(place).get_attribute('data-verdict')}" for place, row in enumerate(rows)]


def tell_fact(page: Page, path: str, text: str) -> None:
    field = page.locator(f'[name="{path}"]')
    field.fill(text)
    field.press("Tab")


def open_part(page: Page, *titles: str) -> None:
    for title in titles:
        page.locator("#part a.row", has_text=title).first.tap()
        expect(page.locator("#part h2")).to_contain_text(title)


def test_eight_answers_make_a_rig_and_the_board_is_answered_for_it(visit: Visit) -> None:
    page = visit("start/").page
    assert page.locator("#start .ask").count() <= 8
    for name, text in EIGHT.items():
        page.locator(f'[name="{name}"]').fill(text)
    page.get_by_role("button", name="Make this rig").tap()
    expect_board_of(page, "Orchard cart")
    assert sum(not verdict.endswith("not known") for verdict in verdicts(page)) >= 8
    page.goto(page.url + "rig/")
    expect(page.locator("#rigs [aria-pressed=true]")).to_contain_text("Orchard cart")
    open_part(page, "Battery bank")
    expect(page.locator('[name="bank.energy"]')).to_have_value("10.24")


def test_an_answer_that_cannot_be_read_is_explained_and_makes_no_rig(visit: Visit) -> None:
    seen = visit("start/")
    assert seen.axe() == []
    page = seen.page
    page.locator('[name="bank"]').fill("LFP, 16s1p, 50 A")
    page.locator('[name="stands"]').fill("80 %\nplenty")
    page.get_by_role("button", name="Make this rig").tap()
    expect(page.locator("#problems")).to_be_focused()
    expect(page.locator("#problems a")).to_have_count(2)
    expect(page.locator("#bank-error")).to_contain_text("“50 A out”")
    expect(page.locator("#stands-error")).to_contain_text("“plenty” is not read here")
    expect(page.locator('[name="bank"]')).to_have_value("LFP, 16s1p, 50 A")
    assert seen.axe() == []
    page.locator('[name="bank"]').fill("LFP, 16s1p, 50 A in")
    page.get_by_role("button", name="Make this rig").tap()
    expect(page.locator("#bank-error")).to_be_empty()
    expect(page.locator("#stands-error")).to_contain_text("plenty")
    assert page.evaluate("() => localStorage.getItem('rig')") is None


def test_a_copy_of_the_example_is_answered_as_its_document_is(visit: Visit) -> None:
    """The same rows in the same order as Python makes them here: nothing is taken for known that the rig does not say."""
    expected = [BoardRow(row) for row in board(example_rig())]
    assert verdicts(copy_of_example(visit)) == [f"{row.title}: {row.verdict}" for row in expected]


def test_a_fact_is_kept_as_soon_as_it_is_changed_and_changes_the_answers(visit: Visit) -> None:
    page = copy_of_example(visit)
    page.goto(page.url + "rig/?part=bank")
    tell_fact(page, "bank.energy", "4.2")
    expect(page.locator("#rig-done")).to_have_text("Kept.")
    tell_fact(page, "bank.health", "lots")
    expect(page.locator('[id="bank.health-error"]')).to_contain_text("must be a number")
    other = visit(CAR)
    other.expect_echo("Nameplate energy of the bank", "4.2 kWh")
    expect(other.page.locator(".whose")).to_have_text(f"Worked for {example_rig().name}:")
    page.locator("#rig-undo").tap()
    expect(page.locator('[name="bank.energy"]')).to_have_value("10.2")


def test_what_is_typed_in_a_check_becomes_a_fact_on_one_tap(visit: Visit) -> None:
    copy_of_example(visit)
    seen = visit(CAR)
    seen.expect_echo("Nameplate energy of the bank", "10.2 kWh")
    seen.tell("Nameplate energy of the bank", "9.9")
    seen.expect_echo("Nameplate energy of the bank", "9.9 kWh")
    seen.page.get_by_role("button", name=re.compile("^Keep for the rig: Nameplate energy")).tap()
    expect(seen.page.locator("#keep button")).to_have_count(0)
    again = visit(CAR)
    again.expect_echo("Nameplate energy of the bank", "9.9 kWh")
    again.tell("Nameplate energy of the bank", "5")
    again.page.get_by_role("button", name="Your rig: 9.9").tap()
    again.expect_echo("Nameplate energy of the bank", "9.9 kWh")


def test_what_the_rig_does_not_say_is_not_known_and_never_shown_as_a_number(visit: Visit) -> None:
    page = visit("start/").page
    page.get_by_role("button", name="Make this rig").tap()
    expect_board_of(page, "your rig")
    seen = visit(CAR)
    seen.expect_verdict("not known")
    expect(seen.field("Nameplate energy of the bank")).to_have_value("")
    assert "Nameplate energy of the bank" not in seen.echo()
    expect(seen.page.locator("#fixes")).to_contain_text("Nameplate energy of the bank")


def test_the_panel_of_what_is_now_answers_the_board_again(visit: Visit) -> None:
    page = copy_of_example(visit)
    row = page.locator('.row[href*="car-distance"]').first
    before = row.inner_text()
    page.locator("#now summary").tap()
    tell_fact(page, "now.charge", "22")
    eventually(lambda: row.inner_text() != before)
    expect(page.locator("#stale")).to_be_hidden()


def test_the_last_board_is_there_before_python_and_says_so(visit: Visit) -> None:
    page = copy_of_example(visit)
    page.goto(page.url + "rig/?part=bank")
    tell_fact(page, "bank.energy", "4.4")
    expect(page.locator("#rig-done")).to_have_text("Kept.")
    home = visit("").page
    expect(home.locator("#stale")).to_be_hidden()
    shown = home.locator("#rows").inner_text()
    eventually(lambda: home.evaluate(READ_STORE, None)[0].get("board"))
    home.add_init_script("Worker = class extends EventTarget { postMessage() {} terminate() {} };")
    home.reload()
    expect(home.locator("#stale")).to_have_text("As it stood when you were here last. Being worked anew.")
    assert home.locator("#rows").inner_text() == shown


def test_two_tabs_keep_both_changes(visit: Visit) -> None:
    copy_of_example(visit)
    one, two = visit("rig/?part=bank").page, visit("rig/?part=inverter").page
    expect(one.locator('[name="bank.energy"]')).to_have_value("10.2")
    expect(two.locator('[name="inverter.idle"]')).to_have_value("55")
    tell_fact(one, "bank.energy", "8.8")
    tell_fact(two, "inverter.idle", "44")
    for page in (one, two):
        expect(page.locator("#rig-done")).to_have_text("Kept.")
    seen = visit(CAR)
    seen.expect_echo("Nameplate energy of the bank", "8.8 kWh")
    seen.expect_echo("Inverter's idle draw", "44 W")


def test_things_are_added_copied_and_removed_and_the_last_change_is_undone(visit: Visit) -> None:
    copy_of_example(visit)
    page = visit("rig/?part=loads").page
    expect(page.locator("#part h2")).to_contain_text("loads")
    count = page.locator("#part .row").count()
    assert count > 2
    page.get_by_role("button", name="Add one more load").tap()
    expect(page.locator('[name$=".name"]')).to_have_value("load")
    page.get_by_role("button", name="Copy this load").tap()
    expect(page.locator('[name$=".name"]')).to_have_value("load 2")
    page.get_by_role("button", name="Remove this load").tap()
    expect(page.locator("#part .row")).to_have_count(count + 1)
    page.locator("#rig-undo").tap()
    expect(page.locator("#part .row")).to_have_count(count + 2)


def test_a_removed_rig_can_be_brought_back(visit: Visit) -> None:
    copy_of_example(visit)
    page = visit("rig/").page
    page.get_by_role("button", name="Remove the rig in use").tap()
    expect(page.locator("#rig-done")).to_contain_text("Removed")
    gone = page.locator("#rigs button", has_text="Removed. Tap to bring it back.").first
    gone.tap()
    expect(page.locator("#rigs [aria-pressed=true]")).to_contain_text(example_rig().name)


def test_a_damaged_store_shows_the_rig_as_it_was_before_the_last_change_and_says_so(visit: Visit) -> None:
    page = copy_of_example(visit)
    page.goto(page.url + "rig/?part=bank")
    tell_fact(page, "bank.energy", "7.7")
    expect(page.locator("#rig-done")).to_have_text("Kept.")
    page.evaluate(READ_STORE, {"document": '{"barrowatt_rig": 1, "bank": {"ener'})
    seen = visit(CAR)
    expect(seen.page.locator(SAID_OF_RIG)).to_contain_text("could not be read")
    seen.expect_echo("Nameplate energy of the bank", "10.2 kWh")


def test_where_nothing_can_be_read_the_example_stands_in_and_the_store_is_left_as_it_is(visit: Visit) -> None:
    page = copy_of_example(visit)
    page.evaluate(READ_STORE, {"document": "rust", "before": "dust"})
    seen = visit(CAR)
    expect(seen.page.locator(SAID_OF_RIG)).to_contain_text("the example stands in")
    expect(seen.page.locator(".whose")).to_have_text("Worked for the example numbers:")
    assert page.evaluate(READ_STORE, None)[0]["document"] == "rust"
    with seen.page.expect_download() as saving:
        seen.page.get_by_role("link", name="Save what was stored as a file").click()
    assert saving.value.path().read_text() == "rust", "somebody may yet mend it by hand"


def test_a_full_phone_keeps_what_was_kept_and_says_that_the_change_is_not(visit: Visit) -> None:
    copy_of_example(visit)
    page = visit("rig/?part=bank").page
    expect(page.locator('[name="bank.energy"]')).to_have_value("10.2")
    page.evaluate(FULL)
    tell_fact(page, "bank.energy", "6.6")
    expect(page.locator(SAID_OF_RIG)).to_contain_text("no room left")
    seen = visit(CAR)
    seen.expect_echo("Nameplate energy of the bank", "10.2 kWh")


def test_a_name_never_becomes_markup(visit: Visit) -> None:
    """Each of the names on the page of a thing, and all of them on one board."""
    page = copy_of_example(visit)
    board = page.url
    for thing, words in HOSTILE.items():
        page.goto(f"{board}rig/?part={thing}")
        tell_fact(page, f"{thing}.name", words)
        expect(page.locator("#rig-done")).to_have_text("Kept.")
        page.reload()
        expect(page.locator("#part h2")).to_have_text(words)
        expect(page.locator(f'[name="{thing}.name"]')).to_have_value(words)
    home = visit("").page
    expect(home.locator("#stale")).to_be_hidden()
    for words in HOSTILE.values():
        expect(home.locator("#rows")).to_contain_text(words)
    assert home.locator("#rows :is(img, script, svg[onload], b b)").count() == 0


def test_a_file_goes_to_another_phone_and_answers_there_alike(visit: Visit, tmp_path: Path) -> None:
    home = copy_of_example(visit)
    page = visit("rig/?part=bank").page
    tell_fact(page, "bank.energy", "3.3")
    expect(page.locator("#rig-done")).to_have_text("Kept.")
    home.reload()
    expected = verdicts(home)
    with page.expect_download() as download:
        page.get_by_role("button", name="Save the rig in use as a file").tap()
    file = tmp_path / "rig.json"
    download.value.save_as(file)
    assert json.loads(file.read_text())["bank"]["energy"] == {"value": 3.3, "unit": "kWh"}
    page.evaluate("() => localStorage.removeItem('rig')")
    other = visit("rig/").page
    other.locator("#rig-file").set_input_files(file)
    expect(other.locator("#read")).to_contain_text("It is not kept yet")
    assert other.evaluate("() => localStorage.getItem('rig')") is None
    other.get_by_role("button", name="Keep it, and use it").tap()
    expect(other.locator("#rigs [aria-pressed=true]")).to_contain_text(example_rig().name)
    assert verdicts(visit("").page) == expected


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("{nothing of the kind", "not JSON"),
        ('{"barrowatt_rig": 99}', "version"),
        ('{"barrowatt_rig": 1, "bank": {"energy": {"value": -5, "unit": "kWh"}}}', "must be between"),
        ('{"barrowatt_rig": 1, "spell": {}}', "no rig has"),
        ("{" + "[" * 100_000, "nested"),
    ],
)
def test_a_file_that_is_no_rig_is_refused_with_the_reason(visit: Visit, tmp_path: Path, text: str, why: str) -> None:
    file = tmp_path / "rig.json"
    file.write_text(text)
    page = visit("rig/").page
    page.locator("#rig-file").set_input_files(file)
    expect(page.locator("#read")).to_contain_text(why)
    expect(page.locator("#rig-take")).to_be_hidden()


def test_a_browser_killed_in_the_middle_of_a_save_keeps_the_last_good_rig(phone: Phone) -> None:
    page = phone.install("start/")
    page.get_by_role("button", name="Or begin with a copy of the example").tap()
    expect_board_of(page, "facts, other rigs")
    page = phone.reopen("rig/?part=bank")
    expect(page.locator('[name="bank.energy"]')).to_have_value("10.2")
    for energy in ("9.1", "9.2", "9.3"):
        page.locator('[name="bank.energy"]').fill(energy)
        page.locator('[name="bank.energy"]').dispatch_event("change")
    phone.close()  # at once, whatever was under way
    page = phone.open(CAR)
    expect_ready(page)
    expect(page.locator("html")).not_to_have_class(re.compile("out-of-date"))
    expect(page.locator(SAID_OF_RIG)).to_be_hidden()
    energy = page.locator(".given", has_text=re.compile("^Nameplate energy of the bank ")).locator("b").inner_text().replace("\u00a0", " ")
    assert energy in {"10.2 kWh", "9.1 kWh", "9.2 kWh", "9.3 kWh"}


COLD = {"name": "Cold cart", "bank": "LFP, 1p, 100 Ah, 50 A in, 5 kWh", "settings": "charging 40 A", "stands": "cells 43 °F"}


def start_cold(page: Page) -> None:
    """A cold bank in three lines."""
    for name, text in COLD.items():
        page.locator(f'[name="{name}"]').fill(text)
    page.get_by_role("button", name="Make this rig").tap()
    expect_board_of(page, "Cold cart")


def test_a_proposed_change_is_made_on_one_tap_and_the_fault_is_gone(visit: Visit) -> None:
    """A fault on the walk-round, the tap that clears it, and back again. Lithium iron phosphate at 6 °C takes a tenth of C."""
    start_cold(visit("start/").page)
    walk = visit("walk-round/").page
    expect(walk.locator("#whose")).to_contain_text("Cold cart", timeout=60_000)
    fault = walk.locator("#faults .finding", has_text="Charge at this temperature")
    expect(fault).to_have_count(1)
    fault.locator("[data-facts]").first.tap()
    expect(walk.locator("#rig-done")).to_contain_text("Changed in your rig")
    expect(fault).to_have_count(0)
    walk.locator("#rig-undo").tap()
    expect(fault).to_have_count(1)


def test_a_rig_opened_from_its_code_on_another_phone_without_signal_has_the_same_verdicts(phone: Phone, server: Server, playwright: Playwright, tmp_path: Path) -> None:
    page = phone.install("start/")
    start_cold(page)
    expected = verdicts(page)
    assert any(verdict.endswith(": no") for verdict in expected)
    page.goto(server.address + "rig/")
    page.get_by_role("button", name="Show it as a code").tap()
    code = page.locator("#share .code svg")
    expect(code).to_have_count(1)
    code.screenshot(path=tmp_path / "code.png")
    [read] = zxingcpp.read_barcodes(Image.open(tmp_path / "code.png"))
    assert read.text.startswith(server.address + "rig/#rig=")
    other = Phone(playwright, tmp_path / "other", server)
    try:
        other.install()
        other.close()
        server.stop()
        opened = other.open_at(read.text)
        expect(opened.locator("#read")).to_contain_text("It is not kept yet", timeout=60_000)
        opened.get_by_role("button", name="Keep it, and use it").tap()
        expect(opened.locator("#rigs [aria-pressed=true]")).to_contain_text("Cold cart")
        opened.goto(server.address)
        expect_board_of(opened, "Cold cart")
        assert verdicts(opened) == expected
    finally:
        other.close()
