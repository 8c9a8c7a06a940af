"""
Tables and arithmetic that several subjects share: display modes, links, declarations, frame rates, money.

Imports calculators/desk only; knows no subject. Guarded by tests/test_rooms.py and tests/calculators/trade.
"""
