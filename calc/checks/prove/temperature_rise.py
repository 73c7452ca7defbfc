"""The page /prove/temperature-rise/: three readings of one spot under load, and where it will settle.

A load test of half an hour ends before anything has settled. Three readings at equal intervals tell where it goes; the
hottest day and the full load are then added.
"""

from __future__ import annotations

from calc.check import (
    NO,
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
    require,
)
from calc.checks.measured import HOT_PARTS, QUALIFIED, likely, must_read
from calc.laws import settling
from calc.quantity import Quantity, constant, need
from calc.sources import COMMON_PRACTICE, IEC_60076_2, OWN_DERIVATION, UL_498, UL_TEMPERATURE
from calc.tables import table
from calc.units import K, degC, minutes, percent

SPOTS = table("temperature_limits").rows


class TemperatureRise(Check):
    """Does it settle, and how hot will it get?"""

    title = "Temperature under load"
    headline = "on_the_hottest_day"

    spot: str = pick(
        "What is read",
        SPOTS,
        "breaker or fuse at its terminals",
        habit=True,
        help="The hottest of the three spots that you watch",
    )
    first: Quantity = ask_reading("θ_1", "temperature, first reading", 33 * degC)
    second: Quantity = ask_reading("θ_2", "temperature, second reading", 38 * degC)
    third: Quantity = ask_reading("θ_3", "temperature, third reading", 41 * degC)
    interval: Quantity = ask_reading("Δt", "minutes between readings", 10 * minutes)
    air: Quantity = ask_reading("θ_a", "air in the test", 22 * degC)
    share: Quantity = ask(
        "k_I", "Load in the test, of the most that it carries for long", 80 * percent, low=30 * percent, high=100 * percent,
        habit=True, common=(50 * percent, 80 * percent, 100 * percent), help="Watts in the test over the most that it is used for",
    )  # fmt: skip
    hottest: Quantity = ask_fact("θ_max", "place.hottest", 34 * degC)
    digit: Quantity = ask(
        "d_θ", "Least step that the thermometer shows", 0.5 * K, low=0.05 * K, high=2 * K, habit=True,
        common=(0.1 * K, 0.5 * K, 1 * K), help="0.1 to 1 K; an infrared one wanders by more",
    )  # fmt: skip

    def solve(self) -> Answer:
        early, late = settling.rises(self.first, self.second, self.third)
        final = settling.settles_at(self.third, early, late, self.digit)
        rise = need("ΔT_∞", "Rise above the air when it has settled", final - self.air, K)
        full = need("ΔT_f", "The same at full load", rise / self.share**2, K, OWN_DERIVATION)
        hot = need("θ_h", "At full load on the hottest day", self.hottest + full, degC)
        held = [self._within(full, hot)]
        return answer(
            *held,
            say=f"It settles at {final}; at full load on the hottest day it gets {hot:up}.",
            notes=likely(
                held,
                "a joint beside it that is loose: read the joint's millivolts",
                "a vent that is blocked, or a fan that does not run",
                "a box in the sun, or a cover put back without its gap",
                "more current than was thought",
            )
            + ("A whole test goes on until three readings, a tenth of the time apart, show no rise.",),
            on_the_hottest_day=hot,
            settles_at=final,
            final_rise=rise,
            rise_at_full=full,
            **self._time_constant(early, late),
        )

    def _within(self, full: Quantity, hot: Quantity) -> Requirement:
        listed = table("temperature_limits")
        if listed.has(self.spot, "rise"):
            most = listed.read("ΔT_m", f"Most that a {self.spot} may rise", self.spot, "rise", K)
            return require(
                full <= most,
                label="Rise",
                yes="It stays as cool as it should.",
                tight="At full load it rises by {left}; {right} is the most.",
                no="At full load it rises by {left}; {right} is the most. Its insulation hardens, chars and burns.",
            )
        most = listed.read("θ_m", f"Hottest that a {self.spot} may become", self.spot, "most", degC)
        room = constant("Δ_5", "Room under it that is good", 5 * K, COMMON_PRACTICE)
        return require(
            hot <= most,
            comfortable=hot + room <= most,
            label="Heat",
            yes="It stays as cool as it should.",
            tight="On the hottest day it gets {left}; {right} is the most.",
            no="On the hottest day it gets {left}; {right} is the most.",
        )

    def _time_constant(self, early: Quantity, late: Quantity) -> dict[str, Quantity]:
        if settling.has_settled(late, self.digit).holds:
            return {}
        return {"time_constant": settling.time_constant(self.interval, early, late)}

    fixes = (
        must_read(
            "third",
            1 * degC,
            "Mend what heats it, and test again: the third reading must be {third} or less",
            down=True,
        ),
    )
    cautions = (
        QUALIFIED,
        HOT_PARTS,
        Caution(
            "WARNING",
            "A load test left alone is a fire that nobody sees",
            "What is wrong shows itself at full load, and within minutes",
            "Stay beside it; at smoke, a smell, a sizzle or a fault light switch off at the bank's switch and step away",
        ),
    )
    examples = (
        Example(
            given={
                "first": "20 °C",
                "second": "35 °C",
                "third": "42.5 °C",
                "interval": "60 min",
                "air": "20 °C",
                "share": "100",
                "spot": "plug or outlet",
                "hottest": "20 °C",
            },
            expect={"settles_at": "50 °C", "time_constant": "86.6 min"},
            within=0.001,
            verdict="tight",
            source=settling.HEATING.at("15 K after one hour, 22.5 K after two: 30 K in the end"),
        ),
        Example(
            given={
                "first": "60 °C",
                "second": "75 °C",
                "third": "81.7 °C",
                "interval": "60 min",
                "air": "20 °C",
                "share": "100",
                "spot": "lug marked 75 °C",
            },
            expect={"settles_at": "87.1 °C"},
            within=0.001,
            verdict=NO,
            source=IEC_60076_2.at("(Δθ₂² − Δθ₁·Δθ₃)/(2·Δθ₂ − Δθ₁ − Δθ₃) with 40, 55 and 61.7 K above the air"),
        ),
        Example(
            given={
                "first": "44.5 °C",
                "second": "45 °C",
                "third": "45 °C",
                "air": "20 °C",
                "share": "100",
                "spot": "plug or outlet",
            },
            expect={"final_rise": "25 K"},
            verdict="go",
            source=UL_498.at("a rise of 30 K at the rated current; constant by three like readings"),
        ),
        Example(
            given={"first": "25 °C", "second": "35 °C", "third": "45 °C"},
            verdict="not known",
            source=UL_TEMPERATURE,
        ),
    )
