"""A line as somebody reads it off a plate: `LFP, 16s1p, 100 Ah, 100 A out, 50 A in`, into facts, or refused in words.

A comma parts the pieces; a piece is one number with its unit, or one of a fact's own words, and goes to the one fact of
the plate that it fits. Where several fit (two currents), the word beside it says which. What fits none, or several, is
refused with what to write. Nothing of a line is left out in silence, and nothing is taken that does not stand in it.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping

from calc.asks import Ask
from calc.editing import asked_as
from calc.facts import fact_at
from calc.plate import ALL, ONE, SUM, Piece, Plate, beside, fits, ways_to_read
from calc.printing import NBSP, printed
from calc.quantity import numeral_with_unit
from calc.reading import Unreadable, read_number, read_quantity

Texts = dict[str, str]

EACH, IN_ALL = "each", "in all"

# Many times what a plate says.
_LONGEST = 600


def things_in(plate: Plate, line: str) -> list[tuple[str, Texts]]:
    """Each thing that a line tells, as its name, or an empty one, and its facts as texts by path. Raises Unreadable."""
    if len(line) > _LONGEST:
        raise Unreadable(f"This line is longer than {_LONGEST} letters: write what stands on the plate.")
    if not plate.group:
        return [("", facts_in(plate, line))] if line.strip() else []
    return [_thing(plate, part) for part in line.split(";") if part.strip()]


def _thing(plate: Plate, text: str) -> tuple[str, Texts]:
    name, line = _name_of(plate, text)
    return name, facts_in(plate, line)


def _name_of(plate: Plate, text: str) -> tuple[str, str]:
    """What stands before a colon is the thing's name, unless the colon belongs to a piece of the plate."""
    first = next(iter(_split(text)), "")
    head, colon, _ = first.partition(":")
    if not colon or _is_read(plate, first):
        return "", text
    if re.search(r"\d", head) and _is_read(plate, head):
        raise Unreadable(f"“{head.strip()}” stands where a name stands: put a name of your own before the colon, or a comma for the colon.")
    return head.strip(), text.partition(":")[2]


def _is_read(plate: Plate, text: str) -> bool:
    try:
        return bool(facts_in(plate, text))
    except Unreadable:
        return False


def facts_in(plate: Plate, line: str) -> Texts:
    """The facts of one thing as texts by path, ready to be read one by one. Raises Unreadable, naming every piece."""
    found: dict[str, tuple[str, str]] = {}  # by path: the text, and the piece of the line that told it
    problems = []
    for told in _pieces(plate, line):
        try:
            for path, text in _told(plate, told):
                _put(found, path, text, told)
        except Unreadable as problem:
            problems.append(str(problem))
    facts: Texts = {}
    for path, (text, told) in found.items():
        try:
            facts[path] = _of_several(plate, path, text, told, found)
        except Unreadable as problem:
            problems.append(str(problem))
    if problems:
        raise Unreadable(" ".join(problems))
    for piece in plate.pieces:
        if piece.path in facts:
            facts = {**piece.implies, **facts}
    return facts


def _put(found: dict[str, tuple[str, str]], path: str, text: str, told: str) -> None:
    if path in found:  # the same words as well: two lamps of 100 W are no 100 W
        raise Unreadable(f"“{found[path][1]}” and “{told}” both say: {fact_at(path).label}. Write one of them.")
    found[path] = text, told


# --- a line into pieces ----------------------------------------------------------------------------------------

# A comma between two figures belongs to the number; so 1,500 is refused where it is read, and never halved here.
_PARTS = re.compile(r"\s*(?:(?<!\d),|,(?!\d)|;|\n)\s*")
_BEFORE_A_NUMBER = re.compile(r"\s+(?:for|with|and)\s+(?=[\d.,½¼¾])", re.IGNORECASE)
# What is given for a while is not given without end: `200 A out for 5 s` stays one piece, and is refused.
_FOR_A_WHILE = re.compile(r"\b(?:continuous|rated|out|in|charg\w+|discharg\w+)\b.*\sfor\s+[\d.,½¼¾]", re.IGNORECASE)
# `48V 100Ah`: a number, its unit and the next number. With a word between them nobody knows whose word it is; and
# `L5-30R 30A` says twice what the outlet is, and nothing of its breaker.
_SIDE_BY_SIDE = re.compile(r"(?<=\d)(\s?(?![RP]\b)[^\s\d.,;/-][^\s\d,;]*)\s+(?=[\d.½¼¾])", re.IGNORECASE)


def _split(line: str) -> list[str]:
    return [part.strip() for part in _PARTS.split(line) if part.strip()]


def _pieces(plate: Plate, line: str) -> Iterator[str]:
    for short, spelled in plate.spellings:
        line = re.sub(short, spelled, line, flags=re.IGNORECASE)
    for part in _split(_SIDE_BY_SIDE.sub(r"\1; ", line)):
        pieces = [part] if _FOR_A_WHILE.search(part) else _BEFORE_A_NUMBER.split(part)
        yield from (piece.strip().rstrip(".") for piece in pieces)


