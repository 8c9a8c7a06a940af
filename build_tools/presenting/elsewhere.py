"""
The prompter on another device of the same room: read-only, behind a code, and only where the command line asks for it.

A server of its own, with nothing of the other one's routes: whoever gets in reads the text of the run sheet and can
change nothing. Knows requests; knows neither the picture nor the takes.
"""

from __future__ import annotations

import base64
import errno
import hashlib
import ipaddress
import json
import secrets
import socket
import sys
import threading
import time
import traceback
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any
from urllib.parse import parse_qs

import h11
from starlette.concurrency import run_in_threadpool
from starlette.requests import ClientDisconnect, Request
from starlette.responses import Response
from starlette.types import Receive, Scope, Send

from build_tools.environment.trouble import Trouble
from build_tools.presenting.scripts import PAGES
from build_tools.serving.connections import Serving

FIRST_PORT = 8361
PORTS = 20
TRIES = 5
DIGITS = 6
LARGEST = 200  # bytes of a code that is sent
FRESH_S = 2.0  # how long a text worked out serves whoever asks again
COOKIE = "prompter"
FACE = "/made/browser/fonts/instrument-sans-latin-wght-normal.woff2"
FILES = {"/made/browser/page.css": "text/css; charset=utf-8", FACE: "font/woff2"}
# Of a question, what is read aloud: no handle, no numbers of a viewer's, no take.
SAID = ("verdict", "reason", "headline")  # of a further calculator
TEXTS = ("number", "question", "verdict", "reason", "headline", "steps", "caution", "short_answer", "referred")
HEADERS = {
    "Cache-Control": "no-store",
    "Content-Security-Policy": (
        "default-src 'none'; script-src 'self'; style-src 'self'; font-src 'self'; connect-src 'self'; "
        "form-action 'self'; base-uri 'none'; frame-ancestors 'none'"
    ),
    "Cross-Origin-Resource-Policy": "same-origin",
    "Referrer-Policy": "same-origin",  # without a referrer a browser would not say where a form comes from
    "X-Content-Type-Options": "nosniff",
}


class Refused(Exception):
    """A request that is not answered, with the status and the sentence that say why."""

    def __init__(self, status: int, sentence: str) -> None:
        super().__init__(sentence)
        self.status = status
        self.sentence = sentence


class Elsewhere:
    """One run's prompter for other devices. Code and tries are gone with it."""

    def __init__(
        self, opened: socket.socket, site: Path, run: Callable[[int], dict[str, Any]], script: Callable[[str], bytes]
    ) -> None:
        """
        Args:
            opened: A listening socket.
            site: The site, for the style and the face.
            run: Gives an episode's run sheet by its number.
            script: Gives a bundled script by its name.
        """
        self.port: int = opened.getsockname()[1]
        self.code = f"{secrets.randbelow(10**DIGITS):0{DIGITS}}"
        self._pass = secrets.token_urlsafe(32)
        self._wrong = 0
        self._lock = threading.Lock()
        self._site = site
        self._run = run
        self._script = script
        self._texts: dict[int, tuple[float, str]] = {}
        self._serving = Serving(self._answer_whatever, opened)

    def start(self) -> None:
        """Serves in a thread of its own until `stop`."""
        self._serving.start()

    def stop(self) -> None:
        """Ends serving."""
        self._serving.stop()

    def state(self) -> dict[str, object]:
        """What the desk shows: the address to type, the code, and how many tries are left."""
        return {"address": f"http://{own_address()}:{self.port}/", "code": self.code, "tries": self.tries}

    @property
    def tries(self) -> int:
        """How many wrong codes are still allowed."""
        with self._lock:
            return TRIES - self._wrong

    async def _answer_whatever(self, scope: Scope, receive: Receive, send: Send) -> None:
        request = Request(scope, receive)
        try:
            response = await self._answer(request)
        except Refused as refused:
            response = _sentence(refused.status, refused.sentence)
        except ClientDisconnect:
            response = _sentence(400, "The request broke off.")
        except Exception:
            traceback.print_exc(file=sys.stderr)
            response = _sentence(500, "This server has a fault; the terminal tells it.")
        for name, value in HEADERS.items():
            response.headers.setdefault(name, value)
        try:
            await response(scope, receive, send)
        except h11.LocalProtocolError:  # the connection has ended meanwhile
            pass

    async def _answer(self, request: Request) -> Response:
        self._look_at(request)
        path = str(request.scope["path"])
        if request.method == "POST":
            if path != "/code":
                raise Refused(404, "Nothing here takes that.")
            return await self._enter(request)
        if not self._has_entered(request):
            return _asking() if path == "/" else _sentence(403, "The code comes first.")
        if path == "/":
            return Response(status_code=302, headers={"Location": "/prompter"})
        kind, _, number = path.removeprefix("/").partition("/")
        known = number.isascii() and number.isdigit() and len(number) <= 5
        if path == "/prompter" or (kind == "prompter" and known):
            return _page("prompter.html", " data-elsewhere")
        if kind == "run" and known:
            return Response(await run_in_threadpool(self._text, int(number)), media_type="application/json")
        if path == "/on-air/on-air.css":
            return Response((PAGES / "on-air.css").read_bytes(), media_type="text/css")
        if path == "/on-air/prompter.js":
            return Response(await run_in_threadpool(self._script, "prompter"), media_type="text/javascript")
        if path in FILES and (file := self._site / path.removeprefix("/")).is_file():
            return Response(file.read_bytes(), media_type=FILES[path])
        raise Refused(404, "No such page.")

    def _look_at(self, request: Request) -> None:
        given = request.headers
        host = given.getlist("host")
        # Names can be made to lead here by a page elsewhere; addresses in numbers cannot.
        if len(host) != 1 or not _is_address(host[0], self.port):
            raise Refused(403, "Type the address in numbers, as the desk shows it.")
        if any(origin.lower() != f"http://{host[0].lower()}" for origin in given.getlist("origin")):
            raise Refused(403, "This server answers its own pages only.")
        if request.method not in ("GET", "HEAD", "POST"):
            raise Refused(405, "Nothing here is done that way.")
        if "transfer-encoding" in given:
            raise Refused(411, "A request must tell its length beforehand.")
        if request.method != "POST" and given.get("content-length", "0") != "0":
            raise Refused(400, "Only what is posted has a body.")

    def _has_entered(self, request: Request) -> bool:
        return secrets.compare_digest(request.cookies.get(COOKIE, "").encode(), self._pass.encode())

    async def _enter(self, request: Request) -> Response:
        if "origin" not in request.headers:
            raise Refused(403, "This server answers its own pages only.")
        length = request.headers.get("content-length", "")
        if not (length.isascii() and length.isdigit() and len(length) < 6 and int(length) <= LARGEST):
            raise Refused(413, f"That is more than {LARGEST} bytes.")
        sent = parse_qs((await request.body()).decode("utf-8", "replace")).get("code", [""])[0]
        digits = "".join(sign for sign in sent if sign.isascii() and sign.isdigit())
        with self._lock:
            if self._wrong >= TRIES:
                return _asking("There are no tries left. Start serve again for a new code.", 403)
            if not secrets.compare_digest(digits.encode(), self.code.encode()):
                self._wrong += 1
                left = TRIES - self._wrong
                return _asking(f"That is not the code. Tries left: {left}.", 403)
        cookie = f"{COOKIE}={self._pass}; Path=/; HttpOnly; SameSite=Strict"
        return Response(status_code=303, headers={"Location": "/prompter", "Set-Cookie": cookie})

    def _text(self, episode: int) -> str:
        known = self._texts.get(episode)
        if known and time.monotonic() - known[0] < FRESH_S:
            return known[1]
        run_sheet = self._run(episode)
        listed = [{"number": e["number"], "title": e["title"], "mistakes": []} for e in run_sheet.get("episodes", [])]
        texts: dict[str, Any] = {"episodes": listed}
        if "segments" in run_sheet:
            texts |= {"number": run_sheet["number"], "title": run_sheet["title"]}
            texts["segments"] = [_read_aloud(each) for each in run_sheet["segments"]]
        text = json.dumps(texts)
        self._texts = {episode: (time.monotonic(), text)}
        return text


