"""A person's hands and eyes on a check's page: tell, choose, step, tap, work out, and what they expect to see."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any

from conftest import ROOT, eventually
from playwright.sync_api import Locator, Page, expect

from calc.catalogue import all_checks
from calc.rendering import Renderer

AXE = (ROOT / "site" / "node_modules" / "axe-core" / "axe.min.js").read_text(encoding="utf-8")
CHECKS = [f"{check.id}/" for check in all_checks()]
PAGES = Renderer().addresses()
LOOKS = ("day", "sun", "night")
WORDS = {"go": "Go.", "tight": "Tight.", "no": "No.", "not known": "Not known."}


class CheckPage:
    """One page, by the words that stand on it."""

    def __init__(self, page: Page) -> None:
        self.page = page
        self.say = page.locator("#say")
        self.stale = page.get_by_text("Not worked out for these numbers yet.")
        self.problems = page.locator("#problems")

    # --- what hands do ------------------------------------------------------------------------------------------------

    def field(self, label: str) -> Locator:
        """A number's or a list's field. Its label may go on with the unit."""
        begins = re.compile("^" + re.escape(label))
        return self.page.get_by_role("textbox", name=begins).or_(self.page.get_by_role("combobox", name=begins)).first

    def group(self, label: str) -> Locator:
        return self.page.get_by_role("group", name=label, exact=True)

    def tell(self, label: str, text: str) -> None:
        self.field(label).fill(text)

    def choose(self, label: str, option: str) -> None:
        if self.group(label).count():
            self.group(label).get_by_text(option, exact=True).tap()
        else:
            self.field(label).select_option(option)

    def more(self, label: str) -> None:
        self._step(("More", "The next one"), label)

    def less(self, label: str) -> None:
        self._step(("Less", "The one before"), label)

    def _step(self, words: tuple[str, str], label: str) -> None:
        name = re.compile(f"^({words[0]}|{words[1]}): {re.escape(label)}$")
        self.page.get_by_role("button", name=name).tap()

    def tap(self, words: str) -> None:
        """A button, a link or a heading that opens, by its words."""
        named = self.page.get_by_role("button", name=words).or_(self.page.get_by_role("link", name=words))
        named.or_(self.page.locator("summary", has_text=words)).first.tap()

    def work_out(self) -> None:
        self.tap("Work it out")

    def wear(self, look: str) -> None:
        """Set without a tap, for measuring."""
        self.page.evaluate("look => document.documentElement.dataset.look = look", look)

    # --- what eyes see ------------------------------------------------------------------------------------------------

    def expect_verdict(self, verdict: str, words: str = "") -> None:
        self.expect_fresh()
        expect(self.say).to_have_attribute("data-verdict", verdict)
        expect(self.say).to_contain_text(WORDS[verdict])
        expect(self.say).to_contain_text(words)

    def expect_fresh(self) -> None:
        """The answer on the page belongs to the numbers on the page."""
        expect(self.stale).to_be_hidden()

    def expect_stale(self) -> None:
        expect(self.stale).to_be_visible()

    def expect_echo(self, label: str, value: str) -> None:
        eventually(lambda: self.echo().get(label) == value)
        self.expect_fresh()

    def echo(self) -> dict[str, str]:
        """What the answer says it was worked for."""
        return self.page.evaluate(
            """() => Object.fromEntries([...document.querySelectorAll('#echo .given')].map((given) =>
                 [given.querySelector('.given-label').textContent, given.querySelector('b').textContent.replace(/\\u00a0/g, ' ')]))"""
        )

    def fields(self) -> dict[str, str]:
        """What stands in the fields that are asked, by the address' names."""
        return self.page.evaluate(
            """() => Object.fromEntries([...new FormData(document.querySelector('form'))].filter(([name]) =>
                 !document.querySelector(`.ask[hidden] [name="${name}"]`)))"""
        )

    def axe(self, **options: Any) -> list[str]:
        """What axe-core finds wrong."""
        if not self.page.evaluate("() => 'axe' in window"):
            self.page.evaluate(AXE)
        found = self.page.evaluate("options => axe.run(options)", {"resultTypes": ["violations"], **options})
        return [f"{rule['id']}: {node['html'][:120]} {node['failureSummary']}" for rule in found["violations"] for node in rule["nodes"]]


Visit = Callable[..., CheckPage]
