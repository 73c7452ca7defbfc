"""The two views of the weights and the figure a rig stands on: to scale, without styles, told in words as well."""

from __future__ import annotations

import math
import re
from typing import Any
from xml.etree import ElementTree

import pytest

from calc import units as u
from calc.catalogue import check_called
from calc.check import Answer, Check
from calc.drawing import drawing_of
from calc.form import fill
from calc.quantity import Quantity

SINGLE, FOUR, WAGON = "trailer, single axle", "hand cart, four wheels", "wagon, four wheels, steered by the drawbar"


def drawn(page: str, **typed: str) -> tuple[Check, Answer, ElementTree.Element]:
    asked = fill(check_called(page), typed)
    assert asked.check is not None, asked.problems
    answer = asked.answer()
    return asked.check, answer, ElementTree.fromstring(drawing_of(asked.check, answer))


def of_class(svg: ElementTree.Element, kind: str) -> list[ElementTree.Element]:
    return [each for each in svg.iter() if each.get("class") == kind]


def points(shape: ElementTree.Element) -> list[tuple[float, float]]:
    return [(float(x), float(y)) for x, y in (pair.split(",") for pair in shape.get("points", "").split())]


def circle(shape: ElementTree.Element) -> tuple[float, float, float]:
    return tuple(float(shape.get(name, "")) for name in ("cx", "cy", "r"))  # type: ignore[return-value]


def result(answer: Answer, name: str, unit: u.Unit) -> float:
    value: Any = answer.results[name]
    assert isinstance(value, Quantity)
    return value.number_in(unit)


PAGES = [
    ("roll/weights", {}),
    ("roll/weights", {"kind": SINGLE, "parts": "6"}),
    ("roll/ramp-tip", {}),
    ("roll/ramp-tip", {"front_axle": "both its wheels carry"}),
    ("roll/ramp-tip", {"kind": SINGLE}),
    ("roll/ramp-tip", {"kind": SINGLE, "rear_prop": "down"}),
    ("roll/ramp-tip", {"kind": FOUR}),
]


@pytest.mark.parametrize(("page", "typed"), PAGES)
def test_shapes_only_and_the_same_told_in_words(page: str, typed: dict[str, str]) -> None:
    """No style, script or address; a title and a description, by which the drawing is named."""
    _, answer, svg = drawn(page, **typed)
    text = ElementTree.tostring(svg, encoding="unicode")
    assert not re.search(r"style|<script|\son\w+=|url\(|href", text)
    assert svg.get("role") == "img"
    named = (svg.get("aria-labelledby") or "").split()
    told = {each.get("id"): each.text or "" for each in svg if each.tag in ("title", "desc")}
    assert list(told) == named and all(told.values())
    assert str(answer.results["cg_height" if page == "roll/weights" else "weakest_angle"]) in told[named[1]]


@pytest.mark.parametrize(
    "typed", [{}, {"kind": SINGLE, "parts": "6", "aside_4": "-300 mm"}, {"parts": "1", "mass_1": "300 kg"}]
)
def test_the_discs_balance_where_the_sign_stands(typed: dict[str, str]) -> None:
    """Areas are masses: the mean of the middles, weighted by radius squared, is the centre of gravity in both views."""
    check, answer, svg = drawn("roll/weights", **typed)
    discs = [circle(each) for each in of_class(svg, "part")]
    signs = [circle(each) for each in of_class(svg, "balance")]
    ground = points(of_class(svg, "ground")[0])[0][1]
    half = len(discs) // 2
    assert len(signs) == 2 and half == int(check.parts) + 1  # type: ignore[attr-defined]
    for view, sign in zip((discs[:half], discs[half:]), signs, strict=True):
        weight = sum(r * r for _, _, r in view)
        assert sum(r * r * x for x, _, r in view) / weight == pytest.approx(sign[0], abs=4)
        assert sum(r * r * y for _, y, r in view) / weight == pytest.approx(sign[1], abs=4)
    assert signs[0][0] == signs[1][0] == pytest.approx(result(answer, "cg_ahead", u.mm), abs=0.6)
    assert ground - signs[1][1] == pytest.approx(result(answer, "cg_height", u.mm), abs=1.1)
    assert abs(signs[0][1]) == pytest.approx(result(answer, "cg_aside", u.mm), abs=0.6)


@pytest.mark.parametrize(("people", "length"), [(u.US, 508), (u.METRIC, 500)])
def test_wheels_and_bar_are_to_scale(people: str, length: float) -> None:
    with u.shown_to(people):
        check, _, svg = drawn("roll/weights")
    bar = points(of_class(svg, "scale")[0])
    assert bar[2][0] - bar[1][0] == pytest.approx(length, abs=1)
    axles = [points(each) for each in of_class(svg, "axle")]
    assert axles[1][0][0] - axles[0][0][0] == pytest.approx(check.wheelbase.number_in(u.mm), abs=1)  # type: ignore[attr-defined]
    assert axles[0][1][1] - axles[0][0][1] == pytest.approx(check.track.number_in(u.mm), abs=1)  # type: ignore[attr-defined]


@pytest.mark.parametrize(
    "typed",
    [
        {},
        {"front_axle": "both its wheels carry"},
        {"front_axle": "both its wheels carry", "swing": "30", "cg_aside": "60 mm"},
        {"kind": SINGLE, "cg_ahead": "69 mm"},
        {"kind": SINGLE, "cg_ahead": "69 mm", "rear_prop": "down"},
        {"kind": FOUR},
        {"kind": FOUR, "cg_aside": "200 mm"},
        {"kind": SINGLE, "cg_ahead": "-100 mm"},
    ],
)
def test_the_figure_gives_the_angle_that_is_told(typed: dict[str, str]) -> None:
    """Statics, from the drawn corners alone: least distance inside an edge over the height is the tangent."""
    check, answer, svg = drawn("roll/ramp-tip", **typed)
    corners = points(of_class(svg, "stands")[0])
    x, y, _ = circle(of_class(svg, "balance")[0])
    inside = []
    for (ax, ay), (bx, by) in zip(corners, corners[1:] + corners[:1], strict=True):
        inside.append(((bx - ax) * (y - ay) - (by - ay) * (x - ax)) / math.dist((ax, ay), (bx, by)))
    least = min(inside)
    height = check.cg_height.number_in(u.mm)  # type: ignore[attr-defined]
    told = result(answer, "weakest_angle", u.degree)
    assert math.degrees(math.atan(least / height)) == pytest.approx(told, abs=0.15)
    edge, start = points(of_class(svg, "edge")[0]), inside.index(least)
    assert edge == [corners[start], corners[(start + 1) % len(corners)]]
    reach = points(of_class(svg, "reach")[0])
    assert math.dist(*reach) == pytest.approx(abs(least), abs=1.5)
