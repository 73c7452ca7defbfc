"""The page /prove/efficiency/: watts out over watts in, held against the loss model of this inverter at that load.

What is measured so already contains the idle draw: it must not be taken off a second time.
"""

from __future__ import annotations

from calc.check import NO, Answer, Check, Example, answer, ask, ask_reading, require
from calc.checks import battery_side as side
from calc.checks.measured import QUALIFIED, likely, must_read
from calc.laws.inverter import losses, power_from_bank
from calc.quantity import OutsideValidity, Quantity, constant, limit, need, root, step
from calc.sources import COMMON_PRACTICE, IEC_61683, LOSS_MODEL, OWN_DERIVATION, Source
from calc.units import A, V, W, kW, per_W, percent

DRIVE_NOTE = Source("A measured inverter worked through, in a note on power analysers", "", "read in a public page")


class Efficiency(Check):
    """Is the inverter as efficient as its plate says?"""

    title = "Efficiency, measured"
    headline = "measured_efficiency"
    measures = {"best_efficiency": "best efficiency, measured"}

    watts_out: Quantity = ask_reading("P", "watts at the outlets", 2400 * W)
    dc_volts: Quantity = ask_reading("V_dc", "inverter volts, running", 51 * V)
    dc_amps: Quantity = ask_reading("I_dc", "inverter amps, running", 52.3 * A)
    continuous: Quantity = side.continuous()
    idle: Quantity = side.idle()
    peak_efficiency: Quantity = side.peak_efficiency()
    meters: Quantity = ask(
        "d_η",
        "What the three meters together may be off by",
        3 * percent,
        low=0.5 * percent,
        high=10 * percent,
        habit=True,
        common=(1 * percent, 3 * percent, 5 * percent),
        help="About 3 % with a clamp that was set to zero and a plug-in meter",
    )

    def solve(self) -> Answer:
        taken = need("P_in", "Power taken from the bank, measured", self.dc_volts * self.dc_amps, kW)
        measured = limit("η_m", "Efficiency, measured, idle draw and all", self.watts_out / taken, percent, IEC_61683)
        self._possible(measured)
        predicted = power_from_bank(self.watts_out, self.idle, self.peak_efficiency, self.continuous)
        expected = step(
            "η_x",
            "Efficiency that the loss model expects at this load",
            self.watts_out / predicted,
            percent,
            LOSS_MODEL,
        )
        short = step("Δη", "Percentage points short of that", expected - measured, percent, rounds=1)
        most = limit(
            "Δη_m", "Most that it may fall short, twice what the meters may be off by", 2 * self.meters, percent
        )
        held = [
            require(
                short <= most,
                comfortable=short <= self.meters,
                label="Efficiency",
                yes="It is as efficient as was expected.",
                tight=f"It gives {measured} where {expected} was expected: {short:up} short.",
                no=f"It gives {measured} where {expected} was expected; {{left}} short is more than the meters explain.",
            )
        ]
        return answer(
            *held,
            say=f"It gives {measured}; {expected} was expected at this load.",
            notes=likely(
                held,
                "volts read at the bank and not at the inverter's terminals: the cable's loss counts as the inverter's",
                "a clamp that was not set to zero",
                "a plug-in meter that reads amps times volts for a load with electronics",
                "another load on the bank: a heater, a pump, a controller",
                "a fan that runs all the time, or a hot inverter",
            )
            + self._reads_well(short)
            + ("This already contains its idle draw: do not take that off once more.",),
            measured_efficiency=measured,
            expected_efficiency=expected,
            shortfall=short,
            loss=need("P_v", "Heat in the inverter at this load", taken - self.watts_out, W),
            **self._best(taken),
        )

    def _possible(self, measured: Quantity) -> None:
        most = constant("η_99", "Most that any inverter gives", 99 * percent, COMMON_PRACTICE)
        if (measured > most).holds:
            raise OutsideValidity(
                f"The readings give {measured}: more than any inverter does. Set the clamp to zero, and read all three at the same moment."
            )

    def _reads_well(self, short: Quantity) -> tuple[str, ...]:
        if (short < -self.meters).holds:
            return ("It reads better than its plate: look for a clamp that was not set to zero before you believe it.",)
        return ()

    def _best(self, taken: Quantity) -> dict[str, Quantity]:
        """The best efficiency that this one reading means, by the same model; told at half load or more only."""
        half = constant(
            "k_h",
            "Least share of the rating at which one reading tells the best efficiency",
            40 * percent,
            COMMON_PRACTICE,
        )
        if (self.watts_out < half * self.continuous).holds:
            return {}
        a, _ = losses(self.idle, self.peak_efficiency, self.continuous)
        rest = step(
            "P_b", "Loss that is left for the square of the power", taken - self.idle - (1 + a) * self.watts_out, W
        )
        if rest.si <= 0:
            return {}
        b = step("b_m", "Loss that grows with the square, measured", rest / self.watts_out**2, per_W, OWN_DERIVATION)
        best = limit(
            "η_b", "Its best efficiency, by this reading", 1 / (1 + a + 2 * root(self.idle * b)), percent, LOSS_MODEL
        )
        return {"best_efficiency": best}

    fixes = (
        must_read(
            "dc_amps",
            0.5 * A,
            "Find what else draws from the bank, or the joint that loses it, and measure again: at these watts it must read {dc_amps} or less",
            down=True,
        ),
    )
    cautions = (QUALIFIED,)
    examples = (
        Example(
            given={
                "watts_out": "14205 W",
                "dc_volts": "700",
                "dc_amps": "21.5",
                "continuous": "15000",
                "idle": "120",
                "peak_efficiency": "95",
            },
            expect={"measured_efficiency": "94.39 %"},
            within=0.0002,
            verdict="go",
            source=DRIVE_NOTE.at("14,205 W out of 700.0 V times 21.50 A is 94.39 %"),
        ),
        Example(
            given={"watts_out": "2400 W", "dc_volts": "51.0", "dc_amps": "51.5", "continuous": "5000"},
            expect={"measured_efficiency": "91.4 %"},
            within=0.001,
            verdict="go",
            source=IEC_61683.at("output power over input power: 2400 W over 51.0 V times 51.5 A"),
        ),
        Example(
            given={"watts_out": "2400 W", "dc_volts": "51.0", "dc_amps": "56", "continuous": "5000"},
            verdict=NO,
            source=LOSS_MODEL.at("idle, proportional and resistive loss of a 5 kW inverter of 93 %"),
        ),
    )
