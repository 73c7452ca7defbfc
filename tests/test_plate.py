"""A line read off a plate: each piece of it becomes the one fact that it can be, or the line is refused in words."""

from __future__ import annotations

import random
import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.board import board
from calc.editing import with_fact
from calc.facts import fact_at
from calc.plate import SUM
from calc.plate_line import facts_in, things_in
from calc.quantity import Quantity
from calc.reading import Unreadable
from calc.rig import Rig, example_rig
from calc.short_start import started, with_line
from calc.start_lines import BANK, CAR, INVERTER, LINES, NOW, OUTLETS, SETTINGS, TOOL

BY_KEY = {plate.key: plate for plate in LINES}
EXAMPLES = {plate.key: plate.example for plate in LINES}


def rig_from(**lines: str) -> Rig:
    rig, problems = started(lines)
    assert rig is not None, problems
    return rig


def refusal(key: str, line: str) -> str:
    """Why a line is refused; the lines of other plates are those of the page."""
    rig, problems = started({"outlets": EXAMPLES["outlets"], key: line})
    assert rig is None, f"{line!r} made {rig.facts if rig else None}"
    assert list(problems) == [key]
    return problems[key]


def said(rig: Rig) -> dict[str, str]:
    return {path: str(known).replace("\u00a0", " ") for path, known in rig.facts.items()}


# --- what the trade writes -----------------------------------------------------------------------------------------


@pytest.mark.parametrize("way", ["16s2p", "16S2P", "16 s 2 p", "16s, 2p", "2 strings, 16 cells in series", "cells in series: 16, parallel: 2", " 16s2p, "])
def test_the_trade_s_short_word_for_cells_is_read_like_the_long_one(way: str) -> None:
    assert facts_in(BANK, way) == {"bank.series": "16", "bank.strings": "2"}


@pytest.mark.parametrize(
    ("word", "chemistry"),
    [
        ("LFP", "LFP"), ("lfp", "LFP"), ("LiFePO4", "LFP"), ("lithium iron phosphate", "LFP"), ("NMC", "NMC"),
        ("AGM", "lead-acid (AGM or gel)"), ("gel", "lead-acid (AGM or gel)"), ("flooded", "lead-acid (flooded)"),
    ],
)  # fmt: skip
def test_a_chemistry_is_known_by_its_usual_names(word: str, chemistry: str) -> None:
    assert said(rig_from(bank=word)) == {"bank.chemistry": chemistry}


def test_lead_acid_alone_may_be_either_and_is_not_guessed() -> None:
    assert "lead-acid" in refusal("bank", "lead-acid")


def test_cells_and_strings_in_one_word_need_no_comma_round_them() -> None:
    assert facts_in(BANK, "LiFePO4 16S1P 280Ah") == {"bank.chemistry": "LFP", "bank.series": "16", "bank.strings": "1", "bank.capacity": "280Ah"}


def test_units_are_read_as_everywhere() -> None:
    assert said(rig_from(car="van: 32 kWh/100 mi"))["cars.0.consumption"] == "3.125 mi/kWh", "100 over 32"
    rig = said(rig_from(bank="1p, 101 lb in all", tool="saw: 3/4 hp, cord 25'", stands="cells 54 °F"))
    assert rig["bank.mass"] == "101 lb"
    assert rig["loads.0.horsepower"] == "3/4" and rig["loads.0.plate"] == "horsepower"
    assert rig["loads.0.cord_length"] == "25 ft"
    assert rig["now.cells"] == "54 °F"


def test_a_comma_inside_a_number_is_no_comma_between_two() -> None:
    assert facts_in(BANK, "1p, 12,8 V, 7,5 Ah") == {"bank.strings": "1", "bank.nominal_volts": "12,8 V", "bank.capacity": "7,5 Ah"}
    assert "two ways" in refusal("inverter", "1,500 W continuous"), "in America 1500, elsewhere one and a half"


def test_each_piece_of_the_page_s_examples_says_a_fact() -> None:
    for plate in LINES:
        parts = plate.example.split(";") if plate.group else [plate.example]
        for part, (_, facts) in zip(parts, things_in(plate, plate.example), strict=True):
            assert len(facts) >= len(re.split(r",| for ", part))


