"""The seven plates of the short start: what each line may say, and where on the real thing it stands."""

from __future__ import annotations

from calc.plate import ALL, ONE, Piece, Plate

BANK = Plate(
    key="bank",
    label="The battery, as its plate says",
    where="Chemistry; cells in series, strings in parallel; Ah; the most amps out and in; mass; new, or its health. Of several alike, say each or in all.",
    example="LFP, 16s2p, 100 Ah each, 100 A out each, 50 A in each, 46 kg each, new",
    pieces=(
        Piece("bank.chemistry"),
        Piece("bank.series", "{} cells", ("cells in series",), marked=True),
        Piece("bank.strings", "{} in parallel", ("strings", "batteries", "parallel"), marked=True),
        Piece("bank.capacity", of=ONE),
        Piece("bank.energy", of=ALL),
        Piece("bank.nominal_volts"),
        Piece("bank.discharge_limit", "{} out", ("discharge", "discharging"), of=ONE),
        Piece("bank.charge_limit", "{} in", ("charge", "charging"), of=ONE),
        Piece("bank.mass", of=ALL),
        Piece("bank.resistance", "whole bank {}", marked=True),
        Piece("bank.health", "health {}", ("of its plate left",), marked=True),
    ),
    phrases={
        "lifepo4": {"bank.chemistry": "LFP"},
        "lithium iron phosphate": {"bank.chemistry": "LFP"},
        "agm": {"bank.chemistry": "lead-acid (AGM or gel)"},
        "gel": {"bank.chemistry": "lead-acid (AGM or gel)"},
        "flooded": {"bank.chemistry": "lead-acid (flooded)"},
        "new": {"bank.health": "100 %"},
    },
    spellings=((r"\b(\d+)\s*s\s*(\d+)\s*p\b", r", \1 cells, \2 in parallel, "), (r"\b(\d+)\s*s\b", r"\1 cells"), (r"\b(\d+)\s*p\b", r"\1 in parallel")),
    unclear={"in series": "of cells or of batteries? Write the cells, as in “16s” or “16 cells”. A 12 V battery is 4 cells of LFP, or 6 of lead."},
    count="bank.strings",
)

INVERTER = Plate(
    key="inverter",
    label="The inverter, as its plate and manual say",
    where="Watts and volts out; half or full power on one leg; idle watts; best efficiency; the most battery volts it takes; its charger.",
    example="5000 W continuous, surge 11000 W for 5 s, 120/240 V, half on one leg, idle 55 W, efficiency 93 %, takes 60 V, charger 80 A, charger 92 %",
    pieces=(
        Piece("inverter.continuous", "{} continuous"),
        Piece("inverter.surge", "surge {}", ("peak",)),
        Piece("inverter.surge_time", also=("surge",)),
        Piece("inverter.system"),
        Piece("inverter.idle", "idle {}", ("standby", "no load")),
        Piece("inverter.peak_efficiency", "efficiency {}", ("best",)),
        Piece("inverter.highest_volts", "takes {}", ("takes up to", "at most"), marked=True),
        Piece("inverter.charger_amps", "charger {}", ("charges",)),
        Piece("inverter.charger_efficiency", "charger {}", ("charging",)),
        Piece("inverter.pass_through", "passes {}", ("transfer",)),
    ),
    phrases={
        "half on one leg": {"inverter.one_leg": "no"},
        "full on one leg": {"inverter.one_leg": "yes"},
    },
)

SETTINGS = Plate(
    key="settings",
    label="What is set on inverter, charger and battery",
    where="In their settings, or the battery's manual: where charging stops, where the inverter cuts off, where the battery's protection opens, charging amps, charge kept back.",
    example="absorb 57.6 V, cut-off 46 V, protection 44 V, charging 40 A, input 24 A, reserve 15 %",
    pieces=(
        Piece("bank.highest_volts", "absorb {}", ("absorption", "charging", "charge"), marked=True),
        Piece("inverter.cutoff", "cut-off {}", ("inverter stops",), marked=True),
        Piece("bank.lowest_volts", "protection {}", ("protection opens", "lowest"), marked=True),
        Piece("inverter.charger_set", "charging {}", ("charge", "charger")),
        Piece("inverter.input_limit", "input {}", ("input limit", "shore")),
        Piece("bank.reserve", "reserve {}", ("kept back",), marked=True),
    ),
)

