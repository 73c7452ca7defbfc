"""What a phone has stored is read for good: every past version's document comes to the present one, a newer one is refused.

tests/rigs/version-N.json is a document as version N stored it. It is written once and never touched again.
"""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from calc import opening
from calc.facts import FACTS
from calc.opening import MARK, STEPS, VERSION, DamagedRig, Document, opened
from calc.rig import document, read_rig
from calc.walkround import walk_round

STORED = Path(__file__).parent / "rigs"
VERSIONS = range(1, VERSION + 1)


def stored(version: int) -> str:
    return (STORED / f"version-{version}.json").read_text(encoding="utf-8")


@pytest.mark.parametrize("version", VERSIONS)
def test_a_stored_rig_of_each_version_is_read_whole_and_can_be_inspected(version: int) -> None:
    kept = json.loads(stored(version))
    assert kept[MARK] == version
    rig = read_rig(stored(version))
    assert rig.name == kept["name"] and walk_round(rig).rig == rig.name
    if version == VERSION:
        assert document(rig) == kept, "nothing of it is lost"


def test_every_part_that_the_first_version_stored_is_one_that_a_rig_still_has() -> None:
    """It stored something of each part that there was."""
    parts = {group.removesuffix("[]") for group in FACTS}
    assert len(json.loads(stored(1)).keys() & parts) == len(json.loads(stored(1))) - 2 > 14


def test_each_past_version_has_its_step_and_no_other_has_one() -> None:
    assert set(STEPS) == set(range(1, VERSION))


def test_a_document_goes_through_every_step_between_its_version_and_the_present_one(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Two changes as they might come: a part under a new name, then a fact that moves to another part."""

    def renamed(old: Document) -> Document:
        return {("bank" if part == "pack" else part): content for part, content in old.items()}

    def moved(old: Document) -> Document:
        rest = {name: fact for name, fact in old["bank"].items() if name != "mass"}
        return old | {"bank": rest, "parts": [{"name": "bank", "mass": old["bank"]["mass"]}]}

    monkeypatch.setattr(opening, "VERSION", 3)
    monkeypatch.setattr(opening, "STEPS", {1: renamed, 2: moved})
    mass = {"value": 92, "unit": "kg"}
    newest = {MARK: 3, "bank": {"chemistry": "LFP"}, "parts": [{"name": "bank", "mass": mass}]}
    assert opened(json.dumps({MARK: 1, "pack": {"chemistry": "LFP", "mass": mass}})) == newest
    assert opened(json.dumps({MARK: 2, "bank": {"chemistry": "LFP", "mass": mass}})) == newest
    assert opened(json.dumps(newest)) == newest


@pytest.mark.parametrize("version", [VERSION + 1, 99, 10**30])
def test_a_newer_version_is_refused_and_says_what_to_do(version: int) -> None:
    with pytest.raises(DamagedRig) as refused:
        read_rig(json.dumps({MARK: version}))
    assert f"version {version}"[:30] in str(refused.value)
    assert "newer" in str(refused.value) and f"up to version {VERSION}" in str(refused.value)
