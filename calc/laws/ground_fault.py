"""Ground-fault devices: how much current they let pass, and how soon they open."""

from __future__ import annotations

from calc.quantity import OutsideValidity, Quantity, choose, constant, exponential, log, need
from calc.sources import IEC_61008, UL_943
from calc.units import mA, one, s

CLASS_A = "Class A, 5 mA"


def no_trip_below(device: str) -> Quantity:
    """The leakage below which the device must not open [mA]."""
    if device == CLASS_A:
        return constant("I_no", "Leakage below which a Class A device must not open", 4 * mA, UL_943)
    return constant("I_no", "Leakage below which a 30 mA device must not open, half of it", 15 * mA, IEC_61008)


def trips_from(device: str) -> Quantity:
    """The fault current from which the device must open [mA]."""
    if device == CLASS_A:
        return constant("I_trip", "Fault current from which a Class A device must open", 6 * mA, UL_943)
    return constant("I_trip", "Fault current from which the device must open", 30 * mA, IEC_61008)


def longest_class_a_time(current: Quantity) -> Quantity:
    """The longest a Class A device may take [s]: (20 mA / I) to the power 1.43, from 6 mA up to 264 mA."""
    least = constant("I_6", "The least that the curve holds for", 6 * mA, UL_943)
    most = constant("I_264", "The most that the curve holds for; above it the time is the same", 264 * mA, UL_943)
    if (current < least).holds:
        raise OutsideValidity(f"Under {least} a Class A device need not open at all.")
    counted = choose(
        "I_c",
        "Current that the curve is read at",
        (current > most, most, "above the curve"),
        (current, "on the curve"),
        unit=mA,
    )
    scale = constant("I_20", "Scale of the curve", 20 * mA, UL_943)
    exponent = constant("k_t", "Exponent of the curve", 1.43 * one, UL_943)
    return need(
        "t_open", "Longest time until it opens", exponential(exponent * log(scale / counted)) * (1 * s), s, UL_943
    )


def longest_rcd_time(current: Quantity) -> Quantity:
    """The longest that a 30 mA device without delay may take [s], by its three steps."""
    rated = trips_from("")
    if (current < rated).holds:
        raise OutsideValidity(f"Under {rated} such a device need not open at all.")
    five = constant("k_5", "Times its rating, upper step", 5 * one, IEC_61008)
    slow = constant("t_1", "At its rating it opens within", 0.3 * s, IEC_61008)
    middle = constant("t_2", "At twice its rating it opens within", 0.15 * s, IEC_61008)
    fast = constant("t_5", "At five times its rating it opens within", 0.04 * s, IEC_61008)
    return choose(
        "t_open",
        "Longest time until it opens",
        (current >= five * rated, fast, "five times its rating or more"),
        (current >= 2 * rated, middle, "twice its rating or more"),
        (slow, "at its rating or more"),
        unit=s,
        source=IEC_61008,
    )
