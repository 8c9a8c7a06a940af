"""Tells open pages of new builds and of faults. Knows the stream of events and its script; knows no files."""

import json
import threading
import time
from collections.abc import Mapping
from http import HTTPStatus
from pathlib import Path

from build_tools.serving.site_server import Handler, Route

PREFIX = "/_serving/"
BREATH_S = 10.0   # how often a quiet stream sends a comment, so that a page that has gone is noticed
_SCRIPT = Path(__file__).with_name("reload.js")


class News:
    """The state of the build, and those who wait for it to change."""

    def __init__(self) -> None:
        self._changed = threading.Condition()
        # Pages of an earlier run of serve must see a new number too.
        self._build = int(time.time())
        self._assets = ""
        self._trouble = ""

    def built(self, assets: str = "") -> None:
        """There is a new site, and the files that its pages use have this mark."""
        with self._changed:
            self._build += 1
            self._assets = assets
            self._trouble = ""
            self._changed.notify_all()

    def failed(self, trouble: str) -> None:
        """The newest change does not build, for the reason given."""
        with self._changed:
            self._trouble = trouble
            self._changed.notify_all()

    def state(self) -> str:
        """The state as the script reads it."""
        with self._changed:
            return json.dumps({"build": self._build, "assets": self._assets, "trouble": self._trouble})

    def other_than(self, state: str, seconds: float) -> str:
        """Waits until the state is another one, at most so long, and returns it."""
        ends = time.monotonic() + seconds
        while (now := self.state()) == state and time.monotonic() < ends:
            with self._changed:
                self._changed.wait(min(0.5, max(0.0, ends - time.monotonic())))
        return now

    def into_page(self, page: bytes) -> bytes:
        """The page with the script that listens, just before its end."""
        state = json.loads(self.state())
        marks = f'data-build="{state["build"]}" data-assets="{state["assets"]}"'
        tag = f'<script src="{PREFIX}reload.js" {marks}></script>'.encode()
        before, end, after = page.rpartition(b"</body>")
        return before + tag + end + after if end else page + tag

    def routes(self) -> Mapping[str, Route]:
        """The addresses that the script needs."""
        return {PREFIX + "events": self._give_events, PREFIX + "reload.js": _give_script}

    def _give_events(self, request: Handler) -> None:
        request.send_response(HTTPStatus.OK)
        request.send_header("Content-Type", "text/event-stream")
        request.send_header("Cache-Control", "no-store")
        request.send_header("Connection", "close")
        request.end_headers()
        request.close_connection = True
        if request.command == "HEAD":
            return
        state, quiet_since = "", time.monotonic()
        while not request.server.closing.is_set():
            now = self.other_than(state, 1.0)
            if now != state:
                state, quiet_since = now, time.monotonic()
                request.wfile.write(f"retry: 500\ndata: {state}\n\n".encode())
            elif time.monotonic() - quiet_since > BREATH_S:
                quiet_since = time.monotonic()
                request.wfile.write(b": still here\n\n")
            request.wfile.flush()


def _give_script(request: Handler) -> None:
    request.give(_SCRIPT.read_bytes(), "text/javascript; charset=utf-8")
