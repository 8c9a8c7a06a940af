"""
Which question is being read now, the same for every run sheet, kept on disk so that a killed server comes back to it.

Knows numbers; knows no sheet.
"""

from __future__ import annotations

import threading
import time
from pathlib import Path
from typing import Any

from build_tools.environment import stamps
from build_tools.serving.board import Board

TOPIC = "at"


class Current:
    """One question of one episode; every change has a higher number than the one before it, in later runs too."""

    def __init__(self, board: Board, file: Path) -> None:
        """
        Args:
            board: Told whenever another question is read.
            file: Where it is kept; it may be deleted at any time, and run sheets begin at their first question then.
        """
        self._board = board
        self._file = file
        self._lock = threading.Lock()
        self._state = {"number": int(time.time() * 1000), "episode": 0, "segment": 0}
        saved = stamps.read(file)
        if all(type(saved.get(key)) is int for key in self._state):
            self._state = {key: saved[key] for key in self._state}
        self._board.tell(TOPIC, dict(self._state))

    def go(self, episode: int, segment: int) -> dict[str, Any]:
        """Another question is read from now on."""
        with self._lock:
            number = max(self._state["number"] + 1, int(time.time() * 1000))
            self._state = {"number": number, "episode": episode, "segment": segment}
            state = dict(self._state)
            try:
                self._file.parent.mkdir(parents=True, exist_ok=True)
                stamps.write(self._file, state)
            except OSError:  # a full disk keeps nobody from going on
                pass
            self._board.tell(TOPIC, state)
        return state
