"""The page /run/range-extender/: the rig's bank tied to the bank of the vehicle that tows it.

Twice the energy is not twice the range, since the rig has to be pulled too. Tied straight together, the two banks
share every push and every braking by their resistances, and ask neither.
"""

from __future__ import annotations

from calc.check import (
    NO,
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
    pick_fact,
    require,
)
from calc.laws.battery import energy_to_hand, share_in_the_cold
from calc.laws.charging import charge_allowed
from calc.quantity import Quantity, Statement, constant, limit, need, step
from calc.sources import COMMON_PRACTICE, LFP_SHEETS, OWN_DERIVATION
from calc.units import A, Ah, V, W, Wh_per_mi, degC, h, kg, kWh, mi, mohm, mph, one, percent

CONVERTER, DIRECT = "through a dc-dc converter", "directly in parallel"
ALIKE, UNLIKE = "the same chemistry and cell count", "not the same, or not known"
FUSED, UNFUSED = "at both ends", "at one end or none"


class RangeExtender(Check):
    """How far does the vehicle go with this bank tied to its own?"""

    title = "Range extender"
    headline = "distance"

    trip: Quantity = ask_fact("D_w", "place.trip", 15 * mi, wish="the least")
    vehicle_energy: Quantity = ask_fact("E_v", "tow.energy", 7.2 * kWh)
    vehicle_charge: Quantity = ask(
        "q_v",
        "Charge of the vehicle's battery, above its reserve",
        90 * percent,
        low=0 * percent,
        high=100 * percent,
        habit=True,
        help="On its dash, less what you keep back",
    )
    use: Quantity = ask_fact("u", "tow.use", 95 * Wh_per_mi)
    vehicle_mass: Quantity = ask_fact("m_v", "tow.mass", 640 * kg)
    rig_mass: Quantity = ask_fact(
        "M", "chassis.loaded_mass", 250 * kg, help="The whole rig, weighed: it is towed or carried"
    )
    by_mass: Quantity = ask(
        "k_m",
        "Share of its use that grows with the mass",
        70 * percent,
        low=50 * percent,
        high=90 * percent,
        habit=True,
        help="Slow and on soft or hilly ground more, fast on a flat road less",
    )
    speed: Quantity = ask_fact("v", "tow.speed", 12 * mph, when={"coupling": (CONVERTER,)})
    coupling: str = pick_fact("tie.coupling", CONVERTER)
    converter_power: Quantity = ask_fact("P_dd", "tie.converter_power", 1500 * W, when={"coupling": (CONVERTER,)})
    converter_efficiency: Quantity = ask(
        "η_dd",
        "Efficiency of the converter",
        94 * percent,
        low=70 * percent,
        high=99 * percent,
        habit=True,
        when={"coupling": (CONVERTER,)},
        help="In its sheet",
    )
    match: str = pick_fact("tie.alike", ALIKE, when={"coupling": (DIRECT,)})
    fuses: str = pick_fact(
        "tie.fuses",
        FUSED,
        (FUSED, UNFUSED),
        when={"coupling": (DIRECT,)},
        means={"at both ends": FUSED, "at one end only": UNFUSED, "none": UNFUSED},
    )
    volts_apart: Quantity = ask_fact("ΔV", "tie.volts_apart", 0.2 * V, when={"coupling": (DIRECT,)})
    resistance: Quantity = ask_fact(
        "R_b", "bank.resistance", 14 * mohm, when={"coupling": (DIRECT,)}, help="With its leads to the tie"
    )
    vehicle_resistance: Quantity = ask_fact("R_v", "tie.vehicle_resistance", 20 * mohm, when={"coupling": (DIRECT,)})
    peak: Quantity = ask_fact("I_pk", "tie.peak", 150 * A, when={"coupling": (DIRECT,)})
    braking: Quantity = ask_fact("I_br", "tie.braking", 40 * A, when={"coupling": (DIRECT,)})
    strings: Quantity = ask_fact("N_p", "bank.strings", 2 * one, when={"coupling": (DIRECT,)})
    capacity: Quantity = ask_fact("Q_s", "bank.capacity", 100 * Ah, when={"coupling": (DIRECT,)})
    discharge_limit: Quantity = ask_fact("I_lim", "bank.discharge_limit", 100 * A, when={"coupling": (DIRECT,)})
    charge_limit: Quantity = ask_fact("I_ch", "bank.charge_limit", 50 * A, when={"coupling": (DIRECT,)})
    chemistry: str = pick_fact("bank.chemistry", "LFP", when={"coupling": (DIRECT,)})
    bank_energy: Quantity = ask_fact("E_n", "bank.energy", 10.2 * kWh)
    health: Quantity = ask_fact("s", "bank.health", 100 * percent)
    charge: Quantity = ask_fact("q", "now.charge", 90 * percent)
    reserve: Quantity = ask_fact("q_r", "bank.reserve", 10 * percent)
    cells: Quantity = ask_fact("θ_c", "now.cells", 20 * degC)

    def solve(self) -> Answer:
        something = require(
            self.charge > self.reserve,
            label="Charge",
            exact=True,
            yes="The bank has something to give.",
            no="There is {left} left and {right} is kept back: the bank has nothing to give.",
        )
        if something.verdict == NO:
            return answer(something, say="", charge_left=self.charge)
        own = limit("E_1", "Energy of the vehicle itself", self.vehicle_energy * self.vehicle_charge, kWh)
        added = energy_to_hand(self.bank_energy, self.health, self.charge, self.reserve, share_in_the_cold(self.cells))
        laden = need(
            "u_2",
            "Energy it uses with the rig",
            self.use * (1 + self.by_mass * self.rig_mass / self.vehicle_mass),
            Wh_per_mi,
            OWN_DERIVATION,
        )
        if self.coupling == CONVERTER:
            arrives = limit("E_2", "Of the bank's energy, what arrives", added * self.converter_efficiency, kWh)
        else:
            arrives = limit("E_2", "Of the bank's energy, what arrives", 1 * added, kWh)
        distance = limit("D_max", "Distance with both", (own + arrives) / laden, mi)
        alone = limit("D_1", "Distance of the vehicle alone, without the rig", own / self.use, mi)
        rests = (self._keeps_up(distance, arrives),) if self.coupling == CONVERTER else self._tied()
        return answer(
            something,
            require(
                distance >= self.trip,
                label="Distance",
                rule=PHYSICAL,
                yes="The trip is possible.",
                tight="It goes {left}: the {right} trip is possible, with little to spare.",
                no="It goes {left} with both; the trip is {right}.",
            ),
            *rests,
            say=f"With both it goes {distance}; alone and without the rig {alone}.",
            notes=(
                f"Energy over the vehicle's own use would say {step('D_n', 'Both energies over its own use', (own + arrives) / self.use, mi)}: it forgets that the rig is pulled too.",
            ),
            distance=distance,
            distance_alone=alone,
            use_with_rig=laden,
            energy_added=arrives,
        )

    def _keeps_up(self, distance: Quantity, arrives: Quantity) -> Requirement:
        driving = step("t_v", "Hours of driving", distance / self.speed, h)
        passed = limit("E_dd", "Energy the converter can pass meanwhile", self.converter_power * driving, kWh)
        return require(
            passed >= arrives,
            label="Converter",
            yes="The converter passes it all on the way.",
            tight="The converter passes {left} on the way, of {right}: hardly all of it.",
            no="The converter passes {left} on the way; {right} is to be passed: the vehicle is empty before the bank is.",
        )

    def _tied(self) -> tuple[Requirement, ...]:
        """Tied straight together: alike, equalised, fused, and each within its limits in driving and braking."""
        both = self.resistance + self.vehicle_resistance
        mine = step(
            "k_b",
            "Share of every current that this bank takes",
            self.vehicle_resistance / both,
            percent,
            OWN_DERIVATION,
        )
        gives = limit("I_give", "Most this bank may give", self.strings * self.discharge_limit, A)
        one_string, why = charge_allowed(self.chemistry, self.cells, self.capacity, self.charge_limit)
        takes = limit("I_take", "Most this bank may take now", self.strings * one_string, A)
        full = constant("q_full", "Charge above which there is no room for braking", 95 * percent, COMMON_PRACTICE)
        return (
            require(
                Statement(f"The banks are {self.match}", self.match == ALIKE, COMMON_PRACTICE),
                label="Alike",
                yes="The two banks are alike.",
                no="Banks that are not alike must not be tied straight together: one charges the other until something opens or burns.",
            ),
            require(
                takes > 0 * A,
                label="Cold or hot cells",
                exact=True,
                yes="The cells may be charged, as the other bank will do now and then.",
                no=f"Cells at {self.cells} may not be charged, and tied banks charge one another after every push. {why}",
            ),
            require(
                Statement(f"Fuses {self.fuses}", self.fuses == FUSED, COMMON_PRACTICE),
                label="Fuses",
                yes="Each bank is fused at the tie.",
                no="Each bank can feed a short in the tie: it needs a fuse at both ends.",
            ),
            require(
                need("I_0", "First current when they are tied", self.volts_apart / both, A) <= takes / 2,
                label="Tying",
                yes="They may be tied.",
                tight="{left} flow at first, of {right} allowed for it.",
                no=f"{{left}} flow at first; {{right}} is allowed. Bring them to the same volts first. {why}",
            ),
            require(
                need("I_mine", "Of the motor's peak, what this bank gives", self.peak * mine, A) <= gives,
                label="Driving",
                yes="It gives its share of the peak.",
                tight="It is asked {left} of its {right}.",
                no="It is asked {left} and may give {right}: its protection opens, and the vehicle's own bank must carry it all at once.",
            ),
            require(
                need("I_back", "Of the braking, what comes into this bank", self.braking * mine, A) <= takes,
                label="Braking",
                yes="It takes its share of the braking.",
                tight="{left} come back, of {right} it may take.",
                no=f"{{left}} come back in braking; it may take {{right}} at {self.cells}. {why}",
            ),
            require(
                self.charge <= full,
                label="Room for braking",
                exact=True,
                yes="There is room for what comes back.",
                no="At {left} there is no room for what comes back in braking: above {right} a protection opens, and the volts leap.",
            ),
        )

    fixes = (
        less("trip", 1 * mi, "Plan {trip} instead"),
        more("charge", 5 * percent, "Fill the bank to {charge} first", costs="it takes time to refill"),
        option("coupling", CONVERTER, "Tie it through a dc-dc converter"),
        less("volts_apart", 0.05 * V, "Bring the two to within {volts_apart} before you tie them"),
        more("converter_power", 100 * W, "Fit a converter of {converter_power}"),
        less("rig_mass", 10 * kg, "Keep the rig to {rig_mass}"),
    )
    cautions = (
        Caution(
            "DANGER",
            "Two banks that are tied feed a short from both sides",
            "Thousands of amps melt the cable and its connector in the hand",
            "A fuse at both ends, a connector that no hand opens under load, equal volts before it is closed",
            only=lambda check: check.coupling == DIRECT,
        ),
        Caution(
            "WARNING",
            "A protection that opens while driving cuts the motor, or the braking",
            "The vehicle coasts where you count on its brake",
            "Never count on braking by the motor alone; try it empty and slow",
        ),
        Caution(
            "WARNING",
            "Changes to a vehicle's battery end its approval and its warranty",
            "It may not be driven on a public road, and insurance may not pay",
            "Ask the maker; leave the work on the vehicle's side to somebody qualified",
        ),
    )
    examples = (
        Example(
            given={
                "vehicle_energy": "5.12", "vehicle_charge": "90", "use": "95", "vehicle_mass": "620 kg", "rig_mass": "54.4 kg", "coupling": DIRECT,
                "bank_energy": "5.12", "health": "100", "charge": "90", "reserve": "0", "cells": "25 °C", "trip": "60",
            },
            expect={"distance": "91.4 mi", "distance_alone": "48.5 mi"},
            verdict="go",
            source=COMMON_PRACTICE.at("70 % of the use grows with the mass: 9.2 kWh at 100.8 Wh/mi, not 97 mi"),
        ),
        Example(
            given={"coupling": DIRECT, "cells": "-3 °C", "charge": "80", "trip": "10"},
            verdict="no",
            source=LFP_SHEETS.at("charge from 0 °C up: braking charges too"),
        ),
        Example(
            given={"coupling": DIRECT, "match": UNLIKE, "charge": "80", "trip": "10"},
            verdict="no",
            source=COMMON_PRACTICE.at("never tie unlike banks"),
        ),
    )  # fmt: skip
