"""Files named by their own content, so that a name never means two things and may be kept for ever."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Mapping
from pathlib import PurePosixPath

_IMPORTED = re.compile(r"""(?<=["'])\./([\w-]+\.js)(?=["'])""")


def sha256(content: bytes) -> str:
    return hashlib.sha256(content).hexdigest()


def stamped(name: str, content: bytes) -> str:
    """`page.js` -> `page-1a2b3c4d.js`."""
    path = PurePosixPath(name)
    return str(path.with_stem(f"{path.stem}-{sha256(content)[:8]}"))


def stamped_scripts(sources: Mapping[str, str], fixed: set[str]) -> dict[str, tuple[str, bytes]]:
    """name -> its stamped name and its text, in which the scripts it names are called by their stamped names.

    fixed: scripts that keep their names. A ring of scripts that name each other has no stamp, and is refused.
    """
    done: dict[str, tuple[str, bytes]] = {}

    def stamp(name: str, path: tuple[str, ...]) -> str:
        if name in fixed:
            return name
        if name in path:
            raise ValueError(f"scripts that name each other in a ring: {' -> '.join((*path, name))}")
        if name not in done:
            text = _IMPORTED.sub(lambda found: f"./{stamp(found[1], (*path, name))}", sources[name]).encode()
            done[name] = (stamped(name, text), text)
        return done[name][0]

    for name in sorted(sources):
        stamp(name, ())
    return done
