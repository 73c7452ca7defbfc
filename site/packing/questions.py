"""The questions whose answers are known when the site is built: each check's example, in both units and rule sets.

They are asked again wherever Python starts: in the packer, to see what it imports; on a phone, to see that it
answers as it did here.
"""

from __future__ import annotations

import json
from itertools import product

from calc import units
from calc.catalogue import all_checks
from calc.check import RULE_SETS
from calc.reply import BUTTON, FORM, TYPING

UNREADABLE = "12 x 12"


def known_questions() -> list[str]:
    """As messages, the one that every start asks first."""
    asked = [
        (FORM, {"check": check.id, "units": people, "rules": rules})
        for check, people, rules in product(all_checks(), units.PEOPLE, RULE_SETS)
    ]
    # What is unreadable takes another way through the code; a start must have been that way too.
    for check in all_checks():
        spoilt = dict.fromkeys(check.asks, UNREADABLE)
        asked += [(what, {"check": check.id, **spoilt}) for what in (TYPING, BUTTON)]
    return [json.dumps({"id": 0, "what": what, "form": form}) for what, form in asked]
