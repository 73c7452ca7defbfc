"""The door for the browser: a question as JSON text in, the pieces of the page as HTML out."""

from __future__ import annotations

import json
from functools import cache
from typing import Any

from calc import units
from calc.catalogue import check_called
from calc.check import NEC, RULE_SETS, Ask, Check, Pick
from calc.editing import rig_of
from calc.form import TYPED, field_text, fill, subject_of
from calc.rendering import Renderer
from calc.rig import DamagedRig, Rig

# What a page may ask for: the answer while typing (quiet about errors), what may come a moment later, all of it at the
# button, the whole form in other units.
TYPING, LATER, BUTTON, FORM = "typing", "later", "button", "form"


@cache
def _renderer() -> Renderer:
    return Renderer()


def reply(message: str) -> str:
    """Answer `{"id", "what", "form", "rig"}` with `{"id", "html"}`, and `rig` where the rig was changed.

    form holds the texts of the fields, and `check`, `units`, `rules`; rig is a rig's document as text, or nothing for
    the example. Nothing to show (unreadable numbers while typing) is an empty html: the page keeps saying that its
    answer is out of date. What cannot be answered at all is `{"id", "problem"}`, with `damaged` where it is the rig.
    """
    question: dict[str, Any] = json.loads(message)
    try:
        told = _told(
            str(question.get("what")),
            {str(name): str(text) for name, text in question.get("form", {}).items()},
            rig_of(question["rig"]) if question.get("rig") else None,
        )
    except DamagedRig as problem:
        told = {"problem": str(problem), "damaged": True}
    except (LookupError, ValueError, AttributeError) as problem:
        told = {"problem": str(problem)}
    return json.dumps({"id": question.get("id")} | told, ensure_ascii=False)


def _told(what: str, form: dict[str, str], rig: Rig | None) -> dict[str, Any]:
    with units.shown_to(form.get("units", units.US)):
        if form.get("rules", NEC) not in RULE_SETS:
            raise ValueError(f"rules are {' or '.join(RULE_SETS)}, not {form['rules']}")
        if what in (TYPING, LATER, BUTTON, FORM):
            return {"html": _html(what, form, rig)}
        from calc import rig_desk  # only a page that asks about a rig waits for its import

        if what not in rig_desk.QUESTIONS:
            raise ValueError(f"no page asks for {what[:20]}")
        return rig_desk.QUESTIONS[what](rig_desk.Desk(_renderer(), rig, form))


def _html(what: str, form: dict[str, str], rig: Rig | None) -> str:
    kind, rules = check_called(form.get("check", "")), form.get("rules", NEC)
    texts = {name: text for name, text in form.items() if name in kind.asks}
    if what == FORM:
        texts = _in_other_terms(kind, texts, rig, form)
    asked = fill(kind, texts, rig, rules, subject_of(form))
    if asked.problems:
        return "" if what in (TYPING, LATER) else _renderer().problems(asked)
    if what == TYPING:
        return _renderer().first_pieces(asked)
    if what == LATER:
        return _renderer().later_pieces(asked)
    return _renderer().pieces(asked, with_form=what == FORM)


def _in_other_terms(kind: type[Check], texts: dict[str, str], rig: Rig | None, form: dict[str, str]) -> dict[str, str]:
    """The texts of a form whose units or rules are being switched: a bare 75 that was feet must not become 75 metres.

    What was typed keeps its own unit, now written out; what nobody touched takes the new unit's round number; a
    choice that the new rules do not have (a gauge under IEC) falls back to their own.
    """
    rules = form.get("rules", NEC)
    offered = {name: text for name, text in texts.items() if _is_offered(kind.asks[name], text, rules)}
    with units.shown_to(form.get("was_units", units.people())):
        was = fill(kind, offered, rig, rules, subject_of(form))
    if was.check is None:
        return offered
    typed = [name for name, origin in was.origins.items() if origin == TYPED]
    return {name: field_text(kind.asks[name], getattr(was.check, name), rules) for name in typed}


def _is_offered(spec: Ask | Pick, text: str, rules: str) -> bool:
    return isinstance(spec, Ask) or (rules in spec.rules and text in spec.options(rules))
