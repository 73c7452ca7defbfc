"""The page /wire/wire-for-run/: three separate tests of the wire, then the volts lost on it.

Terminals, conditions and breaker are tested each by itself and never multiplied together: 125 % for a continuous
load belongs to lugs and breakers, heat and crowding belong to the insulation.
"""

from __future__ import annotations

from collections.abc import Iterator

from calc.check import (
    IEC,
    NEC,
    NO,
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
    less,
    next_option,
    option,
    pick,
    pick_fact,
    require,
)
from calc.laws import conductor as us
from calc.laws import conductor_iec as iec
from calc.laws.protection import (
    IEC_DEVICES,
    NEC_BREAKERS,
    breaker_before,
    circuit_for_receptacles,
    standard_rating_down,
    standard_rating_up,
    standard_ratings,
)
from calc.quantity import Condition, OutsideValidity, Quantity, limit, need, step
from calc.sources import COMMON_PRACTICE, IEC_60364_5_52, IEC_60898, NEC_2023
from calc.units import A, V, degC, ft, one, percent, wires

SPLIT_PHASE = "split-phase"
MOST_TO_NEUTRAL = 139 * V
HOLDS = "Breaker holds the load"
ONE_LOAD, SEVERAL = "one load", "several receptacles"


class WireForRun(Check):
    """What wire for this run?"""

    title = "Wire for a run"
    headline = "usable_ampacity"
    about = {"cables.use": ("branch wiring", "extension cord")}

    circuit: str = pick_fact("cables.circuit", "one-phase", {NEC: us.CIRCUITS, IEC: ("dc", "one-phase")})
    volts: Quantity = ask_fact("V", "cables.volts", 120 * V, common=(12 * V, 48 * V, 120 * V, 240 * V))
    continuous_current: Quantity = ask_fact("I_c", "cables.current", 12 * A, common=(12 * A, 16 * A, 24 * A, 32 * A))
    other_current: Quantity = ask_fact("I_o", "cables.other_current", 0 * A)
    lighter_leg: Quantity = ask(
        "I_₂",
        "Current in the lighter leg",
        0 * A,
        low=0 * A,
        high=600 * A,
        when={"circuit": ("split-phase",)},
        rules=(NEC,),
        habit=True,
        help="The two numbers above are the heavier leg; 0 is the worst for the drop",
    )
    power_factor: Quantity = ask(
        "pf",
        "Power factor",
        1 * one,
        low=0.3 * one,
        high=1 * one,
        habit=True,
        when={"circuit": ("one-phase", "split-phase")},
        common=(0.8 * one, 0.9 * one, 1 * one),
        help="1 for heaters and chargers; motors about 0.8",
    )
    run_length: Quantity = ask_fact("L", "cables.length", 60 * ft, common=(25 * ft, 50 * ft, 100 * ft))
    metal: str = pick_fact("cables.metal", us.COPPER)
    size: str = pick_fact(
        "cables.size", {NEC: "12 AWG", IEC: "2.5 mm2"}, {NEC: us.sizes(us.COPPER, us.RACEWAY), IEC: iec.sizes()}
    )
    breaker: Quantity = ask_fact("I_B", "devices.rating", 20 * A, common=(15 * A, 20 * A, 30 * A, 50 * A))
    insulation: str = pick_fact(
        "cables.insulation", {NEC: "90 °C", IEC: "XLPE 90 °C"}, {NEC: ("60 °C", "75 °C", "90 °C"), IEC: iec.INSULATIONS}
    )
    terminals: str = pick_fact(
        "cables.terminals", {NEC: "60 °C", IEC: "70 °C"}, {NEC: ("60 °C", "75 °C"), IEC: ("70 °C", "90 °C")}
    )
    ambient: Quantity = ask_fact(
        "θ_a", "cables.ambient", 30 * degC, habit=True, common=(30 * degC, 45 * degC, 60 * degC)
    )
    carrying: Quantity = ask_fact(
        "n", "cables.carrying", 2 * wires, rules=(NEC,), common=(2 * wires, 3 * wires, 4 * wires, 6 * wires)
    )
    lay: str = pick_fact("cables.lay", us.RACEWAY, {NEC: (us.RACEWAY, us.FREE_AIR)})
    feeds: str = pick_fact("cables.serves", ONE_LOAD, {NEC: (ONE_LOAD, SEVERAL)})
    method: str = pick(
        "How it is laid",
        {IEC: iec.METHODS},
        "B2",
        help="A1, A2 in conduit in an insulated wall; B1, B2 in conduit on it; C clipped to it; E in free air; 2: one multicore cable",
    )
    loaded: str = pick(
        "Loaded conductors",
        {IEC: ("2", "3")},
        "2",
        help="2 for dc and one-phase, 3 where a third one carries current too",
    )
    circuits: Quantity = ask(
        "N", "Circuits run together", 1 * wires, low=1 * wires, high=20 * wires, rules=(IEC,), help="Count this one too"
    )
    device: str = pick("Kind of device", {IEC: ("circuit-breaker", "gG fuse")}, "circuit-breaker", help="Printed on it")
    hot: Quantity = ask(
        "θ_w",
        "The wire's own temperature at work",
        75 * degC,
        low=-20 * degC,
        high=105 * degC,
        habit=True,
        rules=(NEC,),
        help="75 °C is what the resistance tables assume; a cold reel reads 18 % less",
    )
    wanted_drop: Quantity = ask(
        "d_go",
        "Loss you would like to stay under",
        3 * percent,
        low=0.5 * percent,
        high=10 * percent,
        habit=True,
        common=(1 * percent, 3 * percent, 5 * percent),
        help="3 % for a branch circuit; 1 % on the battery side of an inverter",
    )
    most_drop: Quantity = ask(
        "d_max",
        "Most you would accept",
        5 * percent,
        low=0.5 * percent,
        high=15 * percent,
        habit=True,
        common=(2 * percent, 5 * percent, 8 * percent),
        help="5 % for a branch circuit, 2 % on the battery side; IEC allows 6 (lights) or 8 % from a supply of your own",
    )

    def solve(self) -> Answer:
        load = need("I", "Current in the wire", self.continuous_current + self.other_current, A)
        if load.si == 0:
            raise OutsideValidity("No current is asked for: fill in at least one of the two currents.")
        if self.circuit == SPLIT_PHASE and (self.lighter_leg > load).holds:
            raise OutsideValidity(
                f"The lighter leg carries {self.lighter_leg}, more than the heavier one: put the heavier leg first."
            )
        if self.circuit == SPLIT_PHASE and (self.volts > MOST_TO_NEUTRAL).holds:
            raise OutsideValidity(
                f"On split-phase the volts are those of one leg to neutral, 120 V; {self.volts} is not known there."
            )
        return self._by_nec(load) if self.rules == NEC else self._by_iec(load)

    def _by_nec(self, load: Quantity) -> Answer:
        stands = us.stands_heat(self.insulation, self.ambient)
        if not stands.holds:
            return self._too_hot(stands, load)
        wanted = us.continuous_load(self.continuous_current, self.other_current)
        lugs = us.terminal_ampacity(self.size, self.metal, self.insulation, self.terminals)
        corrected = us.corrected_ampacity(self.size, self.metal, self.lay, self.insulation, self.ambient, self.carrying)
        usable = us.usable_ampacity(lugs, corrected)
        largest = breaker_before(usable, self.size, self.metal, self.feeds == SEVERAL)
        at_work = us.temperature_at_work(self.hot, self.ambient)
        r = us.resistance(self.size, self.metal, self.circuit, at_work)
        opposition = us.impedance(r, self.size, self.circuit, self.power_factor)
        loop = us.current_path(self.circuit, load, self.lighter_leg)
        lost = us.volts_lost(self.run_length, opposition, loop)
        return answer(
            require(
                wanted <= lugs,
                label="Lugs",
                yes="The lugs carry it.",
                tight=f"{self.size} carries it, but its {self.terminals} lugs are asked for {{left}} of their {{right}}.",
                no=f"{self.size} lets its {self.terminals} lugs carry {{right}}; {{left}} is asked of them.",
            ),
            require(
                load <= corrected,
                label="Insulation",
                yes="The insulation stands it.",
                tight=f"{self.size} carries it, with {{left}} of the {{right}} that it stands as laid.",
                no=f"{self.size} as it is laid carries {{right}}, and the load is {{left}}.",
            ),
            require(
                wanted <= self.breaker,
                label=HOLDS,
                yes="The breaker holds.",
                tight=f"{self.size} carries it, but {{left}} is asked of a {{right}} breaker.",
                no="{left} is asked of a {right} breaker: it trips, or wears out warm.",
            ),
            *self._breaker_protects(largest, usable),
            self._drop(lost),
            say=f"{self.size} {self.metal} carries the {load:up}; {lost} are lost on {self.run_length}.",
            notes=self._naive(lugs),
            usable_ampacity=usable,
            corrected_ampacity=corrected,
            needed_ampacity=wanted,
            smallest_breaker=step(
                "I_Bmin",
                "Smallest standard breaker for the load",
                standard_rating_up(wanted, NEC_BREAKERS),
                A,
                NEC_2023.at("240.6(A)"),
            ),
            largest_breaker=largest,
            volts_lost=lost,
            volts_at_load=limit("V_2", "Volts left at the load", self.volts - lost, V),
            heat_lost=us.heat_lost(self.circuit, self.run_length, r, load, self.lighter_leg),
            longest_run=us.longest_run(self.most_drop, self.volts, opposition, loop),
            ground_wire=us.ground_wire(self.breaker, self.metal, self.size, self._least_size(wanted, load)),
        )

    def _too_hot(self, stands: Condition, load: Quantity) -> Answer:
        no = f"{self.insulation} insulation may not be used in air of {self.ambient}: {{right}} is the most."
        rests = require(stands, label="Heat", exact=True, yes="The insulation stands the air.", no=no)
        return answer(rests, say="", load_current=load)

    def _breaker_protects(self, largest: Quantity, usable: Quantity) -> list[Requirement]:
        rests = [
            require(
                self.breaker <= largest,
                comfortable=self.breaker <= usable,
                label="Breaker protects the wire",
                yes="The breaker protects the wire.",
                tight=f"The {{left}} breaker is the next size above what {self.size} carries as laid: allowed for one load, with nothing to spare.",
                no=f"The {{left}} breaker is too large for {self.size} {self.metal}: at most {{right}}. The wire would burn before it opens.",
            )
        ]
        if self.feeds == SEVERAL:
            rests.append(
                require(
                    circuit_for_receptacles(self.breaker),
                    label="Circuit of several receptacles",
                    exact=True,
                    yes="It is a circuit for receptacles.",
                    no=f"A circuit of several receptacles is of 15, 20, 30, 40 or 50 A, not {self.breaker}.",
                )
            )
        return rests

    def _drop(self, lost: Quantity) -> Requirement:
        share = us.share_lost(lost, self.volts)
        return require(
            share <= self.most_drop,
            comfortable=share <= self.wanted_drop,
            label="Volts lost",
            yes="Few volts are lost.",
            tight=f"{self.size} carries it, but {{left}} of the volts are lost on {self.run_length}; {self.wanted_drop} would be better.",
            no=f"{{left}} of the volts are lost on {self.run_length} of {self.size}; {{right}} is the most you accept.",
        )

    def _naive(self, lugs: Quantity) -> tuple[str, ...]:
        """Name the wrong number that a hurried reader takes from the table."""
        if self.insulation != "90 °C":
            return ()
        hottest = us.terminal_ampacity(self.size, self.metal, "90 °C", "90 °C")
        return (
            f"The 90 °C column says {hottest} for {self.size}; the {self.terminals} lugs allow {lugs}. The 90 °C figure only serves as the start for heat and crowding.",
        )

    def _least_size(self, wanted: Quantity, load: Quantity) -> str:
        """The thinnest size that this load and breaker may have, volts aside: growing beyond it grows the ground wire."""
        return next((size for size in us.sizes(self.metal, self.lay) if self._carries(size, wanted, load)), self.size)

    def _carries(self, size: str, wanted: Quantity, load: Quantity) -> bool:
        lugs = us.terminal_ampacity(size, self.metal, self.insulation, self.terminals)
        corrected = us.corrected_ampacity(size, self.metal, self.lay, self.insulation, self.ambient, self.carrying)
        if not (wanted <= lugs).holds or not (load <= corrected).holds:
            return False
        usable = us.usable_ampacity(lugs, corrected)
        return (self.breaker <= breaker_before(usable, size, self.metal, self.feeds == SEVERAL)).holds

    def _by_iec(self, load: Quantity) -> Answer:
        stands = iec.stands_heat(self.insulation, self.ambient)
        if not stands.holds:
            return self._too_hot(stands, load)
        laid = iec.capacity(
            self.size, self.metal, self.insulation, self.method, self.loaded, self.ambient, self.circuits
        )
        iz = iec.usable(laid, self.size, self.metal, self.method, self.loaded, self.terminals)
        most = iec.capacity_for_device(iz, self.device, self.breaker)
        opposition = iec.drop_per_amp(self.size, self.metal, self.circuit, self.run_length, self.power_factor)
        loop = us.current_path(self.circuit, load, self.lighter_leg)
        lost = iec.volts_lost(opposition, loop)
        return answer(
            require(
                load <= self.breaker,
                label=HOLDS,
                yes="The device holds.",
                tight=f"{self.size} carries it, but {{left}} is asked of a {{right}} device.",
                no="{left} is asked of a {right} device: it trips.",
            ),
            require(
                self.breaker <= most,
                exact=True,
                label="Device protects the wire",
                yes="The device protects the wire.",
                no=f"The {{left}} {self.device} is too large for {self.size} as laid: at most {{right}}.",
            ),
            require(
                load <= iz,
                label="Wire",
                yes="The wire carries it.",
                tight=f"{self.size} carries it, with {{left}} of the {{right}} that it stands as laid.",
                no=f"{self.size} as laid carries {{right}}; the load is {{left}}.",
            ),
            self._drop(lost),
            say=f"{self.size} {self.metal} by method {self.method} carries the {load:up}; {lost} are lost on {self.run_length}.",
            usable_ampacity=iz,
            largest_breaker=step(
                "I_Bmax", "Largest standard device for the wire", standard_rating_down(most, IEC_DEVICES), A, IEC_60898
            ),
            smallest_breaker=step(
                "I_Bmin", "Smallest standard device for the load", standard_rating_up(load, IEC_DEVICES), A, IEC_60898
            ),
            volts_lost=lost,
            volts_at_load=limit("V_2", "Volts left at the load", self.volts - lost, V),
            longest_run=limit(
                "L_max",
                f"Longest run, one way, for {self.most_drop} lost",
                self.run_length * (self.most_drop * self.volts / lost),
                ft,
            ),
            ground_wire=iec.earth_wire(self.size),
        )

    def _smaller_devices(self) -> Iterator[Change]:
        """The standard ratings below the one that is there."""
        ratings = standard_ratings(NEC_BREAKERS if self.rules == NEC else IEC_DEVICES)
        for rating in reversed(ratings):
            if (rating < self.breaker).holds:
                yield {"breaker": rating}

    fixes = (
        next_option("size", "Use {size} or thicker", costs="heavier, dearer, stiffer"),
        option("terminals", "75 °C", "Use lugs and a breaker marked 75 °C at both ends"),
        option("insulation", "90 °C", "Use wire with 90 °C insulation"),
        less("run_length", 5 * ft, "Keep the run to {run_length} or less"),
        less(
            "continuous_current",
            1 * A,
            "Take the lasting load down to {continuous_current} or less",
            costs="a charger or car then takes longer",
        ),
        Fix("Put a breaker or fuse of {breaker} before it", _smaller_devices),
    )
    cautions = (
        Caution(
            "WARNING",
            "A dc arc does not go out by itself",
            "A breaker or plug made for ac burns when it opens dc, and a battery feeds the fire with thousands of amps",
            "Use breakers and fuses marked for dc at the bank's highest volts, and a fuse at the battery",
            only=lambda check: check.circuit == "dc",
        ),
        Caution(
            "CAUTION",
            "A fixed motor's wire is chosen by the code's motor table, with 125 %, and not by its plate",
            "Sized by the plate it may run hot",
            "Put in the table's current as one that lasts, and give the motor overload protection of its own",
        ),
        Caution(
            "DANGER",
            "Live conductors kill",
            "Touching one, or cutting into one, can stop the heart or burn to the bone",
            "Switch off, unplug, isolate the battery, then test that it is dead before you touch anything",
        ),
        Caution(
            "WARNING",
            "A wire behind too large a breaker burns before the breaker opens",
            "The insulation can set fire to the cart or a wall",
            "Never fit a larger breaker to stop it tripping; fit a thicker wire or take load off",
        ),
        Caution(
            "CAUTION",
            "Loose and unsuited terminals run hot though the wire is large enough",
            "They melt and can burn a hand",
            "Use lugs made for the metal and the stranding, with the maker's torque",
        ),
    )
    examples = (
        Example(
            given={
                "volts": "120 V",
                "continuous_current": "0",
                "other_current": "15 A",
                "run_length": "75 ft",
                "size": "12 AWG",
                "breaker": "20",
            },
            expect={"volts_lost": "4.46 V"},
            within=0.002,
            verdict="tight",
            source=NEC_2023.at("Chapter 9, Table 8: 1.98 Ω/kft for 12 AWG stranded, worked by hand"),
        ),
        Example(
            given={
                "volts": "240",
                "continuous_current": "24",
                "other_current": "6",
                "size": "8 AWG",
                "breaker": "40",
                "terminals": "75 °C",
                "ambient": "45 °C",
                "carrying": "4",
                "run_length": "10",
            },
            expect={"corrected_ampacity": "38.28 A", "needed_ampacity": "36 A", "largest_breaker": "40 A"},
            verdict="tight",
            source=NEC_2023.at("Tables 310.16, 310.15(B)(1)(1), 310.15(C)(1), worked by hand"),
        ),
        Example(
            given={
                "continuous_current": "70",
                "volts": "240",
                "size": "4 AWG",
                "breaker": "90",
                "terminals": "75 °C",
                "run_length": "10",
            },
            expect={"usable_ampacity": "85 A", "needed_ampacity": "87.5 A"},
            verdict="no",
            source=NEC_2023.at("110.14(C): the lug's column rules, not the insulation's"),
        ),
        Example(
            given={
                "continuous_current": "16",
                "size": "2.5 mm2",
                "breaker": "16",
                "ambient": "45 °C",
                "circuits": "3",
                "volts": "230",
                "run_length": "10 m",
            },
            expect={"usable_ampacity": "18.27 A"},
            verdict="tight",
            rules=IEC,
            source=IEC_60364_5_52.at("Tables B.52.5, B.52.14, B.52.17, worked by hand"),
        ),
        Example(
            given={
                "continuous_current": "16",
                "size": "2.5 mm2",
                "breaker": "20",
                "ambient": "45 °C",
                "circuits": "3",
                "volts": "230",
                "run_length": "10 m",
            },
            verdict="no",
            rules=IEC,
            source=IEC_60364_5_52.at("Tables B.52.5, B.52.14, B.52.17, worked by hand"),
        ),
        Example(
            given={
                "continuous_current": "0",
                "other_current": "10",
                "size": "10 AWG",
                "breaker": "20",
                "run_length": "25",
            },
            verdict="go",
            source=COMMON_PRACTICE,
        ),
    )

    def found_by_trial(self) -> dict[str, Named]:
        """The smallest size that is not a no, all else as it stands: each listed size is asked in turn."""
        label, note = "Smallest listed size that serves", "found by trial: each listed size was asked in turn"
        sizes = us.sizes(self.metal, self.lay) if self.rules == NEC else iec.sizes()
        for size in sizes:
            rests = self.changed({"size": size}).answer().requirements
            # A breaker too small for the load is no fault of the wire.
            if rests and all(rest.verdict != NO or rest.label == HOLDS for rest in rests):
                return {"smallest_size": Named(size, label, note)}
        return {"smallest_size": Named("none", label, note)}
