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
    found: list[type[Check]] = []
    for chapter in CHAPTERS:
        place = [f"{root}/{chapter.folder}" for root in checks.__path__]
        for file in sorted(entry.name for entry in pkgutil.iter_modules(place)):
            module = importlib.import_module(f"calc.checks.{chapter.folder}.{file}")
            found += [
                value
                for value in vars(module).values()
                if inspect.isclass(value) and issubclass(value, Check) and value.__module__ == module.__name__
            ]
    return tuple(found)


def checks_of(chapter: Chapter) -> list[type[Check]]:
    return [check for check in all_checks() if check.id.startswith(chapter.address + "/")]


class UnknownCheck(LookupError):
    """No check has this id."""


def check_called(name: str) -> type[Check]:
    """The check with this id, like `wire/wire-for-run`."""
    for check in all_checks():
        if check.id == name:
            return check
    raise UnknownCheck(f"There is no check called {name}. Run without a check to list them.")
