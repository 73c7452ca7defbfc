"""Codes as SVG, drawn by another library as a picture and read by a third: what a phone reads is what was written."""

from __future__ import annotations

import io
import json
import random
import re
from urllib.parse import parse_qsl
from xml.etree import ElementTree

import pytest
import resvg_py
import zxingcpp
from PIL import Image, ImageFilter

from calc import units
from calc.catalogue import all_checks, check_called
from calc.check import Check
from calc.form import fill
from calc.quantity import Quantity
from calc.rig import Rig, example_rig, read_rig
from calc.sharing import codes, qr, shared, unpacked
from calc.sharing.proof import proof, question
from tests.test_sharing import ADDRESS, LARGE, PLAN, known, without

CHECKS = all_checks()
NOBODYS_RIG = Rig("", {})


def picture(svg: str, modules: int = 4) -> Image.Image:
    """As a screen shows it: so many dots to a module."""
    (size,) = re.findall(r'viewBox="0 0 (\d+) \1"', svg)
    png = resvg_py.svg_to_bytes(svg_string=svg, width=int(size) * modules, background="#888")
    return Image.open(io.BytesIO(bytes(png))).convert("L")


def read(svg: str) -> zxingcpp.Barcode:
    (found,) = zxingcpp.read_barcodes(picture(svg), formats=zxingcpp.BarcodeFormat.QRCode)
    return found


def version(svg: str) -> int:
    """ISO/IEC 18004, 5.3.1: 17 modules and 4 for each version; and the quiet zone on both sides."""
    (size,) = re.findall(r'viewBox="0 0 (\d+) \1"', svg)
    of, rest = divmod(int(size) - 2 * 4 - 17, 4)
    assert rest == 0
    return of


def hand_cart() -> Rig:
    """Nothing like the example: metric, 24 V, another script, one cord, a walker's plan."""
    return read_rig(
        json.dumps(
            {
                "barrowatt_rig": 1,
                "name": "Чумацький віз № 2",
                "bank": {"chemistry": "LFP", "series": {"value": 8, "unit": ""}, "energy": {"value": 5120, "unit": "Wh"}},
                "chassis": {"kind": "hand cart, two wheels", "track": {"value": 62.5, "unit": "cm"}},
                "loads": [{"name": "Лебідка"}, {"name": "Wasserpumpe", "watts": {"value": 0.75, "unit": "kW"}}],
                "place": {"hottest": {"value": 41.5, "unit": "°C"}, "altitude": {"value": 2362, "unit": "ft"}},
            }
        )
    )


RIGS = {"example": example_rig(), "hand cart": hand_cart(), "nothing known": NOBODYS_RIG, "large": LARGE}


# --- a rig ---------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", RIGS)
@pytest.mark.parametrize("address", ["", ADDRESS, "https://example.org/" + "a-folder/" * 12])
def test_a_rig_is_read_off_its_codes(name: str, address: str) -> None:
    sharing = shared(RIGS[name], address)
    texts = [read(sharing.code(number)).text for number in range(1, sharing.count + 1)]
    assert texts == sharing.texts
    assert all(text.startswith(address) for text in texts)
    assert known(unpacked(*random.Random(1).sample(texts, len(texts)))) == known(RIGS[name])


def test_a_hand_cart_takes_one_code_the_example_more_and_a_large_rig_several_of_one_size() -> None:
    (one,) = codes(RIGS["hand cart"], ADDRESS)
    assert 1 < len(codes(example_rig(), ADDRESS)) < shared(LARGE, ADDRESS).count
    several = codes(LARGE, ADDRESS)
    assert len(several) > 2 and len({version(svg) for svg in several}) == 1
    assert all(version(svg) <= 20 for svg in [one, *several])


def test_the_largest_code_is_filled_to_the_last_letter() -> None:
    for address in ("", "#", ADDRESS, "https://example.org/" + "a-folder/" * 12):
        letters = qr.letters_beside(address)
        assert version(qr.drawn(address, "A" * letters, "")) == 20
        with pytest.raises(ValueError):
            qr.drawn(address, "A" * (letters + 1), "")


def test_readings_that_would_take_a_code_more_than_is_borne_stay_behind(monkeypatch: pytest.MonkeyPatch) -> None:
    assert len(codes(LARGE, ADDRESS)) == shared(LARGE, ADDRESS).count, "where leaving out does not help, nothing is"
    enough = shared(LARGE, ADDRESS).count - 1
    monkeypatch.setattr("calc.sharing.ENOUGH_CODES", enough)
    texts = [read(svg).text for svg in codes(LARGE, ADDRESS)]
    assert len(texts) <= enough and known(unpacked(*texts)) in (without(LARGE, "readings"), without(LARGE, "readings", *PLAN))


