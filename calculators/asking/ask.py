"""The reader of questions: a text in, the answers for it out, with the inputs read and what is missing."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Any

from calculators.asking.danger import Danger, dangers
from calculators.asking.elsewhere import COURTESIES, THEMES, Theme
from calculators.asking.facts import Facts, gather
from calculators.asking.finding import Hit, Index, calculator_words, rank
from calculators.asking.inputs.values import Reading
from calculators.asking.kits import ADD, HAVE
from calculators.asking.reading import read_inputs
from calculators.asking.thesaurus import phrase_fields
from calculators.asking.words import cut, roots, stem
from calculators.catalogue import find
from calculators.desk.inputs import Choice, PrivateText

# How long a text may be, and how much is answered.
LONGEST = 6000  # characters; a longer text is not taken for a question
_READ_OF_IT = 1800  # characters; of a longer comment only its beginning is read, so that nobody waits for its length
MOST_ANSWERS = 5  # answers at most, as many as one looks through
ASKED_BACK = 4  # inputs asked for at most; more would be a form

# The weights below are in points of finding.rank, unless another unit is given; a word that no other page holds gives a
# page with it in the title 1.7. They were set by trying on labelled questions of our own (tests/calculators/asking),
# whose bars fail where a change does harm: common practice, no source. None stands on an edge: with a quarter
# less or a third more of any one, at most two of 292 questions get another page.
_NEARLY = 0.7  # of the best score: pages this near are ordered by what their calculators can read, too
_LOOKED_AT = 5  # pages so ordered at most, since each must be read for
_FOR_A_READING = 0.8  # points for a value that a page's calculator reads: less than one rare word of the page's own
_WITHOUT_DIGITS = 0.3  # of a reading with digits: a word may well be said of something else
_MOST_READINGS = 3.0  # readings that count, so that a calculator is not ahead merely because it has many inputs
_MAIN_CALCULATORS = 2  # of a page's: those further down are seldom what the page is about
_FOR_OWN_WORD = 0.8  # in readings: a word of the text that no other calculator of the page goes by
_FOR_PLACE = 0.9  # in readings: how far a calculator is ahead of the next one on the page, which the author put later
_BESIDE_THE_BEST = 0.45  # of the best score: an answer with less is not shown beside it
_FULLY_COVERED = 0.5  # share of the text's rare words that a page holds, from which on it is as sure as it can be

# When a text is about nothing here.
_LEAST = 3.55  # points, with those for what is known: two words that no other page holds
_FOR_WHAT_IS_KNOWN = 2.0  # points where all of it is known: a short question scores little, though most of it is known
_MOSTLY = 0.7  # the share known that counts as all: any question holds words that are of no subject
_APART = 6  # words that may stand between those that tell a theme, besides themselves
_PLACES_TRIED = 8  # places of a theme's rarest word that are looked at, so that a hostile text takes no longer
_ENOUGH_BESIDE = 12  # words besides a greeting: they ask something
_NEAREST = 3  # pages whose calculators may show that the text is of their subject after all
_NEARLY_ALL_READ = 4  # numbers that one calculator reads: the text is about it, whatever else it mentions
_SHORT = 40  # words; in a text no longer than this
_MUCH_READ = 2  # values are enough, if no theme is told


@dataclass(frozen=True, slots=True)
class Suggestion:
    """
    One answer to a question.

    page: such as "memory/add-bigger-sticks". calculator: or None. inputs: what was read. missing: keys of declared
    inputs that would decide most, best first. sure: from 0 to 1, how clear the page is beside the next.
    """

    page: str
    calculator: str | None
    inputs: tuple[Reading, ...]
    missing: tuple[str, ...]
    sure: float


@dataclass(frozen=True, slots=True)
class Asked:
    """What a text is answered with: dangers first, then answers; or why it is not read."""

    dangers: tuple[Danger, ...]
    answers: tuple[Suggestion, ...]
    refused: str = ""


def ask(text: str, index: Index) -> Asked:
    """
    The answers for a text.

    Args:
        text: A comment, as typed or pasted. [text]
        index: The index, made ready. [object]

    Returns:
        Dangers, and at most five answers, best first; none where nothing here answers it. Where a danger is told of,
        the answers carry no calculator. [object]

    Source:
        DESIGN rule of this project: danger first, never a guess.

    Example:
        >>> from calculators.asking.finding import prepare
        >>> ask("hello", prepare({"pages": []})).answers
        ()
    """
    if len(text) > LONGEST:
        warnings = tuple(dangers(text[:LONGEST]))
        return Asked(warnings, (), f"That is longer than a question: at most {LONGEST} characters are read. Send the "
                                   "part that asks.")  # fmt: skip
    warnings = tuple(dangers(text))
    facts = gather(text[:_READ_OF_IT])
    text_roots = roots(facts.text)
    hits = rank(text_roots, index, phrase_fields(facts.text))
    read = _Readings(facts)
    if not hits or (_is_elsewhere(facts, hits, index) and not _is_about_numbers(facts, read, hits)):
        return Asked(warnings, ())
    hits = _by_readings(read, hits)
    best = hits[0].score
    near = [hit for hit in hits if hit.score >= best * _BESIDE_THE_BEST][:MOST_ANSWERS]
    answers: list[Suggestion] = []
    for n, hit in enumerate(near):
        sure = _sure(hit, near, n)
        if warnings or not hit.page.calculators:
            answers.append(Suggestion(hit.page.name, None, (), (), sure))
            continue
        for name, readings in _calculators(read, text_roots, hit)[: 2 if n == 0 else 1]:
            answers.append(
                Suggestion(
                    hit.page.name,
                    name,
                    tuple(readings),
                    missing_of(name, _known(name, readings), index),
                    sure,
                )
            )
    return Asked(warnings, tuple(answers[:MOST_ANSWERS]))


class _Readings:
    """What each calculator reads in one text, read once."""

    def __init__(self, facts: Facts) -> None:
        self._facts = facts
        self._of: dict[str, list[Reading]] = {}

    def of(self, name: str) -> list[Reading]:
        if name not in self._of:
            self._of[name] = read_inputs(self._facts, name)
        return self._of[name]


def _by_readings(read: _Readings, hits: Sequence[Hit]) -> list[Hit]:
    """Pages of nearly equal score, ordered anew: what a page's calculators can read counts too."""
    least = hits[0].score * _NEARLY
    close = [hit for hit in hits[:_LOOKED_AT] if hit.score >= least]
    if len(close) < 2:
        return list(hits)
    judged = []
    for hit in close:
        most_given = 0.0
        for name in hit.page.calculators[:_MAIN_CALCULATORS]:
            readings = read.of(name)
            starts = {reading.start for reading in readings if any(c.isdecimal() for c in reading.words)}
            most_given = max(
                most_given, min(_MOST_READINGS, len(starts) + _WITHOUT_DIGITS * (len(readings) - len(starts)))
            )
        judged.append(replace(hit, score=hit.score + _FOR_A_READING * most_given))
    judged.sort(key=lambda hit: -hit.score)
    return [*judged, *(hit for hit in hits if hit not in close)]


