"""What carries and guards the power: outlets, the wiring behind them, cables, breakers and fuses."""

from __future__ import annotations

from calc import units as u
from calc.fact import Fact
from calc.facts.cords import ENTRY
from calc.facts.words import NAME, YES_NO
from calc.tables import table

MADE_OF = ("copper", "aluminium")
# A single wire that carries faults home breaks where a core in a jacket does not.
GROUND_RUNS = (
    "a core of the same cable",
    "a wire of its own, in pipe or channel",
    "a wire of its own, unguarded",
)
INVERSE_TIME, TIME_DELAY, NO_DELAY, GG_FUSE = (
    "inverse-time breaker",
    "time-delay fuse",
    "non-time-delay fuse",
    "gG fuse",
)
OF_TYPES = ("circuit-breaker, type B", "circuit-breaker, type C", "circuit-breaker, type D")

OUTLET = {
    "name": NAME,
    "configuration": Fact(
        "The outlet", "By the pattern of its slots, or the kind of socket", options=table("outlets").rows
    ),
    "socket": Fact(
        "The socket, where there are 230 V",
        "By its colour; household ones by their country",
        options=table("iec_sockets").rows,
    ),
    "socket_volts": Fact(
        "Volts on the connector's plate",
        "Beside the amps; of a three-phase one between two phases",
        12 * u.V,
        690 * u.V,
    ),
    "breaker": Fact("Breaker of the outlet", "The number on its handle", 10 * u.A, 100 * u.A),
    "leg": Fact("Leg it hangs on", "By the wiring: A, B, or both for 240 V", options=("A", "B", "both")),
    "ground_fault": Fact(
        "Ground-fault protection",
        "A test button on it, or on its breaker; its face says 5 mA or 30 mA",
        options=("none", "Class A, 5 mA", "RCD type A, 30 mA", "RCD type F, 30 mA", "RCD type B, 30 mA"),
    ),
    "cover": Fact(
        "Cover while something is plugged in",
        "Look at it with a plug in",
        options=("none", "flap, closed only when empty", "in-use cover"),
    ),
    "used_volts": Fact(
        "Volts that are wanted of it",
        "On the plate of what is plugged in",
        options=("120 V", "240 V"),
    ),
    "used_amps": Fact(
        "Amps that are wanted of it", "On the plate, or what the charger is set to", 0.1 * u.A, 125 * u.A
    ),
    "lasting": Fact(
        "Is it used for three hours or more at a time?",
        "Chargers, heaters, cars: yes",
        options=YES_NO,
    ),
    "used_for": Fact(
        "What is plugged into it",
        "Chargers and cars leak direct current in a fault",
        options=("tools", "a charger or a rig", "a car"),
    ),
    "leakage": Fact(
        "Leakage of all that is plugged into it",
        "Half a milliamp for a tool with a filter, up to 3.5 for a charger; add them up, or clamp all wires but the ground",
        0 * u.mA,
        60 * u.mA,
    ),
    "dc_detection": Fact(
        "Does the car's cord detect 6 mA of direct current?", "On its plate: RDC-DD, 6 mA dc", options=YES_NO
    ),
}

WIRING = {
    "frame_bonded": Fact(
        "Are all outlet grounds and metal parts bonded to the frame?",
        "A wire or a strap from each to one point of the bare frame",
        options=YES_NO,
    ),
    "bond_wire": Fact(
        "Size of the bond wire",
        "Copper, from the frame's point to the ground bar",
        options=("14 AWG", "12 AWG", "10 AWG", "8 AWG", "6 AWG", "4 AWG", "3 AWG", "2 AWG"),
    ),
    "arrangement": Fact(
        "How the outlets are protected",
        "Two tools at once always need the second",
        options=("one outlet for one tool, separated, no bond", "several outlets, bonded, an RCD for each"),
    ),
    "leg_a": Fact(
        "Amps of the 120 V loads on leg A",
        "All that run at the same time, from their plates; by the wiring, leg A",
        0 * u.A,
        125 * u.A,
    ),
    "leg_b": Fact(
        "Amps of the 120 V loads on leg B",
        "All that run at the same time, from their plates; by the wiring, leg B",
        0 * u.A,
        125 * u.A,
    ),
    "both_legs": Fact(
        "Amps of the 240 V loads", "They load both legs alike and the neutral not at all", 0 * u.A, 125 * u.A
    ),
    "shared_neutral": Fact(
        "Do 120 V circuits share one neutral wire?",
        "Look in the box: one white wire for two hots; a cord of three wires and ground shares it too",
        options=("no, each has its own", "yes, and they hang on opposite legs", "yes, and both hang on one leg"),
    ),
    "outlet_wire": Fact(
        "Size of the wires to the outlets",
        "Printed on the jacket; the neutral as thick as the rest",
        options=(
            "14 AWG",
            "12 AWG",
            "10 AWG",
            "8 AWG",
            "6 AWG",
            "4 AWG",
            "3 AWG",
            "2 AWG",
            "1 AWG",
            "1/0 AWG",
            "2/0 AWG",
            "3/0 AWG",
            "4/0 AWG",
        ),
    ),
}

