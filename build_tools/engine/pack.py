"""
Writes docs/made/engine/: the runtime, Python's kept memory, the worker's script, and what a plain start needs.

Knows files, hashes and which program makes which; the memory is made by `snapshot.ts` under Node. Everything also
stands in docs/made/engine/packed/ as scripts, for pages that are opened from a folder and may not fetch.
"""

from __future__ import annotations

import gzip
import hashlib
import json
import os
import shutil
import subprocess
import tempfile
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

from build_tools.browser.bundle import bundled
from build_tools.engine.wheel import make_wheel
from build_tools.environment import places, stamps
from build_tools.environment.trouble import Trouble
from build_tools.files import write_if_changed

ROOM = "build_tools/engine"
# The runtime's machine code, and the library that a plain start needs. Its program is bundled into the worker's script.
RUNTIME_FILES = ("pyodide.asm.wasm", "python_stdlib.zip")
PROGRAM_FILES = ("pyodide.mjs", "pyodide.asm.mjs")
LOCK_NAME = "pyodide-lock.json"
MEMORY_NAME = "memory.bin"
PACKED = "packed"
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
        Trouble: The runtime is not installed, its lock file cannot be used, or Python's memory cannot be kept.
    """
    runtime = project / "node_modules" / "pyodide"
    needed = (*RUNTIME_FILES, *PROGRAM_FILES, LOCK_NAME)
    missing = [name for name in needed if not (runtime / name).is_file()]
    if missing:
        raise Trouble(
            f"The Python runtime for the browser is incomplete: {', '.join(missing)} not in node_modules/pyodide. "
            "Run  python3 -m build_tools build  to fetch it again."
        )
    into.mkdir(parents=True, exist_ok=True)
    changed = [name for name in RUNTIME_FILES if _copy_if_changed(runtime / name, into / name)]
    wheel_name, wheel = make_wheel(project / PACKAGE, VERSION)
    lock = lock_text(json.loads((runtime / LOCK_NAME).read_text("utf-8"))["info"], wheel_name, wheel)
    for name, data in {wheel_name: wheel, LOCK_NAME: lock.encode()}.items():
        if write_if_changed(into / name, data):
            changed.append(name)
    if _keep_memory(project, into, into / wheel_name):
        changed.append(MEMORY_NAME)
    known = {"__MEMORY_BYTES__": memory_bytes(into / MEMORY_NAME)}
    workers = bundled(project, {"worker": f"{ROOM}/worker.ts"}, "classic", known, lean=True)
    workers |= bundled(project, {"plain_worker": f"{ROOM}/plain_worker.ts"}, "classic")
    for name, data in workers.items():
        if write_if_changed(into / name, data):
            changed.append(name)
    kept = {*RUNTIME_FILES, wheel_name, LOCK_NAME, *workers, MEMORY_NAME}
    for path in sorted(into.iterdir()):
        if path.is_file() and path.name not in kept:
            path.unlink()
    _pack(project, into, kept)
    if changed:
        say(f"engine: {', '.join(changed)}")


def _keep_memory(project: Path, into: Path, wheel: Path) -> bool:
    """Start Python under Node with all calculators loaded and keep its memory, unless that has been done."""
    scripts = bundled(project, {"snapshot": f"{ROOM}/snapshot.ts"}, "node", lean=True)
    inside = project / ROOM / "inside.py"
    # Nothing else goes into the memory: not the day, the folder or the machine.
    of = stamps.digest(
        scripts["snapshot.mjs"], inside.read_bytes(), wheel.read_bytes(), *(_sha(into / name) for name in RUNTIME_FILES)
    )
    stamp = places.cache(project) / "made" / "memory.json"
    target = into / MEMORY_NAME
    if target.is_file() and stamps.read(stamp) == {"of": of, "made": _sha(target).hex()}:
        return False
    with tempfile.TemporaryDirectory() as folder:
        script = Path(folder) / "snapshot.mjs"
        script.write_bytes(scripts["snapshot.mjs"])
        order = {
            "wasm": str(into / "pyodide.asm.wasm"),
            "library": str(into / "python_stdlib.zip"),
            "calculators": str(wheel),
            "inside": str(inside),
            "into": str(Path(folder) / MEMORY_NAME),
        }
        _node(project, script, order, "Python's memory for the browser could not be kept")
        fresh = (Path(folder) / MEMORY_NAME).read_bytes()
    write_if_changed(target, fresh)
    stamp.parent.mkdir(parents=True, exist_ok=True)
    stamps.write(stamp, {"of": of, "made": _sha(target).hex()})
    return True


def memory_bytes(kept: Path) -> int:
    """How large the memory is that a file of kept.ts's form holds, in bytes: the second number in it."""
    with gzip.open(kept) as opened:
        return int.from_bytes(opened.read(8)[4:], "little")


def _pack(project: Path, into: Path, names: set[str]) -> None:
    """Bring packed/ up to date: one script for each file, with its bytes in it. What is up to date is left alone."""
    folder = into / PACKED
    folder.mkdir(exist_ok=True)
    wanted = {f"{name}.js": (name, _sha(into / name).hex()) for name in sorted(names)}
    for path in sorted(folder.iterdir()):
        if path.name not in wanted:
            path.unlink()
    due = {
        script: {"from": str(into / name), "name": name, "mark": mark, "into": str(folder / script)}
        for script, (name, mark) in wanted.items()
        if not _begins_with(folder / script, f"/* {mark} */")
    }
    if due:
        order = {"files": list(due.values())}
        _node(project, project / ROOM / "pack_scripts.mjs", order, "The engine could not be packed")


def _begins_with(path: Path, text: str) -> bool:
    if not path.is_file():
        return False
    with path.open("rb") as opened:
        return opened.read(len(text)) == text.encode()


def _node(project: Path, script: Path, order: Mapping[str, object], failing: str) -> str:
    """Run a script of ours under Node, in a time zone and a language that are the same everywhere."""
    variables = {name: value for name, value in os.environ.items() if not name.startswith(("NODE_", "PYTHON", "LC_"))}
    done = subprocess.run(
        [str(places.node(project)), str(script), json.dumps(order)],
        cwd=project,
        env={**variables, "TZ": "UTC", "LANG": "C"},
        capture_output=True,
        text=True,
        encoding="utf-8",
        errors="replace",
    )
    if done.returncode != 0:
        raise Trouble(f"{failing}:\n{done.stderr.strip()[-2000:]}")
    return done.stdout


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
    from pyodide_lock import PyodideLockSpec

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
    # Read from a file, which every release of pyodide-lock does alike; how its classes are made has changed. The one
    # that Python 3.11 can have still asks for a version, which the later ones read and forget.
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / LOCK_NAME
        file.write_text(json.dumps({"info": {"version": "", **info}, "packages": {PACKAGE: package}}), "utf-8")
        try:
            PyodideLockSpec.from_json(file).check_wheel_filenames()
        except Exception as error:  # the releases raise errors of different libraries
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
