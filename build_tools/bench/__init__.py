"""
The bench: how quickly a page computes, and how long a build takes, each beside the plain way of doing the same.

`python3 -m build_tools bench` measures in Chromium and prints a table with ratios; bench.json in .cache/ holds every
single run. Times depend on the machine, so they are reported; bytes and wide ratios are also tests
(tests/build_tools/engine/test_memory.py). Nothing imports it.

May import: questions, calculators, environment, engine, serving, site.
"""
