"""The door for the browser: a question as JSON text in, the pieces of the page as HTML out."""

from __future__ import annotations

import json
from functools import cache
from typing import Any

from calc import units
from calc.catalogue import UnknownCheck, check_called
from calc.check import NEC, RULE_SETS, Ask, Check, Pick
from calc.form import TYPED, field_text, fill
from calc.rendering import Renderer

# What a page may ask for: the answer while typing (quiet about errors), what may come a moment later, all of it at the
# button, the whole form in other units.
TYPING, LATER, BUTTON, FORM = "typing", "later", "button", "form"


@cache
def _renderer() -> Renderer:
    return Renderer()


def reply(message: str) -> str:
    """Answer `{"id", "what", "form"}` with `{"id", "html"}`, or `{"id", "problem"}` where the message itself is bad.

    form holds the texts of the fields, and `check`, `units`, `rules`. Nothing to show (unreadable numbers while
    typing) is an empty html: the page keeps saying that its answer is out of date.
    """
    question: dict[str, Any] = json.loads(message)
    number = question.get("id")
    try:
        html = _html(
            str(question.get("what")), {str(name): str(text) for name, text in question.get("form", {}).items()}
        )
    except (UnknownCheck, ValueError, AttributeError) as problem:
        return json.dumps({"id": number, "problem": str(problem)}, ensure_ascii=False)
    return json.dumps({"id": number, "html": html}, ensure_ascii=False)


def _html(what: str, form: dict[str, str]) -> str:
    if what not in (TYPING, LATER, BUTTON, FORM):
        raise ValueError(f"a page asks for {TYPING}, {LATER}, {BUTTON} or {FORM}, not {what}")
    check, people, rules = form.pop("check", ""), form.pop("units", units.US), form.pop("rules", NEC)
    if rules not in RULE_SETS:
        raise ValueError(f"rules are {' or '.join(RULE_SETS)}, not {rules}")
    kind = check_called(check)
    texts = {name: text for name, text in form.items() if name in kind.asks}
    if what == FORM:
        texts = _in_other_terms(kind, texts, form.get("was_units", people), people, rules)
    with units.shown_to(people):
        asked = fill(kind, texts, rules=rules)
        if asked.problems:
            return "" if what in (TYPING, LATER) else _renderer().problems(asked)
        if what == TYPING:
            return _renderer().first_pieces(asked)
        if what == LATER:
            return _renderer().later_pieces(asked)
        return _renderer().pieces(asked, with_form=what == FORM)


def _in_other_terms(kind: type[Check], texts: dict[str, str], was: str, people: str, rules: str) -> dict[str, str]:
    """The texts of a form whose units or rules are being switched: a bare 75 that was feet must not become 75 metres.

    What was typed keeps its own unit, now written out; what nobody touched takes the new unit's round number; a
    choice that the new rules do not have (a gauge under IEC) falls back to their own.
    """
    offered = {name: text for name, text in texts.items() if _is_offered(kind.asks[name], text, rules)}
    with units.shown_to(was):
        was_asked = fill(kind, offered, rules=rules)
    if was_asked.check is None:
        return offered
    typed = [name for name, origin in was_asked.origins.items() if origin == TYPED]
    with units.shown_to(people):
        return {name: field_text(kind.asks[name], getattr(was_asked.check, name), rules) for name in typed}


def _is_offered(spec: Ask | Pick, text: str, rules: str) -> bool:
    return isinstance(spec, Ask) or (rules in spec.rules and text in spec.options(rules))
