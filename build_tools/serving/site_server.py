"""
Serves a folder of files on the loopback address, and routes of our own beside it. Knows HTTP; knows no build.

A route is a prefix and a function: `routes["/_serving/"] = answer`. What no route takes is a file of the site.
"""

import json
import mimetypes
import socket
import threading
import time
from collections.abc import Callable, Mapping
from http import HTTPStatus
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import Any
from urllib.parse import quote, unquote, urlsplit

# Fixed here, since what a system's own table says differs and a wrong type stops a module or the engine.
TYPES = {
    ".css": "text/css; charset=utf-8",
    ".html": "text/html; charset=utf-8",
    ".js": "text/javascript; charset=utf-8",
    ".json": "application/json",
    ".map": "application/json",
    ".mjs": "text/javascript; charset=utf-8",
    ".png": "image/png",
    ".svg": "image/svg+xml",
    ".txt": "text/plain; charset=utf-8",
    ".wasm": "application/wasm",
    ".webp": "image/webp",
    ".whl": "application/zip",
    ".woff2": "font/woff2",
    ".xml": "application/xml",
    ".zip": "application/zip",
}
SWAP_S = 1.0   # while a new site takes the old one's place there is none; how long a request waits for it
LOOPBACK_NAMES = frozenset({"127.0.0.1", "localhost", "[::1]"})

Route = Callable[["Handler"], None]


class SiteServer(ThreadingHTTPServer):
    """Serves `site` on a socket that is already listening."""

    daemon_threads = True
    block_on_close = False

    def __init__(
        self,
        opened: socket.socket,
        site: Path,
        routes: Mapping[str, Route] | None = None,
        alter: Callable[[bytes], bytes] = lambda page: page,
        ahead: Path | None = None,
    ) -> None:
        """
        Args:
            opened: A listening socket on the loopback address.
            site: The folder to serve. It may be replaced at any time.
            routes: By prefix of the path, who answers a GET or HEAD. The longest prefix wins.
            alter: Applied to each HTML page on its way out; the files stay as they are.
            ahead: A folder of files that are newer than the site's of the same name.
        """
        super().__init__(opened.getsockname()[:2], Handler, bind_and_activate=False)
        self.socket.close()
        self.socket = opened
        self.site = site
        self.routes = dict(routes or {})
        self.alter = alter
        self.ahead = ahead
        self.closing = threading.Event()

    @property
    def address(self) -> str:
        """Where the site is to be had."""
        return f"http://{self.server_address[0]!s}:{self.server_address[1]}/"

    def start(self) -> threading.Thread:
        """Serves in a thread of its own until `stop`."""
        thread = threading.Thread(target=self.serve_forever, args=(0.1,), name="site server", daemon=True)
        thread.start()
        return thread

    def stop(self) -> None:
        """Ends serving, open streams included."""
        self.closing.set()
        self.shutdown()
        self.server_close()

    def handle_error(self, request: object, client_address: object) -> None:
        """A page that goes away in the middle of a file is no news."""


