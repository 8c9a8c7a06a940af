"""
Writes offline.js, which keeps the site in a reader's browser: the list of its files, and the service worker's script.

Knows files, sizes and hashes; what is done with them stands in build_tools/browser/service_worker/service_worker.ts.
"""

from __future__ import annotations

import base64
import hashlib
import json
from pathlib import Path

NAME = "offline.js"
SERVICE_WORKER = "made/browser/service_worker.js"
# Not kept: files for those who read from a folder, and files that no page fetches.
_LEFT_OUT_NAMES = frozenset({NAME, "site.zip", "sitemap.xml", "search_index.json", "objects.inv"})
_LEFT_OUT_FOLDERS = ("made/engine/packed/",)
# The files of the engine's plain start. An offline page has the quick start alone, whose files were compared with
# their hashes when they were kept.
_PLAIN_START = ("plain_worker.js", "python_stdlib.zip", "pyodide-lock.json")
_LEFT_OUT_FILES = frozenset({SERVICE_WORKER, *(f"made/engine/{name}" for name in _PLAIN_START)})


def write(site: Path) -> None:
    """Write offline.js into a built site. The same files give the same bytes."""
    script = (site / SERVICE_WORKER).read_text("utf-8")
    files: dict[str, tuple[int, str]] = {}
    for path in sorted(site.rglob("*")):
        inside = path.relative_to(site).as_posix()
        if path.is_file() and _is_kept(inside):
            data = path.read_bytes()
            digest = base64.b64encode(hashlib.sha256(data).digest()).decode()
            files[inside] = (len(data), f"sha256-{digest}")
    listed = json.dumps(files, separators=(",", ":"))
    edition = {
        "name": hashlib.sha256((listed + script).encode()).hexdigest()[:16],
        "bytes": sum(size for size, _ in files.values()),
        "files": files,
    }
    text = f"self.waEdition={json.dumps(edition, separators=(',', ':'))};\n{script}"
    (site / NAME).write_text(text, "utf-8", newline="\n")


def _is_kept(inside: str) -> bool:
    name = inside.rpartition("/")[2]
    return not (
        name in _LEFT_OUT_NAMES
        or inside in _LEFT_OUT_FILES
        or inside.startswith(_LEFT_OUT_FOLDERS)
        or name.endswith((".map", ".whl"))
    )
