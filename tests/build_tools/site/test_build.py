"""A build is all or nothing, gives the same bytes for the same commit, and says where a fault is."""

from __future__ import annotations

import os
import shutil
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from build_tools.environment import locks, places, swapping
from build_tools.site import build as building
from build_tools.site import finish, made
from tests.build_tools.site.conftest import EPOCH, PAGES, PROJECT, Copy
from tests.sources import sources


def test_a_build_has_every_page_and_all_that_they_need(copy: Copy) -> None:
    site = copy.site()
    assert {"index.html", "page.html", "404.html", "made/browser/page.js", "made/engine/pyodide.asm.wasm"} <= set(site)
    assert b'data-calculator="memory.rate"' in site["page.html"]
    assert b'class="wa-headline"' in site["page.html"]  # the answer itself, before any script runs


@pytest.mark.parametrize("room", made.ROOMS, ids=[name for name, *_ in made.ROOMS])
def test_what_a_build_makes_first_is_made_of_all_code(room: tuple[str, object, tuple[str, ...]]) -> None:
    """So a change in any room makes it anew: what is left of an earlier commit is never taken for this one's."""
    counted = {part.decode("utf-8") for part in list(made._contents(places.PROJECT, room[2]))[::2]}
    code = {
        name
        for name, _ in sources("build_tools", "calculators", endings=(".py", ".ts", ".mjs", ".js", ".css", ".json"))
    }
    assert len(code) > 200
    assert code <= counted


# A page, and how the line begins in which its fault is told.
FAULTS = (
    ("# Page\n\n/// calculator | memory.rat\n///\n", "docs/page.md:3: "),
    ("# Page\n\n\n[x](nowhere.md)\n", "docs/page.md:4: "),
    ("# Page\n\n[x](index.md#nowhere)\n", "docs/page.md:3: "),
    ("# Page\n\ntext\n\n![x](https://example.org/a.png)\n", "docs/page.md:5: the page would fetch this"),
    ("# Page\n\n/// nosuchblock | x\n///\n", "docs/page.md:3: "),
)


def test_a_fault_keeps_the_old_site_and_is_told_with_file_and_line(copy: Copy) -> None:
    before = copy.site()
    for page, told in FAULTS:
        (copy.folder / "docs" / "page.md").write_text(page, "utf-8")
        done = copy.build()
        assert done.returncode == 1, page
        assert done.stderr.startswith(told), done.stderr
        assert "Traceback" not in done.stderr
        assert copy.site() == before, page
    (copy.folder / "docs" / "page.md").write_text(PAGES["page.md"], "utf-8")
    assert copy.build().returncode == 0


def test_one_that_is_stopped_keeps_the_old_site(copy: Copy) -> None:
    before = copy.site()
    with (copy.folder / "docs" / "index.md").open("a", encoding="utf-8") as file:
        file.write("\n")
    child = subprocess.Popen(
        [sys.executable, "-m", "build_tools", "build"], cwd=copy.folder, env=copy.environment(),
        stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True,
    )  # fmt: skip
    assert child.stdout is not None
    assert child.stdout.readline().startswith("[1/4] ")
    child.send_signal(signal.SIGINT)
    _, complaints = child.communicate(timeout=60)
    assert child.returncode == 130
    assert complaints == "Stopped. The same command goes on from here.\n"
    assert copy.site() == before
    assert copy.build().returncode == 0


def test_a_swap_cut_short_between_its_steps_is_undone(copy: Copy) -> None:
    before = copy.site()
    (copy.folder / "site").rename(copy.folder / ".cache" / "site-old")
    (copy.folder / "docs" / "page.md").write_text("# Page\n\n[x](nowhere.md)\n", "utf-8")
    assert copy.build().returncode == 1
    assert copy.site() == before


