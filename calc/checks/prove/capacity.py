"""The page /prove/capacity/: what a whole discharge gave, against the plate, as the temperature of the cells allows.

Cold cells give less; the share they give at this temperature is read from the warmer listed row, so that the cold never
excuses more than it takes.
"""

from __future__ import annotations

from calc.check import (
    GO,
    NO,
    Answer,
    Caution,
    Check,
    Example,
    Named,
    answer,
    ask_fact,
    ask_reading,
    pick,
    pick_fact,
    require,
)
from calc.checks.measured import must_read
from calc.laws.battery import share_when_tested
from calc.quantity import OutsideValidity, Quantity, constant, limit, smallest, step
from calc.sources import COMMON_PRACTICE, IEEE_450, Source
from calc.units import Ah, degC, kWh, one, percent

BY_AMP_HOURS, BY_ENERGY = "amp-hours", "energy"
NEW, IN_USE = "new, or the first test", "in use"
CUT_OFF, STOPPED = "the inverter or the battery stopped it", "somebody stopped it early"
NAVY_TRAINING = Source("A training manual for aviation electricians, battery capacity", "", "read in a public page")


class Capacity(Check):
    """Does the bank hold what its plate says?"""

    title = "Capacity, measured"
    headline = "measured_health"
    measures = {"measured_health": "health of the bank, measured"}

    counted: str = pick(
        "Counted in",
        (BY_AMP_HOURS, BY_ENERGY),
        BY_AMP_HOURS,
        habit=True,
        help="Amp-hours are surer: energy depends on the volts, and so on the load",
    )
    amp_hours: Quantity = ask_reading("Q_m", "amp-hours taken out", 193 * Ah, when={"counted": (BY_AMP_HOURS,)})
    energy: Quantity = ask_reading("E_m", "energy taken out", 9.9 * kWh, when={"counted": (BY_ENERGY,)})
    cells: Quantity = ask_reading("θ_m", "cell temperature in the test", 20 * degC)
    ended: str = pick(
        "How it ended",
        (CUT_OFF, STOPPED),
        CUT_OFF,
        habit=True,
        help="From full, balanced and rested; to the cut-off, without a pause for charge",
    )
    age: str = pick(
        "Age of the bank",
        (NEW, IN_USE),
        IN_USE,
        habit=True,
        help="A new bank is held to its plate, one in use to its end of life",
    )
    chemistry: str = pick_fact("bank.chemistry", "LFP")
    capacity: Quantity = ask_fact("Q_s", "bank.capacity", 100 * Ah, when={"counted": (BY_AMP_HOURS,)})
    strings: Quantity = ask_fact("N_p", "bank.strings", 2 * one, when={"counted": (BY_AMP_HOURS,)})
    bank_energy: Quantity = ask_fact("E_n", "bank.energy", 10.2 * kWh, when={"counted": (BY_ENERGY,)})
    health: Quantity = ask_fact("s", "bank.health", 97 * percent)

    def solve(self) -> Answer:
        if self.ended == STOPPED:
            raise OutsideValidity(
                "A discharge that was stopped early tells what it gave and not what it holds. Run it to the cut-off."
            )
        share = share_when_tested(self.cells, self.chemistry)
        gave = self._of_the_plate()
        warm = step("s_25", "The same with cells at 25 °C", gave / share, percent, rounds=-1)
        whole = constant("s_1", "More than the plate is not counted", 100 * percent, COMMON_PRACTICE)
        counted = limit("s_m", "What is left of the nameplate, measured", smallest(warm, whole), percent)
        good, least = self._bounds()
        held = [
            require(
                counted >= least,
                comfortable=counted >= good,
                label="Capacity",
                yes="It holds what it should.",
                tight=f"It holds {{left}} of its plate; {good} would be good.",
                no="It holds {left} of its plate; under {right} "
                + ("a new bank goes back." if self.age == NEW else "it is at the end of its life."),
            ),
            require(
                counted
                >= step(
                    "s_5",
                    "What the rig's pages count with, less what a test may be off by",
                    self.health - constant("d_s", "What a test may be off by", 5 * percent, COMMON_PRACTICE),
                    percent,
                ),
                comfortable=counted >= self.health,
                label="What the pages count with",
                yes="The pages count with no more than it holds.",
                tight=f"The pages count with {self.health} and it holds {counted}: keep the measured value.",
                no=f"The pages count with {self.health} and it holds {counted}: hours and miles are promised that are not there. Keep the measured value.",
            ),
        ]
        return answer(
            *held,
            say=f"It holds {counted} of its plate.",
            notes=self._causes(held[0].verdict),
            measured_health=counted,
            as_it_came=step("s_0", "Of the plate, as it came", gave, percent),
            cold_share=share,
            **(
                {}
                if self.age == NEW
                else {"end_of_life": Named("80 % of the plate", "Replaced when it falls under", "", IEEE_450)}
            ),
        )

    def _of_the_plate(self) -> Quantity:
        if self.counted == BY_AMP_HOURS:
            return step(
                "k_Q", "Amp-hours taken out, of the plate", self.amp_hours / (self.capacity * self.strings), percent
            )
        return step("k_E", "Energy taken out, of the plate", self.energy / self.bank_energy, percent)

    def _bounds(self) -> tuple[Quantity, Quantity]:
        said = (
            ((97, "New: what should be there"), (90, "New: the least"))
            if self.age == NEW
            else ((90, "In use: good from here on"), (80, "In use: end of life"))
        )
        source = COMMON_PRACTICE if self.age == NEW else IEEE_450.at("90 % is a sign of wear, 80 % the end")
        good, least = (constant(f"s_{value}", label, value * percent, source) for value, label in said)
        return good, least

    def _causes(self, verdict: str) -> tuple[str, ...]:
        if verdict == GO:
            return ("One test is one test: repeat it in a year with the same load and the same cut-off.",)
        return (
            "Likely causes, the most likely first: 1. a cut-off set too high for this load, or a thin cable that sags to it; "
            "2. it was not full or not balanced: charge it for hours at its highest volts, then repeat; "
            "3. cold cells; 4. a monitor whose shunt was not set to zero; 5. one string that gave nothing; 6. a weak cell that "
            "stops the rest; 7. age.",
        )

    fixes = (
        must_read(
            "amp_hours",
            1 * Ah,
            "Balance it for a day at its highest volts, warm, and test again: it must give {amp_hours} or more",
            down=False,
        ),
        must_read(
            "energy",
            0.1 * kWh,
            "Balance it for a day at its highest volts, warm, and test again: it must give {energy} or more",
            down=False,
        ),
    )
    cautions = (
        Caution(
            "WARNING",
            "A bank emptied to its cut-off and left is ruined, and charging a frozen or ruined one can start a fire",
            "Cells plate lithium or reverse, and short days later",
            "Charge it again within the day, above freezing, with somebody near",
        ),
        Caution(
            "NOTICE",
            "A discharge to the cut-off switches everything off without warning",
            "What hangs on it goes dark",
            "Run nothing in the test that anybody leans on",
        ),
    )
    examples = (
        Example(
            given={
                "amp_hours": "70",
                "capacity": "100 Ah",
                "strings": "1",
                "cells": "25 °C",
                "chemistry": "LFP",
                "health": "100",
            },
            expect={"as_it_came": "70 %"},
            verdict=NO,
            source=NAVY_TRAINING.at("a 100 Ah battery that gives 10 A for 7 hours instead of 10 has 70 %"),
        ),
        Example(
            given={
                "amp_hours": "275.5",
                "capacity": "280 Ah",
                "strings": "1",
                "cells": "25 °C",
                "chemistry": "LFP",
                "health": "98",
                "age": NEW,
            },
            expect={"as_it_came": "98.4 %"},
            verdict="go",
            source=IEEE_450.at("capacity in per cent: what came out over what is rated"),
        ),
        Example(
            given={
                "amp_hours": "85",
                "capacity": "100 Ah",
                "strings": "1",
                "cells": "25 °C",
                "chemistry": "LFP",
                "health": "85",
            },
            verdict="tight",
            source=IEEE_450.at("under 90 %: test each year; under 80 %: replace"),
        ),
        Example(
            given={
                "counted": BY_ENERGY,
                "energy": "7.9",
                "bank_energy": "10 kWh",
                "cells": "25 °C",
                "chemistry": "LFP",
                "health": "79",
            },
            verdict=NO,
            source=IEEE_450.at("under 80 %: replace"),
        ),
    )
