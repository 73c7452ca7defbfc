"""The page /run/car-distance/: stored energy to distance, each loss counted once.

The dash counts at the car's battery, so the car's charger is a loss; the label counts at the wall and holds that loss
already. Taking both is an error of about 14 %.
"""

from __future__ import annotations

from calc.check import (
    IEC,
    NEC,
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
    option,
    pick,
    pick_fact,
    require,
)
from calc.laws import outlet
from calc.laws.battery import energy_to_hand, share_in_the_cold
from calc.laws.car import charging_efficiency, range_left
from calc.laws.inverter import SPLIT_PHASE, power_from_bank
from calc.laws.supply import LEGS, OTHER_LEG, SAME_LEG, Supply
from calc.quantity import OutsideValidity, Quantity, alternative, constant, limit, need, smallest, step
from calc.sources import AAA_2019, COMMON_PRACTICE, EPA_LABEL, OWN_DERIVATION
from calc.tables import table
from calc.units import A, V, W, degC, h, kWh, mi, mi_per_kWh, one, percent

DASH, LABEL = "dash (at the battery)", "label (at the wall)"
BY_POWER, MEASURED = "by its power", "measured"
VOLTS = {"120 V": 120 * V, "240 V": 240 * V, "230 V": 230 * V}
SOCKETS = {"household, 16 A": 10 * A, "IEC 60309, 16 A": 16 * A, "IEC 60309, 32 A": 32 * A}


