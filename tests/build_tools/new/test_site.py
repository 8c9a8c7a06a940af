"""A knowledge base of one's own: it builds, serves, checks and passes its tests, and takes over what is new here."""

from __future__ import annotations

import json
import os
import shutil
import socket
import subprocess
import sys
import urllib.request
from pathlib import Path

import pytest

from build_tools.checks import on_the_record, pages, placeholders
from build_tools.environment import places
from build_tools.episodes import programme
from build_tools.new import site
from build_tools.new.writing import CannotMake

PROJECT = places.PROJECT
OWN = site.Own("Bench: & Co", "https://answers.example")


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A new site in a folder with a blank and an umlaut, with this project's environment and generated files."""
    target = tmp_path_factory.mktemp("new site") / "Büro Süd" / "our answers"
    site.new_site(PROJECT, target, OWN, ["memory"])
    (target / ".venv").symlink_to(sys.prefix)
    (target / "node_modules").symlink_to(PROJECT / "node_modules")
    for name in ("docs/made", ".cache/made"):  # the same code makes the same engine: no need to make it twice
        if (PROJECT / name).is_dir():
            shutil.copytree(PROJECT / name, target / name)
    return target


def run(folder: Path, *arguments: str, seconds: float = 400) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, *arguments], cwd=folder, env=os.environ | {places.READY: str(folder)},
        capture_output=True, text=True, encoding="utf-8", timeout=seconds,
    )  # fmt: skip


def test_it_checks_builds_and_says_what_is_open(made: Path) -> None:
    done = run(made, "-m", "build_tools", "check")
    assert done.returncode == 0, done.stdout
    open_ones = [line for line in done.stdout.split("\n") if line.startswith("mkdocs.yml:")]
    assert [line.split("'")[1] for line in open_ones] == ["corrections:", "questions:"]
    done = run(made, "-m", "build_tools", "build")
    assert done.returncode == 0, done.stdout + done.stderr
    front = (made / "site" / "index.html").read_text("utf-8")
    assert "Bench: &amp; Co" in front
    shown = "".join(p.read_text("utf-8") for p in (made / "site").rglob("*.html") if "answers" not in p.parts)
    shown = shown.replace("Made with Worked Answers", "")  # what the tools are called stands at the foot, as everywhere
    for ours in ("Questions at the Bench", "Worked Answers", "viewers and their questions are invented"):
        assert ours not in shown, "nothing of this programme"
    assert not (made / "CHANGELOG.md").exists()
    readme = (made / "README.md").read_text("utf-8").split("\n")
    assert (readme[0], readme[2][:13]) == ("# Bench: & Co", "Open the desk")


def test_its_tests_are_collected_and_those_of_its_pages_pass(made: Path) -> None:
    # Nothing is asserted while tests are collected, so no assertion is made ready to tell its values, which takes long.
    done = run(made, "-m", "pytest", "-q", "-n0", "--assert=plain", "tests", "--collect-only", "-q")
    assert done.returncode == 0, done.stdout[-3000:]
    some = ["tests/test_our_pages.py", "tests/calculators/test_door.py", "tests/calculators/memory/test_words.py"]
    if os.environ.get("WORKED_ANSWERS_ALL"):
        some = ["tests"]
    done = run(made, "-m", "pytest", "-q", "-n0", *some, seconds=1800)
    assert done.returncode == 0, done.stdout[-3000:]
    assert " passed" in done.stdout


def test_it_serves_pages_and_desk(made: Path) -> None:
    with socket.socket() as found:
        found.bind(("127.0.0.1", 0))
        port = found.getsockname()[1]
    command = [sys.executable, "-m", "build_tools", "serve", "--no-browser", "--port", str(port)]
    with subprocess.Popen(
        command, cwd=made, env=os.environ | {places.READY: str(made)}, stdout=subprocess.PIPE, text=True,
        stderr=subprocess.STDOUT, encoding="utf-8",
    ) as child:  # fmt: skip
        try:
            assert child.stdout is not None
            said = ""
            for line in child.stdout:
                said += line
                if line.startswith("On air"):
                    break
            assert "On air" in said, said
            for path in ("", "answers/memory/how-much.html", "on-air/desk"):
                assert _status(f"http://127.0.0.1:{port}/{path}") == 200, path
        finally:
            child.terminate()
            child.wait(60)


def _status(address: str) -> int:
    typed = urllib.request.Request(address, headers={"Sec-Fetch-Site": "none", "Sec-Fetch-Mode": "navigate"})
    with urllib.request.urlopen(typed, timeout=120) as answer:
        return int(answer.status)


def test_without_a_name_nothing_is_made_up(tmp_path: Path) -> None:
    target = tmp_path / "elsewhere"
    site.new_site(PROJECT, target, site.Own())
    assert pages.check(target / "docs") == on_the_record.check(target / "docs") == placeholders.check(target) == []
    assert programme.mistakes(target) == []
    settings = programme.read(target)
    assert (settings.name, settings.address, settings.invented) == ("This programme", "", False)
    keys = [m.message.split("'")[1] for m in programme.not_filled_in(target)]
    assert keys == ["name:", "address:", "corrections:", "questions:"]
    assert [p.name for p in (target / "docs/answers").rglob("*.md")] == ["kit-numbers.md"]
    assert "does not exist" not in (target / "docs/presenting.md").read_text("utf-8")


