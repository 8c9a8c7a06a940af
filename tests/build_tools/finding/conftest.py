"""The finder under Node, with the index of the real pages."""

from __future__ import annotations

import json
import subprocess
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

import pytest

from build_tools.bundling.bundle import bundled
from build_tools.environment import places
from build_tools.finding import index

HERE = Path(__file__).parent
Find = Callable[[Sequence[str]], list[dict[str, Any]]]


@pytest.fixture(scope="session")
def pages_index(project: Path) -> dict[str, Any]:
    """The index of the real pages."""
    return index.of_docs(project / "docs")


@pytest.fixture(scope="session")
def run_finder(project: Path, tmp_path_factory: pytest.TempPathFactory) -> Callable[..., dict[str, Any]]:
    """Runs searches on an index; gives what was found, and the time a keystroke takes."""
    module = tmp_path_factory.mktemp("finder") / "finder.mjs"
    module.write_bytes(bundled(project, {"finder": "build_tools/browser/finder/rank.ts"}, "node")["finder.mjs"])

    def run(found: dict[str, Any], searches: Sequence[str]) -> dict[str, Any]:
        order = {"finder": module.as_uri(), "index": found, "searches": list(searches), "most": 6}
        done = subprocess.run(
            [str(places.node(project)), str(HERE / "score.mjs")],
            cwd=project, input=json.dumps(order), capture_output=True, text=True, encoding="utf-8",
        )  # fmt: skip
        assert done.returncode == 0, done.stderr
        told: dict[str, Any] = json.loads(done.stdout)
        return told

    return run


@pytest.fixture(scope="session")
def find(run_finder: Callable[..., dict[str, Any]], pages_index: dict[str, Any]) -> Find:
    """What the finder finds among the real pages for each search."""

    def go(searches: Sequence[str]) -> list[dict[str, Any]]:
        found: list[dict[str, Any]] = run_finder(pages_index, searches)["found"]
        return found

    return go
