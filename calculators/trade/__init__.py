"""
Tables and arithmetic that several subjects share: display modes, links, declarations, frame rates, money.

May import: desk. Knows no subject. Guarded by tests/test_rooms.py and tests/calculators/trade.
"""
