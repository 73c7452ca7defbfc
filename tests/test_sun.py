"""The sun: held to pvlib, a general library of solar physics, on the whole-year weather files that ship with it.

Three sites: 723170TYA (36.1 N, TMY3), 703165TY (55.3 N, TMY3, a cloudy coast) and 12839 (25.8 N, TMY2). Bounds are what
was measured; each is printed in the table of the test's own failure. The grid's cells are held to the package they come
from.
"""

from __future__ import annotations

import importlib.util
import math
from functools import cache
from pathlib import Path
from statistics import median

import numpy as np
import pandas as pd
import pvlib
import pytest

from calc import sun
from calc.catalogue import check_called
from calc.check import Answer
from calc.form import fill
from calc.sun import Panel, Plane

ROOT = Path(__file__).resolve().parents[1]
DATA = Path(pvlib.__file__).parent / "data"
SITES = ("723170TYA.CSV", "703165TY.csv", "12839.tm2")


@cache
def weather(name: str) -> tuple[float, float, pd.DataFrame]:
    """Latitude, longitude and the hours of a whole-year file: ghi, dni, dhi, air, stamped in their middle."""
    if name.endswith("tm2"):
        frame, head = pvlib.iotools.read_tmy2(DATA / name)
        frame = frame.rename(columns={"GHI": "ghi", "DNI": "dni", "DHI": "dhi", "DryBulb": "temp_air"})
        frame["temp_air"] = frame["temp_air"] / (10 if frame["temp_air"].abs().max() > 80 else 1)
    else:
        frame, head = pvlib.iotools.read_tmy3(DATA / name, coerce_year=1990, map_variables=True)
    frame = frame[["ghi", "dni", "dhi", "temp_air"]].astype(float).copy()
    frame.index = pd.DatetimeIndex([stamp.replace(year=1990) for stamp in frame.index])
    frame = frame.sort_index()
    # The files stamp an hour by its end (TMY3) or its start (TMY2).
    frame.index += pd.Timedelta(minutes=30 if name.endswith("tm2") else -30)
    return head["latitude"], head["longitude"], frame


@cache
def sunlit(name: str) -> pd.DataFrame:
    latitude, longitude, frame = weather(name)
    where = pvlib.solarposition.get_solarposition(frame.index, latitude, longitude)
    return frame.assign(
        zenith=where["apparent_zenith"],
        azimuth=where["azimuth"],
        outside=pvlib.irradiance.get_extra_radiation(frame.index),
    )


def by_month(hours: pd.Series) -> list[float]:
    """kWh/m² in a mean day of each month."""
    daily = hours.groupby(hours.index.day_of_year).sum() / 1000
    months = hours.index.month[hours.index.searchsorted(hours.index)]
    first = pd.Series(months, index=hours.index).groupby(hours.index.day_of_year).first()
    return [float(daily[first == month].mean()) for month in range(1, 13)]


def daily(name: str, month: int) -> np.ndarray:
    _, _, frame = weather(name)
    of = frame[frame.index.month == month]["ghi"]
    return np.array(of.groupby(of.index.day).sum() / 1000)


def plane_of(name: str, tilt: float, facing: float) -> pd.Series:
    hours = sunlit(name)
    return pvlib.irradiance.get_total_irradiance(tilt, facing, hours["zenith"], hours["azimuth"], hours["dni"], hours["ghi"], hours["dhi"], dni_extra=hours["outside"], model="haydavies", albedo=0.2)["poa_global"].fillna(0)  # fmt: skip


# --- above the air -----------------------------------------------------------------------------------------------


@pytest.mark.parametrize("month", range(12))
def test_the_declination_is_spencers_and_near_the_ephemeris(month: int) -> None:
    day = sun.MONTHS[month]
    assert sun.declination(day) == pytest.approx(float(pvlib.solarposition.declination_spencer71(day)), abs=1e-9)
    stamp = pd.DatetimeIndex([pd.Timestamp("2021-01-01 12:00", tz="UTC") + pd.Timedelta(days=day - 1)])
    straight_up = 90 - float(pvlib.solarposition.get_solarposition(stamp, 90, 0)["zenith"].iloc[0])
    assert math.degrees(sun.declination(day)) == pytest.approx(straight_up, abs=0.7)


