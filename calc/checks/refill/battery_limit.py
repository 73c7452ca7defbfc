"""The page /refill/battery-limit/: the charging current that cells of this temperature bear.

Cold cells take the current and keep their looks; the lithium plates as metal, and nothing shows until it shorts.
"""

from __future__ import annotations

from calc.check import Answer, Caution, Check, Example, answer, ask, ask_fact, less, pick, pick_fact, require
from calc.laws.charging import charge_allowed
from calc.quantity import Quantity, alternative, limit, smallest
from calc.sources import COMMON_PRACTICE, LFP_SHEETS
from calc.units import A, Ah, degC, one

GENERAL, MAKERS = "the general rule", "the maker's own, at this temperature"


class BatteryLimit(Check):
    """What charging current do the cells allow at this temperature?"""

    title = "Charge at this temperature"
    headline = "allowed"

    chemistry: str = pick_fact("bank.chemistry", "LFP")
    rule: str = pick(
        "Limit by",
        (GENERAL, MAKERS),
        GENERAL,
        habit=True,
        help="The maker's table wins, where you have it; the general rule is for LFP",
    )
    makers: Quantity = ask(
        "I_m",
        "Charge current of one string by the maker's table",
        20 * A,
        low=0 * A,
        high=2000 * A,
        when={"rule": (MAKERS,)},
        help="In the manual, at the temperature the cells have now; 0 where it says not to charge",
    )
    cells: Quantity = ask_fact("θ_c", "now.cells", 20 * degC, common=(0 * degC, 10 * degC, 25 * degC))
    capacity: Quantity = ask_fact("Q_s", "bank.capacity", 100 * Ah, common=(100 * Ah, 200 * Ah, 280 * Ah))
    strings: Quantity = ask_fact("N_p", "bank.strings", 2 * one, help="Only those that are connected now")
    charge_limit: Quantity = ask_fact("I_ch", "bank.charge_limit", 50 * A)
    charger_set: Quantity = ask_fact("I_cs", "inverter.charger_set", 40 * A, common=(20 * A, 40 * A, 80 * A))

    def solve(self) -> Answer:
        one_string, why = self._one_string()
        allowed = limit("I_b", "Charging current the bank allows", self.strings * one_string, A)
        return answer(
            require(
                self.charger_set <= allowed,
                label="Charging current",
                yes="The cells take this current.",
                tight=f"It is set to {{left}}; cells at {self.cells} allow {{right}}, with little to spare.",
                no=f"It is set to {{left}}; cells at {self.cells} allow {{right}}. {why}",
            ),
            say=f"At {self.cells} the bank takes {allowed}; the charger is set to {self.charger_set}.",
            notes=self._notes(),
            allowed=allowed,
            one_string=one_string,
        )

    def _one_string(self) -> tuple[Quantity, str]:
        if self.rule == MAKERS:
            listed = alternative("I_r", "By the maker's table", self.makers, "the maker's table wins", A)
            why = "The maker does not allow it."
        else:
            listed, why = charge_allowed(self.chemistry, self.cells, self.capacity, self.charge_limit)
        return limit("I_1", "Current that one string takes", smallest(listed, self.charge_limit), A), why

    def _notes(self) -> tuple[str, ...]:
        return (
            f"The plate's {self.charge_limit} for one string is for warm cells; the air may be warm while the cells are still cold.",
            "A battery that opens its own protection when it is cold has stopped the charge; it has not limited it. Fuses and cables have limits of their own.",
        )

    fixes = (less("charger_set", 1 * A, "Set the charger to {charger_set}", costs="it refills longer"),)
    cautions = (
        Caution(
            "WARNING",
            "Charging frozen cells plates metal lithium inside them",
            "The damage stays, and the cell can short and burn days later, warm and in use",
            "Never charge below 0 °C at the cell, however small the current; warm them first, or wait",
        ),
        Caution(
            "CAUTION",
            "One cold string beside a warm one takes a different share",
            "It is charged past its own limit while the sum looks right",
            "Go by the coldest reading of all strings",
        ),
        Caution(
            "NOTICE",
            "Regeneration and panels charge too",
            "They pay no heed to the charger's setting",
            "Switch them off in the cold, or set their limits as well",
        ),
    )
    examples = (
        Example(
            given={"cells": "-3 °C"},
            expect={"allowed": "0 A"},
            verdict="no",
            source=LFP_SHEETS.at("charge from 0 °C up"),
        ),
        Example(
            given={"cells": "46 °C"},
            expect={"allowed": "0 A"},
            verdict="no",
            source=LFP_SHEETS.at("charge up to 45 °C"),
        ),
        Example(
            given={
                "cells": "20 °C", "capacity": "280", "strings": "1", "charge_limit": "140", "charger_set": "100"
            },
            expect={"allowed": "140 A"},
            verdict="go",
            source=COMMON_PRACTICE.at("the rated current from 15 to 45 °C: 0.5 of 280 Ah"),
        ),
        Example(
            given={"cells": "3 °C", "capacity": "280", "strings": "1", "charge_limit": "140", "charger_set": "28"},
            expect={"allowed": "14 A"},
            verdict="no",
            source=COMMON_PRACTICE.at("0.05 of 280 Ah from 0 to 5 °C, the stricter of two published patterns"),
        ),
    )  # fmt: skip
