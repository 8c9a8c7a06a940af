"""
Rooms: picture, sound and control in another room: which way, what a stream needs, what a wire carries, lip sync.

May import: desk, trade. Guarded by tests/test_rooms.py and tests/calculators/rooms.
"""

CALCULATORS = ("ways", "stream", "network", "lips")
