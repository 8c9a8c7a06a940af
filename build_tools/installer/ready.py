"""
Sees to it that everything is installed, and says where. Knows the order of things; does none of them itself.

A second start costs two small files read and one Python started.
"""

import shutil
from pathlib import Path
from typing import Literal

from build_tools.environment import locks, places
from build_tools.environment.progress import Progress
from build_tools.environment.trouble import Trouble
from build_tools.installer import locking, node_packages, python_packages, pythons, uv
from build_tools.installer.error_messages import FULL, ROOM

# Locking needs Node, but not the packages whose list it is about to write.
Purpose = Literal["site", "tests", "locking"]
GROUPS: dict[Purpose, tuple[str, ...]] = {
    "site": (*locking.SHARED[:2], locking.RUNTIME),
    "tests": (*locking.SHARED, locking.RUNTIME),
    "locking": locking.SHARED[:2],
}
NEEDED_BYTES = {"site": 600_000_000, "tests": 1_500_000_000, "locking": 600_000_000}
_FOR_TESTS = {"tests": ", and what the tests need of both"}
FIRST_START = (
    "The first start sets this folder up: Python packages and Node into {environment}, the browser's Python and the "
    "typefaces into node_modules{more}.\n"
    "At most {megabytes} MB on the disk, nothing into the system. It takes a minute or two, longer on a slow line; "
    "later starts take seconds."
)


def make_ready(project: Path, purpose: Purpose, progress: Progress) -> Path:
    """
    Makes, mends or leaves alone the environment and node_modules, and returns the environment's Python.

    Raises:
        Trouble: Something is missing that cannot be had; running the same command again goes on from there.
    """
    for name in (locking.FILE, *node_packages.FILES):
        if not (project / name).is_file():
            raise Trouble(f"{name} is missing from {project}: get it back with  git checkout {name}")
    interpreter = pythons.this_interpreter()
    wanted = python_packages.Wanted(places.environment(project), interpreter, project, GROUPS[purpose])
    missing = python_packages.missing_groups(wanted)
    if missing != () or _node_is_due(project, purpose):
        with locks.lock(places.cache(project) / "environment.lock", progress) as held:
            missing = python_packages.missing_groups(wanted)  # the command that we waited for may have done this
            node_due = _node_is_due(project, purpose)
            # Whoever started this should hear it now, not after minutes of work.
            if missing != () and not uv.is_installed(project):
                interpreter.look_for_parts()
            _look_for_room(project, purpose)
            if missing is None and not places.environment(project).exists():
                progress.say(first_start(project, purpose))
            progress.total += python_packages.steps(wanted, missing) + node_due
            if missing != ():
                python_packages.make(wanted, missing, progress, [held])
            if node_due:
                node_packages.make(project, purpose == "tests", progress, [held])
    return places.python_of(wanted.environment)


def first_start(project: Path, purpose: Purpose) -> str:
    """What a first start installs, where, how much it is at most, and about how long it takes."""
    megabytes = NEEDED_BYTES[purpose] // 1_000_000
    environment = places.environment(project).name
    return FIRST_START.format(environment=environment, more=_FOR_TESTS.get(purpose, ""), megabytes=megabytes)


def calculators_environment(interpreter: pythons.Interpreter, project: Path, progress: Progress) -> Path:
    """
    The Python of an environment of another CPython with what the calculators' tests need, made if it must be.

    Raises:
        Trouble: It cannot be made; the sentence says why.
    """
    major, minor = interpreter.short
    folder = places.cache(project) / "pythons" / f"{major}.{minor}"
    wanted = python_packages.Wanted(folder, interpreter, project, locking.SHARED[:1])
    if python_packages.missing_groups(wanted) != ():
        with locks.lock(folder.with_suffix(".lock"), progress) as held:
            missing = python_packages.missing_groups(wanted)
            if missing != ():
                progress.total += python_packages.steps(wanted, missing)
                python_packages.make(wanted, missing, progress, [held])
    return places.python_of(folder)


def _node_is_due(project: Path, purpose: Purpose) -> bool:
    """Whether npm has something to do for this purpose."""
    return purpose != "locking" and not node_packages.in_order(project, purpose == "tests")


def _look_for_room(project: Path, purpose: Purpose) -> None:
    """Whether a first start has room enough."""
    free = shutil.disk_usage(project).free
    standing = places.environment(project).exists()
    if free < NEEDED_BYTES[purpose] and not standing:
        raise Trouble(FULL.format(room=ROOM, folder=project))


def spoil(project: Path) -> None:
    """Marks the environment as unfinished, so that the next command makes it anew."""
    (places.environment(project) / python_packages.STAMP).unlink(missing_ok=True)
