"""The page /shelter/warm-up/: how long the heater takes to make the cells fit to be charged, and what holding them costs.

A heater below the loss never gets there, however long it runs.
"""

from __future__ import annotations

from calc.check import NO, Answer, Caution, Check, Example, Requirement, answer, ask, ask_fact, less, more, require
from calc.laws import warmth
from calc.quantity import Quantity, constant, need, step
from calc.sources import COMMON_PRACTICE, FROM_MEMORY, OWN_DERIVATION, Source
from calc.units import W, W_per_K, degC, h, kg, kWh, percent

LUMPED = Source("Lumped heat capacity with a constant loss, a text of heat transfer", "", FROM_MEMORY)


class WarmUp(Check):
    """How long until the battery is warm enough?"""

    title = "Warm the battery"
    headline = "warm_up_time"

    bank_mass: Quantity = ask_fact("m_b", "bank.mass", 92 * kg)
    heater: Quantity = ask_fact("P_h", "bank.heater", 120 * W, common=(50 * W, 100 * W, 200 * W))
    heat_loss: Quantity = ask_fact(
        "U", "bank.heat_loss", 1.6 * W_per_K, common=(1 * W_per_K, 1.6 * W_per_K, 3 * W_per_K)
    )
    cells: Quantity = ask_fact(
        "θ_c",
        "now.cells",
        -10 * degC,
        common=(-15 * degC, -5 * degC, 0 * degC),
        help="On the battery's monitor; after a night out it is that of the air",
    )
    air: Quantity = ask_fact("θ_a", "now.air", -10 * degC, common=(-18 * degC, -10 * degC, 0 * degC))
    target: Quantity = ask(
        "θ_t",
        "Temperature wanted",
        5 * degC,
        low=-10 * degC,
        high=30 * degC,
        habit=True,
        common=(5 * degC, 10 * degC, 15 * degC),
        help="Warm enough to charge: see that page for the current at each",
    )
    bank_energy: Quantity = ask_fact("E_n", "bank.energy", 10.2 * kWh)

    def solve(self) -> Answer:
        if (self.cells >= self.target).holds:
            return self._warm_already()
        settles = warmth.settles_at(self.air, self.heater, self.heat_loss)
        gets_there = self._gets_there()
        if gets_there.verdict == NO:
            return answer(gets_there, say="", settles_at=settles, warm_up_time=self._never())
        capacity = warmth.heat_capacity(self.bank_mass)
        time = warmth.warming_time(capacity, self.heat_loss, self.heater, self.air, self.cells, self.target)
        spent = need("E_w", "Energy the heater takes", self.heater * time, kWh)
        holding, daily = self._holding()
        return answer(
            gets_there,
            self._wait(time),
            say=f"The cells reach {self.target} in {time}, for {spent:up}.",
            notes=(
                "A pad heats one face; allow half an hour to an hour more for the middle of the cells.",
                "Charge only when the coldest cell is warm, not the sensor beside the heater.",
            ),
            warm_up_time=time,
            energy=spent,
            share_of_bank=need("q_w", "Of the bank's nameplate", spent / self.bank_energy, percent),
            settles_at=settles,
            **({} if holding is None or daily is None else {"holding_power": holding, "holding_energy": daily}),
        )

    def _warm_already(self) -> Answer:
        return answer(
            require(
                self.cells >= self.target, exact=True, label="Warm", yes="It is warm.", no="It is colder than {right}."
            ),
            say=f"It is warm already: {self.cells}, and {self.target} is wanted.",
            notes=("A box has no single temperature: the corner cells are the coldest. Look again before charging.",),
            **self._until_it_freezes(),
            warm_up_time=constant("t", "Nothing has to be warmed: hours counted", 0 * h, OWN_DERIVATION),
        )

    def _until_it_freezes(self) -> dict[str, Quantity]:
        """How long it keeps above freezing by itself; nothing where it does not cool to that."""
        freezing = constant("θ_0", "Freezing", 0 * degC, LUMPED)
        if (self.air >= freezing).holds or (self.cells <= freezing).holds:
            return {}
        capacity = warmth.heat_capacity(self.bank_mass)
        return {"above_freezing": warmth.cooling_time(capacity, self.heat_loss, self.air, self.cells, freezing)}

    def _never(self) -> Quantity:
        return constant("t", "It never gets there; hours counted", 0 * h, OWN_DERIVATION)

    def _gets_there(self) -> Requirement:
        """The heater must beat the loss at the temperature wanted; in air as warm as that it always does."""
        lost = step("P_l", "Heat lost at the temperature wanted", self.heat_loss * (self.target - self.air), W, LUMPED)
        return require(
            self.heater > lost,
            exact=True,
            label="Gets there",
            yes="The heater is stronger than the loss.",
            no=f"It never reaches {self.target}: the heater gives {{left}} and {{right}} leak away there.",
        )

    def _wait(self, time: Quantity) -> Requirement:
        short = constant("t_3", "Longest comfortable wait", 3 * h, COMMON_PRACTICE)
        long = constant("t_12", "Longest wait that is any use: a night", 12 * h, COMMON_PRACTICE)
        return require(
            time <= long,
            comfortable=time <= short,
            label="Wait",
            yes="It is warm soon.",
            tight=f"It takes {{left}} to reach {self.target}: start it before you need it.",
            no=f"It takes {{left}} to reach {self.target}; {{right}} is a whole night.",
        )

    def _holding(self) -> tuple[Quantity | None, Quantity | None]:
        if (self.air >= self.target).holds:
            return None, None
        power = warmth.holding(self.heat_loss, self.target, self.air)
        return power, warmth.in_a_day(power)

    fixes = (
        more("heater", 10 * W, "Use a heater of {heater}", costs="more energy while it runs"),
        less("heat_loss", 0.1 * W_per_K, "Insulate the box until it leaks {heat_loss}"),
        less("target", 1 * degC, "Be content with {target}; charge slower there"),
    )
    cautions = (
        Caution(
            "DANGER",
            "A frozen lithium battery that is charged can burn later",
            "Lithium plates inside and shorts the cells, days or weeks on; the fire gives poisonous smoke",
            "No charge below freezing, by the cells' own temperature, whatever the charger shows",
        ),
        Caution(
            "WARNING",
            "A heater pad without a thermostat and a thermal fuse can set the case alight",
            "It keeps heating where no air carries it away",
            "Use pads made for batteries, with both; never an open flame or a heat gun",
        ),
    )
    examples = (
        Example(
            given={
                "bank_mass": "47 kg",
                "heater": "100 W",
                "heat_loss": "1.6",
                "cells": "-15 °C",
                "air": "-15 °C",
                "target": "5 °C",
            },
            expect={"settles_at": "47.5 °C", "holding_power": "32 W"},
            verdict="tight",
            source=LUMPED.at("θ = θ_air + P/UA; hold = UA·(θ − θ_air)"),
        ),
        Example(
            given={
                "bank_mass": "47 kg",
                "heater": "25 W",
                "heat_loss": "1.6",
                "cells": "-15 °C",
                "air": "-15 °C",
                "target": "5 °C",
            },
            expect={"settles_at": "0.6 °C"},
            verdict=NO,
            source=LUMPED.at("−15 + 25/1.6 = 0.6"),
        ),
        Example(
            given={
                "bank_mass": "20 kg",
                "heater": "200 W",
                "heat_loss": "1",
                "cells": "-5 °C",
                "air": "0 °C",
                "bank_energy": "5 kWh",
            },
            verdict="go",
            source=LUMPED.at("22.6 kJ/K · 10 K over some 200 W: about 20 minutes"),
        ),
    )
