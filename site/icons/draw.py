"""Draws the PNG icons from the SVG ones, in Chromium: `python site/icons/draw.py`. Only after a change to an SVG."""

import shutil
from pathlib import Path

from playwright.sync_api import sync_playwright

HERE = Path(__file__).resolve().parent
# A home screen of iOS rounds the corners itself, so it takes the full square.
DRAWN = (("icon.svg", "icon-192.png", 192), ("icon.svg", "icon-512.png", 512), ("square.svg", "icon-maskable-512.png", 512), ("square.svg", "icon-180.png", 180))


def main() -> None:
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=shutil.which("chromium"), args=["--no-sandbox", "--disable-background-networking"])
        for source, target, size in DRAWN:
            page = browser.new_page(viewport={"width": size, "height": size})
            page.set_content(f"<style>*{{margin:0}}svg{{display:block;width:{size}px;height:{size}px}}</style>" + (HERE / source).read_text())
            page.screenshot(path=HERE / target, omit_background=True)
        browser.close()


if __name__ == "__main__":
    main()
