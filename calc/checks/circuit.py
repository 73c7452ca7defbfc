"""A circuit, as its pages ask of it: the run and its load, the wire as it lies, and what a device must hold and break."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from calc.check import IEC, NEC, Change, Requirement, ask, ask_fact, pick, pick_fact, require
from calc.checks import branch_wiring as wiring
from calc.checks.branch_wiring import ONE_LOAD, SEVERAL
from calc.facts.wiring import GG_FUSE, OF_TYPES
from calc.laws import breaker_trip as trip
from calc.laws import conductor as us
from calc.laws import motor_circuit as own
from calc.laws import overcurrent
from calc.laws.laid_wire import LaidWire, LaidWireIEC
from calc.laws.protection import IEC_DEVICES, NEC_BREAKERS, standard_ratings
from calc.quantity import OutsideValidity, Quantity, need
from calc.tables import table
from calc.units import A, V

MOTOR, DC_MOTOR, WELDER = "one motor", "one dc motor", "one welder"
OF_MOTOR, OF_WELDER, BY_AMPS = {"feeds": (MOTOR, DC_MOTOR)}, {"feeds": (WELDER,)}, {"feeds": (ONE_LOAD, SEVERAL)}
STRONG, ORDINARY = "1.15 or more, or a rise of 40 °C or less", "less, or not stated"
TYPED = dict(zip(OF_TYPES, trip.TYPES, strict=True))
FAULT_NOT_KNOWN, FAULT_KNOWN = "not known", "measured or worked out"
MOST_TO_NEUTRAL = 139 * V
ON_DC = ({"circuit": ("dc",)}, {"feeds": (DC_MOTOR,)})
ON_AC = ({"circuit": ("one-phase", "split-phase")}, {"feeds": (MOTOR, WELDER)})


def current_in_the_wire(continuous: Quantity, other: Quantity) -> Quantity:
    found = need("I", "Current in the wire", continuous + other, A)
    if found.si == 0:
        raise OutsideValidity("No current is asked for: fill in at least one of the two currents.")
    return found


class Run:
    """A run of wire and what flows through it."""

    rules: str
    circuit: str = wiring.circuit()
    volts: Quantity = wiring.volts()
    continuous_current: Quantity = wiring.continuous_current()
    other_current: Quantity = wiring.other_current()
    lighter_leg: Quantity = wiring.lighter_leg()
    power_factor: Quantity = wiring.power_factor()
    run_length: Quantity = wiring.run_length()

    def load(self) -> Quantity:
        found = current_in_the_wire(self.continuous_current, self.other_current)
        if self.circuit == wiring.SPLIT and (self.lighter_leg > found).holds:
            raise OutsideValidity(
                f"The lighter leg carries {self.lighter_leg}, more than the heavier one: put the heavier leg first."
            )
        if self.circuit == wiring.SPLIT and (self.volts > MOST_TO_NEUTRAL).holds:
            raise OutsideValidity(
                f"On split-phase the volts are those of one leg to neutral, 120 V; {self.volts} is not known there."
            )
        return found


class DropAllowed:
    """How many of the volts may be lost on it."""

    size: str
    volts: Quantity
    run_length: Quantity
    wanted_drop: Quantity = wiring.wanted_drop()
    most_drop: Quantity = wiring.most_drop()

    def few_volts_lost(self, lost: Quantity) -> Requirement:
        share = us.share_lost(lost, self.volts)
        return require(
            share <= self.most_drop,
            comfortable=share <= self.wanted_drop,
            label="Volts lost",
            yes="Few volts are lost.",
            tight=f"{self.size} carries it, but {{left}} of the volts are lost on {self.run_length}; {self.wanted_drop} would be better.",
            no=f"{{left}} of the volts are lost on {self.run_length} of {self.size}; {{right}} is the most you accept.",
        )


class WireAsLaid:
    """The wire and how it lies, as each rule set asks of it."""

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

    def wire_by_nec(self) -> LaidWire:
        return LaidWire(self.size, self.metal, self.lay, self.insulation, self.terminals, self.ambient, self.carrying)

    def wire_by_iec(self) -> LaidWireIEC:
        return LaidWireIEC(
            self.size,
            self.metal,
            self.method,
            self.loaded,
            self.insulation,
            self.terminals,
            self.ambient,
            self.circuits,
        )


class LoadAndDevice:
    """What a circuit feeds, and the device before it: amps as they flow, or the plate of a motor or a welder."""

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
        when=BY_AMPS,
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

    def load(self) -> Quantity:
        return current_in_the_wire(self.continuous_current, self.other_current)

    def of_motor(self) -> own.MotorCircuit:
        if self.feeds == DC_MOTOR:
            return own.MotorCircuit(self.dc_amps, own.DIRECT, self.device)
        return own.MotorCircuit(own.full_load_current(self.motor_size, self.motor_volts), own.ONE_PHASE, self.device)


class Faults:
    """What the device must let pass as things start, and what it must open and break in a fault."""

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
        {IEC: (FAULT_NOT_KNOWN, FAULT_KNOWN)},
        FAULT_NOT_KNOWN,
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
        when={"far_fault_known": (FAULT_KNOWN,)},
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

    def breaks_a_short(self, on_dc: bool) -> list[Requirement]:
        if not on_dc:
            return [overcurrent.interrupts(self.ac_fault, self.ac_interrupting)]
        return [
            overcurrent.interrupts(self.short_stated, self.interrupting),
            overcurrent.breaks_dc(self.highest_volts, self.dc_volts),
        ]


def smaller_ratings(check: Any) -> Iterator[Change]:
    """The standard ratings below the one that is there, the next one first: never a larger one on the same wire."""
    listed = NEC_BREAKERS if check.rules == NEC else IEC_DEVICES
    for rating in reversed(standard_ratings(listed)):
        if (rating < check.breaker).holds and (rating >= check.asks["breaker"].low).holds:
            yield {"breaker": rating}
