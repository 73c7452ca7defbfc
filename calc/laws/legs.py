"""The two legs of a split-phase source and the neutral between them."""

from __future__ import annotations

from calc.quantity import Quantity, largest, limit, need, smallest
from calc.sources import OWN_DERIVATION
from calc.units import A, V

KIRCHHOFF = OWN_DERIVATION.at("Kirchhoff's two laws")


def neutral_on_opposite_legs(leg_a: Quantity, leg_b: Quantity) -> Quantity:
    """The neutral of two circuits on opposite legs carries their difference [A]."""
    heavier, lighter = largest(leg_a, leg_b), smallest(leg_a, leg_b)
    return need("I_N", "Current in the neutral: the difference of the legs", heavier - lighter, A, KIRCHHOFF)


def neutral_on_one_leg(circuit_a: Quantity, circuit_b: Quantity) -> Quantity:
    """The neutral that two circuits of one and the same leg share carries their sum [A]."""
    return need("I_N", "Current in the neutral: the sum, on one leg", circuit_a + circuit_b, A, KIRCHHOFF)


def volts_with_open_neutral(whole: Quantity, leg_a: Quantity, leg_b: Quantity) -> tuple[Quantity, Quantity]:
    """Volts on each leg's loads when their common neutral opens [V].

    The two stand in series across both hots: V_A = V·Z_A/(Z_A + Z_B). A load of I amps at the leg's volts has an
    impedance that goes as 1/I, so V_A = V·I_B/(I_A + I_B): the lighter leg gets the higher volts.
    """
    on_a = need("V_oA", "Volts on leg A's loads if the neutral opens", whole * leg_b / (leg_a + leg_b), V, KIRCHHOFF)
    on_b = need("V_oB", "Volts on leg B's loads if the neutral opens", whole * leg_a / (leg_a + leg_b), V, KIRCHHOFF)
    return on_a, on_b


def volts_on_legs(
    source: Quantity, wire: Quantity, back_a: Quantity, back_b: Quantity, leg_a: Quantity, leg_b: Quantity
) -> tuple[Quantity, Quantity]:
    """Volts at the end of a run [V]: each hot loses its own current's, the neutral what flows back in it.

    back_a, back_b: the neutral's current as seen from each leg; of two opposite legs it is their difference, and
    counts against the heavier leg and for the lighter one, which may stand above the source.
    """
    at_a = limit("V_A", "Volts at leg A's loads", source - (leg_a + back_a) * wire, V, KIRCHHOFF)
    at_b = limit("V_B", "Volts at leg B's loads", source - (leg_b + back_b) * wire, V, KIRCHHOFF)
    return at_a, at_b
