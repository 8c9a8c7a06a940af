"""Linter, formatter and type checkers find nothing. Their settings: pyproject.toml, and a tsconfig.json a room."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from build_tools.environment import places

PROJECT = Path(__file__).resolve().parents[1]
ROOMS_OF_TYPESCRIPT = sorted(
    path.parent.relative_to(PROJECT).as_posix() for path in (PROJECT / "build_tools").rglob("tsconfig.json")
)


def run(*command: str | Path) -> None:
    """Runs a tool, and fails with what it prints when it finds something."""
    done = subprocess.run(
        [str(part) for part in command], cwd=PROJECT, capture_output=True, text=True, encoding="utf-8"
    )
    if done.returncode != 0:
        pytest.fail(f"{command[2] if command[1] == '-m' else command[1]}:\n{done.stdout}{done.stderr}", pytrace=False)


def test_ruff_finds_nothing() -> None:
    run(sys.executable, "-m", "ruff", "check", "--quiet", "--output-format", "concise", ".")


def test_ruff_would_format_nothing() -> None:
    run(sys.executable, "-m", "ruff", "format", "--check", "--quiet", ".")


def test_mypy_finds_nothing() -> None:
    run(sys.executable, "-m", "mypy", "--no-error-summary")


@pytest.mark.parametrize("room", ROOMS_OF_TYPESCRIPT)
def test_typescript_finds_nothing(room: str) -> None:
    compiler = PROJECT / "node_modules" / "typescript" / "bin" / "tsc"
    run(places.node(PROJECT), compiler, "--noEmit", "--project", room)


def test_there_is_typescript_to_check() -> None:
    assert ROOMS_OF_TYPESCRIPT
