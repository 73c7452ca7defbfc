"""The float kernel of the simulations: a bank that is filled and emptied in small steps.

Plain floats in SI (volts, amps, watts, ohms, seconds, coulombs; charge from 0 to 1), because a year holds 52 560 steps
of ten minutes. A check that steps prints one row worked in quantities that remember; a test holds the kernel to it,
and to an independent solver of differential equations.
"""

from __future__ import annotations

import math
from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import NamedTuple

# What binary fractions add up to short of a whole.
_HAIR = 1e-9

# Charge that one step fills or empties, when it is the time that is wanted.
SHARE = 0.001


@dataclass(frozen=True, slots=True)
class Bank:
    """A bank as a rest voltage behind a resistance. `volts` are at rest, at the charges given, both ascending."""

    coulombs: float
    ohms: float
    charges: tuple[float, ...]
    volts: tuple[float, ...]

    def rest_volts(self, charge: float) -> float:
        """On straight lines between the points of the curve; its ends stand beyond them."""
        return _on_lines(charge, self.charges, self.volts)

    def charge_at(self, volts: float) -> float:
        """The charge at which it rests at these volts; 0 or 1 where they lie beyond the curve."""
        return _on_lines(volts, self.volts, self.charges)

    def amps_in(self, charge: float, watts: float, most_amps: float, most_volts: float) -> float:
        """The current a charger of these limits drives in; 0 where it is not above the rest voltage."""
        rest = self.rest_volts(charge)
        return max(0.0, min(most_amps, _driven_in(rest, watts, self.ohms), (most_volts - rest) / self.ohms))

    def amps_out(self, charge: float, watts: float) -> float:
        """The current that gives this power; infinite where the bank cannot give it at all."""
        return _given_out(self.rest_volts(charge), watts, self.ohms)


def _on_lines(x: float, xs: tuple[float, ...], ys: tuple[float, ...]) -> float:
    at = min(max(bisect_right(xs, x), 1), len(xs) - 1)
    part = min(max((x - xs[at - 1]) / (xs[at] - xs[at - 1]), 0.0), 1.0)
    return ys[at - 1] + part * (ys[at] - ys[at - 1])


def _slopes(bank: Bank) -> list[float]:
    """How steeply the rest volts rise between each two points of the curve."""
    lines = zip(pairwise(bank.charges), pairwise(bank.volts), strict=True)
    return [(high - low) / (b - a) for (a, b), (low, high) in lines]


def _driven_in(rest: float, watts: float, ohms: float) -> float:
    # The root of I·(E + R·I) = P, written so that it loses no figures.
    return 2 * watts / (rest + math.sqrt(rest * rest + 2 * 2 * ohms * watts))


def _given_out(rest: float, watts: float, ohms: float) -> float:
    under = rest * rest - 2 * 2 * ohms * watts
    return 2 * watts / (rest + math.sqrt(under)) if under >= 0 else math.inf


# --- by time -----------------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Course:
    """What became of a bank in equal steps of time.

    The charge at the start of each and after the last; of each its current (into the bank is positive), the watts on
    offer that found no room, and the watts that were wanted and not there, all as means over the step.
    """

    charges: list[float]
    amps: list[float]
    spilled: list[float]
    short: list[float]


def march(
    bank: Bank, start: float, seconds: float, most_volts: float, steps: Iterable[tuple[float, float, float]]
) -> Course:
    """Walk through steps of time: of each the net watts into the bank, the most charging amps, and the lowest charge.

    The rest voltage is that at the start of the step; where the charger holds its highest volts, the current is the
    mean of its fall through the step. Watts that the bank cannot give at any voltage are not given at all.
    """
    charges, volts, ohms, coulombs = bank.charges, bank.volts, bank.ohms, bank.coulombs
    slopes = _slopes(bank)
    held = [_mean_of_fall(slope * seconds / (ohms * coulombs)) / ohms for slope in slopes]
    whole, top, last, charge, at = coulombs / seconds, bank.charge_at(most_volts), len(slopes) - 1, start, 0
    course = Course([start], [], [], [])
    for watts, most_amps, floor in steps:
        while at < last and charge > charges[at + 1]:
            at += 1
        while at and charge < charges[at]:
            at -= 1
        rest = volts[at] + (charge - charges[at]) * slopes[at]
        if watts >= 0:
            room = (top - charge) * whole
            amps = max(0.0, min(_driven_in(rest, watts, ohms), most_amps, (most_volts - rest) * held[at], room))
        else:
            asked = _given_out(rest, -watts, ohms)
            amps = -min(asked, max(0.0, charge - floor) * whole) if asked < math.inf else 0.0
        left = watts - amps * (rest + amps * ohms)
        charge += amps / whole
        course.charges.append(charge)
        course.amps.append(amps)
        course.spilled.append(left if watts >= 0 else 0.0)
        course.short.append(-left if watts < 0 else 0.0)
    return course


