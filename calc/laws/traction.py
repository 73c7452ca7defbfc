"""What a vehicle must pull with, and what its driven wheels can put on the ground."""

from __future__ import annotations

from calc.laws import slope
from calc.quantity import Quantity, constant, limit, need, step
from calc.sources import COMMON_PRACTICE, FROM_MEMORY, OWN_DERIVATION, Source
from calc.units import N, kg_per_m3, kW, mm

REAR, FRONT, ALL = "rear", "front", "all wheels"
DRIVEN = (REAR, FRONT, ALL)
STANDARD_ATMOSPHERE = Source("ISO 2533, Standard Atmosphere", "1975", FROM_MEMORY)


def air_drag(area: Quantity, speed: Quantity) -> Quantity:
    """Drag of the air at this speed [N], at sea level: the most it can be."""
    density = constant("ρ", "Density of air at 15 °C, sea level", 1.225 * kg_per_m3, STANDARD_ATMOSPHERE)
    return step("F_a", "Drag of the air", density * area * speed**2 / 2, N, OWN_DERIVATION)


def rolling(symbol: str, label: str, mass: Quantity, share: Quantity) -> Quantity:
    """Force that rolls a mass along the level [N]."""
    return step(symbol, label, mass * slope.gravity() * share, N, OWN_DERIVATION)


def climbing(vehicle: Quantity, towed: Quantity, grade: Quantity) -> Quantity:
    """Force that lifts both up the slope [N]."""
    return step(
        "F_g", "Force to climb", (vehicle + towed) * slope.gravity() * slope.sine(grade), N, OWN_DERIVATION, rounds=1
    )


def grip(
    driven: str,
    vehicle: Quantity,
    share: Quantity,
    tongue: Quantity,
    wheelbase: Quantity,
    overhang: Quantity,
    grade: Quantity,
    friction: Quantity,
) -> Quantity:
    """The most its driven wheels can put on this ground [N].

    The tongue presses on a rear axle and lifts a front one; a slope takes weight off the front. What a slope adds to
    the rear is not counted.
    """
    g, onto = slope.gravity(), slope.cosine(grade)
    tongue_force = tongue * g
    if driven == ALL:
        presses = step("N_d", "Weight on the driven wheels", vehicle * g * onto + tongue_force, N, OWN_DERIVATION)
    elif driven == REAR:
        presses = step(
            "N_d",
            "Weight on the driven wheels",
            share * vehicle * g * onto + tongue_force * (wheelbase + overhang) / wheelbase,
            N,
            OWN_DERIVATION,
        )
    else:
        height = constant("z_v", "Height of the vehicle's middle", 600 * mm, COMMON_PRACTICE)
        lifted = tongue_force * overhang / wheelbase + vehicle * g * slope.sine(grade) * height / wheelbase
        presses = step("N_d", "Weight on the driven wheels", share * vehicle * g * onto - lifted, N, OWN_DERIVATION)
    return limit("F_μ", "Most that the driven wheels can pull here", friction * presses, N, OWN_DERIVATION)


def power_at(force: Quantity, speed: Quantity, efficiency: Quantity) -> Quantity:
    """What the motor must give to pull with this force at this speed [W]."""
    return need("P", "Power it takes", force * speed / efficiency, kW, OWN_DERIVATION)