@pytest.mark.parametrize(("latitude", "within"), [(0, 0.01), (36, 0.016), (-36, 0.016), (52, 0.03), (60, 0.05)])
def test_the_sun_above_the_air_agrees_with_the_full_ephemeris(latitude: float, within: float) -> None:
    """Within 1.6 % at 36 degrees, 3 % at 52, 5 % at 60. It cancels in the grid, which is baked with the same sum."""
    for month, day in enumerate(sun.MONTHS):
        stamps = pd.date_range(
            pd.Timestamp("2021-01-01", tz="UTC") + pd.Timedelta(days=day - 1), periods=1440, freq="1min"
        )
        up = np.cos(np.radians(pvlib.solarposition.get_solarposition(stamps, latitude, 0)["zenith"])).clip(lower=0)
        whole = float((up * pvlib.irradiance.get_extra_radiation(stamps)).sum()) / 60 / 1000
        assert sun.extraterrestrial(latitude, month) == pytest.approx(whole, rel=within), (month, latitude)


def test_where_the_sun_does_not_rise_or_set_nothing_breaks() -> None:
    assert sun.extraterrestrial(80, 11) == 0 and sun.extraterrestrial(80, 5) > 11
    assert sum(sun.day_on_plane(80, 344, 1.0, 0.0, Plane())) == 0
    assert sum(sun.day_on_plane(85, 162, 8.0, sun.extraterrestrial(85, 5), Plane())) == pytest.approx(8.0, rel=1e-9)
    for latitude in (-90, 0, 90):
        for month in range(12):
            assert math.isfinite(sun.extraterrestrial(latitude, month))


# --- the day and the plane ---------------------------------------------------------------------------------------


def test_the_diffuse_share_is_that_of_erbs_klein_and_duffie() -> None:
    """Their daily correlation at its published joints: a step of 0.016 at most, 0.143 and 0.175 at clear skies."""
    summer, winter = math.radians(100), math.radians(70)
    assert sun.diffuse_share(0.9, winter) == 0.143 and sun.diffuse_share(0.9, summer) == 0.175
    for season, joint in ((winter, 0.715), (summer, 0.722)):
        assert sun.diffuse_share(joint - 1e-9, season) == pytest.approx(sun.diffuse_share(joint, season), abs=0.016)
        shares = [sun.diffuse_share(k / 100, season) for k in range(100)]
        assert all(0 < share <= 1.0 + 1e-9 for share in shares) and shares == sorted(shares, reverse=True)


@pytest.mark.parametrize("flat", [1.0, 4.0, 7.0])
def test_a_flat_panel_gets_the_day_that_was_given(flat: float) -> None:
    through = sun.day_on_plane(36, 162, flat, sun.extraterrestrial(36, 5), Plane())
    assert sum(through) == pytest.approx(flat, rel=1e-9)
    assert through == pytest.approx(through[::-1], rel=1e-9)  # noon is in the middle


