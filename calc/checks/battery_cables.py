"""The cable from the bank and what it carries, as its pages ask of them: the load behind it, the cable as it lies."""

from __future__ import annotations

from calc.checks import battery_side as side
from calc.laws import bank_current
from calc.laws import conductor as us
from calc.laws import conductor_iec as iec
from calc.laws.inverter import power_from_bank
from calc.quantity import Quantity


class LoadOnTheBank:
    """What draws on the bank: an inverter at its full rating, or amps that are known."""

    load: str = side.load()
    amps: Quantity = side.amps()
    continuous: Quantity = side.continuous(when=side.OF_INVERTER)
    idle: Quantity = side.idle(when=side.OF_INVERTER)
    peak_efficiency: Quantity = side.peak_efficiency(when=side.OF_INVERTER)
    cutoff: Quantity = side.cutoff(when=side.OF_INVERTER)

    def lasting_current(self) -> Quantity:
        """At the lowest volts, where it is largest [A]."""
        if self.load == side.BY_AMPS:
            return self.amps
        power = power_from_bank(self.continuous, self.idle, self.peak_efficiency, self.continuous)
        return bank_current.current_at(power, self.cutoff, "I_co", "Lasting current at the cut-off")


class CableAsLaid:
    """The cable, copper, and how it lies, as each rule set asks of it."""

    size: str = side.size()
    insulation: str = side.insulation()
    terminals: str = side.terminals()
    ambient: Quantity = side.ambient()
    lay: str = side.lay()
    carrying: Quantity = side.carrying()
    method: str = side.method()
    circuits: Quantity = side.circuits()

    def carried_by_iec(self, size: str, circuits: Quantity) -> tuple[Quantity, Quantity]:
        """What a size carries as it lies, and what is usable of that at its terminals [A]."""
        laid = iec.capacity(size, us.COPPER, self.insulation, self.method, "2", self.ambient, circuits)
        return laid, iec.usable(laid, size, us.COPPER, self.method, "2", self.terminals)
