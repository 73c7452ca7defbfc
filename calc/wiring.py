"""What feeds what: the rig's parts as trees, read from its facts, for drawings and lists.

The trees say what the facts say and no more. A part whose feeder the rig does not know hangs on nothing and is kept
apart: it is for the walk-round to find fault with.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass

from calc.quantity import Quantity
from calc.rig import Rig

BANK, INLET, PANELS, INVERTER = "bank", "inlet", "panels", "inverter"
SOURCES = (BANK, INLET, PANELS)
BATTERY_CABLE = "battery cable"
# The inlet meets the inverter in its transfer, the panels the bank in their controller.
_JOINS = ((INLET, INVERTER), (PANELS, BANK))
# A chain of more devices than this is no cart.
_DEEPEST = 30
_LISTS = ("devices", "cables", "outlets", "loads", "cars")
_CALLED = {BANK: "Bank", INLET: "Inlet", PANELS: "Panels", INVERTER: "Inverter"}
# What is told of each kind of part beside its name: a fact, and the words round it.
_DETAILS: Mapping[str, tuple[tuple[str, str], ...]] = {
    BANK: (("nominal_volts", "{}"), ("energy", "{}"), ("chemistry", "{}")),
    INLET: (("configuration", "{}"), ("rating", "{}")),
    PANELS: (("count", "{} panels"), ("watts", "{} each")),
    INVERTER: (("system", "{}"), ("continuous", "{}")),
    "devices": (("rating", "{}"), ("family", "{}"), ("dc_volts", "{} dc")),
    "cables": (("size", "{}"), ("metal", "{}"), ("length", "{}")),
    "outlets": (("configuration", "{}"), ("leg", "leg: {}"), ("ground_fault", "ground fault: {}")),
    "loads": (("volts", "{}"), ("amps", "{}"), ("watts", "{}")),
    "cars": (("charging_volts", "{}"), ("charging_amps", "{}")),
}


@dataclass(frozen=True)
class Part:
    """One thing in the one-line diagram. key: its place among the facts, like `devices.0`, or `bank`."""

    key: str
    kind: str
    name: str
    details: tuple[str, ...] = ()


@dataclass(frozen=True)
class Branch:
    """A part and what hangs on it."""

    part: Part
    branches: tuple[Branch, ...] = ()

    def edges(self) -> Iterator[tuple[str, str]]:
        """(feeder, fed) for everything below, from the top."""
        for branch in self.branches:
            yield self.part.key, branch.part.key
            yield from branch.edges()

    def parts(self) -> Iterator[Part]:
        yield self.part
        for branch in self.branches:
            yield from branch.parts()


@dataclass(frozen=True)
class Wiring:
    """The trees of all sources, the parts that no source is known to feed, and where a second source joins a tree."""

    trees: tuple[Branch, ...]
    loose: tuple[Part, ...]
    joins: tuple[tuple[str, str], ...] = ()

    def edges(self) -> set[tuple[str, str]]:
        return {edge for tree in self.trees for edge in tree.edges()}

    def parts(self) -> list[Part]:
        return [part for tree in self.trees for part in tree.parts()]


def wiring(rig: Rig) -> Wiring:
    """The rig's one-line trees: bank, fuse, cable, inverter, breakers, wires, outlets, and what is plugged in."""
    keys = _keys(rig)
    feeders = {key: _feeder(rig, key) for key in keys}
    roots = [key for key in keys if key in _CALLED and feeders[key] is None]

    def branch(key: str, deep: int = 0) -> Branch:
        fed = [other for other in keys if feeders[other] == key] if deep < _DEEPEST else []
        return Branch(part(rig, key), tuple(branch(other, deep + 1) for other in fed))

    trees = tuple(branch(key) for key in roots)
    placed = {found.key for tree in trees for found in tree.parts()}
    joins = tuple(join for join in _JOINS if placed.issuperset(join))
    return Wiring(trees, tuple(part(rig, key) for key in keys if key not in placed), joins)


def part(rig: Rig, key: str) -> Part:
    """The part at a place among the facts, with what is known of it in a few words."""
    group = key.split(".")[0]
    kind = group.removesuffix("s")
    kind = _text(rig, key, "kind") or kind if group == "devices" else kind
    told = ((words, rig.facts.get(f"{key}.{name}")) for name, words in _DETAILS[group])
    details = tuple(words.format(value) for words, value in told if isinstance(value, (Quantity, str)))
    return Part(key, kind, _text(rig, key, "name") or _CALLED.get(key, f"{kind} without a name"), details)


def _keys(rig: Rig) -> list[str]:
    known = {path.split(".")[0] for path in rig.facts}
    return [key for key in _CALLED if key in known] + [
        f"{group}.{index}" for group in _LISTS for index in range(rig.count(group))
    ]


def _feeder(rig: Rig, key: str) -> str | None:
    """What feeds a part; None for a source, and where it is not known."""
    group = key.split(".")[0]
    if group == INVERTER:
        return _first(rig, "cables", lambda cable: _text(rig, cable, "use") == BATTERY_CABLE) or _known(rig, BANK)
    if group == "devices":
        return _named(rig, "devices", _text(rig, key, "behind")) or _known(rig, _text(rig, key, "fed_by"))
    if group == "cables":
        device = _named(rig, "devices", _text(rig, key, "device"))
        return device or (_known(rig, BANK) if _text(rig, key, "use") == BATTERY_CABLE else None)
    if group == "outlets":
        name = _text(rig, key, "name")
        return _first(rig, "cables", lambda cable: name in _names(rig, cable, "feeds")) or _known(rig, INVERTER)
    return _named(rig, "outlets", _text(rig, key, "outlet")) if group in ("loads", "cars") else None


def _first(rig: Rig, group: str, fits: Callable[[str], bool]) -> str | None:
    return next((key for key in (f"{group}.{index}" for index in range(rig.count(group))) if fits(key)), None)


def _named(rig: Rig, group: str, name: str) -> str | None:
    index = rig.index_of(group, name) if name else None
    return None if index is None else f"{group}.{index}"


def _known(rig: Rig, group: str) -> str | None:
    return group if group and any(path.startswith(f"{group}.") for path in rig.facts) else None


def _text(rig: Rig, key: str, name: str) -> str:
    value = rig.facts.get(f"{key}.{name}")
    return value if isinstance(value, str) else ""


def _names(rig: Rig, key: str, name: str) -> tuple[str, ...]:
    value = rig.facts.get(f"{key}.{name}")
    return value if isinstance(value, tuple) else ()
