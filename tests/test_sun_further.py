"""The baked sun at four more places on the ground: whole-year files among the test data of pvlib 0.10.3, as daily sums.

An IWEC file, a typical year of PVGIS, a typical year of PSM3, and SolarAnywhere's 2021. The figures that the grid is
held to were measured once before it was baked, on the same files: year and months, with and without the factor 0.91.
"""

from __future__ import annotations

import csv
import math
from pathlib import Path

import pytest

from calc import sun

LENGTHS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
FILE = Path(__file__).with_name("further_sites.csv")
# Too bright as it comes: in the year, and root of the mean square over the months.
MEASURED = {
    "Amsterdam": (0.276, 0.278), "45N 8E": (0.071, 0.292), "40.5N 108.5W": (0.067, 0.086), "Burlington": (0.098, 0.173),
}  # fmt: skip
# With 0.91: most that the year is off, and the months. The file of 45N 8E has one dark October.
BOUNDS = {"Amsterdam": (0.17, 0.18), "45N 8E": (0.04, 0.24), "40.5N 108.5W": (0.04, 0.05), "Burlington": (0.02, 0.14)}


def sites() -> dict[str, tuple[float, float, list[list[float]]]]:
    """Latitude, longitude and the days of each month."""
    found = {}
    for name, latitude, longitude, *days in csv.reader(line for line in FILE.read_text().splitlines() if line[0] != "#"):
        ends = [sum(LENGTHS[: month + 1]) for month in range(12)]
        months = [[float(day) for day in days[end - length : end]] for end, length in zip(ends, LENGTHS, strict=True)]
        found[name] = (float(latitude), float(longitude), months)
    return found


SITES = sites()


def errors(name: str, factor: float) -> tuple[float, list[float]]:
    """How far the grid is off on flat ground: the year, and each month."""
    latitude, longitude, months = SITES[name]
    ours = []
    for month in range(12):
        grid = sun.clearness(latitude, longitude, month)
        assert grid is not None
        ours.append(factor * grid.mean * sun.extraterrestrial(latitude, month))
    theirs = [sum(days) / len(days) for days in months]
    year = sum(mine * length for mine, length in zip(ours, LENGTHS, strict=True)) / sum(map(sum, months)) - 1
    return year, [mine / yours - 1 for mine, yours in zip(ours, theirs, strict=True)]


def rms(values: list[float]) -> float:
    return math.sqrt(sum(value**2 for value in values) / len(values))


@pytest.mark.parametrize("name", MEASURED)
def test_the_grid_is_as_bright_as_was_measured_before_it_was_baked(name: str) -> None:
    year, months = errors(name, 1.0)
    assert (year, rms(months)) == pytest.approx(MEASURED[name], abs=0.006)


@pytest.mark.parametrize("name", BOUNDS)
def test_with_the_one_factor_it_is_within_what_the_page_says(name: str) -> None:
    year, months = errors(name, sun.TOO_BRIGHT)
    assert abs(year) <= BOUNDS[name][0] and rms(months) <= BOUNDS[name][1], months


def test_a_poor_day_of_the_grid_is_seldom_undercut_on_the_ground() -> None:
    """1 day in 10 is worse: over these 1460 days between 5 and 25 in 100 lie under the poor day, half under the typical."""
    under = {0: 0, 2: 0, 4: 0}
    for latitude, longitude, months in SITES.values():
        for month, days in enumerate(months):
            grid = sun.clearness(latitude, longitude, month)
            assert grid is not None
            for kind in under:
                flat = sun.TOO_BRIGHT * grid.days[kind] * sun.extraterrestrial(latitude, month)
                under[kind] += sum(day < flat for day in days)
    shares = [count / 1460 for count in under.values()]
    assert 0.05 < shares[0] < 0.25 and 0.35 < shares[1] < 0.65 and 0.75 < shares[2] < 0.97, shares
