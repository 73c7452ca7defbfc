"""What must hold for a plan to be a go: the charge first, then what may run at one time."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from calc.check import Requirement, require
from calc.laws.inlet import power_for_charger
from calc.laws.inverter import SPLIT_PHASE, limit_of_one_leg
from calc.laws.outlet import volts_of
from calc.planning.course import Course, Run, on_busier_leg, total
from calc.planning.moments import EMPTY, at_clock, moments
from calc.planning.plan import Window
from calc.planning.sun_by_clock import POOR, TYPICAL
from calc.planning.worked_step import worked_step
from calc.quantity import Condition, OutsideValidity, Quantity, Statement, constant, limit, need, root, stepped
from calc.sources import COMMON_PRACTICE, LOSS_MODEL, OWN_DERIVATION
from calc.tables import table
from calc.units import V, W, kWh, one, percent

# Watts of each load or car that runs at one time.
Together = Sequence[tuple[Window, Quantity]]


def all_that_must_hold(course: Course, runs: Mapping[str, Run]) -> list[Requirement]:
    """Every requirement, the charge first."""
    busiest = max(_together(course), key=lambda loads: total(loads).si, default=())
    volts = _volts(course, busiest, runs[POOR])
    charge = _charge(runs, (worked_step(runs[TYPICAL]),))
    return [charge, *_inverter(course, busiest), *_legs(course), volts, *_wall(course)]


# --- the charge --------------------------------------------------------------------------------------------------


def spare(run: Run, rests_on: tuple[Quantity, ...]) -> Quantity:
    """The least that the charge stays above its floor; below zero by what is missing, where it runs out."""
    mark = run.kind[0]
    return stepped(
        f"x_{mark}", f"Charge to spare at its lowest, {run.kind} sun", run.spare, percent, rests_on, rounds=-1,
        note="below zero by the energy that is missing",
    )  # fmt: skip


def _charge(runs: Mapping[str, Run], rests_on: tuple[Quantity, ...]) -> Requirement:
    """Typical sun must carry it; poor sun with something to spare makes it a go."""
    typical, poor = runs[TYPICAL], runs[POOR]
    comfortable = constant("x_10", "Charge to spare with poor sun that is comfortable", 10 * percent, OWN_DERIVATION)
    least = constant("x_0", "Charge to spare that must be left", 0 * percent, OWN_DERIVATION)
    held = require(
        spare(typical, rests_on) >= least,
        comfortable=spare(poor, rests_on) >= comfortable,
        label="Charge",
        yes="It carries through, with poor sun as well.",
        tight=_tight(poor),
        no=f"With typical sun it is {_runs_out(typical)} are missing.",
    )
    # A share of nothing is no margin.
    return replace(held, use=None)


def _tight(poor: Run) -> str:
    if poor.unserved:
        return f"Typical sun carries it through; with poor sun it is {_runs_out(poor)} are missing."
    at = at_clock(poor.course.minute(poor.lowest + 1))
    return f"It carries through, but with poor sun little is left above what must stay: lowest at {at}."


def _runs_out(run: Run) -> str:
    empty = next((moment.say for moment in moments(run) if moment.what == EMPTY), EMPTY)
    return f"{empty}, and in all {Quantity(run.unserved, kWh):up}"


# --- what runs at one time ---------------------------------------------------------------------------------------


def _together(course: Course) -> Iterator[Together]:
    """What the inverter carries at one time, at each moment at which something begins or the outlet is left."""
    windows = course.plan.windows
    spans = [(window, *span) for window in windows for span in window.spans(course.days)]
    starts = sorted({begins for _, begins, _ in spans} | {ends for window, _, ends in spans if not window.is_taken})
    for minute in starts:
        now = [window for window, begins, ends in spans if begins <= minute < ends]
        if all(window.is_taken for window in now):
            yield [(window, window.watts) for window in now if window.watts is not None]


def _inverter(course: Course, loads: Together) -> Iterator[Requirement]:
    if not loads:
        return
    yield require(
        _most(loads) <= course.inverter[3],
        label="Loads together",
        yes="The inverter carries what runs at one time.",
        tight=f"{_names(loads)} together take {{left}} of the inverter's {{right}}.",
        no=f"{_names(loads)} together take {{left}}; the inverter gives {{right}}.",
    )


def _most(loads: Together) -> Quantity:
    return need("P_top", "Most that runs at one time", total(loads), W)


def _names(loads: Together) -> str:
    return " and ".join(dict.fromkeys(window.thing for window, _ in loads))


def _legs(course: Course) -> Iterator[Requirement]:
    """Of a split-phase inverter each leg carries its part; a load whose leg is not known counts on both."""
    if course.facts.text("inverter.system") != SPLIT_PHASE:
        return
    loads = max(_together(course), key=lambda loads: on_busier_leg(loads).si, default=())
    if not loads:
        return
    leg = limit_of_one_leg(course.inverter[3], course.facts.text("inverter.one_leg"))
    yield require(
        need("P_leg1", "Most on one leg at one time", on_busier_leg(loads), W) <= leg,
        label="One leg",
        yes="Each leg carries its part.",
        tight=f"{_names(loads)} put {{left}} on one leg, of its {{right}}.",
        no=f"{_names(loads)} put {{left}} on one leg; it gives {{right}}.",
    )


def _volts(course: Course, loads: Together, poor: Run) -> Requirement:
    """At the lowest charge with poor sun the largest load still has to find the volts."""
    idle, a, b, _ = course.inverter
    most = _most(loads) if loads else constant("P_top", "Most that runs at one time", 0 * W, OWN_DERIVATION)
    drawn = need("P_dct", "Power taken from the bank for it", idle + (1 + a) * most + b * most**2, W, LOSS_MODEL)
    lowest = poor.bank.charges[poor.lowest + 1]
    rest = stepped("V_ol", "Rest voltage at the lowest charge, poor sun", course.bank.rest_volts(lowest), V, (course.capacity,), rounds=-1)
    ohms = course.facts.number("R_b", "bank.resistance")
    under = rest**2 - 2 * 2 * ohms * drawn
    if under.si < 0:
        raise OutsideValidity(f"The bank cannot give {drawn} through {ohms} at any voltage.")
    left = limit("V_t", "Volts left at the inverter meanwhile", (rest + root(under)) / 2, V, OWN_DERIVATION)
    cutoff = course.facts.number("V_co", "inverter.cutoff")
    room = constant("k_co", "Room above the cut-off that is comfortable", 1.05 * one, COMMON_PRACTICE)
    return require(
        left >= cutoff,
        comfortable=left >= room * cutoff,
        label="Volts under the largest load",
        yes="The volts hold at the lowest charge.",
        tight="Under the largest load {left} are left at the lowest charge; it cuts off at {right}.",
        no="Under the largest load only {left} are left at the lowest charge; it cuts off at {right} with charge left.",
    )


# --- while the wall refills --------------------------------------------------------------------------------------


def _wall(course: Course) -> Iterator[Requirement]:
    """What runs while it is plugged in runs from the outlet: it must give the volts, and no less than they take."""
    outlets = [window for window in course.plan.windows if not window.is_taken]
    beside = [(outlet, loads) for outlet in outlets for loads in [_beside(course, outlet)] if loads]
    for outlet, loads in beside:
        if outlet.amps is not None and any(window.leg == "both" for window, _ in loads):
            yield _gives_240(outlet, loads)
    if beside:
        yield min((_fits(outlet, loads) for outlet, loads in beside), key=lambda held: -(held.use or 0))


def _beside(course: Course, outlet: Window) -> Together:
    """What runs at any time while this outlet refills, all of it counted together."""
    spans = list(outlet.spans(course.days))
    return [
        (window, window.watts)
        for window in course.plan.windows
        if window.watts is not None and window.is_taken
        if any(begins < end and start < ends for begins, ends in window.spans(course.days) for start, end in spans)
    ]


def _gives_240(outlet: Window, loads: Together) -> Requirement:
    gives = "240 V" in volts_of(outlet.thing)
    names = _names([(window, watts) for window, watts in loads if window.leg == "both"])
    says = f"A {outlet.thing} {'gives' if gives else 'has no'} 240 V, which passes to {names}"
    return require(
        Statement(says, gives, table("outlets").source),
        label=f"Volts, {outlet.name}",
        yes="The outlet gives the volts of what runs beside.",
        no=f"{says}: it does not run while this outlet refills.",
    )


def _fits(outlet: Window, loads: Together) -> Requirement:
    names = _names(loads)
    return require(
        _taken(outlet, loads),
        label=f"Tools beside the charger, {outlet.name}",
        yes="Something is left for the charger.",
        tight=f"{names} take {{left}} of the {{right}} that may be drawn: it hardly refills.",
        no=f"{names} take {{left}}; {{right}} may be drawn there: the outlet's breaker trips.",
    )


def _taken(outlet: Window, loads: Together) -> Condition:
    """What the tools take against what may be drawn: amps of the busier leg, or watts."""
    if outlet.amps is None:
        assert outlet.watts is not None
        return need("P_tw", "What the tools take", total(loads), W) <= outlet.watts
    _, taken = power_for_charger(outlet.thing, outlet.amps, on_busier_leg(loads), "w")
    return taken <= outlet.amps
