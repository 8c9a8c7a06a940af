"""The page's modules that need no browser, tried under Node by its own test runner: modules/*.test.mjs."""

from __future__ import annotations

import re
import subprocess
from pathlib import Path

import pytest

from build_tools.environment import places

MODULES = Path(__file__).with_name("modules")


@pytest.mark.parametrize("file", sorted(MODULES.glob("*.test.mjs")), ids=lambda file: file.name.partition(".")[0])
def test_a_module_without_a_browser(project: Path, file: Path) -> None:
    command = [places.node(project), "--no-warnings", "--import", MODULES / "without_a_browser.mjs", "--test"]
    command += ["--test-reporter", "spec", file]
    done = subprocess.run([str(p) for p in command], cwd=project, capture_output=True, text=True, encoding="utf-8")
    if done.returncode != 0:
        pytest.fail(f"{done.stdout}{done.stderr}", pytrace=False)
    passed = re.search(r"(?m)^ℹ pass (\d+)$", done.stdout)
    assert passed, done.stdout
    assert int(passed[1]) > 3
