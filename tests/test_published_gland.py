"""Cords, glands and terminals: diameters held against geometry and public data, and the traps of an entry."""

from __future__ import annotations

import math

import pytest
from cells import number as cell
from test_published import ask, number, verdict_on

from calc import units as u
from calc.check import GO, NO, NOT_KNOWN, TIGHT, Answer
from calc.laws import cord_entry
from calc.tables import table

# Thicknesses of insulation and sheath, and strands as they are drawn, in mm: EN 50525-2-21 and -2-11 and IEC 60228,
# written down from memory and apart from the table of diameters.
STRAND = {"0.75": 1.1, "1": 1.28, "1.5": 1.55, "2.5": 2.0, "4": 2.55, "6": 3.15, "10": 4.1, "16": 5.2}
WALLS = {
    "H07RN-F": {
        "1": (0.8, (1.3, 1.4, 1.5, 1.6)),
        "1.5": (0.8, (1.5, 1.6, 1.7, 1.8)),
        "2.5": (0.9, (1.7, 1.8, 1.9, 2.0)),
        "4": (1.0, (1.8, 1.9, 2.0, 2.2)),
        "6": (1.0, (2.0, 2.1, 2.3, 2.5)),
        "10": (1.2, (3.1, 3.3, 3.4, 3.6)),
        "16": (1.2, (3.3, 3.5, 3.6, 3.9)),
    },
    "H05VV-F": {
        "0.75": (0.6, (0.8, 0.8, 0.8, 0.9)),
        "1": (0.6, (0.8, 0.8, 0.9, 0.9)),
        "1.5": (0.7, (0.8, 0.9, 1.0, 1.1)),
        "2.5": (0.8, (1.0, 1.1, 1.1, 1.2)),
        "4": (0.8, (1.1, 1.2, 1.2, 1.4)),
    },
}
LAID = {2: 2.0, 3: 1 + 2 / math.sqrt(3), 4: 1 + math.sqrt(2), 5: 1 + 1 / math.sin(math.pi / 5)}


def enter(rules: str = "nec", **typed: str) -> Answer:
    cords = {
        "nec": {"cord": "SOOW, STW or another S (600 V)", "size": "12 AWG"},
        "iec": {"cord": "H07RN-F", "size": "2.5 mm2"},
    }
    bare = {
        "cores": "3",
        "entry": "a gland, its range read off it",
        "clamp_least": "10 mm",
        "clamp_most": "18 mm",
        "pull": "the gland or fitting, tightened",
        "terminal": "one marked for fine or flexible strand",
        "shared": "each alone",
        "unused": "there are none",
    }
    return ask("shelter/gland", rules, **{**cords[rules], **bare, **typed})


# --- diameters ---------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("cores", [2, 3, 4, 5])
def test_equal_circles_in_a_circle(cores: int) -> None:
    """Geometry: the least circle round 2 to 5 equal ones."""
    assert cord_entry._LAID[str(cores)] == pytest.approx(LAID[cores], abs=1e-4)


@pytest.mark.parametrize(("kind", "size"), [(kind, size) for kind, sizes in WALLS.items() for size in sizes])
@pytest.mark.parametrize("cores", [2, 3, 4, 5])
def test_a_harmonized_cord_of_its_walls_lies_within_its_limits(kind: str, size: str, cores: int) -> None:
    """Laid-up cores under a sheath, within the least and most of its table and nearer the least than the most."""
    insulation, sheaths = WALLS[kind][size]
    made = LAID[cores] * (STRAND[size] + 2 * insulation) + 2 * sheaths[cores - 2]
    least, most = (cell("cord_diameter_iec", f"{cores} × {size} mm2", f"{kind} {end}") for end in ("least", "most"))
    assert least * 0.99 <= made <= most * 0.99
    assert most / least == pytest.approx(1.27, abs=0.045)


@pytest.mark.parametrize(
    ("size", "nominal"), [("1.5", 10.6), ("2.5", 12.4), ("4", 14.4), ("6", 16.1), ("10", 21.6), ("16", 24.7)]
)
def test_the_middle_of_three_cores_is_what_is_sold(size: str, nominal: float) -> None:
    """Diameters of H07RN-F with three cores in public data after a maker's catalogue, in mm."""
    ends = [cell("cord_diameter_iec", f"3 × {size} mm2", f"H07RN-F {end}") for end in ("least", "most")]
    assert sum(ends) / 2 == pytest.approx(nominal, abs=0.2)


@pytest.mark.parametrize(
    ("cord", "size", "cores", "sold"),
    [
        ("SOOW, STW or another S (600 V)", "12 AWG", "3", 0.63),
        ("SOOW, STW or another S (600 V)", "16 AWG", "3", 0.395),
        ("SOOW, STW or another S (600 V)", "10 AWG", "3", 0.66),
        ("SOOW, STW or another S (600 V)", "10 AWG", "4", 0.715),
        ("SJOOW, SJTW or another SJ (300 V)", "16 AWG", "3", 0.34),
        ("SJOOW, SJTW or another SJ (300 V)", "14 AWG", "3", 0.375),
        ("SJOOW, SJTW or another SJ (300 V)", "12 AWG", "3", 0.44),
    ],
)
def test_a_cord_as_sold_lies_within_what_its_walls_make(cord: str, size: str, cores: str, sold: float) -> None:
    """The 12/3 read in a public note on a coil cord, the others from memory of lists; inches."""
    answer = enter(cord=cord, size=size, cores=cores)
    assert number(answer, "cord_least", u.inch) <= sold <= number(answer, "cord_most", u.inch)


