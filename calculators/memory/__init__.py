"""
Memory: what a kit's numbers mean, which sticks go together and how to start them, how long to test, how much to buy.

May import: desk, trade. Guarded by tests/test_rooms.py and tests/calculators/memory.
"""

CALCULATORS = ("rate", "mix", "ways", "check", "need")
