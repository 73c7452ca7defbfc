"""How a phone lies, as the pages' script works it out from the three angles that a phone tells.

Held to the definition of the angles in the W3C's DeviceOrientation Event Specification (intrinsic turns about z, x and
y, in that order), with every matrix and vector worked by SciPy's Rotation. The script runs in node.
"""

from __future__ import annotations

import json
import math
import random
import shutil
import subprocess
from pathlib import Path
from typing import Any

import pytest
from scipy.spatial.transform import Rotation

SCRIPT = Path(__file__).resolve().parents[1] / "site" / "scripts" / "attitude.js"
ASK = """
import * as attitude from {script};
const of = (angles) => attitude.rotation(...angles);
const asked = JSON.parse(process.argv[1]);
const acts = {{
  plane: ({{ angles, back }}) => {{
    const turned = of(angles);
    return {{ turned, tilt: attitude.tilt(turned, back), facing: attitude.facing(turned, back), ascent: attitude.ascent(turned, back) }};
  }},
  twice: ({{ first, second }}) => ({{ ...attitude.endForEnd(of(first), of(second)), turn: attitude.turnBetween(of(first), of(second)) }}),
  mean: ({{ many }}) => {{
    const {{ mean, spread, swing }} = attitude.meanOf(many.map(of));
    return {{ tilt: attitude.tilt(mean), facing: attitude.facing(mean), spread, swing }};
  }},
  grade: ({{ slope }}) => attitude.gradeOf(slope),
  alpha: ({{ heading, beta }}) => attitude.alphaOf(heading, beta),
}};
console.log(JSON.stringify(asked.map((one) => acts[one.act](one))));
"""


def asked(questions: list[dict[str, Any]]) -> list[Any]:
    """What the script answers."""
    node = shutil.which("node")
    assert node, "these tests need node, as the build does"
    script = ASK.format(script=json.dumps(SCRIPT.as_uri()))
    ran = subprocess.run([node, "--input-type=module", "-e", script, json.dumps(questions)], capture_output=True, text=True, check=True)
    answers: list[Any] = json.loads(ran.stdout)
    return answers


def as_angles(turned: Rotation) -> list[float]:
    """The angles that a phone tells, for how it lies: alpha, beta, gamma."""
    return [float(angle) for angle in turned.as_euler("ZXY", degrees=True)]


def lying(slope: float, uphill: float, heading: float) -> Rotation:
    """A phone on its back on a plane: how steep, which way is up it, and where its top points along it. Degrees.

    Built without the phone's angles: first turned while it lies flat, then with the whole plane.
    """
    east, north = math.sin(math.radians(uphill)), math.cos(math.radians(uphill))
    # The plane is tipped about the level line across the way up: the right-hand turn that lifts its upper side.
    tipped = Rotation.from_rotvec([slope * north, -slope * east, 0], degrees=True)
    return tipped * Rotation.from_euler("Z", -heading, degrees=True)


def apart(one: float, other: float) -> float:
    return abs((one - other + 180) % 360 - 180)


RANDOM = random.Random(20)
ANY = [[RANDOM.uniform(0, 360), RANDOM.uniform(-180, 180), RANDOM.uniform(-90, 90)] for _ in range(200)]
EDGES: list[list[float]] = [[0, 0, 0], [90, 0, 0], [0, 90, 0], [0, 0, 90], [270, 180, 0], [45, -90, 30], [10, 0, -89.9], [359.9, 179.9, 0.1]]


def test_the_matrix_is_that_of_the_specification_in_every_attitude() -> None:
    answers = asked([{"act": "plane", "angles": angles} for angles in ANY + EDGES])
    for angles, found in zip(ANY + EDGES, answers, strict=True):
        expected = Rotation.from_euler("ZXY", angles, degrees=True).as_matrix()
        assert found["turned"] == [pytest.approx(list(row), abs=1e-12) for row in expected]


def test_tilt_and_facing_are_those_of_the_line_out_of_the_back() -> None:
    answers = asked([{"act": "plane", "angles": angles} for angles in ANY])
    for angles, found in zip(ANY, answers, strict=True):
        east, north, up = Rotation.from_euler("ZXY", angles, degrees=True).apply([0, 0, 1])
        assert found["tilt"] == pytest.approx(math.degrees(math.acos(up)), abs=1e-6)
        assert apart(found["facing"], math.degrees(math.atan2(east, north))) < 1e-6
        assert apart(found["ascent"], found["facing"] + 180) < 1e-9


