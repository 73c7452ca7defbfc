"""How numbers and working are printed: three figures as an engineer writes them, toward safety where it matters.

Given and table values print as they were read; worked ones to three figures, with more where two compared or
subtracted numbers would otherwise print alike. Everything goes through decimals of at most ten figures, so that
two interpreters whose last binary digit differs print the same.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from decimal import ROUND_CEILING, ROUND_FLOOR, ROUND_HALF_UP, Context, Decimal
from functools import lru_cache

from calc.quantity import Condition, Quantity, ancestry
from calc.units import Unit, degC, degF

NBSP = "\u00a0"
FIGURES = 3
MOST_FIGURES = 9
_READ = Context(prec=10)
_TOO_LONG = 9  # from 10⁹ on a number is written with its power of ten
_ROUNDING = {0: ROUND_HALF_UP, 1: ROUND_CEILING, -1: ROUND_FLOOR}
_AT_HAND = 4096  # the numbers last written: most of them stand in one answer after another
_SUPERSCRIPT = str.maketrans("-0123456789", "⁻⁰¹²³⁴⁵⁶⁷⁸⁹")


@lru_cache(maxsize=_AT_HAND)
def figures(number: float, count: int = FIGURES, rounds: int = 0) -> str:
    """A plain number to `count` significant figures: 1.80, −20.0, 0.000393, 1.20 × 10⁻⁷."""
    value = _READ.create_decimal(repr(number))
    if value == 0:
        return "0"
    value = value.quantize(Decimal(1).scaleb(value.adjusted() - count + 1), rounding=_ROUNDING[rounds])
    if count <= value.adjusted() < _TOO_LONG:
        value = value.quantize(Decimal(1))
    return _written(value)


@lru_cache(maxsize=_AT_HAND)
def as_read(number: float) -> str:
    """A number that was typed or read from a table, printed as it was."""
    value = _READ.create_decimal(repr(number))
    return _written(value.normalize() if value else Decimal(0))


def _written(value: Decimal) -> str:
    if value and not -5 <= value.adjusted() < _TOO_LONG:
        digits, exponent = f"{value:e}".lower().split("e")
        text = f"{digits} × 10{str(int(exponent)).translate(_SUPERSCRIPT)}"
    else:
        text = f"{value:f}"
    return text.replace("-", "−")


def with_unit(number: str, unit: Unit) -> str:
    if not unit.sign:
        return number
    # A degree of angle stands close (SI Brochure, 9th edition, 5.4.3).
    return f"{number}{unit.sign}" if unit.sign == "°" else f"{number}{NBSP}{unit.sign}"


def number_text(quantity: Quantity, count: int = FIGURES, rounds: int | None = None) -> str:
    if quantity.exact and rounds is None:
        return as_read(quantity.shown)
    if rounds is None:
        rounds = quantity.step.rounds if quantity.step else 0
    if quantity.unit.point:
        return _degrees(quantity, count, rounds)
    return figures(quantity.shown, count, rounds)


def _degrees(quantity: Quantity, count: int, rounds: int) -> str:
    """A temperature on a scale. Its zero is nobody's nothing, so decimals count and not figures.

    One that was given on the other scale keeps the decimals it had there (34 °C is 93 °F); a worked one has one, and
    none from a hundred on. A fourth figure asked for is one decimal at least, a fifth two.
    """
    value = _READ.create_decimal(repr(quantity.shown))
    places = _decimals_on_the_other_scale(quantity) if not quantity.operands else 1 if abs(value) < 100 else 0
    value = value.quantize(Decimal(1).scaleb(-max(places, count - FIGURES)), rounding=_ROUNDING[rounds])
    return _written(value + 0)


def _decimals_on_the_other_scale(quantity: Quantity) -> int:
    other = degF if quantity.unit is degC else degC
    return len(as_read(round(other.from_si(quantity.si), 3)).partition(".")[2])


def printed(quantity: Quantity, count: int = FIGURES, rounds: int | None = None) -> str:
    """A quantity with its unit, as it stands in a sentence: `47.7 V`."""
    return with_unit(number_text(quantity, count, rounds), quantity.unit)


def pair(left: Quantity, right: Quantity) -> tuple[str, str]:
    """Two compared quantities, with as many figures as it takes to print them differently."""
    right_unit = right if right.unit.point != left.unit.point else right.shown_in(left.unit)
    texts = ("", "")
    for count in range(FIGURES, MOST_FIGURES + 1):
        texts = (printed(left, count), printed(right_unit, count))
        if texts[0] != texts[1] or left.si == right.si:
            break
    return texts


def compared(condition: Condition) -> str:
    left, right = pair(condition.left, condition.right)
    sign = condition.sign if condition.holds else {"≤": ">", "≥": "<", "<": "≥", ">": "≤"}[condition.sign]
    return f"{left} {sign} {right}"


# --- the working ------------------------------------------------------------------------------------------------

# Degrees apart, on either scale, from which whole degrees tell a difference well enough.
_WIDE_APART = 50
_TIGHTNESS = {"+": 1, "−": 1, "·": 2, "/": 2, "^": 3}
_ATOM = 9


def expression(quantity: Quantity, numbers: bool, count: int = FIGURES) -> str:
    """The right-hand side of a line: with symbols, or with the printed numbers put in."""
    return _expression(quantity, numbers, count)[0]


def _expression(quantity: Quantity, numbers: bool, count: int) -> tuple[str, int]:
    if quantity.step or not quantity.operands:
        return _leaf(quantity, numbers, count)
    operation, operands = quantity.operation, quantity.operands
    if operation in ("choose", "="):
        return _expression(operands[0], numbers, count)
    if operation == "exp" and operands[0].si:
        # What is lost of the exponent is lost as a share of the result: 16.0 tells e⁻¹⁶ to no better than a tenth.
        count += max(0, math.floor(math.log10(abs(operands[0].si))))
    if operation not in _TIGHTNESS:
        inside = [_expression(operand, numbers, count)[0] for operand in operands]
        if operation in ("⌊⌋", "⌈⌉"):
            return f"{operation[0]}{inside[0]}{operation[1]}", _ATOM
        return f"{operation}({', '.join(inside)})", _ATOM
    if operation == "−":
        count = _figures_to_subtract(operands[0], operands[1], count)
    return _infix(operation, operands, numbers, count)


def _leaf(quantity: Quantity, numbers: bool, count: int) -> tuple[str, int]:
    if quantity.step and not numbers:
        return quantity.step.symbol, _ATOM
    text = printed(quantity, count)
    # `5 A` is a product: `(5 A)²` and `a / (5 A)` need their parentheses, as does anything with a minus sign.
    return text, 0 if text.startswith("−") else 2 if numbers and (quantity.unit.sign or "×" in text) else _ATOM


def _infix(operation: str, operands: tuple[Quantity, ...], numbers: bool, count: int) -> tuple[str, int]:
    mine = _TIGHTNESS[operation]
    left, left_tightness = _expression(operands[0], numbers, count)
    right, right_tightness = _expression(operands[1], numbers, count)
    if operation == "−" and not (operands[0].si or operands[0].step or operands[0].operands):
        return f"−{right if right_tightness > 1 else f'({right})'}", 0
    if left_tightness < mine:
        left = f"({left})"
    if right_tightness < mine or (right_tightness == mine and operation in "−/"):
        right = f"({right})"
    if operation == "^":
        return f"{left}{right.translate(_SUPERSCRIPT)}" if right in "23" else f"{left}^{right}", mine
    return f"{left} {operation} {right}", mine


def _figures_to_subtract(left: Quantity, right: Quantity, count: int) -> int:
    difference, size = abs(left.si - right.si), max(abs(left.si), abs(right.si))
    if difference == 0 or left.unit.point and not right.unit.point:
        return count
    if left.unit.point:
        return min(MOST_FIGURES, count + max(0, math.ceil(math.log10(_WIDE_APART * left.unit.factor / difference))))
    return min(MOST_FIGURES, count + (math.ceil(math.log10(size / difference)) if size > 2 * difference else 0))


@dataclass(frozen=True, slots=True)
class Line:
    """One line of the working: `symbol = formula = numbers = value`, with where it is from.

    quantity: the number it tells; None for a line in words.
    """

    kind: str
    symbol: str
    label: str
    formula: str
    numbers: str
    value: str
    quantity: Quantity | None
    source: str
    note: str


def working(roots: Iterable[Quantity]) -> list[Line]:
    """The lines on which the roots rest, ingredients first; nothing unused, nothing missing."""
    lines: list[Line] = []
    symbols: dict[str, Quantity] = {}
    for quantity in ancestry(roots):
        name = quantity.step
        assert name is not None
        other = symbols.setdefault(name.symbol, quantity)
        if other is not quantity and other.step and (other.step.label, other.si) != (name.label, quantity.si):
            raise ValueError(
                f"two different numbers in one answer are called {name.symbol}: {other.step.label}, {name.label}"
            )
        if other is quantity:
            lines.append(_line(quantity))
    return lines


def _line(quantity: Quantity) -> Line:
    name = quantity.step
    assert name is not None
    bare = Quantity(quantity.si, quantity.unit, quantity.operation, quantity.operands, None, quantity.exact)
    worked = name.kind in ("worked", "chosen") and quantity.operands
    return Line(
        name.kind,
        name.symbol,
        name.label,
        expression(bare, numbers=False) if worked else "",
        expression(bare, numbers=True) if worked else "",
        printed(quantity),
        quantity,
        str(name.source) if name.source else "",
        name.note,
    )
