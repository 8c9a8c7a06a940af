"""Attacks on the local server with plain sockets: who asks, how a request ends, what it holds, how long it takes."""

from __future__ import annotations

import json
import socket
import threading
import time
from pathlib import Path

import pytest

from build_tools.serving import connections, ports
from build_tools.serving.json_bodies import read_object
from build_tools.serving.site_server import SiteServer
from tests.build_tools.serving.conftest import Served, until_end

MARK = b'{"episode": 1, "segment": 1, "at": 1000}'


def marked(served: Served) -> bool:
    """Whether any mark has been noted."""
    return bool(served.on_air._read_marks({"episode": 1})["marks"])


def mark_request(served: Served, **changed: str | None) -> bytes:
    """A whole request that would note a mark, with the sender's headers changed or taken away."""
    headers = {**served.own(), "Content-Length": str(len(MARK))}
    for name, value in changed.items():
        headers.pop(name.replace("_", "-"), None)
        if value is not None:
            headers[name.replace("_", "-")] = value
    return served.head("/on-air/mark", "POST", headers) + MARK


def test_our_own_page_may_mark(served: Served) -> None:
    told = served.post("mark", MARK)
    assert (told.status, json.loads(told.body)["marks"]) == (200, {"1": 1000.0})


# Who asks


@pytest.mark.parametrize(
    "changed",
    [
        {"Origin": None},
        {"Origin": "null"},
        {"Origin": "http://elsewhere.example"},
        {"Origin": "https://{host}"},
        {"Origin": "http://127.0.0.1:1"},
        {"Origin": "http://{host}.elsewhere.example"},
        {"Origin": "http://elsewhere.example@{host}"},
        {"Origin": "http://localhost:{port}"},
        {"Sec_Fetch_Site": None},
        {"Sec_Fetch_Site": "none"},
        {"Sec_Fetch_Site": "same-site"},
        {"Sec_Fetch_Site": "cross-site"},
        {"Run_Token": None},
        {"Run_Token": ""},
        {"Run_Token": "x" * 43},
        {"Run_Token": "\xe4\xf6"},
        {"Content_Type": "text/plain"},
        {"Content_Type": "application/x-www-form-urlencoded"},
        {"Content_Type": None},
        {"Host": "elsewhere.example"},
        {"Host": "elsewhere.example:{port}"},
        {"Host": "127.0.0.1"},
        {"Host": "127.0.0.1:1"},
        {"Host": "127.0.0.1:{port}.elsewhere.example"},
        {"Host": "elsewhere.example@127.0.0.1:{port}"},
        {"Host": "localhost.elsewhere.example:{port}"},
        {"Host": "0.0.0.0:{port}"},
        {"Host": "127.0.0.2:{port}"},
        {"Host": "2130706433:{port}"},
        {"Host": "[::1]:{port}"},
        {"Host": ""},
        {"Host": None},
    ],
)
def test_nothing_is_changed_for_anybody_else(standing: Served, changed: dict[str, str | None]) -> None:
    host, port = standing.host, str(standing.port)
    filled = {k: v and v.replace("{host}", host).replace("{port}", port) for k, v in changed.items()}
    answer = standing.send(mark_request(standing, **filled))
    assert answer.split(b" ")[1] in (b"400", b"403", b"415")
    assert b"connection: close" in answer.lower()
    assert not marked(standing)


ACTIONS = (
    "ask take step freeze clear shown line fill mark marks begin end undo throw-away bring-back target starts into "
    "said at last-change"
).split()


def test_every_action_asks_for_all_three_signs(served: Served) -> None:
    for name in ACTIONS:
        for missing in ("Origin", "Sec-Fetch-Site", "Run-Token"):
            assert served.post(name, b'{"episode": 1}', {missing: None}).status == 403, (name, missing)
        assert served.post(name, b'{"episode": 1}').status == 200, name


