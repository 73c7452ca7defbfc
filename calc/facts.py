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
        "Clear gap that its manual asks for", "In its manual, under clearance or ventilation; 0 where it says nothing", 0 * u.mm, 500 * u.mm
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
    "cooled_height": Fact("Height of its warm face", "Of the fins or the passage, bottom to top", 20 * u.mm, 2000 * u.mm),
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
}

_OUTLET = {
    "name": NAME,
    "configuration": Fact(
        "The outlet", "By the pattern of its slots, or the kind of socket", options=table("outlets").rows
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
}

_LOAD = {
    "name": NAME,
    "volts": Fact(
        "Volts on the tool's plate", "115 and 110 count as 120, 230 and 220 as 240", options=("120 V", "240 V")
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
        options=("none", *table("flexible_cord").rows),
    ),
    "cord_length": Fact(
        "Length of the cord, all cords in line",
        "Add the lengths when one is plugged into the next",
        3 * u.ft,
        300 * u.ft,
    ),
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

FACTS: Mapping[str, Mapping[str, Fact]] = {
    "bank": _BANK,
    "inverter": _INVERTER,
    "inlet": _INLET,
    "outlets[]": _OUTLET,
    "cables[]": _CABLE,
    "devices[]": _DEVICE,
    "panels": _PANELS,
    "chassis": _CHASSIS,
    "tow": _TOW,
    "loads[]": _LOAD,
    "cars[]": _CAR,
    "parts[]": _PART,
    "place": _PLACE,
    "now": _NOW,
    "plan": _PLAN,
    "windows[]": _WINDOW,
    "readings[]": READING,
}


@dataclass(frozen=True)
class WorkedOut:
    """A fact that no rig holds, because it follows from others: their product, or the largest of a list's."""

    fact: Fact
    times: tuple[str, ...] = ()
    largest: str = ""

    @property
    def rests_on(self) -> tuple[str, ...]:
        return self.times or (self.largest,)


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
        Fact("Largest breaker on the ac side", "Of the outlets; the number on its handle", 10 * u.A, 300 * u.A),
        largest="outlets.breaker",
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
    "inlet": "Inlet",
    "outlets": "Outlets",
    "cables": "Cables and cords",
    "devices": "Breakers and fuses",
    "panels": "Panels",
    "chassis": "Chassis and wheels",
    "tow": "What tows it",
    "loads": "Tools and other loads",
    "cars": "Cars it charges",
    "parts": "Parts, where they sit",
    "place": "Where and how it is used",
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
