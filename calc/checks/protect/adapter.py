"""The page /protect/adapter/: what an adapter between two patterns carries over, and what protection it loses.

In this order: every volt its contact, the ground through, a breaker that protects the thinner end, and no more current
than the weaker end has.
"""

from __future__ import annotations

from collections.abc import Iterator

from calc.check import (
    NEC,
    Answer,
    Caution,
    Change,
    Check,
    Example,
    Fix,
    Requirement,
    answer,
    ask_fact,
    less,
    next_option,
    option,
    pick,
    pick_fact,
    require,
)
from calc.facts.filling import ADAPTER_BREAKERS, NONE
from calc.laws.outlet import continuous_factor, rating_of, volts_of
from calc.laws.protection import NEC_BREAKERS, standard_rating_down
from calc.quantity import Quantity, Statement, alternative, choose, constant, limit, need, smallest, step
from calc.sources import FROM_MEMORY, NEC_2023, NEMA_WD_6
from calc.tables import table
from calc.units import A

ONLY_120, ONLY_240, BOTH = "120 V", "240 V", "120 and 240 V"
NEEDS = {ONLY_120: ("120 V",), ONLY_240: ("240 V",), BOTH: ("120 V", "240 V")}
_PRACTICE = NEC_2023.at("240.5(B): cords of 16 AWG and thicker on 20 A circuits", FROM_MEMORY)


