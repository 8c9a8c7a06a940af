"""
Finds in a question what every calculator looks for: numbers, picture sizes, rows of timings, labels.

Knows how people write quantities; knows no subject.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from calculators.asking.asides import asides, is_aside
from calculators.asking.number_words import in_digits
from calculators.asking.words import Word, cut, plain, stem

_NUMBER_WORDS = {
    "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9, "ten": 10,
    "eleven": 11, "twelve": 12, "fifteen": 15, "sixteen": 16, "twenty": 20, "thirty": 30, "forty": 40, "fifty": 50,
    "sixty": 60, "eighty": 80, "hundred": 100, "pair": 2, "both": 2, "single": 1, "dual": 2, "quad": 4,
}  # fmt: skip
_SIZES = {
    "8k": (7680, 4320), "5k": (5120, 2880), "4k": (3840, 2160), "uhd": (3840, 2160), "2160p": (3840, 2160),
    "4320p": (7680, 4320), "1440p": (2560, 1440), "qhd": (2560, 1440), "wqhd": (2560, 1440), "1080p": (1920, 1080),
    "quad hd": (2560, 1440), "ultra hd": (3840, 2160), "1080": (1920, 1080),
    "1440": (2560, 1440), "2160": (3840, 2160),
    "full hd": (1920, 1080), "fhd": (1920, 1080), "uwqhd": (3440, 1440), "720p": (1280, 720),
}  # fmt: skip
_SIZE = re.compile(
    r"(?<![\w.])(?:(\d{3,5})\s?[x*]\s?(\d{3,5})|(8k|5k|4k|uhd|(?:2160|4320|1440|1080|720)p|u?w?qhd|f(?:ull\s)?hd|(?:quad|ultra)\s?hd"
    # The lines alone, where a refresh follows or where one does something at them: '1080 240hz', 'games at 1440'.
    r"|(?:1080|1440|2160)(?=\s*(?:@|/|at|,)?\s*\d{2,3}(?:[.,]\d+)?\s*(?:hz|herz|hertz|fps)\b)"
    r"|(?<=\bat )(?:1080|1440|2160)(?=\s*(?:[,.!?]|$|on\b|with\b|and\b|or\b|over\b|via\b|max\b|only\b))))"
    # The refresh behind it, unless the number is of something else by its unit.
    r"(?:\s*(?:@|/|at|,)?\s*(\d{2,3}(?:[.,]\d{1,3})?)(?!\w|[.,]\d|\s*(?:"
    r"gb|gig|g\b|bit|m\b|mm|cm|ft|feet|met(?:re|er)|inch|%|mb|mbps|ohm|w\b|watt|min\b|hours|year|month|day"
    r"|\"|€|\$|£|euro|quid|bucks|pounds|dollars|cores|million|mio|mill|textures|polys|triangles"
    r"|cams?\b|cameras|streams?\b|layers?\b|tracks?\b|clips?\b|tabs\b|of them)))?"
    r"(?=\d{2,3}\b|[^a-z0-9]|hz|fps|p\b|$)"
)
_ROW = re.compile(r"(?<![\d.-])\d{1,3}(?:-\d{2,3}){2,4}(?![\w-])")
_LABEL = re.compile(r"(?<!\w)(?:ddr[345]l?[\s-]?\d{3,5}|pc[345]l?-?\d{3,5}[a-z]{0,2}|\d{1,3}(?:[.,]\d)?\s?gt/s)(?!\w)")
# Words before a number that make it what somebody has got or sees ('stuck at 60'), as against what is _WANTED.
_SHOWN = frozenset(
    "stuck only shows show says said reports boots tells "
    "reported ends end runs running ran limited capped drops dropped shown "
    "max maximum default reads gives gets according utility reaches falls went offers "
    "lists old until console phone around steady "
    "past beyond above without auto automatic automatically".split()
)
# What is printed on a thing is what it was sold for: 'the sticker says 3600'.
_PRINTS, _PRINTED = (
    frozenset("says said shows lists".split()),
    frozenset("sticker label box package packaging print".split()),
)
# The weight of a number that the words before it tell as seen, or as wanted; 0 without any such word. A text that tells
# what is seen mostly tells what is wanted too, often without such a word: so what is seen loses more than what is
# wanted wins. As inputs/numbers.py counts it, it loses more than a unit is worth. Common practice, no source.
_IS_SHOWN, _IS_WANTED = -0.5, 0.3
# What a number is of, the words around it tell, within so many words. How people write, no source.
_DENIED_WITHIN = 2  # words before it: 'not 4', 'not the 4'
_UNIT_WITHIN = 2  # words behind it: '50 Hz', '50 - Hz'
_SOUND_WITHIN = 3  # words before it: 'hum at around 50 Hz'
_UNIT_AT_MOST = 4  # words that a unit is made of: 'gb / s' is three
_SHARED_WITHIN = 3  # words from a number to the one whose unit it shares: '240 up to 360 Hz'
# What can be the size and the refresh of a picture on a desktop display or a television. Common practice, no source.
_LEAST_WIDTH, _LEAST_HEIGHT = 300, 200  # pixels; less is a number of cores, sticks or tracks
_LEAST_REFRESH, _MOST_REFRESH = 20, 600  # Hz
_WEIGHED_WITHIN = 5  # words before a number: 'want it to run at 3600'; what stands further off is of another thing
_NOT = frozenset("no not without isnt arent dont doesnt cannot nor".split())
_WANTED = frozenset(
    "want wants wanted paid new rated box profile need get wish sold advertised for promised instead".split()
)
# Beside a number with Hz: it is a sound's frequency, not a refresh.
_FALLS, _FRAMES = frozenset("dropped drops drop fell falls went down".split()), frozenset("fps frames".split())
_HEARD = frozenset("hum humming hums buzz buzzing noise mains".split())
_TIMES = {"once": 1.0, "twice": 2.0, "thrice": 3.0}
_EACH, _PERIODS = frozenset("a per each every".split()), frozenset("week weekend".split())
# Before 'an hour': it is a duration of one hour, not 'twice an hour'.
_LASTS = frozenset("for about around roughly only just takes take took after nearly almost over needs lasts".split())
# Between two numbers: the first may have the unit of the second, as in '240 vs 360 Hz'.
_JOINS = frozenset({"or", "and", "to", "up", "vs", "versus", "-", "/", ",", "than", "from"})


@dataclass(frozen=True, slots=True)
class Quantity:
    """
    A number in the text.

    value: as typed. at: index of its word. start, end: where it is in the text. borrowed: index of the number whose
    unit it shares, as 240 does in '240 vs 360 Hz'; else -1. weight: above 0 where the text says that this value is
    wanted, below 0 where it says that this is what one sees or has got. denied: the text says that it is not so, or
    the number is of another kind. spelled: written as a word.
    """

    value: float
    at: int
    start: int
    end: int
    borrowed: int = -1
    weight: float = 0.0
    denied: bool = False
    spelled: bool = False


@dataclass(frozen=True, slots=True)
class PictureSize:
    """A picture's size, and the refresh where it stands right behind: 4k60, 3840x2160@144, 1440p 165."""

    width: int
    height: int
    refresh: float | None
    start: int
    end: int
    weight: float = 0.0


