"""The page /roll/parking/: what pulls it downhill, what holds it, and how fast it is if it gets away.

No credit for what rolls hard: a wheel that sticks today rolls tomorrow. No ground is level: two per cent are reckoned
at least.
"""

from __future__ import annotations

from calc.check import (
    PHYSICAL,
    Answer,
    Caution,
    Check,
    Example,
    Requirement,
    answer,
    ask_fact,
    less,
    more,
    option,
    pick,
    pick_fact,
    require,
)
from calc.laws import edge, slope
from calc.quantity import Quantity, constant, largest, limit, need, root, smallest, step
from calc.sources import COMMON_PRACTICE, FROM_MEMORY, OWN_DERIVATION, Source
from calc.tables import table
from calc.units import J, N, kg, m, m_per_s, mm, one, percent

NO_BRAKE, PARKING, OVERRUN = "none", "parking brake", "overrun brake"
NO_CHOCK, ONE, TWO = "none", "one wheel", "two wheels"
CHOCKED = {ONE: 1, TWO: 2}
FREE_FALL = Source("Energy of a body that slides without friction, a text of mechanics", "", FROM_MEMORY)


class Parking(Check):
    """Will it stay where it is parked?"""

    title = "Parked on a slope"
    headline = "downhill_pull"

    mass: Quantity = ask_fact("M", "chassis.loaded_mass", 251 * kg, common=(100 * kg, 200 * kg, 300 * kg))
    grade: Quantity = ask_fact(
        "θ",
        "place.slope",
        8 * percent,
        common=(2 * percent, 5 * percent, 8.33 * percent, 12.5 * percent),
        help="Lay the phone on it, where the wheels stand",
    )
    brake: str = pick_fact("chassis.brake", PARKING)
    brake_holds: Quantity = ask_fact("F_b", "chassis.brake_force", 400 * N, when={"brake": (PARKING,)})
    chocks: str = pick_fact("chassis.chocks", TWO)
    chock_height: Quantity = ask_fact(
        "h", "chassis.chock_height", 100 * mm, when={"chocks": (ONE, TWO)}, common=(50 * mm, 100 * mm, 150 * mm)
    )
    wheel_diameter: Quantity = ask_fact("d", "chassis.wheel_diameter", 400 * mm, when={"chocks": (ONE, TWO)})
    wheels: str = pick_fact("chassis.wheels", "4", when={"chocks": (ONE, TWO)})
    ground: str = pick(
        "Ground under the chocks",
        table("friction").rows,
        "wet grass",
        habit=True,
        when={"chocks": (ONE, TWO)},
        help="At its worst hour: dew and rain come overnight",
    )
    roll_out: Quantity = ask_fact("D", "place.roll_out", 10 * m, common=(5 * m, 10 * m, 30 * m))

    def solve(self) -> Answer:
        least = constant("s_2", "No ground is level: reckoned at least", 0.02 * one, COMMON_PRACTICE)
        part = step("s", "Part of the weight reckoned downhill", largest(slope.sine(self.grade), least), one)
        weight = slope.weight(self.mass)
        pull = need("F_s", "Pull downhill, with no credit for rolling hard", weight * part, N, OWN_DERIVATION)
        wanted = need(
            "F_h", "Hold that is wanted", constant("k_h", "Times the pull", 1.5 * one, COMMON_PRACTICE) * pull, N
        )
        brake, chocks = self._brake(), self._chocks(weight)
        best = limit("F_1", "The better of brake and chocks, alone", largest(brake, chocks), N)
        speed = step(
            "v",
            "Speed at the end if it gets away",
            root(2 * slope.gravity() * self.roll_out * part),
            m_per_s,
            FREE_FALL,
            rounds=1,
        )
        energy = step("E", "Energy it then has", self.mass * speed**2 / 2, J, FREE_FALL, rounds=1)
        hand = constant("F_p", "What one person holds back safely", 150 * N, COMMON_PRACTICE)
        return answer(
            require(
                wanted <= best,
                rule=PHYSICAL,
                label="Holding",
                yes="It stays.",
                tight="It stays: {right} against the {left} that is wanted, with little to spare.",
                no=f"It may roll away: {{left}} of hold is wanted and there is {{right}}. After {self.roll_out} it runs at {speed}.",
            ),
            *self._height(),
            say=f"It stays: it pulls {pull} downhill and is held with {best}.",
            notes=self._notes(pull, hand),
            downhill_pull=pull,
            wanted_hold=wanted,
            brake_hold=brake,
            chock_hold=chocks,
            runaway_speed=speed,
            runaway_energy=energy,
            heaviest_by_hand=limit(
                "M_p", "Heaviest that one person can hold back here", hand / (slope.gravity() * part), kg
            ),
        )

    def _brake(self) -> Quantity:
        if self.brake == PARKING:
            return limit("F_2", "Held by the brake", self.brake_holds, N)
        because = "an overrun brake does not hold what is parked" if self.brake == OVERRUN else "there is no brake"
        return limit("F_2", f"Held by the brake: {because}", 0 * N, N)

    def _chocks(self, weight: Quantity) -> Quantity:
        """What the chocks hold: the tyre climbs over, or the chock slides away under it, whichever comes first."""
        if self.chocks == NO_CHOCK:
            return limit("F_3", "Held by chocks: there are none", 0 * N, N)
        count = constant("n_c", "Wheels chocked", float(CHOCKED[self.chocks]) * one, COMMON_PRACTICE)
        carry = constant("n_w", "Wheels that carry", float(self.wheels) * one, COMMON_PRACTICE)
        pressing = step("N", "Weight on the chocked wheels", weight * count / carry, N)
        grips = table("friction").read("μ", f"Grip on ground that is {self.ground}", self.ground, "friction")
        radius = self.wheel_diameter / 2
        if (self.chock_height >= radius).holds:
            return limit("F_3", "Held by chocks, until they slide", pressing * grips, N, OWN_DERIVATION)
        climbs = edge.pull_over_weight(radius, self.chock_height)
        return limit(
            "F_3",
            "Held by chocks, until it climbs or they slide",
            pressing * smallest(climbs, grips),
            N,
            OWN_DERIVATION,
        )

    def _height(self) -> tuple[Requirement, ...]:
        if self.chocks == NO_CHOCK:
            return ()
        quarter = constant("k_4", "Share of the tyre's height that a chock should have", 0.25 * one, COMMON_PRACTICE)
        return (
            require(
                self.chock_height >= need("h_1", "Least height of a chock", quarter * self.wheel_diameter, mm),
                exact=True,
                label="Chock",
                yes="The chock is high enough.",
                no="The chock is {left} high; under {right} a nudge rolls the tyre over it.",
            ),
        )

    def _notes(self, pull: Quantity, hand: Quantity) -> tuple[str, ...]:
        said = [f"Holding it by hand is no plan: one person holds back {hand} at most, and it pulls {pull}."]
        if self.brake != PARKING or self.chocks == NO_CHOCK:
            said.append("One thing alone holds it. Brakes slip and chocks are kicked away: use both.")
        return tuple(said)

    fixes = (
        option("chocks", TWO, "Chock two wheels on the downhill side"),
        more("chock_height", 10 * mm, "Use chocks {chock_height} high"),
        option("brake", PARKING, "Fit a parking brake that holds this much, and measure it"),
        less("grade", 0.5 * percent, "Park where it is {grade} at most, or across the slope"),
        less("mass", 10 * kg, "Take load off until it weighs {mass}"),
    )
    cautions = (
        Caution(
            "DANGER",
            "A loaded rig that rolls away kills",
            "It is faster than a running person within a few metres and crushes whoever it pins",
            "Nobody stands downhill of it, ever: not to hold it, not to chock it. Chock from the side, brake on first",
        ),
        Caution(
            "WARNING",
            "Whoever tries to stop it by hand is dragged or run over",
            "Legs and hands are broken",
            "Shout, stand aside, let it go",
        ),
        Caution(
            "WARNING",
            "Unhitching on a slope lets it go",
            "The hitch was the brake",
            "Brake on and wheels chocked before the hitch is opened",
        ),
    )
    examples = (
        Example(
            given={"mass": "100 kg", "grade": "8", "brake": NO_BRAKE, "chocks": NO_CHOCK, "roll_out": "10 m"},
            expect={"runaway_speed": "3.95 m/s"},
            within=0.002,
            verdict="no",
            source=FREE_FALL.at("v² = 2·g·h with h = 10 m · sin(atan 0.08) = 0.797 m"),
        ),
        Example(
            given={
                "mass": "160 kg",
                "grade": "8",
                "brake": PARKING,
                "brake_holds": "300 N",
                "chocks": TWO,
                "wheels": "2",
                "ground": "dry",
            },
            expect={"runaway_energy": "1250 J"},
            within=0.002,
            verdict="go",
            source=FREE_FALL.at("m·g·h = 160 kg · 9.80665 m/s² · 0.797 m"),
        ),
    )
