"""
Drivers: whether it is the display driver at all, a plan to renew it with a way back, and which driver runs now.

Imports calculators/desk only. Guarded by tests/test_rooms.py and tests/calculators/drivers.
"""

CALCULATORS = ("reset", "which")
