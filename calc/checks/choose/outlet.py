"""The page /choose/outlet/: what a pattern or a colour says about volts, neutral, ground and amps, and what may be taken.

By the US rule a load of hours may take four fifths of outlet and breaker; an industrial connector carries its full current.
"""

from __future__ import annotations

from calc.check import (
    IEC,
    NEC,
    Answer,
    Caution,
    Check,
    Example,
    Named,
    Requirement,
    answer,
    ask,
    ask_fact,
    less,
    option,
    pick,
    pick_fact,
    require,
)
from calc.drawing.outlet_faces import drawn, how_drawn
from calc.laws.outlet import breaker_before, continuous_factor, gives_volts, has_ground, rating_of, volts_of
from calc.quantity import Condition, Quantity, alternative, constant, limit, need, read, root, smallest
from calc.sources import ANSI_C84_1, COMMON_PRACTICE, FROM_MEMORY, IEC_60309, NEMA_WD_6, OWN_DERIVATION
from calc.tables import UNCONFIRMED, table
from calc.units import A, V, kW, one, percent

COLOURS = table("iec_connectors").rows
THREE_PHASE = ("blue three-phase 120/208", "red", "black")
RATINGS = ("16 A", "20 A", "30 A", "32 A", "60 A", "63 A", "100 A", "125 A")
# What a rig's socket is in this question's words: "blue 16 A" is a colour and amps. Household ones are no connectors.
_CONNECTORS = [socket for socket in table("iec_sockets").rows if not socket.startswith("household")]
_COLOUR = {socket: socket.split()[0] for socket in _CONNECTORS}
_AMPS = {socket: socket.partition(" ")[2] for socket in _CONNECTORS}
NOMINAL, MEASURED = "no, its nominal volts", "yes"
NOMINAL_VOLTS = {"120 V": 120 * V, "240 V": 240 * V}