@pytest.mark.parametrize("page", ["desk", "picture", "prompter", "prompter/1", "run", "run/1", ""])
def test_the_presenters_pages_open_for_a_person_and_for_no_other_page(standing: Served, page: str) -> None:
    path = f"/on-air/{page}"
    typed = {"Sec-Fetch-Site": "none", "Sec-Fetch-Mode": "navigate", "Sec-Fetch-Dest": "document"}
    opened = standing.ask(path, headers=typed)
    assert opened.status == 200
    assert standing.on_air.token.encode() in opened.body
    assert opened.headers["cache-control"] == "no-store"
    for site in ("cross-site", "same-site", None):
        headers = {name: value for name, value in {**typed, "Sec-Fetch-Site": site}.items() if value}
        refused = standing.ask(path, headers=headers)
        assert (refused.status, standing.on_air.token.encode() in refused.raw) == (403, False)


def test_each_run_has_a_token_of_its_own(standing: Served) -> None:
    from build_tools.presenting.routes import OnAir

    other = OnAir(standing.home)
    assert other.token != standing.on_air.token
    assert len(other.token) >= 40
    told = standing.post("marks", b'{"episode": 1}', {"Run-Token": other.token})
    assert (told.status, b"earlier run" in told.body) == (403, True)


def test_a_page_elsewhere_may_lead_to_the_site_and_use_nothing_of_it(standing: Served) -> None:
    elsewhere = {"Sec-Fetch-Site": "cross-site"}
    led = {**elsewhere, "Sec-Fetch-Mode": "navigate", "Sec-Fetch-Dest": "document"}
    assert standing.ask("/index.html", headers=led).status == 200
    for headers in (
        {**elsewhere, "Sec-Fetch-Mode": "no-cors", "Sec-Fetch-Dest": "script"},
        {**elsewhere, "Sec-Fetch-Mode": "cors", "Sec-Fetch-Dest": "empty"},
        {**elsewhere, "Sec-Fetch-Mode": "navigate", "Sec-Fetch-Dest": "iframe"},
        {"Sec-Fetch-Site": "same-site", "Sec-Fetch-Mode": "no-cors", "Sec-Fetch-Dest": "image"},
        {"Origin": "http://elsewhere.example"},
        {"Origin": "null"},
    ):
        assert standing.ask("/index.html", headers=headers).status == 403, headers
        assert standing.ask("/_serving/events", headers=headers).status == 403, headers


def test_news_are_for_our_own_pages(standing: Served) -> None:
    for headers in ({}, {"Sec-Fetch-Site": "none"}, {"Sec-Fetch-Site": "cross-site"}):
        assert standing.ask("/_serving/events", headers=headers).status == 403


def test_names_that_lead_here_are_no_names_of_ours(standing: Served) -> None:
    """A page elsewhere that lets its own name lead to this machine is still at that name."""
    for host in ("elsewhere.example", "elsewhere.example:{port}", "www.localhost:{port}", "localhost.:{port}"):
        assert standing.ask("/index.html", headers={"Host": host.format(port=standing.port)}).status == 403
    twice = standing.send(f"GET / HTTP/1.1\r\nHost: {standing.host}\r\nHost: elsewhere.example\r\n\r\n".encode())
    assert twice.startswith(b"HTTP/1.1 400 ")
    for target in (b"http://elsewhere.example/", b"//elsewhere.example/"):
        whole = standing.send(b"GET " + target + b" HTTP/1.1\r\nHost: " + standing.host.encode() + b"\r\n\r\n")
        assert whole.startswith(b"HTTP/1.1 404 ")


@pytest.mark.parametrize("method", ["PUT", "DELETE", "PATCH", "OPTIONS", "TRACE", "CONNECT", "BREW"])
def test_nothing_is_done_by_other_methods(standing: Served, method: str) -> None:
    preflight = {"Origin": "http://elsewhere.example", "Access-Control-Request-Method": "POST"}
    for headers in (standing.own(), preflight):
        answer = standing.ask("/on-air/mark", method, headers)
        assert answer.status in (400, 403, 405)
        assert not [name for name in answer.headers if name.startswith("access-control")]


@pytest.mark.parametrize("path", ["/", "/_serving/reload.js", "/_serving/events", "/on-air/desk", "/nowhere"])
def test_pages_and_scripts_take_nothing(standing: Served, path: str) -> None:
    assert standing.ask(path, "POST", standing.own(), b"{}").status in (404, 405)


