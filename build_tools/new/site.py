"""
A knowledge base of one's own in another folder, and what it takes over from here later.

What was taken from here is noted in the other folder with a mark of each file's content. So a file that is still as it
was given may be brought up to date, and one that was changed there is nobody's to write over.
"""

from __future__ import annotations

import hashlib
import json
import re
import shutil
import subprocess
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from build_tools import keeping
from build_tools.markdown_blocks.pages import answer_pages
from build_tools.new import site_pages
from build_tools.new.writing import CannotMake
from calculators.desk.errors import nearest_names

NOTED = ".taken-over.json"
ASIDE = ".to-look-at"
ALL = "all"
EXAMPLE = "memory/kit-numbers"  # what stands in a new site where no answers were asked for
# What stays here: this programme's own pages, and tests of the tools, which are tried here.
_OURS = re.compile(
    r"README\.md|CHANGELOG\.md|\.presenter/.*|docs/answers/.*|docs/episodes/\d.*|docs/images/page\.png"
    r"|tests/(?!calculators/|check_values/|conftest\.py|random_inputs\.py|processor_time\.py).*"
)
_NOT_OURS = frozenset({".git", ".venv", "node_modules", ".cache", "site", "__pycache__"})
_LINK = re.compile(r"\[([^\]\n]*)\]\(([^)#\s]+\.md)(#[^)\s]*)?\)")


@dataclass(frozen=True, slots=True)
class Own:
    """What a programme says of itself; empty where that is still to be filled in."""

    name: str = ""
    address: str = ""
    invented: bool = False


@dataclass(frozen=True, slots=True)
class Taken:
    """What became of the files: written anew, brought up to date, left because they were changed there, taken away."""

    written: tuple[str, ...] = ()
    renewed: tuple[str, ...] = ()
    left: tuple[str, ...] = ()
    removed: tuple[str, ...] = ()


def new_site(project: Path, target: Path, own: Own, answers: Sequence[str] = ()) -> list[Path]:
    """
    A knowledge base in an empty folder: these calculators and tools, its own name, and answers that stand here.

    Args:
        project: This project. [path]
        target: A folder that is not there yet, or is empty. [path]
        own: Its name and address. [object]
        answers: 'all', or subjects whose answers to copy; one answer as an example where empty. [list]

    Returns:
        The files that are for its owner to look at first. [list]

    Raises:
        CannotMake: The folder is in use or inside this project, or a subject is not known.
        CannotKeep: A file could not be written.

    Example:
        >>> Own().invented
        False
    """
    if target.exists() and (not target.is_dir() or any(target.iterdir())):
        raise CannotMake(f"{target} is there already and is not empty; choose another folder")
    if project.resolve() in target.resolve().parents:
        raise CannotMake(f"{target} lies inside this project; choose a folder elsewhere")
    chosen = _chosen(project, answers)
    wanted = _wanted(project, target, chosen, own)
    for name, data in wanted.items():
        place = target / name
        place.parent.mkdir(parents=True, exist_ok=True)
        if (project / name).is_file() and (project / name).read_bytes() == data:
            shutil.copyfile(project / name, place)
        else:
            keeping.keep(place, data, fresh=True)
    # the README is theirs from here on
    _note(target, chosen, {name: _mark(name, data) for name, data in wanted.items() if name != "README.md"})
    shown = [*site_pages.OWN, *(name for name in wanted if name.startswith("docs/answers/"))]
    return [target / name for name in shown if name in wanted]


def take_over(project: Path, target: Path, answers: Sequence[str] = ()) -> Taken:
    """
    Bring what another site took from here up to date, and write over nothing that was changed there.

    Args:
        project: This project. [path]
        target: A site that `new_site` has made. [path]
        answers: Further answers to copy, as for `new_site`. [list]

    Returns:
        What became of the files. [object]

    Raises:
        CannotMake: The folder is no such site, or a subject is not known.
        CannotKeep: A file could not be written; what was written before stays.

    Example:
        >>> Taken().left
        ()
    """
    noted, earlier = _noted(target)
    chosen = _chosen(project, [*earlier, *answers])
    wanted = _wanted(project, target, chosen, None)
    written, renewed, left, removed = [], [], [], []
    marks = dict(noted)
    for name, data in wanted.items():
        place, fresh = target / name, _mark(name, data)
        there = place.read_bytes() if place.is_file() else None
        if there is None and name in noted:
            continue  # taken away there, and on purpose
        if there is None:
            keeping.keep(place, data, before=False)
            written.append(name)
        elif there != data and noted.get(name) == fresh:
            continue  # nothing new here
        elif there != data and noted.get(name) == _mark(name, there):
            keeping.keep(place, data, before=name in site_pages.OWN)
            renewed.append(name)
        elif there != data:
            keeping.keep(target / ASIDE / name, data, before=False)
            left.append(name)
        marks[name] = fresh
    for name in sorted(set(noted) - set(wanted)):
        place = target / name
        if place.is_file() and noted[name] == _mark(name, place.read_bytes()):
            place.unlink()
            removed.append(name)
        del marks[name]
    _note(target, chosen, marks)
    return Taken(*(tuple(sorted(names)) for names in (written, renewed, left, removed)))


