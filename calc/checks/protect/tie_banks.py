"""The page /protect/tie-banks/: joining two banks by a cable, at rest and while something is driven.

Equal volts are not equal charge on cells whose curve is flat: half a volt is half the charge. The first rush goes by
the ohmic resistance, and lasts; a load is shared by resistance, and what one protection drops falls on the other.
"""

from __future__ import annotations

from calc.check import (
    Answer,
    Caution,
    Check,
    Example,
    Requirement,
    Rule,
    answer,
    ask_fact,
    less,
    more,
    option,
    pick_fact,
    require,
)
from calc.laws.open_circuit import LISTED_CELLS, stepped_bank
from calc.laws.tied_banks import charge_moved, first_rush, levelling, loop_resistance
from calc.quantity import Quantity, Statement, alternative, choose, constant, largest, need, smallest, step, stepped
from calc.sources import ABYC_E_11, COMMON_PRACTICE, OWN_DERIVATION, SOLVER
from calc.tables import table
from calc.units import A, Ah, V, degC, h, minutes, mohm, one, percent, s

LFP, OTHER = "LFP, both", "another, or mixed"
AT_REST, DRIVING = "nothing: only to level out", "a vehicle or loads, from the first bank's side"
BOTH_ENDS, ONE_END, NO_FUSE = "at both ends", "at one end only", "none"
HALF = Rule(0.50, "go up to half of the limit, tight up to the limit: the resistance is uncertain")
STEPS = 400
MOMENTS = {"amps_after_a_minute": 1 * minutes, "amps_after_ten_minutes": 10 * minutes, "amps_after_an_hour": 1 * h}