@pytest.mark.parametrize("name", ["example", "hand cart"])
def test_a_code_is_of_level_m_or_better(name: str) -> None:
    """ISO/IEC 18004, 7.5: M recovers 15 % of the codewords: what a finger's width of dirt takes."""
    for svg in codes(RIGS[name], ADDRESS):
        assert read(svg).ec_level in ("M", "Q", "H")


@pytest.mark.parametrize("name", ["example", "hand cart"])
def test_a_code_is_read_dim_grey_turned_and_out_of_focus(name: str) -> None:
    sharing = shared(RIGS[name], ADDRESS)
    for number, text in enumerate(sharing.texts, 1):
        worn = picture(sharing.code(number), 5).point(lambda light: 70 + light * 110 // 255)
        worn = worn.rotate(11, expand=True, fillcolor=120, resample=Image.Resampling.BICUBIC)
        (found,) = zxingcpp.read_barcodes(worn.filter(ImageFilter.GaussianBlur(1.2)))
        assert found.text == text


def test_a_code_is_black_on_white_with_its_quiet_zone() -> None:
    """ISO/IEC 18004, 9.1: four modules on every side; and no style that a strict policy would refuse."""
    drawn = codes(example_rig(), ADDRESS)
    for place, svg in enumerate(drawn, start=1):
        shades = picture(svg, 1)
        assert set(shades.tobytes()) == {0, 255}
        frame = shades.copy()
        frame.paste(255, (4, 4, shades.width - 4, shades.height - 4))
        assert set(frame.tobytes()) == {255}
        assert shades.getpixel((4, 4)) == shades.getpixel((shades.width - 5, 4)) == 0
        root = ElementTree.fromstring(svg)
        assert root.get("role") == "img" and root.get("aria-label") == f"Code {place} of {len(drawn)}"
        assert not any({"style", "onload"} & set(element.keys()) for element in root.iter())


# --- the proof of an answer ------------------------------------------------------------------------------------------------


def values(check: Check) -> dict[str, object]:
    every = {name: getattr(check, name) for name in check.asks if check.asked(name)}
    return {name: value.si if isinstance(value, Quantity) else value for name, value in every.items()}


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check.id)
@pytest.mark.parametrize("people", units.PEOPLE)
def test_a_proof_asks_the_same_to_the_last_digit_whatever_rig_the_reader_has(check: type[Check], people: str) -> None:
    """Also in feet what was stored in millimetres; and nothing is left for another rig to fill."""
    for rules in check.rule_sets:
        with units.shown_to(people):
            asked = fill(check, {}, rules=rules)
            texts = dict(parse_qsl(question(asked).removeprefix("?"), strict_parsing=True, keep_blank_values=True))
            assert texts.pop("units") == people and texts.pop("rules") == rules
            again = fill(check, texts, NOBODYS_RIG, rules)
            assert asked.check and again.check and not again.missing
            assert values(again.check) == values(asked.check)


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check.id)
def test_a_proof_is_read_off_its_code_which_stays_coarse(check: type[Check]) -> None:
    asked = fill(check, {})
    address = f"https://somewhere.example.org/barrowatt/{check.id}/"
    svg = proof(asked, address)
    assert read(svg).text == address + question(asked)
    assert version(svg) <= 18


def test_what_was_typed_stays_as_it_was_typed() -> None:
    asked = fill(check_called("wire/wire-for-run"), {"run_length": "75"})
    assert "&run_length=75&" in question(asked)
    asked = fill(check_called("wire/wire-for-run"), {"run_length": "22 m"})
    assert "&run_length=22+m&" in question(asked), "which is 72.178477690288722 ft"


def test_what_is_not_asked_is_not_said() -> None:
    asked = fill(check_called("wire/wire-for-run"), {"circuit": "dc"})
    assert asked.check and not asked.check.asked("power_factor")
    assert "power_factor" not in question(asked)


def test_an_answer_that_lacks_a_number_has_no_proof() -> None:
    for asked in (fill(CHECKS[0], {}, NOBODYS_RIG), fill(CHECKS[0], dict.fromkeys(CHECKS[0].asks, "12 x 12"))):
        with pytest.raises(ValueError, match="no proof"):
            proof(asked, ADDRESS)
