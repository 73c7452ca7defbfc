"""Appends to calc/sharing/book.txt what is new in the facts, and seals it. Lines that are there are never touched.

The seals, one a line in docs/book_seals.txt, are the number of lines so far and their SHA-256: a test holds the book to
every one of them, because a code on paper is read by the lines that it was written with.
"""

from __future__ import annotations

import hashlib
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
sys.path.insert(0, str(ROOT))

from calc.facts import FACTS, Fact  # noqa: E402
from calc.measurable import READING  # noqa: E402
from calc.sharing.book import BETWEEN, CHOICE, CHOICES, MORE, NUMBER, TEXT, TEXTS, UNITS, Book, read_book  # noqa: E402
from calc.units import TYPED  # noqa: E402

BOOK, SEALS = ROOT / "calc" / "sharing" / "book.txt", ROOT / "docs" / "book_seals.txt"


def what_is_new(book: Book) -> list[str]:
    """The lines to append for the units, facts and options that the book does not have yet."""
    has = {entry.path for entry in book.entries}
    facts = {f"{group}.{name}": fact for group, named in FACTS.items() for name, fact in named.items()}
    wanted = {UNITS: tuple(unit.sign for unit in TYPED if unit.sign)}
    wanted |= {path: fact.options for path, fact in facts.items() if path in has}
    late = {path: [word for word in words if (path, word) not in book.since] for path, words in wanted.items()}
    more = [(path, MORE, *words) for path, words in late.items() if words]
    new = [(path, kind(fact), *words(fact)) for path, fact in facts.items() if path not in has]
    return [BETWEEN.join(line) for line in more + new]


def kind(fact: Fact) -> str:
    """A reading's value is a number too, though its unit hangs on what was read."""
    if fact.unit is not None or fact is READING["value"]:
        return NUMBER
    if fact.options:
        return CHOICES if fact.many else CHOICE
    return TEXTS if fact.many else TEXT


def words(fact: Fact) -> tuple[str, ...]:
    if fact.unit is not None:
        return (fact.unit.sign,) if fact.unit.sign else ()
    return fact.options


def seal(text: str, lines: int) -> str:
    """Of the first so many lines."""
    return hashlib.sha256("".join(text.splitlines(keepends=True)[:lines]).encode()).hexdigest()


def main() -> None:
    text = BOOK.read_text(encoding="utf-8")
    new = "".join(f"{line}\n" for line in what_is_new(read_book(text)))
    if new:
        BOOK.write_text(text + new, encoding="utf-8")
        lines = len((text + new).splitlines())
        with SEALS.open("a", encoding="utf-8") as seals:
            seals.write(f"{lines} {seal(text + new, lines)}\n")


if __name__ == "__main__":
    main()
