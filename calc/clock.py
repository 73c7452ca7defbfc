"""Times of day and dates as people write them, and as numbers. It reads no clock: what time it is, somebody says.

A time of day is `07:30`, from 00:00 to 23:59; a date is `2027-06-18`. Both are patterns that a rig's schema repeats.
"""

from __future__ import annotations

from itertools import accumulate

CLOCK = r"(?:[01][0-9]|2[0-3]):[0-5][0-9]"
DATE = (
    r"(?:19|20)[0-9]{2}-(?:(?:0[13578]|1[02])-(?:0[1-9]|[12][0-9]|3[01])"
    r"|(?:0[469]|11)-(?:0[1-9]|[12][0-9]|30)|02-(?:0[1-9]|[12][0-9]))"
)
MONTHS = ("January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December")  # fmt: skip
DAY = 24 * 60

_BEFORE = tuple(accumulate((0, 31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30)))


def minutes_of(clock: str) -> int:
    """Minutes after midnight of a time of day."""
    hours, minutes = clock.split(":")
    return int(hours) * 60 + int(minutes)


def clock_at(minutes: int) -> str:
    """The time of day so many minutes after some midnight."""
    return f"{minutes % DAY // 60:02}:{minutes % 60:02}"


def day_of_year(date: str) -> int:
    """1 for the first of January. A year is counted as a common one: the sun does not notice."""
    _, month, day = date.split("-")
    return _BEFORE[int(month) - 1] + int(day)


def month_of(date: str) -> str:
    """What the month of a date is called."""
    return MONTHS[int(date.split("-")[1]) - 1]


def year_of(date: str) -> float:
    """A date as a year and its part gone by, as models of the earth's field count."""
    return int(date.split("-")[0]) + (day_of_year(date) - 1) / 365
