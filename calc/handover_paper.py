"""The hand-over sheet to pass on: as plain text, or as one HTML file that needs no other."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from pathlib import Path

import calc
from calc.check import NEC
from calc.handover import Sheet, Use
from calc.pages import hand_over
from calc.rendering import Renderer
from calc.rig import Rig

_YES = {"go": "Yes", "tight": "Just", "no": "Do not use it", "not known": "Not known: do not use it"}


def as_text(sheet: Sheet) -> str:
    return "\n".join(_lines(sheet))


def as_html(rig: Rig | None, rules: str = NEC, date: str = "", version: str = "") -> str:
    """The sheet as a file of its own, in the pages' own style, to be printed or sent."""
    style = (Path(calc.__path__[0]).parent / "site" / "styles" / "look.css").read_text(encoding="utf-8")
    return Renderer().render("hand_over_alone.html", style=style, example=False, **hand_over(rig, rules, {"date": date, "version": version}))


def _lines(sheet: Sheet) -> Iterator[str]:
    yield sheet.rig or "A rig without a name"
    yield f"Date: {sheet.date or '__________'}" + (f"  Version: {sheet.version}" if sheet.version else "")
    if sheet.faults:
        yield from _part("Open faults: to be cleared before it is lent", sheet.faults)
    if sheet.unanswered:
        yield f"Without an answer yet, for want of facts: {sheet.unanswered}"
    yield from _part("In need", _numbered(sheet.emergency))
    yield from _part("What may be plugged in", _plugs(sheet))
    yield from _part("Limits", (f"{label}: {value}" for label, value in sheet.limits))
    for title, steps in sheet.procedures:
        yield from _part(title, _numbered(steps))
    yield from _part(
        "Fuses and breakers",
        (f"{device.name}: {device.what}. Where: {device.where}. Feeds: {device.feeds}" for device in sheet.devices),
    )
    yield from _part(
        "Cautions",
        (f"{one.signal}: {one.hazard}. {one.consequence}. {one.avoid}." for one in sheet.cautions),
    )
    yield from _part(
        "All numbers it was held to",
        (
            f"{group.title}: " + "; ".join(f"{label} {', '.join(limits)}" for label, limits in group.limits)
            for group in sheet.limits_of_the_round
        ),
    )
    yield ""
    yield "Your local code, the maker's manual and a licensed person decide."


def _part(title: str, lines: Iterable[str]) -> Iterator[str]:
    yield ""
    yield title
    yield from (f"  {line}" for line in lines)


def _numbered(steps: Iterable[str]) -> Iterator[str]:
    return (f"{number}. {step}." for number, step in enumerate(steps, 1))


def _plugs(sheet: Sheet) -> Iterator[str]:
    for name, pattern, hours, most, leg, ground_fault in sheet.outlet_rows:
        yield f"{name}, {pattern}: {hours} for 3 hours or more, {most} at most. Leg: {leg}. Ground fault: {ground_fault}"
    if not sheet.outlets:
        yield "No outlet of this rig is known: plug nothing in."
    yield f"All outlets together: {sheet.limits[0][1]}. One leg: {sheet.one_leg}."
    yield from (_use(used) for used in (*sheet.cars, *sheet.tools))
    yield "Nothing else without asking; nothing through a plain adapter."


def _use(used: Use) -> str:
    return f"{used.name} at {used.where}: {_YES[used.verdict]}. {used.say.rstrip('.')}."