def test_every_piece_of_every_plate_can_be_written_as_its_plate_says() -> None:
    """With a number of the right size, or with each of its options; the words that mark it work before and after."""
    for plate in LINES:
        for piece in plate.pieces:
            fact = piece.fact
            if fact.refers_to:
                continue
            texts = fact.options or (str(fact.low).replace("\u00a0", " "),)
            scope = {"": "", SUM: " in all"}.get(piece.of, " each")
            for text in texts:
                if "," in text:
                    continue  # such an option has a phrase of its own
                for written in {piece.say.format(text), *(f"{word} {text}" for word in piece.words)}:
                    found = facts_in(plate, f"2p, {written}{scope}" if plate.count and piece.path != plate.count else written)
                    assert piece.path in found, f"{plate.key}: {written}"


def test_every_phrase_says_facts_that_there_are() -> None:
    for plate in LINES:
        for phrase, facts in plate.phrases.items():
            assert phrase == phrase.casefold()
            for path, text in facts.items():
                rig = with_fact(Rig("", {}), re.sub(r"^(outlets|loads|cars)\.", r"\1.0.", path), text)
                assert len(rig.facts) == 1


# --- what can be two things ----------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("key", "line", "ways"),
    [
        ("bank", "1p, 50 A", ("50 A in", "50 A out")),
        ("inverter", "5000 W", ("5000 W continuous", "surge 5000 W", "idle 5000 W")),
        ("inverter", "93 %", ("efficiency 93 %", "charger 93 %")),
        ("inverter", "80 A", ("charger 80 A", "passes 80 A")),
        ("inverter", "48 V", ("takes 48 V",)),
        ("settings", "44 V", ("absorb 44 V", "cut-off 44 V", "protection 44 V")),
        ("settings", "40 A", ("charging 40 A", "input 40 A")),
        ("tool", "saw: 1500 W", ("1500 W on its plate", "1500 W while running")),
        ("car", "van: 16 A", ("set to 16 A", "cord 16 A")),
        ("stands", "12 °C", ("cells 12 °C", "air 12 °C")),
    ],
)
def test_a_number_that_can_be_several_things_is_refused_with_how_to_write_each(key: str, line: str, ways: tuple[str, ...]) -> None:
    said = refusal(key, line)
    assert all(f"“{way}”" in said for way in ways), said
    for way in ways:
        facts_in(BY_KEY[key], f"1p, {way} each" if key == "bank" else way)


def test_four_in_series_may_be_cells_or_batteries() -> None:
    assert "of cells or of batteries" in refusal("bank", "LFP, 4 in series")


def test_of_several_batteries_it_must_be_said_whether_a_number_is_of_each_or_of_all() -> None:
    """A bank of twice its size would be a wrong go: 200 Ah beside 2p is either 200 or 400."""
    for piece in ("200 Ah", "100 A out", "46 kg", "5.1 kWh"):
        assert "of one, or of all?" in refusal("bank", f"LFP, 16s2p, {piece}")
        assert "of one, or of all?" in refusal("bank", f"LFP, 16s, {piece}"), "nobody is taken to have a single one"
    assert "what one of them has" in refusal("bank", "2p, 200 Ah in all")
    assert "of how many?" in refusal("bank", "5.1 kWh each")
    assert said(rig_from(bank="2p, 5.1 kWh each"))["bank.energy"] == "10.2 kWh"
    assert said(rig_from(bank="2p, 92 kg in all"))["bank.mass"] == "92 kg"
    assert said(rig_from(bank="2p, 100 Ah each"))["bank.capacity"] == "100 Ah"
    assert said(rig_from(bank="1p, 100 Ah"))["bank.capacity"] == "100 Ah"


