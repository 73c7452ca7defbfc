"""Conductors under the international rules: current-carrying capacity as laid, coordination, drop, earth wire."""

from __future__ import annotations

from calc.facts.wiring import GG_FUSE
from calc.quantity import (
    Condition,
    OutsideValidity,
    Quantity,
    alternative,
    choose,
    constant,
    limit,
    need,
    read,
    root,
    smallest,
    step,
)
from calc.sources import IEC_60287, IEC_60364_4_43, IEC_60364_5_52, OWN_DERIVATION
from calc.tables import table
from calc.units import A, V, degC, mm2, mohm, ohm_mm2_per_m, ohm_per_km, one, per_K, wires

METHODS = ("A1", "A2", "B1", "B2", "C", "E")
INSULATIONS = ("PVC 70 °C", "XLPE 90 °C")


def sizes() -> tuple[str, ...]:
    """The sizes listed, thinnest first."""
    return table("iec_ampacity").rows


def ampacity_table(metal: str) -> str:
    """The name of the table for a metal."""
    return "iec_ampacity" if metal == "copper" else "iec_ampacity_aluminium"


def capacity(
    size: str, metal: str, insulation: str, method: str, loaded: str, ambient: Quantity, circuits: Quantity
) -> Quantity:
    """Iz [A]: the table's current for the method, times the factors for heat and for circuits run together."""
    if metal != "copper" and float(size.split()[0]) < float(_ALUMINIUM_FROM):
        raise OutsideValidity(f"Aluminium is not used for fixed wiring below {_ALUMINIUM_FROM} mm².")
    kind = insulation.split()[0]
    label = f"Current of {size} {metal} by method {method}"
    base = table(ampacity_table(metal)).read("I_tab", label, size, f"{kind} {loaded} {method}")
    warm = table("iec_ambient_factor")
    from_table = warm.read("k_tab", f"Factor for {ambient} around the wire", warm.row_covering(ambient, degC), kind)
    heat = step("k_θ", "Factor for heat, no credit for cold", smallest(from_table, 1), one)
    together = table("iec_grouping")
    beside = together.read(
        "k_n", "Factor for the circuits run together", together.row_covering(circuits, wires), "factor"
    )
    return limit("I_lay", "Current-carrying capacity as laid", base * heat * beside, A)


_ALUMINIUM_FROM = "10"


def stands_heat(insulation: str, ambient: Quantity) -> Condition:
    """Whether the insulation may be used in this air at all: the table of factors ends where it may not."""
    listed, column = table("iec_ambient_factor"), insulation.split()[0]
    hottest = max((row for row in listed.rows if listed.has(row, column)), key=float)
    most = read("θ_max", f"Hottest air for {insulation}", float(hottest) * degC, listed.source)
    return ambient <= most


def usable(as_laid: Quantity, size: str, metal: str, method: str, loaded: str, terminals: str) -> Quantity:
    """Iz at its terminals [A]: what is made for 70 °C conductors takes no more than the 70 °C column, whatever the wire."""
    if terminals == "90 °C":
        return alternative("I_z", "Usable capacity", as_laid, "terminals made for 90 °C conductors", A)
    label = f"Current of {size} {metal} at 70 °C, which its terminals are made for"
    lugs = table(ampacity_table(metal)).read("I_lug", label, size, f"PVC {loaded} {method}")
    place = IEC_60364_5_52.at("523.1, note; BS 7671, 512.1.5", "read in a trade association's bulletin")
    return limit("I_z", "Usable capacity, the lower of the two", smallest(as_laid, lugs), A, place)


def capacity_for_device(iz: Quantity, device: str, rated: Quantity) -> Quantity:
    """The largest rated current that this conductor may have before it [A]: I₂ ≤ 1.45·Iz is the ruling."""
    if device != GG_FUSE:
        because = "a circuit-breaker trips at 1.45 times its rating by its own standard"
        return alternative("I_dev", "Largest breaker for the conductor", iz, because, A, IEC_60364_4_43.at("433.1"))
    place = IEC_60364_4_43.at("433.1, with IEC 60269-1, Table 2")
    larger = constant(
        "k_gG",
        "Of what the wire carries, for a gG fuse of 16 A and more, which opens at 1.6 times its rating",
        0.9 * one,
        place,
    )
    smaller = constant(
        "k_gg",
        "Of what the wire carries, for a gG fuse under 16 A, which opens at 1.9 times its rating",
        0.76 * one,
        place,
    )
    smallest_ones = constant(
        "k_g",
        "Of what the wire carries, for a gG fuse of 4 A and less, which opens at 2.1 times its rating",
        0.69 * one,
        place,
    )
    sixteen, four = (
        constant("I_16", "Where the larger fuses begin", 16 * A, place),
        constant("I_4", "Where the smallest end", 4 * A, place),
    )
    factor = choose(
        "k_f",
        "Share of the capacity that this fuse may have",
        (rated >= sixteen, larger, "16 A and more"),
        (rated <= four, smallest_ones, "4 A and less"),
        (smaller, "between the two"),
        unit=one,
    )
    return limit("I_dev", "Largest fuse for the conductor", factor * iz, A, place)


def drop_per_amp(size: str, metal: str, circuit: str, length: Quantity, power_factor: Quantity) -> Quantity:
    """Ohms that a one-way length puts in the way of the current, by the informative annex on voltage drop [mΩ]."""
    resistivity = 0.0225 if metal == "copper" else 0.036
    rho = constant(
        "ρ₁",
        f"Resistivity of {metal} in normal service, 1.25 times that at 20 °C",
        resistivity * ohm_mm2_per_m,
        IEC_60364_5_52.at("Annex G"),
    )
    area = read("S", "Cross-section", float(size.split()[0]) * mm2, IEC_60364_5_52.at("Annex B"))
    if circuit == "dc":
        return step("Z", "Resistance of one conductor", rho * length / area, mohm)
    reactance = constant("λ", "Reactance per length", 0.08 * ohm_per_km, IEC_60364_5_52.at("Annex G"))
    sine = step("qf", "Share of the current out of step", root(1 - power_factor**2), one, OWN_DERIVATION)
    return step(
        "Z",
        "Opposition of one conductor",
        rho * length / area * power_factor + reactance * length * sine,
        mohm,
        IEC_60364_5_52.at("Annex G"),
    )


def resistance(size: str, metal: str, hot: Quantity) -> Quantity:
    """Resistance per length of one conductor [Ω/km], at its own temperature, by the annex's resistivity at 20 °C."""
    at_20 = constant(
        "ρ₂₀",
        f"Resistivity of {metal} at 20 °C",
        (0.018 if metal == "copper" else 0.0288) * ohm_mm2_per_m,
        IEC_60364_5_52.at("Annex G: that in normal service is 1.25 times it"),
    )
    area = read("S", "Cross-section", float(size.split()[0]) * mm2, IEC_60364_5_52.at("Annex B"))
    rise = constant(
        "α₂₀", f"Rise of {metal}'s resistance", (0.00393 if metal == "copper" else 0.00403) * per_K, IEC_60287
    )
    reference = constant("θ₂₀", "Temperature of the resistivity", 20 * degC, IEC_60287)
    return step("r", "Resistance as it works", at_20 / area * (1 + rise * (hot - reference)), ohm_per_km)


def volts_lost(opposition: Quantity, loop: Quantity) -> Quantity:
    """Volts lost on a run [V]."""
    return need("ΔV", "Volts lost on the run", opposition * loop, V, IEC_60364_5_52.at("Annex G"))
