"""The page /protect/battery-fuse/: can the fuse break what the bank can give, and does it protect the cable.

Four things are asked of it at once: volts dc, interrupting current dc, a rating between load and cable, and a place
near the source.
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
    less,
    option,
    pick,
    pick_fact,
    require,
)
from calc.checks import battery_side as side
from calc.checks.battery_cables import CableAsLaid, LoadOnTheBank
from calc.laws import bank_current, short_circuit
from calc.laws import battery_cable as cable
from calc.laws import conductor as us
from calc.laws import conductor_iec as iec
from calc.laws.protection import IEC_DEVICES, NEC_BREAKERS, standard_rating_up, standard_ratings
from calc.quantity import Quantity, Statement, constant, limit, need, smallest, step
from calc.sources import (
    ABYC_E_11,
    CFR_33_183,
    COMMON_PRACTICE,
    FROM_MEMORY,
    IEC_60364_5_52,
    IEC_60898,
    NEC_2023,
    Source,
)
from calc.tables import table
from calc.units import A, V, inch, one, wires

MAIN, OF_A_STRING = "main fuse of the bank", "fuse of one string"
BARE, SHEATHED, AT_THE_POST = "bare cable", "in a sheath or box", "in a sheath, straight from the battery's post"
NOT_FOR_A_MAIN = ("blade ISO 8820-3", "bolt-down strip ISO 8820-5", "UL 248-7 Class H renewable", "aR semiconductor")
REPLACEMENTS = ("UL 248-15 Class T", "UL 248-8 and 248-12 Class J and RK", "IEC 60269 gG NH")

_ABYC_REACH = ABYC_E_11.at("distance of overcurrent protection from the source", FROM_MEMORY)
_REACH = {
    BARE: (7, CFR_33_183.at("183.455(b)(1)")),
    SHEATHED: (40, CFR_33_183.at("183.455(b)(2)")),
    AT_THE_POST: (72, _ABYC_REACH),
}
# A 58.4 V bank of 7361 A behind a 175 A fuse and 2/0 AWG.
_CASE = {
    "highest_volts": "58.4 V",
    "short_known": side.STATED,
    "short_stated": "7361 A",
    "strings": "1",
    "load": side.BY_AMPS,
    "amps": "130 A",
    "ambient": "30 °C",
}


class _Fuse:
    """The fuse, where it sits, and the short that it must break."""

    place: str = pick(
        "Which fuse",
        (MAIN, OF_A_STRING),
        MAIN,
        habit=True,
        help="With strings in parallel each has its own, and a main follows",
    )
    family: str = pick_fact("devices.family", "UL 248-15 Class T")
    rating: Quantity = ask_fact("I_B", "devices.rating", 175 * A, common=(100 * A, 150 * A, 175 * A, 200 * A))
    dc_volts: Quantity = ask_fact("V_dc", "devices.dc_volts", 125 * V, common=(32 * V, 58 * V, 80 * V, 125 * V))
    interrupting: Quantity = ask_fact(
        "I_ic", "devices.interrupting", 20_000 * A, common=(2000 * A, 6000 * A, 20_000 * A)
    )
    distance: Quantity = ask_fact("L_F", "devices.distance", 6 * inch)
    cover: str = pick("That length lies", (BARE, SHEATHED, AT_THE_POST), BARE, habit=True, help="Bare is the strictest")
    string_fuses: str = pick_fact("bank.string_fuses", "yes", when={"place": (MAIN,)})
    highest_volts: Quantity = side.highest_volts()
    short_known: str = side.short_known()
    short_stated: Quantity = side.short_stated()
    cell_resistance: Quantity = side.cell_resistance(when=side.OF_CELLS)
    series: Quantity = side.series(when=side.OF_CELLS)
    strings: Quantity = side.strings()
    leads: Quantity = side.leads(when=side.OF_CELLS)


class BatteryFuse(_Fuse, LoadOnTheBank, CableAsLaid, Check):
    """Is this the right fuse at the battery?"""

    title = "Fuse at the battery"
    headline = "fault_current"
    about = {"cables.use": ("battery cable",)}

    def solve(self) -> Answer:
        short = self._short()
        credited = self._credited()
        wanted = need(
            "I_wic", "Interrupting current to look for, as resistance is never sure", self._spare() * short, A
        )
        average = self._average()
        asked = self._asked(average)
        usable, largest = self._cable()
        return answer(
            require(
                self.highest_volts <= self.dc_volts,
                label="Volts dc",
                yes="It may break the bank's volts.",
                tight="The bank reaches {left} and it may break {right}: the next charger setting may exceed it.",
                no="The bank reaches {left}; on dc it may break {right}. It would go on burning inside after it has opened.",
            ),
            require(
                short <= credited,
                comfortable=wanted <= credited,
                label="Interrupting",
                yes="It can break a dead short of the bank.",
                tight="A dead short gives {left} and it breaks {right}: with a lower resistance than stated it may burst.",
                no="A dead short gives {left}; it breaks {right} at most and may burst, with fire and molten metal.",
            ),
            require(
                self._family_serves(),
                label="Family",
                yes="Its family may stand there.",
                no=f"{self._named_family()} is for {table('dc_fuse').text(self.family, 'use')}; it does not belong at a bank's main lead.",
            ),
            *self._rating(asked, usable, largest),
            self._near(),
            *self._strings_own(),
            say=f"It breaks the {short:up} of a dead short at {self.highest_volts}, and protects {self.size} cable.",
            notes=self._naive(),
            fault_current=short,
            interrupting_wanted=wanted,
            load_current=average,
            smallest_fuse=step(
                "I_Fmin", "Smallest standard fuse for the load", self._up(asked), A, self._list_source()
            ),
            usable_ampacity=usable,
            largest_fuse=largest,
            usual_for_it=self._usual(),
        )

    def _short(self) -> Quantity:
        whole = (
            self.short_stated
            if self.short_known == side.STATED
            else short_circuit.short_circuit(
                self.highest_volts,
                short_circuit.resistance_of_cells(self.cell_resistance, self.series, self.strings, self.leads),
            )
        )
        if self.place == OF_A_STRING:
            return short_circuit.through_one_string(whole, self.strings)
        return need("I_kf", "Short-circuit current through the main fuse", whole, A)

    def _spare(self) -> Quantity:
        return constant("k_s", "Room wanted for what is not known of the resistance", 1.25 * one, COMMON_PRACTICE)

    def _credited(self) -> Quantity:
        """What it breaks, never credited above what its family usually breaks on dc: a larger figure is likely the ac one."""
        usual = table("dc_fuse").read(
            "I_fam", f"Most that {self._named_family()} usually breaks on dc", self.family, "most interrupting", A
        )
        return limit("I_cr", "Interrupting current credited", smallest(self.interrupting, usual), A)

    def _named_family(self) -> str:
        return f"a fuse of the family {self.family}" if self.family[0].islower() else self.family

    def _family_serves(self) -> Statement:
        serves = self.family not in NOT_FOR_A_MAIN
        return Statement(
            f"{self.family} {'may' if serves else 'may not'} stand at a bank", serves, table("dc_fuse").source
        )

    def _average(self) -> Quantity:
        whole = self.lasting_current()
        if self.place == OF_A_STRING:
            return need("I_1", "Lasting current through it, one string's even share", whole / self.strings, A)
        return need("I_1", "Lasting current through it", whole, A)

    def _asked(self, average: Quantity) -> Quantity:
        """What the fuse must carry. The factor for lasting loads is the US rule; elsewhere the heating current counts."""
        return bank_current.lasting(average) if self.rules == NEC else bank_current.whole_ripple(average)

    def _cable(self) -> tuple[Quantity, Quantity]:
        """What the cable carries as laid, and the largest fuse that may stand before it."""
        if self.rules == IEC:
            _, iz = self.carried_by_iec(self.size, self.circuits)
            most = iec.capacity_for_device(iz, "gG fuse", self.rating)
            return most, most
        lugs, corrected = cable.by_the_code(
            self.size, self.lay, self.insulation, self.terminals, self.ambient, 1 * wires, self.carrying
        )
        usable = us.usable_ampacity(lugs, corrected)
        return usable, cable.largest_fuse(usable, self._up(usable))

    def _up(self, current: Quantity) -> Quantity:
        return standard_rating_up(current, NEC_BREAKERS if self.rules == NEC else IEC_DEVICES)

    def _list_source(self) -> Source:
        return NEC_2023.at("240.6(A)") if self.rules == NEC else IEC_60898

    def _rating(self, asked: Quantity, usable: Quantity, largest: Quantity) -> list[Requirement]:
        return [
            require(
                asked <= self.rating,
                exact=True,
                label="Fuse holds the load",
                yes="The fuse holds.",
                no="{left} is asked of a {right} fuse: it ages and opens under load.",
            ),
            require(
                self.rating <= largest,
                comfortable=self.rating <= usable,
                label="Fuse protects the cable",
                yes="The fuse protects the cable.",
                tight=f"The {{left}} fuse is the next size above what {self.size} carries as laid: allowed, with nothing to spare.",
                no=f"The {{left}} fuse is too large for {self.size} as laid: at most {{right}}. The cable would burn before it opens.",
            ),
        ]

    def _near(self) -> Requirement:
        inches, source = _REACH[self.cover]
        most = constant("L_max", f"Farthest from the source, {self.cover}", inches * inch, source)
        return require(
            self.distance <= most,
            exact=True,
            label="Place",
            yes="It is near enough.",
            no=f"It sits {{left}} along the cable from the source; {self.cover} it may be {{right}}. Nothing protects that length.",
        )

    def _strings_own(self) -> list[Requirement]:
        if not self.asked("string_fuses") or (self.strings <= 1).holds:
            return []
        fused = self.string_fuses == "yes"
        return [
            require(
                Statement(f"Each string {'has' if fused else 'lacks'} a fuse of its own", fused, COMMON_PRACTICE),
                label="Fuse of each string",
                yes="Each string has its own.",
                no="A short inside one string is fed by all the others, and the main fuse never sees it: each string needs its own.",
            )
        ]

    def _usual(self) -> Named:
        listed = table("dc_fuse")
        volts, least, most = (listed.text(self.family, column) for column in listed.columns[:3])
        return Named(
            f"{volts} V, {least} to {most} A",
            "What its family usually breaks on dc",
            "what is printed on the part rules; from memory, not confirmed",
            listed.source,
        )

    def _naive(self) -> tuple[str, ...]:
        notes = [
            "The electronics in a battery are no fuse: they may fail closed, and they do not break a dead short of other strings."
        ]
        usual = table("dc_fuse").value(self.family, "most interrupting", A)
        if (self.interrupting > usual).holds:
            notes.append(
                f"{self.interrupting} is likely the figure for ac: it says nothing about dc. {usual} is credited."
            )
        return tuple(notes)

    def _replaced(self) -> Iterator[Change]:
        listed = table("dc_fuse")
        for family in REPLACEMENTS:
            yield {
                "family": family,
                "dc_volts": listed.value(family, "volts", V),
                "interrupting": listed.value(family, "least interrupting", A),
            }

    def _resized(self) -> Iterator[Change]:
        for rating in self._ratings():
            yield {"rating": rating}

    def _with_thicker_cable(self) -> Iterator[Change]:
        options = self.asks["size"].options(self.rules)  # type: ignore[union-attr]
        for size in options[options.index(self.size) + 1 :]:
            for rating in self._ratings()[:1]:
                yield {"size": size, "rating": rating}

    def _ratings(self) -> list[Quantity]:
        """Standard ratings from the load to twice of it, smallest first; each is still held against its cable."""
        asked = self._asked(self._average())
        most = smallest(2 * asked, self.asks["rating"].high)  # type: ignore[union-attr]
        ratings = standard_ratings(NEC_BREAKERS if self.rules == NEC else IEC_DEVICES)
        return [rating for rating in ratings if (rating >= asked).holds and (rating <= most).holds]

    fixes = (
        Fix("Fit {family}, {dc_volts} and {interrupting} or more, both for dc", lambda check: check._replaced()),
        Fix("Fit a {rating} fuse", lambda check: check._resized()),
        Fix("Use {size} cable with a {rating} fuse", lambda check: check._with_thicker_cable(), costs="heavier cable"),
        less("distance", 1 * inch, "Move it to {distance} or less from the source"),
        option("cover", SHEATHED, "Put that length in a sheath or box"),
        option("string_fuses", "yes", "Give each string a fuse of its own"),
    )
    cautions = (
        Caution(
            "DANGER",
            "A battery cannot be switched off: a dropped tool across its posts makes an arc of thousands of amps",
            "It burns to the bone, blinds, and throws molten metal",
            "Fit the fuse with the battery's own switch open, cables off at the far end, insulated tools, no rings, face covered",
        ),
        Caution(
            "DANGER",
            "A fuse that cannot break the dc behind it bursts, or goes on arcing inside",
            "Fire at the battery that nothing stops",
            "Use only a fuse with dc volts and dc interrupting current printed on it, in the maker's own holder",
        ),
        Caution(
            "WARNING",
            "Pulling a fuse or a connector under load draws an arc that does not go out by itself",
            "Burns, and fire",
            "Switch every load and charger off first, then open the switch, then take the fuse out",
        ),
    )
    examples = (
        Example(
            given=_CASE | {"dc_volts": "125 V", "interrupting": "20000 A", "distance": "7 in"},
            expect={"fault_current": "7361 A"},
            verdict="go",
            source=CFR_33_183.at("183.455(b)(1): within seven inches of the source, measured along the conductor"),
        ),
        Example(
            given=_CASE | {"dc_volts": "125 V", "interrupting": "20000 A", "distance": "8 in"},
            verdict="no",
            source=CFR_33_183.at("183.455(b)(1): within seven inches of the source, measured along the conductor"),
        ),
        Example(
            given=_CASE | {"dc_volts": "125 V", "interrupting": "20000 A", "distance": "40 in", "cover": SHEATHED},
            verdict="go",
            source=CFR_33_183.at("183.455(b)(2): within 40 inches in a sheath or enclosure"),
        ),
        Example(
            given=_CASE | {"dc_volts": "58 V", "interrupting": "2000 A", "family": "cube on the battery post"},
            verdict="no",
            source=COMMON_PRACTICE,
        ),
        Example(
            given=_CASE | {"amps": "140.3 A", "size": "4/0 AWG"},
            expect={"smallest_fuse": "200 A", "usable_ampacity": "230 A"},
            verdict="no",
            source=NEC_2023.at("215.3, 240.6(A), Table 310.16: 1.25 · 140.3 A is 175.4 A, above a 175 A fuse"),
        ),
        Example(
            given=_CASE | {"amps": "110 A", "size": "70 mm2", "rating": "160", "method": "B1", "ambient": "30 °C"},
            expect={"usable_ampacity": "172.8 A"},
            verdict="go",
            rules=IEC,
            source=IEC_60364_5_52.at("Table B.52.2: 70 mm² at 70 °C terminals, B1, 192 A; a gG fuse 0.9 of it"),
        ),
        Example(
            given=_CASE | {"amps": "150 A", "size": "70 mm2", "rating": "160", "method": "B1", "ambient": "30 °C"},
            verdict="no",
            rules=IEC,
            source=IEC_60364_5_52.at(
                "Table B.52.2; the ripple of a one-phase inverter heats as 1.22 times the average"
            ),
        ),
    )