OUTLETS = Plate(
    key="outlets",
    label="Its outlets",
    where="By the pattern of the slots, or the colour of the socket; the number on its breaker's handle. Before each a name of your own and a colon; a semicolon between two.",
    example="saw side: 5-20, 20 A, Class A; van side: 14-30, 30 A",
    pieces=(
        Piece("outlets.configuration"),
        Piece("outlets.socket"),
        Piece("outlets.breaker", "{} breaker", ("breaker",)),
        Piece("outlets.leg", "leg {}", marked=True),
        Piece("outlets.ground_fault"),
    ),
    phrases={
        "class a": {"outlets.ground_fault": "Class A, 5 mA"},
        "rcd type a": {"outlets.ground_fault": "RCD type A, 30 mA"},
        "rcd type f": {"outlets.ground_fault": "RCD type F, 30 mA"},
        "rcd type b": {"outlets.ground_fault": "RCD type B, 30 mA"},
        "no ground-fault protection": {"outlets.ground_fault": "none"},
    },
    spellings=((r"\bclass a\s*,?\s*5 ?mA\b", "Class A"), (r"\b(rcd type [abf])\s*,?\s*30 ?mA\b", r"\1")),
    group="outlets",
)

TOOL = Plate(
    key="tool",
    label="A tool it runs, as its plate says",
    where="Its name and a colon; volts and amps; how it starts; for hours or not; its plug and cord; its outlet, by name or pattern.",
    example="chain-saw mill: 120 V, 13 A, saw or grinder, turns freely, short runs, plug fits, cord 25 ft, cord 12 AWG, at saw side",
    pieces=(
        Piece("loads.volts"),
        Piece("loads.amps", "{} on its plate", implies={"loads.plate": "amps"}),
        Piece("loads.watts", "{} on its plate", implies={"loads.plate": "watts"}),
        Piece("loads.horsepower", "{} hp", ("horsepower",), implies={"loads.plate": "horsepower"}),
        Piece("loads.running_watts", "{} while running", ("running", "runs at")),
        Piece("loads.start_power", "{} at its start", ("starting",)),
        Piece("loads.start"),
        Piece("loads.plug"),
        Piece("loads.cord_size", "cord {}", ("extension cord",)),
        Piece("loads.cord_length", "cord {}", ("extension cord",)),
        Piece("loads.hours", "{} a day", ("per day",), marked=True),
        Piece("loads.outlet", "at {}", ("plugged into",)),
    ),
    phrases={
        "saw or grinder": {"loads.start": "universal motor: saw or grinder"},
        "soft start": {"loads.start": "universal motor with soft start"},
        "turns freely": {"loads.standstill": "20 %"},
        "starts freely": {"loads.standstill": "20 %"},
        "for hours": {"loads.lasting": "yes"},
        "short runs": {"loads.lasting": "no"},
        "plug fits": {"loads.plug": "it fits"},
        "plain adapter": {"loads.plug": "through a plain adapter"},
        "no cord": {"loads.cord_size": "none"},
    },
    group="loads",
)

CAR = Plate(
    key="car",
    label="A car it charges",
    where="Its name and a colon; what it uses, by dash or label; the volts and amps it is set to; the plate of its charging cord; its outlet; the trip that must be possible.",
    example="crew van: 3.1 mi/kWh, dash, 240 V, set to 16 A, cord 32 A, at van side, trip 10 mi",
    pieces=(
        Piece("cars.consumption", "uses {}"),
        Piece("cars.consumption_kind", "by {}", ("by the",)),
        Piece("cars.charging_volts"),
        Piece("cars.charging_amps", "set to {}", ("set at",)),
        Piece("cars.cord_rating", "cord {}", ("charging cord",)),
        Piece("cars.battery", "battery {}"),
        Piece("cars.cabin", "cabin {}", marked=True),
        Piece("cars.outlet", "at {}", ("plugged into",)),
        Piece("place.trip", "trip {}", marked=True),
    ),
    group="cars",
)

NOW = Plate(
    key="stands",
    label="How it stands now",
    where="Charge and cells on the battery's monitor; a thermometer in the shade; what runs; the outlet on the wall that it hangs on, and that it refills from.",
    example="80 %, cells 12 °C, air 8 °C, nothing running, unplugged, refills from L5-30",
    pieces=(
        Piece("now.charge", "charge {}", ("charged", "full", "left")),
        Piece("now.cells", "cells {}"),
        Piece("now.air", "air {}"),
        Piece("now.running", "running {}"),
        Piece("now.plugged_into", "plugged into {}", marked=True),
        Piece("now.month"),
        Piece("inlet.outlet", "refills from {}", marked=True),
    ),
    phrases={
        "nothing running": {"now.running": "0 W", "now.beside": "0 A"},
        "unplugged": {"now.plugged_into": "nothing"},
        "alone on its circuit": {"now.shared": "0 A"},
    },
)

LINES = (BANK, INVERTER, SETTINGS, OUTLETS, TOOL, CAR, NOW)
