"""The page /run/welder/: the wire goes by the current that heats it, the inverter by the largest one.

A machine that welds two minutes in ten heats its wire little; the inverter has to give the whole current all the same.
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
    ask_fact,
    less,
    next_option,
    option,
    pick,
    pick_fact,
    require,
)
from calc.laws.inverter import SPLIT_PHASE, limit_of_one_leg, offers
from calc.laws.motor_circuit import welder_breaker
from calc.laws.outlet import FED_BY, INVERTER, WALL, gives_volts, has_ground, rating_of
from calc.laws.welder import MACHINES, effective_by_duty, effective_by_law
from calc.quantity import Quantity, alternative, constant, need, step
from calc.sources import COMMON_PRACTICE, NEC_2023
from calc.tables import table
from calc.units import VA, A, V, one, percent

BY_TABLE, BY_LAW, ON_PLATE = "its duty, by the table", "its duty and idle current", "I1eff on its plate"
VOLTS = {"120 V": 120 * V, "240 V": 240 * V}
SIZES = tuple(
    size
    for size in table("ampacity_raceway").rows
    if size.endswith("AWG") and table("ampacity_raceway").has(size, "Cu 60")
)


class Welder(Check):
    """What wire, breaker and inverter does a welder need?"""

    title = "Welder"
    headline = "inverter_load"
    rule_sets = (NEC,)
    about = {"loads.welder": ("yes",)}

    tool_volts: str = pick_fact("loads.volts", "240 V", tuple(VOLTS))
    largest: Quantity = ask_fact(
        "I_p",
        "loads.amps",
        16 * A,
        common=(16 * A, 20 * A, 30 * A, 40 * A),
        help="On its plate: I1max, beside the volts",
    )
    known: str = pick(
        "What its plate says beside that", (BY_TABLE, BY_LAW, ON_PLATE), BY_TABLE, habit=True, help="I1eff is best"
    )
    machine: str = pick_fact("loads.machine", next(iter(MACHINES)), when={"known": (BY_TABLE,)})
    duty: Quantity = ask_fact(
        "X",
        "loads.duty",
        20 * percent,
        when={"known": (BY_TABLE, BY_LAW)},
        common=(20 * percent, 35 * percent, 60 * percent, 100 * percent),
    )
    idle: Quantity = ask_fact("I_0", "loads.idle_amps", 0 * A, when={"known": (BY_LAW,)})
    effective: Quantity = ask_fact("I_eff", "loads.effective_amps", 8 * A, when={"known": (ON_PLATE,)})
    size: str = pick_fact(
        "cables.size", "10 AWG", SIZES, help="Of the wire to its outlet; copper, printed on its jacket"
    )
    outlet: str = pick_fact("outlets.configuration", "6-50")
    breaker: Quantity = ask_fact("I_B", "outlets.breaker", 30 * A, common=(20 * A, 30 * A, 50 * A))
    alone: str = pick(
        "Does this circuit feed the welder alone?",
        ("no", "yes"),
        "no",
        habit=True,
        help="Only then may its breaker be larger than the wire's",
    )
    fed_by: str = pick_fact(
        "now.plugged_into",
        INVERTER,
        (INVERTER, WALL),
        label="What feeds the outlet",
        help="On pass-through the wall feeds it",
        means=FED_BY,
    )
    continuous: Quantity = ask_fact(
        "P_r",
        "inverter.continuous",
        5000 * VA,
        when={"fed_by": (INVERTER,)},
        common=(5000 * VA, 6000 * VA, 10_000 * VA),
    )
    surge: Quantity = ask_fact("P_s", "inverter.surge", 10_000 * VA, when={"fed_by": (INVERTER,)})
    system: str = pick_fact("inverter.system", SPLIT_PHASE, when={"fed_by": (INVERTER,)})
    one_leg: str = pick_fact("inverter.one_leg", "no", when={"system": (SPLIT_PHASE,)})
    running: Quantity = ask_fact("S_x", "now.running", 0 * VA, habit=True, when={"fed_by": (INVERTER,)})

    def solve(self) -> Answer:
        volts = constant("E", "Nominal volts", VOLTS[self.tool_volts], COMMON_PRACTICE)
        heats = self._effective()
        carries = table("ampacity_raceway").read(
            "I_tab", f"Ampacity of {self.size} copper, 60 °C terminals", self.size, "Cu 60", A
        )
        rating = rating_of(self.outlet)
        load = need("S_w", "What the welder takes while it welds", volts * self.largest, VA)
        return answer(
            gives_volts(self.outlet, self.tool_volts),
            has_ground(self.outlet),
            require(
                heats <= carries,
                label="Wire",
                yes="The wire carries it.",
                tight=f"{{left}} heat the wire; {self.size} carries {{right}}.",
                no=f"{{left}} heat the wire; {self.size} carries {{right}}.",
            ),
            require(
                self.breaker <= self._largest_breaker(carries),
                exact=True,
                label="Breaker protects",
                yes="The breaker protects wire and machine.",
                no="A {left} breaker is too large: {right} is the most before this wire and machine.",
            ),
            require(
                heats <= self.breaker,
                label="Breaker holds",
                yes="The breaker holds.",
                tight="The breaker has {right} for {left}: it may open in a long weld.",
                no="The breaker has {right} for {left}: it opens after some minutes.",
            ),
            require(
                heats <= rating,
                label="Outlet",
                yes="The outlet carries it.",
                tight="The outlet is asked for {left} of its {right}.",
                no="The outlet is asked for {left}; it has {right}.",
            ),
            *self._outlet_on_breaker(rating),
            *self._inverter(volts, load),
            say=f"It welds: {load:up} from the source, {heats:up} that heat the wire.",
            notes=(
                f"The wire goes by {heats:up}, what heats it over the minutes; the source has to give all {self.largest} while the arc burns.",
            ),
            inverter_load=load,
            effective_current=heats,
            largest_breaker=self._largest_breaker(carries),
            smallest_wire=self._smallest(heats),
        )

    def _effective(self) -> Quantity:
        if self.known == BY_TABLE:
            return effective_by_duty(self.largest, self.duty, self.machine)
        if self.known == BY_LAW:
            return effective_by_law(self.largest, self.duty, self.idle)
        return alternative("I_1eff", "Current that heats the supply wire", self.effective, "as its plate says", A)

    def _smallest(self, heats: Quantity) -> Quantity:
        return step("I_wire", "Ampacity that the wire needs at least", heats, A, NEC_2023.at("630.11(A)"), rounds=1)

    def _largest_breaker(self, carries: Quantity) -> Quantity:
        """Twice the machine's largest current, and twice the wire's ampacity where it feeds the welder alone."""
        if self.alone == "no":
            return alternative(
                "I_Bmax",
                "Largest breaker before it",
                carries,
                "other things hang on it: it guards the wire",
                A,
                NEC_2023.at("240.4"),
            )
        return welder_breaker(self.largest, carries)

    def _outlet_on_breaker(self, rating: Quantity) -> tuple[Requirement, ...]:
        return (
            require(
                self.breaker <= rating,
                exact=True,
                label="Breaker before the outlet",
                yes="The breaker suits the outlet.",
                no=f"The welder's rule allows the wire a larger breaker, but not the outlet: a {self.outlet} stands behind {{right}} at most, not {{left}}.",
            ),
        )

    def _inverter(self, volts: Quantity, load: Quantity) -> tuple[Requirement, ...]:
        if self.fed_by == WALL:
            return ()
        total = need("S_1", "Inverter's load while it welds", load + self.running, VA)
        arc = constant("k_arc", "The start of an arc draws", 1.3 * one, COMMON_PRACTICE)
        strike = need("S_2", "Inverter's load as the arc starts", arc * load + self.running, VA)
        rests = [
            require(
                offers(self.system, self.tool_volts),
                label="Inverter's volts",
                yes="The inverter gives these volts.",
                no=f"The inverter gives {self.system}, not {self.tool_volts}.",
            ),
            require(
                total <= self.continuous,
                label="Inverter while it welds",
                yes="The inverter carries it.",
                tight="The inverter is asked for {left} of its {right} while the arc burns.",
                no="The inverter is asked for {left} while the arc burns; it gives {right}. That the wire is thick enough is no help.",
            ),
            require(
                strike <= self.surge,
                label="Inverter as the arc starts",
                yes="The surge holds.",
                tight="The start of the arc asks {left} of its {right}.",
                no="The start of the arc asks {left}; its surge is {right}.",
            ),
        ]
        if self.system == SPLIT_PHASE and self.tool_volts == "120 V":
            rests.append(
                require(
                    total <= limit_of_one_leg(self.continuous, self.one_leg),
                    label="One leg while it welds",
                    yes="One leg carries it.",
                    tight="One leg is asked for {left} of its {right}.",
                    no="One leg is asked for {left}; it gives {right}.",
                )
            )
        return tuple(rests)

    fixes = (
        less(
            "largest",
            1 * A,
            "Turn the welding current down until it draws {largest}",
            costs="thinner metal, or more passes",
        ),
        next_option("size", "Use {size} or thicker", costs="heavier, dearer, stiffer"),
        less("breaker", 5 * A, "Put a {breaker} breaker before it"),
        option("outlet", "6-50", "Use a 6-50 outlet"),
        option("tool_volts", "240 V", "Run it at 240 V"),
        less("running", 50 * VA, "Switch off other loads down to {running}"),
        option("fed_by", WALL, "Weld from a wall outlet, on pass-through"),
    )
    cautions = (
        Caution(
            "DANGER",
            "A welder's circuits are live at the electrode, and a wet glove conducts",
            "It kills in damp places and inside metal",
            "Dry gloves, dry ground, the work clamp on the work itself; switch off before the electrode is changed",
        ),
        Caution(
            "WARNING",
            "With the clamp away from the weld its current finds a way through ground wires, bearings and the battery box",
            "Thin ground wires burn unseen",
            "Clamp beside the weld; never weld on the rig while its battery is connected",
        ),
        Caution(
            "WARNING",
            "Sparks and hydrogen, fuel or lithium cells do not go together",
            "Fire that water does not put out",
            "Weld well away from the rig, downwind of it, with somebody who watches",
        ),
    )
    examples = (
        Example(
            given={
                "largest": "40",
                "duty": "50",
                "known": BY_TABLE,
                "size": "10 AWG",
                "breaker": "30",
                "alone": "no",
                "continuous": "12000",
                "surge": "24000",
            },
            expect={"effective_current": "28.4 A", "inverter_load": "9600 VA"},
            verdict="tight",
            source=NEC_2023.at("Table 630.11(A): 0.71 at 50 %"),
        ),
        Example(
            given={
                "largest": "40",
                "duty": "50",
                "known": BY_TABLE,
                "size": "10 AWG",
                "breaker": "30",
                "alone": "no",
                "continuous": "5000",
                "surge": "10000",
            },
            verdict="no",
            source=NEC_2023.at("Table 630.11(A); 40 A at 240 V is 9600 VA, more than 5000"),
        ),
        Example(
            given={
                "largest": "20",
                "duty": "20",
                "known": BY_TABLE,
                "size": "14 AWG",
                "breaker": "40",
                "alone": "yes",
                "fed_by": WALL,
            },
            expect={"effective_current": "9 A", "largest_breaker": "30 A"},
            verdict="no",
            source=NEC_2023.at("630.12: twice the lower of 20 A and 15 A"),
        ),
        Example(
            given={
                "largest": "20",
                "duty": "20",
                "known": BY_TABLE,
                "size": "12 AWG",
                "breaker": "30",
                "alone": "yes",
                "fed_by": WALL,
            },
            expect={"effective_current": "9 A", "largest_breaker": "40 A"},
            verdict="go",
            source=NEC_2023.at("630.11(A), 630.12"),
        ),
    )
