"""The page /shelter/gland/: cord against gland, pull against terminal, strands against clamp, and the holes nobody uses.

A gland seals and holds only what lies in its range, by measure and not by feel; its thread does not tell the range. And
fine strands under a plain screw work loose by themselves.
"""

from __future__ import annotations

from collections.abc import Iterator

from calc.check import (
    IEC,
    NEC,
    NO,
    Answer,
    Caution,
    Change,
    Check,
    Example,
    Fix,
    Requirement,
    answer,
    ask_fact,
    next_option,
    option,
    pick_fact,
    require,
)
from calc.facts.cords import (
    ALONE,
    BARE,
    BY_CLAMP,
    BY_GLAND,
    CALIPER,
    DEVICE,
    FERRULE,
    FLAT,
    FOR_FINE,
    HARD,
    HEAVY,
    JUNIOR,
    MADE_FOR,
    NO_HOLE,
    PLAIN,
    PLUGGED,
    PVC,
    RANGE,
    SIZES,
    SIZES_IEC,
    THREAD,
    THREADS,
)
from calc.laws import cord_entry
from calc.laws.cord_entry import Span
from calc.quantity import Quantity, Statement, constant, step
from calc.sources import EN_50525, EN_62444, IEC_60364_5_52, NEC_2023, UL_62
from calc.tables import table
from calc.units import mm, mm2

CORDS = {NEC: (HARD, JUNIOR, FLAT, CALIPER), IEC: (HEAVY, PVC, FLAT, CALIPER)}
ROUND_BY_NAME = (HARD, JUNIOR, HEAVY, PVC)

# What glands are sold for, in millimetres.
_SOLD = ((3, 6.5), (4, 8), (5, 10), (6, 12), (10, 14), (13, 18), (18, 25), (22, 32), (32, 38), (37, 44))


def _another_gland(_: Check) -> Iterator[Change]:
    for least, most in _SOLD:
        yield {"clamp_least": least * mm, "clamp_most": most * mm}


def _another_thread(_: Check) -> Iterator[Change]:
    for thread in THREADS:
        yield {"thread": thread}


def _finer_terminal(check: Check) -> Iterator[Change]:
    """Smaller least sizes, the next one first."""
    options = SIZES if check.rules == NEC else SIZES_IEC
    for size in reversed(options[: options.index(getattr(check, "terminal_least"))]):  # noqa: B009  (a check of any kind)
        yield {"terminal_least": size}


