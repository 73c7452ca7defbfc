"""The page /protect/panel-fuses/: fuses and wire for strings of panels side by side.

One string cannot hurt itself. Of three strings, two feed the fault in the third, backwards through panels that are
marked with the largest fuse they bear.
"""

from __future__ import annotations

from collections.abc import Iterator

from calc.check import (
    NEC,
    Answer,
    Caution,
    Change,
    Check,
    Example,
    Fix,
    Named,
    Requirement,
    answer,
    ask,
    ask_fact,
    less,
    next_option,
    pick_fact,
    require,
)
from calc.laws.conductor import corrected_ampacity, stands_heat, terminal_ampacity
from calc.laws.protection import NEC_BREAKERS, standard_rating_up
from calc.quantity import OutsideValidity, Quantity, constant, largest, need, rounded_down, step
from calc.sources import COMMON_PRACTICE, NEC_2023
from calc.tables import table
from calc.units import A, V, degC, one, percent_per_K, wires

NO_FUSE = "none"
RATINGS = ("10 A", "15 A", "20 A", "25 A", "30 A", "35 A", "40 A")


def _fuses(check: Check) -> Iterator[Change]:
    """Other fuses, or none, the smallest first."""
    for rating in (*RATINGS, NO_FUSE):
        if rating != check.fuse:  # type: ignore[attr-defined]
            yield {"fuse": rating}


