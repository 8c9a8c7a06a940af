"""The addresses under /on-air/ while the site is served: desk, picture, run sheet, and what they send."""

from __future__ import annotations

import asyncio
import json
import secrets
import threading
import time
from collections.abc import Awaitable, Callable, Mapping
from pathlib import Path
from typing import Any

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response

from build_tools.environment import places
from build_tools.presenting.cards import request_of
from build_tools.presenting.current import Current
from build_tools.presenting.elsewhere import Elsewhere, opened
from build_tools.presenting.line import Line
from build_tools.presenting.picture import Picture
from build_tools.presenting.scripts import ENTRIES, PAGES, Scripts
from build_tools.presenting.takes import Take, Takes, marks_of
from build_tools.presenting.targets import Targets
from build_tools.presenting.workers import Workers
from build_tools.serving import doorkeeper
from build_tools.serving.board import Board
from build_tools.serving.doorkeeper import Refused
from build_tools.serving.routes import Route
from build_tools.serving.site_server import TYPES

PREFIX = "/on-air/"
STYLES = frozenset(path.name for path in PAGES.iterdir() if path.suffix == ".css")
OF_EPISODES = ("run", "prompter")  # pages with an episode's number behind them
LARGEST = 4_000_000  # bytes of one request: room for a few private inputs of the largest size
AT_ONCE = 2  # questions worked out at a time; each has a process
WAITING = 12  # and how many may wait for their turn
READING = frozenset({"catalogue", "form", "code", "card", "run", "questions"})  # requests that change nothing
SYNC = "sync"  # the topic that has every page show the sync frame of a take, at a moment that is still to come
SYNC_LEAD_S = 0.4  # so long before it the pages are told, so that all show it at the same moment
SYNC_EVERY_S = 3.0  # no two sync frames sooner: a picture that keeps changing can harm (WCAG 2.2, criterion 2.3.1)
KEPT = "kept"  # the topic that changes whenever something in .presenter/ has been changed
SHEET = "sheet"  # and the one for a sheet changed from here; what is changed elsewhere is news of the build

# As strict as the site's own: scripts and styles of this server, pictures that its scripts put together, the engine.
POLICY = (
    "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; img-src 'self' blob:; "
    "font-src 'self'; connect-src 'self'; worker-src 'self' blob:; form-action 'none'; base-uri 'none'; "
    "object-src 'none'; frame-ancestors 'none'"
)
PAGE_HEADERS = {
    "Content-Security-Policy": POLICY,
    "Cross-Origin-Opener-Policy": "same-origin",
    "Permissions-Policy": "camera=(), microphone=(), geolocation=(), usb=()",
    "Cache-Control": "no-store",  # the run's token stands in it
}

Action = Callable[[dict[str, Any]], Awaitable[dict[str, Any]]]


