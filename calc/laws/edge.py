"""A wheel against an edge: a step, a chock, the far side of a gap."""

from __future__ import annotations

from calc.quantity import OutsideValidity, Quantity, root, step
from calc.sources import OWN_DERIVATION
from calc.units import mm, one


def pull_over_weight(radius: Quantity, height: Quantity) -> Quantity:
    """Level push at the axle over the weight on a wheel that just climbs an edge of this height [-].

    Moments about the edge; the tyre gives no way, as a hard one. OutsideValidity from the radius up:
    no push climbs that.
    """
    if (height >= radius).holds:
        raise OutsideValidity(
            f"An edge of {height} is as high as the axle or higher: no push climbs it, it must be lifted."
        )
    arm = root(2 * radius * height - height**2)
    return step("τ", "Push over weight at which a wheel climbs it", arm / (radius - height), one, OWN_DERIVATION)


def drop_into_gap(radius: Quantity, gap: Quantity) -> Quantity:
    """How deep a wheel drops between the two sides of a gap [m]: to climb out it meets an edge of that height."""
    if (gap >= 2 * radius).holds:
        raise OutsideValidity(f"A gap of {gap} swallows the wheel: bridge it.")
    return step(
        "h", "How deep it drops into the gap", radius - root(radius**2 - (gap / 2) ** 2), mm, OWN_DERIVATION, rounds=1
    )
