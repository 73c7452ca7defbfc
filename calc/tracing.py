"""The rig's wires traced from both ends: from what is fed up to its source, and from each source down.

What is not known is no fault here, but for one thing: in a rig whose fuses and breakers are listed, a wire that stands
behind none of them stands behind none.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from calc.facts import FACTS
from calc.laws.protection import NEC_BREAKERS, standard_ratings
from calc.rig import Rig
from calc.rig_faults import FIRE, MISFIT, STILL_LIVE, UNSURE, Fault, Remedy, called, names, text, wires

# These have a title and a hazard of their own.
_TOLD_ELSEWHERE = ("cables.device", "loads.outlet", "cars.outlet")
_UNPROTECTED = "Wire without protection"


def wires_behind_nothing(rig: Rig) -> Iterator[Fault]:
    """Every wire stands behind a fuse or breaker where it is fed (NEC 2023, 240.21)."""
    for place in wires(rig):
        name, device = called(rig, "cables", place), text(rig, f"cables.{place}.device")
        if device and not rig.places_of("devices", device):
            say = f"It is said to stand behind “{device}”, and the rig has no such device."
            yield Fault(_UNPROTECTED, name, say, FIRE, _behind_a_breaker(rig, place))
        elif not device and rig.count("devices"):
            yield Fault(_UNPROTECTED, name, "No fuse or breaker stands before it.", FIRE, _behind_a_breaker(rig, place))


def _behind_a_breaker(rig: Rig, place: int) -> tuple[tuple[Remedy, ...], ...]:
    """For wiring from the inverter: behind a device that stands idle, or else behind a new one, the smallest that serves."""
    if text(rig, f"cables.{place}.use") != "branch wiring" or text(rig, f"cables.{place}.circuit") == "dc":
        return ()
    held_by = (("wire/wire-for-run", place),)
    idle = (
        Remedy(f"Wire it behind “{device}”, which stands before nothing", {f"cables.{place}.device": device}, held_by)
        for device in _idle_devices(rig)
    )
    new, name = f"devices.{rig.count('devices')}", f"new breaker, {called(rig, 'cables', place)}"[:80]
    named = {f"{new}.name": name, f"{new}.kind": "breaker", f"{new}.fed_by": "inverter", f"cables.{place}.device": name}
    fitted = (
        Remedy(f"Fit a {rating} breaker before it", {**named, f"{new}.rating": rating}, held_by)
        for rating in standard_ratings(NEC_BREAKERS)
    )
    return tuple(idle), tuple(fitted)


def wires_protected_from_one_end(rig: Rig) -> Iterator[Fault]:
    """The bank feeds its cable too, whatever else does; and a fuse of the bank's does nothing for a wire behind the inverter."""
    for place in wires(rig):
        name, device = called(rig, "cables", place), text(rig, f"cables.{place}.device")
        source = source_of(rig, device)
        if not source:
            continue
        if text(rig, f"cables.{place}.use") == "battery cable" and source != "bank":
            say = f"The bank feeds it, and “{device}” is fed by the {source}: nothing stands between the bank and this wire."
            yield Fault("Wire without protection at the bank's end", name, say, FIRE)
        if text(rig, f"cables.{place}.circuit") in ("one-phase", "split-phase") and source in ("bank", "panels"):
            say = f"It carries ac, and “{device}” is fed by the {source}: nothing stands between the inverter and this wire."
            yield Fault("Wire without protection at the inverter's end", name, say, FIRE)


def source_of(rig: Rig, device: str) -> str:
    """The source on the line side of a device, found by going up from it; empty where it is not known."""
    sources = (text(rig, f"devices.{place}.fed_by") for place in _upward(rig, device))
    return next((source for source in sources if source), "")


def _upward(rig: Rig, device: str) -> Iterator[int]:
    """A device and those upstream of it, each once."""
    passed: list[int] = []
    place = rig.index_of("devices", device) if device else None
    while place is not None and place not in passed:
        passed.append(place)
        yield place
        place = rig.index_of("devices", text(rig, f"devices.{place}.behind"))


