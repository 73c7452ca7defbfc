"""A code is read off a picture inside the page, without signal and under its policy."""

from __future__ import annotations

import base64
import io
import re

import pytest
import resvg_py
from conftest import Phone
from PIL import Image
from playwright.sync_api import FilePayload, Page, expect

from calc.rig import example_rig
from calc.sharing import shared
from server import Server, site_files

ADDRESS = "https://somewhere.example.org/barrowatt/rig/"
LOOK = """async ([script, picture]) => {
  const bytes = Uint8Array.from(atob(picture), (letter) => letter.charCodeAt(0));
  const { textIn } = await import(script);
  return textIn(new Blob([bytes], { type: "image/png" }));
}"""


def as_taken(kind: str = "PNG", width: int = 3000) -> bytes:
    """The example's code on grey, smaller than the picture and a little askew."""
    png = resvg_py.svg_to_bytes(svg_string=shared(example_rig(), ADDRESS).code(1), width=width // 2)
    whole = Image.new("RGB", (width, width * 3 // 4), (150, 148, 140))
    code = Image.open(io.BytesIO(bytes(png))).convert("RGBA").rotate(4, expand=True, resample=Image.Resampling.BICUBIC)
    whole.paste(code, (width // 5, width // 12), code)
    written = io.BytesIO()
    whole.save(written, kind)
    return written.getvalue()


@pytest.fixture
def away(phone: Phone, server: Server) -> Page:
    """A page that was saved on the phone, and the server gone for good."""
    phone.install()
    phone.close()
    server.stop()
    return phone.open("about/")


def script(server: Server) -> str:
    (name,) = [path for path in site_files(server.folder) if re.fullmatch(r"picture-[0-9a-f]{8}\.js", path)]
    return server.address + name


def look(page: Page, server: Server, picture: bytes) -> str:
    told: str = page.evaluate(LOOK, [script(server), base64.b64encode(picture).decode()])
    return told


def test_a_code_is_read_off_a_photograph_without_signal(away: Page, server: Server, phone: Phone) -> None:
    for kind in ("PNG", "JPEG"):
        assert look(away, server, as_taken(kind)) == shared(example_rig(), ADDRESS).texts[0]
    # The keeper asks in vain whether there is an update; the policy has nothing to complain of.
    assert [complaint for complaint in phone.complaints if "ERR_CONNECTION_REFUSED" not in complaint] == []


def test_a_rig_is_taken_in_from_pictures_of_its_codes(phone: Phone) -> None:
    page = phone.install("rig/")
    sharing = shared(example_rig(), ADDRESS)
    pictures = [bytes(resvg_py.svg_to_bytes(svg_string=sharing.code(number), width=700)) for number in range(sharing.count, 0, -1)]
    files: list[FilePayload] = [{"name": "code.png", "mimeType": "image/png", "buffer": picture} for picture in pictures]
    page.locator("#rig-picture").set_input_files(files)
    expect(page.locator("#read")).to_contain_text(f"This is a rig: {example_rig().name}")
    page.locator("#rig-take").click()
    expect(page.locator("#rigs")).to_contain_text(example_rig().name)
    assert phone.complaints == []


def test_a_picture_without_a_code_says_nothing_and_what_is_no_picture_is_told(away: Page, server: Server) -> None:
    blank = io.BytesIO()
    Image.new("RGB", (800, 600), (90, 90, 90)).save(blank, "PNG")
    assert look(away, server, blank.getvalue()) == ""
    with pytest.raises(Exception, match="decoded|InvalidStateError"):
        look(away, server, b"no picture")


def test_no_page_fetches_the_decoder_before_it_is_asked(phone: Phone) -> None:
    phone.install()
    assert not [address for address in phone.requests if re.search(r"/(picture|decoder)-", address)]
