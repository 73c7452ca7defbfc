"""What a person types, read into a quantity or a choice, or refused in plain words.

Accepts what people really type ("125a", " 1,5", "−20", "3/4 hp", "50'", "2/0"), refuses what can mean two things
("1,500"), and never guesses.
"""

from __future__ import annotations

import math
import re
import unicodedata
from collections.abc import Iterable, Sequence
from functools import cache

from calc import units
from calc.printing import printed
from calc.quantity import Quantity, numeral_with_unit
from calc.units import Unit


class Unreadable(ValueError):
    """What was typed cannot be read. The message is for the person: what to write instead."""


_FRACTIONS = {
    "½": "1/2",
    "¼": "1/4",
    "¾": "3/4",
    "⅓": "1/3",
    "⅔": "2/3",
    "⅛": "1/8",
    "⅜": "3/8",
    "⅝": "5/8",
    "⅞": "7/8",
}
_SPACES = dict.fromkeys(map(ord, "\u00a0\u2007\u2009\u202f\t\n\r"), " ")
_SIGNS = str.maketrans({"−": "-", "–": "-", "⁄": "/", "’": "'", "”": '"', "″": '"', "′": "'"})
# Only with a raised figure or a ^ is 10 a power: 3x100 W is three lamps, and is refused.
_POWER = re.compile(r"\s*[×x*]\s*10\s*(?:\^\s*([-+−]?\d{1,3})|([⁻⁰¹²³⁴⁵⁶⁷⁸⁹]{1,4}))")
_LONGEST = 40
# The end of a range that is told in another unit must be accepted when it is typed.
_HAIR = 1e-9
_FROM_SUPERSCRIPT = str.maketrans("⁻⁰¹²³⁴⁵⁶⁷⁸⁹", "-0123456789")

_NUMBER = re.compile(
    r"""(?P<sign>[-+]?)\s*
        (?: (?P<whole>\d+)(?:\s+|-)(?P<over>\d+)\s*/\s*(?P<under>\d+)   # 1 1/2, 1-1/2
          | (?P<above>\d+)\s*/\s*(?P<below>\d+)                        # 3/4
          | (?P<plain>\d[\d ,.']*(?:e[-+]?\d+)?|[.,]\d+)               # 125  1,5  .5  1 500  1e3
        )""",
    re.VERBOSE | re.IGNORECASE,
)


def _plain_text(text: str) -> str:
    for sign, spelled in _FRACTIONS.items():
        if sign not in text:
            continue
        text = re.sub(rf"(\d)\s*{sign}", rf"\1 {spelled}", text).replace(sign, spelled)
    text = _POWER.sub(lambda found: "e" + (found[1] or found[2]).translate(_FROM_SUPERSCRIPT), text)
    text = text.translate(_SIGNS)
    kept = "".join(unicodedata.normalize("NFKC", sign) if sign.isdecimal() else sign for sign in text)
    return kept.translate(_SPACES).strip()


def read_number(text: str) -> tuple[float, str]:
    """The number a text begins with, and what follows it.

    Raises Unreadable when there is none or it can be read two ways.
    """
    if len(text) > _LONGEST:
        raise Unreadable("must be a number of fewer figures")
    plain = _plain_text(text)
    found = _NUMBER.match(plain)
    if not found:
        raise Unreadable("must be a number")
    rest = plain[found.end() :]
    if found["below"] and int(found["above"]) > int(found["below"]) > 0:
        # On the plate of a motor for 120/240 V, 10/5 A are ten or five, and never two.
        raise Unreadable("must be one number: a stroke here parts two")
    if found["under"] or found["below"]:
        value = _fraction(found["whole"] or "0", found["over"] or found["above"], found["under"] or found["below"])
    else:
        digits = found["plain"]
        # A foot mark, a full stop or a blank after the digits belongs to what follows.
        trimmed = digits.rstrip(" ,.'")
        rest = (digits[len(trimmed) :].lstrip(" ,.") + rest).strip()
        value = _decimal(trimmed)
    value = -value if found["sign"] == "-" else value
    if not math.isfinite(value):
        raise Unreadable("must be a smaller number")
    return value, rest.strip()


def _fraction(whole: str, over: str, under: str) -> float:
    if int(under) == 0:
        raise Unreadable("has nothing to divide by")
    return int(whole) + int(over) / int(under)


def _decimal(digits: str) -> float:
    if "'" in digits:
        raise Unreadable("must be a single number, like 6.5")
    if re.fullmatch(r"\d{1,3}( \d{3})+([.,]\d+)?", digits):
        digits = digits.replace(" ", "")
    if " " in digits:
        raise Unreadable("must be one number, not several")
    if re.fullmatch(r"[1-9]\d{0,2},\d{3}", digits):
        raise Unreadable(
            f"can be read two ways: write {digits.replace(',', '')} or {digits.replace(',', '.').rstrip('0').rstrip('.')}"
        )
    if re.fullmatch(r"[1-9]\d{0,2}(,\d{3})+(\.\d+)?", digits):
        digits = digits.replace(",", "")
    elif digits.count(",") == 1 and "." not in digits:
        digits = digits.replace(",", ".")
    try:
        return float(digits)
    except ValueError:
        raise Unreadable("must be one number, written like 1500 or 1.5") from None


# --- units ---------------------------------------------------------------------------------------------------

# One letter apart lie a thousandth and a million: for these the case is read as written.
_CASE_MATTERS = ("mΩ", "mV", "mA", "mF")


