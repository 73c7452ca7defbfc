"""Batteries side by side between two rails: how the links between them make the near ones work harder.

Resistances are those of each battery in order from the positive take-off; `link` is one rail's piece between two
neighbours. Shares are of the whole current and sum to one.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import reduce

from calc.quantity import Quantity, step
from calc.sources import OWN_DERIVATION
from calc.units import one

KIRCHHOFF = OWN_DERIVATION.at("Kirchhoff's two laws")


def shares_on_a_bar(resistances: Sequence[Quantity]) -> list[Quantity]:
    """Equal leads to one bar: each gives in proportion to its conductance [-]."""
    parts = [
        step(f"g_{k}", f"Battery {k}, against the first", resistances[0] / r, one) for k, r in _numbered(resistances)
    ]
    return _shares(parts)


def shares_from_one_end(resistances: Sequence[Quantity], link: Quantity) -> list[Quantity]:
    """Both wires at the same end [-]: worked from the far end, where the current is called 1.

    Between two neighbours both rails carry all that comes from beyond: R_k·i_k = R_{k+1}·i_{k+1} + 2·r·Σ beyond.
    """
    last = len(resistances)
    parts = [step(f"g_{last}", f"Battery {last}, the farthest, called", 1 * one, one)]
    for k in range(last - 1, 0, -1):
        here, beyond = resistances[k - 1], resistances[k]
        current = (beyond * parts[0] + 2 * link * _sum(parts)) / here
        parts.insert(0, step(f"g_{k}", f"Battery {k}, against the farthest", current, one, KIRCHHOFF))
    return _shares(parts)


def shares_across(resistances: Sequence[Quantity], link: Quantity) -> list[Quantity]:
    """One wire at each end [-]: i_k = α_k·i_1 − γ_k of the whole, where all of them sum to one.

    R_{k+1}·i_{k+1} = R_k·i_k − r·(Σ beyond − Σ up to here), and Σ beyond is one less Σ up to here.
    """
    alphas, gammas = [step("α_1", "Battery 1 in parts of its own current", 1 * one, one)], [0 * one]
    for k in range(1, len(resistances)):
        here, beyond = resistances[k - 1], resistances[k]
        alpha = (here * alphas[-1] + 2 * link * _sum(alphas)) / beyond
        gamma = (here * gammas[-1] + link + 2 * link * _sum(gammas)) / beyond
        alphas.append(step(f"α_{k + 1}", f"Battery {k + 1} in parts of the first one's current", alpha, one, KIRCHHOFF))
        gammas.append(step(f"γ_{k + 1}", f"Battery {k + 1}, less this part of the whole", gamma, one, KIRCHHOFF))
    first = step("f_1", "Share of battery 1", (1 + _sum(gammas)) / _sum(alphas), one, KIRCHHOFF)
    others = zip(alphas[1:], gammas[1:], strict=True)
    return [
        first,
        *(
            step(f"f_{k}", f"Share of battery {k}", alpha * first - gamma, one)
            for k, (alpha, gamma) in enumerate(others, 2)
        ),
    ]


def _numbered(values: Sequence[Quantity]) -> list[tuple[int, Quantity]]:
    return list(enumerate(values, start=1))


def _sum(parts: Sequence[Quantity]) -> Quantity:
    return reduce(lambda left, right: left + right, parts)


def _shares(parts: Sequence[Quantity]) -> list[Quantity]:
    whole = step("g", "All of them", _sum(parts), one)
    return [step(f"f_{k}", f"Share of battery {k}", part / whole, one) for k, part in _numbered(parts)]
