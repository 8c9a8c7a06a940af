"""The reader's index, read without a library as with one; its lines; and whether what decides most is still so."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest
import yaml

from build_tools.questions.index import DECISIVE, of_docs
from build_tools.questions.measure import order
from calculators.catalogue import find, names

PROJECT = Path(__file__).resolve().parents[3]
DOCS = PROJECT / "docs"


def test_front_matter_reads_as_a_yaml_library_reads_it() -> None:
    pages = of_docs(DOCS)["pages"]
    assert len(pages) > 40
    for page in pages:
        text = (DOCS / "answers" / f"{page['page']}.md").read_text("utf-8")
        meta = yaml.safe_load(text.split("\n---\n")[0].removeprefix("---\n"))
        assert page["title"] == meta["title"]
        assert page["question"] == meta["question"]
        assert page["words"] == [str(word) for word in meta.get("words", [])]
        assert page["asked"] == [str(said) for said in meta.get("asked", [])]
        assert page["calculators"]
        assert page["short"]
        assert all(name in names() for name in page["calculators"])


@pytest.mark.parametrize("name", names())
def test_what_decides_most_is_measured_anew(name: str) -> None:
    kept = json.loads((PROJECT / "build_tools/questions" / DECISIVE).read_text("utf-8"))
    assert kept.get(name) == order(find(name)), "run  python3 -m build_tools ask --measure"


def run(lines: str) -> subprocess.CompletedProcess[str]:
    """The command on a Python that has nothing installed."""
    bare = getattr(sys, "_base_executable", sys.executable) or sys.executable
    return subprocess.run(
        [bare, "-S", "-m", "build_tools", "ask", "--lines"], cwd=PROJECT, input=lines, capture_output=True,
        text=True, encoding="utf-8", env=os.environ | {"PYTHONDONTWRITEBYTECODE": "1"}, timeout=120, check=False,
    )  # fmt: skip


def test_lines_need_nothing_installed_and_write_answers_alone() -> None:
    before = set(PROJECT.iterdir())
    texts = ["is 3600c18 faster than 3200c16", "smoke comes out of my pc", "which chair do you use", "x" * 1_000_000]
    done = run("".join(json.dumps({"text": text}) + "\n" for text in texts) + 'not json\n[]\n{"text": 5}\n\n  \n')
    assert done.returncode == 0
    assert done.stderr == ""
    rate, smoke, chair, long, *wrong = [json.loads(line) for line in done.stdout.splitlines()]
    assert rate["answers"][0]["page"] == "memory/kit-numbers"
    assert rate["answers"][0]["inputs"]["rate"] in (3600, 3200)
    assert smoke["danger"][0]["kind"] == "smoke"
    assert not any(a["calculator"] for a in smoke["answers"])
    assert chair == {"answers": []}
    assert long["answers"] == []
    assert "longer than a question" in long["refused"]
    assert len(wrong) == 5  # an empty line has its answer too
    assert all("errors" in one and one["answers"] == [] for one in wrong)
    assert set(PROJECT.iterdir()) == before
