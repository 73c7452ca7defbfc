"""The page /roll/ramp-tip/: the polygon of wheels and props, and the weakest way over it.

The half-track formula is the naive answer: it knows the sides only. A single axle parked on its prop goes over
backward long before, and a wagon loses its corner as it steers.
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
    Named,
    Requirement,
    answer,
    ask,
    ask_fact,
    less,
    more,
    option,
    pick,
    pick_fact,
    require,
)
from calc.laws import slope, support
from calc.quantity import Quantity, arctangent, constant, limit, need, smallest, step, tangent
from calc.sources import COMMON_PRACTICE, FROM_MEMORY, OWN_DERIVATION, Source
from calc.units import degree, m, mm, mph, one, percent

UP, DOWN = "none, or up", "down"
BOTH_HOLD, ROCKS = "both its wheels carry", "rocks about its middle"
STATICS = Source("Moments of a rigid body, a text of statics", "", FROM_MEMORY)


class RampTip(Check):
    """On what slope does it tip?"""

    title = "Tipping over"
    headline = "weakest_angle"

    kind: str = pick_fact("chassis.kind", support.WAGON)
    track: Quantity = ask_fact("t", "chassis.track", 760 * mm, common=(600 * mm, 700 * mm, 800 * mm))
    wheelbase: Quantity = ask_fact(
        "b",
        "chassis.wheelbase",
        1100 * mm,
        when={"kind": support.ON_FOUR},
        help="Front axle to rear axle; with casters, as they stand farthest in",
    )
    front_axle: str = pick(
        "Its front axle",
        (BOTH_HOLD, ROCKS),
        ROCKS,
        habit=True,
        when={"kind": (support.WAGON,)},
        help="Lift one front wheel by hand: if the body does not follow at once, it rocks",
    )
    swing: Quantity = ask_fact(
        "δ",
        "chassis.drawbar_swing",
        60 * degree,
        when={"front_axle": (BOTH_HOLD,)},
        common=(30 * degree, 45 * degree, 60 * degree, 90 * degree),
    )
    prop_ahead: Quantity = ask_fact("p", "chassis.prop_ahead", 1000 * mm, when={"kind": support.ON_A_PROP})
    rear_prop: str = pick(
        "A prop at the back",
        (UP, DOWN),
        UP,
        habit=True,
        when={"kind": support.ON_A_PROP},
        help="A leg behind the axle, wound down on firm ground",
    )
    prop_behind: Quantity = ask_fact("p_r", "chassis.prop_behind", 400 * mm, when={"rear_prop": (DOWN,)})
    cg_ahead: Quantity = ask_fact(
        "x",
        "chassis.cg_ahead",
        544 * mm,
        help="The page on weights works it out; or the load on the prop over the whole weight, times its distance",
    )
    cg_aside: Quantity = ask_fact("y", "chassis.cg_aside", 9 * mm)
    cg_height: Quantity = ask_fact("z", "chassis.cg_height", 542 * mm)
    grade: Quantity = ask_fact(
        "θ",
        "place.slope",
        8 * percent,
        common=(0 * percent, 5 * percent, 8.33 * percent, 12.5 * percent),
        help="Lay the phone on it; a 1:8 ramp is 12.5 %",
    )
    turn_speed: Quantity = ask(
        "v",
        "Speed in the tightest turn",
        0 * mph,
        low=0 * mph,
        high=30 * mph,
        habit=True,
        common=(0 * mph, 3 * mph, 5 * mph, 10 * mph),
        help="0 while parked; a walk is 3 mph",
    )
    turn_radius: Quantity = ask(
        "r",
        "Radius of that turn",
        4 * m,
        low=1 * m,
        high=50 * m,
        habit=True,
        help="Half the width of the circle it makes",
    )

    def solve(self) -> Answer:
        edges = self._edges()
        stands = self._stands(min((edge.inside for edge in edges), key=lambda each: each.si))
        angles = {edge: support.tipping_angle(edge, self.cg_height) for edge in edges}
        weakest_edge = min(edges, key=lambda edge: angles[edge].si)
        weakest = limit("α", "Slope on which it tips, the weakest way", smallest(*angles.values()), degree)
        if stands.verdict == NO:
            return answer(stands, say="", weakest_angle=weakest)
        sideways = self._over("α_s", "sideways", [angles[edge] for edge in edges if edge.way in support.SIDEWAYS])
        backward = self._over("α_r", "backward", [angles[edge] for edge in edges if support.BACKWARD in edge.way])
        return answer(
            stands,
            self._at_least("Every way", weakest, 10, 15, weakest_edge.way),
            self._at_least("Sideways", sideways, 10, 20, "sideways"),
            self._on_the_slope(weakest, weakest_edge.way),
            *self._turning(sideways),
            say=f"It tips at {weakest}, {weakest_edge.way}; the ground it meets is of {self.grade}.",
            notes=self._naive(weakest, weakest_edge.way),
            weakest_angle=weakest,
            weakest_way=Named(weakest_edge.way, "The way it tips first"),
            sideways_angle=sideways,
            backward_angle=backward,
            weakest_grade=limit(
                "s_max",
                "The same as a grade",
                smallest(*(edge.inside for edge in edges)) / self.cg_height,
                percent,
                STATICS,
            ),
        )

    def _edges(self) -> list[support.Edge]:
        middle = support.Middle(self.cg_ahead, self.cg_aside)
        if self.kind == support.FOUR:
            return support.rectangle(self.track, self.wheelbase, middle)
        if self.kind == support.WAGON:
            if self.front_axle == ROCKS:
                return support.on_a_prop(self.track, self.wheelbase, middle)
            return support.steered(self.track, self.wheelbase, self.swing, middle)
        if self.rear_prop == DOWN:
            return support.on_two_props(self.track, self.prop_ahead, self.prop_behind, middle)
        return support.on_a_prop(self.track, self.prop_ahead, middle)

    def _over(self, symbol: str, way: str, angles: list[Quantity]) -> Quantity:
        return limit(symbol, f"Slope on which it tips {way}", smallest(*angles), degree)

    def _stands(self, least: Quantity) -> Requirement:
        return require(
            least > 0 * mm,
            exact=True,
            label="Stands at all",
            yes="Its weight is inside what it stands on.",
            no="It falls over on level ground: its weight is outside what it stands on.",
        )

    def _at_least(self, label: str, angle: Quantity, least: float, good: float, way: str) -> Requirement:
        mark = label[0].lower()
        enough = constant(f"α_{mark}1", f"Least that is wanted, {label.lower()}", least * degree, COMMON_PRACTICE)
        plenty = constant(f"α_{mark}2", f"What is good, {label.lower()}", good * degree, COMMON_PRACTICE)
        return require(
            angle >= enough,
            comfortable=angle >= plenty,
            label=label,
            yes="It stands well.",
            tight=f"It tips {way} at {{left}}; {plenty} would be good. A ramp, a bump and a soft tyre together reach that.",
            no=f"It tips {way} at only {{left}}: a kerb, a hole or somebody leaning on it is enough. {{right}} is the least.",
        )

    def _on_the_slope(self, tips: Quantity, way: str) -> Requirement:
        withstands = limit(
            "s_w",
            f"Slope it withstands {way}, tyres giving way",
            tangent(self._soft() * tips),
            percent,
            COMMON_PRACTICE,
        )
        return require(
            self.grade <= withstands,
            rule=PHYSICAL,
            label="On the slope",
            yes="The ground is flat enough.",
            tight=f"The slope is {{left}} of the {{right}} that it withstands {way}.",
            no=f"The slope is {{left}} and it withstands only {{right}} {way}: it goes over.",
        )

    def _turning(self, sideways: Quantity) -> tuple[Requirement, ...]:
        """In a turn the weight leans outward as on a steeper slope."""
        if self.turn_speed.si == 0:
            return ()
        outward = self.turn_speed**2 / (slope.gravity() * self.turn_radius)
        turn = need("β_t", "What the turn adds, as an angle", arctangent(outward), degree, STATICS)
        if self.grade.si > 0:
            turn = need("β_w", "Lean in the turn, on the slope", turn + arctangent(self.grade), degree)
        withstands = limit("α_w", "Lean it withstands sideways, tyres giving way", self._soft() * sideways, degree)
        return (
            require(
                turn <= withstands,
                rule=PHYSICAL,
                label="In the turn",
                yes="The turn is slow enough.",
                tight="In the turn it leans as on {left}, of the {right} that it withstands.",
                no="In the turn it leans as on {left} and withstands only {right}: it goes over.",
            ),
        )

    def _soft(self) -> Quantity:
        return constant("k_w", "Left of it with soft tyres and springs", 0.8 * one, COMMON_PRACTICE)

    def _naive(self, weakest: Quantity, way: str) -> tuple[str, ...]:
        half = step("α_n", "Half the track over the height", arctangent(self.track / 2 / self.cg_height), degree)
        said = [
            f"Half the track over the height would say {half}; it is {weakest}, {way}.",
            "What swings or shifts (a hung cord, a half-full tank, a person on the edge) takes more off.",
        ]
        if self.kind == support.WAGON and self.front_axle == BOTH_HOLD:
            said.append("Reckoned for the drawbar swung as far as it goes, toward the heavy side.")
        return tuple(said)

    fixes = (
        more("cg_ahead", 20 * mm, "Move weight so that its middle is {cg_ahead} ahead of the axle"),
        option("rear_prop", DOWN, "Wind a rear prop down whenever it is parked"),
        less("cg_height", 20 * mm, "Bring weight down until its middle is {cg_height} high"),
        more("track", 20 * mm, "Widen the track to {track}"),
        more("prop_ahead", 50 * mm, "Set the front prop {prop_ahead} ahead of the axle"),
        option("front_axle", BOTH_HOLD, "Block the front axle so that it cannot rock"),
        less("swing", 5 * degree, "Stop the drawbar's swing at {swing}"),
        less("grade", 0.5 * percent, "Keep to ground of {grade} at most"),
        less("turn_speed", 0.5 * mph, "Take turns at {turn_speed} at most"),
    )
    cautions = (
        Caution(
            "DANGER",
            "A tipping rig crushes whoever stands on its low side or behind it",
            "Its weight falls in a second, and nobody holds it",
            "Stand uphill or ahead; never reach under it; load the front first and unload the back first",
        ),
        Caution(
            "WARNING",
            "A battery on its side can short, leak or burn",
            "Fire hours later",
            "If it went over: away from people and buildings, main switch off if it can be reached safely, watch it for a day",
        ),
    )
    examples = (
        Example(
            given={
                "kind": support.FOUR,
                "track": "1000 mm",
                "wheelbase": "2000 mm",
                "cg_ahead": "1000 mm",
                "cg_aside": "0 mm",
                "cg_height": "500 mm",
                "grade": "0",
            },
            expect={"weakest_angle": "45.0 °", "sideways_angle": "45.0 °"},
            verdict="go",
            source=STATICS.at(
                "a block tips when its centre of gravity is over its edge: tan α = half the base over the height"
            ),
        ),
        Example(
            given={
                "kind": support.SINGLE,
                "track": "700 mm",
                "prop_ahead": "1250 mm",
                "cg_ahead": "69 mm",
                "cg_aside": "0 mm",
                "cg_height": "393 mm",
                "grade": "0",
            },
            expect={"weakest_angle": "9.95 °"},
            within=0.001,
            verdict="no",
            source=OWN_DERIVATION.at("tan α = 69/393, backward over the axle; half the track would say 41.7°"),
        ),
        *(
            Example(
                given={
                    "kind": support.SINGLE,
                    "track": "800 mm",
                    "prop_ahead": "1200 mm",
                    "rear_prop": DOWN,
                    "prop_behind": "400 mm",
                    "cg_ahead": "0 mm",
                    "cg_aside": "0 mm",
                    "cg_height": "282.84 mm",
                    "grade": "0",
                },
                expect={"backward_angle": "45.0 °"},
                verdict="go",
                rules=rules,
                source=STATICS.at("400 mm aside and 400 mm back: the edge is 400/√2 = 282.8 mm away"),
            )
            for rules in RULE_SETS
        ),
    )
