"""
How long a connection may keep us waiting. Knows sockets and the HTTP library; knows no page.

The library takes care of HTTP itself. What it leaves open is time: a request that never ends, an answer that is
never read. Each has a limit here, counted from its beginning, so that a byte now and then buys nobody more.
"""

from __future__ import annotations

import asyncio
import socket
import sys
import threading
from typing import Any

import h11
import uvicorn
from uvicorn.protocols.http.h11_impl import H11Protocol

HEAD_S = 10.0  # for the head of a request, from the connection or the last answer on
BODY_S = 20.0  # for its body
STUCK_S = 30.0  # for the other side to read on, once it has let a full buffer stand
KEEP_S = 5  # a connection that is open for a next request
MOST_OPEN = 800  # connections at once, where the system allows a program to have so many files open
SPARE = 120  # files open beside them: the site's own, and what is asked in processes
LARGEST_HEAD = 32_768
STOP_S = 3.0


class Limited(H11Protocol):
    """One connection, with limits of time."""

    _waits_for: object = None
    _due: asyncio.TimerHandle | None = None
    _stuck: asyncio.TimerHandle | None = None

    def connection_made(self, transport: asyncio.Transport) -> None:  # type: ignore[override]
        """Starts the clock for the first request."""
        super().connection_made(transport)
        self._look_at_the_clock()

    def data_received(self, data: bytes) -> None:
        """Passes on what has come, and looks what is still to come."""
        super().data_received(data)
        self._look_at_the_clock()

    def on_response_complete(self) -> None:
        """Starts the clock for the next request."""
        super().on_response_complete()
        self._look_at_the_clock()

    def send_400_response(self, msg: str) -> None:
        """Tells that this is no HTTP; where an answer is under way already, only ends the connection."""
        try:
            super().send_400_response(msg)
        except h11.LocalProtocolError:
            self.transport.close()

    def pause_writing(self) -> None:
        """The other side does not read on."""
        super().pause_writing()
        self._stuck = self._stuck or self.loop.call_later(STUCK_S, self.transport.abort)

    def resume_writing(self) -> None:
        """The other side reads again: its time limit is lifted."""
        super().resume_writing()
        if self._stuck:
            self._stuck.cancel()
            self._stuck = None

    def connection_lost(self, exc: Exception | None) -> None:
        """Stops the clocks."""
        super().connection_lost(exc)
        for clock in (self._due, self._stuck):
            if clock:
                clock.cancel()
        self._due = self._stuck = None

    def _look_at_the_clock(self) -> None:
        waits_for = self.conn.their_state
        if waits_for is self._waits_for:
            return
        self._waits_for = waits_for
        if self._due:
            self._due.cancel()
            self._due = None
        limit = HEAD_S if waits_for is h11.IDLE else BODY_S if waits_for is h11.SEND_BODY else None
        if limit is not None:
            self._due = self.loop.call_later(limit, self.transport.abort)


class Serving:
    """An application served on a socket, in a thread of its own."""

    def __init__(self, application: Any, opened: socket.socket) -> None:
        self._opened = opened
        self._server = uvicorn.Server(
            uvicorn.Config(
                application, http=Limited, ws="none", loop="asyncio", lifespan="off", interface="asgi3",
                log_config=None, log_level="critical", access_log=False, proxy_headers=False, server_header=False,
                limit_concurrency=_most_open(), timeout_keep_alive=KEEP_S,
                timeout_graceful_shutdown=1, h11_max_incomplete_event_size=LARGEST_HEAD, backlog=1024,
            )
        )  # fmt: skip
        self._loop: asyncio.AbstractEventLoop | None = None
        self._thread = threading.Thread(target=self._run, name="site server", daemon=True)

    def start(self) -> None:
        """Serves until `stop`. Whoever connects before it has begun is answered then."""
        self._thread.start()

    def _run(self) -> None:
        async def serve() -> None:
            self._loop = asyncio.get_running_loop()
            await self._server.serve([self._opened])

        asyncio.run(serve())

    def stop(self) -> None:
        """Ends serving, what is under way included. May be called before `start` and twice."""
        self._server.should_exit = True
        if self._loop and not self._loop.is_closed():
            try:
                self._loop.call_soon_threadsafe(self._drop_all)
            except RuntimeError:  # closed meanwhile
                pass
        if self._thread.is_alive() and self._thread is not threading.current_thread():
            self._thread.join(STOP_S)
        self._opened.close()

    def _drop_all(self) -> None:
        for task in list(self._server.server_state.tasks):
            task.cancel()


def _most_open() -> int:
    if sys.platform == "win32":
        return MOST_OPEN
    import resource

    allowed = resource.getrlimit(resource.RLIMIT_NOFILE)[0]
    return MOST_OPEN if allowed == resource.RLIM_INFINITY else max(20, min(MOST_OPEN, allowed - SPARE))
