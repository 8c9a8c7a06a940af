"""
Packs a built site into site.zip, to be unpacked and opened without a server. Knows files' names; archive.mjs packs.

The engine's files go in once, as the scripts that a page in a folder can run; a server that serves the unpacked folder
gets by with them too (build_tools/browser/engine/files.ts).
"""

from __future__ import annotations

import json
import tempfile
from pathlib import Path

from build_tools.environment import node, places

NAME = "site.zip"
FOLDER = "worked-answers"
_SCRIPT = Path(__file__).with_name("archive.mjs")
_COMPRESSED = frozenset({".png", ".webp", ".jpg", ".woff2", ".zip", ".gz"})


def write(site: Path, project: Path) -> None:
    """
    Write site.zip into a built site: the same files give the same bytes, whichever Python and machine build it.

    Args:
        site: The folder that holds the built site.
        project: The project folder, where large files are kept as they were packed last.

    Raises:
        Trouble: Node could not write it.
    """
    target = site / NAME
    target.unlink(missing_ok=True)
    inside = {path.relative_to(site).as_posix(): path for path in site.rglob("*") if path.is_file()}
    entries = [
        {"name": f"{FOLDER}/{name}", "from": str(path), "packed": path.suffix in _COMPRESSED}
        for name, path in sorted(inside.items())
        if not _stands_in_a_script(path)
    ]
    with tempfile.TemporaryDirectory() as folder:
        order = Path(folder) / "order.json"  # a file: a site of many pages is too long for a command line
        told = {"entries": entries, "into": str(target), "deflated": str(deflated(project))}
        order.write_text(json.dumps(told), "utf-8")
        node.run(places.PROJECT, _SCRIPT, str(order), "site.zip could not be written")


def deflated(project: Path) -> Path:
    """Where large files stand as they were packed last (archive.mjs)."""
    return places.cache(project) / "made" / "deflated"


def _stands_in_a_script(path: Path) -> bool:
    return path.parent.name == "engine" and (path.parent / "packed" / f"{path.name}.js").is_file()
