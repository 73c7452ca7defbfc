"""Two banks joined by a cable: the first rush, how a load is shared, and how long they take to level out."""

from __future__ import annotations

from collections.abc import Sequence

from calc.laws.stepping import Bank
from calc.quantity import Quantity, largest, need, smallest, step
from calc.sources import OWN_DERIVATION
from calc.units import A, Ah, V, mohm


def loop_resistance(first: Quantity, second: Quantity, cable: Quantity) -> Quantity:
    """What holds the first rush back [mΩ]: both banks and the cable, out and back."""
    return step("R_all", "Resistance round the loop", first + second + cable, mohm, OWN_DERIVATION)


def first_rush(one: Quantity, other: Quantity, loop: Quantity) -> Quantity:
    """The current at the moment of joining [A]: the difference of the rest volts over the resistance of the loop."""
    apart = step("ΔV", "Difference of the volts at rest", largest(one, other) - smallest(one, other), V)
    return need("I_0", "Current at the moment they are joined", apart / loop, A, OWN_DERIVATION)


def charge_moved(one: Quantity, other: Quantity, first: Quantity, second: Quantity) -> Quantity:
    """The charge that flows until both are equally full [Ah]: the difference of charge, over both in series."""
    together = step("Q_12", "Capacity of both in series", first * second / (first + second), Ah, OWN_DERIVATION)
    return need(
        "Q_m", "Charge that moves from one to the other", (largest(one, other) - smallest(one, other)) * together, Ah
    )


def levelling(
    first: Bank, second: Bank, cable: float, charges: tuple[float, float], moments: Sequence[float], steps: int
) -> list[float]:
    """Amps from the first bank to the second at these moments [s], ascending; plain floats, by the midpoint rule.

    Each interval between moments is taken in `steps` small ones.
    """
    ohms = first.ohms + second.ohms + cable
    full, low = charges
    now, found = 0.0, []

    def amps(one: float, other: float) -> float:
        return (first.rest_volts(one) - second.rest_volts(other)) / ohms

    for moment in moments:
        part = (moment - now) / steps
        for _ in range(steps):
            half = amps(full, low) * part / 2
            middle = amps(full - half / first.coulombs, low + half / second.coulombs)
            full, low = full - middle * part / first.coulombs, low + middle * part / second.coulombs
        now = moment
        found.append(amps(full, low))
    return found
