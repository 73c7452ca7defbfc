"""Whether an inverter carries a load beside what already runs: as a whole, on each leg, and at a start."""

from __future__ import annotations

from dataclasses import dataclass

from calc.check import Requirement, require
from calc.laws.inverter import SPLIT_PHASE, limit_of_one_leg, offers
from calc.quantity import OutsideValidity, Quantity, alternative, constant, need
from calc.sources import OWN_DERIVATION
from calc.units import VA

SAME_LEG, OTHER_LEG, SPREAD = "the same leg, or not known", "the other leg", "both legs alike"
LEGS = (SAME_LEG, OTHER_LEG, SPREAD)


@dataclass(frozen=True)
class Supply:
    """An inverter with what already runs on it. `others_on` is one of LEGS."""

    system: str
    one_leg: str
    continuous: Quantity
    others: Quantity
    others_on: str

    @property
    def has_legs(self) -> bool:
        return self.system == SPLIT_PHASE

    def gives_volts(self, volts: str) -> Requirement:
        return require(
            offers(self.system, volts),
            label="Inverter's volts",
            yes="The inverter gives these volts.",
            no=f"The inverter gives {self.system}, not {volts}.",
        )

    def carries(self, load: Quantity, volts: str) -> list[Requirement]:
        """While it runs: the whole inverter, and each leg that bears it or the other loads."""
        total = need("S_1", "Inverter's load while it runs", load + self.others, VA)
        rests = [
            require(
                total <= self.continuous,
                label="Inverter while it runs",
                yes="The inverter carries it.",
                tight="The inverter is asked for {left} of its {right}.",
                no="The inverter is asked for {left} while it runs; it gives {right}.",
            )
        ]
        if not self.has_legs:
            return rests
        leg = limit_of_one_leg(self.continuous, self.one_leg, "P_1", "Most that one leg may give for long")
        on_leg = need("S_3", "Load of the leg while it runs", self._on_leg(load, volts) + self._beside(volts), VA)
        rests.append(
            require(
                on_leg <= leg,
                label="One leg while it runs",
                yes="One leg carries it.",
                tight="One leg is asked for {left} of its {right}.",
                no="One leg is asked for {left}; it gives {right}, whatever the two give together.",
            )
        )
        if self.others_on == OTHER_LEG and volts == "120 V":
            other = need("S_5", "Load of the other leg", 1 * self.others, VA)
            rests.append(
                require(
                    other <= leg,
                    label="The other leg",
                    yes="The other leg carries what is on it.",
                    tight="The other leg is asked for {left} of its {right}.",
                    no="The other leg is asked for {left} already; it gives {right}.",
                )
            )
        return rests

    def starts(
        self, load: Quantity, volts: str, surge: Quantity, lasts: Quantity, surge_lasts: Quantity
    ) -> list[Requirement]:
        """At a start: surge of the whole and of the leg, and the seconds of it wherever it is called on."""
        if (surge < self.continuous).holds:
            raise OutsideValidity(
                f"A surge of {surge} is below the continuous rating of {self.continuous}: look at the plate again."
            )
        total = need("S_2", "Inverter's load at the start", load + self.others, VA)
        rests = [
            require(
                total <= surge,
                label="Inverter at the start",
                yes="The surge holds.",
                tight="The start asks {left} of the inverter's {right} surge: it may trip.",
                no="The start asks {left}; the inverter's surge is {right}: it trips.",
            )
        ]
        called_on = (total > self.continuous).holds
        if self.has_legs:
            leg = limit_of_one_leg(self.continuous, self.one_leg, "P_1", "Most that one leg may give for long")
            leg_surge = limit_of_one_leg(surge, self.one_leg, "P_2", "Most that one leg may give at a start")
            on_leg = need("S_4", "Load of the leg at the start", self._on_leg(load, volts) + self._beside(volts), VA)
            called_on = called_on or (on_leg > leg).holds
            rests.append(
                require(
                    on_leg <= leg_surge,
                    label="One leg at the start",
                    yes="One leg starts it.",
                    tight="The start asks {left} of one leg's {right}.",
                    no="The start asks {left} of one leg; its surge is {right}: the inverter trips.",
                )
            )
        if called_on:
            rests.append(
                require(
                    lasts <= surge_lasts,
                    label="Seconds of the surge",
                    yes="The surge lasts.",
                    tight="The start lasts {left}, the surge {right}.",
                    no="The start lasts {left}; the inverter holds its surge for {right} only.",
                )
            )
        return rests

    def _on_leg(self, load: Quantity, volts: str) -> Quantity:
        """What of a load hangs on one leg: all of it at 120 V, half of it at 240 V."""
        return load if volts == "120 V" else load / 2

    def _beside(self, volts: str) -> Quantity:
        """What of the other loads is held against the leg in question; where that is not known, all of it."""
        if self.others_on == SPREAD:
            return alternative("S_l", "Other loads held against a leg", self.others / 2, "spread over both legs", VA)
        if self.others_on == OTHER_LEG and volts == "120 V":
            return constant("S_l", "Other loads held against this leg", 0 * VA, OWN_DERIVATION)
        return alternative("S_l", "Other loads held against a leg", self.others, "all of them may hang on it", VA)
