"""The facts of a rig: what is known of it, each with its unit and range, every one of them optional.

A rig is a JSON document with a schema version. Python owns the schema; a document of a past version is brought to the
present one, and one that is damaged, foreign or newer is refused with the reason, and nothing of it is kept.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache, cached_property, lru_cache
from importlib.resources import files
from typing import Any

from calc import units as u
from calc.facts import FACTS, WORKED_OUT, Fact, WorkedOut, measured
from calc.measurable import MOST_READINGS, NEEDED, READING
from calc.opening import LONGEST_NAME, MARK, MOST_THINGS, PLAIN_TEXT, VERSION, list_in, name_in, opened, quoted
from calc.opening import DamagedRig as DamagedRig
from calc.quantity import Quantity
from calc.reading import Unreadable, must_be_between, read_choice
from calc.units import Unit

# A number, a choice or a name, or several names.
Known = Quantity | str | tuple[str, ...]

# As far as whole numbers are written out without an exponent.
_WHOLE_BELOW = 1e15


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
        if path in WORKED_OUT:
            return self._worked_out(WORKED_OUT[path])
        full = self.path_of(path, things)
        return None if full is None else self.facts.get(full)

    def path_of(self, path: str, things: Mapping[str, int | None]) -> str | None:
        """The full path of a fact, with the thing's place in its list; None where the thing is not known."""
        if path in WORKED_OUT:
            return None
        if path.count(".") == 2:
            return path
        group, name = path.split(".")
        if f"{group}[]" not in FACTS:
            return path
        index = things.get(group, 0)
        return None if index is None else f"{group}.{index}.{name}"

    def _worked_out(self, worked: WorkedOut) -> Quantity | None:
        """What follows from other facts; not known where one of them is not."""
        paths = [path for named in worked.rests_on for path in self._paths(named, needed=bool(worked.times))]
        known = [fact for fact in map(self.facts.get, paths) if isinstance(fact, Quantity)]
        if not known or len(known) < len(paths):
            return None
        assert worked.fact.unit is not None
        si = math.prod(fact.si for fact in known) if worked.times else max(fact.si for fact in known)
        return Quantity(si, worked.fact.unit, exact=True)

    def _paths(self, path: str, needed: bool) -> list[str]:
        """A fact's path, or one for each thing of its list; none, unless it is needed, of a part that the rig lacks."""
        group, name = path.split(".")
        if f"{group}[]" in FACTS:
            return [f"{group}.{index}.{name}" for index in range(self.count(group))]
        return [path] if needed or any(known.startswith(f"{group}.") for known in self.facts) else []

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

    @cached_property
    def worked(self) -> dict[str, Any]:
        """What has been worked out of these facts once, for those who ask for it again and again."""
        return {}

    def index_of(self, group: str, name: str) -> int | None:
        """Where in a list the thing of this name stands; None where there is none, or where several bear it."""
        places = self.places_of(group, name)
        return places[0] if len(places) == 1 else None

    def places_of(self, group: str, name: str) -> list[int]:
        """The places in a list of the things of this name: one, if all is well."""
        return [place for place in range(self.count(group)) if self.facts.get(f"{group}.{place}.name") == name]

    def things(self, groups: Iterable[str], subject: int = 0) -> dict[str, int | None]:
        """Which thing of each list a question is about: the subject, and what the subject refers to.

        The subject is of the first list in the order of `SUBJECTS`; a thing it does not name is not known.
        """
        asked = sorted(set(groups), key=SUBJECTS.index)
        if not asked:
            return {}
        found: dict[str, int | None] = {asked[0]: subject}
        pending = asked[1:]
        for _ in asked:  # what one thing refers to may refer to the next
            for group in pending:
                if found.get(group) is None:
                    found[group] = self._tied_to(found, group)
        return found

    def _tied_to(self, found: Mapping[str, int | None], group: str) -> int | None:
        """The thing of a list to which one that is found refers, or the only one that feeds it."""
        for other, index in found.items():
            named = self._named_by(other, index, group, many=False)
            if named:
                return self.index_of(group, named[0])
        for other, index in found.items():
            name = self.facts.get(f"{other}.{index}.name")
            feeds = [n for n in range(self.count(group)) if name in self._named_by(group, n, other, many=True)]
            if isinstance(name, str) and len(self.places_of(other, name)) == len(feeds) == 1:
                return feeds[0]
        return None

    def _named_by(self, group: str, index: int | None, to: str, many: bool) -> tuple[str, ...]:
        """The names by which a thing of one list refers to things of another: to one, or to as many as there are."""
        facts = [name for name, fact in FACTS[f"{group}[]"].items() if fact.refers_to == to and fact.many == many]
        known = [self.facts.get(f"{group}.{index}.{name}") for name in facts]
        return tuple(name for names in known if names for name in ((names,) if isinstance(names, str) else names))


