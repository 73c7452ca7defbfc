"""The page /prove/cord-drop/: volts at both ends of a cord at work, against what its copper should lose.

Both ends are read with the same load running, so that the source's own sag drops out. What is lost beyond the copper's
share is lost in plugs and joints, and warms them.
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
    answer,
    ask,
    ask_fact,
    ask_reading,
    pick_fact,
    require,
)
from calc.checks.measured import HOT_PARTS, QUALIFIED, likely, must_read
from calc.laws import cord as law
from calc.quantity import OutsideValidity, Quantity, constant, largest, limit, need, step
from calc.sources import COMMON_PRACTICE, IEC_60228, NEC_2023
from calc.units import A, V, W, degC, ft, ohm, one


class CordDrop(Check):
    """Does that cord lose more than its copper should?"""

    title = "Cord at work, measured"
    headline = "volts_lost"
    about = {"loads.cord_size": law.sizes()}

    begins: Quantity = ask_reading("V_1", "volts where the cord begins", 119.4 * V)
    ends: Quantity = ask_reading("V_2", "volts where the cord ends", 118.3 * V)
    amps: Quantity = ask_reading("I", "amps in the cord", 13 * A)
    cord: str = pick_fact("loads.cord_size", {NEC: "12 AWG", IEC: "2.5 mm2"}, {NEC: law.sizes(), IEC: law.sizes_iec()})
    cord_length: Quantity = ask_fact("L", "loads.cord_length", 25 * ft, common=(25 * ft, 50 * ft, 100 * ft))
    last_digit: Quantity = ask(
        "d_V", "Last digit of the voltmeter", 0.1 * V, low=0.01 * V, high=1 * V, habit=True,
        common=(0.01 * V, 0.1 * V, 1 * V), help="0.1 V on most plug-in meters; read both ends with the same one",
    )  # fmt: skip
    warm: Quantity = ask(
        "θ_k", "Temperature of the cord", 30 * degC, low=-40 * degC, high=90 * degC, habit=True,
        common=(0 * degC, 30 * degC, 60 * degC), help="As warm as the air, or as the hand finds it",
    )  # fmt: skip

    def solve(self) -> Answer:
        lost = step("ΔV", "Volts lost between the two ends", self.begins - self.ends, V)
        self._enough(lost)
        measured = step("R_c", "Resistance of the cord, out and back, measured", lost / self.amps, ohm)
        worst = need(
            "R_w",
            "Resistance that it may be, by the meter's last digits",
            measured + 2 * self.last_digit / self.amps,
            ohm,
        )
        copper = step(
            "R_x",
            "Resistance of its copper, out and back",
            2 * self.cord_length * law.resistance_at(self.cord, self.warm),
            ohm,
        )
        extra = need("P_x", "Heat beyond the copper's own", self.amps**2 * largest(measured - copper, 0 * ohm), W)
        good = constant("k_15", "Times the copper alone, still good", 1.15 * one, COMMON_PRACTICE)
        most = constant("k_25", "Times the copper alone, at most", 1.25 * one, COMMON_PRACTICE)
        burns = constant("P_10", "Heat that a plug stands", 10 * W, COMMON_PRACTICE)
        held = [
            require(
                worst <= limit("R_25", "Most for this cord", most * copper, ohm),
                comfortable=measured <= limit("R_15", "Still good for this cord", good * copper, ohm),
                label="Cord and plugs",
                yes="It loses what its copper must.",
                tight=f"It has {measured} where its copper has {copper}: a plug or a joint is worn.",
                no=f"It may have {{left}} where its copper has {copper}. A plug, a joint or a strand is bad.",
            ),
            require(
                extra <= burns,
                label="Heat in the plugs",
                yes="The plugs stay cool.",
                tight="The plugs make {left} of heat.",
                no="{left} is made in plugs and joints; over {right} they scorch.",
            ),
        ]
        return answer(
            *held,
            say=f"It loses {lost} at {self.amps}; its copper alone loses {step('V_x', 'What its copper should lose', self.amps * copper, V)}.",
            notes=likely(
                held,
                "a plug whose contacts have lost their spring",
                "a cord thinner than its jacket says",
                "strands broken where it is bent",
                "a joint between two cords",
                "a screw that is not tight inside the plug",
            ),
            volts_lost=lost,
            resistance=measured,
            expected_resistance=copper,
            extra_heat=extra,
        )

    def _enough(self, lost: Quantity) -> None:
        """A loss of a few last digits says nothing: OutsideValidity."""
        digits = constant("n_d", "Digits that must be lost to be worth dividing", 10 * one, COMMON_PRACTICE)
        if (lost < digits * self.last_digit).holds:
            raise OutsideValidity(
                f"Between its ends {lost} are lost: too little to tell with a meter that shows {self.last_digit}. Take a larger load, or the readings are swapped."
            )

    fixes = (
        must_read(
            "ends",
            0.1 * V,
            "Mend or replace plug and cord, and read again: at its end there must be {ends} or more",
            down=False,
            until="begins",
        ),
    )
    cautions = (
        QUALIFIED,
        HOT_PARTS,
        Caution(
            "WARNING",
            "A plug with a bad contact gets hotter with each hour",
            "It melts, chars and burns; nothing trips, for the current is as it should be",
            "A plug too hot to hold is switched off at once and cut off, not turned round",
        ),
    )
    examples = (
        Example(
            given={
                "begins": "120.3",
                "ends": "114.2",
                "amps": "14",
                "cord": "14 AWG",
                "cord_length": "50 ft",
                "warm": "75 °C",
            },
            expect={
                "volts_lost": "6.1 V",
                "resistance": "0.436 Ω",
                "expected_resistance": "0.314 Ω",
                "extra_heat": "23.9 W",
            },
            within=0.005,
            verdict=NO,
            source=NEC_2023.at(
                "Chapter 9, Table 8: 3.14 Ω/kft for 14 AWG stranded at 75 °C; 100 ft of it out and back"
            ),
        ),
        Example(
            given={
                "begins": "120",
                "ends": "115.6",
                "amps": "14",
                "cord": "14 AWG",
                "cord_length": "50 ft",
                "warm": "75 °C",
            },
            verdict="go",
            source=NEC_2023.at("Chapter 9, Table 8: 3.14 Ω/kft times 100 ft times 14 A is 4.40 V"),
        ),
        Example(
            given={
                "begins": "230",
                "ends": "222",
                "amps": "10",
                "cord": "1.5 mm2",
                "cord_length": "25 m",
                "warm": "20 °C",
            },
            expect={"expected_resistance": "0.665 Ω"},
            verdict=NO,
            rules=IEC,
            source=IEC_60228.at("Table 3: 13.3 Ω/km for 1.5 mm², class 5, at 20 °C; 50 m of it"),
        ),
    )
