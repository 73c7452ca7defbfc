"""Changing a rig: what is typed becomes a fact or is refused in words, and nothing else of the rig moves."""

from __future__ import annotations

import pytest

from calc import editing, units
from calc.facts import FACTS, ONE_OF, TITLES
from calc.quantity import Quantity
from calc.reading import Unreadable
from calc.rig import Rig, example_rig, read_rig
from calc.rig_form import part_called, parts_of

EMPTY = Rig("", {})


def without_log(rig: Rig) -> Rig:
    """Readings are noted on the pages that measure, whole or not at all; no form fills them in."""
    return Rig(rig.name, {path: known for path, known in rig.facts.items() if not path.startswith("readings.")})


def typed_back(rig: Rig, people: str) -> Rig:
    """The rig made anew by typing into every field what the field shows."""
    with units.shown_to(people):
        made = Rig(rig.name, {path: known for path, known in rig.facts.items() if path.endswith(".name")})
        for path, known in rig.facts.items():
            made = editing.with_fact(made, path, editing.shown_fact(path, known))
    return made


@pytest.mark.parametrize("people", units.PEOPLE)
def test_what_a_field_shows_reads_as_the_same_fact_in_whatever_units(people: str) -> None:
    """Switching units changes how a fact is shown, never what is stored."""
    rig = without_log(example_rig())
    again = typed_back(rig, people)
    assert set(again.facts) == set(rig.facts)
    for path, known in rig.facts.items():
        other = again.facts[path]
        if isinstance(known, Quantity):
            assert isinstance(other, Quantity)
            assert other.si == pytest.approx(known.si, rel=1e-12), path
        else:
            assert other == known, path


def test_the_document_of_a_changed_rig_is_read_again() -> None:
    rig = editing.with_fact(example_rig(), "bank.energy", "12 kWh")
    again = read_rig(editing.text_of(rig))
    assert {path: str(known) for path, known in again.facts.items()} == {path: str(known) for path, known in rig.facts.items()}
    assert str(again.facts["bank.energy"]).replace("\u00a0", " ") == "12 kWh"


@pytest.mark.parametrize(
    ("path", "text", "why"),
    [
        ("bank.energy", "twelve", "must be a number"),
        ("bank.energy", "12000 kWh", "must be between"),
        ("bank.energy", "12 V", "is not read here"),
        ("bank.series", "15.5", "must be a whole number"),
        ("bank.chemistry", "nickel", "must be one of"),
        ("loads.0.outlet", "the moon", "must be one of"),
        ("loads.0.name", "x" * 81, "at most 80 characters"),
        ("loads.0.name", "saw\u202emill", "must be"),
        ("name", "y" * 81, "at most 80 characters"),
    ],
)
def test_what_cannot_be_a_fact_is_refused_by_its_label(path: str, text: str, why: str) -> None:
    with pytest.raises(Unreadable, match=why):
        editing.with_fact(example_rig(), path, text)


def test_an_emptied_field_is_not_known() -> None:
    assert "bank.energy" not in editing.with_fact(example_rig(), "bank.energy", " ").facts


def test_two_things_of_a_list_never_share_a_name() -> None:
    rig = example_rig()
    with pytest.raises(Unreadable, match="a name of its own"):
        editing.with_fact(rig, "loads.0.name", str(rig.facts["loads.1.name"]))
    assert editing.with_fact(rig, "loads.0.name", str(rig.facts["loads.0.name"])).facts == rig.facts


def test_what_refers_to_a_thing_follows_when_it_is_renamed_and_lets_go_when_it_is_removed() -> None:
    rig = example_rig()
    name = rig.facts["outlets.0.name"]
    referring = [path for path, known in rig.facts.items() if known == name and path != "outlets.0.name"]
    assert referring, "the example has something plugged into its first outlet"
    renamed = editing.with_fact(rig, "outlets.0.name", "left side")
    assert all(renamed.facts[path] == "left side" for path in referring)
    gone = editing.removed(rig, "outlets", 0)
    assert gone.count("outlets") == rig.count("outlets") - 1
    assert not any(path in gone.facts for path in referring)
    assert name not in {value for known in gone.facts.values() for value in (known if isinstance(known, tuple) else (known,))}


def test_the_things_after_a_removed_one_move_up_unchanged() -> None:
    rig = example_rig()
    gone = editing.removed(rig, "loads", 0)
    for place in range(gone.count("loads")):
        before = {path.split(".")[2]: known for path, known in rig.facts.items() if path.startswith(f"loads.{place + 1}.")}
        after = {path.split(".")[2]: known for path, known in gone.facts.items() if path.startswith(f"loads.{place}.")}
        assert after == before


def test_a_copy_is_the_same_thing_under_a_name_of_its_own() -> None:
    rig = example_rig()
    new = rig.count("loads")
    twice = editing.copied(rig, "loads", 1)
    before = {path.split(".")[2]: known for path, known in rig.facts.items() if path.startswith("loads.1.")}
    after = {path.split(".")[2]: known for path, known in twice.facts.items() if path.startswith(f"loads.{new}.")}
    assert after.pop("name") == f"{before.pop('name')} 2"
    assert after == before


@pytest.mark.parametrize("group", sorted(ONE_OF))
def test_a_list_takes_things_until_it_is_full(group: str) -> None:
    rig = EMPTY
    for _ in range(editing.MOST_THINGS):
        rig = editing.added(rig, group)
    assert len(set(editing.names_in(rig, group))) == editing.MOST_THINGS
    with pytest.raises(Unreadable, match="at most"):
        editing.added(rig, group)


def test_every_part_has_a_title_and_every_list_a_word_for_one_of_it() -> None:
    filled_in = [group for group in FACTS if group != "readings[]"]
    assert list(TITLES) == [group.removesuffix("[]") for group in filled_in]
    assert {f"{group}[]" for group in ONE_OF} == {group for group in filled_in if group.endswith("[]")}


def test_every_fact_has_a_field_in_some_part() -> None:
    rig = without_log(example_rig())
    shown = [path for part in parts_of(rig) for one in (part.things if part.is_list else [part]) for path in one.paths]
    assert set(rig.facts) <= set(shown)
    for part in parts_of(rig):
        for one in part.things if part.is_list else [part]:
            assert part_called(rig, one.key).key == one.key
            assert all(field.label and field.spec.help for field in one.fields)


def test_what_a_car_uses_is_read_either_way_as_its_help_says() -> None:
    """100 miles over 32 kWh are 3.125 mi/kWh; 200 Wh/km are 5 km/kWh."""
    rig = editing.added(EMPTY, "cars")
    for text, unit, number in (("32 kWh/100 mi", units.mi_per_kWh, 3.125), ("200 Wh/km", units.km_per_kWh, 5.0)):
        known = editing.with_fact(rig, "cars.0.consumption", text).facts["cars.0.consumption"]
        assert isinstance(known, Quantity) and unit.from_si(known.si) == pytest.approx(number, rel=5e-6), "six figures are kept"
        assert editing.rig_of(editing.text_of(Rig("", {"cars.0.consumption": known}))).facts
    with pytest.raises(Unreadable, match="must be between"):
        editing.with_fact(rig, "cars.0.consumption", "900 kWh/100 mi")