class Outlet(Check):
    """What is this outlet, and what may I take from it?"""

    title = "What an outlet gives"
    headline = "most_current"

    outlet: str = pick_fact("outlets.configuration", "5-20", rules=(NEC,))
    connector: str = pick_fact(
        "outlets.socket",
        {IEC: "blue"},
        {IEC: COLOURS},
        label="Colour of the connector",
        help="Of its housing or its lid",
        means=_COLOUR,
    )
    connector_rating: str = pick_fact(
        "outlets.socket",
        {IEC: "16 A"},
        {IEC: RATINGS},
        label="Amps on the connector",
        help="Moulded into its face or lid",
        means=_AMPS,
    )
    wanted_volts: str = pick_fact("outlets.used_volts", "120 V", rules=(NEC,))
    measured: str = pick(
        "Were the volts measured?",
        (NOMINAL, MEASURED),
        NOMINAL,
        rules=(NEC,),
        habit=True,
        help="With a tester that plugs in, under load",
    )
    volts: Quantity = ask(
        "V_m",
        "Volts at the contacts that are used",
        120 * V,
        low=12 * V,
        high=300 * V,
        rules=(NEC,),
        when={"measured": (MEASURED,)},
        common=(120 * V, 208 * V, 240 * V),
        help="With a tester that plugs in, while something draws current; never with bare probes in the slots",
    )
    connector_volts: Quantity = ask_fact(
        "V_c", "outlets.socket_volts", 230 * V, rules=(IEC,), common=(110 * V, 230 * V, 400 * V)
    )
    breaker: Quantity = ask_fact("I_B", "outlets.breaker", 20 * A, common=(15 * A, 16 * A, 20 * A, 30 * A, 50 * A))
    other_amps: Quantity = ask(
        "I_x",
        "Other loads on the same breaker",
        0 * A,
        low=0 * A,
        high=100 * A,
        habit=True,
        help="What else hangs behind it and runs",
    )
    wanted: Quantity = ask_fact("I_l", "outlets.used_amps", 12 * A, common=(8 * A, 12 * A, 16 * A, 24 * A))
    lasting: str = pick_fact("outlets.lasting", "yes", rules=(NEC,))

    def solve(self) -> Answer:
        return self._american() if self.rules == NEC else self._industrial()

    # --- American ---------------------------------------------------------------------------------------------------

    def _american(self) -> Answer:
        rating = rating_of(self.outlet)
        room = limit("I_lim", "The lower of outlet and breaker", smallest(rating, self.breaker), A)
        hours = limit("I_h", "What it gives for hours", room / continuous_factor() - self.other_amps, A)
        short = limit("I_s", "What it gives for less than three hours", room - self.other_amps, A)
        allowed = hours if self.lasting == "yes" else short
        nominal = constant("V_n", "Nominal volts", NOMINAL_VOLTS[self.wanted_volts], ANSI_C84_1)
        volts = (
            self.volts
            if self.measured == MEASURED
            else alternative("V_m", "Volts counted with", nominal, "the nominal volts", V)
        )
        return answer(
            gives_volts(self.outlet, self.wanted_volts),
            has_ground(self.outlet),
            breaker_before(self.outlet, self.breaker, rating),
            self._takes(allowed),
            *self._measured_right(nominal),
            say=f"A {self.outlet} behind this breaker gives {allowed} at {self.wanted_volts}.",
            notes=self._mind(),
            most_current=allowed,
            for_hours=hours,
            for_a_while=short,
            power=limit("P", "Power at that current", volts * allowed, kW),
            contacts=self._contacts(),
            **self._face(),
            **self._nearest(),
        )

    def _takes(self, allowed: Quantity) -> Requirement:
        return require(
            self.wanted <= allowed,
            exact=self.rules == NEC and self.lasting == "yes",
            label="Current",
            yes="The outlet gives what is wanted.",
            tight="{left} is wanted of the {right} that it gives.",
            no="{left} is wanted; it gives {right}. The breaker trips, or the contacts run hot.",
        )

    def _measured_right(self, nominal: Quantity) -> tuple[Requirement, ...]:
        if self.measured != MEASURED:
            return ()
        share = need("d_V", "Measured volts, of the nominal ones", self.volts / nominal, percent)
        low = constant(
            "d_low", "Least share that is a supply at all, that of 208 V for 240 V", 86 * percent, COMMON_PRACTICE
        )
        good = constant("d_good", "Least share under load", 95 * percent, ANSI_C84_1.at("range A", FROM_MEMORY))
        high = constant(
            "d_high",
            "Most that a supply may stand above its nominal volts",
            106 * percent,
            ANSI_C84_1.at("range B", FROM_MEMORY),
        )
        return (
            require(
                share >= low,
                comfortable=share >= good,
                label="Volts under load",
                yes="The volts hold.",
                tight="Only {left} of the volts: a 208 V supply, or a weak one. A heater gives less than its plate says.",
                no="Only {left} of the volts: a bad contact, a long cord, or another voltage than the pattern says.",
            ),
            require(
                share <= high,
                exact=True,
                label="Not too many volts",
                yes="The volts are not too high.",
                no="{left} of the volts: wired wrong, or its neutral is open. Whatever is plugged in burns.",
            ),
        )

    def _contacts(self) -> Named:
        listed = table("outlets")
        hots = "two hots" if listed.text(self.outlet, "volts") == "240" else "one hot"
        parts = [hots, "a neutral" if listed.text(self.outlet, "neutral") == "yes" else "no neutral"]
        parts.append("a ground" if listed.text(self.outlet, "ground") == "yes" else "no ground")
        return Named(
            ", ".join(parts),
            "Its contacts",
            f"{' and '.join(volts_of(self.outlet))}; {listed.text(self.outlet, 'kind')}",
            listed.source,
        )

    def _face(self) -> dict[str, Named]:
        if self.outlet not in drawn():
            return {}
        how = f"drawn {how_drawn(self.outlet)}"
        return {"face": Named(self.outlet, "Its face, ground below", how, NEMA_WD_6.at("dimensions of receptacles"))}

    def _nearest(self) -> dict[str, Named]:
        listed = table("near_equivalents")
        if not listed.has(self.outlet, "nearest"):
            return {}
        note = f"they do not mate, and half the world has 50 Hz; {UNCONFIRMED}"
        return {
            "nearest": Named(listed.text(self.outlet, "nearest"), "Nearest industrial connector", note, listed.source)
        }

    def _mind(self) -> tuple[str, ...]:
        notes = []
        if self.outlet == "TT-30":
            notes.append("It looks like an old dryer outlet but has 120 V only.")
        if self.outlet.startswith("10-"):
            notes.append("Its third contact is the neutral: it has no ground, and a neutral is none.")
        if self.outlet.startswith(("6-", "L6-")):
            notes.append("It has no neutral: 120 V cannot be taken from it.")
        if (rating_of(self.outlet) > self.breaker).holds:
            notes.append(
                f"The pattern says {rating_of(self.outlet)}, but it is an outlet of {self.breaker}: the breaker rules."
            )
        return tuple(notes)

    # --- industrial -------------------------------------------------------------------------------------------------

    def _industrial(self) -> Answer:
        listed = table("iec_connectors")
        rated = float(self.connector_rating.removesuffix(" A")) * A
        rating = read("I_out", "Amps of the connector", rated, IEC_60309.at("rated currents"))
        room = limit("I_lim", "The lower of connector and breaker", smallest(rating, self.breaker), A)
        allowed = limit("I_max", "What it gives, for hours too", room - self.other_amps, A)
        lowest = listed.read("V_from", f"A {self.connector} connector: from", self.connector, "from", V)
        highest = listed.read("V_to", f"A {self.connector} connector: to", self.connector, "to", V)
        return answer(
            self._within_colour(self.connector_volts >= lowest, "Not too few volts"),
            self._within_colour(self.connector_volts <= highest, "Not too many volts"),
            require(
                self.breaker <= rating,
                exact=True,
                label="Breaker before the connector",
                yes="The breaker suits the connector.",
                no="A {left} breaker is too large for a {right} connector: it would burn before the breaker opens.",
            ),
            self._takes(allowed),
            say=f"A {self.connector} connector behind this breaker gives {allowed} at {self.connector_volts}.",
            notes=(
                "An American 240 V rig has two hots; here one of the two is a neutral, and there are 50 Hz: motors and transformers made for 60 Hz alone run hot.",
            ),
            most_current=allowed,
            power=limit("P", "Power at that current", self._phases() * self.connector_volts * allowed, kW),
            earth_contact=self._earth(),
        )

    def _within_colour(self, condition: Condition, label: str) -> Requirement:
        return require(
            condition,
            exact=True,
            label=label,
            yes="Colour and volts agree.",
            no=f"A {self.connector} connector is for other volts: {{left}} against {{right}}. Colour and plate disagree; do not use it.",
        )

    def _phases(self) -> Quantity:
        if self.connector in THREE_PHASE:
            three = constant("n_ph", "Phases", 3 * one, IEC_60309)
            return root(three)
        return constant("n_ph", "One phase", 1 * one, OWN_DERIVATION)

    def _earth(self) -> Named:
        listed = table("iec_connectors")
        if listed.text(self.connector, "earth") == "no":
            return Named("none", "Earth contact", "extra-low volts: it has none", listed.source)
        hour = listed.text(self.connector, "hour")
        return Named(f"{hour} o'clock", "Earth contact, the keyway at six", UNCONFIRMED, listed.source)

    fixes = (
        less("wanted", 1 * A, "Set it to {wanted} or less", costs="it takes longer"),
        less("other_amps", 1 * A, "Take what else hangs on this breaker down to {other_amps}"),
        option("outlet", "14-30", "Use a 14-30: it has both volts, neutral and ground"),
        option("outlet", "14-50", "Use a 14-50: it has both volts, neutral and ground"),
        option("connector_rating", "32 A", "Use a 32 A connector"),
    )
    cautions = (
        Caution(
            "DANGER",
            "Probes and wires held into the slots of an outlet touch live metal",
            "A slip burns the hand or stops the heart",
            "Use a tester that plugs in; anything else only with the breaker off and locked",
        ),
        Caution(
            "WARNING",
            "A worn or loose outlet runs hot at a current that a good one carries",
            "It melts and can set fire to the wall",
            "Feel the plug after ten minutes; too warm to hold: switch off, then unplug, and have the outlet replaced",
        ),
    )
    examples = (
        Example(
            given={"outlet": "14-50", "wanted_volts": "240 V", "breaker": "50", "wanted": "40", "lasting": "yes"},
            expect={"most_current": "40 A", "power": "9.60 kW"},
            verdict="go",
            source=NEMA_WD_6.at("14-50: 125/250 V, 50 A; four fifths of it for hours by NFPA 70, 210.20(A)"),
        ),
        Example(
            given={"outlet": "TT-30", "wanted_volts": "120 V", "breaker": "30", "wanted": "24", "lasting": "yes"},
            expect={"for_hours": "24 A", "power": "2.88 kW"},
            verdict="go",
            source=NEMA_WD_6.at("TT-30: 125 V, 30 A"),
        ),
        Example(
            given={"outlet": "TT-30", "wanted_volts": "240 V", "breaker": "30", "wanted": "12"},
            verdict="no",
            source=NEMA_WD_6.at("TT-30: 125 V"),
        ),
        Example(
            given={"connector": "blue", "connector_rating": "16 A", "breaker": "16", "wanted": "14"},
            expect={"most_current": "16 A", "power": "3.68 kW"},
            verdict="go",
            rules=IEC,
            source=IEC_60309.at("blue: 200 to 250 V; 16 A at 230 V is 3.68 kW"),
        ),
        Example(
            given={"connector": "yellow", "connector_rating": "16 A", "breaker": "16", "connector_volts": "230 V"},
            verdict="no",
            rules=IEC,
            source=IEC_60309.at("yellow: 100 to 130 V"),
        ),
    )
