"""
Checks a built site as a file server would serve it. Knows HTML and CSS; knows no builder and no Markdown.

A strict build does not notice a block left as text, a link made by hand, or a picture from another host;
this does. Each problem is one line: the source file and line where it can be told, else the built file's.
"""

import posixpath
import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import lru_cache
from html import unescape
from pathlib import Path, PurePosixPath
from urllib.parse import unquote, urlsplit

# What is left in a page when a block or an inline figure was not understood.
_LEFTOVER = re.compile(r"^[ \t]*///+[ \t]*\S.*|\{=.*", re.MULTILINE)
_CSS_ADDRESS = re.compile(
    r"""url\(\s*(?P<quote>["']?)(?P<address>.*?)(?P=quote)\s*\)|@import\s+["'](?P<sheet>[^"']+)["']"""
)
_CSS_COMMENT = re.compile(r"/\*.*?\*/", re.DOTALL)

# Inside these a '///' is an example, not a block that was not understood.
_LITERAL = frozenset({"code", "pre", "script", "style", "textarea", "template"})
# (element, attribute) pairs whose address the browser fetches by itself.
_FETCHED = {
    ("script", "src"), ("img", "src"), ("iframe", "src"), ("embed", "src"), ("object", "data"),
    ("audio", "src"), ("video", "src"), ("video", "poster"), ("source", "src"), ("track", "src"),
    ("input", "src"), ("image", "href"), ("image", "xlink:href"), ("use", "href"), ("use", "xlink:href"),
    ("feimage", "href"),
}  # fmt: skip
# Values of <link rel> whose address the browser does not fetch by itself.
_LINK_ONLY = frozenset({"canonical", "alternate", "next", "prev", "author", "license", "me"})
_NOT_FILES = frozenset({"mailto", "tel", "sms"})


# A comment, or a tag with its attributes. Builders write well-formed HTML, and a parser takes five times as long.
_TAG = re.compile(
    r"""<!--.*?-->|<(?P<end>/?)(?P<name>[a-zA-Z][^\s/>]*)(?P<attributes>(?:[^>"']|"[^"]*"|'[^']*')*)>""", re.DOTALL
)
_ATTRIBUTE = re.compile(r"""(?P<name>[^\s=/"'>]+)(?:\s*=\s*(?:"(?P<d>[^"]*)"|'(?P<s>[^']*)'|(?P<u>[^\s"'>]+)))?""")
# Attributes that matter here: most tags have none of them, and are passed by.
_TELLING = re.compile(r"\b(?:id|name|href|src|srcset|data|data-calculator|poster|style|action)\s*=", re.IGNORECASE)
_RAW = frozenset({"script", "style", "textarea", "title"})  # no tags inside


@dataclass
class _Page:
    """What one HTML file holds, as far as the checks go. Places are counted in characters from its beginning."""

    ids: set[str] = field(default_factory=set)
    calculators: set[str] = field(default_factory=set)
    links: list[tuple[int, str]] = field(default_factory=list)
    fetched: list[tuple[int, str]] = field(default_factory=list)
    texts: list[tuple[int, str]] = field(default_factory=list)


def _read(html: str) -> _Page:
    page, at, literal = _Page(), 0, 0
    while match := _TAG.search(html, at):
        _text(page, html, at, match.start(), literal)
        at, tag = match.end(), (match["name"] or "").lower()
        if not tag:
            continue
        if tag in _LITERAL and tag not in _RAW:
            literal = max(0, literal + (-1 if match["end"] else 1))
        if match["end"]:
            continue
        if _TELLING.search(match["attributes"]):
            attributes = {
                each["name"].lower(): unescape(each["d"] or each["s"] or each["u"] or "")
                for each in _ATTRIBUTE.finditer(match["attributes"])
            }
            _look(page, match.start(), tag, attributes)
        if tag in _RAW:
            closing = re.compile(rf"</{tag}[\s>]", re.I).search(html, at)
            end = closing.start() if closing else len(html)
            if tag == "style":
                page.fetched += [(at, address) for address in _css_addresses(html[at:end])]
            elif tag == "title":
                _text(page, html, at, end, literal)
            at = end
    _text(page, html, at, len(html), literal)
    return page


