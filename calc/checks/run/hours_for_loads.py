"""The page /run/hours-for-loads/: how long the bank carries a list of loads that come and go.

What the inverter takes for itself runs all day and rules small loads; the resistive loss goes with the mean of the
square, not with the square of the mean.
"""

from __future__ import annotations

from calc.check import (
    PHYSICAL,
    Answer,
    Caution,
    Check,
    Example,
    Requirement,
    answer,
    ask_fact,
    each,
    how_many,
    less,
    more,
    option,
    pick_fact,
    require,
)
from calc.laws import duty
from calc.laws.battery import energy_to_hand, share_in_the_cold
from calc.laws.inverter import losses
from calc.quantity import OutsideValidity, Quantity, alternative, constant, largest, limit, need, root, smallest, step
from calc.sources import COMMON_PRACTICE, DEFINITION, LOSS_MODEL, OWN_DERIVATION
from calc.units import V, W, degC, h, kWh, mohm, one, percent

COUNTS = tuple(str(number) for number in range(1, 11))
STAYS_ON, SWITCHED_OFF = "stays on", "switched off when nothing runs"


class HoursForLoads(Check):
    """How long will it run these things?"""

    title = "Hours for the loads"
    headline = "hours"

    time_wanted: Quantity = ask_fact("t_w", "place.last_hours", 24 * h, wish="the least", common=(8 * h, 24 * h, 48 * h))
    count: str = how_many(
        "loads", "How many loads", COUNTS, "4", "Those with hours of their own; a steady rest goes below"
    )
    each_load = each(
        "loads",
        "count",
        COUNTS,
        watts=ask_fact("P", "loads.running_watts", 500 * W),
        hours=ask_fact("h", "loads.hours", 2 * h),
    )
    running: Quantity = ask_fact("S_x", "now.running", 0 * W, help="What runs all the time besides those loads")
    between: str = pick_fact("inverter.between", STAYS_ON, habit=True)
    idle: Quantity = ask_fact("P₀", "inverter.idle", 60 * W, common=(25 * W, 55 * W, 90 * W))
    peak_efficiency: Quantity = ask_fact("η", "inverter.peak_efficiency", 93 * percent)
    continuous: Quantity = ask_fact("P_r", "inverter.continuous", 5000 * W)
    bank_energy: Quantity = ask_fact("E_n", "bank.energy", 10.2 * kWh, common=(5.1 * kWh, 10.2 * kWh, 15.4 * kWh))
    bank_volts: Quantity = ask_fact("V_b", "bank.nominal_volts", 51.2 * V)
    resistance: Quantity = ask_fact("R_b", "bank.resistance", 14 * mohm)
    cutoff: Quantity = ask_fact("V_co", "inverter.cutoff", 46 * V)
    health: Quantity = ask_fact("s", "bank.health", 100 * percent)
    charge: Quantity = ask_fact("q", "now.charge", 100 * percent, common=(50 * percent, 75 * percent, 100 * percent))
    reserve: Quantity = ask_fact("q_r", "bank.reserve", 10 * percent)
    cells: Quantity = ask_fact("θ_c", "now.cells", 20 * degC)

    def solve(self) -> Answer:
        something = require(
            self.charge > self.reserve,
            label="Charge",
            exact=True,
            yes="There is charge above what is kept back.",
            no="There is {left} left and {right} is kept back: nothing for the loads.",
        )
        if something.verdict == "no":
            return answer(something, say="", charge_left=self.charge)
        mean, rms, on = self._means()
        a, b = losses(self.idle, self.peak_efficiency, self.continuous)
        own = step("P_own", "Of that what the inverter takes to be on", on * self.idle, W)
        from_bank = need("P_dc", "Mean power taken from the bank", own + (1 + a) * mean + b * rms**2, W, LOSS_MODEL)
        sag = need(
            "P_R", "Mean heat in the bank and its leads",
            self.resistance * (from_bank / self.bank_volts) ** 2, W, OWN_DERIVATION,
        )  # fmt: skip
        cold = share_in_the_cold(self.cells)
        energy = energy_to_hand(self.bank_energy, self.health, self.charge, self.reserve, cold)
        hours = limit("t", "Hours until the reserve", energy / (from_bank + sag), h)
        share = step("k_own", "Share that the inverter's idle draw takes", own / (from_bank + sag), percent)
        return answer(
            something,
            require(
                hours >= self.time_wanted,
                label="Time",
                rule=PHYSICAL,
                yes="It lasts.",
                tight="It lasts {left} of the {right} wanted, with little to spare.",
                no="It lasts {left}; {right} is wanted.",
            ),
            self._volts_hold(a, b),
            say=f"It runs these for {hours}; the inverter itself takes {share} of it.",
            notes=self._notes(mean, energy, hours),
            hours=hours,
            mean_power=mean,
            power_from_bank=from_bank,
            idle_share=share,
            energy_to_hand=energy,
            energy_at_outlets=limit("E_out", "Energy the loads take in that time", mean * hours, kWh),
        )

    def _volts_hold(self, a: Quantity, b: Quantity) -> Requirement:
        """Toward the end of the charge the largest load still has to find the volts."""
        watts = largest(*self.of_each("watts"))
        most = need("P_top", "Power of the largest load, with what runs all the time", watts + self.running, W)
        drawn = need(
            "P_dc2", "Power taken from the bank for it", self.idle + (1 + a) * most + b * most**2, W, LOSS_MODEL
        )
        under = self.bank_volts**2 - 2 * 2 * self.resistance * drawn
        if under.si < 0:
            raise OutsideValidity(f"The bank cannot give {drawn} through {self.resistance} at any voltage.")
        volts = limit(
            "V_t", "Volts left at the inverter meanwhile", (self.bank_volts + root(under)) / 2, V, OWN_DERIVATION
        )
        room = constant("k_co", "Room above the cut-off that is comfortable", 1.05 * one, COMMON_PRACTICE)
        return require(
            volts >= self.cutoff,
            comfortable=volts >= room * self.cutoff,
            label="Volts under the largest load",
            yes="The volts hold until the reserve.",
            tight="Under the largest load {left} are left near the reserve; it cuts off at {right}.",
            no="Under the largest load only {left} are left near the reserve; it cuts off at {right} with charge left.",
        )

    def _means(self) -> tuple[Quantity, Quantity, Quantity]:
        """Mean power [W], root of the mean of its square [W], and the share of the day the inverter is on.

        Loads that come and go without heed of one another: the variances add.
        """
        day = constant("t_d", "Hours in a day", 24 * h, DEFINITION)
        loads = enumerate(zip(self.of_each("watts"), self.of_each("hours"), strict=True), start=1)
        shares = [
            (watts, step(f"d_{k}", f"Share of the day that load {k} runs", hours / day, one))
            for k, (watts, hours) in loads
        ]
        mean_power = duty.mean_power(shares, self.running)
        rms = duty.root_mean_square(shares, mean_power)
        if self.between == STAYS_ON or self.running.si:
            return (
                mean_power,
                rms,
                alternative(
                    "k_on", "Share of the day it is on", 1 * one, "something runs all day, or it stays on", one
                ),
            )
        some = sum((share for _, share in shares[1:]), shares[0][1])
        return mean_power, rms, step("k_on", "Share of the day it is on, at most", smallest(some, 1 * one), one)

    def _notes(self, mean: Quantity, energy: Quantity, hours: Quantity) -> tuple[str, ...]:
        if not mean.si:
            return ("Nothing but the inverter runs.",)
        careless = step("t_n", "Energy times best efficiency over watts", energy * self.peak_efficiency / mean, h)
        return (
            f"Energy times the best efficiency over the loads would say {careless}: it forgets the idle draw, the square and the bank's own heat.",
        )

    fixes = (
        option("between", SWITCHED_OFF, "Switch the inverter off when nothing runs"),
        more("charge", 5 * percent, "Fill the bank to {charge} first", costs="it takes time to refill"),
        less("time_wanted", 1 * h, "Refill after {time_wanted}"),
        more("bank_energy", 0.1 * kWh, "Carry a bank of {bank_energy}", costs="heavier, dearer"),
        *(less(f"hours_{k}", 0.5 * h, f"Run load {k} for {{hours_{k}}} a day") for k in COUNTS),
        less("running", 10 * W, "Keep what runs all the time to {running}"),
    )
    cautions = (
        Caution(
            "CAUTION",
            "When the bank is empty everything stops at once",
            "Lights, pumps and tools stop in the middle of the work",
            "Keep a reserve and a light of its own; never hang a medical device or a sump pump on a guess",
        ),
        Caution(
            "NOTICE",
            "This is a mean over days like these",
            "A cold night or a longer job ends it sooner",
            "Look at the monitor at noon and in the evening",
        ),
    )
    examples = (
        Example(
            given={
                "count": "1", "watts_1": "20", "hours_1": "24", "bank_energy": "5.12", "reserve": "10", "charge": "100",
                "health": "100", "cells": "25 °C", "idle": "55", "continuous": "4500", "running": "0", "time_wanted": "48 h",
            },
            expect={"hours": "61 h"},
            within=0.01,
            verdict="go",
            source=LOSS_MODEL.at("55 W and 1.03 times 20 W from 4.608 kWh; without the idle draw it would be 207 h"),
        ),
        Example(
            given={
                "count": "1", "watts_1": "3000", "hours_1": "24", "bank_energy": "14.336", "reserve": "0", "charge": "100",
                "health": "100", "cells": "25 °C", "idle": "60", "continuous": "6000", "peak_efficiency": "92", "resistance": "12", "running": "0",
                "time_wanted": "5 h",
            },
            expect={"hours": "4.32 h"},
            within=0.005,
            verdict="no",
            source=LOSS_MODEL.at("3 kW at about 92 %, and 12 mΩ; energy times efficiency over watts says 4.4 h"),
        ),
    )  # fmt: skip