class Handler(BaseHTTPRequestHandler):
    """Answers one request."""

    protocol_version = "HTTP/1.1"
    disable_nagle_algorithm = True   # or the body waits 40 ms until the other side has confirmed the head
    server: SiteServer

    def do_GET(self) -> None:
        # Only this machine's own names: otherwise a page elsewhere could reach us through a name of its own.
        if self.headers.get("Host", "").rpartition(":")[0] not in LOOPBACK_NAMES:
            self.give(b"This server answers on the loopback address only.\n", "text/plain", HTTPStatus.FORBIDDEN)
            return
        path = urlsplit(self.path).path
        for prefix in sorted(self.server.routes, key=len, reverse=True):
            if path.startswith(prefix):
                self.server.routes[prefix](self)
                return
        self._give_file(path)

    do_HEAD = do_GET

    def do_POST(self) -> None:
        """Only for routes. A page elsewhere cannot send JSON here without asking first, and nobody answers that."""
        path = urlsplit(self.path).path
        mine = self.headers.get("Host", "")
        origin = self.headers.get("Origin")
        if mine.rpartition(":")[0] not in LOOPBACK_NAMES or (origin and urlsplit(origin).netloc != mine):
            self.give(b"This server answers its own pages only.\n", "text/plain", HTTPStatus.FORBIDDEN)
            return
        for prefix in sorted(self.server.routes, key=len, reverse=True):
            if path.startswith(prefix):
                self.server.routes[prefix](self)
                return
        self.give(b"Nothing here takes that.\n", "text/plain", HTTPStatus.NOT_FOUND)

    def posted(self, largest: int) -> dict[str, Any] | None:
        """The JSON object that was sent, or None where it is none or is too large; the connection then ends."""
        size = self.headers.get("Content-Length", "")
        if self.headers.get_content_type() != "application/json" or not size.isdigit() or int(size) > largest:
            self.close_connection = True
            return None
        try:
            body = json.loads(self.rfile.read(int(size)))
        except ValueError:
            return None
        return body if isinstance(body, dict) else None

    def give(
        self,
        body: bytes,
        media: str,
        status: HTTPStatus = HTTPStatus.OK,
        headers: Mapping[str, str] | None = None,
    ) -> None:
        """Sends a whole answer, with more headers where they are given."""
        self.send_response(status)
        self.send_header("Content-Type", media)
        self.send_header("Content-Length", str(len(body)))
        for name, value in {"Cache-Control": "no-cache", **(headers or {})}.items():
            self.send_header(name, value)
        self.end_headers()
        if self.command != "HEAD":
            self.wfile.write(body)

    def log_message(self, format: str, *args: object) -> None:
        """Requests are no news; what fails shows in the page."""

    def _give_file(self, path: str) -> None:
        name = unquote(path).removeprefix("/")
        if ".." in name.split("/") or "\\" in name or "\0" in name or ":" in name:
            self.give(b"No such page.\n", "text/plain; charset=utf-8", HTTPStatus.NOT_FOUND)
            return
        name = name + "index.html" if name.endswith("/") or not name else name
        file = self.server.site / name
        if self.server.ahead and (self.server.ahead / name).is_file():
            file = self.server.ahead / name
        if file.is_dir():
            self.give(b"", "text/plain", HTTPStatus.FOUND, {"Location": quote(f"/{name}/")})
            return
        try:
            body, tag = self._read(file)
        except (FileNotFoundError, NotADirectoryError):
            self._give_missing()
            return
        media = TYPES.get(file.suffix) or mimetypes.guess_type(file.name)[0] or "application/octet-stream"
        if file.suffix == ".html":
            body = self.server.alter(body)
        elif self.headers.get("If-None-Match") == tag:
            self.send_response(HTTPStatus.NOT_MODIFIED)
            self.send_header("ETag", tag)
            self.send_header("Cache-Control", "no-cache")
            self.end_headers()
            return
        self.give(body, media, headers={} if file.suffix == ".html" else {"ETag": tag})

    def _give_missing(self) -> None:
        try:
            body = (self.server.site / "404.html").read_bytes()
        except OSError:
            body = b"<!doctype html><title>No such page</title><body><p>No such page.</p></body>"
        self.give(self.server.alter(body), TYPES[".html"], HTTPStatus.NOT_FOUND)

    def _read(self, file: Path) -> tuple[bytes, str]:
        """A file's bytes and a mark of its state. Waits for the site while it is being replaced."""
        ends = time.monotonic() + SWAP_S
        while True:
            try:
                with file.open("rb") as opened:
                    state = opened.seek(0, 2), file.stat().st_mtime_ns
                    opened.seek(0)
                    return opened.read(), f'"{state[0]:x}-{state[1]:x}"'
            except FileNotFoundError:
                if self.server.site.is_dir() or time.monotonic() > ends:
                    raise
                time.sleep(0.02)