def test_several_batteries_may_stand_behind_or_beside_one_another() -> None:
    """Four of 12.8 V and 100 Ah in series are 5.12 kWh; read as four strings of 16 cells they would be 20.48."""
    assert "in series, or in parallel?" in refusal("bank", "LFP, 16s, 4 batteries, 100 Ah each")
    assert "in series, or all of them?" in refusal("bank", "LFP, 32 cells, 2 in parallel, 100 Ah each"), "16s2p has 32 cells"
    assert said(rig_from(bank="LFP, 16s, 2 batteries in parallel, 100 Ah each"))["bank.energy"] == "10.24 kWh"
    assert said(rig_from(bank="1 battery"))["bank.strings"] == "1", "a single one stands beside none"
    assert "count the cells" in refusal("bank", "LFP, 2s2p, 100 Ah each"), "two cells are 6.4 V: these are batteries"


@pytest.mark.parametrize("line", ["16s1p, 12 kg", "16s1p, 12 kg each", "16s2p, 12 kg each"])
def test_what_a_bank_weighs_is_written_of_all_its_batteries(line: str) -> None:
    """Four batteries of 12 kg in series are one string: too light a bank would be too light a trailer."""
    assert "in all" in refusal("bank", line)


def test_what_is_given_for_seconds_is_not_given_without_end_and_seconds_are_no_cells() -> None:
    for line in ("LFP, 1p, 200 A out for 5 s", "LFP, 1p, 200 A out for 10s", "LFP, 1p, 200 A out 5s", "1p, 200 A peak", "1p, peak discharge 200 A"):
        assert "for seconds" in refusal("bank", line)
    refusal("bank", "1p, 200 A out, 5 s")
    refusal("inverter", "6000 W continuous for 60 s")
    refusal("inverter", "rated 6000 W for 60 s")
    assert said(rig_from(bank="1p, 50 A in and 100 A out")) == said(rig_from(bank="1p, 50 A in, 100 A out")), "these are two"
    assert "asleep" in refusal("inverter", "standby 2 W"), "a saving mode takes less than what is switched on"


def test_the_volts_of_a_full_bank_are_no_nominal_ones_and_no_empty_ones() -> None:
    """Sixteen cells of 3.65 V are 58.4 V: 100 Ah at that would be 5.84 kWh, and are 5.12."""
    assert "full bank" in refusal("bank", "LFP, 16s1p, 58.4 V, 100 Ah")
    assert "empty" in refusal("settings", "absorb 57.6 V, protection 58.4 V")
    assert "empty" in started({"bank": "LFP, 16s", "settings": "protection 58.4 V"})[1]["settings"]


def test_a_piece_that_stands_twice_is_not_read_as_one() -> None:
    """Two lamps of 100 W take 200 W."""
    assert "both say" in refusal("stands", "running 100 W, running 100 W")
    assert "both say" in refusal("tool", "saw: 120 V\n120 V")


def test_a_residual_current_device_is_read_with_its_milliamps() -> None:
    """One of 100 or 300 mA guards against fire (IEC 60364-4-42); a person is guarded by 30 mA and less (-4-41)."""
    for line in ("RCD type A", "RCD 30 mA", "RCD type A 300 mA", "RCD type A, 300 mA", "RCD type B, 100 mA"):
        assert "how many milliamps" in refusal("outlets", f"blue 16 A, {line}")
    assert said(rig_from(outlets="blue 16 A, RCD type B, 30 mA"))["outlets.0.ground_fault"] == "RCD type B, 30 mA"
    assert said(rig_from(outlets="5-20, GFCI"))["outlets.0.ground_fault"] == "Class A, 5 mA", "as the NEC's article 100 says of it"


def test_volt_amperes_on_a_plate_are_not_those_of_the_start() -> None:
    assert "at its start" in refusal("tool", "charger: 120 V, 1800 VA")


