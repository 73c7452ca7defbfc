"""The one renderer: the same templates make a page at build time and the pieces of an answer in the browser."""

from __future__ import annotations

import json
import math
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property
from importlib.resources import files
from pathlib import Path
from typing import Any
from urllib.parse import urlencode

import jinja2
from markupsafe import Markup, escape

import calc
from calc import units
from calc.board import Row, board
from calc.catalogue import CHAPTERS, all_checks, check_called, checks_of
from calc.check import IEC, NEC, Answer, Ask, Caution, Check, Named, Offer, Pick, Result, as_stated
from calc.day import Day, day_of
from calc.drawing import drawing_of
from calc.facts import fact_at
from calc.form import (
    EXAMPLE,
    TYPED,
    Asked,
    field_text,
    field_unit,
    fill,
    lists_asked,
    shown_text,
    subject_name,
    subjects,
    to_keep,
)
from calc.printing import Line, as_read, compared, printed
from calc.quantity import Condition, Quantity
from calc.rig import Rig, example_rig

VERDICT_WORDS = {"go": "Go", "tight": "Tight", "no": "No", "not known": "Not known", "told": "Here it is"}
VERDICT_SIGNS = {"go": "✓", "tight": "!", "no": "✕", "not known": "?", "told": "="}
WALK_ROUND = "walk-round/"
RULE_NAMES = {NEC: "NEC (US)", IEC: "IEC"}
PEOPLE_NAMES = {units.US: "US: ft, mi, °F", units.METRIC: "Metric: m, km, °C"}


@dataclass(frozen=True)
class Field:
    """One ask or pick as the form shows it."""

    name: str
    spec: Ask | Pick
    text: str
    rules: str
    origin: str = ""
    from_rig: str = ""

    @property
    def is_number(self) -> bool:
        return isinstance(self.spec, Ask)

    @property
    def label(self) -> str:
        if isinstance(self.spec, Ask) and self.spec.unit.sign:
            return f"{self.spec.label}, {self.unit.word}"
        return self.spec.label

    @property
    def unit(self) -> units.Unit:
        assert isinstance(self.spec, Ask)
        return field_unit(self.spec)

    @property
    def options(self) -> tuple[str, ...]:
        assert isinstance(self.spec, Pick)
        return self.spec.options(self.rules)

    @property
    def inputmode(self) -> str:
        """A phone's number pad may have no minus key: where a negative can be typed, the whole keyboard comes."""
        assert isinstance(self.spec, Ask)
        if self.unit.from_si(self.spec.low.si) < 0:
            return ""
        return "numeric" if self.spec.unit is units.wires else "decimal"

    @property
    def step(self) -> str:
        """A round step of about a twentieth of what is in the field by default."""
        assert isinstance(self.spec, Ask)
        size = abs(self.spec.default.shown_in(self.unit).shown) or 10.0
        if self.spec.unit is units.wires:
            return "1"
        rough = size / 15
        scale = 10.0 ** math.floor(math.log10(rough))
        return f"{next(step for step in (1, 2, 5, 10) if step * scale >= rough * 0.999) * scale:g}"

    @property
    def common(self) -> list[tuple[str, str]]:
        assert isinstance(self.spec, Ask)
        shown = [value.shown_in(self.unit) for value in self.spec.common]
        return [(shown_text(value), printed(value)) for value in shown]

    @property
    def usual(self) -> str:
        """Where a first step begins in a field that is empty."""
        assert isinstance(self.spec, Ask)
        return shown_text(self.spec.default.shown_in(self.unit))

    @property
    def sensed(self) -> str:
        """What of a phone's own senses can fill it: see `Fact`."""
        return fact_at(self.spec.fact).sensed if self.spec.fact and not self.spec.fact.endswith("#") else ""

    @property
    def when(self) -> str:
        """The picks under which this field is asked, as JSON: [{pick: [options]}], any of them."""
        return json.dumps(self.spec.cases, ensure_ascii=False) if self.spec.cases else ""