@dataclass(frozen=True, slots=True)
class Facts:
    """
    A text, cut up once for all calculators.

    small: the text in small letters, each at its old place, numbers in digits. roots: the stem of each
    word. rows, labels: each row of timings and each label, with start and end. asides: where it tells of something
    else than the asker's own.
    """

    text: str
    small: str
    words: tuple[Word, ...]
    roots: tuple[str, ...]
    quantities: tuple[Quantity, ...]
    sizes: tuple[PictureSize, ...]
    rows: tuple[tuple[str, int, int], ...]
    labels: tuple[tuple[str, int, int], ...]
    asides: tuple[tuple[int, int], ...] = ()

    def typed(self, quantity: Quantity) -> str:
        """A number in digits, as it would be typed into a field."""
        return self.small[quantity.start : quantity.end].split()[0]


def gather(text: str) -> Facts:
    """
    All facts of a text.

    Args:
        text: As typed. [text]

    Returns:
        Its words, numbers, picture sizes, rows of timings and labels. [object]

    Source:
        Common practice, no source: how people write quantities.

    Example:
        >>> [(q.value, q.weight) for q in gather("stuck at 60, want 144 Hz").quantities]
        [(60.0, -0.5), (144.0, 0.3)]
    """
    small, ends = in_digits(plain(text))
    words = (
        tuple(replace(word, end=ends.get(word.start, word.end)) for word in cut(small)) if ends else tuple(cut(text))
    )
    others = asides(small)
    sizes = tuple(_sizes(small, words))
    taken = [(s.start, s.end) for s in sizes]
    sizes = _meant(sizes, words, others)
    rows = tuple((m.group(), m.start(), m.end()) for m in _ROW.finditer(small) if not is_aside(others, m.start()))
    labels = tuple((m.group(), m.start(), m.end()) for m in _LABEL.finditer(small) if not is_aside(others, m.start()))
    taken += [(start, end) for _, start, end in rows]
    quantities = tuple(
        replace(quantity, denied=True) if is_aside(others, quantity.start) else quantity
        for quantity in _quantities(words, taken)
    )
    return Facts(text, small, words, tuple(stem(w.text) for w in words), quantities, sizes, rows, labels, others)


