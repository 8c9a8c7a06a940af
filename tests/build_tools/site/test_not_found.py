"""The page where an address leads nowhere, and the home page's lists."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from build_tools.markdown_blocks.pages import AnswerPage
from build_tools.site import not_found
from build_tools.site.frame import Frame, apply, framed, of_project

PAGES = (
    AnswerPage("answers/memory/a.md", "Is 16 < 32?", "memory", {}),
    AnswerPage("answers/memory/b.md", "And b?", "memory", {}),
    AnswerPage("answers/audio/c.md", "Loud?", "audio", {}),
)
FRAME = Frame(
    name="Site", version="1", corrections="", questions="ask@x.example", address="", first_script="", pages=PAGES,
    links=(("index.html", "Questions"),),
)  # fmt: skip
GENERATED = (
    "<html><head><title>404 - Not found - Site</title></head>"
    '<article class="md-content__inner md-typeset"><h1>404 - Not found</h1></article></html>'
)


def test_it_lists_every_question_by_subject_from_the_sites_root() -> None:
    html = not_found.article(PAGES, "/")
    assert html.count("<h2") == 2
    assert '<li><a href="/answers/memory/a.html">Is 16 &lt; 32?</a></li>' in html
    assert html.index(">Memory<") < html.index("And b?") < html.index(">Audio<") < html.index("Loud?")
    assert '<div class="wa-find-here"></div>' in html  # here the script puts its box


def test_the_generators_own_dead_end_gives_way_to_it() -> None:
    page = framed(GENERATED, "404.html", FRAME)
    assert "Not found" not in page
    assert f"<title>{not_found.TITLE} – Site</title>" in page
    assert 'data-root="/"' in page
    assert 'data-questions="ask@x.example"' in page
    assert not_found.article(PAGES, "/") in page


def test_any_other_page_keeps_its_own_words() -> None:
    page = framed(GENERATED, "deep/er/404.html", FRAME)
    assert "404 - Not found</h1>" in page
    assert 'data-root="../../"' in page


@pytest.mark.parametrize(
    ("inside", "looks"),
    [
        ("<p>wa-calculator, as a word</p>", {"wa-words-alone"}),
        ('<section class="wa-embed wa-calculator"></section>', set()),
        ('<ol class="wa-segments"></ol>', set()),
        ('<div class="wa-questions"></div>', set()),
        ('<div class="wa-find-here"></div><div class="wa-newest"></div><div class="wa-questions"></div>', {"wa-front"}),
    ],
)
def test_an_article_says_what_stands_in_it_so_that_no_style_need_ask_again(inside: str, looks: set[str]) -> None:
    page = framed(GENERATED.replace("</article>", f"{inside}</article>"), "page.html", FRAME)
    article = re.search(r'<article class="([^"]*)">', page)
    assert article
    assert set(article[1].split()) == {"wa-article", "wa-prose"} | looks


def test_nothing_of_the_generators_theme_is_left(project: Path, tmp_path: Path) -> None:
    generated = GENERATED.replace("<head>", '<head><link rel="stylesheet" href="assets/stylesheets/main.1.min.css">')
    page = framed(generated, "deep/page.html", FRAME)
    assert re.findall(r'rel="stylesheet" href="([^"]*)"', page) == ["../made/browser/page.css"]
    style = "".join(path.read_text("utf-8") for path in (project / "build_tools/browser/style").glob("*.css"))
    assert not re.search(r"\bmd-|\bpalette\b", page + style)  # how the theme names its parts
    for name in ("stylesheets/main.css", "javascripts/x.js", "an-authors-own.png"):
        (tmp_path / "assets" / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / "assets" / name).write_text("")
    apply(tmp_path, FRAME)
    assert [path.name for path in tmp_path.rglob("*") if path.is_file()] == ["an-authors-own.png"]


def test_header_and_footer_lead_only_to_what_a_site_has(project: Path, tmp_path: Path) -> None:
    (tmp_path / "index.md").write_text("# Front\n", "utf-8")
    small = framed(GENERATED, "page.html", of_project(project, tmp_path))
    assert 'href="index.html">Questions</a>' in small
    assert "episodes/index.html" not in small
    whole = framed(GENERATED, "page.html", of_project(project))
    for target in ("episodes/index", "sources", "about", "presenting"):
        assert f'href="{target}.html"' in whole


def test_the_home_page_has_a_place_for_the_box_before_its_lists(project: Path) -> None:
    page = (project / "docs" / "index.md").read_text("utf-8")
    box = page.index('<div class="wa-find-here"></div>')
    assert box < page.index("/// episodes | newest") < page.index("/// questions")
