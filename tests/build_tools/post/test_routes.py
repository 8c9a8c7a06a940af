"""The post's page while serving: who may ask, what is kept, and that nothing of it is ever built into the site."""

from __future__ import annotations

import json
import re
import shutil
import urllib.error
import urllib.request
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import BrowserContext, expect

from build_tools.checks import placeholders
from build_tools.episodes.sheet import read_sheet
from build_tools.post.routes import PostRoutes
from build_tools.serving import ports
from build_tools.serving.site_server import SiteServer

PROJECT = Path(__file__).resolve().parents[3]
POST = (
    "handle: wren-4711\ngot 2x8gb ddr4 3200, can I add 2x16gb 3600?\n\n"
    "handle: otter-7\nconsent: yes\nis 16 gb of ram enough"
)


@pytest.fixture
def project(tmp_path: Path) -> Path:
    for folder in ("answers", "episodes"):
        shutil.copytree(PROJECT / "docs" / folder, tmp_path / "docs" / folder)
    return tmp_path


@pytest.fixture
def server(project: Path) -> Iterator[SiteServer]:
    (project / "site").mkdir()
    opened = SiteServer(ports.ask_for(0), project / "site", PostRoutes(project).routes())
    opened.start()
    yield opened
    opened.stop()


def ask(server: SiteServer, name: str, body: object = None, more: Mapping[str, str] | None = None) -> tuple[int, str]:
    headers = {**({"Content-Type": "application/json"} if body is not None else {}), **(more or {})}
    data = None if body is None else json.dumps(body).encode()
    wanted = urllib.request.Request(f"{server.address}post/{name}", data, headers)
    try:
        with urllib.request.urlopen(wanted, timeout=30) as reply:
            return reply.status, reply.read().decode()
    except urllib.error.HTTPError as problem:
        return problem.code, problem.read().decode()


def own(server: SiteServer) -> dict[str, str]:
    return {"Origin": server.address.rstrip("/"), "Sec-Fetch-Site": "same-origin"}


def send(server: SiteServer, name: str, body: dict[str, Any]) -> dict[str, Any]:
    status, page = ask(
        server, "", more={"Sec-Fetch-Site": "none", "Sec-Fetch-Mode": "navigate", "Sec-Fetch-Dest": "document"}
    )
    assert status == 200, page
    token = re.search(r'name="run-token" content="([^"]+)"', page)[1]  # type: ignore[index]
    status, text = ask(server, name, body, {**own(server), "Run-Token": token})
    assert status == 200, text
    return dict(json.loads(text))


def test_read_pick_and_make_the_sheet(server: SiteServer, project: Path) -> None:
    told = send(server, "read", {"text": POST})
    assert [each["page"] for each in told["post"]] == ["memory/add-bigger-sticks", "memory/how-much"]
    assert "wren-4711" not in json.dumps(told)
    assert send(server, "pick", {"numbers": [2, 1, 2]}) == {"picks": [2, 1]}
    assert send(server, "shown", {})["picks"] == [2, 1]
    assert send(server, "episode", {"title": "Post"}) == {"sheet": "docs/episodes/004-post.md", "episode": 4}
    sheet = (project / "docs/episodes/004-post.md").read_text("utf-8")
    assert placeholders.check(project) == []
    named = "Is 16 enough, and is a second stick worth it? Can I add bigger sticks to the ones I have?"
    assert f'summary: "Viewers ask: {named}"' in sheet
    assert read_sheet(project / "docs", project / "docs/episodes/004-post.md")[1] == []
    wanted = {"title": "Another", "summary": "Two questions: about memory."}
    assert send(server, "episode", wanted)["episode"] == 5
    assert 'summary: "Two questions: about memory."' in (project / "docs/episodes/005-another.md").read_text("utf-8")
    assert "wren-4711" not in "".join(path.read_text("utf-8") for path in (project / "docs").rglob("*.md"))
    send(server, "forget", {})
    left = [path for path in project.rglob("*") if path.is_file() and "wren-4711" in path.read_text("utf-8", "replace")]
    assert left == []


@pytest.mark.parametrize("token", [None, "guessed"])
def test_nothing_is_taken_without_the_pages_token(server: SiteServer, token: str | None) -> None:
    headers = {**own(server), **({"Run-Token": token} if token else {})}
    assert ask(server, "read", {"text": POST}, headers)[0] == 403
    assert ask(server, "read", {"text": POST})[0] == 403


def test_boxes_ticked_fast_are_all_picked(server: SiteServer, context: BrowserContext) -> None:
    page = context.new_page()
    page.goto(server.address + "post/")
    page.locator("#comments").fill(POST)
    page.locator("#read").click()
    expect(page.locator(".pick input")).to_have_count(2)
    page.evaluate("document.querySelectorAll('.pick input').forEach(box => box.click())")
    expect(page.locator("#running")).to_contain_text("2 picked")
    expect(page.locator("#chosen li")).to_have_count(2)
    page.reload()
    expect(page.locator("#running")).to_contain_text("2 picked")


def test_what_is_wrong_is_told_in_words(server: SiteServer) -> None:
    assert "No comments" in send(server, "read", {"text": " "})["error"]
    assert "whole numbers" in send(server, "pick", {"numbers": ["1"]})["error"]
    assert "pick 1 to 20" in send(server, "episode", {"title": "x"})["error"]
    assert ask(server, "comments.txt")[0] == 404


def test_comments_lie_where_no_build_reads_and_git_looks_away(project: Path) -> None:
    ignored = (PROJECT / ".gitignore").read_text("utf-8").split("\n")
    assert "/.presenter/post/" in ignored
    kept = PostRoutes(project)._comments
    assert kept.relative_to(project).as_posix() == ".presenter/post/comments.txt"
    assert not kept.is_relative_to(project / "docs")