@dataclass(frozen=True)
class Answered:
    """Everything about one answer that a template needs."""

    asked: Asked
    answer: Answer
    offers: list[Offer]

    @property
    def check(self) -> Check:
        assert self.asked.check is not None
        return self.asked.check

    @cached_property
    def lines(self) -> list[Line]:
        return self.asked.choices() + self.answer.working() if self.answer.results else []

    @property
    def word(self) -> str:
        return VERDICT_WORDS[self.answer.verdict]

    @property
    def sign(self) -> str:
        return VERDICT_SIGNS[self.answer.verdict]

    @property
    def whose(self) -> str:
        """Whose numbers the answer was worked for."""
        origins = set(self.asked.origins.values())
        if self.asked.rig is None:
            return "the example numbers" if origins <= {EXAMPLE} else ""
        return "" if TYPED in origins else self.asked.rig.name or "your rig"

    @property
    def which(self) -> list[tuple[int, str]]:
        """The things of the rig that the question may be about, where there are several."""
        whole = self.asked.rig or example_rig()
        places = subjects(self.asked.kind, whole)
        names = [(place, subject_name(self.asked.kind, whole, place) or f"{place + 1}") for place in places]
        return names if len(names) > 1 and lists_asked(self.asked.kind) else []

    @property
    def to_keep(self) -> list[tuple[str, str, str]]:
        """What was typed here and could become a fact of the rig: name, label, value."""
        rig, kind = self.asked.rig, self.asked.kind
        if rig is None:
            return []
        names = to_keep(self.asked, rig)
        return [(name, kind.asks[name].label, shown_value(getattr(self.check, name))) for name in names]

    @cached_property
    def fields(self) -> list[Field]:
        return fields_of(self.asked)

    @property
    def main_fields(self) -> list[Field]:
        return [field for field in self.fields if not self._assumable(field)]

    @property
    def habit_fields(self) -> list[Field]:
        """What may be assumed without asking; put away under a heading that says so."""
        return [field for field in self.fields if self._assumable(field)]

    def _assumable(self, field: Field) -> bool:
        return field.spec.may_be_assumed(self.asked.rules)

    @property
    def echo(self) -> list[tuple[str, str]]:
        """The numbers the answer belongs to, as they stand in the form."""
        known = (name for name in self.check.asks if self.check.asked(name) and name in self.asked.origins)
        values = ((self.check.asks[name], getattr(self.check, name)) for name in known)
        return [(spec.label, shown_value(value)) for spec, value in values]

    @property
    def drawing(self) -> Markup:
        """The drawing that goes with the answer, made of numbers and tables only."""
        return Markup(drawing_of(self.check, self.answer)) if self.asked.check and not self.asked.missing else Markup("")

    @property
    def sources(self) -> list[str]:
        named = [line.source for line in self.lines if line.source]
        return list(dict.fromkeys(named))

    @property
    def serious(self) -> list[Caution]:
        return [caution for caution in self.check.warnings() if caution.serious]

    @property
    def lesser(self) -> list[Caution]:
        return [caution for caution in self.check.warnings() if not caution.serious]

    @property
    def results(self) -> list[tuple[str, str]]:
        return self._results(name for name in self.answer.results if name not in self.answer.trials)

    @property
    def trials(self) -> list[tuple[str, str]]:
        """The results that were found by asking again: they come a moment after the answer."""
        return self._results(self.answer.trials)

    def _results(self, names: Iterable[str]) -> list[tuple[str, str]]:
        shown = ((name, self.answer.results[name]) for name in names)
        return [(result_label(name, value), shown_result(value)) for name, value in shown]

    def link(self, change: Mapping[str, Quantity | str] = {}) -> str:  # noqa: B006  (only read)
        """The address of this answer, or of the same question with something changed."""
        # What is missing stands in no address: whoever opens it is asked for it.
        texts = {name: text for name, text in form_texts(self.asked) if name not in self.asked.unknown}
        texts |= {name: self._as_offered(name, value) for name, value in change.items()}
        which = {"subject": str(self.asked.subject)} if self.which else {}
        return "?" + urlencode(texts | which | {"units": units.people(), "rules": self.asked.rules})

    def _as_offered(self, name: str, value: Quantity | str) -> str:
        """The text of a change, to the last figure: rounded into another unit it might serve no more."""
        spec = self.check.asks[name]
        if isinstance(spec, Ask) and isinstance(value, Quantity) and value.unit is not field_unit(spec):
            return f"{as_read(value.shown)} {value.unit.sign}"
        return field_text(spec, value, self.asked.rules)


def signs(text: str) -> Markup:
    """A formula for the page: `I_max` with its index set low."""
    return Markup(re.sub(r"_(\w+)", r"<sub>\1</sub>", str(escape(text))))


def result_label(name: str, value: Result) -> str:
    if isinstance(value, Named):
        return value.label
    return value.step.label if value.step else name.replace("_", " ")


def shown_value(value: Quantity | str) -> str:
    """A value of a form as it was stated."""
    return value if isinstance(value, str) else printed(as_stated(value))


def shown_result(value: Result) -> str:
    return value.text if isinstance(value, Named) else printed(value)


