"""
The index by which answers are found: made of the pages and of their calculators' declarations.

May import: calculators, questions, files, markdown_blocks. Guarded by tests/build_tools/finding.
"""
