"""The page /shelter/air/: the heat that is lost inside, and the air that must carry it out.

The plate's best efficiency tells too little heat at full load, and a fan's free flow is not its flow through a grille.
"""

from __future__ import annotations

from calc.check import NO, PHYSICAL, Answer, Caution, Check, Example, answer, ask, ask_fact, less, more, require
from calc.laws import air as airs
from calc.laws.inverter import losses
from calc.laws.traction import STANDARD_ATMOSPHERE
from calc.quantity import Quantity, constant, limit, need, step
from calc.sources import COMMON_PRACTICE, FROM_MEMORY, LOSS_MODEL, OWN_DERIVATION, Source
from calc.units import K, W, degC, m, m3_per_h, percent

HEAT_BALANCE = Source("Heat taken up by a stream of air, a text of heat transfer", "", FROM_MEMORY)


class Air(Check):
    """How much air does it need?"""

    title = "Heat and air"
    headline = "air_needed"

    output: Quantity = ask_fact("P_o", "work.long_power", 2500 * W, common=(1000 * W, 2000 * W, 3000 * W))
    idle: Quantity = ask_fact("P₀", "inverter.idle", 60 * W)
    peak_efficiency: Quantity = ask_fact("η", "inverter.peak_efficiency", 93 * percent)
    continuous: Quantity = ask_fact("P_r", "inverter.continuous", 5000 * W)
    other_heat: Quantity = ask(
        "Q_x",
        "Other heat in the same air",
        0 * W,
        low=0 * W,
        high=3000 * W,
        habit=True,
        help="Charger, converter, breakers: what they lose, not what they carry",
    )
    hottest: Quantity = ask_fact("θ_max", "place.hottest", 34 * degC, common=(25 * degC, 35 * degC, 40 * degC))
    altitude: Quantity = ask_fact("H", "place.altitude", 1900 * m)
    rise: Quantity = ask(
        "ΔT",
        "How much warmer the air may leave",
        10 * K,
        low=3 * K,
        high=30 * K,
        habit=True,
        common=(5 * K, 10 * K, 15 * K),
        help="The unit's inlet limit less the hottest air, at most",
    )
    fan_flow: Quantity = ask_fact("V_f", "inverter.air_flow", 90 * m3_per_h)
    through: Quantity = ask(
        "k_g",
        "Share of it that gets through grilles and filters",
        50 * percent,
        low=10 * percent,
        high=100 * percent,
        habit=True,
        common=(30 * percent, 50 * percent, 100 * percent),
        help="Half, unless it was measured; 100 % where the maker states it as built in",
    )

    def solve(self) -> Answer:
        a, b = losses(self.idle, self.peak_efficiency, self.continuous)
        lost = need("Q_i", "Heat in the inverter", self.idle + a * self.output + b * self.output**2, W, LOSS_MODEL)
        heat = need("Q", "Heat to carry away", lost + self.other_heat, W)
        dense = airs.density(self.altitude, self.hottest)
        wanted = airs.flow_for(heat, self.rise, dense)
        moved = limit("V_g", "Air that really moves", self.fan_flow * self.through, m3_per_h, COMMON_PRACTICE)
        naive = step("Q_n", "Heat by the best efficiency", self.output * (1 / self.peak_efficiency - 1), W)
        sea = constant("ρ_0", "Density of air at sea level, 25 °C", 1.184 * dense.unit, airs.AIR_TABLES)
        return answer(
            require(
                wanted <= moved,
                rule=PHYSICAL,
                label="Air",
                yes="The fans move enough air.",
                tight=f"It needs {{left}} of the {{right}} that its fans move: the air leaves {self.rise} warmer.",
                no=f"It needs {{left}} and its fans move {{right}}: it gets hotter than {self.rise} over the air, turns itself down or stops.",
            ),
            say=f"It makes {heat:up} of heat and needs {wanted:up} of air; its fans move {moved}.",
            notes=(
                f"The best efficiency on the plate would say {naive}; at {self.output} it is {lost}.",
                f"Thin warm air carries less: {step('k_ρ', 'Air it takes here, over that at sea level and 25 °C', sea / dense, percent)} of the air it takes at sea level and 25 °C.",
            ),
            air_needed=wanted,
            air_moved=moved,
            heat=heat,
            heat_in_inverter=lost,
            air_density=dense,
            rise_with_these_fans=step(
                "ΔT_f", "The air leaves warmer by", self.rise * wanted / moved, K, OWN_DERIVATION, rounds=1
            ),
        )

    fixes = (
        more("fan_flow", 10 * m3_per_h, "Fit fans that move {fan_flow} in free air"),
        more("through", 5 * percent, "Open grilles and filters until {through} of it gets through"),
        more("rise", 1 * K, "Let the air leave {rise} warmer, where the unit's inlet limit allows it"),
        less("output", 100 * W, "Take no more than {output} for long"),
        less("other_heat", 10 * W, "Move other heat out of this air, down to {other_heat}"),
    )
    cautions = (
        Caution(
            "WARNING",
            "A covered grille lets an inverter or charger overheat until it burns",
            "Cloth, leaves and snow close it within minutes",
            "Keep both grilles free, look at them before each use, never throw a tarp over it while it runs",
        ),
        Caution(
            "CAUTION",
            "Its case and the air that leaves burn the skin",
            "Metal at 60 °C hurts at a touch",
            "Keep hands off until it has cooled; keep cords out of the hot air",
        ),
    )
    examples = (
        Example(
            given={
                "output": "2500 W",
                "idle": "60 W",
                "other_heat": "0 W",
                "hottest": "25 °C",
                "altitude": "0 m",
                "rise": "10 K",
                "fan_flow": "200 m³/h",
                "through": "50",
            },
            expect={"air_density": "1.184 kg/m³"},
            verdict="go",
            source=airs.AIR_TABLES.at("air at 25 °C and 101.325 kPa: 1.184 kg/m³"),
        ),
        Example(
            given={"hottest": "40 °C", "altitude": "2000 m", "output": "4500 W", "fan_flow": "60 m³/h"},
            expect={"air_density": "0.884 kg/m³"},
            within=0.002,
            verdict=NO,
            source=STANDARD_ATMOSPHERE.at("2000 m: 79.5 kPa"),
        ),
    )
