"""What people type at a cart: read as they mean it, or refused in words that say what to write. Never guessed."""

from __future__ import annotations

import math
import re
from decimal import Decimal
from fractions import Fraction

import pytest
from choices import picks_that_ask
from hypothesis import assume, example, given
from hypothesis import strategies as st

from calc import units as u
from calc.catalogue import all_checks, check_called
from calc.check import IEC, NEC, RULE_SETS, Ask, Check, Pick
from calc.facts import FACTS
from calc.form import fill, good_example, read_field
from calc.printing import as_read, figures, printed, with_unit
from calc.quantity import Quantity
from calc.reading import Unreadable, must_be_between, read_choice, read_number, read_quantity
from calc.tables import table
from calc.units import Unit

# The house style for refusals: they say what to write and do not scold, beg or joke.
BANNED = re.compile(r"\b(please|sorry|invalid|oops|error|illegal|traceback|exception|none)\b", re.IGNORECASE)

CAR = check_called("run/car-distance")
SIZES: Pick = check_called("wire/wire-for-run").asks["size"]  # type: ignore[assignment]
AWG, MM2 = SIZES.options(NEC), SIZES.options(IEC)
HORSEPOWER, OUTLETS = table("motor_current").rows, table("outlets").rows
ASKS = [(check, name, spec) for check in all_checks() for name, spec in check.asks.items() if isinstance(spec, Ask)]
PICKS = [
    (spec, rules)
    for check in all_checks()
    for spec in check.asks.values()
    if isinstance(spec, Pick)
    for rules in spec.rules
]


def refusal(text: str, unit: Unit, either_way: bool = False) -> str:
    with pytest.raises(Unreadable) as problem:
        read_quantity(text, unit, "5", either_way)
    return str(problem.value)


