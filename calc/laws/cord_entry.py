"""A cord where it enters a box: how thick it is by its make, and what a gland of a thread clamps."""

from __future__ import annotations

from dataclasses import dataclass

from calc.check import NEC, Requirement, require
from calc.facts.cords import (
    BY_CLAMP,
    BY_GLAND,
    BY_KNOT,
    MADE_FOR,
    OPEN,
    PAIR,
    PLAIN,
    RANGE,
    THREAD,
)
from calc.quantity import Quantity, Statement, alternative, constant, limit, need
from calc.sources import COMMON_PRACTICE, IEC_60335, IEC_60364_5_52, IEC_60529, NEC_2023, OWN_DERIVATION, UL_62
from calc.tables import table
from calc.units import inch, mm, one

# Round cores laid together, over one core: the circle that just holds 2, 3, 4 or 5 equal circles.
_LAID = {"2": 2.0, "3": 2.1547, "4": 2.4142, "5": 2.7013}


@dataclass(frozen=True)
class Span:
    """From the least to the most that a diameter may be, or a gland may clamp [m]."""

    least: Quantity
    most: Quantity


def by_make(hard_use: str, size: str, cores: str) -> Span:
    """A round cord of type S or SJ from the thicknesses of its walls: laid-up cores under a jacket.

    The least has the thinnest walls and nothing between the cores; fillers and tolerance add to it.
    """
    make = table("cord_make")
    conductor = make.read("d_c", f"Conductor of {size}", size, "conductor", inch)
    wall = make.read("t_i", "Insulation of a core", size, f"insulation {hard_use}", inch)
    jacket = make.read("t_j", "Jacket", size, f"jacket {hard_use}", inch)
    laid = constant("k_l", f"Width of {cores} round cores laid together, over one", _LAID[cores] * one, OWN_DERIVATION)
    bare = laid * (conductor + 2 * wall) + 2 * jacket
    least = limit("d_1", "Cord, at its thinnest", bare, inch, UL_62)
    over = constant("k_o", "At its thickest over that, with fillers and tolerance", 1.12 * one, COMMON_PRACTICE)
    return Span(least, need("d_2", "Cord, at its thickest", over * least, inch))


def by_standard(kind: str, size: str, cores: str) -> Span:
    """A harmonized round cord: the limits of its mean diameter, read. OutsideValidity for one that is not made."""
    limits, row = table("cord_diameter_iec"), f"{cores} × {size}"
    least = limits.read("d_1", "Cord, at its thinnest", row, f"{kind} least", mm)
    return Span(least, limits.read("d_2", "Cord, at its thickest", row, f"{kind} most", mm))


def measured(diameter: Quantity) -> Span:
    """A cord that was measured with a caliper."""
    same = "measured with a caliper"
    return Span(
        alternative("d_1", "Cord, at its thinnest", diameter, same, mm),
        alternative("d_2", "Cord, at its thickest", diameter, same, mm),
    )


def by_thread(thread: str) -> tuple[Span, Span]:
    """What every gland of this thread surely clamps, and what one of some kind may clamp."""
    ranges = table("gland_range")
    sure, perhaps = (
        Span(
            ranges.read(f"{mark}_1", f"{thread}: least that {who} clamp", thread, f"{column} least", mm),
            ranges.read(f"{mark}_2", f"{thread}: most that {who} clamp", thread, f"{column} most", mm),
        )
        for mark, column, who in (("g", "surely", "all glands"), ("G", "perhaps", "some glands"))
    )
    return sure, perhaps


def pull_is_taken(rules: str, pull: str, entry: str) -> Requirement:
    """A knot is a way the US code names; elsewhere it is a makeshift."""
    entry_holds = entry in (RANGE, THREAD, MADE_FOR)
    held = pull == BY_CLAMP or (pull == BY_GLAND and entry_holds) or (pull == BY_KNOT and rules == NEC)
    source = NEC_2023.at("400.14") if rules == NEC else IEC_60335.at("25.15, 25.16: no makeshift such as a knot")
    return require(
        Statement(f"A pull is taken by {pull}", held, source),
        label="Pull",
        yes="A pull on the cord does not reach the terminals.",
        no="A pull on the cord reaches the terminals: the ground, cut shortest, comes off first.",
    )


def strands_are_held(rules: str, terminal: str) -> Requirement:
    """Whether the terminal is made for the cord's fine strands."""
    source = (
        NEC_2023.at("110.14: finer than Class B or C only where identified for it")
        if rules == NEC
        else IEC_60364_5_52.at("526.9")
    )
    return require(
        Statement(f"Its strands end in {terminal}", terminal != PLAIN, source),
        label="Strands",
        yes="The terminal is made for fine strand.",
        no="Fine strand under a terminal not marked for it spreads and works loose; it heats until something burns.",
    )


def wires_in_each(rules: str, shared: str) -> Requirement:
    """Whether a terminal holds more wires than it is marked for."""
    source = NEC_2023.at("110.14(A)") if rules == NEC else IEC_60364_5_52.at("526.2")
    return require(
        Statement(f"Wires in each terminal: {shared}", shared != PAIR, source),
        label="Wires together",
        yes="No terminal holds more than it is marked for.",
        no="Two wires under a terminal for one: the thinner is not gripped.",
    )


def no_hole_is_open(rules: str, unused: str) -> Requirement:
    """Whether a hole of the box that nothing uses is open."""
    source = NEC_2023.at("110.12(A)") if rules == NEC else IEC_60529
    return require(
        Statement(f"Holes not used: {unused}", unused != OPEN, source),
        label="Holes",
        yes="No hole is left open.",
        no="A hole is open: fingers, water, mice and sparks go through it, and the box has no rating left.",
    )
