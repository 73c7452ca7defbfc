"""The page /roll/push/: the force to start it and the force to keep it going, against published screening limits.

The limits are for hands between knuckle and shoulder, and for some twenty metres before a rest. A slope costs more than
soft ground: at 2 % grade a wheel that rolls at 2 % of the weight asks twice the force.
"""

from __future__ import annotations

from collections.abc import Mapping

from calc.check import (
    NO,
    Answer,
    Caution,
    Check,
    Example,
    Named,
    Requirement,
    Result,
    answer,
    ask,
    ask_fact,
    less,
    more,
    next_option,
    option,
    pick,
    pick_fact,
    require,
)
from calc.laws import pushing, rolling, slope, soft_ground
from calc.quantity import OutsideValidity, Quantity, alternative, constant, limit, need, smallest, step
from calc.sources import CART_FORCES_1999, COMMON_PRACTICE, HSE_L23, OWN_DERIVATION
from calc.units import N, kg, kPa, m, mm, one, percent

BY_TABLE, MEASURED, BY_FIRMNESS = "by the tables", "measured with a scale", "by the firmness of soft ground"
SOFT = {"rolling_known": (BY_FIRMNESS,)}


class Push(Check):
    """Can I push it there?"""

    title = "Push it"
    headline = "steady_force"

    mass: Quantity = ask_fact("M", "chassis.loaded_mass", 251 * kg, common=(100 * kg, 200 * kg, 300 * kg))
    rolling_known: str = pick(
        "How it rolls",
        (BY_TABLE, MEASURED, BY_FIRMNESS),
        BY_TABLE,
        habit=True,
        help="One pull with a luggage scale beats every table",
    )
    measured_force: Quantity = ask_fact("F_m", "chassis.rolling_force", 100 * N, when={"rolling_known": (MEASURED,)})
    wheel_kind: str = pick_fact("chassis.wheel_kind", rolling.PNEUMATIC)
    wheel_diameter: Quantity = ask_fact(
        "d",
        "chassis.wheel_diameter",
        400 * mm,
        when={"rolling_known": (BY_TABLE, BY_FIRMNESS)},
        common=(100 * mm, 200 * mm, 330 * mm, 400 * mm),
    )
    firmness: Quantity = ask(
        "CI",
        "Firmness of the ground (cone index)",
        450 * kPa,
        low=20 * kPa,
        high=5000 * kPa,
        when=SOFT,
        common=(200 * kPa, 450 * kPa, 900 * kPa, 1800 * kPa),
        help="Penetrometer, mean of the top 150 mm; some 450 kPa (65 psi) on soft soil, 900 on tilled, 1800 on hard",
    )
    tyre_width: Quantity = ask(
        "w_t",
        "Width of the tyre",
        100 * mm,
        low=20 * mm,
        high=400 * mm,
        when=SOFT,
        common=(50 * mm, 100 * mm, 150 * mm),
        help="Where it meets the ground",
    )
    wheels: str = pick("Wheels that carry it", ("2", "3", "4"), "4", when=SOFT, help="Count them; shared alike")
    surface: str = pick_fact("place.surface", "packed gravel", when={"rolling_known": (BY_TABLE,)})
    grade: Quantity = ask_fact(
        "θ",
        "place.slope",
        8 * percent,
        common=(0 * percent, 2 * percent, 5 * percent, 8.33 * percent),
        help="Lay the phone on it; a 1:12 ramp is 8.33 %",
    )
    handle_height: Quantity = ask_fact("h", "chassis.handle_height", 950 * mm, common=(850 * mm, 950 * mm, 1100 * mm))
    stretch: Quantity = ask_fact("D", "work.stretch", 15 * m, common=(5 * m, 10 * m, 15 * m, 20 * m))
    people: str = pick_fact("work.people", "1")

    def solve(self) -> Answer:
        pushing.refuse_hands_out_of_reach(self.handle_height)
        floats, told = self._on_soft_ground() if self.rolling_known == BY_FIRMNESS else ([], {})
        if any(each.verdict == NO for each in floats):
            return answer(*floats, say="", notes=(), **told)
        share = soft_ground.towed_share(told["wheel_numeric"]) if told else self._rolling_share()
        up = slope.sine(self.grade)
        onto = slope.cosine(self.grade)
        weight = slope.weight(self.mass)
        steady = need("F", "Force to keep it going", weight * (up + share * onto), N, OWN_DERIVATION)
        times = rolling.times_to_start(self.wheel_kind)
        start = need("F_0", "Force to set it moving", weight * (up + times * share * onto), N, OWN_DERIVATION)
        starting, going = pushing.to_start(self.people), pushing.to_keep_moving(self.people)
        return answer(
            self._within("Setting it moving", start, starting, "set it moving"),
            self._within("Keeping it going", steady, going, "keep it going"),
            self._distance(),
            *floats,
            say=f"Yes: {start:up} set it moving and {steady:up} keep it going, within what most people can do.",
            notes=self._where_the_force_goes(weight, up, share),
            steady_force=steady,
            start_force=start,
            holding_back=slope.downhill_pull(self.mass, self.grade),
            rolling_share=share,
            **(
                told
                or {
                    "heaviest": self._heaviest(
                        starting.easy / (up + times * share * onto), going.easy / (up + share * onto)
                    )
                }
            ),
        )

    def _heaviest(self, by_start: Quantity, by_going: Quantity) -> Quantity:
        """Where the share does not depend on the load, as it does on soft ground."""
        lighter = smallest(by_start, by_going) / slope.gravity()
        return limit("M_max", "Heaviest that suits nearly everybody, here", lighter, kg, OWN_DERIVATION)

    def _on_soft_ground(self) -> tuple[list[Requirement], dict[str, Quantity]]:
        """Whether the ground bears the tyres, by the wheel numeric."""
        if self.wheel_kind != rolling.PNEUMATIC:
            raise OutsideValidity(
                "Only inflated tyres were measured on soft ground. A hard wheel cuts in, and how far is not known: lay boards."
            )
        count = constant("n_w", "Wheels that carry", float(self.wheels) * one, COMMON_PRACTICE)
        load = need("W_1", "Weight on one wheel", slope.weight(self.mass) / count, N)
        numeric = soft_ground.wheel_numeric(self.firmness, self.tyre_width, self.wheel_diameter, load)
        bears = require(
            numeric >= soft_ground.least_numeric(),
            exact=True,
            label="Ground",
            yes="The ground bears the tyres.",
            no="The wheel numeric is {left}, under {right} it sinks: lay boards, fit wider tyres, or take load off.",
        )
        return [bears], {"wheel_numeric": numeric}

    def _rolling_share(self) -> Quantity:
        if self.rolling_known == BY_TABLE:
            return rolling.rolling_share(self.wheel_kind, self.wheel_diameter, self.surface)
        return step(
            "c",
            "Share of the weight it takes to roll, as measured",
            self.measured_force / slope.weight(self.mass),
            one,
            OWN_DERIVATION,
        )

    def _within(self, label: str, force: Quantity, limits: pushing.Limits, doing: str) -> Requirement:
        who = pushing.who_pushes(self.people)
        return require(
            force <= limits.most,
            comfortable=force <= limits.easy,
            label=label,
            yes="It can be pushed.",
            tight=f"It takes {{left}} to {doing}: more than the {limits.easy} that suits nearly everybody, within the {{right}} for strong people, {who} pushing.",
            no=f"It takes {{left}} to {doing}; {{right}} is the most that {who} should push. It stops on the way, or hurts a back.",
        )

    def _distance(self) -> Requirement:
        known = constant(
            "D_20", "Distance up to which the limits hold without a rest", 20 * m, HSE_L23.at("about 20 m")
        )
        return require(
            self.stretch <= known,
            exact=True,
            label="Distance",
            yes="The stretch is short enough for the limits.",
            no="{left} without a rest is farther than the {right} that the limits are for.",
        )

    def _where_the_force_goes(self, weight: Quantity, up: Quantity, share: Quantity) -> tuple[str, ...]:
        level = step("F_l", "On the level", weight * share, N)
        steep = step("F_u", "Slope alone", weight * up, N)
        doubles = alternative(
            "θ_2", "Grade that doubles the push on the level", share, "pull uphill equals rolling", percent
        )
        return (
            f"On the level it takes {level}; this slope adds {steep}. A grade of {doubles} doubles the push on the level.",
            "Soft ground under the wheels, half-flat tyres and wheels out of line take more: measure it once with a luggage scale.",
        )

    def found_by_trial(self) -> Mapping[str, Result]:
        enough = next((n for n in pushing.PEOPLE if self.changed({"people": n}).answer().verdict != NO), "")
        label = "People it takes, by trial"
        return {"people_needed": Named(enough or "more than can reach it: lighten it, or use a winch", label)}

    fixes = (
        next_option("people", "Push with {people} people"),
        option("wheel_kind", rolling.PNEUMATIC, "Fit inflated tyres of this size"),
        option("wheel_kind", rolling.HARD, "Fit wheels in line instead of casters"),
        more("wheel_diameter", 25 * mm, "Fit wheels of {wheel_diameter}"),
        more("tyre_width", 10 * mm, "Fit tyres {tyre_width} wide"),
        less("grade", 0.5 * percent, "Use a longer ramp, or another way, of {grade} at most"),
        less("mass", 5 * kg, "Take load off until it weighs {mass}", costs="a second trip"),
        less("stretch", 1 * m, "Rest every {stretch}, wheels chocked"),
    )
    cautions = (
        Caution(
            "DANGER",
            "A loaded rig that gets away on a slope kills whoever stands below it",
            "Nobody can hold it once it rolls: it crushes legs and chests",
            "Keep everybody out of the way downhill; go up by pushing from the side or with a rope round a fixed point; chock at every rest",
            only=lambda check: check.grade.si > 0,
        ),
        Caution(
            "WARNING",
            "Pushing at the limit harms the back and the heart",
            "The limits are for healthy adults on a sound footing, now and then",
            "If it does not move at a steady push, stop; never jerk it; get help or take load off",
        ),
        Caution(
            "CAUTION",
            "Hands and feet are caught between handle, wheel and wall",
            "Fingers break",
            "Keep hands inside the handle, wear firm shoes, look before you walk backward",
        ),
    )
    examples = (
        Example(
            given={
                "mass": "100 kg",
                "wheel_kind": rolling.HARD,
                "wheel_diameter": "100 mm",
                "surface": "asphalt",
                "grade": "0",
            },
            expect={"rolling_share": "0.066", "steady_force": "65 N"},
            verdict="go",
            source=CART_FORCES_1999.at("f = 3.3 mm on asphalt, over a radius of 50 mm; times 980.7 N"),
        ),
        Example(
            given={
                "mass": "100 kg",
                "wheel_kind": rolling.HARD,
                "wheel_diameter": "100 mm",
                "surface": "asphalt",
                "grade": "8.3333",
            },
            expect={"steady_force": "146 N"},
            within=0.005,
            verdict="no",
            source=HSE_L23.at("10 kgf to keep moving; 980.7 N times (sin 4.76° + 0.066 cos 4.76°)"),
        ),
        Example(
            given={
                "mass": "101.97 kg",
                "rolling_known": BY_FIRMNESS,
                "firmness": "500 kPa",
                "tyre_width": "50 mm",
                "wheel_diameter": "400 mm",
                "wheels": "2",
                "grade": "0",
            },
            expect={"wheel_numeric": "20.0", "rolling_share": "0.100"},
            verdict="no",
            source=soft_ground.WHEEL_NUMERIC.at("C_n = 500·0.05·0.4/0.5 = 20; 1.2/20 + 0.04 = 0.10"),
        ),
        Example(
            given={
                "mass": "100 kg",
                "wheel_kind": rolling.HARD,
                "wheel_diameter": "153 mm",
                "surface": "smooth concrete",
                "grade": "0",
            },
            expect={"steady_force": "28 N"},
            within=0.01,
            verdict="go",
            source=CART_FORCES_1999.at("f = 2.2 mm on smooth concrete"),
        ),
    )