# Where a request ends


def count(answers: bytes) -> int:
    return answers.count(b"HTTP/1.1 ")


@pytest.mark.parametrize(
    "refused",
    [
        {"Origin": "http://elsewhere.example", "Content-Type": "text/plain"},
        {"Content-Type": "text/plain"},
        {"Host": "elsewhere.example"},
        {"Sec-Fetch-Site": "cross-site", "Content-Type": "text/plain"},
    ],
)
@pytest.mark.parametrize("path", ["/on-air/take", "/on-air/nowhere", "/nowhere", "/index.html"])
def test_the_body_of_a_refused_request_is_no_request(standing: Served, refused: dict[str, str], path: str) -> None:
    """What a plain form on any page can send: a body that reads like a request of our own."""
    hidden = mark_request(standing, Connection="close")
    headers = {"Host": standing.host, **refused, "Content-Length": str(len(hidden))}
    answers = standing.send(standing.head(path, "POST", headers) + hidden)
    assert (count(answers), marked(standing)) == (1, False)


def test_a_body_where_none_belongs_is_no_request(standing: Served) -> None:
    hidden = mark_request(standing, Connection="close")
    headers = {"Host": standing.host, "Content-Length": str(len(hidden))}
    for method in ("GET", "HEAD", "OPTIONS"):
        answers = standing.send(standing.head("/index.html", method, headers) + hidden)
        assert (count(answers), marked(standing)) == (1, False)


@pytest.mark.parametrize(
    "lines",
    [
        "Content-Length: 4\r\nTransfer-Encoding: chunked",
        "Transfer-Encoding: chunked\r\nContent-Length: {hidden}",
        "Transfer-Encoding: chunked",
        "Transfer-Encoding: xchunked\r\nContent-Length: {hidden}",
        "Transfer-Encoding: identity\r\nContent-Length: {hidden}",
        "Transfer-Encoding : chunked\r\nContent-Length: {hidden}",
        "Transfer-Encoding: chunked\r\nTransfer-Encoding: identity",
        "Transfer-Encoding:\x0bchunked\r\nContent-Length: {hidden}",
        " Transfer-Encoding: chunked\r\nContent-Length: {hidden}",
        "Content-Length: 0\r\nContent-Length: {hidden}",
        "Content-Length: 0, {hidden}",
        "Content-Length: +{hidden}",
        "Content-Length: -1",
        "Content-Length: 0x10",
        "Content-Length: 1e2",
        "Content-Length: ",
        "Content-Length:\r\n {hidden}",
        "Content-Length: {hidden}\r\nContent-Length: 0",
        "Content-Length: 99999999999999999999",
        "Content_Length: {hidden}",
        "Content-Length: {hidden}\x00",
    ],
)
def test_a_request_is_not_smuggled_into_another(standing: Served, lines: str) -> None:
    hidden = mark_request(standing, Connection="close")
    given = {k: v for k, v in standing.own().items() if k not in ("Run-Token",)}
    head = standing.head("/on-air/mark", "POST", given).removesuffix(b"\r\n")
    body = b"0\r\n\r\n" + hidden
    answers = standing.send(head + lines.format(hidden=len(body)).encode("latin-1") + b"\r\n\r\n" + body)
    assert (count(answers), marked(standing)) == (1, False)


def test_requests_in_a_row_are_answered_in_order_up_to_the_first_that_is_refused(standing: Served) -> None:
    def get(path: str) -> bytes:
        return standing.head(path, "GET", {"Host": standing.host})

    answers = standing.send(get("/index.html") + get("/deep/") + get("/%2Fetc/hostname") + mark_request(standing))
    assert count(answers) == 3
    assert [answers.index(part) for part in (b"index.html<", b"deep/index.html<", b" 404 ")] == sorted(
        answers.index(part) for part in (b"index.html<", b"deep/index.html<", b" 404 ")
    )
    assert not marked(standing)


