"""The page /choose/panel-string/: panels in series on the coldest morning, on the hottest afternoon, and too many of them.

Cold lifts the open volts, and one panel too many destroys the controller at sunrise. Heat takes the working volts
faster than the open ones, and one too few leaves the afternoon without charge.
"""

from __future__ import annotations

from calc.check import (
    NEC,
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
    pick,
    require,
)
from calc.quantity import OutsideValidity, Quantity, constant, largest, limit, need, rounded_down, smallest, step
from calc.sources import COMMON_PRACTICE, NEC_2023, OWN_DERIVATION, SINGLE_DIODE
from calc.tables import table
from calc.units import A, K, V, W, degC, one, percent, percent_per_K

BY_SHEET, BY_TABLE = "by its sheet", "by the code's table"


class PanelString(Check):
    """How many panels in series, on the coldest morning and the hottest afternoon?"""

    title = "Panels in series"
    headline = "cold_volts"
    rule_sets = (NEC,)

    series: Quantity = ask_fact("N_ps", "panels.series", 2 * one)
    count: Quantity = ask_fact("N_pv", "panels.count", 2 * one)
    open_volts: Quantity = ask_fact("V_oc", "panels.open_volts", 37.2 * V)
    power_volts: Quantity = ask_fact("V_mp", "panels.power_volts", 31.1 * V)
    watts: Quantity = ask_fact("P_1", "panels.watts", 410 * W)
    cold_by: str = pick(
        "Rise in the cold",
        (BY_SHEET, BY_TABLE),
        BY_SHEET,
        habit=True,
        help="The table is for crystalline silicon whose sheet is lost; it steps, and is on the safe side",
    )
    volts_slope: Quantity = ask_fact("β_oc", "panels.volts_slope", -0.26 * percent_per_K, when={"cold_by": (BY_SHEET,)})
    power_slope: Quantity = ask_fact("γ", "panels.power_slope", -0.34 * percent_per_K)
    coldest: Quantity = ask_fact("θ_min", "place.coldest", -18 * degC)
    hottest: Quantity = ask_fact("θ_max", "place.hottest", 34 * degC)
    rise: Quantity = ask(
        "Δθ",
        "How much hotter the cells are than the air",
        30 * K,
        low=10 * K,
        high=50 * K,
        habit=True,
        help="30 K on a rack, 35 K and more flat on a roof or a lid",
    )
    controller_volts: Quantity = ask_fact("V_ctl", "panels.controller_volts", 150 * V)
    controller_start: Quantity = ask_fact("V_st", "panels.controller_start", 60 * V)
    controller_amps: Quantity = ask_fact("I_ctl", "panels.controller_amps", 60 * A)
    bank_volts: Quantity = ask_fact("V_b", "bank.nominal_volts", 51.2 * V)
    charge_volts: Quantity = ask_fact("V_cv", "bank.highest_volts", 57.6 * V)

    def solve(self) -> Answer:
        standard = self._rated_at()
        factor = self._cold_factor(standard)
        cold = need(
            "V_cold",
            "Open volts of the string on the coldest morning",
            self.series * self.open_volts * factor,
            V,
            NEC_2023.at("690.7(A)"),
        )
        hot_cells = need("θ_hot", "Cells on the hottest afternoon", self.hottest + self.rise, degC)
        left = step(
            "k_hot",
            "Share of its working volts that heat leaves",
            1 + self.power_slope * (hot_cells - standard),
            one,
            OWN_DERIVATION,
        )
        hot = limit("V_hot", "Working volts of the string then", self.series * self.power_volts * left, V)
        rated = step("P_pv", "Rated watts of all panels", self.count * self.watts, W)
        taken = limit("P_ctl", "Watts the controller can take", self.controller_amps * self.bank_volts, W)
        clipped = step(
            "k_clip", "Part of the full sun that finds no room", largest(rated - taken, 0 * W) / rated, percent
        )
        safe = constant(
            "k_97",
            "Part of its highest volts that leaves room for what a straight line misses",
            0.97 * one,
            SINGLE_DIODE,
        )
        return answer(
            self._sheet(),
            self._strings(),
            self._on_a_cold_morning(cold, safe),
            self._on_a_hot_afternoon(hot),
            self._too_many(clipped),
            say=f"The string makes {cold} on the coldest morning and {hot} on the hottest afternoon; the controller takes both.",
            notes=self._notes(cold),
            cold_volts=cold,
            hot_volts=hot,
            most_in_series=limit(
                "N_max",
                "Most panels in series",
                rounded_down(safe * self.controller_volts / (self.open_volts * factor), one),
                one,
            ),
            clipped=clipped,
        )

    def _cold_factor(self, standard: Quantity) -> Quantity:
        if self.cold_by == BY_SHEET:
            return step(
                "k_cold",
                "Rise of the open volts",
                1 + self.volts_slope * (self.coldest - standard),
                one,
                NEC_2023.at("690.7(A)(1)"),
            )
        listed = table("pv_cold_factor")
        if (self.coldest < float(listed.rows[0]) * degC).holds:
            raise OutsideValidity("The code's table ends at −40 °C; colder than that the panel's own sheet is needed.")
        top = smallest(self.coldest, float(listed.rows[-1]) * degC)
        return listed.read(
            "k_cold", f"Rise of the open volts at {self.coldest}", listed.row_reached(top, degC), "factor", one
        )

    def _sheet(self) -> Requirement:
        return require(
            self.power_volts < self.open_volts,
            label="Panel's figures",
            exact=True,
            yes="The panel's figures fit.",
            no="A panel cannot work at {left} and stand open at {right}: the two are swapped or wrong.",
        )

    def _strings(self) -> Requirement:
        strings = step(
            "N_st", "Strings that this number of panels makes", rounded_down(self.count / self.series, one), one
        )
        used = step("N_u", "Panels in them", strings * self.series, one)
        return require(
            used >= self.count,
            label="Even strings",
            exact=True,
            yes="All strings are alike.",
            no="Strings of these make use of {left} panels and there are {right}: unlike strings in parallel drag one another down.",
        )

    def _on_a_cold_morning(self, cold: Quantity, safe: Quantity) -> Requirement:
        return require(
            cold <= self.controller_volts,
            comfortable=cold <= safe * self.controller_volts,
            label="Coldest morning",
            yes="The controller bears the cold string.",
            tight="The string makes {left} in the cold, a hair under the {right} the controller bears; in deep cold a straight line is up to 3 % low.",
            no="The string makes {left} in the cold; the controller bears {right} and is destroyed at sunrise.",
        )

    def _on_a_hot_afternoon(self, hot: Quantity) -> Requirement:
        above = constant("V_5", "Volts a step-down controller needs above the bank", 5 * V, COMMON_PRACTICE)
        least = need(
            "V_need", "Volts the controller needs", largest(self.controller_start, self.charge_volts + above), V
        )
        room = constant("k_105", "Room that is comfortable", 1.05 * one, COMMON_PRACTICE)
        return require(
            hot >= least,
            comfortable=hot >= room * least,
            label="Hottest afternoon",
            yes="It still charges in the heat.",
            tight="In the heat {left} are left, just above the {right} the controller needs.",
            no="In the heat only {left} are left; the controller needs {right} and stops charging.",
        )

    def _too_many(self, clipped: Quantity) -> Requirement:
        some = constant("k_some", "Part that may find no room at full sun", 25 * percent, COMMON_PRACTICE)
        return require(
            clipped <= some,
            comfortable=clipped <= some / 2,
            label="Too many panels",
            yes="The controller takes what they give.",
            tight="At full sun {left} finds no room; up to {right} still pays on cloudy days.",
            no="At full sun {left} finds no room in the controller: more than {right} is wasted money and mass.",
        )

    def _rated_at(self) -> Quantity:
        return constant("θ_25", "Cells at which panels are rated", 25 * degC, NEC_2023.at("690.7(A)"))

    def _notes(self, cold: Quantity) -> tuple[str, ...]:
        plain = step("V_n", "Open volts on the plate", self.series * self.open_volts, V)
        said = f"The plate's volts would say {plain}: true at 25 °C only. Parallel strings add amps, not volts."
        if self.cold_by == BY_TABLE:
            return (said,)
        naive = step(
            "V_h",
            "Working volts by the open volts' slope",
            self.series * self.power_volts * (1 + self.volts_slope * (self.hottest + self.rise - self._rated_at())),
            V,
        )
        return (
            said,
            f"The open volts' slope would leave {naive} in the heat: the working volts fall faster, nearly as the power does.",
        )

    fixes = (
        less("series", 1 * one, "Put {series} in series"),
        more("series", 1 * one, "Put {series} in series"),
        less("count", 1 * one, "Fit {count} panels"),
        more("controller_volts", 50 * V, "Fit a controller for {controller_volts}"),
        more("controller_amps", 10 * A, "Fit a controller of {controller_amps}"),
    )
    cautions = (
        Caution(
            "DANGER",
            "Panels in daylight cannot be switched off, and a dc arc does not go out",
            "Shock above 60 V can kill; an arc burns on until the sun sets",
            "Cover the panels, open a dc-rated switch first, never pull a connector apart under load",
        ),
        Caution(
            "WARNING",
            "A controller past its volts fails at once, and may pass the panel's volts on",
            "The bank is overcharged and can burn",
            "Stay under the limit on the coldest morning, not on the plate",
        ),
        Caution(
            "NOTICE",
            "Cloud edges and snow lift the current, not the volts",
            "Fuses and wires see up to a quarter more than the plate",
            "Size them by the page on panel fuses",
        ),
    )
    examples = (
        Example(
            given={"series": "2", "count": "2", "open_volts": "49.2", "power_volts": "40.2", "volts_slope": "-0.26", "coldest": "-20 °C", "controller_volts": "150"},
            expect={"cold_volts": "109.9 V", "most_in_series": "2"},
            verdict="go",
            source=NEC_2023.at("690.7(A)(1): 49.2 V at −0.26 %/K and −20 °C is 54.96 V each"),
        ),
        Example(
            given={
                "series": "9", "count": "9", "open_volts": "49.18", "power_volts": "40.82", "volts_slope": "-0.326",
                "power_slope": "-0.391", "coldest": "-20 °C", "hottest": "40 °C", "rise": "30 K", "controller_volts": "600",
                "controller_start": "150", "controller_amps": "100",
            },
            expect={"cold_volts": "507.0 V", "hot_volts": "300.6 V"},
            within=0.01,
            verdict="go",
            source=SINGLE_DIODE.at("nine panels of 72 cells in series: 507.0 V open at −20 °C, 300.6 V at work at 70 °C"),
        ),
        Example(
            given={"series": "3", "count": "3", "open_volts": "49.2", "power_volts": "40.2", "cold_by": BY_TABLE, "coldest": "-20 °C", "controller_volts": "150"},
            expect={"cold_volts": "174.2 V"},
            verdict="no",
            source=NEC_2023.at("Table 690.7(A): 1.18 from −20 °C up; 3 panels of 49.2 V"),
        ),
    )  # fmt: skip
