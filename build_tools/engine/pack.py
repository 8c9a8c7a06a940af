"""
Writes docs/made/engine/: the runtime, the calculators' wheel, the lock file that names it, and the worker's script.

Knows files and hashes; runs no Python of the calculators and no runtime.
"""

from __future__ import annotations

import hashlib
import json
import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

from build_tools.browser.bundle import bundled
from build_tools.engine.wheel import make_wheel
from build_tools.environment.trouble import Trouble
from build_tools.files import write_if_changed

# What a page needs to start Python: the loader, the program, the machine code, and the standard library.
RUNTIME_FILES = ("pyodide.mjs", "pyodide.asm.mjs", "pyodide.asm.wasm", "python_stdlib.zip")
LOCK_NAME = "pyodide-lock.json"
PACKAGE = "calculators"
# The wheel never leaves the site and the page always takes the one beside it, so one version is enough.
VERSION = "1"


def make(project: Path, into: Path, say: Callable[[str], None]) -> None:
    """
    Bring one folder up to date with everything that a page's engine needs.

    Args:
        project: The project folder, with calculators/ and node_modules/ in it.
        into: The folder to fill; only what changed is written, and what is no longer needed is removed.
        say: Told in one line what was done.

    Raises:
        Trouble: The runtime is not installed, or its lock file cannot be used.
    """
    runtime = project / "node_modules" / "pyodide"
    missing = [name for name in (*RUNTIME_FILES, LOCK_NAME) if not (runtime / name).is_file()]
    if missing:
        raise Trouble(
            f"The Python runtime for the browser is incomplete: {', '.join(missing)} not in node_modules/pyodide. "
            "Run  python3 -m build_tools build  to fetch it again."
        )
    into.mkdir(parents=True, exist_ok=True)
    changed = [name for name in RUNTIME_FILES if _copy_if_changed(runtime / name, into / name)]
    wheel_name, wheel = make_wheel(project / PACKAGE, VERSION)
    if write_if_changed(into / wheel_name, wheel):
        changed.append(wheel_name)
    lock = lock_text(json.loads((runtime / LOCK_NAME).read_text("utf-8"))["info"], wheel_name, wheel)
    if write_if_changed(into / LOCK_NAME, lock.encode()):
        changed.append(LOCK_NAME)
    for name, script in bundled(project, {"worker": "build_tools/engine/worker.ts"}, "module").items():
        if write_if_changed(into / name, script):
            changed.append(name)
    kept = {*RUNTIME_FILES, wheel_name, LOCK_NAME, "worker.js"}
    for path in sorted(into.iterdir()):
        if path.name not in kept:
            path.unlink()
    if changed:
        say(f"engine: {', '.join(changed)}")


def lock_text(info: dict[str, Any], wheel_name: str, wheel: bytes) -> str:
    """
    The runtime's list of packages, cut down to the one that this site has.

    pyodide-lock checks it: that the fields are those of its format, and that the name and version in the wheel's file
    name are those of the entry. (Its own writer is not used: its releases differ in the bytes that they write.)

    Args:
        info: What the runtime's own lock file says about the runtime.
        wheel_name: The wheel's file name.
        wheel: The wheel's bytes, whose SHA-256 the runtime compares before it installs them.

    Returns:
        JSON text.

    Raises:
        Trouble: The entry breaks the lock file's format.
    """
    from pyodide_lock import InfoSpec, PackageSpec, PyodideLockSpec

    package: dict[str, Any] = {
        "name": PACKAGE,
        "version": VERSION,
        "file_name": wheel_name,
        "install_dir": "site",
        "sha256": hashlib.sha256(wheel).hexdigest(),
        "package_type": "package",
        "imports": [PACKAGE],
        "depends": [],
        "unvendored_tests": False,
    }
    # The release of pyodide-lock that Python 3.11 can have still asks for a field that the format has since dropped.
    fields: dict[str, Any] = {"version": "", **info} if "version" in InfoSpec.model_fields else info
    try:
        checked = PyodideLockSpec(info=InfoSpec(**fields), packages={PACKAGE: PackageSpec(**package)})
        checked.check_wheel_filenames()
    except ValueError as error:
        raise Trouble(f"The lock file of the browser's Python runtime would be wrong: {error}") from error
    return json.dumps({"info": info, "packages": {PACKAGE: package}}, indent=1, sort_keys=True) + "\n"


def _copy_if_changed(source: Path, target: Path) -> bool:
    """Copy a runtime file unless the same bytes are there already. True if it was copied."""
    if target.is_file() and target.stat().st_size == source.stat().st_size and _sha(target) == _sha(source):
        return False
    unfinished = target.with_name(target.name + ".part")
    shutil.copyfile(source, unfinished)
    unfinished.replace(target)
    return True


def _sha(path: Path) -> bytes:
    with path.open("rb") as opened:
        return hashlib.file_digest(opened, "sha256").digest()
