"""How well one number fits one input."""

from __future__ import annotations

from collections.abc import Sequence

from calculators.asking.facts import Facts, Quantity
from calculators.asking.inputs.measured_links import is_short_of_a_link
from calculators.asking.inputs.naming import NEAR, counts_them, name_after, name_before, named_next, words_away
from calculators.asking.inputs.plan import AskedInput
from calculators.asking.inputs.refresh_rates import (
    USUAL_REFRESH_RATES,
    is_frame_rate_beside,
    is_made,
    is_of_a_display,
    is_of_two_rates,
    is_rate_without_unit,
    is_shown_elsewhere,
)
from calculators.asking.inputs.units import SYMBOLS, declared_unit, foreign_unit, unit_behind
from calculators.asking.inputs.values import Score, accepted, plain_number
from calculators.asking.phrases import Mention
from calculators.asking.words import stem
from calculators.desk.inputs import Choice, Number, YesNo

# What ties a number to an input, in points. Only the order of the sums counts. They were set by trial on labelled
# questions: common practice, no source. First what is the number's own; exactly one of these counts.
_UNIT = 2.0  # it has a unit that the input takes; how near that is to the declared one comes on top (`plan`)
_NAME_BEHIND_A_COUNT = 3.0  # '40 tabs': as good as a unit of its own, since such an input has none
_MEMORY_RATE = 2.6  # 3600 alone is hardly anything else: as good as a unit that an input takes besides its own
_FILM_RATE_CHOSEN = 2.6  # 23.976 alone is a film's rate, and more a choice of one (this) …
_FILM_RATE_TYPED = 1.5  # … than any rate that can be typed
_NAME_BEFORE = 2.5  # 'mtu 9000': less than a declared unit, more than any number that is only of a usual size
_REFRESH_WITHOUT_UNIT = 1.6  # 144 alone: less than all that is told in words
_SHORT_OF_A_LINK = 1.6  # 940 alone: the same
# What comes on top.
_UNIT_IS_A_NAME = 0.9  # 'fps' both counts and names frames
_HZ_IS_A_NAME = 0.4  # of two inputs in Hz, a bare refresh is of the one that goes by it
_OF_A_DISPLAY = 0.8  # 'a 144 monitor': as good as a unit
_IS_AN_OPTION = 1.3  # '24 fps' where 24 is one of the options: more likely chosen than typed
_NAMED_BEFORE = 1.2  # beside a unit too: 'ping of 12 ms'
_NAMED_NEXT = 1.9  # '4 hours of grading': the strongest tie there is
_NAMED_NEAR = 1.6  # a name some words away, which loses 1/12 of it a word
_CHOICE_NEAR = 0.5  # an everyday choice some words away speaks a little
_FADES_OVER = 12  # words
EXACT = _UNIT + 1.0  # a number with the very unit that an input declares

_LIMITS = (["limit"], ["limit", "of"], ["limit", "about"], ["limit", "is"], ["limit", "around"])
_FILM_RATES = (23.976, 29.97, 59.94)  # Hz, as they are written; 24000/1001 and so on: SMPTE ST 2067-21, from memory
_LEAST_MEMORY_RATE, _MOST_MEMORY_RATE = 1066, 12000  # MT/s: DDR3's slowest, and above what anybody sells
_YEARS = range(1990, 2036)
_LAST_DIGITS_OF_MEMORY_RATES = (0, 3, 6, 7)  # 2133, 2666, 2667, 3200
_STORES = frozenset("ram memory vram ddr3 ddr4 ddr5 disk ssd drive card".split())  # have a size, and no rate in GB
_SIZES_IN_K = (1, 2, 4, 5, 6, 8, 12, 16)  # thousands of pixels, as sizes of pictures are told
_NO_RATE_IN_P_BELOW = 300  # 25p is a rate, 1080p a height


