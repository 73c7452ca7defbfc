"""From what was typed to a filled check: where each value comes from, what is wrong, what is missing.

The order is: typed; the rig's fact; with no rig only, the example rig's fact, then the default of the ask. With a rig,
a missing nameplate fact is never guessed; only a habit (75 °C for a working conductor) may be assumed, and is
printed as assumed.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from functools import cache, cached_property

from calc import units
from calc.check import GO, NEC, NO, TOLD, Answer, Ask, Check, Example, Missing, Offer, Pick, as_stated, not_known
from calc.facts import FACTS, WORKED_OUT, fact_at
from calc.printing import NBSP, Line, as_read, number_text, printed
from calc.quantity import Quantity
from calc.reading import Unreadable, must_be_between, read_choice, read_quantity
from calc.readings import Reading, latest_test, measured
from calc.readings import origin as measured_on
from calc.rig import SUBJECTS, Known, Rig, example_rig
from calc.units import Unit

TYPED, FROM_RIG, EXAMPLE, ASSUMED = "typed here", "from the rig", "example number", "assumed; common habit"


@dataclass(frozen=True)
class Asked:
    """A check asked with certain values: the filled form, or the reasons why it could not be filled."""

    kind: type[Check]
    rules: str
    typed: Mapping[str, str]
    check: Check | None
    problems: Mapping[str, str] = field(default_factory=dict)
    missing: tuple[Missing, ...] = ()
    wishes: tuple[Missing, ...] = ()  # what nobody has said that they want
    origins: Mapping[str, str] = field(default_factory=dict)
    subject: int = 0
    subject_name: str = ""
    things: Mapping[str, int | None] = field(default_factory=dict)
    rig: Rig | None = None
    known: Mapping[str, Quantity | str] = field(default_factory=dict)  # what the rig's own facts say

    @cached_property
    def from_rig(self) -> dict[str, str]:
        """What the rig's own facts say, as field texts."""
        return {name: field_text(self.kind.asks[name], value, self.rules) for name, value in self.known.items()}

    @property
    def unknown(self) -> set[str]:
        """The fields that stand empty: what is missing, and what hangs on a choice that is."""
        return {one.name for one in self.missing} | (self.kind.asks.keys() - self.origins.keys())

    def answer(self) -> Answer:
        """The answer, found-by-trial results included; `not known` where a fact is missing."""
        return self._unless_missing(Check.answer if self.wishes else Check.full_answer)

    def plain_answer(self) -> Answer:
        """The answer without what is found by trial: what a row of the board needs."""
        return self._unless_missing(Check.answer)

    def _unless_missing(self, answered: Callable[[Check], Answer]) -> Answer:
        if self.problems:
            return not_known(next(iter(self.problems.values())))
        assert self.check is not None
        if self.missing and self.rules in self.kind.rule_sets:
            names = ", ".join(missing.label[0].lower() + missing.label[1:] for missing in self.missing)
            return not_known(f"Not answered without: {names}.", self.missing)
        found = answered(self.check)
        return found.without(self.wishes, [getattr(self.check, one.name) for one in self.wishes]) if self.wishes else found

    def choices(self) -> list[Line]:
        """The picks that stand behind the answer, as lines of the working: what was chosen, and by whom."""
        check = self.check
        if check is None:
            return []
        asked = [(name, spec) for name, spec in check.asks.items() if isinstance(spec, Pick) and check.asked(name)]
        return [
            Line("given", "", spec.label, "", "", getattr(check, name), None, "", self.origins.get(name, ""))
            for name, spec in asked
        ]

    def offers(self, answer: Answer) -> list[Offer]:
        """For a no: what clears it. Where a wish is not said, what is left is its number: no fix makes it a go."""
        found = self.check.offers() if self.check and answer.verdict == NO else []
        return [replace(offer, verdict=TOLD) if self.wishes and offer.verdict == GO else offer for offer in found]


