"""Faults of the whole that no single question asks for: parts that do not fit each other, and wires traced from both ends.

What is not known is no fault here: the walk-round lists it as unknown. Each rule names its source.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from calc.laws.inverter import SPLIT_PHASE, SYSTEMS
from calc.laws.outlet import volts_of
from calc.printing import pair
from calc.quantity import Quantity, rounded_up, smallest
from calc.rig import Known, Rig
from calc.rig_faults import BURST, FIRE, MISFIT, SHOCK, Fault, Remedy, called, names, number, text, wires
from calc.tables import table
from calc.tracing import TRACED, source_of
from calc.units import A, V


def faults_of_the_whole(rig: Rig) -> list[Fault]:
    return [fault for rule in (*TRACED, *_RULES) for fault in rule(rig)]


def breakers_too_large_for_their_outlets(rig: Rig) -> Iterator[Fault]:
    """The breaker before an outlet, its own or that of its wire, is not larger than its pattern allows (NEC 2023, 210.21(B))."""
    for place in range(rig.count("outlets")):
        name, pattern = called(rig, "outlets", place), text(rig, f"outlets.{place}.configuration")
        own, of_its_wire = f"outlets.{place}.breaker", _rating_before(rig, text(rig, f"outlets.{place}.name"))
        path = own if own in rig.facts else of_its_wire
        breaker = number(rig, path)
        if not pattern or breaker is None:
            continue
        most = _largest_before(pattern)
        if (breaker > most).holds:
            left, right = pair(breaker, most)
            say = f"A {left} breaker stands before a {pattern}, which takes {right} at most."
            both = {
                path for path in (own, of_its_wire) if (known := number(rig, path)) is not None and (known > most).holds
            }
            fitting = Remedy(f"Fit a {most} breaker", dict.fromkeys(both, most))
            yield Fault("Breaker too large for its outlet", name, say, FIRE, ((fitting,),))


def _largest_before(pattern: str) -> Quantity:
    """The largest breaker that may stand before an outlet [A]: a 15 A one may be one of several on a 20 A circuit."""
    if pattern.endswith("-15"):
        return table("outlet_on_circuit").value("20", "most", A)
    return table("outlets").value(pattern, "amps", A)


def _rating_before(rig: Rig, outlet: str) -> str:
    """Where the rating of the device before an outlet's wire is kept; empty where the wire or the device is not known."""
    feeding = [place for place in wires(rig) if outlet and outlet in names(rig, f"cables.{place}.feeds")]
    device = rig.index_of("devices", text(rig, f"cables.{feeding[0]}.device")) if len(feeding) == 1 else None
    return "" if device is None else f"devices.{device}.rating"


def outlets_without_ground(rig: Rig) -> Iterator[Fault]:
    """An outlet has a ground contact (NEC 2023, 406.4(A))."""
    for place in range(rig.count("outlets")):
        pattern = text(rig, f"outlets.{place}.configuration")
        if pattern and table("outlets").text(pattern, "ground") == "no":
            say = f"A {pattern} has no ground: a fault puts the metal of what is plugged in at mains voltage."
            yield Fault("Outlet without ground", called(rig, "outlets", place), say, SHOCK)


def outlets_of_volts_that_are_not_there(rig: Rig) -> Iterator[Fault]:
    """An outlet's pattern promises volts that the inverter gives (ANSI/NEMA WD 6)."""
    system = text(rig, "inverter.system")
    for place in range(rig.count("outlets")):
        name, pattern = called(rig, "outlets", place), text(rig, f"outlets.{place}.configuration")
        if not system or not pattern:
            continue
        lacking = [volts for volts in volts_of(pattern) if volts not in SYSTEMS[system]]
        if lacking:
            say = f"A {pattern} promises {' and '.join(lacking)}; the inverter gives {system}."
            yield Fault("Outlet with volts that are not there", name, say, SHOCK)
        if system != SPLIT_PHASE and text(rig, f"outlets.{place}.leg") == "both":
            yield Fault("Two legs on a supply that has one", name, f"The inverter gives {system}.", SHOCK)


def windows_that_do_not_meet(rig: Rig) -> Iterator[Fault]:
    """The bank's volts lie inside what the inverter takes (the makers' manuals)."""
    highest, taken = number(rig, "bank.highest_volts"), number(rig, "inverter.highest_volts")
    if highest is not None and taken is not None and (highest > taken).holds:
        left, right = pair(highest, taken)
        say = f"The bank is charged to {left}; the inverter takes {right} at most."
        yield Fault("Too many volts for the inverter", "bank", say, MISFIT)
    lowest, cutoff = number(rig, "bank.lowest_volts"), number(rig, "inverter.cutoff")
    if lowest is not None and cutoff is not None and (cutoff < lowest).holds:
        left, right = pair(cutoff, lowest)
        say = f"The inverter gives up at {left}, the battery's own protection at {right}: it goes dark without warning."
        raised = rounded_up(lowest, V)
        higher = Remedy(f"Set the inverter's cut-off to {raised}", {"inverter.cutoff": _given(raised)})
        yield Fault("The battery opens before the inverter stops", "bank", say, MISFIT, ((higher,),))


