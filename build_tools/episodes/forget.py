"""
Takes a viewer's handle out of all sheets and the presenter's own files: makes a plan to look at, then carries it out.

Only texts change, never a key, a number or the name of a page; and only a handle that is somebody's is taken.
"""

from __future__ import annotations

import functools
import json
import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import yaml

from build_tools import keeping
from build_tools.episodes.sheet import ANONYMOUS
from build_tools.markdown_blocks.marked_yaml import NotYaml, compose
from build_tools.markdown_blocks.places import front_matter_lines
from build_tools.markdown_blocks.reading import CannotRead, read_text
from calculators.desk.errors import nearest_names

# Entries whose values are texts that people wrote. No other value can name a viewer.
PROSE = frozenset("title summary question chapter viewer said spoken short_answer note was now why to".split())
PASTED = ".pasted"
OWN = ".presenter"  # comments put in, cards in line, takes: the presenter's own folder, beside docs/
_HANDLE = re.compile(r"^([ \t]*handle[ \t]*:[ \t]*)(.*?)[ \t\r]*$", re.M | re.I)  # as a comment of the post begins
_CONSENT = re.compile(r"^([ \t]*consent[ \t]*:[ \t]*).*?$", re.M | re.I)
BUNDLE_LIST = "bundle.json"  # by which a folder made for an editor is known
_TEXTS = frozenset(".txt .csv .vtt .json .html .svg .otio".split())
_AGREED = frozenset({"true", "yes", "on"})  # as YAML 1.1 reads a plain word
OUT_OF_REACH = (
    "Out of reach: descriptions, comments and replies that were pasted elsewhere keep the handle until you change them "
    "there, and git's history keeps it until that is rewritten."
)


class CannotForget(ValueError):
    """Nothing was changed; the text says why."""


@dataclass(frozen=True, slots=True)
class Change:
    """One line that changes: the file, the line, and how it reads before and after."""

    shown: str
    line: int
    before: str
    after: str

    def __str__(self) -> str:
        return f"{self.shown}:{self.line}\n  - {self.before.strip()}\n  + {self.after.strip()}"


@dataclass(frozen=True, slots=True)
class Plan:
    """What would change, and what cannot be reached from here."""

    handle: str
    docs: Path
    changes: tuple[Change, ...]
    files: tuple[Path, ...]
    out_of_reach: tuple[str, ...]


def handles(docs: Path) -> dict[str, str]:
    """Every handle that a sheet gives to a viewer: as it is compared, and as it is written."""
    by_plain_handle = {}
    for path in _presenters_files(docs):
        for match in _HANDLE.finditer(_read_plain(path)):
            if _plain_handle(match[2]) and _plain_handle(match[2]) != ANONYMOUS:
                by_plain_handle[_plain_handle(match[2])] = match[2].strip()
    for path in _sheets(docs):
        for text in _texts(path):
            for key, node, _ in _values(text):
                if key == "viewer" and _plain_handle(node.value) and _plain_handle(node.value) != ANONYMOUS:
                    by_plain_handle[_plain_handle(node.value)] = node.value
    return by_plain_handle


def plan(docs: Path, handle: str) -> Plan:
    """
    What forgetting a viewer would change.

    Args:
        docs: The folder of pages. [path]
        handle: The viewer's name, with or without @. [text]

    Returns:
        The plan; nothing is changed yet. [object]

    Raises:
        CannotForget: It is no viewer's handle, or a sheet cannot be read.

    Example:
        >>> plan(Path("no-such-folder"), "otter-7")
        Traceback (most recent call last):
        ...
        build_tools.episodes.forget.CannotForget: no viewer goes by 'otter-7'
    """
    known, wanted = handles(docs), _plain_handle(handle)
    if wanted not in known:
        near = nearest_names(wanted, known)
        hint = f"; did you mean {known[near[0]]}?" if near else ""
        raise CannotForget(f"no viewer goes by '{handle}'{hint}")
    changes: list[Change] = []
    files = []
    for path in _sheets(docs):
        try:
            text = read_text(path)
        except CannotRead as problem:
            raise CannotForget(f"{path.name}: {problem}") from None
        new = forgotten(text, wanted)
        backup = keeping.last_good(path)
        if new != text:
            changes += _changes(f"{docs.name}/episodes/{path.name}", text, new)
        if new != text or (backup.is_file() and _named(backup.read_text("utf-8", "replace"), wanted)):
            files.append(path)
    for path in _presenters_files(docs):
        text = _read_plain(path)
        new = _forgotten_plain(text, wanted)
        if new != text:
            changes += _changes(path.relative_to(docs.parent).as_posix(), text, new)
        if new != text or _named(_read_plain(keeping.last_good(path)), wanted):
            files.append(path)
    for path in _bundled(docs):
        text = _read_plain(path)
        new = _pattern(wanted).sub(ANONYMOUS, text)
        if new != text:
            changes += _changes(path.relative_to(docs.parent).as_posix(), text, new)
            files.append(path)
    notes = (*_bundles_to_make(docs, files), *_built(docs, wanted), *_elsewhere(docs, wanted), OUT_OF_REACH)
    return Plan(wanted, docs, tuple(changes), tuple(files), notes)


