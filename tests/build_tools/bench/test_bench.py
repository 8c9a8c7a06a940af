"""
The bench measures what it says, and its ratios stay far from where they would mean nothing.

The figures themselves come from `python3 -m build_tools bench` on a machine at rest. Here a busy machine must do, so
the ratios asked for are a fraction of those measured there.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from statistics import median
from typing import TYPE_CHECKING, Any

import pytest

from build_tools.bench import builds, command, pages
from build_tools.bench.host import Host
from build_tools.site import archive

if TYPE_CHECKING:
    from playwright.sync_api import Browser


@pytest.fixture(scope="module")
def found(project: Path, browser: Browser, tmp_path_factory: pytest.TempPathFactory) -> Iterator[dict[str, Any]]:
    """What one run of the pages' measurements finds."""
    work = tmp_path_factory.mktemp("bench")
    command._site(project, work)
    host = Host({"/plain/": work / "plain", "/site/": work / "site"})
    yield pages.first_results(browser, host, work / archive.FOLDER, 3)
    host.close()


def test_the_first_result_comes_sooner_than_by_the_plain_way(found: dict[str, Any]) -> None:
    times = {name: median(each) for name, each in found["times"].items()}
    assert times["plain cold"] / times["ours cold"] > 1.5, times
    assert times["plain warm"] / times["ours warm"] > 2, times
    assert times["plain cold"] / times["folder cold"] > 1, times


def test_it_takes_fewer_bytes_than_the_plain_way(found: dict[str, Any]) -> None:
    assert found["bytes"]["ours"] < found["bytes"]["plain"]


def test_a_build_costs_little_more_than_one_of_the_same_text(project: Path, tmp_path: Path) -> None:
    times = builds.measure(project, tmp_path, (20,), 3)["20"]
    assert times["ours"] / times["plain"] < 4, times


def test_every_answer_of_the_built_bench_has_numbers_of_its_own(project: Path, tmp_path: Path) -> None:
    builds.write(project, tmp_path / "docs", 1000, with_calculators=True)
    blocks = {path.read_text("utf-8").partition("/// ")[2] for path in (tmp_path / "docs").rglob("question-*.md")}
    assert len(blocks) == 1000
