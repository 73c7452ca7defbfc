"""A dead short at a battery: how much, how fast it rises, and what it lets through until it is cleared."""

from __future__ import annotations

from calc.quantity import Quantity, choose, constant, exponential, largest, need, step
from calc.sources import OWN_DERIVATION
from calc.units import A, A2s, mohm, one, s


def resistance_of_cells(cell: Quantity, series: Quantity, strings: Quantity, leads: Quantity) -> Quantity:
    """What is in the way of a short [mΩ]: cells in series, strings side by side, links and leads."""
    return step("R_sc", "Resistance in the way of a short", series * cell / strings + leads, mohm, OWN_DERIVATION)


def short_circuit(volts: Quantity, resistance: Quantity) -> Quantity:
    """The steady current of a dead short [A]."""
    return need("I_k", "Short-circuit current", volts / resistance, A)


def resistance_of_short(volts: Quantity, short: Quantity) -> Quantity:
    """The resistance that belongs to a stated short-circuit current [mΩ]."""
    return step("R_sc", "Resistance in the way of a short", volts / short, mohm)


def through_one_string(short: Quantity, strings: Quantity) -> Quantity:
    """What may flow through the fuse of one string [A].

    A short after the bus bar draws the string's own share; one in the string itself draws the share of all others.
    """
    return need(
        "I_str",
        "Short-circuit current through one string's fuse",
        short * largest(strings - 1, 1) / strings,
        A,
        OWN_DERIVATION,
    )


def time_constant(inductance: Quantity, resistance: Quantity) -> Quantity:
    """How fast the current rises [s]: 63 % of the whole after this time."""
    return step("τ", "Time constant of the rise", inductance / resistance, s, OWN_DERIVATION)


def current_after(short: Quantity, time: Quantity, rise: Quantity, symbol: str, label: str) -> Quantity:
    """The current a while after the short [A]: Iₖ·(1 − e^(−t/τ))."""
    return step(symbol, label, short * (1 - exponential(-(time / rise))), A, OWN_DERIVATION)


def let_through(short: Quantity, time: Quantity, rise: Quantity) -> Quantity:
    """Heat let through in this time, per ohm [A²s]: the square of the rising current, summed.

    Iₖ²·(t − 2τ(1−e) + τ/2·(1−e²)) with e = e^(−t/τ). A time of two time constants or less is counted as if the whole
    current flowed at once: little is gained there, and the true figure lies below.
    """
    times = step("x", "Clearing time, in time constants", time / rise, one)
    left = step("ε", "Share of the rise still missing at the end", exponential(-times), one)
    return choose(
        "Q_k",
        "Let through until it is cleared",
        (
            times > constant("x_2", "Time constants from which the rise is credited", 2 * one, OWN_DERIVATION),
            lambda: short**2 * rise * (times - 2 * (1 - left) + (1 - left**2) / 2),
            "the current takes its time to rise",
        ),
        (short**2 * time, "the whole current is counted from the start"),
        unit=A2s,
        source=OWN_DERIVATION,
    )