def test_the_plane_is_that_of_pvlib_step_by_step() -> None:
    """Hay and Davies with the same beam, sky and sun: pvlib.irradiance.haydavies plus the ground, to 1e-6."""
    latitude, day, above, flat = 36.0, 75, sun.extraterrestrial(36, 2), 5.0
    for tilt, facing in ((0, 180), (30, 180), (60, 120), (20, 350)):
        plane = Plane(tilt, facing)
        ours = sun.day_on_plane(latitude, day, flat, above, plane)
        level = sun.day_on_plane(latitude, day, flat, above, Plane())
        hours = [math.radians((step + 0.5) / 48 * 360 - 180) for step in range(48)]
        sunset, delta, phi = sun.sunset_angle(latitude, day), sun.declination(day), math.radians(latitude)
        shape = [max(0.0, math.cos(h) - math.cos(sunset)) * (abs(h) < sunset) for h in hours]
        diffuse = [flat * sun.diffuse_share(flat / above, sunset) * part / sum(shape) for part in shape]
        for hour, total, sky, got in zip(hours, level, diffuse, ours, strict=True):
            up = math.sin(delta) * math.sin(phi) + math.cos(delta) * math.cos(phi) * math.cos(hour)
            if total < 1e-3 or up < 0.05:
                continue
            zenith = math.degrees(math.acos(up))
            around = math.degrees(math.atan2(-math.cos(delta) * math.sin(hour), math.sin(delta) * math.cos(phi) - math.cos(delta) * math.sin(phi) * math.cos(hour)))  # fmt: skip
            outside = sun.SOLAR_CONSTANT * sun.distance_factor(day) * 1000
            beam = (total - sky) * 2000 / up
            aoi = pvlib.irradiance.aoi(tilt, facing, zenith, around)
            theirs = beam * max(0.0, math.cos(math.radians(aoi))) + pvlib.irradiance.haydavies(tilt, facing, sky * 2000, beam, outside, zenith, around) + pvlib.irradiance.get_ground_diffuse(tilt, total * 2000, 0.2)  # fmt: skip
            assert got * 2000 == pytest.approx(float(theirs), rel=1e-6, abs=1e-6)


# Measured: error of the year and root of the mean square of twelve months, transposition alone (the file's own days).
TRANSPOSED = {
    ("723170TYA.CSV", 30, 180): (-0.045, 0.0, 0.05),
    ("723170TYA.CSV", 60, 180): (-0.06, 0.0, 0.065),
    ("723170TYA.CSV", 0, 180): (-0.005, 0.005, 0.01),
    ("703165TY.csv", 30, 180): (-0.09, 0.0, 0.14),
    ("12839.tm2", 30, 180): (-0.035, 0.005, 0.04),
}


@pytest.mark.parametrize(("name", "tilt", "facing"), TRANSPOSED)
def test_known_days_on_a_tilted_plane_against_pvlib(name: str, tilt: float, facing: float) -> None:
    """Each day of the file run one by one, month by month, against pvlib's own Hay-Davies on the hours."""
    latitude, _, _ = weather(name)
    theirs = by_month(plane_of(name, tilt, facing))
    ours = []
    for month in range(12):
        above = sun.extraterrestrial(latitude, month)
        days = [sum(sun.day_on_plane(latitude, sun.MONTHS[month], flat, above, Plane(tilt, facing))) for flat in daily(name, month + 1)]  # fmt: skip
        ours.append(sum(days) / len(days))
    errors = [mine / yours - 1 for mine, yours in zip(ours, theirs, strict=True)]
    year, scatter = sum(ours) / sum(theirs) - 1, math.sqrt(sum(error**2 for error in errors) / 12)
    low, high, rms = TRANSPOSED[name, tilt, facing]
    assert low <= year <= high and scatter <= rms, (
        f"year {year:+.3f}, months {scatter:.3f}: {[f'{e:+.2f}' for e in errors]}"
    )


# --- the grid ----------------------------------------------------------------------------------------------------


def test_the_grid_is_what_the_baker_makes_of_the_package() -> None:
    spec = importlib.util.spec_from_file_location("bake", ROOT / "docs/sun/bake.py")
    assert spec and spec.loader
    baker = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(baker)
    assert baker.bake() == baker.HERE.read_bytes()
    assert baker.HERE.stat().st_size == 176_924


def test_what_is_unbaked_is_what_the_package_says_to_half_a_hundredth() -> None:
    import gsee_climate_data

    source = gsee_climate_data.load()
    rows, columns = source["lat"], source["lon"]
    held = sorted(sun._cells())[::250]
    for row, column in held:
        for month in (0, 5, 9):
            if sun.extraterrestrial(float(rows[row]), month) < 0.1:  # it hardly rises there
                continue
            grid = sun.clearness(float(rows[row]), float(columns[column]), month)
            assert grid is not None and grid.mark in (sun.FOUR_CELLS, sun.COAST)
            values, weights = np.maximum(source["xk"][row, column, month], 0), source["pk"][row, column, month]
            share = np.maximum(weights, 0) / np.maximum(weights, 0).sum()
            mean = float((values * share).sum()) * 0.024 / sun.extraterrestrial(float(rows[row]), month)
            assert grid.mean == pytest.approx(mean, abs=0.0051)
            assert list(grid.days) == sorted(grid.days) and len(held) == 10


