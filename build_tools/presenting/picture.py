"""
What is on the picture now, kept on disk as well, so that it stands again as soon as a killed server is back.

Knows no calculator and no page; tells a board when it changes.
"""

from __future__ import annotations

import threading
import time
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

from build_tools.environment import stamps
from build_tools.serving.board import Board

TOPIC = "picture"


class Picture:
    """One picture, taken and cleared from desks, shown by any number of mixing programs."""

    def __init__(self, board: Board | None = None, file: Path | None = None) -> None:
        """
        Args:
            board: Told whenever something has changed.
            file: Where the state is kept; it may be deleted at any time, and the picture is clear then.
        """
        self._board = board or Board()
        self._file = file
        self._lock = threading.RLock()
        self._number = int(time.time() * 1000)  # a page of an earlier run must see a new number too
        self._card: dict[str, Any] | None = None
        self._frames: list[dict[str, str]] = []
        self._at = 0
        self._frozen = False
        self._is_saved = True
        self._restore()
        self._board.tell(TOPIC, self._number)

    def show(self, card: Mapping[str, Any] | None, frames: Sequence[Mapping[str, str]], at: int) -> None:
        """
        Shows a step of a card, and lets go of what was frozen.

        Args:
            card: What it was drawn from.
            frames: All its steps, each with svg, name and words.
            at: Which of them, from 0.
        """
        with self._lock:
            self._card = dict(card) if card is not None else None
            self._frames = [dict(frame) for frame in frames]
            self._at, self._frozen = at, False
            self._changed()

    def take(self, svg: str, name: str = "", words: str = "") -> None:
        """
        Shows one drawing.

        Args:
            svg: As the calculator drew it.
            name: Which step of its card it is.
            words: What it says, for who cannot see it.
        """
        self.show(None, [{"svg": svg, "name": name, "words": words}] if svg else [], 0)

    def step(self, number: int, to: int) -> bool:
        """
        Shows another step of the card that is on the picture.

        Args:
            number: The picture that is meant, as `state` numbers it: another desk may have changed it meanwhile.
            to: Which step, from 0.

        Returns:
            Whether it is shown; not where the picture is another one, or frozen, or has no such step.
        """
        with self._lock:
            if number != self._number or self._frozen or not 0 <= to < len(self._frames):
                return False
            self._at = to
            self._changed()
            return True

    def freeze(self, on: bool) -> None:
        """Holds what is shown against steps, or lets go of it. A clear picture cannot be frozen."""
        with self._lock:
            self._frozen = on and bool(self._frames)
            self._changed()

    def clear(self) -> None:
        """Shows nothing."""
        self.show(None, [], 0)

    def shown(self) -> dict[str, object]:
        """A number that changes with the picture, its SVG, which step it is, and what it says."""
        with self._lock:
            frame = self._frames[self._at] if self._frames else {"svg": "", "name": "", "words": ""}
            return {"number": self._number, "svg": frame["svg"], "name": frame["name"], "words": frame["words"]}

    def state(self) -> dict[str, object]:
        """What desks need beside the frame: the card, its steps, which one is shown, whether it is frozen and kept."""
        with self._lock:
            return {
                "number": self._number,
                "on": bool(self._frames),
                "card": self._card,
                "at": self._at,
                "steps": len(self._frames),
                "frozen": self._frozen,
                "kept": self._is_saved,
            }

    def both(self) -> dict[str, object]:
        """State and frame, of one and the same moment."""
        with self._lock:
            return {**self.state(), **self.shown()}

    def _changed(self) -> None:
        """Keeps the state, then tells of it: only that it has changed, not what it shows."""
        self._number += 1
        self._is_saved = self._keep()
        self._board.tell(TOPIC, self._number)

    def _keep(self) -> bool:
        if self._file is None:
            return True
        state = {
            "number": self._number, "card": self._card, "frames": self._frames, "at": self._at, "frozen": self._frozen,
        }  # fmt: skip
        try:
            self._file.parent.mkdir(parents=True, exist_ok=True)
            stamps.write(self._file, state)
        except OSError:  # a full disk is no reason to leave the picture as it was; the desks are told
            return False
        return True

    def _restore(self) -> None:
        if self._file is None:
            return
        try:
            state = stamps.read(self._file)
            frames = [{key: str(frame[key]) for key in ("svg", "name", "words")} for frame in state["frames"]]
            at, number = int(state["at"]), int(state["number"])
            card = state["card"]
            if (frames and not 0 <= at < len(frames)) or not (card is None or isinstance(card, dict)):
                return
        except (ValueError, KeyError, TypeError, RecursionError):
            return  # damaged or not there: the picture is clear
        self._frames, self._at, self._card = frames, at, card
        self._number, self._frozen = number, state.get("frozen") is True
