"""Runs inside Pyodide: what answers the questions in /asked.json is compiled from its library to /output.

In calc every module and data file is taken; of everything else, the modules that were imported. They are imported
from a zip because the phone will: data files are read from one by other means than from a folder.
"""

import ast
import importlib
import json
import sys
import zipfile
from importlib._bootstrap_external import _code_to_hash_pyc
from importlib.util import source_hash
from pathlib import Path, PurePosixPath
from types import CodeType

SOURCES, OUTPUT = "/lib/python314.zip", Path("/output")


def imported(questions: list[str], also: list[str]) -> set[str]:
    """The source files of all modules that are there when the questions have been answered."""
    for module in also:
        importlib.import_module(module)
    reply = importlib.import_module("calc.reply").reply
    for question in questions:
        reply(question)
    places = [getattr(module, "__file__", None) or "" for module in list(sys.modules.values())]
    return {place.removeprefix(f"{SOURCES}/") for place in places}


def bytecode(path: PurePosixPath, source: bytes) -> bytes:
    ours = path.parts[0] == "calc"
    tree = without_docstrings(ast.parse(source)) if ours else ast.parse(source)
    code = compile(tree, str(path), "exec", dont_inherit=True, optimize=0 if ours else 2)
    code = without_lines(code) if ours else code
    # Never checked against its source at run time: there is none.
    return _code_to_hash_pyc(code, source_hash(source), checked=False)


def without_docstrings(tree: ast.Module) -> ast.Module:
    """Docstrings are weight on a phone; but in calc a class's is content: a check's question is one."""
    for node in ast.walk(tree):
        if isinstance(node, (ast.Module, ast.FunctionDef)) and ast.get_docstring(node) is not None:
            node.body[:1] = [] if len(node.body) > 1 else [ast.Pass(lineno=1, col_offset=0)]
    return tree


def without_lines(code: CodeType) -> CodeType:
    """Which line a byte comes from is told to whoever reads a traceback, a tenth of the weight; nobody does on a phone."""
    inner = tuple(without_lines(const) if isinstance(const, CodeType) else const for const in code.co_consts)
    return code.replace(co_linetable=b"", co_consts=inner)


def main() -> None:
    modules = imported(**json.loads(Path("/asked.json").read_text()))
    with zipfile.ZipFile(SOURCES) as sources:
        for name in sources.namelist():
            path = PurePosixPath(name)
            if path.parts[0] != "calc" and name not in modules:
                continue
            made = OUTPUT / path
            made.parent.mkdir(parents=True, exist_ok=True)
            if path.suffix == ".py":
                made.with_suffix(".pyc").write_bytes(bytecode(path, sources.read(name)))
            else:
                made.write_bytes(sources.read(name))


main()
