"""The page /prove/joint-drop/: millivolts across a joint or along a cable, turned into milliohms and into heat.

A good joint is small against its own cable. Its heat grows with the square of the current, so that a joint measured at
part load is judged at the most that it carries for long.
"""

from __future__ import annotations

from calc.check import (
    IEC,
    NEC,
    NO,
    Answer,
    Check,
    Example,
    Requirement,
    answer,
    ask,
    ask_fact,
    ask_reading,
    pick,
    pick_fact,
    require,
)
from calc.checks import battery_side as side
from calc.checks.measured import BANK_ARC, HOT_PARTS, likely, must_read
from calc.laws import bank_current
from calc.laws import conductor as us
from calc.laws import conductor_iec as iec
from calc.laws.inverter import power_from_bank
from calc.quantity import Quantity, constant, largest, limit, need, smallest, step
from calc.sources import COMMON_PRACTICE, FROM_MEMORY, IEC_60228, NEC_2023, NETA_MTS
from calc.units import A, W, degC, ft, mohm, mV, one

JOINT, CABLE = "one joint", "a cable, from lug to lug"
ALONE, BY_TWIN = "by itself", "beside its twin"


class JointDrop(Check):
    """Is that joint or cable good?"""

    title = "Joint and cable, measured"
    headline = "resistance"
    about = {"cables.use": ("battery cable",)}

    across: str = pick(
        "What it is measured across",
        (JOINT, CABLE),
        JOINT,
        habit=True,
        help="Post to lug, lug to bar: one joint at a time; or the whole cable",
    )
    millivolts: Quantity = ask_reading("V_j", "millivolts across the joint", 9 * mV)
    amps: Quantity = ask_reading("I", "amps through the joint", 100 * A)
    load: str = side.load()
    most_amps: Quantity = side.amps()
    continuous: Quantity = side.continuous(when=side.OF_INVERTER)
    idle: Quantity = side.idle(when=side.OF_INVERTER)
    peak_efficiency: Quantity = side.peak_efficiency(when=side.OF_INVERTER)
    cutoff: Quantity = side.cutoff(when=side.OF_INVERTER)
    judged: str = pick(
        "Judged",
        (ALONE, BY_TWIN),
        ALONE,
        habit=True,
        when={"across": (JOINT,)},
        help="A like joint beside it tells more than any rule",
    )
    twin: Quantity = ask_reading("V_t", "millivolts across its twin", 8 * mV, when={"judged": (BY_TWIN,)})
    length: Quantity = ask_fact(
        "L", "cables.length", 3 * ft, when={"across": (CABLE,)}, common=(2 * ft, 3 * ft, 6 * ft)
    )
    size: str = pick_fact(
        "cables.size",
        {NEC: "2/0 AWG", IEC: "70 mm2"},
        {NEC: us.sizes(us.COPPER, us.RACEWAY), IEC: iec.sizes()},
        when={"across": (CABLE,)},
        help="Printed on the jacket; copper",
    )
    hot: Quantity = ask(
        "θ",
        "Temperature of the cable",
        25 * degC,
        low=-20 * degC,
        high=105 * degC,
        habit=True,
        when={"across": (CABLE,)},
        common=(25 * degC, 40 * degC, 60 * degC),
        help="By hand it is air-warm just after the load came on; hotter later",
    )

    def solve(self) -> Answer:
        measured = need("R_j", "Resistance, measured", self.millivolts / self.amps, mohm)
        heat = need("P_j", "Heat in it as measured", self.millivolts * self.amps, W)
        full = self._full_amps()
        at_full = need("P_f", "Heat in it at the most that it carries", full**2 * measured, W)
        told = {"resistance": measured, "heat": heat, "heat_at_full": at_full, "full_current": full}
        if self.across == CABLE:
            return self._cable(measured, full, told)
        held = [self._by_itself(measured, at_full, full)] if self.judged == ALONE else [self._by_twin(measured)]
        return answer(
            *held,
            say=f"The joint has {measured:up} and makes {at_full:up} of heat at {full:up}.",
            notes=self._causes(held),
            **told,
        )

    def _full_amps(self) -> Quantity:
        if self.load == side.BY_AMPS:
            most = self.most_amps
        else:
            power = power_from_bank(self.continuous, self.idle, self.peak_efficiency, self.continuous)
            most = bank_current.current_at(power, self.cutoff, "I_co", "Lasting current at the cut-off")
        return need("I_f", "Most current that it carries for long", largest(most, self.amps), A)

    def _by_itself(self, measured: Quantity, at_full: Quantity, full: Quantity) -> Requirement:
        cool = constant("P_2", "Heat of a joint that is good", 2 * W, COMMON_PRACTICE)
        warm = constant("P_5", "Heat at which a joint must be mended", 5 * W, COMMON_PRACTICE)
        small = constant("R_01", "Resistance of a joint that is good", 0.1 * mohm, COMMON_PRACTICE)
        most = limit("R_5", "Resistance that makes this heat at the full current", warm / full**2, mohm)
        good = limit("R_g", "Resistance of a good joint here", smallest(small, cool / full**2), mohm)
        return require(
            measured <= most,
            comfortable=measured <= good,
            label="Joint",
            yes="The joint is good.",
            tight=f"The joint has {{left}}; {good} would be good. It makes {at_full:up} at {full:up}: mend it when you can.",
            no=f"The joint has {{left}}: {at_full:up} of heat at {full:up}, on a spot as large as a thumbnail. {{right}} is the most.",
        )

    def _by_twin(self, measured: Quantity) -> Requirement:
        other = step("R_t", "Resistance of its twin", self.twin / self.amps, mohm)
        half = constant(
            "k_50",
            "Times its like, at which it must be looked into",
            1.5 * one,
            NETA_MTS.at("50 % above the lowest of like joints", FROM_MEMORY),
        )
        fifth = constant("k_20", "Times its like, still alike", 1.2 * one, COMMON_PRACTICE)
        return require(
            measured <= limit("R_50", "Most beside its twin", half * other, mohm),
            comfortable=measured <= limit("R_20", "Still alike", fifth * other, mohm),
            label="Beside its twin",
            yes="The two are alike.",
            tight=f"It has {{left}}, its twin {other}: mend it when you can.",
            no=f"It has {{left}} where its twin has {other}: half as much again or more. Mend it now.",
        )

    def _of_copper(self) -> Quantity:
        """Of the cable's copper alone, per length; under IEC of its nominal cross-section, which is never exceeded."""
        if self.rules == IEC:
            return iec.resistance(self.size, us.COPPER, self.hot)
        return us.resistance(self.size, us.COPPER, "dc", self.hot)

    def _cable(self, measured: Quantity, full: Quantity, told: dict[str, Quantity]) -> Answer:
        r = self._of_copper()
        wire = step("R_x", "Resistance of this length of copper", r * self.length, mohm)
        reads = step("V_x", "What it should read", wire * self.amps, mV)
        extra = need(
            "P_x", "Heat beyond the copper's own, at the full current", full**2 * largest(measured - wire, 0 * mohm), W
        )
        tenth = constant("k_15", "Times the copper alone, still good", 1.15 * one, COMMON_PRACTICE)
        fourth = constant("k_25", "Times the copper alone, at most", 1.25 * one, COMMON_PRACTICE)
        warm = constant("P_10", "Heat beyond it, at most, in two crimps", 10 * W, COMMON_PRACTICE)
        held = [
            require(
                measured <= need("R_25", "Most for this cable", fourth * wire, mohm),
                comfortable=measured <= need("R_15", "Still good for this cable", tenth * wire, mohm),
                label="Cable with its crimps",
                yes="It is as its copper is.",
                tight=f"It has {{left}}; its copper alone has {wire}. A crimp is poor.",
                no=f"It has {{left}}; its copper alone has {wire}. A crimp is bad, or the cable is thinner than it says.",
            ),
            require(
                extra <= warm,
                label="Heat in the crimps",
                yes="The crimps stay cool.",
                no="Its crimps make {left} beyond the copper's own; {right} is the most.",
            ),
        ]
        return answer(
            *held,
            say=f"The cable reads {self.millivolts} where {reads} is expected: {measured:up} lug to lug.",
            notes=self._causes(held),
            **told,
            expected_reading=reads,
            expected_resistance=wire,
            extra_heat=extra,
        )

    def _causes(self, held: list[Requirement]) -> tuple[str, ...]:
        if self.across == CABLE:
            return likely(
                held,
                "a crimp made with the wrong die",
                "strands cut off at the lug",
                "a thinner cable than its jacket says, or copper-clad aluminium",
                "corrosion under the sleeve",
            )
        return likely(
            held,
            "a nut that is not tight (the maker's torque)",
            "washers between lug and bar",
            "dirt, paint or oxide on the faces",
            "a bar or stud of steel where copper should be",
            "a crimp (measure lug to cable as well)",
        )

    fixes = (
        must_read(
            "millivolts",
            0.5 * mV,
            "Switch off, clean and tighten it, and measure again: at this current it must read {millivolts} or less",
            down=True,
        ),
    )
    cautions = (BANK_ARC, HOT_PARTS)
    examples = (
        Example(
            given={"millivolts": "35", "amps": "150", "load": side.BY_AMPS, "most_amps": "150"},
            expect={"resistance": "0.233 mΩ", "heat": "5.25 W"},
            within=0.005,
            verdict=NO,
            source=COMMON_PRACTICE.at("a joint of more than 5 W is mended before it is used"),
        ),
        Example(
            given={
                "across": CABLE,
                "millivolts": "73",
                "amps": "150",
                "length": "6 ft",
                "size": "2/0 AWG",
                "hot": "25 °C",
                "load": side.BY_AMPS,
                "most_amps": "150",
            },
            expect={"expected_reading": "73 mV"},
            verdict="go",
            source=NEC_2023.at("Chapter 9, Table 8: 0.0967 Ω/kft at 75 °C, note 2 to 25 °C; 6 ft at 150 A"),
        ),
        Example(
            given={"millivolts": "4", "amps": "100", "judged": BY_TWIN, "twin": "2.5"},
            verdict=NO,
            source=NETA_MTS.at(
                "connections that differ by more than 50 % from the lowest of like ones are looked into", FROM_MEMORY
            ),
        ),
        Example(
            given={
                "across": CABLE,
                "millivolts": "120",
                "amps": "150",
                "length": "6 ft",
                "size": "2/0 AWG",
                "load": side.BY_AMPS,
                "most_amps": "150",
            },
            verdict=NO,
            source=NEC_2023.at("Chapter 9, Table 8: it should read 73 mV"),
        ),
        Example(
            given={
                "across": CABLE,
                "millivolts": "70",
                "amps": "150",
                "length": "1.8 m",
                "size": "70 mm2",
                "hot": "20 °C",
                "load": side.BY_AMPS,
                "most_amps": "150",
            },
            expect={"expected_reading": "72.4 mV"},
            within=0.05,
            verdict="go",
            rules=IEC,
            source=IEC_60228.at("Table 3: 0.268 Ω/km at most at 20 °C for 70 mm², class 2; 1.8 m at 150 A"),
        ),
    )
