"""Flexible cords: what they carry, on the ground or on a drum, and what practice asks for by amps and length."""

from __future__ import annotations

from calc.quantity import OutsideValidity, Quantity, alternative, choose, constant, limit, read, root, smallest, step
from calc.sources import BS_7671, COMMON_PRACTICE, FROM_MEMORY, IEC_60228, IEC_60287, NEC_2023, OWN_DERIVATION
from calc.tables import Table, table
from calc.units import A, degC, ft, mohm, ohm_per_kft, ohm_per_km, one, per_K

TWO, THREE, FOUR = "two", "three: 120/240 V with unequal legs", "four to six"
CARRYING = (TWO, THREE, FOUR)
UNCOILED = "uncoiled, on the ground"
_RUBBER_FROM = 4.0


def sizes() -> tuple[str, ...]:
    """The US sizes of cord, thinnest first."""
    return table("flexible_cord").rows


def sizes_iec() -> tuple[str, ...]:
    """The metric sizes of cord with a published current and a published resistance, thinnest first."""
    resistances = table("iec_resistance").rows
    listed = (*table("iec_flex_small").rows, *table("iec_flex_rubber").rows)
    return tuple(size for size in dict.fromkeys(listed) if size in resistances)


def drums() -> tuple[str, ...]:
    """How a cord may lie: on the ground, or on a kind of drum."""
    return (UNCOILED, *table("cord_drum").rows)


def _drum(lies: str) -> Quantity:
    if lies == UNCOILED:
        return constant("f_d", "Factor for a drum: none, it is uncoiled", 1 * one, BS_7671.at("Table 4F1A, note"))
    return table("cord_drum").read("f_d", f"Factor for a drum: {lies}", lies, "factor", one)


def ampacity(size: str, carrying: str, rated: str, air: Quantity, lies: str) -> Quantity:
    """What a cord carries by the US table [A]. Heat, crowding and a drum lower it; cold earns no credit."""
    column = "two carrying" if carrying == TWO else "three carrying"
    base = table("flexible_cord").read("I_tab", f"Ampacity of a cord of {size}, {column}", size, column)
    warm = table("ambient_factor")
    factor = warm.read(
        "c_θ", f"Correction for {air} around it, {rated} cord", warm.row_covering(air, degC), rated.split()[0]
    )
    if carrying == FOUR:
        beside = table("carrying_factor").read("f_n", "Adjustment for four to six carrying", "6", "factor", one)
    else:
        beside = alternative(
            "f_n",
            "Adjustment for crowding",
            constant("f_1", "No adjustment", 1 * one, OWN_DERIVATION),
            "the column holds it already",
            one,
        )
    return limit("I_cord", "Ampacity of the cord as it lies", base * smallest(factor, 1) * beside * _drum(lies), A)


def ampacity_iec(size: str, air: Quantity, lies: str) -> Quantity:
    """What a 60 °C flexible cord with two loaded cores carries by the international tables [A]."""
    thick = float(size.split()[0]) >= _RUBBER_FROM
    listed, column = (table("iec_flex_rubber"), "two-core") if thick else (table("iec_flex_small"), "single-phase")
    base = listed.read("I_tab", f"Current of a cord of {size}", size, column, A)
    rated = constant(
        "θ_r", "Rating of the cord, where it is not marked otherwise", 60 * degC, BS_7671.at("Tables 4F1A, 4F3A")
    )
    cool = constant("θ_30", "Air that the tables are for", 30 * degC, BS_7671.at("Tables 4F1A, 4F3A"))
    heat = choose(
        "f_θ",
        "Factor for heat, no credit for cold",
        (
            air <= cool,
            constant("f_30", "Factor at the tables' own air", 1 * one, BS_7671),
            "no hotter than the tables are for",
        ),
        (lambda: root((rated - air) / (rated - cool)), "hotter than the tables are for"),
        unit=one,
        source=IEC_60287,
    )
    return limit("I_cord", "Current of the cord as it lies", base * heat * _drum(lies), A)