def test_any_command_mends_a_swap_cut_short(tmp_path: Path) -> None:
    old = tmp_path / ".cache" / "site-old"
    old.mkdir(parents=True)
    (old / "index.html").write_text("good", "utf-8")
    for name in ("build_tools", "calculators"):
        shutil.copytree(PROJECT / name, tmp_path / name, ignore=shutil.ignore_patterns("__pycache__"))
    (tmp_path / "docs").mkdir()
    command = [sys.executable, "-m", "build_tools", "ask", "--lines"]
    with locks.lock_if_free(swapping.lock_file(tmp_path)) as ours:  # a build at work ends its swap itself
        assert ours
        subprocess.run(command, cwd=tmp_path, input="", text=True, check=True, timeout=60)
        assert not (tmp_path / "site").exists()
    subprocess.run(command, cwd=tmp_path, input="", text=True, check=True, timeout=60)
    assert (tmp_path / "site" / "index.html").read_text("utf-8") == "good"
    assert not old.exists()


def test_a_swap_that_cannot_be_finished_puts_the_old_folder_back(tmp_path: Path) -> None:
    target = tmp_path / "site"
    target.mkdir()
    (target / "index.html").write_text("old", "utf-8")
    with pytest.raises(FileNotFoundError):
        swapping.swap(tmp_path / "nothing-built", target)
    assert (target / "index.html").read_text("utf-8") == "old"


def test_what_has_not_changed_is_not_made_again(copy: Copy) -> None:
    engine = copy.folder / "docs" / "made" / "engine" / "pyodide.asm.wasm"
    stamp = copy.folder / ".cache" / "made" / "engine.json"
    times = engine.stat().st_mtime_ns, stamp.stat().st_mtime_ns
    assert copy.build().returncode == 0
    assert (engine.stat().st_mtime_ns, stamp.stat().st_mtime_ns) == times
    index = copy.folder / "docs" / "made" / "finding" / "index.js"
    index.unlink()
    assert copy.build().returncode == 0
    assert index.is_file()


def test_a_plain_mkdocs_build_makes_the_same_pages_before_they_are_finished(copy: Copy) -> None:
    ours = copy.site()
    command = [sys.executable, "-m", "mkdocs", "build", "--strict", "--quiet", "--site-dir", "site"]
    environment = os.environ | {"SOURCE_DATE_EPOCH": EPOCH, "NO_MKDOCS_2_WARNING": "true"}
    done = subprocess.run(command, cwd=copy.folder, env=environment, capture_output=True, text=True)
    assert done.returncode == 0, done.stderr
    finish.finish(copy.folder / "site", copy.folder)
    assert copy.site() == ours


def test_zensical_builds_the_same_pages_from_the_same_settings(copy: Copy) -> None:
    with_mkdocs = set(copy.site())
    done = copy.build("--generator", "zensical")
    assert done.returncode == 0, done.stderr
    site = copy.site()
    pages = {name for name in with_mkdocs if name.endswith(".html") or name.startswith("made/")}
    assert pages <= set(site)
    assert b'data-calculator="memory.rate"' in site["page.html"]
    assert b'class="wa-headline"' in site["page.html"]


def test_without_a_history_the_date_is_a_fixed_one(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv("SOURCE_DATE_EPOCH", raising=False)
    monkeypatch.setenv("GIT_CEILING_DIRECTORIES", str(tmp_path.parent))
    assert building.commit_date(tmp_path) == building.NO_HISTORY


def test_with_a_history_the_date_is_the_last_commits(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv("SOURCE_DATE_EPOCH", raising=False)
    identity = ["-c", "user.name=a", "-c", "user.email=a@example.org"]
    date = {"GIT_COMMITTER_DATE": "1234567890 +0000"}
    for command in (["init", "-q"], [*identity, "commit", "-q", "--allow-empty", "-m", "x"]):
        subprocess.run(["git", *command], cwd=tmp_path, env=os.environ | date, check=True)
    assert building.commit_date(tmp_path) == "1234567890"
