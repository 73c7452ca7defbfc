"""A rig's facts as a person changes them: one at a time, from what is typed; things added to its lists or taken away.

Every change makes a new rig, or raises Unreadable with what to write instead. Nothing is guessed: what is left empty
is not known.
"""

from __future__ import annotations

import json
import re
from collections.abc import Mapping

from calc.asks import Ask, Pick
from calc.facts import FACTS, ONE_OF, Fact, fact_at
from calc.form import field_unit, good_example, shown_text
from calc.measurable import TAKEN_OF
from calc.opening import LONGEST_NAME, MOST_THINGS, name_in
from calc.printing import NBSP, printed
from calc.quantity import Quantity, numeral_with_unit
from calc.reading import Unreadable, must_be_between, read_choice, read_quantity
from calc.rig import Known, Rig, document, example_rig, read_rig

# The rigs last read or written, by their documents: the same one comes with one question after another.
_AT_HAND: dict[str, Rig] = {}
_MOST_AT_HAND = 4


def text_of(rig: Rig) -> str:
    """The rig's document as text: what is stored, exported and read again."""
    text = json.dumps(document(rig), ensure_ascii=False, separators=(",", ":"))
    return _keep_at_hand(text, rig)


def rig_of(text: str) -> Rig:
    """The rig of a document; not read again where it is at hand. Raises DamagedRig with the reason."""
    if text not in _AT_HAND:
        _keep_at_hand(text, read_rig(text))
    return _AT_HAND[text]


def _keep_at_hand(text: str, rig: Rig) -> str:
    _AT_HAND[text] = rig
    while len(_AT_HAND) > _MOST_AT_HAND:
        del _AT_HAND[next(iter(_AT_HAND))]
    return text


# --- one fact ------------------------------------------------------------------------------------------------


def asked_as(path: str) -> Ask | Pick | None:
    """The fact as a form asks it; None for a name, and for what refers to things of the rig."""
    fact = fact_at(path)
    if fact.low is not None and fact.high is not None:
        return Ask(symbol="", label=fact.label, default=_usual(path, fact), low=fact.low, high=fact.high, help=fact.help, either_way=fact.either_way, whole=fact.whole)
    if fact.options and not fact.many:
        return Pick(
            label=fact.label,
            options_by_rules=dict.fromkeys(("nec", "iec"), fact.options),
            default_by_rules=dict.fromkeys(("nec", "iec"), fact.options[0]),
            help=fact.help,
        )
    return None


def _usual(path: str, fact: Fact) -> Quantity:
    """A number of the right size, where a first tap on more or less begins: the example's, else the least."""
    group, *_, name = path.split(".")
    places = (f"{group}.{place}.{name}" for place in range(example_rig().count(group)))
    found = (example_rig().facts.get(place) for place in (f"{group}.{name}", *places))
    assert fact.low is not None
    return next((known for known in found if isinstance(known, Quantity)), fact.low)


def choices_of(rig: Rig, fact: Fact) -> tuple[str, ...]:
    """What a fact may be: its options, or the names of the things that it refers to."""
    return fact.options or names_in(rig, fact.refers_to)


def names_in(rig: Rig, group: str) -> tuple[str, ...]:
    names = (rig.facts.get(f"{group}.{place}.name") for place in range(rig.count(group)))
    return tuple(name for name in names if isinstance(name, str))


def shown_fact(path: str, known: Known | None) -> str:
    """A fact as its field shows it: a bare number in the unit these people use, empty where it is not known."""
    if isinstance(known, Quantity):
        spec = asked_as(path)
        assert isinstance(spec, Ask)
        unit = field_unit(spec)
        alike = known.unit.factor == unit.factor and known.unit.point == unit.point
        return shown_text(known) if alike else printed(known).replace(NBSP, " ")
    return "\n".join(known) if isinstance(known, tuple) else known or ""


