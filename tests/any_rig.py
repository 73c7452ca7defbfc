"""Rigs as hypothesis draws them: any facts, any units that fit, numbers as people type them, names in any script."""

from __future__ import annotations

import json
import re
from typing import Any

from hypothesis import strategies as st

from calc import units as u
from calc.facts import FACTS, Fact, measured
from calc.measurable import READING
from calc.opening import LONGEST_NAME, MARK, PLAIN_TEXT, VERSION
from calc.reading import Unreadable, must_be_between
from calc.rig import Rig, fits, read_rig

NAMES = st.text(st.characters(exclude_categories=("Cs",)), max_size=LONGEST_NAME).filter(lambda text: re.fullmatch(PLAIN_TEXT, text))

TIMES = ("2025-05-17", "2026-02-28T23:59", "2026-01-01T08:00:30.5Z", "2027-12-31T06:15+05:45")


@st.composite
def numbers(draw: st.DrawFn, fact: Fact) -> dict[str, Any]:
    assert fact.low is not None and fact.high is not None
    fitting = [unit for unit in u.TYPED if fits(unit, fact.low.unit)]
    unit = fact.low.unit if fact.whole else draw(st.sampled_from(fitting))
    figures = draw(st.integers(1, 12))
    si = draw(st.floats(fact.low.si, fact.high.si))
    value = round(unit.from_si(si)) if fact.whole else float(f"{unit.from_si(si):.{figures}g}")
    try:
        must_be_between(value * unit, fact.low, fact.high)
    except Unreadable:  # rounded out of its range
        value, unit = fact.low.shown, fact.low.unit
    return {"value": int(value) if fact.whole else value, "unit": unit.sign}


def values(fact: Fact) -> st.SearchStrategy[Any]:
    if fact.low is not None:
        return numbers(fact)
    one = st.sampled_from(fact.options) if fact.options else st.from_regex(fact.pattern, fullmatch=True, alphabet="0123456789:-") if fact.pattern else NAMES
    return st.lists(one, max_size=3) if fact.many else one


def things(facts: dict[str, Fact]) -> st.SearchStrategy[dict[str, Any]]:
    """A few facts of one thing: of all at once, hypothesis would draw for minutes."""
    few = st.lists(st.sampled_from(sorted(facts)), max_size=6, unique=True)
    return few.flatmap(lambda names: st.fixed_dictionaries({name: values(facts[name]) for name in names}))


@st.composite
def readings(draw: st.DrawFn) -> dict[str, Any]:
    """What its number may be hangs on what was read."""
    what = draw(values(READING["what"]))
    more = draw(things({name: READING[name] for name in ("of", "note")}))
    return {"what": what, "value": draw(numbers(measured(what))), "when": draw(st.sampled_from(TIMES)), **more}


def group_of(name: str, facts: dict[str, Fact]) -> st.SearchStrategy[Any]:
    if name == "readings[]":
        return st.lists(readings(), max_size=4)
    return st.lists(things(facts), max_size=4) if name.endswith("[]") else things(facts)


GROUPS = {name.removesuffix("[]"): group_of(name, dict(facts)) for name, facts in FACTS.items()}


@st.composite
def documents(draw: st.DrawFn) -> dict[str, Any]:
    groups = draw(st.lists(st.sampled_from(sorted(GROUPS)), max_size=5, unique=True))
    return {MARK: VERSION, "name": draw(NAMES), **{group: draw(GROUPS[group]) for group in groups}}


def rigs() -> st.SearchStrategy[Rig]:
    return documents().map(lambda document: read_rig(json.dumps(document)))
