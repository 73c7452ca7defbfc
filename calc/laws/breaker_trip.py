"""When a breaker opens: its magnet at once from some multiple of its rating, its heat within a time the standards set."""

from __future__ import annotations

from calc.quantity import Quantity, constant, read
from calc.sources import COMMON_PRACTICE
from calc.tables import Table, table
from calc.units import A, one, s

US = "US, inverse-time"
TYPES = ("type B", "type C", "type D")


def surely_holds(kind: str) -> Quantity:
    """Times its rating that it surely lets pass for a moment [-]."""
    label = f"Times its rating that a breaker surely holds for a moment, {kind}"
    if kind == US:
        return constant("k_hold", label, 5 * one, COMMON_PRACTICE)
    return table("breaker_types").read("k_hold", label, kind.removeprefix("type "), "holds", one)


def surely_opens(kind: str) -> Quantity:
    """Times its rating at which its magnet surely opens it at once [-]. No US standard says it; makers' curves do."""
    label = f"Times its rating at which the magnet surely opens it, {kind}"
    if kind == US:
        return constant("k_trip", label, 10 * one, COMMON_PRACTICE)
    return table("breaker_types").read("k_trip", label, kind.removeprefix("type "), "opens", one)


def heat_points(kind: str) -> tuple[tuple[Quantity, str], ...]:
    """The multiples at which a standard says how long it may take at most, the larger first; and the table's column."""
    listed = _times(kind)
    columns = sorted(listed.columns, key=float, reverse=True)
    return tuple(
        (read(f"k_{place}", "Times its rating where a time is laid down", float(column) * one, listed.source), column)
        for place, column in enumerate(columns, start=1)
    )


def opens_within(kind: str, rating: Quantity, column: str) -> Quantity:
    """The longest it may take at that multiple [s]."""
    listed = _times(kind)
    label = f"At {column} times its rating a breaker opens within"
    return listed.read(f"t_{column}", label, listed.row_covering(rating, A), column, s)


def _times(kind: str) -> Table:
    return table("breaker_heat_us" if kind == US else "breaker_heat_iec")
