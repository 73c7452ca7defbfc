"""What can be known about a rig: every fact with its unit, its range and where on the real thing to read it.

Every fact is optional. Groups whose name ends in [] hold a list of things of one kind, each with a name of its own.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from calc import units as u
from calc.clock import CLOCK, DATE, MONTHS
from calc.fact import Fact as Fact
from calc.laws import mounting
from calc.laws.cord import sizes_iec
from calc.laws.inverter import SYSTEMS
from calc.measurable import MEASURABLE, READING, STANDS_FOR
from calc.tables import table

YES_NO = ("no", "yes")
NAME = Fact("What it is called", "Your own word for it")
MADE_OF = ("copper", "aluminium")

_BANK = {
    "chemistry": Fact(
        "Chemistry", "On the battery's plate", options=("LFP", "NMC", "lead-acid (AGM or gel)", "lead-acid (flooded)")
    ),
    "series": Fact(
        "Cells in series",
        "Count them, or read the manual; a 48 V class LFP bank has 15 or 16",
        1 * u.one,
        200 * u.one,
        whole=True,
    ),
    "strings": Fact("Batteries or strings in parallel", "Count them", 1 * u.one, 24 * u.one, whole=True),
    "capacity": Fact("Capacity of one string", "On the cell's or the battery's plate: Ah", 1 * u.Ah, 5000 * u.Ah),
    "energy": Fact(
        "Nameplate energy of the bank",
        "On the battery's plate: Wh, or volts times amp-hours; of several, added up",
        0.2 * u.kWh,
        100 * u.kWh,
    ),
    "nominal_volts": Fact("Nominal volts", "On the battery's plate", 5 * u.V, 800 * u.V),
    "highest_volts": Fact(
        "Highest volts while charging",
        "The absorb or charge voltage in the settings of the charger or controller",
        5 * u.V,
        1000 * u.V,
    ),
    "lowest_volts": Fact("Lowest volts", "Where the battery's protection opens, in its manual", 5 * u.V, 800 * u.V),
    "resting_volts": Fact(
        "Volts at rest, low on charge",
        "Measured after an hour without load, at the least charge you keep",
        5 * u.V,
        800 * u.V,
    ),
    "string_fuses": Fact(
        "A fuse of its own in each string?", "Follow the lead of each battery to the bus bar", options=YES_NO
    ),
    "resistance": Fact(
        "Resistance of the whole bank",
        "With its leads, from two loads: the fall of the volts over the rise of the amps; or in the manual",
        0.1 * u.mohm,
        1000 * u.mohm,
    ),
    "cell_resistance": Fact(
        "Resistance of one cell at 1 kHz",
        "The cell's data sheet, the lowest of its range; cells side by side count as one cell with their resistance shared",
        0.02 * u.mohm,
        50 * u.mohm,
    ),
    "short_circuit": Fact(
        "Short-circuit current of the bank",
        "In the maker's sheet, if it is stated; all strings together",
        50 * u.A,
        100_000 * u.A,
    ),
    "discharge_limit": Fact(
        "Most current out of one string", "Continuous discharge, in the battery's manual", 1 * u.A, 2000 * u.A
    ),
    "charge_limit": Fact("Most current into one string", "Continuous charge, in the manual", 1 * u.A, 2000 * u.A),
    "health": Fact(
        "What is left of the nameplate energy",
        "A measured discharge against the plate; 100 % when new",
        50 * u.percent,
        100 * u.percent,
    ),
    "reserve": Fact(
        "Charge kept back", "Your own rule; never under the maker's least charge", 0 * u.percent, 60 * u.percent
    ),
    "heater": Fact("Heater's power", "On the heater or in the manual; 0 for none", 0 * u.W, 2000 * u.W),
    "heat_loss": Fact(
        "Heat that leaks from the battery box, per degree",
        "Measured, or area times 1.3 for 25 mm of foam, in square metres",
        0.05 * u.W_per_K,
        50 * u.W_per_K,
    ),
    "mass": Fact("Mass of the bank", "On the plates, added up", 1 * u.kg, 2000 * u.kg),
    "frame_bond": Fact(
        "Battery minus bonded to the frame?",
        "Look for a wire from minus to the frame",
        options=("no", "at one point", "at several points"),
    ),
    "takeoff": Fact(
        "Where the two wires leave",
        "Follow plus and minus to the first battery each meets",
        options=("both wires at the same end", "one wire at each end, across", "equal leads to a bus bar"),
    ),
    "string_resistance": Fact(
        "Resistance of one battery or string",
        "Of one, with its own leads: in its sheet, or from two loads",
        0.1 * u.mohm,
        200 * u.mohm,
    ),
    "strongest_resistance": Fact(
        "Resistance of the strongest battery, taken to stand first",
        "The newest or warmest; the same as the others where they are alike",
        0.1 * u.mohm,
        200 * u.mohm,
    ),
    "link_resistance": Fact(
        "Resistance of one link between two",
        "Bar or cable with both its lugs; measured in millivolts over amps, or a quarter of a milliohm",
        0.01 * u.mohm,
        10 * u.mohm,
    ),
    "load_current": Fact(
        "Most current the loads take from the bank",
        "What the inverter takes at its low-voltage cut-off; the page on the current from the bank works it out",
        1 * u.A,
        5000 * u.A,
    ),
    "cycles": Fact("Cycles until the bank is worn", "In its manual, at the depth you use", 100 * u.one, 20_000 * u.one),
}

_INVERTER = {
    "continuous": Fact(
        "Inverter's continuous rating here",
        "On its plate: continuous output, less what heat and altitude take off",
        100 * u.W,
        30_000 * u.W,
    ),
    "surge": Fact("Inverter's surge rating", "In its manual: peak or surge output", 100 * u.W, 90_000 * u.W),
    "surge_time": Fact("How long the surge lasts", "In its manual, beside the surge rating", 0.005 * u.s, 120 * u.s),
    "system": Fact("Inverter's output", "On its plate: output volts", options=tuple(SYSTEMS)),
    "one_leg": Fact("Full power on one leg?", "No unless its manual says so", options=YES_NO),
    "idle": Fact(
        "Inverter's idle draw",
        "In its manual: no-load or standby watts; or measured at the battery",
        0.5 * u.W,
        500 * u.W,
    ),
    "peak_efficiency": Fact("Inverter's best efficiency", "In its manual", 75 * u.percent, 99 * u.percent),
    "cutoff": Fact("Inverter's low-voltage cut-off", "In its settings", 5 * u.V, 800 * u.V),
    "highest_volts": Fact(
        "Highest battery volts it takes", "In the inverter's manual: dc input range", 5 * u.V, 1000 * u.V
    ),
    "capacitance": Fact(
        "Input capacitance", "From the maker, or measured; not printed on most", 0.1 * u.mF, 500 * u.mF
    ),
    "charger_amps": Fact("Most charging current, dc", "In its manual: charger output", 1 * u.A, 600 * u.A),
    "charger_set": Fact(
        "Charging current it is set to, dc",
        "In the charger's settings; all chargers at work added up",
        1 * u.A,
        600 * u.A,
    ),
    "charger_efficiency": Fact("Charger's efficiency", "In its manual, or measured", 70 * u.percent, 98 * u.percent),
    "pass_through": Fact(
        "Most current it passes from inlet to outlets", "In the inverter's manual: transfer relay", 5 * u.A, 200 * u.A
    ),
    "input_limit": Fact(
        "Input current it is set to draw",
        "In its settings: input or shore current limit; tools and charger together",
        1 * u.A,
        125 * u.A,
    ),
    "bond": Fact(
        "Neutral bonded to ground inside",
        "In the manual: neutral-ground bond; count a wire or screw in the outlet box as well",
        options=("none", "fixed", "relay, closed while inverting"),
    ),
    "switches_neutral": Fact(
        "Does its transfer switch the neutral?",
        "In the manual: two poles opened, or the neutral passed straight through",
        options=YES_NO,
    ),
    "fault_times": Fact(
        "Times its rating that it gives into a short",
        "In the manual; 1 where it says nothing",
        1 * u.one,
        10 * u.one,
    ),
    "fault_time": Fact("How long it feeds a short", "In the manual", 0.001 * u.s, 10 * u.s),
    "air_flow": Fact(
        "Air its fans move",
        "In the manual, or the fan's plate: of all fans in the same stream, in free air",
        1 * u.m3_per_h,
        2000 * u.m3_per_h,
    ),
    "air_gap": Fact("Clear gap at its grilles", "Measure the narrowest", 0 * u.mm, 500 * u.mm),
    "stated_gap": Fact(
        "Clear gap that its manual asks for",
        "In its manual, under clearance or ventilation; 0 where it says nothing",
        0 * u.mm,
        500 * u.mm,
    ),
    "grille_edge": Fact(
        "Open edge along which air comes to its grille",
        "Round the grille's face, the sides that nothing closes",
        20 * u.mm,
        4000 * u.mm,
    ),
    "inlet_area": Fact(
        "Free area of its air inlet", "Its slots added up; a mesh leaves about half", 2 * u.cm2, 5000 * u.cm2
    ),
    "cooled_height": Fact(
        "Height of its warm face", "Of the fins or the passage, bottom to top", 20 * u.mm, 2000 * u.mm
    ),
    "cooling": Fact("How it is cooled", "Listen at light load and at full load", options=mounting.COOLING),
    "mounted": Fact("Which way up it is mounted", "Beside the picture in its manual", options=mounting.POSITIONS),
    "position_rule": Fact("What its manual says of the position", "In its manual: mounting", options=mounting.MANUAL),
    "exhaust": Fact("Where its warm air goes", "A strip of paper shows it", options=mounting.EXHAUSTS),
    "derating_from": Fact(
        "Air temperature above which it gives less",
        "In the manual; 25 °C where it names no other",
        20 * u.degC,
        60 * u.degC,
    ),
    "derating_slope": Fact(
        "Rating lost per degree above that", "In the manual, per kelvin", 0 * u.percent_per_K, 10 * u.percent_per_K
    ),
    "mass": Fact("Mass of the inverter", "In the manual", 0.5 * u.kg, 200 * u.kg),
    "export": Fact(
        "Does the inverter feed the line it hangs on?",
        "In its settings: grid feed or export; certified means that its plate names the standard",
        options=("it never feeds the line", "it feeds the line, certified", "it feeds the line, or is not known"),
    ),
    "stops_within": Fact(
        "Time within which it stops when the line is gone",
        "In its certificate: anti-islanding or clearing time",
        0.01 * u.s,
        60 * u.s,
    ),
    "plate_rating": Fact(
        "Continuous rating on the plate",
        "Continuous, at 25 or 40 °C, not the surge; before anything is taken off",
        100 * u.W,
        30_000 * u.W,
    ),
    "isolated": Fact(
        "Is the inverter isolated between battery and ac?",
        "In its manual; one without a transformer often is not",
        options=YES_NO,
    ),
    "hours_on": Fact(
        "Hours a day the inverter is switched on",
        "24 unless somebody switches it off, or its sleep mode finds nothing to do",
        0.5 * u.h,
        24 * u.h,
    ),
    "between": Fact(
        "Inverter between loads",
        "Whether somebody switches it off; a sleep mode counts if it finds your loads",
        options=("stays on", "switched off when nothing runs"),
    ),
}

_INLET = {
    "configuration": Fact("Pattern of the inlet", "By its blades", options=table("outlets").rows),
    "rating": Fact("Rating of the inlet", "On its face", 10 * u.A, 125 * u.A),
    "breaker": Fact(
        "Breaker of the outlet that feeds the inlet",
        "The number on its handle, a part of the building; 15 A where you cannot see it",
        5 * u.A,
        125 * u.A,
    ),
    "cord_length": Fact("Length of the cord to the inlet", "All cords in line", 1 * u.ft, 300 * u.ft),
    "cord_size": Fact("Size of the cord to the inlet", "Printed on its jacket", options=table("flexible_cord").rows),
    "shows_live_pins": Fact(
        "Are the pins live when it is unplugged?",
        "By the wiring, and with a non-contact tester held near the covered inlet while the rig inverts; never by touch",
        options=YES_NO,
    ),
    "entry": Fact(
        "How power gets in",
        "Look at it with everything off",
        options=("an inlet with pins, shrouded", "a cord with a plug at both ends, or an outlet used as inlet"),
    ),
    "transfer": Fact(
        "What keeps inlet and inverter apart",
        "In the inverter's manual under transfer, or the label of the switch",
        options=("a relay in the inverter, both poles", "a changeover switch, both poles", "one pole only, or nothing"),
    ),
    "volts": Fact("Volts at the inlet", "On the plate of the inlet", 100 * u.V, 277 * u.V),
    "filter": Fact(
        "Capacitance between the inlet's pins",
        "In the inverter's or charger's manual: input filter; 0 where a relay parts it from the pins",
        0 * u.uF,
        100 * u.uF,
    ),
    "bleeder": Fact(
        "Resistance that discharges the inlet's pins",
        "In the inverter's or charger's manual: bleeder or discharge resistor",
        1 * u.kohm,
        10_000 * u.kohm,
    ),
    "outlet": Fact(
        "Outlet on the wall that it refills from", "By the pattern of its slots", options=table("outlets").rows
    ),
}

_OUTLET = {
    "name": NAME,
    "configuration": Fact(
        "The outlet", "By the pattern of its slots, or the kind of socket", options=table("outlets").rows
    ),
    "socket": Fact(
        "The socket, where there are 230 V",
        "By its colour; household ones by their country",
        options=table("iec_sockets").rows,
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

_CABLE = {
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
}

_DEVICE = {
    "name": NAME,
    "kind": Fact("Kind of device", "Printed on it", options=("breaker", "fuse")),
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
}

HEADING_BY = TRUE_NORTH, COMPASS = ("a map: true north", "a compass: magnetic north")

_PANELS = {
    "count": Fact("Panels", "Count them", 1 * u.one, 60 * u.one, whole=True),
    "series": Fact("Panels in series", "In each string", 1 * u.one, 30 * u.one, whole=True),
    "watts": Fact("Watts of one panel", "On its back", 5 * u.W, 800 * u.W),
    "open_volts": Fact("Open-circuit volts of one panel", "On its back: Voc", 5 * u.V, 120 * u.V),
    "power_volts": Fact("Volts at full power of one panel", "On its back: Vmp", 4 * u.V, 110 * u.V),
    "short_amps": Fact("Short-circuit current of one panel", "On its back: Isc", 0.2 * u.A, 25 * u.A),
    "volts_slope": Fact(
        "Change of its open volts with temperature",
        "On its sheet: per kelvin",
        -0.6 * u.percent_per_K,
        -0.1 * u.percent_per_K,
    ),
    "power_slope": Fact(
        "Change of its power with temperature",
        "On its sheet: per kelvin",
        -0.8 * u.percent_per_K,
        -0.1 * u.percent_per_K,
    ),
    "fuse_limit": Fact("Largest series fuse", "On its back", 5 * u.A, 60 * u.A),
    "tilt": Fact("Tilt from flat", "Lay the phone on it", 0 * u.degree, 90 * u.degree),
    "facing": Fact(
        "Heading it faces", "South is 180°; by compass or map, as said beside it", 0 * u.degree, 360 * u.degree
    ),
    "heading_by": Fact("Heading read from", "A compass points off true north", options=HEADING_BY),
    "controller_volts": Fact("Highest panel volts of the controller", "On its plate", 12 * u.V, 1000 * u.V),
    "controller_amps": Fact("Most charging current of the controller", "On its plate", 1 * u.A, 300 * u.A),
    "controller_start": Fact(
        "Least panel volts at which the controller works",
        "In its manual; for many, the battery's volts and 5 V more",
        5 * u.V,
        500 * u.V,
    ),
    "string_fuse": Fact(
        "Fuse in each string of panels",
        "Printed on it",
        options=("none", "10 A", "15 A", "20 A", "25 A", "30 A", "35 A", "40 A"),
    ),
    "fuse_volts": Fact(
        "Volts dc the panels' fuse may break",
        "Printed on it, with dc beside it; ac volts say nothing",
        0 * u.V,
        1500 * u.V,
    ),
    "wire": Fact(
        "Wire of each string of panels",
        "Printed on the jacket; copper",
        options=("14 AWG", "12 AWG", "10 AWG", "8 AWG", "6 AWG", "4 AWG"),
    ),
}

_CHASSIS = {
    "kind": Fact(
        "Kind of chassis",
        "How it stands",
        options=(
            "hand cart, four wheels",
            "hand cart, two wheels",
            "trailer, single axle",
            "wagon, four wheels, steered by the drawbar",
        ),
    ),
    "mass": Fact("Mass without its parts", "Weighed, or the maker's", 2 * u.kg, 2000 * u.kg),
    "bare_ahead": Fact(
        "Bare chassis: its middle ahead of the axle", "Where it balances on a pipe", -3000 * u.mm, 6000 * u.mm
    ),
    "bare_height": Fact("Bare chassis: height of its middle", "About its floor", 50 * u.mm, 1500 * u.mm),
    "loaded_mass": Fact(
        "Mass of the loaded rig", "On a scale, wheel by wheel, or the sum of its parts", 5 * u.kg, 4000 * u.kg
    ),
    "wheel_rating": Fact(
        "Load rating of one wheel", "On the tyre's side, at its stated pressure", 5 * u.kg, 2000 * u.kg
    ),
    "axle_rating": Fact("Load rating of an axle", "On its plate", 10 * u.kg, 4000 * u.kg),
    "tongue_rating": Fact(
        "Most weight on the hitch",
        "On the hitch and in the towing vehicle's manual; the lower of the two",
        1 * u.kg,
        500 * u.kg,
    ),
    "wheel_kind": Fact("Kind of wheel", "Look at it", options=("pneumatic", "hard rubber", "swivel caster, hard")),
    "wheel_diameter": Fact(
        "Wheel diameter", "Floor to top of the tyre; of the smallest wheel that carries", 50 * u.mm, 1000 * u.mm
    ),
    "track": Fact("Track, wheel to wheel across", "Middle of tyre to middle of tyre", 150 * u.mm, 2500 * u.mm),
    "wheelbase": Fact("Wheelbase", "Front axle to rear axle", 200 * u.mm, 5000 * u.mm),
    "drawbar": Fact(
        "Length from hitch to axle",
        "Hitch ball to the axle; on a wagon to the pivot of its front axle",
        200 * u.mm,
        5000 * u.mm,
    ),
    "hitch_height": Fact("Height of the hitch", "Above the ground, loaded", 50 * u.mm, 1000 * u.mm),
    "cg_ahead": Fact(
        "Centre of gravity ahead of the rear axle",
        "The page on weights works it out; of the rear axle or the only one",
        -500 * u.mm,
        5000 * u.mm,
    ),
    "cg_aside": Fact(
        "Centre of gravity off the middle line",
        "To either side; the page on weights works it out",
        0 * u.mm,
        500 * u.mm,
    ),
    "cg_height": Fact(
        "Height of the centre of gravity",
        "The page on weights works it out; guess high, never low",
        50 * u.mm,
        2500 * u.mm,
    ),
    "prop_ahead": Fact(
        "Front prop or jack wheel ahead of the axle", "Where it touches the ground when parked", 100 * u.mm, 5000 * u.mm
    ),
    "drawbar_swing": Fact(
        "Farthest the drawbar swings to a side",
        "From straight ahead until something touches",
        5 * u.degree,
        90 * u.degree,
    ),
    "handle_height": Fact("Height of the handle", "Above the ground, where the hands are", 400 * u.mm, 1600 * u.mm),
    "brake": Fact(
        "Brake",
        "Look for one; an overrun brake works while towing, and does not hold a parked rig",
        options=("none", "parking brake", "overrun brake"),
    ),
    "brake_force": Fact(
        "Pull that the parking brake holds",
        "Brake on, on the level: pull with a luggage scale until it creeps; kilograms on it times 9.81",
        0 * u.N,
        20_000 * u.N,
    ),
    "chocks": Fact(
        "Chocks",
        "Under the downhill side, pushed tight",
        options=("none", "one wheel", "two wheels"),
    ),
    "chock_height": Fact("Height of the chock", "Where the tyre would roll over it", 10 * u.mm, 400 * u.mm),
    "wheels": Fact(
        "Wheels that carry it",
        "Count them",
        options=("2", "3", "4"),
    ),
    "rolling_force": Fact(
        "Pull that keeps it rolling on the level",
        "Luggage scale at the handle, slow walk, this ground, this load; kilograms on it times 9.81",
        1 * u.N,
        3000 * u.N,
    ),
    "prop_behind": Fact("Rear prop behind the axle", "Where it touches the ground", 50 * u.mm, 3000 * u.mm),
    "tongue_load": Fact(
        "Weight on the hitch", "On a bathroom scale; 0 for a wagon on four wheels", 0 * u.kg, 500 * u.kg
    ),
    "width": Fact("Width of the rig", "At its widest, over tyres and handles", 200 * u.mm, 2600 * u.mm),
    "axle_load": Fact(
        "Load on the heaviest axle",
        "The page on weights works it out; of a single axle, all but the tongue",
        2 * u.kg,
        4000 * u.kg,
    ),
    "stated_pressure": Fact(
        "Pressure that the rating is for", "On the tyre's side, beside the load", 5 * u.psi, 120 * u.psi
    ),
    "rated_speed": Fact(
        "Speed that the wheel is rated for",
        "On the tyre's side or in the wheel's sheet; unmarked cart wheels: a walk, 3 mph",
        1 * u.mph,
        90 * u.mph,
    ),
}

_TOW = {
    "mass": Fact("Mass of the towing vehicle with driver", "Its plate plus the driver", 50 * u.kg, 5000 * u.kg),
    "wheelbase": Fact("Wheelbase of the towing vehicle", "Axle to axle", 500 * u.mm, 5000 * u.mm),
    "overhang": Fact("Hitch behind its rear axle", "Axle to ball", 0 * u.mm, 2000 * u.mm),
    "steer_limit": Fact("Greatest steering angle", "Of the front wheels, hard over", 10 * u.degree, 60 * u.degree),
    "rating": Fact("Most it may pull", "In its manual", 10 * u.kg, 5000 * u.kg),
    "drive_share": Fact(
        "Share of its weight on the driven axle", "Weighed, or about half", 20 * u.percent, 100 * u.percent
    ),
    "power": Fact(
        "Peak power of its motor", "In its manual; for more than a minute, its continuous power", 0.3 * u.kW, 300 * u.kW
    ),
    "energy": Fact(
        "Its own battery's energy", "On its plate; what may be taken out of it, not more", 0.2 * u.kWh, 150 * u.kWh
    ),
    "use": Fact("Energy it uses without the rig", "Its dash over a usual day", 20 * u.Wh_per_mi, 1000 * u.Wh_per_mi),
    "speed": Fact("Speed it tows at", "Your own rule, on the level and uphill; a walk is 3 mph", 1 * u.mph, 70 * u.mph),
    "driven": Fact(
        "Driven wheels",
        "Which wheels the motor turns",
        options=("rear", "front", "all wheels"),
    ),
    "width": Fact("Width of the towing vehicle", "At its widest, mirrors folded", 400 * u.mm, 2600 * u.mm),
}

_LOAD = {
    "name": NAME,
    "volts": Fact(
        "Volts on the tool's plate",
        "In America 115 and 110 count as 120, 230 and 220 as 240; elsewhere 220 and 240 as 230",
        options=("120 V", "240 V", "230 V", "110 V"),
    ),
    "plate": Fact(
        "What its plate says",
        "Amps are best; horsepower is read in the motor table",
        options=("amps", "watts", "horsepower"),
    ),
    "amps": Fact("Amps on the plate", "Beside the volts", 0.1 * u.A, 100 * u.A),
    "watts": Fact("Watts on the plate", "What it takes in, not what it gives", 10 * u.W, 15_000 * u.W),
    "power_factor": Fact(
        "Power factor",
        "1 for a heater; 0.6 to 0.9 for a motor; about 0.65 for a welder without correction",
        0.4 * u.one,
        1 * u.one,
    ),
    "horsepower": Fact(
        "Horsepower on the plate",
        "Not the peak or developed horsepower of an advertisement",
        options=table("motor_current").rows,
    ),
    "start": Fact(
        "How it starts",
        "What kind of load it is; a code letter on the plate says more",
        options=(*table("start_current").rows, "by its code letter", "amps stated or measured"),
    ),
    "code_letter": Fact(
        "Code letter",
        "On the plate, beside CODE or KVA CODE; not the design letter. For V give the start current instead",
        options=table("code_letters").rows,
    ),
    "start_amps": Fact(
        "Start current", "LRA on the plate, or the peak of a clamp meter that holds it", 0.1 * u.A, 600 * u.A
    ),
    "standstill": Fact(
        "Turning force it needs to start, of what it has at full volts",
        "20 % when it turns freely; toward 100 % for a compressor with a full tank",
        5 * u.percent,
        100 * u.percent,
    ),
    "start_power": Fact(
        "Volt-amperes at its start",
        "Running amps times the start's multiple, times volts; the same as running for a heater",
        0 * u.VA,
        60_000 * u.VA,
    ),
    "start_time": Fact("Seconds until it has run up", "By ear, with a watch", 0.01 * u.s, 30 * u.s),
    "running_watts": Fact(
        "Watts it takes while it runs", "Measured, or watts on its plate; 0 for not in use", 0 * u.W, 15_000 * u.W
    ),
    "lasting": Fact("Does it run three hours or more at a time?", "Chargers, heaters, pumps: yes", options=YES_NO),
    "plug": Fact(
        "The tool's plug in this outlet",
        "A 15 A plug does not fit a 30 or 50 A outlet; an adapter makes it fit and protects nothing",
        options=("it fits", "through an adapter with a breaker of its own", "through a plain adapter"),
    ),
    "hours": Fact("Hours it runs in a day", "Your own plan; a fridge runs about 8 of the 24", 0 * u.h, 24 * u.h),
    "outlet": Fact("Outlet it is plugged into", "Which one", refers_to="outlets"),
    "cord_size": Fact(
        "Extension cord",
        "Printed on its jacket; where cords of two sizes are in line, the thinner",
        options=("none", *table("flexible_cord").rows, *sizes_iec()),
    ),
    "cord_length": Fact(
        "Length of the cord, all cords in line",
        "Add the lengths when one is plugged into the next",
        3 * u.ft,
        300 * u.ft,
    ),
    "machine": Fact(
        "Kind of welding machine",
        "Nearly all are of the first kind",
        options=("transformer or inverter machine", "motor-generator machine"),
    ),
    "duty": Fact(
        "Duty at the largest current of a welder",
        "On its plate: X, the minutes in ten that it may weld",
        5 * u.percent,
        100 * u.percent,
    ),
    "idle_amps": Fact("Current of a welder while it is on and does not weld", "On its plate: I0", 0 * u.A, 40 * u.A),
    "effective_amps": Fact("I1eff on a welder's plate", "Beside I1max", 1 * u.A, 120 * u.A),
    "welder": Fact("Is it a welder?", "Arc welders; not a soldering iron", options=YES_NO, unsaid="no"),
}

_CAR = {
    "name": NAME,
    "consumption": Fact(
        "What the car uses",
        "On its dash over the last weeks, or its label; kWh per 100 mi, Wh/km and MPGe are read too",
        0.2 * u.mi_per_kWh,
        40 * u.mi_per_kWh,
    ),
    "consumption_kind": Fact(
        "Where that is measured",
        "The dash counts what leaves the car's battery; the label counts at the wall, charging loss included",
        options=("dash (at the battery)", "label (at the wall)"),
    ),
    "charging_amps": Fact(
        "Amps the car is set to",
        "On the car's charge screen or its charging cord; 6 A is the least a car takes",
        6 * u.A,
        80 * u.A,
    ),
    "charging_volts": Fact(
        "Volts the car charges at", "The outlet it is plugged into", options=("120 V", "240 V", "230 V")
    ),
    "cabin": Fact("Heating or cooling the cabin", "An open vehicle has none: off", options=("off", "on")),
    "battery": Fact("The car's own battery", "In its manual", 1 * u.kWh, 300 * u.kWh),
    "outlet": Fact("Outlet it is plugged into", "Which one", refers_to="outlets"),
    "cord_rating": Fact("Rating of the charging cord", "On the plate of its box: output amps", 6 * u.A, 80 * u.A),
    "socket": Fact(
        "Socket the cord is plugged into",
        "A household socket is not made for hours at its full current",
        options=("household socket", "IEC 60309 connector"),
    ),
    "coding": Fact(
        "Resistor in the cord's plug",
        "It codes the cord's rating: 1500 Ω 13 A, 680 Ω 20 A, 220 Ω 32 A, 100 Ω 63 A",
        options=("1500 Ω", "680 Ω", "220 Ω", "100 Ω"),
    ),
}

_PART = {
    "name": NAME,
    "mass": Fact("Mass", "Weighed, or its plate", 0.05 * u.kg, 1000 * u.kg),
    "ahead": Fact(
        "Its middle ahead of the axle",
        "Ahead of the rear axle or the only one; behind is negative",
        -3000 * u.mm,
        6000 * u.mm,
    ),
    "aside": Fact("Its middle left of the middle line", "Right is negative", -1500 * u.mm, 1500 * u.mm),
    "height": Fact(
        "Height of its middle above the ground", "Half its own height plus what it stands on", 0 * u.mm, 3000 * u.mm
    ),
    "weather": Fact(
        "Weather rating as used",
        "IP marking, with its covers as they are in use",
        options=(
            "IP20",
            "IP21",
            "IP23",
            "IP44",
            "IP54",
            "IP55",
            "IP65",
            "IP66",
            "IP67",
            "NEMA 1",
            "NEMA 3R",
            "NEMA 3S",
            "NEMA 4",
            "NEMA 4X",
        ),
    ),
}

SUN_FROM = BY_MAP, TYPED_HOURS = ("the map on board", "sun hours typed in")

_PLACE = {
    "trip": Fact("The trip that must be possible", "On a map, there and back", 0.1 * u.mi, 500 * u.mi),
    "last_hours": Fact("Time it must last", "Your own plan, from now until it can be refilled", 0.5 * u.h, 720 * u.h),
    "daily_energy": Fact(
        "Energy it uses in a day", "Loads and the inverter's own, at the battery", 0 * u.kWh, 200 * u.kWh
    ),
    "sun_days": Fact("Days there are to refill from sun", "Your own plan", 1 * u.day, 60 * u.day),
    "loads_energy": Fact(
        "Energy the loads take in a day", "At the outlets: watts times hours, added up", 0 * u.kWh, 200 * u.kWh
    ),
    "refill_time": Fact("Time there is to refill", "Your own plan: overnight, or over lunch", 0.2 * u.h, 240 * u.h),
    "coldest": Fact(
        "Coldest air it meets",
        "The mean yearly extreme of the coldest place it travels to, not the record",
        -50 * u.degC,
        30 * u.degC,
    ),
    "hottest": Fact("Hottest air it meets", "In the shade", 0 * u.degC, 60 * u.degC),
    "altitude": Fact("Altitude", "On a map, or the phone", -400 * u.m, 5500 * u.m),
    "latitude": Fact("Latitude", "On the phone or a map; north is positive", -90 * u.degree, 90 * u.degree),
    "longitude": Fact(
        "Longitude",
        "On the phone or a map; east is positive, the Americas are negative",
        -180 * u.degree,
        180 * u.degree,
    ),
    "sun_from": Fact("Sun by", "The map on board knows no small islands", options=SUN_FROM),
    "sun_hours": Fact(
        "Sun hours of a typical day", "On flat ground, in kWh/m² a day, this month", 0 * u.kWh_per_m2, 12 * u.kWh_per_m2
    ),
    "poor_sun_hours": Fact(
        "Sun hours of a poor day", "1 day in 10 is worse; as above", 0 * u.kWh_per_m2, 12 * u.kWh_per_m2
    ),
    "surface": Fact(
        "Ground it rolls on",
        "The worst of it",
        options=("smooth concrete", "asphalt", "packed gravel", "loose gravel", "grass", "soft soil", "loose sand"),
    ),
    "slope": Fact("Steepest slope", "Lay the phone on it", 0 * u.percent, 60 * u.percent),
    "standing": Fact(
        "Where it stands",
        "In its worst hour",
        options=("indoors", "under a roof outdoors", "in the rain", "in road spray", "washed down"),
    ),
    "feeds": Fact(
        "What it feeds",
        "Cord-and-plug tools at its own outlets, or a house's panel",
        options=("its own outlets only", "a building"),
    ),
    "building_switches": Fact(
        "Does the building's transfer switch the neutral?",
        "Most interlocks and manual transfer switches do not; its label says how many poles",
        options=YES_NO,
    ),
    "site": Fact(
        "Where it is used",
        "Employees of anybody make it a job site",
        options=("a job site with employees", "anywhere else"),
    ),
    "permission": Fact(
        "Has the owner of the line agreed to it?",
        "In writing: the utility or the campground",
        options=YES_NO,
    ),
    "into_building": Fact(
        "How it gets into the building",
        "The device that makes it impossible that both are on",
        options=("a listed transfer switch", "a listed interlock on the panel", "a breaker in the panel, or an outlet"),
    ),
    "roll_out": Fact("How far it could roll", "Down to where the slope or something ends", 1 * u.m, 500 * u.m),
    "obstacle": Fact(
        "What is in the way",
        "A cord on the floor is a step",
        options=("a step up", "a gap across"),
    ),
    "step_height": Fact("Height of the step", "Square edge, from the ground", 1 * u.mm, 400 * u.mm),
    "gap_width": Fact("Width of the gap", "In the direction it rolls", 5 * u.mm, 900 * u.mm),
    "lane": Fact(
        "Width of the lane at the corner", "Between the posts, walls or trees, at the narrowest", 0.8 * u.m, 20 * u.m
    ),
    "way": Fact(
        "How it is moved about",
        "The worst of it",
        options=("pushed on a floor", "pushed over rough ground", "towed on a road", "towed off road"),
    ),
}

_NOW = {
    "charge": Fact("Charge left now", "On the battery's monitor", 0 * u.percent, 100 * u.percent),
    "air": Fact("Air temperature", "A thermometer in the shade", -50 * u.degC, 60 * u.degC),
    "cells": Fact(
        "Temperature of the bank's cells",
        "On the battery's monitor; the coldest one, not the air: cells lag it by hours",
        -40 * u.degC,
        65 * u.degC,
    ),
    "beside": Fact(
        "Other loads on the same breaker", "What else is plugged in behind it and running", 0 * u.A, 100 * u.A
    ),
    "shared": Fact(
        "Other loads on the building's circuit", "What else hangs on the breaker that feeds it", 0 * u.A, 100 * u.A
    ),
    "running": Fact("Other loads running on the inverter", "The sum of their watts", 0 * u.W, 20_000 * u.W),
    "plugged_into": Fact(
        "What it is plugged into",
        "The outlet on the wall, by the pattern of its slots",
        options=("nothing", *table("outlets").rows),
    ),
    "month": Fact("Month", "Of the year", options=MONTHS),
    "pressure": Fact("Pressure in the softest tyre", "A gauge, cold; a slow leak shows here", 1 * u.psi, 120 * u.psi),
    "bank_volts": Fact(
        "Volts of the bank at rest", "After an hour without load, at the bank's posts", 8 * u.V, 120 * u.V
    ),
}

_PLAN = {
    "date": Fact("Date of the first day", "Where it matters more than the month", pattern=DATE, example="2027-06-18"),
    "begins": Fact("Time at which the plan begins", "With the charge there is now", pattern=CLOCK, example="06:00"),
    "utc_offset": Fact(
        "Clock ahead of UTC",
        "In the phone's clock settings; west of Greenwich it is negative, summer time counts",
        -12 * u.h,
        14 * u.h,
    ),
    "coldest": Fact("Coldest air of the night", "By the forecast", -50 * u.degC, 40 * u.degC),
    "warmest": Fact("Warmest air of the day", "By the forecast, in the shade", -40 * u.degC, 60 * u.degC),
}

A_LOAD, A_CAR, THE_WALL = "a load runs", "a car charges", "it refills from an outlet"
EVERY_DAY = "every day"
DAYS = ("first day", "second day", "third day")

_WINDOW = {
    "name": NAME,
    "what": Fact("What happens in it", "One thing in each window", options=(A_LOAD, A_CAR, THE_WALL)),
    "load": Fact("Load that runs", "Which one; its watts and hours are the rig's", refers_to="loads"),
    "car": Fact("Car that charges", "Which one; its amps and volts are the rig's", refers_to="cars"),
    "begins": Fact("Begins", "By the clock", pattern=CLOCK, example="07:30"),
    "ends": Fact("Ends", "By the clock; earlier than it begins means after midnight", pattern=CLOCK, example="16:00"),
    "days": Fact("On which days", "Of the three", options=(EVERY_DAY, *DAYS)),
    "hours": Fact("Hours it runs within the window", "Where it comes and goes", 0 * u.h, 24 * u.h),
    "outlet": Fact("Outlet it refills from", "By the pattern of its slots", options=table("outlets").rows),
    "amps": Fact("Input current set for it", "The inverter's input limit, at this outlet", 1 * u.A, 125 * u.A),
    "watts": Fact("Most it may draw there", "Of an outlet or generator that is none of those", 50 * u.W, 30_000 * u.W),
}

_PRECHARGE = {
    "resistor": Fact(
        "Precharge resistor", "Printed or ringed on it; its pulse rating is in its sheet", 0.5 * u.ohm, 1000 * u.ohm
    ),
    "standby": Fact(
        "What takes current during precharge",
        "Inverter switched off at its own switch: nothing, on most",
        options=("nothing", "a resistance: lamp, bleeder, heater", "electronics that wake up"),
    ),
    "standby_power": Fact(
        "Power that is taken during precharge",
        "Standby watts in its manual, at the highest volts",
        0.1 * u.W,
        500 * u.W,
    ),
    "wakes_at": Fact(
        "Volts at which it wakes during precharge",
        "In its manual: start-up voltage; well below the low-voltage cut-off",
        3 * u.V,
        900 * u.V,
    ),
    "time": Fact(
        "Time the precharge may take", "What the timer or your hand on the button gives it", 0.1 * u.s, 60 * u.s
    ),
    "residual": Fact(
        "Volts that may still be missing after precharge",
        "When the contactor closes; the controller's setting, or 2 V",
        0.1 * u.V,
        50 * u.V,
    ),
    "pulse": Fact(
        "Energy that the resistor stands in one pulse",
        "In its sheet: pulse or short-time overload, joules; watts say nothing of it",
        1 * u.J,
        20_000 * u.J,
    ),
    "make": Fact(
        "Current on which the contactor may close",
        "In its sheet: make current, not carry current",
        10 * u.A,
        10_000 * u.A,
    ),
}

_PRICES = {
    "bank": Fact("Price of the bank", "All of it, with its cables and bus bars", 10 * u.dollars, 1_000_000 * u.dollars),
    "rig": Fact(
        "Price of the whole rig",
        "Bank, inverter, cables, cart, and your hours if you count them",
        50 * u.dollars,
        1_000_000 * u.dollars,
    ),
    "uses": Fact("Full cycles in a year", "Half a cycle twice counts as one", 1 * u.one, 1000 * u.one),
    "filling": Fact(
        "Price of the energy that fills it",
        "On the bill; 0 for sun that is there anyway; a generator's page says its own",
        0 * u.dollars_per_kWh,
        10 * u.dollars_per_kWh,
    ),
    "instead": Fact(
        "Price of a kWh without the rig",
        "A generator's fuel and wear, or what a hired one costs",
        0.01 * u.dollars_per_kWh,
        50 * u.dollars_per_kWh,
    ),
}

_WIRING = {
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

_GENERATOR = {
    "watts": Fact(
        "Running watts the generator gives here",
        "Its running watts, not its peak; about 3.5 % less for every 1000 ft above the sea",
        300 * u.W,
        50_000 * u.W,
    ),
    "fuel_full": Fact(
        "Fuel per hour at those running watts",
        "In its manual, or the tank over its stated hours",
        0.02 * u.gal_per_h,
        10 * u.gal_per_h,
    ),
    "fuel_idle": Fact(
        "Fuel per hour with nothing on the generator",
        "In its manual, or measured; a third to a half of that at full load",
        0 * u.gal_per_h,
        5 * u.gal_per_h,
    ),
    "fuel": Fact("Fuel there is", "Tank and cans", 0.1 * u.gal, 200 * u.gal),
    "fuel_price": Fact("Price of the fuel", "At the pump", 0 * u.dollars_per_gal, 50 * u.dollars_per_gal),
}

_TIE = {
    "coupling": Fact(
        "How this bank and the vehicle's are tied",
        "By the wiring",
        options=("through a dc-dc converter", "directly in parallel"),
    ),
    "converter_power": Fact(
        "Power of the converter between the banks", "On its plate: continuous output", 50 * u.W, 20_000 * u.W
    ),
    "alike": Fact(
        "Are the two banks alike?",
        "On both plates, or their manuals",
        options=("the same chemistry and cell count", "not the same, or not known"),
    ),
    "volts_apart": Fact(
        "Volts between the two banks when they are tied",
        "One meter, both banks, at rest for an hour",
        0 * u.V,
        20 * u.V,
    ),
    "vehicle_resistance": Fact(
        "Resistance of the vehicle's bank", "From two loads, with its leads", 0.1 * u.mohm, 1000 * u.mohm
    ),
    "peak": Fact("Most current the vehicle's motor draws", "In its manual: peak watts over volts", 5 * u.A, 2000 * u.A),
    "braking": Fact("Most current that comes back in braking", "In its manual; 0 if it has none", 0 * u.A, 1000 * u.A),
    "fuses": Fact(
        "Fuses in the cable between the banks",
        "A cable between two banks is fed from both",
        options=("at both ends", "at one end only", "none"),
    ),
    "fuse": Fact("Rating of the fuses in that cable", "On their bodies", 5 * u.A, 800 * u.A),
    "cable": Fact(
        "Cable between the banks, out and back",
        "Length of both wires times ohms per length, and half a milliohm for each connector",
        0.1 * u.mohm,
        500 * u.mohm,
    ),
    "cable_carries": Fact(
        "Current that the cable between the banks carries",
        "From the page of battery cables, with its connectors: the lower of them",
        5 * u.A,
        1000 * u.A,
    ),
    "use": Fact(
        "What runs while the banks are tied",
        "A vehicle that drives on both is a load, and a charger as it brakes",
        options=("nothing: only to level out", "a vehicle or loads, from the first bank's side"),
    ),
}

_SECOND_BANK = {
    "alike": Fact(
        "Chemistry of the banks",
        "On both plates; different ones do not belong together",
        options=("LFP, both", "another, or mixed"),
    ),
    "volts": Fact("Volts at rest", "After an hour without load, with the same meter as the first", 8 * u.V, 120 * u.V),
    "charge": Fact("Charge left", "On its monitor; not from its volts", 0 * u.percent, 100 * u.percent),
    "capacity": Fact("Capacity of all its strings", "On the plates: Ah, all together", 5 * u.Ah, 5000 * u.Ah),
    "resistance": Fact(
        "Resistance of the whole",
        "The ohmic one, of the first second; not that after half a minute",
        0.5 * u.mohm,
        500 * u.mohm,
    ),
    "out": Fact("Most current out", "Its protection's continuous discharge, all strings", 1 * u.A, 5000 * u.A),
    "into": Fact("Most current into it", "Its protection's continuous charge, all strings", 0 * u.A, 5000 * u.A),
}

_WORK = {
    "add_distance": Fact("Distance to add to the car", "What you must drive, with a reserve", 0.5 * u.mi, 500 * u.mi),
    "add_time": Fact("Time there is to charge the car", "Until you must leave", 0.2 * u.h, 100 * u.h),
    "stretch": Fact("Farthest it goes before a rest", "Paces times 0.75 m", 1 * u.m, 200 * u.m),
    "people": Fact(
        "How many push",
        "Of those who can; nobody stands below it on a slope",
        options=("1", "2", "3"),
    ),
    "long_power": Fact(
        "Power it gives for half an hour or more",
        "The sum of what runs together for long; a car, a charger, a heater",
        50 * u.W,
        30_000 * u.W,
    ),
    "cold_energy": Fact(
        "Energy that is wanted before it warms up",
        "At the battery: what runs, divided by about 0.9",
        0.05 * u.kWh,
        100 * u.kWh,
    ),
}

_BOX = {
    "heat": Fact(
        "Heat made inside",
        "What is lost in it, not what it passes; the page on heat and air works it out",
        1 * u.W,
        3000 * u.W,
    ),
    "length": Fact("Length of the box", "Outside", 50 * u.mm, 3000 * u.mm),
    "width": Fact("Width of the box", "Outside", 50 * u.mm, 3000 * u.mm),
    "height": Fact("Height of the box", "Outside", 50 * u.mm, 3000 * u.mm),
    "finish": Fact(
        "Walls of the box",
        "Bright metal holds the heat in, inside and out",
        options=("painted, or plastic", "bare bright metal"),
    ),
    "breathing": Fact(
        "How the box breathes",
        "As it is used; a closed flap is closed",
        options=("closed", "two openings, one low, one high", "a fan"),
    ),
    "vent_area": Fact(
        "Free area of each opening", "Of the smaller one; a mesh leaves about half", 1 * u.cm2, 5000 * u.cm2
    ),
    "vent_height": Fact("Height between the openings", "Middle to middle", 20 * u.mm, 2500 * u.mm),
    "fan_flow": Fact(
        "Air that the fan moves through it",
        "Half of the figure on the fan, unless it was measured",
        0.5 * u.m3_per_h,
        2000 * u.m3_per_h,
    ),
    "colour": Fact(
        "Colour of the lid",
        "As it is after a year's dust",
        options=("white", "grey or red", "dark"),
    ),
    "stands": Fact(
        "Most that what is inside stands",
        "The lowest limit of all that is in it, in their manuals; a battery often 45 °C while it is charged",
        30 * u.degC,
        90 * u.degC,
    ),
    "warmer": Fact(
        "Air at the inverter's inlet, warmer than outside by",
        "0 in the open; in a box the page on its heat says it; another unit's exhaust counts too",
        0 * u.K,
        50 * u.K,
    ),
    "openings": Fact(
        "Openings in the box",
        "The worst one; a grille, a fan, a slot",
        options=(
            "none: closed, or a membrane vent",
            "a gap facing down behind a drip edge",
            "a gap in a side",
            "a gap facing up",
        ),
    ),
    "gap": Fact("Widest gap of that opening", "What just does not fall or poke in", 0.5 * u.mm, 100 * u.mm),
}

FACTS: Mapping[str, Mapping[str, Fact]] = {
    "bank": _BANK,
    "inverter": _INVERTER,
    "precharge": _PRECHARGE,
    "inlet": _INLET,
    "outlets[]": _OUTLET,
    "wiring": _WIRING,
    "cables[]": _CABLE,
    "devices[]": _DEVICE,
    "panels": _PANELS,
    "generator": _GENERATOR,
    "box": _BOX,
    "chassis": _CHASSIS,
    "tow": _TOW,
    "tie": _TIE,
    "second_bank": _SECOND_BANK,
    "loads[]": _LOAD,
    "cars[]": _CAR,
    "parts[]": _PART,
    "place": _PLACE,
    "work": _WORK,
    "prices": _PRICES,
    "now": _NOW,
    "plan": _PLAN,
    "windows[]": _WINDOW,
    "readings[]": READING,
}


@dataclass(frozen=True)
class WorkedOut:
    """A fact that no rig holds, because it follows from others: their product, or the largest of what there is."""

    fact: Fact
    times: tuple[str, ...] = ()
    largest: tuple[str, ...] = ()

    @property
    def rests_on(self) -> tuple[str, ...]:
        return self.times or self.largest


WORKED_OUT: Mapping[str, WorkedOut] = {
    "bank.whole_capacity": WorkedOut(
        Fact("Capacity of the whole bank", "On the plates: Ah, of all its strings together", 1 * u.Ah, 20_000 * u.Ah),
        times=("bank.capacity", "bank.strings"),
    ),
    "bank.whole_discharge": WorkedOut(
        Fact("Most current out of the whole bank", "Continuous discharge, all strings together", 1 * u.A, 10_000 * u.A),
        times=("bank.discharge_limit", "bank.strings"),
    ),
    "bank.whole_charge": WorkedOut(
        Fact("Most current into the whole bank", "Continuous charge, all strings together", 1 * u.A, 10_000 * u.A),
        times=("bank.charge_limit", "bank.strings"),
    ),
    "rig.largest_breaker": WorkedOut(
        Fact("Largest breaker on the ac side", "Of the outlets, or of the outlet that feeds it", 10 * u.A, 300 * u.A),
        largest=("outlets.breaker", "inlet.breaker"),
    ),
}


def groups_behind(path: str) -> frozenset[str]:
    """The parts of the rig on which a fact rests."""
    paths = WORKED_OUT[path].rests_on if path in WORKED_OUT else (path,)
    return frozenset(path.split(".")[0] for path in paths)


# What a person calls each part of a rig, and one thing of each list.
TITLES = {
    "bank": "Battery bank",
    "inverter": "Inverter and charger",
    "precharge": "Precharge and contactor",
    "inlet": "Inlet",
    "outlets": "Outlets",
    "wiring": "Wiring behind the outlets",
    "cables": "Cables and cords",
    "devices": "Breakers and fuses",
    "panels": "Panels",
    "generator": "Generator",
    "box": "Box around the inverter",
    "chassis": "Chassis and wheels",
    "tow": "What tows it",
    "tie": "Tie to another bank",
    "second_bank": "The other bank",
    "loads": "Tools and other loads",
    "cars": "Cars it charges",
    "parts": "Parts, where they sit",
    "place": "Where and how it is used",
    "work": "Work it has to do",
    "prices": "Prices",
    "now": "As it stands now",
    "plan": "The day's plan",
    "windows": "Times of the day's plan",
}
ONE_OF = {
    "outlets": "outlet",
    "cables": "cable",
    "devices": "breaker or fuse",
    "loads": "load",
    "cars": "car",
    "parts": "part",
    "windows": "time",
}


def fact_at(path: str) -> Fact:
    """The fact at `bank.energy`, `loads.hours` (of whichever load) or `loads.0.hours` (of the first)."""
    if path in WORKED_OUT:
        return WORKED_OUT[path].fact
    group, *_, name = path.split(".")
    try:
        return (FACTS.get(group) or FACTS[f"{group}[]"])[name]
    except KeyError:
        raise LookupError(f"No rig has a fact called {path}.") from None


def measured(what: str) -> Fact:
    """What a reading of this kind may be: a thing to be measured, or the fact whose place it takes."""
    return MEASURABLE[what] if what in MEASURABLE else fact_at(STANDS_FOR[what])
