"""A rig's facts as forms: part by part, and each list thing by thing, so that a phone shows a screenful at a time."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

from calc.asks import NEC, Pick
from calc.editing import asked_as, choices_of, names_in, shown_fact
from calc.facts import FACTS, ONE_OF, TITLES, Fact, fact_at
from calc.readings import measured, origin
from calc.rendering import Field
from calc.rig import Rig


@dataclass(frozen=True)
class FactField(Field):
    """One fact as its form shows it. Empty is not known."""

    fact: Fact = Fact("", "")
    choices: tuple[str, ...] = ()
    measured: str = ""  # on what day, where it was

    @property
    def kind(self) -> str:
        """number, choice, several (of some choices), or name."""
        if self.fact.many:
            return "several"
        if self.choices or self.fact.refers_to:
            return "choice"
        return "number" if self.fact.low is not None else "name"

    @property
    def label(self) -> str:
        return super().label if self.kind == "number" else self.fact.label

    @property
    def options(self) -> tuple[str, ...]:
        return self.choices

    @property
    def sensed(self) -> str:
        return self.fact.sensed

    @property
    def chosen(self) -> list[str]:
        return self.text.split("\n") if self.text else []


def field_of(rig: Rig, path: str) -> FactField:
    fact = fact_at(path)
    choices = choices_of(rig, fact) if fact.options or fact.refers_to else ()
    spec = asked_as(path) or _choice(fact, choices)
    reading = measured(rig, path)
    said = origin(reading) if reading else ""
    return FactField(path, spec, shown_fact(path, rig.facts.get(path)), NEC, fact=fact, choices=choices, measured=said)


def _choice(fact: Fact, choices: tuple[str, ...]) -> Pick:
    return Pick(label=fact.label, options_by_rules={NEC: choices}, default_by_rules={NEC: ""}, help=fact.help)


@dataclass(frozen=True)
class Part:
    """One part of a rig: a group of facts, a list of things, or one thing of a list."""

    rig: Rig
    group: str
    place: int | None = None

    @property
    def key(self) -> str:
        return self.group if self.place is None else f"{self.group}.{self.place}"

    @property
    def is_list(self) -> bool:
        return f"{self.group}[]" in FACTS and self.place is None

    @property
    def title(self) -> str:
        return TITLES[self.group] if self.place is None else self.name

    @property
    def name(self) -> str:
        """What the person calls this thing."""
        known = self.rig.facts.get(f"{self.key}.name")
        return known if isinstance(known, str) else f"{ONE_OF[self.group]} {(self.place or 0) + 1}"

    @property
    def called(self) -> str:
        return ONE_OF[self.group]

    @property
    def things(self) -> list[Part]:
        return [Part(self.rig, self.group, place) for place in range(self.rig.count(self.group))]

    @cached_property
    def paths(self) -> list[str]:
        facts = FACTS.get(self.group) or FACTS[f"{self.group}[]"]
        return [f"{self.key}.{name}" for name in facts]

    @property
    def fields(self) -> list[FactField]:
        return [field_of(self.rig, path) for path in self.paths]

    @property
    def about(self) -> str:
        """What is known of it, in a line."""
        if self.is_list:
            return ", ".join(names_in(self.rig, self.group)) or "none yet"
        known = sum(path in self.rig.facts for path in self.paths)
        return f"{known} of {len(self.paths)} known"


# The log of what was measured has a page of its own; a reading is whole or none, and no form to fill in.
_LOG = "readings"


def parts_of(rig: Rig) -> Iterator[Part]:
    """All parts of a rig that are filled in, in the order of the schema."""
    return (Part(rig, group.removesuffix("[]")) for group in FACTS if group != f"{_LOG}[]")


class NoSuchPart(LookupError):
    """No rig has a part of this name."""


def part_called(rig: Rig, key: str) -> Part:
    """The part `bank`, `loads` or `loads.0`. Raises NoSuchPart."""
    group, dot, place = key.partition(".")
    if group == _LOG:
        raise NoSuchPart("The readings are noted on their own page, and not filled in here.")
    if not dot and (group in FACTS or f"{group}[]" in FACTS):
        return Part(rig, group)
    if f"{group}[]" in FACTS and place.isdecimal() and int(place) < rig.count(group):
        return Part(rig, group, int(place))
    raise NoSuchPart(f"No part of this rig is called {key[:40]}.")


NOW_SHOWN = ("charge", "air", "cells", "plugged_into", "running", "month")


def now_fields(rig: Rig) -> list[FactField]:
    """What changes from hour to hour: the panel on the board."""
    return [field_of(rig, f"now.{name}") for name in NOW_SHOWN if name in FACTS["now"]]
