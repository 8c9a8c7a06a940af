"""Which Pythons are found."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

from build_tools.installer import pythons, testing
from tests.build_tools.stand_ins import posix, script


@pytest.fixture
def bare(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Path:
    """A machine with nothing on its path but one folder, which is returned."""
    folder = tmp_path / "path"
    folder.mkdir()
    monkeypatch.setenv("PATH", str(folder))
    monkeypatch.setenv("PYENV_ROOT", str(tmp_path / "pyenv"))
    return folder


def answers(name: str, version: str) -> str:
    """The text of a script that says it is that Python."""
    numbers = version.replace(".", ", ")
    return f"echo '[\"{name}\", [{numbers}]]'"


@posix
def test_pythons_one_for_each_minor_version(bare: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    mine = pythons.Interpreter(Path("/mine"), "3.12.4")
    monkeypatch.setattr(pythons, "this_interpreter", lambda: mine)
    script(bare / "python3.12", answers("cpython", "3.12.9"))
    script(bare / "python3.13", answers("cpython", "3.13.1"))
    script(bare / "python3.14", answers("pypy", "3.14.0"))
    script(bare / "python3", answers("cpython", "3.10.9"))
    newest = script(tmp_path / "pyenv" / "versions" / "3.13.12" / "bin" / "python3.13", answers("cpython", "3.13.12"))
    script(tmp_path / "pyenv" / "versions" / "3.13.2" / "bin" / "python3.13", answers("cpython", "3.13.2"))
    oldest = script(tmp_path / "pyenv" / "versions" / "3.11.1" / "bin" / "python3.11", answers("cpython", "3.11.1"))
    script(tmp_path / "pyenv" / "versions" / "3.11.9" / "bin" / "python3.11", "exit 1")
    present = pythons.present()
    assert list(present) == ["3.11", "3.12", "3.13"]  # what does not start, or is another implementation, is none
    assert present["3.11"] == pythons.Interpreter(oldest, "3.11.1")
    assert present["3.12"] == mine
    assert present["3.13"] == pythons.Interpreter(newest, "3.13.12")
    assert [each.version for each in pythons.installed()] == [
        "3.11.1",
        "3.12.4",
        "3.12.9",
        "3.13.1",
        "3.13.2",
        "3.13.12",
    ]
    assert [each.version for each in testing.ends(pythons.installed(), everything=False)] == ["3.11.1", "3.13.12"]
    assert testing.ends(pythons.installed(), everything=True) == pythons.installed()
    assert pythons.absent() == ["3.14"]


@pytest.mark.parametrize(
    ("mine", "found", "tried", "with_all"),
    [
        # 3.11.7 builds the site itself: the oldest release's.
        ("3.11.7", "3.11.2 3.11.7 3.12.1 3.13.0", "3.13.0", "3.11.2 3.12.1 3.13.0"),
        ("3.12.1", "3.11.2 3.11.7 3.12.1 3.13.0", "3.11.2 3.13.0", "3.11.2 3.11.7 3.13.0"),
        ("3.11.7", "3.11.2 3.11.7", "3.11.2", "3.11.2"),  # no other release
        ("3.11.7", "3.11.7", "3.11.7", "3.11.7"),
        ("3.11.7", "", "", ""),
    ],
)
def test_a_clone_is_built_by_the_oldest_and_the_newest_but_the_runs_own_release(
    monkeypatch: pytest.MonkeyPatch, mine: str, found: str, tried: str, with_all: str
) -> None:
    listed = [pythons.Interpreter(Path("/python"), version) for version in found.split()]
    monkeypatch.setattr(pythons, "this_interpreter", lambda: pythons.Interpreter(Path("/python"), mine))
    assert [each.version for each in testing.for_clones(listed, everything=False)] == tried.split()
    assert [each.version for each in testing.for_clones(listed, everything=True)] == with_all.split()


@posix
def test_shims_are_passed_over(bare: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    shims = bare / "shims"
    for minor in range(pythons.OLDEST, pythons.NEWEST + 1):
        script(shims / f"python3.{minor}", answers("cpython", f"3.{minor}.1"))
    monkeypatch.setenv("PATH", str(shims))
    assert list(pythons.present()) == [f"3.{sys.version_info[1]}"]
