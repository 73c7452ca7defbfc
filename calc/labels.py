"""Labels to stick on: short enough to read at arm's length, each number from the rig's facts or the board's answers."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from calc.check import GO
from calc.filling import said
from calc.handover import UNKNOWN, Sheet
from calc.rig import Rig


@dataclass(frozen=True)
class Label:
    """One label. signal: DANGER or WARNING, or nothing; place: where it is stuck."""

    place: str
    title: str
    lines: tuple[str, ...]
    signal: str = ""


def labels(rig: Rig, sheet: Sheet) -> list[Label]:
    return [
        *_outlets(rig, sheet),
        *_cars(sheet),
        _battery(rig),
        _main_switch(rig),
        *_fuses(rig),
        *_inlet(rig),
        _wheels(rig),
    ]


def _outlets(rig: Rig, sheet: Sheet) -> Iterator[Label]:
    together = f"All outlets together {said(rig, 'inverter.continuous')}"
    for outlet in sheet.outlets:
        tested = (
            "Test button first, each day" if outlet.ground_fault not in ("none", UNKNOWN) else "No ground-fault device"
        )
        yield Label(
            f"Beside the outlet “{outlet.name}”",
            f"{outlet.pattern}: {outlet.for_a_while} at most",
            (f"{outlet.for_hours} for three hours or more", together, f"Leg: {outlet.leg}", tested),
        )


def _cars(sheet: Sheet) -> Iterator[Label]:
    for car in sheet.cars:
        known = car.verdict == GO
        title = car.say if known else "Set the car to ____ A"
        yield Label(f"Beside the outlet “{car.where}”", title, (f"For the {car.name}; less where its cord says less",))


def _battery(rig: Rig) -> Label:
    cold = "" if str(rig.facts.get("bank.chemistry", "")).startswith("lead") else "; never under 0 °C (32 °F)"
    return Label(
        "On the battery box",
        f"Battery, {said(rig, 'bank.nominal_volts')}, {said(rig, 'bank.chemistry')}",
        (
            "It cannot be switched off inside this box",
            "A dropped tool makes an arc that burns and blinds",
            "Keep shut. No rings, no loose tools",
            f"Charge to {said(rig, 'bank.highest_volts')} at most{cold}",
        ),
        "DANGER",
    )


def _main_switch(rig: Rig) -> Label:
    return Label(
        "At the main switch", "All off here", (said(rig, "place.main_switch"), "First in smoke, shock or water")
    )


def _fuses(rig: Rig) -> Iterator[Label]:
    for index in range(rig.count("devices")):
        place = f"devices.{index}"
        if rig.facts.get(f"{place}.kind") == "fuse":
            yield Label(
                f"At “{said(rig, f'{place}.name')}”",
                f"Only a {said(rig, f'{place}.rating')} fuse",
                (
                    said(rig, f"{place}.family"),
                    f"{said(rig, f'{place}.dc_volts')} dc, breaks {said(rig, f'{place}.interrupting')} dc",
                    "Bank's switch open first; find out why it blew",
                ),
                "WARNING",
            )


def _inlet(rig: Rig) -> Iterator[Label]:
    if any(path.startswith("inlet.") for path in rig.facts):
        yield Label(
            "Beside the inlet",
            f"Inlet {said(rig, 'inlet.configuration')}, {said(rig, 'inlet.rating')}",
            (
                f"Input limit {said(rig, 'inverter.input_limit')}, or 80 % of the wall's breaker if that is less",
                "Rig first, then the wall; the wall's plug out first",
                "It must never feed a building",
            ),
            "WARNING",
        )


def _wheels(rig: Rig) -> Label:
    return Label(
        "At the drawbar or handle",
        f"{said(rig, 'chassis.loaded_mass')} loaded",
        (
            "Nobody downhill of it, ever",
            "Brake on and two wheels chocked on both sides",
            f"Wheel {said(rig, 'chassis.wheel_rating')} at most",
        ),
        "DANGER",
    )
