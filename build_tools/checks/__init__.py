"""
Looks at finished things and says what is wrong with them; changes nothing.

Guard: tests/build_tools/checks, whose cases each plant one fault.

May import: calculators, environment, episodes, markdown_blocks.
"""
