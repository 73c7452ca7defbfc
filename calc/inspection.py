"""Faults of the whole that no single question asks for, found by walking the rig's tree from both ends.

What is not known is no fault here: the walk-round lists it as unknown. Each rule names its source.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from calc.check import Caution
from calc.facts import FACTS
from calc.laws.inverter import SPLIT_PHASE, SYSTEMS
from calc.laws.outlet import volts_of
from calc.printing import pair
from calc.quantity import Quantity
from calc.rig import Rig
from calc.tables import table
from calc.units import A


@dataclass(frozen=True)
class Fault:
    """A fault of the whole: where, what is wrong, and what it can do."""

    title: str
    subject: str
    say: str
    hazard: Caution


_FIRE = Caution(
    "WARNING",
    "A wire without protection burns",
    "A short in it is fed without end, and sets fire to the cart",
    "Fit a fuse or breaker of the wire's size where it is fed",
)
_SHOCK = Caution(
    "DANGER",
    "Live metal kills",
    "Neutral and frame can stand at mains voltage",
    "Switch it all off and have it put right before anybody touches it",
)
_BURST = Caution(
    "WARNING",
    "A fuse that cannot break the volts or the amps bursts",
    "An arc burns on in it and throws molten metal",
    "Fit a fuse marked for the bank's highest dc volts and its short-circuit current",
)
_MISFIT = Caution(
    "CAUTION",
    "Parts that do not fit each other fail or shut down",
    "The inverter trips, or is destroyed by too many volts",
    "Fit parts whose windows meet",
)
_UNSURE = Caution(
    "CAUTION",
    "What the rig is said to be does not hang together",
    "An answer rests on a part that is not there, or on the wrong one of two",
    "Look at the rig itself, and put its facts right",
)
# These have a title and a hazard of their own.
_TOLD_ELSEWHERE = ("cables.device", "loads.outlet", "cars.outlet")


def faults_of_the_whole(rig: Rig) -> list[Fault]:
    return [fault for rule in _RULES for fault in rule(rig)]


def unprotected_wires(rig: Rig) -> Iterator[Fault]:
    """Every cable stands behind a device that the rig has (NEC 2023, 240.21; the bank feeds from its end too)."""
    for index in range(rig.count("cables")):
        name, device, use = (_text(rig, f"cables.{index}.{fact}") for fact in ("name", "device", "use"))
        if use == "extension cord" or not name:
            continue
        if device and not rig.places_of("devices", device):
            yield Fault(
                "Wire without protection",
                name,
                f"It is said to stand behind “{device}”, and the rig has no such device.",
                _FIRE,
            )
        elif not device and _knows_devices(rig):
            yield Fault("Wire without protection", name, "No fuse or breaker stands before it.", _FIRE)


def outlets_without_breakers(rig: Rig) -> Iterator[Fault]:
    """Every outlet has a breaker, not larger than its pattern allows (NEC 2023, 210.21(B))."""
    for index in range(rig.count("outlets")):
        name, pattern = _text(rig, f"outlets.{index}.name"), _text(rig, f"outlets.{index}.configuration")
        breaker = _number(rig, f"outlets.{index}.breaker")
        if not pattern or breaker is None:
            continue
        rating = table("outlets").value(pattern, "amps", A)
        most = table("outlet_on_circuit").value("20", "most", A) if pattern.endswith("-15") else rating
        if (breaker > most).holds:
            left, right = pair(breaker, most)
            yield Fault(
                "Breaker too large for its outlet",
                name,
                f"A {left} breaker stands before a {pattern}, which takes {right} at most.",
                _FIRE,
            )


def outlets_of_volts_that_are_not_there(rig: Rig) -> Iterator[Fault]:
    """An outlet's pattern promises volts that the inverter gives (ANSI/NEMA WD 6)."""
    system = _text(rig, "inverter.system")
    for index in range(rig.count("outlets")):
        name, pattern = _text(rig, f"outlets.{index}.name"), _text(rig, f"outlets.{index}.configuration")
        if not system or not pattern:
            continue
        lacking = [volts for volts in volts_of(pattern) if volts not in SYSTEMS[system]]
        if lacking:
            yield Fault(
                "Outlet with volts that are not there",
                name,
                f"A {pattern} promises {' and '.join(lacking)}; the inverter gives {system}.",
                _SHOCK,
            )


def loads_on_outlets_of_other_volts(rig: Rig) -> Iterator[Fault]:
    """A load hangs on an outlet that has its volts."""
    for group in ("loads", "cars"):
        for index in range(rig.count(group)):
            name, outlet = _text(rig, f"{group}.{index}.name"), _text(rig, f"{group}.{index}.outlet")
            if outlet and not rig.places_of("outlets", outlet):
                yield Fault(
                    "Plugged into nothing",
                    name,
                    f"It is said to hang on “{outlet}”, and the rig has no such outlet.",
                    _MISFIT,
                )


def names_that_lead_nowhere(rig: Rig) -> Iterator[Fault]:
    """What one part of the rig says of another holds only where the rig has that other, once."""
    for listed, facts in ((group.removesuffix("[]"), facts) for group, facts in FACTS.items() if group.endswith("[]")):
        names = [_text(rig, f"{listed}.{index}.name") for index in range(rig.count(listed))]
        for name in sorted({name for name in names if name and names.count(name) > 1}):
            yield Fault("Two things of one name", name, "Nobody can tell which of the two is meant.", _UNSURE)
        for place, subject in enumerate(names):
            for fact, known in facts.items():
                for name in _names(rig, f"{listed}.{place}.{fact}") if known.refers_to else ():
                    if f"{listed}.{fact}" not in _TOLD_ELSEWHERE and not rig.places_of(known.refers_to, name):
                        say = f"{known.label}: it refers to “{name}”, which the rig does not have."
                        yield Fault("Refers to nothing", subject, say, _UNSURE)