# --- numbers and their units -----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "number", "unit"),
    [
        ("125 A", 125, u.A),
        ("125a", 125, u.A),
        ("125 amps", 125, u.A),
        ("125.", 125, u.A),
        (" 1,5", 1.5, u.A),
        (",5", 0.5, u.A),
        (".5", 0.5, u.A),
        ("0,500", 0.5, u.A),
        ("+5", 5, u.A),
        ("−20", -20, u.degC),
        ("-20", -20, u.degC),
        ("–20", -20, u.degC),
        ("− 20 °C", -20, u.degC),
        ("-4 F", -20, u.degC),
        ("68°f", 20, u.degC),
        ("68 deg F", 20, u.degC),
        ("１２５", 125, u.A),
        ("１２５ A", 125, u.A),
        ("3/4 hp", 0.75 * 746, u.W),
        ("1 1/2 hp", 1.5 * 746, u.W),
        ("1-1/2 hp", 1.5 * 746, u.W),
        ("1½ hp", 1.5 * 746, u.W),
        ("1 ½ HP", 1.5 * 746, u.W),
        ("½", 0.5, u.one),
        ("⅞ in", 7 / 8 * 25.4, u.mm),
        ("3⁄4 in", 0.75 * 25.4, u.mm),
        ("50'", 50, u.ft),
        ("50’", 50, u.ft),
        ("50 ′", 50, u.ft),
        ("50 ft.", 50, u.ft),
        ('6"', 0.5, u.ft),
        ("6 in.", 0.5, u.ft),
        ("15 m", 15 / 0.3048, u.ft),
        ("15 M", 15 / 0.3048, u.ft),
        ("1 500", 1500, u.W),
        ("1\u202f500 W", 1500, u.W),
        ("1\u00a0500", 1500, u.W),
        ("1,500.5", 1500.5, u.W),
        ("1,234,567", 1234567, u.W),
        ("1.5 kW", 1500, u.W),
        ("1.5kw", 1500, u.W),
        ("1500 VA", 1500, u.W),
        ("10.2 kW h", 10200, u.Wh),
        ("1e3", 1000, u.W),
        ("1.2 × 10³ W", 1200, u.W),
        ("1.2x10^3 W", 1200, u.W),
        ("5 mΩ", 0.005, u.ohm),
        ("5 mohm", 0.005, u.ohm),
        ("0.005 Ω", 0.005, u.ohm),
        ("0.005 Ω", 0.005, u.ohm),  # the ohm sign, not the Greek letter
        ("80 %", 0.8, u.one),
        ("0.8", 0.8, u.one),
        ("2.5 mm2", 2.5, u.mm2),
        ("2.5 mm²", 2.5, u.mm2),
        ("2.5 sq mm", 2.5, u.mm2),
        ("90 min", 1.5, u.h),
        ("3.1 miles/kWh", 3.1, u.mi_per_kWh),
    ],
)
def test_what_people_type_is_read_as_they_mean_it(text: str, number: float, unit: Unit) -> None:
    assert read_quantity(text, unit, "5").number_in(unit) == pytest.approx(number, rel=1e-9)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "must be filled in, like 5"),
        ("   ", "must be filled in, like 5"),
        ("1,500", "write 1500 or 1.5"),
        ("12,000", "write 12000 or 12"),
        ("100,250 A", "write 100250 or 100.25"),
        ("1.500,5", "must be one number"),
        ("1.234.567", "must be one number"),
        ("1,2,3", "must be one number"),
        ("12..5", "must be one number"),
        ("1 2", "must be one number"),
        ("1 50", "must be one number"),
        ("12x", "“x” is not read here"),
        ("5 bananas", "“bananas” is not read here"),
        ("0x10", "“x10” is not read here"),
        ("5e", "“e” is not read here"),
        ("5%", "“%” is not read here"),
        ("5-10", "“-10” is not read here"),
        ("5 to 10", "“to 10” is not read here"),
        ("14 AWG", "“AWG” is not read here"),
        ("1.5k", "“k” is not read here"),
        ("1/2/3", "“/3” is not read here"),
        ("10/5 A", "a stroke here parts two"),
        ("16/15", "a stroke here parts two"),
        ("1/0", "nothing to divide by"),
        ("6' 3", "must be a single number"),
        ("1e999", "must be a smaller number"),
        ("9" * 400, "must be a number of fewer figures"),
        ("nan", "must be a number, like 5"),
        ("inf", "must be a number, like 5"),
        ("-inf", "must be a number, like 5"),
        ("Infinity", "must be a number, like 5"),
        ("twelve", "must be a number, like 5"),
        ("~5", "must be a number, like 5"),
        ("--5", "must be a number, like 5"),
        ("(5)", "must be a number, like 5"),
        ("1_000", "is not read here"),
    ],
)
def test_what_is_no_number_or_two_is_refused_and_says_what_to_write(text: str, says: str) -> None:
    assert says in refusal(text, u.A)


@pytest.mark.parametrize("text", ["3x100 W", "3 x 100 W", "2 × 1000 W", "2*100", "2 × 105 W", "5 * 10 3"])
def test_a_count_times_a_number_is_no_power_of_ten(text: str) -> None:
    """Three lamps of 100 W are not 3 W: only `10` with a raised figure, a caret or a sign is a power of ten."""
    assert refusal(text, u.W)


@pytest.mark.parametrize("text", ["10⁴ W", "5⁴", "5⁰", "5₄", "10₄ W", "5² A", "5³"])
def test_a_raised_or_lowered_figure_is_not_a_digit(text: str) -> None:
    """10⁴ W is not 104 W."""
    assert refusal(text, u.W)


@pytest.mark.parametrize(
    "text", ["9" * 400 + "/2", "1/" + "9" * 400, "9" * 400 + " 1/2", "9" * 5000 + "/2", "1/" + "9" * 5000, "1e308 kW"]
)
def test_a_number_beyond_any_machine_is_refused_or_finite(text: str) -> None:
    try:
        assert math.isfinite(read_quantity(text, u.W, "5").si)
    except Unreadable as problem:
        assert "number" in str(problem)


