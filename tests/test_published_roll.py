"""Published figures and the known traps of moving a rig, each with its source."""

from __future__ import annotations

import math

import pytest
from test_published import ask, number, verdict_on

from calc import units as u
from calc.check import GO, NO, NOT_KNOWN, TIGHT, Answer

G = 9.80665


# --- push --------------------------------------------------------------------------------------------------------------


def push(**typed: str) -> Answer:
    level = {"mass": "100 kg", "grade": "0", "stretch": "15 m", "handle_height": "950 mm"}
    return ask("roll/push", **{**level, **typed})


@pytest.mark.parametrize(
    ("wheel", "diameter", "surface", "flat", "at_one_in_twelve"),
    [
        ("hard rubber", "100 mm", "asphalt", 65, 146),
        ("hard rubber", "153 mm", "smooth concrete", 28, 110),
        ("pneumatic", "330 mm", "smooth concrete", 29, 111),
        ("pneumatic", "330 mm", "grass", 59, 140),
        ("pneumatic", "330 mm", "soft soil", 343, 423),
    ],
)
def test_trap_the_force_per_100_kg(wheel: str, diameter: str, surface: str, flat: int, at_one_in_twelve: int) -> None:
    """Newtons per 100 kg: F = M·g·(sin θ + c·cos θ), by the trigonometric form; c = f/r (Applied Ergonomics 30, 1999,
    abstract: f = 3.3 mm asphalt, 2.2 mm concrete) or by tyre tables (0.03, 0.06, 0.35)."""
    typed = {"wheel_kind": wheel, "wheel_diameter": diameter, "surface": surface}
    assert number(push(**typed), "steady_force", u.N) == pytest.approx(flat, abs=0.51)
    steep = number(push(**typed, grade="8.33333 %"), "steady_force", u.N)
    angle = math.atan(1 / 12)
    share = number(push(**typed), "rolling_share", u.one)
    assert steep == pytest.approx(100 * G * (math.sin(angle) + share * math.cos(angle)), rel=1e-5)
    assert steep == pytest.approx(at_one_in_twelve, abs=1)


def test_trap_a_small_hard_wheel_on_asphalt_is_not_a_small_matter() -> None:
    """Applied Ergonomics 30, 1999, abstract: force is inverse to the diameter, the width is without effect."""
    small, large = (
        number(push(wheel_kind="hard rubber", surface="asphalt", wheel_diameter=d), "steady_force", u.N)
        for d in ("100 mm", "200 mm")
    )
    assert small == pytest.approx(2 * large)


def test_trap_a_grade_equal_to_the_rolling_share_doubles_the_push() -> None:
    """115 kg up 1:12 take what 592 kg take on the flat at c = 0.02 (own derivation): measured force 0.02·M·g."""
    share = 0.02
    up_mass, flat_mass = 115.0, 592.0
    up = push(
        mass=f"{up_mass} kg",
        rolling_known="measured with a scale",
        measured_force=f"{share * up_mass * G:.9g} N",
        grade="8.33333 %",
    )
    flat = push(
        mass=f"{flat_mass} kg", rolling_known="measured with a scale", measured_force=f"{share * flat_mass * G:.9g} N"
    )
    assert number(up, "steady_force", u.N) == pytest.approx(116, abs=0.6)
    assert number(flat, "steady_force", u.N) == pytest.approx(116, abs=0.6)


def test_both_forces_are_held_against_the_filter() -> None:
    """HSE L23: to set moving 15 and 20 kgf; to keep moving 7 and 10 kgf (the latter from memory)."""
    rolled = {"rolling_known": "measured with a scale", "wheel_kind": "hard rubber"}
    assert push(**rolled, measured_force="68 N").verdict == GO
    assert push(**rolled, measured_force="69 N").verdict == TIGHT
    assert push(**rolled, measured_force="98 N").verdict == TIGHT
    assert push(**rolled, measured_force="99 N").verdict == NO
    caster = push(rolling_known="measured with a scale", wheel_kind="swivel caster, hard", measured_force="99 N")
    assert verdict_on(caster, "Setting it moving") == NO


def test_where_the_filter_says_nothing_there_is_no_go() -> None:
    """HSE L23: hands between knuckle and shoulder, about 20 m. Hard wheels were measured on hard floors only."""
    assert push(handle_height="1500 mm").verdict == NOT_KNOWN
    assert verdict_on(push(stretch="25 m"), "Distance") == NO
    assert push(wheel_kind="hard rubber", surface="grass").verdict == NOT_KNOWN
    assert push(wheel_kind="pneumatic", wheel_diameter="250 mm").verdict == NOT_KNOWN
