"""A file server on a bad day: it drops, cuts off, garbles, stumbles and dawdles, and hands out harmed files."""

from __future__ import annotations

import functools
import http.server
import random
import socket
import threading
import time
from collections.abc import Callable
from pathlib import Path
from urllib.parse import unquote

DROP, CUT, GARBLE, STUMBLE, DAWDLE = "drop", "cut", "garble", "stumble", "dawdle"
TYPES = {".html": "text/html; charset=utf-8", ".js": "text/javascript", ".css": "text/css", ".wasm": "application/wasm",
         ".json": "application/json", ".svg": "image/svg+xml"}  # fmt: skip
PIECES = 6
ENDS_WITHIN_S = 0.02
# What a hash covers. That nobody changes a page or its script on the way is for https to guarantee.
COVERED = ("made/engine/",)


def flipped(data: bytes, chance: random.Random, start: int = 0) -> bytes:
    """The file with one bit another, from some byte on."""
    at = chance.randrange(start, len(data))
    return data[:at] + bytes([data[at] ^ 1 << chance.randrange(8)]) + data[at + 1 :]


class BadHost:
    """Serves a folder; `put` stands before its files, `fault` says what happens to a path (None: nothing)."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.put: dict[str, bytes | None] = {}  # None: not there
        self.fault: Callable[[str], str | None] = lambda path: None
        self.dawdle_s = 2.0
        self.headers = {"Cache-Control": "no-cache"}
        self.asked: list[str] = []
        host = self

        class Handler(http.server.BaseHTTPRequestHandler):
            protocol_version = "HTTP/1.1"

            def do_GET(self) -> None:
                host.answer(self)

            def log_message(self, format: str, *values: object) -> None:
                """Tests print nothing."""

        class Server(http.server.ThreadingHTTPServer):
            daemon_threads = True

            def handle_error(self, request: object, client_address: object) -> None:
                """A browser that has heard enough hangs up; that is no fault."""

        self._server = Server(("127.0.0.1", 0), Handler)
        self.address = f"http://127.0.0.1:{self._server.server_port}/"
        serving = functools.partial(self._server.serve_forever, poll_interval=ENDS_WITHIN_S)
        self._thread = threading.Thread(target=serving, daemon=True)
        self._thread.start()

    def read(self, path: str) -> bytes | None:
        """What it has under a path."""
        if path in self.put:
            return self.put[path]
        file = self.folder / path
        return file.read_bytes() if file.is_file() else None

    def answer(self, to: http.server.BaseHTTPRequestHandler) -> None:
        """One answer, as well or as badly as `fault` says."""
        path = unquote(to.path.partition("?")[0]).lstrip("/")
        self.asked.append(path)
        data, fault = self.read(path), self.fault(path)
        if fault == DROP:
            self._hang_up(to)
            return
        if data is None or fault == STUMBLE:
            to.send_error(404 if data is None else 503)
            return
        if fault == GARBLE and path.startswith(COVERED):
            data = flipped(data, random.Random())
        to.send_response(200)
        to.send_header("Content-Type", TYPES.get(Path(path).suffix, "application/octet-stream"))
        to.send_header("Content-Length", str(len(data)))
        for name, value in self.headers.items():
            to.send_header(name, value)
        to.end_headers()
        if fault == CUT:
            to.wfile.write(data[: random.randrange(len(data) or 1)])
            self._hang_up(to)
        elif fault == DAWDLE:
            size = len(data) // PIECES + 1
            for start in range(0, len(data), size):
                time.sleep(self.dawdle_s / PIECES)
                to.wfile.write(data[start : start + size])
        else:
            to.wfile.write(data)

    def _hang_up(self, to: http.server.BaseHTTPRequestHandler) -> None:
        to.wfile.flush()
        to.close_connection = True
        to.connection.shutdown(socket.SHUT_RDWR)

    def close(self) -> None:
        """Stop serving; twice does no harm."""
        if not self._thread.is_alive():
            return
        self._server.shutdown()
        self._server.server_close()
        self._thread.join()
