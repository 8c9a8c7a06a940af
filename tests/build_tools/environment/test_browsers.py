"""Which browser is found, and what is said when there is none."""

from __future__ import annotations

import io
import os
from pathlib import Path

import pytest

from build_tools.environment import browsers
from build_tools.environment.progress import Progress
from tests.build_tools.stand_ins import posix, script


@pytest.fixture
def bare(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Path:
    """A machine with nothing on its path but one folder, which is returned."""
    folder = tmp_path / "path"
    folder.mkdir()
    monkeypatch.setenv("PATH", str(folder))
    monkeypatch.setenv("PYENV_ROOT", str(tmp_path / "pyenv"))
    monkeypatch.delenv(browsers.NAMED, raising=False)
    monkeypatch.setattr(browsers, "PLACES", ())
    monkeypatch.setattr(browsers, "WINDOWLESS_PLACES", ())
    monkeypatch.setattr(browsers, "_playwrights_own", lambda: None)
    return folder


@posix
def test_a_browser_on_the_path(bare: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    assert browsers.find() is None
    found = script(bare / "chromium-browser", "echo Chromium 150")
    assert browsers.find() == found
    better = script(bare / "chromium", "echo Chromium 156")
    assert browsers.find() == better
    quickest = script(bare / "chromium-headless-shell", "echo Chromium 156")
    assert browsers.find() == quickest
    itself = script(bare / "deep" / "chromium-headless-shell", "echo Chromium 156")
    monkeypatch.setattr(browsers, "WINDOWLESS_PLACES", (str(itself),))
    assert browsers.find() == itself


@posix
def test_what_is_measured_is_a_readers_whole_browser_where_there_is_one(
    bare: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert browsers.readers() is None
    windowless = script(bare / "chromium-headless-shell", "echo Chromium 156")
    assert browsers.readers() == windowless
    monkeypatch.setenv(browsers.NAMED, str(windowless))  # as a test run does
    assert browsers.readers() == windowless
    whole = script(bare / "chromium", "echo Chromium 156")
    assert browsers.readers() == whole
    named = script(bare / "elsewhere" / "mine", "echo Chromium 156")
    monkeypatch.setenv(browsers.NAMED, str(named))
    assert browsers.readers() == named


@posix
def test_on_debian_the_one_without_a_window_is_installed_and_the_whole_one_where_that_fails(
    bare: Path, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    asked: list[str] = []

    def install(project: Path, step: object, packages: list[str]) -> None:
        asked.extend(packages)
        if packages == ["chromium"]:
            script(bare / "chromium", "echo Chromium 156")

    monkeypatch.setattr(browsers, "may_use_apt", lambda: True)
    monkeypatch.setattr(browsers, "_install_from_debian", install)
    progress = Progress(stream=io.StringIO())
    assert browsers.find_or_install(tmp_path, progress) == bare / "chromium"
    assert asked == ["chromium-headless-shell", "chromium"]
    assert browsers.find_or_install(tmp_path, progress) == bare / "chromium"
    assert len(asked) == 2, "what is there is not installed again"


@posix
def test_for_what_is_measured_the_whole_one_is_installed_beside_the_one_without_a_window(
    bare: Path, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    windowless = script(bare / "chromium-headless-shell", "echo Chromium 156")
    asked: list[str] = []

    def install(project: Path, step: object, packages: list[str]) -> None:
        asked.extend(packages)
        script(bare / "chromium", "echo Chromium 156")

    monkeypatch.setattr(browsers, "may_use_apt", lambda: False)
    monkeypatch.setattr(browsers, "_install_from_debian", install)
    progress = Progress(stream=io.StringIO())
    assert browsers.readers_or_install(tmp_path, progress) == windowless
    monkeypatch.setattr(browsers, "may_use_apt", lambda: True)
    for _ in range(2):
        assert browsers.readers_or_install(tmp_path, progress) == bare / "chromium"
    assert asked == ["chromium"]
    monkeypatch.setenv(browsers.NAMED, str(windowless))
    assert browsers.readers_or_install(tmp_path, progress) == bare / "chromium", "as a test run names it"


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
