"""
The answer page as a link from the programme shows it: with the numbers of that question worked out in its HTML.

So whoever follows the link sees what was answered on air before any script runs, and where none does.
"""

from __future__ import annotations

import json
import posixpath
import re

from build_tools.episodes import clock, record
from build_tools.episodes.sheet import Episode, Segment
from build_tools.markdown_blocks.blocks import JUMPS, calculator_html
from calculators.desk.svg import escape

_SECTION = '<section class="wa-calculator" data-calculator="{name}"'
_PREFIX = re.compile(r'data-prefix="([^"]*)" aria-label="([^"]*)"')
_DATA = re.compile(r'<script type="application/json" class="wa-data"[^>]*>(.*?)</script>', re.S)
_HEAD_ENDS = '<div class="wa-asks-inside">'
_TAIL_BEGINS = '<div class="wa-form-place">'
_BETWEEN = re.compile(r'<div class="wa-between">.*?(?=<div class="wa-details">)', re.S)
_ADDRESS = re.compile(r'(\s(?:href|src)=")([^"]*)(")')
_ELSEWHERE = re.compile(r"[a-z][a-z0-9+.-]*:|//|#|/", re.I)
_CANONICAL = re.compile(r'<link rel="canonical"[^>]*>')


def page(built: str, answer: str, word: str, episode: Episode, segment: Segment) -> str:
    """
    An answer page made over for one question of an episode.

    Args:
        built: The answer page's HTML, as its generator made it.
        answer: Its path below answers/, without an ending.
        word: The short address.
        episode: The episode, for its corrections.
        segment: The question, with its calculator and inputs.

    Returns:
        HTML whose addresses hold from go/<word>/index.html.

    Raises:
        ValueError: The page does not show the segment's calculator; the check of the sheets tells that before.
    """
    result = segment.result()
    if result is None:
        raise ValueError(f"segment {segment.number} names no calculator")
    start = built.find(_SECTION.format(name=escape(result.calculator.name)))
    end = built.find("</section>\n", start)
    if start < 0 or end < 0:
        raise ValueError(f"answers/{answer} shows no {result.calculator.name}")
    section = built[start:end]
    named, data = _PREFIX.search(section), _DATA.search(section)
    if named is None or data is None:
        raise ValueError(f"answers/{answer}: the markup of {result.calculator.name} is not what was expected")
    presets = tuple(json.loads(data[1].replace("<\\/", "</"))["presets"])
    origin = _origin(episode, segment)
    head, tail = calculator_html(result, named[1], presets, origin=origin)
    jumps = _BETWEEN.search(section)
    between = section[section.index(_HEAD_ENDS) + len(_HEAD_ENDS) : section.index(_TAIL_BEGINS)]
    fresh = head + between + tail.replace(JUMPS, jumps[0] if jumps else "")
    whole = built[:start] + fresh.removesuffix("</section>\n") + built[end:]
    whole = _moved(whole, f"answers/{answer}.html", f"go/{word}/index.html")
    robots = '<meta name="robots" content="noindex">'  # the answer page itself is the one to be found
    return _CANONICAL.sub("", whole).replace("</head>", f"{robots}</head>", 1)


def _origin(episode: Episode, segment: Segment) -> str:
    """Where these numbers come from, with the correction if there is one."""
    at = f" at {clock.worded(segment.start)}" if segment.start is not None else ""
    # relative to the answer page: _moved turns this with all other addresses of that page
    address = f"../../{episode.path.removesuffix('.md')}.html#segment-{segment.number}"
    link = f'<a href="{escape(address)}">episode {episode.number}, {escape(episode.title)}</a>'
    asked = f'<q class="wa-viewers-words">{escape(segment.question)}</q>'
    lines = [f'<p class="wa-example wa-of-programme">As asked in {link}{at}: {asked}</p>']
    entry = record.latest(episode, segment.number)
    if entry:
        lines.append(
            f'<p class="wa-correction"><strong>Corrected on {entry.date}.</strong> {escape(entry.now)} '
            f"{escape(entry.why)}</p>"
        )
    return "".join(lines)


def _moved(html: str, old: str, new: str) -> str:
    """The page's addresses as they read from another place of the site; those within the page stay."""

    def put_right(match: re.Match[str]) -> str:
        address = match[2]
        if not address or _ELSEWHERE.match(address):
            return match[0]
        path, mark, fragment = address.partition("#")
        target = posixpath.normpath(posixpath.join(posixpath.dirname(old), path))
        return f"{match[1]}{posixpath.relpath(target, posixpath.dirname(new))}{mark}{fragment}{match[3]}"

    return _ADDRESS.sub(put_right, html)
