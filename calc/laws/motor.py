"""Motors and other loads that draw more at the start: how much, for how long, and what it does to the volts."""

from __future__ import annotations

from dataclasses import dataclass

from calc.check import Requirement, require
from calc.laws.breaker_trip import US, heat_held, surely_holds, surely_opens
from calc.laws.motor_circuit import full_load_current
from calc.quantity import Quantity, constant, limit, need, root, step
from calc.reading import read_number
from calc.sources import COMMON_PRACTICE, OWN_DERIVATION
from calc.tables import table
from calc.units import VA, A, V, W, hp, kVA_per_hp, ohm, one, percent, s

# The table's 115 V and 230 V columns stand for supplies of 110 to 120 and 220 to 240 volts (its own note).
_COLUMN = {"120 V": "115 V", "240 V": "230 V"}


def table_current(size: str, volts: str) -> Quantity:
    """The current by which wires and breakers of a motor are chosen [A]; higher than most plates, so safe here."""
    return full_load_current(size, _COLUMN[volts])


def locked_rotor_current(size: str, letter: str, volts: Quantity) -> Quantity:
    """The start current by the code letter on the plate [A]; the top of the letter's band, one-phase."""
    listed = table("code_letters")
    top = listed.read(
        "k_LR", f"Code letter {letter}: start apparent power per horsepower, top of its band", letter, "to", kVA_per_hp
    )
    plate = constant("P_hp", "Horsepower on the plate", read_number(size)[0] * hp, COMMON_PRACTICE)
    return need("I_LR", "Start current by the code letter", top * plate / volts, A)


def band_of_letter(size: str, letter: str, volts: Quantity) -> tuple[Quantity, Quantity]:
    """The start currents at the two ends of a letter's band [A]; for saying what a hopeful reader would take."""
    listed, plate = table("code_letters"), read_number(size)[0] * hp
    bottom, top = (listed.value(letter, column, kVA_per_hp) * plate / volts for column in ("from", "to"))
    return bottom.shown_in(A), top.shown_in(A)


def start_by_kind(kind: str, running: Quantity) -> Quantity:
    """The start current by what kind of load it is [A]."""
    times = table("start_current").read("k_s", f"Times the running current: {kind}", kind, "multiple", one)
    return need("I_LR", "Start current at full volts", times * running, A)


def start_seconds(kind: str) -> Quantity:
    """How long a start of this kind lasts [s]."""
    return table("start_current").read("t_s", f"Time that it lasts: {kind}", kind, "seconds", s)


@dataclass(frozen=True)
class Start:
    """A load at a standstill: an impedance, rated volts over start current, at its power factor."""

    z: Quantity
    pf: Quantity
    reactive: Quantity


def at_standstill(rated: Quantity, start: Quantity, pf: Quantity) -> Start:
    """What a load is to the circuit before it turns."""
    z = step("Z_LR", "Impedance of the load at a standstill", rated / start, ohm, OWN_DERIVATION)
    return Start(z, pf, step("qf", "Its part out of step", root(1 - pf**2), one, OWN_DERIVATION))


def start_current(symbol: str, label: str, source: Quantity, load: Start, r: Quantity, x: Quantity) -> Quantity:
    """The start current that flows from a stiff source through r and x into a load at a standstill [A]."""
    whole = root((load.z * load.pf + r) ** 2 + (load.z * load.reactive + x) ** 2)
    return need(symbol, label, source / whole, A, OWN_DERIVATION)


def volts_at_start(flows: Quantity, load: Start) -> Quantity:
    """The volts left at the load while it starts [V]."""
    return limit("V_s", "Volts at the tool while it starts", flows * load.z, V)


def rides_through(flows: Quantity, lasts: Quantity, breaker: Quantity, kind: str = US) -> list[Requirement]:
    """Whether a breaker holds a start: its magnet at once, its heat with (I/I_B)²·t."""
    surely, perhaps = surely_holds(kind), surely_opens(kind)
    cool, hot = heat_held(kind, breaker)
    heat = need("H", "Heat of the start, as seconds at the breaker's rating", (flows / breaker) ** 2 * lasts, s)
    return [
        require(
            flows <= perhaps * breaker,
            comfortable=flows <= surely * breaker,
            label="Breaker at the start",
            yes="The breaker holds.",
            tight="The start of {left} may trip the breaker now and then.",
            no="The start of {left} trips the breaker at once; it holds up to {right}.",
        ),
        require(
            heat <= hot,
            comfortable=heat <= cool,
            label="Breaker's heat at the start",
            yes="The breaker stays cool enough.",
            tight="The start lasts so long that the breaker may trip.",
            no="The start lasts so long that the breaker trips.",
        ),
    ]


def share_of_torque(left: Quantity, rated: Quantity) -> Quantity:
    """Turning force left at these volts [-]: it falls with their square."""
    return limit("M_s", "Turning force left at the start", (left / rated) ** 2, percent, COMMON_PRACTICE)


def apparent_power(symbol: str, label: str, volts: Quantity, current: Quantity) -> Quantity:
    """Volts times amps, named [VA]."""
    return need(symbol, label, volts * current, VA)


def volts_at_constant_power(source: Quantity, loop: Quantity, power: Quantity) -> Quantity:
    """Volts at a tool that holds its power when they fall [V]: the upper root of V² − E·V + R·P = 0.

    Only where E² ≥ 4·R·P: past that no voltage carries the power.
    """
    return limit(
        "V_t",
        "Volts at the tool while it runs",
        (source + root(source**2 - 2 * 2 * loop * power)) / 2,
        V,
        OWN_DERIVATION,
    )


def most_power_through(source: Quantity, loop: Quantity) -> Quantity:
    """The most that any load can draw through a resistance [W]."""
    return limit("P_top", "Most power that passes this resistance", source**2 / (2 * 2 * loop), W, OWN_DERIVATION)
