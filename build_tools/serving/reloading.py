"""Tells open pages of new builds and of faults. Knows what a page is told and its script; knows no files."""

from __future__ import annotations

import json
import time
from collections.abc import Mapping

from build_tools.serving.board import Board
from build_tools.serving.routes import PREFIX, Route, script

TOPIC = "build"


class News:
    """The state of the build, told on a board to those who listen."""

    def __init__(self, board: Board | None = None) -> None:
        self._board = board or Board()
        # Pages of an earlier run of serve must see a new number too.
        self._build = int(time.time())
        self._assets = ""
        self._trouble = ""
        self._tell()

    def built(self, assets: str = "") -> None:
        """There is a new site, and the files that its pages use have this mark."""
        self._build += 1
        self._assets = assets
        self._trouble = ""
        self._tell()

    def failed(self, trouble: str) -> None:
        """The newest change does not build, for the reason given."""
        self._trouble = trouble
        self._tell()

    def _tell(self) -> None:
        self._board.tell(TOPIC, {"build": self._build, "assets": self._assets, "trouble": self._trouble})

    def into_page(self, page: bytes) -> bytes:
        """The page with the script that listens, just before its end."""
        state = json.loads(self._board.text())[TOPIC]
        marks = f'data-build="{state["build"]}" data-assets="{state["assets"]}"'
        tag = f'<script src="{PREFIX}reload.js" {marks}></script>'.encode()
        before, end, after = page.rpartition(b"</body>")
        return before + tag + end + after if end else page + tag

    def routes(self) -> Mapping[str, Route]:
        """The addresses that the script needs."""
        return {**self._board.routes(), PREFIX + "reload.js": script("reload")}
