"""
Gives an answer page its shape: each part a section of its own, the long ones as folds, and a row of jumps to them.

Folds are open in the HTML; the page's script closes them on a phone before anything is painted.
"""

from __future__ import annotations

import re
import xml.etree.ElementTree as etree

from markdown import Markdown
from markdown.postprocessors import Postprocessor
from markdown.treeprocessors import Treeprocessor

from build_tools.markdown_blocks.blocks import JUMPS
from build_tools.markdown_blocks.parts import BY_NAME, PARTS, Part
from build_tools.markdown_blocks.places import place_of
from calculators.desk.numbers import unbroken
from calculators.desk.svg import escape

_TO_DO = re.compile(r'<section class="wa-part wa-part-do">.*?</section>', re.S)
_PLAN = re.compile(r'<div class="wa-plan" id="([^"]+)"')


def is_answer(md: Markdown) -> bool:
    """Whether the page being made is an answer page."""
    return place_of(md).inside_docs.startswith("answers/")


class Units(Treeprocessor):
    """Keeps a number and its unit on one line in what an author writes, as answers do; not in what is to be typed."""

    def run(self, root: etree.Element) -> None:
        self._keep(root)

    def _keep(self, element: etree.Element) -> None:
        # a short figure in prose never breaks anyway (build_tools/browser/style/article.css)
        if element.tag not in ("code", "pre") and element.get("class") != "wa-inline" and element.text:
            element.text = _unbroken(element.text)
        for child in element:
            if element.tag != "pre":
                self._keep(child)
            if child.tail:
                child.tail = _unbroken(child.tail)


def _unbroken(text: str) -> str:
    """The text with unbroken units, of the same class: an AtomicString stays one and is not read for inline marks."""
    return type(text)(unbroken(text))


class Sections(Treeprocessor):
    """Puts each part of an answer page into an element of its own."""

    def run(self, root: etree.Element) -> None:
        if not is_answer(self.md):
            return
        children = list(root)
        for child in children:
            root.remove(child)
        place: etree.Element = root
        for child in children:
            part = BY_NAME.get("".join(child.itertext()).strip()) if child.tag == "h2" else None
            if child.tag == "h2":
                place = _opened(root, child, part)
            else:
                place.append(child)


def _opened(root: etree.Element, heading: etree.Element, part: Part | None) -> etree.Element:
    """The element for what follows a heading, with the heading in it."""
    key = part.key if part else "more"
    if part and part.folded:
        attributes = {"class": "wa-fold wa-part", "data-fold": key, "open": "open"}
        section = etree.SubElement(root, "details", attributes)
        etree.SubElement(section, "summary").append(heading)
        return section
    section = etree.SubElement(root, "section", {"class": f"wa-part wa-part-{key}"})
    if part and part.silent:
        heading.set("class", "wa-silent")
    section.append(heading)
    return section


class Jumps(Postprocessor):
    """
    Puts the row of jumps, and what to do, right below the first calculator's form; without one, below the short answer.

    What to do comes before all that explains the result, wherever it stands in the page's text.
    """

    def run(self, text: str) -> str:
        if not is_answer(self.md):
            return text.replace(JUMPS, "")
        row = _row(text)
        if JUMPS not in text:
            return text.replace('<section class="wa-part', f'{row}<section class="wa-part', 1)
        to_do = _TO_DO.search(text)
        if to_do:
            text = text[: to_do.start()] + text[to_do.end() :]
            row += to_do[0]
        return text.replace(JUMPS, f'<div class="wa-between">{row}</div>', 1).replace(JUMPS, "")


def _row(text: str) -> str:
    """Links to the parts of a page that are there, in their order."""
    links = []
    plan = _PLAN.search(text)
    for part in PARTS:
        heading = re.search(rf'<h2 id="([^"]+)"[^>]*>{re.escape(part.name)}</h2>', text)
        if part.key == "do" and plan and not heading:
            links.append((plan[1], part.jump))
        elif heading and part.jump:
            links.append((heading[1], part.jump))
    rows = "".join(f'<li><a href="#{escape(target)}">{escape(label)}</a></li>' for target, label in links)
    return f'<nav class="wa-jumps" aria-label="On this page"><ul>{rows}</ul></nav>' if rows else ""
