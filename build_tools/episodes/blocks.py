"""
What pages show of the episodes: an episode's segments, lists of episodes and corrections, and 'asked in' below answers.

A Python-Markdown extension, named `build_tools.episodes.blocks` in mkdocs.yml.
"""

from __future__ import annotations

import posixpath
import time
import xml.etree.ElementTree as etree
from functools import lru_cache
from pathlib import Path
from typing import Any, ClassVar
from urllib.parse import quote, urlencode

from markdown import Markdown
from markdown.treeprocessors import Treeprocessor
from markdown.util import AtomicString
from pymdownx.blocks import BlocksExtension
from pymdownx.blocks.block import Block

from build_tools.episodes import clock, description, feed, programme, record, repeats, sheet
from build_tools.episodes.sheet import Correction, Episode, Segment
from build_tools.markdown_blocks.mistakes import Mistake, PageMistakes
from build_tools.markdown_blocks.places import Place, place_of
from calculators.desk.numbers import plural
from calculators.desk.svg import escape

BEFORE_INLINE = 30
NEWEST = 3
# Every page of a build asks for the episodes; with a thousand pages, looking each time whether one of a thousand files
# has changed would take longer than all else. So what was read holds for so many seconds, or for so many times as long
# as the last look took, whichever is longer.
LOOK_AGAIN_S = 0.5
LOOK_AGAIN_TIMES = 20


# By the docs folder: the time until which the episodes hold, and the episodes.
_looked: dict[Path, tuple[float, tuple[Episode, ...]]] = {}


def episodes_of(docs: Path) -> tuple[Episode, ...]:
    """Every episode below docs/; read again, a little later, when a sheet or an answer page has changed."""
    now = time.monotonic()
    until, episodes = _looked.get(docs, (0.0, ()))
    if now < until:
        return episodes
    pages = sorted([*(docs / "episodes").glob("*.md"), *(docs / "answers").glob("*/*.md")])
    state = tuple((p, p.stat().st_mtime_ns, p.stat().st_size) for p in pages if p.exists())
    took = time.monotonic() - now
    episodes = _episodes(docs, state)
    _looked[docs] = (time.monotonic() + max(LOOK_AGAIN_S, LOOK_AGAIN_TIMES * took), episodes)
    return episodes


@lru_cache(maxsize=4)
def _episodes(docs: Path, state: tuple[tuple[Path, int, int], ...]) -> tuple[Episode, ...]:
    episodes, mistakes = sheet.read_all(docs)
    if mistakes:
        raise PageMistakes(mistakes)
    return tuple(episodes)


def _address(here: Place, path: str) -> str:
    """The relative address of another of the site's files, as this page writes it."""
    return posixpath.relpath(path, posixpath.dirname(here.inside_docs) or ".")


def _page(path: str) -> str:
    return path.removesuffix(".md") + ".html"


def _answer_link(here: Place, episode: Episode, segment: Segment, words: str) -> str:
    """A link to the answer with the segment's numbers worked out in it."""
    word = segment.short_address(episode.number)
    path = f"go/{word}/index.html" if word else f"answers/{segment.answer}.html"
    return f'<a href="{escape(_address(here, path))}">{escape(words)}</a>'


class EpisodeBlock(Block):  # type: ignore[misc]
    """The segments of the episode whose sheet this page is, with what was said, what holds, and what to paste."""

    NAME = "episode"
    ARGUMENT = False
    OPTIONS: ClassVar[dict[str, Any]] = {}

    def on_create(self, parent: etree.Element) -> etree.Element:
        here = place_of(self.md)
        episodes = episodes_of(here.docs)
        episode = next(e for e in episodes if e.path == here.inside_docs)
        whole: etree.Element = etree.SubElement(parent, "div", {"class": "wa-episode"})
        place = etree.SubElement(whole, "p")
        place.text = AtomicString(self.md.htmlStash.store(episode_html(here, episode, list(episodes))))
        return whole


