"""The page /wire/extension-cord/: amps and volts at the end of a cord, on the ground or on a drum, one cord or several."""

from __future__ import annotations

from calc.check import (
    IEC,
    NEC,
    Answer,
    Caution,
    Check,
    Example,
    Requirement,
    answer,
    ask,
    ask_fact,
    less,
    next_option,
    option,
    pick,
    pick_fact,
    require,
)
from calc.laws import conductor as us
from calc.laws import cord as law
from calc.laws import motor
from calc.laws.outlet import continuous_factor
from calc.quantity import Quantity, Statement, alternative, constant, largest, limit, need, smallest, step
from calc.sources import BS_7671, COMMON_PRACTICE, NEC_2023, OWN_DERIVATION
from calc.tables import table
from calc.units import A, V, W, cmil, degC, ft, ohm, one, percent

BY_AMPS, BY_WATTS, BY_HP = "amps", "watts", "horsepower"
_VOLTS = {"120 V": 120 * V, "240 V": 240 * V, "230 V": 230 * V}
_SMALL_CIRCUIT = 20 * A


class ExtensionCord(Check):
    """Will this extension cord do?"""

    title = "Extension cord"
    headline = "allowed_current"
    about = {"loads.cord_size": (*law.sizes(), *law.sizes_iec())}

    cord: str = pick_fact("loads.cord_size", {NEC: "12 AWG", IEC: "2.5 mm2"}, {NEC: law.sizes(), IEC: law.sizes_iec()})
    cord_length: Quantity = ask_fact("L", "loads.cord_length", 50 * ft, common=(25 * ft, 50 * ft, 100 * ft))
    cords: Quantity = ask(
        "n_c",
        "Cords in line",
        1 * one,
        low=1 * one,
        high=5 * one,
        whole=True,
        habit=True,
        help="Count them; each joint is a resistance",
    )
    lies: str = pick("How it lies", law.drums(), law.UNCOILED, habit=True, help="On a drum each layer warms the next")
    carrying: str = pick(
        "Wires in it that carry current",
        {NEC: law.CARRYING},
        law.TWO,
        habit=True,
        help="Two in a three-wire 120 V cord: the ground does not count",
    )
    rated: str = pick(
        "Rating of its jacket",
        {NEC: ("60 °C", "75 °C", "90 °C")},
        "60 °C",
        habit=True,
        help="60 °C where nothing is printed",
    )
    air: Quantity = ask(
        "θ_a",
        "Air around the cord",
        30 * degC,
        low=-40 * degC,
        high=54 * degC,
        habit=True,
        common=(30 * degC, 40 * degC, 50 * degC),
        help="In the sun on dark ground count 45 °C",
    )
    plug: Quantity = ask(
        "I_plug",
        "Rating of its plug and sockets",
        15 * A,
        low=5 * A,
        high=125 * A,
        habit=True,
        common=(15 * A, 16 * A, 20 * A, 30 * A),
        help="On the face of the plug; the least of all in line",
    )
    breaker: Quantity = ask_fact("I_B", "outlets.breaker", 20 * A, common=(15 * A, 20 * A, 30 * A, 50 * A))
    tool_volts: str = pick_fact("loads.volts", "120 V", ("120 V", "240 V"), rules=(NEC,))
    plate: str = pick_fact("loads.plate", BY_AMPS)
    plate_amps: Quantity = ask_fact(
        "I_p", "loads.amps", 13 * A, when={"plate": (BY_AMPS,)}, common=(5 * A, 10 * A, 13 * A, 15 * A)
    )
    plate_watts: Quantity = ask_fact(
        "P_p",
        "loads.watts",
        1500 * W,
        when={"plate": (BY_WATTS,)},
        common=(750 * W, 1500 * W, 1800 * W),
        help="What it takes in; electronic tools hold it when the volts fall, and draw more amps",
    )
    power_factor: Quantity = ask_fact(
        "pf", "loads.power_factor", 1 * one, when={"plate": (BY_WATTS,)}, common=(0.6 * one, 0.8 * one, 1 * one)
    )
    motor_size: str = pick_fact(
        "loads.horsepower", "1", when={"plate": (BY_HP,)}, help="Read in the motor table, which is on the safe side"
    )
    lasting: str = pick(
        "Does it run three hours or more at a time?",
        ("no", "yes"),
        "no",
        habit=True,
        help="Chargers, heaters, pumps: yes",
        rules=(NEC,),
    )
    wanted_drop: Quantity = ask(
        "d_go",
        "Loss you would like to stay under",
        3 * percent,
        low=0.5 * percent,
        high=10 * percent,
        habit=True,
        help="3 % leaves a motor its force",
    )
    most_drop: Quantity = ask(
        "d_max",
        "Most you would accept",
        5 * percent,
        low=0.5 * percent,
        high=15 * percent,
        habit=True,
        help="5 % for tools; IEC allows 8 % in all from a supply of your own",
    )

    def solve(self) -> Answer:
        volts = constant("E", "Nominal volts", _VOLTS[self._volts()], COMMON_PRACTICE)
        r = law.resistance(self.cord) if self.rules == NEC else law.resistance_iec(self.cord)
        joints = law.joints(self.cords)
        loop = step(
            "R", "Resistance in the way, cord out and back, joints and all", 2 * self.cord_length * r + joints, ohm
        )
        carries = self._carries()
        if self.plate != BY_WATTS:
            current = need("I", "Current in the cord", self._plate_current(), A)
            lost = need("ΔV", "Volts lost on the cord", current * loop, V)
            at_tool = limit("V_t", "Volts at the tool", largest(volts - lost, 0 * V), V)
            reach = need("R_max", "Resistance that loses the most you accept", self.most_drop * volts / current, ohm)
        else:
            apparent = step(
                "S", "Apparent power on the plate, held when the volts fall", self.plate_watts / self.power_factor, W
            )
            room = require(
                apparent <= motor.most_power_through(volts, loop),
                label="Reach",
                exact=True,
                yes="The cord reaches.",
                no="No voltage carries {left} through so long a cord; {right} is the most.",
            )
            if room.verdict == "no":
                return answer(room, say="", allowed_current=self._allowed(carries))
            at_tool = motor.volts_at_constant_power(volts, loop, apparent)
            current = need("I", "Current in the cord", apparent / at_tool, A, OWN_DERIVATION)
            left = step("V_e", "Volts left where the most you accept is lost", (1 - self.most_drop) * volts, V)
            reach = step(
                "R_max", "Resistance that loses the most you accept", self.most_drop * volts * left / apparent, ohm
            )
            lost = need("ΔV", "Volts lost on the cord", current * loop, V)
        return answer(
            require(
                current <= carries,
                label="Cord",
                yes="The cord carries it.",
                tight=f"A cord of {self.cord} as it lies carries {{right}}; the tool takes {{left}}.",
                no=f"A cord of {self.cord} as it lies carries {{right}}; the tool takes {{left}}: it overheats where nobody looks.",
            ),
            self._plug_and_breaker(current),
            *self._protected(carries),
            self._drop(us.share_lost(lost, volts)),
            *self._practice(current),
            say=f"It does: {current:up} through {self.cord}, {at_tool} at the tool.",
            notes=self._naive(current),
            allowed_current=self._allowed(carries),
            current=current,
            volts_lost=lost,
            volts_at_tool=at_tool,
            longest_cord=limit(
                "L_max", f"Longest cord for {self.most_drop} lost", largest((reach - joints) / (2 * r), 0 * ft), ft
            ),
        )

    def _volts(self) -> str:
        return self.tool_volts if self.rules == NEC else "230 V"

    def _plate_current(self) -> Quantity:
        if self.plate == BY_HP:
            return motor.table_current(self.motor_size, "240 V" if self.rules == IEC else self.tool_volts)
        return self.plate_amps

    def _carries(self) -> Quantity:
        if self.rules == IEC:
            return law.ampacity_iec(self.cord, self.air, self.lies)
        return law.ampacity(self.cord, self.carrying, self.rated, self.air, self.lies)

    def _allowed(self, carries: Quantity) -> Quantity:
        return limit(
            "I_all",
            "Current allowed, the least of cord, plug and breaker",
            smallest(carries, self.plug, self.breaker),
            A,
        )

    def _plug_and_breaker(self, current: Quantity) -> Requirement:
        if self.rules == NEC and self.lasting == "yes":
            asked = need("I_need", "Current asked of plug and breaker", continuous_factor() * current, A)
        else:
            asked = alternative(
                "I_need", "Current asked of plug and breaker", current, "it comes and goes, or no factor is asked", A
            )
        return require(
            asked <= limit("I_pb", "The lower of plug and breaker", smallest(self.plug, self.breaker), A),
            label="Plug and breaker",
            yes="Plug and breaker carry it.",
            tight="{left} is asked of plug and breaker, which give {right}: feel whether the plug stays cool.",
            no="{left} is asked of plug and breaker, which give {right}: the plug melts or the breaker trips.",
        )

    def _protected(self, carries: Quantity) -> list[Requirement]:
        """Behind a large breaker a thin cord burns before anything opens; up to 20 A the code lets a listed cord be."""
        source = NEC_2023.at("240.5(B)", "from memory") if self.rules == NEC else BS_7671.at("433.1", "from memory")
        if (
            self.rules == NEC
            and (
                self.breaker <= constant("I_20", "Circuits on which a listed cord may hang", _SMALL_CIRCUIT, source)
            ).holds
        ):
            return []
        return [
            require(
                self.breaker <= carries,
                exact=True,
                label="Breaker protects the cord",
                yes="The breaker protects the cord.",
                no="The breaker opens only above {left}; the cord carries {right}: an overload or a crushed spot burns it.",
            )
        ]

    def _drop(self, share: Quantity) -> Requirement:
        return require(
            share <= self.most_drop,
            comfortable=share <= self.wanted_drop,
            label="Volts lost",
            yes="The volts hold.",
            tight=f"{{left}} of the volts are lost on {self.cord_length} of {self.cord}; {self.wanted_drop} would be better.",
            no=f"{{left}} of the volts are lost on {self.cord_length} of {self.cord}: a motor is weak and overheats. {{right}} is the most you accept.",
        )

    def _practice(self, current: Quantity) -> list[Requirement]:
        """What manuals print for 120 V, the thicker of two tables. Thinner than that is tight: the volts themselves are judged above."""
        wanted = law.size_by_practice(current, self.cord_length) if self._volts() == "120 V" else None
        if wanted is None:
            return []
        thick = law.sizes().index(self.cord) >= law.sizes().index(wanted)
        listed = table("extension_cord_charger").source
        area, asked = (_area(size) for size in (self.cord, wanted))
        return [
            require(
                Statement(f"Manuals print {wanted} for {current} over {self.cord_length}", True, listed),
                comfortable=None if thick else area >= asked,
                label="By the manuals' tables",
                yes="It is as thick as manuals ask.",
                tight=f"Manuals print {wanted} for this current over {self.cord_length}; {self.cord} is thinner.",
                no="",
            )
        ]

    def _naive(self, current: Quantity) -> tuple[str, ...]:
        notes = ["A drum shares no heat with the air: uncoil the whole cord before a large load."]
        if self.rules == NEC and self._volts() == "120 V":
            generous = law.charger_table_says(current, self.cord_length)
            notes += [self._too_generous(generous, current)] if generous else []
        if self.plate == BY_WATTS:
            notes.append(
                "Watts over the nominal volts is too low: an electronic tool draws more amps as the volts fall."
            )
        return tuple(note for note in notes if note)

    def _too_generous(self, size: str, current: Quantity) -> str:
        carries = table("flexible_cord").value(size, "two carrying", A)
        if (current <= carries).holds:
            return ""
        return f"A charger's table allows {size} here; the code's table for cords says {carries} for it."

    fixes = (
        next_option("cord", "Use a cord of {cord} or thicker", costs="heavier"),
        less("cord_length", 5 * ft, "Keep it to {cord_length} or less: bring the cart nearer"),
        option("lies", law.UNCOILED, "Uncoil it fully"),
        less("cords", 1 * one, "Use {cords} cord in place of several"),
        option("tool_volts", "240 V", "Use the 240 V version of the tool"),
        less("breaker", 5 * A, "Take it from an outlet behind a {breaker} breaker"),
    )
    cautions = (
        Caution(
            "DANGER",
            "A cut or wet cord outdoors without ground-fault protection kills",
            "The current goes through whoever picks it up",
            "Use an outlet with a tested ground-fault device; throw a damaged cord away, do not tape it",
        ),
        Caution(
            "DANGER",
            "A cord with a plug on both ends has live pins",
            "It kills whoever touches them, and feeds back into what is thought dead",
            "Never make, keep or use one",
        ),
        Caution(
            "WARNING",
            "A coiled or covered cord melts inside while its outside is only warm",
            "Fire on the drum or under the mat",
            "Lay it out straight, over nothing that burns, under nothing at all",
        ),
    )
    examples = (
        Example(
            given={"cord": "14 AWG", "cord_length": "100 ft"},
            expect={"volts_lost": "8.16 V"},
            within=0.003,
            verdict="no",
            source=NEC_2023.at("Chapter 9, Table 8: 14 AWG 3.14 Ω/kft; 13 A over 100 ft worked by hand"),
        ),
        Example(
            given={"cord": "12 AWG", "cord_length": "100 ft"},
            expect={"volts_lost": "5.15 V"},
            within=0.003,
            verdict="tight",
            source=NEC_2023.at("Chapter 9, Table 8: 12 AWG 1.98 Ω/kft"),
        ),
        Example(
            given={"cord": "10 AWG", "cord_length": "100 ft", "plug": "20 A"},
            expect={"volts_lost": "3.22 V"},
            within=0.003,
            verdict="go",
            source=NEC_2023.at("Chapter 9, Table 8: 10 AWG 1.24 Ω/kft"),
        ),
        Example(
            given={"cord": "2.5 mm2", "cord_length": "25 m", "plate_amps": "10", "plug": "16 A", "breaker": "16 A"},
            expect={"allowed_current": "16 A"},
            verdict="go",
            rules=IEC,
            source=BS_7671.at("Table 4F3A: 2.5 mm², 25 A"),
        ),
        Example(
            given={"cord": "2.5 mm2", "lies": "4 layers", "plate_amps": "10", "plug": "16 A", "breaker": "16 A"},
            expect={"allowed_current": "8.75 A"},
            verdict="no",
            rules=IEC,
            source=BS_7671.at("Table 4F3A and the note of Table 4F1A: 0.35 of 25 A on four layers"),
        ),
    )


def _area(size: str) -> Quantity:
    """The cross-section by the definition of the gauge: each number is a fixed ratio, 36 AWG is 5 mils."""
    listed = table("conductor_resistance")
    known = size if size in listed.rows else f"{int(size.split()[0]) + 1} AWG"
    return listed.value(known, "cmil", cmil)
