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
from calc.quantity import Quantity
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
_POWER = re.compile(r"\s*[×x*]\s*10\s*\^?\s*([⁻⁰¹²³⁴⁵⁶⁷⁸⁹]+|[-+]?\d+)")
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
        text = re.sub(rf"(\d)\s*{sign}", rf"\1 {spelled}", text).replace(sign, spelled)
    # Superscripts of powers of ten must not be flattened to digits by normalisation.
    text = _POWER.sub(lambda found: "e" + found[1].translate(_FROM_SUPERSCRIPT), text)
    text = text.translate(_SIGNS)
    kept = "".join(
        unicodedata.normalize("NFKC", sign) if sign.isdigit() and sign not in "²³" else sign for sign in text
    )
    return kept.translate(_SPACES).strip()


def read_number(text: str) -> tuple[float, str]:
    """The number a text begins with, and what follows it.

    Raises Unreadable when there is none or it can be read two ways.
    """
    plain = _plain_text(text)
    found = _NUMBER.match(plain)
    if not found:
        raise Unreadable("must be a number")
    rest = plain[found.end() :]
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
_CASE_MATTERS = ("mΩ", "mV")


@cache
def _spellings() -> dict[str, list[Unit]]:
    found: dict[str, list[Unit]] = {}
    for unit in units.ALL:
        for spelling in {unit.sign, *unit.spellings} - {""}:
            found.setdefault(_unit_key(spelling), []).append(unit)
    return found


def _unit_key(text: str) -> str:
    text = text.translate(_SIGNS).replace("²", "2").replace("Ω", "ohm").replace("Ω", "ohm").replace("·", "*")
    return re.sub(r"\s+", "", text).lower()


def _unit(text: str, fitting: Sequence[units.Dimension], point: bool) -> Unit | None:
    text = text.strip().rstrip(".")
    for unit in _spellings().get(_unit_key(text), ()):
        if unit.dimension in fitting and unit.point == point:
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
        return number * unit
    reciprocal = units.over(units.NO_DIMENSION, unit.dimension)
    found = _unit(rest, (unit.dimension, reciprocal) if either_way else (unit.dimension,), unit.point)
    if found is None:
        raise Unreadable(f"must be a number {unit.word}, like {like}; “{rest[:20]}” is not read here")
    if found.dimension == unit.dimension:
        return number * found
    if number == 0:
        raise Unreadable(f"must not be zero {found.word}")
    return turned_over(number * found, unit)


def turned_over(quantity: Quantity, unit: Unit) -> Quantity:
    """32 kWh/100 mi as miles per kilowatt-hour: one reading in another dress, so still a plain leaf."""
    return unit.from_si(1 / quantity.si) * unit


def must_be_between(quantity: Quantity, low: Quantity, high: Quantity) -> Quantity:
    """The quantity, if it lies in its range; a refusal with the range in the unit that was typed."""
    if low.si <= quantity.si <= high.si:
        return quantity
    from calc.printing import printed

    unit = quantity.unit if quantity.unit.dimension == low.unit.dimension else low.unit
    bounds = [printed(bound.shown_in(unit), rounds=rounds) for bound, rounds in ((low, 1), (high, -1))]
    raise Unreadable(f"must be between {bounds[0]} and {bounds[1]}")


# --- choices -------------------------------------------------------------------------------------------------


def _choice_key(text: str) -> str:
    text = (
        text.translate(_SPACES)
        .translate(_SIGNS)
        .lower()
        .replace("²", "2")
        .replace("sq mm", "mm2")
        .replace("sqmm", "mm2")
    )
    text = re.sub(r"\b(gauge|ga|awg|no\.?|#)(?=\b|\s|$)|#", " awg ", text)
    text = re.sub(r"(\d)-(\d+/\d)", r"\1 \2", text)
    text = re.sub(r"^\s*awg\s+(\S+)\s*$", r"\1 awg", text)
    return re.sub(r"[\s\u00a0]+", "", text)


def _first_words(option: str, text: str) -> str:
    """As many leading words of an option as were typed."""
    return " ".join(re.split(r"[\s\u00a0:]+", option)[: len(text.split())])


def read_choice(text: str, options: Iterable[str]) -> str:
    """One of the options, however its spaces, case and gauge words are written ("12 ga", "2/0", "#10", "2.5mm²")."""
    options = tuple(options)
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
