"""The same question under the other rule set, told beside the answer on the pages that compare the two.

What the person chose is carried over: a wire by the nearest size that is not thicker, insulation and lugs by the
nearest class that is not higher. What the other rules ask besides takes its usual value, and is named.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from calc.asks import IEC, NEC, Ask, Pick
from calc.tables import table
from calc.units import mm2

if TYPE_CHECKING:
    from calc.check import Answer, Check, Result

_NAMES = {NEC: "The NEC", IEC: "IEC rules"}
_SAY = {NEC: "says", IEC: "say"}
# Classes of insulation and of lugs, by the field they stand in: never carried over to a higher one.
_CLASSES = {
    "insulation": {"75 °C": "PVC 70 °C", "90 °C": "XLPE 90 °C", "PVC 70 °C": "60 °C", "XLPE 90 °C": "90 °C"},
    "terminals": {"60 °C": "70 °C", "75 °C": "70 °C", "70 °C": "60 °C", "90 °C": "75 °C"},
}


class NoCounterpart(Exception):
    """What was chosen does not exist under the other rules; the message says why."""


def said_by_the_other_rules(check: Check, found: Answer) -> tuple[str, ...]:
    """Which rules answered, and what the others say of the nearest there is; empty where a page does not compare."""
    other = IEC if check.rules == NEC else NEC
    if not check.compared or other not in check.rule_sets:
        return ()
    answered = f"{_NAMES[check.rules]} answered."
    try:
        twin, taken = counterpart(check, other)
    except NoCounterpart as why:
        return (f"{answered} What {_NAMES[other]} {_SAY[other]} is not known: {why}",)
    there = twin.answer()
    told = _compared(check, found, there)
    asked = f" Asked there with {', '.join(taken)}." if taken else ""
    return (f"{answered} {_NAMES[other]} {_SAY[other]} {there.verdict}: {there.say}{' ' if told else ''}{told}{asked}",)


def counterpart(check: Check, other: str) -> tuple[Check, list[str]]:
    """The same form under the other rules, and the choices in it that had to be made anew. Raises NoCounterpart."""
    why = check.not_compared()
    if why:
        raise NoCounterpart(why)
    values: dict[str, Any] = {}
    for name, spec in check.asks.items():
        if check.rules in spec.rules and other in spec.rules:
            value = getattr(check, name)
            values[name] = value if isinstance(spec, Ask) else _nearest(name, spec, value, other)
    twin = type(check)(other, **values)
    anew = [
        f"{spec.label[0].lower()}{spec.label[1:]} {getattr(twin, name)}"
        for name, spec in twin.asks.items()
        if isinstance(spec, Pick) and twin.asked(name) and getattr(check, name, None) != getattr(twin, name)
    ]
    return twin, anew


def _nearest(name: str, spec: Pick, value: str, other: str) -> str:
    options = spec.options(other)
    if value in options:
        return value
    if name in _CLASSES:
        carried = _CLASSES[name].get(value)
        if carried is None:
            raise NoCounterpart(f"no wire for {value} is listed there.")
        return carried
    if value.endswith(("AWG", "kcmil", "mm2")):
        return _not_thicker(value, options)
    return spec.default(other)


def _not_thicker(size: str, options: tuple[str, ...]) -> str:
    area = _area(size)
    fitting = [other for other in options if other.endswith(("AWG", "kcmil", "mm2")) and _area(other) <= area * _ALIKE]
    if not fitting:
        raise NoCounterpart(f"no size as thin as {size} is listed there.")
    return max(fitting, key=_area)


_ALIKE = 1.001


def _area(size: str) -> float:
    """Square millimetres, for finding the nearest size."""
    if size.endswith("mm2"):
        return float(size.split()[0])
    return table("conductor_resistance").value(size, "mm2", mm2).number_in(mm2)


def _compared(check: Check, found: Answer, there: Answer) -> str:
    parts = []
    for name in check.compared:
        here, beyond = found.results.get(name), there.results.get(name)
        if here is not None and beyond is not None:
            parts.append(f"{_label(here)}: {here} here, {beyond} there")
    return f"{'; '.join(parts)}." if parts else ""


def _label(result: Result) -> str:
    step = getattr(result, "step", None)
    label: str = step.label if step else getattr(result, "label", "")
    return label
