"""The seven plates of the short start: what each line may say, and where on the real thing it stands."""

from __future__ import annotations

from calc.plate import ALL, ONE, SUM, Piece, Plate

# `Most discharge` alone may be of seconds; of charging, no plate gives more for a moment.
_CONTINUOUS_OUT = ("continuous discharge", "continuous discharge current", "max continuous discharge", "max continuous discharge current")
_CONTINUOUS_IN = ("charge current", "max charge", "max charge current", "max continuous charge current")

# A plate writes `230 V~` and `120 VAC`; a battery's volts stay what they are.
_AC_VOLTS = ((r"(?<=\d)\s*V(?:\s*ac\b|\s*~)", " V "),)
_HERTZ = {r"\d*\s*hz": "is not asked: leave it out."}

BANK = Plate(
    key="bank",
    label="The battery, as its plate says",
    where="Chemistry; cells in series, strings in parallel; Ah; the most amps out and in; mass; new, or its health. Of several alike, say each or in all.",
    example="LFP, 16s2p, 100 Ah each, 100 A out each, 50 A in each, 92 kg in all, new",
    pieces=(
        Piece("bank.chemistry"),
        Piece("bank.series", "{} cells in series", marked=True),
        Piece("bank.strings", "{} in parallel", ("strings", "batteries in parallel", "strings in parallel", "parallel"), marked=True),
        Piece("bank.capacity", also=("capacity", "rated capacity"), of=ONE),
        Piece("bank.energy", also=("energy", "capacity"), of=ALL),
        Piece("bank.nominal_volts", also=("nominal", "nominal voltage")),
        Piece("bank.discharge_limit", "{} out", ("discharge", "discharging", *_CONTINUOUS_OUT), of=ONE),
        Piece("bank.charge_limit", "{} in", ("charge", "charging", *_CONTINUOUS_IN), of=ONE),
        Piece("bank.mass", of=SUM),
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
        "1 battery": {"bank.strings": "1"},
        "1 string": {"bank.strings": "1"},
        "one battery": {"bank.strings": "1"},
    },
    # `16s` is told by itself: behind another piece, `200 A out for 5 s` are seconds.
    spellings=(
        (r"^\s*(lfp|lifepo4|nmc|agm|gel|flooded)\s+(?=\d)", r"\1, "),
        (r"\b(\d+)\s*s\s*(\d+)\s*p\b", r", \1 cells in series, \2 in parallel, "),
        (r"(^|[,;\n])\s*(\d+)s\b", r"\1 \2 cells in series, "),
        (r"\b(\d+)\s*p\b", r"\1 in parallel"),
        (r"\bamp[\s-]*hours?\b", "Ah"),
        (r"\btotal\b", "in all"),
    ),
    unclear={
        "in series": "of cells or of batteries? Write the cells, as in “16s” or “16 cells in series”. A 12 V battery is 4 cells of LFP, or 6 of lead.",
        "batter(?:y|ies)": "in series, or in parallel? Write the cells of a whole string, as in “16s”, and how many strings there are, as in “2 in parallel”.",
        "cells": "in series, or all of them? Write “16s” or “16 cells in series”, and how many strings there are, as in “2 in parallel”.",
        "lithium|li-?ion": "of which kind? Write “LFP” (3.2 V a cell) or “NMC” (3.6 or 3.7 V a cell), as its plate or manual says.",
        r"\d+\s*-\s*\d[\d.,]*\s*V": "write its nominal volts, as in “51.2 V”.",
        "bms": "the way out, or in? Write what it lets through without end, as in “100 A out” and “50 A in”.",
        r"\d+\s*s": "seconds, or cells? Cells stand between two commas, as in “16s”. Leave out what it gives for seconds: write what it gives without end, as in “100 A out”.",
        r"peak|surge|pulse": "that is for seconds. Write what it gives without end, as in “100 A out”.",
    },
    count="bank.strings",
)

