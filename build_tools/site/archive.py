"""
Packs a built site into site.zip, to be unpacked and opened without a server. Knows zip files; knows no page.

The engine's files go in once, as the scripts that a page in a folder can run; a server that serves the unpacked folder
gets by with them too (build_tools/browser/sources.ts).
"""

from __future__ import annotations

import zipfile
from pathlib import Path

NAME = "site.zip"
FOLDER = "worked-answers"
_EARLIEST = (1980, 1, 1, 0, 0, 0)  # the first moment that a zip entry can hold
_PLAIN_FILE = 0o100644 << 16  # a regular file that everyone may read, in the upper half of the zip attribute
_COMPRESSED = frozenset({".png", ".webp", ".jpg", ".woff2", ".zip", ".gz"})


def write(site: Path) -> None:
    """Write site.zip into a built site: the same files give the same bytes (and the same zlib)."""
    target = site / NAME
    target.unlink(missing_ok=True)
    with zipfile.ZipFile(target, "w") as archive:
        for path in sorted(site.rglob("*")):
            inside = path.relative_to(site)
            if path == target or not path.is_file() or _stands_in_a_script(site, path):
                continue
            entry = zipfile.ZipInfo(f"{FOLDER}/{inside.as_posix()}", _EARLIEST)
            entry.create_system = 3  # the same on every system
            entry.external_attr = _PLAIN_FILE
            entry.compress_type = zipfile.ZIP_STORED if path.suffix in _COMPRESSED else zipfile.ZIP_DEFLATED
            archive.writestr(entry, path.read_bytes(), compresslevel=6)


def _stands_in_a_script(site: Path, path: Path) -> bool:
    return path.parent.name == "engine" and (path.parent / "packed" / f"{path.name}.js").is_file()
