"""Installs what package-lock.json names into node_modules, with the Node of our own environment. Knows npm."""

import json
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from build_tools.environment import children, places, stamps
from build_tools.environment.logs import Log
from build_tools.environment.progress import Progress
from build_tools.environment.trouble import Trouble
from build_tools.installer import error_messages

STAMP = ".made-from.json"
FILES = ("package.json", "package-lock.json")


def _origin(project: Path) -> dict[str, Any]:
    return {name: stamps.digest((project / name).read_bytes()) for name in FILES}


def in_order(project: Path, for_tests: bool) -> bool:
    """Whether node_modules holds what package-lock.json names, the packages for tests included or not."""
    stamp = stamps.read(project / "node_modules" / STAMP)
    if stamp.get("origin") != _origin(project) or (for_tests and not stamp.get("for_tests")):
        return False
    return all((project / name / "package.json").is_file() for name in stamp.get("packages", ()))


def make(project: Path, for_tests: bool, progress: Progress, held: Sequence[int]) -> None:
    """
    Fills node_modules anew.

    No package's own script runs: none of ours needs one, and so none can do harm here.

    Raises:
        Trouble: It cannot be filled; the sentence says why and what to do.
    """
    if not _agree(project):
        raise Trouble(error_messages.DISAGREE)
    what = "the browser's packages" + (" and those for its tests" if for_tests else "")
    with progress.step(f"Installing {what} with npm") as step:
        (project / "node_modules" / STAMP).unlink(missing_ok=True)
        command: list[str | Path] = [*places.npm(project), "ci", "--ignore-scripts"]
        command += ["--no-audit", "--no-fund", "--no-update-notifier", "--loglevel", "http", "--fetch-retries", "1"]
        command += ["--fetch-retry-mintimeout", "1000"]
        command += [] if for_tests else ["--omit", "dev"]
        fetched = 0

        def count(line: str) -> None:
            nonlocal fetched
            if "http fetch GET 200" in line or "http cache" in line:
                fetched += 1
                step.note = f"{fetched} answers from the registry"

        path = children.clean_environment(NODE_ENV="")
        status, printed = children.run(command, project, variables=path, on_line=count, held=held)
        log = Log(project, "npm")
        log.keep(printed)
        if status != 0:
            raise Trouble(error_messages.of_npm(printed, log))
    (project / "node_modules").mkdir(exist_ok=True)  # npm makes no folder where there is nothing to install
    stamp = {"origin": _origin(project), "for_tests": for_tests, "packages": _packages(project)}
    stamps.write(project / "node_modules" / STAMP, stamp)


def _agree(project: Path) -> bool:
    """Whether package-lock.json was written for package.json as it is. npm would ask the registry before it says so."""
    wanted, locked = (json.loads((project / name).read_text("utf-8")) for name in FILES)
    root = locked.get("packages", {}).get("", {})
    return all(wanted.get(kind, {}) == root.get(kind, {}) for kind in ("dependencies", "devDependencies"))


def relock(project: Path, progress: Progress) -> None:
    """Writes package-lock.json anew from package.json, without the addresses that packages came from."""
    with progress.step("Locking the browser's packages with npm"):
        command: list[str | Path] = [*places.npm(project), "install"]
        command += ["--package-lock-only"]
        command += ["--ignore-scripts", "--no-audit", "--no-fund", "--omit-lockfile-registry-resolved"]
        status, printed = children.run(command, project)
        if status != 0:
            raise Trouble(error_messages.of_npm(printed, Log(project, "npm")))


def _packages(project: Path) -> list[str]:
    """The installed packages, as npm's own list of what it put there names them."""
    return sorted(stamps.read(project / "node_modules" / ".package-lock.json").get("packages", ()))
