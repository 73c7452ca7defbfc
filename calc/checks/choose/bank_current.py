"""The page /choose/bank-current/: what the inverter pulls from the bank, and whether its surge drags the volts too low.

Cables and fuses are chosen at the lowest volts the inverter works at, not at the nominal ones; a one-phase output
takes its power in pulses, and what heats a cable is the root mean square of them.
"""

from __future__ import annotations

from calc.check import Answer, Caution, Check, Example, Requirement, answer, ask, ask_fact, less, pick, require
from calc.checks import battery_side as side
from calc.laws import bank_current as law
from calc.quantity import OutsideValidity, Quantity, constant, limit, need, step
from calc.sources import COMMON_PRACTICE, NEC_2023, OWN_DERIVATION
from calc.units import A, Hz, V, W, mF, mohm, one, percent, uH

BEST, AT_THIS_LOAD = "best, on its plate", "measured at full load"

_CASE = {
    "efficiency_known": AT_THIS_LOAD,
    "resting_volts": "51.2 V",
    "cutoff": "46 V",
    "strings": "2",
    "string_limit": "100 A",
}


class BankCurrent(Check):
    """What current does the inverter pull from the bank?"""

    title = "Current from the bank"
    headline = "current_at_cutoff"

    continuous: Quantity = side.continuous()
    surge: Quantity = ask_fact(
        "P_s",
        "inverter.surge",
        10_000 * W,
        help="In its manual: peak or surge output; put the surge that you really draw, if it is less",
    )
    efficiency_known: str = pick(
        "Efficiency is",
        (BEST, AT_THIS_LOAD),
        BEST,
        habit=True,
        help="What is measured at full load holds the idle draw already",
    )
    peak_efficiency: Quantity = side.peak_efficiency(when={"efficiency_known": (BEST,)})
    idle: Quantity = side.idle(when={"efficiency_known": (BEST,)})
    measured_efficiency: Quantity = ask(
        "η_m",
        "Efficiency measured at full load",
        90 * percent,
        low=50 * percent,
        high=99 * percent,
        when={"efficiency_known": (AT_THIS_LOAD,)},
        help="Watts out over battery volts times amps in",
    )
    resting_volts: Quantity = ask_fact("E", "bank.resting_volts", 51.2 * V, common=(12.8 * V, 25.6 * V, 51.2 * V))
    cutoff: Quantity = side.cutoff()
    resistance: Quantity = ask_fact("R_b", "bank.resistance", 14 * mohm, common=(8 * mohm, 12 * mohm, 16 * mohm))
    capacitance: Quantity = ask_fact(
        "C",
        "inverter.capacitance",
        10 * mF,
        habit=True,
        common=(5 * mF, 10 * mF, 20 * mF),
        help="From the maker; most have so little that the bank gives the whole ripple",
    )
    inductance: Quantity = ask(
        "L_b",
        "Inductance of the loop",
        2 * uH,
        low=0.1 * uH,
        high=50 * uH,
        habit=True,
        help="About 1 µH for each metre of cable pair; plus and minus side by side have the least",
    )
    hertz: Quantity = ask(
        "f",
        "Output frequency",
        60 * Hz,
        low=45 * Hz,
        high=65 * Hz,
        habit=True,
        common=(50 * Hz, 60 * Hz),
        help="60 or 50",
    )
    strings: Quantity = side.strings()
    string_limit: Quantity = ask_fact("I_lim", "bank.discharge_limit", 100 * A)

    def solve(self) -> Answer:
        if (self.cutoff >= self.resting_volts).holds:
            raise OutsideValidity(
                f"The cut-off of {self.cutoff} is not below the {self.resting_volts} of the resting bank."
            )
        power = self._power(self.continuous, "P_dc", "Power taken from the bank for long")
        surge = self._power(self.surge, "P_dcs", "Power taken from the bank in a surge")
        most = law.most_power(self.resting_volts, self.resistance)
        reached = [
            require(
                surge <= most,
                exact=True,
                label="Power in a surge",
                yes="The bank gives the power.",
                no="The surge asks {left}; through its own resistance this bank gives {right} at most, and the volts collapse.",
            ),
            require(
                power <= most,
                exact=True,
                label="Power for long",
                yes="The bank gives the power.",
                no="The inverter asks {left}; through its own resistance this bank gives {right} at most.",
            ),
        ]
        average = law.current_at(power, self.cutoff, "I_co", "Lasting current at the cut-off")
        share = law.share_of_ripple(self.resistance, self.inductance, self.capacitance, self.hertz)
        heating = law.effective(average, share)
        told = {
            "current_at_cutoff": average,
            "heating_current": heating,
            "design_current": law.design(average, heating),
            "ripple_share": share,
            "naive_current": step("I_n", "The naive figure: watts over volts at rest", power / self.resting_volts, A),
        }
        if any(requirement.verdict == "no" for requirement in reached):
            return answer(*reached, *self._strings(average), say="", notes=(), **told)
        under = law.volts_under(self.resting_volts, self.resistance, power, "V_r", "Volts under full load")
        dip = law.volts_under(self.resting_volts, self.resistance, surge, "V_s", "Volts in the surge")
        return answer(
            *reached,
            self._holds(under, "under full load", "V_g"),
            self._holds(dip, "in the surge", "V_g"),
            *self._strings(average),
            say=f"{average:up} at the cut-off, {heating:up} with ripple: choose cable and fuse for {told['design_current']:up}.",
            notes=self._naive(told["naive_current"], average),
            current_under_load=law.current_at(power, under, "I_r", "Current under full load"),
            volts_under_load=under,
            volts_in_surge=dip,
            **told,
        )

    def _power(self, power: Quantity, symbol: str, label: str) -> Quantity:
        if self.efficiency_known == AT_THIS_LOAD:
            return need(symbol, label, power / self.measured_efficiency, W)
        return law.power_taken(power, self.idle, self.peak_efficiency, self.continuous, symbol, label)

    def _holds(self, volts: Quantity, when: str, symbol: str) -> Requirement:
        room = constant("k_v", "Room wanted above the cut-off", 1.05 * one, COMMON_PRACTICE)
        wanted = step(symbol, "Volts wanted, some way above the cut-off", room * self.cutoff, V)
        return require(
            volts > self.cutoff,
            comfortable=volts >= wanted,
            label=f"Volts {when}",
            yes="The volts hold.",
            tight=f"The bank falls to {{left}} {when}; the inverter gives up at {{right}}, and cold or age may take the rest.",
            no=f"The bank falls to {{left}} {when}; the inverter gives up at {{right}} and everything goes dark.",
        )

    def _strings(self, average: Quantity) -> list[Requirement]:
        most = limit("I_bank", "Most that all strings give, if they share evenly", self.strings * self.string_limit, A)
        uneven = constant("k_u", "Of that, as strings never share evenly", 80 * percent, COMMON_PRACTICE)
        likely = limit("I_like", "Most to count on", uneven * most, A) if (self.strings > 1).holds else most
        return [
            require(
                average <= most,
                comfortable=average <= likely,
                label="Strings",
                yes="The strings give it.",
                tight="{left} at the cut-off is close to the {right} that the strings may give: the one of least resistance takes most and opens first.",
                no="{left} at the cut-off is more than the {right} that the strings may give: the battery's protection opens under load.",
            )
        ]

    def _naive(self, naive: Quantity, average: Quantity) -> tuple[str, ...]:
        return (
            f"Watts over the volts at rest says {naive}: it forgets that the volts sag, and is too low for cables and fuses. At the cut-off it is {average:up}.",
            "A clamp meter that shows the average does not show the ripple, which heats as well.",
        )

    fixes = (
        less("continuous", 250 * W, "Cap the inverter's output at {continuous} in its settings"),
        less("surge", 500 * W, "Start no more than {surge} at once"),
        less(
            "resistance",
            1 * mohm,
            "Bring the bank's resistance to {resistance} or less: thicker and shorter leads, tight joints, more strings",
        ),
    )
    cautions = (
        Caution(
            "WARNING",
            "A cable or fuse chosen by the nominal volts runs hot when the bank is low",
            "Its insulation or holder melts, and can set fire to the box",
            "Choose by the design current of this page, and feel no joint by hand: measure it",
        ),
        Caution(
            "CAUTION",
            "When the volts fall under the cut-off, all outlets go dark at once and may come back by themselves",
            "A tool that restarts injures",
            "Switch tools off before the bank recovers",
        ),
    )
    examples = (
        Example(
            given=_CASE
            | {
                "continuous": "6000 W",
                "surge": "6000 W",
                "measured_efficiency": "93 %",
                "resistance": "15 mohm",
            },
            expect={
                "volts_under_load": "49.23 V",
                "current_under_load": "131.0 A",
                "current_at_cutoff": "140.3 A",
                "design_current": "175.3 A",
            },
            verdict="go",
            source=NEC_2023.at("215.2(A), 215.3: 125 % of a lasting load; V² − E·V + R·P = 0 worked by hand"),
        ),
        Example(
            given=_CASE
            | {
                "continuous": "6000 W",
                "surge": "12000 W",
                "measured_efficiency": "90 %",
                "resistance": "16 mohm",
            },
            expect={"volts_in_surge": "46.62 V"},
            verdict="tight",
            source=OWN_DERIVATION,
        ),
        Example(
            given=_CASE
            | {
                "continuous": "6000 W",
                "surge": "12000 W",
                "measured_efficiency": "90 %",
                "resistance": "30 mohm",
            },
            verdict="no",
            source=OWN_DERIVATION,
        ),
        Example(
            given=_CASE
            | {
                "continuous": "6000 W",
                "surge": "40000 W",
                "measured_efficiency": "90 %",
                "resistance": "30 mohm",
            },
            verdict="no",
            source=OWN_DERIVATION,
        ),
    )
