"""Sources and cautions of an episode on one page, in the site's own colours and faces, that needs no other file."""

from __future__ import annotations

import base64
import re
from pathlib import Path

from build_tools.cards.command import face_css
from build_tools.environment import places
from build_tools.episodes.sheet import Episode
from calculators.desk.answer import Caution
from calculators.desk.svg import escape

_STYLE = Path(__file__).with_name("sources_page.css")
_TOKENS = places.PROJECT / "build_tools" / "browser" / "style" / "tokens.css"
_TEXT_FACE = "@fontsource-variable/stix-two-text/files/stix-two-text-latin-wght-normal.woff2"
FIRST = ' class="first"'
_DARK = re.compile(r'^\[data-scheme="dark"\] \{.*?^\}', re.M | re.S)


def page(project: Path, episode: Episode) -> str:
    """
    The page: cautions first, the gravest on top, then sources, each once with the questions it belongs to.

    Args:
        project: The project folder, for the faces. [path]
        episode: The episode, from a sheet without mistakes. [object]

    Returns:
        HTML, whole in itself. [text]
    """
    cautions: dict[tuple[str, str], tuple[Caution, list[int]]] = {}
    sources: dict[str, list[int]] = {}
    for segment in episode.segments:
        first = segment.result()
        for result in [*([first] if first else []), *segment.further().values()]:
            for caution in result.answer.cautions:
                cautions.setdefault((caution.text, caution.defer), (caution, []))[1].append(segment.number)
            for source in result.answer.sources:
                sources.setdefault(source.say(), []).append(segment.number)
    warned = "".join(
        f"<li{FIRST if c.first else ''}>{escape(f'{c.text} {c.defer}'.strip())}{_where(numbers)}</li>"
        for c, numbers in sorted(cautions.values(), key=lambda each: not each[0].first)
    )
    rows = "".join(f"<li>{escape(shown)}{_where(numbers)}</li>" for shown, numbers in sorted(sources.items()))
    title = escape(f"{episode.number}. {episode.title}")
    return (
        f'<!doctype html>\n<html lang="en"><head><meta charset="utf-8">'
        f'<meta name="viewport" content="width=device-width, initial-scale=1"><title>{title}: sources and cautions'
        f"</title><style>{style(project)}</style></head><body><main><h1>{title}</h1>"
        f'<p class="facts">Recorded on {episode.recorded}. Sources and cautions, from the episode’s sheet.</p>'
        f"<h2>Cautions</h2><ul>{warned or '<li>None.</li>'}</ul>"
        f"<h2>Sources</h2><ul>{rows or '<li>None.</li>'}</ul></main></body></html>\n"
    )


def style(project: Path) -> str:
    """The site's colours by day and by night, its two faces, and what this page adds. On paper it is day."""
    tokens = _TOKENS.read_text("utf-8")
    dark = _DARK.search(tokens)
    if dark is None:
        raise ValueError(f"{_TOKENS.name} has no dark colours any more, or writes them otherwise")
    night = dark[0].replace('[data-scheme="dark"]', ":root")
    text_face = base64.b64encode((project / "node_modules" / _TEXT_FACE).read_bytes()).decode("ascii")
    rule = f"font-family:'WA Text';font-weight:400 700;src:url(data:font/woff2;base64,{text_face})"
    faces = f"{face_css(project)}@font-face{{{rule}}}"
    by_day = tokens.replace(dark[0], "")
    return (
        f"{faces}\n{by_day}@media screen and (prefers-color-scheme: dark) {{\n{night}\n}}\n{_STYLE.read_text('utf-8')}"
    )


def _where(numbers: list[int]) -> str:
    """The questions that a caution or source belongs to."""
    each = list(dict.fromkeys(numbers))
    named = "question" if len(each) == 1 else "questions"
    return f' <span class="where">{named} {", ".join(str(number) for number in each)}</span>'
