"""
Makes a virtual environment from sections of requirements.lock. Knows venv and pip; knows nothing of Node.

The stamp inside the environment says what it was made from. It is taken away before anything is changed and
written when all is in place, so an environment without one is unfinished and is made anew.
"""

import json
import os
import re
import shutil
import subprocess
import sys
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from build_tools.environment import children, locking, places, reasons, stamps
from build_tools.environment.progress import Progress
from build_tools.environment.trouble import Trouble

STAMP = "made-from.json"
LOCK_FILE = "requirements.lock"


@dataclass(frozen=True)
class Interpreter:
    """A Python on this machine that environments can be made from."""

    path: Path
    version: str  # as in 3.11.7

    @property
    def short(self) -> tuple[int, int]:
        """Major and minor number."""
        major, minor, *_ = self.version.split(".")
        return int(major), int(minor)


def this_interpreter() -> Interpreter:
    """The Python that runs us or, inside the project's environment, the one that it was made from."""
    inside = sys.prefix != sys.base_prefix
    path = getattr(sys, "_base_executable", sys.executable) if inside else sys.executable
    return Interpreter(Path(path), ".".join(map(str, sys.version_info[:3])))


@dataclass(frozen=True)
class Wanted:
    """An environment as it should be: where, of which Python, with which sections, seeing which folder."""

    environment: Path
    interpreter: Interpreter
    project: Path
    groups: Sequence[str]

    def texts(self) -> dict[str, str]:
        """The sections of the lock file that are wanted, by group."""
        found = locking.sections((self.project / LOCK_FILE).read_text("utf-8"))
        return {group: found[group] for group in self.groups}

    def origin(self) -> dict[str, Any]:
        """What must be the same for an environment to be kept."""
        return {"python": self.interpreter.version, "project": str(self.project), "folder": str(self.environment)}


def missing_groups(wanted: Wanted) -> tuple[str, ...] | None:
    """
    The groups that an environment still lacks or has in other versions: none when it is in order, None when
    it must be made anew.

    It must be when it was left unfinished, was made of another Python or elsewhere, has lost packages, or
    does not start.
    """
    stamp = stamps.read(wanted.environment / STAMP)
    if stamp.get("origin") != wanted.origin():
        return None
    folder = places.packages_of(wanted.environment, wanted.interpreter.short)
    if not all((folder / name / "RECORD").is_file() for name in stamp.get("distributions", ())):
        return None
    if not starts(places.python_of(wanted.environment)):
        return None
    return tuple(group for group in wanted.groups if group not in _standing(wanted))


def _standing(wanted: Wanted) -> dict[str, str]:
    """The groups that are installed as the lock file has them now, with their marks."""
    now = locking.sections((wanted.project / LOCK_FILE).read_text("utf-8"))
    known = stamps.read(wanted.environment / STAMP).get("groups", {})
    return {group: seen for group, seen in known.items() if seen == stamps.digest(now.get(group, ""))}


def starts(python: Path) -> bool:
    """Whether a Python can be run at all."""
    try:
        command = [str(python), "-I", "-c", ""]
        done = subprocess.run(command, stdin=subprocess.DEVNULL, capture_output=True, timeout=60)
    except (OSError, subprocess.TimeoutExpired):
        return False
    return done.returncode == 0


def steps(wanted: Wanted, missing: tuple[str, ...] | None) -> int:
    """How many steps `make` will show."""
    if missing is None:
        return 2 + _stands(wanted.environment)
    return 1 if missing else 0


def _stands(folder: Path) -> bool:
    return folder.exists() or folder.is_symlink()


def make(wanted: Wanted, missing: tuple[str, ...] | None, progress: Progress, held: Sequence[int]) -> None:
    """
    Brings an environment to what is wanted, given what `missing_groups` said.

    Raises:
        Trouble: It cannot be made; the sentence says why and what to do.
    """
    texts = wanted.texts()
    if missing is None:
        missing = tuple(texts)
        _create(wanted, progress, held)
        _write_stamp(wanted, {})
    known = _standing(wanted)
    _install(wanted, missing, progress, held)
    _remove_unnamed(wanted, held)
    _show_project(wanted)
    _write_stamp(wanted, known | {group: stamps.digest(texts[group]) for group in missing})


def _write_stamp(wanted: Wanted, groups: dict[str, str]) -> None:
    folder = places.packages_of(wanted.environment, wanted.interpreter.short)
    found = sorted(path.name for path in folder.glob("*.dist-info"))
    stamp = {"origin": wanted.origin(), "groups": groups, "distributions": found}
    stamps.write(wanted.environment / STAMP, stamp)


