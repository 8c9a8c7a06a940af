"""
Reads a question in a viewer's own words: which answers, which of their numbers, what is missing.

Stands above the subjects and knows them by their declarations only; reads no files: the index is handed in.

May import: desk, catalogue. Guarded by tests/test_rooms.py and tests/calculators/asking.
"""
