"""The addresses under /on-air/ while the site is served: desk, picture, run sheet, and the relay between them."""

from __future__ import annotations

import asyncio
import json
import secrets
import sys
from collections.abc import Awaitable, Callable, Mapping
from pathlib import Path
from typing import Any

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response

from build_tools.episodes import clock, marks
from build_tools.presenting.cards import Cards, request_of
from build_tools.presenting.kept_marks import KeptMarks
from build_tools.presenting.picture import Picture
from build_tools.serving import doorkeeper
from build_tools.serving.board import Board
from build_tools.serving.doorkeeper import Refused
from build_tools.serving.json_bodies import read_object
from build_tools.serving.routes import Route
from build_tools.serving.site_server import TYPES

PREFIX = "/on-air/"
PAGES = Path(__file__).with_name("pages")
SCRIPTS_AND_STYLES = frozenset(path.name for path in PAGES.iterdir() if path.suffix in (".js", ".css"))
LARGEST = 4_000_000  # bytes of one request: room for a few private inputs of the largest size
WAIT_S = 60
AT_ONCE = 2  # questions worked out at a time; each is a process
WAITING = 12  # and how many may wait for their turn

# As strict as the site's own: scripts and styles of this server, pictures that its scripts put together, nothing else.
POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' blob:; font-src 'self'; "
    "connect-src 'self'; worker-src 'self'; form-action 'none'; base-uri 'none'; object-src 'none'; "
    "frame-ancestors 'none'"
)
PAGE_HEADERS = {
    "Content-Security-Policy": POLICY,
    "Cross-Origin-Opener-Policy": "same-origin",
    "Permissions-Policy": "camera=(), microphone=(), geolocation=(), usb=()",
    "Cache-Control": "no-store",  # the run's token stands in it
}

Action = Callable[[dict[str, Any]], Awaitable[dict[str, Any]]]


