"""The calculators' own suite, unchanged, on every other CPython from 3.11 to 3.14 that this machine has."""

from __future__ import annotations

import io
import subprocess
from pathlib import Path

import pytest

from build_tools.environment import pythons
from build_tools.environment.progress import Progress

PROJECT = Path(__file__).resolve().parents[1]
FOUND = pythons.others()


@pytest.mark.skipif(not FOUND, reason="this machine has no other CPython from 3.11 to 3.14")
@pytest.mark.parametrize("version", FOUND)
def test_calculators_on_another_python(version: str) -> None:
    python = pythons.environment_of(FOUND[version], PROJECT, Progress(stream=io.StringIO()))
    command = [str(python), "-m", "pytest", "tests/calculators", "--quiet"]
    command += ["--override-ini", f"cache_dir=.cache/pytest-{version}"]
    done = subprocess.run(command, cwd=PROJECT, capture_output=True, text=True, encoding="utf-8")
    if done.returncode != 0:
        pytest.fail(f"Python {FOUND[version].version}:\n{done.stdout}{done.stderr}", pytrace=False)
    assert " passed" in done.stdout.splitlines()[-1]
