"""
On air: the desk where a presenter prepares, the picture a mixing program takes, the run sheet, and the prompter.

Lives beside the site while it is served, on the loopback address only, and works unplugged.
Guarded by tests/build_tools/presenting.

May import: calculators, environment, browser, bundling, cards, engine, episodes, files, keeping,
markdown_blocks, serving.
"""
