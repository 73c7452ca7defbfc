"""Published figures and the known traps of measuring a rig, each with its source."""

from __future__ import annotations

import itertools
import math

import numpy as np
import pytest
from scipy.integrate import solve_ivp
from scipy.optimize import curve_fit
from test_published import ask, number, verdict_on

from calc import units as u
from calc.check import GO, NO, NOT_KNOWN, TIGHT, Answer, Named

# --- bank ----------------------------------------------------------------------------------------------------------------


def two_loads(*readings: float, expected: str = "14 mohm") -> Answer:
    names = ("volts_small", "amps_small", "volts_large", "amps_large")
    return ask("prove/bank-resistance", expected=expected, **{n: str(v) for n, v in zip(names, readings, strict=True)})


@pytest.mark.parametrize(("resistance", "rest"), [(0.010, 53.4), (0.0152, 52.8), (0.031, 26.4)])
def test_two_loads_find_the_resistance_of_a_circuit_that_has_it(resistance: float, rest: float) -> None:
    """IEC 61960-3: R = (V₁ − V₂)/(I₂ − I₁). The volts are those of a source and a resistor, by Ohm."""
    found = two_loads(rest - 5 * resistance, 5, rest - 120 * resistance, 120)
    assert number(found, "resistance", u.ohm) == pytest.approx(resistance, rel=1e-6)
    assert number(found, "volts_at_rest", u.V) == pytest.approx(rest, rel=1e-6)
    assert number(found, "least_short_circuit", u.A) == pytest.approx(rest / resistance, rel=1e-6)


def test_trap_the_meter_s_last_digit_is_not_nothing() -> None:
    """0.01 V on either reading, over ten amps: two milliohms more or less. What it may be is judged, not what it seems."""
    found = two_loads(53.30, 10, 53.10, 20, expected="11 mohm")
    assert number(found, "resistance", u.mohm) == pytest.approx(20)
    assert number(found, "doubt", u.mohm) == pytest.approx(2)
    # 20 of 22 is within twice what was expected; 22 mΩ that it may be is just not under it.
    assert verdict_on(found, "Resistance") == TIGHT
    assert two_loads(53.30, 10, 53.10, 20, expected="10.9 mohm").verdict == NO


@pytest.mark.parametrize(
    "readings", [(51.9, 120, 53.3, 5), (53.3, 5, 53.28, 120), (53.3, 60, 52.5, 100), (53.3, 5, 53.5, 120)]
)
def test_readings_that_were_swapped_or_lie_too_close_are_not_divided(readings: tuple[float, ...]) -> None:
    assert two_loads(*readings).verdict == NOT_KNOWN


@pytest.mark.parametrize(
    ("cells", "excused"),
    # Share at the warmer listed row; from memory, ±0.08: 25 °C 1.00, 10 °C 0.95, 0 °C 0.88, −10 °C 0.77.
    [("25 °C", 1.0), ("11 °C", 1.0), ("10 °C", 0.95), ("1 °C", 0.95), ("0 °C", 0.88), ("-9 °C", 0.88)],
)
def test_trap_the_cold_excuses_no_more_than_it_takes(cells: str, excused: float) -> None:
    """Read from the colder row, a worn bank at 1 °C would pass for a good one."""
    found = ask(
        "prove/capacity", amp_hours="80", capacity="100 Ah", strings="1", cells=cells, chemistry="LFP", health="80"
    )
    assert number(found, "measured_health", u.percent) == pytest.approx(min(100, 80 / excused))


@pytest.mark.parametrize(
    ("amp_hours", "age", "verdict"),
    # IEEE 450 and 1188, as two maintenance manuals quote them: under 90 % test each year, under 80 % replace.
    [
        (95, "in use", GO),
        (89, "in use", TIGHT),
        (79, "in use", NO),
        (98, "new, or the first test", GO),
        (93, "new, or the first test", TIGHT),
        (89, "new, or the first test", NO),
    ],
)
def test_a_bank_is_worn_at_90_and_done_at_80_per_cent(amp_hours: float, age: str, verdict: str) -> None:
    found = ask(
        "prove/capacity", amp_hours=str(amp_hours), capacity="100 Ah", strings="1", cells="25 °C", age=age, health="75"
    )
    assert verdict_on(found, "Capacity") == verdict


# --- joints and cords ----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("millivolts", "amps", "milliohms", "watts"), [(35, 150, 0.2333, 5.25), (12, 120, 0.1, 1.44), (100, 100, 1, 10)]
)
def test_millivolts_over_amps_and_times_amps(millivolts: float, amps: float, milliohms: float, watts: float) -> None:
    """Ohm and Joule."""
    found = ask("prove/joint-drop", millivolts=str(millivolts), amps=str(amps))
    assert number(found, "resistance", u.mohm) == pytest.approx(milliohms, rel=1e-3)
    assert number(found, "heat", u.W) == pytest.approx(watts)


