"""Where a text names one of a few things: a name's words in their order, near one another, not denied."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from calculators.asking.asides import is_aside
from calculators.asking.facts import Facts
from calculators.asking.number_words import in_digits
from calculators.asking.words import cut, plain, stem

_GAP = 2
_LONGEST = 20  # no name stretches over more words
_DENIALS = frozenset("no not without isnt arent dont doesnt never nor".split())
_PARTS_NAMES = frozenset("need needs or vs".split())  # between two words of a name: it is no name
_OFF = frozenset("off disabled disable deactivated".split())


@dataclass(frozen=True, slots=True)
class Name:
    """One way of naming something: the roots of its words, and what it stands for."""

    roots: tuple[str, ...]
    stands_for: Any


@dataclass(frozen=True, slots=True)
class Mention:
    """A name in a text: from which word to which, what it stands for, whether the text denies it."""

    first: int
    last: int
    stands_for: Any
    size: int
    denied: bool


def name(text: str, stands_for: Any) -> Name:
    """A name ready to be looked for."""
    small, _ = in_digits(plain(text))
    return Name(tuple(stem(word.text) for word in cut(small) if word.text not in "()\"',-"), stands_for)


def by_first(many: Iterable[Name]) -> dict[str, list[Name]]:
    """Names by their first word, longest first."""
    table: dict[str, list[Name]] = {}
    for one in many:
        if one.roots:
            table.setdefault(one.roots[0], []).append(one)
    for names in table.values():
        names.sort(key=lambda n: -len(n.roots))
    return table


def mentions(facts: Facts, table: Mapping[str, Sequence[Name]]) -> list[Mention]:
    """
    All names in a text, in order; a shorter one inside a longer one is left out.

    Args:
        facts: The text. [object]
        table: The names, as by_first gives them. [mapping]

    Returns:
        Mentions. [list]

    Source:
        Common practice, no source.

    Example:
        >>> from calculators.asking.facts import gather
        >>> table = by_first([name("hdmi", 1), name("hdmi 2.0", 2)])
        >>> [m.stands_for for m in mentions(gather("HDMI 2.0 at the tv, plain hdmi here"), table)]
        [2, 1]
    """
    candidates: list[Mention] = []
    for at, first in enumerate(facts.roots):
        for one in table.get(first, ()) if not is_aside(facts.asides, facts.words[at].start) else ():
            last = _follow(facts, at, one.roots)
            if last is not None:
                candidates.append(
                    Mention(at, last, one.stands_for, len(one.roots), _is_denied(facts, at, last, one.roots))
                )
    longer: dict[int, list[Mention]] = {}
    for mention in candidates:
        if mention.size > 1:
            longer.setdefault(mention.first, []).append(mention)
    outermost = []
    for mention in candidates:
        inside = any(
            other.size > mention.size
            and mention.last <= other.last
            and _same_thing(other.stands_for, mention.stands_for)
            for first in range(max(0, mention.first - _LONGEST), mention.first + 1)
            for other in longer.get(first, ())
        )
        if not inside:
            outermost.append(mention)
    return outermost


def _same_thing(one: Any, other: Any) -> bool:
    """Whether two names stand for values of one input, where what they stand for tells it."""
    return not isinstance(one, tuple) or not isinstance(other, tuple) or one[0] == other[0]


def _follow(facts: Facts, at: int, wanted: Sequence[str]) -> int | None:
    """The place of a name's last word, where its words follow one another closely in one sentence."""
    place = at
    for word in wanted[1:]:
        gap = 0 if word[0].isdecimal() or facts.roots[place][0].isdecimal() else _GAP
        for step in range(1, gap + 2):
            beyond = place + step
            if step > 1 and facts.words[beyond - 1].text in _PARTS_NAMES:
                return None
            if beyond >= len(facts.words) or facts.words[beyond].sentence != facts.words[at].sentence:
                return None
            if facts.roots[beyond] == word:
                place = beyond
                break
            if facts.words[beyond].text == "-" and gap == 0 and facts.roots[beyond + 1 : beyond + 2] == (word,):
                place = beyond + 1
                break
        else:
            return None
    return place


def _is_denied(facts: Facts, first: int, last: int, own: Sequence[str]) -> bool:
    sentence = facts.words[first].sentence
    before = [w.text for w in facts.words[max(0, first - 4) : first] if w.sentence == sentence]
    for barrier in (",", "but", "though", "however", "while"):
        while barrier in before:
            before = before[before.index(barrier) + 1 :]
    after = [w.text for w in facts.words[last + 1 : last + 3] if w.sentence == sentence]
    if own[0] in _DENIALS:
        return False
    return any(w in _DENIALS for w in before) or any(w in _OFF for w in after)
