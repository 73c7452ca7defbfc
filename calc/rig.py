"""The facts of a rig: what is known of it, each with its unit and range, every one of them optional.

A rig is a JSON document with a schema version. Python owns the schema; a document that is damaged, foreign or
newer is refused with the reason, and nothing of it is kept.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache, cached_property
from importlib.resources import files
from typing import Any

from calc import units as u
from calc.facts import FACTS, Fact
from calc.quantity import Quantity
from calc.reading import Unreadable, must_be_between, read_choice
from calc.units import Unit

VERSION = 1
MARK = "barrowatt_rig"
# A number, a choice or a name, or several names.
Known = Quantity | str | tuple[str, ...]

_LARGEST_DOCUMENT = 200_000
_LONGEST_NAME = 80
# As far as whole numbers are written out without an exponent.
_WHOLE_BELOW = 1e15


class DamagedRig(ValueError):
    """A document that is not a rig we can use. The message says why, for the person."""


@dataclass(frozen=True)
class Rig:
    """A rig's facts by path (`bank.energy`, `cars.0.consumption`)."""

    name: str
    facts: Mapping[str, Known]

    def value(self, path: str, things: Mapping[str, int | None] = {}) -> Known | None:  # noqa: B006  (only read)
        """The fact at `group.name`, of the thing that `things` picks where the group is a list; None if not known.

        `parts.1.mass` names the thing itself, and `parts.#` is how many there are.
        """
        if path.endswith(".#"):
            return str(self.count(path.removesuffix(".#")))
        full = self.path_of(path, things)
        return None if full is None else self.facts.get(full)

    def path_of(self, path: str, things: Mapping[str, int | None]) -> str | None:
        """The full path of a fact, with the thing's place in its list; None where the thing is not known."""
        if path.count(".") == 2:
            return path
        group, name = path.split(".")
        if f"{group}[]" not in FACTS:
            return path
        index = things.get(group, 0)
        return None if index is None else f"{group}.{index}.{name}"

    def changed(self, facts: Mapping[str, Known]) -> Rig:
        """The same rig with some facts changed."""
        return Rig(self.name, {**self.facts, **facts})

    def count(self, group: str) -> int:
        """How many things a list holds."""
        return self._counts.get(group, 0)

    @cached_property
    def _counts(self) -> dict[str, int]:
        places = (path.split(".") for path in self.facts if path.count(".") == 2)
        counts: dict[str, int] = {}
        for group, place, _ in places:
            counts[group] = max(counts.get(group, 0), int(place) + 1)
        return counts

    def index_of(self, group: str, name: str) -> int | None:
        """Where in a list the thing of this name stands."""
        return next(
            (index for index in range(self.count(group)) if self.facts.get(f"{group}.{index}.name") == name), None
        )

    def things(self, groups: Iterable[str], subject: int = 0) -> dict[str, int | None]:
        """Which thing of each list a question is about: the subject, and what the subject refers to.

        The subject is of the first list in the order of `SUBJECTS`; a thing it does not name is not known.
        """
        asked = sorted(set(groups), key=SUBJECTS.index)
        if not asked:
            return {}
        first, *others = asked
        found: dict[str, int | None] = {first: subject}
        for group in others:
            refers = next(
                (name for name, fact in FACTS[f"{first}[]"].items() if fact.refers_to == group and not fact.many), None
            )
            named = self.facts.get(f"{first}.{subject}.{refers}") if refers else None
            found[group] = self.index_of(group, named) if isinstance(named, str) else None
        return found


SUBJECTS = ("loads", "cars", "cables", "devices", "outlets", "parts")


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
    if not isinstance(name, str) or len(name) > _LONGEST_NAME:
        raise DamagedRig(f"The rig's name must be a text of at most {_LONGEST_NAME} characters.")
    groups = {key: value for key, value in document.items() if key not in (MARK, "name")}
    return Rig(name, {path: fact for group, content in groups.items() for path, fact in _group(group, content)})


