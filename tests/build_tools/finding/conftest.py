"""The finder under Node, with the index of the real pages."""

from __future__ import annotations

import json
import subprocess
from collections.abc import Callable, Iterator, Sequence
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
def run_finder(project: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Callable[..., dict[str, Any]]]:
    """Runs searches on an index, all in one Node; gives what was found, and the time a keystroke takes."""
    module = tmp_path_factory.mktemp("finder") / "finder.mjs"
    module.write_bytes(bundled(project, {"finder": "build_tools/browser/finder/rank.ts"}, "node")["finder.mjs"])
    indices: list[dict[str, Any]] = []
    command = [str(places.node(project)), str(HERE / "score.mjs")]
    pipe = subprocess.PIPE
    with subprocess.Popen(command, cwd=project, stdin=pipe, stdout=pipe, text=True, encoding="utf-8") as node:
        assert node.stdin is not None
        assert node.stdout is not None
        reading, writing = node.stdout, node.stdin

        def run(found: dict[str, Any], searches: Sequence[str]) -> dict[str, Any]:
            order: dict[str, Any] = {"finder": module.as_uri(), "searches": list(searches), "most": 6}
            if not any(found is known for known in indices):
                indices.append(found)
                order["index"] = found
            order["number"] = next(number for number, known in enumerate(indices) if known is found)
            writing.write(json.dumps(order) + "\n")
            writing.flush()
            line = reading.readline()
            assert line, "the finder has failed: pytest shows above what Node says"
            told: dict[str, Any] = json.loads(line)
            return told

        yield run
        writing.close()


@pytest.fixture(scope="session")
def find(run_finder: Callable[..., dict[str, Any]], pages_index: dict[str, Any]) -> Find:
    """What the finder finds among the real pages for each search."""

    def go(searches: Sequence[str]) -> list[dict[str, Any]]:
        found: list[dict[str, Any]] = run_finder(pages_index, searches)["found"]
        return found

    return go
