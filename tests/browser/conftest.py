"""A small site for the browser tests: pages with known calculators, whatever the real answers are about today."""

from __future__ import annotations

import functools
import http.server
import shutil
import subprocess
import sys
import threading
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from build_tools.environment import places
from tests.conftest import shared

if TYPE_CHECKING:
    from playwright.sync_api import Page

ENDS_WITHIN_S = 0.02
BUILD = """
import sys
from pathlib import Path
from mkdocs.commands.build import build
from mkdocs.config import load_config
from build_tools.environment import places, locks
from build_tools.environment.progress import Progress
from build_tools.site import finish, made
import shutil

project, docs, into = map(Path, sys.argv[1:])
with locks.lock(places.cache(project) / "build.lock", Progress()):
    made.make(project, print)
shutil.copytree(project / "docs" / "made", docs / "made")
build(load_config(str(project / "mkdocs.yml"), docs_dir=str(docs), site_dir=str(into), nav=None, strict=False))
finish.finish(into, project, docs)
"""


class Host:
    """A file server whose files can go missing or be others, and whose answers can carry further headers."""

    def __init__(self, folder: Path) -> None:
        host = self
        self.folder = folder
        self.missing: set[str] = set()
        self.put: dict[str, bytes] = {}  # by path, what stands before the folder's own file
        self.late: dict[str, float] = {}  # seconds that a file takes
        self.asked: list[str] = []
        self.headers: dict[str, str] = {}

        class Handler(http.server.SimpleHTTPRequestHandler):
            def do_GET(self) -> None:
                host.asked.append(self.path)
                path = self.path.partition("?")[0].removeprefix("/")
                name = path.rpartition("/")[2]
                time.sleep(host.late.get(name, 0))
                if name in host.missing:
                    self.send_error(404)
                elif (data := host.put.get(path)) is not None:
                    self.send_response(200)
                    self.send_header("Content-Type", self.guess_type(path))
                    self.send_header("Content-Length", str(len(data)))
                    self.end_headers()
                    self.wfile.write(data)
                else:
                    super().do_GET()

            def end_headers(self) -> None:
                for name, value in host.headers.items():
                    self.send_header(name, value)
                super().end_headers()

            def log_message(self, format: str, *values: object) -> None:
                """Tests print nothing."""

        Handler.extensions_map = {**Handler.extensions_map, ".mjs": "text/javascript", ".wasm": "application/wasm"}

        class Server(http.server.ThreadingHTTPServer):
            def handle_error(self, request: object, client_address: object) -> None:
                """A browser that has heard enough hangs up; that is no fault."""

        self._server = Server(("127.0.0.1", 0), functools.partial(Handler, directory=str(folder)))
        self._server.daemon_threads = True
        self.address = f"http://127.0.0.1:{self._server.server_port}/"
        # It ends within this time, and half a second would pass at the end of each test.
        serving = functools.partial(self._server.serve_forever, poll_interval=ENDS_WITHIN_S)
        self._thread = threading.Thread(target=serving, daemon=True)
        self._thread.start()

    def read(self, path: str) -> bytes:
        """What it has under a path."""
        return self.put[path] if path in self.put else (self.folder / path).read_bytes()

    def close(self) -> None:
        self._server.shutdown()
        self._server.server_close()
        self._thread.join()


@pytest.fixture(scope="session")
def bench_folder(project: Path) -> Path:
    """The tests' own pages and the real home page, built once for this run with real settings, script and engine."""
    return shared(places.cache(project) / "tested" / "bench", lambda root: build_bench(project, root)) / "site"


def build_bench(project: Path, root: Path) -> None:
    """Builds the tests' own pages into a folder's `site`."""
    shutil.rmtree(root, ignore_errors=True)
    shutil.copytree(project / "tests" / "browser" / "pages", root / "docs" / "answers" / "bench")
    shutil.copy(project / "docs" / "index.md", root / "docs")
    shutil.copytree(project / "docs" / "images", root / "docs" / "images")  # the site's mark
    command = [sys.executable, "-c", BUILD, str(project), str(root / "docs"), str(root / "site")]
    done = subprocess.run(command, cwd=project, capture_output=True, text=True, encoding="utf-8")
    assert done.returncode == 0, f"the tests' pages do not build:\n{done.stdout}{done.stderr}"


@pytest.fixture
def host(bench_folder: Path) -> Iterator[Host]:
    """Serves the tests' pages; a test may take files away or add headers."""
    opened = Host(bench_folder)
    yield opened
    opened.close()


@pytest.fixture
def visit(host: Host, context: object) -> Iterator[Callable[..., Page]]:
    """Opens one of the tests' pages. At the end none may have asked another host for anything, or thrown an error."""
    from playwright.sync_api import BrowserContext

    assert isinstance(context, BrowserContext)
    strangers: list[str] = []
    faults: list[str] = []
    context.on(
        "request",
        lambda request: (
            None if request.url.startswith((host.address, "data:", "blob:")) else strangers.append(request.url)
        ),
    )
    context.on("weberror", lambda fault: faults.append(str(fault.error)))

    def go(path: str = "answers/bench/one.html") -> Page:
        page = context.new_page()
        page.goto(host.address + path)
        return page

    yield go
    assert not strangers, f"asked other hosts: {strangers}"
    assert not faults, f"a script failed: {faults}"
