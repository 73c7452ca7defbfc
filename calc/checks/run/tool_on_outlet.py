"""The page /run/tool-on-outlet/: running, starting, and the volts left meanwhile, against everything in its way.

Outlet, breaker, cord, inverter, one leg of it, its surge and the surge's seconds: the weakest of them answers.
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
from calc.laws import motor
from calc.laws.inverter import SPLIT_PHASE, SYSTEMS, limit_of_one_leg, offers
from calc.quantity import Quantity, Statement, alternative, constant, limit, need, smallest, step
from calc.sources import COMMON_PRACTICE, NEC_2023, OWN_DERIVATION
from calc.tables import table
from calc.units import VA, A, V, W, ft, ohm, ohm_per_kft, one, percent, s

INVERTER, WALL = "the rig's inverter", "a wall outlet"
BY_AMPS, BY_WATTS, BY_HP = "amps", "watts", "horsepower"
BY_LETTER, STATED = "by its code letter", "amps stated or measured"
SAME_LEG, OTHER_LEG = "the same leg, or not known", "the other leg"
NO_CORD = "none"
KINDS = table("start_current").rows
MOTORS = tuple(
    kind for kind in KINDS if kind not in ("heater or resistive", "halogen lamps", "transformer machine")
) + (BY_LETTER,)
LETTERS = tuple(letter for letter in table("code_letters").rows if table("code_letters").has(letter, "to"))
CORDS = (
    NO_CORD,
    *(size for size in table("flexible_cord").rows if int(size.split()[0]) % 2 == 0 and int(size.split()[0]) >= 6),
)
VOLTS = {"120 V": 120 * V, "240 V": 240 * V}
RATED = {"120 V": 115 * V, "240 V": 230 * V}


class ToolOnOutlet(Check):
    """Will this tool run on this outlet?"""

    title = "Tool on an outlet"
    headline = "running_current"
    rule_sets = (NEC,)

    tool_volts: str = pick(
        "Volts on the tool's plate",
        ("120 V", "240 V"),
        "120 V",
        fact="loads.volts",
        help="115 and 110 count as 120, 230 and 220 as 240",
    )
    plate: str = pick(
        "What its plate says",
        (BY_AMPS, BY_WATTS, BY_HP),
        BY_AMPS,
        fact="loads.plate",
        help="Amps are best; horsepower is read in the motor table",
    )
    plate_amps: Quantity = ask(
        "I_p",
        "Amps on the plate",
        13 * A,
        low=0.1 * A,
        high=100 * A,
        fact="loads.amps",
        when={"plate": (BY_AMPS,)},
        common=(5 * A, 10 * A, 13 * A, 15 * A),
        help="Beside the volts",
    )
    plate_watts: Quantity = ask(
        "P_p",
        "Watts on the plate",
        1500 * W,
        low=10 * W,
        high=15_000 * W,
        fact="loads.watts",
        when={"plate": (BY_WATTS,)},
        common=(750 * W, 1500 * W, 1800 * W),
        help="What it takes in, not what it gives",
    )
    plate_power_factor: Quantity = ask(
        "pf_p",
        "Power factor",
        0.6 * one,
        low=0.4 * one,
        high=1 * one,
        when={"plate": (BY_WATTS,)},
        common=(0.6 * one, 0.8 * one, 1 * one),
        help="1 for a heater; 0.6 to 0.9 for a motor; about 0.65 for a welder without correction",
    )
    motor_size: str = pick(
        "Horsepower on the plate",
        table("motor_current").rows,
        "1",
        fact="loads.horsepower",
        when=({"plate": (BY_HP,)}, {"start": (BY_LETTER,)}),
        help="Not the peak or developed horsepower of an advertisement",
    )
    start: str = pick(
        "How it starts",
        (*KINDS, BY_LETTER, STATED),
        "universal motor: saw or grinder",
        fact="loads.start",
        help="What kind of load it is; a code letter on the plate says more",
    )
    code_letter: str = pick(
        "Code letter",
        LETTERS,
        "K",
        when={"start": (BY_LETTER,)},
        help="On the plate, beside CODE or KVA CODE; not the design letter",
    )
    start_current: Quantity = ask(
        "I_LR",
        "Start current",
        60 * A,
        low=0.1 * A,
        high=600 * A,
        fact="loads.start_amps",
        when={"start": (STATED,)},
        help="LRA on the plate, or the peak of a clamp meter that holds it",
    )
    start_time: Quantity = ask(
        "t_s",
        "Seconds until it has run up",
        1 * s,
        low=0.01 * s,
        high=30 * s,
        fact="loads.start_time",
        when={"start": (STATED, BY_LETTER)},
        common=(0.5 * s, 1 * s, 3 * s),
        help="By ear, with a watch",
    )
    standstill: Quantity = ask(
        "M_l",
        "Turning force it needs to start, of what it has at full volts",
        20 * percent,
        low=5 * percent,
        high=100 * percent,
        when={"start": (*MOTORS, STATED)},
        common=(20 * percent, 50 * percent, 80 * percent),
        fact="loads.standstill",
        help="20 % when it turns freely; toward 100 % for a compressor with a full tank",
    )
    lasting: str = pick(
        "Does it run three hours or more at a time?", ("no", "yes"), "no", help="Chargers, heaters, pumps: yes"
    )
    outlet: str = pick(
        "The outlet", table("outlets").rows, "5-20", fact="outlets.configuration", help="By the pattern of its slots"
    )
    breaker: Quantity = ask(
        "I_B",
        "Breaker of the outlet",
        20 * A,
        low=10 * A,
        high=100 * A,
        fact="outlets.breaker",
        common=(15 * A, 20 * A, 30 * A, 50 * A),
        help="The number on its handle",
    )
    other_amps: Quantity = ask(
        "I_x",
        "Other loads on the same breaker",
        0 * A,
        low=0 * A,
        high=100 * A,
        fact="now.beside",
        help="What else is plugged in behind it and running",
    )
    cord: str = pick("Extension cord", CORDS, NO_CORD, help="The size printed on its jacket")
    cord_length: Quantity = ask(
        "L",
        "Length of the cord, all cords in line",
        50 * ft,
        low=3 * ft,
        high=300 * ft,
        when={"cord": CORDS[1:]},
        common=(25 * ft, 50 * ft, 100 * ft),
        help="Add the lengths when one is plugged into the next",
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
    fed_by: str = pick("What feeds the outlet", (INVERTER, WALL), INVERTER, help="On pass-through the wall feeds it")
    continuous: Quantity = ask(
        "P_r",
        "Inverter's continuous rating here",
        5000 * VA,
        low=100 * VA,
        high=30_000 * VA,
        fact="inverter.continuous",
        when={"fed_by": (INVERTER,)},
        common=(3000 * VA, 5000 * VA, 6000 * VA),
        help="On its plate, less what heat and altitude take off",
    )
    surge: Quantity = ask(
        "P_s",
        "Inverter's surge rating",
        10_000 * VA,
        low=100 * VA,
        high=90_000 * VA,
        fact="inverter.surge",
        when={"fed_by": (INVERTER,)},
        help="In its manual: peak or surge output",
    )
    surge_time: Quantity = ask(
        "t_r",
        "How long the surge lasts",
        5 * s,
        low=0.005 * s,
        high=120 * s,
        fact="inverter.surge_time",
        when={"fed_by": (INVERTER,)},
        common=(0.5 * s, 2 * s, 5 * s, 10 * s),
        help="In its manual, beside the surge",
    )
    system: str = pick(
        "Inverter's output",
        tuple(SYSTEMS),
        SPLIT_PHASE,
        fact="inverter.system",
        when={"fed_by": (INVERTER,)},
        help="On its plate: output volts",
    )
    one_leg: str = pick(
        "Full power on one leg?",
        ("no", "yes"),
        "no",
        fact="inverter.one_leg",
        when={"system": (SPLIT_PHASE,)},
        help="No unless its manual says so",
    )
    running: Quantity = ask(
        "S_x",
        "Other loads running on the inverter",
        0 * VA,
        low=0 * VA,
        high=20_000 * VA,
        fact="now.running",
        when={"fed_by": (INVERTER,)},
        help="The sum of their volt-amperes, or watts",
    )
    running_leg: str = pick(
        "They hang on",
        (SAME_LEG, OTHER_LEG),
        SAME_LEG,
        habit=True,
        when={"system": (SPLIT_PHASE,), "tool_volts": ("120 V",)},
        help="The leg that this outlet is not on",
    )

    def solve(self) -> Answer:
        volts = constant("E", "Nominal volts", VOLTS[self.tool_volts], COMMON_PRACTICE)
        plate = self._plate_current(volts)
        loop, reactance = self._in_the_way()
        power = step("P", "Power at the plate, held when the volts fall", volts * plate, VA, OWN_DERIVATION)
        room = require(
            power <= motor.most_power_through(volts, loop),
            label="Reach",
            exact=True,
            yes="The cord reaches.",
            no="No voltage carries {left} through so long a cord; {right} is the most.",
        )
        if room.verdict == "no":
            return answer(room, say="", running_current=plate)
        at_tool = motor.volts_at_constant_power(volts, loop, power)
        running = need("I_r", "Current while it runs", power / at_tool, A, OWN_DERIVATION)
        rated = self._rated(volts)
        start, start_time = self._start(plate, rated)
        flows, left = motor.start_through(volts, rated, start, self._start_power_factor(), loop, reactance)
        torque = motor.share_of_torque(left, rated)
        return answer(
            *self._outlet(running),
            *self._cord(running),
            *self._inverter(volts, running, flows, start_time),
            require(
                at_tool >= self._share("d_run", 90) * volts,
                comfortable=at_tool >= self._share("d_easy", 95) * volts,
                label="Volts while it runs",
                yes="The volts hold.",
                tight="The tool gets {left} while it runs; it may run hot.",
                no="The tool gets only {left} while it runs: it overheats. It should have {right}.",
            ),
            require(
                left >= self._share("d_start", 80) * rated,
                comfortable=left >= self._share("d_good", 90) * rated,
                label="Volts while it starts",
                yes="The volts hold.",
                tight="The volts fall to {left} while it starts; other electronics may notice.",
                no="The volts fall to {left} while it starts; under {right} it may stall and burn.",
            ),
            *self._torque(torque),
            self._rides_through(flows),
            say=f"It runs: {running:up} on a {self.outlet}, {flows:up} at the start, {left} left meanwhile.",
            running_current=running,
            running_power=motor.apparent_power("S_r", "Apparent power while it runs", volts, running),
            start_current=flows,
            start_power=motor.apparent_power("S_s", "Apparent power at the start", volts, flows),
            start_time=start_time,
            volts_while_running=at_tool,
            volts_at_start=left,
            torque_at_start=torque,
        )

    def _plate_current(self, volts: Quantity) -> Quantity:
        if self.plate == BY_HP:
            return step("I_0", "Current at full volts", motor.table_current(self.motor_size, self.tool_volts), A)
        if self.plate == BY_WATTS:
            return need("I_0", "Current at full volts", self.plate_watts / (volts * self.plate_power_factor), A)
        return step("I_0", "Current at full volts", self.plate_amps, A)

    def _rated(self, volts: Quantity) -> Quantity:
        """The volts that the start current belongs to: a code letter is stamped for 115 or 230 V."""
        if self.start == BY_LETTER:
            return constant(
                "V_n", "Volts that a motor's code letter belongs to", RATED[self.tool_volts], NEC_2023.at("430.7(B)")
            )
        return alternative("V_n", "Volts that the start current belongs to", volts, "the nominal volts", V)

    def _in_the_way(self) -> tuple[Quantity, Quantity]:
        """Resistance and reactance between a stiff source and the tool."""
        supply = step(
            "X_s",
            "Reactance of the supply, taken as large as its resistance",
            self.source_resistance,
            ohm,
            COMMON_PRACTICE,
        )
        if self.cord == NO_CORD:
            return step("R", "Resistance in the way", self.source_resistance, ohm), step(
                "X", "Reactance in the way", supply, ohm
            )
        r = table("conductor_resistance").read(
            "r", f"Resistance of {self.cord} copper at 75 °C", self.cord, "Cu stranded", ohm_per_kft
        )
        loop = step(
            "R", "Resistance in the way, cord out and back", self.source_resistance + 2 * self.cord_length * r, ohm
        )
        return loop, step("X", "Reactance in the way; a cord's own is too small to count", supply, ohm)

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

    def _outlet(self, running: Quantity) -> tuple[Requirement, ...]:
        listed = table("outlets")
        gives = self.tool_volts.removesuffix(" V") in (listed.text(self.outlet, "volts"), self._to_neutral())
        rating = listed.read("I_out", f"Rating of a {self.outlet}", self.outlet, "amps", A)
        total = running + self.other_amps
        if self.lasting == "yes":
            factor = constant(
                "k_c", "A load of three hours or more counts for", 1.25 * one, NEC_2023.at("210.20(A), 210.23")
            )
            asked = need("I_need", "Current asked of outlet and breaker", factor * total, A)
        else:
            asked = need("I_need", "Current asked of outlet and breaker", total, A)
        weaker = limit("I_lim", "The lower of outlet and breaker", smallest(rating, self.breaker), A)
        return (
            require(
                Statement(f"A {self.outlet} {'gives' if gives else 'has no'} {self.tool_volts}", gives, listed.source),
                label="Volts",
                yes="The outlet gives these volts.",
                no=f"A {self.outlet} has no {self.tool_volts}: it gives {self._given_volts()}.",
            ),
            require(
                self.breaker <= self._largest_breaker(rating),
                label="Breaker before the outlet",
                exact=True,
                yes="The breaker suits the outlet.",
                no=f"A {{left}} breaker is too large for a {self.outlet}; at most {{right}}. The outlet would burn before it opens.",
            ),
            require(
                asked <= weaker,
                label="Outlet",
                yes="The outlet carries it.",
                tight=f"It asks {{left}} of a {self.outlet} and its breaker, which give {{right}}.",
                no=f"It asks {{left}} of a {self.outlet} and its breaker, which give {{right}}.",
            ),
        )

    def _to_neutral(self) -> str:
        listed = table("outlets")
        return listed.text(self.outlet, "volts to neutral") if listed.has(self.outlet, "volts to neutral") else ""

    def _given_volts(self) -> str:
        return " and ".join(
            f"{volts} V"
            for volts in dict.fromkeys((table("outlets").text(self.outlet, "volts"), self._to_neutral()))
            if volts
        )

    def _largest_breaker(self, rating: Quantity) -> Quantity:
        """A 15 A outlet may sit on a 20 A circuit; every other one on a circuit of its own rating or less."""
        if self.outlet.endswith("-15"):
            return table("outlet_on_circuit").read("I_cir", "Largest circuit for a 15 A outlet", "20", "most", A)
        return alternative(
            "I_cir",
            f"Largest circuit for a {self.outlet}",
            rating,
            "a circuit of its own rating at most",
            A,
            NEC_2023.at("210.21(B)"),
        )

    def _cord(self, running: Quantity) -> tuple[Requirement, ...]:
        if self.cord == NO_CORD:
            return ()
        carries = table("flexible_cord").read(
            "I_cord", f"Ampacity of a {self.cord} cord, two carrying", self.cord, "two carrying"
        )
        return (
            require(
                running <= carries,
                label="Cord",
                yes="The cord carries it.",
                tight=f"A {self.cord} cord carries {{right}}; the tool takes {{left}}. Uncoil it.",
                no=f"A {self.cord} cord carries {{right}}; the tool takes {{left}}.",
            ),
        )

    def _inverter(
        self, volts: Quantity, running: Quantity, flows: Quantity, start_time: Quantity
    ) -> tuple[Requirement, ...]:
        if self.fed_by == WALL:
            return ()
        runs = need("S_1", "Inverter's load while it runs", volts * running + self.running, VA)
        starts = need("S_2", "Inverter's load at the start", volts * flows + self.running, VA)
        rests = [
            require(
                offers(self.system, self.tool_volts),
                label="Inverter's volts",
                yes="The inverter gives these volts.",
                no=f"The inverter gives {self.system}, not {self.tool_volts}.",
            ),
            require(
                runs <= self.continuous,
                label="Inverter while it runs",
                yes="The inverter carries it.",
                tight="The inverter is asked for {left} of its {right}.",
                no="The inverter is asked for {left} while it runs; it gives {right}.",
            ),
            require(
                starts <= self.surge,
                label="Inverter at the start",
                yes="The surge holds.",
                tight="The start asks {left} of the inverter's {right} surge: it may trip.",
                no="The start asks {left}; the inverter's surge is {right}: it trips.",
            ),
        ]
        if (starts > self.continuous).holds:
            rests.append(
                require(
                    start_time <= self.surge_time,
                    label="Seconds of the surge",
                    yes="The surge lasts.",
                    tight="The start lasts {left}, the surge {right}.",
                    no="The start lasts {left}; the inverter holds its surge for {right} only.",
                )
            )
        if self.system == SPLIT_PHASE and self.tool_volts == "120 V":
            rests += self._leg(volts, running, flows)
        return tuple(rests)

    def _leg(self, volts: Quantity, running: Quantity, flows: Quantity) -> list[Requirement]:
        none = constant("S_y", "Other loads on this leg", 0 * VA, OWN_DERIVATION)
        beside = (
            alternative(
                "S_l", "Other loads held against this leg", self.running, "on the same leg, or not known which", VA
            )
            if self.running_leg == SAME_LEG
            else none
        )
        leg = limit_of_one_leg(self.continuous, self.one_leg, "P_1", "Most that one leg may give for long")
        leg_surge = limit_of_one_leg(self.surge, self.one_leg, "P_2", "Most that one leg may give at a start")
        runs = need("S_3", "Load of the leg while it runs", volts * running + beside, VA)
        starts = need("S_4", "Load of the leg at the start", volts * flows + beside, VA)
        return [
            require(
                runs <= leg,
                label="One leg while it runs",
                yes="One leg carries it.",
                tight="One leg is asked for {left} of its {right}.",
                no="One 120 V leg is asked for {left}; it gives {right}, whatever the two give together.",
            ),
            require(
                starts <= leg_surge,
                label="One leg at the start",
                yes="One leg starts it.",
                tight="The start asks {left} of one leg's {right}.",
                no="The start asks {left} of one 120 V leg; its surge is {right}: the inverter trips.",
            ),
        ]

    def _torque(self, torque: Quantity) -> tuple[Requirement, ...]:
        if not self.asked("standstill"):
            return ()
        return (
            require(
                torque >= self.standstill,
                label="Turning force",
                exact=True,
                yes="It turns.",
                no="At these volts it has {left} of its turning force and needs {right}: it hums and does not turn.",
            ),
        )

    def _rides_through(self, flows: Quantity) -> Requirement:
        surely = constant(
            "k_hold", "Times its rating that a breaker surely holds for a moment", 5 * one, COMMON_PRACTICE
        )
        perhaps = constant("k_trip", "Times its rating at which it opens at once", 10 * one, COMMON_PRACTICE)
        return require(
            flows <= perhaps * self.breaker,
            comfortable=flows <= surely * self.breaker,
            label="Breaker at the start",
            yes="The breaker holds.",
            tight="The start of {left} may trip the breaker now and then.",
            no="The start of {left} trips the breaker at once; it holds up to {right}.",
        )

    fixes = (
        option("start", "electronic soft start", "Fit an electronic soft start"),
        less("other_amps", 1 * A, "Take other loads on this breaker down to {other_amps}"),
        less("running", 100 * VA, "Switch other loads off, down to {running}"),
        option("running_leg", OTHER_LEG, "Move the other loads to the other leg"),
        next_option("cord", "Use a {cord} cord", costs="heavier"),
        less("cord_length", 5 * ft, "Keep the cord to {cord_length} or less"),
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
            expect={"start_current": "98.6 A", "volts_at_start": "217.6 V", "torque_at_start": "89 %"},
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
                "start": "electronic soft start",
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
                "start": "heater or resistive",
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
    )
