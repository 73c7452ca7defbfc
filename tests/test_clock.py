"""Times and dates as they are written, held to the standard library's calendar."""

from __future__ import annotations

import re
from datetime import date, timedelta

import pytest

from calc import clock


def test_every_minute_of_a_day_is_written_and_read_back() -> None:
    for minutes in range(24 * 60):
        text = clock.clock_at(minutes)
        assert re.fullmatch(clock.CLOCK, text) and clock.minutes_of(text) == minutes
        assert clock.clock_at(minutes + 24 * 60) == text


@pytest.mark.parametrize("text", ["24:00", "7:30", "07:60", "07.30", "0730", "07:30 ", "-1:00", "noon"])
def test_what_is_no_time_of_day_is_refused(text: str) -> None:
    assert not re.fullmatch(clock.CLOCK, text)


def test_every_day_of_a_common_year_has_its_number_and_month() -> None:
    for index in range(365):
        day = date(2027, 1, 1) + timedelta(days=index)
        assert re.fullmatch(clock.DATE, day.isoformat())
        assert clock.day_of_year(day.isoformat()) == day.timetuple().tm_yday == index + 1
        assert clock.month_of(day.isoformat()) == f"{day:%B}"
        assert clock.year_of(day.isoformat()) == pytest.approx(2027 + index / 365)


@pytest.mark.parametrize("text", ["2027-02-30", "2027-04-31", "2027-13-01", "2027-6-18", "18.6.2027", "2127-01-01", "2027-00-10"])
def test_what_is_no_date_is_refused(text: str) -> None:
    assert not re.fullmatch(clock.DATE, text)
