"""
Which answer pages a question is about: a ranking by rare words and whole phrases, by sums that one can check by hand.

Knows pages as the index gives them, and calculators by what they declare.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import lru_cache
from typing import Any

from calculators.asking.words import root, roots
from calculators.catalogue import find, names
from calculators.desk.inputs import Choice, Estimate, Input, Number

# How much a word counts by where a page has it. Found by trying on questions of our own.
IN_TITLE, IN_WORDS, IN_ASKED, IN_SHORT, IN_CALCULATOR = 2.5, 2.5, 1.5, 1.0, 0.35
_EVEN = 2.0  # the weight at which a word counts half of its worth: more of the same word adds less and less
_PHRASE = 0.9  # how much a whole phrase adds, times the worth of its words
_GAP = 4  # words that may stand between those of a phrase


@dataclass(frozen=True, slots=True)
class Page:
    """One answer page in the index, its words weighed."""

    name: str
    subject: str
    calculators: tuple[str, ...]
    weights: Mapping[str, float]
    phrases: tuple[tuple[str, ...], ...]


@dataclass(frozen=True, slots=True)
class Index:
    """The pages, the rarity of each word among them, that of an unknown word, and which inputs decide most."""

    pages: tuple[Page, ...]
    rarity: Mapping[str, float]
    unknown: float
    decisive: Mapping[str, Sequence[str]] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Hit:
    """A page with its score. covered: which part of the text's words it holds, by their rarity. [1], 0 to 1."""

    page: Page
    score: float
    covered: float


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
    rarity = {word: math.log(1 + (total - n + 0.5) / (n + 0.5)) for word, n in count.items()}
    unknown = math.log(1 + (total + 0.5) / 0.5)
    return Index(pages, rarity, unknown, data.get("decisive", {}))


def _page(entry: Mapping[str, Any], known: set[str]) -> Page:
    weights: dict[str, float] = {}

    def add(text: str, weight: float) -> None:
        for word in roots(text):
            weights[word] = weights.get(word, 0.0) + weight

    add(entry["title"], IN_TITLE)
    if entry["question"] != entry["title"]:
        add(entry["question"], IN_TITLE / 2)
    for said in entry["words"]:
        add(said, IN_WORDS)
    for said in entry.get("asked", ()):
        add(said, IN_ASKED)
    add(entry["short"], IN_SHORT)
    calculators = tuple(name for name in entry["calculators"] if name in known)
    for name in calculators:
        for word in calculator_words(name):
            weights[word] = weights.get(word, 0.0) + IN_CALCULATOR
    phrases = [tuple(roots(said)) for said in (*entry["words"], *entry.get("asked", ()), entry["title"])]
    several = dict.fromkeys(phrase for phrase in phrases if len(phrase) > 1)
    return Page(entry["page"], entry["subject"], calculators, weights, tuple(several))


@lru_cache(maxsize=256)
def calculator_words(name: str) -> frozenset[str]:
    """The roots of all words by which a calculator and its inputs go."""
    calculator = find(name)
    said = [calculator.title, calculator.summary, *(preset.label for preset in calculator.presets)]
    said += [text for asked in calculator.inputs for text in _input_words(asked)]
    return frozenset(word for text in said for word in roots(text) if not word[0].isdecimal())


def _input_words(asked: Input) -> Iterator[str]:
    if asked.extra:
        return
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


def rank(text_roots: Sequence[str], index: Index) -> list[Hit]:
    """
    The pages that share something with a text, best first.

    Args:
        text_roots: The text's words, as `roots` gives them. [list]
        index: The index. [object]

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
    total = sum(worth.values()) or 1.0
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
        hits.append(Hit(page, score, covered / total))
    return sorted(hits, key=lambda hit: -hit.score)


def _phrases(page: Page, places: Mapping[str, Sequence[int]], worth: Mapping[str, float]) -> float:
    """What the page's whole phrases add: for each pair of neighbouring words at most once."""
    pairs: dict[frozenset[str], float] = {}
    for phrase in page.phrases:
        if not all(word in places for word in phrase):
            continue
        gap = _GAP + len(phrase)
        first = places[phrase[0]]
        if any(all(any(abs(at - p) <= gap for p in places[w]) for w in phrase[1:]) for at in first[:8]):
            pairs[frozenset(phrase)] = (
                sum(worth[word] for word in set(phrase)) / len(set(phrase)) * (1 + 0.35 * (len(set(phrase)) - 1))
            )
    best = sorted(pairs.values(), reverse=True)[:3]
    return sum(value / (n + 1) for n, value in enumerate(best))


__all__ = ["Hit", "Index", "Page", "calculator_words", "prepare", "rank", "root"]