def episode_html(here: Place, episode: Episode, episodes: list[Episode]) -> str:
    """An episode's body."""
    settings = programme.read(here.docs.parent)
    shown = episode.recorded.strftime("%Y-%m-%d")
    parts = [f'<p class="wa-recorded">Recorded {shown}. {plural(len(episode.segments), "question")}.</p>']
    parts.append(f'<p class="wa-summary">{escape(episode.summary)}</p>')
    if episode.invented:
        parts.append('<p class="wa-invented">This episode, its viewers and their questions are invented.</p>')
    parts += [_danger(here, episode, entry) for entry in episode.put_right if entry.dangerous]
    parts.append('<ol class="wa-segments">')
    parts += [_segment_html(here, episode, segment, episodes) for segment in episode.segments]
    parts.append("</ol>")
    made = description.describe(episode, settings)
    folder = f"made/episodes/{episode.slug}"
    pin = _address(here, f"{folder}/pin.txt")
    to_pin = f', <a href="{escape(pin)}">pin.txt</a>' if episode.put_right else ""
    warnings = "".join(f"<li>{escape(w)}</li>" for w in made.warnings)
    files = (_address(here, f"{folder}/description.txt"), _address(here, f"{folder}/replies.txt"))
    parts += [
        '<details class="wa-fold wa-to-paste" data-fold="presenter" open>',
        "<summary>For the presenter: what to paste below the video</summary>",
        f"<p>{len(made.text)} of {settings.description_limit} characters: ",
        f'<a href="{escape(files[0])}">description.txt</a>, <a href="{escape(files[1])}">replies.txt</a>{to_pin}</p>',
        f"<ul>{warnings}</ul>" if warnings else "",
        f'<pre tabindex="0"><code>{escape(made.text)}</code></pre></details>',
    ]
    return "".join(parts)


def _segment_html(here: Place, episode: Episode, segment: Segment, episodes: list[Episode]) -> str:
    asked = (
        f"{_time(episode, segment)}<strong>{escape(segment.question)}</strong> "
        f'<span class="wa-viewer">asked by {escape(segment.shown_viewer)}</span>'
    )
    parts = [f'<li class="wa-segment" id="segment-{segment.number}"><p class="wa-asked">{asked}</p>']
    if segment.follow_up:
        number, place = segment.follow_up
        earlier = next(e for e in episodes if e.number == number)
        address = _address(here, _page(earlier.path)) + f"#segment-{place}"
        link = f'<a href="{escape(address)}">episode {number}, question {place}</a>'
        parts.append(f'<p class="wa-follow-up">Follows up {link}.</p>')
    again = repeats.earlier(episode, segment, episodes)
    if again and segment.follow_up != (again[0].number, again[1].number):
        address = _address(here, _page(again[0].path)) + f"#segment-{again[1].number}"
        link = f'<a href="{escape(address)}">episode {again[0].number}, question {again[1].number}</a>'
        parts.append(f'<p class="wa-follow-up">Asked before in {link}.</p>')
    if segment.said:
        further = [segment.figures[name] for name in segment.further() if segment.figures.get(name)]
        parts.append(f'<p class="wa-said">Said on air: {escape(" ".join([segment.said, *further]))}</p>')
    if segment.spoken:
        parts.append(f'<p class="wa-said">In our own words: {escape(segment.spoken)}</p>')
    if segment.note:
        parts.append(f'<p class="wa-note">{escape(segment.note)}</p>')
    if segment.referred:
        parts.append(
            f'<p class="wa-referred">Passed on to {escape(segment.referred.to)}: {escape(segment.referred.why)}</p>'
        )
    for entry in (c for c in episode.put_right if c.segment == segment.number):
        parts.append(
            f'<p class="wa-correction"><strong>Corrected {entry.date}.</strong> '
            f"{escape(entry.now)} {escape(entry.why)}</p>"
        )
    links = []
    if segment.answer:
        words = "The answer, with these numbers" if segment.calculator else "The answer"
        links.append(_answer_link(here, episode, segment, words))
    if segment.calculator:
        card = _address(here, f"made/episodes/{episode.slug}/segment-{segment.number}.svg")
        links.append(f'<a href="{escape(card)}">The picture from the video</a>')
    for each in segment.also:
        title = escape(f"Also worked out: {each.result().calculator.title}")
        address = _address(here, f"answers/{each.answer}.html") if each.answer else ""
        fragment = quote(f"{each.calculator}:{urlencode({k: str(v) for k, v in each.inputs.items()})}", safe=":=&+%")
        links.append(f'<a href="{escape(address)}#{escape(fragment)}">{title}</a>' if address else title)
    links += [f'<a href="{escape(link.address)}">{escape(link.title)}</a>' for link in segment.links]
    parts.append(f"<p>{' · '.join(links)}</p>" if links else "")
    parts.append("</li>")
    return "".join(parts)


