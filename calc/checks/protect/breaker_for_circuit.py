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
    Requirement,
    Result,
    answer,
    less,
    more,
    next_option,
    option,
)
from calc.checks.branch_wiring import BREAKER, ONE_LOAD, SEVERAL
from calc.checks.circuit import DC_MOTOR, FAULT_KNOWN, MOTOR, STRONG, TYPED, WELDER, Faults, LoadAndDevice, WireAsLaid
from calc.facts.wiring import GG_FUSE
from calc.laws import breaker_trip as trip
from calc.laws import conductor as us
from calc.laws import motor_circuit as own
from calc.laws import overcurrent
from calc.laws.laid_wire import LaidWire, too_hot
from calc.laws.protection import IEC_DEVICES, of_receptacles, standard_rating_down, standard_rating_up, standard_ratings
from calc.quantity import OutsideValidity, Quantity, step
from calc.sources import IEC_60364_4_41, IEC_60364_5_52, IEC_60898, NEC_2023
from calc.units import A, V


class BreakerForCircuit(LoadAndDevice, WireAsLaid, Faults, Check):
    """Which breaker for this circuit?"""

    title = "Breaker for a circuit"
    headline = "smallest_breaker"
    about = {"cables.use": ("branch wiring",)}
    compared = ("usable_ampacity", "smallest_breaker", "largest_breaker")

    def solve(self) -> Answer:
        return self._by_nec() if self.rules == NEC else self._by_iec()

    def not_compared(self) -> str:
        if self.rules == NEC and self.feeds in (MOTOR, DC_MOTOR, WELDER):
            return "a motor's or welder's device is chosen there by the maker's data, to let it start and no larger than the wire bears a short."
        return ""

    # --- the US rules ---------------------------------------------------------------------------------------------

    def _by_nec(self) -> Answer:
        wire = self.wire_by_nec()
        if not wire.stands_heat.holds:
            return answer(too_hot(wire.stands_heat, self.insulation), say="", hottest_air=wire.stands_heat.right)
        if self.feeds in (MOTOR, DC_MOTOR):
            return self._of_motor(wire)
        return self._of_welder(wire) if self.feeds == WELDER else self._of_loads(wire)

    def _of_loads(self, wire: LaidWire) -> Answer:
        load = self.load()
        wanted = us.continuous_load(self.continuous_current, self.other_current)
        asked = load if self.full_rated == "yes" else wanted
        least = self._least(asked)
        most = wire.largest_breaker(self.feeds == SEVERAL)
        return answer(
            *wire.carries(wanted, load),
            overcurrent.there_is_one(least, most, self.size),
            overcurrent.holds(asked, self.breaker, comfortable=wanted <= self.breaker if self.full_rated == "yes" else None),
            wire.protected_by(self.breaker, most),
            *([of_receptacles(self.breaker)] if self.feeds == SEVERAL else []),
            *self._interrupts(),
            say=overcurrent.say(least, most, self.size),
            notes=overcurrent.smaller_than_the_table(self.size, wire.usable, most),
            **self._told(least, most),
            usable_ampacity=wire.usable,
            load_current=asked,
        )

    def _of_motor(self, wire: LaidWire) -> Answer:
        motor = self.of_motor()
        return answer(
            motor.wired(wire.usable, self.size),
            overcurrent.holds(motor.least, self.breaker, exact=True),
            motor.catches_shorts(self.breaker),
            *self._interrupts(),
            say=overcurrent.say(motor.least, motor.most, self.size),
            notes=self._larger_than_the_wire(wire, motor.most),
            **self._told(motor.least, motor.most),
            largest_for_hard_start=motor.top,
            wire_needed=motor.wire_needed,
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
            own.welder_wired(self.welder_effective, wire.usable, self.size),
            overcurrent.holds(least, self.breaker, exact=True),
            own.catches_shorts_of_a_welder(self.breaker, most),
            *self._interrupts(),
            say=overcurrent.say(least, most, self.size),
            notes=self._larger_than_the_wire(wire, most),
            **self._told(least, most),
            usable_ampacity=wire.usable,
        )

    def _larger_than_the_wire(self, wire: LaidWire, most: Quantity) -> tuple[str, ...]:
        return own.larger_than_the_wire(self.size, most, wire.largest_breaker(feeds_several=False), self.feeds == WELDER)

    # --- the international rules ------------------------------------------------------------------------------------

    def _by_iec(self) -> Answer:
        wire = self.wire_by_iec()
        if not wire.stands_heat.holds:
            return answer(too_hot(wire.stands_heat, self.insulation), say="", hottest_air=wire.stands_heat.right)
        load = self.load()
        least = self._least(load)
        most = wire.largest_device(BREAKER if self.device in TYPED else GG_FUSE, self.breaker)
        listed = step("I_Bmax", "Largest standard device for the wire", self._down(most), A, IEC_60898)
        return answer(
            wire.carries(load),
            overcurrent.there_is_one(least, listed, self.size),
            overcurrent.holds(load, self.breaker),
            wire.protected_by(self.breaker, most, self.device),
            *self._by_its_type(),
            *self._interrupts(),
            say=overcurrent.say(least, listed, self.size),
            notes=(),
            **self._told(least, listed),
            usable_ampacity=wire.usable,
            load_current=load,
            disconnect_within=trip.disconnects_within(self.breaker, self.feeds == SEVERAL),
        )

    def _by_its_type(self) -> list[Requirement]:
        """Whether it lets things start, and opens for a fault at the far end; a fuse has curves of its own, not known here."""
        if self.device not in TYPED:
            unknown = trip.opens_at_the_far_end(self.device, self.breaker, None)
            return [unknown] if self.circuit == "one-phase" else []
        kind = TYPED[self.device]
        rests = [trip.lets_start(kind, self.breaker, self.start_current)]
        if self.asked("far_fault_known"):
            measured = self.far_fault if self.far_fault_known == FAULT_KNOWN else None
            rests.append(trip.opens_at_the_far_end(kind, self.breaker, measured))
        return rests

    # --- what both share --------------------------------------------------------------------------------------------

    def _list(self) -> tuple[str, str]:
        return own.DEVICES[self.device] if self.rules == NEC else IEC_DEVICES

    def _down(self, most: Quantity) -> Quantity:
        return standard_rating_down(most, self._list())

    def _least(self, asked: Quantity) -> Quantity:
        source = NEC_2023.at("240.6(A)") if self.rules == NEC else IEC_60898
        rating = standard_rating_up(asked, self._list())
        return step("I_Bmin", "Smallest standard device for the load", rating, A, source)

    def _interrupts(self) -> list[Requirement]:
        return self.breaks_a_short(on_dc=self.asked("dc_volts"))

    def _told(self, least: Quantity, most: Quantity) -> dict[str, Result]:
        serve = overcurrent.ratings_that_serve(least, most, self._list())
        return {"smallest_breaker": least, "largest_breaker": most, "ratings_that_serve": serve}

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
            given={"continuous_current": "12", "size": "2.5 mm2", "breaker": "16", "far_fault_known": FAULT_KNOWN, "far_fault": "100"},
            verdict="go",
            rules=IEC,
            source=IEC_60898.at("Table 7: type B opens at once from five times, 80 A"),
        ),
        Example(
            given={"feeds": SEVERAL, "continuous_current": "32", "size": "10 mm2", "breaker": "40", "far_fault_known": FAULT_KNOWN, "far_fault": "400"},
            expect={"disconnect_within": "0.4 s"},
            verdict="go",
            rules=IEC,
            source=IEC_60364_4_41.at("411.3.2.2: circuits up to 63 A with sockets, 0.4 s at 230 V"),
        ),
        Example(
            given={"continuous_current": "12", "size": "2.5 mm2", "device": GG_FUSE, "breaker": "16"},
            verdict="tight",
            rules=IEC,
            source=IEC_60364_4_41.at("411.4.4: the fault must open it in time, and nobody has measured what a fuse is given"),
        ),
        Example(
            given={"continuous_current": "12", "size": "2.5 mm2", "device": "circuit-breaker, type C", "breaker": "16", "far_fault_known": FAULT_KNOWN, "far_fault": "100"},
            verdict="no",
            rules=IEC,
            source=IEC_60898.at("Table 7: type C opens at once from ten times, 160 A"),
        ),
    )  # fmt: skip
