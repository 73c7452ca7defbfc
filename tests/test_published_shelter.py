"""Published figures and the known traps of heat, cold and wet, each with its source."""

from __future__ import annotations

import pytest
from test_published import ask, number

from calc import units as u
from calc.check import GO, NO, Answer

# --- weather rating ----------------------------------------------------------------------------------------------------

CLEAR = {f"part_{number}": "not fitted" for number in range(2, 7)}


def weather(*ratings: str, **typed: str) -> Answer:
    parts = {f"part_{number}": rating for number, rating in enumerate(ratings, 1)}
    return ask("shelter/weather-rating", **{**CLEAR, "standing": "in the rain", **parts, **typed})


@pytest.mark.parametrize(
    ("parts", "whole"),
    [
        (("IP66", "IP68", "IP44", "IP20"), "IP20"),
        (("IP65", "IP56", "IP44"), "IP44"),
        (("IP65", "IP54"), "IP54"),
        (("NEMA 3R",), "IP14"),
        (("NEMA 4X",), "IP56"),
        (("NEMA 12", "NEMA 5"), "IP52"),
        (("NEMA 1",), "IP10"),
        (("IP20", "IPX6"), "IP00"),
    ],
)
def test_each_digit_is_a_minimum_of_its_own(parts: tuple[str, ...], whole: str) -> None:
    """IEC 60529: the numerals are met separately. NEMA 250, annex: the lower printing of the conversion."""
    assert str(weather(*parts).results["rating"]) == whole


def test_trap_a_part_that_is_worse_in_one_digit_leaves_the_other_alone() -> None:
    """IEC 60529: IP65 and IP56 make IP55, and each digit names its own part."""
    mixed = weather("IP65", "IP56")
    assert str(mixed.results["rating"]) == "IP55"
    assert mixed.results["weakest_against_solids"].text == "Part 2"
    assert mixed.results["weakest_against_water"].text == "Part 1"


def test_trap_x7_is_not_a_jet_rating() -> None:
    """IEC 60529, clause 6: numeral 7 or 8 alone is unsuitable for jets unless marked for both."""
    assert weather("IP67", standing="in road spray").verdict == NO
    assert weather("IP68", standing="in road spray").verdict == NO
    assert weather("IP65 and IP67", standing="in road spray").verdict == GO
    assert weather("IP67", standing="in the rain").verdict == GO
    assert weather("IP66 and IP67", standing="washed down").verdict == GO
    assert weather("IP65", standing="washed down").verdict == NO


def test_no_ip_code_makes_a_nema_type() -> None:
    """NEMA 250: the conversion holds one way only; no type is ever told."""
    told = weather("IP66", "IP68").results.values()
    assert not any("NEMA" in str(value) for value in told)


def test_a_gap_facing_up_lets_rain_in_whatever_the_parts_are_marked() -> None:
    """IEC 60529, Tables 1 and 2 (from memory): 12.5 mm keeps a finger out, 2.5 mm a tool, 1.0 mm a wire."""
    for gap, digit in (("1", 4), ("2.5", 3), ("12.5", 2), ("12.6", 1), ("51", 0)):
        answer = weather("IP66", opening="a gap facing up", gap=f"{gap} mm")
        assert number(answer, "solids", u.one) == digit
        assert answer.verdict == NO
    down = weather("IP66", opening="a gap facing down behind a drip edge", gap="2 mm", standing="under a roof outdoors")
    assert down.verdict == GO
    assert (
        weather("IP66", opening="a gap facing down behind a drip edge", gap="2 mm", standing="in road spray").verdict
        == NO
    )


def test_no_marking_is_no_protection() -> None:
    """Unknown is an answer: what is not marked counts as 0 (common practice)."""
    assert weather("unmarked", standing="indoors").verdict == NO