def fuses_that_cannot_break_the_bank(rig: Rig) -> Iterator[Fault]:
    """A device fed by the bank is marked for its highest dc volts (UL 248, UL 489: the dc marking)."""
    highest = number(rig, "bank.highest_volts")
    on_battery_cables = {
        text(rig, f"cables.{place}.device")
        for place in wires(rig)
        if text(rig, f"cables.{place}.use") == "battery cable"
    }
    for place in range(rig.count("devices")):
        name, volts = text(rig, f"devices.{place}.name"), number(rig, f"devices.{place}.dc_volts")
        of_the_bank = source_of(rig, name) == "bank" or bool(name) and name in on_battery_cables
        if of_the_bank and highest is not None and volts is not None and (volts < highest).holds:
            left, right = pair(volts, highest)
            say = f"It breaks {left} dc; the bank is charged to {right}."
            yield Fault("Device that cannot break the bank", called(rig, "devices", place), say, BURST)


def chargers_that_are_too_much_together(rig: Rig) -> Iterator[Fault]:
    """Charger and panels at once put no more into the bank than its batteries take (the battery's manual)."""
    charger, limit = number(rig, "inverter.charger_set"), number(rig, "bank.charge_limit")
    strings, panels = number(rig, "bank.strings"), _from_the_panels(rig)
    if charger is None or limit is None or strings is None or panels is None:
        return
    together, most = charger + panels, limit * strings
    if (together > most).holds and (charger <= most).holds:
        left, right = pair(together.shown_in(A), most.shown_in(A))
        say = f"The charger and the panels together give {left}; the bank takes {right}: its protection opens, or its cells age."
        lower = tuple(
            Remedy(f"Set the charger to {amps}", {"inverter.charger_set": amps})
            for step in range(round(charger.shown) - 1, 0, -1)
            if ((amps := step * A) + panels <= most).holds
        )
        yield Fault("Chargers too strong together", "bank", say, MISFIT, (lower[:1],) if lower else ())


def _from_the_panels(rig: Rig) -> Quantity | None:
    """The most that the panels put into the bank [A]: what the controller passes, or what they give at the lowest volts."""
    most, count, watts = (number(rig, f"panels.{fact}") for fact in ("controller_amps", "count", "watts"))
    lowest = number(rig, "bank.lowest_volts")
    if most is None or count is None or watts is None or lowest is None:
        return None
    return smallest(most, (count * watts / lowest).shown_in(A))


def neutrals_bonded_more_than_once(rig: Rig) -> Iterator[Fault]:
    """Neutral is bonded once, in every mode (NEC 2023, 250.30, 250.142(B))."""
    bond, opens = text(rig, "inverter.bond"), text(rig, "inverter.switches_neutral")
    if bond == "fixed" and opens == "no" and text(rig, "inlet.configuration"):
        say = "Its own bond stays closed while it is plugged in: neutral current flows on the ground wire, and the wall's ground-fault device trips."
        yield Fault("Neutral bonded twice", "inverter", say, SHOCK)
    if (
        text(rig, "place.feeds") == "a building"
        and opens == "no"
        and bond in ("fixed", "relay, closed while inverting")
    ):
        say = "The building bonds its neutral too, and this transfer does not switch the neutral."
        yield Fault("Two bonds when it feeds a building", "inverter", say, SHOCK)
    if text(rig, "bank.frame_bond") == "at several points":
        once = Remedy(
            "Keep one bond of battery minus to the frame, and take off the others", {"bank.frame_bond": "at one point"}
        )
        say = "Current finds its way through the frame."
        yield Fault("Battery minus bonded at several points", "bank", say, FIRE, ((once,),))


def pins_that_stay_live(rig: Rig) -> Iterator[Fault]:
    """The pins of an inlet are dead when the cord is out (NEC 2023, 406.7(B))."""
    if text(rig, "inlet.shows_live_pins") == "yes":
        yield Fault("Live pins at the inlet", "inlet", "With the cord pulled out its bare pins are live.", SHOCK)


def _given(quantity: Quantity) -> Known:
    """A number as a person would set it, without how it was found."""
    return quantity.shown * quantity.unit


_RULES: tuple[Callable[[Rig], Iterator[Fault]], ...] = (
    breakers_too_large_for_their_outlets,
    outlets_without_ground,
    outlets_of_volts_that_are_not_there,
    windows_that_do_not_meet,
    fuses_that_cannot_break_the_bank,
    chargers_that_are_too_much_together,
    neutrals_bonded_more_than_once,
    pins_that_stay_live,
)