INVERTER = Plate(
    key="inverter",
    label="The inverter, as its plate and manual say",
    where="Watts and volts out; half or full power on one leg; idle watts; best efficiency; the most battery volts it takes; its charger.",
    example="5000 W continuous, surge 11000 W for 5 s, 120/240 V, half on one leg, idle 55 W, efficiency 93 %, takes 60 V, charger 80 A, charger 92 %",
    pieces=(
        Piece("inverter.continuous", "{} continuous", ("rated", "rated power", "continuous power", "continuous output")),
        Piece("inverter.surge", "surge {}", ("peak",)),
        Piece("inverter.surge_time", also=("surge",)),
        Piece("inverter.system"),
        Piece("inverter.idle", "idle {}", ("no load",)),
        Piece("inverter.peak_efficiency", "efficiency {}", ("best", "peak efficiency", "max efficiency")),
        Piece("inverter.highest_volts", "takes {}", ("takes up to", "at most"), marked=True),
        Piece("inverter.charger_amps", "charger {}", ("charges",)),
        Piece("inverter.charger_efficiency", "charger {}", ("charging",)),
        Piece("inverter.pass_through", "passes {}", ("transfer",)),
    ),
    phrases={
        "half on one leg": {"inverter.one_leg": "no"},
        "full on one leg": {"inverter.one_leg": "yes"},
    },
    spellings=(*_AC_VOLTS, (r"\b(?:120/240|240/120)\s*V\b", "120/240 V")),
    unclear={
        "standby": "with its output on, or asleep? Write what it takes switched on with nothing plugged in, as in “idle 55 W”.",
        r"\d*k?va": "volt-amperes are not watts. Write the watts that its manual gives, as in “5000 W continuous”.",
        **_HERTZ,
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
        Piece("bank.reserve", "reserve {}", ("kept back", "min SOC", "minimum SOC"), marked=True),
    ),
    unclear={
        "float": "is not asked: leave it out.",
        r"lvc|lvd|low.*cut[\s-]*off": "of the inverter, or of the battery's own protection? Write “cut-off 46 V” or “protection 44 V”.",
        "dod|depth of discharge": "write what stays in the battery, as in “reserve 20 %”.",
    },
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
        # UL 943 and the NEC's article 100: a GFCI is of Class A, which opens at 4 to 6 mA.
        "class a": {"outlets.ground_fault": "Class A, 5 mA"},
        "gfci": {"outlets.ground_fault": "Class A, 5 mA"},
        "rcd type a 30 ma": {"outlets.ground_fault": "RCD type A, 30 mA"},
        "rcd type f 30 ma": {"outlets.ground_fault": "RCD type F, 30 mA"},
        "rcd type b 30 ma": {"outlets.ground_fault": "RCD type B, 30 mA"},
        "no ground-fault protection": {"outlets.ground_fault": "none"},
        "no gfci": {"outlets.ground_fault": "none"},
    },
    spellings=((r"\bclass a\s*,?\s*5 ?mA\b", "Class A"), (r"\b(rcd type [abf])\s*,?\s*30 ?mA\b", r"\1 30 mA"), (r"\bnema\s+(?=\S)", "")),
    unclear={"rcd": "of which type, and how many milliamps? Write it like “RCD type A 30 mA”; one of more than 30 mA protects no person."},
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
        Piece("loads.start_power", "{} at its start", ("starting",), marked=True),
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
    spellings=(
        *_AC_VOLTS,
        (r"\s*(?:@|\bat\b)\s*(?=\d+\s*V\s*(?:$|[,;\n]))", ", "),
        # Of a cord only: `2x16` may be two lamps. `2x25` may be two cords, so a whole number needs its mm2, or the trade's G.
        (r"(\bcord\b[^,;\n]*?)\b(\d\d)/[2-5](?=$|[\s,;])", r"\1\2 AWG"),
        (r"\b(\d\d)/[2-5](?=\s[^,;\n]*\bcord\b)", r"\1 AWG"),
        (r"(\bcord\b[^,;\n]*?)\b[2-5]\s*[x×]\s*(\d+[.,]\d+(?=$|[\s,;])|\d+(?=\s*mm[2²]))(?:\s*mm[2²])?", r"\1\2 mm2, "),
        (r"\b[2-5]g(\d+(?:[.,]\d+)?)(?:\s*mm[2²])?(?=$|[\s,;])", r"\1 mm2, "),
        (r"(?<![\d.,])1[.,]5\s*hp\b", "1 1/2 hp"),
        (r"(?<![\d.,])0?[.,]5\s*hp\b", "1/2 hp"),
        (r"(?<![\d.,])0?[.,]75\s*hp\b", "3/4 hp"),
    ),
    unclear={
        r"(?:110|115|125|127|220)\s*V": "write the volts of the outlet that it runs on, as in “120 V”, “230 V” or “240 V”.",
        r"\d+\s*-\s*\d+\s*V": "write the volts that it is used at, as in “120 V” or “230 V”.",
        "peak|max": "that is not what it takes at its load. Write what stands beside the volts on its plate.",
        **_HERTZ,
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
        Piece("cars.charging_amps", "set to {}", ("set at", "charging", "charging at")),
        Piece("cars.cord_rating", "cord {}", ("charging cord",)),
        Piece("cars.battery", "battery {}"),
        Piece("cars.cabin", "cabin {}", marked=True),
        Piece("cars.outlet", "at {}", ("plugged into",)),
        Piece("place.trip", "trip {}", marked=True),
    ),
    spellings=((r"(?<!by)(?<!the)[ \t]+(dash|label)\b", r", \1"),),
    group="cars",
)

NOW = Plate(
    key="stands",
    label="How it stands now",
    where="Charge and cells on the battery's monitor; a thermometer in the shade; what runs; the outlet on the wall that it hangs on, and that it refills from.",
    example="80 %, cells 12 °C, air 8 °C, nothing running, unplugged, refills from L5-30",
    pieces=(
        Piece("now.charge", "charge {}", ("charged", "full", "left", "SOC")),
        Piece("now.cells", "cells {}"),
        Piece("now.air", "air {}", ("outside", "ambient")),
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
