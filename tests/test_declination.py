"""Where a compass points: the published test values of the World Magnetic Model 2025, at their published figures."""

from __future__ import annotations

import pytest

from calc.laws import declination
from calc.quantity import OutsideValidity
from calc.units import degree

# Year, km above the ellipsoid, latitude, longitude, declination: the report's twelve, and six of the hundred of
# WMM2025_TEST_VALUES.txt, read in public repositories that quote them.
PUBLISHED = (
    (2025.0, 0, 80, 0, 1.28), (2025.0, 0, 0, 120, -0.16), (2025.0, 0, -80, 240, 68.78),
    (2025.0, 100, 80, 0, 0.85), (2025.0, 100, 0, 120, -0.15), (2025.0, 100, -80, 240, 68.21),
    (2027.5, 0, 80, 0, 2.59), (2027.5, 0, 0, 120, -0.24), (2027.5, 0, -80, 240, 68.49),
    (2027.5, 100, 80, 0, 2.16), (2027.5, 100, 0, 120, -0.23), (2027.5, 100, -80, 240, 67.93),
    (2025.0, 65, 43, 93, 0.50), (2025.0, 51, -33, 109, -5.49), (2025.0, 18, 0, 21, 1.29),
    (2025.5, 50, -70, -133, 57.21), (2027.0, 67, -47, -32, -13.52),
)  # fmt: skip


@pytest.mark.parametrize(("year", "km", "latitude", "longitude", "published"), PUBLISHED)
def test_the_published_test_values_are_met_to_their_last_figure(
    year: float, km: float, latitude: float, longitude: float, published: float
) -> None:
    assert declination.declination(latitude, longitude, km, year) == pytest.approx(published, abs=0.0051)


def test_near_the_pole_the_field_is_that_of_the_model_and_no_heading_is_given() -> None:
    """28 km above 89 N, 121 W the declination is −99.77° (published); nearer the magnetic pole a compass is of no use."""
    import math

    north, east = declination.horizontal_field(89, -121, 28, 2025.0)
    assert math.degrees(math.atan2(east, north)) == pytest.approx(-99.77, abs=0.0051)
    with pytest.raises(OutsideValidity, match="does not serve"):
        declination.declination(86, 140, 0, 2025.0)


@pytest.mark.parametrize("year", [2024.9, 2030.0, 2040.0])
def test_outside_its_five_years_the_model_is_not_asked(year: float) -> None:
    with pytest.raises(OutsideValidity, match="2025 to 2030"):
        declination.declination(44, -110, 0, year)


def test_the_needle_is_that_of_the_questions_date_and_the_working_says_for_which_years_the_model_holds() -> None:
    """The published values of 2025.0 and 2027.5 at 80 N, 0 E: 1.28° and 2.59°, to a tenth; and between them in between."""
    latitude, longitude = 80 * degree, 0 * degree
    dates = {"2025-01-01": 1.3, "2027-07-02": 2.6, "": 2.6}
    for date, published in dates.items():
        found = declination.declination_at(latitude, longitude, date)
        assert found.number_in(degree) == pytest.approx(published)
        assert "holds from 2025 to 2030" in found.step.source.place  # type: ignore[union-attr]
        assert (date or "as no date is asked") in found.step.source.place  # type: ignore[union-attr]
    assert 1.3 < declination.declination_at(latitude, longitude, "2026-04-01").number_in(degree) < 2.6
    with pytest.raises(OutsideValidity, match="2025 to 2030"):
        declination.declination_at(latitude, longitude, "2031-06-18")


def test_it_has_every_coefficient_of_degree_twelve() -> None:
    assert set(declination._coefficients()) == {(n, m) for n in range(1, 13) for m in range(n + 1)}
