"""The proof of one answer as a code: its question with every number behind it, on the screen or on paper."""

from __future__ import annotations

from urllib.parse import urlencode

from calc import units
from calc.check import Ask, Pick, as_stated
from calc.form import Asked, field_unit
from calc.quantity import Quantity
from calc.rig import as_typed, fits
from calc.sharing import qr

# What a query may hold as it is (RFC 3986, 3.4): each that is not escaped makes the code coarser.
_PLAIN = "/:,()*!$@~"


def proof(asked: Asked, address: str) -> str:
    """The code, as SVG, of the link that asks the same on another phone. address: the check's page.

    Raises ValueError where a number is missing, or the address is too long for a code.
    """
    return qr.drawn(address + question(asked), "", "Code of a link to this answer")


def question(asked: Asked) -> str:
    """The link's question: what the check asks as its choices stand, every number exactly, nothing left to a rig."""
    check = asked.check
    if check is None or asked.missing:
        raise ValueError("An answer that lacks a number has no proof.")
    texts = {name: _text(spec, getattr(check, name)) for name, spec in check.asks.items() if check.asked(name)}
    return "?" + urlencode(texts | {"units": units.people(), "rules": asked.rules}, safe=_PLAIN)


def _text(spec: Ask | Pick, value: Quantity | str) -> str:
    """The shortest that is read as this very value: 1000 mm where the field's feet would need ten figures."""
    if isinstance(value, str) or isinstance(spec, Pick):
        return str(value)
    usual, stated = field_unit(spec), as_stated(value)
    others = (unit for unit in units.TYPED if unit.sign and unit is not usual and fits(unit, usual))
    numbers = [(as_typed(stated.shown_in(unit)), unit) for unit in (usual, *others)]
    texts = [f"{number} {unit.sign}" if unit is not usual else str(number) for number, unit in numbers if unit.to_si(number) == stated.si]
    return min(texts, key=len, default=str(numbers[0][0]))
