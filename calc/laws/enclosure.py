"""What keeps solids and water out: the two digits of the IP code, each by itself.

The second digit is two ladders in one. 1 to 6 are drips to strong jets; 7 and 8 are immersion, and say nothing of jets
(5 and 6) unless the part is marked for both; 9 is hot high-pressure water, and likewise alone.
"""

from __future__ import annotations

from dataclasses import dataclass

from calc.quantity import Quantity, constant, smallest, step
from calc.sources import COMMON_PRACTICE, IEC_60529
from calc.tables import table
from calc.units import mm, one

UNMARKED = "unmarked"
_CODES = (
    "IP20",
    "IP21",
    "IP22",
    "IP23",
    "IP24",
    "IP44",
    "IP54",
    "IP55",
    "IP56",
    "IP65",
    "IP66",
    "IP67",
    "IP65 and IP67",
    "IP66 and IP67",
    "IP68",
    "IP69",
    "IPX4",
    "IPX5",
    "IPX6",
    "IPX7",
)
_TYPES = tuple(f"NEMA {row}" for row in table("nema_ip").rows)
RATINGS = (UNMARKED, *_CODES, *_TYPES)

NO_OPENING = "none: closed, or a membrane vent"
UPWARD, SIDEWAYS, DOWNWARD = "a gap facing up", "a gap in a side", "a gap facing down behind a drip edge"
OPENINGS = (NO_OPENING, DOWNWARD, SIDEWAYS, UPWARD)


@dataclass(frozen=True)
class Protection:
    """What one part or opening keeps out."""

    part: str
    solids: Quantity
    water: Quantity


def protection(number: int, rating: str) -> Protection:
    """The digits of one part by its marking; an X or no marking counts as 0."""
    part = f"Part {number}"
    if rating.startswith("NEMA "):
        return _by_type(number, part, rating)
    code = rating.split(" and ")[0].removeprefix("IP") if rating != UNMARKED else "00"
    solids = constant(f"s_{number}", f"{part}, {rating}: against solids", _digit(code[0]) * one, IEC_60529)
    return Protection(part, solids, _water(number, f"{part}, {rating}", code[1]))


def _digit(sign: str) -> float:
    return 0.0 if sign == "X" else float(sign)


def _water(number: int, named: str, sign: str) -> Quantity:
    """Drips, spray and jets kept out. Immersion alone is a test with still water: it counts as splash, 4."""
    if sign in "789":
        return constant(
            f"w_{number}",
            f"{named}: against spray and jets",
            4 * one,
            IEC_60529.at("clause 6: 7, 8 or 9 alone need not meet 5 and 6"),
            note=f"X{sign} is no rating for jets",
        )
    return constant(f"w_{number}", f"{named}: against spray and jets", _digit(sign) * one, IEC_60529)


def _by_type(number: int, part: str, rating: str) -> Protection:
    """The lower of two printings of the conversion, digit by digit. Only this way: no IP code makes a type."""
    known, row = table("nema_ip"), rating.removeprefix("NEMA ")
    printings = [known.text(row, column) for column in ("older", "newer")]
    source, note = known.source, f"row {row}: {' and '.join(printings)}, the lower of each digit"
    solids = min(_digit(code[0]) for code in printings)
    water = min(_digit("4" if code[1] in "78" else code[1]) for code in printings)
    return Protection(
        part,
        constant(f"s_{number}", f"{part}, {rating}: at least, against solids", solids * one, source, note=note),
        constant(f"w_{number}", f"{part}, {rating}: at least, against spray and jets", water * one, source, note=note),
    )


def opening_protection(opening: str, gap: Quantity) -> Protection:
    """What a gap keeps out: solids by its width, water by where it faces."""
    probes = table("ip_solids")
    kept = [digit for digit in probes.rows if (gap <= probes.value(digit, "gap", mm)).holds]
    digit = kept[-1] if kept else "0"
    solids = constant("s_o", f"The opening, {gap}: against solids", float(digit) * one, probes.source)
    if opening == DOWNWARD:
        water = constant(
            "w_o", "The opening, facing down behind a drip edge: rain, no splash", 3 * one, COMMON_PRACTICE
        )
    else:
        water = constant("w_o", f"The opening, {opening}: water enters", 0 * one, COMMON_PRACTICE)
    return Protection("The opening", solids, water)


def weakest(protections: list[Protection]) -> tuple[Quantity, Quantity]:
    """The digits of the whole: each its own minimum over all parts and openings [-]."""
    return (
        step("s", "Against solids, the whole", smallest(*(each.solids for each in protections)), one, IEC_60529),
        step("w", "Against spray and jets, the whole", smallest(*(each.water for each in protections)), one, IEC_60529),
    )
