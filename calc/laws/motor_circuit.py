"""The device before a motor's or a welder's own circuit: it catches short circuits, and may be larger than the wire.

Overload is kept from the wire in another way: by the motor's overload protection, by the welder's duty.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from calc.check import Requirement, require
from calc.facts.wiring import INVERSE_TIME, NO_DELAY, TIME_DELAY
from calc.laws.protection import NEC_BREAKERS, NEC_FUSES, standard_rating_down, standard_rating_up
from calc.quantity import Quantity, alternative, choose, constant, largest, limit, need, smallest, step
from calc.sources import NEC_2023
from calc.tables import table
from calc.units import A, one, percent

BREAKER, DELAYED, PLAIN = INVERSE_TIME, TIME_DELAY, NO_DELAY
DEVICES = {BREAKER: NEC_BREAKERS, DELAYED: NEC_FUSES, PLAIN: NEC_FUSES}
ONE_PHASE, DIRECT = "single-phase", "direct current"

_OVER_TABLE = NEC_2023.at("430.52(C)(1)(b)", "read in a public transcription of the 2008 text, its Exception No. 2")


def full_load_current(size: str, column: str) -> Quantity:
    """The current by which wires and breakers of a motor are chosen [A], by horsepower and the table's volts."""
    return table("motor_current").read("I_t", f"Table current of a {size} hp motor at {column}", size, column)


def conductor(current: Quantity) -> Quantity:
    """What the wire of one motor must carry [A]: 125 % of the table's current, heat and crowding counted in."""
    factor = constant("k_w", "A motor's wire is made for", 125 * percent, NEC_2023.at("430.22"))
    return need("I_wire", "Ampacity that the motor's wire needs", factor * current, A)


def least_device(current: Quantity, device: str) -> Quantity:
    """The smallest standard device that carries the motor for long [A]."""
    factor = constant(
        "k_110", "The device of a motor carries at least", 115 * percent, NEC_2023.at("430.58, 430.110(A)")
    )
    asked = need("I_run", "Current that the device must carry for long", factor * current, A)
    rating = standard_rating_up(asked, DEVICES[device])
    return step("I_Bmin", "Smallest standard device for the motor", rating, A, NEC_2023.at("240.6(A)"))


def motor_breaker(current: Quantity, motor: str = ONE_PHASE, device: str = BREAKER) -> Quantity:
    """The largest device before a motor's own circuit [A]: of its table current, and the next standard size up."""
    share = table("motor_protection").read("k_m", f"Allowed before a motor: {device}", motor, device)
    return step(
        "I_max",
        f"Largest {device} for a motor of this current",
        standard_rating_up(share * current, DEVICES[device]),
        A,
        NEC_2023.at("430.52(C)(1)(a)"),
    )


def motor_ceiling(current: Quantity, device: str, by_table: Quantity) -> Quantity:
    """The largest device at all [A], where the one by the table opens while the motor starts; no size up from here."""
    hundred = constant("I_100", "Motors up to here may have four times", 100 * A, _OVER_TABLE)
    four = constant("k_400", "Never more than", 400 * percent, _OVER_TABLE)
    three = constant("k_300", "Never more than, for a larger motor", 300 * percent, _OVER_TABLE)
    if device == DELAYED:
        most = constant("k_top", "Time-delay fuse, never more than", 225 * percent, _OVER_TABLE)
    else:
        most = choose(
            "k_top",
            "Never more than",
            (current <= hundred, four, "a motor of 100 A or less"),
            (three, "a motor of more than 100 A"),
            unit=percent,
        )
    listed = standard_rating_down(largest(by_table, most * current), DEVICES[device])
    return limit("I_top", "Largest where a smaller one opens at the start", listed, A, _OVER_TABLE)


