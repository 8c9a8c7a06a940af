"""
Inline figures: `{= memory.rate rate=3200 cas=16 -> latency_ns =}` in prose becomes '10 ns', computed while building.

The part before the arrow is what one types in a terminal, so that it can be tried there.
"""

from __future__ import annotations

import re
import shlex
import xml.etree.ElementTree as etree
from dataclasses import dataclass

from markdown.inlinepatterns import InlineProcessor

from build_tools.markdown_blocks.compute import CannotCompute, figure_text

PATTERN = r"\{=(.*?)=\}"
FOUND = re.compile(PATTERN, re.S)


@dataclass(frozen=True, slots=True)
class InlineFigure:
    """What an author asked for: a calculator, its inputs as typed, and a figure's key."""

    name: str
    inputs: dict[str, str]
    wanted: str

    def text(self) -> str:
        """The figure's words."""
        return figure_text(self.name, self.inputs, self.wanted)


def parse(inside: str) -> InlineFigure:
    """Read what stands between the signs; CannotCompute where it does not have the shape."""
    call, arrow, wanted = inside.partition("->")
    try:
        words = shlex.split(call)
    except ValueError:
        words = []
    if not arrow or not words or not wanted.strip():
        raise CannotCompute(
            f"an inline figure reads {{= memory.rate rate=3200 cas=16 -> latency_ns =}}, got '{{={inside}=}}'"
        )
    inputs = {}
    for word in words[1:]:
        key, equals, value = word.partition("=")
        if not equals:
            raise CannotCompute(f"write inputs as key=value, such as rate=3200; got '{word}'")
        inputs[key] = value
    return InlineFigure(words[0], inputs, wanted.strip())


class FigureProcessor(InlineProcessor):
    """Puts the figure's words into the page, in a span that keeps number and unit together."""

    def handleMatch(  # type: ignore[override]
        self, m: re.Match[str], data: str
    ) -> tuple[etree.Element, int, int]:
        wanted = parse(m.group(1))
        text = wanted.text()
        element = etree.Element("span", {"class": "wa-inline"})
        if len(text.split()) > 3:
            element.set("class", "wa-inline wa-sentence")  # a headline in prose may break over lines
        element.set("data-from", f"{wanted.name} -> {wanted.wanted}")
        element.text = text
        return element, m.start(0), m.end(0)