@pytest.mark.parametrize(
    ("key", "line", "like"),
    [
        ("bank", "LFP 51.2V 1p", "LFP, 51.2 V, 1p"),
        ("bank", "AGM 12V 100Ah 1p", "AGM, 12 V, 100 Ah, 1p"),
        ("bank", "1p, continuous discharge current 100 A, max charge current 50 A", "1p, 100 A out, 50 A in"),
        ("bank", "1p, 51.2 V nominal, 100 amp hours", "1p, 51.2 V, 100 Ah"),
        ("inverter", "120/240V, rated power 5000 W", "120/240 V split-phase, 5000 W continuous"),
        ("inverter", "230 VAC, surge 10 kW 5 s, peak efficiency 93%", "230 V, surge 10 kW for 5 s, efficiency 93 %"),
        ("settings", "min SOC 20%", "reserve 20 %"),
        ("outlets", "left: NEMA 5-20R, 20 A", "left: 5-20, 20 A"),
        ("tool", "saw: 120V 13A, 50 ft 12/3 cord", "saw: 120 V, 13 A, cord 50 ft, cord 12 AWG"),
        ("tool", "saw: 10A@230V~, 3G1.5", "saw: 10 A, 230 V, cord 1.5 mm2"),
        ("tool", "saw: 230V~, cord 3x2,5 25 m", "saw: 230 V, cord 2.5 mm2, cord 25 m"),
        ("tool", "pump: 120 V, 1.5hp", "pump: 120 V, 1 1/2 hp"),
        ("bank", "LFP 16s 1 string 100Ah, 46 kg total", "LFP, 16s1p, 100 Ah, 46 kg in all"),
        ("car", "van: 3.1 mi/kWh dash, 240V, charging at 16A", "van: 3.1 mi/kWh, dash, 240 V, set to 16 A"),
        ("stands", "SOC 80%, cells 54 °F, ambient 46 °F", "80 %, cells 54 °F, air 46 °F"),
    ],
)
def test_what_people_write_on_a_telephone_is_read_where_it_can_be_one_thing(key: str, line: str, like: str) -> None:
    assert said(rig_from(**{key: line})) == said(rig_from(**{key: like}))


@pytest.mark.parametrize(
    ("key", "line"),
    [("tool", "saw: 120 V, 10/5 A"), ("tool", "saw: 120/240 V, 10/5 A"), ("tool", "saw: 2000/1000 W running"), ("bank", "1p, 200/100 A out"), ("stands", "running 300/200 W")],
)
def test_a_stroke_between_two_numbers_is_no_fraction(key: str, line: str) -> None:
    """A motor for 120/240 V takes 10/5 A: ten at 120 V, and not two."""
    assert "a stroke parts two numbers" in refusal(key, line)
    assert said(rig_from(tool="saw: cord 12 1/2 ft, 1/2 h a day, 1/2 hp"))["loads.0.hours"] == "0.5 h"


@pytest.mark.parametrize("line", ["lamps: 2x16", "saw: 10/3", "saw: cord 2x25", "saw: cord 2x25 m", "saw: 2x1.5", "saw: 13/6 A"])
def test_two_of_a_thing_are_no_thick_cord(line: str) -> None:
    """A cord thicker than the one there is would be too little drop and too little heat."""
    refusal("tool", line)


@pytest.mark.parametrize(
    ("key", "line", "write"),
    [
        ("bank", "lithium", "“LFP”"),
        ("bank", "100A BMS", "100 A out"),
        ("bank", "1p, ca. 100 Ah", "one number"),
        ("bank", "44-57.6 V", "nominal"),
        ("inverter", "5kVA", "not watts"),
        ("inverter", "230 V 50 Hz", "leave it out"),
        ("settings", "LVC 46 V", "“cut-off 46 V” or “protection 44 V”"),
        ("settings", "DoD 80 %", "reserve"),
        ("outlets", "L5-30R 30A", "not read here"),
        ("tool", "saw: 220-240V~", "230 V"),
        ("tool", "saw: 115 V", "120 V"),
        ("tool", "saw: 5.5 peak hp", "beside the volts"),
    ],
)
def test_what_people_write_and_may_mean_two_things_is_refused_with_what_to_write(key: str, line: str, write: str) -> None:
    assert write in refusal(key, line)


def test_the_example_as_it_is_shown_can_be_copied_into_its_field() -> None:
    for plate in LINES:
        assert "\u00a0" in plate.shown
    shown, problems = started({plate.key: plate.shown for plate in LINES})
    assert shown is not None, problems
    assert said(shown) == said(rig_from(**EXAMPLES))