@dataclass(frozen=True)
class MotorCircuit:
    """One motor's own circuit, by the current of the code's table: its wire, and the device that catches its shorts."""

    current: Quantity
    motor: str
    device: str

    @cached_property
    def wire_needed(self) -> Quantity:
        return conductor(self.current)

    @cached_property
    def least(self) -> Quantity:
        return least_device(self.current, self.device)

    @cached_property
    def most(self) -> Quantity:
        return motor_breaker(self.current, self.motor, self.device)

    @cached_property
    def top(self) -> Quantity:
        return motor_ceiling(self.current, self.device, self.most)

    def wired(self, usable: Quantity, size: str) -> Requirement:
        return require(
            self.wire_needed <= usable,
            exact=True,
            label="Wire",
            yes="The wire is made for the motor.",
            no=f"A motor of this current needs a wire for {{left}}; {size} as laid carries {{right}}.",
        )

    def catches_shorts(self, rating: Quantity) -> Requirement:
        return require(
            rating <= self.top,
            comfortable=rating <= self.most,
            label="Short circuits of a motor",
            yes="It is allowed before this motor.",
            tight=f"{{left}} is allowed only where {self.most} opens while the motor starts.",
            no="{left} is too large before this motor: {right} is the most, even where it starts hard.",
        )


def overload_setting(plate: Quantity, strong: bool) -> Quantity:
    """What the motor's own overload protection may be set to at most [A], of the amps on its plate."""
    place = NEC_2023.at("430.32(A)(1)", "read in a public transcription of the 2008 text")
    marked = constant("k_sf", "Service factor 1.15 or more, or a rise of 40 °C or less", 125 * percent, place)
    others = constant("k_o", "All other motors", 115 * percent, place)
    because = "its plate says so" if strong else "its plate does not say more"
    factor = alternative(
        "k_ol", "Overload protection, of the plate's amps", marked if strong else others, because, percent
    )
    return limit("I_ol", "Overload protection set to at most", factor * plate, A)


def welder_breaker(largest_current: Quantity, carries: Quantity) -> Quantity:
    """The largest device before a welder [A]: twice the lower of its largest current and its wire, next size up."""
    factor = constant(
        "k_B", "Breaker before a welder, of current and of ampacity", 2 * one, NEC_2023.at("630.12(A), (B)")
    )
    most = limit("I_200", "Twice the lower of machine and wire", factor * smallest(largest_current, carries), A)
    rating = standard_rating_up(most, NEC_BREAKERS)
    return step("I_Bmax", "Largest breaker before it, the next standard size", rating, A, NEC_2023.at("630.12"))


def welder_wired(effective: Quantity, usable: Quantity, size: str) -> Requirement:
    """The current that heats a welder's wire, held against what the wire carries as laid."""
    return require(
        effective <= usable,
        label="Wire",
        yes="The wire carries the welder.",
        tight=f"{{left}} heat the wire; {size} as laid carries {{right}}.",
        no=f"{{left}} heat the wire; {size} as laid carries {{right}}.",
    )


def catches_shorts_of_a_welder(rating: Quantity, most: Quantity) -> Requirement:
    """The device before a welder, held against the largest that the code allows there."""
    return require(
        rating <= most,
        exact=True,
        label="Short circuits of a welder",
        yes="It is allowed before this welder and wire.",
        no="{left} is too large before this welder and wire: {right} is the most.",
    )


def conductor_of_welders(carries: Quantity) -> Quantity:
    """The largest device before a wire that feeds welders alone [A]: twice its ampacity, next size up."""
    factor = constant("k_w2", "Breaker before a welders' wire, of its ampacity", 2 * one, NEC_2023.at("630.12(B)"))
    most = limit("I_200", "Twice what the wire carries", factor * carries, A)
    rating = standard_rating_up(most, NEC_BREAKERS)
    return step("I_Bmax", "Largest breaker before the wire, the next standard size", rating, A, NEC_2023.at("630.12"))


def larger_than_the_wire(size: str, most: Quantity, other: Quantity, of_welder: bool) -> tuple[str, ...]:
    """Name the smaller number that the rule for other circuits gives, which a careful reader would expect."""
    if (most <= other).holds:
        return ()
    rule, keeps = (
        ("630.12", "its duty keeps the wire cool")
        if of_welder
        else ("430.52", "the motor's overload protection keeps the wire cool")
    )
    return (
        f"Before other loads {size} may have {other} at most. Here {most} is allowed by NFPA 70, {rule}: the "
        f"breaker only catches short circuits, and {keeps}.",
    )
