"""
What every open page must hear of, by topic, and the one stream that carries it. Knows no topic's meaning.

Any thread may tell; a stream is a task in the server's loop, so that hundreds cost next to nothing while all is quiet.
"""

from __future__ import annotations

import asyncio
import json
import threading
from collections.abc import AsyncIterator, Mapping

from starlette.requests import Request
from starlette.responses import Response, StreamingResponse

from build_tools.serving.doorkeeper import must_be_own_page, only_read
from build_tools.serving.routes import PREFIX, Route, script

BREATH_S = 15.0  # how often a quiet stream sends a comment, so that a page that has gone is noticed


class Board:
    """The newest word on each topic, and those who listen."""

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._topics: dict[str, object] = {}
        self._text = "{}"
        self._listeners: set[tuple[asyncio.AbstractEventLoop, asyncio.Event]] = set()

    def tell(self, topic: str, word: object) -> None:
        """Replaces the word on a topic and tells all who listen."""
        with self._lock:
            self._topics[topic] = word
            self._text = json.dumps(self._topics, allow_nan=False)
            listeners = list(self._listeners)
        for loop, woken in listeners:
            try:
                loop.call_soon_threadsafe(woken.set)
            except RuntimeError:  # the server has ended
                pass

    def text(self) -> str:
        """All topics as one line of JSON."""
        with self._lock:
            return self._text

    @property
    def listeners(self) -> int:
        """How many streams are open."""
        with self._lock:
            return len(self._listeners)

    async def stream(self) -> AsyncIterator[bytes]:
        """The topics as they are, then again whenever they have changed, as server-sent events (WHATWG HTML)."""
        woken = asyncio.Event()
        me = (asyncio.get_running_loop(), woken)
        with self._lock:
            self._listeners.add(me)
        sent = ""
        try:
            while True:
                woken.clear()
                if (now := self.text()) != sent:
                    sent = now
                    yield f"retry: 500\ndata: {now}\n\n".encode()
                try:
                    async with asyncio.timeout(BREATH_S):
                        await woken.wait()
                except TimeoutError:
                    yield b": still here\n\n"
        finally:
            with self._lock:
                self._listeners.discard(me)

    def routes(self) -> Mapping[str, Route]:
        """The stream, and the two scripts by which all open pages share it."""
        return {
            PREFIX + "events": self._give_events,
            PREFIX + "listen.js": script("listen"),
            PREFIX + "sharing.js": script("sharing"),
        }

    async def _give_events(self, request: Request) -> Response:
        only_read(request)
        must_be_own_page(request)
        headers = {"Cache-Control": "no-store"}
        if request.method == "HEAD":
            return Response(media_type="text/event-stream", headers=headers)
        return StreamingResponse(self.stream(), media_type="text/event-stream", headers=headers)
