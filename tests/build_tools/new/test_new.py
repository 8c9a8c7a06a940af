"""Skeletons: complete, passing as they are, and never over something that is there."""

import argparse
import datetime
import html
import re
import shutil
import subprocess
import sys
from pathlib import Path

import markdown
import pytest

from build_tools import presenter_commands
from build_tools.checks import advice, on_the_record, pages, placeholders
from build_tools.episodes import sheet
from build_tools.markdown_blocks.pages import front_matter
from build_tools.new import make, site, skeletons
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
    assert all("still to be written" in f.message and f.error for f in found), "nobody publishes a skeleton"


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
    assert "Together they make 24." in said.stdout
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


@pytest.mark.parametrize(
    ("title", "name"),
    [("Is 16 enough?", "is-16-enough"), ("Über alles – größer", "uber-alles-grosser"), ("Don't!", "dont")],
)
def test_file_names_from_titles(title, name):
    assert slug(title) == name


def test_names_of_files_are_short_by_whole_words():
    name = slug("Why does an extraordinarily long question about everything and nothing end somewhere in the middle?")
    assert name == "why-does-an-extraordinarily-long-question-about"
    assert len(slug("x" * 300)) == 50
    with pytest.raises(CannotMake, match="signs that nobody can see"):
        slug("one\nother")


ODD_TITLES = [
    "Is it: yes?", "'Quoted'", '"Half', "- a list?", "# 5?", "yes", "2026-11-24", "@otter asks", "a #b {= x =} [c](d)",
    "*bold* _and_ `code`", "<b>less</b> & more", "Ist größer besser? é", "{x: 1}", "null", "1:10",
    "\\back", "%x", "a | b",
]  # fmt: skip


@pytest.mark.parametrize("title", ODD_TITLES)
def test_any_title_comes_back_as_it_was_typed(project, title):
    (path,) = make.new_answer(project, title, "memory", "memory.rate", TODAY)
    meta = front_matter(path.read_text("utf-8"))
    assert (meta["title"], meta["question"]) == (title, title)
    assert pages.check(project / "docs") == []
    (sheet_path,) = make.new_episode(project, title, TODAY)
    episode, mistakes = sheet.read_sheet(project / "docs", sheet_path)
    assert mistakes == []
    assert (episode.title, episode.segments[0].question) == (title, title)
    shown = markdown.markdown(f"# {skeletons.heading(title)}")
    assert html.unescape(re.sub(r"</?h1>", "", shown)) == title


def test_skeletons_speak_of_nothing_in_particular():
    texts = [getattr(skeletons, name) for name in ("ANSWER", "EPISODE", "CALCULATOR", "CALCULATOR_TEST", "SUBJECT")]
    assert not re.search(r"\b[KMGT]i?B\b|\bHz\b|memory|audio|display", "".join(texts))


def test_a_calculator_with_something_left_to_write_is_not_published(project):
    assert placeholders.check(project) == []
    make.new_calculator(project, "cooling.fans", "How many fans?", TODAY)
    where = {told.split(":")[0] for told in placeholders.check(project)}
    assert where == {
        "calculators/cooling/__init__.py", "calculators/cooling/fans.py", "docs/answers/cooling/how-many-fans.md",
    }  # fmt: skip
    declaration = project / "calculators/cooling/fans.py"
    left = [line for line in declaration.read_text("utf-8").split("\n") if "Write here" in line]
    assert any('where="' in line for line in left), "a declaration"
    assert any("Source(" in line for line in left), "a source"


def test_what_comes_next_is_told(project, capsys):
    options = argparse.Namespace(
        kind="answer", title="Is it?", subject="memory", calculator="memory.rate", command="new"
    )
    assert presenter_commands.run(project, options) == 0
    assert "python3 -m build_tools serve" in capsys.readouterr().out


def test_a_new_site_says_what_its_first_start_installs_and_how_long_it_takes(tmp_path, capsys, monkeypatch):
    monkeypatch.setattr(site, "new_site", lambda *given: [tmp_path / "README.md"])
    options = argparse.Namespace(
        kind="site", path=str(tmp_path / "our answers"), name="", address="", invented=False, answers=[], command="new"
    )
    assert presenter_commands.run(PROJECT, options) == 0
    told = capsys.readouterr().out
    assert f"cd '{tmp_path}/our answers'" in told
    assert "Python packages and Node into .venv" in told
    assert "At most 600 MB" in told
    assert "a minute or two" in told
