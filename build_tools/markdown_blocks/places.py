"""Which file is being built, as far as the generator tells: each one keeps it somewhere else."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

from markdown import Markdown


@dataclass(frozen=True, slots=True)
class Place:
    """The page's path for messages, its path below docs/, the docs folder, and its front matter's length in lines."""

    shown: str
    inside_docs: str
    docs: Path
    skipped: int


def place_of(md: Markdown) -> Place:
    """Where the page stands that this Markdown instance converts; docs/ of the current folder where unknown."""
    source = ""
    docs = Path("docs")
    if "relpath" in md.treeprocessors:  # MkDocs
        file = getattr(md.treeprocessors["relpath"], "file", None)
        source = str(getattr(file, "src_uri", "") or "")
        absolute = Path(str(getattr(file, "abs_src_path", "") or ""))
        if source and absolute.is_file():
            docs = absolute.parents[source.count("/")]
    elif "rendering_context" in md.preprocessors:  # Zensical
        source = str(getattr(getattr(md.preprocessors["rendering_context"], "page", None), "path", "") or "")
    if not source:
        return Place("this page", "", docs, 0)
    path = docs / source
    shown = f"{docs.name}/{source}"
    try:
        stat = path.stat()
    except OSError:
        return Place(shown, source, docs, 0)
    return Place(shown, source, docs, _skipped(path, stat.st_mtime_ns, stat.st_size))


@lru_cache(maxsize=64)
def _skipped(path: Path, changed: int, size: int) -> int:
    """The front matter's length of a page in this state: every block of a page asks."""
    return front_matter_lines(path.read_text("utf-8"))


def front_matter_lines(text: str) -> int:
    """How many lines a page's front matter takes, its two rules included."""
    lines = text.split("\n")
    if lines[0].strip() != "---":
        return 0
    for number, line in enumerate(lines[1:], 2):
        if line.strip() in ("---", "..."):
            return number
    return 0
