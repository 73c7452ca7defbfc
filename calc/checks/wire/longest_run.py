"""The page /wire/longest-run/: how far a wire reaches before too many volts are lost on it.

The sums are those of the page on wire for a run, turned round: at the length told here that page says as much as one
accepts, and a step farther it says no. A wire that cannot carry the load at all goes nowhere, at any length.
"""

from __future__ import annotations

from collections.abc import Iterator

from calc.check import (
    NEC,
    NO,
    NOT_KNOWN,
    Answer,
    Caution,
    Change,
    Check,
    Example,
    Fix,
    Named,
    answer,
    less,
    next_option,
    option,
    pick_fact,
    require,
)
from calc.checks import branch_wiring as wiring
from calc.checks.branch_wiring import ONE_LOAD, SEVERAL
from calc.checks.circuit import DropAllowed, Run, WireAsLaid
from calc.checks.wire.wire_for_run import WireForRun
from calc.laws import conductor as us
from calc.laws import conductor_iec as iec
from calc.quantity import OutsideValidity, Quantity, limit
from calc.sources import COMMON_PRACTICE, IEC_60364_5_52, NEC_2023
from calc.units import A, V, degC, ft, m

VOLTS_LOST = "Volts lost"
_COLD = 20 * degC
_HIGHER = 240 * V


