"""The build: the same bytes twice, everything within its weight, and what the keeper lists is what there is."""

from __future__ import annotations

import gzip
import io
import json
import os
import re
import struct
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[1]
sys.path[:0] = [str(ROOT), str(ROOT / "site")]

from packing import ledger  # noqa: E402
from packing.stamping import sha256, stamped_scripts  # noqa: E402


def built(folder: Path) -> dict[str, bytes]:
    subprocess.run([sys.executable, ROOT / "build.py", "--output", folder], check=True, stdout=subprocess.DEVNULL)
    return read(folder)


def read(folder: Path) -> dict[str, bytes]:
    return {str(file.relative_to(folder)): file.read_bytes() for file in sorted(folder.rglob("*")) if file.is_file()}


@pytest.fixture(scope="module")
def files(tmp_path_factory: pytest.TempPathFactory) -> dict[str, bytes]:
    """The site as it was built just now, where whoever runs all tests says where; else built here."""
    just_built = os.environ.get("BARROWATT_BUILT")
    return read(Path(just_built)) if just_built else built(tmp_path_factory.mktemp("first") / "dist")


@pytest.fixture(scope="module")
def kept(files: dict[str, bytes]) -> dict[str, list[tuple[str, str, int]]]:
    """What the keeper is told: of each pack, the files in it with their types and lengths."""
    text = files["keeper.js"].decode().removeprefix("const KEPT = ")
    listed: dict[str, list[tuple[str, str, int]]] = json.JSONDecoder().raw_decode(text)[0]["packs"]
    return listed


def test_twice_built_is_the_same_bytes(files: dict[str, bytes], tmp_path: Path) -> None:
    again = built(tmp_path / "elsewhere")
    assert list(again) == list(files)
    assert [path for path in files if files[path] != again[path]] == []


def test_the_keeper_lists_every_file_once_and_each_pack_is_its_files(files: dict[str, bytes], kept: dict[str, list[tuple[str, str, int]]]) -> None:
    packs = {path: content for path, content in files.items() if path.startswith("pack/")}
    listed = [path for entries in kept.values() for path, _, _ in entries]
    assert sorted(listed) == sorted(path for path in files if path not in packs and path != "keeper.js" and not path.endswith(".png"))
    assert set(packs) == {f"pack/{digest}.pack" for digest in kept}
    for digest, entries in kept.items():
        pack = packs[f"pack/{digest}.pack"]
        assert sha256(pack) == digest
        assert [length for _, _, length in entries] == [len(files[path]) for path, _, _ in entries]
        assert gzip.decompress(pack) == b"".join(files[path] for path, _, _ in entries)


def test_a_first_visit_weighs_no_more_than_promised(files: dict[str, bytes]) -> None:
    """Counted anew: every pack, and what the first page needs before there is a keeper."""
    wire = sum(len(content) for path, content in files.items() if path.startswith("pack/"))
    early = [path for path in files if path == "index.html" or ("/" not in path and path.endswith((".js", ".css"))) or path.endswith(".png")]
    wire += sum(len(gzip.compress(files[path])) for path in early)
    assert wire <= ledger.CAP


def test_every_link_of_every_page_leads_to_a_file_of_the_site(files: dict[str, bytes]) -> None:
    pages = [path for path in files if path.endswith(".html")]
    assert len(pages) >= 5
    for path in pages:
        folder = Path("/", path).parent
        for address in re.findall(r'(?:href|src)="([^"#?]*)[^"]*"', files[path].decode()):
            assert not address.startswith(("/", "http:", "//")), f"{path} is bound to one place by {address}"
            if not address or address.startswith(("https:", "mailto:", "data:")):
                continue
            target = (folder / address).resolve().relative_to("/").as_posix()
            named = target if "." in Path(target).name else f"{target}/index.html".removeprefix("./")
            assert named in files, f"{path} links to {address}"


def test_every_page_forbids_what_it_does_not_need(files: dict[str, bytes]) -> None:
    for path in (path for path in files if path.endswith(".html")):
        policy = re.search(r'http-equiv="Content-Security-Policy" content="([^"]+)"', files[path].decode())
        assert policy, path
        assert "default-src 'none'" in policy[1]
        assert "require-trusted-types-for 'script'" in policy[1]
        assert "unsafe" not in policy[1]


def test_the_library_is_bytecode_of_the_runtime_that_reads_it_unchecked(files: dict[str, bytes]) -> None:
    name = next(path for path in files if path.endswith("library.zip"))
    with zipfile.ZipFile(io.BytesIO(files[name])) as library:
        assert {entry.date_time for entry in library.infolist()} == {(1980, 1, 1, 0, 0, 0)}
        modules = [entry for entry in library.namelist() if entry.endswith(".pyc")]
        heads = {library.read(entry)[:8] for entry in modules}
        assert not [entry for entry in library.namelist() if entry.endswith(".py")]
    assert len(heads) == 1
    magic, flags = struct.unpack("<4sI", heads.pop())
    # importlib's source, "Python 3.14": magic number 3620 and on; PEP 552: flag 1 is a hash-based pyc, not checked.
    assert 3620 <= int.from_bytes(magic[:2], "little") < 3650
    assert flags == 1
    assert "calc/reply.pyc" in modules


def test_scripts_are_called_by_their_stamped_names() -> None:
    made = stamped_scripts({"a.js": 'import "./b.js";', "b.js": 'new URL("./worker.js")', "worker.js": "1"}, fixed=set())
    worker, b = made["worker.js"][0], made["b.js"][0]
    assert re.fullmatch(r"worker-[0-9a-f]{8}\.js", worker)
    assert made["b.js"][1].decode() == f'new URL("./{worker}")'
    assert made["a.js"][1].decode() == f'import "./{b}";'
    changed = stamped_scripts({"a.js": 'import "./b.js";', "b.js": 'new URL("./worker.js")', "worker.js": "2"}, fixed=set())
    assert all(changed[name][0] != made[name][0] for name in made), "a change is a new name for all that call it"


def test_scripts_in_a_ring_are_refused() -> None:
    with pytest.raises(ValueError, match="ring: a.js -> b.js -> a.js"):
        stamped_scripts({"a.js": 'import "./b.js";', "b.js": 'import "./a.js";'}, fixed=set())


def test_a_site_that_is_too_heavy_is_refused() -> None:
    with pytest.raises(ledger.TooHeavy):
        ledger.hold_to_cap([ledger.Entry("x", 1, ledger.CAP), ledger.Entry("y", 1, 1)])



def test_the_licences_of_what_others_made_travel_along(files: dict[str, bytes]) -> None:
    """MIT and BSD ask for their notice in copies; MPL 2.0 (3.2) and Python's licence (2) for themselves."""
    said = files["licences.txt"].decode()
    frozen = json.loads((ROOT / "site/packing/wheels.json").read_text())["phone"]
    for name, entry in frozen.items():
        assert re.search(rf"^{name.replace('-', '_')} {entry['version']}$", said, re.MULTILINE), name
    assert said.count("Permission is hereby granted") >= 2
    assert "Mozilla Public License Version 2.0" in said
    assert "PYTHON SOFTWARE FOUNDATION LICENSE VERSION 2" in said
