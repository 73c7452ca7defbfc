"""What feeds several loads: the inverter, or the wall by way of inlet and relay. How much, on which legs, for how long."""

from __future__ import annotations

from dataclasses import dataclass

from calc.check import Requirement, require
from calc.laws.breaker_trip import US, surely_holds
from calc.laws.inverter import SPLIT_PHASE, SYSTEMS, limit_of_one_leg
from calc.laws.outlet import continuous_factor, volts_of
from calc.quantity import Condition, Quantity, Statement, constant, limit, smallest
from calc.sources import ANSI_C84_1, COMMON_PRACTICE
from calc.tables import table
from calc.units import VA, A, V


@dataclass(frozen=True)
class LoadSource:
    """whole, surge: volt-amperes for long and for a moment; leg, leg_surge: of one leg, where there are two."""

    name: str
    whole: Quantity
    surge: Quantity
    volts: tuple[str, ...]
    leg: Quantity | None = None
    leg_surge: Quantity | None = None
    gives_up: str = "switches off"
    for_hours: bool = False  # whether what lasts three hours has to be counted for more

    def easy(self, load: Quantity, most: Quantity) -> Condition | None:
        """What makes it comfortable: of a wall's breaker, that it may last for hours."""
        return continuous_factor() * load <= most if self.for_hours else None

    def gives(self, volts: str, load: str) -> list[Requirement]:
        """Whether these volts are there at all; asked of a wall's inlet, whose pattern says it."""
        if volts in self.volts or not self.for_hours:
            return []
        return [
            require(
                Statement(f"{self.name} has {' and '.join(self.volts)}", False, table("outlets").source),
                label=f"Volts of load {load}",
                yes="",
                no=f"{self.name} passes {' and '.join(self.volts)}: load {load} of {volts} has no supply while it is plugged in.",
            )
        ]


def inverter(continuous: Quantity, surge: Quantity, system: str, one_leg: str, by_legs: bool) -> LoadSource:
    """The rig's own inverter; by_legs: whether it has two legs that are held apart."""
    if not by_legs or system != SPLIT_PHASE:
        return LoadSource("The inverter", continuous, surge, SYSTEMS.get(system, ("230 V",)))
    leg = limit_of_one_leg(continuous, one_leg)
    leg_surge = limit_of_one_leg(surge, one_leg, "P_sl", "Most that one leg may give for a moment")
    return LoadSource("The inverter", continuous, surge, SYSTEMS[system], leg, leg_surge)


def inlet(pattern: str | None, breaker: Quantity, rating: Quantity, relay: Quantity) -> LoadSource:
    """The wall, through an inlet of this pattern (of 230 V where there is none): the least of all on the way."""
    most = limit("I_thr", "Most amps of one hot through the inlet", smallest(breaker, rating, relay), A)
    given = volts_of(pattern) if pattern else ("230 V",)
    two_hots = "240 V" in given
    holds = surely_holds(US)
    leg_volts = constant("V_leg", "Nominal volts of a leg", 120 * V, ANSI_C84_1)
    over = constant("V_in", "Nominal volts between the hots", 240 * V, ANSI_C84_1)
    if not two_hots:
        over = constant("V_in", "Nominal volts of the inlet", (120 if pattern else 230) * V, COMMON_PRACTICE)
    whole = limit("P_in", "Most that passes the inlet for long", over * most, VA)
    surge = limit("P_ins", "Most that the wall's breaker surely holds for a moment", holds * whole, VA)
    leg = leg_surge = None
    if "120 V" in given and two_hots:
        leg = limit("P_leg", "Most that passes on one leg", leg_volts * most, VA)
        leg_surge = limit("P_sl", "Most that it surely holds on one leg for a moment", holds * leg, VA)
    name = f"The {pattern} inlet" if pattern else "The inlet"
    return LoadSource(name, whole, surge, given, leg, leg_surge, "opens the wall's breaker", for_hours=True)
