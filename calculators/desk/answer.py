"""What a calculator gives: a headline with everything that stands behind it. Knows no rendering."""

from __future__ import annotations

from dataclasses import dataclass, field

from calculators.desk.numbers import number, settled, with_unit
from calculators.desk.svg import Drawing

YES, DEPENDS, NO = "yes", "depends", "no"


@dataclass(frozen=True, slots=True)
class Verdict:
    """
    One of yes, depends and no, with its reason in a sentence.

    says: the same in the words of the question, such as 'Too quiet.', where a bare yes or no would not answer it.
    """

    word: str
    reason: str
    says: str = ""

    def __post_init__(self) -> None:
        if self.word not in (YES, DEPENDS, NO):
            raise ValueError(f"a verdict is yes, depends or no, got {self.word}")

    def said(self) -> str:
        """What is said first: the words of its own, or Yes, It depends, No."""
        return self.says or {YES: "Yes.", DEPENDS: "It depends.", NO: "No."}[self.word]


@dataclass(frozen=True, slots=True)
class Figure:
    """
    A named result. `value` is a finite number, settled to 12 significant digits, or a text.

    main: shown large, right below the headline (at most four of them fit a screen card).
    only_json: for programs alone, where the number is right but misleads whoever sees it, such as how many
    seconds a deafening level would be 'allowed'; no page, text, card or inline figure shows it.
    """

    key: str
    label: str
    value: float | str
    unit: str = ""
    text: str = ""
    main: bool = False
    only_json: bool = False

    def __post_init__(self) -> None:
        if self.main and self.only_json:
            raise ValueError(f"figure {self.key} cannot be both shown large and for programs alone")


def figure(
    key: str,
    label: str,
    value: float | str,
    unit: str = "",
    places: int = 2,
    main: bool = False,
    *,
    only_json: bool = False,
) -> Figure:
    """
    A figure with its text made from its value.

    Args:
        key: Its name in JSON and inline figures. [text]
        label: Its name for readers. [text]
        value: A finite number, or a text. [unit]
        unit: The unit. [text]
        places: Most digits after the point. [1]
        main: Shown large.
        only_json: For programs alone; nothing that people read shows it.

    Returns:
        The figure. [unit]

    Raises:
        ValueError: The number is not finite, or the figure is both shown large and for programs alone.

    Source:
        DESIGN rule of this project: 12 significant digits.

    Example:
        >>> figure("latency_ns", "Latency", 10.0, "ns").text
        '10 ns'
    """
    if isinstance(value, str):
        return Figure(key, label, value, unit, value, main, only_json)
    if not isinstance(value, int):
        value = settled(value)
    return Figure(key, label, value, unit, with_unit(number(value, places), unit), main, only_json)


@dataclass(frozen=True, slots=True)
class Working:
    """One line of the working: what is done, the formula, the numbers put in, and what comes out."""

    what: str
    formula: str
    numbers: str
    result: str


@dataclass(frozen=True, slots=True)
class Column:
    """A table's column; numbers stand right-aligned with even digits."""

    label: str
    numeric: bool = False


@dataclass(frozen=True, slots=True)
class Table:
    """Rows of worded cells. `marked` holds the numbers of the rows that are the viewer's own."""

    title: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[str, ...], ...]
    note: str = ""
    marked: tuple[int, ...] = ()

    def __post_init__(self) -> None:
        for row in self.rows:
            if len(row) != len(self.columns):
                raise ValueError(f"table '{self.title}': a row has {len(row)} cells for {len(self.columns)} columns")


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """
    One step of a plan. Only `title` and `do` must be there.

    group: the heading under which it stands. commands: typed exactly so. why, see, otherwise, back: why it is
    done, what one should see, what to do if one does not, how to undo it. tags: for machines, to hold rules
    against. minutes: least and most. caution: what can go wrong here. deeper: comes only if the steps before it
    did not help, so all but its title and its check stands folded on a page.
    """

    key: str
    title: str
    do: tuple[str, ...]
    group: str = ""
    commands: tuple[str, ...] = ()
    why: str = ""
    see: str = ""
    otherwise: str = ""
    back: str = ""
    caution: str = ""
    tags: tuple[str, ...] = ()
    minutes: tuple[float, float] | None = None
    deeper: bool = False

    def risky(self) -> bool:
        """Whether data, settings or the picture can be lost here: it removes, resets or swaps something."""
        return any(tag.startswith(_RISKY_TAGS) for tag in self.tags)


