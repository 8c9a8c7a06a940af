"""
Writes the search index that a page opened from a folder can read: as a script, since it may not fetch.

Knows the index that the page builders write (search/search_index.json); the theme looks for the script by itself when
a page is opened from a folder, and build_tools/browser/folder_search.ts searches in it.
"""

from __future__ import annotations

import json
import re
from html import unescape
from pathlib import Path

_TAG = re.compile(r"<[^>]+>")
_SPACE = re.compile(r"\s+")
# What the theme's own search would get from this script: an index of nothing.
_NOTHING = {"config": {"lang": ["en"], "separator": r"[\s\-]+", "pipeline": [], "fields": {}}, "docs": []}


def write(site: Path) -> None:
    """Write search/search_index.js beside the index of a built site; nothing where there is no index."""
    indexes = [site / "search" / "search_index.json", site / "search.json"]  # of the one builder and of the other
    index = next((each for each in indexes if each.is_file()), None)
    if index is None:
        return
    found = json.loads(index.read_text("utf-8"))
    listed = found.get("docs", found.get("items", ()))
    entries = [[each["location"], each["title"], plain(each["text"])] for each in listed]
    text = f"var __index={_dumps(_NOTHING)};window.waSearch={_dumps(entries)};\n"
    target = site / "search" / "search_index.js"
    target.parent.mkdir(exist_ok=True)
    target.write_text(text, "utf-8", newline="\n")


def plain(html: str) -> str:
    """The words of a piece of HTML."""
    return _SPACE.sub(" ", unescape(_TAG.sub(" ", html))).strip()


def _dumps(value: object) -> str:
    return json.dumps(value, ensure_ascii=False, separators=(",", ":"))
