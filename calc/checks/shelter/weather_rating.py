"""The page /shelter/weather-rating/: the whole is as tight as its worst part, each digit by itself.

IP65 and IP46 together are IP45. One fan with IP20 makes all of it IP20. X7 is immersion and no rating for jets.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping

from calc.check import (
    Answer,
    Caution,
    Change,
    Check,
    Example,
    Fix,
    Named,
    Requirement,
    Result,
    answer,
    ask_fact,
    each,
    how_many,
    option,
    pick_fact,
    require,
)
from calc.laws import enclosure
from calc.laws.enclosure import NO_OPENING, RATINGS, Protection
from calc.quantity import Quantity, Statement
from calc.sources import COMMON_PRACTICE, IEC_60529, NEMA_250
from calc.tables import table
from calc.units import mm

PARTS = tuple(range(1, 11))
COUNTS = tuple(str(number) for number in PARTS)
BETTER = ("IP23", "IP44", "IP65", "IP66")


def _one_part(number: int) -> Fix:
    """Exchange one part for a tighter one."""
    name = f"part_{number}"

    def changes(check: Check) -> Iterator[Change]:
        for rating in BETTER:
            yield {name: rating}

    return Fix(f"Exchange part {number} for one of {{{name}}}, or put it behind such a cover", changes)


def _every_weak_part(rating: str) -> Fix:
    """Raise every part that is below this rating in a digit, where there are several."""

    def changes(check: Check) -> Iterator[Change]:
        wanted = enclosure.protection(1, rating)
        names = [f"part_{number}" for number in PARTS if check.asked(f"part_{number}")]
        has = {name: enclosure.protection(1, getattr(check, name)) for name in names}
        weak = [
            name for name, kept in has.items() if kept.solids.si < wanted.solids.si or kept.water.si < wanted.water.si
        ]
        if len(weak) > 1:
            yield dict.fromkeys(weak, rating)

    return Fix(f"Exchange every part under {rating} for one of {rating}, or put it behind such a cover", changes)


class WeatherRating(Check):
    """Is it fit for the weather of this place?"""

    title = "Weather rating"
    headline = "rating"

    standing: str = pick_fact("place.standing", "in the rain")
    parts: str = how_many("parts", "Parts on it", COUNTS, "4", "Those with a rating of their own, the weakest ten")
    each_part = each(
        "parts",
        "parts",
        COUNTS,
        part=pick_fact("parts.weather", "IP44", RATINGS),
    )
    opening: str = pick_fact("box.openings", NO_OPENING)
    gap: Quantity = ask_fact(
        "g", "box.gap", 8 * mm, when={"opening": enclosure.OPENINGS[1:]}, common=(1 * mm, 2.5 * mm, 8 * mm, 12 * mm)
    )

    def solve(self) -> Answer:
        found = self._protections()
        solids, water = enclosure.weakest(found)
        whole = f"IP{solids.si:.0f}{water.si:.0f}"
        wanted = table("ip_place")
        needs = wanted.read("s_n", f"Against solids, asked {self.standing}", self.standing, "solids")
        needed = wanted.read("w_n", f"Against water, asked {self.standing}", self.standing, "water")
        worst_solids, worst_water = self._worst(found)
        return answer(
            self._digit("Solids", solids, needs, worst_solids, "what falls or pokes in reaches live parts"),
            self._digit("Water", water, needed, worst_water, "water gets in"),
            say=f"Yes: the whole is {whole}, and {self.standing} asks for IP{needs.si:.0f}{needed.si:.0f}.",
            notes=self._notes(found),
            rating=Named(whole, "Rating of the whole, as it is used", "each digit the lowest of all", IEC_60529),
            solids=solids,
            water=water,
            weakest_against_solids=Named(worst_solids, "Weakest against solids"),
            weakest_against_water=Named(worst_water, "Weakest against water"),
            solids_needed=needs,
            water_needed=needed,
        )

    def _fitted(self) -> list[int]:
        return list(PARTS[: len(self.of_each("part"))])

    def _protections(self) -> list[Protection]:
        found = [enclosure.protection(number, getattr(self, f"part_{number}")) for number in self._fitted()]
        if self.opening != NO_OPENING:
            found.append(enclosure.opening_protection(self.opening, self.gap))
        return found

    def _worst(self, found: list[Protection]) -> tuple[str, str]:
        def named(lowest: float, digit: Callable[[Protection], float]) -> str:
            return ", ".join(each.part for each in found if digit(each) == lowest)

        return (
            named(min(each.solids.si for each in found), lambda each: each.solids.si),
            named(min(each.water.si for each in found), lambda each: each.water.si),
        )

    def _digit(self, label: str, has: Quantity, wants: Quantity, worst: str, then: str) -> Requirement:
        holds = (wants <= has).holds
        verb = "have" if "," in worst else "has"
        return require(
            Statement(f"{label}: {has} where {wants} is asked", holds, table("ip_place").source),
            label=label,
            yes=f"{label} are kept out." if label == "Solids" else f"{label} is kept out.",
            no=f"Not {self.standing}: {worst} {verb} the digit {has} against {label.lower()}, and {wants} is asked. There {then}.",
        )

    def _notes(self, found: list[Protection]) -> tuple[str, ...]:
        said = []
        ratings = [getattr(self, f"part_{number}") for number in self._fitted()]
        if any(rating in ("IP67", "IP68", "IPX7", "NEMA 6", "NEMA 6P") for rating in ratings):
            said.append("A 7 or 8 is still water, for minutes: it counts as splash (4) here, not as a jet (5 or 6).")
        if len({(each.solids.si, each.water.si) for each in found}) > 1:
            best = max(found, key=lambda each: each.water.si)
            said.append(f"The best part is IP{best.solids}{best.water}; it lends nothing to the others.")
        if self.opening != NO_OPENING:
            said.append(f"Through that opening a nut, a chip or a wire under {self.gap} falls in.")
        if any(rating.startswith("NEMA") for rating in ratings):
            said.append(
                "A NEMA type gives at least this IP code; no IP code gives a NEMA type, which tests rust and ice too."
            )
        return tuple(said)

    def found_by_trial(self) -> Mapping[str, Result]:
        """What the rating becomes when the weakest part alone is exchanged for one that keeps everything out."""
        best: tuple[float, float, str, str] = (-1, -1, "", "")
        for number in self._fitted():
            results = self.changed({f"part_{number}": "IP66"}).answer().results
            solids, water = results["solids"], results["water"]
            assert isinstance(solids, Quantity) and isinstance(water, Quantity)
            best = max(best, (water.si, solids.si, f"part {number}", f"IP{solids.si:.0f}{water.si:.0f}"))
        told = f"{best[3]}, by exchanging {best[2]}"
        return {"best_single_change": Named(told, "Rating with one part exchanged for IP66, by trial")}

    fixes = (
        *(_one_part(number) for number in PARTS),
        *(_every_weak_part(rating) for rating in ("IP44", "IP66")),
        option(
            "opening", NO_OPENING, "Close that opening; let it breathe through a membrane vent", costs="it runs hotter"
        ),
        option("opening", enclosure.DOWNWARD, "Turn that opening down, behind a drip edge"),
        option("standing", "under a roof outdoors", "Keep it under a roof"),
    )
    cautions = (
        Caution(
            "DANGER",
            "Water in live parts kills",
            "A wet outlet or inverter puts the frame, the handle and the ground around it at mains voltage",
            "Keep outlets covered as they are used, test the ground-fault device before use, switch off and isolate before you open or dry anything",
        ),
        Caution(
            "WARNING",
            "A hose or a pressure washer goes through seals that stand any rain",
            "Water stays inside, unseen, and bridges contacts days later",
            "Do not wash it with a jet unless every part is marked X6 or X9; wipe it",
        ),
        Caution(
            "WARNING",
            "A closed box without a vent sucks water past its seals when it cools",
            "It fills slowly from inside",
            "Fit a membrane vent, or a drain at the lowest point",
            only=lambda check: check.opening == NO_OPENING,
        ),
        Caution(
            "NOTICE",
            "A marking holds as the part was tested: gaskets new, covers closed, glands filled, the right way up",
            "Turned over, drilled or with a cord through its flap it has no rating",
            "Count it as it is used, and look at its gaskets every year",
        ),
    )
    examples = (
        Example(
            given={
                "parts": "4",
                "part_1": "IP65",
                "part_2": "IP56",
                "part_3": "IP44",
                "part_4": "NEMA 4",
                "standing": "in the rain",
            },
            expect={"solids": "4", "water": "4"},
            verdict="go",
            source=IEC_60529.at("each characteristic numeral is stated and met by itself"),
        ),
        Example(
            given={
                "part_1": "NEMA 3R",
                "part_2": "NEMA 4",
                "part_3": "NEMA 6",
                "part_4": "NEMA 12",
                "standing": "in road spray",
            },
            expect={"solids": "1", "water": "2"},
            verdict="no",
            source=NEMA_250.at("Annex, conversion table: 3R IP14, 12 IP52 in the older printing"),
        ),
        Example(
            given={"part_1": "IP67", "part_2": "IP67", "part_3": "IP67", "part_4": "IP67", "standing": "in road spray"},
            expect={"solids": "6", "water": "4"},
            verdict="no",
            source=IEC_60529.at("clause 6: numeral 7 alone is unsuitable for jets"),
        ),
        Example(
            given={
                "part_1": "IP20",
                "part_4": "IP55",
                "standing": "indoors",
                "opening": enclosure.UPWARD,
                "gap": "12 mm",
            },
            expect={"solids": "2", "water": "0"},
            verdict="go",
            source=COMMON_PRACTICE.at("a 12.5 mm finger is kept out; indoors nothing drips"),
        ),
    )