def _told(plate: Plate, told: str) -> list[tuple[str, str]]:
    """The facts that one piece of a line tells, as paths and texts, without its word for one or for all."""
    said = plate.phrases.get(" ".join(told.casefold().split()))
    if said:
        return list(said.items())
    bare = _without_scope(told)[0] if plate.count else told
    fitting = [(word, piece, text) for piece in plate.pieces for word, text in ways_to_read(piece, bare)]
    longest = max((len(word) for word, *_ in fitting), default=0)  # `at its start` before `at`
    best = [(piece, text) for word, piece, text in fitting if len(word) == longest]
    if len(best) == 1:
        piece, text = best[0]
        return [(piece.path, text)]
    may_be = [piece for piece, _ in best] or [piece for piece in plate.pieces if piece.marked and fits(piece.fact, bare, marked=True)]
    if may_be:
        ways = " or ".join(f"“{piece.say.format(bare)}” ({piece.fact.label})" for piece in may_be)
        raise Unreadable(f"“{told}” does not say what it is of: write {ways}.")
    raise Unreadable(_why_not(plate, told, bare))


# Numbers with something after them that could be a unit.
_NUMBERS = re.compile(r"(?<![\w.,/-])[\d½¼¾][\d.,/]*\s?[^\W\d_]+")


def _why_not(plate: Plate, told: str, bare: str) -> str:
    """In words, why a piece fits nothing of its plate, and what would."""
    for words, why in plate.unclear.items():
        if re.search(rf"\b(?:{words})(?!\w)", told, re.IGNORECASE):
            return f"“{told}”: {why}"
    if re.search(r"\d\s*/\s*\d.*[^\W\d_]", bare):
        return f"“{told}” is not read here: a stroke parts two numbers. Write the one that holds here."
    number = re.search(r"[-+−]?[\d½¼¾][\d,.'½¼¾/]*", bare)
    try:
        read_number(number[0] if number else "0")
    except Unreadable as problem:
        return f"“{told}” {problem}."
    if re.search(r"[~≈±<>≤≥]|\bca\b", bare):
        return f"“{told}” is not read here: write the one number that stands on the plate, without a sign before it."
    if len(_NUMBERS.findall(bare)) > 1:
        return f"“{told}” holds two numbers: put a comma between them, and beside each its word."
    almost = [piece for piece in plate.pieces if any(beside(word, bare) for word in piece.words)]
    if almost:
        return f"“{told}” is not read here: write it like {' or '.join(f'“{_like(piece)}”' for piece in almost)}."
    if number and number[0] == bare:
        return f"“{told}” needs its unit beside it."
    named = " A name of your own stands first, with a colon behind it." if plate.group else ""
    return f"“{told}” is not read here. One thing stands between two commas, as in the example.{named}"


def _like(piece: Piece) -> str:
    """How this piece is written, with a number of the right size, the first of its words, or any name."""
    asked = asked_as(piece.path)
    if isinstance(asked, Ask):
        return piece.say.format(printed(asked.default).replace(NBSP, " "))
    return piece.say.format((piece.fact.options or ("its name",))[0])


# --- of several alike ------------------------------------------------------------------------------------------

_SCOPE = re.compile(rf"\s*\b({EACH}|{IN_ALL})\b", re.IGNORECASE)


def _without_scope(told: str) -> tuple[str, str]:
    """A piece of a line without its word for one or for all, and that word."""
    found = _SCOPE.search(told)
    return (_SCOPE.sub("", told, count=1).strip(), found[1].lower()) if found else (told, "")


def _of_several(plate: Plate, path: str, text: str, told: str, found: Mapping[str, tuple[str, str]]) -> str:
    """A fact's text, for one or for all of several alike, as the fact wants it. What all of them have is certain only
    where their number is; nobody is taken to have a single one."""
    said = _without_scope(told)[1] if plate.count else ""
    wanted = next((piece.of for piece in plate.pieces if piece.path == path), "")
    if not wanted:
        if said:
            raise Unreadable(f"“{told}” needs no “{said}”: write {text}.")
        return text
    if wanted == SUM and said != IN_ALL:
        raise Unreadable(f"“{told}”: of one, or of all? Write what all its batteries have together, with “in all” behind it.")
    count = found[plate.count][0] if plate.count in found else ""
    alone = count == "1"
    if not said and not alone:
        raise Unreadable(f"“{told}”: of one, or of all? Write {_ways(wanted, text)}, or say that there is one: “1 in parallel”.")
    if said == IN_ALL and wanted == ONE and not alone:
        raise Unreadable(f"“{told}”: write what one of them has, as in “100 {text.split()[-1]} each”.")
    if said == EACH and wanted == ALL:
        if not count or alone:
            raise Unreadable(f"“{told}”: of how many? Write “2 in parallel” beside it, or “{text} in all”.")
        return _times(path, text, count)
    return text


def _ways(wanted: str, text: str) -> str:
    return f"“{text} {EACH}” or “{text} {IN_ALL}”" if wanted == ALL else f"“{text} {EACH}”"


def _times(path: str, text: str, count: str) -> str:
    unit = fact_at(path).unit
    assert unit is not None
    one = read_quantity(text, unit, "")
    many = numeral_with_unit(one.unit.from_si(one.si * float(count)), one.unit)
    return f"{many.unit.from_si(many.si):.12g} {many.unit.sign}"
