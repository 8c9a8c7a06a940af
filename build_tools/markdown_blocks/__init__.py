"""
What an author may write beyond plain Markdown: calculators, inline figures, short answers, lists of pages and sources.

A Python-Markdown extension, named `build_tools.markdown_blocks` in mkdocs.yml; never a plugin or hook, so that
every generator that runs Python-Markdown builds the same page.

May import: calculators. Guarded by tests/build_tools/markdown_blocks.
"""

from build_tools.markdown_blocks.extension import WorkedAnswers, makeExtension

__all__ = ["WorkedAnswers", "makeExtension"]
