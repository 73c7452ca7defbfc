"""The page /prove/weighing/: front and rear on a scale, against what the rig's pages count with.

A bathroom scale weighs more than it is made for by way of a board: the load between scale and block, nearer the block.
"""

from __future__ import annotations

from calc.check import (
    NO,
    PHYSICAL,
    Answer,
    Caution,
    Check,
    Example,
    Requirement,
    answer,
    ask,
    ask_fact,
    ask_reading,
    pick,
    pick_fact,
    require,
)
from calc.checks.measured import likely, must_read
from calc.laws import support
from calc.quantity import Quantity, constant, largest, smallest, step
from calc.sources import COMMON_PRACTICE, OWN_DERIVATION, Source
from calc.units import kg, m, mm, one, percent

STRAIGHT, BY_A_BOARD = "straight on the scale", "by a board, scale at one end"
SCALE_AND_BOARD = Source(
    "Tongue weight with a bathroom scale and a board, a rule of trailer makers", "", "read in public pages"
)
_ON_TWO = (support.TWO, support.SINGLE)


class Weighing(Check):
    """Does it weigh what was counted, and is the tongue's share right?"""

    title = "On the scale"
    headline = "total_mass"
    measures = {"total_mass": "mass on the scale", "cg_ahead": "centre of gravity by the scale"}

    kind: str = pick_fact("chassis.kind", support.WAGON)
    front: Quantity = ask_reading("m_s", "scale under the front", 126 * kg)
    way: str = pick(
        "How the front was weighed",
        (STRAIGHT, BY_A_BOARD),
        STRAIGHT,
        habit=True,
        help="A board lets a bathroom scale weigh more than it is made for",
    )
    near: Quantity = ask(
        "ℓ_1", "Load to the block", 0.3 * m, low=0.05 * m, high=2 * m, habit=True, when={"way": (BY_A_BOARD,)},
        common=(0.3 * m, 0.5 * m), help="Along the board, from the pipe on the block to where the load stands",
    )  # fmt: skip
    far: Quantity = ask(
        "ℓ_2", "Load to the scale", 0.6 * m, low=0.05 * m, high=4 * m, habit=True, when={"way": (BY_A_BOARD,)},
        common=(0.6 * m, 1 * m), help="Along the board, from where the load stands to the pipe on the scale",
    )  # fmt: skip
    rear: Quantity = ask_reading("m_r", "scale under the rear", 127 * kg)
    counted: Quantity = ask_fact("M", "chassis.loaded_mass", 251 * kg)
    counted_ahead: Quantity = ask_fact("x", "chassis.cg_ahead", 544 * mm)
    wheelbase: Quantity = ask_fact("b", "chassis.wheelbase", 1100 * mm, when={"kind": support.ON_FOUR})
    drawbar: Quantity = ask_fact("D", "chassis.drawbar", 950 * mm, when={"kind": _ON_TWO})
    tongue_rating: Quantity = ask_fact("R_t", "chassis.tongue_rating", 50 * kg, when={"kind": (support.SINGLE,)})
    axle_rating: Quantity = ask_fact("R_a", "chassis.axle_rating", 300 * kg)

    def solve(self) -> Answer:
        front = self._front()
        total = step("M_m", "All of it on the scale", front + self.rear, kg)
        long = self.wheelbase if self.kind in support.ON_FOUR else self.drawbar
        ahead = step(
            "x_m", "Centre of gravity ahead of the rear axle, by the scale", front * long / total, mm, OWN_DERIVATION
        )
        share = step("q", "Share of it on the front", front / total, percent)
        held = [self._as_counted(total), *self._where_counted(ahead, long), self._axle(front)]
        if self.kind == support.SINGLE:
            held += self._tongue(front, share)
        return answer(
            *held,
            say=f"It weighs {total}, {share} of it on the front; {self.counted} was counted.",
            notes=self._causes(held),
            total_mass=total,
            cg_ahead=ahead,
            front_share=share,
            on_the_front=front,
        )

    def _front(self) -> Quantity:
        if self.way == STRAIGHT:
            return step("m_f", "On the front", self.front, kg)
        ratio = step("k_l", "Times what the scale shows", (self.near + self.far) / self.near, one, SCALE_AND_BOARD)
        return step("m_f", "On the front, by the board", self.front * ratio, kg)

    def _as_counted(self, total: Quantity) -> Requirement:
        alike = step(
            "k_M",
            "The smaller of measured and counted mass, of the larger",
            smallest(total, self.counted) / largest(total, self.counted),
            percent,
            rounds=-1,
        )
        near, far = (
            constant(f"k_{value}", label, value * percent, COMMON_PRACTICE)
            for label, value in (("Likeness that tools and scales explain", 95), ("Likeness at the least", 90))
        )
        return require(
            alike >= far,
            comfortable=alike >= near,
            label="Mass",
            yes="It weighs what was counted.",
            tight=f"It weighs {total} where {self.counted} was counted: keep the measured value.",
            no=f"It weighs {total} where {self.counted} was counted: what the pages say of wheels, brakes and slopes is not for this rig. Keep the measured value.",
        )

    def _where_counted(self, ahead: Quantity, long: Quantity) -> list[Requirement]:
        near, far = (
            constant(f"e_{value}", label, value * percent, COMMON_PRACTICE)
            for label, value in (("Offset that scales explain, of the length", 3), ("Offset at most, of the length", 8))
        )
        little, much = (
            step("Δ_3", "Offset that scales explain", near * long, mm),
            step("Δ_8", "Offset at most", far * long, mm),
        )
        said = f"Its middle is {ahead} ahead of the rear axle; {self.counted_ahead} was counted"
        near_it = f"{said}: keep the measured value."
        far_off = f"{said}. It tips and tows otherwise than the pages say. Keep the measured value."
        return [
            require(
                ahead <= step("x_+", "Farthest ahead that agrees", self.counted_ahead + much, mm),
                comfortable=ahead <= self.counted_ahead + little,
                label="Middle, ahead",
                yes="Its middle is where it was counted.",
                tight=near_it,
                no=far_off,
            ),
            require(
                ahead >= step("x_−", "Farthest back that agrees", self.counted_ahead - much, mm),
                comfortable=ahead >= self.counted_ahead - little,
                label="Middle, back",
                yes="Its middle is where it was counted.",
                tight=near_it,
                no=far_off,
            ),
        ]

    def _axle(self, front: Quantity) -> Requirement:
        heavy = largest(front, self.rear) if self.kind in support.ON_FOUR else self.rear
        return require(
            step("m_a", "On the heaviest axle", heavy, kg) <= self.axle_rating,
            rule=PHYSICAL,
            label="Axle",
            yes="The axle carries it.",
            tight="The axle carries {left} of its {right}.",
            no="The axle carries {left} and may carry {right}.",
        )

    def _tongue(self, front: Quantity, share: Quantity) -> list[Requirement]:
        least, low, high, most = (
            constant(f"q_{number}", f"Share on the tongue, bound {number} of four", value * percent, SCALE_AND_BOARD)
            for number, value in enumerate((7, 10, 15, 18), 1)
        )
        return [
            require(
                share >= least, comfortable=share >= low, label="Tongue heavy enough", yes="Enough is on the tongue.",
                tight=f"Only {{left}} is on the tongue; {low} to {high} tows well.",
                no="Only {left} is on the tongue: it sways, and tips backward when it is unhitched. {right} is the least.",
            ),
            require(
                share <= most, comfortable=share <= high, label="Tongue light enough", yes="The tongue is not too heavy.",
                tight=f"{{left}} is on the tongue; {low} to {high} tows well.",
                no="{left} is on the tongue: it lifts the front wheels of what pulls it. {right} is the most.",
            ),
            require(
                front <= self.tongue_rating, rule=PHYSICAL, label="Hitch", yes="The hitch carries it.",
                tight="The hitch carries {left} of its {right}.", no="The hitch carries {left} and may carry {right}.",
            ),
        ]  # fmt: skip

    def _causes(self, held: list[Requirement]) -> tuple[str, ...]:
        return likely(
            held,
            "tools, cords and water that were not on the list of parts",
            "it did not stand level, or a wheel was held by its neighbour",
            "a scale at its limit, or on soft ground",
            "a part that stands elsewhere than its facts say",
        ) + (
            "Loaded as it goes, brake off, wheels chocked, each wheel in turn with the others blocked up to the same height.",
        )

    fixes = (
        must_read(
            "rear", 1 * kg, "Take load off its rear, and weigh again: the rear must show {rear} or less", down=True
        ),
        must_read(
            "front",
            1 * kg,
            "Move load ahead, or list what was forgotten, and weigh again: the front must show {front} or more",
            down=False,
        ),
        must_read(
            "front",
            1 * kg,
            "Move load back or take it off, and weigh again: the front must show {front} or less",
            down=True,
        ),
    )
    cautions = (
        Caution(
            "DANGER",
            "A rig that rolls off its blocks crushes whoever kneels beside it",
            "Legs, hands and chests",
            "Level hard ground, chocks on both sides of every other wheel, nobody in front, behind or under it",
        ),
        Caution(
            "WARNING",
            "A tongue that is let go kicks up or drops",
            "It breaks jaws and feet",
            "Lower it with the jack, feet clear; where it wants to rise, stop and take load off the rear first",
            only=lambda check: check.kind in _ON_TWO,
        ),
    )
    examples = (
        Example(
            given={
                "kind": support.SINGLE,
                "front": "20 kg",
                "way": BY_A_BOARD,
                "near": "1 ft",
                "far": "2 ft",
                "rear": "440 kg",
                "counted": "500 kg",
                "counted_ahead": "120 mm",
                "drawbar": "1000 mm",
                "axle_rating": "600 kg",
                "tongue_rating": "100 kg",
            },
            expect={"on_the_front": "60 kg", "front_share": "12 %"},
            verdict="go",
            source=SCALE_AND_BOARD.at(
                "one foot from the block, two from the scale: times three; 10 to 15 % on the tongue"
            ),
        ),
        Example(
            given={
                "kind": support.SINGLE,
                "front": "20 kg",
                "rear": "440 kg",
                "counted": "460 kg",
                "counted_ahead": "43 mm",
                "drawbar": "1000 mm",
                "axle_rating": "600 kg",
                "tongue_rating": "100 kg",
            },
            verdict=NO,
            source=SCALE_AND_BOARD.at("10 to 15 % on the tongue"),
        ),
        Example(
            given={
                "kind": support.FOUR,
                "front": "75 kg",
                "rear": "125 kg",
                "counted": "200 kg",
                "counted_ahead": "750 mm",
                "wheelbase": "2000 mm",
            },
            expect={"total_mass": "200 kg", "cg_ahead": "750 mm"},
            verdict="go",
            source=OWN_DERIVATION.at("moments: 75 kg times 2.0 m over 200 kg"),
        ),
    )