def read_fact(rig: Rig, path: str, text: str) -> Known | None:
    """What was typed, as the fact at this path; None where it was left empty. Raises Unreadable."""
    fact = fact_at(path)
    if not text.strip():
        return None
    if fact.low is not None and fact.high is not None:
        return _read_number(fact, path, text)
    if fact.many:
        return tuple(read_choice(line, choices_of(rig, fact)) for line in text.split("\n"))
    if fact.options or fact.refers_to:
        return read_choice(text, choices_of(rig, fact))
    if fact.pattern:
        return _read_pattern(fact, text.strip())
    return _read_name(rig, path, text)


def _read_number(fact: Fact, path: str, text: str) -> Quantity:
    spec = asked_as(path)
    assert isinstance(spec, Ask)
    quantity = must_be_between(read_quantity(text, field_unit(spec), good_example(spec), spec.either_way), spec.low, spec.high)
    if quantity.unit.dimension != spec.low.unit.dimension:
        # As a person would turn it over: a millionth less or more is no difference on a road.
        return numeral_with_unit(float(f"{spec.low.unit.from_si(1 / quantity.si):.6g}"), spec.low.unit)
    if fact.whole and quantity.si % 1:
        raise Unreadable("must be a whole number")
    return quantity


def _read_pattern(fact: Fact, text: str) -> str:
    """A time of day or a date; an hour of one digit is filled up."""
    written = f"0{text}" if re.fullmatch(r"\d:\d\d", text) else text
    if not re.fullmatch(fact.pattern, written):
        raise Unreadable(f"must be written like {fact.example}")
    return written


def _read_name(rig: Rig, path: str, text: str) -> str:
    name = " ".join(text.split())
    name_in(name)
    group, _, own = path.rpartition(".")
    if own == "name" and name != rig.facts.get(path) and name in names_in(rig, group.split(".")[0]):
        raise Unreadable(f"must be a name of its own; there is a {name} already")
    return name


def with_fact(rig: Rig, path: str, text: str) -> Rig:
    """The rig with a fact as it was typed. Raises Unreadable, beginning with the fact's label."""
    try:
        if path == "name":
            return Rig(_read_name(rig, path, text), rig.facts)
        return with_known(rig, path, read_fact(rig, path, text))
    except Unreadable as problem:
        label = "What the rig is called" if path == "name" else fact_at(path).label
        raise Unreadable(f"{label} {problem}.") from None


def with_known(rig: Rig, path: str, known: Known | None) -> Rig:
    """The rig with a fact changed, or forgotten. Where a thing is renamed, what refers to it follows."""
    old = rig.facts.get(path)
    facts = {**rig.facts, path: known} if known is not None else _but(rig.facts, path)
    group, *place, name = path.split(".")
    if name == "name" and place and isinstance(old, str) and isinstance(known, str):
        facts = _referring(facts, group, {old: known})
    # What takes the place of a fact stands where that stood.
    return Rig(rig.name, facts if known is not None and old is not None else _in_order(facts))


def _but(facts: Mapping[str, Known], path: str) -> dict[str, Known]:
    return {place: value for place, value in facts.items() if place != path}


def _referring(facts: Mapping[str, Known], group: str, renamed: Mapping[str, str]) -> dict[str, Known]:
    """The facts, those that refer to a thing of this list under its new name."""
    found = dict(facts)
    for path, known in facts.items():
        if _list_behind(facts, path) != group:
            continue
        if isinstance(known, str):
            found[path] = renamed.get(known, known)
        elif isinstance(known, tuple):
            found[path] = tuple(renamed.get(name, name) for name in known)
    return found


def _list_behind(facts: Mapping[str, Known], path: str) -> str:
    """The list of whose things a fact names one; of which list a reading's is, what was read decides."""
    if not path.startswith("readings."):
        return fact_at(path).refers_to
    start, _, name = path.rpartition(".")
    return TAKEN_OF.get(str(facts.get(f"{start}.what")), "") if name == "of" else ""


