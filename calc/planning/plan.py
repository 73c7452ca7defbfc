"""The plan: in which windows loads run, cars charge and the wall refills, as a rig's document says it.

It is read whole or not at all: what is missing is told, fact by fact, and nothing of it is guessed.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from calc import units
from calc.check import Missing
from calc.clock import DAY, clock_at, minutes_of
from calc.facts import fact_at
from calc.facts.job import A_CAR, A_LOAD, DAYS, EVERY_DAY, THE_WALL, TYPED_HOURS
from calc.laws.inverter import SPLIT_PHASE
from calc.quantity import Quantity, given, smallest, step
from calc.rig import Known, Rig
from calc.units import W, h, one

# What must be known of the rig itself before a day can be foretold.
_ALWAYS = (
    "bank.chemistry", "bank.series", "bank.strings", "bank.capacity", "bank.energy", "bank.nominal_volts",
    "bank.highest_volts", "bank.resistance", "bank.charge_limit", "bank.health", "bank.reserve", "bank.mass",
    "bank.heater", "bank.heat_loss", "inverter.continuous", "inverter.system", "inverter.idle",
    "inverter.peak_efficiency", "inverter.cutoff", "now.charge", "now.cells", "plan.begins", "plan.coldest",
    "plan.warmest",
)  # fmt: skip
_OF_PANELS = (
    "panels.count", "panels.watts", "panels.tilt", "panels.facing", "panels.power_slope", "panels.controller_amps",
    "place.latitude", "place.longitude", "plan.utc_offset",
)  # fmt: skip
_OF_WALL = ("inverter.charger_efficiency", "inverter.charger_set")
_FACTS_OF = {A_LOAD: ("loads", "load", ("running_watts",)), A_CAR: ("cars", "car", ("charging_amps", "charging_volts"))}
# Where a plan is made of the rig's loads, they begin with the working day.
_MORNING = 8 * 60


@dataclass(frozen=True)
class Facts:
    """A rig's facts under the names that the working gives them. origin: whose they are, printed with each."""

    rig: Rig
    origin: str

    def number(self, symbol: str, path: str, label: str = "") -> Quantity:
        known = self.rig.facts[path]
        assert isinstance(known, Quantity), path
        return given(symbol, label or fact_at(path).label, known.shown_in(units.usual(known.unit)), self.origin)

    def text(self, path: str) -> str:
        known = self.rig.facts.get(path, "")
        return known if isinstance(known, str) else ""


@dataclass(frozen=True)
class Window:
    """One window. Minutes count from the midnight of its day; `ends` lies after `begins`, past midnight where it must.

    watts: while it runs; share: of the window that it runs; leg: A, B, both, or nothing where it is not known. Of an
    outlet to refill from: pattern and input current, or the most watts that it may draw.
    """

    place: int
    name: str
    what: str
    thing: str
    begins: int
    ends: int
    days: str
    leg: str = ""
    watts: Quantity | None = None
    share: Quantity | None = None
    amps: Quantity | None = None

    @property
    def when(self) -> str:
        return f"{clock_at(self.begins)} to {clock_at(self.ends)}, {self.days}"

    def spans(self, days: int) -> Iterator[tuple[int, int]]:
        """Its beginnings and ends in minutes after the first midnight; of every day also those that reach in."""
        on = range(-1, days + 1) if self.days == EVERY_DAY else (DAYS.index(self.days),)
        return ((day * DAY + self.begins, day * DAY + self.ends) for day in on)

    @property
    def is_taken(self) -> bool:
        """Whether it takes power; otherwise it refills."""
        return self.what != THE_WALL


@dataclass(frozen=True)
class Plan:
    """Windows, and the minute after midnight at which the first day begins: at a full ten minutes."""

    begins: int
    windows: tuple[Window, ...]


