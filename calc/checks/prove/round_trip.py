"""The page /prove/round-trip/: kilowatt-hours out over kilowatt-hours in, as seen and with idling put back.

A rig that stands switched on between charge and discharge idles part of it away; that is no fault of the battery, and is
told apart. While it gives, its idle draw is part of the inverter's efficiency and is not put back.
"""

from __future__ import annotations

from calc.check import NO, Answer, Caution, Check, Example, answer, ask, ask_fact, ask_reading, pick, require
from calc.checks import battery_side as side
from calc.checks.measured import likely, must_read
from calc.laws.inverter import power_from_bank
from calc.quantity import OutsideValidity, Quantity, constant, limit, step
from calc.sources import COMMON_PRACTICE, LFP_SHEETS, LOSS_MODEL, OWN_DERIVATION, Source
from calc.units import W, h, kWh, percent

FULL_AGAIN, NOT_FULL = "full to full", "not to the same charge"
FLEET = Source(
    "Power Plant Operations Report, batteries of the public grid, round trip over months",
    "2019",
    "read in the national agency's summary",
)


class RoundTrip(Check):
    """Does what goes in come out again?"""

    title = "Round trip, measured"
    headline = "round_trip"

    energy_in: Quantity = ask_reading("E_in", "energy in at the wall", 11.2 * kWh)
    energy_out: Quantity = ask_reading("E_out", "energy out at the outlets", 8.9 * kWh)
    idled: Quantity = ask_reading("t_0", "hours on without load", 6 * h)
    charge: str = pick(
        "From what to what",
        (FULL_AGAIN, NOT_FULL),
        FULL_AGAIN,
        habit=True,
        help="Full, emptied to a fixed cut-off, and filled until it is full again",
    )
    power: Quantity = ask(
        "P", "Watts that it gave, on average", 1500 * W, low=50 * W, high=30_000 * W, habit=True,
        common=(500 * W, 1500 * W, 3000 * W), help="Energy out, divided by the hours it took",
    )  # fmt: skip
    charger_efficiency: Quantity = ask_fact("η_c", "inverter.charger_efficiency", 92 * percent)
    continuous: Quantity = side.continuous()
    idle: Quantity = side.idle()
    peak_efficiency: Quantity = side.peak_efficiency()

    def solve(self) -> Answer:
        seen = limit("η_s", "Round trip as it was seen", self.energy_out / self.energy_in, percent)
        away = step("E_0", "Idled away between", self.idle * self.idled, kWh)
        self._comparable(away)
        put_back = limit(
            "η_r",
            "Round trip with the idling put back",
            self.energy_out / (self.energy_in - away),
            percent,
            OWN_DERIVATION,
        )
        expected = self._expected()
        near = constant("d_3", "Percentage points that meters explain", 3 * percent, COMMON_PRACTICE)
        far = constant("d_8", "Percentage points short that need a cause", 8 * percent, COMMON_PRACTICE)
        held = [
            require(
                put_back >= limit("η_8", "The least", expected - far, percent),
                comfortable=put_back >= limit("η_3", "As expected, meters and all", expected - near, percent),
                label="Round trip",
                yes="What goes in comes out, less what it must lose.",
                tight=f"{{left}} comes out with idling put back; {expected} was expected.",
                no=f"{{left}} comes out with idling put back; {expected} was expected. More is lost than charger, battery and inverter lose.",
            )
        ]
        return answer(
            *held,
            say=f"{seen} came out as seen, {put_back} with the idling put back.",
            notes=likely(
                held,
                "it was not filled to the same charge, or balancing went on for hours",
                "it stood switched on longer than was counted",
                "a heater or a controller drew from the bank",
                "a charger that is poorer than its plate at this current",
                "cold cells, which lose more",
                "a joint or cable that is warm under load",
            )
            + ("Over months the batteries of the public grid give back 82 % (2019), air conditioning and all.",),
            round_trip=put_back,
            as_seen=seen,
            expected_round_trip=expected,
            idled_away=away,
        )

    def _comparable(self, away: Quantity) -> None:
        """What was not filled to the same charge, or gives more than went in, says nothing: OutsideValidity."""
        if self.charge == NOT_FULL:
            raise OutsideValidity(
                "Without the same charge at both ends nothing can be said: fill it, empty it, and fill it again."
            )
        if (self.energy_out >= self.energy_in - away).holds:
            raise OutsideValidity(
                "More comes out than is left of what went in: it began with more charge, or a meter is wrong."
            )

    def _expected(self) -> Quantity:
        taken = power_from_bank(self.power, self.idle, self.peak_efficiency, self.continuous)
        inverter = step("η_i", "Inverter at this load, idle draw and all", self.power / taken, percent, LOSS_MODEL)
        battery = constant("η_b", "Battery, charge and discharge at a few hours' rate", 96 * percent, LFP_SHEETS)
        return step(
            "η_x", "Round trip that is expected", self.charger_efficiency * battery * inverter, percent, OWN_DERIVATION
        )

    fixes = (
        must_read(
            "energy_out",
            0.1 * kWh,
            "Find what else draws, and test again: for this energy in it must give {energy_out} or more",
            down=False,
        ),
        must_read(
            "energy_in",
            0.1 * kWh,
            "Find what else draws, and test again: it must be full again after {energy_in} or less",
            down=True,
        ),
    )
    cautions = (
        Caution(
            "WARNING",
            "Charging an emptied bank in the cold plates lithium",
            "Cells short days later and can burn",
            "Test it warm, above 5 °C at the cells, and stay near while it fills",
        ),
    )
    examples = (
        Example(
            given={"energy_in": "100", "energy_out": "82", "idled": "0", "power": "1500"},
            expect={"as_seen": "82 %"},
            verdict="go",
            source=FLEET.at("82 % on average, month by month"),
        ),
        Example(
            given={"energy_in": "5.87", "energy_out": "4.49", "idled": "12 h", "idle": "55 W", "power": "1500"},
            expect={"as_seen": "76.5 %", "round_trip": "86.2 %"},
            within=0.002,
            verdict="go",
            source=OWN_DERIVATION.at(
                "76.5 % as seen; twelve hours at 55 W are 0.66 kWh that never reached the outlets"
            ),
        ),
        Example(
            given={"energy_in": "100", "energy_out": "65", "idled": "0", "power": "1500"},
            verdict=NO,
            source=FLEET.at("82 % on average: 65 % needs a cause"),
        ),
    )
