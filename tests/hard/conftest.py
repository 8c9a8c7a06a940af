"""
Hard days: what each test tried, and what survived it, as a table below the run.

`python3 -m build_tools test --hard` tries each thing often; the ordinary run tries it once or twice.
"""

from __future__ import annotations

import os
from collections.abc import Callable
from pathlib import Path

import pytest

from build_tools.installer.testing import HARD
from tests.browser.conftest import bench_folder
from tests.build_tools.site.conftest import Copy, built

# The site of the browser tests, with pages of known calculators, and the small one of the tests of builds.
__all__ = ["bench_folder", "built"]

Tried = Callable[[str, int, int], None]


def times(often: int, seldom: int = 1) -> int:
    """How often a thing is tried: `often` on a hard day, `seldom` in an ordinary run."""
    return often if os.environ.get(HARD) else seldom


@pytest.fixture
def tried(record_property: Callable[[str, object], None]) -> Tried:
    """Notes for the table what was tried, how often, and how often it was survived."""
    return lambda what, count, survived: record_property("hard", (what, count, survived))


@pytest.fixture(scope="module")
def copy(built: Path, tmp_path_factory: pytest.TempPathFactory) -> Copy:
    """A copy of the project with two pages, built."""
    return Copy.of(built, tmp_path_factory.mktemp("hard"))


@pytest.fixture(autouse=True)
def good_page(request: pytest.FixtureRequest) -> None:
    """Whatever a test before has written, the page is as it was."""
    if "copy" in request.fixturenames:
        from tests.build_tools.site.conftest import PAGES

        made: Copy = request.getfixturevalue("copy")
        (made.folder / "docs" / "page.md").write_text(PAGES["page.md"], "utf-8")


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """The table."""
    rows: list[tuple[str, str, str]] = []
    for outcome in ("passed", "failed", "skipped"):
        for report in terminalreporter.stats.get(outcome, []):
            if "tests/hard/" not in Path(getattr(report, "fspath", "")).as_posix() or report.when == "teardown":
                continue
            noted = [value for name, value in report.user_properties if name == "hard"]
            rows += [(what, str(count), str(survived)) for what, count, survived in noted]
            if not noted and outcome != "passed":
                rows.append((report.nodeid.rpartition("::")[2], "not tried" if outcome == "skipped" else "?", "–"))
    if rows:
        terminalreporter.write_sep("=", "Hard days")
        terminalreporter.write_line(f"{'':72}{'tried':>10}{'survived':>10}")
        for what, count, survived in rows:
            terminalreporter.write_line(f"{what:72}{count:>10}{survived:>10}")