def test_a_line_of_thousands_of_letters_is_refused_at_once() -> None:
    assert "longer" in refusal("bank", " " * 100_000 + "x")


@pytest.mark.parametrize(
    ("key", "line", "why"),
    [
        ("bank", "LFP, about a hundred", "not read here"),
        ("bank", "LFP, 16", "16 cells"),
        ("bank", "1p, 100 A out 50 A in", "holds two numbers"),
        ("bank", "LFP, NMC", "both say"),
        ("bank", "1p, 100 Ah, 200 Ah", "both say"),
        ("bank", "1p, 100000 Ah", "must be between"),
        ("bank", "2.5 in parallel", "whole number"),
        ("inverter", "5000 VA continuous", "continuous"),
        ("inverter", "idle 55", "“idle 55 W”"),
        ("inverter", "5000", "unit"),
        ("outlets", "5-20,20 A", "not read here"),
        ("outlets", "5-20: 20 A", "before the colon"),
        ("tool", "saw: 120 V, at 5-30", "none of the outlets"),
        ("tool", "saw: 120 V, 13 A, loud", "loud"),
        ("stands", "80 %, warm", "warm"),
    ],
)
def test_what_cannot_be_read_is_refused_and_nothing_of_its_line_is_kept(key: str, line: str, why: str) -> None:
    assert why in refusal(key, line)


def test_every_piece_that_is_wrong_is_named_not_the_first_alone() -> None:
    said = refusal("settings", "44 V, 40 A, absorb 57.6 V, soon")
    assert all(f"“{piece}”" in said for piece in ("44 V", "40 A", "soon"))


def test_volt_amperes_are_no_watts_and_a_motor_s_horsepower_is_not_what_it_takes() -> None:
    refusal("inverter", "surge 10 kVA")
    assert facts_in(TOOL, "1 hp") == {"loads.plate": "horsepower", "loads.horsepower": "1"}
    refusal("tool", "saw: 1 hp while running")


# --- what follows --------------------------------------------------------------------------------------------------


def test_volts_and_energy_follow_from_the_cells_where_every_maker_has_the_same_volts() -> None:
    """Watt-hours are amp-hours times volts (49 CFR 171.8): 16 cells of 3.2 V and 280 Ah are 14.336 kWh; 24 of 2 V are 48 V."""
    rig = rig_from(bank="LFP, 16s1p, 280 Ah")
    energy = rig.facts["bank.energy"]
    assert isinstance(energy, Quantity) and energy.si == pytest.approx(14.336 * 3.6e6)
    assert said(rig)["bank.nominal_volts"] == "51.2 V"
    assert said(rig_from(bank="AGM, 24s"))["bank.nominal_volts"] == "48 V"


def test_what_is_typed_stands_and_what_does_not_follow_is_not_known() -> None:
    assert said(rig_from(bank="LFP, 16s1p, 48 V, 100 Ah"))["bank.energy"] == "4.8 kWh"
    assert said(rig_from(bank="LFP, 16s1p, 100 Ah, 5 kWh"))["bank.energy"] == "5 kWh"
    assert "bank.nominal_volts" not in rig_from(bank="NMC, 14s1p, 100 Ah").facts, "3.6 V from one maker, 3.7 from another"
    assert "bank.energy" not in rig_from(bank="LFP, 16s, 100 Ah each").facts, "of how many?"
    assert "bank.energy" not in rig_from(bank="16s1p, 100 Ah").facts, "of which cells?"


def test_numbers_that_cannot_all_be_true_are_refused() -> None:
    """Sixteen cells of 2.5 to 3.65 V are 40 to 58.4 V: 12.8 V is one battery of four, and 10.2 kWh are two of 5.1."""
    assert "12.8 V" in refusal("bank", "LFP, 16s1p, 12.8 V")
    assert "10.2 kWh" in refusal("bank", "LFP, 16s1p, 100 Ah, 10.2 kWh")
    assert "bank.energy" in rig_from(bank="LFP, 16s2p, 100 Ah each, 10.2 kWh in all").facts


