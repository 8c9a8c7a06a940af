"""Comments out of a file: blocks, tables, and what is refused."""

from __future__ import annotations

import pytest

from build_tools.post.comments import MOST, NotComments, read


def test_blocks_with_handles() -> None:
    found = read(
        "handle: otter-7\nconsent: yes\nis 16 GB enough?\nI edit photos\n\n\nhandle: wren\nblack screen\r\n\r\nwhy"
    )
    assert [(c.number, c.text, c.named) for c in found] == [
        (1, "is 16 GB enough?\nI edit photos", "otter-7"),
        (2, "black screen", ""),
        (3, "why", ""),
    ]


@pytest.mark.parametrize("mark", [",", ";", "\t"])
def test_tables_of_other_programs(mark: str) -> None:
    text = mark.join(("date", "handle", "comment", "consent")) + "\n"
    text += mark.join(("2026-01-01", "otter", f'"is 16 GB enough{mark} or 32?"', "yes")) + "\n"
    text += mark.join(("2026-01-02", "wren", "black screen", "")) + "\n"
    assert [(c.text, c.named) for c in read(text)] == [(f"is 16 GB enough{mark} or 32?", "otter"), ("black screen", "")]


def test_a_comment_with_commas_is_no_table() -> None:
    assert len(read("my comment, with a comma\n\nand another")) == 2


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("", "No comments"),
        ("comment,handle\n", "No comments"),
        ("a\n\n" * (MOST + 1), "at most 2000"),
        ("x" * 7000, "longer than 6000"),
    ],
)
def test_what_is_refused_says_why(text: str, sentence: str) -> None:
    with pytest.raises(NotComments, match=sentence):
        read(text)
