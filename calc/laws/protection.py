"""Breakers and fuses: standard ratings, and how large one may be before a conductor, a motor or a welder."""

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
)
from calc.sources import NEC_2023
from calc.tables import table
from calc.units import A

# A published list, and the column of it: the fuses' list of IEC goes on where its small circuit-breakers end.
NEC_BREAKERS = ("standard_ratings", "breaker")
NEC_FUSES = ("standard_ratings", "fuse")
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
            return from_list(f"next standard {_called(listed)} up", rating, current)
    raise OutsideValidity(f"No standard rating is as large as {current}.")


def standard_rating_down(current: Quantity, listed: tuple[str, str]) -> Quantity:
    """The largest standard rating not above a current."""
    for rating in reversed(standard_ratings(listed)):
        if (rating <= current).holds:
            return from_list(f"next standard {_called(listed)} down", rating, current)
    raise OutsideValidity(f"No standard rating is as small as {current}.")


def _called(listed: tuple[str, str]) -> str:
    """The US list of fuses begins lower than that of breakers: what is printed says which was looked up."""
    return "fuse" if listed == NEC_FUSES else "rating"


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
