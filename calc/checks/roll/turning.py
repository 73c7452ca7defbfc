"""The page /roll/turning/: the circle that rig and vehicle sweep, and the lane it takes; how far the rig cuts in.

A trailer's wheels run inside those of the vehicle: R_t = √(R² + c² − D²). A wagon's rear axle cuts in once more.
"""

from __future__ import annotations

from calc.check import PHYSICAL, Answer, Caution, Check, Example, answer, ask_fact, less, more, pick_fact, require
from calc.laws import backing, support
from calc.quantity import OutsideValidity, Quantity, constant, limit, need, root, step
from calc.sources import COMMON_PRACTICE, FROM_MEMORY, OWN_DERIVATION, Source
from calc.units import degree, m, mm, one

CIRCLES = Source(
    "Steady turning of a vehicle with trailers: concentric circles, a text of vehicle dynamics", "", FROM_MEMORY
)


class Turning(Check):
    """Does it get round the corner?"""

    title = "Turning circle"
    headline = "lane"

    kind: str = pick_fact("chassis.kind", support.WAGON, (support.SINGLE, support.WAGON))
    vehicle_wheelbase: Quantity = ask_fact("b_v", "tow.wheelbase", 1650 * mm)
    steering: Quantity = ask_fact("δ_v", "tow.steer_limit", 30 * degree)
    overhang: Quantity = ask_fact("c_h", "tow.overhang", 550 * mm)
    vehicle_width: Quantity = ask_fact("w_v", "tow.width", 1200 * mm)
    drawbar: Quantity = ask_fact("D", "chassis.drawbar", 950 * mm)
    wheelbase: Quantity = ask_fact("b", "chassis.wheelbase", 1100 * mm, when={"kind": (support.WAGON,)})
    rig_width: Quantity = ask_fact("w_r", "chassis.width", 900 * mm)
    room: Quantity = ask_fact("L_c", "place.lane", 3 * m, common=(2 * m, 2.5 * m, 3 * m, 4 * m))

    def solve(self) -> Answer:
        curve = backing.tightest(self.vehicle_wheelbase, self.steering, self.overhang).curve
        radius = step("R", "Tightest circle of the vehicle's rear axle", 1 / curve, m, CIRCLES, rounds=1)
        hitch = radius**2 + self.overhang**2
        axle = self._circle("R_t", "Circle of the rig's axle", hitch - self.drawbar**2)
        if self.kind == support.WAGON:
            axle = self._circle("R_b", "Circle of the wagon's rear axle", axle**2 - self.wheelbase**2)
        outer = need(
            "R_o",
            "Circle of its outermost front corner",
            root((radius + self.vehicle_width / 2) ** 2 + (self.vehicle_wheelbase + self._nose()) ** 2),
            m,
            CIRCLES,
        )
        inner = limit("R_i", "Circle of the rig's inner side", axle - self.rig_width / 2, m, CIRCLES)
        lane = need("L", "Lane it sweeps, hard over", outer - inner, m, OWN_DERIVATION)
        return answer(
            require(
                lane <= self.room,
                rule=PHYSICAL,
                label="Lane",
                yes="It gets round.",
                tight="It sweeps {left} of the {right} that there are: slowly, and with somebody watching the inner side.",
                no="It sweeps {left} and there are {right}: the rig's inner side meets the corner. Unhitch it and push it round.",
            ),
            say=f"It gets round: it sweeps {lane} of {self.room}.",
            notes=("Once round for good; in a short corner it cuts in less, so this errs to the safe side.",),
            lane=lane,
            outer_circle=outer,
            inner_circle=inner,
            vehicle_circle=radius,
            rig_circle=axle,
            cuts_in=need("C", "The rig cuts in by", radius - axle, m, OWN_DERIVATION),
        )

    def _nose(self) -> Quantity:
        share = constant("k_n", "Nose ahead of the front axle, over the wheelbase", 0.3 * one, COMMON_PRACTICE)
        return share * self.vehicle_wheelbase

    def _circle(self, symbol: str, label: str, square: Quantity) -> Quantity:
        if square.si <= 0:
            raise OutsideValidity(
                "The rig is too long for the vehicle's tightest circle: its wheels would stand still or run backward. "
                "How far it cuts in is not known; take a wider circle."
            )
        return step(symbol, label, root(square), m, CIRCLES, rounds=-1)

    fixes = (
        less("rig_width", 50 * mm, "Fold what sticks out, down to {rig_width}"),
        less("drawbar", 50 * mm, "Use a drawbar of {drawbar}", costs="it jackknifes sooner in reverse"),
        more("room", 0.1 * m, "Take a way that is {room} wide"),
    )
    cautions = (
        Caution(
            "WARNING",
            "The rig cuts in and pins whoever stands at the inner side of the corner",
            "The driver does not see it",
            "Nobody at the inner side; look back all the way round",
        ),
        Caution(
            "WARNING",
            "A tight turn at speed tips a high rig",
            "It falls outward",
            "Walk round corners; the page on tipping reckons with speed",
        ),
    )
    examples = (
        Example(
            given={
                "kind": support.SINGLE,
                "vehicle_wheelbase": "3000 mm",
                "steering": "45",
                "overhang": "0 mm",
                "drawbar": "1800 mm",
                "vehicle_width": "1200 mm",
                "rig_width": "900 mm",
                "room": "6 m",
            },
            expect={"vehicle_circle": "3.00 m", "rig_circle": "2.40 m", "cuts_in": "0.60 m"},
            verdict="go",
            source=CIRCLES.at("√(3² − 1.8²) = 2.4 m"),
        ),
        Example(
            given={
                "kind": support.WAGON,
                "vehicle_wheelbase": "3000 mm",
                "steering": "45",
                "overhang": "0 mm",
                "drawbar": "1800 mm",
                "wheelbase": "1440 mm",
                "room": "2 m",
            },
            expect={"rig_circle": "1.92 m"},
            verdict="no",
            source=CIRCLES.at("√(2.4² − 1.44²) = 1.92 m"),
        ),
    )
