"""What a rig does to the hitch when it is braked on a downgrade: it pushes on, and weight goes to or off the tongue.

Longitudinal load transfer of a vehicle with one axle and a hitch. What holds the rig back acts at the hitch where its
own wheels roll freely, at the ground where they brake; what drives it on acts at its centre of gravity. Moments about
the axle's line on the ground give the rest. Rolling resistance, which would help, is not counted.
"""

from __future__ import annotations

from calc.laws import slope
from calc.quantity import Quantity, need, step
from calc.sources import FROM_MEMORY, Source
from calc.units import N, kg, mm

LOAD_TRANSFER = Source("Longitudinal load transfer of a vehicle and its trailer, a text of vehicle dynamics", "", FROM_MEMORY)


def push(mass: Quantity, braking: Quantity, grade: Quantity) -> Quantity:
    """The push on the hitch of a rig whose own wheels do not brake, as the vehicle brakes downhill [N]: the most it is."""
    on = mass * (braking + slope.gravity() * slope.sine(grade))
    return need("F_h", "Push on the hitch, braking downhill", on, N, LOAD_TRANSFER)


def heaviest(tongue: Quantity, push: Quantity, height: Quantity, hitch: Quantity, drawbar: Quantity, brakes: bool) -> Quantity:
    """Mass that presses on the hitch meanwhile [kg]. With its own brake the whole height is the lever, or all but."""
    lever = height if brakes else height - hitch
    why = "its own brake holds it back, at the ground" if brakes else "the hitch alone holds it back"
    more = step("m_Δ", f"Mass that goes to the hitch: {why}", push * lever / drawbar / slope.gravity(), kg, LOAD_TRANSFER)
    return need("m_max", "Weight on the hitch, braking downhill", tongue + more, kg)


def lightest(tongue: Quantity, push: Quantity, height: Quantity, hitch: Quantity, drawbar: Quantity, grade: Quantity) -> Quantity:
    """The same at its least [kg]: of a middle lower than the hitch, weight goes off the tongue. Below 0 it lifts."""
    above = step("z_h", "Centre of gravity above the hitch", height - hitch, mm)
    less = push * above / drawbar / slope.gravity()
    return step("m_min", "Least weight on the hitch, braking downhill", tongue * slope.cosine(grade) + less, kg, LOAD_TRANSFER, rounds=-1)
