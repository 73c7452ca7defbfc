"""Sockets under the international rules: volts by colour, amps, and which of them carry their amps for hours."""

from __future__ import annotations

from calc.check import Requirement, require
from calc.quantity import Quantity, Statement, limit, smallest
from calc.tables import table
from calc.units import A

FUSED = "household 13 A with a fused plug"


def sockets() -> tuple[str, ...]:
    """The sockets that are known, household ones first."""
    return table("iec_sockets").rows


def volts_of(socket: str) -> str:
    """The nominal volts of a socket, as `230 V`."""
    return f"{table('iec_sockets').text(socket, 'volts')} V"


def gives_volts(socket: str, volts: str) -> Requirement:
    """A socket's colour says what volts it has; a household one has 230 V."""
    given = volts_of(socket)
    return require(
        Statement(f"A {socket} socket has {given}", given == volts, table("iec_sockets").source),
        label="Volts",
        yes="The socket gives these volts.",
        no=f"A {socket} socket has {given}, not {volts}.",
    )


def breaker_before(socket: str, breaker: Quantity) -> Requirement:
    """A breaker of the socket's own amps at most; behind a ring circuit the plug has a fuse of its own."""
    most = table("iec_sockets").read("I_cir", f"Largest breaker before a {socket} socket", socket, "breaker", A)
    return require(
        breaker <= most,
        exact=True,
        label="Breaker before the outlet",
        yes="The breaker suits the socket.",
        no=f"A {{left}} breaker is too large for a {socket} socket: {{right}} at most. The socket would burn before it opens.",
    )


def carries(socket: str, breaker: Quantity, current: Quantity, lasting: bool) -> Requirement:
    """No factor is put on lasting loads here; but a household socket does not carry its amps for hours."""
    column, while_ = ("for hours", " for hours on end") if lasting else ("amps", "")
    rated = table("iec_sockets").read("I_out", f"What a {socket} socket carries{while_}", socket, column, A)
    weaker = limit("I_lim", "The lower of socket and breaker", smallest(rated, breaker), A)
    return require(
        current <= weaker,
        label="Outlet",
        yes="The socket carries it.",
        tight=f"{{left}} is asked of the socket and its breaker{while_}; they give {{right}}.",
        no=f"{{left}} is asked of the socket and its breaker{while_}; they give only {{right}}.",
    )


def guards_the_cord(socket: str, breaker: Quantity) -> Quantity:
    """What opens when the tool's cord is overloaded [A]: the breaker, or the fuse in a British plug."""
    if socket != FUSED:
        return breaker
    fuse = table("iec_sockets").read("I_fu", "Fuse in the plug", socket, "amps", A)
    return limit("I_gd", "What guards the cord, the lower of fuse and breaker", smallest(fuse, breaker), A)
