"""The page /protect/breaker-on-inverter/: whether a short on inverter power opens the breaker at all, and what does if not.

A wall gives hundreds of amps into a short and the breaker's magnet opens it at once. An inverter gives twice its rating
for a moment: often the breaker never sees it, the inverter switches itself off, and everything goes dark.
"""

from __future__ import annotations

from collections.abc import Iterator

from calc.check import (
    IEC,
    NEC,
    Answer,
    Caution,
    Change,
    Check,
    Example,
    Fix,
    Named,
    Requirement,
    answer,
    ask,
    ask_fact,
    option,
    pick,
    pick_fact,
    require,
)
from calc.laws import breaker_trip as trip
from calc.laws.ground_fault import CLASS_A
from calc.laws.inverter import SPLIT_PHASE, fault_current, limit_of_one_leg, offers
from calc.laws.outlet import volts_of
from calc.laws.protection import IEC_DEVICES, NEC_BREAKERS, standard_ratings
from calc.quantity import OutsideValidity, Quantity, Statement, constant, limit, need, smallest, step
from calc.sources import COMMON_PRACTICE, IEC_60364_4_41, IEC_60364_4_43, IEC_60898, OWN_DERIVATION, UL_489, Source
from calc.units import A, V, W, ohm, one, s

RCDS = ("RCD type A, 30 mA", "RCD type F, 30 mA", "RCD type B, 30 mA")
STOPS, HOLDS = "it switches off", "it holds its limit and goes on"
NOT_THE_BREAKER = Statement("The breaker's magnet clears it", False, OWN_DERIVATION)


