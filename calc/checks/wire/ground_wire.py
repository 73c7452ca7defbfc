"""The page /wire/ground-wire/: the wire that carries a fault home, so that a breaker opens and no metal stays live.

By the US rules it goes by the breaker, and grows where the circuit's wires are thicker than they need be. By the
international ones it goes by the line conductor, or by the faults it must survive, from the wall and from the inverter.
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
    Result,
    answer,
    ask,
    next_option,
    pick,
    pick_fact,
    require,
)
from calc.checks import branch_wiring as wiring
from calc.checks.branch_wiring import ONE_LOAD, SEVERAL
from calc.laws import conductor as us
from calc.laws import conductor_iec as iec
from calc.laws import ground_wire as law
from calc.quantity import Quantity, largest, need, read
from calc.sources import FROM_MEMORY, IEC_60364_5_54, NEC_2023, Source
from calc.tables import table
from calc.units import A, cmil, mm2, one, s

BY_BREAKER, AS_LISTED = "the breaker alone says it", "the page on wire for a run says it"
BY_TABLE, BY_FAULT = "by the line conductor", "by the faults it must survive"
BRANCH, CORD = "branch wiring", "extension cord"
_CORD_AS_LARGE_TO = "10 AWG"
_MAKERS = "10,380·26,240/16,510 is 16,497 cmil, and 8 AWG has 16,510"


class GroundWire(Check):
    """What ground wire does this run need?"""

    title = "Ground wire"
    headline = "ground_needed"
    about = {"cables.use": (BRANCH, CORD)}
    compared = ("ground_needed",)

    use: str = pick_fact("cables.use", BRANCH, (BRANCH, CORD), rules=(NEC,))
    ground_size: str = pick_fact(
        "cables.ground_size", {NEC: "12 AWG", IEC: "2.5 mm2"}, {NEC: law.sizes(), IEC: iec.sizes()}
    )
    ground_metal: str = pick(
        "Metal of the ground wire",
        {NEC: (us.COPPER, us.ALUMINIUM)},
        us.COPPER,
        habit=True,
        help="By its colour where it is cut; copper-clad aluminium counts as aluminium",
    )
    breaker: Quantity = wiring.breaker(rules=(NEC,))
    size: str = wiring.size()
    metal: str = wiring.metal(rules=(NEC,))
    sets: Quantity = ask(
        "n_p",
        "Wires side by side for each leg",
        1 * one,
        low=1 * one,
        high=6 * one,
        whole=True,
        habit=True,
        rules=(NEC,),
        help="1 on a cart; each set of parallel wires has a full ground wire of its own",
    )
    least: str = pick(
        "Thinnest wire that would do",
        {NEC: (BY_BREAKER, AS_LISTED)},
        BY_BREAKER,
        habit=True,
        when={"use": (BRANCH,)},
        help="By the breaker alone the ground wire never comes out too thin; heat and crowding may allow less",
    )
    least_size: str = pick(
        "Smallest size by that page",
        {NEC: us.sizes(us.COPPER, us.RACEWAY)},
        "12 AWG",
        when={"least": (AS_LISTED,)},
        help="Its smallest size that serves, with the volts lost left out of account",
    )
    terminals: str = wiring.terminals(rules=(NEC,), when={"least": (BY_BREAKER,)})
    feeds: str = pick_fact("cables.serves", ONE_LOAD, {NEC: (ONE_LOAD, SEVERAL)}, when={"least": (BY_BREAKER,)})
    runs: str = pick_fact("cables.ground_runs", law.IN_CABLE, rules=(IEC,))
    sized: str = pick(
        "How it is sized",
        {IEC: (BY_TABLE, BY_FAULT)},
        BY_TABLE,
        habit=True,
        help="By the line conductor needs no other figure; by the faults it may be thinner",
    )
    insulation: str = wiring.insulation(rules=(IEC,), when={"sized": (BY_FAULT,)})
    wall_fault: Quantity = ask(
        "I_w",
        "Fault current from the wall",
        1000 * A,
        low=1 * A,
        high=20_000 * A,
        rules=(IEC,),
        when={"sized": (BY_FAULT,)},
        help="Measured by a qualified person, or volts over the resistance of the loop",
    )
    wall_time: Quantity = ask(
        "t_w",
        "Time in which the wall's device opens it",
        0.4 * s,
        low=0.01 * s,
        high=5 * s,
        rules=(IEC,),
        when={"sized": (BY_FAULT,)},
        help="0.1 s by its magnet, 0.4 s at the most",
    )
    inverter_fault: Quantity = ask(
        "I_v",
        "Fault current from the inverter",
        60 * A,
        low=1 * A,
        high=2000 * A,
        rules=(IEC,),
        when={"sized": (BY_FAULT,)},
        help="The page on breakers on inverter power works it",
    )
    inverter_time: Quantity = ask(
        "t_v",
        "Time until the inverter is off",
        1 * s,
        low=0.01 * s,
        high=5 * s,
        rules=(IEC,),
        when={"sized": (BY_FAULT,)},
        help="In its manual",
    )

    def solve(self) -> Answer:
        return self._by_nec() if self.rules == NEC else self._by_iec()

    # --- the US rules ---------------------------------------------------------------------------------------------

    def _by_nec(self) -> Answer:
        by_breaker = law.by_breaker(self.breaker, self.ground_metal)
        in_cord = self.use == CORD and self._thin()
        least = self.size if self.use == CORD else self._least_size()
        grown = law.grown_area(by_breaker, self.size, least, self.sets)
        found = self.size if in_cord else law.listed_for(grown, self._never_larger(least))
        asked = law.area("A_n", "Area of the size that is needed", found)
        there = law.area("A_w", "Area of the ground wire that is there", self.ground_size)
        return answer(
            require(
                asked <= there,
                exact=True,
                label="Ground wire",
                yes="The ground wire is thick enough.",
                no=f"A ground wire of {found} is needed; {self.ground_size} may burn off in a fault, and the metal then stays live.",
            ),
            say=f"{self.ground_size} is thick enough: {found} is needed.",
            notes=self._naive(by_breaker, least, found),
            ground_needed=Named(
                found,
                f"Ground wire needed, {self.ground_metal}",
                self._why(by_breaker, least, in_cord),
                self._source(in_cord),
            ),
            by_breaker=Named(
                by_breaker, "By the breaker alone", f"{self.breaker}", table("grounding_conductor").source
            ),
            area_needed=asked,
            grown_area=grown,
        )

    def _thin(self) -> bool:
        rows = law.sizes()
        return rows.index(self.size) <= rows.index(_CORD_AS_LARGE_TO)

    def _least_size(self) -> str:
        if self.least == AS_LISTED:
            return self.least_size
        choices = us.sizes(self.metal, us.RACEWAY)
        return law.thinnest_behind(self.breaker, self.metal, self.terminals, self.feeds == SEVERAL, choices)

    def _never_larger(self, least: str) -> str:
        """The ground wire need not be larger than the circuit's wires, where those are not thinner than they should be."""
        rows = law.sizes()
        own = max(self.size, least, key=rows.index)
        return own if self.sets.si == 1 else rows[-1]

    def _why(self, by_breaker: str, least: str, in_cord: bool) -> str:
        if in_cord:
            return f"in a cord of {_CORD_AS_LARGE_TO} or thinner it is as large as the others"
        rows = law.sizes()
        if rows.index(self.size) > rows.index(least):
            return f"{by_breaker} by the breaker, grown as the wires were, from {least} to {self.size}"
        return f"{by_breaker} by the breaker"

    def _source(self, in_cord: bool) -> Source:
        return NEC_2023.at("250.122(E)", FROM_MEMORY) if in_cord else NEC_2023.at("250.122(A), (B)")

    def _naive(self, by_breaker: str, least: str, found: str) -> tuple[str, ...]:
        notes = []
        rows = law.sizes()
        if found != by_breaker:
            notes.append(f"The table alone says {by_breaker} for {self.breaker}; here {found} is needed.")
        if self.use == BRANCH and rows.index(self.size) > rows.index(least):
            rounded = self._by_rounded_ratio(by_breaker, least)
            if rounded != found:
                notes.append(
                    f"With the ratio rounded to a tenth it would come out as {rounded}; the code does not round it."
                )
        return tuple(notes)

    def _by_rounded_ratio(self, by_breaker: str, least: str) -> str:
        areas = table("conductor_resistance")
        of = {size: areas.value(size, "cmil", cmil).number_in(cmil) for size in (self.size, least, by_breaker)}
        rounded = round(of[self.size] / of[least], 1) * of[by_breaker]
        return law.listed_for(rounded * cmil, self._never_larger(least))

    # --- the international rules ------------------------------------------------------------------------------------

    def _by_iec(self) -> Answer:
        place = IEC_60364_5_54.at("543.1")
        there = read(
            "S_w", f"Cross-section of the wire that is there, {self.ground_size}", self._metric(self.ground_size), place
        )
        asked, worked = self._cross_section()
        strong = law.least_by_strength(self.runs)
        whole = need("S_n", "Cross-section needed, the larger of the two", largest(asked, strong), mm2, place)
        found = next((size for size in iec.sizes() if (whole <= self._metric(size)).holds), "none that is listed")
        return answer(
            require(
                whole <= there,
                exact=True,
                label="Ground wire",
                yes="The protective conductor is thick enough.",
                no="{left} are needed; {right} may burn off in a fault, and the metal then stays live.",
            ),
            say=f"{self.ground_size} is thick enough: {whole:up} is needed.",
            notes=(),
            ground_needed=Named(found, "Protective conductor needed, copper", self.sized, place),
            area_needed=whole,
            **worked,
        )

    def _cross_section(self) -> tuple[Quantity, dict[str, Result]]:
        if self.sized == BY_TABLE:
            return law.by_line(self.size), {}
        k2 = law.k_squared(self.insulation, self.runs)
        wall = law.by_fault("S_1", "For a fault fed by the wall", self.wall_fault, self.wall_time, k2)
        own = law.by_fault("S_2", "For a fault fed by the inverter", self.inverter_fault, self.inverter_time, k2)
        both = need("S_t", "For either fault", largest(wall, own), mm2)
        return both, {"for_the_wall": wall, "for_the_inverter": own}

    def _metric(self, size: str) -> Quantity:
        return float(size.split()[0]) * mm2

    fixes = (next_option("ground_size", "Use a ground wire of {ground_size} or thicker"),)
    cautions = (
        Caution(
            "DANGER",
            "Without a sound ground wire the case of a faulty tool stays at mains volts",
            "Whoever touches it and the ground is the way back",
            "Never cut a ground pin or leave the wire off; test it from frame to frame with everything off and unplugged",
        ),
        Caution(
            "WARNING",
            "A ground wire is only as good as its joints",
            "Paint, rust and a loose screw hold a fault's current back, and nothing opens",
            "Scrape to bright metal, use star washers and the maker's torque, and tug at each",
        ),
        Caution(
            "CAUTION",
            "On inverter power a fault may open no breaker however thick the ground wire is",
            "The inverter gives too little current",
            "Fit a ground-fault device at each outlet; see the page on breakers on inverter power",
        ),
    )
    examples = (
        Example(
            given={"breaker": "40", "size": "6 AWG", "terminals": "75 °C", "ground_size": "8 AWG"},
            expect={"grown_area": "16497 cmil"},
            within=0.0005,
            verdict="go",
            source=NEC_2023.at(f"250.122(B), Chapter 9, Table 8: {_MAKERS}; a course on the code works the same case"),
        ),
        Example(
            given={"breaker": "40", "size": "6 AWG", "terminals": "75 °C", "ground_size": "10 AWG"},
            verdict="no",
            source=NEC_2023.at("250.122(B): 10 AWG by the table alone, grown to 8 AWG"),
        ),
        Example(
            given={"breaker": "20", "size": "12 AWG", "ground_size": "12 AWG"},
            verdict="go",
            source=NEC_2023.at("Table 250.122: 20 A, 12 AWG"),
        ),
        Example(
            given={
                "breaker": "300",
                "size": "350 kcmil",
                "terminals": "75 °C",
                "least": AS_LISTED,
                "least_size": "250 kcmil",
                "ground_size": "2 AWG",
            },
            expect={"grown_area": "58436 cmil"},
            within=0.0005,
            verdict="go",
            source=NEC_2023.at("250.122(B); the notes of a course: 250 grown to 350 kcmil, 41,740 · 1.4 cmil, 2 AWG"),
        ),
        Example(
            given={"breaker": "70", "size": "2 AWG", "terminals": "75 °C", "ground_size": "4 AWG"},
            expect={"grown_area": "41753 cmil"},
            within=0.0001,
            verdict="no",
            source=NEC_2023.at("250.122(B), Table 310.16: 16,510·66,360/26,240 is 41,753 cmil, and 4 AWG has 41,740"),
        ),
        Example(
            given={"size": "25 mm2", "ground_size": "16 mm2"},
            expect={"area_needed": "16 mm²"},
            verdict="go",
            rules=IEC,
            source=IEC_60364_5_54.at("543.1.2: 16 mm² for line conductors over 16 to 35 mm²"),
        ),
        Example(
            given={
                "size": "25 mm2",
                "ground_size": "16 mm2",
                "sized": BY_FAULT,
                "insulation": "PVC 70 °C",
                "wall_fault": "3000",
                "wall_time": "0.4 s",
            },
            expect={"for_the_wall": "16.50 mm²"},
            verdict="no",
            rules=IEC,
            source=IEC_60364_5_54.at("543.1.2: 3000 A for 0.4 s over k = 115, worked by hand: 16.5 mm²"),
        ),
    )
