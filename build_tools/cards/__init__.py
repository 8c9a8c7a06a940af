"""
Screen cards outside the page: the terminal's pictures, and what cards need from fonts and the QR library.

May import: calculators, environment, keeping, markdown_blocks. Guarded by tests/build_tools/cards.
"""
