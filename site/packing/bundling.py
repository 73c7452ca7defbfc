"""A part of an npm package as one small script, with what it imports and without what it does not use."""

from __future__ import annotations

import subprocess
from pathlib import Path


def bundled(name: str, package: str, site: Path) -> str:
    """The script that exports `name` of an npm package; its licence stands in it."""
    words = ["--bundle", "--minify", "--format=esm", "--target=es2022", "--legal-comments=inline", "--log-level=warning"]
    wanted = f'export {{ {name} }} from "{package}";'
    made = subprocess.run(
        [site / "node_modules" / ".bin" / "esbuild", *words], input=wanted, cwd=site, check=True, stdout=subprocess.PIPE, text=True
    )
    return made.stdout
