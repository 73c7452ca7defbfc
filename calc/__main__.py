"""The same answers from a shell.

    python -m calc                       lists the chapters and the checks
    python -m calc CHECK NAME=VALUE ...  answers one, for the example rig or with --rig FILE
    python -m calc walk-round            inspects the whole rig: faults first, with what would clear them
    python -m calc day                   foretells the rig's plan: three days of charge; --date 2027-06-18
    python -m calc hand-over             the sheet for whoever borrows the rig; --date 2027-06-18, --html
    python -m calc parts                 what the rig is made of, as CSV
    python -m calc facts                 the JSON Schema of a rig
    python -m calc share                 the rig as a short text, or as a link with --address
    python -m calc read-shared TEXT ...  the rig's document, of that text or link, or of several codes' in any order

Exit status 0 whatever the verdict; 2 for words that cannot be read, with the reason on standard error.
"""

from __future__ import annotations

import argparse
import json
import re
import sys
from contextlib import suppress
from dataclasses import asdict
from pathlib import Path
from typing import Any, NoReturn

from calc import as_json, as_words, units
from calc.catalogue import UnknownCheck, check_called
from calc.check import NEC, RULE_SETS, Check
from calc.clock import DATE
from calc.day import day_of
from calc.form import Asked, fill
from calc.handover import sheet
from calc.parts_list import as_csv, parts_list, torque_list
from calc.rig import DamagedRig, Rig, document, example_rig, read_rig, schema
from calc.sharing import TooLarge, shared, unpacked
from calc.walkround import walk_round


class Unusable(Exception):
    """Words on the command line that cannot be read; `field` is the input they belong to, if any."""

    def __init__(self, why: str, field: str | None = None) -> None:
        super().__init__(why)
        self.field = field


class _Parser(argparse.ArgumentParser):
    def error(self, message: str) -> NoReturn:
        raise Unusable("These words are not understood. `python -m calc --help` shows what can be said.")


def main(words: list[str]) -> int:
    try:
        told = _told(words)
        with units.shown_to(told.units):
            print(_carried_out(told))
    except Unusable as problem:
        print(json.dumps({"error": str(problem), "field": problem.field}, ensure_ascii=False), file=sys.stderr)
        return 2
    return 0


def _told(words: list[str]) -> argparse.Namespace:
    parser = _Parser(prog="python -m calc", description="Job-site answers for power on wheels.")
    parser.add_argument(
        "check",
        nargs="?",
        help="a check like wire/wire-for-run, or: walk-round, day, hand-over, parts, facts, share, read-shared",
    )
    parser.add_argument("values", nargs="*", metavar="NAME=VALUE", help='what to change, like "run_length=75 ft"')
    parser.add_argument("--rig", type=Path, help="a rig's JSON file; without it the example rig answers")
    parser.add_argument("--address", default="", help="for share: the page that the link is to open")
    parser.add_argument("--units", default=units.US, help=" or ".join(units.PEOPLE))
    parser.add_argument("--rules", default=NEC, help=" or ".join(RULE_SETS))
    parser.add_argument("--date", help="like 2027-06-18: with day its first day, with hand-over the sheet's")
    parser.add_argument("--json", action="store_true")
    parser.add_argument("--html", action="store_true", help="for hand-over: a page to print or to send")
    told = parser.parse_intermixed_args(words)
    for name, known in (("units", units.PEOPLE), ("rules", RULE_SETS)):
        if getattr(told, name) not in known:
            raise Unusable(f"--{name} must be {' or '.join(known)}.", name)
    if told.date is not None and told.check not in ("day", "hand-over"):
        raise Unusable("--date is said with day or hand-over only.", "date")
    if told.html and told.check != "hand-over":
        raise Unusable("--html is said with hand-over only.", "html")
    if told.html and told.json:
        raise Unusable("Say --html or --json, not both.", "html")
    if told.date is not None and not re.fullmatch(DATE, told.date):
        raise Unusable("--date must be written like 2027-06-18.", "date")
    return told


