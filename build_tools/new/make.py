"""Makes new things: knows where each kind lives and what it must be called."""

from __future__ import annotations

import datetime
import re
import shutil
import subprocess
from pathlib import Path

from build_tools import keeping
from build_tools.episodes import sheet
from build_tools.markdown_blocks.pages import answer_pages
from build_tools.new import skeletons
from build_tools.new.writing import CannotMake, slug, write_all
from calculators import catalogue
from calculators.desk.errors import nearest_names

_NAME = re.compile(r"([a-z][a-z0-9_]*)\.([a-z][a-z0-9_]*)")
# What a knowledge base elsewhere needs of this one; its pages and episodes are its own.
TOOLS = (
    "build_tools", "calculators", "tests/calculators", "tests/check_values", "tests/conftest.py", ".ci", ".gitignore",
    "mkdocs.yml", "pyproject.toml", "requirements.lock", "package.json", "package-lock.json", "LICENSE",
    "DEVELOPERS.md", "docs/about.md", "docs/sources.md", "docs/index.md", "docs/episodes/index.md",
)  # fmt: skip


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

    Source:
        None.

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
    text = skeletons.EPISODE.format(
        title=title.strip(),
        today=today or datetime.date.today(),
        question=first.question,
        answer=first.path.removeprefix("answers/").removesuffix(".md"),
    )
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
        room / f"{short}.py": skeletons.CALCULATOR.format(name=name, title=title.replace('"', "'")),
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


def new_site(project: Path, target: Path, today: datetime.date | None = None) -> list[Path]:
    """
    An empty knowledge base elsewhere, with these calculators and tools and one example of each kind of page.

    Only files that git tracks are taken, or all where there is no git.
    """
    if target.exists() and (not target.is_dir() or any(target.iterdir())):
        raise CannotMake(f"{target} is there already and is not empty; choose another folder")
    if project.resolve() in target.resolve().parents:
        raise CannotMake(f"{target} lies inside this project; choose a folder elsewhere")
    for path in _tracked(project):
        place = target / path
        place.parent.mkdir(parents=True, exist_ok=True)
        shutil.copyfile(project / path, place)
    day = today or datetime.date.today()
    readme = target / "README.md"
    keeping.keep(
        readme,
        "# Our answers\n\n```\npython3 -m build_tools serve     # sets everything up, builds the site, shows it\n"
        "python3 -m build_tools check     # what is missing, overdue or too long to say\n```\n\n"
        'Write answers with `python3 -m build_tools new answer "…" --subject memory`, episodes with '
        '`new episode "…"`. DEVELOPERS.md tells the rest.\n',
    )
    written = [readme]
    written += new_answer(target, "What do the numbers on my memory kit mean?", "memory", "memory.rate", day)
    written += new_episode(target, "Our first episode", day)
    return written


def _tracked(project: Path) -> list[Path]:
    """The files that belong to the project and are wanted elsewhere, by their path inside it."""
    try:
        done = subprocess.run(
            ["git", "ls-files", "-z", "--", *TOOLS], cwd=project, capture_output=True, text=True, timeout=60
        )
        names = done.stdout.split("\0") if done.returncode == 0 else []
    except (OSError, subprocess.TimeoutExpired):
        names = []
    paths = [Path(n) for n in names if n]
    if not paths:
        for tool in TOOLS:
            root = project / tool
            found = [root] if root.is_file() else sorted(root.rglob("*")) if root.is_dir() else []
            paths += [p.relative_to(project) for p in found if p.is_file() and "__pycache__" not in p.parts]
    return [p for p in paths if (project / p).is_file()]
