"""Runs inside Pyodide: what answers the questions in /asked.json is compiled from /sources to /output.

In calc every module and data file is taken; of everything else, the modules that were imported.
"""

import importlib
import json
import sys
from importlib._bootstrap_external import _code_to_hash_pyc
from importlib.util import source_hash
from pathlib import Path

SOURCES, OUTPUT = Path("/sources"), Path("/output")
STDLIB = "/lib/python314.zip/"


def imported(questions: list[str], also: list[str]) -> set[str]:
    """The source files of all modules that are there when the questions have been answered."""
    sys.path.insert(0, str(SOURCES))
    for module in also:
        importlib.import_module(module)
    reply = importlib.import_module("calc.reply").reply
    for question in questions:
        reply(question)
    places = [getattr(module, "__file__", None) or "" for module in list(sys.modules.values())]
    return {place.removeprefix(STDLIB).removeprefix(f"{SOURCES}/") for place in places}


def wanted(path: Path, modules: set[str]) -> bool:
    return path.parts[0] == "calc" or path.as_posix() in modules


def bytecode(path: Path, source: bytes) -> bytes:
    # Docstrings are content in calc, where a check's question is one; in all else they are weight.
    level = 0 if path.parts[0] == "calc" else 2
    code = compile(source, path.as_posix(), "exec", dont_inherit=True, optimize=level)
    # Never checked against its source at run time: there is none.
    return _code_to_hash_pyc(code, source_hash(source), checked=False)


def main() -> None:
    modules = imported(**json.loads(Path("/asked.json").read_text()))
    for file in sorted(SOURCES.rglob("*")):
        path = file.relative_to(SOURCES)
        if not file.is_file() or not wanted(path, modules):
            continue
        made = OUTPUT / path
        made.parent.mkdir(parents=True, exist_ok=True)
        if path.suffix == ".py":
            made.with_suffix(".pyc").write_bytes(bytecode(path, file.read_bytes()))
        else:
            made.write_bytes(file.read_bytes())


main()
