"""A tool, as its pages ask of it: what its plate says, how it starts, and the cord to it."""

from __future__ import annotations

from collections.abc import Iterator

from calc.check import IEC, NEC, Change, Requirement, ask, ask_fact, pick_fact, require
from calc.laws import cord, motor, socket_iec
from calc.quantity import Quantity, alternative, constant, largest, need, step
from calc.sources import FROM_MEMORY, NEC_2023
from calc.tables import table
from calc.units import A, V, W, degC, ft, ohm, ohm_per_kft, one, percent, s

BY_AMPS, BY_WATTS, BY_HP = "amps", "watts", "horsepower"
BY_LETTER, STATED = "by its code letter", "amps stated or measured"
UNIVERSAL, SOFT, COMPRESSOR = (
    "universal motor: saw or grinder",
    "universal motor with soft start",
    "compressor under pressure",
)
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


class Tool:
    """What its plate says, and how it starts."""

    rules: str
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

    def plate_current(self, volts: Quantity) -> Quantity:
        if self.plate == BY_HP:
            return step("I_0", "Current at full volts", motor.table_current(self.motor_size, self.tool_volts), A)
        if self.plate == BY_WATTS:
            return need("I_0", "Current at full volts", self.plate_watts / (volts * self.plate_power_factor), A)
        return step("I_0", "Current at full volts", self.plate_amps, A)

    def rated(self, volts: Quantity) -> Quantity:
        """The volts that the start current belongs to: motors are stamped and listed for 115 or 230 V."""
        if self.start == BY_LETTER or self.plate == BY_HP:
            label = "Volts that a motor's letter and table belong to"
            return constant("V_n", label, RATED[self.tool_volts], NEC_2023.at("430.7(B)"))
        return alternative("V_n", "Volts that the start current belongs to", volts, "the nominal volts", V)

    def starts(self, plate: Quantity, rated: Quantity) -> tuple[Quantity, Quantity]:
        if self.start == STATED:
            return self.start_current, self.start_time
        if self.start == BY_LETTER:
            return motor.locked_rotor_current(self.motor_size, self.code_letter, rated), self.start_time
        return motor.start_by_kind(self.start, plate), motor.start_seconds(self.start)

    def start_power_factor(self) -> Quantity:
        kind = self.start if self.start in KINDS else "capacitor-start motor"
        return table("start_current").read("pf_s", "Power factor at the start", kind, "power factor", one)

    def turns(self, torque: Quantity) -> Requirement:
        wanted = self.standstill
        if self.start in TURNING:
            least = table("start_current").read(
                "M_t", f"Turning force that it certainly needs: {self.start}", self.start, "turning force", percent
            )
            wanted = need("M_n", "Turning force it needs", largest(self.standstill, least), percent)
        no = "At these volts it has {left} of its turning force and needs {right}: it hums and does not turn."
        return require(torque >= wanted, label="Turning force", exact=True, yes="It turns.", no=no)


class ByCord:
    """The cord between outlet and tool, and what lies before the outlet."""

    rules: str
    socket: str
    breaker: Quantity
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

    def loop(self) -> Quantity:
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

    def cord_carries(self) -> Quantity:
        if self.rules == IEC:
            return cord.ampacity_iec(self.cord, self.cord_air, cord.UNCOILED)
        return cord.ampacity(self.cord, cord.TWO, "60 °C", self.cord_air, cord.UNCOILED)

    def through_the_cord(self, running: Quantity) -> list[Requirement]:
        if self.cord == NO_CORD:
            return []
        carries = self.cord_carries()
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

    def thicker_cords(self) -> Iterator[Change]:
        """The next thicker cord, where there is one at all."""
        if self.cord != NO_CORD:
            sizes = CORDS[self.rules]
            for size in sizes[sizes.index(self.cord) + 1 :]:
                yield {"cord": size}
