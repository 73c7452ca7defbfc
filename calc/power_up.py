"""The first power-up, gate by gate, and the load test of half an hour: what is done, what must be seen, when to stop.

Data only. Each gate is passed before the next one is begun. `{fact}` stands for the rig's own number.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Gate:
    """One step of the first power-up. check: the page that turns its readings into what they mean."""

    title: str
    steps: tuple[str, ...]
    must_see: str
    otherwise: str
    check: str = ""


@dataclass(frozen=True)
class Moment:
    """A minute of the load test, and what is read then, in the words of the log."""

    minute: int
    does: str
    readings: tuple[str, ...]


STOP = (
    "Smoke, a smell, a sizzle, a glow: everybody back, switch off at the bank's switch",
    "A spot over 75 °C (167 °F), or a plug too hot to hold: switch off",
    "A temperature that rises faster in each interval than in the last: switch off",
    "A leg outside 110 to 127 V (where it should have 230 V: outside 207 to 253 V), or lamps bright on one leg and dim on the other: main switch off at once",
    "The bank at {inverter.cutoff} or less, or cells over 55 °C (131 °F): switch off",
    "A fault light, or a device that opens: leave it open and find out why",
)

GATES = (
    Gate(
        "By eye, everything off",
        (
            "Bank's switch open, all breakers open, no cord in the inlet, nothing in the outlets",
            "Every screw tightened once with a calibrated tool and marked with paint; no strand outside a lug",
            "Each wire behind the fuse or breaker that the one-line diagram shows",
            "Vents free, box dry, fire extinguisher at hand, a second person who knows the main switch: {place.main_switch}",
        ),
        "Nothing is loose, bare or missing",
        "Put it right; do not go on",
        "wire/battery-cable",
    ),
    Gate(
        "No short, sound insulation",
        (
            "Bank's switch open: ohms between plus and minus on the inverter's side; they rise as its capacitors fill",
            "A test of insulation at 500 V is for a qualified person, where the maker permits it, with the electronics disconnected and the bank isolated: 1 MΩ or more",
        ),
        "The ohms rise and do not stay near zero",
        "Find the short, with everything off",
        "protect/short-circuit",
    ),
    Gate(
        "Polarity",
        (
            "By a person who works on batteries: one pole covered, no rings, volts from the bank's plus to its minus",
            "The leads followed by eye and mark from there through fuse and open switch to the inverter's posts",
        ),
        "About {bank.nominal_volts}, plus on the red lead",
        "A swapped pair destroys the inverter in the moment it is closed: stop",
        "choose/bank-from-cells",
    ),
    Gate(
        "Precharge, then the bank's switch",
        (
            "Precharge by its button or resistor, as long as its page says",
            "Read the volts at the inverter: within 2 V of the bank's; then close the switch",
        ),
        "No spark, no hum, no current on the clamp, nothing warm after five minutes",
        "Open the switch and find out what draws",
        "choose/precharge",
    ),
    Gate(
        "Inverter on, no load",
        (
            "Switch it on; breakers still open",
            "Close one breaker after another; plug-in meter or tester at each outlet, covers closed",
        ),
        "{inverter.system}; each leg 114 to 126 V (where it should have 230 V: 207 to 253 V)",
        "Off, and see the page about the legs",
        "prove/leg-volts",
    ),
    Gate(
        "Neutral and ground",
        ("At each outlet: hot to neutral, neutral to ground, hot to ground, with a plug-in tester",),
        "Bonded once: hot to ground like hot to neutral, neutral to ground near nothing. Half and half means floating",
        "Use nothing on it until the three readings are explained",
        "prove/neutral-to-ground",
    ),
    Gate(
        "A lamp of 100 W at each outlet",
        (
            "Lamp on: the volts hardly move, nothing hums",
            "Press the test button of each ground-fault device: the lamp goes out; reset it",
            "Open each breaker by its handle: its lamp goes out, and no other",
        ),
        "Each device opens what it is said to open, and only that",
        "A device that does not open is replaced before anything else is done",
        "protect/ground-fault",
    ),
    Gate(
        "Wall and rig, both ways",
        (
            "Into the wall by the inlet: lamps stay on or come back; the wall's ground-fault device holds",
            "Read neutral and ground again at an outlet",
            "Pull the wall's plug: lamps come back; bare pins of the inlet are dead: a non-contact tester beside its cover stays dark",
        ),
        "One bond in each mode, and no volts at the inlet",
        "Unplug; the bond or the transfer is wrong",
        "protect/inlet-backfeed",
    ),
    Gate(
        "A quarter, a half, then the load test",
        (
            "A quarter of {inverter.continuous} for 15 minutes, then half of it for 15",
            "Each joint's millivolts with leads that were fitted while it was off; hands off while it runs",
        ),
        "No joint over 0.1 mΩ or 2 W, no spot far warmer than its twin",
        "Off; mend it; begin again at a quarter",
        "prove/joint-drop",
    ),
)

LOAD_TEST = (
    Moment(
        0,
        "Heaters to about 80 % of {inverter.continuous}, both legs alike. Meters fitted and covers closed before it is switched on",
        ("millivolts across the joint", "amps through the joint"),
    ),
    Moment(10, "Look, smell, listen; then read", ("temperature, first reading", "volts on leg A", "volts on leg B")),
    Moment(
        20,
        "Look, smell, listen; then read",
        ("temperature, second reading", "watts at the outlets", "inverter volts, running", "inverter amps, running"),
    ),
    Moment(
        30,
        "Read with the load on. Then switch the load off, fans left on, and ten seconds later read the two of the small load: the same charge for both",
        (
            "temperature, third reading",
            "minutes between readings",
            "air in the test",
            "bank volts, large load",
            "bank amps, large load",
            "bank volts, small load",
            "bank amps, small load",
        ),
    ),
)
