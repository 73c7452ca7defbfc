"""The page /run/cost/: what a kWh and a mile from the bank cost, and when it pays.

The bank wears out as it is used, and grows old when it is not. A price over all its cycles forgets that nobody
cycles it every day.
"""

from __future__ import annotations

from calc.check import Answer, Caution, Check, Example, answer, ask, ask_fact, less, more, require
from calc.quantity import OutsideValidity, Quantity, constant, exponential, log, need, smallest, step
from calc.sources import COMMON_PRACTICE, ENGINEERING_ECONOMICS
from calc.units import dollars, dollars_per_kWh, dollars_per_mi, kWh, mi_per_kWh, one, percent


class Cost(Check):
    """What does a kWh from the bank cost, and does it pay?"""

    title = "Cost of a kWh"
    headline = "cost_per_kwh"

    price: Quantity = ask_fact(
        "C", "prices.rig", 6000 * dollars, common=(2000 * dollars, 6000 * dollars, 15_000 * dollars)
    )
    bank_energy: Quantity = ask_fact("E_n", "bank.energy", 10.2 * kWh)
    reserve: Quantity = ask_fact("q_r", "bank.reserve", 10 * percent)
    cycles: Quantity = ask_fact("N_c", "bank.cycles", 4000 * one, common=(2000 * one, 4000 * one, 6000 * one))
    end: Quantity = ask(
        "s_e",
        "Share of its energy left when it counts as worn",
        80 * percent,
        low=40 * percent,
        high=95 * percent,
        habit=True,
        help="In its manual, beside the cycles",
    )
    life: Quantity = ask(
        "N_y",
        "Years it lasts, used or not",
        12 * one,
        low=1 * one,
        high=40 * one,
        habit=True,
        help="Calendar life; electronics often go first",
    )
    uses: Quantity = ask_fact("n_y", "prices.uses", 100 * one, common=(20 * one, 100 * one, 250 * one))
    source_price: Quantity = ask_fact("p_s", "prices.filling", 0.16 * dollars_per_kWh)
    round_trip: Quantity = ask(
        "η_rt",
        "Share that comes out again, outlet to outlet",
        80 * percent,
        low=40 * percent,
        high=96 * percent,
        habit=True,
        help="Measured: what came out over what went in, idling included",
    )
    instead: Quantity = ask_fact(
        "p_i",
        "prices.instead",
        0.9 * dollars_per_kWh,
        common=(0.3 * dollars_per_kWh, 0.9 * dollars_per_kWh, 2 * dollars_per_kWh),
    )
    interest: Quantity = ask(
        "r",
        "Interest for a year",
        6 * percent,
        low=3 * percent,
        high=30 * percent,
        habit=True,
        help="What the money would cost or earn elsewhere",
    )
    consumption: Quantity = ask_fact("c", "cars.consumption", 3.1 * mi_per_kWh, either_way=True)

    def solve(self) -> Answer:
        years = step(
            "N",
            "Years it serves: worn or old, whichever comes first",
            smallest(self.life, self.cycles / self.uses),
            one,
        )
        fade = step("s_m", "Mean share of its energy over that life", (1 + self.end) / 2, percent)
        yearly = step("E_y", "Energy it gives in a year", self.bank_energy * (1 - self.reserve) * fade * self.uses, kWh)
        growth = step("g", "Growth of money over that life", self._power(1 + self.interest, years), one)
        recovery = need(
            "k_r",
            "Share of the price that each year must bring back",
            self.interest * growth / (growth - 1),
            percent,
            ENGINEERING_ECONOMICS,
        )
        wear = need("c_w", "Price of the rig in each kWh", self.price * recovery / yearly, dollars_per_kWh)
        fill = need(
            "c_f", "What fills it, in each kWh that comes out", self.source_price / self.round_trip, dollars_per_kWh
        )
        whole = need("c_kWh", "Cost of a kWh at its outlets", wear + fill, dollars_per_kWh)
        through = constant("η_car", "Share that a car's charger lets through", 0.85 * one, COMMON_PRACTICE)
        return answer(
            require(
                whole <= self.instead,
                label="Against doing without",
                yes="It pays.",
                tight="A kWh costs {left} and {right} without the rig: it hardly pays.",
                no="A kWh costs {left} and {right} without the rig: it does not pay for itself in money.",
            ),
            say=f"A kWh at its outlets costs {whole}, of which {wear} is the rig itself.",
            notes=self._naive(fill),
            cost_per_kwh=whole,
            wear=wear,
            filling=fill,
            cost_per_mile=need(
                "c_mi", "Cost of a mile in the car", whole / (through * self.consumption), dollars_per_mi
            ),
            years=years,
        )

    def _power(self, base: Quantity, exponent: Quantity) -> Quantity:
        if base.si <= 1:
            raise OutsideValidity("Without interest the recovery of the price is not worked here.")
        return exponential(exponent * log(base))

    def _naive(self, fill: Quantity) -> tuple[str, ...]:
        careless = step(
            "c_n", "Price over all its cycles", self.price / (self.cycles * self.bank_energy) + fill, dollars_per_kWh
        )
        return (
            f"The price over all its cycles would say {careless} a kWh: it forgets age, fading, the reserve and interest.",
        )

    fixes = (
        more("uses", 10 * one, "Use it for {uses} cycles a year"),
        less("price", 100 * dollars, "Build it for {price}"),
    )
    cautions = (
        Caution(
            "NOTICE",
            "Money is not all of it",
            "Quiet, no exhaust, power where there was none and a fridge that stays cold have no line here",
            "Set what you would pay for those beside the figure",
        ),
        Caution(
            "WARNING",
            "Cheap second-hand cells come without their history",
            "A cell that was overcharged or frozen can burn in use",
            "Buy what you can test, and fit a protection that watches each cell",
        ),
    )
    examples = (
        Example(
            given={
                "price": "1000", "bank_energy": "10", "reserve": "0", "cycles": "20000", "end": "95", "life": "10", "uses": "100",
                "source_price": "0", "interest": "8", "instead": "1",
            },
            expect={"years": "10", "wear": "0.153 $/kWh"},
            within=0.003,
            verdict="go",
            source=ENGINEERING_ECONOMICS.at("8 %, 10 years: 0.1490; 149.0 $ over 975 kWh"),
        ),
        Example(
            given={"price": "20000", "uses": "10", "instead": "0.5"},
            verdict="no",
            source=COMMON_PRACTICE.at("a dear rig that is seldom used"),
        ),
    )  # fmt: skip
