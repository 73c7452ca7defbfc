"""Re-works a printed line from its printed numbers alone: another parser, another units library, intervals.

Given, read and constant numbers print as they were read and count as exact; a worked number is known only to one
unit of its last printed figure. A line stands if the interval worked from its numbers meets its printed result.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

import pint
from mpmath import iv

from calc.printing import Line, printed
from calc.quantity import Quantity

NBSP = "\u00a0"
_FROM_SUPERSCRIPT = str.maketrans("⁻⁰¹²³⁴⁵⁶⁷⁸⁹", "-0123456789")
_registry = pint.UnitRegistry()
_registry.define("mpge = mile / (33.7 * kilowatt_hour)")  # 40 CFR 600.311-12
_registry.define("electric_hp = 746 * watt")
_registry.define("dollar = [money]")

# The printed signs, spelled for pint's own definitions (not ours).
_SPELLED = {
    "%": "0.01", "wires": "1", "mΩ": "milliohm", "Ω": "ohm", "Ω/kft": "ohm / kilofoot", "Ω/km": "ohm / kilometer",
    "Ω·mm²/m": "ohm * millimeter**2 / meter", "1/K": "1 / kelvin", "1/W": "1 / watt",
    "kVA/hp": "kilovolt * ampere / electric_hp", "VA": "volt * ampere", "kVA": "kilovolt * ampere", "hp": "electric_hp",
    "mm²": "millimeter**2", "in": "inch", "cmil": "circular_mil", "mi/kWh": "mile / kilowatt_hour",
    "km/kWh": "kilometer / kilowatt_hour", "kWh/100 mi": "kilowatt_hour / (100 * mile)", "MPGe": "mpge",
    "µH": "microhenry", "A²s": "ampere**2 * second", "days": "day", "kWh/day": "kilowatt_hour / day", "mph": "mile / hour",
    "km/h": "kilometer / hour", "m/s": "meter / second", "m/s²": "meter / second**2", "mi/h added": "mile / hour",
    "°": "degree", "lbf": "pound_force", "N·m": "newton * meter", "lbf·in": "pound_force * inch", "m²": "meter**2",
    "cm²": "centimeter**2", "m³": "meter**3", "m³/h": "meter**3 / hour", "cfm": "foot**3 / minute",
    "mm²/s": "millimeter**2 / second", "µPa·s": "micropascal * second", "kg/m³": "kilogram / meter**3", "°F apart": "5 / 9 * kelvin", "kWh/m²": "kilowatt_hour / meter**2", "W/K": "watt / kelvin", "W/m²": "watt / meter**2",
    "W/(m²·K)": "watt / meter**2 / kelvin", "W/(m·K)": "watt / meter / kelvin", "J/(kg·K)": "joule / kilogram / kelvin",
    "%/K": "0.01 / kelvin", "kg/kWh": "kilogram / kilowatt_hour", "L": "liter", "gal": "gallon", "gal/h": "gallon / hour",
    "L/h": "liter / hour", "gal/kWh": "gallon / kilowatt_hour", "L/kWh": "liter / kilowatt_hour", "$": "dollar",
    "$/kWh": "dollar / kilowatt_hour", "$/mi": "dollar / mile", "$/km": "dollar / kilometer",
    "$/gal": "dollar / gallon", "$/L": "dollar / liter",
    "kWh/100 km": "kilowatt_hour / (100 * kilometer)", "min": "minute", "h": "hour", "Ah": "ampere_hour",
    "1/m": "1 / meter", "kg·m": "kilogram * meter", "N": "newton", "Pa": "pascal", "kPa": "kilopascal", "MPa": "megapascal", "psi": "pound_force / inch**2", "J": "joule", "cm": "centimeter",
    "A²s/mm⁴": "ampere**2 * second / millimeter**4", "mF": "millifarad", "Hz": "hertz", "kA": "kiloampere", "mA": "milliampere", "µF": "microfarad", "kΩ": "kiloohm", "ms": "millisecond",
}  # fmt: skip
_SIGNS = sorted(
    [
        *_SPELLED,
        "A",
        "V",
        "mV",
        "W",
        "kW",
        "Wh",
        "kWh",
        "s",
        "m",
        "mm",
        "km",
        "ft",
        "mi",
        "kg",
        "lb",
        "K",
        "°C",
        "°F",
        "Wh/mi",
        "Wh/km",
    ],
    key=len,
    reverse=True,
)
_NUMBER = r"\d+(?:\.\d+)?(?: × 10[⁻⁰¹²³⁴⁵⁶⁷⁸⁹]+)?"
_TOKEN = re.compile(rf"(−)?({_NUMBER})(?:{NBSP}?({'|'.join(map(re.escape, _SIGNS))}))?(?![\d.])")

# The published lists, written down here a second time: NEC 2023, 240.6(A) for breakers; IEC 60269-1, rated currents.
_NEC_RATINGS = (10, 15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100, 110, 125, 150, 175, 200, 225, 250, 300, 350, 400, 450, 500, 600, 700, 800, 1000, 1200, 1600, 2000, 2500, 3000, 4000, 5000, 6000)  # fmt: skip
_NEC_FUSES = tuple(sorted((*_NEC_RATINGS, 1, 3, 6, 601)))
_IEC_RATINGS = (6, 10, 16, 20, 25, 32, 40, 50, 63, 80, 100, 125, 160, 200, 250, 315, 400, 500, 630, 800, 1000, 1250)


@dataclass(frozen=True)
class Span:
    """An interval with a dimension."""

    span: Any
    dimension: Any

    def __add__(self, other: Span) -> Span:
        assert self.dimension == other.dimension, "unlike things added"
        return Span(self.span + other.span, self.dimension)

    def __sub__(self, other: Span) -> Span:
        assert self.dimension == other.dimension, "unlike things subtracted"
        return Span(self.span - other.span, self.dimension)

    def __mul__(self, other: Span) -> Span:
        return Span(self.span * other.span, self.dimension * other.dimension)

    def __truediv__(self, other: Span) -> Span:
        return Span(self.span / other.span, self.dimension / other.dimension)

    def __pow__(self, exponent: int) -> Span:
        return Span(self.span**exponent, self.dimension**exponent)

    def __neg__(self) -> Span:
        return Span(-self.span, self.dimension)


def _root(of: Span) -> Span:
    low = max(of.span.a, iv.mpf(0).a)
    return Span(iv.sqrt(iv.mpf([low, of.span.b])), of.dimension**0.5)


def _lowest(*of: Span) -> Span:
    return Span(iv.mpf([min(x.span.a for x in of), min(x.span.b for x in of)]), of[0].dimension)


def _highest(*of: Span) -> Span:
    return Span(iv.mpf([max(x.span.a for x in of), max(x.span.b for x in of)]), of[0].dimension)


def _rating(ratings: tuple[int, ...], up: bool) -> Callable[[Span], Span]:
    """The next entry of a published list, for both ends of what the printed number may be."""

    def entry(number: float) -> int:
        return min(rating for rating in ratings if rating >= number) if up else max(r for r in ratings if r <= number)

    hair = -1e-9 if up else 1e-9
    return lambda of: Span(iv.mpf([entry(float(of.span.a) + hair), entry(float(of.span.b) + hair)]), of.dimension)


def _ends(function: Callable[[Any], Any]) -> Callable[[Span], Span]:
    """A monotone function of both ends of an interval, with a hair for its own rounding."""

    def of(span: Span) -> Span:
        bounds = sorted(float(function(float(end))) for end in (span.span.a, span.span.b))
        return Span(iv.mpf([bounds[0] - 1e-12, bounds[1] + 1e-12]), span.dimension)

    return of


def _whole(sign: str, up: bool) -> Callable[[Span], Span]:
    """The next whole number of a printed unit, for both ends of what the printed number may be."""

    def entry(number: float) -> float:
        unit = 1.0 * _registry.parse_expression(_SPELLED.get(sign, sign)) if sign else _registry.Quantity(1.0)
        scale = float(unit.to_base_units().magnitude)
        return scale * (math.ceil(number / scale - 1e-9) if up else math.floor(number / scale + 1e-9))

    return lambda of: Span(iv.mpf([entry(float(of.span.a)), entry(float(of.span.b))]), of.dimension)


_FUNCTIONS = {"sin": lambda of: Span(iv.sin(of.span), of.dimension), "cos": lambda of: Span(iv.cos(of.span), of.dimension),
              "tan": lambda of: Span(iv.tan(of.span), of.dimension), "asin": _ends(math.asin), "acos": _ends(math.acos), "atan": _ends(math.atan),
              "root": _root, "lowest": _lowest, "highest": _highest, 
              "log": lambda of: Span(iv.log(of.span), of.dimension), "exp": lambda of: Span(iv.exp(of.span), of.dimension)}  # fmt: skip
_NAMES = {"√(": "root(", "min(": "lowest(", "max(": "highest(", "ln(": "log(", "⌊": "whole_down(", "⌋": ")", "⌈": "whole_up(", "⌉": ")", "next standard rating up(": "rating_up(", "next standard rating down(": "rating_down(", "next standard fuse up(": "fuse_up(", "next standard fuse down(": "fuse_down("}  # fmt: skip


@lru_cache(maxsize=20_000)
def _span(number: str, sign: str | None, negative: bool, exact: bool) -> Span:
    digits, _, exponent = number.partition(" × 10")
    scale = 10.0 ** int(exponent.translate(_FROM_SUPERSCRIPT) or 0)
    decimals = len(digits.partition(".")[2])
    value, last = (
        float(digits),
        0.0 if exact else 10.0**-decimals * (1.0 if "." in digits or len(digits) <= 3 else 10.0 ** (len(digits) - 3)),
    )
    bounds = sorted(side * scale * (-1 if negative else 1) for side in (value - last, value + last))
    if sign in ("°C", "°F"):
        kelvins = [
            _registry.Quantity(bound, "degC" if sign == "°C" else "degF").to("kelvin").magnitude for bound in bounds
        ]
        return Span(iv.mpf(kelvins), _registry.kelvin.dimensionality)
    unit = _registry.parse_expression(_SPELLED.get(sign or "", sign or "1")) if sign else 1
    plain = _registry.Quantity(1.0) * unit
    base = plain.to_base_units()
    if base.check("[]") or not sign:
        return Span(iv.mpf(bounds) * float(base.magnitude), _registry.dimensionless.dimensionality)
    return Span(iv.mpf(bounds) * float(base.magnitude), base.dimensionality)


def _exact_texts(quantity: Quantity) -> set[str]:
    """The printed texts of operands that were read or typed, and so are exact."""
    found: set[str] = set()
    pending = list(quantity.operands)
    while pending:
        operand = pending.pop()
        if operand.step or not operand.operands:
            if operand.exact:
                found.add(printed(operand))
        else:
            pending += operand.operands
    return found


@dataclass(frozen=True)
class Printed:
    """All of a line that is printed and counts. Lines that print alike stand or fall alike, and are worked once."""

    label: str
    symbol: str
    numbers: str
    value: str
    exact_numbers: frozenset[str]
    exact: bool
    unit: str
    iec: bool

    @classmethod
    def of(cls, line: Line) -> Printed:
        quantity = line.quantity
        assert quantity is not None
        exact, iec = frozenset(_exact_texts(quantity)), "IEC" in line.source
        return cls(line.label, line.symbol, line.numbers, line.value, exact, quantity.exact, quantity.unit.sign, iec)

    def reworked(self) -> tuple[Span, Span]:
        """What the line's numbers give, and what the line says they give."""
        spans: list[Span] = []

        def replaced(found: re.Match[str]) -> str:
            text = found[0].removeprefix("−")
            on_a_scale = found[3] in ("°C", "°F")
            known = text in self.exact_numbers or found[0] in self.exact_numbers or found[2] in ("0", "1", "2", "4")
            spans.append(_span(found[2], found[3], bool(found[1]) and on_a_scale, known))
            return f"{'-' if found[1] and not on_a_scale else ''}spans[{len(spans) - 1}]"

        powers = re.compile(r"([²³])")
        text = self.numbers
        for sign, name in _NAMES.items():
            text = text.replace(sign, name)
        units_aside = _TOKEN.sub(replaced, text)
        formula = powers.sub(lambda found: {"²": "**2", "³": "**3"}[found[1]], units_aside)
        formula = formula.replace("·", "*").replace("−", "-").replace(NBSP, " ")
        ratings = _IEC_RATINGS if self.iec else _NEC_RATINGS
        lists = {"rating_up": _rating(ratings, up=True), "rating_down": _rating(ratings, up=False)}
        lists |= {"fuse_up": _rating(_NEC_FUSES, up=True), "fuse_down": _rating(_NEC_FUSES, up=False)}
        lists |= {"whole_up": _whole(self.unit, up=True), "whole_down": _whole(self.unit, up=False)}
        result = eval(formula, {"__builtins__": {}}, {"spans": spans, **lists, **_FUNCTIONS})  # noqa: S307  (our own printed line)
        said = _TOKEN.fullmatch(self.value)
        assert said, f"the result {self.value!r} is not a number with a unit"
        return result, _span(said[2], said[3], bool(said[1]), self.exact)


def assert_stands(line: Line) -> None:
    """The line's printed numbers give its printed result."""
    if line.numbers:
        _assert_stands(Printed.of(line))


@lru_cache(maxsize=20_000)
def _assert_stands(line: Printed) -> None:
    result, said = line.reworked()
    where = f"{line.label}: {line.symbol} = {line.numbers} = {line.value}"
    assert result.dimension == said.dimension, f"{where}: the units do not come out"
    assert result.span.a <= said.span.b * (1 + 1e-9) + 1e-12 and said.span.a <= result.span.b * (1 + 1e-9) + 1e-12, (
        f"{where}: the numbers give {result.span}"
    )
    if "standard" in line.numbers or "⌊" in line.numbers or "⌈" in line.numbers:
        # a step of a published list, or to a whole number, may fall within the last printed figure
        return
    width, size = float(result.span.delta), max(abs(float(result.span.a)), abs(float(result.span.b)))
    assert width <= 0.1 * size + 1e-12, f"{where}: too few figures to check it by hand ({result.span})"
