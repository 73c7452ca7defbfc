"""What the pages on branch wiring ask alike: one wording, one range and one symbol for each."""

from __future__ import annotations

from typing import Any

from calc.check import IEC, NEC, ask, ask_fact, pick_fact
from calc.facts.wiring import GG_FUSE, OF_TYPES
from calc.laws import conductor as us
from calc.laws import conductor_iec as iec
from calc.units import A, V, degC, ft, one, percent, wires

ONE_LOAD, SEVERAL = "one load", "several receptacles"
BREAKER = "circuit-breaker"
SPLIT = "split-phase"
ALTERNATING = {"circuit": ("one-phase", SPLIT)}
SPLIT_PHASE = {"circuit": (SPLIT,)}

# --- the load ------------------------------------------------------------------------------------------------


def circuit(**more: Any) -> Any:
    return pick_fact("cables.circuit", "one-phase", {NEC: us.CIRCUITS, IEC: ("dc", "one-phase")}, **more)


def volts(**more: Any) -> Any:
    return ask_fact("V", "cables.volts", 120 * V, common=(12 * V, 48 * V, 120 * V, 240 * V), **more)


def continuous_current(**more: Any) -> Any:
    return ask_fact("I_c", "cables.current", 12 * A, common=(12 * A, 16 * A, 24 * A, 32 * A), **more)


def other_current(**more: Any) -> Any:
    return ask_fact("I_o", "cables.other_current", 0 * A, **more)


def lighter_leg(**more: Any) -> Any:
    return ask(
        "I_₂",
        "Current in the lighter leg",
        0 * A,
        low=0 * A,
        high=600 * A,
        when=SPLIT_PHASE,
        rules=(NEC,),
        habit=True,
        help="The two numbers above are the heavier leg; 0 is the worst for the drop",
        **more,
    )


def power_factor(**more: Any) -> Any:
    return ask(
        "pf",
        "Power factor",
        1 * one,
        low=0.3 * one,
        high=1 * one,
        habit=True,
        when=ALTERNATING,
        common=(0.8 * one, 0.9 * one, 1 * one),
        help="1 for heaters and chargers; motors about 0.8",
        **more,
    )


# --- the wire ------------------------------------------------------------------------------------------------


def run_length(**more: Any) -> Any:
    return ask_fact("L", "cables.length", 60 * ft, common=(25 * ft, 50 * ft, 100 * ft), **more)


def metal(**more: Any) -> Any:
    return pick_fact("cables.metal", us.COPPER, **more)


def size(**more: Any) -> Any:
    sizes = {NEC: us.sizes(us.COPPER, us.RACEWAY), IEC: iec.sizes()}
    return pick_fact("cables.size", {NEC: "12 AWG", IEC: "2.5 mm2"}, sizes, **more)


def insulation(**more: Any) -> Any:
    kinds = {NEC: ("60 °C", "75 °C", "90 °C"), IEC: iec.INSULATIONS}
    return pick_fact("cables.insulation", {NEC: "90 °C", IEC: "XLPE 90 °C"}, kinds, **more)


def terminals(**more: Any) -> Any:
    ratings = {NEC: ("60 °C", "75 °C"), IEC: ("70 °C", "90 °C")}
    return pick_fact("cables.terminals", {NEC: "60 °C", IEC: "70 °C"}, ratings, **more)


def ambient(**more: Any) -> Any:
    return ask_fact("θ_a", "cables.ambient", 30 * degC, habit=True, common=(30 * degC, 45 * degC, 60 * degC), **more)


def carrying(**more: Any) -> Any:
    return ask_fact(
        "n", "cables.carrying", 2 * wires, rules=(NEC,), common=(2 * wires, 3 * wires, 4 * wires, 6 * wires), **more
    )


def lay(**more: Any) -> Any:
    return pick_fact("cables.lay", us.RACEWAY, {NEC: (us.RACEWAY, us.FREE_AIR)}, **more)


def method(**more: Any) -> Any:
    return pick_fact("cables.method", "B2", {IEC: iec.METHODS}, **more)


def loaded(**more: Any) -> Any:
    return pick_fact("cables.loaded", "2", rules=(IEC,), **more)


def circuits(**more: Any) -> Any:
    return ask_fact("N", "cables.grouped", 1 * wires, rules=(IEC,), **more)


def hot(**more: Any) -> Any:
    return ask(
        "θ_w",
        "The wire's own temperature at work",
        75 * degC,
        low=-20 * degC,
        high=105 * degC,
        habit=True,
        rules=(NEC,),
        help="75 °C is what the resistance tables assume; a cold reel reads 18 % less",
        **more,
    )


# --- the breaker ---------------------------------------------------------------------------------------------


def breaker(**more: Any) -> Any:
    return ask_fact("I_B", "devices.rating", 20 * A, common=(15 * A, 20 * A, 30 * A, 50 * A), **more)


def device(**more: Any) -> Any:
    """Of circuit-breakers any type: that they trip at 1.45 times their rating holds for all of them."""
    kinds = dict.fromkeys(OF_TYPES, BREAKER) | {GG_FUSE: GG_FUSE}
    return pick_fact("devices.opens", BREAKER, {IEC: (BREAKER, GG_FUSE)}, means=kinds, **more)


# --- the loss ------------------------------------------------------------------------------------------------


def wanted_drop(**more: Any) -> Any:
    return ask(
        "d_go",
        "Loss you would like to stay under",
        3 * percent,
        low=0.5 * percent,
        high=10 * percent,
        habit=True,
        common=(1 * percent, 3 * percent, 5 * percent),
        help="3 % for a branch circuit; 1 % on the battery side of an inverter",
        **more,
    )


def most_drop(**more: Any) -> Any:
    return ask(
        "d_max",
        "Most you would accept",
        5 * percent,
        low=0.5 * percent,
        high=15 * percent,
        habit=True,
        common=(2 * percent, 5 * percent, 8 * percent),
        help="5 % for a branch circuit, 2 % on the battery side; IEC allows 6 (lights) or 8 % from a supply of your own",
        **more,
    )
