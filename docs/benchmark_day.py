"""How fast a year of ten-minute steps is: `python docs/benchmark_day.py` (not a test). --browser runs it in Pyodide too.

A year is 52 560 steps of the example rig's plan on typical days: sun, loads, cells and charge, prepared and stepped.
It may take a second. Machines differ, so beside it stands, from the same run and the same interpreter, its ratio to a
bare loop of ten million additions: what interprets faster or slower does both alike.
With Pyodide it needs node and the site's npm packages (`python build.py` fetches them).
"""

from __future__ import annotations

import argparse
import subprocess
import sys
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
sys.path.insert(0, str(ROOT))

A_YEAR = """
import time
from calc.day import day_of
from calc.planning.course import Course
from calc.planning.plan import Facts
from calc.rig import example_rig

def seconds(act, runs=5):
    act()
    took = []
    for _ in range(runs):
        begun = time.perf_counter()
        act()
        took.append(time.perf_counter() - begun)
    return min(took)

def additions(count=10_000_000):
    total = 0.0
    for _ in range(count):
        total += 0.5

bare = seconds(additions, 2)
year = seconds(lambda: Course(Facts(example_rig(), ""), 365).run("typical"))
three = seconds(lambda: day_of().answer)
carried = seconds(lambda: day_of().carriers, 1)
"""
IN_NODE = """
import { loadPyodide } from "./node_modules/pyodide/pyodide.mjs";
const pyodide = await loadPyodide();
pyodide.FS.mkdirTree("/here"); pyodide.mountNodeFS("/here", process.argv[2]);
const packages = process.argv[3].split(",");
for (const [index, folder] of packages.entries()) pyodide.mountNodeFS((pyodide.FS.mkdirTree("/p" + index), "/p" + index), folder);
pyodide.runPython(`import sys; sys.path[:0] = ["/here", ${packages.map((_, index) => `"/p${index}"`).join(", ")}]`);
pyodide.runPython(process.argv[4]);
console.log(["year", "three", "carried", "bare"].map((name) => pyodide.globals.get(name)).join(" "));
"""


def main() -> None:
    parser = argparse.ArgumentParser(description="Times a year of the day's steps.")
    parser.add_argument("--browser", action="store_true", help="also in Pyodide, under node")
    told = parser.parse_args()
    found: dict[str, float] = {}
    exec(A_YEAR, found)  # noqa: S102  (the same text runs in Pyodide)
    tell("CPython", found["year"], found["three"], found["carried"], found["bare"])
    if told.browser:
        tell("Pyodide", *in_pyodide())


def tell(where: str, year: float, three: float, carried: float, bare: float) -> None:
    print(f"{where}: a year of steps {year:.3f} s, {year / bare:.2f} of ten million bare additions ({bare:.3f} s); three days answered {three:.3f} s; what carries it through {carried:.3f} s")


def in_pyodide() -> list[float]:
    import jinja2

    script = ROOT / "site" / "benchmark_day.mjs"
    script.write_text(IN_NODE, encoding="utf-8")
    try:
        folders = str(Path(jinja2.__file__).parents[1])
        ran = subprocess.run(["node", script, ROOT, folders, A_YEAR], cwd=ROOT / "site", capture_output=True, text=True, check=True)
    finally:
        script.unlink()
    return [float(number) for number in ran.stdout.split()[-4:]]


if __name__ == "__main__":
    begun = time.perf_counter()
    main()
    print(f"({time.perf_counter() - begun:.0f} s in all)")
