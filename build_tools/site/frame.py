"""
Puts what a page generator made into the site's own frame: header, main, further questions, footer.

Of a generator's page it takes the title, the description, the canonical address and the article; look, navigation,
search and scripts are the site's own, so that both generators give the same page, and nothing of their theme is left.
"""

from __future__ import annotations

import posixpath
import re
import tomllib
from dataclasses import dataclass, field
from html import unescape
from pathlib import Path

from build_tools.episodes import feed, programme
from build_tools.markdown_blocks.pages import AnswerPage, answer_pages, list_of_subject
from build_tools.site import not_found
from calculators.desk.svg import escape

_TITLE = re.compile(r"<title>(.*?)</title>", re.S)
_DESCRIPTION = re.compile(r'<meta name="description" content="([^"]*)">')
_CANONICAL = re.compile(r'<link rel="canonical" href="([^"]*)">')
_ALTERNATE = re.compile(r'<link rel="alternate"[^>]*>')
_ICON = re.compile(r'<link rel="icon" href="([^"]*)">')
_ARTICLE = re.compile(r'<article class="md-content__inner md-typeset">(.*)</article>', re.S)
_CLASSES = re.compile(r'\bclass="([^"]*)"')
_EDITS = re.compile(r'<a [^>]*class="md-content__button[^>]*>.*?</a>', re.S)


@dataclass(frozen=True, slots=True)
class Frame:
    """What all pages share. Made once for a site."""

    name: str
    version: str
    corrections: str
    questions: str
    address: str
    first_script: str
    pages: tuple[AnswerPage, ...]
    links: tuple[tuple[str, str], ...]
    # Made of the pages, so that no page looks through all the others.
    by_name: dict[str, AnswerPage] = field(init=False, repr=False)
    by_subject: dict[str, list[AnswerPage]] = field(init=False, repr=False)
    places: dict[str, int] = field(init=False, repr=False)  # of each page among those of its subject

    def __post_init__(self) -> None:
        by_subject: dict[str, list[AnswerPage]] = {}
        places: dict[str, int] = {}
        for page in self.pages:
            row = by_subject.setdefault(page.subject, [])
            places[page.path] = len(row)
            row.append(page)
        object.__setattr__(self, "by_name", {page.path.removesuffix(".md") + ".html": page for page in self.pages})
        object.__setattr__(self, "by_subject", by_subject)
        object.__setattr__(self, "places", places)

    @property
    def scripts(self) -> frozenset[str]:
        """The scripts that stand in a page: only these may run (policy.py)."""
        return frozenset({self.first_script} - {""})


# The generator's own look, scripts and search.
_NOT_USED = ("assets/javascripts", "assets/stylesheets", "search")
# What header and footer lead to, where a site has it.
_LINKS = (
    ("index.html", "Questions"),
    ("episodes/index.html", "Episodes"),
    ("sources.html", "Sources"),
    ("about.html", "About"),
    ("presenting.html", "For presenters"),
)

# Shown by first.ts where the footer, a page's last part, has not come after ten seconds.
CUT_OFF = "Only a part of this page has arrived. If no more comes, load it again."

# A page's own list of further questions must not grow with their number.
MOST_FURTHER = 20


def of_project(project: Path, docs: Path | None = None) -> Frame:
    """The frame of a project's pages, by its settings and its answers; of other pages where docs is given."""
    settings = programme.read(project)
    version = tomllib.loads((project / "pyproject.toml").read_text("utf-8"))["project"]["version"]
    first = project / "docs" / "made" / "browser" / "first.js"
    docs = docs or project / "docs"
    return Frame(
        name=settings.site,
        version=version,
        corrections=settings.corrections,
        questions=settings.questions,
        address=settings.address,
        first_script=first.read_text("utf-8").strip() if first.is_file() else "",
        pages=tuple(answer_pages(docs)),
        links=tuple(link for link in _LINKS if (docs / link[0]).with_suffix(".md").is_file()),
    )


def apply(site: Path, frame: Frame) -> None:
    """Put every page of a freshly generated folder into the frame."""
    for path in sorted(site.rglob("*.html")):
        page = path.read_bytes().decode("utf-8")
        path.write_bytes(framed(page, path.relative_to(site).as_posix(), frame).encode("utf-8"))
    for folder in _NOT_USED:
        for path in sorted((site / folder).rglob("*"), reverse=True):
            if path.is_file() and path.name != "search_index.json":
                path.unlink()