class Gland(Check):
    """Does this cord fit its entry and its terminal?"""

    title = "Cord into a box"
    headline = "cord_most"
    about = {"cables.use": ("extension cord",)}

    cord: str = pick_fact("cables.cord", {NEC: HARD, IEC: HEAVY}, CORDS)
    size: str = pick_fact("cables.size", {NEC: "12 AWG", IEC: "2.5 mm2"}, {NEC: SIZES, IEC: SIZES_IEC})
    cores: str = pick_fact("cables.cores", "3", when={"cord": ROUND_BY_NAME})
    diameter: Quantity = ask_fact("d", "cables.diameter", 15 * mm, when={"cord": (CALIPER,)})
    entry: str = pick_fact("cables.entry", RANGE)
    thread: str = pick_fact("cables.thread", "M20", when={"entry": (THREAD,)})
    clamp_least: Quantity = ask_fact("c_1", "cables.clamp_least", 13 * mm, when={"entry": (RANGE,)})
    clamp_most: Quantity = ask_fact("c_2", "cables.clamp_most", 18 * mm, when={"entry": (RANGE,)})
    pull: str = pick_fact("cables.pull", BY_GLAND)
    terminal: str = pick_fact("cables.strands", FOR_FINE)
    terminal_least: str = pick_fact(
        "cables.terminal_least", {NEC: "14 AWG", IEC: "1.5 mm2"}, {NEC: SIZES, IEC: SIZES_IEC}
    )
    terminal_most: str = pick_fact("cables.terminal_most", {NEC: "10 AWG", IEC: "6 mm2"}, {NEC: SIZES, IEC: SIZES_IEC})
    shared: str = pick_fact("cables.shared", ALONE)
    unused: str = pick_fact("box.unused_holes", NO_HOLE)

    def solve(self) -> Answer:
        cord = self._cord()
        told = {} if cord is None else {"cord_least": cord.least, "cord_most": cord.most}
        required = [*self._enters(cord), *self._held(), *self._sizes(), *self._closed()]
        thick = "it" if cord is None else f"the cord, {cord.least} to {cord.most} thick,"
        return answer(
            *required,
            say=f"Yes: {thick} is held and sealed where it enters, and its strands are where they belong.",
            notes=(
                "Tighten the gland until the cord cannot be pushed or turned by hand, and again after a week: jackets give way.",
                "Enter from below or from a side, with a loop that hangs lower than the gland, so that water drips off.",
            ),
            **told,
            conductor=self._area("S", "Cross-section of the cord's wires", self.size),
        )

    def _held(self) -> tuple[Requirement, ...]:
        return (
            cord_entry.pull_is_taken(self.rules, self.pull, self.entry),
            cord_entry.strands_are_held(self.rules, self.terminal),
        )

    def _closed(self) -> tuple[Requirement, ...]:
        return (
            cord_entry.wires_in_each(self.rules, self.shared),
            cord_entry.no_hole_is_open(self.rules, self.unused),
        )

    def _cord(self) -> Span | None:
        if self.cord == FLAT:
            return None
        if self.cord == CALIPER:
            return cord_entry.measured(self.diameter)
        if self.cord in (HEAVY, PVC):
            return cord_entry.by_standard(self.cord, self.size, self.cores)
        return cord_entry.by_make("S" if self.cord == HARD else "SJ", self.size, self.cores)

    # --- the entry ---------------------------------------------------------------------------------------------------

    def _enters(self, cord: Span | None) -> list[Requirement]:
        edges = NEC_2023.at("400.17") if self.rules == NEC else IEC_60364_5_52.at("522.8")
        edge = require(
            Statement(f"It enters by {self.entry}", self.entry != BARE, edges),
            label="Edge",
            yes="No edge cuts into it.",
            no="A bare hole cuts into the cord, and lets water and dust in.",
        )
        if self.entry in (MADE_FOR, BARE):
            return [edge]
        fits = require(
            Statement(f"The cord is {'flat' if cord is None else 'round'}", cord is not None, EN_62444),
            label="Shape",
            yes="A round cord, a round gland.",
            no="A round gland neither seals nor holds a flat cord: take a fitting made for it.",
        )
        return [edge, fits] if cord is None else [edge, fits, *self._clamped(cord)]

    def _clamped(self, cord: Span) -> list[Requirement]:
        """A no where half of such cords would not fit, a go where all of them do."""
        sure, perhaps = self._gland()
        middle = step("d_m", "Cord, halfway between the two", (cord.least + cord.most) / 2, mm)
        return [
            require(
                middle <= perhaps.most,
                comfortable=cord.most <= sure.most,
                label="Thin enough",
                yes="It goes through the gland.",
                tight=f"It may be too thick: up to {cord.most}, and the gland surely takes {sure.most}. Measure both.",
                no="It is too thick for the gland: about {left}, and {right} is the most.",
            ),
            require(
                middle >= perhaps.least,
                comfortable=cord.least >= sure.least,
                label="Thick enough",
                yes="The gland closes on it.",
                tight=f"It may be too thin: from {cord.least}, and the gland surely closes on {sure.least}. Measure both.",
                no="It is too thin for the gland: about {left}, and it closes on {right} at least. It neither seals nor holds.",
            ),
        ]

    def _gland(self) -> tuple[Span, Span]:
        if self.entry == THREAD:
            return cord_entry.by_thread(self.thread)
        read = Span(self.clamp_least, self.clamp_most)
        return read, read

    # --- the terminal ------------------------------------------------------------------------------------------------

    def _sizes(self) -> list[Requirement]:
        if self.terminal == DEVICE:
            return [self._not_above()]
        area = self._area("S", "Cross-section of the cord's wires", self.size)
        least = self._area("S_1", "Smallest the terminal takes", self.terminal_least)
        return [
            require(
                area >= least,
                exact=True,
                label="Not too thin for it",
                yes="The wire fills the terminal.",
                no="The wire has {left} and the terminal holds {right} at least: it is not gripped.",
            ),
            self._not_above(),
        ]

    def _not_above(self) -> Requirement:
        return require(
            self._area("S", "Cross-section of the cord's wires", self.size)
            <= self._area("S_2", "Largest the terminal takes", self.terminal_most),
            exact=True,
            label="Not too thick for it",
            yes="The wire goes into the terminal.",
            no="The wire has {left} and the terminal takes {right} at most; strands cut off to make it fit heat the rest.",
        )

    def _area(self, symbol: str, label: str, size: str) -> Quantity:
        if size.endswith("mm2"):
            return constant(symbol, label, float(size.split()[0]) * mm2, EN_50525)
        return table("conductor_resistance").read(symbol, label, size, "mm2", mm2)

    fixes = (
        Fix("Fit a gland that clamps {clamp_least} to {clamp_most}", _another_gland),
        Fix("Fit a gland of {thread}", _another_thread, costs="read its range before it is bought"),
        option("entry", MADE_FOR, "Take a fitting made for this cord"),
        option("pull", BY_CLAMP, "Clamp the cord beside the entry"),
        option("terminal", FERRULE, "Crimp a ferrule or lug of its size", costs="where the terminal's maker allows it"),
        option("terminal", FOR_FINE, "Use a terminal marked for fine strand"),
        next_option("terminal_most", "Use a terminal that takes up to {terminal_most}"),
        Fix("Use a terminal that takes {terminal_least} and more", _finer_terminal),
        option("shared", ALONE, "Give each wire a terminal of its own"),
        option("unused", PLUGGED, "Close the holes with plugs as tight as the box"),
    )
    cautions = (
        Caution(
            "DANGER",
            "Terminals in an open box are live while anything feeds it",
            "A touch kills; a dropped screw flashes over",
            "Unplug the inlet, switch the inverter off and isolate the battery; test that it is dead before a cover comes off",
        ),
        Caution(
            "WARNING",
            "A cord that slips in its gland pulls its ground wire off first",
            "The tool works on and its case is live",
            "Leave the ground wire longest inside; pull at each cord once a month",
        ),
        Caution(
            "WARNING",
            "Tinned strand flows under a screw, and cut-off strands burn the rest",
            "The joint loosens and glows without a breaker ever opening",
            "Crimp a ferrule with its own tool; never solder strands for a screw, never cut them to fit",
        ),
    )
    examples = (
        Example(
            given={"cord": HARD, "size": "12 AWG", "cores": "3", "clamp_least": "13 mm", "clamp_most": "18 mm"},
            expect={"cord_least": "0.582 in"},
            verdict="go",
            source=UL_62.at("12/3: 2.155·(0.092 + 2·0.045) + 2·0.095; sold as 0.63 in"),
        ),
        Example(
            given={"cord": HARD, "size": "12 AWG", "cores": "3", "clamp_least": "6 mm", "clamp_most": "12 mm"},
            verdict=NO,
            source=UL_62.at("12/3: 0.58 to 0.66 in; a gland to 12 mm ends at 0.47"),
        ),
        Example(given={"terminal": PLAIN}, verdict=NO, source=NEC_2023.at("110.14")),
        Example(
            given={"cord": HEAVY, "size": "2.5 mm2", "cores": "3", "clamp_least": "10 mm", "clamp_most": "15 mm"},
            expect={"cord_least": "10.9 mm", "cord_most": "14.0 mm"},
            verdict="go",
            rules=IEC,
            source=EN_50525.at("H07RN-F 3G2.5"),
        ),
        Example(
            given={"cord": HEAVY, "size": "1 mm2", "cores": "3", "clamp_least": "3 mm", "clamp_most": "8 mm"},
            verdict=NO,
            rules=IEC,
            source=EN_50525.at(
                "H07RN-F 3G1, 8.3 to 10.7 mm", "read in a public page that holds it against a gland of 3 to 8 mm"
            ),
        ),
    )
