"""What a check is: a form and a worksheet.

A check is one question of the job, one class, one file, one page. Its asks and picks are the form; `solve` is the
worksheet; its fixes ask the same question again with one thing changed, so that a fix cannot disagree with the
check. A check that is not complete is refused when its file is imported.
"""

from __future__ import annotations

import itertools
import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from functools import cache
from typing import Any, ClassVar, NoReturn, Self

from calc.answer import Answer as Answer
from calc.answer import Missing as Missing
from calc.answer import Named as Named
from calc.answer import Result as Result
from calc.answer import answer as answer
from calc.answer import not_known as not_known
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
from calc.cautions import SIGNALS as SIGNALS
from calc.cautions import Caution as Caution
from calc.cautions import Example as Example
from calc.fixes import Change as Change
from calc.fixes import Fix as Fix
from calc.fixes import Offer as Offer
from calc.fixes import first_that
from calc.fixes import less as less
from calc.fixes import more as more
from calc.fixes import next_option as next_option
from calc.fixes import option as option
from calc.quantity import OutsideValidity, Quantity, given, step
from calc.requirement import ELECTRICAL as ELECTRICAL
from calc.requirement import GO as GO
from calc.requirement import NO as NO
from calc.requirement import NOT_KNOWN as NOT_KNOWN
from calc.requirement import PHYSICAL as PHYSICAL
from calc.requirement import TIGHT as TIGHT
from calc.requirement import TOLD as TOLD
from calc.requirement import VERDICTS as VERDICTS
from calc.requirement import Requirement as Requirement
from calc.requirement import Rule as Rule
from calc.requirement import require as require

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
        for name, value in _as_they_stand(cls):
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
        clears = first_that(count, lambda index: verdict(index) in (GO, TIGHT), fix.in_order)
        if clears is None:
            return []
        goes = first_that(count, lambda index: verdict(index) == GO, fix.in_order)
        return [
            self._offer(fix, changes[index], verdict(index))
            for index in dict.fromkeys((clears, goes))
            if index is not None
        ]

    def _offer(self, fix: Fix, change: Change, verdict: str) -> Offer:
        return Offer(fix.say.format(**change) + (f" ({fix.costs})" if fix.costs else ""), change, verdict)


def _as_they_stand(cls: type[Check]) -> Iterator[tuple[str, object]]:
    """What a check is made of: first the groups of asks that it shares with others, in their order, then its own."""
    shared = [group for group in cls.__mro__[1:] if group not in Check.__mro__]
    for part in (*shared, cls):
        yield from vars(part).items()


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