@pytest.mark.parametrize("name", SITES)
def test_the_grid_against_the_ground(name: str) -> None:
    """x 0.91, flat: year within 10 %, months within 25 % root mean square (the annex: 0.8, 0.8, -8 %; 7, 20, 14 %)."""
    latitude, longitude, _ = weather(name)
    ours, theirs = [], []
    for month in range(12):
        grid = sun.clearness(latitude, longitude, month)
        assert grid is not None
        ours.append(sun.TOO_BRIGHT * grid.mean * sun.extraterrestrial(latitude, month))
        theirs.append(float(daily(name, month + 1).mean()))
    errors = [mine / yours - 1 for mine, yours in zip(ours, theirs, strict=True)]
    table = [f"{m:.2f}/{y:.2f}" for m, y in zip(ours, theirs, strict=True)]
    assert abs(sum(ours) / sum(theirs) - 1) < 0.10, table
    assert math.sqrt(sum(error**2 for error in errors) / 12) < 0.25, table


def test_over_all_site_months_the_error_is_what_the_page_says() -> None:
    """Printed on the page: half of the months within 10 %, four in five within 25 %, at these three sites."""
    errors = []
    for name in SITES:
        latitude, longitude, _ = weather(name)
        for month in range(12):
            grid = sun.clearness(latitude, longitude, month)
            assert grid is not None
            errors.append(
                abs(
                    sun.TOO_BRIGHT * grid.mean * sun.extraterrestrial(latitude, month) / daily(name, month + 1).mean()
                    - 1
                )
            )
    assert median(errors) < 0.10 and sorted(errors)[int(0.8 * len(errors))] < 0.25, sorted(errors)


@pytest.mark.parametrize(
    ("name", "low", "high"), [("723170TYA.CSV", -0.05, 0.05), ("703165TY.csv", -0.15, 0.05), ("12839.tm2", -0.12, 0.0)]
)
def test_the_year_of_a_panel_from_position_and_month_alone(name: str, low: float, high: float) -> None:
    """1 kW, 30° south, against pvlib's Perez sky, NOCT cells and 14 % losses (the annex: 0, -8.4 and -7.0 %)."""
    latitude, longitude, frame = weather(name)
    hours = sunlit(name)
    poa = pvlib.irradiance.get_total_irradiance(30, 180, hours["zenith"], hours["azimuth"], hours["dni"], hours["ghi"], hours["dhi"], dni_extra=hours["outside"], airmass=pvlib.atmosphere.get_relative_airmass(hours["zenith"]), model="perez", albedo=0.2)["poa_global"].fillna(0)  # fmt: skip
    cell = frame["temp_air"] + 25 / 800 * poa
    theirs = float((poa / 1000 * (1 - 0.0035 * (cell - 25))).sum()) * 0.86
    lengths = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
    ours = 0.0
    for month, length in enumerate(lengths):
        found = sun.month_on_panel(latitude, longitude, month, Panel(1000), Plane(30, 180), 15)
        assert found is not None
        ours += length * found.mean_energy
    assert low <= ours / theirs - 1 <= high, ours / theirs - 1


def test_marks_are_honest() -> None:
    """Mid-continent, coast, a cell away, and an island without data."""
    assert sun.clearness(40, -100, 5).mark == sun.FOUR_CELLS  # type: ignore[union-attr]
    assert sun.clearness(21, -158, 5) is None
    assert sun.clearness(-80, 0, 5) is None
    marks = {
        grid.mark for lat in range(-56, 73, 4) for lon in range(-180, 180, 5) if (grid := sun.clearness(lat, lon, 5))
    }
    assert marks == {sun.FOUR_CELLS, sun.COAST, sun.FAR}


def test_across_the_date_line_nothing_jumps() -> None:
    west, east = sun.clearness(66, 179.999, 5), sun.clearness(66, -179.999, 5)
    assert west and east and west.mean == pytest.approx(east.mean, abs=0.001)


