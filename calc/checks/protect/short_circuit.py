"""The page /protect/short-circuit/: what a dead short of the bank draws, how fast, and whether the device there breaks it."""

from __future__ import annotations

from collections.abc import Iterator

from calc.check import (
    IEC,
    Answer,
    Caution,
    Change,
    Check,
    Example,
    Fix,
    answer,
    ask,
    ask_fact,
    pick,
    pick_fact,
    require,
)
from calc.checks import battery_side as side
from calc.laws import conductor as us
from calc.laws import short_circuit as law
from calc.quantity import Quantity, constant, need, step
from calc.sources import COMMON_PRACTICE, IEC_61660, OWN_DERIVATION
from calc.tables import table
from calc.units import A, Ah, degC, h, kW, mohm, ohm_per_km, one, s, uH

BY_CELLS, LEAD_ACID = "the resistance of its cells", "lead-acid, by its amp-hours"
BY_CHEMISTRY = {
    "LFP": BY_CELLS,
    "NMC": BY_CELLS,
    "lead-acid (AGM or gel)": LEAD_ACID,
    "lead-acid (flooded)": LEAD_ACID,
}
AT_THE_BANK, DOWN_THE_CABLE = "at the battery", "at the end of a cable"

_TWENTY = 20 * one
_HOUR = 1 * h
# The interrupting currents that fuse makers test at on dc (preferred values of UL 248-12).
_PREFERRED = (10_000 * A, 20_000 * A, 50_000 * A, 100_000 * A, 150_000 * A, 200_000 * A)
_CASE = {"strings": "1", "series": "16", "leads": "0"}


