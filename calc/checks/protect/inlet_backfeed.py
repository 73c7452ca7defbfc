"""The page /protect/inlet-backfeed/: whether the rig can send power out of its own inlet, on pins or into the street.

Three ways: pins that stay live when the plug is out, an inverter that feeds the line it hangs on, a transfer that
leaves both sources joined.
"""

from __future__ import annotations

from calc.check import (
    IEC,
    Answer,
    Caution,
    Check,
    Example,
    Named,
    Requirement,
    answer,
    ask_fact,
    less,
    option,
    pick_fact,
    require,
)
from calc.laws.discharge import safe_volts, volts_left
from calc.quantity import Quantity, Statement, constant
from calc.sources import FROM_MEMORY, IEC_60335, IEC_60364_5_55, NEC_2023, UL_1741, Source
from calc.units import V, kohm, s, uF

NO, YES = "no", "yes"
RELAY, SWITCH, JOINED = (
    "a relay in the inverter, both poles",
    "a changeover switch, both poles",
    "one pole only, or nothing",
)
NEVER, CERTIFIED, ANY = "it never feeds the line", "it feeds the line, certified", "it feeds the line, or is not known"
PINS, SLOTS = "an inlet with pins, shrouded", "a cord with a plug at both ends, or an outlet used as inlet"
OWN, BUILDING = "its own outlets only", "a building"
LISTED, INTERLOCK, BREAKER = (
    "a listed transfer switch",
    "a listed interlock on the panel",
    "a breaker in the panel, or an outlet",
)


