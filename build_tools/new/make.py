"""Makes new things: knows where each kind lives and what it must be called."""

from __future__ import annotations

import datetime
import re
from pathlib import Path

from build_tools import keeping
from build_tools.episodes import sheet
from build_tools.markdown_blocks.pages import answer_pages
from build_tools.new import skeletons
from build_tools.new.writing import CannotMake, slug, write_all
from calculators import catalogue
from calculators.desk.errors import nearest_names

_NAME = re.compile(r"([a-z][a-z0-9_]*)\.([a-z][a-z0-9_]*)")


def new_answer(
    project: Path, title: str, subject: str, calculator: str = "", today: datetime.date | None = None
) -> list[Path]:
    """
    A new answer page.

    Args:
        project: The project folder. [path]
        title: The question, as a viewer asks it. [text]
        subject: Its subject, such as memory. [text]
        calculator: The calculator to show; the subject's first where not given. [text]
        today: The day it is written. [date]

    Returns:
        The files written. [list]

    Raises:
        CannotMake: The subject or the calculator is not known, or the page is there already.

    Example:
        >>> slug("Is it enough?")
        'is-it-enough'
    """
    if not re.fullmatch(r"[a-z][a-z0-9-]*", subject):
        raise CannotMake(f"a subject is one word in small letters, such as memory; got '{subject}'")
    known = catalogue.names()
    if calculator and calculator not in known:
        near = nearest_names(calculator, known)
        raise CannotMake(f"no calculator {calculator}" + (f"; did you mean {near[0]}?" if near else ""))
    chosen = calculator or next((n for n in known if n.startswith(f"{subject}.")), "")
    figure = ""
    if chosen:
        result = catalogue.find(chosen).run({})
        shown = result.answer.shown_figures()
        figure = shown[0].key if shown else "headline"
    path = project / "docs" / "answers" / subject / f"{slug(title)}.md"
    text = skeletons.answer(title.strip(), subject, chosen, figure, today or datetime.date.today())
    return write_all({path: text})


def new_episode(project: Path, title: str, today: datetime.date | None = None) -> list[Path]:
    """A new episode sheet with the next free number and one segment about the first answer there is."""
    docs = project / "docs"
    episodes, _ = sheet.read_all(docs)
    number = max((e.number for e in episodes), default=0) + 1
    pages = answer_pages(docs)
    if not pages:
        raise CannotMake("an episode needs an answer to point at; make one first: new answer")
    first = pages[0]
    answer = first.path.removeprefix("answers/").removesuffix(".md")
    text = skeletons.episode(title, today or datetime.date.today(), first.question, answer)
    return write_all({docs / "episodes" / f"{number:03}-{slug(title)}.md": text})


def new_calculator(project: Path, name: str, title: str = "", today: datetime.date | None = None) -> list[Path]:
    """A new calculator with its test and its page; listed in its subject, which is made where it is new."""
    match = _NAME.fullmatch(name)
    if match is None:
        raise CannotMake(f"a calculator is called subject.name in small letters, such as memory.rate; got '{name}'")
    subject, short = match[1], match[2]
    if subject in catalogue.SHARED_ROOMS:
        raise CannotMake(f"'{subject}' is a room that all subjects share; choose a subject")
    title = title.strip() or f"What does {name} work out?"
    room = project / "calculators" / subject
    day = today or datetime.date.today()
    files = {
        room / f"{short}.py": skeletons.CALCULATOR.format(name=name, title=skeletons.quoted(title)),
        project / "tests" / "calculators" / subject / f"test_{short}.py": skeletons.CALCULATOR_TEST.format(
            name=name, module=f"{subject}.{short}"
        ),
        project / "docs" / "answers" / subject / f"{slug(title)}.md": skeletons.answer(
            title, subject, name, "total", day
        ),
    }
    listing = room / "__init__.py"
    if not listing.exists():
        files[listing] = skeletons.SUBJECT.format(subject=subject.capitalize(), short=short)
        return write_all(files)
    text = listing.read_text("utf-8")
    listed = re.search(r"CALCULATORS(?:: [^=]+)? = \(([^)]*)\)", text)
    if listed is None:
        raise CannotMake(f"{listing} has no list CALCULATORS = (…) to enter the new one in")
    entries = [e for e in re.findall(r'"([a-z0-9_]+)"', listed[1]) if e != short] + [short]
    written = write_all(files)
    line = "CALCULATORS = (" + ", ".join(f'"{e}"' for e in entries) + ("," if len(entries) == 1 else "") + ")"
    keeping.keep(listing, text[: listed.start()] + line + text[listed.end() :], before=False)
    return [*written, listing]
