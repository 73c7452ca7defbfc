"""The page /prove/neutral-to-ground/: three readings at an outlet, and what they tell of bond, neutral and ground.

Neutral and ground meet at one bond. Under load the neutral's own resistance lifts it a little above ground, so a small
reading is right, nothing at all under load hints at a second bond, and half the volts at no bond.
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
    ask_fact,
    ask_reading,
    pick,
    pick_fact,
    require,
)
from calc.checks.measured import QUALIFIED, must_read
from calc.laws import conductor as us
from calc.laws import conductor_iec as iec
from calc.quantity import Quantity, constant, limit, need, step
from calc.sources import COMMON_PRACTICE, IEC_60364_5_52, IEC_60364_5_55, NEC_2023, RECEPTACLE_READINGS
from calc.units import A, V, W, degC, ft, one, percent

BONDED, FLOATING = "yes, once", "no, left floating on purpose"


class NeutralToGround(Check):
    """What does the reading between neutral and ground mean?"""

    title = "Neutral and ground, measured"
    headline = "meaning"
    about = {"cables.use": ("branch wiring",)}

    hot_neutral: Quantity = ask_reading("V_HN", "volts hot to neutral", 118.5 * V)
    neutral_ground: Quantity = ask_reading("V_NG", "volts neutral to ground", 0.2 * V)
    hot_ground: Quantity = ask_reading("V_HG", "volts hot to ground", 118.7 * V)
    amps: Quantity = ask_reading("I", "amps on the circuit", 12 * A)
    wanted: str = pick(
        "Should neutral be bonded to ground here?",
        (BONDED, FLOATING),
        BONDED,
        habit=True,
        help="The rig's own bond while it inverts; the wall's while it is plugged in; floating only for one tool by design",
    )
    length: Quantity = ask_fact("L", "cables.length", 6 * ft, common=(6 * ft, 10 * ft, 50 * ft))
    size: str = pick_fact(
        "cables.size",
        {NEC: "12 AWG", IEC: "2.5 mm2"},
        {NEC: us.sizes(us.COPPER, us.RACEWAY), IEC: iec.sizes()},
        help="Of the neutral back to the bond; copper",
    )

    def solve(self) -> Answer:
        held = [self._right_way_round(), self._bond(), *self._ground()]
        told: dict[str, Quantity] = {}
        if all(requirement.verdict != NO for requirement in held) and self.wanted == BONDED:
            more, told = self._neutral()
            held += more
        missed = next((requirement for requirement in held if requirement.verdict == NO), None)
        meaning = _MEANINGS[missed.label if missed else self.wanted]
        return answer(
            *held,
            say=f"Neutral stands {self.neutral_ground} above ground: {meaning}.",
            notes=self._next(missed),
            meaning=Named(meaning, "What it means"),
            sum=step(
                "V_s",
                "Hot to neutral and neutral to ground together",
                self.hot_neutral + self.neutral_ground,
                V,
                RECEPTACLE_READINGS,
            ),
            **told,
        )

    def _right_way_round(self) -> Requirement:
        return require(
            self.hot_ground >= self.neutral_ground,
            exact=True,
            label="Hot and neutral",
            yes="Hot and neutral are the right way round.",
            no="Neutral stands {right} above ground and hot only {left}: hot and neutral are swapped. Every tool's switch now leaves it live.",
        )

    def _bond(self) -> Requirement:
        fourth = constant(
            "k_4", "Share of the volts from which nothing holds the neutral", 25 * percent, COMMON_PRACTICE
        )
        edge = step("V_4", "Volts from which nothing holds the neutral", fourth * self.hot_neutral, V)
        if self.wanted == FLOATING:
            return require(
                self.neutral_ground >= edge,
                exact=True,
                label="Floating",
                yes="It floats, as it should here.",
                no="Neutral stands only {left} above ground: it is bonded, where it should float.",
            )
        return require(
            self.neutral_ground <= edge,
            exact=True,
            label="Bond",
            yes="Neutral is bonded to ground.",
            no="Neutral stands {left} above ground: no bond holds it. A fault to the frame trips nothing.",
        )

    def _ground(self) -> list[Requirement]:
        """A bonded neutral and a whole ground wire put hot as far above ground as above neutral, give or take its drop."""
        if self.wanted == FLOATING:
            return []
        share = constant("k_g", "Share of the volts that hot must stand above ground", 75 * percent, COMMON_PRACTICE)
        least = limit("V_g", "Least that hot must stand above ground", share * self.hot_neutral, V)
        return [
            require(
                self.hot_ground >= least,
                exact=True,
                label="Ground",
                yes="The ground wire is there.",
                no="Hot stands only {left} above ground, and {right} would be the least: this outlet has no ground. A fault in a tool makes its metal live and trips nothing.",
            )
        ]

    def _neutral(self) -> tuple[list[Requirement], dict[str, Quantity]]:
        warm = constant("θ", "Temperature of the neutral", 30 * degC, COMMON_PRACTICE)
        by_iec = self.rules == IEC
        r = iec.resistance(self.size, us.COPPER, warm) if by_iec else us.resistance(self.size, us.COPPER, "dc", warm)
        expected = step("V_x", "What the neutral's own copper loses at this current", self.amps * self.length * r, V)
        good, most = self._by_annex_g() if by_iec else self._by_practice()
        held = [
            require(
                self.neutral_ground <= most,
                comfortable=self.neutral_ground <= good,
                label="Neutral's own drop",
                yes="The neutral's drop is small.",
                tight="Neutral stands {left} above ground: a long run, a heavy load, or a screw that begins to loosen.",
                no="Neutral stands {left} above ground under load: its wire or a screw on the way back is bad.",
            )
        ]
        shows = constant("V_03", "Drop that a meter shows well", 0.3 * V, COMMON_PRACTICE)
        told = {"expected": expected}
        if (expected >= shows).holds:
            third = constant(
                "k_3", "Share of the copper's drop that one bond leaves, at least", 1 / (1 + 2) * one, COMMON_PRACTICE
            )
            least = limit("V_l", "Least that it should be under this load", third * expected, V)
            held.append(
                require(
                    self.neutral_ground >= least, exact=True, label="One bond", yes="Its drop shows: there is no second bond near by.",
                    no=f"Under {self.amps} neutral should stand about {expected} above ground and stands {{left}}: a second bond near this outlet sends part of the current through the ground wire.",
                )
            )  # fmt: skip
        if self.amps.si > 0 and (self.neutral_ground > expected).holds:
            lost = need(
                "P_x", "Heat in the neutral's joints beyond its copper", self.amps * (self.neutral_ground - expected), W
            )
            stands = constant("P_10", "Heat that a screw stands", 10 * W, COMMON_PRACTICE)
            held.append(
                require(
                    lost <= stands,
                    label="Heat in its joints",
                    yes="Its joints stay cool.",
                    tight="Its joints make {left} of heat.",
                    no="Its joints make {left} of heat; over {right} they scorch.",
                )
            )
            told["extra_heat"] = lost
        return held, told

    def _by_practice(self) -> tuple[Quantity, Quantity]:
        """What is usual of the neutral alone, and what is a bad sign, on circuits of 120 V."""
        return (
            constant("V_2", "Usual under load, at most", 2 * V, RECEPTACLE_READINGS),
            constant("V_5", "A bad sign from here on", 5 * V, RECEPTACLE_READINGS),
        )

    def _by_annex_g(self) -> tuple[Quantity, Quantity]:
        """The neutral's half of the drop that the annex lets a circuit have: 3 % for lighting, 5 % for other uses."""
        place = IEC_60364_5_52.at("Annex G, Table G.52.1")
        lighting, other = (
            constant("k_3%", "Drop that lighting may have", 3 * percent, place),
            constant("k_5%", "Drop that other uses may have", 5 * percent, place),
        )
        return (
            limit("V_2", "Half of the first, the neutral's", lighting / 2 * self.hot_neutral, V),
            limit("V_5", "Half of the second, a bad sign from here on", other / 2 * self.hot_neutral, V),
        )

    def _next(self, missed: Requirement | None) -> tuple[str, ...]:
        said = {
            "Hot and neutral": "Switch it off at the source and have the two wires put right, at the plug, the outlet or the box.",
            "Bond": "Look whether the inverter's bond relay closes while it inverts (its manual), and whether the wall's ground is there while it is plugged in.",
            "Ground": "Switched off: look for the ground wire at the plug, the outlet and the box, and tighten it.",
            "One bond": "Look, switched off, for a bridge between the white and the green screw, or a neutral that touches the frame.",
            "Neutral's own drop": "Switched off: tighten the neutral's screws to the maker's torque, and measure the cord by itself.",
        }
        general = (
            "A meter of high resistance shows tens of volts on a wire that hangs on nothing: read it on the meter's low-resistance range.",
        )
        return ((said[missed.label],) if missed and missed.label in said else ()) + general

    fixes = (
        must_read(
            "neutral_ground",
            0.1 * V,
            "Put it right, switched off, and read again: neutral to ground must be {neutral_ground} or less",
            down=True,
        ),
        must_read(
            "hot_ground",
            1 * V,
            "Mend the ground wire, switched off, and read again: hot to ground must be {hot_ground} or more",
            down=False,
        ),
        must_read(
            "neutral_ground",
            0.1 * V,
            "Take the second bond out, switched off, and read again: neutral to ground must be {neutral_ground} or more",
            down=False,
        ),
    )
    cautions = (
        QUALIFIED,
        Caution(
            "DANGER",
            "With hot and neutral swapped, or without a bond, metal can be live though everything works",
            "Whoever touches tool and ground together closes the circuit",
            "Use nothing on this outlet; switch off at the source and have it mended",
        ),
        Caution(
            "WARNING",
            "Never add a bond to make a tester or a car content",
            "Two bonds put neutral current on frames and ground wires",
            "Find out which mode lacks its own bond, and have that one mended",
        ),
    )
    examples = (
        Example(
            given={
                "hot_neutral": "118.5",
                "neutral_ground": "1.5",
                "hot_ground": "120.0",
                "amps": "12",
                "length": "75 ft",
                "size": "12 AWG",
            },
            expect={"sum": "120.0 V"},
            verdict="go",
            source=RECEPTACLE_READINGS.at(
                "118.5 V and 1.5 V make the 120.0 V from hot to ground: wired right, under load"
            ),
        ),
        Example(
            given={
                "hot_neutral": "118",
                "neutral_ground": "0.05",
                "hot_ground": "118",
                "amps": "12",
                "length": "75 ft",
                "size": "12 AWG",
            },
            verdict=NO,
            source=RECEPTACLE_READINGS.at("0.10 V or less under load hints at a bond near by"),
        ),
        Example(
            given={"hot_neutral": "120", "neutral_ground": "60", "hot_ground": "60", "amps": "0"},
            verdict=NO,
            source=NEC_2023.at(
                "250.20(B), 250.30: without its bond the neutral floats between the filters' capacitors"
            ),
        ),
        Example(
            given={"hot_neutral": "120", "neutral_ground": "120", "hot_ground": "0.5", "amps": "0"},
            verdict=NO,
            source=RECEPTACLE_READINGS.at("hot to ground near nothing: hot and neutral are swapped"),
        ),
        Example(
            given={"hot_neutral": "120", "neutral_ground": "3", "hot_ground": "5", "amps": "0"},
            verdict=NO,
            source=RECEPTACLE_READINGS.at(
                "hot to ground is hot to neutral and neutral to ground together; 5 V is no ground"
            ),
        ),
        Example(
            given={"hot_neutral": "118", "neutral_ground": "8", "hot_ground": "126", "amps": "12"},
            verdict=NO,
            source=RECEPTACLE_READINGS.at("much more than a volt or two is a bad sign"),
        ),
        Example(
            given={"hot_neutral": "229", "neutral_ground": "2.4", "hot_ground": "231", "amps": "12", "length": "20 m"},
            verdict="go",
            rules=IEC,
            source=IEC_60364_5_52.at("Annex G: 3 % of 230 V in both wires of a circuit is 3.45 V in its neutral"),
        ),
        Example(
            given={"hot_neutral": "222", "neutral_ground": "7", "hot_ground": "229", "amps": "12", "length": "20 m"},
            verdict=NO,
            rules=IEC,
            source=IEC_60364_5_52.at("Annex G: 5 % of 230 V in both wires of a circuit is 5.75 V in its neutral"),
        ),
        Example(
            given={"hot_neutral": "230", "neutral_ground": "115", "hot_ground": "115", "amps": "0"},
            verdict=NO,
            rules=IEC,
            source=IEC_60364_5_55.at("551.4: without its bond the neutral floats between the filters' capacitors"),
        ),
        Example(
            given={"wanted": FLOATING, "hot_neutral": "120", "neutral_ground": "60", "hot_ground": "60"},
            verdict="go",
            source=COMMON_PRACTICE,
        ),
        Example(
            given={"wanted": FLOATING, "hot_neutral": "120", "neutral_ground": "0.1", "hot_ground": "120"},
            verdict=NO,
            source=COMMON_PRACTICE,
        ),
    )


_MEANINGS = {
    BONDED: "neutral is bonded and its wire is sound",
    FLOATING: "neutral floats, as it should here",
    "Hot and neutral": "hot and neutral are swapped",
    "Bond": "neutral floats: no bond holds it to ground",
    "Ground": "the outlet has no ground",
    "Floating": "neutral is bonded where it should float",
    "Neutral's own drop": "the neutral's way back is bad",
    "One bond": "there is a second bond near this outlet",
    "Heat in its joints": "a screw or contact of the neutral is bad",
}
