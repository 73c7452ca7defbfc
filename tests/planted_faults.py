"""Rigs made for the test: six sound ones, and one for each planted fault, a sound rig with one thing wrong.

`python tests/planted_faults.py` writes the list of them, docs/planted-faults.md.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from calc import units as u
from calc.check import IEC, NEC
from calc.quantity import Quantity
from calc.rig import Known, Rig, read_rig

ROOT = Path(__file__).resolve().parents[1]
RIGS, LIST = ROOT / "tests" / "rigs", ROOT / "docs" / "planted-faults.md"

HAND, CART, STAGE, SHED = "hand-cart-12v", "cart-24v", "cart-48v-split-phase", "cart-230v"
TRAILER, FEN = "trailer-48v", "trailer-230v"
# The rules by which each sound rig is inspected.
SOUND = {HAND: NEC, CART: NEC, STAGE: NEC, SHED: IEC, TRAILER: NEC, FEN: IEC}


@dataclass(frozen=True, eq=False)
class Planted:
    """One fault: what is wrong in words, in which sound rig, by which facts (None: nobody said), and its name when found."""

    wrong: str
    rig: str
    facts: Mapping[str, Known | None]
    found_as: str

    @property
    def rules(self) -> str:
        return SOUND[self.rig]


@cache
def sound(name: str) -> Rig:
    return read_rig((RIGS / f"{name}.json").read_text(encoding="utf-8"))


def spoilt(planted: Planted) -> Rig:
    """The sound rig with the fault in it."""
    facts = {**sound(planted.rig).facts, **planted.facts}
    return Rig(planted.wrong, {path: fact for path, fact in facts.items() if fact is not None})


# A wire is traced from both ends; parts must fit each other; what the single questions ask comes after.
PLANTED = (
    # wires and what protects them
    Planted("a wire stands behind no breaker", CART, {"cables.1.device": None}, "Wire without protection"),
    Planted("the breaker before a wire was taken out", STAGE, {"cables.1.device": "a breaker that was there"}, "Wire without protection"),
    Planted("the battery cable is protected from the inverter's end only", CART, {"cables.0.device": "bench breaker"}, "Wire without protection at the bank's end"),
    Planted("an ac wire stands behind the bank's fuse", STAGE, {"cables.2.device": "main fuse"}, "Wire without protection at the inverter's end"),
    Planted("a wire is too thin for its breaker", CART, {"cables.1.size": "14 AWG"}, "Wire for a run"),
    Planted("the breaker is too large for the cords, by the international rules", SHED, {"devices.1.rating": 32 * u.A, "outlets.0.breaker": 32 * u.A}, "Extension cord"),
    Planted("a wire is too long for its load", STAGE, {"cables.1.length": 250 * u.ft}, "Wire for a run"),
    Planted("the ground wire is too thin", TRAILER, {"cables.3.ground_size": "14 AWG"}, "Ground wire"),
    Planted("the battery cable is too thin for the inverter", CART, {"cables.0.size": "6 AWG"}, "Battery cable"),
    Planted("an extension cord is too thin for its tool", CART, {"loads.0.cord_size": "18 AWG", "loads.0.amps": 13 * u.A}, "Extension cord"),
    Planted("two breakers follow one another in a circle", STAGE, {"devices.1.behind": "light breaker", "devices.2.behind": "sound breaker"}, "Devices in a circle"),
    Planted("a breaker stands before nothing", CART, {"cables.2.device": "bench breaker"}, "Device that protects nothing"),
    Planted("a breaker stands behind one that is not there", STAGE, {"devices.1.behind": "sub-panel breaker"}, "Refers to nothing"),
    Planted("the battery cable melts before its fuse opens", TRAILER, {"devices.0.clearing_time": 2 * u.s}, "Cable in a short"),
    Planted("too many circuits lie together, by the international rules", FEN, {"cables.1.grouped": 9 * u.wires}, "Wire for a run"),
    Planted("a wire lies in an insulated wall, too thin for its breaker there", FEN, {"cables.3.method": "A2", "cables.3.size": "2.5 mm2"}, "Breaker for a circuit"),
    Planted("the protective conductor is thinner than its line", FEN, {"cables.3.ground_size": "2.5 mm2"}, "Ground wire"),
    Planted("a gG fuse as large as the breaker it replaces is too large for the wire", FEN, {"devices.1.opens": "gG fuse"}, "Wire for a run"),
    Planted("the battery cable lies among others", FEN, {"cables.0.grouped": 6 * u.wires}, "Fuse at the battery"),
    # outlets
    Planted("the breaker is too large for its outlet", CART, {"outlets.0.breaker": 30 * u.A, "devices.1.rating": 30 * u.A}, "Breaker too large for its outlet"),
    Planted("an outlet has no breaker of its own, and that of its wire is too large", CART, {"outlets.1.breaker": None, "devices.2.rating": 30 * u.A}, "Breaker too large for its outlet"),
    Planted("two wires feed one outlet", STAGE, {"cables.2.feeds": ("light side", "sound side")}, "Outlet fed twice"),
    Planted("an outlet promises volts that are not there", HAND, {"outlets.0.configuration": "6-15"}, "Outlet with volts that are not there"),
    Planted("an outlet takes two legs where there is one", HAND, {"outlets.0.leg": "both"}, "Two legs on a supply that has one"),
    Planted("an outlet has no ground", TRAILER, {"outlets.2.configuration": "10-50"}, "Outlet without ground"),
    Planted("an outlet in the rain has no ground-fault device", CART, {"outlets.0.ground_fault": "none"}, "Ground-fault device"),
    Planted("a load is plugged into an outlet that is not there", STAGE, {"loads.0.outlet": "stage left"}, "Plugged into nothing"),
    # bank and inverter
    Planted("the bank has more volts than the inverter takes", CART, {"bank.highest_volts": 33 * u.V}, "Too many volts for the inverter"),
    Planted("the battery opens before the inverter stops", STAGE, {"bank.lowest_volts": 47 * u.V}, "The battery opens before the inverter stops"),
    Planted("the fuse breaks fewer volts than the bank is charged to", STAGE, {"devices.0.dc_volts": 32 * u.V}, "Device that cannot break the bank"),
    Planted("the fuse cannot break a dead short of the bank", CART, {"devices.0.interrupting": 2000 * u.A}, "Fuse at the battery"),
    Planted("the fuse is too large for the battery cable", HAND, {"devices.0.rating": 250 * u.A}, "Fuse at the battery"),
    Planted("the fuse sits too far from the bank", TRAILER, {"devices.0.distance": 60 * u.inch}, "Fuse at the battery"),
    Planted("strings in parallel have no fuse of their own", TRAILER, {"bank.string_fuses": "no"}, "Fuse at the battery"),
    Planted("the inverter draws more than the bank may give", HAND, {"bank.discharge_limit": 40 * u.A}, "Current from the bank"),
    Planted("the cells are too many for the inverter", SHED, {"bank.series": 20 * u.one}, "Bank from cells"),
    Planted("the precharge resistor burns", STAGE, {"precharge.pulse": 2 * u.J}, "Precharge"),
    Planted("both wires leave three batteries at the same end", TRAILER, {"bank.takeoff": "both wires at the same end", "bank.link_resistance": 2 * u.mohm}, "Batteries in parallel"),
    # charging
    Planted("the charger is set above what the cells take", HAND, {"inverter.charger_set": 120 * u.A}, "Charge at this temperature"),
    Planted("the cells are below freezing and would be charged", SHED, {"now.cells": -4 * u.degC}, "Charge at this temperature"),
    Planted("charger and panels together are more than the bank takes", CART, {"inverter.charger_set": 90 * u.A, "inverter.charger_amps": 90 * u.A}, "Chargers too strong together"),
    Planted("the panels have more volts in the cold than the controller stands", TRAILER, {"panels.series": 6 * u.one, "panels.count": 6 * u.one}, "Panels in series"),
    Planted("strings of panels in parallel have no fuses", TRAILER, {"panels.count": 16 * u.one}, "Fuses for panels"),
    # two sources, neutral, ground
    Planted("nothing keeps inlet and inverter apart", CART, {"inlet.transfer": "one pole only, or nothing"}, "Back out of the inlet"),
    Planted("the inlet's pins are live when the cord is out", STAGE, {"inlet.shows_live_pins": "yes"}, "Live pins at the inlet"),
    Planted("a building is fed through a breaker in its panel", TRAILER, {"place.feeds": "a building", "place.into_building": "a breaker in the panel, or an outlet", "place.building_switches": "no"}, "Back out of the inlet"),
    Planted("neutral is bonded nowhere", CART, {"inverter.bond": "none"}, "Bond and ground"),
    Planted("neutral is bonded twice while it is plugged in", CART, {"inverter.bond": "fixed", "inverter.switches_neutral": "no"}, "Neutral bonded twice"),
    Planted("two bonds when it feeds a building", STAGE, {"place.feeds": "a building", "place.into_building": "a listed transfer switch", "inverter.switches_neutral": "no"}, "Two bonds when it feeds a building"),
    Planted("the outlets are not bonded to the frame", SHED, {"wiring.frame_bonded": "no"}, "Bond and ground"),
    Planted("the bond wire is too thin", CART, {"wiring.bond_wire": "14 AWG"}, "Bond and ground"),
    Planted("battery minus is bonded to the frame at several points", TRAILER, {"bank.frame_bond": "at several points"}, "Battery minus bonded at several points"),
    Planted("circuits of one leg share a neutral", STAGE, {"wiring.shared_neutral": "yes, and both hang on one leg", "wiring.leg_a": 24 * u.A, "wiring.leg_b": 0 * u.A}, "Legs and neutral"),
    Planted("an adapter without a breaker hangs the inlet on a much larger outlet", CART, {"inlet.outlet": "14-50", "inlet.breaker": 50 * u.A, "inlet.adapter_cord": "12 AWG"}, "Plug and outlet"),
    # loads and cars
    Planted("the loads together are too much for one leg", STAGE, {"loads.0.running_watts": 2600 * u.W, "loads.1.running_watts": 2600 * u.W}, "Loads together"),
    Planted("a tool's start trips the inverter", CART, {"loads.0.start": "universal motor: saw or grinder", "inverter.surge": 2200 * u.W}, "Tool on an outlet"),
    Planted("the car is set above what its outlet gives", TRAILER, {"cars.0.charging_amps": 48 * u.A}, "Amps for the car"),
    Planted("the car must go farther than what is stored takes it", TRAILER, {"place.trip": 200 * u.mi}, "Distance in the car"),
    # wheels and weight
    Planted("a tyre carries more than it is made for", STAGE, {"chassis.wheel_rating": 40 * u.kg}, "Wheels and tyres"),
    Planted("a tyre has lost its air", CART, {"now.pressure": 6 * u.psi}, "Wheels and tyres"),
    Planted("too little weight is on the hitch", TRAILER, {"parts.0.ahead": 0 * u.mm}, "Weights and balance"),
    Planted("the hitch carries more than it is made for", TRAILER, {"chassis.tongue_rating": 20 * u.kg}, "Weights and balance"),
    Planted("it is pulled by too light a vehicle", TRAILER, {"tow.rating": 300 * u.kg}, "Towing it"),
    Planted("its weight stands so high that it tips", CART, {"chassis.cg_height": 2200 * u.mm}, "Tipping over"),
    Planted("nothing holds it on a slope", STAGE, {"chassis.brake": "none", "chassis.chocks": "none", "place.slope": 6 * u.percent}, "Parked on a slope"),
    Planted("a step is too high for its wheels", HAND, {"place.step_height": 60 * u.mm}, "Over a step"),
    # weather, air, heat
    Planted("a part is not fit for the rain", CART, {"place.standing": "in the rain", "parts.1.weather": "IP21"}, "Weather rating"),
    Planted("the inverter's vents are blocked", HAND, {"inverter.air_gap": 2 * u.mm}, "Room for air"),
    Planted("the inverter's fans move too little air", SHED, {"inverter.air_flow": 10 * u.m3_per_h}, "Heat and air"),
    Planted("the box is closed and gets too hot", STAGE, {"box.breathing": "closed", "box.heat": 400 * u.W}, "Heat in the box"),
    Planted("a heavy part hangs on two screws in thin tube", CART, {"parts.1.screws": "2", "parts.1.wall": 0.5 * u.mm}, "Bolted on"),
    Planted("a strap over the bank is too weak", FEN, {"parts.0.straps": "1", "parts.0.strap_limit": 200 * u.kg}, "Bolted on"),
    Planted("water settles on cold metal inside", FEN, {"now.cold_surface": 4 * u.degC}, "Dew inside"),
    Planted("a gland is too small for its cord", FEN, {"cables.4.clamp_least": 6 * u.mm, "cables.4.clamp_most": 12 * u.mm}, "Cord into a box"),
    Planted("the inverter hangs upside down", CART, {"inverter.mounted": "upside down, fins still upright"}, "Which way up"),
    # what is said of it
    Planted("two breakers have one name", STAGE, {"devices.2.name": "sound breaker"}, "Two things of one name"),
    Planted("a wire feeds an outlet that is not there", CART, {"cables.1.feeds": ("bench outlet", "roof outlet")}, "Refers to nothing"),
    Planted("an outlet hangs on no wire", CART, {"cables.2.feeds": ("bench outlet",)}, "Outlet on no wire"),
)  # fmt: skip


def shown(fact: Known | None) -> str:
    if fact is None:
        return "not said"
    return str(fact) if isinstance(fact, Quantity) else ", ".join(fact) if isinstance(fact, tuple) else fact


def page() -> str:
    """The list as docs/planted-faults.md holds it."""
    rows = [
        f"| {planted.wrong} | {planted.rig} | {'; '.join(f'`{path}`: {shown(fact)}' for path, fact in planted.facts.items())} | {planted.found_as} |"
        for planted in PLANTED
    ]
    sounds = [f"- `tests/rigs/{name}.json`, {sound(name).name}, by the rules `{rules}`" for name, rules in SOUND.items()]
    return "\n".join(
        [
            "# Planted faults",
            "",
            "What the walk-round is held to. In each of these sound rigs it finds no fault:",
            "",
            *sounds,
            "",
            "Each row is one of them with one thing wrong. The walk-round names the fault as in the last column, and every",
            "change that it proposes clears the fault it is proposed for and makes no other (tests/test_planted_faults.py).",
            "This page is written by `python tests/planted_faults.py`.",
            "",
            "| what is wrong | in which rig | the facts changed | found as |",
            "|---|---|---|---|",
            *rows,
            "",
        ]
    )


if __name__ == "__main__":
    LIST.write_text(page(), encoding="utf-8")
