"""The page /wire/wire-for-run/: three separate tests of the wire, then the volts lost on it.

Terminals, conditions and breaker are tested each by itself and never multiplied together: 125 % for a continuous
load belongs to lugs and breakers, heat and crowding belong to the insulation.
"""

from __future__ import annotations

from calc.check import (
    IEC,
    NEC,
    NO,
    Answer,
    Caution,
    Check,
    Example,
    Fix,
    Named,
    Requirement,
    answer,
    less,
    next_option,
    option,
    pick_fact,
    require,
)
from calc.checks import branch_wiring as wiring
from calc.checks.branch_wiring import ONE_LOAD, SEVERAL
from calc.checks.circuit import DropAllowed, Run, WireAsLaid, smaller_ratings
from calc.laws import conductor as us
from calc.laws import conductor_iec as iec
from calc.laws.ground_wire import earth_for, ground_for
from calc.laws.laid_wire import too_hot
from calc.laws.protection import (
    IEC_DEVICES,
    NEC_BREAKERS,
    of_receptacles,
    standard_rating_down,
    standard_rating_up,
)
from calc.quantity import Quantity, limit, step
from calc.sources import COMMON_PRACTICE, IEC_60364_5_52, IEC_60898, NEC_2023
from calc.units import A, V, ft

HOLDS = "Breaker holds the load"


class WireForRun(Run, WireAsLaid, DropAllowed, Check):
    """What wire for this run?"""

    title = "Wire for a run"
    headline = "usable_ampacity"
    about = {"cables.use": ("branch wiring", "extension cord")}
    compared = ("usable_ampacity", "largest_breaker", "ground_wire")

    breaker: Quantity = wiring.breaker()
    feeds: str = pick_fact("cables.serves", ONE_LOAD, {NEC: (ONE_LOAD, SEVERAL)})
    device: str = wiring.device()
    hot: Quantity = wiring.hot()

    def solve(self) -> Answer:
        load = self.load()
        return self._by_nec(load) if self.rules == NEC else self._by_iec(load)

    def _by_nec(self, load: Quantity) -> Answer:
        wire = self.wire_by_nec()
        if not wire.stands_heat.holds:
            return answer(too_hot(wire.stands_heat, self.insulation), say="", load_current=load)
        wanted = us.continuous_load(self.continuous_current, self.other_current)
        largest = wire.largest_breaker(self.feeds == SEVERAL)
        at_work = us.temperature_at_work(self.hot, self.ambient)
        r = us.resistance(self.size, self.metal, self.circuit, at_work)
        opposition = us.impedance(r, self.size, self.circuit, self.power_factor)
        loop = us.current_path(self.circuit, load, self.lighter_leg)
        lost = us.volts_lost(self.run_length, opposition, loop)
        return answer(
            *wire.carries(wanted, load),
            require(
                wanted <= self.breaker,
                label=HOLDS,
                yes="The breaker holds.",
                tight=f"{self.size} carries it, but {{left}} is asked of a {{right}} breaker.",
                no="{left} is asked of a {right} breaker: it trips, or wears out warm.",
            ),
            wire.protected_by(self.breaker, largest),
            *self._receptacles(),
            self.few_volts_lost(lost),
            say=f"{self.size} {self.metal} carries the {load:up}; {lost} are lost on {self.run_length}.",
            notes=wire.careless(wanted, load),
            usable_ampacity=wire.usable,
            corrected_ampacity=wire.corrected,
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
            ground_wire=ground_for(
                self.breaker,
                self.metal,
                self.size,
                wire.thinnest_that_serves(wanted, load, self.breaker, self.feeds == SEVERAL),
            ),
        )

    def _receptacles(self) -> list[Requirement]:
        return [of_receptacles(self.breaker)] if self.feeds == SEVERAL else []

    def _by_iec(self, load: Quantity) -> Answer:
        wire = self.wire_by_iec()
        if not wire.stands_heat.holds:
            return answer(too_hot(wire.stands_heat, self.insulation), say="", load_current=load)
        most = wire.largest_device(self.device, self.breaker)
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
            wire.protected_by(self.breaker, most, self.device),
            wire.carries(load),
            self.few_volts_lost(lost),
            say=f"{self.size} {self.metal} by method {self.method} carries the {load:up}; {lost} are lost on {self.run_length}.",
            usable_ampacity=wire.usable,
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
            ground_wire=earth_for(self.size),
        )

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
        Fix("Put a breaker or fuse of {breaker} before it", smaller_ratings),
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
