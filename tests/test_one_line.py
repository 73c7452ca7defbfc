"""The one-line diagram says what the rig's facts say: its tree is read back from the drawing and compared."""

from __future__ import annotations

import json
import re
from importlib.resources import files
from typing import Any
from xml.etree import ElementTree

import pytest

from calc.drawing.one_line import WIDTH, one_line
from calc.rig import MARK, VERSION, Rig, example_rig, read_rig
from calc.wiring import wiring

EXAMPLE: dict[str, Any] = json.loads((files("calc") / "example_rig.json").read_text(encoding="utf-8"))


def rig(**groups: Any) -> Rig:
    return read_rig(json.dumps({MARK: VERSION, **groups}))


def drawn(of: Rig) -> ElementTree.Element:
    return ElementTree.fromstring(one_line(of))


def named_edges(of: Rig) -> set[tuple[str, str]]:
    """(feeder, fed) by name, read from where the drawn lines begin and end, not from what they say of themselves."""
    svg = drawn(of)
    places = {}
    for part in svg.findall("g"):
        sign = part.find("g")
        assert sign is not None
        x, y = map(float, re.findall(r"[-\d.]+", sign.get("transform", "")))
        words = [span.text or "" for span in part.iter("tspan") if span.get("class") == "name"]
        places[x, y] = " ".join(words)
    edges = set()
    for wire in svg.findall("path"):
        if wire.get("class") != "wire":
            continue
        x, y, down, across = map(float, re.findall(r"[-\d.]+", wire.get("d", "")))
        edges.add((places[x, y], next(name for (px, py), name in places.items() if py == down and px - across == 11)))
    return edges


def test_the_tree_of_the_example_is_the_one_that_its_document_says() -> None:
    """Worked from the document by hand: names of feeders, in a second reading of the same facts."""
    expected = {("Bank", "main fuse"), ("main fuse", "bank to inverter"), ("bank to inverter", "Inverter")}
    expected |= {("Inverter", device["name"]) for device in EXAMPLE["devices"] if device["fed_by"] == "inverter"}
    for cable in EXAMPLE["cables"]:
        expected |= {(cable["device"], cable["name"])} | {(cable["name"], outlet) for outlet in cable.get("feeds", ())}
    expected |= {(used["outlet"], used["name"]) for used in EXAMPLE["loads"] + EXAMPLE["cars"]}
    assert named_edges(example_rig()) == expected


def test_every_wire_is_said_by_its_keys_as_it_is_drawn() -> None:
    found = wiring(example_rig())
    svg = drawn(example_rig())
    said = {(wire.get("data-from"), wire.get("data-to")) for wire in svg.findall("path") if wire.get("class") == "wire"}
    assert said == found.edges()
    joins = {
        (wire.get("data-from"), wire.get("data-to")) for wire in svg.findall("path") if wire.get("class") == "join"
    }
    assert joins == {("inlet", "inverter"), ("panels", "bank")}
    assert {part.get("data-key") for part in svg.findall("g")} == {part.key for part in found.parts()}


def test_every_part_of_the_rig_is_drawn_once_or_said_to_hang_on_nothing() -> None:
    found = wiring(example_rig())
    keys = [part.key for part in (*found.parts(), *found.loose)]
    assert len(keys) == len(set(keys))
    lists = {
        f"{group}.{n}"
        for group in ("devices", "cables", "outlets", "loads", "cars")
        for n in range(len(EXAMPLE[group]))
    }
    assert set(keys) == lists | {"bank", "inverter", "inlet", "panels"}


def test_a_part_behind_a_device_that_is_not_there_hangs_on_nothing() -> None:
    found = wiring(rig(bank={"chemistry": "LFP"}, cables=[{"name": "run", "use": "branch wiring", "device": "lost"}]))
    assert [part.name for part in found.loose] == ["run"]
    assert found.edges() == set()


def test_a_battery_cable_without_a_known_fuse_is_drawn_straight_at_the_bank() -> None:
    """The worst is drawn as it is: unprotected; the walk-round names it a fault."""
    bare = rig(
        bank={"chemistry": "LFP"}, inverter={"system": "120 V"}, cables=[{"name": "run", "use": "battery cable"}]
    )
    assert named_edges(bare) == {("Bank", "run"), ("run", "Inverter")}


def test_devices_that_are_said_to_feed_each_other_do_not_draw_for_ever() -> None:
    ring = [{"name": "a", "behind": "b", "fed_by": "bank"}, {"name": "b", "behind": "a", "fed_by": "bank"}]
    found = wiring(rig(bank={"chemistry": "LFP"}, devices=ring))
    assert {part.name for part in found.loose} == {"a", "b"}


def test_a_chain_longer_than_any_cart_s_is_cut_and_not_followed() -> None:
    chain = [{"name": "0", "fed_by": "bank"}] + [{"name": str(n), "behind": str(n - 1)} for n in range(1, 40)]
    found = wiring(rig(bank={"chemistry": "LFP"}, devices=chain))
    assert len(found.parts()) + len(found.loose) == 41 and len(found.loose) > 5


def test_what_a_person_typed_never_becomes_markup() -> None:
    nasty = '<script x="1">&\'"'
    svg = one_line(rig(bank={"chemistry": "LFP"}, devices=[{"name": nasty, "fed_by": "bank", "kind": "fuse"}]))
    assert "<script" not in svg
    names = [span.text for span in ElementTree.fromstring(svg).iter("tspan")]
    assert " ".join(names[2:3]).startswith("<script") or nasty in "".join(name or "" for name in names)


@pytest.mark.parametrize("name", ["x" * 80, "a word " * 11])
def test_a_long_name_stays_inside_the_drawing(name: str) -> None:
    """Broken into lines of as many letters as there is room for, a broad letter of 14 px being 7.6 px."""
    svg = drawn(rig(bank={"chemistry": "LFP"}, devices=[{"name": name.strip(), "fed_by": "bank", "kind": "breaker"}]))
    for span in svg.iter("tspan"):
        assert float(span.get("x", "0")) + 7.6 * len(span.text or "") <= WIDTH + 8


def test_the_drawing_is_shapes_and_words_and_nothing_else() -> None:
    text = one_line(example_rig())
    assert not re.search(r"style|<script|on\w+=|url\(|href", text)
    svg = ElementTree.fromstring(text)
    assert svg.get("role") == "img" and svg.find("title") is not None


def test_a_rig_of_which_nothing_is_known_has_no_drawing() -> None:
    assert one_line(Rig("", {})) == ""
