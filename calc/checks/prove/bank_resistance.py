"""The page /prove/bank-resistance/: two loads, two readings of volts and amps, and what lies between them.

The slope of the volts over the amps is the resistance of bank, links and leads up to the probes; the line drawn back
to no current gives the volts at rest, and on to no volts the least that a short would draw.
"""

from __future__ import annotations

from calc.check import NO, Answer, Check, Example, Requirement, answer, ask, ask_fact, ask_reading, require
from calc.checks.measured import BANK_ARC, likely, must_read
from calc.quantity import OutsideValidity, Quantity, constant, limit, need, step
from calc.sources import COMMON_PRACTICE, IEC_61960, OWN_DERIVATION
from calc.units import A, V, W, mohm, one

DIGITS = 5


class BankResistance(Check):
    """Is the bank's resistance what it should be?"""

    title = "Bank's resistance, measured"
    headline = "resistance"
    measures = {"resistance": "bank resistance, measured"}

    volts_small: Quantity = ask_reading("V_1", "bank volts, small load", 53.3 * V)
    amps_small: Quantity = ask_reading("I_1", "bank amps, small load", 5 * A)
    volts_large: Quantity = ask_reading("V_2", "bank volts, large load", 51.9 * V)
    amps_large: Quantity = ask_reading("I_2", "bank amps, large load", 120 * A)
    expected: Quantity = ask_fact("R_b", "bank.resistance", 14 * mohm)
    last_digit: Quantity = ask(
        "d_V",
        "Last digit of the voltmeter",
        0.01 * V,
        low=0.001 * V,
        high=1 * V,
        habit=True,
        common=(0.001 * V, 0.01 * V, 0.1 * V),
        help="0.01 V on most meters at these volts",
    )

    def solve(self) -> Answer:
        fall, rise = self._fall(), self._rise()
        measured = step("R_m", "Resistance of the bank, measured", fall / rise, mohm, IEC_61960)
        doubt = need("R_d", "What the meter's last digits leave open", 2 * self.last_digit / rise, mohm, OWN_DERIVATION)
        worst = need("R_w", "Resistance that it may be", measured + doubt, mohm)
        rest = step("V_0", "Volts without a load", self.volts_small + self.amps_small * measured, V, OWN_DERIVATION)
        good = constant("k_good", "Times what is expected, still good", 1.5 * one, COMMON_PRACTICE)
        most = constant("k_most", "Times what is expected, at most", 2 * one, COMMON_PRACTICE)
        held = [
            require(
                worst <= limit("R_most", "Most that it should be", most * self.expected, mohm),
                comfortable=worst <= limit("R_good", "What is still good", good * self.expected, mohm),
                label="Resistance",
                yes="It is what was expected.",
                tight=f"It may be {{left}}, where {self.expected} is expected: more than half as much again.",
                no=f"It may be {{left}}; {self.expected} is expected, and twice that, {{right}}, is the most. Something in the loop is bad.",
            )
        ]
        return answer(
            *held,
            say=f"The bank has {measured}, measured to {doubt}; {self.expected} is expected.",
            notes=self._causes(held) + self._held_against(),
            resistance=measured,
            doubt=doubt,
            volts_at_rest=rest,
            least_short_circuit=limit(
                "I_s", "A dead short draws this much or more", rest / measured, A, OWN_DERIVATION
            ),
            heat=need("P_h", "Heat in bank and leads at the large load", self.amps_large**2 * measured, W),
        )

    def _fall(self) -> Quantity:
        """Volts lost between the loads; too few say nothing of the resistance: OutsideValidity."""
        fall = step("ΔV", "Volts lost between the two loads", self.volts_small - self.volts_large, V)
        digits = constant(
            "n_d", "Digits that the volts must fall by to be worth dividing", DIGITS * one, COMMON_PRACTICE
        )
        if (fall < digits * self.last_digit).holds:
            raise OutsideValidity(
                f"The volts fall by {fall} from the small load to the large one: too little to divide. Take a larger "
                "load, or the readings are swapped, or the charge was not the same for both."
            )
        return fall

    def _rise(self) -> Quantity:
        rise = step("ΔI", "Amps added between the two loads", self.amps_large - self.amps_small, A)
        if (self.amps_large < 2 * self.amps_small).holds or rise.si <= 0:
            raise OutsideValidity("The large load must draw at least twice the amps of the small one.")
        return rise

    def _causes(self, held: list[Requirement]) -> tuple[str, ...]:
        return likely(
            held,
            "a joint that is loose or dirty (measure the millivolts across each at the large load)",
            "cold cells: toward freezing their resistance about doubles",
            "one string that gives nothing: its breaker, fuse or protection is open",
            "a weak cell (compare the volts of all cells at the large load)",
            "a clamp that was not set to zero",
        )

    def _held_against(self) -> tuple[str, ...]:
        said = [
            "Both loads at the same charge, each read ten seconds after it came on; the same two spots for the probes."
        ]
        if self.expected.step and self.expected.step.note.startswith("measured"):
            said.append(
                f"What it is held against was itself {self.expected.step.note}: this tells whether it has grown since."
            )
        return tuple(said)

    fixes = (
        must_read(
            "volts_large",
            0.05 * V,
            "Clean and tighten the joints, with the bank switched off, and measure again: at the large load it must read {volts_large} or more",
            down=False,
            until="volts_small",
        ),
    )
    cautions = (BANK_ARC,)
    examples = (
        Example(
            given={
                "volts_small": "53.30 V",
                "amps_small": "5",
                "volts_large": "51.90",
                "amps_large": "120",
                "expected": "10 mohm",
            },
            expect={"resistance": "12.17 mΩ", "volts_at_rest": "53.36 V"},
            verdict="go",
            source=IEC_61960.at("internal dc resistance: (53.30 − 51.90) V over (120 − 5) A, worked by its formula"),
        ),
        Example(
            given={
                "volts_small": "53.30 V",
                "amps_small": "5",
                "volts_large": "51.90",
                "amps_large": "120",
                "expected": "5 mohm",
            },
            verdict=NO,
            source=COMMON_PRACTICE.at("more than twice the resistance that was expected: something in the loop is bad"),
        ),
    )
