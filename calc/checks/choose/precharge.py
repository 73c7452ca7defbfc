"""The page /choose/precharge/: filling an inverter's capacitors before the contactor closes on them.

"Five time constants" is right for nothing but a bare capacitor: what stands by stops it short, or hangs it for ever.
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
    pick_fact,
    require,
)
from calc.laws import precharge as law
from calc.quantity import OutsideValidity, Quantity, alternative, constant, largest, limit, need, step
from calc.sources import COMMON_PRACTICE, NGSPICE, OWN_DERIVATION
from calc.units import A, J, V, W, mF, mohm, ms, ohm, one, s, uH

NOTHING, RESISTIVE, ELECTRONICS = "nothing", "a resistance: lamp, bleeder, heater", "electronics that wake up"

FIVE = 5 * one  # the rule of thumb that is named, not used


class Precharge(Check):
    """Which precharge resistor does the inverter need?"""

    title = "Precharge"
    headline = "final_volts"

    highest_volts: Quantity = ask_fact(
        "V_cv", "bank.highest_volts", 57.6 * V, common=(14.4 * V, 28.8 * V, 57.6 * V, 58.4 * V)
    )
    capacitance: Quantity = ask_fact("C", "inverter.capacitance", 20 * mF, common=(5 * mF, 10 * mF, 20 * mF))
    resistor: Quantity = ask_fact("R", "precharge.resistor", 25 * ohm, common=(10 * ohm, 25 * ohm, 47 * ohm, 100 * ohm))
    standby: str = pick_fact("precharge.standby", NOTHING)
    standby_power: Quantity = ask_fact(
        "P_0",
        "precharge.standby_power",
        10 * W,
        when={"standby": (RESISTIVE, ELECTRONICS)},
        common=(5 * W, 10 * W, 60 * W),
    )
    wakes_at: Quantity = ask_fact("V_w", "precharge.wakes_at", 20 * V, when={"standby": (ELECTRONICS,)})
    allowed_time: Quantity = ask_fact("t_max", "precharge.time", 3 * s, common=(1 * s, 2 * s, 5 * s))
    residual: Quantity = ask_fact("V_g", "precharge.residual", 2 * V, common=(1 * V, 2 * V, 5 * V))
    pulse: Quantity = ask_fact("E_R", "precharge.pulse", 60 * J, common=(30 * J, 60 * J, 100 * J, 200 * J))
    make: Quantity = ask_fact("I_mk", "precharge.make", 500 * A, common=(200 * A, 500 * A, 1000 * A))
    resistance: Quantity = ask_fact("R_b", "bank.resistance", 14 * mohm, common=(8 * mohm, 12 * mohm, 16 * mohm))
    inductance: Quantity = ask(
        "L_b",
        "Inductance of the loop",
        3 * uH,
        low=0.1 * uH,
        high=50 * uH,
        habit=True,
        help="About 1 µH for each metre of cable pair; plus and minus side by side have the least",
    )

    def solve(self) -> Answer:
        volts, tau = self.highest_volts, step("τ", "Time constant", self.resistor * self.capacitance, ms)
        gap = self._gap()
        woken, end, time = self._ends_and_takes(tau, gap)
        energy = need("E_C", "Energy that the resistor takes, as the capacitors do", self.capacitance * volts**2 / 2, J)
        spare = constant("k_E", "Pulse rating, of that energy", 1.5 * one, COMMON_PRACTICE)
        missing = largest(gap, volts - end)
        closes_on = need("V_c", "Volts over the contactor as it closes", missing, V)
        peak, _ = law.closing(
            closes_on, self.resistance, self.inductance, self.capacitance, "cl", "as the contactor closes"
        )
        bare, swung = law.closing(
            volts, self.resistance, self.inductance, self.capacitance, "no", "without any precharge"
        )
        results = {"final_volts": end}
        if time is not None:
            results["time"] = time
        return answer(
            *woken,
            require(
                need("V_m", "Volts missing in the end", volts - end, V) <= gap,
                exact=True,
                label="Near enough in the end",
                yes="It fills to the end.",
                no=f"It stops at {end}, for ever: {{left}} are missing where {{right}} may be. Waiting longer is no help.",
            ),
            *self._in_time(time),
            require(
                need("E_w", "Pulse rating that is wanted", spare * energy, J) <= self.pulse,
                exact=True,
                label="Resistor's pulse",
                yes="The resistor stands the pulse.",
                no="The resistor should stand {left} in one pulse and is good for {right}: it opens like a fuse, and the next closing is a bare one.",
            ),
            require(
                peak <= self.make,
                label="Closing",
                yes="The contactor stands the closing.",
                tight="{left} flow as the contactor closes; it may close on {right}.",
                no="{left} flow as the contactor closes; it may close on {right}. It welds shut, and cannot be opened in need.",
            ),
            say=f"It fills to {end}; {peak:up} flow as the contactor closes.",
            notes=self._naive(bare, swung, tau),
            closing_current=peak,
            resistor_energy=energy,
            resistor_peak_current=need("I_R", "Peak current in the resistor", volts / self.resistor, A),
            resistor_peak_power=need("P_R", "Peak power in the resistor", volts**2 / self.resistor, W),
            bare_current=bare,
            bare_volts=need(
                "V_sw", "Volts on the capacitors without any precharge, at the top of the swing", 1 * swung, V
            ),
            **results,
        )

    def _gap(self) -> Quantity:
        if (self.residual >= self.highest_volts).holds:
            raise OutsideValidity(f"{self.residual} may be missing of {self.highest_volts}: that is no precharge.")
        return self.residual

    def _ends_and_takes(
        self, tau: Quantity, gap: Quantity
    ) -> tuple[tuple[Requirement, ...], Quantity, Quantity | None]:
        """What must hold on the way, the volts it ends at, and the time it takes; None where it never gets there."""
        volts = self.highest_volts
        if self.standby == NOTHING:
            end = alternative("V_f", "Volts at which it stops", volts, "nothing draws on it", V)
            return (), end, law.time_alone(volts, tau, gap)
        if self.standby == RESISTIVE:
            load = step("R_l", "Resistance that stays on", volts**2 / self.standby_power, ohm)
            end = law.end_with_resistance(volts, self.resistor, load)
            near = (volts - end < gap).holds
            return (), end, law.time_with_resistance(volts, tau, self.resistor, load, end, gap) if near else None
        return self._with_electronics(tau, gap)

    def _with_electronics(
        self, tau: Quantity, gap: Quantity
    ) -> tuple[tuple[Requirement, ...], Quantity, Quantity | None]:
        volts = self.highest_volts
        if (self.wakes_at >= volts - gap).holds:
            raise OutsideValidity(f"Electronics that wake at {self.wakes_at} are not worked here on {volts}.")
        passes = law.wakes_through(volts, self.resistor, self.standby_power, self.wakes_at)
        woken = require(
            passes,
            exact=True,
            label="Past the waking",
            yes="It gets past the volts at which the electronics wake.",
            no="As the electronics wake they take {left}, and only {right} come through the resistor: it hangs there for ever. Switch the inverter off while it fills.",
        )
        if not passes.holds:
            end = limit("V_f", "Volts at which it hangs", 1 * self.wakes_at, V, OWN_DERIVATION)
            return (woken,), end, None
        lower, end = law.end_with_power(volts, self.resistor, self.standby_power)
        near = (volts - end < gap).holds
        time = law.time_with_power(volts, tau, lower, end, self.wakes_at, gap) if near else None
        return (woken,), end, time

    def _in_time(self, time: Quantity | None) -> tuple[Requirement, ...]:
        if time is None:
            return ()
        return (
            require(
                time <= self.allowed_time,
                label="Time",
                yes="It is full in time.",
                tight="It takes {left} of the {right} it has.",
                no="It takes {left} and has {right}: the contactor closes too early.",
            ),
        )

    def _naive(self, bare: Quantity, swung: Quantity, tau: Quantity) -> tuple[str, ...]:
        ohms_law = need("I_V", "Volts over resistance", self.highest_volts / self.resistance, A)
        top = need("V_t", "Top of the swing", 1 * swung, V)
        return (
            f"Five time constants would say {need('t_5', 'Five', FIVE * tau, s):up}, whatever stands by.",
            f"Closed without precharge it is not {ohms_law:up}, volts over resistance, but {bare:up}; and the capacitors swing to {top:up}, which may be above their own rating.",
        )

    fixes = (
        option("standby", NOTHING, "Switch the inverter off at its own switch while it fills"),
        less("resistor", 1 * ohm, "Use a resistor of {resistor}", costs="more amps and watts in it for a moment"),
        more("allowed_time", 0.5 * s, "Give it {allowed_time}"),
        more("pulse", 10 * J, "Use a resistor that stands {pulse} in one pulse"),
        less("residual", 0.1 * V, "Wait until only {residual} are missing", costs="it takes longer"),
        more("make", 50 * A, "Use a contactor that may close on {make}"),
    )
    cautions = (
        Caution(
            "WARNING",
            "A dc connector or switch opened under load draws an arc that does not go out by itself",
            "It burns hands and eyes and sets fire to the box",
            "Take all load off first; open dc only with a device made to break it",
        ),
        Caution(
            "WARNING",
            "The capacitors keep their charge when the battery is off",
            "A tool or a ring across the terminals is melted and thrown",
            "Wait as long as the manual says and let a qualified person verify that they are empty before anything is undone",
        ),
        Caution(
            "CAUTION",
            "A resistor held by hand, or left on, gets hot enough to burn in seconds",
            "Burned fingers, melted wires",
            "Mount it, guard it, and let a timer take it off",
        ),
    )
    examples = (
        Example(
            given={
                "highest_volts": "51.2 V",
                "capacitance": "20 mF",
                "resistor": "25 ohm",
                "standby": NOTHING,
                "residual": "1 V",
            }
            | {"allowed_time": "3 s", "pulse": "60 J", "resistance": "12 mohm", "inductance": "3 uH", "make": "500 A"},
            expect={
                "time": "1.97 s",
                "resistor_energy": "26.2 J",
                "resistor_peak_current": "2.05 A",
                "resistor_peak_power": "105 W",
            },
            verdict="go",
            source=OWN_DERIVATION.at("R·C·ln(V/gap), C·V²/2, V/R: textbook laws of a capacitor"),
        ),
        Example(
            given={"highest_volts": "51.2 V", "capacitance": "20 mF", "resistor": "25 ohm", "standby": RESISTIVE}
            | {"standby_power": "10.24 W", "residual": "2 V", "resistance": "12 mohm", "inductance": "3 uH"},
            expect={"final_volts": "46.6 V"},
            verdict="no",
            source=NGSPICE.at("operating point of 51.2 V over 25 Ω and 256 Ω"),
        ),
        Example(
            given={"highest_volts": "51.2 V", "capacitance": "20 mF", "resistor": "25 ohm", "standby": ELECTRONICS}
            | {"standby_power": "60 W", "wakes_at": "20 V", "residual": "2 V"},
            expect={"final_volts": "20 V"},
            verdict="no",
            source=NGSPICE.at("transient with a load of constant power from 20 V up"),
        ),
        Example(
            given={
                "highest_volts": "54 V",
                "capacitance": "20 mF",
                "resistance": "12 mohm",
                "inductance": "3 uH",
                "standby": NOTHING,
            },
            expect={"bare_current": "2432 A", "bare_volts": "63.2 V"},
            source=NGSPICE.at("transient of 54 V, 12 mΩ, 3 µH and 20 mF"),
        ),
    )