def _calculators(read: _Readings, text_roots: Sequence[str], hit: Hit) -> list[tuple[str, list[Reading]]]:
    """A page's calculators, the one first that the text gives most to; at equal, as the page shows them."""
    judged = []
    for place, name in enumerate(hit.page.calculators):
        readings = read.of(name)
        own = calculator_words(name)
        others = [calculator_words(other) for other in hit.page.calculators if other != name]
        only_here = {word for word in text_roots if word in own and not any(word in other for other in others)}
        judged.append((len(readings) + _FOR_OWN_WORD * len(only_here) - _FOR_PLACE * place, -place, name, readings))
    judged.sort(key=lambda one: (one[0], one[1]), reverse=True)
    return [(name, readings) for _, _, name, readings in judged]


def _known(name: str, readings: Sequence[Reading]) -> set[str]:
    """What needs no asking back: what was read, but for an option that itself says that something is not told."""
    entries = {entry.key: entry for entry in find(name).inputs}
    vague = {
        (key, option.value)
        for key, entry in entries.items()
        if isinstance(entry, Choice)
        for option in entry.options
        if option.vague
    }
    return {reading.key for reading in readings if (reading.key, reading.value) not in vague}


def missing_of(name: str, known: set[str], index: Index) -> tuple[str, ...]:
    """
    Which inputs of a calculator would decide most of those that are not known.

    Args:
        name: The calculator. [text]
        known: Keys that are known. [set]
        index: The index, with what the build has measured. [object]

    Returns:
        Keys, the most decisive first; at most four. [tuple]

    Raises:
        UnknownCalculator: There is none of this name.

    Source:
        None: a look-up.

    Example:
        >>> from calculators.asking.finding import prepare
        >>> missing_of("memory.rate", {"cas"}, prepare({"pages": [], "decisive": {"memory.rate": ["rate", "cas"]}}))
        ('rate',)
    """
    calculator = find(name)
    private = [entry.key for entry in calculator.inputs if isinstance(entry, PrivateText) and not entry.optional]
    choices = {entry.key for entry in calculator.inputs if isinstance(entry, Choice)}
    asked: list[str] = []
    for key in (*private, *index.decisive.get(name, ())):
        twin = HAVE + key.removeprefix(ADD) if key.startswith(ADD) else ADD + key.removeprefix(HAVE)
        if key not in known and not (key in choices and twin in asked):
            asked.append(key)  # of two kits' generation one is asked: both are of one
    return tuple(asked[:ASKED_BACK])


