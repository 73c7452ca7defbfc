"""What an inverter draws from its bank: sagging volts, current at cut-off, and the ripple of a one-phase load."""

from __future__ import annotations

from calc.laws.inverter import losses
from calc.quantity import Quantity, constant, largest, limit, need, root, step
from calc.sources import DEFINITION, FROM_MEMORY, LOSS_MODEL, NEC_2023, OWN_DERIVATION
from calc.units import A, V, W, mohm, one


def power_taken(
    power: Quantity, idle: Quantity, peak_efficiency: Quantity, rating: Quantity, symbol: str, label: str
) -> Quantity:
    """What an inverter takes from the bank for this power [W], by the one loss model, under a name of its own."""
    a, b = losses(idle, peak_efficiency, rating)
    return need(symbol, label, idle + (1 + a) * power + b * power**2, W, LOSS_MODEL)


def most_power(rest: Quantity, resistance: Quantity) -> Quantity:
    """The most power that comes out of a bank [W]: at half its volts, E²/4R."""
    return limit(
        "P_top", "Most power that comes through this resistance", rest**2 / (2 * 2 * resistance), W, OWN_DERIVATION
    )


def volts_under(rest: Quantity, resistance: Quantity, power: Quantity, symbol: str, label: str) -> Quantity:
    """Volts of a bank that gives this power [V]: the upper root of V² − E·V + R·P = 0, for P up to E²/4R."""
    return limit(symbol, label, (rest + root(rest**2 - 2 * 2 * resistance * power)) / 2, V, OWN_DERIVATION)


def current_at(power: Quantity, volts: Quantity, symbol: str, label: str) -> Quantity:
    """Average direct current for a power at these volts [A]."""
    return need(symbol, label, power / volts, A)


def share_of_ripple(resistance: Quantity, inductance: Quantity, capacitance: Quantity, hertz: Quantity) -> Quantity:
    """The share of the ripple at twice the output frequency that the bank gives and not the inverter's capacitors [-].

    A one-phase output takes its power in pulses: i = I·(1 − cos 2ωt). The capacitors lie across the bank with its
    loop; near their resonance the share is above 1.
    """
    pi = constant("π", "Circumference over diameter", 3.141592653589793 * one, DEFINITION)
    coil = step("X_L", "Reactance of the loop at twice the frequency", 2 * pi * (2 * hertz) * inductance, mohm)
    store = step(
        "X_C", "Reactance of the capacitors at twice the frequency", 1 / (2 * pi * (2 * hertz) * capacitance), mohm
    )
    way = step("Z_r", "Opposition that the ripple meets", root(resistance**2 + (store - coil) ** 2), mohm)
    return step("h", "Share of the ripple that the bank gives", store / way, one, OWN_DERIVATION)


def effective(average: Quantity, share: Quantity) -> Quantity:
    """The current that heats cable and fuse [A]: average and ripple together."""
    return need("I_rms", "Current that heats, with ripple", average * root(1 + share**2 / 2), A, OWN_DERIVATION)


def whole_ripple(average: Quantity) -> Quantity:
    """The current that heats when the bank gives all of the ripple [A]: √1.5 of the average."""
    share = constant("h", "Share of the ripple that the bank gives, all of it", 1 * one, OWN_DERIVATION)
    return effective(average, share)


def lasting(average: Quantity) -> Quantity:
    """What lugs and fuse must be good for with a lasting current [A]: 125 %."""
    factor = constant(
        "k_c", "A load of three hours or more counts for", 1.25 * one, NEC_2023.at("215.2(A), 215.3", FROM_MEMORY)
    )
    return need("I_need", "Current that lugs and fuse must be good for", factor * average, A)


def design(average: Quantity, heating: Quantity) -> Quantity:
    """What cable and fuse are chosen for [A]: the greater of 125 % of the average, and the heating current."""
    return need("I_d", "Current to choose cable and fuse for", largest(lasting(average), heating), A)
