"""Questions whose answers are known when the site is built: each check's example, in both units and rule sets.

Some of them are asked again in the packer, to see what it imports, and on a phone, to see that Python answers there as it
did here.
"""

from __future__ import annotations

import json
from itertools import product

from calc import units
from calc.catalogue import all_checks
from calc.check import RULE_SETS
from calc.reply import BUTTON, FORM, LATER, TYPING
from calc.start_lines import LINES

UNREADABLE = "12 x 12"
# What the pages of the rig ask: each kind once, about the example.
RIG_QUESTIONS = (
    ("now", {}),
    ("walk-round", {}),
    ("day", {}),
    ("facts", {"facts": '{"bank.energy": {"value": 9, "unit": "kWh"}}'}),
    ("part", {}),
    ("part", {"part": "bank"}),
    ("part", {"part": "loads.0"}),
    ("start", {"name": "", "bank": UNREADABLE}),
    ("start", {"name": "", **{plate.key: plate.example for plate in LINES}}),
    ("read", {"text": '{"barrowatt_rig": 1, "name": "Cart"}'}),
    ("read", {"text": UNREADABLE}),
    ("proof", {"check": "wire/wire-for-run", "address": "https://barrowatt.example/wire/wire-for-run/"}),
    ("share", {"address": "https://barrowatt.example/rig/"}),
    ("fact", {"path": "bank.energy", "text": "5", "then": "board"}),
    ("fact", {"path": "bank.energy", "text": UNREADABLE}),
    ("add", {"part": "loads"}),
    ("copy", {"part": "loads.0"}),
    ("remove", {"part": "loads.0"}),
    ("hand-over", {"address": "https://barrowatt.example/rig/"}),
    ("note", {"what": "bank volts, small load", "value": "53", "now": "2025-05-17T10:20"}),
    ("keep", {"check": "wire/wire-for-run", "run_length": "99", "name": "all"}),
)


def known_questions() -> list[str]:
    """As messages, the one that every start asks first."""
    asked = [
        (FORM, {"check": check.id, "units": people, "rules": rules})
        for check, people, rules in product(all_checks(), units.PEOPLE, RULE_SETS)
    ]
    asked[:0] = [(TYPING, {"check": next(iter(all_checks())).id, "units": units.US, "rules": RULE_SETS[0]})]
    # What is unreadable takes another way through the code; a start must have been that way too.
    for check in all_checks():
        spoilt = dict.fromkeys(check.asks, UNREADABLE)
        asked += [(what, {"check": check.id, **spoilt}) for what in (TYPING, LATER, BUTTON)]
    asked += [(what, {"units": units.US, "rules": RULE_SETS[0], **form}) for what, form in RIG_QUESTIONS]
    return [json.dumps({"id": 0, "what": what, "form": form}) for what, form in asked]


def start_questions() -> list[str]:
    """Those that a phone asks while it makes a snapshot, and again when it tries it: enough to go through every check's
    code once, few enough not to keep a slow phone busy for a minute. Every start asks the first."""
    every = [json.loads(question) for question in known_questions()]
    plain = {"units": units.US, "rules": RULE_SETS[0]}
    first = every[0]["form"]["check"]
    return [
        json.dumps(question)
        for question in every
        if question["form"].items() >= plain.items() or (question["what"] != FORM and question["form"].get("check") == first)
    ]