def fill(
    kind: type[Check], typed: Mapping[str, str], rig: Rig | None = None, rules: str = NEC, subject: int | None = None
) -> Asked:
    """Fill a check's form from typed text, the rig's facts and the defaults.

    subject: which load, car or cable of the rig it is about, where the rig has several; else the first that fits.
    Nothing is raised for what was typed: each field's problem is kept, in words, under its name.
    """
    values: dict[str, Quantity | str] = {}
    origins: dict[str, str] = {}
    problems: dict[str, str] = {}
    missing: list[Missing] = []
    wishes: list[Missing] = []
    known: dict[str, Quantity | str] = {}
    whole = rig or example_rig()
    if subject is None:
        subject = next(iter(subjects(kind, whole)), 0)
    things = whole.things(lists_asked(kind), subject)
    tested = _last_test(kind, whole, subject_name(kind, whole, subject))
    for name, spec in kind.asks.items():
        if rules not in spec.rules:
            continue
        standing, origin, unfit = _standing(spec, rig, rules, things, tested)
        if standing is not None and origin not in (EXAMPLE, ASSUMED):
            known[name] = standing
        if _is_typed(spec, typed.get(name), standing, rig, rules):
            try:
                standing, origin, unfit = read_field(spec, typed[name], rules), TYPED, ""
            except Unreadable as problem:
                unfit = str(problem)
        if unfit:
            problems[name] = f"{spec.label} {unfit}."
            continue
        if standing is None and isinstance(spec, Ask) and spec.wish:
            wishes.append(Missing(name, spec.label, spec.help))
            values[name] = spec.easiest
        elif standing is None:
            missing.append(Missing(name, spec.label, spec.help))
        else:
            values[name], origins[name] = standing, origin
    check = kind(rules, origins, **values)
    # What cannot be read where nothing is asked (a link keeps a field that another choice puts away) spoils nothing.
    problems = {name: why for name, why in problems.items() if check.asked(name)}
    if problems:
        return Asked(kind, rules, typed, None, problems, subject=subject)
    missing += _of_another_test(check, typed, origins) if rig else []
    unsettled = {fact.name for fact in missing}
    needed = tuple(fact for fact in missing if _is_asked(check, fact.name, unsettled))
    name = subject_name(kind, whole, subject)
    return Asked(kind, rules, typed, check, {}, needed, tuple(wishes), origins, subject, name, things, rig, known)


def _is_typed(spec: Ask | Pick, text: str | None, standing: Quantity | str | None, rig: Rig | None, rules: str) -> bool:
    """Whether a person has put something else into a field than what stood in it. A rig's unknown fact stands empty."""
    if text is None or (standing is None and rig is not None and not text.strip()):
        return False
    return standing is None or text != field_text(spec, standing, rules)


def subject_of(form: Mapping[str, str]) -> int | None:
    """Which thing of the rig a question is about; None for the first that fits."""
    text = form.get("subject", "")
    return int(text) if text.isdecimal() and len(text) < 4 else None


def to_keep(asked: Asked, rig: Rig) -> list[str]:
    """The asks in which something was typed that could become a fact of the rig."""
    if asked.check is None:
        return []
    typed = (name for name, origin in asked.origins.items() if origin == TYPED and asked.check.asked(name))
    return [name for name in typed if _place_for(asked, rig, name) and as_fact(asked, name) is not None]


def as_fact(asked: Asked, name: str) -> Quantity | str | None:
    """What was typed in a field as the rig would hold it; None where that may be several things."""
    spec, value = asked.kind.asks[name], getattr(asked.check, name)
    return spec.as_fact(value) if isinstance(spec, Pick) else value


def _place_for(asked: Asked, rig: Rig, name: str) -> bool:
    """Whether the rig has a place for it: a fact, of a thing that is there, and not a count of things."""
    fact = asked.kind.asks[name].fact
    if not fact or fact.endswith(".#") or fact in WORKED_OUT or _says_half(asked.kind, name):
        return False
    path = rig.path_of(fact, asked.things)
    return path is not None and (path.count(".") == 1 or int(path.split(".")[1]) < rig.count(path.split(".")[0]))


