"""The serve command as an author has it: a page open in a browser while files change, break and are mended."""

from __future__ import annotations

import re
import signal
import subprocess
import sys
import threading
import time
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING
from urllib.parse import urlsplit

import pytest

from build_tools.serving import serve as serving
from build_tools.serving import watching
from build_tools.serving.watching import Watch
from tests.build_tools.site.conftest import Copy

if TYPE_CHECKING:
    from playwright.sync_api import BrowserContext


class Serving:
    """A serve command that is running, and what it has printed."""

    def __init__(self, copy: Copy, *arguments: str) -> None:
        self.copy = copy
        self.lines: list[str] = []
        self.child = subprocess.Popen(
            [sys.executable, "-u", "-m", "build_tools", "serve", "--no-browser", *arguments],
            cwd=copy.folder,
            env=copy.environment(),
            stdin=subprocess.DEVNULL,
            stdout=subprocess.PIPE,
            stderr=subprocess.STDOUT,
            text=True,
            encoding="utf-8",
        )
        self._ears = threading.Thread(target=self._listen, daemon=True)
        self._ears.start()

    def _listen(self) -> None:
        assert self.child.stdout is not None
        with self.child.stdout as printed:
            for line in printed:
                self.lines.append(line.rstrip("\n"))

    def hears(self, pattern: str, seconds: float = 600) -> re.Match[str]:
        """Waits until it has printed a line like that, and forgets the lines up to it."""
        ends = time.monotonic() + seconds
        while time.monotonic() < ends:
            for count, line in enumerate(self.lines):
                if match := re.search(pattern, line):
                    del self.lines[: count + 1]
                    return match
            time.sleep(0.05)
        raise AssertionError(f"no line like {pattern!r} in {self.lines}")

    def end(self, number: signal.Signals = signal.SIGINT) -> int:
        """Ends it as Ctrl-C would; returns its exit status."""
        self.child.send_signal(number)
        status = self.child.wait(300)  # it ends a build first, on a machine that may be busy
        self._ears.join(15)
        return status


@pytest.fixture
def copy(tmp_path: Path) -> Copy:
    """A copy of the project with two pages."""
    folder = tmp_path / "copy"
    folder.mkdir()
    return Copy(folder)


@pytest.fixture
def building(copy: Copy) -> Iterator[Serving]:
    """A serve command that has just been started."""
    started = Serving(copy)
    yield started
    if started.child.poll() is None:
        started.end()


@dataclass
class Open:
    """A serve command that has built and shows its site."""

    serving: Serving
    address: str


@pytest.fixture(scope="module")
def running(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Open]:
    """One for all tests that leave it as it was; the last of them ends it."""
    folder = tmp_path_factory.mktemp("running") / "copy"
    folder.mkdir()
    started = Serving(Copy(folder))
    yield Open(started, started.hears(r"Serving  (http://127\.0\.0\.1:\d+/)  ")[1])
    if started.child.poll() is None:
        started.end()


def test_a_page_follows_every_change(running: Open, context: BrowserContext) -> None:
    serving_, address = running.serving, running.address
    context.set_default_timeout(600_000)  # each step waits for a whole build, on a machine that may be busy
    page = context.new_page()
    page.goto(address + "page.html")
    assert page.title().startswith("Page")
    source = serving_.copy.folder / "docs" / "page.md"
    good = source.read_text("utf-8")

    source.write_text(good.replace("# Page", "# Changed"), "utf-8")
    page.get_by_role("heading", name="Changed").wait_for()

    source.write_text("# Changed\n\n[x](nowhere.md)\n", "utf-8")
    panel = page.get_by_role("alert").filter(has_text="docs/page.md:3: ")
    panel.wait_for()
    assert "nowhere.md" in panel.inner_text()
    serving_.hears(r"^docs/page\.md:3: ")
    serving_.hears("The last good site stays.")
    assert page.get_by_role("heading", name="Changed").is_visible()
    page.reload()  # a page that comes later hears of the fault as well
    panel.wait_for()

    source.write_text(good.replace("# Page", "# Mended"), "utf-8")
    page.get_by_role("heading", name="Mended").wait_for()
    assert panel.count() == 0

    calculator = serving_.copy.folder / "calculators" / "memory" / "rate.py"
    sound = calculator.read_text("utf-8")
    calculator.write_text(sound + "\nraise ValueError('a fault in Python')\n", "utf-8")
    fault = page.get_by_role("alert").filter(has_text="a fault in Python")
    fault.wait_for()
    calculator.write_text(sound, "utf-8")
    fault.wait_for(state="detached")


def test_a_changed_page_comes_first_and_others_are_left_alone(running: Open, context: BrowserContext) -> None:
    serving_, address = running.serving, running.address
    context.set_default_timeout(120_000)
    changing, other = context.new_page(), context.new_page()
    changing.goto(address + "page.html")
    other.goto(address)
    other.evaluate("window.stays = true")
    source = serving_.copy.folder / "docs" / "page.md"
    changed = source.read_text("utf-8").replace("A table", "Another table")
    # Only the whole build notices this link, so what is shown can come from the page alone.
    source.write_text(changed + "\n[x](index.md#nowhere)\n", "utf-8")
    changing.get_by_text("Another table").wait_for()
    changing.get_by_role("alert").filter(has_text="#nowhere").wait_for()
    assert "Another table" not in (serving_.copy.folder / "site" / "page.html").read_text("utf-8")
    source.write_text(changed, "utf-8")
    changing.get_by_role("alert").wait_for(state="detached")
    ahead = serving_.copy.folder / ".cache" / "ahead"
    ends = time.monotonic() + 60
    while ahead.exists() and time.monotonic() < ends:
        time.sleep(0.05)
    assert not ahead.exists()
    assert "Another table" in (serving_.copy.folder / "site" / "page.html").read_text("utf-8")
    changing.wait_for_timeout(1500)  # the whole build's news has come by then
    assert changing.get_by_text("Another table").is_visible()
    assert other.evaluate("window.stays")


