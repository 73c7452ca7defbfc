"""What a conductor stands in a short: all the heat stays in the metal until the insulation has its limit."""

from __future__ import annotations

from calc.asks import NEC
from calc.quantity import OutsideValidity, Quantity, constant, exponential, limit, log, need, read, root
from calc.sources import FROM_MEMORY, ICEA_P_32_382, IEC_60364_4_43, IEC_60949
from calc.tables import table
from calc.units import A2s_per_mm4, degC, mm2

COPPER, ALUMINIUM = "copper", "aluminium"

# Hottest that each insulation may become in a short of less than five seconds [°C]: IEC 60364-4-43, Table 43A.
HOTTEST = {"PVC": 160, "rubber": 200, "XLPE or EPR": 250}
# The US publication lets thermoplastic insulation have less.
_HOTTEST_US = {"PVC": 150}
# K [A·√s/mm²] and β [°C]: IEC 60949.
_METALS = {COPPER: (226, -234.5), ALUMINIUM: (148, -228)}


def at_work(insulation: str) -> Quantity:
    """The temperature at which the short finds the conductor [°C]: the most that its insulation is rated for."""
    degrees = next(int(word) for word in insulation.split() if word.isdigit())
    return read(
        "θ_i",
        f"Conductor at the start, {insulation} insulation at its rating",
        degrees * degC,
        IEC_60364_4_43.at("434.5.2"),
    )


def hottest(kind: str, rules: str) -> Quantity:
    """The most that this insulation stands for a moment [°C]."""
    label = f"Hottest that {kind} stands for a moment"
    if rules == NEC and kind in _HOTTEST_US:
        return constant("θ_f", label, _HOTTEST_US[kind] * degC, ICEA_P_32_382)
    return constant("θ_f", label, HOTTEST[kind] * degC, IEC_60364_4_43.at("Table 43A", FROM_MEMORY))


def area(size: str) -> Quantity:
    """The cross-section of a size [mm²]."""
    if size.endswith("mm2"):
        return read("S", "Cross-section", float(size.split()[0]) * mm2, IEC_60364_4_43.at("Table 43A"))
    return table("conductor_resistance").read("S", f"Cross-section of {size}", size, "mm2", mm2)


def _metal(metal: str) -> tuple[Quantity, Quantity]:
    factor, zero = _METALS[metal]
    squared = constant("K²", f"Heat that {metal} takes up, over its resistance", factor**2 * A2s_per_mm4, IEC_60949)
    return squared, constant(
        "θ_β", f"Temperature at which the resistance of {metal} would vanish", zero * degC, IEC_60949
    )


def k_squared(metal: str, start: Quantity, end: Quantity) -> Quantity:
    """The square of the factor k of the published tables [A²s/mm⁴]: K²·ln((θf − θβ)/(θi − θβ))."""
    if (start >= end).holds:
        raise OutsideValidity(
            f"Insulation rated {start} is not of a kind that stands {end} at most: choose what it is made of."
        )
    squared, zero = _metal(metal)
    return limit("k²", "Square of the factor k", squared * log((end - zero) / (start - zero)), A2s_per_mm4, IEC_60949)


def least_area(through: Quantity, k_squared: Quantity) -> Quantity:
    """The least cross-section that stands what is let through [mm²]: √(I²t)/k."""
    return need(
        "S_min", "Least cross-section that survives", root(through / k_squared), mm2, IEC_60364_4_43.at("434.5.2")
    )


def end_temperature(metal: str, area: Quantity, start: Quantity, through: Quantity) -> Quantity:
    """How hot the conductor is in the end [°C]."""
    squared, zero = _metal(metal)
    return need(
        "θ_e",
        "Conductor when it is over",
        zero + (start - zero) * exponential(through / (squared * area**2)),
        degC,
        IEC_60949,
    )
