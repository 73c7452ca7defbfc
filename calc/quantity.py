"""Numbers that remember how they were worked out.

A `Quantity` is a float in coherent SI, a unit to show it in, and the operation and operands it came from.
`+ - * / **` compute and record in one act, so the working that is printed *is* the computation: it is read back
from the ancestry of a result and can neither omit a step nor invent one.

A quantity that has a `Step` has a name; later lines print its symbol. Plain floats never leave a quantity in
`laws/` and `checks/`: `float(q)` and `if q > r` raise, and say what to write instead.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from typing import Any, NamedTuple, NoReturn

from calc import units
from calc.sources import OWN_DERIVATION, Source
from calc.units import NO_DIMENSION, Unit, coherent, one

Number = int | float

_SAME = 1e-9


class UnitsDiffer(TypeError):
    """Two quantities were added or compared that do not measure the same thing."""


class OutsideValidity(ValueError):
    """A law or a table was asked outside the range for which it holds. The message is for the person."""


class Step(NamedTuple):
    """The name under which a number appears in the working.

    kind: given, constant, read, worked, chosen or stepped. rounds: how its last printed figure is rounded:
    0 to the nearest, 1 up (a need), -1 down (a limit).
    """

    kind: str
    symbol: str
    label: str
    source: Source | None = None
    note: str = ""
    rounds: int = 0


class Quantity:
    """A physical quantity with its history. Immutable; make one with `50 * V`, never by hand."""

    __slots__ = ("si", "unit", "operation", "operands", "step", "exact")

    si: float
    unit: Unit
    operation: str
    operands: tuple[Quantity, ...]
    step: Step | None
    exact: bool

    def __init__(
        self,
        si: float,
        unit: Unit,
        operation: str = "",
        operands: tuple[Quantity, ...] = (),
        step: Step | None = None,
        exact: bool = False,
    ) -> None:
        _put_si(self, si)
        _put_unit(self, unit)
        _put_operation(self, operation)
        _put_operands(self, operands)
        _put_step(self, step)
        _put_exact(self, exact)

    def __setattr__(self, name: str, value: object) -> NoReturn:
        raise AttributeError("a Quantity is frozen; work out a new one")

    # --- arithmetic -----------------------------------------------------------------------------------------

    def __add__(self, other: Quantity | Number) -> Quantity:
        other = _quantity(other)
        _same_dimension("add", self, other)
        if self.unit.point and other.unit.point:
            raise UnitsDiffer("two temperatures on a scale do not add; take their difference")
        unit = self.unit if self.unit.point else other.unit if other.unit.point else coherent(self.unit.dimension)
        return Quantity(self.si + other.si, unit, "+", (self, other))

    def __radd__(self, other: Number) -> Quantity:
        return _quantity(other) + self

    def __sub__(self, other: Quantity | Number) -> Quantity:
        other = _quantity(other)
        _same_dimension("subtract", self, other)
        if other.unit.point and not self.unit.point:
            raise UnitsDiffer("a temperature on a scale cannot be taken from a difference")
        unit = self.unit if self.unit.point and not other.unit.point else coherent(self.unit.dimension)
        return Quantity(self.si - other.si, unit, "−", (self, other))

    def __rsub__(self, other: Number) -> Quantity:
        return _quantity(other) - self

    def __mul__(self, other: Quantity | Number) -> Quantity:
        other = _quantity(other)
        _not_points("multiply", self, other)
        return Quantity(
            self.si * other.si, coherent(units.times(self.unit.dimension, other.unit.dimension)), "·", (self, other)
        )

    def __rmul__(self, other: Number) -> Quantity:
        return _quantity(other) * self

    def __truediv__(self, other: Quantity | Number) -> Quantity:
        other = _quantity(other)
        _not_points("divide", self, other)
        if other.si == 0:
            raise OutsideValidity(f"{_called(other)} is zero, and something has to be divided by it.")
        return Quantity(
            self.si / other.si, coherent(units.over(self.unit.dimension, other.unit.dimension)), "/", (self, other)
        )

    def __rtruediv__(self, other: Number) -> Quantity:
        return _quantity(other) / self

    def __pow__(self, exponent: Number) -> Quantity:
        _not_points("raise", self, self)
        unit = coherent(units.power(self.unit.dimension, float(exponent)))
        return Quantity(self.si**exponent, unit, "^", (self, _quantity(exponent)))

    def __neg__(self) -> Quantity:
        return Quantity(0.0, coherent(self.unit.dimension), exact=True) - self

    # --- comparing makes a statement, not a truth -------------------------------------------------------------

    def __le__(self, other: Quantity | Number) -> Condition:
        return Condition.of(self, "≤", _quantity(other))

    def __ge__(self, other: Quantity | Number) -> Condition:
        return Condition.of(self, "≥", _quantity(other))

    def __lt__(self, other: Quantity | Number) -> Condition:
        return Condition.of(self, "<", _quantity(other))

    def __gt__(self, other: Quantity | Number) -> Condition:
        return Condition.of(self, ">", _quantity(other))

    # --- refusals ---------------------------------------------------------------------------------------------

    def __float__(self) -> NoReturn:
        raise TypeError(
            "float(quantity) would lose how it was worked out; use root, log, largest, smallest, rounded_up ..."
        )

    def __bool__(self) -> NoReturn:
        raise TypeError("a quantity is not true or false; compare it, then use require(...) or choose(...)")

    def __array__(self, *_: Any) -> NoReturn:
        raise TypeError("a quantity does not become an array; it would lose how it was worked out")

    # --- showing ----------------------------------------------------------------------------------------------

    def shown_in(self, unit: Unit) -> Quantity:
        """The same number, to be shown in another unit of the same dimension."""
        _same_unit_kind(self, unit)
        return Quantity(self.si, unit, self.operation, self.operands, self.step, self.exact and unit is self.unit)

    def number_in(self, unit: Unit) -> float:
        """The magnitude in `unit`. For the edges of the program (JSON, drawings, tests), not for arithmetic."""
        _same_unit_kind(self, unit)
        return unit.from_si(self.si)

    @property
    def shown(self) -> float:
        return self.unit.from_si(self.si)

    def __format__(self, spec: str) -> str:
        from calc.printing import printed

        return printed(self, rounds={"": None, "up": 1, "down": -1}[spec])

    def __str__(self) -> str:
        return format(self, "")

    def __repr__(self) -> str:
        return f"<Quantity {self} ({self.step.symbol if self.step else self.operation or 'plain'})>"

    def ancestry(self) -> Iterator[Quantity]:
        """The named numbers this one rests on, ingredients first, itself last."""
        return ancestry((self,))


# A quantity is made in every act of arithmetic: its slots are filled past the refusal, and without looking them up.
_put_si, _put_unit, _put_operation, _put_operands, _put_step, _put_exact = (
    vars(Quantity)[name].__set__ for name in Quantity.__slots__
)


def _quantity(value: Quantity | Number) -> Quantity:
    if isinstance(value, Quantity):
        return value
    if isinstance(value, bool) or not isinstance(value, (int, float)):
        raise TypeError(f"{value!r} is not a number with a unit")
    return Quantity(float(value), one, exact=True)


def numeral_with_unit(number: float, unit: Unit) -> Quantity:
    """What `50 * V` makes, and `of(50, V)` where a checker of types should know: a plain leaf, printed as written."""
    if not math.isfinite(number):
        raise ValueError("a quantity is a finite number")
    return Quantity(unit.to_si(number), unit, exact=True)


def _called(quantity: Quantity) -> str:
    return quantity.step.label if quantity.step else "The divisor"


def _same_dimension(act: str, left: Quantity, right: Quantity) -> None:
    if left.unit.dimension != right.unit.dimension:
        raise UnitsDiffer(f"cannot {act} {left.unit!r} and {right.unit!r}")


def _same_unit_kind(quantity: Quantity, unit: Unit) -> None:
    if quantity.unit.dimension != unit.dimension or quantity.unit.point != unit.point:
        raise UnitsDiffer(f"{quantity.unit!r} cannot be shown as {unit!r}")


def _not_points(act: str, left: Quantity, right: Quantity) -> None:
    if left.unit.point or right.unit.point:
        raise UnitsDiffer(f"cannot {act} a temperature on a scale; take a difference, or absolute(...)")


def ancestry(roots: Iterable[Quantity]) -> Iterator[Quantity]:
    """Every named number on which the roots rest, each once, ingredients first."""
    seen: set[int] = set()

    def visit(quantity: Quantity) -> Iterator[Quantity]:
        if id(quantity) in seen:
            return
        seen.add(id(quantity))
        for operand in quantity.operands:
            yield from visit(operand)
        if quantity.step:
            yield quantity

    for root in roots:
        yield from visit(root)


# --- statements ----------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Condition:
    """A comparison, kept as a statement: what was compared, how, and whether it holds (on unrounded numbers)."""

    left: Quantity
    sign: str
    right: Quantity
    holds: bool

    @classmethod
    def of(cls, left: Quantity, sign: str, right: Quantity) -> Condition:
        _same_dimension("compare", left, right)
        if left.unit.point != right.unit.point:
            raise UnitsDiffer("a temperature on a scale compares with another one, not with a difference")
        a, b = left.si, right.si
        # Equal but for the last binary digit (150 · 0.94 · 0.7 against 98.7) is equal.
        same = math.isclose(a, b, rel_tol=_SAME)
        strictly = a > b if sign in "≥>" else a < b
        return cls(left, sign, right, same or strictly if sign in "≤≥" else strictly and not same)

    def __bool__(self) -> NoReturn:
        raise TypeError("say a fork with choose(...), or make it the verdict with require(...)")

    @property
    def quantities(self) -> tuple[Quantity, ...]:
        return (self.left, self.right)


@dataclass(frozen=True, slots=True)
class Statement:
    """A condition without numbers ("a TT-30 has no 240 V"), with the table it was read from."""

    says: str
    holds: bool
    source: Source

    def __bool__(self) -> NoReturn:
        raise TypeError("make it the verdict with require(...)")

    @property
    def quantities(self) -> tuple[Quantity, ...]:
        return ()


# --- naming --------------------------------------------------------------------------------------------------


def _named(quantity: Quantity, step: Step, unit: Unit | None) -> Quantity:
    unit = units.usual(unit or quantity.unit)
    _same_unit_kind(quantity, unit)
    if not math.isfinite(quantity.si):
        raise OutsideValidity(f"{step.label} comes out without bounds for these numbers.")
    if quantity.step is None:
        return Quantity(
            quantity.si, unit, quantity.operation, quantity.operands, step, quantity.exact and unit is quantity.unit
        )
    return Quantity(quantity.si, unit, "=", (quantity,), step)


def step(
    symbol: str,
    label: str,
    value: Quantity,
    unit: Unit | None = None,
    source: Source | None = None,
    *,
    rounds: int = 0,
    note: str = "",
) -> Quantity:
    """Name a worked number. `unit` is what it is shown in; metric and US people see the counterpart they use."""
    return _named(value, Step("worked", symbol, label, source, note, rounds), unit)


def need(
    symbol: str, label: str, value: Quantity, unit: Unit | None = None, source: Source | None = None, *, note: str = ""
) -> Quantity:
    """Name a demand: its last printed figure is rounded up."""
    return step(symbol, label, value, unit, source, rounds=1, note=note)


def limit(
    symbol: str, label: str, value: Quantity, unit: Unit | None = None, source: Source | None = None, *, note: str = ""
) -> Quantity:
    """Name a limit: its last printed figure is rounded down."""
    return step(symbol, label, value, unit, source, rounds=-1, note=note)


def constant(symbol: str, label: str, value: Quantity, source: Source, *, note: str = "") -> Quantity:
    """Name a constant; it cannot be made without saying where it is from."""
    return Quantity(value.si, value.unit, exact=True, step=Step("constant", symbol, label, source, note))


def read(symbol: str, label: str, value: Quantity, source: Source, *, note: str = "") -> Quantity:
    """Name a number read from a published table."""
    return Quantity(value.si, value.unit, exact=True, step=Step("read", symbol, label, source, note))


def stepped(
    symbol: str,
    label: str,
    si: float,
    unit: Unit,
    rests_on: tuple[Quantity, ...],
    source: Source = OWN_DERIVATION,
    *,
    rounds: int = 0,
    note: str = "",
) -> Quantity:
    """Name a result that was read off the steps of a float kernel. It keeps what it rests on, so that the working shows it.

    One step of the kernel is worked, line by line, in the same answer; a test holds the kernel to it.
    """
    said = "read off small steps, of which one is worked here" + (f"; {note}" if note else "")
    return Quantity(si, units.usual(unit), "stepped", rests_on, Step("stepped", symbol, label, source, said, rounds))


def given(symbol: str, label: str, value: Quantity, note: str = "") -> Quantity:
    """Name a number that the person, the rig or a stated habit supplied."""
    return Quantity(value.si, value.unit, exact=value.exact, step=Step("given", symbol, label, None, note))


def choose(
    symbol: str, label: str, *cases: tuple[Any, ...], unit: Unit | None = None, source: Source | None = None
) -> Quantity:
    """A fork, printed with its reason.

    Cases are `(condition, value, reason)` in order; the last is `(value, reason)`. The first whose condition holds
    is taken; the line prints its reason and the comparison that decided. A value that cannot be worked out where its
    condition does not hold is given as a function.
    """
    *asked, (otherwise, otherwise_because) = cases
    passed: list[Condition] = []
    for condition, value, because in asked:
        passed.append(condition)
        if condition.holds:
            return _chosen(symbol, label, value, because, condition, passed, unit, source)
    return _chosen(symbol, label, otherwise, otherwise_because, None, passed, unit, source)


def _chosen(
    symbol: str,
    label: str,
    value: Quantity,
    because: str,
    condition: Condition | None,
    passed: list[Condition],
    unit: Unit | None,
    source: Source | None,
) -> Quantity:
    from calc.printing import compared

    value = _quantity(value() if callable(value) else value)
    decided = "; ".join(compared(other) for other in ([condition] if condition is not None else passed))
    compared_quantities = tuple(quantity for other in passed for quantity in other.quantities)
    fork = Quantity(value.si, value.unit, "choose", (value, *compared_quantities), None, value.exact)
    return _named(fork, Step("chosen", symbol, label, source, f"{because} ({decided})"), unit)


def alternative(
    symbol: str, label: str, value: Quantity, because: str, unit: Unit | None = None, source: Source | None = None
) -> Quantity:
    """A fork decided by a pick and not by numbers: `because` says which pick and why."""
    value = _quantity(value)
    fork = Quantity(value.si, value.unit, "choose", (value,), None, value.exact)
    return _named(fork, Step("chosen", symbol, label, source, because), unit)


# --- recorded functions --------------------------------------------------------------------------------------


def root(value: Quantity) -> Quantity:
    """Square root."""
    if value.si < 0:
        raise OutsideValidity(
            f"{value.step.label if value.step else 'A difference'} comes out below zero, which has no root."
        )
    return Quantity(math.sqrt(value.si), coherent(units.power(value.unit.dimension, 0.5)), "√", (value,))


def _plain(name: str, function: Callable[[float], float], value: Quantity) -> Quantity:
    if value.unit.dimension != NO_DIMENSION:
        raise UnitsDiffer(f"{name} takes a plain number, not {value.unit!r}")
    try:
        return Quantity(function(value.si), one, name, (value,))
    except (ValueError, OverflowError):
        raise OutsideValidity(f"{name} has no value for these numbers.") from None


def log(value: Quantity) -> Quantity:
    """Natural logarithm of a plain number."""
    return _plain("ln", math.log, value)


def exponential(value: Quantity) -> Quantity:
    return _plain("exp", math.exp, value)


def _of_angle(name: str, function: Callable[[float], float], angle: Quantity) -> Quantity:
    if angle.unit.dimension != units.degree.dimension:
        raise UnitsDiffer(f"{name} takes an angle, not {angle.unit!r}")
    return Quantity(function(angle.si), one, name, (angle,))


def sine(angle: Quantity) -> Quantity:
    return _of_angle("sin", math.sin, angle)


def cosine(angle: Quantity) -> Quantity:
    return _of_angle("cos", math.cos, angle)


def tangent(angle: Quantity) -> Quantity:
    return _of_angle("tan", math.tan, angle)


def _angle_of(name: str, function: Callable[[float], float], ratio: Quantity) -> Quantity:
    plain = _plain(name, function, ratio)
    return Quantity(plain.si, coherent(units.degree.dimension), name, (ratio,))


def arcsine(ratio: Quantity) -> Quantity:
    """The angle with this sine; OutsideValidity beyond ±1."""
    return _angle_of("asin", math.asin, ratio)


def arccosine(ratio: Quantity) -> Quantity:
    """The angle with this cosine; OutsideValidity beyond ±1."""
    return _angle_of("acos", math.acos, ratio)


def arctangent(ratio: Quantity) -> Quantity:
    return _angle_of("atan", math.atan, ratio)


def _extreme(name: str, pick: Callable[..., Quantity], values: tuple[Quantity, ...]) -> Quantity:
    for other in values[1:]:
        _same_dimension(name, values[0], other)
    best = pick(values, key=lambda value: value.si)
    return Quantity(best.si, best.unit, name, values, None, best.exact)


def largest(*values: Quantity | Number) -> Quantity:
    return _extreme("max", max, tuple(_quantity(value) for value in values))


def smallest(*values: Quantity | Number) -> Quantity:
    return _extreme("min", min, tuple(_quantity(value) for value in values))


def rounded_down(value: Quantity, unit: Unit) -> Quantity:
    """The next whole number of `unit` not above `value` (with a hair of 1e-9 for binary fractions)."""
    return Quantity(unit.to_si(math.floor(unit.from_si(value.si) + 1e-9)), unit, "⌊⌋", (value,), None, True)


def rounded_up(value: Quantity, unit: Unit) -> Quantity:
    """The next whole number of `unit` not below `value`."""
    return Quantity(unit.to_si(math.ceil(unit.from_si(value.si) - 1e-9)), unit, "⌈⌉", (value,), None, True)


def absolute(temperature: Quantity) -> Quantity:
    """A temperature on a scale as kelvins above absolute zero, for gas laws."""
    return Quantity(temperature.si, units.K, "abs", (temperature,))


def from_list(name: str, entry: Quantity, asked: Quantity) -> Quantity:
    """An entry of a published list, found by a number: `next standard rating up(38.3 A)`."""
    return Quantity(entry.si, entry.unit, name, (asked,), None, True)