def carry_out(plan: Plan) -> list[Path]:
    """Change what the plan says, sheet by sheet; returns those changed. CannotKeep where one could not be written."""
    changed = []
    for path in plan.files:
        # What stood there before is not kept: it names who wants to be forgotten.
        own = path.relative_to(plan.docs.parent).parts[0] != plan.docs.name
        without = _forgotten_plain if own else forgotten
        keeping.change(path, functools.partial(without, handle=plan.handle), before=False)
        keeping.last_good(path).unlink(missing_ok=True)
        changed.append(path)
    return changed


def forgotten(text: str, handle: str) -> str:
    """A sheet's text without a handle: in texts of its front matter, in remarks, and in the page below it."""
    pattern = _pattern(handle)
    lines = text.split("\n")
    count = front_matter_lines(text)
    head = "\n".join(lines[: max(count - 1, 0)])
    body = text[len(head) :]
    start = len(lines[0]) + 1 if count else 0
    spans: list[tuple[int, int, str]] = []
    taken: list[tuple[int, int]] = []
    for key, node, (begin, end) in _values(text):
        begin, end = begin + start, end + start
        taken.append((begin, end))
        raw = head[begin:end]
        if key == "viewer" and _plain_handle(node.value) == handle:
            spans.append((begin, end, ANONYMOUS + (raw[len(raw.rstrip()) :])))
        elif key in PROSE and node.tag == "tag:yaml.org,2002:str" and pattern.search(node.value):
            new = pattern.sub(ANONYMOUS, raw)
            if pattern.sub(ANONYMOUS, node.value) != _read(
                new, node
            ):  # a line's fold or an escape stands within the handle
                new = json.dumps(pattern.sub(ANONYMOUS, node.value), ensure_ascii=False) + raw[len(raw.rstrip()) :]
            spans.append((begin, end, new))
    for begin, end in _consents(text, handle):
        # 'false' and no line less: where a viewer has not agreed is written like this, and every line keeps its number
        spans.append((begin + start, end + start, "false"))
    for match in re.finditer(r"(?:^|(?<=\s))#.*$", head, re.M):  # remarks
        if not any(begin <= match.start() < end for begin, end in taken):
            spans.append((match.start(), match.end(), pattern.sub(ANONYMOUS, match[0])))
    for begin, end, new in sorted(spans, reverse=True):
        head = head[:begin] + new + head[end:]
    return head + pattern.sub(ANONYMOUS, body)


def _forgotten_plain(text: str, handle: str) -> str:
    """A file of the presenter's own without a handle; a comment whose writer it was notes no consent any more."""
    blocks = re.split(r"(\n\s*\n)", text)
    for place, block in enumerate(blocks):
        if any(_plain_handle(match[2]) == handle for match in _HANDLE.finditer(block)):
            named = _HANDLE.sub(lambda m: m[1] + ANONYMOUS if _plain_handle(m[2]) == handle else m[0], block)
            blocks[place] = _CONSENT.sub(r"\1no", named)
    return _pattern(handle).sub(ANONYMOUS, "".join(blocks))


def _presenters_files(docs: Path) -> list[Path]:
    """What the presenter keeps, but not the states before the last changes."""
    files = (p for p in (docs.parent / OWN).rglob("*") if p.is_file())
    return sorted(p for p in files if keeping.BEFORE not in p.relative_to(docs.parent).parts)


def _bundled(docs: Path) -> list[Path]:
    """The texts in folders that were made for an editor, drawings of cards among them."""
    made = (listed.parent for listed in docs.parent.glob(f"*/{BUNDLE_LIST}"))
    return sorted(p for folder in made for p in folder.rglob("*") if p.is_file() and p.suffix in _TEXTS)


def _bundles_to_make(docs: Path, files: list[Path]) -> Iterator[str]:
    """Bundles with a drawing that has changed: the same card stands there as a picture."""
    drawn = {path.relative_to(docs.parent).parts[0] for path in files if path.suffix == ".svg"}
    for folder in sorted(drawn):
        yield f"Pictures in {folder} show the handle until that bundle is made again, which writes them anew."


def _built(docs: Path, handle: str) -> Iterator[str]:
    """Built pages name the handle until the next build, and the published ones until that is put on the host."""
    pages = [*(docs.parent / "site" / "episodes").glob("*.html"), *(docs.parent / "site" / "made").rglob("*.txt")]
    if any(_named(_read_plain(path), handle) for path in pages):
        yield "The built pages in site/ name the handle until the next build; put that on your host: build_tools build"


def _read_plain(path: Path) -> str:
    """A file's text; '' where there is none, or none that is written in UTF-8."""
    try:
        return path.read_bytes().decode("utf-8")
    except (OSError, UnicodeDecodeError):
        return ""


