"""The page /run/car-current/: the most that outlet, cord, inverter and one leg of it allow, and what to set.

A car draws the same current for hours: it is a continuous load, and the pilot's duty that offers it is not one line.
"""

from __future__ import annotations

from calc.check import (
    IEC,
    NEC,
    Answer,
    Caution,
    Check,
    Example,
    Requirement,
    answer,
    ask,
    ask_fact,
    less,
    option,
    pick,
    pick_fact,
    require,
)
from calc.laws.inverter import SPLIT_PHASE, limit_of_one_leg, offers
from calc.laws.outlet import FED_BY, INVERTER, WALL, breaker_before, gives_volts, has_ground, rating_of
from calc.laws.pilot import current_offered, duty_for, least_current, most_current
from calc.quantity import Quantity, alternative, constant, largest, limit, need, rounded_down, smallest, step
from calc.sources import COMMON_PRACTICE, IEC_60364_7_722, NEC_2023, SAE_J1772
from calc.tables import table
from calc.units import A, V, W, kW, percent

BY_AMPS, BY_DUTY = "the car's charge screen", "the pilot, measured"
HOUSEHOLD, INDUSTRIAL = "household socket", "IEC 60309 connector"
VOLTS = {"120 V": 120 * V, "240 V": 240 * V, "230 V": 230 * V}
CODED = tuple(f"{row} Ω" for row in reversed(table("cable_coding").rows))