def test_an_outlet_is_wanted_for_what_is_plugged_into_it_and_for_nothing_guessed() -> None:
    rig = said(rig_from(outlets="5-20, 20 A; 14-30, 30 A", tool="saw: 120 V, 13 A, short runs, at 5-20", car="van: 240 V, set to 16 A, at 14-30"))
    assert (rig["outlets.0.used_volts"], rig["outlets.0.used_amps"], rig["outlets.0.lasting"]) == ("120 V", "13 A", "no")
    assert (rig["outlets.1.used_volts"], rig["outlets.1.used_amps"], rig["outlets.1.lasting"]) == ("240 V", "16 A", "yes")
    both = rig_from(outlets="14-50, 50 A", tool="saw: 240 V, 13 A, at 14-50", car="van: 240 V, set to 16 A, at 14-50")
    assert not [path for path in both.facts if "used" in path], "two things may run one after the other, or together"
    assert not [path for path in rig_from(outlets="5-20", tool="saw: 120 V, 13 A").facts if "used" in path]


def test_things_have_the_names_that_stand_before_a_colon() -> None:
    rig = said(rig_from(outlets="left: 5-20, 20 A; right: 5-20, 20 A", tool="big saw: 120 V, at right; 120 V, at left"))
    assert [rig[f"outlets.{place}.name"] for place in (0, 1)] == ["left", "right"]
    assert [rig[f"loads.{place}.name"] for place in (0, 1)] == ["big saw", "load"]
    assert [rig[f"loads.{place}.outlet"] for place in (0, 1)] == ["right", "left"]
    assert "fits several" in started({"outlets": "left: 5-20; right: 5-20", "tool": "saw: at 5-20"})[1]["tool"]
    assert said(rig_from(tool="universal motor: saw or grinder, 120 V"))["loads.0.name"] == "load", "this colon is the trade's"


def test_nothing_running_is_nothing_on_the_breaker_either() -> None:
    assert facts_in(NOW, "nothing running") == {"now.running": "0 W", "now.beside": "0 A"}
    assert facts_in(NOW, "running 300 W") == {"now.running": "300 W"}


# --- whatever is typed ---------------------------------------------------------------------------------------------

_PIECES = {plate.key: [piece.strip() for piece in re.split(r"[,;]", plate.example)] for plate in LINES}
_SOUP = st.lists(
    st.one_of(
        st.sampled_from([piece for pieces in _PIECES.values() for piece in pieces]),
        st.sampled_from(["in", "out", "each", "in all", "50 A", "16s2p", "120 V", "44 V", "5-20", "%", "½", "1,500 W", ":", ";", "for 5 s", "no"]),
        st.text(max_size=12),
    ),
    max_size=8,
)


@settings(deadline=None)
@given(st.sampled_from(LINES), _SOUP, st.sampled_from([", ", " ", "; ", ",", "\r\n"]))
def test_whatever_is_typed_is_read_or_refused_and_no_number_is_taken_that_does_not_stand_there(plate, words, joined) -> None:  # type: ignore[no-untyped-def]
    line = joined.join(words)
    try:
        things = things_in(plate, line)
    except Unreadable as problem:
        assert str(problem)
        return
    plain = re.sub(r"\s+", "", line)
    implied = {(path, text) for facts in plate.phrases.values() for path, text in facts.items()}
    implied |= {pair for piece in plate.pieces for pair in piece.implies.items()}
    for name, facts in things:
        assert name in line
        for path, text in facts.items():
            number = re.match(r"[\d.,]+", text)
            if (path, text) in implied or any(piece.path == path and piece.of == "all" for piece in plate.pieces):
                continue  # said by a phrase, or so many times what one has
            assert (number[0] if number else re.sub(r"\s+", "", text)) in plain, f"{path}: {text} is not in {line!r}"


