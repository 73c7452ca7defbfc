"""Units: pint behind one small door.

pint holds the definitions, the dimensions and the conversions; here each unit the trade prints is looked up
once, so that an operation on numbers costs a tuple and a float and never a parse. Magnitudes inside
are in coherent SI; a `Unit` says how to show them.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass, field
from functools import cache
from importlib.resources import files
from typing import TYPE_CHECKING, Any

import pint

if TYPE_CHECKING:
    from calc.quantity import Quantity

_BASES = ("[length]", "[mass]", "[time]", "[current]", "[temperature]", "[count]", "[money]", "[angle]")
_NAMES = ("m", "kg", "s", "A", "K", "wires", "$", "rad")

Dimension = tuple[float, ...]
NO_DIMENSION: Dimension = (0,) * len(_BASES)


def registry() -> pint.UnitRegistry[float]:
    """A pint registry that knows the units of `units.txt` and no others."""
    made: pint.UnitRegistry[float] = pint.UnitRegistry(None, autoconvert_offset_to_baseunit=True)
    text = (files("calc") / "units.txt").read_text(encoding="utf-8")
    made.load_definitions(text.splitlines())
    return made


_registry = registry()


@dataclass(frozen=True, slots=True, eq=False)
class Unit:
    """How a magnitude is shown: `shown = (si - offset) / factor`.

    `point` marks a temperature on a scale (20 °C), which is not a difference of temperatures (20 K).
    """

    sign: str
    word: str
    dimension: Dimension
    factor: float
    offset: float = 0.0
    point: bool = False
    spellings: tuple[str, ...] = field(default=())
    # What tells apart units of one dimension that are not the same thing (a torque is no energy); "" for most.
    kind: str = ""

    def __rmul__(self, number: float) -> Quantity:
        """50 * V: a quantity."""
        return quantity.numeral_with_unit(float(number), self)

    def to_si(self, number: float) -> float:
        return number * self.factor + self.offset

    def from_si(self, si: float) -> float:
        return (si - self.offset) / self.factor

    def __repr__(self) -> str:
        return f"Unit({self.sign!r})"


ALL: list[Unit] = []


def _unit(sign: str, definition: str, word: str, *spellings: str, point: bool = False, kind: str = "") -> Unit:
    """Look a unit up in pint once and remember its dimension, factor and offset."""
    expression = _registry.parse_units(definition)
    exponents: Any = _registry.get_dimensionality(expression)
    dimension = tuple(float(exponents.get(base, 0)) for base in _BASES)
    zero: Any = _registry.Quantity(0.0, expression).to_base_units().magnitude
    one: Any = _registry.Quantity(1.0, expression).to_base_units().magnitude
    # pint's base of mass is the gram, ours the kilogram.
    scale = 1000.0 ** -dimension[1]
    # 14 digits: pint reaches a foot by way of an inch and a hair less than 0.3048.
    factor = float(f"{(one - zero) * scale:.14g}")
    made = Unit(sign, word, dimension, factor, zero * scale if point else 0.0, point, spellings, kind)
    ALL.append(made)
    return made


one = _unit("", "plain", "as a plain number")
percent = _unit("%", "percent", "in per cent", "percent", "per cent", "pct")
wires = _unit("wires", "wire_count", "number of wires", "wire")

A = _unit("A", "ampere", "in amps", "amp", "amps", "ampere", "amperes")
V = _unit("V", "volt", "in volts", "volt", "volts", "vac", "vdc")
mV = _unit("mV", "millivolt", "in millivolts")
W = _unit("W", "watt", "in watts", "watt", "watts")
kW = _unit("kW", "kilowatt", "in kilowatts", "kilowatt", "kilowatts")
VA = _unit("VA", "volt * ampere", "in volt-amperes", "volt-ampere", "volt-amperes")
kVA = _unit("kVA", "kilovolt * ampere", "in kilovolt-amperes")
hp = _unit("hp", "horsepower", "in horsepower", "horsepower", "horse power")
Wh = _unit("Wh", "watt_hour", "in watt-hours")
kWh = _unit("kWh", "kilowatt_hour", "in kilowatt-hours")
Ah = _unit("Ah", "ampere_hour", "in amp-hours")
ohm = _unit("Ω", "ohm", "in ohms", "ohm", "ohms")
mohm = _unit("mΩ", "milliohm", "in milliohms", "milliohm", "milliohms", "mohm")
ohm_per_kft = _unit("Ω/kft", "ohm / kilofoot", "in ohms per thousand feet", "ohm/kft")
ohm_per_km = _unit("Ω/km", "ohm / kilometer", "in ohms per kilometre", "ohm/km")
ohm_mm2_per_m = _unit("Ω·mm²/m", "ohm * millimeter ** 2 / meter", "in ohm square millimetres per metre")
per_K = _unit("1/K", "1 / kelvin", "per kelvin")
per_W = _unit("1/W", "1 / watt", "per watt")
kVA_per_hp = _unit("kVA/hp", "kilovolt * ampere / horsepower", "in kilovolt-amperes per horsepower")

s = _unit("s", "second", "in seconds", "sec", "second", "seconds")
minutes = _unit("min", "minute", "in minutes", "minute", "minutes")
h = _unit("h", "hour", "in hours", "hr", "hrs", "hour", "hours")

m = _unit("m", "meter", "in metres", "metre", "metres", "meter", "meters")
mm = _unit("mm", "millimeter", "in millimetres")
km = _unit("km", "kilometer", "in kilometres", "kilometre", "kilometres")
ft = _unit("ft", "foot", "in feet", "feet", "foot", "'", "′")
inch = _unit("in", "inch", "in inches", "inch", "inches", '"', "″")
mi = _unit("mi", "mile", "in miles", "mile", "miles")
mm2 = _unit("mm²", "millimeter ** 2", "in square millimetres", "mm2", "sq mm", "mm^2")
cmil = _unit("cmil", "circular_mil", "in circular mils")

kg = _unit("kg", "kilogram", "in kilograms", "kilogram", "kilograms", "kilo", "kilos")
lb = _unit("lb", "pound", "in pounds", "lbs", "pound", "pounds")

# --- the rest of the job: heat, air, sun, force, money
mF = _unit("mF", "millifarad", "in millifarads", "millifarad", "millifarads")
uH = _unit("µH", "microhenry", "in microhenries", "uh", "microhenry", "microhenries")
J = _unit("J", "joule", "in joules", "joule", "joules")
uF = _unit("µF", "microfarad", "in microfarads", "uf", "microfarad", "microfarads")
kohm = _unit("kΩ", "kiloohm", "in kilohms", "kohm", "kilohm", "kilohms")
ms = _unit("ms", "millisecond", "in milliseconds", "millisecond", "milliseconds")
A2s = _unit("A²s", "ampere ** 2 * second", "in ampere-squared seconds", "a2s", "i2t")
Hz = _unit("Hz", "hertz", "in hertz", "hertz")
kA = _unit("kA", "kiloampere", "in kiloamps", "kiloamp", "kiloamps")
mA = _unit("mA", "milliampere", "in milliamps", "milliamp", "milliamps")
day = _unit("days", "day", "in days", "day", "d")
kWh_per_day = _unit("kWh/day", "kilowatt_hour / day", "in kilowatt-hours per day", "kwh/d", "kwh per day")
mph = _unit("mph", "mile / hour", "in miles per hour", "mi/h")
km_per_h = _unit("km/h", "kilometer / hour", "in kilometres per hour", "kmh", "kph")
m_per_s = _unit("m/s", "meter / second", "in metres per second")
m_per_s2 = _unit("m/s²", "meter / second ** 2", "in metres per second squared")
mph_added = _unit("mi/h added", "mile / hour", "in miles of driving per hour of charging", kind="charging")
degree = _unit("°", "degree", "in degrees", "deg", "degree", "degrees")
N = _unit("N", "newton", "in newtons", "newton", "newtons")
lbf = _unit("lbf", "pound_force", "in pounds-force", "pounds-force", "pound-force")
N_m = _unit("N·m", "newton * meter", "in newton-metres", "nm", "n m", kind="torque")
lbf_in = _unit("lbf·in", "pound_force * inch", "in pound-force inches", "lbf in", "in-lb", "in lb", "lb-in", "lb in", kind="torque")
Pa = _unit("Pa", "pascal", "in pascals", "pascal", "pascals")
kPa = _unit("kPa", "kilopascal", "in kilopascals")
MPa = _unit("MPa", "megapascal", "in megapascals", "n/mm2", "n/mm²")
psi = _unit("psi", "pound_force / inch ** 2", "in pounds per square inch")
m2 = _unit("m²", "meter ** 2", "in square metres", "m2", "sq m")
cm2 = _unit("cm²", "centimeter ** 2", "in square centimetres", "cm2")
cm = _unit("cm", "centimeter", "in centimetres")
m3 = _unit("m³", "meter ** 3", "in cubic metres", "m3")
m3_per_h = _unit("m³/h", "meter ** 3 / hour", "in cubic metres per hour", "m3/h", "cmh")
cfm = _unit("cfm", "foot ** 3 / minute", "in cubic feet per minute", "ft3/min")
mm2_per_s = _unit("mm²/s", "millimeter ** 2 / second", "in square millimetres per second", "mm2/s", "cst")
uPa_s = _unit("µPa·s", "micropascal * second", "in micropascal-seconds")
kg_per_m3 = _unit("kg/m³", "kilogram / meter ** 3", "in kilograms per cubic metre", "kg/m3")
W_per_K = _unit("W/K", "watt / kelvin", "in watts per kelvin", "w/k", "w/c")
W_per_m2 = _unit("W/m²", "watt / meter ** 2", "in watts per square metre", "w/m2")
W_per_m2K = _unit("W/(m²·K)", "watt / meter ** 2 / kelvin", "in watts per square metre and kelvin", "w/m2k")
W_per_mK = _unit("W/(m·K)", "watt / meter / kelvin", "in watts per metre and kelvin", "w/mk")
per_m = _unit("1/m", "1 / meter", "per metre")
kg_m = _unit("kg·m", "kilogram * meter", "in kilogram-metres")
J_per_kgK = _unit("J/(kg·K)", "joule / kilogram / kelvin", "in joules per kilogram and kelvin", "j/kgk")
percent_per_K = _unit("%/K", "percent / kelvin", "in per cent per kelvin", "%/k", "%/c", "%/°c")
kg_per_kWh = _unit("kg/kWh", "kilogram / kilowatt_hour", "in kilograms per kilowatt-hour")
L = _unit("L", "litre", "in litres", "litre", "litres", "liter", "liters")
gal = _unit("gal", "gallon", "in US gallons", "gallon", "gallons")
gal_per_h = _unit("gal/h", "gallon / hour", "in gallons per hour")
L_per_h = _unit("L/h", "litre / hour", "in litres per hour")
gal_per_kWh = _unit("gal/kWh", "gallon / kilowatt_hour", "in gallons per kilowatt-hour")
L_per_kWh = _unit("L/kWh", "litre / kilowatt_hour", "in litres per kilowatt-hour")
dollars = _unit("$", "money", "in dollars", "dollar", "dollars", "usd")
dollars_per_kWh = _unit("$/kWh", "money / kilowatt_hour", "in dollars per kilowatt-hour")
dollars_per_mi = _unit("$/mi", "money / mile", "in dollars per mile")
dollars_per_km = _unit("$/km", "money / kilometer", "in dollars per kilometre")
dollars_per_gal = _unit("$/gal", "money / gallon", "in dollars per gallon")
dollars_per_L = _unit("$/L", "money / litre", "in dollars per litre")

K = _unit("K", "kelvin", "in kelvins", "kelvin")
fahrenheit_step = _unit("°F apart", "fahrenheit_step", "in Fahrenheit degrees apart")
degC = _unit("°C", "degree_Celsius", "in degrees Celsius", "c", "degc", "deg c", "° c", "celsius", point=True)
degF = _unit("°F", "degree_Fahrenheit", "in degrees Fahrenheit", "f", "degf", "deg f", "° f", "fahrenheit", point=True)

mi_per_kWh = _unit("mi/kWh", "mile / kilowatt_hour", "in miles per kilowatt-hour", "miles/kwh", "mile/kwh")
km_per_kWh = _unit("km/kWh", "kilometer / kilowatt_hour", "in kilometres per kilowatt-hour")
MPGe = _unit("MPGe", "mile_per_gallon_equivalent", "in MPGe", "mpg-e", "mpg e")
kWh_per_100_mi = _unit(
    "kWh/100 mi",
    "kilowatt_hour / hundred_mile",
    "in kilowatt-hours per 100 miles",
    "kwh/100mi",
    "kwh per 100 mi",
    "kwh per 100 miles",
    "kwh/100 miles",
)
kWh_per_100_km = _unit(
    "kWh/100 km",
    "kilowatt_hour / hundred_kilometer",
    "in kilowatt-hours per 100 kilometres",
    "kwh/100km",
    "kwh per 100 km",
)
Wh_per_mi = _unit("Wh/mi", "watt_hour / mile", "in watt-hours per mile")
Wh_per_km = _unit("Wh/km", "watt_hour / kilometer", "in watt-hours per kilometre")

A2s_per_mm4 = _unit(
    "A²s/mm⁴", "ampere ** 2 * second / millimeter ** 4", "in ampere-squared seconds per square millimetre squared"
)
kWh_per_m2 = _unit("kWh/m²", "kilowatt_hour / meter ** 2", "in kilowatt-hours per square metre", "kwh/m2")

# What a person may type. A horsepower is a power too, so kVA/hp is a plain number by dimension, and no percentage.
TYPED = tuple(unit for unit in ALL if unit not in (kVA_per_hp, per_K, per_W))

# --- whom the numbers are shown to -------------------------------------------------------------------------

US, METRIC = "us", "metric"
PEOPLE = (US, METRIC)

_COUNTERPARTS = (
    (ft, m),
    (mi, km),
    (inch, mm),
    (lb, kg),
    (degF, degC),
    (fahrenheit_step, K),
    (mi_per_kWh, km_per_kWh),
    (Wh_per_mi, Wh_per_km),
    (mph, km_per_h),
    (lbf, N),
    (lbf_in, N_m),
    (psi, kPa),
    (cfm, m3_per_h),
    (gal, L),
    (gal_per_h, L_per_h),
    (gal_per_kWh, L_per_kWh),
    (dollars_per_mi, dollars_per_km),
    (dollars_per_gal, dollars_per_L),
)
_US_OF = {metric: us for us, metric in _COUNTERPARTS}
_METRIC_OF = dict(_COUNTERPARTS)

_people: ContextVar[str] = ContextVar("people", default=US)


@contextmanager
def shown_to(people: str) -> Iterator[None]:
    """Within this block, numbers that are worked out are shown in the units these people use."""
    if people not in PEOPLE:
        raise ValueError(f"units are {' or '.join(PEOPLE)}, not {people!r}")
    token = _people.set(people)
    try:
        yield
    finally:
        _people.reset(token)


def people() -> str:
    """Whom numbers are being shown to: `us` or `metric`."""
    return _people.get()


def usual(unit: Unit) -> Unit:
    """The unit that the people being shown to would use for what `unit` measures."""
    return (_US_OF if _people.get() == US else _METRIC_OF).get(unit, unit)


# --- dimensions ---------------------------------------------------------------------------------------------


@cache
def times(left: Dimension, right: Dimension) -> Dimension:
    return tuple(a + b for a, b in zip(left, right, strict=True))


@cache
def over(left: Dimension, right: Dimension) -> Dimension:
    return tuple(a - b for a, b in zip(left, right, strict=True))


@cache
def power(dimension: Dimension, exponent: float) -> Dimension:
    return tuple(a * exponent for a in dimension)


@cache
def coherent(dimension: Dimension) -> Unit:
    """The plain SI unit of a dimension: what an unnamed result is kept in."""
    parts = [f"{name}^{exponent:g}" for name, exponent in zip(_NAMES, dimension, strict=True) if exponent]
    return Unit("·".join(parts), "", dimension, 1.0)


# A quantity has a unit, and a number times a unit is a quantity: that module needs this one whole.
from calc import quantity  # noqa: E402
