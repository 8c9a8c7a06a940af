"""Where the names of an input stand by a number: before it, behind it, or some words away."""

from __future__ import annotations

from collections.abc import Sequence

from calculators.asking.facts import Facts, Quantity
from calculators.asking.inputs.plan import AskedInput
from calculators.asking.inputs.units import OTHER_UNITS, unit_behind
from calculators.asking.phrases import Name, by_first, mentions
from calculators.asking.words import SAYS_NOTHING, stem

_MODES = frozenset("film movie cinema game gaming video".split())


NEAR = 7  # words within which a name speaks for a number: half a sentence. Common practice, no source
_FAR = 99  # words: more than NEAR, where no name stands near
_PAST_A_COMMA = 4  # words: what stands in another part of the sentence speaks less
_BEHIND = 1  # word: what follows speaks a little less than what leads
_IN_ONE_BREATH = 10  # words: an input named so near is spoken of
_BESIDE = frozenset("behind after before than ahead".split())
# Words that may stand between an input's name and its number: 'ping of about 12'.
_FILLERS = frozenset(
    "of is = : around about was e express only just like maybe roughly up to says say shows gives drops drop dropped "
    "falls fall fell dips dip goes sinks under below down sits sit hovers hover hangs in my most".split()
)
# Words between a number's unit and the name of what it tells: '10 min waiting on the disk'.
_LEADS_TO = frozenset("of for on in with at the a an my waiting wait is was goes into per".split())
_ARTICLES = (("the",), ("a",))


def words_away(facts: Facts, near: frozenset[str], first: int, last: int) -> int:
    """
    How many words away the nearest of some roots stands in the same sentence.

    Args:
        facts: The text. [object]
        near: The roots. [set]
        first: The first of the words that it is measured from. [index]
        last: The last of them. [index]

    Returns:
        Words; a large number where none of the roots stands there. [words]

    Source:
        None: a count.

    Example:
        >>> from calculators.asking.facts import gather
        >>> words_away(gather("a ping of 12"), frozenset({"ping"}), 3, 3)
        2
    """
    best = _FAR
    for at in range(max(0, first - NEAR), min(len(facts.words), last + NEAR + 1)):
        if first <= at <= last or facts.words[at].sentence != facts.words[first].sentence:
            continue
        if facts.roots[at] in near and not _is_a_mode(facts, at):
            low, high = (at, first) if at < first else (last, at)
            if at > last and any(w.text in _BESIDE for w in facts.words[last + 1 : at]):
                continue  # 'lags 150 ms behind the picture' tells of what lags
            away = high - low
            if any(w.text == "," for w in facts.words[low:high]):
                away += _PAST_A_COMMA
            elif at > last:
                away += _BEHIND
            best = min(best, away)
    return best


def _is_a_mode(facts: Facts, at: int) -> bool:
    """Whether a word only says which setting a television is in: 'film mode' tells of no film."""
    return facts.words[at].text in _MODES and [w.text for w in facts.words[at + 1 : at + 2]] == ["mode"]


def named_next(facts: Facts, asked: AskedInput, last: int) -> bool:
    """Whether the input's name stands right behind a number's unit: '4 hours (of) grading', '20 min for one core'."""
    at, sentence = last + 1, facts.words[last].sentence
    while at < min(len(facts.words), last + 4) and facts.words[at].text in _LEADS_TO:
        at += 1
    if at >= len(facts.words) or facts.words[at].sentence != sentence:
        return False
    if facts.roots[at] in asked.sure_names:
        return True
    return any(
        (name_roots[:1] in _ARTICLES and facts.roots[at : at + len(name_roots) - 1] == name_roots[1:])
        or (len(name_roots) > 1 and facts.roots[at : at + len(name_roots)] == name_roots)
        for name_roots in asked.names
    )  # fmt: skip


