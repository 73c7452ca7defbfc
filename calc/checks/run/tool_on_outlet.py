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
    ask,
    ask_fact,
    less,
    option,
    pick,
    pick_fact,
    require,
)
from calc.laws import breaker_trip, cord, motor, outlet, socket_iec
from calc.laws.inverter import SPLIT_PHASE
from calc.laws.outlet import FED_BY, INVERTER, WALL
from calc.laws.protection import IEC_DEVICES, NEC_BREAKERS, standard_ratings
from calc.laws.supply import LEGS, OTHER_LEG, SAME_LEG, Supply
from calc.quantity import OutsideValidity, Quantity, alternative, constant, largest, limit, need, step
from calc.sources import COMMON_PRACTICE, FROM_MEMORY, IEC_60309, IEC_60898, NEC_2023, OWN_DERIVATION
from calc.tables import table
from calc.units import VA, A, V, W, degC, ft, ohm, ohm_per_kft, one, percent, s

BY_AMPS, BY_WATTS, BY_HP = "amps", "watts", "horsepower"
BY_LETTER, STATED = "by its code letter", "amps stated or measured"
UNIVERSAL, SOFT, COMPRESSOR = (
    "universal motor: saw or grinder",
    "universal motor with soft start",
    "compressor under pressure",
)
FITS, GUARDED, PLAIN = "it fits", "through an adapter with a breaker of its own", "through a plain adapter"
NO_CORD = "none"
KINDS = table("start_current").rows
RESISTIVE = ("heater or resistive", "halogen lamps")
TURNING = tuple(kind for kind in KINDS if table("start_current").has(kind, "turning force"))
LETTERS = tuple(letter for letter in table("code_letters").rows if table("code_letters").has(letter, "to"))
CORDS = {
    NEC: (NO_CORD, "18 AWG", "16 AWG", "14 AWG", "12 AWG", "10 AWG", "8 AWG", "6 AWG"),
    IEC: (NO_CORD, *cord.sizes_iec()),
}
SOME_CORD = (*CORDS[NEC][1:], *CORDS[IEC][1:])
VOLTS = {"120 V": 120 * V, "240 V": 240 * V, "230 V": 230 * V, "110 V": 110 * V}
RATED = {"120 V": 115 * V, "240 V": 230 * V}
LOW, HIGH = ("120 V", "110 V"), ("240 V", "230 V")
ALSO = dict.fromkeys(("110", "115", "120", "125"), LOW) | dict.fromkeys(("220", "230", "240", "250"), HIGH)


