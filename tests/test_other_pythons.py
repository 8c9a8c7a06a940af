"""
What is promised of every CPython from 3.11 to 3.14: the calculators' suite passes, and a fresh clone builds the site.

An ordinary run tries the oldest and the newest that this machine has, `python3 -m build_tools test --all` all of them.
The Python of the run itself has built the site of this folder, with which the clones of the others are compared: so of
its own release no other version builds a clone, but with --all.
What is not tried is named in the closing lines (tests/conftest.py).
"""

from __future__ import annotations

import hashlib
import io
import json
import os
import shutil
import subprocess
import sys
from pathlib import Path
from types import SimpleNamespace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from build_tools.engine import pack
from build_tools.environment import places, stamps
from build_tools.environment.progress import Progress
from build_tools.installer import pythons, ready, testing
from build_tools.site import made
from calculators.catalogue import names
from tests import digests
from tests.conftest import up_to_date, with_fewer_examples

PROJECT = Path(__file__).resolve().parents[1]

EVERYTHING = bool(os.environ.get(testing.ALL))
BUILDERS = {each.version: each for each in testing.for_clones(pythons.builders())}
OTHERS = {
    interpreter.version: interpreter
    for interpreter in testing.ends(list(pythons.present().values()))
    if interpreter.short != sys.version_info[:2]
}


others = pytest.mark.skipif(not OTHERS, reason="this machine has no other CPython from 3.11 to 3.14")


def run_of(version: str, *arguments: str) -> str:
    """What another Python prints, with what the calculators' tests need; fails with it where there is a fault."""
    python = ready.calculators_environment(OTHERS[version], PROJECT, Progress(stream=io.StringIO()))
    done = subprocess.run([python, *arguments], cwd=PROJECT, capture_output=True, text=True, encoding="utf-8")
    if done.returncode != 0:
        pytest.fail(f"Python {version}:\n{done.stdout}{done.stderr}", pytrace=False)
    return done.stdout


@others
@pytest.mark.parametrize("version", OTHERS)
def test_calculators_on_another_python(version: str) -> None:
    # Without rewritten assertions, which take long to compile: which test fails is said all the same.
    command = ["-m", "pytest", "tests/calculators", "--quiet", "--assert=plain", *testing.beyond_the_first(PROJECT)]
    printed = run_of(version, *command, "--override-ini", f"cache_dir=.cache/pytest-{version}")
    assert " passed" in printed.splitlines()[-1]


def test_a_property_that_asks_for_many_examples_is_tried_on_few_there() -> None:
    tried = []

    @settings(max_examples=300, database=None)
    @given(st.integers())
    def many(number: int) -> None:
        tried.append(number)

    with_fewer_examples([SimpleNamespace(obj=many)])
    many()
    assert 10 < len(tried) <= settings.get_profile(testing.FEWER).max_examples


@pytest.fixture(scope="module")
def digests_here() -> dict[str, str]:
    """Of every calculator's answers, by the Python of this run."""
    return digests.digests()


@others
@pytest.mark.parametrize("version", OTHERS)
def test_another_python_gives_the_same_bytes(digests_here: dict[str, str], version: str) -> None:
    """Common cases and random inputs, as HTML, text, JSON, link and card."""
    there = json.loads(run_of(version, "tests/digests.py"))
    assert list(there) == list(digests_here)
    assert len(there) > 2 * digests.BY_CHANCE * len(names()), "as HTML, text, JSON and link, and as a card"
    assert [asked for asked in there if there[asked] != digests_here[asked]] == []


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


def start(project: Path, interpreter: pythons.Interpreter, *command: str | Path, **more: str) -> str:
    """Runs the README's first command, such as `build`, as one who has just cloned would; returns what it prints."""
    ours = (places.READY, "VIRTUAL_ENV", "SOURCE_DATE_EPOCH", "PYTHONPATH")
    variables = {name: value for name, value in os.environ.items() if name not in ours}
    done = subprocess.run(
        [interpreter.path, "-m", "build_tools", *command],
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


def by_node(folder: Path) -> set[Path]:
    """
    What Node alone makes, in a minute, of what a digest names: Python's snapshot, the bundles, the cut machine code.

    In these no Python has a hand but by what it hands to Node: the wheel and the scripts. A clone whose Python hands
    Node the same bytes takes what stands there; one whose bytes differ makes it anew, and is found out. That Node
    makes the same of the same elsewhere: tests/build_tools/engine. With --all it is made anew here as well.
    """
    engine = folder / "docs" / "made" / "engine"
    return {*engine.glob("*.bin"), engine / pack.LEAN_NAME}


def leave_an_earlier_commits(folder: Path) -> None:
    """
    Puts into a clone what builds make first, as a commit could have left it in which every room of the code was
    another.
    """
    up_to_date(PROJECT)
    shutil.copytree(PROJECT / "docs" / "made", folder / "docs" / "made")
    shutil.copytree(places.cache(PROJECT) / "made", places.cache(folder) / "made")
    for name, *_ in made.ROOMS:
        stamps.write(places.cache(folder) / "made" / f"{name}.json", {"of": "an earlier commit", "made": []})
        left = [path for path in (folder / "docs" / "made" / name).rglob("*") if path.is_file()]
        if not EVERYTHING:
            left = [path for path in left if path not in by_node(folder)]
        assert left
        for path in left:
            path.write_bytes(b"earlier " + path.read_bytes())
        (folder / "docs" / "made" / name / "left-over.js").write_text("earlier", "utf-8")


@pytest.mark.parametrize("version", BUILDERS)
def test_a_clone_builds_the_same_bytes_with_another_python(site_folder: Path, tmp_path: Path, version: str) -> None:
    """
    The same bytes as this folder's: by another Python, in an environment made anew, in a folder with a name that people
    choose, and, where the clone is a warm one, with nothing of an earlier commit in it. That all code counts:
    tests/build_tools/site.
    """
    folder = tmp_path / "Fragen & Antworten für alle"
    clone(folder)
    leave_an_earlier_commits(folder)
    start(folder, BUILDERS[version], "build")
    assert (folder / ".venv" / "pyvenv.cfg").read_text("utf-8").count(version)
    here, there = contents(site_folder), contents(folder / "site")
    assert {"index.html", "made/engine/memory.bin", "site.zip"} <= set(there)
    assert len(there) > 100
    assert list(there) == list(here)
    assert [name for name in there if there[name] != here[name]] == []

    # A second start needs no network.
    nowhere = "http://127.0.0.1:9/"  # the discard service, of which no machine of ours has one
    offline = {"PIP_INDEX_URL": nowhere, "PIP_FIND_LINKS": "", "UV_OFFLINE": "1", "NPM_CONFIG_REGISTRY": nowhere}
    # Without --all by a command that writes less than a site; of a second build: tests/build_tools/site/test_build.py.
    command = ["build"] if EVERYTHING else ["card", "memory.rate", "-o", tmp_path / "card.svg"]
    printed = start(folder, BUILDERS[version], *command, **offline)
    assert "Installing" not in printed
    assert contents(folder / "site") == there