def _text(page: _Page, html: str, start: int, end: int, literal: int) -> None:
    """Notes a text between tags if something may be left in it that was not understood."""
    if not literal and start < end and (html.find("///", start, end) >= 0 or html.find("{=", start, end) >= 0):
        page.texts.append((start, unescape(html[start:end])))


def _look(page: _Page, at: int, tag: str, attributes: dict[str, str]) -> None:
    """Notes what one tag brings: ids, calculators, links, and addresses that are fetched."""
    if "id" in attributes:
        page.ids.add(attributes["id"])
    if tag == "a" and "name" in attributes:
        page.ids.add(attributes["name"])
    if "data-calculator" in attributes:
        page.calculators.add(attributes["data-calculator"])
    for name, value in attributes.items():
        if (tag, name) in _FETCHED:
            page.fetched.append((at, value))
        elif name == "srcset":
            page.fetched += [(at, part.split()[0]) for part in value.split(",") if part.strip()]
        elif name == "style":
            page.fetched += [(at, address) for address in _css_addresses(value)]
        elif name == "href" and tag == "link":
            kinds = set(attributes.get("rel", "").lower().split())
            (page.links if kinds & _LINK_ONLY else page.fetched).append((at, value))
        elif (tag, name) in {("a", "href"), ("area", "href"), ("form", "action")}:
            page.links.append((at, value))


class _Site:
    """
    A built site's folder, its files known by name.

    Of its pages nothing is kept: thousands of them would fill the memory. What hangs on another page is looked at once
    all have been read.
    """

    def __init__(self, root: Path) -> None:
        self.root = root
        self.files = {path.relative_to(root).as_posix() for path in root.rglob("*") if path.is_file()}
        self.pages = sorted(name for name in self.files if name.endswith(".html"))
        # By the page that a link leads to, and the place in it: the pages that hold such a link, and where.
        self.led_to: dict[str, dict[str, list[tuple[str, int, str]]]] = {}

    def read(self, name: str) -> _Page:
        """What one page holds."""
        return _read((self.root / name).read_text("utf-8"))

    def line(self, name: str, at: int) -> int:
        """The line of a place in a page, counted from 1."""
        return (self.root / name).read_text("utf-8").count("\n", 0, at) + 1


def check(site: Path, docs: Path | None = None) -> list[str]:
    """
    Everything that is wrong with a built site, in the order of its files; nothing when all is well.

    Args:
        site: The folder that would be served.
        docs: The Markdown that it was made from, to say where a fault comes from and to miss no page.
    """
    if not (site / "index.html").is_file():
        return [f"{site.name}/index.html: the site has no front page"]
    built = _Site(site)
    by_page: dict[str, list[_Fault]] = {}
    for name in built.pages:
        if faults := list(_faults(built, name, built.read(name))):
            by_page[name] = faults
    for name, fault in _dead_places(built):
        by_page.setdefault(name, []).append(fault)
    problems = []
    for name in sorted(by_page):
        place = _Place(site, docs, name)
        problems += [place.says(line, text, why) for _, _, line, text, why in sorted(by_page[name])]
    for name in sorted(each for each in built.files if each.endswith(".css")):
        problems += list(_css_faults(built, name))
    return problems + (list(_missing_pages(site, docs)) if docs else [])


# (what kind of fault, and its place, for their order; line in the built file; text to look for in the source; what is
# wrong)
_Fault = tuple[int, int, int, str, str]


def _faults(site: _Site, name: str, page: _Page) -> Iterator[_Fault]:
    """What is wrong with one page by itself; its links to places in other pages are noted."""
    for at, text in page.texts:
        for match in _LEFTOVER.finditer(text):
            left = match[0].strip()
            where = site.line(name, at) + text.count("\n", 0, match.start())
            yield 0, at + match.start(), where, left, f"not understood, so it stands in the page as text: {left}"
    for at, address in page.fetched:
        why = _fetch_fault(site, name, address)
        if why:
            yield 1, at, site.line(name, at), address, f"{why}: {address}"
    for at, address in page.links:
        why = _link_fault(site, name, page, at, address)
        if why:
            yield 2, at, site.line(name, at), address, f"{why}: {address}"