class OnAir:
    """The routes, with the picture and the marks that they share."""

    def __init__(self, project: Path, board: Board | None = None) -> None:
        self.project = project
        self.board = board or Board()
        self.picture = Picture(self.board)
        self.token = secrets.token_urlsafe(32)
        self._cards = Cards()
        self._marks = KeptMarks(project)
        self._asked = 0
        self._turns = asyncio.Semaphore(AT_ONCE)
        self._actions: dict[str, Action] = {
            "ask": self._ask,
            "take": self._take,
            "clear": self._clear,
            "shown": self._shown,
            "mark": self._in_thread(self._mark),
            "marks": self._in_thread(self._read_marks),
            "starts": self._in_thread(self._starts),
        }

    def routes(self) -> Mapping[str, Route]:
        """By the beginning of the path, who answers."""
        return {**self.board.routes(), PREFIX: self.answer}

    async def answer(self, request: Request) -> Response:
        """Answers one request under the prefix."""
        name = str(request.scope["path"]).removeprefix(PREFIX)
        if request.method == "POST":
            return await self._posted(request, name)
        if name in SCRIPTS_AND_STYLES:
            doorkeeper.must_be_own_page(request)
            return Response((PAGES / name).read_bytes(), media_type=TYPES[Path(name).suffix])
        if name in ("", "desk", "picture", "run") or (name.startswith("run/") and is_number(name[4:])):
            doorkeeper.must_be_typed_or_own(request)
            page = (PAGES / f"{name.split('/')[0] or 'desk'}.html").read_text("utf-8")
            return Response(page.replace("{run-token}", self.token), 200, PAGE_HEADERS, TYPES[".html"])
        raise Refused(404, "No such page.")

    async def _posted(self, request: Request, name: str) -> Response:
        doorkeeper.must_carry(request, self.token)
        if name not in self._actions:
            raise Refused(404, "Nothing here takes that.")
        if request.headers.get("content-type", "").partition(";")[0].strip().lower() != "application/json":
            raise Refused(415, "Only JSON is taken here.")
        try:
            body = read_object(await doorkeeper.body_of(request, LARGEST))
        except ValueError as problem:
            raise Refused(400, f"{problem}.") from None
        try:
            told = await self._actions[name](body)
        except (ValueError, KeyError, TypeError, OverflowError) as problem:
            told = {"errors": [{"input": "", "message": f"{problem}"}]}
        return Response(json.dumps(told, allow_nan=False), media_type="application/json")

    @staticmethod
    def _in_thread(action: Callable[[dict[str, Any]], dict[str, Any]]) -> Action:
        return lambda body: run_in_threadpool(action, body)

    async def _ask(self, body: dict[str, Any]) -> dict[str, Any]:
        if body.get("what") != "card":
            return await self._worked_out(body)
        wanted = request_of(body)
        told = await self._worked_out({"what": "card", **wanted})
        if "frames" in told:
            self._cards.keep(wanted, told["frames"])
        return told

    async def _worked_out(self, body: dict[str, Any]) -> dict[str, Any]:
        """Passes a request on to a fresh process, which sees calculators and pages as they are now."""
        if self._asked >= AT_ONCE + WAITING:
            return _errors("So much is being asked at once that this must wait. Try again in a moment.")
        self._asked += 1
        try:
            async with self._turns, asyncio.timeout(WAIT_S):
                return await _in_a_process(self.project, body)
        except TimeoutError:
            return _errors(f"This was not worked out within {WAIT_S} seconds.")
        finally:
            self._asked -= 1

    async def _take(self, body: dict[str, Any]) -> dict[str, Any]:
        """Takes one frame of a card to the picture: the one the desk has shown, or drawn now where it is not kept."""
        wanted = request_of(body)
        frame = body.get("frame", 0)
        if isinstance(frame, bool) or not isinstance(frame, int):
            raise ValueError("Which step of the card is told by a whole number.")
        frames = self._cards.find(wanted)
        if frames is None:
            told = await self._ask({"what": "card", **wanted})
            if "errors" in told:
                return told
            frames = told["frames"]
        if not 0 <= frame < len(frames):
            raise ValueError(f"The card has {len(frames)} steps.")
        taken = frames[frame]
        self.picture.take(taken["svg"], taken["name"], taken["words"])
        return {"number": self.picture.shown()["number"]}

    async def _clear(self, body: dict[str, Any]) -> dict[str, Any]:
        self.picture.clear()
        return {}

    async def _shown(self, body: dict[str, Any]) -> dict[str, Any]:
        return self.picture.shown()

    def _read_marks(self, body: dict[str, Any]) -> dict[str, Any]:
        return {"marks": self._marks.read(_whole(body, "episode"))}

    def _mark(self, body: dict[str, Any]) -> dict[str, Any]:
        """Notes the moment of a segment, or of the recording's beginning as segment 0; at: null takes it back."""
        at = body.get("at")
        if at is not None and (isinstance(at, bool) or not isinstance(at, int | float) or not 0 <= at < 1e11):
            raise ValueError("The moment of a mark is a number of seconds.")
        segment = _whole(body, "segment")
        return {"marks": self._marks.note(_whole(body, "episode"), segment, None if at is None else float(at))}

    def _starts(self, body: dict[str, Any]) -> dict[str, Any]:
        """Start times from the marks; written into the sheet where that is asked for."""
        found = {int(k): v for k, v in self._marks.read(_whole(body, "episode")).items()}
        began = found.pop(0, min(found.values(), default=0.0)) + float(clock.seconds(body.get("lead") or 0))
        cuts = [(float(clock.seconds(a)), float(clock.seconds(b))) for a, b in body.get("cuts", [])]
        times = marks.starts(found, began, cuts)
        if body.get("write") is True:
            number = _whole(body, "episode")
            sheets = sorted((self.project / "docs" / "episodes").glob(f"{number:03}-*.md"))
            if not sheets:
                raise ValueError(f"there is no sheet for episode {number}")
            marks.write_starts(sheets[0], times)
        return {"starts": {number: clock.worded(time) for number, time in times.items()}}


def is_number(text: str) -> bool:
    """Whether a text is an episode's number as an address has it."""
    return text.isascii() and text.isdigit() and len(text) <= 5


def _whole(body: dict[str, Any], key: str) -> int:
    value = body[key]
    if isinstance(value, bool) or not isinstance(value, int) or not 0 <= value < 100_000:
        raise ValueError(f"{key} must be a whole number, not below 0")
    return value


def _errors(sentence: str) -> dict[str, Any]:
    return {"errors": [{"input": "", "message": sentence}]}


async def _in_a_process(project: Path, body: dict[str, Any]) -> dict[str, Any]:
    child = await asyncio.create_subprocess_exec(
        sys.executable, "-m", "build_tools.presenting.answers", cwd=project,
        stdin=asyncio.subprocess.PIPE, stdout=asyncio.subprocess.PIPE, stderr=asyncio.subprocess.PIPE,
    )  # fmt: skip
    try:
        told, complaints = await child.communicate(json.dumps(body).encode())
    finally:
        if child.returncode is None:  # too slow, or nobody waits any more
            child.kill()
            await child.wait()
    if child.returncode:
        last = (complaints.decode("utf-8", "replace").strip().splitlines() or ["it said nothing"])[-1]
        return _errors(f"This could not be worked out: {last}")
    found: dict[str, Any] = json.loads(told)
    return found
