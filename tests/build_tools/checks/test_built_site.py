"""Each case plants one fault in a small built site and reads the one line that tells of it."""

from __future__ import annotations

from pathlib import Path

import pytest

from build_tools.checks.built_site import check

GOOD = {
    "index.html": (
        '<!doctype html><link rel="stylesheet" href="assets/a.css"><link rel="canonical" href="https://example.org/">\n'
        '<p id="top">Hello <a href="https://example.org/">out</a> <a href="deep/page.html#there">in</a>\n'
        '<a href="deep/page.html#memory.rate:rate=3200&amp;cas=16">a calculator</a> <a href="deep/">folder</a>\n'
        '<a href="mailto:a@example.org">write</a> <a href="#top">up</a> <a href="">here</a>\n'
        '<img src="assets/p.png" srcset="assets/p.png 1x, assets/p.png 2x"><img src="data:image/png;base64,AA==">\n'
        "<code>/// calculator | memory.rate</code><pre>{= memory.rate =}\n/// note</pre>\n"
        '<script>const left = "{= no page =}";</script><script src="assets/a.js"></script>\n'
        '<svg><use href="#top"></use></svg><div style="background:url(assets/p.png)"></div>'
    ),
    "404.html": '<link rel="stylesheet" href="/assets/a.css">',
    "deep/index.html": "<p>A folder's page",
    "deep/page.html": '<h2 id="there">There</h2><section data-calculator="memory.rate"></section><a href="../">up</a>',
    "assets/a.css": '/* url(https://example.org/) */ @import "b.css"; p { background: url("p.png"); }',
    "assets/b.css": "p { background: url(data:image/png;base64,AA==) }",
    "assets/a.js": "",
    "assets/p.png": "",
}

# What the check says, where it is long.
SENTENCES = {
    "{OTHER}": "the page would fetch this from another host",
    "{LEFT}": "not understood, so it stands in the page as text",
    "{PLACE}": "dead link (no such place on that page)",
}


def worded(told: str) -> str:
    """A line with the sentences written out."""
    for short, sentence in SENTENCES.items():
        told = told.replace(short, sentence)
    return told


def write(folder: Path, files: dict[str, str]) -> Path:
    """Writes files into a folder and returns it."""
    for name, text in files.items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text(text, "utf-8")
    return folder


def test_a_site_without_fault(tmp_path: Path) -> None:
    assert check(write(tmp_path / "site", GOOD)) == []


@pytest.mark.parametrize(
    ("added", "told"),
    [
        ("<p>\n/// calculator | memory.rate\n</p>", "2: {LEFT}: /// calculator | memory.rate"),
        ("<p>/// short-answer</p>", "1: {LEFT}: /// short-answer"),
        ("<p>It is {= memory.rate -&gt; x =} long</p>", "1: {LEFT}: {= memory.rate -> x =} long"),
        ("<p>text\n  ///\t note</p>", "2: {LEFT}: ///\t note"),
        ('<a href="nowhere.html">x</a>', "1: dead link (no such page or file): nowhere.html"),
        ('<a href="deep/page.html#nowhere">x</a>', "1: {PLACE}: deep/page.html#nowhere"),
        ('<a href="deep/page.html#audio.level:x=1">x</a>', "1: {PLACE}: deep/page.html#audio.level:x=1"),
        ('\n<a href="#nowhere">x</a>', "2: {PLACE}: #nowhere"),
        ('<a href="../outside.html">x</a>', "1: dead link (no such page or file): ../outside.html"),
        ('<a href="assets/">x</a>', "1: dead link (no such page or file): assets/"),
        ('<a href="https:///x">x</a>', "1: dead link: https:///x"),
        ('<a href="javascript:void(0)">x</a>', "1: a link that a page must not have: javascript:void(0)"),
        ('<form action="nowhere"></form>', "1: dead link (no such page or file): nowhere"),
        ('<img src="assets/q.png">', "1: the page fetches a file that is not there: assets/q.png"),
        ('<img srcset="assets/p.png, assets/q.png 2x">', "1: the page fetches a file that is not there: assets/q.png"),
        ('<script src="https://example.org/a.js"></script>', "1: {OTHER}: https://example.org/a.js"),
        ('<script src="//example.org/a.js"></script>', "1: {OTHER}: //example.org/a.js"),
        ('<link rel="stylesheet" href="https://example.org/a.css">', "1: {OTHER}: https://example.org/a.css"),
        ('<link rel="preconnect" href="https://example.org">', "1: {OTHER}: https://example.org"),
        ('<link rel="shortcut icon" href="nowhere.png">', "1: the page fetches a file that is not there: nowhere.png"),
        ('<img src="https://example.org/a.png" alt="">', "1: {OTHER}: https://example.org/a.png"),
        ('<iframe src="https://example.org/"></iframe>', "1: {OTHER}: https://example.org/"),
        ('<p style="background: url(https://example.org/a.png)">', "1: {OTHER}: https://example.org/a.png"),
        ("<style>@import 'https://example.org/a.css';</style>", "1: {OTHER}: https://example.org/a.css"),
        ('<svg><image xlink:href="https://example.org/a.png"/></svg>', "1: {OTHER}: https://example.org/a.png"),
        ('<video poster="nowhere.png"></video>', "1: the page fetches a file that is not there: nowhere.png"),
    ],
)  # fmt: skip
def test_one_fault_in_a_page(tmp_path: Path, added: str, told: str) -> None:
    site = write(tmp_path / "site", {**GOOD, "faulty.html": added})
    assert check(site) == [f"site/faulty.html:{worded(told)}"]


@pytest.mark.parametrize(
    ("css", "told"),
    [
        ("\n@font-face { src: url('https://example.org/a.woff2') }", "2: {OTHER}: https://example.org/a.woff2"),
        ("p { background: url(nowhere.png) }", "1: the page fetches a file that is not there: nowhere.png"),
        ('@import "https://example.org/b.css";', "1: {OTHER}: https://example.org/b.css"),
    ],
)  # fmt: skip
def test_one_fault_in_a_style_sheet(tmp_path: Path, css: str, told: str) -> None:
    site = write(tmp_path / "site", {**GOOD, "assets/faulty.css": css})
    assert check(site) == [f"site/assets/faulty.css:{worded(told)}"]


def test_no_front_page(tmp_path: Path) -> None:
    site = write(tmp_path / "site", {"other.html": ""})
    assert check(site) == ["site/index.html: the site has no front page"]


def test_a_fault_is_told_where_its_source_has_it(tmp_path: Path) -> None:
    site = write(tmp_path / "site", {**GOOD, "page.html": '<p>/// calculator | x</p><a href="gone.html">x</a>'})
    docs = write(tmp_path / "docs", {"index.md": "", "page.md": "# Title\n\n[x](gone.md)\n\n/// calculator | x\n"})
    assert check(site, docs) == [
        "docs/page.md:5: not understood, so it stands in the page as text: /// calculator | x",
        "docs/page.md:3: dead link (no such page or file): gone.html",
    ]


def test_a_page_that_was_not_built(tmp_path: Path) -> None:
    site = write(tmp_path / "site", GOOD)
    docs = write(tmp_path / "docs", {"index.md": "", "answers/memory/lost.md": ""})
    assert check(site, docs) == ["docs/answers/memory/lost.md:1: this page is missing from the built site"]
