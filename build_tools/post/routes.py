"""Answers requests under /post/ while the site is served: the post's page, and what it sends. Comments stay here."""

from __future__ import annotations

import datetime
import json
import secrets
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response

from build_tools import keeping
from build_tools.new.writing import CannotMake
from build_tools.post import comments, episode
from build_tools.post.output import as_data
from build_tools.post.sorting import Answered, sort
from build_tools.presenting.json_files import FOLDER, JsonFile
from build_tools.serving import doorkeeper
from build_tools.serving.doorkeeper import Refused
from build_tools.serving.routes import Route

PREFIX = "/post/"
HERE = Path(__file__).parent
LARGEST = 8_000_000  # bytes of one request
FILES = {"post.js": "text/javascript", "post.css": "text/css"}
POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; font-src 'self'; connect-src 'self'; form-action 'none'; "
    "base-uri 'none'; object-src 'none'; frame-ancestors 'none'"
)
PAGE_HEADERS = {
    "Content-Security-Policy": POLICY,
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cache-Control": "no-store",  # the run's token stands in it
}


class PostRoutes:
    """The routes of one project's post. Its comments lie in .presenter/post/, which git ignores and no build reads."""

    def __init__(self, project: Path) -> None:
        """
        Args:
            project: The project folder.
        """
        self._docs = project / "docs"
        self._comments = project / FOLDER / "post" / "comments.txt"
        self._picks: JsonFile[list[int]] = JsonFile(project / FOLDER / "post" / "picks.json", _numbers, list)
        self._token = secrets.token_urlsafe(32)
        self._actions: dict[str, Callable[[dict[str, Any]], dict[str, Any]]] = {
            "read": self._read,
            "shown": self._shown,
            "pick": self._pick,
            "episode": self._episode,
            "forget": self._forget,
        }

    def routes(self) -> Mapping[str, Route]:
        """By the beginning of the path, who answers."""
        return {PREFIX: self.answer}

    def announcement(self, address: str) -> str:
        """What the terminal says of it."""
        return f"Post     {address.rstrip('/')}{PREFIX}"

    async def answer(self, request: Request) -> Response:
        """Answers one request under the prefix."""
        name = str(request.scope["path"]).removeprefix(PREFIX)
        if request.method == "POST":
            return await self._posted(request, name)
        if name in FILES:
            doorkeeper.must_be_own_page(request)
            return Response((HERE / name).read_bytes(), media_type=FILES[name])
        if name == "":
            doorkeeper.must_be_typed_or_own(request)
            page = (HERE / "post.html").read_text("utf-8").replace("{run-token}", self._token)
            return Response(page, 200, PAGE_HEADERS, "text/html")
        raise Refused(404, "No such page.")

    async def _posted(self, request: Request, name: str) -> Response:
        doorkeeper.must_carry(request, self._token)
        if name not in self._actions:
            raise Refused(404, "Nothing here takes that.")
        body = await doorkeeper.object_of(request, LARGEST)
        try:
            reply = await run_in_threadpool(self._actions[name], body)
        except (CannotMake, comments.NotComments, ValueError, KeyError, TypeError) as problem:
            reply = {"error": f"{problem}"}
        return Response(json.dumps(reply, allow_nan=False), media_type="application/json")

    def _read(self, body: dict[str, Any]) -> dict[str, Any]:
        """Takes a pile of comments in place of the one before."""
        text = str(body.get("text", ""))
        comments.read(text)  # refused before anything is written
        keeping.keep(self._comments, text, before=False)
        self._picks.change(lambda _: [])
        return self._shown(body)

    def _shown(self, _: dict[str, Any]) -> dict[str, Any]:
        post = self._sorted()
        return {"post": as_data(post), "picks": [one.comment.number for one in self._picked(post)]}

    def _sorted(self) -> list[Answered]:
        if not self._comments.is_file():
            return []
        return sort(self._docs, comments.read(self._comments.read_text("utf-8")))

    def _picked(self, post: list[Answered]) -> list[Answered]:
        by_number = {one.comment.number: one for one in post}
        return [by_number[number] for number in self._picks.value() if number in by_number]

    def _pick(self, body: dict[str, Any]) -> dict[str, Any]:
        picks = _numbers(body.get("numbers"))
        if picks is None:
            raise ValueError("picks are whole numbers")
        return {"picks": self._picks.change(lambda _: list(dict.fromkeys(picks)))}

    def _episode(self, body: dict[str, Any]) -> dict[str, Any]:
        picked = self._picked(self._sorted())
        title, summary = (str(body.get(key, ""))[:most] for key, most in (("title", 200), ("summary", 600)))
        path = episode.make(self._docs, title, picked, datetime.date.today(), summary)
        return {"sheet": f"docs/episodes/{path.name}", "episode": int(path.name[:3])}

    def _forget(self, _: dict[str, Any]) -> dict[str, Any]:
        """Takes the comments off this disk."""
        self._comments.unlink(missing_ok=True)
        self._picks.change(lambda _: [])
        return {"post": [], "picks": []}


def _numbers(given: Any) -> list[int] | None:
    if not isinstance(given, list) or any(isinstance(n, bool) or not isinstance(n, int) for n in given):
        return None
    return list(given[:200])
