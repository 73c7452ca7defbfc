"""The page of the walk-round: what it says is what was found, in the order in which it must be read.

The rows are those of the page's own conventions: the Web Content Accessibility Guidelines 2.2 (W3C, 2024) on headings,
status and colour, and ANSI Z535.4 on signal words as label makers quote it.
"""

from __future__ import annotations

import json
import re
from functools import cache
from pathlib import Path

import pytest
from page_tree import Element, read

from calc import units as u
from calc.board import board
from calc.catalogue import all_checks
from calc.check import NEC, RULE_SETS
from calc.rendering import Answered, Renderer
from calc.rig import Known, Rig, example_rig
from calc.walkround import Unknown, walk_round
from calc.walkround_page import ShownRound, shown_round

ROOT = Path(__file__).resolve().parents[1]
RENDERER = Renderer()
ASSETS = {path.name: path.name for path in (ROOT / "site").rglob("*") if "node_modules" not in path.parts and path.is_file()}
ADDRESSES = {f"{check.id}/" for check in all_checks()}

FAULTY = {"inlet.shows_live_pins": "yes", "cables.3.size": "12 AWG", "bank.highest_volts": 62 * u.V}


@cache
def page() -> Element:
    return read(RENDERER.page("walk-round/", ASSETS))


def pieces(rig: Rig | None, rules: str = NEC) -> Element:
    return read(RENDERER.walk_round_pieces(rig, rules))


def piece(tree: Element, name: str) -> Element:
    [found] = tree.having("data-piece", name)
    return found


def changed(facts: dict[str, Known]) -> Rig:
    return example_rig().changed(facts)


def squeezed(text: str) -> str:
    return re.sub(r"\s+", "", text)


def test_the_page_is_built_with_the_examples_walk_round_in_it() -> None:
    """It reads before any script has run, and says whose rig it is."""
    [status] = page().having("id", "say")
    assert status.get("role") == "status"
    assert status.get("data-verdict") == shown_round(None).verdict
    assert f"Walked round the example: {example_rig().name}" in page().having("id", "whose")[0].text
    for fault in walk_round(None).faults:
        assert squeezed(fault.say) in squeezed(page().having("id", "faults")[0].text)


def test_the_browser_gets_the_same_pieces_as_the_build() -> None:
    """Each piece has a host with its name on the page, and for the example both hold the same."""
    for one in pieces(None).having("data-piece"):
        [host] = page().having("id", one.get("data-piece"))
        assert host.text == one.text
        assert [link.get("href") for link in host.all("a")] == [link.get("href") for link in one.all("a")]


def test_headings_go_down_by_one_and_begin_with_the_question() -> None:
    """WCAG 2.2, 1.3.1 and 2.4.6."""
    levels = [int(e.tag[1]) for e in page() if re.fullmatch(r"h[1-6]", e.tag)]
    assert levels[0] == 1 and levels.count(1) == 1
    assert all(after <= before + 1 for before, after in zip(levels, levels[1:], strict=False))


def test_faults_come_first_then_tight_then_unknown_then_fine() -> None:
    ids = [e.get("id") for e in page().having("id") if e.get("id") in ("say", "faults", "tight", "unknown", "unanswered", "fine")]
    assert ids == ["say", "faults", "tight", "unknown", "unanswered", "fine"]


def test_each_fault_says_what_where_how_far_over_with_its_hazard_and_what_clears_it() -> None:
    rig = changed(FAULTY)
    found = walk_round(rig).faults
    articles = piece(pieces(rig), "faults").all("article")
    assert len(articles) == len(found) >= 3
    for article, fault in zip(articles, found, strict=True):
        [heading] = article.all("h3")
        assert fault.title in heading.text and fault.subject in heading.text
        [sign] = heading.with_class("sign")
        assert sign.text == "✕" and sign.get("aria-hidden") == "true"
        text = squeezed(article.text).casefold()
        assert squeezed(f"No. {fault.say}").casefold() in text and squeezed(fault.margin).casefold() in text
        assert fault.hazard
        [caution] = article.with_class("caution")
        assert caution.with_class("signal")[0].text == fault.hazard.signal
        assert fault.hazard.consequence in caution.text and fault.hazard.avoid in caution.text
        assert [fix.text for fix in article.with_class("fix")] == [" ".join(one.say.split()) for one in fault.proposals]
        assert fault.proposals or "No single change was found that clears it." in article.text