def _no_name_twice(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    found = dict(pairs)
    if len(found) < len(pairs):
        raise DamagedRig("The document names a fact twice, and does not say which one holds.")
    return found


def _group(group: str, content: Any) -> list[tuple[str, Known]]:
    if group in FACTS and not group.endswith("[]") and isinstance(content, dict):
        return _facts(FACTS[group], group, content)
    if f"{group}[]" in FACTS and isinstance(content, list) and all(isinstance(item, dict) for item in content):
        return [
            fact for index, item in enumerate(content) for fact in _facts(FACTS[f"{group}[]"], f"{group}.{index}", item)
        ]
    raise DamagedRig(f"The document has a part that no rig has: {group[:40]!r}.")


def _facts(known: Mapping[str, Fact], place: str, content: Mapping[str, Any]) -> list[tuple[str, Known]]:
    found: list[tuple[str, Known]] = []
    for name, value in content.items():
        if name not in known:
            raise DamagedRig(f"The document has a fact that no rig has: {place}.{name[:40]}.")
        if value is not None:
            found.append((f"{place}.{name}", _fact(known[name], f"{place}.{name}", value)))
    return found


def _fact(fact: Fact, path: str, value: Any) -> Known:
    try:
        if fact.low is not None:
            return _quantity(fact, value)
        if fact.many:
            if not isinstance(value, list):
                raise Unreadable("must be a list of names")
            return tuple(_text(fact, name) for name in value)
        return _text(fact, value)
    except Unreadable as problem:
        raise DamagedRig(f"{path}: {fact.label} {problem}.") from None


def _text(fact: Fact, value: Any) -> str:
    if not isinstance(value, str) or len(value) > _LONGEST_NAME:
        raise Unreadable(f"must be a text of at most {_LONGEST_NAME} characters")
    if fact.pattern and not re.fullmatch(fact.pattern, value):
        raise Unreadable(f"must be written like {fact.example}")
    return read_choice(value, fact.options) if fact.options else value


def _quantity(fact: Fact, value: Any) -> Quantity:
    assert fact.low is not None and fact.high is not None
    if not isinstance(value, dict) or value.keys() != {"value", "unit"} or type(value["value"]) not in (int, float):
        raise Unreadable('must be written {"value": number, "unit": "…"}')
    unit = _UNITS.get(value["unit"]) if isinstance(value["unit"], str) else None
    if unit is None or not _fits(unit, fact.low.unit):
        raise Unreadable(f"must be {fact.low.unit.word}, like {fact.low}")
    if fact.whole and (unit is not fact.low.unit or float(value["value"]) % 1):
        raise Unreadable("must be a whole number, without a unit")
    try:
        return must_be_between(float(value["value"]) * unit, fact.low, fact.high)
    except (ValueError, OverflowError) as problem:
        raise problem if isinstance(problem, Unreadable) else Unreadable("must be a finite number") from None


def _fits(unit: Unit, wanted: Unit) -> bool:
    return (unit.dimension, unit.point, unit.kind) == (wanted.dimension, wanted.point, wanted.kind)


_UNITS = {unit.sign: unit for unit in u.TYPED}


def document(rig: Rig) -> dict[str, Any]:
    """The rig as its JSON document: what `read_rig` reads, with the numbers as they were typed."""
    written: dict[str, Any] = {MARK: VERSION, "name": rig.name}
    for path, fact in rig.facts.items():
        group, *place, name = path.split(".")
        if place:
            content = written.setdefault(group, [{} for _ in range(rig.count(group))])[int(place[0])]
        else:
            content = written.setdefault(group, {})
        content[name] = _written(fact)
    return written


def _written(fact: Known) -> dict[str, Any] | str | list[str]:
    if isinstance(fact, Quantity):
        return {"value": as_typed(fact), "unit": fact.unit.sign}
    return list(fact) if isinstance(fact, tuple) else fact


def as_typed(quantity: Quantity) -> float:
    """The number that was typed, in the quantity's own unit: the shortest that makes the same quantity again.

    What was not typed but worked out may have none; then it is right to the last binary digit but one.
    """
    exact = (float(f"{quantity.shown:.{figures}g}") for figures in range(1, 18))
    number = next((number for number in exact if quantity.unit.to_si(number) == quantity.si), quantity.shown)
    return int(number) if number.is_integer() and abs(number) < _WHOLE_BELOW else number


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
        "properties": {MARK: {"const": VERSION}, "name": {"type": "string", "maxLength": _LONGEST_NAME}, **groups},
    }


def _fact_schema(fact: Fact) -> dict[str, Any]:
    described: dict[str, Any] = {"title": fact.label, "description": fact.help}
    if fact.options:
        return described | {"enum": [*fact.options, None]}
    if fact.many:
        names = {"type": "array", "items": {"type": "string", "maxLength": _LONGEST_NAME}}
        return described | {"anyOf": [{"type": "null"}, names]}
    if fact.low is None:
        text = {"type": ["string", "null"], "maxLength": _LONGEST_NAME}
        return described | text | ({"pattern": f"^(?:{fact.pattern})$"} if fact.pattern else {})
    fitting = [fact.low.unit.sign] if fact.whole else [unit.sign for unit in u.TYPED if _fits(unit, fact.low.unit)]
    number = {
        "type": "object",
        "required": ["value", "unit"],
        "additionalProperties": False,
        "properties": {"value": {"type": "integer" if fact.whole else "number"}, "unit": {"enum": fitting}},
    }
    return described | {"description": f"{fact.help}; {fact.low} to {fact.high}", "anyOf": [{"type": "null"}, number]}