def _says_half(kind: type[Check], name: str) -> bool:
    """Whether a choice is one side of a fact that another choice says as well: amps without the colour of a connector."""
    spec = kind.asks[name]
    shared = [other for other in kind.asks.values() if other.fact == spec.fact]
    return isinstance(spec, Pick) and bool(spec.means) and len(shared) > 1


def _is_asked(check: Check, name: str, unsettled: set[str]) -> bool:
    """Whether a field is asked whatever a choice that is not known turns out to be."""
    cases = check.asks[name].cases
    return check.asked(name) and (not cases or any(not case.keys() & unsettled and check.holds(case) for case in cases))


def lists_asked(kind: type[Check]) -> frozenset[str]:
    """The lists of the rig from which a check draws facts."""
    # `parts.1.mass` names its thing itself, and `parts.#` is of them all.
    return _lists_of(tuple(spec.fact for spec in kind.asks.values()))


@cache
def _lists_of(facts: tuple[str, ...]) -> frozenset[str]:
    groups = {fact.split(".")[0] for fact in facts if fact.count(".") == 1 and not fact.endswith(".#")}
    return frozenset(group for group in groups if f"{group}[]" in FACTS)


def subjects(kind: type[Check], rig: Rig) -> list[int]:
    """The loads, cars or cables of a rig that a check is about, by their places in their list; [0] where it asks of none."""
    lists = sorted(lists_asked(kind), key=SUBJECTS.index)
    if not lists:
        return [0]
    first = lists[0]
    about = {fact.split(".")[1]: values for fact, values in kind.about.items() if fact.split(".")[0] == first}
    return [
        index
        for index in range(rig.count(first))
        if all(_fits(rig.facts.get(f"{first}.{index}.{name}"), f"{first}.{name}", about[name]) for name in about)
    ]


def _fits(known: Known | None, fact: str, wanted: tuple[str, ...]) -> bool:
    """Whether a thing is of the kind that a question is about. Where nobody said, it may be, unless that is rare."""
    return known in wanted if known is not None else fact_at(fact).unsaid in ("", *wanted)


def subject_name(kind: type[Check], rig: Rig, subject: int) -> str:
    """What the person calls the thing that a check is about; empty where it is about the rig as a whole."""
    lists = sorted(lists_asked(kind), key=SUBJECTS.index)
    name = rig.facts.get(f"{lists[0]}.{subject}.name") if lists else None
    return name if isinstance(name, str) else ""


def _last_test(kind: type[Check], rig: Rig, of: str) -> Mapping[str, Reading]:
    """The last test in the rig's log that took any of a check's readings."""
    taken = [spec.reading for spec in kind.asks.values() if isinstance(spec, Ask) and spec.reading]
    return latest_test(rig, taken, of) if taken else {}


def _of_another_test(check: Check, typed: Mapping[str, str], origins: Mapping[str, str]) -> list[Missing]:
    """Where a new test is typed in part, the readings that the log would fill in: they are of another test."""
    taken = {name: spec for name, spec in check.asks.items() if isinstance(spec, Ask) and spec.reading}
    if not any(origins.get(name) == TYPED and check.asked(name) for name in taken):
        return []
    return [Missing(name, spec.label, spec.help) for name, spec in taken.items() if name not in typed and name in origins]


def _known(
    spec: Ask | Pick, rig: Rig, things: Mapping[str, int | None], tested: Mapping[str, Reading]
) -> tuple[Known | None, Reading | None]:
    """The fact or the reading behind a field, and the reading that it was taken from, where it was measured."""
    if isinstance(spec, Ask) and spec.reading:
        reading = tested.get(spec.reading)
        return (reading.value if reading else None), reading
    path = rig.path_of(spec.fact, things) if spec.fact and not spec.fact.endswith(".#") else None
    known = rig.value(spec.fact, things) if spec.fact else None
    return known, measured(rig, path) if path and rig.count("readings") else None


