"""The page /shelter/sweat/: water settles where a surface is colder than the dew point of the air that reaches it."""

from __future__ import annotations

from calc.check import Answer, Caution, Check, Example, answer, ask_fact, less, more, require
from calc.laws import moist_air
from calc.quantity import Quantity, constant, largest, log, need
from calc.sources import COMMON_PRACTICE, DEFINITION, FROM_MEMORY, Source
from calc.units import K, degC, kPa, percent

PSYCHROMETRY = Source("Psychrometric tables of a handbook of air conditioning", "", FROM_MEMORY)
GAS_LAW = Source("Pressure of a gas in a closed vessel, a text of physics", "", FROM_MEMORY)


class Sweat(Check):
    """Will it sweat inside?"""

    title = "Dew inside"
    headline = "dew_point"

    air: Quantity = ask_fact(
        "θ_a",
        "now.air",
        20 * degC,
        common=(5 * degC, 15 * degC, 25 * degC),
        help="Of the air that gets into the box: the shop's, when it is rolled in from the cold",
    )
    humidity: Quantity = ask_fact("r", "now.humidity", 75 * percent, common=(50 * percent, 75 * percent, 90 * percent))
    surface: Quantity = ask_fact("θ_s", "now.cold_surface", 10 * degC, common=(0 * degC, 10 * degC, 20 * degC))

    def solve(self) -> Answer:
        exponent = moist_air.vapour_exponent(self.air, self.humidity)
        dew = moist_air.settling_point(exponent)
        spare = constant("Δ_3", "Room above it that is safe", 3 * K, COMMON_PRACTICE)
        safe = need("θ_3", "Surface that stays dry for certain", dew + spare, degC)
        told = {"dew_point": dew, "safe_surface": safe, "suction": self._suction()}
        return answer(
            require(
                self.surface >= dew,
                comfortable=self.surface >= safe,
                label="Dew",
                yes="It stays dry.",
                tight="The coldest surface is at {left}, and water settles at {right}: the next cool hour makes it wet.",
                no="The coldest surface is at {left}, and water settles from {right} down: it is wet inside. Leave it off until the metal is warm and dry.",
            ),
            say=f"It stays dry: water settles at {dew}, and the coldest surface is at {self.surface}.",
            notes=(
                "Rolled from the cold into a warm shop it sweats: wait with switching on until the metal is above the dew point.",
                "A box that is washed or rained on while warm sucks at its seals: fit a membrane vent, or a drain at the lowest point.",
            ),
            **told,
            **self._heating(exponent),
        )

    def _heating(self, exponent: Quantity) -> dict[str, Quantity]:
        """How far the air inside must be warmed to be dry enough that nothing rusts."""
        dry = constant("r_60", "Humidity at which metal stays sound", 60 * percent, COMMON_PRACTICE)
        if (self.humidity <= dry).holds:
            return {}
        return {
            "warm_to": moist_air.temperature_of("θ_60", "Warmed to this, the same air is at 60 %", exponent - log(dry))
        }

    def _suction(self) -> Quantity:
        """Pull on the seals when a closed box of this air cools to its coldest surface."""
        sea = constant("p_0", "Pressure of the air, sea level", 101.325 * kPa, GAS_LAW)
        bottom = constant("θ_k", "Absolute zero", -273.15 * degC, DEFINITION)
        fall = largest(self.air - self.surface, 0 * K)
        return need("Δp", "Pull on the seals of a closed box as it cools", sea * fall / (self.air - bottom), kPa)

    fixes = (
        more("surface", 1 * degC, "Warm it until its coldest metal is at {surface}", costs="a heater of some watts"),
        less("humidity", 1 * percent, "Dry the air inside to {humidity}: desiccant, or vent it on a dry day"),
    )
    cautions = (
        Caution(
            "DANGER",
            "Wet contacts at mains voltage kill",
            "A film of dew bridges them, unseen",
            "Do not switch on while anything inside is wet; isolate the battery, open, let it dry",
        ),
        Caution(
            "NOTICE",
            "Dew under cards and terminals stays for days",
            "They corrode and fail later",
            "Keep a few watts of heat inside when it stands unused",
        ),
    )
    examples = (
        Example(
            given={"air": "20 °C", "humidity": "50", "surface": "15 °C"},
            expect={"dew_point": "9.3 °C"},
            verdict="go",
            source=PSYCHROMETRY.at("20 °C and 50 %: dew point 9.3 °C"),
        ),
        Example(
            given={"air": "25 °C", "humidity": "60", "surface": "10 °C"},
            expect={"dew_point": "16.7 °C"},
            verdict="no",
            source=PSYCHROMETRY.at("25 °C and 60 %: dew point 16.7 °C"),
        ),
    )
