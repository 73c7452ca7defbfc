"""The log of the rig in use as its page shows it: what is noted next, and what was noted before."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from calc.asks import Ask
from calc.catalogue import all_checks
from calc.check import NEC, Check
from calc.editing import without_reading
from calc.facts import fact_at
from calc.form import read_field, subject_name, subjects
from calc.measurable import MEASURABLE, MOST_READINGS, READING, STANDS_FOR, TAKEN_OF
from calc.opening import name_in
from calc.printing import printed
from calc.quantity import Quantity
from calc.reading import Unreadable
from calc.readings import Reading, latest_test, noted, of_one_test, with_places
from calc.rendering import Field
from calc.rig import Rig, example_rig

Texts = Mapping[str, str]
FIRST = "bank volts, small load"
# So many are listed; those before them are in the rig's file.
LISTED = 120


@cache
def _asked_by() -> Mapping[str, tuple[type[Check], str]]:
    """What is read, and the question that asks it, with the name of its field."""
    return {
        spec.reading: (check, name)
        for check in all_checks()
        for name, spec in check.asks.items()
        if isinstance(spec, Ask) and spec.reading
    }


def by_question() -> list[tuple[str, list[tuple[str, str]]]]:
    """All that can be measured, by the question that it answers: (title, [(what, its label)])."""
    found: dict[str, list[tuple[str, str]]] = {}
    for what, (check, _) in _asked_by().items():
        found.setdefault(check.title, []).append((what, MEASURABLE[what].label))
    return list(found.items())


def question_of(what: str) -> type[Check]:
    return _asked_by()[what][0]


def spec_of(what: str) -> Ask:
    check, name = _asked_by()[what]
    spec = check.asks[name]
    assert isinstance(spec, Ask)
    return spec


def whats_of(check: type[Check]) -> list[str]:
    return [what for what, (asking, _) in _asked_by().items() if asking is check]


def things_of(rig: Rig, what: str) -> list[str]:
    """The names of the things of which this may be read, where it is not read of the rig as a whole."""
    check = question_of(what)
    names = (subject_name(check, rig, place) for place in subjects(check, rig)) if what in TAKEN_OF else ()
    return [name for name in names if name]


# --- the control ---------------------------------------------------------------------------------------------------


@dataclass(frozen=True)
class Entry:
    """What is about to be noted. when: as it was typed, if it was; now: the phone's time, where it is known."""

    rig: Rig
    what: str
    of: str
    note: str = ""
    when: str = ""
    now: str = ""

    @property
    def field(self) -> Field:
        return Field("value", spec_of(self.what), "", NEC)

    @property
    def things(self) -> list[str]:
        return things_of(self.rig, self.what)

    @property
    def wants_a_thing(self) -> str:
        """The part of the rig that lacks a thing of which this is read; empty where all is well."""
        return TAKEN_OF[self.what] if self.what in TAKEN_OF and not self.things else ""

    @property
    def before(self) -> Reading | None:
        """The same reading, where the test that is under way has it: to be corrected, or taken anew."""
        test = latest_test(self.rig, whats_of(question_of(self.what)), self.of)
        first = next(iter(test.values()), None)
        now = Reading(self.what, spec_of(self.what).default, self.now, self.of)
        return test.get(self.what) if first and self.now and of_one_test(first, now) else None

    @property
    def before_shown(self) -> str:
        return f"{printed(self.before.value)} at {self.before.when[11:16]}" if self.before else ""


def entry(rig: Rig | None, form: Texts) -> Entry:
    """The control for what the form names; of an unknown thing or none, for the first."""
    whole = rig or example_rig()
    what = form.get("what", "") if form.get("what") in MEASURABLE else FIRST
    things = things_of(whole, what)
    of = form.get("of", "") if form.get("of") in things else next(iter(things), "")
    return Entry(whole, what, of, form.get("note", ""), form.get("when", ""), form.get("now", ""))


# --- noting ----------------------------------------------------------------------------------------------------------


def with_noted(rig: Rig, form: Texts) -> tuple[Rig, Reading]:
    """The rig with what was typed in its log; `instead`: in the place of the same reading of the same test.

    Raises Unreadable, beginning with what is to be written otherwise.
    """
    asked = entry(rig, form)
    spec = spec_of(asked.what)
    try:
        value = read_field(spec, form.get("value", ""), NEC)
    except Unreadable as problem:
        raise Unreadable(f"{spec.label} {problem}.") from None
    assert isinstance(value, Quantity)
    reading = Reading(asked.what, value, _time(form), asked.of, _note(form))
    if form.get("instead") and asked.before:
        rig = without_reading(rig, _place_of(rig, asked.before))
    if rig.count("readings") >= MOST_READINGS:
        raise Unreadable(f"The log is full with {MOST_READINGS} readings. Save the rig as a file, then remove old ones.")
    return noted(rig, reading), reading


def _time(form: Texts) -> str:
    """When it was read: now, or as it was typed: a day, a day and a time, or a time of today."""
    now, text = form.get("now", ""), form.get("when", "").strip()
    if not text:
        return now
    if re.fullmatch(r"\d{1,2}:\d{2}", text):
        text = f"{now[:10]}T{text:0>5}"
    text = re.sub(r"\s+", "T", text)
    if not re.fullmatch(READING["when"].pattern, text, re.ASCII):
        raise Unreadable(f"{READING['when'].label} must be written like {READING['when'].example}, or 10:20 for today.")
    if text[: len(now)] > now[: len(text)]:
        raise Unreadable(f"{READING['when'].label} lies ahead: it is {now.replace('T', ' ')} now.")
    return text


def _note(form: Texts) -> str:
    try:
        return name_in(" ".join(form.get("note", "").split()))
    except Unreadable as problem:
        raise Unreadable(f"{READING['note'].label} {problem}.") from None


def _place_of(rig: Rig, reading: Reading) -> int:
    return next(place for place, other in with_places(rig) if other == reading)


# --- the list --------------------------------------------------------------------------------------------------------


@dataclass(frozen=True)
class Noted:
    """A reading as the list shows it."""

    reading: Reading
    place: int

    @property
    def label(self) -> str:
        what = self.reading.what
        return MEASURABLE[what].label if what in MEASURABLE else fact_at(STANDS_FOR[what]).label

    @property
    def value(self) -> str:
        return printed(self.reading.value)

    @property
    def when(self) -> str:
        return self.reading.when[:16].replace("T", " ")

    @property
    def is_fact(self) -> bool:
        """Whether it was worked out by a test, and stands for a fact of the rig."""
        return self.reading.what in STANDS_FOR


def newest_first(rig: Rig) -> list[Noted]:
    return [Noted(reading, place) for place, reading in reversed(with_places(rig)[-LISTED:])]


def struck(rig: Rig, form: Texts) -> tuple[Rig, Noted]:
    """The rig without a reading; which, its place and its time say together, so that no other goes in its stead."""
    place, what, when = int(form["place"]), form["what"], form["when"]
    found = next((one for one in newest_first(rig) if (one.place, one.reading.what, one.reading.when) == (place, what, when)), None)
    if found is None:
        raise LookupError("This reading is not in the log any more.")
    return without_reading(rig, place), found
