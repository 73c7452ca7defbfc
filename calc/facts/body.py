"""What holds and moves it: the box, the chassis with its wheels, what tows it, the parts that sit on it."""

from __future__ import annotations

from calc import units as u
from calc.fact import Fact
from calc.facts.cords import UNUSED_HOLES
from calc.facts.mounting import HELD
from calc.facts.words import NAME

BOX = {
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
    "unused_holes": UNUSED_HOLES,
}

CHASSIS = {
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
    "lifted": Fact("Its front end is lifted", "To hitch it, or to push it", options=("by hand", "on a jack wheel")),
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

TOW = {
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

PART = {
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
    **HELD,
}
