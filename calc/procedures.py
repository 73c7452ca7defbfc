"""What a borrower does: starting, stopping, charging, moving, parking; before towing, charging and storage; in need.

Data only. `{fact}` stands for the rig's own number. `only` says for which rigs a step is there at all.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from calc.check import Caution
from calc.filling import filled
from calc.rig import Rig

SINGLE, WAGON = "trailer, single axle", "wagon, four wheels, steered by the drawbar"


@dataclass(frozen=True)
class Step:
    """One thing to do."""

    says: str
    only: Callable[[Rig], bool] = lambda rig: True


@dataclass(frozen=True)
class Procedure:
    """Steps in the order in which they are done."""

    title: str
    steps: tuple[Step, ...]

    def told(self, rig: Rig) -> list[str]:
        """The steps that apply, with this rig's numbers."""
        return [filled(rig, step.says) for step in self.steps if step.only(rig)]


def _is(path: str, *values: str) -> Callable[[Rig], bool]:
    return lambda rig: rig.facts.get(path) in values


def _knows(group: str) -> Callable[[Rig], bool]:
    return lambda rig: any(path.startswith(f"{group}.") for path in rig.facts)


_LITHIUM = _is("bank.chemistry", "LFP", "NMC")
_TOWED = _is("chassis.kind", SINGLE, WAGON)

START = Procedure(
    "Start it",
    (
        Step("Look it over: no damaged cord, no water in a box, nothing loose, wheels chocked"),
        Step("Close the bank's switch; if it has a precharge button, hold it first, as long as its label says"),
        Step("Switch the inverter on and wait until it shows {inverter.system}"),
        Step("Press the test button of each ground-fault device: it must open; then reset it. One that does not open is not used"),
        Step("Plug in one thing after another, the hardest to start first"),
    ),
)
STOP = Procedure(
    "Stop it",
    (
        Step("Switch the tools off and unplug them"),
        Step("Switch the inverter off: idling it takes {inverter.idle} all day"),
        Step("Open the bank's switch, close all covers"),
        Step("Leave at least {bank.reserve} in it; charge it within the week"),
    ),
)
CHARGE = Procedure(
    "Charge it",
    (
        Step("Cells under 0 °C (32 °F): do not charge. Up to 15 °C (59 °F) they take only little; the battery's display says", _LITHIUM),
        Step("In the open or with the covers open, nothing that burns near it, somebody about"),
        Step("Set the input limit to 80 % of the wall's breaker, and never over {inverter.input_limit}"),
        Step("A cord of {inlet.cord_size} or thicker, uncoiled; into the rig's inlet first, then into the wall"),
        Step("The charger is set to {inverter.charger_set}, up to {bank.highest_volts}: leave it so"),
        Step("Done: the wall's plug out first, then the inlet's"),
    ),
)
MOVE = Procedure(
    "Move it",
    (
        Step("It weighs {chassis.loaded_mass}. Unplug everything, cords off the ground, covers closed"),
        Step("Nobody stands downhill of it, ever. On a slope one person holds the brake and does nothing else"),
        Step("Not on slopes steeper than {place.slope} by hand; round them, or with a rope from above"),
        Step("Tow it at {tow.speed} at most; walking pace on rough ground", _TOWED),
        Step("Back up by a few paces at a time, one person at the drawbar's side", _TOWED),
    ),
)
PARK = Procedure(
    "Park it",
    (
        Step("Level ground. Brake: {chassis.brake}; chock two wheels on both sides, whatever the brake"),
        Step("Drawbar blocked, so that it cannot swing", _is("chassis.kind", WAGON)),
        Step("Jack wheel or prop down before it is unhitched", _is("chassis.kind", SINGLE)),
        Step("Out of rain and standing water; nothing against its grilles"),
    ),
)
HOW = (START, STOP, CHARGE, MOVE, PARK)

