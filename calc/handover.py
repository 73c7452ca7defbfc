"""The hand-over sheet: what somebody must know who borrows the rig, each number from its facts or from the board's answers.

Nothing is worked here. What the board does not know is said to be not known, and never left out.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from calc.board import Row, board
from calc.check import GO, NEC, NO, NOT_KNOWN, Caution
from calc.drawing.one_line import one_line
from calc.facts import fact_at
from calc.filling import said, shown
from calc.inspection import faults_of_the_whole
from calc.printing import pair, printed
from calc.procedures import CAUTIONS, CHECKLISTS, EMERGENCY, HOW, Procedure
from calc.quantity import Condition, Quantity
from calc.rig import Rig, example_rig
from calc.wiring import Part, part, wiring

OUTLET, TOOL, CAR = "choose/outlet", "run/tool-on-outlet", "run/car-current"
UNKNOWN = "not known"
# The facts that a borrower must keep within, in the order in which they are met.
LIMITS = (
    "inverter.continuous",
    "inverter.surge",
    "inverter.surge_time",
    "bank.discharge_limit",
    "bank.charge_limit",
    "bank.highest_volts",
    "inverter.cutoff",
    "bank.reserve",
    "inlet.rating",
    "inverter.input_limit",
    "inverter.charger_set",
    "chassis.loaded_mass",
    "chassis.wheel_rating",
    "chassis.tongue_rating",
    "tow.rating",
    "tow.speed",
    "place.hottest",
    "place.coldest",
)


@dataclass(frozen=True)
class Outlet:
    """What may be plugged into one outlet."""

    name: str
    pattern: str
    leg: str
    for_hours: str
    for_a_while: str
    ground_fault: str
    say: str


@dataclass(frozen=True)
class Use:
    """A tool or a car of the rig's lists: whether it may be plugged in, where, and what to mind."""

    name: str
    where: str
    verdict: str
    say: str


@dataclass(frozen=True)
class Device:
    """A fuse or breaker: what it is, where it sits and what hangs on it."""

    name: str
    what: str
    where: str
    feeds: str


@dataclass(frozen=True)
class LimitGroup:
    """All limits that one question of the walk-round was held to: (what, its limits for the parts that were asked)."""

    title: str
    limits: tuple[tuple[str, tuple[str, ...]], ...]


@dataclass(frozen=True)
class Sheet:
    """The whole sheet. date and version are given by whoever prints it; faults are those of the walk-round, in words."""

    rig: str
    date: str
    version: str
    faults: tuple[str, ...]
    unanswered: int
    drawing: str
    outlets: tuple[Outlet, ...]
    one_leg: str
    tools: tuple[Use, ...]
    cars: tuple[Use, ...]
    limits: tuple[tuple[str, str], ...]
    limits_of_the_round: tuple[LimitGroup, ...]
    procedures: tuple[tuple[str, tuple[str, ...]], ...]
    cautions: tuple[Caution, ...]
    devices: tuple[Device, ...]
    loose: tuple[Part, ...]
    emergency: tuple[str, ...]
    checklists: tuple[tuple[str, tuple[str, ...]], ...]

    @property
    def outlet_rows(self) -> list[tuple[str, ...]]:
        """For a table: name, pattern, amps for hours, amps at most, leg, ground fault."""
        return [
            (found.name, found.pattern, found.for_hours, found.for_a_while, found.leg, found.ground_fault)
            for found in self.outlets
        ]

    @property
    def device_rows(self) -> list[tuple[str, ...]]:
        """For a table: name, what it is, where it sits, what it feeds."""
        return [(found.name, found.what, found.where, found.feeds) for found in self.devices]


def sheet(rig: Rig | None, rules: str = NEC, date: str = "", version: str = "") -> Sheet:
    """The sheet of a rig; without one, of the example."""
    whole = rig or example_rig()
    rows = board(whole, rules)
    return Sheet(
        whole.name,
        date,
        version,
        tuple(_faults(whole, rows)),
        sum(row.answer.verdict == NOT_KNOWN for row in rows),
        one_line(whole),
        tuple(_outlet(whole, row) for row in rows if row.check.id == OUTLET),
        _result(rows, "run/legs-and-neutral", "most_on_one_leg"),
        tuple(_use(whole, row, "loads") for row in rows if row.check.id == TOOL),
        tuple(_car(whole, row) for row in rows if row.check.id == CAR),
        tuple((fact_at(path).label, _limit(whole, path)) for path in LIMITS),
        tuple(limits_of_the_round(rows)),
        _told(whole, HOW),
        CAUTIONS,
        tuple(_devices(whole)),
        wiring(whole).loose,
        tuple(EMERGENCY.told(whole)),
        _told(whole, CHECKLISTS),
    )


