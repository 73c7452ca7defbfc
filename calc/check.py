"""What a check is: a form and a worksheet.

A check is one question of the job, one class, one file, one page. Its asks and picks are the form; `solve` is the
worksheet; its fixes ask the same question again with one thing changed, so that a fix cannot disagree with the
check. A check that is not complete is refused when its file is imported.
"""

from __future__ import annotations

import itertools
import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from functools import cache
from typing import Any, ClassVar, NoReturn, Self

from calc.asks import IEC as IEC
from calc.asks import NEC as NEC
from calc.asks import RULE_SETS as RULE_SETS
from calc.asks import Ask as Ask
from calc.asks import Each, When
from calc.asks import Pick as Pick
from calc.asks import ask as ask
from calc.asks import ask_fact as ask_fact
from calc.asks import ask_reading as ask_reading
from calc.asks import each as each
from calc.asks import how_many as how_many
from calc.asks import pick as pick
from calc.asks import pick_fact as pick_fact
from calc.printing import Line, figures, pair, working
from calc.quantity import Condition, OutsideValidity, Quantity, Statement, given, step
from calc.sources import Source

GO, TIGHT, NO, NOT_KNOWN, TOLD = "go", "tight", "no", "not known", "told"
VERDICTS = (GO, TIGHT, NO, NOT_KNOWN, TOLD)
_WORST_FIRST = (NOT_KNOWN, NO, TIGHT, GO, TOLD)


# --- what must hold ------------------------------------------------------------------------------------------


@dataclass(frozen=True)
class Rule:
    """How much room makes a go: use = demand / limit."""

    go_up_to: float
    says: str


ELECTRICAL = Rule(0.90, "go up to 90 % of the limit, tight up to the limit")
PHYSICAL = Rule(0.80, "go where there is 1.25 times what is needed, tight where there is just enough")


@dataclass(frozen=True)
class Requirement:
    """One thing that must hold, how it came out and what that means in words."""

    label: str
    condition: Condition | Statement
    verdict: str
    words: str
    use: float | None
    rule: str

    @property
    def sentence(self) -> str:
        """What it means in words. Put together only when it is read: trials ask for verdicts alone."""
        if isinstance(self.condition, Statement):
            return self.words
        left, right = pair(self.condition.left, self.condition.right)
        return self.words.replace("{left}", left).replace("{right}", right)

    @property
    def margin(self) -> str:
        """Room left in words, where the two sides make a ratio."""
        if self.use is None:
            return ""
        spare = 1 - self.use
        if abs(spare) < 0.0005:
            return "nothing to spare"
        share = figures(abs(spare) * 100, 2, rounds=-1 if spare > 0 else 1)
        return f"{share} % to spare" if spare > 0 else f"{share} % over"


def require(
    condition: Condition | Statement,
    *,
    label: str,
    yes: str,
    no: str,
    tight: str = "",
    comfortable: Condition | Statement | None = None,
    rule: Rule = ELECTRICAL,
    exact: bool = False,
) -> Requirement:
    """What must hold. `{left}` and `{right}` in a sentence become the two sides, told apart in print.

    comfortable: what must hold as well for a go. exact: holding is a go, there is no tight.
    """
    use = _use(condition)
    if not condition.holds:
        verdict = NO
    elif comfortable is not None:
        verdict = GO if comfortable.holds else TIGHT
    elif exact or use is None:
        verdict = GO
    else:
        verdict = GO if use <= rule.go_up_to + 1e-12 else TIGHT
    says = {GO: yes, TIGHT: tight or yes, NO: no}[verdict]
    how = "" if exact or use is None and comfortable is None else "" if comfortable is not None else rule.says
    return Requirement(label, condition, verdict, says, use, how)


def _use(condition: Condition | Statement) -> float | None:
    if isinstance(condition, Statement) or condition.left.unit.point:
        return None
    demand, room = (condition.left, condition.right) if condition.sign in "≤<" else (condition.right, condition.left)
    if demand.si < 0 or room.si <= 0:
        return None
    return demand.si / room.si


# --- the answer ----------------------------------------------------------------------------------------------


