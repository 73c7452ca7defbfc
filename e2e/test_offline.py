"""Complete without signal after the first visit, said so only when it is true; updates wait and are asked for."""

from __future__ import annotations

import json
import re
import struct
from pathlib import Path

import pytest
from conftest import Phone, eventually, expect_ready, expect_saved
from playwright.sync_api import Page, expect

import build
from server import Server, site_files

CHECK = "wire/wire-for-run/"
STATE = "#state"
NEW_WORDS = b"Changed in the newer version."


def expect_state(page: Page, state: str) -> None:
    expect(page.locator(STATE)).to_have_attribute("data-state", state)


def expect_answer_to(page: Page, length: str) -> None:
    expect(page.locator("main")).to_contain_text(f"{length} ft")
    expect(page.locator("html")).not_to_have_class(re.compile("out-of-date"))


def publish_newer(site: Path) -> None:
    """A newer version of the site, in the place of the old one: one page reads differently."""
    files = site_files(site)
    files["about/index.html"] = files["about/index.html"].replace(b"</main>", b"<p>" + NEW_WORDS + b"</p></main>")
    build.publish(files, site)


def kept_files(site: Path) -> dict[str, str]:
    """Path -> the address of its pack."""
    text = (site / "keeper.js").read_text().removeprefix("const KEPT = ")
    packs: dict[str, list[tuple[str, str, int]]] = json.JSONDecoder().raw_decode(text)[0]["packs"]
    return {path: f"pack/{digest}.pack" for digest, files in packs.items() for path, _, _ in files}


def pack_of(site: Path, path: str) -> str:
    return kept_files(site)[path]


def test_a_first_visit_says_what_is_saved_and_then_that_all_is(phone: Phone, server: Server, site: Path) -> None:
    phone.beforehand.append(
        """window.said = [];
        new MutationObserver(() => {
          const words = document.getElementById("state")?.textContent.trim();
          if (words && words !== window.said.at(-1)) window.said.push(words);
        }).observe(document, { childList: true, subtree: true });"""
    )
    page = phone.install()
    said = page.evaluate("() => window.said")
    files = len(kept_files(site))
    assert "Not saved on this phone yet." in said
    counts = [int(found[1]) for words in said if (found := re.fullmatch(rf"Saving to this phone: (\d+) of {files}\.", words))]
    assert counts and counts == sorted(counts)
    assert re.fullmatch(r"Saved on this phone\. Works without signal\. Version [0-9a-f]{8}\.", said[-1])
    assert sum("Saved on this phone" in words for words in said) == 1


def test_everything_but_icons_and_pictures_of_screens_is_kept(site: Path) -> None:
    assert set(kept_files(site)) == {path for path in site_files(site) if not path.endswith(".png")}


def test_with_the_server_gone_the_page_opens_and_a_new_answer_is_worked(phone: Phone, server: Server) -> None:
    phone.install()
    phone.close()
    server.stop()
    page = phone.open(CHECK)
    expect_saved(page)
    expect_ready(page)
    page.locator("[name=run_length]").fill("41.3")
    expect_answer_to(page, "41.3")


def test_a_deep_link_with_its_question_opens_without_signal(phone: Phone, server: Server) -> None:
    phone.install()
    phone.close()
    server.stop()
    page = phone.open(CHECK + "?run_length=43.7&units=us&rules=nec")
    expect_ready(page)
    expect(page.locator("[name=run_length]")).to_have_value("43.7")
    expect_answer_to(page, "43.7")


@pytest.mark.parametrize("typed", ["wire/wire-for-run", "no/such/page/"])
def test_an_address_that_is_not_quite_a_page_finds_one_without_signal(phone: Phone, server: Server, typed: str) -> None:
    phone.install()
    server.stop()
    page = phone.open(typed)
    expect(page).to_have_url(server.address + (CHECK if typed in CHECK else ""))
    expect(page.locator("h1")).to_be_visible()


def test_a_file_missing_in_the_first_install_is_fetched_at_the_next_visit_and_only_it(phone: Phone, server: Server, site: Path) -> None:
    missing = pack_of(site, "about/index.html")
    server.spoilt[missing] = None
    page = phone.open(CHECK)
    expect_state(page, "unfinished")
    expect_ready(page)  # from the network
    server.spoilt.clear()
    server.asked.clear()
    page.reload()
    expect_saved(page)
    assert [path for path in server.asked if path.startswith("/pack/")] == [f"/{missing}"]


def test_a_changed_byte_in_an_update_is_refused_and_the_old_version_goes_on(phone: Phone, server: Server, site: Path) -> None:
    phone.install()
    publish_newer(site)
    pack = pack_of(site, "about/index.html")
    changed = bytearray((site / pack).read_bytes())
    changed[-20] ^= 1
    server.spoilt[pack] = bytes(changed)
    page = phone.reopen("about/")
    eventually(lambda: f"/{pack}" in server.asked)
    expect_saved(page)
    expect(page.locator("#state-update")).to_be_hidden()
    server.stop()
    page.reload()
    expect(page.locator("main")).not_to_contain_text(NEW_WORDS.decode())
    expect_saved(page)


