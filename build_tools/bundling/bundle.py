"""
Bundles TypeScript modules with all that they import, for browsers or for our own Node, by esbuild.

Knows entries and kinds; knows nothing of what the modules do, and no room that has some.
"""

from __future__ import annotations

import json
import tempfile
from collections.abc import Mapping
from pathlib import Path
from typing import Literal

from build_tools.environment import node


def bundled(
    project: Path,
    entries: Mapping[str, str],
    kind: Literal["classic", "node"],
    known: Mapping[str, object] | None = None,
    plugin: str | None = None,
) -> dict[str, bytes]:
    """
    Bundle modules with everything that they import.

    Args:
        project: The project folder; the paths of the entries are relative to it.
        entries: The name of each result, without its ending, and the file that it begins with.
        kind: A classic script, which runs in every browser, or one for our own Node.
        known: Values that stand in the modules under a name, such as __ENGINE_FILES__.
        plugin: A module whose default export is a plugin for esbuild, relative to the project folder.

    Returns:
        The results by name, fonts included.

    Raises:
        Trouble: With esbuild's own message, which names file and line.
        PassingTrouble: Something outside has stopped it: no memory, a full disk.
    """
    constants = {name: json.dumps(value) for name, value in (known or {}).items()}
    with tempfile.TemporaryDirectory() as folder:
        order = {
            "entries": dict(entries),
            "into": folder,
            "kind": kind,
            "known": constants,
            "plugin": str(project / plugin) if plugin else None,
        }
        script = project / "build_tools" / "bundling" / "bundle.mjs"
        node.run(project, script, json.dumps(order), "The scripts could not be bundled")
        made = Path(folder)
        return {
            path.relative_to(made).as_posix(): path.read_bytes() for path in sorted(made.rglob("*")) if path.is_file()
        }
