"""Where a load has its middle, and what it presses on: moments about an axle."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import reduce
from operator import add

from calc.quantity import Quantity, need, step
from calc.sources import OWN_DERIVATION
from calc.units import kg, kg_m, mm


@dataclass(frozen=True)
class Part:
    """A thing on the rig: its mass and where its middle is, ahead of the axle, left of the middle line, above ground."""

    mass: Quantity
    ahead: Quantity
    aside: Quantity
    height: Quantity


@dataclass(frozen=True)
class Whole:
    """All parts together: the mass and its centre of gravity."""

    mass: Quantity
    ahead: Quantity
    aside: Quantity
    height: Quantity


def together(parts: Sequence[Part]) -> Whole:
    """The mass of all parts [kg] and the middle of their weight [m], by moments."""
    mass = step("M", "Mass of it all", _sum([part.mass for part in parts]), kg)

    def middle(symbol: str, label: str, arms: Sequence[Quantity]) -> Quantity:
        moment = _moment(symbol, [part.mass for part in parts], arms)
        return step(symbol, label, moment / mass, mm, OWN_DERIVATION)

    return Whole(
        mass,
        middle("x", "Centre of gravity ahead of the axle", [part.ahead for part in parts]),
        middle("y", "Centre of gravity left of the middle line", [part.aside for part in parts]),
        middle("z", "Height of the centre of gravity", [part.height for part in parts]),
    )


def _sum(values: Sequence[Quantity]) -> Quantity:
    return reduce(add, values)


def _moment(axis: str, masses: Sequence[Quantity], arms: Sequence[Quantity]) -> Quantity:
    """Masses times arms. What lies on the other side is summed by itself, so that the difference prints well."""
    for_it = [mass * arm for mass, arm in zip(masses, arms, strict=True) if arm.si >= 0]
    against = [mass * -arm for mass, arm in zip(masses, arms, strict=True) if arm.si < 0]
    if not for_it or not against:
        return _sum(for_it) if for_it else -_sum(against)
    here = step(f"T_{axis}", f"Moments on the side counted for {axis}", _sum(for_it), kg_m)
    there = step(f"T_−{axis}", f"Moments on the other side, {axis} below zero", _sum(against), kg_m)
    return here - there


def carried_ahead(symbol: str, label: str, whole: Whole, length: Quantity) -> Quantity:
    """What a support `length` ahead of the axle carries [kg]; below zero where it must hold down."""
    return step(symbol, label, whole.mass * whole.ahead / length, kg, OWN_DERIVATION)


def heavier_wheel(symbol: str, label: str, axle: Quantity, aside: Quantity, track: Quantity) -> Quantity:
    """The load on the wheel of the heavy side of an axle [kg]; `aside` is how far the weight is off the middle."""
    return need(symbol, label, axle * (track / 2 + aside) / track, kg, OWN_DERIVATION)


def lighter_wheel(symbol: str, label: str, axle: Quantity, aside: Quantity, track: Quantity) -> Quantity:
    """The load on the wheel of the light side of an axle [kg]."""
    return step(symbol, label, axle * (track / 2 - aside) / track, kg, OWN_DERIVATION, rounds=-1)