def _meant(
    sizes: tuple[PictureSize, ...], words: Sequence[Word], others: tuple[tuple[int, int], ...]
) -> tuple[PictureSize, ...]:
    """The sizes that a text neither denies, 'not 4k but 1440p', nor tells of something else; all where none is left."""
    at = {word.start: n for n, word in enumerate(words)}
    left = tuple(
        size
        for size in sizes
        if not is_aside(others, size.start)
        and not any(w.text in _NOT for w in words[max(0, at.get(size.start, 0) - 1) : at.get(size.start, 0)])
    )
    return left or sizes


def _weight_of(words: Sequence[Word], at: int) -> float:
    """Above 0 if the words before a number say that it is wanted, below 0 if they say that one has got it; else 0."""
    near = [w.text for w in words[max(0, at - _WEIGHED_WITHIN) : at] if w.sentence == words[at].sentence]
    if near[-1:] == ["from"] and _FALLS & set(near) and not _FRAMES & {w.text for w in words}:
        return _IS_WANTED  # 'it dropped from 3600 to 2933': the first is what it should be; frames are as they fall
    for text in reversed(near):
        if text[0].isdecimal():
            return 0.0
        if text in _SHOWN:
            return _IS_WANTED if text in _PRINTS and _PRINTED & set(near) else _IS_SHOWN
        if text in _WANTED:
            return _IS_WANTED
    return 0.0


def _sizes(small: str, words: Sequence[Word]) -> Iterator[PictureSize]:
    starts = {word.start: at for at, word in enumerate(words)}
    for match in _SIZE.finditer(small):
        if match[3]:
            width, height = _SIZES[" ".join(match[3].split())]
        else:
            width, height = int(match[1]), int(match[2])
            if width < _LEAST_WIDTH or height < _LEAST_HEIGHT:
                continue
        refresh = float(match[4].replace(",", ".")) if match[4] else None
        end = match.end()
        if refresh is not None and not _LEAST_REFRESH <= refresh <= _MOST_REFRESH:
            refresh, end = None, match.start(4)
        if refresh is None and (glued := re.match(r"(\d{2,3})(?!\w)", small[end:])) and small[end - 1] in "kp":
            refresh, end = float(glued[1]), end + glued.end()
        yield PictureSize(width, height, refresh, match.start(), end, _weight_of(words, starts.get(match.start(), 0)))


def _quantities(words: Sequence[Word], taken: Sequence[tuple[int, int]]) -> Iterator[Quantity]:
    numbers: list[Quantity] = []
    for at, word in enumerate(words):
        if any(start <= word.start < end for start, end in taken):
            continue
        spelled = not word.is_number
        spelled_value = _in_words(words, at) if spelled else None
        if spelled and spelled_value is None:
            continue
        if not spelled and (":" in word.text or _is_part_of_a_name(words, at)):
            continue
        value = float(word.text.replace(",", ".")) if spelled_value is None else spelled_value
        before = [w.text for w in words[max(0, at - _DENIED_WITHIN) : at]]
        denied = any(text in _NOT for text in before) or before in (
            ["db", "at"],
            ["spl", "at"],
            ["db", "@"],
            ["spl", "@"],
        )  # as in '85 dB at 1 m'
        after = [w.text for w in words[at + 1 : at + 1 + _UNIT_WITHIN]]
        near = {w.text for w in words[max(0, at - _SOUND_WITHIN) : at]} | set(after)
        denied = denied or (after[:1] == ["hz"] and bool(near & _HEARD))
        numbers.append(
            Quantity(value, at, word.start, word.end, weight=_weight_of(words, at), denied=denied, spelled=spelled)
        )
    for n, quantity in enumerate(numbers):
        follower = numbers[n + 1] if n + 1 < len(numbers) else None
        shares = (
            follower is not None
            and not quantity.spelled
            and not _is_glued_behind_an_x(words, quantity.at)
            and 1 < follower.at - quantity.at <= _SHARED_WITHIN
            and all(words[k].text in _JOINS for k in range(quantity.at + 1, follower.at))
            and (words[quantity.at + 1].text != "," or _alike(quantity.value, follower.value))
        )
        if shares and follower is not None:
            yield Quantity(
                quantity.value, quantity.at, quantity.start, quantity.end, follower.at, quantity.weight, quantity.denied
            )
        else:
            yield quantity