SUBJECTS = ("loads", "cars", "cables", "devices", "outlets", "parts")


def read_rig(text: str) -> Rig:
    """A rig from its JSON document, of this version or a past one. Raises DamagedRig with the reason."""
    document = opened(text)
    try:
        name = name_in(document.get("name", ""))
    except Unreadable as problem:
        raise DamagedRig(f"The rig's name {problem}.") from None
    groups = {key: value for key, value in document.items() if key not in (MARK, "name")}
    return Rig(name, {path: fact for group, content in groups.items() for path, fact in _group(group, content)})


def _group(group: str, content: Any) -> list[tuple[str, Known]]:
    if group in FACTS and not group.endswith("[]") and isinstance(content, dict):
        return _facts(FACTS[group], group, content)
    if f"{group}[]" not in FACTS:
        raise DamagedRig(f"The document has a part that no rig has: “{quoted(group)}”.")
    try:
        things = list_in(content, dict, group, _most_of(group))
    except Unreadable as problem:
        raise DamagedRig(f"The document's part “{group}” {problem}.") from None
    return [
        fact
        for index, thing in enumerate(things)
        for fact in _facts(_known_of(group, thing), f"{group}.{index}", thing)
    ]


def _most_of(group: str) -> int:
    """How many things of this kind a rig can hold; a log grows longer than a cart."""
    return MOST_READINGS if FACTS.get(f"{group}[]") is READING else MOST_THINGS


def _known_of(group: str, item: Mapping[str, Any]) -> Mapping[str, Fact]:
    """The facts of a thing in a list. What a reading's number may be hangs on what was read."""
    known = FACTS[f"{group}[]"]
    if known is not READING:
        return known
    if any(item.get(name) is None for name in NEEDED):
        raise DamagedRig(f"A reading says {', '.join(NEEDED[:-1])} and {NEEDED[-1]}; one of them is missing.")
    if item["what"] not in READING["what"].options:
        raise DamagedRig(f"Nothing that can be read is called “{quoted(item['what'])}”.")
    return {**known, "value": measured(item["what"])}


def _facts(known: Mapping[str, Fact], place: str, content: Mapping[str, Any]) -> list[tuple[str, Known]]:
    found: list[tuple[str, Known]] = []
    for name, value in content.items():
        if name not in known:
            raise DamagedRig(f"The document has a fact that no rig has: {place}.{quoted(name)}.")
        if value is not None:
            found.append((f"{place}.{name}", _fact(known[name], f"{place}.{name}", value)))
    return found


def _fact(fact: Fact, path: str, value: Any) -> Known:
    try:
        if fact.low is not None:
            return _quantity(fact, value)
        if fact.many:
            return tuple(_text(fact, name) for name in list_in(value, str, "names"))
        return _text(fact, value)
    except Unreadable as problem:
        raise DamagedRig(f"{path}: {fact.label} {problem}.") from None


def _text(fact: Fact, value: Any) -> str:
    text = name_in(value)
    if fact.pattern and not re.fullmatch(fact.pattern, text, re.ASCII):
        raise Unreadable(f"must be written like {fact.example}")
    return read_choice(text, fact.options) if fact.options else text


def _quantity(fact: Fact, value: Any) -> Quantity:
    assert fact.low is not None and fact.high is not None
    if not isinstance(value, dict) or value.keys() != {"value", "unit"} or type(value["value"]) not in (int, float):
        raise Unreadable('must be written {"value": number, "unit": "…"}')
    unit = _UNITS.get(value["unit"]) if isinstance(value["unit"], str) else None
    if unit is None or not fits(unit, fact.low.unit):
        raise Unreadable(f"must be {fact.low.unit.word}, like {fact.low}")
    if fact.whole and (unit is not fact.low.unit or float(value["value"]) % 1):
        raise Unreadable("must be a whole number, without a unit")
    try:
        return must_be_between(float(value["value"]) * unit, fact.low, fact.high)
    except (ValueError, OverflowError) as problem:
        raise problem if isinstance(problem, Unreadable) else Unreadable("must be a finite number") from None


