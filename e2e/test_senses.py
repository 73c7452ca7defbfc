"""What the phone fills in by itself: position, tilt, heading, slope. Asked on a tap, never needed, told in plain words.

The site was saved at a first visit and its server is stopped: none of it needs a network. The browser is given a
position by its own emulation, and its orientation events by the page of the test or by the browser's debugger.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from typing import Any

import pytest
from conftest import Phone, expect_ready
from playwright.sync_api import Locator, Page, Playwright, expect
from scipy.spatial.transform import Rotation

from calc.laws.declination import declination_at
from calc.units import degree
from hands import CheckPage
from packing.serving import PERMITTED
from server import Server

SUN, PARKED = "refill/sun-today/", "roll/parking/"
POSITION, LAY, COMPASS = "Use this phone's position", "Lay the phone on it", "Lay the phone on it: compass"
# The summit of the highest mountain of the Rocky Mountains, to a hundredth of a degree: Mount Elbert, 39.12° N, 106.45° W.
MOUNTAIN = {"latitude": 39.1178, "longitude": -106.4454}
# The steepest slope in the example's numbers [%].
AS_IT_CAME = "2"
# Orientation events as a phone sends them, many in a second, of how it lies just now.
EVENTS = """
setInterval(() => {
  if (!window.lies) return;
  const event = new DeviceOrientationEvent(window.lies.kind, window.lies);
  if ("compass" in window.lies) Object.defineProperty(event, "webkitCompassHeading", { value: window.lies.compass });
  window.dispatchEvent(event);
}, 20);
"""


@pytest.fixture(scope="module")
def away(playwright: Playwright, dist: Any, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Phone]:
    """A phone on which the site is saved, where there is no signal."""
    server = Server(dist)
    phone = Phone(playwright, tmp_path_factory.mktemp("profile"), server)
    phone.beforehand.append(EVENTS)
    phone.install()
    server.stop()
    yield phone
    phone.close()


@pytest.fixture
def open_away(away: Phone) -> Iterator[Any]:
    opened: list[Page] = []
    away.complaints.clear()

    def open_page(path: str) -> CheckPage:
        page = away.open(path)
        opened.append(page)
        page.set_viewport_size({"width": 390, "height": 844})
        expect_ready(page)
        return CheckPage(page)

    yield open_page
    for page in opened:
        page.evaluate("() => localStorage.clear()")
        page.close()
    away.context.clear_permissions()
    # That the server is away is what the browser may complain of, and nothing else.
    assert [words for words in away.complaints if "ERR_CONNECTION_REFUSED" not in words] == []


def button(seen: CheckPage, words: str) -> Locator:
    return seen.page.get_by_role("button", name=re.compile(f"^{re.escape(words)}:? "))


def said(seen: CheckPage, sense: str) -> Locator:
    return seen.page.locator(f"[data-sense={sense}] + .sensed")


def lie(seen: CheckPage, turned: Rotation, kind: str = "deviceorientation", **more: Any) -> None:
    """The phone lies like this from now on."""
    alpha, beta, gamma = (float(angle) for angle in turned.as_euler("ZXY", degrees=True))
    seen.page.evaluate("lies => { window.lies = lies; }", {"kind": kind, "alpha": alpha % 360, "beta": beta, "gamma": gamma, **more})


def lying(slope: float, uphill: float, heading: float) -> Rotation:
    """On its back on a plane: how steep, which way is up it, and where its top points along it. Degrees."""
    east, north = math.sin(math.radians(uphill)), math.cos(math.radians(uphill))
    tipped = Rotation.from_rotvec([slope * north, -slope * east, 0], degrees=True)
    return tipped * Rotation.from_euler("Z", -heading, degrees=True)


# --- position -----------------------------------------------------------------------------------------------------------


def test_a_tap_fills_in_the_position_and_the_answer_follows(open_away: Any, away: Phone) -> None:
    away.context.grant_permissions(["geolocation"])
    away.context.set_geolocation({**MOUNTAIN, "accuracy": 12})
    seen = open_away(SUN)
    before = seen.say.inner_text()
    button(seen, POSITION).tap()
    expect(said(seen, "latitude")).to_have_text("Filled in, to a hundredth of a degree: about a kilometre. It stays on this phone.")
    assert {name: text for name, text in seen.fields().items() if name.endswith("tude")} == {"latitude": "39.12", "longitude": "−106.45"}
    seen.expect_echo("Latitude", "39.12°")
    assert seen.say.inner_text() != before
    assert seen.axe() == []


def test_the_position_is_asked_for_on_a_tap_only(open_away: Any) -> None:
    seen = open_away(SUN)
    asked = seen.page.evaluate("() => navigator.permissions.query({ name: 'geolocation' }).then(({ state }) => state)")
    assert asked != "granted"
    expect(said(seen, "latitude")).to_have_text("")


def test_a_refused_position_is_said_and_may_be_typed(open_away: Any, away: Phone) -> None:
    away.context.clear_permissions()
    seen = open_away(SUN)
    button(seen, POSITION).tap()
    expect(said(seen, "latitude")).to_contain_text("told not to give its position")
    expect(said(seen, "latitude")).to_contain_text("or type it in")
    seen.tell("Latitude", "12.5")
    seen.expect_echo("Latitude", "12.5°")


@pytest.mark.parametrize(("code", "words"), [(2, "finds no position here"), (3, "No position within a minute")])
def test_no_position_and_a_slow_one_are_said(open_away: Any, code: int, words: str) -> None:
    """The codes are those of the W3C's Geolocation: 2 is unavailable, 3 is a timeout."""
    seen = open_away(SUN)
    seen.page.evaluate("code => { navigator.geolocation.getCurrentPosition = (found, failed) => failed({ code }); }", code)
    button(seen, POSITION).tap()
    expect(said(seen, "latitude")).to_contain_text(words)
    assert seen.fields()["latitude"] == "44.2"