class InletBackfeed(Check):
    """What can come back out of the inlet?"""

    title = "Back out of the inlet"
    headline = "way_back"

    live_pins: str = pick_fact("inlet.shows_live_pins", NO)
    entry: str = pick_fact("inlet.entry", PINS)
    transfer: str = pick_fact("inlet.transfer", RELAY)
    export: str = pick_fact("inverter.export", NEVER)
    stops_within: Quantity = ask_fact(
        "t_stop", "inverter.stops_within", 2 * s, when={"export": (CERTIFIED,)}, common=(0.2 * s, 2 * s, 5 * s)
    )
    permission: str = pick_fact("place.permission", NO, when={"export": (CERTIFIED,)})
    line_volts: Quantity = ask_fact("V_l", "inlet.volts", 120 * V, common=(120 * V, 230 * V, 240 * V))
    filter: Quantity = ask_fact("C_x", "inlet.filter", 2 * uF, common=(1 * uF, 2 * uF, 10 * uF))
    bleeder: Quantity = ask_fact("R_x", "inlet.bleeder", 220 * kohm, common=(100 * kohm, 220 * kohm, 470 * kohm))
    feeds: str = pick_fact("place.feeds", OWN)
    into_building: str = pick_fact("place.into_building", LISTED, when={"feeds": (BUILDING,)})

    def solve(self) -> Answer:
        left = (
            volts_left(self.line_volts, self.filter, self.bleeder)
            if self.filter.si
            else constant("V_1s", "Volts between the pins with no filter across them", 0 * V, IEC_60335.at("22.5"))
        )
        ways = self._ways()
        return answer(
            *self._entry(),
            self._transfer(),
            *self._export(),
            *self._building(),
            require(
                left <= safe_volts(),
                exact=True,
                label="Charge left on the pins",
                yes="The pins are safe one second after the plug is out.",
                no="One second after the plug is out {left} are still on the pins; {right} is the most. It bites, and startles somebody off a ladder.",
            ),
            say="Nothing comes back out of the inlet.",
            notes=(
                "A transfer that opens only the hot wire leaves the neutral joined to the line: that is a way back too.",
            ),
            way_back=Named(", ".join(ways) or "none", "Ways back out of the inlet", "", self._changeover()),
            volts_left=left,
        )

    def _changeover(self) -> Source:
        return IEC_60364_5_55.at("551.6") if self.rules == IEC else NEC_2023.at("702.5", FROM_MEMORY)

    def _ways(self) -> list[str]:
        found = {
            "live pins": self.live_pins == YES or self.entry == SLOTS,
            "through the transfer": self.transfer == JOINED,
            "export to the line": self.export == ANY or (self.export == CERTIFIED and self.permission == NO),
            "into the building's supply": self.feeds == BUILDING and self.into_building == BREAKER,
        }
        return [way for way, open_ in found.items() if open_]

    def _entry(self) -> tuple[Requirement, ...]:
        dead, pins = self.live_pins == NO, self.entry == PINS
        source = NEC_2023.at("406.7, 551.46", FROM_MEMORY)
        return (
            require(
                Statement(f"Pins live when unplugged: {self.live_pins}", dead, source),
                label="Pins",
                yes="The pins are dead when the plug is out.",
                no="The inlet's pins are live when the plug is out: the first hand or raindrop on them finds the full volts of the inverter.",
            ),
            require(
                Statement(f"Power gets in by {self.entry}", pins, source),
                label="Inlet",
                yes="Power gets in by a proper inlet.",
                no="Power goes in through a cord with two plugs, or an outlet used the wrong way: bare live pins as soon as one end is in.",
            ),
        )

    def _transfer(self) -> Requirement:
        apart = self.transfer != JOINED
        return require(
            Statement(f"Inlet and inverter are kept apart by {self.transfer}", apart, self._changeover()),
            label="Transfer",
            yes="The transfer keeps the two sources apart.",
            no="Nothing that opens both poles keeps inverter and inlet apart: the rig feeds the cord, the wall, and whoever works there. Two sources out of step also destroy each other.",
        )

    def _export(self) -> tuple[Requirement, ...]:
        if self.export == NEVER:
            return ()
        certified = self.export == CERTIFIED
        rests = [
            require(
                Statement(f"Feeding the line: {self.export}", certified, UL_1741),
                label="Certified to stop",
                yes="It is certified to stop when the line is gone.",
                no="An inverter that feeds the line without a certificate keeps a dead line alive: a lineman who has switched off is killed by it.",
            )
        ]
        if certified:
            limit_time = constant("t_isl", "Longest time it may feed a line that is gone", 2 * s, UL_1741)
            agreed = self.permission == YES
            rests += [
                require(
                    self.stops_within <= limit_time,
                    exact=True,
                    label="Stops in time",
                    yes="It stops in time.",
                    no="It feeds a dead line for {left}; {right} is the most.",
                ),
                require(
                    Statement(
                        f"The owner of the line agreed: {self.permission}", agreed, NEC_2023.at("705", FROM_MEMORY)
                    ),
                    label="Agreed with the line's owner",
                    yes="The owner of the line agreed.",
                    no="Feeding a line needs its owner's written consent, and an outlet's circuit is not made for it: its breaker no longer protects its wire.",
                ),
            ]
        return tuple(rests)

    def _building(self) -> tuple[Requirement, ...]:
        if self.feeds == OWN:
            return ()
        safe = self.into_building != BREAKER
        return (
            require(
                Statement(f"It gets into the building by {self.into_building}", safe, self._changeover()),
                label="Into the building",
                yes="Both sources can never be on at once.",
                no="Without a listed transfer switch or interlock the rig feeds the street: it kills at the other end, and burns when the line comes back.",
            ),
        )

    fixes = (
        option("live_pins", NO, "Have the inlet wired behind the transfer relay, so that its pins are dead"),
        option("entry", PINS, "Fit a proper inlet, with shrouded pins and a cover"),
        option("transfer", SWITCH, "Fit a changeover switch that opens both poles"),
        option("transfer", RELAY, "Use an inverter whose transfer relay opens both poles"),
        option("export", NEVER, "Switch feeding of the line off in the inverter's settings"),
        option("permission", YES, "Get the line owner's written consent first"),
        option("into_building", LISTED, "Have a listed transfer switch fitted by a licensed person"),
        option("feeds", OWN, "Feed only its own outlets"),
        less("bleeder", 10 * kohm, "Have a discharge resistor of {bleeder} fitted across the filter"),
    )
    cautions = (
        Caution(
            "DANGER",
            "A cord with a plug at both ends has bare live pins as soon as one end is plugged in",
            "Touching them kills",
            "Never make, carry or use one, not even for a minute",
        ),
        Caution(
            "DANGER",
            "A rig that feeds a line which was switched off makes it live for whoever mends it",
            "A transformer in the street turns 120 V into thousands; it kills",
            "A transfer that opens both poles, export off, and the plug out before anybody works on the line",
        ),
        Caution(
            "WARNING",
            "Pins of an inlet keep a charge for a moment after the plug is out",
            "It bites, and a startled hand hits something worse",
            "Leave the cover on; do not touch the pins",
        ),
    )
    examples = (
        Example(
            given={"line_volts": "230 V", "filter": "2.2 uF", "bleeder": "470 kohm", "live_pins": NO},
            expect={"volts_left": "123.7 V"},
            within=0.01,
            verdict="no",
            source=IEC_60335.at("22.5: 34 V after one second; 325 V over a time constant of 1.03 s"),
        ),
        Example(
            given={"line_volts": "230 V", "filter": "1 uF", "bleeder": "220 kohm", "live_pins": NO},
            expect={"volts_left": "3.45 V"},
            within=0.01,
            verdict="go",
            source=IEC_60335.at("22.5: 34 V after one second"),
        ),
        Example(
            given={"live_pins": YES},
            verdict="no",
            source=NEC_2023.at("406.7(B): pins of inlets are not live unless connected", FROM_MEMORY),
        ),
        Example(
            given={"export": CERTIFIED, "permission": YES, "stops_within": "2 s", "live_pins": NO},
            verdict="go",
            source=UL_1741.at("IEEE 1547-2018, 8.1: it ceases to energise within 2 s"),
        ),
        Example(
            given={"live_pins": NO, "feeds": BUILDING, "into_building": BREAKER},
            verdict="no",
            rules=IEC,
            source=IEC_60364_5_55.at("551.6: interlocked changeover"),
        ),
    )
