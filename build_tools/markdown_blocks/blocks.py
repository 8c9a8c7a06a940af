"""
The blocks an author writes, as pymdown-extensions' generic blocks. Each computes while the page is built.

    /// calculator | memory.rate
        inputs:
            rate: 3600
            cas: 18
    ///
"""

from __future__ import annotations

import json
import posixpath
import xml.etree.ElementTree as etree
from functools import lru_cache
from itertools import groupby
from typing import Any, ClassVar

from markdown.util import AtomicString
from pymdownx.blocks.block import Block, type_any

from build_tools.markdown_blocks.compute import run
from build_tools.markdown_blocks.pages import AnswerPage, answer_pages, list_of_subject, listed_first
from build_tools.markdown_blocks.paste_place import paste_place
from build_tools.markdown_blocks.places import place_of
from calculators.catalogue import find, names
from calculators.desk.answer import COMMON_PRACTICE, FROM_MEMORY, LIBRARY, STANDARD, Source
from calculators.desk.as_html import as_html, first_html, rest_html
from calculators.desk.as_json import digest
from calculators.desk.as_text import as_text
from calculators.desk.calculator import Result
from calculators.desk.form import form
from calculators.desk.svg import escape

# Speaking pace of a presenter. Common practice, no source: broadcasters plan with about 150 words a minute.
WORDS_A_MINUTE = 150


class CalculatorBlock(Block):  # type: ignore[misc]
    """A calculator with its form, its worked example and its common cases, all computed now."""

    NAME = "calculator"
    ARGUMENT = True
    OPTIONS: ClassVar[dict[str, Any]] = {"inputs": [{}, type_any], "presets": [None, type_any]}

    def on_create(self, parent: etree.Element) -> etree.Element:
        element: etree.Element = etree.SubElement(parent, "div", {"class": "wa-embed"})
        return element

    def on_end(self, block: etree.Element) -> None:
        self.tracker["count"] = self.tracker.get("count", 0) + 1
        result = run(self.argument, self.options["inputs"] or {})
        known = tuple(p.key for p in result.calculator.presets)
        asked = self.options["presets"]
        presets = known if asked is None else tuple(str(p) for p in (asked if isinstance(asked, list) else [asked]))
        self.tracker.setdefault("sources", []).extend(sources_of(result))
        before = self.tracker.setdefault("names", [])
        before.append(self.argument)
        again = before.count(self.argument)
        prefix = f"{self.argument.replace('.', '-')}-{self.tracker['count']}"
        head, tail = calculator_html(result, prefix, presets, f", number {again}" if again > 1 else "")
        if self.tracker["count"] > 1:  # one answer a page; what stands further down is worked out by whoever wants it
            head = fold_head(result.calculator.title) + head
            tail += "</details>\n"
        # What the author wrote about the example stands with the form, between the two halves of the markup.
        opening, closing = etree.Element("p"), etree.SubElement(block, "p")
        opening.text = AtomicString(self.md.htmlStash.store(head))
        closing.text = AtomicString(self.md.htmlStash.store(tail))
        block.insert(0, opening)


def fold_head(title: str) -> str:
    """How a further calculator's fold begins; the tag is closed behind it."""
    return f'<details class="wa-fold wa-further-fold" data-fold="further" open><summary>{escape(title)}</summary>'


def sources_of(result: Result) -> list[Source]:
    """The sources of a calculator: of this answer and of all its common cases, so that no link's answer lacks one."""
    name = result.calculator.name
    cases = [run(name, preset.inputs) for preset in result.calculator.presets]
    return list(dict.fromkeys(source for each in (result, *cases) for source in each.answer.sources))


JUMPS = "<!--wa-jumps-->"  # where structure.py puts the page's row of jumps