class CarDistance(Check):
    """How far will the car go on what is stored?"""

    title = "Distance in the car"
    headline = "distance"

    trip: Quantity = ask_fact("D_w", "place.trip", 15 * mi, wish="the least", common=(5 * mi, 10 * mi, 20 * mi, 40 * mi))
    consumption: Quantity = ask_fact(
        "c",
        "cars.consumption",
        3.1 * mi_per_kWh,
        either_way=True,
        common=(2.5 * mi_per_kWh, 3 * mi_per_kWh, 3.5 * mi_per_kWh, 4 * mi_per_kWh),
    )
    consumption_kind: str = pick_fact("cars.consumption_kind", DASH)
    charging_volts: str = pick_fact("cars.charging_volts", "240 V")
    charging_amps: Quantity = ask_fact("I", "cars.charging_amps", 16 * A, common=(8 * A, 12 * A, 16 * A, 24 * A))
    outlet: str = pick_fact(
        "outlets.configuration",
        {NEC: "14-30", IEC: "IEC 60309, 16 A"},
        {NEC: table("outlets").rows, IEC: tuple(SOCKETS)},
    )
    breaker: Quantity = ask_fact("I_B", "outlets.breaker", 20 * A, common=(15 * A, 20 * A, 30 * A, 50 * A))
    charger_known: str = pick(
        "Loss in the car's own charger",
        (BY_POWER, MEASURED),
        BY_POWER,
        habit=True,
        when={"consumption_kind": (DASH,)},
        help="Measured: energy into the car's battery over energy from the outlet",
    )
    charger_efficiency: Quantity = ask(
        "η_m",
        "Efficiency of the car's charger",
        88 * percent,
        low=60 * percent,
        high=95 * percent,
        when={"charger_known": (MEASURED,)},
        help="What the dash says went in, over what a meter at the outlet says",
    )
    bank_energy: Quantity = ask_fact("E_n", "bank.energy", 10.2 * kWh, common=(5.1 * kWh, 10.2 * kWh, 15.4 * kWh))
    health: Quantity = ask_fact("s", "bank.health", 100 * percent, common=(80 * percent, 90 * percent, 100 * percent))
    charge: Quantity = ask_fact("q", "now.charge", 100 * percent, common=(50 * percent, 75 * percent, 100 * percent))
    reserve: Quantity = ask_fact("q_r", "bank.reserve", 10 * percent, common=(10 * percent, 20 * percent))
    cells: Quantity = ask_fact("θ_c", "now.cells", 20 * degC, common=(0 * degC, 10 * degC, 25 * degC))
    air: Quantity = ask_fact("θ_a", "now.air", 20 * degC, common=(-5 * degC, 10 * degC, 20 * degC))
    cabin: str = pick_fact("cars.cabin", "on", habit=True)
    continuous: Quantity = ask_fact("P_r", "inverter.continuous", 5000 * W, common=(3000 * W, 5000 * W, 6000 * W))
    system: str = pick_fact("inverter.system", SPLIT_PHASE)
    one_leg: str = pick_fact("inverter.one_leg", "no", when={"system": (SPLIT_PHASE,)})
    running: Quantity = ask_fact("S_x", "now.running", 0 * W, help="Lights, a fridge, tools: their watts")
    running_leg: str = pick(
        "They hang on",
        LEGS,
        SAME_LEG,
        habit=True,
        when={"system": (SPLIT_PHASE,)},
        help="The leg that the car's outlet is on, the other one, or both",
    )
    idle: Quantity = ask_fact("P₀", "inverter.idle", 60 * W, common=(25 * W, 55 * W, 90 * W))
    peak_efficiency: Quantity = ask_fact(
        "η", "inverter.peak_efficiency", 93 * percent, common=(90 * percent, 93 * percent, 95 * percent)
    )

    def solve(self) -> Answer:
        something = require(
            self.charge >= self.reserve,
            label="Charge",
            exact=True,
            yes="There is charge above what is kept back.",
            no="There is {left} left and {right} is kept back: nothing for the car.",
        )
        if something.verdict == "no":
            return answer(something, say="", charge_left=self.charge)
        car = step(
            "P_car",
            "Power the car takes from the outlet",
            constant("V", "Nominal volts", VOLTS[self.charging_volts], COMMON_PRACTICE) * self.charging_amps,
            W,
        )
        total = need("P", "Power the inverter gives", car + self.running, W)
        from_bank = power_from_bank(total, self.idle, self.peak_efficiency, self.continuous)
        energy = energy_to_hand(self.bank_energy, self.health, self.charge, self.reserve, share_in_the_cold(self.cells))
        hours = step("t", "Hours of charging until the reserve", energy / from_bank, h)
        given_out = limit("E_out", "Energy the car takes from the outlet", car * hours, kWh)
        through, into_car = self._into_the_car(given_out, car)
        left, at_most = range_left(self.air, self.cabin)
        distance = limit("D_max", "Distance on what is stored", into_car * self.consumption * left, mi)
        trip_energy = need(
            "E_trip", "Energy the trip needs where it is counted", self.trip / (self.consumption * left), kWh
        )
        wanted = need(
            "E_bank",
            "Energy to have to hand for the trip, at the battery",
            trip_energy / through * (from_bank / car),
            kWh,
        )
        goes = require(
            distance >= self.trip,
            label="Distance",
            rule=PHYSICAL,
            yes="The trip is possible.",
            tight="It goes {left}: the {right} trip is possible, with little to spare.",
            no=f"It goes {'at most ' if at_most else ''}{{left}} on what is stored; the trip is {{right}}.",
        )
        if at_most and goes.condition.holds:
            raise OutsideValidity(f"{at_most} At most {distance} are possible, and how much fewer is not known.")
        return answer(
            something,
            goes,
            self._cells_stand_it(),
            *self._supply(car),
            say=f"The car goes {distance} on what is stored, after {hours} of charging.",
            notes=self._naive(given_out),
            distance=distance,
            range_share=left,
            car_power=car,
            charging_time=hours,
            energy_to_hand=energy,
            energy_from_outlet=given_out,
            energy_into_car=into_car,
            power_from_bank=from_bank,
            energy_needed_for_trip=wanted,
            charging_time_for_trip=step("t_D", "Hours of charging for the trip", wanted / from_bank, h, rounds=1),
        )

    def _into_the_car(self, given_out: Quantity, car: Quantity) -> tuple[Quantity, Quantity]:
        """The share that gets through the car's charger, and the energy that the consumption is counted from."""
        if self.consumption_kind == LABEL:
            all_of_it = constant(
                "η_car", "The label counts at the wall: its charging loss is in it already", 1 * one, EPA_LABEL
            )
            return all_of_it, limit("E_car", "Energy as the label counts it", given_out * all_of_it, kWh)
        if self.charger_known == MEASURED:
            through = alternative(
                "η_car", "Share that the car's charger lets through", self.charger_efficiency, "as measured", percent
            )
        else:
            through = charging_efficiency(car)
        return through, limit("E_car", "Energy into the car's battery", given_out * through, kWh)

    def _cells_stand_it(self) -> Requirement:
        most = constant("θ_max", "Hottest that cells may be while they give", 55 * degC, COMMON_PRACTICE)
        warm = constant("θ_warm", "Cells above this age fast", 45 * degC, COMMON_PRACTICE)
        return require(
            self.cells <= most,
            comfortable=self.cells <= warm,
            label="Heat of the cells",
            yes="The cells are cool enough.",
            tight="The cells are at {left}: they give, and age fast.",
            no="At {left} the cells may not give; {right} is the most.",
        )

    def _supply(self, car: Quantity) -> list[Requirement]:
        """Can the rig give what the car is set to take: volts, rating, legs, outlet and breaker."""
        supply = Supply(self.system, self.one_leg, self.continuous, self.running, self.running_leg)
        volts = "240 V" if self.charging_volts == "230 V" and self.system == SPLIT_PHASE else self.charging_volts
        rests = [supply.gives_volts(self.charging_volts), *supply.carries(car, volts)]
        return rests + (self._outlet_by_nec() if self.rules == NEC else self._socket_by_iec())

    def _outlet_by_nec(self) -> list[Requirement]:
        rating = outlet.rating_of(self.outlet)
        return [
            outlet.gives_volts(self.outlet, self.charging_volts),
            outlet.has_ground(self.outlet),
            outlet.breaker_before(self.outlet, self.breaker, rating),
            outlet.carries(self.outlet, rating, self.breaker, self.charging_amps, lasting=True),
        ]

    def _socket_by_iec(self) -> list[Requirement]:
        """A household socket is not made for hours at its rating; an industrial one is."""
        lasting = constant("I_soc", f"Current for hours on end: {self.outlet}", SOCKETS[self.outlet], COMMON_PRACTICE)
        weaker = limit("I_lim", "The lower of socket and breaker", smallest(lasting, self.breaker), A)
        return [
            require(
                self.charging_amps <= weaker,
                label="Socket",
                exact=True,
                yes="The socket carries it.",
                no="Set the car lower: {left} is asked for hours on end of a socket and breaker good for {right}.",
            )
        ]

    def _naive(self, given_out: Quantity) -> tuple[str, ...]:
        if self.consumption_kind == LABEL:
            return ()
        careless = limit("D_n", "Energy from the outlet times the dash figure", given_out * self.consumption, mi)
        return (
            f"Energy at the outlet times the dash figure would say {careless}: it forgets the loss in the car's charger and the weather.",
        )

    fixes = (
        more("charge", 5 * percent, "Fill the bank to {charge} first", costs="it takes time to refill"),
        option("cabin", "off", "Drive with the cabin's heating and cooling off; warm it while plugged in"),
        less("trip", 1 * mi, "Plan {trip} instead"),
        more("bank_energy", 0.1 * kWh, "Carry a bank of {bank_energy}", costs="heavier, dearer"),
        option("running_leg", OTHER_LEG, "Move the other loads to the other leg"),
        less("charging_amps", 1 * A, "Set the car to {charging_amps}", costs="it charges longer"),
        option("charging_volts", "240 V", "Charge it at 240 V"),
        less("running", 50 * W, "Switch off other loads down to {running}"),
    )
    cautions = (
        Caution(
            "WARNING",
            "A car may refuse this source, or rely on a ground that is not there",
            "Without a bond between neutral and ground where the power is made, a fault can put the car's body at mains voltage",
            "Have the bond and the ground-fault protection checked; never defeat the car's own test",
        ),
        Caution(
            "CAUTION",
            "An outlet that carries its current for hours can run hot",
            "A worn contact melts and can burn",
            "Feel the plug after ten minutes; if it is too warm to hold, stop and replace it",
        ),
        Caution(
            "NOTICE",
            "Wind, hills, speed and soft ground take more than the dash's average",
            "The car may stop short",
            "Keep a reserve in the car as well",
        ),
    )
    examples = (
        Example(
            given={"air": "-7 °C", "cabin": "on", "trip": "5"},
            expect={"range_share": "0.59"},
            source=AAA_2019.at("41 % of the range lost at 20 °F with the cabin heated"),
        ),
        Example(
            given={"air": "95 °F", "cabin": "on", "trip": "5"},
            expect={"range_share": "0.83"},
            source=AAA_2019.at("17 % of the range lost at 95 °F with the cabin cooled"),
        ),
        Example(
            given={
                "charging_volts": "240 V",
                "charging_amps": "32",
                "continuous": "8000 W",
                "outlet": "14-50",
                "breaker": "40",
                "trip": "5",
            },
            expect={"car_power": "7.68 kW"},
            verdict="tight",
            source=COMMON_PRACTICE.at("32 A at 240 V is 7.7 kW and just fits 8 kW continuous"),
        ),
        Example(
            given={"consumption": "33.7 MPGe", "consumption_kind": LABEL, "air": "24 °C", "trip": "800 km"},
            expect={"range_share": "1"},
            verdict="no",
            source=EPA_LABEL.at("33.7 kWh to the gallon: 33.7 MPGe is one mile per kilowatt-hour at the wall"),
        ),
        Example(
            given={
                "charge": "100",
                "reserve": "0",
                "health": "100",
                "cells": "25 °C",
                "charging_amps": "12",
                "air": "24 °C",
                "trip": "10",
            },
            expect={"energy_to_hand": "10.2 kWh"},
            verdict="go",
            source=OWN_DERIVATION.at("a full, warm, new bank gives its nameplate"),
        ),
    )
