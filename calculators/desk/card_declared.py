"""
What a calculator declares for the screen: the hero, the line, the drawing, the figures, the working, the order.

And what stands for it where a calculator declares nothing. Knows no picture's size; desk/card_forms set it.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from calculators.desk.answer import DEPENDS, Answer, Caution, Verdict
from calculators.desk.svg import Drawing

LONGEST_HERO = 20  # characters
SMALLEST_DRAWN = 48.0  # type in a drawing, of a picture 1920 wide
MOST_LINE = 8  # words
MOST_VERDICT = 5  # words
MOST_FIGURES = 3
MOST_WORDS = 25  # on any step; question, address, caution strip and the drawing's labels not counted
MOST_NEW = 15  # words new on a step

# Drawn for a width and a height in the given size of type; None where that cannot be.
ScreenDrawing = Callable[[float, float, float], Drawing | None]


@dataclass(frozen=True, slots=True)
class Over:
    """A fraction in a line of mathematics."""

    top: str
    bottom: str


@dataclass(frozen=True, slots=True)
class Raised:
    """A power in a line of mathematics."""

    base: str
    exponent: str


Equation = tuple[str | Over | Raised, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Card:
    """
    One calculator's card for one answer.

    hero: the answer itself in at most 20 characters, unit and 'about' or 'at most' included; '' for none.
    line: one more thing in at most eight words; with the verdict *depends*, the condition. verdict: said on the card
    in at most five words, where the answer's own words are longer. drawing: drawn for the frame. figures: label
    and text of at most three further figures. working: one line of set mathematics, where it convinces.
    caution: the strip's words, where the answer's cautions have no short form.
    question: stands on top where nobody asked in other words and the calculator's title is too long for one line.
    topic: the same in one short line, for a side panel. The catalogue takes it from the subject's TOPICS.
    drawn_hero: the drawing shows what the hero says although it does not write it, so that it can stand alone.
    unjudged: the answer's verdict is on another matter than the card's question, and is left out.
    judged_last: the drawing is the evidence, and stands on the first step alone; the verdict comes with the hero.
    risk, grave, tag: of what the caution speaks, whether it comes before everything else, and its two words for a
    still; fitted() takes them from it.
    """

    hero: str = ""
    line: str = ""
    verdict: str = ""
    drawing: ScreenDrawing | None = None
    figures: tuple[tuple[str, str], ...] = ()
    working: Equation = ()
    caution: str = ""
    question: str = ""
    drawn_hero: bool = False
    unjudged: bool = False
    judged_last: bool = False
    topic: str = ""
    risk: str = ""
    grave: bool = False
    tag: str = ""


def words(text: str) -> int:
    """How many words a viewer reads: signs alone are none."""
    return sum(any(c.isalnum() for c in part) for part in text.split())


def equation_words(equation: Equation) -> int:
    """How many words and numbers a line of mathematics has."""
    parts = [
        f"{p.top} {p.bottom}" if isinstance(p, Over) else f"{p.base} {p.exponent}" if isinstance(p, Raised) else p
        for p in equation
    ]
    return words(" ".join(parts))


def _tidy(text: str) -> str:
    return " ".join(text.split()).rstrip(".")


def usual(answer: Answer) -> Card:
    """The card of a calculator that declares none: its first figures, its first drawing."""
    main = [f for f in answer.shown_figures() if f.main]
    hero = next((f for f in main if len(f.text) <= LONGEST_HERO), None)
    line = hero.label if hero else ""
    if answer.verdict and words(answer.verdict.reason) <= MOST_LINE:
        line = answer.verdict.reason
    elif answer.verdict and answer.verdict.word == DEPENDS:
        line = ""  # what it depends on is too long for a card, so the card shows no number without it
    drawing = next((d.for_card for d in answer.drawings if d.for_card), None)
    figures = tuple((f.label, f.text) for f in main if f is not hero)[:MOST_FIGURES]
    return Card(hero=hero.text if hero else "", line=line, drawing=drawing, figures=figures)


def fitted(card: Card, answer: Answer) -> Card:
    """The card within its limits: what is too long is left to the page, never cut."""
    line = _tidy(card.line)
    line = line if words(line) <= MOST_LINE else ""
    hero = _tidy(card.hero)
    if len(hero) > LONGEST_HERO or (answer.verdict and answer.verdict.word == DEPENDS and not line):
        hero = ""
    verdict = verdict_words(card, answer.verdict)
    used = words(verdict) + words(hero) + words(line)
    working = card.working if used + equation_words(card.working) <= MOST_WORDS else ()
    working = working if equation_words(working) <= MOST_NEW else ()
    used += equation_words(working)
    figures: list[tuple[str, str]] = []
    new = equation_words(working)
    for label, text in card.figures[:MOST_FIGURES]:
        more = words(label) + words(text)
        if used + more > MOST_WORDS or new + more > MOST_NEW:
            break
        figures.append((_tidy(label), _tidy(text)))
        used, new = used + more, new + more
    gravest = _gravest(answer.cautions)
    caution = caution_of(card, answer.cautions)
    shown = next((each for each in answer.cautions if each.short and each.short == caution), gravest)
    return Card(
        hero=hero, line=line, verdict=verdict, drawing=card.drawing, figures=tuple(figures), working=working,
        caution=caution, question=card.question,
        drawn_hero=card.drawn_hero, judged_last=card.judged_last, topic=card.topic,
        risk=gravest.risk if gravest else "", grave=gravest is not None and gravest.first,
        tag=card.tag or (shown.tag if shown else ""),
    )  # fmt: skip


def verdict_words(card: Card, verdict: Verdict | None) -> str:
    """The words beside the verdict's sign."""
    if verdict is None or card.unjudged:
        return ""
    for text in (card.verdict, verdict.said()):
        if text and words(text) <= MOST_VERDICT and len(text) <= 30:
            return _tidy(text)
    return _tidy(Verdict(verdict.word, verdict.reason).said())


