"""The cells of the published tables as plain numbers, for the tests that hold them against the world."""

from __future__ import annotations

from calc.tables import Table, table


def number(listed: Table | str, row: str, column: str) -> float:
    listed = table(listed) if isinstance(listed, str) else listed
    return float(listed.text(row, column))


def column(name: str, heading: str) -> dict[str, float]:
    """The cells of a column that have a value, in the order of the rows. A column that is not there is an error."""
    listed = table(name)
    assert heading in listed.columns
    return {row: number(listed, row, heading) for row in listed.rows if listed.has(row, heading)}


def rises(values: list[float]) -> bool:
    return all(earlier < later for earlier, later in zip(values, values[1:], strict=False))


def is_number(text: str) -> bool:
    try:
        float(text)
    except ValueError:
        return False
    return True
