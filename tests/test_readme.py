"""The README says what is there."""

from __future__ import annotations

import importlib.util
import re
from pathlib import Path

from calc.catalogue import all_checks

ROOT = Path(__file__).resolve().parent.parent
README = (ROOT / "README.md").read_text(encoding="utf-8")


def test_its_table_of_checks_is_made_from_the_checks() -> None:
    spec = importlib.util.spec_from_file_location("make_table", ROOT / "docs/make_table.py")
    assert spec and spec.loader
    make_table = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(make_table)
    assert make_table.with_table(README) == README, "run: python docs/make_table.py"
    assert all(f"`{check.id}`" in README for check in all_checks())


def test_every_link_in_the_documents_leads_somewhere() -> None:
    for document in [ROOT / "README.md", ROOT / "DEVELOPERS.md", *(ROOT / "docs").rglob("*.md")]:
        for target in re.findall(r"\]\((?!https?:|#)([^)#]+)", document.read_text(encoding="utf-8")):
            assert (document.parent / target).exists(), f"{document.name} links to {target}"
