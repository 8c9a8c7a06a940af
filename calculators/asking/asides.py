"""
Parts of a text that tell of something else than the asker's own: what somebody else has, what was and is no more, what
one does not want to hear of. What stands there is not read.

Common practice, no source: how people tell of others and of before.
"""

from __future__ import annotations

import re

_PERSON = (
    r"(?:mate|friend|buddy|brother|sister|dad|father|mum|mom|mother|son|daughter|wife|husband|girlfriend|boyfriend|"
    r"cousin|uncle|neighbou?r|colleague|coworker|flatmate|roommate|boss|guy|bloke)"
)
_THING = r"(?: (?:pc|computer|laptop|machine|rig|one|ones|setup|card|monitor|screen|tv|board|kit))?"
_OWN = re.compile(
    r"\b(?:i have|i'?ve|i got|i only|i run|i use|i do|i get|i am|i'?m|i just|i want|mine|my own|for me)\b"
)
# These end what an aside tells of.
_UNTIL = (
    r"(?=[,.;:!?\n](?!\d)|\b(?:but|now|mine|today|while|whereas|so)\b|\band (?:i|my|mine|now|it)\b|"
    r"\bi(?:'?ve| have| got| bought| want| am|'?m| do| only| run| use)\b|$)"
)
_HAS = r"(?:has|had|got|uses|used|runs|ran|owns|plays|does|did)"
# What is told whether or not the asker's own stands beside it.
_PLAIN = (
    re.compile(rf"\bused to (?:have|own)\b.*?{_UNTIL}"),
    # 'Used to run 144, now only 60' wants 144 back: that is no aside.
    re.compile(
        r"\bused to (?:do|run|be|play|sit)\b(?=[^.!?]*\bnow\b)(?![^.!?]*\bnow\b[^.!?]{0,12}\b(?:only|just|stuck))"
        rf".*?{_UNTIL}"
    ),
    re.compile(
        rf"\b(?:dont|don't|do not|please don'?t) (?:tell|say|suggest|recommend|mean)\b(?: me)?(?: to)?.*?{_UNTIL}"
    ),
    re.compile(rf"(?:^|[.,;!?] *)(?:instead of|rather than)\b.*?{_UNTIL}"),
)
# What is an aside only where the asker's own stands beside it: else somebody asks for a friend.
_BESIDE_OWN = (
    re.compile(
        rf"\b(?:my|a|his|her|our|some|this) (?:\w+ )?{_PERSON}(?:'?s)?{_THING} (?:\w+ )?{_HAS}\b(?! to\b).*?{_UNTIL}"
    ),
    re.compile(rf"\b(?:in (?:the|your|that|this) (?:\w+ )?(?:video|episode|show) )?you (?:\w+ )?"
               rf"(?:had|said|used|showed|tested|ran|told|mentioned|recommended)\b.*?{_UNTIL}"),
    re.compile(rf"\bmine used to (?:be|do|run)\b.*?{_UNTIL}"),
)  # fmt: skip
_MAY_HOLD = re.compile(rf"\bused to\b|\binstead of\b|\brather than\b|\b(?:dont|don't|do not)\b|\byou\b|\b{_PERSON}\b")


def asides(small: str) -> tuple[tuple[int, int], ...]:
    """
    Where a text tells of something else than the asker's own.

    Args:
        small: The text in small letters. [text]

    Returns:
        Start and end of each such part, in order. [tuple]

    Source:
        Common practice, no source.

    Example:
        >>> text = "my mate has 600 ohm ones, mine are 38 ohm"
        >>> [text[start:end] for start, end in asides(text)]
        ['my mate has 600 ohm ones']
    """
    if not _MAY_HOLD.search(small):
        return ()
    places = [match.span() for pattern in _PLAIN for match in pattern.finditer(small)]
    for pattern in _BESIDE_OWN:
        for match in pattern.finditer(small):
            if _OWN.search(small[: match.start()]) or _OWN.search(small[match.end() :]):
                places.append(match.span())
    return tuple(sorted(places))


def is_aside(places: tuple[tuple[int, int], ...], start: int) -> bool:
    """Whether a place of a text stands in one of its asides."""
    return any(first <= start < last for first, last in places)
