"""
Numbers that are written out, put into digits where they stand: 'six thousand', 'one forty four', 'ten bit'.

A single 'two' stays a word, since it stands in names and idioms ('one core', 'the two of them'), but before a unit that
is told in words alone. Common practice, no source: how people say numbers.
"""

from __future__ import annotations

import re

_ONES = {
    "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9, "ten": 10,
    "eleven": 11, "twelve": 12, "thirteen": 13, "fourteen": 14, "fifteen": 15, "sixteen": 16, "seventeen": 17,
    "eighteen": 18, "nineteen": 19,
}  # fmt: skip
_TENS = {
    "twenty": 20, "thirty": 30, "forty": 40, "fourty": 40, "fifty": 50, "sixty": 60, "seventy": 70, "eighty": 80,
    "ninety": 90,
}  # fmt: skip
_ONE, _TEN = "|".join(sorted(_ONES, key=len, reverse=True)), "|".join(_TENS)
_UP_TO_99 = rf"(?:(?:{_TEN})(?:[ -](?:one|two|three|four|five|six|seven|eight|nine))?|{_ONE}|\d{{1,3}})"
_THOUSANDS, _HUNDREDS = rf"(?P<thousands>{_UP_TO_99}|an?) thousand", rf"(?:{_UP_TO_99}|an?) hundred"
_REST = rf"(?: (?:and )?(?P<rest>{_UP_TO_99}))?"
_LARGE = re.compile(rf"\b(?:{_THOUSANDS}(?:,? (?:and )?(?P<more>{_HUNDREDS}))?|(?P<hundreds>{_HUNDREDS})){_REST}\b")
# 144 as one says it: 'one forty four'. Before minutes and the like it would be two numbers.
_BY_HALVES = re.compile(
    rf"\b(?P<hundreds>one|two|three) (?P<tens>{_TEN})(?:[ -](?P<ones>four|five))?\b"
    r"(?! (?:min|hour|hrs|sec|day|week|year|core|stick|euro|quid|buck|dollar))"
)
_TEENS_AND_TENS = re.compile(rf"\b(?:{_TEN})[ -](?:one|two|three|four|five|six|seven|eight|nine)\b")
_DOZEN = re.compile(r"\b(?:(?P<half>half a)|(?P<two>two)|a) dozen\b")
_PART_OF = re.compile(r"\b(?P<part>half|quarter)(?: of)? an? (?=sec|minute)|\b(?:a )?(?P<quarter>quarter) (?=sec)")
_AND_A_HALF = re.compile(rf"\b(?P<number>an?|{_ONE}|\d{{1,2}})(?P<unit> hours?)? and a half(?P<behind> hours?)?\b")
_OF_A_KIND = re.compile(rf"\b(?P<number>{_ONE})(?=[ -](?:bits?|nits?)\b)")
_SIZES_OF_STICKS = re.compile(r"\b(?P<number>four|eight|sixteen|thirty two)(?P<s>e?s)\b")
_FEW = {"a": 1, "an": 1, **_ONES}


def in_digits(small: str) -> tuple[str, dict[int, int]]:
    """
    A text in small letters with its written numbers in digits, every other letter at its old place.

    Args:
        small: The text, as `words.plain` gives it. [text]

    Returns:
        The text, of the same length (digits take less room than words, blanks fill it), and by the place of each such
        number where its words ended. [tuple]

    Source:
        Common practice, no source.

    Example:
        >>> in_digits("six thousand cl thirty two")
        ('6000         cl 32        ', {0: 12, 16: 26})
    """
    ends: dict[int, int] = {}
    if not _MAY_HOLD.search(small):
        return small, ends

    def put(match: re.Match[str], value: float, suffix: str = "") -> str:
        typed = f"{value:g}{suffix}"
        if len(typed) > len(match[0]):
            return match[0]
        ends[match.start()] = match.end()
        return typed.ljust(len(match[0]))

    small = _SIZES_OF_STICKS.sub(lambda m: put(m, _below_100(m["number"]), "s"), small)
    small = _AND_A_HALF.sub(lambda m: put(m, _half_more(m["number"]), _unit_of(m)), small)
    small = _BY_HALVES.sub(
        lambda m: put(m, 100 * _ONES[m["hundreds"]] + _TENS[m["tens"]] + _ONES.get(m["ones"] or "", 0)), small
    )
    small = _LARGE.sub(lambda m: put(m, _large(m)), small)
    small = _TEENS_AND_TENS.sub(lambda m: put(m, _below_100(m[0])), small)
    small = _DOZEN.sub(lambda m: put(m, 6 if m["half"] else 24 if m["two"] else 12), small)
    small = _PART_OF.sub(lambda m: put(m, 0.5 if m["part"] == "half" else 0.25), small)
    return _OF_A_KIND.sub(lambda m: put(m, _ONES[m["number"]]), small), ends


_MAY_HOLD = re.compile(rf"hundred|thousand|dozen|quarter|half|{_TEN}|(?:{_ONE})[ -](?:bit|nit)"
                       r"|(?:four|eight|sixteen)e?s")  # fmt: skip


def _half_more(number: str) -> float:
    return (int(number) if number.isdecimal() else _FEW[number]) + 0.5


def _unit_of(match: re.Match[str]) -> str:
    return " hours" if match["unit"] or match["behind"] else ""


def _below_100(words: str) -> int:
    if words[:1].isdecimal():
        return int(words)
    return sum(_TENS.get(word, 0) + _FEW.get(word, 0) for word in re.split(r"[ -]", words))


def _large(match: re.Match[str]) -> int:
    hundreds = (match["more"] or match["hundreds"] or "").removesuffix(" hundred")
    return 1000 * _below_100(match["thousands"] or "") + 100 * _below_100(hundreds) + _below_100(match["rest"] or "")