class PanelFuses(Check):
    """Which fuses and what wire do the panels need?"""

    title = "Fuses for panels"
    headline = "least_fuse"
    rule_sets = (NEC,)

    short_amps: Quantity = ask_fact("I_sc", "panels.short_amps", 13.9 * A)
    fuse_limit: Quantity = ask_fact("I_fm", "panels.fuse_limit", 25 * A)
    count: Quantity = ask_fact("N_pv", "panels.count", 2 * one)
    series: Quantity = ask_fact("N_ps", "panels.series", 2 * one)
    open_volts: Quantity = ask_fact("V_oc", "panels.open_volts", 37.2 * V)
    volts_slope: Quantity = ask_fact("β_oc", "panels.volts_slope", -0.26 * percent_per_K)
    coldest: Quantity = ask_fact("θ_min", "place.coldest", -18 * degC)
    fuse: str = pick_fact("panels.string_fuse", NO_FUSE)
    fuse_volts: Quantity = ask_fact(
        "V_f", "panels.fuse_volts", 600 * V, when={"fuse": RATINGS}, common=(150 * V, 600 * V, 1000 * V)
    )
    size: str = pick_fact("panels.wire", "10 AWG")
    ambient: Quantity = ask(
        "θ_w",
        "Hottest air around the wire",
        50 * degC,
        low=-40 * degC,
        high=89 * degC,
        habit=True,
        help="Behind a panel or on a lid in the sun: 20 K and more above the shade",
    )

    def solve(self) -> Answer:
        strings = step("N_st", "Strings side by side", rounded_down(self.count / self.series, one), one)
        if strings.si < 1:
            raise OutsideValidity(f"{self.count} panels do not make one string of {self.series}.")
        bright = constant(
            "k_b", "Sun above the rated, at cloud edges and on snow", 1.25 * one, NEC_2023.at("690.8(A)(1)")
        )
        lasting = constant("k_c", "It runs for three hours and counts", 1.25 * one, NEC_2023.at("690.8(B), 690.9(B)"))
        most = need("I_max", "Most current of one string", bright * self.short_amps, A, NEC_2023.at("690.8(A)(1)"))
        design = need("I_d", "Current that fuse and wire are chosen by", lasting * most, A, NEC_2023.at("690.9(B)"))
        back = need("I_back", "Current the other strings feed into a fault", (strings - 1) * most, A)
        least = step(
            "I_f0",
            "Smallest standard rating for a string, from 10 A up",
            standard_rating_up(design, NEC_BREAKERS),
            A,
            NEC_2023.at("690.9(B), 240.6(A)"),
        )
        needed = (back > self.fuse_limit).holds
        return answer(
            *(self._without(back) if self.fuse == NO_FUSE else self._with(design)),
            *self._wire(most, design, back),
            say=self._spoken(needed, back, least),
            notes=(
                f"The panel's {self.short_amps} is at rated sun. Cloud edges give a quarter more, and for hours it counts as {design}.",
            ),
            least_fuse=least,
            fuses_needed=Named(
                "yes" if needed else "no",
                "Does each string need its fuse?",
                f"{back} may flow back, {self.fuse_limit} is the largest fuse",
                NEC_2023.at("690.9(A)"),
            ),
            backfeed=back,
            most_current=most,
        )

    def _spoken(self, needed: bool, back: Quantity, least: Quantity) -> str:
        if not needed:
            return f"No fuses are needed: {back} may flow back into a string, and a panel bears {self.fuse_limit}."
        return f"Each string needs a fuse, {least} at the least, {self.fuse_limit} at the most."

    def _without(self, back: Quantity) -> tuple[Requirement, ...]:
        return (
            require(
                back <= self.fuse_limit,
                label="No fuses",
                exact=True,
                yes="No string can be hurt by the others.",
                no="The other strings feed {left} into a fault; a panel bears {right} and burns: each string needs a fuse.",
            ),
        )

    def _with(self, design: Quantity) -> tuple[Requirement, ...]:
        rating = constant("I_f", "Fuse in each string", float(self.fuse.split()[0]) * A, COMMON_PRACTICE)
        rated_at = constant("θ_25", "Cells at which panels are rated", 25 * degC, NEC_2023.at("690.7(A)"))
        rise = step(
            "k_cold",
            "Rise of the open volts",
            1 + self.volts_slope * (self.coldest - rated_at),
            one,
            NEC_2023.at("690.7(A)(1)"),
        )
        cold = need(
            "V_cold", "Open volts of the string on the coldest morning", self.series * self.open_volts * rise, V
        )
        return (
            require(
                design <= rating,
                label="Fuse carries",
                exact=True,
                yes="The fuse carries the string.",
                no="The string counts as {left}; a {right} fuse opens in bright sun.",
            ),
            require(
                rating <= self.fuse_limit,
                label="Fuse protects",
                exact=True,
                yes="The fuse opens before a panel is hurt.",
                no="A {left} fuse is more than the {right} marked on the panel: it burns first.",
            ),
            require(
                cold <= self.fuse_volts,
                label="Fuse breaks",
                exact=True,
                yes="The fuse can break the cold string.",
                no="The cold string makes {left}; the fuse breaks {right} dc: it arcs on.",
            ),
        )

    def _wire(self, most: Quantity, design: Quantity, back: Quantity) -> tuple[Requirement, ...]:
        hot = stands_heat("90 °C", self.ambient)
        if not hot.holds:
            raise OutsideValidity(f"Wire of 90 °C has no ampacity in air of {self.ambient}.")
        lugs = terminal_ampacity(self.size, "copper", "90 °C", "75 °C")
        laid = corrected_ampacity(self.size, "copper", "raceway or cable", "90 °C", self.ambient, 2 * wires)
        over = self.fuse != NO_FUSE
        protects = (
            constant("I_f", "Fuse in each string", float(self.fuse.split()[0]) * A, COMMON_PRACTICE) if over else back
        )
        worst = need(
            "I_w",
            "Most that the wire must bear as it is laid",
            largest(most, protects),
            A,
            NEC_2023.at("690.8(B), 240.4"),
        )
        return (
            *self._small_wire(),
            require(
                design <= lugs,
                label="Wire at its terminals",
                exact=True,
                yes="The wire is thick enough at its terminals.",
                no=f"The string counts as {{left}}; {self.size} at 75 °C terminals is {{right}}.",
            ),
            require(
                worst <= laid,
                label="Wire in the heat",
                exact=True,
                yes="The wire is thick enough where it lies.",
                no=f"In this heat {self.size} carries {{right}}; {{left}} may flow before anything opens.",
            ),
        )

    def _small_wire(self) -> tuple[Requirement, ...]:
        """A thin wire stands behind a small fuse only, whatever its table says of it."""
        cap = table("small_conductor_cap")
        if self.fuse == NO_FUSE or not cap.has(self.size, "Cu"):
            return ()
        return (
            require(
                constant("I_f", "Fuse in each string", float(self.fuse.split()[0]) * A, COMMON_PRACTICE)
                <= cap.read("I_cap", f"Cap on fuses before {self.size} copper", self.size, "Cu", A),
                label="Fuse before a small wire",
                exact=True,
                yes="The fuse may stand before this wire.",
                no=f"A {{left}} fuse is too large for {self.size}: {{right}} at most, whatever the wire carries.",
            ),
        )

    fixes = (
        Fix("Fuse each string: {fuse}", _fuses),
        next_option("size", "Use {size} wire", costs="heavier"),
        less("count", 1 * one, "Fit {count} panels"),
    )
    cautions = (
        Caution(
            "DANGER",
            "Panels in daylight cannot be switched off, and a dc arc does not go out",
            "Shock above 60 V can kill; a connector pulled apart under load burns the hand",
            "Cover the panels before you work on their wires; fuse holders are no switches",
        ),
        Caution(
            "WARNING",
            "The battery side of the controller is the larger source",
            "A short there is fed by the whole bank",
            "It needs its own fuse, near the bank, with its own dc rating",
        ),
    )
    examples = (
        Example(
            given={"short_amps": "10.43", "fuse_limit": "20", "count": "4", "series": "2", "fuse": "none"},
            expect={"backfeed": "13.0 A"},
            verdict="go",
            source=NEC_2023.at("690.9(A): one other string gives 1.25 times 10.43 A, under the 20 A of the panel"),
        ),
        Example(
            given={"short_amps": "10.43", "fuse_limit": "20", "count": "6", "series": "2", "fuse": "none"},
            expect={"backfeed": "26.1 A", "least_fuse": "20 A"},
            verdict="no",
            source=NEC_2023.at("690.9(A), (B): two others give 26.1 A; 1.56 times 10.43 A is 16.3 A, next up 20 A"),
        ),
        Example(
            given={"short_amps": "9.5", "fuse_limit": "20", "count": "6", "series": "2", "fuse": "15 A"},
            expect={"least_fuse": "15 A"},
            verdict="go",
            source=NEC_2023.at("690.9(B): 1.56 times 9.5 A is 14.8 A, next up 15 A"),
        ),
    )  # fmt: skip