@dataclass(frozen=True)
class BoardRow:
    """A row of the board as the page shows it."""

    row: Row

    @property
    def id(self) -> str:
        """Under which the page holds it."""
        return f"row-{self.row.check.id.replace('/', '-')}-{self.row.asked.subject}"

    @property
    def title(self) -> str:
        return f"{self.row.check.title}: {self.row.subject}" if self.row.subject else self.row.check.title

    @property
    def verdict(self) -> str:
        return self.row.answer.verdict

    @property
    def word(self) -> str:
        return VERDICT_WORDS[self.verdict]

    @property
    def sign(self) -> str:
        return VERDICT_SIGNS[self.verdict]

    @property
    def number(self) -> str:
        """The number that stands for the answer; empty where the answer is not known."""
        result = self.row.answer.results.get(self.row.check.headline)
        return shown_result(result) if result is not None else ""

    @property
    def say(self) -> str:
        """The answer in a sentence; of many missing facts, how many."""
        missing = len(self.row.answer.missing)
        return self.row.answer.say if missing <= 3 else f"{missing} facts are missing."

    @property
    def address(self) -> str:
        """The check's page, about this thing where it is not the one that the page is about by itself."""
        first = next(iter(subjects(self.row.check, self.row.asked.rig or example_rig())), 0)
        which = "" if self.row.asked.subject == first else f"?subject={self.row.asked.subject}"
        return f"{self.row.check.id}/{which}"


def by_chapter(rows: Iterable[Row]) -> dict[str, list[BoardRow]]:
    """The board's rows by chapter, in the order of the job."""
    chapters: dict[str, list[BoardRow]] = {}
    for row in rows:
        chapters.setdefault(row.chapter, []).append(BoardRow(row))
    return chapters


@dataclass(frozen=True)
class Anew:
    """What changes on a page that shows a board already: single rows, and all rows of a chapter where their order has changed."""

    chapters: dict[str, list[BoardRow]]
    rows: list[BoardRow]

    @classmethod
    def between(cls, before: list[Row], after: list[Row]) -> Anew | None:
        """None where the page lacks a chapter, or has one too many."""
        were, are = by_chapter(before), by_chapter(after)
        if list(were) != list(are):
            return None
        moved = {chapter: rows for chapter, rows in are.items() if [row.id for row in rows] != [row.id for row in were[chapter]]}
        stood = {id(row) for row in before}
        return cls(moved, [row for chapter in are if chapter not in moved for row in are[chapter] if id(row.row) not in stood])


def form_texts(asked: Asked) -> list[tuple[str, str]]:
    """The texts in the form's fields: what was typed, else the value that stood in for it."""
    texts: list[tuple[str, str]] = []
    for name, spec in asked.kind.asks.items():
        if asked.rules not in spec.rules:
            continue
        if name in asked.typed:
            texts.append((name, asked.typed[name]))
        elif name not in asked.origins:
            texts.append((name, ""))  # the rig does not say
        elif asked.check:
            texts.append((name, field_text(spec, getattr(asked.check, name), asked.rules)))
    return texts


def fields_of(asked: Asked) -> list[Field]:
    return [
        Field(name, asked.kind.asks[name], text, asked.rules, asked.origins.get(name, ""), asked.from_rig.get(name, ""))
        for name, text in form_texts(asked)
    ]


def _templates_folder() -> Any:
    """Beside the package where it is packed for the browser; in the site's folder in a checkout."""
    packed = files("calc") / "templates"
    return packed if packed.is_dir() else Path(calc.__path__[0]).parent / "site" / "templates"


