"""The page /choose/bank-from-cells/: what cells in series and parallel make, and whether the inverter lives with it.

A bank one cell short or long still turns on. It is charged too far, or never emptied, and nobody sees it.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from calc.check import (
    Answer,
    Caution,
    Change,
    Check,
    Example,
    Fix,
    Requirement,
    answer,
    ask_fact,
    less,
    more,
    pick_fact,
    require,
)
from calc.quantity import Quantity, constant, limit, step
from calc.sources import CFR_49_171, COMMON_PRACTICE
from calc.tables import table
from calc.units import Ah, V, kWh, one, percent


def _other_counts(check: Check) -> Iterator[Change]:
    """Other numbers of cells in series, the nearest first."""
    now, most = round(check.series.si), round(check.asks["series"].high.si)  # type: ignore[attr-defined, union-attr]
    for count in sorted(range(1, most + 1), key=lambda other: abs(other - now)):
        if count != now:
            yield {"series": count * one}


class BankFromCells(Check):
    """What do these cells make, and does the inverter fit?"""

    title = "Bank from cells"
    headline = "nameplate_energy"

    chemistry: str = pick_fact("bank.chemistry", "LFP", help="On the cell; it sets the volts of one")
    series: Quantity = ask_fact("N_s", "bank.series", 16 * one, common=(8 * one, 15 * one, 16 * one))
    strings: Quantity = ask_fact("N_p", "bank.strings", 2 * one)
    capacity: Quantity = ask_fact("Q_s", "bank.capacity", 100 * Ah, common=(100 * Ah, 200 * Ah, 280 * Ah))
    charge_volts: Quantity = ask_fact("V_cv", "bank.highest_volts", 57.6 * V)
    bank_lowest: Quantity = ask_fact("V_bms", "bank.lowest_volts", 44 * V)
    cutoff: Quantity = ask_fact("V_co", "inverter.cutoff", 46 * V)
    inverter_highest: Quantity = ask_fact("V_hi", "inverter.highest_volts", 60 * V)
    reserve: Quantity = ask_fact("q_r", "bank.reserve", 10 * percent, common=(10 * percent, 20 * percent))
    peak_efficiency: Quantity = ask_fact("η", "inverter.peak_efficiency", 93 * percent)

    def solve(self) -> Answer:
        nominal = step(
            "V_n", "Nominal volts of the bank", self.series * self._cell("v_n", "Nominal volts", "nominal"), V
        )
        amp_hours = step("Q", "Capacity of the bank", self.strings * self.capacity, Ah)
        energy = step("E_n", "Nameplate energy", nominal * amp_hours, kWh, CFR_49_171.at("171.8, watt-hour"))
        usable = limit("E_u", "Energy above what is kept back, when new and warm", energy * (1 - self.reserve), kWh)
        return answer(
            *self._top(nominal),
            *self._bottom(nominal),
            say=f"{self.series} in series and {self.strings} in parallel make {nominal}, {amp_hours}, {energy}; the inverter's window fits.",
            notes=self._naive(nominal),
            nameplate_energy=energy,
            nominal_volts=nominal,
            capacity_of_bank=amp_hours,
            usable_energy=usable,
            energy_at_outlets=limit(
                "E_ac", "Of that at the outlets, at the inverter's best power", usable * self.peak_efficiency, kWh
            ),
        )

    def _cell(self, symbol: str, label: str, column: str) -> Quantity:
        return table("cell_volts").read(symbol, f"{label} of one {self.chemistry} cell", self.chemistry, column)

    def _top(self, nominal: Quantity) -> tuple[Requirement, ...]:
        """How far the charger may go: no further than the cells, nor than the inverter's input."""
        most = limit(
            "V_max", "Most the cells may be charged to", self.series * self._cell("v_max", "Most volts", "highest"), V
        )
        return (
            require(
                self.charge_volts <= most,
                label="Charge voltage and the cells",
                exact=True,
                yes="The charger stops where the cells are full.",
                no=f"The charger goes to {{left}}; {self.series} cells in series take {{right}}. They are overcharged, swell and can burn.",
            ),
            require(
                self.charge_volts > nominal,
                label="Charge voltage and the bank",
                exact=True,
                yes="The charger is above the bank's volts.",
                no="The charger stops at {left}; the bank rests at about {right}. It never fills.",
            ),
            require(
                self.charge_volts <= self.inverter_highest,
                label="Inverter's highest volts",
                exact=True,
                yes="The inverter takes the bank while it is charged.",
                no="The bank is charged to {left}; the inverter takes {right}. It shuts down or is destroyed.",
            ),
        )

    def _bottom(self, nominal: Quantity) -> tuple[Requirement, ...]:
        """Where the inverter stops: above what the cells and their protection bear, below where the charge lies."""
        least = step(
            "V_min",
            "Least the cells may be taken to",
            self.series * self._cell("v_min", "Least volts", "lowest"),
            V,
            rounds=1,
        )
        room = constant("k_sag", "Part of its volts that a bank keeps under load", 0.95 * one, COMMON_PRACTICE)
        return (
            require(
                self.cutoff >= least,
                label="Cut-off and the cells",
                exact=True,
                yes="The inverter stops before a cell is empty.",
                no=f"The inverter runs down to {{left}}; {self.series} cells in series bear {{right}}. They are emptied too far and ruined.",
            ),
            require(
                self.cutoff >= self.bank_lowest,
                label="Who stops first",
                exact=True,
                yes="The inverter stops before the battery's protection opens.",
                no="The inverter goes on to {left}; the battery's protection opens at {right}, under load and without a warning.",
            ),
            require(
                self.cutoff <= nominal,
                comfortable=self.cutoff <= room * nominal,
                label="Cut-off and the charge",
                yes="The charge lies above the cut-off.",
                tight="The cut-off of {left} is close under the bank's {right}: under load it stops with charge left.",
                no="The inverter stops at {left}; the bank rests at {right}. Most of what is stored is never had.",
            ),
        )

    def _naive(self, nominal: Quantity) -> tuple[str, ...]:
        if self.chemistry != "LFP":
            return ()
        return (
            f"{nominal} is a name, not a measure: the same bank reads more all day and less under load, and its volts do not tell its charge.",
        )

    fixes = (
        Fix("Build {series} cells in series", _other_counts, costs="all settings with it"),
        replace(less("charge_volts", 0.1 * V, "Set the charger to {charge_volts}"), in_order=False),
        replace(more("cutoff", 0.5 * V, "Set the inverter's cut-off to {cutoff}"), in_order=False),
    )
    cautions = (
        Caution(
            "DANGER",
            "Bare cells in series cannot be switched off",
            "A slipped tool melts, throws metal and burns to the bone; from about 60 V it can kill by shock",
            "Cover what you are not working on, insulate the tools, take off rings, build in blocks and join them last",
        ),
        Caution(
            "WARNING",
            "Cells without a protection that watches each one drift apart",
            "One is overcharged while the sum looks right; it vents flammable gas and can burn",
            "Fit a battery management system that opens the circuit, and top-balance the cells first",
        ),
        Caution(
            "CAUTION",
            "Strings in parallel share the current as their resistances let them",
            "One string carries more than its share and its protection opens first",
            "Equal cable lengths, a fuse in every string",
        ),
    )
    examples = (
        Example(
            given={"series": "16", "strings": "1", "capacity": "280", "reserve": "10", "peak_efficiency": "92"},
            expect={"nominal_volts": "51.2 V", "nameplate_energy": "14.34 kWh", "energy_at_outlets": "11.87 kWh"},
            verdict="go",
            source=CFR_49_171.at("171.8: watt-hours are amp-hours times volts; 16 cells of 3.2 V and 280 Ah"),
        ),
        Example(
            given={"series": "15", "strings": "1", "capacity": "100", "charge_volts": "58.4"},
            expect={"nameplate_energy": "4.80 kWh"},
            verdict="no",
            source=COMMON_PRACTICE.at("15 cells charged by the settings for 16"),
        ),
        Example(
            given={
                "chemistry": "lead-acid (flooded)", "series": "24", "strings": "1", "capacity": "100",
                "cutoff": "47", "bank_lowest": "42", "charge_volts": "58",
            },
            expect={"nominal_volts": "48 V"},
            verdict="tight",
            source=COMMON_PRACTICE.at("four blocks of 12 V are 24 cells of 2 V"),
        ),
    )  # fmt: skip
