"""The page /run/tool-on-outlet/: running, starting, and the volts left meanwhile, against everything in its way.

Outlet, breaker, cord, inverter, one leg of it, its surge and the surge's seconds: the weakest of them answers. What the
inverter and the breaker feel at a start is worked without the cord: a thin cord is no way to spare an inverter.
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
    answer,
    less,
    option,
    require,
)
from calc.checks.at_outlet import GUARDED, AtOutlet, FedBy
from calc.checks.circuit import smaller_ratings
from calc.checks.tool import (
    BY_HP,
    BY_LETTER,
    BY_WATTS,
    COMPRESSOR,
    RESISTIVE,
    SOFT,
    STATED,
    UNIVERSAL,
    VOLTS,
    ByCord,
    Tool,
)
from calc.laws import motor
from calc.laws.outlet import WALL
from calc.laws.supply import OTHER_LEG
from calc.quantity import OutsideValidity, Quantity, constant, limit, need, step
from calc.sources import COMMON_PRACTICE, IEC_60309, IEC_60898, NEC_2023, OWN_DERIVATION
from calc.units import VA, A, V, ft, ohm, percent


class ToolOnOutlet(Tool, AtOutlet, ByCord, FedBy, Check):
    """Will this tool run on this outlet?"""

    title = "Tool on an outlet"
    headline = "running_current"

    def solve(self) -> Answer:
        volts = constant("E", "Nominal volts", VOLTS[self.tool_volts], COMMON_PRACTICE)
        plate = self.plate_current(volts)
        supply = step(
            "X_s",
            "Reactance of the supply, taken as large as its resistance",
            self.source_resistance,
            ohm,
            COMMON_PRACTICE,
        )
        loop = self.loop()
        reach = self._reaches(volts, plate, loop)
        if reach.verdict == "no":
            return answer(reach, say="", plate_current=plate)
        at_tool, running = self._running(volts, plate, loop)
        rated = self.rated(volts)
        start, lasts = self.starts(plate, rated)
        if (start < plate).holds:
            raise OutsideValidity(
                f"A start current of {start} is below the {plate} it runs on: look at the plate again."
            )
        load = motor.at_standstill(rated, start, self.start_power_factor())
        at_outlet = motor.start_current(
            "I_s", "Start current at the outlet", volts, load, self.source_resistance, supply
        )
        through_cord = motor.start_current("I_c", "Start current through the cord", volts, load, loop, supply)
        left = motor.volts_at_start(through_cord, load)
        torque = motor.share_of_torque(left, rated)
        return answer(
            *self.at_the_outlet(running),
            *self.through_the_cord(running),
            *self.from_the_inverter(volts, running, at_outlet, lasts),
            *motor.rides_through(at_outlet, lasts, self.breaker, self.breaker_kind()),
            self._volts_while_running(at_tool, volts),
            self._volts_while_starting(left, rated),
            *([self.turns(torque)] if self.asked("standstill") else []),
            say=f"It runs on the {self.where()}: {running:up}, {at_outlet:up} at the start, {left} left meanwhile.",
            notes=(*self._lower_in_the_band(rated), *self._by_the_other_rules()),
            running_current=running,
            running_power=motor.apparent_power("S_r", "Apparent power while it runs", volts, running),
            start_current=at_outlet,
            start_current_through_cord=through_cord,
            start_power=motor.apparent_power("S_s", "Apparent power at the start", volts, at_outlet),
            start_time=lasts,
            volts_while_running=at_tool,
            volts_at_start=left,
            torque_at_start=torque,
        )

    # --- running ------------------------------------------------------------------------------------------------

    def _reaches(self, volts: Quantity, plate: Quantity, loop: Quantity) -> Requirement:
        return require(
            volts * plate <= motor.most_power_through(volts, loop),
            label="Reach",
            exact=True,
            yes="The cord reaches.",
            no="No voltage carries {left} through so long a cord; {right} is the most.",
        )

    def _running(self, volts: Quantity, plate: Quantity, loop: Quantity) -> tuple[Quantity, Quantity]:
        """Volts at the tool and the current it draws there: a heater takes less when they fall, a motor more."""
        if self.start in RESISTIVE:
            running = need("I_r", "Current while it runs", volts / (volts / plate + loop), A, OWN_DERIVATION)
            return limit("V_t", "Volts at the tool while it runs", volts - running * loop, V), running
        power = step("P", "Power at the plate, held when the volts fall", volts * plate, VA, OWN_DERIVATION)
        at_tool = motor.volts_at_constant_power(volts, loop, power)
        return at_tool, need("I_r", "Current while it runs", power / at_tool, A, OWN_DERIVATION)

    def _volts_while_running(self, at_tool: Quantity, volts: Quantity) -> Requirement:
        return require(
            at_tool >= self._share("d_run", 95) * volts,
            comfortable=at_tool >= self._share("d_easy", 97) * volts,
            label="Volts while it runs",
            yes="The volts hold.",
            tight="The tool gets {left} while it runs: no more than 5 % may be lost.",
            no="The tool gets only {left} while it runs; under {right} it is weak and overheats.",
        )

    # --- starting -----------------------------------------------------------------------------------------------

    def _share(self, symbol: str, per_cent: int) -> Quantity:
        return constant(symbol, "Share of the plate's volts wanted", per_cent * percent, COMMON_PRACTICE)

    def _volts_while_starting(self, left: Quantity, rated: Quantity) -> Requirement:
        return require(
            left >= self._share("d_start", 80) * rated,
            comfortable=left >= self._share("d_good", 90) * rated,
            label="Volts while it starts",
            yes="The volts hold.",
            tight="The volts fall to {left} while it starts; other electronics may notice.",
            no="The volts fall to {left} while it starts; under {right} it may stall and burn.",
        )

    def _lower_in_the_band(self, rated: Quantity) -> tuple[str, ...]:
        """Name the start that the bottom of the letter's band would give."""
        if self.start != BY_LETTER:
            return ()
        least, most = motor.band_of_letter(self.motor_size, self.code_letter, rated)
        return (f"Letter {self.code_letter} means {least:down} to {most:up} at the start; the top of the band counts.",)

    def _by_the_other_rules(self) -> tuple[str, ...]:
        """Where the two rule sets differ on what was asked: which answered, and what the other says."""
        if self.rules == NEC:
            if self.lasting == "no":
                return ()
            return (
                "The NEC answered: a load of three hours or more counts for 125 %. IEC rules put no such factor on it; there "
                "an industrial socket carries its full amps for hours, and a household one of 16 A about 10 A.",
            )
        said = [
            "IEC rules answered: a 30 mA device belongs before every socket that people use, and the breaker goes by its type."
        ]
        if self.lasting == "yes":
            said.append("The NEC would count a load of three hours or more for 125 % of outlet and breaker.")
        return (" ".join(said),)

    def _soft_start(self) -> Iterator[Change]:
        """A soft start suits what turns freely; a loaded motor would lack the force."""
        if self.start == UNIVERSAL:
            yield {"start": SOFT}

    def _unload(self) -> Iterator[Change]:
        if self.start == COMPRESSOR:
            yield {"start": "capacitor-start motor"}

    fixes = (
        Fix("Fit an electronic soft start", _soft_start),
        Fix("Bleed the tank or fit an unloader, so that it starts free", _unload),
        less("other_amps", 1 * A, "Take other loads on this breaker down to {other_amps}"),
        less("running", 100 * VA, "Switch other loads off, down to {running}"),
        option("running_leg", OTHER_LEG, "Move the other loads to the other leg"),
        Fix("Use a cord of {cord}", ByCord.thicker_cords, costs="heavier"),
        less("cord_length", 5 * ft, "Keep the cord to {cord_length} or less"),
        Fix("Put a breaker of {breaker} before the outlet", smaller_ratings),
        option("plug", GUARDED, "Use an adapter with a breaker of its own"),
        option("tool_volts", "240 V", "Use the 240 V version of the tool"),
    )
    cautions = (
        Caution(
            "DANGER",
            "A tool in rain or on wet ground without ground-fault protection kills",
            "A fault puts its case at mains voltage",
            "Use an outlet with a tested ground-fault device, a sound cord and dry hands",
        ),
        Caution(
            "WARNING",
            "A stalled motor or a coiled cord overheats within minutes",
            "It can burn the hand, the cord or what lies beside it",
            "If it hums and does not turn, switch off at once; uncoil the cord fully",
        ),
        Caution(
            "CAUTION",
            "A tool that restarts by itself when the volts come back injures",
            "Blades and chains move without warning",
            "Switch the tool off before you reset a breaker or an inverter",
        ),
    )
    examples = (
        Example(
            given={
                "tool_volts": "240 V",
                "plate": BY_HP,
                "motor_size": "3",
                "start": BY_LETTER,
                "code_letter": "J",
                "cord": "10 AWG",
                "cord_length": "100 ft",
                "outlet": "6-30",
                "breaker": "30",
                "fed_by": WALL,
            },
            expect={"start_current_through_cord": "98.6 A", "volts_at_start": "217.6 V", "torque_at_start": "89 %"},
            source=NEC_2023.at(
                "Table 430.7(B): letter J ends at 7.99 kVA/hp, 104.2 A at 230 V; Chapter 9, Table 8: 1.24 Ω/kft; phasors by hand"
            ),
        ),
        Example(
            given={
                "tool_volts": "240 V",
                "plate": BY_HP,
                "motor_size": "1",
                "outlet": "6-15",
                "breaker": "15",
                "start": SOFT,
            },
            expect={"running_current": "8.0 A"},
            within=0.01,
            verdict="go",
            source=NEC_2023.at("Table 430.248: 1 hp at 230 V, 8.0 A"),
        ),
        Example(
            given={
                "plate": BY_WATTS,
                "plate_watts": "1800",
                "plate_power_factor": "1",
                "cord": "14 AWG",
                "cord_length": "100 ft",
                "start": SOFT,
                "outlet": "5-15",
                "breaker": "15",
                "source_resistance": "0.005",
                "fed_by": WALL,
            },
            expect={"running_current": "16.4 A", "volts_while_running": "109.9 V"},
            within=0.01,
            verdict="no",
            source=NEC_2023.at("Chapter 9, Table 8: 14 AWG 3.07 to 3.14 Ω/kft; V² − E·V + R·P = 0 worked by hand"),
        ),
        Example(
            given={"plate_amps": "14", "start": "heater or resistive", "lasting": "yes", "socket": "blue 16 A"}
            | {"breaker": "16", "source_resistance": "0.005", "fed_by": WALL},
            expect={"running_power": "3218 VA"},
            within=0.001,
            verdict="go",
            rules=IEC,
            source=IEC_60309.at("blue 16 A: 200 to 250 V, its full current for hours; 14 A at 230 V less 0.005 Ω"),
        ),
        Example(
            given={"plate_amps": "14", "start": "heater or resistive", "lasting": "yes", "socket": "household 16 A"}
            | {"breaker": "16", "source_resistance": "0.005", "fed_by": WALL},
            verdict="no",
            rules=IEC,
            source=COMMON_PRACTICE.at("a household socket of 16 A is not loaded with more than 10 A for hours"),
        ),
        Example(
            given={
                "plate_amps": "10",
                "start": STATED,
                "start_current": "90",
                "start_time": "0.3 s",
                "socket": "blue 16 A",
            }
            | {"breaker": "16", "breaker_type": "type B", "source_resistance": "0.005", "fed_by": WALL},
            verdict="no",
            rules=IEC,
            source=IEC_60898.at("Table 7: type B opens at once from five times its rating, 80 A"),
        ),
    )