class BreakerOnInverter(Check):
    """Will the breaker open if something shorts on inverter power?"""

    title = "Breaker on inverter power"
    headline = "multiple"

    outlet: str = pick_fact("outlets.configuration", "5-20", rules=(NEC,))
    breaker: Quantity = ask_fact("I_B", "outlets.breaker", 20 * A, common=(10 * A, 15 * A, 16 * A, 20 * A, 30 * A))
    kind: str = pick(
        "Kind of breaker",
        {NEC: (trip.US, *trip.TYPES), IEC: trip.TYPES},
        {NEC: trip.US, IEC: "type C"},
        habit=True,
        help="A letter before the amps is its type; an American one has none",
    )
    ground_fault: str = pick_fact("outlets.ground_fault", {NEC: CLASS_A, IEC: RCDS[0]})
    continuous: Quantity = ask_fact("P_r", "inverter.continuous", 5000 * W, common=(3000 * W, 5000 * W, 6000 * W))
    fault_times: Quantity = ask_fact("k_f", "inverter.fault_times", 2 * one, common=(1.2 * one, 2 * one, 3 * one))
    fault_time: Quantity = ask_fact(
        "t_f", "inverter.fault_time", 0.1 * s, common=(0.02 * s, 0.1 * s, 1 * s), when={"behaviour": (STOPS,)}
    )
    behaviour: str = pick(
        "What the inverter does in a short",
        (STOPS, HOLDS),
        STOPS,
        habit=True,
        help="In its manual: short-circuit protection; nearly all switch off, some try again",
    )
    system: str = pick_fact("inverter.system", SPLIT_PHASE, rules=(NEC,))
    one_leg: str = pick_fact("inverter.one_leg", "no", when={"system": (SPLIT_PHASE,)}, rules=(NEC,))
    loop: Quantity = ask(
        "R",
        "Resistance of the wires to the short, out and back",
        0.6 * ohm,
        low=0 * ohm,
        high=10 * ohm,
        habit=True,
        common=(0.1 * ohm, 0.6 * ohm, 1 * ohm),
        help="The end of 100 ft of 14 AWG cord has 0.6 Ω",
    )
    wall_current: Quantity = ask(
        "I_wall",
        "Current into the same short while the wall feeds it",
        150 * A,
        low=10 * A,
        high=10_000 * A,
        habit=True,
        help="Volts over the resistance of cord, building and wires together",
    )

    def solve(self) -> Answer:
        if self.rules == NEC and not any(offers(self.system, volts).holds for volts in volts_of(self.outlet)):
            raise OutsideValidity(f"An inverter of {self.system} has none of the volts of a {self.outlet}.")
        volts, power = self._volts(), self._power()
        fault = self._fault(volts, power)
        multiple = limit("m", "Times the breaker's rating", fault / self.breaker, one)
        opens = trip.surely_opens(self.kind)
        asked = need("I_mag", "Current at which its magnet surely opens it", opens * self.breaker, A)
        by_magnet = (asked <= fault).holds and self._long_enough()
        return answer(
            self._between_wires(fault, asked, by_magnet),
            self._to_the_frame(volts, by_magnet),
            say=f"A short gives {fault}, {multiple} times the breaker's rating: it opens at once.",
            notes=self._naive(multiple, opens, by_magnet),
            multiple=multiple,
            fault_current=fault,
            magnet_current=asked,
            largest_that_opens=limit("I_top", "Largest breaker whose magnet it reaches", fault / opens, A),
            cleared_by=self._cleared_by(fault, by_magnet),
            on_pass_through=self._on_pass_through(asked),
        )

    # --- the current ------------------------------------------------------------------------------------------------

    def _two_hots(self) -> bool:
        return self.rules == NEC and "240 V" in volts_of(self.outlet)

    def _volts(self) -> Quantity:
        if self.rules == IEC:
            return constant("E", "Nominal volts", 230 * V, COMMON_PRACTICE)
        return constant("E", "Nominal volts", 240 * V if self._two_hots() else 120 * V, COMMON_PRACTICE)

    def _power(self) -> Quantity:
        """What stands behind the short: of a split-phase inverter one leg, unless the outlet uses both."""
        if self.rules == NEC and self.system == SPLIT_PHASE and not self._two_hots():
            return limit_of_one_leg(self.continuous, self.one_leg)
        return self.continuous

    def _fault(self, volts: Quantity, power: Quantity) -> Quantity:
        gives = fault_current(self.fault_times, power, volts)
        if self.loop.si == 0:
            return limit("I_f", "Current into the short", gives, A)
        passes = limit("I_R", "Current that the wires would pass", volts / self.loop, A)
        return limit("I_f", "Current into the short, the lower of the two", smallest(gives, passes), A)

    def _long_enough(self) -> bool:
        """The magnet needs a moment: an inverter that is off before has cleared the short itself."""
        return self.behaviour == HOLDS or (self.fault_time >= trip.magnet_takes(self.kind)).holds

    # --- what clears it ---------------------------------------------------------------------------------------------

    def _between_wires(self, fault: Quantity, asked: Quantity, by_magnet: bool) -> Requirement:
        label = "A short between wires"
        if by_magnet:
            return require(
                asked <= fault,
                label=label,
                yes="The breaker opens at once.",
                tight="The breaker just opens: its magnet needs {left}, and a short gives {right}.",
                no="",
            )
        if self.behaviour == STOPS:
            five = constant("t_5", "A short may heat a wire no longer than", 5 * s, IEC_60364_4_43.at("434.5.2"))
            return require(
                self.fault_time <= five,
                comfortable=NOT_THE_BREAKER,
                label=label,
                yes="",
                tight=self._dark(fault, asked),
                no="The inverter feeds a short for {left}; in more than {right} the wires burn.",
            )
        (strong, column), _ = trip.heat_points(self.kind)
        surely = need("I_heat", "Current at which its heat surely opens it", strong * self.breaker, A)
        within = trip.opens_within(self.kind, self.breaker, column)
        return require(
            surely <= fault,
            comfortable=NOT_THE_BREAKER,
            label=label,
            yes="",
            tight=f"The magnet is not reached: only its heat opens the breaker, within {within}. Until then the short burns.",
            no="The inverter feeds {right} into a short for good: it takes {left} to open the breaker even by its heat. Nothing clears it.",
        )

    def _dark(self, fault: Quantity, asked: Quantity) -> str:
        if (asked <= fault).holds:
            return f"The inverter is off after {self.fault_time}, before the magnet has moved: everything goes dark."
        return f"A short gives {fault}, and the magnet needs {asked:up}: the breaker stays closed. The inverter is off after {self.fault_time}, and everything goes dark."

    def _to_the_frame(self, volts: Quantity, by_magnet: bool) -> Requirement:
        label = "A fault to the frame"
        counted = (CLASS_A,) if self.rules == NEC else RCDS
        if self.ground_fault in counted:
            source = IEC_60364_4_41.at("411.3.3, 411.4.5")
            return require(
                Statement(f"{self.ground_fault} opens it", True, source),
                label=label,
                yes="The ground-fault device opens it, on any source.",
                no="",
            )
        to_earth = self._to_earth(volts)
        most = trip.longest_touch(to_earth)
        if by_magnet:
            return require(
                trip.magnet_takes(self.kind) <= most, exact=True, label=label, yes="The breaker opens at once.", no=""
            )
        if self.behaviour == HOLDS:
            (_, _), (least, column) = trip.heat_points(self.kind)
            within = trip.opens_within(self.kind, self.breaker, column)
            return require(
                within <= most,
                label=label,
                yes="",
                no="A fault to the frame stands for up to {left}, and may stand for {right}: it kills. There is no ground-fault device.",
            )
        return require(
            self.fault_time <= most,
            comfortable=NOT_THE_BREAKER,
            label=label,
            yes="",
            tight="Nothing but the inverter's own electronics clears a fault to the frame, after {left}: fit a ground-fault device.",
            no="A fault to the frame stands for {left} until the inverter stops, and may stand for {right}: it kills. Fit a ground-fault device.",
        )

    def _to_earth(self, volts: Quantity) -> Quantity:
        """Volts of a hot to the frame: on a split-phase outlet with two hots, those of one leg."""
        if self.rules == NEC and self._two_hots() and self.system == SPLIT_PHASE:
            return step("E_0", "Volts of one hot to the frame", volts / 2, V, OWN_DERIVATION)
        return volts

    def _cleared_by(self, fault: Quantity, by_magnet: bool) -> Named:
        label = "What clears a short between wires"
        if by_magnet:
            return Named("the breaker's magnet", label, f"within {trip.magnet_takes(self.kind)}", self._source())
        if self.behaviour == STOPS:
            return Named("the inverter's electronics", label, f"off after {self.fault_time}; the breaker stays closed")
        for point, column in trip.heat_points(self.kind):
            if (fault >= point * self.breaker).holds:
                within = trip.opens_within(self.kind, self.breaker, column)
                return Named("the breaker's heat", label, f"within {within}", self._source())
        return Named("nothing", label, "the current is too low for any breaker of this rating", self._source())

    def _source(self) -> Source:
        return UL_489 if self.kind == trip.US else IEC_60898.at("Table 7 of IEC 60898-1")

    def _on_pass_through(self, asked: Quantity) -> Named:
        label = f"On pass-through, where the wall gives {self.wall_current}"
        if (self.wall_current >= asked).holds:
            return Named("the breaker opens at once", label, f"the magnet needs {asked:up}")
        for point, column in trip.heat_points(self.kind):
            if (self.wall_current >= point * self.breaker).holds:
                within = trip.opens_within(self.kind, self.breaker, column)
                return Named(f"it opens by its heat, within {within}", label, f"the magnet needs {asked:up}")
        return Named("it may not open", label, f"the magnet needs {asked:up}")

    def _naive(self, multiple: Quantity, opens: Quantity, by_magnet: bool) -> tuple[str, ...]:
        if by_magnet:
            return ()
        return (
            "Who holds a faulty tool meanwhile rests on the ground-fault device: press its test button before each use.",
            f"“A dead short trips the breaker” holds for a wall. Here the short is {multiple} times the rating, and the magnet needs {opens} times.",
        )

    def _smaller(self) -> Iterator[Change]:
        for rating in reversed(standard_ratings(NEC_BREAKERS if self.rules == NEC else IEC_DEVICES)):
            if (rating < self.breaker).holds and (rating >= self.asks["breaker"].low).holds:  # type: ignore[union-attr]
                yield {"breaker": rating}

    fixes = (
        option("ground_fault", CLASS_A, "Fit a Class A ground-fault device, 5 mA, at the outlet"),
        option("ground_fault", RCDS[0], "Fit an RCD of type A, 30 mA"),
        option("kind", "type B", "Fit a breaker of type B, whose magnet opens earlier"),
        Fix("Divide it: a breaker of {breaker}, with less on it", _smaller),
    )
    cautions = (
        Caution(
            "DANGER",
            "A fault to metal on inverter power may open no breaker",
            "Whoever holds the tool and the ground becomes the way back",
            "Press the test button of the ground-fault device before each use; no outlet outdoors without one",
        ),
        Caution(
            "WARNING",
            "An inverter that starts again by itself feeds the short again and again",
            "Wires and plugs heat at each try, and a tool may start in a hand",
            "When all goes dark, switch the inverter off, unplug everything, and look for the fault before it is switched on",
        ),
        Caution(
            "CAUTION",
            "The figures for a short are seldom printed",
            "A breaker thought safe stays closed",
            "Take the manual's word only; where it is silent count with no more than the continuous rating",
        ),
    )
    examples = (
        Example(
            given={"breaker": "20", "continuous": "6000", "fault_times": "2", "loop": "0.1", "fault_time": "0.1"},
            expect={"fault_current": "50 A", "multiple": "2.5"},
            verdict="tight",
            source=COMMON_PRACTICE.at("makers' curves open at once from five to ten times; 50 A is 2.5 times 20 A"),
        ),
        Example(
            given={"breaker": "16", "kind": "type B", "continuous": "10000", "fault_times": "2.3", "loop": "0.1"},
            expect={"fault_current": "100 A", "magnet_current": "80 A"},
            verdict="go",
            rules=IEC,
            source=IEC_60898.at("Table 7: type B opens at once from five times its rating"),
        ),
        Example(
            given={
                "breaker": "16",
                "kind": "type C",
                "continuous": "10000",
                "fault_times": "2",
                "loop": "0.1",
                "ground_fault": "none",
                "fault_time": "1 s",
            },
            verdict="no",
            rules=IEC,
            source=IEC_60364_4_41.at("Table 41.1: 0.4 s at 230 V"),
        ),
        Example(
            given={
                "breaker": "30",
                "continuous": "5000",
                "fault_times": "1.1",
                "behaviour": HOLDS,
                "ground_fault": CLASS_A,
            },
            verdict="no",
            source=UL_489.at("no breaker need open below 135 per cent of its rating"),
        ),
    )
