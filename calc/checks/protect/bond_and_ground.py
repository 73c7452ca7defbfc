"""The page /protect/bond-and-ground/: exactly one bond between neutral and ground in force, in every mode of the rig.

bonds(mode) = the rig's own + the one upstream wherever the neutral still reaches it. None: a fault trips nothing.
Two: the neutral's current flows in the ground wires, and the wall's ground-fault device trips.
"""

from __future__ import annotations

from collections.abc import Iterator

from calc.check import (
    IEC,
    NEC,
    Answer,
    Caution,
    Change,
    Check,
    Example,
    Fix,
    Named,
    Requirement,
    answer,
    ask_fact,
    option,
    pick_fact,
    require,
)
from calc.quantity import Quantity, Statement, alternative, constant, step
from calc.sources import COMMON_PRACTICE, FROM_MEMORY, IEC_60364_4_41, NEC_2023, OSHA_1926_404, OWN_DERIVATION
from calc.tables import table
from calc.units import A, cmil, one

FREE, FIXED, RELAY = "none", "fixed", "relay, closed while inverting"
OWN, BUILDING = "its own outlets only", "a building"
NO_BOND, ONE_POINT, SEVERAL = "no", "at one point", "at several points"
UNSURE = "no, or not known"
SEPARATED, EARTHED = "one outlet for one tool, separated, no bond", "several outlets, bonded, an RCD for each"
SIZES = ("14 AWG", "12 AWG", "10 AWG", "8 AWG", "6 AWG", "4 AWG", "3 AWG", "2 AWG")


