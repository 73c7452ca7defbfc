"""What the code itself must keep: read from its syntax trees."""

from __future__ import annotations

import ast
import re
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent
LAWS_AND_CHECKS = sorted([*(ROOT / "calc/laws").glob("*.py"), *(ROOT / "calc/checks").rglob("*.py")])
ALL_PYTHON = sorted([*(ROOT / "calc").rglob("*.py"), ROOT / "build.py"])
NAMING = {"constant", "ask", "ask_fact", "ask_reading", "read", "Ask"}


def bare_numerals(tree: ast.Module) -> list[tuple[int, object]]:
    """Numerals other than 0, 1 and 2 that stand in arithmetic, outside what names a sourced or asked number."""
    found: list[tuple[int, object]] = []

    def visit(node: ast.AST, inside: bool) -> None:
        if isinstance(node, ast.Call):
            name = node.func.id if isinstance(node.func, ast.Name) else ""
            inside = inside or name in NAMING or name in {"less", "more", "must_read"}
        if isinstance(node, ast.BinOp) and not inside:
            for side in (node.left, node.right):
                if (
                    isinstance(side, ast.Constant)
                    and isinstance(side.value, (int, float))
                    and side.value not in (0, 1, 2)
                ):
                    found.append((side.lineno, side.value))
        for child in ast.iter_child_nodes(node):
            visit(child, inside)

    visit(tree, False)
    return found


@pytest.mark.parametrize("file", LAWS_AND_CHECKS, ids=lambda file: file.name)
def test_no_bare_numeral_stands_in_the_arithmetic(file: Path) -> None:
    """Every number is asked, read from a table, or a constant with its source. Module-level names of nominal volts
    are read through `constant` where they are used."""
    tree = ast.parse(file.read_text(encoding="utf-8"))
    module_level = {
        line
        for node in tree.body
        if isinstance(node, (ast.Assign, ast.AnnAssign))
        for line in range(node.lineno, (node.end_lineno or 0) + 1)
    }
    assert [found for found in bare_numerals(tree) if found[0] not in module_level] == []


def test_the_lint_would_catch_one() -> None:
    assert bare_numerals(ast.parse("drop = 3 * length")) == [(1, 3)]
    assert bare_numerals(ast.parse('drop = constant("k", "K", 3 * one, S) * length')) == []


@pytest.mark.parametrize("file", sorted((ROOT / "calc").rglob("*.py")), ids=lambda file: str(file.relative_to(ROOT)))
def test_calc_knows_nothing_of_browsers_clocks_or_the_site(file: Path) -> None:
    tree = ast.parse(file.read_text(encoding="utf-8"))
    names = {alias.name for node in ast.walk(tree) if isinstance(node, ast.Import) for alias in node.names}
    names |= {node.module or "" for node in ast.walk(tree) if isinstance(node, ast.ImportFrom)}
    for name in names:
        assert name.split(".")[0] not in {"js", "pyodide", "time", "datetime", "site", "random", "os"}, (
            f"{file} imports {name}"
        )


def test_no_module_has_a_name_that_says_nothing() -> None:
    assert not [file for file in ALL_PYTHON if re.fullmatch(r"(utils?|helpers?|common|manager|misc)\.py", file.name)]


def test_every_public_function_of_the_laws_says_what_it_gives() -> None:
    for file in (ROOT / "calc/laws").glob("*.py"):
        for node in ast.parse(file.read_text(encoding="utf-8")).body:
            if isinstance(node, ast.FunctionDef) and not node.name.startswith("_"):
                assert ast.get_docstring(node), f"{file.name}: {node.name}"


def test_no_sentence_for_people_begs_or_blames() -> None:
    for file in [*ALL_PYTHON, *(ROOT / "site/templates").glob("*.html")]:
        text = file.read_text(encoding="utf-8")
        strings = (
            [
                node.value
                for node in ast.walk(ast.parse(text))
                if isinstance(node, ast.Constant) and isinstance(node.value, str)
            ]
            if file.suffix == ".py"
            else [text]
        )
        for string in strings:
            assert not re.search(r"\b(please|sorry|oops|invalid)\b", string, re.IGNORECASE), (
                f"{file.name}: {string[:80]}"
            )
