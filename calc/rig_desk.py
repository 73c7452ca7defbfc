"""What a page may ask about a rig: its board, its parts as forms, and each change of it.

Every question comes with the rig's document, or without one, and then the example stands in. A change answers with the
new document, which the page stores; what cannot be read leaves the rig as it was.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from functools import cache, partial
from typing import Any

from calc import editing, units
from calc.board import LiveBoard
from calc.catalogue import check_called
from calc.check import NEC
from calc.day import day_of
from calc.form import Asked, as_fact, fill, subject_of, to_keep
from calc.quantity import Quantity
from calc.reading import Unreadable
from calc.rendering import Renderer
from calc.rig import Rig, document, example_rig, read_rig
from calc.rig_form import now_fields, part_called, parts_of
from calc.sharing import ENOUGH_CODES, Unfinished, shared, unpacked
from calc.sharing.proof import proof, question

Form = Mapping[str, str]
Told = dict[str, Any]


@cache
def _live_board() -> LiveBoard:
    return LiveBoard()


class Desk:
    """Answers the questions about one rig."""

    def __init__(self, renderer: Renderer, rig: Rig | None, form: Form) -> None:
        self._renderer, self._rig, self._form = renderer, rig, form
        self._rules = form.get("rules", NEC)

    @property
    def _whole(self) -> Rig:
        return self._rig or example_rig()

    # --- showing --------------------------------------------------------------------------------------------------

    def board(self) -> Told:
        return {"html": self._board(self._rig)}

    def _board(self, rig: Rig | None) -> str:
        """The board; for a page that says which one it shows, what differs from it."""
        before = _live_board().told(self._form.get("shows", ""))
        rows = _live_board().tell(rig, self._rules, self._form.get("asks", ""))
        whose, root = self._form.get("whose", "example"), self._form.get("root", "./")
        return self._renderer.board_pieces(rows, rig or example_rig(), whose, root, before)

    def now(self) -> Told:
        """The board with the panel of what changes from hour to hour."""
        return {"html": self._board(self._rig) + self._panel(self._whole)}

    def _panel(self, rig: Rig) -> str:
        return self._renderer.render("now.html", fields=now_fields(rig), people=units.people(), rules=self._rules)

    def walk_round(self) -> Told:
        return {"html": self._renderer.walk_round_pieces(self._rig, self._rules)}

    def page(self, address: str) -> Told:
        """One of the pages beside the questions, for this rig."""
        return {"html": self._renderer.page_pieces(address, self._rig, self._rules, self._form)}

    def day(self) -> Told:
        return {"html": self._renderer.day_pieces(day_of(self._rig))}

    def part(self) -> Told:
        """One part of the rig as a form; without a key, the list of all parts."""
        return {"html": self._part(self._whole, self._form.get("part", ""))}

    def _part(self, rig: Rig, key: str, done: str = "") -> str:
        shown = part_called(rig, key) if key else None
        return self._renderer.render("part.html", rig=rig, part=shown, parts=list(parts_of(rig)), done=done, back=self._form.get("back", ""))

    def start(self) -> Told:
        """A new rig from the short start's lines, or what is wrong with them."""
        from calc.short_start import FIELDS, started

        rig, problems = started(self._form)
        if rig is None:
            return {"html": self._renderer.render("start_problems.html", problems=problems, fields=FIELDS)}
        return {"rig": editing.text_of(rig), "html": ""}

    def example(self) -> Told:
        """The example's document, for a copy of one's own."""
        return {"rig": editing.text_of(example_rig()), "html": ""}

    def read(self) -> Told:
        """What a file, a link or codes say, read and written anew: it is shown before it is kept."""
        text = self._form["text"]
        try:
            rig = read_rig(text) if text.lstrip("\ufeff \t\r\n").startswith("{") else unpacked(*text.split("\n"))
        except Unfinished as problem:
            return {"problem": str(problem), "unfinished": True}
        return {"rig": editing.text_of(rig), "html": self._renderer.render("read.html", rig=rig, parts=list(parts_of(rig)))}

    def share(self) -> Told:
        """The rig as codes for another phone's camera, each with a link to these pages' address."""
        address = self._form["address"]
        link = shared(self._whole, address).link
        return {"html": self._renderer.render("share.html", shared=shared(self._whole, address, ENOUGH_CODES), link=link)}

    def proof(self) -> Told:
        """One answer as a code: its question with every number in it, to be asked again on another phone or from paper."""
        asked, address = self._asked(), self._form["address"]
        try:
            code = proof(asked, address)
        except ValueError as problem:
            return {"problem": str(problem)}
        return {"html": self._renderer.render("proof.html", code=code, link=address + question(asked))}

    def _asked(self) -> Asked:
        kind = check_called(self._form["check"])
        texts = {name: text for name, text in self._form.items() if name in kind.asks}
        return fill(kind, texts, self._rig, self._rules, subject_of(self._form))

    # --- changing -------------------------------------------------------------------------------------------------

    def fact(self) -> Told:
        """One fact as it was typed; then the board or the part that shows it."""
        path = self._form["path"]
        try:
            rig = editing.with_fact(self._whole, path, self._form.get("text", ""))
        except Unreadable as problem:
            return {"html": self._renderer.render("fact_problem.html", path=path, problem=str(problem))}
        return {"rig": editing.text_of(rig), "html": self._after(rig, path)}

    def facts(self) -> Told:
        """Several facts at once, as they stand in a document: a change that the walk-round proposed."""
        changed = document(self._whole)
        for path, value in json.loads(self._form["facts"]).items():
            group, *place, name = str(path).split(".")
            if not place:
                changed.setdefault(group, {})[name] = value
                continue
            things = changed.setdefault(group, [])
            if int(place[0]) == len(things):  # a new one, at the end
                things.append({})
            things[int(place[0])][name] = value
        return {"rig": editing.text_of(read_rig(json.dumps(changed))), "html": ""}

    def _after(self, rig: Rig, path: str) -> str:
        fine = self._renderer.render("fact_problem.html", path=path, problem="")
        return fine + (self._board(rig) if self._form.get("then") == "board" else "")

    def add(self) -> Told:
        group = self._form["part"]
        rig = editing.added(self._whole, group)
        return self._listed(rig, f"{group}.{rig.count(group) - 1}", "Added")

    def copy(self) -> Told:
        group, _, place = self._form["part"].partition(".")
        rig = editing.copied(self._whole, group, int(place))
        return self._listed(rig, f"{group}.{rig.count(group) - 1}", "Copied: this is the copy")

    def remove(self) -> Told:
        group, _, place = self._form["part"].partition(".")
        name = self._whole.facts.get(f"{self._form['part']}.name", "it")
        return self._listed(editing.removed(self._whole, group, int(place)), group, f"Removed: {name}")

    def _listed(self, rig: Rig, key: str, done: str) -> Told:
        return {"rig": editing.text_of(rig), "html": self._part(rig, key, done), "part": key}

    def note(self) -> Told:
        """A reading as it was typed, into the log; then what it means, and what its test still wants."""
        from calc.log_meaning import meaning
        from calc.logbook import with_noted

        try:
            rig, reading = with_noted(self._whole, self._form)
        except Unreadable as problem:
            return {"html": self._renderer.render("fact_problem.html", path="value", problem=str(problem))}
        found = meaning(rig, reading.what, reading.of, self._rules)
        after = found.wanted[0][0] if found and found.wanted else reading.what
        return self._logged(rig, {"what": after, "of": reading.of})

    def strike(self) -> Told:
        """One reading out of the log."""
        from calc.logbook import struck

        rig, gone = struck(self._whole, self._form)
        return self._logged(rig, {"what": gone.reading.what, "of": gone.reading.of})

    def take(self) -> Told:
        """What a test has worked out, in the place of the fact that it stands for."""
        from calc.log_meaning import with_taken

        rig, _ = with_taken(self._whole, self._form, self._rules)
        return self._logged(rig, {"what": self._form["what"], "of": self._form.get("of", "")})

    def _logged(self, rig: Rig, about: Form) -> Told:
        form = {**self._form, **about}
        return {"rig": editing.text_of(rig), "html": self._renderer.page_pieces("readings/", rig, self._rules, form)}

    def keep(self) -> Told:
        """What was typed in a check, as facts of the rig: the named one, or all."""
        asked, rig = self._asked(), self._whole
        for name in to_keep(asked, rig):
            if self._form.get("name") in (name, "all"):
                path, value = rig.path_of(asked.kind.asks[name].fact, asked.things), as_fact(asked, name)
                assert path is not None and value is not None
                rig = with_value(rig, path, value)
        return {"rig": editing.text_of(rig), "html": ""}


def with_value(rig: Rig, path: str, value: Quantity | str) -> Rig:
    """A value of a form as a fact, read as it would be typed."""
    text = editing.shown_fact(path, value) if isinstance(value, Quantity) else value
    return editing.with_fact(rig, path, text)


QUESTIONS: dict[str, Callable[[Desk], Told]] = {"walk-round": Desk.walk_round} | {
    name: getattr(Desk, name) for name in ("board", "now", "day", "part", "start", "example", "read", "share", "proof", "fact", "facts", "add", "copy", "remove", "keep", "note", "strike", "take")
}
# The pages beside the questions that show the rig in use; named here, so that nobody waits for them who asks none.
OF_RIG = ("readings", "first-power-up", "hand-over", "hand-over/labels", "hand-over/checklists", "hand-over/parts")
QUESTIONS |= {name: partial(Desk.page, address=f"{name}/") for name in OF_RIG}