class BondAndGround(Check):
    """Where are neutral and ground bonded, and is it once in every mode?"""

    title = "Bond and ground"
    headline = "bonds"

    bond: str = pick_fact("inverter.bond", RELAY)
    switches_neutral: str = pick_fact("inverter.switches_neutral", "yes")
    feeds: str = pick_fact("place.feeds", OWN)
    building_switches: str = pick_fact("place.building_switches", "no", when={"feeds": (BUILDING,)})
    frame: str = pick_fact("wiring.frame_bonded", "yes")
    largest_breaker: Quantity = ask_fact(
        "I_big", "rig.largest_breaker", 30 * A, rules=(NEC,), common=(20 * A, 30 * A, 50 * A)
    )
    bond_size: str = pick_fact("wiring.bond_wire", "10 AWG", rules=(NEC,))
    frame_bond: str = pick_fact("bank.frame_bond", NO_BOND)
    isolated: str = pick_fact("inverter.isolated", UNSURE, (UNSURE, "yes"), means={"no": UNSURE, "yes": "yes"})
    arrangement: str = pick_fact("wiring.arrangement", {IEC: EARTHED}, {IEC: (SEPARATED, EARTHED)})

    def solve(self) -> Answer:
        inverting = self._own(while_inverting=True)
        passing_own = self._own(while_inverting=False)
        reaches = self._upstream_while_inverting()
        wall = constant(
            "n_up",
            "The bond of the building that feeds the inlet",
            1 * one,
            NEC_2023.at("250.24, 250.142(B)", FROM_MEMORY),
        )
        alone = step("N_1", "Bonds while it inverts, unplugged", 1 * inverting, one, OWN_DERIVATION)
        plugged = step("N_2", "Bonds while it inverts, still plugged in", inverting + reaches, one, OWN_DERIVATION)
        passing = step("N_3", "Bonds while the wall passes through", passing_own + wall, one, OWN_DERIVATION)
        counts = [("Inverting, unplugged", alone), ("Inverting, plugged in", plugged), ("Passing through", passing)]
        results: dict[str, Quantity | Named] = {
            "bonds_alone": alone,
            "bonds_plugged_in": plugged,
            "bonds_passing": passing,
        }
        if self.feeds == BUILDING:
            feeding = step(
                "N_4", "Bonds while it feeds the building", inverting + self._building(), one, OWN_DERIVATION
            )
            counts.append(("Feeding the building", feeding))
            results["bonds_feeding"] = feeding
        said = "; ".join(f"{count.shown:g} {label[0].lower()}{label[1:]}" for label, count in counts)
        return answer(
            *(rest for label, count in counts for rest in self._one(label, count)),
            self._frame(),
            *self._bond_wire(),
            *self._battery(),
            say="Neutral and ground are bonded as they should be, in every mode. Codes differ: ask the authority where it is used.",
            notes=self._mind(),
            bonds=Named(
                said, "Bonds in force", "one in each mode is right", NEC_2023.at("250.30, 250.142(B)", FROM_MEMORY)
            ),
            rod=self._rod(),
            **results,
        )

    # --- counting ---------------------------------------------------------------------------------------------------

    def _own(self, while_inverting: bool) -> Quantity:
        symbol, mode = ("n_inv", "while it inverts") if while_inverting else ("n_pass", "while the wall passes through")
        closed = self.bond == FIXED or (self.bond == RELAY and while_inverting)
        because = {FREE: "it has none", FIXED: "it is fixed", RELAY: "its relay is closed only while it inverts"}[
            self.bond
        ]
        return alternative(symbol, f"The rig's own bond {mode}", (1 if closed else 0) * one, because)

    def _upstream_while_inverting(self) -> Quantity:
        if self.switches_neutral == "yes":
            return alternative(
                "n_r", "Bond upstream that its neutral still reaches", 0 * one, "the transfer opens the neutral too"
            )
        return alternative(
            "n_r", "Bond upstream that its neutral still reaches", 1 * one, "the neutral is passed straight through"
        )

    def _building(self) -> Quantity:
        if self.building_switches == "yes":
            return alternative(
                "n_b", "Bond of the building that the rig's neutral reaches", 0 * one, "its transfer opens the neutral"
            )
        return alternative(
            "n_b", "Bond of the building that the rig's neutral reaches", 1 * one, "its neutral is never opened"
        )

    def _one(self, label: str, count: Quantity) -> tuple[Requirement, ...]:
        right = constant("n_1", "Bonds there should be", 1 * one, NEC_2023.at("250.30, 250.142(B)", FROM_MEMORY))
        second = require(
            count <= right,
            exact=True,
            label=f"{label}: no second bond",
            yes="There is no second bond.",
            no=f"{label}: two bonds. The neutral's current flows in ground wires and frames, and a ground-fault device in the wall trips.",
        )
        if self.rules == IEC and self.arrangement == SEPARATED and label.startswith("Inverting, unplugged"):
            none = constant("n_0", "Bonds of a separated circuit", 0 * one, IEC_60364_4_41.at("413.3"))
            return (
                require(
                    count <= none,
                    exact=True,
                    label=f"{label}: separated",
                    yes="The circuit is separated.",
                    no="A separated circuit has no bond at all; with one, each outlet needs its own RCD.",
                ),
            )
        if self.rules == IEC and self.arrangement == SEPARATED:
            return (second,)
        return (
            require(
                count >= right,
                exact=True,
                label=f"{label}: a bond",
                yes="There is a bond.",
                no=f"{label}: no bond. A fault to the frame trips nothing and the frame stays live; a car's cord refuses to charge.",
            ),
            second,
        )

    # --- metal ------------------------------------------------------------------------------------------------------

    def _frame(self) -> Requirement:
        bonded = self.frame == "yes"
        return require(
            Statement(
                f"Outlet grounds and metal parts are {'' if bonded else 'not all '}bonded to the frame",
                bonded,
                NEC_2023.at("250.34(A), (B)", FROM_MEMORY),
            ),
            label="Frame",
            yes="Grounds and metal parts are bonded to the frame.",
            no="An unbonded part of the frame becomes live in a fault and nothing trips. Without this bond a rod is no help either.",
        )

    def _bond_wire(self) -> tuple[Requirement, ...]:
        if self.rules == IEC:
            return ()
        listed, areas = table("grounding_conductor"), table("conductor_resistance")
        wanted = listed.text(listed.row_covering(self.largest_breaker, A), "Cu")
        least = areas.read("A_min", f"Area of {wanted}, for a breaker of {self.largest_breaker}", wanted, "cmil", cmil)
        has = areas.read("A_w", f"Area of the bond wire, {self.bond_size}", self.bond_size, "cmil", cmil)
        return (
            require(
                has >= least,
                exact=True,
                label="Bond wire",
                yes="The bond wire is thick enough.",
                no=f"A {self.bond_size} bond wire burns off before a {self.largest_breaker} breaker opens: {wanted} copper at least.",
            ),
        )

    def _battery(self) -> tuple[Requirement, ...]:
        once = self.frame_bond != SEVERAL
        rests = [
            require(
                Statement(f"Battery minus to frame: {self.frame_bond}", once, COMMON_PRACTICE),
                label="Battery minus",
                yes="Battery minus meets the frame once or not at all.",
                no="Battery minus meets the frame at several points: hundreds of amps find their way through the chassis and thin ground wires.",
            )
        ]
        if self.frame_bond == ONE_POINT:
            allowed = self.isolated == "yes"
            rests.append(
                require(
                    Statement(f"The inverter is isolated: {self.isolated}", allowed, COMMON_PRACTICE),
                    label="Battery bond and inverter",
                    yes="An isolated inverter allows the battery's bond.",
                    no="Battery minus is bonded, and the inverter is not known to be isolated: through such a one the frame may take mains volts, or the inverter fails.",
                )
            )
        return tuple(rests)

    def _rod(self) -> Named:
        if self.feeds == BUILDING:
            return Named(
                "the building's own electrode",
                "Earth rod",
                "the exemption for a portable source ends where it feeds a building",
                NEC_2023.at("250.30, 250.34", FROM_MEMORY),
            )
        if self.frame == "no":
            return Named(
                "not decided",
                "Earth rod",
                "the exemption holds only once all metal is bonded to the frame",
                OSHA_1926_404,
            )
        return Named(
            "not required",
            "Earth rod",
            "it feeds only what is on it and plugged into it, all bonded to the frame; written for generators, applied here by analogy",
            OSHA_1926_404,
        )

    def _mind(self) -> tuple[str, ...]:
        notes = (
            ["Batteries and frame both floating: fuse both poles, and fit an indicator for the first fault."]
            if self.frame_bond == NO_BOND
            else []
        )
        if self.bond == FIXED:
            notes.append(
                "A bond that is right while it inverts alone is a second one as soon as the wall passes through: it has to open then."
            )
        return tuple(notes)

    def _thicker_bonds(self) -> Iterator[Change]:
        if self.rules == NEC:
            for size in SIZES[SIZES.index(self.bond_size) + 1 :]:
                yield {"bond_size": size}

    fixes = (
        option("bond", RELAY, "Use a bond by relay, closed only while it inverts"),
        option("bond", FREE, "Take the rig's own bond out: the building has one"),
        option("switches_neutral", "yes", "Use a transfer that opens the neutral too"),
        option("building_switches", "yes", "Feed the building through a transfer switch that opens the neutral"),
        option("frame", "yes", "Bond every outlet ground and metal part to one point of the frame"),
        Fix("Use a bond wire of {bond_size} or thicker", lambda check: check._thicker_bonds()),
        option("frame_bond", NO_BOND, "Take the battery's bond to the frame out, and fuse both poles"),
        option("frame_bond", ONE_POINT, "Leave one single bond of battery minus to the frame"),
        option("feeds", OWN, "Feed only its own outlets"),
        option("arrangement", EARTHED, "Bond neutral to ground at the source, with an RCD for each outlet"),
    )
    cautions = (
        Caution(
            "DANGER",
            "A source without a bond lets a tool's case stay at mains volts after the first fault",
            "Whoever holds it and touches another frame is killed, and no breaker opens",
            "One bond in force in each mode, ground-fault protection on every outlet, tested with its button before use",
        ),
        Caution(
            "WARNING",
            "A plug that bonds neutral to ground, put in while the wall feeds the rig, is a second bond",
            "Ground wires carry load current and can burn",
            "Use one only while the rig inverts alone, with a label on it that says so; never defeat a car's own test",
        ),
        Caution(
            "DANGER",
            "A rig that feeds a building without a transfer switch sends its volts out into the street",
            "It kills somebody who mends the line",
            "Only through a listed transfer switch or interlock, fitted by a licensed person; no cord with two plugs",
            only=lambda check: check.feeds == BUILDING,
        ),
    )
    examples = (
        Example(
            given={"bond": FIXED, "switches_neutral": "yes", "feeds": OWN, "frame": "yes"},
            expect={"bonds_passing": "2"},
            verdict="no",
            source=NEC_2023.at("250.142(B): no second connection of neutral to ground on the load side", FROM_MEMORY),
        ),
        Example(
            given={
                "bond": RELAY,
                "switches_neutral": "yes",
                "feeds": OWN,
                "frame": "yes",
                "bond_size": "10 AWG",
                "frame_bond": NO_BOND,
            },
            expect={"bonds_alone": "1", "bonds_plugged_in": "1", "bonds_passing": "1"},
            verdict="go",
            source=NEC_2023.at("250.30, 250.142(B), Table 250.122: 10 AWG for 60 A and less", FROM_MEMORY),
        ),
        Example(
            given={"frame": "no"},
            verdict="no",
            source=OSHA_1926_404.at(
                "(f)(3)(i): the frame need not be grounded if parts and outlet grounds are bonded to it"
            ),
        ),
        Example(
            given={"bond": FREE, "switches_neutral": "yes", "arrangement": SEPARATED},
            expect={"bonds_alone": "0"},
            verdict="go",
            rules=IEC,
            source=IEC_60364_4_41.at("413: electrical separation for one item of equipment"),
        ),
        Example(
            given={"bond": FREE, "switches_neutral": "yes", "arrangement": EARTHED},
            verdict="no",
            rules=IEC,
            source=IEC_60364_4_41.at("411.4: neutral and protective conductor joined at the source"),
        ),
    )
