"""Where and for what it is used: the place, the work, prices, what stands now, the plan of the day."""

from __future__ import annotations

from calc import units as u
from calc.clock import CLOCK, DATE, MONTHS
from calc.fact import LATITUDE, LONGITUDE, SLOPE, Fact
from calc.facts.words import NAME, YES_NO
from calc.tables import table

SUN_FROM = BY_MAP, TYPED_HOURS = ("the map on board", "sun hours typed in")

PLACE = {
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
    "latitude": Fact(
        "Latitude", "On the phone or a map; north is positive", -90 * u.degree, 90 * u.degree, sensed=LATITUDE
    ),
    "longitude": Fact(
        "Longitude",
        "On the phone or a map; east is positive, the Americas are negative",
        -180 * u.degree,
        180 * u.degree,
        sensed=LONGITUDE,
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
    "slope": Fact("Steepest slope", "Lay the phone on it", 0 * u.percent, 60 * u.percent, sensed=SLOPE),
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
    "main_switch": Fact(
        "Where everything is switched off", "So that a stranger finds it in smoke: the red knob, rear left"
    ),
}

WORK = {
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

PRICES = {
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

NOW = {
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
    "humidity": Fact(
        "Relative humidity of the air",
        "A hygrometer; 90 to 100 % in fog, after rain, and at dawn",
        5 * u.percent,
        100 * u.percent,
    ),
    "cold_surface": Fact(
        "Coldest surface inside the box",
        "A thermometer on bare metal inside; out all night it has the night's temperature, a lid under a clear sky is colder",
        -40 * u.degC,
        60 * u.degC,
    ),
}

PLAN = {
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

WINDOW = {
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
