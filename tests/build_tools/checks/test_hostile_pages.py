"""Whatever stands in a page, a sheet or the settings: a sentence with file and line, in time, and never a traceback."""

from __future__ import annotations

import os
import time
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from build_tools.checks import advice, on_the_record, pages, placeholders
from build_tools.episodes import programme, sheet
from build_tools.markdown_blocks import depths
from build_tools.markdown_blocks.marked_yaml import NotYaml, load
from build_tools.new import skeletons
from tests.build_tools.checks.test_advice import TODAY

ANSWER = skeletons.answer("Is it?", "memory", "memory.rate", "latency_ns", TODAY).replace("Write here", "Say")
SHEET = """---
title: One
recorded: 2026-10-02
summary: Two.
segments:
  - question: What?
    answer: memory/is-it
    viewer: wren
---
# One

/// episode
///
"""
SETTINGS = (
    "site_name: X\nextra:\n  programme:\n    name: Y\n    address: https://answers.example\n    invented: false\n"
)
SECONDS = 5


@pytest.fixture
def project(tmp_path: Path) -> Path:
    """A page, a sheet and settings without a mistake."""
    for name, text in (
        ("docs/answers/memory/is-it.md", ANSWER), ("docs/episodes/001-one.md", SHEET), ("mkdocs.yml", SETTINGS),
    ):  # fmt: skip
        path = tmp_path / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, "utf-8")
    assert told(tmp_path) == []
    return tmp_path


def told(folder: Path) -> list[str]:
    """All that a build says before it begins."""
    docs = folder / "docs"
    return [
        *programme.mistakes(folder), *pages.check(docs), *on_the_record.check(docs), *placeholders.check(folder),
    ]  # fmt: skip


def errors(folder: Path) -> list[str]:
    """The same as the check command tells it, with the place of each; in time."""
    began = time.process_time()
    listed = told(folder)
    found = [str(f) for f in advice.check(folder, TODAY) if f.error]
    assert time.process_time() - began < 2 * SECONDS, "twice the work of a build's check"
    assert bool(listed) == bool(found)
    return listed


def in_sheet(old: str, new: str) -> Callable[[Path], None]:
    return in_file("docs/episodes/001-one.md", old, new)


def in_page(old: str, new: str) -> Callable[[Path], None]:
    return in_file("docs/answers/memory/is-it.md", old, new)


def in_file(name: str, old: str, new: str) -> Callable[[Path], None]:
    def change(folder: Path) -> None:
        text = (folder / name).read_text("utf-8")
        assert old in text
        (folder / name).write_text(text.replace(old, new, 1), "utf-8")

    return change


def recoded(name: str, encoding: str) -> Callable[[Path], None]:
    def change(folder: Path) -> None:
        path = folder / name
        path.write_bytes(path.read_text("utf-8").replace("Is it?", "Ist es größer?").encode(encoding))

    return change