def _time(episode: Episode, segment: Segment) -> str:
    """When a question begins, as a link into the video where its address is known."""
    if segment.start is None:
        return ""
    shown = clock.worded(segment.start)
    address = episode.at(segment.start)
    inside = f'<a href="{escape(address)}">{shown}</a>' if address else shown
    return f'<span class="wa-time">{inside}</span> '


def _danger(here: Place, episode: Episode, entry: Correction) -> str:
    """The warning on top of every page concerned, where somebody who does what was said on air may be hurt."""
    address = _address(here, _page(episode.path)) + f"#segment-{entry.segment}"
    segment = episode.segment(entry.segment)
    question = f": “{escape(segment.question)}”" if segment else ""
    was = f"<p>We said: {escape(entry.was)}</p>" if entry.was else ""
    return (
        '<aside class="wa-danger" role="note" aria-label="Correction">'
        f"<p><strong>We were wrong, and it can hurt. Do not do what we said</strong> in "
        f'<a href="{escape(address)}">episode {episode.number}</a>{question} ({entry.date}).</p>'
        f"{was}<p>Right is: {escape(entry.now)} {escape(entry.why)}</p></aside>"
    )


class EpisodesBlock(Block):  # type: ignore[misc]
    """Every episode, newest first, with its questions; `/// episodes | newest`: the last few, by their titles."""

    NAME = "episodes"
    ARGUMENT = None
    OPTIONS: ClassVar[dict[str, Any]] = {}

    def on_create(self, parent: etree.Element) -> etree.Element:
        here = place_of(self.md)
        wanted = (self.argument or "").strip()
        if wanted not in ("", "newest"):
            message = f"'/// episodes | {wanted}' is unknown; write '/// episodes | newest', or '/// episodes' for all"
            raise PageMistakes([Mistake(here.shown, 0, message)])
        if wanted:
            return _newest(parent, here)
        whole: etree.Element = etree.SubElement(parent, "div", {"class": "wa-episodes"})
        rows = []
        for episode in sorted(episodes_of(here.docs), key=lambda e: e.number, reverse=True):
            address = _address(here, _page(episode.path))
            questions = "".join(
                f'<li data-said="{escape(_search_text(episode, s))}"><a href="{escape(address)}#segment-{s.number}">'
                f"{escape(s.question)}</a></li>"
                for s in episode.segments
            )
            rows.append(
                f'<section class="wa-one-episode"><h2><a href="{escape(address)}">'
                f"{episode.number}. {escape(episode.title)}</a></h2>"
                f'<p class="wa-recorded">Recorded {episode.recorded}</p><ol>{questions}</ol></section>'
            )
        if rows:
            rows.insert(0, _SEARCH)
        else:
            rows.append("<p>No episodes yet.</p>")
        place = etree.SubElement(whole, "p")
        place.text = AtomicString(self.md.htmlStash.store("".join(rows)))
        return whole


# Hidden until the page's script, which does the searching, has come.
_SEARCH = (
    '<form class="wa-said-search" role="search" hidden><label for="wa-said-words">Search all that was said</label> '
    '<input id="wa-said-words" type="search" autocomplete="off"><p role="status"></p></form>'
)


def _search_text(episode: Episode, segment: Segment) -> str:
    """All that was said of a question, for the search: the latest correction first."""
    entry = record.latest(episode, segment.number)
    parts = (
        f"Corrected {entry.date}: {entry.now}" if entry else "",
        segment.said,
        segment.short_answer,
        segment.spoken,
        segment.note,
        f"{segment.referred.to}: {segment.referred.why}" if segment.referred else "",
    )
    return " ".join(part for part in parts if part)


