"""The page /refill/generator/: hours and fuel to put back what is missing.

A generator burns a good part of its fuel for turning alone, so a charger set low costs twice the fuel for the same
charge: load it well, then switch it off.
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
    ask,
    ask_fact,
    less,
    more,
    require,
)
from calc.quantity import Quantity, constant, limit, need, step
from calc.sources import COMMON_PRACTICE, FUEL_CHART, OWN_DERIVATION
from calc.units import A, V, W, dollars_per_gal, dollars_per_kWh, gal, gal_per_h, gal_per_kWh, h, kWh, one, percent


class Generator(Check):
    """How long must the generator run, and does the tank last?"""

    title = "Generator hours and fuel"
    headline = "fuel"

    rating: Quantity = ask_fact("P_g", "generator.watts", 3000 * W, common=(1800 * W, 3000 * W, 5500 * W))
    fuel_full: Quantity = ask_fact("f_1", "generator.fuel_full", 0.5 * gal_per_h)
    fuel_idle: Quantity = ask_fact("f_0", "generator.fuel_idle", 0.2 * gal_per_h)
    tank: Quantity = ask_fact("F", "generator.fuel", 4 * gal, common=(1 * gal, 5 * gal))
    price: Quantity = ask_fact("c_f", "generator.fuel_price", 4 * dollars_per_gal)
    running: Quantity = ask_fact("S_x", "now.running", 0 * W, help="Tools that run on the generator meanwhile")
    charger_set: Quantity = ask_fact("I_cs", "inverter.charger_set", 40 * A)
    bank_volts: Quantity = ask_fact("V_b", "bank.nominal_volts", 51.2 * V)
    charger_efficiency: Quantity = ask_fact("η_c", "inverter.charger_efficiency", 92 * percent)
    bank_energy: Quantity = ask_fact("E_n", "bank.energy", 10.2 * kWh)
    health: Quantity = ask_fact("s", "bank.health", 100 * percent)
    charge: Quantity = ask_fact("q", "now.charge", 30 * percent)
    fill_to: Quantity = ask(
        "q_to",
        "Charge to fill it to",
        95 * percent,
        low=10 * percent,
        high=100 * percent,
        habit=True,
        common=(80 * percent, 90 * percent, 95 * percent),
        help="The last part takes long at a low load: leave it to the sun or an outlet",
    )

    def solve(self) -> Answer:
        something = require(
            self.fill_to > self.charge,
            label="Charge",
            exact=True,
            yes="There is something to fill.",
            no="It is at {right} already, to be filled to {left}: the generator has nothing to do.",
        )
        if something.verdict == "no":
            return answer(something, say="", charge_left=self.charge)
        stored = need(
            "E_in", "Energy to put into the bank", self.bank_energy * self.health * (self.fill_to - self.charge), kWh
        )
        into = limit("P_in", "Power into the bank", self.charger_set * self.bank_volts, W)
        load = need("P_ac", "Load on the generator", into / self.charger_efficiency + self.running, W)
        hours = need("t", "Hours it must run", stored / into, h)
        slope = step(
            "p",
            "Fuel for each kWh it gives",
            (self.fuel_full - self.fuel_idle) / self.rating,
            gal_per_kWh,
            OWN_DERIVATION,
        )
        rate = need("f", "Fuel per hour at this load", self.fuel_idle + slope * load, gal_per_h, FUEL_CHART)
        fuel = need("F_need", "Fuel it burns", rate * hours, gal)
        each = step("f_kWh", "Fuel for each kWh that is stored", fuel / stored, gal_per_kWh)
        return answer(
            something,
            self._figures_fit(),
            *self._carries(load, fuel),
            say=f"It runs {hours} and burns {fuel}.",
            notes=self._light_load(slope),
            fuel=fuel,
            hours=hours,
            load=load,
            fuel_rate=rate,
            fuel_per_stored_kwh=each,
            cost_per_stored_kwh=need("c", "Fuel's cost for each kWh stored", each * self.price, dollars_per_kWh),
        )

    def _figures_fit(self) -> Requirement:
        return require(
            self.fuel_full > self.fuel_idle,
            label="Fuel figures",
            exact=True,
            yes="It burns more under load.",
            no="It cannot burn {left} under full load and {right} with nothing on it: one of the two is wrong.",
        )

    def _carries(self, load: Quantity, fuel: Quantity) -> tuple[Requirement, ...]:
        lasting = constant("k_g", "Share of its running watts that it holds for hours", 0.8 * one, COMMON_PRACTICE)
        return (
            require(
                load <= self.rating,
                comfortable=load <= lasting * self.rating,
                label="Load",
                yes="The generator carries it.",
                tight="The load of {left} is near the {right} it gives: not for hours on end.",
                no="The load of {left} is more than the {right} it gives: it stalls or trips.",
            ),
            require(
                fuel <= self.tank,
                label="Fuel",
                rule=PHYSICAL,
                yes="There is fuel enough.",
                tight="It burns {left} of the {right} there is.",
                no="It burns {left}; there is {right}.",
            ),
        )

    def _light_load(self, slope: Quantity) -> tuple[str, ...]:
        quarter = constant("k_4", "A light load, of the rating", 25 * percent, COMMON_PRACTICE)
        light = step(
            "f_q", "Fuel for each kWh at a quarter load", self.fuel_idle / (quarter * self.rating) + slope, gal_per_kWh
        )
        full = step("f_t", "Fuel for each kWh at full load", self.fuel_full / self.rating, gal_per_kWh)
        return (
            f"At a quarter of its load it burns {light} for what it gives, at full load {full}: charge at the full current, then switch it off.",
        )

    fixes = (
        less("charger_set", 1 * A, "Set the charger to {charger_set}", costs="it runs longer and burns more"),
        less("running", 50 * W, "Run tools of {running} at most meanwhile"),
        less("fill_to", 5 * percent, "Fill it to {fill_to} only"),
        more("tank", 0.5 * gal, "Have {tank} of fuel"),
    )
    cautions = (
        Caution(
            "DANGER",
            "Engine exhaust holds carbon monoxide, which has no smell",
            "It kills within minutes indoors, in a garage, and through an open window",
            "Run it outdoors only, 20 ft (6 m) and more from doors, windows and vents, exhaust away from people; sleep beside an alarm",
        ),
        Caution(
            "WARNING",
            "Fuel poured on a hot engine catches fire",
            "Burns, and a burning can in the hand",
            "Switch off and let it cool before you fill it; keep cans away from the rig's battery and exhaust",
        ),
        Caution(
            "WARNING",
            "A generator plugged into a building's wiring feeds the street",
            "It kills whoever works on the line",
            "Feed the rig's inlet only, never a socket of a building",
        ),
    )
    examples = (
        Example(
            given={
                "rating": "20000", "fuel_full": "1.6", "fuel_idle": "0.267", "tank": "20", "running": "8000",
                "charger_set": "40", "bank_volts": "48", "charger_efficiency": "96",
            },
            expect={"load": "10000 W", "fuel_rate": "0.9 gal/h"},
            verdict="go",
            source=FUEL_CHART.at("20 kW: 0.6, 0.9, 1.3 and 1.6 gal/h at a quarter, half, three quarters and full load"),
        ),
        Example(
            given={"rating": "1800", "charger_set": "40", "fuel_full": "0.3", "fuel_idle": "0.1"},
            verdict="no",
            source=COMMON_PRACTICE.at("2.2 kW on a set of 1.8 kW"),
        ),
        Example(
            given={"rating": "3000", "charger_set": "40", "tank": "1", "charge": "10"},
            verdict="no",
            source=COMMON_PRACTICE.at("a gallon makes about 6 kWh in a small set"),
        ),
    )  # fmt: skip
