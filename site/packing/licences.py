"""The licences of what goes to the phone beside our own code, as one text: their words ask to travel along."""

from __future__ import annotations

import json
import zipfile
from collections.abc import Iterable, Iterator
from pathlib import Path

# Texts of what is published without them.
TEXTS = Path(__file__).resolve().parent / "licences"
HEAD = """Barrowatt carries these works by others. Each is published by its makers, with its source, under the name and version
said here. Of most only the part that is used is carried, compiled, without comments."""


def text(pyodide: Path, npm: Iterable[Path], wheels: Iterable[Path]) -> bytes:
    """Each work's name and version, and its licence as its makers published it."""
    works = [*_interpreter(pyodide), *(_npm(package) for package in npm), *(_wheel(wheel) for wheel in wheels)]
    return ("\n\n\n".join([HEAD, *works]) + "\n").encode()


def _work(name: str, version: str, licence: str) -> str:
    title = f"{name} {version}"
    return f"{title}\n{'=' * len(title)}\n\n{licence.strip()}"


def _interpreter(pyodide: Path) -> Iterator[str]:
    package = json.loads((pyodide / "package.json").read_text(encoding="utf-8"))
    lock = json.loads((pyodide / "pyodide-lock.json").read_text(encoding="utf-8"))
    yield _work("Python", lock["info"]["python"], (TEXTS / "python.txt").read_text(encoding="utf-8"))
    yield _work("Pyodide", package["version"], (TEXTS / "pyodide.txt").read_text(encoding="utf-8"))


def _npm(package: Path) -> str:
    described = json.loads((package / "package.json").read_text(encoding="utf-8"))
    return _work(described["name"], described["version"], (package / "LICENSE").read_text(encoding="utf-8"))


def _wheel(wheel: Path) -> str:
    name, version, _ = wheel.name.split("-", 2)
    with zipfile.ZipFile(wheel) as packed:
        said = [packed.read(file).decode() for file in sorted(packed.namelist()) if ".dist-info/" in file and Path(file).name.upper().startswith("LICEN")]
        return _work(name, version, "\n\n".join(said) if said else _head_of(packed.read(f"{name}.py").decode()))


def _head_of(source: str) -> str:
    """The comment that a module opens with: where its makers put the licence if nowhere else."""
    lines = source.splitlines()
    comment = lines[: next(at for at, line in enumerate(lines) if not line.startswith("#"))]
    return "\n".join(line.lstrip("# ") for line in comment)
