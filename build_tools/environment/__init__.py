"""
What every other room uses: places, progress, child processes, logs, stamps, turns, Node, the browser, the one error.

Runs on a bare Python 3.11 or newer, so it imports the standard library alone, and nothing of the project
outside this room. Guard: tests/test_rooms.py and tests/build_tools/environment.
"""
