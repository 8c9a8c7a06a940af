"""What is on the picture now, and those who wait for it to change. Knows no card."""

from __future__ import annotations

import json
import threading
import time


class Picture:
    """One picture, taken and cleared from the desk, shown by any number of mixing programs."""

    def __init__(self) -> None:
        self._changed = threading.Condition()
        self._number = int(time.time() * 1000)  # a picture page of an earlier run must see a new number too
        self._svg = ""
        self._name = ""

    def take(self, svg: str, name: str = "") -> None:
        """Shows a frame."""
        with self._changed:
            self._svg, self._name = svg, name
            self._number += 1
            self._changed.notify_all()

    def clear(self) -> None:
        """Shows nothing."""
        self.take("")

    def state(self) -> str:
        """The picture as JSON text: a number that changes with it, its SVG, and what it shows."""
        with self._changed:
            return json.dumps({"number": self._number, "svg": self._svg, "name": self._name})

    def other_than(self, state: str, seconds: float) -> str:
        """Waits until the picture is another one, at most so long, and returns it."""
        ends = time.monotonic() + seconds
        while (now := self.state()) == state and (left := ends - time.monotonic()) > 0:
            with self._changed:
                self._changed.wait(min(0.25, left))
        return now