_OF_RISK = {
    "hearing": "Mind your hearing: first read the page.",
    "data": "Your data first: read the page.",
    "machine": "Mind the machine: read the page.",
    "person": "Mind yourself: first read the page.",
}


def caution_of(card: Card, cautions: tuple[Caution, ...]) -> str:
    """The strip's words: the gravest caution in its short form."""
    if card.caution and words(card.caution) <= MOST_LINE:
        return card.caution
    gravest = _gravest(cautions)
    return (gravest.short or _OF_RISK[gravest.risk]) if gravest else ""


def _gravest(cautions: tuple[Caution, ...]) -> Caution | None:
    """The caution that comes before the others, one with a short form before one without."""
    return min(cautions, key=lambda c: (not c.first, not c.short), default=None)


class Figures:
    """An answer's figures by key, for declarations: None or '' where an answer has no such figure."""

    def __init__(self, answer: Answer) -> None:
        self._by_key = {f.key: f for f in answer.shown_figures()}

    def number(self, key: str) -> float | None:
        """A figure's value, where it is a number."""
        figure = self._by_key.get(key)
        return float(figure.value) if figure and not isinstance(figure.value, str) else None

    def text(self, key: str) -> str:
        """A figure as it is worded."""
        figure = self._by_key.get(key)
        return figure.text if figure else ""

    def label(self, key: str) -> str:
        """A figure's name for readers."""
        figure = self._by_key.get(key)
        return figure.label if figure else ""

    def numbers(self, *keys: str) -> list[float] | None:
        """Several values, or None where one of them is missing."""
        values = [self.number(key) for key in keys]
        return [v for v in values if v is not None] if None not in values else None

    def ends(self, key: str) -> tuple[float, float] | None:
        """A value's least and most: the same twice where it is known, or what the figures with _low and _high say."""
        exact = self.number(key)
        if exact is not None:
            return exact, exact
        ends = self.numbers(f"{key}_low", f"{key}_high")
        return (ends[0], ends[1]) if ends else None


def own_drawing(answer: Answer, at: int = 0) -> ScreenDrawing | None:
    """One of the answer's own drawings, drawn anew for the screen."""
    return answer.drawings[at].for_card if len(answer.drawings) > at else None


def first_drawn(*drawings: ScreenDrawing | None) -> ScreenDrawing:
    """The first of several drawings that can be drawn in a room: the fuller in smaller words before the plainer."""

    def drawn(width: float, height: float, size: float) -> Drawing | None:
        for each in drawings:
            made = each(width, height, size) if each else None
            if made is not None:
                return made
            if each and size > SMALLEST_DRAWN and each(width, height, SMALLEST_DRAWN) is not None:
                return None
        return None

    return drawn
