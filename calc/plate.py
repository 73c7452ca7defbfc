"""A plate: the facts that one look at the real thing reads, and the words by which each is known in a line."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from functools import cache

from calc import units as u
from calc.facts import Fact, fact_at
from calc.printing import NBSP
from calc.reading import Unreadable, read_choice, read_number, read_quantity

ONE, ALL, SUM = "one", "all", "sum"


@dataclass(frozen=True)
class Piece:
    """What a plate may say of one fact.

    say: how it is written where another fact has its unit, the number as {}; also: other words that mark it.
    marked: it is never taken without its word, because the number alone often means something that is asked nowhere.
    of: of several alike, whether the fact is about `one` of them or about `all`; a `sum` is written as one, because each
    string may be several batteries, and nobody says how many.
    implies: a choice that follows from it, where it is not said.
    """

    path: str
    say: str = "{}"
    also: tuple[str, ...] = ()
    marked: bool = False
    of: str = ""
    implies: Mapping[str, str] = field(default_factory=dict)

    @property
    def fact(self) -> Fact:
        return fact_at(self.path)

    @property
    def words(self) -> tuple[str, ...]:
        said = self.say.replace("{}", "").strip()
        return ((said,) if said else ()) + self.also


@dataclass(frozen=True)
class Plate:
    """One look at one plate. A list's plate tells things of that list, with a semicolon between them.

    phrases: words that say facts whole; spellings: what the trade writes short, as a pattern and what it stands for.
    unclear: words that may mean two things, and what to write for each. count: the fact that says how many alike there
    are. group: the list of whose things the plate is one.
    """

    key: str
    label: str
    where: str
    example: str
    pieces: tuple[Piece, ...]
    phrases: Mapping[str, Mapping[str, str]] = field(default_factory=dict)
    spellings: tuple[tuple[str, str], ...] = ()
    unclear: Mapping[str, str] = field(default_factory=dict)
    count: str = ""
    group: str = ""

    @property
    def shown(self) -> str:
        """The example, with numbers that stay beside their units."""
        return re.sub(r"(?<=\d) (?=[^\d\s])", NBSP, self.example)


# --- one piece and one fact ------------------------------------------------------------------------------------


def ways_to_read(piece: Piece, told: str) -> Iterator[tuple[str, str]]:
    """How this may be a piece of that fact: the word that stands beside it, if one does, and the text without."""
    for word in sorted(piece.words, key=len, reverse=True):
        rest = beside(word, told)
        if rest and fits(piece.fact, rest, marked=True):
            yield word, rest
            return
    if not piece.marked and not piece.fact.refers_to and fits(piece.fact, told, marked=False):
        yield "", told


def beside(word: str, told: str) -> str:
    """What stands beside a word that begins or ends a piece; empty where it does neither."""
    found = _pattern(word).fullmatch(told)
    return (found["after"] or found["before"] or "").strip() if found else ""


@cache
def _pattern(word: str) -> re.Pattern[str]:
    plain = r"[\s-]*".join(map(re.escape, re.split(r"[\s-]+", word)))
    return re.compile(rf"{plain}\b\s*(?:(?:at|of|to|is)\b|[:=])?\s*(?P<after>.+)|(?P<before>.+?)\s*\b{plain}", re.IGNORECASE)


def fits(fact: Fact, text: str, marked: bool) -> bool:
    if fact.low is not None:
        return number_fits(fact, text, marked)
    if fact.refers_to:
        return True
    if not marked and re.fullmatch(r"[\d\s/.,]+", text):
        return False  # a bare number is no choice, unless its word says of what
    try:
        return bool(read_choice(text, fact.options))
    except Unreadable:
        return False


# On a plate a stroke parts two numbers, as in `10/5 A` at 120/240 V; only hours and lengths are told in halves.
_IN_HALVES = (u.h, u.ft, u.mi)

# One dimension, and not the same thing: what a motor gives is not what it takes, and volt-amperes are not watts.
_APART = ((u.VA, u.kVA), (u.hp,))


def number_fits(fact: Fact, text: str, marked: bool) -> bool:
    assert fact.unit is not None
    try:
        number, rest = read_number(text)
        quantity = read_quantity(text, fact.unit, "", fact.either_way)
    except Unreadable:
        return False
    if fact.unit not in _IN_HALVES and re.match(r"[^\s\d]*\s*\d+\s*/\s*\d", text):
        return False
    if not rest or fact.unit is u.one:
        return marked and fact.unit is u.one and not rest  # only a count has no unit, and its word says what is counted
    return all((quantity.unit in apart) == (fact.unit in apart) for apart in _APART)
