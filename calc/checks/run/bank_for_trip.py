"""The page /run/bank-for-trip/: the bank to own for a distance, each loss counted once, from the wheels back to the plate."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from calc.check import PHYSICAL, Answer, Caution, Check, Example, answer, less, more, option, require
from calc.checks.run.car_distance import LABEL, VOLTS, CarDistance
from calc.laws.battery import share_in_the_cold
from calc.laws.car import charging_efficiency, range_left
from calc.laws.inverter import power_from_bank
from calc.quantity import OutsideValidity, Quantity, constant, need, step
from calc.sources import COMMON_PRACTICE, EPA_LABEL
from calc.units import A, W, kWh, mi, one

# The car, the bank and the inverter are asked as on the page of the distance in the car.
_SAME: Any = CarDistance.asks


class BankForTrip(Check):
    """How big a bank does this trip need?"""

    title = "Bank for a trip"
    headline = "bank_needed"

    trip: Quantity = replace(_SAME["trip"], wish="")  # here it is what the answer is about
    consumption: Quantity = _SAME["consumption"]
    consumption_kind: str = _SAME["consumption_kind"]
    charging_volts: str = _SAME["charging_volts"]
    charging_amps: Quantity = _SAME["charging_amps"]
    air: Quantity = _SAME["air"]
    cabin: str = _SAME["cabin"]
    health: Quantity = _SAME["health"]
    reserve: Quantity = _SAME["reserve"]
    cells: Quantity = _SAME["cells"]
    idle: Quantity = _SAME["idle"]
    peak_efficiency: Quantity = _SAME["peak_efficiency"]
    continuous: Quantity = _SAME["continuous"]
    bank_energy: Quantity = _SAME["bank_energy"]

    def solve(self) -> Answer:
        left, at_most = range_left(self.air, self.cabin)
        if at_most:
            raise OutsideValidity(at_most)
        car = step(
            "P_car",
            "Power the car takes from the outlet",
            constant("V", "Nominal volts", VOLTS[self.charging_volts], COMMON_PRACTICE) * self.charging_amps,
            W,
        )
        at_car = need("E_trip", "Energy the trip needs where it is counted", self.trip / (self.consumption * left), kWh)
        if self.consumption_kind == LABEL:
            through = constant(
                "η_car", "The label counts at the wall: its charging loss is in it already", 1 * one, EPA_LABEL
            )
        else:
            through = charging_efficiency(car)
        at_outlet = need("E_out", "Energy the car takes from the outlet", at_car / through, kWh)
        from_bank = power_from_bank(car, self.idle, self.peak_efficiency, self.continuous)
        at_bank = need("E_bank", "Energy from the bank", at_outlet * (from_bank / car), kWh)
        share = step(
            "k_u",
            "Share of the nameplate that is there when full",
            self.health * (1 - self.reserve) * share_in_the_cold(self.cells),
            one,
        )
        wanted = need("E_need", "Nameplate energy the trip needs", at_bank / share, kWh)
        return answer(
            require(
                wanted <= self.bank_energy,
                label="Bank",
                rule=PHYSICAL,
                yes="The bank is large enough.",
                tight="The trip needs {left} of the {right} on the plate, with little to spare.",
                no="The trip needs a bank of {left}; this one is {right}.",
            ),
            require(
                car <= self.continuous,
                label="Inverter",
                yes="The inverter gives what the car takes.",
                tight="The car takes {left} of the {right} the inverter gives.",
                no="The car takes {left}; the inverter gives {right}.",
            ),
            say=f"The trip needs a bank of {wanted} on its plate.",
            notes=(
                f"The trip over the dash's figure would say {step('E_n2', 'Trip over the stated figure', self.trip / self.consumption, kWh)}: it forgets weather, charger, inverter and reserve.",
            ),
            bank_needed=wanted,
            energy_at_car=at_car,
            energy_from_outlet=at_outlet,
            energy_from_bank=at_bank,
        )

    fixes = (
        more("bank_energy", 0.1 * kWh, "Carry a bank of {bank_energy}", costs="heavier, dearer"),
        less("trip", 1 * mi, "Plan {trip} instead"),
        option("cabin", "off", "Drive with the cabin's heating and cooling off; warm it while plugged in"),
        less("charging_amps", 1 * A, "Set the car to {charging_amps}", costs="it charges longer"),
    )
    cautions = (
        Caution(
            "CAUTION",
            "A larger bank is a heavier rig",
            "Axle, tyres, hitch and the hands that lift it have limits of their own",
            "Look at the weights before you buy",
        ),
        Caution(
            "NOTICE",
            "Wind, hills, speed and soft ground take more than the stated figure",
            "The car may stop short",
            "Plan a quarter more than the map says",
        ),
    )
    examples = (
        Example(
            given={
                "trip": "72", "consumption": "4.5", "consumption_kind": LABEL, "air": "24 °C", "cabin": "off", "health": "100",
                "reserve": "0", "cells": "25 °C", "charging_volts": "240 V", "charging_amps": "16", "bank_energy": "30",
            },
            expect={"energy_at_car": "16 kWh", "energy_from_outlet": "16 kWh"},
            verdict="go",
            source=EPA_LABEL.at("a label's figure holds the charging loss: 72 miles at 4.5 mi/kWh are 16 kWh at the wall"),
        ),
        Example(
            given={
                "trip": "12", "consumption": "3.4", "air": "24 °C", "cabin": "off", "health": "100", "reserve": "10",
                "cells": "25 °C", "charging_volts": "120 V", "charging_amps": "12", "bank_energy": "4.5", "continuous": "3000",
                "idle": "36", "peak_efficiency": "94",
            },
            expect={"bank_needed": "5.09 kWh"},
            within=0.03,
            verdict="no",
            source=COMMON_PRACTICE.at("12 mi at 3.4 mi/kWh and 86 %, an inverter at 92 %, nine tenths of the plate"),
        ),
    )  # fmt: skip
