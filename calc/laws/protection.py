"""Breakers and fuses: standard ratings, and how large one may be before a conductor."""

from __future__ import annotations

import math
from functools import cache

from calc.check import Requirement, require
from calc.quantity import (
    OutsideValidity,
    Quantity,
    Statement,
    alternative,
    choose,
    constant,
    from_list,
    limit,
    smallest,
    step,
)
from calc.sources import NEC_2023
from calc.tables import table
from calc.units import A

# A published list, and the column of it: the fuses' list of IEC goes on where its small circuit-breakers end.
NEC_BREAKERS = ("standard_ratings", "breaker")
IEC_DEVICES = ("standard_ratings_iec", "fuse")


@cache
def standard_ratings(listed: tuple[str, str]) -> tuple[Quantity, ...]:
    """The standard ratings of breakers or fuses [A], smallest first."""
    name, column = listed
    ratings = table(name)
    return tuple(float(row) * A for row in ratings.rows if ratings.has(row, column))


def standard_rating_up(current: Quantity, listed: tuple[str, str]) -> Quantity:
    """The smallest standard rating not below a current."""
    for rating in standard_ratings(listed):
        if (rating >= current).holds:
            return from_list("next standard rating up", rating, current)
    raise OutsideValidity(f"No standard rating is as large as {current}.")


def standard_rating_down(current: Quantity, listed: tuple[str, str]) -> Quantity:
    """The largest standard rating not above a current."""
    for rating in reversed(standard_ratings(listed)):
        if (rating <= current).holds:
            return from_list("next standard rating down", rating, current)
    raise OutsideValidity(f"No standard rating is as small as {current}.")


def breaker_before(conductor: Quantity, size: str, metal: str, feeds_several: bool) -> Quantity:
    """The largest breaker that may stand before a conductor of this usable ampacity [A].

    The next standard size up may be taken for one load and up to 800 A; small conductors have a cap of their own.
    """
    largest_rounded_up = constant("I_800", "Next size up allowed to", 800 * A, NEC_2023.at("240.4(B), (C)"))
    if feeds_several:
        by_ampacity = alternative(
            "I_std",
            "Breaker by ampacity",
            standard_rating_down(conductor, NEC_BREAKERS),
            "it feeds several receptacles: no next size up",
            A,
            NEC_2023.at("240.4(B)(1)"),
        )
    else:
        by_ampacity = choose(
            "I_std",
            "Breaker by ampacity",
            (
                conductor <= largest_rounded_up,
                lambda: standard_rating_up(conductor, NEC_BREAKERS),
                "one load: the next standard size up is allowed",
            ),
            (
                lambda: standard_rating_down(conductor, NEC_BREAKERS),
                "above 800 A the breaker may not exceed the ampacity",
            ),
            unit=A,
            source=NEC_2023.at("240.4(B), (C), 240.6(A)"),
        )
    cap = table("small_conductor_cap")
    column = "Cu" if metal == "copper" else "Al"
    if not cap.has(size, column):
        return limit("I_max", "Largest breaker for this wire", by_ampacity, A)
    capped = cap.read("I_cap", f"Cap on breakers before {size} {metal}", size, column)
    return limit("I_max", "Largest breaker for this wire", smallest(by_ampacity, capped), A)


def motor_breaker(current: Quantity) -> Quantity:
    """The largest inverse-time breaker before a motor's own circuit [A]: it need only catch short circuits."""
    share = table("motor_protection").read(
        "k_m", "Breaker allowed before a motor, of its table current", "single-phase", "inverse-time breaker"
    )
    return step(
        "I_max",
        "Largest breaker for a motor of this current",
        standard_rating_up(share * current, NEC_BREAKERS),
        A,
        NEC_2023.at("430.52(C)(1)"),
    )


def of_receptacles(breaker: Quantity) -> Requirement:
    """A circuit of several receptacles is of 15, 20, 30, 40 or 50 A only."""
    listed = table("outlet_on_circuit")
    allowed = any(math.isclose(float(row), breaker.number_in(A)) for row in listed.rows)
    says = f"{breaker} {'is' if allowed else 'is not'} a rating for several receptacles"
    return require(
        Statement(says, allowed, listed.source),
        label="Circuit of several receptacles",
        exact=True,
        yes="It is a circuit for receptacles.",
        no=f"A circuit of several receptacles is of 15, 20, 30, 40 or 50 A, not {breaker}.",
    )
