"""
Puts a content security policy into every page of a built site. Knows HTML and the policy's language, and no builder.

A page may use the site's own files, the scripts that the site itself puts into pages (by their hashes), and
WebAssembly: nothing from another host, and nothing made up at run time. A script that stands in a page for any other
reason, written there or slipped in by a title, is not hashed, so that it would not run, and it stops the build. Pages
carry the policy themselves, so that it holds on any host and in a folder. What a page cannot say for itself
(frame-ancestors) is for the host's headers: DEVELOPERS.md tells which.
"""

from __future__ import annotations

import base64
import hashlib
import re
from collections.abc import Collection, Iterable
from pathlib import Path

from build_tools.environment.trouble import Trouble

_SCRIPT = re.compile(r"<script(?P<attributes>(?:\s[^>]*)?)>(?P<text>.*?)</script>", re.DOTALL | re.IGNORECASE)
_STYLE = re.compile(r"<style(?:\s[^>]*)?>(?P<text>.*?)</style>", re.DOTALL | re.IGNORECASE)
_STYLE_ATTRIBUTE = re.compile(r"<[a-z][^<>]*\sstyle\s*=", re.IGNORECASE)
_HEAD = re.compile(r"<head(?:\s[^>]*)?>", re.IGNORECASE)
_CHARSET = re.compile(r"\s*<meta charset=[^>]*>", re.IGNORECASE)
# Data, which is never run; a file, which must be the site's own.
_NO_SCRIPT_OF_THE_PAGE = re.compile(r"""\stype\s*=\s*["']application/json["']|\ssrc\s*=""", re.IGNORECASE)

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


def apply(site: Path, known: Collection[str], shown: str = "docs") -> None:
    """
    Write the policy into every page of a folder.

    Args:
        site: The folder.
        known: The scripts that may stand in a page, letter for letter.
        shown: What the folder of the pages' sources is called, for messages.

    Raises:
        Trouble: A page holds another script; one line for each page.
    """
    wrong = []
    for path in sorted(site.rglob("*.html")):
        page = path.read_bytes().decode("utf-8")
        strange = strangers(page, known)
        if strange:
            source = path.relative_to(site).with_suffix(".md").as_posix()
            wrong.append(f"{shown}/{source}:1: a page may hold no script of its own; take out '{strange[0]}'")
        path.write_bytes(with_policy(page, known).encode("utf-8"))
    if wrong:
        raise Trouble("\n".join(wrong))


def with_policy(page: str, known: Collection[str] = ()) -> str:
    """
    The page with its policy as the first thing in its head, after the character set.

    Args:
        page: HTML with a head; without one it comes back as it is.
        known: The scripts that may stand in it, letter for letter.

    Returns:
        HTML text.
    """
    head = _HEAD.search(page)
    if not head:
        return page
    start = head.end()
    charset = _CHARSET.match(page, start)
    start = charset.end() if charset else start
    return f'{page[:start]}<meta http-equiv="Content-Security-Policy" content="{policy(page, known)}">{page[start:]}'


def policy(page: str, known: Collection[str] = ()) -> str:
    """The policy for one page: the site's own files, and by hash its styles and those of its scripts that are known."""
    rules = dict(_RULES)
    rules["script-src"] += _hashes(text for text in known if text in page)
    rules["style-src"] += _hashes(match["text"] for match in _STYLE.finditer(page))
    if _STYLE_ATTRIBUTE.search(page):
        rules["style-src-attr"] = "'unsafe-inline'"
    return "; ".join(f"{name} {value}" for name, value in rules.items())


def strangers(page: str, known: Collection[str]) -> list[str]:
    """The beginnings of the scripts that stand in a page and are not known."""
    return [
        " ".join(match[0].split())[:60]
        for match in _SCRIPT.finditer(page)
        if not _NO_SCRIPT_OF_THE_PAGE.search(match["attributes"]) and match["text"] not in known
    ]


def _hashes(texts: Iterable[str]) -> str:
    hashes = {
        base64.b64encode(hashlib.sha256(_as_read(text).encode("utf-8")).digest()).decode() for text in texts if text
    }
    return "".join(f" 'sha256-{each}'" for each in sorted(hashes))


def _as_read(text: str) -> str:
    """A browser reads every line end as one character before it compares."""
    return text.replace("\r\n", "\n").replace("\r", "\n")
