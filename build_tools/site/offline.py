"""
Writes offline.js, which keeps the site in a reader's browser, and offline.json, the list of the files to keep.

Every visit asks for offline.js, so it holds of the list its hash alone: it does not grow with the number of answers.
Knows files, sizes and hashes; what is done with them stands in build_tools/browser/service_worker/service_worker.ts.
"""

from __future__ import annotations

import base64
import hashlib
import json
from pathlib import Path

NAME = "offline.js"
LIST = "offline.json"
SERVICE_WORKER = "made/browser/service_worker.js"
# Not kept: files for those who read from a folder, and files that no page fetches.
_LEFT_OUT_NAMES = frozenset({NAME, LIST, "site.zip", "sitemap.xml", "search_index.json", "objects.inv"})
_LEFT_OUT_FOLDERS = ("made/engine/packed/",)
# The files of the engine's plain start. An offline page has the quick start alone, whose files were compared with
# their hashes when they were kept.
_PLAIN_START = ("plain_worker.js", "python_stdlib.zip", "pyodide-lock.json")
_LEFT_OUT_FILES = frozenset({SERVICE_WORKER, *(f"made/engine/{name}" for name in _PLAIN_START)})


def write(site: Path) -> None:
    """Write offline.js and its list into a built site. The same files give the same bytes."""
    script = (site / SERVICE_WORKER).read_text("utf-8")
    files: dict[str, tuple[int, str]] = {}
    for path in sorted(site.rglob("*")):
        inside = path.relative_to(site).as_posix()
        if path.is_file() and _is_for_offline(inside):
            data = path.read_bytes()
            files[inside] = (len(data), _integrity(data))
    listed = json.dumps(files, separators=(",", ":")).encode()
    (site / LIST).write_bytes(listed)
    edition = {
        "name": hashlib.sha256(listed + script.encode()).hexdigest()[:16],
        "bytes": sum(size for size, _ in files.values()),
        "list": _integrity(listed),
    }
    text = f"self.waEdition={json.dumps(edition, separators=(',', ':'))};\n{script}"
    (site / NAME).write_text(text, "utf-8", newline="\n")


def _integrity(data: bytes) -> str:
    """As an integrity attribute has it."""
    return f"sha256-{base64.b64encode(hashlib.sha256(data).digest()).decode()}"


def _is_for_offline(inside: str) -> bool:
    name = inside.rpartition("/")[2]
    return not (
        name in _LEFT_OUT_NAMES
        or inside in _LEFT_OUT_FILES
        or inside.startswith(_LEFT_OUT_FOLDERS)
        or name.endswith((".map", ".whl"))
    )