def devices_that_protect_nothing(rig: Rig) -> Iterator[Fault]:
    """A fuse or breaker stands before something; where every wire is known to stand behind another, it does not."""
    wires = [index for index in range(rig.count("cables")) if _text(rig, f"cables.{index}.use") != "extension cord"]
    before = {_text(rig, f"cables.{index}.device") for index in wires}
    if not wires or "" in before:
        return
    before |= {_text(rig, f"devices.{index}.behind") for index in range(rig.count("devices"))}
    for index in range(rig.count("devices")):
        name = _text(rig, f"devices.{index}.name")
        if name and name not in before:
            yield Fault("Device that protects nothing", name, "No cable and no other device stands behind it.", _UNSURE)


def windows_that_do_not_meet(rig: Rig) -> Iterator[Fault]:
    """The bank's volts lie inside what the inverter takes (the makers' manuals)."""
    highest, taken = _number(rig, "bank.highest_volts"), _number(rig, "inverter.highest_volts")
    if highest is not None and taken is not None and (highest > taken).holds:
        left, right = pair(highest, taken)
        yield Fault(
            "Too many volts for the inverter",
            "bank",
            f"The bank is charged to {left}; the inverter takes {right} at most.",
            _MISFIT,
        )
    lowest, cutoff = _number(rig, "bank.lowest_volts"), _number(rig, "inverter.cutoff")
    if lowest is not None and cutoff is not None and (cutoff < lowest).holds:
        left, right = pair(cutoff, lowest)
        yield Fault(
            "The battery opens before the inverter stops",
            "bank",
            f"The inverter gives up at {left}, the battery's own protection at {right}: it goes dark without warning.",
            _MISFIT,
        )


def fuses_that_cannot_break_the_bank(rig: Rig) -> Iterator[Fault]:
    """A device fed by the bank is marked for its highest dc volts (UL 248, UL 489: the dc marking)."""
    highest = _number(rig, "bank.highest_volts")
    for index in range(rig.count("devices")):
        name, volts = _text(rig, f"devices.{index}.name"), _number(rig, f"devices.{index}.dc_volts")
        if (
            _text(rig, f"devices.{index}.fed_by") == "bank"
            and highest is not None
            and volts is not None
            and (volts < highest).holds
        ):
            left, right = pair(volts, highest)
            yield Fault(
                "Device that cannot break the bank",
                name,
                f"It breaks {left} dc; the bank is charged to {right}.",
                _BURST,
            )


def two_sources_on_one_wire(rig: Rig) -> Iterator[Fault]:
    """Neutral is bonded once; two sources meet only in a transfer (NEC 2023, 250.30, 702.5)."""
    bond, feeds = _text(rig, "inverter.bond"), _text(rig, "place.feeds")
    if bond == "fixed" and _text(rig, "inverter.switches_neutral") == "no" and _text(rig, "inlet.configuration"):
        yield Fault(
            "Neutral bonded twice",
            "inverter",
            "Its own bond stays closed while it is plugged in: neutral current flows on the ground wire, and the wall's ground-fault device trips.",
            _SHOCK,
        )
    if _text(rig, "inlet.shows_live_pins") == "yes":
        yield Fault("Live pins at the inlet", "inlet", "With the cord pulled out its bare pins are live.", _SHOCK)
    if (
        feeds == "a building"
        and _text(rig, "inverter.switches_neutral") == "no"
        and bond in ("fixed", "relay, closed while inverting")
    ):
        yield Fault(
            "Two bonds when it feeds a building",
            "inverter",
            "The building bonds its neutral too, and this transfer does not switch the neutral.",
            _SHOCK,
        )


def legs_over_their_limit(rig: Rig) -> Iterator[Fault]:
    """Breakers of one leg together are no fault; a bank frame bonded at several points is (common practice)."""
    if _text(rig, "bank.frame_bond") == "at several points":
        yield Fault("Battery minus bonded at several points", "bank", "Current finds its way through the frame.", _FIRE)
    if _text(rig, "inverter.system") != SPLIT_PHASE:
        for index in range(rig.count("outlets")):
            if _text(rig, f"outlets.{index}.leg") == "both" and _text(rig, "inverter.system"):
                yield Fault(
                    "Two legs on a supply that has one",
                    _text(rig, f"outlets.{index}.name"),
                    f"The inverter gives {_text(rig, 'inverter.system')}.",
                    _SHOCK,
                )


def _text(rig: Rig, path: str) -> str:
    value = rig.facts.get(path)
    return value if isinstance(value, str) else ""


def _names(rig: Rig, path: str) -> tuple[str, ...]:
    value = rig.facts.get(path)
    return value if isinstance(value, tuple) else (value,) if isinstance(value, str) and value else ()


def _number(rig: Rig, path: str) -> Quantity | None:
    value = rig.facts.get(path)
    return value if isinstance(value, Quantity) else None


def _knows_devices(rig: Rig) -> bool:
    return rig.count("devices") > 0


_RULES: tuple[Callable[[Rig], Iterator[Fault]], ...] = (
    unprotected_wires,
    outlets_without_breakers,
    outlets_of_volts_that_are_not_there,
    loads_on_outlets_of_other_volts,
    names_that_lead_nowhere,
    devices_that_protect_nothing,
    windows_that_do_not_meet,
    fuses_that_cannot_break_the_bank,
    two_sources_on_one_wire,
    legs_over_their_limit,
)
