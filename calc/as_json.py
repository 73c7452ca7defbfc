"""Answers as JSON. Every number is `{"value", "unit"}` in the unit it is shown in, unrounded."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from calc import units
from calc.catalogue import CHAPTERS, all_checks, checks_of
from calc.check import Ask, Caution, Check, Missing, Named, Offer, Pick, Result, as_stated
from calc.clock import DAY, clock_at
from calc.day import CAUTIONS, QUESTION, Day
from calc.form import Asked, field_unit, shown_text
from calc.planning.course import DAYS_AHEAD
from calc.planning.moments import Hour, Moment
from calc.planning.plan import Window
from calc.planning.sun_by_clock import STEP
from calc.printing import Line
from calc.quantity import Quantity
from calc.rig import Known
from calc.walkround import Finding, Unknown, WalkRound


def number(quantity: Quantity) -> dict[str, Any]:
    return {"value": quantity.shown, "unit": quantity.unit.sign}


def value(of: Quantity | str) -> dict[str, Any] | str:
    return of if isinstance(of, str) else number(of)


def answer(asked: Asked) -> dict[str, Any]:
    """One answer, whole: verdict, results, what was given, fixes, cautions, working, what is missing."""
    found = asked.answer()
    check = asked.check
    assert check is not None
    lines = asked.choices() + found.working() if found.results else []
    return {
        "check": asked.kind.id,
        "question": asked.kind.question,
        "rules": asked.rules,
        "verdict": found.verdict,
        "say": found.say,
        "results": {name: _result(name, result) for name, result in found.results.items()},
        "given": _given(asked, check),
        "origins": {name: origin for name, origin in asked.origins.items() if check.asked(name)},
        "rests_on": [
            {
                "label": requirement.label,
                "verdict": requirement.verdict,
                "say": requirement.sentence,
                "use": requirement.use,
            }
            for requirement in found.requirements
        ],
        "fixes": [_fix(offer) for offer in asked.offers(found)],
        "cautions": [_caution(caution) for caution in check.warnings()],
        "notes": list(found.notes),
        "working": [_line(line) for line in lines],
        "missing": _where_to_find(found.missing),
    } | ({"wishes": _where_to_find(found.wishes)} if found.wishes else {})


def _where_to_find(facts: Iterable[Missing]) -> list[dict[str, str]]:
    return [{"name": one.name, "label": one.label, "where": one.where} for one in facts]


def _result(name: str, result: Result) -> dict[str, Any]:
    if isinstance(result, Named):
        return {"label": result.label, "value": result.text, "unit": ""}
    return {"label": result.step.label if result.step else name, **number(result)}


def _given(asked: Asked, check: Check) -> dict[str, Any]:
    return {name: _stated(getattr(check, name)) for name in check.asks if check.asked(name) and name in asked.origins}


def _stated(of: Quantity | str) -> dict[str, Any] | str:
    return of if isinstance(of, str) else number(as_stated(of))


def _fix(offer: Offer) -> dict[str, Any]:
    return {
        "say": offer.say,
        "set": {name: value(change) for name, change in offer.change.items()},
        "verdict": offer.verdict,
    }


def _line(line: Line) -> dict[str, Any]:
    return {
        "kind": line.kind,
        "symbol": line.symbol,
        "label": line.label,
        "formula": line.formula,
        "numbers": line.numbers,
        **(number(line.quantity) if line.quantity is not None else {"value": line.value, "unit": ""}),
        "source": line.source,
        "note": line.note,
    }


def day(found: Day) -> dict[str, Any]:
    """A plan foretold, whole."""
    plan = found.course.plan if found.is_known else None
    return {
        "rig": found.rig.name,
        "question": QUESTION,
        "verdict": found.answer.verdict,
        "say": found.answer.say,
        "date": found.rig.facts.get("plan.date"),
        "month": found.month,
        "begins": clock_at(plan.begins) if plan else None,
        "days": DAYS_AHEAD,
        "step": {"value": STEP, "unit": "min"},
        "windows": [_window(window) for window in plan.windows] if plan else [],
        "results": {name: _result(name, result) for name, result in found.answer.results.items()},
        "rests_on": [
            {"label": held.label, "verdict": held.verdict, "say": held.sentence, "use": held.use}
            for held in found.answer.requirements
        ],
        "moments": [_moment(moment) for moment in found.moments] if plan else [],
        "hours": [_hour(hour) for hour in found.hours] if plan else [],
        "fixes": [
            {"say": one.say, "set": {path: number(fact) for path, fact in one.facts.items()}, "verdict": one.verdict}
            for one in found.carriers
        ],
        "cautions": [_caution(caution) for caution in CAUTIONS],
        "notes": list(found.answer.notes),
        "working": [_line(line) for line in found.answer.working()] if plan else [],
        "missing": _where_to_find(found.missing),
    }


def _window(window: Window) -> dict[str, Any]:
    return {
        "name": window.name,
        "what": window.what,
        "thing": window.thing,
        "begins": clock_at(window.begins),
        "ends": clock_at(window.ends),
        "days": window.days,
        "watts": None if window.watts is None else number(window.watts),
        "amps": None if window.amps is None else number(window.amps),
        "share": None if window.share is None else number(window.share),
    }


def _moment(moment: Moment) -> dict[str, Any]:
    return {
        "day": moment.minute // DAY + 1,
        "clock": clock_at(moment.minute),
        "sun": moment.kind,
        "what": moment.what,
        "say": moment.say,
    }


def _hour(hour: Hour) -> dict[str, Any]:
    shown = Quantity(hour.cells, units.usual(units.degC))
    return {
        "day": hour.minute // DAY + 1,
        "clock": clock_at(hour.minute),
        "charge": {kind: number(Quantity(charge, units.percent)) for kind, charge in hour.charges.items()},
        "sun": number(Quantity(hour.sun, units.W)),
        "taken": number(Quantity(hour.taken, units.W)),
        "outlet": number(Quantity(hour.wall, units.W)),
        "cells": number(shown),
    }


def walk_round(found: WalkRound) -> dict[str, Any]:
    """A walk-round, whole."""
    return {
        "rig": found.rig,
        "rules": found.rules,
        "faults": [_finding(finding) for finding in found.faults],
        "tight": [_finding(finding) for finding in found.tight],
        "unknown": [_unknown(one) for one in found.unknown],
        "unanswered": [_finding(finding) for finding in found.unanswered],
        "fine": [_finding(finding) for finding in found.fine],
    }


def _unknown(unknown: Unknown) -> dict[str, Any]:
    told: dict[str, Any] = {"label": unknown.label, "where": unknown.where, "waiting": unknown.waiting}
    return told | {"subject": unknown.subject, "fact": unknown.fact or None, "check": unknown.check or None}


def _finding(finding: Finding) -> dict[str, Any]:
    return {
        "title": finding.title,
        "subject": finding.subject,
        "check": finding.check or None,
        "verdict": finding.verdict,
        "say": finding.say,
        "margin": finding.margin,
        "hazard": _caution(finding.hazard) if finding.hazard else None,
        "proposals": [
            {"say": proposal.say, "facts": {path: fact_as_json(fact) for path, fact in proposal.facts.items()}}
            for proposal in finding.proposals
        ],
    }


def fact_as_json(known: Known) -> dict[str, Any] | str | list[str]:
    return list(known) if isinstance(known, tuple) else value(known)


def _caution(caution: Caution) -> dict[str, str]:
    return {
        "signal": caution.signal,
        "hazard": caution.hazard,
        "consequence": caution.consequence,
        "avoid": caution.avoid,
    }


def catalogue() -> dict[str, Any]:
    """The list of chapters and checks, with what each asks."""
    return {
        "chapters": [
            {"name": chapter.name, "about": chapter.about, "checks": [check.id for check in checks_of(chapter)]}
            for chapter in CHAPTERS
        ],
        "checks": [
            {
                "id": check.id,
                "question": check.question,
                "title": check.title,
                "rules": list(check.rule_sets),
                "asks": [_ask(name, spec) for name, spec in check.asks.items()],
            }
            for check in all_checks()
        ],
    }


def _ask(name: str, spec: Ask | Pick) -> dict[str, Any]:
    told: dict[str, Any] = {"name": name, "label": spec.label, "help": spec.help, "fact": spec.fact or None}
    told |= {
        "rules": list(spec.rules),
        "when": [dict(case) for case in spec.cases],
        "may_be_assumed": any(spec.may_be_assumed(rules) for rules in spec.rules),
    }
    if isinstance(spec, Pick):
        options = {rules: list(spec.options(rules)) for rules in spec.rules}
        return told | {"options": options, "default": {rules: spec.default(rules) for rules in spec.rules}}
    unit = field_unit(spec)
    bounds = {key: number(bound.shown_in(unit)) for key, bound in (("low", spec.low), ("high", spec.high))}
    return (
        told
        | bounds
        | {"default": {"value": float(shown_text(spec.default.shown_in(unit)).replace("−", "-")), "unit": unit.sign}}
    )
