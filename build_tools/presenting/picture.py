"""What is on the picture now. Knows no card, and no page; tells a board when it changes."""

from __future__ import annotations

import threading
import time

from build_tools.serving.board import Board

TOPIC = "picture"


class Picture:
    """One picture, taken and cleared from the desk, shown by any number of mixing programs."""

    def __init__(self, board: Board | None = None) -> None:
        self._board = board or Board()
        self._lock = threading.Lock()
        self._number = int(time.time() * 1000)  # a picture page of an earlier run must see a new number too
        self._svg = ""
        self._name = ""
        self._words = ""
        self._board.tell(TOPIC, self._number)

    def take(self, svg: str, name: str = "", words: str = "") -> None:
        """
        Shows a frame.

        Args:
            svg: As the calculator drew it.
            name: Which step of its card it is.
            words: What it says, for who cannot see it.
        """
        with self._lock:
            self._svg, self._name, self._words = svg, name, words
            self._number += 1
            # Only that it has changed goes to every open page; what it shows, to those that carry the run's token.
            self._board.tell(TOPIC, self._number)

    def clear(self) -> None:
        """Shows nothing."""
        self.take("")

    def shown(self) -> dict[str, object]:
        """A number that changes with the picture, its SVG, which step it is, and what it says."""
        with self._lock:
            return {"number": self._number, "svg": self._svg, "name": self._name, "words": self._words}