class LongestRun(WireAsLaid, Run, DropAllowed, Check):
    """How far can this wire go?"""

    title = "Longest run of a wire"
    headline = "longest_run"
    about = {"cables.use": ("branch wiring", "extension cord")}
    compared = ("longest_run",)

    breaker: Quantity = wiring.breaker()
    feeds: str = pick_fact("cables.serves", ONE_LOAD, (ONE_LOAD, SEVERAL), rules=(NEC,))
    device: str = wiring.device()
    hot: Quantity = wiring.hot()

    def solve(self) -> Answer:
        run = self._run()
        found = run.answer()
        if found.verdict == NOT_KNOWN:
            raise OutsideValidity(found.say)
        longest = found.results.get("longest_run")
        if not isinstance(longest, Quantity):
            return answer(*found.requirements, say="", notes=(), **found.results)
        good = limit(
            "L_go",
            f"Longest run, one way, for {self.wanted_drop} lost",
            longest * (self.wanted_drop / self.most_drop),
            ft,
        )
        return answer(
            *(rest for rest in found.requirements if rest.label != VOLTS_LOST),
            require(
                self.run_length <= longest,
                comfortable=self.run_length <= good,
                label="Length",
                yes="It reaches.",
                tight=f"{{left}} of {self.size} are more than the {good} at which {self.wanted_drop} of the volts are lost; {{right}} is the most.",
                no=f"{{left}} are too far for {self.size}: at {{right}} {self.most_drop} of the volts are lost.",
            ),
            say=f"{self.size} goes {longest}, one way, for {self.most_drop} lost, and {good} for {self.wanted_drop}.",
            notes=self._naive(run, longest),
            longest_run=longest,
            good_run=good,
            to_spare=limit("L_sp", "Length to spare", longest - self.run_length, ft),
        )

    def _run(self, **changes: Quantity | str) -> WireForRun:
        values = {name: getattr(self, name) for name in self.asks if hasattr(self, name)}
        return WireForRun(self.rules, **(values | changes))

    def _naive(self, run: WireForRun, longest: Quantity) -> tuple[str, ...]:
        """Name the length that a cold reel would seem to give."""
        if self.rules != NEC:
            return ()
        cold = run.changed({"hot": _COLD, "ambient": _COLD}).answer().results.get("longest_run")
        if not isinstance(cold, Quantity) or (cold <= longest).holds:
            return ()
        return (
            f"Measured on a cold reel, at 20 °C, it would seem to go {cold}. The wire at work is warmer and loses more.",
        )

    def found_by_trial(self) -> dict[str, Named]:
        """How far this size and the thicker ones go, as far as anybody asks; one that cannot carry the load is left out."""
        sizes = us.sizes(self.metal, us.RACEWAY) if self.rules == NEC else iec.sizes()
        told = []
        for size in sizes[sizes.index(self.size) if self.size in sizes else 0 :]:
            found = self._run(size=size).answer()
            rests = [rest for rest in found.requirements if rest.label != VOLTS_LOST]
            goes = found.results.get("longest_run")
            if isinstance(goes, Quantity) and rests and all(rest.verdict != NO for rest in rests):
                told.append(f"{size} {goes.shown_in(ft)} ({goes.shown_in(m)})")
                if (goes >= self.asks["run_length"].high).holds:  # type: ignore[union-attr]
                    break
        label = f"For {self.most_drop} lost, this size and the thicker ones go"
        return {
            "by_size": Named(", ".join(told) or "none", label, "found by trial: each listed size was asked in turn")
        }

    def _at_240(self) -> Iterator[Change]:
        """The same watts at twice the volts: half the amps, and twice the volts to lose."""
        if self.rules == NEC and self.circuit == "one-phase" and (self.volts < _HIGHER).holds:
            share = self.volts.si / _HIGHER.si
            yield {
                "volts": _HIGHER,
                "continuous_current": round(self.continuous_current.number_in(A) * share, 3) * A,
                "other_current": round(self.other_current.number_in(A) * share, 3) * A,
            }

    fixes = (
        next_option("size", "Use {size} or thicker", costs="heavier, dearer, stiffer"),
        less("run_length", 5 * ft, "Keep the run to {run_length} or less"),
        Fix(
            "Feed it at {volts}, with half the amps",
            lambda check: check._at_240(),
            costs="only for what is made for it",
        ),
        less("continuous_current", 1 * A, "Take the lasting load down to {continuous_current} or less"),
        less("other_current", 1 * A, "Take the other load down to {other_current} or less"),
        option("terminals", "75 °C", "Use lugs and a breaker marked 75 °C at both ends"),
    )
    cautions = (
        Caution(
            "WARNING",
            "At the end of a long thin run a short draws too little to open the breaker",
            "The wire glows for minutes along its length",
            "Fit a smaller breaker or thicker wire, and a ground-fault device where it is plugged in",
        ),
        Caution(
            "CAUTION",
            "A motor that starts at the end of a long run stalls where a lamp still burns",
            "It hums, overheats and can burn a hand or itself",
            "Take the page on tools for its start; keep the loss of the start under 10 to 15 per cent",
        ),
        Caution(
            "NOTICE",
            "The length is one way along the wire",
            "Out and back are counted here; twice the length would be counted twice",
            "Pace the way the wire takes, with its detours and what stays on the reel",
        ),
    )
    examples = (
        Example(
            given={
                "size": "12 AWG",
                "continuous_current": "0",
                "other_current": "15",
                "most_drop": "3",
                "wanted_drop": "3",
                "run_length": "60 ft",
            },
            expect={"longest_run": "60.6 ft"},
            verdict="go",
            source=NEC_2023.at("Chapter 9, Table 8: 1.98 Ω/kft; 3 % of 120 V over 2 · 15 A · r, worked by hand"),
        ),
        Example(
            given={
                "size": "14 AWG",
                "breaker": "15",
                "continuous_current": "0",
                "other_current": "13",
                "most_drop": "3",
                "wanted_drop": "3",
                "run_length": "50 ft",
            },
            expect={"longest_run": "44.0 ft"},
            within=0.005,
            verdict="no",
            source=NEC_2023.at("Chapter 9, Table 8: 3.14 Ω/kft, worked by hand"),
        ),
        Example(
            given={
                "size": "2.5 mm2",
                "continuous_current": "16",
                "breaker": "16",
                "volts": "230",
                "run_length": "30 m",
                "most_drop": "3",
                "wanted_drop": "3",
            },
            expect={"longest_run": "78.6 ft"},
            within=0.001,
            verdict="no",
            rules="iec",
            source=IEC_60364_5_52.at("Annex G: 0.0225 Ω·mm²/m; 6.9 V over 2 · 16 A · 9 mΩ/m is 23.96 m"),
        ),
        Example(
            given={"size": "12 AWG", "continuous_current": "24", "breaker": "30", "run_length": "10 ft"},
            verdict="no",
            source=NEC_2023.at("240.4(D): 12 AWG is not used behind 30 A, at any length"),
        ),
        Example(
            given={"size": "10 AWG", "continuous_current": "0", "other_current": "10", "run_length": "25 ft"},
            verdict="go",
            source=COMMON_PRACTICE,
        ),
    )