BEFORE_TOWING = Procedure(
    "Before towing",
    (
        Step("Loaded rig {chassis.loaded_mass}; the vehicle may pull {tow.rating}"),
        Step("On the hitch at most {chassis.tongue_rating}; 10 to 15 % of the rig's weight", _is("chassis.kind", SINGLE)),
        Step("Each wheel may carry {chassis.wheel_rating}; tyres at the pressure on their side"),
        Step("Pin or ball locked and pulled at by hand, safety chain crossed and hooked, lights tried"),
        Step("Drawbar free to both sides without touching, {chassis.drawbar_swing} at most", _is("chassis.kind", WAGON)),
        Step("Inverter off, bank's switch open, cords in, lids latched, parts strapped"),
        Step("Wheel nuts, then after the first mile by hand again: hubs cool, straps tight"),
        Step("Not over {tow.speed}"),
    ),
)
BEFORE_CHARGING = Procedure(
    "Before charging",
    (
        Step("Cells between 0 °C and 45 °C (32 and 113 °F) on the battery's display", _LITHIUM),
        Step("Charger set to {inverter.charger_set}, highest volts {bank.highest_volts}, one string takes {bank.charge_limit}"),
        Step("Inlet {inlet.configuration}, {inlet.rating}; input limit {inverter.input_limit} or 80 % of the wall's breaker, the lower"),
        Step("Cord {inlet.cord_size}, uncoiled, plugs dry, not hot after ten minutes"),
        Step("The rig's own neutral bond: {inverter.bond}; the wall's ground-fault device holds"),
        Step("Panels: {panels.count}, glass clean, out of shade", _knows("panels")),
    ),
)
BEFORE_STORAGE = Procedure(
    "Before storage",
    (
        Step("Charge left at about half, never full for months and never empty; it reads {now.charge} now", _LITHIUM),
        Step("Charge left full, and topped up each month", _is("bank.chemistry", "lead-acid (AGM or gel)", "lead-acid (flooded)")),
        Step("Inverter off (it idles at {inverter.idle}), heater off, bank's switch open, panels off the controller or covered"),
        Step("Coldest it meets here: {place.coldest}; the battery's manual says what it stands"),
        Step("Dry, off the ground, mice kept out, tyres at pressure, chocked"),
        Step("A date to look at it again, within three months: ____________"),
    ),
)
CHECKLISTS = (BEFORE_TOWING, BEFORE_CHARGING, BEFORE_STORAGE)

EMERGENCY = Procedure(
    "In need",
    (
        Step("Everything off: {place.main_switch}"),
        Step("Somebody hangs on a live part: do not touch them. Switch off or pull the cord first, then call for help; if they do not breathe, press the chest until help comes"),
        Step("Smoke, hissing, a swollen battery: everybody away and upwind. Switch off only if no smoke is breathed for it. Call the fire service and say: lithium battery, {bank.energy}", _LITHIUM),
        Step("Smoke or fire: everybody away and upwind. Switch off only if no smoke is breathed for it. Call the fire service and say: battery, {bank.energy}", lambda rig: not _LITHIUM(rig)),
        Step("Do not open a smoking box. It can flare up again for a day: leave it outside, far from everything"),
        Step("It stands in water: touch nothing, neither rig nor water. The wall's plug is pulled at the dry end"),
        Step("It rolls away: let go, shout, get out of its way. It is only a cart"),
        Step("A device that trips: unplug, find the cause. It is reset once and never held or bridged"),
    ),
)

CAUTIONS = (
    Caution("DANGER", "The outlets carry mains volts, whatever the box looks like", "They kill, in the wet sooner", "No damaged cord or plug, no bare foot, no hand in an open cover; ground-fault devices tested each day"),
    Caution("DANGER", "The battery cannot be switched off inside its box", "A dropped tool makes an arc that burns and blinds", "The box stays shut; nobody but the owner works in it"),
    Caution("DANGER", "A loaded rig that gets away on a slope kills whoever stands below", "Nobody can hold it once it rolls", "Nobody downhill, ever; chocks at every stop"),
    Caution("DANGER", "It must never feed a building by a cord with two plugs", "It puts mains volts on bare pins and on the street's lines, and kills whoever mends them", "Tools and cars on its own outlets only"),
    Caution("WARNING", "Charging cells that are frozen or too hot ruins them inside", "They short days later, and burn", "Look at the cells' temperature first; wait until they are warm"),
    Caution("WARNING", "A plug that is too hot to hold is on its way to fire", "It chars and burns while nothing trips", "Switch off, unplug, cut it off; do not turn it round"),
    Caution("CAUTION", "It is heavy and it rolls over feet", "Crushed toes, sprained backs", "Firm shoes, two people, no jerking"),
)  # fmt: skip
