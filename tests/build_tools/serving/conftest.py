"""A served folder with something beside it that must stay there, and plain sockets to ask in ways no browser would."""

from __future__ import annotations

import os
import socket
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

import pytest

from build_tools.presenting.routes import OnAir
from build_tools.serving import ports
from build_tools.serving.board import Board
from build_tools.serving.reloading import News
from build_tools.serving.site_server import SiteServer

PROJECT = Path(__file__).parents[3]
SECRET = "SECRET-7f3a"
SHEET = """---
title: The first one
recorded: 2026-10-02
summary: A summary.
invented: true
segments:
  - start: "0:00"
    question: What is that ringing?
    viewer: anonymous
    referred: {to: a hearing specialist, why: That is not ours to judge.}
---
# The first one
"""


@dataclass
class Served:
    """A server as `serve` starts it: the site, the news, and what is on air."""

    server: SiteServer
    on_air: OnAir
    news: News
    board: Board
    home: Path

    @property
    def port(self) -> int:
        return self.server.server_address[1]

    @property
    def host(self) -> str:
        return f"127.0.0.1:{self.port}"

    def own(self) -> dict[str, str]:
        """The headers of a request that one of our own pages makes."""
        return {
            "Host": self.host,
            "Origin": f"http://{self.host}",
            "Sec-Fetch-Site": "same-origin",
            "Content-Type": "application/json",
            "Run-Token": self.on_air.token,
        }

    def head(self, path: str, method: str, headers: dict[str, str]) -> bytes:
        lines = [f"{method} {path} HTTP/1.1", *(f"{name}: {value}" for name, value in headers.items())]
        return "\r\n".join([*lines, "", ""]).encode("latin-1")

    def ask(self, path: str, method: str = "GET", headers: dict[str, str] | None = None, body: bytes = b"",
            seconds: float = 8.0) -> Answer:  # fmt: skip
        """One request, its answer."""
        given = {"Host": self.host, **(headers or {})}
        if body or method == "POST":
            given.setdefault("Content-Length", str(len(body)))
        return Answer(self.send(self.head(path, method, given | {"Connection": "close"}) + body, seconds))

    def post(self, name: str, body: bytes, headers: dict[str, str | None] | None = None, seconds: float = 30) -> Answer:
        """What a page of ours would post, but for the headers given; None takes one away."""
        given = {key: value for key, value in (self.own() | (headers or {})).items() if value is not None}
        return self.ask(f"/on-air/{name}", "POST", given, body, seconds)

    def send(self, data: bytes, seconds: float = 8.0) -> bytes:
        """All that comes back until the server ends the connection."""
        with socket.create_connection(("127.0.0.1", self.port), seconds) as opened:
            try:
                opened.sendall(data)
            except OSError:
                pass
            return until_end(opened)


def until_end(opened: socket.socket) -> bytes:
    """What comes until the connection ends or nothing comes any more."""
    parts = []
    try:
        while part := opened.recv(65536):
            parts.append(part)
    except (TimeoutError, ConnectionError):
        pass
    return b"".join(parts)


class Answer:
    """What came back, taken apart."""

    def __init__(self, raw: bytes) -> None:
        head, _, self.body = raw.partition(b"\r\n\r\n")
        first, *lines = head.decode("latin-1").split("\r\n")
        self.raw = raw
        self.status = int(first.split(" ")[1]) if first else 0
        self.headers = {name.lower(): value.strip() for name, _, value in (line.partition(":") for line in lines)}


@pytest.fixture
def served(tmp_path: Path) -> Iterator[Served]:
    """A running server. Beside its site lies a secret, to which links inside the site lead."""
    with serving(tmp_path) as opened:
        yield opened


@pytest.fixture(scope="module")
def standing(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Served]:
    """One like it for all tests of a file from which everything is refused, so that none changes it for the next."""
    with serving(tmp_path_factory.mktemp("standing")) as opened:
        yield opened


@contextmanager
def serving(home: Path) -> Iterator[Served]:
    """Fills a folder and serves it."""
    site = home / "site"
    (site / "deep" / ".kept").mkdir(parents=True)
    (site / ".git").mkdir()
    (home / "docs" / "episodes").mkdir(parents=True)
    (home / "docs" / "episodes" / "001-the-first-one.md").write_text(SHEET, "utf-8")
    (home / "node_modules").symlink_to(PROJECT / "node_modules")  # the face of the cards
    (home / "secret.txt").write_text(SECRET, "utf-8")
    for name in (".hidden", ".git/config", "deep/.secret.txt", "deep/.kept/index.html"):
        (site / name).write_text(SECRET, "utf-8")
    for name in ("index.html", "deep/index.html", "a page.html", "größer.html"):
        (site / name).write_text(f"<body>{name}</body>", "utf-8")
    (site / "big.js").write_text("let a = 1;\n" * 1000, "utf-8")
    if os.name == "posix":
        (site / "link.html").symlink_to(home / "secret.txt")
        (site / "linked").symlink_to(home)
        (site / "alias.html").symlink_to(site / "index.html")
        (site / "around").symlink_to(site)
        os.mkfifo(site / "pipe.html")
    board = Board()
    on_air, news = OnAir(home, board), News(board)
    server = SiteServer(ports.ask_for(0), site, {**on_air.routes(), **news.routes()}, news.into_page)
    server.start()
    yield Served(server, on_air, news, board, home)
    server.stop()
