"""What the server sends: types, states, what it refuses, and what happens while a site is being replaced."""

from __future__ import annotations

import http.client
import socket
import threading
import time
import urllib.request
from collections.abc import Iterator
from pathlib import Path

import pytest
from starlette.requests import Request
from starlette.responses import Response

from build_tools.environment.trouble import Trouble
from build_tools.serving import ports, site_server
from build_tools.serving.reloading import News
from build_tools.serving.site_server import SiteServer

FILES = {
    "index.html": "<body>front</body>",
    "404.html": "<body>not here</body>",
    "deep/index.html": "<body>deep</body>",
    "a page.html": "<body>spaces</body>",
    "made/engine/pyodide.asm.wasm": "wasm",
    "made/engine/pyodide.mjs": "export {}",
    "made/engine/calculators-1-cp314-none-any.whl": "wheel",
    "made/engine/pyodide-lock.json": "{}",
    "made/browser/page.js": "1",
    "made/browser/page.css": "p{}",
    "made/browser/fonts/a.woff2": "font",
    "drawing.svg": "<svg/>",
}


async def hello(request: Request) -> Response:
    """A route of the kind that other rooms add."""
    return Response(b"hello", media_type="text/plain")


@pytest.fixture
def server(tmp_path: Path) -> Iterator[SiteServer]:
    """A served folder with a route of its own."""
    site = tmp_path / "site"
    for name, text in FILES.items():
        (site / name).parent.mkdir(parents=True, exist_ok=True)
        (site / name).write_text(text, "utf-8")
    (tmp_path / "secret.txt").write_text("secret", "utf-8")
    started = SiteServer(ports.ask_for(0), site, {"/hello/": hello}, lambda page: page + b"<!-- altered -->")
    started.start()
    yield started
    started.stop()


def ask(
    server: SiteServer, path: str, method: str = "GET", headers: dict[str, str] | None = None
) -> tuple[http.client.HTTPResponse, bytes]:
    """One request and its whole answer."""
    connection = http.client.HTTPConnection(*server.server_address[:2], timeout=10)
    try:
        connection.request(method, path, headers=headers or {})
        answer = connection.getresponse()
        return answer, answer.read()
    finally:
        connection.close()


@pytest.mark.parametrize(
    ("path", "media"),
    [
        ("/", "text/html; charset=utf-8"),
        ("/index.html?x=1", "text/html; charset=utf-8"),
        ("/deep/", "text/html; charset=utf-8"),
        ("/a%20page.html", "text/html; charset=utf-8"),
        ("/made/engine/pyodide.asm.wasm", "application/wasm"),
        ("/made/engine/pyodide.mjs", "text/javascript; charset=utf-8"),
        ("/made/engine/pyodide-lock.json", "application/json"),
        ("/made/engine/calculators-1-cp314-none-any.whl", "application/zip"),
        ("/made/browser/page.js", "text/javascript; charset=utf-8"),
        ("/made/browser/page.css", "text/css; charset=utf-8"),
        ("/made/browser/fonts/a.woff2", "font/woff2"),
        ("/drawing.svg", "image/svg+xml"),
    ],
)
def test_files_have_their_types_and_are_asked_for_anew(server: SiteServer, path: str, media: str) -> None:
    answer, body = ask(server, path)
    assert (answer.status, answer.headers["Content-Type"], answer.headers["Cache-Control"]) == (200, media, "no-cache")
    assert body
    head, nothing = ask(server, path, "HEAD")
    assert (head.status, head.headers["Content-Length"], nothing) == (200, str(len(body)), b"")


def test_only_pages_are_altered(server: SiteServer) -> None:
    assert ask(server, "/")[1] == b"<body>front</body><!-- altered -->"
    assert ask(server, "/made/browser/page.js")[1] == b"1"


def test_what_the_browser_has_is_not_sent_again(server: SiteServer) -> None:
    tag = ask(server, "/made/browser/page.js")[0].headers["ETag"]
    again, body = ask(server, "/made/browser/page.js", headers={"If-None-Match": tag})
    assert (again.status, body) == (304, b"")
    (server.site / "made/browser/page.js").write_text("22", "utf-8")
    assert ask(server, "/made/browser/page.js", headers={"If-None-Match": tag})[1] == b"22"


def test_a_folder_without_its_slash_leads_to_the_one_with(server: SiteServer) -> None:
    answer, _ = ask(server, "/deep")
    assert (answer.status, answer.headers["Location"]) == (302, "/deep/")


