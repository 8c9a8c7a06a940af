"""
Looks at finished things and says what is wrong with them; changes nothing.

May import environment; is called by site. Guard: tests/build_tools/checks, whose cases each plant one fault.
"""