class Renderer:
    """Renders pages and pieces of pages from the site's templates."""

    def __init__(self, loader: jinja2.BaseLoader | None = None) -> None:
        # The folder is looked up for each: a pack that was open when Python's memory was stored is shut when that is restored.
        self._environment = jinja2.Environment(
            loader=loader or jinja2.FunctionLoader(lambda name: (_templates_folder() / name).read_text(encoding="utf-8")),
            autoescape=True,
            undefined=jinja2.StrictUndefined,
            trim_blocks=True,
            lstrip_blocks=True,
        )
        self._rows: dict[tuple[str, int], tuple[Row, str, Markup]] = {}
        self._environment.filters["signs"] = signs
        self._environment.globals.update(
            chapters=CHAPTERS,
            checks_of=checks_of,
            rule_names=RULE_NAMES,
            people_names=PEOPLE_NAMES,
            row_html=self._row,
            compared=lambda condition: compared(condition) if isinstance(condition, Condition) else condition.says,
        )

    # --- whole pages, at build time -------------------------------------------------------------------------------

    def addresses(self) -> list[str]:
        """The addresses of all pages, home first."""
        from calc.pages import PAGES

        return ["", "start/", "rig/", WALK_ROUND, "day/", "about/", *PAGES, *(f"{check.id}/" for check in all_checks())]

    def page(self, address: str, assets: Mapping[str, str]) -> str:
        """The whole HTML of a page. assets: logical name -> address of the stamped file, from the root."""
        root = "../" * address.count("/") or "./"
        shared = {"root": root, "assets": {name: root + file for name, file in assets.items()}, "address": address}
        if address == "":
            return self._render("home.html", rows=by_chapter(board(None)), rig=example_rig(), people=units.people(), rules=NEC, **shared)
        if address == "rig/":
            return self._render("rig.html", **shared)
        if address == "start/":
            from calc.start_lines import LINES  # a page of a question does not wait for them

            return self._render("start.html", lines=LINES, **shared)
        if address == "day/":
            return self._render("day.html", told=_foretold(day_of()), **shared)
        if address == "about/":
            return self._render("about.html", **shared)
        if address == WALK_ROUND:
            return self._render("walk_round.html", **self._walked(None), **shared)
        from calc.pages import PAGES  # a page of a question does not wait for them

        if address in PAGES:
            page = PAGES[address]
            return self._render(page.template, **page.told(None), **shared)
        asked = fill(check_called(address.rstrip("/")), {})
        return self._render("check.html", **self._all_of(asked), **shared)

    # --- pieces, in the browser -----------------------------------------------------------------------------------

    def first_pieces(self, asked: Asked) -> str:
        """What a person who types waits for: the answer itself, without what takes trials, and without its proof."""
        return self._render("first.html", answered=Answered(asked, asked.plain_answer(), []))

    def later_pieces(self, asked: Asked) -> str:
        """What may come a moment later: the fixes, what is found by trial, the working and its sources."""
        return self._render("later.html", answered=self._answered(asked))

    def pieces(self, asked: Asked, with_form: bool) -> str:
        """The pieces of the page that change with an answer; with_form: the form's fields as well."""
        return self._render("pieces.html", with_form=with_form, **self._all_of(asked))

    def _row(self, row: BoardRow, root: str) -> Markup:
        """A row of the board; one that stands as it stood is not rendered anew."""
        before = self._rows.get(row.row.key)
        if before is None or before[0] is not row.row or before[1] != root:
            before = self._rows[row.row.key] = row.row, root, Markup(self._render("row.html", row=row, root=root).rstrip())
        return before[2]

    def board_pieces(self, rows: list[Row], rig: Rig, whose: str, root: str, before: list[Row] | None = None) -> str:
        """The board of a rig. whose: `example`, `changed` (the example, but not as it came) or `own`.

        before: the rows that the page shows, where that is known; then only what has changed.
        """
        anew = Anew.between(before, rows) if before else None
        return self._render("board.html", rows=by_chapter(rows), anew=anew, rig=rig, whose=whose, root=root)

    def day_pieces(self, day: Day) -> str:
        """The pieces of the day's page, for a rig whose plan was changed."""
        return self._render("day_pieces.html", told=_foretold(day))

    def render(self, name: str, **values: Any) -> str:
        """Pieces from a template of the site's."""
        return self._render(name, **values)

    def page_pieces(self, address: str, rig: Rig | None, rules: str = NEC, form: Mapping[str, str] = {}) -> str:  # noqa: B006
        """The pieces of one of the pages beside the questions, for a rig; without one, for the example."""
        from calc.pages import PAGES

        page, root = PAGES[address], "../" * address.count("/")
        return self._render("of_rig_pieces.html", root=root, **page.told(rig, rules, form))

    def walk_round_pieces(self, rig: Rig | None, rules: str = NEC) -> str:
        """The pieces of the walk-round's page for a rig; without one, for the example."""
        return self._render("walk_round_pieces.html", root="../", **self._walked(rig, rules))

    def _walked(self, rig: Rig | None, rules: str = NEC) -> dict[str, Any]:
        # Inspecting a rig takes every check there is: a page that shows one of them does not wait for that.
        from calc.walkround_page import shown_round

        return {"round": shown_round(rig, rules)}

    def problems(self, asked: Asked) -> str:
        """The error summary and each field's message."""
        return self._render("problems.html", fields=fields_of(asked), problems=asked.problems)

    def _all_of(self, asked: Asked) -> dict[str, Any]:
        return {"answered": self._answered(asked), "people": units.people()}

    def _answered(self, asked: Asked) -> Answered:
        answer = asked.answer()
        return Answered(asked, answer, asked.offers(answer))

    def _render(self, name: str, **values: Any) -> str:
        return self._environment.get_template(name).render(**values)


def _foretold(day: Day) -> Any:
    from calc.day_page import Foretold  # it is made of this file's words

    return Foretold(day)
