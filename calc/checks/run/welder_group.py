"""The page /run/welder-group/: several welders on one feeder, of one kind or of two.

Not all of them weld at the same moment, and the code lets the feeder's wire be thinner than the sum. The inverter has
no such luck: the moment may come when all arcs burn at once.
"""

from __future__ import annotations

from calc.check import (
    NEC,
    Answer,
    Caution,
    Check,
    Example,
    Requirement,
    answer,
    ask,
    less,
    next_option,
    option,
    pick,
    require,
)
from calc.checks.run.welder import SIZES, VOLTS
from calc.laws.motor_circuit import conductor_of_welders
from calc.laws.outlet import INVERTER, WALL
from calc.laws.welder import MACHINES, effective_by_duty, factors_of_group
from calc.quantity import OutsideValidity, Quantity, constant, limit, need
from calc.sources import COMMON_PRACTICE, NEC_2023
from calc.tables import table
from calc.units import VA, A, one, percent

ONE_KIND, TWO_KINDS = "one kind", "two kinds"
OF_TWO = {"kinds": (TWO_KINDS,)}
OWN, SHARED = "yes, each its own", "no, they share the feeder's"


class WelderGroup(Check):
    """May these welders hang on one feeder?"""

    title = "Several welders on a feeder"
    headline = "group_current"
    rule_sets = (NEC,)

    volts: str = pick("Volts of the welders", tuple(VOLTS), "240 V", help="All on one feeder have the same")
    machine: str = pick(
        "Kind of machine", tuple(MACHINES), next(iter(MACHINES)), help="Nearly all are of the first kind"
    )
    kinds: str = pick("They are of", (ONE_KIND, TWO_KINDS), ONE_KIND, help="By their plates: amps and duty")
    count: Quantity = ask(
        "n_1", "Welders of the larger kind", 3 * one, low=1 * one, high=12 * one, whole=True, help="Count them"
    )
    largest: Quantity = ask(
        "I_1", "Largest current of each", 20 * A, low=2 * A, high=120 * A, help="On its plate: I1max"
    )
    duty: Quantity = ask(
        "X_1", "Duty of each at that current", 40 * percent, low=5 * percent, high=100 * percent, help="On its plate: X"
    )
    other_count: Quantity = ask(
        "n_2",
        "Welders of the smaller kind",
        2 * one,
        low=1 * one,
        high=12 * one,
        whole=True,
        when=OF_TWO,
        help="Count them",
    )
    other_largest: Quantity = ask(
        "I_2",
        "Largest current of each smaller one",
        16 * A,
        low=2 * A,
        high=120 * A,
        when=OF_TWO,
        help="On its plate: I1max",
    )
    other_duty: Quantity = ask(
        "X_2",
        "Duty of each smaller one at that current",
        20 * percent,
        low=5 * percent,
        high=100 * percent,
        when=OF_TWO,
        help="On its plate: X",
    )
    size: str = pick("Size of the feeder's wire", SIZES, "6 AWG", help="Copper; printed on its jacket")
    breaker: Quantity = ask(
        "I_B",
        "Breaker of the feeder",
        50 * A,
        low=10 * A,
        high=400 * A,
        common=(30 * A, 50 * A, 60 * A, 100 * A),
        help="The number on its handle",
    )
    guards: str = pick(
        "Has each welder a breaker of its own?",
        (OWN, SHARED),
        OWN,
        help="Where it is plugged in, of twice its largest current at most",
    )
    fed_by: str = pick("What feeds the feeder", (INVERTER, WALL), INVERTER, help="On pass-through the wall feeds it")
    # Typed here and not asked of the rig: one whose loads hold a single welder has no answer to wait for.
    continuous: Quantity = ask(
        "P_r",
        "Inverter's continuous rating here",
        15_000 * VA,
        low=100 * VA,
        high=30_000 * VA,
        when={"fed_by": (INVERTER,)},
        common=(5000 * VA, 10_000 * VA, 15_000 * VA),
        help="On its plate: continuous output, less what heat and altitude take off",
    )
    running: Quantity = ask(
        "S_x",
        "Other loads running on the inverter",
        0 * VA,
        low=0 * VA,
        high=20_000 * VA,
        habit=True,
        when={"fed_by": (INVERTER,)},
        help="The sum of their watts",
    )

    def solve(self) -> Answer:
        group, plain = self._group()
        carries = table("ampacity_raceway").read(
            "I_tab", f"Ampacity of {self.size} copper, 60 °C terminals", self.size, "Cu 60", A
        )
        most = conductor_of_welders(carries)
        burning = need("I_all", "Current with all arcs burning", self._sum(self.largest, self.other_largest), A)
        return answer(
            require(
                group <= carries,
                label="Feeder's wire",
                yes="The feeder's wire carries them.",
                tight=f"{{left}} heat the feeder; {self.size} carries {{right}}.",
                no=f"{{left}} heat the feeder; {self.size} carries {{right}}.",
            ),
            require(
                group <= self.breaker,
                label="Breaker holds",
                yes="The breaker holds.",
                tight="The breaker has {right} for {left}: it may open when all weld much.",
                no="The breaker has {right} for {left}: it opens after some minutes.",
            ),
            require(
                self.breaker <= most,
                exact=True,
                label="Breaker protects the feeder",
                yes="The breaker protects the feeder.",
                no="A {left} breaker is too large before this feeder: {right} is the most.",
            ),
            *self._each_guarded(),
            *self._inverter(burning),
            say=f"{group:up} heat the feeder, and {self.size} carries {carries}.",
            notes=(
                f"Added up, what heats them would be {plain:up}; as a group they count for {group:up}. With all arcs burning they draw {burning:up}.",
            ),
            group_current=group,
            added_up=plain,
            all_arcs=burning,
            largest_breaker=most,
        )

    def _group(self) -> tuple[Quantity, Quantity]:
        """What heats the feeder, and the plain sum that a careless reader takes."""
        first = effective_by_duty(self.largest, self.duty, self.machine)
        count = round(self.count.si)
        factor = factors_of_group("F_1", f"{count} alike count for", 1, count)
        group, plain = factor * first, self.count * first
        if self.kinds == TWO_KINDS:
            other = effective_by_duty(self.other_largest, self.other_duty, self.machine, "2")
            if (other > first).holds:
                raise OutsideValidity(
                    f"Those called smaller heat the wire with {other}, the larger with {first}: turn them round."
                )
            rest = round(self.other_count.si)
            group = group + factors_of_group("F_2", f"{rest} smaller ones count for", count + 1, rest) * other
            plain = plain + self.other_count * other
        return (
            need("I_g", "Current that heats the feeder", group, A, NEC_2023.at("630.11(B)")),
            need("I_sum", "What heats them, added up", plain, A),
        )

    def _sum(self, each: Quantity, other: Quantity) -> Quantity:
        whole = self.count * each
        return whole + self.other_count * other if self.kinds == TWO_KINDS else whole

    def _each_guarded(self) -> list[Requirement]:
        """630.12(A): each welder's device is of twice its own largest current at most."""
        if self.guards == OWN:
            return []
        smallest = self.other_largest if self.kinds == TWO_KINDS else self.largest
        twice = constant("k_B", "Breaker before a welder, of its largest current", 2 * one, NEC_2023.at("630.12(A)"))
        most = limit("I_own", "Largest breaker that guards each welder", twice * smallest, A)
        return [
            require(
                self.breaker <= most,
                exact=True,
                label="Each welder guarded",
                yes="The feeder's breaker guards each welder.",
                no="The feeder's breaker of {left} guards no single welder: {right} is the most. Give each its own.",
            )
        ]

    def _inverter(self, burning: Quantity) -> list[Requirement]:
        if self.fed_by == WALL:
            return []
        volts = constant("E", "Nominal volts", VOLTS[self.volts], COMMON_PRACTICE)
        load = need("S_all", "Inverter's load with all arcs burning", volts * burning + self.running, VA)
        return [
            require(
                load <= self.continuous,
                label="Inverter with all arcs burning",
                yes="The inverter carries all arcs at once.",
                tight="With all arcs burning the inverter is asked for {left} of its {right}.",
                no="With all arcs burning the inverter is asked for {left}; it gives {right}. Let fewer weld at a time.",
            )
        ]

    fixes = (
        less("count", 1 * one, "Let {count} of the larger ones hang on it"),
        less("other_count", 1 * one, "Let {other_count} of the smaller ones hang on it"),
        less("largest", 1 * A, "Turn them down until each draws {largest}", costs="thinner metal, or more passes"),
        next_option("size", "Use {size} or thicker for the feeder", costs="heavier, dearer, stiffer"),
        less("breaker", 5 * A, "Put a {breaker} breaker before the feeder"),
        option("guards", OWN, "Give each welder a breaker of its own, of twice its largest current at most"),
        option("fed_by", WALL, "Weld from a wall, on pass-through"),
    )
    cautions = (
        Caution(
            "DANGER",
            "Several welders on one piece add their volts between electrodes",
            "Two electrodes held at once can kill",
            "One welder to a workpiece, or all set up by somebody who knows how; never touch two electrodes",
        ),
        Caution(
            "WARNING",
            "The group's rule trusts that the work goes on by turns",
            "Where all weld without pause the feeder overheats",
            "Where they do, count each in full; feel the feeder's plug after ten minutes",
        ),
        Caution(
            "WARNING",
            "Welding current strays through ground wires and bearings",
            "Thin ground wires burn unseen",
            "Clamp each welder beside its weld, and off the rig",
        ),
    )
    examples = (
        Example(
            given={"count": "5", "largest": "40", "duty": "50", "size": "3/0 AWG", "breaker": "150", "fed_by": WALL},
            expect={"group_current": "117.9 A", "added_up": "142 A"},
            within=0.001,
            verdict="go",
            source=NEC_2023.at("630.11(A), (B): 28.4 A each, 100, 100, 85, 70 and 60 %"),
        ),
        Example(
            given={
                "kinds": TWO_KINDS,
                "count": "1",
                "largest": "50",
                "duty": "60",
                "other_count": "3",
                "other_largest": "30",
                "other_duty": "20",
                "size": "4 AWG",
                "breaker": "70",
                "fed_by": WALL,
            },
            expect={"group_current": "73.425 A"},
            verdict="no",
            source=NEC_2023.at("630.11(B): 39 A and 13.5 A in full, 13.5 A at 85 and at 70 %; 4 AWG carries 70 A"),
        ),
    )
