"""The page /shelter/box-heat/: the rise inside a closed, a vented or a fanned box, in the shade and in the sun.

The walls of a small box carry more than two small openings; paint it white before buying a fan.
"""

from __future__ import annotations

from calc.check import (
    NO,
    Answer,
    Caution,
    Check,
    Example,
    answer,
    ask,
    ask_fact,
    less,
    more,
    option,
    pick_fact,
    require,
)
from calc.laws import air as airs
from calc.laws import box_heat
from calc.quantity import Quantity, alternative, constant, need, smallest, step
from calc.sources import COMMON_PRACTICE, OWN_DERIVATION
from calc.units import J_per_kgK, K, W, W_per_m2, cm2, degC, m, m2, m3_per_h, mm

CLOSED, VENTED, FAN = "closed", "two openings, one low, one high", "a fan"


class BoxHeat(Check):
    """How hot does the box get?"""

    title = "Heat in the box"
    headline = "inside"

    heat: Quantity = ask_fact("Q_h", "box.heat", 60 * W, common=(30 * W, 60 * W, 120 * W, 250 * W))
    length: Quantity = ask_fact("l", "box.length", 500 * mm)
    width: Quantity = ask_fact("w", "box.width", 400 * mm)
    height: Quantity = ask_fact("h_b", "box.height", 500 * mm)
    finish: str = pick_fact("box.finish", box_heat.PAINTED)
    breathing: str = pick_fact("box.breathing", CLOSED)
    opening: Quantity = ask_fact("A_o", "box.vent_area", 100 * cm2, when={"breathing": (VENTED,)})
    between: Quantity = ask_fact("H_o", "box.vent_height", 400 * mm, when={"breathing": (VENTED,)})
    flow: Quantity = ask_fact("V_f", "box.fan_flow", 30 * m3_per_h, when={"breathing": (FAN,)})
    sun: Quantity = ask(
        "G",
        "Sun on its lid",
        900 * W_per_m2,
        low=0 * W_per_m2,
        high=1200 * W_per_m2,
        habit=True,
        common=(0 * W_per_m2, 500 * W_per_m2, 900 * W_per_m2),
        help="0 in the shade, 900 at noon in summer",
    )
    colour: str = pick_fact("box.colour", "grey or red")
    hottest: Quantity = ask_fact("θ_max", "place.hottest", 34 * degC)
    altitude: Quantity = ask_fact("H", "place.altitude", 1900 * m, when={"breathing": (VENTED, FAN)})
    stands: Quantity = ask_fact("θ_lim", "box.stands", 60 * degC, common=(45 * degC, 50 * degC, 60 * degC))

    def solve(self) -> Answer:
        film = box_heat.still_film(self.finish)
        lid = step("A_l", "Lid", self.length * self.width, m2)
        walls = step("A", "Walls and lid, without the floor", lid + 2 * (self.length + self.width) * self.height, m2)
        heat = self._heat(lid, film)
        by_walls = step(
            "ΔT_w", "Rise with the walls alone", heat / box_heat.through_walls(walls, film), K, OWN_DERIVATION, rounds=1
        )
        rise = self._rise(heat, by_walls)
        inside = need("θ_i", "Air inside", self.hottest + rise, degC)
        room = constant("Δ_10", "Room under the limit that is good", 10 * K, COMMON_PRACTICE)
        return answer(
            require(
                inside <= self.stands,
                comfortable=inside + room <= self.stands,
                label="Inside",
                yes="It stays cool enough.",
                tight="It gets {left} inside; {right} is the limit, and ten kelvins under it would be good.",
                no="It gets {left} inside; {right} is the limit. It shuts down, or ages in months.",
            ),
            say=f"It gets {inside} inside on the hottest day.",
            notes=(
                "Walls, openings and fan are not added together: the better one alone is counted, so it is a little cooler.",
                "A sheet held 25 mm above the lid, open at its edges, takes the sun's part away.",
            ),
            inside=inside,
            rise=rise,
            rise_by_walls=by_walls,
            heat=heat,
            **({} if self.sun.si == 0 else {"lid": box_heat.lid_in_the_sun(self.hottest, self.colour, self.sun)}),
        )

    def _heat(self, lid: Quantity, film: Quantity) -> Quantity:
        if self.sun.si == 0:
            return need("Q", "Heat to get rid of", self.heat, W)
        return need(
            "Q", "Heat to get rid of", self.heat + box_heat.heat_from_the_sun(lid, self.colour, self.sun, film), W
        )

    def _rise(self, heat: Quantity, by_walls: Quantity) -> Quantity:
        if self.breathing == CLOSED:
            return alternative("ΔT", "Rise inside", by_walls, "closed: the walls alone", K)
        dense = airs.density(self.altitude, self.hottest)
        if self.breathing == VENTED:
            other = box_heat.rise_by_openings(heat, self.opening, self.between, self.hottest, dense)
        else:
            capacity = constant("c_p", "Heat that air takes up", 1006 * J_per_kgK, airs.AIR_TABLES)
            other = step(
                "ΔT_f", "Rise with the fan alone", heat / (dense * capacity * self.flow), K, OWN_DERIVATION, rounds=1
            )
        return step("ΔT", "Rise inside, by the better of the two", smallest(by_walls, other), K)

    fixes = (
        option("colour", "white", "Paint the lid white"),
        less("sun", 100 * W_per_m2, "Shade it, with a ventilated sheet above the lid, to {sun}"),
        option("finish", box_heat.PAINTED, "Paint its walls, inside and out"),
        option("breathing", FAN, "Fit a fan", costs="its grilles need a weather rating"),
        more("flow", 5 * m3_per_h, "Move {flow} of air through it"),
        more("opening", 20 * cm2, "Make each opening {opening}"),
        less("heat", 5 * W, "Make no more than {heat} of heat in it"),
        more("height", 50 * mm, "Use a box {height} high"),
    )
    cautions = (
        Caution(
            "WARNING",
            "A hot battery ages fast, and over its limit it can burn",
            "Gas, smoke and fire in a closed box",
            "Stop charging at its limit; never carry on with a box that smells or swells",
        ),
        Caution(
            "CAUTION",
            "A dark lid in the sun burns the hand",
            "Over 60 °C skin burns within seconds",
            "Touch it with gloves, or paint it white",
        ),
    )
    examples = (
        Example(
            given={"sun": "0", "hottest": "20 °C", "stands": "60 °C"},
            expect={"rise_by_walls": "12.8 K"},
            within=0.03,
            verdict="go",
            source=COMMON_PRACTICE.at("60 W in 0.5 × 0.4 × 0.5 m: about 13 K over the air"),
        ),
        Example(
            given={"sun": "900", "hottest": "35 °C", "colour": "dark", "stands": "50 °C"},
            expect={"lid": "82.6 °C"},
            within=0.001,
            verdict=NO,
            source=box_heat.SOL_AIR.at("35 + 0.9·900/17 = 82.6 °C"),
        ),
    )
