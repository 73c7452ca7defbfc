"""The plan stepped through, ten minutes at a time: what flows in and out, and the bank's charge on each kind of day."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from functools import cached_property

from calc import sun
from calc.clock import MONTHS, day_of_year, month_of
from calc.facts.filling import COMPASS
from calc.facts.job import TYPED_HOURS
from calc.laws import cells_in_air, duty, stepping, warmth
from calc.laws.declination import declination_at
from calc.laws.inlet import power_for_charger
from calc.laws.inverter import losses
from calc.laws.open_circuit import stepped_bank
from calc.planning.plan import Facts, Plan, Window, has_panels, plan_of
from calc.planning.sun_by_clock import STEP, STEPS, Site
from calc.quantity import OutsideValidity, Quantity, given, largest, limit, need, smallest, step
from calc.sources import LOSS_MODEL
from calc.units import Ah, W, degC, degree, kWh_per_m2, one, percent

DAYS_AHEAD = 3
SECONDS = STEP * 60.0
NO_DATA = "There is no sun data near this place: type the sun hours in, as facts of the place."
ASSUMED = "assumed; common habit"

# What runs in a step: places of windows that take power, each with the part of the step that it covers.
On = tuple[tuple[int, float], ...]
# That, and the place of the window whose outlet refills; none for most steps.
State = tuple[On, int | None]


@dataclass
class Course:
    """A rig's plan, prepared for stepping. Everything that does not hang on the kind of day is worked once."""

    facts: Facts
    days: int = DAYS_AHEAD
    plan: Plan = field(init=False)

    def __post_init__(self) -> None:
        self.plan = plan_of(self.facts)

    # --- time ----------------------------------------------------------------------------------------------------

    @property
    def count(self) -> int:
        return self.days * STEPS

    def minute(self, index: int) -> int:
        """Minutes after the first midnight at which a step begins."""
        return self.plan.begins + index * STEP

    @cached_property
    def states(self) -> list[State]:
        """What runs in each step. The wall counts only where it covers the whole step."""
        on: list[On] = [()] * self.count
        wall: list[int | None] = [None] * self.count
        for window in self.plan.windows:
            for index, part in self._covered(window):
                if window.is_taken:
                    on[index] += ((window.place, part),)
                elif part == 1:
                    wall[index] = window.place
        return list(zip(on, wall, strict=True))

    def _covered(self, window: Window) -> Iterator[tuple[int, float]]:
        """The steps that a window touches, and the part of each that it covers."""
        for begins, ends in window.spans(self.days):
            begins, ends = begins - self.plan.begins, ends - self.plan.begins
            for index in range(max(0, begins // STEP), min(self.count, -(-ends // STEP))):
                yield index, (min(ends, (index + 1) * STEP) - max(begins, index * STEP)) / STEP

    # --- what the loads take and the wall gives ------------------------------------------------------------------

    @cached_property
    def inverter(self) -> tuple[Quantity, Quantity, Quantity, Quantity]:
        """Idle draw, best efficiency's two losses a and b, and the rating."""
        idle = self.facts.number("P₀", "inverter.idle")
        rating = self.facts.number("P_r", "inverter.continuous")
        a, b = losses(idle, self.facts.number("η", "inverter.peak_efficiency"), rating)
        return idle, a, b, rating

    def running(self, on: On) -> list[tuple[Window, Quantity]]:
        """The windows of a step that take power, and the part of the step that each runs."""
        return [(self.plan.windows[place], _share(self.plan.windows[place], part)) for place, part in on]

    def drawn(self, on: On) -> Quantity:
        """Power from the bank for what runs, the inverter's own included [W]."""
        idle, a, b, _ = self.inverter
        loads = [(window.watts, share) for window, share in self.running(on) if window.watts is not None]
        mean = duty.mean_power(loads)
        rms = duty.root_mean_square(loads, mean)
        return need("P_dc", "Power taken from the bank", idle + (1 + a) * mean + b * rms**2, W, LOSS_MODEL)

    def from_wall(self, on: On, wall: Window) -> Quantity:
        """Power into the bank from an outlet, what the tools take of it taken off [W]."""
        loads = [(window, window.watts * share) for window, share in self.running(on) if window.watts is not None]
        if wall.watts is not None:
            left = limit("P_ac", "Power left for the charger", largest(wall.watts - total(loads), 0 * W), W)
        else:
            assert wall.amps is not None
            left, _ = power_for_charger(wall.thing, wall.amps, on_busier_leg(loads))
        efficiency = self.facts.number("η_c", "inverter.charger_efficiency")
        volts = self.facts.number("V_b", "bank.nominal_volts")
        most = self.facts.number("I_cs", "inverter.charger_set") * volts
        return limit("P_in", "Power from the outlet into the bank", smallest(left * efficiency, most), W)

    @cached_property
    def flows(self) -> list[tuple[float, float]]:
        """Watts drawn from the bank for the loads, and watts that the wall offers it, in each step."""
        known: dict[State, tuple[float, float]] = {}
        for on, wall in dict.fromkeys(self.states):
            known[on, wall] = (
                (self.drawn(on).si, 0.0) if wall is None else (0.0, self.from_wall(on, self.plan.windows[wall]).si)
            )
        return [known[state] for state in self.states]

    # --- air, cells, heater --------------------------------------------------------------------------------------

    @cached_property
    def airs(self) -> list[float]:
        """Air temperature [K] in the middle of each step of a day, from midnight."""
        coldest, warmest = self.facts.number("θ_n", "plan.coldest"), self.facts.number("θ_d", "plan.warmest")
        if (coldest > warmest).holds:
            raise OutsideValidity(f"The coldest air of the night, {coldest}, is above the warmest of the day, {warmest}.")
        return [cells_in_air.air_at(coldest, warmest, (index + 1 / 2) * STEP) for index in range(STEPS)]

    def _by_day(self, of_a_day: list[float]) -> list[float]:
        """What is the same on each day, from the minute at which the plan begins."""
        begins = self.plan.begins // STEP
        return [of_a_day[(begins + index) % STEPS] for index in range(self.count)]

    @cached_property
    def cells(self) -> tuple[list[float], list[float]]:
        """The cells' temperature [K] at the start of each step and after the last; the heater's watts in each."""
        box = cells_in_air.Box(
            warmth.heat_capacity(self.facts.number("m_b", "bank.mass")).si,
            self.facts.number("U", "bank.heat_loss").si,
            self.facts.number("P_h", "bank.heater").si,
            cells_in_air.kept_at().si,
        )
        return box.through(self.facts.number("θ_c", "now.cells").si, self._by_day(self.airs), SECONDS)

    # --- the bank ------------------------------------------------------------------------------------------------

    @cached_property
    def capacity(self) -> Quantity:
        """What the bank holds, as much of it as is left of the nameplate [Ah]."""
        strings, each = self.facts.number("N_p", "bank.strings"), self.facts.number("Q_s", "bank.capacity")
        return step("Q", "Capacity of the bank", strings * each * self.facts.number("s", "bank.health"), Ah)

    @cached_property
    def bank(self) -> stepping.Bank:
        return stepped_bank(
            self.facts.text("bank.chemistry"),
            self.capacity,
            self.facts.number("R_b", "bank.resistance"),
            self.facts.number("N_s", "bank.series"),
        )

    @property
    def most_volts(self) -> float:
        """The volts that charger and controller hold at most [V]."""
        return self.facts.number("V_cv", "bank.highest_volts").si

    @cached_property
    def most_amps(self) -> list[float]:
        """The current that the cells take in each step [A]."""
        return cells_in_air.charging_limits(
            self.facts.text("bank.chemistry"),
            self.facts.number("Q_s", "bank.capacity"),
            self.facts.number("N_p", "bank.strings"),
            self.facts.number("I_ch", "bank.charge_limit"),
            self.cells[0][:-1],
        )

    @cached_property
    def floors(self) -> list[float]:
        """The charge below which nothing is given, in each step."""
        return cells_in_air.floors(self.facts.number("q_r", "bank.reserve"), self.cells[0][:-1])

    # --- the sun -------------------------------------------------------------------------------------------------

    @cached_property
    def panels(self) -> Quantity | None:
        """Rated watts of all panels [W]; None where the rig has none."""
        if not has_panels(self.facts.rig):
            return None
        count, watts = self.facts.number("N_pv", "panels.count"), self.facts.number("P_1", "panels.watts")
        return step("P_pv", "Rated watts of all panels", count * watts, W)

    @cached_property
    def site(self) -> Site | None:
        if self.panels is None:
            return None
        number = self.facts.number
        panel = sun.Panel(self.panels.si, number("γ", "panels.power_slope").si, lost().si)
        latitude, longitude = number("φ", "place.latitude"), number("λ", "place.longitude")
        heading = number("α", "panels.facing").number_in(degree)
        if self.facts.text("panels.heading_by") == COMPASS:
            heading += declination_at(latitude, longitude, self.facts.text("plan.date")).number_in(degree)
        plane = sun.Plane(number("β", "panels.tilt").number_in(degree), heading)
        offset = number("Δ_utc", "plan.utc_offset").si / 3600
        return Site(latitude.number_in(degree), longitude.number_in(degree), offset, panel, plane, self._typed_hours())

    def _typed_hours(self) -> tuple[float, float] | None:
        if self.facts.text("place.sun_from") != TYPED_HOURS:
            return None
        poor, typical = (self.facts.number(symbol, f"place.{name}") for symbol, name in (("H_10", "poor_sun_hours"), ("H_50", "sun_hours")))
        if (poor > typical).holds:
            raise OutsideValidity(f"The sun hours of a poor day, {poor}, are more than those of a typical one, {typical}.")
        return poor.number_in(kWh_per_m2), typical.number_in(kWh_per_m2)

    @cached_property
    def first_day(self) -> tuple[int, int]:
        """Month (0 for January) and day of the year on which the plan begins: by its date, else the month's mean day."""
        date = self.facts.text("plan.date")
        if date:
            return MONTHS.index(month_of(date)), day_of_year(date)
        month = MONTHS.index(self.facts.text("now.month"))
        return month, sun.MONTHS[month]

    def sun(self, kind: str) -> list[float]:
        """Watts that the panels offer in each step on days of this kind, as the controller lets them through."""
        if self.site is None:
            return [0.0] * self.count
        most = (self.facts.number("I_mc", "panels.controller_amps") * self.facts.number("V_b", "bank.nominal_volts")).si
        airs = tuple(kelvins - degC.offset for kelvins in self.airs)
        days: dict[tuple[int, int], list[float]] = {}
        for when in dict.fromkeys(self._dates):
            watts = self.site.watts(kind, *when, airs)
            if watts is None:
                raise OutsideValidity(NO_DATA)
            days[when] = [min(most, each) for each in watts]
        begins = self.plan.begins // STEP
        return [days[self._dates[(begins + index) // STEPS]][(begins + index) % STEPS] for index in range(self.count)]

    @cached_property
    def _dates(self) -> list[tuple[int, int]]:
        """Month and day of the year whose sun stands for each day: the first day's in its month, then each month's mean day."""
        month, day = self.first_day
        dates = []
        for ahead in range(self.days + 1):
            then = max(index for index, first in enumerate(_FIRST) if first <= (day + ahead - 1) % 365 + 1)
            dates.append((then, day if then == month and ahead < 31 else sun.MONTHS[then]))
        return dates

    # --- stepping ------------------------------------------------------------------------------------------------

    def run(self, kind: str) -> Run:
        """The charge through the plan on days of this kind."""
        offered = self.sun(kind)
        net = [light + wall - drawn - heat for light, (drawn, wall), heat in zip(offered, self.flows, self.cells[1], strict=True)]
        steps = zip(net, self.most_amps, self.floors, strict=True)
        start = self.facts.number("q", "now.charge").si
        return Run(kind, self, offered, net, stepping.march(self.bank, start, SECONDS, self.most_volts, steps))


_FIRST = (1, 32, 60, 91, 121, 152, 182, 213, 244, 274, 305, 335)


@dataclass
class Run:
    """The plan on one kind of day: the sun offered [W], the net power [W], and what became of the bank."""

    kind: str
    course: Course
    sun: list[float]
    net: list[float]
    bank: stepping.Course

    @cached_property
    def unserved(self) -> float:
        """Energy that was wanted and not there [J]; what binary fractions leave over counts as nothing."""
        short = sum(self.bank.short) * SECONDS
        return short if short > _HARDLY else 0.0

    @cached_property
    def spare(self) -> float:
        """The least that the charge stays above its floor; below zero by what is missing, where it runs out."""
        if self.unserved:
            return -self.unserved / (self.course.facts.number("E_n", "bank.energy").si)
        return min(after - floor for after, floor in zip(self.bank.charges[1:], self.course.floors, strict=True))

    def charge_shown(self, index: int) -> Quantity:
        """A charge of the plan, for a sentence."""
        return Quantity(self.bank.charges[index], percent)

    @cached_property
    def lowest(self) -> int:
        """The step at whose end the charge is lowest."""
        return min(range(len(self.net)), key=lambda index: self.bank.charges[index + 1])

    @cached_property
    def sun_not_taken(self) -> float:
        """Energy of the sun that found no room [J]: the outlet gives way to the sun."""
        return SECONDS * sum(
            max(0.0, spilled - wall) for spilled, (_, wall) in zip(self.bank.spilled, self.course.flows, strict=True)
        )

    @cached_property
    def wall_taken(self) -> float:
        """Energy that outlets gave into the bank [J]."""
        return SECONDS * sum(
            wall - min(spilled, wall) for spilled, (_, wall) in zip(self.bank.spilled, self.course.flows, strict=True)
        )

    @cached_property
    def cells_refuse(self) -> bool:
        """Whether there is ever something on offer while the cells are too cold or too hot to take any."""
        return any(most == 0 and net > 0 for most, net in zip(self.course.most_amps, self.net, strict=True))

    @cached_property
    def sun_taken(self) -> float:
        """Energy that the sun gave [J]."""
        return SECONDS * sum(self.sun) - self.sun_not_taken


_HARDLY = 1.0  # joules that binary fractions may leave over in three days


def lost() -> Quantity:
    """What dirt, wires and controller take of the panels' power [-]."""
    return given("ℓ_pv", "Lost in dirt, wires and controller", 14 * percent, ASSUMED)


def _share(window: Window, part: float) -> Quantity:
    """The part of a step that a load runs: its share of the window, where the window covers the whole step."""
    assert window.share is not None
    if part == 1:
        return window.share
    k = window.place + 1
    covered = given(f"w_L{k}", f"Part of the step that the window covers, {window.name}", part * one, "by the clock")
    return step(f"d'_L{k}", f"Part of the step that it runs, {window.name}", window.share * covered, one)


def total(loads: Sequence[tuple[Window, Quantity]]) -> Quantity:
    """Watts of loads together."""
    return sum((watts for _, watts in loads[1:]), loads[0][1]) if loads else 0 * W


def on_busier_leg(loads: Sequence[tuple[Window, Quantity]]) -> Quantity:
    """Watts on the busier leg: half of each 240 V load, and each whose leg is not known."""
    legs = [
        total([(window, watts / 2 if window.leg == "both" else watts) for window, watts in loads if window.leg in (leg, "both", "")])
        for leg in ("A", "B")
    ]
    return largest(*legs)
