"""
What every calculator is made of: inputs, answers, their renderings, number wording, drawing parts.

Knows no subject and no page. May import: nothing. Guarded by tests/test_rooms.py.
"""
