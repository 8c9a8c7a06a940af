"""The addresses under /on-air/ while the site is served: desk, picture, run sheet, and the relay between them."""

from __future__ import annotations

import json
import subprocess
import sys
from collections.abc import Callable, Mapping
from http import HTTPStatus
from pathlib import Path
from typing import Any

from build_tools.episodes import clock, marks
from build_tools.presenting.picture import Picture
from build_tools.serving.site_server import TYPES, Handler, Route

PREFIX = "/on-air/"
PAGES = Path(__file__).with_name("pages")
LARGEST = 8_000_000  # bytes of one request: a card with its face and a private input of the largest size
WAIT_S = 60


class OnAir:
    """The routes, with the picture and the marks that they share."""

    def __init__(self, project: Path) -> None:
        self.project = project
        self.picture = Picture()
        self._marks = project / ".cache" / "marks"

    def routes(self) -> Mapping[str, Route]:
        """By prefix, who answers."""
        return {PREFIX: self.answer}

    def answer(self, request: Handler) -> None:
        """Answers one request under the prefix."""
        name = request.path.split("?")[0].removeprefix(PREFIX)
        if request.command == "POST":
            self._posted(request, name)
        elif name == "picture/events":
            self._stream(request)
        elif name in ("", "desk", "picture", "run") or (name.startswith("run/") and name[4:].isdigit()):
            page = "desk" if not name else name.split("/")[0]
            request.give((PAGES / f"{page}.html").read_bytes(), TYPES[".html"])
        elif (PAGES / name).is_file() and "/" not in name and "\\" not in name:
            request.give((PAGES / name).read_bytes(), TYPES.get(Path(name).suffix, "application/octet-stream"))
        else:
            request.give(b"No such page.\n", TYPES[".txt"], HTTPStatus.NOT_FOUND)

    def _posted(self, request: Handler, name: str) -> None:
        actions: dict[str, Callable[[dict[str, Any]], dict[str, Any]]] = {
            "ask": self._ask,
            "take": self._take,
            "clear": self._clear,
            "mark": self._mark,
            "marks": self._read_marks,
            "starts": self._starts,
        }
        body = request.posted(LARGEST)
        if name not in actions or body is None:
            request.give(b"{}", TYPES[".json"], HTTPStatus.NOT_FOUND if body is not None else HTTPStatus.BAD_REQUEST)
            return
        try:
            told = actions[name](body)
        except (ValueError, KeyError, TypeError) as problem:
            told = {"errors": [{"input": "", "message": f"{problem}"}]}
        request.give(json.dumps(told).encode(), TYPES[".json"])

    def _stream(self, request: Handler) -> None:
        request.send_response(HTTPStatus.OK)
        request.send_header("Content-Type", "text/event-stream")
        request.send_header("Cache-Control", "no-store")
        request.send_header("Connection", "close")
        request.end_headers()
        request.close_connection = True
        state = ""
        while not request.server.closing.is_set():
            now = self.picture.other_than(state, 1.0)
            request.wfile.write(f"retry: 300\ndata: {now}\n\n".encode() if now != state else b": still here\n\n")
            request.wfile.flush()
            state = now

    def _ask(self, body: dict[str, Any]) -> dict[str, Any]:
        """Passes a request on to a fresh process, which sees calculators and pages as they are now."""
        done = subprocess.run(
            [sys.executable, "-m", "build_tools.presenting.answers"],
            cwd=self.project,
            input=json.dumps(body),
            capture_output=True,
            text=True,
            encoding="utf-8",
            timeout=WAIT_S,
        )
        if done.returncode:
            last = (done.stderr.strip().splitlines() or ["it said nothing"])[-1]
            return {"errors": [{"input": "", "message": f"This could not be worked out: {last}"}]}
        told: dict[str, Any] = json.loads(done.stdout)
        return told

    def _take(self, body: dict[str, Any]) -> dict[str, Any]:
        self.picture.take(str(body["svg"]), str(body.get("name", "")))
        return {}

    def _clear(self, body: dict[str, Any]) -> dict[str, Any]:
        self.picture.clear()
        return {}

    def _file(self, body: dict[str, Any]) -> Path:
        return self._marks / f"{int(body['episode']):03}.json"

    def _read_marks(self, body: dict[str, Any]) -> dict[str, Any]:
        path = self._file(body)
        return {"marks": json.loads(path.read_text("utf-8")) if path.is_file() else {}}

    def _mark(self, body: dict[str, Any]) -> dict[str, Any]:
        """Notes the moment of a segment, or of the recording's beginning as segment 0; at: null takes it back."""
        path = self._file(body)
        found = self._read_marks(body)["marks"]
        key = str(int(body["segment"]))
        if body.get("at") is None:
            found.pop(key, None)
        else:
            found[key] = float(body["at"])
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(json.dumps(found), "utf-8")
        return {"marks": found}

    def _starts(self, body: dict[str, Any]) -> dict[str, Any]:
        """Start times from the marks; written into the sheet where that is asked for."""
        found = {int(k): float(v) for k, v in self._read_marks(body)["marks"].items()}
        began = found.pop(0, min(found.values(), default=0.0)) + float(clock.seconds(body.get("lead") or 0))
        cuts = [(float(clock.seconds(a)), float(clock.seconds(b))) for a, b in body.get("cuts", [])]
        times = marks.starts(found, began, cuts)
        if body.get("write"):
            number = int(body["episode"])
            sheets = sorted((self.project / "docs" / "episodes").glob(f"{number:03}-*.md"))
            if not sheets:
                raise ValueError(f"there is no sheet for episode {number}")
            marks.write_starts(sheets[0], times)
        return {"starts": {number: clock.worded(time) for number, time in times.items()}}
