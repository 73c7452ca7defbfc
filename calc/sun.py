"""The sun at a place in a month, offline: from a baked grid to kWh on a panel.

Plain floats: degrees outside, radians inside, kWh/m² in a day, and solar time. A phone runs a month in about a
millisecond. Tests hold every step to a general library of solar physics on whole-year weather files.

From the grid: the share of the sun above the air that reaches flat ground on five kinds of day (1 in 10 is darker, 1 in
4, half, 3 in 4, 9 in 10) and on the mean. Then the diffuse share by the day (Erbs, Klein, Duffie 1982), the hours
(Collares-Pereira, Rabl 1979; Liu, Jordan 1960), the plane (Hay, Davies 1980), the cell's temperature (NOCT).
"""

from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from functools import cache, lru_cache
from importlib.resources import files
from itertools import accumulate, pairwise

# Klein's day of the year whose sun is nearest to the mean of the month (Klein 1977).
MONTHS = (17, 47, 75, 105, 135, 162, 198, 228, 258, 288, 318, 344)
SOLAR_CONSTANT = 1.367  # kW/m², World Radiometric Reference
# The reanalysis is brighter than the ground: median over seven whole-year files. One constant was the best simple cure.
TOO_BRIGHT = 0.91
KINDS_OF_DAY = (0.10, 0.25, 0.50, 0.75, 0.90)
# How much of a month each kind of day stands for.
WEIGHTS = (0.175, 0.2, 0.25, 0.2, 0.175)
HALF_HOURS = 48

TYPED = "sun hours typed in"
FOUR_CELLS, COAST, FAR, NONE = "land all around", "coast or edge", "the nearest cell, some way off", "no data here"
_ROWS, _COLUMNS, _STEP, _SOUTH, _WEST = 44, 120, 3.0, -57.0, -180.0
_NEAR = 5.0  # degrees to a cell that may still stand for a place


# --- the sun above the air ---------------------------------------------------------------------------------------


def declination(day: int) -> float:
    """Radians, by Spencer 1971."""
    b = 2 * math.pi * (day - 1) / 365
    return (
        0.006918 - 0.399912 * math.cos(b) + 0.070257 * math.sin(b) - 0.006758 * math.cos(2 * b)
        + 0.000907 * math.sin(2 * b) - 0.002697 * math.cos(3 * b) + 0.00148 * math.sin(3 * b)
    )  # fmt: skip


def distance_factor(day: int) -> float:
    """The square of mean over actual distance, by Spencer 1971."""
    b = 2 * math.pi * (day - 1) / 365
    return (
        1.000110
        + 0.034221 * math.cos(b)
        + 0.001280 * math.sin(b)
        + 0.000719 * math.cos(2 * b)
        + 0.000077 * math.sin(2 * b)
    )


def sunset_angle(latitude: float, day: int) -> float:
    """Hour angle of sunset, radians: 0 where the sun does not rise, pi where it does not set."""
    cosine = -math.tan(math.radians(min(max(latitude, -89.9), 89.9))) * math.tan(declination(day))
    return math.acos(min(max(cosine, -1.0), 1.0))


def extraterrestrial(latitude: float, month: int) -> float:
    """Sun on a flat surface above the air, on the month's mean day [kWh/m²]. month: 0 for January."""
    return above_on(latitude, MONTHS[month])


def above_on(latitude: float, day: int) -> float:
    """Sun on a flat surface above the air, on a day of the year [kWh/m²]."""
    phi, delta, sunset = math.radians(latitude), declination(day), sunset_angle(latitude, day)
    daily = math.cos(phi) * math.cos(delta) * math.sin(sunset) + sunset * math.sin(phi) * math.sin(delta)
    return max(0.0, 24 / math.pi * SOLAR_CONSTANT * distance_factor(day) * daily)


# --- the grid ----------------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Clearness:
    """Shares of the sun above the air that reach the ground: five kinds of day, and the mean. How it was had."""

    days: tuple[float, float, float, float, float]
    mean: float
    mark: str


@cache
def _file() -> bytes:
    return (files("calc.tables") / "sun" / "clearness.bin").read_bytes()


