"""Notes of what was made from what, so that only what changed is done again. Knows JSON files alone."""

import hashlib
import json
import os
from pathlib import Path
from typing import Any


def read(file: Path) -> dict[str, Any]:
    """What a stamp says; nothing at all when it is missing or damaged, so that the work is done anew."""
    try:
        content = json.loads(file.read_text("utf-8"))
    except (OSError, ValueError):
        return {}
    return content if isinstance(content, dict) else {}


def write(file: Path, content: dict[str, Any]) -> None:
    """Writes a stamp whole or not at all."""
    fresh = file.with_name(file.name + ".new")
    fresh.write_text(json.dumps(content, indent=1, sort_keys=True) + "\n", "utf-8")
    os.replace(fresh, file)


def digest(*parts: bytes | str) -> str:
    """A hash of several texts or bytes, which tells where one ends and the next begins."""
    total = hashlib.sha256()
    for part in parts:
        data = part.encode() if isinstance(part, str) else part
        total.update(f"{len(data)}:".encode() + data)
    return total.hexdigest()