class TieBanks(Check):
    """May I tie these two banks together?"""

    title = "Two banks tied"
    headline = "first_rush"

    chemistry: str = pick_fact("second_bank.alike", LFP)
    volts_1: Quantity = ask_fact("E_1", "now.bank_volts", 53.2 * V, of="First bank")
    volts_2: Quantity = ask_fact("E_2", "second_bank.volts", 53.0 * V)
    charge_1: Quantity = ask_fact(
        "q_1",
        "now.charge",
        70 * percent,
        of="First bank",
        common=(50 * percent, 80 * percent),
        help="On its monitor; not from its volts",
    )
    charge_2: Quantity = ask_fact("q_2", "second_bank.charge", 65 * percent, common=(50 * percent, 80 * percent))
    capacity_1: Quantity = ask_fact(
        "Q_1", "bank.whole_capacity", 200 * Ah, of="First bank", common=(100 * Ah, 200 * Ah, 280 * Ah)
    )
    capacity_2: Quantity = ask_fact("Q_2", "second_bank.capacity", 140 * Ah, common=(100 * Ah, 200 * Ah, 280 * Ah))
    resistance_1: Quantity = ask_fact(
        "R_1",
        "bank.resistance",
        14 * mohm,
        of="First bank",
        help="The ohmic one, of the first second; not that after half a minute",
    )
    resistance_2: Quantity = ask_fact("R_2", "second_bank.resistance", 20 * mohm)
    cable: Quantity = ask_fact("R_k", "tie.cable", 3 * mohm, common=(1 * mohm, 3 * mohm, 10 * mohm))
    out_1: Quantity = ask_fact("I_o1", "bank.whole_discharge", 200 * A, of="First bank")
    out_2: Quantity = ask_fact("I_o2", "second_bank.out", 150 * A)
    in_1: Quantity = ask_fact("I_i1", "bank.whole_charge", 100 * A, of="First bank")
    in_2: Quantity = ask_fact("I_i2", "second_bank.into", 70 * A)
    cells: Quantity = ask_fact("θ_c", "now.cells", 15 * degC, help="On the monitors; the coldest of both banks counts")
    fuses: str = pick_fact("tie.fuses", BOTH_ENDS)
    fuse: Quantity = ask_fact("I_fu", "tie.fuse", 125 * A, when={"fuses": (BOTH_ENDS, ONE_END)})
    cable_carries: Quantity = ask_fact("I_ca", "tie.cable_carries", 150 * A)
    use: str = pick_fact("tie.use", AT_REST)
    peak: Quantity = ask_fact(
        "I_pk", "tie.peak", 120 * A, when={"use": (DRIVING,)}, help="On the controller's display on the steepest part"
    )
    braking: Quantity = ask_fact(
        "I_br",
        "tie.braking",
        0 * A,
        when={"use": (DRIVING,)},
        help="On the controller's display downhill; 0 where it does not feed back",
    )

    def solve(self) -> Answer:
        loop = loop_resistance(self.resistance_1, self.resistance_2, self.cable)
        rush = first_rush(self.volts_1, self.volts_2, loop)
        moved = charge_moved(self.charge_1, self.charge_2, self.capacity_1, self.capacity_2)
        first_gives = (self.volts_1 >= self.volts_2).holds
        takes_1, takes_2 = self._takes(1), self._takes(2)
        gives, takes = (self.out_1, takes_2) if first_gives else (self.out_2, takes_1)
        weakest = smallest(gives, takes, self.cable_carries, *((self.fuse,) if self.fuses != NO_FUSE else ()))
        allowed = alternative(
            "I_all",
            "Least of what gives, what takes, the cable and its fuses",
            weakest,
            f"current flows from the {'first' if first_gives else 'second'} bank",
            A,
        )
        smaller = step("Q_s", "The smaller bank", smallest(self.capacity_1, self.capacity_2), Ah)
        tenth = constant("k_m", "Share of it that may move unregarded", 10 * percent, COMMON_PRACTICE)
        return answer(
            self._same_chemistry(),
            self._fused(),
            *self._fuse_guards(),
            require(
                self.cells
                >= constant(
                    "θ_0", "Cells under which nothing may be charged", 0 * degC, table("charge_temperature").source
                ),
                exact=True,
                label="Cold cells",
                yes="The cells may be charged.",
                no="The coldest cells are at {left}: what flows between the banks charges one of them, and below {right} that ruins it. Warm them first.",
            ),
            require(
                rush <= allowed,
                rule=HALF,
                label="First rush",
                yes="The first rush is harmless.",
                tight="{left} flow as they are joined, of {right}: a protection may open and the connector arc.",
                no="{left} flow as they are joined; {right} is the most. A protection opens under it, or the connector burns as it is pulled.",
            ),
            require(
                moved <= smaller,
                comfortable=moved <= tenth * smaller,
                label="Charge that moves",
                yes="Little charge moves.",
                tight="{left} move from one to the other, for hours, of {right}: match their charge first.",
                no="{left} would move; the smaller bank has {right}.",
            ),
            *self._driven(rush, first_gives, takes_1, takes_2),
            say=f"They may be tied: {rush:up} at first, {moved:up} in all.",
            notes=self._naive(rush, loop),
            first_rush=rush,
            charge_moved=moved,
            charge_difference_first=self._first_apart(takes, loop),
        )

    # --- what a bank takes ------------------------------------------------------------------------------------------

    def _takes(self, bank: int) -> Quantity:
        """What a bank takes in as it is now: nothing when it is full, or when its cells are below zero."""
        full = constant(
            "q_f", "Charge from which a bank counts as full", 97 * percent, table("lfp_open_circuit").source
        )
        zero = constant("θ_0", "Cells under which nothing may be charged", 0 * degC, table("charge_temperature").source)
        charge, most = (self.charge_1, self.in_1) if bank == 1 else (self.charge_2, self.in_2)
        which = "First" if bank == 1 else "Second"
        return choose(
            f"I_t{bank}",
            f"{which} bank takes in now",
            (self.cells < zero, 0 * A, "its cells are below zero: none"),
            (charge >= full, 0 * A, "it is full: none"),
            (most, "its limit"),
            unit=A,
        )

    def _first_apart(self, takes: Quantity, loop: Quantity) -> Quantity:
        return step(
            "ΔV_ok", "Volts they may be apart for an easy joining", takes * loop / 2, V, OWN_DERIVATION, rounds=-1
        )

    # --- fuses ------------------------------------------------------------------------------------------------------

    def _same_chemistry(self) -> Requirement:
        same = self.chemistry == LFP
        return require(
            Statement(f"Chemistry: {self.chemistry}", same, COMMON_PRACTICE),
            label="Chemistry",
            yes="Both have one chemistry.",
            no="Banks of different or unknown chemistry are not tied: where one is full the other overcharges it. Join them through a dc-to-dc charger.",
        )

    def _fused(self) -> Requirement:
        both = self.fuses == BOTH_ENDS
        return require(
            Statement(f"Fuses in the cable: {self.fuses}", both, ABYC_E_11),
            label="Fuses",
            yes="The cable is fused at both ends.",
            no="A cable between two banks has a source at each end: crushed in the middle, it is fed from the end without a fuse until it burns.",
        )

    def _fuse_guards(self) -> tuple[Requirement, ...]:
        if self.fuses == NO_FUSE:
            return ()
        return (
            require(
                self.fuse <= self.cable_carries,
                exact=True,
                label="Fuse guards the cable",
                yes="The fuses guard the cable.",
                no="A {left} fuse does not guard a cable that carries {right}.",
            ),
        )

    # --- driving ----------------------------------------------------------------------------------------------------

    def _driven(
        self, rush: Quantity, first_gives: bool, takes_1: Quantity, takes_2: Quantity
    ) -> tuple[Requirement, ...]:
        if self.use == AT_REST:
            return ()
        loop = self.resistance_1 + self.resistance_2 + self.cable
        share_1 = step(
            "f_1",
            "Share of the first bank, at the load",
            (self.resistance_2 + self.cable) / loop,
            percent,
            OWN_DERIVATION,
        )
        share_2 = step(
            "f_2", "Share of the second bank, through the cable", self.resistance_1 / loop, percent, OWN_DERIVATION
        )
        extra_1, extra_2 = (rush, 0 * A) if first_gives else (0 * A, rush)
        gives_1 = need("I_g1", "First bank gives at the peak", share_1 * self.peak + extra_1, A)
        gives_2 = need("I_g2", "Second bank gives at the peak", share_2 * self.peak + extra_2, A)
        back_1 = need("I_b1", "First bank takes as it brakes", share_1 * self.braking + extra_2, A)
        back_2 = need("I_b2", "Second bank takes as it brakes", share_2 * self.braking + extra_1, A)
        in_cable = need(
            "I_k", "Most in the cable", largest(share_2 * self.peak + rush, share_2 * self.braking + rush), A
        )
        rests = [
            self._within(gives_1, self.out_1, "First bank at the peak", "gives"),
            self._within(gives_2, self.out_2, "Second bank at the peak", "gives"),
            self._within(back_1, takes_1, "First bank while braking", "takes"),
            self._within(back_2, takes_2, "Second bank while braking", "takes"),
            self._within(in_cable, self.cable_carries, "Cable while driving", "carries"),
            self._alone(),
        ]
        if self.fuses != NO_FUSE:
            rests.append(self._within(in_cable, self.fuse, "Fuses while driving", "hold"))
        return tuple(rests)

    def _within(self, amps: Quantity, most: Quantity, label: str, does: str) -> Requirement:
        return require(
            amps <= most,
            label=label,
            yes="It is within its limit.",
            tight=f"{label}: {{left}}, of the {{right}} that it {does}.",
            no=f"{label}: {{left}}, where it {does} {{right}} at most. Its protection opens while it is under way.",
        )

    def _alone(self) -> Requirement:
        both = need("I_o12", "Both banks give", self.out_1 + self.out_2, A)
        weaker = smallest(self.out_1, self.out_2)
        return require(
            self.peak <= both,
            comfortable=self.peak <= weaker,
            label="One protection opens",
            yes="If one opens, the other carries the whole.",
            tight="If one protection opens at {left}, the other cannot carry it alone and opens as well: the vehicle stops where it is.",
            no="The peak is {left}; both banks give {right}.",
        )

    # --- levelling out ----------------------------------------------------------------------------------------------

    def found_by_trial(self) -> dict[str, Quantity]:
        """Amps after a minute, ten minutes and an hour, stepped by the listed curve of LFP; of others it is not known."""
        if self.chemistry != LFP:
            return {}
        loop = loop_resistance(self.resistance_1, self.resistance_2, self.cable)
        cells = LISTED_CELLS * one
        first = stepped_bank("LFP", self.capacity_1, self.resistance_1, cells)
        second = stepped_bank("LFP", self.capacity_2, self.resistance_2, cells)
        charges = (self.charge_1.si, self.charge_2.si)
        apart = abs(first.rest_volts(charges[0]) - second.rest_volts(charges[1]))
        by_curve = stepped(
            "ΔV_c", "Difference by the listed curve, sixteen cells", apart, V, (self.charge_1, self.charge_2),
            table("lfp_open_circuit").source,
        )  # fmt: skip
        start = need("I_c", "Current of the first step, by the curve", by_curve / loop, A, OWN_DERIVATION)
        seconds = [moment.number_in(s) for moment in MOMENTS.values()]
        amps = levelling(first, second, self.cable.si, charges, seconds, STEPS)
        return {
            name: stepped(f"I_{place}", f"Current after {moment}, by the curve", abs(found), A, (start,))
            for place, ((name, moment), found) in enumerate(zip(MOMENTS.items(), amps, strict=True), start=1)
        }

    def _naive(self, rush: Quantity, loop: Quantity) -> tuple[str, ...]:
        return (
            "Volts that are nearly equal say little: on flat cells 0.8 V is half of the charge, and flows for hours.",
            f"The resistance after half a minute, about twice as large, would promise half of {rush:up}; at the moment of joining it is not there.",
        )

    fixes = (
        more("charge_2", 5 * percent, "Charge the second bank to {charge_2} first"),
        more("charge_1", 5 * percent, "Charge the first bank to {charge_1} first"),
        more("volts_2", 0.1 * V, "Charge the second bank until it rests at {volts_2}"),
        more("volts_1", 0.1 * V, "Charge the first bank until it rests at {volts_1}"),
        more(
            "cable",
            5 * mohm,
            "Join them through a resistance that makes the way between them {cable}, rated for the heat",
            costs="take it out once they are level",
        ),
        option("fuses", BOTH_ENDS, "Fit a fuse at both ends, within reach of each bank's post"),
        less("fuse", 5 * A, "Fit fuses of {fuse}"),
        less("peak", 5 * A, "Hold the load to {peak}", costs="slower uphill"),
        less("braking", 5 * A, "Set what comes back as it brakes to {braking}", costs="the brakes do the rest"),
        option("use", AT_REST, "Let them level out first, and drive on one"),
    )
    cautions = (
        Caution(
            "DANGER",
            "A dc connector opened under load draws an arc that does not go out",
            "It burns hands and eyes and welds the contacts",
            "Stop the load and the charger first; pull a connector only when a clamp meter on the cable reads nothing",
        ),
        Caution(
            "WARNING",
            "Cells charged below zero, or beyond full, plate lithium and may burn later",
            "A fire that water does not put out",
            "Tie only banks whose cells are above zero; no braking into a full bank",
        ),
        Caution(
            "WARNING",
            "A protection that opens while driving throws the whole load, and the braking, onto the other bank",
            "Both open, the vehicle stops, and brakes that feed back are gone",
            "Test the other brakes first; drive slower than either bank alone would need",
            only=lambda check: check.use == DRIVING,
        ),
    )
    examples = (
        Example(
            given={
                "volts_1": "53.6 V",
                "volts_2": "52 V",
                "resistance_1": "6 mohm",
                "resistance_2": "6 mohm",
                "cable": "4 mohm",
                "in_1": "70",
                "in_2": "70",
            },
            expect={"first_rush": "100 A"},
            verdict="no",
            source=OWN_DERIVATION.at("Ohm's law: 1.6 V over 16 mΩ"),
        ),
        Example(
            given={
                "volts_1": "53.4 V",
                "volts_2": "52.6 V",
                "charge_1": "80",
                "charge_2": "30",
                "capacity_1": "280",
                "capacity_2": "280",
            }
            | {"resistance_1": "8 mohm", "resistance_2": "8 mohm", "cable": "4 mohm", "in_2": "140", "out_1": "280"},
            expect={"first_rush": "40 A", "charge_moved": "70 Ah"},
            verdict="tight",
            source=SOLVER.at("0.8 V over 20 mΩ; half the charge of 280 Ah, shared by two"),
        ),
        Example(
            given={"volts_1": "53.1 V", "volts_2": "53 V", "charge_1": "60", "charge_2": "58"},
            expect={"charge_moved": "1.65 Ah"},
            verdict="go",
            source=OWN_DERIVATION.at("two per cent of 200 and 140 Ah in series"),
        ),
    )