def missing(rig: Rig) -> list[Missing]:
    """What must be known before the plan can be worked, and is not."""
    unknown = [path for path in dict.fromkeys(_needed(rig)) if rig.facts.get(path) in (None, "")]
    told = [Missing(path, _label(rig, path), fact_at(path).help) for path in unknown if not path.endswith("#")]
    if not rig.count("windows"):
        told.append(Missing("windows", "Windows of the plan", "What runs when: loads, cars, an outlet to refill from"))
    return told + list(_lost(rig))


def _needed(rig: Rig) -> Iterator[str]:
    yield from _ALWAYS
    if rig.facts.get("inverter.system") == SPLIT_PHASE:
        yield "inverter.one_leg"
    if has_panels(rig):
        yield from _OF_PANELS
        if "plan.date" not in rig.facts:
            yield "now.month"
        if rig.facts.get("place.sun_from") == TYPED_HOURS:
            yield from ("place.poor_sun_hours", "place.sun_hours")
    for place in range(rig.count("windows")):
        yield from _needed_of_window(rig, f"windows.{place}")


def _needed_of_window(rig: Rig, at: str) -> Iterator[str]:
    yield from (f"{at}.{name}" for name in ("what", "begins", "ends", "days"))
    what = rig.facts.get(f"{at}.what")
    if what == THE_WALL:
        yield from _OF_WALL
        if f"{at}.watts" not in rig.facts:
            yield f"{at}.outlet"
            if f"{at}.amps" not in rig.facts:
                yield "inverter.input_limit"
    elif isinstance(what, str):
        group, name, facts = _FACTS_OF[what]
        yield f"{at}.{name}"
        index = rig.index_of(group, Facts(rig, "").text(f"{at}.{name}"))
        if index is not None:
            yield from (f"{group}.{index}.{fact}" for fact in facts)


def _lost(rig: Rig) -> Iterator[Missing]:
    """Windows that name a load or a car which the rig does not have."""
    for place in range(rig.count("windows")):
        for group, name, _ in _FACTS_OF.values():
            called = Facts(rig, "").text(f"windows.{place}.{name}")
            if called and rig.index_of(group, called) is None:
                yield Missing(f"windows.{place}.{name}", fact_at(f"windows.{name}").label, f"The rig has no “{called}”")


def _label(rig: Rig, path: str) -> str:
    """A fact's label, with the name of the thing of a list that it belongs to."""
    group, *place, _ = path.split(".")
    called = Facts(rig, "").text(f"{group}.{place[0]}.name") if place else ""
    return f"{fact_at(path).label}, {called}" if called else fact_at(path).label


def has_panels(rig: Rig) -> bool:
    """A rig that says nothing of panels is foretold without any: that is the safe side."""
    return any(path.startswith("panels.") for path in rig.facts)


# --- reading -----------------------------------------------------------------------------------------------------