def _dead_places(site: _Site) -> Iterator[tuple[str, _Fault]]:
    """Links to places that another page does not have, with the page that holds the link."""
    for target, places in site.led_to.items():
        there = site.read(target)
        for fragment, links in places.items():
            if not _has_place(there, fragment):
                for name, at, address in links:
                    yield name, (2, at, site.line(name, at), address, f"{_NO_PLACE}: {address}")


_NO_PLACE = "dead link (no such place on that page)"


def _has_place(page: _Page, fragment: str) -> bool:
    calculator, colon, _ = fragment.partition(":")
    return fragment in page.ids or (bool(colon) and calculator in page.calculators)


def _fetch_fault(site: _Site, name: str, address: str) -> str | None:
    parts = urlsplit(address)
    if parts.scheme == "data" or not address.partition("#")[0]:
        return None
    if parts.scheme or parts.netloc:
        return "the page would fetch this from another host"
    known = _target(posixpath.dirname(name), parts.path) in site.files
    return None if known else "the page fetches a file that is not there"


def _link_fault(site: _Site, name: str, page: _Page, at: int, address: str) -> str | None:
    parts = urlsplit(address)
    if parts.scheme in _NOT_FILES:
        return None
    if parts.scheme in {"http", "https"} or parts.netloc:
        return None if parts.netloc else "dead link"
    if parts.scheme:
        return "a link that a page must not have"
    target = _target(posixpath.dirname(name), parts.path) if parts.path else name
    if target not in site.files:
        target = posixpath.join(target or "", "index.html") if target is not None else ""
    if target not in site.files:
        return "dead link (no such page or file)"
    fragment = unquote(parts.fragment)
    if not fragment or not target.endswith(".html"):
        return None
    if target == name:
        return None if _has_place(page, fragment) else _NO_PLACE
    site.led_to.setdefault(target, {}).setdefault(fragment, []).append((name, at, address))
    return None


def _css_faults(site: _Site, name: str) -> Iterator[str]:
    text = (site.root / name).read_text("utf-8")
    for address in _css_addresses(text):
        why = _fetch_fault(site, name, address)
        if why:
            line = text[: text.index(address)].count("\n") + 1
            yield f"{site.root.name}/{name}:{line}: {why}: {address}"


def _css_addresses(text: str) -> list[str]:
    without_comments = _CSS_COMMENT.sub("", text)
    return [
        address for match in _CSS_ADDRESS.finditer(without_comments) if (address := match["address"] or match["sheet"])
    ]


def _missing_pages(site: Path, docs: Path) -> Iterator[str]:
    for source in sorted(docs.rglob("*.md")):
        inside = source.relative_to(docs)
        hidden = any(part.startswith(".") for part in inside.parts)
        if not hidden and not (site / inside.with_suffix(".html")).is_file():
            yield f"docs/{inside.as_posix()}:1: this page is missing from the built site"


@lru_cache(maxsize=65536)
def _target(folder: str, path: str) -> str | None:
    """
    The file that an address in a page of that folder means, from the site's root; "" for the root itself.

    None where the address leads out of the site's folder: it is dead then.
    """
    parts: list[str] = [] if path.startswith("/") or not folder else folder.split("/")
    for part in unquote(path).lstrip("/").split("/"):
        if part == "..":
            if not parts:
                return None
            parts.pop()
        elif part not in ("", "."):
            parts.append(part)
    return "/".join(parts)


@dataclass
class _Place:
    """Finds where in the Markdown a fault of a built page comes from."""

    site: Path
    docs: Path | None
    name: str

    def says(self, line: int, text: str, why: str) -> str:
        inside = PurePosixPath(self.name).with_suffix(".md").as_posix()
        source = self.docs / inside if self.docs else None
        if source and source.is_file():
            lines = source.read_text("utf-8").split("\n")
            for wanted in (text, PurePosixPath(urlsplit(text).path).stem, urlsplit(text).fragment):
                line_numbers = [number for number, content in enumerate(lines, 1) if wanted and wanted in content]
                if line_numbers:
                    return f"docs/{inside}:{line_numbers[0]}: {why}"
            return f"docs/{inside}: {why} (line {line} of the built page)"
        return f"{self.site.name}/{self.name}:{line}: {why}"
