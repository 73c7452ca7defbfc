"""The sun's time of day, held to pvlib: Spencer's series as published, and the full ephemeris for when it is noon."""

from __future__ import annotations

import pandas as pd
import pvlib
import pytest

from calc import solar_clock


@pytest.mark.parametrize("day", range(1, 366, 13))
def test_the_equation_of_time_is_spencers(day: int) -> None:
    theirs = float(pvlib.solarposition.equation_of_time_spencer71(day))
    assert solar_clock.equation_of_time(day) == pytest.approx(theirs, abs=1e-9)


@pytest.mark.parametrize(("latitude", "longitude", "utc_offset"), [(44.2, -110.6, -6), (52.0, 5.0, 1), (-33.9, 151.2, 10), (28.6, 77.2, 5.5)])
def test_the_sun_stands_highest_at_solar_noon_within_a_minute(latitude: float, longitude: float, utc_offset: float) -> None:
    """Transit by the NREL solar position algorithm of pvlib, through a year: within 1 minute of our 12:00."""
    for day in range(1, 366, 28):
        midnight = pd.Timestamp("2027-01-01", tz="UTC") + pd.Timedelta(days=day - 1) - pd.Timedelta(hours=utc_offset)
        noon = midnight + pd.Timedelta(hours=12)
        transit = pvlib.solarposition.sun_rise_set_transit_spa(pd.DatetimeIndex([noon]), latitude, longitude)["transit"].iloc[0]
        clock = (transit - midnight).total_seconds() / 60 % 1440
        assert solar_clock.solar_minutes(clock, day, longitude, utc_offset) % 1440 == pytest.approx(720, abs=1), day


def test_a_clock_on_summer_time_is_ahead_of_the_sun() -> None:
    """In mid February a sundial is slow by 14 minutes, in early November fast by 16 (any almanac)."""
    assert solar_clock.equation_of_time(42) == pytest.approx(-14.2, abs=0.3)
    assert solar_clock.equation_of_time(307) == pytest.approx(16.4, abs=0.3)
    assert solar_clock.solar_minutes(720, 169, -110.6, -6) == pytest.approx(720 - 60 - (110.6 - 105) * 4 - 1, abs=1)
