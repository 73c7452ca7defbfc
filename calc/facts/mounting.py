"""How a part is held on the rig: by screws into thin tube, or by straps."""

from __future__ import annotations

from calc import units as u
from calc.fact import Fact

ON_A_WALL, ON_A_FLOOR, UNDER, STRAPPED = (
    "screwed to an upright",
    "screwed down on a floor",
    "hung under something",
    "strapped down",
)

HELD = {
    "held": Fact(
        "How it is held", "A battery needs straps or a frame too", options=(ON_A_WALL, ON_A_FLOOR, UNDER, STRAPPED)
    ),
    "screws": Fact(
        "Screws, through its flange into the tube", "Tight ones only", options=("2", "4", "6", "8", "10", "12")
    ),
    "screw_diameter": Fact(
        "Screw diameter over the thread", "A number 10 is 4.8 mm, a number 14 is 6.3 mm", 3 * u.mm, 12 * u.mm
    ),
    "wall": Fact("Wall of the tube they bite in", "Measured at a cut end, without the paint", 0.5 * u.mm, 4 * u.mm),
    "tube_metal": Fact(
        "Metal of the tube",
        "A magnet sticks to mild steel",
        options=("mild steel", "aluminium 6063-T5", "aluminium 6061-T6", "stainless steel"),
    ),
    "stands_off": Fact(
        "Its middle stands off the upright by", "Half its depth, plus what is between", 5 * u.mm, 800 * u.mm
    ),
    "spread": Fact("Upper screws above its lower edge", "It turns about that edge", 20 * u.mm, 2000 * u.mm),
    "straps": Fact("Straps over it", "Each with both ends fixed", options=("1", "2", "3", "4")),
    "strap_limit": Fact(
        "Working load of one strap",
        "On its label: working load or lashing capacity, not breaking strength, which is three times as much",
        5 * u.kg,
        5000 * u.kg,
    ),
}