@pytest.mark.parametrize(
    "text",
    [
        b"\x00" * 40 + b"\r\n\r\n",
        b"\x16\x03\x01\x02\x00\x01\x00\x01\xfc\x03\x03" + b"a" * 60,  # the beginning of an encrypted connection
        b"GET / HTTP/9.9\r\n\r\n",
        b"GET /\r\n\r\n",
        b"GET  /  HTTP/1.1\r\n\r\n",
        b"PRI * HTTP/2.0\r\n\r\nSM\r\n\r\n",
        b"GET / HTTP/1.1\r\nHost: x\r\nA b: c\r\n\r\n",
        b"GET / HTTP/1.1\r\nHost: x\r\nX: " + b"a" * 70_000 + b"\r\n\r\n",
        b"GET /" + b"a" * 70_000 + b" HTTP/1.1\r\n\r\n",
        b"GET / HTTP/1.1\r\n" + b"".join(b"X-%d: a\r\n" % n for n in range(9000)) + b"\r\n",
    ],
)
def test_what_is_no_http_ends_its_connection_and_nothing_else(standing: Served, text: bytes) -> None:
    began = time.monotonic()
    answer = standing.send(text)
    assert not answer or answer.split(b" ")[1].startswith(b"4")
    assert time.monotonic() - began < 5
    assert standing.ask("/").status == 200


def test_every_action_is_tried(standing: Served) -> None:
    assert sorted(standing.on_air._actions) == sorted(ACTIONS)


# What a request holds


def test_a_body_that_is_too_large_is_not_read(standing: Served) -> None:
    began = time.monotonic()
    with socket.create_connection(("127.0.0.1", standing.port), 8) as opened:
        opened.sendall(standing.head("/on-air/mark", "POST", {**standing.own(), "Content-Length": "100000000000"}))
        answer = until_end(opened)
    assert (answer.split(b" ")[1], b"connection: close" in answer) == (b"413", True)
    assert time.monotonic() - began < 3


@pytest.mark.parametrize(
    "body",
    [
        b"[" * 100_000,
        b'{"episode":' * 50_000 + b"1" + b"}" * 50_000,
        b'{"episode": 1, "segment": 1, "at": Infinity}',
        b'{"episode": 1, "segment": 1, "at": -Infinity}',
        b'{"episode": 1, "segment": 1, "at": NaN}',
        b'{"episode": 1, "segment": 1, "at": 1e999}',
        b'{"episode": ' + b"9" * 5000 + b', "segment": 1, "at": 1}',
        b'{"episode": 1, "episode": 2, "segment": 1, "at": 1}',
        b'{"episode": 1, "segment": 1, "at": 1',
        b"[1]",
        b'"text"',
        b"null",
        b"",
        b"\xff\xfe{\x00}\x00",
        b'{"episode": 1}{"episode": 1}',
    ],
)
def test_only_plain_json_objects_are_read(standing: Served, body: bytes) -> None:
    told = standing.post("mark", body)
    assert (told.status, told.headers["connection"]) == (400, "close")
    assert not marked(standing)
    assert standing.ask("/").status == 200


def test_depth_is_counted_outside_of_texts() -> None:
    assert read_object(b'{"a": "[[[[[[[[[[[[[[[[[[[[\\"[[[[["}') == {"a": '[[[[[[[[[[[[[[[[[[[["[[[[['}
    with pytest.raises(ValueError, match="more than 12 levels deep"):
        read_object(b'{"a":' + b"[" * 12 + b"]" * 12 + b"}")


@pytest.mark.parametrize(
    "body",
    [
        {"episode": 1, "segment": 1, "at": True},
        {"episode": 1, "segment": 1, "at": "1000"},
        {"episode": 1, "segment": 1, "at": -1},
        {"episode": 1, "segment": 1, "at": 1e300},
        {"episode": 1, "segment": 1, "at": [1]},
        {"episode": 1, "segment": -1, "at": 1},
        {"episode": 1, "segment": 1.5, "at": 1},
        {"episode": "../../x", "segment": 1, "at": 1},
        {"episode": 10**9, "segment": 1, "at": 1},
        {"episode": True, "segment": 1, "at": 1},
        {"segment": 1, "at": 1},
    ],
)
def test_marks_are_moments_of_segments(standing: Served, body: dict[str, object]) -> None:
    told = json.loads(standing.post("mark", json.dumps(body).encode()).body)
    assert told["errors"][0]["message"]
    assert not list(standing.home.rglob("*.json"))


