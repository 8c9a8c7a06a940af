"""
Makes what the other rooms need: the virtual environment, Node's packages, other Pythons, a browser.

Runs on a bare Python 3.11 or newer, so it imports the standard library alone, and nothing of the project
outside this room. Guard: tests/test_rooms.py and tests/build_tools/environment.
"""
