"""Opens a rig's document: from a text, perhaps damaged or hostile, to JSON of the present version, or the reason why not.

Nothing here knows a fact; `calc/rig.py` does. What is refused is refused in plain words, short whatever was sent, and
without repeating signs that could turn a terminal or a page upside down.
"""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Mapping
from typing import Any, TypeVar

from calc.reading import Unreadable

VERSION = 1
MARK = "barrowatt_rig"

Document = dict[str, Any]
Thing = TypeVar("Thing")

# From each past version to the next one: a function of the whole document. A fact that is added is no new version, as
# every fact may be missing; one that is renamed, dropped, moved or given another range or meaning is. Then the number
# above goes up, the step is written here, and a document of the version it leaves is kept in tests/rigs/ for good.
STEPS: Mapping[int, Callable[[Document], Document]] = {}

LARGEST_DOCUMENT = 200_000
LONGEST_NAME = 80
MOST_THINGS = 40
_DEEPEST = 16

# Signs that are no text: they move the cursor, end a line, turn the direction of writing (as in a name that reads
# `fuse 175 A` and is none), or are halves of signs that no file can hold. In the spelling of both Python and JSON Schema.
PLAIN_TEXT = r"^[^\u0000-\u001f\u007f-\u009f\u2028-\u202e\u2066-\u2069\ud800-\udfff]*$"


class DamagedRig(ValueError):
    """A document that is not a rig we can use. The message says why, for the person."""


def opened(text: str) -> Document:
    """The document in a text, brought to the present version. Raises DamagedRig with the reason."""
    if len(text) > LARGEST_DOCUMENT:
        raise DamagedRig(f"The document is larger than a rig can be ({LARGEST_DOCUMENT} characters).")
    if _depth(text) > _DEEPEST:
        raise DamagedRig(f"The document is nested deeper than a rig can be ({_DEEPEST} times).")
    try:
        # Some editors begin a file with a mark of its byte order.
        document = json.loads(text.removeprefix("\ufeff"), object_pairs_hook=_no_name_twice)
    except DamagedRig:
        raise
    except (ValueError, RecursionError):
        raise DamagedRig("The document is not JSON: it is damaged, or no rig.") from None
    if not isinstance(document, dict) or document.get(MARK) is None:
        raise DamagedRig(f"The document is not a rig: it has no “{MARK}” number.")
    return _of_this_version(document)


def _of_this_version(document: Document) -> Document:
    version = document[MARK]
    if type(version) is not int or version < 1:
        raise DamagedRig(f"The document is of version {quoted(repr(version))}; there is no such version.")
    if version > VERSION:
        raise DamagedRig(
            f"The document is of version {quoted(version)}, made by a newer Barrowatt; this one reads up to version "
            f"{VERSION}. Bring this one up to date, with a signal, and open it again."
        )
    for past in range(version, VERSION):
        document = STEPS[past](document) | {MARK: past + 1}
    return document


def _depth(text: str) -> int:
    """How deep brackets are nested, counted before anything is built: a reader of JSON may run out of room on the way."""
    depth = deepest = 0
    in_string = False
    for token in re.findall(r'\\.|["\[\]{}]', text):
        if token == '"':
            in_string = not in_string
        elif not in_string and token in "[{":
            depth += 1
            deepest = max(deepest, depth)
        elif not in_string and token in "]}":
            depth -= 1
    return deepest


def _no_name_twice(pairs: list[tuple[str, Any]]) -> Document:
    found = dict(pairs)
    if len(found) < len(pairs):
        raise DamagedRig("The document names a fact twice, and does not say which one holds.")
    return found


def quoted(anything: Any) -> str:
    """What was sent, as far as a refusal may repeat it: short, its odd signs spelled out."""
    text = anything if isinstance(anything, str) else str(anything)
    return text[:40].encode("unicode_escape").decode("ascii") if not text[:40].isprintable() else text[:40]


def name_in(value: Any) -> str:
    """A name as a person gives it to a thing. Raises Unreadable."""
    if not isinstance(value, str) or len(value) > LONGEST_NAME:
        raise Unreadable(f"must be a text of at most {LONGEST_NAME} characters")
    if not re.fullmatch(PLAIN_TEXT, value):
        raise Unreadable("must be plain text: no line breaks, no signs that are not seen or turn the writing around")
    return value


def list_in(value: Any, of: type[Thing], what: str, most: int = MOST_THINGS) -> list[Thing]:
    """A list of things of one kind, no longer than a rig can hold. Raises Unreadable."""
    if not isinstance(value, list) or not all(isinstance(item, of) for item in value):
        raise Unreadable(f"must be a list of {what}")
    if len(value) > most:
        raise Unreadable(f"holds {len(value)} {what}; a rig can hold {most}")
    return value
