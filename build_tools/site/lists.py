"""
Writes a page with all questions of a subject, for subjects of which the home page and the 404 page show only some.

Knows answer pages and the site's frame. No Markdown file stands behind these pages.
"""

from __future__ import annotations

from pathlib import Path

from build_tools.markdown_blocks.pages import MOST_LISTED, AnswerPage, list_of_subject
from build_tools.site import frame
from calculators.desk.svg import escape


def write(site: Path, around: frame.Frame) -> None:
    """Write the lists into a site's folder, in its frame. Subjects whose lists have the same address share a page."""
    lists: dict[str, dict[str, list[AnswerPage]]] = {}
    for subject, pages in around.by_subject.items():
        if len(pages) > MOST_LISTED:
            lists.setdefault(list_of_subject(subject), {})[subject] = pages
    for name, subjects in lists.items():
        path = site / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(frame.framed(_generated(name, subjects), name, around).encode("utf-8"))


def _generated(name: str, subjects: dict[str, list[AnswerPage]]) -> str:
    """The markup that a site generator would give such a page; `framed` puts the site's frame around it."""
    title = f"Questions about {' and '.join(subjects)}"
    root = "../" * name.count("/")
    rows = "".join(
        f'<li><a href="{root}{page.path.removesuffix(".md")}.html">{escape(page.question)}</a></li>'
        for pages in subjects.values()
        for page in pages
    )
    return (
        f"<html><head><title>{escape(title)}</title></head><body>"
        f'<article class="md-content__inner md-typeset"><h1>{escape(title)}</h1>'
        f'<div class="wa-questions"><ul>{rows}</ul></div></article></body></html>'
    )
