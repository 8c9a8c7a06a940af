"""Kills, crowds, a full disk, no memory: the site is whole, what is told is a sentence, and the next try works."""

from __future__ import annotations

import json
import os
import random
import re
import subprocess
import sys
import threading
import time
from collections.abc import Callable
from pathlib import Path

import pytest

from calculators.catalogue import find, names
from calculators.desk.calculator import Preset
from tests.build_tools.site.conftest import PAGES, Copy
from tests.hard.conftest import Tried, times

posix = pytest.mark.skipif(os.name != "posix", reason="signals and limits as POSIX has them")
CHANCE = random.Random()  # new moments at each run: what must hold at all of them


def command(copy: Copy, *arguments: str, before: Callable[[], None] | None = None) -> subprocess.Popen[str]:
    """One command, with a process group of its own, so that all that it started can be killed at once."""
    return subprocess.Popen(
        [sys.executable, "-u", "-m", "build_tools", *arguments], cwd=copy.folder, env=copy.environment(),
        stdin=subprocess.DEVNULL, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, encoding="utf-8",
        start_new_session=os.name == "posix", preexec_fn=before,
    )  # fmt: skip


def limited(name: str, most: int) -> Callable[[], None]:
    """Sets a limit of the system in a process that is about to start."""

    def limit() -> None:
        import resource

        resource.setrlimit(getattr(resource, name), (most, most))

    return limit


def write_page(copy: Copy, words: str) -> None:
    (copy.folder / "docs" / "page.md").write_text(PAGES["page.md"].replace("# Page", f"# {words}"), "utf-8")


def is_whole(site: dict[str, bytes]) -> bool:
    """Whether the pages, the list of files and the archive all belong to one finished site."""
    listed = json.loads(site["offline.json"])
    sizes_fit = all(len(site[name]) == size for name, (size, _) in listed.items())
    return sizes_fit and {"index.html", "page.html", "404.html", "site.zip"} <= set(site)


@posix
def test_kills_at_random_moments_of_a_build(copy: Copy, tried: Tried) -> None:
    count, survived = times(30, 2), 0
    began = time.monotonic()
    assert copy.build().returncode == 0
    lasts = time.monotonic() - began
    for number in range(count):
        before = copy.site()["page.html"]
        write_page(copy, f"Change {number} of {CHANCE.random()}")
        child = command(copy, "build")
        time.sleep(CHANCE.random() * lasts)
        os.killpg(child.pid, 9)
        child.communicate()
        subprocess.run(
            [sys.executable, "-m", "build_tools", "ask", "--lines"], cwd=copy.folder, env=copy.environment(),
            input="", text=True, check=True,
        )  # fmt: skip
        site = copy.site()
        survived += is_whole(site) and (site["page.html"] == before or b"Change" in site["page.html"])
    assert copy.build().returncode == 0
    tried("kill -9 at a random moment of a build: the old site or the new one", count, survived)
    assert survived == count


@posix
def test_kills_at_random_moments_of_serving(copy: Copy, tried: Tried) -> None:
    count, survived = times(10, 1), 0
    for _ in range(count):
        child = command(copy, "serve", "--no-browser")
        time.sleep(CHANCE.random() * 4)
        os.killpg(child.pid, 9)
        child.communicate()
        survived += copy.build().returncode == 0 and is_whole(copy.site())
    tried("kill -9 at a random moment of serve: the next build works", count, survived)
    assert survived == count


def test_two_builds_in_one_folder(copy: Copy, tried: Tried) -> None:
    count, survived = times(5, 1), 0
    for number in range(count):
        write_page(copy, f"Twice {number}")
        both = [command(copy, "build"), command(copy, "build")]
        told = [child.communicate(timeout=300) for child in both]
        fine = [child.returncode for child in both] == [0, 0] and "Traceback" not in str(told)
        survived += fine and is_whole(copy.site()) and f"Twice {number}".encode() in copy.site()["page.html"]
    tried("two builds at once in one folder: both end well, one whole site", count, survived)
    assert survived == count


@posix
def test_two_serves_in_one_folder(copy: Copy, tried: Tried) -> None:
    count, survived = times(3, 1), 0
    for _ in range(count):
        both = [command(copy, "serve", "--no-browser"), command(copy, "serve", "--no-browser")]
        heard: list[list[str]] = [[], []]
        ears = [
            threading.Thread(target=lambda child=child, lines=lines: lines.extend(child.stdout), daemon=True)
            for child, lines in zip(both, heard, strict=True)
        ]
        for ear in ears:
            ear.start()
        ends = time.monotonic() + 240
        while time.monotonic() < ends and not all("Serving  " in "".join(lines) for lines in heard):
            time.sleep(0.2)
        for child in both:
            child.terminate()
        complaints = []
        for child, ear in zip(both, ears, strict=True):
            assert child.stderr is not None
            with child.stderr:
                complaints.append(child.stderr.read())
            child.wait(60)
            ear.join(15)
            assert child.stdout is not None
            child.stdout.close()
        ports = {
            found[1] for lines in heard if (found := re.search(r"Serving  http://127\.0\.0\.1:(\d+)/", "".join(lines)))
        }
        survived += len(ports) == 2 and "Traceback" not in "".join(complaints) and is_whole(copy.site())
    tried("two serves at once in one folder: each at a port of its own", count, survived)
    assert survived == count