def _sure(hit: Hit, near: Sequence[Hit], place: int) -> float:
    following = near[1].score if len(near) > 1 else 0.0
    lead = hit.score / (hit.score + following) if place == 0 else hit.score / (near[0].score * 2)
    return round(min(1.0, lead * min(1.0, 1.0 - _FULLY_COVERED + hit.covered)), 2)


@lru_cache(maxsize=1024)
def _all_roots(phrase: str) -> frozenset[str]:
    return frozenset(stem(word.text) for word in cut(phrase))


def _together(wanted: frozenset[str], places: Mapping[str, Sequence[int]]) -> bool:
    """Whether words stand near one another, in any order."""
    if not all(word in places for word in wanted):
        return False
    first, *others = sorted(wanted, key=lambda word: len(places[word]))
    gap = len(wanted) + _APART
    return any(all(any(abs(at - p) <= gap for p in places[w]) for w in others) for at in places[first][:_PLACES_TRIED])


def _asks_more(facts: Facts, courtesy: str) -> bool:
    """Whether a text says enough besides the sentences in which a courtesy stands: a greeting around a question."""
    roots_there = _all_roots(courtesy)
    polite = {
        word.sentence for word, root_there in zip(facts.words, facts.roots, strict=True) if root_there in roots_there
    }
    return sum(word.sentence not in polite for word in facts.words) >= _ENOUGH_BESIDE


def _is_about_numbers(facts: Facts, read: _Readings, hits: Sequence[Hit]) -> bool:
    """Whether so much of a short text is read by the nearest page's calculators that it can hardly be about else."""
    near = {name for hit in hits[:_NEAREST] for name in hit.page.calculators[:_MAIN_CALCULATORS]}
    if any(sum(any(c.isdecimal() for c in one.words) for one in read.of(name)) >= _NEARLY_ALL_READ for name in near):
        return True
    if len(facts.words) > _SHORT or any(_tells(theme, facts) for theme in THEMES):
        return False
    return any(len(read.of(name)) >= _MUCH_READ for name in near)


def theme_of(text: str) -> str:
    """
    The theme of a text that nothing here answers.

    Args:
        text: As typed. [text]

    Returns:
        The theme's title; nothing where none is told. [text]

    Source:
        None: a look-up.

    Example:
        >>> theme_of("my printer is out of ink"), theme_of("hello")
        ('Printers and scanners', '')
    """
    facts = gather(text[:_READ_OF_IT])
    return next((theme.title for theme in THEMES if _tells(theme, facts)), "")


def _tells(theme: Theme, facts: Facts) -> bool:
    places: dict[str, list[int]] = {}
    for at, word in enumerate(facts.roots):
        places.setdefault(word, []).append(at)
    return any(_together(_all_roots(phrase), places) for phrase in theme.phrases)


def _is_elsewhere(facts: Facts, hits: Sequence[Hit], index: Index) -> bool:
    """Whether the text asks for what nothing here answers: too little in common, or another theme fits better."""
    if max(hit.score + _FOR_WHAT_IS_KNOWN * min(hit.covered, _MOSTLY) for hit in hits[:_LOOKED_AT]) < _LEAST:
        return True
    best = max(hits, key=lambda hit: hit.own)
    places: dict[str, list[int]] = {}
    for at, word in enumerate(facts.roots):
        places.setdefault(word, []).append(at)
    for theme in THEMES:
        phrases_there = (phrase for phrase in theme.phrases if _together(_all_roots(phrase), places))
        score = sum(
            index.unknown for phrase in phrases_there if phrase not in COURTESIES or not _asks_more(facts, phrase)
        )
        if score and score * theme.weight >= best.own:
            return True
    return False


def as_data(asked: Asked) -> Mapping[str, Any]:
    """What was found, ready for JSON."""
    return {
        **({"danger": [{"kind": d.kind, "sentence": d.sentence,
            "read": d.words} for d in asked.dangers]} if asked.dangers else {}),
        **({"refused": asked.refused} if asked.refused else {}),
        "answers": [
            {
                "page": suggestion.page,
                "calculator": suggestion.calculator,
                "inputs": {reading.key: reading.value for reading in suggestion.inputs},
                "read": {reading.key: reading.words for reading in suggestion.inputs},
                "missing": list(suggestion.missing),
                "sure": suggestion.sure,
            }
            for suggestion in asked.answers
        ],
    }  # fmt: skip