def calculator_html(
    result: Result, prefix: str, presets: tuple[str, ...], number: str = "", origin: str = ""
) -> tuple[str, str]:
    """
    A calculator's whole markup in a page, in two halves: between them stands what the author wrote of the example.

    Result first; then for which parts, and the form to put in one's own; then the rest of the result. `number`
    follows its title where it stands on a page more than once: a screen reader lists both. `origin` is HTML that says
    where these numbers come from, in a page made for a link.
    """
    calculator = result.calculator
    title = escape(calculator.title + number)
    given = result.values.given(private=True)  # an example in a page is its author's own
    # </ would end the script element early, whatever stands around it, and <!-- with <script would end it late
    data = json.dumps(_data(result, prefix, presets), ensure_ascii=False, allow_nan=False)
    data = data.replace("</", "<\\/").replace("<!--", "\\u003c!--")
    head = (
        f'<section class="wa-calculator" data-calculator="{escape(calculator.name)}" '
        f'data-version="{calculator.version}" data-prefix="{escape(prefix)}" aria-label="{title}">'
        '<p class="wa-link-note" role="status"></p>'
        f'<div class="wa-lead">{origin or EXAMPLE_HTML}<p class="wa-state" role="status"></p></div>'
        '<div class="wa-outcome"><div><output class="wa-result" aria-live="polite" aria-atomic="false">'
        f'{first_html(result, prefix)}</output><div class="wa-doubt" hidden></div></div></div>'
        '<details class="wa-asks" data-fold="asks" open>'
        '<summary class="wa-open-form"><span class="wa-when-closed">Put in your own parts</span>'
        '<span class="wa-when-open">Close the form</span></summary><div class="wa-asks-inside">'
    )
    tail = (
        f'<div class="wa-form-place">{form(calculator, prefix, given, presets)}{paste_place(calculator.name, prefix)}'
        # taken away by the script that makes it untrue
        '<p class="wa-noscript">The script of this page is not running, so the numbers cannot be changed here. '
        "What you see was worked out when the page was built; numbers that a link carries are not taken up."
        "</p></div></div></details>"
        f'{JUMPS}<div class="wa-details">{rest_html(result, prefix)}</div>'
        '<div class="wa-actions" hidden></div>'
        f'<script type="application/json" class="wa-data">{data}</script>'
        "</section>\n"
    )
    return head, tail


# Until something is changed the result is nobody's own.
EXAMPLE_HTML = '<p class="wa-example">An example</p>'


def _data(result: Result, prefix: str, presets: tuple[str, ...]) -> dict[str, Any]:
    name, chosen = result.calculator.name, [p.key for p in result.calculator.presets if p.key in presets]
    return {
        "inputs": result.values.given(private=True),
        "text": as_text(result),
        "digest": digest(result),
        "presets": {key: _case(name, key, prefix) for key in chosen},
    }


@lru_cache(maxsize=1024)
def _case(name: str, key: str, prefix: str) -> dict[str, Any]:
    """A common case as the page's script shows it: the same on every page where the calculator stands first."""
    preset = next(p for p in find(name).presets if p.key == key)
    case = run(name, preset.inputs)
    return {
        "inputs": case.values.given(private=True),
        "html": as_html(case, prefix),
        "text": as_text(case),
        "digest": digest(case),
    }