class OnAir:
    """The routes, with the picture, the line, the takes and the targets that they share."""

    def __init__(self, project: Path, board: Board | None = None, site: Path | None = None) -> None:
        """
        Args:
            project: The project folder.
            board: Carries to every open page that something has changed.
            site: The site that is served beside, whose engine the desk uses.
        """
        self.project = project
        self.site = site or project / "site"
        self.board = board or Board()
        self.picture = Picture(self.board, places.cache(project) / "on-air.json")
        self.token = secrets.token_urlsafe(32)
        self._scripts = Scripts(self.site)
        self._workers = Workers(project)
        self._line = Line(project)
        self._takes = Takes(project)
        self._targets = Targets(project)
        self._current = Current(self.board, places.cache(project) / "on-air-at.json")
        self._counting = threading.Lock()
        self._elsewhere: Elsewhere | None = None
        self._synced_s = 0.0
        self._changes = int(time.time() * 1000)  # more than in any earlier run
        self._asked = 0
        self._at_once = asyncio.Semaphore(AT_ONCE)
        self._actions: dict[str, Action] = {
            "ask": self._ask,
            "take": self._take,
            "step": self._step,
            "freeze": self._freeze,
            "clear": self._clear,
            "shown": self._shown,
            "line": self._in_thread(self._change_line),
            "fill": self._fill_line,
            "at": self._in_thread(self._go),
            "mark": self._in_thread(self._mark),
            "marks": self._in_thread(self._read_marks),
            "begin": self._in_thread(self._begin),
            "end": self._in_thread(self._end),
            "undo": self._in_thread(self._undo),
            "throw-away": self._in_thread(self._throw_away),
            "bring-back": self._in_thread(self._bring_back),
            "target": self._in_thread(self._target),
            "starts": self._starts,
            "into": self._into,
            "last-change": self._last_change,
            "said": self._said,
        }

    def routes(self) -> Mapping[str, Route]:
        """By the beginning of the path, who answers."""
        return {**self.board.routes(), PREFIX: self.answer}

    def show_elsewhere(self) -> None:
        """
        Shows the prompter to other devices as well, to whoever types the code that the desk shows.

        Raises:
            Trouble: No port is free for it.
        """

        def run(episode: int) -> dict[str, Any]:
            return self._workers.ask({"what": "run", "episode": episode})

        self._elsewhere = Elsewhere(opened(), self.site, run, self._scripts.read)
        self._elsewhere.start()

    def announcement(self, address: str) -> str:
        """What the terminal says of it. The code is shown at the desk alone."""
        at = f"{address.rstrip('/')}{PREFIX}"
        line = f"On air   {at}desk  (picture: {at}picture, run sheet: {at}run)"
        if self._elsewhere is None:
            return line
        where = self._elsewhere.state()["address"]
        return f"{line}\nPrompter {where}  (for other devices in this room, with the code that the desk shows)"

    def into_page(self, page: bytes) -> bytes:
        """A page of the site with the script that hands a result to the desk, just before its end."""
        before, end, after = page.rpartition(b"</body>")
        return before + f'<script src="{PREFIX}to_desk.js"></script>'.encode() + end + after if end else page

    def close(self) -> None:
        """Ends the processes that work out answers, and the prompter for other devices."""
        if self._elsewhere:
            self._elsewhere.stop()
        self._workers.close()

    async def answer(self, request: Request) -> Response:
        """Answers one request under the prefix."""
        name = str(request.scope["path"]).removeprefix(PREFIX)
        if request.method == "POST":
            return await self._posted(request, name)
        if name in STYLES:
            doorkeeper.must_be_own_page(request)
            return Response((PAGES / name).read_bytes(), media_type=TYPES[".css"])
        if name.endswith(".js") and name.removesuffix(".js") in ENTRIES:
            doorkeeper.must_be_own_page(request)
            script = await run_in_threadpool(self._scripts.read, name.removesuffix(".js"))
            return Response(script, media_type=TYPES[".js"])
        kind, _, number = name.partition("/")
        if name in ("", "desk", "picture", "run", "prompter") or (kind in OF_EPISODES and is_number(number)):
            doorkeeper.must_be_typed_or_own(request)
            page = (PAGES / f"{kind or 'desk'}.html").read_text("utf-8")
            page = page.replace("{run-token}", self.token).replace("{scripts}", self._scripts.state())
            return Response(page, 200, PAGE_HEADERS, TYPES[".html"])
        raise Refused(404, "No such page.")

    async def _posted(self, request: Request, name: str) -> Response:
        doorkeeper.must_carry(request, self.token)
        if name not in self._actions:
            raise Refused(404, "Nothing here takes that.")
        body = await doorkeeper.object_of(request, LARGEST)
        try:
            reply = await self._actions[name](body)
        except (ValueError, KeyError, TypeError, OverflowError) as problem:
            reply = _errors(f"{problem}")
        return Response(json.dumps(reply, allow_nan=False), media_type="application/json")

    @staticmethod
    def _in_thread(action: Callable[[dict[str, Any]], dict[str, Any]]) -> Action:
        return lambda body: run_in_threadpool(action, body)

    def _tell(self, topic: str = KEPT) -> None:
        """Tells every run sheet and desk to ask for its data again."""
        with self._counting:
            self._changes += 1
            self.board.tell(topic, self._changes)

    async def _worked_out(self, body: dict[str, Any]) -> dict[str, Any]:
        """Passes a request on to a process that has read calculators and tools as they are now."""
        if self._asked >= AT_ONCE + WAITING:
            return _errors("So much is being asked at once that this must wait. Try again in a moment.")
        self._asked += 1
        try:
            async with self._at_once:
                return await run_in_threadpool(self._workers.ask, body)
        finally:
            self._asked -= 1

    async def _ask(self, body: dict[str, Any]) -> dict[str, Any]:
        if body.get("what") == "card":
            return await self._worked_out({"what": "card", **request_of(body)})
        if body.get("what") not in READING:
            return _errors("There is no such request.")
        reply = await self._worked_out(body)
        if body.get("what") == "run":
            return {**reply, **await run_in_threadpool(self._of_episode, reply.get("number", 0))}
        return reply

    async def _take(self, body: dict[str, Any]) -> dict[str, Any]:
        """Takes one step of a card to the picture, drawn here and now from calculator and inputs."""
        wanted = request_of(body)
        frame = body.get("frame", 0)
        if isinstance(frame, bool) or not isinstance(frame, int):
            raise ValueError("Which step of the card is told by a whole number.")
        reply = await self._worked_out({"what": "card", **wanted})
        if "errors" in reply:
            return reply
        frames = reply["frames"]
        if not 0 <= frame < len(frames):
            raise ValueError(f"The card has {len(frames)} steps.")
        self.picture.show(wanted, frames, frame)
        return self._state()

    async def _step(self, body: dict[str, Any]) -> dict[str, Any]:
        """Shows another step of what is on the picture, unless that is another card by now, or frozen."""
        to = _whole(body, "to")
        if self.picture.step(_whole(body, "number", 10**15), to):
            return self._state()
        return {**_errors("The picture was changed meanwhile, or is frozen: nothing was revealed."), **self._state()}

    async def _freeze(self, body: dict[str, Any]) -> dict[str, Any]:
        self.picture.freeze(body.get("on") is True)
        return self._state()

    async def _clear(self, body: dict[str, Any]) -> dict[str, Any]:
        self.picture.clear()
        return self._state()

    async def _shown(self, body: dict[str, Any]) -> dict[str, Any]:
        line = await run_in_threadpool(self._line.read)
        scripts = await run_in_threadpool(self._scripts.state)
        elsewhere = await run_in_threadpool(self._elsewhere.state) if self._elsewhere else None
        return {**self._state(), "line": line, "scripts": scripts, "elsewhere": elsewhere}

    def _state(self) -> dict[str, Any]:
        return self.picture.both()

    def _change_line(self, body: dict[str, Any]) -> dict[str, Any]:
        """Puts a card into the line of prepared ones, takes one out, or moves one."""
        done = str(body.get("do"))
        if done == "add":
            line = self._line.add(request_of(body))
        elif done == "remove":
            line = self._line.remove(_whole(body, "id"))
        elif done == "move":
            line = self._line.shift(_whole(body, "id"), 1 if body.get("later") is True else -1)
        else:
            raise ValueError("With the line of cards there is no such thing to do.")
        self._tell()
        return {"line": line}

    async def _fill_line(self, body: dict[str, Any]) -> dict[str, Any]:
        """The cards of an episode's questions, in run order, in place of what stands in the line."""
        reply = await self._worked_out({"what": "cards", "episode": _whole(body, "episode")})
        if "errors" in reply:
            return reply
        if not reply["cards"]:
            return _errors("No question of this episode has a calculator and numbers of its own yet.")
        more = {key: str(body.get(key) or "") for key in ("shape", "background")}
        cards = [request_of({**card, **more}) for card in reply["cards"]]
        line = await run_in_threadpool(self._line.fill, cards)
        self._tell()
        return {"line": line}

    def _of_episode(self, episode: int) -> dict[str, Any]:
        changes = self._changes  # read first: what follows is at least as new, and a page drops what is older
        takes = self._takes.all(episode) if episode else []
        thrown = self._takes.thrown(episode) if episode else []
        targets = self._targets.read(episode) if episode else {}
        lists = {"takes": [_for_page(take) for take in takes], "thrown": [_for_page(take) for take in thrown]}
        return {**lists, "targets": targets, "changes": changes}

    def _changed(self, episode: int) -> dict[str, Any]:
        self._tell()
        return self._of_episode(episode)

    def _go(self, body: dict[str, Any]) -> dict[str, Any]:
        """Every run sheet of this episode goes to this question."""
        return self._current.go(_whole(body, "episode"), _whole(body, "segment"))

    def _read_marks(self, body: dict[str, Any]) -> dict[str, Any]:
        episode = _whole(body, "episode")
        return {"marks": self._takes.read(episode), **self._of_episode(episode)}

    def _mark(self, body: dict[str, Any]) -> dict[str, Any]:
        moment = _moment(body)
        segment = _whole(body, "segment")
        episode = _whole(body, "episode")
        marks = self._takes.note(episode, segment, moment, _take_of(body))
        return {"marks": marks, **self._changed(episode)}

    def _begin(self, body: dict[str, Any]) -> dict[str, Any]:
        episode, moment = _whole(body, "episode"), _moment(body)
        if moment is None:
            raise ValueError("A take begins at a moment.")
        rehearsal = body.get("rehearsal") is True
        sync = self._show_sync(episode, rehearsal) if body.get("sync") is True else None
        self._takes.begin(episode, moment if sync is None else sync, rehearsal, sync)
        return self._changed(episode)

    def _show_sync(self, episode: int, rehearsal: bool) -> float | None:
        """
        Has every page show the sync frame of the take that begins now, and gives the moment at which they do. [s]

        Before the take is written, since a slow disk must not make the frame late. None where a take is running, or
        where one was shown a moment ago.
        """
        if any(take["ended"] is None for take in self._takes.all(episode)):
            return None  # the beginning is refused
        moment = time.time() + SYNC_LEAD_S
        with self._counting:
            if abs(moment - self._synced_s) < SYNC_EVERY_S:
                return None
            self._synced_s = moment
        number = self._takes.next_number(episode)
        self.board.tell(SYNC, {"at": moment, "episode": episode, "take": number, "rehearsal": rehearsal})
        return moment

    def _end(self, body: dict[str, Any]) -> dict[str, Any]:
        episode, moment = _whole(body, "episode"), _moment(body)
        if moment is None:
            raise ValueError("A take ends at a moment.")
        self._takes.end(episode, _whole(body, "take"), moment)
        return self._changed(episode)

    def _undo(self, body: dict[str, Any]) -> dict[str, Any]:
        episode = _whole(body, "episode")
        self._takes.undo(episode, _take_of(body))
        return self._changed(episode)

    def _throw_away(self, body: dict[str, Any]) -> dict[str, Any]:
        episode = _whole(body, "episode")
        self._takes.throw_away(episode, _whole(body, "take"))
        return self._changed(episode)

    def _bring_back(self, body: dict[str, Any]) -> dict[str, Any]:
        episode = _whole(body, "episode")
        self._takes.bring_back(episode, _whole(body, "take"))
        return self._changed(episode)

    def _target(self, body: dict[str, Any]) -> dict[str, Any]:
        episode, segment = _whole(body, "episode"), _whole(body, "segment")
        length = None if body.get("seconds") is None else _whole(body, "seconds")
        self._targets.set(episode, segment, length)
        return self._changed(episode)

    async def _starts(self, body: dict[str, Any]) -> dict[str, Any]:
        """Start times from a take's marks; written into the sheet where that is asked for and all of it stays valid."""
        episode = _whole(body, "episode")
        marks = await run_in_threadpool(self._takes.read, episode, _take_of(body))
        if body.get("write") is True and await run_in_threadpool(self._takes.is_rehearsal, episode, _take_of(body)):
            return _errors("This is a rehearsal: choose the take that the video is made of.")
        reply = await self._worked_out({
            "what": "starts", "episode": episode, "marks": marks, "lead": body.get("lead"), "cuts": body.get("cuts"),
            "write": body.get("write"), "recorded": marks.get("0"),
        })  # fmt: skip
        if reply.get("written"):
            self._tell(SHEET)
        return reply

    async def _said(self, body: dict[str, Any]) -> dict[str, Any]:
        """Writes into the sheet, as what was said, what a run sheet shows of a question."""
        wanted = {"episode": _whole(body, "episode"), "segment": _whole(body, "segment")}
        words = {"spoken": str(body.get("spoken") or "")[:2000], "shown": str(body.get("shown") or "")[:40]}
        reply = await self._worked_out({"what": "said", **wanted, **words})
        if "errors" not in reply:
            self._tell(SHEET)
        return reply

    async def _last_change(self, body: dict[str, Any]) -> dict[str, Any]:
        """What was changed last in an episode's sheet, and, with that change's mark, the sheet as it was before."""
        wanted = {"episode": _whole(body, "episode"), "mark": str(body.get("mark") or "")[:40]}
        reply = await self._worked_out({"what": "last-change", **wanted})
        if reply.get("taken_back"):
            self._tell(SHEET)
        return reply

    async def _into(self, body: dict[str, Any]) -> dict[str, Any]:
        """Writes a prepared question, or its numbers, into an episode's sheet, and into its card in line."""
        card = request_of(body)
        wanted = {**card, "episode": _whole(body, "episode"), "consent": body.get("consent") is True}
        wanted["segment"] = 0 if body.get("segment") is None else _whole(body, "segment")
        for key in ("viewer", "answer", "how"):
            wanted[key] = str(body.get(key) or "")[:200]
        reply = await self._worked_out({"what": "into", **wanted})
        if "errors" not in reply:
            if reply.get("how") == "numbers":
                reply["lined"] = await run_in_threadpool(self._line.renew, card)
            self._tell(SHEET)
        return reply


def is_number(text: str) -> bool:
    """Whether a text is an episode's number as an address has it."""
    return text.isascii() and text.isdigit() and len(text) <= 5


def _for_page(take: Take) -> dict[str, Any]:
    of_take = {"id": take["id"], "ended": take["ended"], "rehearsal": take["rehearsal"], "sync": take["sync"]}
    return {**of_take, "marks": marks_of(take)}


def _take_of(body: dict[str, Any]) -> int | None:
    return None if body.get("take") is None else _whole(body, "take")


def _moment(body: dict[str, Any]) -> float | None:
    at = body.get("at")
    if at is None:
        return None
    if isinstance(at, bool) or not isinstance(at, int | float) or not 0 <= at < 1e11:
        raise ValueError("The moment of a mark is a number of seconds.")
    return float(at)


def _whole(body: dict[str, Any], key: str, below: int = 100_000) -> int:
    value = body[key]
    if isinstance(value, bool) or not isinstance(value, int) or not 0 <= value < below:
        raise ValueError(f"{key} must be a whole number, not below 0")
    return value


def _errors(sentence: str) -> dict[str, Any]:
    return {"errors": [{"input": "", "message": sentence}]}
