"""The published tables, held against the world: formulas, other published tables, and each other.

A comment beside each check says what it is held against and how that was had. The conductors have a file of their own.
"""

from __future__ import annotations

import math
import re
from pathlib import Path

import pytest
from cells import column, is_number, number, rises

from calc import sources, tables
from calc.sources import Source
from calc.tables import table

NAMES = sorted(path.stem for path in Path(tables.__file__).parent.glob("*.csv"))
CONSTANTS = {name: value for name, value in vars(sources).items() if isinstance(value, Source)}


# --- every table, and every source -------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", NAMES)
def test_a_head_is_complete(name: str) -> None:
    """Title, a source by name, the place in it, a unit that is known, and a sentence on how the cells were had."""
    listed = table(name)
    assert {"title", "source", "unit", "obtained"} <= set(listed.head)
    assert len(listed.title) > 20
    assert listed.head["source"] in CONSTANTS
    assert listed.unit is not None
    assert listed.head["obtained"].endswith(".")
    standing_alone = ("COMMON_PRACTICE", "TYRE_TABLES", "HSE_L23")
    assert listed.head.get("place") or listed.head["source"] in standing_alone


def test_no_source_is_named_twice() -> None:
    """The later of two would take the place of the earlier, and lines would cite what they do not rest on."""
    named = re.findall(r"^([A-Z][A-Z_0-9]+) = ", Path(sources.__file__).read_text(encoding="utf-8"), re.MULTILINE)
    assert len(named) == len(set(named)) > 50


@pytest.mark.parametrize("name", NAMES)
def test_every_cell_is_accounted_for(name: str) -> None:
    """Marked cells are said to be from memory; unmarked ones to be read, reproduced or so by definition."""
    listed = table(name)
    said = listed.head["obtained"].lower()
    numbers = [cell for cell in listed.cells.values() if is_number(cell.removesuffix("?"))]
    if any(cell.endswith("?") for cell in listed.cells.values()):
        assert "from memory" in said or "recalled" in said or "is ours" in said
    if any(not cell.endswith("?") for cell in numbers):
        assert "read" in said or "by definition" in said


@pytest.mark.parametrize("name", NAMES)
def test_rows_that_are_numbers_ascend(name: str) -> None:
    """A row is found by walking down until it covers the number, so the order is part of the meaning."""
    rows = table(name).rows
    assert len(set(rows)) == len(rows)
    if all(is_number(row) for row in rows):
        assert rises([float(row) for row in rows])


@pytest.mark.parametrize("name", sorted(CONSTANTS))
def test_a_source_says_how_it_is_had(name: str) -> None:
    source = CONSTANTS[name]
    plain = (sources.FROM_MEMORY, sources.PRACTICE, sources.DERIVED, sources.BY_DEFINITION)
    assert source.had.startswith(("read", *plain))
    assert source.had.lower() in str(source).lower()
    placed = source.at("Table 1")
    assert str(placed).count("Table 1") == 1 and placed.work == source.work
    assert [other.work for other in CONSTANTS.values()].count(source.work) == 1


def test_a_line_says_when_its_cell_is_unconfirmed() -> None:
    marked = table("lfp_open_circuit").read("U", "Rest voltage", "40", "volts")
    plain = table("ampacity_raceway").read("I", "Ampacity", "12 AWG", "Cu 60")
    assert marked.step is not None and tables.UNCONFIRMED in marked.step.note
    assert plain.step is not None and tables.UNCONFIRMED not in plain.step.note


# --- motors, welders, outlets, panels ----------------------------------------------------------------------------------


def test_motor_currents_follow_the_volts() -> None:
    # NFPA 70, Table 430.248: 115 V is twice 230 V; earlier editions said 200 V and 208 V are 15 % and 10 % more than 230 V.
    for hp, amps in column("motor_current", "230 V").items():
        assert number("motor_current", hp, "115 V") == pytest.approx(2 * amps, abs=0.11)
        assert number("motor_current", hp, "200 V") == pytest.approx(1.15 * amps, abs=0.06)
        assert number("motor_current", hp, "208 V") == pytest.approx(1.10 * amps, abs=0.06)


def test_a_breaker_rating_is_its_row_and_fuses_have_a_few_more() -> None:
    # NFPA 70, 2023, Table 240.6(A) and the text of 240.6(A): 1, 3, 6 and 601 A are standard for fuses only.
    breakers, fuses = column("standard_ratings", "breaker"), column("standard_ratings", "fuse")
    assert all(float(row) == amps for row, amps in (*breakers.items(), *fuses.items()))
    assert set(fuses) - set(breakers) == {"1", "3", "6", "601"} and set(breakers) <= set(fuses)
    assert len(breakers) == 38


def test_motor_protection_is_the_same_for_what_runs_on_one_phase_or_three() -> None:
    # NFPA 70, 2023, Table 430.52(C)(1): two kinds of motor depart from 300, 175, 800 and 250 %.
    listed = table("motor_protection")
    shares = {row: [int(listed.text(row, heading)) for heading in listed.columns] for row in listed.rows}
    assert shares["single-phase"] == shares["polyphase"] == [300, 175, 800, 250]
    assert shares["polyphase Design B energy-efficient"] == [300, 175, 1100, 250]
    assert shares["wound-rotor"] == [150, 150, 800, 150] and shares["direct current"] == [150, 150, 250, 150]


