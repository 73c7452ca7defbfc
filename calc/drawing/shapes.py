"""Shapes that drawings share, as text of SVG: points in millimetres, x to the right, y downward as on the page."""

from __future__ import annotations

import math
from collections.abc import Iterable

from calc import units
from calc.units import inch, mm

Point = tuple[float, float]


def box(middle: Point, heading: float, half_length: float, half_width: float) -> list[Point]:
    """The corners of a box whose length lies along its heading: 0 is straight down the page."""
    along, across = (math.sin(heading), math.cos(heading)), (math.cos(heading), -math.sin(heading))
    return [
        (
            middle[0] + a * half_length * along[0] + b * half_width * across[0],
            middle[1] + a * half_length * along[1] + b * half_width * across[1],
        )
        for a, b in ((1, 1), (1, -1), (-1, -1), (-1, 1))
    ]


def polygon(kind: str, points: Iterable[Point]) -> str:
    return f'<polygon class="{kind}" points="{_listed(points)}"/>'


def line(kind: str, points: Iterable[Point]) -> str:
    return f'<polyline class="{kind}" points="{_listed(points)}"/>'


def _listed(points: Iterable[Point]) -> str:
    return " ".join(f"{x:.0f},{y:.0f}" for x, y in points)


def disc(kind: str, middle: Point, radius: float) -> str:
    return f'<circle class="{kind}" cx="{middle[0]:.0f}" cy="{middle[1]:.0f}" r="{radius:.1f}"/>'


def words(text: str, at: Point, size: float, anchor: str = "middle") -> str:
    """Words of the program's own; nothing that anybody typed comes here."""
    return f'<text x="{at[0]:.0f}" y="{at[1]:.0f}" text-anchor="{anchor}" font-size="{size:.0f}">{text}</text>'


def balance(middle: Point, radius: float) -> str:
    """The sign of a centre of gravity: a circle, two opposite quarters of it filled."""
    x, y, r = *middle, radius
    quarters = f"M{x:.0f} {y:.0f}V{y - r:.0f}A{r:.0f} {r:.0f} 0 0 1 {x + r:.0f} {y:.0f}Z"
    quarters += f"M{x:.0f} {y:.0f}V{y + r:.0f}A{r:.0f} {r:.0f} 0 0 1 {x - r:.0f} {y:.0f}Z"
    return f'{disc("balance", middle, r)}<path class="quarters" d="{quarters}"/>'


def scale_bar(left: float, y: float, size: float) -> str:
    """A length to measure the drawing by, in the unit these people use."""
    length, said = (20 * inch, "20 in") if units.people() == units.US else (500 * mm, "500 mm")
    right = left + length.number_in(mm)
    bar = line("scale", [(left, y - size / 3), (left, y), (right, y), (right, y - size / 3)])
    return bar + words(said, ((left + right) / 2, y - size / 2), size)


def drawing(kind: str, title: str, told: str, corners: tuple[float, float, float, float], inside: str) -> str:
    """The whole drawing. title: what it shows, in a line. told: the same in words, read out in its place.

    corners: left, top, right and foot.
    """
    left, top, right, foot = corners
    names = f'role="img" aria-labelledby="{kind}-title {kind}-told"'
    return (
        f'<svg class="{kind}" viewBox="{left:.0f} {top:.0f} {right - left:.0f} {foot - top:.0f}" {names}>'
        f'<title id="{kind}-title">{title}</title><desc id="{kind}-told">{told}</desc>{inside}</svg>'
    )
