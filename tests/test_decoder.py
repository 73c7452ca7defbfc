"""The decoder that the site carries reads what the site draws, and what a phone's camera makes of it."""

from __future__ import annotations

import io
import json
import re
import subprocess
import sys
from pathlib import Path

import pytest
import resvg_py
from PIL import Image, ImageFilter

from calc.rig import example_rig
from calc.sharing import shared, unpacked
from calc.sharing.qr import drawn
from tests.test_codes import hand_cart, known
from tests.test_sharing import ADDRESS, LARGE

ROOT = Path(__file__).resolve().parents[1]
sys.path[:0] = [str(ROOT), str(ROOT / "site")]

import build  # noqa: E402

RIGS = {"example": example_rig(), "hand cart": hand_cart(), "large": LARGE}
READ = """
import { decodeQR } from "./decoder.mjs";
import { readFileSync } from "node:fs";
const read = ({ file, width, height }) => {
  try {
    return decodeQR({ width, height, data: new Uint8ClampedArray(readFileSync(file)) }, { timeLimit: 5000, effort: 16 });
  } catch {
    return "";
  }
};
console.log(JSON.stringify(JSON.parse(process.argv[2]).map(read)));
"""


def picture(svg: str, modules: float) -> Image.Image:
    """So many dots to a module."""
    (size,) = re.findall(r'viewBox="0 0 (\d+) \1"', svg)
    png = resvg_py.svg_to_bytes(svg_string=svg, width=round(int(size) * modules))
    return Image.open(io.BytesIO(bytes(png))).convert("RGBA")


@pytest.fixture(scope="module")
def decoder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """As the build makes it."""
    build.install_npm_packages()
    folder = tmp_path_factory.mktemp("decoder")
    (folder / "decoder.mjs").write_text(build.bundling.bundled("decodeQR", "qr/decode.js", build.SITE), encoding="utf-8")
    (folder / "read.mjs").write_text(READ, encoding="utf-8")
    return folder


def read(decoder: Path, pictures: list[Image.Image]) -> list[str]:
    files = []
    for number, image in enumerate(pictures):
        file = decoder / f"{number}.rgba"
        file.write_bytes(image.tobytes())
        files.append({"file": str(file), "width": image.width, "height": image.height})
    said = subprocess.run(["node", "read.mjs", json.dumps(files)], cwd=decoder, check=True, stdout=subprocess.PIPE, text=True)
    texts: list[str] = json.loads(said.stdout)
    return texts


@pytest.mark.parametrize("name", RIGS)
def test_a_rig_is_read_off_pictures_of_its_codes(name: str, decoder: Path) -> None:
    sharing = shared(RIGS[name], ADDRESS)
    svgs, texts = [sharing.code(number) for number in range(1, sharing.count + 1)], sharing.texts
    for modules in (3, 4.7):
        assert read(decoder, [picture(svg, modules) for svg in svgs]) == texts
    assert known(unpacked(*read(decoder, [picture(svg, 3) for svg in svgs][::-1]))) == known(RIGS[name])


def test_a_code_is_read_turned_dim_and_out_of_focus(decoder: Path) -> None:
    text = shared(example_rig(), ADDRESS).texts[0]
    sharp = picture(shared(example_rig(), ADDRESS).code(1), 6)
    grey = Image.composite(sharp.point(lambda light: 60 + light * 120 // 255), sharp, sharp.getchannel("A"))
    worn = [
        grey.rotate(turn, expand=True, fillcolor=(140, 130, 120, 255), resample=Image.Resampling.BICUBIC).filter(ImageFilter.GaussianBlur(1))
        for turn in (0, 8, 90, 187)
    ]
    assert read(decoder, worn) == [text] * len(worn)


def test_a_picture_without_a_code_says_nothing(decoder: Path) -> None:
    grey = Image.new("RGBA", (640, 480), (120, 120, 120, 255))
    half = picture(shared(example_rig(), ADDRESS).code(1), 4).crop((0, 0, 200, 400))
    assert read(decoder, [grey, half]) == ["", ""]


def test_other_codes_are_read_too_and_refused_by_who_knows_rigs(decoder: Path) -> None:
    assert read(decoder, [picture(drawn("https://example.org/menu", "", "a menu"), 5)]) == ["https://example.org/menu"]


def test_the_decoder_is_small_and_names_its_licence(decoder: Path) -> None:
    script = (decoder / "decoder.mjs").read_text(encoding="utf-8")
    assert len(build.gzip.compress(script.encode())) < 16_000
    assert "SPDX-License-Identifier" in script
