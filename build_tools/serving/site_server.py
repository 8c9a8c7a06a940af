"""
Serves a folder of files on the loopback address, and routes of our own beside it. Knows HTTP; knows no build.

A route is a path, or the beginning of one, and a function: `routes["/_serving/"] = answer`. What no route takes is a
file of the site. Every request passes `doorkeeper.look_at` first; a route demands more where it gives more.
"""

from __future__ import annotations

import asyncio
import mimetypes
import os
import socket
import sys
import threading
import time
import traceback
from collections.abc import Callable, Mapping
from http import HTTPStatus
from pathlib import Path
from urllib.parse import quote

import h11
from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response
from starlette.types import Receive, Scope, Send

from build_tools.serving import doorkeeper, packing, paths
from build_tools.serving.connections import Serving
from build_tools.serving.doorkeeper import Refused
from build_tools.serving.routes import Route

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
SWAP_S = 1.0  # while a new site takes the old one's place there is none; how long a request waits for it

# What a page cannot say for itself; DEVELOPERS.md, under 'Release', tells hosts the same.
ALWAYS = {
    "Cache-Control": "no-cache",
    "Content-Security-Policy": "frame-ancestors 'self'",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Referrer-Policy": "no-referrer",
    "X-Content-Type-Options": "nosniff",
}


class SiteServer:
    """Serves `site` on a socket that is already listening."""

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
            routes: By path, or by its beginning where that ends in a slash, who answers. The longest wins.
            alter: Applied to each HTML page on its way out; the files stay as they are.
            ahead: A folder of files that are newer than the site's of the same name.
        """
        self.socket = opened
        self.server_address: tuple[str, int] = opened.getsockname()[:2]
        self.site = site
        self.routes = dict(routes or {})
        self.alter = alter
        self.ahead = ahead
        self.closing = threading.Event()
        self._compressed = packing.CompressedFiles()
        self._serving = Serving(self._answer_whatever, opened)

    @property
    def address(self) -> str:
        """Where the site is to be had."""
        return f"http://{self.server_address[0]}:{self.server_address[1]}/"

    def start(self) -> None:
        """Serves in a thread of its own until `stop`."""
        self._serving.start()

    def stop(self) -> None:
        """Ends serving, open streams included."""
        self.closing.set()
        self._serving.stop()

    async def _answer_whatever(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answers one request. A fault of our own is told in the terminal, and ends this request alone."""
        request = Request(scope, receive)
        try:
            response = await self._answer(request)
        except Refused as refused:
            response = await doorkeeper.refuse(request, refused)
        except Exception:
            traceback.print_exc(file=sys.stderr)
            response = await doorkeeper.refuse(request, Refused(500, "This server has a fault; the terminal tells it."))
        for name, value in ALWAYS.items():
            response.headers.setdefault(name, value)
        try:
            await response(scope, receive, send)
        except h11.LocalProtocolError:  # the connection has ended meanwhile
            pass

    async def _answer(self, request: Request) -> Response:
        doorkeeper.look_at(request, self.server_address[1])
        raw = bytes(request.scope["raw_path"]).decode("ascii")
        names = paths.names_of(raw)
        if names is None:
            raise Refused(404, "No such page.")
        path = "/" + "/".join(names)
        for prefix in sorted(self.routes, key=len, reverse=True):
            if path == prefix or (prefix.endswith("/") and path.startswith(prefix)):
                return await self.routes[prefix](request)
        if request.method == "POST":
            raise Refused(404, "Nothing here takes that.")
        return await self._file(request, names)

    async def _file(self, request: Request, names: tuple[str, ...]) -> Response:
        """A file of the site, or the site's own page for what is not there."""
        ends = time.monotonic() + SWAP_S
        before = self._which()
        while not (target := await run_in_threadpool(self._find, names)):
            after = self._which()
            # Only a site that stood there all the while can say that it has no such file: one that came back
            # after the look was not looked into.
            if (after is not None and after == before) or time.monotonic() > ends:
                return await self._missing(request)
            await asyncio.sleep(0.02)
            before = after
        if isinstance(target, str):
            return Response(status_code=HTTPStatus.FOUND, headers={"Location": target})
        return await run_in_threadpool(self._response, request, *target)

    def _which(self) -> tuple[int, int] | None:
        """Which folder is the site just now; None while it is being replaced."""
        try:
            state = self.site.stat()
        except FileNotFoundError:
            return None
        return state.st_dev, state.st_ino

    def _find(self, names: tuple[str, ...]) -> tuple[str, bytes, str] | str | None:
        """A file's name, content and a mark of its state; or where a folder's page is; or None."""
        wanted = (*names[:-1], names[-1] or "index.html")
        for folder in (self.ahead, self.site) if self.ahead else (self.site,):
            path = paths.inside(folder, wanted)
            if path is None:
                continue
            if path.is_dir():
                return quote("/" + "/".join(wanted) + "/")
            try:
                with os.fdopen(paths.open_plain(path), "rb") as opened:
                    state = os.fstat(opened.fileno())
                    return str(path), opened.read(), f"{state.st_size:x}-{state.st_mtime_ns:x}"
            except FileNotFoundError:
                continue
        return None

    def _response(self, request: Request, name: str, body: bytes, tag: str) -> Response:
        ending = Path(name).suffix
        media = TYPES.get(ending) or mimetypes.guess_type(name)[0] or "application/octet-stream"
        if ending == ".html":
            return self._packed_page(request, body, HTTPStatus.OK)
        headers = {"Content-Type": media}
        if ending == ".svg":  # opened by itself it is a page of this origin: then nothing in it may run
            headers["Content-Security-Policy"] = (
                "default-src 'none'; style-src 'unsafe-inline'; img-src data:; font-src data:; frame-ancestors 'self'"
            )
        if ending in packing.PACKED:
            headers["Vary"] = "Accept-Encoding"
            if len(body) >= packing.SMALLEST and packing.takes_gzip(request.headers.get("accept-encoding", "")):
                body = self._compressed.packed(name, tag, body)
                tag += "-gz"
                headers["Content-Encoding"] = "gzip"
        headers["ETag"] = f'"{tag}"'
        known = [each.strip().removeprefix("W/") for each in request.headers.get("if-none-match", "").split(",")]
        if headers["ETag"] in known:
            del headers["Content-Type"]
            return Response(status_code=HTTPStatus.NOT_MODIFIED, headers=headers)
        return Response(body, headers=headers)

    def _packed_page(self, request: Request, page: bytes, status: HTTPStatus) -> Response:
        body = self.alter(page)
        headers = {"Content-Type": TYPES[".html"], "Vary": "Accept-Encoding"}
        if len(body) >= packing.SMALLEST and packing.takes_gzip(request.headers.get("accept-encoding", "")):
            body = packing.packed(body)
            headers["Content-Encoding"] = "gzip"
        return Response(body, status, headers)

    async def _missing(self, request: Request) -> Response:
        target = await run_in_threadpool(self._find, ("404.html",))
        if isinstance(target, tuple):
            page = target[1]
        else:
            page = b"<!doctype html><title>No such page</title><body><p>No such page.</p></body>"
        return await run_in_threadpool(self._packed_page, request, page, HTTPStatus.NOT_FOUND)
