"""
Tries another release of the runtime in a folder of its own: what of our cuts fits it, and what a page would gain.

Knows npm, folders and sizes; pack.py does there what it does for the pinned release, and tells what does not fit.
"""

from __future__ import annotations

import gzip
import json
import shutil
import subprocess
from collections.abc import Iterator
from pathlib import Path

from build_tools.engine import pack
from build_tools.environment import places
from build_tools.environment.trouble import Trouble

UNTIL_THE_FIRST_RESULT = ("lean.wasm", "worker.js", "memory.bin")


def try_release(project: Path, version: str) -> list[str]:
    """
    Fetch a release from the registry, pack the calculators with it, and compare with the pinned one.

    Args:
        project: The project folder, its own engine packed.
        version: As the registry names it, such as "314.0.6".

    Returns:
        The lines of a table. The folder stays, for looking at: .cache/runtimes/<version>.

    Raises:
        Trouble: The registry does not give this release, or the calculators' wheel cannot be made in its Python.
    """
    folder = places.cache(project) / "runtimes" / version
    shutil.rmtree(folder, ignore_errors=True)
    _set_up(project, folder, version)
    said: list[str] = []
    pack.make(folder, folder / "docs" / "made" / "engine", said.append)
    troubles = [line.partition("does not fit, ")[2] for line in said if "does not fit" in line]
    return list(_table(project, folder, version, troubles))


def _set_up(project: Path, folder: Path, version: str) -> None:
    """A folder like the project's, with another runtime in it."""
    modules = folder / "node_modules"
    modules.mkdir(parents=True)
    (folder / "package.json").write_text(json.dumps({"private": True, "dependencies": {"pyodide": version}}), "utf-8")
    command = [*places.npm(project), "install", "--ignore-scripts", "--no-audit", "--no-fund"]
    done = subprocess.run([str(part) for part in command], cwd=folder, capture_output=True, text=True, encoding="utf-8")
    if done.returncode != 0:
        raise Trouble(f"Release {version} of the runtime could not be fetched: {done.stderr.strip()[-300:]}")
    for path in (project / "node_modules").iterdir():
        if path.name != "pyodide" and not (modules / path.name).exists():
            (modules / path.name).symlink_to(path)
    (folder / ".venv").symlink_to(places.environment(project), target_is_directory=True)
    ignored = shutil.ignore_patterns("__pycache__")
    for name in ("build_tools", "calculators"):
        shutil.copytree(project / name, folder / name, ignore=ignored)
    shutil.copy(project / "requirements.lock", folder)


def _table(project: Path, folder: Path, version: str, troubles: list[str]) -> Iterator[str]:
    infos = [_info(root) for root in (project, folder)]
    sizes = [_sizes(root) for root in (project, folder)]
    yield f"{'':38}{infos[0]['version']:>12}{version:>12}"
    yield _row("Python", [info["python"] for info in infos])
    for what, name in (("memory kept", "memory.bin"), ("machine code cut", "lean.wasm")):
        yield _row(what, ["yes" if name in each else "no" for each in sizes])
    for name in (*UNTIL_THE_FIRST_RESULT, "pyodide.asm.wasm", "python_stdlib.zip"):
        yield _row(f"{name}, gzip [MB]", [f"{each[name] / 1e6:.2f}" if name in each else "–" for each in sizes])
    for trouble in troubles:
        yield f"Does not fit: {trouble}"
    yield (
        "Everything fits."
        if not troubles
        else "What does not fit leaves a slower way of starting, and the same answers."
    )


def _row(what: str, values: list[str]) -> str:
    return f"{what:38}" + "".join(f"{value:>12}" for value in values)


def _sizes(root: Path) -> dict[str, int]:
    made = root / "docs" / "made" / "engine"
    return {path.name: len(gzip.compress(path.read_bytes(), 9)) for path in made.iterdir() if path.is_file()}


def _info(root: Path) -> dict[str, str]:
    runtime = root / "node_modules" / "pyodide"
    lock = json.loads((runtime / pack.LOCK_NAME).read_text("utf-8"))["info"]
    package = json.loads((runtime / "package.json").read_text("utf-8"))
    return {"python": str(lock["python"]), "version": str(package["version"])}