def fits(unit: Unit, wanted: Unit) -> bool:
    return (unit.dimension, unit.point, unit.kind) == (wanted.dimension, wanted.point, wanted.kind)


_UNITS = {unit.sign: unit for unit in u.TYPED}


def document(rig: Rig) -> dict[str, Any]:
    """The rig as its JSON document: what `read_rig` reads, with the numbers as they were typed."""
    written: dict[str, Any] = {MARK: VERSION, "name": rig.name}
    for path, fact in rig.facts.items():
        group, *place, name = path.split(".")
        if place and group not in written:
            written[group] = [{} for _ in range(rig.count(group))]
        content = written[group][int(place[0])] if place else written.setdefault(group, {})
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
    return _shortest(quantity.si, quantity.unit)


@lru_cache(maxsize=4096)
def _shortest(si: float, unit: Unit) -> float:
    shown = unit.from_si(si)
    exact = (float(f"{shown:.{figures}g}") for figures in range(1, 18))
    number = next((number for number in exact if unit.to_si(number) == si), shown)
    return int(number) if number.is_integer() and abs(number) < _WHOLE_BELOW else number


@cache
def example_rig() -> Rig:
    """The demonstration rig: invented, a volunteer trail crew's wagon."""
    return read_rig((files("calc") / "example_rig.json").read_text(encoding="utf-8"))


_NAME_SCHEMA = {"maxLength": LONGEST_NAME, "pattern": PLAIN_TEXT}


def schema() -> dict[str, Any]:
    """The JSON Schema of a rig document."""
    groups: dict[str, Any] = {}
    for group, facts in FACTS.items():
        content = {
            "type": "object",
            "additionalProperties": False,
            "properties": {name: _fact_schema(fact) for name, fact in facts.items()},
        }
        if facts is READING:
            content |= _readings_schema()
        things = {"type": "array", "maxItems": _most_of(group.removesuffix("[]")), "items": content}
        groups[group.removesuffix("[]")] = things if group.endswith("[]") else content
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "A rig: the facts of a power unit on wheels",
        "type": "object",
        "required": [MARK],
        "additionalProperties": False,
        "properties": {MARK: {"const": VERSION}, "name": {"type": "string", **_NAME_SCHEMA}, **groups},
    }


def _readings_schema() -> dict[str, Any]:
    """What must be said of a reading, and for what was read the numbers that it may have."""
    return {
        "required": list(NEEDED),
        "allOf": [
            {
                "if": {"properties": {"what": {"const": what}}},
                "then": {"properties": {"value": _number_schema(measured(what))}},
            }
            for what in READING["what"].options
        ],
    }


def _fact_schema(fact: Fact) -> dict[str, Any]:
    described: dict[str, Any] = {"title": fact.label, "description": fact.help}
    if fact.options:
        return described | {"enum": [*fact.options, None]}
    if fact.many:
        names = {"type": "array", "maxItems": MOST_THINGS, "items": {"type": "string", **_NAME_SCHEMA}}
        return described | {"anyOf": [{"type": "null"}, names]}
    if fact is READING["value"]:
        return described
    if fact.low is None:
        written = {"pattern": f"^(?:{fact.pattern})$"} if fact.pattern else {}
        return described | {"type": ["string", "null"], **_NAME_SCHEMA, **written}
    described["description"] += f"; {fact.low} to {fact.high}"
    return described | {"anyOf": [{"type": "null"}, _number_schema(fact)]}


def _number_schema(fact: Fact) -> dict[str, Any]:
    assert fact.low is not None
    fitting = [fact.low.unit.sign] if fact.whole else [unit.sign for unit in u.TYPED if fits(unit, fact.low.unit)]
    return {
        "type": "object",
        "required": ["value", "unit"],
        "additionalProperties": False,
        "properties": {"value": {"type": "integer" if fact.whole else "number"}, "unit": {"enum": fitting}},
    }