def _standing(
    spec: Ask | Pick, rig: Rig | None, rules: str, things: Mapping[str, int | None], tested: Mapping[str, Reading]
) -> tuple[Quantity | str | None, str, str]:
    """What stands in a field before anything is typed, where it is from, and why it cannot serve, if so.

    None where it is not known.
    """
    known, reading = _known(spec, rig or example_rig(), things, tested)
    origin = (measured_on(reading) if reading else FROM_RIG) if rig else EXAMPLE
    if isinstance(known, Quantity) and isinstance(spec, Ask):
        fact = Quantity(known.si, _alike(known.unit, spec.unit), exact=True)
        try:
            return must_be_between(_for_these_people(fact), spec.low, spec.high), origin, ""
        except Unreadable as problem:
            return None, origin, str(problem)
    if isinstance(known, Quantity) and isinstance(spec, Pick):
        known = f"{known.si:g}"  # a count, chosen from few
    if isinstance(known, str) and isinstance(spec, Pick) and spec.from_fact(known) in spec.options(rules):
        return spec.from_fact(known), origin, ""
    if rig and (known is not None or not spec.may_be_assumed(rules)):
        return None, "", ""  # what is known and is no option here is not assumed to be another one
    default = spec.default(rules) if isinstance(spec, Pick) else _for_these_people(spec.default)
    return default, ASSUMED if rig else EXAMPLE, ""


def _alike(unit: Unit, wanted: Unit) -> Unit:
    """A fact in watts serves where volt-amperes are asked; what differs only in name takes the field's name."""
    return wanted if unit.factor == wanted.factor and unit.point == wanted.point else unit


def _for_these_people(quantity: Quantity) -> Quantity:
    """The same number, shown in the unit these people use; it is worked as it is kept, whoever reads it."""
    return quantity.shown_in(units.usual(quantity.unit))


def published(kind: type[Check], example: Example) -> Asked:
    """A published case: what it states, and the form's own defaults; the example rig has no say in it."""
    return fill(kind, defaults(kind, example.rules) | dict(example.given), rules=example.rules)


def defaults(kind: type[Check], rules: str) -> dict[str, str]:
    """Every default of a form, as it would be typed."""
    return {
        name: spec.default(rules)
        if isinstance(spec, Pick)
        else f"{as_read(spec.default.shown)} {spec.default.unit.sign}"
        for name, spec in kind.asks.items()
        if rules in spec.rules
    }


def read_field(spec: Ask | Pick, text: str, rules: str) -> Quantity | str:
    """One field. Raises Unreadable with what to write instead, without the label."""
    if isinstance(spec, Pick):
        options = spec.options(rules)
        meant = next((other for other in spec.also.get(text.strip().lower(), ()) if other in options), text)
        return read_choice(meant, options)
    unit = field_unit(spec)
    quantity = read_quantity(text, unit, good_example(spec), spec.either_way)
    if (spec.whole or spec.unit is units.wires) and quantity.si % 1:
        raise Unreadable("must be a whole number")
    return must_be_between(quantity, spec.low, spec.high)


def field_unit(spec: Ask) -> Unit:
    """The unit a bare number is in: the one these people use."""
    return units.usual(spec.unit)


def good_example(spec: Ask) -> str:
    return shown_text(spec.default.shown_in(field_unit(spec)))


def shown_text(quantity: Quantity) -> str:
    """A number as a form shows it: as it was typed, or to three figures in another unit.

    A temperature from the other scale has a tenth of a degree where it needs one: what stands in a field is read again.
    """
    if quantity.unit.point and not quantity.exact:
        return as_read(round(quantity.shown, 1))
    return as_read(quantity.shown) if quantity.exact else number_text(quantity)


def field_text(spec: Ask | Pick, value: Quantity | str, rules: str) -> str:
    """What stands in the field: a bare number where its unit is the field's own, else with its unit."""
    if isinstance(value, str):
        return value
    assert isinstance(spec, Ask)
    value = as_stated(value)
    if value.unit is field_unit(spec):
        return shown_text(value)
    if value.exact and value.step and value.step.note == TYPED:
        return printed(value).replace(NBSP, " ")
    return shown_text(value.shown_in(field_unit(spec)))