PAGE, ONE, YML = "docs/answers/memory/is-it.md", "docs/episodes/001-one.md", "mkdocs.yml"
CASES: list[tuple[str, Callable[[Path], None], str]] = [
    (f"{ONE}:5", in_sheet("segments:", "title: Two\nsegments:"), "'title:' stands twice, first on line 2; keep one"),
    (f"{ONE}:8", in_sheet("    viewer: wren", "    answer: x"), "'answer:' stands twice, first on line 7"),
    (f"{PAGE}:3", in_page("question:", "title: Two\nquestion:"), "'title:' stands twice, first on line 2"),
    (f"{YML}:2", in_file(YML, "extra:", "site_name: Z\nextra:"), "'site_name:' stands twice"),
    (f"{PAGE}:2", recoded(PAGE, "latin-1"), "a letter after 'title: \"Ist es gr' is not written in UTF-8"),
    (f"{PAGE}:1", recoded(PAGE, "utf-16"), "is written in UTF-16; save it as UTF-8"),
    (f"{PAGE}:1", recoded(PAGE, "utf-8-sig"), "begins with a byte order mark"),
    (f"{ONE}:1", recoded(ONE, "utf-16"), "is written in UTF-16; save it as UTF-8"),
    (f"{ONE}:1", recoded(ONE, "utf-8-sig"), "begins with a byte order mark"),
    (f"{YML}:1", recoded(YML, "utf-16"), "is written in UTF-16; save it as UTF-8"),
    (f"{ONE}:7", in_sheet("    answer:", "\tanswer:"), "a tab stands here; YAML takes spaces only"),
    (f"{PAGE}:4", in_page("subject: memory", "\tsubject: memory"), "a tab stands here"),
    (f"{PAGE}:2", in_page("Is it?", "Is\x01it?"), "a character stands here that no page can show, U+0001; take it out"),
    (f"{ONE}:2", in_sheet("One", "O\x7fe"), "a character stands here that no page can show, U+007F; take it out"),
    (f"{PAGE}:2", in_page("Is it?", "Is\0it?"), "this is no text: it holds a zero byte"),
    (f"{PAGE}:5", in_page(f"checked: {TODAY}", "checked: 2026-13-45"), "'checked:' must be a date such as"),
    (f"{ONE}:3", in_sheet("2026-10-02", "2026-13-45"), "'recorded:' must be a date such as"),
    (f"{ONE}:5", in_sheet("segments:", "corrections: 5\nsegments:"), "'corrections:' needs a list"),
    (f"{ONE}:5", in_sheet("segments:", "links: {a: b}\nsegments:"), "'links:' needs a list"),
    (f"{ONE}:5", in_sheet("segments:", "corrections: [5]\nsegments:"), "a correction has 'date:'"),
    (f"{ONE}:5", in_sheet("segments:", "corrections: [{segment: [1]}]\nsegments:"), "there is no segment [1]"),
    (f"{ONE}:9", in_sheet("wren", "wren\n    figures: 5"), "'figures:' must be written as 'key: value'"),
    (f"{ONE}:9", in_sheet("wren", "wren\n    inputs: [1]"), "'inputs:' must be written as 'key: value'"),
    (f"{ONE}:9", in_sheet("wren", "wren\n    inputs: {rate: [1, {a: 2}]}"), "MT/s"),
    (f"{ONE}:9", in_sheet("wren", "wren\n    inputs: {8: 1}"), "There is no input '8'"),
    (f"{ONE}:8", in_sheet("wren", "no"), "'viewer:' needs a text, and YAML reads False here; put the text in quotes"),
    (f"{ONE}:8", in_sheet("wren", "@wren"), "a text that begins with @ must stand in quotes"),
    (f"{ONE}:6", in_sheet("What?", "What: this?"), "a text that holds a colon and a space must stand in quotes"),
    (f"{ONE}:6", in_sheet("What?", "*What*?"), "must stand in quotes"),
    (f"{ONE}:6", in_sheet("What?", "!!python/object:os.system x"), "a text that begins with ! must stand in quotes"),
    (f"{ONE}:9", in_sheet("wren", "wren\n    consent: perhaps"), "'consent:' is true or false"),
    (f"{YML}:5", in_file(YML, "    name: Y", "    name: [1"), "cannot be read: a bracket is not closed"),
    (f"{YML}:2", in_file(YML, "extra:\n  programme:", "extra: 5\nother:\n  programme:"), "'extra' must be written as"),
    (f"{YML}:4", in_file(YML, "name: Y", "nmae: Y"), "the programme has no setting 'nmae'; did you mean name?"),
    (f"{YML}:5", in_file(YML, "https://", ""), "'address:' reads https://answers.example; got 'answers.example'"),
    (f"{YML}:6", in_file(YML, "false", '"no"'), "'invented:' is true or false, without quotes"),
    (f"{YML}:4", in_file(YML, "name: Y", "name: yes"), "'name:' needs a text"),
]  # fmt: skip


@pytest.mark.parametrize(("where", "change", "words"), CASES, ids=range(len(CASES)))
def test_a_mistake_is_told_with_file_and_line(
    project: Path, where: str, change: Callable[[Path], None], words: str
) -> None:
    change(project)
    found = errors(project)
    assert [line for line in found if line.startswith(f"{where}: ") and words in line], found


def test_links_and_names_are_told(project: Path) -> None:
    answers = project / "docs" / "answers" / "memory"
    (answers / "gone.md").symlink_to("nowhere.md")
    (project / "docs" / "picture.png").symlink_to("nowhere.png")
    (answers / "ours.md").mkdir()
    (answers / "Größer als.md").write_text(ANSWER, "utf-8")
    (project / "docs" / "episodes" / "002-gone.md").symlink_to("nowhere.md")
    (project / "docs" / "episodes" / "003-Über uns.md").write_text(SHEET, "utf-8")
    found = "\n".join(errors(project))
    for words in (
        "docs/answers/memory/gone.md: this link leads to nothing",
        "docs/picture.png: this link leads to nothing",
        "docs/answers/memory/ours.md: this is a folder",
        "rename 'Größer als' to 'grosser-als'",
        "docs/episodes/002-gone.md: this link leads to nothing",
        "003-Über uns.md:1: an episode sheet is named 001-a-few-words.md",
    ):
        assert words in found


