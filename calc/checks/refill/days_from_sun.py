"""The page /refill/days-from-sun/: days until the sun has filled the bank, while things go on using it.

Need over the poor day overstates it; need over the mean day forgets that what is used comes off first. Runs of days
that follow one another like weather say both.
"""

from __future__ import annotations

from typing import Any

from calc import sun
from calc.check import GO, NO, Answer, Caution, Check, Example, Fix, answer, ask_fact, less, more, require
from calc.checks.refill.sun_today import NO_SHADE, SunToday, tilts
from calc.laws.half_hour import worked_half_hour
from calc.laws.panels import array_of, energy_of_days, where_from
from calc.quantity import Quantity, constant, largest, need, step, stepped
from calc.sources import COMMON_PRACTICE, OWN_DERIVATION, TMY3
from calc.units import day, kWh, one, percent

# The place and the panels are asked as on the page of the sun this month.
_SAME: Any = SunToday.asks


class DaysFromSun(Check):
    """How many days to refill from the sun?"""

    title = "Days from the sun"
    headline = "nine_in_ten"

    time_wanted: Quantity = ask_fact("t_w", "place.sun_days", 3 * day, wish="the most", common=(1 * day, 3 * day, 7 * day))
    bank_energy: Quantity = ask_fact("E_n", "bank.energy", 10.2 * kWh)
    health: Quantity = ask_fact("s", "bank.health", 100 * percent)
    charge: Quantity = ask_fact("q", "now.charge", 50 * percent)
    used: Quantity = _SAME["need"]
    latitude: Quantity = _SAME["latitude"]
    longitude: Quantity = _SAME["longitude"]
    month: str = _SAME["month"]
    sun_from: str = _SAME["sun_from"]
    sun_hours: Quantity = _SAME["sun_hours"]
    poor_sun_hours: Quantity = _SAME["poor_sun_hours"]
    count: Quantity = _SAME["count"]
    watts: Quantity = _SAME["watts"]
    tilt: Quantity = _SAME["tilt"]
    facing: Quantity = _SAME["facing"]
    heading_by: str = _SAME["heading_by"]
    ground: str = _SAME["ground"]
    unshaded: Quantity = _SAME["unshaded"]
    losses: Quantity = _SAME["losses"]
    slope: Quantity = _SAME["slope"]
    air: Quantity = _SAME["air"]

    def solve(self) -> Answer:
        full = require(
            self.charge >= constant("q_1", "A full bank", 100 * percent, OWN_DERIVATION),
            label="Full",
            exact=True,
            yes="It is full already.",
            no="There is something to fill.",
        )
        if full.verdict == GO:
            return answer(full, say="It is full already.", nine_in_ten=need("n_90", "Days", 0 * day, day))
        array = array_of(self)
        month = array.stepped()
        days = energy_of_days(array, month)
        kept = constant("η_q", "Share of what goes in that is stored", 95 * percent, COMMON_PRACTICE)
        wanted = need(
            "E_f", "Energy the sun must bring", self.bank_energy * self.health * (1 - self.charge) / kept, kWh
        )
        mean = stepped("E_m", "Mean of the month's days", month.mean_energy * kWh.factor, kWh, tuple(days.values()))
        left = step("E_left", "Of a mean day, left for the bank", largest(mean - self.used, 0 * kWh), kWh)
        least = constant(
            "k_20", "Share of the mean sun that must be left for days to be foretold", 20 * percent, OWN_DERIVATION
        )
        hopeful = require(
            left >= least * mean,
            label="What is left over",
            exact=True,
            yes="The sun brings more than is used.",
            no="Of a mean day only {left} are left for the bank; under {right} it will not refill in a time that can be foretold.",
        )
        if hopeful.verdict == NO:
            return answer(hopeful, say="", mean_day=mean, energy_wanted=wanted)
        half, nine = sun.days_to_gather(month.energy, wanted.number_in(kWh), self.used.number_in(kWh))
        rests_on = (*days.values(), wanted, self.used)
        note = f"{sun.RUNS} runs of days, each like the one before by {sun.ALIKE:g}"
        typical, surely = (
            stepped(symbol, label, (days_ or sun.MOST_DAYS + 1) * day.factor, day, rests_on, note=note)
            for symbol, label, days_ in (
                ("n_50", "Days in half of all cases", half),
                ("n_90", "Days in 9 of 10 cases", nine),
            )
        )
        hardly = constant("E_least", "Less sun than this counts as none", 0.001 * kWh, COMMON_PRACTICE)
        naive = step("n_n", "Need over a mean day's sun", wanted / largest(mean, hardly) * (1 * day), day)
        return answer(
            hopeful,
            require(
                typical <= self.time_wanted,
                comfortable=surely <= self.time_wanted,
                label="Days",
                yes="There are days enough.",
                tight=f"Typically {{left}} of the {{right}} there are; in 1 case of 10 more than {surely}.",
                no="Typically it takes {left}; there are {right}.",
            ),
            say=f"Full after {typical} in half of all cases, after {surely} in 9 of 10.",
            notes=(
                f"Need over a mean day would say {naive}: it forgets what is used meanwhile, and dark days in a row.",
            ),
            nine_in_ten=surely,
            typical=typical,
            mean_day=mean,
            energy_wanted=wanted,
            left_of_a_mean_day=left,
            data=where_from(month),
            **worked_half_hour(self, array, month),
        )

    fixes = (
        more("time_wanted", 1 * day, "Plan {time_wanted} for it"),
        less("used", 0.1 * kWh, "Use {used} a day at most meanwhile"),
        more("count", 1 * one, "Fit {count} panels"),
        Fix("Tilt the panels to {tilt}, parked and turned as said", tilts, costs="only while it stands"),
    )
    cautions = (
        Caution(
            "WARNING",
            "Panels charge frozen cells as well",
            "Below 0 °C lithium plates as metal and the cell may short later",
            "See that the controller stops at 0 °C at the cell, or switch the panels off",
        ),
        Caution(
            "NOTICE",
            "Five years of weather know no record winter, no snow on the panel and no hill to the south",
            "It may take longer than 9 cases of 10 say",
            "Have an outlet or a generator in reach before the bank is at its reserve",
        ),
        NO_SHADE,
    )
    examples = (
        Example(
            given={
                "latitude": "36.1", "longitude": "-79.95", "month": "December", "count": "1", "watts": "400", "used": "0",
                "bank_energy": "5.12", "health": "100", "charge": "14.6", "time_wanted": "10 days",
            },
            expect={"typical": "7 days"},
            within=0.15,
            verdict="go",
            source=TMY3.at("2.39 kWh/m² on a typical day of December; one 400 W panel, 4.6 kWh"),
        ),
        Example(
            given={
                "latitude": "36.1", "longitude": "-79.95", "month": "December", "count": "1", "watts": "400", "used": "0.7",
                "bank_energy": "5.12", "health": "100", "charge": "14.6",
            },
            verdict="no",
            source=TMY3.at("2.24 kWh/m² on a mean day of December: what is used takes nearly all of it"),
        ),
    )  # fmt: skip
