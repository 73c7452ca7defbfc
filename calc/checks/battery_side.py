"""What the pages on the battery's side of the inverter ask alike: one wording, one range and one symbol for each."""

from __future__ import annotations

from typing import Any

from calc.check import IEC, NEC, ask, pick
from calc.laws import conductor as us
from calc.laws import conductor_iec as iec
from calc.units import A, V, W, degC, ft, mohm, one, percent

BY_INVERTER, BY_AMPS = "an inverter at its full rating", "amps known"
LOADS = (BY_INVERTER, BY_AMPS)
OF_INVERTER = {"load": (BY_INVERTER,)}

FROM_CELLS, STATED = "from the resistance of its cells", "stated by the maker"
OF_CELLS = {"short_known": (FROM_CELLS,)}


def load(**more: Any) -> Any:
    return pick("What it feeds", LOADS, BY_INVERTER, help="The current at the lowest volts counts, either way", **more)


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
    return ask(
        "P_r",
        "Inverter's continuous rating here",
        5000 * W,
        low=100 * W,
        high=30_000 * W,
        fact="inverter.continuous",
        common=(3000 * W, 5000 * W, 6000 * W),
        help="On its plate, less what heat and altitude take off",
        **more,
    )


def idle(**more: Any) -> Any:
    return ask(
        "P₀",
        "Inverter's idle draw",
        60 * W,
        low=0.5 * W,
        high=500 * W,
        fact="inverter.idle",
        common=(25 * W, 55 * W, 90 * W),
        help="In its manual: no-load watts",
        **more,
    )


def peak_efficiency(**more: Any) -> Any:
    return ask(
        "η",
        "Inverter's best efficiency",
        93 * percent,
        low=75 * percent,
        high=99 * percent,
        fact="inverter.peak_efficiency",
        common=(90 * percent, 93 * percent, 95 * percent),
        help="In its manual",
        **more,
    )


def cutoff(**more: Any) -> Any:
    return ask(
        "V_co",
        "Inverter's low-voltage cut-off",
        46 * V,
        low=5 * V,
        high=800 * V,
        fact="inverter.cutoff",
        help="In its settings",
        **more,
    )


def highest_volts(**more: Any) -> Any:
    return ask(
        "V_cv",
        "Highest volts while charging",
        57.6 * V,
        low=5 * V,
        high=1000 * V,
        fact="bank.highest_volts",
        common=(14.4 * V, 28.8 * V, 57.6 * V, 58.4 * V),
        help="The absorb or charge voltage in the charger's settings",
        **more,
    )


def short_known(**more: Any) -> Any:
    return pick(
        "Short-circuit current is known",
        (FROM_CELLS, STATED),
        FROM_CELLS,
        help="A maker's figure is better, if it is for the whole bank, warm and full",
        **more,
    )


def short_stated(**more: Any) -> Any:
    return ask(
        "I_sc",
        "Short-circuit current of the bank",
        8000 * A,
        low=50 * A,
        high=100_000 * A,
        fact="bank.short_circuit",
        help="In the maker's sheet; all strings together",
        when={"short_known": (STATED,)},
        **more,
    )


def series(**more: Any) -> Any:
    return ask(
        "N_s",
        "Cells in series",
        16 * one,
        low=1 * one,
        high=200 * one,
        fact="bank.series",
        whole=True,
        common=(8 * one, 15 * one, 16 * one),
        help="Count them; a 48 V class LFP bank has 15 or 16",
        **more,
    )


def strings(**more: Any) -> Any:
    return ask(
        "N_p",
        "Batteries or strings in parallel",
        1 * one,
        low=1 * one,
        high=24 * one,
        fact="bank.strings",
        whole=True,
        help="Count them",
        **more,
    )


def cell_resistance(**more: Any) -> Any:
    return ask(
        "r_c",
        "Resistance of one cell at 1 kHz",
        0.4 * mohm,
        low=0.02 * mohm,
        high=50 * mohm,
        fact="bank.cell_resistance",
        common=(0.15 * mohm, 0.2 * mohm, 0.5 * mohm),
        help="The cell's data sheet, the lowest of its range; cells side by side count as one cell with their resistance shared",
        **more,
    )


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
    return ask(
        "L",
        "Length of the run, one way",
        3 * ft,
        low=0.5 * ft,
        high=1000 * ft,
        fact="cables.length",
        common=(2 * ft, 3 * ft, 6 * ft),
        help="One way along the cable; the way back is counted here",
        **more,
    )


def size(**more: Any) -> Any:
    return pick(
        "Conductor size",
        {NEC: us.sizes(us.COPPER, us.RACEWAY), IEC: iec.sizes()},
        {NEC: "2/0 AWG", IEC: "70 mm2"},
        fact="cables.size",
        help="Printed on the jacket; copper",
        **more,
    )


def insulation(**more: Any) -> Any:
    return pick(
        "Insulation",
        {NEC: ("60 °C", "75 °C", "90 °C", "105 °C"), IEC: iec.INSULATIONS},
        {NEC: "105 °C", IEC: "XLPE 90 °C"},
        fact="cables.insulation",
        help="By the type printed on the jacket",
        **more,
    )


def terminals(**more: Any) -> Any:
    return pick(
        "Lugs at both ends",
        {NEC: ("60 °C", "75 °C"), IEC: ("70 °C", "90 °C")},
        {NEC: "75 °C", IEC: "70 °C"},
        fact="cables.terminals",
        help="Marked on the fuse holder, switch or breaker; the cooler one where unmarked",
        **more,
    )


def ambient(**more: Any) -> Any:
    return ask(
        "θ_a",
        "Air around the wire",
        45 * degC,
        low=-40 * degC,
        high=80 * degC,
        fact="cables.ambient",
        habit=True,
        common=(30 * degC, 45 * degC, 60 * degC),
        help="45 °C in a closed box, 60 °C in a box in the sun",
        **more,
    )


def lay(**more: Any) -> Any:
    return pick(
        "How it lies",
        {NEC: (us.RACEWAY, us.FREE_AIR), IEC: iec.METHODS},
        {NEC: us.RACEWAY, IEC: "B2"},
        habit=True,
        help="Single cables with air all round stay cooler; their lugs do not. IEC: B2 is cable in conduit, C clipped, E in free air",
        **more,
    )
