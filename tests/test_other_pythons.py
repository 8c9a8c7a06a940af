"""
What is promised of every CPython from 3.11 to 3.14: the calculators' suite passes, and a fresh clone builds the site.

An ordinary run tries the oldest and the newest that this machine has, `python3 -m build_tools test --all` all of them.
What is not tried is named in the closing lines (tests/conftest.py).
"""

from __future__ import annotations

import hashlib
import io
import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from build_tools.environment import places, stamps
from build_tools.environment.progress import Progress
from build_tools.installer import pythons, ready, testing
from build_tools.site import made

PROJECT = Path(__file__).resolve().parents[1]
BUILDERS = {interpreter.version: interpreter for interpreter in testing.ends(pythons.builders())}
OTHERS = {
    interpreter.version: interpreter
    for interpreter in testing.ends(list(pythons.present().values()))
    if interpreter.short != sys.version_info[:2]
}


@pytest.mark.skipif(not OTHERS, reason="this machine has no other CPython from 3.11 to 3.14")
@pytest.mark.parametrize("version", OTHERS)
def test_calculators_on_another_python(version: str) -> None:
    python = ready.calculators_environment(OTHERS[version], PROJECT, Progress(stream=io.StringIO()))
    command = [str(python), "-m", "pytest", "tests/calculators", "--quiet", *testing.beyond_the_first()]
    command += ["--override-ini", f"cache_dir=.cache/pytest-{version}"]
    done = subprocess.run(command, cwd=PROJECT, capture_output=True, text=True, encoding="utf-8")
    if done.returncode != 0:
        pytest.fail(f"Python {version}:\n{done.stdout}{done.stderr}", pytrace=False)
    assert " passed" in done.stdout.splitlines()[-1]


def clone(into: Path) -> None:
    """A fresh clone of the project as it is in this folder: what is not committed yet counts as well."""
    subprocess.run(["git", "clone", "--quiet", PROJECT, into], check=True)
    listed = ["git", "ls-files", "-z", "--modified", "--deleted", "--others", "--exclude-standard"]
    changed = subprocess.run(listed, cwd=PROJECT, capture_output=True, text=True, encoding="utf-8", check=True).stdout
    for name in filter(None, changed.split("\0")):
        (into / name).unlink(missing_ok=True)
        if (PROJECT / name).is_file():
            (into / name).parent.mkdir(parents=True, exist_ok=True)
            shutil.copy(PROJECT / name, into / name)


def build(project: Path, interpreter: pythons.Interpreter, **more: str) -> str:
    """Runs the README's first command as `build`, as one who has just cloned would; returns what it prints."""
    ours = (places.READY, "VIRTUAL_ENV", "SOURCE_DATE_EPOCH", "PYTHONPATH")
    variables = {name: value for name, value in os.environ.items() if name not in ours}
    done = subprocess.run(
        [interpreter.path, "-m", "build_tools", "build"],
        cwd=project,
        env=variables | more,
        stdin=subprocess.DEVNULL,
        capture_output=True,
        text=True,
        encoding="utf-8",
    )
    if done.returncode != 0:
        pytest.fail(f"Python {interpreter.version}:\n{done.stdout}{done.stderr}", pytrace=False)
    return done.stdout


def contents(site: Path) -> dict[str, str]:
    """The hash of every file of a site."""
    files = sorted(path for path in site.rglob("*") if path.is_file())
    return {path.relative_to(site).as_posix(): hashlib.sha256(path.read_bytes()).hexdigest() for path in files}


@pytest.fixture(scope="module")
def first(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, dict[str, str]]:
    """A clone that the oldest Python has built, in a folder with a name that people choose, and what its site holds."""
    folder = tmp_path_factory.mktemp("oldest") / "Fragen & Antworten für alle"
    clone(folder)
    build(folder, next(iter(BUILDERS.values())))
    return folder, contents(folder / "site")


def test_a_fresh_clone_builds_with_the_oldest_python(first: tuple[Path, dict[str, str]]) -> None:
    assert {"index.html", "made/engine/memory.bin", "site.zip"} <= set(first[1])
    assert len(first[1]) > 100


def leave_an_earlier_commits(folder: Path) -> None:
    """Changes what builds make first to what a commit could have left in which every room of the code was another."""
    for name, *_ in made.ROOMS:
        stamps.write(places.cache(folder) / "made" / f"{name}.json", {"of": "an earlier commit", "made": []})
        for path in [*(folder / "docs" / "made" / name).rglob("*")]:
            if path.is_file():
                path.write_bytes(b"earlier " + path.read_bytes())
        (folder / "docs" / "made" / name / "left-over.js").write_text("earlier", "utf-8")


def test_a_second_start_needs_no_network_and_takes_nothing_from_an_earlier_commit(
    first: tuple[Path, dict[str, str]],
) -> None:
    """The same bytes from a warm checkout as from a cold one; that all code counts: tests/build_tools/site."""
    leave_an_earlier_commits(first[0])
    nowhere = "http://127.0.0.1:9/"  # the discard service, of which no machine of ours has one
    offline = {"PIP_INDEX_URL": nowhere, "PIP_FIND_LINKS": "", "UV_OFFLINE": "1", "NPM_CONFIG_REGISTRY": nowhere}
    printed = build(first[0], next(iter(BUILDERS.values())), **offline)
    assert "Installing" not in printed
    assert contents(first[0] / "site") == first[1]


@pytest.mark.skipif(len(BUILDERS) < 2, reason="this machine has one CPython from 3.11 to 3.14")
@pytest.mark.parametrize("version", list(BUILDERS)[1:])
def test_a_fresh_clone_builds_the_same_bytes_with_another_python(
    first: tuple[Path, dict[str, str]], tmp_path: Path, version: str
) -> None:
    clone(tmp_path / "clone")
    build(tmp_path / "clone", BUILDERS[version])
    assert (tmp_path / "clone" / ".venv" / "pyvenv.cfg").read_text("utf-8").count(version)
    built = contents(tmp_path / "clone" / "site")
    assert list(built) == list(first[1])
    assert [name for name in built if built[name] != first[1][name]] == []
