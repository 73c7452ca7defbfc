"""A whole test day without a signal, with the browser killed in the middle of it: nothing that was done is lost."""

from __future__ import annotations

import csv
import os
import re
import signal
import time
from collections.abc import Iterator
from datetime import datetime
from pathlib import Path

import pytest
from conftest import Phone
from playwright.sync_api import Error, Page, expect
from test_rig import copy_of_example, expect_board_of, tell_fact

from calc.parts_list import as_csv, parts_list
from calc.rig import example_rig
from hands import Visit
from server import Server

pytest_plugins = ("visits",)
BANK = {"bank volts, small load": "53.3", "bank amps, small load": "5", "bank volts, large load": "49.9", "bank amps, large load": "120"}
DUE_LATER = 11 * 60_000


def kill(profile: Path) -> None:
    """The browser's own processes of this profile end at once, without a word to their pages: as a phone kills them."""
    for process in Path("/proc").iterdir():
        try:
            words = (process / "cmdline").read_bytes() if process.name.isdecimal() else b""
        except OSError:
            continue
        if f"--user-data-dir={profile}".encode() in words:
            os.kill(int(process.name), signal.SIGKILL)


def note(page: Page, value: str) -> None:
    field = page.locator("#value")
    field.fill(value)
    page.get_by_role("button", name="Note it", exact=True).tap()
    expect(page.locator("#rig-done")).to_have_text("Noted.")
    expect(field).to_have_value("")


def expect_live(page: Page) -> None:
    """The script is there, and the page is the own rig's."""
    expect(page.locator("#note-it")).to_be_enabled()
    expect(page.locator("#not-kept")).to_be_hidden()
    expect(page.locator("#stale")).to_be_hidden(timeout=60_000)


def own_rig(phone: Phone) -> Page:
    page = phone.open("start/")
    page.locator('[name="name"]').fill("Test cart")
    page.locator('[name="bank"]').fill("1p, 10 kWh")
    page.get_by_role("button", name="Make this rig").tap()
    expect_board_of(page, "Test cart")
    page.goto(page.url + "rig/?part=bank")
    tell_fact(page, "bank.resistance", "10 mohm")
    expect(page.locator("#rig-done")).to_have_text("Kept.")
    return page


@pytest.fixture
def killed(phone: Phone, tmp_path: Path) -> Iterator[Phone]:
    """A phone whose browser may have been killed: then there is nothing left to close."""
    yield phone
    try:
        phone.close()
    except Error:
        phone._context = None


def test_a_test_day_without_signal_survives_the_browser_s_death(killed: Phone, server: Server, tmp_path: Path) -> None:
    phone = killed
    phone.install()
    server.stop()
    page = own_rig(phone)

    # The steps of the first gate are ticked, the half hour begins, a first reading is typed where it is due.
    page.goto(server.address + "first-power-up/")
    expect(page.locator("#of-rig")).to_contain_text("Test cart", timeout=60_000)
    ticks = page.locator("#gates .gate").first.locator(".tick")
    for place in range(ticks.count()):
        ticks.nth(place).tap()
    page.get_by_role("button", name="Start the half hour now").tap()
    began = time.time()
    expect(page.locator("#clock")).to_contain_text("left")
    expect(page.locator("#stop-again")).to_contain_text("everybody back")
    expect(page.locator("[data-minute='0']")).to_have_class(re.compile("due"))
    page.locator("#load [data-reading='bank volts, small load']").get_by_role("button").tap()
    expect(page.locator("label[for=value]")).to_contain_text("Bank volts, small load")
    note(page, BANK["bank volts, small load"])
    expect(page.locator("#load [data-reading='bank volts, small load'] .noted-value").first).to_have_text("53.3\u00a0V")

    # Killed, and opened again: the clock is right, the ticks stand, the reading is there.
    kill(tmp_path / "profile")
    try:
        phone.close()
    except Error:
        phone._context = None
    page = phone.open("first-power-up/")
    expect(page.locator("#of-rig")).to_contain_text("Test cart", timeout=60_000)
    gone = page.locator("#clock").inner_text()
    minutes, seconds = map(int, re.match(r"(\d+):(\d\d) gone", gone).groups())  # type: ignore[union-attr]
    assert abs(minutes * 60 + seconds - (time.time() - began)) < 5
    ticked = page.locator("#gates .gate").first.locator("input")
    for place in range(ticked.count()):
        expect(ticked.nth(place)).to_be_checked()
    expect(page.locator("#load [data-reading='bank volts, small load'] .noted-value").first).to_have_text("53.3\u00a0V")

    # The other three on the page of the log, each offered as the next: the miss names its causes.
    page.goto(server.address + "readings/")
    expect(page.locator("#noted")).to_contain_text("Test cart", timeout=60_000)
    expect(page.locator("#noted li")).to_have_count(1)
    page.locator("#what").select_option("bank amps, small load")
    for label, value in list(BANK.items())[1:]:
        expect(page.locator("label[for=value]")).to_contain_text(label[0].upper() + label[1:])
        note(page, value)
    expect(page.locator(".meaning")).to_have_attribute("data-verdict", "no")
    expect(page.locator("#meaning")).to_contain_text("1. a joint that is loose or dirty")
    expect(page.locator("#noted li")).to_have_count(4)

    # What was measured takes the assumed fact's place, and the board and the rig's form say since when.
    page.get_by_role("button", name=re.compile("Use the measured one")).tap()
    expect(page.locator("#rig-done")).to_have_text("The rig has the measured value now.")
    page.goto(server.address)
    expect_board_of(page, "Test cart")
    expect(page.locator("#rows")).to_contain_text(f"Measured on {datetime.now():%Y-%m-%d}.")
    page.goto(server.address + "rig/?part=bank")
    expect(page.locator(".measured")).to_contain_text("Measured on", timeout=60_000)
    expect(page.locator("[name='bank.resistance']")).to_have_value(re.compile(r"^29\.6"))


