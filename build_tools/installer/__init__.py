"""
Makes what the other rooms need: uv, the virtual environment, Node's packages, other Pythons.

Runs on a bare Python 3.11 or newer, so it uses the standard library alone. May import: environment.
Guard: tests/test_rooms.py and tests/build_tools/installer.
"""
