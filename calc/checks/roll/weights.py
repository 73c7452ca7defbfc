"""The page /roll/weights/: the middle of the weight, and what axles, wheels and hitch carry.

On a trailer with one axle a few centimetres decide: too little on the tongue sways and tips backward, too much lifts
the front wheels of what pulls it.
"""

from __future__ import annotations

from calc.check import (
    NO,
    PHYSICAL,
    RULE_SETS,
    Answer,
    Caution,
    Check,
    Example,
    Requirement,
    answer,
    ask_fact,
    each,
    how_many,
    less,
    more,
    option,
    pick_fact,
    require,
)
from calc.laws import balance, support
from calc.quantity import Quantity, constant, largest, limit, need, smallest, step
from calc.sources import COMMON_PRACTICE, FROM_MEMORY, NIOSH_LIFTING, OWN_DERIVATION, Source
from calc.units import kg, mm, one, percent

MOMENTS = Source("Moments about a support, a text of statics", "", FROM_MEMORY)
COUNTS = tuple(str(number) for number in range(1, 11))
BY_HAND, JACK = "by hand", "on a jack wheel"
TO_A_HITCH = (support.TWO, support.SINGLE)


class Weights(Check):
    """What do the axles, the wheels and the hitch carry?"""

    title = "Weights and balance"
    headline = "total_mass"

    kind: str = pick_fact("chassis.kind", support.WAGON)
    chassis_mass: Quantity = ask_fact("m_0", "chassis.mass", 85 * kg)
    chassis_ahead: Quantity = ask_fact("x_0", "chassis.bare_ahead", 550 * mm)
    chassis_height: Quantity = ask_fact("z_0", "chassis.bare_height", 350 * mm)
    parts: str = how_many(
        "parts", "Parts on it", COUNTS, "4", "Battery, inverter, panels, tools, water; the small ones together"
    )
    each_part = each(
        "parts",
        "parts",
        COUNTS,
        mass=ask_fact("m", "parts.mass", 40 * kg),
        ahead=ask_fact("x", "parts.ahead", 550 * mm),
        aside=ask_fact("y", "parts.aside", 0 * mm),
        height=ask_fact("z", "parts.height", 600 * mm),
    )
    track: Quantity = ask_fact("t", "chassis.track", 760 * mm)
    wheelbase: Quantity = ask_fact("b", "chassis.wheelbase", 1100 * mm, when={"kind": support.ON_FOUR})
    drawbar: Quantity = ask_fact(
        "D",
        "chassis.drawbar",
        950 * mm,
        when={"kind": TO_A_HITCH},
        help="Hitch ball to the axle; on a hand cart the grip to the axle",
    )
    lifted: str = pick_fact("chassis.lifted", BY_HAND, habit=True, when={"kind": TO_A_HITCH})
    wheel_rating: Quantity = ask_fact("R_w", "chassis.wheel_rating", 180 * kg)
    axle_rating: Quantity = ask_fact("R_a", "chassis.axle_rating", 300 * kg)
    tongue_rating: Quantity = ask_fact("R_t", "chassis.tongue_rating", 50 * kg, when={"kind": (support.SINGLE,)})

    def solve(self) -> Answer:
        whole = balance.together(self._things())
        aside = need(
            "y_a", "Centre of gravity off the middle line, to either side", largest(whole.aside, -whole.aside), mm
        )
        rests = self._on_four(whole, aside) if self.kind in support.ON_FOUR else self._on_two(whole, aside)
        requirements, told = rests
        return answer(
            *requirements,
            say=f"All of it weighs {whole.mass}; its middle is {whole.ahead} ahead of the axle and {whole.height} high.",
            notes=("Load it as listed here and weigh the wheels on a scale once: what was forgotten shows there.",),
            total_mass=whole.mass,
            cg_ahead=whole.ahead,
            cg_aside=aside,
            cg_height=whole.height,
            **told,
        )

    def _things(self) -> list[balance.Part]:
        middle = constant("y_0", "The bare chassis is even on both sides", 0 * mm, COMMON_PRACTICE)
        bare = balance.Part(self.chassis_mass, self.chassis_ahead, middle, self.chassis_height)
        columns = (self.of_each(name) for name in ("mass", "ahead", "aside", "height"))
        return [bare, *(balance.Part(*numbers) for numbers in zip(*columns, strict=True))]

    def _on_four(self, whole: balance.Whole, aside: Quantity) -> tuple[list[Requirement], dict[str, Quantity]]:
        front = balance.carried_ahead("M_f", "On the front axle", whole, self.wheelbase)
        rear = step("M_r", "On the rear axle", whole.mass - front, kg)
        heavy, light = largest(front, rear), smallest(front, rear)
        wheel = balance.heavier_wheel("M_w", "On the heaviest wheel", heavy, aside, self.track)
        lightest = balance.lighter_wheel("M_l", "On the lightest wheel", light, aside, self.track)
        tenth = constant("k_10", "Share of it all that each wheel should carry", 0.1 * one, COMMON_PRACTICE)
        steady = require(
            lightest >= need("M_10", "What the lightest wheel should carry", tenth * whole.mass, kg),
            exact=True,
            label="Lightest wheel",
            yes="Every wheel carries its part.",
            no="The lightest wheel carries {left}; under {right} it lifts at the first bump and does not steer.",
        )
        told = {"front_axle": front, "rear_axle": rear, "heaviest_wheel": wheel, "lightest_wheel": lightest}
        return [*self._ratings(wheel, heavy), steady], told

    def _on_two(self, whole: balance.Whole, aside: Quantity) -> tuple[list[Requirement], dict[str, Quantity]]:
        tongue = balance.carried_ahead("M_t", "On the tongue or handle", whole, self.drawbar)
        axle = step("M_a", "On the axle", whole.mass - tongue, kg)
        share = step("q", "Share of it all on the tongue", tongue / whole.mass, percent, OWN_DERIVATION)
        wheel = balance.heavier_wheel("M_w", "On the heaviest wheel", axle, aside, self.track)
        rests = self._ratings(wheel, axle)
        if self.kind == support.SINGLE:
            rests += self._tongue(tongue, share)
        if self.lifted == BY_HAND:
            rests.append(self._lifting(tongue))
        target = constant("q_12", "Share that tows well", 12 * percent, COMMON_PRACTICE)
        shift = step(
            "Δx",
            "Part 1 moved ahead by this gives that share",
            (target * whole.mass * self.drawbar - whole.mass * whole.ahead) / self.of_each("mass")[0],
            mm,
            OWN_DERIVATION,
        )
        return rests, {
            "tongue_load": tongue,
            "tongue_share": share,
            "axle_load": axle,
            "heaviest_wheel": wheel,
            "shift": shift,
        }

    def _ratings(self, wheel: Quantity, axle: Quantity) -> list[Requirement]:
        return [
            require(
                wheel <= self.wheel_rating,
                rule=PHYSICAL,
                label="Wheels",
                yes="The wheels carry it.",
                tight="The heaviest wheel carries {left} of the {right} that it may; bumps come on top.",
                no="The heaviest wheel carries {left} and may carry {right}: it bursts or bends at a bump.",
            ),
            require(
                need("M_ax", "On the heaviest axle", axle, kg) <= self.axle_rating,
                rule=PHYSICAL,
                label="Axle",
                yes="The axle carries it.",
                tight="The axle carries {left} of its {right}.",
                no="The axle carries {left} and may carry {right}: it bends, or a bearing goes.",
            ),
        ]

    def _tongue(self, tongue: Quantity, share: Quantity) -> list[Requirement]:
        said = (("q_1", 7), ("q_2", 10), ("q_3", 15), ("q_4", 18))
        least, low, high, most = (
            constant(symbol, f"Share on the tongue, bound {symbol[-1]} of four", value * percent, COMMON_PRACTICE)
            for symbol, value in said
        )
        return [
            require(
                share >= least,
                comfortable=share >= low,
                label="Tongue heavy enough",
                yes="Enough is on the tongue.",
                tight=f"Only {{left}} is on the tongue; {low} to {high} tows well. It sways when it is fast.",
                no="Only {left} is on the tongue: it sways, and tips backward when it is unhitched. {right} is the least.",
            ),
            require(
                share <= most,
                comfortable=share <= high,
                label="Tongue light enough",
                yes="The tongue is not too heavy.",
                tight=f"{{left}} is on the tongue; {low} to {high} tows well.",
                no="{left} is on the tongue: it lifts the front wheels of what pulls it. {right} is the most.",
            ),
            require(
                tongue <= self.tongue_rating,
                rule=PHYSICAL,
                label="Hitch",
                yes="The hitch carries it.",
                tight="The hitch carries {left} of its {right}.",
                no="The hitch carries {left} and may carry {right}.",
            ),
        ]

    def _lifting(self, tongue: Quantity) -> Requirement:
        most = limit(
            "L_23", "Most to be lifted by one person", constant("k_23", "Load constant", 23 * kg, NIOSH_LIFTING), kg
        )
        return require(
            tongue <= most,
            rule=PHYSICAL,
            label="Lifting",
            yes="One person can lift its front.",
            tight="Its front weighs {left} to lift; {right} is the most for one person, close to the body.",
            no="Its front weighs {left} to lift; {right} is the most for one person. Use a jack wheel.",
        )

    fixes = (
        option("lifted", JACK, "Fit a jack wheel"),
        more("ahead_1", 10 * mm, "Move part 1 ahead, to {ahead_1}"),
        less("ahead_1", 10 * mm, "Move part 1 back, to {ahead_1}"),
        more("ahead_2", 10 * mm, "Move part 2 ahead, to {ahead_2}"),
        less("aside_4", 10 * mm, "Move part 4 toward the middle, to {aside_4}"),
        more("wheel_rating", 10 * kg, "Fit wheels and tyres rated for {wheel_rating} each"),
        more("axle_rating", 10 * kg, "Fit an axle rated for {axle_rating}"),
    )
    cautions = (
        Caution(
            "DANGER",
            "Under a jacked or propped rig one slip kills",
            "It comes down on whoever is under it",
            "Never reach under it on a jack; block it on level ground first",
        ),
        Caution(
            "WARNING",
            "Lifting batteries and tongues by hand injures backs",
            "A slipped disc, a crushed foot",
            "Lift with two, close to the body, or use a jack; keep terminals covered while lifting",
        ),
        Caution(
            "WARNING",
            "A trailer with too little on its tongue sways and takes the vehicle with it",
            "It cannot be caught at speed",
            "Load the front first, tie everything down, try it slowly",
            only=lambda check: check.kind == support.SINGLE,
        ),
    )
    examples = (
        Example(
            given={
                "kind": support.FOUR,
                "chassis_mass": "100 kg",
                "chassis_ahead": "1000 mm",
                "parts": "1",
                "mass_1": "100 kg",
                "ahead_1": "500 mm",
                "wheelbase": "2000 mm",
            },
            expect={"front_axle": "75 kg", "rear_axle": "125 kg"},
            verdict="go",
            source=MOMENTS.at("100·1.0 + 100·0.5 = F·2.0"),
        ),
        *(
            Example(
                given={
                    "kind": support.SINGLE,
                    "chassis_mass": "60 kg",
                    "chassis_ahead": "20 mm",
                    "parts": "1",
                    "mass_1": "40 kg",
                    "ahead_1": "100 mm",
                    "drawbar": "1250 mm",
                    "lifted": lifted,
                },
                expect={"tongue_load": "4.16 kg", "tongue_share": "4.16 %"},
                verdict=NO,
                rules=rules,
                source=COMMON_PRACTICE.at("10 to 15 % on the tongue; 60·0.02 + 40·0.10 = T·1.25"),
            )
            for rules in RULE_SETS
            for lifted in (BY_HAND, JACK)
        ),
        *(
            Example(
                given={"parts": "6", "kind": kind, "tongue_rating": "100 kg", "drawbar": "5000 mm"}
                | {"mass_1": "92 kg", "mass_2": "21 kg", "mass_3": "44 kg", "mass_4": "9 kg", "mass_5": "10 kg"}
                | {"mass_6": "10 kg"},
                expect={"total_mass": "271 kg"},
                rules=rules,
                source=MOMENTS.at("85 + 92 + 21 + 44 + 9 + 10 + 10"),
            )
            for rules in RULE_SETS
            for kind in (support.WAGON, support.SINGLE)
        ),
    )
