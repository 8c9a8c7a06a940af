"""Kills at random moments of what is written for a presenter: nothing that was told as written is lost or cut off."""

from __future__ import annotations

import os
import random
import re
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

import pytest

from build_tools import keeping
from build_tools.episodes import clock, forget, marks, sheet
from build_tools.presenting.takes import Takes
from tests.build_tools.episodes.conftest import Pages
from tests.hard.conftest import Tried, times

pytestmark = pytest.mark.skipif(os.name != "posix", reason="a kill as POSIX has it")
CHANCE = random.Random()
HANDLE = "otter-7"
SHEETS = 8
LONGER = "\nA note about what was said, kept with the sheet.\n" * 400
COUNT_UP = """
import itertools, sys
from pathlib import Path
{imports}
where = Path(sys.argv[1])
print("ready", flush=True)
for n in itertools.count(1):
    {step}
    print(n, flush=True)
"""
MARK = COUNT_UP.format(
    imports="from build_tools.presenting.takes import Takes", step="Takes(where).note(1, n, 1000.0 + n)"
)
START_TIMES = COUNT_UP.format(
    imports="from build_tools.episodes import marks",
    step="marks.write_starts(where, {1: 10 * n, 2: 10 * n + 1, 3: 10 * n + 2})",
)
FORGET = """
import sys
from pathlib import Path
from build_tools.episodes import forget
planned = forget.plan(Path(sys.argv[1]), sys.argv[2])
print("ready", flush=True)
forget.carry_out(planned)
"""


def killed(project: Path, script: str, longest_s: float, *arguments: str) -> list[str]:
    """What a command had told when it was killed at some moment after it was ready."""
    with subprocess.Popen(
        [sys.executable, "-c", script, *arguments], cwd=project, stdout=subprocess.PIPE, text=True
    ) as child:
        assert child.stdout is not None
        first = child.stdout.readline()
        time.sleep(CHANCE.uniform(0, longest_s))
        child.kill()
        return [first, *child.stdout.read().splitlines()]


def acknowledged(told: list[str]) -> int:
    """How far it had told that it had come."""
    return max((int(line) for line in told if line.strip().isdigit()), default=0)


def survivals(count: int, one: Callable[[Path], bool], folder: Path) -> int:
    """How often something was survived, each time in a folder of its own."""
    return sum(one(folder / str(number)) for number in range(count))


def test_kills_at_random_moments_of_marking(tmp_path: Path, project: Path, tried: Tried) -> None:
    def one(folder: Path) -> bool:
        folder.mkdir()
        told = acknowledged(killed(project, MARK, 0.4, str(folder)))
        there = set(Takes(folder).read(1))
        whole = there in ({str(n) for n in range(1, told + 1)}, {str(n) for n in range(1, told + 2)})
        return whole and "9999" in Takes(folder).note(1, 9999, 5.0)

    count = times(40, 3)
    survived = survivals(count, one, tmp_path)
    tried("kill -9 at a random moment of marking: every mark told as noted is there", count, survived)
    assert survived == count


def test_kills_at_random_moments_of_writing_start_times(tmp_path: Path, project: Path, tried: Tried) -> None:
    def one(folder: Path) -> bool:
        pages = Pages(folder / "docs")
        pages.sheet.write_text(pages.sheet.read_text("utf-8") + LONGER, "utf-8")
        before = pages.sheet.read_text("utf-8")
        told = acknowledged(killed(project, START_TIMES, 0.8, str(pages.sheet)))
        text = pages.sheet.read_text("utf-8")
        allowed = [with_starts(before, n) for n in (told, told + 1)]
        marks.write_starts(pages.sheet, {1: 4, 2: 70, 3: 140})  # and it goes on
        return text in allowed and not sheet.read_sheet(pages.docs, pages.sheet, text)[1]

    count = times(30, 3)
    survived = survivals(count, one, tmp_path)
    tried("kill -9 at a random moment of writing start times: the sheet is whole", count, survived)
    assert survived == count


def with_starts(text: str, n: int) -> str:
    """The sheet with the start times of one step; without any step it is as it was."""
    if n == 0:
        return text
    numbers = iter([10 * n, 10 * n + 1, 10 * n + 2])
    return re.sub(r'start: "[^"]*"', lambda _: f'start: "{clock.worded(next(numbers))}"', text, count=3)


def test_kills_at_random_moments_of_forgetting(tmp_path: Path, project: Path, tried: Tried) -> None:
    def one(folder: Path) -> bool:
        pages = Pages(folder / "docs")
        named = pages.sheet.read_text("utf-8") + f"{LONGER}Thanks to @{HANDLE}.\n"
        nameless = forget.forgotten(named, HANDLE)
        sheets = [pages.sheet.with_name(f"{number:03}-one.md") for number in range(1, SHEETS + 1)]
        for path in sheets:
            path.write_text(named.replace("title: The first one", f"title: Number {path.stem}"), "utf-8")
        killed(project, FORGET, 0.1, str(pages.docs), HANDLE)
        whole = [path.read_text("utf-8").split("\n", 2)[2] in halves(named, nameless) for path in sheets]
        if HANDLE in forget.handles(pages.docs):  # the same command again ends what was begun
            forget.carry_out(forget.plan(pages.docs, HANDLE))
        left = [path for path in (folder / "docs" / "episodes").rglob("*") if path.is_file() and HANDLE in said(path)]
        return all(whole) and not left and not any(keeping.last_good(path).exists() for path in sheets)

    count = times(30, 3)
    survived = survivals(count, one, tmp_path)
    tried("kill -9 at a random moment of forget: sheets whole, and again ends it", count, survived)
    assert survived == count


def halves(*texts: str) -> list[str]:
    """The texts from their third line on: the title above differs from sheet to sheet."""
    return [text.split("\n", 2)[2] for text in texts]


def said(path: Path) -> str:
    return path.read_text("utf-8", "replace")
