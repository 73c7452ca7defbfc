"""The page /protect/ground-fault/: where a ground-fault device belongs, how soon it opens, and why it trips unasked.

A Class A device may not open below 4 mA and must open from 6 mA; what chargers and filters leak adds up toward that.
"""

from __future__ import annotations

from calc.check import (
    IEC,
    NEC,
    Answer,
    Caution,
    Check,
    Example,
    Named,
    Requirement,
    answer,
    ask,
    ask_fact,
    less,
    option,
    pick_fact,
    require,
)
from calc.laws.ground_fault import CLASS_A, longest_class_a_time, longest_rcd_time, no_trip_below, trips_from
from calc.quantity import Quantity, Statement, alternative, constant, limit
from calc.sources import (
    COMMON_PRACTICE,
    FROM_MEMORY,
    IEC_60364_4_41,
    IEC_60364_7_722,
    IEC_61008,
    NEC_2023,
    OSHA_1926_404,
    UL_943,
)
from calc.tables import table
from calc.units import mA, one, percent

NONE, TYPE_A, TYPE_F, TYPE_B = "none", "RCD type A, 30 mA", "RCD type F, 30 mA", "RCD type B, 30 mA"
TOOLS, CHARGER, CAR = "tools", "a charger or a rig", "a car"
OPEN, UNSURE = "yes, or the wall does not feed it", "no, or not known"
SITE, OTHERWISE = "a job site with employees", "anywhere else"


