"""
What was said on air: episode sheets read and checked, their pages, descriptions, records and corrections.

May import: calculators, environment, cards, keeping, markdown_blocks.
Guarded by tests/build_tools/episodes.
"""