def _read(raw: str, node: yaml.ScalarNode) -> str:
    """What a value's written form says, read by itself; anything else than a text says nothing."""
    if node.style in ("|", ">"):
        return raw and node.value and _block(raw, node)
    try:
        value = yaml.safe_load(raw)
    except yaml.YAMLError:
        return ""
    return value if isinstance(value, str) else ""


def _block(raw: str, node: yaml.ScalarNode) -> str:
    try:
        return str(yaml.safe_load(f"a: {raw}")["a"])
    except (yaml.YAMLError, KeyError, TypeError):
        return ""


def _values(text: str) -> Iterator[tuple[str, yaml.ScalarNode, tuple[int, int]]]:
    """Every single value of a front matter with its key, and where it stands in the front matter's text."""
    root = _root(text)
    waiting: list[tuple[str, yaml.Node]] = [("", root)] if root else []
    while waiting:
        key, node = waiting.pop()
        if isinstance(node, yaml.ScalarNode):
            yield key, node, (node.start_mark.index, node.end_mark.index)
        elif isinstance(node, yaml.MappingNode):
            # what a calculator is given, and figures, are no prose, whatever their keys are called
            inner = [(name.value, child) for name, child in node.value]
            waiting += [("" if key in ("inputs", "figures") else name, child) for name, child in inner]
        elif isinstance(node, yaml.SequenceNode):
            waiting += [(key, child) for child in node.value]


def _consents(text: str, handle: str) -> Iterator[tuple[int, int]]:
    """Where a front matter notes that a viewer who is forgotten, or one without a name, has agreed to be named."""
    root = _root(text)
    waiting: list[yaml.Node] = [root] if root else []
    while waiting:
        node = waiting.pop()
        if isinstance(node, yaml.SequenceNode):
            waiting += node.value
        elif isinstance(node, yaml.MappingNode):
            waiting += [child for _, child in node.value]
            row = {key.value: child for key, child in node.value if isinstance(child, yaml.ScalarNode)}
            viewer, consent = row.get("viewer"), row.get("consent")
            if (
                viewer
                and consent
                and _plain_handle(viewer.value) in (handle, ANONYMOUS)
                and consent.value.lower() in _AGREED
            ):
                yield consent.start_mark.index, consent.end_mark.index


def _root(text: str) -> yaml.Node | None:
    """The front matter as YAML composes it; None where there is none."""
    lines = text.split("\n")
    count = front_matter_lines(text)
    if not count:
        return None
    try:
        return compose("\n".join(lines[1 : count - 1]), 2)
    except NotYaml as problem:
        raise CannotForget(f"a sheet cannot be read, line {problem.line}: {problem}") from None


def _plain_handle(handle: str) -> str:
    return " ".join(str(handle).split()).removeprefix("@").casefold()


def _pattern(handle: str) -> re.Pattern[str]:
    """
    Finds a handle in prose: with @, and without where it is no number and no shorter than three letters.

    For '7' may be a number. The entry `viewer:` itself is not found by this pattern but compared whole.
    """
    words = re.escape(handle).replace(r"\ ", r"\s+")
    at_sign = "@" if handle.isdigit() or len(handle) < 3 else "@?"
    return re.compile(rf"(?<![\w@-]){at_sign}{words}(?![\w-])", re.I)


def _named(text: str, handle: str) -> bool:
    return bool(_pattern(handle).search(text))


def _sheets(docs: Path) -> list[Path]:
    return sorted(p for p in (docs / "episodes").glob("*.md") if p.name != "index.md")


def _texts(path: Path) -> Iterator[str]:
    """A sheet's text, and what it was before its last change, as far as they can be read."""
    for each in (path, keeping.last_good(path)):
        try:
            text = read_text(each)
            list(_values(text))
            yield text
        except (CannotRead, CannotForget):
            continue


def _changes(shown: str, old: str, new: str) -> Iterator[Change]:
    before, after = old.split("\n"), new.split("\n")
    if len(before) != len(after):
        yield Change(shown, 1, "a text over several lines", "the same without the handle")
        return
    for number, (one, other) in enumerate(zip(before, after, strict=True), 1):
        if one != other:
            yield Change(shown, number, one, other)


def _elsewhere(docs: Path, handle: str) -> Iterator[str]:
    """Where else the handle stands: what was kept of pasted descriptions, and other pages."""
    for path in sorted((docs / "episodes" / PASTED).glob("*.txt")):
        if _named(path.read_text("utf-8", "replace"), handle):
            number = path.stem.lstrip("0") or "0"
            yield f"The description of episode {number} names the handle: paste it again, then: pasted {number}"
    others = [p for p in docs.rglob("*.md") if "made" not in p.parts and p.parent != docs / "episodes"]
    for path in sorted(others):
        try:
            lines = read_text(path).split("\n")
        except CannotRead:
            continue
        for place, line in enumerate(lines, 1):
            if re.search(rf"(?<![\w@-])@{re.escape(handle)}(?![\w-])", line, re.I):
                shown = path.relative_to(docs.parent).as_posix()
                yield f"Also in {shown}:{place}, which is not changed from here: look at it"
