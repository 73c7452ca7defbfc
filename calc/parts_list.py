"""What the rig is made of, for a shop: parts as rows of a CSV, and the torque of its screws by the published tables."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator
from dataclasses import astuple, dataclass, fields

from calc.board import board
from calc.catalogue import check_called
from calc.check import NEC
from calc.filling import shown
from calc.quantity import Quantity
from calc.rig import Known, Rig
from calc.tables import Table, table
from calc.units import N_m, lbf_in
from calc.wiring import BATTERY_CABLE

UNKNOWN = "not known"
MAKERS_FIRST = "The maker's figure on the part or in its manual comes first; these are for where nothing is marked"
NEVER_AGAIN = "Tighten once, with a calibrated tool, and mark it with paint; re-tightening to check tells nothing"
POSTS = "Battery posts and bus studs: the maker's figure only"
_SPARES = 1


@dataclass(frozen=True)
class Item:
    """One row. quantity: pieces; length: of each piece."""

    item: str
    specification: str
    quantity: str
    length: str
    used_for: str
    note: str


def parts_list(rig: Rig) -> list[Item]:
    """Cables with their lugs, devices with spares, outlets with covers, inlet, panels: as far as the facts say."""
    return [*_cables(rig), *_devices(rig), *_outlets(rig), *_others(rig)]


def as_csv(items: list[Item]) -> str:
    """The list as CSV; what a person typed cannot begin a formula in a spreadsheet."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(field.name.replace("_", " ") for field in fields(Item))
    writer.writerows([_harmless(cell) for cell in astuple(item)] for item in items)
    return out.getvalue()


def _harmless(cell: str) -> str:
    plain = cell.replace("\u00a0", " ")
    return f"'{plain}" if plain[:1] in ("=", "+", "-", "@", "\t") else plain


def _ground_wires(rig: Rig) -> dict[str, str]:
    """The ground wire that each run needs, as its page answers for this rig."""
    rows = board(rig, NEC, [check_called("wire/ground-wire")])
    return {
        row.subject: str(row.answer.results["ground_needed"]) for row in rows if "ground_needed" in row.answer.results
    }


def _cables(rig: Rig) -> Iterator[Item]:
    grounds = _ground_wires(rig)
    for index in range(rig.count("cables")):
        place = f"cables.{index}"
        name, size, length, metal = (_fact(rig, f"{place}.{fact}") for fact in ("name", "size", "length", "metal"))
        kind = f"{size}, {metal}, insulation {_fact(rig, f'{place}.insulation')}"
        if rig.facts.get(f"{place}.use") == BATTERY_CABLE:
            yield Item(
                "cable, fine strands",
                kind,
                "2",
                length,
                name,
                "One for plus and one for minus; cut when it is in place",
            )
            yield Item(
                "lug",
                f"for {size}, {_fact(rig, f'{place}.terminals')}; hole as the stud it goes on",
                "4",
                "",
                name,
                "Crimped with the die of that lug",
            )
            yield Item("sleeve, adhesive", f"over {size}", "4", "", name, "Red for plus, black for minus")
        elif rig.facts.get(f"{place}.use") == "extension cord":
            yield Item("extension cord", size, "1", length, name, "")
        else:
            carrying = rig.facts.get(f"{place}.carrying")
            wires = f"{carrying.shown:.0f}" if isinstance(carrying, Quantity) else UNKNOWN
            yield Item(
                "wire", kind, wires, length, name, "As many as carry current; a neutral of two equal legs comes on top"
            )
            yield Item(
                "ground wire",
                grounds.get(name, UNKNOWN),
                "1",
                length,
                name,
                "By its breaker; grown where the wires were",
            )


def _devices(rig: Rig) -> Iterator[Item]:
    for index in range(rig.count("devices")):
        place = f"devices.{index}"
        kind, rating = _fact(rig, f"{place}.kind"), _fact(rig, f"{place}.rating")
        told = [("family", "{}"), ("dc_volts", "{} dc"), ("interrupting", "breaks {} dc")]
        more = [
            words.format(shown(known))
            for fact, words in told
            if (known := rig.facts.get(f"{place}.{fact}")) is not None
        ]
        is_fuse = kind == "fuse"
        yield Item(
            kind,
            ", ".join((rating, *more)),
            str(1 + _SPARES) if is_fuse else "1",
            "",
            _fact(rig, f"{place}.name"),
            "One of them a spare; and a holder" if is_fuse else "",
        )


