"""
What turns docs and calculators into site/, and the commands that do it: `python3 -m build_tools`.

Each room below has one job; `environment`, `installer` and `commands` use the standard library alone, since they run
before anything is installed. May import calculators; nothing imports it. Guard: tests/test_rooms.py.
"""
