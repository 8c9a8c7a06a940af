"""
Checks a built site as a file server would serve it. Knows HTML and CSS; knows no builder and no Markdown.

A strict build does not notice a block left as text, a link made by hand, or a picture from another host;
this does. Each problem is one line: the source file and line where it can be told, else the built file's.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from html.parser import HTMLParser
from pathlib import Path, PurePosixPath
from urllib.parse import unquote, urlsplit

# What is left in a page when a block or an inline figure was not understood.
_LEFTOVER = re.compile(r"^[ \t]*///+[ \t]*\S.*|\{=.*", re.MULTILINE)
_CSS_ADDRESS = re.compile(
    r"""url\(\s*(?P<quote>["']?)(?P<address>.*?)(?P=quote)\s*\)|@import\s+["'](?P<sheet>[^"']+)["']"""
)
_CSS_COMMENT = re.compile(r"/\*.*?\*/", re.DOTALL)

_LITERAL = frozenset({"code", "pre", "script", "style", "textarea", "template"})
_EMPTY = frozenset(
    "area base br col embed hr img input link meta param source track wbr path circle rect line use".split()
)
# (element, attribute) pairs whose address the browser fetches by itself.
_FETCHED = {
    ("script", "src"), ("img", "src"), ("iframe", "src"), ("embed", "src"), ("object", "data"),
    ("audio", "src"), ("video", "src"), ("video", "poster"), ("source", "src"), ("track", "src"),
    ("input", "src"), ("image", "href"), ("image", "xlink:href"), ("use", "href"), ("use", "xlink:href"),
    ("feimage", "href"),
    ("template", "data-theme-script"),   # fetched by the page's own script
}  # fmt: skip
_LINK_ONLY = frozenset({"canonical", "alternate", "next", "prev", "author", "license", "me"})
_NOT_FILES = frozenset({"mailto", "tel", "sms"})


@dataclass
class _Page:
    """What one HTML file holds, as far as the checks go."""

    ids: set[str] = field(default_factory=set)
    calculators: set[str] = field(default_factory=set)
    links: list[tuple[int, str]] = field(default_factory=list)
    fetched: list[tuple[int, str]] = field(default_factory=list)
    texts: list[tuple[int, str]] = field(default_factory=list)


class _Reader(HTMLParser):
    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.page = _Page()
        self._open: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag not in _EMPTY:
            self._open.append(tag)
        self._look(tag, {name: value or "" for name, value in attrs})

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self._look(tag, {name: value or "" for name, value in attrs})

    def handle_endtag(self, tag: str) -> None:
        if tag in self._open:
            while self._open.pop() != tag:
                pass

    def handle_data(self, data: str) -> None:
        line = self.getpos()[0]
        if "style" in self._open:
            self.page.fetched += [(line, address) for address in _css_addresses(data)]
        elif not _LITERAL.intersection(self._open):
            self.page.texts.append((line, data))

    def _look(self, tag: str, attributes: dict[str, str]) -> None:
        page, line = self.page, self.getpos()[0]
        if "id" in attributes:
            page.ids.add(attributes["id"])
        if tag == "a" and "name" in attributes:
            page.ids.add(attributes["name"])
        if "data-calculator" in attributes:
            page.calculators.add(attributes["data-calculator"])
        for name, value in attributes.items():
            if (tag, name) in _FETCHED:
                page.fetched.append((line, value))
            elif name == "srcset":
                page.fetched += [(line, part.split()[0]) for part in value.split(",") if part.strip()]
            elif name == "style":
                page.fetched += [(line, address) for address in _css_addresses(value)]
            elif name == "href" and tag == "link":
                kinds = set(attributes.get("rel", "").lower().split())
                (page.links if kinds & _LINK_ONLY else page.fetched).append((line, value))
            elif (tag, name) in {("a", "href"), ("area", "href"), ("form", "action")}:
                page.links.append((line, value))


def check(site: Path, docs: Path | None = None) -> list[str]:
    """
    Everything that is wrong with a built site, in the order of its files; nothing when all is well.

    Args:
        site: The folder that would be served.
        docs: The Markdown that it was made from, to say where a fault comes from and to miss no page.
    """
    if not (site / "index.html").is_file():
        return [f"{site.name}/index.html: the site has no front page"]
    pages = {path.relative_to(site).as_posix(): _read(path) for path in sorted(site.rglob("*.html"))}
    problems: list[str] = []
    for name in pages:
        place = _Place(site, docs, name)
        problems += [place.says(line, text, why) for line, text, why in _faults(site, name, pages)]
    for path in sorted(site.rglob("*.css")):
        problems += list(_css_faults(site, path))
    return problems + (list(_missing_pages(site, docs)) if docs else [])


def _faults(site: Path, name: str, pages: dict[str, _Page]) -> Iterator[tuple[int, str, str]]:
    """(line in the built file, text to look for in the source, what is wrong) for one page."""
    page = pages[name]
    for line, text in page.texts:
        for match in _LEFTOVER.finditer(text):
            left = match[0].strip()
            where = line + text.count("\n", 0, match.start())
            yield where, left, f"not understood, so it stands in the page as text: {left}"
    for line, address in page.fetched:
        why = _fetch_fault(site, name, address)
        if why:
            yield line, address, f"{why}: {address}"
    for line, address in page.links:
        why = _link_fault(site, name, address, pages)
        if why:
            yield line, address, f"{why}: {address}"


def _fetch_fault(site: Path, name: str, address: str) -> str | None:
    parts = urlsplit(address)
    if parts.scheme == "data" or not address.partition("#")[0]:
        return None
    if parts.scheme or parts.netloc:
        return "the page would fetch this from another host"
    return None if _target(site, name, parts.path).is_file() else "the page fetches a file that is not there"


def _link_fault(site: Path, name: str, address: str, pages: dict[str, _Page]) -> str | None:
    parts = urlsplit(address)
    if parts.scheme in _NOT_FILES:
        return None
    if parts.scheme in {"http", "https"} or parts.netloc:
        return None if parts.netloc else "dead link"
    if parts.scheme:
        return "a link that a page must not have"
    target = _target(site, name, parts.path) if parts.path else site / name
    if target.is_dir():
        target = target / "index.html"
    if not target.is_file():
        return "dead link (no such page or file)"
    fragment = unquote(parts.fragment)
    there = pages.get(target.relative_to(site).as_posix())
    if not fragment or there is None or fragment in there.ids:
        return None
    calculator, colon, _ = fragment.partition(":")
    if colon and calculator in there.calculators:
        return None
    return "dead link (no such place on that page)"


def _css_faults(site: Path, path: Path) -> Iterator[str]:
    name = path.relative_to(site).as_posix()
    text = path.read_text("utf-8")
    for address in _css_addresses(text):
        why = _fetch_fault(site, name, address)
        if why:
            line = text[: text.index(address)].count("\n") + 1
            yield f"{site.name}/{name}:{line}: {why}: {address}"


def _css_addresses(text: str) -> list[str]:
    bare = _CSS_COMMENT.sub("", text)
    return [found for match in _CSS_ADDRESS.finditer(bare) if (found := match["address"] or match["sheet"])]


def _missing_pages(site: Path, docs: Path) -> Iterator[str]:
    for source in sorted(docs.rglob("*.md")):
        inside = source.relative_to(docs)
        hidden = any(part.startswith(".") for part in inside.parts)
        if not hidden and not (site / inside.with_suffix(".html")).is_file():
            yield f"docs/{inside.as_posix()}:1: this page is missing from the built site"


def _target(site: Path, name: str, path: str) -> Path:
    """The file that an address in a page means. One that leads out of the site leads to nothing."""
    start = PurePosixPath("/") if path.startswith("/") else PurePosixPath("/") / PurePosixPath(name).parent
    parts: list[str] = []
    for part in (start / unquote(path).lstrip("/")).parts[1:]:
        if part == "..":
            if not parts:
                return site / "outside" / "of" / "the" / "site"
            parts.pop()
        else:
            parts.append(part)
    return site.joinpath(*parts)


def _read(path: Path) -> _Page:
    reader = _Reader()
    reader.feed(path.read_text("utf-8"))
    reader.close()
    return reader.page


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
                found = [number for number, content in enumerate(lines, 1) if wanted and wanted in content]
                if found:
                    return f"docs/{inside}:{found[0]}: {why}"
            return f"docs/{inside}: {why} (line {line} of the built page)"
        return f"{self.site.name}/{self.name}:{line}: {why}"