def framed(page: str, name: str, frame: Frame) -> str:
    """
    One page in the site's frame.

    Args:
        page: The generator's HTML; without an article it comes back as it is.
        name: Its path in the site, with forward slashes.
        frame: What all pages share.

    Returns:
        HTML text.
    """
    article = _ARTICLE.search(page)
    if not article:
        return page
    # An article may hold anything, a title's or a link's markup too: what is said of the page stands in its head.
    head = page[: max(page.find("</head>"), 0)]
    named = _TITLE.search(head)
    title = unescape(named[1]) if named else frame.name
    title = title.removesuffix(f" - {frame.name}")
    # The page of dead ends may be shown at any depth: a host answers every missing address with it.
    nowhere = name == not_found.NAME
    root = "/" if nowhere else (posixpath.relpath(".", posixpath.dirname(name) or ".") + "/").removeprefix("./")
    body = not_found.article(frame.pages, root) if nowhere else _EDITS.sub("", article[1]).strip()
    title = not_found.TITLE if nowhere else title
    links = [match[0] for pattern in (_CANONICAL, _ALTERNATE, _ICON) if (match := pattern.search(head))]
    described = _DESCRIPTION.search(head)
    shown = title if title == frame.name else f"{title} – {frame.name}"
    return (
        '<!doctype html>\n<html lang="en" dir="ltr"><head><meta charset="utf-8">'
        '<meta name="viewport" content="width=device-width,initial-scale=1">'
        f"<title>{escape(shown)}</title>"
        + (f'<meta name="description" content="{described[1]}">' if described else "")
        + "".join(links)
        + f'<link rel="alternate" type="{feed.TYPE}" title="{escape(frame.name)}: corrections" '
        f'href="{root}{feed.PATH}">'
        # before the style: a script behind it waits for it, and where the line breaks meanwhile nothing is shown at all
        f'<script data-root="{root}">{frame.first_script}</script>'
        # asked for as soon as the style: where it comes first, the form works before the first layout, not after it
        f'<script src="{root}made/browser/page.js" defer fetchpriority="high"></script>'
        f'<link rel="stylesheet" href="{root}made/browser/page.css"></head>\n'
        f'<body data-root="{root}" data-corrections="{escape(frame.corrections)}" '
        f'data-questions="{escape(frame.questions)}">'
        '<a class="wa-skip" href="#wa-main">Skip to the page</a>'
        f'<p class="wa-cut-off" hidden>{CUT_OFF}</p>'
        + _header(root, frame)
        + f'<main id="wa-main" class="wa-page"><article class="{_looks_of(body)}">'
        f"{body}</article>{_print_foot(name, frame)}{_further(name, root, frame)}</main>\n"
        + _footer(root, frame)
        + "</body></html>\n"
    )


def _looks_of(body: str) -> str:
    """
    The classes of an article, by what stands in it.

    Told here and not asked with `:has()` in the style: that is asked again whenever a result brings a new element.
    """
    inside = {name for names in _CLASSES.findall(body) for name in names.split()}
    looks = ["wa-article", "wa-prose"]
    if not inside & {"wa-calculator", "wa-questions", "wa-segments"}:
        looks.append("wa-words-alone")
    if {"wa-find-here", "wa-newest"} <= inside:
        looks.append("wa-front")
    return " ".join(looks)


def _header(root: str, frame: Frame) -> str:
    first = ("index.html", "episodes/index.html")
    rows = "".join(f'<a href="{root}{target}">{label}</a>' for target, label in frame.links if target in first)
    return (
        '<header class="wa-header"><div class="wa-header-inside">'
        f'<a class="wa-home" href="{root}index.html">{escape(frame.name)}</a>'
        f'<nav class="wa-header-links" aria-label="Site">{rows}</nav>'
        # a link where scripts are off: the home page lists every question
        f'<a class="wa-find-open" href="{root}index.html">Find an answer</a>'
        '<button type="button" class="wa-scheme" hidden></button>'
        "</div></header>\n"
    )


def _print_foot(name: str, frame: Frame) -> str:
    """On paper alone: where the page is found, and when it was checked."""
    here = frame.by_name.get(name)
    address = f"{frame.address.rstrip('/')}/{name}" if frame.address else ""
    checked = f"Checked {here.meta['checked']}. " if here and here.meta.get("checked") else ""
    if not address and not checked:
        return ""
    return f'<p class="wa-print-foot">{escape(checked)}<span class="wa-print-address">{escape(address)}</span></p>'


def _further(name: str, root: str, frame: Frame) -> str:
    """Other questions of an answer page's subject: those around it, and where there are more, the way to all."""
    here = frame.by_name.get(name)
    if here is None:
        return ""
    subject, place = frame.by_subject[here.subject], frame.places[here.path]
    start = max(0, min(place - MOST_FURTHER // 2, len(subject) - 1 - MOST_FURTHER))
    rows = "".join(
        f'<li><a href="{root}{page.path.removesuffix(".md")}.html">{escape(page.question)}</a></li>'
        for page in subject[start : start + MOST_FURTHER + 1]
        if page is not here
    )
    if len(subject) - 1 > MOST_FURTHER:
        rows += (
            f'<li><a href="{root}{list_of_subject(here.subject)}">All questions about {escape(here.subject)}</a></li>'
        )
    if not rows:
        return ""
    title = f"More questions about {escape(here.subject)}"
    return (
        '<nav class="wa-further wa-prose" aria-label="More questions">'
        f'<details class="wa-fold" data-fold="more" open><summary>{title}</summary><ul>{rows}</ul></details></nav>'
    )


def _footer(root: str, frame: Frame) -> str:
    rows = "".join(f'<li><a href="{root}{target}">{label}</a></li>' for target, label in frame.links)
    return (
        f'<footer class="wa-footer"><nav aria-label="Everything"><ul>{rows}'
        '<li><button type="button" class="wa-scheme" hidden></button></li></ul></nav>'
        f'<p class="wa-offline" role="status"></p><p>Made with Worked Answers {escape(frame.version)}</p></footer>\n'
    )
