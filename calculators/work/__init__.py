"""
Work: 3D or editing, where the next money goes, how fast a disk footage needs, what fits a card's memory, lanes.

May import: desk, trade. Guarded by tests/test_rooms.py and tests/calculators/work.
"""

CALCULATORS = ("gain", "balance", "footage", "scene", "lanes")