def name_before(facts: Facts, asked: AskedInput, at: int) -> int:
    """
    How long a name of an input's stands right before a number: 'mtu 9000', 'gen 4', 'ping of 12'.

    Args:
        facts: The text. [object]
        asked: The input. [object]
        at: The number's word. [index]

    Returns:
        The name's length; 0 where none stands there. [words]

    Source:
        None: a count.

    Example:
        >>> from calculators.asking.facts import gather
        >>> from calculators.asking.inputs.plan import plan_of
        >>> name_before(gather("mtu 9000"), plan_of("rooms.network").asked["mtu"], 1)
        1
    """
    places, longest = [at - 1], 0  # fillers are passed over, but a name may end in one: 'drops to 40'
    while places[-1] >= 0 and facts.words[places[-1]].text in _FILLERS:
        places.append(places[-1] - 1)
    for name_roots in asked.names:
        if (
            not name_roots
            or _has_digits(name_roots)
            or (len(name_roots) == 1 and (name_roots[0] in SAYS_NOTHING or len(name_roots[0]) < 2))
        ):
            continue
        is_labelled = facts.words[at - 1].text in (":", "=")  # 'tabs: 60'
        if len(name_roots) == 1 and name_roots[0] in asked.counted and not is_labelled:
            continue  # 'pass 3' is the third one, not three
        for place in places if len(name_roots) > 1 else places[-1:]:
            if place + 1 < len(name_roots) or facts.roots[place + 1 - len(name_roots) : place + 1] != name_roots:
                continue
            if len(name_roots) == 1 and name_roots[0] in OTHER_UNITS and place and facts.words[place - 1].is_number:
                continue  # '95 dB 2 h': the unit of what stands before it
            longest = max(longest, len(name_roots) * (facts.words[place].sentence == facts.words[at].sentence))
    return longest


def name_after(facts: Facts, asked: AskedInput, at: int) -> bool:
    """Whether one of the input's names stands right behind a number, or one word further: '40 browser tabs'."""
    sized = _size_behind(facts, at)
    for skip in (1, 2, sized) if sized else (1, 2):
        for name_roots in asked.names:
            if not name_roots or _has_digits(name_roots) or (len(name_roots) == 1 and name_roots[0] in SAYS_NOTHING):
                continue
            if facts.roots[at + skip : at + skip + len(name_roots)] == name_roots:
                between = facts.words[at + 1 : at + skip]
                if skip == sized or all(
                    w.text not in SAYS_NOTHING
                    and not w.is_number
                    and (w.text[0].isalpha() or w.text == "-")
                    and w.text not in ("x", "on", "in", "for")
                    for w in between
                ):
                    return facts.words[at].sentence == facts.words[at + skip].sentence
    return False


def counts_them(facts: Facts, asked: AskedInput, at: int) -> bool:
    """Whether a number counts what was named before it: 'textures 8k, 30 of them'."""
    behind = [w.text for w in facts.words[at + 1 : at + 3]]
    if behind[:1] != ["of"] or behind[-1] not in ("them", "those", "these"):
        return False
    counted = asked.counted | {roots[0] for roots in asked.names if len(roots) == 1}
    before = [root for root, word in zip(facts.roots[:at], facts.words, strict=False)
              if word.sentence == facts.words[at].sentence]  # fmt: skip
    return bool(counted & set(before))


def _size_behind(facts: Facts, at: int) -> int:
    """How many words a picture's size right behind a number takes, and one more: '200 4k textures'. 0 where none."""
    beside = facts.words[at + 1 : at + 3]
    if len(beside) > 1 and beside[0].is_number and beside[1].text == "k" and beside[0].end == beside[1].start:
        return 3  # '40 2k textures'
    for size in facts.sizes:
        if 0 <= size.start - facts.words[at].end <= 1:
            return 1 + sum(size.start <= word.start < size.end for word in facts.words)
    return 0


def _has_digits(name_roots: Sequence[str]) -> bool:
    return any(word[0].isdecimal() for word in name_roots)


def is_named(facts: Facts, asked: AskedInput, quantity: Quantity) -> bool:
    """Whether one of an input's own names stands in a number's sentence, or is its unit."""
    sentence = facts.words[quantity.at].sentence
    home = quantity.borrowed if quantity.borrowed >= 0 else quantity.at
    unit = unit_behind(facts, asked, home)[0]
    if (stem(unit),) in asked.names:
        return True
    callings = mentions(facts, by_first(Name(n, True) for n in asked.names))
    return any(
        facts.words[m.first].sentence == sentence and abs(m.first - quantity.at) <= _IN_ONE_BREATH for m in callings
    )
