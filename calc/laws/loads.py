"""Which loads may run together from one inverter, in which order they start, and on which leg each hangs.

A search over all combinations: exact up to twelve loads. Above that it takes loads in the order given and says that
it is not exact; what it offers then still stands, but a larger set or a smaller neutral may exist.

The search runs on plain numbers in volt-amperes; what it finds is worked again, line by line, by the check that asks.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property, lru_cache

EXACT_UP_TO = 12
_HAIR = 1e-9


@dataclass(frozen=True)
class Load:
    """run, start: volt-amperes while it runs and at the moment it starts. two_legs: a 240 V load on both legs."""

    run: float
    start: float
    two_legs: bool = False

    @property
    def surplus(self) -> float:
        """What its start takes beyond its running."""
        return max(self.start - self.run, 0.0)


@dataclass(frozen=True)
class Supply:
    """What the inverter gives, in volt-amperes. leg, leg_surge: of one leg; None where nothing hangs on legs.

    already: what runs besides; where it hangs is not known, so it counts on each leg.
    in_order: loads start once, one after the other; otherwise any of them may start while all others run.
    """

    continuous: float
    surge: float
    leg: float | None = None
    leg_surge: float | None = None
    already: float = 0.0
    in_order: bool = False


@dataclass(frozen=True)
class Legs:
    """One way to hang the loads: which of the list are on leg A and on leg B, and the difference in the neutral [VA]."""

    on_a: tuple[int, ...]
    on_b: tuple[int, ...]
    fits: bool
    neutral: float
    peak: float


@dataclass(frozen=True)
class Together:
    """The search. Loads are named by their place in the list, from 0."""

    loads: tuple[Load, ...]
    supply: Supply

    @property
    def exact(self) -> bool:
        return len(self.loads) <= EXACT_UP_TO

    @cached_property
    def maximal_sets(self) -> tuple[tuple[int, ...], ...]:
        """The sets that may run together and to which no other load may be added, the largest power first."""
        found = self._all_maximal() if self.exact else self._some_maximal()
        return tuple(sorted(found, key=lambda chosen: (-sum(self.loads[i].run for i in chosen), chosen)))

    def start_order(self, chosen: Iterable[int]) -> tuple[int, ...]:
        """The order in which the worst moment is least: the largest surplus first, while little else runs."""
        return tuple(sorted(chosen, key=lambda i: (-self.loads[i].surplus, i)))

    def may_run(self, chosen: Sequence[int]) -> bool:
        """Whether these may run together: continuous, the worst start, and some way to hang them on the legs."""
        run, peak = self._run_and_peak(chosen, half=False)
        if run > self.supply.continuous + _HAIR or peak > self.supply.surge + _HAIR:
            return False
        return self.supply.leg is None or next((True for legs in self._ways(chosen) if legs.fits), False)

    def best_legs(self, chosen: Sequence[int], count: int) -> tuple[Legs, ...]:
        """The best ways to hang these: those that fit first, then the least neutral, then the least worst start."""
        ways = self._ways(chosen) if self._few(chosen) else self._greedy_way(chosen)
        return tuple(sorted(ways, key=lambda legs: (not legs.fits, legs.neutral, legs.peak, legs.on_a))[:count])

    # --- sums -----------------------------------------------------------------------------------------------------

    def _run_and_peak(self, chosen: Sequence[int], half: bool) -> tuple[float, float]:
        """Volt-amperes while all run, and at the worst start; half: of one leg, which bears half of a 240 V load."""
        parts = [2 if half and self.loads[i].two_legs else 1 for i in chosen]
        rows = [(self.loads[i].surplus / part, self.loads[i].run / part) for i, part in zip(chosen, parts, strict=True)]
        run = self.supply.already + sum(row[1] for row in rows)
        if not self.supply.in_order:
            return run, run + max((surplus for surplus, _ in rows), default=0.0)
        before, peak = self.supply.already, self.supply.already
        for surplus, load in sorted(rows, reverse=True):
            before += load
            peak = max(peak, before + surplus)
        return run, peak

    def _leg_fits(self, chosen: Sequence[int]) -> tuple[bool, float]:
        assert self.supply.leg is not None and self.supply.leg_surge is not None
        run, peak = self._run_and_peak(chosen, half=True)
        return run <= self.supply.leg + _HAIR and peak <= self.supply.leg_surge + _HAIR, peak

    # --- legs -----------------------------------------------------------------------------------------------------

    def _few(self, chosen: Sequence[int]) -> bool:
        return sum(not self.loads[i].two_legs for i in chosen) <= EXACT_UP_TO

    def _ways(self, chosen: Sequence[int]) -> Iterator[Legs]:
        """Every way to hang these; two that are mirror images count once: the first one is on leg A."""
        fits = lru_cache(maxsize=None)(self._leg_fits)
        both = tuple(i for i in chosen if self.loads[i].two_legs)
        single = tuple(i for i in chosen if not self.loads[i].two_legs)
        for pattern in range(2 ** max(len(single) - 1, 0)):
            on_b = tuple(i for bit, i in enumerate(single[1:]) if pattern >> bit & 1)
            on_a = tuple(i for i in single if i not in on_b)
            yield self._legs(on_a, on_b, fits(tuple(sorted(on_a + both))), fits(tuple(sorted(on_b + both))))

    def _greedy_way(self, chosen: Sequence[int]) -> list[Legs]:
        """The heaviest first, each onto the lighter leg: good, not proven best."""
        both = tuple(i for i in chosen if self.loads[i].two_legs)
        sides: tuple[list[int], list[int]] = ([], [])
        for i in sorted((i for i in chosen if i not in both), key=lambda i: -self.loads[i].run):
            min(sides, key=lambda side: sum(self.loads[j].run for j in side)).append(i)
        on_a, on_b = (tuple(sorted(side)) for side in sides)
        return [self._legs(on_a, on_b, self._leg_fits(on_a + both), self._leg_fits(on_b + both))]

    def _legs(self, on_a: tuple[int, ...], on_b: tuple[int, ...], a: tuple[bool, float], b: tuple[bool, float]) -> Legs:
        neutral = abs(sum(self.loads[i].run for i in on_a) - sum(self.loads[i].run for i in on_b))
        return Legs(on_a, on_b, a[0] and b[0], neutral, max(a[1], b[1]))

    # --- sets -----------------------------------------------------------------------------------------------------

    def _all_maximal(self) -> list[tuple[int, ...]]:
        """Larger sets first: what lies within one that may run is not maximal, and need not be tried."""
        everything = range(len(self.loads))
        subsets = [tuple(i for i in everything if mask >> i & 1) for mask in range(1, 2 ** len(self.loads))]
        found: list[set[int]] = []
        for subset in sorted(subsets, key=len, reverse=True):
            if not any(larger.issuperset(subset) for larger in found) and self.may_run(subset):
                found.append(set(subset))
        return [tuple(sorted(members)) for members in found]

    def _some_maximal(self) -> list[tuple[int, ...]]:
        """From each load in turn, the others added in the order given for as long as all may run."""
        found: set[tuple[int, ...]] = set()
        for first in range(len(self.loads)):
            members: tuple[int, ...] = ()
            for other in (first, *(i for i in range(len(self.loads)) if i != first)):
                if self._may_run_as_hung(grown := tuple(sorted((*members, other)))):
                    members = grown
            if members:
                found.add(members)
        return list(found)

    def _may_run_as_hung(self, chosen: tuple[int, ...]) -> bool:
        if self._few(chosen):
            return self.may_run(chosen)
        run, peak = self._run_and_peak(chosen, half=False)
        fits = self.supply.leg is None or self._greedy_way(chosen)[0].fits
        return run <= self.supply.continuous + _HAIR and peak <= self.supply.surge + _HAIR and fits
