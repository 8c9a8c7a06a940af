"""
What every calculator is made of: inputs, answers, their renderings, number wording, drawing parts.

Knows no subject and no page. May import: the standard library only. Guarded by tests/test_rooms.py.
"""