def _mean_of_fall(steps: float) -> float:
    """The mean of a current that falls exponentially through a step, over its first value; steps: time constants."""
    return (1 - math.exp(-steps)) / steps if steps > _HAIR else 1.0


# --- by charge ---------------------------------------------------------------------------------------------------


class Row(NamedTuple):
    """Where a step ended: the charge, the seconds and the joules at the terminals since the start, the step's current."""

    charge: float
    seconds: float
    amps: float
    joules: float = 0.0


def fill(
    bank: Bank, start: float, watts: float, most_amps: float, most_volts: float, tail: float, share: float = SHARE
) -> list[Row]:
    """Rows from `start` until the bank is full or the current has fallen to the tail."""
    rows = [Row(start, 0.0, math.inf)]
    charges, volts, ohms, coulombs = bank.charges, bank.volts, bank.ohms, bank.coulombs
    slopes, last, at = _slopes(bank), len(charges) - 2, 0
    charge, seconds, joules = start, 0.0, 0.0
    while charge < 1 - _HAIR:
        part = min(share, 1 - charge)
        middle = charge + part / 2
        while at < last and middle >= charges[at + 1]:
            at += 1
        rest = min(volts[at] + max(middle - charges[at], 0.0) * slopes[at], volts[-1])
        amps = min(most_amps, _driven_in(rest, watts, ohms), (most_volts - rest) / ohms)
        if amps <= tail:
            break
        charge += part
        seconds += part * coulombs / amps
        joules += (rest + amps * ohms) * part * coulombs
        rows.append(Row(charge, seconds, amps, joules))
    return rows


def empty(bank: Bank, start: float, floor: float, watts: float, cutoff: float, share: float = SHARE) -> list[Row]:
    """Rows from `start` down to the floor, or until the volts under this power fall to the cut-off."""
    rows = [Row(start, 0.0, 0.0)]
    charge, seconds, joules = start, 0.0, 0.0
    while charge > floor + _HAIR:
        part = min(share, charge - floor)
        amps = bank.amps_out(charge - part / 2, watts)
        if math.isinf(amps) or bank.rest_volts(charge - part / 2) - amps * bank.ohms < cutoff:
            break
        volts = bank.rest_volts(charge - part / 2) - amps * bank.ohms
        charge, seconds, joules = (
            charge - part,
            seconds + part * bank.coulombs / amps,
            joules + volts * part * bank.coulombs,
        )
        rows.append(Row(charge, seconds, amps, joules))
    return rows


def seconds_at(rows: Sequence[Row], mark: float) -> float | None:
    """When a charge was passed while filling, on the straight line within its step; None if it never was."""
    for before, row in zip(rows, rows[1:], strict=False):
        if row.charge >= mark - _HAIR:
            part = (mark - before.charge) / (row.charge - before.charge)
            return before.seconds + max(0.0, min(1.0, part)) * (row.seconds - before.seconds)
    return 0.0 if rows[0].charge >= mark - _HAIR else None


def holds_from(bank: Bank, rows: Sequence[Row], most_volts: float) -> float:
    """The charge from which the charger holds its highest volts and the current falls.

    While a bank fills, the volts at its terminals only rise: so the row is found by halving.
    """
    at = bisect_left(rows, True, lo=1, key=lambda row: bank.rest_volts(row.charge) + row.amps * bank.ohms >= most_volts)
    return rows[min(at, len(rows) - 1)].charge
