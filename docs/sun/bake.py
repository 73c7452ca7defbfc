"""Bakes the sun of every land cell and month into `calc/tables/sun/clearness.bin`.

    pip install gsee-climate-data==1.0.0 numpy
    python docs/sun/bake.py

The source is a grid of 3 by 3 degrees with, for each month, the density of the daily mean of the sun on flat ground
(MERRA-2, 2011 to 2015; see NOTICE beside this file). Kept are five quantiles and the mean, as clearness: the share of
the sun above the air, in hundredths, one byte each. The same H0 bakes and unbakes, so that its own small error cancels.

Layout: `BWS1`, the number of cells and of months as two 16-bit numbers, a bit for each cell of 44 rows (latitude -57
to 72) and 120 columns (longitude -180 to 177), then for each statistic (P50, P50 - P25, P25 - P10, P75 - P50,
P90 - P75, mean - P50) and each month the bytes of all cells that hold data, each as its difference to the one before.
"""

from __future__ import annotations

import struct
import sys
from pathlib import Path
from typing import Any

import numpy as np

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from calc.sun import MONTHS, extraterrestrial  # noqa: E402

HERE = ROOT / "calc/tables/sun/clearness.bin"
QUANTILES = (0.10, 0.25, 0.50, 0.75, 0.90)
HOURS = 24 / 1000  # a daily mean in W/m2 to kWh/m2 in the day


def statistics(values: Any, weights: Any) -> list[float]:
    """Five quantiles and the mean of a density on bins; what the smoothing put below zero counts as zero."""
    values = np.maximum(values, 0.0)
    share = np.maximum(weights, 0.0) / np.maximum(weights, 0.0).sum()
    middle = np.cumsum(share) - share / 2
    return [*np.interp(QUANTILES, middle, values), float((share * values).sum())]


def clearness(source: Any) -> tuple[Any, Any]:
    """Which cells hold data, and for each of these [statistic, month] in hundredths."""
    values, weights, latitudes = source["xk"], np.nan_to_num(source["pk"]), source["lat"]
    held = (weights.sum(axis=3) > 0) & np.isfinite(source["xk"]).all(axis=3)
    cells = held.any(axis=2)
    baked = np.zeros((int(cells.sum()), 6, len(MONTHS)), dtype=np.int64)
    for index, (row, column) in enumerate(zip(*np.nonzero(cells), strict=True)):
        for month in range(len(MONTHS)):
            above = extraterrestrial(float(latitudes[row]), month)
            if held[row, column, month] and above > 0.01:
                said = np.array(statistics(values[row, column, month], weights[row, column, month]))
                baked[index, :, month] = np.clip(np.rint(100 * said * HOURS / above), 0, 120)
    return cells, baked


def packed(cells: Any, baked: Any) -> bytes:
    """The file: head, mask, then each plane as differences along the cells."""
    p10, p25, p50, p75, p90, mean = (baked[:, k, :] for k in range(6))
    planes = (p50, p50 - p25, p25 - p10, p75 - p50, p90 - p75, mean - p50)
    head = b"BWS1" + struct.pack("<HH", len(baked), len(MONTHS)) + np.packbits(cells.ravel()).tobytes()
    body = b"".join(
        np.diff(plane[:, month], prepend=0).astype(np.uint8).tobytes()
        for plane in planes
        for month in range(len(MONTHS))
    )
    return head + body


def bake() -> bytes:
    import gsee_climate_data

    return packed(*clearness(gsee_climate_data.load()))


if __name__ == "__main__":
    HERE.write_bytes(bake())
    print(f"{HERE}: {HERE.stat().st_size} bytes")
