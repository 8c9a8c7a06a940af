"""
On air: the desk where a presenter prepares, the picture a mixing program takes, and the run sheet to read from.

Lives beside the site while it is served, on the loopback address only, and works unplugged.
May import: calculators, markdown_blocks, episodes, cards, serving. Guarded by tests/build_tools/presenting.
"""