def test_the_position_becomes_a_fact_of_ones_rig(open_away: Any, away: Phone) -> None:
    away.context.grant_permissions(["geolocation"])
    away.context.set_geolocation({**MOUNTAIN, "accuracy": 12})
    seen = open_away("start/")
    seen.page.get_by_role("button", name="Or begin with a copy of the example").tap()
    expect(seen.page.locator("#whose")).to_contain_text("facts, other rigs", timeout=60_000)
    seen = open_away("rig/?part=place")
    button(seen, POSITION).tap()
    expect(seen.page.locator("#rig-done")).to_have_text("Kept.")
    assert seen.axe() == []
    seen = open_away(SUN)
    seen.expect_echo("Latitude", "39.12°")
    seen.expect_echo("Longitude", "−106.45°")


# --- slope --------------------------------------------------------------------------------------------------------------


def test_two_places_cancel_a_planted_error_of_one_and_a_half_degrees(open_away: Any) -> None:
    """A ramp of 1:12 is 8.33 %: rounded up to the next half, 8.5. With 1.5° more or less it would read 11 or 5.7 %."""
    seen = open_away(PARKED)
    askew = Rotation.from_rotvec([1.5, 0, 0], degrees=True)
    ramp = math.degrees(math.atan(1 / 12))
    lie(seen, lying(ramp, 30, 30) * askew.inv())
    button(seen, LAY).tap()
    expect(said(seen, "slope")).to_contain_text("Hold still")
    expect(said(seen, "slope")).to_contain_text("Now turn the phone end for end")
    assert seen.fields()["grade"] == AS_IT_CAME, "one place alone says nothing yet"
    lie(seen, lying(ramp, 30, 210) * askew.inv())
    button(seen, LAY).tap()
    expect(said(seen, "slope")).to_contain_text("Filled in: 8.5 %")
    expect(said(seen, "slope")).to_contain_text("off by 1.5° itself")
    seen.expect_echo("Steepest slope", "8.5 %")
    # From now on the error is known, and one place is enough: here of another slope, 5 %.
    lie(seen, lying(math.degrees(math.atan(0.0495)), 120, 100) * askew.inv())
    button(seen, LAY).tap()
    expect(said(seen, "slope")).to_contain_text("Filled in: 5 %")
    expect(said(seen, "slope")).to_contain_text("less the 1.5°")
    assert seen.axe() == []


def test_a_phone_that_was_not_turned_fills_in_nothing(open_away: Any) -> None:
    seen = open_away(PARKED)
    lie(seen, lying(6, 0, 0))
    button(seen, LAY).tap()
    expect(said(seen, "slope")).to_contain_text("end for end")
    button(seen, LAY).tap()
    expect(said(seen, "slope")).to_contain_text("turned by 0°, not end for end")
    assert seen.fields()["grade"] == AS_IT_CAME


def test_two_places_of_different_slope_are_refused(open_away: Any) -> None:
    """The one 3°, the other 12°: the phone would be off by 4.5° itself."""
    seen = open_away(PARKED)
    lie(seen, lying(3, 0, 0))
    button(seen, LAY).tap()
    expect(said(seen, "slope")).to_contain_text("Now turn")
    lie(seen, lying(12, 0, 180))
    button(seen, LAY).tap()
    expect(said(seen, "slope")).to_contain_text("do not go together")
    assert seen.fields()["grade"] == AS_IT_CAME


