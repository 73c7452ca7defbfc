"""The page /choose/parallel-takeoff/: where the two wires leave a row of batteries side by side.

A quarter of a milliohm in a link is little against nothing, and much against the three of a battery: the one at the
take-off then works twice as hard as the last.
"""

from __future__ import annotations

from calc.check import Answer, Caution, Check, Example, Named, answer, ask_fact, less, option, pick_fact, require
from calc.laws.ladder import shares_across, shares_from_one_end, shares_on_a_bar
from calc.quantity import Quantity, constant, largest, limit, need, step
from calc.sources import COMMON_PRACTICE, NGSPICE, OWN_DERIVATION
from calc.units import A, mohm, one

SAME_END, ACROSS, BAR = "both wires at the same end", "one wire at each end, across", "equal leads to a bus bar"
COUNTS = ("2", "3", "4", "5", "6", "7", "8")


class ParallelTakeoff(Check):
    """Where do I take the current off parallel batteries?"""

    title = "Batteries in parallel"
    headline = "unevenness"

    count: str = pick_fact("bank.strings", "4", COUNTS)
    takeoff: str = pick_fact("bank.takeoff", ACROSS)
    battery: Quantity = ask_fact("R", "bank.string_resistance", 3 * mohm, common=(1 * mohm, 3 * mohm, 12 * mohm))
    strongest: Quantity = ask_fact("R_a", "bank.strongest_resistance", 3 * mohm, common=(1 * mohm, 3 * mohm, 12 * mohm))
    link: Quantity = ask_fact(
        "r",
        "bank.link_resistance",
        0.25 * mohm,
        when={"takeoff": (SAME_END, ACROSS)},
        common=(0.05 * mohm, 0.1 * mohm, 0.25 * mohm, 0.5 * mohm),
    )
    load_amps: Quantity = ask_fact("I_l", "bank.load_current", 200 * A, common=(100 * A, 150 * A, 200 * A))
    each: Quantity = ask_fact("I_lim", "bank.discharge_limit", 100 * A, common=(50 * A, 100 * A, 200 * A))

    def solve(self) -> Answer:
        shares = self._shares()
        heaviest = need("f_max", "Share of the one that works hardest", largest(*shares), one)
        number = constant("n", "Batteries side by side", float(self.count) * one, OWN_DERIVATION.at("as counted"))
        uneven = need("u", "The hardest working one against the mean", number * heaviest, one)
        hard = need("I_hard", "Its current", heaviest * self.load_amps, A)
        fair = constant("u_1", "Unevenness that is comfortable", 1.10 * one, COMMON_PRACTICE)
        most = constant("u_2", "Unevenness that is bearable", 1.25 * one, COMMON_PRACTICE)
        amps = [
            step(f"I_{k}", f"Current of battery {k}", share * self.load_amps, A) for k, share in enumerate(shares, 1)
        ]
        naive = limit("I_n", "All limits added up", number * self.each, A)
        together = limit("I_bank", "What the row gives, until the first one is at its limit", self.each / heaviest, A)
        return answer(
            require(
                uneven <= most,
                comfortable=uneven <= fair,
                label="Evenness",
                yes="They work alike.",
                tight="The hardest working one has {left} times the mean: it ages first.",
                no="The hardest working one has {left} times the mean; {right} is bearable. It ages first, and its protection opens first, then all others.",
            ),
            require(
                hard <= self.each,
                label="The hardest working one",
                yes="Each is within its limit.",
                tight="The hardest working one gives {left} of its {right}.",
                no="The hardest working one gives {left}; {right} is its limit. It opens, and the others take its load on top.",
            ),
            say=f"They share it: the hardest working one gives {hard:up} of {self.load_amps}.",
            notes=(
                f"{self.count} limits added up say {naive}; the row gives {together} before the first one is at its limit.",
            ),
            unevenness=uneven,
            hardest=hard,
            most_current=together,
            currents=Named(
                ", ".join(f"{amp}" for amp in amps),
                "Current of each, from the plus wire on",
                "",
                OWN_DERIVATION.at("Kirchhoff's two laws"),
            ),
        )

    def _shares(self) -> list[Quantity]:
        row = [self.strongest, *([self.battery] * (int(self.count) - 1))]
        if self.takeoff == BAR:
            return shares_on_a_bar(row)
        return (shares_from_one_end if self.takeoff == SAME_END else shares_across)(row, self.link)

    fixes = (
        option("takeoff", ACROSS, "Take plus off at one end and minus at the other"),
        option("takeoff", BAR, "Bring equal leads from each to a bus bar", costs="more cable"),
        less("load_amps", 5 * A, "Take {load_amps} or less"),
        less("link", 0.05 * mohm, "Use links of {link}, with clean faces and their torque"),
    )
    cautions = (
        Caution(
            "WARNING",
            "Batteries that are joined at different charge rush into one another",
            "Hundreds of amps at a lug in your hand",
            "Bring each to the same charge, rest them, compare their volts, then join them; one fuse for each",
        ),
        Caution(
            "WARNING",
            "A spanner across two posts carries thousands of amps",
            "It melts and burns",
            "Insulated tools, no rings, a cover over what you do not work on",
        ),
    )
    examples = (
        Example(
            given={
                "count": "4",
                "takeoff": SAME_END,
                "battery": "3 mohm",
                "strongest": "3 mohm",
                "link": "0.25 mohm",
                "load_amps": "200",
            },
            expect={"hardest": "73.4 A", "unevenness": "1.47"},
            verdict="no",
            source=NGSPICE.at("operating point of four sources behind 3 mΩ and rails of 0.25 mΩ"),
        ),
        Example(
            given={
                "count": "4",
                "takeoff": ACROSS,
                "battery": "3 mohm",
                "strongest": "3 mohm",
                "link": "0.25 mohm",
                "load_amps": "200",
            },
            expect={"unevenness": "1.08"},
            verdict="go",
            source=NGSPICE.at("the same with the minus at the other end"),
        ),
        Example(
            given={
                "count": "2",
                "takeoff": BAR,
                "battery": "18 mohm",
                "strongest": "12 mohm",
                "load_amps": "160",
                "each": "100",
            },
            expect={"most_current": "166.7 A", "unevenness": "1.2"},
            verdict="tight",
            source=OWN_DERIVATION.at("conductances of 12 and 18 mΩ: 60 and 40 %"),
        ),
    )