def test_a_thread_never_surely_takes_more_than_it_may() -> None:
    """Common practice; and the widths of the threads rise."""
    ranges = table("gland_range")
    ends = [[cell(ranges, row, column) for column in ranges.columns] for row in ranges.rows]
    for sure_least, sure_most, least, most in ends:
        assert least <= sure_least < sure_most <= most
    assert ends == sorted(ends)


# --- the entry ---------------------------------------------------------------------------------------------------------


def test_trap_the_thread_does_not_tell_the_range() -> None:
    """EN 62444 leaves the range to the maker: some M20 take 5 to 10 mm, others 10 to 14."""
    by_thread = {"entry": "a metric gland, its range not known", "cord": "measured with a caliper"}
    assert [enter(**by_thread, thread="M20", diameter=f"{d} mm").verdict for d in (4, 8, 11, 13, 15)] == [
        NO,
        TIGHT,
        GO,
        TIGHT,
        NO,
    ]


def test_trap_a_heavier_cord_does_not_go_into_the_gland_of_the_lighter_one() -> None:
    """A gland of 3 to 8 mm holds a light lead; the H07RN-F of the same three wires is 8.3 to 10.7 mm."""
    lead = {"size": "1 mm2", "terminal_least": "0.75 mm2", "clamp_least": "3 mm", "clamp_most": "8 mm"}
    assert enter("iec", **lead, cord="H05VV-F").verdict == GO
    answer = enter("iec", **lead, cord="H07RN-F")
    assert verdict_on(answer, "Thin enough") == NO
    assert verdict_on(enter("iec", cord="H07RN-F", size="1 mm2", clamp_least="11 mm"), "Thick enough") == NO


def test_between_surely_and_perhaps_one_measures() -> None:
    """A 12/3 of type S is 0.58 to 0.65 in, 14.8 to 16.6 mm: a gland to 16 mm may do, a caliper decides."""
    assert verdict_on(enter(clamp_most="16 mm"), "Thin enough") == TIGHT
    measured = enter(cord="measured with a caliper", diameter="15.9 mm", clamp_most="16 mm")
    assert measured.verdict == GO


def test_a_flat_cord_needs_a_fitting_of_its_own() -> None:
    """Geometry: a round ring does not close on a flat cord."""
    assert enter(cord="a flat cord").verdict == NO
    assert enter(cord="a flat cord", entry="a fitting made for this very cord").verdict == GO


def test_a_cord_that_is_not_made_is_not_known() -> None:
    """EN 50525-2-11 ends at 4 mm², UL 62 makes no SJ over 10 AWG."""
    assert enter("iec", cord="H05VV-F", size="10 mm2", terminal_most="16 mm2").verdict == NOT_KNOWN
    assert enter(cord="SJOOW, SJTW or another SJ (300 V)", size="6 AWG", terminal_most="6 AWG").verdict == NOT_KNOWN


def test_trap_a_pull_reaches_the_terminals() -> None:
    """NFPA 70, 400.14 and its note: a knot, tape or a fitting; IEC 60335-1: no knot. A bare hole holds nothing."""
    assert enter(pull="nothing but the terminals").verdict == NO
    assert enter(pull="a knot in the box").verdict == GO
    assert enter("iec", pull="a knot in the box").verdict == NO
    bare = enter(entry="a bare hole, or a knockout without a fitting")
    assert (verdict_on(bare, "Edge"), verdict_on(bare, "Pull")) == (NO, NO)


# --- the terminal ------------------------------------------------------------------------------------------------------


def test_trap_fine_strand_in_a_terminal_not_made_for_it() -> None:
    """NFPA 70, 110.14: strands finer than Class B and C only where identified; every cord has them (Class K or M)."""
    assert enter(terminal="a screw or clamp not marked for fine strand").verdict == NO
    assert enter(terminal="a crimped ferrule or lug, of its size, in a terminal that takes it").verdict == GO


def test_the_wire_is_within_the_terminals_range() -> None:
    """NFPA 70, Chapter 9, Table 8: 12 AWG 3.31 mm², 10 AWG 5.26, 14 AWG 2.08."""
    assert enter(terminal_least="12 AWG", terminal_most="12 AWG").verdict == GO
    assert verdict_on(enter(terminal_least="10 AWG", terminal_most="6 AWG"), "Not too thin for it") == NO
    assert verdict_on(enter(terminal_least="18 AWG", terminal_most="14 AWG"), "Not too thick for it") == NO


def test_two_wires_and_open_holes() -> None:
    """NFPA 70, 110.14(A) and 110.12(A)."""
    assert enter(shared="two in a terminal not marked for it").verdict == NO
    assert enter(shared="two in a terminal marked for two").verdict == GO
    assert enter(unused="open, or taped over").verdict == NO
    assert enter(unused="closed with plugs as tight as the box").verdict == GO