def test_the_mean_day_is_not_the_days_it_stands_for() -> None:
    """Running one mean day through the diffuse formula loses 5 % at 36 N and more than 12 % at 55 N (annex, section 3)."""
    for name, least in (("723170TYA.CSV", 0.01), ("703165TY.csv", 0.04)):
        latitude, _, _ = weather(name)
        each, lumped = 0.0, 0.0
        for month in range(12):
            above, days = sun.extraterrestrial(latitude, month), daily(name, month + 1)
            run = [sum(sun.day_on_plane(latitude, sun.MONTHS[month], flat, above, Plane(30, 180))) for flat in days]
            each += sum(run) / len(run)
            lumped += sum(sun.day_on_plane(latitude, sun.MONTHS[month], float(days.mean()), above, Plane(30, 180)))
        assert 1 - lumped / each > least


def by_pvlib(tilt: float, facing: float, month: int) -> float:
    """A month's sun on a plane over that on flat ground, station 723170, pvlib's Hay-Davies on the hours."""
    on, flat = by_month(plane_of(SITES[0], tilt, facing))[month], by_month(plane_of(SITES[0], 0, 180))[month]
    return on / flat


def by_us(tilt: float, facing: float, month: int) -> float:
    on, flat = (
        sun.month_on_panel(36.1, -79.95, month, Panel(400), plane, 15) for plane in (Plane(tilt, facing), Plane())
    )
    assert on and flat
    return on.mean_energy / flat.mean_energy


def test_a_roof_that_points_anywhere() -> None:
    """Tilt 20 in December at 36 N, ratio to flat: mean 0.97, worst 0.52, best 1.41 by pvlib on the whole-year file."""
    theirs = [by_pvlib(20, heading, 11) for heading in range(0, 360, 30)]
    ours = [by_us(20, heading, 11) for heading in range(0, 360, 30)]
    assert (sum(theirs) / 12, min(theirs), max(theirs)) == pytest.approx((0.971, 0.520, 1.409), abs=0.001)
    assert (sum(ours) / 12, min(ours), max(ours)) == pytest.approx((0.971, 0.520, 1.409), abs=0.03)


def test_tilt_pays_where_it_is_turned_to_the_sun_and_not_in_june() -> None:
    assert by_us(30, 180, 11) == pytest.approx(by_pvlib(30, 180, 11), rel=0.06) and by_us(30, 180, 11) > 1.45
    steep = [by_pvlib(60, heading, 5) for heading in range(0, 360, 30)]
    assert max(steep) < 1 and by_us(60, 180, 5) < 0.75


# --- days in a row -----------------------------------------------------------------------------------------------


def test_days_that_are_all_alike_are_counted() -> None:
    assert sun.days_to_gather((1.0,) * 5, 4.6, 0.0) == (5, 5)
    assert sun.days_to_gather((1.0,) * 5, 4.6, 0.5) == (10, 10)
    assert sun.days_to_gather((1.0,) * 5, 4.6, 1.0) == (None, None)


def test_runs_of_days_agree_with_another_generator_and_another_library() -> None:
    """numpy's PCG64 and scipy's normal distribution, 20 000 runs of the same weather; December at 36 N, 400 W, 4.6 kWh."""
    from scipy.stats import norm

    days = sun.month_on_panel(36.1, -79.95, 11, Panel(400), Plane(), 15)
    assert days is not None
    random = np.random.default_rng(1)
    score, gathered, lasts = random.standard_normal(20_000), np.zeros(20_000), np.zeros(20_000)
    for _ in range(60):
        going = gathered < 4.6
        kinds, energy = np.array(sun.KINDS_OF_DAY), np.array(days.energy)
        share = norm.cdf(score)
        inside = np.interp(share, kinds, energy)
        low = energy[0] + (share - 0.1) / 0.15 * (energy[1] - energy[0])
        high = energy[4] + (share - 0.9) / 0.15 * (energy[4] - energy[3])
        gathered += going * np.maximum(0, np.where(share < 0.1, low, np.where(share > 0.9, high, inside)))
        lasts += going
        score = sun.ALIKE * score + math.sqrt(1 - sun.ALIKE**2) * random.standard_normal(20_000)
    half, nine = sun.days_to_gather(days.energy, 4.6, 0.0)
    assert half is not None and nine is not None
    assert abs(half - np.quantile(lasts, 0.5)) <= 1 and abs(nine - np.quantile(lasts, 0.9)) <= 1
    assert (half, nine) == (pytest.approx(7, abs=1), pytest.approx(9, abs=1))  # the annex: 7 (9)