@pytest.mark.parametrize("slope", [0.01, 4.76, 30.0, 60.0, 89.0])
def test_a_plane_is_found_whichever_way_the_phone_points_on_it(slope: float) -> None:
    """An angle of 4.76° is a ramp of 1:12; 0.01° is less than any phone tells, and is not lost in rounding."""
    ways = [(uphill, heading) for uphill in (0, 77, 180, 300) for heading in range(0, 360, 40)]
    answers = asked([{"act": "plane", "angles": as_angles(lying(slope, uphill, heading))} for uphill, heading in ways])
    for (uphill, _), found in zip(ways, answers, strict=True):
        assert found["tilt"] == pytest.approx(slope, abs=1e-6)
        assert apart(found["ascent"], uphill) < 1e-4


@pytest.mark.parametrize("lean", [(0.0, 0.0), (1.5, 0.0), (-1.1, 0.9), (3.0, -2.0)])
@pytest.mark.parametrize("slope", [0.0, 0.5, 4.76, 20.0])
def test_turned_end_for_end_the_phones_own_lean_falls_out(slope: float, lean: tuple[float, float]) -> None:
    """The sensors sit askew in the phone, by the same in both places: what they tell is the phone's turn, then that."""
    askew = Rotation.from_rotvec([*lean, 0], degrees=True)
    headings = (0, 25, 110)
    questions = [
        {"act": "twice", "first": as_angles(lying(slope, 200, heading) * askew.inv()), "second": as_angles(lying(slope, 200, heading + 180) * askew.inv())}
        for heading in headings
    ]  # fmt: skip
    for found in asked(questions):
        assert found["slope"] == pytest.approx(slope, abs=1e-5)
        assert found["lean"] == pytest.approx(math.hypot(*lean), abs=1e-5)
        assert found["back"] == pytest.approx(list(askew.apply([0, 0, 1])), abs=1e-7)
        assert found["turn"] == pytest.approx(180, abs=1e-4)


def test_with_the_lean_known_one_reading_is_enough() -> None:
    askew = Rotation.from_rotvec([1.2, 0.9, 0], degrees=True)
    told = as_angles(lying(30, 350, 40) * askew.inv())
    (plain, corrected) = asked([{"act": "plane", "angles": told}, {"act": "plane", "angles": told, "back": list(askew.apply([0, 0, 1]))}])
    assert corrected["tilt"] == pytest.approx(30, abs=1e-6)
    assert apart(corrected["facing"], 170) < 1e-5
    assert abs(plain["tilt"] - 30) > 0.3, "without the correction it would have been wrong"


@pytest.mark.parametrize("turn", [0, 40, 150, 180])
def test_a_phone_that_was_not_turned_is_found_out(turn: float) -> None:
    (found,) = asked([{"act": "twice", "first": as_angles(lying(6, 90, 10)), "second": as_angles(lying(6, 90, 10 + turn))}])
    assert found["turn"] == pytest.approx(turn, abs=1e-4)


def test_a_mean_does_not_break_at_north_and_says_how_far_the_readings_were_apart() -> None:
    readings = [as_angles(lying(30, 180 + off, 0)) for off in (-2, 2)]
    (found,) = asked([{"act": "mean", "many": readings}])
    assert apart(found["facing"], 0) < 1e-6
    assert found["swing"] == pytest.approx(2, abs=1e-3)
    # Two lines 30° from the vertical, 4° of heading apart: sin 30° times 2° from their middle.
    assert found["spread"] == pytest.approx(1.0, abs=0.01)
    assert found["tilt"] == pytest.approx(30, abs=0.02)


def test_a_grade_is_rounded_up() -> None:
    """1:12 is 8.33 %, in the accessibility rules for ramps; level is level."""
    slopes = [0.0, math.degrees(math.atan(1 / 12)), math.degrees(math.atan(0.085)), 0.1]
    assert asked([{"act": "grade", "slope": slope} for slope in slopes]) == [0, 8.5, 8.5, 0.5]


def test_a_heading_of_the_top_stands_for_alpha_except_where_the_top_points_at_the_sky() -> None:
    for heading, beta in ((0, 0), (90, 30), (250, -40), (10, 150)):
        (alpha,) = asked([{"act": "alpha", "heading": heading, "beta": beta}])
        east, north, _ = Rotation.from_euler("ZXY", [alpha, beta, 12], degrees=True).apply([0, 1, 0])
        assert apart(math.degrees(math.atan2(east, north)), heading) < 1e-6
    assert asked([{"act": "alpha", "heading": 40, "beta": 85}]) == [None]