def test_a_phone_that_moves_fills_in_nothing(open_away: Any) -> None:
    seen = open_away(PARKED)
    lie(seen, lying(6, 0, 0))
    seen.page.evaluate("() => setInterval(() => { window.lies.beta += 0.05; }, 50)")
    button(seen, LAY).tap()
    expect(said(seen, "slope")).to_contain_text(re.compile(r"It moved by \d\.\d° meanwhile"))
    assert seen.fields()["grade"] == AS_IT_CAME


def test_where_the_browser_gives_no_slope_it_is_said(open_away: Any) -> None:
    seen = open_away(PARKED)
    button(seen, LAY).tap()
    expect(said(seen, "slope")).to_have_text("This browser gives no slope: type it in.")


def test_a_refused_orientation_is_said(open_away: Any) -> None:
    """Some browsers ask their person first, by a function that others do not have."""
    seen = open_away(PARKED)
    seen.page.evaluate("() => { DeviceOrientationEvent.requestPermission = async () => 'denied'; }")
    button(seen, LAY).tap()
    expect(said(seen, "slope")).to_contain_text("told not to say how it lies")


# --- a panel's tilt and heading -----------------------------------------------------------------------------------------


def test_a_panel_is_read_from_the_browsers_own_events(open_away: Any, away: Phone) -> None:
    """Emulated by the browser's debugger: the event comes once, as of a phone that lies still."""
    seen = open_away(SUN)
    debugger = away.context.new_cdp_session(seen.page)
    alpha, beta, gamma = (float(angle) for angle in lying(30, 0, 70).as_euler("ZXY", degrees=True))
    debugger.send("DeviceOrientation.setDeviceOrientationOverride", {"alpha": alpha % 360, "beta": beta, "gamma": gamma})
    button(seen, LAY).first.tap()
    expect(said(seen, "tilt")).to_contain_text("it lies at 30°")
    seen.expect_echo("Tilt from flat", "30°")
    debugger.send("DeviceOrientation.clearDeviceOrientationOverride")


@pytest.mark.parametrize("how", ["absolute angles", "a compass heading of its top"])
def test_a_heading_is_magnetic_and_the_answer_allows_for_it(open_away: Any, how: str) -> None:
    """A panel at 30° whose upper edge lies to magnetic 20°: it faces 200° by the compass."""
    seen = open_away(SUN)
    turned = lying(30, 20, 290)
    if how == "absolute angles":
        lie(seen, turned, "deviceorientationabsolute", absolute=True)
    else:
        # Its own angle counts from anywhere; the heading of its top, which here points along the panel, is told beside it.
        lie(seen, Rotation.from_euler("Z", 77, degrees=True) * turned, compass=290)
    button(seen, COMPASS).tap()
    expect(said(seen, "heading")).to_contain_text("Filled in: 200° by the compass")
    assert seen.fields()["facing"] == "200"
    assert seen.fields()["heading_by"] == "a compass: magnetic north"
    seen.expect_echo("Heading it faces", "200°")
    off = declination_at(44.2 * degree, -110.6 * degree).number_in(degree)
    expect(seen.page.locator("#working")).to_contain_text(f"{200 + off:.3g}")


def test_a_panel_that_lies_flat_faces_nowhere(open_away: Any) -> None:
    seen = open_away(SUN)
    lie(seen, lying(2, 20, 0), "deviceorientationabsolute", absolute=True)
    button(seen, COMPASS).tap()
    expect(said(seen, "heading")).to_contain_text("too flat to face anywhere")


def test_angles_that_count_from_anywhere_are_no_heading(open_away: Any) -> None:
    seen = open_away(SUN)
    lie(seen, lying(30, 20, 0))
    button(seen, COMPASS).tap()
    expect(said(seen, "heading")).to_have_text("This browser gives no heading: type it in.")


def test_without_scripts_no_button_promises_it(playwright: Playwright, dist: Any) -> None:
    server = Server(dist)
    browser = playwright.chromium.launch(executable_path="/usr/bin/chromium", args=["--no-sandbox"])
    page = browser.new_context(java_script_enabled=False).new_page()
    came = page.goto(server.address + SUN)
    assert came and came.header_value("Permissions-Policy") == PERMITTED
    assert page.locator(".sense").count() == 3
    for one in page.locator(".sense").all():
        expect(one).to_be_hidden()
    browser.close()
    server.stop()
