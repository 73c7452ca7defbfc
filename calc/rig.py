"""The facts of a rig: what is known of it, each with its unit and range, every one of them optional.

A rig is a JSON document with a schema version. Python owns the schema; a document that is damaged, foreign or
newer is refused with the reason, and nothing of it is kept.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import Any

from calc import units as u
from calc.laws.inverter import SYSTEMS
from calc.quantity import Quantity
from calc.reading import Unreadable, must_be_between, read_choice
from calc.tables import table
from calc.units import Unit

VERSION = 1
MARK = "barrowatt_rig"
_LARGEST_DOCUMENT = 200_000


class DamagedRig(ValueError):
    """A document that is not a rig we can use. The message says why, for the person."""


@dataclass(frozen=True)
class Fact:
    """One thing known about the rig: a number with its range, or one of a few options; `help` says where to read it."""

    label: str
    help: str
    low: Quantity | None = None
    high: Quantity | None = None
    options: tuple[str, ...] = ()

    @property
    def unit(self) -> Unit | None:
        return self.low.unit if self.low is not None else None


# Groups whose name ends in [] hold a list of things of one kind.
FACTS: Mapping[str, Mapping[str, Fact]] = {
    "bank": {
        "energy": Fact(
            "Nameplate energy of the bank",
            "On the battery's plate: Wh, or volts times amp-hours",
            0.2 * u.kWh,
            100 * u.kWh,
        ),
        "health": Fact(
            "What is left of the nameplate energy",
            "A measured discharge against the plate; 100 % when new",
            50 * u.percent,
            100 * u.percent,
        ),
        "reserve": Fact(
            "Charge kept back", "Your own rule, never under the maker's least charge", 0 * u.percent, 60 * u.percent
        ),
    },
    "inverter": {
        "continuous": Fact("Continuous rating", "On the inverter's plate: continuous output", 100 * u.W, 30_000 * u.W),
        "surge": Fact("Surge rating", "In the manual: peak or surge output", 100 * u.W, 90_000 * u.W),
        "surge_time": Fact(
            "How long the surge lasts", "In the manual, beside the surge rating", 0.005 * u.s, 120 * u.s
        ),
        "system": Fact("Output system", "On the inverter's plate: output volts", options=tuple(SYSTEMS)),
        "one_leg": Fact("Full power on one leg?", "In the manual; Answer no unless it says so", options=("no", "yes")),
        "idle": Fact("Idle draw", "In the manual: no-load or standby watts, or measured", 0.5 * u.W, 500 * u.W),
        "peak_efficiency": Fact("Peak efficiency", "In the manual", 75 * u.percent, 99 * u.percent),
    },
    "outlets[]": {
        "configuration": Fact("Pattern of the outlet", "By its slots", options=table("outlets").rows),
        "breaker": Fact("Breaker of the outlet", "The number on its handle", 10 * u.A, 100 * u.A),
    },
    "loads[]": {
        "volts": Fact("Volts on its plate", "115 counts as 120, 230 as 240", options=("120 V", "240 V")),
        "plate": Fact("What its plate says", "Amps are best", options=("amps", "watts", "horsepower")),
        "amps": Fact("Amps on its plate", "Beside the volts", 0.1 * u.A, 100 * u.A),
        "watts": Fact("Watts on its plate", "What it takes in", 10 * u.W, 15_000 * u.W),
        "horsepower": Fact("Horsepower on its plate", "Of a motor", options=table("motor_current").rows),
        "start": Fact(
            "How it starts",
            "What kind of load it is",
            options=(*table("start_current").rows, "by its code letter", "amps stated or measured"),
        ),
        "start_amps": Fact("Start current", "LRA on its plate, or measured", 0.1 * u.A, 600 * u.A),
        "start_time": Fact("Seconds until it has run up", "By ear", 0.01 * u.s, 30 * u.s),
    },
    "cars[]": {
        "consumption": Fact("What the car uses", "On its dash, or its label", 0.2 * u.mi_per_kWh, 40 * u.mi_per_kWh),
        "consumption_kind": Fact(
            "Where that is measured",
            "The dash counts at the battery, the label at the wall",
            options=("dash (at the battery)", "label (at the wall)"),
        ),
        "charging_amps": Fact("Amps the car is set to", "On the car's charge screen", 6 * u.A, 80 * u.A),
        "charging_volts": Fact(
            "Volts it charges at", "The outlet it is plugged into", options=("120 V", "240 V", "230 V")
        ),
        "cabin": Fact("Heating or cooling the cabin", "An open vehicle has none: off", options=("off", "on")),
    },
    "place": {
        "trip": Fact("The trip that must be possible", "On a map, there and back", 0.1 * u.mi, 500 * u.mi),
    },
    "now": {
        "charge": Fact("Charge left", "On the battery's monitor", 0 * u.percent, 100 * u.percent),
        "air": Fact("Air temperature", "A thermometer in the shade", -50 * u.degC, 60 * u.degC),
        "running": Fact("Other loads running", "The sum of their watts", 0 * u.W, 20_000 * u.W),
        "cells": Fact("Temperature of the cells", "On the battery's monitor; not the air", -40 * u.degC, 65 * u.degC),
    },
}


@dataclass(frozen=True)
class Rig:
    """A rig's facts by path (`bank.energy`, `cars.0.consumption`)."""

    name: str
    facts: Mapping[str, Quantity | str]

    def value(self, path: str) -> Quantity | str | None:
        """The fact at `group.name`; for a list of things, the first of them. None when it is not known."""
        group, name = path.split(".")
        return self.facts.get(f"{group}.0.{name}") if f"{group}[]" in FACTS else self.facts.get(path)


