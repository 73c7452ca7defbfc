"""The page /prove/leg-volts/: the volts of the two legs, with loads running, and what they say of the neutral.

Two legs of a split-phase source share their volts evenly as long as the neutral holds. Where it loosens, one leg falls
by as much as the other rises: their sum stays, their difference grows with the load.
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
    Named,
    Requirement,
    answer,
    ask_reading,
    pick_fact,
    require,
)
from calc.checks.measured import QUALIFIED, likely, must_read
from calc.laws.inverter import SPLIT_PHASE
from calc.quantity import Quantity, constant, largest, limit, need, smallest, step
from calc.sources import ANSI_C84_1, COMMON_PRACTICE, EN_50160, OWN_DERIVATION
from calc.units import V, percent

ONE_LEG, EUROPEAN = "120 V", "230 V"
BOTH = {"system": (SPLIT_PHASE,)}


class LegVolts(Check):
    """Are the volts of the legs right, and does the neutral hold?"""

    title = "Volts of the legs, measured"
    headline = "lowest"
    system: str = pick_fact(
        "inverter.system", {NEC: SPLIT_PHASE, IEC: EUROPEAN}, {NEC: (ONE_LEG, SPLIT_PHASE), IEC: (EUROPEAN, ONE_LEG, SPLIT_PHASE)}
    )
    volts_a: Quantity = ask_reading("V_A", "volts on leg A", 118.6 * V)
    volts_b: Quantity = ask_reading("V_B", "volts on leg B", 120.9 * V, when=BOTH)

    def solve(self) -> Answer:
        both = self.system == SPLIT_PHASE
        volts = (self.volts_a, self.volts_b) if both else (self.volts_a,)
        held = self._in_range(*volts) + (self._neutral() if both else [])
        told = {"lowest": self._lower(*volts)} | (self._together() if both else {})
        return answer(
            *held,
            say=f"The legs have {self.volts_a} and {self.volts_b}." if both else f"The leg has {self.volts_a}.",
            notes=self._causes(held) + self._how(both),
            meaning=self._meaning(held, both),
            **told,
        )

    def _how(self, both: bool) -> tuple[str, ...]:
        if both:
            return ("Read both with the same loads running, the heavier leg well loaded: without a load a bad neutral hides.",)
        return ("Read it with its load running: without one a bad contact hides.",)

    def _in_range(self, *volts: Quantity) -> list[Requirement]:
        low, least, high, most = self._by_en_50160() if self.system == EUROPEAN else self._by_ansi()
        down, up = (
            self._lower(*volts),
            step("V_max", "The higher of the legs", largest(*volts), V),
        )
        return [
            require(
                down >= least, comfortable=down >= low, label="Not too low", yes="The lower leg has volts enough.",
                tight="The lower leg has {left}: motors run hot.", no="The lower leg has {left}; {right} is the least. Motors burn, and electronics drop out.",
            ),
            require(
                up <= most, comfortable=up <= high, label="Not too high", yes="The higher leg is not too high.",
                tight="The higher leg has {left}: lamps and chargers age.", no="The higher leg has {left}; {right} is the most. What hangs on it burns out: switch off now.",
            ),
        ]  # fmt: skip

    def _lower(self, *volts: Quantity) -> Quantity:
        return step("V_min", "The lower of the legs", smallest(*volts), V)

    def _by_ansi(self) -> tuple[Quantity, ...]:
        """Least in range A and at all, most in range A and at all, of a leg of 120 V; narrower than IEC 60038's tenth."""
        return (
            constant("V_114", "Least volts, range A", 114 * V, ANSI_C84_1),
            constant("V_110", "Least volts, range B", 110 * V, ANSI_C84_1),
            constant("V_126", "Most volts, range A", 126 * V, ANSI_C84_1),
            constant("V_127", "Most volts, range B", 127 * V, ANSI_C84_1),
        )

    def _by_en_50160(self) -> tuple[Quantity, ...]:
        """230 V give or take a tenth, as the grid keeps it; half of that is what a source close by should keep."""
        nominal = constant("V_n", "Nominal volts", 230 * V, EN_50160.at("3.12"))
        tenth = constant("k_V", "Give or take, for 95 % of a week's ten-minute means", 10 * percent, EN_50160.at("4.2.2"))
        half = constant("k_½", "Give or take, of a source so near", 5 * percent, COMMON_PRACTICE)
        return (
            need("V_low", "Least that is comfortable", nominal * (1 - half), V),
            need("V_least", "Least volts", nominal * (1 - tenth), V),
            limit("V_high", "Most that is comfortable", nominal * (1 + half), V),
            limit("V_most", "Most volts", nominal * (1 + tenth), V),
        )

    def _together(self) -> dict[str, Quantity]:
        whole = step("V_sum", "The two legs together", self.volts_a + self.volts_b, V)
        return {"sum": whole, "difference": self._difference()}

    def _difference(self) -> Quantity:
        apart = largest(self.volts_a, self.volts_b) - smallest(self.volts_a, self.volts_b)
        return need(
            "d",
            "Difference of the legs, of their mean",
            apart / ((self.volts_a + self.volts_b) / 2),
            percent,
            OWN_DERIVATION,
        )

    def _neutral(self) -> list[Requirement]:
        apart = self._difference()
        good = constant("d_5", "Difference that loads alone explain", 5 * percent, COMMON_PRACTICE)
        most = constant("d_10", "Difference that only a bad neutral explains", 10 * percent, COMMON_PRACTICE)
        return [
            require(
                apart <= most,
                comfortable=apart <= good,
                label="Neutral",
                yes="The neutral holds.",
                tight="The legs differ by {left}: loads that differ much, a long run, or a neutral that begins to loosen.",
                no="The legs differ by {left}: one falls as the other rises. The neutral is opening: switch everything off at the main switch now.",
            )
        ]

    def _meaning(self, held: list[Requirement], both: bool) -> Named:
        if both and held[-1].verdict == NO:
            return Named("the neutral is open or loose between the source and here", "What it means")
        if any(requirement.verdict == NO for requirement in held):
            return Named("the source or the run to here is wrong, and the neutral is not to blame", "What it means")
        return Named("source, run and neutral are as they should be", "What it means")

    def _causes(self, held: list[Requirement]) -> tuple[str, ...]:
        if held[-1].label == "Neutral" and held[-1].verdict != "go":
            return likely(
                held,
                "a neutral screw that is not tight, at the breaker box or the outlet",
                "a plug or connector whose neutral contact is worn",
                "a broken neutral in a cord",
                "very unequal loads on a long thin run",
            )
        return likely(
            held,
            "a long or thin run under load (read it again at the inverter's own outlet)",
            "the inverter's output volts in its settings",
            "a bank near its cut-off, or an overload that folds the volts back",
            "the meter's battery",
        )

    fixes = (
        must_read(
            "volts_a",
            0.5 * V,
            "Mend the neutral or the run, switched off and locked, and read again: leg A must have {volts_a} or more",
            down=False,
        ),
        must_read(
            "volts_a",
            0.5 * V,
            "Mend the neutral or the run, switched off and locked, and read again: leg A must have {volts_a} or less",
            down=True,
        ),
        must_read(
            "volts_b",
            0.5 * V,
            "Mend the neutral or the run, switched off and locked, and read again: leg B must have {volts_b} or less",
            down=True,
        ),
    )
    cautions = (
        QUALIFIED,
        Caution(
            "DANGER",
            "A neutral that opens puts up to 240 V on the lighter leg",
            "What hangs on it burns, and metal that should be safe becomes live",
            "Main switch off at once, cord out; nobody opens a box until it is off and proved dead",
            only=lambda check: check.system == SPLIT_PHASE,
        ),
    )
    examples = (
        Example(
            given={"volts_a": "95", "volts_b": "145"},
            expect={"sum": "240 V"},
            verdict=NO,
            source=ANSI_C84_1.at("range B: 110 to 127 V; the sum of 240 V stays, so that the neutral is to blame"),
        ),
        Example(
            given={"volts_a": "119", "volts_b": "121"},
            expect={"sum": "240 V", "difference": "1.67 %"},
            verdict="go",
            source=ANSI_C84_1.at("range A: 114 to 126 V"),
        ),
        Example(
            given={"system": ONE_LEG, "volts_a": "112"}, verdict="tight", source=ANSI_C84_1.at("range B: 110 to 127 V")
        ),
        Example(given={"system": ONE_LEG, "volts_a": "129"}, verdict=NO, source=ANSI_C84_1.at("range B: 110 to 127 V")),
        Example(given={"volts_a": "230"}, verdict="go", rules=IEC, source=EN_50160.at("3.12: 230 V nominal")),
        Example(given={"volts_a": "212"}, verdict="tight", rules=IEC, source=EN_50160.at("4.2.2: 207 to 253 V")),
        Example(given={"volts_a": "200"}, verdict=NO, rules=IEC, source=EN_50160.at("4.2.2: 207 to 253 V")),
        Example(given={"volts_a": "258"}, verdict=NO, rules=IEC, source=EN_50160.at("4.2.2: 207 to 253 V")),
    )
