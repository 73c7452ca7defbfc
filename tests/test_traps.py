"""The traps of the trade that a naive calculator falls into: each has a test of its own that says so in plain words."""

from __future__ import annotations

import ast
import re
from pathlib import Path

import pytest

TRAPS = range(1, 31)
TESTS = Path(__file__).resolve().parent


def by_trap() -> dict[int, set[str]]:
    """The test functions whose text holds a comment like `trap 16: no trip, the inverter goes dark`."""
    found: dict[int, set[str]] = {number: set() for number in TRAPS}
    for file in TESTS.glob("test_*.py"):
        text = file.read_text(encoding="utf-8")
        lines = text.splitlines()
        for node in ast.parse(text).body:
            if isinstance(node, ast.FunctionDef) and node.name.startswith("test_"):
                body = "\n".join(lines[node.lineno - 1 : node.end_lineno])
                for number in re.findall(r"# trap (\d+): \S+ \S+ \S+", body):
                    if any(isinstance(part, ast.Assert) for part in ast.walk(node)):
                        found[int(number)].add(f"{file.name}: {node.name}")
    return found


@pytest.mark.parametrize("number", TRAPS)
def test_each_trap_has_a_test_that_asserts_and_says_it_in_plain_words(number: int) -> None:
    assert by_trap()[number]
