"""A wire as it lies between its terminals: what it carries, and which breaker may stand before it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property

from calc.check import Requirement, require
from calc.laws import conductor as us
from calc.laws import conductor_iec as iec
from calc.laws.protection import breaker_before
from calc.quantity import Condition, Quantity, largest


def too_hot(stands: Condition, insulation: str) -> Requirement:
    """The insulation against the air round it, where it may not be used at all."""
    return require(
        stands,
        label="Heat",
        exact=True,
        yes="The insulation stands the air.",
        no=f"{insulation} insulation may not be used in air of {stands.left}: {{right}} is the most.",
    )


@dataclass(frozen=True)
class LaidWire:
    """By the US rules: lugs, insulation and breaker are tested each by itself."""

    size: str
    metal: str
    lay: str
    insulation: str
    terminals: str
    ambient: Quantity
    carrying: Quantity

    @cached_property
    def stands_heat(self) -> Condition:
        return us.stands_heat(self.insulation, self.ambient)

    @cached_property
    def lugs(self) -> Quantity:
        return us.terminal_ampacity(self.size, self.metal, self.insulation, self.terminals)

    @cached_property
    def corrected(self) -> Quantity:
        return us.corrected_ampacity(self.size, self.metal, self.lay, self.insulation, self.ambient, self.carrying)

    @cached_property
    def usable(self) -> Quantity:
        return us.usable_ampacity(self.lugs, self.corrected)

    def of_size(self, size: str) -> LaidWire:
        return replace(self, size=size)

    def _listed(self) -> Quantity:
        """What the table says of the insulation, heat and crowding aside [A]."""
        return us.listed_ampacity(self.size, self.metal, self.lay, self.insulation)

    def careless(self, wanted: Quantity, load: Quantity) -> tuple[str, ...]:
        """The wrong numbers that a hurried reader takes from the tables, each where it differs here."""
        own = us.terminal_ampacity(self.size, self.metal, self.insulation, self.insulation)
        told = []
        if (own > self.lugs).holds:
            told.append(
                f"The {self.insulation} column says {own} for {self.size}; the {self.terminals} lugs allow {self.lugs}. That figure only serves as the start for heat and crowding."
            )
        if (wanted > load).holds and (self.corrected < self._listed()).holds:
            share = self.corrected / self._listed()
            told.append(
                f"With 125 % laid on top of heat and crowding the table would have to hold {wanted / share:up}; the code asks for the greater of the two alone, {largest(wanted, load / share):up}."
            )
        return tuple(told)

    def carries(self, wanted: Quantity, load: Quantity) -> list[Requirement]:
        """wanted: with 125 % of what lasts, held against the lugs; load: as it flows, held against the insulation."""
        return [
            require(
                wanted <= self.lugs,
                label="Lugs",
                yes="The lugs carry it.",
                tight=f"{self.size} carries it, but its {self.terminals} lugs are asked for {{left}} of their {{right}}.",
                no=f"{self.size} lets its {self.terminals} lugs carry {{right}}; {{left}} is asked of them.",
            ),
            require(
                load <= self.corrected,
                label="Insulation",
                yes="The insulation stands it.",
                tight=f"{self.size} carries it, with {{left}} of the {{right}} that it stands as laid.",
                no=f"{self.size} as it is laid carries {{right}}, and the load is {{left}}.",
            ),
        ]

    def largest_breaker(self, feeds_several: bool) -> Quantity:
        """The largest breaker that may stand before it [A], motors and welders aside."""
        return breaker_before(self.usable, self.size, self.metal, feeds_several)

    def thinnest_that_serves(self, wanted: Quantity, load: Quantity, breaker: Quantity, feeds_several: bool) -> str:
        """The thinnest size that this load and breaker may have, volts aside: growing beyond it grows the ground wire."""
        for size in us.sizes(self.metal, self.lay):
            wire = self.of_size(size)
            carries = (wanted <= wire.lugs).holds and (load <= wire.corrected).holds
            if carries and (breaker <= wire.largest_breaker(feeds_several)).holds:
                return size
        return self.size

    def protected_by(self, breaker: Quantity, largest: Quantity) -> Requirement:
        return require(
            breaker <= largest,
            comfortable=breaker <= self.usable,
            label="Breaker protects the wire",
            yes="The breaker protects the wire.",
            tight=f"The {{left}} breaker is the next size above what {self.size} carries as laid: allowed for one load, with nothing to spare.",
            no=f"The {{left}} breaker is too large for {self.size} {self.metal}: at most {{right}}. The wire would burn before it opens.",
        )


@dataclass(frozen=True)
class LaidWireIEC:
    """By the international rules: factors multiply, and load, device and wire stand in one line."""

    size: str
    metal: str
    method: str
    loaded: str
    insulation: str
    terminals: str
    ambient: Quantity
    circuits: Quantity

    @cached_property
    def stands_heat(self) -> Condition:
        return iec.stands_heat(self.insulation, self.ambient)

    @cached_property
    def usable(self) -> Quantity:
        as_laid = iec.capacity(
            self.size, self.metal, self.insulation, self.method, self.loaded, self.ambient, self.circuits
        )
        return iec.usable(as_laid, self.size, self.metal, self.method, self.loaded, self.terminals)

    def of_size(self, size: str) -> LaidWireIEC:
        return replace(self, size=size)

    def carries(self, load: Quantity) -> Requirement:
        return require(
            load <= self.usable,
            label="Wire",
            yes="The wire carries it.",
            tight=f"{self.size} carries it, with {{left}} of the {{right}} that it stands as laid.",
            no=f"{self.size} as laid carries {{right}}; the load is {{left}}.",
        )

    def largest_device(self, device: str, rated: Quantity) -> Quantity:
        """The largest rating of this kind of device that protects it [A]."""
        return iec.capacity_for_device(self.usable, device, rated)

    def protected_by(self, breaker: Quantity, largest: Quantity, device: str) -> Requirement:
        return require(
            breaker <= largest,
            exact=True,
            label="Device protects the wire",
            yes="The device protects the wire.",
            no=f"The {{left}} {device} is too large for {self.size} as laid: at most {{right}}.",
        )
