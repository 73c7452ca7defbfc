"""The page /shelter/cold-capacity/: what cold cells give of their charge. It is not lost; it comes back with warmth."""

from __future__ import annotations

from calc.check import NO, PHYSICAL, Answer, Caution, Check, Example, answer, ask_fact, less, more, require
from calc.laws.battery import energy_to_hand, share_in_the_cold
from calc.quantity import Quantity, limit
from calc.sources import FROM_MEMORY, Source
from calc.units import degC, kWh, percent

DATA_SHEETS = Source(
    "Discharge curves in data sheets of lithium iron phosphate cells, at 0.2 to 0.5 C", "", FROM_MEMORY
)


class ColdCapacity(Check):
    """How much is left in the cold?"""

    title = "Left in the cold"
    headline = "energy_to_hand"

    wanted: Quantity = ask_fact("E_w", "work.cold_energy", 4 * kWh, wish="the least", common=(1 * kWh, 2 * kWh, 5 * kWh))
    bank_energy: Quantity = ask_fact("E_n", "bank.energy", 10.2 * kWh)
    health: Quantity = ask_fact("s", "bank.health", 100 * percent)
    charge: Quantity = ask_fact(
        "q", "now.charge", 100 * percent, help="On the battery's monitor, which knows nothing of the cold"
    )
    reserve: Quantity = ask_fact("q_r", "bank.reserve", 10 * percent)
    cells: Quantity = ask_fact("θ_c", "now.cells", 0 * degC, common=(-20 * degC, -10 * degC, 0 * degC, 10 * degC))

    def solve(self) -> Answer:
        above = require(
            self.charge >= self.reserve,
            exact=True,
            label="Charge",
            yes="There is charge above what is kept back.",
            no="There is {left} left and {right} is kept back: nothing to give.",
        )
        share = share_in_the_cold(self.cells)
        if above.verdict == NO:
            nothing = limit("E", "Energy to hand: nothing above what is kept back", 0 * kWh, kWh)
            return answer(above, say="", energy_to_hand=nothing, cold_share=share)
        here = energy_to_hand(self.bank_energy, self.health, self.charge, self.reserve, share)
        warm = limit(
            "E_25", "The same with warm cells", self.bank_energy * self.health * (self.charge - self.reserve), kWh
        )
        return answer(
            above,
            require(
                here >= self.wanted,
                rule=PHYSICAL,
                label="Energy",
                yes="It is enough.",
                tight="The cold leaves {left}, of which {right} is wanted.",
                no="The cold leaves {left}; {right} is wanted. Warm the cells first, or take less.",
            ),
            say=f"The cold leaves {here} of {warm}.",
            notes=(
                "What is missing is not lost: it comes back when the cells are warm.",
                "A large load sags more in the cold and stops sooner; this holds for a bank emptied in two to five hours.",
                "A generic curve, give or take 8 %: replace it by a measured discharge.",
            ),
            energy_to_hand=here,
            cold_share=share,
            energy_warm=warm,
        )

    fixes = (
        less("wanted", 0.1 * kWh, "Take {wanted} at most before it warms up"),
        more("charge", 5 * percent, "Fill it to {charge} first, the day before, warm"),
        more("bank_energy", 0.1 * kWh, "Carry a bank of {bank_energy}", costs="heavier, dearer"),
    )
    cautions = (
        Caution(
            "WARNING",
            "Cold cells may give what they may not take",
            "Charging below freezing plates lithium: a short inside, days later",
            "Discharge them, or warm them, before any charge; regeneration from a vehicle is a charge too",
        ),
        Caution(
            "NOTICE",
            "An inverter drops out early in the cold",
            "The volts sag to its cut-off with charge still left",
            "Start with a small load for some minutes; it warms the cells from inside",
        ),
    )
    examples = (
        Example(
            given={
                "bank_energy": "10 kWh",
                "health": "100",
                "charge": "100",
                "reserve": "0",
                "cells": "0 °C",
                "wanted": "5 kWh",
            },
            expect={"energy_to_hand": "8.8 kWh", "cold_share": "0.88"},
            verdict="go",
            source=DATA_SHEETS.at("88 % at 0 °C"),
        ),
        Example(
            given={
                "bank_energy": "10 kWh",
                "health": "100",
                "charge": "100",
                "reserve": "0",
                "cells": "-20 °C",
                "wanted": "6.5 kWh",
            },
            expect={"energy_to_hand": "6.0 kWh", "cold_share": "0.60"},
            verdict=NO,
            source=DATA_SHEETS.at("60 % at −20 °C"),
        ),
    )