def score_of(facts: Facts, asked: AskedInput, quantity: Quantity, called: Sequence[Mention] = ()) -> Score | None:
    """How well a number fits an input; None where it does not. `called`: where the input's longer names stand."""
    entry = asked.entry
    if not isinstance(entry, (Number, Choice)) or isinstance(entry, YesNo):
        return None
    if isinstance(entry, Choice) and not any(o.value.replace(".", "").isdecimal() for o in entry.options):
        return None
    home = quantity.borrowed if quantity.borrowed >= 0 else quantity.at
    leading = [w.text for w in facts.words[max(0, quantity.at - 2) : quantity.at]]
    if "gb" in asked.units and (leading in _LIMITS or leading[-1:] in _LIMITS):
        return None  # a limit is nothing that is there or taken
    unit, last, nearness = unit_behind(facts, asked, home)
    if unit == "hz" and isinstance(entry, Choice) and ("fps",) in asked.names and is_frame_rate_beside(facts, quantity):
        return None  # '48 fps on 120 Hz': the film's are told
    beside = name_before(facts, asked, quantity.at) or name_after(facts, asked, last)
    if unit in ("k", "thousand") and quantity.value in _SIZES_IN_K and not beside:
        return None  # '300 small 2k ones' are pictures, no thousands
    if unit in ("gb", "tb") and isinstance(entry, Number) and entry.unit.endswith("/s"):
        behind = {word.text for word in facts.words[last + 1 : last + 3]}
        if behind & _STORES:
            return None  # '32 GB of memory' is no disk's rate
    if unit == "p" and quantity.value < _NO_RATE_IN_P_BELOW and not {"hz", "fps"} & set(asked.units):
        return None
    foreign = "" if unit else foreign_unit(facts, home)
    before = name_before(facts, asked, quantity.at)
    after = bool(not unit and name_after(facts, asked, home))
    if unit:
        points = _UNIT + nearness
        points += _UNIT_IS_A_NAME if {(stem(unit),), (unit,), (SYMBOLS.get(unit, ""),)} & set(asked.names) else 0.0
    else:
        points = _points_without_a_unit(facts, asked, quantity, foreign, bool(before), after)
    if not points or (quantity.spelled and not (unit or after)):
        return None
    if isinstance(entry, Number) and not unit and _is_width(facts, quantity.at):
        return None  # 'x2 gen 3' counts lanes
    if quantity.spelled and any(m.first <= quantity.at <= m.last and m.last - m.first < m.size for m in called):
        return None  # it belongs to the input's name: a single core
    if unit and _is_an_option(facts, asked, quantity, unit):
        points += _IS_AN_OPTION
    points += _points_for_names(facts, asked, quantity, called, last, bool(unit), bool(before))
    typed = facts.typed(quantity)
    if not unit and _is_times(facts, quantity.at):
        return None
    if "€" in asked.units and _is_below_zero(facts, quantity.at):
        return None  # no price, and not its amount either
    if _is_below_zero(facts, quantity.at) and accepted(entry, "-" + typed) is not None:
        typed = "-" + typed
    if quantity.spelled:
        typed = plain_number(quantity.value)
    if unit:
        typed = f"{typed} {declared_unit(asked, facts, home, last, unit)}"
    if accepted(entry, typed) is None:
        return None
    return Score(points, typed, entry.key)


def _points_without_a_unit(
    facts: Facts, asked: AskedInput, quantity: Quantity, foreign: str, before: bool, after: bool
) -> float:
    """What a bare number scores, by its size and by the words right beside it; 0 where nothing ties it."""
    entry = asked.entry
    in_hz = "hz" in asked.units
    if isinstance(entry, Number) and _is_memory_rate_without_unit(asked, quantity, foreign):
        return _MEMORY_RATE
    if in_hz and entry.key[-2:] in ("_a", "_b") and not foreign and is_of_two_rates(facts, quantity):
        return _REFRESH_WITHOUT_UNIT
    if (
        in_hz
        and isinstance(entry, Number)
        and is_rate_without_unit(facts, quantity)
        and (("hz",) in asked.names or not is_of_two_rates(facts, quantity))  # no frames: '240 worth it over 144'
    ):
        named = _HZ_IS_A_NAME if ("hz",) in asked.names else 0.0
        return _REFRESH_WITHOUT_UNIT + named + (_OF_A_DISPLAY if is_of_a_display(facts, quantity) else 0.0)
    if ("fps",) in asked.names and ("hz",) not in asked.names and is_made(facts, quantity):
        return _REFRESH_WITHOUT_UNIT
    if before and foreign in ("", "x"):
        return _NAME_BEFORE
    if entry.key.startswith("measured_") and not foreign and not quantity.spelled and is_short_of_a_link(quantity):
        return _SHORT_OF_A_LINK
    if entry.key.startswith("measured_") and after and not foreign and not quantity.spelled:
        return _NAME_BEFORE  # '600 measured'
    if not asked.units and (after or counts_them(facts, asked, quantity.at)):
        return _NAME_BEHIND_A_COUNT
    if isinstance(entry, Number) and quantity.value in _FILM_RATES and in_hz:
        return _FILM_RATE_TYPED
    if isinstance(entry, Choice) and asked.units and quantity.value in _FILM_RATES[:2]:
        return _FILM_RATE_CHOSEN
    return 0.0


