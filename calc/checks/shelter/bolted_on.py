"""The page /shelter/bolted-on/: screws in thin tube, or straps, against the part's weight doubled at a bump.

A heavy box on a wall pulls its upper screws out before it shears any of them: its depth counts as a lever.
"""

from __future__ import annotations

from calc.check import (
    NO,
    PHYSICAL,
    Answer,
    Caution,
    Check,
    Example,
    answer,
    ask_fact,
    less,
    more,
    next_option,
    option,
    pick_fact,
    require,
)
from calc.facts.mounting import ON_A_FLOOR, ON_A_WALL, STRAPPED, UNDER
from calc.laws import slope, thin_screw
from calc.quantity import Quantity, constant, limit, need
from calc.sources import AISI_S100, COMMON_PRACTICE, FROM_MEMORY, OWN_DERIVATION, Source
from calc.units import N, kg, mm, one

SCREWED = (ON_A_WALL, ON_A_FLOOR, UNDER)
LEVERS = Source("Moments about the lower edge of a bracket, a text of statics", "", FROM_MEMORY)


class BoltedOn(Check):
    """Will it stay bolted on?"""

    title = "Bolted on"
    headline = "force"

    mass: Quantity = ask_fact("m", "parts.mass", 21 * kg, common=(10 * kg, 20 * kg, 50 * kg))
    held: str = pick_fact("parts.held", ON_A_WALL)
    screws: str = pick_fact("parts.screws", "4", when={"held": SCREWED})
    diameter: Quantity = ask_fact(
        "d_s",
        "parts.screw_diameter",
        4.8 * mm,
        when={"held": SCREWED},
        common=(4.2 * mm, 4.8 * mm, 5.5 * mm, 6.3 * mm),
    )
    wall: Quantity = ask_fact(
        "t_w", "parts.wall", 1.5 * mm, when={"held": SCREWED}, common=(1 * mm, 1.5 * mm, 2 * mm, 3 * mm)
    )
    metal: str = pick_fact("parts.tube_metal", "mild steel", when={"held": SCREWED})
    depth: Quantity = ask_fact("e", "parts.stands_off", 100 * mm, when={"held": (ON_A_WALL,)})
    spread: Quantity = ask_fact("a", "parts.spread", 300 * mm, when={"held": (ON_A_WALL,)})
    straps: str = pick_fact("parts.straps", "2", when={"held": (STRAPPED,)})
    strap_limit: Quantity = ask_fact(
        "L_s", "parts.strap_limit", 250 * kg, when={"held": (STRAPPED,)}, common=(100 * kg, 250 * kg, 500 * kg)
    )

    def solve(self) -> Answer:
        bump = constant("k_b2", "Times its weight at a bump, any way", 2 * one, COMMON_PRACTICE)
        force = need("F", "Force at a bump", bump * slope.weight(self.mass), N, COMMON_PRACTICE)
        return self._strapped(force) if self.held == STRAPPED else self._screwed(force)

    def _screwed(self, force: Quantity) -> Answer:
        strength = thin_screw.metal_strength(self.metal)
        count = constant("n", "Screws", float(self.screws) * one, COMMON_PRACTICE)
        shear_most = thin_screw.shear_allowed(self.wall, self.diameter, strength)
        pull_most = thin_screw.pull_allowed(self.wall, self.diameter, strength)
        shear = need("V", "Shear on one screw", force / count, N)
        pull = self._pull(force, count)
        used = thin_screw.use(shear, shear_most, pull, pull_most)
        return answer(
            require(
                used <= 1 * one,
                rule=PHYSICAL,
                label="Screws",
                yes="The screws hold.",
                tight="The screws hold a bump, with little to spare: {left} of what they may.",
                no=f"At a bump the screws carry {{left}} times what they may: they tear out of {self.wall} of {self.metal}.",
            ),
            say=f"It stays on: {force:up} at a bump, on {self.screws} screws.",
            notes=(
                f"The screw itself is not the limit: in this wall it may be pulled with {pull_most}, a bolt through with a plate behind holds many times that.",
                "A screw that turned once in thin tube, or a stripped one, counts as none.",
            ),
            force=force,
            shear=shear,
            pull=pull,
            shear_allowed=shear_most,
            pull_allowed=pull_most,
            use=used,
        )

    def _pull(self, force: Quantity, count: Quantity) -> Quantity:
        """On an upright the lever pulls the upper half, and a bump away from it pulls all; else all are pulled."""
        if self.held != ON_A_WALL:
            return need("T", "Pull on one screw", force / count, N)
        lever = force * self.depth / self.spread / (count / 2)
        return need("T", "Pull on one of the upper screws", lever + force / count, N, LEVERS)

    def _strapped(self, force: Quantity) -> Answer:
        count = constant("n", "Straps", float(self.straps) * one, COMMON_PRACTICE)
        holds = limit("F_a", "What the straps may carry", count * slope.gravity() * self.strap_limit, N, OWN_DERIVATION)
        return answer(
            require(
                force <= holds,
                rule=PHYSICAL,
                label="Straps",
                yes="The straps hold.",
                tight="The straps carry {left} of the {right} that they may.",
                no="A bump pulls with {left}; the straps may carry {right}.",
            ),
            say=f"It stays down: {force:up} at a bump, of {holds}.",
            notes=(
                "Straps hold it down, not sideways: a rim or blocks of wood on all four sides do that.",
                "A strap over an edge or in the sun is good for half.",
            ),
            force=force,
            straps_allowed=holds,
        )

    fixes = (
        next_option("screws", "Use {screws} screws"),
        more("diameter", 0.1 * mm, "Use screws of {diameter}"),
        more("wall", 0.5 * mm, "Screw into {wall} of wall, or rivet nuts and a plate behind it"),
        more("spread", 50 * mm, "Set the upper screws {spread} above its lower edge"),
        less("depth", 10 * mm, "Mount it closer: its middle {depth} off the upright"),
        next_option("straps", "Use {straps} straps"),
        more("strap_limit", 50 * kg, "Use straps of {strap_limit} working load"),
        option("held", STRAPPED, "Stand it on a floor and strap it down"),
    )
    cautions = (
        Caution(
            "DANGER",
            "A battery that breaks loose shorts its terminals on the frame",
            "Thousands of amps, fire, and its mass on whoever is near",
            "Frame it on four sides, strap it down, cover its terminals; fix it before a cable is connected",
        ),
        Caution(
            "WARNING",
            "A screw or drill through a tube can hit a cable or a cell",
            "It shorts at once or weeks later",
            "Isolate the battery, look behind, use a stop on the drill",
        ),
        Caution(
            "CAUTION",
            "Screws work loose on rough ground",
            "It rattles first, then it is gone",
            "Use lock washers or thread lock; try each screw after the first trip and every month",
        ),
    )
    examples = (
        Example(
            given={
                "mass": "20 kg",
                "held": UNDER,
                "screws": "4",
                "diameter": "4.8 mm",
                "wall": "1.5 mm",
                "metal": "mild steel",
            },
            expect={"pull_allowed": "632 N"},
            within=0.002,
            verdict="go",
            source=AISI_S100.at("section J4.4.1: 0.85·t·d·F_u over 3: 0.85·1.5·4.8·310/3 = 632.4 N"),
        ),
        Example(
            given={
                "mass": "90 kg",
                "held": ON_A_WALL,
                "screws": "4",
                "diameter": "4.2 mm",
                "wall": "1 mm",
                "metal": "mild steel",
                "depth": "150 mm",
                "spread": "300 mm",
            },
            expect={"shear_allowed": "823 N"},
            within=0.003,
            verdict=NO,
            source=AISI_S100.at("section J4.3.1: 4.2·√(t³·d)·F_u over 3; the screw itself 140·d²/3 = 823 N governs"),
        ),
    )