def resistance_iec(size: str) -> Quantity:
    """Resistance per length of a flexible cord at its 60 °C [Ω/km]."""
    cold = table("iec_resistance").read(
        "r₂₀", f"Resistance of {size} at 20 °C, fine strands", size, "Cu class 5/6", ohm_per_km
    )
    rise = constant("α₂₀", "Rise of copper's resistance", 0.00393 * per_K, IEC_60228.at("Annex", "from memory"))
    hot = constant("θ_h", "Cord at its rating", 60 * degC, BS_7671.at("Tables 4F1A, 4F3A"))
    reference = constant("θ₂₀", "Temperature of the table", 20 * degC, IEC_60228.at("Tables 1 to 3"))
    return step("r", "Resistance at work", cold * (1 + rise * (hot - reference)), ohm_per_km)


def resistance(size: str) -> Quantity:
    """Resistance per length of a US size at 75 °C, stranded [Ω/kft]; between listed sizes, of the thinner one's listed neighbour."""
    listed = table("conductor_resistance")
    if size in listed.rows:
        return listed.read("r", f"Resistance of {size} copper at 75 °C", size, "Cu stranded", ohm_per_kft)
    number = int(size.split()[0]) + 1
    thinner = f"{number} AWG"
    value = listed.value(thinner, "Cu stranded", ohm_per_kft)
    return read(
        "r",
        f"Resistance of {thinner} copper at 75 °C, for want of {size}",
        value,
        listed.source,
        note=f"row {thinner}, column Cu stranded; the next thinner, on the safe side",
    )


def resistance_at(size: str, cord: Quantity) -> Quantity:
    """Resistance per length of a cord at its own temperature, by the table that lists its size: US or metric."""
    if size in sizes():
        table_value, rise, at = resistance(size), 0.00323, 75
        source = NEC_2023.at("Chapter 9, Table 8, note 2", FROM_MEMORY)
    else:
        table_value = table("iec_resistance").read(
            "r", f"Resistance of {size} at 20 °C, fine strands", size, "Cu class 5/6", ohm_per_km
        )
        rise, at, source = 0.00393, 20, IEC_60228.at("Annex", FROM_MEMORY)
    per_degree = constant("α_r", "Rise of copper's resistance", rise * per_K, source)
    reference = constant("θ_r", "Temperature of the table", at * degC, source)
    return step("r_θ", f"Resistance of the cord at {cord}", table_value * (1 + per_degree * (cord - reference)), table_value.unit)


def joints(cords: Quantity) -> Quantity:
    """Contacts where one cord is plugged into the next [mΩ], out and back."""
    each = constant("R_j", "Contacts of one joint between cords, worn, out and back", 20 * mohm, COMMON_PRACTICE)
    return step("R_js", "Contacts of all joints", (cords - 1) * each, mohm)


def size_by_practice(amps: Quantity, length: Quantity) -> str | None:
    """The size that makers' manuals print for a 120 V tool: the thicker of two tables. None where both are silent."""
    charger, drop = table("extension_cord_charger"), table("extension_cord_drop")
    found = [
        listed.text(row, column)
        for listed, row in ((charger, charger.row_reached(amps, A)), (drop, _row_up(drop, amps)))
        for column in _column(listed, length)
        if row and listed.has(row, column)
    ]
    return max(found, key=sizes().index, default=None)


def charger_table_says(amps: Quantity, length: Quantity) -> str | None:
    """What the more generous of the two tables prints; None where it is silent."""
    charger = table("extension_cord_charger")
    row = charger.row_reached(amps, A)
    return next((charger.text(row, column) for column in _column(charger, length) if charger.has(row, column)), None)


def _row_up(listed: Table, amps: Quantity) -> str | None:
    try:
        return listed.row_covering(amps, A)
    except OutsideValidity:
        return None


def _column(listed: Table, length: Quantity) -> list[str]:
    """The first column whose length is not below this one; none beyond the last."""
    return [column for column in listed.columns if (length <= float(column.split()[0]) * ft).holds][:1]
