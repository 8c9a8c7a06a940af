"""Whatever a title, a viewer's words, a setting or a file's name says, it stands in the built site as text alone."""

from __future__ import annotations

import html
import json
import re
import xml.etree.ElementTree as etree
from dataclasses import dataclass, field
from html.parser import HTMLParser
from pathlib import Path

import pytest

from build_tools.checks import pages
from build_tools.episodes import description, feed, sheet
from build_tools.episodes.programme import Programme
from build_tools.markdown_blocks.pages import MOST_LISTED, AnswerPage
from build_tools.presenting.answers import reply
from build_tools.site import frame, policy
from calculators.catalogue import find
from calculators.desk.card import frames
from tests.build_tools.site.conftest import PROJECT, Copy
from tests.build_tools.site.hostile_texts import TEXTS

ANSWER = """---
title: {title}
question: {text}
words: [{text}]
asked: [{text}]
subject: memory
description: {text}
go: word-{number}
checked: 2026-01-01
review_by: 2036-01-01
---
# Question {number}

/// short-answer
It depends.
///

## Your numbers

/// calculator | memory.ways
    inputs:
        currency: {currency}
///

## What to do

Look.

## If it does not work

Ask.

## Why

So.

## Sources

- None.

## History

- 2026-01-01: written.
"""
SEGMENT = """  - start: "{minute}:00"
    question: {text}
    viewer: {text}
    note: {text}
    referred: {{to: {text}, why: {text}}}
"""
SHEET = """---
title: {text}
recorded: 2026-01-01
summary: {text}
segments:
{segments}corrections:
  - {{date: 2026-01-02, segment: 1, was: {text}, now: {text}, why: {text}}}
---
/// episode
///
"""
NAMES = ("a\"b'c", "<img src=x onerror=ran()>", "a&amp;b", "a%22b", "{{ran()}}", "a`b", "$(ran)", "javascript:ran()")
SEGMENTS = 20

FETCHING = {"src", "srcset", "poster", "data", "background", "ping", "formaction", "action", "srcdoc", "xlink:href"}
STRANGE = {"iframe", "object", "embed", "base", "applet", "frame", "frameset", "foreignobject", "ran-element", "portal"}


def quoted(text: str) -> str:
    """A text as YAML and JSON both read it."""
    return json.dumps(text)


@dataclass
class Found(HTMLParser):
    """A page taken apart: its title, and all in it that could run, load, or lead away."""

    known: frozenset[str]
    title: str = ""
    faults: list[str] = field(default_factory=list)

    def __post_init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self._inside = ""
        self._runs = False

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = {name: value or "" for name, value in attrs}
        self._inside = tag
        self._runs = tag == "script" and given.get("type") != "application/json" and "src" not in given
        if tag in STRANGE:
            self.faults.append(f"<{tag}>")
        if tag == "meta" and given.get("http-equiv", "").lower() == "refresh" and "far.example" in given["content"]:
            self.faults.append("leads away by itself")
        for name, value in given.items():
            if name.startswith("on") or "ran(" in name:
                self.faults.append(f"<{tag} {name}=…>")
            address = re.sub(r"[\s\x00-\x20]", "", value).lower()
            if name in FETCHING | {"href"} and address.startswith(("javascript:", "data:text", "//", "vbscript:")):
                self.faults.append(f"<{tag} {name}={value}>")
            if name in FETCHING and "far.example" in value:
                self.faults.append(f"<{tag} {name}={value}>")
            if tag == "link" and name == "href" and "far.example" in value:
                self.faults.append(f"<{tag} {name}={value}>")

    def handle_endtag(self, tag: str) -> None:
        self._inside = ""

    def handle_data(self, data: str) -> None:
        if self._inside == "title":
            self.title += data
        elif self._inside == "style":
            self.faults.append(f"<style>{data[:40]}")
        elif self._inside == "script" and self._runs and data not in self.known:
            self.faults.append(f"<script>{data[:40]}")


def read(page: str, known: frozenset[str]) -> Found:
    found = Found(known)
    found.feed(page)
    found.close()
    return found


