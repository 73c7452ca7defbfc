"""What can be known about a rig: every fact with its unit, its range and where on the real thing to read it.

Every fact is optional. Groups whose name ends in [] hold a list of things of one kind, each with a name of its own.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from calc import units as u
from calc.fact import Fact as Fact
from calc.facts import bank_and_inverter, body, filling, job, loads, wiring
from calc.measurable import MEASURABLE, READING, STANDS_FOR

FACTS: Mapping[str, Mapping[str, Fact]] = {
    "bank": bank_and_inverter.BANK,
    "inverter": bank_and_inverter.INVERTER,
    "precharge": bank_and_inverter.PRECHARGE,
    "inlet": filling.INLET,
    "outlets[]": wiring.OUTLET,
    "wiring": wiring.WIRING,
    "cables[]": wiring.CABLE,
    "devices[]": wiring.DEVICE,
    "panels": filling.PANELS,
    "generator": filling.GENERATOR,
    "box": body.BOX,
    "chassis": body.CHASSIS,
    "tow": body.TOW,
    "tie": filling.TIE,
    "second_bank": filling.SECOND_BANK,
    "loads[]": loads.LOAD,
    "cars[]": loads.CAR,
    "parts[]": body.PART,
    "place": job.PLACE,
    "work": job.WORK,
    "prices": job.PRICES,
    "now": job.NOW,
    "plan": job.PLAN,
    "windows[]": job.WINDOW,
    "readings[]": READING,
}


@dataclass(frozen=True)
class WorkedOut:
    """A fact that no rig holds, because it follows from others: their product, or the largest of what there is."""

    fact: Fact
    times: tuple[str, ...] = ()
    largest: tuple[str, ...] = ()

    @property
    def rests_on(self) -> tuple[str, ...]:
        return self.times or self.largest


WORKED_OUT: Mapping[str, WorkedOut] = {
    "bank.whole_capacity": WorkedOut(
        Fact("Capacity of the whole bank", "On the plates: Ah, of all its strings together", 1 * u.Ah, 20_000 * u.Ah),
        times=("bank.capacity", "bank.strings"),
    ),
    "bank.whole_discharge": WorkedOut(
        Fact("Most current out of the whole bank", "Continuous discharge, all strings together", 1 * u.A, 10_000 * u.A),
        times=("bank.discharge_limit", "bank.strings"),
    ),
    "bank.whole_charge": WorkedOut(
        Fact("Most current into the whole bank", "Continuous charge, all strings together", 1 * u.A, 10_000 * u.A),
        times=("bank.charge_limit", "bank.strings"),
    ),
    "rig.largest_breaker": WorkedOut(
        Fact("Largest breaker on the ac side", "Of the outlets, or of the outlet that feeds it", 10 * u.A, 300 * u.A),
        largest=("outlets.breaker", "inlet.breaker"),
    ),
}


def paths_behind(path: str) -> tuple[str, ...]:
    """The facts that a rig holds for a fact: itself, or those from which it follows."""
    return WORKED_OUT[path].rests_on if path in WORKED_OUT else (path,)


# What a person calls each part of a rig, and one thing of each list.
TITLES = {
    "bank": "Battery bank",
    "inverter": "Inverter and charger",
    "precharge": "Precharge and contactor",
    "inlet": "Inlet",
    "outlets": "Outlets",
    "wiring": "Wiring behind the outlets",
    "cables": "Cables and cords",
    "devices": "Breakers and fuses",
    "panels": "Panels",
    "generator": "Generator",
    "box": "Box around the inverter",
    "chassis": "Chassis and wheels",
    "tow": "What tows it",
    "tie": "Tie to another bank",
    "second_bank": "The other bank",
    "loads": "Tools and other loads",
    "cars": "Cars it charges",
    "parts": "Parts, where they sit",
    "place": "Where and how it is used",
    "work": "Work it has to do",
    "prices": "Prices",
    "now": "As it stands now",
    "plan": "The day's plan",
    "windows": "Times of the day's plan",
}


ONE_OF = {
    "outlets": "outlet",
    "cables": "cable",
    "devices": "breaker or fuse",
    "loads": "load",
    "cars": "car",
    "parts": "part",
    "windows": "time",
}


def fact_at(path: str) -> Fact:
    """The fact at `bank.energy`, `loads.hours` (of whichever load) or `loads.0.hours` (of the first)."""
    if path in WORKED_OUT:
        return WORKED_OUT[path].fact
    group, *_, name = path.split(".")
    try:
        return (FACTS.get(group) or FACTS[f"{group}[]"])[name]
    except KeyError:
        raise LookupError(f"No rig has a fact called {path}.") from None


def measured(what: str) -> Fact:
    """What a reading of this kind may be: a thing to be measured, or the fact whose place it takes."""
    return MEASURABLE[what] if what in MEASURABLE else fact_at(STANDS_FOR[what])
