"""What fills the rig and what it is tied to: inlet, panels, generator, another bank."""

from __future__ import annotations

from calc import units as u
from calc.fact import HEADING, TILT, Fact
from calc.facts.words import YES_NO
from calc.tables import table

NONE = "none"
ADAPTER_BREAKERS = (NONE, "15 A", "20 A", "30 A", "50 A")
ADAPTER_CORDS = ("16 AWG", "14 AWG", "12 AWG", "10 AWG", "8 AWG", "6 AWG", "4 AWG")
INLET = {
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
    "needs": Fact("Volts it needs", "On the charger's plate", options=("120 V", "240 V", "120 and 240 V")),
    "adapter_cord": Fact(
        "Size of the adapter's cord",
        "Printed on its jacket; none where the rig's own cord plugs straight in",
        options=(NONE, *ADAPTER_CORDS),
    ),
    "adapter_breaker": Fact(
        "Breaker in the adapter's own box",
        "Most adapters are a plug, a cord and a connector: none",
        options=ADAPTER_BREAKERS,
    ),
}

HEADING_BY = TRUE_NORTH, COMPASS = ("a map: true north", "a compass: magnetic north")

PANELS = {
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
    "tilt": Fact("Tilt from flat", "Lay the phone on it", 0 * u.degree, 90 * u.degree, sensed=TILT),
    "facing": Fact(
        "Heading it faces",
        "South is 180°; by compass or map, as said beside it",
        0 * u.degree,
        360 * u.degree,
        sensed=HEADING,
    ),
    "heading_by": Fact("Heading read from", "A compass points off true north", options=HEADING_BY, sensed=COMPASS),
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

GENERATOR = {
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

TIE = {
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

SECOND_BANK = {
    "alike": Fact(
        "Chemistry of the banks",
        "On both plates; different ones do not belong together",
        options=("LFP, both", "another, or mixed"),
    ),
    "volts": Fact(
        "Other bank's volts at rest", "After an hour without load, with the same meter as the first", 8 * u.V, 120 * u.V
    ),
    "charge": Fact("Other bank's charge", "On its monitor; not from its volts", 0 * u.percent, 100 * u.percent),
    "capacity": Fact("Other bank's capacity, all strings", "On the plates: Ah, all together", 5 * u.Ah, 5000 * u.Ah),
    "resistance": Fact(
        "Other bank's resistance",
        "The ohmic one, of the first second; not that after half a minute",
        0.5 * u.mohm,
        500 * u.mohm,
    ),
    "out": Fact(
        "Most current out of the other bank", "Its protection's continuous discharge, all strings", 1 * u.A, 5000 * u.A
    ),
    "into": Fact(
        "Most current into the other bank", "Its protection's continuous charge, all strings", 0 * u.A, 5000 * u.A
    ),
}
