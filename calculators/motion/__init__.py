"""
Motion: how many hertz, how late a picture comes, whether film plays evenly, what adaptive refresh does.

May import: desk, trade. Guarded by tests/test_rooms.py and tests/calculators/motion.
"""

CALCULATORS = ("hertz", "delay", "film", "adaptive")
