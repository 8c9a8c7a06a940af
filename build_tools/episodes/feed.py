"""The corrections as an Atom feed, newest first."""

from __future__ import annotations

import datetime
import uuid
from collections.abc import Iterable

from build_tools.episodes.programme import Programme
from build_tools.episodes.sheet import Correction, Episode
from calculators.desk.svg import xml_text

PATH = "made/episodes/corrections.atom"
TYPE = "application/atom+xml"


def all_corrections(episodes: Iterable[Episode]) -> list[tuple[Episode, Correction]]:
    """Every correction with its episode, newest first."""
    corrections = [(e, c) for e in episodes for c in e.put_right]
    return sorted(corrections, key=lambda pair: (pair[1].date, pair[0].number, pair[1].segment), reverse=True)


def atom(episodes: Iterable[Episode], programme: Programme) -> str:
    """
    The feed.

    Args:
        episodes: All sheets. [list]
        programme: Its name and address. [object]

    Returns:
        The XML. [text]

    Source:
        RFC 4287. Dates are those of the corrections, so that the same sheets give the same bytes.

    Example:
        >>> atom([], Programme()).startswith("<?xml")
        True
    """
    rows = all_corrections(episodes)
    newest = rows[0][1].date if rows else datetime.date(1970, 1, 1)
    parts = [
        '<?xml version="1.0" encoding="utf-8"?>\n<feed xmlns="http://www.w3.org/2005/Atom">\n',
        f"<title>{xml_text(programme.name)}: corrections</title>\n<id>{_id(programme, 'corrections')}</id>\n",
        f"<updated>{newest}T00:00:00Z</updated>\n<author><name>{xml_text(programme.name)}</name></author>\n",
    ]
    if programme.address:
        page = xml_text(programme.url("episodes/index.html"))
        parts.append(f'<link rel="self" type="{TYPE}" href="{xml_text(programme.url(PATH))}"/>\n')
        parts.append(f'<link rel="alternate" type="text/html" href="{page}"/>\n')
    for episode, entry in rows:
        segment = episode.segment(entry.segment)
        question = segment.question if segment else episode.title
        key = f"{episode.slug}/{entry.segment}/{entry.date}/{entry.now}"
        page = programme.url(episode.path.removesuffix(".md") + f".html#segment-{entry.segment}")
        link = f'<link rel="alternate" type="text/html" href="{xml_text(page)}"/>' if page else ""
        title = f"Episode {episode.number}, {episode.title}: {question}"
        before = f"Said: {entry.was} " if entry.was else ""
        warns = "What we said can hurt: do not do it. " if entry.dangerous else ""
        parts.append(
            f"<entry><title>{xml_text(title)}</title><id>{_id(programme, key)}</id>"
            f"<updated>{entry.date}T00:00:00Z</updated>{link}"
            f'<content type="text">{xml_text(f"{warns}{before}Now: {entry.now} {entry.why}")}</content></entry>\n'
        )
    return "".join([*parts, "</feed>\n"])


def _id(programme: Programme, key: str) -> str:
    """A lasting name for a feed or an entry; the same for the same key."""
    return f"urn:uuid:{uuid.uuid5(uuid.NAMESPACE_URL, f'{programme.address or programme.name}/{key}')}"