class ToolOnOutlet(Check):
    """Will this tool run on this outlet?"""

    title = "Tool on an outlet"
    headline = "running_current"

    tool_volts: str = pick_fact(
        "loads.volts",
        {NEC: "120 V", IEC: "230 V"},
        {NEC: ("120 V", "240 V"), IEC: ("230 V", "110 V")},
        also=ALSO | {f"{volts} v": options for volts, options in ALSO.items()},
    )
    plate: str = pick_fact("loads.plate", BY_AMPS, {NEC: (BY_AMPS, BY_WATTS, BY_HP), IEC: (BY_AMPS, BY_WATTS)})
    plate_amps: Quantity = ask_fact(
        "I_p", "loads.amps", 13 * A, when={"plate": (BY_AMPS,)}, common=(5 * A, 10 * A, 13 * A, 15 * A)
    )
    plate_watts: Quantity = ask_fact(
        "P_p", "loads.watts", 1500 * W, when={"plate": (BY_WATTS,)}, common=(750 * W, 1500 * W, 1800 * W)
    )
    plate_power_factor: Quantity = ask_fact(
        "pf", "loads.power_factor", 0.6 * one, when={"plate": (BY_WATTS,)}, common=(0.6 * one, 0.8 * one, 1 * one)
    )
    motor_size: str = pick_fact(
        "loads.horsepower", "1", when=({"plate": (BY_HP,)}, {"start": (BY_LETTER,)}), rules=(NEC,)
    )
    start: str = pick_fact("loads.start", UNIVERSAL, {NEC: (*KINDS, BY_LETTER, STATED), IEC: (*KINDS, STATED)})
    code_letter: str = pick_fact("loads.code_letter", "K", LETTERS, when={"start": (BY_LETTER,)}, rules=(NEC,))
    start_current: Quantity = ask_fact("I_LR", "loads.start_amps", 60 * A, when={"start": (STATED,)})
    start_time: Quantity = ask_fact(
        "t_s", "loads.start_time", 1 * s, when={"start": (STATED, BY_LETTER)}, common=(0.5 * s, 1 * s, 3 * s)
    )
    standstill: Quantity = ask_fact(
        "M_l",
        "loads.standstill",
        20 * percent,
        when={"start": (*TURNING, BY_LETTER, STATED)},
        common=(20 * percent, 50 * percent, 80 * percent),
    )
    lasting: str = pick_fact("loads.lasting", "no")
    outlet: str = pick_fact("outlets.configuration", "5-20", rules=(NEC,))
    socket: str = pick_fact("outlets.socket", "blue 16 A", rules=(IEC,))
    breaker_type: str = pick(
        "Type of the breaker",
        {IEC: breaker_trip.TYPES},
        "type B",
        habit=True,
        help="The letter before its amps; type B holds a start the least",
    )
    breaker: Quantity = ask_fact("I_B", "outlets.breaker", 20 * A, common=(15 * A, 20 * A, 30 * A, 50 * A))
    other_amps: Quantity = ask_fact("I_x", "now.beside", 0 * A)
    plug: str = pick_fact("loads.plug", FITS)
    cord: str = pick_fact("loads.cord_size", NO_CORD, CORDS)
    cord_length: Quantity = ask_fact(
        "L", "loads.cord_length", 50 * ft, when={"cord": SOME_CORD}, common=(25 * ft, 50 * ft, 100 * ft)
    )
    cord_air: Quantity = ask(
        "θ_a",
        "Air around the cord",
        30 * degC,
        low=-40 * degC,
        high=54 * degC,
        habit=True,
        when={"cord": SOME_CORD},
        common=(30 * degC, 40 * degC, 50 * degC),
        help="In the sun on dark ground count 45 °C; uncoil it fully",
    )
    source_resistance: Quantity = ask(
        "R_s",
        "Resistance of the supply itself",
        0.05 * ohm,
        low=0.005 * ohm,
        high=1 * ohm,
        habit=True,
        help="0.05 Ω for an inverter or a near panel; a far outlet more",
    )
    fed_by: str = pick_fact(
        "now.plugged_into",
        INVERTER,
        (INVERTER, WALL),
        label="What feeds the outlet",
        habit=True,
        help="On pass-through the wall feeds it",
        means=FED_BY,
    )
    continuous: Quantity = ask_fact(
        "P_r", "inverter.continuous", 5000 * VA, when={"fed_by": (INVERTER,)}, common=(3000 * VA, 5000 * VA, 6000 * VA)
    )
    surge: Quantity = ask_fact("P_s", "inverter.surge", 10_000 * VA, when={"fed_by": (INVERTER,)})
    surge_time: Quantity = ask_fact(
        "t_r", "inverter.surge_time", 5 * s, when={"fed_by": (INVERTER,)}, common=(0.5 * s, 2 * s, 5 * s, 10 * s)
    )
    system: str = pick_fact("inverter.system", SPLIT_PHASE, when={"fed_by": (INVERTER,)}, rules=(NEC,))
    one_leg: str = pick_fact("inverter.one_leg", "no", when={"system": (SPLIT_PHASE,)}, rules=(NEC,))
    running: Quantity = ask_fact(
        "S_x", "now.running", 0 * VA, when={"fed_by": (INVERTER,)}, help="The sum of their volt-amperes, or watts"
    )
    running_leg: str = pick(
        "They hang on",
        LEGS,
        SAME_LEG,
        rules=(NEC,),
        habit=True,
        when={"system": (SPLIT_PHASE,)},
        help="The leg that this outlet is on, the other one, or both",
    )

    def solve(self) -> Answer:
        volts = constant("E", "Nominal volts", VOLTS[self.tool_volts], COMMON_PRACTICE)
        plate = self._plate_current(volts)
        supply = step(
            "X_s",
            "Reactance of the supply, taken as large as its resistance",
            self.source_resistance,
            ohm,
            COMMON_PRACTICE,
        )
        loop = self._loop()
        reach = self._reaches(volts, plate, loop)
        if reach.verdict == "no":
            return answer(reach, say="", plate_current=plate)
        at_tool, running = self._running(volts, plate, loop)
        rated = self._rated(volts)
        start, lasts = self._start(plate, rated)
        if (start < plate).holds:
            raise OutsideValidity(
                f"A start current of {start} is below the {plate} it runs on: look at the plate again."
            )
        load = motor.at_standstill(rated, start, self._start_power_factor())
        at_outlet = motor.start_current(
            "I_s", "Start current at the outlet", volts, load, self.source_resistance, supply
        )
        through_cord = motor.start_current("I_c", "Start current through the cord", volts, load, loop, supply)
        left = motor.volts_at_start(through_cord, load)
        torque = motor.share_of_torque(left, rated)
        return answer(
            *self._outlet(running),
            *self._cord(running),
            *self._inverter(volts, running, at_outlet, lasts),
            *motor.rides_through(at_outlet, lasts, self.breaker, self._breaker_kind()),
            self._volts_while_running(at_tool, volts),
            self._volts_while_starting(left, rated),
            *self._torque(torque),
            say=f"It runs on the {self._where()}: {running:up}, {at_outlet:up} at the start, {left} left meanwhile.",
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

    def _plate_current(self, volts: Quantity) -> Quantity:
        if self.plate == BY_HP:
            return step("I_0", "Current at full volts", motor.table_current(self.motor_size, self.tool_volts), A)
        if self.plate == BY_WATTS:
            return need("I_0", "Current at full volts", self.plate_watts / (volts * self.plate_power_factor), A)
        return step("I_0", "Current at full volts", self.plate_amps, A)

    def _loop(self) -> Quantity:
        """Resistance between a stiff source and the tool."""
        if self.cord == NO_CORD:
            return step("R", "Resistance in the way", self.source_resistance, ohm)
        if self.rules == IEC:
            r = cord.resistance_iec(self.cord)
        else:
            label = f"Resistance of {self.cord} copper at 75 °C"
            r = table("conductor_resistance").read("r", label, self.cord, "Cu stranded", ohm_per_kft)
        return step(
            "R", "Resistance in the way, cord out and back", self.source_resistance + 2 * self.cord_length * r, ohm
        )

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

    def _where(self) -> str:
        return self.outlet if self.rules == NEC else f"{self.socket} socket"

    def _breaker_kind(self) -> str:
        return breaker_trip.US if self.rules == NEC else self.breaker_type

    def _outlet(self, running: Quantity) -> list[Requirement]:
        current = step("I_all", "Current with what else is on the breaker", running + self.other_amps, A)
        if self.rules == IEC:
            return [
                socket_iec.gives_volts(self.socket, self.tool_volts),
                socket_iec.breaker_before(self.socket, self.breaker),
                socket_iec.carries(self.socket, self.breaker, current, self.lasting == "yes"),
                *self._adapter(),
            ]
        rating = outlet.rating_of(self.outlet)
        return [
            outlet.gives_volts(self.outlet, self.tool_volts),
            outlet.has_ground(self.outlet),
            outlet.breaker_before(self.outlet, self.breaker, rating),
            outlet.carries(self.outlet, rating, self.breaker, current, self.lasting == "yes"),
            *self._adapter(),
        ]

    def _adapter(self) -> list[Requirement]:
        """A plain adapter leaves a small plug and its cord behind a large breaker."""
        if self.plug != PLAIN:
            return []
        if self.rules == NEC:
            most = constant("I_ad", "Largest breaker before a 15 or 20 A plug", 20 * A, NEC_2023.at("210.21(B)(3)"))
        else:
            most = constant("I_ad", "Largest breaker before a 16 A plug", 16 * A, COMMON_PRACTICE)
        no = "Behind a plain adapter the tool's cord hangs on the {left} breaker, which never feels a fault in it; {right} is the most."
        return [require(self.breaker <= most, label="Adapter", exact=True, yes="The breaker suits the plug.", no=no)]

    def _cord_carries(self) -> Quantity:
        if self.rules == IEC:
            return cord.ampacity_iec(self.cord, self.cord_air, cord.UNCOILED)
        return cord.ampacity(self.cord, cord.TWO, "60 °C", self.cord_air, cord.UNCOILED)

    def _cord(self, running: Quantity) -> list[Requirement]:
        if self.cord == NO_CORD:
            return []
        carries = self._cord_carries()
        rests = [
            require(
                running <= carries,
                label="Cord",
                yes="The cord carries it.",
                tight=f"A cord of {self.cord} carries {{right}}; the tool takes {{left}}. Uncoil it.",
                no=f"A cord of {self.cord} carries {{right}}; the tool takes {{left}}: it overheats.",
            )
        ]
        if self.rules == NEC:
            place = NEC_2023.at("240.5(B)", FROM_MEMORY)
            small = constant("I_small", "Circuits on which a cord of any size may hang", 20 * A, place)
            guard, guarded = self.breaker, (self.breaker <= small).holds
        else:
            guard, guarded = socket_iec.guards_the_cord(self.socket, self.breaker), False
        if not guarded:
            rests.append(
                require(
                    guard <= carries,
                    label="Breaker protects the cord",
                    exact=True,
                    yes="The breaker protects the cord.",
                    no=f"A cord of {self.cord} carries {{right}}, and nothing opens below {{left}}: a fault burns the cord.",
                )
            )
        return rests

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

    def _rated(self, volts: Quantity) -> Quantity:
        """The volts that the start current belongs to: motors are stamped and listed for 115 or 230 V."""
        if self.start == BY_LETTER or self.plate == BY_HP:
            label = "Volts that a motor's letter and table belong to"
            return constant("V_n", label, RATED[self.tool_volts], NEC_2023.at("430.7(B)"))
        return alternative("V_n", "Volts that the start current belongs to", volts, "the nominal volts", V)

    def _start(self, plate: Quantity, rated: Quantity) -> tuple[Quantity, Quantity]:
        if self.start == STATED:
            return self.start_current, self.start_time
        if self.start == BY_LETTER:
            return motor.locked_rotor_current(self.motor_size, self.code_letter, rated), self.start_time
        return motor.start_by_kind(self.start, plate), motor.start_seconds(self.start)

    def _start_power_factor(self) -> Quantity:
        kind = self.start if self.start in KINDS else "capacitor-start motor"
        return table("start_current").read("pf_s", "Power factor at the start", kind, "power factor", one)

    def _share(self, symbol: str, per_cent: int) -> Quantity:
        return constant(symbol, "Share of the plate's volts wanted", per_cent * percent, COMMON_PRACTICE)

    def _inverter(self, volts: Quantity, running: Quantity, flows: Quantity, lasts: Quantity) -> list[Requirement]:
        if self.fed_by == WALL:
            return []
        supply = (
            Supply(self.system, self.one_leg, self.continuous, self.running, self.running_leg)
            if self.rules == NEC
            else Supply("230 V", "no", self.continuous, self.running, SAME_LEG)
        )
        return [
            supply.gives_volts(self.tool_volts),
            *supply.carries(volts * running, self.tool_volts),
            *supply.starts(volts * flows, self.tool_volts, self.surge, lasts, self.surge_time),
        ]

    def _volts_while_starting(self, left: Quantity, rated: Quantity) -> Requirement:
        return require(
            left >= self._share("d_start", 80) * rated,
            comfortable=left >= self._share("d_good", 90) * rated,
            label="Volts while it starts",
            yes="The volts hold.",
            tight="The volts fall to {left} while it starts; other electronics may notice.",
            no="The volts fall to {left} while it starts; under {right} it may stall and burn.",
        )

    def _torque(self, torque: Quantity) -> list[Requirement]:
        if not self.asked("standstill"):
            return []
        wanted = self.standstill
        if self.start in TURNING:
            least = table("start_current").read(
                "M_t", f"Turning force that it certainly needs: {self.start}", self.start, "turning force", percent
            )
            wanted = need("M_n", "Turning force it needs", largest(self.standstill, least), percent)
        no = "At these volts it has {left} of its turning force and needs {right}: it hums and does not turn."
        return [require(torque >= wanted, label="Turning force", exact=True, yes="It turns.", no=no)]

    def _thicker_cords(self) -> Iterator[Change]:
        """The next thicker cord, where there is one at all."""
        if self.cord != NO_CORD:
            sizes = CORDS[self.rules]
            for size in sizes[sizes.index(self.cord) + 1 :]:
                yield {"cord": size}

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

    def _smaller_breakers(self) -> Iterator[Change]:
        """The standard ratings below the one that is there."""
        for rating in reversed(standard_ratings(NEC_BREAKERS if self.rules == NEC else IEC_DEVICES)):
            if (rating < self.breaker).holds and (rating >= self.asks["breaker"].low).holds:  # type: ignore[union-attr]
                yield {"breaker": rating}

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
        Fix("Use a cord of {cord}", _thicker_cords, costs="heavier"),
        less("cord_length", 5 * ft, "Keep the cord to {cord_length} or less"),
        Fix("Put a breaker of {breaker} before the outlet", _smaller_breakers),
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
