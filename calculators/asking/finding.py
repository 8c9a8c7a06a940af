"""
Which answer pages a question is about: a ranking by rare words and whole phrases, by sums that one can check by hand.

Knows pages as the index gives them, and calculators by what they declare.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import lru_cache
from typing import Any

from calculators.asking.thesaurus import fields_of
from calculators.asking.words import root, roots
from calculators.catalogue import find, names
from calculators.desk.functions import power
from calculators.desk.inputs import Choice, Estimate, Input, Number

# How much a word counts by where a page has it. Found by trying on questions of our own.
IN_TITLE, IN_WORDS, IN_ASKED, IN_SHORT, IN_CALCULATOR = 2.5, 2.5, 1.5, 1.0, 0.35
_EVEN = 2.0  # the weight at which a word counts half of its worth: more of the same word adds less and less
_PHRASE = 0.6  # how much a whole phrase adds, times the worth of its words
_RARER = 0.85  # the power of a word's rarity: the rarest words are often the least to the point
_FIELD = 0.55  # what a word of a field adds where a page has other words of that field
_DECLARED = (1.0, 0.5, 0.3)  # what a page's own fields count, the first one most
_HELD = 0.5  # and fields of which it only has words
_MOST_OF_A_FIELD = 2.0  # of one field no more than so many words count
_NEARLY = 0.6  # what a word counts that is nearly one that pages hold
_SHORTEST_MISTYPED = 6  # letters
_GAP = 4  # words that may stand between those of a phrase


@dataclass(frozen=True, slots=True)
class Page:
    """One answer page in the index, its words weighed."""

    name: str
    subject: str
    calculators: tuple[str, ...]
    weights: Mapping[str, float]
    phrases: tuple[tuple[str, ...], ...]
    fields: Mapping[str, float] = field(default_factory=dict)  # how much of each field of the thesaurus it holds


@dataclass(frozen=True, slots=True)
class Index:
    """The pages, the rarity of each word among them, that of an unknown word, and which inputs decide most."""

    pages: tuple[Page, ...]
    rarity: Mapping[str, float]
    unknown: float
    decisive: Mapping[str, Sequence[str]] = field(default_factory=dict)
    by_letter: Mapping[str, Sequence[str]] = field(default_factory=dict)  # its words, by their first letter


@dataclass(frozen=True, slots=True)
class Hit:
    """
    A page with its score, and the part of the text's rare words that it holds. [1], 0 to 1.

    own: the score of the page's own words alone, without those of the same field: by it texts are turned away.
    """

    page: Page
    score: float
    covered: float
    own: float = 0.0


def prepare(data: Mapping[str, Any]) -> Index:
    """
    The index made ready for many questions.

    Args:
        data: What build_tools hands out: pages and decisive inputs. [object]

    Returns:
        The index. [object]

    Raises:
        KeyError: A page lacks one of its parts.

    Source:
        Weighing a word by how few pages hold it: common practice, no source.

    Example:
        >>> prepare({"pages": [], "decisive": {}}).pages
        ()
    """
    known = set(names())
    pages = tuple(_page(entry, known) for entry in data["pages"])
    count = Counter(word for page in pages for word in page.weights)
    total = len(pages)
    rarity = {word: power(math.log(1 + (total - n + 0.5) / (n + 0.5)), _RARER) for word, n in count.items()}
    unknown = power(math.log(1 + (total + 0.5) / 0.5), _RARER)
    by_letter: dict[str, list[str]] = {}
    for word in rarity:
        if len(word) >= _SHORTEST_MISTYPED - 1 and word.isalpha():
            by_letter.setdefault(word[0], []).append(word)
    return Index(_with_fields(pages), rarity, unknown, data.get("decisive", {}), by_letter)


def _with_fields(pages: Sequence[Page]) -> tuple[Page, ...]:
    """The pages, each with its own fields and, for less, with how much of every other it holds beside the others."""
    held: list[dict[str, float]] = []
    most: dict[str, float] = {}
    for page in pages:
        sums: dict[str, float] = {}
        for word, weight in page.weights.items():
            for name in fields_of(word):
                sums[name] = sums.get(name, 0.0) + weight
        held.append(sums)
        for name, total in sums.items():
            most[name] = max(most.get(name, 0.0), total)
    joined = []
    for page, sums in zip(pages, held, strict=True):
        fields = {name: _HELD * total / most[name] for name, total in sums.items()}
        for name, declared in page.fields.items():
            fields[name] = fields.get(name, 0.0) + declared
        joined.append(replace(page, fields=fields))
    return tuple(joined)


def _page(entry: Mapping[str, Any], known: set[str]) -> Page:
    weights: dict[str, float] = {}

    def add(text: str, weight: float) -> None:
        for word in roots(text):
            weights[word] = weights.get(word, 0.0) + weight

    add(entry["title"], IN_TITLE)
    if entry["question"] != entry["title"]:
        add(entry["question"], IN_TITLE / 2)
    for wording in entry["words"]:
        add(wording, IN_WORDS)
    for wording in entry.get("asked", ()):
        add(wording, IN_ASKED)
    add(entry["short"], IN_SHORT)
    calculators = tuple(name for name in entry["calculators"] if name in known)
    for name in calculators:
        for word in calculator_words(name):
            weights[word] = weights.get(word, 0.0) + IN_CALCULATOR
    phrases = [tuple(roots(wording)) for wording in (*entry["words"], *entry.get("asked", ()), entry["title"])]
    several = dict.fromkeys(phrase for phrase in phrases if len(phrase) > 1)
    fields = dict(zip(entry.get("fields", ()), _DECLARED, strict=False))
    return Page(entry["page"], entry["subject"], calculators, weights, tuple(several), fields)


@lru_cache(maxsize=256)
def calculator_words(name: str) -> frozenset[str]:
    """The roots of all words by which a calculator and its inputs go."""
    calculator = find(name)
    texts = [calculator.title, calculator.summary, *(preset.label for preset in calculator.presets)]
    texts += [text for asked in calculator.inputs if not asked.extra for text in input_words(asked)]
    return frozenset(word for text in texts for word in roots(text) if not word[0].isdecimal())


def input_words(asked: Input) -> Iterator[str]:
    """All that an input goes by: its label and names, its unit, its options and everyday values with theirs."""
    yield asked.label
    yield from asked.names
    if isinstance(asked, Number):
        yield asked.unit
        for named in asked.named:
            yield from (named.label, *named.names)
    if isinstance(asked, Estimate):
        for everyday in asked.choices:
            yield from (everyday.label, *everyday.names)
    if isinstance(asked, Choice):
        for option in asked.options:
            yield from (option.label, *option.names)


def rank(text_roots: Sequence[str], index: Index, from_phrases: Mapping[str, float] | None = None) -> list[Hit]:
    """
    The pages that share something with a text, best first.

    Args:
        text_roots: The text's words, as `roots` gives them. [list]
        index: The index. [object]
        from_phrases: Fields that the text's turns of phrase speak for, each with its weight. [mapping]

    Returns:
        Hits, best first; pages of equal score in the order of the index. [list]

    Source:
        Weighing a word by how few pages hold it, and less for each further time: common practice, no source.

    Example:
        >>> rank(["memory"], prepare({"pages": []}))
        []
    """
    counted = Counter(text_roots)
    places: dict[str, list[int]] = {}
    for at, word in enumerate(text_roots):
        places.setdefault(word, []).append(at)
    worth = {
        w: index.rarity.get(w, index.unknown) * (0.35 if w[0].isdecimal() and ":" not in w else 1.0) for w in counted
    }
    typed = {w: near for w in counted if w not in index.rarity and (near := _mistyped(w, index))}
    for word, near in typed.items():
        if near not in counted:
            counted[near], places[near], worth[near] = 1, places[word], _NEARLY * index.rarity[near]
    total = sum(worth.values()) or 1.0
    in_text = _fields_in(counted, from_phrases or {})
    hits = []
    for page in index.pages:
        score = covered = 0.0
        for word, times in counted.items():
            weight = page.weights.get(word)
            if weight:
                score += worth[word] * (weight / (weight + _EVEN)) * (1 + 0.25 * min(times - 1, 2))
                covered += worth[word]
        if not score:
            continue
        score += _PHRASE * _phrases(page, places, worth)
        alike = sum(times * page.fields[name] for name, times in in_text.items() if name in page.fields)
        hits.append(Hit(page, score + _FIELD * alike, covered / total, score))
    return sorted(hits, key=lambda hit: -hit.score)


def _mistyped(word: str, index: Index) -> str:
    """The one word of the index that differs by one letter more, less, another, or two in the wrong order."""
    if len(word) < _SHORTEST_MISTYPED or not word.isalpha():
        return ""
    near = [known for known in index.by_letter.get(word[0], ()) if _is_one_off(word, known)]
    return near[0] if len(near) == 1 else ""


def _is_one_off(one: str, other: str) -> bool:
    apart = len(one) - len(other)
    if not -1 <= apart <= 1:
        return False
    at = next((n for n, (a, b) in enumerate(zip(one, other, strict=False)) if a != b), min(len(one), len(other)))
    if apart:
        return one[at + 1 :] == other[at:] if apart > 0 else one[at:] == other[at + 1 :]
    swapped = one[at : at + 2] == other[at : at + 2][::-1]
    return one[at + 1 :] == other[at + 1 :] or (swapped and one[at + 2 :] == other[at + 2 :])


def _fields_in(counted: Mapping[str, int], from_phrases: Mapping[str, float]) -> dict[str, float]:
    """How many words of each field a text holds; one that is of several fields counts for each in part."""
    counts: dict[str, float] = dict(from_phrases)
    for word in counted:
        names_of_it = fields_of(word)
        for name in names_of_it:
            counts[name] = counts.get(name, 0.0) + 1 / len(names_of_it)
    return {name: min(times, _MOST_OF_A_FIELD) for name, times in counts.items()}


def _phrases(page: Page, places: Mapping[str, Sequence[int]], worth: Mapping[str, float]) -> float:
    """What the page's whole phrases add: for each pair of neighbouring words at most once."""
    pairs: dict[frozenset[str], float] = {}
    for phrase in page.phrases:
        if phrase[0] not in places or not all(word in places for word in phrase):
            continue  # the first alone tells of nearly every one, and is soon looked up
        gap = _GAP + len(phrase)
        first = places[phrase[0]]
        if any(all(any(abs(at - p) <= gap for p in places[w]) for w in phrase[1:]) for at in first[:8]):
            pairs[frozenset(phrase)] = (
                sum(worth[word] for word in set(phrase)) / len(set(phrase)) * (1 + 0.35 * (len(set(phrase)) - 1))
            )
    best = sorted(pairs.values(), reverse=True)[:3]
    return sum(value / (n + 1) for n, value in enumerate(best))


__all__ = ["Hit", "Index", "Page", "calculator_words", "input_words", "prepare", "rank", "root"]
