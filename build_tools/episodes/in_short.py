"""What a correction changed, in a few words for a card: read from the two sentences. Knows no picture."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from difflib import SequenceMatcher
from itertools import pairwise

from build_tools.episodes.sheet import Correction, Segment

MOST = 20  # characters of each side, as of a card's hero
_MOST_UNIT = 8  # letters of a word that is a number's unit
_SHORTER = {"minutes": "min", "minute": "min", "hours": "h", "hour": "h", "seconds": "s"}
_NO_UNIT = ("for", "and", "with", "over", "at", "in", "of", "or", "on", "to", "than")

Piece = tuple[int, int, int, int]  # from and to which word of the one sentence, and of the other


def changed(was: str, now: str) -> tuple[str, str] | None:
    """
    The first number that two sentences tell differently, with its unit, before and now; else the one word or two.

    Args:
        was: What was said. [text]
        now: What holds now. [text]

    Returns:
        Both sides, each of at most MOST characters; None where the change cannot be told in so few. [text]

    Source:
        None: words compared in order, by the standard library's sequence matcher.

    Example:
        >>> changed("It waits 15 ns for its first data.", "It waits 14.06 ns for its first data.")
        ('15 ns', '14.06 ns')
    """
    one, other = was.split(), now.split()
    pieces = list(_pieces(one, other))
    numbers = [p for p in pieces if _digit(one[p[0] : p[1]]) and _digit(other[p[2] : p[3]])]
    for piece in numbers or (pieces if len(pieces) == 1 else []):
        sides = _said(one, other, piece)
        if all(sides) and sides[0] != sides[1] and all(len(side) <= MOST for side in sides):
            return sides
    return _by_unit(one, other)


def _by_unit(one: Sequence[str], other: Sequence[str]) -> tuple[str, str] | None:
    """The first number of which the other sentence tells another one with the same unit, each with one alone."""
    first, second = _counted(one), _counted(other)
    for unit, before in first.items():
        now = second.get(unit, [])
        if len(before) == len(now) == 1 and before != now:
            sides = f"{before[0]} {unit}", f"{now[0]} {unit}"
            if all(len(side) <= MOST for side in sides):
                return sides
    return None


def _counted(said: Sequence[str]) -> dict[str, list[str]]:
    """The plain numbers of a sentence by the unit behind them; those of a range are left out."""
    found: dict[str, list[str]] = {}
    for i, (number, behind) in enumerate(pairwise(said)):
        plain = number.replace(".", "", 1).isdigit() and not (i and said[i - 1] == "to")
        if plain and _unit([behind]):
            found.setdefault(behind.rstrip(".,;:"), []).append(number)
    return found


def of_correction(segment: Segment, entry: Correction) -> tuple[str, str] | None:
    """What a correction changed: as its sheet says for the card, else by the two sentences, else by the verdicts."""
    if entry.on_card:
        return entry.on_card
    found = changed(entry.was, entry.now)
    if found:
        return found
    before, after = (each.strip().rstrip(".") for each in (segment.verdict, entry.verdict))
    short = before and after and before != after and max(len(before), len(after)) <= MOST
    return (before, after) if short else None


def _digit(words: Sequence[str]) -> bool:
    return any(c.isdigit() for word in words for c in word)


def _pieces(one: Sequence[str], other: Sequence[str]) -> Iterator[Piece]:
    """Where the sentences differ; two places with one word between them, such as the 'to' of a range, are one."""
    found: list[Piece] = []
    for kind, a, b, c, d in SequenceMatcher(None, one, other, autojunk=False).get_opcodes():
        if kind == "equal":
            continue
        if found and a - found[-1][1] <= 1 and c - found[-1][3] <= 1:
            found[-1] = found[-1][0], b, found[-1][2], d
        else:
            found.append((a, b, c, d))
    yield from found


def _said(one: Sequence[str], other: Sequence[str], piece: Piece) -> tuple[str, str]:
    """Both sides of a change, a number with the unit behind it and a range whole."""
    a, b, c, d = piece
    while a >= 2 and one[a - 1] == "to" and _digit(one[a - 2 : a - 1]):
        a, c = a - 2, c - 2
    ends = one[b - 1 : b], other[d - 1 : d]
    alike = one[b : b + 1] == other[d : d + 1] and _unit(one[b : b + 1])
    if alike and all(_digit(end) for end in ends):
        b, d = b + 1, d + 1
    return _tidy(one[a:b]), _tidy(other[c:d])


def _unit(words: Sequence[str]) -> bool:
    """Whether a word can be a unit."""
    bare = "".join(words).rstrip(".,;:")
    return 0 < len(bare) <= _MOST_UNIT and not bare[0].isdigit() and bare not in _NO_UNIT


def _tidy(words: Sequence[str]) -> str:
    text = " ".join(words).strip(".,;:")
    return text if len(text) <= MOST else " ".join(_SHORTER.get(word, word) for word in text.split())
