"""Which browser and which other Pythons are found, and what is said when there is none."""

from __future__ import annotations

import os
import sys
from pathlib import Path

import pytest

from build_tools.environment import browsers, pythons, testing

posix = pytest.mark.skipif(os.name != "posix", reason="the stand-ins are shell scripts")


def script(file: Path, text: str) -> Path:
    """A program that is a shell script."""
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_text(f"#!/bin/sh\n{text}\n", "utf-8")
    file.chmod(0o755)
    return file


@pytest.fixture
def bare(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Path:
    """A machine with nothing on its path but one folder, which is returned."""
    folder = tmp_path / "path"
    folder.mkdir()
    monkeypatch.setenv("PATH", str(folder))
    monkeypatch.setenv("PYENV_ROOT", str(tmp_path / "pyenv"))
    monkeypatch.delenv(browsers.NAMED, raising=False)
    monkeypatch.setattr(browsers, "PLACES", ())
    monkeypatch.setattr(browsers, "_playwrights_own", lambda: None)
    return folder


@posix
def test_a_browser_on_the_path(bare: Path) -> None:
    assert browsers.find() is None
    found = script(bare / "chromium-browser", "echo Chromium 150")
    assert browsers.find() == found
    better = script(bare / "chromium", "echo Chromium 156")
    assert browsers.find() == better


@posix
@pytest.mark.parametrize("text", ["exit 1", "echo something else", "kill -9 $$"])
def test_one_that_does_not_start_does_not_count(bare: Path, text: str) -> None:
    script(bare / "chromium", text)
    assert browsers.find() is None


@posix
def test_one_that_is_named_is_the_only_one(bare: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    script(bare / "chromium", "echo Chromium 156")
    named = script(bare / "elsewhere" / "mine", "echo Chromium 156")
    monkeypatch.setenv(browsers.NAMED, str(named))
    assert browsers.find() == named
    named.unlink()
    assert browsers.find() is None


@posix
def test_playwrights_own_comes_last(bare: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    own = script(bare / "cache" / "own", "echo Chromium 156")
    monkeypatch.setattr(browsers, "_playwrights_own", lambda: str(own))
    assert browsers.find() == own


def test_without_one_it_is_said_what_to_install(bare: Path) -> None:
    assert browsers.missing() == (
        "The browser tests need Chromium, and none was found or could be installed: install it from your system's "
        "packages, or name one in WORKED_ANSWERS_CHROMIUM, and run the tests again."
    )
    script(bare / "apt-get", "")
    assert ": run  sudo apt install chromium, or name one" in browsers.missing()


def test_the_sandbox_is_given_up_for_root_alone(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(os, "geteuid", lambda: 1000, raising=False)
    assert "--no-sandbox" not in browsers.flags()
    if os.name == "posix":
        monkeypatch.setattr(os, "geteuid", lambda: 0)
        assert "--no-sandbox" in browsers.flags()


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
    assert list(present) == ["3.11", "3.12", "3.13"]   # what does not start, or is another implementation, is none
    assert present["3.11"] == pythons.Interpreter(oldest, "3.11.1")
    assert present["3.12"] == mine
    assert present["3.13"] == pythons.Interpreter(newest, "3.13.12")
    assert [each.version for each in pythons.found()] == ["3.11.1", "3.12.4", "3.12.9", "3.13.1", "3.13.2", "3.13.12"]
    assert [each.version for each in testing.ends(pythons.found(), everything=False)] == ["3.11.1", "3.13.12"]
    assert testing.ends(pythons.found(), everything=True) == pythons.found()
    assert pythons.absent() == ["3.14"]


@posix
def test_shims_are_passed_over(bare: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    shims = bare / "shims"
    for minor in range(pythons.OLDEST, pythons.NEWEST + 1):
        script(shims / f"python3.{minor}", answers("cpython", f"3.{minor}.1"))
    monkeypatch.setenv("PATH", str(shims))
    assert list(pythons.present()) == [f"3.{sys.version_info[1]}"]
