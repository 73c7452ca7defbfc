"""The page /choose/one-or-several/: one large battery or several small ones, by lift, by what is left when one fails, by joints.

One has the fewest joints and the lowest price. Several can be carried, and some power stays when one fails.
"""

from __future__ import annotations

from calc.check import (
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
    option,
    pick,
    require,
)
from calc.quantity import Quantity, constant, limit, need, rounded_up, step
from calc.sources import COMMON_PRACTICE, NIOSH_LIFTING, OWN_DERIVATION
from calc.units import A, W, dollars, dollars_per_kWh, kg, kg_per_kWh, kWh, mohm, one, percent

MAY_STOP, MUST_RUN = "may stop until it is repaired", "must go on"
NOT_ASKED, COMPARED = "no", "yes"


class OneOrSeveral(Check):
    """One big battery, or several small ones?"""

    title = "One battery or several"
    headline = "heaviest_lift"

    batteries: Quantity = ask_fact(
        "N_p",
        "bank.strings",
        2 * one,
        common=(1 * one, 2 * one, 4 * one),
        help="1 for one big one; each can be taken out by itself",
    )
    mass: Quantity = ask_fact("m_b", "bank.mass", 92 * kg)
    people: Quantity = ask(
        "n_h",
        "People who lift it out",
        2 * one,
        low=1 * one,
        high=6 * one,
        whole=True,
        habit=True,
        help="Those who are there on an ordinary day",
    )
    bank_energy: Quantity = ask_fact("E_n", "bank.energy", 10.2 * kWh)
    reserve: Quantity = ask_fact("q_r", "bank.reserve", 10 * percent)
    if_one_fails: str = pick(
        "When one battery fails, the work",
        (MAY_STOP, MUST_RUN),
        MAY_STOP,
        habit=True,
        help="A pump or a fridge must go on; a saw may wait",
    )
    current: Quantity = ask(
        "I",
        "Current the inverter draws when it works hard",
        100 * A,
        low=1 * A,
        high=2000 * A,
        habit=True,
        help="Watts over volts; the page on the bank's current says it better",
    )
    discharge_limit: Quantity = ask_fact("I_lim", "bank.discharge_limit", 100 * A)
    joint: Quantity = ask(
        "R_j",
        "Resistance of one joint",
        0.15 * mohm,
        low=0.01 * mohm,
        high=5 * mohm,
        habit=True,
        help="A clean lug, tightened to its torque: 0.1 to 0.2 milliohms",
    )
    prices: str = pick(
        "Compare prices?", (NOT_ASKED, COMPARED), NOT_ASKED, habit=True, help="Yes where you have an offer"
    )
    price: Quantity = ask_fact("C_b", "prices.bank", 2400 * dollars, when={"prices": (COMPARED,)})

    def solve(self) -> Answer:
        usable = limit("E_u", "Energy above what is kept back", self.bank_energy * (1 - self.reserve), kWh)
        lift = need("m_1", "Heaviest single lift", self.mass / self.batteries, kg)
        each = constant("m_h", "Most for one person in good conditions", 23 * kg, NIOSH_LIFTING)
        hands = need("n_1", "People for that lift", rounded_up(lift / each, one), one)
        may = limit("m_may", "What those people may lift", self.people * each, kg, NIOSH_LIFTING)
        heat = self._heat_of_joints()
        priced = (
            {"price_per_kwh": need("c_u", "Price of each usable kWh", self.price / usable, dollars_per_kWh)}
            if self.prices == COMPARED
            else {}
        )
        return answer(
            require(
                lift <= may,
                label="Lift",
                yes="Those people may lift each of them.",
                tight="Each is {left}, of {right} for those people: close, and only with both hands and firm ground.",
                no="Each is {left}; those people may lift {right}. Backs and fingers pay for it.",
            ),
            self._together(),
            *self._one_fails(),
            say=f"Each lift is {lift}, for {hands} people or more; when one fails {self._left()} is left.",
            notes=(
                "Price and energy alone would choose the largest single battery: nobody lifts it, and nothing is left when it fails.",
            ),
            heaviest_lift=lift,
            people_needed=hands,
            energy_left=self._left(),
            heat_of_joints=heat,
            mass_per_kwh=step("μ", "Mass of each usable kWh", self.mass / usable, kg_per_kWh),
            **priced,
        )

    def _left(self) -> Quantity:
        return step("k_1", "Share of the energy left when one fails", (self.batteries - 1) / self.batteries, percent)

    def _heat_of_joints(self) -> Quantity:
        """Two joints at each battery carry its share; two at the bus carry it all. One battery has no bus."""
        own = 2 * self.batteries * self.joint * (self.current / self.batteries) ** 2
        if self.batteries.si == 1:
            return need("P_j", "Heat in all joints", own, W, OWN_DERIVATION)
        return need("P_j", "Heat in all joints", own + 2 * self.joint * self.current**2, W, OWN_DERIVATION)

    def _together(self) -> Requirement:
        return require(
            self.current <= limit("I_all", "Most they may give together", self.batteries * self.discharge_limit, A),
            label="Current together",
            yes="Together they give the current.",
            tight="{left} is drawn, of {right} they may give, if they share evenly.",
            no="{left} is drawn; together they may give {right}: a protection opens.",
        )

    def _one_fails(self) -> tuple[Requirement, ...]:
        if self.if_one_fails == MAY_STOP:
            return ()
        if self.batteries.si == 1:
            to_go_on = need("n_2", "Batteries it takes to go on when one fails", 2 * one, one)
            return (
                require(
                    self.batteries >= to_go_on,
                    label="When one fails",
                    exact=True,
                    yes="The rest go on.",
                    no="There is {left}: when it fails everything stops. To go on takes {right}.",
                ),
            )
        rest = limit("I_rest", "Most the rest may give", (self.batteries - 1) * self.discharge_limit, A)
        return (
            require(
                self.current <= rest,
                label="When one fails",
                yes="The rest go on.",
                tight="When one fails the rest give {right}, for {left}: hardly.",
                no="When one fails the rest may give {right}; {left} is drawn: they open one after the other.",
            ),
        )

    fixes = (
        more("batteries", 1 * one, "Divide it into {batteries}", costs="more joints, dearer"),
        more("people", 1 * one, "Lift it with {people} people"),
        less("current", 5 * A, "Draw {current} at most"),
        option("if_one_fails", MAY_STOP, "Let the work stop when one fails"),
    )
    cautions = (
        Caution(
            "WARNING",
            "A heavy battery crushes fingers and hurts backs",
            "A dropped one can short inside and burn hours later",
            "Use straps, a lift or a ramp; slide it, do not twist with it; set a dropped one outdoors and watch it",
        ),
        Caution(
            "WARNING",
            "A bank out of its group comes back at another charge",
            "Tied again, amps flow between them with nothing to limit them",
            "Bring them to the same volts first, and tie them by their fuses",
        ),
    )
    examples = (
        Example(
            given={"batteries": "1", "mass": "88 kg", "bank_energy": "10.24", "reserve": "10", "current": "150", "discharge_limit": "200", "people": "2", "prices": COMPARED, "price": "2100"},
            expect={"heaviest_lift": "88 kg", "people_needed": "4", "heat_of_joints": "6.75 W", "price_per_kwh": "228 $/kWh", "mass_per_kwh": "9.5 kg/kWh"},
            verdict="no",
            source=NIOSH_LIFTING.at("23 kg a person: 88 kg takes four"),
        ),
        Example(
            given={"batteries": "4", "mass": "97 kg", "bank_energy": "10.24", "reserve": "10", "current": "150", "discharge_limit": "80", "people": "2", "if_one_fails": MUST_RUN},
            expect={"mass_per_kwh": "10.5 kg/kWh"},
            verdict="go",
            source=COMMON_PRACTICE.at("modules that two people carry, and three of four go on"),
        ),
        Example(
            given={"batteries": "2", "mass": "97 kg", "current": "150", "discharge_limit": "100", "people": "3", "if_one_fails": MUST_RUN},
            expect={"heat_of_joints": "10.1 W"},
            verdict="no",
            source=COMMON_PRACTICE.at("one of two cannot carry what two did"),
        ),
    )  # fmt: skip
