"""Conductors under the US rules: ampacity by three separate tests, resistance hot, drop."""

from __future__ import annotations

from functools import cache

from calc.quantity import (
    Condition,
    OutsideValidity,
    Quantity,
    alternative,
    choose,
    constant,
    largest,
    limit,
    need,
    read,
    root,
    smallest,
    step,
)
from calc.sources import FROM_MEMORY, NEC_2023, OWN_DERIVATION
from calc.tables import table
from calc.units import A, V, W, degC, ft, ohm_per_kft, one, per_K, percent, wires

CIRCUITS = ("dc", "one-phase", "split-phase")
RACEWAY, FREE_AIR = "raceway or cable", "single in free air"
COPPER, ALUMINIUM = "copper", "aluminium"

# Reactance is felt, and the skin of an ac current shows, from this size up (common practice: below it the ac and dc
# resistances of the tables agree within their rounding).
_SKIN_FROM = "1/0 AWG"


def _metal(metal: str) -> str:
    return "Cu" if metal == COPPER else "Al"


def ampacity_table(lay: str) -> str:
    """The name of the ampacity table for how the wire lies."""
    return "ampacity_raceway" if lay == RACEWAY else "ampacity_free_air"


@cache
def sizes(metal: str, lay: str) -> tuple[str, ...]:
    """The sizes in which this metal is listed as it lies, in every column, thinnest first."""
    listed, impedances = table(ampacity_table(lay)), table("ac_impedance")
    columns = [f"{_metal(metal)} {degrees}" for degrees in ("60", "75", "90")]
    complete = (size for size in listed.rows if all(listed.has(size, column) for column in columns))
    # A size without a row of ac impedance (700 kcmil) could only be answered for dc; it is not offered.
    return tuple(size for size in complete if impedances.has(size, "X PVC"))


def continuous_load(continuous: Quantity, other: Quantity, symbol: str = "I_need") -> Quantity:
    """What terminals and breaker must carry [A]: a load of three hours or more counts for 125 %."""
    factor = constant(
        "k_c", "A continuous load counts for", 1.25 * one, NEC_2023.at("210.20(A); 210.19(A), 215.2(A)", FROM_MEMORY)
    )
    return need(symbol, "Current that terminals and breaker must be good for", factor * continuous + other, A)


def terminal_ampacity(size: str, metal: str, insulation: str, terminals: str) -> Quantity:
    """The column of the cooler of lug and insulation [A]: the lug sets it, whatever the wire could stand.

    Lugs are judged by the raceway table also where the wire lies in free air: they were tested with such wire.
    """
    column = min(insulation, terminals, key=_degrees)
    if size not in sizes(metal, RACEWAY):
        raise OutsideValidity(f"{size} {metal} is not listed for wiring; {sizes(metal, RACEWAY)[0]} is the smallest.")
    return table("ampacity_raceway").read(
        "I_lug", f"Ampacity at {terminals} lugs", size, f"{_metal(metal)} {_degrees(column)}"
    )


def _degrees(rating: str) -> int:
    return int(rating.split()[0])


def stands_heat(insulation: str, ambient: Quantity) -> Condition:
    """Whether the insulation may be used in this air at all: the table of corrections ends where it may not."""
    listed, column = table("ambient_factor"), str(_degrees(insulation))
    hottest = max((row for row in listed.rows if listed.has(row, column)), key=float)
    most = read("θ_max", f"Hottest air for {insulation} insulation", float(hottest) * degC, listed.source)
    return ambient <= most


def listed_ampacity(size: str, metal: str, lay: str, insulation: str) -> Quantity:
    """What the table says of this insulation, heat and crowding aside [A]; for saying what a careless reader would take."""
    return table(ampacity_table(lay)).value(size, f"{_metal(metal)} {_degrees(insulation)}", A)


def corrected_ampacity(
    size: str, metal: str, lay: str, insulation: str, ambient: Quantity, carrying: Quantity
) -> Quantity:
    """The insulation's own column, less for heat around it and for wires beside it [A]. Cold earns no credit."""
    base = table(ampacity_table(lay)).read(
        "I_ins", "Ampacity of the insulation, before correction", size, f"{_metal(metal)} {_degrees(insulation)}"
    )
    warm = table("ambient_factor")
    row = warm.row_covering(ambient, degC)
    from_table = warm.read("c_θ", f"Correction for {ambient} around the wire", row, str(_degrees(insulation)))
    heat = step("f_θ", "Correction for heat, no credit for cold", smallest(from_table, 1), one)
    crowd = table("carrying_factor")
    beside = crowd.read(
        "f_n", f"Adjustment for {carrying} carrying current together", crowd.row_covering(carrying, wires), "factor"
    )
    return limit("I_cor", "Ampacity as it is laid", base * heat * beside, A)


