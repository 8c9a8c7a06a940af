"""
What the build gives the reader of questions: its index, made of docs/, and which inputs decide most; `ask --lines`.

May import: calculators. Guarded by tests/build_tools/questions.
"""
