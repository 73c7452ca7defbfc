"""The page /refill/panel-flat/: whether a panel on a roof that points anywhere should be tilted.

Tilt pays where the cart is parked and turned to the sun. On a roof that points anywhere the good headings do not make
up for the bad ones, and the worst halves a winter's day.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from calc.check import IEC, Answer, Caution, Check, Example, Fix, answer, option, pick, require
from calc.checks.refill.sun_today import NO_SHADE, SunToday, tilts
from calc.laws.half_hour import worked_half_hour
from calc.laws.panels import array_of, where_from
from calc.quantity import Quantity, constant, step, stepped
from calc.sources import OWN_DERIVATION, SKY_RUN
from calc.sun import Month
from calc.units import kWh, one

_SAME: Any = SunToday.asks
ANYWHERE, TURNED = "anywhere: a roof on the road", "turned as said, while it is parked"
HEADINGS = tuple(range(0, 360, 30))


class PanelFlat(Check):
    """Do the panels lie right, flat or tilted, for where they point?"""

    title = "Flat or tilted"
    headline = "ratio"

    heading: str = pick(
        "Where it points", (ANYWHERE, TURNED), ANYWHERE, habit=True, help="Whether somebody turns it to the sun"
    )
    latitude: Quantity = _SAME["latitude"]
    longitude: Quantity = _SAME["longitude"]
    month: str = _SAME["month"]
    sun_from: str = _SAME["sun_from"]
    sun_hours: Quantity = _SAME["sun_hours"]
    poor_sun_hours: Quantity = _SAME["poor_sun_hours"]
    count: Quantity = _SAME["count"]
    watts: Quantity = _SAME["watts"]
    tilt: Quantity = _SAME["tilt"]
    facing: Quantity = replace(_SAME["facing"], when={"heading": (TURNED,)})
    heading_by: str = replace(_SAME["heading_by"], when={"heading": (TURNED,)})
    ground: str = _SAME["ground"]
    unshaded: Quantity = _SAME["unshaded"]
    losses: Quantity = _SAME["losses"]
    slope: Quantity = _SAME["slope"]
    air: Quantity = _SAME["air"]

    def solve(self) -> Answer:
        array = array_of(self)
        rests_on = (array.watts, self.latitude, self.longitude, self.tilt)
        flat = self._mean_day("E_0", "flat", array.stepped(tilt=0), rests_on)
        turned = self._mean_day("E_t", "as it lies, turned as said", array.stepped(), (*rests_on, self.facing))
        months = sorted((array.stepped(facing=facing) for facing in HEADINGS), key=lambda month: month.mean_energy)
        worst = self._mean_day("E_w", "as it lies, on the worst heading", months[0], rests_on)
        best = self._mean_day("E_b", "as it lies, on the best heading", months[-1], rests_on)
        mean = stepped(
            "E_a", "Mean day, as it lies, over twelve headings",
            sum(month.mean_energy for month in months) / len(months) * kWh.factor, kWh, rests_on,
        )  # fmt: skip
        stands = mean if self.heading == ANYWHERE else turned
        close = constant("k_95", "What is as good as flat", 0.95 * one, OWN_DERIVATION)
        ratio = step("r", "As it lies over flat", stands / flat, one)
        return answer(
            require(
                stands >= close * flat,
                comfortable=stands >= flat,
                label="As it lies",
                yes="It lies right.",
                tight="As it lies it gives {left} on a mean day, a little less than flat.",
                no=f"As it lies it gives {{left}} on a mean day; flat it gives {flat}.",
            ),
            say=f"As it lies it gives {ratio} times the {flat} of flat on a mean day.",
            notes=(
                f"Tilted like this it gives {worst} on the worst heading and {best} on the best: tilt pays where it stands turned to the sun, not on a roof that points anywhere.",
            ),
            ratio=ratio,
            flat_day=flat,
            day_as_it_lies=stands,
            worst_ratio=step("r_w", "Worst heading over flat", worst / flat, one),
            best_ratio=step("r_b", "Best heading over flat", best / flat, one),
            data=where_from(months[0]),
            **worked_half_hour(self, array, array.stepped()),
        )

    def _mean_day(self, symbol: str, how: str, month: Month, rests_on: tuple[Quantity, ...]) -> Quantity:
        return stepped(symbol, f"Mean day, {how}", month.mean_energy * kWh.factor, kWh, rests_on)

    fixes = (
        option("heading", TURNED, "Turn it to the sun and leave it there", costs="only while it is parked"),
        Fix("Lay the panels at {tilt}", tilts),
    )
    cautions = (
        Caution(
            "WARNING",
            "Tilted panels catch the wind",
            "A gust lifts the panel or tips the cart on somebody",
            "Tie them down, fold them flat before you drive or leave",
        ),
        NO_SHADE,
    )
    examples = (
        Example(
            given={"latitude": "36.1", "longitude": "-79.95", "month": "December", "tilt": "20", "air": "15 °C"},
            expect={"ratio": "0.97", "worst_ratio": "0.52", "best_ratio": "1.41"},
            within=0.06,
            verdict="tight",
            source=SKY_RUN.at("December, tilt 20°, twelve headings: mean 0.97 of flat, worst 0.52, best 1.41"),
        ),
        Example(
            given={"latitude": "36.1", "longitude": "-79.95", "month": "December", "tilt": "30", "facing": "180", "heading": TURNED},
            expect={"ratio": "1.56"},
            within=0.06,
            verdict="go",
            source=SKY_RUN.at("December, tilt 30° to the south: 1.56 times flat"),
        ),
        Example(
            given={"latitude": "52", "longitude": "5", "month": "December", "tilt": "30", "facing": "180", "heading": TURNED},
            expect={"ratio": "1.58"},
            within=0.06,
            verdict="go",
            rules=IEC,
            source=OWN_DERIVATION.at("December at 52° north, tilt 30° to the south: 1.6 times flat"),
        ),
        Example(
            given={"latitude": "36.1", "longitude": "-79.95", "month": "June", "tilt": "60", "heading": ANYWHERE},
            verdict="no",
            source=SKY_RUN.at("June, tilt 60°: less than flat on every heading"),
        ),
    )  # fmt: skip
