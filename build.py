"""Builds the site: `python build.py` makes dist/, which any static host can serve; `--serve` also serves it here.

Every page is rendered with its example worked; everything a phone needs to work without signal is packed,
compressed, named by its own hash and listed for the keeper (the service worker). The same sources give the same bytes.
"""

from __future__ import annotations

import argparse
import gzip
import json
import shutil
import subprocess
import sys
import tempfile
import zlib
from pathlib import Path

ROOT = Path(__file__).resolve().parent
SITE, DIST, CACHE = ROOT / "site", ROOT / "dist", ROOT / ".cache"
sys.path[:0] = [str(ROOT), str(SITE)]

from calc.rendering import Renderer  # noqa: E402
from calc.reply import reply  # noqa: E402
from packing import bundling, compressing, ledger, library, licences, serving, wheels  # noqa: E402
from packing.questions import start_questions  # noqa: E402
from packing.stamping import sha256, stamped, stamped_scripts  # noqa: E402

PYODIDE = SITE / "node_modules" / "pyodide"
RUNTIME = ("pyodide.mjs", "pyodide.asm.mjs", "pyodide.asm.wasm")
KEEPER = "keeper.js"
# What reads a code off a picture, made of an npm package.
DECODER = "decoder.js"
TYPES = {
    ".html": "text/html; charset=utf-8",
    ".txt": "text/plain; charset=utf-8",
    ".js": "text/javascript",
    ".mjs": "text/javascript",
    ".css": "text/css",
    ".wasm": "application/wasm",
    ".zip": "application/zip",
    ".json": "application/json",
    ".svg": "image/svg+xml",
    ".webmanifest": "application/manifest+json",
}
# The browser takes these itself, when the site is installed; no page needs them.
NOT_KEPT = (".png",)
# No page fetches these by itself: the scripts are kept like all others and come from there, the pictures of screens are
# for a browser's own words on installing.
WHEN_ASKED = ("picture-", "decoder-", "senses-", "attitude-", "sense_words-", "noting-", "test_day-", "screens/")

Files = dict[str, bytes]


def main() -> None:
    arguments = read_arguments()
    install_npm_packages()
    python, folder = pack_python()
    assets, others = stamp_assets(folder)
    pages = render_pages(assets)
    print_ledger(publish(python | others | pages, arguments.output))
    if arguments.serve:
        serve(arguments)


def read_arguments() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description="Builds the site into dist/.")
    parser.add_argument("--output", type=Path, default=DIST, metavar="FOLDER", help="deleted and made anew (default: dist)")
    parser.add_argument("--serve", action="store_true", help="serve it afterwards, and print the address")
    parser.add_argument("--host", default="localhost", help="0.0.0.0 lets phones on the same network in")
    parser.add_argument("--port", type=int, default=8000)
    parser.add_argument("--certificate", type=Path, help="a certificate's file (PEM): serve over https")
    parser.add_argument("--key", type=Path, help="the certificate's private key (PEM)")
    return parser.parse_args()


def install_npm_packages() -> None:
    installed, lock = SITE / "node_modules" / ".package-lock.json", SITE / "package-lock.json"
    if not installed.exists() or installed.stat().st_mtime < lock.stat().st_mtime:
        subprocess.run(["npm", "ci", "--ignore-scripts", "--no-audit", "--no-fund"], cwd=SITE, check=True)


def pack_python() -> tuple[Files, str]:
    """Python's runtime and library, in a folder named by their content; and the licences of what others made."""
    files = {name: (PYODIDE / name).read_bytes() for name in RUNTIME}
    with tempfile.TemporaryDirectory() as folder:
        build = Path(folder)
        fetched = wheels.fetch(build / "wheels")
        files["library.zip"] = library.make(build, PYODIDE, fetched, ROOT / "calc", SITE / "templates", start_questions())
        said = licences.text(PYODIDE, [SITE / "node_modules" / "qr"], fetched)
    address = f"python-{sha256(b''.join(files.values()))[:8]}/"
    return {address + name: content for name, content in files.items()} | {"licences.txt": said}, address


