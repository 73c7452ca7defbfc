"""Numbers that remember: arithmetic and its record are one act, and what would lose the record is refused."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc import units as u
from calc.printing import expression, working
from calc.quantity import (
    OutsideValidity,
    Quantity,
    UnitsDiffer,
    absolute,
    alternative,
    ancestry,
    arccosine,
    arcsine,
    arctangent,
    choose,
    constant,
    cosine,
    exponential,
    largest,
    limit,
    log,
    need,
    read,
    root,
    rounded_down,
    rounded_up,
    sine,
    smallest,
    step,
    tangent,
)
from calc.quantity import given as given_number
from calc.sources import DEFINITION

finite = st.floats(min_value=-1e6, max_value=1e6, allow_nan=False)
positive = st.floats(min_value=1e-3, max_value=1e6)


@given(finite, finite, positive)
def test_arithmetic_is_that_of_the_floats(a: float, b: float, c: float) -> None:
    left, right, divisor = a * u.V, b * u.V, c * u.A
    assert (left + right).si == a + b
    assert (left - right).si == a - b
    assert (left * divisor).si == a * c
    assert (left / divisor).si == a / c
    assert (-left).si == -a
    assert (2 * left).si == 2 * a
    assert (left**2).si == a**2


@given(positive)
def test_recorded_functions_are_those_of_the_floats(a: float) -> None:
    plain = a * u.one
    assert root(plain).si == math.sqrt(a)
    assert log(plain).si == math.log(a)
    assert exponential(log(plain)).si == pytest.approx(a)
    assert largest(plain, 1).si == max(a, 1) and smallest(plain, 1).si == min(a, 1)
    assert rounded_down(a * u.A, u.A).si == math.floor(a + 1e-9)
    assert rounded_up(a * u.A, u.A).si == math.ceil(a - 1e-9)


@given(st.floats(min_value=-1.5, max_value=1.5))
def test_angles_are_those_of_the_floats(radians: float) -> None:
    angle = math.degrees(radians) * u.degree
    assert sine(angle).si == pytest.approx(math.sin(radians)) and cosine(angle).si == pytest.approx(math.cos(radians))
    assert arctangent(tangent(angle)).number_in(u.degree) == pytest.approx(math.degrees(radians))
    assert arcsine(sine(angle)).si == pytest.approx(radians) and arccosine(cosine(angle)).si == pytest.approx(
        abs(radians), abs=1e-6
    )
    with pytest.raises(UnitsDiffer):
        sine(1 * u.one)


def test_numbers_equal_but_for_the_last_binary_digit_are_equal() -> None:
    product = (150 * u.A) * (0.94 * u.one) * (0.7 * u.one)
    assert (product >= 98.7 * u.A).holds and (product <= 98.7 * u.A).holds and not (product < 98.7 * u.A).holds


def test_unlike_things_are_not_added_compared_or_converted() -> None:
    for act in (lambda: u.m, lambda: 1):
        with pytest.raises(UnitsDiffer):
            _ = (1 * u.V) + (act() if isinstance(act(), int) else 1 * u.m)
    with pytest.raises(UnitsDiffer):
        _ = 1 * u.V <= 1 * u.A
    with pytest.raises(UnitsDiffer):
        (1 * u.V).shown_in(u.A)
    with pytest.raises(UnitsDiffer):
        largest(1 * u.V, 1 * u.A)
    with pytest.raises(UnitsDiffer):
        log(1 * u.V)


def test_temperatures_on_a_scale_do_not_add_and_their_difference_is_in_kelvins() -> None:
    hot, cold = 30 * u.degC, 68 * u.degF
    assert (hot - cold).si == pytest.approx(10)
    assert (cold + 10 * u.K).si == pytest.approx(hot.si)
    assert absolute(hot).si == pytest.approx(303.15)
    for wrong in (
        lambda: hot + cold,
        lambda: hot * 2,
        lambda: 1 / hot,
        lambda: 10 * u.K - hot,
        lambda: hot <= 10 * u.K,
    ):
        with pytest.raises(UnitsDiffer):
            wrong()


def test_what_would_lose_the_record_is_refused() -> None:
    number = 4 * u.V
    for wrong in (
        lambda: float(number),
        lambda: math.sqrt(number),
        lambda: bool(number),
        lambda: bool(number >= 1 * u.V),
    ):
        with pytest.raises(TypeError):
            wrong()
    with pytest.raises(AttributeError):
        number.si = 5  # type: ignore[misc]
    with pytest.raises(TypeError):
        _ = number + True


def test_a_number_that_is_not_finite_is_refused() -> None:
    for wrong in (math.nan, math.inf, -math.inf):
        with pytest.raises(ValueError):
            _ = wrong * u.V
    with pytest.raises(OutsideValidity):
        _ = (1 * u.V) / (0 * u.A)
    with pytest.raises(OutsideValidity):
        root((0 - 1) * u.one * 1)
    with pytest.raises(OutsideValidity):
        log(0 * u.one)


def test_constants_and_table_values_cannot_be_made_without_a_source() -> None:
    with pytest.raises(TypeError):
        constant("k", "A constant", 1 * u.one)  # type: ignore[call-arg]
    with pytest.raises(TypeError):
        read("k", "A table value", 1 * u.one)  # type: ignore[call-arg]


def _loss() -> Quantity:
    length, r = given_number("L", "Length", 60 * u.ft), read("r", "Resistance", 1.98 * u.ohm_per_kft, DEFINITION)
    unused = given_number("x", "Not used", 5 * u.A)
    resistance = step("R", "Resistance, out and back", 2 * length * r, u.mohm)
    current = given_number("I", "Current", 12 * u.A)
    step("U", "Named, but nothing rests on it", resistance * unused, u.V)
    return step("ΔV", "Volts lost", resistance * current, u.V)


def test_the_working_is_the_ancestry_ingredients_first_nothing_missing_nothing_unused() -> None:
    lines = working([_loss()])
    assert [line.symbol for line in lines] == ["L", "r", "R", "I", "ΔV"]
    assert lines[2].formula == "2 · L · r"
    assert lines[2].numbers == "2 · 60\u00a0ft · 1.98\u00a0Ω/kft"
    assert lines[2].value == "238\u00a0mΩ"
    assert [quantity.step.symbol for quantity in ancestry([_loss()]) if quantity.step] == ["L", "r", "R", "I", "ΔV"]


def test_two_different_numbers_of_one_name_are_refused() -> None:
    one_length, other = given_number("L", "Length", 1 * u.m), given_number("L", "Another length", 2 * u.m)
    with pytest.raises(ValueError, match="are called L"):
        working([step("S", "Sum", one_length + other, u.m)])


def test_parentheses_stand_where_the_arithmetic_needs_them() -> None:
    a, b, c = (given_number(name, name, 2 * u.one) for name in "abc")
    assert expression(a - (b - c), numbers=False) == "a − (b − c)"
    assert expression(a / (b * c), numbers=False) == "a / (b · c)"
    assert expression(a / b / c, numbers=False) == "a / b / c"
    assert expression((a + b) * c, numbers=False) == "(a + b) · c"
    assert expression((a * b) ** 2, numbers=False) == "(a · b)²"
    assert expression(-(a + b), numbers=False) == "−(a + b)"
    assert expression(root(a + b), numbers=False) == "√(a + b)"
    volts = given_number("V", "V", 240 * u.V)
    assert expression(a / volts, numbers=True) == "2 / (240\u00a0V)"


def test_a_fork_prints_its_reason_and_the_comparison_that_decided() -> None:
    current, rating = given_number("I", "Current", 36 * u.A), given_number("B", "Breaker", 40 * u.A)
    small = choose("f", "Factor", (current <= rating, 1 * u.one, "it fits"), (2 * u.one, "it does not fit"))
    large = choose("f", "Factor", (rating <= current, 1 * u.one, "it fits"), (lambda: 2 * u.one, "it does not fit"))
    picked = alternative("f", "Factor", 3 * u.one, "as picked")
    assert small.si == 1 and small.step and small.step.note == "it fits (36\u00a0A ≤ 40\u00a0A)"
    assert large.si == 2 and large.step and large.step.note == "it does not fit (40\u00a0A > 36\u00a0A)"
    assert picked.step and picked.step.note == "as picked"
    assert [line.symbol for line in working([small])] == ["I", "B", "f"]


def test_a_need_is_rounded_up_and_a_limit_down() -> None:
    exact = given_number("I", "Current", 175.31 * u.A)
    assert str(need("n", "Need", 1 * exact, u.A)) == "176\u00a0A"
    assert str(limit("l", "Limit", 1 * exact, u.A)) == "175\u00a0A"
    assert str(step("s", "Step", 1 * exact, u.A)) == "175\u00a0A"


def test_people_are_shown_the_units_they_use_and_what_was_typed_keeps_its_own() -> None:
    length = given_number("L", "Length", 60 * u.ft)
    with u.shown_to(u.METRIC):
        assert str(step("D", "Double", 2 * length, u.ft)) == "36.6\u00a0m"
        assert str(length) == "60\u00a0ft"
    assert str(step("D", "Double", 2 * length, u.m)) == "120\u00a0ft"
