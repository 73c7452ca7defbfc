"""The frozen dictionary of shared rigs: every fact has its number there, and keeps it.

`book.txt` only grows. A line names a fact, its kind, and its usual unit or its options in their order; options that came
later stand on a later line of their own. Whoever adds facts runs `python docs/make_book.py`, which appends what is new.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

UNITS = "units"
NUMBER, CHOICE, CHOICES, TEXT, TEXTS = "number", "choice", "choices", "text", "texts"
MORE = "more"
BETWEEN = " | "


@dataclass(frozen=True)
class Entry:
    """A fact as the book has it. edition: the number of its line; the book of that edition is the first to have it."""

    edition: int
    path: str
    kind: str
    words: tuple[str, ...]

    @property
    def is_listed(self) -> bool:
        return "[]" in self.path

    @property
    def group(self) -> str:
        return self.path.split(".")[0].removesuffix("[]")

    @property
    def name(self) -> str:
        return self.path.split(".")[1]

    @property
    def unit(self) -> str:
        """The usual unit of a number; "" for a plain one."""
        return self.words[0] if self.words else ""


@dataclass(frozen=True)
class Book:
    """The entries in their order; each fact's options, and all units, with the edition that first had them."""

    editions: int
    entries: tuple[Entry, ...]
    options: Mapping[str, tuple[str, ...]]
    since: Mapping[tuple[str, str], int]


@cache
def book() -> Book:
    return read_book((files("calc") / "sharing" / "book.txt").read_text(encoding="utf-8"))


def read_book(text: str) -> Book:
    entries: list[Entry] = []
    options: dict[str, tuple[str, ...]] = {}
    since: dict[tuple[str, str], int] = {}
    lines = text.splitlines()
    for edition, line in enumerate(lines, 1):
        path, kind, *words = line.split(BETWEEN)
        if kind in (NUMBER, CHOICE, CHOICES, TEXT, TEXTS):
            entries.append(Entry(edition, path, kind, tuple(words)))
        if kind not in (NUMBER, TEXT, TEXTS):
            options[path] = options.get(path, ()) + tuple(words)
            since |= {(path, word): edition for word in words}
    return Book(len(lines), tuple(entries), options, since)
