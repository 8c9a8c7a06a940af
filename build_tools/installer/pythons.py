"""Finds the CPythons of this machine. Knows no package and no test."""

import functools
import json
import os
import subprocess
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from build_tools.environment.trouble import Trouble
from build_tools.installer import error_messages

OLDEST, NEWEST = 11, 14  # minor numbers of Python 3 that all this is promised to run on


@dataclass(frozen=True)
class Interpreter:
    """A Python on this machine that environments can be made from."""

    path: Path
    version: str  # as in 3.11.7

    @property
    def numbers(self) -> tuple[int, ...]:
        """The version as numbers, to compare."""
        return tuple(int(part) for part in self.version.split("."))

    @property
    def short(self) -> tuple[int, int]:
        """Major and minor number."""
        return self.numbers[0], self.numbers[1]

    def look_for_parts(self) -> None:
        """
        Check that this Python can make environments, which those of Debian and its kin cannot without more packages.

        Raises:
            Trouble: A part is missing; the sentence says how to get it.
        """
        command = [str(self.path), "-I", "-c", "import ensurepip, venv, ssl; ensurepip.version()"]
        done = subprocess.run(command, stdin=subprocess.DEVNULL, capture_output=True, text=True)
        if done.returncode != 0:
            raise Trouble(error_messages.of_incomplete_python(done.stderr, self.short))

    def has_its_parts(self) -> bool:
        """Whether it can make environments."""
        return _has_its_parts(self, _as_it_stands(self.path))


def this_interpreter() -> Interpreter:
    """The Python that runs us or, inside the project's environment, the one that it was made from."""
    inside = sys.prefix != sys.base_prefix
    path = getattr(sys, "_base_executable", sys.executable) if inside else sys.executable
    return Interpreter(Path(path), ".".join(map(str, sys.version_info[:3])))


def installed() -> list[Interpreter]:
    """
    Every promised CPython of this machine, oldest first, each version once.

    Looked for on the path and among the versions that pyenv has installed; the one that runs us comes first of its
    version.
    """
    mine = this_interpreter()
    known = {mine.version: mine} if _is_promised(mine) else {}
    looked_at: set[Path] = set()
    for path in _candidates():
        if not path.is_file() or not os.access(path, os.X_OK) or path.resolve() in looked_at:
            continue
        looked_at.add(path.resolve())
        interpreter = probe(path)
        if interpreter is not None and _is_promised(interpreter):
            known.setdefault(interpreter.version, interpreter)
    return sorted(known.values(), key=lambda interpreter: interpreter.numbers)


def present() -> dict[str, Interpreter]:
    """
    One CPython for each promised minor version that this machine has, oldest first, by version as in `3.12`.

    The newest of each minor version is taken; of the one that runs this program, the very Python that runs it.
    """
    mine = this_interpreter()
    return {
        f"3.{interpreter.short[1]}": interpreter
        for interpreter in installed()
        if interpreter.short != mine.short or interpreter == mine
    }


def absent() -> list[str]:
    """The promised minor versions that this machine does not have, as in `3.14`."""
    there = present()
    return [name for name in (f"3.{minor}" for minor in range(OLDEST, NEWEST + 1)) if name not in there]


def builders() -> list[Interpreter]:
    """Every version found that has all that a first start needs, oldest first."""
    return [interpreter for interpreter in installed() if interpreter.has_its_parts()]


def probe(path: Path) -> Interpreter | None:
    """The CPython at a path, or None if it is something else or does not start."""
    return _probed(path, _as_it_stands(path))


def _as_it_stands(path: Path) -> tuple[int, int, int]:
    """By what a program is known again: to ask each Python once is enough while it is the same."""
    try:
        found = path.stat()
    except OSError:
        return 0, 0, 0
    return found.st_ino, found.st_size, found.st_mtime_ns


@functools.cache
def _has_its_parts(interpreter: Interpreter, as_it_stands: tuple[int, int, int]) -> bool:
    try:
        interpreter.look_for_parts()
    except Trouble:
        return False
    return True


@functools.cache
def _probed(path: Path, as_it_stands: tuple[int, int, int]) -> Interpreter | None:
    code = "import sys, json; print(json.dumps([sys.implementation.name, list(sys.version_info[:3])]))"
    try:
        command = [str(path), "-I", "-c", code]
        done = subprocess.run(command, stdin=subprocess.DEVNULL, capture_output=True, text=True, timeout=30)
        name, version = json.loads(done.stdout)
    except (OSError, ValueError, subprocess.TimeoutExpired):
        return None
    return Interpreter(path, ".".join(map(str, version))) if name == "cpython" else None


def _is_promised(interpreter: Interpreter) -> bool:
    major, minor = interpreter.short
    return major == 3 and OLDEST <= minor <= NEWEST


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