def plan_of(facts: Facts) -> Plan:
    """The plan of a rig of which nothing is missing."""
    windows = tuple(_window(facts, place) for place in range(facts.rig.count("windows")))
    shared = tuple(_with_share(facts, window, windows) if window.is_taken else window for window in windows)
    return Plan(minutes_of(facts.text("plan.begins")) // 10 * 10, shared)


def _window(facts: Facts, place: int) -> Window:
    at = f"windows.{place}"
    begins, ends = (minutes_of(facts.text(f"{at}.{name}")) for name in ("begins", "ends"))
    what = facts.text(f"{at}.what")
    window = Window(
        place, facts.text(f"{at}.name") or f"window {place + 1}", what, facts.text(f"{at}.outlet"),
        begins, ends if ends > begins else ends + DAY, facts.text(f"{at}.days"),
    )  # fmt: skip
    if what == THE_WALL:
        return _wall(facts, window, at)
    group, name, _ = _FACTS_OF[what]
    thing = facts.text(f"{at}.{name}")
    index = facts.rig.index_of(group, thing)
    return replace(
        window, thing=thing, leg=_leg(facts, f"{group}.{index}"), watts=_watts(facts, window, f"{group}.{index}", thing)
    )


def _wall(facts: Facts, window: Window, at: str) -> Window:
    """The outlet's pattern and current; where it is none of those, the watts that may be drawn."""
    k = window.place + 1
    if f"{at}.watts" in facts.rig.facts:
        most = facts.number(f"P_W{k}", f"{at}.watts", f"Most it may draw, {window.name}")
        return replace(window, thing="", watts=most)
    path = f"{at}.amps" if f"{at}.amps" in facts.rig.facts else "inverter.input_limit"
    return replace(window, amps=facts.number(f"I_W{k}", path, f"Input current set, {window.name}"))


def _watts(facts: Facts, window: Window, at: str, thing: str) -> Quantity:
    k = window.place + 1
    if window.what == A_LOAD:
        return facts.number(f"P_L{k}", f"{at}.running_watts", f"Watts while it runs, {thing}")
    amps = facts.number(f"I_L{k}", f"{at}.charging_amps", f"Amps it is set to, {thing}")
    volts = given(f"V_L{k}", f"Volts it charges at, {thing}", nominal_volts(facts.text(f"{at}.charging_volts")), facts.origin)
    return step(f"P_L{k}", f"Watts while it charges, {thing}", volts * amps, W)


def nominal_volts(said: str) -> Quantity:
    """A choice like `240 V`, as a number."""
    return float(said.split()[0]) * units.V


def _leg(facts: Facts, at: str) -> str:
    """The leg that a load or a car hangs on: both for 240 V, else that of its outlet; nothing where it is not known."""
    if facts.text(f"{at}.volts") == "240 V" or facts.text(f"{at}.charging_volts") == "240 V":
        return "both"
    index = facts.rig.index_of("outlets", facts.text(f"{at}.outlet"))
    return "" if index is None else facts.text(f"outlets.{index}.leg")


def _with_share(facts: Facts, window: Window, others: tuple[Window, ...]) -> Window:
    """The share of its window that a load runs: its own hours, else those of its load in a day; else all of it.

    A load's hours in a day are shared by those of its windows that surely lie on one day.
    """
    k, at = window.place + 1, f"windows.{window.place}.hours"
    if at in facts.rig.facts:
        hours, lengths = facts.number(f"h_L{k}", at, f"Hours it runs in the window, {window.name}"), [window]
    else:
        path = f"loads.{facts.rig.index_of('loads', window.thing)}.hours"
        if window.what != A_LOAD or path not in facts.rig.facts:
            return replace(window, share=given(f"d_L{k}", f"Part of the window that it runs, {window.name}", 1 * one, "all of it"))
        hours = facts.number(f"h_L{k}", path, f"Hours in a day, {window.thing}")
        same = [other for other in others if (other.what, other.thing) == (window.what, window.thing)]
        lengths = [other for other in same if other.days in (EVERY_DAY, window.days)]
    length = sum(other.ends - other.begins for other in lengths) / 60
    long = given(f"l_L{k}", f"Length of its windows, {window.name}", length * h, "by the clock")
    share = step(f"d_L{k}", f"Part of the window that it runs, {window.name}", smallest(hours / long, 1 * one), one)
    return replace(window, share=share)


# --- a first plan ------------------------------------------------------------------------------------------------


def copied_from_loads(rig: Rig) -> Mapping[str, Known]:
    """Facts of a first plan: each load of the rig that runs some hours a day, in a window of its own, every day."""
    facts: dict[str, Known] = {}
    place = 0
    for index in range(rig.count("loads")):
        name, hours = rig.facts.get(f"loads.{index}.name"), rig.facts.get(f"loads.{index}.hours")
        if not isinstance(name, str) or not isinstance(hours, Quantity) or not hours.si:
            continue
        ends = _MORNING + math.ceil(hours.number_in(h)) * 60
        at = f"windows.{place}"
        facts |= {f"{at}.name": name, f"{at}.what": A_LOAD, f"{at}.load": name, f"{at}.days": EVERY_DAY}
        facts |= {f"{at}.begins": clock_at(_MORNING), f"{at}.ends": clock_at(ends)}
        place += 1
    return facts
