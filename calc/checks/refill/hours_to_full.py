"""The page /refill/hours-to-full/: hours to 80 %, 90 % and full, with the taper at the end.

Amp-hours over amps forgets that the charger eases off once it holds its highest volts, and that a cold or thin-wired
bank makes it do so early.
"""

from __future__ import annotations

from calc.check import (
    NEC,
    NO,
    PHYSICAL,
    Answer,
    Caution,
    Check,
    Example,
    Requirement,
    answer,
    ask,
    ask_fact,
    less,
    more,
    option,
    pick,
    pick_fact,
    require,
)
from calc.laws import stepping
from calc.laws.charging import charge_allowed
from calc.laws.inlet import OUTLETS, power_for_charger
from calc.laws.open_circuit import rest_volts, stepped_bank
from calc.quantity import Quantity, constant, limit, need, root, smallest, step, stepped
from calc.sources import COMMON_PRACTICE, OWN_DERIVATION, SOLVER
from calc.units import A, Ah, V, W, degC, h, kWh, mohm, one, percent

MARKS = {"80 %": 80 * percent, "90 %": 90 * percent}
FULL = "full"


class HoursToFull(Check):
    """How long until it is at 80 %, 90 % or full?"""

    title = "Hours to full"
    headline = "time_to_mark"
    rule_sets = (NEC,)

    mark: str = pick("Fill to", (*MARKS, FULL), FULL, habit=True, help="The last tenth takes longer than its share")
    time_there_is: Quantity = ask_fact("t_w", "place.refill_time", 8 * h, wish="the most", common=(2 * h, 8 * h, 12 * h))
    charge: Quantity = ask_fact("q", "now.charge", 20 * percent, common=(20 * percent, 50 * percent))
    outlet: str = pick_fact("inlet.outlet", "L5-30", OUTLETS)
    set_to: Quantity = ask_fact("I_set", "inverter.input_limit", 24 * A, common=(12 * A, 16 * A, 24 * A))
    running: Quantity = ask_fact(
        "S_x", "now.running", 0 * W, help="Tools that run while it refills; on 120/240 V those of the busier leg"
    )
    charger_set: Quantity = ask_fact("I_cs", "inverter.charger_set", 40 * A)
    charger_efficiency: Quantity = ask_fact("η_c", "inverter.charger_efficiency", 92 * percent)
    charge_volts: Quantity = ask_fact("V_cv", "bank.highest_volts", 57.6 * V)
    tail: Quantity = ask(
        "k_t",
        "Current at which it counts as full, of the capacity per hour",
        5 * percent,
        low=1 * percent,
        high=20 * percent,
        habit=True,
        help="In the charger's settings: tail or end current; 5 % is usual",
    )
    chemistry: str = pick_fact("bank.chemistry", "LFP")
    series: Quantity = ask_fact("N_s", "bank.series", 16 * one)
    strings: Quantity = ask_fact("N_p", "bank.strings", 2 * one)
    capacity: Quantity = ask_fact("Q_s", "bank.capacity", 100 * Ah)
    resistance: Quantity = ask_fact("R_b", "bank.resistance", 14 * mohm)
    charge_limit: Quantity = ask_fact("I_ch", "bank.charge_limit", 50 * A)
    cells: Quantity = ask_fact("θ_c", "now.cells", 20 * degC)

    def solve(self) -> Answer:
        capacity = step("Q", "Capacity of the bank", self.strings * self.capacity, Ah)
        one_string, why = charge_allowed(self.chemistry, self.cells, self.capacity, self.charge_limit)
        allowed = limit(
            "I_b", "Charging current the bank allows", self.strings * smallest(one_string, self.charge_limit), A
        )
        amps = limit("I", "Charging current at most", smallest(self.charger_set, allowed), A)
        ac, _ = power_for_charger(self.outlet, self.set_to, self.running)
        watts = limit("P", "Power into the bank at most", ac * self.charger_efficiency, W)
        for needed in self._something_flows(allowed, why, watts):
            if needed.verdict == NO:
                return answer(needed, say="", allowed=allowed)
        tail = step("I_e", "Current at which it counts as full", self.tail * capacity / (1 * h), A)
        rests_on = (self._one_row(capacity, amps, watts), tail)
        bank = stepped_bank(self.chemistry, capacity, self.resistance, self.series)
        rows = stepping.fill(bank, self.charge.si, watts.si, amps.si, self.charge_volts.si, tail.si)
        held = stepping.holds_from(bank, rows, self.charge_volts.si)
        return self._read_off(rows, held, rests_on, capacity, amps)

    def _something_flows(self, allowed: Quantity, why: str, watts: Quantity) -> tuple[Requirement, ...]:
        """What keeps a charger from filling at all."""
        rest = rest_volts(self.chemistry, self.charge, self.series)
        return (
            require(
                allowed > 0 * A,
                label="Cells",
                exact=True,
                yes="The cells take a charge.",
                no=f"Cells at {self.cells} take no charge. {why}",
            ),
            require(
                watts > 0 * W,
                label="Source",
                exact=True,
                yes="Something is left for the charger.",
                no="The tools take all that the inlet may draw: nothing is left for the bank.",
            ),
            require(
                self.charge_volts > rest,
                label="Charger's volts",
                exact=True,
                yes="The charger is above the bank.",
                no="The charger holds {left}; the bank rests at {right}: nothing flows.",
            ),
        )

    def _one_row(self, capacity: Quantity, amps: Quantity, watts: Quantity) -> Quantity:
        """The first step worked by hand: a thousandth of the charge, at its middle."""
        share = constant("Δq", "Charge of one step", stepping.SHARE * one, OWN_DERIVATION)
        middle = step(
            "q_m", "Charge in the middle of the first step", smallest(self.charge + share / 2, 1 * one), percent
        )
        rest = rest_volts(self.chemistry, middle, self.series)
        by_power = limit(
            "I_p", "Current by the power there is",
            2 * watts / (rest + root(rest**2 + 2 * 2 * self.resistance * watts)), A, OWN_DERIVATION,
        )  # fmt: skip
        by_volts = limit(
            "I_v", "Current by the highest volts", (self.charge_volts - rest) / self.resistance, A, OWN_DERIVATION
        )
        flows = limit("I_1", "Current in the first step", smallest(amps, by_power, by_volts), A)
        return step("Δt", "Time of the first step", capacity * share / flows, h, OWN_DERIVATION)

    def _read_off(
        self, rows: list[stepping.Row], held: float, rests_on: tuple[Quantity, ...], capacity: Quantity, amps: Quantity
    ) -> Answer:
        at_end = stepped("q_f", "Charge when it counts as full", rows[-1].charge, percent, rests_on, rounds=-1)
        seconds = {name: stepping.seconds_at(rows, mark.si) for name, mark in MARKS.items()} | {FULL: rows[-1].seconds}
        times = {
            name: stepped(f"t_{name.split()[0]}", f"Hours to {name}", passed, h, rests_on, rounds=1)
            for name, passed in seconds.items()
            if passed is not None
        }
        gets_there = self._gets_there(at_end)
        if gets_there.verdict == NO:
            return answer(gets_there, say="", charge_at_end=at_end)
        wanted = times[self.mark]
        into = stepped("E_in", "Energy into the bank", rows[-1].joules, kWh, rests_on)
        naive = step("t_n", "Amp-hours over amps", capacity * (1 - self.charge) / amps, h)
        return answer(
            gets_there,
            require(
                wanted <= self.time_there_is,
                label="Time",
                rule=PHYSICAL,
                yes="There is time.",
                tight=f"It takes {{left}} to {self.mark}, of the {{right}} there is.",
                no=f"It takes {{left}} to {self.mark}; there is {{right}}.",
            ),
            say=f"It takes {wanted} to {self.mark}; balancing of the cells comes on top.",
            notes=(f"Amp-hours over amps would say {naive} to full.",),
            time_to_mark=wanted,
            **{f"time_to_{name.split()[0]}": hours for name, hours in times.items() if name != self.mark},
            charge_at_end=at_end,
            falls_from=stepped("q_e", "Charge from which the current falls", held, percent, rests_on),
            energy_in=into,
            energy_from_source=need("E_w", "Energy from the source", into / self.charger_efficiency, kWh),
        )

    def _gets_there(self, at_end: Quantity) -> Requirement:
        """A charger that eases off early calls it full long before it is."""
        full = constant("q_full", "Charge that passes for full", 95 * percent, COMMON_PRACTICE)
        return require(
            at_end >= MARKS.get(self.mark, full),
            label="Fills",
            exact=True,
            yes="The charger gets it there.",
            no="With these volts and this resistance the charger stops at {left}; it never gets to {right}.",
        )

    fixes = (
        more("time_there_is", 0.5 * h, "Plan {time_there_is} for it"),
        option("mark", "90 %", "Fill it to 90 % only"),
        option("mark", "80 %", "Fill it to 80 % only"),
        less("running", 50 * W, "Run tools of {running} at most meanwhile"),
        more("charger_set", 5 * A, "Set the charger to {charger_set}", costs="never above what the cells allow"),
    )
    cautions = (
        Caution(
            "WARNING",
            "Charging frozen cells plates metal lithium inside them",
            "The cell can short and burn days later",
            "Never charge below 0 °C at the cell; warm them first, or wait",
        ),
        Caution(
            "CAUTION",
            "Hours of full current find every loose contact at plug and cord",
            "They melt and can burn",
            "Feel the plug after ten minutes; uncoil the cord",
        ),
        Caution(
            "NOTICE",
            "Balancing at the top cannot be foretold",
            "A bank that was out of balance needs hours more, or days",
            "Let it stand at the top now and then; go by each cell's volts, not by the clock",
        ),
    )
    examples = (
        Example(
            given={
                "charge": "20", "capacity": "280", "strings": "1", "resistance": "20", "charger_set": "140",
                "charge_limit": "140", "cells": "20 °C", "set_to": "100", "outlet": "14-60", "charge_volts": "56.8",
                "time_there_is": "10 h",
            },
            expect={"time_to_mark": "1.64 h"},
            within=0.005,
            verdict="go",
            source=SOLVER.at("the same curve by an adaptive Runge-Kutta solver: 1.64 h, where amp-hours over amps say 1.60 h"),
        ),
        Example(
            given={"charge": "0", "cells": "20 °C", "set_to": "12", "outlet": "5-15", "charge_volts": "57.6", "time_there_is": "4 h"},
            verdict="no",
            source=COMMON_PRACTICE.at("10 kWh at 1.3 kW is most of a working day"),
        ),
    )  # fmt: skip
