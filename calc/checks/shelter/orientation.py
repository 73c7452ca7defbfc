"""The page /shelter/orientation/: the fan's stream against the rise of warm air, and what a unit loses without its fan.

While its fan runs, warm air that would rather rise is nothing: a column of it pulls with less than a hundredth of what
the fan pushes. Without the fan the fins must stand upright. And the manual's word stands above the arithmetic.
"""

from __future__ import annotations

from collections.abc import Iterator

from calc.check import (
    NEC,
    NO,
    PHYSICAL,
    RULE_SETS,
    Answer,
    Caution,
    Change,
    Check,
    Example,
    Fix,
    Requirement,
    answer,
    ask,
    ask_fact,
    less,
    more,
    option,
    pick,
    pick_fact,
    require,
)
from calc.checks import cooling_air as air_side
from calc.laws import convection, mounting
from calc.quantity import Quantity, Statement, alternative, constant, largest, limit, smallest, step
from calc.sources import COMMON_PRACTICE, FROM_MEMORY, IEC_60364_1, IEC_60529, NEC_2023, Source
from calc.units import cm2, m3_per_h, m_per_s, one, percent

TEXT = Source("Boundary layer on an upright plate at 70 °C in air at 25 °C, a text of heat transfer", "", FROM_MEMORY)
FAN = {"cooling": mounting.FANNED}
CLOSED, OPEN = "closed metal", "slots, a grille or a fan"


def _fan_always(check: Check) -> Iterator[Change]:
    if getattr(check, "cooling") == mounting.STOPS:  # noqa: B009  (a check of any kind)
        yield {"cooling": mounting.ALWAYS}


