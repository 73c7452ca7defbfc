"""Published tables, one file each. A file's head says title, source, place, unit and how its cells were obtained.

A cell that ends in `?` was recalled from memory and has not been confirmed; a line that reads it says so.
"""

from __future__ import annotations

import csv
from dataclasses import dataclass
from functools import cache, cached_property
from importlib.resources import files

from calc import sources, units
from calc.quantity import OutsideValidity, Quantity, read
from calc.sources import Source
from calc.units import Unit

UNCONFIRMED = "this cell is from memory and not confirmed"


@dataclass(frozen=True)
class Table:
    """A published table. Rows and columns are named as they are in print."""

    name: str
    head: dict[str, str]
    columns: tuple[str, ...]
    cells: dict[tuple[str, str], str]
    rows: tuple[str, ...]

    @property
    def title(self) -> str:
        return self.head["title"]

    @cached_property
    def source(self) -> Source:
        work: Source = getattr(sources, self.head["source"])
        return work.at(self.head["place"]) if self.head.get("place") else work

    @cached_property
    def unit(self) -> Unit:
        return _UNITS[self.head["unit"]]

    def has(self, row: str, column: str) -> bool:
        return bool(self.cells.get((row, column)))

    def text(self, row: str, column: str) -> str:
        """What a cell says, without its mark."""
        cell = self.cells.get((row, column), "")
        if not cell:
            raise OutsideValidity(f"{self.title}: there is no value for {row}, {column}.")
        return cell.removesuffix("?")

    def value(self, row: str, column: str, unit: Unit | None = None) -> Quantity:
        """A cell as a plain quantity, for comparing sizes; `read` names it in the working."""
        return float(self.text(row, column)) * (unit or self.unit)

    def read(self, symbol: str, label: str, row: str, column: str, unit: Unit | None = None) -> Quantity:
        """A cell as a named number of the working, with its place in the table and its mark."""
        note = f"row {row}, column {column}"
        if self.cells.get((row, column), "").endswith("?"):
            note += f"; {UNCONFIRMED}"
        return read(symbol, label, self.value(row, column, unit), self.source, note=note)

    def row_covering(self, quantity: Quantity, unit: Unit) -> str:
        """The first row whose number is not below the quantity: `31 to 35` stands as 35."""
        number = quantity.number_in(unit) - 1e-9
        for row in self.rows:
            if float(row) >= number:
                return row
        raise OutsideValidity(f"{self.title}: {quantity} is above its last row, {self._edge(-1, unit)}.")

    def row_reached(self, quantity: Quantity, unit: Unit) -> str:
        """The last row whose number is not above the quantity."""
        number = quantity.number_in(unit) + 1e-9
        reached = [row for row in self.rows if float(row) <= number]
        if not reached:
            raise OutsideValidity(f"{self.title}: {quantity} is below its first row, {self._edge(0, unit)}.")
        return reached[-1]

    def _edge(self, row: int, unit: Unit) -> str:
        return str(float(self.rows[row]) * unit)


_UNITS: dict[str, Unit] = {unit.sign: unit for unit in units.ALL} | {"": units.one}


@cache
def table(name: str) -> Table:
    """The table kept in `calc/tables/<name>.csv`."""
    text = (files("calc.tables") / f"{name}.csv").read_text(encoding="utf-8")
    lines = text.splitlines()
    parted = (line[1:].partition(":") for line in lines if line.startswith("#"))
    head = {key.strip(): value.strip() for key, _, value in parted}
    columns, *rows = csv.reader(line for line in lines if line and not line.startswith("#"))
    cells = {(row[0], column): cell.strip() for row in rows for column, cell in zip(columns[1:], row[1:], strict=True)}
    return Table(name, head, tuple(columns[1:]), cells, tuple(row[0] for row in rows))
