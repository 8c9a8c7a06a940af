"""Home page and page of dead ends do not grow with the number of answers; every question still stands in a list."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from markdown import Markdown

from build_tools.markdown_blocks.pages import MOST_LISTED, AnswerPage, answer_pages, list_of_subject, listed_first
from build_tools.site import frame, lists, not_found
from build_tools.site.frame import Frame

MANY = 3 * MOST_LISTED


@pytest.fixture
def docs(tmp_path: Path) -> Path:
    """Many answers about one subject, a few about another; two have a place of their own in the order."""
    for subject, count in (("memory & co", MANY), ("audio", 3)):
        folder = tmp_path / "docs" / "answers" / subject[:5]
        folder.mkdir(parents=True)
        for number in range(count):
            order = "order: 1\n" if number in (7, 9) else ""
            day = f"2026-01-{1 + number % 28:02}"
            head = f"question: Is {number} < {number + 1}?\nsubject: {subject}\n{order}checked: {day}\n"
            text = f"---\n{head}---\n"
            (folder / f"q-{number}.md").write_text(text, "utf-8")
    return tmp_path / "docs"


def of(docs: Path) -> Frame:
    return Frame(
        name="Site", version="1", corrections="", questions="", address="", first_script="",
        pages=tuple(answer_pages(docs)), links=(),
    )  # fmt: skip


def block(docs: Path, monkeypatch: pytest.MonkeyPatch, text: str) -> str:
    monkeypatch.chdir(docs.parent)
    return Markdown(extensions=["build_tools.markdown_blocks"]).convert(text)


def test_a_long_subject_shows_those_with_a_place_then_the_newest(docs: Path) -> None:
    pages = [page for page in answer_pages(docs) if page.subject == "memory & co"]
    shown = listed_first(pages)
    assert len(shown) == MOST_LISTED
    assert {page.path[-6:] for page in shown[:2]} == {"q-7.md", "q-9.md"}
    days = [str(page.meta["checked"]) for page in shown[2:]]
    assert days == sorted(days, reverse=True)
    assert min(days) > "2026-01-15"
    few = pages[:MOST_LISTED]
    assert listed_first(few) == few


def test_the_home_page_lists_some_of_each_subject_and_leads_to_all(docs: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    home = block(docs, monkeypatch, "/// questions\n///")
    assert home.count("<li>") == MOST_LISTED + 3
    link = f'<a href="{list_of_subject("memory & co")}">All {MANY} questions about memory &amp; co</a>'
    assert home.count(link) == 1
    assert "questions about audio" not in home
    whole = block(docs, monkeypatch, "/// questions | memory & co\n///")
    assert whole.count("<li>") == MANY, "a list that its author asks for is whole"


def test_the_page_of_dead_ends_is_no_longer(docs: Path) -> None:
    html = not_found.article(answer_pages(docs), "/")
    assert html.count("<li>") == MOST_LISTED + 3
    assert f'href="/{list_of_subject("memory & co")}"' in html


def test_the_list_holds_every_question_in_the_sites_frame(docs: Path, tmp_path: Path) -> None:
    site = tmp_path / "site"
    site.mkdir()
    lists.write(site, of(docs))
    (path,) = (each for each in site.rglob("*") if each.is_file())
    assert path.relative_to(site).as_posix() == list_of_subject("memory & co") == "made/questions/memory-co.html"
    page = path.read_text("utf-8")
    assert '<link rel="stylesheet" href="../../made/browser/page.css">' in page
    assert "<h1>Questions about memory &amp; co</h1>" in page
    links = re.findall(r'<li><a href="../../answers/memor/(q-\d+)\.html">', page)
    assert len(links) == len(set(links)) == MANY


def test_an_answers_further_questions_lead_to_the_list_of_its_subject(docs: Path) -> None:
    around = of(docs)
    generated = '<html><head></head><article class="md-content__inner md-typeset"><h1>A</h1></article></html>'
    page = frame.framed(generated, "answers/memor/q-5.html", around)
    assert f'<a href="../../{list_of_subject("memory & co")}">All questions about memory &amp; co</a>' in page
    assert "All questions" not in frame.framed(generated, "answers/audio/q-1.html", around)


def test_subjects_whose_addresses_are_alike_share_a_list(tmp_path: Path) -> None:
    pages = [AnswerPage(f"answers/x/{n}.md", f"{n}?", ("A b", "a-B")[n % 2], {}) for n in range(2 * MANY)]
    around = Frame(
        name="Site", version="1", corrections="", questions="", address="", first_script="", pages=tuple(pages),
        links=(),
    )  # fmt: skip
    lists.write(tmp_path, around)
    (path,) = (each for each in tmp_path.rglob("*") if each.is_file())
    assert path.read_text("utf-8").count("<li>") == 2 * MANY + path.read_text("utf-8").count("<li><button")
