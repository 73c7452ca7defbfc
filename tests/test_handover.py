"""The hand-over sheet says what the rig's facts and the board's answers say, all of it, and leaves a line where nobody knows."""

from __future__ import annotations

import csv
import io
import json
import re
from functools import cache
from importlib.resources import files
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import pytest
from page_tree import Element, read

from calc import units
from calc.board import board
from calc.check import IEC, NEC, NOT_KNOWN, RULE_SETS
from calc.facts import fact_at
from calc.handover import LIMITS, UNKNOWN, limit_of, sheet
from calc.handover_paper import as_html, as_text
from calc.labels import labels
from calc.pages import PAGES
from calc.parts_list import as_csv, parts_list, row_for, sockets, torque_list
from calc.procedures import CHECKLISTS, EMERGENCY, HOW
from calc.quantity import Condition, Quantity
from calc.rendering import Renderer
from calc.rig import MARK, VERSION, Rig, example_rig, read_rig
from calc.rig_desk import OF_RIG
from calc.walkround import walk_round
from calc.wiring import wiring

ROOT = Path(__file__).resolve().parents[1]
EXAMPLE: dict[str, Any] = json.loads((files("calc") / "example_rig.json").read_text(encoding="utf-8"))
ASSETS = {
    path.name: path.name for path in (ROOT / "site").rglob("*") if "node_modules" not in path.parts and path.is_file()
}
RENDERER = Renderer()


def rig(**groups: Any) -> Rig:
    return read_rig(json.dumps({MARK: VERSION, **groups}))


@cache
def page(address: str) -> Element:
    return read(RENDERER.page(address, ASSETS))


def words(text: str) -> str:
    """As a reader sees it: all spaces alike."""
    return " ".join(text.split())


# --- limits ---------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("rules", RULE_SETS)
def test_every_number_that_the_walk_round_was_held_to_stands_on_the_sheet(rules: str) -> None:
    said = words(as_text(sheet(example_rig(), rules)))
    held = [
        r for row in board(example_rig(), rules) for r in row.answer.requirements if isinstance(r.condition, Condition)
    ]
    assert len(held) > 90
    for requirement in held:
        assert requirement.label in said
        assert words(f"{limit_of(requirement.condition)}") in said, requirement.label


def test_the_page_has_every_number_that_the_text_has() -> None:
    """Two renderings of one sheet: neither forgets what the other says."""
    on_page = words(page("hand-over/").text)
    for group in sheet(example_rig()).limits_of_the_round:
        assert group.title in on_page
        for label, limits in group.limits:
            assert words(f"{label} {', '.join(limits)}") in on_page


def test_the_limits_that_a_borrower_keeps_are_those_of_the_document() -> None:
    """Read from the example's own text, not through the facts: a number and its unit as it was typed there."""
    told = dict(sheet(example_rig()).limits)
    assert words(told["Inverter's continuous rating here"]) == "5000 W" == _typed("inverter", "continuous")
    assert words(told["Input current it is set to draw"]) == "24 A" == _typed("inverter", "input_limit")
    assert words(told["Charge kept back"]) == "15 %" == _typed("bank", "reserve")
    # 1 kg is 2.20462 lb (NIST SP 811, B.8).
    mass = EXAMPLE["chassis"]["loaded_mass"]
    assert mass["unit"] == "kg"
    pounds = mass["value"] * 2.20462
    assert words(told["Mass of the loaded rig"]) == f"{pounds:.0f} lb"


def _typed(group: str, name: str) -> str:
    return _written(EXAMPLE[group][name])


def _written(number: dict[str, Any]) -> str:
    return f"{number['value']:g} {number['unit']}"


def test_in_metric_units_the_sheet_has_no_other_ones() -> None:
    with units.shown_to(units.METRIC):
        text = as_text(sheet(example_rig()))
    facts = "\n".join(
        line for line in text.splitlines() if not re.search(r"\d °C \(\d+ °F\)|32 and 113 °F|59 °F", line)
    )
    assert not re.search(r"\d\s(ft|in|lb|lbf|mph|mi|°F|gal)\b", facts)


# --- what may be plugged in -----------------------------------------------------------------------------------------


