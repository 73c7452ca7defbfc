"""The day as a curve: the charge over three days with poor, typical and good sun, and below it what runs when.

Classes for the page's own colours: `day-curve` the drawing; `grid`, `floor`, `band`, `typical`, `poor`, `good`, `empty`;
below, `sun` and the windows `load`, `car` and `wall`. Curves are told apart by weight and dashes, windows by filling:
nothing by hue. It holds no text that anybody typed; the hours stand in the page's table as well.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from calc.clock import DAY
from calc.day import Day
from calc.facts.job import A_CAR, A_LOAD, THE_WALL
from calc.planning.moments import EMPTY, at_clock
from calc.planning.sun_by_clock import GOOD, KINDS, POOR, STEP, TYPICAL
from calc.quantity import Quantity
from calc.units import percent

_WIDTH, _LEFT, _RIGHT = 360.0, 46.0, 354.0
_TOP, _FOOT = 8.0, 158.0
_LEGEND, _LANES, _LANE = 194.0, 206.0, 26.0
_WORDS = {A_LOAD: ("load", "Loads"), A_CAR: ("car", "Cars"), THE_WALL: ("wall", "Outlet")}
_DAYS = ("first", "second", "third", "fourth")
# Points of a curve: every twenty minutes is finer than a phone shows.
_EVERY = 2


def curve(day: Day) -> str:
    """The plan of a day that is known, as inline SVG."""
    lanes = [*([("sun", "Sun")] if day.course.site else []), *_lanes(day)]
    height = _LANES + _LANE * len(lanes) + 4
    inside = "".join([_grid(day, height), _band(day), *(_line(day, kind) for kind in KINDS), _empties(day), _legend()])
    drawn = "".join(_lane(day, kind, word, _LANES + _LANE * place) for place, (kind, word) in enumerate(lanes))
    title = _in_words(day)
    return (
        f'<svg class="day-curve" viewBox="0 0 {_WIDTH:.0f} {height:.0f}" role="img" aria-label="{title}">'
        f"<title>{title}</title>{inside}{drawn}</svg>"
    )


def _in_words(day: Day) -> str:
    """What the curve shows, for who cannot see it."""
    run = day.runs[TYPICAL]
    parts = [
        f"{kind} sun {day.runs[kind].charge_shown(day.runs[kind].lowest + 1)} at {at_clock(day.course.minute(day.runs[kind].lowest + 1))}"
        for kind in KINDS
    ]
    return (
        f"Charge over three days: {run.charge_shown(0)} at the start; at its lowest with {', with '.join(parts)}; "
        f"the charge kept back is {Quantity(min(day.course.floors), percent)} and more when cold. The table below has the hours."
    )


# --- the frame -----------------------------------------------------------------------------------------------------


def _x(day: Day, minute: float) -> float:
    return _LEFT + (minute - day.course.plan.begins) / (day.course.count * STEP) * (_RIGHT - _LEFT)


def _y(charge: float) -> float:
    return _FOOT - min(max(charge, 0.0), 1.0) * (_FOOT - _TOP)


def _text(x: float, y: float, words: str, anchor: str = "middle") -> str:
    return f'<text x="{x:.1f}" y="{y:.1f}" text-anchor="{anchor}" font-size="12">{words}</text>'


def _grid(day: Day, height: float) -> str:
    parts = []
    for share in (0, 50, 100):
        y = _y(share / 100)
        parts += [f'<path class="grid" d="M{_LEFT:.1f} {y:.1f}H{_RIGHT:.1f}"/>', _text(_LEFT - 4, y + 4, f"{share} %", "end")]
    begins, ends = day.course.plan.begins, day.course.plan.begins + day.course.count * STEP
    for minute in range(0, ends + 1, DAY // 4):
        if not begins <= minute <= ends:
            continue
        x = _x(day, minute)
        below = f"M{x:.1f} {_LANES:.1f}V{height - 4:.1f}" if minute % DAY == 0 else ""
        parts.append(f'<path class="{"midnight" if below else "grid"}" d="M{x:.1f} {_TOP:.1f}V{_FOOT:.1f}{below}"/>')
        if minute % DAY == DAY // 2:
            parts.append(_text(x, _FOOT + 14, f"{_DAYS[minute // DAY]} day"))
    return "".join(parts)


# --- the charge ----------------------------------------------------------------------------------------------------


def _points(day: Day, charges: Sequence[float]) -> list[tuple[float, float]]:
    indices = [*range(0, len(charges), _EVERY)]
    return [(_x(day, day.course.minute(index)), _y(charges[index])) for index in indices]


def _path(points: Iterable[tuple[float, float]]) -> str:
    return " ".join(f"{x:.1f},{y:.1f}" for x, y in points)


def _line(day: Day, kind: str) -> str:
    return f'<polyline class="{kind}" points="{_path(_points(day, day.runs[kind].bank.charges))}"/>'


def _band(day: Day) -> str:
    """What lies between poor and good sun; and the charge that is kept back."""
    poor, good = (_points(day, day.runs[kind].bank.charges) for kind in (POOR, GOOD))
    floors = _points(day, [*day.course.floors, day.course.floors[-1]])
    return (
        f'<polygon class="band" points="{_path([*good, *reversed(poor)])}"/>'
        f'<polyline class="floor" points="{_path(floors)}"/>'
    )


def _empties(day: Day) -> str:
    """A cross where the bank runs out."""
    parts = []
    for moment in day.moments:
        if moment.what == EMPTY:
            x, y = _x(day, moment.minute), _y(day.course.floors[(moment.minute - day.course.plan.begins) // STEP])
            parts.append(f'<path class="empty" d="M{x - 5:.1f} {y - 5:.1f}l10 10m0 -10l-10 10"/>')
    return "".join(parts)


def _legend() -> str:
    parts, x = [], _LEFT
    for kind, wide in ((POOR, 68), (TYPICAL, 80), (GOOD, 68)):
        parts += [f'<path class="{kind}" d="M{x:.1f} {_LEGEND - 4:.1f}h24"/>', _text(x + 28, _LEGEND, kind, "start")]
        x += wide
    parts += [f'<path class="floor" d="M{x:.1f} {_LEGEND - 4:.1f}h24"/>', _text(x + 28, _LEGEND, "kept back", "start")]
    return "".join(parts)


# --- what runs when ------------------------------------------------------------------------------------------------


def _lanes(day: Day) -> list[tuple[str, str]]:
    there = {window.what for window in day.course.plan.windows}
    return [lane for what, lane in _WORDS.items() if what in there]


def _lane(day: Day, kind: str, word: str, top: float) -> str:
    label = _text(_LEFT - 4, top + _LANE - 9, word, "end")
    return label + (_sun(day, top) if kind == "sun" else _windows(day, kind, top))


def _sun(day: Day, top: float) -> str:
    """The typical sun's power, as high as the lane at its most."""
    watts = day.runs[TYPICAL].sun
    most, foot = max(max(watts), 1.0), top + _LANE - 4
    points = [(_x(day, day.course.minute(index) + STEP / 2), foot - watts[index] / most * (_LANE - 6)) for index in range(0, len(watts), _EVERY)]
    return f'<polygon class="sun" points="{_LEFT:.1f},{foot:.1f} {_path(points)} {_RIGHT:.1f},{foot:.1f}"/>'


def _windows(day: Day, kind: str, top: float) -> str:
    begins, ends = day.course.plan.begins, day.course.plan.begins + day.course.count * STEP
    parts = []
    for window in day.course.plan.windows:
        if _WORDS[window.what][0] != kind:
            continue
        for start, end in window.spans(day.course.days):
            first, last = max(start, begins), min(end, ends)
            if first < last:
                x, wide = _x(day, first), max(1.5, _x(day, last) - _x(day, first))
                parts.append(f'<rect class="{kind}" x="{x:.1f}" y="{top + 5:.1f}" width="{wide:.1f}" height="{_LANE - 12:.1f}"/>')
    return "".join(parts)
