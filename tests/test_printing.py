"""How numbers are printed."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc import units as u
from calc.form import shown_text
from calc.printing import as_read, figures, pair, printed, working
from calc.quantity import exponential, step
from calc.quantity import given as given_number


@pytest.mark.parametrize(
    ("number", "text"),
    [
        (0, "0"),
        (47.6543, "47.7"),
        (0.000393, "0.000393"),
        (1.8, "1.80"),
        (-20, "−20.0"),
        (16497.3, "16500"),
        (999.96, "1000"),
        (1.2e-7, "1.20 × 10⁻⁷"),
        (0.0004999999, "0.000500"),
        (123456789, "123000000"),
        (1234567891, "1.23 × 10⁹"),
        (-5e12, "−5.00 × 10¹²"),
    ],
)
def test_worked_numbers_have_three_figures(number: float, text: str) -> None:
    assert figures(number) == text


@pytest.mark.parametrize(
    ("number", "text"), [(75, "75"), (0.1 + 0.2, "0.3"), (1500, "1500"), (120.0, "120"), (-7, "−7"), (2.5, "2.5")]
)
def test_read_numbers_print_as_they_were_read(number: float, text: str) -> None:
    assert as_read(number) == text


@given(st.floats(min_value=1e-6, max_value=1e6))
def test_rounding_up_is_never_below_and_down_never_above(number: float) -> None:
    def value(text: str) -> float:
        return float(text.replace(" × 10", "e").translate(str.maketrans("⁻⁰¹²³⁴⁵⁶⁷⁸⁹", "-0123456789")))

    assert value(figures(number, rounds=1)) >= number * (1 - 1e-9)
    assert value(figures(number, rounds=-1)) <= number * (1 + 1e-9)
    assert value(figures(number)) == pytest.approx(number, rel=0.0051)


def test_a_whole_number_is_not_rounded_up_for_a_hair_of_binary_fraction() -> None:
    assert figures(40.00000000000001, rounds=1) == "40.0"
    assert figures(39.99999999999999, rounds=-1) == "40.0"


def test_compared_numbers_are_told_apart() -> None:
    """175.3 A against 175 A must not print as 175 against 175."""
    drawn = step("I", "Drawn", 1 * given_number("a", "a", 175.3 * u.A), u.A)
    rated = given_number("F", "Fuse", 175 * u.A)
    assert pair(drawn, rated) == ("175.3\u00a0A", "175\u00a0A")


def test_a_large_exponent_prints_with_more_figures() -> None:
    """One unit in the last figure of 16.0 is a tenth of e⁻¹⁶."""
    times = step("x", "Times", 1 * given_number("a", "a", 16.02 * u.one), u.one)
    (line,) = [line for line in working([step("ε", "Left", exponential(-times), u.one)]) if line.symbol == "ε"]
    assert line.numbers == "exp(−16.02)"


def test_subtracted_numbers_that_nearly_cancel_print_with_more_figures() -> None:
    a = step("A", "A", 1 * given_number("a", "a", 120.04 * u.V), u.V)
    b = step("B", "B", 1 * given_number("b", "b", 119.96 * u.V), u.V)
    (line,) = [line for line in working([step("D", "Difference", a - b, u.mV)]) if line.symbol == "D"]
    assert line.numbers == "120.0400\u00a0V − 119.9600\u00a0V"
    assert line.value == "80.0\u00a0mV"


# --- temperatures on a scale -------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("number", "unit", "shown", "text"),
    [
        (34, u.degC, u.degF, "93"),
        (-18, u.degC, u.degF, "0"),
        (0, u.degC, u.degF, "32"),
        (45, u.degC, u.degF, "113"),
        (-40, u.degC, u.degF, "−40"),
        (8.5, u.degC, u.degF, "47.3"),
        (95, u.degF, u.degC, "35"),
        (100, u.degF, u.degC, "38"),
        (31.5, u.degF, u.degC, "−0.3"),
    ],
)
def test_a_given_temperature_keeps_its_decimals_on_the_other_scale(
    number: float, unit: u.Unit, shown: u.Unit, text: str
) -> None:
    """34 °C is 93.2 °F by arithmetic, and nobody read a tenth of a degree: 93 °F."""
    assert printed(given_number("θ", "θ", number * unit).shown_in(shown)).split("\u00a0")[0] == text


@pytest.mark.parametrize(
    ("kelvin", "text"), [(0.04, "0.0"), (-0.04, "0.0"), (0.4, "0.4"), (5.234, "5.2"), (59.96, "60.0"), (160.4, "160")]
)
def test_a_worked_temperature_has_one_decimal_at_most(kelvin: float, text: str) -> None:
    """The zero of a scale is arbitrary: 0.4 °C is no better known than 20.4 °C."""
    air = given_number("θ", "θ", 0 * u.degC)
    with u.shown_to(u.METRIC):
        inside = step("θ_i", "Inside", air + given_number("Δ", "Δ", kelvin * u.K), u.degC)
    assert printed(inside) == f"{text}\u00a0°C"


def test_temperatures_near_one_another_are_told_apart_and_subtracted_with_decimals() -> None:
    warm, cool = (given_number(mark, mark, number * u.degC) for mark, number in (("a", 34.0), ("b", 33.6)))
    assert pair(warm.shown_in(u.degF), cool.shown_in(u.degF)) == ("93\u00a0°F", "92.5\u00a0°F")
    (line,) = [
        line
        for line in working([step("D", "Difference", warm.shown_in(u.degF) - cool.shown_in(u.degF), u.K)])
        if line.symbol == "D"
    ]
    assert line.numbers == "93.20\u00a0°F − 92.48\u00a0°F"


def test_a_form_shows_a_temperature_of_the_other_scale_so_that_it_reads_back() -> None:
    """Within a twentieth of a degree; 93 °F would be read as 33.9 °C."""
    shown = [shown_text((number * unit).shown_in(other)) for number, unit, other in (
        (34, u.degC, u.degF), (0, u.degC, u.degF), (-18, u.degC, u.degF), (40, u.degF, u.degC))]  # fmt: skip
    assert shown == ["93.2", "32", "−0.4", "4.4"]
