"""The page /choose/inverter-too-big/: what an inverter takes for being on, all day, whatever hangs on it.

A large inverter is bought for one start a week and paid for every hour.
"""

from __future__ import annotations

from calc.check import Answer, Caution, Check, Example, answer, ask_fact, less, require
from calc.laws.inverter import losses
from calc.quantity import OutsideValidity, Quantity, constant, need, step
from calc.sources import COMMON_PRACTICE, LOSS_MODEL
from calc.units import W, day, h, kWh, percent


class InverterTooBig(Check):
    """Is the inverter too big for what it feeds?"""

    title = "Inverter's idle draw"
    headline = "idle_share"

    idle: Quantity = ask_fact("P₀", "inverter.idle", 60 * W, common=(25 * W, 55 * W, 90 * W))
    hours_on: Quantity = ask_fact("t_on", "inverter.hours_on", 24 * h, habit=True, common=(8 * h, 12 * h, 24 * h))
    loads_energy: Quantity = ask_fact("E_l", "place.loads_energy", 1.5 * kWh, common=(0.5 * kWh, 1.5 * kWh, 5 * kWh))
    peak_efficiency: Quantity = ask_fact("η", "inverter.peak_efficiency", 93 * percent)
    continuous: Quantity = ask_fact("P_r", "inverter.continuous", 5000 * W)
    bank_energy: Quantity = ask_fact("E_n", "bank.energy", 10.2 * kWh)

    def solve(self) -> Answer:
        if (self.loads_energy > self.continuous * self.hours_on).holds:
            raise OutsideValidity(
                f"An inverter of {self.continuous} cannot give {self.loads_energy} in {self.hours_on}."
            )
        a, b = losses(self.idle, self.peak_efficiency, self.continuous)
        own = need("E_own", "Energy a day that the inverter takes to be on", self.idle * self.hours_on, kWh)
        mean = step("P_m", "Mean power of the loads while it is on", self.loads_energy / self.hours_on, W)
        passed = step(
            "E_p",
            "Energy a day for what it passes on, at least",
            (1 + a + b * mean) * self.loads_energy,
            kWh,
            LOSS_MODEL,
        )
        whole = need("E_dc", "Energy a day from the bank", own + passed, kWh)
        share = need("k_own", "Share of it that goes to being on", own / whole, percent)
        most = constant("k_30", "Share that is too much", 30 * percent, COMMON_PRACTICE)
        fine = constant("k_15", "Share that is well spent", 15 * percent, COMMON_PRACTICE)
        return answer(
            require(
                share <= most,
                comfortable=share <= fine,
                label="Idle draw",
                yes="Little goes to being on.",
                tight="{left} of what it takes from the bank goes to being on.",
                no="{left} of what it takes from the bank goes to being on: more than {right} is a size too big, or on too long.",
            ),
            say=f"{own} a day goes to being on, {share} of what it takes from the bank.",
            notes=(f"Loads alone would say {self.loads_energy} a day; the bank gives {whole}.",),
            idle_share=share,
            idle_energy=own,
            energy_from_bank=whole,
            idle_of_bank=need("k_b", "Idle draw of a day, of the bank's nameplate", own / self.bank_energy, percent),
            emptied_by_idling=step(
                "n", "Days in which being on alone empties the bank", self.bank_energy / self.idle, day
            ),
        )

    fixes = (
        less("hours_on", 1 * h, "Switch it on for {hours_on} a day"),
        less(
            "idle", 5 * W, "Feed the small loads from a small inverter that idles at {idle}", costs="a second inverter"
        ),
    )
    cautions = (
        Caution(
            "WARNING",
            "Two inverters must never feed one circuit",
            "Their outputs fight; both are destroyed and what hangs on them too",
            "Give the small one its own outlets, wired to nothing else",
        ),
        Caution(
            "NOTICE",
            "A sleep mode that looks for loads may not see small ones",
            "A phone charger or a thermostat stays dark",
            "Try each small load with the sleep mode on",
        ),
    )
    examples = (
        Example(
            given={"idle": "25", "hours_on": "24", "loads_energy": "1.5", "bank_energy": "5.12", "continuous": "2000"},
            expect={"energy_from_bank": "2.16 kWh"},
            within=0.01,
            verdict="tight",
            source=LOSS_MODEL.at("25 W for 24 h, and 1.03 times 1.5 kWh and a little more"),
        ),
        Example(
            given={"idle": "90", "hours_on": "24", "loads_energy": "1.5", "bank_energy": "5.12", "continuous": "8000"},
            expect={"energy_from_bank": "3.71 kWh"},
            within=0.01,
            verdict="no",
            source=LOSS_MODEL.at("90 W for 24 h, and 1.03 times 1.5 kWh"),
        ),
        Example(
            given={"idle": "20", "hours_on": "12", "loads_energy": "5", "continuous": "3000"},
            verdict="go",
            source=COMMON_PRACTICE.at("0.24 kWh of idling beside 5 kWh of work"),
        ),
    )
