"""How a unit is cooled, which way up it is mounted, and what its manual says of that: the words for it, and what
is left of the cooling that needs no fan when the fins no longer stand upright."""

from __future__ import annotations

from calc.laws import convection
from calc.quantity import Quantity, alternative, constant, smallest
from calc.sources import COMMON_PRACTICE
from calc.units import percent

ALWAYS, STOPS, NO_FAN = "a fan that always runs", "a fan that stops at light load", "no fan"
COOLING = (ALWAYS, STOPS, NO_FAN)
FANNED, FANLESS_AT_TIMES = (ALWAYS, STOPS), (STOPS, NO_FAN)

AS_SHOWN, UPSIDE_DOWN, ON_ITS_SIDE, FACE_UP, FACE_DOWN = (
    "as its manual shows",
    "upside down, fins still upright",
    "on its side, fins lying level",
    "flat, its fins or fan looking up",
    "flat, its fins or fan looking down",
)
POSITIONS = (AS_SHOWN, UPSIDE_DOWN, ON_ITS_SIDE, FACE_UP, FACE_DOWN)

ONLY_AS_SHOWN, ANY, NOTHING = "only as shown", "any position", "nothing"
MANUAL = (ONLY_AS_SHOWN, ANY, NOTHING)

AWAY, TO_NEXT, BACK = "away from every inlet", "toward the inlet of another unit", "back toward its own inlet"
EXHAUSTS = (AWAY, TO_NEXT, BACK)


def cooling_left(position: str) -> Quantity:
    """What is left of the cooling that needs no fan, in this position [-]."""
    symbol, label = "k_p", "Left of the cooling without a fan, in this position"
    if position in (AS_SHOWN, UPSIDE_DOWN):
        whole = constant("k_1", "All of it", 100 * percent, COMMON_PRACTICE)
        return alternative(symbol, label, whole, position, percent)
    lying = constant("k_65", "Fins lying: what is commonly reckoned", 65 * percent, COMMON_PRACTICE)
    if position == FACE_DOWN:
        return alternative(symbol, label, smallest(lying, convection.face_down_share()), position, percent)
    return alternative(symbol, label, lying, position, percent)