def test_sixty_marks_at_once_are_all_there(served: Served) -> None:
    def note(number: int) -> None:
        served.post("mark", json.dumps({"episode": 1, "segment": number, "at": 1000 + number}).encode())

    threads = [threading.Thread(target=note, args=(number,)) for number in range(60)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    marks = json.loads(served.post("marks", b'{"episode": 1}').body)["marks"]
    assert marks == {str(number): 1000.0 + number for number in range(60)}


# How long it takes


def test_a_request_that_never_ends_does(served: Served, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(connections, "HEAD_S", 0.6)
    monkeypatch.setattr(connections, "BODY_S", 0.6)
    beginnings = [
        b"",
        b"G",
        b"GET / HTTP/1.1\r\nHost: x\r\n",
        served.head("/on-air/mark", "POST", {**served.own(), "Content-Length": "1000"}) + b"{",
        # an answered request, and half of another behind it
        served.head("/", "GET", {"Host": served.host}) + b"GET /",
    ]
    for beginning in beginnings:
        with socket.create_connection(("127.0.0.1", served.port), 8) as opened:
            began = time.monotonic()
            opened.sendall(beginning)
            until_end(opened)
            assert time.monotonic() - began < 4, beginning


def test_a_byte_now_and_then_buys_no_time(served: Served, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(connections, "HEAD_S", 1.0)
    with socket.create_connection(("127.0.0.1", served.port), 8) as opened:
        began = time.monotonic()
        try:
            for sign in b"GET / HTTP/1.1\r\nX-Slow: " + b"a" * 200:
                opened.sendall(bytes([sign]))
                time.sleep(0.05)
                if time.monotonic() - began > 6:
                    break
        except ConnectionError:
            pass
    assert time.monotonic() - began < 4


def test_who_does_not_read_on_is_let_go(served: Served, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(connections, "STUCK_S", 0.6)
    (served.server.site / "large.bin").write_bytes(b"\0" * 60_000_000)
    with socket.create_connection(("127.0.0.1", served.port), 20) as opened:
        opened.sendall(served.head("/large.bin", "GET", {"Host": served.host}))
        time.sleep(3)
        assert len(until_end(opened)) < 60_000_000
    assert served.ask("/").status == 200


def test_half_open_connections_keep_nobody_out(standing: Served) -> None:
    waiting = [socket.create_connection(("127.0.0.1", standing.port), 8) for _ in range(200)]
    try:
        for each in waiting:
            each.sendall(b"POST /on-air/mark HTTP/1.1\r\nHost: ")
        began = time.monotonic()
        assert standing.ask("/").status == 200
        assert time.monotonic() - began < 2
        assert threading.active_count() < 100
    finally:
        for each in waiting:
            each.close()


def test_four_hundred_streams_cost_little(served: Served) -> None:
    head = served.head("/_serving/events", "GET", {"Host": served.host, "Sec-Fetch-Site": "same-origin"})
    streams = [socket.create_connection(("127.0.0.1", served.port), 20) for _ in range(400)]
    try:
        for each in streams:
            each.sendall(head)
        for each in streams:
            hear(each, b"\n\n")
        threads = threading.active_count()
        before = time.process_time()
        time.sleep(3)
        assert time.process_time() - before < 0.3, "quiet streams must be quiet"
        assert threads < 100
        began = time.monotonic()
        assert served.ask("/").status == 200
        served.news.failed("the newest fault")
        for each in streams:
            hear(each, b"the newest fault")
        assert time.monotonic() - began < 4
    finally:
        for each in streams:
            each.close()


def hear(stream: socket.socket, text: bytes) -> None:
    """Waits until a stream has said that."""
    heard = b""
    while text not in heard:
        part = stream.recv(65536)
        assert part, "the stream has ended"
        heard += part


def test_only_the_head_of_a_stream_ends_at_once(served: Served) -> None:
    told = served.ask("/_serving/events", "HEAD", {"Sec-Fetch-Site": "same-origin"}, seconds=5)
    assert (told.status, told.body, served.board.listeners) == (200, b"", 0)


def test_more_connections_than_there_may_be_are_told_so(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(connections, "MOST_OPEN", 20)
    (tmp_path / "index.html").write_text("<body>there</body>", "utf-8")
    server = SiteServer(ports.ask_for(0), tmp_path)
    server.start()
    try:
        waiting = [socket.create_connection(server.server_address, 8) for _ in range(30)]
        request = f"GET / HTTP/1.1\r\nHost: 127.0.0.1:{server.server_address[1]}\r\n\r\n".encode()
        with socket.create_connection(server.server_address, 8) as opened:
            opened.sendall(request)
            assert until_end(opened).startswith(b"HTTP/1.1 503 ")
        for each in waiting:
            each.close()
        time.sleep(0.3)
        with socket.create_connection(server.server_address, 8) as opened:
            opened.sendall(request)
            assert opened.recv(100).startswith(b"HTTP/1.1 200 ")
    finally:
        server.stop()


def test_a_stream_that_is_left_is_forgotten(served: Served) -> None:
    headers = {"Host": served.host, "Sec-Fetch-Site": "same-origin"}
    with socket.create_connection(("127.0.0.1", served.port), 8) as opened:
        opened.sendall(served.head("/_serving/events", "GET", headers))
        hear(opened, b"\n\n")
        assert served.board.listeners == 1
    ends = time.monotonic() + 5
    while served.board.listeners and time.monotonic() < ends:
        time.sleep(0.02)
    assert served.board.listeners == 0


# What goes with an answer


def test_what_every_answer_says(standing: Served) -> None:
    for path in ("/", "/nowhere", "/%2Fetc", "/big.js", "/_serving/reload.js", "/deep"):
        told = standing.ask(path).headers
        assert told["x-content-type-options"] == "nosniff"
        assert told["cross-origin-resource-policy"] == "same-origin"
        assert "access-control-allow-origin" not in told
        assert "server" not in told


def test_the_server_compresses_what_a_host_would(served: Served) -> None:
    import gzip

    kinds = ("html", "css", "js", "json", "svg", "wasm", "mjs", "xml", "txt")
    for ending in kinds:
        (served.server.site / f"x.{ending}").write_text("the same again " * 500, "utf-8")
    for ending in ("png", "woff2", "zip", "bin"):
        (served.server.site / f"x.{ending}").write_text("the same again " * 500, "utf-8")
        assert "content-encoding" not in served.ask(f"/x.{ending}", headers={"Accept-Encoding": "gzip"}).headers
    for ending in kinds:
        plain = served.ask(f"/x.{ending}")
        packed = served.ask(f"/x.{ending}", headers={"Accept-Encoding": "gzip, deflate, br"})
        assert "content-encoding" not in plain.headers
        assert packed.headers["content-encoding"] == "gzip"
        assert plain.headers["vary"] == packed.headers["vary"] == "Accept-Encoding"
        assert plain.headers["content-type"] == packed.headers["content-type"]
        assert gzip.decompress(packed.body) == plain.body
        assert len(packed.body) == int(packed.headers["content-length"]) < len(plain.body) / 10
        refused = served.ask(f"/x.{ending}", headers={"Accept-Encoding": "gzip;q=0, br"})
        assert "content-encoding" not in refused.headers
        head = served.ask(f"/x.{ending}", "HEAD", {"Accept-Encoding": "gzip"})
        assert (head.body, head.headers["content-length"]) == (b"", packed.headers["content-length"])
        if ending != "html":
            assert packed.headers["etag"] != plain.headers["etag"]
            known = {"Accept-Encoding": "gzip", "If-None-Match": f'W/"x", {packed.headers["etag"]}'}
            assert served.ask(f"/x.{ending}", headers=known).status == 304


def test_what_is_compressed_follows_the_file(served: Served) -> None:
    import gzip

    path = served.server.site / "big.js"
    for text in ("let b = 2;\n" * 1000, "let c = 3;\n" * 1001):
        path.write_text(text, "utf-8")
        told = served.ask("/big.js", headers={"Accept-Encoding": "gzip"})
        assert gzip.decompress(told.body).decode() == text
