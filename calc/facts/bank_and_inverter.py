"""The bank, the inverter and charger, and what joins them: precharge and contactor."""

from __future__ import annotations

from calc import units as u
from calc.fact import Fact
from calc.facts.words import YES_NO
from calc.laws import mounting
from calc.laws.inverter import SYSTEMS

BANK = {
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

INVERTER = {
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
        "In its manual: watts switched on with no load, not those of a standby or search mode; or measured at the battery",
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

PRECHARGE = {
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
