"""Panels: the traps of the trade, and pvlib's single-diode model as the independent oracle."""

from __future__ import annotations

import math

import pvlib
import pytest
from test_published_energy import ask, number, verdict_on

from calc import units as u
from calc.check import GO, NO, TIGHT

A_REF, SHORT = 72 * 0.02569 * 1.05, 10.43  # 72 cells, kT/q at 25 °C, ideality 1.05


def at(cells: float) -> dict[str, float]:
    """A 72-cell crystalline panel at full sun and this temperature of its cells, by De Soto's single diode."""
    saturation = SHORT / math.expm1(49.2 / A_REF)
    of = pvlib.pvsystem.calcparams_desoto(1000, cells, 0.0005 * SHORT, A_REF, SHORT, saturation, 500, 0.25, EgRef=1.121, dEgdT=-0.0002677)  # fmt: skip
    return {name: float(value) for name, value in pvlib.pvsystem.singlediode(*of).items()}


def slope(name: str) -> float:
    """The sheet's coefficient, read off the model at 25 °C [1/K]."""
    return (at(26)[name] - at(24)[name]) / 2 / at(25)[name]


MADE = {
    "open_volts": f"{at(25)['v_oc']:.4f}", "power_volts": f"{at(25)['v_mp']:.4f}",
    "volts_slope": f"{100 * slope('v_oc'):.4f}", "power_slope": f"{100 * slope('p_mp'):.4f}",
}  # fmt: skip
PANEL = {"open_volts": "49.2", "power_volts": "40.2", "volts_slope": "-0.26", "power_slope": "-0.36"}


def cold(panel: dict[str, str], air: str, **typed: str) -> float:
    return number(ask("choose/panel-string", **panel, series="1", count="1", coldest=air, **typed), "cold_volts", u.V)


def test_the_made_panel_is_like_one_that_is_sold() -> None:
    assert at(25)["v_oc"] == pytest.approx(49.2, rel=2e-3) and 39 < at(25)["v_mp"] < 42
    assert -0.0036 < slope("v_oc") < -0.0024 and -0.0045 < slope("p_mp") < -0.0032


def test_trap_25_the_cold_volts_by_a_straight_line_against_the_single_diode() -> None:
    """The 3 % that is kept free for a go covers what the line misses down to −40 °C; the code's table lies above both."""
    # trap 25: the slope of the open volts is not that of the working volts, and the code's table has steps, not lines.
    for air in (0, -20, -40):
        line = cold(MADE, f"{air} °C")
        assert abs(at(air)["v_oc"] / line - 1) < 0.03, air
        assert at(air)["v_oc"] < line / 0.97
        assert cold(MADE, f"{air} °C", cold_by="by the code's table") > at(air)["v_oc"]


def test_trap_25_three_ways_to_the_cold_volts_of_one_sheet() -> None:
    """49.2 V, −0.26 %/K, −20 °C: 54.96 V by 690.7(A)(1), 58.1 V by Table 690.7(A)."""
    assert cold(PANEL, "-20 °C") == pytest.approx(54.96, abs=0.005)
    assert cold(PANEL, "-20 °C", cold_by="by the code's table") == pytest.approx(58.1, abs=0.05)


def test_trap_25_the_codes_table_is_stepped() -> None:
    """NEC 2023, Table 690.7(A): −5 °C is 1.12, −6 °C is 1.14; nothing between. Colder than −40 °C it has no row."""

    def listed(air: str) -> float:
        return cold({"open_volts": "100", "power_volts": "80"}, air, cold_by="by the code's table")

    assert (listed("-5 °C"), listed("-6 °C"), listed("-10 °C"), listed("25 °C")) == pytest.approx((112, 114, 114, 102))
    assert ask("choose/panel-string", cold_by="by the code's table", coldest="-41 °C").verdict == "not known"


def test_trap_25_the_open_volts_slope_is_not_that_of_the_working_volts() -> None:
    """Nine of 40.2 V at 70 °C: 303.2 V by the slope of the power, not the 319 V of the open volts' slope, 5 % high."""
    answer = ask("choose/panel-string", **PANEL, series="9", count="9", hottest="40 °C", rise="30 K", controller_volts="600", controller_start="150")  # fmt: skip
    hot, naive = number(answer, "hot_volts", u.V), 9 * 40.2 * (1 + -0.0026 * 45)
    assert hot == pytest.approx(303.2, abs=0.05)
    assert 1.04 < naive / hot < 1.07
    made = number(
        ask("choose/panel-string", **MADE, series="9", count="9", hottest="40 °C", rise="30 K"), "hot_volts", u.V
    )
    assert made == pytest.approx(9 * at(70)["v_mp"], rel=0.02)  # the 5 % of a go cover it
    assert any("319" in note for note in answer.notes)


