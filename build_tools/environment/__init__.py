"""
What every other room uses: places, progress, child processes, logs, stamps, locks, Node, the browser, the one error.

Runs on a bare Python 3.11 or newer, so it uses the standard library alone. May import: nothing.
Guard: tests/test_rooms.py and tests/build_tools/environment.
"""