def _newest(parent: etree.Element, here: Place) -> etree.Element:
    """The last few episodes, one a line."""
    whole: etree.Element = etree.SubElement(parent, "div", {"class": "wa-newest"})
    newest = sorted(episodes_of(here.docs), key=lambda e: e.number, reverse=True)[:NEWEST]
    if newest:
        etree.SubElement(whole, "h2").text = "Newest episodes"
        rows = etree.SubElement(whole, "ul")
        for episode in newest:
            link = etree.SubElement(etree.SubElement(rows, "li"), "a", {"href": _address(here, episode.path)})
            link.text = AtomicString(f"{episode.number}. {episode.title}")
    return whole


class CorrectionsBlock(Block):  # type: ignore[misc]
    """Every correction, newest first, and the address of the feed."""

    NAME = "corrections"
    ARGUMENT = False
    OPTIONS: ClassVar[dict[str, Any]] = {}

    def on_create(self, parent: etree.Element) -> etree.Element:
        here = place_of(self.md)
        whole: etree.Element = etree.SubElement(parent, "div", {"class": "wa-corrections"})
        rows = []
        for episode, entry in feed.all_corrections(episodes_of(here.docs)):
            segment = episode.segment(entry.segment)
            address = _address(here, _page(episode.path)) + f"#segment-{entry.segment}"
            was = f"<p>Said: {escape(entry.was)}</p>" if entry.was else ""
            rows.append(
                f'<li><p><strong>{entry.date}</strong> <a href="{escape(address)}">'
                f"{escape(segment.question if segment else episode.title)}</a></p>"
                f"{was}<p>Now: {escape(entry.now)}</p><p>{escape(entry.why)}</p></li>"
            )
        listed = f"<ul>{''.join(rows)}</ul>" if rows else "<p>Nothing has had to be corrected yet.</p>"
        address = escape(_address(here, "made/episodes/corrections.atom"))
        place = etree.SubElement(whole, "p")
        place.text = AtomicString(
            self.md.htmlStash.store(f'{listed}<p>As a feed: <a href="{address}">corrections.atom</a></p>')
        )
        return whole


class AskedIn(Treeprocessor):
    """Below an answer: where it was asked on air, and what was corrected since."""

    def run(self, root: etree.Element) -> None:
        here = place_of(self.md)
        if not here.inside_docs.startswith("answers/"):
            return
        page = here.inside_docs.removeprefix("answers/").removesuffix(".md")
        rows: list[str] = []
        dangers: list[str] = []
        for episode in episodes_of(here.docs):
            for segment in episode.segments:
                if segment.answer != page:
                    continue
                address = _address(here, _page(episode.path)) + f"#segment-{segment.number}"
                at = f" at {clock.worded(segment.start)}" if segment.start is not None else ""
                entry = record.latest(episode, segment.number)
                put_right = f" <strong>Corrected {entry.date}:</strong> {escape(entry.now)}" if entry else ""
                rows.append(
                    f'<li><a href="{escape(address)}">Episode {episode.number}, {escape(episode.title)}</a>{at}: '
                    f"“{escape(segment.question)}”{put_right}</li>"
                )
                dangers += [
                    _danger(here, episode, c) for c in episode.put_right if c.dangerous and c.segment == segment.number
                ]
        if dangers:
            top = etree.Element("p")
            top.text = AtomicString(self.md.htmlStash.store("".join(dangers) + "\n"))
            title = next((i + 1 for i, child in enumerate(root) if child.tag == "h1"), 0)
            root.insert(title, top)
        if rows:
            html = (
                '<aside class="wa-asked-in" aria-label="Asked in"><p class="wa-asked-in-title">Asked in</p>'
                f"<ul>{''.join(rows)}</ul></aside>\n"
            )
            etree.SubElement(root, "p").text = AtomicString(self.md.htmlStash.store(html))


class Episodes(BlocksExtension):  # type: ignore[misc]
    """Episodes, corrections, and 'asked in'."""

    def extendMarkdownBlocks(self, md: Markdown, block_mgr: Any) -> None:
        for block in (EpisodeBlock, EpisodesBlock, CorrectionsBlock):
            block_mgr.register(block, {})

    def extendMarkdown(self, md: Markdown) -> None:
        super().extendMarkdown(md)
        md.treeprocessors.register(AskedIn(md), "wa-asked-in", BEFORE_INLINE)


def makeExtension(**options: Any) -> Episodes:
    """What Python-Markdown calls."""
    return Episodes(**options)