def test_an_update_waits_is_asked_for_and_keeps_the_form(phone: Phone, server: Server, site: Path) -> None:
    page = phone.install(CHECK)
    page.locator("[name=run_length]").fill("47.9")
    expect_answer_to(page, "47.9")
    before = page.locator(STATE).text_content()
    publish_newer(site)
    server.asked.clear()
    page.evaluate("async () => { await (await navigator.serviceWorker.ready).update(); }")
    expect(page.locator("#state-update")).to_be_visible()
    assert sorted(path for path in server.asked if path.startswith("/pack/")) == [f"/{pack_of(site, 'about/index.html')}"]
    # The old version goes on under the person's hands.
    page.locator("[name=run_length]").fill("48.1")
    expect_answer_to(page, "48.1")
    expect(page.locator(STATE)).to_have_text(before or "")
    page.locator("#state-update").click()
    expect(page.locator("#state-update")).to_be_hidden()
    expect_saved(page)
    expect(page.locator(STATE)).not_to_have_text(before or "")
    expect(page.locator("[name=run_length]")).to_have_value("48.1")
    expect_ready(page)
    server.stop()
    about = phone.open("about/")
    expect(about.locator("main")).to_contain_text(NEW_WORDS.decode())
    assert sorted(entries(about)) == sorted(f"{server.address}{pack}?{path}" for path, pack in kept_files(site).items())


def test_a_page_left_open_looks_for_an_update_every_hour(phone: Phone, server: Server, site: Path) -> None:
    page = phone.open("manifest.webmanifest")
    page.clock.install()
    page.goto(server.address + CHECK)
    expect_saved(page)
    publish_newer(site)
    page.clock.fast_forward("59:00")
    expect(page.locator("#state-update")).to_be_hidden()
    page.clock.fast_forward("02:00")
    expect(page.locator("#state-update")).to_be_visible()


def test_another_open_tab_offers_to_reload_after_an_update(phone: Phone, server: Server, site: Path) -> None:
    page, other = phone.install(CHECK), phone.open("about/")
    expect_saved(other)
    publish_newer(site)
    page.evaluate("async () => { await (await navigator.serviceWorker.ready).update(); }")
    page.locator("#state-update").click()
    expect_state(other, "elsewhere")
    other.locator("#state-reload").click()
    expect(other.locator("main")).to_contain_text(NEW_WORDS.decode())


def test_what_has_gone_is_said_to_have_gone_and_is_fetched_again(phone: Phone, server: Server, site: Path) -> None:
    page = phone.install()
    lost = pack_of(site, "about/index.html")
    kept = f"{server.address}{lost}?about/index.html"
    page.evaluate("async (key) => (await caches.open('barrowatt')).delete(key)", kept)
    server.stop()
    page.reload()
    expect_state(page, "missing")
    expect(page.locator(STATE)).to_contain_text("1 of ")
    server.start()
    page.reload()
    expect_saved(page)
    assert kept in entries(page)


@pytest.mark.parametrize(("answer", "state"), [("true", "granted"), ("false", "refused")])
def test_the_browser_is_asked_to_keep_it_after_the_first_use_and_its_answer_is_said(phone: Phone, answer: str, state: str) -> None:
    phone.beforehand.append(f"StorageManager.prototype.persisted = async () => false; StorageManager.prototype.persist = async () => {answer};")
    page = phone.install(CHECK)
    expect(page.locator("#state-stay")).to_be_hidden()
    page.locator("[name=run_length]").fill("51.1")
    expect(page.locator("#state-stay")).to_have_attribute("data-state", state)
    expect(page.locator("#state-stay")).to_be_visible()


def test_on_an_iphones_tab_the_home_screen_is_named(phone: Phone) -> None:
    phone.beforehand.append("Object.defineProperty(Navigator.prototype, 'standalone', { value: false });")
    page = phone.install(CHECK)
    page.locator("[name=run_length]").fill("51.3")
    expect(page.locator("#state-stay")).to_contain_text("home screen")


def test_a_full_phone_is_said_to_be_full_and_the_page_works_from_the_network(phone: Phone, server: Server) -> None:
    page = phone.open("manifest.webmanifest")
    control = phone.context.new_cdp_session(page)
    control.send("Storage.overrideQuotaForOrigin", {"origin": server.address.rstrip("/"), "quotaSize": 3_000_000})
    page.goto(server.address + CHECK)
    expect_state(page, "full")
    expect_ready(page)


def test_it_can_be_installed(phone: Phone, site: Path) -> None:
    page = phone.install()
    control = phone.context.new_cdp_session(page)
    assert control.send("Page.getInstallabilityErrors")["installabilityErrors"] == []
    manifest = json.loads((site / "manifest.webmanifest").read_text())
    assert {"id", "name", "short_name", "description", "lang", "start_url", "scope", "display", "icons"} <= set(manifest)
    assert "orientation" not in manifest
    assert {screen["form_factor"] for screen in manifest["screenshots"]} == {"narrow", "wide"}
    for icon in manifest["icons"] + manifest["screenshots"]:
        # PNG, third edition, clause 11.2.2: the header's width and height, big-endian, after 16 bytes.
        width, height = struct.unpack(">II", (site / icon["src"]).read_bytes()[16:24])
        assert icon["sizes"] == f"{width}x{height}"


def entries(page: Page) -> list[str]:
    found: list[str] = page.evaluate("async () => (await (await caches.open('barrowatt')).keys()).map(({ url }) => url)")
    return found