@pytest.fixture(scope="module")
def hostile_site(tmp_path_factory: pytest.TempPathFactory) -> Copy:
    """One site, built from pages, sheets and settings that say nothing but hostile texts."""
    folder = tmp_path_factory.mktemp("hostile")
    copy = Copy(folder)
    docs = folder / "docs"
    answers = docs / "answers" / "memory"
    answers.mkdir(parents=True)
    for number, text in enumerate(TEXTS):
        page = ANSWER.format(number=number, title=quoted(text), text=quoted(text), currency=quoted(text))
        try:
            find("memory.ways").run({"currency": text})
        except ValueError:  # a currency is a short word, and what is none is refused: told in its own test
            page = page.replace(f"currency: {quoted(text)}", "currency: EUR")
        (answers / f"question-{number}.md").write_text(page, "utf-8")
    (docs / "index.md").write_text("# Front\n\n/// questions\n///\n\n/// episodes | newest\n///\n", "utf-8")
    episodes = docs / "episodes"
    episodes.mkdir()
    (episodes / "index.md").write_text("# Episodes\n\n/// episodes\n///\n\n/// corrections\n///\n", "utf-8")
    for number in range(-(-len(TEXTS) // SEGMENTS)):
        part = TEXTS[number * SEGMENTS : (number + 1) * SEGMENTS]
        rows = "".join(SEGMENT.format(minute=i, text=quoted(text)) for i, text in enumerate(part))
        text = SHEET.format(text=quoted(part[0]), segments=rows)
        (episodes / f"{number + 1:03}-sheet.md").write_text(text, "utf-8")
    settings = (folder / "mkdocs.yml").read_text("utf-8")
    worst = quoted("</title><script>ran()</script>\"'>")
    for key in ("site_name", "site_description", "    name", "    corrections", "    questions"):
        settings = re.sub(rf"^({key}:).*$", lambda m: f"{m[1]} {worst}", settings, count=1, flags=re.M)
    (folder / "mkdocs.yml").write_text(settings, "utf-8")
    done = copy.build()
    assert done.returncode == 0, done.stdout + done.stderr
    return copy


@pytest.fixture(scope="module")
def known(hostile_site: Copy) -> frozenset[str]:
    """The scripts that the site itself puts into pages."""
    return frozenset({(hostile_site.folder / "docs/made/browser/first.js").read_text("utf-8").strip()})


def test_there_are_two_hundred_of_them() -> None:
    assert len(set(TEXTS)) >= 200


def test_no_page_holds_anything_that_runs_loads_or_leads_away(hostile_site: Copy, known: frozenset[str]) -> None:
    site = hostile_site.folder / "site"
    pages = sorted(site.rglob("*.html"))
    assert len(pages) > 2 * len(TEXTS)  # the answers, and their short addresses
    faults = {
        path.relative_to(site).as_posix(): found.faults
        for path in pages
        if (found := read(path.read_text("utf-8"), known)).faults
    }
    assert faults == {}


def test_the_policy_of_every_page_names_the_sites_own_script_alone(hostile_site: Copy, known: frozenset[str]) -> None:
    allowed = policy.policy("".join(known), known)
    bare = policy.policy("")
    for path in sorted((hostile_site.folder / "site").rglob("*.html")):
        given = re.search(r'http-equiv="Content-Security-Policy" content="([^"]*)"', path.read_text("utf-8"))
        assert given is not None
        assert given[1] == (bare if "go" in path.relative_to(hostile_site.folder / "site").parts else allowed)


def test_every_title_is_there_letter_for_letter(hostile_site: Copy, known: frozenset[str]) -> None:
    for number, text in enumerate(TEXTS):
        page = (hostile_site.folder / f"site/answers/memory/question-{number}.html").read_text("utf-8")
        assert read(page, known).title.startswith(f"{text} – "), text
        described = re.search(r'<meta name="description" content="([^"]*)">', page)
        assert described is not None
        assert html.unescape(described[1]) == text


def test_every_question_stands_in_the_lists_as_text(hostile_site: Copy) -> None:
    front = (hostile_site.folder / "site/index.html").read_text("utf-8")
    lost = (hostile_site.folder / "site/404.html").read_text("utf-8")
    whole = (hostile_site.folder / "site/made/questions/memory.html").read_text("utf-8")
    for page, least in ((front, MOST_LISTED), (lost, MOST_LISTED), (whole, len(TEXTS))):
        shown = " ".join(html.unescape(re.sub(r"<[^>]*>", "", page)).split())
        assert len([text for text in TEXTS if " ".join(text.split()) in shown]) >= least
        assert page.count("<li><a href=") + page.count("<li data-words=") >= least


@pytest.mark.parametrize("name", NAMES)
def test_a_page_has_a_name_that_is_an_address_too(tmp_path: Path, name: str) -> None:
    page = tmp_path / "docs" / f"{name}.md"
    page.parent.mkdir()
    page.write_text("# Page\n", "utf-8")
    (told,) = pages.check(page.parent)
    assert told.startswith(
        f"docs/{name}.md: a page's name is made of small letters, digits and hyphens; rename '{name}'"
    )


def test_the_index_and_the_list_of_files_are_data(hostile_site: Copy) -> None:
    index = (hostile_site.folder / "site/made/finding/index.js").read_text("utf-8")
    data = json.loads(index.removeprefix("window.workedAnswersIndex=").removesuffix(";\n"))
    assert {page["question"] for page in data["pages"]} >= set(TEXTS)
    offline = (hostile_site.folder / "site/offline.js").read_text("utf-8")
    assert json.loads(offline.removeprefix("self.waEdition=").partition(";\n")[0])["list"]
    assert "index.html" in json.loads((hostile_site.folder / "site/offline.json").read_text("utf-8"))


def test_the_map_of_pages_and_the_feed_are_xml_that_holds_texts_alone(hostile_site: Copy) -> None:
    for name in ("sitemap.xml", "made/episodes/corrections.atom"):
        path = hostile_site.folder / "site" / name
        tags = {element.tag.rpartition("}")[2] for element in etree.parse(path).iter()}
        assert tags <= {
            "urlset", "url", "loc", "lastmod", "feed", "title", "id", "updated", "author", "name", "link", "entry",
            "content",
        }  # fmt: skip


def test_descriptions_and_replies_hold_no_markup_and_no_lines_but_their_own(hostile_site: Copy) -> None:
    docs = hostile_site.folder / "docs"
    episodes, mistakes = sheet.read_all(docs)
    assert not mistakes
    for episode in episodes:
        made = description.describe(episode, Programme(address="https://answers.example")).text
        assert not set("<>") & set(made)
        chapters = next(part for part in made.split("\n\n") if part.startswith("0:00 ")).split("\n")
        assert [line.partition(" ")[0] for line in chapters] == [f"{i}:00" for i in range(len(episode.segments))]
        replies = (hostile_site.folder / f"site/made/episodes/{episode.slug}/replies.txt").read_text("utf-8")
        assert not set("<>") & set(replies)
        assert len(replies.strip().split("\n\n")) == len(episode.segments)
    etree.fromstring(feed.atom(episodes, Programme(name=TEXTS[0], address='https://x.example/<b>&"')))


def test_the_run_sheet_is_sent_as_texts(hostile_site: Copy) -> None:
    told = reply(hostile_site.folder, {"what": "run", "episode": 1})
    assert [row["question"] for row in told["segments"]] == [" ".join(text.split()) for text in TEXTS[:SEGMENTS]]
    scripts = sorted((PROJECT / "build_tools" / "presenting" / "pages").glob("*.ts"))
    assert {"run.ts", "prompter.ts"} <= {path.name for path in scripts}
    for path in scripts:  # which put them there as texts; the desk's form alone is markup, made and escaped by Python
        if path.name != "desk.ts":
            assert not re.search(r"innerHTML|outerHTML|insertAdjacentHTML|document\.write", path.read_text("utf-8"))


@pytest.mark.parametrize("start", range(0, len(TEXTS), 60))
def test_a_card_with_any_question_and_address_is_a_drawing(start: int) -> None:
    result = find("memory.rate").run({})
    for text in TEXTS[start : start + 60]:
        svg = frames(result, question=text, address=text)[-1].svg
        for element in etree.fromstring(svg).iter():
            assert element.tag.rpartition("}")[2] not in {"script", "foreignObject", "image", "a", "iframe", "style"}
            assert not [name for name in element.attrib if name.lower().startswith("on") or name.endswith("href")]


def test_any_setting_stays_a_text_in_the_frame(known: frozenset[str]) -> None:
    inside = (
        '<html><head><title>x</title></head><article class="md-content__inner md-typeset"><p>y</p></article></html>'
    )
    for text in TEXTS:
        page = AnswerPage("answers/memory/x.md", text, text, {"checked": text})
        around = frame.Frame(
            text, text, text, text, text, "", (page, AnswerPage("answers/memory/y.md", text, text, {})), ()
        )
        found = read(frame.framed(inside, "answers/memory/x.html", around), known)
        assert found.faults == []
        assert found.title == f"x – {text}"