@cache
def _spellings() -> dict[str, list[Unit]]:
    found: dict[str, list[Unit]] = {}
    for unit in units.TYPED:
        for spelling in {unit.sign, *unit.spellings} - {""}:
            found.setdefault(_unit_key(spelling), []).append(unit)
    return found


def _unit_key(text: str) -> str:
    text = text.translate(_SIGNS).replace("²", "2").replace("Ω", "ohm").replace("Ω", "ohm").replace("·", "*")
    return re.sub(r"\s+", "", text).lower()


def _unit(text: str, fitting: Sequence[units.Dimension], wanted: Unit) -> Unit | None:
    text = text.strip().rstrip(".")
    for unit in _spellings().get(_unit_key(text), ()):
        if unit.dimension in fitting and (unit.point, unit.kind) == (wanted.point, wanted.kind):
            if unit.sign in _CASE_MATTERS and text[:1] != "m":
                return None
            return unit
    return None


def read_quantity(text: str, unit: Unit, like: str, either_way: bool = False) -> Quantity:
    """A typed quantity; a bare number is in `unit`. `like` is a good example, for the refusal.

    either_way: the reciprocal is as good (kWh per 100 mi for mi per kWh) and is turned over.
    """
    if not text.strip():
        raise Unreadable(f"must be filled in, like {like}")
    try:
        number, rest = read_number(text)
    except Unreadable as problem:
        raise Unreadable(f"{problem}, like {like}" if str(problem) == "must be a number" else str(problem)) from None
    if not rest:
        return _finite(number, unit)
    reciprocal = units.over(units.NO_DIMENSION, unit.dimension)
    found = _unit(rest, (unit.dimension, reciprocal) if either_way else (unit.dimension,), unit)
    if found is None:
        raise Unreadable(f"must be a number {unit.word}, like {like}; “{rest[:20]}” is not read here")
    return _finite(number, found)


def _finite(number: float, unit: Unit) -> Quantity:
    if not math.isfinite(unit.to_si(number)):
        raise Unreadable("must be a smaller number")
    return numeral_with_unit(number, unit)


def must_be_between(quantity: Quantity, low: Quantity, high: Quantity) -> Quantity:
    """The quantity, if it lies in its range; a refusal with the range in the unit that was typed.

    A reciprocal (kWh per 100 mi where mi per kWh is asked) is held against the range turned over.
    """
    if quantity.unit.dimension != low.unit.dimension:
        low, high = _turned_over(high, quantity.unit), _turned_over(low, quantity.unit)
    if low.si - _HAIR * abs(low.si) <= quantity.si <= high.si + _HAIR * abs(high.si):
        return quantity
    bounds = [
        printed(bound.shown_in(quantity.unit), rounds=_inward(bound, quantity.unit, up))
        for bound, up in ((low, 1), (high, -1))
    ]
    raise Unreadable(f"must be between {bounds[0]} and {bounds[1]}")


def _inward(bound: Quantity, unit: Unit, rounds: int) -> int | None:
    return None if bound.exact and bound.unit is unit else rounds


def _turned_over(bound: Quantity, unit: Unit) -> Quantity:
    return Quantity(1 / bound.si, unit)


# --- choices -------------------------------------------------------------------------------------------------


_CHOICE_SPELLINGS = (
    (r"\bmcm\b", "kcmil"),
    (r"(mm)\^?2|\bsq\.?\s*mm", "mm2"),
    (r"^(?:awg|no\.?|#)\s*(\d+(?:/0)?)$", r"\1 awg"),
    (r"^(\d+(?:/0)?)\s*(?:ga|gauge|g)\.?$", r"\1 awg"),
    (r"^(\d+)\s*°?\s*c$", r"\1 °c"),
    (r"(\d)-(\d+/\d)", r"\1 \2"),
    (r"^([\d/ ]+)\s*hp$", r"\1"),
    (r"^(l?\d+-\d+)[rp]$", r"\1"),
    (r"(\d),(\d)", r"\1.\2"),
    (r"(?<=\d)\s+(?=\d)", "_"),
)


def _choice_key(text: str) -> str:
    """A choice without what its spelling may vary in; figures that stand apart stay apart."""
    text = _plain_text(text.replace("²", "2")).lower()
    for spelled, plain in _CHOICE_SPELLINGS:
        text = re.sub(spelled, plain, text)
    return re.sub(r"\s+", "", text)


def _first_words(option: str, text: str) -> str:
    """As many leading words of an option as were typed."""
    return " ".join(re.split(r"[\s\u00a0:]+", option)[: len(text.split())])


def read_choice(text: str, options: Iterable[str]) -> str:
    """One of the options, however its spaces, case and gauge words are written ("12 ga", "2/0", "#10", "2.5mm²")."""
    options = tuple(options)
    if text in options:
        return text
    wanted = _choice_key(text)
    found = [option for option in options if _choice_key(option) == wanted]
    # The first whole words of one option stand for it: `2/0` is 2/0 AWG, `label` is label (at the wall). Where two
    # options begin alike (6 AWG, 6 mm2), neither is guessed.
    found = found or [option for option in options if wanted and _choice_key(_first_words(option, text)) == wanted]
    if len(found) == 1:
        return found[0]
    shown = ", ".join(options[:6]) + (" …" if len(options) > 6 else "")
    if len(found) > 1:
        raise Unreadable(f"can be read two ways: write {' or '.join(found)}")
    raise Unreadable(f"must be one of: {shown}")
