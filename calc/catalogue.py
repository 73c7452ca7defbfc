"""Finds the checks. The order of the chapters is the order of the job."""

from __future__ import annotations

import importlib
import inspect
import pkgutil
from dataclasses import dataclass
from functools import cache

from calc import checks
from calc.check import Check


@dataclass(frozen=True)
class Chapter:
    """A stage of the job, and what it is about in a line."""

    name: str
    about: str

    @property
    def folder(self) -> str:
        return self.name.replace(" ", "_")

    @property
    def address(self) -> str:
        return self.name.replace(" ", "-")


CHAPTERS = (
    Chapter("choose", "Parts that fit one another"),
    Chapter("wire", "Conductors for the current and the distance"),
    Chapter("protect", "Breakers, fuses, bonding"),
    Chapter("refill", "From an outlet, a generator or the sun"),
    Chapter("run", "Tools, welders and cars"),
    Chapter("roll", "Over rough ground, up ramps, behind a vehicle"),
    Chapter("shelter", "Heat, cold and rain"),
    Chapter("prove", "Measured against what was promised"),
    Chapter("hand over", "To the next person"),
)


@cache
def all_checks() -> tuple[type[Check], ...]:
    """Every check, in the order of the job."""
    return tuple(_check_in(chapter.folder, file) for chapter in CHAPTERS for file in _files_of(chapter))


@cache
def _files_of(chapter: Chapter) -> list[str]:
    place = [f"{root}/{chapter.folder}" for root in checks.__path__]
    return sorted(entry.name for entry in pkgutil.iter_modules(place))


@cache
def _check_in(folder: str, file: str) -> type[Check]:
    """The one check of a file."""
    module = importlib.import_module(f"calc.checks.{folder}.{file}")
    (check,) = (
        value
        for value in vars(module).values()
        if inspect.isclass(value) and issubclass(value, Check) and value.__module__ == module.__name__
    )
    return check


def checks_of(chapter: Chapter) -> list[type[Check]]:
    return [check for check in all_checks() if check.id.startswith(chapter.address + "/")]


class UnknownCheck(LookupError):
    """No check has this id."""


def check_called(name: str) -> type[Check]:
    """The check with this id, like `wire/wire-for-run`; its file is the only one that is imported."""
    for chapter in CHAPTERS:
        start, slash, question = name.partition("/")
        file = question.replace("-", "_")
        if start == chapter.address and slash and "_" not in question and file in _files_of(chapter):
            return _check_in(chapter.folder, file)
    raise UnknownCheck(f"There is no check called {name}. Run without a check to list them.")
