"""How hard people may push: a published screening filter, for hands between knuckle and shoulder, up to some 20 m."""

from __future__ import annotations

from dataclasses import dataclass

from calc.laws.slope import gravity
from calc.quantity import OutsideValidity, Quantity, constant, limit
from calc.sources import COMMON_PRACTICE, FROM_MEMORY, HSE_L23
from calc.tables import table
from calc.units import N, kg, m, one

PEOPLE = table("team_share").rows


@dataclass(frozen=True)
class Limits:
    """Forces to set a load moving [N]: what suits nearly everybody, and what suits strong people only."""

    easy: Quantity
    most: Quantity


def to_start(people: str) -> Limits:
    """The most that so many people together may give to set it moving [N]."""
    return Limits(
        _limit("women", "start", "set it moving", "0", people), _limit("men", "start", "set it moving", "0", people)
    )


def to_keep_moving(people: str) -> Limits:
    """The most that so many people together may give to keep it going [N]."""
    return Limits(
        _limit("women", "keep moving", "keep it going", "", people),
        _limit("men", "keep moving", "keep it going", "", people),
    )


def _limit(who: str, column: str, doing: str, mark: str, people: str) -> Quantity:
    sign = f"{who[0]}{mark}"
    alone = table("push_filter").read(f"f_{sign}", f"Most to {doing}, {who}, in kilograms-force", who, column)
    kilogram_force = gravity() * constant("kg", "One kilogram", 1 * kg, COMMON_PRACTICE)
    count = constant("n", "How many push", float(people) * one, COMMON_PRACTICE)
    share = table("team_share").read("k_t", f"Share that each of {people} can give", people, "share")
    return limit(f"L_{sign}", f"Limit to {doing}, {who}", alone * kilogram_force * count * share, N, HSE_L23)


def refuse_hands_out_of_reach(height: Quantity) -> None:
    """The filter is for hands from knuckle to shoulder; outside that it says nothing: OutsideValidity."""
    hands = HSE_L23.at("hands between knuckle and shoulder height; the heights from memory", FROM_MEMORY)
    lowest = constant("h_1", "Lowest hands the limits hold for", 0.58 * m, hands)
    highest = constant("h_2", "Highest hands the limits hold for", 1.33 * m, hands)
    if not (height >= lowest).holds or not (height <= highest).holds:
        raise OutsideValidity(
            f"The published limits hold for hands from {lowest} to {highest}; with the handle at {height} the answer "
            "is not known. Fit a handle between."
        )


def who_pushes(people: str) -> str:
    """The people who push, for a sentence."""
    return "one person" if people == "1" else f"{people} people"
