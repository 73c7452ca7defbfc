"""The page /run/time-to-add/: hours to put a distance into the car at this outlet.

The car keeps a few hundred watts for itself while it charges. Fewer amps lose more than their share.
"""

from __future__ import annotations

from calc.check import (
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
    pick_fact,
    require,
)
from calc.quantity import OutsideValidity, Quantity, constant, limit, need, step
from calc.sources import ANSI_C84_1, CAR_OVERHEAD, COMMON_PRACTICE, NEC_2023
from calc.units import A, V, W, h, kWh, mi, mi_per_kWh, mph_added, ohm, one, percent

VOLTS = {"120 V": 120 * V, "240 V": 240 * V, "230 V": 230 * V}


class TimeToAdd(Check):
    """How long to add a distance to the car at this outlet?"""

    title = "Time to add distance"
    headline = "time"
    rule_sets = (NEC,)

    distance: Quantity = ask_fact("D_add", "work.add_distance", 10 * mi, common=(5 * mi, 10 * mi, 20 * mi, 50 * mi))
    time_wanted: Quantity = ask_fact("t_w", "work.add_time", 4 * h, common=(1 * h, 4 * h, 8 * h))
    consumption: Quantity = ask_fact("c", "cars.consumption", 3.1 * mi_per_kWh, either_way=True)
    charging_volts: str = pick_fact("cars.charging_volts", "240 V")
    charging_amps: Quantity = ask_fact("I", "cars.charging_amps", 16 * A, common=(8 * A, 12 * A, 16 * A, 24 * A))
    breaker: Quantity = ask_fact("I_B", "outlets.breaker", 20 * A)
    lead: Quantity = ask(
        "R_s",
        "Resistance of supply and leads, out and back",
        0.25 * ohm,
        low=0 * ohm,
        high=1.5 * ohm,
        habit=True,
        help="Volts that it falls when the car starts to charge, over its amps; a long thin cord has 0.3 and more",
    )
    overhead: Quantity = ask(
        "P_oh",
        "Watts the car keeps for itself while it charges",
        280 * W,
        low=0 * W,
        high=600 * W,
        habit=True,
        common=(200 * W, 280 * W, 400 * W),
        help="Pumps and computers: 200 to 400 W in most; more in great heat or cold",
    )
    after_overhead: Quantity = ask(
        "η_oh",
        "Efficiency of its charger on the rest",
        93 * percent,
        low=70 * percent,
        high=98 * percent,
        habit=True,
        help="93 % is usual",
    )

    def solve(self) -> Answer:
        nominal = constant("V", "Nominal volts", VOLTS[self.charging_volts], COMMON_PRACTICE)
        volts = limit("V_p", "Volts at the plug while it charges", nominal - self.charging_amps * self.lead, V)
        if volts.si <= 0:
            raise OutsideValidity(f"{self.charging_amps} through {self.lead} leave no volts at the plug.")
        wall = step("P_p", "Power at the plug", volts * self.charging_amps, W)
        enough = require(
            wall > self.overhead,
            label="Overhead",
            exact=True,
            yes="Something is left for the battery.",
            no="The car keeps {right} for itself and gets {left}: nothing reaches its battery.",
        )
        if enough.verdict == "no":
            return answer(enough, say="", power_at_plug=wall)
        into = limit("P_car", "Power into the car's battery", (wall - self.overhead) * self.after_overhead, W)
        time = need("t", "Time for the distance", self.distance / self.consumption / into, h)
        return answer(
            enough,
            self._plug_holds(nominal, volts),
            self._breaker_holds(),
            require(
                time <= self.time_wanted,
                label="Time",
                rule=PHYSICAL,
                yes="There is time.",
                tight="It takes {left} of the {right} there is.",
                no="It takes {left}; there is {right}.",
            ),
            say=f"It takes {time} to add {self.distance}.",
            notes=self._naive(nominal),
            time=time,
            miles_per_hour=limit("v_add", "Distance added for each hour", into * self.consumption, mph_added),
            plug_to_battery=limit("η_p", "Share of the plug's power that reaches the battery", into / wall, percent),
            volts_at_plug=volts,
            energy_from_outlet=need("E_w", "Energy from the outlet", wall * time, kWh),
        )

    def _plug_holds(self, nominal: Quantity, volts: Quantity) -> Requirement:
        least = constant("k_lo", "Least share of the nominal volts under load", 110 / 120 * one, ANSI_C84_1)
        fair = constant(
            "k_fair", "Share below which a contact or a cord is to be looked at", 114 / 120 * one, ANSI_C84_1
        )
        return require(
            volts >= least * nominal,
            comfortable=volts >= fair * nominal,
            label="Volts at the plug",
            yes="The volts hold.",
            tight="Only {left} reach the plug under load: a long cord, or a loose contact that heats.",
            no="Only {left} reach the plug; under {right} a contact is loose or the cord too thin, and something heats.",
        )

    def _breaker_holds(self) -> Requirement:
        lasting = constant(
            "k_c", "A car is a continuous load and counts for", 1.25 * one, NEC_2023.at("625.42, 210.20(A)")
        )
        drawn = need("I_need", "Current the breaker must be good for", lasting * self.charging_amps, A)
        return require(
            drawn <= self.breaker,
            label="Outlet",
            exact=True,
            yes="The breaker holds.",
            no="Set the car lower: for hours on end its current counts as {left}, on a {right} breaker.",
        )

    def _naive(self, nominal: Quantity) -> tuple[str, ...]:
        careless = step(
            "t_n", "Time by nominal watts", self.distance / self.consumption / (nominal * self.charging_amps), h
        )
        return (
            f"Nominal volts times amps would say {careless}: it forgets what the car keeps for itself, and the cord.",
        )

    fixes = (
        more("time_wanted", 0.5 * h, "Leave after {time_wanted}"),
        less("distance", 1 * mi, "Add {distance} only"),
        more("charging_amps", 1 * A, "Set the car to {charging_amps}, where nothing else hangs on that breaker"),
        less("charging_amps", 1 * A, "Set the car to {charging_amps}", costs="it takes longer"),
        less("lead", 0.05 * ohm, "Use a shorter, thicker cord: {lead}"),
    )
    cautions = (
        Caution(
            "WARNING",
            "A plug that carries a car for hours finds every worn contact",
            "It melts and can set fire to what is behind it",
            "Feel it after ten minutes and after an hour; too warm to hold means stop",
        ),
        Caution(
            "WARNING",
            "Most extension cords are not made for a car",
            "They overheat inside a coil or under a mat",
            "Plug the car's own cord straight in; where that cannot be, see the page on extension cords",
        ),
    )
    examples = (
        Example(
            given={
                "charging_volts": "120 V", "charging_amps": "12", "lead": "0.25", "overhead": "280", "consumption": "3.24",
                "distance": "10", "time_wanted": "4", "breaker": "15",
            },
            expect={"plug_to_battery": "74 %"},
            within=0.01,
            verdict="go",
            source=CAR_OVERHEAD.at("74 % where 12 A at 120 V lose 280 W first"),
        ),
        Example(
            given={
                "charging_volts": "120 V", "charging_amps": "8", "lead": "0.25", "overhead": "280", "consumption": "3.24",
                "distance": "10", "time_wanted": "4", "breaker": "15",
            },
            expect={"plug_to_battery": "65 %"},
            within=0.01,
            verdict="no",
            source=CAR_OVERHEAD.at("65 % at 8 A"),
        ),
    )  # fmt: skip