class Orientation(Check):
    """May it be mounted this way up?"""

    title = "Which way up"
    headline = "cooling_left"

    mounted: str = pick_fact("inverter.mounted", mounting.AS_SHOWN)
    position_rule: str = pick_fact(
        "inverter.position_rule",
        mounting.ONLY_AS_SHOWN,
        help="Under mounting; a picture with one position and no more is only as shown",
    )
    cooling: str = air_side.cooling()
    fan_flow: Quantity = air_side.fan_flow(when=FAN)
    inlet_area: Quantity = ask_fact("A_i", "inverter.inlet_area", 125 * cm2, when=FAN)
    fan_pressure: Quantity = air_side.fan_pressure(when=FAN)
    cooled_height: Quantity = air_side.cooled_height(when=FAN)
    rise: Quantity = air_side.rise_of_what_leaves(when=FAN)
    hottest: Quantity = air_side.hottest(when=FAN)
    altitude: Quantity = air_side.altitude(when=FAN)
    used: Quantity = ask(
        "u_n",
        "Of its rating, used for long without the fan",
        40 * percent,
        low=1 * percent,
        high=100 * percent,
        habit=True,
        when={"cooling": mounting.FANLESS_AT_TIMES},
        common=(20 * percent, 40 * percent, 100 * percent),
        help="100 % where there is no fan; else the share at which its fan starts",
    )
    looks_up: str = pick(
        "What of it looks up", (CLOSED, OPEN), CLOSED, habit=True, help="As it is mounted now, lids and covers shut"
    )
    standing: str = pick_fact("place.standing", "under a roof outdoors")

    def solve(self) -> Answer:
        required, shares, told = [self._by_the_manual(), self._openings()], [], {}
        if self.cooling in mounting.FANNED:
            told = self._stream()
            required += self._against_the_fan(told)
            shares.append(self._left_of_the_fan(told["stack_over_fan"]))
        if self.cooling in mounting.FANLESS_AT_TIMES:
            shares.append(mounting.cooling_left(self.mounted))
            required.append(self._without_the_fan(shares[-1]))
        left = limit("k_c", "Cooling left in this position", smallest(*shares), percent)
        return answer(
            *required,
            say=f"Yes: mounted {self.mounted}, {left} of its cooling is left.",
            notes=(
                "Besides heat, the position decides what falls into openings, how dust settles on a fan that looks up, "
                "how its bearing is loaded, and what the maker's certificate covers.",
            ),
            cooling_left=left,
            **told,
        )

    def _stream(self) -> dict[str, Quantity]:
        """The fan's stream, and the warm air that would rise against it or with it."""
        film = convection.film(self.hottest, self.rise, self.altitude)
        speed = step("v", "Speed of the air past it", self.fan_flow / self.inlet_area, m_per_s, rounds=-1)
        buoyancy = convection.grashof(film, self.rise, self.cooled_height)
        stream = convection.reynolds(film, speed, self.cooled_height)
        stack = convection.stack_pressure(film, self.rise, self.cooled_height)
        return {
            "richardson": convection.richardson(buoyancy, stream),
            "air_speed": speed,
            "grashof": buoyancy,
            "reynolds": stream,
            "stack_pressure": stack,
            "stack_over_fan": step(
                "q_s", "That pull over the fan's pressure", stack / self.fan_pressure, percent, rounds=1
            ),
        }

    def _left_of_the_fan(self, share: Quantity) -> Quantity:
        whole = constant("k_1", "All of it", 100 * percent, COMMON_PRACTICE)
        symbol, label = "k_f", "Of the fan's pressure left, warm air pulling against it"
        if self.mounted == mounting.AS_SHOWN:
            return alternative(symbol, label, whole, "warm air rises the way it was built for", percent)
        return step(symbol, label, largest(whole - share, 0), percent, rounds=-1)

    def _by_the_manual(self) -> Requirement:
        as_shown = self.mounted == mounting.AS_SHOWN
        source = (NEC_2023 if self.rules == NEC else IEC_60364_1).at(
            "110.3(B): installed by the instructions that came with it" if self.rules == NEC else "134.1.1"
        )
        said = f"Its manual says: {self.position_rule}"
        return require(
            Statement(said, as_shown or self.position_rule != mounting.ONLY_AS_SHOWN, source),
            comfortable=Statement(said, as_shown or self.position_rule == mounting.ANY, source),
            label="Its manual",
            yes="Its manual allows the position.",
            tight="Its manual says nothing of this position: ask the maker before it is relied on.",
            no="Its manual shows one position and this is another: whatever the air does, that decides. Ask the maker.",
        )

    def _openings(self) -> Requirement:
        indoors = self.standing == "indoors"
        return require(
            Statement(f"Looking up: {self.looks_up}", self.looks_up == CLOSED or indoors, IEC_60529),
            comfortable=Statement(f"Looking up: {self.looks_up}", self.looks_up == CLOSED, IEC_60529),
            label="Openings",
            yes="Nothing falls into it from above.",
            tight="Its openings look up: dust and whatever is dropped falls in. Fit a hood that leaves the air free.",
            no=f"Its openings look up, and it stands {self.standing}: water falls onto live parts.",
        )

    def _against_the_fan(self, told: dict[str, Quantity]) -> list[Requirement]:
        """Only where it is turned: as the manual shows it, warm air and fan go the same way."""
        if self.mounted == mounting.AS_SHOWN:
            return []
        rules = constant("Ri_1", "Under which the fan's stream rules", 0.1 * one, convection.MIXED_FLOW)
        yields = constant("Ri_2", "Over which rising air rules", 10 * one, convection.MIXED_FLOW)
        return [
            require(
                told["richardson"] <= yields,
                comfortable=told["richardson"] <= rules,
                label="Fan's stream",
                yes="The fan's stream rules; the position does not matter to it.",
                tight=f"Buoyancy is {{left}} of the fan's stream: under {rules} it would not matter. It runs warmer than upright.",
                no="Buoyancy is {left} times the fan's stream, over {right}: the warm air goes its own way, and upright counts.",
            ),
            require(
                told["stack_pressure"] <= self.fan_pressure,
                rule=PHYSICAL,
                label="Fan's pressure",
                yes="The fan pushes harder than the warm air pulls.",
                tight="The warm air pulls with {left} against the fan's {right}.",
                no="The warm air pulls with {left}, the fan pushes with {right} at most: the air stands still.",
            ),
        ]

    def _without_the_fan(self, left: Quantity) -> Requirement:
        return require(
            self.used <= left,
            rule=PHYSICAL,
            label="Without the fan",
            yes="Without its fan it keeps cool enough.",
            tight="Without its fan {left} of its rating is used, and {right} can be cooled in this position.",
            no="Without its fan {left} of its rating is used, and only {right} can be cooled in this position: set the fins upright.",
        )

    fixes = (
        option("mounted", mounting.AS_SHOWN, "Mount it as its manual shows"),
        option("looks_up", CLOSED, "Turn it, or hood it, so that only closed metal looks up"),
        option("mounted", mounting.UPSIDE_DOWN, "Mount it with its fins upright"),
        Fix("Let its fan run always, where it can be set so", _fan_always),
        more("fan_flow", 10 * m3_per_h, "Fit fans that move {fan_flow}"),
        less("used", 5 * percent, "Use no more than {used} of its rating without the fan"),
    )
    cautions = (
        Caution(
            "WARNING",
            "A unit mounted against its manual can overheat, or catch water, out of sight",
            "Smoke and fire at night or in a closed cart; its certificate no longer holds",
            "Mount it as the manual shows; where it says nothing, ask the maker in writing",
        ),
        Caution(
            "WARNING",
            "Chips and screws that fall into a grille short live parts",
            "A flash when it is switched on, or months later",
            "Isolate it and cover it while anything above it is drilled or filed",
        ),
    )
    examples = (
        Example(
            given={
                "mounted": mounting.FACE_UP,
                "position_rule": mounting.ANY,
                "cooling": mounting.ALWAYS,
                "fan_flow": "180 m³/h",
                "inlet_area": "100 cm²",
                "cooled_height": "250 mm",
                "rise": "45 K",
                "hottest": "25 °C",
                "altitude": "0 m",
            },
            expect={"grashof": "66900000", "reynolds": "69700", "richardson": "0.0138"},
            within=0.04,
            verdict="go",
            source=TEXT.at(
                "0.25 m high, 5 m/s: Gr = 6.69·10⁷, Re = 6.97·10⁴, Gr/Re² = 0.014, buoyancy may be left out; its viscosity stands between two rows of its table"
            ),
        ),
        Example(
            given={
                "mounted": mounting.FACE_DOWN,
                "position_rule": mounting.ANY,
                "cooling": mounting.NO_FAN,
                "used": "80",
            },
            expect={"cooling_left": "64.7 %"},
            verdict=NO,
            source=convection.PLATES.at("Nu = 0.27·Ra^¼ looking down, 0.59·Ra^¼ upright"),
        ),
        *(
            Example(
                given={"mounted": mounting.ON_ITS_SIDE, "position_rule": mounting.ONLY_AS_SHOWN, "used": "10"},
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