@pytest.mark.parametrize("text", ["5 MΩ", "5 Mohm", "5 MOHM", "5 MV", "5 Mv", "5 MA", "5 Ma", "5 MF"])
def test_mega_is_not_milli(text: str) -> None:
    """A thousand million apart: where only the case tells them apart, it is read as written."""
    for unit in (u.ohm, u.mohm, u.V, u.mV, u.A, u.mA, u.mF):
        assert refusal(text, unit)


@pytest.mark.parametrize(
    ("text", "unit"),
    [
        ("5 kg", u.m),
        ("5 m", u.s),
        ("5 s", u.m),
        ("5 V", u.A),
        ("5 kW", u.kWh),
        ("5 Ah", u.kWh),
        ("20 K", u.degC),
        ("20 °C", u.K),
        ("5 kVA/hp", u.percent),
        ("5 wires", u.one),
        ("50 °", u.percent),
        ("0.8 °", u.one),
        ("5 N·m", u.kWh),
        ("5 mi", u.mi_per_kWh),
    ],
)
def test_a_unit_of_another_kind_is_refused_by_name(text: str, unit: Unit) -> None:
    assert text.split(" ", 1)[1] in refusal(text, unit)


def test_no_unit_ever_reads_for_a_thing_of_another_kind() -> None:
    for wanted in u.ALL:
        for other in u.ALL:
            if other.sign and (other.dimension, other.point, other.kind) != (
                wanted.dimension,
                wanted.point,
                wanted.kind,
            ):
                assert refusal(f"5 {other.sign}", wanted)


# --- distance on energy, either way up --------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "per_kwh"),
    # 40 CFR 600.311-12 (2011), read in the public text: a gallon is 33.7 kWh, so 33.7 kWh per 100 miles are 100 MPGe.
    [
        ("33.7 kWh/100 mi", 100 / 33.7),
        ("100 MPGe", 100 / 33.7),
        ("33.7 MPGe", 1),
        ("25 kWh/100mi", 4),
        ("25 kWh per 100 miles", 4),
        ("250 Wh/mi", 4),
        ("4 mi/kWh", 4),
        ("155.342 Wh/km", 4),
        ("15.5342 kWh/100 km", 4),
        ("6.437376 km/kWh", 4),
    ],
)
def test_what_a_car_uses_reads_alike_either_way_up(text: str, per_kwh: float) -> None:
    read = read_quantity(text, u.mi_per_kWh, "3.1", either_way=True)
    upright = read if read.unit.dimension == u.mi_per_kWh.dimension else 1 / read
    assert upright.si / u.mi_per_kWh.factor == pytest.approx(per_kwh, rel=1e-5)


def test_a_car_goes_equally_far_whichever_way_its_consumption_is_typed() -> None:
    def distance(text: str) -> float:
        return fill(CAR, {"consumption": text}).answer().results["distance"].si  # type: ignore[union-attr]

    for text in (
        "25 kWh/100 mi",
        "250 Wh/mi",
        f"{25 / 1.609344} kWh/100 km",
        f"{4 * 33.7} MPGe",
        f"{4 * 1.609344} km/kWh",
    ):
        assert distance(text) == pytest.approx(distance("4 mi/kWh"))


def test_only_where_it_is_said_may_a_number_be_upside_down() -> None:
    assert refusal("32 kWh/100 mi", u.mi_per_kWh)


@pytest.mark.parametrize(
    "text", ["0 kWh/100 mi", "1e-320 kWh/100 mi", "9999 kWh/100 mi", "-3 kWh/100 mi", "0.001 Wh/km"]
)
def test_a_range_is_turned_over_as_well(text: str) -> None:
    """Refused with the range in the unit that was typed, and both its ends are then accepted."""
    problem = fill(CAR, {"consumption": text}).problems["consumption"]
    sign = text.split(" ", 1)[1]
    bounds = re.search(r"between (.+) and (.+)\.$", problem).groups()  # type: ignore[union-attr]
    for bound in bounds:
        assert bound.endswith(sign)
        assert not fill(CAR, {"consumption": bound}).problems