@settings(deadline=None)
@given(st.data())
def test_the_order_of_the_pieces_does_not_matter(data: st.DataObject) -> None:
    plate = data.draw(st.sampled_from([BANK, INVERTER, SETTINGS, NOW]))
    pieces = data.draw(st.permutations(re.split(r", | for ", plate.example)))
    assert facts_in(plate, ", ".join(pieces)) == facts_in(plate, plate.example)


@settings(deadline=None)
@given(st.sampled_from(LINES), st.integers(0, 20), st.sampled_from(["", "7", "xyzzy", "9999 Ω", "≈ 3 A", "not sure"]))
def test_one_piece_that_is_not_understood_stops_its_whole_line(plate, place, stray) -> None:  # type: ignore[no-untyped-def]
    parts = re.split(r", ", plate.example)
    place %= len(parts) + 1
    line = ", ".join([*parts[:place], stray, *parts[place:]] if place else [*parts, stray])
    if not stray:
        assert things_in(plate, line) == things_in(plate, plate.example)
        return
    with pytest.raises(Unreadable):
        things_in(plate, line)


# --- the board that the page's examples make -----------------------------------------------------------------------


def test_the_examples_of_the_page_make_a_board_with_eight_answers_and_more() -> None:
    rows = board(rig_from(**EXAMPLES))
    answered = {row.check.id for row in rows if row.answer.verdict != "not known"}
    assert len(answered) >= 8, answered
    assert {"refill/battery-limit", "run/tool-on-outlet", "run/car-distance", "run/car-current"} <= answered


def test_lines_answer_as_their_facts_do_when_they_are_typed_one_by_one() -> None:
    """In any order of facts, through the act that the rig page uses for each: no go that single fields would not give."""
    rig = rig_from(**EXAMPLES)
    paths = sorted(rig.facts, key=lambda path: not path.endswith(".name"))
    names, rest = [path for path in paths if path.endswith(".name")], [path for path in paths if not path.endswith(".name")]
    random.Random(1).shuffle(rest)
    typed = Rig("", {})
    for path in [*names, *rest]:
        known = rig.facts[path]
        typed = with_fact(typed, path, str(known).replace("\u00a0", " ").replace("−", "-"))
    answers = [[(row.check.id, row.subject, row.answer.verdict) for row in board(one)] for one in (rig, typed)]
    assert answers[0] == answers[1]


@pytest.mark.parametrize(("cells", "verdict"), [("25 °C", "go"), ("-5 °C", "no")])
def test_three_lines_already_say_whether_the_bank_may_be_charged_as_it_stands(cells: str, verdict: str) -> None:
    """LFP below freezing: no charge at all. A maker's word may allow it; nobody has said so here."""
    rig = rig_from(bank="LFP, 16s1p, 100 Ah, 50 A in", settings="charging 40 A", stands=f"cells {cells}")
    rows = {row.check.id: row.answer for row in board(rig)}
    assert rows["refill/battery-limit"].verdict == verdict
    assert any(answer.missing for answer in rows.values()), "the others say what they lack"


def test_no_line_at_all_makes_a_rig_of_which_nothing_is_known() -> None:
    rig, problems = started({})
    assert rig is not None and not problems and not rig.facts and not rig.name


def test_a_line_takes_nothing_from_the_example_rig() -> None:
    rig = rig_from(bank="NMC, 1p, 33 Ah")
    assert set(rig.facts) == {"bank.chemistry", "bank.strings", "bank.capacity"}
    assert example_rig().facts["bank.chemistry"] != "NMC"


def test_a_second_line_cannot_overwrite_what_a_first_one_said() -> None:
    rig = with_line(Rig("", {}), CAR, "van: trip 10 mi")
    with pytest.raises(Unreadable, match="twice"):
        with_line(rig, CAR, "truck: trip 20 mi")


def test_the_fields_are_told_by_facts_that_exist() -> None:
    assert len(LINES) + 1 <= 8, "with the rig's name"
    assert len({plate.key for plate in LINES}) == len(LINES)
    for plate in LINES:
        assert all(fact_at(piece.path).label for piece in plate.pieces)
        assert len({piece.path for piece in plate.pieces}) == len(plate.pieces)
    assert OUTLETS.group == "outlets"
