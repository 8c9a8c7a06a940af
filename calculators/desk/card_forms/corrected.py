"""The card of a correction: what was said, struck out, and what holds now."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import replace

from calculators.desk.answer import DEPENDS
from calculators.desk.card_declared import MOST_WORDS, Card, words
from calculators.desk.card_forms.plan import Plan, Setting
from calculators.desk.card_forms.wide import wide_as, wide_card
from calculators.desk.card_parts import Code

LONGEST_CORRECTED = 28  # letters of a verdict that stands behind 'Corrected: ' in two lines


def corrected_card(setting: Setting) -> Plan:
    """A card for a correction: a sign of its own before the verdict, and the answer as it is now."""
    now = setting.card.verdict
    both = f"Corrected: {now[0].lower()}{now[1:]}" if now and len(now) <= LONGEST_CORRECTED else "Corrected"
    card = replace(setting.card, verdict=both, figures=(), working=())
    new = replace(setting, card=card, sign="corrected")
    plan = next((plan for each in _put_right(new) if (plan := each)), None) or wide_card(new)
    return Plan(plan.canvas, [("corrected", list(plan.canvas.parts))], plan.regions)


def _put_right(setting: Setting) -> Iterable[Plan | None]:
    """The corrected card with what was wrong, struck out, and what holds now: rather without address, drawing, line."""
    card, (was, now) = setting.card, setting.before
    if not was:
        return
    now = card.hero if card.hero and same_number(now, card.hero) else now
    figures = (("before", was), *([("now", now)] if now else []))
    depends = setting.verdict is not None and setting.verdict.word == DEPENDS
    fuller = [card] if depends or not card.line else [card, replace(card, line="")]
    fuller = [each for each in fuller if _said_words(replace(each, figures=figures)) <= MOST_WORDS]
    fuller.append(replace(card, line="", hero=""))
    codes = (setting.code, Code(setting.code.shown, None), Code("", None))  # rather no address than nothing of it
    for each in fuller:
        for drawn in (True, False):
            for code in codes:
                yield wide_as(replace(setting, card=replace(each, figures=figures), code=code), drawn)


def _said_words(card: Card) -> int:
    """How many words a card shows, its figures with their labels included."""
    return words(" ".join([card.verdict, card.hero, card.line, *(f"{a} {b}" for a, b in card.figures)]))


def same_number(one: str, other: str) -> bool:
    """Whether two texts tell the same numbers, one of them perhaps with fewer digits: 14.06 ns and 14.1 ns."""
    sides = [re.findall(r"\d+(?:\.\d+)?", text) for text in (one, other)]
    if not sides[0] or len(sides[0]) != len(sides[1]):
        return False
    digits = [min(len(each.partition(".")[2]) for each in pair) for pair in zip(*sides, strict=True)]
    pairs = zip(*sides, digits, strict=True)
    return all(abs(float(a) - float(b)) <= 0.51 * float(f"1e-{most}") for a, b, most in pairs)
