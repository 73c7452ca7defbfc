"""The page /protect/breaker-for-circuit/: between what the load asks of a breaker and what its wire allows.

Of a motor's or a welder's own circuit the breaker only catches short circuits, and may be larger than the wire: that
is no fault but the rule.
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
    Result,
    answer,
    ask,
    ask_fact,
    less,
    more,
    next_option,
    option,
    pick,
    pick_fact,
    require,
)
from calc.checks import branch_wiring as wiring
from calc.checks.branch_wiring import ONE_LOAD, SEVERAL
from calc.facts.wiring import GG_FUSE, OF_TYPES
from calc.laws import breaker_trip as trip
from calc.laws import conductor as us
from calc.laws import motor_circuit as own
from calc.laws.laid_wire import LaidWire, LaidWireIEC, too_hot
from calc.laws.protection import IEC_DEVICES, of_receptacles, standard_rating_down, standard_rating_up, standard_ratings
from calc.quantity import Condition, OutsideValidity, Quantity, need, step
from calc.sources import IEC_60364_4_41, IEC_60364_5_52, IEC_60898, NEC_2023
from calc.tables import table
from calc.units import A, V

MOTOR, DC_MOTOR, WELDER = "one motor", "one dc motor", "one welder"
TYPED = dict(zip(OF_TYPES, trip.TYPES, strict=True))
STRONG, ORDINARY = "1.15 or more, or a rise of 40 °C or less", "less, or not stated"
NOT_KNOWN, KNOWN = "not known", "measured or worked out"
BY_AMPS = {"feeds": (ONE_LOAD, SEVERAL)}
OF_MOTOR = {"feeds": (MOTOR, DC_MOTOR)}
OF_WELDER = {"feeds": (WELDER,)}
ON_DC = ({"circuit": ("dc",)}, {"feeds": (DC_MOTOR,)})
ON_AC = ({"circuit": ("one-phase", "split-phase")}, {"feeds": (MOTOR, WELDER)})


class BreakerForCircuit(Check):
    """Which breaker for this circuit?"""

    title = "Breaker for a circuit"
    headline = "smallest_breaker"
    about = {"cables.use": ("branch wiring",)}
    compared = ("usable_ampacity", "smallest_breaker", "largest_breaker")

    feeds: str = pick_fact(
        "cables.serves",
        ONE_LOAD,
        {NEC: (ONE_LOAD, SEVERAL, MOTOR, DC_MOTOR, WELDER), IEC: (ONE_LOAD, SEVERAL)},
    )
    device: str = pick_fact(
        "devices.opens",
        {NEC: own.BREAKER, IEC: next(iter(TYPED))},
        {NEC: tuple(own.DEVICES), IEC: (*TYPED, GG_FUSE)},
        habit=(NEC,),
    )
    breaker: Quantity = wiring.breaker(help="The number on its handle: the one that is there, or that you would fit")
    circuit: str = wiring.circuit(when=BY_AMPS)
    continuous_current: Quantity = wiring.continuous_current(when=BY_AMPS)
    other_current: Quantity = wiring.other_current(when=BY_AMPS)
    full_rated: str = pick(
        "Is it marked for 100 % of its rating?",
        ("no", "yes"),
        "no",
        rules=(NEC,),
        habit=True,
        when={"feeds": (ONE_LOAD, SEVERAL)},
        help="Only with the enclosure it was listed in; no unless its label says so",
    )
    motor_size: str = pick(
        "Horsepower on the plate", {NEC: table("motor_current").rows}, "1", when={"feeds": (MOTOR,)}, help="One-phase"
    )
    motor_volts: str = pick(
        "Volts of the motor",
        {NEC: table("motor_current").columns},
        "115 V",
        when={"feeds": (MOTOR,)},
        help="115 for 110 to 120, 230 for 220 to 240; 208 and 200 on their own supplies",
    )
    dc_amps: Quantity = ask(
        "I_t",
        "Amps of the dc motor",
        20 * A,
        low=0.5 * A,
        high=400 * A,
        rules=(NEC,),
        when={"feeds": (DC_MOTOR,)},
        help="By the code's table for dc motors; on its plate where the table has no such volts",
    )
    motor_plate: Quantity = ask(
        "I_p",
        "Amps on the motor's plate",
        14 * A,
        low=0.3 * A,
        high=400 * A,
        rules=(NEC,),
        when=OF_MOTOR,
        help="For its overload protection, which goes by the plate and not by the table",
    )
    service_factor: str = pick(
        "Service factor on its plate", {NEC: (ORDINARY, STRONG)}, ORDINARY, when=OF_MOTOR, help="SF, or the rise in °C"
    )
    welder_largest: Quantity = ask(
        "I_1max",
        "Largest current the welder draws",
        30 * A,
        low=2 * A,
        high=120 * A,
        rules=(NEC,),
        when=OF_WELDER,
        help="On its plate: I1max",
    )
    welder_effective: Quantity = ask(
        "I_1eff",
        "Current that heats the welder's wire",
        14 * A,
        low=1 * A,
        high=120 * A,
        rules=(NEC,),
        when=OF_WELDER,
        help="On its plate: I1eff; the page on welders works it from the duty",
    )
    size: str = wiring.size()
    metal: str = wiring.metal()
    insulation: str = wiring.insulation()
    terminals: str = wiring.terminals()
    ambient: Quantity = wiring.ambient()
    carrying: Quantity = wiring.carrying()
    lay: str = wiring.lay()
    method: str = wiring.method()
    loaded: str = wiring.loaded()
    circuits: Quantity = wiring.circuits()
    start_current: Quantity = ask(
        "I_st",
        "Current for a moment as things start",
        0 * A,
        low=0 * A,
        high=2000 * A,
        rules=(IEC,),
        habit=True,
        help="Of motors, transformers and chargers together with what runs; 0 for heaters",
    )
    far_fault_known: str = pick(
        "Fault current at the far end",
        {IEC: (NOT_KNOWN, KNOWN)},
        NOT_KNOWN,
        habit=True,
        when={"circuit": ("one-phase",), "device": tuple(TYPED)},
        help="By an instrument that measures the loop, used by a qualified person; an inverter gives far less than a wall",
    )
    far_fault: Quantity = ask(
        "I_f",
        "Fault current to earth at the far end",
        300 * A,
        low=1 * A,
        high=10_000 * A,
        rules=(IEC,),
        when={"far_fault_known": (KNOWN,)},
        help="Volts to earth over the measured loop",
    )
    highest_volts: Quantity = ask_fact("V_cv", "bank.highest_volts", 57.6 * V, when=ON_DC)
    dc_volts: Quantity = ask_fact("V_dc", "devices.dc_volts", 125 * V, when=ON_DC)
    short_stated: Quantity = ask_fact("I_sc", "bank.short_circuit", 8000 * A, when=ON_DC)
    interrupting: Quantity = ask_fact("I_ic", "devices.interrupting", 20_000 * A, when=ON_DC)
    ac_fault: Quantity = ask(
        "I_k",
        "Most current a short may draw there",
        2000 * A,
        low=10 * A,
        high=100_000 * A,
        habit=True,
        when=ON_AC,
        help="Behind a cord some hundreds, beside a building's panel up to 10,000; an inverter alone gives less than 200",
    )
    ac_interrupting: Quantity = ask(
        "I_cu",
        "Current it can interrupt, ac",
        5000 * A,
        low=1000 * A,
        high=200_000 * A,
        habit=True,
        when=ON_AC,
        common=(5000 * A, 6000 * A, 10_000 * A),
        help="On its label; a breaker without such a marking has 5000 A (NFPA 70, 240.83(C))",
    )

    def solve(self) -> Answer:
        return self._by_nec() if self.rules == NEC else self._by_iec()

    def not_compared(self) -> str:
        if self.rules == NEC and self.feeds in (MOTOR, DC_MOTOR, WELDER):
            return "a motor's or welder's device is chosen there by the maker's data, to let it start and no larger than the wire bears a short."
        return ""

    # --- the US rules ---------------------------------------------------------------------------------------------

    def _by_nec(self) -> Answer:
        wire = LaidWire(self.size, self.metal, self.lay, self.insulation, self.terminals, self.ambient, self.carrying)
        if not wire.stands_heat.holds:
            return answer(too_hot(wire.stands_heat, self.insulation), say="", hottest_air=wire.stands_heat.right)
        if self.feeds in (MOTOR, DC_MOTOR):
            return self._of_motor(wire)
        return self._of_welder(wire) if self.feeds == WELDER else self._of_loads(wire)

    def _of_loads(self, wire: LaidWire) -> Answer:
        load = self._load()
        wanted = us.continuous_load(self.continuous_current, self.other_current)
        asked = load if self.full_rated == "yes" else wanted
        least = self._least(asked)
        most = wire.largest_breaker(self.feeds == SEVERAL)
        return answer(
            *wire.carries(wanted, load),
            self._there_is_one(least, most),
            self._holds(asked, comfortable=wanted <= self.breaker if self.full_rated == "yes" else None),
            wire.protected_by(self.breaker, most),
            *([of_receptacles(self.breaker)] if self.feeds == SEVERAL else []),
            *self._interrupts(),
            say=self._say(least, most),
            notes=self._smaller_than_the_table(wire, most),
            **self._told(least, most),
            usable_ampacity=wire.usable,
            load_current=asked,
        )

    def _of_motor(self, wire: LaidWire) -> Answer:
        of_ac = self.feeds == MOTOR
        table_amps = own.full_load_current(self.motor_size, self.motor_volts) if of_ac else self.dc_amps
        least = own.least_device(table_amps, self.device)
        most = own.motor_breaker(table_amps, own.ONE_PHASE if of_ac else own.DIRECT, self.device)
        top = own.motor_ceiling(table_amps, self.device, most)
        wire_asked = own.conductor(table_amps)
        return answer(
            require(
                wire_asked <= wire.usable,
                exact=True,
                label="Wire",
                yes="The wire is made for the motor.",
                no=f"A motor of this current needs a wire for {{left}}; {self.size} as laid carries {{right}}.",
            ),
            self._holds(least, exact=True),
            require(
                self.breaker <= top,
                comfortable=self.breaker <= most,
                label="Short circuits of a motor",
                yes="It is allowed before this motor.",
                tight=f"{{left}} is allowed only where {most} opens while the motor starts.",
                no="{left} is too large before this motor: {right} is the most, even where it starts hard.",
            ),
            *self._interrupts(),
            say=self._say(least, most),
            notes=self._larger_than_the_wire(wire, most),
            **self._told(least, most),
            largest_for_hard_start=top,
            wire_needed=wire_asked,
            usable_ampacity=wire.usable,
            overload_setting=own.overload_setting(self.motor_plate, self.service_factor == STRONG),
        )

    def _of_welder(self, wire: LaidWire) -> Answer:
        if (self.welder_effective > self.welder_largest).holds:
            raise OutsideValidity(
                f"I1eff of {self.welder_effective} is above I1max of {self.welder_largest}: look again."
            )
        least = self._least(self.welder_effective)
        most = own.welder_breaker(self.welder_largest, wire.usable)
        return answer(
            require(
                self.welder_effective <= wire.usable,
                label="Wire",
                yes="The wire carries the welder.",
                tight=f"{{left}} heat the wire; {self.size} as laid carries {{right}}.",
                no=f"{{left}} heat the wire; {self.size} as laid carries {{right}}.",
            ),
            self._holds(least, exact=True),
            require(
                self.breaker <= most,
                exact=True,
                label="Short circuits of a welder",
                yes="It is allowed before this welder and wire.",
                no="{left} is too large before this welder and wire: {right} is the most.",
            ),
            *self._interrupts(),
            say=self._say(least, most),
            notes=self._larger_than_the_wire(wire, most),
            **self._told(least, most),
            usable_ampacity=wire.usable,
        )

    def _smaller_than_the_table(self, wire: LaidWire, most: Quantity) -> tuple[str, ...]:
        """Name the ampacity that a hurried reader would take for the breaker of a small wire."""
        if (wire.usable <= most).holds:
            return ()
        return (
            f"{self.size} carries {wire.usable} as it lies, and is held to {most} all the same: small wires have a cap.",
        )

    def _larger_than_the_wire(self, wire: LaidWire, most: Quantity) -> tuple[str, ...]:
        """Name the smaller number that the rule for other circuits gives, which a careful reader would expect."""
        other = wire.largest_breaker(feeds_several=False)
        if (most <= other).holds:
            return ()
        rule, keeps = (
            ("630.12", "its duty keeps the wire cool")
            if self.feeds == WELDER
            else ("430.52", "the motor's overload protection keeps the wire cool")
        )
        return (
            f"Before other loads {self.size} may have {other} at most. Here {most} is allowed by NFPA 70, {rule}: the "
            f"breaker only catches short circuits, and {keeps}.",
        )

    # --- the international rules ------------------------------------------------------------------------------------

    def _by_iec(self) -> Answer:
        wire = LaidWireIEC(
            self.size,
            self.metal,
            self.method,
            self.loaded,
            self.insulation,
            self.terminals,
            self.ambient,
            self.circuits,
        )
        if not wire.stands_heat.holds:
            return answer(too_hot(wire.stands_heat, self.insulation), say="", hottest_air=wire.stands_heat.right)
        load = self._load()
        least = self._least(load)
        most = wire.largest_device(wiring.BREAKER if self.device in TYPED else GG_FUSE, self.breaker)
        listed = step("I_Bmax", "Largest standard device for the wire", self._down(most), A, IEC_60898)
        return answer(
            wire.carries(load),
            self._there_is_one(least, listed),
            self._holds(load),
            wire.protected_by(self.breaker, most, self.device),
            *self._by_its_type(),
            *self._interrupts(),
            say=self._say(least, listed),
            notes=(),
            **self._told(least, listed),
            usable_ampacity=wire.usable,
            load_current=load,
            disconnect_within=trip.disconnects_within(self.breaker, self.feeds == SEVERAL),
        )

    def _by_its_type(self) -> list[Requirement]:
        """Whether it lets things start, and opens for a fault at the far end; a fuse has curves of its own."""
        if self.device not in TYPED:
            return []
        kind = TYPED[self.device]
        rests = [trip.lets_start(kind, self.breaker, self.start_current)]
        if self.asked("far_fault_known"):
            measured = self.far_fault if self.far_fault_known == KNOWN else None
            rests.append(trip.opens_at_the_far_end(kind, self.breaker, measured))
        return rests

    # --- what both share --------------------------------------------------------------------------------------------

    def _load(self) -> Quantity:
        load = need("I", "Current in the wire", self.continuous_current + self.other_current, A)
        if load.si == 0:
            raise OutsideValidity("No current is asked for: fill in at least one of the two currents.")
        return load

    def _list(self) -> tuple[str, str]:
        return own.DEVICES[self.device] if self.rules == NEC else IEC_DEVICES

    def _down(self, most: Quantity) -> Quantity:
        return standard_rating_down(most, self._list())

    def _least(self, asked: Quantity) -> Quantity:
        source = NEC_2023.at("240.6(A)") if self.rules == NEC else IEC_60898
        rating = standard_rating_up(asked, self._list())
        return step("I_Bmin", "Smallest standard device for the load", rating, A, source)

    def _there_is_one(self, least: Quantity, most: Quantity) -> Requirement:
        return require(
            least <= most,
            exact=True,
            label="A rating for load and wire",
            yes="There is a rating between load and wire.",
            no=f"The load needs {{left}} or more, and {self.size} as laid allows {{right}}: no rating serves both. Use thicker wire.",
        )

    def _holds(self, asked: Quantity, comfortable: Condition | None = None, exact: bool = False) -> Requirement:
        return require(
            asked <= self.breaker,
            comfortable=comfortable,
            exact=exact,
            label="Breaker holds the load",
            yes="It holds the load.",
            tight="It holds, but {left} is asked of its {right}.",
            no="{left} is asked of a device of {right}: it opens, or wears out warm.",
        )

    def _interrupts(self) -> list[Requirement]:
        on_dc = self.asked("dc_volts")
        short, breaks = (self.short_stated, self.interrupting) if on_dc else (self.ac_fault, self.ac_interrupting)
        rests = [
            require(
                short <= breaks,
                label="Interrupting",
                yes="It can break a short.",
                tight="A short may draw {left}; it breaks {right}.",
                no="A short may draw {left}; it breaks {right} at most, and may burst with fire.",
            )
        ]
        if on_dc:
            rests.append(
                require(
                    self.highest_volts <= self.dc_volts,
                    label="Volts dc",
                    yes="It may break the bank's volts.",
                    tight="The bank reaches {left} and it may break {right}.",
                    no="The bank reaches {left}; on dc it may break {right}. It would go on burning inside after it has opened.",
                )
            )
        return rests

    def _say(self, least: Quantity, most: Quantity) -> str:
        if least.si == most.si:
            return f"{least}: the only rating for this load and {self.size}."
        return f"{least} is the smallest that holds the load, {most} the largest that this circuit may have."

    def _told(self, least: Quantity, most: Quantity) -> dict[str, Result]:
        serve = [
            str(rating)
            for rating in standard_ratings(self._list())
            if (rating >= least).holds and (rating <= most).holds
        ]
        label = "Standard ratings that serve"
        return {
            "smallest_breaker": least,
            "largest_breaker": most,
            "ratings_that_serve": Named(
                ", ".join(serve) or "none", label, "from the smallest that holds to the largest allowed"
            ),
        }

    def _smaller(self) -> Iterator[Change]:
        """The standard ratings below the one that is there: never a larger one on the same wire."""
        for rating in reversed(standard_ratings(self._list())):
            if (rating < self.breaker).holds:
                yield {"breaker": rating}

    fixes = (
        Fix("Fit a smaller one, of {breaker}", _smaller),
        next_option("size", "Use {size} or thicker", costs="heavier, dearer, stiffer"),
        option("terminals", "75 °C", "Use lugs and a breaker marked 75 °C at both ends"),
        option("device", own.BREAKER, "Use an inverse-time breaker, which lets a motor start"),
        next_option("device", "Use a {device}"),
        less("continuous_current", 1 * A, "Take the lasting load down to {continuous_current} or less"),
        less("other_current", 1 * A, "Take the other load down to {other_current} or less"),
        more("ac_interrupting", 1000 * A, "Fit one that can interrupt {ac_interrupting}"),
        more("interrupting", 1000 * A, "Fit one that can interrupt {interrupting} dc"),
        more("dc_volts", 5 * V, "Fit one marked for {dc_volts} dc"),
    )
    cautions = (
        Caution(
            "WARNING",
            "The device of a motor's own circuit does not guard the motor against overload",
            "A stalled or overloaded motor burns, and its wire with it",
            "Fit overload protection at the motor, set by its plate: 125 % for a service factor of 1.15, else 115 %",
            only=lambda check: check.rules == NEC and check.feeds in (MOTOR, DC_MOTOR),
        ),
        Caution(
            "WARNING",
            "A breaker for ac does not break dc, and some dc breakers break it one way round only",
            "The arc goes on burning inside and sets fire to the box",
            "Use one marked for dc at the bank's highest volts, wired by the signs on it; in the line from the bank a fuse",
            only=lambda check: check.asked("dc_volts"),
        ),
        Caution(
            "WARNING",
            "A larger breaker fitted because the right one trips lets the wire burn",
            "The insulation sets fire to the cart or a wall",
            "Look for what trips it; never go above the largest named here",
        ),
        Caution(
            "WARNING",
            "On the rig's inverter a short may not open any breaker",
            "The inverter gives too little current for the magnet",
            "See the page on breakers on an inverter, and keep a tested ground-fault device at each outlet",
        ),
        Caution(
            "DANGER",
            "Live conductors kill",
            "Touching one can stop the heart or burn to the bone",
            "Switch off, unplug, isolate the battery, then test that it is dead before a breaker is fitted",
        ),
    )
    examples = (
        Example(
            given={"feeds": MOTOR, "motor_size": "5", "motor_volts": "230 V", "size": "10 AWG", "terminals": "75 °C", "breaker": "70"},
            expect={"wire_needed": "35 A", "largest_breaker": "70 A", "usable_ampacity": "35 A"},
            verdict="go",
            source=NEC_2023.at(
                "Tables 430.248 and 430.52(C)(1), 430.22; a course on motor circuits works the same case"
            ),
        ),
        Example(
            given={"feeds": MOTOR, "motor_size": "5", "motor_volts": "230 V", "size": "10 AWG", "terminals": "75 °C", "device": own.DELAYED, "breaker": "50"},
            expect={"largest_breaker": "50 A", "largest_for_hard_start": "60 A"},
            verdict="go",
            source=NEC_2023.at("430.52(C)(1): 175 % of 28 A is 49 A, next 50 A; 225 % is 63 A, so 60 A at the most"),
        ),
        Example(
            given={"feeds": MOTOR, "motor_size": "1", "motor_volts": "115 V", "size": "12 AWG", "breaker": "40"},
            expect={"wire_needed": "20 A", "largest_breaker": "40 A"},
            verdict="go",
            source=NEC_2023.at("Tables 430.248 and 430.52(C)(1); a trade magazine works the same case"),
        ),
        Example(
            given={"feeds": ONE_LOAD, "continuous_current": "24", "other_current": "6", "size": "8 AWG", "terminals": "75 °C", "ambient": "45 °C", "carrying": "4", "breaker": "40"},
            expect={"smallest_breaker": "40 A", "largest_breaker": "40 A"},
            verdict="tight",
            source=NEC_2023.at("Tables 310.16, 310.15(B)(1)(1), 310.15(C)(1); 240.4(B), worked by hand"),
        ),
        Example(
            given={"feeds": ONE_LOAD, "continuous_current": "0", "other_current": "20", "size": "12 AWG", "breaker": "25"},
            expect={"largest_breaker": "20 A"},
            verdict="no",
            source=NEC_2023.at("240.4(D): 12 AWG behind 20 A at most"),
        ),
        Example(
            given={"feeds": WELDER, "welder_largest": "50", "welder_effective": "22.5", "size": "10 AWG", "breaker": "60"},
            expect={"largest_breaker": "60 A"},
            verdict="go",
            source=NEC_2023.at("630.11, 630.12: 50 A at 20 % is 22.5 A; twice the 30 A of 10 AWG"),
        ),
        Example(
            given={"continuous_current": "16", "size": "2.5 mm2", "breaker": "20", "ambient": "45 °C", "circuits": "3"},
            expect={"usable_ampacity": "18.27 A", "largest_breaker": "16 A"},
            verdict="no",
            rules=IEC,
            source=IEC_60364_5_52.at("Tables B.52.5, B.52.14, B.52.17, worked by hand"),
        ),
        Example(
            given={"continuous_current": "12", "size": "2.5 mm2", "breaker": "16", "far_fault_known": KNOWN, "far_fault": "100"},
            verdict="go",
            rules=IEC,
            source=IEC_60898.at("Table 7: type B opens at once from five times, 80 A"),
        ),
        Example(
            given={"feeds": SEVERAL, "continuous_current": "32", "size": "10 mm2", "breaker": "40", "far_fault_known": KNOWN, "far_fault": "400"},
            expect={"disconnect_within": "0.4 s"},
            verdict="go",
            rules=IEC,
            source=IEC_60364_4_41.at("411.3.2.2: circuits up to 63 A with sockets, 0.4 s at 230 V"),
        ),
        Example(
            given={"continuous_current": "12", "size": "2.5 mm2", "device": "circuit-breaker, type C", "breaker": "16", "far_fault_known": KNOWN, "far_fault": "100"},
            verdict="no",
            rules=IEC,
            source=IEC_60898.at("Table 7: type C opens at once from ten times, 160 A"),
        ),
    )  # fmt: skip
