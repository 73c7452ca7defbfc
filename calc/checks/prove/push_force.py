"""The page /prove/push-force/: two pulls with a luggage scale, there and back, and what the wheels really take.

Both ways over the same stretch, the slope drops out of the mean and the mean drops out of the difference.
"""

from __future__ import annotations

from calc.check import NO, Answer, Caution, Check, Example, answer, ask_fact, ask_reading, pick_fact, require
from calc.checks.measured import likely, must_read
from calc.laws import rolling, slope
from calc.quantity import OutsideValidity, Quantity, constant, largest, need, smallest, step
from calc.sources import COMMON_PRACTICE, OWN_DERIVATION, TYRE_TABLES
from calc.units import N, kg, mm, one, percent


class PushForce(Check):
    """Does it roll as easily as it should?"""

    title = "Pull on a luggage scale"
    headline = "rolling_share"

    forth: Quantity = ask_reading("F_1", "pull forth", 170 * N)
    back: Quantity = ask_reading("F_2", "pull back", 150 * N)
    starting: Quantity = ask_reading("F_0", "pull to start", 240 * N)
    mass: Quantity = ask_fact("M", "chassis.loaded_mass", 251 * kg)
    wheel_kind: str = pick_fact("chassis.wheel_kind", rolling.PNEUMATIC)
    wheel_diameter: Quantity = ask_fact(
        "d", "chassis.wheel_diameter", 400 * mm, common=(100 * mm, 200 * mm, 330 * mm, 400 * mm)
    )
    surface: str = pick_fact("place.surface", "packed gravel")

    def solve(self) -> Answer:
        self._level_enough()
        weight = slope.weight(self.mass)
        mean = need("F_m", "Pull on the level, both ways", (self.forth + self.back) / 2, N)
        measured = step(
            "c_m", "Share of the weight it takes to roll, measured", mean / weight, one, OWN_DERIVATION, rounds=1
        )
        expected = rolling.rolling_share(self.wheel_kind, self.wheel_diameter, self.surface)
        quarter = constant("k_25", "Times the tables, still good", 1.25 * one, COMMON_PRACTICE)
        half = constant("k_50", "Times the tables, at most", 1.5 * one, COMMON_PRACTICE)
        kick = constant("k_3", "Times the steady pull that a start may take", (2 + 1) * one, COMMON_PRACTICE)
        should = step("F_x", "Pull that the tables expect", weight * expected, N)
        held = [
            require(
                mean <= step("F_50", "Most that it should take", half * should, N),
                comfortable=mean <= step("F_25", "Still as it should be", quarter * should, N),
                label="Rolling",
                yes="It rolls as easily as it should.",
                tight=f"It takes {{left}} where the tables expect {should}.",
                no=f"It takes {{left}} where the tables expect {should}: something drags.",
            ),
            require(
                self.starting <= step("F_s", "Most that the start should take", kick * mean, N),
                exact=True,
                label="Starting",
                yes="It starts as easily as it should.",
                no="It takes {left} to start; {right} would be much. A brake sticks, or the tyres have flats.",
            ),
        ]
        return answer(
            *held,
            say=f"It takes {mean:up} on the level, {should} was expected.",
            notes=likely(
                held,
                "tyres half flat (the pressure on their side)",
                "a brake that is not quite off",
                "wheels out of line: measure across the front and across the rear of a pair",
                "a dry or worn bearing: spin each wheel",
                "ground softer than its name",
            )
            + self._too_easily(mean, should)
            + (
                "What was measured here is for this ground and this load; on the page about pushing it takes the place of the tables.",
            ),
            rolling_share=measured,
            pull_on_the_level=mean,
            expected_pull=should,
            slope_of_the_stretch=step(
                "θ_s", "Slope of the stretch, by the difference", self._apart() / (2 * weight), percent, OWN_DERIVATION
            ),
        )

    def _too_easily(self, mean: Quantity, should: Quantity) -> tuple[str, ...]:
        half = constant("k_h", "Times the tables, under which the scale is doubted first", 0.5 * one, COMMON_PRACTICE)
        if (mean < half * should).holds:
            return (
                f"It takes less than half of the {should} that the tables expect: was the pull steady, and the scale read in the right unit?",
            )
        return ()

    def _apart(self) -> Quantity:
        return largest(self.forth, self.back) - smallest(self.forth, self.back)

    def _level_enough(self) -> None:
        """Where the slope is more than the rolling, the mean says little: OutsideValidity."""
        apart = step("ΔF", "Difference of the two pulls", self._apart(), N)
        if (apart > smallest(self.forth, self.back)).holds:
            raise OutsideValidity(f"The two pulls differ by {apart}: this stretch is a slope. Find a more level one.")

    fixes = (
        must_read(
            "forth",
            2 * N,
            "Pump the tyres, free the brake, line the wheels up, and pull again: forth it must take {forth} or less",
            down=True,
        ),
        must_read(
            "starting",
            2 * N,
            "Free the brake, pump the tyres, and pull again: to start it must take {starting} or less",
            down=True,
        ),
    )
    cautions = (
        Caution(
            "WARNING",
            "A rig on wheels that is pulled by hand comes after you",
            "It cannot be held on a slope once it rolls",
            "Level ground, a second person at the brake, never in front of it downhill",
        ),
    )
    examples = (
        Example(
            given={
                "forth": "29.4 N",
                "back": "29.4 N",
                "starting": "44 N",
                "mass": "100 kg",
                "wheel_diameter": "330 mm",
                "surface": "smooth concrete",
            },
            expect={"expected_pull": "29.4 N", "rolling_share": "0.03"},
            within=0.001,
            verdict="go",
            source=TYRE_TABLES.at("0.03 for a small tyre on concrete, of 980.7 N"),
        ),
        Example(
            given={
                "forth": "62 N",
                "back": "58 N",
                "starting": "90 N",
                "mass": "100 kg",
                "wheel_diameter": "330 mm",
                "surface": "smooth concrete",
            },
            verdict=NO,
            source=TYRE_TABLES.at("0.03 for a small tyre on concrete: 29.4 N, half of what it takes"),
        ),
        Example(
            given={
                "forth": "39.2 N",
                "back": "19.6 N",
                "starting": "44 N",
                "mass": "100 kg",
                "wheel_diameter": "330 mm",
                "surface": "smooth concrete",
            },
            expect={"slope_of_the_stretch": "1 %", "pull_on_the_level": "29.4 N"},
            within=0.001,
            verdict="go",
            source=OWN_DERIVATION.at("half the sum rolls, half the difference climbs: 9.8 N of 980.7 N"),
        ),
    )
