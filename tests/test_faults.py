"""The fault finder ends, cites a page for every cause, and sends nobody to live parts."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import fields, is_dataclass

import pytest

from calc.catalogue import check_called
from calc.faults import DISPLAY, EYE, METER, PLUG, THERMOMETER, WAYS, Cause, Look, Symptom, causes
from calc.symptoms import SYMPTOMS

every_symptom = pytest.mark.parametrize("symptom", SYMPTOMS, ids=lambda symptom: symptom.key)

# Doing, and what it is done to. `switched off`, `unplugged` or `dead` in the same sentence makes it safe.
HANDS = re.compile(r"\b(tighten|remake|remade|open(?:ed)?|probe|touch|clean|remove|loosen|replace|undo|reach into|search(?:ed)?)\b", re.IGNORECASE)
SAFE = re.compile(r"switched off|switch (?:it|everything|them)? ?(?:all )?off|unplug|cord out|dead|leave it off|have |its reason|leave it open", re.IGNORECASE)
LIVE = re.compile(r"while (?:it is|they are) (?:live|running|energi[sz]ed)|under power|with the power on|live parts?|hot work|bypass|bridge the device(?! or)|disable", re.IGNORECASE)


def sentences(of: object) -> Iterator[str]:
    """Every text that a person reads in a symptom."""
    if isinstance(of, str):
        yield of
    elif isinstance(of, tuple):
        for item in of:
            yield from sentences(item)
    elif is_dataclass(of) and not isinstance(of, type):
        for field in fields(of):
            if not (isinstance(of, Look) and field.name == "how") and field.name not in ("key", "check"):
                yield from sentences(getattr(of, field.name))


def paths(of: Look | Cause, taken: int = 0) -> Iterator[int]:
    """How many looks each way to a cause takes."""
    if isinstance(of, Cause):
        yield taken
        return
    for _, leads_to in of.found:
        yield from paths(leads_to, taken + 1)


def looks(of: Look | Cause) -> Iterator[Look]:
    if isinstance(of, Look):
        yield of
        for _, leads_to in of.found:
            yield from looks(leads_to)


@every_symptom
def test_every_way_ends_in_a_cause_after_one_to_three_looks(symptom: Symptom) -> None:
    lengths = list(paths(symptom.look))
    assert lengths and all(1 <= length <= 3 for length in lengths)


@every_symptom
def test_every_cause_names_a_page_that_there_is(symptom: Symptom) -> None:
    for cause in causes(symptom.look):
        assert check_called(cause.check).id == cause.check
        assert cause.says and cause.mend


@every_symptom
def test_every_look_is_taken_in_one_of_the_safe_ways_and_parts_the_ways(symptom: Symptom) -> None:
    assert {EYE, DISPLAY, PLUG, METER, THERMOMETER} == WAYS.keys()
    for look in looks(symptom.look):
        assert look.how in WAYS
        assert look.asks.endswith("?")
        answers = [answer for answer, _ in look.found]
        assert len(answers) >= 2 and len(set(answers)) == len(answers)


@every_symptom
def test_nobody_is_sent_to_live_parts(symptom: Symptom) -> None:
    """Whoever is told to use hands or a tool on wiring is told in the same sentence that it is off, or to have it done."""
    for sentence in sentences(symptom):
        assert not LIVE.search(sentence), sentence
    for cause in causes(symptom.look):
        for part in re.split(r"(?<=\.) ", cause.mend):
            if HANDS.search(part):
                assert SAFE.search(part), part


def test_the_lint_would_catch_live_work() -> None:
    assert HANDS.search("Tighten the neutral's screws") and not SAFE.search("Tighten the neutral's screws")
    assert LIVE.search("Measure at the lug while it is live")


def test_what_burns_or_kills_is_switched_off_before_it_is_looked_at() -> None:
    first = {symptom.key: symptom.first for symptom in SYMPTOMS}
    for key in ("plug-hot", "volts-odd"):
        assert "switch" in first[key].lower() and "off" in first[key]
    assert "cause is known" in first["ground-fault-trips"]


def test_the_symptoms_are_told_apart() -> None:
    assert len({symptom.key for symptom in SYMPTOMS}) == len({symptom.title for symptom in SYMPTOMS}) == len(SYMPTOMS) == 9


def test_a_protection_is_never_made_weaker() -> None:
    text = " ".join(sentence for symptom in SYMPTOMS for sentence in sentences(symptom)).lower()
    assert "never a larger breaker" in text
    for bad in ("use a larger breaker", "fit a larger breaker", "larger fuse", "cut the ground", "use a bonding plug"):
        assert bad not in text