@pytest.mark.skipif(os.name != "posix", reason="names that are no text")
def test_a_name_that_is_no_text_is_told(project: Path) -> None:
    path = os.fsencode(project / "docs" / "answers" / "memory") + b"/b\xff.md"
    try:
        with open(path, "w") as made:
            made.write(ANSWER)
    except OSError:
        pytest.skip("this disk takes no such name")
    "\n".join(errors(project)).encode("utf-8")
    assert any("a page's name is made of small letters" in line for line in told(project))


BOMBS = {
    "aliases": (ONE, "title: One", "a: &a [x, x]\nb: &b [*a, *a]\ntitle: One"),
    "brackets in a sheet": (ONE, "title: One", f"title: {'[' * 20_000}"),
    "braces in a sheet": (ONE, "title: One", f"title: {'{' * 20_000}"),
    "brackets in front": (PAGE, 'title: "Is it?"', f"title: {'[' * 20_000}"),
    "settings": (YML, "site_name: X", f"site_name: {'{' * 20_000}"),
    "depth": (ONE, "title: One", "title: " + "".join(f"\n{' ' * n}a:" for n in range(1, 400))),
    "hyphens": (ONE, "title: One", f"title:\n  {'- ' * 10_000}a"),
    "brackets": (PAGE, "Say", "[" * 20_000),
    "brackets that close": (PAGE, "Say", "[" * 10_000 + "]" * 10_000),
    "figures": (PAGE, "Say", "{=" * 20_000),
    "backticks": (PAGE, "Say", " ".join("`" * n for n in range(1, 401))),
    "tags": (PAGE, "Say", "<a " * 10_000),
    "quotes": (PAGE, "Say", "\n\n" + "> " * 1000 + "x\n\n"),
    "paragraphs": (PAGE, "Say", "a\n\n" * 30_000),
    "abbreviations": (PAGE, "Say", "\n\n" + "*[a]: b\n" * 300),
    "length": (PAGE, "Say", "word " * 200_000),
    "options": (PAGE, "/// calculator | memory.rate\n", f"/// calculator | memory.rate\n    inputs: {'[' * 20_000}\n"),
}  # fmt: skip


@pytest.mark.parametrize("name", BOMBS)
def test_what_has_no_end_ends_with_a_sentence(project: Path, name: str) -> None:
    where, old, new = BOMBS[name]
    in_file(where, old, new)(project)
    found = errors(project)
    assert found[0].startswith(f"{where}:")
    assert all(len(line) < 400 for line in found), "a sentence, and not what it complains of"


@given(st.text(alphabet=st.characters(codec="utf-8"), max_size=60))
def test_any_text_is_read_as_yaml_or_refused_in_words(text: str) -> None:
    refused = None
    try:
        load(text)
    except NotYaml as problem:
        refused = problem
    assert refused is None or (refused.line >= 1 and str(refused))


@given(st.text(alphabet="[]{}=`<>/|-:&*!#\"' \n\ta1", max_size=80))
def test_any_signs_in_a_sheet_or_a_page_are_told_in_words(tmp_path_factory: pytest.TempPathFactory, text: str) -> None:
    folder = tmp_path_factory.getbasetemp() / "any"
    path = folder / "docs" / "episodes" / "001-one.md"
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(SHEET.replace("What?", text), "utf-8")
    episode, mistakes = sheet.read_sheet(folder / "docs", path)
    assert episode or mistakes
    assert all(m.path == "docs/episodes/001-one.md" and m.line >= 1 for m in mistakes)
    path.write_text(ANSWER.replace("Say", text), "utf-8")
    pages.check(folder / "docs")


def test_what_people_write_is_never_refused_for_its_depth(project: Path) -> None:
    real = Path(__file__).parents[3] / "docs"
    texts = [path.read_text("utf-8") for path in real.rglob("*.md") if "made" not in path.parts]
    assert len(texts) > 50
    for text in texts:
        assert list(depths.check(text, "x.md")) == []
