"""The page /run/loads-together/: which of up to six loads may run at once, in which order, on which leg.

The inverter feeds them, or the wall by way of the inlet: then the least of breaker, inlet and relay rules. Every combination is tried. A load that starts by itself (a pressure switch, a thermostat) may do so while all the
others run, so the worst start counts, not the first one.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import reduce

from calc.check import (
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
    each,
    how_many,
    less,
    option,
    pick,
    pick_fact,
    require,
)
from calc.laws import load_source
from calc.laws.inverter import SPLIT_PHASE
from calc.laws.load_source import LoadSource
from calc.laws.loads import Legs, Load, Supply, Together
from calc.laws.outlet import FED_BY, INVERTER, WALL
from calc.quantity import Quantity, constant, largest, need
from calc.sources import ANSI_C84_1, COMMON_PRACTICE, NEC_2023, OWN_DERIVATION
from calc.units import VA, A, V, W, percent

COUNTS = ("1", "2", "3", "4", "5", "6")
ALONE, PASSING = {"fed_by": (INVERTER,)}, {"fed_by": (WALL,)}
BY_ITSELF, IN_ORDER = "any of them may start by itself", "by hand, one after the other"
RUN_HELP = "Watts or volt-amperes on its plate, the larger; 0 for not there"
VOLTS_HELP = "On its plate; 120 V hangs on one leg, 240 V on both"
FOUR = {
    "run_1": "1500", "start_1": "6000", "run_2": "1800", "start_2": "5400",
    "run_3": "200", "start_3": "200", "run_4": "1440", "start_4": "1440",
    "continuous": "5000", "surge": "10000",
}  # fmt: skip
PLAN = OWN_DERIVATION.at("every combination was tried")


def _off(k: str) -> Callable[[Check], Iterator[Change]]:
    """The change that leaves one load off."""

    def changes(check: Check) -> Iterator[Change]:
        if check.asked(f"run_{k}") and getattr(check, f"run_{k}").si:
            yield {f"run_{k}": 0 * VA, f"start_{k}": 0 * VA}

    return changes


class LoadsTogether(Check):
    """Which loads may run together, and in which order do I start them?"""

    title = "Loads together"
    headline = "total_running"

    count: str = how_many("loads", "How many loads", COUNTS, "4", "Those that might run at the same time, six at most")
    each_load = each(
        "loads",
        "count",
        COUNTS,
        run=ask_fact("P", "loads.running_watts", 1000 * VA, help=RUN_HELP),
        start=ask_fact("S", "loads.start_power", 1500 * VA),
        volts=pick_fact(
            "loads.volts",
            "120 V",
            ("120 V", "240 V"),
            rules=(NEC,),
            when=({"system": (SPLIT_PHASE,)}, {"fed_by": (WALL,)}),
            help=VOLTS_HELP,
        ),
    )
    starts: str = pick(
        "How they start",
        (BY_ITSELF, IN_ORDER),
        BY_ITSELF,
        habit=True,
        help="A compressor, fridge or pump starts by itself; then the first is the answer",
    )
    fed_by: str = pick_fact(
        "now.plugged_into",
        INVERTER,
        (INVERTER, WALL),
        label="What feeds the outlet",
        help="Plugged in, the wall feeds them through the inlet, and the bank only helps where the manual says so",
        means=FED_BY,
        habit=True,
    )
    continuous: Quantity = ask_fact(
        "P_r", "inverter.continuous", 5000 * VA, when=ALONE, common=(3000 * VA, 5000 * VA, 6000 * VA)
    )
    surge: Quantity = ask_fact("P_s", "inverter.surge", 10_000 * VA, when=ALONE)
    system: str = pick_fact("inverter.system", SPLIT_PHASE, rules=(NEC,), when=ALONE)
    one_leg: str = pick_fact("inverter.one_leg", "no", rules=(NEC,), when={"system": (SPLIT_PHASE,)})
    inlet: str = pick_fact("inlet.configuration", "L5-30", rules=(NEC,), when=PASSING)
    inlet_rating: Quantity = ask_fact("I_in", "inlet.rating", 30 * A, when=PASSING)
    inlet_breaker: Quantity = ask_fact("I_W", "inlet.breaker", 30 * A, when=PASSING)
    relay: Quantity = ask_fact("I_rel", "inverter.pass_through", 50 * A, when=PASSING)
    running: Quantity = ask_fact(
        "S_x", "now.running", 0 * W, habit=True, help="What runs besides, a charger or lights: the sum of their watts"
    )

    def solve(self) -> Answer:
        there, source = self._there(), self._source()
        total = need("P_all", "All of them running", self.running + self._sum(self._run(k) for k in there), VA)
        worst = self._worst_start(total)
        return answer(
            *(rest for k in there for rest in source.gives(self._volts(k), str(k))),
            require(
                total <= source.whole,
                comfortable=source.easy(total, source.whole),
                label="While they run",
                yes=f"{source.name} carries them all.",
                tight=f"{source.name} is asked for {{left}} of its {{right}}.",
                no=f"Together they ask {{left}}; {source.name[0].lower()}{source.name[1:]} gives {{right}} and {source.gives_up}.",
            ),
            require(
                worst <= source.surge,
                label="At the worst start",
                yes=f"{source.name} carries the worst start.",
                tight="The worst start asks {left} of its {right}.",
                no=f"The worst start asks {{left}}; {source.name[0].lower()}{source.name[1:]} gives {{right}} for a moment and {source.gives_up}.",
            ),
            *self._legs(source),
            say=f"All {len(there)} may run together: {total:up}, and {worst:up} at the worst start.",
            notes=self._naive(worst),
            total_running=total,
            worst_start=worst,
            share_used=need("u_run", "Share in use of what feeds them", total / source.whole, percent),
        )

    # --- what is there --------------------------------------------------------------------------------------------

    def _run(self, k: int) -> Quantity:
        return getattr(self, f"run_{k}")  # type: ignore[no-any-return]

    def _start(self, k: int) -> Quantity:
        return getattr(self, f"start_{k}")  # type: ignore[no-any-return]

    def _there(self) -> tuple[int, ...]:
        """The loads that are there at all: by their number on the form."""
        asked = range(1, int(self.count) + 1)
        return tuple(k for k in asked if self._run(k).si or self._start(k).si)

    def _two_legs(self, k: int) -> bool:
        return not self._on_legs() or getattr(self, f"volts_{k}") == "240 V"

    def _volts(self, k: int) -> str:
        return str(getattr(self, f"volts_{k}")) if self.rules == NEC else "230 V"

    def _source(self) -> LoadSource:
        if self.fed_by == WALL:
            pattern = self.inlet if self.rules == NEC else None
            return load_source.inlet(pattern, self.inlet_breaker, self.inlet_rating, self.relay)
        if self.rules == NEC:
            return load_source.inverter(self.continuous, self.surge, self.system, self.one_leg, by_legs=True)
        return load_source.inverter(self.continuous, self.surge, "230 V", "no", by_legs=False)

    def _on_legs(self) -> bool:
        return self._source().leg is not None

    def _sum(self, parts: Iterator[Quantity]) -> Quantity:
        return reduce(lambda left, right: left + right, parts, 0 * VA)

    def _together(self) -> Together:
        loads = tuple(
            Load(self._run(k).number_in(VA), self._start(k).number_in(VA), self._two_legs(k)) for k in self._there()
        )
        source = self._source()
        return Together(
            loads,
            Supply(
                source.whole.number_in(VA),
                source.surge.number_in(VA),
                source.leg.number_in(VA) if source.leg is not None else None,
                source.leg_surge.number_in(VA) if source.leg_surge is not None else None,
                self.running.number_in(VA),
                self.starts == IN_ORDER,
            ),
        )

    # --- the worst start ------------------------------------------------------------------------------------------

    def _worst_start(self, total: Quantity) -> Quantity:
        there = self._there()
        if not there:
            return need("S_w", "Worst start", total, VA)
        if self.starts == BY_ITSELF:
            surplus = need(
                "S_d",
                "Largest surplus of a start over its running",
                largest(0 * VA, *(self._start(k) - self._run(k) for k in there)),
                VA,
            )
            return need("S_w", "Worst start: that load last, while all others run", total + surplus, VA)
        before, moments = self.running + 0 * VA, []
        for place, k in enumerate(self._order(), start=1):
            moments.append(need(f"M_{place}", f"Start number {place}: load {k}", before + self._start(k), VA))
            before = before + self._run(k)
        return need("S_w", "Worst start in this order", largest(total, *moments), VA)

    def _order(self) -> tuple[int, ...]:
        there = self._there()
        return tuple(there[i] for i in self._together().start_order(range(len(there))))

    # --- legs -----------------------------------------------------------------------------------------------------

    def _legs(self, source: LoadSource) -> tuple[Requirement, ...]:
        """Each leg, with the loads hung as well as they can be; what runs besides counts on both, not knowing where."""
        there = self._there()
        if source.leg is None or source.leg_surge is None or not there:
            return ()
        best = self._together().best_legs(range(len(there)), 1)[0]
        rests = []
        for name, places in (("A", best.on_a), ("B", best.on_b)):
            on = tuple(there[i] for i in places)
            run, peak = self._leg_run_and_peak(name, on)
            held = f"Leg {name} with load {_listed(on)}" if on else f"Leg {name}"
            rests.append(
                require(
                    run <= source.leg,
                    comfortable=source.easy(run, source.leg),
                    label=f"Leg {name} while they run",
                    yes="The leg carries it.",
                    tight=f"{held} asks {{left}} of its {{right}}.",
                    no=f"{held} asks {{left}}; one leg gives {{right}}, however the loads are hung.",
                )
            )
            rests.append(
                require(
                    peak <= source.leg_surge,
                    label=f"Leg {name} at the worst start",
                    yes="The leg carries its worst start.",
                    tight=f"{held} asks {{left}} of {{right}} at its worst start.",
                    no=f"{held} asks {{left}} at its worst start; one leg gives {{right}} for a moment.",
                )
            )
        return tuple(rests)

    def _leg_run_and_peak(self, name: str, on: tuple[int, ...]) -> tuple[Quantity, Quantity]:
        both = tuple(k for k in self._there() if self._two_legs(k))
        shares = {k: self._run(k) for k in on} | {k: self._run(k) / 2 for k in both}
        starts = {k: self._start(k) for k in on} | {k: self._start(k) / 2 for k in both}
        run = need(f"L_{name}", f"Leg {name} while they run", self.running + self._sum(iter(shares.values())), VA)
        if self.starts == BY_ITSELF:
            surplus = largest(0 * VA, *(starts[k] - shares[k] for k in shares))
            return run, need(f"K_{name}", f"Leg {name} at its worst start", run + surplus, VA)
        before, moments = self.running + 0 * VA, [run]
        for k in sorted(shares, key=lambda k: (shares[k] - starts[k]).si):
            moments.append(before + starts[k])
            before = before + shares[k]
        return run, need(f"K_{name}", f"Leg {name} at its worst start", largest(*moments), VA)

    # --- in words -------------------------------------------------------------------------------------------------

    def found_by_trial(self) -> dict[str, Named]:
        """The sets that may run, the order and the legs: each combination was tried."""
        there, search = self._there(), self._together()
        sets = [tuple(there[i] for i in chosen) for chosen in search.maximal_sets]
        said = {
            "sets": Named(
                "; or ".join(_listed(chosen) for chosen in sets) or "none",
                "Loads that may run together, no other added",
                "found by trial: every combination was tried",
                PLAN,
            ),
            "start_order": Named(
                ", then ".join(str(k) for k in self._order()) or "none",
                "Start them in this order",
                "what takes most beyond its running comes first, while little else runs",
                OWN_DERIVATION,
            ),
        }
        if self._on_legs() and there:
            ways = search.best_legs(range(len(there)), len(("best", "second", "third")))
            said["legs"] = Named(
                "; or ".join(self._hung(way) for way in ways),
                "Best ways to hang them on the legs",
                "the least current in the neutral first; found by trial: every way was tried",
                PLAN,
            )
        return said

    def _hung(self, way: Legs) -> str:
        there = self._there()
        volts = constant("V_leg", "Nominal volts of a leg", 120 * V, ANSI_C84_1)
        neutral = need("I_N", "Neutral", (way.neutral * VA) / volts, A)
        sides = (
            f"{name}: {_listed([there[i] for i in on]) or 'nothing'}" for name, on in (("A", way.on_a), ("B", way.on_b))
        )
        return f"{', '.join(sides)} (neutral {neutral:up}{'' if way.fits else ', too much for a leg'})"

    def _naive(self, worst: Quantity) -> tuple[str, ...]:
        there = self._there()
        if not there or self.starts == IN_ORDER:
            return ()
        first = self._order()[0]
        return (
            f"Starting load {first} first is good practice, but if it stops and starts again by itself it meets all the "
            f"others running: {worst:up}, and that is what counts here.",
        )

    fixes = (
        *(Fix(f"Leave load {k} off", _off(k)) for k in reversed(COUNTS)),
        option("fed_by", INVERTER, "Pull the plug and run them from the inverter"),
        option("starts", IN_ORDER, "Start them by hand, one after the other, with nothing that starts by itself"),
        less("running", 50 * W, "Switch off what runs besides, down to {running}"),
    )
    cautions = (
        Caution(
            "WARNING",
            "A tool that stops because the inverter switched off starts again when the power comes back",
            "A blade or drill that starts by itself cuts a hand",
            "Switch every tool off before the inverter is switched on again",
        ),
        Caution(
            "CAUTION",
            "Plugged in, what runs on the rig hangs on a breaker in the building",
            "It opens where you cannot reset it, and others lose their light",
            "Start the hard ones unplugged, or with the bank's support switched on where the manual offers it",
            only=lambda check: check.fed_by == WALL,
        ),
        Caution(
            "NOTICE",
            "A car or a charger is the cheapest load to shed",
            "It loses some minutes; a saw that stalls under load may burn",
            "Turn the charger down before a large motor is started",
        ),
    )
    examples = (
        Example(
            given={"count": "4", "starts": BY_ITSELF, "system": "240 V"} | FOUR,
            expect={"total_running": "4940 VA", "worst_start": "9440 VA"},
            verdict="tight",
            source=COMMON_PRACTICE.at("the load started last meets the others running: 3440 and 6000 VA"),
        ),
        Example(
            given={"count": "4", "starts": BY_ITSELF, "system": "240 V"} | FOUR | {"run_4": "0", "start_4": "0"},
            expect={"total_running": "3500 VA", "worst_start": "8000 VA"},
            verdict="go",
            source=COMMON_PRACTICE.at("the same without the charger"),
        ),
        Example(
            given={"count": "4", "starts": IN_ORDER, "system": "240 V"} | FOUR,
            expect={"worst_start": "6900 VA"},
            verdict="tight",
            source=OWN_DERIVATION.at("in the best order the second start, 5400 VA beside 1500 VA, is the worst"),
        ),
        Example(
            given={"count": "2", "run_1": "1500", "start_1": "1500", "run_2": "1440", "start_2": "1440"}
            | {"fed_by": WALL, "inlet": "L5-30", "inlet_rating": "30", "inlet_breaker": "20"},
            expect={"total_running": "2940 VA"},
            verdict="no",
            source=NEC_2023.at("210.23: all loads of a circuit count; 2940 VA at 120 V are 24.5 A on 20 A"),
        ),
        Example(
            given={"count": "2", "run_1": "1500", "start_1": "1500", "run_2": "1440", "start_2": "1440"}
            | {"fed_by": WALL, "inlet": "14-30", "inlet_rating": "30", "inlet_breaker": "30"},
            verdict="go",
            source=NEC_2023.at("210.20(A): 12.5 A and 12 A on two legs of 30 A"),
        ),
        Example(
            given={"count": "2", "run_1": "5400", "start_1": "5400", "run_2": "0", "start_2": "0"}
            | {"volts_1": "120 V", "continuous": "10000", "surge": "20000", "one_leg": "no"},
            verdict="no",
            source=ANSI_C84_1.at("two legs of 120 V: 10 kVA over both is 5000 VA on one"),
        ),
    )


def _listed(loads: tuple[int, ...] | list[int]) -> str:
    return " + ".join(str(k) for k in loads)
