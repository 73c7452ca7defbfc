"""When a breaker opens: its magnet at once from some multiple of its rating, its heat within a time the standards set."""

from __future__ import annotations

from calc.check import Requirement, require
from calc.quantity import Quantity, Statement, choose, constant, limit, need, read, step
from calc.sources import COMMON_PRACTICE, IEC_60364_4_41, IEC_60898
from calc.tables import Table, table
from calc.units import A, V, one, s

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


def magnet_takes(kind: str) -> Quantity:
    """How long the magnet may take to open the breaker [s]."""
    source = COMMON_PRACTICE if kind == US else IEC_60898.at("Table 7 of IEC 60898-1")
    return constant("t_mag", "The magnet opens it within", 0.1 * s, source)


def longest_touch(volts: Quantity) -> Quantity:
    """How long a fault to the frame may stand at these volts to earth [s]. The US code sets no time; this one is taken."""
    listed = table("disconnection_time")
    return listed.read(
        "t_41", f"A fault to the frame may stand at {volts}", listed.row_covering(volts, V), "seconds", s
    )


def disconnects_within(rating: Quantity, sockets: bool) -> Quantity:
    """How soon a fault to earth must be off at 230 V [s]: as the table says in final circuits up to a rating, else 5 s."""
    place = IEC_60364_4_41.at("411.3.2.2, 411.3.2.3", "read in a trade's summary of the edition")
    amps, label = (63, "with sockets") if sockets else (32, "of one fixed load")
    most = constant("I_fin", f"The table holds for circuits {label} up to", amps * A, place)
    soon = table("disconnection_time").read("t_41", "In final circuits, at 230 V", "230", "seconds", s)
    late = constant("t_5", "In all others", 5 * s, place)
    return choose(
        "t_off",
        "A fault to earth must be off within",
        (rating <= most, soon, "a final circuit"),
        (late, "larger than a final circuit"),
        unit=s,
        source=place,
    )


def lets_start(kind: str, rating: Quantity, peak: Quantity) -> Requirement:
    """Whether it surely lets a peak pass for a moment, as things start."""
    most = limit("I_hold", "Current that it surely lets pass for a moment", surely_holds(kind) * rating, A)
    return require(
        peak <= most,
        exact=True,
        label="Starts",
        yes="It lets things start.",
        no="It may open as things start: {left} for a moment, and it surely holds {right}. A type with a later magnet holds more.",
    )


def opens_at_the_far_end(kind: str, rating: Quantity, measured: Quantity | None) -> Requirement:
    """Whether a fault to earth at the far end opens it at once; never a go where nobody has measured the loop."""
    label, source = "Fault at the far end", IEC_60364_4_41.at("411.3.2, 411.4.4")
    if measured is None:
        return require(
            Statement("Whether a fault at the far end opens it is not known", True, source),
            comfortable=Statement("It is known", False, source),
            label=label,
            yes="",
            tight="It suits load and wire. Whether a fault at the far end opens it at once is not known: until it is measured, people rest on the 30 mA device alone.",
            no="",
        )
    asked = need("I_a", "Fault current that surely opens it at once", surely_opens(kind) * rating, A, source)
    return require(
        asked <= measured,
        label=label,
        yes="A fault at the far end opens it at once.",
        tight="A fault at the far end gives {right}, and {left} opens it at once: hot wires may give less.",
        no="A fault at the far end gives {right}; only {left} opens it at once.",
    )


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


def heat_held(kind: str, rating: Quantity) -> tuple[Quantity, Quantity]:
    """The heat (I/I_B)²·t [s] that it surely holds, and that at which it surely opens.

    Of the types: what 2.55 times the rating makes in the second in which none may open, and in the time in which all do.
    """
    hold, opens = "Heat that it surely holds, (I/I_B)²·t", "Heat at which it surely opens"
    if kind == US:
        return constant("H_hold", hold, 50 * s, COMMON_PRACTICE), constant("H_trip", opens, 270 * s, COMMON_PRACTICE)
    place = IEC_60898.at("Table 7 of IEC 60898-1")
    (times, column), _ = heat_points(kind)
    second = constant("t_hold", "None opens there within", 1 * s, place)
    return (
        step("H_hold", hold, times**2 * second, s, place),
        step("H_trip", opens, times**2 * opens_within(kind, rating, column), s, place),
    )


def _times(kind: str) -> Table:
    return table("breaker_heat_us" if kind == US else "breaker_heat_iec")
