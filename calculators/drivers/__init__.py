"""
Drivers: whether it is the display driver at all, a plan to renew it with a way back, and which driver runs now.

May import: desk, trade. Guarded by tests/test_rooms.py and tests/calculators/drivers.
"""

CALCULATORS = ("reset", "which")
