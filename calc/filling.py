"""Sentences with the rig's own numbers in them: `Keep {bank.reserve} in it` becomes `Keep 15 % in it`.

A fact that is not known leaves a line to write on, and says what belongs there.
"""

from __future__ import annotations

import re
from collections.abc import Iterable

from calc import units
from calc.facts import fact_at
from calc.printing import printed
from calc.quantity import Quantity
from calc.rig import Known, Rig

_PLACE = re.compile(r"\{([a-z_]+(?:\.\d+)?\.[a-z_]+)\}")


def filled(rig: Rig, sentence: str) -> str:
    """The sentence with every `{fact}` in it said for this rig, in the units of the people it is shown to."""
    return _PLACE.sub(lambda found: said(rig, found[1]), sentence)


def said(rig: Rig, path: str) -> str:
    """A fact in words, or a line to write on."""
    known = rig.facts.get(path)
    return shown(known) if known is not None and known != "" else f"______ ({fact_at(path).label.lower()}: not known)"


def shown(known: Known) -> str:
    """A fact as it stands in a sentence."""
    if isinstance(known, Quantity):
        return printed(known.shown_in(units.usual(known.unit)))
    return known if isinstance(known, str) else ", ".join(known)


def facts_in(sentences: Iterable[str]) -> set[str]:
    """The facts that the sentences ask for."""
    return {path for sentence in sentences for path in _PLACE.findall(sentence)}