@posix
def test_a_full_disk(copy: Copy, tried: Tried) -> None:
    """Where files may not grow beyond a size, writing fails in the middle of a file, as on a full disk."""
    sizes = [2_000, 20_000, 200_000, 2_000_000][: times(4, 2)]
    before, survived = copy.site(), 0
    for size in sizes:
        write_page(copy, f"Too large {size}")
        child = command(copy, "build", before=limited("RLIMIT_FSIZE", size))
        _, complaints = child.communicate(timeout=300)
        told = child.returncode == 1 and complaints.strip() and "Traceback" not in complaints
        survived += bool(told) and copy.site() == before
    write_page(copy, "Room again")
    assert copy.build().returncode == 0
    tried("a disk that fills up in a build: a sentence, and the old site", len(sizes), survived)
    assert survived == len(sizes)


@posix
def test_memory_that_cannot_be_had(copy: Copy, tried: Tried) -> None:
    sizes = [400, 900, 150, 250][: times(4, 1)]
    before, survived = copy.site(), 0
    for megabytes in sizes:
        write_page(copy, f"Too much {megabytes}")
        child = command(copy, "build", before=limited("RLIMIT_AS", megabytes * 1_000_000))
        _, complaints = child.communicate(timeout=300)
        told = complaints.strip() and "Traceback" not in complaints and copy.site() == before
        survived += bool(told) or (child.returncode == 0 and is_whole(copy.site()))
        before = copy.site()
    assert copy.build().returncode == 0
    tried("a build without the memory it needs: a sentence, and the old site", len(sizes), survived)
    assert survived == len(sizes)


def test_a_folder_that_may_not_be_written(copy: Copy, tried: Tried) -> None:
    if os.name != "posix" or os.geteuid() == 0:
        pytest.skip("this account may write anywhere")
    before = copy.site()
    folders = [copy.folder / ".cache", copy.folder / "docs" / "made" / "finding", copy.folder]
    survived = 0
    for folder in folders:
        write_page(copy, f"Closed {folder.name}")
        mode = folder.stat().st_mode
        folder.chmod(0o555)
        try:
            done = copy.build()
        finally:
            folder.chmod(mode)
        survived += done.returncode == 1 and "Traceback" not in done.stderr and copy.site() == before
    tried("a folder that may only be read: a sentence, and the old site", len(folders), survived)
    assert survived == len(folders)


def test_every_calculator_on_one_page(copy: Copy, tried: Tried) -> None:
    # as JSON, which is YAML too: some take long texts
    cases = {name: json.dumps(dict((find(name).presets or [Preset("", "", {})])[0].inputs)) for name in names()}
    blocks = "\n\n".join(f"/// calculator | {name}\n    inputs: {cases[name]}\n///" for name in names())
    (copy.folder / "docs" / "page.md").write_text(f"# All\n\n{blocks}\n", "utf-8")
    done = copy.build()
    page = copy.site()["page.html"].decode()
    shown = [name for name in names() if f'data-calculator="{name}"' in page]
    ids = re.findall(r'\sid="([^"]+)"', page)
    tried("every calculator on one page: all there, no id twice", len(names()), len(shown))
    assert done.returncode == 0, done.stderr
    assert shown == list(names())
    assert len(ids) == len(set(ids))


def test_lines_that_nobody_would_write(tried: Tried, project: Path) -> None:
    """Each line has its own line in answer, in order, whatever stands in it."""
    count = times(20_000, 300)
    chance = random.Random(count)
    pieces = ['{"calculator":"memory.rate"', ',"inputs":{', '"rate":', "3600", "nan", "1e999", "[", "}", '"', "\\ud800",
              "null", "{}", "\x00", "é", " ", "\t", '"inputs":5', "true", "9" * 400]  # fmt: skip
    lines = ["".join(chance.choices(pieces, k=chance.randint(0, 9))) for _ in range(count)]
    lines[::10] = ['{"calculator":"memory.rate"}'] * len(lines[::10])
    done = subprocess.run(
        [sys.executable, "-m", "calculators", "--lines"], cwd=project, input="\n".join(lines) + "\n",
        capture_output=True, text=True, encoding="utf-8", errors="replace",
    )  # fmt: skip
    told = [json.loads(line) for line in done.stdout.splitlines()]
    right = [("headline" in answer) if i % 10 == 0 else bool(answer) for i, answer in enumerate(told)]
    tried("lines of requests that nobody would write: each has its answer", count, sum(right))
    assert done.returncode == 0
    assert done.stderr == ""
    assert len(told) == count
    assert all(right)
