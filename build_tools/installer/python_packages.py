"""
Makes a virtual environment from sections of requirements.lock, with uv. Knows nothing of Node.

The stamp inside the environment says what it was made from. It is taken away before anything is changed and
written when all is in place, so an environment without one is unfinished and is made anew.
"""

import os
import shutil
import subprocess
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from build_tools.environment import places, stamps
from build_tools.environment.logs import Log
from build_tools.environment.progress import Progress
from build_tools.environment.trouble import Trouble
from build_tools.installer import error_messages, locking, uv
from build_tools.installer.pythons import Interpreter

STAMP = "made-from.json"
_INSTALL = ("pip", "sync", "--require-hashes", "--only-binary", ":all:")
# What is installed for the page's runtime is pure Python; this only keeps uv from choosing builds for this machine.
_FOR_THE_RUNTIME = ("--python-platform", "wasm32-pyodide2025", "--python-version", locking.RUNTIME_PYTHON)


@dataclass(frozen=True)
class Wanted:
    """An environment as it should be: where, of which Python, with which sections, seeing which folder."""

    environment: Path
    interpreter: Interpreter
    project: Path
    groups: Sequence[str]

    def locked(self) -> dict[str, str]:
        """The sections of the lock file as they are now, by group."""
        return locking.sections((self.project / locking.FILE).read_text("utf-8"))

    def origin(self) -> dict[str, Any]:
        """What must be the same for an environment to be kept."""
        return {"python": self.interpreter.version, "project": str(self.project), "folder": str(self.environment)}

    def distributions(self) -> list[str]:
        """What is installed, in the environment and for the runtime, as folders below the environment."""
        host = places.packages_of(self.environment, self.interpreter.short)
        folders = (host, places.for_the_runtime(self.environment))
        metadata = (path for folder in folders for path in folder.glob("*.dist-info"))
        return sorted(path.relative_to(self.environment).as_posix() for path in metadata)


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
    if not all((wanted.environment / name / "RECORD").is_file() for name in stamp.get("distributions", ())):
        return None
    if not starts(places.python_of(wanted.environment)):
        return None
    locked, installed = wanted.locked(), stamp.get("groups", {})
    return tuple(group for group in wanted.groups if installed.get(group) != stamps.digest(locked[group]))


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
    if missing == ():
        return 0
    return (not uv.is_installed(wanted.project)) + (_stands(wanted.environment) if missing is None else 0) + 1


def _stands(folder: Path) -> bool:
    return folder.exists() or folder.is_symlink()


def make(wanted: Wanted, missing: tuple[str, ...] | None, progress: Progress, held: Sequence[int]) -> None:
    """
    Brings an environment to what is wanted, given what `missing_groups` said.

    Raises:
        Trouble: It cannot be made; the sentence says why and what to do.
    """
    uv.install(wanted.project, progress)
    before = stamps.read(wanted.environment / STAMP) if missing is not None else {}
    if missing is None and _stands(wanted.environment):
        with progress.step(f"Removing the unfinished or outdated environment in {wanted.environment.name}"):
            _remove(wanted.environment)
    # Groups that an earlier command has installed stay, in the versions that the lock file names today.
    groups = [group for group in locking.GROUPS if group in wanted.groups or group in before.get("groups", {})]
    with progress.step(f"Installing Python packages ({', '.join(groups)})"):
        if missing is None:
            command = ("venv", "--no-project", "--python", wanted.interpreter.path, wanted.environment)
            _uv(wanted, command, held)
        (wanted.environment / STAMP).unlink(missing_ok=True)
        try:
            _install(wanted, groups, held)
        except BaseException:
            if before and wanted.distributions() == before["distributions"]:
                stamps.write(wanted.environment / STAMP, before)  # nothing was changed, so the stamp is true again
            raise
        _show_project(wanted)
        locked = wanted.locked()
        stamp = {"origin": wanted.origin(), "groups": {group: stamps.digest(locked[group]) for group in groups}}
        stamps.write(wanted.environment / STAMP, stamp | {"distributions": wanted.distributions()})


def _install(wanted: Wanted, groups: Sequence[str], held: Sequence[int]) -> None:
    """Puts into the environment what these groups name, and takes out all else."""
    locked, listed = wanted.locked(), wanted.environment / "wanted.txt"
    listed.write_text("".join(locked[group] for group in groups if group in locking.SHARED), "utf-8")
    python: tuple[str | Path, ...] = ("--python", places.python_of(wanted.environment))
    _uv(wanted, (*_INSTALL, "--allow-empty-requirements", *python, listed), held)
    if locking.RUNTIME in groups:
        listed.write_text(locked[locking.RUNTIME], "utf-8")
        target: tuple[str | Path, ...] = ("--target", places.for_the_runtime(wanted.environment))
        _uv(wanted, (*_INSTALL, "--allow-empty-requirements", *python, *target, *_FOR_THE_RUNTIME, listed), held)


def _uv(wanted: Wanted, arguments: Sequence[str | Path], held: Sequence[int]) -> None:
    status, printed = uv.run(wanted.project, arguments, held)
    log = Log(wanted.project, "uv")
    log.keep(printed)
    if status != 0:
        raise Trouble(error_messages.of_installing(printed, wanted.interpreter.version, log))


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