class CarCurrent(Check):
    """What current do I set the car to?"""

    title = "Amps for the car"
    headline = "amps_to_set"

    charging_volts: str = pick_fact("cars.charging_volts", "240 V")
    set_by: str = pick(
        "Where its amps are read", (BY_AMPS, BY_DUTY), BY_AMPS, habit=True, help="The screen is enough for most"
    )
    charging_amps: Quantity = ask_fact(
        "I", "cars.charging_amps", 16 * A, when={"set_by": (BY_AMPS,)}, common=(8 * A, 12 * A, 16 * A, 24 * A)
    )
    duty: Quantity = ask(
        "D_m",
        "Duty of the pilot",
        26 * percent,
        low=1 * percent,
        high=99 * percent,
        when={"set_by": (BY_DUTY,)},
        common=(10 * percent, 26 * percent, 50 * percent),
        help="With a pilot tester plugged between cord and car; the share of each pulse that is high",
    )
    outlet: str = pick_fact("outlets.configuration", "14-30", rules=(NEC,))
    socket: str = pick_fact("cars.socket", {IEC: INDUSTRIAL}, {IEC: (HOUSEHOLD, INDUSTRIAL)})
    breaker: Quantity = ask_fact("I_B", "outlets.breaker", 20 * A, common=(16 * A, 20 * A, 30 * A, 50 * A))
    other_amps: Quantity = ask(
        "I_x",
        "Other loads on the same breaker",
        0 * A,
        low=0 * A,
        high=100 * A,
        habit=True,
        help="A second car, or anything plugged in behind it",
    )
    cord_rating: Quantity = ask_fact(
        "I_cord", "cars.cord_rating", 32 * A, rules=(NEC,), common=(12 * A, 16 * A, 32 * A, 40 * A)
    )
    coding: str = pick_fact("cars.coding", {IEC: "220 Ω"}, {IEC: CODED})
    fed_by: str = pick_fact(
        "now.plugged_into",
        INVERTER,
        (INVERTER, WALL),
        label="What feeds the outlet",
        help="On pass-through the wall feeds it",
        means=FED_BY,
    )
    continuous: Quantity = ask_fact(
        "P_r", "inverter.continuous", 5000 * W, when={"fed_by": (INVERTER,)}, common=(3000 * W, 5000 * W, 6000 * W)
    )
    system: str = pick_fact("inverter.system", SPLIT_PHASE, when={"fed_by": (INVERTER,)})
    one_leg: str = pick_fact("inverter.one_leg", "no", when={"system": (SPLIT_PHASE,)})
    running: Quantity = ask_fact(
        "S_x",
        "now.running",
        0 * W,
        habit=True,
        when={"fed_by": (INVERTER,)},
        help="Lights, a fridge, tools: their watts",
    )
    kept_free: Quantity = ask(
        "P_k",
        "Watts kept free for tools",
        500 * W,
        low=0 * W,
        high=20_000 * W,
        habit=True,
        when={"fed_by": (INVERTER,)},
        common=(0 * W, 500 * W, 1000 * W),
        help="What may be switched on while the car charges; a tenth of the rating at least",
    )

    def solve(self) -> Answer:
        volts = constant("V", "Nominal volts", VOLTS[self.charging_volts], COMMON_PRACTICE)
        asked = current_offered(self.duty) if self.set_by == BY_DUTY else self.charging_amps
        outlet, cord = self._outlet_allows(), self._cord_allows()
        inverter = self._inverter_allows(volts)
        most = limit(
            "I_max",
            "Most current for the car, by the weakest of them",
            smallest(outlet, cord, *inverter, most_current()),
            A,
        )
        to_set = step("I_set", "Set it to, in whole amps", rounded_down(largest(most, 0 * A), A), A)
        results = {"amps_to_set": to_set, "most_current": most}
        if (to_set >= least_current()).holds:
            results["duty"] = duty_for(to_set)
            results["power"] = step("P_car", "Power the car takes at that setting", volts * to_set, kW)
        return answer(
            *self._volts(),
            require(
                to_set >= least_current(),
                label="Least current",
                exact=True,
                yes="There is enough for a car to charge.",
                no="There are {left} for the car: under {right} no car charges.",
            ),
            require(
                asked <= outlet,
                label="Outlet",
                exact=True,
                yes="The outlet carries it for hours.",
                no="The car is set to {left}; the outlet and its breaker give {right} for hours on end. It would trip, or run hot.",
            ),
            require(
                asked <= cord,
                label="Charging cord",
                exact=True,
                yes="The charging cord carries it.",
                no="The car is set to {left}; its charging cord is made for {right}.",
            ),
            *self._inverter(volts, asked),
            say=f"Set it to {to_set} or less: {self.charging_volts} times that is what the car takes, for hours.",
            notes=self._naive(to_set),
            **results,
        )

    def _outlet_allows(self) -> Quantity:
        """What is left for a load of hours: 80 % of outlet and breaker by the US rule, less what else hangs there."""
        if self.rules == IEC:
            if self.socket == HOUSEHOLD:
                rating = constant("I_out", "Household socket, for hours on end", 10 * A, COMMON_PRACTICE)
                weaker = smallest(rating, self.breaker)
            else:
                weaker = self.breaker
            return limit(
                "I_h",
                "What outlet and breaker give the car",
                weaker - self.other_amps,
                A,
                IEC_60364_7_722.at("722.311"),
            )
        rating = rating_of(self.outlet)
        share = constant("k_h", "A load of hours may take", 80 * percent, NEC_2023.at("625.42, 210.20(A)"))
        return limit(
            "I_h", "What outlet and breaker give the car", share * smallest(rating, self.breaker) - self.other_amps, A
        )

    def _cord_allows(self) -> Quantity:
        if self.rules == IEC:
            ohms = self.coding.removesuffix(" Ω")
            return table("cable_coding").read("I_cord", f"Rating of a cord with {self.coding}", ohms, "amps", A)
        return alternative("I_c", "What the charging cord carries", self.cord_rating, "as its plate says", A)

    def _free_watts(self) -> Quantity:
        return limit(
            "P_f", "Watts free for the car", largest(self.continuous - self.running - self.kept_free, 0 * W), W
        )

    def _inverter_allows(self, volts: Quantity) -> tuple[Quantity, ...]:
        if self.fed_by == WALL:
            return ()
        allowed = [limit("I_inv", "What the inverter leaves for the car", self._free_watts() / volts, A)]
        if self._on_one_leg():
            leg = limit_of_one_leg(self.continuous, self.one_leg)
            free = largest(leg - self.running - self.kept_free, 0 * W)
            allowed.append(limit("I_leg", "What one leg leaves for the car, all else on it", free / volts, A))
        return tuple(allowed)

    def _on_one_leg(self) -> bool:
        return self.fed_by == INVERTER and self.system == SPLIT_PHASE and self.charging_volts == "120 V"

    def _inverter(self, volts: Quantity, asked: Quantity) -> tuple[Requirement, ...]:
        if self.fed_by == WALL:
            return ()
        total = need("P", "Car, other loads and what is kept free", volts * asked + self.running + self.kept_free, W)
        rests = [
            require(
                total <= self.continuous,
                label="Inverter",
                yes="The inverter gives this.",
                tight="With the tools it is asked for {left} of its {right}.",
                no="Car, loads and what is kept for tools ask {left}; the inverter gives {right} and would switch off.",
            )
        ]
        if self._on_one_leg():
            # Where the other loads hang is not asked: held against the same leg, the answer errs to the safe side.
            rests.append(
                require(
                    total <= limit_of_one_leg(self.continuous, self.one_leg),
                    label="One leg",
                    yes="One leg gives this.",
                    tight="One leg is asked for {left} of its {right}.",
                    no="Car, loads and what is kept for tools ask {left} of one leg, which gives {right}.",
                )
            )
        return tuple(rests)

    def _volts(self) -> tuple[Requirement, ...]:
        rests = []
        if self.fed_by == INVERTER:
            rests.append(
                require(
                    offers(self.system, self.charging_volts),
                    label="Inverter's volts",
                    yes="The inverter gives these volts.",
                    no=f"This inverter gives {self.system}, not {self.charging_volts}.",
                )
            )
        if self.rules == NEC:
            rests += [
                gives_volts(self.outlet, self.charging_volts),
                has_ground(self.outlet),
                breaker_before(self.outlet, self.breaker, rating_of(self.outlet)),
            ]
        return tuple(rests)

    def _naive(self, to_set: Quantity) -> tuple[str, ...]:
        if self.rules == IEC or (to_set >= self.breaker).holds:
            return ()
        return (
            f"The breaker says {self.breaker}; for hours on end it gives four fifths of that. A cord must say the "
            "current to the car by its pilot: 85 % is 51 A but 86 % is 55 A, and 5 % is no current but a message.",
        )

    fixes = (
        less("charging_amps", 1 * A, "Set the car to {charging_amps}", costs="it charges longer"),
        less("duty", 1 * percent, "Set the pilot to {duty}", costs="it charges longer"),
        option("charging_volts", "240 V", "Charge it at 240 V"),
        option("charging_volts", "120 V", "Charge it at 120 V", costs="half the power or less"),
        less("running", 50 * W, "Switch off other loads down to {running}"),
        less("other_amps", 1 * A, "Take what else hangs on this breaker down to {other_amps}"),
        option("socket", INDUSTRIAL, "Use an IEC 60309 connector of its own"),
    )
    cautions = (
        Caution(
            "WARNING",
            "A car may refuse a source whose neutral is not bonded to ground, or rely on a ground that is not there",
            "A fault can put the car's body at mains volts",
            "Have bond and ground-fault protection checked; never defeat the car's own test",
        ),
        Caution(
            "WARNING",
            "An outlet or an adapter that carries its current for hours can run hot",
            "A worn contact melts, arcs and can set fire to what is near",
            "Feel the plug after ten minutes; too warm to hold: stop the car's charging first, then unplug",
        ),
        Caution(
            "NOTICE",
            "Two cars on one inverter share one limit",
            "Together they switch it off, and with it all tools",
            "Count the other car as another load",
            only=lambda check: check.fed_by == INVERTER,
        ),
    )
    examples = (
        Example(
            given={
                "continuous": "6000 W",
                "kept_free": "1000 W",
                "charging_amps": "20",
                "outlet": "14-30",
                "breaker": "30",
            },
            expect={"amps_to_set": "20 A", "duty": "33.3 %", "power": "4.80 kW"},
            verdict="tight",
            source=SAE_J1772.at("20 A is a duty of 33.3 %; 5000 W over 240 V is 20.8 A"),
        ),
        Example(
            given={
                "fed_by": WALL,
                "outlet": "14-50",
                "breaker": "50",
                "charging_amps": "48",
                "cord_rating": "48",
            },
            expect={"amps_to_set": "40 A"},
            verdict="no",
            source=NEC_2023.at("625.42, 210.20(A): 48 A for hours needs a 60 A circuit; a 50 A one gives 40 A"),
        ),
        Example(
            given={
                "fed_by": WALL,
                "outlet": "5-15",
                "breaker": "15",
                "charging_volts": "120 V",
                "charging_amps": "12",
            },
            expect={"amps_to_set": "12 A", "power": "1.44 kW"},
            verdict="go",
            source=NEC_2023.at("210.20(A): 12 A for hours on a 15 A circuit"),
        ),
        Example(
            given={
                "fed_by": WALL,
                "charging_volts": "230 V",
                "charging_amps": "16",
                "breaker": "16",
                "coding": "680 Ω",
            },
            expect={"amps_to_set": "16 A", "power": "3.68 kW"},
            verdict="go",
            rules=IEC,
            source=IEC_60364_7_722.at("a circuit of 16 A serves a car of 16 A"),
        ),
        Example(
            given={
                "fed_by": WALL,
                "charging_volts": "230 V",
                "charging_amps": "32",
                "breaker": "32",
                "coding": "680 Ω",
            },
            verdict="no",
            rules=IEC,
            source=IEC_60364_7_722.at("IEC 61851-1, Table B.1: 680 Ω codes a 20 A cord"),
        ),
    )
