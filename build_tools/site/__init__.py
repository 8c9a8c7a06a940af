"""
Makes site/ out of docs/, all or nothing: what is generated first, then the pages, then the checks, then the swap.

Guard: tests/build_tools/site.

May import: calculators, environment, browser, bundling, checks, engine, episodes, files, finding,
keeping, markdown_blocks.
"""
