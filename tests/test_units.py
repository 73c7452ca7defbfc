"""Every unit against definitions that are not ours: pint's own registry, NIST's table, the label rule for electric cars."""

from __future__ import annotations

import math

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc import units as u
from calc.units import Unit

# pint's stock definition file, which units.txt neither reads nor copies. pint calls the 746 W one "electrical".
STOCK = pint.UnitRegistry()
STOCK_NAMES = {
    "": "dimensionless",
    "%": "percent",
    "A": "ampere",
    "V": "volt",
    "mV": "millivolt",
    "W": "watt",
    "kW": "kilowatt",
    "VA": "volt_ampere",
    "kVA": "kilovolt_ampere",
    "hp": "electrical_horsepower",
    "Wh": "watt_hour",
    "kWh": "kilowatt_hour",
    "Ah": "ampere_hour",
    "Ω": "ohm",
    "mΩ": "milliohm",
    "Ω/kft": "ohm / (1000 foot)",
    "Ω/km": "ohm / kilometer",
    "Ω·mm²/m": "ohm * millimeter ** 2 / meter",
    "1/K": "1 / kelvin",
    "1/W": "1 / watt",
    "kVA/hp": "kilovolt_ampere / electrical_horsepower",
    "s": "second",
    "min": "minute",
    "h": "hour",
    "m": "meter",
    "mm": "millimeter",
    "km": "kilometer",
    "ft": "foot",
    "in": "inch",
    "mi": "mile",
    "mm²": "millimeter ** 2",
    "cmil": "circular_mil",
    "kg": "kilogram",
    "lb": "pound",
    "K": "kelvin",
    "°F apart": "delta_degree_Fahrenheit",
    "mi/kWh": "mile / kilowatt_hour",
    "km/kWh": "kilometer / kilowatt_hour",
    "kWh/100 mi": "kilowatt_hour / (100 mile)",
    "kWh/100 km": "kilowatt_hour / (100 kilometer)",
    "Wh/mi": "watt_hour / mile",
    "Wh/km": "watt_hour / kilometer",
    "µF": "microfarad",
    "kΩ": "kiloohm",
    "ms": "millisecond",
    "mF": "millifarad",
    "µH": "microhenry",
    "J": "joule",
    "kWh/m²": "kilowatt_hour / meter ** 2",
    "1/m": "1 / meter",
    "MPa": "megapascal",
    "kg·m": "kilogram * meter",
    "A²s": "ampere ** 2 * second",
    "A²s/mm⁴": "ampere ** 2 * second / millimeter ** 4",
    "Hz": "1 / second",  # pint's hertz is a cycle, one in any case
    "kA": "kiloampere",
    "mA": "milliampere",
    "days": "day",
    "kWh/day": "kilowatt_hour / day",
    "mph": "mile / hour",
    "km/h": "kilometer / hour",
    "m/s": "meter / second",
    "m/s²": "meter / second ** 2",
    "mi/h added": "mile / hour",
    "°": "degree",
    "N": "newton",
    "lbf": "pound_force",
    "N·m": "newton * meter",
    "lbf·in": "pound_force * inch",
    "Pa": "pascal",
    "kPa": "kilopascal",
    "psi": "psi",
    "m²": "meter ** 2",
    "cm²": "centimeter ** 2",
    "cm": "centimeter",
    "m³": "meter ** 3",
    "m³/h": "meter ** 3 / hour",
    "cfm": "foot ** 3 / minute",
    "kg/m³": "kilogram / meter ** 3",
    "mm²/s": "centistokes",
    "µPa·s": "micropascal * second",
    "W/K": "watt / kelvin",
    "W/m²": "watt / meter ** 2",
    "W/(m²·K)": "watt / (meter ** 2 * kelvin)",
    "W/(m·K)": "watt / (meter * kelvin)",
    "J/(kg·K)": "joule / (kilogram * kelvin)",
    "%/K": "percent / kelvin",
    "kg/kWh": "kilogram / kilowatt_hour",
    "L": "liter",
    "gal": "gallon",
    "gal/h": "gallon / hour",
    "L/h": "liter / hour",
    "gal/kWh": "gallon / kilowatt_hour",
    "L/kWh": "liter / kilowatt_hour",
}
# No general registry knows them: `wires` is a count and `$` a currency of our own; MPGe and prices have their own tests.
PRICES = {"$/kWh": u.kWh, "$/mi": u.mi, "$/km": u.km, "$/gal": u.gal, "$/L": u.L}
NOT_IN_STOCK = {"wires", "MPGe", "$", *PRICES}

SCALES = {"°C": "degree_Celsius", "°F": "degree_Fahrenheit"}

plain = st.floats(min_value=-1e6, max_value=1e6, allow_nan=False)


def called(sign: str) -> Unit:
    (found,) = [unit for unit in u.ALL if unit.sign == sign]
    return found


@pytest.mark.parametrize("sign", STOCK_NAMES)
def test_a_unit_is_as_large_as_in_an_independent_definition_file(sign: str) -> None:
    theirs = STOCK.Quantity(f"1 {STOCK_NAMES[sign]}").to_base_units()
    assert called(sign).factor == pytest.approx(theirs.magnitude, rel=1e-12)


@pytest.mark.parametrize("sign", STOCK_NAMES)
def test_a_unit_measures_what_it_measures_in_an_independent_definition_file(sign: str) -> None:
    theirs = STOCK.Quantity(f"1 {STOCK_NAMES[sign]}").dimensionality
    names = ("[length]", "[mass]", "[time]", "[current]", "[temperature]")
    assert called(sign).dimension[:5] == tuple(theirs.get(name, 0) for name in names)


