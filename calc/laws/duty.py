"""Loads that come and go: their mean power, and the root of the mean of its square, which is what heats."""

from __future__ import annotations

from collections.abc import Sequence

from calc.quantity import Quantity, need, root
from calc.sources import OWN_DERIVATION
from calc.units import W


def mean_power(loads: Sequence[tuple[Quantity, Quantity]], always: Quantity | None = None) -> Quantity:
    """Mean power [W] of loads, each with the share of the time that it runs, beside what runs all the time."""
    parts = ([] if always is None else [always]) + [watts * share for watts, share in loads]
    return need("P", "Mean power the loads take", sum(parts[1:], parts[0]) if parts else 0 * W, W)


def root_mean_square(loads: Sequence[tuple[Quantity, Quantity]], mean: Quantity) -> Quantity:
    """Root of the mean of the square of that power [W]. Loads run without heed of one another: the variances add."""
    spread = [watts**2 * (share * (1 - share)) for watts, share in loads]
    return need("P_rms", "Root of the mean of its square", root(sum(spread, mean**2)), W, OWN_DERIVATION)
