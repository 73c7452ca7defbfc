"""What can be measured on a rig: each with its range and how to take it, in the words under which it is noted.

The readings of one test follow one another within the time that it takes, and belong together. Some stand for a fact of
the rig: a test has worked them out, and the measured value takes the place of the one that was stated or assumed.
"""

from __future__ import annotations

from collections.abc import Mapping

from calc import units as u
from calc.fact import Fact
from calc.quantity import Quantity

_CLAMP = "A dc clamp, set to zero just before, round one cable of plus"


def _taken(what: str, how: str, low: Quantity, high: Quantity) -> tuple[str, Fact]:
    return what, Fact(what[0].upper() + what[1:], how, low, high)


_BANK = (
    _taken(
        "bank volts, small load",
        "At the bank's posts, not at a lug, ten seconds after the load came on",
        1 * u.V,
        1000 * u.V,
    ),
    _taken("bank amps, small load", f"{_CLAMP}; 0 for no load at all", 0 * u.A, 1000 * u.A),
    _taken(
        "bank volts, large load", "At the same two spots, ten seconds after the large load came on", 1 * u.V, 1000 * u.V
    ),
    _taken("bank amps, large load", f"{_CLAMP}; half the inverter's rating or more", 1 * u.A, 1000 * u.A),
    _taken(
        "amp-hours taken out",
        "On the battery's monitor, set to zero when full, at the cut-off",
        0.5 * u.Ah,
        100_000 * u.Ah,
    ),
    _taken(
        "energy taken out",
        "Of the battery's monitor, at the battery, from full to the cut-off",
        0.05 * u.kWh,
        200 * u.kWh,
    ),
    _taken(
        "cell temperature in the test", "On the battery's monitor, in the middle of the test", -40 * u.degC, 65 * u.degC
    ),
)

_JOINTS = (
    _taken(
        "millivolts across the joint",
        "On the millivolt range, leads fitted while it is off: post to cable for a joint, lug to lug for a cable",
        0.01 * u.mV,
        5000 * u.mV,
    ),
    _taken("millivolts across its twin", "The like joint beside it, at the same current", 0.01 * u.mV, 5000 * u.mV),
    _taken("amps through the joint", "A clamp on the same cable, at the same moment", 1 * u.A, 1000 * u.A),
    _taken(
        "temperature of the spot",
        "The hottest reading on dull tape or paint; bare metal reads too cold",
        -20 * u.degC,
        300 * u.degC,
    ),
    _taken(
        "temperature it is held against",
        "Of the like part beside it, or of the air near it",
        -40 * u.degC,
        200 * u.degC,
    ),
    _taken("volts where the cord begins", "A plug-in meter at the outlet, with the load running", 80 * u.V, 280 * u.V),
    _taken(
        "volts where the cord ends", "A plug-in meter between cord and tool, with the load running", 50 * u.V, 280 * u.V
    ),
    _taken("amps in the cord", "The plug-in meter shows it", 0.5 * u.A, 100 * u.A),
)

_INVERTER = (
    _taken("watts at the outlets", "On the inverter's display, or plug-in meters added up", 10 * u.W, 30_000 * u.W),
    _taken(
        "inverter volts, running", "At the inverter's dc terminals, leads fitted while it is off", 5 * u.V, 1000 * u.V
    ),
    _taken("inverter amps, running", f"{_CLAMP}, at the same moment", 0.5 * u.A, 1000 * u.A),
    _taken("inverter volts, idling", "At its dc terminals, switched on, nothing plugged in", 5 * u.V, 1000 * u.V),
    _taken("inverter amps, idling", f"{_CLAMP}; under its last digit it shows nothing of use", 0.02 * u.A, 50 * u.A),
    _taken(
        "amp-hours idled away",
        "On the battery's monitor, over eight hours or more, nothing plugged in",
        0.05 * u.Ah,
        500 * u.Ah,
    ),
    _taken("hours idled", "By the clock, between the two readings of the monitor", 0.5 * u.h, 240 * u.h),
    _taken("energy in at the wall", "A plug-in energy meter, from empty to full", 0.05 * u.kWh, 400 * u.kWh),
    _taken(
        "energy out at the outlets",
        "Plug-in energy meters added up, from full to the same empty",
        0.05 * u.kWh,
        300 * u.kWh,
    ),
    _taken(
        "hours on without load", "Between charge and discharge, with the inverter on; 0 for none", 0 * u.h, 240 * u.h
    ),
)

