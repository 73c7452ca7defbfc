"""Filling the capacitors of an inverter through a resistor, and what flows when the contactor closes on them."""

from __future__ import annotations

import math

from calc.quantity import Condition, Quantity, constant, exponential, limit, log, need, root, step
from calc.sources import DEFINITION, OWN_DERIVATION
from calc.units import A, V, W, mohm, ms, one, s


def end_with_resistance(source: Quantity, series: Quantity, load: Quantity) -> Quantity:
    """Volts at which it stops beside a resistance that stays on [V]: a divider."""
    return limit("V_f", "Volts at which it stops", source * load / (series + load), V, OWN_DERIVATION)


def end_with_power(source: Quantity, series: Quantity, power: Quantity) -> tuple[Quantity, Quantity]:
    """The lower and the upper volts at which electronics of constant power take just what comes through [V]."""
    half = step("V_h", "Half of what the root leaves", root(source**2 - 2 * 2 * series * power) / 2, V, OWN_DERIVATION)
    upper = limit("V_f", "Volts at which it stops", source / 2 + half, V, OWN_DERIVATION)
    return need("V_d", "Volts under which it would fall back", source / 2 - half, V, OWN_DERIVATION), upper


def wakes_through(source: Quantity, series: Quantity, power: Quantity, wake: Quantity) -> Condition:
    """Whether more comes through at the volts where the electronics wake than they then take."""
    return power < limit(
        "P_w", "Power that comes through as they wake", wake * (source - wake) / series, W, OWN_DERIVATION
    )


def time_alone(source: Quantity, tau: Quantity, gap: Quantity) -> Quantity:
    """Time until only `gap` volts are missing, with nothing on the other side [s]."""
    return need("t_pre", "Time until it is near enough", tau * log(source / gap), s, OWN_DERIVATION)


def time_with_resistance(
    source: Quantity, tau: Quantity, series: Quantity, load: Quantity, end: Quantity, gap: Quantity
) -> Quantity:
    """The same beside a resistance: the time constant is that of both in parallel, the aim is the lower end."""
    both = step("τ_2", "Time constant with both resistances", tau * load / (series + load), ms, OWN_DERIVATION)
    return need("t_pre", "Time until it is near enough", both * log(end / (end - (source - gap))), s, OWN_DERIVATION)


def time_with_power(
    source: Quantity, tau: Quantity, lower: Quantity, upper: Quantity, wake: Quantity, gap: Quantity
) -> Quantity:
    """The same beside electronics that wake at some volts and then hold their power [s].

    dv/dt = (V − v)/RC − P/(Cv), taken apart at its two roots and summed in closed form.
    """
    asleep = step("t_a", "Time until they wake", tau * log(source / (source - wake)), s, OWN_DERIVATION)
    aim = step("V_aim", "Volts that are near enough", source - gap, V)
    low_part = lower * log((aim - lower) / (wake - lower))
    high_part = upper * log((upper - wake) / (upper - aim))
    awake = step("t_b", "Time from there on", tau / (upper - lower) * (low_part + high_part), s, OWN_DERIVATION)
    return need("t_pre", "Time until it is near enough", asleep + awake, s)


def closing(
    volts: Quantity, loop: Quantity, inductance: Quantity, capacitance: Quantity, tag: str, what: str
) -> tuple[Quantity, Quantity]:
    """The peak of the current when a contactor closes over these volts [A], and how far the capacitors swing up [V].

    Not volts over resistance: the loop's inductance holds the current back, and then drives the capacitors above the
    source. Where the loop is damped, volts over resistance is the bound and nothing swings.
    """
    damping = step("τ_L", "Time in which the loop's swing dies", 2 * inductance / loop, ms, OWN_DERIVATION)
    period = step(
        "T_0", "Time of the swing without damping, over 2π", root(inductance * capacitance), ms, OWN_DERIVATION
    )
    if (period >= damping).holds:
        return need(f"I_{tag}", f"Peak current {what}, at most", volts / loop, A, OWN_DERIVATION), volts
    wave = step("Z_0", "Opposition of the swing", root(inductance / capacitance), mohm, OWN_DERIVATION)
    swing = step(
        "T_d", "Time of the swing with damping, over 2π", 1 / root(1 / period**2 - 1 / damping**2), ms, OWN_DERIVATION
    )
    at = float(f"{swing.si * math.atan(damping.si / swing.si) / ms.factor:.6g}")
    peak_at = constant(
        "t_p", "When the current peaks", at * ms, OWN_DERIVATION, note="found by trial: there it stops rising"
    )
    peak = need(f"I_{tag}", f"Peak current {what}", volts / wave * exponential(-peak_at / damping), A, OWN_DERIVATION)
    pi = constant("π", "Half a turn", 3.14159265 * one, DEFINITION)
    return peak, volts * (1 + exponential(-(pi * swing) / damping))
