"""The pages beside the questions: what each shows, worked for the example until a rig is there."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import astuple, dataclass, field, replace
from typing import Any
from zlib import crc32

from calc import parts_list
from calc.catalogue import all_checks
from calc.check import GO, IEC, NEC, NO, NOT_KNOWN, TIGHT, Ask, Check
from calc.checks.measured import BANK_ARC, QUALIFIED
from calc.faults import WAYS
from calc.filling import filled
from calc.handover import sheet
from calc.labels import labels
from calc.log_meaning import meaning
from calc.logbook import by_question, entry, newest_first
from calc.measurable import MEASURABLE
from calc.power_up import GATES, LOAD_TEST, STOP
from calc.procedures import CHECKLISTS
from calc.rig import Rig, example_rig
from calc.sharing import TooLarge, shared
from calc.symptoms import SYMPTOMS

Values = dict[str, Any]
# What a page says of itself: which reading it is about to note, since when its timer runs.
Texts = Mapping[str, str]


def readings(rig: Rig | None, rules: str, form: Texts) -> Values:
    """The log: the control, what the last test of the kind means, and what was noted."""
    whole = rig or example_rig()
    noting = entry(rig, form)
    return {
        "rig_name": whole.name,
        "entry": noting,
        "tests": by_question(),
        "meaning": meaning(whole, noting.what, noting.of, rules),
        "noted": newest_first(whole),
        "cautions": [QUALIFIED, BANK_ARC],
    }


def fault_finder() -> Values:
    return {"symptoms": SYMPTOMS, "ways": WAYS, "questions": {check.id: check.question for check in all_checks()}}


def first_power_up(rig: Rig | None = None, rules: str = NEC, form: Texts = {}) -> Values:  # noqa: B006  (only read)
    """The gates and the load test. `began`: when its half hour began; what was noted since stands in its place."""
    whole = rig or example_rig()
    read_then = {what for moment in LOAD_TEST for what in moment.readings}
    began = form.get("began", "")
    since = [one for one in newest_first(whole) if began and one.reading.when >= began]
    return readings(rig, rules, form) | {
        "rig_name": whole.name,
        "stop": [filled(whole, rule) for rule in STOP],
        "gates": [(gate, [tickable(whole, step) for step in gate.steps]) for gate in GATES],
        "moments": [replace(moment, does=filled(whole, moment.does)) for moment in LOAD_TEST],
        "noted": {one.reading.what: one for one in reversed(since)},
        "measurable": MEASURABLE,
        "filled": lambda sentence: filled(whole, sentence),
        "questions": {check.id: check.question for check in all_checks()},
        "afterwards": [check for check in all_checks() if _reads(check) & read_then],
    }


@dataclass(frozen=True)
class Tickable:
    """A step to be ticked. key: by what its tick is kept; a step that says something new has not been done."""

    key: str
    says: str


def tickable(rig: Rig, step: str) -> Tickable:
    return Tickable(f"{crc32(step.encode()):08x}", filled(rig, step))


def _reads(check: type[Check]) -> set[str]:
    return {spec.reading for spec in check.asks.values() if isinstance(spec, Ask) and spec.reading}


def hand_over(rig: Rig | None = None, rules: str = NEC, form: Texts = {}) -> Values:  # noqa: B006  (only read)
    """The sheet, dated as the form says, with the rig as codes that open it at the pages' `address`."""
    words = {NO: "Do not use it", TIGHT: "Just", GO: "Yes", NOT_KNOWN: "Not known: do not use it"}
    told = sheet(rig, rules, form.get("date", ""), form.get("version", ""))
    return {"sheet": told, "words": words, "rules_name": RULES_SAID[rules], "codes": _codes(rig, form.get("address", ""))}


def _codes(rig: Rig | None, address: str) -> list[str]:
    """The rig as codes, the fewest that hold it; none where no code can."""
    try:
        found = shared(rig or example_rig(), address, 1)
        return [found.code(number) for number in range(1, found.count + 1)]
    except TooLarge:
        return []


def label_sheet(rig: Rig | None = None, rules: str = NEC) -> Values:
    whole = rig or example_rig()
    return {"rig_name": whole.name, "labels": labels(whole, sheet(whole, rules))}


def checklists(rig: Rig | None = None) -> Values:
    whole = rig or example_rig()
    return {"rig_name": whole.name, "checklists": [(found.title, found.told(whole)) for found in CHECKLISTS]}


def parts(rig: Rig | None = None) -> Values:
    whole = rig or example_rig()
    items = parts_list.parts_list(whole)
    return {
        "rig_name": whole.name,
        "items": [astuple(item) for item in items],
        "csv": parts_list.as_csv(items),
        "torques": [astuple(torque) for torque in parts_list.torque_list(whole)],
        "sockets": parts_list.sockets(),
        "sources": parts_list.sources(),
        "makers_first": parts_list.MAKERS_FIRST,
        "never_again": parts_list.NEVER_AGAIN,
        "posts": parts_list.POSTS,
    }


RULES_SAID = {NEC: "the NEC (US)", IEC: "the IEC"}


@dataclass(frozen=True)
class Page:
    """A template and what it needs. pieces: which of its hosts another rig fills anew, each with its own template."""

    template: str
    values: Callable[[Rig | None, str, Texts], Values]
    pieces: Mapping[str, str] = field(default_factory=dict)

    def told(self, rig: Rig | None, rules: str = NEC, form: Texts = {}) -> Values:  # noqa: B006  (only read)
        """What the template needs, for a rig; without one, for the example."""
        return {"pieces": self.pieces, "example": rig is None, **self.values(rig, rules, form)}


PAGES: Mapping[str, Page] = {
    "fault-finder/": Page("fault_finder.html", lambda rig, rules, form: fault_finder()),
    "readings/": Page(
        "readings.html",
        readings,
        {"entry": "readings_entry.html", "meaning": "readings_meaning.html", "noted": "readings_noted.html"},
    ),
    "first-power-up/": Page(
        "first_power_up.html",
        first_power_up,
        {
            "of-rig": "first_power_up_gates.html",
            "stop-again": "first_power_up_stop.html",
            "load": "first_power_up_load.html",
        },
    ),
    "hand-over/": Page("hand_over.html", hand_over, {"of-rig": "hand_over_piece.html", "qr": "hand_over_code.html"}),
    "hand-over/labels/": Page("labels.html", lambda rig, rules, form: label_sheet(rig, rules), {"of-rig": "labels_piece.html"}),
    "hand-over/checklists/": Page(
        "checklists.html", lambda rig, rules, form: checklists(rig), {"of-rig": "checklists_piece.html"}
    ),
    "hand-over/parts/": Page("parts.html", lambda rig, rules, form: parts(rig), {"of-rig": "parts_piece.html"}),
}