def test_trap_a_joint_measured_at_part_load_is_judged_at_the_full_one() -> None:
    """Heat grows with the square: 10 mV at 50 A is half a watt, and at 200 A it is eight."""
    light = {"millivolts": "10", "amps": "50", "load": "amps known"}
    assert ask("prove/joint-drop", **light, most_amps="50").verdict == TIGHT  # 0.2 mΩ, half a watt
    full = ask("prove/joint-drop", **light, most_amps="200")
    assert full.verdict == NO and number(full, "heat_at_full", u.W) == pytest.approx(8)


@pytest.mark.parametrize(
    ("size", "feet", "hot", "amps", "reads"),
    # NEC 2023, Chapter 9, Table 8, dc at 75 °C in Ω/kft and note 2, R₂ = R₁·(1 + 0.00323·(T₂ − 75)).
    [
        ("2/0 AWG", 6, 25, 150, 0.0967 * 6 * 150 * (1 - 0.00323 * 50)),
        ("4/0 AWG", 4, 75, 200, 0.0608 * 4 * 200),
        ("2 AWG", 3, 20, 100, 0.194 * 3 * 100 * (1 - 0.00323 * 55)),
    ],
)
def test_what_a_length_of_cable_should_read(size: str, feet: float, hot: float, amps: float, reads: float) -> None:
    found = ask(
        "prove/joint-drop",
        across="a cable, from lug to lug",
        millivolts="50",
        amps=str(amps),
        length=f"{feet} ft",
        size=size,
        hot=f"{hot} °C",
    )
    assert number(found, "expected_reading", u.mV) == pytest.approx(reads, rel=1e-4)


def test_trap_the_sag_of_the_source_is_not_the_cord_s() -> None:
    """Both ends are read under load: a wall that sags from 123 to 119 V says nothing about the cord after it."""
    assert (
        ask("prove/cord-drop", begins="119.4", ends="118.3", amps="13", cord="12 AWG", cord_length="25 ft").verdict
        == GO
    )
    assert (
        ask("prove/cord-drop", begins="123", ends="118.3", amps="13", cord="12 AWG", cord_length="25 ft").verdict == NO
    )


def test_a_loss_of_a_few_last_digits_is_not_judged() -> None:
    assert (
        ask("prove/cord-drop", begins="120.0", ends="119.5", amps="5", cord="12 AWG", cord_length="25 ft").verdict
        == NOT_KNOWN
    )


@pytest.mark.parametrize(
    ("against", "difference", "verdict"),
    # ANSI/NETA MTS, Table 100.18 in a public reprint: 1–3, 4–15, over 15 °C between like parts; over the air 1–10, 11–40, over 40.
    [
        ("its twin, under the same load", 2, GO),
        ("its twin, under the same load", 9, TIGHT),
        ("its twin, under the same load", 16, NO),
        ("the air beside it", 9, GO),
        ("the air beside it", 30, TIGHT),
        ("the air beside it", 41, NO),
    ],
)
def test_the_bands_of_the_thermographers_table(against: str, difference: float, verdict: str) -> None:
    found = ask("prove/hot-spot", held_against=against, spot=f"{20 + difference} °C", other="20 °C", share="100")
    assert found.verdict == verdict


def test_trap_a_lukewarm_joint_at_half_load_is_a_hot_one_at_full() -> None:
    """6 K at half the current are 24 K at the whole of it."""
    assert ask("prove/hot-spot", spot="26 °C", other="20 °C", share="50").verdict == NO
    assert ask("prove/hot-spot", spot="26 °C", other="20 °C", share="20").verdict == NOT_KNOWN


# --- inverter --------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("idle", "peak", "watts"), [(55, 0.93, 2400), (25, 0.95, 1500), (90, 0.91, 4000)])
def test_an_inverter_that_is_as_its_plate_says_reads_so(idle: float, peak: float, watts: float) -> None:
    """The three-term loss law, worked here on its own: P₀ + (1 + a)·P + b·P², a = 0.03, b by the best point."""
    b = ((1 / peak - 1.03) / 2) ** 2 / idle
    taken = idle + 1.03 * watts + b * watts**2
    given = {
        "watts_out": f"{watts} W",
        "dc_volts": "51",
        "dc_amps": repr(taken / 51),
        "idle": str(idle),
        "peak_efficiency": str(100 * peak),
        "continuous": "5000",
    }
    found = ask("prove/efficiency", **given)
    assert found.verdict == GO
    assert number(found, "measured_efficiency", u.one) == pytest.approx(number(found, "expected_efficiency", u.one))
    if watts >= 2000:
        assert number(found, "best_efficiency", u.one) == pytest.approx(peak, rel=1e-6)