def test_the_gravest_hazard_is_read_first() -> None:
    signals = [e.text for e in piece(pieces(changed(FAULTY)), "faults").with_class("signal")]
    assert signals == sorted(signals, key=["DANGER", "WARNING", "CAUTION", "NOTICE"].index)


def test_a_change_that_is_offered_can_be_opened_and_kept() -> None:
    """As a link to its question with the change put in, and as facts for a page that keeps them."""
    article = piece(pieces(changed({"cables.3.size": "12 AWG"})), "faults")
    [thicker, *_] = [fix for fix in article.with_class("fix") if "10 AWG" in fix.text]
    assert "size=10+AWG" in thicker.get("href") and thicker.get("href").startswith("../wire/wire-for-run/?")
    assert json.loads(thicker.get("data-facts"))["cables.3.size"] == "10 AWG"


def test_what_is_fine_takes_one_line_each_and_leads_to_its_question() -> None:
    fine = walk_round(None).fine
    lines = page().having("id", "fine")[0].all("li")
    assert len(lines) == len(fine) > 10
    for line, finding in zip(lines, fine, strict=True):
        [link] = line.all("a")
        assert link.get("href").removeprefix("../").split("?")[0] == f"{finding.check}/"
        assert squeezed(finding.say) in squeezed(line.text)


@pytest.mark.parametrize("rules", RULE_SETS)
@pytest.mark.parametrize("rig", [None, changed(FAULTY), Rig("nothing known", {})], ids=["example", "faulty", "nothing known"])
def test_every_link_leads_to_a_page_that_there_is(rig: Rig | None, rules: str) -> None:
    links = pieces(rig, rules).all("a")
    for link in links:
        assert link.get("href").startswith("../") and link.get("href")[3:].split("?")[0] in ADDRESSES
        assert link.text.strip()
    assert links


def test_what_is_missing_stands_in_no_address() -> None:
    """A link that carried a guess for a fact that is not known would turn it into an answer."""
    rig = Rig("half known", {path: fact for path, fact in example_rig().facts.items() if path != "cables.3.size"})
    [row] = [row for row in board(rig) if row.key == ("wire/wire-for-run", 3)]
    assert row.answer.verdict == "not known"
    link = Answered(row.asked, row.answer, []).link()
    assert "run_length=8&" in link and "&size=" not in link
    facts = [line.get("data-fact") for line in piece(pieces(rig), "unknown").all("li")]
    assert facts.count("cables.3.size") == 1


def test_a_rig_of_whose_parts_something_is_not_known_is_never_a_go() -> None:
    """No fault found is not the same as no fault. Panels that it may not have are another matter."""
    assert shown_round(Rig("nothing known", {})).verdict == "not known"
    found = walk_round(None)
    nothing = type(found)("", NEC, (), (), (), (), found.fine)
    assert ShownRound(nothing, False).verdict == "go"
    for part, verdict in (("unanswered", "not known"), ("tight", "tight"), ("faults", "no")):
        some = type(found)("", NEC, **{name: found.fine[:1] if name == part else () for name in ("faults", "tight", "unknown", "unanswered")}, fine=found.fine)
        assert ShownRound(some, False).verdict == verdict and ShownRound(some, False).say.endswith(".")
    for unknown, verdict in (
        (Unknown("Mass of the bank", "On the plate", 1, "bank.mass"), "not known"),
        (Unknown("Watts of one panel", "On its back", 1, "panels.watts", matters=False), "go"),
    ):
        assert ShownRound(type(found)("", NEC, (), (), (unknown,), (), found.fine), False).verdict == verdict
    assert ShownRound(type(found)("", NEC, (), (), (), (), ()), False).verdict == "not known"


def test_the_facts_that_matter_most_are_open_and_the_rest_is_folded_and_all_are_there() -> None:
    rig = Rig("nothing known", {})
    unknown = piece(pieces(rig), "unknown")
    facts = [line.get("data-fact") for line in unknown.all("li") if "data-fact" in line.attributes]
    assert facts == [one.fact for one in walk_round(rig).unknown if one.fact]
    folded = [line.get("data-fact") for details in unknown.all("details") for line in details.all("li")]
    assert folded == facts[8:] and folded
    assert "inverter.continuous" in facts[:8], "a dozen questions wait for it"


def test_under_rules_that_do_not_answer_the_page_says_so() -> None:
    assert "Only the US rule" in piece(pieces(None, "iec"), "unanswered").text