def _outlets(rig: Rig) -> Iterator[Item]:
    for index in range(rig.count("outlets")):
        place = f"outlets.{index}"
        fault, cover = _fact(rig, f"{place}.ground_fault"), _fact(rig, f"{place}.cover")
        yield Item(
            "outlet",
            f"{_fact(rig, f'{place}.configuration')}, ground fault: {fault}",
            "1",
            "",
            _fact(rig, f"{place}.name"),
            f"Cover: {cover}",
        )


def _others(rig: Rig) -> Iterator[Item]:
    if "inlet.configuration" in rig.facts:
        yield Item(
            "inlet",
            f"{_fact(rig, 'inlet.configuration')}, {_fact(rig, 'inlet.rating')}",
            "1",
            "",
            "charging",
            "With a cover",
        )
        yield Item(
            "cord to the inlet", _fact(rig, "inlet.cord_size"), "1", _fact(rig, "inlet.cord_length"), "charging", ""
        )
    if "panels.count" in rig.facts:
        yield Item(
            "panel",
            f"{_fact(rig, 'panels.watts')}, {_fact(rig, 'panels.open_volts')} open",
            _fact(rig, "panels.count"),
            "",
            "sun",
            "",
        )


def _fact(rig: Rig, path: str) -> str:
    known: Known | None = rig.facts.get(path)
    return UNKNOWN if known is None or known == "" else shown(known)


# --- torque ----------------------------------------------------------------------------------------------------------


@dataclass(frozen=True)
class Torque:
    """What a screw on a wire of this size is tightened to; "" where the table has nothing. Cells from memory say so."""

    size: str
    used_for: str
    narrow_slot: str
    wide_slot: str
    split_bolt: str
    hexagon: str


_COLUMNS = ("slotted narrow", "slotted wide", "split-bolt", "other hexagonal")


def torque_list(rig: Rig) -> list[Torque]:
    """One row for each size of wire in the rig, for all the runs that have it."""
    runs: dict[str, list[str]] = {}
    for index in range(rig.count("cables")):
        size = rig.facts.get(f"cables.{index}.size")
        if isinstance(size, str) and rig.facts.get(f"cables.{index}.use") != "extension cord":
            runs.setdefault(size, []).append(_fact(rig, f"cables.{index}.name"))
    listed = table("torque")
    return [_torque(listed, size, ", ".join(names)) for size, names in runs.items()]


def _torque(listed: Table, size: str, used_for: str) -> Torque:
    row = row_for(size)
    return Torque(size, used_for, *(_cell(listed, row, column) if row else "" for column in _COLUMNS))


def row_for(size: str) -> str | None:
    """The row of the torque table that holds a size; None for one that it does not list, like a metric one."""
    for row in table("torque").rows:
        ends = [_thickness(end) for end in row.split(" to ")]
        if size.endswith((" AWG", " kcmil")) and ends[0] <= _thickness(size.rpartition(" ")[0]) <= ends[-1]:
            return row
    return None


def _thickness(gauge: str) -> int:
    """Thicker is larger: 30 AWG is −30, 1 AWG −1, 1/0 is 0, 4/0 is 3, then kcmil as they are."""
    if gauge.endswith("/0"):
        return int(gauge.removesuffix("/0")) - 1
    number = int(gauge.partition("-")[0])
    return number if number > 100 else -number


def _cell(listed: Table, row: str, column: str) -> str:
    if not listed.has(row, column):
        return ""
    torque = listed.value(row, column, lbf_in)
    doubt = " (from memory)" if listed.cells[row, column].endswith("?") else ""
    return f"{torque}, {torque.number_in(N_m):.1f}\u00a0N·m{doubt}"


def sockets() -> list[tuple[str, str]]:
    """(width across flats, torque) of screws with a recessed hexagon or square."""
    listed = table("torque_socket")
    return [(f"{row} in", _cell(listed, row, "torque")) for row in listed.rows]


def sources() -> list[str]:
    return [str(table("torque").source), str(table("torque_socket").source)]