# --- properties -------------------------------------------------------------------------------------------------

numbers = st.floats(min_value=1e-9, max_value=1e12) | st.floats(min_value=-1e12, max_value=-1e-9) | st.just(0.0)
# `1/K` begins with a figure, so it cannot follow one; nothing asks for it.
typed_unit = st.sampled_from([unit for unit in u.TYPED if not unit.sign[:1].isdigit()])
# Typing that is nearly right finds more than random text does.
fragments = st.sampled_from(
    [
        *"0123456789",
        *" ,.'/-+−–%°\"²³⁴½¼Ω×x*^e",
        "10",
        " 1/2",
        "×10",
        "kWh",
        "/100 mi",
        "mi/kWh",
        "ft",
        "hp",
        "m",
        "A",
        "W",
    ]
)
typed = st.text(max_size=30) | st.lists(fragments, max_size=12).map("".join)


@given(numbers, typed_unit, st.integers(min_value=1, max_value=9))
def test_what_is_printed_can_be_read(number: float, unit: Unit, count: int) -> None:
    text = with_unit(figures(number, count), unit)
    assert read_quantity(text, unit, "5").shown == pytest.approx(number, rel=0.51 * 10.0 ** (1 - count), abs=1e-12)


@given(numbers, typed_unit)
def test_what_is_printed_as_it_was_read_can_be_read_again(number: float, unit: Unit) -> None:
    assert read_quantity(with_unit(as_read(number), unit), unit, "5").shown == pytest.approx(number, rel=1e-9)
    assert read_quantity(printed(number * unit), unit, "5").shown == pytest.approx(number, rel=1e-9)


@given(numbers, typed_unit)
def test_a_unit_reads_in_every_spelling_of_it(number: float, unit: Unit) -> None:
    for spelling in (unit.sign, *unit.spellings):
        read = read_quantity(f"{as_read(number)} {spelling}", unit, "5")
        assert read.unit is unit or not spelling
        assert read.shown == pytest.approx(number, rel=1e-9)


@given(typed, typed_unit, st.booleans())
@example("9" * 400 + "/2", u.W, False)
@example("1e308 kWh", u.kWh, False)
@example("1e-320 kWh/100 mi", u.mi_per_kWh, True)
def test_any_text_reads_as_a_finite_number_or_is_refused_in_plain_words(
    text: str, unit: Unit, either_way: bool
) -> None:
    try:
        read = read_quantity(text, unit, "5", either_way)
    except Unreadable as problem:
        assert str(problem).strip() and not BANNED.search(str(problem).replace(text.strip()[:20], ""))
    else:
        assert math.isfinite(read.si) and math.isfinite(read.shown)
        assert read.unit.point == unit.point
        turned = u.over(u.NO_DIMENSION, unit.dimension)
        assert read.unit.dimension == unit.dimension or (either_way and read.unit.dimension == turned)


@given(typed, typed_unit)
def test_reading_twice_is_reading_the_same(text: str, unit: Unit) -> None:
    def outcome() -> object:
        try:
            read = read_quantity(text, unit, "5")
            return read.si, read.unit
        except Unreadable as problem:
            return str(problem)

    assert outcome() == outcome()


@given(st.decimals(min_value=-(10**9), max_value=10**9, places=4))
def test_a_plain_decimal_reads_with_point_and_with_comma(number: Decimal) -> None:
    text = f"{number:.4f}"
    assert read_number(text) == (float(number), "")
    assert read_number(text.replace(".", ",")) == (float(number), "")


@given(st.integers(min_value=1000, max_value=999_999), st.booleans())
def test_one_comma_before_three_figures_is_never_guessed(number: int, negative: bool) -> None:
    text = f"{'-' if negative else ''}{number:,}"
    says = refusal(text, u.W)
    thousands, decimal = re.search(r"write (\S+) or (\S+)$", says).groups()  # type: ignore[union-attr]
    assert (float(thousands), float(decimal)) == (number, number / 1000)