CABLE = {
    "name": NAME,
    "use": Fact(
        "What it is", "What it does", options=("battery cable", "branch wiring", "panel string", "extension cord")
    ),
    "length": Fact(
        "Length of the run, one way", "One way along the wire; the way back is counted here", 0.5 * u.ft, 1000 * u.ft
    ),
    "size": Fact(
        "Conductor size",
        "Printed on the jacket",
        options=(*table("ampacity_raceway").rows, *table("iec_ampacity").rows),
    ),
    "ground_runs": Fact(
        "How its ground wire runs",
        "In the jacket with the others, or a single green and yellow wire",
        options=GROUND_RUNS,
    ),
    "ground_size": Fact(
        "Ground wire that is there",
        "Printed on the jacket, or on the wire itself: green, green and yellow, or bare",
        options=(*table("conductor_resistance").rows, *table("iec_ampacity").rows),
    ),
    "metal": Fact(
        "Metal", "On the reel or the jacket; copper-clad aluminium is neither and is not worked here", options=MADE_OF
    ),
    "insulation": Fact(
        "Insulation",
        "By the type printed on the jacket; unmarked cord is 60 °C",
        options=("60 °C", "75 °C", "90 °C", "105 °C", "PVC 70 °C", "XLPE 90 °C"),
    ),
    "terminals": Fact(
        "Lugs at both ends",
        "Marked on the lug, fuse holder or breaker; unmarked it is 60 °C (NEC, to 100 A) or 70 °C (IEC)",
        options=("60 °C", "75 °C", "70 °C", "90 °C"),
    ),
    "ambient": Fact(
        "Air around the wire",
        "30 °C in shade, 45 °C in a closed box, 60 °C in a box in the sun",
        -40 * u.degC,
        80 * u.degC,
    ),
    "carrying": Fact(
        "Wires carrying current side by side",
        "Where they are tightest. Ground never counts; a neutral counts unless it carries only the difference of two legs",
        2 * u.wires,
        60 * u.wires,
    ),
    "lay": Fact(
        "How it lies",
        "Single wires with air all round stay cooler; their lugs do not",
        options=("raceway or cable", "single in free air"),
    ),
    "method": Fact(
        "How it is laid, by the IEC method",
        "A1, A2 in conduit in an insulated wall; B1, B2 in conduit or trunking on a wall; C clipped to it; E in free air. 2: one cable of several cores",
        options=("A1", "A2", "B1", "B2", "C", "E"),
    ),
    "loaded": Fact(
        "Loaded conductors",
        "Count the cores that carry current: 2 for dc and one-phase; 3 where a third one does too. Earth never counts",
        options=("2", "3"),
    ),
    "grouped": Fact(
        "Circuits run together",
        "Count those that touch it, or share its conduit, where they are most; count this one too",
        1 * u.wires,
        20 * u.wires,
    ),
    "serves": Fact(
        "What it feeds",
        "For several receptacles the breaker may not exceed the wire",
        options=("one load", "several receptacles"),
    ),
    "device": Fact("Breaker or fuse before it", "Which one feeds it", refers_to="devices"),
    "feeds": Fact("Outlets it feeds", "Which ones hang on it", refers_to="outlets", many=True),
    "current": Fact(
        "Current that runs three hours or more",
        "Chargers, cars, heaters, and the battery side of an inverter",
        0 * u.A,
        600 * u.A,
    ),
    "other_current": Fact(
        "Other current at the same time",
        "Tools that come and go, at their plate amps; a motor with its own circuit has a page of its own",
        0 * u.A,
        600 * u.A,
    ),
    "volts": Fact(
        "Volts at the source",
        "Between the two wires that carry the load; on split-phase, one leg to neutral",
        10 * u.V,
        600 * u.V,
    ),
    "circuit": Fact(
        "Kind of circuit",
        "One-phase: two wires carry it, also a 240 V load. Split-phase: two hots and a shared neutral",
        options=("dc", "one-phase", "split-phase"),
    ),
    **ENTRY,
}

DEVICE = {
    "name": NAME,
    "kind": Fact("Kind of device", "Printed on it", options=("breaker", "fuse")),
    "opens": Fact(
        "Kind of breaker or fuse, by how it opens",
        "The letter before the amps, as in C16, is a breaker's type; an American one has none: inverse-time. On a fuse gG, or the words time delay",
        options=(INVERSE_TIME, TIME_DELAY, NO_DELAY, *OF_TYPES, GG_FUSE),
    ),
    "family": Fact("Family of fuse", "Printed on it", options=table("dc_fuse").rows),
    "rating": Fact("Breaker or fuse before the run", "The number on its handle or body", 1 * u.A, 800 * u.A),
    "dc_volts": Fact(
        "Volts dc it may break", "Printed with dc beside it; 0 where only ac volts are printed", 0 * u.V, 1500 * u.V
    ),
    "interrupting": Fact(
        "Current it can interrupt, dc",
        "Printed on it, or in its sheet, with dc beside it; the large figure is often the one for ac",
        100 * u.A,
        200_000 * u.A,
    ),
    "fed_by": Fact("What feeds it", "The source on its line side", options=("bank", "inverter", "inlet", "panels")),
    "behind": Fact("Device upstream of it", "The next one toward the source", refers_to="devices"),
    "distance": Fact(
        "Length of cable from the source to it", "Along the cable, from the battery's post", 0 * u.inch, 600 * u.inch
    ),
    "clearing_time": Fact(
        "Time until it has opened, in a short of the bank",
        "On its curve, at the bank's short-circuit current; a breaker's trip unit and its arc together",
        0.0001 * u.s,
        5 * u.s,
    ),
    "clearing_heat": Fact(
        "Clearing I²t of the fuse",
        "Total clearing, not melting, at the bank's volts, in the fuse's sheet",
        10 * u.A2s,
        100_000_000 * u.A2s,
    ),
    "where": Fact("Where it sits", "So that a stranger finds it: left in the battery box, behind the red cover"),
}
