"""The page /refill/inlet-rate/: how much of what the inlet gives is left for charging while tools pass through.

What tools take is taken first. The weakest of breaker, outlet, inlet, cord and relay sets what may be drawn at all.
"""

from __future__ import annotations

from calc.check import NEC, Answer, Caution, Check, Example, answer, ask_fact, less, pick_fact, require
from calc.laws.inlet import OUTLETS, power_for_charger
from calc.quantity import Quantity, constant, largest, limit, need, read, rounded_down, smallest, step
from calc.sources import COMMON_PRACTICE, NEC_2023, OWN_DERIVATION
from calc.tables import table
from calc.units import A, V, W, kW, one, percent


class InletRate(Check):
    """How fast may I refill from this outlet, with tools passing through?"""

    title = "Refill from an outlet"
    headline = "charging_power"
    rule_sets = (NEC,)

    outlet: str = pick_fact("inlet.outlet", "L5-30", OUTLETS)
    breaker: Quantity = ask_fact("I_W", "inlet.breaker", 30 * A, common=(15 * A, 20 * A, 30 * A, 50 * A))
    shared: Quantity = ask_fact("I_sh", "now.shared", 0 * A)
    inlet: Quantity = ask_fact("I_in", "inlet.rating", 30 * A)
    cord: str = pick_fact("inlet.cord_size", "10 AWG")
    relay: Quantity = ask_fact("I_rel", "inverter.pass_through", 50 * A)
    set_to: Quantity = ask_fact("I_set", "inverter.input_limit", 24 * A, common=(12 * A, 16 * A, 24 * A))
    running: Quantity = ask_fact(
        "S_x", "now.running", 0 * W, help="Tools that run while it refills; on 120/240 V those of the busier leg"
    )
    charger_amps: Quantity = ask_fact("I_dc", "inverter.charger_amps", 80 * A)
    charger_efficiency: Quantity = ask_fact("η_c", "inverter.charger_efficiency", 92 * percent)
    bank_volts: Quantity = ask_fact("V_b", "bank.nominal_volts", 51.2 * V)

    def solve(self) -> Answer:
        at_charger, tools = power_for_charger(self.outlet, self.set_to, self.running)
        drawn = need("I_x", "Current drawn from the wall", largest(self.set_to, tools), A)
        most, lasting = self._limits()
        by_wall = limit("P_w", "Of that into the bank", at_charger * self.charger_efficiency, W)
        by_charger = limit("P_c", "What the charger gives at most", self.charger_amps * self.bank_volts, W)
        power = limit("P", "Power into the bank", smallest(by_wall, by_charger), kW)
        ruling = (
            "the charger's own limit"
            if (by_charger < by_wall).holds
            else "the current it is set to, less what the tools take"
        )
        return answer(
            require(
                drawn <= most,
                comfortable=drawn <= lasting,
                label="What may be drawn",
                yes="Everything on the way carries it for hours.",
                tight="{left} is drawn where {right} may be: for less than three hours only.",
                no="{left} is drawn where {right} may be: a breaker trips, or a plug or cord overheats.",
            ),
            require(
                tools <= self.set_to,
                label="Tools and the setting",
                yes="Something is left for the charger.",
                tight="The tools take {left} of the {right} it may draw: it hardly refills.",
                no="The tools alone take {left}, above the {right} it is set to: nothing is left, and the bank or the wall's breaker gives way.",
            ),
            say=f"It refills at {power}, set by {ruling}.",
            notes=self._naive(power),
            charging_power=power,
            charger_input=at_charger,
            charging_current=limit("I_b", "Current into the bank", power / self.bank_volts, A),
            best_setting=limit(
                "I_best", "Highest setting for hours on end", rounded_down(largest(lasting, 0 * A), A), A
            ),
            drawn=drawn,
        )

    def _limits(self) -> tuple[Quantity, Quantity]:
        """The most that may be drawn for a while, and for three hours or more."""
        known = table("outlets")
        plug = read("I_pl", f"Rating of a {self.outlet}", known.value(self.outlet, "amps", A), known.source)
        carrying = "two carrying" if known.text(self.outlet, "wires") == "3" else "three carrying"
        cord = table("flexible_cord").read("I_cord", f"What a {self.cord} cord carries", self.cord, carrying)
        factor = constant("k_c", "What runs for three hours counts", 1.25 * one, NEC_2023.at("210.20(A), 625.42"))
        for_hours = smallest(self.breaker / factor - self.shared, plug / factor, self.inlet / factor, cord, self.relay)
        for_a_while = smallest(self.breaker - self.shared, plug, self.inlet, cord, self.relay)
        return (
            limit("I_top", "Most that may be drawn for a while", for_a_while, A, OWN_DERIVATION),
            limit("I_long", "Most that may be drawn for hours", for_hours, A, OWN_DERIVATION),
        )

    def _naive(self, power: Quantity) -> tuple[str, ...]:
        volts = table("outlets").value(self.outlet, "volts", V)
        careless = step("P_n", "Breaker times volts", volts * self.breaker, kW)
        return (f"Breaker times volts would say {careless}; what goes into the bank is {power}.",)

    fixes = (
        less("set_to", 1 * A, "Set the input limit to {set_to}", costs="it refills longer"),
        less("running", 50 * W, "Run tools of {running} at most while it refills"),
        less("shared", 0.5 * A, "Switch off other things on the building's circuit, down to {shared}"),
    )
    cautions = (
        Caution(
            "WARNING",
            "A plug that carries its current for hours finds every loose contact",
            "It melts, and can set fire to the wall behind it",
            "Feel the plug after ten minutes and after an hour; too warm to hold, about 50 °C, means stop",
        ),
        Caution(
            "CAUTION",
            "A tool's start passes through to the building's breaker",
            "It trips where you cannot reset it, and everything on it goes dark",
            "Start big motors on the bank, with the inlet unplugged or the support from the bank switched on",
        ),
        Caution(
            "WARNING",
            "An adapter hides a small circuit behind a large plug",
            "The building's wire is overloaded by what a large inlet may draw",
            "Set the input limit for the smallest breaker in the chain; where it cannot be seen, for 15 A",
        ),
    )
    examples = (
        Example(
            given={"outlet": "5-15", "breaker": "15", "set_to": "12", "bank_volts": "52"},
            expect={"charger_input": "1440 W", "best_setting": "12 A", "charging_power": "1.325 kW", "charging_current": "25.5 A"},
            verdict="go",
            source=NEC_2023.at("210.20(A): 12 A for hours times 1.25 is 15 A"),
        ),
        Example(
            given={"outlet": "5-15", "breaker": "15", "set_to": "12", "running": "700", "bank_volts": "52"},
            expect={"charger_input": "740 W", "charging_power": "0.681 kW"},
            verdict="go",
            source=COMMON_PRACTICE.at("1440 W less 700 W of tools, at 92 %"),
        ),
        Example(
            given={"outlet": "14-50", "breaker": "50", "inlet": "50", "cord": "6 AWG", "set_to": "40", "running": "2400", "charger_amps": "200"},
            expect={"charger_input": "4800 W", "best_setting": "40 A"},
            verdict="go",
            source=NEC_2023.at("210.20(A): 40 A on 50 A; a 20 A tool on one leg leaves 20 A at 240 V"),
        ),
        Example(
            given={"outlet": "5-15", "breaker": "15", "set_to": "15"},
            verdict="tight",
            source=NEC_2023.at("210.20(A): 15 A on a 15 A breaker for less than three hours"),
        ),
        Example(
            given={"outlet": "5-20", "breaker": "20", "set_to": "16", "shared": "5"},
            verdict="no",
            source=NEC_2023.at("210.23: all loads of a circuit count; 21 A on 20 A"),
        ),
    )  # fmt: skip
