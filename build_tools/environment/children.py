"""Runs other programs, and ends them when this one is ended. Knows processes; knows nothing of what they do."""

import os
import signal
import subprocess
import threading
import time
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path

PATIENCE_S = 5  # how long a program may take to end after being asked

# Settings of the user's that would send an installation elsewhere or make a Python start differently.
_STRAY = (
    "PIP_TARGET", "PIP_PREFIX", "PIP_ROOT", "PIP_USER", "PIP_REQUIREMENT", "PIP_REQUIRE_VIRTUALENV",
    "PIP_CONSTRAINT", "PIP_NO_BINARY", "UV_PYTHON", "UV_SYSTEM_PYTHON", "UV_PROJECT_ENVIRONMENT", "UV_CONSTRAINT",
    "UV_BUILD_CONSTRAINT", "UV_OVERRIDE", "UV_EXCLUDE", "UV_EXCLUDE_NEWER", "UV_NO_BINARY",
    "PYTHONHOME", "PYTHONPATH", "PYTHONSTARTUP", "PYTHONUSERBASE", "__PYVENV_LAUNCHER__",
    "npm_config_prefix", "npm_config_global", "NODE_ENV", "NODE_OPTIONS",
)  # fmt: skip


def clean_environment(**more: str) -> dict[str, str]:
    """The user's environment variables without those that would send things astray, and with `more`."""
    inherited = {name: value for name, value in os.environ.items() if name not in _STRAY}
    return inherited | {"PYTHONUTF8": "1"} | more


def run(
    command: Sequence[str | Path],
    folder: Path,
    *,
    variables: Mapping[str, str] | None = None,
    on_line: Callable[[str], None] = lambda line: None,
    held: Sequence[int] = (),
) -> tuple[int, str]:
    """
    Runs a program to its end and returns its exit status and everything it printed.

    Whatever stops us (Ctrl-C, a termination signal, an error in `on_line`) ends the program first, and on
    Linux and macOS all that it started. `held` are file descriptors that the program keeps open: a lock on
    one of them lasts until the program has really gone, even if we are killed outright.
    """
    posix = os.name == "posix"
    lines: list[str] = []
    with subprocess.Popen(
        [str(part) for part in command],
        cwd=folder,
        env=dict(variables) if variables is not None else clean_environment(),
        stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
        encoding="utf-8",
        errors="replace",
        start_new_session=posix,
        pass_fds=tuple(held) if posix else (),
    ) as child:
        assert child.stdout is not None
        try:
            for line in child.stdout:
                lines.append(line)
                on_line(line)
            child.wait()
        except BaseException:
            end(child)
            raise
    return child.returncode, "".join(lines)


# The environment variable that names the process with which a command that would go on for ever ends.
PARENT = "WORKED_ANSWERS_ENDS_WITH"
LOOK_EVERY_S = 1.0
INSIST_S = 20.0  # for a build in the middle of a page; then it goes, with all that it started


def end_with_parent() -> None:
    """
    Ends this process, as a termination signal would, when the process is gone that PARENT names as its parent.

    Where that does not end it, it is killed, and with it what it started if it has a session of its own.
    """
    parent = os.environ.pop(PARENT, "")
    if os.name != "posix" or parent != str(os.getppid()):
        return

    def look() -> None:
        while str(os.getppid()) == parent:
            time.sleep(LOOK_EVERY_S)
        os.kill(os.getpid(), signal.SIGTERM)
        time.sleep(INSIST_S)
        if os.getpgrp() == os.getpid():
            os.killpg(os.getpid(), signal.SIGKILL)
        os.kill(os.getpid(), signal.SIGKILL)

    threading.Thread(target=look, daemon=True).start()


def end(child: "subprocess.Popen[str]") -> None:
    """Asks a program that `run` started to end, with all that it started, and insists after a while."""
    if child.poll() is not None:
        return
    _signal(child, signal.SIGTERM)
    try:
        child.wait(PATIENCE_S)
    except subprocess.TimeoutExpired:
        _signal(child, signal.SIGKILL if os.name == "posix" else signal.SIGTERM)
        child.wait()


def _signal(child: "subprocess.Popen[str]", number: int) -> None:
    if os.name != "posix":
        child.terminate()
        return
    try:
        os.killpg(child.pid, number)
    except ProcessLookupError:
        pass
