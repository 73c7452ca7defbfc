"""The Python packages that go to the phone: chosen by micropip inside Pyodide, frozen in wheels.json, fetched by pip.

`python site/packing/wheels.py` renews wheels.json; a build only holds what it fetches to it.
"""

from __future__ import annotations

import hashlib
import json
import shutil
import subprocess
import sys
import tempfile
import zipfile
from pathlib import Path
from typing import Any

HERE = Path(__file__).resolve().parent
LOCK = HERE / "wheels.json"
# For the phone: what calc imports. For the build only: micropip itself.
WANTED = ("jinja2==3.1.6", "pint==0.25.3", "qrcodegen==1.8.0")
PACKER = ("micropip==0.11.1",)
# markupsafe is published with compiled wheels only; its pure half is taken out of one of them.
COMPILED = ("markupsafe==3.0.4",)
PURE_WHEEL = ("--only-binary=:all:", "--python-version=3.14", "--platform=any", "--implementation=py", "--abi=none")
COMPILED_WHEEL = ("--only-binary=:all:", "--python-version=3.14", "--platform=manylinux2014_x86_64", "--implementation=cp", "--abi=cp314")

Lock = dict[str, dict[str, Any]]


class LockBroken(Exception):
    """The wheels are not those that were frozen."""


def fetch(folder: Path) -> list[Path]:
    """The wheels for the phone, held to the lock twice: by pip's hashes and by micropip's own choice."""
    lock = json.loads(LOCK.read_text(encoding="utf-8"))
    folder.mkdir()
    pinned = {name: entry for part in ("phone", "packer") for name, entry in lock[part].items()}
    compiled = {name for name, entry in pinned.items() if "compiled_sha256" in entry}
    _download(folder, PURE_WHEEL, [_pin(name, entry["version"], entry["sha256"]) for name, entry in pinned.items() if name not in compiled])
    _download(folder, COMPILED_WHEEL, [_pin(name, pinned[name]["version"], pinned[name]["compiled_sha256"]) for name in compiled])
    _purify_all(folder)
    frozen = freeze(folder)
    if frozen != lock["phone"]:
        raise LockBroken(f"micropip chooses {frozen}, but {LOCK.name} says {lock['phone']}; renew it with python {Path(__file__).name}")
    return [folder / f"{name.replace('-', '_')}-{entry['version']}-py3-none-any.whl" for name, entry in sorted(frozen.items())]


def freeze(folder: Path) -> Lock:
    """What micropip, running in Pyodide, installs for WANTED when it has only these wheels to choose from."""
    made = subprocess.run(["node", HERE / "freeze.mjs", folder, *WANTED], check=True, stdout=subprocess.PIPE, text=True, cwd=HERE.parent)
    packages = json.loads(made.stdout)["packages"]
    originals = _compiled_hashes(folder)
    return {
        name: {"version": package["version"], "sha256": package["sha256"], "imports": package["imports"], "depends": sorted(package["depends"])}
        | ({"compiled_sha256": originals[name]} if name in originals else {})
        for name, package in sorted(packages.items())
    }


def renew() -> None:
    """Resolve WANTED anew and write the lock."""
    with tempfile.TemporaryDirectory() as folder:
        _renew(Path(folder))


def _renew(folder: Path) -> None:
    _download(folder, COMPILED_WHEEL, list(COMPILED))
    _purify_all(folder)
    # Found beside the others, so that the resolver takes the pure half for what jinja2 needs.
    _run_pip(folder, [*PURE_WHEEL, f"--find-links={folder}", *WANTED, *PACKER])
    phone = freeze(folder)
    packer = {
        name: {"version": version, "sha256": _sha256(wheel)}
        for wheel in sorted(folder.glob("*.whl"))
        for name, version in [wheel.name.split("-")[:2]]
        if name not in {frozen.replace("-", "_") for frozen in phone}
    }
    LOCK.write_text(json.dumps({"phone": phone, "packer": packer}, indent=2) + "\n", encoding="utf-8")


def _pin(name: str, version: str, sha256: str) -> str:
    return f"{name}=={version} --hash=sha256:{sha256}"


def _download(folder: Path, kind: tuple[str, ...], pins: list[str]) -> None:
    listed = folder / "pins.txt"
    listed.write_text("\n".join(pins), encoding="utf-8")
    _run_pip(folder, [*kind, "--no-deps", f"--requirement={listed}"])


def _run_pip(folder: Path, words: list[str]) -> None:
    pip = [sys.executable, "-m", "pip", "download", "--quiet", "--disable-pip-version-check", f"--dest={folder}"]
    subprocess.run([*pip, *words], check=True)


def _purify_all(folder: Path) -> None:
    (folder / "compiled").mkdir(exist_ok=True)
    for wheel in list(folder.glob("*-cp314-*.whl")):
        kept = shutil.move(wheel, folder / "compiled")
        _purify(Path(kept), folder)


def _purify(compiled: Path, folder: Path) -> None:
    """The wheel without its compiled part, which its own Python code does without; the same bytes each time."""
    name, version = compiled.name.split("-")[:2]
    with zipfile.ZipFile(compiled) as old, zipfile.ZipFile(folder / f"{name}-{version}-py3-none-any.whl", "w") as new:
        for entry in sorted(old.namelist()):
            text = old.read(entry)
            if entry.endswith((".so", ".c", ".pyi", "RECORD")):
                continue
            if entry.endswith(".dist-info/WHEEL"):
                text = b"Wheel-Version: 1.0\nGenerator: barrowatt\nRoot-Is-Purelib: true\nTag: py3-none-any\n"
            new.writestr(zipfile.ZipInfo(entry), text)
        new.writestr(zipfile.ZipInfo(f"{name}-{version}.dist-info/RECORD"), b"")


def _compiled_hashes(folder: Path) -> dict[str, str]:
    return {wheel.name.split("-")[0]: _sha256(wheel) for wheel in (folder / "compiled").glob("*.whl")}


def _sha256(file: Path) -> str:
    return hashlib.sha256(file.read_bytes()).hexdigest()



if __name__ == "__main__":
    renew()
