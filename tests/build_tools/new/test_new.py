"""Skeletons: complete, passing as they are, and never over something that is there."""

import datetime
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from build_tools.checks import advice, on_the_record, pages
from build_tools.new import make
from build_tools.new.writing import CannotMake, slug, write_all

PROJECT = Path(__file__).parents[3]
TODAY = datetime.date(2026, 2, 28)


@pytest.fixture
def project(tmp_path):
    """A small project: the calculators' rooms, and no pages yet."""
    for room in ("calculators", "tests/calculators/desk"):
        shutil.copytree(PROJECT / room, tmp_path / room, ignore=shutil.ignore_patterns("__pycache__"))
    (tmp_path / "docs" / "episodes").mkdir(parents=True)
    return tmp_path


def test_a_new_answer_passes_every_check_and_lists_what_is_left(project):
    (path,) = make.new_answer(project, "How long does it take?", "memory", "", TODAY)
    assert path == project / "docs/answers/memory/how-long-does-it-take.md"
    assert pages.check(project / "docs") == []
    found = advice.check(project, TODAY)
    assert found
    assert all("still to be written" in f.message and not f.error for f in found)


def test_an_answer_on_a_subject_without_calculators_passes_too(project):
    make.new_answer(project, "Why is it loud?", "cooling", "", TODAY)
    assert pages.check(project / "docs") == []


@pytest.mark.parametrize(
    ("title", "subject", "calculator", "said"),
    [
        ("Is it?", "Memory", "", "a subject is one word in small letters, such as memory; got 'Memory'"),
        ("Is it?", "memory", "memory.rat", "no calculator memory.rat; did you mean memory.rate?"),
        ("???", "memory", "", "has no letter or digit"),
    ],
)
def test_what_cannot_be_made_is_told_and_nothing_is_written(project, title, subject, calculator, said):
    with pytest.raises(CannotMake, match=said.replace("?", r"\?")):
        make.new_answer(project, title, subject, calculator, TODAY)
    assert not (project / "docs" / "answers").exists()


def test_nothing_is_overwritten(project):
    make.new_answer(project, "Is it?", "memory", "", TODAY)
    with pytest.raises(CannotMake, match="is there already"):
        make.new_answer(project, "Is it?", "memory", "", TODAY)
    one, other = project / "a.txt", project / "b.txt"
    other.write_text("kept", "utf-8")
    with pytest.raises(CannotMake):
        write_all({one: "x", other: "y"})
    assert not one.exists()
    assert other.read_text("utf-8") == "kept"


def test_episodes_are_numbered_on_and_pass(project):
    with pytest.raises(CannotMake, match="make one first"):
        make.new_episode(project, "One", TODAY)
    make.new_answer(project, "Is it?", "memory", "memory.rate", TODAY)
    assert make.new_episode(project, "The first", TODAY)[0].name == "001-the-first.md"
    assert make.new_episode(project, "The next", TODAY)[0].name == "002-the-next.md"
    assert on_the_record.check(project / "docs") == []


def test_a_new_calculator_runs_passes_its_own_tests_and_is_listed(project):
    make.new_calculator(project, "memory.shelf", "How much is on the shelf?", TODAY)
    make.new_calculator(project, "cooling.fans", "", TODAY)
    run = [sys.executable, "-m", "calculators"]
    listed = subprocess.run(run, cwd=project, capture_output=True, text=True, check=True).stdout
    assert "memory.shelf" in listed
    assert "cooling.fans" in listed
    said = subprocess.run([*run, "cooling.fans", "count=3"], cwd=project, capture_output=True, text=True, check=True)
    assert "Together they make 24 GB." in said.stdout
    tested = subprocess.run(
        [sys.executable, "-m", "pytest", "-q", "-p", "no:cacheprovider", "tests/calculators/memory/test_shelf.py",
         "tests/calculators/cooling/test_fans.py", "--import-mode=importlib", "--rootdir", str(project),
         "-c", "/dev/null"],
        cwd=project, capture_output=True, text=True, env={"PYTHONPATH": str(project), "PATH": ""},
    )  # fmt: skip
    assert tested.returncode == 0, tested.stdout + tested.stderr
    assert "8 passed" in tested.stdout
    for name in ("Shelf", "desk.x", "memory", "memory.rate"):
        with pytest.raises(CannotMake):
            make.new_calculator(project, name, "", TODAY)


def test_a_new_site_stands_by_itself(tmp_path):
    target = tmp_path / "elsewhere"
    make.new_site(PROJECT, target, TODAY)
    assert pages.check(target / "docs") == []
    assert on_the_record.check(target / "docs") == []
    assert len(list((target / "docs/answers").rglob("*.md"))) == 1
    assert (target / "build_tools" / "__main__.py").is_file()
    with pytest.raises(CannotMake, match="is not empty"):
        make.new_site(PROJECT, target, TODAY)
    with pytest.raises(CannotMake, match="inside this project"):
        make.new_site(PROJECT, PROJECT / "docs" / "made" / "inner", TODAY)


@pytest.mark.parametrize(
    ("title", "name"),
    [("Is 16 enough?", "is-16-enough"), ("Über alles – größer", "uber-alles-grosser"), ("Don't!", "dont")],
)
def test_file_names_from_titles(title, name):
    assert slug(title) == name