def _is_an_option(facts: Facts, asked: AskedInput, quantity: Quantity, unit: str) -> bool:
    """Whether a number is one of the input's options, and no refresh that only happens to be one."""
    return (
        isinstance(asked.entry, Choice)
        and (quantity.value not in USUAL_REFRESH_RATES or is_shown_elsewhere(facts, quantity, unit))
        and any(o.value == plain_number(quantity.value) for o in asked.entry.options)
    )


def _points_for_names(
    facts: Facts, asked: AskedInput, quantity: Quantity, called: Sequence[Mention], last: int, unit: bool, before: bool
) -> float:
    """What the input's names add, by where they stand: right before the number, right behind its unit, or near."""
    if before:
        return _NAMED_BEFORE
    if unit and named_next(facts, asked, last):
        return _NAMED_NEXT
    last = max(last, quantity.at)
    away = words_away(facts, asked.sure_names, quantity.at, last)
    sentence = facts.words[quantity.at].sentence
    for mention in called:
        if facts.words[mention.first].sentence == sentence:
            away = min(away, max(1, quantity.at - mention.last, mention.first - quantity.at))
    if away <= NEAR:
        return _NAMED_NEAR * (1 - away / _FADES_OVER)
    aside = words_away(facts, asked.choices_near, quantity.at, last)
    return _CHOICE_NEAR * (1 - aside / _FADES_OVER) if aside <= NEAR else 0.0


def _is_times(facts: Facts, at: int) -> bool:
    """Whether a number is how many times another comes: '2 x 40 watt', which counts something else."""
    behind = facts.words[at + 1 : at + 3]
    if len(behind) < 2 or behind[0].text != "x" or not behind[1].is_number:
        return False
    return (behind[0].start > facts.words[at].end) == (behind[1].start > behind[0].end)  # 'gen 3 x4' is a width


def _is_below_zero(facts: Facts, at: int) -> bool:
    """Whether a minus stands glued before a number, and nothing glued before the minus: -20, no 16-18."""
    if not at or facts.words[at - 1].text != "-" or facts.words[at - 1].end != facts.words[at].start:
        return False
    return at < 2 or facts.words[at - 2].end < facts.words[at - 1].start


def _is_width(facts: Facts, at: int) -> bool:
    """Whether an x stands glued before a number and none before the x: x4, no 2x4."""
    if not at or facts.words[at - 1].text != "x" or facts.words[at - 1].end != facts.words[at].start:
        return False
    return at < 2 or not facts.words[at - 2].is_number


def _is_memory_rate_without_unit(asked: AskedInput, quantity: Quantity, foreign: str) -> bool:
    """A data rate alone, as people write it: 3200, 3600c18; no year."""
    if "mt/s" not in asked.units or foreign not in ("", "c", "cl") or quantity.spelled:
        return False
    value = quantity.value
    return (
        value == int(value)
        and _LEAST_MEMORY_RATE <= value <= _MOST_MEMORY_RATE
        and int(value) not in _YEARS
        and value % 10 in _LAST_DIGITS_OF_MEMORY_RATES
    )