def _told(rig: Rig, procedures: Iterable[Procedure]) -> tuple[tuple[str, tuple[str, ...]], ...]:
    return tuple((procedure.title, tuple(procedure.told(rig))) for procedure in procedures)


def _faults(rig: Rig, rows: Iterable[Row]) -> Iterator[str]:
    """Whatever the walk-round finds wrong, for the head of the sheet: such a rig is not lent."""
    found = [(fault.title, fault.subject, fault.say) for fault in faults_of_the_whole(rig)]
    found += [(row.check.title, row.subject, row.answer.say) for row in rows if row.answer.verdict == NO]
    for title, subject, say in found:
        yield f"{title}, {subject}: {say}" if subject else f"{title}: {say}"


# --- what may be plugged in ----------------------------------------------------------------------------------------


def _outlet(rig: Rig, row: Row) -> Outlet:
    place = f"outlets.{row.asked.subject}"
    known = row.answer.verdict != NOT_KNOWN
    hours, while_ = (_shown(row.answer.results, name) if known else UNKNOWN for name in ("for_hours", "for_a_while"))
    pattern, leg, ground_fault = (_fact(rig, f"{place}.{name}") for name in ("configuration", "leg", "ground_fault"))
    return Outlet(row.subject or UNKNOWN, pattern, leg, hours, while_, ground_fault, row.answer.say)


def _use(rig: Rig, row: Row, group: str) -> Use:
    where = _fact(rig, f"{group}.{row.asked.subject}.outlet")
    return Use(row.subject or UNKNOWN, where, row.answer.verdict, row.answer.say)


def _car(rig: Rig, row: Row) -> Use:
    """Whatever the car is set to now, the sheet says what it is to be set to."""
    used = _use(rig, row, "cars")
    amps = row.answer.results.get("amps_to_set")
    if row.answer.verdict == NOT_KNOWN or not isinstance(amps, Quantity):
        return Use(used.name, used.where, NOT_KNOWN, f"What to set it to is not known. {row.answer.say}")
    if amps.si <= 0:
        return Use(used.name, used.where, NO, row.answer.say)
    return Use(used.name, used.where, GO, f"Set the car to {printed(amps)}")


def _fact(rig: Rig, path: str) -> str:
    known = rig.facts.get(path)
    return shown(known) if known is not None else UNKNOWN


def _shown(results: Mapping[str, object], name: str) -> str:
    result = results.get(name)
    return printed(result) if isinstance(result, Quantity) else UNKNOWN


def _result(rows: list[Row], check: str, name: str) -> str:
    return next((_shown(row.answer.results, name) for row in rows if row.check.id == check), UNKNOWN)


# --- limits and devices --------------------------------------------------------------------------------------------


def _limit(rig: Rig, path: str) -> str:
    """A limit, or a line to write it on."""
    known = rig.facts.get(path)
    return f"______ ({UNKNOWN})" if known is None else shown(known)


def limits_of_the_round(rows: Iterable[Row]) -> list[LimitGroup]:
    """Every number that the answers of the board were held to, by question; what is alike is said where it is first met."""
    groups: dict[str, dict[str, list[str]]] = {}
    met: set[tuple[str, str]] = set()
    for row in rows:
        for requirement in row.answer.requirements:
            limit = limit_of(requirement.condition)
            if limit is not None and (requirement.label, limit) not in met:
                met.add((requirement.label, limit))
                groups.setdefault(row.check.title, {}).setdefault(requirement.label, []).append(limit)
    return [
        LimitGroup(title, tuple((label, tuple(limits)) for label, limits in found.items()))
        for title, found in groups.items()
    ]


def limit_of(condition: object) -> str | None:
    """The side of a comparison that is the limit, as it is printed, "≤ 20 A"; None where no numbers are compared."""
    if not isinstance(condition, Condition):
        return None
    return f"{condition.sign} {pair(condition.left, condition.right)[1]}"


def _devices(rig: Rig) -> Iterator[Device]:
    trees = wiring(rig)
    fed: dict[str, list[str]] = {}
    for feeder, key in sorted(trees.edges()):
        fed.setdefault(feeder, []).append(part(rig, key).name)
    for index in range(rig.count("devices")):
        key = f"devices.{index}"
        found = part(rig, key)
        what = ", ".join((found.kind, *found.details))
        yield Device(
            found.name, what, said(rig, f"{key}.where"), ", ".join(fed.get(key, ())) or "nothing that is known"
        )