class GroundFault(Check):
    """Where do ground-fault devices belong, and why does one trip?"""

    title = "Ground-fault device"
    headline = "protection"

    outlet: str = pick_fact("outlets.configuration", "5-20", rules=(NEC,))
    device: str = pick_fact("outlets.ground_fault", CLASS_A)
    site: str = pick_fact("place.site", OTHERWISE, rules=(NEC,))
    used_for: str = pick_fact("outlets.used_for", TOOLS, rules=(IEC,))
    dc_detection: str = pick_fact(
        "outlets.dc_detection",
        UNSURE,
        (UNSURE, "yes"),
        means={"no": UNSURE, "yes": "yes"},
        rules=(IEC,),
        when={"used_for": (CAR,)},
    )
    leakage: Quantity = ask_fact("I_leak", "outlets.leakage", 2 * mA, common=(0.5 * mA, 2 * mA, 3.5 * mA))
    own_bond: str = pick_fact(
        "inverter.bond",
        OPEN,
        (OPEN, UNSURE),
        label="Is the rig's own bond open while the wall feeds it?",
        help="The relay's setting in its manual; a bonding plug still in is a bond too",
        means={"none": OPEN, "relay, closed while inverting": OPEN, "fixed": UNSURE},
    )
    fault: Quantity = ask(
        "I_f",
        "Current of the fault",
        240 * mA,
        low=6 * mA,
        high=5000 * mA,
        habit=True,
        common=(6 * mA, 30 * mA, 240 * mA),
        help="120 V through the 500 Ω of a wet body is 240 mA",
    )

    def solve(self) -> Answer:
        return answer(
            self._there(),
            *self._type(),
            *self._standing_leakage(),
            self._one_bond(),
            say=self._say(),
            notes=self._order_of_search(),
            protection=Named(
                self.device,
                "Device at this outlet",
                "press its test button before each use",
                UL_943 if self.rules == NEC else IEC_61008,
            ),
            **self._times(),
        )

    def _counts(self) -> bool:
        """Whether the device counts as protection of people under these rules."""
        return self.device == CLASS_A if self.rules == NEC else self.device in (TYPE_A, TYPE_F, TYPE_B)

    def _needed(self) -> tuple[bool, str]:
        if self.rules == IEC:
            return True, "IEC 60364-4-41, 411.3.3: every socket for people's use"
        listed = table("outlets")
        amps, single = float(listed.text(self.outlet, "amps")), listed.text(self.outlet, "rated") == "125"
        limit_amps = 30 if self.site == SITE else 20
        if single and amps <= limit_amps:
            return True, "a 125 V outlet of 15 or 20 A of a portable source, on a job site of 30 A as well"
        return False, "not a 125 V outlet of that size"

    def _there(self) -> Requirement:
        wanted, because = self._needed()
        place = (
            NEC_2023.at("445.20, 590.6(A); 29 CFR 1926.404(b)(1)", FROM_MEMORY)
            if self.rules == NEC
            else IEC_60364_4_41.at("411.3.3")
        )
        has = alternative(
            "n_has",
            "Devices that protect people here",
            (1 if self._counts() else 0) * one,
            f"the outlet has: {self.device}",
        )
        needs = alternative("n_need", "Devices that have to be here", (1 if wanted else 0) * one, because, source=place)
        one_at_least = constant("n_good", "Devices that should be at any outlet outdoors", 1 * one, COMMON_PRACTICE)
        kind = "a Class A device, 5 mA" if self.rules == NEC else "an RCD of 30 mA"
        return require(
            has >= needs,
            comfortable=has >= one_at_least,
            label="Protection of people",
            yes="The outlet is protected.",
            tight=f"No text read here demands {kind} at this outlet, but a fault is then left to a breaker that an inverter may never trip. Fit one.",
            no=f"This outlet needs {kind}: without it, a fault through a body trips nothing.",
        )

    def _type(self) -> tuple[Requirement, ...]:
        if self.rules == NEC or not self._counts():
            return ()
        serves = self.used_for != CAR or self.device == TYPE_B or self.dc_detection == "yes"
        source = IEC_60364_7_722.at("722.531.3.101")
        return (
            require(
                Statement(f"{self.device} {'serves' if serves else 'does not serve'} {self.used_for}", serves, source),
                label="Type",
                yes="Its type suits what is plugged in.",
                no="A car can leak direct current that blinds this device: type B, or a cord that detects 6 mA of it.",
            ),
        )

    def _standing_leakage(self) -> tuple[Requirement, ...]:
        if self.device == NONE:
            return ()
        if self.device == CLASS_A:
            most, easy = trips_from(self.device), no_trip_below(self.device)
        else:
            most = no_trip_below(self.device)
            share = constant(
                "k_leak",
                "Standing leakage allowed, of the rating",
                30 * percent,
                IEC_60364_4_41.at("IEC 60364-5-53, 531.3.2"),
            )
            easy = limit("I_easy", "Leakage with which it never trips unasked", share * trips_from(self.device), mA)
        return (
            require(
                self.leakage < most,
                comfortable=self.leakage < easy,
                label="Leakage",
                yes="What leaks does not trip it.",
                tight="{left} leak: it may trip at any time, though nothing is wrong. It has to open from {right}.",
                no="{left} leak where the device opens from {right}: it trips, and rightly. Unplug one thing after the other.",
            ),
        )

    def _one_bond(self) -> Requirement:
        once = self.own_bond.startswith("yes")
        return require(
            Statement(
                f"Own bond open while the wall feeds it: {self.own_bond}", once, NEC_2023.at("250.142(B)", FROM_MEMORY)
            ),
            label="Second bond",
            yes="No second bond draws current past the device.",
            no="With the rig's own bond closed, part of the neutral's current returns by the ground wire: the wall's device trips as soon as a load runs.",
        )

    def _times(self) -> dict[str, Quantity]:
        if not self._counts() or (self.fault < trips_from(self.device)).holds:
            return {}
        time = longest_class_a_time(self.fault) if self.device == CLASS_A else longest_rcd_time(self.fault)
        return {"longest_time": time, "opens_from": trips_from(self.device), "closed_below": no_trip_below(self.device)}

    def _say(self) -> str:
        times = self._times()
        if "longest_time" not in times:
            return "The outlet is as it should be. Codes differ: ask the authority where it is used."
        return f"Protected: a fault of {self.fault} is cut off within {times['longest_time']:up}."

    def _order_of_search(self) -> tuple[str, ...]:
        return (
            "Where a wall's device trips as the rig is plugged in, look in this order, everything unplugged: own bond still "
            "closed; the sum of all filters; a neutral shared behind a one-pole device; a neutral that touches the frame.",
            "A device limits how long a shock lasts, not how strong it is, and none sees a shock between hot and neutral.",
        )

    fixes = (
        option("device", CLASS_A, "Fit a Class A device, 5 mA, at the outlet"),
        option("device", TYPE_A, "Fit an RCD of type A, 30 mA"),
        option("device", TYPE_B, "Fit an RCD of type B, 30 mA"),
        option("dc_detection", "yes", "Use a car's cord that detects 6 mA of direct current"),
        less("leakage", 0.5 * mA, "Unplug things until {leakage} or less leak"),
        option("own_bond", "yes, or the wall does not feed it", "Open the rig's own bond while the wall feeds it"),
    )
    cautions = (
        Caution(
            "DANGER",
            "A device that trips is mostly right: something leaks into a case or into the ground",
            "Taken out or bridged, the next fault goes through whoever holds the tool",
            "Never bridge it, cut a ground pin or use an adapter without ground; find what leaks with all else unplugged",
        ),
        Caution(
            "WARNING",
            "On a source without a bond between neutral and ground its test button works, yet the first fault trips nothing",
            "The case of a faulty tool stays at mains volts",
            "Bond neutral and ground once where the power is made, then test with a tester that plugs in",
        ),
    )
    examples = (
        Example(
            given={"outlet": "5-20", "device": CLASS_A, "fault": "6 mA", "leakage": "0"},
            expect={"longest_time": "5.6 s"},
            verdict="go",
            source=UL_943.at("T = (20/I)^1.43: 5.6 s at 6 mA"),
        ),
        Example(
            given={"outlet": "5-20", "device": CLASS_A, "fault": "264 mA", "leakage": "0"},
            expect={"longest_time": "0.025 s"},
            verdict="go",
            source=UL_943.at("25 ms at 264 mA"),
        ),
        Example(
            given={"outlet": "5-20", "device": NONE, "site": SITE},
            verdict="no",
            source=OSHA_1926_404.at("(b)(1)(ii): 125 V outlets of 15 and 20 A on construction sites"),
        ),
        Example(
            given={"device": TYPE_B, "used_for": CAR, "fault": "150 mA", "leakage": "3"},
            expect={"longest_time": "0.04 s"},
            verdict="go",
            rules=IEC,
            source=IEC_61008,
        ),
        Example(
            given={"device": TYPE_A, "used_for": CAR, "dc_detection": "no, or not known", "leakage": "3"},
            verdict="no",
            rules=IEC,
            source=IEC_60364_7_722.at("722.531.3.101"),
        ),
    )
