"""
Says what is being done while it is being done. Knows a stream to write to; knows no work.

On a terminal one line is rewritten five times a second with the seconds gone by. Elsewhere (a log, CI) a
step prints when it starts, every few seconds while it lasts, and when it ends.
"""

import sys
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from typing import TextIO

LIVE_EVERY_S = 0.2
PLAIN_EVERY_S = 5.0
SHORT_S = 1.0  # a shorter step is printed without its seconds


class Step:
    """One piece of work under way. Set `note` to what it is at: `17 of 45 packages`."""

    def __init__(self, title: str) -> None:
        self.title = title
        self.note = ""
        self.began = time.monotonic()

    def seconds(self) -> float:
        """How long it has been going on. [s]"""
        return time.monotonic() - self.began


class Progress:
    """Numbers the steps and prints them. `total` may grow before a step begins."""

    def __init__(self, total: int = 0, stream: TextIO | None = None) -> None:
        self.total = total
        self.stream = stream or sys.stdout
        self.live = self.stream.isatty()
        self._done = 0

    def say(self, text: str) -> None:
        """Prints one line."""
        print(text, file=self.stream, flush=True)

    @contextmanager
    def step(self, title: str) -> Iterator[Step]:
        """Prints a step while the body runs; on an error the line says that it did not end well."""
        self._done += 1
        count = f"[{self._done}/{max(self.total, self._done)}] "
        step = Step(count + title)
        ended = threading.Event()
        teller = threading.Thread(target=self._tell, args=(step, ended), daemon=True)
        if not self.live:
            self.say(step.title)
        teller.start()
        word = "not done"
        try:
            yield step
            word = "done"
        finally:
            ended.set()
            teller.join()
            took = step.seconds()
            if self.live:
                self._rewrite(f"{step.title}: {word} ({took:.1f} s)")
                self.say("")
            elif took >= SHORT_S or word != "done":
                self.say(f"{step.title}: {word} ({took:.1f} s)")

    def _tell(self, step: Step, ended: threading.Event) -> None:
        while not ended.wait(LIVE_EVERY_S if self.live else PLAIN_EVERY_S):
            text = f"{step.title}: {step.seconds():.0f} s" + (f", {step.note}" if step.note else "")
            if self.live:
                self._rewrite(text)
            else:
                self.say(text)

    def _rewrite(self, text: str) -> None:
        self.stream.write("\r\x1b[K" + text)
        self.stream.flush()
