"""The page /wire/battery-cable/: the cable from the bank, by the code and by the rule for boats, and what it loses.

The current is that at the inverter's cut-off; the lugs are asked for 125 % of it, the insulation for the current that
heats, ripple and all. Neither factor is put on top of the other.
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
    next_option,
    option,
    pick,
    require,
)
from calc.checks import battery_side as side
from calc.checks.battery_cables import CableAsLaid, LoadOnTheBank
from calc.laws import bank_current
from calc.laws import battery_cable as law
from calc.laws import conductor as us
from calc.laws import conductor_iec as iec
from calc.quantity import OutsideValidity, Quantity, Statement, constant, limit, need, step
from calc.sources import CFR_33_183, COMMON_PRACTICE, FROM_MEMORY, IEC_60364_5_52, NEC_2023, Source
from calc.tables import table
from calc.units import A, V, W, degC, ft, one, percent, wires

BY_THE_CODE, BY_THE_BOAT_RULE = "the wiring code", "the rule for boats"
PARALLEL_FROM = "1/0 AWG"
_FIFTY = 50 * V
_CASE = {"load": side.BY_AMPS, "amps": "131", "ambient": "30 °C", "length": "3 ft"}


class BatteryCable(LoadOnTheBank, CableAsLaid, Check):
    """Which cable from the bank to the inverter?"""

    title = "Battery cable"
    headline = "usable_ampacity"
    about = {"cables.use": ("battery cable",)}

    nominal_volts: Quantity = ask_fact("V_b", "bank.nominal_volts", 51.2 * V, common=(12.8 * V, 25.6 * V, 51.2 * V))
    length: Quantity = side.length()
    parallel: Quantity = ask(
        "n_p",
        "Cables side by side on each pole",
        1 * wires,
        low=1 * wires,
        high=4 * wires,
        habit=True,
        help="1, or how many share the current of plus; as many for minus",
    )
    judged_by: str = pick(
        "Judged by",
        {NEC: (BY_THE_CODE, BY_THE_BOAT_RULE)},
        BY_THE_CODE,
        habit=True,
        help="A cart on land goes by the code; the rule for boats is for single cables under 50 V, and allows more",
    )
    wanted_drop: Quantity = ask(
        "d_go",
        "Loss you would like to stay under",
        1 * percent,
        low=0.2 * percent,
        high=10 * percent,
        habit=True,
        help="1 % on the battery side of an inverter",
    )
    most_drop: Quantity = ask(
        "d_max",
        "Most you would accept",
        2 * percent,
        low=0.2 * percent,
        high=10 * percent,
        habit=True,
        help="2 % on the battery side: it adds to the bank's own sag",
    )

    def solve(self) -> Answer:
        if self._on_a_boat and (self.nominal_volts >= _FIFTY).holds:
            raise OutsideValidity(
                f"The rule for boats lists these ampacities for under 50 V; the bank has {self.nominal_volts}."
            )
        average = self._average()
        each = need("I_1", "Lasting current in one cable", average * (1 * wires) / self.parallel, A)
        heating = bank_current.whole_ripple(each)
        wanted = bank_current.lasting(each) if self.rules == NEC else heating
        lugs, corrected = self._ampacity(self.size)
        usable = limit("I_use", "Usable ampacity of one cable, lugs and insulation", law.lower(lugs, corrected), A)
        resistance = self._resistance()
        lost = need("ΔV", "Volts lost, out and back", each * resistance, V)
        share = us.share_lost(lost, self.nominal_volts)
        return answer(
            require(
                wanted <= lugs,
                label="Lugs",
                yes="The lugs carry it.",
                tight=f"The {self.terminals} lugs of {self.size} are asked for {{left}} of their {{right}}.",
                no=f"The {self.terminals} lugs of {self.size} take {{right}}, and {{left}} is asked of them: they would cook the fuse and the joint.",
            ),
            require(
                heating <= corrected,
                label="Insulation",
                yes="The insulation stands it.",
                tight=f"{self.size} as laid stands {{right}}; {{left}} heats it.",
                no=f"{self.size} as laid stands {{right}}; {{left}} heats it, ripple and all: its insulation softens.",
            ),
            require(
                share <= self.most_drop,
                comfortable=share <= self.wanted_drop,
                label="Volts lost",
                yes="Few volts are lost.",
                tight=f"{{left}} of the volts are lost in the cable; {self.wanted_drop} would be better.",
                no="{left} of the volts are lost in the cable; {right} is the most you accept: the inverter cuts off early.",
            ),
            *self._side_by_side(),
            say=f"{self.size} carries the {each:up} at the cut-off; {lost:up} are lost.",
            notes=self._notes(),
            usable_ampacity=usable,
            load_current=average,
            needed_ampacity=wanted,
            heating_current=heating,
            volts_lost=lost,
            heat_lost=need("P_loss", "Heat in each pair of cables", heating**2 * resistance, W),
            **self._smallest(wanted, heating),
        )

    @property
    def _on_a_boat(self) -> bool:
        return self.rules == NEC and self.judged_by == BY_THE_BOAT_RULE

    def _average(self) -> Quantity:
        average = self.lasting_current()
        return need("I_co", "Lasting current at the cut-off", average, A) if self.load == side.BY_AMPS else average

    def _ampacity(self, size: str) -> tuple[Quantity, Quantity]:
        """What the lugs carry, and what the insulation stands as laid."""
        if self.rules == IEC:
            laid, usable = self.carried_by_iec(size, self._together())
            return usable, laid
        if self.judged_by == BY_THE_BOAT_RULE:
            return law.by_the_boat_rule(size, self.insulation, self.terminals, self.ambient)
        return law.by_the_code(
            size, self.lay, self.insulation, self.terminals, self.ambient, self.parallel, self.carrying
        )

    def _together(self) -> Quantity:
        """Circuits that warm one another: each pair of cables that share a current counts as one."""
        if (self.parallel <= 1 * wires).holds:
            return self.circuits
        place = IEC_60364_5_52.at("523.7 and Table B.52.17", FROM_MEMORY)
        together = self.circuits * self.parallel / (1 * wires)
        return step("N_g", "Circuits run together, each pair of these cables counted", together, wires, place)

    def _resistance(self) -> Quantity:
        if self.rules == IEC:
            pf = constant("pf", "Power factor of dc", 1 * one, COMMON_PRACTICE)
            return 2 * iec.drop_per_amp(self.size, us.COPPER, "dc", self.length, pf)
        hot = constant("θ_c", "Temperature the cable is worked at", 75 * degC, NEC_2023.at("Chapter 9, Table 8"))
        return 2 * self.length * us.resistance(self.size, us.COPPER, "dc", us.temperature_at_work(hot, self.ambient))

    def _side_by_side(self) -> list[Requirement]:
        if (self.parallel <= 1 * wires).holds or self.rules == IEC:
            return []
        sizes = table("ampacity_raceway").rows
        large = sizes.index(self.size) >= sizes.index(PARALLEL_FROM)
        return [
            require(
                Statement(
                    f"{self.size} {'may' if large else 'may not'} lie side by side",
                    large,
                    NEC_2023.at("310.10(G)", FROM_MEMORY),
                ),
                label="Side by side",
                yes="Cables of this size may share the current.",
                no=f"Only {PARALLEL_FROM} and larger may share a current: with a bad joint in one, the other carries it all and burns.",
            )
        ]

    def _smallest(self, wanted: Quantity, heating: Quantity) -> dict[str, Named]:
        """The thinnest listed size by each rule, volts aside: each size is asked in turn."""
        rules = {"smallest_size": BY_THE_CODE, "smallest_on_a_boat": BY_THE_BOAT_RULE}
        found = {}
        for name, judged_by in rules.items():
            if self.rules == IEC and judged_by == BY_THE_BOAT_RULE:
                continue
            label = f"Smallest by {judged_by}" if self.rules == NEC else "Smallest by the tables"
            found[name] = Named(self._smallest_by(judged_by, wanted, heating), label, *self._why(judged_by))
        return found

    def _smallest_by(self, judged_by: str, wanted: Quantity, heating: Quantity) -> str:
        asked = self if self.rules == IEC else self.changed({"judged_by": judged_by})
        for size in self.asks["size"].options(self.rules):  # type: ignore[union-attr]
            try:
                lugs, corrected = asked._ampacity(size)
            except OutsideValidity:
                continue
            if (wanted <= lugs).holds and (heating <= corrected).holds:
                return size
        return "none of those listed"

    def _why(self, judged_by: str) -> tuple[str, Source]:
        if self.rules == IEC:
            return f"method {self.method}, {self.terminals} terminals", IEC_60364_5_52.at("Annex B")
        if judged_by == BY_THE_CODE:
            return (
                f"{self.terminals} lugs by the raceway table; insulation {self.lay}, counted as 90 °C at most",
                NEC_2023.at("Tables 310.16, 310.17, 110.14(C)"),
            )
        return f"{self.terminals} lugs and {self.insulation} insulation, single cables in air", CFR_33_183.at(
            "183.425, Table 5"
        )

    def _notes(self) -> tuple[str, ...]:
        """Name the wrong number that a hurried reader takes from a table."""
        listed, notes = (
            table("ampacity_under_50v"),
            ["Fine-stranded cable needs lugs made for it; welding cable is not listed for raceways."],
        )
        degrees = self.insulation.split()[0]
        if self.rules == NEC and self.size in listed.rows and int(degrees) > int(self.terminals.split()[0]):
            column = listed.value(self.size, degrees, A)
            lugs = listed.value(self.size, self.terminals.split()[0], A)
            notes.append(
                f"The {self.insulation} column for boats says {column} for {self.size}; there its {self.terminals} lugs allow {lugs}, by the code less."
            )
        return tuple(notes)

    fixes = (
        next_option("size", "Use {size} or thicker", costs="heavier, stiffer, larger lugs"),
        less("length", 0.5 * ft, "Keep the cable to {length} or less, one way"),
        option("terminals", "75 °C", "Use lugs and fuse holder marked 75 °C at both ends"),
        option("lay", us.FREE_AIR, "Lay it as single cables with air all round"),
        less("continuous", 250 * W, "Cap the inverter's output at {continuous} in its settings"),
    )
    cautions = (
        Caution(
            "DANGER",
            "A battery cannot be switched off: a dropped tool across its posts makes an arc of thousands of amps",
            "It burns to the bone, blinds, and throws molten metal",
            "Make up the cable away from the bank; connect it with the bank's own switch open, insulated tools and no rings",
        ),
        Caution(
            "WARNING",
            "A loose or poorly crimped lug at this current glows though the cable is large enough",
            "It sets fire to the box",
            "Crimp with the die for that lug, tighten to the maker's torque, measure the drop across each joint under load",
        ),
    )
    examples = (
        Example(
            given=_CASE | {"size": "2/0 AWG"},
            expect={"needed_ampacity": "163.75 A", "usable_ampacity": "175 A"},
            verdict="tight",
            source=NEC_2023.at("215.2(A), Table 310.16: 1.25 · 131 A against 175 A of 2/0 AWG at 75 °C"),
        ),
        Example(
            given=_CASE | {"size": "2 AWG"},
            verdict="no",
            source=NEC_2023.at("Table 310.16: 2 AWG is 115 A at 75 °C lugs"),
        ),
        Example(
            given=_CASE | {"size": "2 AWG", "judged_by": BY_THE_BOAT_RULE, "nominal_volts": "48 V"},
            expect={"usable_ampacity": "170 A"},
            verdict="tight",
            source=CFR_33_183.at("183.425, Table 5: 2 AWG 170 A at 75 °C"),
        ),
        Example(
            given=_CASE | {"amps": "140.3", "size": "2/0 AWG"},
            verdict="no",
            source=NEC_2023.at("215.2(A), Table 310.16: 1.25 · 140.3 A is 175.4 A, above the 175 A of 2/0 AWG"),
        ),
        Example(
            given=_CASE | {"amps": "100", "size": "50 mm2", "method": "B1"},
            expect={"usable_ampacity": "151 A"},
            verdict="go",
            rules=IEC,
            source=IEC_60364_5_52.at("Table B.52.2: 50 mm², B1, 151 A at 70 °C terminals"),
        ),
        Example(
            given=_CASE | {"amps": "131", "size": "50 mm2", "method": "B1"},
            verdict="no",
            rules=IEC,
            source=IEC_60364_5_52.at(
                "Table B.52.2; the ripple of a one-phase inverter heats as 1.22 times the average"
            ),
        ),
    )
