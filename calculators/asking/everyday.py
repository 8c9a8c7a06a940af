"""
Words that viewers use for one and the same thing, and spellings of the two Englishes: one list for all who read them.

The page's finder and the reader of questions both take them from here; each has further ones of its own. Common
practice, no source: what the trade and its customers call things.
"""

from __future__ import annotations

# The first of a row stands for all of it.
ONE_THING = (
    ("memory", "ram", "dimm"),
    ("processor", "cpu"),
    ("monitor", "screen", "display"),
    ("television", "tv"),
    ("microphone", "mic"),
    ("displayport", "dp"),
    ("fps", "frame", "frames"),
    ("delay", "lag", "latency", "late"),
    ("film", "movie"),
    ("buzz", "hum", "whine", "noise"),
    ("blur", "blurry", "fuzzy"),
    ("child", "kid", "children"),
    ("disk", "ssd", "drive"),
    ("adapter", "converter", "dongle"),
    ("install", "installed", "installing"),
)

# American first, British second, where no rule of endings (-or/-our, -ize/-ise, one l or two) tells it.
SPELLINGS = (
    ("gray", "grey"),
    ("adapter", "adaptor"),
    ("disk", "disc"),
    ("program", "programme"),
    ("center", "centre"),
    ("meter", "metre"),
    ("fiber", "fibre"),
    ("theater", "theatre"),
    ("analog", "analogue"),
    ("dialog", "dialogue"),
    ("license", "licence"),
    ("aluminum", "aluminium"),
    ("mold", "mould"),
)
