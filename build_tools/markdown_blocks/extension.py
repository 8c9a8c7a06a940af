"""The extension itself: registers the blocks and the inline figure, and refuses pages with mistakes."""

from __future__ import annotations

from typing import Any

from markdown import Markdown
from markdown.preprocessors import Preprocessor
from pymdownx.blocks import BlocksExtension

from build_tools.markdown_blocks.blocks import ALL_BLOCKS
from build_tools.markdown_blocks.inline import PATTERN, FigureProcessor
from build_tools.markdown_blocks.mistakes import PageMistakes
from build_tools.markdown_blocks.places import place_of
from build_tools.markdown_blocks.scan import scan
from build_tools.markdown_blocks.structure import Jumps, Sections, Units

BEFORE_ALL_ELSE = 1000
AFTER_HEADINGS_HAVE_IDS = 1  # the table of contents gives them theirs at 5
AFTER_INLINE_MARKS = 3  # which are read at 20
AFTER_STASHED_HTML = 5  # which comes back into the page at 30
AFTER_CODE_SPANS = 185  # code spans are 190: a figure inside one is shown, not computed


class Proofreader(Preprocessor):
    """Reads the page first and stops the build at a mistake, with file and line."""

    def run(self, lines: list[str]) -> list[str]:
        here = place_of(self.md)
        uses = scan("\n".join(lines), here.shown, here.skipped + 1)
        if uses.mistakes:
            raise PageMistakes(uses.mistakes)
        return lines


class WorkedAnswers(BlocksExtension):  # type: ignore[misc]
    """Calculators, inline figures, short answers, lists of pages and sources."""

    def extendMarkdownBlocks(self, md: Markdown, block_mgr: Any) -> None:
        for block in ALL_BLOCKS:
            block_mgr.register(block, {})

    def extendMarkdown(self, md: Markdown) -> None:
        super().extendMarkdown(md)
        md.preprocessors.register(Proofreader(md), "wa-proofreader", BEFORE_ALL_ELSE)
        md.inlinePatterns.register(FigureProcessor(PATTERN, md), "wa-figure", AFTER_CODE_SPANS)
        md.treeprocessors.register(Sections(md), "wa-sections", AFTER_HEADINGS_HAVE_IDS)
        md.treeprocessors.register(Units(md), "wa-units", AFTER_INLINE_MARKS)
        md.postprocessors.register(Jumps(md), "wa-jumps", AFTER_STASHED_HTML)


def makeExtension(**options: Any) -> WorkedAnswers:
    """What Python-Markdown calls."""
    return WorkedAnswers(**options)