def test_trap_total_efficiency_already_contains_the_idle_draw() -> None:
    """Idling is neither added to the loss nor taken off the efficiency a second time: the power in is all there is."""
    found = ask("prove/efficiency", watts_out="2400 W", dc_volts="51", dc_amps="51.5")
    assert number(found, "loss", u.W) == pytest.approx(51 * 51.5 - 2400)
    assert any("already contains" in note for note in found.notes)


def test_more_out_than_in_is_a_wrong_meter_and_no_wonder() -> None:
    assert ask("prove/efficiency", watts_out="2700 W", dc_volts="51", dc_amps="51.5").verdict == NOT_KNOWN


def test_trap_a_shunt_counts_nothing_under_its_last_digit() -> None:
    assert ask("prove/idle-draw", taken="volts and amps at one moment", volts="52", amps="0.3").verdict == NOT_KNOWN


def test_the_round_trip_of_the_public_grid_s_batteries_is_go() -> None:
    """Power Plant Operations Report 2019: 82 % month by month."""
    assert ask("prove/round-trip", energy_in="100", energy_out="82", idled="0").verdict == GO


def test_trap_a_night_of_idling_is_not_the_battery_s_loss() -> None:
    """As seen 76.5 %, but 86.2 % once twelve hours of 55 W are put back."""
    seen = {"energy_in": "5.87", "energy_out": "4.49", "idle": "55 W", "power": "1500 W"}
    assert ask("prove/round-trip", **seen, idled="0").verdict in (TIGHT, NO)
    assert ask("prove/round-trip", **seen, idled="12 h").verdict == GO


# --- outlets ---------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("amps_a", "amps_b"), [(12, 5), (20, 1), (3, 18)])
def test_an_open_neutral_is_known_by_a_sum_that_stays(amps_a: float, amps_b: float) -> None:
    """Two loads in series across 240 V, by Kirchhoff: V_A = 240·Z_A/(Z_A + Z_B), Z = 120/I."""
    z_a, z_b = 120 / amps_a, 120 / amps_b
    volts = 240 * z_a / (z_a + z_b)
    found = ask("prove/leg-volts", volts_a=repr(volts), volts_b=repr(240 - volts))
    assert found.verdict == NO and verdict_on(found, "Neutral") == NO
    assert number(found, "sum", u.V) == pytest.approx(240)
    assert "neutral is open" in str(found.results["meaning"])


def test_two_legs_that_sag_together_are_not_the_neutral_s_fault() -> None:
    found = ask("prove/leg-volts", volts_a="106", volts_b="107")
    assert found.verdict == NO and verdict_on(found, "Neutral") == GO


@pytest.mark.parametrize(
    ("hot_neutral", "neutral_ground", "hot_ground", "meaning"),
    [
        (
            118.5,
            1.5,
            120.0,
            "neutral is bonded and its wire is sound",
        ),  # a published case: the first two make the third
        (120, 60, 60, "neutral floats: no bond holds it to ground"),
        (120, 48, 72, "neutral floats: no bond holds it to ground"),
        (120, 119.5, 0.4, "hot and neutral are swapped"),
        (120, 0.5, 4, "the outlet has no ground"),
        (118, 0.03, 118, "there is a second bond near this outlet"),
        (112, 9, 121, "the neutral's way back is bad"),
    ],
)
def test_what_three_readings_at_an_outlet_mean(
    hot_neutral: float, neutral_ground: float, hot_ground: float, meaning: str
) -> None:
    """Two articles of the electrical trade; 75 ft of 12 AWG at 12 A lose 1.5 V in the neutral (Table 8, 30 °C)."""
    readings = {"hot_neutral": str(hot_neutral), "neutral_ground": str(neutral_ground), "hot_ground": str(hot_ground)}
    found = ask("prove/neutral-to-ground", **readings, amps="12", length="75 ft", size="12 AWG")
    told = found.results["meaning"]
    assert isinstance(told, Named) and told.text == meaning
    assert (found.verdict in (GO, TIGHT)) == (meaning == "neutral is bonded and its wire is sound")


def test_no_set_of_readings_without_a_ground_or_a_bond_is_ever_go() -> None:
    """Everything from dead to swapped, in steps of ten volts: a go needs hot well above ground and neutral near it."""
    steps = [str(volts) for volts in range(0, 261, 20)]
    for hot_ground, neutral_ground in itertools.product(steps, steps):
        found = ask(
            "prove/neutral-to-ground",
            hot_neutral="120",
            neutral_ground=neutral_ground,
            hot_ground=hot_ground,
            amps="12",
        )
        if found.verdict in (GO, TIGHT):
            assert float(hot_ground) >= 90 and float(neutral_ground) <= 5


