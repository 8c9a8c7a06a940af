"""Runs our own scripts under the Node of our own environment. Knows Node's place; knows no script."""

import os
import re
import signal
import subprocess
from pathlib import Path

from build_tools.environment import places
from build_tools.environment.trouble import PassingTrouble, Trouble

TRIES = 2  # where something outside has stopped it

# Signals that a program causes itself, by what it does: an abort, a wrong address. All others come from elsewhere.
_OWN_SIGNALS = {"SIGABRT", "SIGBUS", "SIGFPE", "SIGILL", "SIGSEGV", "SIGSYS", "SIGTRAP"}
# How Node tells of a machine that had no room or no connection: a system's error codes (POSIX's, and getaddrinfo's),
# memory that it could not get, and esbuild's process that is gone. Only as Node prints an error: the text of a program,
# which it prints beside, may name all of these.
_OUTSIDE = re.compile(
    r"(?:Error: |code: ')(?:EAGAIN|EAI_AGAIN|EBUSY|ECONNREFUSED|ECONNRESET|EDQUOT|EINTR|EIO|EMFILE|ENETUNREACH|ENFILE|"
    r"ENOMEM|ENOSPC|ENOTFOUND|EPIPE|EROFS|ETIMEDOUT)\b|JavaScript heap out of memory|"
    r"RangeError: (?:Array buffer allocation failed|WebAssembly\.\w+\(\):? could not allocate memory)|"
    r"The service (?:was stopped|is no longer running)"
)


def run(project: Path, script: Path, order: str, failing: str) -> str:
    """
    Run a script, in a time zone and a language that are the same everywhere, and return what it prints.

    Args:
        project: The project folder, in which it runs.
        script: The script.
        order: Its one argument.
        failing: What to say, before Node's own words, when it fails.

    Raises:
        Trouble: The script failed.
        PassingTrouble: Something outside of it has stopped it, and once more when it was tried again.
    """
    variables = {name: value for name, value in os.environ.items() if not name.startswith(("NODE_", "PYTHON", "LC_"))}
    why = ""
    for _ in range(TRIES):
        try:
            done = subprocess.run(
                [str(places.node(project)), str(script), order],
                cwd=project,
                env={**variables, "TZ": "UTC", "LANG": "C"},
                capture_output=True,
                text=True,
                encoding="utf-8",
                errors="replace",
            )
        except (BlockingIOError, MemoryError) as error:  # no room for another process
            why = str(error)
            continue
        if done.returncode == 0:
            return done.stdout
        words = done.stderr.strip()[-2000:]
        ended = _signal(done.returncode)
        if ended in {"", *_OWN_SIGNALS} and not _OUTSIDE.search(done.stderr):
            raise Trouble(f"{failing}:\n{words}")
        why = "\n".join(part for part in (words, ended and f"it was ended by {ended}") if part)
    raise PassingTrouble(f"{failing}, and not because of what it was given; please try again:\n{why}")


def _signal(status: int) -> str:
    """The name of the signal that ended a process, "" for none. Python tells it as a negative status."""
    if status >= 0:
        return ""
    try:
        return signal.Signals(-status).name
    except ValueError:
        return f"signal {-status}"
