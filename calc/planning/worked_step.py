"""One step of the plan worked by hand, line by line: what the float kernel does ten minutes at a time.

The step in which most current flows, in or out, so that it shows what rules the plan. A test holds the kernel to its
last line.
"""

from __future__ import annotations

from calc.laws.battery import floor_in_the_cold, share_in_the_cold
from calc.laws.cells_in_air import a_step
from calc.laws.charging import charge_allowed
from calc.laws.open_circuit import rest_volts, slope_there
from calc.planning.course import Course, Run
from calc.planning.moments import at_clock
from calc.planning.sun_by_clock import STEP
from calc.quantity import Quantity, exponential, largest, root, smallest, step, stepped
from calc.sources import OWN_DERIVATION, SOLAR_DAY
from calc.units import A, W, degC, one, percent


def busiest(run: Run) -> int:
    """The step in which most current flows."""
    return max(range(len(run.net)), key=lambda index: abs(run.bank.amps[index]))


def worked_step(run: Run) -> Quantity:
    """The charge after the busiest step, worked from that before it."""
    index, course = busiest(run), run.course
    number = course.facts.number
    before = stepped(
        "q_b", f"Charge at {at_clock(course.minute(index))}, typical sun", run.bank.charges[index], percent,
        (number("q", "now.charge"), course.capacity),
    )  # fmt: skip
    net = _net(run, index)
    rest = rest_volts(course.facts.text("bank.chemistry"), before, number("N_s", "bank.series"))
    ohms, long = number("R_b", "bank.resistance"), a_step(STEP)
    if run.net[index] < 0:
        amps = _out(course, index, before, -net, rest, ohms, long)
        return step("q_a", "Charge after the step", before - amps * long / course.capacity, percent, OWN_DERIVATION)
    amps = _into(course, index, before, net, rest, ohms, long)
    return step("q_a", "Charge after the step", before + amps * long / course.capacity, percent, OWN_DERIVATION)


def _net(run: Run, index: int) -> Quantity:
    """Sun and outlet less loads and heater [W]; into the bank is positive."""
    course, (on, wall) = run.course, run.course.states[index]
    flows = course.from_wall(on, course.plan.windows[wall]) if wall is not None else -course.drawn(on)
    watts = course.cells[1][index]
    heat = stepped("P_H", "Heater's power in it", watts, W, _of_heater(course))
    if course.panels is None:
        return step("P_n", "Net power into the bank", flows - heat, W)
    sun = stepped("P_sun", "Power of the panels in it", run.sun[index], W, (course.panels,), SOLAR_DAY)
    return step("P_n", "Net power into the bank", sun + flows - heat, W)


def _of_heater(course: Course) -> tuple[Quantity, ...]:
    number = course.facts.number
    return (
        number("P_h", "bank.heater"), number("U", "bank.heat_loss"), number("m_b", "bank.mass"),
        number("θ_n", "plan.coldest"), number("θ_d", "plan.warmest"),
    )  # fmt: skip


def _cells(course: Course, index: int) -> Quantity:
    start = course.facts.number("θ_c", "now.cells")
    return stepped("θ_k", "Temperature of the cells in it", course.cells[0][index], degC, (start, *_of_heater(course)))


def _out(
    course: Course, index: int, before: Quantity, watts: Quantity, rest: Quantity, ohms: Quantity, long: Quantity
) -> Quantity:
    """The current that gives this power, as far as there is charge above the floor [A]."""
    asked = step("P_o", "Power out of the bank", watts, W)
    by_power = step(
        "I_p", "Current that gives it", 2 * asked / (rest + root(rest**2 - 2 * 2 * ohms * asked)), A, OWN_DERIVATION
    )
    reserve = course.facts.number("q_r", "bank.reserve")
    floor = floor_in_the_cold(reserve, share_in_the_cold(_cells(course, index)))
    there = step("I_f", "Current that would bring it to that charge", largest(before - floor, 0 * one) * course.capacity / long, A)
    return step("I_k", "Current in the step", smallest(by_power, there), A, OWN_DERIVATION)


def _into(
    course: Course, index: int, before: Quantity, watts: Quantity, rest: Quantity, ohms: Quantity, long: Quantity
) -> Quantity:
    """The current that this power drives in, as far as cells, volts and room allow [A]."""
    number, chemistry = course.facts.number, course.facts.text("bank.chemistry")
    by_power = step(
        "I_p", "Current by the power there is", 2 * watts / (rest + root(rest**2 + 2 * 2 * ohms * watts)), A, OWN_DERIVATION
    )
    rated = number("I_ch", "bank.charge_limit")
    one_string, _ = charge_allowed(chemistry, _cells(course, index), number("Q_s", "bank.capacity"), rated)
    allowed = step("I_b", "Charging current the bank allows", number("N_p", "bank.strings") * smallest(one_string, rated), A)
    most_volts = number("V_cv", "bank.highest_volts")
    falls = step(
        "x", "Time constants of the fall in one step",
        slope_there(chemistry, before, number("N_s", "bank.series")) * long / (ohms * course.capacity), one, OWN_DERIVATION,
    )  # fmt: skip
    mean = step("f_x", "Mean of the fall over its first value", (1 - exponential(-falls)) / falls, one, OWN_DERIVATION)
    by_volts = step("I_v", "Mean current by the highest volts", (most_volts - rest) / ohms * mean, A, OWN_DERIVATION)
    top = stepped("q_t", "Highest charge that these volts allow", course.bank.charge_at(most_volts.si), percent, (most_volts,))
    room = step("I_f", "Current that would fill it", (top - before) * course.capacity / long, A)
    return step("I_k", "Current in the step", largest(smallest(by_power, allowed, by_volts, room), 0 * A), A, OWN_DERIVATION)
