"""Names above a scale or along a way, none upon another; and texts in lines of about one length."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import product

from calculators.desk.card_declared import SMALLEST_DRAWN
from calculators.desk.svg import Sketch, text_width

NAMES_APART = 0.5  # rows of air between names one below the other, so that they are not read as one text
MOST_UNIT = 5  # letters of a word that stays beside its number
_MOST_TRIED = 4  # names that are also tried in two or three lines: with more the ways are too many
_APART = ("at", "and", "of", "in", "on", "or")  # words that are no unit of the number before them


@dataclass(frozen=True, slots=True)
class Named:
    """What is named above a scale: where, in which words, whether the viewer's own or a stretch; the card's step."""

    x: float
    label: str
    mark: bool
    stretch: bool
    step: int = 0


@dataclass(frozen=True, slots=True)
class _Name:
    """A name in its lines: which row the first of them is, where they begin and how wide they are."""

    of: Named
    lines: tuple[str, ...]
    row: float
    left: float
    wide: float


def placed_names(named: Sequence[Named], width: float, size: float) -> list[_Name] | None:
    """
    The names from the top row down, each with its left edge, so that no leader runs through another's words.

    The leaders of the rows above pass a row on one side of its words: on the left where the names go down from the
    left, on the right where they go down from the right. In the fewest rows; None where the words are too wide.
    """
    # a name in three lines is read as three; rather smaller words, and three only in the smallest
    most = 1 if len(named) > _MOST_TRIED else 2 if size > SMALLEST_DRAWN else 3
    ways = [_wrapped(each, width, size, most) for each in named]
    for lines in sorted(product(*ways), key=lambda way: sum(map(len, way))):
        for rightwards in (True, False):
            if (rows := _in_rows(named, lines, width, size, rightwards)) is not None:
                return rows
    return None


def _wrapped(each: Named, width: float, size: float, most: int) -> list[tuple[str, ...]]:
    """A name in one line where it fits, and in two and three of about one length."""
    lines = range(1, min(most, len(_together(each.label))) + 1)
    tried = [evenly(each.label, count, width, size, each.mark) for count in lines]
    return [tuple(made) for made in tried if made]


def evenly(text: str, count: int, width: float, size: float, bold: bool = False) -> list[str] | None:
    """A text in so many lines of about one length, or None; what is read together stays on one line."""
    room = text_width(text, size, bold) / count
    made = _in_lines(text, room, size, bold)
    while len(made) > count and room < width:
        room += size / 3
        made = _in_lines(text, room, size, bold)
    inside = len(made) == count and all(text_width(line, size, bold) <= width for line in made)
    return made if inside else None


def _in_lines(text: str, width: float, size: float, bold: bool) -> list[str]:
    """A text in lines that end between things read together, such as '48 to 144 Hz' and 'the range'."""
    kept = _together(text)
    lines: list[str] = []
    for words in kept:
        longer = f"{lines[-1]} {words}" if lines else words
        if lines and text_width(longer, size, bold) <= width:
            lines[-1] = longer
        else:
            lines.append(words)
    return lines


def _together(text: str) -> list[str]:
    """The words of a text, those in one that no line may part: a range, a number and its unit, an article's word."""
    kept: list[str] = []
    for word in text.split():
        before = kept[-1].rpartition(" ")[2] if kept else ""
        number = before[-1:].isdigit()
        unit = number and len(word) <= MOST_UNIT and word[0].isalpha() and before[0].isdigit() and word not in _APART
        end = before == "to" and " to" in kept[-1] and word[0].isdigit()
        if kept and (unit or end or before in ("a", "an", "the", "at")):
            kept[-1] += f" {word}"
        else:
            kept.append(word)
    return kept


def _in_rows(
    named: Sequence[Named], lines: Sequence[tuple[str, ...]], width: float, size: float, rightwards: bool
) -> list[_Name] | None:
    """The names in these lines, going down from one side; None where one of them has no place."""
    gap = size * 0.3
    rows: list[_Name] = []
    row = 0
    for each, label_lines in sorted(zip(named, lines, strict=True), key=lambda n: n[0].x, reverse=not rightwards):
        wide = max(text_width(line, size, each.mark) for line in label_lines)
        left = min(max(each.x - wide / 2, 0), width - wide)
        for other in rows:
            left = max(left, other.of.x + gap) if rightwards else min(left, other.of.x - gap - wide)
        # its own leader must still come out below its words, within the last line's length
        last = text_width(label_lines[-1], size, each.mark)
        start = left if each.x < left + wide / 2 or len(label_lines) == 1 else left + wide - last
        if left < 0 or left + wide > width or not start - gap <= each.x <= start + last + gap:
            return None
        rows.append(_Name(each, label_lines, row, left, wide))
        row += len(label_lines)
    return rows


def set_names(sketch: Sketch, placed: Sequence[_Name], row: float, size: float) -> None:
    """Writes the names, each at the side of its words on which its leader comes out."""
    for name in placed:
        each, right = name.of, name.left + name.wide
        end = len(name.lines) > 1 and each.x >= name.left + name.wide / 2
        ink = "mark" if each.mark else "ink"
        for j, line in enumerate(name.lines):
            base = row * (name.row + j) + size * 0.92
            at, anchor = (right, "end") if end else (name.left, "start")
            with sketch.later(each.step):
                sketch.text(at, base, line, size=size, ink=ink, bold=each.mark, anchor=anchor)