def read_rig(text: str) -> Rig:
    """A rig from its JSON document. Raises DamagedRig with the reason."""
    if len(text) > _LARGEST_DOCUMENT:
        raise DamagedRig(f"The document is larger than a rig can be ({_LARGEST_DOCUMENT} characters).")
    try:
        document = json.loads(text, object_pairs_hook=_no_name_twice)
    except DamagedRig:
        raise
    except (ValueError, RecursionError):
        raise DamagedRig("The document is not JSON: it is damaged, or no rig.") from None
    if not isinstance(document, dict) or document.get(MARK) is None:
        raise DamagedRig(f"The document is not a rig: it has no “{MARK}” number.")
    if type(document[MARK]) is not int or document[MARK] != VERSION:
        raise DamagedRig(f"The document is of version {str(document[MARK])[:20]}; version {VERSION} is read here.")
    name = document.get("name", "")
    if not isinstance(name, str) or len(name) > 80:
        raise DamagedRig("The rig's name must be a text of at most 80 characters.")
    groups = {key: value for key, value in document.items() if key not in (MARK, "name")}
    return Rig(name, {path: fact for group, content in groups.items() for path, fact in _group(group, content)})


def _no_name_twice(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    found = dict(pairs)
    if len(found) < len(pairs):
        raise DamagedRig("The document names a fact twice, and does not say which one holds.")
    return found


def _group(group: str, content: Any) -> list[tuple[str, Quantity | str]]:
    if group in FACTS and not group.endswith("[]") and isinstance(content, dict):
        return _facts(FACTS[group], group, content)
    if f"{group}[]" in FACTS and isinstance(content, list) and all(isinstance(item, dict) for item in content):
        return [
            fact for index, item in enumerate(content) for fact in _facts(FACTS[f"{group}[]"], f"{group}.{index}", item)
        ]
    raise DamagedRig(f"The document has a part that no rig has: {group[:40]!r}.")


def _facts(known: Mapping[str, Fact], place: str, content: Mapping[str, Any]) -> list[tuple[str, Quantity | str]]:
    found: list[tuple[str, Quantity | str]] = []
    for name, value in content.items():
        if name not in known:
            raise DamagedRig(f"The document has a fact that no rig has: {place}.{name[:40]}.")
        if value is not None:
            found.append((f"{place}.{name}", _fact(known[name], f"{place}.{name}", value)))
    return found


def _fact(fact: Fact, path: str, value: Any) -> Quantity | str:
    try:
        if fact.options:
            if not isinstance(value, str):
                raise Unreadable("must be a text")
            return read_choice(value, fact.options)
        return _quantity(fact, value)
    except Unreadable as problem:
        raise DamagedRig(f"{path}: {fact.label} {problem}.") from None


def _quantity(fact: Fact, value: Any) -> Quantity:
    assert fact.low is not None and fact.high is not None
    if not isinstance(value, dict) or value.keys() != {"value", "unit"} or type(value["value"]) not in (int, float):
        raise Unreadable('must be written {"value": number, "unit": "…"}')
    unit = _UNITS.get(value["unit"]) if isinstance(value["unit"], str) else None
    if unit is None or (unit.dimension, unit.point) != (fact.low.unit.dimension, fact.low.unit.point):
        raise Unreadable(f"must be {fact.low.unit.word}, like {fact.low}")
    try:
        return must_be_between(float(value["value"]) * unit, fact.low, fact.high)
    except (ValueError, OverflowError) as problem:
        raise problem if isinstance(problem, Unreadable) else Unreadable("must be a finite number") from None


_UNITS = {unit.sign: unit for unit in u.TYPED}


@cache
def example_rig() -> Rig:
    """The demonstration rig: invented, a volunteer trail crew's wagon."""
    return read_rig((files("calc") / "example_rig.json").read_text(encoding="utf-8"))


def schema() -> dict[str, Any]:
    """The JSON Schema of a rig document."""
    groups: dict[str, Any] = {}
    for group, facts in FACTS.items():
        content = {
            "type": "object",
            "additionalProperties": False,
            "properties": {name: _fact_schema(fact) for name, fact in facts.items()},
        }
        groups[group.removesuffix("[]")] = {"type": "array", "items": content} if group.endswith("[]") else content
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "A rig: the facts of a power unit on wheels",
        "type": "object",
        "required": [MARK],
        "additionalProperties": False,
        "properties": {MARK: {"const": VERSION}, "name": {"type": "string", "maxLength": 80}, **groups},
    }


def _fact_schema(fact: Fact) -> dict[str, Any]:
    described: dict[str, Any] = {"title": fact.label, "description": fact.help}
    if fact.options:
        return described | {"enum": [*fact.options, None]}
    assert fact.low is not None and fact.high is not None
    fitting = [
        unit.sign for unit in u.TYPED if (unit.dimension, unit.point) == (fact.low.unit.dimension, fact.low.unit.point)
    ]
    number = {
        "type": "object",
        "required": ["value", "unit"],
        "additionalProperties": False,
        "properties": {"value": {"type": "number"}, "unit": {"enum": fitting}},
    }
    return described | {"description": f"{fact.help}; {fact.low} to {fact.high}", "anyOf": [{"type": "null"}, number]}
