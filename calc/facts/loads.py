"""What it feeds: tools and other loads, cars."""

from __future__ import annotations

from calc import units as u
from calc.fact import Fact
from calc.facts.words import NAME, YES_NO
from calc.laws.cord import sizes_iec
from calc.tables import table

LOAD = {
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

CAR = {
    "name": NAME,
    "consumption": Fact(
        "What the car uses",
        "On its dash over the last weeks, or its label; kWh per 100 mi, Wh/km and MPGe are read too",
        0.2 * u.mi_per_kWh,
        40 * u.mi_per_kWh,
        either_way=True,
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
