"""The pages beside the questions: what each shows, worked for the example until a rig is there.

Each is a template and a function that gives what the template needs.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from calc.catalogue import all_checks
from calc.faults import WAYS
from calc.symptoms import SYMPTOMS

Values = dict[str, Any]


def fault_finder() -> Values:
    return {"symptoms": SYMPTOMS, "ways": WAYS, "questions": {check.id: check.question for check in all_checks()}}


PAGES: Mapping[str, tuple[str, Callable[[], Values]]] = {
    "fault-finder/": ("fault_finder.html", fault_finder),
}
