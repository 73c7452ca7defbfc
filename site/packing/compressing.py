"""Gzip as small as it gets: zopfli, once for each content, kept in a cache."""

from __future__ import annotations

import tempfile
from pathlib import Path

import zopfli.gzip

from packing.stamping import sha256


def compressed(content: bytes, kept_in: Path) -> bytes:
    """The content as gzip. One round of zopfli: more rounds win a thousandth and take the build's time twice."""
    place = kept_in / f"{sha256(content)}.gz"
    if not place.exists():
        kept_in.mkdir(parents=True, exist_ok=True)
        # Two builds at once may both come here: each writes its own file and puts it in place in one act.
        with tempfile.NamedTemporaryFile(dir=kept_in, delete=False) as made:
            made.write(zopfli.gzip.compress(content, numiterations=1))
        Path(made.name).replace(place)
    return place.read_bytes()