def opened() -> socket.socket:
    """
    A listening socket on the first free port of every address of this machine.

    Raises:
        Trouble: All that were tried are taken.
    """
    for port in range(FIRST_PORT, FIRST_PORT + PORTS):
        listener = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
        try:
            listener.bind(("0.0.0.0", port))
            listener.listen(16)
        except OSError as error:
            listener.close()
            if error.errno not in (errno.EADDRINUSE, errno.EACCES):
                raise
        else:
            return listener
    raise Trouble(
        f"The ports from {FIRST_PORT} to {FIRST_PORT + PORTS - 1}, for the prompter elsewhere, are all taken."
    )


def own_address() -> str:
    """The address under which other devices of the room most likely find this machine; nothing is sent for it."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as asked:
        try:
            asked.connect(("192.0.2.1", 9))  # RFC 5737, for documentation: it only chooses the way out
            return str(asked.getsockname()[0])
        except OSError:
            return "127.0.0.1"


def _is_address(host: str, port: int) -> bool:
    name, colon, given = host.rpartition(":")
    if not colon or given != str(port):
        return False
    try:
        ipaddress.IPv4Address(name)
    except ValueError:
        return False
    return True


def _sentence(status: int, sentence: str) -> Response:
    return Response(sentence + "\n", status, {"Connection": "close"}, "text/plain")


def _asking(message: str = "", status: int = 200) -> Response:
    """The page that asks for the code, with what went wrong; its policy names the style that stands in it, alone."""
    text = (PAGES / "code.html").read_text("utf-8").replace("{message}", message)
    style = text.partition("<style>")[2].partition("</style>")[0]
    digest = base64.b64encode(hashlib.sha256(style.encode()).digest()).decode()
    policy = (
        f"default-src 'none'; style-src 'sha256-{digest}'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'"
    )
    return Response(text, status, {"Content-Security-Policy": policy, "Connection": "close"}, "text/html")


def _page(name: str, mark: str) -> Response:
    """One of this room's pages, without the run's token: from elsewhere nothing can be sent."""
    text = (PAGES / name).read_text("utf-8").replace("{run-token}", "").replace("{scripts}", "")
    text = text.replace('<body class="prompter">', f'<body class="prompter"{mark}>')
    text = text.replace('<script src="/_serving/listen.js"></script>\n', "")
    return Response(text, media_type="text/html")


def _read_aloud(row: Mapping[str, Any]) -> dict[str, Any]:
    """What is read aloud of a question, and of its further calculators."""
    more = [{key: each[key] for key in SAID} for each in row["more"]]
    return {**{key: row[key] for key in TEXTS}, "more": more}
