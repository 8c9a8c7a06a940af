"""Finds the other CPythons of this machine and makes small environments of them. Knows no test."""

import os
import sys
from collections.abc import Iterator
from pathlib import Path

from build_tools.environment import places, python_packages, turns
from build_tools.environment.progress import Progress

OLDEST, NEWEST = 11, 14   # minor numbers of Python 3 that the calculators are promised to run on


def others() -> dict[str, python_packages.Interpreter]:
    """
    One CPython for each promised minor version but our own, by version as in `3.12`.

    Looked for on the path and among the versions that pyenv has installed; the newest found of a minor
    version counts.
    """
    found: dict[str, python_packages.Interpreter] = {}
    for path in _candidates():
        if not path.is_file() or not os.access(path, os.X_OK):
            continue
        interpreter = python_packages.probe(path)
        if interpreter is None:
            continue
        major, minor = interpreter.short
        name = f"{major}.{minor}"
        if major != 3 or not OLDEST <= minor <= NEWEST or interpreter.short == sys.version_info[:2]:
            continue
        if name not in found or _numbers(found[name]) < _numbers(interpreter):
            found[name] = interpreter
    return dict(sorted(found.items(), key=lambda item: _numbers(item[1])))


def environment_of(interpreter: python_packages.Interpreter, project: Path, progress: Progress) -> Path:
    """
    The Python of an environment of that interpreter with what the calculators' tests need, made if it must be.

    Raises:
        Trouble: It cannot be made; the sentence says why.
    """
    major, minor = interpreter.short
    folder = places.cache(project) / "pythons" / f"{major}.{minor}"
    wanted = python_packages.Wanted(folder, interpreter, project, ("calculators",))
    if python_packages.missing_groups(wanted) != ():
        with turns.turn(folder.with_suffix(".lock"), progress) as held:
            missing = python_packages.missing_groups(wanted)
            if missing != ():
                progress.total += python_packages.steps(wanted, missing)
                python_packages.make(wanted, missing, progress, [held])
    return places.python_of(folder)


def _candidates() -> Iterator[Path]:
    ending = ".exe" if os.name == "nt" else ""
    names = [f"python3.{minor}{ending}" for minor in range(OLDEST, NEWEST + 1)] + [f"python3{ending}"]
    for folder in os.environ.get("PATH", "").split(os.pathsep):
        # A shim starts whatever version is chosen today, so the versions themselves are looked at instead.
        if folder and Path(folder).name != "shims":
            yield from (Path(folder) / name for name in names)
    root = Path(os.environ.get("PYENV_ROOT") or Path.home() / ".pyenv") / "versions"
    for minor in range(OLDEST, NEWEST + 1):
        yield from sorted(root.glob(f"3.{minor}.*/bin/python3.{minor}"))


def _numbers(interpreter: python_packages.Interpreter) -> tuple[int, ...]:
    return tuple(int(part) for part in interpreter.version.split("."))