@pytest.mark.parametrize("name", SITES)
def test_nine_in_ten_is_kept_on_the_days_of_whole_years(name: str) -> None:
    """Every day of the file as a start, needs of 2, 4 and 8 mean days, flat: longer than stated in 7 of 100 (annex, 6).

    Bound: 20 of 100 at any one site, since a single year of a site may be darker than its grid.
    """
    latitude, longitude, frame = weather(name)
    flat = np.array(frame["ghi"].groupby(frame.index.day_of_year).sum() / 1000)
    starts = late = 0
    for month in range(12):
        grid = sun.month_on_panel(latitude, longitude, month, Panel(1000), Plane(), 15)
        assert grid is not None
        first = sun.MONTHS[month] - 14
        for need in (2, 4, 8):
            wanted = need * grid.mean_flat
            _, nine = sun.days_to_gather(grid.flat, wanted, 0.0)
            assert nine is not None
            for start in range(first, first + 28):
                starts += 1
                late += np.take(flat, range(start, start + nine), mode="wrap").sum() < wanted
    assert late / starts < 0.20, late / starts


def test_need_over_the_poor_day_overstates_it() -> None:
    """The annex: 12 days against 7 typical (9 in 9 of 10) for 4.6 kWh in December at 36 N."""
    days = sun.month_on_panel(36.1, -79.95, 11, Panel(400), Plane(), 15)
    assert days is not None
    _, nine = sun.days_to_gather(days.energy, 4.6, 0.0)
    assert nine is not None and 4.6 / days.energy[0] > 1.3 * nine


# --- where the map has nothing, and where the compass points ----------------------------------------------------------


def test_typed_sun_hours_stand_in_for_the_map() -> None:
    """Flat, a kWh/m² makes 0.86 of a kWh per kW at 25 °C of the cell: 5 and 2 kWh/m², better days counted as typical."""
    found = sun.month_of_hours(21, 5, 2.0, 5.0, Panel(1000, slope=0.0), Plane(), 15)
    assert found.mark == sun.TYPED and found.flat == (2.0, 3.5, 5.0, 5.0, 5.0)
    assert found.energy == pytest.approx([0.86 * flat for flat in found.flat], rel=1e-9)
    assert found.mean_energy == pytest.approx(0.86 * (0.175 * 2 + 0.2 * 3.5 + 0.625 * 5), rel=1e-9)


def test_the_hours_of_the_map_typed_in_give_what_the_map_gives() -> None:
    """The map's own poor and typical day at 36 N, typed in again: the same kWh on a tilted panel on those days."""
    by_map = sun.month_on_panel(36.1, -79.95, 11, Panel(400), Plane(30, 180), 15)
    assert by_map is not None
    typed = sun.month_of_hours(36.1, 11, by_map.flat[0], by_map.flat[2], Panel(400), Plane(30, 180), 15)
    assert (typed.energy[0], typed.energy[2]) == pytest.approx((by_map.energy[0], by_map.energy[2]), rel=1e-12)


def sun_check(check: str, **typed: str) -> Answer:
    asked = fill(check_called(check), typed)
    assert not asked.problems, asked.problems
    return asked.answer()


@pytest.mark.parametrize("check", ["refill/sun-today", "refill/days-from-sun", "refill/panel-flat"])
def test_on_an_island_the_sun_hours_are_asked_for_and_answer(check: str) -> None:
    """21 N, 158 W has no cell (the annex); a poor day with more sun than a typical one is no answer."""
    island = {"latitude": "21", "longitude": "-158"}
    assert "Type the sun hours" in sun_check(check, **island).say
    typed = island | {"sun_from": "sun hours typed in", "sun_hours": "5.5", "poor_sun_hours": "3"}
    answer = sun_check(check, **typed)
    assert answer.verdict in ("go", "tight", "no") and str(answer.results.get("data", sun.TYPED)) == sun.TYPED
    assert sun_check(check, **(typed | {"poor_sun_hours": "6"})).verdict == "not known"