@given(st.integers(min_value=1_000_000, max_value=10**12))
def test_two_commas_before_three_figures_can_only_be_thousands(number: int) -> None:
    assert read_number(f"{number:,}") == (float(number), "")
    assert read_number(f"{number:,}".replace(",", " ")) == (float(number), "")


@given(st.integers(0, 200), st.integers(0, 63), st.integers(1, 64), st.sampled_from([" ", "-", "  ", "\u00a0"]))
def test_a_fraction_is_a_fraction(whole: int, over: int, under: int, between: str) -> None:
    if over <= under:  # 10/5 A on a plate are ten or five
        assert read_number(f"{over}/{under}")[0] == pytest.approx(float(Fraction(over, under)))
    assert read_number(f"{whole}{between}{over}/{under}")[0] == pytest.approx(float(whole + Fraction(over, under)))


def test_every_unit_that_a_form_or_a_rig_asks_for_can_be_typed() -> None:
    facts = [fact.unit for group in FACTS.values() for fact in group.values() if fact.unit]
    for unit in [spec.unit for _, _, spec in ASKS] + facts:
        for people in u.PEOPLE:
            with u.shown_to(people):
                assert u.usual(unit) in u.TYPED


# --- ranges -----------------------------------------------------------------------------------------------------


# Bounds as they are written in a form: a few figures.
hundredths = st.integers(-10_000, 10_000).map(lambda whole: whole / 100)


@given(st.floats(-1e4, 1e4), hundredths, st.integers(10, 100_000), st.sampled_from([u.ft, u.m, u.inch, u.km]))
def test_a_number_outside_its_range_is_told_a_range_that_holds(
    number: float, low: float, span_in_hundredths: int, unit: Unit
) -> None:
    span = span_in_hundredths / 100
    lowest, highest = low * u.ft, round(low + span, 2) * u.ft
    asked = number * unit
    try:
        assert must_be_between(asked, lowest, highest) is asked
        assert lowest.si - 1e-6 <= asked.si <= highest.si + 1e-6
    except Unreadable as problem:
        assert not lowest.si < asked.si < highest.si
        bounds = re.fullmatch(r"must be between (.+) and (.+)", str(problem)).groups()  # type: ignore[union-attr]
        assume(span > abs(low) / 50)  # a range narrower than the printed figures can print as a point
        for bound in bounds:
            told = read_quantity(bound, u.ft, "5")
            assert told.unit is unit
            assert lowest.si - 1e-5 <= told.si <= highest.si + 1e-5


@pytest.mark.parametrize(("check", "name", "spec"), ASKS, ids=[f"{check.id}-{name}" for check, name, _ in ASKS])
def test_every_refusal_names_the_field_and_says_what_to_write(check: type[Check], name: str, spec: Ask) -> None:
    for rules in spec.rules:
        for text in ("", "12x", "1,500", "nan", "1e300", "-1e300", "5 bananas"):
            problem = fill(check, picks_that_ask(check, name, rules) | {name: text}, rules=rules).problems[name]
            assert problem.startswith(spec.label) and problem.endswith(".")
            assert not BANNED.search(problem)


@pytest.mark.parametrize("people", u.PEOPLE)
def test_the_example_in_a_refusal_is_itself_accepted(people: str) -> None:
    with u.shown_to(people):
        for _, name, spec in ASKS:
            for rules in spec.rules:
                read = read_field(spec, good_example(spec), rules)
                assert isinstance(read, Quantity)
                assert read.si == pytest.approx(spec.default.si, rel=0.006, abs=0.3), name