_OUTLETS = (
    _taken("volts on leg A", "Hot to neutral at a covered outlet, rated leads or a plug-in meter", 0 * u.V, 300 * u.V),
    _taken(
        "volts on leg B",
        "Hot to neutral at an outlet of the other leg, with the same loads running",
        0 * u.V,
        300 * u.V,
    ),
    _taken("volts hot to neutral", "At the outlet, with its load running", 50 * u.V, 280 * u.V),
    _taken("volts neutral to ground", "At the same outlet, the same load running", 0 * u.V, 280 * u.V),
    _taken("volts hot to ground", "At the same outlet, the same load running", 0 * u.V, 280 * u.V),
    _taken("amps on the circuit", "What runs on this outlet while it is read; 0 for nothing", 0 * u.A, 100 * u.A),
)

_WARMTH = (
    _taken("air in the test", "In the shade beside the rig, at the third reading", -40 * u.degC, 60 * u.degC),
    _taken("temperature, first reading", "One spot, one way of reading it", -40 * u.degC, 300 * u.degC),
    _taken("temperature, second reading", "The same spot, one interval later", -40 * u.degC, 300 * u.degC),
    _taken("temperature, third reading", "The same spot, another such interval later", -40 * u.degC, 300 * u.degC),
    _taken(
        "minutes between readings", "Alike between first and second, second and third", 1 * u.minutes, 480 * u.minutes
    ),
)

_WHEELS = (
    _taken("scale under the front", "Level and loaded as it goes: tongue, handle or front axle", 0 * u.kg, 4000 * u.kg),
    _taken(
        "scale under the rear",
        "Each wheel of the rear or only axle on its own, the others blocked up level; added up",
        1 * u.kg,
        4000 * u.kg,
    ),
    _taken(
        "pull forth",
        "Luggage scale at the handle, slow and steady, on the level; kilograms on it times 9.81",
        1 * u.N,
        3000 * u.N,
    ),
    _taken("pull back", "The same stretch the other way, so that its slope drops out", 1 * u.N, 3000 * u.N),
    _taken("pull to start", "The most that the scale shows as it starts", 1 * u.N, 5000 * u.N),
)

MEASURABLE: Mapping[str, Fact] = dict((*_BANK, *_JOINTS, *_INVERTER, *_OUTLETS, *_WARMTH, *_WHEELS))

# Of what list of the rig a thing is that is read: its name stands with the reading. All else is read of the rig as a whole.
TAKEN_OF: Mapping[str, str] = {
    "millivolts across the joint": "cables",
    "millivolts across its twin": "cables",
    "amps through the joint": "cables",
    "volts hot to neutral": "cables",
    "volts neutral to ground": "cables",
    "volts hot to ground": "cables",
    "amps on the circuit": "cables",
    "volts where the cord begins": "loads",
    "volts where the cord ends": "loads",
    "amps in the cord": "loads",
}

# How many minutes a test may take from its first reading to its last: what is read later belongs to another one.
USUAL_MINUTES = 60
TEST_MINUTES: Mapping[str, int] = dict.fromkeys((what for what, _ in _WARMTH), 16 * USUAL_MINUTES)

# What a test works out, and the fact whose place it takes.
STANDS_FOR: Mapping[str, str] = {
    "bank resistance, measured": "bank.resistance",
    "health of the bank, measured": "bank.health",
    "idle draw, measured": "inverter.idle",
    "best efficiency, measured": "inverter.peak_efficiency",
    "mass on the scale": "chassis.loaded_mass",
    "centre of gravity by the scale": "chassis.cg_ahead",
}

# A day, and the time of day if there is one, as ISO 8601 writes them.
_TIME = r"\d{4}-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])(T([01]\d|2[0-3]):[0-5]\d(:[0-5]\d(\.\d+)?)?(Z|[+-]\d{2}:\d{2})?)?"

# One reading in a rig's log. What its number may be hangs on what was read.
READING: Mapping[str, Fact] = {
    "what": Fact("What was read", "As its page calls it", options=(*MEASURABLE, *STANDS_FOR)),
    "of": Fact("Of which thing", "Its name, where the rig has several: a cable, an outlet"),
    "value": Fact("Value", "With its unit, as the meter shows it"),
    "when": Fact("When it was read", "The day, and the time if it is known, like 2025-05-17T10:20", pattern=_TIME, example="2025-05-17T10:20"),
    "note": Fact("Note", "What another person must know to read it again alike"),
}
NEEDED = ("what", "value", "when")
MOST_READINGS = 1000
