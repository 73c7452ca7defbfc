"""The wire that carries a fault home: by the breaker, grown as the circuit's wires were; or by the line conductor."""

from __future__ import annotations

from calc.check import Named
from calc.facts.wiring import GROUND_RUNS
from calc.laws.conductor_iec import sizes as metric_sizes
from calc.laws.protection import breaker_before
from calc.quantity import Quantity, choose, constant, largest, need, read, root, step
from calc.sources import IEC_60364_5_54, NEC_2023, OWN_DERIVATION
from calc.tables import table
from calc.units import A, A2s_per_mm4, cmil, mm2, one

COPPER = "copper"
IN_CABLE, GUARDED, BARE = GROUND_RUNS

# k [A·√s/mm²] of a copper protective conductor: IEC 60364-5-54, Tables A.54.2 and A.54.4.
_K = {("PVC", True): 115, ("XLPE", True): 143, ("PVC", False): 143, ("XLPE", False): 176}


def _column(metal: str) -> str:
    return "Cu" if metal == COPPER else "Al"


_BY_LINE = IEC_60364_5_54.at("543.1.2; BS 7671, Table 54.7", "read in a trade association's guide")


# --- the US rules --------------------------------------------------------------------------------------------


def sizes() -> tuple[str, ...]:
    """The sizes that have an area in the code's table, thinnest first."""
    return table("conductor_resistance").rows


def by_breaker(breaker: Quantity, metal: str) -> str:
    """The smallest ground wire by the rating of the breaker: a size."""
    listed = table("grounding_conductor")
    return listed.text(listed.row_covering(breaker, A), _column(metal))


def area(symbol: str, label: str, size: str) -> Quantity:
    """The area of a size [cmil]."""
    return table("conductor_resistance").read(symbol, f"{label}, {size}", size, "cmil", cmil)


def grown_area(by_table: str, size: str, least_size: str, sets: Quantity) -> Quantity:
    """The area that the ground wire needs [cmil]: in proportion, where the circuit's wires are thicker than they need be.

    The ratio is not rounded, and a wire thinner than it should be earns no thinner ground.
    """
    listed = area("A_t", "Area of the ground wire by the breaker", by_table)
    used, least = (
        area("A_u", "Area of the circuit's wires", size),
        area("A_m", "Area of the thinnest that would do", least_size),
    )
    ratio = step("r_A", "Times the area that would do", largest(sets * used / least, 1), one, NEC_2023.at("250.122(B)"))
    return need("A_g", "Area that the ground wire needs", listed * ratio, cmil, NEC_2023.at("250.122(A), (B)"))


def listed_for(needed: Quantity, most: str) -> str:
    """The first size of at least this area, and never a larger one than the circuit's own."""
    areas = table("conductor_resistance")
    enough = next((row for row in areas.rows if (needed <= areas.value(row, "cmil", cmil)).holds), most)
    return min(enough, most, key=areas.rows.index)


def ground_for(breaker: Quantity, metal: str, size: str, least_size: str) -> Named:
    """The ground wire of a run, a listed size, with why: by the breaker, and grown as the wires were."""
    areas = table("conductor_resistance").rows
    table_size = by_breaker(breaker, metal)
    one_set = constant("n_p", "Wires side by side for each leg", 1 * one, OWN_DERIVATION)
    found = listed_for(grown_area(table_size, size, least_size, one_set), max(size, least_size, key=areas.index))
    why = f"{table_size} for a {breaker} breaker"
    if areas.index(size) > areas.index(least_size):
        why += f", grown as the wires were, from {least_size} to {size}"
    return Named(found, f"Ground wire, {metal}", why, table("grounding_conductor").source)


def thinnest_behind(
    breaker: Quantity, metal: str, lug_column: str, feeds_several: bool, choices: tuple[str, ...]
) -> str:
    """The thinnest size that may stand behind a breaker at all, at its lugs, before heat and crowding."""
    listed, column = table("ampacity_raceway"), f"{_column(metal)} {lug_column.split()[0]}"
    for size in choices:
        if listed.has(size, column):
            carries = listed.value(size, column, A)
            if (breaker <= breaker_before(carries, size, metal, feeds_several)).holds:
                return size
    return choices[-1]


# --- the international rules -----------------------------------------------------------------------------------


def by_line(size: str) -> Quantity:
    """The protective conductor by the line conductor [mm²]: as large to 16 mm², 16 to 35, half above."""
    line = read("S", f"Cross-section of the line conductor, {size}", float(size.split()[0]) * mm2, _BY_LINE)
    sixteen = constant("S_16", "As large as the line conductor up to", 16 * mm2, _BY_LINE)
    held = constant("S_35", "Held there for line conductors up to", 35 * mm2, _BY_LINE)
    return choose(
        "S_t",
        "Protective conductor by the line conductor",
        (line <= sixteen, line, "as large as the line conductor"),
        (line <= held, sixteen, "held at sixteen"),
        (lambda: line / 2, "half the line conductor"),
        unit=mm2,
        source=_BY_LINE,
    )


def earth_for(size: str) -> Named:
    """The protective conductor by the table, a listed size, with why."""
    wanted = by_line(size)
    found = next(row for row in metric_sizes() if (wanted <= float(row.split()[0]) * mm2).holds)
    why = wanted.step.note.partition(" (")[0] if wanted.step else ""
    return Named(found, "Protective conductor, copper", why, _BY_LINE)


def least_by_strength(runs: str) -> Quantity:
    """The least protective conductor outside a cable [mm²], so that it does not break."""
    place = IEC_60364_5_54.at("543.1.3", "read in a trade association's guide")
    least = {IN_CABLE: 0, GUARDED: 2.5, BARE: 4}[runs]
    return constant("S_s", f"Least for {runs}", least * mm2, place)


def k_squared(insulation: str, runs: str) -> Quantity:
    """The square of the factor k of a copper protective conductor [A²s/mm⁴]: in its cable it starts hot, beside it not."""
    k = _K[insulation.split()[0], runs == IN_CABLE]
    place = IEC_60364_5_54.at("Tables A.54.2 and A.54.4", "read in a trade's reference page")
    return constant("k²", f"Square of the factor k, {k} A·√s/mm²", k**2 * A2s_per_mm4, place)


def by_fault(symbol: str, label: str, current: Quantity, lasts: Quantity, k2: Quantity) -> Quantity:
    """The cross-section that survives a fault of up to 5 s [mm²]: √(I²t)/k."""
    return need(symbol, label, root(current**2 * lasts / k2), mm2, IEC_60364_5_54.at("543.1.2"))