def test_a_reading_that_is_late_says_by_how_much(visit: Visit) -> None:
    """The page was closed for eleven minutes: it goes by the time of day and not by its own counting."""
    page = visit("first-power-up/").page
    expect(page.locator("#timer-start")).to_be_visible()
    page.clock.install()
    page.locator("#timer-start").tap()
    expect(page.locator("#clock")).to_contain_text("30:00 left")
    page.clock.fast_forward(DUE_LATER)
    expect(page.locator("#clock")).to_contain_text("11:0")
    expect(page.locator("#due")).to_contain_text("Minute 10 is 1 minute late")
    expect(page.locator("[data-minute='10']")).to_have_class(re.compile("due"))
    page.clock.fast_forward(2 * DUE_LATER)
    expect(page.locator("#clock")).to_contain_text("The half hour is over, 3 min ago")
    page.locator("#timer-stop").tap()
    expect(page.locator("#due")).to_contain_text("Stopped at minute 33")
    page.get_by_role("button", name="Undo: it goes on").tap()
    expect(page.locator("#due")).to_contain_text("late")


def test_ticks_are_taken_away_and_put_back_by_one_button(visit: Visit) -> None:
    page = visit("first-power-up/").page
    first = page.locator(".tick").first
    first.tap()
    expect(page.locator("#ticked")).to_contain_text("steps are ticked")
    page.locator("#ticks-clear").tap()
    expect(first.locator("input")).not_to_be_checked()
    page.locator("#ticks-clear").tap()
    expect(first.locator("input")).to_be_checked()
    page.reload()
    expect(first.locator("input")).to_be_checked()
    page.locator("#ticks-clear").tap()


def test_a_reading_is_noted_with_steppers_alone_and_can_be_undone_and_removed(visit: Visit) -> None:
    """With gloves on: no key of the phone's own keyboard is needed."""
    copy_of_example(visit)
    page = visit("readings/").page
    expect_live(page)
    before = page.locator("#noted li").count()
    page.get_by_role("button", name="More: Bank volts, small load").tap()
    page.get_by_role("button", name="Note it", exact=True).tap()
    expect(page.locator("#noted li")).to_have_count(before + 1)
    page.get_by_role("button", name="Undo the last change").tap()
    expect(page.locator("#noted li")).to_have_count(before)
    page.locator("#noted").get_by_role("button", name=re.compile("^Remove")).first.tap()
    expect(page.locator("#noted li")).to_have_count(before - 1)
    page.get_by_role("button", name="Undo the last change").tap()
    expect(page.locator("#noted li")).to_have_count(before)


def test_what_cannot_be_read_stays_in_its_field_and_says_why(visit: Visit) -> None:
    page = visit("readings/").page
    page.locator("#value").fill("5000")
    page.get_by_role("button", name="Note it", exact=True).tap()
    expect(page.locator("#value-error")).to_contain_text("must be between")
    expect(page.locator("#value")).to_have_value("5000")
    expect(page.locator("#not-kept")).to_be_visible()


# The news of one tab's change reaches the other at any moment of the other's own change.
NEWS_IS_LATE = """
const post = BroadcastChannel.prototype.postMessage;
BroadcastChannel.prototype.postMessage = function (news) { setTimeout(() => post.call(this, news), window.late); };
"""


def test_two_tabs_that_note_at_once_both_keep_and_show_both_readings(visit: Visit) -> None:
    copy_of_example(visit)
    tabs = [visit("readings/", beforehand=NEWS_IS_LATE).page for _ in range(2)]
    for page in tabs:
        expect_live(page)
    noted = tabs[0].locator("#noted li").count()
    for late in (0, 8, 20, 30, 40, 60, 100):
        for page, value in zip(tabs, ("51", "52"), strict=True):
            page.evaluate("late => window.late = late", late)
            page.locator("#value").fill(value)
        for page in tabs:
            page.evaluate("() => document.querySelector('#log-form .work').click()")
        noted += 2
        for page in tabs:
            expect(page.locator("#noted li")).to_have_count(noted)
            expect(page.locator("#stale")).to_be_hidden()


def test_the_parts_are_saved_as_a_file_without_a_signal(phone: Phone, server: Server, tmp_path: Path) -> None:
    phone.install()
    server.stop()
    page = phone.open("hand-over/parts/")
    with page.expect_download() as download:
        page.get_by_role("button", name=re.compile("Save the parts as a file")).tap()
    file = tmp_path / "parts.csv"
    download.value.save_as(file)
    assert download.value.suggested_filename.endswith("parts.csv")
    rows = list(csv.DictReader(file.open(encoding="utf-8", newline="")))
    assert [list(row.values()) for row in rows] == [list(row.values()) for row in csv.DictReader(as_csv(parts_list(example_rig())).splitlines())]
