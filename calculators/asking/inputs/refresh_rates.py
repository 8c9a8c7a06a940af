"""Whether a number is a refresh rate, where no unit tells it, and whether frames are told beside it."""

from __future__ import annotations

from calculators.asking.facts import Facts, Quantity, behind
from calculators.asking.inputs.units import foreign_unit
from calculators.asking.words import SAYS_NOTHING, stem

# Refresh and frame rates that people write without a unit, in Hz. Common practice, no source.
USUAL_REFRESH_RATES = frozenset(
    {30, 50, 60, 75, 90, 100, 120, 144, 160, 165, 170, 180, 200, 240, 280, 300, 360, 480, 540}
)


_LEAST_COMPARED = 60  # Hz: bare numbers below are seldom two refresh rates
_LED_WITHIN = 2  # words before a bare refresh
_MADE_WITHIN = 3  # words: 'my card only 90'
# Before a bare refresh.
_LEADS = frozenset("get at to offers lists only does do want present current over have got going from".split())
_MAKES_FRAMES = frozenset("card gpu game games pc".split())
# Between two numbers: they are compared.
_AGAINST = (["or"], ["vs"], ["vs", "."], ["to"], ["versus"], ["over"], ["instead", "of"], ["rather", "than"], ["/"])
_DISPLAYS = tuple((stem(word),) for word in "panel monitor screen display tv television".split())


def refresh_of(facts: Facts, quantity: Quantity) -> float | None:
    """The refresh that a number is, by its unit or by its size and place; None where it is none."""
    if quantity.denied:
        return None
    units = [text for text, _ in behind(facts, quantity.at)]
    if "hz" in units or "hertz" in units or is_rate_without_unit(facts, quantity):
        return quantity.value
    return None


def is_rate_without_unit(facts: Facts, quantity: Quantity) -> bool:
    """Whether a number alone is a refresh: a usual one, behind such as 'get', 'only offers', 'at'."""
    if quantity.value not in USUAL_REFRESH_RATES or quantity.spelled or quantity.borrowed >= 0:
        return False
    before = [w.text for w in facts.words[max(0, quantity.at - _LED_WITHIN) : quantity.at]]
    after = facts.words[quantity.at + 1].text if quantity.at + 1 < len(facts.words) else "."
    led = any(text in _LEADS for text in before)
    if is_of_a_display(facts, quantity) or _stands_behind_a_display(facts, quantity):
        return True
    if before[-1:] == ["on"] and is_frame_rate_beside(facts, quantity) and not foreign_unit(facts, quantity.at):
        return True  # '50 fps on 144'
    if _MAKES_FRAMES & {w.text for w in facts.words[max(0, quantity.at - _MADE_WITHIN) : quantity.at]}:
        return False  # 'my card only 90' are frames
    return led and after not in "%€$" and (not after[0].isalnum() or after in SAYS_NOTHING)


def is_made(facts: Facts, quantity: Quantity) -> bool:
    """Whether a bare number is what a game or a card makes: 'the game only does 100'."""
    if quantity.value not in USUAL_REFRESH_RATES or quantity.spelled or foreign_unit(facts, quantity.at):
        return False
    return bool(_MAKES_FRAMES & {w.text for w in facts.words[max(0, quantity.at - _MADE_WITHIN) : quantity.at]})


def is_of_two_rates(facts: Facts, quantity: Quantity) -> bool:
    """Whether a bare number is one of two refresh rates that are held against each other: '360 vs 240'."""
    rates = [
        q for q in facts.quantities if q.value in USUAL_REFRESH_RATES and q.value >= _LEAST_COMPARED and not q.spelled
    ]
    for other in rates:
        first, second = sorted((quantity, other), key=lambda q: q.at)
        between = [w.text for w in facts.words[first.at + 1 : second.at] if w.text not in ("worth", "it")]
        if first.at != second.at and quantity in rates and between in _AGAINST:
            return True
    return False


def is_of_a_display(facts: Facts, quantity: Quantity) -> bool:
    """Whether a number stands right before a display: a 144 monitor."""
    return facts.roots[quantity.at + 1 : quantity.at + 2] in _DISPLAYS


def _stands_behind_a_display(facts: Facts, quantity: Quantity) -> bool:
    """Whether a number alone ends what is said of a display: 'monitor 144', 'the display is 120 and …'."""
    at = quantity.at - 1
    while at > 0 and facts.words[at].text in ("is", "a", "an", ":", "=", "runs", "at", "does", "has", "can", "do"):
        at -= 1
    if (
        at < 0
        or facts.roots[at : at + 1] not in _DISPLAYS
        or facts.words[at].sentence != facts.words[quantity.at].sentence
    ):
        return False
    after = facts.words[quantity.at + 1].text if quantity.at + 1 < len(facts.words) else "."
    return not after[0].isalnum() or (after in SAYS_NOTHING and after != "x")


def is_frame_rate_beside(facts: Facts, quantity: Quantity) -> bool:
    """Whether another number is told as frames."""
    others = (q for q in facts.quantities if q.at != quantity.at)
    return any(text in ("p", "fps") for q in others for text, _ in behind(facts, q.at))


def is_shown_elsewhere(facts: Facts, quantity: Quantity, unit: str) -> bool:
    """Whether frames are told beside a refresh: '24p on a 144 Hz panel'."""
    others = (q for q in facts.quantities if q.at != quantity.at)
    return unit in ("p", "fps") and any("hz" in (text for text, _ in behind(facts, q.at)) for q in others)