def test_a_string_that_fits_by_its_plate_and_not_in_the_cold() -> None:
    """Three of 49.2 V are 147.6 V on the plate, under 150 V; on a cold morning they are 165 V."""
    assert (
        verdict_on(ask("choose/panel-string", **PANEL, series="3", count="3", coldest="-20 °C"), "Coldest morning")
        == NO
    )
    assert (
        verdict_on(ask("choose/panel-string", **PANEL, series="2", count="2", coldest="-20 °C"), "Coldest morning")
        == GO
    )


def test_a_few_too_many_panels_are_no_fault() -> None:
    """1600 W on 30 A at 52 V: 1560 W, 2.5 % clipped."""
    answer = ask(
        "choose/panel-string", **PANEL, series="2", count="4", watts="400", controller_amps="30", bank_volts="52"
    )
    assert number(answer, "clipped", u.percent) == pytest.approx(2.5, abs=0.05)
    assert verdict_on(answer, "Too many panels") == GO
    assert verdict_on(ask("choose/panel-string", **PANEL, series="2", count="8", watts="400", controller_amps="30"), "Too many panels") == NO  # fmt: skip


def test_a_small_margin_in_the_cold_is_tight() -> None:
    volts = number(ask("choose/panel-string", **PANEL, series="2", count="2"), "cold_volts", u.V)
    assert verdict_on(ask("choose/panel-string", **PANEL, series="2", count="2", controller_volts=f"{volts / 0.98:.3f}"), "Coldest morning") == TIGHT  # fmt: skip


STRINGS = {"open_volts": "37.2", "short_amps": "10.43", "fuse_limit": "20", "series": "2", "size": "10 AWG", "ambient": "40 °C"}


def test_fuses_are_needed_from_the_third_string_on() -> None:
    """NEC 2023, 690.9(A): 10.43 A; two strings 13.0 A back, three 26.1 A, over the 20 A on the panel."""
    for count, needed in ((2, "no"), (4, "no"), (6, "yes"), (8, "yes")):
        assert (
            ask("protect/panel-fuses", **STRINGS, count=str(count), fuse="none").results["fuses_needed"].text == needed
        )  # type: ignore[union-attr]


def test_a_fuse_lies_between_the_string_and_the_panels_marking_and_breaks_the_cold_volts() -> None:
    """NEC 2023, 690.9(B): 16.3 A to 20 A; 690.7: two of 37.2 V in the cold are 83 V, which 58 V dc does not break."""
    verdicts = {
        fuse: ask("protect/panel-fuses", **STRINGS, count="6", fuse=fuse).verdict for fuse in ("15 A", "20 A", "25 A")
    }
    assert verdicts == {"15 A": NO, "20 A": GO, "25 A": NO}
    answer = ask("protect/panel-fuses", **STRINGS, count="6", fuse="20 A", fuse_volts="58")
    assert verdict_on(answer, "Fuse breaks") == NO


def test_the_wire_is_judged_at_its_terminals_and_in_the_heat_apart() -> None:
    """NEC 2023, 690.8(B): 16.3 A at the lugs before correction, 13.0 A and the fuse after it: 14 AWG at 80 °C is 10.2 A."""
    hot = ask("protect/panel-fuses", **(STRINGS | {"size": "14 AWG", "ambient": "80 °C"}), count="4", fuse="none")
    assert verdict_on(hot, "Wire at its terminals") == GO and verdict_on(hot, "Wire in the heat") == NO


@pytest.mark.parametrize(("size", "fuse", "verdict"), [("14 AWG", "15 A", "go"), ("14 AWG", "20 A", "no"), ("12 AWG", "20 A", "go")])
def test_a_small_wire_of_a_string_stands_behind_a_small_fuse(size: str, fuse: str, verdict: str) -> None:
    """NEC 2023, 240.4(D): 15 A before 14 AWG copper, 20 A before 12 AWG, whatever the 90 °C column says; 690 makes no exception."""
    three_strings = {"short_amps": "9", "fuse_limit": "20", "count": "6", "series": "2", "open_volts": "45", "coldest": "0 °C"}
    answer = ask("protect/panel-fuses", **three_strings, fuse=fuse, fuse_volts="150", size=size, ambient="30 °C")
    assert answer.verdict == verdict