def _in_words(words: Sequence[Word], at: int) -> float | None:
    """The number that a word stands for: 'four', 'twice a week', 'every day' as seven, '(half) an hour'."""
    text = words[at].text
    before = [w.text for w in words[max(0, at - 2) : at]]
    after = [w.text for w in words[at + 1 : at + 3]]
    if text in _TIMES:
        return _TIMES[text] if after[:1] and after[0] in _EACH and after[-1] in _PERIODS else None
    if text in ("every", "each"):
        return 7.0 if after[:1] in (["day"], ["evening"], ["night"]) else None
    if text == "an" and after[:1] == ["hour"]:
        if before[-1:] in (["half"], ["quarter"]):
            return 0.5 if before[-1] == "half" else None
        return 1.0 if before and before[-1] in _LASTS else None
    if text == "half" and after[:1] == ["hour"]:
        return 0.5
    return _NUMBER_WORDS.get(text)


# Names that a number belongs to: 'wifi 5' counts nothing.
_NUMBERED = {
    "wifi": "4 5 6 7", "fi": "4 5 6 7", "cat": "5 6 7 8", "usb": "2 3 4 2.0 3.0 3.1 3.2", "bluetooth": "4 5 6",
    "windows": "7 8 10 11", "win": "7 8 10 11", "hdmi": "1.3 1.4 2.0 2.1", "dp": "1.1 1.2 1.4 2.0 2.1",
    "displayport": "1.1 1.2 1.4 2.0 2.1",
}  # fmt: skip


_ALIKE_WITHIN = 8  # times: '30, 60, 120 or 240 Hz' are of one kind, '8192, 50 million' are not


def _is_glued_behind_an_x(words: Sequence[Word], at: int) -> bool:
    """Whether an x stands glued before a number and no number before it: a link's width, 'x8, 24 GB'."""
    glued = at > 0 and words[at - 1].text == "x" and words[at - 1].end == words[at].start
    return glued and (at < 2 or not words[at - 2].is_number or words[at - 2].end < words[at - 1].start)


def _alike(one: float, other: float) -> bool:
    """Whether two numbers with a comma between are near enough to share a unit, unlike '8192, 50 million'."""
    return max(one, other) <= _ALIKE_WITHIN * min(one, other)


def _is_part_of_a_name(words: Sequence[Word], at: int) -> bool:
    """Whether a number belongs to a name before it: the 2 of M.2, the 5 of wifi 5."""
    if at and words[at - 1].text in ("h", "x") and words[at].text in ("264", "265", "266"):
        return True  # a codec
    if at and words[at].text in _NUMBERED.get(words[at - 1].text, "").split():
        follows = words[at + 1] if at + 1 < len(words) else None
        if follows is None or follows.start > words[at].end or not follows.text[0].isalpha():
            return follows is None or follows.text not in ("m", "metre", "metres", "meter", "meters", "ft", "feet")
    return (
        at > 1 and words[at - 1].text == "." and words[at - 1].end == words[at].start
        and words[at - 2].end == words[at - 1].start and words[at - 2].text[-1].isalpha()
    )  # fmt: skip


def behind(facts: Facts, at: int) -> list[tuple[str, int]]:
    """What follows a word and may be its unit: the next words joined, longest first, each with the last one's index."""
    joined, units = "", []
    for place in range(at + 1, min(at + 1 + _UNIT_AT_MOST, len(facts.words))):
        word = facts.words[place]
        if joined == ":" and word.text == "1" and word.start == facts.words[place - 1].end:
            return [(":1", place)]
        if word.is_number or word.text in ".!?;":
            break
        if word.text == "-" and not joined:
            continue
        joined += word.text
        units.append((joined, place))
    return list(reversed(units))
