"""The plan of backing up is to scale and holds nothing but shapes."""

from __future__ import annotations

import math
import re
from xml.etree import ElementTree

import pytest

from calc import units as u
from calc.catalogue import check_called
from calc.checks.roll.backing import Backing
from calc.drawing.backing import MOMENTS, plan
from calc.form import fill
from calc.quantity import Quantity

WAGON = "wagon, four wheels, steered by the drawbar"


def filled(**typed: str) -> Backing:
    asked = fill(check_called("roll/backing"), typed)
    assert isinstance(asked.check, Backing)
    return asked.check


@pytest.mark.parametrize("kind", [WAGON, "trailer, single axle"])
def test_three_moments_without_styles(kind: str) -> None:
    text = plan(filled(kind=kind))
    svg = ElementTree.fromstring(text)
    assert [group.get("class") for group in svg.findall("g")] == [f"moment {key}" for key, _, _ in MOMENTS]
    assert not re.search(r"style|<script|on\w+=|url\(", text)
    assert svg.find("title") is not None and svg.get("role") == "img"


@pytest.mark.parametrize("kind", [WAGON, "trailer, single axle"])
def test_the_drawbar_is_as_long_as_it_is_and_turned_as_it_is(kind: str) -> None:
    """Now at the start angle, at the end at the angle told, or short of it where the body folds first."""
    check = filled(kind=kind)
    svg = ElementTree.fromstring(plan(check))
    told = check.answer().results["no_return"]
    assert isinstance(told, Quantity)
    found = []
    for group in svg.findall("g"):
        drawbar = next(each for each in group if each.get("class") == "drawbar")
        (x1, y1), (x2, y2) = (tuple(map(float, pair.split(","))) for pair in drawbar.get("points", "").split())
        assert math.hypot(x2 - x1, y2 - y1) == pytest.approx(check.drawbar.number_in(u.mm), abs=1.5)
        found.append(math.degrees(math.atan2(x2 - x1, y2 - y1)))
    assert found[0] == pytest.approx(check.start.number_in(u.degree), abs=0.1)
    assert found == sorted(found) and found[2] <= told.number_in(u.degree) + 0.1
    if kind != WAGON:
        assert found[2] == pytest.approx(told.number_in(u.degree), abs=0.1)


def test_a_wagon_is_drawn_folded_as_it_is_told() -> None:
    """The body's far edge is turned against the drawbar by the angle at which it folds."""
    check = filled(kind=WAGON)
    end = ElementTree.fromstring(plan(check)).findall("g")[2]
    told = check.answer().results["body_no_return"]
    assert isinstance(told, Quantity)
    shape = {each.get("class"): each.get("points", "") for each in end}
    bar = [tuple(map(float, pair.split(","))) for pair in shape["drawbar"].split()]
    box = [tuple(map(float, pair.split(","))) for pair in shape["body"].split()]
    of_bar = math.atan2(bar[1][0] - bar[0][0], bar[1][1] - bar[0][1])
    of_body = math.atan2(box[0][0] - box[3][0], box[0][1] - box[3][1])
    assert math.degrees(of_bar - of_body) == pytest.approx(told.number_in(u.degree), abs=0.2)


def test_nothing_is_drawn_where_it_starts_past_the_end() -> None:
    assert plan(filled(kind="trailer, single axle", start="45", contact="20 °")) == ""
