"""The float kernel of the simulations: a bank that is filled and emptied in small steps.

Plain floats in SI (volts, amps, watts, ohms, seconds, coulombs; charge from 0 to 1), because a year holds 52 560 steps
of ten minutes. A check that steps prints one row worked in quantities that remember; a test holds the kernel to it,
and to an independent solver of differential equations.
"""

from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass

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
        at = min(max(bisect_right(self.charges, charge), 1), len(self.charges) - 1)
        low, high = self.charges[at - 1], self.charges[at]
        part = min(max((charge - low) / (high - low), 0.0), 1.0)
        return self.volts[at - 1] + part * (self.volts[at] - self.volts[at - 1])

    def amps_in(self, charge: float, watts: float, most_amps: float, most_volts: float) -> float:
        """The current a charger of these limits drives in; 0 where it is not above the rest voltage."""
        return self._driven_in(self.rest_volts(charge), watts, most_amps, most_volts)

    def amps_out(self, charge: float, watts: float) -> float:
        """The current that gives this power; infinite where the bank cannot give it at all."""
        return self._given_out(self.rest_volts(charge), watts)

    def _driven_in(self, rest: float, watts: float, most_amps: float, most_volts: float) -> float:
        # The root of I·(E + R·I) = P, written so that it loses no figures.
        by_power = 2 * watts / (rest + math.sqrt(rest**2 + 2 * 2 * self.ohms * watts))
        return max(0.0, min(most_amps, by_power, (most_volts - rest) / self.ohms))

    def _given_out(self, rest: float, watts: float) -> float:
        under = rest**2 - 2 * 2 * self.ohms * watts
        return 2 * watts / (rest + math.sqrt(under)) if under >= 0 else math.inf

    def after(
        self, charge: float, watts: float, seconds: float, most_amps: float, most_volts: float, floor: float
    ) -> tuple[float, float, float]:
        """One step of time with this net power (into the bank is positive).

        Gives the charge after it, the watts that were on offer and found no room, and the watts that were wanted and
        not there, both as means over the step. The rest voltage is that at the start of the step.
        """
        rest = self.rest_volts(charge)
        if watts >= 0:
            room = (1 - charge) * self.coulombs / seconds
            amps = min(self._driven_in(rest, watts, most_amps, most_volts), room)
            return charge + amps * seconds / self.coulombs, watts - amps * (rest + amps * self.ohms), 0.0
        there = max(0.0, charge - floor) * self.coulombs / seconds
        amps = min(self._given_out(rest, -watts), there)
        return charge - amps * seconds / self.coulombs, 0.0, -watts - amps * (rest - amps * self.ohms)


@dataclass(frozen=True, slots=True)
class Row:
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
    charge, seconds, joules = start, 0.0, 0.0
    while charge < 1 - _HAIR:
        part = min(share, 1 - charge)
        amps = bank.amps_in(charge + part / 2, watts, most_amps, most_volts)
        if amps <= tail:
            break
        volts = bank.rest_volts(charge + part / 2) + amps * bank.ohms
        charge, seconds, joules = (
            charge + part,
            seconds + part * bank.coulombs / amps,
            joules + volts * part * bank.coulombs,
        )
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
    """The charge from which the charger holds its highest volts and the current falls."""
    for row in rows[1:]:
        if bank.rest_volts(row.charge) + row.amps * bank.ohms >= most_volts:
            return row.charge
    return rows[-1].charge
