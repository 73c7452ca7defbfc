"""A cord that goes into a box: what it is, where it enters, what holds it and what its strands end in."""

from __future__ import annotations

from calc import units as u
from calc.fact import Fact
from calc.tables import table

HARD, JUNIOR = "SOOW, STW or another S (600 V)", "SJOOW, SJTW or another SJ (300 V)"
HEAVY, PVC = "H07RN-F", "H05VV-F"
FLAT, CALIPER = "a flat cord", "measured with a caliper"

RANGE, THREAD, MADE_FOR, BARE = (
    "a gland, its range read off it",
    "a metric gland, its range not known",
    "a fitting made for this very cord",
    "a bare hole, or a knockout without a fitting",
)
BY_GLAND, BY_CLAMP, BY_KNOT, BY_WIRES = (
    "the gland or fitting, tightened",
    "a clamp beside the entry",
    "a knot in the box",
    "nothing but the terminals",
)
PLAIN, FOR_FINE, FERRULE, DEVICE = (
    "a screw or clamp not marked for fine strand",
    "one marked for fine or flexible strand",
    "a crimped ferrule or lug, of its size, in a terminal that takes it",
    "a plug or connector made for cords",
)
ALONE, PAIR_MARKED, PAIR = "each alone", "two in a terminal marked for two", "two in a terminal not marked for it"
NO_HOLE, PLUGGED, OPEN = "there are none", "closed with plugs as tight as the box", "open, or taped over"

THREADS = table("gland_range").rows
SIZES = table("cord_make").rows
SIZES_IEC = ("0.75 mm2", "1 mm2", "1.5 mm2", "2.5 mm2", "4 mm2", "6 mm2", "10 mm2", "16 mm2")

# Of a cable that is a cord; a plug or connector at its end is a box too, with an entry and terminals.
ENTRY = {
    "cord": Fact(
        "Kind of cord",
        "Printed on its jacket; a caliper is better",
        options=(HARD, JUNIOR, HEAVY, PVC, FLAT, CALIPER),
    ),
    "cores": Fact("Wires in it", "With the ground; 12/3 has three", options=("2", "3", "4", "5")),
    "diameter": Fact(
        "Its diameter", "The thickest of three places, each measured twice, across and along", 3 * u.mm, 60 * u.mm
    ),
    "entry": Fact("Where it enters", "A thread alone does not tell the range", options=(RANGE, THREAD, MADE_FOR, BARE)),
    "thread": Fact("Thread of the gland", "M and the outside of it in mm", options=THREADS),
    "clamp_least": Fact("Least that the gland clamps", "On the gland, its bag or its sheet", 1 * u.mm, 60 * u.mm),
    "clamp_most": Fact("Most that the gland clamps", "On the gland, its bag or its sheet", 2 * u.mm, 70 * u.mm),
    "pull": Fact("A pull on the cord is taken by", "Pull and look", options=(BY_GLAND, BY_CLAMP, BY_KNOT, BY_WIRES)),
    "strands": Fact(
        "Its strands end in", "Marked flex, f, class K, or class 5", options=(PLAIN, FOR_FINE, FERRULE, DEVICE)
    ),
    "terminal_least": Fact("Smallest size the terminal takes", "On it, or in its sheet", options=(*SIZES, *SIZES_IEC)),
    "terminal_most": Fact("Largest size the terminal takes", "On it, or in its sheet", options=(*SIZES, *SIZES_IEC)),
    "shared": Fact("Wires in each terminal", "Look at every screw of the box", options=(ALONE, PAIR_MARKED, PAIR)),
}
UNUSED_HOLES = Fact("Holes of the box that nothing uses", "Knockouts too", options=(NO_HOLE, PLUGGED, OPEN))