def test_the_car_is_set_to_what_its_page_answers_whatever_it_is_set_to_now() -> None:
    """NEC 2023, 625.42: a 14-30 behind a 30 A breaker gives a car 24 A; the example's inverter gives 5000 W less its tools."""
    answers = {row.subject: row.answer for row in board(example_rig()) if row.check.id == "run/car-current"}
    told = {car.name: car.say for car in sheet(example_rig()).cars}
    assert told.keys() == answers.keys() and told
    for name, answer in answers.items():
        amps = answer.results["amps_to_set"]
        assert isinstance(amps, Quantity) and 6 <= amps.si <= 24
        assert words(told[name]) == f"Set the car to {amps.si:g} A"


def test_a_car_that_nobody_knows_enough_of_is_never_let_in() -> None:
    unknown = rig(cars=[{"name": "van"}])
    (car,) = sheet(unknown).cars
    assert car.verdict == NOT_KNOWN and "not known" in car.say
    assert "Set the car to ____ A" in [label.title for label in labels(unknown, sheet(unknown))]


def test_what_may_not_be_used_says_so_in_its_first_words() -> None:
    """A saw of 240 V at an outlet of 120 V; and one of which nothing is known."""
    saw = dict(EXAMPLE["loads"][0], volts="240 V")
    told = as_text(sheet(read_rig(json.dumps(dict(EXAMPLE, loads=[saw, {"name": "mystery"}])))))
    plugs = words(told.partition("What may be plugged in")[2].partition("Limits")[0])
    assert f"{saw['name']} at {saw['outlet']}: Do not use it. " in plugs
    assert "mystery at not known: Not known: do not use it. " in plugs


def test_the_faults_of_the_walk_round_head_the_sheet() -> None:
    assert walk_round(example_rig()).faults
    head = words(as_text(sheet(example_rig())).partition("In need")[0])
    for fault in walk_round(example_rig()).faults:
        assert words(fault.say) in head
    shown = page("hand-over/").having("id", "sheet-faults")[0]
    assert "details" not in [above.tag for above in shown.ancestors()]


def test_without_a_fault_nothing_is_said_of_faults() -> None:
    assert "Open faults" not in as_text(sheet(Rig("", {})))


# --- diagram and devices --------------------------------------------------------------------------------------------


def test_the_tree_that_is_drawn_on_the_sheet_is_the_rig_s() -> None:
    svg = ElementTree.fromstring(re.sub(r" xmlns=\"[^\"]*\"", "", sheet(example_rig()).drawing))
    drawn = {(wire.get("data-from"), wire.get("data-to")) for wire in svg.iter("path") if wire.get("class") == "wire"}
    assert drawn == set(wiring(example_rig()).edges()) and len(drawn) > 10
    on_page = page("hand-over/")
    assert {
        (e.get("data-from"), e.get("data-to")) for e in on_page.having("data-from") if e.get("class") == "wire"
    } == drawn


def test_every_fuse_and_breaker_stands_on_the_sheet_with_its_place_and_rating() -> None:
    told = {device.name: device for device in sheet(example_rig()).devices}
    for device in EXAMPLE["devices"]:
        assert words(told[device["name"]].where) == device["where"]
        assert _written(device["rating"]) in words(told[device["name"]].what)
        assert device["where"] in words(page("hand-over/").text)


def test_a_place_that_is_not_known_leaves_a_line_to_write_on() -> None:
    (device,) = sheet(rig(devices=[{"name": "main", "kind": "fuse"}])).devices
    assert device.where.startswith("______") and device.feeds == "nothing that is known"


# --- the whole sheet ------------------------------------------------------------------------------------------------


def test_a_rig_of_which_nothing_is_known_has_a_sheet_all_the_same() -> None:
    """No number is made up: wherever one belongs there is a line, and it says that it is not known."""
    empty = Rig("", {})
    text = as_text(sheet(empty))
    assert "plug nothing in" in text and "A rig without a name" in text
    for path in LIMITS:
        assert f"{fact_at(path).label}: ______ ({UNKNOWN})" in text
    for procedure in (*HOW, *CHECKLISTS, EMERGENCY):
        assert procedure.told(empty)
    for address, found in PAGES.items():
        if found.pieces:
            assert read(RENDERER.page_pieces(address, empty)).having("data-piece")


def test_the_date_is_the_one_that_was_given_and_no_clock_is_asked() -> None:
    assert "Date: 2027-06-18" in as_text(sheet(example_rig(), NEC, "2027-06-18"))
    assert "Date: __________" in as_text(sheet(example_rig()))


