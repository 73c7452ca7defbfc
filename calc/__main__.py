"""The same answers from a shell.

    python -m calc                       lists the chapters and the checks
    python -m calc CHECK NAME=VALUE ...  answers one, for the example rig or with --rig FILE
    python -m calc walk-round            inspects the whole rig: faults first, with what would clear them
    python -m calc day                   foretells the rig's plan: three days of charge; --date 2027-06-18
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
from pathlib import Path
from typing import Any, NoReturn

from calc import as_json, units
from calc.catalogue import CHAPTERS, UnknownCheck, check_called, checks_of
from calc.check import NEC, RULE_SETS, Check
from calc.clock import DATE
from calc.day import CAUTIONS, QUESTION, Day, day_of
from calc.form import Asked, fill
from calc.planning.moments import Hour
from calc.printing import Line, compared
from calc.quantity import Condition
from calc.rig import DamagedRig, Rig, document, example_rig, read_rig, schema
from calc.sharing import TooLarge, shared, unpacked
from calc.walkround import Finding, Unknown, WalkRound, walk_round


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
    parser.add_argument("check", nargs="?", help="a check like wire/wire-for-run, or: walk-round, day, facts, share, read-shared")
    parser.add_argument("values", nargs="*", metavar="NAME=VALUE", help='what to change, like "run_length=75 ft"')
    parser.add_argument("--rig", type=Path, help="a rig's JSON file; without it the example rig answers")
    parser.add_argument("--address", default="", help="for share: the page that the link is to open")
    parser.add_argument("--units", default=units.US, help=" or ".join(units.PEOPLE))
    parser.add_argument("--rules", default=NEC, help=" or ".join(RULE_SETS))
    parser.add_argument("--date", help="of the plan's first day, like 2027-06-18; only with day")
    parser.add_argument("--json", action="store_true")
    told = parser.parse_intermixed_args(words)
    for name, known in (("units", units.PEOPLE), ("rules", RULE_SETS)):
        if getattr(told, name) not in known:
            raise Unusable(f"--{name} must be {' or '.join(known)}.", name)
    if told.date is not None and told.check != "day":
        raise Unusable("--date is said with day only.", "date")
    if told.date is not None and not re.fullmatch(DATE, told.date):
        raise Unusable("--date must be written like 2027-06-18.", "date")
    return told


def _carried_out(told: argparse.Namespace) -> str:
    if told.check is None:
        return _json(as_json.catalogue()) if told.json else _list()
    if told.check in ("facts", "walk-round", "day", "share") and told.values:
        raise Unusable(f"{told.check} takes no values.")
    if told.check == "share":
        return _shared(told)
    if told.check == "read-shared":
        return _json(_read_shared(told.values))
    if told.check == "facts":
        return _json(schema())
    if told.check == "walk-round":
        found = walk_round(_rig(told.rig), told.rules)
        return _json(as_json.walk_round(found)) if told.json else _walked(found)
    if told.check == "day":
        foretold = day_of(_rig(told.rig), told.date)
        return _json(as_json.day(foretold)) if told.json else _foretold(foretold)
    asked = _asked(told)
    return _json(as_json.answer(asked)) if told.json else _spoken(asked)


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


def _list() -> str:
    lines: list[str] = []
    for chapter in CHAPTERS:
        if checks := checks_of(chapter):
            lines += [
                "",
                f"{chapter.name}: {chapter.about}",
                *(f"  {check.id:28} {check.question}" for check in checks),
            ]
    return "\n".join(lines[1:])


def _spoken(asked: Asked) -> str:
    """The answer as a careful colleague would write it down."""
    found = asked.answer()
    working_lines = asked.choices() + found.working() if found.results else []
    lines = [asked.kind.question, f"{found.verdict.upper()}. {found.say}"]
    lines += [f"  missing: {missing.label}. {missing.where}." for missing in found.missing]
    offers = asked.offers(found)
    lines += [f"  fix: {offer.say}" + (", then it is tight" if offer.verdict == "tight" else "") for offer in offers]
    if found.verdict == "no" and not offers:
        lines.append("  fix: no single change clears this")
    lines += [
        f"  {caution.signal}: {caution.hazard}. {caution.consequence}. {caution.avoid}."
        for caution in (asked.check.warnings() if asked.check else [])
    ]
    for requirement in found.requirements:
        condition = requirement.condition
        says = compared(condition) if isinstance(condition, Condition) else condition.says
        lines.append(
            f"  {requirement.verdict:9} {requirement.label}: {says}"
            + (f"; {requirement.margin}" if requirement.margin else "")
        )
    lines += [f"  {name} = {result}" for name, result in found.results.items()]
    lines += [f"  mind: {note}" for note in found.notes]
    lines += ["", "Working", *(_working_line(line) for line in working_lines)]
    lines += ["", "Your local code, the maker's manual and a licensed person decide."]
    return "\n".join(lines)


def _walked(found: WalkRound) -> str:
    """The walk-round as a colleague would read it out, worst first."""
    lines = [found.rig, f"{len(found.faults)} faults, {len(found.tight)} tight, {len(found.fine)} fine."]
    for fault in found.faults:
        lines += ["", f"FAULT  {_heading(fault)}: {fault.say}" + (f" ({fault.margin})" if fault.margin else "")]
        if fault.hazard:
            lines.append(
                f"  {fault.hazard.signal}: {fault.hazard.hazard}. {fault.hazard.consequence}. {fault.hazard.avoid}."
            )
        lines += [f"  clears it: {proposal.say}" for proposal in fault.proposals] or [
            "  no single change was found that clears it"
        ]
    lines += ["", *(f"TIGHT  {_heading(finding)}: {finding.say}" for finding in found.tight)]
    lines += ["", *(_unknown(unknown) for unknown in found.unknown)]
    lines += ["", *(f"NOT ANSWERED  {_heading(finding)}: {finding.say}" for finding in found.unanswered)]
    lines += ["", *(f"FINE  {_heading(finding)}: {finding.say}" for finding in found.fine)]
    return "\n".join([*lines, "", "Your local code, the maker's manual and a licensed person decide."])


def _foretold(found: Day) -> str:
    """The day as a colleague would tell it: does it last, what happens when, what would carry it through."""
    told = found.answer
    lines = [f"{found.rig.name}. {QUESTION}", f"{told.verdict.upper()}. {told.say}"]
    lines += [f"  missing: {missing.label}. {missing.where}." for missing in found.missing]
    if found.is_known:
        lines += ["", *(f"  {window.name}: {window.thing}, {window.when}" for window in found.course.plan.windows)]
        lines += ["", *(f"  {moment.kind} sun: {moment.say}" for moment in found.moments)]
        lines += ["", "  charge at        poor typical good    sun  taken  outlet", *map(_hour_line, found.hours[::3]), ""]
    lines += [f"  {held.verdict:9} {held.label}: {held.sentence}" for held in told.requirements]
    lines += [f"  carries it: {one.say}, then it is {one.verdict}" for one in found.carriers]
    if told.verdict == "no" and not found.carriers:
        lines.append("  carries it: no single change does")
    lines += [f"  {caution.signal}: {caution.hazard}. {caution.consequence}. {caution.avoid}." for caution in CAUTIONS]
    lines += [f"  {name} = {result}" for name, result in told.results.items()]
    lines += [f"  mind: {note}" for note in told.notes]
    if found.is_known:
        lines += ["", "Working", *(_working_line(line) for line in told.working())]
    return "\n".join([*lines, "", "Your local code, the maker's manual and a licensed person decide."])


def _hour_line(hour: Hour) -> str:
    charges = " ".join(f"{round(charge * 100):4} %" for charge in hour.charges.values())
    watts = "".join(f"{round(each):5} W" for each in (hour.sun, hour.taken, hour.wall))
    return f"  {hour.clock:24}{charges} {watts}"


def _unknown(unknown: Unknown) -> str:
    what = f"{unknown.label}, {unknown.subject}" if unknown.subject else unknown.label
    page = f"; asked by {unknown.check}" if unknown.check else ""
    return f"NOT KNOWN  {what}. {unknown.where}. ({unknown.waiting} wait for it{page})".replace("?.", "?")


def _heading(finding: Finding) -> str:
    return f"{finding.title}, {finding.subject}" if finding.subject else finding.title


def _working_line(line: Line) -> str:
    sides = dict.fromkeys(side for side in (line.symbol, line.formula, line.numbers, line.value) if side)
    aside = "; ".join(part for part in (line.note, line.source) if part)
    return f"  {line.label} ({line.kind}): {' = '.join(sides)}" + (f"  [{aside}]" if aside else "")


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
