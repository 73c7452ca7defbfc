"""Battery cables: what they may carry by the wiring code, by the rules for boats, and by the international tables."""

from __future__ import annotations

from calc.laws import conductor as us
from calc.quantity import OutsideValidity, Quantity, choose, constant, largest, limit, smallest, step
from calc.sources import CFR_33_183, NEC_2023
from calc.tables import table
from calc.units import A, degC, one, wires

# The code's tables end at 90 °C: hotter insulation is counted as that.
CODE_COLUMNS = {"60 °C": "60 °C", "75 °C": "75 °C", "90 °C": "90 °C", "105 °C": "90 °C"}


def by_the_code(
    size: str, lay: str, insulation: str, terminals: str, ambient: Quantity, each_pole: Quantity, carrying: Quantity
) -> tuple[Quantity, Quantity]:
    """What the lugs may carry and what the insulation stands as laid [A], of one cable, by the wiring code.

    carrying: all that lie together and carry current; no fewer than the cables of both poles.
    """
    column = CODE_COLUMNS[insulation]
    beside = step("n_b", "Cables carrying current side by side", largest(2 * each_pole, carrying), wires)
    lugs = us.terminal_ampacity(size, us.COPPER, column, terminals)
    return lugs, us.corrected_ampacity(size, us.COPPER, lay, column, ambient, beside)


def by_the_boat_rule(size: str, insulation: str, terminals: str, ambient: Quantity) -> tuple[Quantity, Quantity]:
    """What the lugs may carry and what the insulation stands [A], by the rule for boats, under 50 V.

    The rule's base is 30 °C; it knows one hotter place, an engine space of 50 °C. Lugs are held to their own column:
    the rule does not speak of them, heat does.
    """
    listed, hot = table("ampacity_under_50v"), table("engine_space_factor")
    if size not in listed.rows:
        raise OutsideValidity(f"The rule for boats does not list {size}; {listed.rows[-1]} is its largest.")
    degrees = min(insulation.split()[0], terminals.split()[0], key=int)
    lugs = listed.read("I_lug50", f"Boat table at {terminals} lugs", size, degrees, A)
    base = listed.read("I_ins50", f"Boat table, {insulation} insulation", size, insulation.split()[0], A)
    cool = constant("θ_30", "Air that the boat table is for", 30 * degC, CFR_33_183.at("183.425, Table 5"))
    engine = constant("θ_50", "Air of an engine space", 50 * degC, CFR_33_183.at("183.425, Table 5, note"))
    if (ambient > engine).holds:
        raise OutsideValidity(f"The rule for boats knows air up to {engine}; {ambient} is hotter.")
    heat = choose(
        "f_50",
        "Factor of the boat table for heat",
        (
            ambient <= cool,
            constant("f_30", "Factor at the table's own air", 1 * one, CFR_33_183.at("183.425, Table 5")),
            "no hotter than the table is for",
        ),
        (
            lambda: hot.read(
                "f_e", f"Factor of an engine space, {insulation} insulation", insulation.split()[0], "factor", one
            ),
            "hotter than the table is for: counted as an engine space",
        ),
    )
    return lugs, limit("I_cor50", "Boat table, as it is laid", base * heat, A)


def largest_fuse(usable: Quantity, rating_up: Quantity) -> Quantity:
    """The largest fuse that the code lets stand before a cable [A]: the next standard size up."""
    return step(
        "I_Fmax", "Largest fuse that the code allows before it", rating_up, A, NEC_2023.at("240.4(B), 240.6(A)")
    )


def lower(lugs: Quantity, corrected: Quantity) -> Quantity:
    """The lower of lugs and insulation [A], as a plain quantity; its page names it."""
    return smallest(lugs, corrected)
