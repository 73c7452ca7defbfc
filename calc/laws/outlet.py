"""What an outlet gives: volts, ground, amps, and the breaker that may stand before it."""

from __future__ import annotations

from calc.check import Requirement, require
from calc.quantity import Quantity, Statement, alternative, constant, limit, need, smallest
from calc.sources import FROM_MEMORY, NEC_2023
from calc.tables import table
from calc.units import A, one

# What feeds the rig's outlets: while the inlet is plugged in, the wall passes through.
INVERTER, WALL = "the rig's inverter", "a wall outlet"
FED_BY = {"nothing": INVERTER} | dict.fromkeys(table("outlets").rows, WALL)


def volts_of(outlet: str) -> tuple[str, ...]:
    """The nominal volts that an outlet has between its contacts, as `120 V`."""
    listed = table("outlets")
    columns = [column for column in ("volts", "volts to neutral") if listed.has(outlet, column)]
    return tuple(dict.fromkeys(f"{listed.text(outlet, column)} V" for column in columns))


def gives_volts(outlet: str, volts: str) -> Requirement:
    """The pattern of its slots says what volts an outlet has (trap: a TT-30 is 120 V, a 6-50 has no neutral)."""
    given = volts_of(outlet)
    statement = Statement(f"{outlet} has {' and '.join(given)}", volts in given, table("outlets").source)
    return require(
        statement,
        label="Volts",
        yes="The outlet gives these volts.",
        no=f"An outlet of pattern {outlet} has no {volts}: it gives {' and '.join(given)}.",
    )


def has_ground(outlet: str) -> Requirement:
    """Whether an outlet has a ground contact (trap: the 10 series has none)."""
    grounded = table("outlets").text(outlet, "ground") == "yes"
    statement = Statement(
        f"{outlet} {'has' if grounded else 'has no'} ground contact", grounded, table("outlets").source
    )
    return require(
        statement,
        label="Ground",
        yes="The outlet has a ground contact.",
        no=f"An outlet of pattern {outlet} has no ground: a fault would put the metal of what is plugged in at mains voltage.",
    )


def rating_of(outlet: str) -> Quantity:
    """The amps stamped on an outlet [A]."""
    return table("outlets").read("I_out", f"Rating of outlet {outlet}", outlet, "amps", A)


def breaker_before(outlet: str, breaker: Quantity, rating: Quantity) -> Requirement:
    """A 15 A outlet may stand on a 20 A circuit; every other one on a circuit of its own rating at most."""
    if rating.si == table("outlet_on_circuit").value("15", "least", A).si:
        most = table("outlet_on_circuit").read("I_cir", "Largest circuit for a 15 A outlet", "20", "most", A)
    else:
        place = NEC_2023.at("210.21(B)", FROM_MEMORY)
        most = alternative(
            "I_cir", f"Largest circuit for outlet {outlet}", rating, "a circuit of its own rating at most", A, place
        )
    return require(
        breaker <= most,
        label="Breaker before the outlet",
        exact=True,
        yes="The breaker suits the outlet.",
        no=f"The {{left}} breaker is too large for outlet {outlet}: at most {{right}}. The outlet would burn before it opens.",
    )


def carries(outlet: str, rating: Quantity, breaker: Quantity, current: Quantity, lasting: bool) -> Requirement:
    """The current asked, 125 % of it where it lasts three hours or more, against the lower of outlet and breaker."""
    asked = need(
        "I_need", "Current asked of outlet and breaker", continuous_factor() * current if lasting else current, A
    )
    weaker = limit("I_lim", "The lower of outlet and breaker", smallest(rating, breaker), A)
    counts = " for hours on end" if lasting else ""
    return require(
        asked <= weaker,
        label="Outlet",
        yes="The outlet carries it.",
        tight=f"{{left}} is asked of the outlet and its breaker{counts}; they give {{right}}.",
        no=f"{{left}} is asked of the outlet and its breaker{counts}; they give only {{right}}.",
    )


def continuous_factor() -> Quantity:
    """What a load of three hours or more counts for [-]."""
    return constant("k_c", "A load of three hours or more counts for", 1.25 * one, NEC_2023.at("210.20(A)"))
