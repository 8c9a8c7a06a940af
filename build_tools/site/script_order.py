"""
Puts the page's own script first and lets it bring the theme's, so that a form is live before the theme sets itself up.

Knows HTML and where the builders write their scripts; build_tools/browser/theme.ts knows when the theme's turn is.
"""

from __future__ import annotations

import re
from pathlib import Path

_OURS = re.compile(r'<script src="(?P<address>[^"]*made/browser/page\.js)"></script>')
_THEMES = re.compile(r'<script src="(?P<address>[^"]*assets/javascripts/[^"]*\.js)"></script>')


def apply(site: Path) -> None:
    """Put the scripts of every page of a folder in order."""
    for path in sorted(site.rglob("*.html")):
        page = path.read_bytes().decode("utf-8")
        path.write_bytes(in_order(page).encode("utf-8"))


def in_order(page: str) -> str:
    """
    The page with its own script in its head, run once the page has been read, and the theme's address noted for it.

    Args:
        page: HTML; without our script it comes back as it is.

    Returns:
        HTML text.
    """
    ours = _OURS.search(page)
    if not ours or "</head>" not in page:
        return page
    page = page[: ours.start()] + page[ours.end() :]
    page = _THEMES.sub(lambda match: f'<template data-theme-script="{match["address"]}"></template>', page)
    return page.replace("</head>", f'<script src="{ours["address"]}" defer></script></head>', 1)
