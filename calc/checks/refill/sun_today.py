"""The page /refill/sun-today/: what the panels give here in this month, on a poor, a typical and a good day.

One number would be a guess. Three numbers say how often it is less, and the poor day is the one to plan for.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from calc.check import (
    Answer,
    Caution,
    Change,
    Check,
    Example,
    Fix,
    Named,
    Result,
    answer,
    ask,
    ask_fact,
    less,
    more,
    pick,
    pick_fact,
    require,
)
from calc.facts.filling import TRUE_NORTH
from calc.facts.job import BY_MAP, TYPED_HOURS
from calc.laws.half_hour import worked_half_hour
from calc.laws.panels import ALBEDO, array_of, energy_of_days, where_from
from calc.quantity import OutsideValidity, Quantity, stepped
from calc.sources import COMMON_PRACTICE, MERRA_2, TMY3
from calc.units import W, degC, degree, kWh, kWh_per_m2, one, percent, percent_per_K

TILTS = (0, 15, 30, 45, 60)


NO_SHADE = Caution(
    "CAUTION",
    "No shade is reckoned with",
    "The shade of one branch or mast takes a third of a panel, and holds back all that are in series with it",
    "Look where shade falls at nine, at noon and at three; type the part of the sun that is left, under what is assumed",
    only=lambda check: (check.unshaded >= 100 * percent).holds,
)


def tilts(check: Check) -> Iterator[Change]:
    """Five tilts to try."""
    for tilt in TILTS:
        yield {"tilt": tilt * degree}


class SunToday(Check):
    """What will the panels give here this month?"""

    title = "Sun this month"
    headline = "typical_day"

    need: Quantity = ask_fact("E_d", "place.daily_energy", 1.5 * kWh, common=(1 * kWh, 2 * kWh, 5 * kWh))
    latitude: Quantity = ask_fact("φ", "place.latitude", 44.2 * degree)
    longitude: Quantity = ask_fact("λ", "place.longitude", -110.6 * degree)
    month: str = pick_fact("now.month", "June")
    sun_from: str = pick_fact("place.sun_from", BY_MAP, habit=True)
    sun_hours: Quantity = ask_fact("H_50", "place.sun_hours", 5 * kWh_per_m2, when={"sun_from": (TYPED_HOURS,)})
    poor_sun_hours: Quantity = ask_fact("H_10", "place.poor_sun_hours", 2 * kWh_per_m2, when={"sun_from": (TYPED_HOURS,)})
    count: Quantity = ask_fact("N_pv", "panels.count", 2 * one)
    watts: Quantity = ask_fact("P_1", "panels.watts", 410 * W, common=(100 * W, 200 * W, 400 * W))
    tilt: Quantity = ask_fact(
        "β", "panels.tilt", 0 * degree, common=(0 * degree, 15 * degree, 30 * degree, 45 * degree)
    )
    facing: Quantity = ask_fact("α", "panels.facing", 180 * degree)
    heading_by: str = pick_fact("panels.heading_by", TRUE_NORTH, habit=True)
    ground: str = pick(
        "Ground around it", tuple(ALBEDO), "grass or earth", habit=True, help="Snow throws light back on a tilted panel"
    )
    unshaded: Quantity = ask(
        "k_s",
        "Part of the sun that no shade takes",
        100 * percent,
        low=0 * percent,
        high=100 * percent,
        habit=True,
        help="A strip of shade on one row of cells can take a third of a panel",
    )
    losses: Quantity = ask(
        "ℓ_pv",
        "Lost in dirt, wires and controller",
        14 * percent,
        low=0 * percent,
        high=50 * percent,
        habit=True,
        help="14 % is usual; flat panels stay dirtier",
    )
    slope: Quantity = ask_fact("γ", "panels.power_slope", -0.35 * percent_per_K)
    air: Quantity = ask_fact("θ_a", "now.air", 15 * degC, help="By day; ten degrees are about 3.5 %")

    def solve(self) -> Answer:
        array = array_of(self)
        month = array.stepped()
        days = energy_of_days(array, month)
        poor, typical, good = days["10"], days["50"], days["90"]
        return answer(
            require(
                typical >= self.need,
                comfortable=poor >= self.need,
                label="Sun",
                yes="Even a poor day covers it.",
                tight="A typical day gives {left} and covers the {right} it uses; on a poor day the bank must help.",
                no="A typical day gives {left}; it uses {right}: the bank runs down.",
            ),
            say=f"Poor day {poor} (1 in 10 is worse), typical {typical}, good {good}.",
            notes=(
                "Give or take 20 % for a month, more on coasts and in mountains; from five years of weather, without trend or extremes.",
                "In finance a figure that is exceeded on 90 of 100 days is called P90; here it is the poor day.",
            ),
            typical_day=typical,
            poor_day=poor,
            good_day=good,
            mean_day=stepped(
                "E_m", "Mean of the month's days", month.mean_energy * kWh.factor, kWh, (poor, typical, good)
            ),
            flat_typical=stepped(
                "H_f", "Sun on flat ground, a typical day", month.flat[2] * kWh.factor, kWh_per_m2, (typical,)
            ),
            data=where_from(month),
            **worked_half_hour(self, array, month),
        )

    def found_by_trial(self) -> Mapping[str, Result]:
        """The best of five tilts, facing as it does."""
        array = array_of(self)
        try:
            best = max(TILTS, key=lambda tilt: array.stepped(tilt=tilt).mean_energy)
        except OutsideValidity:
            return {}
        return {
            "best_tilt": Named(
                f"{best}°", "Best tilt this month", "of 0, 15, 30, 45 and 60°, facing as it does", MERRA_2
            )
        }

    fixes = (
        Fix("Tilt the panels to {tilt}, parked and turned as said", tilts, costs="only while it stands"),
        more("count", 1 * one, "Fit {count} panels"),
        less("need", 0.1 * kWh, "Use {need} a day at most"),
    )
    cautions = (
        Caution(
            "DANGER",
            "Panels in daylight cannot be switched off",
            "Strings above 60 V can kill, and a dc arc does not go out",
            "Cover them before you work on their wires; never pull a connector apart under load",
        ),
        Caution(
            "WARNING",
            "Tilted panels catch the wind",
            "A gust lifts the panel or tips the cart on somebody",
            "Tie them down, watch the forecast, fold them flat when you leave",
        ),
        NO_SHADE,
        Caution(
            "NOTICE",
            "Snow, and more dust than usual, are not in these figures",
            "A dusty panel loses a tenth, a covered one everything",
            "Wipe the panels, and sweep off the snow before the sun is on them",
        ),
    )
    examples = (
        Example(
            given={
                "latitude": "36.1", "longitude": "-79.95", "month": "June", "count": "1", "watts": "400", "need": "0.5",
                "air": "25 °C",
            },
            expect={"flat_typical": "6.58 kWh/m²"},
            within=0.04,
            verdict="go",
            source=TMY3.at("median of the days of June: 6.58 kWh/m² on flat ground"),
        ),
        Example(
            given={
                "latitude": "36.1", "longitude": "-79.95", "month": "December", "count": "1", "watts": "400", "need": "2",
            },
            expect={"flat_typical": "2.39 kWh/m²"},
            within=0.04,
            verdict="no",
            source=TMY3.at("median of the days of December: 2.39 kWh/m² on flat ground"),
        ),
        Example(
            given={
                "latitude": "36.1", "longitude": "-79.95", "month": "December", "count": "2", "watts": "400", "need": "1.2",
            },
            verdict="tight",
            source=COMMON_PRACTICE.at("enough on a typical day, not on a poor one"),
        ),
    )  # fmt: skip