def stamp_assets(python_folder: str) -> tuple[dict[str, str], Files]:
    """logical name -> address; and the files. Styles, scripts, icons, pictures of screens and the manifest."""
    sources = {file.name: file.read_text(encoding="utf-8") for file in (SITE / "scripts").glob("*.js")}
    del sources[KEEPER]
    sources["built.js"] = built_js(python_folder)
    sources["sense_words.js"] = f"// Made by the build.\nexport const WORDS = {(SITE / 'senses.json').read_text(encoding='utf-8').strip()};\n"
    sources[DECODER] = bundling.bundled("decodeQR", "qr/decode.js", SITE)
    made = dict(stamped_scripts(sources, fixed={KEEPER}))
    for file in (SITE / "styles").glob("*.css"):
        made[file.name] = (stamped(file.name, file.read_bytes()), file.read_bytes())
    for file in [*(SITE / "icons").glob("icon*"), *(SITE / "screens").glob("*.png"), SITE / "manifest.webmanifest"]:
        # An installed site is recognised by these addresses: they stay as they are.
        address = file.relative_to(SITE).as_posix()
        made[file.name] = (address, file.read_bytes())
    return {name: address for name, (address, _) in made.items()}, dict(made.values())


def built_js(python_folder: str) -> str:
    """What the scripts must know of this build."""
    lock = json.loads((PYODIDE / "pyodide-lock.json").read_text(encoding="utf-8"))
    known = [{"question": question, "crc32": zlib.crc32(reply(question).encode())} for question in start_questions()]
    built = {"folder": "./" + python_folder, "lock": lock["info"], "known": known}
    return f"// Made by the build.\nexport const BUILT = {json.dumps(built, indent=1)};\n"


def render_pages(assets: dict[str, str]) -> Files:
    renderer = Renderer()
    return {address + "index.html": renderer.page(address, assets).encode() for address in renderer.addresses()}


def publish(files: Files, folder: Path) -> list[ledger.Entry]:
    """Writes the files with their packs and their keeper; the ledger of a first visit."""
    packs, kept = pack_for_the_keeper(files)
    script = keeper(files, kept)
    write_anew(files | packs | {KEEPER: script}, folder)
    entries = [ledger.Entry(called(paths), sum(len(files[path]) for path in paths), len(packs[pack_address(digest)])) for digest, paths in kept.items()]
    # The first page comes before there is a keeper, with its scripts, its styles, and what installing needs.
    early = {path: content for path, content in files.items() if path == "index.html" or path.endswith((".js", ".css", *NOT_KEPT))}
    early = {path: content for path, content in early.items() if not path.startswith(WHEN_ASKED)}
    early[KEEPER] = script
    return entries + [ledger.Entry(f"{path}, for the first page", len(content), len(gzip.compress(content, 9))) for path, content in early.items()]


def pack_for_the_keeper(files: Files) -> tuple[Files, dict[str, list[str]]]:
    """What is to be kept, in packs named by the hash of what is on the wire; and hash -> the paths in that pack.

    Python's files have a pack each; all others, of which many say much the same, lie one after another in one.
    """
    packs: Files = {}
    kept: dict[str, list[str]] = {}
    wanted = [path for path in sorted(files) if not path.endswith(NOT_KEPT)]
    large = [path for path in wanted if path.startswith("python-")]
    for paths in (*([path] for path in large), [path for path in wanted if path not in large]):
        pack = compressing.compressed(b"".join(files[path] for path in paths), CACHE)
        digest = sha256(pack)
        kept[digest] = paths
        packs[pack_address(digest)] = pack
    return packs, kept


def called(paths: list[str]) -> str:
    return paths[0] if len(paths) == 1 else f"{len(paths)} pages, scripts and styles"


def pack_address(digest: str) -> str:
    return f"pack/{digest}.pack"


def keeper(files: Files, kept: dict[str, list[str]]) -> bytes:
    """The keeper's script with the list of what it keeps, whose own hash is the version."""
    packs = {digest: [(path, TYPES[Path(path).suffix], len(files[path])) for path in paths] for digest, paths in kept.items()}
    source = (SITE / "scripts" / KEEPER).read_text(encoding="utf-8")
    version = sha256(json.dumps([packs, source]).encode())[:8]
    return f"const KEPT = {json.dumps({'version': version, 'packs': packs})};\n{source}".encode()


def write_anew(files: Files, folder: Path) -> None:
    shutil.rmtree(folder, ignore_errors=True)
    for path, content in files.items():
        place = folder / path
        place.parent.mkdir(parents=True, exist_ok=True)
        place.write_bytes(content)


def print_ledger(entries: list[ledger.Entry]) -> None:
    print("\n".join(ledger.lines(entries)))
    ledger.hold_to_cap(entries)


def serve(arguments: argparse.Namespace) -> None:
    server = serving.server(arguments.output, arguments.host, arguments.port, arguments.certificate, arguments.key)
    scheme = "https" if arguments.certificate else "http"
    print(f"Barrowatt is at {scheme}://{arguments.host}:{server.server_port}/ until you press Ctrl-C.", flush=True)
    try:
        server.serve_forever()
    except KeyboardInterrupt:
        server.server_close()


if __name__ == "__main__":
    main()
