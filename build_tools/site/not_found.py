"""
The page for addresses that do not exist, 404.html: the search box, and questions by their subject.

A host sends it for any missing address, in any folder; so its own links begin at the site's root.
"""

from __future__ import annotations

from collections.abc import Iterable
from itertools import groupby

from build_tools.markdown_blocks.blocks import way_to_all
from build_tools.markdown_blocks.pages import AnswerPage, list_of_subject, listed_first
from calculators.desk.svg import escape

NAME = "404.html"
TITLE = "This page is not here"


def article(pages: Iterable[AnswerPage], root: str) -> str:
    """
    The content of that page.

    Args:
        pages: Every answer page, those of one subject next to one another.
        root: The address before every page's.

    Returns:
        HTML text.
    """
    html = (
        f'<h1>{TITLE}</h1><p class="wa-lost">The address may have a slip in it, or the page has moved. '
        f'Find it by a few words, or begin at <a href="{root}index.html">all questions</a>.</p>'
        '<div class="wa-find-here"></div><div class="wa-questions">'
    )
    for subject, group in groupby(pages, key=lambda page: page.subject):
        rows = list(group)
        shown = listed_first(rows)
        listed = "".join(
            f'<li><a href="{root}{page.path.removesuffix(".md")}.html">{escape(page.question)}</a></li>'
            for page in shown
        )
        rest = way_to_all(root + list_of_subject(subject), subject, len(rows)) if len(shown) < len(rows) else ""
        name = escape(subject)
        html += (
            f'<section class="wa-subject" data-subject="{name}"><h2 id="{name}">{name.capitalize()}</h2>'
            f"<ul>{listed}</ul>{rest}</section>"
        )
    return html + "</div>"