def _in_order(facts: Mapping[str, Known]) -> dict[str, Known]:
    """In the order of the schema, so that a document reads like its form."""
    groups = [group.removesuffix("[]") for group in FACTS]

    def place(path: str) -> tuple[int, int, int]:
        group, *number, name = path.split(".")
        known = list(FACTS.get(group) or FACTS[f"{group}[]"])
        return groups.index(group), int(number[0]) if number else 0, known.index(name)

    return {path: facts[path] for path in sorted(facts, key=place)}


# --- things of a list ------------------------------------------------------------------------------------------


def added(rig: Rig, group: str) -> Rig:
    """The rig with one more thing in a list, of which only a name is known."""
    return with_known(rig, f"{group}.{_next_place(rig, group)}.name", _free_name(rig, group, ONE_OF[group]))


def copied(rig: Rig, group: str, place: int) -> Rig:
    """The rig with a copy of a thing at the end of its list, under a name of its own."""
    old = rig.facts.get(f"{group}.{place}.name")
    new = _next_place(rig, group)
    facts = dict(rig.facts)
    for path, known in rig.facts.items():
        if path.startswith(f"{group}.{place}."):
            facts[f"{group}.{new}.{path.split('.')[2]}"] = known
    facts[f"{group}.{new}.name"] = _free_name(rig, group, str(old or ONE_OF[group]))
    return Rig(rig.name, _in_order(facts))


def removed(rig: Rig, group: str, place: int) -> Rig:
    """The rig without a thing; what referred to it refers to nothing, and what was read of it goes with it: a new
    thing of the same name has not been measured."""
    gone = rig.facts.get(f"{group}.{place}.name")
    rig = Rig(rig.name, _closed_up(rig.facts, group, {place}))
    if not isinstance(gone, str):
        return Rig(rig.name, _in_order(rig.facts))
    read_of_it = {
        number
        for number in range(rig.count("readings"))
        if rig.facts.get(f"readings.{number}.of") == gone and _list_behind(rig.facts, f"readings.{number}.of") == group
    }
    return Rig(rig.name, _in_order(_without(_closed_up(rig.facts, "readings", read_of_it), group, gone)))


def without_reading(rig: Rig, place: int) -> Rig:
    """The rig without one reading of its log."""
    return Rig(rig.name, _in_order(_closed_up(rig.facts, "readings", {place})))


def _closed_up(facts: Mapping[str, Known], group: str, gone: set[int]) -> dict[str, Known]:
    """The facts without some things of a list, those behind them moved up."""
    found: dict[str, Known] = {}
    for path, known in facts.items():
        start, *number, name = path.split(".")
        if start != group or not number:
            found[path] = known
        elif int(number[0]) not in gone:
            found[f"{group}.{int(number[0]) - sum(place < int(number[0]) for place in gone)}.{name}"] = known
    return found


def _without(facts: Mapping[str, Known], group: str, gone: str) -> dict[str, Known]:
    found: dict[str, Known] = {}
    for path, known in facts.items():
        refers = fact_at(path).refers_to == group
        if refers and isinstance(known, tuple):
            found[path] = tuple(name for name in known if name != gone)
        elif not (refers and known == gone):
            found[path] = known
    return found


def _next_place(rig: Rig, group: str) -> int:
    if rig.count(group) >= MOST_THINGS:
        raise Unreadable(f"A rig takes {MOST_THINGS} of a kind at most.")
    return rig.count(group)


def _free_name(rig: Rig, group: str, called: str) -> str:
    taken = names_in(rig, group)
    numbered = (f"{called[: LONGEST_NAME - 4]} {number}" for number in range(2, MOST_THINGS + 2))
    return called if called not in taken else next(name for name in numbered if name not in taken)


# --- a whole rig -----------------------------------------------------------------------------------------------


def unknown_facts(rig: Rig, group: str, place: int | None = None) -> int:
    """How many facts of a group, or of one thing in a list, are not known."""
    known = FACTS[group if place is None else f"{group}[]"]
    start = group if place is None else f"{group}.{place}"
    return sum(f"{start}.{name}" not in rig.facts for name in known)
