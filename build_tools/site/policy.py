"""
Puts a content security policy into every page of a built site. Knows HTML and the policy's language; knows no builder.

A page may use the site's own files, the scripts that stand in it (by hash), and WebAssembly: nothing from another host,
and nothing made up at run time. Pages carry it themselves, so that it holds on any host and in a folder. What a page
cannot say for itself (frame-ancestors) is for the host's headers: DEVELOPERS.md tells which.
"""

from __future__ import annotations

import base64
import hashlib
import re
from collections.abc import Iterable
from pathlib import Path

_SCRIPT = re.compile(r"<script(?P<attributes>(?:\s[^>]*)?)>(?P<text>.*?)</script>", re.DOTALL | re.IGNORECASE)
_STYLE = re.compile(r"<style(?:\s[^>]*)?>(?P<text>.*?)</style>", re.DOTALL | re.IGNORECASE)
_STYLE_ATTRIBUTE = re.compile(r"<[a-z][^<>]*\sstyle\s*=", re.IGNORECASE)
_HEAD = re.compile(r"<head(?:\s[^>]*)?>", re.IGNORECASE)
_CHARSET = re.compile(r"\s*<meta charset=[^>]*>", re.IGNORECASE)
_RUNS = re.compile(r"""\stype\s*=\s*["']?(?:text/javascript|module|importmap)["'\s>]|^(?!.*\stype\s*=)""", re.DOTALL)

# In the order in which they are written; script-src and style-src get the hashes of what stands in the page.
_RULES = {
    "default-src": "'none'",
    "script-src": "'self' 'wasm-unsafe-eval'",
    "style-src": "'self'",
    "img-src": "'self' data: blob:",
    "media-src": "'self' data: blob:",
    "font-src": "'self'",
    "connect-src": "'self'",
    "worker-src": "'self' blob:",
    "frame-src": "'self'",
    "manifest-src": "'self'",
    "form-action": "'self'",
    "base-uri": "'none'",
    "object-src": "'none'",
}


def apply(site: Path) -> None:
    """Write the policy into every page of a folder."""
    for path in sorted(site.rglob("*.html")):
        page = path.read_bytes().decode("utf-8")
        path.write_bytes(with_policy(page).encode("utf-8"))


def with_policy(page: str) -> str:
    """
    The page with its policy as the first thing in its head, after the character set.

    Args:
        page: HTML with a head; without one it comes back as it is.

    Returns:
        HTML text.
    """
    head = _HEAD.search(page)
    if not head:
        return page
    start = head.end()
    charset = _CHARSET.match(page, start)
    start = charset.end() if charset else start
    return f'{page[:start]}<meta http-equiv="Content-Security-Policy" content="{policy(page)}">{page[start:]}'


def policy(page: str) -> str:
    """The policy for one page: the site's own files, and what stands in this page by its hash."""
    rules = dict(_RULES)
    scripts = [
        match["text"]
        for match in _SCRIPT.finditer(page)
        if not re.search(r"\ssrc\s*=", match["attributes"]) and _RUNS.search(match["attributes"] + ">")
    ]
    rules["script-src"] += _hashes(scripts)
    rules["style-src"] += _hashes(match["text"] for match in _STYLE.finditer(page))
    if _STYLE_ATTRIBUTE.search(page):
        rules["style-src-attr"] = "'unsafe-inline'"
    return "; ".join(f"{name} {value}" for name, value in rules.items())


def _hashes(texts: Iterable[str]) -> str:
    found = {
        base64.b64encode(hashlib.sha256(_as_read(text).encode("utf-8")).digest()).decode() for text in texts if text
    }
    return "".join(f" 'sha256-{each}'" for each in sorted(found))


def _as_read(text: str) -> str:
    """A browser reads every line end as one character before it compares."""
    return text.replace("\r\n", "\n").replace("\r", "\n")
