"""What the pages on the battery's side of the inverter ask alike: one wording, one range and one symbol for each."""

from __future__ import annotations

from typing import Any

from calc.check import IEC, NEC, ask, ask_fact, pick, pick_fact
from calc.laws import conductor as us
from calc.laws import conductor_iec as iec
from calc.units import A, V, W, degC, ft, mohm, one, percent, wires

BY_INVERTER, BY_AMPS = "an inverter at its full rating", "amps known"
LOADS = (BY_INVERTER, BY_AMPS)
OF_INVERTER = {"load": (BY_INVERTER,)}

FROM_CELLS, STATED = "from the resistance of its cells", "stated by the maker"
OF_CELLS = {"short_known": (FROM_CELLS,)}


def load(**more: Any) -> Any:
    return pick("What it feeds", LOADS, BY_INVERTER, habit=True, help="The current at the lowest volts counts, either way", **more)


def amps(**more: Any) -> Any:
    return ask(
        "I_in",
        "Lasting current, at the lowest volts",
        100 * A,
        low=1 * A,
        high=1000 * A,
        common=(60 * A, 100 * A, 150 * A),
        help="Watts over the volts at cut-off, not over the nominal volts",
        when={"load": (BY_AMPS,)},
        **more,
    )


def continuous(**more: Any) -> Any:
    return ask_fact("P_r", "inverter.continuous", 5000 * W, common=(3000 * W, 5000 * W, 6000 * W), **more)


def idle(**more: Any) -> Any:
    return ask_fact("P₀", "inverter.idle", 60 * W, common=(25 * W, 55 * W, 90 * W), **more)


def peak_efficiency(**more: Any) -> Any:
    return ask_fact(
        "η", "inverter.peak_efficiency", 93 * percent, common=(90 * percent, 93 * percent, 95 * percent), **more
    )


def cutoff(**more: Any) -> Any:
    return ask_fact("V_co", "inverter.cutoff", 46 * V, **more)


def highest_volts(**more: Any) -> Any:
    return ask_fact("V_cv", "bank.highest_volts", 57.6 * V, common=(14.4 * V, 28.8 * V, 57.6 * V, 58.4 * V), **more)


def short_known(**more: Any) -> Any:
    return pick(
        "Short-circuit current is known",
        (FROM_CELLS, STATED),
        FROM_CELLS,
        habit=True,
        help="A maker's figure is better, if it is for the whole bank, warm and full",
        **more,
    )


def short_stated(**more: Any) -> Any:
    return ask_fact("I_sc", "bank.short_circuit", 8000 * A, when={"short_known": (STATED,)}, **more)


def series(**more: Any) -> Any:
    return ask_fact("N_s", "bank.series", 16 * one, common=(8 * one, 15 * one, 16 * one), **more)


def strings(**more: Any) -> Any:
    return ask_fact("N_p", "bank.strings", 1 * one, **more)


def cell_resistance(**more: Any) -> Any:
    return ask_fact("r_c", "bank.cell_resistance", 0.4 * mohm, common=(0.15 * mohm, 0.2 * mohm, 0.5 * mohm), **more)


def leads(**more: Any) -> Any:
    return ask(
        "R_l",
        "Resistance of links and leads",
        0 * mohm,
        low=0 * mohm,
        high=100 * mohm,
        habit=True,
        help="0 counts none, which is the worst; up to where the short is",
        **more,
    )


def length(**more: Any) -> Any:
    return ask_fact("L", "cables.length", 3 * ft, common=(2 * ft, 3 * ft, 6 * ft), **more)


def size(**more: Any) -> Any:
    return pick_fact(
        "cables.size",
        {NEC: "2/0 AWG", IEC: "70 mm2"},
        {NEC: us.sizes(us.COPPER, us.RACEWAY), IEC: iec.sizes()},
        help="Printed on the jacket; copper",
        **more,
    )


def insulation(**more: Any) -> Any:
    return pick_fact(
        "cables.insulation",
        {NEC: "105 °C", IEC: "XLPE 90 °C"},
        {NEC: ("60 °C", "75 °C", "90 °C", "105 °C"), IEC: iec.INSULATIONS},
        **more,
    )


def terminals(**more: Any) -> Any:
    return pick_fact(
        "cables.terminals", {NEC: "75 °C", IEC: "70 °C"}, {NEC: ("60 °C", "75 °C"), IEC: ("70 °C", "90 °C")}, **more
    )


def ambient(**more: Any) -> Any:
    return ask_fact("θ_a", "cables.ambient", 45 * degC, habit=True, common=(30 * degC, 45 * degC, 60 * degC), **more)


def lay(**more: Any) -> Any:
    return pick_fact("cables.lay", us.RACEWAY, {NEC: (us.RACEWAY, us.FREE_AIR)}, habit=True, **more)


def method(**more: Any) -> Any:
    return pick_fact("cables.method", "B2", {IEC: iec.METHODS}, habit=True, **more)


def carrying(**more: Any) -> Any:
    return ask_fact("n", "cables.carrying", 2 * wires, rules=(NEC,), habit=True, **more)


def circuits(**more: Any) -> Any:
    return ask_fact("N", "cables.grouped", 1 * wires, rules=(IEC,), habit=True, **more)
