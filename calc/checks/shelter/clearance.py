"""The page /shelter/clearance/: the gap before a grille against the air that must come through it, and warm air drawn again.

The maker's stated clearance stands above the arithmetic. Where the manual says nothing, the speed in the gap tells; and
no gap helps a unit that breathes what it, or its neighbour, has just blown out.
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
    ask,
    ask_fact,
    less,
    more,
    option,
    pick_fact,
    require,
)
from calc.checks import cooling_air as air_side
from calc.laws import air as airs
from calc.laws import convection, gaps, mounting
from calc.quantity import Quantity, constant, need, step
from calc.sources import COMMON_PRACTICE, IEC_60364_1, NEC_2023, OWN_DERIVATION
from calc.units import K, Pa, degC, mm, one, percent

FAN, NONE = {"cooling": mounting.FANNED}, {"cooling": (mounting.NO_FAN,)}
INDRAWN = {"exhaust": (mounting.TO_NEXT, mounting.BACK)}


class Clearance(Check):
    """Is there room enough around it for its air?"""

    title = "Room for air"
    headline = "gap_needed"

    cooling: str = air_side.cooling()
    air_gap: Quantity = ask_fact(
        "w",
        "inverter.air_gap",
        60 * mm,
        help="The narrowest, to a wall, a lid, a cable or the next unit; without a fan, beside its fins",
    )
    stated_gap: Quantity = ask_fact(
        "w_m",
        "inverter.stated_gap",
        50 * mm,
        common=(0 * mm, 50 * mm, 100 * mm, 200 * mm),
        help="Under clearance or ventilation, the largest of all sides; 0 where it says nothing",
    )
    fan_flow: Quantity = air_side.fan_flow(when=FAN)
    grille_edge: Quantity = ask_fact("b_g", "inverter.grille_edge", 500 * mm, when=FAN)
    fan_pressure: Quantity = air_side.fan_pressure(when=FAN)
    cooled_height: Quantity = air_side.cooled_height(when=NONE)
    rise: Quantity = air_side.rise_without_a_fan(when=NONE)
    altitude: Quantity = air_side.altitude()
    hottest: Quantity = air_side.hottest()
    exhaust: str = pick_fact("inverter.exhaust", mounting.AWAY)
    drawn_again: Quantity = ask(
        "x_a",
        "Share of that warm air that is drawn in again",
        40 * percent,
        low=5 * percent,
        high=100 * percent,
        habit=True,
        when=INDRAWN,
        common=(20 * percent, 40 * percent, 80 * percent),
        help="Inlet warmer than the room, over outlet warmer than the inlet; 40 % unless it was measured",
    )
    through_rise: Quantity = ask(
        "ΔT_u",
        "The air leaves it warmer by",
        12 * K,
        low=2 * K,
        high=40 * K,
        habit=True,
        when=INDRAWN,
        help="At full load, outlet less inlet; the page on heat and air works it out",
    )
    inlet_limit: Quantity = ask_fact(
        "θ_0",
        "inverter.derating_from",
        40 * degC,
        when=INDRAWN,
        help="In the manual; of the unit that draws the warm air",
    )

    def solve(self) -> Answer:
        required, told = self._fanned() if self.cooling in mounting.FANNED else self._fanless()
        if self.stated_gap.si > 0:
            required = [self._by_the_manual(), *required[1:]]
        if self.exhaust != mounting.AWAY:
            again, inlet = self._drawn_again()
            required, told = [*required, again], {**told, "inlet_air": inlet}
        return answer(
            *required,
            say=f"There is room: the gap is {self.air_gap}, {self._asked(told['gap_needed'])}.",
            notes=(
                "The maker's figure was tried with that unit and stands above any arithmetic; it is for one unit in free air, not for one beside another.",
                "A grille covered by half is a gap of half; a mesh counts by its holes.",
            ),
            **told,
        )

    def _asked(self, worked: Quantity) -> str:
        if self.stated_gap.si > 0:
            return f"its manual asks for {self.stated_gap}"
        return f"its air needs {worked:up}"

    def _fanned(self) -> tuple[list[Requirement], dict[str, Quantity]]:
        needed = gaps.gap_for(self.fan_flow, self.grille_edge)
        enough = require(
            self.air_gap >= needed,
            rule=PHYSICAL,
            label="Gap",
            yes="The gap is wide enough.",
            tight="The gap is {left} and the air needs {right}: dust soon makes the difference.",
            no="The gap is {left} and the air needs {right}: the fan is choked.",
        )
        if self.air_gap.si == 0:
            return [enough], {"gap_needed": needed}
        speed = gaps.speed_in(self.fan_flow, self.air_gap, self.grille_edge)
        lost = gaps.pressure_lost(speed, airs.density(self.altitude, self.hottest))
        told = {"gap_needed": needed, "air_speed": speed, "pressure_lost": lost}
        return [enough, self._fan_bears(lost)], told

    def _fan_bears(self, lost: Quantity) -> Requirement:
        tenth = constant("k_10", "Share of a fan's pressure that costs little flow", 10 * percent, COMMON_PRACTICE)
        third = constant("k_30", "Share of it from which a fan moves much less", 30 * percent, COMMON_PRACTICE)
        most = step("p_30", "That much of its pressure", third * self.fan_pressure, Pa, rounds=-1)
        return require(
            lost <= most,
            comfortable=lost <= tenth * self.fan_pressure,
            label="Fan",
            yes="The gap costs the fan little.",
            tight="The gap takes {left} of its pressure; it moves a little less air than its plate says.",
            no="The gap takes {left}; from {right} on the fan moves far less air than its plate says.",
        )

    def _fanless(self) -> tuple[list[Requirement], dict[str, Quantity]]:
        film = convection.film(self.hottest, self.rise, self.altitude)
        best = convection.best_spacing(film, self.rise, self.cooled_height)
        needed = need("w_2", "Gap from which it is nearly free", 2 * best, mm, COMMON_PRACTICE)
        free = constant("k_3", "Times the best gap that counts as free air", 3 * one, COMMON_PRACTICE)
        enough = require(
            self.air_gap >= needed,
            comfortable=self.air_gap >= free * best,
            label="Gap",
            yes="The gap is as good as free air.",
            tight="The gap is {left}; from {right} on it is nearly as good as free air.",
            no="The gap is {left}; under {right} the air beside its fins hardly rises.",
        )
        return [enough], {"gap_needed": needed, "best_spacing": best}

    def _by_the_manual(self) -> Requirement:
        return require(
            self.air_gap >= self.stated_gap,
            exact=True,
            label="Its manual",
            yes="The gap is what its manual asks for.",
            no="The gap is {left}; its manual asks for {right}, and that decides.",
        )

    def _drawn_again(self) -> tuple[Requirement, Quantity]:
        inlet = need(
            "θ_in", "Air at the inlet", self.hottest + self.drawn_again * self.through_rise, degC, OWN_DERIVATION
        )
        room = constant("Δ_3", "Room under it that is good", 3 * K, COMMON_PRACTICE)
        return (
            require(
                inlet <= self.inlet_limit,
                comfortable=inlet + room <= self.inlet_limit,
                label="Drawn again",
                yes="The inlet stays cool enough though it draws warm air.",
                tight="The inlet gets {left}, of the {right} from which on it gives less: a baffle would help.",
                no="It draws warm air: the inlet gets {left}, and above {right} it gives less, or shuts down.",
            ),
            inlet,
        )

    fixes = (
        more("air_gap", 5 * mm, "Leave {air_gap} free at its grilles"),
        more("grille_edge", 50 * mm, "Open more sides, until air comes along {grille_edge} of edge"),
        option("exhaust", mounting.AWAY, "Fit a baffle, or put inlets and outlets on opposite sides"),
        less("drawn_again", 5 * percent, "Baffle it until only {drawn_again} is drawn again"),
    )
    cautions = (
        Caution(
            "WARNING",
            "A unit whose grilles are covered overheats until it burns",
            "Jackets, tarps and leaves close a gap within minutes",
            "Mark the gap as no place for anything; look at it before each use",
        ),
        Caution(
            "CAUTION",
            "Cords and hoses in the warm stream age and soften",
            "Their rating no longer holds",
            "Lead them round it",
        ),
    )
    examples = (
        Example(
            given={
                "cooling": mounting.ALWAYS,
                "fan_flow": "60 m³/h",
                "grille_edge": "300 mm",
                "air_gap": "60 mm",
                "stated_gap": "0 mm",
            },
            expect={"gap_needed": "37 mm"},
            within=0.005,
            verdict="go",
            source=COMMON_PRACTICE.at("1.5 m/s in a gap: 60/3600/(1.5·0.3) = 0.037 m"),
        ),
        Example(
            given={
                "cooling": mounting.NO_FAN,
                "cooled_height": "400 mm",
                "rise": "20 K",
                "air_gap": "12 mm",
                "stated_gap": "0 mm",
                "hottest": "25 °C",
                "altitude": "0 m",
            },
            expect={"best_spacing": "10.7 mm"},
            within=0.01,
            verdict=NO,
            source=convection.CHANNELS.at("S = 2.714·(L·ν²/(g·β·ΔT·Pr))^¼"),
        ),
        *(
            Example(
                given={"stated_gap": "100 mm", "air_gap": "60 mm"},
                verdict=NO,
                rules=rules,
                source=source,
            )
            for rules, source in zip(
                RULE_SETS,
                (NEC_2023.at("110.3(B)"), IEC_60364_1.at("134.1.1, by the maker's instructions")),
                strict=True,
            )
        ),
    )
