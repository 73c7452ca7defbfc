"""The page /roll/step/: a wheel at an edge pushed level at the axle, against what people can give for a moment.

A step that a bicycle wheel does not notice stops a caster dead: gaps and cords on the floor count too.
"""

from __future__ import annotations

from calc.check import (
    Answer,
    Caution,
    Check,
    Example,
    answer,
    ask_fact,
    less,
    more,
    next_option,
    option,
    pick,
    pick_fact,
    require,
)
from calc.laws import edge, pushing, slope
from calc.quantity import Quantity, constant, limit, need, root, step
from calc.sources import COMMON_PRACTICE, FROM_MEMORY, HSE_L23, OWN_DERIVATION, Source
from calc.units import N, kg, m, mm, one

KERB, GAP = "a step up", "a gap across"
LEVERS = Source("Equilibrium of a wheel at an edge, a text of statics", "", FROM_MEMORY)


class Step(Check):
    """Will it go over that step or gap?"""

    title = "Over a step"
    headline = "force"

    mass: Quantity = ask_fact("M", "chassis.loaded_mass", 251 * kg, common=(100 * kg, 200 * kg, 300 * kg))
    wheels: str = pick_fact("chassis.wheels", "4")
    at_once: str = pick(
        "Wheels that meet it at once", ("1", "2"), "2", habit=True, help="One, if it is taken at an angle"
    )
    wheel_diameter: Quantity = ask_fact(
        "d", "chassis.wheel_diameter", 400 * mm, common=(100 * mm, 200 * mm, 330 * mm, 400 * mm)
    )
    obstacle: str = pick_fact("place.obstacle", KERB)
    step_height: Quantity = ask_fact(
        "h_s", "place.step_height", 25 * mm, when={"obstacle": (KERB,)}, common=(8 * mm, 15 * mm, 25 * mm, 100 * mm)
    )
    gap_width: Quantity = ask_fact("w", "place.gap_width", 40 * mm, when={"obstacle": (GAP,)})
    handle_height: Quantity = ask_fact("h", "chassis.handle_height", 950 * mm)
    people: str = pick_fact("work.people", "1")

    def solve(self) -> Answer:
        pushing.refuse_hands_out_of_reach(self.handle_height)
        radius = step("r", "Radius of the wheel", self.wheel_diameter / 2, mm)
        height = self.step_height if self.obstacle == KERB else edge.drop_into_gap(radius, self.gap_width)
        below = require(
            height < radius,
            exact=True,
            label="Lower than the axle",
            yes="A push can lift the wheel over it.",
            no="It is {left} high and the axle {right}: no push climbs it. Lift it, or lay a ramp.",
        )
        if below.verdict == "no":
            return answer(below, say="", obstacle_height=height)
        meeting = constant("n_e", "Wheels at the edge", float(self.at_once) * one, COMMON_PRACTICE)
        carry = constant("n_w", "Wheels that carry", float(self.wheels) * one, COMMON_PRACTICE)
        pressing = need("N", "Weight on the wheels at the edge", slope.weight(self.mass) * meeting / carry, N)
        share = edge.pull_over_weight(radius, height)
        force = need("F", "Push to climb it", pressing * share, N, OWN_DERIVATION)
        limits = pushing.to_start(self.people)
        who = pushing.who_pushes(self.people)
        grade = constant("s_12", "Grade of a usual ramp", 1 / (12 * one), COMMON_PRACTICE)
        return answer(
            below,
            require(
                force <= limits.most,
                comfortable=force <= limits.easy,
                label="Push",
                yes="It goes over.",
                tight=f"It takes {{left}}: more than the {limits.easy} that suits nearly everybody, within the {{right}} for strong people, {who} pushing.",
                no=f"It takes {{left}} to climb; {{right}} is the most that {who} should give. It stops dead, and throws whoever pushes.",
            ),
            say=f"It goes over with a push of {force:up}.",
            notes=(
                "An inflated tyre gives way and climbs a little better than this; pulling upward helps, pushing down on the handle does not.",
            ),
            force=force,
            force_over_weight=share,
            obstacle_height=height,
            ramp_length=need("L_r", "Length of a 1:12 ramp up to it", height / grade, m, OWN_DERIVATION),
            highest_step=self._highest(radius, limits.easy / pressing),
        )

    def _highest(self, radius: Quantity, share: Quantity) -> Quantity:
        """The edge that the same wheels climb with what suits nearly everybody."""
        return limit(
            "h_max",
            "Highest edge with a push that suits nearly everybody",
            radius * (1 - 1 / root(1 + share**2)),
            mm,
            OWN_DERIVATION,
        )

    fixes = (
        option("at_once", "1", "Take it at an angle, one wheel at a time"),
        next_option("people", "Push with {people} people"),
        more("wheel_diameter", 25 * mm, "Fit wheels of {wheel_diameter}"),
        less("step_height", 1 * mm, "Lay a board or wedge so that no edge is over {step_height}"),
        less("gap_width", 5 * mm, "Bridge it until no gap is over {gap_width}"),
        less("mass", 10 * kg, "Take load off until it weighs {mass}"),
    )
    cautions = (
        Caution(
            "WARNING",
            "A rig that stops dead at an edge throws whoever pushes it, or tips over",
            "Ribs and wrists break; a tall load falls forward",
            "Stop at the edge, then push slowly; never take it at a run",
        ),
        Caution(
            "WARNING",
            "Coming down a step it runs away by itself",
            "It pulls whoever holds it along",
            "Down a step go backward, wheels first, with a second person holding; nobody stands below",
        ),
    )
    examples = (
        Example(
            given={"mass": "100 kg", "wheels": "4", "at_once": "2", "wheel_diameter": "100 mm", "step_height": "25 mm"},
            expect={"force_over_weight": "1.73"},
            verdict="no",
            source=LEVERS.at("h = r/2: tan 60° = √3"),
        ),
        Example(
            given={"mass": "80 kg", "wheels": "4", "at_once": "1", "wheel_diameter": "330 mm", "step_height": "25 mm"},
            expect={"force_over_weight": "0.62"},
            verdict="go",
            source=HSE_L23.at("15 kgf to start; tan(acos(1 − 25/165)) = 0.623"),
        ),
        Example(
            given={"mass": "40 kg", "obstacle": GAP, "gap_width": "120 mm", "wheel_diameter": "200 mm"},
            expect={"obstacle_height": "20 mm"},
            source=LEVERS.at("100 − √(100² − 60²)"),
        ),
    )
