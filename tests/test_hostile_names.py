"""Names that a stranger's rig may bear: on every page they are text, whatever another program might take them for."""

from __future__ import annotations

import json
from collections.abc import Iterator

import pytest
from page_tree import Element, read

from calc.board import board
from calc.catalogue import all_checks
from calc.check import Check
from calc.facts import fact_at
from calc.form import fill
from calc.rendering import Renderer
from calc.rig import Known, Rig, document, example_rig, read_rig

RENDERER = Renderer()

# Names that are only names, whatever another program might take them for.
HARMLESS = [
    "<script>alert(1)</script>",
    "<img src=x onerror=alert(1)>",
    "</strong></a></li><h1>GO",
    '"><svg onload=alert(1)>',
    "' onmouseover='alert(1)",
    "&lt;b&gt; &amp; &#60;",
    "{{ 7 * 7 }}{% include 'page.html' %}",
    "{0.__class__} {left} %s %(name)s",
    "javascript:alert(1)",
    "__proto__",
    "constructor",
    "../../etc/passwd",
    "=1+1",
    "'; DROP TABLE rigs; --",
    "?rig=1&units=us#top",
    "ünïcødé 東京 🛞 שלום \u200fعربة",
    " ",
    "x" * 80,
]


def called(name: str) -> Rig:
    """The example rig with the rig and everything in it called so, each with its number where there are several."""
    rig = example_rig()
    names = {(path.split(".")[0], text): f"{path.split('.')[1]} {name}"[:80] for path, text in rig.facts.items() if path.endswith(".name")}
    facts: dict[str, Known] = {}
    for path, known in rig.facts.items():
        group, *place, fact = path.split(".")
        to = fact_at(f"{group}.{fact}").refers_to if fact != "name" else group
        if to and isinstance(known, tuple):
            known = tuple(names.get((to, one), one) for one in known)
        facts[path] = names.get((to, known), known) if to else known
    return read_rig(json.dumps(document(Rig(name, facts))))


def elements(html: str) -> list[tuple[str, tuple[str, ...]]]:
    return [(element.tag, tuple(sorted(element.attributes))) for element in read(html)]


def holds(html: str, name: str) -> bool:
    return f"0 {name}"[:80] in "".join(_texts(read(html)))


def _texts(element: Element) -> Iterator[str]:
    for child in element.children:
        if isinstance(child, str):
            yield child
        else:
            yield from _texts(child)


@pytest.mark.parametrize("name", HARMLESS)
def test_a_name_is_text_on_the_walk_round_and_nothing_else(name: str) -> None:
    shown, plain = (RENDERER.walk_round_pieces(called(text)) for text in (name, "plain"))
    assert elements(shown) == elements(plain)
    assert holds(shown, name)


@pytest.mark.parametrize("name", HARMLESS)
def test_a_name_is_text_on_the_board_and_nothing_else(name: str) -> None:
    shown, plain = (RENDERER.board_pieces(board(rig), rig, "own", "./") for rig in (called(name), called("plain")))
    assert elements(shown) == elements(plain)
    assert holds(shown, name)


@pytest.mark.parametrize("check", all_checks(), ids=lambda check: check.id)
def test_a_name_is_text_on_the_page_of_a_check_and_nothing_else(check: type[Check]) -> None:
    asked = (fill(check, {}, called(name)) for name in ("<b onclick=alert(1)>\"'&amp;{{ 7 * 7 }}</b>", "plain"))
    shown, plain = (RENDERER.pieces(one, with_form=True) for one in asked)
    assert elements(shown) == elements(plain)