def devices_in_a_circle(rig: Rig) -> Iterator[Fault]:
    """Going up from a device one comes to a source, and never back to it."""
    for place in range(rig.count("devices")):
        name = text(rig, f"devices.{place}.name")
        if name and name in (text(rig, f"devices.{upper}.behind") for upper in _upward(rig, name)):
            say = "Going up from it one comes back to it, and to no source."
            yield Fault("Devices in a circle", name, say, UNSURE)


def devices_that_protect_nothing(rig: Rig) -> Iterator[Fault]:
    """A fuse or breaker stands before something; where every wire is known to stand behind another, it does not."""
    behind = [text(rig, f"cables.{place}.device") for place in wires(rig)]
    if not behind or "" in behind:
        return
    for name in _idle_devices(rig):
        yield Fault("Device that protects nothing", name, "No cable and no other device stands behind it.", UNSURE)


def _idle_devices(rig: Rig) -> list[str]:
    """The devices behind which no wire and no other device is said to stand."""
    places = range(rig.count("devices"))
    before = {text(rig, f"cables.{place}.device") for place in wires(rig)}
    before |= {text(rig, f"devices.{place}.behind") for place in places}
    listed = (text(rig, f"devices.{place}.name") for place in places)
    return [name for name in listed if name and name not in before]


def outlets_fed_twice_or_not_at_all(rig: Rig) -> Iterator[Fault]:
    """One wire feeds an outlet; two sources meet only in a transfer (NEC 2023, 702.5; IEC 60364-5-55, 551.6)."""
    fed = {place: names(rig, f"cables.{place}.feeds") for place in wires(rig)}
    to_outlets = {
        place: outlets for place, outlets in fed.items() if text(rig, f"cables.{place}.use") == "branch wiring"
    }
    for place in range(rig.count("outlets")):
        name = text(rig, f"outlets.{place}.name")
        feeding = [called(rig, "cables", cable) for cable, outlets in fed.items() if name and name in outlets]
        if len(feeding) > 1:
            say = f"{' and '.join(f'“{wire}”' for wire in feeding)} feed it: with one of them switched off it is still live."
            yield Fault("Outlet fed twice", name, say, STILL_LIVE)
        elif name and not feeding and to_outlets and all(to_outlets.values()):
            yield Fault("Outlet on no wire", name, "No wire of the rig is said to feed it.", UNSURE)


def plugs_in_no_outlet(rig: Rig) -> Iterator[Fault]:
    """What is plugged in hangs on an outlet that the rig has."""
    for group in ("loads", "cars"):
        for place in range(rig.count(group)):
            name, outlet = called(rig, group, place), text(rig, f"{group}.{place}.outlet")
            if outlet and not rig.places_of("outlets", outlet):
                say = f"It is said to hang on “{outlet}”, and the rig has no such outlet."
                yield Fault("Plugged into nothing", name, say, MISFIT)


def names_that_lead_nowhere(rig: Rig) -> Iterator[Fault]:
    """What one part of the rig says of another holds only where the rig has that other, once."""
    for listed, facts in ((group.removesuffix("[]"), facts) for group, facts in FACTS.items() if group.endswith("[]")):
        borne = [text(rig, f"{listed}.{place}.name") for place in range(rig.count(listed))]
        for name in sorted({name for name in borne if name and borne.count(name) > 1}):
            yield Fault("Two things of one name", name, "Nobody can tell which of the two is meant.", UNSURE)
        for place in range(rig.count(listed)):
            for fact, known in facts.items():
                for name in names(rig, f"{listed}.{place}.{fact}") if known.refers_to else ():
                    if f"{listed}.{fact}" not in _TOLD_ELSEWHERE and not rig.places_of(known.refers_to, name):
                        say = f"{known.label}: it refers to “{name}”, which the rig does not have."
                        yield Fault("Refers to nothing", called(rig, listed, place), say, UNSURE)


TRACED: tuple[Callable[[Rig], Iterator[Fault]], ...] = (
    wires_behind_nothing,
    wires_protected_from_one_end,
    devices_in_a_circle,
    devices_that_protect_nothing,
    outlets_fed_twice_or_not_at_all,
    plugs_in_no_outlet,
    names_that_lead_nowhere,
)
