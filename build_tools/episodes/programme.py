"""The programme's own settings, from `extra: programme:` in mkdocs.yml."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from build_tools.episodes.timecode import rate_fault
from build_tools.markdown_blocks.marked_yaml import NotYaml, load
from build_tools.markdown_blocks.mistakes import Mistake
from build_tools.markdown_blocks.reading import CannotRead, read_text
from calculators.desk.errors import nearest_names

FILE = "mkdocs.yml"
# What video sites took for a description when this was written; a setting, since they change it.
# Common practice, no source.
USUAL_LIMIT = 5000
# And for a chapter's title, so that it is read whole beside the time line.
# Common practice, no source.
USUAL_CHAPTER = 40
TEXTS = {
    "name": "the programme's name",
    "address": "the site's address, from which links in descriptions lead on",
    "corrections": "where 'this is wrong' goes: an e-mail address or a page",
    "questions": "where to ask what is not answered here",
}
LIMITS = ("description_limit", "chapter_limit")
KEYS = (*TEXTS, *LIMITS, "invented", "frame_rate", "drop_frame")
_ADDRESS = re.compile(r"https?://[^\s/]+(?:/\S*)?")


@dataclass(frozen=True, slots=True)
class Programme:
    """
    Its name, the site's address ('' where there is none yet), and the longest description its site takes.

    site: the site's own name. corrections, questions: where viewers send them, an e-mail address or a page's address.
    chapter_limit: the most characters of a chapter's title. frame_rate, drop_frame: of recordings whose sheet does
    not tell them; '' where it is not known.
    """

    name: str = "This programme"
    address: str = ""
    description_limit: int = USUAL_LIMIT
    invented: bool = False
    site: str = "Worked Answers"
    corrections: str = ""
    questions: str = ""
    chapter_limit: int = USUAL_CHAPTER
    frame_rate: str = ""
    drop_frame: bool = False

    def url(self, path: str) -> str:
        """A page's address; '' without the site's."""
        return f"{self.address.rstrip('/')}/{path}" if self.address else ""


def read(project: Path) -> Programme:
    """The settings in a project's mkdocs.yml; the defaults for what is not there or cannot be read."""
    return _read(project)[0]


def mistakes(project: Path) -> list[str]:
    """What is wrong in mkdocs.yml as far as the programme goes, with its line and what to write."""
    return [str(each) for each in _read(project)[1]]


def not_filled_in(project: Path) -> list[Mistake]:
    """What the settings leave open: texts without which pages, cards and descriptions lack something."""
    settings, wrong, given, lines = _whole(project)
    if wrong or not (project / FILE).is_file():
        return []
    whole = lines.get(("extra", "programme"), lines.get(("extra",), 1))
    open_ones = [
        Mistake(FILE, lines.get(("extra", "programme", key), whole), f"'{key}:' is not filled in: {what}")
        for key, what in TEXTS.items()
        if not getattr(settings, key) or (key == "name" and not given.get("name"))
    ]
    if "invented" not in given:
        open_ones.append(Mistake(FILE, whole, "'invented:' is not filled in: false for a real programme"))
    return open_ones


def _read(project: Path) -> tuple[Programme, list[Mistake]]:
    settings, wrong, _, _ = _whole(project)
    return settings, wrong


def _whole(project: Path) -> tuple[Programme, list[Mistake], Mapping[str, Any], Mapping[tuple[Any, ...], int]]:
    """The settings, what is wrong with them, what was given, and on which lines."""
    path = project / FILE
    if not path.is_file() and not path.is_symlink():
        return Programme(), [], {}, {}
    try:
        whole, lines = load(read_text(path), foreign_tags=True)
    except (CannotRead, NotYaml) as problem:
        return Programme(), [Mistake(FILE, problem.line, f"cannot be read: {problem}")], {}, {}
    wrong: list[Mistake] = []

    def note(where: tuple[str, ...], message: str) -> None:
        wrong.append(Mistake(FILE, lines.get(where, 1), message))

    def inner(of: Any, where: tuple[str, ...]) -> Mapping[str, Any]:
        if of is None:
            return {}
        if not isinstance(of, dict):
            note(where, f"'{where[-1] if where else FILE}' must be written as 'key: value', one a line")
            return {}
        return {str(key): value for key, value in of.items()}

    top = inner(whole, ())
    extra = inner(top.get("extra"), ("extra",))
    given = inner(extra.get("programme"), ("extra", "programme"))
    for key in given:
        if key not in KEYS:
            near = nearest_names(key, KEYS)
            known = f"did you mean {near[0]}?" if near else f"there are {', '.join(KEYS)}"
            note(("extra", "programme", key), f"the programme has no setting '{key}'; {known}")
    values: dict[str, Any] = {}
    for key in TEXTS:
        value = given.get(key)
        if isinstance(value, str) and value.strip():
            values[key] = value.strip()
        elif value not in (None, ""):
            note(("extra", "programme", key), f"'{key}:' needs a text, which stands best in quotes; got {value!r:.40}")
    if "address" in values and not _ADDRESS.fullmatch(values["address"]):
        note(("extra", "programme", "address"), f"'address:' reads https://answers.example; got '{values['address']}'")
        del values["address"]
    for key in LIMITS:
        value = given.get(key)
        if isinstance(value, int) and not isinstance(value, bool) and value > 0:
            values[key] = value
        elif value is not None:
            note(("extra", "programme", key), f"'{key}:' is a number of characters; got {value!r:.40}")
    if given.get("invented") not in (None, True, False):
        note(("extra", "programme", "invented"), "'invented:' is true or false, without quotes")
    rate, drop = str(given.get("frame_rate") or "").strip(), given.get("drop_frame")
    if drop not in (None, True, False):
        note(("extra", "programme", "drop_frame"), "'drop_frame:' is true or false, without quotes")
    if rate and (fault := rate_fault(rate, drop is True)):
        note(("extra", "programme", "frame_rate"), fault)
    elif rate:
        values |= {"frame_rate": rate, "drop_frame": drop is True}
    site = top.get("site_name")
    if isinstance(site, str) and site.strip():
        values["site"] = site.strip()
    elif site is not None:
        note(("site_name",), f"'site_name:' needs a text, which stands best in quotes; got {site!r:.40}")
    return Programme(**values, invented=given.get("invented") is True), wrong, given, lines