def usable_ampacity(lugs: Quantity, corrected: Quantity) -> Quantity:
    """What the wire may carry [A]: the lower of its lugs and its insulation as laid."""
    return limit(
        "I_use",
        "Usable ampacity, the lower of the two",
        smallest(lugs, corrected),
        A,
        NEC_2023.at("110.14(C), 310.14(A)(2)"),
    )


# --- volts lost ----------------------------------------------------------------------------------------------


def temperature_at_work(hot: Quantity, ambient: Quantity) -> Quantity:
    """The conductor's own temperature [°C]: as given, but no wire at work is colder than the air round it."""
    return choose(
        "θ",
        "Temperature the wire is worked at",
        (hot >= ambient, hot, "as given"),
        (ambient, "no wire is colder than the air round it"),
        unit=degC,
    )


def resistance(size: str, metal: str, circuit: str, hot: Quantity) -> Quantity:
    """Resistance per length of a working conductor [Ω/kft], at its own temperature."""
    column = f"{_metal(metal)} stranded"
    properties, impedances = table("conductor_resistance"), table("ac_impedance")
    ac_column = f"R {_metal(metal)} PVC"
    at_75: Quantity
    if circuit != "dc" and _from_skin_size(size) and impedances.has(size, ac_column):
        dc = properties.read("r_dc", f"Resistance of {size} {metal} at 75 °C, dc", size, column, ohm_per_kft)
        ac = impedances.read("r_ac", f"Resistance of {size} {metal} at 75 °C, ac", size, ac_column, ohm_per_kft)
        at_75 = step("r₇₅", "Resistance at 75 °C, the larger of dc and ac", largest(dc, ac), ohm_per_kft)
    else:
        at_75 = properties.read("r₇₅", f"Resistance of {size} {metal} at 75 °C", size, column, ohm_per_kft)
    rise = constant(
        "α₇₅",
        f"Rise of {metal}'s resistance",
        (0.00323 if metal == COPPER else 0.00330) * per_K,
        NEC_2023.at("Chapter 9, Table 8, note 2", FROM_MEMORY),
    )
    reference = constant("θ₇₅", "Temperature of the table", 75 * degC, NEC_2023.at("Chapter 9, Table 8"))
    return step("r", "Resistance as it works", at_75 * (1 + rise * (hot - reference)), ohm_per_kft)


def _from_skin_size(size: str) -> bool:
    listed = table("ampacity_raceway").rows
    return listed.index(size) >= listed.index(_SKIN_FROM)


def impedance(r: Quantity, size: str, circuit: str, power_factor: Quantity) -> Quantity:
    """What a length of one conductor opposes to the current, in line with the volts [Ω/kft]."""
    if circuit == "dc":
        return alternative("z", "Opposition per length", r, "direct current: resistance alone", ohm_per_kft)
    x = table("ac_impedance").read("x", f"Reactance of {size} in plastic pipe or cable", size, "X PVC", ohm_per_kft)
    sine = step("qf", "Share of the current out of step", root(1 - power_factor**2), one, OWN_DERIVATION)
    place = NEC_2023.at("Chapter 9, Table 9, note 2", FROM_MEMORY)
    return step("z", "Opposition per length", r * power_factor + x * sine, ohm_per_kft, place)


def current_path(circuit: str, current: Quantity, lighter_leg: Quantity) -> Quantity:
    """The current that, over the one-way length of one conductor, loses the volts of the whole loop [A].

    Out and back for two wires. On a split-phase run the neutral carries the difference of the legs, so two equal
    legs lose half, and the worse leg loses the most when the other is idle.
    """
    if circuit == "split-phase":
        return step(
            "I_loop",
            "Current out in the heavier leg and back in the neutral",
            current + (current - lighter_leg),
            A,
            OWN_DERIVATION,
        )
    return step("I_loop", "Current, out and back", 2 * current, A, OWN_DERIVATION)


def volts_lost(length: Quantity, opposition: Quantity, loop: Quantity) -> Quantity:
    """Volts lost on a run [V]: length times opposition times the current of the loop."""
    return need("ΔV", "Volts lost on the run", length * opposition * loop, V)


def share_lost(lost: Quantity, volts: Quantity) -> Quantity:
    """The loss as a share of the source's volts [-]."""
    return need("ΔV%", "Lost, of the source's volts", lost / volts, percent)


def longest_run(share: Quantity, volts: Quantity, opposition: Quantity, loop: Quantity) -> Quantity:
    """The one-way length at which exactly `share` of the volts is lost [ft]."""
    return limit("L_max", f"Longest run, one way, for {share} lost", share * volts / (opposition * loop), ft)


def heat_lost(circuit: str, length: Quantity, r: Quantity, current: Quantity, lighter_leg: Quantity) -> Quantity:
    """Watts that warm the run: two loaded wires, or two legs and the neutral between them [W]."""
    squares = 2 * current**2
    if circuit == "split-phase":
        squares = current**2 + lighter_leg**2 + (current - lighter_leg) ** 2
    return need("P_loss", "Heat in the run", length * r * squares, W)