@pytest.mark.parametrize(
    ("answers", "said"),
    [(["memry"], "there are no answers on 'memry' here; did you mean memory?"), (["x"], "there are audio, colour")],
)
def test_subjects_that_are_not_here_are_told(tmp_path: Path, answers: list[str], said: str) -> None:
    with pytest.raises(CannotMake, match=said.replace("?", r"\?")):
        site.new_site(PROJECT, tmp_path / "elsewhere", OWN, answers)
    assert not (tmp_path / "elsewhere").exists()


def test_no_folder_in_use_is_taken(tmp_path: Path) -> None:
    (tmp_path / "mine.txt").write_text("mine", "utf-8")
    with pytest.raises(CannotMake, match="is not empty"):
        site.new_site(PROJECT, tmp_path, OWN)
    with pytest.raises(CannotMake, match="inside this project"):
        site.new_site(PROJECT, PROJECT / "docs" / "made" / "inner", OWN)
    with pytest.raises(CannotMake, match="is no site that was made from here"):
        site.take_over(PROJECT, tmp_path)


@pytest.fixture
def here(tmp_path: Path) -> Path:
    """A small project to take from: the real settings and pages, few files, no git."""
    folder = tmp_path / "here"
    for name in ("docs", "calculators/desk", "tests/calculators/desk"):
        shutil.copytree(PROJECT / name, folder / name, ignore=shutil.ignore_patterns("made", "__pycache__", ".*"))
    for name in ("mkdocs.yml", "pyproject.toml", "README.md"):
        shutil.copy(PROJECT / name, folder)
    return folder


def test_taking_over_writes_over_nothing_that_was_changed(here: Path, tmp_path: Path) -> None:
    there = tmp_path / "there"
    site.new_site(here, there, OWN, ["memory"])
    assert site.take_over(here, there) == site.Taken(), "nothing is new at first"
    # They change a page, their settings and a tool, take a page away, and write one of their own.
    changed, tool = there / "docs/answers/memory/how-much.md", there / "calculators/desk/numbers.py"
    for path in (changed, tool):
        path.write_text(path.read_text("utf-8") + "\nOurs.\n", "utf-8")
    mine = changed.read_text("utf-8")
    settings = (there / "mkdocs.yml").read_text("utf-8").replace("questions: ''", "questions: mail@answers.example")
    (there / "mkdocs.yml").write_text(settings, "utf-8")
    (there / "docs/answers/memory/does-not-start.md").unlink()
    (there / "docs/answers/memory/own.md").write_text("Own.\n", "utf-8")
    assert site.take_over(here, there) == site.Taken(), "nor is what they did"
    # Here much is new.
    for name in ("docs/answers/memory/how-much.md", "docs/answers/memory/kit-numbers.md", "docs/about.md"):
        path = here / name
        path.write_text(path.read_text("utf-8") + "\nNewer.\n", "utf-8")
    shutil.copy(here / "docs/answers/memory/kit-numbers.md", here / "docs/answers/memory/brand-new.md")
    (here / "docs/answers/memory/own.md").write_text("Another of that name.\n", "utf-8")
    (here / "calculators/desk/png.py").unlink()
    (here / "mkdocs.yml").write_text((here / "mkdocs.yml").read_text("utf-8") + "# newer\n", "utf-8")
    taken = site.take_over(here, there)
    assert taken.written == ("docs/answers/memory/brand-new.md",)
    assert taken.renewed == ("docs/about.md", "docs/answers/memory/kit-numbers.md", "mkdocs.yml")
    assert taken.left == ("docs/answers/memory/how-much.md", "docs/answers/memory/own.md")
    assert taken.removed == ("calculators/desk/png.py",)
    assert changed.read_text("utf-8") == mine
    assert "Newer." in (there / site.ASIDE / "docs/answers/memory/how-much.md").read_text("utf-8")
    assert (there / "docs/answers/memory/own.md").read_text("utf-8") == "Own.\n"
    assert tool.read_text("utf-8").endswith("Ours.\n")
    assert not (there / "docs/answers/memory/does-not-start.md").exists()
    assert (there / "README.md").read_text("utf-8").startswith("# Bench: & Co")
    newer = (there / "mkdocs.yml").read_text("utf-8")
    assert "# newer" in newer
    assert "mail@answers.example" in newer
    assert programme.read(there).name == "Bench: & Co"
    assert site.take_over(here, there) == site.Taken(), "and told once"


def test_further_answers_come_with_their_links(here: Path, tmp_path: Path) -> None:
    there = tmp_path / "there"
    site.new_site(here, there, OWN, ["colour"])
    elsewhere = [p for p in (there / "docs/answers").rglob("*.md") if "](../display/" in p.read_text("utf-8")]
    assert elsewhere == [], "a link to what is not there is plain words"
    assert pages.check(there / "docs") == []
    taken = site.take_over(here, there, ["display"])
    assert any(name.startswith("docs/answers/display/") for name in taken.written)
    assert any("](../display/" in (there / name).read_text("utf-8") for name in taken.renewed)
    assert json.loads((there / site.NOTED).read_text("utf-8"))["answers"] == ["colour", "display"]


def test_a_damaged_note_is_told(here: Path, tmp_path: Path) -> None:
    there = tmp_path / "there"
    site.new_site(here, there, OWN)
    for damage in ("", "{", "[]", '{"files": 5, "answers": []}'):
        (there / site.NOTED).write_text(damage, "utf-8")
        with pytest.raises(CannotMake, match="is damaged"):
            site.take_over(here, there)