def _install(wanted: Wanted, missing: tuple[str, ...], progress: Progress, held: Sequence[int]) -> None:
    """Has pip install groups. As long as it has changed nothing, the stamp comes back whatever stops it."""
    environment, texts = wanted.environment, wanted.texts()
    names = [name for group in missing for name in locking.names(texts[group])]
    listed = environment / "wanted.txt"
    listed.write_text("".join(texts[group] for group in missing), "utf-8")
    stamp = environment / STAMP
    before = stamps.read(stamp)
    stamp.unlink()
    with progress.step(f"Installing Python packages ({', '.join(missing)})") as step:
        command: list[str | Path] = [places.python_of(environment), "-I", "-m", "pip", "install"]
        command += ["--requirement", listed, "--require-hashes", "--only-binary", ":all:", "--no-input"]
        command += ["--progress-bar", "off", "--disable-pip-version-check", "--no-warn-script-location"]
        command += ["--retries", "2"]
        seen: set[str] = set()
        changed = False

        def count(line: str) -> None:
            nonlocal changed
            if line.startswith("Collecting "):
                seen.add(line.split("==")[0])
                step.note = f"{len(seen)} of {len(names)} packages"
            elif line.startswith("Installing collected packages"):
                step.note = "unpacking"
                changed = True

        status = 1
        try:
            status, printed = children.run(command, wanted.project, on_line=count, held=held)
        finally:
            if status != 0 and not changed:
                stamps.write(stamp, before)
        _keep_log(wanted, "pip", printed)
        if status != 0:
            raise Trouble(reasons.of_pip(printed, wanted.interpreter.version, _log(wanted, "pip")))


def _remove_unnamed(wanted: Wanted, held: Sequence[int]) -> None:
    """Takes out what an earlier lock file named and today's does not."""
    named = set(locking.names((wanted.project / LOCK_FILE).read_text("utf-8"))) | {"pip", "setuptools"}
    folder = places.packages_of(wanted.environment, wanted.interpreter.short)
    found = {re.sub(r"[-_.]+", "-", path.name.split("-")[0]).lower() for path in folder.glob("*.dist-info")}
    if found - named:
        command: list[str | Path] = [places.python_of(wanted.environment), "-I", "-m", "pip", "uninstall", "--yes"]
        status, printed = children.run([*command, *sorted(found - named)], wanted.project, held=held)
        _keep_log(wanted, "pip-uninstall", printed)
        if status != 0:
            raise Trouble(reasons.of_pip(printed, wanted.interpreter.version, _log(wanted, "pip-uninstall")))


def _create(wanted: Wanted, progress: Progress, held: Sequence[int]) -> None:
    environment, interpreter = wanted.environment, wanted.interpreter
    _ask_for_ensurepip(interpreter)
    if _stands(environment):
        with progress.step(f"Removing the unfinished or outdated environment in {environment.name}"):
            _remove(environment)
    with progress.step(f"Making a virtual environment of Python {interpreter.version} in {environment.name}"):
        command: list[str | Path] = [interpreter.path, "-I", "-m", "venv", environment]
        status, printed = children.run(command, wanted.project, held=held)
        _keep_log(wanted, "venv", printed)
        if status != 0:
            raise Trouble(reasons.of_venv(printed, interpreter.version, _log(wanted, "venv")))


def _ask_for_ensurepip(interpreter: Interpreter) -> None:
    """Debian and its kin ship Python without the part that makes environments; say so before trying."""
    command = [str(interpreter.path), "-I", "-c", "import ensurepip, venv, ssl"]
    done = subprocess.run(command, stdin=subprocess.DEVNULL, capture_output=True, text=True)
    if done.returncode != 0:
        raise Trouble(reasons.of_incomplete_python(done.stderr, interpreter.short))


def _remove(folder: Path) -> None:
    if folder.is_symlink() or folder.is_file():
        folder.unlink()
        return
    try:
        shutil.rmtree(folder)
    except FileNotFoundError:
        pass
    except OSError as error:
        raise Trouble(
            f"{folder} cannot be removed ({error.strerror}): close the programs that use it, or remove it "
            "yourself, and run this again."
        ) from error


def _show_project(wanted: Wanted) -> None:
    """Lets the environment's programs (a plain mkdocs build, say) import build_tools and calculators."""
    folder = places.packages_of(wanted.environment, wanted.interpreter.short)
    encoding = "utf-8" if wanted.interpreter.short >= (3, 13) or os.name != "nt" else "locale"
    (folder / "worked_answers.pth").write_text(f"{wanted.project}\n", encoding)


def _log(wanted: Wanted, name: str) -> Path:
    return places.cache(wanted.project) / "logs" / f"{name}.txt"


def _keep_log(wanted: Wanted, name: str, printed: str) -> None:
    file = _log(wanted, name)
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_text(printed, "utf-8")


def probe(path: Path) -> Interpreter | None:
    """The CPython at a path, or None if it is something else or does not start."""
    code = "import sys, json; print(json.dumps([sys.implementation.name, list(sys.version_info[:3])]))"
    try:
        command = [str(path), "-I", "-c", code]
        done = subprocess.run(command, stdin=subprocess.DEVNULL, capture_output=True, text=True, timeout=30)
        name, version = json.loads(done.stdout)
    except (OSError, ValueError, subprocess.TimeoutExpired):
        return None
    return Interpreter(path, ".".join(map(str, version))) if name == "cpython" else None
