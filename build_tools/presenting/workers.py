"""
Keeps a few processes warm that answer desks and run sheets, and starts fresh ones where code has changed.

A process that is there already answers an edit in some 20 ms; one that is started for it takes ten times as long. Knows
processes and files' times; knows no request.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
import threading
import weakref
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from build_tools.environment import places

WAIT_S = 60
CODE = ("calculators", "build_tools")


class Workers:
    """The processes of one project. `ask` blocks: each thread that asks has one to itself."""

    def __init__(self, project: Path) -> None:
        self._project = project
        self._code = project if (project / CODE[0]).is_dir() else places.PROJECT
        self._lock = threading.Lock()
        self._free: list[tuple[int, subprocess.Popen[str]]] = []  # with the code's state when each was started
        self._end = weakref.finalize(self, _end_all, self._free)

    def ask(self, request: dict[str, Any]) -> dict[str, Any]:
        """The reply to one request, or "errors" in words where there is none."""
        state = self._state()
        child = self._take(state)
        assert child.stdin is not None
        assert child.stdout is not None
        late = threading.Timer(WAIT_S, child.kill)
        late.start()
        try:
            child.stdin.write(json.dumps(request) + "\n")
            child.stdin.flush()
            line = child.stdout.readline()
        except OSError:
            line = ""
        finally:
            late.cancel()
        if not line:
            _end(child)
            return {"errors": [{"input": "", "message": "This could not be worked out: the terminal tells why."}]}
        with self._lock:
            self._free.append((state, child))
        reply: dict[str, Any] = json.loads(line)
        return reply

    def close(self) -> None:
        """Ends the processes that are free. Whoever asks afterwards gets a fresh one."""
        _end_all(self._free)

    def _take(self, state: int) -> subprocess.Popen[str]:
        while True:
            with self._lock:
                if not self._free:
                    break
                known, child = self._free.pop()
            if known == state and child.poll() is None:
                return child
            _end(child)
        return subprocess.Popen(
            [sys.executable, "-m", "build_tools.presenting.worker"], cwd=self._project, stdin=subprocess.PIPE,
            stdout=subprocess.PIPE, text=True, encoding="utf-8", env=os.environ | {"PYTHONUTF8": "1"},
        )  # fmt: skip

    def _state(self) -> int:
        """A hash of the code files' paths and times: another one when a file has come, gone or changed."""
        return hash(tuple(sorted(time for name in CODE for time in _times(str(self._code / name)))))


def _times(folder: str) -> Iterator[tuple[str, int]]:
    try:
        with os.scandir(folder) as entries:
            for entry in entries:
                if entry.is_dir(follow_symlinks=False):
                    if entry.name not in ("__pycache__", "node_modules"):
                        yield from _times(entry.path)
                elif entry.name.endswith((".py", ".json")):
                    yield entry.path, entry.stat().st_mtime_ns
    except OSError:  # it has just gone
        return


def _end_all(free: list[tuple[int, subprocess.Popen[str]]]) -> None:
    while free:
        _end(free.pop()[1])


def _end(child: subprocess.Popen[str]) -> None:
    child.kill()
    child.wait()
    for pipe in (child.stdin, child.stdout):
        if pipe is not None:
            try:
                pipe.close()
            except OSError:  # closing writes out what is still in the buffer, and the process has gone
                pass