class ShortCircuit(Check):
    """What can a dead short of the bank draw, and does the device there break it?"""

    title = "Short circuit"
    headline = "fault_current"
    about = {"cables.use": ("battery cable",)}

    known_by: str = pick_fact(
        "bank.chemistry",
        BY_CELLS,
        (BY_CELLS, LEAD_ACID),
        label="Known by",
        help="Times the amp-hours is a rule for lead-acid alone",
        means=BY_CHEMISTRY,
    )
    highest_volts: Quantity = side.highest_volts()
    cell_resistance: Quantity = side.cell_resistance(when={"known_by": (BY_CELLS,)})
    series: Quantity = side.series(when={"known_by": (BY_CELLS,)})
    strings: Quantity = side.strings()
    leads: Quantity = side.leads()
    capacity: Quantity = ask_fact("Q_s", "bank.capacity", 100 * Ah)
    where: str = pick(
        "Where the device is",
        (AT_THE_BANK, DOWN_THE_CABLE),
        AT_THE_BANK,
        habit=True,
        help="At the battery is the worst",
    )
    length: Quantity = side.length(when={"where": (DOWN_THE_CABLE,)})
    size: str = side.size(when={"where": (DOWN_THE_CABLE,)})
    added: Quantity = ask(
        "I_add",
        "What chargers, capacitors and motors add",
        0 * A,
        low=0 * A,
        high=20_000 * A,
        habit=True,
        help="A running dc motor adds about ten times its rated current for a moment",
    )
    inductance: Quantity = ask(
        "L_b",
        "Inductance of the loop",
        5 * uH,
        low=0.1 * uH,
        high=50 * uH,
        habit=True,
        help="About 1 µH for each metre of cable pair",
    )
    interrupting: Quantity = ask_fact(
        "I_ic", "devices.interrupting", 20_000 * A, common=(2000 * A, 6000 * A, 10_000 * A, 20_000 * A)
    )

    def solve(self) -> Answer:
        inside = self._inside()
        way = step("R_w", "Resistance in the way, up to the device", inside + self._cable(), mohm)
        battery = law.short_circuit(self.highest_volts, way)
        whole = need("I_kf", "Current that the device must break", battery + self.added, A)
        rise = law.time_constant(self.inductance, way)
        spare = constant("k_s", "Room wanted for what is not known of the resistance", 1.25 * one, COMMON_PRACTICE)
        wanted = need("I_wic", "Interrupting current to look for", spare * whole, A)
        moment = constant("t_1", "A moment after the short", 0.001 * s, OWN_DERIVATION)
        return answer(
            require(
                whole <= self.interrupting,
                comfortable=wanted <= self.interrupting,
                label="Interrupting",
                yes="The device breaks it.",
                tight="A dead short gives {left} and the device breaks {right}: with a lower resistance than stated it may burst.",
                no="A dead short gives {left}; the device breaks {right} at most and may burst, or weld and never open.",
            ),
            say=f"A dead short draws {whole:up} there; the device breaks {self.interrupting}.",
            notes=self._naive(battery),
            fault_current=whole,
            interrupting_wanted=wanted,
            resistance=way,
            time_constant=rise,
            after_a_millisecond=law.current_after(
                battery, moment, rise, "i_1", "Current one millisecond after the short"
            ),
            arc_power=need(
                "P_arc",
                "Most power that an arc can draw there",
                self.highest_volts**2 / (2 * 2 * way),
                kW,
                OWN_DERIVATION,
            ),
        )

    def _inside(self) -> Quantity:
        if self.known_by == BY_CELLS:
            return law.resistance_of_cells(self.cell_resistance, self.series, self.strings, self.leads)
        times = constant("k_Ah", "Amps of a short for each amp-hour of lead-acid, upper end", _TWENTY, COMMON_PRACTICE)
        hour = constant("h_1", "One hour", _HOUR, COMMON_PRACTICE)
        current = need(
            "I_Pb", "Short of a lead-acid bank, by its amp-hours", times * self.capacity * self.strings / hour, A
        )
        return step(
            "R_sc", "Resistance that belongs to it, with leads", self.highest_volts / current + self.leads, mohm
        )

    def _cable(self) -> Quantity:
        if self.where == AT_THE_BANK:
            return constant("R_c", "Cable up to the device, none", 0 * mohm, OWN_DERIVATION)
        if self.rules == IEC:
            per_length = table("iec_resistance").read(
                "r", f"Resistance of {self.size} copper at 20 °C", self.size, "Cu class 1/2", ohm_per_km
            )
        else:
            cold = constant("θ", "Cold cable, the worst here", 0 * degC, COMMON_PRACTICE)
            per_length = us.resistance(self.size, us.COPPER, "dc", cold)
        return step("R_c", "Cable up to the device, out and back", 2 * self.length * per_length, mohm)

    def _naive(self, battery: Quantity) -> tuple[str, ...]:
        """Name the rule of thumb, and how far it is off here."""
        notes = [
            "A resistance measured with two loads over seconds is two to three times that at the first instant: it makes the short look harmless."
        ]
        if self.known_by == BY_CELLS:
            amp_hours = self.capacity * self.strings
            ten_times, times = (
                constant("k_10", "", 10 * one, COMMON_PRACTICE) * amp_hours / _HOUR,
                battery * _HOUR / amp_hours,
            )
            notes.append(
                f"Ten times the amp-hours says {ten_times.shown_in(A)}; that is a rule for lead-acid. These cells give {times.shown_in(one)} times."
            )
        return tuple(notes)

    def _stronger(self) -> Iterator[Change]:
        for amps in _PREFERRED:
            if (amps > self.interrupting).holds:
                yield {"interrupting": amps}

    fixes = (Fix("Fit a device that breaks {interrupting} or more on dc", lambda check: check._stronger()),)

    cautions = (
        Caution(
            "DANGER",
            "A battery cannot be switched off, and its short-circuit current melts tools and copper in an instant",
            "Burns to the bone, blindness from the arc, molten metal in the face",
            "Never short a bank to test it; insulated tools, no rings or watch, covers on all posts but the one in hand",
        ),
        Caution(
            "WARNING",
            "The electronics in a battery are no fuse: they may weld shut",
            "Nothing stops the current, and the cells burn",
            "Put a fuse with a dc interrupting current above this one at the battery",
        ),
    )
    examples = (
        Example(
            given=_CASE | {"cell_resistance": "0.45 mohm", "highest_volts": "53 V", "inductance": "5 uH"},
            expect={"fault_current": "7361 A", "time_constant": "0.00069 s", "after_a_millisecond": "5617 A"},
            within=0.001,
            verdict="go",
            source=IEC_61660.at("source voltage over the resistance of the branch; rise 1 − e^(−t/τ)"),
        ),
        Example(
            given=_CASE
            | {"cell_resistance": "0.18 mohm", "highest_volts": "52.8 V", "leads": "0.5 mohm", "capacity": "280"},
            expect={"fault_current": "15621 A"},
            within=0.001,
            verdict="go",
            source=IEC_61660.at("source voltage over the resistance of the branch"),
        ),
        Example(
            given=_CASE | {"cell_resistance": "0.45 mohm", "highest_volts": "53 V", "interrupting": "6000"},
            verdict="no",
            source=COMMON_PRACTICE,
        ),
    )