def test_a_compass_heading_is_turned_by_the_declination_there() -> None:
    """Seattle's needle pointed 15° east in 2025 (published chart of the model): a compass's 165° is a map's 180°."""
    seattle = {"latitude": "47.6", "longitude": "-122.3", "tilt": "40", "month": "December"}
    by_map = sun_check("refill/sun-today", **seattle, facing="180")
    by_compass = sun_check("refill/sun-today", **seattle, facing="165", heading_by="a compass: magnetic north")
    careless = sun_check("refill/sun-today", **seattle, facing="165")
    kwh = [answer.results["typical_day"].si for answer in (by_map, by_compass, careless)]  # type: ignore[union-attr]
    assert kwh[1] == pytest.approx(kwh[0], rel=0.001) and kwh[2] < kwh[0]
    from calc.laws.declination import declination

    assert declination(47.6, -122.3, 0, 2025.0) == pytest.approx(15, abs=0.5)


@pytest.mark.parametrize("typed", [{}, {"tilt": "35", "facing": "150", "month": "December"}, {"latitude": "-33.9", "longitude": "151.2", "tilt": "30", "facing": "0", "ground": "snow"}, {"sun_from": "sun hours typed in", "sun_hours": "4", "poor_sun_hours": "2", "tilt": "60"}, {"tilt": "90", "facing": "0", "month": "January"}], ids=str)  # fmt: skip
def test_the_half_hour_that_is_worked_is_the_half_hour_of_the_kernel(typed: dict[str, str]) -> None:
    """Every line from the day's sum to the watts at noon, against the 25th of the kernel's 48 steps, to 1e-9."""
    asked = fill(check_called("refill/sun-today"), typed)
    worked = {line.symbol: line.quantity.si for line in asked.answer().working() if line.quantity is not None}
    form = asked.check
    assert form is not None
    month = sun.MONTHS[{"January": 0, "June": 5, "December": 11}[form.month]]
    latitude = math.degrees(worked["φ"])
    plane = Plane(math.degrees(worked["β"]), math.degrees(worked["α"]), 0.6 if form.ground == "snow" else 0.2)
    flat = worked["H_50"] / 3.6e6
    steps = sun.day_on_plane(latitude, month, flat, sun.above_on(latitude, month), plane)
    assert worked["G_n"] / 3.6e6 == pytest.approx(steps[24], rel=1e-9)
    panel = Panel(worked["P_pv"], worked["γ"], worked["ℓ_pv"], worked["k_s"])
    assert worked["P_noon"] == pytest.approx(sun.power(panel, steps[24], 0.5, worked["θ_a"] - 273.15) * 2000, rel=1e-9)


@pytest.mark.parametrize("check", ["refill/sun-today", "refill/panel-flat", "refill/days-from-sun"])
def test_what_is_lost_in_dirt_and_wires_has_its_line_and_no_shade_is_said(check: str) -> None:
    """14 % for dirt, wires and controller is a habit of the trade, and marked so; shade is typed by who has some."""
    sunny, shaded = (fill(check_called(check), {"unshaded": share}) for share in ("100", "80"))
    (line,) = [line for line in sunny.answer().working() if line.symbol == "k_ℓ"]
    assert line.quantity is not None and line.quantity.si == pytest.approx(0.86)
    assert "Common practice" in line.source
    said = ["No shade is reckoned with" in [caution.hazard for caution in asked.check.warnings()] for asked in (sunny, shaded)]  # type: ignore[union-attr]
    assert said == [True, False]
    if check == "refill/sun-today":
        powers = [asked.answer().results["typical_day"].si for asked in (sunny, shaded)]  # type: ignore[union-attr]
        assert powers[1] == pytest.approx(0.8 * powers[0])