def test_no_unit_escapes_the_comparison() -> None:
    assert {unit.sign for unit in u.ALL} == STOCK_NAMES.keys() | NOT_IN_STOCK | SCALES.keys()


@pytest.mark.parametrize("sign", PRICES)
def test_a_price_is_dollars_for_one_of_the_thing(sign: str) -> None:
    thing = PRICES[sign]
    assert called(sign).factor == pytest.approx(1 / thing.factor)
    assert called(sign).dimension == u.over(u.dollars.dimension, thing.dimension)


def test_signs_are_told_apart() -> None:
    signs = [unit.sign for unit in u.ALL]
    assert len(set(signs)) == len(signs)


@pytest.mark.parametrize(
    ("unit", "factor"),
    # NIST SP 811 (2008), appendix B.8 and B.9, from memory; to the seven figures printed there.
    [
        (u.ft, 0.3048),
        (u.inch, 0.0254),
        (u.mi, 1609.344),
        (u.lb, 0.4535924),
        (u.cmil, 5.067075e-10),
        (u.hp, 746.0),  # horsepower (electric); the mechanical one is 745.6999
        (u.kWh, 3.6e6),
        (u.Ah, 3600.0),
        (u.h, 3600.0),
        (u.minutes, 60.0),
        (u.lbf, 4.448222),
        (u.lbf_in, 0.1129848),
        (u.psi, 6894.757),
        (u.gal, 3.785412e-3),
        (u.cfm, 4.719474e-4),
        (u.mph, 0.44704),
        (u.degree, 1.745329e-2),
    ],
    ids=lambda value: value.sign if isinstance(value, Unit) else "",
)
def test_factors_are_those_of_the_national_guide(unit: Unit, factor: float) -> None:
    assert unit.factor == pytest.approx(factor, rel=5e-7)


@pytest.mark.parametrize(
    ("celsius", "fahrenheit"),
    # Definition of the two scales (NIST SP 811, B.8): freezing, boiling, body heat, and the point where they meet.
    [(0, 32), (100, 212), (37, 98.6), (-40, -40), (-273.15, -459.67), (30, 86), (75, 167)],
)
def test_a_temperature_reads_alike_on_both_scales(celsius: float, fahrenheit: float) -> None:
    assert u.degC.from_si(u.degF.to_si(fahrenheit)) == pytest.approx(celsius, abs=1e-9)
    assert u.degF.from_si(u.degC.to_si(celsius)) == pytest.approx(fahrenheit, abs=1e-9)
    assert u.degC.to_si(celsius) == pytest.approx(STOCK.Quantity(fahrenheit, "degF").to("kelvin").magnitude)


def test_a_difference_of_temperatures_is_no_temperature() -> None:
    """10 K apart is 18 °F apart, whereas 10 °C is 50 °F."""
    assert (10 * u.K).shown_in(u.fahrenheit_step).shown == pytest.approx(18)
    assert (10 * u.degC).shown_in(u.degF).shown == pytest.approx(50)
    assert not u.K.point and not u.fahrenheit_step.point
    assert [unit.sign for unit in u.ALL if unit.point] == ["°C", "°F"]


def test_a_gallon_on_the_label_of_an_electric_car_is_33_7_kilowatt_hours() -> None:
    """40 CFR 600.311-12 (2011), read in the public text: miles per gallon of 33.7 kWh, and kWh per 100 miles."""
    for per_100_miles in (25.0, 33.7, 48.0):
        miles_per_joule = 1 / (per_100_miles * u.kWh_per_100_mi.factor)
        assert u.MPGe.from_si(miles_per_joule) == pytest.approx(3370 / per_100_miles)


@given(plain)
def test_us_and_metric_counterparts_lead_back_to_each_other(number: float) -> None:
    for us in u.ALL:
        with u.shown_to(u.METRIC):
            metric = u.usual(us)
        there = metric.from_si(us.to_si(number))
        assert us.from_si(metric.to_si(there)) == pytest.approx(number, rel=1e-12, abs=1e-9)


def test_each_people_has_its_own_unit_for_a_thing_and_keeps_it() -> None:
    for unit in u.ALL:
        with u.shown_to(u.US):
            us = u.usual(unit)
        with u.shown_to(u.METRIC):
            metric = u.usual(unit)
            assert u.usual(us) is metric and u.usual(metric) is metric
        with u.shown_to(u.US):
            assert u.usual(metric) is us and u.usual(us) is us
        assert (us.dimension, us.point) == (metric.dimension, metric.point) == (unit.dimension, unit.point)


def test_what_people_are_shown_ends_with_the_block() -> None:
    before = u.people()
    with pytest.raises(ZeroDivisionError), u.shown_to(u.METRIC):
        assert u.people() == u.METRIC
        _ = 1 / 0
    assert u.people() == before
    with pytest.raises(ValueError), u.shown_to("furlongs"):
        pass


def test_only_the_units_of_the_trade_are_known() -> None:
    """A stock registry would read `parsec`; a slip of the finger must not become a unit."""
    for name in ("parsec", "fortnight", "barn", "league"):
        assert name in STOCK
        with pytest.raises(pint.UndefinedUnitError):
            u.registry().parse_units(name)


@given(plain, st.sampled_from(u.ALL))
def test_showing_and_storing_are_inverse(number: float, unit: Unit) -> None:
    assert unit.from_si(unit.to_si(number)) == pytest.approx(number, rel=1e-12, abs=1e-9)
    assert math.isfinite(unit.to_si(number))
