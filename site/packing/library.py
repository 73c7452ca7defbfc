"""Everything Python needs on the phone, as one zip of bytecode: the standard library's part, the packages, calc.

Only what is imported when the known questions are answered goes in, and what ALSO names.
"""

from __future__ import annotations

import json
import shutil
import subprocess
import zipfile
from collections.abc import Iterable
from pathlib import Path

HERE = Path(__file__).resolve().parent
# Modules that stand in for heavy ones, of which the phone needs next to nothing.
THIN = HERE / "thin"
# Imported late, by paths that a good answer does not take.
ALSO = ("_strptime", "encodings.ascii", "encodings.latin_1", "encodings.idna", "traceback", "calc.sharing.proof")
SAME_DATE = (1980, 1, 1, 0, 0, 0)


def make(build: Path, pyodide: Path, wheels: Iterable[Path], calc: Path, templates: Path, questions: list[str]) -> bytes:
    """The library as a zip, the same bytes for the same sources."""
    sources, bytecode = build / "sources", build / "bytecode"
    bytecode.mkdir()
    for archive in (pyodide / "python_stdlib.zip", *wheels):
        with zipfile.ZipFile(archive) as packed:
            packed.extractall(sources)
    shutil.copytree(THIN, sources, dirs_exist_ok=True)
    _copy(calc, sources / "calc")
    _copy(templates, sources / "calc" / "templates")
    zipped(sources)
    asked = build / "asked.json"
    asked.write_text(json.dumps({"questions": questions, "also": ALSO}), encoding="utf-8")
    subprocess.run(["node", HERE / "compile.mjs", sources.with_suffix(".zip"), bytecode, asked], check=True, cwd=HERE.parent)
    return zipped(bytecode).read_bytes()


def _copy(source: Path, target: Path) -> None:
    shutil.copytree(source, target, ignore=shutil.ignore_patterns("__pycache__"))


def zipped(folder: Path) -> Path:
    """Stored, not deflated: the whole is compressed once, on the wire, and read as it is."""
    made = folder.with_suffix(".zip")
    with zipfile.ZipFile(made, "w", zipfile.ZIP_STORED) as archive:
        for file in sorted(folder.rglob("*")):
            if file.is_file():
                archive.writestr(zipfile.ZipInfo(file.relative_to(folder).as_posix(), SAME_DATE), file.read_bytes())
    return made
