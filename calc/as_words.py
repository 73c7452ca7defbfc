"""Answers as a careful colleague would write them down or read them out, for a shell."""

from __future__ import annotations

from calc.catalogue import CHAPTERS, checks_of
from calc.day import CAUTIONS, QUESTION, Day
from calc.form import Asked
from calc.planning.moments import Hour
from calc.printing import Line, compared
from calc.quantity import Condition
from calc.walkround import Finding, Unknown, WalkRound


def catalogue() -> str:
    lines: list[str] = []
    for chapter in CHAPTERS:
        if checks := checks_of(chapter):
            lines += [
                "",
                f"{chapter.name}: {chapter.about}",
                *(f"  {check.id:28} {check.question}" for check in checks),
            ]
    return "\n".join(lines[1:])


def answer(asked: Asked) -> str:
    """The answer as a careful colleague would write it down."""
    found = asked.answer()
    working_lines = asked.choices() + found.working() if found.results else []
    lines = [asked.kind.question, f"{found.verdict.upper()}. {found.say}"]
    lines += [f"  missing: {missing.label}. {missing.where}." for missing in found.missing]
    lines += [f"  wanted, for a verdict: {wish.label}. {wish.where}." for wish in found.wishes]
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


def walk_round(found: WalkRound) -> str:
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


def day(found: Day) -> str:
    """The day as a colleague would tell it: does it last, what happens when, what would carry it through."""
    told = found.answer
    lines = [f"{found.rig.name}. {QUESTION}", f"{told.verdict.upper()}. {told.say}"]
    lines += [f"  missing: {missing.label}. {missing.where}." for missing in found.missing]
    if found.is_known:
        lines += ["", *(f"  {window.name}: {window.thing}, {window.when}" for window in found.course.plan.windows)]
        lines += ["", *(f"  {moment.kind} sun: {moment.say}" for moment in found.moments)]
        lines += [
            "",
            "  charge at        poor typical good    sun  taken  outlet",
            *map(_hour_line, found.hours[::3]),
            "",
        ]
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
