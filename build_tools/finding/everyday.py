"""
How viewers type: words that say nothing, words that mean the same, spellings of the two Englishes.

Three lists, handed out with the index, so that whoever reads it takes words alike. What the reader of questions takes
for one thing too, and the spellings, stand in calculators/asking/everyday.py. Common practice, no source: what English
leaves unsaid, and what the trade and its customers call things.
"""

from __future__ import annotations

from calculators.asking.everyday import ONE_THING, SPELLINGS

# Words that nearly every question holds and that tell no subject. Kept out of it: on, off, not, no, left, right, up.
STOP_WORDS = tuple(
    """
    a about actually again all also am an and any anyone are as at be been being best but by came can cannot cant
    come could did didn do does doesn doesnt doing don dont each else even ever every explained for from gave get
    gets getting give given go goes going good got had has have having he help hello her hey hi him his how i if im
    in into is isn isnt issue issues it its ive just keep know let like make makes may maybe me mean means might
    mine must my need needed needs next of ok okay one or our please problem problems put really say she should
    since so some someone something still such tell than thank thanks that the their them then there these they
    thing things think this those though to too try use used using versus very vs want wants was wasn we well were
    what whats when where while who why will with without won wont would you your yours
    """.split()
)

# Words that viewers use for one another. Those of one row find each other's pages, a little after the word itself.
SAME = (
    *ONE_THING,
    ("stick", "module", "dimm"),
    ("gpu", "graphics", "card"),
    ("pc", "computer", "machine", "desktop"),
    ("wifi", "wireless", "air"),
    ("wire", "cable", "lead"),
    ("hertz", "hz", "refresh"),
    ("big", "large"),
    ("earphones", "earbuds", "headphones"),
    ("socket", "jack", "port"),
    ("boot", "start", "post"),
    ("swap", "swapping", "change", "replace", "upgrade"),
    ("footage", "video", "film"),
    ("dull", "faded", "pale", "washed"),
    ("audio", "sound"),
    ("length", "long"),
    ("4k", "3840", "2160"),
    ("1440p", "2560", "1440"),
    ("1080p", "1920", "1080"),
)

__all__ = ["SAME", "SPELLINGS", "STOP_WORDS"]
