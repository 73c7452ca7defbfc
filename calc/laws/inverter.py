"""What an inverter takes from the bank for what it gives."""

from __future__ import annotations

from calc.quantity import OutsideValidity, Quantity, Statement, alternative, constant, limit, step
from calc.sources import COMMON_PRACTICE, LOSS_MODEL, OWN_DERIVATION
from calc.units import A, W, one, per_W, percent

SPLIT_PHASE = "120/240 V split-phase"
SYSTEMS = {"120 V": ("120 V",), SPLIT_PHASE: ("120 V", "240 V"), "240 V": ("240 V",), "230 V": ("230 V",)}


def offers(system: str, volts: str) -> Statement:
    """Whether an inverter of this output system gives these volts."""
    gives = volts in SYSTEMS[system]
    return Statement(f"An inverter of {system} {'gives' if gives else 'has no'} {volts}", gives, OWN_DERIVATION)


def losses(idle: Quantity, peak_efficiency: Quantity, rating: Quantity) -> tuple[Quantity, Quantity]:
    """The proportional and the resistive loss, a [-] and b [1/W], of P_dc = P₀ + (1 + a)·P + b·P².

    b is what makes the best efficiency come out as the plate says; it then lies at P = √(P₀/b) = 2·P₀/g.
    Raises OutsideValidity where the two figures cannot belong to one inverter.
    """
    a = constant("a", "Loss that grows with the power", 0.03 * one, LOSS_MODEL)
    room = step(
        "g", "Loss left for idle and resistance, at the best point", 1 / peak_efficiency - 1 - a, one, OWN_DERIVATION
    )
    if room.si <= 0:
        raise OutsideValidity(
            f"A best efficiency of {peak_efficiency} is more than the loss model can hold: it needs less than 97 %."
        )
    best = 2 * idle / room
    least = constant(
        "s_best", "Least share of the rating at which an inverter is at its best", 8 * percent, COMMON_PRACTICE
    )
    if (best < least * rating).holds:
        raise OutsideValidity(
            f"An idle draw of {idle} and a best efficiency of {peak_efficiency} do not fit together: one of the two is not this inverter's."
        )
    b = step("b", "Loss that grows with the square of the power", (room / 2) ** 2 / idle, per_W, OWN_DERIVATION)
    return a, b


def power_from_bank(power: Quantity, idle: Quantity, peak_efficiency: Quantity, rating: Quantity) -> Quantity:
    """P_dc [W], taken from the bank while `power` [W] is delivered."""
    a, b = losses(idle, peak_efficiency, rating)
    return step("P_dc", "Power taken from the bank", idle + (1 + a) * power + b * power**2, W, LOSS_MODEL)


def fault_current(times: Quantity, power: Quantity, volts: Quantity) -> Quantity:
    """What the inverter gives into a short [A]: some times its rated current, whatever the wire would carry."""
    return limit("I_inv", "Current that the inverter gives into a short", times * power / volts, A)


def limit_of_one_leg(
    continuous: Quantity, one_leg: str, symbol: str = "P_leg", label: str = "Most that one 120 V leg may give"
) -> Quantity:
    """A split-phase inverter gives half its rating on each leg, unless its plate says full power on one [W]."""
    if one_leg == "yes":
        return alternative(symbol, label, continuous, "the plate says full power on one leg", continuous.unit)
    return alternative(
        symbol,
        label,
        continuous / 2,
        "half the rating on each of the two legs, as the plate does not say full power on one",
        continuous.unit,
        COMMON_PRACTICE,
    )