@dataclass(frozen=True)
class Missing:
    """A fact without which the question has no answer, and where to find it."""

    name: str
    label: str
    where: str


@dataclass(frozen=True)
class Named:
    """A result in words (a wire size), with what it is called, why it is this one, and the source."""

    text: str
    label: str
    note: str = ""
    source: Source | None = None

    def __str__(self) -> str:
        return self.text


Result = Quantity | Named


@dataclass(frozen=True)
class Answer:
    """Verdict, results, what it rests on. `say` is the sentence for a go or a told; otherwise what rules speaks.

    trials: the names of the results that were found by asking again with other values.
    """

    requirements: tuple[Requirement, ...]
    results: Mapping[str, Result]
    go_sentence: str
    notes: tuple[str, ...] = ()
    missing: tuple[Missing, ...] = ()
    trials: tuple[str, ...] = ()

    @property
    def verdict(self) -> str:
        if self.missing or not self.results:
            return NOT_KNOWN
        verdicts = {requirement.verdict for requirement in self.requirements}
        return next((verdict for verdict in _WORST_FIRST if verdict in verdicts), TOLD)

    @property
    def ruling(self) -> Requirement | None:
        """The requirement that decides: of the worst verdict, the one with least room."""
        worst = [requirement for requirement in self.requirements if requirement.verdict == self.verdict]
        return max(worst, key=lambda requirement: requirement.use if requirement.use is not None else 2.0, default=None)

    @property
    def say(self) -> str:
        ruling = self.ruling
        return ruling.sentence if ruling and self.verdict in (NO, TIGHT) else self.go_sentence

    def working(self) -> list[Line]:
        """The working: the ancestry of what was compared and told, then what was told in words."""
        in_words = [
            Line(
                "read" if said.source else "worked",
                "",
                said.label,
                "",
                "",
                said.text,
                None,
                str(said.source or ""),
                said.note,
            )
            for said in self.results.values()
            if isinstance(said, Named)
        ]
        return working(self.roots) + in_words

    @property
    def roots(self) -> tuple[Quantity, ...]:
        """What was compared and what is told: the working is their ancestry."""
        compared = [quantity for requirement in self.requirements for quantity in requirement.condition.quantities]
        told = [result for result in self.results.values() if isinstance(result, Quantity)]
        return (*compared, *told)


def answer(*requirements: Requirement, say: str, notes: Iterable[str] = (), **results: Result) -> Answer:
    """What `solve` returns: what must hold, the sentence, and the results by name."""
    return Answer(requirements, results, say, tuple(notes))


def not_known(say: str, missing: Iterable[Missing] = ()) -> Answer:
    return Answer((), {}, say, (), tuple(missing))


# --- cautions, examples --------------------------------------------------------------------------------------

SIGNALS = ("DANGER", "WARNING", "CAUTION", "NOTICE")


@dataclass(frozen=True)
class Caution:
    """Signal word in the sense of ANSI Z535.6, what the hazard is, what it does, how to avoid it.

    only: the filled forms to which it applies; all of them, if it is not said.
    """

    signal: str
    hazard: str
    consequence: str
    avoid: str
    only: Callable[[Any], bool] | None = None

    def __post_init__(self) -> None:
        if self.signal not in SIGNALS or not (self.hazard and self.consequence and self.avoid):
            raise ValueError(
                f"a caution needs one of {', '.join(SIGNALS)}, a hazard, a consequence and what to do: {self}"
            )

    @property
    def serious(self) -> bool:
        return self.signal in ("DANGER", "WARNING")


@dataclass(frozen=True)
class Example:
    """A published case. Results are written with their published figures: `4.46 V` is met within half of 0.01 V."""

    given: Mapping[str, str]
    source: Source
    expect: Mapping[str, str] = field(default_factory=dict)
    verdict: str = ""
    rules: str = NEC
    within: float = 0.0  # a relative tolerance, where the source's own rounding is coarser than its figures


# --- fixes ---------------------------------------------------------------------------------------------------

Change = dict[str, "Quantity | str"]


