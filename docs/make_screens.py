"""Makes the pictures that a browser shows when the site is installed: `python docs/make_screens.py`.

Taken of the built site in `dist/`, with the browser that e2e uses; to be made again when the looks change.
"""

from __future__ import annotations

import io
import sys
from pathlib import Path

from PIL import Image
from playwright.sync_api import sync_playwright

ROOT = Path(__file__).resolve().parents[1]
sys.path.insert(0, str(ROOT / "e2e"))

from engines import CHROMIUM  # noqa: E402
from server import Server  # noqa: E402

SCREENS = {"phone": ("run/tool-on-outlet/", 390, 844, 2), "desk": ("", 1280, 800, 1)}


def main() -> None:
    server = Server(ROOT / "dist")
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path="/usr/bin/chromium", args=CHROMIUM)
        for name, (path, width, height, scale) in SCREENS.items():
            page = browser.new_page(viewport={"width": width, "height": height}, device_scale_factor=scale)
            page.goto(server.address + path)
            page.locator("#state[data-state=saved]").wait_for(timeout=120_000)
            page.locator("#state-python[data-state=ready]").wait_for(timeout=120_000, state="attached")
            # Few greys and colours: 32 of them tell all, in a third of the bytes.
            picture = Image.open(io.BytesIO(page.screenshot())).convert("P", palette=Image.Palette.ADAPTIVE, colors=32)
            picture.save(ROOT / "site" / "screens" / f"{name}.png", optimize=True)
        browser.close()
    server.stop()


if __name__ == "__main__":
    main()
