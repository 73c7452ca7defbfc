"""The page /shelter/derating/: what heat and altitude leave of the plate's rating, each by its own rule, multiplied."""

from __future__ import annotations

from calc.check import Answer, Caution, Check, Example, answer, ask_fact, less, more, require
from calc.laws import air as airs
from calc.laws import derating
from calc.quantity import Quantity, constant, limit, need, step
from calc.sources import COMMON_PRACTICE, Source
from calc.units import K, W, degC, kg_per_m3, m, percent, percent_per_K

DRIVE_MANUALS = Source(
    "Manuals of electric drives", "", "read: 1 % for each 100 m above 1000 m; 1 % per kelvin from 40 °C"
)


class Derating(Check):
    """What is left of its rating in heat and altitude?"""

    title = "Derating"
    headline = "rating_here"

    plate_rating: Quantity = ask_fact("P_p", "inverter.plate_rating", 5500 * W, common=(2000 * W, 3000 * W, 5000 * W))
    wanted: Quantity = ask_fact("P_o", "work.long_power", 4000 * W)
    hottest: Quantity = ask_fact("θ_max", "place.hottest", 34 * degC, common=(30 * degC, 35 * degC, 40 * degC))
    warmer: Quantity = ask_fact("ΔT_i", "box.warmer", 20 * K, common=(0 * K, 5 * K, 10 * K, 20 * K))
    free_up_to: Quantity = ask_fact("θ_0", "inverter.derating_from", 40 * degC)
    slope: Quantity = ask_fact(
        "ℓ_θ",
        "inverter.derating_slope",
        2 * percent_per_K,
        common=(1 * percent_per_K, 2 * percent_per_K, 3 * percent_per_K),
    )
    altitude: Quantity = ask_fact("H", "place.altitude", 1900 * m, common=(0 * m, 1000 * m, 2000 * m, 3000 * m))

    def solve(self) -> Answer:
        inlet = need("θ_in", "Air at its inlet", self.hottest + self.warmer, degC)
        over = self.hottest - self.free_up_to + self.warmer
        heat = derating.left_in_heat(over, self.slope)
        height = derating.left_at_altitude(self.altitude)
        here = limit("P_r", "Rating here", self.plate_rating * heat * height, W, COMMON_PRACTICE)
        return answer(
            require(
                self.wanted <= here,
                label="Rating",
                yes="It gives this here.",
                tight="It gives {left} of the {right} that is left of its rating here.",
                no="{left} is wanted and {right} is left of its rating here: it turns itself down or stops.",
            ),
            say=f"{here} is left of its rating at {inlet} and {self.altitude}.",
            notes=self._notes(height),
            rating_here=here,
            left_in_heat=heat,
            left_at_altitude=height,
            inlet_air=inlet,
        )

    def _notes(self, height: Quantity) -> tuple[str, ...]:
        dense = airs.density(self.altitude, self.hottest)
        sea = constant("ρ_0", "Density of air at sea level, 25 °C", 1.184 * kg_per_m3, airs.AIR_TABLES)
        thin = step("k_ρ", "Air's density here, over that at sea level and 25 °C", dense / sea, percent)
        return (
            f"The rule for altitude leaves {height}; the air has {thin} of its density. The maker's own curve wins.",
            "Enter what is left as the inverter's rating here: every other page counts with that.",
            "A battery has limits of its own: the page on charging by temperature has them.",
        )

    fixes = (
        less("warmer", 1 * K, "Cool its inlet air until it is {warmer} over the outside"),
        less("wanted", 100 * W, "Take no more than {wanted} for long"),
        more(
            "plate_rating", 500 * W, "Use one of {plate_rating} on its plate", costs="heavier, dearer, more idle draw"
        ),
    )
    cautions = (
        Caution(
            "WARNING",
            "An inverter at its hot limit stops without a word",
            "Lights go out and tools stop while hands are in the work; some start again by themselves",
            "Switch tools off when it stops; let it cool before you reset it",
        ),
        Caution(
            "CAUTION",
            "Its case burns the hand",
            "Metal at 60 °C hurts at a touch",
            "Do not touch its fins after a long load",
        ),
    )
    examples = (
        Example(
            given={
                "altitude": "2400 m",
                "hottest": "25 °C",
                "warmer": "0 K",
                "plate_rating": "5000 W",
                "wanted": "3500 W",
            },
            expect={"left_at_altitude": "86 %", "left_in_heat": "100 %", "rating_here": "4300 W"},
            verdict="go",
            source=DRIVE_MANUALS.at("1 % for each 100 m above 1000 m: 2400 m leaves 86 %"),
        ),
        Example(
            given={
                "altitude": "0 m",
                "hottest": "50 °C",
                "warmer": "0 K",
                "free_up_to": "40 °C",
                "slope": "1",
                "plate_rating": "5000 W",
                "wanted": "4600 W",
            },
            expect={"left_in_heat": "90 %", "rating_here": "4500 W"},
            verdict="no",
            source=DRIVE_MANUALS.at("1 % per kelvin from 40 to 50 °C"),
        ),
    )