# --- choices ----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "options", "option"),
    [
        ("2/0", AWG, "2/0 AWG"),
        ("2/0 AWG", AWG, "2/0 AWG"),
        ("12 ga", AWG, "12 AWG"),
        ("12 gauge", AWG, "12 AWG"),
        ("12GA", AWG, "12 AWG"),
        ("12", AWG, "12 AWG"),
        ("#12", AWG, "12 AWG"),
        ("No. 12", AWG, "12 AWG"),
        ("AWG 12", AWG, "12 AWG"),
        ("14 AWG", AWG, "14 AWG"),
        ("14awg", AWG, "14 AWG"),
        (" 14\u00a0AWG ", AWG, "14 AWG"),
        ("1", AWG, "1 AWG"),
        ("250", AWG, "250 kcmil"),
        ("2.5 mm2", MM2, "2.5 mm2"),
        ("2.5mm²", MM2, "2.5 mm2"),
        ("2.5 sq mm", MM2, "2.5 mm2"),
        ("2.5", MM2, "2.5 mm2"),
        ("2,5 mm2", MM2, "2.5 mm2"),
        ("3/4", HORSEPOWER, "3/4"),
        ("3/4 hp", HORSEPOWER, "3/4"),
        ("1 1/2 hp", HORSEPOWER, "1 1/2"),
        ("1½", HORSEPOWER, "1 1/2"),
        ("1-1/2", HORSEPOWER, "1 1/2"),
        ("½", HORSEPOWER, "1/2"),
        ("1", HORSEPOWER, "1"),
        ("10", HORSEPOWER, "10"),
        ("5-20", OUTLETS, "5-20"),
        ("5–20", OUTLETS, "5-20"),
        ("l5-30", OUTLETS, "L5-30"),
        ("120", ("120 V", "240 V"), "120 V"),
        ("240v", ("120 V", "240 V"), "240 V"),
        ("YES", ("no", "yes"), "yes"),
        ("No", ("no", "yes"), "no"),
        ("label", ("dash (at the battery)", "label (at the wall)"), "label (at the wall)"),
    ],
)
def test_a_choice_is_read_however_the_trade_writes_it(text: str, options: tuple[str, ...], option: str) -> None:
    assert read_choice(text, options) == option


@pytest.mark.parametrize(
    ("text", "options"),
    [
        ("", AWG),
        ("   ", AWG),
        ("13 AWG", AWG),
        ("6 mm2", AWG),
        ("6 AWG", MM2),
        ("1 4", AWG),
        ("12 AWG 10 AWG", AWG),
        ("-12", AWG),
        ("5-2", OUTLETS),
        ("110", ("120 V", "240 V")),
        ("4", HORSEPOWER),
        ("11/2", HORSEPOWER),  # eleven halves, or one and a half
        ("1 0", HORSEPOWER),
        ("#", ("no", "yes")),
        ("awg", ("no", "yes")),
        ("gauge", ("no", "yes")),
        ("y", ("no", "yes")),
        ("d", ("dash (at the battery)", "label (at the wall)")),
    ],
)
def test_a_choice_that_is_not_offered_is_refused(text: str, options: tuple[str, ...]) -> None:
    with pytest.raises(Unreadable) as problem:
        read_choice(text, options)
    assert options[0] in str(problem.value) and not BANNED.search(str(problem.value))


def test_two_choices_that_begin_alike_are_both_named() -> None:
    with pytest.raises(Unreadable, match="write 6 AWG or 6 mm2"):
        read_choice("6", ("6 AWG", "6 mm2"))


@pytest.mark.parametrize(("spec", "rules"), PICKS, ids=lambda value: value if value in RULE_SETS else value.label)
def test_every_option_reads_as_itself_in_any_case_and_spacing(spec: Pick, rules: str) -> None:
    options = spec.options(rules)
    for option in options:
        for text in (option, option.upper(), option.lower(), f"  {option} ", option.replace(" ", "\u00a0")):
            assert read_choice(text, options) == option


@given(typed, st.sampled_from(PICKS))
def test_any_text_is_one_of_the_options_or_is_refused(text: str, pick: tuple[Pick, str]) -> None:
    options = pick[0].options(pick[1])
    try:
        assert read_choice(text, options) in options
    except Unreadable as problem:
        assert str(problem)
