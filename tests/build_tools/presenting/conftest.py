"""The live pages in a browser: a small project, the server that relays between them, and the desk."""

from __future__ import annotations

import shutil

import pytest

from build_tools.presenting.routes import OnAir
from build_tools.presenting.workers import Workers
from build_tools.serving import ports
from build_tools.serving.site_server import SiteServer
from tests.build_tools.presenting.small_home import ANSWER, PROJECT, SHEET

# The desk starts its engine in an idle moment, and until then the server draws for it.
NEVER_IDLE = "if (location.pathname.startsWith('/on-air/')) window.requestIdleCallback = () => 0;"


@pytest.fixture
def idle():
    """Whether a desk finds an idle moment to start its engine; a test that is about that engine says True."""
    return False


@pytest.fixture
def context(context, idle):
    if not idle:
        context.add_init_script(NEVER_IDLE)
    return context


@pytest.fixture(scope="module")
def place(tmp_path_factory):
    return tmp_path_factory.mktemp("home")


@pytest.fixture(scope="module")
def workers(place):
    """The processes that answer, warm from one test to the next as they are while one server runs."""
    made = Workers(place)
    yield made
    made.close()


@pytest.fixture
def home(place):
    """A small project with one answer and one episode, made anew for each test at the same place."""
    for old in place.iterdir():
        shutil.rmtree(old) if old.is_dir() and not old.is_symlink() else old.unlink()
    (place / "docs/answers/memory").mkdir(parents=True)
    (place / "docs/answers/memory/numbers.md").write_text(ANSWER, "utf-8")
    (place / "docs/episodes").mkdir()
    (place / "docs/episodes/001-the-first-one.md").write_text(SHEET, "utf-8")
    (place / "node_modules").symlink_to(PROJECT / "node_modules")
    return place


@pytest.fixture
def on_air(home, site_folder, workers):
    made = OnAir(home, site=site_folder)
    made._workers = workers
    return made


@pytest.fixture
def server(on_air, site_folder):
    opened = SiteServer(ports.ask_for(0), site_folder, on_air.routes())
    opened.start()
    yield opened
    opened.stop()


@pytest.fixture
def desk(server, context):
    page = context.new_page()
    page.goto(server.address + "on-air/desk")
    page.locator("#frame img").wait_for()
    return page
