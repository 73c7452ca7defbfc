"""The page /run/legs-and-neutral/: two 120 V legs, the neutral between them, and what an open neutral would do.

The rating of a split-phase inverter is that of both legs together: one leg alone gives half, unless its plate says more.
"""

from __future__ import annotations

from collections.abc import Iterator

from calc.check import (
    NEC,
    Answer,
    Caution,
    Change,
    Check,
    Example,
    Fix,
    Requirement,
    answer,
    ask,
    ask_fact,
    less,
    next_option,
    option,
    pick_fact,
    require,
)
from calc.laws.inverter import limit_of_one_leg
from calc.laws.legs import neutral_on_one_leg, neutral_on_opposite_legs, volts_on_legs, volts_with_open_neutral
from calc.quantity import Quantity, constant, largest, limit, need, smallest, step
from calc.sources import ANSI_C84_1, COMMON_PRACTICE, NEC_2023, OWN_DERIVATION
from calc.tables import table
from calc.units import VA, A, V, W, ft, ohm, ohm_per_kft, percent

OPPOSITE, SAME, NONE = "yes, and they hang on opposite legs", "yes, and both hang on one leg", "no, each has its own"


class LegsAndNeutral(Check):
    """How are the two legs loaded, and what if the neutral opens?"""

    title = "Legs and neutral"
    headline = "leg_share"
    rule_sets = (NEC,)

    leg_a: Quantity = ask_fact("I_A120", "wiring.leg_a", 15 * A, common=(5 * A, 10 * A, 15 * A))
    leg_b: Quantity = ask_fact("I_B120", "wiring.leg_b", 8 * A, common=(5 * A, 10 * A, 15 * A))
    both: Quantity = ask_fact("I_240", "wiring.both_legs", 0 * A, common=(0 * A, 16 * A, 24 * A))
    continuous: Quantity = ask_fact("P_r", "inverter.continuous", 5000 * W, common=(5000 * W, 6000 * W, 10_000 * W))
    one_leg: str = pick_fact("inverter.one_leg", "no")
    shared: str = pick_fact("wiring.shared_neutral", OPPOSITE)
    size: str = pick_fact("wiring.outlet_wire", "12 AWG")
    run_length: Quantity = ask(
        "L",
        "Length from the inverter to the outlets, one way",
        10 * ft,
        low=1 * ft,
        high=300 * ft,
        habit=True,
        common=(10 * ft, 50 * ft, 100 * ft),
        help="With the cord, if a four-wire cord carries both legs",
    )

    def solve(self) -> Answer:
        volts = constant("V_leg", "Nominal volts of a leg", 120 * V, ANSI_C84_1)
        amps_a = need("I_A", "Amps on leg A", self.leg_a + self.both, A)
        amps_b = need("I_B", "Amps on leg B", self.leg_b + self.both, A)
        leg = limit_of_one_leg(self.continuous, self.one_leg)
        most = limit("I_leg", "Most amps of one leg", leg / volts, A)
        heavier = need("I_h", "Amps on the heavier leg", largest(amps_a, amps_b), A)
        total = need("S_all", "Both legs together", volts * amps_a + volts * amps_b, VA)
        neutral = self._neutral()
        carries = table("ampacity_raceway").read(
            "I_w", f"Ampacity of {self.size} copper, 60 °C terminals", self.size, "Cu 60", A
        )
        r = table("conductor_resistance").read(
            "r", f"Resistance of {self.size} copper at 75 °C", self.size, "Cu stranded", ohm_per_kft
        )
        wire = step("R_w", "Resistance of one wire of the run", self.run_length * r, ohm)
        at_a, at_b = volts_on_legs(volts, wire, *self._returns(), self.leg_a, self.leg_b)
        return answer(
            require(
                heavier <= most,
                label="The heavier leg",
                yes="Each leg is within its limit.",
                tight="The heavier leg carries {left}; one leg gives {right}.",
                no="The heavier leg carries {left}; one leg gives {right}, whatever the other one has to spare. It switches off.",
            ),
            require(
                total <= self.continuous,
                label="Both legs together",
                yes="The inverter carries both.",
                tight="Both legs together ask {left} of {right}.",
                no="Both legs together ask {left}; the inverter gives {right}.",
            ),
            *self._wires(heavier, neutral, carries),
            self._volts_hold(volts, at_a, at_b),
            say=f"Leg A carries {amps_a:up}, leg B {amps_b:up}, the neutral {neutral:up}; one leg gives {most}.",
            notes=self._naive(leg, total),
            leg_share=need("u_leg", "Share of one leg that the heavier one uses", heavier / most, percent),
            amps_on_a=amps_a,
            amps_on_b=amps_b,
            neutral_current=neutral,
            most_on_one_leg=most,
            imbalance=need("d_leg", "Imbalance, of one leg's limit", self._difference() / most, percent),
            volts_on_a=at_a,
            volts_on_b=at_b,
            **self._if_it_opens(volts),
        )

    def _returns(self) -> tuple[Quantity, Quantity]:
        """What flows back from leg A's loads and from leg B's in the neutral that they use."""
        if self.shared == OPPOSITE:
            return self.leg_a - self.leg_b, self.leg_b - self.leg_a
        if self.shared == SAME:
            return self.leg_a + self.leg_b, self.leg_b + self.leg_a
        return self.leg_a, self.leg_b

    def _difference(self) -> Quantity:
        return largest(self.leg_a, self.leg_b) - smallest(self.leg_a, self.leg_b)

    def _neutral(self) -> Quantity:
        if self.shared == OPPOSITE:
            return neutral_on_opposite_legs(self.leg_a, self.leg_b)
        if self.shared == SAME:
            return neutral_on_one_leg(self.leg_a, self.leg_b)
        return need("I_N", "Current in the more loaded neutral of the two", largest(self.leg_a, self.leg_b), A)

    def _wires(self, heavier: Quantity, neutral: Quantity, carries: Quantity) -> tuple[Requirement, ...]:
        return (
            require(
                heavier <= carries,
                label="The hot wires",
                yes="The hot wires carry it.",
                tight=f"The heavier leg asks {{left}} of the {{right}} that {self.size} carries.",
                no=f"The heavier leg carries {{left}}; {self.size} is good for {{right}}.",
            ),
            require(
                neutral <= carries,
                label="The neutral wire",
                yes="The neutral carries it.",
                tight=f"The neutral carries {{left}} of the {{right}} that {self.size} is good for.",
                no=f"The neutral carries {{left}}; {self.size} is good for {{right}}. No breaker guards it: it would burn.",
            ),
            *self._apart(),
        )

    def _apart(self) -> tuple[Requirement, ...]:
        """Two hots of one leg in one multiwire circuit: the neutral adds up and nothing opens."""
        if self.shared != SAME:
            return ()
        nothing = constant(
            "I_0", "Current that two hots of one leg may share a neutral for", 0 * A, NEC_2023.at("210.4")
        )
        return (
            require(
                largest(self.leg_a, self.leg_b) <= nothing,
                label="One neutral for two hots",
                exact=True,
                yes="Nothing runs on it.",
                no="Two hots of one leg share a neutral: their currents add up in it, up to both breakers together. Put one of them on the other leg.",
            ),
        )

    def _volts_hold(self, volts: Quantity, at_a: Quantity, at_b: Quantity) -> Requirement:
        low = limit("V_low", "The lower of the two", smallest(at_a, at_b), V)
        good = constant("d_5", "Least share of the volts at the outlets", 95 * percent, COMMON_PRACTICE)
        least = constant("d_10", "Share under which motors suffer", 90 * percent, COMMON_PRACTICE)
        return require(
            low >= least * volts,
            comfortable=low >= good * volts,
            label="Volts at the loads",
            yes="The volts hold on both legs.",
            tight="The heavier leg's loads get {left}; motors may run hot.",
            no="The heavier leg's loads get only {left}; they should have {right}.",
        )

    def _if_it_opens(self, volts: Quantity) -> dict[str, Quantity]:
        if self.shared != OPPOSITE or (self.leg_a + self.leg_b).si == 0:
            return {}
        whole = step("V_both", "Volts between the two hots", 2 * volts, V, OWN_DERIVATION)
        on_a, on_b = volts_with_open_neutral(whole, self.leg_a, self.leg_b)
        return {"open_neutral_volts_a": on_a, "open_neutral_volts_b": on_b}

    def _naive(self, leg: Quantity, total: Quantity) -> tuple[str, ...]:
        notes = []
        if self.one_leg == "no":
            notes.append(
                f"The plate says {self.continuous}, and {total:up} looks like less; but one leg gives {leg} of it."
            )
        if self.shared == OPPOSITE and self.leg_a.si != self.leg_b.si:
            notes.append(
                "Twice the resistance of one wire is not what a leg loses: the neutral carries the difference, and the "
                "lighter leg's volts may stand above the source."
            )
        return tuple(notes)

    def _moved(self) -> Iterator[Change]:
        """Take amps from the heavier leg to the lighter one, an amp at a time, until they are level."""
        from_a = (self.leg_a > self.leg_b).holds
        high, low = (self.leg_a, self.leg_b) if from_a else (self.leg_b, self.leg_a)
        count = int((high.number_in(A) - low.number_in(A)) // 2)
        for amps in range(1, count + 1):
            moved, gained = (high.number_in(A) - amps) * A, (low.number_in(A) + amps) * A
            yield {"leg_a": moved, "leg_b": gained} if from_a else {"leg_a": gained, "leg_b": moved}

    fixes = (
        Fix(
            "Move 120 V loads to the other leg, to {leg_a} on A and {leg_b} on B",
            lambda check: check._moved(),
        ),
        less("leg_a", 1 * A, "Take the loads on leg A down to {leg_a}"),
        less("leg_b", 1 * A, "Take the loads on leg B down to {leg_b}"),
        less("both", 1 * A, "Take the 240 V loads down to {both}"),
        option("shared", OPPOSITE, "Put one of the two circuits on the other leg, behind a two-pole breaker"),
        option("shared", NONE, "Give each circuit a neutral of its own"),
        next_option("size", "Use {size} or thicker", costs="heavier, dearer, stiffer"),
    )
    cautions = (
        Caution(
            "DANGER",
            "A neutral that opens while both legs are loaded puts up to 240 V on the lighter leg",
            "What hangs on it burns out and can catch fire; its metal parts may become live",
            "Never unplug or switch the neutral alone: a two-pole breaker, tight terminals, and off before anything is undone",
            only=lambda check: check.shared == OPPOSITE,
        ),
        Caution(
            "WARNING",
            "Lamps that grow bright on one leg and dim on the other mean that the neutral is opening",
            "The next load on the light leg is destroyed, and can burn",
            "Switch everything off at the main switch at once and have the neutral mended before it is used again",
        ),
        Caution(
            "CAUTION",
            "Chargers and lamps with electronics do not cancel in the neutral as the sums say",
            "A neutral that should carry nothing runs warm",
            "Make the neutral as thick as the hots, and count it as carrying when wires lie together",
        ),
    )
    examples = (
        Example(
            given={
                "leg_a": "45",
                "leg_b": "0",
                "continuous": "10000 W",
                "size": "6 AWG",
                "shared": NONE,
                "one_leg": "no",
            },
            expect={"most_on_one_leg": "41.7 A"},
            within=0.002,
            verdict="no",
            source=COMMON_PRACTICE.at("10 kW on two legs is 41.7 A each; a 5.4 kW heater at 120 V takes 45 A"),
        ),
        Example(
            given={
                "leg_a": "12.5",
                "leg_b": "0.8333",
                "continuous": "10000 W",
                "shared": OPPOSITE,
                "one_leg": "no",
                "run_length": "10 ft",
            },
            expect={"open_neutral_volts_a": "15 V", "open_neutral_volts_b": "225 V"},
            verdict="go",
            source=OWN_DERIVATION.at("voltage divider: 240 V over 9.6 Ω and 144 Ω in series is 15 V and 225 V"),
        ),
        Example(
            given={
                "leg_a": "16",
                "leg_b": "16",
                "both": "0",
                "continuous": "5000 W",
                "shared": SAME,
                "size": "12 AWG",
            },
            expect={"neutral_current": "32 A"},
            verdict="no",
            source=NEC_2023.at("210.4: a multiwire circuit has its hots on different legs"),
        ),
        Example(
            given={
                "leg_a": "13",
                "leg_b": "6",
                "continuous": "5000 W",
                "shared": OPPOSITE,
                "size": "14 AWG",
                "run_length": "100 ft",
            },
            expect={"volts_on_a": "113.72 V", "volts_on_b": "120.31 V", "neutral_current": "7 A"},
            within=0.0002,
            verdict="tight",
            source=NEC_2023.at("Chapter 9, Table 8: 3.14 Ω/kft for 14 AWG stranded, worked by Kirchhoff's laws"),
        ),
    )
