"""The page /wire/cable-in-a-short/: does the cable survive until the fuse has opened.

In so short a time no heat leaves the copper: what is let through, I²t, must stay under k²S². The cable is taken as
hot as its insulation may be at work.
"""

from __future__ import annotations

from calc.check import (
    IEC,
    NEC,
    Answer,
    Caution,
    Check,
    Example,
    answer,
    ask,
    ask_fact,
    less,
    next_option,
    pick,
    pick_fact,
    require,
)
from calc.checks import battery_side as side
from calc.laws import heat_in_a_short as heat
from calc.laws import short_circuit as law
from calc.quantity import Quantity, step
from calc.sources import ICEA_P_32_382, IEC_60364_4_43, IEC_60949
from calc.units import A, A2s, s, uH

BY_TIME, BY_FUSE = "the time until it has opened", "the fuse's clearing I²t"

_CASE = {
    "short_known": side.STATED,
    "short_stated": "7361",
    "highest_volts": "58.4",
    "insulation": "90 °C",
    "inductance": "0.1 uH",
}


class CableInAShort(Check):
    """Will the cable survive a short until the fuse opens?"""

    title = "Cable in a short"
    headline = "let_through"
    about = {"cables.use": ("battery cable",)}

    highest_volts: Quantity = side.highest_volts(when=({"short_known": (side.FROM_CELLS,)}, {"cleared": (BY_TIME,)}))
    short_known: str = side.short_known(when={"cleared": (BY_TIME,)})
    short_stated: Quantity = side.short_stated()
    cell_resistance: Quantity = side.cell_resistance(when=side.OF_CELLS)
    series: Quantity = side.series(when=side.OF_CELLS)
    strings: Quantity = side.strings(when=side.OF_CELLS)
    leads: Quantity = side.leads(when=side.OF_CELLS)
    inductance: Quantity = ask(
        "L_b",
        "Inductance of the loop",
        2 * uH,
        low=0.1 * uH,
        high=50 * uH,
        habit=True,
        when={"cleared": (BY_TIME,)},
        help="About 1 µH for each metre of cable pair; less counts as a faster rise",
    )
    cleared: str = pick(
        "What is known of the fuse",
        (BY_TIME, BY_FUSE),
        BY_TIME,
        habit=True,
        help="Its sheet has a curve of times, and a clearing I²t",
    )
    clearing_time: Quantity = ask_fact(
        "t", "devices.clearing_time", 0.02 * s, when={"cleared": (BY_TIME,)}, common=(0.01 * s, 0.02 * s, 0.1 * s)
    )
    fuse_heat: Quantity = ask_fact("Q_F", "devices.clearing_heat", 100_000 * A2s, when={"cleared": (BY_FUSE,)})
    metal: str = pick_fact("cables.metal", heat.COPPER)
    size: str = side.size()
    insulation: str = side.insulation()
    made_of: str = pick(
        "Insulation is made of",
        {NEC: tuple(heat.HOTTEST)},
        "PVC",
        habit=True,
        help="PVC softens first; so it is counted where it is not known",
    )

    def solve(self) -> Answer:
        through = self._let_through()
        at_work = heat.at_work(self.insulation)
        hottest = heat.hottest(self._kind(), self.rules)
        area = heat.area(self.size)
        k_squared = heat.k_squared(self.metal, at_work, hottest)
        least = heat.least_area(through, k_squared)
        survives = least <= area
        told = {"let_through": through, "least_area": least, "k_squared": k_squared}
        if survives.holds:
            told["end_temperature"] = heat.end_temperature(self.metal, area, at_work, through)
        return answer(
            require(
                survives,
                label="Heat let through",
                yes="The cable survives.",
                tight=f"The cable just survives: what is let through asks for {{left}}, and {self.size} has {{right}}.",
                no=f"What is let through asks for {{left}} of {self.metal}; {self.size} has {{right}}. Its insulation melts off before the fuse has opened.",
            ),
            say=f"{self.size} survives the short: it ends at {told.get('end_temperature', hottest)}.",
            notes=(
                "Joints, thin sense wires and taps melt first: give each its own small fuse where it leaves the cable.",
                f"A cable that has been at work is not cold: it starts here at {at_work}, what its insulation may be.",
            ),
            **told,
        )

    def _let_through(self) -> Quantity:
        if self.cleared == BY_FUSE:
            return step("Q_k", "Let through until it is cleared", self.fuse_heat, A2s)
        if self.short_known == side.STATED:
            short = step("I_k", "Short-circuit current", self.short_stated, A)
            resistance = law.resistance_of_short(self.highest_volts, short)
        else:
            resistance = law.resistance_of_cells(self.cell_resistance, self.series, self.strings, self.leads)
            short = law.short_circuit(self.highest_volts, resistance)
        return law.let_through(short, self.clearing_time, law.time_constant(self.inductance, resistance))

    def _kind(self) -> str:
        """What the insulation is made of: asked in the US, printed in the name of the type elsewhere."""
        if self.rules == NEC:
            return self.made_of
        return next(kind for kind in heat.HOTTEST if kind.startswith(self.insulation.split()[0]))

    fixes = (
        next_option("size", "Use {size} or thicker", costs="heavier, stiffer"),
        less("clearing_time", 0.001 * s, "Use a fuse that opens in {clearing_time} or less at this current"),
    )
    cautions = (
        Caution(
            "DANGER",
            "A cable that glows in a short sprays burning plastic and sets off what lies beside it",
            "Fire at the battery, with smoke that poisons",
            "Put the fuse at the battery's post, so that no length of cable is without it",
        ),
        Caution(
            "WARNING",
            "After a short the insulation may look whole and be ruined",
            "It fails later, unwatched",
            "Replace cable, lugs and fuse after any dead short; do not just fit a new fuse",
        ),
    )
    examples = (
        Example(
            given=_CASE
            | {"size": "2/0 AWG", "insulation": "75 °C", "made_of": "PVC"}
            | {"short_stated": "30000", "clearing_time": "0.058 s"},
            expect={"k_squared": "10917 A²s/mm⁴"},
            within=0.02,
            verdict="no",
            source=ICEA_P_32_382.at(
                "thermoplastic, 75 to 150 °C: I²t = 0.0297·A²·log(384/309), 49.7·10⁶ A²s for 133,100 cmil"
            ),
        ),
        Example(
            given=_CASE | {"size": "6 AWG", "made_of": "XLPE or EPR", "clearing_time": "0.02 s"},
            expect={"k_squared": "20449 A²s/mm⁴", "let_through": "1083000 A²s"},
            within=0.005,
            verdict="go",
            source=IEC_60364_4_43.at(
                "Table 43A and 434.5.2: k = 143 for XLPE at 90 °C; 143² · 13.3² is 3.62 · 10⁶ A²s, above 7361² · 0.02"
            ),
        ),
        Example(
            given=_CASE | {"size": "6 AWG", "made_of": "XLPE or EPR", "clearing_time": "0.068 s"},
            verdict="no",
            source=IEC_60364_4_43.at("434.5.2: 3.62 · 10⁶ over 7361² is 67 ms"),
        ),
        Example(
            given=_CASE | {"size": "16 mm2", "insulation": "PVC 70 °C", "cleared": BY_FUSE, "fuse_heat": "3380000"},
            expect={"k_squared": "13225 A²s/mm⁴"},
            within=0.005,
            verdict="tight",
            rules=IEC,
            source=IEC_60364_4_43.at("Table 43A: k = 115 for PVC; 115² · 16² = 3.386 · 10⁶"),
        ),
        Example(
            given=_CASE | {"size": "16 mm2", "insulation": "PVC 70 °C", "cleared": BY_FUSE, "fuse_heat": "3400000"},
            verdict="no",
            rules=IEC,
            source=IEC_60949.at("adiabatic method"),
        ),
    )
