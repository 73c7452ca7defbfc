"""The colours of the stylesheet, read from it: what they keep of their contrast indoors and under the sun.

Contrast: WCAG 2.2 (W3C, 2024), definitions of relative luminance and contrast ratio, with its worked pairs below.
Under the sun a screen adds the light it reflects to black and to white alike. 4.5 % of the light that falls on it is
a figure from a display industry article; 500 nit is a usual phone (common practice, no published source).
"""

from __future__ import annotations

import math
import re
from pathlib import Path

import pytest

LOOK = (Path(__file__).resolve().parents[1] / "site" / "styles" / "look.css").read_text(encoding="utf-8")
REFLECTED, WHITE_NITS = 0.045, 500
SHADE, OVERCAST, FULL_SUN = 10_000, 30_000, 100_000


def colours(selector: str) -> dict[str, str]:
    found = re.search(re.escape(selector) + r"\s*\{([^}]*)\}", LOOK)
    assert found, selector
    return dict(re.findall(r"--([\w-]+):\s*(#[0-9a-f]{6})", found[1]))


DAY = colours(":root")
LOOKS = {look: DAY | colours(f':root[data-look="{look}"]') for look in ("sun", "night")} | {"day": DAY}
SIGNALS = dict(re.findall(r'\.caution\[data-signal="(\w+)"\]::before \{ background: (#[0-9a-f]{6})', LOOK))


def luminance(colour: str) -> float:
    """WCAG 2.2, relative luminance."""
    shares = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    red, green, blue = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in shares)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    """WCAG 2.2, contrast ratio."""
    dark, light = sorted(luminance(colour) for colour in (one, other))
    return (light + 0.05) / (dark + 0.05)


def contrast_outdoors(one: str, other: str, lux: float) -> float:
    """The same two colours with reflected daylight on both: a diffuse screen reflects lux times its share over pi, in nit."""
    reflected = lux * REFLECTED / math.pi
    dark, light = sorted(luminance(colour) * WHITE_NITS for colour in (one, other))
    return (light + reflected) / (dark + reflected)


@pytest.mark.parametrize(("one", "other", "published"), [("#ffffff", "#000000", 21), ("#767676", "#ffffff", 4.54), ("#595959", "#ffffff", 7.0)])
def test_contrast_agrees_with_published_pairs(one: str, other: str, published: float) -> None:
    """21:1 is WCAG's own largest ratio; #767676 and #595959 are the greys it is commonly said to allow at 4.5 and 7 (from memory)."""
    assert contrast(one, other) == pytest.approx(published, abs=0.01)


@pytest.mark.parametrize("look", LOOKS)
def test_all_text_has_seven_to_one_and_the_body_fifteen(look: str) -> None:
    """WCAG 2.2, 1.4.6 (AAA); the body more, because that figure is for low vision and not for sun."""
    now = LOOKS[look]
    for ground in (now["ground"], now["panel"]):
        assert contrast(now["ink"], ground) >= 15
        for text in ("quiet", "link", "go", "no"):
            assert contrast(now[text], ground) >= 7, f"{text} on {ground}"


@pytest.mark.parametrize("look", LOOKS)
def test_edges_are_seen(look: str) -> None:
    """WCAG 2.2, 1.4.11 asks 3:1 of borders; outdoors we ask 4.5."""
    assert contrast(LOOKS[look]["edge"], LOOKS[look]["ground"]) >= 4.5


@pytest.mark.parametrize("look", LOOKS)
def test_the_ring_of_focus_is_seen_on_any_ground(look: str) -> None:
    """WCAG 2.2, 2.4.13: 3:1 against what is beside it. One of the two rings always has it."""
    now = LOOKS[look]
    for beside in (now["ground"], now["panel"], now["ink"]):
        assert max(contrast(now["ink"], beside), contrast(now["focus-in"], beside)) >= 3


@pytest.mark.parametrize("look", ["day", "sun"])
def test_the_verdict_reads_under_an_overcast_sky(look: str) -> None:
    now = LOOKS[look]
    assert contrast_outdoors(now["ink"], now["ground"], OVERCAST) >= 2
    assert contrast_outdoors(now["ink"], now["ground"], SHADE) >= 4


def test_sunlight_leaves_no_colour_between_black_and_white() -> None:
    """Only black on white still reads in full sun: text, edges and links are black there, the ground white."""
    now = LOOKS["sun"]
    assert {now[name] for name in ("ink", "quiet", "edge", "link", "go", "no")} == {"#000000"}
    assert {now[name] for name in ("ground", "panel")} == {"#ffffff"}
    best = contrast_outdoors("#000000", "#ffffff", FULL_SUN)
    assert contrast_outdoors(now["ink"], now["ground"], FULL_SUN) == best


def test_a_signal_colour_is_a_bar_with_an_edge_and_never_the_ground_of_a_sentence() -> None:
    """Of the colours listed for ISO 3864 panels orange and green fail 7:1 as grounds of text: the word stands on the page's own."""
    assert set(SIGNALS) == {"DANGER", "WARNING", "CAUTION"}
    assert min(contrast("#000000", colour) for colour in SIGNALS.values()) < 7
    bar = re.search(r"\.caution::before \{([^}]*)\}", LOOK)
    assert bar and "border: 2px solid var(--edge)" in bar[1]
    for colour in set(SIGNALS.values()) - {DAY["tight"]}:
        assert LOOK.count(colour) == 1
