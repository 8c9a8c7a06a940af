"""A page of the wrong kind is told in one sentence with its line, whatever it is, and within a moment."""

from __future__ import annotations

import time
from pathlib import Path

import pytest

from build_tools.checks import readable

YAML = "it cannot be read as YAML: "
FRONT = "---\ntitle: A\n{more}\n---\n# A\n"


def told(tmp_path: Path, data: str | bytes, name: str = "docs/page.md") -> list[str]:
    path = tmp_path / name
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(data.encode("utf-8") if isinstance(data, str) else data)
    (tmp_path / "docs").mkdir(exist_ok=True)
    return readable.check(tmp_path / "docs")


@pytest.mark.parametrize(
    ("data", "sentence"),
    [
        ("# One\n\nGröße\n".encode("latin-1"), "3: it is not written in UTF-8 (in Latin-1, perhaps); save it as UTF-8"),
        ("# One\n".encode("utf-16"), "1: it is written in UTF-16; save it as UTF-8"),
        ("\ufeff# One\n", "1: it begins with a byte order mark; save it as UTF-8 without one"),
        ("# One\n\na\x00b\n", "3: it holds a character that no page can show, U+0000; take it out"),
        (b"#" * 2_000_001, "1: it has 2.0 MB; a page may have 2"),
        ("---\ntitle: A\n", "1: the front matter has no end; write a line '---' below it"),
        (FRONT.format(more="title: B"), "3: 'title:' stands here a second time; keep one of the two"),
        (FRONT.format(more="a:\n  b: 1\n  b: 2"), "5: 'b:' stands here a second time; keep one of the two"),
        (FRONT.format(more="checked: 2026-13-45"), "3: '2026-13-45' looks like a date or a number and is none"),
        (FRONT.format(more="a:\n\tb: 1"), f"4: {YAML}a tab stands where blanks must; put blanks in its place"),
        (FRONT.format(more="a: b: c"), f"3: {YAML}mapping values are not allowed here"),
        (
            FRONT.format(more="a: &x [1]\nb: *x"),
            f"4: {YAML}an alias such as *name is not taken here; write the value out",
        ),
        (FRONT.format(more="a: " + "[" * 20_000), "2: it nests too deep; write it with fewer brackets inside"),
        ("# One\n\n" + "[" * 20_000, "3: more than 200 '[' stand open here; close them with ']'"),
        ("# One\n\n" + "{=" * 20_000, "3: more than 200 '{=' stand open here; close them with '=}'"),
        ("# One\n\n" + "<a " * 20_000, "3: more than 200 '<' stand open here; close them with '>'"),
        ("# One\n\n" + "*[a]: b\n" * 300, "203: a page explains at most 200 abbreviations; this is one more"),
        ("# One\n\n" + " ".join("`" * i for i in range(1, 401)), "3: more than 20 backticks stand in a row"),
    ],
)
def test_what_cannot_be_read_is_told_with_its_line(tmp_path: Path, data: str | bytes, sentence: str) -> None:
    start = time.process_time()
    (line,) = told(tmp_path, data)
    assert line.startswith(f"docs/page.md:{sentence}")
    assert time.process_time() - start < 5


@pytest.mark.parametrize(
    ("name", "better"),
    [
        ("two words.md", "two-words.md"),
        ("Größe.md", "grosse.md"),
        ("a%22b.md", "a-22b.md"),
        ("日本.md", "a-few-words.md"),
        ("a folder/page.md", "page.md"),
    ],
)
def test_a_name_that_is_no_address_is_told_with_a_better_one(tmp_path: Path, name: str, better: str) -> None:
    (line,) = told(tmp_path, "# A\n", f"docs/{name}")
    assert line == (
        f"docs/{name}:1: a page's name and folder take letters from a to z, digits and hyphens; call it {better}, say"
    )


def test_a_link_to_nowhere_and_a_folder_with_a_pages_name_are_told(tmp_path: Path) -> None:
    docs = tmp_path / "docs"
    (docs / "folder.md").mkdir(parents=True)
    (docs / "gone.md").symlink_to("nowhere.md")
    (docs / "loop.png").symlink_to("loop.png")
    link = "this is a link to a file that is not there; put the file there, or take the link away"
    assert readable.check(docs) == [
        "docs/folder.md:1: this is a folder with a page's name; call it otherwise",
        f"docs/gone.md:1: {link}",
        f"docs/loop.png:1: {link}",
    ]


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("site_name: [a\n", "mkdocs.yml:2: it cannot be read as YAML: "),
        ("- a\n", "mkdocs.yml:1: it must be written as 'key: value'"),
        ("site_name: a\nextra: 5\n", "mkdocs.yml:2: 'extra:' must be written as 'key: value', one a line"),
        ("extra:\n  programme: [a]\n", "mkdocs.yml:2: 'extra: programme:' must be written as 'key: value', one a line"),
        ("site_name: a\nsite_name: b\n", "mkdocs.yml:2: 'site_name:' stands here a second time; keep one of the two"),
    ],
)
def test_faulty_settings_are_told_with_their_line(tmp_path: Path, text: str, sentence: str) -> None:
    (line,) = told(tmp_path, text, "mkdocs.yml")
    assert line.startswith(sentence)


def test_this_project_can_be_read(project: Path) -> None:
    assert readable.check(project / "docs") == []