def _carried_out(told: argparse.Namespace) -> str:
    if told.check is None:
        return _json(as_json.catalogue()) if told.json else as_words.catalogue()
    if told.check in ("facts", "walk-round", "day", "hand-over", "parts", "share") and told.values:
        raise Unusable(f"{told.check} takes no values.")
    if told.check == "hand-over":
        return _handed_over(told)
    if told.check == "parts":
        return _parts(told)
    if told.check == "share":
        return _shared(told)
    if told.check == "read-shared":
        return _json(_read_shared(told.values))
    if told.check == "facts":
        return _json(schema())
    if told.check == "walk-round":
        found = walk_round(_rig(told.rig), told.rules)
        return _json(as_json.walk_round(found)) if told.json else as_words.walk_round(found)
    if told.check == "day":
        foretold = day_of(_rig(told.rig), told.date)
        return _json(as_json.day(foretold)) if told.json else as_words.day(foretold)
    asked = _asked(told)
    return _json(as_json.answer(asked)) if told.json else as_words.answer(asked)


def _handed_over(told: argparse.Namespace) -> str:
    from calc.handover_paper import as_html, as_text  # no other command waits for the pages' templates

    rig, date = _rig(told.rig), told.date or ""
    if told.html:
        return as_html(rig, told.rules, date)
    found = sheet(rig, told.rules, date)
    return _json(asdict(found)) if told.json else as_text(found)


def _parts(told: argparse.Namespace) -> str:
    rig = _rig(told.rig) or example_rig()
    items = parts_list(rig)
    if told.json:
        return _json({"parts": [asdict(item) for item in items], "torques": [asdict(one) for one in torque_list(rig)]})
    return as_csv(items).rstrip("\n")


def _shared(told: argparse.Namespace) -> str:
    """The rig as a text or a link; and where one code is too small for it, what each of several says."""
    try:
        found = shared(_rig(told.rig) or example_rig(), told.address)
        texts = found.texts
    except TooLarge as problem:
        raise Unusable(str(problem), "rig") from None
    if told.json:
        return _json({"text": found.link, "codes": texts, "left_out": list(found.left_out)})
    lines = [found.link, *(f"left out, as it does not fit: {words}" for words in found.left_out)]
    return "\n".join(lines if len(texts) == 1 else [*lines, "", f"In {len(texts)} codes:", *texts])


def _read_shared(texts: list[str]) -> dict[str, Any]:
    try:
        return document(unpacked(*texts))
    except DamagedRig as problem:
        raise Unusable(str(problem), "text") from None


def _asked(told: argparse.Namespace) -> Asked:
    try:
        kind = check_called(told.check)
    except UnknownCheck as problem:
        raise Unusable(str(problem)) from None
    values = _values(kind, told.values)
    asked = fill(kind, values, _rig(told.rig), told.rules)
    for name, why in asked.problems.items():
        raise Unusable(why, name)
    for name in values:
        # While a choice is missing, nobody knows what hangs on it.
        if asked.check and not asked.missing and not asked.check.asked(name):
            raise Unusable(f"{kind.asks[name].label} is not asked as the other choices stand.", name)
    return asked


def _values(kind: type[Check], words: list[str]) -> dict[str, str]:
    values: dict[str, str] = {}
    for word in words:
        name, equals, text = word.partition("=")
        if not equals:
            raise Unusable(f"“{word}” is not NAME=VALUE.")
        if name not in kind.asks:
            raise Unusable(f"{kind.id} does not ask for {name}; it asks for {', '.join(kind.asks)}.", name)
        if name in values:
            raise Unusable(f"{name} is given twice.", name)
        values[name] = text
    return values


def _rig(file: Path | None) -> Rig | None:
    if file is None:
        return None
    try:
        return read_rig(file.read_text(encoding="utf-8"))
    except FileNotFoundError:
        raise Unusable(f"There is no file {file}.", "rig") from None
    except (OSError, UnicodeDecodeError):
        raise Unusable(f"The file {file} cannot be read as text.", "rig") from None
    except DamagedRig as problem:
        raise Unusable(str(problem), "rig") from None


def _json(document: dict[str, Any]) -> str:
    return json.dumps(document, ensure_ascii=False, indent=2)


def _until_nobody_listens(words: list[str]) -> int:
    """Whoever stops reading (`| head`) has what they wanted: the rest goes nowhere, without a complaint."""
    try:
        status = main(words)
        sys.stdout.flush()
    except BrokenPipeError:
        # Closed for good, or Python would write out what is left once more as it ends.
        with suppress(BrokenPipeError):
            sys.stdout.close()
        return 0
    return status


if __name__ == "__main__":
    sys.exit(_until_nobody_listens(sys.argv[1:]))