def test_the_file_of_its_own_needs_no_other_file() -> None:
    html = as_html(None, NEC, "2027-06-18", "3")
    alone = read(html)
    assert not alone.all("link") and not alone.all("script") and not alone.all("img")
    assert not re.search(r"url\(|@import", html)
    assert "Date: 2027-06-18 · Version 3" in words(alone.text)


def test_a_hostile_name_stays_a_name() -> None:
    name = '<script>alert("x")</script>&'
    hostile = rig(
        name=name,
        outlets=[{"name": name}],
        devices=[{"name": name, "where": name}],
        loads=[{"name": name, "outlet": name}],
    )
    for address, found in PAGES.items():
        if found.pieces:
            assert "<script" not in RENDERER.page_pieces(address, hostile)
    assert "<script" not in as_html(hostile)


def test_every_page_of_the_rig_is_asked_by_its_own_address() -> None:
    assert {f"{name}/" for name in OF_RIG} == {address for address, found in PAGES.items() if found.pieces}
    for name in OF_RIG:
        assert page(f"{name}/").having("data-whole", name)
        for host in PAGES[f"{name}/"].pieces:
            assert page(f"{name}/").having("id", host)


def test_the_slot_for_a_code_and_the_timer_are_not_replaced_with_the_rig() -> None:
    for address, host in (("hand-over/", "qr"), ("first-power-up/", "timer")):
        (found,) = page(address).having("id", host)
        assert not {above.get("id") for above in found.ancestors()} & set(PAGES[address].pieces)


def test_under_iec_the_sheet_says_so_and_speaks_of_no_nec() -> None:
    pieces = read(RENDERER.page_pieces("hand-over/", example_rig(), IEC)).text
    assert "By the rules of the IEC" in words(pieces)


# --- labels ---------------------------------------------------------------------------------------------------------


def test_each_outlet_has_a_label_with_its_limits() -> None:
    """A 5-20 takes 20 A, and 16 A for three hours or more (NEC 2023, 210.20(A): 80 %); a 14-30 takes 30 A and 24 A."""
    most = {"5-20": ("20.0 A at most", "16.0 A for three hours"), "14-30": ("30.0 A at most", "24.0 A for three hours")}
    stuck: dict[str, str] = {}
    for label in labels(example_rig(), sheet(example_rig())):
        stuck[label.place] = words(" ".join((stuck.get(label.place, ""), label.title, *label.lines)))
    for outlet in EXAMPLE["outlets"]:
        text = stuck[f"Beside the outlet “{outlet['name']}”"]
        assert all(limit in text for limit in most[outlet["configuration"]]) and "5000 W" in text


def test_the_battery_s_label_is_a_danger_with_its_volts() -> None:
    (battery,) = (label for label in labels(example_rig(), sheet(example_rig())) if label.place == "On the battery box")
    assert battery.signal == "DANGER"
    assert "51.2 V" in words(battery.title) and "57.6 V" in words(" ".join(battery.lines))


def test_a_fuse_s_label_names_the_only_fuse_that_belongs_there() -> None:
    fuses = [device for device in EXAMPLE["devices"] if device["kind"] == "fuse"]
    told = [
        words(label.title) for label in labels(example_rig(), sheet(example_rig())) if label.title.startswith("Only a")
    ]
    assert told == [f"Only a {_written(fuse['rating'])} fuse" for fuse in fuses]


# --- parts and torques ----------------------------------------------------------------------------------------------


def test_a_battery_cable_is_two_lengths_and_four_lugs() -> None:
    """One conductor for plus and one for minus, a lug at each end."""
    items = parts_list(example_rig())
    (cable,) = (cable for cable in EXAMPLE["cables"] if cable["use"] == "battery cable")
    ours = {item.item: item for item in items if item.used_for == cable["name"]}
    assert ours["cable, fine strands"].quantity == "2" and ours["lug"].quantity == "4"
    assert cable["size"] in ours["cable, fine strands"].specification and cable["size"] in ours["lug"].specification


def test_the_csv_reads_back_and_has_a_row_for_each_part_of_the_rig() -> None:
    rows = list(csv.DictReader(io.StringIO(as_csv(parts_list(example_rig())))))
    assert len(rows) == len(parts_list(example_rig()))
    named = {row["used for"] for row in rows}
    for group in ("cables", "devices", "outlets"):
        assert {thing["name"] for thing in EXAMPLE[group]} <= named
    assert {row["item"] for row in rows} >= {"inlet", "panel", "fuse", "breaker", "outlet"}


