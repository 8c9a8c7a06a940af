"""The prompter on another device: who gets in, how often one may try, and that nothing else is to be had there."""

from __future__ import annotations

import contextlib
import http.client
import json
import socket
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from build_tools.presenting.elsewhere import TRIES, Elsewhere

SEGMENT = {
    "number": 1,
    "question": "Which?",
    "viewer": "otter-7",
    "start": "",
    "short_answer": "This one.",
    "headline": "Ten.",
    "verdict": "yes",
    "reason": "It fits.",
    "steps": ["Look."],
    "caution": "Unplug first.",
    "referred": "",
    "more": [{"verdict": "no", "reason": "", "headline": "Nine.", "inputs": {"rate": "3600"}, "calculator": "x"}],
    "seconds": 9,
    "calculator": "memory.rate",
    "inputs": {"rate": "3600"},
    "address": "",
    "wrong": "",
}


def run(episode: int) -> dict[str, Any]:
    listed = [{"number": 1, "title": "One", "recorded": "", "mistakes": ["secret"]}]
    return {"episodes": listed, "number": 1, "title": "One", "segments": [SEGMENT], "mistakes": ["secret"]}


@pytest.fixture
def elsewhere(tmp_path: Path) -> Iterator[Elsewhere]:
    """A running prompter for other devices. Beside its site lies a page that is none of its own."""
    (tmp_path / "index.html").write_text("the site", "utf-8")
    opened = socket.create_server(("127.0.0.1", 0))
    made = Elsewhere(opened, tmp_path, run, lambda name: b"script")
    made.start()
    yield made
    made.stop()


def ask(
    elsewhere: Elsewhere, path: str, method: str = "GET", body: str = "", **headers: str
) -> tuple[int, str, dict[str, str]]:
    """One request as a browser on another device would send it; its status, text and headers."""
    given = {"Host": f"127.0.0.1:{elsewhere.port}", **{key.replace("_", "-"): value for key, value in headers.items()}}
    if method == "POST":
        given.setdefault("Origin", f"http://127.0.0.1:{elsewhere.port}")
        given.setdefault("Content-Type", "application/x-www-form-urlencoded")
    with contextlib.closing(http.client.HTTPConnection("127.0.0.1", elsewhere.port, timeout=20)) as connection:
        connection.request(method, path, body.encode() if method == "POST" else None, given)
        reply = connection.getresponse()
        return reply.status, reply.read().decode(), {name.lower(): value for name, value in reply.getheaders()}


def enter(elsewhere: Elsewhere) -> str:
    """The cookie of a device that has typed the code."""
    status, _, headers = ask(elsewhere, "/code", "POST", f"code={elsewhere.code}")
    assert (status, headers["location"]) == (303, "/prompter")
    cookie = headers["set-cookie"]
    assert "HttpOnly" in cookie
    assert "SameSite=Strict" in cookie
    return cookie.partition(";")[0]


def test_the_code_lets_one_read_the_text_and_nothing_else(elsewhere: Elsewhere) -> None:
    cookie = enter(elsewhere)
    status, page, _ = ask(elsewhere, "/prompter/1", Cookie=cookie)
    assert (status, "data-elsewhere" in page, 'name="run-token" content=""' in page) == (200, True, True)
    told = json.loads(ask(elsewhere, "/run/1", Cookie=cookie)[1])
    assert told["segments"][0]["headline"] == "Ten."
    assert told["segments"][0]["more"] == [{"verdict": "no", "reason": "", "headline": "Nine."}]
    text = json.dumps(told)
    assert not [word for word in ("otter-7", "3600", "secret") if word in text]
    for path in ("/index.html", "/on-air/desk", "/on-air/run", "/on-air/desk.js", "/_serving/events", "/run/x", "/%2e"):
        assert ask(elsewhere, path, Cookie=cookie)[0] == 404
    for path in ("/on-air/take", "/on-air/clear", "/on-air/mark", "/run/1", "/prompter"):
        assert ask(elsewhere, path, "POST", "{}", Cookie=cookie)[0] == 404


def test_without_the_code_there_is_only_the_question_for_it(elsewhere: Elsewhere) -> None:
    assert "six digits" in ask(elsewhere, "/")[1]
    for path in ("/prompter", "/run/1", "/on-air/on-air.css", "/made/browser/page.css", "/on-air/prompter.js"):
        assert ask(elsewhere, path)[0] == 403
        assert ask(elsewhere, path, Cookie="prompter=guessed")[0] == 403
    assert elsewhere.tries == TRIES, "only a wrong code costs a try"


def test_after_five_wrong_codes_the_right_one_does_not_help(elsewhere: Elsewhere) -> None:
    wrong = f"{(int(elsewhere.code) + 1) % 10**6:06}"
    for left in range(TRIES - 1, -1, -1):
        status, said, _ = ask(elsewhere, "/code", "POST", f"code={wrong}")
        assert (status, f"Tries left: {left}" in said, "six digits" in said) == (403, True, True), (
            "one types again at once"
        )
    status, said, headers = ask(elsewhere, "/code", "POST", f"code={elsewhere.code}")
    assert (status, "no tries left" in said, "set-cookie" in headers) == (403, True, False)


def test_a_device_that_is_in_stays_in_when_another_guesses(elsewhere: Elsewhere) -> None:
    cookie = enter(elsewhere)
    for _ in range(TRIES):
        ask(elsewhere, "/code", "POST", "code=x")
    assert ask(elsewhere, "/prompter", Cookie=cookie)[0] == 200


def test_another_run_knows_neither_the_cookie_nor_the_code(elsewhere: Elsewhere, tmp_path: Path) -> None:
    cookie = enter(elsewhere)
    other = Elsewhere(socket.create_server(("127.0.0.1", 0)), tmp_path, run, lambda name: b"")
    other.start()
    try:
        assert ask(other, "/prompter", Cookie=cookie)[0] == 403
    finally:
        other.stop()


@pytest.mark.parametrize(
    "headers",
    [
        {"Host": "rebound.example:{port}"},
        {"Host": "localhost:{port}"},
        {"Host": "127.0.0.1"},
        {"Host": "127.0.0.1:1"},
        {"Origin": "http://elsewhere.example"},
        {"Origin": "null"},
    ],
)
def test_a_page_elsewhere_can_neither_ask_nor_use_up_tries(elsewhere: Elsewhere, headers: dict[str, str]) -> None:
    given = {key: value.format(port=elsewhere.port) for key, value in headers.items()}
    assert ask(elsewhere, "/code", "POST", "code=000000", **given)[0] == 403
    assert elsewhere.tries == TRIES


def test_a_code_that_is_no_code_is_not_read(elsewhere: Elsewhere) -> None:
    assert ask(elsewhere, "/code", "POST", "code=" + "1" * 5000)[0] == 413
    assert ask(elsewhere, "/code", "PUT")[0] == 405
    assert elsewhere.tries == TRIES
    # spaces, as one may read them off the desk
    spaced = f"code={elsewhere.code[:3]}+{elsewhere.code[3:]}"
    assert ask(elsewhere, "/code", "POST", spaced)[0] == 303