@dataclass(frozen=True)
class Fix:
    """A kind of change. `changes` lists them, smallest first; `say` holds `{field}` for what is set.

    in_order: a larger change is never worse, so the smallest that serves may be found by halving.
    """

    say: str
    changes: Callable[[Any], Iterable[Change]]  # of the filled form, a check of any kind
    costs: str = ""
    in_order: bool = False


@dataclass(frozen=True)
class Offer:
    """A change that was tried and found to serve."""

    say: str
    change: Change
    verdict: str


def next_option(name: str, say: str, costs: str = "") -> Fix:
    """Try the options that come after the present one in their order (the next thicker wire)."""

    def changes(check: Check) -> Iterator[Change]:
        options = check.asks[name].options(check.rules)  # type: ignore[union-attr]
        for option in options[options.index(getattr(check, name)) + 1 :]:
            yield {name: option}

    return Fix(say, changes, costs)


def option(name: str, value: str, say: str, costs: str = "") -> Fix:
    """Try one other option, where the rules that answer have it."""

    def changes(check: Check) -> Iterator[Change]:
        if check.asked(name) and getattr(check, name) != value and value in check.asks[name].options(check.rules):  # type: ignore[union-attr]
            yield {name: value}

    return Fix(say, changes, costs)


def less(name: str, step: Quantity, say: str, costs: str = "") -> Fix:
    """Try smaller values, by steps of a round figure, down to the least the form takes."""

    def changes(check: Check) -> Iterator[Change]:
        unit, low = step.unit, check.asks[name].low.number_in(step.unit)  # type: ignore[union-attr]
        size, start = step.shown, getattr(check, name).number_in(unit)
        count = int((start - 1e-9) // size)
        while count * size >= low and count > 0:
            yield {name: round(count * size, 9) * unit}
            count -= 1

    return Fix(say, changes, costs, in_order=True)


def more(name: str, step: Quantity, say: str, costs: str = "") -> Fix:
    """Try larger values, by steps of a round figure, up to the most the form takes."""

    def changes(check: Check) -> Iterator[Change]:
        unit, high = step.unit, check.asks[name].high.number_in(step.unit)  # type: ignore[union-attr]
        size, start = step.shown, getattr(check, name).number_in(unit)
        count = int((start + 1e-9) // size) + 1
        while count * size <= high + 1e-9:
            yield {name: round(count * size, 9) * unit}
            count += 1

    return Fix(say, changes, costs, in_order=True)


# --- the check -----------------------------------------------------------------------------------------------

_ATTRIBUTES = {
    "solve",
    "found_by_trial",
    "fixes",
    "cautions",
    "examples",
    "title",
    "rule_sets",
    "headline",
    "told",
    "about",
    "measures",
    "compared",
    "not_compared",
}


class Check:
    """A question. Subclass it in `checks/<chapter>/<question>.py`; the docstring is the question."""

    asks: ClassVar[dict[str, Ask | Pick]]
    question: ClassVar[str]
    id: ClassVar[str]
    title: ClassVar[str]
    headline: ClassVar[str]
    rule_sets: ClassVar[tuple[str, ...]] = RULE_SETS
    fixes: ClassVar[tuple[Fix, ...]] = ()
    cautions: ClassVar[tuple[Caution, ...]] = ()
    examples: ClassVar[tuple[Example, ...]] = ()
    told: ClassVar[bool] = False
    # The things of the rig that the question is about, where a list holds several kinds: {fact: (values,)}.
    about: ClassVar[Mapping[str, tuple[str, ...]]] = {}
    # Results that a fact of the rig may be taken from: {result: what it is noted as in the log}.
    measures: ClassVar[Mapping[str, str]] = {}
    # The results that are told side by side with those of the other rule set; none where the two are not compared.
    compared: ClassVar[tuple[str, ...]] = ()
    rules: str

    def __init_subclass__(cls) -> None:
        cls.asks = {}
        for name, value in vars(cls).items():
            if isinstance(value, (Ask, Pick)):
                cls.asks[name] = value
            elif isinstance(value, Each):
                cls.asks |= value.spread()
        cls.question = (cls.__doc__ or "").strip().split("\n")[0]
        chapter, file = cls.__module__.split(".")[-2:]
        cls.id = f"{chapter}/{file}".replace("_", "-")
        _refuse_unfinished(cls)

    def __init__(self, rules: str = NEC, notes: Mapping[str, str] = {}, **values: Quantity | str) -> None:  # noqa: B006  (only read)
        """Fill the form. `notes` says where a value came from; what is left out takes its default."""
        unknown = values.keys() - self.asks.keys()
        if unknown or rules not in RULE_SETS:
            raise TypeError(f"{self.id} has no ask named {', '.join(sorted(unknown)) or rules}")
        put = object.__setattr__
        put(self, "rules", rules)
        for name, spec in self.asks.items():
            value = values.get(name)
            if isinstance(spec, Ask):
                put(self, name, _as_given(spec, spec.default if value is None else value, notes.get(name, "")))
            elif rules in spec.rules:
                put(self, name, spec.default(rules) if value is None else _one_of(spec, value, rules))

    def __setattr__(self, name: str, value: object) -> NoReturn:
        raise AttributeError("a filled form is frozen; use changed(...)")

    def changed(self, change: Change) -> Self:
        """The same form with some values changed."""
        values = {name: getattr(self, name) for name in self.asks if hasattr(self, name)}
        return type(self)(self.rules, **(values | change))

    def asked(self, name: str) -> bool:
        """Whether this number or choice is asked at all, as the other picks stand."""
        spec = self.asks[name]
        if self.rules not in spec.rules:
            return False
        if not spec.cases:
            return True
        return any(self.holds(case) for case in spec.cases)

    def holds(self, case: When) -> bool:
        """Whether the other picks stand as a case says."""
        return all(self.asked(other) and getattr(self, other) in options for other, options in case.items())

    def of_each(self, column: str) -> tuple[Any, ...]:
        """A column of a list, for as many things as there are: watts_1, watts_2 and so on."""
        numbered = itertools.takewhile(lambda name: name in self.asks, (f"{column}_{n}" for n in itertools.count(1)))
        return tuple(getattr(self, name) for name in numbered if self.asked(name))

    def solve(self) -> Answer:
        raise TypeError(f"{self.id} has no worksheet")

    def answer(self) -> Answer:
        """The answer to the question; outside the range of a law or a table, `not known` with the reason."""
        if self.rules not in self.rule_sets:
            return not_known("Only the US rule for this is worked here; under IEC rules the answer is not known.")
        try:
            return self.solve()
        except OutsideValidity as outside:
            return not_known(str(outside))

    def warnings(self) -> list[Caution]:
        """The cautions that apply to this form, the gravest first."""
        applying = [caution for caution in self.cautions if caution.only is None or caution.only(self)]
        return sorted(applying, key=lambda caution: SIGNALS.index(caution.signal))

    def found_by_trial(self) -> Mapping[str, Result]:
        """Results that come from asking again with other values; a check that has some says so here."""
        return {}

    def not_compared(self) -> str:
        """Why the other rule set cannot be asked of this form; empty where it can."""
        return ""

    def full_answer(self) -> Answer:
        """The answer with what is found by trial, and with what the other rules say; `answer` is what trials ask for."""
        from calc.side_by_side import said_by_the_other_rules

        plain = self.answer()
        if plain.verdict == NOT_KNOWN:
            return plain
        found, notes = self.found_by_trial(), (*plain.notes, *said_by_the_other_rules(self, plain))
        return replace(plain, results={**plain.results, **found}, trials=tuple(found), notes=notes)

    def offers(self) -> list[Offer]:
        """For a no: the changes that clear it, each tried by asking the same question again."""
        return [offer for fix in self.fixes for offer in self._tried(fix)]

    def _tried(self, fix: Fix) -> list[Offer]:
        """The smallest change of this kind that clears the no; where it only makes it tight, the one that makes it a go too."""
        changes = [change for change in fix.changes(self) if all(self.asked(name) for name in change)]

        @cache
        def verdict(index: int) -> str:
            return self.changed(changes[index]).answer().verdict

        count = len(changes)
        clears = _first(count, lambda index: verdict(index) in (GO, TIGHT), fix.in_order)
        if clears is None:
            return []
        goes = _first(count, lambda index: verdict(index) == GO, fix.in_order)
        return [
            self._offer(fix, changes[index], verdict(index))
            for index in dict.fromkeys((clears, goes))
            if index is not None
        ]

    def _offer(self, fix: Fix, change: Change, verdict: str) -> Offer:
        return Offer(fix.say.format(**change) + (f" ({fix.costs})" if fix.costs else ""), change, verdict)


def _first(count: int, serves: Callable[[int], bool], in_order: bool) -> int | None:
    """The first of `count` trials that serves: each in turn, or by halving where a larger one is never worse."""
    if not in_order:
        return next((index for index in range(count) if serves(index)), None)
    low, high = 0, count
    while low < high:
        middle = (low + high) // 2
        low, high = (low, middle) if serves(middle) else (middle + 1, high)
    return low if low < count and serves(low) else None


def _as_given(spec: Ask, value: Quantity | str, note: str) -> Quantity:
    """The value under the ask's name. A reciprocal is given as it was stated, and turned over in a line of its own."""
    if not isinstance(value, Quantity):
        raise TypeError(f"{spec.label} takes a quantity, not {value!r}")
    if value.step and value.step.symbol == spec.symbol:
        return value
    if value.unit.dimension == spec.unit.dimension:
        return given(spec.symbol, spec.label, value, note)
    stated = given(f"1/{spec.symbol}", f"{spec.label}, as stated", value, note)
    return step(spec.symbol, spec.label, 1 / stated, spec.unit)


def as_stated(value: Quantity) -> Quantity:
    """A number of the form as the person stated it, before it was turned over."""
    turned = value.step is not None and value.step.kind == "worked"
    return value.operands[1] if turned else value


def _one_of(spec: Pick, value: Quantity | str, rules: str) -> str:
    if value not in spec.options(rules):
        raise ValueError(f"{spec.label}: {value!r} is not one of {', '.join(spec.options(rules))}")
    return str(value)


def _refuse_unfinished(cls: type[Check]) -> None:
    """Say, naming the file, what a check lacks or has too much."""

    def refuse(why: str) -> NoReturn:
        raise TypeError(f"{cls.__module__}: {cls.__name__} {why}")

    if not re.fullmatch(r"[A-Z].*\?", cls.question):
        refuse("needs a docstring that begins with its question, ending in a question mark")
    for name, value in vars(cls).items():
        known = name in _ATTRIBUTES or name in cls.asks or isinstance(value, Each) or name in ("asks", "question", "id")
        if not name.startswith("_") and not known:
            refuse(f"has an attribute that no check knows: {name}")
    for needed in ("title", "headline", "cautions", "examples") + (() if cls.told else ("fixes",)):
        if not vars(cls).get(needed):
            refuse(f"needs {needed}")
    if "solve" not in vars(cls):
        refuse("needs solve, its worksheet")
    for name, spec in cls.asks.items():
        _refuse_bad_ask(name, spec, cls.asks, refuse)


# What stands in a page's address beside the asks.
_TAKEN = {"units", "was_units", "rules", "check", "rig", "subject"}


def _refuse_bad_ask(
    name: str, spec: Ask | Pick, asks: Mapping[str, Ask | Pick], refuse: Callable[[str], NoReturn]
) -> None:
    if name in _TAKEN:
        refuse(f"asks {name}, a word that a page's address uses itself")
    if not spec.help:
        refuse(f"asks {name} without saying how to find it out")
    if isinstance(spec, Ask):
        kind = (spec.unit.dimension, spec.unit.point)
        if any((value.unit.dimension, value.unit.point) != kind for value in (spec.low, spec.high, *spec.common)):
            refuse(f"asks {name} with bounds in another kind of unit")
        if not spec.low.si <= spec.default.si <= spec.high.si:
            refuse(f"asks {name} with a default outside its range")
    elif any(spec.default(rules) not in spec.options(rules) for rules in spec.rules):
        refuse(f"asks {name} with a default that is not an option")
    for other, options in ((other, options) for case in spec.cases for other, options in case.items()):
        source = asks.get(other)
        if not isinstance(source, Pick) or not set(options) <= {
            option for rules in source.rules for option in source.options(rules)
        }:
            refuse(f"asks {name} only under an option that {other} does not have")
