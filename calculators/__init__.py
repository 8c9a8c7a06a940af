"""
The calculators: what is computed, in plain Python that goes to readers' browsers as it is.

One folder a subject, one file a calculator, and `desk/`, of which every calculator is made.
May import: the standard library, and calculators/desk. A subject never imports another subject.
Guarded by tests/test_rooms.py.
"""