# Beginnings of the tags of steps in which something can be lost.
_RISKY_TAGS = ("removes:", "sets:", "touches:", "takes_picture", "asks_for_key", "last_resort")


@dataclass(frozen=True, slots=True)
class Note:
    """A titled explanation: what the result means, or a common mistake put right."""

    title: str
    text: str


@dataclass(frozen=True, slots=True)
class Caution:
    """
    What can hurt, and whom to defer to.

    risk: one of hearing, data, machine, person. first: stands before everything else. short: at most eight words
    for the one line right below a headline, and for screen cards, such as 'Turn the volume down first.' tag: the
    danger, or what to do about it, in at most two words for a still, such as 'Copy files'.
    """

    risk: str
    text: str
    defer: str = ""
    first: bool = False
    short: str = ""
    tag: str = ""

    def __post_init__(self) -> None:
        if self.risk not in ("hearing", "data", "machine", "person"):
            raise ValueError(f"a caution is about hearing, data, machine or person, got {self.risk}")
        if len(self.short.split()) > 8:
            raise ValueError(f"a caution's short form has at most eight words: {self.short}")
        if len(self.tag.split()) > 2:
            raise ValueError(f"a caution's tag has at most two words: {self.tag}")


STANDARD, LIBRARY, COMMON_PRACTICE, FROM_MEMORY = "standard", "library", "common practice", "from memory"


@dataclass(frozen=True, slots=True)
class Source:
    """
    Where a formula, constant, limit or rule of thumb comes from.

    title: body and document with its edition. clause: the equation, table or clause. standing: a published
    standard (or book), a library, common practice without a source, or from memory (published, but quoted
    without the document at hand).
    """

    title: str
    clause: str = ""
    standing: str = STANDARD

    def __post_init__(self) -> None:
        if self.standing not in (STANDARD, LIBRARY, COMMON_PRACTICE, FROM_MEMORY):
            raise ValueError(f"unknown standing of a source: {self.standing}")

    def say(self) -> str:
        """The source in one line."""
        standing = {
            STANDARD: "",
            LIBRARY: "",
            COMMON_PRACTICE: "common practice, no source",
            FROM_MEMORY: "as we remember it; not looked up again",
        }[self.standing]
        return ", ".join(part for part in (self.title, self.clause, standing) if part)


@dataclass(frozen=True, slots=True)
class File:
    """
    A file that the answer gives, such as a sound or a picture.

    For a picture: words, what there is to see; size, its width and height in pixels; ground, the colour to
    show around it where it stands alone on the screen, as '#rrggbb'.
    """

    name: str
    media: str
    data: bytes
    words: str = ""
    size: tuple[int, int] | None = None
    ground: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """
    A result with everything that stands behind it.

    headline: one sentence that holds the result, fit to be read out or pasted.
    """

    headline: str
    verdict: Verdict | None = None
    figures: tuple[Figure, ...] = ()
    working: tuple[Working, ...] = ()
    tables: tuple[Table, ...] = ()
    steps: tuple[Step, ...] = ()
    steps_title: str = ""
    drawings: tuple[Drawing, ...] = ()
    notes: tuple[Note, ...] = ()
    files: tuple[File, ...] = ()
    cautions: tuple[Caution, ...] = ()
    sources: tuple[Source, ...] = field(default=())

    def __post_init__(self) -> None:
        keys = [f.key for f in self.figures]
        if len(set(keys)) != len(keys):
            raise ValueError(f"two figures share a key: {', '.join(keys)}")

    def shown_figures(self) -> tuple[Figure, ...]:
        """The figures that people may see: all but those for programs alone."""
        return tuple(f for f in self.figures if not f.only_json)