class ShortAnswerBlock(Block):  # type: ignore[misc]
    """The answer to be said aloud, with its speaking time."""

    NAME = "short-answer"
    ARGUMENT = False
    OPTIONS: ClassVar[dict[str, Any]] = {}

    def on_create(self, parent: etree.Element) -> etree.Element:
        element: etree.Element = etree.SubElement(parent, "div", {"class": "wa-short-answer"})
        return element

    def on_inline_end(self, block: etree.Element) -> None:
        words = len([w for w in "".join(block.itertext()).split() if any(c.isalnum() for c in w)])
        block.set("data-seconds", str(-(-words * 60 // WORDS_A_MINUTE)))  # for presenters; a viewer has no use for it


class QuestionsBlock(Block):  # type: ignore[misc]
    """A list of the answer pages, all or of one subject, by the questions they answer."""

    NAME = "questions"
    ARGUMENT = None
    OPTIONS: ClassVar[dict[str, Any]] = {}

    def on_create(self, parent: etree.Element) -> etree.Element:
        here = place_of(self.md)
        wanted = (self.argument or "").strip()
        lists: etree.Element = etree.SubElement(parent, "div", {"class": "wa-questions"})
        subjects: dict[str, list[AnswerPage]] = {}
        for page in answer_pages(here.docs):
            subjects.setdefault(page.subject, []).append(page)
        if not wanted and len(subjects) > 1:  # a long list: the way to each subject first
            row = etree.SubElement(lists, "nav", {"class": "wa-subject-row", "aria-label": "Subjects"})
            for each in subjects:
                link = etree.SubElement(row, "a", {"href": f"#{each}"})
                link.text = each.capitalize()
        folder = posixpath.dirname(here.inside_docs) or "."
        for subject, pages in subjects.items():
            if wanted and subject != wanted:
                continue
            part = etree.SubElement(lists, "section", {"class": "wa-subject", "data-subject": subject})
            if not wanted:
                heading = etree.SubElement(part, "h2", {"id": subject})
                heading.text = subject.capitalize()
            rows = etree.SubElement(part, "ul")
            shown = pages if wanted else listed_first(pages)
            for page in shown:
                row = etree.SubElement(rows, "li")
                if page.words:
                    row.set("data-words", " ".join(page.words))
                link = etree.SubElement(row, "a")
                link.set("href", posixpath.relpath(page.path, folder))
                link.text = AtomicString(
                    page.question.replace("&", "&amp;")
                )  # or what reads like an entity becomes one
            if len(shown) < len(pages):
                # Kept from the generator, which does not know a page that is made later (build_tools/site/lists.py).
                address = posixpath.relpath(list_of_subject(subject), folder)
                way = etree.SubElement(part, "p")
                way.text = AtomicString(self.md.htmlStash.store(way_to_all(address, subject, len(pages))))
        return lists


def way_to_all(address: str, subject: str, count: int) -> str:
    """The link below a list that shows some of a subject's questions."""
    words = f"All {count:,} questions about {escape(subject)}"
    return f'<p class="wa-all-of-subject"><a href="{escape(address)}">{words}</a></p>'


def _source_list(parent: etree.Element, sources: list[Source]) -> None:
    rows = etree.SubElement(parent, "ul", {"class": "wa-sources"})
    for source in dict.fromkeys(sources):
        row = etree.SubElement(rows, "li", {"data-standing": source.standing})
        row.text = AtomicString(source.say())


class SourcesBlock(Block):  # type: ignore[misc]
    """The sources of the calculators that stand on this page, each once."""

    NAME = "sources"
    ARGUMENT = False
    OPTIONS: ClassVar[dict[str, Any]] = {}

    def on_create(self, parent: etree.Element) -> etree.Element:
        element: etree.Element = etree.SubElement(parent, "div", {"class": "wa-page-sources"})
        return element

    def on_end(self, block: etree.Element) -> None:
        _source_list(block, self._blocks.trackers[CalculatorBlock.NAME].get("sources", []))

    def __init__(self, length: int, tracker: dict[str, Any], blocks: Any, config: dict[str, Any]) -> None:
        self._blocks = blocks
        super().__init__(length, tracker, blocks, config)


class EverySourceBlock(Block):  # type: ignore[misc]
    """The sources of every calculator, subject by subject, each subject in a fold; a standing is said once a list."""

    NAME = "every-source"
    ARGUMENT = False
    OPTIONS: ClassVar[dict[str, Any]] = {}

    def on_create(self, parent: etree.Element) -> etree.Element:
        whole: etree.Element = etree.SubElement(parent, "div", {"class": "wa-every-source"})
        for subject, named in groupby(names(), lambda name: name.partition(".")[0]):
            fold = etree.SubElement(whole, "details", {"class": "wa-fold", "data-fold": "sources", "open": ""})
            title = etree.SubElement(etree.SubElement(fold, "summary"), "h3", {"id": f"sources-{subject}"})
            title.text = AtomicString(subject.capitalize())
            for name in named:
                calculator = find(name)
                cases = [run(name, p.inputs) for p in calculator.presets] or [run(name, {})]
                heading = etree.SubElement(fold, "h4")
                heading.text = AtomicString(calculator.title)
                _by_standing(fold, sources_of(cases[0]))
        return whole


# In the order in which they weigh, and as the page that explains them calls them.
_STANDINGS = (
    (STANDARD, "Published"),
    (LIBRARY, "Libraries"),
    (FROM_MEMORY, "As we remember it; not looked up again"),
    (COMMON_PRACTICE, "Common practice, no source"),
)


def _by_standing(parent: etree.Element, sources: list[Source]) -> None:
    for standing, words in _STANDINGS:
        those = [source for source in dict.fromkeys(sources) if source.standing == standing]
        if not those:
            continue
        label = etree.SubElement(parent, "p", {"class": "wa-standing"})
        label.text = AtomicString(words)
        rows = etree.SubElement(parent, "ul", {"class": "wa-sources"})
        for source in those:
            row = etree.SubElement(rows, "li", {"data-standing": standing})
            row.text = AtomicString(", ".join(part for part in (source.title, source.clause) if part))


ALL_BLOCKS = (CalculatorBlock, ShortAnswerBlock, QuestionsBlock, SourcesBlock, EverySourceBlock)
