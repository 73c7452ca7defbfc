"""Which choices lead to a question."""

from __future__ import annotations

from calc.check import Check


def picks_that_ask(check: type[Check], name: str, rules: str) -> dict[str, str]:
    """The choices under which a number or choice is asked at all."""
    found: dict[str, str] = {}
    for case in check.asks[name].cases[:1]:
        for other, options in case.items():
            offered = check.asks[other].options_by_rules.get(rules, ())  # type: ignore[union-attr]
            fitting = [word for word in options if word in offered] or options
            found |= picks_that_ask(check, other, rules) | {other: fitting[0]}
    return found
