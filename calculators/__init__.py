"""
The calculators: what is computed, in plain Python that goes to readers' browsers as it is.

One folder a subject, one file a calculator, and `desk/`, of which every calculator is made.
All use the standard library alone. A subject never imports another subject.
Guarded by tests/test_rooms.py.
"""
