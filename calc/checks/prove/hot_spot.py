"""The page /prove/hot-spot/: a joint, plug or breaker read with a thermometer, beside its twin or above the air.

What is read at part load is brought to the full load by the square of the current, which is how its heat grows.
"""

from __future__ import annotations

from calc.check import NO, Answer, Caution, Check, Example, answer, ask, ask_reading, pick, require
from calc.checks.measured import HOT_PARTS, QUALIFIED, likely, must_read
from calc.quantity import OutsideValidity, Quantity, constant, need, step
from calc.sources import NETA_MTS, OWN_DERIVATION
from calc.units import K, degC, percent

TWIN, AIR = "its twin, under the same load", "the air beside it"


class HotSpot(Check):
    """Is that spot too hot?"""

    title = "A hot spot"
    headline = "rise_at_full"

    held_against: str = pick(
        "Held against", (TWIN, AIR), TWIN, habit=True, help="A like part under the same load tells more than the air"
    )
    spot: Quantity = ask_reading("θ_s", "temperature of the spot", 34 * degC)
    other: Quantity = ask_reading("θ_o", "temperature it is held against", 31 * degC)
    share: Quantity = ask(
        "k_I",
        "Load while it was read, of the full load",
        80 * percent,
        low=5 * percent,
        high=100 * percent,
        habit=True,
        common=(50 * percent, 80 * percent, 100 * percent),
        help="Amps as read over the most it carries for long; under 40 % says too little",
    )

    def solve(self) -> Answer:
        least = constant("k_40", "Least share of the load that says anything", 40 * percent, NETA_MTS)
        if (self.share < least).holds:
            raise OutsideValidity(
                f"Read at {self.share} of the load, a bad joint hardly shows. Load it to {least} or more."
            )
        rise = step("ΔT", "Warmer than what it is held against", self.spot - self.other, K, rounds=1)
        at_full = need("ΔT_f", "The same at full load", rise / self.share**2, K, OWN_DERIVATION)
        fine, most = (3, 15) if self.held_against == TWIN else (10, 40)
        good = constant(
            "ΔT_g",
            f"Difference to {self.held_against.split(',')[0]} that is worth no more than a look",
            fine * K,
            NETA_MTS,
        )
        bad = constant(
            "ΔT_m", f"Difference to {self.held_against.split(',')[0]} that is mended at once", most * K, NETA_MTS
        )
        held = [
            require(
                at_full <= bad,
                comfortable=at_full <= good,
                label="Heat",
                yes="It is as warm as it should be.",
                tight=f"The difference at full load is {{left}}; over {good} something is poor. Mend it when you can.",
                no="The difference at full load is {left}; over {right} it is mended at once. Switch it off.",
            )
        ]
        return answer(
            *held,
            say=f"The difference is {rise}, and {at_full:up} at full load.",
            notes=likely(
                held,
                "a screw or nut that is not tight",
                "dirt or oxide between the faces",
                "a crimp with strands cut off",
                "a plug whose contacts have lost their spring",
                "more current on this one than on its twin",
            )
            + (
                "A thermometer that looks at bare metal reads too cold: put dull tape on it while it is off, and read the tape.",
            ),
            rise=rise,
            rise_at_full=at_full,
        )

    fixes = (
        must_read(
            "spot",
            1 * degC,
            "Switch it off, let it cool, mend it, and read again: it must show {spot} or less",
            down=True,
        ),
    )
    cautions = (
        QUALIFIED,
        HOT_PARTS,
        Caution(
            "WARNING",
            "A joint that glows under its cover shows outside as a warm spot",
            "It sets fire to the box while nobody looks",
            "Brown plastic, a smell, or a cover too hot to keep a hand on: switch off first, look afterwards",
        ),
    )
    examples = (
        Example(
            given={"spot": "52 °C", "other": "32 °C", "share": "100 %"},
            expect={"rise_at_full": "20 K"},
            verdict=NO,
            source=NETA_MTS.at("Table 100.18: over 15 °C between like parts under like load, repair immediately"),
        ),
        Example(
            given={"spot": "40 °C", "other": "32 °C", "share": "100 %"},
            verdict="tight",
            source=NETA_MTS.at("Table 100.18: 4 to 15 °C between like parts, repair as time permits"),
        ),
        Example(
            given={"held_against": AIR, "spot": "29 °C", "other": "20 °C", "share": "100 %"},
            verdict="go",
            source=NETA_MTS.at("Table 100.18: 1 to 10 °C over the air, worth a look"),
        ),
        Example(
            given={"held_against": AIR, "spot": "65 °C", "other": "20 °C", "share": "100 %"},
            verdict=NO,
            source=NETA_MTS.at("Table 100.18: over 40 °C above the air, repair immediately"),
        ),
    )