class Adapter(Check):
    """May I plug this into that outlet with an adapter?"""

    title = "Plug and outlet"
    headline = "most_current"
    rule_sets = (NEC,)

    outlet: str = pick_fact("inlet.outlet", "14-50", help="By the pattern of its slots")
    plug: str = pick_fact(
        "inlet.configuration",
        "5-15",
        help="By its blades: the inlet's, or the plug of a tool; the adapter ends in it",
    )
    needs: str = pick_fact("inlet.needs", ONLY_120, help="On the plate of the tool; of a rig, its charger's")
    breaker: Quantity = ask_fact(
        "I_W",
        "inlet.breaker",
        50 * A,
        help="The number on its handle, in the panel it comes from",
        common=(15 * A, 20 * A, 30 * A, 50 * A),
    )
    own_breaker: str = pick_fact("inlet.adapter_breaker", NONE)
    cord: str = pick_fact("inlet.adapter_cord", "14 AWG")
    load_amps: Quantity = ask_fact(
        "I_set",
        "inverter.input_limit",
        12 * A,
        help="On the tool's plate; of a charger, what it is set to",
        common=(8 * A, 12 * A, 16 * A, 24 * A),
    )
    lasting: str = pick(
        "Does it run three hours or more at a time?",
        ("no", "yes"),
        "yes",
        habit=True,
        help="Chargers, heaters, cars: yes",
    )

    def solve(self) -> Answer:
        gives = rating_of(self.outlet)
        takes = table("outlets").read("I_plug", f"Rating of a {self.plug}", self.plug, "amps", A)
        carries = self._cord_carries()
        device = self._device()
        asked = self._asked()
        weakest = limit(
            "I_weak",
            "The weakest of both patterns, the cord and the breaker",
            smallest(gives, takes, device, *carries),
            A,
        )
        return answer(
            *self._contacts(),
            self._outlet_on_circuit(gives),
            self._pattern_behind_device(device, takes),
            *(self._cord_behind_device(device, cord) for cord in carries),
            require(
                asked <= weakest,
                comfortable=takes <= gives,
                label="Current",
                yes="Both ends carry the current.",
                tight=f"A {self.plug} invites more than a {self.outlet} has: {{left}} of {{right}} is allowed. Cap it there.",
                no=f"{{left}} is asked; the weakest part between {self.outlet} and {self.plug} carries {{right}}.",
            ),
            say=f"A {self.plug} may be fed from a {self.outlet} so: up to {self._for_hours(weakest)}.",
            notes=self._naive(device, takes),
            most_current=self._for_hours(weakest),
            device_in_force=device,
            breaker_needed=step(
                "I_box",
                "Largest breaker for the adapter's box",
                standard_rating_down(smallest(takes, *carries) if carries else takes, NEC_BREAKERS),
                A,
                NEC_2023.at("240.6(A)"),
            ),
        )

    def _cord_carries(self) -> tuple[Quantity, ...]:
        """Both legs with a neutral that does not cancel are three carrying wires; anything else is two; or there is no cord."""
        if self.cord == NONE:
            return ()
        column = "three carrying" if self.needs == BOTH else "two carrying"
        return (
            table("flexible_cord").read("I_cord", f"Ampacity of a {self.cord} cord, {column}", self.cord, column, A),
        )

    def _device(self) -> Quantity:
        """The breaker that protects what hangs on the adapter: the one in its box, or else the one in the wall."""
        if self.own_breaker == NONE:
            return alternative(
                "I_dev", "Breaker that protects what follows", self.breaker, "the one in the wall alone", A
            )
        rating = float(self.own_breaker.removesuffix(" A")) * A
        fitted = constant("I_own", "Breaker in the adapter's box", rating, NEC_2023.at("240.6(A)"))
        return step(
            "I_dev", "Breaker that protects what follows, the lower of the two", smallest(fitted, self.breaker), A
        )

    def _asked(self) -> Quantity:
        if self.lasting == "no":
            return need("I_need", "Current asked of it", self.load_amps, A)
        return need("I_need", "Current asked of it", continuous_factor() * self.load_amps, A)

    def _for_hours(self, weakest: Quantity) -> Quantity:
        if self.lasting == "no":
            return limit("I_max", "Most that may be drawn", weakest, A)
        return limit("I_max", "Most that may be drawn for hours", weakest / continuous_factor(), A)

    # --- contacts ---------------------------------------------------------------------------------------------------

    def _contacts(self) -> tuple[Requirement, ...]:
        wanted = NEEDS[self.needs]
        source = all(volts in volts_of(self.outlet) for volts in wanted)
        end = all(volts in volts_of(self.plug) for volts in wanted)
        grounded = all(table("outlets").text(pattern, "ground") == "yes" for pattern in (self.outlet, self.plug))
        without = next((p for p in (self.outlet, self.plug) if table("outlets").text(p, "ground") != "yes"), "")
        return (
            require(
                Statement(f"A {self.outlet} {'gives' if source else 'does not give'} {self.needs}", source, NEMA_WD_6),
                label="Volts of the outlet",
                yes="The outlet has the contacts for these volts.",
                no=f"A {self.outlet} gives {_said(self.outlet)}, not {self.needs}: no adapter makes the missing volts.",
            ),
            require(
                Statement(f"A {self.plug} {'carries' if end else 'does not carry'} {self.needs}", end, NEMA_WD_6),
                label="Volts of the plug",
                yes="The plug has the contacts for these volts.",
                no=f"A {self.plug} is made for {_said(self.plug)}, not {self.needs}: the wrong volts at such a plug destroy what is plugged in next.",
            ),
            require(
                Statement(f"The ground {'goes' if grounded else 'does not go'} through", grounded, NEMA_WD_6),
                label="Ground",
                yes="The ground goes through.",
                no=f"A {without} has no ground contact: with a fault, all metal behind the adapter becomes live. A neutral is no ground.",
            ),
        )

    # --- protection -------------------------------------------------------------------------------------------------

    def _outlet_on_circuit(self, gives: Quantity) -> Requirement:
        return require(
            self.breaker <= _largest_circuit(self.outlet, gives, "I_cir", "of the outlet"),
            label="Breaker before the outlet",
            exact=True,
            yes="The breaker suits the outlet.",
            no=f"A {{left}} breaker is too large for a {self.outlet}, which takes {{right}} at most: the outlet itself would burn first.",
        )

    def _pattern_behind_device(self, device: Quantity, takes: Quantity) -> Requirement:
        return require(
            device <= _largest_circuit(self.plug, takes, "I_end", "of what is plugged in"),
            comfortable=device <= takes,
            label="Breaker before the plug",
            yes="A breaker protects the pattern it ends in.",
            tight="A 15 A pattern stands behind {left}: allowed, with nothing to spare.",
            no=f"Only {{left}} protects a {self.plug}, which may stand behind {{right}} at most. The plug's cord burns before that breaker opens.",
        )

    def _cord_behind_device(self, device: Quantity, carries: Quantity) -> Requirement:
        least = constant("I_20", "Circuit on which a cord of 16 AWG or thicker may be used", 20 * A, _PRACTICE)
        allowed = choose(
            "I_prot",
            f"Largest breaker before a {self.cord} cord",
            (carries >= least, carries, "its own ampacity"),
            (least, "a cord of 16 AWG or thicker may be used on a 20 A circuit"),
            unit=A,
            source=NEC_2023.at("240.5(A), (B)"),
        )
        return require(
            device <= allowed,
            comfortable=device <= carries,
            label="Breaker before the cord",
            yes="A breaker protects the adapter's cord.",
            tight=f"The {self.cord} cord stands behind {{left}}: allowed, but it does not protect the cord from overload.",
            no=f"Only {{left}} protects the {self.cord} cord, which may stand behind {{right}} at most. It burns before that breaker opens.",
        )

    def _naive(self, device: Quantity, takes: Quantity) -> tuple[str, ...]:
        notes = []
        if (device > takes).holds:
            notes.append(
                f"That the plugs fit says nothing: the {device} breaker in the wall never sees an overload of a {self.plug}."
            )
        if "TT-30" in (self.outlet, self.plug):
            notes.append("A TT-30 looks like a 10-30 but has 120 V only.")
        if self.outlet.startswith(("10-", "6-")) or self.plug.startswith(("10-", "6-")):
            notes.append(
                "A pattern that begins with 10 has no ground; one that begins with 6 has no neutral, so no 120 V."
            )
        return tuple(notes)

    def _fitting_breakers(self) -> Iterator[Change]:
        """Breakers for the box, the largest first: what is stricter than it need be comes last."""
        for rating in reversed(ADAPTER_BREAKERS[1:]):
            if rating != self.own_breaker:
                yield {"own_breaker": rating}

    fixes = (
        Fix("Put a {own_breaker} breaker in the adapter's box", lambda check: check._fitting_breakers()),
        next_option("cord", "Use an adapter with a cord of {cord}", costs="heavier"),
        less("load_amps", 1 * A, "Draw {load_amps} or less"),
        option("outlet", "14-30", "Take the power from a 14-30: it has both volts, neutral and ground"),
        option("outlet", "14-50", "Take the power from a 14-50: it has both volts, neutral and ground"),
        option("outlet", "5-20", "Take the power from a 5-20"),
    )
    cautions = (
        Caution(
            "DANGER",
            "A cord with a plug at both ends has bare live pins as soon as one end is plugged in",
            "Touching them kills",
            "Never make, carry or use one; feed a rig only through its inlet, a building only through its own transfer switch",
        ),
        Caution(
            "DANGER",
            "A neutral used as a ground, or a ground pin cut off, puts the case of the tool at mains volts when a wire breaks",
            "Whoever touches it and the earth is killed",
            "Use an outlet that has a ground; never join neutral and ground inside an adapter",
        ),
        Caution(
            "WARNING",
            "An adapter without a breaker of its own gives a thin cord all that the large outlet can give",
            "The cord glows and sets fire to what it lies on, while the wall's breaker stays closed",
            "Use a box with a breaker of the outlet's own rating; uncoil the cord",
        ),
    )
    examples = (
        Example(
            given={"outlet": "14-50", "plug": "5-15", "breaker": "50", "cord": "14 AWG", "own_breaker": NONE},
            verdict="no",
            source=NEC_2023.at("240.5, 210.21(B)(3): a 15 A receptacle stands on 20 A at most"),
        ),
        Example(
            given={
                "outlet": "14-50",
                "plug": "5-15",
                "breaker": "50",
                "cord": "14 AWG",
                "own_breaker": "15 A",
                "lasting": "no",
            },
            expect={"most_current": "15 A", "breaker_needed": "15 A"},
            verdict="go",
            source=NEC_2023.at("240.5, Table 400.5(A)(1), 210.21(B)(3)"),
        ),
        Example(
            given={"outlet": "6-50", "plug": "5-20", "needs": ONLY_120, "own_breaker": "20 A", "cord": "12 AWG"},
            verdict="no",
            source=NEMA_WD_6.at("6-50: 250 V, two poles and ground, no neutral"),
        ),
        Example(
            given={
                "outlet": "5-15",
                "plug": "14-50",
                "needs": ONLY_120,
                "breaker": "15",
                "cord": "10 AWG",
                "load_amps": "12",
                "lasting": "no",
            },
            expect={"most_current": "15 A"},
            verdict="tight",
            source=NEMA_WD_6.at("5-15: 125 V, 15 A; a 14-50 asks up to 50 A"),
        ),
    )


def _said(pattern: str) -> str:
    return " and ".join(volts_of(pattern))


def _largest_circuit(pattern: str, rating: Quantity, symbol: str, whose: str) -> Quantity:
    """A 15 A pattern may stand on a 20 A circuit; every other one on a circuit of its own rating or less."""
    if pattern.endswith("-15"):
        return table("outlet_on_circuit").read(symbol, f"Largest circuit {whose}, a {pattern}", "20", "most", A)
    return alternative(
        symbol,
        f"Largest circuit {whose}, a {pattern}",
        rating,
        "a circuit of its own rating at most",
        A,
        NEC_2023.at("210.21(B)"),
    )
