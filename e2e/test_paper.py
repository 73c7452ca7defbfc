"""The printed answer is proof: everything on it, nothing that only a screen needs."""

from __future__ import annotations

import io
import unicodedata

import pytest
from pypdf import PdfReader

from calc.catalogue import check_called
from calc.form import fill
from hands import Visit

pytest_plugins = ("visits",)


def plain(text: str) -> str:
    """Text without the blanks, breaks and ligatures that paper adds."""
    return "".join(unicodedata.normalize("NFKC", text).split())


@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize("path", ["wire/wire-for-run/", "run/car-distance/", "run/tool-on-outlet/"])
def test_a_printed_answer_holds_its_question_numbers_cautions_working_and_sources(visit: Visit, path: str, paper: str) -> None:
    seen = visit(path)
    pages = PdfReader(io.BytesIO(seen.page.pdf(format=paper))).pages
    text = plain(" ".join(page.extract_text() for page in pages))
    asked = fill(check_called(path.rstrip("/")), {})
    answer = asked.answer()
    assert asked.check
    assert plain(asked.kind.question) in text
    assert plain(answer.say) in text
    for caution in asked.check.warnings():
        assert plain(caution.hazard) in text and caution.signal in text
    for line in answer.working():
        assert plain(line.label) in text and plain(line.value) in text
        if line.source:
            assert plain(line.source) in text
    assert plain("a licensed person decide") in text
    assert plain("Work it out") not in text and plain("Start again") not in text
    assert len(pages) <= 6
