"""What a first visit costs on the wire, file by file."""

from __future__ import annotations

from dataclasses import dataclass

CAP = 6_400_000


class TooHeavy(Exception):
    """The site costs more on the wire than it may."""


@dataclass(frozen=True)
class Entry:
    name: str
    raw: int
    wire: int


def total(entries: list[Entry]) -> int:
    return sum(entry.wire for entry in entries)


def lines(entries: list[Entry], shown: int = 8) -> list[str]:
    """The heaviest files one by one, the rest in a sum."""
    heaviest = sorted(entries, key=lambda entry: -entry.wire)
    rest = heaviest[shown:]
    rows = [*heaviest[:shown], Entry(f"{len(rest)} smaller files", sum(e.raw for e in rest), total(rest)), Entry("first visit, all of it", sum(e.raw for e in entries), total(entries))]
    return [f"{'on the wire, gzip':>20} {'unpacked':>12}", *(f"{e.wire:>20,} {e.raw:>12,}  {e.name}" for e in rows)]


def hold_to_cap(entries: list[Entry]) -> None:
    if total(entries) > CAP:
        raise TooHeavy(f"a first visit takes {total(entries):,} bytes, and may take {CAP:,}")