def test_code_letters_leave_no_gap() -> None:
    # NFPA 70, Table 430.7(B); one public page prints B up to 3.55, which would overlap C. I, O and Q are not used.
    letters = table("code_letters").rows
    assert "".join(letters) == "ABCDEFGHJKLMNPRSTUV"
    for letter, following in zip(letters, letters[1:], strict=False):
        assert number("code_letters", following, "from") - number("code_letters", letter, "to") == pytest.approx(0.01)


def test_a_welders_heat_is_the_root_of_its_duty() -> None:
    # NFPA 70, Table 630.11(A): current that heats as the welding current does for its share of the time.
    for duty, factor in column("welder_duty", "non-motor-generator").items():
        assert factor == pytest.approx(math.sqrt(float(duty) / 100), abs=0.006)
        assert 0 <= number("welder_duty", duty, "motor-generator") - factor <= 0.101


def test_outlets_are_what_their_designation_says() -> None:
    # ANSI/NEMA WD 6: 5 is 125 V, 6 is 250 V, 10 and 14 are 125/250 V; poles and wires; the second number is the amps.
    series = {"5": ("125", "2", "3", "yes", "yes"), "TT": ("125", "2", "3", "yes", "yes"), "6": ("250", "2", "3", "no", "yes"), "10": ("125/250", "3", "3", "yes", "no"), "14": ("125/250", "3", "4", "yes", "yes"), "SS2": ("125/250", "3", "4", "yes", "yes")}  # fmt: skip
    listed = table("outlets")
    for row in (row for row in listed.rows if "-" in row):
        kind, amps = row.removeprefix("L").split("-")
        assert tuple(listed.text(row, c) for c in ("rated", "poles", "wires", "neutral", "ground")) == series[kind]
        assert listed.text(row, "amps") == amps
        assert listed.text(row, "volts") == ("120" if series[kind][0] == "125" else "240")
        assert listed.has(row, "volts to neutral") == (series[kind][3] == "yes")
        assert listed.cells[row, "volts to neutral"].removesuffix("?") in ("", "120")


def test_cold_panels_rise_as_silicon_does() -> None:
    # NFPA 70, Table 690.7(A): 0.37 to 0.40 % for each kelvin below 25 °C, the coefficient of crystalline silicon (from memory).
    for ambient, factor in column("pv_cold_factor", "factor").items():
        assert 0.0036 <= (factor - 1) / (25 - float(ambient)) <= 0.00401


# --- cars, weather, wheels ---------------------------------------------------------------------------------------------


def test_the_pilot_is_not_linear() -> None:
    # SAE J1772, in the table that a test instrument's manual prints (read): 10 % 6 A, 50 % 30 A, 85 % 51 A, 86 % 55 A, 96 % 80 A.
    def offered(duty: float) -> float:
        listed = table("pilot_current")
        row = next(row for row in listed.rows if float(row) >= duty)
        return number(listed, row, "factor") * (duty - number(listed, row, "offset")) + number(listed, row, "amps")

    printed = {5: 0, 8: 0, 9: 6, 11: 6.6, 50: 30, 85: 51, 86: 55, 96: 80, 97: 80, 98: 0}
    assert {duty: pytest.approx(offered(duty)) for duty in printed} == printed


def test_winter_is_what_the_press_retold() -> None:
    # AAA, 2019: of 100 miles, 59 are left at 20 °F with the heater on and 83 at 95 °F (read); 20, 75, 95 °F in °C.
    assert [100 - number("winter", row, "cabin on") for row in ("-7", "35")] == [59, 83]
    assert table("winter").rows == tuple(str(round((f - 32) / 1.8)) for f in (20, 75, 95))


def test_charging_at_240_volts_is_three_per_cent_better() -> None:
    # The study's abstract (read): 3 % on the mean of 1,008 charges, 13 % and more in short ones.
    short, slow, fast = column("charging_by_power", "efficiency").values()
    assert fast / slow == pytest.approx(1.03, abs=0.01)
    assert fast / short > 1.13


def test_enclosures_gain_nothing_by_the_older_printing() -> None:
    # NEMA 250: each digit of the IP code in the older conversion table is no higher than in the newer.
    for kind in table("nema_ip").rows:
        older, newer = table("nema_ip").text(kind, "older"), table("nema_ip").text(kind, "newer")
        assert all(a <= b for a, b in zip(older, newer, strict=True))


def test_cold_and_charge_only_go_one_way() -> None:
    assert rises(list(column("lfp_open_circuit", "volts").values()))
    assert rises(list(column("capacity_temperature", "share").values()))
    # The ruling for lithium iron phosphate: none below 0 °C and none above 45 °C, unless the maker says so.
    charge = table("charge_temperature")
    assert [charge.text(row, "current") for row in charge.rows] == ["0", "0.05", "0.1", "0.2", "rated", "0"]