@cache
def _cells() -> dict[tuple[int, int], int]:
    """Row and column of every cell with data, with its place in the planes."""
    mask = _file()[8 : 8 + _ROWS * _COLUMNS // 8]
    held = [at for at in range(_ROWS * _COLUMNS) if mask[at // 8] >> (7 - at % 8) & 1]
    return {divmod(at, _COLUMNS): index for index, at in enumerate(held)}


@cache
def _planes(month: int) -> tuple[tuple[int, ...], ...]:
    """The six statistics of a month for every cell, in hundredths: P10, P25, P50, P75, P90, mean."""
    count, begin = len(_cells()), 8 + _ROWS * _COLUMNS // 8
    raw: list[list[int]] = []
    for statistic in range(6):
        at = begin + (statistic * len(MONTHS) + month) * count
        raw.append(list(accumulate(_file()[at : at + count], lambda sum_, step: (sum_ + step) & 0xFF)))
    p50, under25, under10, over75, over90, mean = raw
    p25 = [a - b for a, b in zip(p50, under25, strict=True)]
    p75 = [a + b for a, b in zip(p50, over75, strict=True)]
    return (
        tuple(a - b for a, b in zip(p25, under10, strict=True)),
        tuple(p25),
        tuple(p50),
        tuple(p75),
        tuple(a + b for a, b in zip(p75, over90, strict=True)),
        tuple(a + (b if b < 128 else b - 256) for a, b in zip(p50, mean, strict=True)),
    )


def clearness(latitude: float, longitude: float, month: int) -> Clearness | None:
    """The clearness at a place, from the four cells around it; None where no cell is near (islands, mid-ocean)."""
    corners = [(cell, weight) for cell, weight in _corners(latitude, longitude) if cell in _cells()]
    mark = FOUR_CELLS if len(corners) == 4 else COAST
    if sum(weight for _, weight in corners) < 1e-6:
        nearest = min(_cells(), key=lambda cell: _degrees_to(cell, latitude, longitude))
        if _degrees_to(nearest, latitude, longitude) > _NEAR:
            return None
        corners, mark = [(nearest, 1.0)], FAR
    total, planes = sum(weight for _, weight in corners), _planes(month)
    p10, p25, p50, p75, p90, mean = (
        sum(weight * plane[_cells()[cell]] for cell, weight in corners) / total / 100 for plane in planes
    )
    return Clearness((p10, p25, p50, p75, p90), mean, mark)


def _corners(latitude: float, longitude: float) -> Iterator[tuple[tuple[int, int], float]]:
    row, column = (latitude - _SOUTH) / _STEP, (longitude - _WEST) / _STEP
    south, west = math.floor(row), math.floor(column)
    for up, weight_up in ((0, 1 - (row - south)), (1, row - south)):
        for right, weight_right in ((0, 1 - (column - west)), (1, column - west)):
            yield (south + up, (west + right) % _COLUMNS), weight_up * weight_right


def _degrees_to(cell: tuple[int, int], latitude: float, longitude: float) -> float:
    north = _SOUTH + cell[0] * _STEP - latitude
    east = (_WEST + cell[1] * _STEP - longitude + 180) % 360 - 180
    return math.hypot(north, east * math.cos(math.radians(latitude)))


# --- one day on a plane ------------------------------------------------------------------------------------------


def diffuse_share(clear: float, sunset: float) -> float:
    """The share of a day's sun that comes from the whole sky: Erbs, Klein, Duffie 1982, by the day."""
    k = min(max(clear, 0.0), 1.0)
    if sunset < math.radians(81.4):
        return 1 - 0.2727 * k + 2.4495 * k**2 - 11.9514 * k**3 + 9.3879 * k**4 if k < 0.715 else 0.143
    return min(1.0, 1 + 0.2832 * k - 2.5557 * k**2 + 0.8448 * k**3) if k < 0.722 else 0.175


@dataclass(frozen=True, slots=True)
class Plane:
    """How a panel lies: tilt from flat, true heading it faces (180 is south), and what the ground throws back."""

    tilt: float = 0.0
    facing: float = 180.0
    albedo: float = 0.2


def day_on_plane(
    latitude: float, day: int, flat: float, above: float, plane: Plane, steps: int = HALF_HOURS
) -> list[float]:
    """The sun on a plane through a day [kWh/m² in each step, from solar midnight], given the day's sum on flat ground."""
    sunset, hours = sunset_angle(latitude, day), [(step + 0.5) / steps * 2 * math.pi - math.pi for step in range(steps)]
    if flat <= 0 or above <= 0 or sunset <= 0:
        return [0.0] * steps
    diffuse = flat * diffuse_share(flat / above, sunset)
    shape, total_shape = _shapes(sunset, hours)
    whole, whole_total = sum(shape) or 1.0, sum(total_shape) or 1.0
    beam_outside = SOLAR_CONSTANT * distance_factor(day) * 24 / steps
    sun = _sun_over(latitude, day, plane)
    return [
        _on_plane(flat * total_part / whole_total, diffuse * part / whole, beam_outside, sun(hour), plane)
        if part
        else 0.0
        for hour, part, total_part in zip(hours, shape, total_shape, strict=True)
    ]


def _shapes(sunset: float, hours: list[float]) -> tuple[list[float], list[float]]:
    """How a day's diffuse sun and all of it are spread over its steps, each to be brought to the day's sum."""
    a = 0.409 + 0.5016 * math.sin(sunset - math.pi / 3)
    b = 0.6609 - 0.4767 * math.sin(sunset - math.pi / 3)
    shape = [max(0.0, math.cos(hour) - math.cos(sunset)) if abs(hour) < sunset else 0.0 for hour in hours]
    return shape, [(a + b * math.cos(hour)) * part for hour, part in zip(hours, shape, strict=True)]


def sums_of_shapes(latitude: float, day: int) -> tuple[float, float]:
    """The sums of those shapes over the half hours of a day: of the diffuse sun, and of all of it."""
    hours = [(step + 0.5) / HALF_HOURS * 2 * math.pi - math.pi for step in range(HALF_HOURS)]
    shape, total_shape = _shapes(sunset_angle(latitude, day), hours)
    return sum(shape), sum(total_shape)


def _sun_over(latitude: float, day: int, plane: Plane) -> Callable[[float], tuple[float, float]]:
    """By hour angle: the sun's height over flat ground and over the plane, as cosines of the angle to their normals."""
    phi, delta, beta, azimuth = (
        math.radians(latitude),
        declination(day),
        math.radians(plane.tilt),
        math.radians(plane.facing),
    )
    east, north, up = math.sin(beta) * math.sin(azimuth), math.sin(beta) * math.cos(azimuth), math.cos(beta)

    def cosines(hour: float) -> tuple[float, float]:
        over_flat = math.sin(delta) * math.sin(phi) + math.cos(delta) * math.cos(phi) * math.cos(hour)
        to_east = -math.cos(delta) * math.sin(hour)
        to_north = math.sin(delta) * math.cos(phi) - math.cos(delta) * math.sin(phi) * math.cos(hour)
        return over_flat, max(0.0, east * to_east + north * to_north + up * over_flat)

    return cosines


def _on_plane(total: float, diffuse: float, outside: float, over: tuple[float, float], plane: Plane) -> float:
    """Hay and Davies 1980: the bright part of the sky stands where the sun does, the rest is even."""
    diffuse, (over_flat, over_plane) = min(diffuse, total), over
    height = max(over_flat, 0.0175)  # a degree: lower down the ratio means nothing
    bright = min(1.0, (total - diffuse) / (outside * height))
    ratio = over_plane / height
    upward = (1 + math.cos(math.radians(plane.tilt))) / 2
    return (
        (total - diffuse + diffuse * bright) * ratio
        + diffuse * (1 - bright) * upward
        + total * plane.albedo * (1 - upward)
    )


# --- a panel in a month ------------------------------------------------------------------------------------------


# The months last worked: the same one is asked for again with every change of the bank that it fills.
_MONTHS_AT_HAND = 16


@dataclass(frozen=True, slots=True)
class Panel:
    """What makes power of it: rated watts, change with temperature [1/K], losses, shade, and how warm it gets."""

    watts: float
    slope: float = -0.0035
    losses: float = 0.14
    unshaded: float = 1.0
    noct: float = 45.0


def power(panel: Panel, sun: float, hours: float, air: float) -> float:
    """kWh from a panel in a stretch of `hours` with this much sun [kWh/m²]; the cell is warmer than the air."""
    cell = air + (panel.noct - 20) / 0.8 * sun / hours
    return panel.watts / 1000 * sun * max(0.0, 1 + panel.slope * (cell - 25)) * (1 - panel.losses) * panel.unshaded


@dataclass(frozen=True, slots=True)
class Month:
    """A month at a place on a panel: for five kinds of day and the mean, sun on flat ground and plane, and energy."""

    mark: str
    above: float
    clear: tuple[float, ...]
    flat: tuple[float, ...]
    plane: tuple[float, ...]
    energy: tuple[float, ...]
    mean_flat: float
    mean_energy: float


@lru_cache(maxsize=_MONTHS_AT_HAND)
def month_on_panel(
    latitude: float, longitude: float, month: int, panel: Panel, plane: Plane, air: float
) -> Month | None:
    """What a panel gives on a poor, typical and good day of a month [kWh]; None where the grid has no data."""
    grid = clearness(latitude, longitude, month)
    if grid is None:
        return None
    above = extraterrestrial(latitude, month)
    flat = tuple(TOO_BRIGHT * share * above for share in grid.days)
    return _of_days(grid.mark, latitude, month, flat, TOO_BRIGHT * grid.mean * above, (panel, plane, air), grid.days)


@lru_cache(maxsize=_MONTHS_AT_HAND)
def month_of_hours(
    latitude: float, month: int, poor: float, typical: float, panel: Panel, plane: Plane, air: float
) -> Month:
    """The same of typed sun hours [kWh/m² a day on flat ground]. Days better than a typical one count as typical."""
    flat = (poor, (poor + typical) / 2, typical, typical, typical)
    mean = sum(weight * sun for weight, sun in zip(WEIGHTS, flat, strict=True))
    return _of_days(TYPED, latitude, month, flat, mean, (panel, plane, air), ())


def _of_days(
    mark: str, latitude: float, month: int, flat: tuple[float, ...], mean_flat: float,
    lies: tuple[Panel, Plane, float], clear: tuple[float, ...],
) -> Month:  # fmt: skip
    day, above, (panel, plane, air) = MONTHS[month], extraterrestrial(latitude, month), lies
    steps = [day_on_plane(latitude, day, sun, above, plane) for sun in flat]
    energy = tuple(sum(power(panel, sun, 24 / HALF_HOURS, air) for sun in through) for through in steps)
    weighed = sum(weight * sun for weight, sun in zip(WEIGHTS, flat, strict=True))
    mean_energy = sum(weight * kwh for weight, kwh in zip(WEIGHTS, energy, strict=True))
    scale = mean_flat / weighed if weighed else 0.0
    return Month(mark, above, clear, flat, tuple(map(sum, steps)), energy, mean_flat, mean_energy * scale)


# --- many days in a row ------------------------------------------------------------------------------------------

ALIKE = 0.3  # how much a day resembles the one before, in normal scores; 0.10 to 0.27 was measured
RUNS, MOST_DAYS = 400, 60


def _chances() -> Iterator[float]:
    """Numbers evenly spread over 0 to 1, the same on every phone: Knuth's MMIX generator, its upper 53 bits."""
    state = 2011_2015
    while True:
        state = (6364136223846793005 * state + 1442695040888963407) & 0xFFFFFFFFFFFFFFFF
        yield ((state >> 11) + 0.5) / 2**53


def _kind_of(share: float) -> tuple[int, float]:
    """Between which two of the five kinds of day one lies that is better than `share` of all days, and how far along."""
    at = min(max(bisect_right(KINDS_OF_DAY, share), 1), len(KINDS_OF_DAY) - 1)
    low, high = KINDS_OF_DAY[at - 1], KINDS_OF_DAY[at]
    return at - 1, (share - low) / (high - low)


def days_to_gather(
    days: tuple[float, ...], wanted: float, used: float, runs: int = RUNS
) -> tuple[int | None, int | None]:
    """Whole days until the sun less what is used makes `wanted` kWh: in half of the runs, and in 9 of 10.

    None where that takes more than MOST_DAYS. Days follow one another with the likeness of weather; the energy of one
    lies on straight lines through the five kinds of day.
    """
    lines = [(low, high - low) for low, high in pairwise(days)]
    lasts = sorted(_days_of(run, lines, wanted, used) for run in _weather(runs))
    half, nine = lasts[math.ceil(0.5 * runs) - 1], lasts[math.ceil(0.9 * runs) - 1]
    return (half if half <= MOST_DAYS else None), (nine if nine <= MOST_DAYS else None)


def _days_of(run: Iterable[tuple[int, float]], lines: list[tuple[float, float]], wanted: float, used: float) -> int:
    """How many days of a run it takes; more than it has where they do not do."""
    gathered, day = 0.0, 0
    for kind, along in run:
        if gathered >= wanted:
            return day
        low, rise = lines[kind]
        gathered += max(0.0, low + along * rise) - used
        day += 1
    return day if gathered >= wanted else MOST_DAYS + 1


@cache
def _weather(runs: int) -> tuple[tuple[tuple[int, float], ...], ...]:
    """Days in a row, run by run: what kind of day each one is. It is the same wherever it falls."""
    chances = _chances()
    return tuple(tuple(map(_kind_of, _days_alike(chances))) for _ in range(runs))


def _days_alike(chances: Iterator[float]) -> Iterator[float]:
    """Of each day in a row, the share of all days that it is better than."""
    score = _normal(chances)
    for _ in range(MOST_DAYS):
        yield 0.5 * (1 + math.erf(score / math.sqrt(2)))
        score = ALIKE * score + math.sqrt(1 - ALIKE**2) * _normal(chances)


def _normal(chances: Iterator[float]) -> float:
    """Box and Muller."""
    return math.sqrt(-2 * math.log(next(chances))) * math.cos(2 * math.pi * next(chances))