def _chosen(project: Path, answers: Iterable[str]) -> list[str]:
    """The subjects asked for, each once; 'all' alone where it is among them."""
    subjects = sorted({page.path.split("/")[1] for page in answer_pages(project / "docs")})
    wanted = [word for each in answers for word in re.split(r"[,\s]+", each) if word]
    for word in wanted:
        if word != ALL and word not in subjects:
            near = nearest_names(word, [*subjects, ALL])
            hint = f"did you mean {near[0]}?" if near else f"there are {', '.join(subjects)}, and {ALL}"
            raise CannotMake(f"there are no answers on '{word}' here; {hint}")
    return [ALL] if ALL in wanted else sorted(set(wanted))


def _wanted(project: Path, target: Path, chosen: Sequence[str], own: Own | None) -> dict[str, bytes]:
    """Every file that the other site has from here, with its content there; own: None where it has settings already."""
    made: dict[str, bytes] = {}
    for name in _tracked(project):
        if not _OURS.fullmatch(name):
            made[name] = (project / name).read_bytes()
    pages = [p.path for p in answer_pages(project / "docs")]
    taken = [p for p in pages if chosen == [ALL] or p.split("/")[1] in chosen]
    taken = taken or [p for p in pages if p == f"answers/{EXAMPLE}.md"] or pages[:1]
    there = {f"docs/{p}" for p in taken} | set(made)
    there |= {path.relative_to(target).as_posix() for path in (target / "docs").rglob("*.md")}
    for page in taken:
        name = f"docs/{page}"
        made[name] = _unlinked((project / name).read_text("utf-8"), name, there).encode("utf-8")
    settings = target / "mkdocs.yml"
    template = made["mkdocs.yml"].decode("utf-8")
    if own is not None:
        made["mkdocs.yml"] = site_pages.settings(template, own.name, own.address, own.invented).encode("utf-8")
        made["README.md"] = site_pages.readme(own.name).encode("utf-8")
        made["tests/test_our_pages.py"] = site_pages.TEST.encode("utf-8")
    else:
        if settings.is_file():
            made["mkdocs.yml"] = site_pages.with_settings_of(settings.read_text("utf-8"), template).encode("utf-8")
        made["tests/test_our_pages.py"] = site_pages.TEST.encode("utf-8")
    presenting = "docs/presenting.md"
    if presenting in made:
        made[presenting] = site_pages.without_the_example(made[presenting].decode("utf-8")).encode("utf-8")
    return made


def _unlinked(text: str, name: str, there: set[str]) -> str:
    """A page whose links to pages that the other site does not have are plain words."""
    folder = Path(name).parent

    def words(match: re.Match[str]) -> str:
        if "://" in match[2]:
            return match[0]
        parts: list[str] = []
        for part in (folder / match[2]).parts:
            if part == "..":
                parts = parts[:-1]
            else:
                parts.append(part)
        return match[0] if "/".join(parts) in there else match[1]

    return _LINK.sub(words, text)


def _mark(name: str, data: bytes) -> str:
    """A mark of a file's content; of mkdocs.yml without the programme's own settings, which are there to be changed."""
    if name == "mkdocs.yml":
        try:
            data = site_pages.without_settings(data.decode("utf-8")).encode("utf-8")
        except ValueError:
            pass  # changed beyond reading: then it is not as it was given
    return hashlib.sha256(data).hexdigest()


def _note(target: Path, chosen: Sequence[str], marks: Mapping[str, str]) -> None:
    notes = {"answers": list(chosen), "files": dict(sorted(marks.items()))}
    keeping.keep(target / NOTED, json.dumps(notes, indent=1) + "\n", before=False)


def _noted(target: Path) -> tuple[dict[str, str], list[str]]:
    path = target / NOTED
    if not path.is_file():
        raise CannotMake(f"{target} holds no {NOTED}, so it is no site that was made from here; make one: new site")
    try:
        note = json.loads(path.read_bytes())
        files, answers = note["files"], note["answers"]
        return {str(k): str(v) for k, v in files.items()}, [str(each) for each in answers]
    except (ValueError, KeyError, TypeError, AttributeError, RecursionError):
        raise CannotMake(f"{path} is damaged; get it back from your own history, or make a new site") from None


def _tracked(project: Path) -> list[str]:
    """The files that belong to the project, by their path inside it: those that git tracks, or all without git."""
    try:
        done = subprocess.run(["git", "ls-files", "-z"], cwd=project, capture_output=True, timeout=60)
        names = done.stdout.decode("utf-8", "surrogateescape").split("\0") if done.returncode == 0 else []
    except (OSError, subprocess.TimeoutExpired):
        names = []
    if not any(names):
        files = (p.relative_to(project) for p in project.rglob("*") if p.is_file())
        names = [p.as_posix() for p in files if not _NOT_OURS & set(p.parts) and p.parts[:2] != ("docs", "made")]
    return sorted(name for name in names if name and (project / name).is_file())
