"""An outlet that a tool is plugged into, as its pages ask of it: its breaker, the plug, and what feeds it."""

from __future__ import annotations

from calc.check import IEC, NEC, Requirement, ask_fact, pick, pick_fact, require
from calc.laws import breaker_trip, outlet, socket_iec
from calc.laws.inverter import SPLIT_PHASE
from calc.laws.outlet import FED_BY, INVERTER, WALL
from calc.laws.supply import LEGS, SAME_LEG, Supply
from calc.quantity import Quantity, constant, step
from calc.sources import COMMON_PRACTICE, NEC_2023
from calc.units import VA, A, s

FITS, GUARDED, PLAIN = "it fits", "through an adapter with a breaker of its own", "through a plain adapter"


class AtOutlet:
    """The outlet, the breaker before it, and how the plug goes in."""

    rules: str
    tool_volts: str
    lasting: str
    outlet: str = pick_fact("outlets.configuration", "5-20", rules=(NEC,))
    socket: str = pick_fact("outlets.socket", "blue 16 A", rules=(IEC,))
    breaker_type: str = pick(
        "Type of the breaker",
        {IEC: breaker_trip.TYPES},
        "type B",
        habit=True,
        help="The letter before its amps; type B holds a start the least",
    )
    breaker: Quantity = ask_fact("I_B", "outlets.breaker", 20 * A, common=(15 * A, 20 * A, 30 * A, 50 * A))
    other_amps: Quantity = ask_fact("I_x", "now.beside", 0 * A)
    plug: str = pick_fact("loads.plug", FITS)

    def where(self) -> str:
        return self.outlet if self.rules == NEC else f"{self.socket} socket"

    def breaker_kind(self) -> str:
        return breaker_trip.US if self.rules == NEC else self.breaker_type

    def at_the_outlet(self, running: Quantity) -> list[Requirement]:
        current = step("I_all", "Current with what else is on the breaker", running + self.other_amps, A)
        if self.rules == IEC:
            return [
                socket_iec.gives_volts(self.socket, self.tool_volts),
                socket_iec.breaker_before(self.socket, self.breaker),
                socket_iec.carries(self.socket, self.breaker, current, self.lasting == "yes"),
                *self._adapter(),
            ]
        rating = outlet.rating_of(self.outlet)
        return [
            outlet.gives_volts(self.outlet, self.tool_volts),
            outlet.has_ground(self.outlet),
            outlet.breaker_before(self.outlet, self.breaker, rating),
            outlet.carries(self.outlet, rating, self.breaker, current, self.lasting == "yes"),
            *self._adapter(),
        ]

    def _adapter(self) -> list[Requirement]:
        """A plain adapter leaves a small plug and its cord behind a large breaker."""
        if self.plug != PLAIN:
            return []
        if self.rules == NEC:
            most = constant("I_ad", "Largest breaker before a 15 or 20 A plug", 20 * A, NEC_2023.at("210.21(B)(3)"))
        else:
            most = constant("I_ad", "Largest breaker before a 16 A plug", 16 * A, COMMON_PRACTICE)
        no = "Behind a plain adapter the tool's cord hangs on the {left} breaker, which never feels a fault in it; {right} is the most."
        return [require(self.breaker <= most, label="Adapter", exact=True, yes="The breaker suits the plug.", no=no)]


class FedBy:
    """What feeds the outlet: the wall, or the inverter with what already runs on it."""

    rules: str
    tool_volts: str
    fed_by: str = pick_fact(
        "now.plugged_into",
        INVERTER,
        (INVERTER, WALL),
        label="What feeds the outlet",
        habit=True,
        help="On pass-through the wall feeds it",
        means=FED_BY,
    )
    continuous: Quantity = ask_fact(
        "P_r", "inverter.continuous", 5000 * VA, when={"fed_by": (INVERTER,)}, common=(3000 * VA, 5000 * VA, 6000 * VA)
    )
    surge: Quantity = ask_fact("P_s", "inverter.surge", 10_000 * VA, when={"fed_by": (INVERTER,)})
    surge_time: Quantity = ask_fact(
        "t_r", "inverter.surge_time", 5 * s, when={"fed_by": (INVERTER,)}, common=(0.5 * s, 2 * s, 5 * s, 10 * s)
    )
    system: str = pick_fact("inverter.system", SPLIT_PHASE, when={"fed_by": (INVERTER,)}, rules=(NEC,))
    one_leg: str = pick_fact("inverter.one_leg", "no", when={"system": (SPLIT_PHASE,)}, rules=(NEC,))
    running: Quantity = ask_fact(
        "S_x", "now.running", 0 * VA, when={"fed_by": (INVERTER,)}, help="The sum of their volt-amperes, or watts"
    )
    running_leg: str = pick(
        "They hang on",
        LEGS,
        SAME_LEG,
        rules=(NEC,),
        habit=True,
        when={"system": (SPLIT_PHASE,)},
        help="The leg that this outlet is on, the other one, or both",
    )

    def from_the_inverter(
        self, volts: Quantity, running: Quantity, flows: Quantity, lasts: Quantity
    ) -> list[Requirement]:
        if self.fed_by == WALL:
            return []
        supply = (
            Supply(self.system, self.one_leg, self.continuous, self.running, self.running_leg)
            if self.rules == NEC
            else Supply("230 V", "no", self.continuous, self.running, SAME_LEG)
        )
        return [
            supply.gives_volts(self.tool_volts),
            *supply.carries(volts * running, self.tool_volts),
            *supply.starts(volts * flows, self.tool_volts, self.surge, lasts, self.surge_time),
        ]
