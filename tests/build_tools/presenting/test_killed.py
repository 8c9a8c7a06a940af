"""A server that is killed in the middle of a recording: what was on the picture is there again before anything else."""

from __future__ import annotations

import contextlib
import http.client
import json
import re
import shutil
import signal
import time
from pathlib import Path
from typing import Any

import pytest

from tests.build_tools.environment.test_children import lives
from tests.build_tools.serving.test_serve import Serving
from tests.build_tools.site.conftest import Copy

ON_AIR = r"On air   http://127\.0\.0\.1:(\d+)/on-air/desk"


class Presenter:
    """Sends what one of our own pages would."""

    def __init__(self, port: int) -> None:
        self.port = port
        self.address = f"http://127.0.0.1:{port}"
        headers = {"Sec-Fetch-Site": "none", "Sec-Fetch-Mode": "navigate"}
        page = self._ask("GET", "/on-air/desk", headers).decode()
        found = re.search(r'name="run-token" content="([^"]+)"', page)
        assert found
        self.token = found[1]

    def post(self, name: str, body: dict[str, Any]) -> dict[str, Any]:
        headers = {
            "Origin": self.address, "Sec-Fetch-Site": "same-origin", "Run-Token": self.token,
            "Content-Type": "application/json",
        }  # fmt: skip
        found: dict[str, Any] = json.loads(self._ask("POST", f"/on-air/{name}", headers, json.dumps(body)))
        return found

    def _ask(self, method: str, path: str, headers: dict[str, str], body: str = "") -> bytes:
        with contextlib.closing(http.client.HTTPConnection("127.0.0.1", self.port, timeout=60)) as connection:
            connection.request(method, path, body.encode() if method == "POST" else None, headers)
            reply = connection.getresponse()
            assert reply.status == 200
            return reply.read()


def build_of(server: int) -> int:
    """The process that builds for a server; 0 where processes cannot be looked at as Linux shows them."""
    listed = Path(f"/proc/{server}/task/{server}/children")
    if not listed.exists():
        return 0
    for number in listed.read_text().split():
        if b"build_tools\0build\0" in Path(f"/proc/{number}/cmdline").read_bytes():
            return int(number)
    raise AssertionError("nothing is being built")


@pytest.fixture
def copy(tmp_path: Path) -> Copy:
    """A copy of the project with two pages."""
    folder = tmp_path / "copy"
    folder.mkdir()
    return Copy(folder)


def test_a_killed_server_comes_back_with_the_picture_and_the_take(copy: Copy) -> None:
    first = Serving(copy)
    port = int(first.hears(ON_AIR)[1])
    assert not [line for line in first.lines if "Serving" in line], "it was there only once the site was built"
    desk = Presenter(port)
    taken = desk.post("take", {"calculator": "memory.rate", "inputs": {"rate": "3600"}, "frame": 1})
    assert "errors" not in taken
    desk.post("freeze", {"on": True})
    desk.post("begin", {"episode": 1, "at": 1000})
    desk.post("mark", {"episode": 1, "segment": 1, "at": 1010})
    before = desk.post("shown", {})
    build = build_of(first.child.pid)
    first.end(signal.SIGKILL)

    second = Serving(copy, "--port", str(port))
    try:
        second.hears(ON_AIR)
        again = Presenter(port)
        after = again.post("shown", {})
        assert {**after, "scripts": before["scripts"]} == before  # the first one's build has ended meanwhile, or not
        assert before["on"]
        assert (before["at"], before["frozen"]) == (1, True)
        (take,) = again.post("marks", {"episode": 1})["takes"]
        assert (take["ended"], take["marks"]) == (None, {"0": 1000.0, "1": 1010.0})
        assert not [line for line in second.lines if "Serving" in line], "the site was built first"
        ends = time.monotonic() + 60
        while build and lives(build):
            assert time.monotonic() < ends, "the build of a server that was killed goes on"
            time.sleep(0.1)
        # `.cache` may be deleted at any time: the picture is clear then, and the marks are there
        second.end(signal.SIGKILL)
        shutil.rmtree(copy.folder / ".cache", ignore_errors=True)  # a build may still be writing there
        second = Serving(copy, "--port", str(port))
        second.hears(ON_AIR)
        last = Presenter(port)
        assert last.post("shown", {})["on"] is False
        assert last.post("marks", {"episode": 1})["marks"] == {"0": 1000.0, "1": 1010.0}
    finally:
        second.end()
