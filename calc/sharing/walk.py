"""A rig's document as bytes, and back. One walk serves both ways, so that what was written is what is read.

The walk follows the book fact by fact, and through a list thing by thing: is it known; is it as the thing before has it;
what is it. A code names its edition of the book, the oldest that has all it needs: a later book reads it by the same
lines.
"""

from __future__ import annotations

from collections.abc import Hashable, Mapping, Sequence
from dataclasses import dataclass, field
from decimal import Decimal
from typing import Any

from calc.measurable import MOST_READINGS
from calc.opening import MARK, MOST_THINGS, Document
from calc.sharing.book import CHOICE, CHOICES, NUMBER, TEXT, UNITS, Book, Entry, book
from calc.sharing.coder import Coder, Endless, Reader, Writer
from calc.sharing.names import learned, spelled

_MOST = max(MOST_THINGS, MOST_READINGS)  # of one kind; how many of which, `read_rig` says
_LONGEST_NUMBER = 80  # binary digits


class Newer(ValueError):
    """Written by a later edition of the book than this one."""


class Senseless(ValueError):
    """What the book does not have."""


def as_bytes(document: Document) -> bytes:
    """The document of a rig, as `calc.rig.document` makes it. Raises Endless if it is larger than can be read again."""
    writer = Writer(learned())
    _Walk(writer, book()).document(document)
    return writer.written()


def as_document(body: bytes) -> Document:
    """What `as_bytes` was given. Raises Newer, Senseless or Endless; whether it is a rig, `read_rig` finds out."""
    reader = Reader(learned(), body)
    found = _Walk(reader, book()).document({})
    if not reader.has_read_all():
        raise Senseless
    return found


@dataclass
class _Walk:
    """Each function is given what is to be written, or something empty when it reads, and returns what there is."""

    coder: Coder
    book: Book
    texts: list[str] = field(default_factory=list)
    was_known: bool = False

    def document(self, given: Mapping[str, Any]) -> Document:
        edition = self.whole("edition", _oldest_with_all(given, self.book))
        if edition > self.book.editions:
            raise Newer
        found: Document = {MARK: self.whole("version", given.get(MARK, 0)), "name": self.text(given.get("name", ""))}
        groups: dict[str, list[tuple[Document, Document]]] = {}
        for entry in self.book.entries:
            if entry.edition > edition:
                continue
            if entry.group not in groups:
                groups[entry.group] = self.things(entry, given)
            self.fact(entry, groups[entry.group])
            things = [thing for _, thing in groups[entry.group]]
            found[entry.group] = things if entry.is_listed else things[0]
        return {key: content for key, content in found.items() if content not in ([], {})}

    def things(self, entry: Entry, given: Mapping[str, Any]) -> list[tuple[Document, Document]]:
        """The things of a list, or the one group; each as given, and to be filled with what is found."""
        listed = given.get(entry.group, []) if entry.is_listed else [given.get(entry.group, {})]
        count = self.count("things", len(listed), _MOST) if entry.is_listed else 1
        return [(listed[index] if listed else {}, {}) for index in range(count)]

    def fact(self, entry: Entry, things: list[tuple[Document, Document]]) -> None:
        """One fact, of each thing. What is known of a rig stands in runs; what is known of things, in columns."""
        last: Any = None
        for given, found in things:
            where = entry.path if entry.is_listed else self.was_known
            self.was_known = self.coder.bit(("known", where), entry.name in given)
            if not self.was_known:
                continue
            wanted = given.get(entry.name)
            if last is None or not self.coder.bit(("same", entry.path), wanted == last):
                last = self.value(entry, wanted)
            found[entry.name] = last

    def value(self, entry: Entry, given: Any) -> Any:
        if entry.kind == NUMBER:
            return self.number(entry, given or {"value": 0, "unit": ""})
        if entry.kind == CHOICE:
            return self.choice(entry, given or "")
        if entry.kind == TEXT:
            return self.text(given or "")
        count = self.count("names", len(given or []), _MOST)
        names = given or [""] * count
        return [self.choice(entry, name) if entry.kind == CHOICES else self.text(name) for name in names]

    def choice(self, entry: Entry, given: str) -> str:
        options = self.book.options[entry.path]
        return _picked(options, self.whole(("option", entry.path), options.index(given) if given else 0))

    def number(self, entry: Entry, given: Mapping[str, Any]) -> Document:
        """A decimal as it was typed: its unit, its sign, its power of ten, its figures."""
        units = (entry.unit, "", *self.book.options[UNITS])
        unit = _picked(units, self.whole("unit", units.index(given["unit"])))
        sign, digits, power = Decimal(repr(given["value"])).normalize().as_tuple()
        assert isinstance(power, int)
        negative = self.coder.bit("negative", bool(sign))
        broken = self.coder.bit("broken", power < 0)
        power = -self.whole("places", -power) if broken else self.whole("zeros", power)
        figures = self.whole(("figures", broken), int("".join(map(str, digits))))
        value = float(f"{'-' * negative}{figures}e{power}")
        return {"value": int(value) if value.is_integer() else value, "unit": unit}

    def text(self, given: str) -> str:
        """A text that was there before is named by its number."""
        before = self.whole("text", self.texts.index(given) + 1 if given in self.texts else 0)
        if before:
            return _picked(self.texts, before - 1)
        try:
            self.texts.append(spelled(self.coder, given))
        except UnicodeDecodeError:
            raise Senseless from None
        return self.texts[-1]

    def count(self, what: str, given: int, most: int) -> int:
        found = self.whole(what, given)
        if found > most:
            raise Endless
        return found

    def whole(self, where: Hashable, given: int) -> int:
        """A whole number from 0: how many binary digits it has, then these; the first few in contexts of their own."""
        wanted, length = given + 1, 0
        while self.coder.bit((where, "longer", length), wanted.bit_length() - 1 > length):
            length += 1
            if length > _LONGEST_NUMBER:
                raise Senseless
        found = 1
        for place in reversed(range(length)):
            context = (where, length, found if found < 16 else 0)
            found = found << 1 | self.coder.bit(context, bool(wanted >> place & 1))
        return found - 1


def _picked(words: Sequence[str], index: int) -> str:
    if index >= len(words):
        raise Senseless
    return words[index]


def _oldest_with_all(document: Mapping[str, Any], book: Book) -> int:
    """The edition of the book that first had every fact, option and unit of the document; 0 for an empty one."""
    entries = {(entry.group, entry.name): entry for entry in book.entries}
    groups = [(group, content) for group, content in document.items() if isinstance(content, (list, dict))]
    things = [(group, thing) for group, things in groups for thing in (things if isinstance(things, list) else [things])]
    facts = [(group, name, value) for group, thing in things for name, value in thing.items()]
    try:
        return max((_edition_of(entries[group, name], value, book) for group, name, value in facts), default=0)
    except KeyError:
        raise Senseless from None


def _edition_of(entry: Entry, value: Any, book: Book) -> int:
    """Of a fact and of the words that it takes from the book."""
    words: list[tuple[str, str]] = []
    if entry.kind == NUMBER and value["unit"] not in ("", entry.unit):
        words = [(UNITS, value["unit"])]
    if entry.kind in (CHOICE, CHOICES):
        words = [(entry.path, word) for word in (value if isinstance(value, list) else [value])]
    return max(entry.edition, *(book.since[word] for word in words), 0)