@pytest.mark.parametrize("name", ["=1+1", "+1", "-1", "@SUM(A1)"])
def test_no_name_becomes_a_formula_in_a_spreadsheet(name: str) -> None:
    """OWASP, CSV injection: a cell must not begin with = + - @."""
    cells = [cell for row in csv.reader(io.StringIO(as_csv(parts_list(rig(outlets=[{"name": name}]))))) for cell in row]
    assert f"'{name}" in cells and not [cell for cell in cells if cell.startswith(tuple("=+-@"))]


@pytest.mark.parametrize(
    ("size", "row"),
    [("12 AWG", "30 to 10"), ("10 AWG", "30 to 10"), ("8 AWG", "8"), ("4 AWG", "6 to 4"), ("1 AWG", "1"), ("2/0 AWG", "1/0 to 2/0"), ("4/0 AWG", "3/0 to 4/0"), ("300 kcmil", "250 to 350"), ("35 mm2", None)],
)  # fmt: skip
def test_a_size_finds_its_row_in_the_published_table(size: str, row: str | None) -> None:
    """A metric size has none: its torque is its maker's."""
    assert row_for(size) == row


def test_torques_are_those_of_the_published_table() -> None:
    """NEC 2023, Informative Annex I, Table I.1 (UL 486A-486B): 8 AWG in a slot up to 1.2 mm wide 25 lbf·in, larger 40 lbf·in; 2 AWG
    under a hexagon 150 lbf·in, which is 16.9 N·m (1 lbf·in = 0.1129848 N·m, NIST SP 811)."""
    row, thicker = torque_list(
        rig(cables=[{"name": "a", "use": "branch wiring", "size": size} for size in ("8 AWG", "2 AWG")])
    )
    assert words(thicker.hexagon) == "150 lbf·in, 16.9 N·m"
    assert words(row.narrow_slot).startswith("25 lbf·in, 2.8 N·m") and words(row.wide_slot).startswith(
        "40 lbf·in, 4.5 N·m"
    )


def test_a_socket_screw_s_torque_is_that_of_the_published_table() -> None:
    """NEC 2023, Informative Annex I, Table I.3: 3/16 in across flats 120 lbf·in = 13.6 N·m; 3/8 in 375 lbf·in = 42.4 N·m."""
    told = {width: words(torque) for width, torque in sockets()}
    assert told["3/16 in"].startswith("120 lbf·in, 13.6 N·m") and told["3/8 in"].startswith("375 lbf·in, 42.4 N·m")


def test_the_maker_s_figure_comes_before_any_table() -> None:
    text = words(page("hand-over/parts/").text)
    assert text.index("The maker's figure") < text.index("lbf·in")
    assert not torque_list(rig(cables=[{"name": "long cord", "use": "extension cord", "size": "12 AWG"}]))


# --- checklists -----------------------------------------------------------------------------------------------------


def test_the_checklists_carry_the_rig_s_own_numbers() -> None:
    towing, charging, storage = (words(" ".join(found.told(example_rig()))) for found in CHECKLISTS)
    told = dict(sheet(example_rig()).limits)
    assert words(told["Mass of the loaded rig"]) in towing and words(told["Most it may pull"]) in towing
    assert (
        words(told["Input current it is set to draw"]) in charging
        and words(told["Highest volts while charging"]) in charging
    )
    assert words(told["Coldest air it meets"]) in storage


def test_a_list_is_only_of_what_the_rig_has() -> None:
    """A bank of lead is left full, one of lithium half full; a rig that is not towed has no hitch to be weighed."""
    lead, lithium = (rig(bank={"chemistry": kind}) for kind in ("lead-acid (AGM or gel)", "LFP"))
    storage = CHECKLISTS[2]
    assert any("left full" in step for step in storage.told(lead)) and not any(
        "about half" in step for step in storage.told(lead)
    )
    assert any("about half" in step for step in storage.told(lithium)) and not any(
        "left full" in step for step in storage.told(lithium)
    )


def test_nobody_is_told_to_work_on_live_parts() -> None:
    said = " ".join(step for procedure in (*HOW, *CHECKLISTS, EMERGENCY) for step in procedure.told(example_rig()))
    assert not re.search(r"\b(unscrew|loosen|probe|open the (box|cover)|measure)\b", said, re.IGNORECASE)
