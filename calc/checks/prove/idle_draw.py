"""The page /prove/idle-draw/: what the inverter takes while it gives nothing, at one moment or over a night.

A few tenths of an amp lie in the noise of a clamp; amp-hours over eight hours or more tell more than one look.
"""

from __future__ import annotations

from calc.check import NO, Answer, Caution, Check, Example, answer, ask, ask_fact, ask_reading, pick, require
from calc.checks import battery_side as side
from calc.checks.measured import likely, must_read
from calc.quantity import OutsideValidity, Quantity, constant, limit, need, step
from calc.sources import COMMON_PRACTICE, IEC_61683, Source
from calc.units import A, Ah, V, W, day, h, kWh, kWh_per_day, one, percent

AT_ONCE, OVER_HOURS = "volts and amps at one moment", "amp-hours over a night"
STANDBY = Source("Standby consumption of inverters, a note of the trade", "", "read in a public page")
DIGITS = 5


class IdleDraw(Check):
    """Does the inverter idle as low as it should?"""

    title = "Idle draw, measured"
    headline = "measured_idle"
    measures = {"measured_idle": "idle draw, measured"}

    taken: str = pick(
        "Measured by",
        (AT_ONCE, OVER_HOURS),
        OVER_HOURS,
        habit=True,
        help="A night on the battery's monitor beats one look at a clamp",
    )
    volts: Quantity = ask_reading("V_i", "inverter volts, idling", 52.8 * V)
    amps: Quantity = ask_reading("I_i", "inverter amps, idling", 1.05 * A, when={"taken": (AT_ONCE,)})
    amp_hours: Quantity = ask_reading("Q_i", "amp-hours idled away", 10.5 * Ah, when={"taken": (OVER_HOURS,)})
    hours: Quantity = ask_reading("t_i", "hours idled", 10 * h, when={"taken": (OVER_HOURS,)})
    stated: Quantity = side.idle()
    bank_energy: Quantity = ask_fact("E_n", "bank.energy", 10.2 * kWh, common=(5.12 * kWh, 10.2 * kWh))
    last_digit: Quantity = ask(
        "d_I",
        "Least current that the clamp or monitor shows",
        0.1 * A,
        low=0.001 * A,
        high=1 * A,
        habit=True,
        common=(0.01 * A, 0.1 * A, 0.3 * A),
        help="A battery's monitor misses less than 0.1 to 0.3 A",
    )

    def solve(self) -> Answer:
        average = self._average()
        measured = need("P_m", "Idle draw, measured", self.volts * average, W, IEC_61683)
        a_day = constant("t_d", "A day", 1 * day, COMMON_PRACTICE)
        per_day = need("E_d", "Energy that it idles away in a day", measured, kWh_per_day)
        tenth = constant("k_10", "Times what is stated, still good", 1.1 * one, COMMON_PRACTICE)
        fourth = constant("k_25", "Times what is stated, at most", 1.25 * one, COMMON_PRACTICE)
        held = [
            require(
                measured <= limit("P_25", "Most that it should take", fourth * self.stated, W),
                comfortable=measured <= limit("P_10", "Still as stated", tenth * self.stated, W),
                label="Idle draw",
                yes="It idles as was expected.",
                tight=f"It takes {{left}} where {self.stated} was expected.",
                no=f"It takes {{left}} where {self.stated} was expected; {{right}} is the most. Something else draws as well.",
            )
        ]
        return answer(
            *held,
            say=f"It takes {measured:up} for nothing: {per_day:up}.",
            notes=likely(
                held,
                "something is still plugged in: a charger, a lamp with a remote control",
                "a heater, a pump or a controller on the bank itself",
                "its fan runs all the time",
                "sleep mode is off in its settings",
                "a shunt that was not set to zero",
            )
            + (
                "Under its last digit a shunt counts nothing: hold a night's amp-hours against what it takes to fill up again.",
            ),
            measured_idle=measured,
            per_day=per_day,
            share_of_bank=need("k_i", "Of the bank, each day", measured * a_day / self.bank_energy, percent),
            empties_in=limit("t_e", "A full bank is idled away in", self.bank_energy / measured, day),
        )

    def _average(self) -> Quantity:
        average = step("I_a", "Average current", self.amps if self.taken == AT_ONCE else self.amp_hours / self.hours, A)
        digits = constant("n_d", "Digits that a current must have to be worth reading", DIGITS * one, COMMON_PRACTICE)
        if (average < digits * self.last_digit).holds:
            raise OutsideValidity(
                f"{average} is too little for a meter that shows {self.last_digit} at the least. Use a finer one, or charge "
                "it full, let it idle, and read what it takes to be full again."
            )
        return average

    fixes = (
        must_read(
            "amps",
            0.05 * A,
            "Unplug everything, set the meter to zero, use sleep mode: it must read {amps} or less",
            down=True,
        ),
        must_read(
            "amp_hours",
            0.5 * Ah,
            "Unplug everything, set the monitor to zero, use sleep mode: in these hours it must count {amp_hours} or less",
            down=True,
        ),
    )
    cautions = (
        Caution(
            "WARNING",
            "An inverter that idles unseen empties the bank",
            "A bank left under its lowest volts for weeks is ruined, and charging it then can start a fire",
            "Switch the inverter off and open the bank's switch before it is left; look at its charge each month",
        ),
    )
    examples = (
        Example(
            given={"taken": AT_ONCE, "volts": "50", "amps": "0.8", "stated": "40", "bank_energy": "2 kWh"},
            expect={"measured_idle": "40 W", "per_day": "0.96 kWh/day", "share_of_bank": "48 %"},
            verdict="go",
            source=STANDBY.at("40 W for 24 h is 960 Wh, nearly half of a 2000 Wh battery"),
        ),
        Example(
            given={"taken": AT_ONCE, "volts": "55", "amps": "1", "stated": "55"},
            expect={"measured_idle": "55 W", "per_day": "1.32 kWh/day"},
            verdict="go",
            source=IEC_61683.at("no-load loss: volts times amps with the output open"),
        ),
        Example(
            given={"taken": AT_ONCE, "volts": "55", "amps": "1.5", "stated": "55"},
            verdict=NO,
            source=COMMON_PRACTICE.at("a quarter more than is stated: something else draws"),
        ),
    )