# --- heat --------------------------------------------------------------------------------------------------------------------


def readings_of_a_body(final: float, tau: float, start: float, times: tuple[float, ...]) -> list[float]:
    """A body with one heat capacity that warms toward its final temperature: the solver's readings, in °C."""
    run = solve_ivp(lambda _, y: (final - y) / tau, (0, times[-1]), [start], t_eval=times, rtol=1e-10, atol=1e-12)
    return [float(value) for value in run.y[0]]


@pytest.mark.parametrize(("final", "tau", "start", "interval"), [(62, 20, 20, 10), (48, 45, 15, 30), (85, 12, 30, 8)])
def test_three_readings_find_where_a_body_settles(final: float, tau: float, start: float, interval: float) -> None:
    """Held to a solver of differential equations, to a fit of the exponential law, and to the transformer standard's form."""
    first, second, third = readings_of_a_body(final, tau, start, (interval, 2 * interval, 3 * interval))
    found = ask(
        "prove/temperature-rise",
        first=f"{first!r} °C",
        second=f"{second!r} °C",
        third=f"{third!r} °C",
        interval=f"{interval} min",
        air=f"{start} °C",
        digit="0.05 K",
        share="100",
    )
    assert number(found, "settles_at", u.degC) == pytest.approx(final, abs=1e-4)
    assert number(found, "time_constant", u.minutes) == pytest.approx(tau, rel=1e-4)
    times = np.array([interval, 2 * interval, 3 * interval], float)
    fitted, _ = curve_fit(
        lambda t, end, span, slow: end - span * np.exp(-t / slow),
        times,
        [first, second, third],
        p0=(third + 5, 30, interval),
    )
    assert fitted[0] == pytest.approx(final, abs=1e-3)
    one, two, three = first - start, second - start, third - start
    assert (two**2 - one * three) / (2 * two - one - three) == pytest.approx(final - start, abs=1e-4)


def test_trap_what_still_climbs_as_fast_as_before_is_not_extrapolated() -> None:
    """IEC 60076-2 wants a late third reading; a straight or steepening rise says nothing of its end."""
    for third in ("45 °C", "44 °C", "50 °C"):
        assert ask("prove/temperature-rise", first="25 °C", second="35 °C", third=third).verdict == NOT_KNOWN


def test_a_temperature_that_no_longer_rises_has_settled() -> None:
    found = ask(
        "prove/temperature-rise",
        first="47.8 °C",
        second="48 °C",
        third="48 °C",
        air="20 °C",
        share="100",
        spot="plug or outlet",
    )
    assert number(found, "settles_at", u.degC) == pytest.approx(48)
    assert found.verdict == TIGHT  # 28 of 30 K, by UL 498


# --- wheels ------------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("near", "far", "times"), [("1 ft", "2 ft", 3), ("1 ft", "3 ft", 4), ("0.5 m", "0.5 m", 2)])
def test_a_board_makes_a_bathroom_scale_weigh_more(near: str, far: str, times: float) -> None:
    """Trailer makers' rule: one foot from the block and two from the scale is three times what it shows."""
    found = ask("prove/weighing", front="20 kg", way="by a board, scale at one end", near=near, far=far)
    assert number(found, "on_the_front", u.kg) == pytest.approx(20 * times)


def test_the_middle_of_the_weight_by_two_scales() -> None:
    """Moments about the rear axle, by numbers of our own: 126·1100 = x·253."""
    found = ask("prove/weighing", front="126 kg", rear="127 kg", wheelbase="1100 mm")
    assert number(found, "cg_ahead", u.mm) == pytest.approx(126 * 1100 / 253)


@pytest.mark.parametrize("grade", [0.0, 0.005, 0.01, -0.008])
def test_pulls_there_and_back_tell_rolling_and_slope_apart(grade: float) -> None:
    """A body on a slope: up W·(sin + c·cos), down W·(c·cos − sin)."""
    weight, share, angle = 251 * 9.80665, 0.03, math.atan(grade)
    up, down = (
        weight * (share * math.cos(angle) + math.sin(angle)),
        weight * (share * math.cos(angle) - math.sin(angle)),
    )
    found = ask(
        "prove/push-force", forth=f"{up} N", back=f"{down} N", starting="90 N", mass="251 kg", surface="smooth concrete"
    )
    assert number(found, "rolling_share", u.one) == pytest.approx(share, rel=1e-3)
    assert number(found, "slope_of_the_stretch", u.one) == pytest.approx(abs(grade), abs=1e-5)
    assert found.verdict == GO
