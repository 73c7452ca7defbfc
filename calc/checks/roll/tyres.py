"""The page /roll/tyres/: the downhill wheel at a bump against its rating at its pressure, and its speed.

A rating is for a wheel on the level at its stated pressure and speed. Small cart wheels have a speed rating too.
"""

from __future__ import annotations

from collections.abc import Iterator

from calc.check import (
    NO,
    PHYSICAL,
    Answer,
    Caution,
    Change,
    Check,
    Example,
    Fix,
    Requirement,
    answer,
    ask_fact,
    less,
    more,
    pick_fact,
    require,
)
from calc.laws import rolling, slope
from calc.quantity import Quantity, constant, limit, need, smallest, step
from calc.sources import COMMON_PRACTICE, FROM_MEMORY, OWN_DERIVATION, Source
from calc.tables import table
from calc.units import kg, mm, mph, one, percent, psi

MOMENTS = Source("Moments of a rigid body on a slope, a text of statics", "", FROM_MEMORY)

TOWED = ("towed on a road", "towed off road")


class Tyres(Check):
    """Are the wheels and tyres enough?"""

    title = "Wheels and tyres"
    headline = "wheel_load"

    axle_load: Quantity = ask_fact("M_a", "chassis.axle_load", 127 * kg)
    track: Quantity = ask_fact("t", "chassis.track", 760 * mm)
    cg_aside: Quantity = ask_fact("y", "chassis.cg_aside", 9 * mm)
    cg_height: Quantity = ask_fact("z", "chassis.cg_height", 542 * mm)
    grade: Quantity = ask_fact(
        "θ",
        "place.slope",
        8 * percent,
        common=(0 * percent, 5 * percent, 8.33 * percent, 14 * percent),
        help="Taken as lying across it",
    )
    way: str = pick_fact("place.way", "towed off road")
    wheel_rating: Quantity = ask_fact("R_w", "chassis.wheel_rating", 180 * kg)
    wheel_kind: str = pick_fact("chassis.wheel_kind", rolling.PNEUMATIC)
    stated_pressure: Quantity = ask_fact(
        "p_0", "chassis.stated_pressure", 30 * psi, when={"wheel_kind": (rolling.PNEUMATIC,)}
    )
    pressure: Quantity = ask_fact("p", "now.pressure", 30 * psi, when={"wheel_kind": (rolling.PNEUMATIC,)})
    speed: Quantity = ask_fact("v", "tow.speed", 12 * mph, when={"way": TOWED})
    rated_speed: Quantity = ask_fact(
        "v_w", "chassis.rated_speed", 15 * mph, common=(3 * mph, 6 * mph, 10 * mph, 15 * mph, 50 * mph)
    )

    def solve(self) -> Answer:
        down, onto = slope.sine(self.grade), slope.cosine(self.grade)
        share = step(
            "q",
            "Share of the axle on its downhill wheel",
            (onto * (self.track / 2 + self.cg_aside) + down * self.cg_height) / self.track,
            percent,
            MOMENTS,
            rounds=1,
        )
        still = need("M_w", "On the downhill wheel, standing", self.axle_load * share, kg, OWN_DERIVATION)
        times = table("bump_factor").read("k_b", f"Times that at a bump, {self.way}", self.way, "times")
        load = need("M_b", "On that wheel at a bump", times * still, kg, OWN_DERIVATION)
        carries = self._carries()
        return answer(
            require(
                load <= carries,
                rule=PHYSICAL,
                label="Load",
                yes="The wheels carry it.",
                tight="At a bump the downhill wheel carries {left} of its {right}.",
                no="At a bump the downhill wheel carries {left}; it is good for {right}. It bursts or its rim bends.",
            ),
            *self._pressure(),
            require(
                self._fastest() <= self.rated_speed,
                rule=PHYSICAL,
                label="Speed",
                yes="The wheels are fast enough.",
                tight="It goes {left} of the {right} that the wheels are rated for.",
                no="It goes {left}; the wheels are rated for {right}. Their bearings and rubber overheat and come apart.",
            ),
            say=f"They carry it: {load:up} at a bump, of {carries}.",
            notes=(
                "The rating counts a wheel on the level that stands still; the slope and the bump are yours to add.",
            ),
            wheel_load=load,
            standing_load=still,
            downhill_share=share,
            wheel_carries=carries,
        )

    def _fastest(self) -> Quantity:
        if self.asked("speed"):
            return self.speed
        return constant("v_p", "Fastest at which it is pushed, a walk", 3 * mph, COMMON_PRACTICE)

    def _carries(self) -> Quantity:
        if self.wheel_kind != rolling.PNEUMATIC:
            return limit("R", "What one wheel carries", self.wheel_rating, kg)
        full = constant("1×", "No tyre is credited with more than its rating", 1 * one, COMMON_PRACTICE)
        filled = smallest(full, self.pressure / self.stated_pressure)
        return limit("R", "What one tyre carries at its pressure", self.wheel_rating * filled, kg, COMMON_PRACTICE)

    def _pressure(self) -> tuple[Requirement, ...]:
        if self.wheel_kind != rolling.PNEUMATIC:
            return ()
        over = constant("k_p", "Times the stated pressure that a tyre may have", 1.1 * one, COMMON_PRACTICE)
        return (
            require(
                self.pressure <= limit("p_max", "Most pressure for the tyre", over * self.stated_pressure, psi),
                exact=True,
                label="Pressure",
                yes="The tyre is not pumped too hard.",
                no="It has {left} and should have {right} at most: it can burst.",
            ),
        )

    def _pumped(self) -> Iterator[Change]:
        """To the pressure that the rating is for: less may do, but nobody pumps to less."""
        if self.asked("pressure") and (self.pressure < self.stated_pressure).holds:
            yield {"pressure": self.stated_pressure}

    fixes = (
        Fix("Pump the tyres to {pressure}", lambda check: check._pumped()),
        more("wheel_rating", 10 * kg, "Fit tyres of a higher ply, rated for {wheel_rating}"),
        less("speed", 1 * mph, "Go {speed} at most"),
        more("rated_speed", 1 * mph, "Fit wheels rated for {rated_speed}"),
        less("axle_load", 10 * kg, "Take load off until the axle carries {axle_load}"),
        less("cg_height", 20 * mm, "Bring weight down until its middle is {cg_height} high"),
    )
    cautions = (
        Caution(
            "WARNING",
            "A tyre that bursts while it is pumped throws its rim",
            "It hits face and hands",
            "Pump from the side, with a gauge, never over the pressure on its side",
        ),
        Caution(
            "WARNING",
            "A wheel that fails on a slope tips the rig",
            "It falls to that side, on whoever walks there",
            "Look at tyres and bearings before each trip; walk on the uphill side",
        ),
    )
    examples = (
        Example(
            given={
                "axle_load": "150 kg",
                "track": "700 mm",
                "cg_aside": "0 mm",
                "cg_height": "393 mm",
                "grade": "14.054",
                "way": "pushed over rough ground",
            },
            expect={"downhill_share": "57.3 %"},
            within=0.002,
            verdict="go",
            source=MOMENTS.at("(cos 8°·350 + sin 8°·393)/700 = 0.5733"),
        ),
        Example(
            given={
                "axle_load": "200 kg",
                "wheel_rating": "150 kg",
                "way": "towed off road",
                "grade": "0",
                "cg_aside": "0 mm",
            },
            expect={"wheel_load": "200 kg"},
            verdict=NO,
            source=MOMENTS.at("half the axle on each wheel, doubled at a bump"),
        ),
    )