def test_its_site_is_the_built_one_a_second_takes_the_next_port_and_ctrl_c_ends_it_with_a_word(
    running: Open,
) -> None:
    serving_, first = running.serving, urlsplit(running.address).port
    assert first
    site = serving_.copy.site()
    # The page's script may look for serve's own, so as not to keep pages that are being written; it holds none of it.
    of_serve = (b"/_serving/events", b'="/_serving/')
    assert "index.html" in site
    assert [name for name, content in site.items() if any(each in content for each in of_serve)] == []

    second = Serving(serving_.copy)
    try:
        taken = second.hears(r"^Port \d+ is taken; taking (\d+) instead \(--port chooses one\)\.$")[1]
        assert int(taken) > first
    finally:
        second.end()

    assert serving_.end() == 0
    serving_.hears("^Serving has ended.$")
    assert [line for line in serving_.lines if "Traceback" in line] == []


def test_ctrl_c_during_the_first_build(building: Serving) -> None:
    building.hears(r"^\[1/4\] ")
    assert building.end() == 0
    building.hears("^Serving has ended.$")
    assert [line for line in building.lines if "Traceback" in line] == []


def test_without_any_good_site_it_waits_for_one(copy: Copy) -> None:
    page = copy.folder / "docs" / "page.md"
    good = page.read_text("utf-8")
    page.write_text("# Page\n\n[x](nowhere.md)\n", "utf-8")
    serving_ = Serving(copy)
    try:
        serving_.hears("There is no earlier site to show meanwhile.")
        page.write_text(good, "utf-8")
        serving_.hears(r"docs/page\.md changed; building\.")
        serving_.hears("Checking the pages")
    finally:
        assert serving_.end() == 0


@pytest.mark.parametrize(
    ("name", "counts"),
    [
        ("docs/page.md", True),
        ("docs/deep/new.md", True),
        ("calculators/memory/rate.py", True),
        ("mkdocs.yml", True),
        ("docs/made/engine/x.js", False),
        ("calculators/__pycache__/x.pyc", False),
        ("docs/.page.md.swp", False),
        ("docs/page.md~", False),
        ("docs/deep/.before/page.md.before", False),
        ("pyproject.toml", False),
        ("site/index.html", False),
    ],
)
def test_which_changes_count(tmp_path: Path, name: str, counts: bool) -> None:
    deeper = ("site", "docs/made/engine", "docs/deep/.before", "calculators/memory", "calculators/__pycache__")
    for folder in (*serving.FOLDERS, *deeper):
        (tmp_path / folder).mkdir(parents=True, exist_ok=True)
    (tmp_path / "mkdocs.yml").write_text("", "utf-8")
    watch = Watch(tmp_path, serving.FOLDERS, serving.FILES)
    try:
        (tmp_path / name).write_text("changed", "utf-8")
        (tmp_path / "docs" / "last.md").write_text("so that something always changes", "utf-8")
        assert (name in watch.wait()) is counts
    finally:
        watch.stop()


def test_several_changes_at_once_are_one(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    for folder in serving.FOLDERS:
        (tmp_path / folder).mkdir()
    monkeypatch.setattr(watching, "REST_S", 2.0)  # a busy machine may rest that long between two of the files
    monkeypatch.setattr(watching, "LONGEST_S", 60.0)
    watch = Watch(tmp_path, serving.FOLDERS, serving.FILES)
    try:
        for number in range(20):
            (tmp_path / "docs" / f"{number:02}.md").write_text("x", "utf-8")
            time.sleep(0.01)
        assert len(watch.wait()) == 20
    finally:
        watch.stop()


@pytest.mark.parametrize(
    ("variables", "platform", "expected"),
    [
        ({"DISPLAY": ":0"}, "linux", True),
        ({"WAYLAND_DISPLAY": "wayland-0"}, "linux", True),
        ({}, "linux", False),
        ({}, "darwin", True),
        ({}, "win32", True),
        ({"DISPLAY": ":0", "CI": "true"}, "linux", False),
        ({"SSH_CONNECTION": "x"}, "darwin", False),
    ],
)
def test_a_browser_is_opened_only_on_a_desktop(
    monkeypatch: pytest.MonkeyPatch, variables: dict[str, str], platform: str, expected: bool
) -> None:
    for name in ("DISPLAY", "WAYLAND_DISPLAY", "CI", "SSH_CONNECTION"):
        monkeypatch.delenv(name, raising=False)
    for name, value in variables.items():
        monkeypatch.setenv(name, value)
    monkeypatch.setattr(sys, "platform", platform)
    assert serving.has_desktop() is expected