@pytest.mark.parametrize("path", ["/nowhere.html", "/deep/nowhere/", "/index.html/x"])
def test_what_is_not_there_gets_the_sites_own_page(server: SiteServer, path: str) -> None:
    answer, body = ask(server, path)
    assert (answer.status, body) == (404, b"<body>not here</body><!-- altered -->")


@pytest.mark.parametrize(
    "path",
    ["/../secret.txt", "/%2e%2e/secret.txt", "/deep/..%2f..%2fsecret.txt", "/..%5csecret.txt", "/a%00b", "//etc/group"],
)
def test_nothing_outside_the_site_is_given(server: SiteServer, path: str) -> None:
    answer, body = ask(server, path)
    assert answer.status == 404
    assert b"secret" not in body


def test_a_route_comes_before_the_files(server: SiteServer) -> None:
    assert ask(server, "/hello/there")[1] == b"hello"
    assert ask(server, "/hello")[0].status == 404


def test_only_this_machines_own_names_are_answered(server: SiteServer) -> None:
    port = server.server_address[1]
    assert ask(server, "/", headers={"Host": f"localhost:{port}"})[0].status == 200
    refused, body = ask(server, "/", headers={"Host": f"elsewhere.example:{port}"})
    assert (refused.status, body) == (403, b"This server answers on the loopback address only.\n")


def test_it_listens_on_the_loopback_address_alone(server: SiteServer) -> None:
    assert server.socket.getsockname()[0] == "127.0.0.1"


def test_a_request_waits_while_the_site_is_being_replaced(server: SiteServer, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(site_server, "SWAP_S", 60.0)  # a busy machine may let the timer's thread wait for long
    aside = server.site.with_name("aside")
    server.site.rename(aside)
    threading.Timer(0.3, aside.rename, [server.site]).start()
    answer, body = ask(server, "/")
    assert (answer.status, body.startswith(b"<body>front")) == (200, True)


def test_a_site_that_comes_back_just_after_the_look_is_looked_into(
    server: SiteServer, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(site_server, "SWAP_S", 60.0)
    aside = server.site.with_name("aside")
    server.site.rename(aside)
    find = server._find

    def late(names: tuple[str, ...]) -> tuple[str, bytes, str] | str | None:
        found = find(names)
        if not server.site.exists():
            aside.rename(server.site)
        return found

    monkeypatch.setattr(server, "_find", late)
    answer, body = ask(server, "/")
    assert (answer.status, body.startswith(b"<body>front")) == (200, True)


def test_the_first_free_port_is_taken_in_order(monkeypatch: pytest.MonkeyPatch) -> None:
    with socket.create_server(("127.0.0.1", 0)) as taken:
        monkeypatch.setattr(ports, "FIRST", taken.getsockname()[1])
        with ports.first_free() as free:
            assert 0 < free.getsockname()[1] - ports.FIRST < ports.TRIES
        monkeypatch.setattr(ports, "TRIES", 1)
        with pytest.raises(Trouble, match="are all taken: choose another with --port"):
            ports.first_free()


def test_a_file_that_is_ahead_of_the_site_is_given_instead(server: SiteServer, tmp_path: Path) -> None:
    server.ahead = tmp_path / "ahead"
    server.ahead.mkdir()
    (server.ahead / "index.html").write_text("<p>newer</p>", "utf-8")
    with urllib.request.urlopen(server.address) as answer:
        assert b"<p>newer</p>" in answer.read()
    (server.ahead / "index.html").unlink()
    with urllib.request.urlopen(server.address) as answer:
        assert b"newer" not in answer.read()


def test_news_reach_a_page_that_listens(server: SiteServer) -> None:
    news = News()
    server.routes.update(news.routes())
    connection = http.client.HTTPConnection(*server.server_address[:2], timeout=10)
    connection.request("GET", "/_serving/events", headers={"Sec-Fetch-Site": "same-origin"})
    stream = connection.getresponse()
    assert stream.headers["Content-Type"].startswith("text/event-stream")

    def next_state() -> str:
        while not (line := stream.readline()).startswith(b"data: "):
            assert line
        return line.decode()

    first = next_state()
    began = time.monotonic()
    news.failed("docs/page.md:3: dead link")
    assert "docs/page.md:3: dead link" in next_state()
    news.built()
    last = next_state()
    assert time.monotonic() - began < 2
    assert '"trouble": ""' in last
    assert last != first
    connection.close()


def test_the_script_stands_at_the_end_of_a_page() -> None:
    page = News().into_page(b"<body>text</body></html>")
    assert page.startswith(b'<body>text<script src="/_serving/reload.js" data-build="')
    assert page.endswith(b'"></script></body></html>')
