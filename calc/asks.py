"""What a form asks: a number, or a choice of few; of the rig, or of this question alone.

A fact of the rig is asked by its name, and brings its label, range, help and options with it, so that it reads alike
wherever it is asked.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import Any, Literal

from calc.facts import fact_at
from calc.measurable import MEASURABLE
from calc.quantity import Quantity
from calc.units import Unit

NEC, IEC = "nec", "iec"
RULE_SETS = (NEC, IEC)

When = Mapping[str, tuple[str, ...]]


@dataclass(frozen=True, kw_only=True)
class Ask:
    """A number wanted. `habit`: without a fact, the default may be assumed, and is printed as assumed; or under
    which rules it may.

    either_way: also reads the reciprocal (kWh per 100 mi where mi per kWh is asked). whole: a count.
    when: the picks under which it is asked at all, as {pick: (options,)}, or several such, any of which will do.
    rules: the rule sets that ask it. reading: what it is called in the rig's log, where it is measured.
    wish: it is what somebody wants, not what is. Where nobody has said it, the answer is its number without a verdict;
    the word is the easiest wish, and the verdicts on everything else are worked with that.
    """

    symbol: str
    label: str
    default: Quantity
    low: Quantity
    high: Quantity
    help: str
    fact: str = ""
    reading: str = ""
    common: tuple[Quantity, ...] = ()
    habit: bool | tuple[str, ...] = False
    either_way: bool = False
    whole: bool = False
    wish: Literal["", "the least", "the most"] = ""
    when: When | tuple[When, ...] = ()
    rules: tuple[str, ...] = RULE_SETS

    @property
    def easiest(self) -> Quantity:
        """Of a wish, the one that is fulfilled first."""
        return self.low if self.wish == "the least" else self.high

    @property
    def unit(self) -> Unit:
        return self.default.unit

    @cached_property
    def cases(self) -> tuple[When, ...]:
        return _cases(self.when)

    def may_be_assumed(self, rules: str) -> bool:
        return _holds_under(self.habit, rules)


@dataclass(frozen=True, kw_only=True)
class Pick:
    """A choice of few, spelled as the trade spells it. Options and default may differ by rule set.

    means: how the fact's options read as those of this question, where they are not the same.
    """

    label: str
    options_by_rules: Mapping[str, tuple[str, ...]]
    default_by_rules: Mapping[str, str]
    help: str
    fact: str = ""
    habit: bool | tuple[str, ...] = False
    when: When | tuple[When, ...] = ()
    rules: tuple[str, ...] = RULE_SETS
    # Other words for an option, as people type them; of several options the one that these rules have.
    also: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    means: Mapping[str, str] = field(default_factory=dict)

    def options(self, rules: str) -> tuple[str, ...]:
        return self.options_by_rules[rules]

    def default(self, rules: str) -> str:
        return self.default_by_rules[rules]

    def from_fact(self, known: str) -> str:
        return self.means.get(known, known)

    def as_fact(self, option: str) -> str | None:
        """What the rig would have to be for this option; None where that may be several things, or none."""
        if not self.means:
            return option
        found = [known for known, meant in self.means.items() if meant == option]
        return found[0] if len(found) == 1 else None

    @cached_property
    def cases(self) -> tuple[When, ...]:
        return _cases(self.when)

    def may_be_assumed(self, rules: str) -> bool:
        return _holds_under(self.habit, rules)


@dataclass(frozen=True, kw_only=True)
class Each:
    """The same asks for each thing of a list, as many as a pick says: `watts` becomes watts_1, watts_2 and so on."""

    things: str  # the list of the rig
    counted_by: str
    counts: tuple[str, ...]
    columns: Mapping[str, Ask | Pick]

    def spread(self) -> dict[str, Ask | Pick]:
        return {
            f"{name}_{count}": self._of_one(spec, place)
            for place, count in enumerate(self.counts)
            for name, spec in self.columns.items()
        }

    def _of_one(self, spec: Ask | Pick, place: int) -> Ask | Pick:
        number, name = self.counts[place], spec.fact.split(".")[1]
        of_it: dict[str, Any] = {
            "label": _named(f"{self.things[:-1].capitalize()} {number}", spec.label),
            "fact": f"{self.things}.{place}.{name}",
            "when": tuple({**case, self.counted_by: self.counts[place:]} for case in spec.cases or ({},)),
        }
        if isinstance(spec, Ask):
            of_it["symbol"] = f"{spec.symbol}_{number}"
        return replace(spec, **of_it)


def _holds_under(habit: bool | tuple[str, ...], rules: str) -> bool:
    return rules in habit if isinstance(habit, tuple) else habit


def _cases(when: When | tuple[When, ...]) -> tuple[When, ...]:
    return when if isinstance(when, tuple) else (when,)


def _named(of: str, label: str) -> str:
    """The label of one of several: `Part 2: mass`."""
    return f"{of}: {label[0].lower()}{label[1:]}" if of else label


# These are typed Any, because the attribute holds a Quantity or a word once the form is filled.

Options = Iterable[str] | Mapping[str, tuple[str, ...]]


def ask(symbol: str, label: str, default: Quantity, **more: Any) -> Any:
    """A number that only this question wants: see `Ask`."""
    _no_fact(label, more)
    return Ask(symbol=symbol, label=label, default=default, **more)


def ask_fact(symbol: str, fact: str, default: Quantity, of: str = "", **more: Any) -> Any:
    """A number that is a fact of the rig, like `bank.energy`: see `Ask`. It brings its label, range and help.

    of: whose it is, where a question asks the same of two. A check that must say it in other words gives its own help.
    """
    known = fact_at(fact)
    assert known.low is not None and known.high is not None, f"{fact} is not a number"
    words = {"label": _named(of, known.label), "help": known.help} | more
    return Ask(symbol=symbol, default=default, fact=fact, low=known.low, high=known.high, whole=known.whole, **words)


def ask_reading(symbol: str, what: str, default: Quantity, **more: Any) -> Any:
    """A number that is measured, by its name in the rig's log: see `Ask`. The log's last test answers it."""
    taken = MEASURABLE[what]
    assert taken.low is not None and taken.high is not None
    words = {"label": taken.label, "help": taken.help} | more
    return Ask(symbol=symbol, default=default, reading=what, low=taken.low, high=taken.high, **words)


def pick(label: str, options: Options, default: str | Mapping[str, str], **more: Any) -> Any:
    """A choice that only this question wants: see `Pick`."""
    _no_fact(label, more)
    return _choice(label, options, default, **more)


def _no_fact(label: str, more: Mapping[str, Any]) -> None:
    """What is true of the rig is asked by its fact, so that its words are said once."""
    if "fact" in more:
        raise TypeError(f"{label}: ask it by its fact, with ask_fact or pick_fact")


def _choice(label: str, options: Options, default: str | Mapping[str, str], **more: Any) -> Pick:
    by_rules = options if isinstance(options, Mapping) else dict.fromkeys(RULE_SETS, tuple(options))
    defaults = default if isinstance(default, Mapping) else dict.fromkeys(by_rules, default)
    more.setdefault("rules", tuple(by_rules))
    return Pick(label=label, options_by_rules=by_rules, default_by_rules=defaults, **more)


def pick_fact(fact: str, default: str | Mapping[str, str], options: Options = (), **more: Any) -> Any:
    """A choice that is a fact of the rig, like `place.surface`: see `Pick`. It brings its label, options and help.

    options: those that this question can answer, where they are others than the fact has, or differ by rule set.
    means: how the fact's options read as these, as {fact's: this question's}.
    """
    known = fact_at(fact)
    words = {"label": known.label, "help": known.help} | more
    return _choice(options=options or known.options, default=default, fact=fact, **words)


def how_many(things: str, label: str, counts: tuple[str, ...], default: str, help: str) -> Any:
    """How many things a list of the rig holds."""
    return _choice(label, counts, default, fact=f"{things}.#", help=help)


def each(things: str, counted_by: str, counts: tuple[str, ...], **columns: Any) -> Each:
    """Facts asked of each thing of a list, like `watts=ask_fact("P", "loads.running_watts", 200 * W)`: see `Each`."""
    return Each(things=things, counted_by=counted_by, counts=counts, columns=columns)
