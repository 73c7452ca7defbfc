"""Writes the table of checks into README.md: ids, inputs, results. A test holds the README to it."""

from __future__ import annotations

import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
sys.path.insert(0, str(ROOT))

from calc.catalogue import all_checks  # noqa: E402
from calc.check import Ask, Check, Pick  # noqa: E402
from calc.form import fill, published  # noqa: E402

BEGIN, END = "<!-- made by `python docs/make_table.py` -->\n", "<!-- end of what is made -->"


def inputs(check: type[Check]) -> str:
    return ", ".join(f"`{name}`{_kind(spec)}" for name, spec in check.asks.items())


def _kind(spec: Ask | Pick) -> str:
    return f" ({spec.unit.sign})" if isinstance(spec, Ask) and spec.unit.sign else ""


def results(check: type[Check]) -> str:
    """The names of all results, of the example and of the published cases, under each rule set."""
    answers = [fill(check, {}, rules=rules).answer() for rules in check.rule_sets]
    answers += [published(check, example).answer() for example in check.examples]
    return ", ".join(f"`{name}`" for name in dict.fromkeys(name for answer in answers for name in answer.results))


def made() -> str:
    rows = ["| id | question | inputs | results | rules |", "|---|---|---|---|---|"]
    for check in all_checks():
        rows.append(
            f"| `{check.id}` | {check.question} | {inputs(check)} | {results(check)} | {', '.join(check.rule_sets)} |"
        )
    return "\n".join(rows) + "\n"


def with_table(readme: str) -> str:
    before, _, rest = readme.partition(BEGIN)
    _, _, after = rest.partition(END)
    return before + BEGIN + "\n" + made() + "\n" + END + after


if __name__ == "__main__":
    file = ROOT / "README.md"
    file.write_text(with_table(file.read_text(encoding="utf-8")), encoding="utf-8")
